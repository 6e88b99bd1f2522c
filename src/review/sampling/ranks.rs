//! Quantiles and rank correlation.

use super::Span;

/// The value below which this share of the numbers lies, straight lines between them; none without numbers.
/// Expects rising order.
///
/// ```
/// use hearthplan::review::sampling::quantile;
/// assert_eq!(quantile(&[1.0, 2.0, 3.0], 0.25), Some(1.5));
/// ```
pub fn quantile(rising: &[f64], share: f64) -> Option<f64> {
    let last = rising.len().checked_sub(1)?;
    let place = share.clamp(0.0, 1.0) * last as f64;
    let below = place.floor() as usize;
    let low = *rising.get(below.min(last))?;
    let high = *rising.get((below + 1).min(last))?;
    Some(low + (high - low) * (place - below as f64))
}

/// The rank of each number, equal numbers sharing their mean rank, moved to a mean of zero and a length of
/// one; none when all are equal. Not a number ranks lowest.
pub fn ranks(numbers: &[f64]) -> Option<Vec<f64>> {
    Rising::of(numbers).ranks()
}

/// Numbers in rising order, those that are none first, each with its place in the row they came from.
pub(super) struct Rising(Vec<(f64, usize)>);

impl Rising {
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub(super) fn of(numbers: &[f64]) -> Self {
        let key = |number: f64| {
            if number.is_nan() {
                f64::NEG_INFINITY
            } else {
                number
            }
        };
        let mut rising: Vec<(f64, usize)> = numbers
            .iter()
            .enumerate()
            .map(|(place, number)| (key(*number), place))
            .collect();
        rising.sort_unstable_by(|one, other| one.0.total_cmp(&other.0));
        Self(rising)
    }

    /// As [`ranks`] of the row they came from.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub(super) fn ranks(&self) -> Option<Vec<f64>> {
        let middle = (self.0.len() as f64 - 1.0) / 2.0;
        let mut centred = vec![0.0; self.0.len()];
        let mut below = 0;
        for equal in self.0.chunk_by(|one, other| one.0 == other.0) {
            let rank = below as f64 + (equal.len() as f64 - 1.0) / 2.0 - middle;
            below += equal.len();
            for (_, place) in equal {
                if let Some(own) = centred.get_mut(*place) {
                    *own = rank;
                }
            }
        }
        to_length_one(centred)
    }

    /// Where the numbers lie; none when less than half of them are finite.
    pub(super) fn span(&self) -> Option<Span<f64>> {
        let finite: Vec<f64> = (self.0.iter())
            .map(|(number, _)| *number)
            .filter(|number| number.is_finite())
            .collect();
        span_of(&finite, self.0.len())
    }
}

/// The same row with the squares of its numbers adding up to one; none where they add up to nothing.
pub(super) fn to_length_one(mut row: Vec<f64>) -> Option<Vec<f64>> {
    let squares: f64 = row.iter().map(|number| number * number).sum();
    if squares <= 0.0 {
        return None;
    }
    let length = squares.sqrt();
    for number in &mut row {
        *number /= length;
    }
    Some(row)
}

/// Where numbers lie, of which the finite ones are given in rising order; none when those are less than half of them.
fn span_of(finite: &[f64], of: usize) -> Option<Span<f64>> {
    if 2 * finite.len() < of {
        return None;
    }
    Some(Span {
        low: quantile(finite, 0.1)?,
        middle: quantile(finite, 0.5)?,
        high: quantile(finite, 0.9)?,
    })
}

/// As the span of [`Rising`], of numbers whose places nobody asks for.
#[cfg_attr(hearthplan_site, optimize(speed))]
pub(super) fn span(mut numbers: Vec<f64>) -> Option<Span<f64>> {
    let of = numbers.len();
    numbers.retain(|number| number.is_finite());
    numbers.sort_unstable_by(f64::total_cmp);
    span_of(&numbers, of)
}

/// Spearman's rank correlation of two rows of numbers, −1 to 1; none when one of them does not vary.
///
/// ```
/// use hearthplan::review::sampling::rank_correlation;
/// let rising = rank_correlation(&[1.0, 2.0, 3.0], &[1.0, 8.0, 27.0]).unwrap();
/// assert!((rising - 1.0).abs() < 1e-12);
/// assert_eq!(rank_correlation(&[1.0, 2.0, 3.0], &[5.0, 5.0, 5.0]), None);
/// ```
pub fn rank_correlation(one: &[f64], other: &[f64]) -> Option<f64> {
    Some(together(&ranks(one)?, &ranks(other)?))
}

/// Sums that are kept beside each other, so that none waits for the one before.
const LANES: usize = 8;

/// The correlation of two rows that [`ranks`] has made.
#[cfg_attr(hearthplan_site, optimize(speed))]
pub(super) fn together(one: &[f64], other: &[f64]) -> f64 {
    let (ones, one_left) = one.as_chunks::<LANES>();
    let (others, other_left) = other.as_chunks::<LANES>();
    let mut sums = [0.0; LANES];
    for (one, other) in ones.iter().zip(others) {
        for (sum, (one, other)) in sums.iter_mut().zip(one.iter().zip(other)) {
            *sum += one * other;
        }
    }
    let left = one_left.iter().zip(other_left);
    let sum = sums.iter().sum::<f64>() + left.map(|(one, other)| one * other).sum::<f64>();
    sum.clamp(-1.0, 1.0)
}

/// How strong a correlation of so many cases must be to stand out from chance, where many inputs are looked
/// at together: four and a half times its scatter without any connection, 1 / √(n − 1). Of some five thousand pairs of finding
/// and input three and a half times would let two stand out by chance alone, in every sampling.
///
/// ```
/// assert!(hearthplan::review::sampling::chance(2_000) < 0.11);
/// ```
pub fn chance(cases: usize) -> f64 {
    4.5 / (cases.max(2) as f64 - 1.0).sqrt()
}
