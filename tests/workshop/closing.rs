//! What closes the vessel inside and on top: rings and plates, the neck of the lid and flanges.

use super::needed::{sheet, with_all};
use hearthplan::design::inputs::{CoolerType, CostLine, Joint, JointKind, StageKind};
use hearthplan::design::{Design, Value, example};
use hearthplan::review::assess;
use hearthplan::review::guided::complete;
use hearthplan::sizing::build_order::{Besides, besides, order};
use hearthplan::sizing::hearth_ledge::{Carried, liner_plate, ring_around_tube};
use hearthplan::sizing::lid_joints::{Around, lid_neck, lid_rim, round_flanges};
use std::f64::consts::PI;
use uom::si::f64::Length;

fn mm(value: f64) -> Length {
    Length::new::<uom::si::length::millimeter>(value)
}

fn near(one: Length, millimetres: f64) -> bool {
    (one - mm(millimetres)).value.abs() < 1e-9
}

fn work(design: &Design) -> Vec<Besides> {
    besides(design, &order(design).expect("an order"))
}

fn is_told(design: &Design, on: &str) -> bool {
    work(design).iter().any(|one| one.on == on)
}

/// Between fire tube and wall a ring closes the gap; the plates of a cooler are as wide as its tubes need.
#[test]
fn ring_and_tube_plates_are_told_with_their_sizes() {
    let mut design = with_all();
    design.hearth.nozzle_ring_diameter = mm(268.0);
    design.hearth.steel_thickness = mm(5.0);
    design.hearth_wall.inside_diameter = mm(385.0);
    design.body_wall.inside_diameter = mm(415.0);
    let ring = ring_around_tube(&design).expect("a gap of 53.5 mm");
    assert!((ring.bore - mm(278.0)).value.abs() < 1e-9);
    // The body is 15 mm wider on each side, and the ring lies 10 mm over the top of the wall there.
    assert!((ring.outside - mm(405.0)).value.abs() < 1e-9);
    let parts = sheet(&design, "parts");
    assert!(
        parts.contains("405 mm outside, 278 mm bore")
            && parts.contains("closes the 53.5 mm between tube and wall"),
        "{parts}"
    );
    let ring = "Ring around the fire tube";
    assert!(is_told(&design, ring));
    design.hearth_wall.inside_diameter = mm(281.0);
    assert!(!is_told(&design, ring) && !sheet(&design, "parts").contains(ring));
    let cooler = (design.train.iter())
        .position(|stage| stage.kind == StageKind::Cooler)
        .expect("a cooler");
    design.train[cooler].tubes = 7;
    // Seven tubes of 20 mm stand 30 mm apart: each has √3/2 · 30² = 779.4 mm², a circle of 83.3 mm, and 30 mm around it.
    (
        design.train[cooler].tube_bore,
        design.train[cooler].tube_wall,
    ) = (mm(18.0), mm(1.0));
    assert!(is_told(&design, "Tube cooler, 7 tubes"));
    let parts = sheet(&design, "parts");
    assert!(
        parts.contains("at least 113 mm across, each drilled for 7 tubes of 20 mm outside, 30 mm"),
        "{parts}"
    );
    design.train[cooler].cooling = CoolerType::FinnedFan;
    assert!(!sheet(&design, "parts").contains("Tube plates"));
}

