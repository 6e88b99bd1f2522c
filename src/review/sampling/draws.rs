//! Seeded draws that cover every input evenly.

use super::ranks::to_length_one;

/// A small generator of random numbers (SplitMix64: Steele, Lea and Flood, OOPSLA 2014). Not for secrets.
#[derive(Debug, Clone)]
pub struct Generator(u64);

impl Generator {
    /// The generator of this seed; the same seed gives the same numbers on every machine.
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next 64 random bits.
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A number from 0 up to but not including 1.
    pub fn share(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A whole number below `end`; 0 when `end` is 0.
    pub fn below(&mut self, end: usize) -> usize {
        (self.bits() % end.max(1) as u64) as usize
    }
}

/// A stratified plan of cases: the range of each input is cut into as many equal shares as there are
/// cases, and each share is drawn from exactly once, in an order of its own for each input (Latin
/// hypercube: McKay, Beckman and Conover, Technometrics 21, 1979).
///
/// ```
/// use hearthplan::review::sampling::Draws;
/// let draws = Draws::new(1, 100, ["width", "height"]);
/// let upper_half = (0..100).filter(|&case| draws.share(case, 0) >= 0.5).count();
/// assert_eq!(upper_half, 50);
/// ```
#[derive(Debug, Clone)]
pub struct Draws {
    cases: usize,
    shares: Vec<f64>,
}

impl Draws {
    /// The plan of this seed for so many cases. Each input is told from others by its name, so that
    /// its draws stay the same when other inputs come or go.
    pub fn new<'a>(seed: u64, cases: usize, inputs: impl IntoIterator<Item = &'a str>) -> Self {
        let mut shares = Vec::new();
        for name in inputs {
            let mut generator = Generator::new(seed ^ fingerprint(name));
            let mut order: Vec<usize> = (0..cases).collect();
            for place in (1..cases).rev() {
                order.swap(place, generator.below(place + 1));
            }
            shares.extend(
                order
                    .into_iter()
                    .map(|stratum| (stratum as f64 + generator.share()) / cases as f64),
            );
        }
        Self { cases, shares }
    }

    /// Where in the range of the input the case lies: 0 to 1; the middle for a case that is not planned.
    pub fn share(&self, case: usize, input: usize) -> f64 {
        Some(input * self.cases + case)
            .filter(|_| case < self.cases)
            .and_then(|place| self.shares.get(place))
            .copied()
            .unwrap_or(0.5)
    }

    /// As [`ranks`](super::ranks) of where these cases lie in the range of the input. Since no two of them share a stratum,
    /// they are counted into order, not sorted.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub(super) fn ranks(&self, input: usize, cases: &[usize]) -> Option<Vec<f64>> {
        let last = self.cases.checked_sub(1)?;
        let stratum = |case| ((self.share(case, input) * self.cases as f64) as usize).min(last);
        let mut below = vec![0_u32; self.cases + 1];
        for case in cases {
            *below.get_mut(stratum(*case) + 1)? += 1;
        }
        let mut sum = 0;
        for count in &mut below {
            sum += *count;
            *count = sum;
        }
        let middle = (cases.len() as f64 - 1.0) / 2.0;
        let mut row = Vec::with_capacity(cases.len());
        for case in cases {
            let rank = below.get_mut(stratum(*case))?;
            row.push(f64::from(*rank) - middle);
            *rank += 1;
        }
        to_length_one(row)
    }
}

/// A number made from a name (FNV-1a, by Fowler, Noll and Vo).
fn fingerprint(name: &str) -> u64 {
    name.bytes().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}

/// The value below which this share of a triangular distribution lies: surely between the ends, most
/// likely at the peak (JCGM 100:2008, 4.3.9).
///
/// ```
/// use hearthplan::review::sampling::triangular;
/// assert_eq!(triangular(0.5, 0.0, 1.0, 2.0), 1.0);
/// assert!((triangular(0.125, 0.0, 1.0, 2.0) - 0.5).abs() < 1e-12);
/// ```
pub fn triangular(share: f64, low: f64, peak: f64, high: f64) -> f64 {
    let width = high - low;
    if width.is_nan() || width <= 0.0 {
        return peak;
    }
    let rise = (peak - low) / width;
    let value = if share < rise {
        low + (share * width * (peak - low)).sqrt()
    } else {
        high - ((1.0 - share) * width * (high - peak)).sqrt()
    };
    value.max(low).min(high)
}

#[cfg(test)]
mod tests {
    use super::super::ranks::ranks;
    use super::Draws;

    #[test]
    fn counted_into_order_is_sorted() {
        let draws = Draws::new(7, 300, ["width", "height", "wind"]);
        let some: Vec<usize> = (0..300).filter(|case| case % 7 != 3).collect();
        for cases in [(0..300).collect(), some] {
            for input in 0..3 {
                let drawn: Vec<f64> = cases.iter().map(|&case| draws.share(case, input)).collect();
                let (counted, sorted) = (draws.ranks(input, &cases), ranks(&drawn));
                assert!(counted.is_some() && counted == sorted);
            }
        }
        assert_eq!(draws.ranks(0, &[4]), None);
        assert_eq!(Draws::new(7, 0, ["width"]).ranks(0, &[]), None);
    }
}
