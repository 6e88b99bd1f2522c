//! Where must the knob of the speed controller stand for a wanted speed of the blower?

use uom::si::f64::Ratio;
use uom::si::ratio::ratio;

/// A knob that sets the blower's speed: nothing turns up to `start`, from there the speed rises in a straight line to
/// `full_speed` at the end of the turn (common practice, no source; mark the real positions with a tachometer).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Knob {
    /// Share of the turn at which the blower begins to turn, 0 up to less than 1.
    pub start: Ratio,
    /// Share of the rated speed with the knob fully turned, more than 0.
    pub full_speed: Ratio,
}

impl Knob {
    /// Share of the turn for a speed given as a share of the rated speed; none beyond full knob.
    ///
    /// ```
    /// use hearthplan::sizing::knob::Knob;
    /// use uom::si::{f64::Ratio, ratio::percent};
    /// let share = Ratio::new::<percent>;
    /// let knob = Knob { start: share(20.0), full_speed: share(100.0) };
    /// // Half the speed lies halfway between 20 % and 100 % of the turn.
    /// let position = knob.position(share(50.0)).unwrap();
    /// assert!((position.value - 0.6).abs() < 1e-12);
    /// assert_eq!(knob.position(share(110.0)), None);
    /// ```
    pub fn position(&self, speed: Ratio) -> Option<Ratio> {
        let share = (speed / self.full_speed).value;
        // A speed equal to that of full knob must not miss it by rounding.
        (0.0..=1.0 + 1e-12).contains(&share).then(|| {
            let start = self.start.value;
            Ratio::new::<ratio>(start + (1.0 - start) * share.min(1.0))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn knob(start: f64, full_speed: f64) -> Knob {
        Knob {
            start: Ratio::new::<ratio>(start),
            full_speed: Ratio::new::<ratio>(full_speed),
        }
    }

    fn at(knob: Knob, speed: f64) -> Option<f64> {
        knob.position(Ratio::new::<ratio>(speed))
            .map(|position| position.value)
    }

    #[test]
    fn both_ends_are_where_they_were_entered() {
        assert_eq!(at(knob(0.1, 0.9), 0.0), Some(0.1));
        assert_eq!(at(knob(0.1, 0.9), 0.9), Some(1.0));
        assert_eq!(at(knob(0.3, 1.2), 0.3 * 4.0), Some(1.0));
    }

    #[test]
    fn between_them_it_is_a_straight_line() {
        let quarter = at(knob(0.2, 0.8), 0.2).unwrap();
        let half = at(knob(0.2, 0.8), 0.4).unwrap();
        assert!((quarter - 0.4).abs() < 1e-12);
        assert!((half - 0.6).abs() < 1e-12);
    }

    #[test]
    fn what_no_turn_gives_has_no_position() {
        assert_eq!(at(knob(0.1, 0.9), 0.91), None);
        assert_eq!(at(knob(0.1, 0.9), -0.1), None);
        assert_eq!(at(knob(0.1, 0.9), f64::NAN), None);
        assert_eq!(at(knob(0.1, 0.0), 0.5), None);
    }
}
