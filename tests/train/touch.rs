//! What of the train burns a hand, and what runs out of it.

use crate::mended::every_remedy_passes;
use hearthplan::design::inputs::{Cover, StageKind};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::paper::sheet::Block;
use hearthplan::paper::sheets::all;
use hearthplan::review::{Finding, Lever, Verdict, assess, pairs, remedies};
use uom::si::f64::{MassRate, ThermodynamicTemperature};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::thermodynamic_temperature::degree_celsius;

fn ask(design: &Design, id: &str) -> Finding {
    assess(design).finding(id).unwrap().clone()
}

/// The example with every pipe and vessel covered but this stage.
fn bare(only: usize) -> Design {
    let mut design = example::as_improved();
    for (place, stage) in design.train.iter_mut().enumerate() {
        stage.guarded = false;
        stage.cover = match place == only {
            true => Cover::Bare,
            false => Cover::Insulated,
        };
    }
    design
}

#[test]
fn a_bare_pipe_and_a_bare_vessel_burn_as_a_cooler_does() {
    let design = example::as_improved();
    let place = |kind| {
        (design.train.iter())
            .position(|stage| stage.kind == kind)
            .unwrap()
    };
    for (kind, least, most) in [
        (StageKind::Pipe, 200.0, 270.0),
        (StageKind::Cyclone, 130.0, 200.0),
    ] {
        let finding = ask(&bare(place(kind)), "train.touch");
        assert_eq!(finding.verdict, Verdict::Watch, "{kind:?}");
        let outside = finding.working[0].result.si - 273.15;
        assert!((least..most).contains(&outside), "{kind:?}: {outside} °C");
        assert!(finding.caution.is_some());
        let told = finding.compared.text(Default::default());
        assert!(told.contains("burns the hand"), "{told}");
        assert!(told.contains("The same goes for: "), "{told}");
    }
    // What the wall gives off it takes from the gas: 10 W/(m²·K) between gas and air.
    let cyclone = ask(&bare(place(StageKind::Cyclone)), "train.touch");
    let step = &cyclone.working[0];
    let value = |symbol| {
        let (_, _, measure) = (step.values.iter())
            .find(|value| value.0 == symbol)
            .unwrap();
        measure.si
    };
    let flux = 10.0 * (value("T₁") - value("T_a"));
    assert!((value("q") / flux - 1.0).abs() < 1e-9);
    // Natural convection of some 7 W/(m²·K) and radiation carry it away.
    let (surface, air) = (step.result.si, value("T_a"));
    let radiated = 0.9 * 5.670_374e-8 * (surface.powi(4) - air.powi(4));
    let coefficient = (flux - radiated) / (surface - air);
    assert!((5.0..10.0).contains(&coefficient), "{coefficient}");
}

#[test]
fn insulation_makes_a_pipe_safe_to_touch() {
    let mut design = example::as_improved();
    design.train.retain(|stage| stage.kind != StageKind::Cooler);
    for stage in &mut design.train {
        stage.cover = Cover::Insulated;
        stage.insulation = uom::si::f64::Length::new::<uom::si::length::meter>(0.08);
    }
    design.train[0].cover = Cover::Bare;
    assert_eq!(ask(&design, "train.touch").verdict, Verdict::Watch);
    let found = remedies(&design, "train.touch");
    let [cover, guard] = &found[..] else {
        panic!("{found:?}");
    };
    let guarded = guard.change.as_ref().unwrap().apply(&design).unwrap();
    assert!(guarded.train[0].guarded && guarded.train[0].cover == Cover::Bare);
    let told = ask(&guarded, "train.touch");
    assert_eq!(told.verdict, Verdict::Good);
    assert!(
        told.compared
            .text(Default::default())
            .contains("behind a guard")
    );
    let design = cover.change.as_ref().unwrap().apply(&design).unwrap();
    assert_eq!(design.train[0].cover, Cover::Insulated);
    let finding = ask(&design, "train.touch");
    assert_eq!(finding.verdict, Verdict::Good);
    assert!(finding.caution.is_none());
}

