//! The verdicts on warmth and their remedies.

#[path = "review/layers.rs"]
mod layers;

use crate::random_design::random_design;
use hearthplan::design::inputs::{Layer, Material};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{self, Change, Chapter, Finding, Lever, Verdict, remedies};
use hearthplan::sizing::shell::ZoneShell;
use hearthplan::sizing::zone::Zone;
use proptest::prelude::*;
use uom::si::f64::{Length, Ratio, TemperatureInterval, ThermodynamicTemperature, Time};
use uom::si::length::millimeter;
use uom::si::ratio::ratio;
use uom::si::temperature_interval::kelvin;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::hour;

const IDS: [&str; 11] = [
    "warmth.loss",
    "warmth.loss_idle",
    "warmth.touch_hearth",
    "warmth.touch_body",
    "warmth.touch_lid",
    "warmth.touch_bottom",
    "warmth.layers_hearth",
    "warmth.layers_body",
    "warmth.layers_lid",
    "warmth.layers_bottom",
    "warmth.warm_up",
];

fn layer(material: Material, thickness_mm: f64) -> Layer {
    Layer {
        material,
        thickness: Length::new::<millimeter>(thickness_mm),
    }
}

fn bare_hearth() -> Design {
    Design {
        hearth_layers: vec![layer(Material::Stainless310, 4.0)],
        ..Design::default()
    }
}

fn ask(design: &Design, id: &str) -> Option<Finding> {
    review::ask(design, Chapter::Warmth)
        .into_iter()
        .find(|finding| finding.id == id)
}

fn verdict(design: &Design, id: &str) -> Option<Verdict> {
    ask(design, id).map(|finding| finding.verdict)
}

#[test]
fn every_question_is_asked_once_and_explains_itself() {
    let findings = review::ask(&Design::default(), Chapter::Warmth);
    for id in IDS {
        assert_eq!(
            findings.iter().filter(|finding| finding.id == id).count(),
            1,
            "{id}"
        );
    }
    for finding in findings {
        let compared = finding.compared.text(System::Metric);
        assert!(
            !compared.is_empty() && !compared.contains("{}"),
            "{}: {compared}",
            finding.id
        );
        assert!(!finding.working.is_empty(), "{}", finding.id);
        assert!(finding.caution.is_some(), "{}", finding.id);
        assert!(finding.margin.is_some_and(f64::is_finite), "{}", finding.id);
    }
}

#[test]
fn a_bare_hearth_stops_and_a_layer_of_blanket_mends_it() {
    let bare = bare_hearth();
    assert_eq!(verdict(&bare, "warmth.loss"), Some(Verdict::Stop));
    assert_eq!(verdict(&bare, "warmth.touch_hearth"), Some(Verdict::Stop));
    let found = remedies(&bare, "warmth.loss");
    let Some(Change::Insert {
        list,
        index,
        fields,
    }) = found.first().and_then(|remedy| remedy.change.clone())
    else {
        panic!("no layer offered: {found:?}");
    };
    // Behind insulation the sheet would scale away, and on the hot side the blanket gets as hot as the fire.
    assert_eq!((list, index), ("hearth_layers", 0));
    assert!(fields.contains(&(
        "material",
        Value::Choice("ceramic_blanket_1430".to_string())
    )));
    let mended = found[0].change.as_ref().unwrap().apply(&bare).unwrap();
    assert_eq!(verdict(&mended, "warmth.loss"), Some(Verdict::Good));
    assert_eq!(
        verdict(&mended, "warmth.layers_hearth"),
        Some(Verdict::Good)
    );
    assert!(mended.hearth_layers[0].thickness > Length::new::<millimeter>(3.0));
    assert!(mended.hearth_layers[0].thickness < Length::new::<millimeter>(60.0));
}

