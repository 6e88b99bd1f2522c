//! How the pump set is built, tested and paid for. Invented like the rest of the example.

use crate::design::Design;
use crate::design::celsius;
use crate::design::inputs::start::joint;
use crate::design::inputs::{
    BuildStep, CostKind, CostLine, DerivedPart, Group, Joint, JointKind, PartChange, Reading,
    Stands, StepKind,
};
use uom::si::f64::{Length, Pressure, ThermodynamicTemperature, Time, Volume};
use uom::si::length::millimeter;
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::time::minute;
use uom::si::volume::{cubic_meter, liter};

fn make(name: &str, joint: u32) -> BuildStep {
    BuildStep {
        name: name.to_string(),
        joint,
        ..BuildStep::default()
    }
}

fn test(name: &str, group: Group) -> BuildStep {
    BuildStep {
        name: name.to_string(),
        kind: StepKind::Test,
        joint: 0,
        group,
    }
}

fn insulate(name: &str, group: Group) -> BuildStep {
    BuildStep {
        name: name.to_string(),
        kind: StepKind::CloseIn,
        group,
        ..BuildStep::default()
    }
}

fn shell() -> Vec<BuildStep> {
    vec![
        make("Weld the bottom in", 1),
        make("Weld the body on", 2),
        make("Weld the gas outlet in", 3),
    ]
}

fn fitting_together() -> Vec<BuildStep> {
    vec![
        make("Fit the filter's lid", 5),
        make("Set the vessel on the frame", 11),
        make("Fit the hopper", 6),
        make("Join outlet and filter", 7),
        make("Join filter and cooler", 8),
        make("Fit the trap", 9),
        make("Fit the engine's hose", 10),
    ]
}

/// Once around bottom, shell, lid and hopper's foot, mm, in the order of the joints.
fn around(joints: &mut [Joint], [bottom, shell, lid, foot]: [f64; 4]) {
    for (place, length) in [(0, bottom), (1, shell), (3, lid), (5, foot)] {
        if let Some(joint) = joints.get_mut(place) {
            joint.length = Length::new::<millimeter>(length);
        }
    }
}

/// The joints as the gas passes them: it leaves the cooler through trap, filter and last trap.
fn along_the_train(joints: &mut Vec<Joint>) {
    use Group::{Condensate, Filter};
    // Once around the pipe of the outlet.
    if let Some(outlet) = joints.get_mut(2) {
        outlet.length = Length::new::<millimeter>(140.0);
    }
    if let Some(hose) = joints.get_mut(9) {
        hose.name = "Last trap to engine".to_string();
        hose.first = Condensate;
    }
    let sides = [Condensate, Filter];
    joints.push(joint("Trap to filter", JointKind::Bolted, sides, 220.0, 4));
}

/// As first drawn: one lump, insulated before anyone looks for leaks, run in a closed shed.
pub(super) fn as_one_lump(design: &mut Design) {
    for joint in design.joints.iter_mut().filter(|joint| joint.airtight) {
        joint.kind = JointKind::Welded;
        joint.bolts = 0;
    }
    around(&mut design.joints, [1100.0, 1100.0, 1470.0, 1131.0]);
    let mut steps = shell();
    steps.push(insulate("Insulate and clad the vessel", Group::Reactor));
    steps.push(make("Close the vessel's lid", 4));
    steps.extend(fitting_together());
    let tested = [Group::Reactor, Group::Filter, Group::Cooler];
    steps.extend(tested.map(|group| test("Look for leaks", group)));
    design.build_steps = steps;
    design.shed.stands = Stands::ClosedRoof;
    design.shed.volume = Volume::new::<cubic_meter>(60.0);
    design.shed.air_changes = 0.5;
    prices(design);
    let wheels = [6.0, 9.0, 14.0];
    design
        .cost_lines
        .push(line("Wheels", Group::Base, CostKind::Bought, 4.0, wheels));
}

/// As improved: it comes apart, each test comes before the insulation, it runs outdoors, and the money is counted.
pub(super) fn in_good_order(design: &mut Design) {
    design.shed.stands = Stands::Outdoors;
    let mut steps = shell();
    steps.push(make("Bolt the vessel's lid on", 4));
    steps.push(test(
        "Test the vessel before it is insulated",
        Group::Reactor,
    ));
    steps.push(insulate("Insulate and clad the vessel", Group::Reactor));
    steps.extend(fitting_together());
    steps.push(make("Join trap and filter", 12));
    let tested = [
        Group::Hopper,
        Group::Filter,
        Group::Cooler,
        Group::Condensate,
    ];
    steps.extend(tested.map(|group| test("Test what was joined", group)));
    along_the_train(&mut design.joints);
    around(&mut design.joints, [1445.0, 1455.0, 1455.0, 1175.0]);
    design.build_steps = steps;
    design.workshop.hoist = true;
    design.readings = vec![
        reading(
            "2026-03-07",
            Group::Reactor,
            129.0,
            [3500.0, 1450.0],
            [17.2, 17.4],
            "A bubble at the outlet weld.",
        ),
        reading(
            "2026-03-14",
            Group::Reactor,
            129.0,
            [3500.0, 3310.0],
            [18.1, 18.3],
            "After welding the outlet again.",
        ),
        reading(
            "2026-03-21",
            Group::Filter,
            24.7,
            [3500.0, 3240.0],
            [16.8, 16.5],
            "",
        ),
    ];
    prices(design);
    design.cost.budget = Some(3_000.0);
}

