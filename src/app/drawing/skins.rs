//! How hot the machine is outside, zone by zone.

use super::pieces::mm;
use crate::design::Design;
use crate::review::Assessment;
use crate::sizing::zone::Zone;
use uom::si::f64::Length;

/// An outside temperature worth writing at the vessel.
pub struct Skin {
    /// The zone of the shell.
    pub zone: Zone,
    /// The temperature, K.
    pub kelvin: f64,
    /// Height of the place, mm.
    pub up: f64,
    /// Its distance from the axis, mm.
    pub radius: f64,
    /// The finding that judges it.
    pub finding: &'static str,
    /// Path of the outermost layer.
    pub outermost: Option<String>,
}

/// Those of this machine.
pub fn skins(assessment: &Assessment) -> Vec<Skin> {
    let vessel = &assessment.standing.machine.vessel;
    let middle = |from: Length, to: Length| 0.5 * (mm(from) + mm(to));
    assessment
        .warmth
        .zones
        .iter()
        .flatten()
        .filter_map(|heat| {
            let (up, radius, finding) = match heat.zone {
                Zone::Hearth => (
                    middle(vessel.hearth_bottom, vessel.hearth_top),
                    vessel.hearth_outer_radius,
                    "warmth.touch_hearth",
                ),
                Zone::Body => (
                    middle(vessel.hearth_top, vessel.body_top),
                    vessel.body_outer_radius,
                    "warmth.touch_body",
                ),
                Zone::Lid => (
                    middle(vessel.body_top, vessel.lid_top),
                    vessel.body_outer_radius,
                    "warmth.touch_lid",
                ),
                Zone::Bottom => return None,
            };
            let last = heat.layers.len().checked_sub(1);
            Some(Skin {
                zone: heat.zone,
                // As the verdict judges it: at its hottest, in still air.
                kelvin: assessment.warmth.hottest_outside(heat.zone)?.value,
                up,
                radius: mm(radius),
                finding,
                outermost: last.map(|last| Design::item_path(heat.zone.layer_list(), last)),
            })
        })
        .collect()
}
