//! The cube root, which convection and friction ask for thousands of times per review.

/// Cube root, right to the last digit or the one before.
///
/// That of the standard library rounds perfectly, and takes ten times as long for it. Here the exponent is divided by
/// three on the bits of the number, which is right to 4 %, and two steps of Halley's method and one of Newton's do the
/// rest: the first two each triple the number of digits that are right, the last doubles it.
///
/// ```
/// use hearthplan::physics::cube_root::cube_root;
/// assert!((cube_root(27.0) - 3.0).abs() < 1e-15);
/// assert!(cube_root(f64::NAN).is_nan());
/// ```
#[cfg_attr(hearthplan_site, optimize(speed))]
pub fn cube_root(number: f64) -> f64 {
    /// Two thirds of the exponent's offset, less what makes the greatest error of the guess least.
    const OFFSET: u64 = 0x2a9f_7893_0000_0000;
    // Beyond, a product in the steps would leave the range of numbers.
    if !(1e-290..1e290).contains(&number) {
        return number.cbrt();
    }
    // Newton's slope is taken for the root itself, so that no division waits for the steps before.
    let over = 1.0 / (3.0 * number);
    let mut root = f64::from_bits(number.to_bits() / 3 + OFFSET);
    for _ in 0..2 {
        let cube = root * root * root;
        root -= root * ((cube - number) / (2.0 * cube + number));
    }
    root - root * ((root * root * root - number) * over)
}

#[cfg(test)]
mod tests {
    use super::cube_root;

    #[test]
    fn it_is_that_of_the_standard_library() {
        let mut number = 1e-300;
        while number < 1e300 {
            let (ours, theirs) = (cube_root(number), number.cbrt());
            assert!(
                (ours / theirs - 1.0).abs() <= 2.0 * f64::EPSILON,
                "{number:e}"
            );
            number *= 1.37;
        }
        for odd in [0.0, -0.0, -8.0, 1e-310, f64::MAX, f64::INFINITY] {
            assert_eq!(cube_root(odd), odd.cbrt(), "{odd}");
        }
    }
}
