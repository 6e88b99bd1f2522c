//! The parts list and the scales agree.

#[path = "parts/battery.rs"]
mod battery;
#[path = "parts/train.rs"]
mod train;

use crate::random_design::random_design;
use hearthplan::design::inputs::{
    DerivedPart, Flange, Group, HoleUse, JointKind, Material, Part, PartChange, Shape,
};
use hearthplan::design::{Choice, Design, Value, example};
use hearthplan::sizing::fasteners::bolt_with_nut;
use hearthplan::sizing::machine::{Piece, layout};
use hearthplan::sizing::parts_list::{Counted, PartLine, parts_list};
use hearthplan::sizing::pattern::grate_holes;
use hearthplan::sizing::sub_assemblies::{
    lifted_together, people_for, sub_assemblies, taking_apart,
};
use hearthplan::sizing::weight::weigh;
use std::f64::consts::PI;
use uom::si::f64::{Length, Mass, MassDensity};
use uom::si::length::{meter, millimeter};
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;

fn lines(design: &Design) -> Vec<PartLine> {
    parts_list(design, &layout(design))
}

fn mass_of(lines: &[PartLine], key: &str) -> f64 {
    let line = lines.iter().find(|line| line.key == Some(key));
    line.expect("a line").mass.value
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
            .filter(|line| line.weighs())
            .map(|line| line.mass.value)
            .sum();
        let gram = 1.0e-3_f64.max(1.0e-12 * sum);
        assert!((sum - weights.empty.mass.value).abs() < gram);
        for group in &weights.groups {
            let of_group = lines
                .iter()
                .filter(|line| line.group == group.group && line.weighs());
            let sum: f64 = of_group.map(|line| line.mass.value).sum();
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
    assert!((ring.mass.value - expected).abs() < 1e-9);
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
fn grate_and_doors_stand_in_the_list() {
    let design = example::as_improved();
    let machine = layout(&design);
    let found = parts_list(&design, &machine);
    let grate = found.iter().find(|line| line.from == "grate");
    let grate = grate.expect("the grate");
    let plate = &design.grate;
    let (across, hole) = (plate.diameter.value, plate.hole.value);
    let holes = grate_holes(plate).expect("holes").count() as f64;
    let area = 0.25 * PI * (across * across - holes * hole * hole);
    // Of stainless 304.
    let expected = 7930.0 * area * design.hearth.steel_thickness.value;
    assert!((grate.mass.value - expected).abs() < 1e-9);
    assert_eq!(grate.counted, Counted::Here);
    let solid = machine.solids.iter().find(|solid| solid.mass == grate.mass);
    assert!(solid.expect("in its place").centre.z < machine.hearth.grate);
    // It can be weighed like any other piece.
    let mut weighed = design.clone();
    weighed.part_changes = vec![PartChange {
        piece: DerivedPart::Grate,
        mass: Some(Mass::new::<kilogram>(2.5)),
        ..PartChange::default()
    }];
    assert_eq!(mass_of(&lines(&weighed), "grate_grate"), 2.5);
    // Wider than the vessel it cannot be, and with holes that cannot be drilled it is plain.
    let mut odd = design.clone();
    odd.grate.diameter = 5.0 * design.hearth_wall.inside_diameter;
    odd.grate.pitch = 0.5 * odd.grate.hole;
    let inside = design.hearth_wall.inside_diameter.value;
    let expected = 7930.0 * 0.25 * PI * inside * inside * design.hearth.steel_thickness.value;
    assert!((mass_of(&lines(&odd), "grate_grate") - expected).abs() < 1e-9);

    // What closes an open hole; pipes sit in the others.
    let doors: Vec<&PartLine> = (found.iter())
        .filter(|line| line.from.starts_with("holes."))
        .collect();
    // The thermometer closes its own.
    let open = (design.holes.iter()).filter(|hole| hole.carries == HoleUse::Open);
    assert_eq!(doors.len(), open.count() - 1);
    let door = doors.iter().find(|line| line.name.starts_with("Ash door"));
    let door = door.expect("the ash door");
    let expected = 7850.0 * 0.25 * PI * 0.1 * 0.1 * design.real_vessel.sheet.value;
    assert!((door.mass.value - expected).abs() < 1e-9);
    assert_eq!(door.counted, Counted::AsOtherParts);
}

#[test]
fn wheels_weigh_as_steel_discs_at_the_height_of_their_axles() {
    let on = |stance: &str, swivel: bool| {
        let mut design = Design::default();
        design
            .set("base.stance", Value::Choice(stance.into()))
            .unwrap();
        design.set("base.swivel", Value::Flag(swivel)).unwrap();
        design
    };
    let disc = 7850.0 * PI / 4.0 * 0.2 * 0.2 * 0.008;
    for (stance, swivel, count, expected) in [
        ("four_wheels", false, 4, 4.0 * disc),
        ("four_wheels", true, 4, 6.0 * disc),
        ("two_wheels", true, 2, 2.0 * disc),
    ] {
        let design = on(stance, swivel);
        let lines = lines(&design);
        let wheels = lines
            .iter()
            .find(|line| line.key == Some("base_wheels"))
            .unwrap();
        assert_eq!((wheels.count, wheels.counted), (count, Counted::Here));
        assert!((wheels.mass.value - expected).abs() < 1e-9, "{stance}");
        for solid in layout(&design)
            .solids
            .iter()
            .filter(|solid| solid.piece.label(&design) == "Wheels")
        {
            assert!((solid.centre.z.value - 0.1).abs() < 1e-12);
        }
    }
    let feet = on("feet", true);
    assert!(
        lines(&feet)
            .iter()
            .all(|line| line.key != Some("base_wheels"))
    );
    // With wheels it is heavier, and its weight lies lower.
    let [standing, rolling] =
        [feet, on("four_wheels", true)].map(|design| weigh(&layout(&design)).empty);
    assert!(rolling.mass > standing.mass);
    assert!(rolling.centre.z < standing.centre.z);
}

#[test]
fn every_piece_that_follows_from_the_design_can_be_changed_and_stays_changed() {
    let design = Design::default();
    let before = weigh(&layout(&design));
    let keys: Vec<_> = lines(&design)
        .iter()
        .filter(|line| line.counted == Counted::Here && !line.from.starts_with("parts."))
        .filter(|line| !matches!(line.piece, Some(Piece::Closure(_))))
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
        assert!((line.mass.value - 12.5).abs() < 1e-12, "{key}");
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
        .filter(|line| line.name.starts_with("Bolts and nuts of"))
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
            let by_hand = one.people.is_some_and(|people| people <= lifters);
            assert_eq!(one.needs_hoist, !by_hand, "{one:?}");
        }
    }
}

