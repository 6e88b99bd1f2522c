//! Rows of the wiring schedule, worked by hand from published resistances.

use crate::mended::every_remedy_passes;
use crate::random_design::random_design;
use hearthplan::design::inputs::{CableSystem, ElectricLoad, LoadKind};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value};
use hearthplan::review::{
    Chapter, Lever, Verdict, WiringRow, ask, assess, easing, remedies, two_changes,
};
use hearthplan::sizing::blower::Running;
use hearthplan::sizing::wiring::ConductorName;
use uom::si::area::square_millimeter;
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::f64::{
    Area, ElectricCurrent, ElectricPotential, Length, MassDensity, Power, ThermodynamicTemperature,
};
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::power::watt;
use uom::si::thermodynamic_temperature::degree_celsius;

fn amperes(value: f64) -> ElectricCurrent {
    ElectricCurrent::new::<ampere>(value)
}

/// A design with one load besides the blower: power in watts, one way in metres.
fn with_load(kind: LoadKind, power: f64, length: f64) -> Design {
    let mut design = Design {
        loads: vec![ElectricLoad {
            kind,
            power: Power::new::<watt>(power),
            cable_length: Length::new::<meter>(length),
            ..ElectricLoad::default()
        }],
        ..Design::default()
    };
    // A battery that stands no more than the air entered for the cables: no warmer box is reckoned with.
    design.limits.lead_acid_temperature = design.wiring.air_temperature;
    design
}

fn load_row(design: &Design) -> WiringRow {
    assess(design).electrics.wiring[1].clone()
}

/// Copper that warms from 40 °C with the square of the loading, up to 70 °C.
fn growth(loading: f64) -> f64 {
    1.0 + 0.003_93 * (40.0 + 30.0 * loading * loading - 20.0)
}

#[test]
fn a_metric_row_is_as_worked_by_hand() {
    // 60 W at 12 V: 5 A over 2 × 3 m may lose 5 % of 12 V, 0.6 V, so 20 mΩ/m: 0.75 mm² has 26, 1 mm² 19.5 mΩ/m at 20 °C,
    // but 21.4 mΩ/m when warm, so 1.5 mm² with 13.3 mΩ/m.
    let row = load_row(&with_load(LoadKind::Other, 60.0, 3.0));
    let run = row.run.as_ref().unwrap();
    assert_eq!(run.conductor.name, ConductorName::SquareMillimetres(1.5));
    assert!((run.current.get::<ampere>() - 5.0).abs() < 1e-12);
    let expected = 5.0 * 6.0 * 13.3e-3 * growth(5.0 / 13.5);
    assert!((run.drop.get::<volt>() - expected).abs() < 1e-9);
    assert!((run.drop_share.value - expected / 12.0).abs() < 1e-9);
    // 5 A over four fifths is 6.25 A: the next fuse is 7.5 A.
    assert_eq!(row.fuse, Some(amperes(7.5)));
    assert_eq!(row.verdict(), Verdict::Good);
}

#[test]
fn a_section_between_the_sold_ones_follows_the_resistivity_of_copper() {
    let mut design = with_load(LoadKind::Other, 60.0, 3.0);
    design.loads[0].cable = Some(Area::new::<square_millimeter>(2.0));
    let run = load_row(&design).run.unwrap();
    // IEC 60028: 1.724e-8 Ω·m; it carries what 1.5 mm² carries.
    let expected = 5.0 * 6.0 * 1.724e-8 / 2.0e-6 * growth(5.0 / 13.5);
    assert!((run.drop.get::<volt>() - expected).abs() < 1e-9);
    assert!((run.carries.get::<ampere>() - 13.5).abs() < 1e-9);
}

#[test]
fn a_gauge_row_is_as_worked_by_hand() {
    let mut design = with_load(LoadKind::Motor, 96.0, 2.0);
    design.wiring.system = CableSystem::Gauge;
    // 8 A over 4 m may lose 3 %, 0.36 V: 11.25 mΩ/m. AWG 14 is 1.628 mm across: 8.28 mΩ/m at 20 °C.
    let run = load_row(&design).run.unwrap();
    assert_eq!(run.conductor.name, ConductorName::Gauge(14));
    let area = 0.25 * std::f64::consts::PI * 1.628e-3_f64.powi(2);
    let expected = 8.0 * 4.0 * 1.724e-8 / area * growth(8.0 / 13.5);
    assert!((run.drop.get::<volt>() - expected).abs() < 1e-3 * expected);
}

