//! Mass and centre of gravity against closed forms.

use super::{add_part, add_weight, bare, close, set};
use hearthplan::design::Design;
use hearthplan::design::inputs::{Group, HearthKind, Presence, Shape};
use hearthplan::sizing::lid_joints::{RoundFlange, lid_flange};
use hearthplan::sizing::machine::{Envelope, Piece, Solid, layout};
use hearthplan::sizing::weight::weigh;
use std::f64::consts::PI;

const STEEL: f64 = 7850.0;

/// Area of the bolt holes of a flange, m².
fn drilled(flange: &RoundFlange) -> f64 {
    0.25 * PI * f64::from(flange.bolts) * flange.hole.value.powi(2)
}

/// The solid of a part with the given sizes, standing 100 mm above the ground.
fn solid_of(shape: Shape, sizes: &[(&str, f64)]) -> Solid {
    let mut design = Design::default();
    let index = add_part(&mut design, shape);
    for (name, value) in sizes {
        set(&mut design, &format!("parts.{index}.{name}"), *value);
    }
    *layout(&design).solids.last().unwrap()
}

#[test]
fn shapes_weigh_what_their_closed_forms_say() {
    let round = [("diameter", 0.4), ("height", 0.5), ("thickness", 0.004)];
    let tube = solid_of(Shape::Tube, &round);
    close(tube.mass.value, PI * 0.396 * 0.004 * 0.5 * STEEL, 1e-9);
    close(tube.centre.z.value, 0.1 + 0.25, 1e-9);

    let flat = [
        ("width", 0.6),
        ("depth", 0.3),
        ("height", 0.2),
        ("thickness", 0.01),
    ];
    let plate = solid_of(Shape::Plate, &flat);
    close(plate.mass.value, 0.6 * 0.3 * 0.01 * STEEL, 1e-9);
    let block = solid_of(Shape::Block, &flat);
    close(block.mass.value, 0.6 * 0.3 * 0.2 * STEEL, 1e-9);
    let sheet = solid_of(Shape::Box, &flat);
    let hollow = 0.6 * 0.3 * 0.2 - 0.58 * 0.28 * 0.18;
    close(sheet.mass.value, hollow * STEEL, 1e-9);

    let ring = solid_of(
        Shape::Ring,
        &[
            ("diameter", 0.4),
            ("second_diameter", 0.2),
            ("thickness", 0.01),
        ],
    );
    close(
        ring.mass.value,
        PI / 4.0 * (0.16 - 0.04) * 0.01 * STEEL,
        1e-9,
    );

    let mut fill = round.to_vec();
    fill.extend([("density", 1000.0), ("fill_share", 0.5)]);
    let water = solid_of(Shape::BulkFill, &fill);
    close(water.mass.value, PI / 4.0 * 0.16 * 0.25 * 1000.0, 1e-9);
    close(water.centre.z.value, 0.1 + 0.125, 1e-9);
    close(water.envelope.top().value, 0.6, 1e-9);
}

#[test]
fn cones_and_dishes_follow_their_middle_surface() {
    let cone = solid_of(
        Shape::Cone,
        &[
            ("diameter", 0.4),
            ("second_diameter", 0.2),
            ("height", 0.3),
            ("thickness", 0.001),
        ],
    );
    // Middle radii 0.1995 and 0.0995, slant √(0.1² + 0.3²).
    let area = PI * (0.1995 + 0.0995) * 0.1_f64.hypot(0.3);
    close(cone.mass.value, area * 0.001 * STEEL, 1e-9);
    let centre = 0.3 / 3.0 * (0.1995 + 2.0 * 0.0995) / (0.1995 + 0.0995);
    close(cone.centre.z.value, 0.1 + centre, 1e-9);

    let dish = solid_of(
        Shape::DishedEnd,
        &[("diameter", 0.4), ("height", 0.08), ("thickness", 0.002)],
    );
    close(
        dish.mass.value,
        PI * (0.199_f64.powi(2) + 0.08_f64.powi(2)) * 0.002 * STEEL,
        1e-9,
    );
    close(dish.centre.z.value, 0.1 + 0.04, 1e-9);
}

#[test]
fn a_weighed_item_counts_as_often_as_it_is_there() {
    let item = solid_of(
        Shape::Weighed,
        &[("mass", 12.0), ("count", 3.0), ("height", 0.4)],
    );
    close(item.mass.value, 36.0, 1e-12);
    close(item.centre.z.value, 0.3, 1e-12);
}

