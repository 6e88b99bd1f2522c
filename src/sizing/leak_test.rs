//! How much may leak, how is it measured, and what do the readings say?
//!
//! A sub-assembly is closed, pumped up a little with air, and left alone. What it loses, less what its
//! temperature makes it seem to lose, is the leak. Flows count at 0 °C and 101.325 kPa, like the gas
//! flow. Ideal gas; both readings of pressure are above that of the room.
//!
//! One kelvin of drift looks like a few hundred pascal, usually more than the leak. So each result comes with
//! its uncertainty, and where that hides the answer the answer is that it cannot be told.
//!
//! Test with air only, never with oxygen or fuel gas; fit a relief valve; stay clear of flat panels.

use crate::design::Design;
use crate::design::inputs::Group;
use crate::physics::air;
use crate::physics::error::{PhysicsError, within};
use crate::physics::normal_state::{self, AIR_DENSITY};
use std::f64::consts::PI;
use uom::si::f64::{
    Energy, Length, MassDensity, Pressure, TemperatureInterval, ThermodynamicTemperature, Time,
    Volume, VolumeRate,
};
use uom::si::{
    energy::joule, length::meter, mass_density::kilogram_per_cubic_meter, pressure::pascal,
    time::second, volume_rate::cubic_meter_per_second,
};

/// Discharge coefficient of a sharp hole. Common practice, no source.
const DISCHARGE: f64 = 0.61;
/// How many standard uncertainties the result is given with: about 95 of 100.
const COVERAGE: f64 = 2.0;
/// The hold is long enough when the uncertainty is the budget over this. Our own mark.
const BUDGET_OVER_UNCERTAINTY: f64 = 3.0;
/// The mean pressure that drives a leak is at least this share of the test pressure. Our own mark.
const DRIVEN: f64 = 0.5;
/// What seems to come in may be this share of the budget: a thermometer that is slower than the air inside, or hangs beside
/// the vessel, makes that much of nothing. Our own mark.
pub const FEW_GAINS: f64 = 0.02;
/// A reading needs a minute for the air to come to rest. Our own mark, s.
const SHORTEST_HOLD: f64 = 60.0;

/// Two readings of a closed vessel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Decay {
    /// Air inside, 10⁻⁵ to 100 m³.
    pub volume: Volume,
    /// Air pressure outside at the start, 20 to 120 kPa.
    pub outside: Pressure,
    /// Gauge pressure at the start, −50 to 100 kPa.
    pub first_pressure: Pressure,
    /// Temperature at the start, 200 to 400 K.
    pub first_temperature: ThermodynamicTemperature,
    /// Gauge pressure at the end, −50 to 100 kPa.
    pub second_pressure: Pressure,
    /// Temperature at the end, 200 to 400 K.
    pub second_temperature: ThermodynamicTemperature,
    /// Rise of the air pressure outside between the readings, −10 to 10 kPa.
    pub outside_change: Pressure,
    /// Time between the readings, 0.1 to 10⁶ s.
    pub time: Time,
    /// Smallest step of the gauge, 0 to 10 kPa; a reading may be off by one step either way.
    pub gauge_step: Pressure,
    /// Smallest step of the thermometer, 0 to 10 K; likewise.
    pub thermometer_step: TemperatureInterval,
}

/// What two readings say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leak {
    /// Mean leak between the readings, at the normal state; negative when it seems to gain air.
    pub rate: VolumeRate,
    /// The leak as it would be told without looking at the thermometer.
    pub rate_without_temperature: VolumeRate,
    /// How far the true leak may be from `rate`, about 95 times of 100.
    pub uncertainty: VolumeRate,
    /// Gauge pressure that drives the mean leak.
    pub driving: Pressure,
    /// The same if both readings were one step of the gauge too high.
    pub surely_driving: Pressure,
    /// Density of the air inside at that pressure.
    pub density: MassDensity,
    /// Change of pressure that the change of temperature alone makes.
    pub thermal_change: Pressure,
    /// Diameter of one sharp round hole that leaks as much; none when nothing is lost.
    pub hole_diameter: Option<Length>,
}

