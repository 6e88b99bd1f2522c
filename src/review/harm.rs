//! What comes of a question that fails. Of two with one verdict the one that can kill is told before the one that costs
//! power: whoever reads only the first lines must not miss it.

use super::finding::{Finding, Verdict};
use serde::{Deserialize, Serialize};
use std::cmp::Reverse;

/// What comes of a question that fails, worst first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Harm {
    /// Gas that poisons, or explodes with air.
    Gas,
    /// Fire and what sets it: cables, fuses, a battery in the heat.
    Fire,
    /// A machine that falls or rolls on someone, or is let fall.
    Fall,
    /// Burns and blows to whoever is near.
    Burn,
    /// A machine that breaks, clogs or cannot be put together.
    Machine,
    /// Less gas, less power, more work and money.
    Yield,
}

/// What comes of each question, by its id.
pub const HARMS: [(Harm, &[&str]); 6] = [
    (
        Harm::Gas,
        &[
            "leaks.room",
            "train.oxygen",
            "heart.oxygen",
            "train.air_leak",
            "order.buries",
            "leaks.wall",
            "leaks.budget",
            "leaks.plan",
            "leaks.joint_lengths",
            "leaks.reading_base",
            "leaks.reading_reactor",
            "leaks.reading_filter",
            "leaks.reading_cooler",
            "leaks.reading_condensate",
            "leaks.reading_hopper",
            "leaks.reading_electrics",
            "leaks.reading_engine",
        ],
    ),
    (
        Harm::Fire,
        &[
            "electrics.box",
            "electrics.cables",
            "electrics.fuses",
            "train.filter_temperature",
        ],
    ),
    (
        Harm::Fall,
        &[
            "standing.hull",
            "standing.frame",
            "standing.frame_bears",
            "standing.tip_full",
            "standing.tip_empty",
            "standing.tip_hopper_off",
            "standing.push",
            "standing.kerb",
            "standing.wind",
            "standing.slope",
            "standing.stay",
            "standing.ballast",
            "workshop.lift",
            "workshop.one_lump",
        ],
    ),
    (
        Harm::Burn,
        &[
            "warmth.touch_hearth",
            "warmth.touch_body",
            "warmth.touch_lid",
            "warmth.touch_bottom",
            "train.touch",
            "train.cooler_outside",
            "leaks.panel",
            "standing.filling",
        ],
    ),
    (
        Harm::Machine,
        &[
            "breath.blower_place",
            "breath.stall",
            "electrics.depth",
            "engine.hopper_cone",
            "hearth.ash_room",
            "hearth.band",
            "hearth.grate",
            "hearth.grate_lasts",
            "hearth.inside",
            "hearth.lasts",
            "hearth.throat",
            "hearth.tips_last",
            "hearth.wall",
            "marking.ash_door",
            "marking.bolt_circle",
            "marking.clash",
            "marking.cone_weld",
            "marking.cut_wrong",
            "marking.ends",
            "marking.fits",
            "marking.flanges",
            "marking.lighting_port",
            "marking.nozzles",
            "marking.outlet",
            "marking.outlet_mouth",
            "marking.pipes",
            "marking.seams",
            "marking.sheet",
            "marking.shell",
            "marking.tall",
            "standing.clearance",
            "standing.room",
            "train.arrives",
            "train.bores",
            "train.cooler_frost",
            "train.cooler_tar",
            "train.cyclone",
            "train.dust_settles",
            "train.engine_temperature",
            "train.filter_bed",
            "train.filter_drum",
            "train.filter_interval",
            "train.filter_speed",
            "train.filter_wet",
            "train.ice",
            "train.loose_water",
            "train.metal",
            "train.passes",
            "train.steps",
            "train.tar_early",
            "train.trap_time",
            "warmth.layers_body",
            "warmth.layers_bottom",
            "warmth.layers_hearth",
            "warmth.layers_lid",
            "workshop.as_made",
            "workshop.battery_weight",
            "workshop.cooler_tubes",
            "workshop.train_weight",
        ],
    ),
    (
        Harm::Yield,
        &[
            "breath.battery",
            "breath.full_dirty",
            "breath.one_blower",
            "breath.startup",
            "breath.suction",
            "cost.budget",
            "cost.order",
            "cost.time",
            "electrics.fan",
            "electrics.knob",
            "electrics.pump",
            "engine.entries",
            "engine.power",
            "engine.refuel",
            "heart.char_drawn",
            "heart.char_left",
            "heart.full",
            "heart.idle",
            "heart.marks",
            "heart.measured",
            "heart.moisture",
            "heart.pieces",
            "heart.turndown",
            "heart.usual",
            "hearth.air_in",
            "hearth.char_pieces",
            "hearth.fire_tube",
            "hearth.fire_tube_length",
            "hearth.load_full",
            "hearth.load_idle",
            "hearth.nozzle_velocity",
            "hearth.nozzles_around",
            "hearth.proportions",
            "order.gas_way",
            "order.so_far",
            "train.engine_power",
            "train.leaves",
            "warmth.loss",
            "warmth.loss_idle",
            "warmth.warm_up",
        ],
    ),
];

impl Finding {
    /// What comes of it when it fails; none for a question that [`HARMS`] does not name, which then comes first of all.
    ///
    /// ```
    /// use hearthplan::{design::Design, review::{Harm, assess}};
    /// let tips = assess(&Design::default()).finding("standing.tip_full").unwrap().harm();
    /// assert_eq!(tips, Some(Harm::Fall));
    /// ```
    pub fn harm(&self) -> Option<Harm> {
        let named = HARMS.iter().find(|(_, ids)| ids.contains(&self.id));
        named.map(|(harm, _)| *harm)
    }
}

/// What does not pass, the worst verdict first; of one verdict what does most harm, else in the order in which it is asked.
pub fn worst_first(findings: &[Finding]) -> Vec<&Finding> {
    let mut bad: Vec<&Finding> = (findings.iter())
        .filter(|finding| finding.verdict != Verdict::Good)
        .collect();
    bad.sort_by_cached_key(|finding| (Reverse(finding.verdict), finding.harm()));
    bad
}
