//! Example designs of our own scenario: the pump set of a fruit co-operative, about 10 kW.
//! All figures are invented to show how the tool works; nobody has built these machines.

mod beside;
mod building;

use super::Design;
use super::inputs::start::{jacketed, layer, stage};
use super::inputs::{
    Datum, ElectricLoad, FireSteel, Flange, HearthMaterial, Hole, HoleUse, LoadKind, LoadTime,
    Material, StageKind, Stance, StaysWith, TrainStage,
};
use uom::si::angle::degree;
use uom::si::area::square_millimeter;
use uom::si::f64::{Angle, Area, Length, Mass, Power, Ratio, ThermodynamicTemperature, Volume};
use uom::si::length::{meter, millimeter};
use uom::si::mass::kilogram;
use uom::si::power::{kilowatt, watt};
use uom::si::ratio::percent;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::volume::liter;

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

/// Outside diameter of the filter's drum and its sheet, mm.
const FILTER_DRUM: f64 = 300.0;
const FILTER_SHEET: f64 = 1.5;
/// Its height, mm: the packing, and half its width to let the gas spread.
const FILTER_HEIGHT: f64 = 548.5;
/// Sheet of the vessel of the improved form, mm.
const SHELL_SHEET: f64 = 1.5;

/// The train with its filter in the drum that stands among the parts.
fn with_filter_drum(mut train: Vec<TrainStage>) -> Vec<TrainStage> {
    for filter in (train.iter_mut()).filter(|stage| stage.kind == StageKind::Filter) {
        filter.filter_diameter = mm(FILTER_DRUM - 2.0 * FILTER_SHEET);
        filter.wall = mm(FILTER_SHEET);
    }
    train
}

/// A hole of the plan: diameter and height above the plan's datum in millimetres, angle in degrees.
fn hole(name: &str, diameter: f64, height: f64, angle: f64, carries: HoleUse) -> Hole {
    Hole {
        name: name.to_string(),
        diameter: mm(diameter),
        height: mm(height),
        angle: Angle::new::<degree>(angle),
        stays_with: StaysWith::BottomEnd,
        carries,
        ..Hole::default()
    }
}

/// A pipe in a hole, mm.
struct Pipe {
    hole: f64,
    outside: f64,
    wall: f64,
}

/// The holes of the plan; nozzle tubes, lighting port and ash door are placed in millimetres above the datum.
fn holes(nozzle: Pipe, outlet: Pipe, [nozzles, lighting]: [f64; 2], ash_door: f64) -> Vec<Hole> {
    let with_pipe = |name: &str, pipe: Pipe, height: f64, angle: f64, carries: HoleUse| Hole {
        pipe: Some(mm(pipe.outside)),
        pipe_wall: mm(pipe.wall),
        ..hole(name, pipe.hole, height, angle, carries)
    };
    let port = Pipe {
        hole: 34.0,
        outside: 33.7,
        wall: 2.6,
    };
    vec![
        Hole {
            count: 5,
            ..with_pipe("Nozzle", nozzle, nozzles, 0.0, HoleUse::SetIn)
        },
        hole("Ash door", 100.0, ash_door, 0.0, HoleUse::Open),
        Hole {
            lean: Angle::new::<degree>(60.0),
            ..with_pipe("Gas outlet", outlet, 190.0, 145.0, HoleUse::SetOn)
        },
        with_pipe("Lighting port", port, lighting, 36.0, HoleUse::SetIn),
        Hole {
            stays_with: StaysWith::TopEnd,
            ..hole("Thermometer", 13.0, 570.0, 200.0, HoleUse::Open)
        },
    ]
}

/// The flange that goes over the pipe of the gas outlet; its bore in millimetres.
fn outlet_flange(bore: f64) -> Flange {
    Flange {
        name: "Gas outlet flange".to_string(),
        bore: mm(bore),
        ..Flange::default()
    }
}

/// One electric load; power in watts, cable in metres.
fn load(name: &str, kind: LoadKind, when: LoadTime, power: f64, cable: f64) -> ElectricLoad {
    ElectricLoad {
        name: name.to_string(),
        kind,
        when,
        power: Power::new::<watt>(power),
        cable_length: Length::new::<meter>(cable),
        ..ElectricLoad::default()
    }
}

/// The fan of a cooler, until its own plate is at hand: a car's radiator fan of 12 V takes about as much (from memory).
pub fn cooler_fan() -> ElectricLoad {
    load("Cooler fan", LoadKind::Motor, LoadTime::Running, 80.0, 2.0)
}

/// What runs besides the blower. The glow plug lights the wood and is then switched off.
fn loads() -> Vec<ElectricLoad> {
    let share = Ratio::new::<percent>;
    vec![
        load(
            "Controller and gauges",
            LoadKind::Other,
            LoadTime::Always,
            6.0,
            1.5,
        ),
        ElectricLoad {
            duty: share(5.0),
            ..load("Grate motor", LoadKind::Motor, LoadTime::Running, 60.0, 2.0)
        },
        ElectricLoad {
            duty: share(25.0),
            ..load(
                "Glow plug",
                LoadKind::Heater,
                LoadTime::Lighting,
                150.0,
                2.5,
            )
        },
        load("Lamps", LoadKind::Other, LoadTime::Always, 10.0, 4.0),
        cooler_fan(),
    ]
}

