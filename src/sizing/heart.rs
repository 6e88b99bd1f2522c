//! Does the hearth get hot enough, on this wood, behind this shell, at the load the engine makes?
//!
//! One consistent solution per load: what the engine draws fixes the mixture, the mixture and the wood's gas fix the
//! gas flow, the gas flow fixes how much wood burns against the shell's loss, the loss fixes gas and temperatures, and
//! the temperature of the hearth's wall fixes the loss. Shell zones: the body wall and the lid lie above the burning
//! zone, the bottom below, the hearth wall on both sides of the throat. The three zones that are not the hearth wall are
//! taken at the temperatures entered for them.

mod error;
mod supply;

pub use error::HeartError;
pub use supply::{Basis, Supply};

use super::engine::{EngineError, engine_of, intake_of};
use super::fuel::{FuelError, char_drawn_of, char_share_of, fuel_of};
use super::gas::{
    AirClosure, CharBed, Gasifier, HearthSolution, HearthWall, HeatLoss, Load, Near, ShellLoss,
    USUAL_WALL, solve_near,
};
use super::shell::{self, ShellError, ZoneShell};
use super::zone::Zone;
use crate::design::Design;
use crate::design::inputs::{AirRule, FlowSource, HearthKind, Layer};
use crate::physics::air::pressure_at_altitude;
use std::cmp::Ordering;
use uom::si::f64::{Area, HeatFluxDensity, Length, Power, Pressure, Ratio, VolumeRate};
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::{area::square_meter, f64::ThermodynamicTemperature};

/// One value for each of the three loads a person names.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AtLoads<T> {
    /// At full load.
    pub full: T,
    /// On an ordinary day.
    pub usual: T,
    /// At the lowest load.
    pub idle: T,
}

impl<T> AtLoads<T> {
    /// The same three loads with something else for each.
    ///
    /// ```
    /// use hearthplan::sizing::heart::AtLoads;
    /// let loads = AtLoads { full: 1.0, usual: 0.7, idle: 0.4 };
    /// assert_eq!(loads.map(|load| 10.0 * load).idle, 4.0);
    /// ```
    pub fn map<U>(&self, mut of: impl FnMut(&T) -> U) -> AtLoads<U> {
        AtLoads {
            full: of(&self.full),
            usual: of(&self.usual),
            idle: of(&self.idle),
        }
    }
}

/// The three loads of a design, as shares of full load. Where the usual load is below the lowest as entered, it is the
/// lowest: whatever must hold at little load must hold there.
///
/// ```
/// use hearthplan::{design::Design, sizing::heart::loads_of};
/// use uom::si::{f64::Ratio, ratio::percent};
/// let mut design = Design::default();
/// design.operation.usual_load = Ratio::new::<percent>(20.0);
/// design.operation.idle_load = Ratio::new::<percent>(30.0);
/// assert_eq!(loads_of(&design).idle, design.operation.usual_load);
/// ```
pub fn loads_of(design: &Design) -> AtLoads<Ratio> {
    AtLoads {
        full: Ratio::new::<ratio>(1.0),
        usual: design.operation.usual_load,
        idle: design.operation.idle_load.min(design.operation.usual_load),
    }
}

/// What is weaker than this does not burn, MJ per normal m³; no engine and no flare is fed by it. Our own mark, well below
/// the weakest gas that engines run on.
const WEAKEST_GAS: f64 = 1.0;

/// What is drawn at full load.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Draw {
    /// Gas with its air, by an engine.
    Mixture(VolumeRate),
    /// Gas, as entered.
    Gas(VolumeRate),
}

/// The shell of a design, made ready.
#[derive(Debug, Clone, PartialEq)]
struct ReadyShell {
    hearth: ZoneShell,
    /// Inside area of the hearth wall.
    area: Area,
    /// Share of the hearth wall's loss from the burning zone and above it.
    share_above: Ratio,
    /// Loss of the other zones.
    body: Power,
    lid: Power,
    bottom: Power,
    /// Radius of the wall over that of the hearth inside it: all heat that leaves the char passes the wall.
    spread: f64,
}

