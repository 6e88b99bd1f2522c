//! What do answers rest on that no input tells of? Fans, pumps, guards, shields, spare parts, and what closes the
//! hearth, the ends of the cooler, the foot of the cyclone and the ways to flare and engine: without them the machine is not
//! the one that was reckoned with.

use super::hearth_ledge::{liner_plate, ring_around_tube};
use super::lid_joints::{lid_neck, lid_rim, round_flanges};
use super::machine::Closure;
use super::parts_list::{group_of, stage_name};
use super::train_mass::jacket;
use super::zone::Zone;
use crate::design::Design;
use crate::design::inputs::{
    CoolerType, CostKind, FlowSource, Group, HearthKind, Hole, HoleUse, StageKind, TrainStage,
};

/// Something that is needed besides the parts list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Need {
    /// The fan of a cooler, by the place of that in the gas train.
    CoolerFan(usize),
    /// The pump of a water jacket, by the place of its cooler in the gas train.
    WaterPump(usize),
    /// A guard that keeps hands off a surface of the vessel.
    Guard(Zone),
    /// A guard that keeps hands off a stage of the gas train, by its place in that.
    StageGuard(usize),
    /// The sheets between a hot wall and the battery box.
    Shields,
    /// Another fire tube, with its throat, for when the fire has worn away the first.
    SpareFireTube,
    /// A second set of the tubes that the nozzles are, for when their tips have burnt back.
    SpareNozzles,
    /// What closes the nozzles from outside: air comes in through them as long as they are open.
    NozzleCaps,
    /// The ring that closes the gap between the top of the fire tube and the hearth wall.
    TubeRing,
    /// The plate on the hearth wall that carries the steel liner of the body.
    LinerPlate,
    /// The ring of sheet in the lid, from its gas-tight plate up, that carries the hopper.
    LidNeck,
    /// The strip that closes the outer rim of the lid above its gas-tight plate.
    LidRim,
    /// The flanges of a bolted joint that goes once around, by the place of that in the list of joints.
    Flanges(usize),
    /// The plates that the tubes of a cooler are welded into, with the gas boxes over them, by its place in the gas train.
    TubePlates(usize),
    /// What closes the dust outlet of a cyclone, by its place in the gas train.
    DustBox(usize),
    /// Where the gas burns until the engine gets it.
    FlarePipe,
    /// What shuts the way to the flare.
    FlareValve,
    /// What shuts the way to the engine.
    EngineValve,
    /// What mixes the gas with the air that it burns with in the engine.
    Mixer,
}

impl Need {
    /// What it is called.
    pub fn name(self, design: &Design) -> String {
        match self {
            Need::CoolerFan(place) => format!("Fan: {}", stage_at(design, place)),
            Need::WaterPump(place) => {
                format!("Pump, hoses and water: {}", stage_at(design, place))
            }
            Need::Guard(zone) => format!("Guard: {}", zone.label()),
            Need::StageGuard(place) => format!("Guard: {}", stage_at(design, place)),
            Need::Shields => "Shield sheets of the battery box".to_string(),
            Need::SpareFireTube if !has_nozzles(design) => "Spare fire tube".to_string(),
            Need::SpareFireTube => "Spare fire tube with throat".to_string(),
            Need::SpareNozzles => "Spare nozzle tubes".to_string(),
            Need::NozzleCaps => "Caps for the nozzles".to_string(),
            Need::TubeRing => Closure::TubeRing.label(design),
            Need::LinerPlate => Closure::LinerPlate.label(design),
            Need::LidNeck => Closure::LidNeck.label(design),
            Need::LidRim => Closure::LidRim.label(design),
            Need::Flanges(place) => Closure::ShellFlange(place).label(design),
            Need::TubePlates(place) => {
                format!("Tube plates and gas boxes: {}", stage_at(design, place))
            }
            Need::DustBox(place) => format!("Dust box: {}", stage_at(design, place)),
            Need::FlarePipe => "Flare pipe with burner".to_string(),
            Need::FlareValve => "Valve to the flare".to_string(),
            Need::EngineValve => "Valve to the engine".to_string(),
            Need::Mixer => "Gas-air mixer with air valve".to_string(),
        }
    }

