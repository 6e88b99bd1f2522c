//! The temperature of gas along a tube that is cooled from outside. SI numbers inside.
//!
//! How fast the gas falls towards the air or water outside depends on its temperature alone. So the length of tube that
//! one fall takes is an integral over temperature, and a few temperatures are enough for it: the tube is cut into
//! pieces of at most [`LONGEST_PIECE`] transfer units, shorter where the rate bends, and at the dew point. Where water
//! condenses, the gas follows the saturation line and the resistance on the gas side counts for the sensible share of
//! the heat alone: Silver, Transactions of the Institution of Chemical Engineers 25 (1947) 30; Bell and Ghaly, AIChE
//! Symposium Series 69 (1973) 72. The film of water itself is taken to conduct well. Radiation inside and the better
//! heat transfer at the start of a tube are left out.

mod piece;

use self::piece::{Local, Piece, Stop};
use super::Orientation;
use super::block::Room;
use super::outside::{Fins, air_flux};
use crate::physics::convection::Surroundings;
use crate::physics::error::PhysicsError;
use crate::physics::friction::friction_factor;
use crate::physics::gas_mixture::GasMixture;
use crate::physics::tube_flow::nusselt_inside;
use crate::physics::water;
use crate::sizing::train::{GasState, Note, StageError};
use std::f64::consts::PI;

/// Longest piece, as a number of transfer units: the distance to what cools falls to a fifth.
const LONGEST_PIECE: f64 = 1.6;
/// Up to here two temperatures are enough, as a number of transfer units.
const SHORT_PIECE: f64 = 0.12;
/// Least rate that is reckoned with, 1/m: less is no cooling.
const LEAST_RATE: f64 = 1e-9;
/// Pieces after which the rest is taken to be at the temperature of what cools.
const MOST_PIECES: u32 = 100;
/// How far a piece may miss the end of the tube and still be drawn out to it, as a share of what is left.
const REACH: f64 = 0.04;
/// A hair, K: so far beyond the dew point or before it the rate is that of the right side.
const HAIR: f64 = 1e-9;

/// What takes the heat.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Sink {
    /// Air around the tube.
    Air {
        around: Surroundings,
        orientation: Orientation,
        emittance: f64,
        fins: Option<Fins>,
        room: Room,
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

/// What came of the march.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct March {
    /// Gas at the outlet, K.
    pub outlet: f64,
    /// Temperature of what cools, K.
    pub sink: f64,
    /// Share by which the distance between the two falls per metre at the outlet, 1/m.
    pub rate_at_outlet: f64,
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
    /// Whether the gas would get colder than freezing: from there on it is held at that.
    pub frost: bool,
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
        if self.wet_from.is_some() {
            notes.push(Note::WaterCondenses);
        } else if wet_wall {
            notes.push(Note::WetWall);
        }
        notes.extend(self.frost.then_some(Note::Frost));
        notes
    }
}

/// Sends `gas` along the tubes.
#[cfg_attr(hearthplan_site, optimize(speed))]
pub(crate) fn march(gas: &GasState, tube: &Tube) -> Result<March, StageError> {
    let mut way = Way::new(gas, tube)?;
    let mut temperature = way.start();
    let mut here = way.local(temperature)?;
    let mut run = March::starting(temperature, way.sink, &here);
    if here.rate > LEAST_RATE && way.dew.is_some_and(|dew| temperature < dew) {
        run.wet_from = Some(0.0);
    }
    let mut at = 0.0;
    for _ in 0..MOST_PIECES {
        let left = tube.length - at;
        run.frost |= left > 0.0 && temperature <= water::COLDEST && way.sink < water::COLDEST;
        // At the temperature of what cools nothing changes any more.
        let ended = left <= 0.0 || (temperature - way.sink).abs() < HAIR;
        if ended || run.frost || here.rate.is_nan() {
            break;
        }
        let piece = way.piece(temperature, here, left)?;
        let covered = piece.length(piece.units);
        // Beyond the dew point or the frost the rate is another.
        let reach = match piece.stop {
            Stop::Onward => REACH,
            Stop::Dew(_) | Stop::Frost => 0.0,
        };
        if covered >= left * (1.0 - reach) {
            let units = piece.units_after(left);
            temperature = way.after(temperature, units);
            // Drawn out to the end it may get beyond freezing.
            run.frost |= temperature < water::COLDEST;
            run.friction += piece.friction(units);
            // A short piece hardly changes the wall, and ends close to where the tube does.
            if piece.units > SHORT_PIECE || covered > left * (1.0 + reach) {
                if units >= 0.5 * piece.units {
                    run.see(&piece.middle);
                }
                here = way.local(temperature)?;
            } else {
                here = piece.end;
            }
            at = tube.length;
        } else {
            run.see(&piece.middle);
            run.see(&piece.end);
            run.friction += piece.friction(piece.units);
            at += covered;
            here = piece.end;
            temperature = match piece.stop {
                Stop::Frost => water::COLDEST,
                Stop::Dew(beyond) => {
                    here = way.local(beyond)?;
                    if run.wet_from.is_none() && beyond > way.sink {
                        run.wet_from = Some(at);
                    }
                    beyond
                }
                Stop::Onward => way.after(temperature, piece.units),
            };
        }
        run.see(&here);
    }
    if at < tube.length {
        run.friction += here.friction * (tube.length - at);
    }
    run.outlet = temperature.max(water::COLDEST);
    run.rate_at_outlet = here.rate;
    Ok(run)
}

