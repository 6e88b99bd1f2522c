//! What does the blower do against the chain: flow, pressure, distance from stall, power?

use crate::physics::solve::bracketed;
use thiserror::Error;
use uom::si::f64::{MassDensity, Power, Pressure, Ratio, VolumeRate};
use uom::si::power::watt;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::volume_rate::cubic_meter_per_second;

/// Density that maker's curves are drawn for, kg/m³ (common practice, no source).
pub const CURVE_DENSITY: f64 = 1.2;

/// Fastest speed that [`BlowerCurve::speed_needed`] looks at, as a share of rated speed.
const FASTEST: f64 = 5.0;

/// Why a blower curve cannot be used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum BlowerError {
    /// Fewer than two points with different flows.
    #[error("the blower curve needs at least two points with different flows; it has {0}")]
    TooFewPoints(usize),
    /// A flow or pressure is negative or not a number.
    #[error("point {0} of the blower curve is not a number, or is negative")]
    NotAPoint(usize),
    /// No point has any pressure.
    #[error("every point of the blower curve has no pressure")]
    NoPressure,
}

/// A point of a blower curve at rated speed and air of 1.2 kg/m³.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BlowerPoint {
    /// Flow through the blower.
    pub flow: VolumeRate,
    /// Pressure rise.
    pub pressure: Pressure,
}

/// A blower curve: straight lines between points, flows rising.
///
/// Straight lines never swing above or below the points that were measured. Left of the first point its pressure is
/// held; right of the last point nothing is promised.
#[derive(Debug, Clone, PartialEq)]
pub struct BlowerCurve {
    points: Vec<(f64, f64)>,
}

/// How fast the blower turns and what it moves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Running {
    /// Speed as a share of the rated speed.
    pub speed_share: Ratio,
    /// Density of the gas at the blower.
    pub density: MassDensity,
}

impl Running {
    /// Pressure over that of the rated curve, by the affinity laws: squared speed times density.
    fn pressure_factor(&self) -> f64 {
        let speed = self.speed_share.value;
        speed * speed * self.density.value / CURVE_DENSITY
    }
}

/// Where blower and chain agree.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WorkingPoint {
    /// Flow at the blower's temperature and pressure.
    pub flow: VolumeRate,
    /// Pressure rise of the blower.
    pub pressure: Pressure,
    /// The curve ends before it meets the chain: the blower moves at least this flow.
    pub past_end: bool,
    /// Flow above that of the highest pressure, as a share of the latter; none when the curve has no rising part.
    pub stall_margin: Option<f64>,
}

impl BlowerCurve {
    /// Sorts and checks the points; of points with the same flow the higher pressure counts.
    ///
    /// # Errors
    /// See [`BlowerError`].
    pub fn new(points: impl IntoIterator<Item = BlowerPoint>) -> Result<Self, BlowerError> {
        let mut curve: Vec<(f64, f64)> = Vec::with_capacity(12);
        for (index, point) in points.into_iter().enumerate() {
            let (flow, pressure) = (point.flow.value, point.pressure.value);
            let usable = |number: f64| number.is_finite() && number >= 0.0;
            if !usable(flow) || !usable(pressure) {
                return Err(BlowerError::NotAPoint(index + 1));
            }
            curve.push((flow, pressure));
        }
        curve.sort_by(|one, other| one.0.total_cmp(&other.0).then(other.1.total_cmp(&one.1)));
        curve.dedup_by(|next, kept| next.0 == kept.0);
        if curve.len() < 2 {
            return Err(BlowerError::TooFewPoints(curve.len()));
        }
        if curve.iter().all(|point| point.1 <= 0.0) {
            return Err(BlowerError::NoPressure);
        }
        Ok(Self { points: curve })
    }

    /// Pressure at a flow, rated speed, 1.2 kg/m³; none past the last point.
    fn rated(&self, flow: f64) -> Option<f64> {
        let (first, last) = (self.points.first()?, self.points.last()?);
        if flow <= first.0 {
            return Some(first.1);
        }
        if flow > last.0 {
            return None;
        }
        let next = self.points.partition_point(|point| point.0 < flow);
        let (low, high) = (
            self.points.get(next.checked_sub(1)?)?,
            self.points.get(next)?,
        );
        Some(low.1 + (high.1 - low.1) * (flow - low.0) / (high.0 - low.0))
    }