/// By hand, of 25 kg each: 25, 33.3 and 37.5 kg, and no more however many there are.
#[test]
fn people_together_lift_less_than_their_sum() {
    let kilograms = Mass::new::<kilogram>;
    let together = |people| lifted_together(people, kilograms(25.0)).value;
    for (people, wanted) in [
        (1, 25.0),
        (2, 100.0 / 3.0),
        (3, 37.5),
        (4, 37.5),
        (10, 37.5),
    ] {
        assert!((together(people) - wanted).abs() < 1e-9, "{people}");
    }
    let needed = |mass| people_for(kilograms(mass), kilograms(25.0));
    assert_eq!(
        [25.0, 25.1, 33.4, 37.5, 37.6, 71.1].map(needed),
        [Some(1), Some(2), Some(3), Some(3), None, None]
    );
}

/// Bolt and nut of steel of 7850 kg/m³, kg, with sizes in m.
fn steel_bolt(diameter: f64, length: f64) -> f64 {
    let steel = MassDensity::new::<kilogram_per_cubic_meter>(7850.0);
    let [diameter, length] = [diameter, length].map(Length::new::<meter>);
    bolt_with_nut(diameter, length, steel).value
}

#[test]
fn bolts_weigh_what_tables_of_fasteners_say() {
    // Kilograms of a thousand, from tables of makers, from memory: bolt with nut.
    for (diameter, length, table) in [
        (0.006, 0.030, 8.3 + 2.3),
        (0.008, 0.040, 20.0 + 5.2),
        (0.010, 0.040, 34.0 + 10.5),
        (0.012, 0.060, 68.0 + 16.0),
        (0.016, 0.080, 160.0 + 34.0),
    ] {
        let found = 1000.0 * steel_bolt(diameter, length);
        assert!(
            (found / table - 1.0).abs() < 0.1,
            "{diameter}: {found} against {table}"
        );
    }
    // Sizes between and beyond the table grow with the bolt, and a short one is all thread.
    let mut before = 0.0;
    for step in 2..=64 {
        let mass = steel_bolt(f64::from(step) / 1000.0, 0.05);
        assert!(mass > before, "{step} mm");
        before = mass;
    }
    let rod = 7850.0 * 0.25 * PI * 0.009_f64.powi(2);
    let longer = steel_bolt(0.010, 0.02) - steel_bolt(0.010, 0.01);
    assert!((longer - rod * 0.01).abs() < 1e-12);
}

