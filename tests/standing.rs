//! Weight, centre of gravity, tipping, and the verdicts on them.
#![allow(
    clippy::unwrap_used,
    reason = "a test that meets the unexpected should fail"
)]

#[path = "standing/ballast.rs"]
mod ballast;
#[path = "standing/closures.rs"]
mod closures;
#[path = "standing/facts.rs"]
mod facts;
#[path = "standing/findings.rs"]
mod findings;
#[path = "standing/frame_strength.rs"]
mod frame_strength;
#[path = "standing/grip.rs"]
mod grip;
#[path = "standing/overall.rs"]
mod overall;
#[path = "standing/properties.rs"]
mod properties;
#[path = "standing/tipping.rs"]
mod tipping;
#[path = "standing/weight.rs"]
mod weight;

use hearthplan::design::inputs::{Part, Shape};
use hearthplan::design::{Design, Value};

/// Sets an input, which must exist and accept the value.
fn set(design: &mut Design, path: &str, value: f64) {
    design.set(path, Value::Number(value)).unwrap();
}

/// Chooses an option, which must exist.
fn choose(design: &mut Design, path: &str, option: &str) {
    design.set(path, Value::Choice(option.to_string())).unwrap();
}

/// Adds a part and returns its place in the list.
fn add_part(design: &mut Design, shape: Shape) -> usize {
    design.parts.push(Part {
        shape,
        ..Part::default()
    });
    design.parts.len() - 1
}

/// Adds a weighed item, a point as nearly as the ranges allow, with its middle at a place.
fn add_weight(design: &mut Design, mass: f64, (x, y, z): (f64, f64, f64)) {
    let index = add_part(design, Shape::Weighed);
    let sizes = [
        ("mass", mass),
        ("width", 0.001),
        ("depth", 0.001),
        ("height", 0.001),
        ("x", x),
        ("y", y),
        ("z", z - 0.0005),
    ];
    for (name, value) in sizes {
        set(design, &format!("parts.{index}.{name}"), value);
    }
}

/// A machine whose vessel, frame and hopper weigh next to nothing, for closed-form cases.
fn bare() -> Design {
    let mut design = Design::default();
    for layers in [
        &mut design.hearth_layers,
        &mut design.body_layers,
        &mut design.lid_layers,
        &mut design.bottom_layers,
    ] {
        layers.clear();
    }
    set(&mut design, "base.frame_side", 0.01);
    set(&mut design, "base.frame_wall", 0.0005);
    set(&mut design, "hearth.steel_thickness", 0.0005);
    set(&mut design, "fuel.bulk_density", 50.0);
    design.hopper.fitted = false;
    design
}

fn close(found: f64, wanted: f64, share: f64) {
    assert!(
        (found - wanted).abs() <= share * wanted.abs().max(1e-12),
        "found {found}, wanted {wanted}"
    );
}
