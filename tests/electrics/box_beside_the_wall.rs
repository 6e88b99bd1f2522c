//! The battery box behind its sheets.

use crate::mended::every_remedy_passes;
use hearthplan::design::inputs::{Chemistry, HotWall};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Chapter, Verdict, ask, assess};
use hearthplan::sizing::shell::ZoneShell;
use hearthplan::sizing::zone::Zone;
use uom::si::area::square_millimeter;
use uom::si::f64::{Area, Length, Power, Ratio};
use uom::si::length::{meter, millimeter};
use uom::si::power::watt;
use uom::si::ratio::ratio;

fn box_kelvin(design: &Design) -> f64 {
    let shelter = assess(design).electrics.shelter.unwrap();
    shelter.found.box_temperature.value
}

#[test]
fn the_wall_is_the_computed_outside_of_the_machine() {
    let mut design = example::as_first_drawn();
    for (beside, zone) in [(HotWall::Hearth, Zone::Hearth), (HotWall::Body, Zone::Body)] {
        design.battery_box.beside = beside;
        let assessment = assess(&design);
        let at = &assessment.heart.at;
        let inside = [&at.full, &at.usual, &at.idle]
            .into_iter()
            .filter(|at| at.makes_gas())
            .map(|at| at.supply.wall_temperature)
            .max_by(|one, other| one.value.total_cmp(&other.value))
            .unwrap();
        let inside = zone.entered_temperature(&design).unwrap_or(inside);
        assert_eq!(
            assessment.electrics.shelter.unwrap().hot_wall,
            (ZoneShell::new(&design, zone).unwrap().in_still_air())
                .heat(inside)
                .unwrap()
                .surface_temperature
        );
    }
}

#[test]
fn each_sheet_makes_the_box_cooler() {
    let mut design = example::as_first_drawn();
    let mut before = f64::INFINITY;
    for sheets in 0..=3 {
        design.battery_box.sheets = sheets;
        let now = box_kelvin(&design);
        assert!(now < before, "{sheets} sheets");
        before = now;
    }
    assert!(before > design.site.air_temperature.value);
}

#[test]
fn lithium_stands_less_than_lead_acid() {
    let mut design = example::as_improved();
    let margin = |design: &Design| assess(design).finding("electrics.box").unwrap().margin;
    let lead = margin(&design);
    design.battery_box.chemistry = Chemistry::Lithium;
    assert!(margin(&design) < lead);
}

#[test]
fn a_wider_gap_helps_only_until_its_air_moves() {
    let with_gap = |millimetres: f64| {
        let mut design = example::as_improved();
        design.battery_box.gap = Length::new::<millimeter>(millimetres);
        design
    };
    let warm = |millimetres: f64| box_kelvin(&with_gap(millimetres));
    assert!(warm(10.0) < warm(3.0) - 1.0);
    // Still air would hold back six times as much.
    assert!(warm(60.0) > warm(10.0) - 4.0);
    let carried = |millimetres: f64| {
        let electrics = assess(&with_gap(millimetres)).electrics;
        electrics.shelter.unwrap().found.last_gap
    };
    assert!(carried(3.0) < 1.01 && carried(60.0) > 2.0);
}

#[test]
fn remedies_of_a_hot_box_pass() {
    every_remedy_passes(&example::as_first_drawn(), "electrics.box", 1);
}

#[test]
fn a_wall_too_hot_to_reckon_beside_is_a_stop() {
    let mut design = example::as_first_drawn();
    design.hearth_wall.outer_emittance = Ratio::new::<ratio>(0.02);
    let assessment = assess(&design);
    let finding = assessment.finding("electrics.box").unwrap();
    let words = finding.compared.text(Default::default());
    assert!(assessment.electrics.shelter.is_err());
    assert_eq!(finding.verdict, Verdict::Stop, "{words}");
    assert!(
        words.contains("1115 °C outside at the lowest load") && words.contains("900 °C"),
        "{words}"
    );
}

#[test]
fn the_box_is_judged_at_the_load_at_which_its_wall_is_hottest() {
    let mut design = example::as_improved();
    design
        .set("site.air_temperature", Value::Number(24.5 + 273.15))
        .unwrap();
    let assessment = assess(&design);
    let finding = assessment.finding("electrics.box").unwrap();
    let told = finding.compared.text(System::Metric);
    // At full load it would be just cool enough.
    assert_eq!(finding.verdict, Verdict::Stop, "{told}");
    assert!(told.contains(" at the lowest load, "), "{told}");
    let of_wall = assessment.warmth.zone(Zone::Hearth).unwrap();
    let shelter = assessment.electrics.shelter.as_ref().unwrap();
    assert!(shelter.hot_wall.value > of_wall.surface_temperature.value + 2.0);
    // The chapter says the same when it is asked alone.
    let alone = ask(&design, Chapter::Electrics);
    assert!(alone.contains(finding));
    design.battery_box.beside = HotWall::Body;
    let assessment = assess(&design);
    let finding = assessment.finding("electrics.box").unwrap();
    let told = finding.compared.text(System::Metric);
    assert!(!told.contains("load"), "{told}");
}

