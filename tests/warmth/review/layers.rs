//! Layers are held against the heat that they bear in lasting use.

use super::{ask, bare_hearth, layer, verdict};
use crate::random_design::random_design;
use hearthplan::design::inputs::Material;
use hearthplan::design::quantity::{Quantity, System};
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{self, Lever, Verdict};
use hearthplan::sizing::heart::HeartAt;
use hearthplan::sizing::shell;
use hearthplan::sizing::zone::Zone;
use uom::si::f64::{Length, Ratio, ThermodynamicTemperature};
use uom::si::length::millimeter;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::degree_celsius;

#[test]
fn a_layer_too_hot_is_named() {
    let mut design = Design::default();
    design.body_wall.inner_temperature = ThermodynamicTemperature::new::<degree_celsius>(800.0);
    let finding = ask(&design, "warmth.layers_body").unwrap();
    assert_eq!(finding.verdict, Verdict::Stop);
    assert_eq!(
        finding.compared.text(System::Metric),
        "layer 1, Mild steel, is at 800 °C on its hot side; in lasting use it bears 550 °C"
    );
    // With steel that bears it, the wool behind is next.
    design.body_layers[0].material = Material::Stainless304;
    let finding = ask(&design, "warmth.layers_body").unwrap();
    assert_eq!(finding.verdict, Verdict::Stop);
    assert!(
        finding
            .compared
            .text(System::Metric)
            .starts_with("layer 2, Rock wool")
    );
    let blanket = finding.levers.iter().any(|lever| {
        matches!(lever, Lever::NewItem { list: "body_layers", index: 1, fields, .. }
            if fields.contains(&("material", Value::Choice("ceramic_blanket_1260".to_string()))))
    });
    assert!(blanket, "{:?}", finding.levers);
}

#[test]
fn insulation_hotter_than_its_data_is_watched() {
    let mut design = Design::default();
    design.body_wall.inner_temperature = ThermodynamicTemperature::new::<degree_celsius>(800.0);
    design.body_layers = vec![
        layer(Material::Stainless310, 3.0),
        layer(Material::Perlite, 60.0),
        layer(Material::MildSteel, 1.0),
    ];
    let finding = ask(&design, "warmth.layers_body").unwrap();
    assert_eq!(finding.verdict, Verdict::Watch);
    assert!(
        finding
            .compared
            .text(System::Metric)
            .contains("Loose perlite")
    );
}

#[test]
fn steel_as_hot_as_the_fire_is_told_what_helps() {
    let design = Design {
        hearth_layers: vec![
            layer(Material::Stainless304, 5.0),
            layer(Material::CeramicBlanket1260, 85.0),
        ],
        ..Design::default()
    };
    let finding = ask(&design, "warmth.layers_hearth").unwrap();
    assert_eq!(finding.verdict, Verdict::Stop);
    assert!(finding.why.contains("Insulation on its hot side"));
    let lined = |lever: &Lever| matches!(lever, Lever::NewItem { index: 0, .. });
    assert!(finding.levers.iter().any(lined));
}

#[test]
fn layers_are_judged_where_the_hearth_is_hottest() {
    let wall = |at: &HeartAt| at.supply.wall_temperature;
    let hotter_idle = |design: &Design| {
        let at = review::assess(design).heart.at;
        let others = wall(&at.full).value.max(wall(&at.usual).value);
        at.idle.makes_gas()
            && wall(&at.idle).value > others + 20.0
            && ask(design, "warmth.layers_hearth")
                .is_some_and(|asked| asked.compared.text(System::Metric).contains("it bears"))
    };
    let design = (3_000..6_000).map(random_design).find(hotter_idle).unwrap();
    let idle = review::assess(&design).heart.at.idle;
    let finding = ask(&design, "warmth.layers_hearth").unwrap();
    let told = finding.compared.text(System::Metric);
    assert!(told.contains(" at the lowest load"), "{told}");
    let hottest = shell::zone_heat(&design, Zone::Hearth, wall(&idle)).unwrap();
    let (_, layer) = hottest.hardest_pressed().unwrap();
    let shown = Quantity::Temperature.show(layer.hot.value, System::Metric);
    assert!(told.contains(&shown), "{told}: {shown}");
    // Where full load is hottest, nothing is said of loads.
    let mut bare = bare_hearth();
    bare.operation.usual_load = Ratio::new::<ratio>(1.0);
    bare.operation.idle_load = Ratio::new::<ratio>(1.0);
    let told = ask(&bare, "warmth.layers_hearth").unwrap().compared;
    assert!(!told.text(System::Metric).contains(" load"));
}

/// The hot face is as hot as entered: what bears just that is Good, whatever the last digits of the sums say.
#[test]
fn a_layer_just_as_hot_as_it_bears_is_good() {
    let mut design = example::as_improved();
    design.bottom_layers[0].material = Material::Aluminium;
    for thickness in [1.0, 3.0, 5.0, 8.0] {
        design.bottom_layers[0].thickness = Length::new::<millimeter>(thickness);
        for celsius in [150.0, 190.0, 199.9, 200.0] {
            design.bottom.inner_temperature =
                ThermodynamicTemperature::new::<degree_celsius>(celsius);
            let found = ask(&design, "warmth.layers_bottom").unwrap();
            assert_eq!(found.verdict, Verdict::Good, "{thickness} mm, {celsius} °C");
            assert!(found.margin.unwrap() >= 0.0);
        }
    }
    design.bottom.inner_temperature = ThermodynamicTemperature::new::<degree_celsius>(200.1);
    assert_eq!(
        verdict(&design, "warmth.layers_bottom"),
        Some(Verdict::Watch)
    );
}
