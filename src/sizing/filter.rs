//! What does a filter cost in pressure clean and dirty, does its medium stand the gas, and when is it full?

use crate::physics::error::within;
use crate::physics::packed_bed::{self, Bed, BedGas};
use crate::sizing::pressure_chain::Filter as Condition;
use crate::sizing::train::{
    Circumstances, Detail, GasState, Note, Passage, StageError, StageOutcome, wall_heat,
};
use uom::si::f64::{
    Area, Length, Mass, Pressure, Ratio, TemperatureInterval, ThermalConductance,
    ThermodynamicTemperature, Time, Velocity,
};
use uom::si::pressure::pascal;
use uom::si::temperature_interval::kelvin;
use uom::si::time::second;
use uom::si::velocity::meter_per_second;

/// Fastest usual velocity through hot cloth, m/s (common practice, no source).
pub const CLOTH_FASTEST: f64 = 0.05;
/// Fastest usual velocity through a packed bed, m/s (common practice, no source).
pub const BED_FASTEST: f64 = 0.3;
/// A dry medium is kept at least this far above the dew point, K (common practice, no source).
pub const DEW_POINT_MARGIN: f64 = 15.0;

/// What the gas passes through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Medium {
    /// Bed of pieces: char, chips, rings, straw.
    PackedBed {
        /// Size of the pieces, 0.1 mm to 0.2 m.
        piece_size: Length,
        /// Share of the volume that is empty, 0.2 to 0.98.
        void_share: Ratio,
        /// Depth along the flow, 10 mm to 3 m.
        depth: Length,
        /// How many times the clean loss it may have when it is due, 1 to 50.
        dirty_factor: f64,
    },
    /// Woven or felted cloth with a cake of dust on it, after Darcy: `Δp = μ v (R + α w)`.
    Cloth {
        /// Resistance of clean cloth `R`, 1e6 to 1e12 1/m; 2e8 loses 100 Pa at 0.03 m/s in cool gas (our own estimate).
        resistance: f64,
        /// Resistance of the cake per mass on the area `α`, 0 to 1e13 m/kg; 1e10 for coarse char dust (our own estimate).
        cake_resistance: f64,
    },
}

/// A filter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Filter {
    /// What the gas passes through.
    pub medium: Medium,
    /// Area across the flow, 0.001 to 100 m².
    pub area: Area,
    /// Share of the dust it catches, 0 to 1.
    pub efficiency: Ratio,
    /// Dust it holds until it is due, 0.001 to 1000 kg.
    pub dust_capacity: Mass,
    /// Hottest gas the medium stands.
    pub limit: ThermodynamicTemperature,
    /// The medium may get wet and is drained: a washed or cold bed. It then catches drops as it catches dust.
    pub may_be_wet: bool,
    /// Heat lost through its wall, 0 to 1000 W/K.
    pub wall_conductance: ThermalConductance,
}

/// What a filter does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FilterResult {
    /// Gas through the empty area.
    pub face_velocity: Velocity,
    /// Loss just cleaned.
    pub clean_loss: Pressure,
    /// Loss when it is due.
    pub dirty_loss: Pressure,
    /// Time from clean to due; none without dust.
    pub change_interval: Option<Time>,
    /// How far the gas is below what the medium stands; negative if above.
    pub below_limit: TemperatureInterval,
    /// How far the gas is above its dew point; none for gas too dry to have one.
    pub above_dew_point: Option<TemperatureInterval>,
}

