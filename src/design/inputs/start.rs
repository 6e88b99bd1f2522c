//! The lists of a new design: a lined vessel, a rectangular base, a small blower.

use super::{
    ClosedBy, Contact, CoolerType, Cover, CurvePoint, ElectricLoad, Group, Joint, JointKind, Layer,
    Lie, Material, StageKind, TrainStage,
};
use uom::si::f64::{Length, Power, Pressure, Volume, VolumeRate};
use uom::si::length::{meter, millimeter};
use uom::si::power::watt;
use uom::si::pressure::pascal;
use uom::si::volume::liter;
use uom::si::volume_rate::cubic_meter_per_hour;

/// A layer of the given material, thickness in millimetres.
pub fn layer(material: Material, thickness: f64) -> Layer {
    Layer {
        material,
        thickness: Length::new::<millimeter>(thickness),
    }
}

/// A wall of a face towards the heat, insulation so many millimetres thick, and a thin steel jacket.
pub fn jacketed(face: Layer, insulation: Material, thickness: f64) -> Vec<Layer> {
    vec![
        face,
        layer(insulation, thickness),
        layer(Material::MildSteel, 1.0),
    ]
}

/// A hearth wall of castable and blanket.
pub fn lined_hearth() -> Vec<Layer> {
    jacketed(
        layer(Material::DenseCastable, 15.0),
        Material::CeramicBlanket1260,
        75.0,
    )
}

/// A vessel wall of steel and rock wool.
pub fn lined_vessel() -> Vec<Layer> {
    jacketed(layer(Material::MildSteel, 3.0), Material::RockWool, 50.0)
}

/// A plain steel lid.
pub fn plain_lid() -> Vec<Layer> {
    vec![layer(Material::MildSteel, 4.0)]
}

/// Four feet, used when own contact points are chosen.
pub fn contacts() -> Vec<Contact> {
    [
        (-330.0, -400.0),
        (330.0, -400.0),
        (330.0, 400.0),
        (-330.0, 400.0),
    ]
    .into_iter()
    .map(|(x, y)| Contact {
        x: Length::new::<millimeter>(x),
        y: Length::new::<millimeter>(y),
        ..Contact::default()
    })
    .collect()
}

/// A small centrifugal blower.
pub fn blower_curve() -> Vec<CurvePoint> {
    [
        (0.0, 2600.0),
        (20.0, 2650.0),
        (40.0, 2450.0),
        (60.0, 2000.0),
        (80.0, 1300.0),
        (95.0, 500.0),
    ]
    .into_iter()
    .map(|(flow, pressure)| CurvePoint {
        flow: VolumeRate::new::<cubic_meter_per_hour>(flow),
        pressure: Pressure::new::<pascal>(pressure),
    })
    .collect()
}

/// A stage of this kind, its other inputs as declared.
pub fn stage(kind: StageKind) -> TrainStage {
    TrainStage {
        kind,
        ..TrainStage::default()
    }
}

/// Outlet pipe, cyclone, tube cooler with a fan, trap, packed filter, pipe, a small trap for the last drops, blower.
pub fn train() -> Vec<TrainStage> {
    vec![
        TrainStage {
            name: "Hearth outlet".to_string(),
            bore: Length::new::<millimeter>(40.0),
            cover: Cover::Insulated,
            bends: 1,
            ..stage(StageKind::Pipe)
        },
        TrainStage {
            body_diameter: Length::new::<millimeter>(95.0),
            ..stage(StageKind::Cyclone)
        },
        TrainStage {
            cooling: CoolerType::Fan,
            tube_length: Length::new::<meter>(7.5),
            lie: Lie::Upright,
            ..stage(StageKind::Cooler)
        },
        stage(StageKind::Trap),
        stage(StageKind::Filter),
        TrainStage {
            length: Length::new::<meter>(2.0),
            bends: 2,
            valves: 1,
            ..stage(StageKind::Pipe)
        },
        TrainStage {
            name: "Last trap".to_string(),
            capacity: Volume::new::<liter>(1.0),
            ..stage(StageKind::Trap)
        },
        stage(StageKind::Blower),
    ]
}

/// What runs besides the blower.
pub fn loads() -> Vec<ElectricLoad> {
    vec![ElectricLoad {
        name: "Instruments and lamps".to_string(),
        power: Power::new::<watt>(10.0),
        ..ElectricLoad::default()
    }]
}

/// A joint between two sub-assemblies; its length in millimetres.
pub fn joint(name: &str, kind: JointKind, sides: [Group; 2], length: f64, bolts: u32) -> Joint {
    let [first, second] = sides;
    Joint {
        name: name.to_string(),
        kind,
        first,
        second,
        length: Length::new::<millimeter>(length),
        bolts,
        service: kind != JointKind::Welded,
        ..Joint::default()
    }
}

/// The joints of a machine that comes apart: welds of the shell are hidden by its insulation.
pub fn joints() -> Vec<Joint> {
    use Group::{Base, Condensate, Cooler, Engine, Filter, Hopper, Reactor};
    use JointKind::{Bolted, Clamped, Welded};
    let shell_weld = |name: &str, length: f64| Joint {
        closed_by: ClosedBy::Insulation,
        ..joint(name, Welded, [Reactor, Reactor], length, 0)
    };
    vec![
        shell_weld("Bottom to hearth shell", 1300.0),
        shell_weld("Hearth shell to body shell", 1300.0),
        shell_weld("Gas outlet in the shell", 190.0),
        joint("Vessel lid", Bolted, [Reactor, Reactor], 1200.0, 12),
        joint("Filter lid", Bolted, [Filter, Filter], 950.0, 8),
        joint(
            "Hopper on the vessel",
            Bolted,
            [Reactor, Hopper],
            1200.0,
            12,
        ),
        joint("Gas outlet to filter", Bolted, [Reactor, Filter], 220.0, 4),
        joint("Filter to cooler", Bolted, [Filter, Cooler], 220.0, 4),
        joint("Cooler to trap", Clamped, [Cooler, Condensate], 200.0, 2),
        joint("Cooler to engine", Clamped, [Cooler, Engine], 160.0, 2),
        Joint {
            airtight: false,
            ..joint("Vessel on the frame", Bolted, [Base, Reactor], 400.0, 4)
        },
    ]
}
