//! Steady and warming walls against reference data.

use std::f64::consts::TAU;

use hearthplan::physics::conductivity::{ConductivityCurve, ConductivityPoint};
use hearthplan::physics::layers::{Facing, Layer, Shape, Stack};
use hearthplan::physics::steady::Outside;
use hearthplan::physics::transient::{
    Fineness, HeatStore, HotFace, OutsideLoss, WarmUp, WarmUpCase, warm_up,
};
use serde_json::Value;

use super::reference::{close, number, numbers, rows};

const FREEZING: f64 = 273.15;

fn layer(row: &Value) -> Layer {
    let thickness = number(row, "thickness_m");
    if row["conductivity_points"].is_array() {
        let points: Vec<_> = row["conductivity_points"]
            .as_array()
            .unwrap()
            .iter()
            .map(|pair| ConductivityPoint {
                temperature: pair[0].as_f64().unwrap() + FREEZING,
                conductivity: pair[1].as_f64().unwrap(),
            })
            .collect();
        Layer::Solid {
            thickness,
            conductivity: ConductivityCurve::new(&points).unwrap(),
        }
    } else {
        Layer::StillAir {
            thickness,
            emittance_inside: number(row, "emissivity_inner"),
            emittance_outside: number(row, "emissivity_outer"),
        }
    }
}

fn stack(row: &Value) -> Stack {
    let layers: Vec<Layer> = row["layers"]
        .as_array()
        .unwrap()
        .iter()
        .map(layer)
        .collect();
    let height = row["height_m"].as_f64();
    let shape = if row["geometry"] == "cylinder" {
        Shape::Cylinder {
            inner_radius: number(row, "inner_radius_m"),
            length: height.unwrap_or(1.0),
        }
    } else {
        let area = row["area_m2"].as_f64().unwrap_or(1.0);
        let facing = match row["facing"].as_str() {
            Some("up") => Facing::Up,
            Some("down") => Facing::Down,
            _ => Facing::Sideways,
        };
        Shape::Flat {
            area,
            side: height.unwrap_or((8.0 * area / TAU).sqrt()),
            facing,
        }
    };
    Stack::new(shape, &layers).unwrap()
}

#[test]
fn steady_shells() {
    let rows = rows("shells.json", "rows");
    assert!(rows.len() >= 40);
    for row in rows {
        let mut outside = Outside::still(
            number(&row, "ambient_c") + FREEZING,
            number(&row, "emissivity"),
        );
        outside.surroundings.wind_speed = number(&row, "wind_m_per_s");
        let stack = stack(&row);
        let found = stack
            .steady(number(&row, "hot_face_c") + FREEZING, &outside)
            .unwrap();
        close(found.heat_flow, number(&row, "heat_flow_w"), 5e-3, &row);
        close(
            found.outer_flux,
            number(&row, "outside_flux_w_per_m2"),
            5e-3,
            &row,
        );
        close(
            stack.outer_area(),
            number(&row, "outside_area_m2"),
            1e-6,
            &row,
        );
        let loss = found.surface_loss;
        close(
            loss.convective_coefficient,
            number(&row, "convection_w_per_m2_k"),
            5e-3,
            &row,
        );
        close(
            loss.radiative_coefficient,
            number(&row, "radiation_w_per_m2_k"),
            5e-3,
            &row,
        );
        let faces = numbers(&row, "face_temperatures_c");
        assert_eq!(faces.len(), found.interfaces.len());
        for (face, wanted) in found.interfaces.iter().zip(faces) {
            assert!(
                (face - FREEZING - wanted).abs() < 1.0,
                "{face} {wanted}: {row}"
            );
        }
    }
}

fn warm(row: &Value, fineness: Fineness) -> WarmUp {
    let stack = stack(row);
    let stores: Vec<_> = row["layers"]
        .as_array()
        .unwrap()
        .iter()
        .map(store)
        .collect();
    let last_time = numbers(row, "times_s").into_iter().fold(0.0, f64::max);
    let case = WarmUpCase {
        stack: &stack,
        stores: &stores,
        start: number(row, "start_c") + FREEZING,
        hot_face: HotFace {
            temperature: number(row, "hot_face_c") + FREEZING,
            ramp: number(row, "ramp_s"),
        },
        outside: OutsideLoss::Fixed {
            coefficient: number(row, "outside_w_per_m2_k"),
            air_temperature: number(row, "ambient_c") + FREEZING,
        },
        duration: Some(last_time),
    };
    warm_up(&case, fineness).unwrap()
}

fn store(row: &Value) -> HeatStore {
    HeatStore {
        density: number(row, "density_kg_per_m3"),
        heat_capacity: number(row, "heat_capacity_j_per_kg_k"),
    }
}

