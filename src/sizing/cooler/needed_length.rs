//! How long must the tubes of a cooler be?

use super::{Cooler, CoolerError, CoolerKind, boils_at};
use crate::physics::solve::bracketed;
use crate::sizing::nozzles::Surroundings;
use crate::sizing::train::{Detail, GasState, StageError, StageOutcome};
use uom::si::f64::{Length, ThermodynamicTemperature};
use uom::si::length::meter;
use uom::si::thermodynamic_temperature::kelvin;

/// Longest tube looked at when a length is wanted, m.
pub(super) const LONGEST: f64 = 60.0;
/// Shortest tube looked at, m.
pub(super) const SHORTEST: f64 = 0.05;
/// How near to the wish the gas must come when a length is wanted, K.
const CLOSE_ENOUGH: f64 = 0.01;
/// Steps towards a length before halving does the rest.
const NEWTON_STEPS: u32 = 8;

/// How the way through the tubes ends: gas and what cools it in K, and the rate at which they come nearer, 1/m.
struct Ending {
    outlet: f64,
    sink: f64,
    rate: f64,
}

impl Cooler {
    /// Shortest length of each tube that cools the gas to `outlet`, 0.05 to 60 m.
    ///
    /// # Errors
    /// [`CoolerError::NotReached`] or [`CoolerError::TooWarmAround`] if no length does, or the reason why the cooler cannot be computed.
    ///
    /// ```
    /// use hearthplan::sizing::train::{Stage, example};
    /// use uom::si::{f64::*, thermodynamic_temperature::degree_celsius};
    /// let load = example::full_load();
    /// let cooler = example::cooler();
    /// let wanted = ThermodynamicTemperature::new::<degree_celsius>(120.0);
    /// let length = cooler.needed_length(&load.start, &load.circumstances.surroundings, wanted)?;
    /// let longer = hearthplan::sizing::cooler::Cooler { length, ..cooler };
    /// let out = Stage::Cooler(longer).pass(&load.start, &load.circumstances)?.out;
    /// assert!((out.temperature.get::<degree_celsius>() - 120.0).abs() < 0.05);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn needed_length(
        &self,
        gas: &GasState,
        surroundings: &Surroundings,
        outlet: ThermodynamicTemperature,
    ) -> Result<Length, CoolerError> {
        self.needed_length_knowing(gas, surroundings, outlet, None)
    }

    /// As [`needed_length`](Self::needed_length), where it may be known what the cooler does as it is.
    pub(crate) fn needed_length_knowing(
        &self,
        gas: &GasState,
        surroundings: &Surroundings,
        outlet: ThermodynamicTemperature,
        known: Option<&StageOutcome>,
    ) -> Result<Length, CoolerError> {
        gas.check()?;
        let wish = outlet.value;
        let coldest = match self.kind {
            CoolerKind::WaterJacket { inlet, .. } => inlet,
            CoolerKind::StandingWater { .. } => {
                let boils = ThermodynamicTemperature::new::<kelvin>(boils_at(surroundings)?);
                if boils < gas.temperature {
                    boils
                } else {
                    gas.temperature
                }
            }
            CoolerKind::Bare | CoolerKind::Finned(_) | CoolerKind::FanBlown { .. } => {
                surroundings.temperature
            }
        };
        // It nears what cools it, and never gets there.
        if gas.temperature.value > wish && coldest.value >= wish {
            return Err(CoolerError::TooWarmAround);
        }
        let ending = |length| self.ending(length, gas, surroundings);
        let known = known.and_then(|outcome| match &outcome.detail {
            Detail::Cooler(result) => Some(Ending {
                outlet: outcome.out.temperature.value,
                sink: result.water.unwrap_or(surroundings.temperature).value,
                rate: result.rate_at_outlet,
            }),
            _ => None,
        });
        self.by_rate(wish, known, ending)
            .map_or_else(|| by_halving(wish, ending), Ok)
            .map(Length::new::<meter>)
    }

    /// How the way ends through tubes of another length, m.
    fn ending(
        &self,
        length: f64,
        gas: &GasState,
        surroundings: &Surroundings,
    ) -> Result<Ending, StageError> {
        let (run, _) = Cooler {
            length: Length::new::<meter>(length),
            ..*self
        }
        .run(gas, surroundings)?;
        Ok(Ending {
            outlet: run.outlet,
            sink: run.sink,
            rate: run.rate_at_outlet,
        })
    }

    /// From the present length the rate at the outlet says how much more or less is needed, m. None where that does not
    /// settle.
    fn by_rate(
        &self,
        wish: f64,
        mut known: Option<Ending>,
        ending: impl Fn(f64) -> Result<Ending, StageError>,
    ) -> Option<f64> {
        let mut length = self.length.value.clamp(SHORTEST, LONGEST);
        for _ in 0..NEWTON_STEPS {
            let Ending { outlet, sink, rate } = known.take().or_else(|| ending(length).ok())?;
            if (outlet - wish).abs() < CLOSE_ENOUGH {
                return Some(length);
            }
            let more = ((outlet - sink) / (wish - sink)).ln() / rate;
            let next = (length + more).clamp(SHORTEST, LONGEST);
            if next.is_nan() || next == length {
                return None;
            }
            length = next;
        }
        None
    }
}

/// Between the shortest tube looked at and the longest, m.
fn by_halving(
    wish: f64,
    ending: impl Fn(f64) -> Result<Ending, StageError>,
) -> Result<f64, CoolerError> {
    let excess = |length: f64| -> Result<f64, StageError> { Ok(ending(length)?.outlet - wish) };
    if excess(SHORTEST)? <= 0.0 {
        return Ok(SHORTEST);
    }
    // NaN is not reached either.
    let reached = excess(LONGEST)? <= 0.0;
    if !reached {
        return Err(CoolerError::NotReached);
    }
    bracketed(SHORTEST, LONGEST, 1e-5, |length| {
        excess(length).unwrap_or(f64::NAN)
    })
    .map(|root| root.at)
    .map_err(|why| CoolerError::Stage(why.into()))
}