#[test]
fn water_that_runs_out_of_a_filter_is_told_with_its_caution() {
    let mut design = example::as_improved();
    design.train.retain(|stage| stage.kind != StageKind::Trap);
    // What the trap before it leaves in the gas is little beside what falls out in the filter itself.
    let mut behind = example::as_improved();
    let cooler = (behind.train.iter()).position(|stage| stage.kind == StageKind::Cooler);
    behind.train[cooler.unwrap()].tubes = 30;
    let finding = ask(&behind, "train.filter_wet");
    assert_eq!(finding.verdict, Verdict::Good);
    let told = finding.compared.text(Default::default());
    assert!(told.contains("closed can as large"), "{told}");
    assert!(finding.caution.unwrap().contains("Gloves"));
    let finding = ask(&design, "train.filter_wet");
    assert!(finding.caution.unwrap().contains("Gloves"));
    let sheets = all(&design, &assess(&design), System::Metric, &[]);
    let rows = (sheets.iter().flat_map(|sheet| &sheet.blocks))
        .find_map(|block| match block {
            Block::Table { name, table, .. } if name == "maintenance" => Some(&table.rows),
            _ => None,
        })
        .unwrap();
    let emptied = (rows.iter()).filter(|row| {
        row.cells[1]
            .text(Default::default())
            .contains("can under its drain")
    });
    assert_eq!(emptied.count(), 1);
}

#[test]
fn a_fan_that_is_no_load_is_asked_for() {
    let mut design = example::as_improved();
    assert_eq!(ask(&design, "electrics.fan").verdict, Verdict::Good);
    (design.loads).retain(|load| !load.name.to_lowercase().contains("fan"));
    let finding = ask(&design, "electrics.fan");
    assert_eq!(finding.verdict, Verdict::Watch);
    assert_eq!(finding.about, "loads");
    let told = finding.compared.text(Default::default());
    assert!(told.contains("No load is entered for the fan"), "{told}");
    every_remedy_passes(&design, "electrics.fan", 1);
    design.train.retain(|stage| stage.kind != StageKind::Cooler);
    assert!(assess(&design).finding("electrics.fan").is_none());
}

#[test]
fn a_pump_that_is_no_load_is_asked_for_and_a_fan_that_none_needs_is_told() {
    let mut design = example::as_improved();
    let cooler = (design.train.iter()).position(|stage| stage.kind == StageKind::Cooler);
    let cooler = cooler.unwrap();
    let idle = |design: &Design| -> Vec<String> {
        let assessment = assess(design);
        (design.loads.iter().enumerate())
            .filter(|(place, _)| assessment.remark(design, "loads", *place).is_some())
            .map(|(_, load)| load.name.clone())
            .collect()
    };
    assert!(assess(&design).finding("electrics.pump").is_none());
    assert!(idle(&design).is_empty());
    (design.choose(&format!("train.{cooler}.cooling"), "water")).unwrap();
    assert!(assess(&design).finding("electrics.fan").is_none());
    let finding = ask(&design, "electrics.pump");
    assert_eq!(finding.verdict, Verdict::Watch);
    assert_eq!(finding.about, "loads");
    let (verdict, told) = assess(&design).remark(&design, "train", cooler).unwrap();
    assert_eq!((verdict, &told), (Verdict::Watch, &finding.compared));
    every_remedy_passes(&design, "electrics.pump", 1);
    assert_eq!(idle(&design), ["Cooler fan"]);
    // The pump that is offered draws what lifts its water by 3 m at 15 %, in steps of 5 W.
    design.train[cooler].water_flow = MassRate::new::<kilogram_per_second>(0.1);
    let offered = remedies(&design, "electrics.pump");
    let pumped = offered[0].change.as_ref().unwrap().apply(&design).unwrap();
    let pump = pumped.loads.last().unwrap();
    let least = 0.1 * 9.80665 * 3.0 / 0.15;
    assert!((least..least + 5.0).contains(&pump.power.value), "{pump:?}");
    assert!(pump.power.value % 5.0 < 1e-9);
    assert_eq!(pumped.loads.len(), design.loads.len() + 1);
    // Neither pump nor fan of something else is taken for one that no cooler needs.
    let mut other = pumped.clone();
    other.loads.retain(|load| load.name != "Cooler fan");
    other.loads[0].name = "Fan of the shed".to_string();
    assert!(idle(&other).is_empty());
    (other.choose(&format!("train.{cooler}.cooling"), "fan")).unwrap();
    assert_eq!(idle(&other), ["Cooling water pump"]);
}