#[test]
fn a_motor_may_lose_less_than_a_lamp() {
    let thickness = |kind| {
        let run = load_row(&with_load(kind, 100.0, 4.0)).run.unwrap();
        run.conductor.area
    };
    assert!(thickness(LoadKind::Motor) > thickness(LoadKind::Other));
}

/// Before each fire the blower draws cold air through the machine, and with a lid open it may work anywhere on its curve.
#[test]
fn the_blower_comes_first_and_is_sized_for_cold_air_at_full_knob() {
    let mut design = Design::default();
    design.loads.clear();
    let row = |design: &Design| {
        let [row] = assess(design).electrics.wiring.try_into().unwrap();
        row
    };
    let blower = assess(&design).breath.blower.unwrap();
    let found = row(&design);
    assert_eq!(found.path("cable"), "wiring.blower_cable");
    // Air of 20 °C at sea level: 101,325 Pa over 287.05 J/(kg·K) and 293.15 K.
    let air = MassDensity::new::<kilogram_per_cubic_meter>(101_325.0 / (287.05 * 293.15));
    let running = Running {
        speed_share: design.wiring.knob_end,
        density: air,
    };
    let both = (design.blower.efficiency * design.blower.motor_efficiency).value;
    let last = blower.curve.largest_flow(&running);
    let taken = |part: u32| {
        let flow = last * f64::from(part) / 2_000.0;
        let pressure = blower
            .curve
            .pressure(flow * (1.0 - 1e-12), &running)
            .unwrap();
        flow.value * pressure.value / both
    };
    let most = (0..=2_000).map(taken).fold(0.0, f64::max);
    let power = found.circuit.power.value;
    assert!((power / most - 1.0).abs() < 1e-3, "{power} W, {most} W");
    // Hot gas takes less, at whatever temperature it comes.
    let lighting = blower.startup.power.electric.value;
    let faster = (design.wiring.knob_end / blower.startup.running.speed_share).value;
    assert!(power > 1.5 * lighting * faster.powi(3));
    design.raw_gas.temperature = ThermodynamicTemperature::new::<degree_celsius>(300.0);
    assert_eq!(row(&design).circuit.power, found.circuit.power);
    // Cold air is heavier.
    design.site.air_temperature = ThermodynamicTemperature::new::<degree_celsius>(-20.0);
    let colder = row(&design).circuit.power.value / power;
    assert!((colder - 293.15 / 253.15).abs() < 1e-9, "{colder}");
    // The current is told with how it came about.
    let steps = ask(&design, Chapter::Electrics);
    let cables = steps
        .iter()
        .find(|finding| finding.id == "electrics.cables");
    let [power, current, ..] = cables.unwrap().working.as_slice() else {
        panic!("power and current");
    };
    assert!(power.words.contains("cold air"), "{}", power.words);
    assert!((power.result.si / design.battery.voltage.value - current.result.si).abs() < 1e-9);
}

#[test]
fn a_cable_that_is_too_thin_is_told_and_mended_with_one_that_is_sold() {
    let mut design = with_load(LoadKind::Heater, 150.0, 2.5);
    design.loads[0].cable = Some(Area::new::<square_millimeter>(0.75));
    let row = load_row(&design);
    assert_eq!(row.cable_answer().0, Verdict::Stop);
    let assessment = assess(&design);
    let finding = assessment.finding("electrics.cables").unwrap();
    assert!(
        finding
            .compared
            .text(System::Metric)
            .contains("carries 8.6 A in this heat, the load takes 12.5 A")
    );
    every_remedy_passes(&design, "electrics.cables", 2);
    let remedies = hearthplan::review::remedies(&design, "electrics.cables");
    // 12.5 A over 5 m may lose 0.6 V: 9.6 mΩ/m, so 2.5 mm²; that carries 18.3 A, less than the fuse of 20 A that they take.
    assert_eq!(remedies[0].value, Some(Value::Number(4.0 * 1e-6)));
}

