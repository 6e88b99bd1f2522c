//! The parts list and the scales agree.

use crate::random_design::random_design;
use hearthplan::design::inputs::{
    DerivedPart, Group, JointKind, Material, Part, PartChange, Shape,
};
use hearthplan::design::{Choice, Design, example};
use hearthplan::sizing::machine::layout;
use hearthplan::sizing::parts_list::{PartLine, parts_list};
use hearthplan::sizing::sub_assemblies::{sub_assemblies, taking_apart};
use hearthplan::sizing::weight::weigh;
use std::f64::consts::PI;
use uom::si::f64::{Length, Mass};
use uom::si::length::millimeter;
use uom::si::mass::kilogram;

fn lines(design: &Design) -> Vec<PartLine> {
    parts_list(design, &layout(design))
}

fn mass_of(lines: &[PartLine], key: &str) -> f64 {
    let line = lines.iter().find(|line| line.key == Some(key));
    line.and_then(|line| line.mass).expect("a mass").value
}

#[test]
fn parts_list_and_weight_agree_to_the_gram() {
    let random = (0..300).map(random_design);
    let designs = random.chain([
        Design::default(),
        example::as_first_drawn(),
        example::as_improved(),
    ]);
    for design in designs {
        let machine = layout(&design);
        let weights = weigh(&machine);
        let lines = parts_list(&design, &machine);
        let sum: f64 = lines
            .iter()
            .filter_map(|line| line.mass)
            .map(|m| m.value)
            .sum();
        let gram = 1.0e-3_f64.max(1.0e-12 * sum);
        assert!((sum - weights.empty.mass.value).abs() < gram);
        for group in &weights.groups {
            let of_group = lines.iter().filter(|line| line.group == group.group);
            let sum: f64 = of_group.filter_map(|line| line.mass).map(|m| m.value).sum();
            assert!((sum - group.empty.value).abs() < gram, "{:?}", group.group);
        }
        let lifted = sub_assemblies(&machine, 2, design.limits.lift_mass);
        let moment: f64 = lifted
            .iter()
            .map(|one| one.mass.value * one.centre.z.value)
            .sum();
        let whole = weights.empty.mass.value * weights.empty.centre.z.value;
        assert!((moment - whole).abs() < 1.0e-9 * whole.max(1.0));
    }
}

#[test]
fn masses_are_those_of_closed_forms() {
    let mut design = Design::default();
    let mm = Length::new::<millimeter>;
    design.parts = vec![Part {
        shape: Shape::Ring,
        material: Material::MildSteel,
        diameter: mm(400.0),
        second_diameter: mm(300.0),
        thickness: mm(8.0),
        count: 2,
        ..Part::default()
    }];
    let lines = lines(&design);
    let ring = lines
        .iter()
        .find(|line| line.from == "parts.0")
        .expect("the ring");
    let expected = 2.0 * 7850.0 * 0.25 * PI * (0.4_f64.powi(2) - 0.3_f64.powi(2)) * 0.008;
    assert!((ring.mass.expect("a mass").value - expected).abs() < 1e-9);
    assert_eq!(ring.count, 2);

    let hopper = &design.hopper;
    let (inner, sheet) = (0.5 * hopper.diameter.value, hopper.wall_thickness.value);
    let wall = 7850.0 * PI * ((inner + sheet).powi(2) - inner * inner) * hopper.height.value;
    assert!((mass_of(&lines, "hopper_hopper") - wall).abs() < 1e-9);
    let lid = 7850.0 * PI * (inner + sheet).powi(2) * sheet;
    assert!((mass_of(&lines, "hopper_hopper_lid") - lid).abs() < 1e-9);

    let layer = &design.hearth_layers[0];
    let inner = 0.5 * design.hearth_wall.inside_diameter.value;
    let outer = inner + layer.thickness.value;
    let density = design
        .material(layer.material)
        .expect("a material")
        .density
        .value;
    let expected = density * PI * (outer * outer - inner * inner) * design.hearth_wall.height.value;
    assert!((mass_of(&lines, "hearth_layers_1") - expected).abs() < 1e-9);

    // Six bars and four legs of square tube.
    let base = &design.base;
    let (side, wall) = (base.frame_side.value, base.frame_wall.value);
    let section = side * side - (side - 2.0 * wall).powi(2);
    let leg = base.clearance.value - side;
    let length = 4.0 * base.width.value + 2.0 * base.depth.value + 4.0 * leg;
    let expected = 7850.0 * section * length;
    assert!((mass_of(&lines, "base_base_frame") - expected).abs() < 1e-9);
}

