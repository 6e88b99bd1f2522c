//! How much gas does the blower draw to the flare when the machine is lit?

use super::{BlowerStage, Detail, Stage, Train, TrainLoad};
use crate::sizing::blower::Running;
use crate::sizing::pressure_chain::End;
use uom::si::f64::{Pressure, Ratio, VolumeRate};

/// Shares of the load's flow that are looked at: from the least, in equal ratios.
const LEAST_SHARE: f64 = 0.02;
const GROWTH: f64 = 1.25;
const LOOKS: i32 = 24;
/// Halvings of the last ratio; the flow is then known to a millionth.
const HALVINGS: u32 = 20;

/// Where blower and train agree while the gas goes to the flare.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlarePoint {
    /// Flow as a share of the load's.
    pub share: Ratio,
    /// Dry gas, counted at 0 °C and 101.325 kPa.
    pub dry_flow: VolumeRate,
    /// Gas as it is where it enters the blower.
    pub flow_at_blower: VolumeRate,
    /// Pressure the blower makes.
    pub pressure: Pressure,
    /// Flow over the flow of highest pressure, less one; none if the curve only falls.
    pub stall_margin: Option<f64>,
}

/// The greatest flow at which the first blower, at a share of its rated speed, makes the pressure that the train needs.
///
/// `start_pressure` gives the pressure at the hearth's outlet for a share of the load's flow: what air nozzles and fuel bed
/// leave. None if there is no blower, or if it cannot move even a fiftieth of the load's flow.
///
/// ```
/// use hearthplan::sizing::train::{example, flare_point};
/// use uom::si::{f64::{Pressure, Ratio}, pressure::pascal, ratio::ratio};
/// let hearth = |share: f64| Pressure::new::<pascal>(101_325.0 - 1800.0 * share * share);
/// let at = |speed| flare_point(&example::stages(), &example::full_load(), Ratio::new::<ratio>(speed), hearth).unwrap();
/// assert!(at(1.0).dry_flow > at(0.6).dry_flow);
/// ```
pub fn flare_point(
    stages: &[Stage],
    load: &TrainLoad,
    speed: Ratio,
    start_pressure: impl Fn(f64) -> Pressure,
) -> Option<FlarePoint> {
    let blower = stages.iter().find_map(|stage| match stage {
        Stage::Blower(blower) => Some(blower),
        _ => None,
    })?;
    let look = |share: f64| at_share(stages, load, blower, speed, share, start_pressure(share));
    // From the greatest flow down: of several crossings the one with the largest flow is the stable one.
    let (mut found, mut share) = (0..=LOOKS)
        .rev()
        .map(|power| LEAST_SHARE * GROWTH.powi(power))
        .find_map(|share| look(share).map(|point| (point, share)))?;
    let mut fails = share * GROWTH;
    for _ in 0..HALVINGS {
        let middle = 0.5 * (share + fails);
        match look(middle) {
            Some(point) => (found, share) = (point, middle),
            None => fails = middle,
        }
    }
    Some(found)
}

/// The blower at one flow; none if it cannot make the pressure, or the train cannot be computed.
fn at_share(
    stages: &[Stage],
    load: &TrainLoad,
    blower: &BlowerStage,
    speed: Ratio,
    share: f64,
    start: Pressure,
) -> Option<FlarePoint> {
    let mut load = load.at_share(share);
    load.circumstances.end = End::Flare;
    load.start.pressure = start;
    let solved = Train::solve(stages, &load).ok()?;
    let last = solved.outcomes.last()?;
    let Detail::Blower(result) = &last.detail else {
        return None;
    };
    let drawn = solved.points.iter().rev().nth(1)?;
    let running = Running {
        speed_share: speed,
        density: last.density,
    };
    let flow_at_blower = drawn.volume_rate();
    let made = blower.curve.pressure(flow_at_blower, &running)?;
    let stall = blower.curve.stall_flow(&running);
    (made >= result.needed).then(|| FlarePoint {
        share: Ratio::new::<uom::si::ratio::ratio>(share),
        dry_flow: load.start.dry_flow,
        flow_at_blower,
        pressure: made,
        stall_margin: (stall.value > 0.0).then(|| (flow_at_blower / stall).value - 1.0),
    })
}