/// The liner of the body stands beyond the castable, over the blanket: a plate carries it, whatever engine the design was
/// sized for.
#[test]
fn the_liner_of_a_sized_body_stands_on_a_plate_that_the_castable_bears() {
    for power in [1500.0, 5000.0, 18_000.0] {
        let mut start = example::to_start_from();
        start
            .set("engine.wanted_power", Value::Number(power))
            .expect("in range");
        let design = complete(&start, &[]);
        let plate = liner_plate(&design).expect("a liner over blanket");
        let liner = design.body_wall.inside_diameter + 2.0 * design.body_layers[0].thickness;
        assert_eq!(plate.ring.outside, liner);
        assert_eq!(plate.ring.bore, design.hearth_wall.inside_diameter);
        let castable = plate.ring.bore + 2.0 * design.hearth_layers[0].thickness;
        let Carried::ByTheWall { firm, stands_out } = plate.carried else {
            panic!("{plate:?}");
        };
        assert_eq!(firm, castable);
        assert!((stands_out - 0.5 * (liner - castable)).value.abs() < 1e-12);
        // It is no wider than the liner, so that wool still fits beside it, and the ring of the fire tube lies on it.
        let ring = ring_around_tube(&design).expect("a gap");
        assert!(ring.outside > plate.ring.bore && ring.outside < design.body_wall.inside_diameter);
        let parts = sheet(&design, "parts");
        assert!(
            parts.contains("Plate under the liner of the body"),
            "{parts}"
        );
        assert!(is_told(&design, "Plate under the liner of the body"));
    }
}

#[test]
fn without_firm_lining_inside_the_plate_reaches_to_the_shell() {
    let mut design = example::as_improved();
    let plate = "Plate under the liner of the body";
    design.hearth_layers.remove(0);
    let found = liner_plate(&design).expect("a liner over blanket");
    assert_eq!(found.carried, Carried::ByTheShell);
    let shell = design.hearth_wall.inside_diameter + 2.0 * design.hearth_layers[0].thickness;
    assert_eq!(found.ring.outside, shell);
    assert!(sheet(&design, "parts").contains("set it on brackets at the shell"));
    // A body without a liner, and one that is lined already, need none.
    let mut bare = design.clone();
    bare.body_layers.remove(0);
    assert_eq!(liner_plate(&bare), None);
    assert!(!is_told(&bare, plate) && !sheet(&bare, "parts").contains(plate));
    design.real_vessel.lined = true;
    assert_eq!(liner_plate(&design), None);
}

/// Wool under thin sheet carries no hopper: a neck does, welded to the plate that holds the gas.
#[test]
fn a_neck_carries_the_hopper_through_the_lid() {
    let mut design = example::as_improved();
    design.body_wall.inside_diameter = mm(345.0);
    design.lid_layers[1].thickness = mm(50.0);
    design.lid_layers[2].thickness = mm(1.0);
    let neck = lid_neck(&design).expect("a hopper over wool");
    assert!(near(neck.across, 345.0) && near(neck.tall, 51.0));
    assert_eq!(neck.thickness, design.lid_layers[0].thickness);
    let rim = lid_rim(&design).expect("wool");
    let shell: Length = (design.body_layers.iter())
        .map(|layer| layer.thickness)
        .sum();
    assert!((rim.across - (mm(345.0) + 2.0 * shell)).value.abs() < 1e-9);
    let parts = sheet(&design, "parts");
    for words in [
        "Neck of the lid",
        "345 mm inside, 51 mm tall: welded gas-tight all round",
        "Rim of the lid",
        "51 mm tall and",
    ] {
        assert!(parts.contains(words), "{words}: {parts}");
    }
    let more = work(&design);
    let weld = more.iter().find(|one| one.on == "Neck of the lid");
    assert!(weld.is_some_and(|weld| weld.work.contains("soap film")));
    design.hopper.fitted = false;
    assert_eq!(lid_neck(&design), None);
    assert!(lid_rim(&design).is_some());
    // Of one plate nothing is left open.
    design.lid_layers.truncate(1);
    assert_eq!(lid_rim(&design), None);
    assert!(!sheet(&design, "parts").contains("Rim of the lid"));
}