#[test]
fn one_cable_is_offered_for_the_load_and_for_its_fuse() {
    let mut design = with_load(LoadKind::Heater, 150.0, 2.5);
    design.loads[0].cable = Some(Area::new::<square_millimeter>(1.5));
    let in_warm_air = Value::Number(273.15 + 50.0);
    design
        .set("wiring.air_temperature", in_warm_air.clone())
        .unwrap();
    design
        .set("limits.lead_acid_temperature", in_warm_air)
        .unwrap();
    let offered = |id: &str| {
        let cable = Lever::input("loads.0.cable");
        let all = remedies(&design, id);
        let remedy = all.into_iter().find(|remedy| remedy.lever == cable);
        remedy.expect(id).value
    };
    // 2.5 mm² carries the 12.5 A, but not the 20 A of the fuse that they take.
    let Some(Value::Number(section)) = offered("electrics.cables") else {
        panic!("a section");
    };
    assert!(section > 2.5e-6 * 1.01, "{section}");
    assert_eq!(offered("electrics.fuses"), Some(Value::Number(section)));
    design.set("loads.0.cable", Value::Number(section)).unwrap();
    assert_eq!(load_row(&design).verdict(), Verdict::Good);
}

#[test]
fn a_fuse_must_stand_the_load_and_protect_the_cable() {
    let with_fuse = |rating| {
        let mut design = with_load(LoadKind::Other, 96.0, 1.0);
        design.loads[0].cable = Some(Area::new::<square_millimeter>(1.5));
        design.loads[0].fuse = Some(amperes(rating));
        design
    };
    let verdict = |rating| load_row(&with_fuse(rating)).fuse_answer().0;
    // 8 A in a cable that carries 13.5 A.
    assert_eq!(verdict(7.5), Verdict::Stop);
    assert_eq!(verdict(9.0), Verdict::Watch);
    assert_eq!(verdict(10.0), Verdict::Good);
    assert_eq!(verdict(15.0), Verdict::Stop);
    every_remedy_passes(&with_fuse(15.0), "electrics.fuses", 2);
    every_remedy_passes(&with_fuse(7.5), "electrics.fuses", 1);
}

#[test]
fn a_chosen_cable_carries_the_fuse_that_was_entered() {
    let mut design = with_load(LoadKind::Other, 96.0, 1.0);
    design.loads[0].fuse = Some(amperes(20.0));
    let row = load_row(&design);
    assert!(row.run.as_ref().unwrap().carries >= amperes(20.0));
    assert_eq!(row.verdict(), Verdict::Good);
}

#[test]
fn a_fuse_far_above_the_load_protects_nothing_but_the_cable() {
    // 48 W at 12 V are 4 A: three times that is 12 A. The cable of 6 mm² carries 31 A.
    let with_fuse = |power, rating| {
        let mut design = with_load(LoadKind::Motor, power, 1.0);
        design.loads[0].cable = Some(Area::new::<square_millimeter>(6.0));
        design.loads[0].fuse = Some(amperes(rating));
        design
    };
    let good = load_row(&with_fuse(48.0, 10.0));
    assert_eq!(good.fuse_answer().0, Verdict::Good);
    assert_eq!(good.too_large(), None);
    let design = with_fuse(48.0, 30.0);
    let row = load_row(&design);
    let (verdict, margin) = row.fuse_answer();
    assert_eq!(verdict, Verdict::Watch);
    assert!((margin.unwrap() - (1.0 - 30.0 / 12.0)).abs() < 1e-9);
    assert!((row.too_large().unwrap().get::<ampere>() - 12.0).abs() < 1e-9);
    // 6 W take 0.5 A, and 5 A is small enough for anything.
    assert_eq!(
        load_row(&with_fuse(6.0, 5.0)).fuse_answer().0,
        Verdict::Good
    );
    assert_eq!(
        load_row(&with_fuse(6.0, 7.5)).fuse_answer().0,
        Verdict::Watch
    );
    // One that lets its cable burn is told as that.
    let mut thin = design.clone();
    thin.loads[0].cable = Some(Area::new::<square_millimeter>(1.5));
    assert_eq!(load_row(&thin).fuse_answer().0, Verdict::Stop);
    let told = |design: &Design| {
        let assessment = assess(design);
        let finding = assessment.finding("electrics.fuses").unwrap();
        (finding.compared.text(System::Metric), finding.working.len())
    };
    let (words, steps) = told(&design);
    assert!(words.contains("takes 4 A, fuse 30 A"), "{words}");
    assert!(words.ends_with("wanted at most 12 A"), "{words}");
    assert_eq!(steps, 4);
    assert!(!told(&thin).0.contains("wanted at most"));
    every_remedy_passes(&design, "electrics.fuses", 1);
}