#[test]
fn every_piece_that_follows_from_the_design_can_be_changed_and_stays_changed() {
    let design = Design::default();
    let before = weigh(&layout(&design));
    let keys: Vec<_> = lines(&design)
        .iter()
        .filter(|line| line.mass.is_some() && !line.from.starts_with("parts."))
        .map(|line| line.key.expect("a name to change it by"))
        .collect();
    assert!(keys.len() > 12);
    for key in keys {
        let mut changed = design.clone();
        changed.part_changes = vec![PartChange {
            piece: DerivedPart::from_name(key).expect("an option"),
            mass: Some(Mass::new::<kilogram>(12.5)),
            price: Some(30.0),
            ..PartChange::default()
        }];
        let after = lines(&changed);
        let line = after
            .iter()
            .find(|line| line.key == Some(key))
            .expect("the piece");
        let computed = line.computed_mass.expect("what the design gives").value;
        assert!(
            (line.mass.expect("a mass").value - 12.5).abs() < 1e-12,
            "{key}"
        );
        assert!(line.changed() && line.price == Some(30.0));
        let weight = weigh(&layout(&changed)).empty.mass.value;
        assert!(
            (weight - before.empty.mass.value - 12.5 + computed).abs() < 1e-9,
            "{key}"
        );
        assert_eq!(after.iter().filter(|line| line.changed()).count(), 1);

        // Another hopper does not bring the computed mass back.
        changed.hopper.height *= 2.0;
        changed.base.width *= 1.1;
        assert!(
            (mass_of(&lines(&changed), key) - 12.5).abs() < 1e-12,
            "{key}"
        );
    }
}

#[test]
fn fasteners_follow_from_the_joints() {
    let design = Design::default();
    let bolts: u32 = lines(&design)
        .iter()
        .filter(|line| line.name.starts_with("Bolts of"))
        .map(|line| line.count)
        .sum();
    assert_eq!(
        bolts,
        design.joints.iter().map(|joint| joint.bolts).sum::<u32>()
    );
}

#[test]
fn welds_between_sub_assemblies_make_one_lump() {
    let mut design = Design::default();
    let apart = taking_apart(&design);
    assert!(apart.lumps.is_empty() && apart.service_welded.is_empty());
    assert_eq!(apart.opens.len() + apart.welded.len(), design.joints.len());

    // Vessel to filter, and filter to cooler: three in one lump.
    design.joints[6].kind = JointKind::Welded;
    design.joints[7].kind = JointKind::Welded;
    let apart = taking_apart(&design);
    assert_eq!(apart.lumps.len(), 1);
    assert_eq!(
        apart.lumps[0].groups,
        [Group::Reactor, Group::Filter, Group::Cooler]
    );
    assert_eq!(apart.lumps[0].welds, [6, 7]);
    assert_eq!(apart.service_welded, [6, 7]);
}

#[test]
fn who_lifts_follows_from_the_mark() {
    let machine = layout(&example::as_improved());
    for lifters in 1..5 {
        for one in sub_assemblies(&machine, lifters, Mass::new::<kilogram>(25.0)) {
            assert_eq!(one.needs_hoist, one.people > f64::from(lifters), "{one:?}");
        }
    }
}
