//! Steady heat flow from a hot face through a stack of layers to the air outside.
//!
//! The unknown is the temperature of the outside surface. For any guess of it the flow into the air is known at once,
//! and each layer then gives the temperature on its hot side, exactly for solids. The guess is right when the hot face
//! comes out as given. Everything rises with the guess, so there is one answer and it stays bracketed.

use super::air;
use super::convection::{self, Surroundings};
use super::error::{PhysicsError, within};
use super::layers::{Path, Stack};
use super::radiation::{self, fourth_power};

/// Guesses after which the solver gives up; six are usual.
const MOST_GUESSES: u32 = 100;

/// Outside of the wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outside {
    /// Air around: 200 to 400 K, 20 to 120 kPa, wind 0 to 60 m/s. What the surface radiates to is as warm as the air.
    pub surroundings: Surroundings,
    /// Emittance of the outside surface, 0 to 1.
    pub emittance: f64,
}

impl Outside {
    /// Still air at sea-level pressure and `air_temperature` in K.
    pub fn still(air_temperature: f64, emittance: f64) -> Outside {
        Outside {
            surroundings: Surroundings {
                air_temperature,
                pressure: air::STANDARD_PRESSURE,
                wind_speed: 0.0,
            },
            emittance,
        }
    }

    fn check(&self) -> Result<(), PhysicsError> {
        let around = &self.surroundings;
        within("air temperature", "K", around.air_temperature, 200.0, 400.0)?;
        within("air pressure", "Pa", around.pressure, 2.0e4, 1.2e5)?;
        within("wind speed", "m/s", around.wind_speed, 0.0, 60.0)?;
        within("emittance of the outside", "", self.emittance, 0.0, 1.0)?;
        Ok(())
    }
}

/// Heat leaving the outside surface, split by how it leaves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurfaceLoss {
    /// By air, natural or wind whichever is greater, W/(m²·K).
    pub convective_coefficient: f64,
    /// By radiation, W/(m²·K).
    pub radiative_coefficient: f64,
}

impl SurfaceLoss {
    /// Both together, W/(m²·K).
    pub fn total_coefficient(&self) -> f64 {
        self.convective_coefficient + self.radiative_coefficient
    }
}

/// Steady state of a wall.
#[derive(Debug, Clone, PartialEq)]
pub struct SteadyState {
    /// Heat flow from the hot face to the air, W; negative if the air is hotter.
    pub heat_flow: f64,
    /// Heat flux at the hot face, W/m².
    pub inner_flux: f64,
    /// Heat flux at the outside surface, W/m².
    pub outer_flux: f64,
    /// Temperature of each face in K: hot face, between the layers, outside surface.
    pub interfaces: Vec<f64>,
    /// Temperature of the outside surface, K.
    pub surface_temperature: f64,
    /// Coefficients at the outside surface.
    pub surface_loss: SurfaceLoss,
    /// Guesses the solver needed.
    pub iterations: u32,
}

/// What one guess led to.
struct Balance {
    surface: f64,
    heat_flow: f64,
    surface_loss: SurfaceLoss,
    iterations: u32,
}

impl Stack {
    /// Steady state with the hot face at `hot_face` in K, 150 to 3000.
    ///
    /// The temperatures agree to 1e-4 K or better.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`] for an input out of range, [`PhysicsError::NotConverged`] if the iteration ends
    /// without an answer.
    ///
    /// ```
    /// use hearthplan::physics::conductivity::ConductivityCurve;
    /// use hearthplan::physics::layers::{Layer, Shape, Stack};
    /// use hearthplan::physics::steady::Outside;
    /// let shape = Shape::Cylinder { inner_radius: 0.15, length: 0.5 };
    /// let wool = Layer::Solid { thickness: 0.05, conductivity: ConductivityCurve::constant(0.06)? };
    /// let found = Stack::new(shape, &[wool])?.steady(673.15, &Outside::still(293.15, 0.9))?;
    /// assert!(found.heat_flow > 190.0 && found.heat_flow < 230.0);
    /// assert_eq!(found.interfaces.len(), 2);
    /// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
    /// ```
    pub fn steady(&self, hot_face: f64, outside: &Outside) -> Result<SteadyState, PhysicsError> {
        let balance = self.balance(hot_face, outside)?;
        let mut interfaces = Vec::with_capacity(self.paths().len() + 1);
        let mut temperature = balance.surface;
        interfaces.push(temperature);
        for path in self.paths().iter().rev() {
            temperature = path.hot_side(temperature, balance.heat_flow);
            interfaces.push(temperature);
        }
        interfaces.reverse();
        Ok(SteadyState {
            heat_flow: balance.heat_flow,
            inner_flux: balance.heat_flow / self.inner_area(),
            outer_flux: balance.heat_flow / self.outer_area(),
            interfaces,
            surface_temperature: balance.surface,
            surface_loss: balance.surface_loss,
            iterations: balance.iterations,
        })
    }

    /// Heat flux into the hot face in W/m² when it is at `hot_face` in K. As [`steady`](Self::steady), but without the
    /// list of temperatures, for solvers that ask many times.
    ///
    /// # Errors
    /// As [`steady`](Self::steady).
    pub fn inner_flux(&self, hot_face: f64, outside: &Outside) -> Result<f64, PhysicsError> {
        Ok(self.balance(hot_face, outside)?.heat_flow / self.inner_area())
    }

