//! Lists are put in order by hand.

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
