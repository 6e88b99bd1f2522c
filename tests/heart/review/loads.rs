//! At which loads the hearth makes gas, and that nothing is told of those at which it makes none.

use super::{choose, verdict, with};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Assessment, Lever, Verdict, assess, heart_over_load, remedies};
use uom::si::f64::Ratio;
use uom::si::ratio::ratio;

/// Soaked wood burns at no load: every number of the range would rest on a flow that only stands in.
#[test]
fn a_hearth_without_gas_has_no_range() {
    let mut design = example::as_improved();
    let entered = Value::Choice("entered".to_string());
    design.set("operation.flow_source", entered).unwrap();
    design
        .set("operation.full_gas_flow", Value::Number(1.0 / 3600.0))
        .unwrap();
    design.set("fuel.moisture", Value::Number(0.6)).unwrap();
    let assessment = assess(&design);
    let at = &assessment.heart.at;
    assert!(
        ![&at.full, &at.usual, &at.idle]
            .iter()
            .any(|at| at.makes_gas())
    );
    let range = assessment.heart.range.unwrap();
    assert_eq!(range.lowest_by_hearth_load, None);
    assert_eq!(range.highest(), None);
    assert_eq!(verdict(&assessment, "heart.turndown"), Verdict::Stop);
    for id in [
        "hearth.load_full",
        "hearth.load_idle",
        "hearth.nozzle_velocity",
    ] {
        let finding = assessment.finding(id).unwrap();
        assert_eq!(finding.verdict, Verdict::CannotTell, "{id}");
        assert!(finding.working.is_empty(), "{id}");
    }
}

#[test]
fn more_load_is_never_a_larger_share_of_loss_nor_weaker_gas() {
    for design in [
        Design::default(),
        example::as_improved(),
        example::as_first_drawn(),
    ] {
        let points = heart_over_load(&design, 51);
        assert_eq!(points.len(), 51);
        let held: Vec<_> = points.iter().filter_map(|point| point.hearth).collect();
        assert!(held.len() > 10);
        for pair in held.windows(2) {
            assert!(pair[1].loss_share < pair[0].loss_share);
            assert!(pair[1].gas_heat > pair[0].gas_heat);
        }
        // Once the hearth holds its fire it holds it at every higher load.
        let first = points
            .iter()
            .position(|point| point.hearth.is_some())
            .unwrap();
        assert!(points[first..].iter().all(|point| point.hearth.is_some()));
    }
}

#[test]
fn the_lowest_load_is_where_the_verdict_turns() {
    let design = example::as_improved();
    let lowest = assess(&design).heart.range.unwrap().lowest().unwrap().value;
    let at = |load: f64| {
        let assessment = assess(&with(design.clone(), &[("operation.idle_load", load)]));
        (
            verdict(&assessment, "heart.idle"),
            verdict(&assessment, "hearth.load_idle"),
        )
    };
    assert_eq!(at(lowest * 1.02), (Verdict::Good, Verdict::Good));
    let below = at(lowest * 0.97);
    assert!(below.0 != Verdict::Good || below.1 != Verdict::Good);
}

#[test]
fn numbers_of_a_load_without_gas_are_left_out() {
    let told = |design: &Design| -> Vec<String> {
        let results = assess(design).results().into_iter();
        results.map(|result| result.name).collect()
    };
    let (good, bare) = (
        told(&example::as_improved()),
        told(&example::as_first_drawn()),
    );
    for name in [
        "heart.gas_flow",
        "heart.wood",
        "engine.shaft_power",
        "engine.electric_power",
        "hearth.load",
        "hearth.nozzle_velocity",
    ] {
        for (case, burns) in [("full", true), ("usual", true), ("idle", false)] {
            let name = format!("{name}_{case}");
            assert!(good.contains(&name), "{name}");
            assert_eq!(bare.contains(&name), burns, "{name}");
        }
    }
    assert!(good.contains(&"hearth.turndown".to_string()));
    assert!(!bare.contains(&"hearth.turndown".to_string()));
    // Where not even the usual load burns, nobody knows how long the wood lasts.
    let colder = with(example::as_first_drawn(), &[("operation.usual_load", 0.42)]);
    let assessment = assess(&colder);
    assert!(!assessment.heart.at.usual.makes_gas());
    assert_eq!(verdict(&assessment, "engine.refuel"), Verdict::CannotTell);
    assert!(!told(&colder).contains(&"engine.lasts".to_string()));
}