    /// The word for things of its kind, by which a line of the costs may name it.
    pub fn kind_word(self) -> &'static str {
        match self {
            Need::CoolerFan(_) => "fan",
            Need::WaterPump(_) => "pump",
            Need::Guard(_) | Need::StageGuard(_) => "guard",
            Need::Shields => "shield",
            Need::SpareFireTube | Need::SpareNozzles => "spare",
            Need::NozzleCaps => "cap",
            Need::TubeRing | Need::LidNeck | Need::LidRim | Need::Flanges(_) => {
                Closure::TubeRing.kind_word()
            }
            Need::LinerPlate => Closure::LinerPlate.kind_word(),
            Need::TubePlates(_) => "plate",
            Need::DustBox(_) => "dust box",
            Need::FlarePipe => "pipe",
            Need::FlareValve | Need::EngineValve => "valve",
            Need::Mixer => "fitting",
        }
    }

    /// How many of it.
    pub fn count(self, design: &Design) -> u32 {
        match self {
            Need::Shields => design.battery_box.sheets,
            Need::SpareNozzles | Need::NozzleCaps => design.hearth.nozzle_count,
            Need::TubePlates(_) => 2,
            Need::Flanges(place) => round_flanges(design)
                .find(|flange| flange.place == place)
                .map_or(1, |flange| flange.count()),
            Need::CoolerFan(_)
            | Need::WaterPump(_)
            | Need::Guard(_)
            | Need::StageGuard(_)
            | Need::TubeRing
            | Need::LinerPlate
            | Need::LidNeck
            | Need::LidRim
            | Need::DustBox(_)
            | Need::FlarePipe
            | Need::FlareValve
            | Need::EngineValve
            | Need::Mixer
            | Need::SpareFireTube => 1,
        }
    }

    /// The sub-assembly it is for.
    pub fn group(self, design: &Design) -> Group {
        match self {
            Need::StageGuard(place) | Need::TubePlates(place) | Need::DustBox(place) => {
                (design.train.get(place)).map_or(Group::Cooler, |stage| group_of(stage.kind))
            }
            Need::CoolerFan(_) | Need::WaterPump(_) => Group::Cooler,
            Need::Flanges(place) => {
                (design.joints.get(place)).map_or(Group::Reactor, |joint| joint.first)
            }
            Need::Guard(_)
            | Need::SpareFireTube
            | Need::SpareNozzles
            | Need::NozzleCaps
            | Need::TubeRing
            | Need::LinerPlate
            | Need::LidNeck
            | Need::LidRim => Group::Reactor,
            Need::Shields => Group::Electrics,
            Need::FlarePipe | Need::FlareValve | Need::EngineValve | Need::Mixer => {
                group_of(StageKind::Pipe)
            }
        }
    }

    /// What money is spent on.
    pub fn cost_kind(self) -> CostKind {
        match self {
            Need::CoolerFan(_)
            | Need::WaterPump(_)
            | Need::NozzleCaps
            | Need::FlareValve
            | Need::EngineValve
            | Need::Mixer => CostKind::Bought,
            Need::Guard(_)
            | Need::StageGuard(_)
            | Need::Shields
            | Need::SpareFireTube
            | Need::SpareNozzles
            | Need::TubeRing
            | Need::LinerPlate
            | Need::LidNeck
            | Need::LidRim
            | Need::Flanges(_)
            | Need::TubePlates(_)
            | Need::DustBox(_)
            | Need::FlarePipe => CostKind::Material,
        }
    }

    /// Path of what it follows from.
    pub fn from(self) -> String {
        match self {
            Need::CoolerFan(place)
            | Need::WaterPump(place)
            | Need::StageGuard(place)
            | Need::TubePlates(place)
            | Need::DustBox(place) => Design::item_path("train", place),
            Need::Flanges(place) => Design::item_path("joints", place),
            Need::Guard(zone) => zone.section().to_string(),
            Need::LinerPlate => Zone::Body.section().to_string(),
            Need::LidNeck | Need::LidRim => Zone::Lid.section().to_string(),
            Need::Shields => "battery_box".to_string(),
            Need::SpareFireTube | Need::SpareNozzles | Need::NozzleCaps | Need::TubeRing => {
                "hearth".to_string()
            }
            Need::FlarePipe | Need::FlareValve => "blower".to_string(),
            Need::EngineValve | Need::Mixer => "engine".to_string(),
        }
    }

    /// Whether it closes the vessel or a drum, with sizes of its own, so that it stands in the parts list.
    pub fn is_listed(self) -> bool {
        matches!(
            self,
            Need::TubeRing | Need::LinerPlate | Need::LidNeck | Need::LidRim | Need::Flanges(_)
        )
    }

    /// Whether a stage, a part or a line of the costs stands for it already, by the name of that.
    fn is_named(self, design: &Design) -> bool {
        let of_it: fn(&str) -> bool = match self {
            Need::FlarePipe => |name| says(name, "flare") && !says(name, "valve"),
            Need::FlareValve => |name| says(name, "flare") && says(name, "valve"),
            Need::EngineValve => |name| says(name, "engine") && says(name, "valve"),
            Need::Mixer => |name| says(name, "mixer"),
            _ => return false,
        };
        let stages = design.train.iter().map(|stage| stage.name.as_str());
        stages.chain(parts_and_lines(design)).any(of_it)
    }
}

