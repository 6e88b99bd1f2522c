//! Warming up: heat moving into the layers of a wall before it reaches the outside.
//!
//! One-dimensional conduction by finite volumes, the same layers and gaps as the steady model. Time runs in steps that
//! grow by a constant factor, because everything happens fast at first and slowly later. Each step is the two-stage
//! L-stable implicit rule (Alexander, SIAM Journal on Numerical Analysis 14, 1977, 1006): second order, no oscillation.
//! Conductivity, gaps and the outside coefficient are taken at temperatures carried forward from the step before, so
//! no step iterates. Heat taken in equals heat stored plus heat lost to rounding.

use super::error::{PhysicsError, within};
use super::layers::{Layer, Stack};
use super::solve;
use super::steady::Outside;
use super::transient_grid::Grid;

/// Heat a layer's material can hold. Ignored for gaps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeatStore {
    /// Density, kg/m³, 0.1 to 25 000.
    pub density: f64,
    /// Heat capacity, J/(kg·K), 10 to 10 000.
    pub heat_capacity: f64,
}

/// How the outside surface loses heat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum OutsideLoss {
    /// To air, by convection and radiation worked out anew for every step.
    Air(Outside),
    /// By a fixed coefficient.
    Fixed {
        /// Coefficient, W/(m²·K), 0 to 1e5. Zero insulates the surface.
        coefficient: f64,
        /// Air temperature, K, 200 to 400.
        air_temperature: f64,
    },
}

/// How the hot face warms.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HotFace {
    /// Temperature it ends at, K, 150 to 3000.
    pub temperature: f64,
    /// Time over which it rises in a straight line, s, 0 to 1e7. Zero for a step.
    pub ramp: f64,
}

/// How fine to compute.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fineness {
    /// Cells in each solid layer, 1 to 200.
    pub cells_per_layer: u32,
    /// Time steps, 8 to 20 000.
    pub steps: u32,
}

impl Fineness {
    /// For every review: temperatures within 1 % of the rise and times within 3 %; energies within 1.5 %, or 5 % while
    /// the heat is still in the first two cells.
    pub const QUICK: Fineness = Fineness {
        cells_per_layer: 8,
        steps: 60,
    };
    /// For checks: temperatures within 0.1 % of the rise, energies within 0.2 %.
    pub const FINE: Fineness = Fineness {
        cells_per_layer: 40,
        steps: 600,
    };
}

/// Everything a warm-up needs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WarmUpCase<'a> {
    /// The wall.
    pub stack: &'a Stack,
    /// One entry per layer, hot side first.
    pub stores: &'a [HeatStore],
    /// Temperature of the whole wall before lighting, K, 150 to 3000.
    pub start: f64,
    /// What the hot face does.
    pub hot_face: HotFace,
    /// What the outside does.
    pub outside: OutsideLoss,
    /// Time to follow, s, up to 1e9. `None` follows it until the heat loss is steady within about 1 %.
    pub duration: Option<f64>,
}

/// One row of the record.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Moment {
    time: f64,
    heat_taken: f64,
    heat_lost: f64,
    loss: f64,
}

/// Course of a warm-up.
#[derive(Debug, Clone, PartialEq)]
pub struct WarmUp {
    moments: Vec<Moment>,
    /// Depth of each station, m: faces and cell centres in order.
    depths: Vec<f64>,
    /// Temperature of every station, one row after the other, K.
    temperatures: Vec<f64>,
    /// Which stations are faces between layers.
    is_face: Vec<bool>,
    steady_loss: f64,
}

