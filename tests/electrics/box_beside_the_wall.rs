//! The battery box behind its sheets.

use crate::mended::every_remedy_passes;
use hearthplan::design::inputs::{Chemistry, HotWall};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Chapter, Verdict, ask, assess};
use hearthplan::sizing::shell::ZoneShell;
use hearthplan::sizing::zone::Zone;
use uom::si::f64::{Length, Ratio};
use uom::si::length::millimeter;
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
        words.contains("1103 °C outside at the lowest load") && words.contains("900 °C"),
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