#[test]
fn two_weights_balance_at_their_common_centre() {
    let mut design = bare();
    add_weight(&mut design, 4000.0, (-0.3, 0.0, 0.5));
    add_weight(&mut design, 4000.0, (0.3, 0.4, 1.5));
    let weights = weigh(&layout(&design));
    let empty = &weights.empty;
    assert!(empty.centre.x.value.abs() < 1e-6);
    close(empty.centre.y.value, 0.2, 0.01);
    close(empty.centre.z.value, 1.0, 0.01);
    // Two points 1.0 m apart in height and 0.6 m apart in width: squares of the half distances.
    close(empty.gyration_squared((1.0, 0.0)).value, 0.25 + 0.09, 0.01);
    close(empty.gyration_squared((0.0, 1.0)).value, 0.25 + 0.04, 0.01);
}

#[test]
fn walls_are_built_outwards_and_ends_span_them() {
    let mut design = Design::default();
    design.hearth_layers = design.body_layers.clone();
    let machine = layout(&design);
    let vessel = &machine.vessel;
    close(vessel.hearth_outer_radius.value, 0.2 + 0.054, 1e-9);
    let mass = |list, index| {
        let piece = Piece::Layer { list, index };
        let solid = machine.solids.iter().find(|solid| solid.piece == piece);
        solid.unwrap().mass.value
    };
    close(
        mass("hearth_layers", 0),
        PI * 0.403 * 0.003 * 0.5 * STEEL,
        1e-9,
    );
    // The lid is bolted on: its edge is wider by the flange.
    let edge = lid_flange(&design).unwrap();
    close(edge.bore.value, 0.508, 1e-9);
    close(
        mass("lid_layers", 0),
        (PI * ((0.5 * edge.outside.value).powi(2) - 0.2_f64.powi(2)) - drilled(&edge))
            * 0.004
            * STEEL,
        1e-9,
    );
    close(vessel.underside.value, 0.25, 1e-12);
    close(vessel.hearth_bottom.value, 0.25 + 0.054, 1e-12);
    close(
        vessel.hopper_top.value,
        0.25 + 0.054 + 1.0 + 0.004 + 0.7 + 0.0015,
        1e-9,
    );
}

/// Wood falls out of the hopper through the lid, which is open as wide as the hopper's foot; without a hopper it is closed.
#[test]
fn the_lid_is_open_under_a_hopper_and_closed_without() {
    for fitted in [true, false] {
        let mut design = Design::default();
        design.hopper.fitted = fitted;
        let machine = layout(&design);
        let list = "lid_layers";
        let lid = (machine.solids.iter())
            .find(|solid| solid.piece == Piece::Layer { list, index: 0 })
            .unwrap();
        let Envelope::Round(outline) = lid.envelope else {
            panic!("{lid:?}");
        };
        let foot = machine.solids.iter().find_map(|solid| match solid {
            Solid {
                piece:
                    Piece::OfSection {
                        label: "Hopper cone",
                        ..
                    },
                envelope: Envelope::Round(cone),
                ..
            } => Some(cone.inner_bottom.value),
            _ => None,
        });
        assert_eq!(foot.is_some(), fitted);
        let bore = foot.unwrap_or(0.0);
        close(outline.inner_bottom.value, bore, 1e-12);
        let edge = lid_flange(&design).unwrap();
        close(outline.outer_bottom.value, 0.5 * edge.outside.value, 1e-12);
        let radius = 0.5 * edge.outside.value;
        let area = PI * (radius * radius - bore * bore) - drilled(&edge);
        close(lid.mass.value, area * 0.004 * STEEL, 1e-9);
    }
}

#[test]
fn wood_fills_the_hopper_cone_first() {
    let mut design = Design::default();
    let wood = |design: &Design| -> f64 {
        (layout(design).solids.iter())
            .filter(|solid| solid.group == Group::Hopper && solid.presence == Presence::WhenFull)
            .map(|solid| solid.mass.value)
            .sum()
    };
    let full = wood(&design);
    let cone = PI * 0.1 / 3.0 * (0.04 + 0.05 + 0.0625);
    close(full, 200.0 * (cone + PI * 0.0625 * 0.6), 1e-9);
    for share in [0.02, 0.1, 0.5] {
        set(&mut design, "hopper.fill_share", share);
        close(wood(&design), share * full, 1e-9);
    }
    set(&mut design, "hopper.fill_share", 0.05);
    let machine = layout(&design);
    assert!(machine.vessel.fill_level < machine.vessel.hopper_cone_top);
}