/// Follows the warming up of a wall.
///
/// # Errors
/// [`PhysicsError`] if an input is out of range, the number of stores differs from the number of layers, there is no
/// solid layer, or two gaps lie side by side.
///
/// ```
/// use hearthplan::physics::conductivity::ConductivityCurve;
/// use hearthplan::physics::layers::{Layer, Shape, Stack};
/// use hearthplan::physics::steady::Outside;
/// use hearthplan::physics::transient::{warm_up, Fineness, HeatStore, HotFace, OutsideLoss, WarmUpCase};
/// let shape = Shape::Cylinder { inner_radius: 0.15, length: 0.5 };
/// let wool = Layer::Solid { thickness: 0.05, conductivity: ConductivityCurve::constant(0.06)? };
/// let stack = Stack::new(shape, &[wool])?;
/// let case = WarmUpCase {
///     stack: &stack,
///     stores: &[HeatStore { density: 100.0, heat_capacity: 840.0 }],
///     start: 293.15,
///     hot_face: HotFace { temperature: 673.15, ramp: 600.0 },
///     outside: OutsideLoss::Air(Outside::still(293.15, 0.9)),
///     duration: None,
/// };
/// let course = warm_up(&case, Fineness::QUICK)?;
/// let settled = course.settled_after(0.1).unwrap();
/// assert!(settled > 600.0 && settled < 7200.0);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn warm_up(case: &WarmUpCase, fineness: Fineness) -> Result<WarmUp, PhysicsError> {
    check(case, fineness)?;
    let mut grid = Grid::new(case, fineness.cells_per_layer)?;
    let duration = match case.duration {
        Some(duration) => within("duration of the warm-up", "s", duration, 1e-6, 1e9)?,
        None => case.hot_face.ramp + 5.0 * grid.delay(),
    };
    let rows = fineness.steps as usize + 2;
    let mut course = WarmUp {
        moments: Vec::with_capacity(rows),
        temperatures: Vec::with_capacity(rows * grid.depths().len()),
        depths: grid.depths().to_vec(),
        is_face: grid.is_face().to_vec(),
        steady_loss: steady_loss(case)?,
    };
    let mut now = Moment {
        time: 0.0,
        heat_taken: 0.0,
        heat_lost: 0.0,
        loss: 0.0,
    };
    course.moments.push(now);
    grid.record(&mut course.temperatures);
    let growth = growth(fineness.steps);
    let mut step = duration * (growth - 1.0) / (growth.powf(f64::from(fineness.steps)) - 1.0);
    for _ in 0..fineness.steps {
        // A step across the corner at the end of the ramp would swing over: stop there and go on.
        let to_corner = case.hot_face.ramp - now.time;
        let pieces = if to_corner > 1e-6 * step && to_corner < (1.0 - 1e-6) * step {
            [Some(to_corner), Some(step - to_corner)]
        } else {
            [Some(step), None]
        };
        for piece in pieces.into_iter().flatten() {
            let moved = grid.advance(case, now.time, piece);
            now = Moment {
                time: now.time + piece,
                heat_taken: now.heat_taken + moved.heat_taken,
                heat_lost: now.heat_lost + moved.heat_lost,
                loss: moved.loss,
            };
            course.moments.push(now);
            grid.record(&mut course.temperatures);
        }
        step *= growth;
    }
    Ok(course)
}

impl WarmUp {
    /// Time followed, s.
    pub fn duration(&self) -> f64 {
        self.moments.last().map_or(0.0, |moment| moment.time)
    }

    /// Heat flow into the air once everything is steady, W.
    pub fn steady_loss(&self) -> f64 {
        self.steady_loss
    }

    /// Time, s, when `depth` in m from the hot face first gets to `temperature` in K. `None` if not while followed.
    pub fn time_to_reach(&self, depth: f64, temperature: f64) -> Option<f64> {
        let mut before: Option<(f64, f64)> = None;
        for (moment, row) in self.moments.iter().zip(self.rows()) {
            let here = self.at_depth(row, depth);
            if here >= temperature {
                return Some(match before {
                    Some((time, cooler)) => {
                        time + (moment.time - time) * (temperature - cooler) / (here - cooler)
                    }
                    None => moment.time,
                });
            }
            before = Some((moment.time, here));
        }
        None
    }