impl March {
    fn starting(temperature: f64, sink: f64, here: &Local) -> March {
        March {
            outlet: temperature,
            sink,
            rate_at_outlet: here.rate,
            friction: 0.0,
            slowest: here.velocity,
            fastest: here.velocity,
            reynolds_in: here.reynolds,
            hottest_surface: here.surface,
            coldest_wall: here.inside_wall,
            wet_from: None,
            frost: false,
        }
    }

    fn see(&mut self, local: &Local) {
        self.slowest = self.slowest.min(local.velocity);
        self.fastest = self.fastest.max(local.velocity);
        self.hottest_surface = self.hottest_surface.max(local.surface);
        self.coldest_wall = self.coldest_wall.min(local.inside_wall);
    }
}

/// What stays the same all along the tubes.
struct Way<'a> {
    gas: &'a GasState,
    tube: &'a Tube,
    /// Temperature of what cools, K.
    sink: f64,
    /// Where the first drop forms, K.
    dew: Option<f64>,
    /// The gas as it comes in, and its flow through all tubes, kg/s.
    dry: GasMixture,
    mass_flow: f64,
    /// Resistance of tube wall and insulation, K·m/W, and the diameter outside of both, m.
    solid: f64,
    outer: f64,
    /// Share of the whole temperature difference that lies outside of the surface, kept from place to place.
    outside_share: f64,
}