#[test]
fn a_blower_that_presses_gas_towards_the_engine_may_rest() {
    let mut design = example::as_improved();
    design.set("blower.assists", Value::Flag(true)).unwrap();
    assert_eq!(ask(&design, "breath.blower_place").verdict, Verdict::Watch);
    let found = remedies(&design, "breath.blower_place");
    let rest = (found.iter())
        .find(|remedy| remedy.value == Some(Value::Flag(false)))
        .expect("offered");
    let after = assess(&rest.change.as_ref().unwrap().apply(&design).unwrap());
    let place = after.finding("breath.blower_place").unwrap();
    assert_eq!(place.verdict, Verdict::Good);
}

/// Two stages that burn need two guards: neither alone does it, both together are offered.
#[test]
fn guards_of_two_hot_stages_are_offered_together() {
    let mut design = example::as_improved();
    for stage in &mut design.train {
        stage.guarded = false;
    }
    let assessment = assess(&design);
    let finding = assessment.finding("train.touch").unwrap();
    assert_eq!(finding.verdict, Verdict::Watch);
    let told = finding.compared.text(Default::default());
    assert!(told.contains("guard of wire mesh"), "{told}");
    assert!(
        remedies(&design, "train.touch")
            .iter()
            .all(|one| one.change.is_none())
    );
    let guard = Lever::input("train.1.guarded");
    assert!(finding.levers.contains(&guard));
    let found = pairs(&design, &assessment, finding, &guard);
    let after = found.first().expect("offered").apply(&design).unwrap();
    assert!(after.train[1].guarded && after.train[2].guarded);
    assert_eq!(ask(&after, "train.touch").verdict, Verdict::Good);
}

/// A guard keeps hands off what is behind it, not what falls on it.
#[test]
fn what_lights_chaff_is_a_stop_that_a_guard_alone_does_not_mend() {
    let mut design = example::as_improved();
    design.raw_gas.temperature = ThermodynamicTemperature::new::<degree_celsius>(540.0);
    design.train[0].cover = Cover::Bare;
    design.train[0].guarded = false;
    let finding = ask(&design, "train.touch");
    assert_eq!(finding.verdict, Verdict::Stop);
    let told = finding.compared.text(Default::default());
    assert!(told.contains("lights chaff"), "{told}");
    assert!(finding.caution.unwrap().contains("light leaves or oil"));
    every_remedy_passes(&design, "train.touch", 1);
    design.train[0].guarded = true;
    assert_eq!(ask(&design, "train.touch").verdict, Verdict::Stop);
    every_remedy_passes(&design, "train.touch", 1);
}

/// Tubes take no insulation: a fan or water keeps them below what lights chaff.
#[test]
fn a_cooler_that_lights_chaff_is_cooled_more() {
    let mut design = example::as_improved();
    design.limits.guarded_temperature = ThermodynamicTemperature::new::<degree_celsius>(120.0);
    for (place, stage) in design.train.iter_mut().enumerate() {
        if place != 2 {
            stage.cover = Cover::Insulated;
        }
    }
    design.choose("train.2.cooling", "bare").unwrap();
    let finding = ask(&design, "train.touch");
    let told = finding.compared.text(Default::default());
    assert_eq!(finding.verdict, Verdict::Stop, "{told}");
    assert!(told.contains("cool it more"), "{told}");
    assert!(finding.levers.contains(&Lever::input("train.2.cooling")));
}

#[test]
fn what_is_hot_behind_a_guard_still_has_its_caution() {
    let finding = ask(&example::as_improved(), "train.touch");
    assert_eq!(finding.verdict, Verdict::Good);
    assert!(finding.caution.unwrap().contains("Hot steel"));
}