/// Whether a leak keeps to its budget.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tightness {
    /// Leak and uncertainty together are within the budget.
    Pass,
    /// The leak less its uncertainty is above the budget.
    Fail,
    /// The uncertainty hides the answer.
    CannotTell,
}

impl Decay {
    /// Leak = V T₀ / (p₀ Δt) × (p₁/T₁ − p₂/T₂), p absolute. Readings are off by one step at most, equally
    /// likely anywhere (GUM, JCGM 100:2008, 4.3.7), and independent; the thermometer's constant error
    /// cancels. For a small hole √Δp falls evenly in time, which gives the driving pressure.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`] naming the value at fault.
    ///
    /// ```
    /// use hearthplan::sizing::leak_test::Decay;
    /// use uom::si::{f64::*, pressure::pascal, temperature_interval::kelvin as k, time::second};
    /// use uom::si::{thermodynamic_temperature::kelvin, volume::liter, volume_rate::cubic_meter_per_second};
    /// // 100 L at 273.15 K lose 101.325 Pa in 100 s: 0.1 L of normal air, 1 mL/s.
    /// let decay = Decay {
    ///     volume: Volume::new::<liter>(100.0),
    ///     outside: Pressure::new::<pascal>(101_325.0),
    ///     first_pressure: Pressure::new::<pascal>(3_500.0),
    ///     first_temperature: ThermodynamicTemperature::new::<kelvin>(273.15),
    ///     second_pressure: Pressure::new::<pascal>(3_398.675),
    ///     second_temperature: ThermodynamicTemperature::new::<kelvin>(273.15),
    ///     outside_change: Pressure::new::<pascal>(0.0),
    ///     time: Time::new::<second>(100.0),
    ///     gauge_step: Pressure::new::<pascal>(10.0),
    ///     thermometer_step: TemperatureInterval::new::<k>(0.0),
    /// };
    /// let leak = decay.leak()?;
    /// assert!((leak.rate.get::<cubic_meter_per_second>() - 1e-6).abs() < 1e-12);
    /// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
    /// ```
    pub fn leak(&self) -> Result<Leak, PhysicsError> {
        let volume = within("volume", "m³", self.volume.value, 1e-5, 100.0)?;
        let outside = within("air pressure", "Pa", self.outside.value, 2e4, 1.2e5)?;
        let gauge = |value: Pressure| within("pressure", "Pa", value.value, -5e4, 1e5);
        let kelvins =
            |value: ThermodynamicTemperature| within("temperature", "K", value.value, 200.0, 400.0);
        let (first, second_gauge) = (gauge(self.first_pressure)?, gauge(self.second_pressure)?);
        let (t1, t2) = (
            kelvins(self.first_temperature)?,
            kelvins(self.second_temperature)?,
        );
        let change = within(
            "change of the barometer",
            "Pa",
            self.outside_change.value,
            -1e4,
            1e4,
        )?;
        let time = within("time", "s", self.time.value, 0.1, 1e6)?;
        let (p1, p2) = (outside + first, outside + change + second_gauge);
        let standard = volume * normal_state::TEMPERATURE / (normal_state::PRESSURE * time);
        let rate = standard * (p1 / t1 - p2 / t2);
        let step = within("gauge step", "Pa", self.gauge_step.value, 0.0, 1e4)?;
        let spread = reading_spread(
            step,
            within(
                "thermometer step",
                "kelvin",
                self.thermometer_step.value,
                0.0,
                10.0,
            )?,
            [(p1, t1), (p2, t2)],
        );
        let mean = |off: f64| (0.5 * (root(first - off) + root(second_gauge - off))).powi(2);
        let driving = mean(0.0);
        let inside = (outside + driving) / (air::GAS_CONSTANT * 0.5 * (t1 + t2));
        let hole = (rate > 0.0 && driving > 0.0)
            .then(|| rate * AIR_DENSITY / (DISCHARGE * (2.0 * inside * driving).sqrt()));
        let flow = VolumeRate::new::<cubic_meter_per_second>;
        Ok(Leak {
            rate: flow(rate),
            rate_without_temperature: flow(standard * (p1 - p2) / t1),
            uncertainty: flow(COVERAGE * standard * spread),
            driving: Pressure::new::<pascal>(driving),
            surely_driving: Pressure::new::<pascal>(mean(step)),
            density: MassDensity::new::<kilogram_per_cubic_meter>(inside),
            thermal_change: Pressure::new::<pascal>(p1 * (t2 / t1 - 1.0)),
            hole_diameter: hole.map(|area| Length::new::<meter>((4.0 * area / PI).sqrt())),
        })
    }
}

