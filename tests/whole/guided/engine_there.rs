//! An engine that is there already: smaller wood, a raised load, and what it is too small for.

use super::{power_wanted, stops, told_unmet};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::guided::{Part, Unmet, complete};
use hearthplan::review::{Verdict, assess};

/// An engine that is there already, with the power wanted of it.
fn engine_there(litres: f64, kilowatts: f64) -> Design {
    let mut design = power_wanted(kilowatts);
    (design.set("engine.displacement", Value::Number(litres / 1000.0))).unwrap();
    complete(&design, &[Part::Engine])
}

#[test]
fn the_smallest_engines_get_smaller_wood_and_a_load_that_holds() {
    for (litres, kilowatts) in [(0.3, 1.5), (0.42, 2.0), (0.5, 2.5), (0.6, 3.0)] {
        let design = engine_there(litres, kilowatts);
        assert_eq!(stops(&design), Vec::<&str>::new(), "{litres} L");
        let start = power_wanted(kilowatts);
        assert!(design.fuel.piece_size < start.fuel.piece_size);
        let load = design.operation.idle_load;
        assert!(load <= design.operation.usual_load, "{litres} L: {load:?}");
        let note = &design.about.note;
        assert!(note.contains("Pieces of wood: "), "{note}");
        let raised = load > start.operation.idle_load;
        assert_eq!(note.contains("Lowest load: "), raised, "{note}");
        assert!(!note.contains("On wood gas"), "{note}");
    }
    let raised = |litres| engine_there(litres, 2.0).operation.idle_load;
    assert!(raised(0.2) > power_wanted(2.0).operation.idle_load);
    // To run lower is worth more than one caution less.
    assert_eq!(raised(0.36), power_wanted(2.0).operation.idle_load);
}

#[test]
fn an_engine_that_is_too_small_for_its_work_is_told_so_and_nothing_else_stops() {
    let design = engine_there(0.42, 6.0);
    assert_eq!(stops(&design), ["engine.power", "train.engine_power"]);
    let told = told_unmet(&design, None);
    assert!(
        told.starts_with(
            "Complete, but it still stops at: Power on wood gas, before the train, and 1 more.\n"
        ),
        "{told}"
    );
    assert!(told.contains("On wood gas this engine gives 2."), "{told}");
    assert!(told.contains("not the 6 kW wanted"), "{told}");
    let assessment = assess(&design);
    let compared = (assessment.finding("engine.power").unwrap().compared).text(System::Metric);
    assert!(
        compared.contains("more than it gives even on petrol"),
        "{compared}"
    );
    assert!(
        compared.contains("it takes another engine, of about "),
        "{compared}"
    );
}

/// What was not met is told as long as it holds; what stops later on is no matter of the first questions.
#[test]
fn what_is_not_met_goes_once_it_is_mended() {
    let mut design = engine_there(0.42, 6.0);
    let unmet = Unmet::of(&design, &design, &assess(&design), None).unwrap();
    let still = |design: &Design, system: System| unmet.still(design, &assess(design), system);
    let inch = still(&design, System::Inch).unwrap();
    assert!(
        inch.more.join(" ").contains("not the 8.05 hp wanted"),
        "{inch:?}"
    );
    let (short, power) = (
        design.clone(),
        assess(&design).engine.on_gas.unwrap().unwrap(),
    );
    // Within what efficiency and filling are known to it is no Stop, but still not what was wanted.
    design.engine.wanted_power = power.runs.full.shaft_power * 1.02;
    let told = still(&design, System::Metric).unwrap();
    assert!(told.lead.contains("this engine gives 2."), "{told:?}");
    assert!(told.more.is_empty(), "{told:?}");
    design.engine.wanted_power = power.runs.full.shaft_power * 0.9;
    assert_eq!(still(&design, System::Metric), None);
    design.set("base.width", Value::Number(0.3)).unwrap();
    assert!(!stops(&design).is_empty());
    assert_eq!(still(&design, System::Metric), None);
    // Of several the first is named, and the others are behind it.
    let mut several = short;
    several.set("base.width", Value::Number(0.3)).unwrap();
    let assessment = assess(&several);
    let count = assessment.count(Verdict::Stop);
    assert!(count > 1);
    let told = Unmet::of(&several, &several, &assessment, None)
        .and_then(|unmet| unmet.still(&several, &assessment, System::Metric))
        .unwrap();
    let more = format!(", and {} more.", count - 1);
    assert!(told.lead.ends_with(&more), "{told:?}");
    assert!(told.more[0].starts_with("It also stops at: "), "{told:?}");
    // What meets all has nothing to tell.
    let met = complete(&power_wanted(7.5), &[]);
    assert_eq!(Unmet::of(&met, &met, &assess(&met), None), None);
}

/// Nobody who only tells what engine there is wishes for more than it gives.
#[test]
fn the_power_wanted_of_an_engine_that_is_there_follows_what_it_gives() {
    let mut answered = example::to_start_from();
    for (path, value) in [
        ("engine.displacement", 0.42e-3),
        ("engine.speed", 60.0),
        ("fuel.moisture", 0.18),
    ] {
        (answered.set(path, Value::Number(value))).unwrap();
    }
    let design = complete(&answered, &[Part::Engine]);
    let assessment = assess(&design);
    for id in ["engine.power", "train.engine_power"] {
        let found = assessment.finding(id).unwrap();
        assert_eq!(found.verdict, Verdict::Good, "{id}: {:?}", found.compared);
    }
    let wanted = design.engine.wanted_power;
    let left = assessment.train.power_left.as_ref().unwrap().left;
    // Rounded down, and by no more than a tenth of a kilowatt.
    assert!(wanted <= left && (left - wanted).value < 100.0 + 1e-6);
    assert!(wanted < answered.engine.wanted_power);
    assert!(design.about.note.contains("Power wanted: "));
    // What was entered stays, and so does what is wanted of an engine that is yet to be found.
    let entered = engine_there(0.42, 6.0);
    assert_eq!(entered.engine.wanted_power.value, 6_000.0);
    assert!(!entered.about.note.contains("Power wanted: "));
    let to_be_found = complete(&example::to_start_from(), &[]);
    assert_eq!(
        to_be_found.engine.wanted_power,
        answered.engine.wanted_power
    );
}
