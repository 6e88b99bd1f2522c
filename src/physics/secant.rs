//! Where a rising function crosses zero, when a good first guess is at hand: secant steps inside a bracket whose
//! ends are only tried if a step leads there. A gas solution takes four or five steps this way.

/// Why no crossing was found.
#[derive(Debug, Clone, PartialEq)]
pub enum NoCrossing<E> {
    /// The function is already positive at the low end.
    BelowRange,
    /// The function is still negative at the high end.
    AboveRange,
    /// The steps ran out; the last place tried.
    NotSettled(f64),
    /// The function itself failed.
    Function(E),
}

/// Where to look and when to stop; all in the unit of the argument, but `value_tolerance` in that of the function.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Search {
    /// Lowest argument.
    pub low: f64,
    /// Highest argument.
    pub high: f64,
    /// First place tried.
    pub first: f64,
    /// Slope expected near the crossing, for the step from the first place to the second; above zero.
    pub expected_slope: f64,
    /// Stop when the function is this near to zero.
    pub value_tolerance: f64,
    /// Stop when the next step is shorter than this.
    pub step_tolerance: f64,
}

/// Where a function crosses zero, and how steeply it rises there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossing {
    /// The argument.
    pub at: f64,
    /// The slope between the last two places tried; the slope expected if the first place was right at once.
    pub slope: f64,
}

/// Argument at which the rising function `f` is zero.
///
/// A value that is not a number counts as "did not settle"; an infinite value counts by its sign.
///
/// # Errors
/// [`NoCrossing`], with the side on which the crossing lies if it is outside the range.
///
/// ```
/// use hearthplan::physics::secant::{crossing, Search};
/// let search = Search {
///     low: 0.0, high: 10.0, first: 1.0, expected_slope: 3.0, value_tolerance: 1e-12, step_tolerance: 1e-12,
/// };
/// let root = crossing(search, |x| Ok::<f64, ()>(x * x - 2.0)).unwrap();
/// assert!((root - 2.0_f64.sqrt()).abs() < 1e-12);
/// ```
pub fn crossing<E>(
    search: Search,
    f: impl FnMut(f64) -> Result<f64, E>,
) -> Result<f64, NoCrossing<E>> {
    crossing_with_slope(search, f).map(|found| found.at)
}

/// As [`crossing`], with the slope, which lets the search for a crossing nearby take shorter steps.
///
/// # Errors
/// [`NoCrossing`], as [`crossing`].
///
/// ```
/// use hearthplan::physics::secant::{crossing_with_slope, Search};
/// let search = Search {
///     low: 0.0, high: 10.0, first: 1.0, expected_slope: 3.0, value_tolerance: 1e-12, step_tolerance: 1e-12,
/// };
/// let found = crossing_with_slope(search, |x| Ok::<f64, ()>(x * x - 2.0)).unwrap();
/// assert!((found.slope / (2.0 * found.at) - 1.0).abs() < 0.01);
/// ```
pub fn crossing_with_slope<E>(
    search: Search,
    mut f: impl FnMut(f64) -> Result<f64, E>,
) -> Result<Crossing, NoCrossing<E>> {
    const MOST_STEPS: usize = 90;
    let Search {
        low,
        high,
        first,
        expected_slope,
        value_tolerance,
        step_tolerance,
    } = search;
    let (mut below, mut above) = (low, high);
    let mut x = first.max(low).min(high);
    let mut previous: Option<(f64, f64)> = None;
    let mut same_side = 0;
    let mut steepness = expected_slope;
    for _ in 0..MOST_STEPS {
        let value = f(x).map_err(NoCrossing::Function)?;
        if value.is_nan() {
            return Err(NoCrossing::NotSettled(x));
        }
        if value.abs() <= value_tolerance {
            return Ok(Crossing {
                at: x,
                slope: steepness,
            });
        }
        let positive = value > 0.0;
        if positive && x <= low {
            return Err(NoCrossing::BelowRange);
        }
        if !positive && x >= high {
            return Err(NoCrossing::AboveRange);
        }
        if positive {
            above = x;
        } else {
            below = x;
        }
        let next = match previous {
            None => x - value / expected_slope,
            Some((old_x, old_value)) => {
                same_side = if (old_value > 0.0) == positive {
                    same_side + 1
                } else {
                    0
                };
                let slope = (value - old_value) / (x - old_x);
                if slope.is_finite() && slope > 0.0 {
                    steepness = slope;
                }
                // Creeping up on the crossing from one side: halve the bracket instead.
                if slope.is_finite() && slope > 0.0 && same_side < 4 {
                    x - value / slope
                } else {
                    same_side = 0;
                    // An end not tried yet may tell at once that there is no crossing.
                    match (value.is_finite(), positive) {
                        (true, false) if above >= high => high,
                        (true, true) if below <= low => low,
                        _ => 0.5 * (below + above),
                    }
                }
            }
        };
        // Outside the bracket: try the end of the range once, then halve.
        let next = if next > below && next < above {
            next
        } else if next >= above && above >= high && x < high && previous.is_some() {
            high
        } else if next <= below && below <= low && x > low && previous.is_some() {
            low
        } else {
            0.5 * (below + above)
        };
        if (next - x).abs() <= step_tolerance && value.is_finite() {
            return Ok(Crossing {
                at: next,
                slope: steepness,
            });
        }
        // A jump or an infinite value inside the last sliver is no crossing.
        if next == x || above - below <= step_tolerance.max(f64::EPSILON * above.abs()) {
            return Err(NoCrossing::NotSettled(x));
        }
        previous = Some((x, value));
        x = next;
    }
    Err(NoCrossing::NotSettled(x))
}
