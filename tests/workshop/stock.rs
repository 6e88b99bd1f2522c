//! What is bought weighs what the parts list says.

use crate::random_design::random_design;
use hearthplan::design::inputs::{JointKind, StageKind, Stance, TrainStage};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::paper::{html, sheets};
use hearthplan::review::assess;
use hearthplan::sizing::fasteners::bolt_with_nut;
use hearthplan::sizing::machine::{Piece, layout};
use hearthplan::sizing::parts_list::{PartLine, parts_list};
use hearthplan::sizing::stock::{Stock, stock};
use std::f64::consts::PI;
use uom::si::f64::{Length, MassDensity};
use uom::si::length::millimeter;
use uom::si::mass_density::kilogram_per_cubic_meter;

fn designs() -> impl Iterator<Item = Design> {
    let known = [
        Design::default(),
        example::as_first_drawn(),
        example::as_improved(),
    ];
    known.into_iter().chain((0..200).map(random_design))
}

/// Volume of the material in one piece, m³; none for what is no plain body.
fn volume(stock: &Stock) -> Option<f64> {
    let circle = |diameter: f64| 0.25 * PI * diameter * diameter;
    Some(match stock {
        Stock::Tube {
            outside,
            wall,
            length,
        } => {
            let bore = (outside.value - 2.0 * wall.value).max(0.0);
            (circle(outside.value) - circle(bore)) * length.value
        }
        Stock::Disc {
            diameter,
            thickness,
        } => circle(diameter.value) * thickness.value,
        Stock::Ring {
            outside,
            bore,
            thickness,
        } => (circle(outside.value) - circle(bore.value.min(outside.value))) * thickness.value,
        Stock::Plate {
            width,
            depth,
            thickness,
        } => width.value * depth.value * thickness.value,
        Stock::SquareTube { side, wall, cuts } => {
            let hole = (side.value - 2.0 * wall.value).max(0.0);
            let length: f64 = cuts
                .iter()
                .map(|(count, length)| f64::from(*count) * length.value)
                .sum();
            (side.value.powi(2) - hole.powi(2)) * length
        }
        _ => return None,
    })
}

#[test]
fn sizes_weigh_what_the_list_says() {
    let mut weighed = 0;
    for design in designs() {
        let machine = layout(&design);
        for line in parts_list(&design, &machine) {
            let (Some(material), Some(piece), None) =
                (line.material, line.piece, line.computed_mass)
            else {
                continue;
            };
            // Holes are drilled out of flanges, of lids that are bolted on, and of the grate.
            let drilled = matches!(piece, Piece::Flange(_) | Piece::Closure(_))
                || ["Grate", "Filter drum, lid"].contains(&line.name.as_str())
                || line.from.starts_with("lid_layers.");
            let size = stock(&design, &machine, &line).filter(|_| !drilled);
            let Some(one) = size.as_ref().and_then(volume) else {
                continue;
            };
            let density = design
                .material(material)
                .map_or(0.0, |properties| properties.density.value);
            let mass = f64::from(line.count) * one * density;
            // Lengths that differ by less than a millimetre are cut alike.
            let near = 1e-2 * mass + 1e-9;
            assert!(
                (mass - line.mass.value).abs() <= near,
                "{}: {mass} kg against {} kg",
                line.name,
                line.mass.value
            );
            weighed += 1;
        }
    }
    assert!(weighed > 2000, "only {weighed}");
}

fn line<'a>(lines: &'a [PartLine], name: &str) -> &'a PartLine {
    lines.iter().find(|line| line.name == name).expect("a line")
}

#[test]
fn the_frame_is_told_bar_by_bar() {
    let mut design = Design::default();
    design.base.clearance = Length::new::<millimeter>(200.0);
    let machine = layout(&design);
    let lines = parts_list(&design, &machine);
    let Some(Stock::SquareTube { cuts, .. }) = stock(&design, &machine, line(&lines, "Base frame"))
    else {
        panic!("no square tube");
    };
    // Four bars across and two along, or all alike, and a leg under each corner.
    assert_eq!(cuts.iter().map(|(count, _)| count).sum::<u32>(), 10);
    assert!(cuts.windows(2).all(|pair| pair[0].1 > pair[1].1));
}

#[test]
fn a_frame_right_on_its_wheels_has_no_legs_to_cut() {
    let mut design = Design::default();
    design.base.stance = Stance::FourWheels;
    design.base.clearance = design.base.frame_side + design.base.wheel_diameter;
    let machine = layout(&design);
    let lines = parts_list(&design, &machine);
    let Some(Stock::SquareTube { cuts, .. }) = stock(&design, &machine, line(&lines, "Base frame"))
    else {
        panic!("no square tube");
    };
    assert_eq!(cuts.iter().map(|(count, _)| count).sum::<u32>(), 6);
    assert!(
        cuts.iter().all(|(_, length)| length.value > 0.1),
        "{cuts:?}"
    );
}

#[test]
fn bolts_gaskets_and_stages_are_told_as_entered() {
    let mut design = Design::default();
    let mm = Length::new::<millimeter>;
    design.train = vec![TrainStage {
        kind: StageKind::Pipe,
        bore: mm(50.0),
        wall: mm(2.0),
        length: mm(1500.0),
        elbows: 2,
        valves: 1,
        ..TrainStage::default()
    }];
    let machine = layout(&design);
    let lines = parts_list(&design, &machine);
    let pipe = lines
        .iter()
        .find(|line| line.piece.is_none())
        .expect("a stage");
    let Some(Stock::Pipe {
        outside,
        length,
        fittings,
        ..
    }) = stock(&design, &machine, pipe)
    else {
        panic!("no pipe");
    };
    assert!((outside.get::<millimeter>() - 54.0).abs() < 1e-9);
    assert!((length.get::<millimeter>() - 1500.0).abs() < 1e-9);
    assert_eq!(fittings, [2, 0, 0, 1]);
    let joint = design
        .joints
        .iter()
        .find(|joint| joint.bolts > 0 && joint.kind != JointKind::Welded)
        .expect("a bolted joint");
    let bolts = line(&lines, &format!("Bolts and nuts of {}", joint.name));
    let Some(Stock::Bolt { thread, length }) = stock(&design, &machine, bolts) else {
        panic!("no bolt");
    };
    let steel = MassDensity::new::<kilogram_per_cubic_meter>(7850.0);
    let all = f64::from(bolts.count) * bolt_with_nut(thread, length, steel);
    assert!((all - bolts.mass).value.abs() < 1e-6);
}

#[test]
fn the_sheet_tells_the_sizes_in_both_systems() {
    let design = example::as_improved();
    let assessment = assess(&design);
    let all = sheets::all(&design, &assessment, System::Metric, &[]);
    let parts = all
        .iter()
        .find(|sheet| sheet.name == "parts")
        .expect("a sheet");
    let text = |system| html::blocks(parts, system);
    let (metric, inch) = (text(System::Metric), text(System::Inch));
    assert!(metric.contains("unrolled"));
    assert!(metric.contains("square tube"));
    assert!(!inch.contains(" mm"), "millimetres among inches");
    assert!(metric.contains(" mm outside"));
}