/// Largest differences over all layered cases.
#[derive(Default)]
struct Worst {
    /// Share of the rise.
    face: f64,
    /// Share of the energy taken within the first ten minutes, while the heat is in the first cells.
    early_energy: f64,
    /// Share of the energy taken from then on.
    energy: f64,
}

fn worst(fineness: Fineness) -> Worst {
    let mut worst = Worst::default();
    for row in rows("transient.json", "layered") {
        let course = warm(&row, fineness);
        let rise = number(&row, "hot_face_c") - number(&row, "start_c");
        for moment in row["results"].as_array().unwrap() {
            let time = number(moment, "time_s");
            let faces = course.faces(time);
            let wanted = numbers(moment, "face_temperatures_c");
            assert_eq!(faces.len(), wanted.len());
            for (found, wanted) in faces.iter().zip(wanted) {
                worst.face = worst.face.max((found - FREEZING - wanted).abs() / rise);
            }
            let off = (course.heat_taken(time) / number(moment, "energy_in") - 1.0).abs();
            let energy = if time < 600.0 {
                &mut worst.early_energy
            } else {
                &mut worst.energy
            };
            *energy = energy.max(off);
        }
    }
    worst
}

#[test]
fn warming_walls_agree_when_computed_finely() {
    let worst = worst(Fineness::FINE);
    assert!(worst.face < 1e-3, "faces {}", worst.face);
    assert!(
        worst.early_energy < 2e-3,
        "early energy {}",
        worst.early_energy
    );
    assert!(worst.energy < 2e-3, "energy {}", worst.energy);
}

#[test]
fn warming_walls_agree_when_computed_quickly() {
    let worst = worst(Fineness::QUICK);
    assert!(worst.face < 0.01, "faces {}", worst.face);
    assert!(
        worst.early_energy < 0.05,
        "early energy {}",
        worst.early_energy
    );
    assert!(worst.energy < 0.015, "energy {}", worst.energy);
}

fn one_layer(row: &Value, thickness: f64, fineness: Fineness) -> WarmUp {
    let conductivity = ConductivityCurve::constant(number(row, "conductivity_w_per_m_k")).unwrap();
    let shape = Shape::Flat {
        area: 1.0,
        side: 1.0,
        facing: Facing::Sideways,
    };
    let stack = Stack::new(
        shape,
        &[Layer::Solid {
            thickness,
            conductivity,
        }],
    )
    .unwrap();
    let stores = [store(row)];
    let start = number(row, "start_c") + FREEZING;
    let case = WarmUpCase {
        stack: &stack,
        stores: &stores,
        start,
        hot_face: HotFace {
            temperature: number(row, "hot_face_c") + FREEZING,
            ramp: 0.0,
        },
        outside: OutsideLoss::Fixed {
            coefficient: 0.0,
            air_temperature: start,
        },
        duration: Some(number(row, "time_s")),
    };
    warm_up(&case, fineness).unwrap()
}

#[test]
fn insulated_slab_follows_the_series() {
    for row in rows("transient.json", "slab_insulated_back") {
        let thickness = number(&row, "thickness_m");
        let course = one_layer(&row, thickness, Fineness::FINE);
        let time = number(&row, "time_s");
        let rise = number(&row, "hot_face_c") - number(&row, "start_c");
        for (depth, field) in [(0.5 * thickness, "middle_c"), (thickness, "back_face_c")] {
            let found = course.temperature(depth, time) - FREEZING;
            assert!(
                (found - number(&row, field)).abs() < 1e-3 * rise,
                "{field} {found}: {row}"
            );
        }
        close(
            course.heat_taken(time),
            number(&row, "energy_j_per_m2"),
            5e-3,
            &row,
        );
    }
}

#[test]
fn deep_solid_follows_the_error_function() {
    for row in rows("transient.json", "semi_infinite") {
        let diffusivity = number(&row, "conductivity_w_per_m_k")
            / (number(&row, "density_kg_per_m3") * number(&row, "heat_capacity_j_per_kg_k"));
        let time = number(&row, "time_s");
        // Eight diffusion lengths are as good as no end.
        let thickness = (8.0 * (diffusivity * time).sqrt()).max(number(&row, "depth_m") * 1.1);
        if thickness > 5.0 {
            continue;
        }
        let fineness = Fineness {
            cells_per_layer: 200,
            steps: 400,
        };
        let course = one_layer(&row, thickness, fineness);
        let found = course.temperature(number(&row, "depth_m"), time) - FREEZING;
        let rise = number(&row, "hot_face_c") - number(&row, "start_c");
        assert!(
            (found - number(&row, "temperature_c")).abs() < 2e-3 * rise,
            "{found}: {row}"
        );
        close(
            course.heat_taken(time),
            number(&row, "energy_j_per_m2"),
            5e-3,
            &row,
        );
    }
}