    /// Pressure rise at a flow, by the affinity laws: flow with speed, pressure with its square and with density.
    /// None past the last point of the curve.
    ///
    /// ```
    /// use hearthplan::sizing::blower::{BlowerCurve, BlowerPoint, Running};
    /// use uom::si::{f64::*, mass_density::kilogram_per_cubic_meter, pressure::pascal, ratio::ratio};
    /// use uom::si::volume_rate::cubic_meter_per_hour;
    /// let flow = VolumeRate::new::<cubic_meter_per_hour>;
    /// let point = |q, p| BlowerPoint { flow: flow(q), pressure: Pressure::new::<pascal>(p) };
    /// let curve = BlowerCurve::new([point(0.0, 2000.0), point(100.0, 0.0)])?;
    /// let half_speed = Running {
    ///     speed_share: Ratio::new::<ratio>(0.5),
    ///     density: MassDensity::new::<kilogram_per_cubic_meter>(1.2),
    /// };
    /// let pressure = curve.pressure(flow(25.0), &half_speed).unwrap();
    /// assert!((pressure.get::<pascal>() - 250.0).abs() < 1e-9);
    /// # Ok::<(), hearthplan::sizing::blower::BlowerError>(())
    /// ```
    pub fn pressure(&self, flow: VolumeRate, running: &Running) -> Option<Pressure> {
        let rated = self.rated(flow.value / running.speed_share.value)?;
        Some(Pressure::new::<pascal>(rated * running.pressure_factor()))
    }

    /// Where on the curve the blower gives most power to air of 1.2 kg/m³, at rated speed. At another speed that is the cube
    /// of it, and it is in step with the density.
    ///
    /// ```
    /// use hearthplan::sizing::blower::{BlowerCurve, BlowerPoint};
    /// use uom::si::{f64::*, pressure::pascal, volume_rate::cubic_meter_per_hour};
    /// let flow = VolumeRate::new::<cubic_meter_per_hour>;
    /// let point = |q, p| BlowerPoint { flow: flow(q), pressure: Pressure::new::<pascal>(p) };
    /// let curve = BlowerCurve::new([point(0.0, 2000.0), point(100.0, 0.0)])?;
    /// // Of a straight line down to nothing it is the middle.
    /// let most = curve.most_power();
    /// assert!((most.flow.get::<cubic_meter_per_hour>() - 50.0).abs() < 1e-9);
    /// assert!((most.pressure.get::<pascal>() - 1000.0).abs() < 1e-9);
    /// # Ok::<(), hearthplan::sizing::blower::BlowerError>(())
    /// ```
    pub fn most_power(&self) -> BlowerPoint {
        let tops = self.points.windows(2).filter_map(|pair| {
            let [(from, high), (to, low)] = pair else {
                return None;
            };
            let slope = (low - high) / (to - from);
            // Top of q (p + s (q − q₁)), where the line falls.
            let top = 0.5 * (from - high / slope);
            (slope < 0.0 && top > *from && top < *to).then(|| (top, high + slope * (top - from)))
        });
        let (flow, pressure) = (self.points.iter().copied())
            .chain(tops)
            .max_by(|one, other| (one.0 * one.1).total_cmp(&(other.0 * other.1)))
            .unwrap_or_default();
        BlowerPoint {
            flow: VolumeRate::new::<cubic_meter_per_second>(flow),
            pressure: Pressure::new::<pascal>(pressure),
        }
    }

    /// Flow at the last point of the curve.
    pub fn largest_flow(&self, running: &Running) -> VolumeRate {
        let last = self.points.last().map_or(0.0, |point| point.0);
        VolumeRate::new::<cubic_meter_per_second>(last * running.speed_share.value)
    }

