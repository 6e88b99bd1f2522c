//! The room under the grate, and what falls into it.

use crate::mended::every_remedy_passes;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::review::{Verdict, assess};
use std::f64::consts::PI;
use uom::si::f64::Length;
use uom::si::length::millimeter;

/// The room under the grate by hand: what falls through fills it at the usual load.
#[test]
fn the_room_for_the_ash_lasts_as_long_as_it_is_large() {
    let design = example::as_improved();
    let told = |design: &Design| {
        let finding = assess(design).finding("hearth.ash_room").cloned().unwrap();
        let time = finding.working[1].result.si;
        (finding.verdict, time)
    };
    let (verdict, time) = told(&design);
    assert_eq!(verdict, Verdict::Good);
    let heart = assess(&design).heart;
    let dry = heart.at.usual.supply.fuel_rate.value * (1.0 - design.fuel.moisture.value);
    let wall = &design.hearth_wall;
    let tall = design.hearth.nozzle_height + design.hearth.reduction_height;
    let height = 0.5 * (wall.height - tall).value;
    let room = PI / 4.0 * wall.inside_diameter.value.powi(2) * height;
    let ash = hearthplan::sizing::fuel::fuel_of(&design)
        .unwrap()
        .ash
        .value;
    let falls = dry * (ash + design.gas_making.char_drawn.value) / 150.0;
    assert!((time / (room / falls) - 1.0).abs() < 1e-9, "{time} s");
    let mut low = design.clone();
    low.hearth_wall.height = tall + Length::new::<millimeter>(10.0);
    assert_eq!(told(&low).0, Verdict::Stop);
    every_remedy_passes(&low, "hearth.ash_room", 1);
    let mut patient = design;
    patient.limits.ash_time = 2.0 * uom::si::f64::Time::new::<uom::si::time::second>(time);
    assert_eq!(told(&patient).0, Verdict::Watch);
}

/// The machine must be cold to be emptied: warming up counts, and so does a part of a filling or the time wanted at full load,
/// whichever is less. Emptying more often than that is told, and stops nobody.
#[test]
fn the_room_for_the_ash_holds_what_falls_from_one_cold_machine_to_the_next() {
    let found = |design: &Design| {
        let assessment = assess(design);
        let finding = assessment.finding("hearth.ash_room").cloned().unwrap();
        (
            finding.verdict,
            finding.working[2].result.si,
            finding.working[3].result.si,
        )
    };
    let wanted = |design: &Design| {
        let assessment = assess(design);
        let result = |name: &str| {
            let results = assessment.results();
            let found = results.iter().find(|result| result.name == name).unwrap();
            found.measure.si
        };
        let at = &assessment.heart.at;
        let wood = |at: &hearthplan::review::HeartAt| at.supply.fuel_rate.value;
        let filling = result("engine.lasts") * wood(&at.usual) / wood(&at.full);
        let lit = design.operation.startup_share.value * result("warmth.warm_up_time");
        lit + (0.5 * filling).min(design.limits.ash_time.value)
    };
    let design = example::as_improved();
    let (verdict, time, run) = found(&design);
    assert_eq!(verdict, Verdict::Good);
    assert!((run / wanted(&design) - 1.0).abs() < 1e-9, "{run} s");
    assert!(time > run);
    // More wood above the hearth, and the time wanted is what counts.
    let mut tall = design.clone();
    tall.hopper.height = 2.0 * tall.hopper.height;
    let (verdict, same, run) = found(&tall);
    assert!((run / wanted(&tall) - 1.0).abs() < 1e-9, "{run} s");
    assert_eq!(verdict, Verdict::Watch);
    assert!(same < run && (same / time - 1.0).abs() < 0.01);
    let finding = assess(&tall).finding("hearth.ash_room").cloned().unwrap();
    assert!(finding.margin.unwrap() < 0.0);
    let told = finding.compared.text(System::Metric);
    assert!(told.contains("at full load it is full after"), "{told}");
    every_remedy_passes(&tall, "hearth.ash_room", 1);
    // However little of it the room holds, it is no Stop as long as the usual load leaves time to work in.
    let mut slow = design;
    slow.operation.startup_share = 2.0 * slow.operation.startup_share;
    slow.hopper.height = 2.0 * slow.hopper.height;
    assert_eq!(found(&slow).0, Verdict::Watch);
}

/// What is full before the machine is warm never runs, and no sheet tells to empty it after no time at all.
#[test]
fn a_room_that_warming_up_alone_fills_is_a_stop() {
    let mut design = example::as_improved();
    let finding = |design: &Design| {
        let assessment = assess(design);
        assessment.finding("hearth.ash_room").cloned().unwrap()
    };
    let burns = "the grate burns before the machine is warm";
    assert!(
        !finding(&design)
            .compared
            .text(System::Metric)
            .contains(burns)
    );
    // Hardly a centimetre under the grate, and a load so small that it lasts long there.
    let tall = design.hearth.nozzle_height + design.hearth.reduction_height;
    design.hearth_wall.height = tall + Length::new::<millimeter>(16.0);
    design.operation.usual_load = uom::si::f64::Ratio::new::<uom::si::ratio::ratio>(0.3);
    design.limits.ash_time = uom::si::f64::Time::new::<uom::si::time::minute>(30.0);
    let stopped = finding(&design);
    assert_eq!(stopped.verdict, Verdict::Stop);
    let told = stopped.compared.text(System::Metric);
    assert!(told.contains(burns), "{told}");
    assert!(stopped.working[2].result.si < stopped.working[3].result.si);
    every_remedy_passes(&design, "hearth.ash_room", 1);
}