#[test]
fn every_remedy_offered_passes_and_none_is_offered_twice() {
    let mut hot = bare_hearth();
    hot.body_layers = vec![
        layer(Material::MildSteel, 3.0),
        layer(Material::RockWool, 20.0),
        layer(Material::Aluminium, 1.0),
    ];
    hot.body_wall.inner_temperature = ThermodynamicTemperature::new::<degree_celsius>(900.0);
    let mut offered = 0;
    for design in [Design::default(), hot] {
        for id in IDS {
            let found = remedies(&design, id);
            for remedy in &found {
                assert_eq!(
                    found
                        .iter()
                        .filter(|other| other.lever == remedy.lever)
                        .count(),
                    1
                );
                if let Some(change) = &remedy.change {
                    let changed = change.apply(&design).unwrap();
                    assert_eq!(
                        verdict(&changed, id),
                        Some(Verdict::Good),
                        "{id} {change:?}"
                    );
                    offered += 1;
                }
            }
        }
    }
    assert!(offered >= 10, "only {offered} remedies");
}

#[test]
fn the_same_watts_are_a_larger_share_at_low_load() {
    let mut design = Design::default();
    let full = ask(&design, "warmth.loss").unwrap().margin.unwrap();
    let idle = ask(&design, "warmth.loss_idle").unwrap().margin.unwrap();
    assert!(idle < full);
    design.operation.usual_load.value = 1.0;
    design.operation.idle_load.value = 1.0;
    let even = ask(&design, "warmth.loss_idle").unwrap().margin.unwrap();
    assert!((even - full).abs() < 1e-3);
    let warmth = review::assess(&design).warmth;
    let shares = (
        warmth.loss_share_full().unwrap(),
        warmth.loss.unwrap() / warmth.fuel_power_full,
    );
    assert_eq!(shares.0, shares.1);
}

#[test]
fn a_guard_allows_a_hot_outside_up_to_its_own_limit() {
    let mut design = Design::default();
    assert_eq!(verdict(&design, "warmth.touch_lid"), Some(Verdict::Stop));
    design.lid.guarded = true;
    assert_eq!(verdict(&design, "warmth.touch_lid"), Some(Verdict::Good));
    design.lid.inner_temperature = ThermodynamicTemperature::new::<degree_celsius>(400.0);
    assert_eq!(verdict(&design, "warmth.touch_lid"), Some(Verdict::Stop));
}

#[test]
fn a_heavy_lining_takes_too_long_to_warm_and_a_thinner_one_mends_it() {
    // With a fire and a patience that do not make it wait.
    let mut light = Design::default();
    light.operation.startup_share = Ratio::new::<ratio>(1.0);
    light.limits.warm_up_time = Time::new::<hour>(1.0);
    assert_eq!(verdict(&light, "warmth.warm_up"), Some(Verdict::Good));
    let mut heavy = light.clone();
    heavy.hearth_layers[0].thickness = Length::new::<millimeter>(120.0);
    let finding = ask(&heavy, "warmth.warm_up").unwrap();
    assert_eq!(finding.verdict, Verdict::Stop);
    assert_eq!(finding.levers[0], Lever::input("hearth_layers.0.thickness"));
    let remedy = &remedies(&heavy, "warmth.warm_up")[0];
    let mended = remedy.change.as_ref().unwrap().apply(&heavy).unwrap();
    assert_eq!(verdict(&mended, "warmth.warm_up"), Some(Verdict::Good));
    assert!(mended.hearth_layers[0].thickness < heavy.hearth_layers[0].thickness);
}

