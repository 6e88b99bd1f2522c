//! How fast does the air leave the nozzles, and what pressure does that take?

use crate::physics::{air, normal_state, orifice};
use uom::si::area::square_meter;
use uom::si::f64::{
    Area, Length, MassDensity, Pressure, Ratio, ThermodynamicTemperature, Velocity, VolumeRate,
};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::velocity::meter_per_second;
use uom::si::volume_rate::cubic_meter_per_second;

/// A ring of equal air nozzles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NozzleRing {
    /// Number of nozzles.
    pub count: u32,
    /// Bore of each nozzle tip.
    pub bore: Length,
    /// Discharge coefficient: 0.6 sharp edge, 0.8 to 0.9 rounded (common practice, no source).
    pub discharge: Ratio,
}

impl NozzleRing {
    /// Area of all nozzle tips together.
    pub fn area(&self) -> Area {
        Area::new::<square_meter>(self.plain().area())
    }

    /// The same nozzles as the physics room knows them.
    fn plain(&self) -> orifice::Nozzles {
        orifice::Nozzles {
            count: self.count,
            bore: self.bore.value,
            discharge_coefficient: self.discharge.get::<ratio>(),
        }
    }

    /// Velocity and pressure drop of a flow, SI. Nozzles that make no sense give no number, and the review then says
    /// that it cannot tell.
    pub(super) fn passing(&self, volume_flow: f64, density: f64) -> orifice::NozzleFlow {
        self.plain()
            .passing(volume_flow, density)
            .unwrap_or(orifice::NozzleFlow {
                volume_flow,
                velocity: f64::NAN,
                pressure_drop: f64::NAN,
            })
    }
}

/// The air around the machine.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surroundings {
    /// Air temperature.
    pub temperature: ThermodynamicTemperature,
    /// Air pressure.
    pub pressure: Pressure,
}

impl Surroundings {
    /// Air at a temperature and height above sea level (US Standard Atmosphere 1976).
    pub fn at(temperature: ThermodynamicTemperature, altitude: Length) -> Self {
        Self {
            temperature,
            pressure: Pressure::new::<pascal>(air::pressure_at_altitude(altitude.value)),
        }
    }
}

/// Air through the nozzles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NozzleFlow {
    /// Air flow at the temperature and pressure of the surroundings.
    pub air_flow: VolumeRate,
    /// Density of that air.
    pub density: MassDensity,
    /// Mean velocity over the bore of the tips.
    pub velocity: Velocity,
    /// Pressure drop from outside to the hearth.
    pub drop: Pressure,
}

/// Velocity and pressure drop of the air that makes a gas flow.
///
/// Air flow = gas flow / `gas_per_air`, both at 0 °C and 101.325 kPa; the air expands to the surroundings by the ideal
/// gas law. The drop is that of an orifice in still air. `gas_per_air` of 1.68 is that of SERI/SP-271-3022, table 5-1
/// (from memory). Air counts as incompressible, good up to about 100 m/s.
///
/// ```
/// use hearthplan::sizing::nozzles::{NozzleRing, Surroundings, nozzle_flow};
/// use uom::si::{f64::*, length::millimeter, pressure::pascal, ratio::ratio, thermodynamic_temperature::kelvin};
/// use uom::si::{velocity::meter_per_second, volume_rate::cubic_meter_per_hour};
/// let ring = NozzleRing {
///     count: 5,
///     bore: Length::new::<millimeter>(7.5),
///     discharge: Ratio::new::<ratio>(0.85),
/// };
/// let freezing = Surroundings {
///     temperature: ThermodynamicTemperature::new::<kelvin>(273.15),
///     pressure: Pressure::new::<pascal>(101_325.0),
/// };
/// let flow = nozzle_flow(VolumeRate::new::<cubic_meter_per_hour>(30.0), 1.68, &ring, &freezing);
/// assert!((flow.velocity.get::<meter_per_second>() - 22.4).abs() < 0.1);
/// assert!((flow.drop.get::<pascal>() - 451.0).abs() < 3.0);
/// ```
pub fn nozzle_flow(
    gas_flow: VolumeRate,
    gas_per_air: f64,
    ring: &NozzleRing,
    surroundings: &Surroundings,
) -> NozzleFlow {
    let (temperature, pressure) = (surroundings.temperature.value, surroundings.pressure.value);
    let expansion = temperature / normal_state::TEMPERATURE * normal_state::PRESSURE / pressure;
    let air_flow = gas_flow.value / gas_per_air * expansion;
    let density = air::Air::at(temperature, pressure).density;
    let jet = ring.passing(air_flow, density);
    NozzleFlow {
        air_flow: VolumeRate::new::<cubic_meter_per_second>(air_flow),
        density: MassDensity::new::<kilogram_per_cubic_meter>(density),
        velocity: Velocity::new::<meter_per_second>(jet.velocity),
        drop: Pressure::new::<pascal>(jet.pressure_drop),
    }
}
