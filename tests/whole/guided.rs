//! The guided start: a few answers leave a complete design.

#[path = "guided/answers.rs"]
mod answers;
#[path = "guided/answers_stay.rs"]
mod answers_stay;
#[path = "guided/bottom_there.rs"]
mod bottom_there;
#[path = "guided/closed_ends.rs"]
mod closed_ends;
#[path = "guided/engine_there.rs"]
mod engine_there;
#[path = "guided/hearth_there.rs"]
mod hearth_there;
#[path = "guided/in_the_room.rs"]
mod in_the_room;
#[path = "guided/one_machine.rs"]
mod one_machine;
#[path = "guided/told_at_the_end.rs"]
mod told_at_the_end;
#[path = "guided/vessel_there.rs"]
mod vessel_there;
#[path = "guided/whole_sheets.rs"]
mod whole_sheets;

use hearthplan::design::inputs::Stands;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::guided::{Part, QUESTIONS, Unmet, WiderVessel, complete};
use hearthplan::review::{Verdict, assess};
use uom::si::f64::Length;

/// Powers that the guided start is held to, kW.
const POWERS: [f64; 7] = [5.0, 6.0, 7.5, 10.0, 12.5, 15.0, 20.0];

/// The questions of verdicts that fail.
fn stops(design: &Design) -> Vec<&'static str> {
    assess(design)
        .findings
        .iter()
        .filter(|finding| finding.verdict == Verdict::Stop)
        .map(|finding| finding.id)
        .collect()
}

/// All that is told of what a design does not meet, and whether its note keeps to what lasts.
fn told_unmet(design: &Design, wider: Option<WiderVessel>) -> String {
    let note = &design.about.note;
    for passing in ["stop", "wanted", "too narrow", "too small for wood"] {
        assert!(!note.contains(passing), "{note}");
    }
    let assessment = assess(design);
    let Some(unmet) = Unmet::of(design, design, &assessment, wider) else {
        return String::new();
    };
    let told = unmet.still(design, &assessment, System::Metric).unwrap();
    [vec![told.lead], told.more].concat().join("\n")
}

fn power_wanted(kilowatts: f64) -> Design {
    let mut design = example::to_start_from();
    design
        .set("engine.wanted_power", Value::Number(kilowatts * 1000.0))
        .unwrap();
    design.shed.stands = Stands::Outdoors;
    design
}

/// Whoever does not say where it will stand is not told that it is safe there.
#[test]
fn where_it_stands_is_asked_and_not_taken_for_granted() {
    let asked: Vec<&str> = (QUESTIONS.iter())
        .flat_map(|question| question.inputs.iter().copied())
        .collect();
    assert!(asked.contains(&"shed.stands") && asked.contains(&"base.slope"));
    assert!(QUESTIONS.len() <= 5);
    let mut silent = power_wanted(5.0);
    silent.shed = example::to_start_from().shed;
    let complete_silent = complete(&silent, &[]);
    assert_eq!(
        verdict(&complete_silent, "leaks.room"),
        Some(Verdict::CannotTell)
    );
    for (stands, wanted) in [
        (Stands::OpenRoof, Verdict::Good),
        (Stands::ClosedRoof, Verdict::Stop),
    ] {
        silent.shed.stands = stands;
        let design = complete(&silent, &[]);
        assert_eq!(verdict(&design, "leaks.room"), Some(wanted), "{stands:?}");
    }
}

#[test]
fn sensible_answers_give_a_design_without_a_stop() {
    for kilowatts in [2.0, 3.0, 4.0].into_iter().chain(POWERS) {
        let design = complete(&power_wanted(kilowatts), &[]);
        assert_eq!(stops(&design), Vec::<&str>::new(), "{kilowatts} kW");
        let power = assess(&design)
            .results()
            .into_iter()
            .find(|result| result.name == "engine.shaft_power_full")
            .unwrap()
            .measure
            .si;
        assert!(power >= 1000.0 * kilowatts, "{kilowatts} kW: {power} W");
    }
}

/// What is left follows from what was answered: nobody said that there is a hoist. For a small
/// fire the throat is a little wider, so that the wood passes it, and the insulation of a kind that bears its heat.
#[test]
fn an_engine_is_only_warned_of_what_cannot_be_sized() {
    for kilowatts in [5.0, 7.5, 10.0] {
        let wanted = ["workshop.lift"];
        let design = complete(&power_wanted(kilowatts), &[]);
        let open: Vec<_> = assess(&design)
            .findings
            .iter()
            .filter(|finding| finding.verdict != Verdict::Good)
            .map(|finding| finding.id)
            // Under a condition that no input tells: ribs on the lid.
            .filter(|id| *id != "leaks.panel")
            .collect();
        assert_eq!(open, wanted, "{kilowatts} kW");
    }
}

fn wood_of(millimetres: f64) -> Design {
    let mut design = power_wanted(6.2);
    design
        .set("fuel.piece_size", Value::Number(millimetres / 1000.0))
        .unwrap();
    complete(&design, &[])
}

/// Whoever has chips has no blocks: what they do not suit is told.
#[test]
fn wood_is_never_made_larger_and_char_is_half_of_it() {
    for millimetres in [8.0, 10.0, 12.0, 20.0, 30.0] {
        let design = wood_of(millimetres);
        assert!(
            same_length(design.fuel.piece_size, millimetres),
            "{millimetres}"
        );
        assert!(
            same_length(design.hearth.char_size, 0.5 * millimetres),
            "{millimetres}"
        );
        assert_eq!(verdict(&design, "hearth.char_pieces"), Some(Verdict::Good));
        assert!(design.grate.hole <= design.hearth.char_size);
    }
    // A hearth that is built burns the same char.
    let mut built = power_wanted(6.2);
    built.set("fuel.piece_size", Value::Number(0.012)).unwrap();
    let built = complete(&built, &[Part::Hearth]);
    assert!(same_length(built.hearth.char_size, 6.0));
    let chips = wood_of(8.0);
    assert_eq!(verdict(&chips, "heart.pieces"), Some(Verdict::Stop));
    let told = told_unmet(&chips, None);
    assert!(told.contains("Size of the wood pieces"), "{told}");
    assert!(!chips.about.note.contains("Pieces of wood: "));
    // Blocks that would not pass the throat are told smaller, as ever.
    let blocks = wood_of(100.0);
    assert!(blocks.fuel.piece_size.value < 0.05);
    assert!(blocks.about.note.contains("Pieces of wood: "));
    assert!(2.0 * blocks.hearth.char_size.value < blocks.fuel.piece_size.value + 0.002);
}

fn same_length(length: Length, millimetres: f64) -> bool {
    (length.value * 1000.0 - millimetres).abs() < 1e-6
}

fn verdict(design: &Design, id: &str) -> Option<Verdict> {
    assess(design).finding(id).map(|finding| finding.verdict)
}

#[test]
fn a_larger_engine_gets_a_throat_that_lets_it_breathe() {
    for kilowatts in [10.0, 15.0, 25.0] {
        let mut design = power_wanted(kilowatts);
        design.set("fuel.moisture", Value::Number(0.18)).unwrap();
        let sized = complete(&design, &[]);
        let told = assess(&sized);
        for id in ["breath.suction", "hearth.load_idle", "hearth.load_full"] {
            assert_ne!(
                told.finding(id).unwrap().verdict,
                Verdict::Stop,
                "{kilowatts} kW: {id}"
            );
        }
    }
}
