//! Blower and system curves for the chart.

use super::{BlowerReview, Breath};
use crate::design::Design;
use crate::review::train::TrainReview;
use crate::sizing::blower::{BlowerCurve, Running};
use crate::sizing::train::SystemCurve;
use uom::si::f64::{Pressure, VolumeRate};

/// A sample of the chart of blower and system curves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CurveSample {
    /// Flow at the blower's temperature and pressure.
    pub flow: VolumeRate,
    /// Pressure needed while lighting: flare, filters due; none where the train cannot be computed.
    pub system_startup: Option<Pressure>,
    /// Pressure needed into the engine, filters clean.
    pub system_clean: Option<Pressure>,
    /// Pressure needed into the engine, filters due.
    pub system_dirty: Option<Pressure>,
    /// Pressure of the blower at its lighting speed; none past the end of its curve.
    pub blower_startup: Option<Pressure>,
    /// Pressure of the blower at its running speed; none past the end of its curve, or if it stands still then.
    pub blower_running: Option<Pressure>,
}

impl Breath {
    /// Blower and system curves at `points` flows, from nothing to beyond blower and full load.
    pub fn curves(&self, design: &Design, train: &TrainReview, points: u32) -> Vec<CurveSample> {
        let systems = [
            (&train.startup_load, &train.startup),
            (&train.full_load, &train.full_clean),
            (&train.dirty_load, &train.full_dirty),
        ]
        .map(|(load, solved)| train.system_curve(load, solved));
        let blower = self.blower.as_ref().ok();
        let running = |blower: &BlowerReview| Running {
            speed_share: design.blower.speed_share,
            density: blower.startup.running.density,
        };
        let curves: [Option<(&BlowerCurve, Running)>; 2] = [
            blower.map(|blower| (&blower.curve, blower.startup.running)),
            blower
                .filter(|_| design.blower.assists)
                .map(|blower| (&blower.curve, running(blower))),
        ];
        let full = self
            .full_clean
            .as_ref()
            .map_or(train.full_load.start.volume_rate(), |duty| {
                duty.flow_at_blower
            });
        let longest = curves
            .iter()
            .flatten()
            .map(|(curve, running)| curve.largest_flow(running))
            .fold(
                full,
                |longest, flow| if flow > longest { flow } else { longest },
            );
        let steps = f64::from(points.max(2) - 1);
        (0..points.max(2))
            .map(|step| {
                let flow = longest * (f64::from(step) / steps);
                let system = |system: &Option<SystemCurve>| {
                    system.as_ref().map(|system| system.needed(flow))
                };
                let made = |curve: &Option<(&BlowerCurve, Running)>| {
                    curve
                        .as_ref()
                        .and_then(|(curve, running)| curve.pressure(flow, running))
                };
                let [startup, clean, dirty] = systems.each_ref().map(system);
                let [blower_startup, blower_running] = curves.each_ref().map(made);
                CurveSample {
                    flow,
                    system_startup: startup,
                    system_clean: clean,
                    system_dirty: dirty,
                    blower_startup,
                    blower_running,
                }
            })
            .collect()
    }
}