fn stage_at(design: &Design, place: usize) -> &str {
    design.train.get(place).map_or("", stage_name)
}

/// Everything of that kind, in the order of the machine.
///
/// ```
/// use hearthplan::design::Design;
/// use hearthplan::sizing::also_needed::{Need, also_needed};
/// use hearthplan::sizing::zone::Zone;
/// let mut design = Design::default();
/// design.body_wall.guarded = true;
/// assert!(also_needed(&design).contains(&Need::Guard(Zone::Body)));
/// ```
pub fn also_needed(design: &Design) -> Vec<Need> {
    let guards = Zone::ALL
        .into_iter()
        .filter(|zone| zone.guarded(design))
        .map(Need::Guard);
    let stage_guards = (design.train.iter().enumerate())
        .filter(|(_, stage)| stage.guarded && stage.may_be_guarded())
        .map(|(place, _)| Need::StageGuard(place));
    let spare = design.hearth.comes_out.then_some(Need::SpareFireTube);
    let tubes = (design.hearth.comes_out && has_nozzles(design)).then_some(Need::SpareNozzles);
    let caps = has_nozzles(design).then_some(Need::NozzleCaps);
    let ring = ring_around_tube(design).map(|_| Need::TubeRing);
    let plate = liner_plate(design).map(|_| Need::LinerPlate);
    let neck = lid_neck(design).map(|_| Need::LidNeck);
    let rim = lid_rim(design).map(|_| Need::LidRim);
    let flanges = round_flanges(design).map(|flange| Need::Flanges(flange.place));
    let closing = (design.train.iter().enumerate()).filter_map(|(place, stage)| match stage.kind {
        StageKind::Cyclone => Some(Need::DustBox(place)),
        _ => has_tube_plates(stage).then_some(Need::TubePlates(place)),
    });
    let coolers = (design.train.iter().enumerate()).filter_map(|(place, stage)| {
        if has_fan(stage) {
            Some(Need::CoolerFan(place))
        } else {
            jacket(stage).map(|_| Need::WaterPump(place))
        }
    });
    let shields = (design.battery_box.sheets > 0).then_some(Need::Shields);
    let to_flare = [Need::FlarePipe, Need::FlareValve].map(|need| (need, has_blower(design)));
    let to_engine = [Need::EngineValve, Need::Mixer].map(|need| (need, feeds_engine(design)));
    let ways = (to_flare.into_iter().chain(to_engine))
        .filter(|(need, wanted)| *wanted && !need.is_named(design))
        .map(|(need, _)| need);
    (ring.into_iter().chain(plate).chain(spare).chain(tubes))
        .chain(caps)
        .chain(neck)
        .chain(rim)
        .chain(flanges)
        .chain(closing)
        .chain(guards)
        .chain(stage_guards)
        .chain(coolers)
        .chain(ways)
        .chain(shields)
        .collect()
}

