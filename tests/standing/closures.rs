//! What closes the vessel weighs where it lies: neck, rim and plate of the lid, flanges, and what lies on the hearth wall.

use super::close;
use hearthplan::design::inputs::{DerivedPart, Group, Part, PartChange, Presence, Shape};
use hearthplan::design::{Choice as _, Design, example};
use hearthplan::sizing::footprint::footprint;
use hearthplan::sizing::lid_joints::{Around, lid_neck, placed_drum, round_flanges};
use hearthplan::sizing::machine::{Closure, Piece, Solid, layout};
use hearthplan::sizing::parts_list::parts_list;
use hearthplan::sizing::sub_assemblies::sub_assemblies;
use hearthplan::sizing::tipping::tipping;
use hearthplan::sizing::weight::{State, weigh};
use std::f64::consts::PI;
use uom::si::f64::{Length, Mass};
use uom::si::length::millimeter;
use uom::si::mass::kilogram;

const STEEL: f64 = 7850.0;

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

fn kg(value: f64) -> Mass {
    Mass::new::<kilogram>(value)
}

/// A lid of 4 mm under 50 mm of wool and 1 mm of sheet, 345 mm across inside, and joints with 12 bolts M10.
fn closed() -> Design {
    let mut design = example::as_improved();
    design.body_wall.inside_diameter = mm(345.0);
    for (layer, thick) in design.lid_layers.iter_mut().zip([4.0, 50.0, 1.0]) {
        layer.thickness = mm(thick);
    }
    design.hopper.wall_thickness = mm(2.0);
    for joint in &mut design.joints {
        (joint.bolt, joint.bolts) = (mm(10.0), 12);
        (joint.gasket_width, joint.gasket_thickness) = (mm(20.0), mm(3.0));
    }
    design
}

fn joint(design: &Design, name: &str) -> usize {
    let mut joints = design.joints.iter();
    joints.position(|joint| joint.name == name).unwrap()
}

fn solid(design: &Design, piece: Piece) -> Option<Solid> {
    let machine = layout(design);
    machine
        .solids
        .into_iter()
        .find(|solid| solid.piece == piece)
}

fn closure(design: &Design, closure: Closure) -> Option<Solid> {
    solid(design, Piece::Closure(closure))
}

/// π/4 (outside² − bore² − n · hole²) · thickness, in mm, of steel in kg.
fn drilled(outside: f64, bore: f64, thickness: f64, bolts: f64) -> f64 {
    let square = outside * outside - bore * bore - bolts * 11.0 * 11.0;
    0.25 * PI * square * thickness * 1e-9 * STEEL
}

#[test]
fn neck_rim_and_plate_of_the_lid_weigh_what_their_closed_forms_say() {
    let design = closed();
    let vessel = layout(&design).vessel;
    let top = vessel.body_top.value;
    let shell = 2000.0 * vessel.body_outer_radius.value;
    let neck = closure(&design, Closure::LidNeck).unwrap();
    close(neck.mass.value, PI * 0.349 * 0.004 * 0.051 * STEEL, 1e-9);
    close(neck.centre.z.value, top + 0.004 + 0.0255, 1e-9);
    let rim = closure(&design, Closure::LidRim).unwrap();
    let around = PI * (shell + 1.0) / 1000.0;
    close(rim.mass.value, around * 0.001 * 0.051 * STEEL, 1e-9);
    close(rim.centre.z.value, top + 0.004 + 0.0255, 1e-9);
    // Gasket, hole and edge make the plate 84 mm wider than the shell.
    let (list, index) = ("lid_layers", 0);
    let plate = solid(&design, Piece::Layer { list, index }).unwrap();
    close(
        plate.mass.value,
        drilled(shell + 84.0, 345.0, 4.0, 12.0),
        1e-9,
    );
    close(plate.centre.z.value, top + 0.002, 1e-9);
    for solid in [neck, rim, plate] {
        assert_eq!(
            (solid.group, solid.presence),
            (Group::Reactor, Presence::Always)
        );
        close(solid.centre.x.value, vessel.x.value, 1e-12);
    }
}

