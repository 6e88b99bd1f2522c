//! Conductivity of a material that changes with temperature.

use super::error::{PhysicsError, within};

/// Most points a curve can hold; data sheets seldom give more.
pub const MOST_POINTS: usize = 5;

/// One point of a conductivity curve.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ConductivityPoint {
    /// Mean temperature, K.
    pub temperature: f64,
    /// Conductivity there, W/(m·K).
    pub conductivity: f64,
}

/// Conductivity against temperature: straight lines between up to five points, constant beyond the ends.
///
/// The curve carries its own integral, so the steady heat flow through a layer needs no iteration: with
/// Θ(T) = ∫ k dT the flow is (Θ(hot) − Θ(cold)) times a shape factor (Kirchhoff's transformation; Carslaw and Jaeger,
/// Conduction of Heat in Solids, 1959, section 1.6).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ConductivityCurve {
    points: [ConductivityPoint; MOST_POINTS],
    /// Θ at each point, W/m, zero at the first.
    integrals: [f64; MOST_POINTS],
    /// Slope from each point to the next, W/(m·K²); zero from the last.
    slopes: [f64; MOST_POINTS],
    count: usize,
}

impl ConductivityCurve {
    /// Builds a curve from one to five points in rising order of temperature.
    ///
    /// Temperatures 1 to 4000 K at least 0.01 K apart, conductivities 1e-4 to 1000 W/(m·K).
    ///
    /// # Errors
    /// [`PhysicsError`] if there are too few or too many points, a value is out of range or the order is wrong.
    ///
    /// ```
    /// use hearthplan::physics::conductivity::{ConductivityCurve, ConductivityPoint};
    /// let blanket = ConductivityCurve::new(&[
    ///     ConductivityPoint { temperature: 473.15, conductivity: 0.06 },
    ///     ConductivityPoint { temperature: 873.15, conductivity: 0.15 },
    /// ])?;
    /// assert!((blanket.at(673.15) - 0.105).abs() < 1e-12);
    /// assert_eq!(blanket.at(2000.0), 0.15);
    /// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
    /// ```
    pub fn new(given: &[ConductivityPoint]) -> Result<Self, PhysicsError> {
        if given.is_empty() || given.len() > MOST_POINTS {
            return Err(PhysicsError::Impossible {
                quantity: "conductivity curve",
                reason: "it needs one to five points",
            });
        }
        let mut curve = ConductivityCurve {
            points: [ConductivityPoint::default(); MOST_POINTS],
            integrals: [0.0; MOST_POINTS],
            slopes: [0.0; MOST_POINTS],
            count: given.len(),
        };
        let mut before: Option<(ConductivityPoint, f64)> = None;
        let places = curve.points.iter_mut().zip(curve.integrals.iter_mut());
        for (point, (place, integral)) in given.iter().zip(places) {
            within(
                "temperature of a conductivity",
                "K",
                point.temperature,
                1.0,
                4000.0,
            )?;
            within("conductivity", "W/(m·K)", point.conductivity, 1e-4, 1000.0)?;
            if let Some((last, sum)) = before {
                let step = point.temperature - last.temperature;
                if step < 0.01 {
                    return Err(PhysicsError::Impossible {
                        quantity: "conductivity curve",
                        reason: "its temperatures must rise by at least 0.01 K each",
                    });
                }
                *integral = sum + step * 0.5 * (point.conductivity + last.conductivity);
            }
            *place = *point;
            before = Some((*point, *integral));
        }
        for (slope, (from, to)) in
            (curve.slopes.iter_mut()).zip(given.iter().zip(given.iter().skip(1)))
        {
            *slope = (to.conductivity - from.conductivity) / (to.temperature - from.temperature);
        }
        Ok(curve)
    }

    /// The same conductivity, W/(m·K), at every temperature.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`] outside 1e-4 to 1000.
    pub fn constant(conductivity: f64) -> Result<Self, PhysicsError> {
        Self::new(&[ConductivityPoint {
            temperature: 300.0,
            conductivity,
        }])
    }