/// The gas train as first drawn: short tubes in still air, and one trap for all water.
fn first_train() -> Vec<TrainStage> {
    let kinds = [
        StageKind::Pipe,
        StageKind::Cyclone,
        StageKind::Cooler,
        StageKind::Trap,
        StageKind::Filter,
        StageKind::Pipe,
        StageKind::Blower,
    ];
    with_filter_drum(kinds.into_iter().map(stage).collect())
}

fn pump_set() -> Design {
    let mut design = Design::default();
    design.about.invented = true;
    design.fuel.moisture = Ratio::new::<percent>(12.0);
    design.engine.displacement = Volume::new::<liter>(1.6);
    design.engine.wanted_power = Power::new::<kilowatt>(9.0);
    design.hearth.nozzle_material = FireSteel::Stainless310;
    design.grate.material = FireSteel::Stainless304;
    design.body_wall.inside_diameter = mm(340.0);
    design.body_wall.height = mm(380.0);
    design.body_wall.inner_temperature = ThermodynamicTemperature::new::<degree_celsius>(400.0);
    design.train = with_filter_drum(design.train);
    design.loads = loads();
    design.wiring.blower_cable_length = Length::new::<meter>(2.0);
    design
}

/// As first drawn: a narrow wheeled base, a bare hearth, a throat too wide for the pump.
pub fn as_first_drawn() -> Design {
    let mut design = pump_set();
    design.about.name = "Pump set, as first drawn".to_string();
    design.about.note =
        "The orchard co-operative's first sketch: to be rolled between the pump and the packing shed."
            .to_string();
    design.base.stance = Stance::FourWheels;
    design.base.width = mm(410.0);
    design.base.depth = mm(900.0);
    design.base.vessel_y = mm(120.0);
    design.hearth.throat_diameter = mm(100.0);
    design.hearth.below_throat_diameter = mm(202.0);
    design.hearth.nozzle_height = mm(100.0);
    design.hearth.nozzle_bore = mm(10.5);
    design.hearth_wall.inside_diameter = mm(340.0);
    design.hearth_wall.height = mm(400.0);
    design.hearth_layers = vec![layer(Material::Stainless304, 5.0)];
    // The bare lid gets hot.
    design.lid.guarded = true;
    design.body_layers = jacketed(layer(Material::MildSteel, 3.0), Material::RockWool, 60.0);
    design.bottom_layers = jacketed(
        layer(Material::MildSteel, 5.0),
        Material::CeramicBlanket1260,
        50.0,
    );
    design.hopper.height = mm(600.0);
    design.train = first_train();
    design.parts = beside::parts(-280.0);
    // Lamp flex for the glow plug, and nothing between hearth and battery.
    if let Some(plug) = design.loads.get_mut(2) {
        plug.cable = Some(Area::new::<square_millimeter>(1.5));
    }
    design.battery_box.sheets = 0;
    design.plan_vessel.girth = mm(1100.0);
    design.plan_vessel.length = mm(780.0);
    design.plan_vessel.upper_seam = mm(720.0);
    design.real_vessel.measured = true;
    design.real_vessel.girth = mm(1106.0);
    design.real_vessel.length = mm(790.0);
    design.real_vessel.lower_seam = mm(150.0);
    design.real_vessel.upper_seam = mm(725.0);
    design.real_vessel.long_seam = Angle::new::<degree>(100.0);
    design.real_vessel.tape_datum = Datum::UpperSeam;
    design.real_vessel.sheet = mm(5.0);
    let nozzle = Pipe {
        hole: 17.5,
        outside: 17.2,
        wall: 3.2,
    };
    let outlet = Pipe {
        hole: 54.0,
        outside: 60.3,
        wall: 2.6,
    };
    design.holes = holes(nozzle, outlet, [300.0; 2], 50.0);
    design.flanges = vec![outlet_flange(61.5)];
    building::as_one_lump(&mut design);
    design
}