    /// Time, s, after which the heat loss stays within `share` of the steady one (0.1 for 10 %). `None` if not while
    /// followed.
    pub fn settled_after(&self, share: f64) -> Option<f64> {
        let allowed = share * self.steady_loss.abs();
        let mut after: Option<(f64, f64)> = None;
        for moment in self.moments.iter().rev() {
            let off = (moment.loss - self.steady_loss).abs();
            if off.is_nan() || off > allowed {
                return after.map(|(time, later_off)| {
                    moment.time + (time - moment.time) * (off - allowed) / (off - later_off)
                });
            }
            after = Some((moment.time, off));
        }
        after.map(|(time, _)| time)
    }

    /// Time, s, after which the hot face takes in no more than `flow` in W; 0 if it never takes more. `None` if it still
    /// takes more at the end of what was followed.
    ///
    /// Once a face is as hot as it gets, what it takes in only falls (the wall behind it only warms). So the first fall
    /// below `flow` after the most counts: long steps make the flow swing a little about the steady one later on.
    pub fn draws_until(&self, flow: f64) -> Option<f64> {
        let (mut most, mut over, mut until) = (f64::NEG_INFINITY, (0.0, flow), Some(0.0));
        for (earlier, later) in self.moments.iter().zip(self.moments.iter().skip(1)) {
            let taken = (later.heat_taken - earlier.heat_taken) / (later.time - earlier.time);
            // A thick wall takes in less with the root of time: the mean over a step is that of this time.
            let time = (0.5 * (earlier.time.sqrt() + later.time.sqrt())).powi(2);
            if taken.is_nan() {
                return None;
            }
            if taken > flow && (until.is_none() || taken > most) {
                (over, until) = ((time, taken), None);
            } else if until.is_none() {
                let (before, more) = over;
                let share = (more / flow).ln() / (more / taken).ln();
                until = Some(if share.is_finite() {
                    before * (time / before).powf(share)
                } else {
                    time
                });
            }
            most = most.max(taken);
        }
        until
    }

    /// Heat the hot face has taken in by `time` in s, J. Later than followed counts as the end.
    pub fn heat_taken(&self, time: f64) -> f64 {
        self.between(time, |moment, _| moment.heat_taken)
    }

    /// Heat lost to the air by `time` in s, J.
    pub fn heat_lost(&self, time: f64) -> f64 {
        self.between(time, |moment, _| moment.heat_lost)
    }

    /// Heat flow into the air at `time` in s, W.
    pub fn loss(&self, time: f64) -> f64 {
        self.between(time, |moment, _| moment.loss)
    }

    /// Temperature, K, at `depth` in m from the hot face and `time` in s; both held at their ends.
    pub fn temperature(&self, depth: f64, time: f64) -> f64 {
        self.between(time, |_, row| self.at_depth(row, depth))
    }

    /// Temperature of every face at `time` in s, K: hot face, between the layers, outside.
    pub fn faces(&self, time: f64) -> Vec<f64> {
        let faces = self
            .depths
            .iter()
            .zip(&self.is_face)
            .filter(|(_, face)| **face);
        faces
            .map(|(depth, _)| self.temperature(*depth, time))
            .collect()
    }

    fn rows(&self) -> impl Iterator<Item = &[f64]> {
        self.temperatures.chunks(self.depths.len().max(1))
    }

    /// Straight line between the two rows around `time`.
    fn between(&self, time: f64, value: impl Fn(&Moment, &[f64]) -> f64) -> f64 {
        let mut before: Option<(f64, f64)> = None;
        for (moment, row) in self.moments.iter().zip(self.rows()) {
            if moment.time >= time {
                let now = value(moment, row);
                return match before {
                    Some((earlier, then)) => {
                        then + (now - then) * (time - earlier) / (moment.time - earlier)
                    }
                    None => now,
                };
            }
            before = Some((moment.time, value(moment, row)));
        }
        before.map_or(f64::NAN, |(_, last)| last)
    }

