//! How far does a tube cooler cool the gas?
//!
//! Equal straight tubes side by side. Inside: laminar or Gnielinski; outside: still air, fins, a fan or a water jacket.
//! Tubes without a block are taken as far enough apart not to warm each other.

pub(crate) mod block;
mod error;
mod jacket;
pub(crate) mod march;
mod needed_length;
pub(crate) mod outside;

pub use block::{TubeBlock, share_in_sight};
pub use error::CoolerError;
use jacket::{boils_at, in_jacket, in_standing_water};

use crate::physics::convection;
use crate::physics::error::{PhysicsError, within};
use crate::sizing::nozzles::Surroundings;
use crate::sizing::train::{
    Carried, Circumstances, Detail, GasState, Note, Passage, StageError, StageOutcome,
};
use block::Room;
use march::{March, Sink, Tube, march};
use needed_length::{LONGEST, SHORTEST};
use uom::si::f64::{
    HeatTransfer, Length, MassRate, Ratio, ThermalConductivity, ThermodynamicTemperature, Velocity,
};
use uom::si::length::meter;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::velocity::meter_per_second;

/// Heat capacity of liquid water, J/(kg·K): handbook value for 20 to 60 °C within half a per cent, from memory.
pub const WATER_HEAT_CAPACITY: f64 = 4186.0;
/// Fins closer than this hinder each other in still air, m (our own estimate: twice the boundary layer of a warm fin).
pub(crate) const CLOSE_FINS: f64 = 0.006;
/// Jacket water is called boiling from here, K: 95 °C leaves a little room. Our own mark.
pub(crate) const BOILING: f64 = 368.15;

/// How a tube lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Orientation {
    /// Lying.
    Level,
    /// Standing.
    Upright,
}

/// Round fins on each tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TubeFins {
    /// Outside diameter, 1.02 to 5 times that of the tube.
    pub diameter: Length,
    /// Thickness, 0.1 to 5 mm.
    pub thickness: Length,
    /// From fin to fin, at least twice the thickness, up to 0.2 m.
    pub pitch: Length,
    /// Conductivity, 5 to 400 W/(m·K).
    pub conductivity: ThermalConductivity,
}

/// What cools the tubes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CoolerKind {
    /// Bare tubes in still air.
    Bare,
    /// Tubes with round fins in still air.
    Finned(TubeFins),
    /// A fan blows across the tubes.
    FanBlown {
        /// Speed of the air between the tubes, 0.1 to 30 m/s.
        air_speed: Velocity,
        /// Fins, if there are any.
        fins: Option<TubeFins>,
    },
    /// Water around the tubes, mixed so well that all of it has the temperature at which it leaves.
    WaterJacket {
        /// Temperature of the water that comes in, 1 to 90 °C.
        inlet: ThermodynamicTemperature,
        /// Flow of water, 0.001 to 10 kg/s.
        flow: MassRate,
        /// Coefficient from tube to water, 50 to 20 000 W/(m²·K); 500 for slow water (common practice, no source).
        coefficient: HeatTransfer,
    },
    /// Water that stands around the tubes, its pump at rest: it gets as warm as the gas that comes in, or boils.
    StandingWater {
        /// Coefficient from tube to water, 50 to 20 000 W/(m²·K).
        coefficient: HeatTransfer,
    },
}

/// A cooler of equal tubes side by side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cooler {
    /// Number of tubes, 1 to 200.
    pub tubes: u32,
    /// Length of each, 0.05 to 60 m.
    pub length: Length,
    /// Inside diameter, 5 mm to 0.5 m.
    pub bore: Length,
    /// Wall, 0.3 to 20 mm.
    pub wall: Length,
    /// Conductivity of the wall, 1 to 400 W/(m·K).
    pub wall_conductivity: ThermalConductivity,
    /// Height of bumps on the inside, 0 to a twentieth of the bore.
    pub roughness: Length,
    /// Emittance of the outside, 0 to 1.
    pub emittance: Ratio,
    /// How the tubes lie.
    pub orientation: Orientation,
    /// How close they stand to each other; none where each stands free.
    pub block: Option<TubeBlock>,
    /// Loss coefficient of both headers together, on the velocity in the tubes at the inlet, 0 to 100; 1.5 for sharp
    /// ends.
    pub header_loss: f64,
    /// What cools them.
    pub kind: CoolerKind,
}