impl<'a> Way<'a> {
    fn new(gas: &'a GasState, tube: &'a Tube) -> Result<Way<'a>, PhysicsError> {
        let mut solid =
            (tube.outer_diameter / tube.bore).ln() / (2.0 * PI * tube.wall_conductivity);
        let mut outer = tube.outer_diameter;
        if let Some((thickness, conductivity)) = tube.insulation {
            let wider = outer + 2.0 * thickness;
            solid += (wider / outer).ln() / (2.0 * PI * conductivity);
            outer = wider;
        }
        Ok(Way {
            gas,
            tube,
            sink: tube.sink.temperature(),
            dew: gas.dew_point_of_all_water(),
            dry: GasMixture::new(&gas.flowing())?,
            mass_flow: gas.gas_mass_rate().value,
            solid,
            outer,
            outside_share: 0.3,
        })
    }

    /// Where the gas comes in, K. Gas within a hair of its dew point, such as a drained stage leaves, starts beyond it:
    /// wet where it is cooled and dry where it is warmed, whatever the last digit says.
    fn start(&self) -> f64 {
        let temperature = self.gas.temperature.value;
        match self.dew {
            Some(dew) if (temperature - dew).abs() <= HAIR => self.beyond(dew),
            _ => temperature,
        }
    }

    /// A hair beyond the dew point, on the side of what cools, K.
    fn beyond(&self, dew: f64) -> f64 {
        dew + HAIR * (self.sink - dew).signum()
    }

    /// Temperature after some transfer units from `temperature`, K.
    fn after(&self, temperature: f64, units: f64) -> f64 {
        self.sink + (temperature - self.sink) * (-units).exp()
    }

    /// Transfer units from one temperature to another; infinite if it does not lie ahead.
    fn units_to(&self, temperature: f64, other: f64) -> f64 {
        let units = ((temperature - self.sink) / (other - self.sink)).ln();
        if units > 0.0 { units } else { f64::INFINITY }
    }

    /// The next piece from a temperature on, at most about `left` metres long.
    fn piece(&mut self, temperature: f64, start: Local, left: f64) -> Result<Piece, StageError> {
        let mut units = (start.rate * left).min(LONGEST_PIECE);
        let mut stop = Stop::Onward;
        let mut end_at = None;
        let frost = self.units_to(temperature, water::COLDEST);
        if frost <= units {
            (units, stop, end_at) = (frost, Stop::Frost, Some(water::COLDEST));
        }
        if let Some(dew) = self.dew {
            let to_dew = self.units_to(temperature, dew);
            if to_dew <= units {
                let beyond = self.beyond(dew);
                (units, stop, end_at) = (to_dew, Stop::Dew(beyond), Some(2.0 * dew - beyond));
            }
        }
        let mut end = self.local(end_at.unwrap_or_else(|| self.after(temperature, units)))?;
        loop {
            let middle = if units <= SHORT_PIECE {
                start.mean(&end)
            } else {
                self.local(self.after(temperature, 0.5 * units))?
            };
            let piece = Piece {
                units,
                start,
                middle,
                end,
                stop,
            };
            if units <= SHORT_PIECE || piece.is_even() {
                return Ok(piece);
            }
            (units, stop, end) = (0.5 * units, Stop::Onward, middle);
        }
    }

    /// Gas and wall where the gas has a temperature in K.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn local(&mut self, temperature: f64) -> Result<Local, StageError> {
        let (gas, tube) = (self.gas, self.tube);
        let pressure = gas.pressure.value;
        let wet = self.dew.is_some_and(|dew| temperature < dew);
        let (properties, mass_flow, condensing) = if wet || gas.liquid.value > 0.0 {
            // A hair beyond a dew point that is freezing.
            let state = gas.settled(temperature.max(water::COLDEST), pressure)?;
            let capacity = wet.then(|| state.saturated_capacity_rate());
            (state.properties()?, state.gas_mass_rate().value, capacity)
        } else {
            (self.dry.at(temperature, pressure)?, self.mass_flow, None)
        };
        let flow = mass_flow / tube.count;
        let area = 0.25 * PI * tube.bore * tube.bore;
        let velocity = flow / (properties.density * area);
        let reynolds = flow * tube.bore / (area * properties.viscosity);
        let sensible = properties.heat_capacity * mass_flow;
        let total = condensing.unwrap_or(sensible);
        let inside = nusselt_inside(reynolds, properties.prandtl()) * properties.conductivity
            / tube.bore
            * (total / sensible).max(1.0);
        let film = 1.0 / (PI * tube.bore * inside);
        let resistance = film + self.solid;
        let surface = self.surface_temperature(temperature, resistance);
        let difference = temperature - self.sink;
        // At the sink's own temperature nothing flows; the rate is then that of a hair's difference.
        let per_length = if difference.abs() > HAIR {
            (temperature - surface) / resistance / difference
        } else {
            (1.0 - self.outside_share) / resistance
        };
        let velocity_head = 0.5 * properties.density * velocity * velocity;
        Ok(Local {
            rate: (per_length * tube.count / total).max(LEAST_RATE),
            surface,
            inside_wall: temperature - per_length * difference * film,
            velocity,
            reynolds,
            friction: friction_factor(reynolds, tube.roughness / tube.bore) / tube.bore
                * velocity_head,
        })
    }

    /// Temperature of the outside surface, K, at which heat from the gas through `resistance` in K·m/W is carried off.
    ///
    /// Newton steps with a slope that stands for the usual growth of the coefficient with temperature; from the place
    /// before one or two are enough.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn surface_temperature(&mut self, gas: f64, resistance: f64) -> f64 {
        let (tube, sink, outer) = (self.tube, self.sink, self.outer);
        let difference = gas - sink;
        match tube.sink {
            Sink::Water { coefficient, .. } => {
                let outside = 1.0 / (PI * outer * coefficient);
                self.outside_share = outside / (outside + resistance);
            }
            Sink::Air {
                around,
                orientation,
                emittance,
                fins,
                room,
            } => {
                if difference.abs() < HAIR {
                    return sink;
                }
                let form = (orientation, outer, tube.length);
                for _ in 0..12 {
                    let surface = sink + self.outside_share * difference;
                    let flux = air_flux(surface, form, emittance, fins.as_ref(), &room, &around);
                    let through = (gas - surface) / resistance;
                    let coefficient = flux / (surface - sink);
                    let slope = 1.25 * coefficient + 1.0 / resistance;
                    let step = (through - flux) / slope / difference;
                    let next = (self.outside_share + step).clamp(1e-9, 1.0);
                    let moved = (next - self.outside_share).abs();
                    self.outside_share = next;
                    // The next step would be ten times smaller.
                    if moved < 1e-3 {
                        break;
                    }
                }
            }
        }
        sink + self.outside_share * difference
    }
}
