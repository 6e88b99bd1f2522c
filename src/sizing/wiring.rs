//! Which cable and which fuse does a load need, and how much voltage is lost on the way?
//!
//! Copper, direct current, out and back. The fuse protects the cable: it may not be greater than what the cable carries,
//! and the load may take no more than four fifths of it (common practice, no source).

use super::conductor_table::{FUSES, GAUGES, METRIC};
use crate::design::quantity::{SAME_SECTION, wire_gauge_diameter, wire_gauge_name};
use crate::physics::error::{PhysicsError, range, within};
use std::f64::consts::PI;
use thiserror::Error;
use uom::si::area::square_meter;
use uom::si::electric_current::ampere;
use uom::si::electrical_resistance::ohm;
use uom::si::f64::{
    Area, ElectricCurrent, ElectricPotential, ElectricalResistance, Length, Power, Ratio,
    ThermodynamicTemperature,
};
use uom::si::length::meter;
use uom::si::power::watt;
use uom::si::ratio::ratio;

/// Resistivity of annealed copper at 20 °C, Ω·m (IEC 60028).
pub const COPPER_RESISTIVITY: f64 = 1.724e-8;
/// Growth of copper's resistance per kelvin from 20 °C (IEC 60028, from memory).
const COPPER_GROWTH: f64 = 0.003_93;
/// Temperature that resistances are given for, K.
const TWENTY_CELSIUS: f64 = 293.15;
/// Air around the cable that currents are given for, K: 40 °C.
const RATED_AIR: f64 = 313.15;
/// Hottest conductor that PVC insulation stands, K: 70 °C (IEC 60204-1, from memory).
const HOTTEST_CONDUCTOR: f64 = 343.15;
/// Greatest share of a fuse's rating that a steady load takes (common practice, no source).
pub const FUSE_LOADING: f64 = 0.8;

/// How cable is named where it is bought.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SizeSystem {
    /// Square millimetres.
    Metric,
    /// American wire gauge.
    Gauge,
}

/// Name of a conductor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ConductorName {
    /// Section in mm².
    SquareMillimetres(f64),
    /// American wire gauge.
    Gauge(i32),
}

impl ConductorName {
    /// The name as it is said where cable is sold.
    ///
    /// ```
    /// use hearthplan::sizing::wiring::ConductorName;
    /// assert_eq!(ConductorName::SquareMillimetres(2.5).label(), "2.5 mm²");
    /// assert_eq!(ConductorName::Gauge(12).label(), "AWG 12");
    /// ```
    pub fn label(self) -> String {
        match self {
            ConductorName::SquareMillimetres(section) => {
                format!("{} mm²", (section * 100.0).round() / 100.0)
            }
            ConductorName::Gauge(gauge) => wire_gauge_name(gauge),
        }
    }
}

/// A copper conductor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conductor {
    /// Name.
    pub name: ConductorName,
    /// Section.
    pub area: Area,
    /// Current it carries for ever with 40 °C around it.
    pub rated_current: ElectricCurrent,
    /// Ω/m at 20 °C.
    pub per_metre: f64,
}

/// Diameter of a solid wire of a gauge, -3 (0000) to 40.
///
/// ASTM B258: 0.005 in at gauge 36, 0.46 in at gauge 0000, 39 equal ratios between.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] outside these gauges.
///
/// ```
/// use hearthplan::sizing::wiring::gauge_diameter;
/// use uom::si::length::millimeter;
/// assert!((gauge_diameter(10)?.get::<millimeter>() - 2.588).abs() < 0.001);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn gauge_diameter(gauge: i32) -> Result<Length, PhysicsError> {
    let gauge = within("wire gauge", "AWG", f64::from(gauge), -3.0, 40.0)?;
    Ok(Length::new::<meter>(wire_gauge_diameter(gauge)))
}

/// Resistance of a length of solid copper at a conductor temperature.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] for a section not within 0.01 to 1000 mm², a length not within 0 to 1000 m, a temperature
/// not within −50 to 150 °C.
///
/// ```
/// use hearthplan::sizing::wiring::copper_resistance;
/// use uom::si::{area::square_millimeter, electrical_resistance::milliohm, f64::*, length::meter};
/// use uom::si::thermodynamic_temperature::degree_celsius;
/// let found = copper_resistance(
///     Area::new::<square_millimeter>(2.5),
///     Length::new::<meter>(6.0),
///     ThermodynamicTemperature::new::<degree_celsius>(20.0),
/// )?;
/// assert!((found.get::<milliohm>() - 41.376).abs() < 0.001);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn copper_resistance(
    area: Area,
    length: Length,
    temperature: ThermodynamicTemperature,
) -> Result<ElectricalResistance, PhysicsError> {
    let area = within("section of the conductor", "m²", area.value, 1e-8, 1e-3)?;
    resistance(COPPER_RESISTIVITY / area, length, temperature)
}