/// What a cooler does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoolerResult {
    /// Hottest place outside.
    pub hottest_surface: ThermodynamicTemperature,
    /// Coldest place of the inside wall.
    pub coldest_wall: ThermodynamicTemperature,
    /// From here on water falls out of the gas itself; drops on a cold wall may come earlier.
    pub wet_from: Option<Length>,
    /// Slowest gas.
    pub slowest: Velocity,
    /// Fastest gas.
    pub fastest: Velocity,
    /// Reynolds number at the inlet.
    pub reynolds: f64,
    /// Temperature of the jacket's water; none without a jacket.
    pub water: Option<ThermodynamicTemperature>,
    /// What the water of a jacket boils at, where it stands; none where it flows, or without a jacket.
    pub standing_boils_at: Option<ThermodynamicTemperature>,
    /// Speed of the air that a fan blows between the tubes; none without a fan, or where it rests.
    pub fan_air: Option<Velocity>,
    /// Share by which the distance between gas and what cools it falls per metre at the outlet, 1/m.
    pub(crate) rate_at_outlet: f64,
}

/// Air as the convection laws want it.
pub(crate) fn outside_air(around: &Surroundings, speed: f64) -> convection::Surroundings {
    convection::Surroundings {
        air_temperature: around.temperature.value,
        pressure: around.pressure.value,
        wind_speed: speed,
    }
}

impl Cooler {
    /// Sends gas through the cooler.
    pub(crate) fn pass(
        &self,
        gas: &GasState,
        circumstances: &Circumstances,
    ) -> Result<StageOutcome, StageError> {
        let cooler = self.with_what_runs(circumstances);
        let (run, water) = cooler.run(gas, &circumstances.surroundings)?;
        let properties = gas.properties()?;
        let header = self.header_loss * 0.5 * properties.density * self.inlet_velocity(gas).powi(2);
        let pressure = gas.pressure.value - run.friction - header;
        let mut notes = run.notes(gas);
        let carried = Carried {
            bore: self.bore.value,
            slowest: run.slowest,
            orientation: self.orientation,
            wet: !notes.is_empty(),
        };
        notes.extend(carried.note(gas));
        let standing_boils_at = match cooler.kind {
            CoolerKind::StandingWater { .. } => Some(boils_at(&circumstances.surroundings)?),
            _ => None,
        };
        let boiling = standing_boils_at.map_or(BOILING, |boils| boils.min(BOILING));
        if water.is_some_and(|water| water > boiling || standing_boils_at == Some(water)) {
            notes.push(Note::JacketBoils);
        }
        if matches!(cooler.kind, CoolerKind::Finned(fins) if fins.pitch.value - fins.thickness.value < CLOSE_FINS)
        {
            notes.push(Note::FinsTooClose);
        }
        Passage {
            out: gas.settled(run.outlet, pressure)?,
            velocity: self.inlet_velocity(gas),
            density: properties.density,
            detail: Detail::Cooler(CoolerResult {
                hottest_surface: ThermodynamicTemperature::new::<kelvin>(run.hottest_surface),
                coldest_wall: ThermodynamicTemperature::new::<kelvin>(run.coldest_wall),
                wet_from: run.wet_from.map(Length::new::<meter>),
                slowest: Velocity::new::<meter_per_second>(run.slowest),
                fastest: Velocity::new::<meter_per_second>(run.fastest),
                reynolds: run.reynolds_in,
                water: water.map(ThermodynamicTemperature::new::<kelvin>),
                standing_boils_at: standing_boils_at.map(ThermodynamicTemperature::new::<kelvin>),
                fan_air: match cooler.kind {
                    CoolerKind::FanBlown { air_speed, .. } => Some(air_speed),
                    _ => None,
                },
                rate_at_outlet: run.rate_at_outlet,
            }),
            notes,
        }
        .outcome(gas)
    }

    /// The same cooler with what runs of it: with its fan at rest it is in still air, with its pump at rest in standing
    /// water.
    pub(crate) fn with_what_runs(&self, circumstances: &Circumstances) -> Cooler {
        let kind = match self.kind {
            CoolerKind::FanBlown { fins, .. } if !circumstances.fans => {
                fins.map_or(CoolerKind::Bare, CoolerKind::Finned)
            }
            CoolerKind::WaterJacket { coefficient, .. } if !circumstances.pumps => {
                CoolerKind::StandingWater { coefficient }
            }
            other => other,
        };
        Cooler { kind, ..*self }
    }

    fn inlet_velocity(&self, gas: &GasState) -> f64 {
        gas.velocity_in(self.bore.value) / f64::from(self.tubes)
    }

