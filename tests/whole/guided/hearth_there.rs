//! A hearth or a lined vessel that is there already stays in all that is offered, and a large fire gets room for its ash.

use super::{POWERS, power_wanted, stops, verdict};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value};
use hearthplan::review::guided::{Part, complete};
use hearthplan::review::{
    Lever, Remedy, Verdict, assess, best_steps_or_pairs, remedies, whole_way,
};
use hearthplan::sizing::hearth_there::keeps_hearth;

/// What is too wide a hearth for the engine of this power.
fn wide_hearth(kilowatts: f64) -> Design {
    let mut design = power_wanted(kilowatts);
    for (path, value) in [
        ("hearth.throat_diameter", 0.115),
        ("hearth.nozzle_ring_diameter", 0.3),
        ("hearth.below_throat_diameter", 0.228),
        ("hearth.nozzle_height", 0.105),
        ("hearth.straight_below_nozzles", 0.015),
        ("hearth.nozzle_count", 5.0),
        ("hearth.nozzle_bore", 0.0115),
    ] {
        design
            .set(path, Value::Number(value))
            .expect("in its range");
    }
    design
}

fn of_lever<'a>(offered: &'a [Remedy], path: &'static str) -> Option<&'a Remedy> {
    (offered.iter()).find(|one| one.lever == Lever::input(path) && one.change.is_some())
}

/// The engine and all that hangs on it suit the hearth that is there, and the note tells why it is so large.
#[test]
fn an_engine_is_sized_for_the_hearth_that_is_built() {
    let design = complete(&wide_hearth(7.5), &[Part::Hearth]);
    assert!(design.hearth.built);
    assert_eq!(stops(&design), Vec::<&str>::new());
    let assessment = assess(&design);
    let [least, most] = assessment.hearth.engines.expect("the engine draws");
    let swept = design.engine.displacement;
    assert!(
        least < swept && swept < most,
        "{least:?} {swept:?} {most:?}"
    );
    let note = &design.about.note;
    assert!(note.contains("Through the throat that is built"), "{note}");
    let free = complete(&power_wanted(7.5), &[]);
    assert!(!free.hearth.built && swept > free.engine.displacement);
    assert!(!free.about.note.contains("throat that is built"));
}

#[test]
fn a_hearth_that_is_built_asks_for_another_engine() {
    let mut design = complete(&wide_hearth(7.5), &[Part::Hearth]);
    design.engine.displacement *= 0.6;
    assert!(stops(&design).contains(&"hearth.load_idle"));
    let offered = remedies(&design, "hearth.load_idle");
    let throat = of_lever(&offered, "hearth.throat_diameter").expect("another hearth would do");
    assert!(throat.other_hearth && !throat.is_plain());
    let told = throat.reservations(System::Metric);
    assert!(told.contains(&"only with another hearth".to_string()));
    let engine = of_lever(&offered, "engine.displacement").expect("a larger engine would do");
    assert!(engine.is_plain() && !engine.other_hearth);
    // The engine that is told is the one that is offered.
    let assessment = assess(&design);
    let [least, most] = assessment.hearth.engines.expect("the engine draws");
    let Some(Value::Number(litres)) = engine.value else {
        panic!("a number")
    };
    assert!(
        (litres / least.value - 1.0).abs() < 0.1,
        "{litres} {least:?}"
    );
    let largest = (assessment.engine.on_gas.as_ref()).and_then(|on_gas| on_gas.as_ref().ok());
    let largest = largest.expect("the engine runs").for_hearth();
    let largest = largest.expect("an engine suits the hearth").displacement;
    assert!(((most / largest).value - 1.0).abs() < 0.15);
    let asked = assessment.finding("hearth.load_idle").expect("asked");
    let told = asked.compared.text(System::Metric);
    assert!(
        told.contains("the hearth that is built feeds engines of about "),
        "{told}"
    );
    // No step rebuilds what is built.
    let advice = best_steps_or_pairs(&design);
    assert!(advice.steps[0].remedy.is_plain());
    for step in &advice.steps {
        let changed = step.change.apply(&design).expect("fits");
        assert!(!step.remedy.is_plain() || keeps_hearth(&design, &changed));
    }
    assert!(keeps_hearth(&design, whole_way(&design).end().0));
}

#[test]
fn an_engine_that_is_there_too_stays() {
    let mut answered = wide_hearth(7.5);
    answered
        .set("engine.displacement", Value::Number(1.6e-3))
        .expect("in its range");
    let design = complete(&answered, &[Part::Engine, Part::Hearth]);
    let assessment = assess(&design);
    let asked = assessment.finding("hearth.load_idle").expect("asked");
    assert!(!asked.levers.contains(&Lever::input("engine.displacement")));
    assert_eq!(whole_way(&design).end().0.engine, design.engine);
}

#[test]
fn a_vessel_that_is_built_and_lined_stays() {
    let mut answered = power_wanted(7.5);
    for (path, value) in [
        ("hearth_wall.inside_diameter", 0.4),
        ("hearth_wall.height", 0.36),
        ("body_wall.inside_diameter", 0.46),
        ("body_wall.height", 0.5),
    ] {
        answered
            .set(path, Value::Number(value))
            .expect("in its range");
    }
    let design = complete(&answered, &[Part::Vessel]);
    assert!(design.real_vessel.lined);
    assert_ne!(verdict(&design, "hearth.band"), Some(Verdict::Good));
    let offered = remedies(&design, "hearth.band");
    let taller = of_lever(&offered, "hearth_wall.height").expect("a taller wall would do");
    assert!(taller.other_vessel && !taller.is_plain());
    let mut free = design;
    free.real_vessel.lined = false;
    let offered = remedies(&free, "hearth.band");
    assert!(
        of_lever(&offered, "hearth_wall.height")
            .expect("as before")
            .is_plain()
    );
}

#[test]
fn a_large_fire_gets_room_for_its_ash() {
    for kilowatts in POWERS.into_iter().chain([30.0]) {
        let design = complete(&power_wanted(kilowatts), &[]);
        let found = verdict(&design, "hearth.ash_room");
        assert_eq!(found, Some(Verdict::Good), "{kilowatts} kW");
    }
}