/// Ohms of a length whose `per_metre` at 20 °C is known.
fn resistance(
    per_metre: f64,
    length: Length,
    temperature: ThermodynamicTemperature,
) -> Result<ElectricalResistance, PhysicsError> {
    let length = within("length of the cable", "m", length.value, 0.0, 1000.0)?;
    let temperature = within(
        "temperature of the conductor",
        "K",
        temperature.value,
        223.15,
        423.15,
    )?;
    let growth = 1.0 + COPPER_GROWTH * (temperature - TWENTY_CELSIUS);
    Ok(ElectricalResistance::new::<ohm>(
        per_metre * length * growth,
    ))
}

impl Conductor {
    /// Conductors of the table, thinnest first.
    ///
    /// A gauge carries what the next thinner metric conductor carries.
    pub fn all(system: SizeSystem) -> Vec<Conductor> {
        match system {
            SizeSystem::Metric => METRIC
                .iter()
                .map(|row| Conductor {
                    name: ConductorName::SquareMillimetres(row.section),
                    area: Area::new::<square_meter>(row.section * 1e-6),
                    rated_current: ElectricCurrent::new::<ampere>(row.current),
                    per_metre: row.resistance * 1e-3,
                })
                .collect(),
            SizeSystem::Gauge => GAUGES
                .iter()
                .filter_map(|gauge| {
                    let diameter = gauge_diameter(*gauge).ok()?.value;
                    let area = 0.25 * PI * diameter * diameter;
                    let thinner = METRIC.iter().rev().find(|row| row.section * 1e-6 <= area)?;
                    Some(Conductor {
                        name: ConductorName::Gauge(*gauge),
                        area: Area::new::<square_meter>(area),
                        rated_current: ElectricCurrent::new::<ampere>(thinner.current),
                        per_metre: COPPER_RESISTIVITY / area,
                    })
                })
                .collect(),
        }
    }

    /// A conductor of any section: that of the tables where it is one of them within a hundredth.
    ///
    /// Between the tables' sections it has the resistance of solid copper and carries what the next thinner one carries;
    /// thinner than all of them it carries less in step with its section.
    ///
    /// ```
    /// use hearthplan::sizing::wiring::{Conductor, ConductorName};
    /// use uom::si::{area::square_millimeter, electric_current::ampere, f64::Area};
    /// let found = Conductor::of(Area::new::<square_millimeter>(3.0));
    /// assert_eq!(found.name, ConductorName::SquareMillimetres(3.0));
    /// assert_eq!(found.rated_current.get::<ampere>(), 18.3);
    /// let gauge = Conductor::of(Area::new::<square_millimeter>(3.31));
    /// assert_eq!(gauge.name, ConductorName::Gauge(12));
    /// ```
    pub fn of(area: Area) -> Conductor {
        let close = |known: &Conductor| (known.area / area).value;
        let sold = [SizeSystem::Metric, SizeSystem::Gauge]
            .into_iter()
            .flat_map(Conductor::all)
            .find(|known| (close(known) - 1.0).abs() < SAME_SECTION);
        if let Some(sold) = sold {
            return sold;
        }
        let square_millimetres = area.value * 1e6;
        let thinner = METRIC
            .iter()
            .rev()
            .find(|row| row.section <= square_millimetres);
        let current = match (thinner, METRIC.first()) {
            (Some(row), _) => row.current,
            (None, Some(thinnest)) => thinnest.current * square_millimetres / thinnest.section,
            (None, None) => 0.0,
        };
        Conductor {
            name: ConductorName::SquareMillimetres(square_millimetres),
            area,
            rated_current: ElectricCurrent::new::<ampere>(current),
            per_metre: COPPER_RESISTIVITY / area.value,
        }
    }