/// Root of a pressure that drives outwards.
fn root(gauge: f64) -> f64 {
    gauge.max(0.0).sqrt()
}

/// Standard uncertainty of p₁/T₁ − p₂/T₂, Pa/K, for readings that are off by one step at most.
fn reading_spread(gauge_step: f64, thermometer_step: f64, readings: [(f64, f64); 2]) -> f64 {
    let rectangular = 3.0_f64.sqrt();
    let (of_gauge, of_thermometer) = (gauge_step / rectangular, thermometer_step / rectangular);
    readings
        .into_iter()
        .map(|(p, t)| (of_gauge / t).powi(2) + (p * of_thermometer / (t * t)).powi(2))
        .sum::<f64>()
        .sqrt()
}

impl Leak {
    /// Compares leak and uncertainty with a budget; readings that are [unfit](Self::unfit) pass
    /// nothing. Where less drives the leak than in service it is smaller than there:
    /// [`most_at`](Self::most_at) tells by how much.
    pub fn against(&self, budget: VolumeRate, test_pressure: Pressure) -> Tightness {
        if self.rate - self.uncertainty > budget {
            Tightness::Fail
        } else if self.rate + self.uncertainty <= budget
            && self.unfit(budget, test_pressure).is_none()
        {
            Tightness::Pass
        } else {
            Tightness::CannotTell
        }
    }

    /// The most it may leak, uncertainty included, where a stronger pressure drives it: through a narrow
    /// crack the leak grows with the pressure, through a hole with its root. None where the test was
    /// driven as strongly, or by nothing.
    pub fn most_at(&self, pressure: Pressure) -> Option<VolumeRate> {
        let weaker = self.driving < pressure && self.driving.value > 0.0;
        weaker.then(|| (self.rate + self.uncertainty) * (pressure / self.driving))
    }

    /// Whether it seems to gain air, by more than the readings may be off.
    pub fn gains(&self) -> bool {
        self.rate < -self.uncertainty
    }

    /// Why readings cannot show that anything keeps to a budget, with the test pressure as it was planned.
    pub fn unfit(&self, budget: VolumeRate, test_pressure: Pressure) -> Option<Unfit> {
        if self.surely_driving < least_driving(test_pressure) {
            Some(Unfit::Undriven)
        } else if self.gains() && -self.rate > FEW_GAINS * budget {
            Some(Unfit::Gains)
        } else {
            None
        }
    }
}

/// The least mean pressure that may drive a leak, with the test pressure as it was planned.
///
/// ```
/// use hearthplan::sizing::leak_test::least_driving;
/// use uom::si::{f64::Pressure, pressure::pascal};
/// assert_eq!(least_driving(Pressure::new::<pascal>(3_000.0)), Pressure::new::<pascal>(1_500.0));
/// ```
pub fn least_driving(test_pressure: Pressure) -> Pressure {
    DRIVEN * test_pressure
}

/// Why two readings cannot show that anything is tight.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unfit {
    /// Too little pressure drove the leak: it was low from the start, or gone long before the end. What leaked is less
    /// than it would be at the test pressure.
    Undriven,
    /// It seems to gain air, by more than the readings may be off and by a noticeable part of the budget.
    Gains,
}

/// What a sub-assembly may leak, and how it is tested.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroupBudget {
    /// The sub-assembly.
    pub group: Group,
    /// Length of tight joints that count for it; a joint between two counts half for each.
    pub joint_length: Length,
    /// Air it may leak, at the normal state.
    pub budget: VolumeRate,
}