#[test]
fn flanges_weigh_at_the_joint_that_they_close() {
    let design = closed();
    let vessel = layout(&design).vessel;
    let shell = 2000.0 * vessel.body_outer_radius.value;
    let (lid, foot) = (
        joint(&design, "Vessel lid"),
        joint(&design, "Hopper on the vessel"),
    );
    let around_shell = closure(&design, Closure::ShellFlange(lid)).unwrap();
    close(
        around_shell.mass.value,
        drilled(shell + 84.0, shell, 6.0, 12.0),
        1e-9,
    );
    close(
        around_shell.centre.z.value,
        vessel.body_top.value - 0.003,
        1e-9,
    );
    // Neck of 353 mm outside; the gasket lies around 345 mm: 345 + 40 + 11 + 33 mm.
    let on_neck = closure(&design, Closure::NeckFlange(foot)).unwrap();
    let at_hopper = closure(&design, Closure::HopperFlange(foot)).unwrap();
    for (flange, up) in [(&on_neck, -0.003), (&at_hopper, 0.003)] {
        close(flange.mass.value, drilled(429.0, 353.0, 6.0, 12.0), 1e-9);
        close(flange.centre.z.value, vessel.lid_top.value + up, 1e-9);
    }
    assert_eq!(on_neck.group, Group::Reactor);
    assert_eq!(
        (at_hopper.group, at_hopper.presence),
        (Group::Hopper, Presence::WithHopper)
    );
    // A joint that is made keeps its flanges, one that is welded has none.
    let mut other = design.clone();
    other.joints[lid].state = hearthplan::design::inputs::JointState::Made;
    assert!(closure(&other, Closure::ShellFlange(lid)).is_some());
    assert!(round_flanges(&other).all(|flange| flange.around != Around::Shell));
    other.joints[lid].kind = hearthplan::design::inputs::JointKind::Welded;
    assert_eq!(closure(&other, Closure::ShellFlange(lid)), None);
}

#[test]
fn what_lies_on_the_hearth_wall_weighs_there() {
    let design = closed();
    let ring = |bore: f64, outside: f64, sheet: f64| {
        0.25 * PI * (outside * outside - bore * bore) * sheet * STEEL
    };
    let top = layout(&design).vessel.hearth_top.value;
    let sheet = design.hearth.steel_thickness.value;
    let steel = design.material_density(design.hearth.material.material());
    let share = steel.unwrap().value / STEEL;
    let bore = design.hearth_wall.inside_diameter.value;
    let mut outside = design.body_wall.inside_diameter.value;
    outside += 2.0 * design.body_layers[0].thickness.value;
    let plate = closure(&design, Closure::LinerPlate).unwrap();
    close(plate.mass.value, share * ring(bore, outside, sheet), 1e-9);
    close(plate.centre.z.value, top + 0.5 * sheet, 1e-9);
    let around = closure(&design, Closure::TubeRing).unwrap();
    close(around.centre.z.value, top + 1.5 * sheet, 1e-9);
    assert!(around.mass > Mass::default());
}

/// Each goes with the sub-assembly that it is lifted with; with the hopper its own flange comes off alone.
#[test]
fn they_weigh_in_every_state_and_are_lifted_with_their_sub_assembly() {
    let design = closed();
    let named = stood_for(&design);
    let (with, without) = (layout(&design), layout(&named));
    let added = |hoppers: bool| -> f64 {
        (with.solids.iter())
            .filter(|solid| matches!(solid.piece, Piece::Closure(_)))
            .filter(|solid| hoppers || solid.group != Group::Hopper)
            .filter(|solid| {
                without
                    .solids
                    .iter()
                    .all(|other| other.piece != solid.piece)
            })
            .map(|solid| solid.mass.value)
            .sum()
    };
    let (heavy, light) = (weigh(&with), weigh(&without));
    for (state, hoppers) in [
        (State::Full, true),
        (State::Empty, true),
        (State::HopperOff, false),
    ] {
        let [heavy, light] = [&heavy, &light].map(|one| one.in_state(state));
        close((heavy.mass - light.mass).value, added(hoppers), 1e-9);
        assert!(heavy.centre.z > light.centre.z, "{state:?}");
    }
    assert!(added(true) > added(false) && added(false) > 5.0);
    let lifted = |machine, group| {
        let found = sub_assemblies(machine, 2, kg(25.0));
        found.iter().find(|one| one.group == group).unwrap().mass
    };
    for group in [Group::Reactor, Group::Hopper] {
        assert!(lifted(&with, group) > lifted(&without, group) + kg(1.0));
    }
}

