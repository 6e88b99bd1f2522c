//! What pressure must the blower make at each flow, and where do blower and train agree?

use super::gas_state::GasState;
use super::stage::{Detail, Stage};
use super::{Train, TrainLoad, TrainSolution};
use crate::sizing::blower::{BlowerCurve, Running, WorkingPoint};
use crate::sizing::pressure_chain::End;
use uom::si::f64::{MassDensity, Pressure, Ratio, VolumeRate};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::volume_rate::cubic_meter_per_second;

/// Flows that are solved, as shares of the load's flow.
const SHARES: [f64; 9] = [0.2, 0.35, 0.55, 0.78, 1.0, 1.5, 2.2, 3.2, 4.6];

/// One flow that was solved. SI numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Node {
    /// Wet gas where it enters the blower, m³/s.
    flow: f64,
    /// Pressure needed over that flow, Pa·s/m³.
    loss_per_flow: f64,
    /// Dry gas at 0 °C and 101.325 kPa over that flow.
    dry_per_flow: f64,
    /// Density at the blower, kg/m³.
    density: f64,
}

impl Node {
    fn mixed(&self, other: &Node, flow: f64) -> Node {
        let share = (flow - self.flow) / (other.flow - self.flow);
        let mix = |one: f64, two: f64| one + share * (two - one);
        Node {
            flow,
            loss_per_flow: mix(self.loss_per_flow, other.loss_per_flow),
            dry_per_flow: mix(self.dry_per_flow, other.dry_per_flow),
            density: mix(self.density, other.density),
        }
    }
}

/// Where blower and train agree.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Agreement {
    /// Speed of the blower and density of the gas in it.
    pub running: Running,
    /// Flow and pressure at the blower.
    pub working: WorkingPoint,
    /// Dry gas, counted at 0 °C and 101.325 kPa.
    pub dry_flow: VolumeRate,
}

/// Pressure that the way from the air outside to the flare or engine needs, against the flow at the blower.
///
/// A few flows are solved; between them loss over flow is taken as straight, which is exact for losses that grow with
/// the flow and with its square, and within 3 % where the flow in cooler tubes turns turbulent.
#[derive(Debug, Clone, PartialEq)]
pub struct SystemCurve {
    nodes: Vec<Node>,
}

impl SystemCurve {
    /// The curve around a load. `hearth` gives what air nozzles and fuel bed lose at a flow of dry gas.
    ///
    /// None if not even two flows can be solved.
    ///
    /// ```
    /// use hearthplan::sizing::train::{SystemCurve, example};
    /// use uom::si::{f64::*, pressure::pascal, volume_rate::cubic_meter_per_hour};
    /// let hearth = |flow: VolumeRate| Pressure::new::<pascal>(1800.0) * (flow / example::full_load().start.dry_flow).value;
    /// let curve = SystemCurve::around(&example::stages(), &example::full_load(), hearth).unwrap();
    /// let at = |flow| curve.needed(VolumeRate::new::<cubic_meter_per_hour>(flow));
    /// assert!(at(30.0) > at(20.0));
    /// ```
    pub fn around(
        stages: &[Stage],
        load: &TrainLoad,
        hearth: impl Fn(VolumeRate) -> Pressure,
    ) -> Option<SystemCurve> {
        let air = load.circumstances.surroundings.pressure;
        let nodes: Vec<Node> = SHARES
            .iter()
            .filter_map(|share| {
                let mut load = load.at_share(*share);
                load.start.pressure = air - hearth(load.start.dry_flow);
                let solved = Train::solve(stages, &load).ok()?;
                let (needed, blower) = needed(stages, &load, &solved)?;
                let flow = blower.volume_rate().value;
                Some(Node {
                    flow,
                    loss_per_flow: needed.value / flow,
                    dry_per_flow: load.start.dry_flow.value / flow,
                    density: blower.properties().ok()?.density,
                })
            })
            .collect();
        let rising = nodes
            .iter()
            .zip(nodes.iter().skip(1))
            .all(|(one, next)| next.flow > one.flow);
        (nodes.len() > 1 && rising).then_some(SystemCurve { nodes })
    }

    fn at(&self, flow: f64) -> Option<Node> {
        let pairs = || self.nodes.iter().zip(self.nodes.iter().skip(1));
        let (one, next) = pairs()
            .find(|(_, next)| flow <= next.flow)
            .or_else(|| pairs().next_back())?;
        Some(one.mixed(next, flow))
    }

    /// Pressure needed at a flow through the blower, as the gas is there.
    pub fn needed(&self, flow: VolumeRate) -> Pressure {
        let node = self.at(flow.value);
        Pressure::new::<pascal>(node.map_or(f64::NAN, |node| node.loss_per_flow * flow.value))
    }

    /// Where a blower at a speed agrees with the train.
    pub fn agreement(&self, blower: &BlowerCurve, speed: Ratio) -> Agreement {
        let density = |flow: f64| {
            let density = self.at(flow).map_or(f64::NAN, |node| node.density);
            MassDensity::new::<kilogram_per_cubic_meter>(density)
        };
        let find = |flow: f64| {
            let running = Running {
                speed_share: speed,
                density: density(flow),
            };
            let working = blower.working_point(&running, |flow| self.needed(flow));
            (running, working)
        };
        // The density hardly depends on the flow: a second look is enough.
        let (_, first) = find(self.nodes.first().map_or(f64::NAN, |node| node.flow));
        let (running, working) = find(first.flow.value);
        let dry = self
            .at(working.flow.value)
            .map_or(f64::NAN, |node| node.dry_per_flow * working.flow.value);
        Agreement {
            running,
            working,
            dry_flow: VolumeRate::new::<cubic_meter_per_second>(dry),
        }
    }
}

/// Pressure that must be made for this solution, and the gas where it enters the first blower; the last point counts if
/// there is none.
pub fn needed<'a>(
    stages: &[Stage],
    load: &TrainLoad,
    solved: &'a TrainSolution,
) -> Option<(Pressure, &'a GasState)> {
    let air = load.circumstances.surroundings.pressure;
    let flared = match (load.circumstances.end, solved.outcomes.last()) {
        (End::Flare, Some(last)) => match &last.detail {
            Detail::Blower(blower) => blower.flare_loss,
            _ => return None,
        },
        _ => Pressure::default(),
    };
    let place = stages
        .iter()
        .position(|stage| matches!(stage, Stage::Blower(_)));
    let gas = place
        .and_then(|place| solved.points.get(place))
        .or(solved.points.last())?;
    Some((air - load.start.pressure + solved.total_loss + flared, gas))
}
