//! What names an item of a list by its place goes on naming it, wherever it goes.

use crate::random_design::{Dice, random_design};
use hearthplan::design::difference::{What, differences, take_over};
use hearthplan::design::inputs::{
    ClosedBy, DerivedPart, Material, OwnMaterial, PartChange, StepKind,
};
use hearthplan::design::materials::MaterialError;
use hearthplan::design::quantity::System;
use hearthplan::design::{Choice, Design, Value, example, file};
use hearthplan::review::{Change, Verdict, assess};
use hearthplan::sizing::build_order::{Task, check, order, wrong_numbers};
use proptest::prelude::*;
use std::collections::BTreeMap;
use uom::si::f64::Mass;
use uom::si::mass::kilogram;

/// Lists that name others or are named.
const LISTS: [&str; 10] = [
    "hearth_layers",
    "body_layers",
    "lid_layers",
    "bottom_layers",
    "own_materials",
    "parts",
    "flanges",
    "joints",
    "build_steps",
    "part_changes",
];

/// Inputs whose items have nothing to tell without what they name.
const GO_ALONG: [&str; 2] = ["build_steps", "part_changes"];

/// The list and place that a value of an input names, whether there is such an item or not.
fn named(list: &str, input: &str, value: &Value) -> Option<(String, usize)> {
    match (list, input, value) {
        ("joints", "closing_joint" | "after", Value::Number(number))
        | ("build_steps", "joint", Value::Number(number)) => {
            Some(("joints".to_string(), (*number as usize).checked_sub(1)?))
        }
        (_, "material", Value::Choice(option)) => {
            let number: usize = option.strip_prefix("own_")?.parse().ok()?;
            Some(("own_materials".to_string(), number - 1))
        }
        ("part_changes", "piece", Value::Choice(option)) => {
            let (list, number) = option.rsplit_once('_')?;
            let number: usize = number.parse().ok()?;
            Some((list.to_string(), number - 1))
        }
        _ => None,
    }
}

/// A design whose items are numbered, so that each is known again.
struct Numbered {
    design: Design,
    ids: BTreeMap<&'static str, Vec<usize>>,
    next: usize,
}

impl Numbered {
    fn new(design: Design) -> Self {
        let mut next = 0;
        let mut new_ids = |count: usize| {
            next += count;
            (next - count..next).collect()
        };
        let ids = LISTS
            .iter()
            .map(|list| (*list, new_ids(design.list(list).unwrap().count())))
            .collect();
        Self { design, ids, next }
    }

    /// For each input that is in use and names an item: its item and name, the list, and the item named; none where it
    /// names nothing.
    fn names(&self) -> BTreeMap<(usize, &'static str), (String, Option<usize>)> {
        let mut names = BTreeMap::new();
        for list in LISTS {
            let info = Design::list_info(list).unwrap();
            for (place, id) in self.ids[list].iter().enumerate() {
                for input in info.inputs {
                    let path = Design::item_input(list, place, input.name);
                    let value = self.design.get(&path).unwrap();
                    if let Some((of, at)) = named(list, input.name, &value)
                        && self.design.in_use(&path)
                    {
                        let item = self.ids[of.as_str()].get(at).copied();
                        names.insert((*id, input.name), (of, item));
                    }
                }
            }
        }
        names
    }