#[test]
fn a_small_fire_makes_it_wait_and_more_of_it_helps() {
    let mut design = example::as_improved();
    let finding = ask(&design, "warmth.warm_up").unwrap();
    assert_eq!(finding.verdict, Verdict::Good);
    let told = finding.compared.text(System::Metric);
    assert!(
        told.contains("at the lighting flow the fire gives"),
        "{told}"
    );
    assert!(told.contains("Wait for the longer of the two"), "{told}");
    // Both times wanted stand in the working with what they come from.
    let four = 4.0 * design.limits.warm_up_time.value;
    let patience = (finding.working.iter()).find(|step| step.result.si == four);
    let patience = patience.unwrap();
    assert!(matches!(
        patience.source,
        hearthplan::design::Source::OwnMark(_)
    ));
    // However long the fire takes, a wall that could be quick is not stopped.
    design.operation.startup_share = Ratio::new::<ratio>(0.05);
    let finding = ask(&design, "warmth.warm_up").unwrap();
    assert_eq!(finding.verdict, Verdict::Watch);
    let more = Lever::input("operation.startup_share");
    assert!(finding.levers.contains(&more));
    let offered = remedies(&design, "warmth.warm_up");
    let mended = offered.iter().find(|remedy| remedy.lever == more).unwrap();
    assert!(mended.change.is_some());
}

#[test]
fn a_missing_own_material_cannot_be_told_and_leaves_other_zones_alone() {
    let mut design = Design::default();
    design.lid_layers[0].material = Material::Own2;
    for id in [
        "warmth.loss",
        "warmth.loss_idle",
        "warmth.touch_lid",
        "warmth.layers_lid",
    ] {
        let finding = ask(&design, id).unwrap();
        assert_eq!(finding.verdict, Verdict::CannotTell, "{id}");
        assert!(
            finding
                .compared
                .text(System::Metric)
                .contains("own material 2")
        );
    }
    assert_eq!(verdict(&design, "warmth.touch_bottom"), Some(Verdict::Good));
    let warmth = review::assess(&design).warmth;
    assert!(
        warmth.loss.is_none()
            && warmth.zone(Zone::Lid).is_none()
            && warmth.zone(Zone::Body).is_some()
    );
}

#[test]
fn results_have_unique_names_and_agree_with_the_zones() {
    let warmth = review::assess(&Design::default()).warmth;
    let results = warmth.results();
    let mut names: Vec<_> = results.iter().map(|result| result.name.clone()).collect();
    names.sort();
    names.dedup();
    assert_eq!(names.len(), results.len());
    let surface = results
        .iter()
        .find(|result| result.name == "warmth.surface_hearth")
        .unwrap();
    let hottest = warmth.hottest(Zone::Hearth).heat.as_ref().unwrap();
    assert_eq!(surface.measure.si, hottest.surface_temperature.value);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_design_gets_an_answer_to_every_question(seed in any::<u64>()) {
        let design = random_design(seed);
        let findings = review::ask(&design, Chapter::Warmth);
        for finding in &findings {
            prop_assert!(finding.margin.is_none_or(f64::is_finite), "{}", finding.id);
            prop_assert!(finding.verdict == Verdict::CannotTell || !finding.working.is_empty());
            for lever in &finding.levers {
                if let Lever::Input(path) = lever {
                    prop_assert!(design.input(path).is_some(), "{}", path);
                }
            }
        }
        for result in review::assess(&design).warmth.results() {
            prop_assert!(result.measure.si.is_finite(), "{}", result.name);
        }
    }
}

#[test]
fn a_load_without_gas_is_not_left_out() {
    let at = |load: f64| {
        let mut design = example::as_improved();
        let share = Value::Number(load);
        design.set("operation.idle_load", share).unwrap();
        review::assess(&design)
    };
    let said = |assessment: &review::Assessment, id: &str| {
        let finding = assessment.finding(id).unwrap();
        (finding.verdict, finding.compared.text(System::Metric))
    };
    let hot = at(0.07);
    assert!(hot.heart.at.idle.makes_gas());
    assert_eq!(said(&hot, "warmth.layers_hearth").0, Verdict::Stop);
    let out = at(0.05);
    assert!(!out.heart.at.idle.makes_gas() && out.heart.at.full.makes_gas());
    let title = out.finding("heart.idle").unwrap().title;
    for id in ["warmth.layers_hearth", "warmth.loss_idle", "hearth.lasts"] {
        let (verdict, words) = said(&out, id);
        assert_eq!(verdict, Verdict::CannotTell, "{id}: {words}");
        assert!(words.contains(title), "{id}: {words}");
    }
    assert_eq!(said(&out, "warmth.loss").0, Verdict::Good);
    let told = |name: &str| out.results().iter().any(|result| result.name == name);
    assert!(told("warmth.loss_share_full") && !told("warmth.loss_share_idle"));
    assert!(told("warmth.fuel_power_full") && !told("warmth.fuel_power_idle"));
    // Loss and wood are known of a hearth that loses nothing alone: their share would look like little.
    let (verdict, words) = said(&out, "heart.idle");
    assert_eq!(verdict, Verdict::Stop);
    assert!(!words.contains(" kW"), "{words}");
}