    /// The points the curve was built from.
    pub fn points(&self) -> &[ConductivityPoint] {
        self.points.get(..self.count).unwrap_or(&self.points)
    }

    /// Conductivity in W/(m·K) at `temperature` in K.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub fn at(&self, temperature: f64) -> f64 {
        let (point, _, slope) = self.segment_at(temperature);
        point.conductivity + slope * (temperature - point.temperature)
    }

    /// Exact mean conductivity, W/(m·K), between two temperatures in K, in either order.
    ///
    /// ```
    /// use hearthplan::physics::conductivity::{ConductivityCurve, ConductivityPoint};
    /// let curve = ConductivityCurve::new(&[
    ///     ConductivityPoint { temperature: 300.0, conductivity: 0.1 },
    ///     ConductivityPoint { temperature: 500.0, conductivity: 0.3 },
    /// ])?;
    /// // Half the way at 0.1, half on the rise from 0.1 to 0.3.
    /// assert!((curve.mean(100.0, 500.0) - 0.15).abs() < 1e-12);
    /// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
    /// ```
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub fn mean(&self, one: f64, other: f64) -> f64 {
        self.mean_onwards(one, other, &mut None)
    }

    /// As [`mean`](Self::mean), going on from temperature to temperature: `integral` is that of the first of the two if
    /// it is known, and becomes that of the second.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub(super) fn mean_onwards(&self, one: f64, other: f64, integral: &mut Option<f64>) -> f64 {
        let difference = other - one;
        // Too close for a difference of integrals to keep its digits; the middle is exact to the same order.
        if difference.abs() < 1e-3 {
            *integral = None;
            return self.at(0.5 * (one + other));
        }
        let before = integral.unwrap_or_else(|| self.integral(one));
        let after = self.integral(other);
        *integral = Some(after);
        (after - before) / difference
    }

    /// Θ in W/m: conductivity integrated from the first point's temperature to `temperature` in K.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub fn integral(&self, temperature: f64) -> f64 {
        let (point, integral, slope) = self.segment_at(temperature);
        let step = temperature - point.temperature;
        integral + step * (point.conductivity + 0.5 * slope * step)
    }

    /// Temperature in K whose [`integral`](Self::integral) is `integral` in W/m. The inverse, exact.
    pub fn temperature_of_integral(&self, integral: f64) -> f64 {
        let (point, base, slope) = self.segment_of_integral(integral);
        let rest = integral - base;
        // Root of slope/2 step² + k step = rest, written so that a zero slope needs no special case.
        let root = (point.conductivity * point.conductivity + 2.0 * slope * rest).max(0.0);
        point.temperature + 2.0 * rest / (point.conductivity + root.sqrt())
    }

    /// Point to start from, its integral, and the slope of conductivity to use for `temperature`.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn segment_at(&self, temperature: f64) -> (ConductivityPoint, f64, f64) {
        self.segment(|point, _| point.temperature > temperature)
    }

    fn segment_of_integral(&self, sought: f64) -> (ConductivityPoint, f64, f64) {
        self.segment(|_, integral| integral > sought)
    }

    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn segment(
        &self,
        beyond: impl Fn(&ConductivityPoint, f64) -> bool,
    ) -> (ConductivityPoint, f64, f64) {
        let known = self.points.iter().zip(&self.integrals).take(self.count);
        let passed = known.take_while(|(point, integral)| !beyond(point, **integral));
        let (place, slopes) = match passed.count() {
            0 => (0, &[0.0; MOST_POINTS]),
            passed => (passed - 1, &self.slopes),
        };
        match (
            self.points.get(place),
            self.integrals.get(place),
            slopes.get(place),
        ) {
            (Some(point), Some(integral), Some(slope)) => (*point, *integral, *slope),
            _ => Default::default(),
        }
    }
}
