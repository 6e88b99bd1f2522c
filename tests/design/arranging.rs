//! Lists are put in order by hand.

use hearthplan::design::Design;

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