    /// Does something to a list; gives the list back where an item was appended to it.
    fn arrange(&mut self, dice: &mut Dice) -> Option<&'static str> {
        let list = *dice.pick(&LISTS);
        let longest = Design::list_info(list).unwrap().longest;
        let ids = self.ids.get_mut(list).unwrap();
        let count = ids.len();
        let place = dice.below(count + 1);
        match dice.below(4) {
            0 if count < longest => {
                ids.insert(place, self.next);
                self.next += 1;
                self.design.insert_item(list, place);
                return (place == count).then_some(list);
            }
            1 if place < count && count < longest => {
                ids.insert(place + 1, self.next);
                self.next += 1;
                self.design.copy_item(list, place);
            }
            2 if place < count => {
                ids.remove(place);
                self.design.remove_item(list, place);
            }
            3 if place < count => {
                let to = dice.below(count);
                let id = ids.remove(place);
                ids.insert(to, id);
                self.design.move_item(list, place, to);
            }
            _ => {}
        }
        None
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(if cfg!(target_family = "wasm") { 5 } else { 60 }))]

    #[test]
    fn each_reference_names_the_same_item_or_none(seed in 0..100_000_u64) {
        let mut dice = Dice::new(seed);
        let mut numbered = Numbered::new(random_design(seed));
        for _ in 0..20 {
            let before = numbered.names();
            let appended = numbered.arrange(&mut dice);
            // What is about something that is gone goes along.
            for list in GO_ALONG {
                let is_gone = |id: &usize| {
                    let names = before.iter().find(|((item, _), _)| item == id);
                    names.is_some_and(|(_, (of, item))| {
                        item.is_some_and(|item| !numbered.ids[of.as_str()].contains(&item))
                    })
                };
                let mut left = numbered.ids[list].clone();
                left.retain(|id| !is_gone(id));
                numbered.ids.insert(list, left);
            }
            let count = |list: &str| numbered.design.list(list).unwrap().count();
            if GO_ALONG.iter().any(|list| count(list) != numbered.ids[list].len()) {
                // What named nothing may go too, where a full list has no number left that names nothing.
                let is_full = |list: &&str| count(list) == Design::list_info(list).unwrap().longest;
                prop_assert!(LISTS.iter().any(is_full));
                numbered = Numbered::new(numbered.design);
                continue;
            }
            let after = numbered.names();
            for (input, (of, now)) in &after {
                let Some((_, was)) = before.get(input) else {
                    continue;
                };
                let there = &numbered.ids[of.as_str()];
                match was {
                    Some(was) if there.contains(was) => prop_assert_eq!(now, &Some(*was), "{:?}", input),
                    // What is appended may be what was missing; a full list has no number left that names nothing.
                    _ if appended == Some(of.as_str()) || there.len() == 4 && of == "own_materials" => {}
                    _ => prop_assert_eq!(now, &None, "{:?}", input),
                }
            }
            for (input, (of, was)) in &before {
                let stays = was.is_some_and(|was| numbered.ids[of.as_str()].contains(&was));
                let item_stays = numbered.ids.values().flatten().any(|id| *id == input.0);
                prop_assert!(!stays || !item_stays || after.contains_key(input), "{:?}", input);
            }
        }
        let again = file::read(&file::write(&numbered.design)).unwrap();
        prop_assert!(again.design == numbered.design);
    }
}

/// The improved example with the joint in the shell closed in by the lid of the vessel.
fn closed_in_by_the_lid() -> Design {
    let mut design = example::as_improved();
    design.joints[2].closed_by = ClosedBy::Joint;
    design.joints[2].closing_joint = 4;
    design
}

fn buries(design: &Design) -> (Verdict, String) {
    let assessment = assess(design);
    let finding = assessment.finding("order.buries").unwrap();
    (finding.verdict, finding.compared.text(System::Metric))
}

#[test]
fn a_joint_is_closed_in_by_the_same_one_wherever_both_stand() {
    let design = closed_in_by_the_lid();
    let [outlet, lid] = [2, 3].map(|place: usize| design.joints[place].name.clone());
    let count = design.joints.len();
    for from in 0..count {
        for to in 0..count {
            let mut moved = design.clone();
            moved.move_item("joints", from, to);
            let place = |name: &str| moved.joints.iter().position(|joint| joint.name == name);
            let [outlet, lid] = [&outlet, &lid].map(|name| place(name).unwrap());
            let closing = moved.joints[outlet].closing_joint as usize;
            assert_eq!(closing, lid + 1, "{from} to {to}");
            let steps = order(&moved).unwrap();
            let at = |task| steps.iter().position(|step| step.task == task);
            assert!(
                at(Task::Test(outlet)) < at(Task::Make(lid)),
                "{from} to {to}"
            );
            // An own order is of the same joints as before.
            assert_eq!(check(&moved).len(), check(&design).len());
            assert_eq!(buries(&moved).0, buries(&design).0);
        }
    }
}

