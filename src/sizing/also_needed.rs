//! What do answers rest on that is neither weighed nor wired? Fans, pumps, guards, shields and spare parts: nothing in the design
//! tells their size, but without them the machine is not the one that was reckoned with.

use super::train_mass::jacket;
use super::zone::Zone;
use crate::design::inputs::{CostKind, Group, StageKind, TrainStage};
use crate::design::{Choice as _, Design};

/// Something that is needed besides the parts list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Need {
    /// The fan of a cooler, by the place of that in the gas train.
    CoolerFan(usize),
    /// The pump of a water jacket, by the place of its cooler in the gas train.
    WaterPump(usize),
    /// A guard that keeps hands off a surface.
    Guard(Zone),
    /// The sheets between a hot wall and the battery box.
    Shields,
    /// Another fire tube with throat, for when the fire has worn away the first.
    SpareFireTube,
}

impl Need {
    /// What it is called.
    pub fn name(self, design: &Design) -> String {
        match self {
            Need::CoolerFan(place) => format!("Fan: {}", stage_name(design, place)),
            Need::WaterPump(place) => {
                format!("Pump, hoses and water: {}", stage_name(design, place))
            }
            Need::Guard(zone) => format!("Guard: {}", zone.label()),
            Need::Shields => "Shield sheets of the battery box".to_string(),
            Need::SpareFireTube => "Spare fire tube with throat".to_string(),
        }
    }

    /// The word for things of its kind, by which a line of the costs may name it.
    pub fn kind_word(self) -> &'static str {
        match self {
            Need::CoolerFan(_) => "fan",
            Need::WaterPump(_) => "pump",
            Need::Guard(_) => "guard",
            Need::Shields => "shield",
            Need::SpareFireTube => "spare",
        }
    }

    /// How many of it.
    pub fn count(self, design: &Design) -> u32 {
        match self {
            Need::Shields => design.battery_box.sheets,
            Need::CoolerFan(_) | Need::WaterPump(_) | Need::Guard(_) | Need::SpareFireTube => 1,
        }
    }

    /// The sub-assembly it is for.
    pub fn group(self) -> Group {
        match self {
            Need::CoolerFan(_) | Need::WaterPump(_) => Group::Cooler,
            Need::Guard(_) | Need::SpareFireTube => Group::Reactor,
            Need::Shields => Group::Electrics,
        }
    }

    /// What money is spent on.
    pub fn cost_kind(self) -> CostKind {
        match self {
            Need::CoolerFan(_) | Need::WaterPump(_) => CostKind::Bought,
            Need::Guard(_) | Need::Shields | Need::SpareFireTube => CostKind::Material,
        }
    }

    /// Path of what it follows from.
    pub fn from(self) -> String {
        match self {
            Need::CoolerFan(place) | Need::WaterPump(place) => Design::item_path("train", place),
            Need::Guard(zone) => zone.section().to_string(),
            Need::Shields => "battery_box".to_string(),
            Need::SpareFireTube => "hearth".to_string(),
        }
    }
}

fn stage_name(design: &Design, place: usize) -> &str {
    let name = design.train.get(place).map_or("", |stage| &stage.name);
    if name.is_empty() {
        StageKind::Cooler.label()
    } else {
        name
    }
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
    let spare = design.hearth.comes_out.then_some(Need::SpareFireTube);
    let coolers = (design.train.iter().enumerate()).filter_map(|(place, stage)| {
        if has_fan(stage) {
            Some(Need::CoolerFan(place))
        } else {
            jacket(stage).map(|_| Need::WaterPump(place))
        }
    });
    let shields = (design.battery_box.sheets > 0).then_some(Need::Shields);
    (spare.into_iter().chain(guards))
        .chain(coolers)
        .chain(shields)
        .collect()
}

/// Whether a stage is a cooler with a fan.
pub fn has_fan(stage: &TrainStage) -> bool {
    stage.kind == StageKind::Cooler && stage.cooling.has_fan()
}

/// How many electric loads tell by their name that they are the fan of a cooler.
pub fn fan_loads(design: &Design) -> usize {
    let told = |name: &str| {
        let name = name.to_lowercase();
        name.contains("fan") || name.contains("cool")
    };
    (design.loads.iter())
        .filter(|load| told(&load.name))
        .count()
}

/// Whether a cooler has a fan, but no electric load by its name tells of one: then battery time, cables and fuses leave it
/// out.
pub fn fan_without_load(design: &Design) -> bool {
    design.train.iter().any(has_fan) && fan_loads(design) == 0
}