#[test]
fn a_load_that_no_cable_carries_is_a_stop_not_a_silence() {
    let row = load_row(&with_load(LoadKind::Motor, 5_000.0, 30.0));
    assert_eq!(row.verdict(), Verdict::Stop);
    assert_eq!(
        row.run.unwrap().conductor.name,
        ConductorName::SquareMillimetres(35.0)
    );
}

#[test]
fn every_row_of_the_table_fills_every_column() {
    for seed in 0..200 {
        let assessment = assess(&random_design(seed));
        let table = assessment.electrics.schedule();
        assert_eq!(table.rows.len(), assessment.electrics.wiring.len());
        for row in &table.rows {
            assert_eq!(row.cells.len(), table.headings.len(), "seed {seed}");
            assert!(row.verdict.is_some());
        }
    }
}

#[test]
fn a_voltage_of_nothing_is_told_in_words() {
    let mut design = with_load(LoadKind::Other, 60.0, 3.0);
    design.battery.voltage = ElectricPotential::new::<volt>(0.0);
    let row = load_row(&design);
    assert!(
        row.run
            .as_ref()
            .unwrap_err()
            .contains("voltage of the battery")
    );
    assert_eq!(row.verdict(), Verdict::CannotTell);
}

#[test]
fn a_fuse_that_lets_its_cable_burn_is_named_before_one_that_blows() {
    let mut design = with_load(LoadKind::Other, 150.0, 1.0);
    design.loads[0].fuse = Some(amperes(1.0));
    design.wiring.blower_cable = Some(Area::new::<square_millimeter>(0.5));
    design.wiring.blower_fuse = Some(amperes(40.0));
    let told = |design: &Design| {
        let found = ask(design, Chapter::Electrics);
        let fuses = found
            .iter()
            .find(|finding| finding.id == "electrics.fuses")
            .unwrap();
        assert_eq!(fuses.verdict, Verdict::Stop);
        fuses.compared.text(System::Metric)
    };
    assert!(told(&design).starts_with("Blower"), "{}", told(&design));
    design.wiring.blower_fuse = None;
    design.wiring.blower_cable = None;
    assert!(!told(&design).starts_with("Blower"), "{}", told(&design));
}

#[test]
fn a_fuse_is_not_mended_by_another_battery_voltage() {
    let mut design = with_load(LoadKind::Other, 100.0, 3.0);
    design
        .set("wiring.blower_fuse", Value::Number(1.0))
        .unwrap();
    let assessment = assess(&design);
    let fuses = assessment.finding("electrics.fuses").unwrap();
    assert_ne!(fuses.verdict, Verdict::Good);
    let voltage = Lever::input("battery.voltage");
    assert!(!fuses.levers.contains(&voltage));
    // For cables it may be, where all that hangs on the battery is made for it: that is said.
    design.set("loads.0.cable", Value::Number(0.75e-6)).unwrap();
    let offered = remedies(&design, "electrics.cables");
    let other = offered
        .iter()
        .find(|remedy| remedy.lever == voltage)
        .unwrap();
    assert!(other.change.is_some() && !other.is_plain());
    let told = other.reservations(System::Metric).join(", ");
    assert!(told.contains("made for it"), "{told}");
}