/// Whether the tubes of a stage are welded into plates at their ends: several, that are not bought with their fins.
pub fn has_tube_plates(stage: &TrainStage) -> bool {
    let finned = matches!(stage.cooling, CoolerType::Finned | CoolerType::FinnedFan);
    stage.kind == StageKind::Cooler && !finned && stage.tubes > 1
}

/// Whether air comes in through nozzles: a straight fire tube has none.
pub fn has_nozzles(design: &Design) -> bool {
    design.hearth.kind == HearthKind::Constricted
}

/// Whether a blower with its flare branch stands in the train.
pub fn has_blower(design: &Design) -> bool {
    (design.train.iter()).any(|stage| stage.kind == StageKind::Blower)
}

/// Whether the gas is for an engine, and not for a test at the flare alone.
pub fn feeds_engine(design: &Design) -> bool {
    design.operation.flow_source == FlowSource::Engine
}

/// What leads the gas to flare and engine, and shuts the way to either, of what is needed.
///
/// ```
/// use hearthplan::design::Design;
/// use hearthplan::sizing::also_needed::{Need, ways_of_gas};
/// let mut design = Design::default();
/// assert!(ways_of_gas(&design).contains(&Need::Mixer));
/// design.train[0].name = "Pipe to the mixer".to_string();
/// assert!(!ways_of_gas(&design).contains(&Need::Mixer));
/// ```
pub fn ways_of_gas(design: &Design) -> Vec<Need> {
    let mut ways = also_needed(design);
    ways.retain(|need| {
        matches!(
            need,
            Need::FlarePipe | Need::FlareValve | Need::EngineValve | Need::Mixer
        )
    });
    ways
}

/// The names of the other parts and of the lines of the costs.
fn parts_and_lines(design: &Design) -> impl Iterator<Item = &str> {
    let others = design.parts.iter().map(|part| part.name.as_str());
    others.chain(design.cost_lines.iter().map(|line| line.name.as_str()))
}

/// Words that tell by the name of a hole that an instrument fills it.
const INSTRUMENTS: [&str; 5] = ["thermometer", "thermocouple", "gauge", "probe", "sensor"];

/// Whether an instrument fills an open hole, by the name of that: then nothing else is to close it.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::sizing::also_needed::holds_instrument;
/// let design = example::as_improved();
/// let filled = design.holes.iter().filter(|hole| holds_instrument(hole));
/// assert!(filled.map(|hole| hole.name.as_str()).eq(["Thermometer"]));
/// ```
pub fn holds_instrument(hole: &Hole) -> bool {
    hole.carries == HoleUse::Open && INSTRUMENTS.iter().any(|word| says(&hole.name, word))
}

/// Whether a name holds this word of English letters, in capitals or not.
fn says(name: &str, word: &str) -> bool {
    let mut pieces = name.as_bytes().windows(word.len());
    pieces.any(|piece| piece.eq_ignore_ascii_case(word.as_bytes()))
}

/// The holes whose instrument no other part and no line of the costs names, with their places in the list.
pub fn instruments(design: &Design) -> impl Iterator<Item = (usize, &Hole)> {
    (design.holes.iter().enumerate()).filter(|(_, hole)| {
        let of_its_kind = |name: &str| {
            (INSTRUMENTS.iter()).any(|word| says(&hole.name, word) && says(name, word))
        };
        holds_instrument(hole) && !parts_and_lines(design).any(of_its_kind)
    })
}

/// Whether a stage is a cooler with a fan.
pub fn has_fan(stage: &TrainStage) -> bool {
    stage.kind == StageKind::Cooler && stage.cooling.has_fan()
}

/// Whether water cools a stage.
pub fn has_jacket(stage: &TrainStage) -> bool {
    jacket(stage).is_some()
}