impl Filter {
    /// Sends gas through the filter.
    pub(crate) fn pass(
        &self,
        gas: &GasState,
        circumstances: &Circumstances,
    ) -> Result<StageOutcome, StageError> {
        let area = within("area of the filter", "m²", self.area.value, 0.001, 100.0)?;
        let efficiency = within("share of dust caught", "", self.efficiency.value, 0.0, 1.0)?;
        let capacity = within(
            "dust held by the filter",
            "kg",
            self.dust_capacity.value,
            0.001,
            1e3,
        )?;
        within("limit of the medium", "K", self.limit.value, 250.0, 2000.0)?;
        let conductance = within(
            "heat lost through the filter's wall",
            "W/K",
            self.wall_conductance.value,
            0.0,
            1000.0,
        )?;
        let properties = gas.properties()?;
        let velocity = gas.volume_rate().value / area;
        let (clean, dirty) = match self.medium {
            Medium::PackedBed {
                piece_size,
                void_share,
                depth,
                dirty_factor,
            } => {
                let bed = Bed {
                    piece_diameter: within("size of the pieces", "m", piece_size.value, 1e-4, 0.2)?,
                    voidage: within("voids of the bed", "", void_share.value, 0.2, 0.98)?,
                    depth: within("depth of the bed", "m", depth.value, 0.01, 3.0)?,
                };
                let between = BedGas {
                    density: properties.density,
                    viscosity: properties.viscosity,
                };
                let clean = packed_bed::pressure_loss(&bed, &between, velocity)?;
                let factor = within("dirty over clean loss", "", dirty_factor, 1.0, 50.0)?;
                (clean, factor * clean)
            }
            Medium::Cloth {
                resistance,
                cake_resistance,
            } => {
                let cloth = within("resistance of the cloth", "1/m", resistance, 1e6, 1e12)?;
                let cake = within("resistance of the cake", "m/kg", cake_resistance, 0.0, 1e13)?;
                let per_resistance = properties.viscosity * velocity;
                let loss = |on_area: f64| per_resistance * (cloth + cake * on_area);
                (loss(0.0), loss(capacity / area))
            }
        };
        let loss = match circumstances.filter {
            Condition::Clean => clean,
            Condition::Dirty => dirty,
        };
        let heat = wall_heat(
            gas,
            conductance,
            circumstances.surroundings.temperature.value,
        )?;
        let (mut out, frost) = gas.after_heat(heat, gas.pressure.value - loss)?;
        out.dust = gas.dust.less(|_| efficiency);
        out.tar = out.tar.filtered(out.temperature.value);
        let caught = gas.dust.total().value - out.dust.total().value;
        let interval = capacity / caught;
        let kelvins = TemperatureInterval::new::<kelvin>;
        let result = FilterResult {
            face_velocity: Velocity::new::<meter_per_second>(velocity),
            clean_loss: Pressure::new::<pascal>(clean),
            dirty_loss: Pressure::new::<pascal>(dirty),
            change_interval: (caught > 0.0 && interval.is_finite())
                .then(|| Time::new::<second>(interval)),
            below_limit: kelvins(self.limit.value - gas.temperature.value),
            above_dew_point: (gas.dew_point())
                .map(|dew| kelvins(out.temperature.value - dew.value)),
        };
        let mut notes = self.notes(gas, &out, &result);
        notes.extend(frost.then_some(Note::Frost));
        Passage {
            out,
            velocity,
            density: properties.density,
            detail: Detail::Filter(result),
            notes,
        }
        .outcome(gas)?
        .drained(if self.may_be_wet { efficiency } else { 0.0 })
    }

    fn notes(&self, gas: &GasState, out: &GasState, result: &FilterResult) -> Vec<Note> {
        let mut notes = Vec::new();
        if result.below_limit.value < 0.0 {
            notes.push(Note::MediumTooHot);
        }
        let near_dew = result
            .above_dew_point
            .is_some_and(|above| above.value < DEW_POINT_MARGIN);
        if !self.may_be_wet && (near_dew || gas.liquid.value > 0.0) {
            notes.push(Note::MediumWet);
        }
        let fastest = match self.medium {
            Medium::PackedBed { .. } => BED_FASTEST,
            Medium::Cloth { .. } => CLOTH_FASTEST,
        };
        if result.face_velocity.value > fastest {
            notes.push(Note::TooFast);
        }
        if gas.tar.mist {
            notes.push(Note::TarMistArrives);
        }
        if out.liquid > gas.liquid {
            notes.push(Note::WaterCondenses);
        }
        notes
    }
}
