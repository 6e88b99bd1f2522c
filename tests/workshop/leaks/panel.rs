//! What the weakest flat panel bears, against the series of plate theory, and that the lowest limit is told first.

use hearthplan::design::Design;
use hearthplan::design::inputs::{Layer, Material, OwnMaterial};
use hearthplan::design::quantity::System;
use hearthplan::paper::html;
use hearthplan::paper::sheets::all;
use hearthplan::review::assess;
use hearthplan::sizing::panel::{Panel, panel_limit, shell_metal};
use std::f64::consts::PI;
use uom::si::f64::{Length, ThermalConductivity};
use uom::si::length::millimeter;
use uom::si::thermal_conductivity::watt_per_meter_kelvin;

#[test]
fn the_sheet_tells_the_lowest_limit_first() {
    let said = |design: &Design| {
        let sheets = all(design, &assess(design), System::Metric, &[]);
        let leaks = sheets.into_iter().find(|sheet| sheet.name == "leak-tests");
        html::blocks(&leaks.expect("the sheet"), System::Metric)
    };
    let mut design = Design::default();
    let before = |text: &str, first: &str, then: &str| {
        let place = |words: &str| text.find(words).expect("the words");
        assert!(place(first) < place(then), "{text}");
    };
    let text = said(&design);
    before(&text, "Never go above 191", "once that is braced");
    before(
        &text,
        "once that is braced",
        "The “weakest flat panel” of the leak test inputs bears",
    );
    design.leak_test.panel_sheet = Length::new::<millimeter>(0.5);
    let text = said(&design);
    before(
        &text,
        "the “weakest flat panel” of the leak test inputs bears no more",
        "Test pressure: ",
    );
    assert!(!text.contains("Never go above 191"), "{text}");
}

/// Deflection and moment of a rectangle with free edges by Navier's double series.
fn navier(sides: f64) -> (f64, f64) {
    let (mut deflection, mut moment) = (0.0, 0.0);
    for m in (1..200).step_by(2) {
        for n in (1..200).step_by(2) {
            let (m, n) = (f64::from(m), f64::from(n));
            let squares = m * m + (n / sides).powi(2);
            let sign = (0.5 * PI * m).sin() * (0.5 * PI * n).sin();
            let term = 16.0 * sign / (PI.powi(6) * m * n * squares * squares);
            deflection += term;
            moment += PI * PI * term * (m * m + 0.3 * (n / sides).powi(2));
        }
    }
    (deflection, moment)
}

#[test]
fn the_plate_table_is_that_of_the_series() {
    let mm = Length::new::<millimeter>;
    let steel = shell_metal(&Design::default());
    for sides in [1.0, 1.3, 1.5, 1.9, 2.0, 3.0, 5.0] {
        let found = panel_limit(
            Panel::Rectangle(mm(200.0 * sides), mm(200.0)),
            mm(2.0),
            &steel,
        )
        .expect("in range");
        let (deflection, moment) = navier(sides);
        let by_stress = 0.4 * 2.35e8 / (6.0 * moment * 100.0_f64.powi(2));
        let by_deflection = 0.5 * 2.05e11 / (12.0 * 0.91 * deflection * 100.0_f64.powi(4));
        assert!(
            (found.by_stress.value / by_stress - 1.0).abs() < 0.01,
            "{sides}"
        );
        assert!(
            (found.by_deflection.value / by_deflection - 1.0).abs() < 0.01,
            "{sides}"
        );
        assert_eq!(found.pressure, found.by_stress.min(found.by_deflection));
    }
}

/// A layer of a wall, its thickness in mm.
fn layer(material: Material, thickness: f64) -> Layer {
    Layer {
        material,
        thickness: Length::new::<millimeter>(thickness),
    }
}

#[test]
fn a_panel_bears_what_its_own_metal_bears() {
    let mm = Length::new::<millimeter>;
    let bears = |design: &Design| {
        panel_limit(Panel::Round(mm(60.0)), mm(3.0), &shell_metal(design)).expect("in range")
    };
    let mut design = Design::default();
    let steel = bears(&design);
    // Round plate: stress over pressure is 3 (3 + ν)/8 (r/s)² = 1.2375 · 100.
    assert!((steel.by_stress.value * 123.75 / (0.4 * 2.35e8) - 1.0).abs() < 1e-9);

    design.lid_layers = vec![layer(Material::Stainless304, 4.0)];
    let stainless = bears(&design);
    assert!((stainless.by_stress.value * 123.75 / (0.4 * 2.1e8) - 1.0).abs() < 1e-9);
    // The weakest wall counts, and a thin jacket around a steel wall does not.
    design.body_layers = vec![
        layer(Material::Aluminium, 1.0),
        layer(Material::MildSteel, 3.0),
    ];
    assert_eq!(bears(&design), stainless);
    design.body_layers = vec![
        layer(Material::Aluminium, 4.0),
        layer(Material::MildSteel, 3.0),
    ];
    let soft = bears(&design);
    assert!((soft.by_stress.value / stainless.by_stress.value - 80.0 / 210.0).abs() < 1e-9);
    assert!((soft.by_deflection.value / stainless.by_deflection.value - 70.0 / 200.0).abs() < 1e-9);
}

#[test]
fn a_shell_of_unknown_metal_is_said_to_be_unknown() {
    let mut design = Design::default();
    assert!(shell_metal(&design).known);
    let own = |conductivity| OwnMaterial {
        conductivity_1: ThermalConductivity::new::<watt_per_meter_kelvin>(conductivity),
        ..OwnMaterial::default()
    };
    // The panel that was entered is the weakest.
    design.hopper.wall_thickness = Length::new::<millimeter>(8.0);
    design.bottom_layers = vec![layer(Material::MildSteel, 8.0)];
    for stage in &mut design.train {
        stage.wall *= 10.0;
    }
    design.lid_layers = vec![layer(Material::Own1, 4.0)];
    design.own_materials = vec![own(40.0)];
    assert!(!shell_metal(&design).known);
    let said = assess(&design)
        .finding("leaks.panel")
        .expect("asked")
        .compared
        .text(System::Metric);
    assert!(said.contains("not known"), "{said}");
    // A board that insulates is no shell.
    design.own_materials = vec![own(0.1)];
    assert!(shell_metal(&design).known);
    // No metal anywhere: mild steel stands in, and that is said.
    for layers in [
        &mut design.lid_layers,
        &mut design.bottom_layers,
        &mut design.body_layers,
        &mut design.hearth_layers,
    ] {
        *layers = vec![layer(Material::DenseCastable, 30.0)];
    }
    let found = shell_metal(&design);
    assert_eq!((found.material, found.known), (Material::MildSteel, false));
}