impl ReadyShell {
    fn of(design: &Design, hearth: ZoneShell) -> Result<Self, ShellError> {
        let loss = |zone, inside| ZoneShell::new(design, zone)?.loss(inside);
        let wall = &design.hearth_wall;
        Ok(Self {
            hearth,
            area: Area::new::<square_meter>(
                std::f64::consts::PI * wall.inside_diameter.value * wall.height.value,
            ),
            share_above: shell::share_of_burning_zone(design),
            body: loss(Zone::Body, design.body_wall.inner_temperature)?,
            lid: loss(Zone::Lid, design.lid.inner_temperature)?,
            bottom: loss(Zone::Bottom, design.bottom.inner_temperature)?,
            spread: 0.5 * wall.inside_diameter.value / radius(design).value,
        })
    }

    fn flux(&self, inside: ThermodynamicTemperature) -> Result<HeatFluxDensity, ShellError> {
        self.hearth.inner_flux(inside)
    }

    fn loss(&self, inside: ThermodynamicTemperature) -> Result<ShellLoss, ShellError> {
        let flux = self.flux(inside)?;
        let hearth: Power = flux * self.area;
        Ok(ShellLoss {
            at_or_above_nozzle: hearth * self.share_above + self.body + self.lid,
            below_nozzle: hearth * (Ratio::new::<ratio>(1.0) - self.share_above) + self.bottom,
            wall_flux: flux * self.spread,
        })
    }
}

/// Inside radius of the hearth where the air comes in; never wider than the wall around it.
pub fn radius(design: &Design) -> Length {
    let hearth = match design.hearth.kind {
        HearthKind::Constricted => design.hearth.nozzle_ring_diameter,
        HearthKind::Straight => design.hearth.tube_diameter,
    };
    0.5 * hearth.min(design.hearth_wall.inside_diameter)
}

/// Everything of a design that decides about hearth and gas, made ready to be asked at any load.
#[derive(Debug, Clone, PartialEq)]
pub struct HeartModel {
    gasifier: Result<Gasifier, FuelError>,
    draw: Result<Draw, EngineError>,
    shell: Result<ReadyShell, ShellError>,
    wall: HearthWall,
}

/// The hearth at one load.
#[derive(Debug, Clone, PartialEq)]
pub struct HeartAt {
    /// Share of full load.
    pub load: Ratio,
    /// Hearth, gas and shell in agreement, or why there is no such thing.
    pub solved: Result<HearthSolution, HeartError>,
    /// What the rest of the machine gets: from the solution, or the next best where there is none.
    pub supply: Supply,
}

impl HeartAt {
    /// Whether there is gas at this load of which anything can be told: a hearth too cold makes none that burns, and
    /// what it supplies then only stands in for an answer.
    ///
    /// ```
    /// use hearthplan::{design::example, sizing::heart::HeartModel};
    /// let bare = example::as_first_drawn();
    /// let model = HeartModel::of(&bare);
    /// assert!(model.at(bare.operation.usual_load).makes_gas());
    /// assert!(!model.at(bare.operation.idle_load).makes_gas());
    /// ```
    pub fn makes_gas(&self) -> bool {
        !self.solved.as_ref().is_err_and(HeartError::too_cold)
    }

    /// Whether gas is made, and the wall of the hearth has a temperature.
    pub(crate) fn has_wall(&self) -> bool {
        self.makes_gas() && self.supply.wall_temperature.value.is_finite()
    }

    /// Whose wall is the cooler one.
    pub(crate) fn cooler_wall(&self, other: &Self) -> Ordering {
        let wall = |at: &Self| at.supply.wall_temperature.value;
        wall(self).total_cmp(&wall(other))
    }
}

impl HeartModel {
    /// The model of a design.
    ///
    /// ```
    /// use hearthplan::{design::Design, sizing::heart::HeartModel};
    /// use uom::si::{f64::Ratio, ratio::percent, thermodynamic_temperature::degree_celsius};
    /// let full = HeartModel::of(&Design::default()).at(Ratio::new::<percent>(100.0));
    /// let mean = full.solved.unwrap().profile.mean.get::<degree_celsius>();
    /// assert!(mean > 1050.0 && mean < 1250.0);
    /// ```
    pub fn of(design: &Design) -> Self {
        Self::with_shell(design, ZoneShell::new(design, Zone::Hearth))
    }