#[test]
fn flanges_and_gaskets_are_those_of_closed_forms_and_weigh() {
    let mut design = Design::default();
    let mm = Length::new::<millimeter>;
    design.flanges = vec![Flange {
        outside: mm(150.0),
        bore: mm(70.0),
        bolts: 4,
        bolt_hole: mm(11.0),
        thickness: mm(8.0),
        ..Flange::default()
    }];
    let found = lines(&design);
    let flange = found
        .iter()
        .find(|line| line.from == "flanges.0")
        .expect("the flange");
    let area = 0.25 * PI * (0.15_f64.powi(2) - 0.07_f64.powi(2) - 4.0 * 0.011_f64.powi(2));
    assert!((flange.mass.value - 7850.0 * area * 0.008).abs() < 1e-9);
    assert_eq!(flange.counted, Counted::InTheMiddle);

    let lid = &design.joints[3];
    let gasket = (found.iter())
        .find(|line| line.name == "Gasket of Vessel lid")
        .expect("a gasket");
    assert!((gasket.mass.value - 1000.0 * lid.length.value * 0.02 * 0.003).abs() < 1e-12);
    let bolts = (found.iter()).find(|line| line.name == "Bolts and nuts of Vessel lid");
    let bolts = bolts.expect("its bolts");
    let one = steel_bolt(lid.bolt.value, lid.bolt_length.value);
    assert!((bolts.mass.value - 12.0 * one).abs() < 1e-12);

    // Weighed by hand: marked, and in the weight.
    let before = weigh(&layout(&design)).empty;
    design.joints[3].weighed = Some(Mass::new::<kilogram>(2.0));
    let after = lines(&design);
    let changed: Vec<_> = after.iter().filter(|line| line.changed()).collect();
    assert_eq!(changed.len(), 1);
    assert_eq!(changed[0].computed_mass, Some(bolts.mass));
    let more = weigh(&layout(&design)).empty.mass - before.mass;
    assert!((more.value - (2.0 - bolts.mass.value)).abs() < 1e-9);
}

#[test]
fn what_holds_a_sub_assembly_leaves_its_middle_where_it_was() {
    let design = example::as_improved();
    let machine = layout(&design);
    let mut without = machine.clone();
    without.held.clear();
    let middles = |machine| sub_assemblies(machine, 2, design.limits.lift_mass);
    for (with, bare) in middles(&machine).iter().zip(&middles(&without)) {
        assert_eq!(with.group, bare.group);
        assert!((with.centre.z - bare.centre.z).value.abs() < 1e-9);
        assert!(with.mass >= bare.mass);
    }
    let held: f64 = machine.held.iter().map(|solid| solid.mass.value).sum();
    assert!((1.0..15.0).contains(&held), "{held} kg");
}