/// Shares the leak allowed in the whole machine by length of joint.
///
/// ```
/// use hearthplan::{design::Design, sizing::leak_test::budgets};
/// use uom::si::{f64::VolumeRate, volume_rate::cubic_meter_per_hour};
/// let allowed = VolumeRate::new::<cubic_meter_per_hour>(0.3);
/// let shared: f64 = budgets(&Design::default(), allowed).iter().map(|one| one.budget.value).sum();
/// assert!((shared - allowed.value).abs() < 1e-15);
/// ```
pub fn budgets(design: &Design, allowed: VolumeRate) -> Vec<GroupBudget> {
    let mut shares: Vec<(Group, f64)> = Vec::new();
    let mut total = 0.0;
    for joint in design.joints.iter().filter(|joint| joint.airtight) {
        for group in [joint.first, joint.second] {
            let half = 0.5 * joint.length.value;
            total += half;
            match shares.iter_mut().find(|(other, _)| *other == group) {
                Some((_, length)) => *length += half,
                None => shares.push((group, half)),
            }
        }
    }
    shares.sort_by_key(|(group, _)| *group);
    shares
        .into_iter()
        .filter(|(_, length)| *length > 0.0)
        .map(|(group, length)| GroupBudget {
            group,
            joint_length: Length::new::<meter>(length),
            budget: allowed * (length / total),
        })
        .collect()
}

/// What a test is made with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TestMeans {
    /// Air inside, 10⁻⁵ to 100 m³.
    pub volume: Volume,
    /// Air pressure outside, 20 to 120 kPa.
    pub outside: Pressure,
    /// Test pressure above that, 0.1 to 100 kPa.
    pub pressure: Pressure,
    /// Temperature of the workshop, 200 to 400 K.
    pub temperature: ThermodynamicTemperature,
    /// Smallest step of the gauge, 0 to 10 kPa.
    pub gauge_step: Pressure,
    /// Smallest step of the thermometer, 0 to 10 K.
    pub thermometer_step: TemperatureInterval,
    /// What sucks at a leak in service; none where nobody knows.
    pub suction: Option<Pressure>,
}

/// How a sub-assembly is tested.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TestPlan {
    /// Shortest time between the readings that tells the budget from the error of the readings.
    pub needed: Time,
    /// Time to wait: the shortest, and a minute at least, or less if half of the pressure is lost before that at the
    /// budget.
    pub hold: Time,
    /// Loss of pressure in that time at the budget, as if the leak stayed as large; all of it at most.
    pub loss_at_budget: Pressure,
    /// The most that may be lost in that time, in whole steps of the gauge, so that the readings pass: the error of the
    /// readings is taken off, and what leaks more in service than while the pressure falls. None where not even readings
    /// without any loss would pass, since too little pressure drives the leak or the test takes weeks.
    pub allowed_loss: Option<Pressure>,
    /// What the readings may be off by, at that loss, as a leak; nothing where none passes.
    pub uncertainty: VolumeRate,
    /// Pressure that drives the leak on average, at that loss; nothing where none passes.
    pub driving: Pressure,
    /// Change of pressure that one kelvin alone makes.
    pub per_kelvin: Pressure,
    /// Energy stored in the air at test pressure, p V ln(p/pₐ).
    pub stored_energy: Energy,
}

