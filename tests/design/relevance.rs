//! Which inputs matter, by what was chosen.

use crate::random_design::{Dice, random_design, random_value};
use hearthplan::design::{Design, Value};
use hearthplan::review;
use hearthplan::sizing::{footprint, machine};

fn choose(design: &mut Design, path: &str, option: &str) {
    design.set(path, Value::Choice(option.to_string())).unwrap();
}

#[test]
fn choices_bring_inputs_in_and_out_of_use() {
    let mut design = Design::default();
    design.list_mut("parts").unwrap().insert_new(0);
    assert!(design.in_use("hearth.throat_diameter"));
    assert!(!design.in_use("hearth.tube_diameter"));
    choose(&mut design, "hearth.kind", "straight");
    assert!(!design.in_use("hearth.nozzle_bore"));
    assert!(design.in_use("hearth.tube_length"));

    assert!(design.in_use("base.width"));
    assert!(!design.in_use("base.kerb_height"));
    assert!(!design.in_use("contacts"));
    assert!(!design.in_use("contacts.0.x"));
    choose(&mut design, "base.stance", "two_wheels");
    assert!(design.in_use("base.kerb_height"));
    assert!(!design.in_use("base.castor_trail"));
    choose(&mut design, "base.stance", "four_wheels");
    assert!(design.in_use("base.castor_trail"));
    choose(&mut design, "base.stance", "points");
    assert!(!design.in_use("base.width"));
    assert!(design.in_use("contacts"));
    assert!(design.in_use("contacts.0.x"));
    assert!(!design.in_use("base.wheel_diameter"));
    choose(&mut design, "contacts.1.kind", "wheel");
    assert!(design.in_use("base.wheel_diameter"));

    assert!(design.in_use("hopper.height"));
    design.set("hopper.fitted", Value::Flag(false)).unwrap();
    assert!(!design.in_use("hopper.height"));
    assert!(design.in_use("hopper.fitted"));

    assert!(!design.in_use("own_materials"));
    choose(&mut design, "hearth_layers.1.material", "own_1");
    assert!(design.in_use("own_materials"));

    for (shape, used, unused) in [
        ("tube", "diameter", "width"),
        ("plate", "width", "height"),
        ("ring", "second_diameter", "height"),
        ("box", "thickness", "diameter"),
        ("block", "material", "thickness"),
        ("bulk_fill", "density", "material"),
        ("weighed", "mass", "density"),
    ] {
        choose(&mut design, "parts.0.shape", shape);
        assert!(design.in_use(&format!("parts.0.{used}")), "{shape} {used}");
        assert!(
            !design.in_use(&format!("parts.0.{unused}")),
            "{shape} {unused}"
        );
    }
}

/// Who adds an item is asked for it: a list that can be added to stays, with a field of the new item.
#[test]
fn a_new_item_of_any_list_can_be_typed_in() {
    let mut points = Design::default();
    choose(&mut points, "base.stance", "points");
    for info in Design::LISTS {
        let mut design = points.clone();
        while design.list(info.name).unwrap().count() > 0 {
            design.list_mut(info.name).unwrap().remove_item(0);
        }
        for count in 1..=3.min(info.longest) {
            assert!(design.is_asked(info.name), "{}", info.name);
            design.insert_item(info.name, count - 1);
            assert!(design.is_asked(info.name), "{} {count}", info.name);
            let fields = (info.inputs.iter()).filter(|input| {
                design.is_asked(&format!("{}.{}.{}", info.name, count - 1, input.name))
            });
            assert!(fields.count() > 0, "{} {count}", info.name);
        }
    }
    // Contact points that are not stood on are no list to add to, whether there are any or not.
    let mut feet = Design::default();
    assert!(!feet.is_asked("contacts"));
    feet.contacts.clear();
    assert!(!feet.is_asked("contacts"));
}

#[test]
fn what_is_no_input_never_matters() {
    let design = Design::default();
    for path in [
        "",
        ".",
        "base",
        "base.",
        "base.wings",
        "parts.0.mass",
        "parts.x.mass",
        "contacts.0",
        "own_materials.9",
        "a.b.c.d",
    ] {
        assert!(!design.in_use(path), "{path}");
    }
}

/// All that is computed from a design, as text, so that numbers that are none compare too.
fn computed(design: &Design) -> String {
    format!(
        "{:?} {:?} {:?}",
        machine::layout(design).solids,
        footprint::footprint(design),
        review::assess(design).results()
    )
}

#[test]
fn inputs_out_of_use_change_nothing_that_is_computed() {
    let mut unused = 0;
    for seed in 0..80 {
        let mut design = random_design(seed);
        design.parts.truncate(6);
        let before = computed(&design);
        let mut dice = Dice::new(seed);
        let mut changed = design.clone();
        for path in design.paths().iter().filter(|path| !design.in_use(path)) {
            unused += 1;
            let value = random_value(&mut dice, design.input(path).unwrap());
            let mut alone = design.clone();
            alone.set(path, value.clone()).unwrap();
            changed.set(path, value).unwrap();
            assert!(
                seed >= 8 || computed(&alone) == before,
                "seed {seed}: {path} is not in use and changes the results"
            );
        }
        assert!(
            computed(&changed) == before,
            "seed {seed}: an input that is not in use changes the results"
        );
    }
    assert!(unused > 1000);
}