    /// Flow of the highest pressure; left of it a fan may surge. Zero when pressure only falls.
    pub fn stall_flow(&self, running: &Running) -> VolumeRate {
        let highest = self.points.iter().map(|point| point.1).fold(0.0, f64::max);
        // Left of the first point the pressure is held, so a curve that starts at its peak has no rising part.
        let peak = match self.points.first() {
            Some(first) if first.1 >= highest => 0.0,
            _ => self
                .points
                .iter()
                .find(|point| point.1 >= highest)
                .map_or(0.0, |point| point.0),
        };
        VolumeRate::new::<cubic_meter_per_second>(peak * running.speed_share.value)
    }

    /// Where the blower's curve crosses the pressure that `system` needs at a flow; `system` must rise from 0.
    ///
    /// Of several crossings the one with the largest flow is given: the stable one.
    pub fn working_point(
        &self,
        running: &Running,
        system: impl Fn(VolumeRate) -> Pressure,
    ) -> WorkingPoint {
        let speed = running.speed_share.value;
        let factor = running.pressure_factor();
        let surplus = |flow: f64| {
            let rated = self.rated(flow).unwrap_or(0.0);
            let needed = system(VolumeRate::new::<cubic_meter_per_second>(flow * speed));
            rated * factor - needed.value
        };
        let last = self.points.last().map_or(0.0, |point| point.0);
        let mut high = last;
        let past_end = surplus(last) >= 0.0;
        let flow = if past_end {
            last
        } else {
            let low = self
                .points
                .iter()
                .rev()
                .skip(1)
                .map(|point| point.0)
                .find(|&flow| {
                    let holds = surplus(flow) >= 0.0;
                    if !holds {
                        high = flow;
                    }
                    holds
                })
                .unwrap_or(0.0);
            bracketed(low, high, 1.0e-7 * last, surplus).map_or(low, |root| root.at)
        };
        let stall = self.stall_flow(running).value;
        let pressure = self.rated(flow).unwrap_or(0.0) * factor;
        WorkingPoint {
            flow: VolumeRate::new::<cubic_meter_per_second>(flow * speed),
            pressure: Pressure::new::<pascal>(pressure),
            past_end,
            stall_margin: (stall > 0.0).then(|| flow * speed / stall - 1.0),
        }
    }

    /// The speed at which the blower makes a pressure at a flow, as a share of rated speed; none when five times the
    /// rated speed is not enough.
    pub fn speed_needed(
        &self,
        density: MassDensity,
        flow: VolumeRate,
        pressure: Pressure,
    ) -> Option<Ratio> {
        let last = self.points.last()?.0;
        let slowest = flow.value / last;
        let surplus = |speed: f64| {
            let rated = self.rated((flow.value / speed).min(last)).unwrap_or(0.0);
            rated * speed * speed * density.value / CURVE_DENSITY - pressure.value
        };
        let speed = if surplus(slowest) >= 0.0 {
            slowest
        } else {
            bracketed(slowest, FASTEST, 1.0e-6, surplus).ok()?.at
        };
        (speed <= FASTEST).then(|| Ratio::new::<ratio>(speed))
    }
}

/// Power of a blower at a working point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BlowerPower {
    /// Power given to the gas: pressure times flow.
    pub air: Power,
    /// Power at the shaft.
    pub shaft: Power,
    /// Electric power drawn.
    pub electric: Power,
}

/// Power from flow, pressure and the two efficiencies.
///
/// ```
/// use hearthplan::sizing::blower::blower_power;
/// use uom::si::{f64::*, power::watt, pressure::pascal, ratio::ratio, volume_rate::cubic_meter_per_second};
/// let power = blower_power(
///     VolumeRate::new::<cubic_meter_per_second>(0.01),
///     Pressure::new::<pascal>(1000.0),
///     Ratio::new::<ratio>(0.4),
///     Ratio::new::<ratio>(0.5),
/// );
/// assert!((power.electric.get::<watt>() - 50.0).abs() < 1e-9);
/// ```
pub fn blower_power(
    flow: VolumeRate,
    pressure: Pressure,
    efficiency: Ratio,
    motor_efficiency: Ratio,
) -> BlowerPower {
    let air = Power::new::<watt>(flow.value * pressure.value);
    let shaft = air / efficiency;
    BlowerPower {
        air,
        shaft,
        electric: shaft / motor_efficiency,
    }
}
