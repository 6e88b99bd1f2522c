//! Bodies and footprints against reference data.

use hearthplan::physics::hull::{Hull, Point};
use hearthplan::physics::solids::{
    self, Body, Mass, Place, block, box_shell, combined, cone, cone_shell, dished_end, ring, tube,
};
use serde_json::Value;

use super::reference::{close, number, numbers, rows};

fn agree(
    found: Result<Body, hearthplan::physics::error::PhysicsError>,
    row: &Value,
    mass: &str,
    centre: &str,
    density: &str,
) {
    let found = found.unwrap();
    close(
        found.volume * number(row, density),
        number(row, mass),
        1e-6,
        row,
    );
    close(found.centroid_height, number(row, centre), 1e-6, row);
}

#[test]
fn bodies() {
    let density = "density_kg_per_m3";
    for row in rows("statics.json", "tubes") {
        let body = tube(
            number(&row, "outside_diameter_m"),
            number(&row, "wall_m"),
            number(&row, "length_m"),
        );
        agree(body, &row, "mass_kg", "centre_height_m", density);
    }
    for row in rows("statics.json", "plates") {
        let body = block(
            number(&row, "width_m"),
            number(&row, "depth_m"),
            number(&row, "thickness_m"),
        );
        agree(body, &row, "mass_kg", "centre_height_m", density);
    }
    for row in rows("statics.json", "rings") {
        let (outside, inside) = (
            number(&row, "outside_diameter_m"),
            number(&row, "inside_diameter_m"),
        );
        agree(
            ring(outside, inside, number(&row, "thickness_m")),
            &row,
            "mass_kg",
            "centre_height_m",
            density,
        );
    }
    for row in rows("statics.json", "boxes") {
        let (width, depth, height) = (
            number(&row, "width_m"),
            number(&row, "depth_m"),
            number(&row, "height_m"),
        );
        let shell = box_shell(width, depth, height, number(&row, "wall_m"));
        agree(shell, &row, "mass_kg", "centre_height_m", density);
        agree(
            block(width, depth, height),
            &row,
            "solid_mass_kg",
            "centre_height_m",
            density,
        );
    }
    for row in rows("statics.json", "dished_ends") {
        let body = dished_end(number(&row, "outside_diameter_m"), number(&row, "wall_m"));
        agree(
            body,
            &row,
            "thin_mass_kg",
            "thin_centre_above_rim_m",
            density,
        );
    }
}

#[test]
fn cones() {
    for row in rows("statics.json", "cones") {
        let (bottom, top) = (
            number(&row, "bottom_diameter_m"),
            number(&row, "top_diameter_m"),
        );
        let (height, wall) = (number(&row, "height_m"), number(&row, "wall_m"));
        let shell = cone_shell(bottom, top, height, wall);
        agree(
            shell,
            &row,
            "shell_mass_kg",
            "shell_centre_height_m",
            "density_kg_per_m3",
        );
        let fill = cone(bottom, top, height);
        agree(
            fill,
            &row,
            "fill_mass_kg",
            "fill_centre_height_m",
            "fill_density_kg_per_m3",
        );
    }
}

#[test]
fn assemblies() {
    for row in rows("statics.json", "assemblies") {
        let places = row["positions_m"].as_array().unwrap();
        let masses: Vec<Mass> = numbers(&row, "masses_kg")
            .into_iter()
            .zip(places)
            .map(|(mass, place)| {
                let at = |i: usize| place[i].as_f64().unwrap();
                Mass {
                    mass,
                    centre: Place {
                        x: at(0),
                        y: at(1),
                        z: at(2),
                    },
                }
            })
            .collect();
        let solids::Mass { mass, centre } = combined(&masses).unwrap();
        close(mass, number(&row, "total_mass_kg"), 1e-9, &row);
        for (found, wanted) in [centre.x, centre.y, centre.z]
            .into_iter()
            .zip(numbers(&row, "centre_m"))
        {
            assert!((found - wanted).abs() < 1e-8, "{found} {wanted}");
        }
    }
}

#[test]
fn footprints() {
    for row in rows("statics.json", "footprints") {
        let points: Vec<Point> = row["contact_points_m"]
            .as_array()
            .unwrap()
            .iter()
            .map(|pair| Point {
                x: pair[0].as_f64().unwrap(),
                y: pair[1].as_f64().unwrap(),
            })
            .collect();
        let hull = Hull::new(&points).unwrap();
        close(hull.area(), number(&row, "area_m2"), 1e-8, &row);
        let centre = numbers(&row, "centre_m");
        let centre = Point {
            x: centre[0],
            y: centre[1],
        };
        let mut found: Vec<f64> = hull
            .edge_distances(centre)
            .iter()
            .map(|edge| edge.distance)
            .collect();
        let mut wanted = numbers(&row, "edge_distances_m");
        // The two start at different corners.
        found.sort_by(f64::total_cmp);
        wanted.sort_by(f64::total_cmp);
        assert_eq!(found.len(), wanted.len(), "{row}");
        for (found, wanted) in found.iter().zip(&wanted) {
            assert!((found - wanted).abs() < 1e-8, "{found} {wanted}: {row}");
        }
        assert!((hull.margin(centre) - wanted[0]).abs() < 1e-8);
    }
}