    /// Coefficients at the outside surface when it is at `surface` in K. Inputs are not checked.
    pub(crate) fn surface_loss(&self, surface: f64, outside: &Outside) -> SurfaceLoss {
        let around = &outside.surroundings;
        let form = self.shape().outside_surface(self.thickness());
        SurfaceLoss {
            convective_coefficient: convection::governing_coefficient(form, surface, around),
            radiative_coefficient: radiation::coefficient(
                outside.emittance,
                surface,
                around.air_temperature,
            ),
        }
    }

    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn balance(&self, hot_face: f64, outside: &Outside) -> Result<Balance, PhysicsError> {
        within("temperature of the hot face", "K", hot_face, 150.0, 3000.0)?;
        outside.check()?;
        let air = outside.surroundings.air_temperature;
        let area = self.outer_area();
        let whole = hot_face - air;
        if whole.abs() < 1e-9 {
            return Ok(Balance {
                surface: air,
                heat_flow: 0.0,
                surface_loss: self.surface_loss(air, outside),
                iterations: 0,
            });
        }
        let tolerance = (1e-7 * whole.abs()).min(1e-4);
        // Work with shares of the whole difference: the surface's share is the unknown, the hot face must come out
        // as 1. The two follow nearly a power law, so secant steps are taken on their logarithms.
        let (mut low, mut high) = (0.0, 1.0);
        let mut share = self.first_share(hot_face, air, area);
        let mut moved = 0.0;
        let mut before = None;
        let mut residual = f64::NAN;
        for iterations in 1..=MOST_GUESSES {
            let surface = air + share * whole;
            let surface_loss = self.surface_loss(surface, outside);
            let heat_flow = surface_loss.total_coefficient() * area * (surface - air);
            let reached = self.hot_face_for(surface, heat_flow);
            residual = reached - hot_face;
            if residual.abs() <= tolerance {
                return Ok(Balance {
                    surface,
                    heat_flow,
                    surface_loss,
                    iterations,
                });
            }
            let outcome = (reached - air) / whole;
            if outcome > 1.0 {
                high = share;
            } else {
                low = share;
            }
            let logarithm = outcome.ln();
            let steepness = match before {
                Some(old) => (logarithm - old) / moved,
                None => 1.1,
            };
            before = Some(logarithm);
            moved = -logarithm / steepness;
            let step = share * moved.exp();
            // Not a number, or outside what is known: halve instead.
            if step > low && step < high {
                share = step;
            } else {
                let middle = 0.5 * (low + high);
                moved = (middle / share).ln();
                share = middle;
            }
        }
        Err(PhysicsError::NotConverged {
            quantity: "temperature of the outside surface",
            iterations: MOST_GUESSES,
            residual,
        })
    }

    /// Temperature of the hot face, K, that sends `heat_flow` in W to an outside surface at `surface` in K.
    pub(crate) fn hot_face_for(&self, surface: f64, heat_flow: f64) -> f64 {
        self.paths()
            .iter()
            .rev()
            .fold(surface, |cold, path| path.hot_side(cold, heat_flow))
    }

    /// Rough share of the difference that lies between outside surface and air.
    fn first_share(&self, hot_face: f64, air: f64, area: f64) -> f64 {
        /// Typical coefficient of a warm surface in a room, W/(m²·K).
        const ROUGH_COEFFICIENT: f64 = 12.0;
        let middle = 0.5 * (hot_face + air);
        let through: f64 = self
            .paths()
            .iter()
            .map(|path| 1.0 / path.conductance(middle, middle))
            .sum();
        let off = 1.0 / (ROUGH_COEFFICIENT * area);
        off / (off + through)
    }
}

impl Path {
    /// Temperature of the hot side, K, when the cold side is at `cold` in K and `heat_flow` in W passes.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub(crate) fn hot_side(&self, cold: f64, heat_flow: f64) -> f64 {
        match self {
            Path::Solid { curve, factor } => {
                curve.temperature_of_integral(curve.integral(cold) + heat_flow / factor)
            }
            Path::StillAir { factor, radiation } => {
                gap_hot_side(*factor, *radiation, cold, heat_flow)
            }
        }
    }

    /// Heat flow in W per kelvin between faces at the two temperatures in K.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub(crate) fn conductance(&self, hot: f64, cold: f64) -> f64 {
        match self {
            Path::Solid { curve, factor } => factor * curve.mean(hot, cold),
            Path::StillAir { factor, radiation } => {
                factor * air::conductivity(0.5 * (hot + cold))
                    + radiation * (hot * hot + cold * cold) * (hot + cold)
            }
        }
    }
}

/// Solves conduction + radiation = `heat_flow` for the hot side by Newton's rule.
///
/// The sum is convex, so after its first step the rule comes down on the answer from above and cannot miss it.
fn gap_hot_side(factor: f64, radiation: f64, cold: f64, heat_flow: f64) -> f64 {
    let conducted_from = air::conductivity_integral(cold);
    let radiated_from = fourth_power(cold);
    let mut hot = cold;
    for _ in 0..60 {
        let flow = factor * (air::conductivity_integral(hot) - conducted_from)
            + radiation * (fourth_power(hot) - radiated_from);
        let slope = factor * air::conductivity(hot) + 4.0 * radiation * hot * hot * hot.abs();
        let step = (heat_flow - flow) / slope;
        hot += step;
        if step.is_nan() || step.abs() < 1e-9 * hot.abs() {
            break;
        }
        // With radiation alone the hot side cannot be above this; saves a long way down from a wild first step.
        if heat_flow > 0.0 && radiation > 0.0 {
            hot = hot.min(
                (radiated_from.max(0.0) + heat_flow / radiation)
                    .sqrt()
                    .sqrt(),
            );
        }
    }
    hot
}