/// The design with weightless parts that are named for neck, rim and flanges.
fn stood_for(design: &Design) -> Design {
    let mut named = design.clone();
    for name in [
        "Neck of the lid",
        "Rim of the lid",
        "Flanges of lid and hopper",
    ] {
        named.parts.push(Part {
            name: name.to_string(),
            group: Group::Reactor,
            shape: Shape::Weighed,
            mass: Mass::default(),
            ..Part::default()
        });
    }
    named
}

/// On a narrow base neck and flanges, high up, make it tip sooner.
#[test]
fn a_narrow_base_tips_sooner_under_neck_and_flanges() {
    let angle = |design: &Design, state: State| {
        let machine = layout(design);
        let weights = weigh(&machine);
        let found = tipping(&design.base, &machine, &footprint(design), &weights, state);
        found.weakest().unwrap().tip_angle.value.to_degrees()
    };
    let mut design = closed();
    design.base.width = mm(350.0);
    let named = stood_for(&design);
    for state in [State::Full, State::Empty] {
        let [with, without] = [&design, &named].map(|design| angle(design, state));
        assert!(with < without - 0.05, "{state:?}: {with} {without}");
    }
}

/// What a person entered, or weighed with a lid that is there, is not counted again.
#[test]
fn nothing_is_counted_twice() {
    let design = closed();
    let of_lid = |design: &Design| {
        let solids = layout(design).solids.into_iter();
        solids
            .filter(|solid| {
                matches!(
                    solid.piece,
                    Piece::Closure(
                        Closure::LidNeck
                            | Closure::LidRim
                            | Closure::ShellFlange(_)
                            | Closure::NeckFlange(_)
                            | Closure::HopperFlange(_)
                    )
                )
            })
            .count()
    };
    assert_eq!(of_lid(&design), 5);
    assert_eq!(of_lid(&stood_for(&design)), 0);
    // A vessel that is built keeps them, and none of it is to be made.
    let mut there = design.clone();
    there.real_vessel.lined = true;
    assert_eq!(of_lid(&there), 5);
    assert_eq!(lid_neck(&there), None);
    // On the scales the lid had all that is welded to it; the hopper was not on it.
    there.part_changes.push(PartChange {
        piece: DerivedPart::from_name("lid_layers_1").unwrap(),
        mass: Some(kg(20.0)),
        ..PartChange::default()
    });
    assert_eq!(of_lid(&there), 1);
}

/// The drum's flange weighs where the drum was placed; without one the list tells that it is missing.
#[test]
fn the_flange_of_the_filter_weighs_at_its_drum() {
    let mut design = closed();
    let lid = joint(&design, "Filter lid");
    let (place, flange) = placed_drum(&design).unwrap();
    let drum = design.parts[place].clone();
    let found = closure(&design, Closure::DrumFlange(lid)).unwrap();
    let bore = 1000.0 * drum.diameter.value;
    close(
        found.mass.value,
        drilled(bore + 84.0, bore, 6.0, 12.0),
        1e-9,
    );
    close(
        found.centre.z.value,
        (drum.z + drum.height).value - 0.003,
        1e-9,
    );
    assert_eq!((found.group, flange.bore), (Group::Filter, drum.diameter));
    // A disc that is its lid has room for gasket and bolts.
    design.parts.push(Part {
        name: "Filter drum, lid".to_string(),
        shape: Shape::Ring,
        second_diameter: Length::default(),
        ..drum.clone()
    });
    let disc = solid(&design, Piece::Part(design.parts.len() - 1)).unwrap();
    let sheet = 1000.0 * drum.thickness.value;
    close(
        disc.mass.value,
        drilled(bore + 84.0, 0.0, sheet, 12.0),
        1e-9,
    );
    design.parts.retain(|part| part.group != Group::Filter);
    assert_eq!(closure(&design, Closure::DrumFlange(lid)), None);
    let lines = parts_list(&design, &layout(&design));
    let line = lines.iter().find(|line| line.name == "Flange: Filter lid");
    assert!(line.is_some_and(|line| !line.weighs() && line.mass > kg(1.0)));
}