impl TestMeans {
    /// The plan for a budget at the normal state, 10⁻⁹ to 1 m³/s. The uncertainty of the result may
    /// be a third of what passes: of the budget, or of what of it leaks in the test where that is driven by less than
    /// in service.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`] naming the value at fault.
    pub fn plan(&self, budget: VolumeRate) -> Result<TestPlan, PhysicsError> {
        let volume = within("volume", "m³", self.volume.value, 1e-5, 100.0)?;
        let outside = within("air pressure", "Pa", self.outside.value, 2e4, 1.2e5)?;
        let gauge = within("test pressure", "Pa", self.pressure.value, 100.0, 1e5)?;
        let temperature = within("temperature", "K", self.temperature.value, 200.0, 400.0)?;
        let allowed = within("leak allowed", "m³/s", budget.value, 1e-9, 1.0)?;
        let inside = outside + gauge;
        let spread = reading_spread(
            within("gauge step", "Pa", self.gauge_step.value, 0.0, 1e4)?,
            within(
                "thermometer step",
                "kelvin",
                self.thermometer_step.value,
                0.0,
                10.0,
            )?,
            [(inside, temperature); 2],
        );
        let standard = volume * normal_state::TEMPERATURE / normal_state::PRESSURE;
        let driven = (self.suction).map_or(1.0, |suction| (self.pressure / suction).value.min(1.0));
        let in_test = allowed * driven.max(DRIVEN);
        let needed = BUDGET_OVER_UNCERTAINTY * COVERAGE * standard * spread / in_test;
        // Were all pressure gone in time at the budget, the test could not fail.
        let half_lost = 0.5 * gauge * standard / (allowed * temperature);
        let hold = Time::new::<second>(needed.max(SHORTEST_HOLD.min(half_lost)));
        let loss_at_budget = (allowed * hold.value * temperature / standard).min(gauge);
        // Nobody reads a test that takes weeks: where no reading could be judged, none passes.
        let loss = self.most_lost(budget, hold, loss_at_budget);
        let loss = loss.unwrap_or_default();
        let at_loss = loss.and_then(|loss| self.after(hold, loss).leak().ok());
        Ok(TestPlan {
            needed: Time::new::<second>(needed),
            hold,
            loss_at_budget: Pressure::new::<pascal>(loss_at_budget),
            allowed_loss: loss.map(|loss| in_steps(loss, self.gauge_step)),
            uncertainty: at_loss.map_or(VolumeRate::default(), |leak| leak.uncertainty),
            driving: at_loss.map_or(Pressure::default(), |leak| leak.driving),
            per_kelvin: Pressure::new::<pascal>(inside / temperature),
            stored_energy: stored_energy(self.volume, self.outside, self.pressure),
        })
    }

    /// The readings of a test that lost so much, at the same temperature.
    fn after(&self, hold: Time, loss: Pressure) -> Decay {
        Decay {
            volume: self.volume,
            outside: self.outside,
            first_pressure: self.pressure,
            first_temperature: self.temperature,
            second_pressure: self.pressure - loss,
            second_temperature: self.temperature,
            outside_change: Pressure::default(),
            time: hold,
            gauge_step: self.gauge_step,
            thermometer_step: self.thermometer_step,
        }
    }

    /// The largest loss up to `most` whose readings pass; none where not even those without any loss do.
    fn most_lost(
        &self,
        budget: VolumeRate,
        hold: Time,
        most: f64,
    ) -> Result<Option<Pressure>, PhysicsError> {
        let wanted = (self.suction).map_or(self.pressure, |suction| suction.max(self.pressure));
        let passes = |loss: f64| {
            let leak = self.after(hold, Pressure::new::<pascal>(loss)).leak()?;
            let in_service = self.suction.and_then(|suction| leak.most_at(suction));
            Ok(leak.against(budget, wanted) == Tightness::Pass
                && in_service.is_none_or(|leak| leak <= budget))
        };
        if !passes(0.0)? {
            return Ok(None);
        }
        let (mut good, mut bad) = (0.0, most);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (good + bad);
            if passes(middle)? {
                good = middle;
            } else {
                bad = middle;
            }
        }
        Ok(Some(Pressure::new::<pascal>(good)))
    }
}

/// How often the range of a search is halved: to a millionth of it, while gauges tell some hundredths.
const HALVINGS: u32 = 20;

/// A pressure in whole steps of a gauge, rounded down.
fn in_steps(pressure: Pressure, step: Pressure) -> Pressure {
    let steps = (pressure / step).value.floor();
    if steps.is_finite() {
        step * steps
    } else {
        pressure
    }
}

/// Energy that air stored in a volume at a gauge pressure gives back at most, p V ln(p/pₐ): expanding at
/// one temperature (from memory: any textbook of thermodynamics). 0 where nothing is stored.
///
/// ```
/// use hearthplan::sizing::leak_test::stored_energy;
/// use uom::si::{f64::*, pressure::pascal, volume::liter};
/// let found = stored_energy(
///     Volume::new::<liter>(80.0),
///     Pressure::new::<pascal>(101_325.0),
///     Pressure::new::<pascal>(3_500.0),
/// );
/// assert!((found.value - 284.8).abs() < 0.5);
/// ```
pub fn stored_energy(volume: Volume, outside: Pressure, gauge: Pressure) -> Energy {
    let inside = outside + gauge;
    let energy = inside.value * volume.value * (inside / outside).value.ln();
    Energy::new::<joule>(if energy.is_finite() {
        energy.max(0.0)
    } else {
        0.0
    })
}
