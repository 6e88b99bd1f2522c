//! What pressure must the blower make at each flow, and where do blower and train agree?

use super::gas_state::GasState;
use super::stage::{Detail, Stage};
use super::{Train, TrainLoad, TrainSolution};
use crate::sizing::blower::{BlowerCurve, Running, WorkingPoint};
use crate::sizing::pressure_chain::End;
use std::cell::OnceCell;
use uom::si::f64::{MassDensity, Pressure, Ratio, VolumeRate};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::volume_rate::cubic_meter_per_second;

/// Flows that are solved, as shares of the load's flow.
const SHARES: [f64; 9] = [0.2, 0.35, 0.55, 0.78, 1.0, 1.5, 2.2, 3.2, 4.6];

/// Which of them is the load itself.
const OWN_LOAD: usize = 4;

/// How near the density reckoned with must be to that at the working point, as a share of it.
const DENSITY_AGREEMENT: f64 = 0.01;

/// How often a density that does not agree is looked at again.
const MORE_LOOKS: u32 = 12;

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
    /// What lies between this node and the next, or beyond them: there the gas stays as it is at the nearer of the two,
    /// for a line drawn out would end at a density below zero.
    fn mixed(&self, next: &Node, flow: f64) -> Node {
        let share = (flow - self.flow) / (next.flow - self.flow);
        let within = share.clamp(0.0, 1.0);
        let held = |one: f64, two: f64| one + within * (two - one);
        let (one, two) = (self.loss_per_flow, next.loss_per_flow);
        let drawn_out = one + share * (two - one);
        // Towards no flow the loss never turns into a gain, towards more flow never into less loss than before.
        let least = if share > 1.0 { two } else { 0.0 };
        Node {
            flow,
            loss_per_flow: drawn_out.max(least),
            dry_per_flow: held(self.dry_per_flow, next.dry_per_flow),
            density: held(self.density, next.density),
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
/// A few flows are solved, each when it is first asked for; between them loss over flow is taken as straight, which is
/// exact for losses that grow with the flow and with its square, and within 3 % where the flow in cooler tubes turns
/// turbulent.
pub struct SystemCurve<'a> {
    stages: &'a [Stage],
    load: &'a TrainLoad,
    hearth: Box<dyn Fn(VolumeRate) -> Pressure + 'a>,
    nodes: [OnceCell<Option<Node>>; SHARES.len()],
}

impl<'a> SystemCurve<'a> {
    /// The curve around a load. `hearth` gives what air nozzles and fuel bed lose at a flow of dry gas; `solved` is the
    /// train at the load itself, if that is known already.
    ///
    /// None if not even two flows can be solved.
    ///
    /// ```
    /// use hearthplan::sizing::train::{SystemCurve, example};
    /// use uom::si::{f64::*, pressure::pascal, volume_rate::cubic_meter_per_hour};
    /// let (stages, load) = (example::stages(), example::full_load());
    /// let hearth = |flow: VolumeRate| Pressure::new::<pascal>(1800.0) * (flow / load.start.dry_flow).value;
    /// let curve = SystemCurve::around(&stages, &load, hearth, None).unwrap();
    /// let at = |flow| curve.needed(VolumeRate::new::<cubic_meter_per_hour>(flow));
    /// assert!(at(30.0) > at(20.0));
    /// ```
    pub fn around(
        stages: &'a [Stage],
        load: &'a TrainLoad,
        hearth: impl Fn(VolumeRate) -> Pressure + 'a,
        solved: Option<&TrainSolution>,
    ) -> Option<SystemCurve<'a>> {
        let curve = SystemCurve {
            stages,
            load,
            hearth: Box::new(hearth),
            nodes: Default::default(),
        };
        if let (Some(solved), Some(own)) = (solved, curve.nodes.get(OWN_LOAD)) {
            // A cell that has just been made is empty.
            let _ = own.set(curve.node_of(load, solved));
        }
        let own = curve.own_flow();
        let two = curve.pair(own * (1.0 + 1e-9)).is_some();
        two.then_some(curve)
    }

    fn node_of(&self, load: &TrainLoad, solved: &TrainSolution) -> Option<Node> {
        let (needed, blower) = needed(self.stages, load, solved)?;
        let flow = blower.volume_rate().value;
        Some(Node {
            flow,
            loss_per_flow: needed.value / flow,
            dry_per_flow: load.start.dry_flow.value / flow,
            density: blower.properties().ok()?.density,
        })
    }

    /// The node at one of the shares; none if there the train cannot be solved.
    fn node(&self, place: usize) -> Option<Node> {
        let share = SHARES.get(place)?;
        *self.nodes.get(place)?.get_or_init(|| {
            let mut load = self.load.at_share(*share);
            load.start.pressure =
                self.load.circumstances.surroundings.pressure - (self.hearth)(load.start.dry_flow);
            let solved = Train::solve(self.stages, &load).ok()?;
            self.node_of(&load, &solved)
        })
    }

    fn before(&self, place: usize) -> Option<(usize, Node)> {
        (0..place)
            .rev()
            .find_map(|place| Some((place, self.node(place)?)))
    }

    fn behind(&self, place: usize) -> Option<(usize, Node)> {
        (place + 1..SHARES.len()).find_map(|place| Some((place, self.node(place)?)))
    }

    /// Flow at the blower at the load itself, or that of the gas as it comes in, m³/s.
    fn own_flow(&self) -> f64 {
        self.node(OWN_LOAD)
            .map_or(self.load.start.volume_rate().value, |node| node.flow)
    }

    /// The two nodes around a flow, if both have been solved.
    fn known_pair(&self, flow: f64) -> Option<(Node, Node)> {
        let known = |cell: &OnceCell<Option<Node>>| cell.get().copied().flatten();
        (self.nodes.iter().zip(self.nodes.iter().skip(1)))
            .filter_map(|(one, next)| Some((known(one)?, known(next)?)))
            .find(|(one, next)| one.flow < flow && flow <= next.flow)
    }

    /// The neighbouring nodes that have a flow between them; those at the nearer end if none have.
    fn pair(&self, flow: f64) -> Option<(Node, Node)> {
        if let Some(known) = self.known_pair(flow) {
            return Some(known);
        }
        let own = self.own_flow();
        // Flow at the blower and flow of gas go nearly together.
        let guess = SHARES
            .partition_point(|share| share * own < flow)
            .min(SHARES.len() - 1);
        let here = self.node(guess).map(|node| (guess, node));
        let (mut place, mut node) = here
            .or_else(|| self.behind(guess))
            .or_else(|| self.before(guess))?;
        while flow > node.flow {
            let Some((next, higher)) = self.behind(place) else {
                break;
            };
            (place, node) = (next, higher);
        }
        while let Some((next, lower)) = self.before(place) {
            let last = flow > lower.flow || self.before(next).is_none();
            if last {
                return (node.flow > lower.flow).then_some((lower, node));
            }
            (place, node) = (next, lower);
        }
        let (_, higher) = self.behind(place)?;
        (higher.flow > node.flow).then_some((node, higher))
    }

    fn at(&self, flow: f64) -> Option<Node> {
        let (one, next) = self.pair(flow)?;
        Some(one.mixed(&next, flow))
    }

    /// Pressure needed at a flow through the blower, as the gas is there.
    pub fn needed(&self, flow: VolumeRate) -> Pressure {
        let node = self.at(flow.value);
        Pressure::new::<pascal>(node.map_or(f64::NAN, |node| node.loss_per_flow * flow.value))
    }

    /// A loss at less than this flow that is greater than `made`: so much is needed at least. What is solved already
    /// is looked at first, then the flows from the load itself upwards, which are likely to be needed anyway.
    fn more_than(&self, made: Pressure, flow: f64) -> Option<Pressure> {
        let known = self.nodes.iter().filter_map(|node| *node.get()?);
        let further = (OWN_LOAD..SHARES.len()).map_while(|place| self.node(place));
        let loss = |node: Node| Pressure::new::<pascal>(node.loss_per_flow * node.flow);
        let below = |node: &Node| node.flow < flow;
        let greatest = known.filter(below).map(loss).fold(made, Pressure::max);
        if greatest > made {
            return Some(greatest);
        }
        (further.take_while(below).map(loss)).find(|loss| *loss > made)
    }

    /// Where a blower at a speed agrees with the train.
    pub fn agreement(&self, blower: &BlowerCurve, speed: Ratio) -> Agreement {
        let find = |density: f64| {
            let running = Running {
                speed_share: speed,
                density: MassDensity::new::<kilogram_per_cubic_meter>(density),
            };
            let largest = blower.largest_flow(&running) * (1.0 - 1e-12);
            let working = blower.working_point(&running, |flow| {
                // Where even a smaller flow needs more than the blower makes, it does not matter how much more.
                let made = blower.pressure(flow.min(largest), &running);
                made.and_then(|made| self.more_than(made, flow.value))
                    .unwrap_or_else(|| self.needed(flow))
            });
            let density = self.at(working.flow.value).map(|node| node.density);
            (running, working, density.unwrap_or(f64::NAN))
        };
        // The density hardly depends on the flow, unless the train takes much of the pressure.
        let own = self.node(OWN_LOAD).or_else(|| self.at(self.own_flow()));
        let (.., mut density) = find(own.map_or(f64::NAN, |node| node.density));
        let (mut running, mut working, mut there) = find(density);
        for _ in 0..MORE_LOOKS {
            if (there - density).abs() <= DENSITY_AGREEMENT * density || there.is_nan() {
                break;
            }
            density = 0.5 * (density + there);
            (running, working, there) = find(density);
        }
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