#[test]
fn states_count_what_is_there() {
    let mut design = Design::default();
    for (presence, mass) in [
        (Presence::Always, 1.0),
        (Presence::WhenFull, 20.0),
        (Presence::WithHopper, 300.0),
    ] {
        add_weight(&mut design, mass, (0.0, 0.0, 0.5));
        design.parts.last_mut().unwrap().presence = presence;
    }
    let plain = weigh(&layout(&Design::default()));
    let more = weigh(&layout(&design));
    close(more.full.mass.value - plain.full.mass.value, 321.0, 1e-9);
    close(more.empty.mass.value - plain.empty.mass.value, 301.0, 1e-9);
    close(
        more.hopper_off.mass.value - plain.hopper_off.mass.value,
        1.0,
        1e-9,
    );
    let sum: f64 = more.groups.iter().map(|group| group.full.value).sum();
    close(sum, more.full.mass.value, 1e-12);
}

#[test]
fn a_straight_tube_stands_in_the_hearth_and_tells_when_it_is_too_tall() {
    let mut design = Design::default();
    design.hearth.kind = HearthKind::Straight;
    let fits = layout(&design);
    assert_eq!(fits.hearth.overhang.value, 0.0);
    let hearth = &design.hearth;
    let (length, bore, wall) = (
        hearth.tube_length.value,
        hearth.tube_diameter.value,
        hearth.steel_thickness.value,
    );
    let tube = (fits.solids.iter())
        .find(|solid| solid.piece.label(&design) == "Fire tube")
        .unwrap();
    close(
        tube.mass.value,
        PI * (bore + wall) * wall * length * STEEL,
        1e-9,
    );
    set(&mut design, "hearth.tube_length", 0.8);
    close(layout(&design).hearth.overhang.value, 0.3, 1e-9);
}

/// Tube, cone and char from closed forms: the tube goes on by what the cone is shorter.
#[test]
fn a_fire_tube_that_goes_on_below_its_nozzles_weighs_more_and_holds_more_char() {
    let mut design = Design::default();
    let hearth = design.hearth.clone();
    let [tube, throat, foot, wall] = [
        0.5 * hearth.nozzle_ring_diameter.value,
        0.5 * hearth.throat_diameter.value,
        0.5 * hearth.below_throat_diameter.value,
        hearth.steel_thickness.value,
    ];
    let (height, depth) = (hearth.nozzle_height.value, hearth.reduction_height.value);
    let frustum = |one: f64, other: f64, tall: f64| {
        PI / 3.0 * tall * (one * one + one * other + other * other)
    };
    let mut char_density = None;
    for straight in [0.0, 0.012, 0.05] {
        set(&mut design, "hearth.straight_below_nozzles", straight);
        let machine = layout(&design);
        let mass = |label: &str| -> f64 {
            (machine.solids.iter())
                .filter(|solid| solid.piece.label(&design) == label)
                .map(|solid| solid.mass.value)
                .sum()
        };
        // Half of what the hearth leaves free in its band stands above the nozzles.
        let above = 0.5 * (design.hearth_wall.height.value - height - depth);
        let length = above + straight;
        close(
            mass("Fire tube"),
            PI * (2.0 * tube + wall) * wall * length * STEEL,
            1e-9,
        );
        let cone = height - straight;
        close(
            mass("Cone above the throat"),
            PI * (tube + throat + wall) * wall * cone.hypot(tube - throat) * STEEL,
            1e-9,
        );
        let char = frustum(throat, foot, depth)
            + frustum(throat, tube, cone)
            + PI * tube * tube * straight;
        let density = mass("Char in the hearth") / char;
        let first = *char_density.get_or_insert(density);
        close(density, first, 1e-9);
        // The wood lies above the nozzles, as far up as ever.
        close(
            mass("Wood in the fire tube"),
            200.0 * PI * tube * tube * above,
            1e-9,
        );
    }
}

/// What contradicts itself still has a weight: the tube ends at the throat.
#[test]
fn a_fire_tube_never_ends_below_its_throat() {
    let mut design = Design::default();
    set(&mut design, "hearth.nozzle_height", 0.05);
    for straight in [0.05, 0.2] {
        set(&mut design, "hearth.straight_below_nozzles", straight);
        let machine = layout(&design);
        let hearth = &machine.hearth;
        assert_eq!(hearth.tube_foot, hearth.throat, "{straight}");
        assert!(machine.solids.iter().all(|solid| solid.mass.value >= 0.0));
    }
}