    /// Straight line between the two stations around `depth`.
    fn at_depth(&self, row: &[f64], depth: f64) -> f64 {
        let mut before: Option<(f64, f64)> = None;
        for (station, temperature) in self.depths.iter().zip(row) {
            if *station >= depth {
                return match before {
                    Some((shallower, there)) => {
                        there + (temperature - there) * (depth - shallower) / (station - shallower)
                    }
                    None => *temperature,
                };
            }
            before = Some((*station, *temperature));
        }
        before.map_or(f64::NAN, |(_, last)| last)
    }
}

impl OutsideLoss {
    /// Air temperature, K.
    pub fn air_temperature(&self) -> f64 {
        match self {
            OutsideLoss::Air(outside) => outside.surroundings.air_temperature,
            OutsideLoss::Fixed {
                air_temperature, ..
            } => *air_temperature,
        }
    }

    /// Coefficient, W/(m²·K), with the surface of `stack` at `surface` in K.
    pub(crate) fn coefficient(&self, stack: &Stack, surface: f64) -> f64 {
        match self {
            OutsideLoss::Air(outside) => stack.surface_loss(surface, outside).total_coefficient(),
            OutsideLoss::Fixed { coefficient, .. } => *coefficient,
        }
    }
}

impl HotFace {
    /// Temperature, K, at `time` in s after `start` in K.
    pub(crate) fn at(&self, start: f64, time: f64) -> f64 {
        let share = if time < self.ramp {
            time / self.ramp
        } else {
            1.0
        };
        start + (self.temperature - start) * share
    }
}

/// Growth of the time steps that spans five decades, so that the first step is 1e-5 of the duration or less.
fn growth(steps: u32) -> f64 {
    // The ratio of last to first step; the first is then about 1 / ratio of the last.
    const RATIO: f64 = 2.0e4;
    RATIO.powf(1.0 / f64::from(steps))
}

/// Heat flow into the air in the end, W.
fn steady_loss(case: &WarmUpCase) -> Result<f64, PhysicsError> {
    let hot = case.hot_face.temperature;
    match case.outside {
        OutsideLoss::Air(outside) => Ok(case.stack.steady(hot, &outside)?.heat_flow),
        OutsideLoss::Fixed {
            coefficient,
            air_temperature,
        } => {
            let conductance = coefficient * case.stack.outer_area();
            let flow = |surface: f64| conductance * (surface - air_temperature);
            if hot == air_temperature {
                return Ok(0.0);
            }
            let surface = solve::bracketed(air_temperature, hot, 1e-9, |surface| {
                case.stack.hot_face_for(surface, flow(surface)) - hot
            })?;
            Ok(flow(surface.at))
        }
    }
}

fn check(case: &WarmUpCase, fineness: Fineness) -> Result<(), PhysicsError> {
    let cells = f64::from(fineness.cells_per_layer);
    within("cells in each layer", "", cells, 1.0, 200.0)?;
    within("time steps", "", f64::from(fineness.steps), 8.0, 20_000.0)?;
    within(
        "temperature before lighting",
        "K",
        case.start,
        150.0,
        3000.0,
    )?;
    within(
        "temperature of the hot face",
        "K",
        case.hot_face.temperature,
        150.0,
        3000.0,
    )?;
    within(
        "time the hot face takes to warm",
        "s",
        case.hot_face.ramp,
        0.0,
        1e7,
    )?;
    if let OutsideLoss::Fixed {
        coefficient,
        air_temperature,
    } = case.outside
    {
        within("outside coefficient", "W/(m²·K)", coefficient, 0.0, 1e5)?;
        within("air temperature", "K", air_temperature, 200.0, 400.0)?;
    }
    if case.stores.len() != case.stack.layers().len() {
        return Err(PhysicsError::Impossible {
            quantity: "materials of the layers",
            reason: "there must be one for each layer",
        });
    }
    for (store, layer) in case.stores.iter().zip(case.stack.layers()) {
        if matches!(layer, Layer::Solid { .. }) {
            within("density", "kg/m³", store.density, 0.1, 25_000.0)?;
            within(
                "heat capacity",
                "J/(kg·K)",
                store.heat_capacity,
                10.0,
                10_000.0,
            )?;
        }
    }
    Ok(())
}