#[test]
fn the_range_of_loads_is_a_stop_only_where_the_lowest_load_is() {
    use Verdict::{Good, Stop, Watch};
    let improved = example::as_improved;
    let said = |design: &Design| {
        let assessment = assess(design);
        let of = |id: &str| verdict(&assessment, id);
        let range = assessment.finding("heart.turndown").unwrap();
        assert_eq!(range.verdict == Good, range.margin >= Some(0.0));
        (range.verdict, of("heart.idle"), of("hearth.load_idle"))
    };
    // Far from the mark in load, but weak gas alone.
    let wet = with(improved(), &[("fuel.moisture", 0.19)]);
    assert_eq!(said(&wet), (Watch, Watch, Good));
    // Not even full load is good, and none is bad.
    let wetter = with(improved(), &[("fuel.moisture", 0.24)]);
    assert_eq!(said(&wetter).0, Watch);
    let at = |idle: f64| said(&with(improved(), &[("operation.idle_load", idle)]));
    assert_eq!(at(0.50), (Good, Good, Good));
    assert_eq!(at(0.35), (Watch, Watch, Watch));
    assert_eq!(at(0.30), (Stop, Watch, Stop));
    assert_eq!(at(0.25), (Stop, Stop, Stop));
}

/// A range that ends below full load is no good one, and what is too narrow for full load mends it.
#[test]
fn a_range_that_full_load_overruns_is_watched() {
    // The throat of 70 mm bears 116 % of full load: with 1.3 times the gas 89 %.
    let mut large = example::as_improved();
    large.engine.displacement *= 1.3;
    let assessment = assess(&large);
    let range = assessment.heart.range.as_ref().unwrap();
    let highest = range.highest().unwrap().value;
    assert!((highest - 1.16 / 1.3).abs() < 0.02, "{highest}");
    let finding = assessment.finding("heart.turndown").unwrap();
    assert_eq!(finding.verdict, Verdict::Watch);
    assert!((finding.margin.unwrap() - (highest - 1.0)).abs() < 1e-9);
    let told = finding.compared.text(System::Metric);
    assert!(told.contains("more overruns it"), "{told}");
    let offered = remedies(&large, "heart.turndown");
    let wider = offered.iter().find_map(|remedy| remedy.value.as_ref());
    let wider = wider.and_then(Value::number).unwrap();
    // By hand: the area grows with the gas.
    let wanted = large.hearth.throat_diameter.value / highest.sqrt();
    assert!((wider / wanted - 1.0).abs() < 0.06, "{wider} {wanted}");
    // With twice the gas the nozzles are too narrow as well.
    large.engine.displacement *= 2.0 / 1.3;
    let finding = assess(&large).finding("heart.turndown").cloned().unwrap();
    let both = ["hearth.throat_diameter", "hearth.nozzle_bore"].map(Lever::input);
    assert_eq!(finding.levers, both);
}

#[test]
fn a_lowest_load_above_the_usual_one_hides_nothing() {
    let loads = |usual, idle| {
        let mut design = example::as_improved();
        for (path, load) in [
            ("operation.usual_load", usual),
            ("operation.idle_load", idle),
        ] {
            design.set(path, Value::Number(load)).unwrap();
        }
        assess(&design)
    };
    let (as_usual, above) = (loads(0.35, 0.35), loads(0.35, 1.0));
    for id in [
        "heart.turndown",
        "heart.idle",
        "hearth.load_idle",
        "warmth.loss_idle",
    ] {
        let said = |assessment: &Assessment| {
            let finding = assessment.finding(id).unwrap();
            (finding.verdict, finding.compared.text(System::Metric))
        };
        assert_eq!(said(&above), said(&as_usual), "{id}");
    }
    assert_ne!(
        above.finding("heart.turndown").unwrap().verdict,
        Verdict::Good
    );
}

/// Range and loads are held to the same marks: a fire too hot at full load leaves no range up to it.
#[test]
fn a_fire_too_hot_is_no_range() {
    let hot = choose(example::as_improved(), "fuel.kind", "charcoal");
    let assessment = assess(&hot);
    let finding = assessment.finding("heart.turndown").unwrap();
    assert_eq!(finding.verdict, Verdict::Watch);
    let told = finding.compared.text(System::Metric);
    assert!(
        told.starts_with(
            "does not hold up to full load, where the mean temperature in the fire is"
        ) && told.contains("wanted at most 1400 °C"),
        "{told}"
    );
    let moisture = Lever::input("fuel.moisture");
    assert!(!finding.levers.contains(&moisture));
}

/// What fails at full load is named with its number, and nothing else is.
#[test]
fn a_hearth_that_holds_at_no_load_tells_what_fails() {
    let words = |design: &Design| {
        let finding = assess(design).finding("heart.turndown").cloned().unwrap();
        assert_eq!(finding.verdict, Verdict::Stop);
        finding.compared.text(System::Metric)
    };
    let mut cold = choose(example::as_improved(), "gas_making.air_rule", "air_held");
    cold.gas_making.equivalence_ratio = Ratio::new::<ratio>(0.30);
    let told = words(&cold);
    assert!(
        told.contains("at full load the mean temperature in the fire is"),
        "{told}"
    );
    assert!(told.contains("wanted at least 1093 °C"), "{told}");
    assert!(!told.contains("the gas"), "{told}");
    // The first example is too hot in its middle, and too cold at its rim.
    let told = words(&example::as_first_drawn());
    assert!(told.starts_with("holds at no load"), "{told}");
    assert!(
        told.contains(", wanted at most 1400 °C, and 1")
            && told.contains("too cold for tar, wanted at most 5 %, and the gas has"),
        "{told}"
    );
}
