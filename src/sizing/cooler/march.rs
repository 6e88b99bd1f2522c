//! The temperature of gas along a tube that is cooled from outside. SI numbers inside.
//!
//! The gas falls exponentially towards the air or water outside; the rate is taken from the middle of each step (second
//! order). At the dew point a step is cut in two. Where water condenses, the gas follows the saturation line and the
//! resistance on the gas side counts for the sensible share of the heat alone: Silver, Transactions of the Institution
//! of Chemical Engineers 25 (1947) 30; Bell and Ghaly, AIChE Symposium Series 69 (1973) 72. The film of water itself is
//! taken to conduct well. Radiation inside and the better heat transfer at the start of a tube are left out.

use super::Orientation;
use super::outside::{Fins, air_flux};
use crate::physics::convection::Surroundings;
use crate::physics::friction::friction_factor;
use crate::physics::gas_mixture::GasProperties;
use crate::physics::tube_flow::nusselt_inside;
use crate::physics::water;
use crate::sizing::train::{GasState, Note, StageError};
use std::f64::consts::PI;

/// Steps per number of transfer units, and their least and greatest number.
const STEPS_PER_UNIT: f64 = 5.0;
const FEWEST_STEPS: f64 = 2.0;
const MOST_STEPS: f64 = 20.0;

/// What takes the heat.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Sink {
    /// Air around the tube.
    Air {
        around: Surroundings,
        orientation: Orientation,
        emittance: f64,
        fins: Option<Fins>,
    },
    /// Water of one temperature in K, coefficient in W/(m²·K).
    Water { temperature: f64, coefficient: f64 },
}

impl Sink {
    fn temperature(&self) -> f64 {
        match self {
            Sink::Air { around, .. } => around.air_temperature,
            Sink::Water { temperature, .. } => *temperature,
        }
    }
}

/// Equal tubes side by side.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Tube {
    pub count: f64,
    pub bore: f64,
    pub outer_diameter: f64,
    pub length: f64,
    pub wall_conductivity: f64,
    pub roughness: f64,
    /// Thickness, m, and conductivity, W/(m·K).
    pub insulation: Option<(f64, f64)>,
    pub sink: Sink,
}

/// One place along the tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Place {
    pub at: f64,
    pub gas: f64,
    pub surface: f64,
}

/// What came of the march.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct March {
    /// Gas at the outlet, K.
    pub outlet: f64,
    /// Lost by friction, Pa.
    pub friction: f64,
    /// m/s.
    pub slowest: f64,
    pub fastest: f64,
    pub reynolds_in: f64,
    pub hottest_surface: f64,
    /// Coldest place of the inside wall, K.
    pub coldest_wall: f64,
    /// From here on water falls out of the gas itself, m.
    pub wet_from: Option<f64>,
    pub places: Vec<Place>,
}

impl March {
    /// Notes that depend on walls and temperatures alone.
    pub fn notes(&self, gas: &GasState) -> Vec<Note> {
        let mut notes = Vec::new();
        if gas.tar.condenses_at(self.coldest_wall) {
            notes.push(Note::TarCondenses);
        }
        let wet_wall = gas
            .dew_point()
            .is_some_and(|dew| self.coldest_wall < dew.value);
        if wet_wall || self.wet_from.is_some() {
            notes.push(Note::WaterCondenses);
        }
        notes
    }
}

/// Gas and wall at one place.
struct Local {
    /// Share by which the distance to the sink's temperature falls per metre, 1/m.
    rate: f64,
    surface: f64,
    inside_wall: f64,
    velocity: f64,
    reynolds: f64,
    /// Pa/m.
    friction: f64,
}

/// Sends `gas` along the tubes.
pub(crate) fn march(gas: &GasState, tube: &Tube) -> Result<March, StageError> {
    let sink = tube.sink.temperature();
    let start = gas.temperature.value;
    let dew = dew_point_of_all_water(gas);
    let mut wall = WallGuess { share: 0.3 };
    let first = local(gas, tube, start, dew, &mut wall)?;
    let steps = (STEPS_PER_UNIT * first.rate * tube.length)
        .ceil()
        .clamp(FEWEST_STEPS, MOST_STEPS);
    let step = tube.length / steps;
    let mut run = March {
        outlet: start,
        friction: 0.0,
        slowest: first.velocity,
        fastest: first.velocity,
        reynolds_in: first.reynolds,
        hottest_surface: first.surface,
        coldest_wall: first.inside_wall,
        wet_from: (first.rate > 0.0 && dew.is_some_and(|dew| start < dew)).then_some(0.0),
        places: Vec::with_capacity(MOST_STEPS as usize + 3),
    };
    run.places.push(Place {
        at: 0.0,
        gas: start,
        surface: first.surface,
    });
    let (mut at, mut temperature, mut here) = (0.0, start, first);
    for number in 1..=steps as u32 {
        let end = if f64::from(number) >= steps {
            tube.length
        } else {
            step * f64::from(number)
        };
        // At most twice: up to the dew point and on from there.
        for _ in 0..2 {
            let left = end - at;
            let half = sink + (temperature - sink) * (-0.5 * here.rate * left).exp();
            let middle = local(gas, tube, half, dew, &mut wall)?;
            let next = sink + (temperature - sink) * (-middle.rate * left).exp();
            let crossed = dew.filter(|dew| {
                (temperature - dew) * (next - dew) < 0.0 || (temperature - dew) * (half - dew) < 0.0
            });
            let (reached, length) = match crossed {
                Some(dew) => {
                    // The rate on this side of the dew point leads up to it.
                    let between = 0.5 * (temperature + dew);
                    let rate = local(gas, tube, between, Some(dew), &mut wall)?.rate;
                    let needed = ((temperature - sink) / (dew - sink)).ln() / rate;
                    let cut = if needed.is_nan() {
                        left
                    } else {
                        needed.clamp(0.0, left)
                    };
                    // A hair beyond, so that the next step starts on the other side.
                    (dew + 1e-9 * (sink - dew).signum(), cut)
                }
                None => (next, left),
            };
            if reached < water::COLDEST {
                return Err(StageError::Freezing);
            }
            run.friction += middle.friction * length;
            at += length;
            temperature = reached;
            here = local(gas, tube, temperature, dew, &mut wall)?;
            run.slowest = run.slowest.min(middle.velocity).min(here.velocity);
            run.fastest = run.fastest.max(middle.velocity).max(here.velocity);
            run.hottest_surface = run.hottest_surface.max(here.surface);
            run.coldest_wall = run.coldest_wall.min(here.inside_wall);
            if crossed.is_some() && run.wet_from.is_none() && temperature > sink {
                run.wet_from = Some(at);
            }
            if crossed.is_none() {
                break;
            }
        }
        at = end;
        run.places.push(Place {
            at,
            gas: temperature,
            surface: here.surface,
        });
    }
    run.outlet = temperature;
    Ok(run)
}

