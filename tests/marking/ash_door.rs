//! The ash door opens on the ash, and no remedy takes it away from there.

use hearthplan::design::inputs::HoleUse;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::guided::complete;
use hearthplan::review::{
    Chapter, Finding, Lever, Pair, Verdict, ask, assess, remedies, two_changes,
};
use hearthplan::sizing::machine;
use uom::si::f64::{Angle, Length};
use uom::si::length::millimeter;

const ID: &str = "marking.ash_door";

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

fn found(design: &Design) -> Option<Finding> {
    (ask(design, Chapter::Marking).into_iter()).find(|finding| finding.id == ID)
}

fn said(design: &Design) -> (Verdict, String) {
    let found = found(design).unwrap();
    (found.verdict, found.compared.text(System::Metric))
}

pub fn guided(kilowatts: f64) -> Design {
    let mut design = example::to_start_from();
    design
        .set("engine.wanted_power", Value::Number(1000.0 * kilowatts))
        .unwrap();
    complete(&design, &[])
}

#[test]
fn the_doors_of_the_examples_and_of_what_is_sized_reach_the_ash() {
    let mut designs = vec![example::as_first_drawn(), example::as_improved()];
    designs.extend([2.0, 5.0, 10.0, 20.0].map(guided));
    for design in designs {
        let (verdict, words) = said(&design);
        assert_eq!(verdict, Verdict::Good, "{words}");
    }
}

/// The grate of the improved example lies 134 mm above the bottom end, its lower seam and the floor of its ash room 81 mm.
#[test]
fn a_door_must_begin_below_the_grate_and_end_above_the_floor() {
    for (height, wanted, words) in [
        (
            -60.0,
            Verdict::Stop,
            "under the floor of the ash room at 81 mm",
        ),
        (
            80.0,
            Verdict::Good,
            "23 mm of it opens on the ash, wanted 13.3 mm",
        ),
        (89.0, Verdict::Good, "14 mm of it opens on the ash"),
        (
            93.0,
            Verdict::Watch,
            "10 mm of it opens on the ash, wanted 13.3 mm",
        ),
        (
            97.0,
            Verdict::Watch,
            "6 mm of it opens on the ash, wanted 13.3 mm",
        ),
        (
            104.0,
            Verdict::Stop,
            "over the grate at 134 mm: ash cannot be taken out",
        ),
        (
            300.0,
            Verdict::Stop,
            "from 331 mm to 431 mm above the bottom end, over the grate",
        ),
    ] {
        let mut design = example::as_improved();
        design.holes[1].height = mm(height);
        let (verdict, told) = said(&design);
        assert_eq!(verdict, wanted, "{height}: {told}");
        assert!(told.contains(words), "{height}: {told}");
        if verdict != Verdict::Good {
            let mended = (remedies(&design, ID).into_iter())
                .filter(|remedy| remedy.input.name == "height")
                .find_map(|remedy| remedy.change?.apply(&design));
            assert_eq!(said(&mended.unwrap()).0, Verdict::Good, "{height}");
        }
    }
}

#[test]
fn only_an_opening_that_is_called_after_the_ash_is_asked() {
    let mut design = example::as_improved();
    for (name, known) in [
        ("Clean-out for ash", true),
        ("ASH DOOR", true),
        ("Wash port", false),
        ("Door", false),
    ] {
        design.holes[1].name = name.to_string();
        let (verdict, words) = said(&design);
        assert_eq!(verdict != Verdict::CannotTell, known, "{name}: {words}");
    }
    design.holes[1].name = "Ash pipe".to_string();
    design.holes[1].carries = HoleUse::SetOn;
    let (verdict, words) = said(&design);
    assert_eq!(verdict, Verdict::CannotTell, "{words}");
    assert!(
        words.contains("no opening is called after the ash"),
        "{words}"
    );
    assert!(found(&Design::default()).is_none());
}

#[test]
fn no_remedy_takes_the_door_away_from_the_ash() {
    let mut seam = example::as_improved();
    seam.real_vessel.lower_seam = mm(150.0);
    let mut beside = guided(5.0);
    beside.holes[2].angle = Angle::default();
    for design in [example::as_first_drawn(), seam, beside] {
        let clash = "marking.clash";
        let tried = remedies(&design, clash);
        assert!(!tried.is_empty());
        for change in tried.into_iter().filter_map(|remedy| remedy.change) {
            let (verdict, told) = said(&change.apply(&design).unwrap());
            assert_ne!(verdict, Verdict::Stop, "{change:?}: {told}");
        }
    }
}

/// Between bottom end and lower seam there is not room for this door: a smaller one at another height fits, and still opens
/// on the ash. What a pipe sits in keeps its size.
#[test]
fn a_door_too_large_for_its_place_is_made_smaller_and_moved() {
    let design = example::as_first_drawn();
    let clash = "marking.clash";
    let before = assess(&design);
    assert_eq!(before.finding(clash).unwrap().verdict, Verdict::Stop);
    let levers = |design: &Design| assess(design).finding(clash).unwrap().levers.clone();
    let smaller = Lever::input("holes.1.diameter");
    assert!(levers(&design).contains(&smaller));
    let pairs = two_changes(&design, clash);
    let pulls = |pair: &Pair| (pair.changes.iter()).any(|one| one.lever == smaller);
    let pair = pairs
        .iter()
        .find(|pair| pulls(pair))
        .expect("a smaller door");
    let mended = pair.apply(&design).unwrap();
    let door = mended.holes[1].diameter;
    assert!(
        door < design.holes[1].diameter && door >= mm(70.0),
        "{door:?}"
    );
    let (verdict, told) = said(&mended);
    assert_eq!(verdict, Verdict::Good, "{told}");
    let mut piped = design;
    piped.holes[1].carries = HoleUse::SetIn;
    assert!(!levers(&piped).contains(&smaller));
}

/// A door that is left where it was while the hearth was set higher: over a deep room, a slit at its top is no door.
#[test]
fn a_slit_at_the_top_of_a_deep_room_is_not_enough() {
    let mut design = example::as_improved();
    design.hearth_wall.height += mm(60.0);
    let (_, told) = said(&design);
    let room = |design: &Design| {
        let (vessel, hearth) = machine::measures(design);
        hearth.grate - vessel.hearth_bottom
    };
    assert!(room(&design) > mm(75.0), "{told}");
    // Its middle above the lower seam, so that 15 mm open under the grate.
    design.holes[1].height = room(&design) + 0.5 * design.holes[1].diameter - mm(15.0);
    let (verdict, told) = said(&design);
    assert_eq!(verdict, Verdict::Watch, "{told}");
    assert!(told.contains("15 mm of it opens on the ash"), "{told}");
    design.holes[1].height -= mm(10.0);
    let (verdict, told) = said(&design);
    assert_eq!(verdict, Verdict::Good, "{told}");
}