#[test]
fn beside_a_wall_that_makes_no_gas_at_some_load_nobody_knows_how_warm_the_box_gets() {
    let mut design = example::as_improved();
    for (load, wanted) in [
        (0.30, Verdict::Good),
        (0.08, Verdict::Stop),
        (0.06, Verdict::CannotTell),
    ] {
        design.operation.idle_load = Ratio::new::<ratio>(load);
        let assessment = assess(&design);
        let finding = assessment.finding("electrics.box").unwrap();
        let told = finding.compared.text(System::Metric);
        assert_eq!(finding.verdict, wanted, "{load}: {told}");
        if wanted == Verdict::CannotTell {
            let layers = assessment.finding("warmth.layers_hearth").unwrap();
            let theirs = layers.compared.text(System::Metric);
            let (_, words) = theirs.split_once(". Whether").unwrap();
            assert!(told.ends_with(words), "{told}");
        }
    }
    // The body holds wood, and is as warm as was entered.
    design.battery_box.beside = HotWall::Body;
    assert_eq!(
        assess(&design).finding("electrics.box").unwrap().verdict,
        Verdict::Good
    );
}

#[test]
fn cables_are_as_warm_as_the_box_that_they_leave() {
    let mut design = example::as_improved();
    let warm = box_kelvin(&design);
    let carries = |design: &Design| {
        let row = &assess(design).electrics.wiring[3];
        row.run.as_ref().unwrap().carries.value
    };
    // The box is warmer than the 40 °C entered.
    assert!(warm > design.wiring.air_temperature.value + 5.0);
    let rated = 24.0;
    let expected = rated * ((343.15 - warm) / 30.0).sqrt();
    assert!((carries(&design) - expected).abs() < 1e-6);
    // A cable of one's own that would do in the air entered does not in the box, and is told why.
    let glow = &mut design.loads[2];
    glow.cable = Some(Area::new::<square_millimeter>(1.5));
    glow.power = Power::new::<watt>(150.0);
    glow.cable_length = Length::new::<meter>(0.5);
    glow.fuse = None;
    let assessment = assess(&design);
    let finding = assessment.finding("electrics.cables").unwrap();
    let told = finding.compared.text(System::Metric);
    assert_eq!(finding.verdict, Verdict::Stop, "{told}");
    assert!(
        told.contains("in the battery box where it begins"),
        "{told}"
    );
    let words: Vec<&str> = (finding.working.iter())
        .flat_map(|step| step.values.iter().map(|value| value.1))
        .collect();
    assert!(
        (words.iter()).any(|words| words.starts_with("air in the battery box")),
        "{words:?}"
    );
    every_remedy_passes(&design, "electrics.cables", 1);
    // A box that is too warm for its battery is mended first: until then what the battery stands is reckoned with.
    design.loads[2].cable = None;
    design.battery_box.sheets = 0;
    let limit = design.limits.lead_acid_temperature;
    assert!(box_kelvin(&design) > limit.value);
    let hot = assess(&design);
    assert_eq!(hot.electrics.wiring[0].circuit.around, limit);
    // And that is said, where the cable is found too thin and in its working.
    design.loads[2].cable = Some(Area::new::<square_millimeter>(1.0));
    let hot = assess(&design);
    let finding = hot.finding("electrics.cables").unwrap();
    let told = finding.compared.text(System::Metric);
    assert!(told.contains("and less while the box is hotter"), "{told}");
    let said = |words: &str| words.contains("once the box is mended");
    let mut values = finding.working.iter().flat_map(|step| &step.values);
    assert!(values.any(|value| said(value.1)));
    design.loads[2].cable = None;
    // Air that is entered warmer than the box goes before it.
    design.battery_box.sheets = 1;
    design.wiring.air_temperature = limit;
    assert_eq!(assess(&design).electrics.wiring[0].circuit.around, limit);
}

/// Common practice, no source: no lithium iron phosphate battery is charged below 0 °C.
#[test]
fn a_lithium_battery_is_not_charged_in_the_frost() {
    let said = |celsius: f64, chemistry: Chemistry| {
        let mut design = example::as_improved();
        design.battery_box.chemistry = chemistry;
        (design.set("site.air_temperature", Value::Number(273.15 + celsius))).unwrap();
        let assessment = assess(&design);
        let found = assessment.finding("electrics.box").unwrap();
        (found.verdict, found.compared.text(System::Metric))
    };
    let (verdict, words) = said(-10.0, Chemistry::Lithium);
    assert_eq!(verdict, Verdict::Watch, "{words}");
    assert!(
        words.contains("−10 °C") && words.contains("0 °C"),
        "{words}"
    );
    for (celsius, chemistry) in [(0.0, Chemistry::Lithium), (-10.0, Chemistry::LeadAcid)] {
        let (verdict, words) = said(celsius, chemistry);
        assert_eq!(verdict, Verdict::Good, "{words}");
    }
    let mut design = example::as_improved();
    design.battery_box.chemistry = Chemistry::Lithium;
    (design.set("site.air_temperature", Value::Number(263.15))).unwrap();
    every_remedy_passes(&design, "electrics.box", 1);
}