    /// The model of a design with other layers around the hearth.
    ///
    /// ```
    /// use hearthplan::{design::Design, sizing::heart::HeartModel};
    /// let design = Design::default();
    /// let same = HeartModel::with_hearth_layers(&design, &design.hearth_layers);
    /// assert_eq!(same, HeartModel::of(&design));
    /// ```
    pub fn with_hearth_layers(design: &Design, layers: &[Layer]) -> Self {
        Self::with_shell(design, ZoneShell::with_layers(design, Zone::Hearth, layers))
    }

    /// This model with other layers around the hearth; all the rest of the design is the same.
    pub(crate) fn relined(&self, design: &Design, layers: &[Layer]) -> Self {
        let hearth = ZoneShell::with_layers(design, Zone::Hearth, layers);
        Self {
            gasifier: self.gasifier.clone(),
            draw: self.draw.clone(),
            shell: match (hearth, &self.shell) {
                (Ok(hearth), Ok(shell)) => Ok(ReadyShell { hearth, ..*shell }),
                (hearth, _) => hearth.and_then(|hearth| ReadyShell::of(design, hearth)),
            },
            wall: self.wall,
        }
    }

    fn with_shell(design: &Design, hearth: Result<ZoneShell, ShellError>) -> Self {
        let making = &design.gas_making;
        let gasifier = fuel_of(design).map(|fuel| Gasifier {
            fuel,
            char: CharBed {
                share: char_share_of(design),
                drawn: char_drawn_of(design),
                ..CharBed::default()
            },
            air: match making.air_rule {
                AirRule::CharLimited => AirClosure::CharLimited {
                    freeze_temperature: making.freeze_temperature,
                },
                AirRule::AirHeld => AirClosure::AirHeld {
                    equivalence_ratio: making.equivalence_ratio,
                },
            },
            pressure: Pressure::new::<pascal>(pressure_at_altitude(design.site.altitude.value)),
        });
        let draw = match design.operation.flow_source {
            FlowSource::Entered => Ok(Draw::Gas(design.operation.full_gas_flow)),
            FlowSource::Engine => engine_of(design)
                .and_then(|engine| engine.normal_mixture(&intake_of(design)))
                .map(Draw::Mixture),
        };
        Self {
            gasifier,
            draw,
            shell: hearth.and_then(|hearth| ReadyShell::of(design, hearth)),
            wall: HearthWall {
                radius: radius(design),
                conductivity: making.char_conductivity,
            },
        }
    }

    /// The hearth at a share of full load, 0.02 to 1.2.
    ///
    /// ```
    /// use hearthplan::{design::Design, sizing::heart::HeartModel};
    /// use uom::si::{f64::Ratio, ratio::percent};
    /// let model = HeartModel::of(&Design::default());
    /// let loss = |load| {
    ///     let at = model.at(Ratio::new::<percent>(load));
    ///     at.solved.unwrap().gas.loss_share
    /// };
    /// assert!(loss(50.0) > loss(100.0));
    /// ```
    pub fn at(&self, load: Ratio) -> HeartAt {
        self.at_beside(load, None)
    }

    /// As [`at`](Self::at), where another load or shell has been solved.
    pub(crate) fn at_beside(&self, load: Ratio, solved: Option<&HearthSolution>) -> HeartAt {
        let closed = solved.map_or_else(Near::default, |solution| solution.closed);
        self.at_from(load, (USUAL_WALL, closed))
    }

    /// The hearth at the three loads, each looked for from where the one before was found.
    pub fn at_loads(&self, loads: &AtLoads<Ratio>) -> AtLoads<HeartAt> {
        let mut near = (USUAL_WALL, Near::default());
        loads.map(|load| {
            let at = self.at_from(*load, near);
            if let Ok(solution) = &at.solved {
                near = (solution.profile.wall.value, solution.closed);
            }
            at
        })
    }

    /// As [`at`](Self::at), looked for from a wall temperature in K and closed balances.
    fn at_from(&self, load: Ratio, near: (f64, Near)) -> HeartAt {
        let solved = self.solve_from(load, near);
        let supply = match &solved {
            Ok(solution) => Supply::solved(solution),
            Err(_) => self.next_best(load),
        };
        HeartAt {
            load,
            solved,
            supply,
        }
    }

    /// Hearth, gas and shell in agreement at a share of full load.
    ///
    /// # Errors
    /// [`HeartError`] with the reason; [`HeartError::too_cold`] tells whether the hearth itself is the reason.
    pub fn solve(&self, load: Ratio) -> Result<HearthSolution, HeartError> {
        self.solve_beside(load, None)
    }