/// Where the first drop forms if all water were steam, K.
fn dew_point_of_all_water(gas: &GasState) -> Option<f64> {
    let water = gas.water_moles();
    let share = water / (water + gas.dry_moles());
    water::dew_point(share * gas.pressure.value).ok()
}

/// Share of the whole temperature difference that lies outside of the surface, kept from place to place.
struct WallGuess {
    share: f64,
}

fn local(
    gas: &GasState,
    tube: &Tube,
    temperature: f64,
    dew: Option<f64>,
    guess: &mut WallGuess,
) -> Result<Local, StageError> {
    let wet = dew.is_some_and(|dew| temperature < dew);
    let state = if wet || gas.liquid.value > 0.0 {
        gas.settled(temperature, gas.pressure.value)?
    } else {
        GasState {
            temperature: uom::si::f64::ThermodynamicTemperature::new::<
                uom::si::thermodynamic_temperature::kelvin,
            >(temperature),
            ..*gas
        }
    };
    let properties: GasProperties = state.properties()?;
    let flow = state.gas_mass_rate().value / tube.count;
    let area = 0.25 * PI * tube.bore * tube.bore;
    let velocity = flow / (properties.density * area);
    let reynolds = flow * tube.bore / (area * properties.viscosity);
    let sensible = properties.heat_capacity * state.gas_mass_rate().value;
    let total = if wet {
        state.heat_capacity_rate()
    } else {
        sensible
    };
    let inside = nusselt_inside(reynolds, properties.prandtl()) * properties.conductivity
        / tube.bore
        * (total / sensible).max(1.0);
    let film = 1.0 / (PI * tube.bore * inside);
    let mut solid = (tube.outer_diameter / tube.bore).ln() / (2.0 * PI * tube.wall_conductivity);
    let mut outer = tube.outer_diameter;
    if let Some((thickness, conductivity)) = tube.insulation {
        let wider = outer + 2.0 * thickness;
        solid += (wider / outer).ln() / (2.0 * PI * conductivity);
        outer = wider;
    }
    let sink = tube.sink.temperature();
    let surface = surface_temperature(tube, outer, temperature, film + solid, guess);
    let difference = temperature - sink;
    // At the sink's own temperature nothing flows; the rate is then that of a hair's difference.
    let per_length = if difference.abs() > 1e-9 {
        (temperature - surface) / (film + solid) / difference
    } else {
        (1.0 - guess.share) / (film + solid)
    };
    let inside_wall = temperature - per_length * difference * film;
    let velocity_head = 0.5 * properties.density * velocity * velocity;
    Ok(Local {
        rate: (per_length * tube.count / total).max(0.0),
        surface,
        inside_wall,
        velocity,
        reynolds,
        friction: friction_factor(reynolds, tube.roughness / tube.bore) / tube.bore * velocity_head,
    })
}

/// Temperature of the outside surface, K, at which heat from the gas through `resistance` in K·m/W is carried off.
///
/// Newton steps with a slope that stands for the usual growth of the coefficient with temperature; from the place before
/// two or three are enough.
fn surface_temperature(
    tube: &Tube,
    outer: f64,
    gas: f64,
    resistance: f64,
    guess: &mut WallGuess,
) -> f64 {
    let sink = tube.sink.temperature();
    let difference = gas - sink;
    match tube.sink {
        Sink::Water { coefficient, .. } => {
            let outside = 1.0 / (PI * outer * coefficient);
            guess.share = outside / (outside + resistance);
            sink + guess.share * difference
        }
        Sink::Air {
            around,
            orientation,
            emittance,
            fins,
        } => {
            if difference.abs() < 1e-9 {
                return sink;
            }
            let mut share = guess.share;
            for _ in 0..12 {
                let surface = sink + share * difference;
                let form = (orientation, outer, tube.length);
                let flux = air_flux(surface, form, emittance, fins.as_ref(), &around);
                let through = (gas - surface) / resistance;
                let coefficient = flux / (surface - sink);
                let slope = 1.25 * coefficient + 1.0 / resistance;
                let step = (through - flux) / slope / difference;
                let next = (share + step).clamp(1e-9, 1.0);
                let moved = (next - share).abs();
                share = next;
                if moved < 1e-4 {
                    break;
                }
            }
            guess.share = share;
            sink + share * difference
        }
    }
}