/// A blower and a glow plug, each with a cable that is too thin.
#[test]
fn two_cables_that_are_too_thin_are_mended_together() {
    let mut design = with_load(LoadKind::Heater, 150.0, 2.5);
    for (path, value) in [
        ("loads.0.cable", 1.5e-6),
        ("wiring.blower_cable", 0.2e-6),
        ("wiring.blower_cable_length", 5.0),
    ] {
        design.set(path, Value::Number(value)).unwrap();
    }
    let rows = assess(&design).electrics.wiring;
    assert!((rows.iter()).all(|row| row.cable_answer().0 != Verdict::Good));
    let pairs = two_changes(&design, "electrics.cables");
    let pair = pairs.first().expect("both cables");
    let mut paths: Vec<String> = (pair.changes.iter())
        .map(|remedy| match &remedy.lever {
            Lever::Input(path) => path.to_string(),
            other => panic!("{other:?}"),
        })
        .collect();
    paths.sort();
    assert_eq!(paths, ["loads.0.cable", "wiring.blower_cable"]);
    let mended = pair.apply(&design).unwrap();
    assert!(
        (assess(&mended).electrics.wiring.iter()).all(|row| row.cable_answer().0 == Verdict::Good)
    );
    // Neither is wider than its own load needs: the size below would not do.
    for row in &assess(&mended).electrics.wiring {
        let area = design.get(&row.path("cable")).unwrap();
        let chosen = mended.get(&row.path("cable")).unwrap();
        assert!(chosen.number() > area.number());
        let mut empty = mended.clone();
        empty.set(&row.path("cable"), Value::Empty).unwrap();
        let rows = assess(&empty).electrics.wiring;
        let same = rows.iter().find(|other| other.name == row.name).unwrap();
        let run = same.run.as_ref().unwrap();
        assert!(chosen.number().unwrap() <= run.conductor.area.value);
    }
}

#[test]
fn a_fuse_is_offered_for_its_own_load_though_another_is_too_large_as_well() {
    let mut design = with_load(LoadKind::Heater, 120.0, 2.0);
    for (path, value) in [
        ("loads.0.fuse", 60.0),
        ("wiring.blower_fuse", 100.0),
        ("wiring.blower_cable", 4e-6),
    ] {
        design.set(path, Value::Number(value)).unwrap();
    }
    let before = assess(&design);
    let finding = before.finding("electrics.fuses").unwrap();
    assert_eq!(finding.verdict, Verdict::Stop);
    let lever = Lever::input("wiring.blower_fuse");
    let eased = easing(&design, &before, finding, &lever).expect("a fuse for the blower");
    let after = assess(&eased.change.unwrap().apply(&design).unwrap());
    let blower = &after.electrics.wiring[0];
    assert_eq!(blower.fuse_answer().0, Verdict::Good, "{:?}", eased.value);
    let run = blower.run.as_ref().unwrap();
    assert!(blower.fuse.unwrap() <= (3.0 * run.current).max(amperes(5.0)));
    let pairs = two_changes(&design, "electrics.fuses");
    let pair = pairs.first().expect("both fuses");
    let both = assess(&pair.apply(&design).unwrap());
    assert!((both.electrics.wiring.iter()).all(|row| row.fuse_answer().0 == Verdict::Good));
}

#[test]
fn a_thick_cable_for_a_small_load_says_that_its_way_is_long() {
    let told = |length| {
        let design = with_load(LoadKind::Other, 180.0, length);
        let assessment = assess(&design);
        let finding = assessment.finding("electrics.cables").unwrap();
        assert_eq!(finding.verdict, Verdict::Good);
        finding.compared.text(System::Metric)
    };
    let far = told(20.0);
    assert!(
        far.contains("only because its way of 20 m is long"),
        "{far}"
    );
    assert!(!told(2.0).contains("only because"));
    // As it says: at twice the voltage a quarter of the copper, over half the way half of it, but for the sizes sold.
    let section = |length, voltage| {
        let mut design = with_load(LoadKind::Other, 180.0, length);
        design.battery.voltage = ElectricPotential::new::<volt>(voltage);
        let run = load_row(&design).run.unwrap();
        run.conductor.area.get::<square_millimeter>()
    };
    let whole = section(20.0, 12.0);
    assert!((0.15..=0.35).contains(&(section(20.0, 24.0) / whole)));
    assert!((0.4..=0.75).contains(&(section(10.0, 12.0) / whole)));
}
