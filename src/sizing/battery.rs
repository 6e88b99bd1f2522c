//! How long does the battery carry the load?

use uom::si::electric_current::ampere;
use uom::si::f64::{ElectricCharge, ElectricCurrent, ElectricPotential, Power, Ratio, Time};
use uom::si::time::second;

/// A battery as its label describes it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BatteryBank {
    /// Nominal voltage.
    pub voltage: ElectricPotential,
    /// Charge on the label.
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
