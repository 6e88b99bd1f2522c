//! What does a run of pipe cost in pressure and heat, and does dust settle in it?

use super::dust::Carried;
use super::gas_state::GasState;
use super::stage::{Circumstances, Detail, Passage, StageError, StageOutcome};
use crate::design::inputs::FittingKind;
use crate::physics::error::within;
use crate::physics::friction::{Flow, Pipe, pipe_loss};
use crate::sizing::cooler::block::Room;
use crate::sizing::cooler::march::{Sink, Tube, march};
use crate::sizing::cooler::{Orientation, outside_air};
use crate::sizing::fitting_table::loss_coefficient;
use uom::si::f64::{Length, Ratio, ThermalConductivity, ThermodynamicTemperature};
use uom::si::thermodynamic_temperature::kelvin;

/// Outside of a pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Cover {
    /// No heat is counted.
    NoLoss,
    /// Bare pipe in still air.
    Bare {
        /// Emittance, 0 to 1.
        emittance: Ratio,
    },
    /// Insulated pipe in still air.
    Insulated {
        /// Emittance of the outside of the insulation, 0 to 1.
        emittance: Ratio,
        /// Thickness, 1 to 300 mm.
        thickness: Length,
        /// Conductivity, 0.01 to 5 W/(m·K).
        conductivity: ThermalConductivity,
    },
}

/// A run of round pipe with its fittings.
#[derive(Debug, Clone, PartialEq)]
pub struct PipeRun {
    /// Inside diameter, 5 mm to 1 m.
    pub bore: Length,
    /// Wall, 0.3 to 20 mm.
    pub wall: Length,
    /// All straight lengths together, 0 to 100 m.
    pub length: Length,
    /// Height of bumps on the inside, 0 to a twentieth of the bore.
    pub roughness: Length,
    /// Fittings, each with its loss coefficient by the table of fittings.
    pub fittings: Vec<FittingKind>,
    /// Loss coefficient of everything else, 0 to 500.
    pub other_loss: f64,
    /// Outside.
    pub cover: Cover,
    /// How it lies.
    pub orientation: Orientation,
}

/// What a pipe does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PipeResult {
    /// Reynolds number at the inlet.
    pub reynolds: f64,
    /// Hottest place outside; none where no heat is counted.
    pub hottest_surface: Option<ThermodynamicTemperature>,
}

impl PipeRun {
    /// Sum of the loss coefficients of the fittings and of everything else, at a Reynolds number.
    pub fn loss_coefficients(&self, reynolds: f64) -> f64 {
        let fittings = self.fittings.iter();
        let fittings = fittings.map(|kind| loss_coefficient(*kind, reynolds, self.bore));
        fittings.sum::<f64>() + self.other_loss
    }

    pub(super) fn pass(
        &self,
        gas: &GasState,
        circumstances: &Circumstances,
    ) -> Result<StageOutcome, StageError> {
        let bore = within("bore of the pipe", "m", self.bore.value, 0.005, 1.0)?;
        let wall = within("wall of the pipe", "m", self.wall.value, 0.0003, 0.02)?;
        let length = within("length of the pipe", "m", self.length.value, 0.0, 100.0)?;
        within("other losses of the pipe", "", self.other_loss, 0.0, 500.0)?;
        let properties = gas.properties()?;
        let straight = pipe_loss(
            &Flow {
                mass_flow: gas.gas_mass_rate().value,
                density: properties.density,
                viscosity: properties.viscosity,
            },
            &Pipe {
                diameter: bore,
                length,
                roughness: self.roughness.value,
                fittings: 0.0,
            },
        )?;
        let velocity = straight.velocity;
        let in_fittings = self.loss_coefficients(straight.reynolds)
            * (0.5 * properties.density * velocity * velocity);
        let mut notes = Vec::new();
        let coat = match self.cover {
            Cover::NoLoss => None,
            Cover::Bare { emittance } => Some((emittance, None)),
            Cover::Insulated {
                emittance,
                thickness,
                conductivity,
            } => {
                let thickness = within(
                    "thickness of the insulation",
                    "m",
                    thickness.value,
                    0.001,
                    0.3,
                )?;
                let conductivity = within(
                    "conductivity of the insulation",
                    "W/(m·K)",
                    conductivity.value,
                    0.01,
                    5.0,
                )?;
                Some((emittance, Some((thickness, conductivity))))
            }
        };
        let (out, slowest, hottest_surface) = match coat {
            Some((emittance, insulation)) if length > 0.0 => {
                within("emittance of the pipe", "", emittance.value, 0.0, 1.0)?;
                let tube = Tube {
                    count: 1.0,
                    bore,
                    outer_diameter: bore + 2.0 * wall,
                    length,
                    wall_conductivity: STEEL_CONDUCTIVITY,
                    roughness: self.roughness.value,
                    insulation,
                    sink: Sink::Air {
                        around: outside_air(&circumstances.surroundings, 0.0),
                        orientation: self.orientation,
                        emittance: emittance.value,
                        fins: None,
                        room: Room::FREE,
                    },
                };
                let run = march(gas, &tube)?;
                let pressure = gas.pressure.value - run.friction - in_fittings;
                notes.extend(run.notes(gas));
                (
                    gas.settled(run.outlet, pressure)?,
                    run.slowest,
                    Some(ThermodynamicTemperature::new::<kelvin>(run.hottest_surface)),
                )
            }
            _ => {
                let pressure = gas.pressure.value - straight.along - in_fittings;
                let (out, _) = gas.after_heat(0.0, pressure)?;
                (out, velocity, None)
            }
        };
        let carried = Carried {
            bore,
            slowest,
            orientation: self.orientation,
            wet: !notes.is_empty(),
        };
        notes.extend(carried.note(gas));
        Passage {
            out,
            velocity,
            density: properties.density,
            detail: Detail::Pipe(PipeResult {
                reynolds: straight.reynolds,
                hottest_surface,
            }),
            notes,
        }
        .outcome(gas)
    }
}

/// Conductivity of a steel pipe, W/(m·K) (from memory); its wall hardly counts.
const STEEL_CONDUCTIVITY: f64 = 45.0;