    /// The thinnest gauge sold that is no thinner than a section in mm²; none for what is a gauge, and for what is thicker
    /// than all of them. It loses less voltage and carries no less.
    ///
    /// ```
    /// use hearthplan::sizing::wiring::{Conductor, ConductorName, SizeSystem};
    /// let gauges: Vec<_> = (Conductor::all(SizeSystem::Metric).iter())
    ///     .map(Conductor::gauge_no_thinner)
    ///     .collect();
    /// assert_eq!(gauges[0], Some(ConductorName::Gauge(18)));
    /// assert_eq!(gauges[3], Some(ConductorName::Gauge(12)));
    /// assert_eq!(Conductor::all(SizeSystem::Gauge)[0].gauge_no_thinner(), None);
    /// ```
    pub fn gauge_no_thinner(&self) -> Option<ConductorName> {
        if matches!(self.name, ConductorName::Gauge(_)) {
            return None;
        }
        Conductor::all(SizeSystem::Gauge)
            .iter()
            .find(|gauge| gauge.area >= self.area)
            .map(|gauge| gauge.name)
    }

    /// Resistance of a length at a conductor temperature.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`] for a length not within 0 to 1000 m, a temperature not within −50 to 150 °C.
    pub fn resistance(
        &self,
        length: Length,
        temperature: ThermodynamicTemperature,
    ) -> Result<ElectricalResistance, PhysicsError> {
        resistance(self.per_metre, length, temperature)
    }

    /// Current it carries for ever with air of `around`: heat given off grows with the distance to 70 °C, heat made with
    /// the square of the current. None from 70 °C on.
    pub fn current_at(&self, around: ThermodynamicTemperature) -> ElectricCurrent {
        let room = (HOTTEST_CONDUCTOR - around.value) / (HOTTEST_CONDUCTOR - RATED_AIR);
        self.rated_current * room.max(0.0).sqrt()
    }
}

/// A load at the end of a cable.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Circuit {
    /// Power while it runs, 0 to 100 kW.
    pub power: Power,
    /// Share of the time it runs, 0 to 1.
    pub duty: Ratio,
    /// Voltage of the battery, 5 to 60 V.
    pub voltage: ElectricPotential,
    /// Length of the cable, one way, 0.05 to 100 m.
    pub length: Length,
    /// Share of the voltage that may be lost, 0.001 to 0.2.
    pub greatest_drop: Ratio,
    /// Hottest air along the cable, −40 to 65 °C.
    pub around: ThermodynamicTemperature,
}

/// Why no cable was found.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum WiringError {
    /// A number is out of range.
    #[error("{quantity} must lie {}", range(.unit, [*.low, *.high]))]
    OutOfRange {
        /// What was given, in words.
        quantity: &'static str,
        /// Unit of the numbers.
        unit: &'static str,
        /// Least value accepted.
        low: f64,
        /// Greatest value accepted.
        high: f64,
    },
    /// The load takes more than the thickest cable of the table carries, or loses too much voltage in it.
    #[error("no cable of the table is thick enough: shorten it, or use 24 V")]
    NoCable,
}

impl From<PhysicsError> for WiringError {
    fn from(why: PhysicsError) -> Self {
        match why {
            PhysicsError::OutOfRange {
                quantity,
                unit,
                low,
                high,
                ..
            } => WiringError::OutOfRange {
                quantity,
                unit,
                low,
                high,
            },
            _ => WiringError::NoCable,
        }
    }
}

/// A cable at work.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CableRun {
    /// The conductor.
    pub conductor: Conductor,
    /// Current of the load.
    pub current: ElectricCurrent,
    /// Current the cable carries in this heat.
    pub carries: ElectricCurrent,
    /// The conductor, as warm as the current makes it.
    pub warm: ThermodynamicTemperature,
    /// Voltage lost out and back, conductor as warm as that.
    pub drop: ElectricPotential,
    /// The same as a share of the battery's voltage.
    pub drop_share: Ratio,
    /// Fuse; none if no rating fits between load and cable.
    pub fuse: Option<ElectricCurrent>,
    /// A fuse fits and the loss is allowed.
    pub good: bool,
}

impl Circuit {
    /// Current while the load runs.
    pub fn current(&self) -> ElectricCurrent {
        ElectricCurrent::new::<ampere>(self.power.value / self.voltage.value)
    }

