//! Lists are put in order by hand.

use hearthplan::design::inputs::{StageKind, TrainStage};
use hearthplan::design::{Design, Value};

fn names(design: &Design) -> Vec<&str> {
    design.parts.iter().map(|part| part.name.as_str()).collect()
}

fn with_parts(count: usize) -> Design {
    let mut design = Design::default();
    if let Some(list) = design.list_mut("parts") {
        (0..count).for_each(|place| list.insert_new(place));
    }
    for (part, name) in design.parts.iter_mut().zip(["a", "b", "c", "d"]) {
        part.name = name.to_string();
    }
    design
}

#[test]
fn a_moved_item_pushes_those_between() {
    for (from, to, wanted) in [
        (0, 2, ["b", "c", "a", "d"]),
        (3, 1, ["a", "d", "b", "c"]),
        (1, 1, ["a", "b", "c", "d"]),
    ] {
        let mut design = with_parts(4);
        design.list_mut("parts").unwrap().move_item(from, to);
        assert_eq!(names(&design), wanted, "from {from} to {to}");
    }
}

#[test]
fn moving_back_restores_the_order() {
    let mut design = with_parts(4);
    let before = design.clone();
    let list = design.list_mut("parts").unwrap();
    list.move_item(0, 3);
    list.move_item(3, 0);
    assert_eq!(design, before);
}

#[test]
fn places_that_are_not_there_change_nothing() {
    let mut design = with_parts(2);
    let before = design.clone();
    let list = design.list_mut("parts").unwrap();
    list.move_item(0, 2);
    list.move_item(7, 0);
    assert_eq!(design, before);
}

#[test]
fn an_input_is_found_again_wherever_its_item_went() {
    let before = with_parts(4);
    let follow = |path: &str, edit: &dyn Fn(&mut Design)| {
        let mut after = before.clone();
        edit(&mut after);
        before.follow(path, &after)
    };
    let moved = |design: &mut Design| design.move_item("parts", 0, 2);
    let inserted = |design: &mut Design| design.insert_item("parts", 1);
    let copied = |design: &mut Design| design.copy_item("parts", 1);
    let removed = |design: &mut Design| design.remove_item("parts", 1);
    let set = |design: &mut Design| {
        design
            .set("parts.1.thickness", Value::Number(0.002))
            .unwrap();
    };
    for (path, edit, wanted) in [
        (
            "parts.0.mass",
            &moved as &dyn Fn(&mut Design),
            Some("parts.2.mass"),
        ),
        ("parts.1.mass", &moved, Some("parts.0.mass")),
        ("parts.3.mass", &moved, Some("parts.3.mass")),
        ("parts.0.mass", &inserted, Some("parts.0.mass")),
        ("parts.1.mass", &inserted, Some("parts.2.mass")),
        ("parts.1.mass", &copied, Some("parts.1.mass")),
        ("parts.2.mass", &copied, Some("parts.3.mass")),
        ("parts.1.mass", &removed, None),
        ("parts.2.mass", &removed, Some("parts.1.mass")),
        ("parts.1.mass", &set, Some("parts.1.mass")),
        ("parts.1.thickness", &set, None),
        ("base.width", &set, Some("base.width")),
        ("base.nothing", &set, None),
        ("parts.9.mass", &set, None),
    ] {
        assert_eq!(follow(path, edit).as_deref(), wanted, "{path}");
    }
}

#[test]
fn a_new_stage_has_the_bore_of_the_nearest_that_has_one() {
    let train = |stages: &[(StageKind, f64)]| {
        let mut design = Design::default();
        design.train.clear();
        for (place, (kind, bore)) in stages.iter().enumerate() {
            design.insert_item("train", place);
            design.train[place].kind = *kind;
            design
                .set(&format!("train.{place}.bore"), Value::Number(*bore))
                .unwrap();
        }
        design
    };
    let [pipe, cyclone, blower] = [StageKind::Pipe, StageKind::Cyclone, StageKind::Blower];
    let mixed = train(&[(pipe, 0.040), (cyclone, 0.099), (blower, 0.060)]);
    for (place, wanted) in [(0, 0.040), (1, 0.040), (2, 0.040), (3, 0.060), (99, 0.060)] {
        let mut design = mixed.clone();
        design.insert_stage(place, StageKind::Trap);
        let stage = &design.train[place.min(3)];
        assert_eq!(design.train.len(), 4);
        assert_eq!(stage.kind, StageKind::Trap);
        assert_eq!(stage.bore.value, wanted, "at {place}");
        design.remove_item("train", place.min(3));
        assert_eq!(design, mixed, "the others stay as they were");
    }
    let mut none = train(&[(cyclone, 0.099)]);
    none.insert_stage(1, pipe);
    assert_eq!(none.train[1].bore, TrainStage::default().bore);
}