#[test]
fn what_closes_a_joint_in_and_is_gone_is_told() {
    let mut design = closed_in_by_the_lid();
    design.remove_item("joints", 3);
    assert_eq!(design.joints[2].closing_joint, 0);
    assert_eq!(wrong_numbers(&design), [2]);
    let (verdict, words) = buries(&design);
    assert_eq!(verdict, Verdict::CannotTell);
    assert!(
        words.contains("names a joint that is not in the list"),
        "{words}"
    );
}

#[test]
fn the_own_steps_of_a_joint_go_with_it_and_the_others_stay() {
    let mut design = example::as_improved();
    let steps = |design: &Design| -> Vec<(String, String)> {
        let joint = |number: u32| design.joints.get((number as usize).wrapping_sub(1));
        let named = design.build_steps.iter().map(|step| {
            let of = match step.kind {
                StepKind::CloseIn => None,
                _ => joint(step.joint).map(|joint| joint.name.clone()),
            };
            (step.name.clone(), of.unwrap_or_default())
        });
        named.collect()
    };
    let before = steps(&design);
    let gone = design.joints[4].name.clone();
    assert!(before.iter().any(|(_, joint)| *joint == gone));
    design.remove_item("joints", 4);
    let left: Vec<_> = (before.into_iter())
        .filter(|(_, joint)| *joint != gone)
        .collect();
    assert_eq!(steps(&design), left);
    assert_eq!(check(&design), []);
    assert_eq!(buries(&design).0, Verdict::Good);
}

#[test]
fn a_step_that_closes_in_stays_whatever_joint_it_does_not_mean() {
    let mut design = example::as_improved();
    let closes = |design: &Design| {
        let steps = design.build_steps.iter();
        steps.filter(|step| step.kind == StepKind::CloseIn).count()
    };
    let count = closes(&design);
    assert!(count > 0);
    for step in &mut design.build_steps {
        if step.kind == StepKind::CloseIn {
            step.joint = 1;
        }
    }
    design.remove_item("joints", 0);
    assert_eq!(closes(&design), count);
}

/// A hearth wall of castable and a steel jacket that was weighed.
fn with_a_weighed_jacket() -> Design {
    let mut design = example::as_improved();
    design.hearth_layers.remove(1);
    design.part_changes = vec![PartChange {
        piece: DerivedPart::HearthLayer2,
        mass: Some(Mass::new::<kilogram>(20.0)),
        price: Some(90.0),
        note: "jacket as weighed".to_string(),
    }];
    design
}

#[test]
fn a_weight_entered_by_hand_stays_with_its_layer() {
    let design = with_a_weighed_jacket();
    let blanket = Change::Insert {
        list: "hearth_layers",
        index: 1,
        fields: vec![("thickness", Value::Number(0.05))],
    };
    let changed = blanket.apply(&design).unwrap();
    assert_eq!(changed.part_changes[0].piece, DerivedPart::HearthLayer3);
    let lines = assess(&changed).workshop.parts;
    let mass = |key: &str| {
        let line = lines.iter().find(|line| line.key == Some(key)).unwrap();
        (line.mass.value, line.computed_mass.is_some())
    };
    assert_eq!(mass("hearth_layers_3"), (20.0, true));
    assert!(!mass("hearth_layers_2").1, "the blanket was not weighed");

    let mut moved = design.clone();
    moved.move_item("hearth_layers", 0, 1);
    assert_eq!(moved.part_changes[0].piece, DerivedPart::HearthLayer1);
    let mut without = design.clone();
    without.remove_item("hearth_layers", 1);
    assert_eq!(without.part_changes, []);
    let mut other = design.clone();
    other.remove_item("hearth_layers", 0);
    assert_eq!(other.part_changes[0].piece, DerivedPart::HearthLayer1);
    other.remove_item("body_layers", 0);
    assert_eq!(other.part_changes.len(), 1);
}