    /// How one conductor does.
    ///
    /// # Errors
    /// [`WiringError::OutOfRange`] naming the value at fault.
    pub fn with(&self, conductor: Conductor) -> Result<CableRun, WiringError> {
        within("power of the load", "W", self.power.value, 0.0, 100_000.0)?;
        within("share of time the load runs", "", self.duty.value, 0.0, 1.0)?;
        within("voltage of the battery", "V", self.voltage.value, 5.0, 60.0)?;
        within("length of the cable", "m", self.length.value, 0.05, 100.0)?;
        within(
            "voltage that may be lost",
            "",
            self.greatest_drop.value,
            0.001,
            0.2,
        )?;
        within(
            "air along the cable",
            "K",
            self.around.value,
            233.15,
            338.15,
        )?;
        let current = self.current();
        let carries = conductor.current_at(self.around);
        // The conductor warms with the square of the current, up to 70 °C at the current it carries.
        let loading = (current / carries).value.min(1.0);
        let rise = (HOTTEST_CONDUCTOR - self.around.value) * loading * loading;
        let warm = ThermodynamicTemperature::new::<uom::si::thermodynamic_temperature::kelvin>(
            self.around.value + rise,
        );
        let drop = current * conductor.resistance(2.0 * self.length, warm)?;
        let drop_share = Ratio::new::<ratio>(drop.value / self.voltage.value);
        let fuse = fuse_for(current, carries);
        Ok(CableRun {
            conductor,
            current,
            carries,
            warm,
            drop,
            drop_share,
            fuse,
            good: fuse.is_some() && drop_share <= self.greatest_drop,
        })
    }

    /// The thinnest cable that carries the load, with its fuse.
    ///
    /// # Errors
    /// [`WiringError`] for a number out of range, or if no cable of the table is enough.
    ///
    /// ```
    /// use hearthplan::sizing::wiring::{Circuit, ConductorName, SizeSystem};
    /// use uom::si::{electric_current::ampere, electric_potential::volt, f64::*, length::meter, power::watt, ratio::percent};
    /// use uom::si::thermodynamic_temperature::degree_celsius;
    /// let blower = Circuit {
    ///     power: Power::new::<watt>(96.0),
    ///     duty: Ratio::new::<percent>(100.0),
    ///     voltage: ElectricPotential::new::<volt>(12.0),
    ///     length: Length::new::<meter>(3.0),
    ///     greatest_drop: Ratio::new::<percent>(3.0),
    ///     around: ThermodynamicTemperature::new::<degree_celsius>(40.0),
    /// };
    /// let found = blower.thinnest(SizeSystem::Metric)?;
    /// // 8 A over 6 m may lose 0.36 V: 45 mΩ, so 4 mm² at 30 mΩ; 2.5 mm² has 48 mΩ.
    /// assert_eq!(found.conductor.name, ConductorName::SquareMillimetres(4.0));
    /// assert_eq!(found.fuse, Some(ElectricCurrent::new::<ampere>(10.0)));
    /// # Ok::<(), hearthplan::sizing::wiring::WiringError>(())
    /// ```
    pub fn thinnest(&self, system: SizeSystem) -> Result<CableRun, WiringError> {
        for conductor in Conductor::all(system) {
            let run = self.with(conductor)?;
            if run.good {
                return Ok(run);
            }
        }
        Err(WiringError::NoCable)
    }
}

/// Smallest fuse that stands the load and still protects the cable; none if no rating fits.
///
/// ```
/// use hearthplan::sizing::wiring::fuse_for;
/// use uom::si::{electric_current::ampere, f64::ElectricCurrent};
/// let amperes = ElectricCurrent::new::<ampere>;
/// assert_eq!(fuse_for(amperes(9.0), amperes(18.3)), Some(amperes(15.0)));
/// assert_eq!(fuse_for(amperes(9.0), amperes(10.3)), None);
/// ```
pub fn fuse_for(load: ElectricCurrent, carries: ElectricCurrent) -> Option<ElectricCurrent> {
    // Numbers such as 8 A over 0.8 must not miss the fuse of 10 A by rounding.
    let least = load.value / FUSE_LOADING * (1.0 - 1e-12);
    FUSES
        .iter()
        .find(|rating| **rating >= least)
        .filter(|rating| **rating <= carries.value)
        .map(|rating| ElectricCurrent::new::<ampere>(*rating))
}

/// Loads together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadSum {
    /// Mean over time, for the battery's hours.
    pub mean: Power,
    /// All at once, for the main fuse.
    pub greatest: Power,
}

/// Mean and greatest power of several loads.
pub fn load_sum(circuits: &[Circuit]) -> LoadSum {
    circuits.iter().fold(
        LoadSum {
            mean: Power::new::<watt>(0.0),
            greatest: Power::new::<watt>(0.0),
        },
        |sum, circuit| LoadSum {
            mean: sum.mean + circuit.power * circuit.duty,
            greatest: sum.greatest + circuit.power,
        },
    )
}