#[test]
fn without_gas_at_full_load_nothing_is_told_of_the_wall() {
    let mut design = example::as_first_drawn();
    design.engine.displacement *= 0.3;
    assert!(!review::assess(&design).heart.at.full.makes_gas());
    for id in [
        "warmth.loss",
        "warmth.touch_hearth",
        "warmth.layers_hearth",
        "warmth.warm_up",
    ] {
        assert_eq!(verdict(&design, id), Some(Verdict::CannotTell), "{id}");
    }
    assert_ne!(
        verdict(&design, "warmth.touch_bottom"),
        Some(Verdict::CannotTell)
    );
}

#[test]
fn no_wind_makes_a_wall_safe_to_touch() {
    let mut design = example::as_improved();
    let mut surfaces = Vec::new();
    for wind in [0.0, 1.0, 5.0] {
        design.set("site.wind_speed", Value::Number(wind)).unwrap();
        let assessment = review::assess(&design);
        let touch = |zone| {
            let hottest = assessment.warmth.hottest(zone).heat.as_ref().unwrap();
            hottest.surface_temperature.value
        };
        // Entered, so that no wind changes what is inside.
        surfaces.push(touch(Zone::Body));
        let windy = assessment.warmth.zone(Zone::Body).unwrap();
        assert_eq!(
            windy.surface_temperature.value < touch(Zone::Body),
            wind > 0.0
        );
    }
    assert!(surfaces.windows(2).all(|pair| pair[0] == pair[1]));
}

#[test]
fn the_hearth_wall_may_be_touched_only_where_it_is_hottest() {
    let mut design = example::as_improved();
    let assessment = review::assess(&design);
    let full = ZoneShell::new(&design, Zone::Hearth)
        .unwrap()
        .in_still_air()
        .heat(assessment.heart.at.full.supply.wall_temperature)
        .unwrap()
        .surface_temperature;
    // Cool enough at full load, with little to spare: at the lowest load it is hotter.
    design.limits.guarded_temperature = full + TemperatureInterval::new::<kelvin>(1.0);
    let finding = ask(&design, "warmth.touch_hearth").unwrap();
    let told = finding.compared.text(System::Metric);
    assert_eq!(finding.verdict, Verdict::Stop, "{told}");
    assert!(
        told.contains(" at the lowest load in still air, behind a guard"),
        "{told}"
    );
    let surface = finding.working.last().unwrap().result.si;
    assert!(surface > full.value + 1.0, "{surface}");
    // The drawing tells the same.
    let drawn = assessment.warmth.hottest_outside(Zone::Hearth).unwrap();
    assert!((drawn.value - surface).abs() < 1e-9);
    let lid = ZoneShell::new(&design, Zone::Lid).unwrap().in_still_air();
    let lid = lid.heat(design.lid.inner_temperature).unwrap();
    let told = assessment.warmth.hottest_outside(Zone::Lid).unwrap();
    assert_eq!(told, lid.surface_temperature);
    let body = ask(&design, "warmth.touch_body").unwrap();
    assert!(!body.compared.text(System::Metric).contains("load"));
}