    /// Temperatures along the tubes, and of the jacket's water in K.
    fn run(
        &self,
        gas: &GasState,
        around: &Surroundings,
    ) -> Result<(March, Option<f64>), StageError> {
        let tube = self.tube(around)?;
        match self.kind {
            CoolerKind::WaterJacket { inlet, flow, .. } => {
                let flow = within("water through the jacket", "kg/s", flow.value, 0.001, 10.0)?;
                let (run, water) = in_jacket(gas, tube, inlet.value, flow * WATER_HEAT_CAPACITY)?;
                Ok((run, Some(water)))
            }
            CoolerKind::StandingWater { .. } => {
                let (run, water) = in_standing_water(gas, tube)?;
                Ok((run, Some(water)))
            }
            _ => Ok((march(gas, &tube)?, None)),
        }
    }

    /// The tubes with what cools them, checked.
    fn tube(&self, around: &Surroundings) -> Result<Tube, StageError> {
        let bore = within("bore of the cooler tubes", "m", self.bore.value, 0.005, 0.5)?;
        let wall = within(
            "wall of the cooler tubes",
            "m",
            self.wall.value,
            0.0003,
            0.02,
        )?;
        let outer_diameter = bore + 2.0 * wall;
        within(
            "header loss of the cooler",
            "",
            self.header_loss,
            0.0,
            100.0,
        )?;
        within(
            "air temperature",
            "K",
            around.temperature.value,
            200.0,
            350.0,
        )?;
        within("air pressure", "Pa", around.pressure.value, 2e4, 1.2e5)?;
        let sink = self.sink(outer_diameter, around)?;
        Ok(Tube {
            count: within(
                "number of cooler tubes",
                "",
                f64::from(self.tubes),
                1.0,
                200.0,
            )?,
            bore,
            outer_diameter,
            length: within(
                "length of the cooler tubes",
                "m",
                self.length.value,
                SHORTEST,
                LONGEST,
            )?,
            wall_conductivity: within(
                "conductivity of the cooler tubes",
                "W/(m·K)",
                self.wall_conductivity.value,
                1.0,
                400.0,
            )?,
            roughness: within(
                "roughness of the cooler tubes",
                "m",
                self.roughness.value,
                0.0,
                0.05 * bore,
            )?,
            insulation: None,
            sink,
        })
    }

    /// What cools tubes of this outside diameter in m, checked.
    fn sink(&self, outer_diameter: f64, around: &Surroundings) -> Result<Sink, StageError> {
        let air = |speed, fins: Option<TubeFins>| -> Result<Sink, StageError> {
            let across = fins.map_or(outer_diameter, |fins| fins.diameter.value);
            let room = (self.block).map_or(Ok(Room::FREE), |block| {
                block.room(f64::from(self.tubes), across)
            })?;
            Ok(Sink::Air {
                room,
                around: outside_air(around, speed),
                orientation: self.orientation,
                emittance: within(
                    "emittance of the cooler",
                    "",
                    self.emittance.value,
                    0.0,
                    1.0,
                )?,
                fins: fins.map(|fins| fins.checked(outer_diameter)).transpose()?,
            })
        };
        match self.kind {
            CoolerKind::Bare => air(0.0, None),
            CoolerKind::Finned(fins) => air(0.0, Some(fins)),
            CoolerKind::FanBlown { air_speed, fins } => {
                let speed = within(
                    "speed of the cooling air",
                    "m/s",
                    air_speed.value,
                    0.1,
                    30.0,
                )?;
                air(speed, fins)
            }
            CoolerKind::WaterJacket {
                inlet, coefficient, ..
            } => Ok(Sink::Water {
                temperature: within("water into the jacket", "K", inlet.value, 274.15, 363.15)?,
                coefficient: checked_coefficient(coefficient)?,
            }),
            CoolerKind::StandingWater { coefficient } => Ok(Sink::Water {
                temperature: boils_at(around)?,
                coefficient: checked_coefficient(coefficient)?,
            }),
        }
    }
}

/// From tube to water, W/(m²·K).
fn checked_coefficient(coefficient: HeatTransfer) -> Result<f64, PhysicsError> {
    within(
        "coefficient of the jacket",
        "W/(m²·K)",
        coefficient.value,
        50.0,
        2e4,
    )
}

impl TubeFins {
    fn checked(&self, tube: f64) -> Result<outside::Fins, StageError> {
        let thickness = within(
            "thickness of the fins",
            "m",
            self.thickness.value,
            1e-4,
            5e-3,
        )?;
        Ok(outside::Fins {
            diameter: within(
                "diameter of the fins",
                "m",
                self.diameter.value,
                1.02 * tube,
                5.0 * tube,
            )?,
            thickness,
            pitch: within(
                "pitch of the fins",
                "m",
                self.pitch.value,
                2.0 * thickness,
                0.2,
            )?,
            conductivity: within(
                "conductivity of the fins",
                "W/(m·K)",
                self.conductivity.value,
                5.0,
                400.0,
            )?,
        })
    }
}