/// As improved: a wider base on feet, a lined hearth, a throat that suits the flow, guards.
pub fn as_improved() -> Design {
    let mut design = pump_set();
    design.about.name = "Pump set, as improved".to_string();
    design.about.note =
        "The same pump set after an evening with the numbers: wider, lined, and with guards."
            .to_string();
    design.operation.idle_load = Ratio::new::<percent>(50.0);
    design.base.stance = Stance::Feet;
    design.base.width = mm(860.0);
    design.base.depth = mm(1000.0);
    design.base.clearance = mm(200.0);
    design.base.vessel_y = mm(120.0);
    design.hearth.throat_diameter = mm(70.0);
    // A little narrower than the table has it: it grows in its wall.
    design.hearth.nozzle_ring_diameter = mm(262.0);
    design.hearth.below_throat_diameter = mm(163.0);
    design.hearth.nozzle_height = mm(88.0);
    design.hearth.nozzle_bore = mm(7.9);
    design.hearth.straight_below_nozzles = mm(12.0);
    design.hearth.material = HearthMaterial::Stainless310;
    design.hearth.comes_out = true;
    design.hearth_wall.inside_diameter = mm(280.0);
    design.hearth_wall.height = mm(450.0);
    design.hearth_wall.guarded = true;
    design.hearth_layers = vec![
        layer(Material::DenseCastable, 15.0),
        layer(Material::CeramicBlanket1260, 75.0),
        layer(Material::MildSteel, SHELL_SHEET),
    ];
    // As wide outside as the hearth wall: the shell is one straight piece.
    design.body_wall.inside_diameter = mm(354.0);
    design.body_layers = vec![
        layer(Material::MildSteel, 3.0),
        layer(Material::RockWool, 50.0),
        layer(Material::MildSteel, SHELL_SHEET),
    ];
    design.body_wall.guarded = true;
    design.lid_layers = jacketed(layer(Material::MildSteel, 4.0), Material::RockWool, 50.0);
    design.bottom_layers = jacketed(
        layer(Material::MildSteel, 5.0),
        Material::CeramicBlanket1260,
        75.0,
    );
    design.hopper.height = mm(450.0);
    design.parts = beside::parts(-320.0);
    // What gets hot outside stands behind wire mesh.
    for stage in &mut design.train {
        stage.guarded = matches!(stage.kind, StageKind::Cyclone | StageKind::Cooler);
    }
    // Many short tubes upright in a bundle, and a second trap behind the filter.
    for cooler in (design.train.iter_mut()).filter(|stage| stage.kind == StageKind::Cooler) {
        cooler.tubes = 62;
        cooler.tube_length = mm(1200.0);
        cooler.tube_bore = mm(18.0);
        cooler.tube_wall = mm(1.0);
        cooler.tube_rows = 8;
    }
    if let Some(tubes) = design.parts.get_mut(4) {
        tubes.mass = Mass::new::<kilogram>(38.0);
        (tubes.width, tubes.depth, tubes.height) = (mm(240.0), mm(240.0), mm(1200.0));
        (tubes.x, tubes.y) = (mm(-170.0), mm(-300.0));
    }
    // Battery and switch box stand in a corner behind the vessel, clear of it.
    if let Some(battery) = design.parts.get_mut(6) {
        (battery.x, battery.y, battery.z) = (mm(-300.0), mm(430.0), mm(200.0));
    }
    if let Some(switches) = design.parts.get_mut(7) {
        (switches.x, switches.y) = (mm(-240.0), mm(440.0));
    }
    let more = beside::as_improved(&design.parts);
    design.parts.extend(more);
    // As small as it stands there.
    if let Some(last_trap) = design.train.get_mut(6) {
        last_trap.vessel_diameter = mm(106.0);
        last_trap.vessel_height = mm(220.0);
    }
    // The shell around the hearth, from the vessel's underside to its lid, with its welds.
    design.plan_vessel.girth = mm(1455.0);
    design.plan_vessel.length = mm(911.0);
    design.plan_vessel.lower_seam = mm(81.0);
    design.plan_vessel.upper_seam = mm(531.0);
    design.real_vessel.measured = true;
    design.real_vessel.girth = mm(1455.0);
    design.real_vessel.length = mm(911.0);
    design.real_vessel.lower_seam = mm(81.0);
    design.real_vessel.upper_seam = mm(531.0);
    design.real_vessel.long_seam = Angle::new::<degree>(100.0);
    design.real_vessel.sheet = mm(SHELL_SHEET);
    // The outlet is as wide as the pipe behind it, and so is its flange.
    let nozzle = Pipe {
        hole: 14.0,
        outside: 13.5,
        wall: 2.6,
    };
    let outlet = Pipe {
        hole: 40.0,
        outside: 44.5,
        wall: 2.6,
    };
    // The port is wider than the nozzles: a little higher it keeps clear of the cone.
    design.holes = holes(nozzle, outlet, [397.0, 407.0], 80.0);
    design.flanges = vec![outlet_flange(45.5)];
    building::in_good_order(&mut design);
    design
}

/// Where a person's own design starts: the improved form under a name of their own, since a machine
/// that passes is easier to change than an empty one is to fill. Nothing that somebody measured, bought, tested,
/// priced or noted comes with it, nor where it stands.
pub fn to_start_from() -> Design {
    let mut design = as_improved();
    design.about = Default::default();
    design.about.note =
        "Started from the example: put your own figures in place of its invented ones.".to_string();
    let of_nobody = Design::default();
    design.real_vessel.measured = false;
    design.workshop.hoist = of_nobody.workshop.hoist;
    design.shed = of_nobody.shed;
    design.leak_test = of_nobody.leak_test;
    design.readings = of_nobody.readings;
    design.cost = of_nobody.cost;
    design.cost_lines = of_nobody.cost_lines;
    design.part_changes = of_nobody.part_changes;
    design
}