/// A test of ten minutes: litres, Pa at start and end, °C at start and end.
fn reading(
    date: &str,
    group: Group,
    volume: f64,
    pressures: [f64; 2],
    temperatures: [f64; 2],
    note: &str,
) -> Reading {
    let [first_pressure, second_pressure] = pressures.map(Pressure::new::<pascal>);
    let [first_temperature, second_temperature] =
        temperatures.map(|degrees| ThermodynamicTemperature::new::<kelvin>(celsius(degrees)));
    Reading {
        date: date.to_string(),
        group,
        volume: Volume::new::<liter>(volume),
        first_pressure,
        first_temperature,
        second_pressure,
        second_temperature,
        time: Time::new::<minute>(10.0),
        note: note.to_string(),
        ..Reading::default()
    }
}

/// Prices in a currency that is nobody's.
fn prices(design: &mut Design) {
    let cost = &mut design.cost;
    cost.currency = "credits".to_string();
    cost.invented = true;
    (cost.mild_steel_low, cost.mild_steel, cost.mild_steel_high) =
        (Some(1.6), Some(2.2), Some(3.2));
    (cost.stainless_low, cost.stainless, cost.stainless_high) = (Some(6.0), Some(9.0), Some(14.0));
    (cost.insulation_low, cost.insulation, cost.insulation_high) =
        (Some(6.0), Some(9.0), Some(14.0));
    (cost.other_low, cost.other, cost.other_high) = (Some(1.2), Some(1.8), Some(3.0));
    use CostKind::{Bought, Consumable, Tool};
    design.cost_lines = vec![
        line(
            "Blower with motor",
            Group::Electrics,
            Bought,
            1.0,
            [60.0, 85.0, 140.0],
        ),
        line(
            "Battery",
            Group::Electrics,
            Bought,
            1.0,
            [70.0, 95.0, 130.0],
        ),
        line(
            "Cables, fuses, switches",
            Group::Electrics,
            Bought,
            1.0,
            [40.0, 65.0, 110.0],
        ),
        line(
            "Cooler tubes and fittings",
            Group::Cooler,
            Bought,
            1.0,
            [55.0, 80.0, 130.0],
        ),
        line("Ball valves", Group::Filter, Bought, 3.0, [9.0, 14.0, 22.0]),
        line(
            "Filter packing and grids",
            Group::Filter,
            Bought,
            1.0,
            [12.0, 18.0, 30.0],
        ),
        line(
            "Switch box",
            Group::Electrics,
            Bought,
            1.0,
            [10.0, 15.0, 25.0],
        ),
        line("Cyclone", Group::Cooler, Bought, 1.0, [25.0, 40.0, 70.0]),
        line(
            "Hearth outlet, pipe with fittings",
            Group::Cooler,
            Bought,
            1.0,
            [30.0, 45.0, 70.0],
        ),
        line(
            "Bolts and gaskets",
            Group::Reactor,
            Consumable,
            1.0,
            [35.0, 50.0, 80.0],
        ),
        line(
            "Welding wire and gas",
            Group::Reactor,
            Consumable,
            1.0,
            [45.0, 70.0, 110.0],
        ),
        line(
            "Discs and drills",
            Group::Reactor,
            Consumable,
            1.0,
            [25.0, 40.0, 70.0],
        ),
        line(
            "Carbon monoxide alarm",
            Group::Base,
            Bought,
            1.0,
            [20.0, 30.0, 45.0],
        ),
        line(
            "Fan, guard, shield, cap, ring, plate, dust box, spare",
            Group::Cooler,
            Bought,
            1.0,
            [70.0, 95.0, 130.0],
        ),
        line(
            "Gauge, pump, relief valve",
            Group::Base,
            Tool,
            1.0,
            [30.0, 45.0, 70.0],
        ),
        line("Rented hoist", Group::Base, Tool, 2.0, [15.0, 25.0, 40.0]),
    ];
    design.part_changes = vec![PartChange {
        piece: DerivedPart::HopperWall,
        price: Some(18.0),
        note: "An offcut from the sheet-metal shop.".to_string(),
        ..PartChange::default()
    }];
}

fn line(name: &str, group: Group, kind: CostKind, quantity: f64, prices: [f64; 3]) -> CostLine {
    let [low, likely, high] = prices;
    CostLine {
        name: name.to_string(),
        group,
        kind,
        quantity,
        low,
        likely,
        high,
        invented: true,
    }
}