    /// As [`solve`](Self::solve), where another load has been solved.
    pub(crate) fn solve_beside(
        &self,
        load: Ratio,
        solved: Option<&HearthSolution>,
    ) -> Result<HearthSolution, HeartError> {
        let near = solved.map_or((USUAL_WALL, Near::default()), |solution| {
            (solution.profile.wall.value, solution.closed)
        });
        self.solve_from(load, near)
    }

    fn solve_from(&self, load: Ratio, near: (f64, Near)) -> Result<HearthSolution, HeartError> {
        let gasifier = self.gasifier.as_ref().map_err(|error| error.clone())?;
        let shell = self.shell.as_ref().map_err(|error| error.clone())?;
        let draw = match *self.draw.as_ref().map_err(|error| error.clone())? {
            Draw::Mixture(rate) => Load::Mixture(rate * load),
            Draw::Gas(rate) => Load::Gas(rate * load),
        };
        let ask = |inside| shell.loss(inside);
        let solution = solve_near(gasifier, draw, self.wall, near, ask)?;
        if solution.gas.lower_heating_value < WEAKEST_GAS {
            return Err(HeartError::NoGas);
        }
        Ok(solution)
    }

    /// What each zone loses when the hearth wall is this hot inside; none when a zone could not be computed.
    ///
    /// ```
    /// use hearthplan::{design::Design, sizing::heart::HeartModel, sizing::zone::Zone};
    /// let design = Design::default();
    /// let losses = HeartModel::of(&design).zone_losses(design.limits.tar_temperature);
    /// assert!(losses.iter().all(|(_, loss)| loss.value > 0.0));
    /// assert_eq!(losses.len(), Zone::ALL.len());
    /// ```
    pub fn zone_losses(&self, wall: ThermodynamicTemperature) -> Vec<(Zone, Power)> {
        let Some((shell, flux)) = self
            .shell
            .as_ref()
            .ok()
            .and_then(|shell| Some((shell, shell.flux(wall).ok()?)))
        else {
            return Vec::new();
        };
        vec![
            (Zone::Hearth, flux * shell.area),
            (Zone::Body, shell.body),
            (Zone::Lid, shell.lid),
            (Zone::Bottom, shell.bottom),
        ]
    }

    /// What to reckon with where hearth and shell do not agree: the gas of a hearth that loses nothing, and where the
    /// fuel gives none either, gas as published.
    fn next_best(&self, load: Ratio) -> Supply {
        let none = Ratio::new::<ratio>(0.0);
        let lossless = self.gasifier.as_ref().ok().and_then(|gasifier| {
            gasifier
                .solve(HeatLoss::Share {
                    at_or_above_nozzle: none,
                    below_nozzle: none,
                })
                .ok()
        });
        let mean = lossless.map(|gas| gas.hearth_temperature);
        let inside = self.wall_under(
            mean.unwrap_or(ThermodynamicTemperature::new::<kelvin>(supply::USUAL_MEAN)),
        );
        let loss = self
            .shell
            .as_ref()
            .ok()
            .and_then(|shell| shell.loss(inside).ok());
        Supply::next_best(
            lossless.as_ref(),
            inside,
            loss,
            |stoichiometric_air| match self.draw {
                Ok(Draw::Gas(rate)) => rate * load,
                Ok(Draw::Mixture(rate)) => rate * load / (1.0 + stoichiometric_air),
                Err(_) => supply::USUAL_FLOW * load,
            },
        )
    }

    /// The wall's temperature if the hearth held this mean temperature whatever the shell takes.
    fn wall_under(&self, mean: ThermodynamicTemperature) -> ThermodynamicTemperature {
        let half_drop_per_flux = self.wall.radius.value / (4.0 * self.wall.conductivity.value);
        let found = self.shell.as_ref().ok().and_then(|shell| {
            supply::wall_temperature(mean.value, |inside| {
                let flux = shell
                    .flux(ThermodynamicTemperature::new::<kelvin>(inside))
                    .ok()?;
                Some(mean.value - flux.value * shell.spread * half_drop_per_flux)
            })
        });
        found.map_or(mean, ThermodynamicTemperature::new::<kelvin>)
    }
}