/// A lid is wider than what it closes by gasket and bolts, in the list, in what is also needed and in its joint.
#[test]
fn lids_that_are_bolted_on_are_cut_wider_than_what_they_close() {
    let mut design = with_all();
    for joint in &mut design.joints {
        (joint.bolt, joint.gasket_width) = (mm(10.0), mm(20.0));
        (joint.gasket_thickness, joint.bolt_length) = (mm(3.0), mm(40.0));
    }
    design.lid_layers[0].thickness = mm(4.0);
    let found: Vec<_> = round_flanges(&design).collect();
    let around: Vec<Around> = found.iter().map(|flange| flange.around).collect();
    assert_eq!(around, [Around::Shell, Around::Drum, Around::Neck]);
    let shell = assess(&design).standing.machine.vessel.body_outer_radius * 2.0;
    let lid = found[0];
    assert_eq!(lid.bore, shell);
    // Gasket, hole of 11 mm beside it, and 16.5 mm from its middle to the edge, on each side.
    assert!((lid.circle - shell - mm(51.0)).value.abs() < 1e-9);
    assert!((lid.outside - shell - mm(84.0)).value.abs() < 1e-9);
    // Plate of 4, gasket of 3, flange of 6 mm; a nut of 8.4 mm, and 3 mm that stick out.
    assert!(near(lid.clamps, 13.0) && near(lid.bolt_length, 25.0));
    let parts = sheet(&design, "parts");
    assert!(
        parts.contains("that is 84 mm wider across than what it closes"),
        "{parts}"
    );
    assert_eq!(parts.matches("wider across than what it closes").count(), 2);
    assert!(parts.contains("it only covers the hopper: cut it larger all round"));
    assert!(parts.contains("bolts at least 25 mm long"));
    assert!(parts.contains("12, at least 25 mm long"), "{parts}");
    for name in [
        "Flange: Vessel lid",
        "Flange: Filter lid",
        "Flange: Hopper on the vessel",
    ] {
        assert!(parts.contains(name), "{name}: {parts}");
        assert!(is_told(&design, name));
    }
    // Two flanges of 6 mm: bolts of 20 mm are too short for them.
    let hopper = (design.joints.iter_mut()).find(|joint| joint.name == "Hopper on the vessel");
    hopper.expect("there").bolt_length = mm(20.0);
    assert!(
        sheet(&design, "parts")
            .contains("bolts at least 27 mm long, longer than the 20 mm entered")
    );
    // The gasket of the lid lies around the shell.
    let lid = (design.joints.iter())
        .find(|joint| joint.name == "Vessel lid")
        .expect("there");
    let once = std::f64::consts::PI * (shell.value + 0.020);
    assert!(
        (lid.length.value - once).abs() < 0.001,
        "{} {once}",
        lid.length.value
    );
    // A lid that is welded on takes none, and one whose flange is entered none again.
    let mut welded = design.clone();
    for joint in &mut welded.joints {
        joint.kind = JointKind::Welded;
    }
    assert_eq!(round_flanges(&welded).count(), 0);
    assert!(!sheet(&welded, "parts").contains("wider across than what it closes"));
    design.flanges.push(hearthplan::design::inputs::Flange {
        bore: shell,
        bolts: Joint::clone(lid).bolts,
        ..Default::default()
    });
    assert!(round_flanges(&design).all(|flange| flange.around != Around::Shell));
}

/// What is in the parts list is paid by the kilogram, once, unless a line of the costs is named for it.
#[test]
fn what_closes_the_vessel_is_paid_once() {
    let mut design = example::as_improved();
    design.cost_lines.clear();
    design.cost.mild_steel = Some(2.0);
    let lines = |design: &Design| {
        let lines = assess(design).cost.lines.into_iter();
        lines
            .filter(|line| line.name == "Neck of the lid")
            .collect::<Vec<_>>()
    };
    let found = lines(&design);
    assert_eq!(found.len(), 1);
    let neck = lid_neck(&design).expect("a hopper over wool");
    let area = PI * (neck.across + neck.thickness) * neck.tall;
    let mass = 7850.0 * (area * neck.thickness).value;
    let paid = found[0].amount.expect("a price").likely;
    assert!((paid - 2.0 * mass).abs() < 1e-9, "{paid} for {mass} kg");
    design.cost_lines.push(CostLine {
        name: "Rings and plates".to_string(),
        likely: 10.0,
        ..CostLine::default()
    });
    let found = lines(&design);
    assert_eq!((found.len(), found[0].amount), (1, None));
    assert_eq!(found[0].paid_by.as_deref(), Some("Rings and plates"));
}