#[test]
fn a_layer_keeps_its_own_material_and_says_when_that_is_gone() {
    let mut design = Design::default();
    let own = |name: &str| OwnMaterial {
        name: name.to_string(),
        ..OwnMaterial::default()
    };
    design.own_materials = vec![own("Board"), own("Wool")];
    design.body_layers[0].material = Material::Own1;
    design.body_layers[1].material = Material::Own2;
    design.remove_item("own_materials", 0);
    assert_eq!(design.material_name(design.body_layers[1].material), "Wool");
    let gone = design.body_layers[0].material;
    assert!(matches!(
        design.material(gone),
        Err(MaterialError::NoOwnMaterial { .. })
    ));
    let (verdict, words) = {
        let assessment = assess(&design);
        let finding = assessment.finding("warmth.loss").unwrap();
        (finding.verdict, finding.compared.text(System::Metric))
    };
    assert_eq!(verdict, Verdict::CannotTell);
    assert!(words.contains("has not been entered"), "{words}");
    // Another material that is added is not taken for the one that is gone.
    design.insert_item("own_materials", 0);
    design.insert_item("own_materials", 2);
    assert!(design.material(design.body_layers[0].material).is_err());
    assert_eq!(design.material_name(design.body_layers[1].material), "Wool");
}

/// A person may choose an own material before it is entered.
#[test]
fn what_is_appended_is_what_was_missing() {
    let mut design = Design::default();
    design.body_layers[0].material = Material::Own1;
    design.insert_item("own_materials", 0);
    assert_eq!(design.body_layers[0].material.name(), "own_1");
    let count = design.joints.len();
    design.joints[0].after = u32::try_from(count).unwrap() + 1;
    design.insert_item("joints", 1);
    assert!(design.joints[0].after as usize > design.joints.len());
}

#[test]
fn in_another_design_the_same_item_is_named_by_its_place_there() {
    let mine = closed_in_by_the_lid();
    let mut other = mine.clone();
    other.insert_item("joints", 0);
    other.joints[0].name = "Ash door".to_string();
    let found = differences(&mine, &other);
    assert_eq!(found.len(), 1, "{found:?}");
    // What closes in another joint there is taken for what that is here.
    other.joints[3].closing_joint = 6;
    let found = differences(&mine, &other);
    assert_eq!(found.len(), 2, "{found:?}");
    let input = found
        .iter()
        .filter(|row| matches!(row.what, What::Input { .. }));
    let mut taken = mine.clone();
    let input: Vec<_> = input.cloned().collect();
    assert!(take_over(&input, &other, &mut taken));
    assert_eq!(taken.joints[2].closing_joint, 5);
    // A joint that is not here closes nothing in.
    other.joints[3].closing_joint = 1;
    let found = differences(&mine, &other);
    let input: Vec<_> = (found.into_iter())
        .filter(|row| matches!(row.what, What::Input { .. }))
        .collect();
    let mut taken = mine.clone();
    assert!(take_over(&input, &other, &mut taken));
    assert_eq!(wrong_numbers(&taken), [2]);
}

/// What is typed and refused stays with the joint, though its numbers are others.
#[test]
fn an_input_of_a_joint_is_found_again_where_its_numbers_followed() {
    let before = closed_in_by_the_lid();
    let mut after = before.clone();
    after.move_item("joints", 3, 2);
    let found = before.follow("joints.2.bolts", &after);
    assert_eq!(found.as_deref(), Some("joints.3.bolts"));
}
