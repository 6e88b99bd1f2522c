//! How long does the battery carry the load?

use super::names::Words;
use crate::design::Design;
use crate::design::inputs::Chemistry;
use uom::si::electric_charge::ampere_hour;
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::f64::{
    ElectricCharge, ElectricCurrent, ElectricPotential, Mass, Power, Ratio,
    ThermodynamicTemperature, Time,
};
use uom::si::mass::kilogram;
use uom::si::ratio::ratio;
use uom::si::time::second;

/// What a battery is this warm or warmer when it gives the charge of its label, K: 25 °C (common practice, no source).
pub const WARM: f64 = 298.15;
/// Share of its charge that a battery gives less for each kelvin below that (lead-acid: common practice, from memory;
/// lithium loses no more).
pub const LOST_PER_KELVIN: f64 = 0.01;

/// Share of its charge that a battery gives when it is as cold as that.
///
/// ```
/// use hearthplan::sizing::battery::left_in_the_cold;
/// use uom::si::{f64::ThermodynamicTemperature, thermodynamic_temperature::degree_celsius};
/// let at = |celsius| left_in_the_cold(ThermodynamicTemperature::new::<degree_celsius>(celsius)).value;
/// assert!((at(-20.0) - 0.55).abs() < 1e-9);
/// assert_eq!(at(30.0), 1.0);
/// ```
pub fn left_in_the_cold(temperature: ThermodynamicTemperature) -> Ratio {
    let left = 1.0 - LOST_PER_KELVIN * (WARM - temperature.value);
    Ratio::new::<ratio>(left.clamp(0.0, 1.0))
}

/// A battery as its label describes it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BatteryBank {
    /// Nominal voltage.
    pub voltage: ElectricPotential,
    /// Charge that it gives at the rated time: that of the label, less what age and cold take.
    pub capacity: ElectricCharge,
    /// Discharge time the label is given for.
    pub rated_time: Time,
    /// Peukert exponent: 1 for an ideal battery, about 1.2 for lead-acid (common practice, no source).
    pub peukert: f64,
    /// Share of the charge that may be used.
    pub usable_share: Ratio,
}

impl BatteryBank {
    /// Current at a steady load.
    pub fn current(&self, load: Power) -> ElectricCurrent {
        ElectricCurrent::new::<ampere>(load.value / self.voltage.value)
    }

    /// Time a steady load can be carried; none when there is no load.
    ///
    /// Peukert, Elektrotechnische Zeitschrift 20, 1897: `t = u H (C / (I H))^k`. A discharge slower than the label's
    /// gives no more than the label's charge.
    ///
    /// ```
    /// use hearthplan::sizing::battery::BatteryBank;
    /// use uom::si::{electric_charge::ampere_hour, electric_potential::volt, f64::*, power::watt, ratio::ratio, time::hour};
    /// let battery = BatteryBank {
    ///     voltage: ElectricPotential::new::<volt>(12.0),
    ///     capacity: ElectricCharge::new::<ampere_hour>(100.0),
    ///     rated_time: Time::new::<hour>(20.0),
    ///     peukert: 1.2,
    ///     usable_share: Ratio::new::<ratio>(0.5),
    /// };
    /// // Twice the rated current of 5 A: 20 h · 0.5^1.2 · 0.5 = 4.35 h.
    /// let time = battery.time(Power::new::<watt>(120.0)).unwrap();
    /// assert!((time.get::<hour>() - 4.353).abs() < 0.001);
    /// ```
    pub fn time(&self, load: Power) -> Option<Time> {
        let current = self.current(load).value;
        if current.is_nan() || current <= 0.0 {
            return None;
        }
        let ideal = self.capacity.value / current;
        // (C / (I H))^(k − 1): the share of the label's charge that a fast discharge leaves.
        let left = (ideal / self.rated_time.value)
            .powf(self.peukert - 1.0)
            .min(1.0);
        Some(Time::new::<second>(ideal * left * self.usable_share.value))
    }
}

/// The lightest battery of a kind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lightest {
    /// Its mass.
    pub mass: Mass,
    /// Its charge.
    pub capacity: ElectricCharge,
    /// Its voltage.
    pub voltage: ElectricPotential,
}

impl Lightest {
    /// Of this kind: of 100 Ah at 12 V, 20 kg of lead-acid and 10 kg of lithium iron phosphate (common practice, no source).
    pub fn of(chemistry: Chemistry) -> Self {
        let kilograms = match chemistry {
            Chemistry::LeadAcid => 20.0,
            Chemistry::Lithium => 10.0,
        };
        Self {
            mass: Mass::new::<kilogram>(kilograms),
            capacity: ElectricCharge::new::<ampere_hour>(100.0),
            voltage: ElectricPotential::new::<volt>(12.0),
        }
    }

    /// The least that one of this charge and voltage weighs: mass goes with the energy.
    ///
    /// ```
    /// use hearthplan::design::inputs::Chemistry;
    /// use hearthplan::sizing::battery::Lightest;
    /// use uom::si::{electric_charge::ampere_hour, electric_potential::volt, f64::*, mass::kilogram};
    /// let lead = Lightest::of(Chemistry::LeadAcid);
    /// let (charge, voltage) = (ElectricCharge::new::<ampere_hour>(70.0), ElectricPotential::new::<volt>(24.0));
    /// assert!((lead.mass_for(charge, voltage).get::<kilogram>() - 28.0).abs() < 1e-9);
    /// ```
    pub fn mass_for(&self, capacity: ElectricCharge, voltage: ElectricPotential) -> Mass {
        self.mass * (capacity / self.capacity).value * (voltage / self.voltage).value
    }
}

/// What belongs to a battery, but is none.
const BESIDE_IT: [&str; 10] = [
    "box", "tray", "cable", "charger", "switch", "shield", "sheet", "holder", "frame", "guard",
];

/// The parts that by their name are the battery, by their places.
pub fn parts_named_battery(design: &Design) -> impl Iterator<Item = usize> {
    let is_battery = |name: &str| {
        let words = Words::of(name);
        let says_one_of = |those: &[&str]| those.iter().any(|word| words.say_it_is(word));
        says_one_of(&["battery", "batterie"]) && !says_one_of(&BESIDE_IT)
    };
    (design.parts.iter().enumerate())
        .filter(move |(_, part)| is_battery(&part.name))
        .map(|(place, _)| place)
}
