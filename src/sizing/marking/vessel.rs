//! A vessel as a tape measures it.

use super::{MarkingError, metres};
use crate::design::Design;
use crate::design::inputs::{Datum, Hole, PlanVessel, RealVessel, StaysWith};
use std::f64::consts::PI;
use uom::si::f64::Length;

/// A round shell with two round seams at most; heights are above the bottom end, of a dished bottom above where the straight
/// shell begins. A seam that is not there lies at an end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vessel {
    /// Outside circumference.
    pub girth: Length,
    /// From end to end.
    pub length: Length,
    /// Lower round seam.
    pub lower_seam: Length,
    /// Upper round seam.
    pub upper_seam: Length,
    /// How far a dished bottom reaches below the bottom end.
    pub below: Length,
}

/// A seam so near to where a dish begins cannot be told from it by tape.
fn at_edge() -> Length {
    metres(0.001)
}

impl Vessel {
    pub(super) fn planned(plan: &PlanVessel) -> Self {
        Self {
            girth: plan.girth,
            length: plan.length,
            lower_seam: plan.lower_seam,
            upper_seam: upper(plan.upper_seam, plan.length),
            below: Length::default(),
        }
    }

    /// The straight shell of the vessel that was measured: dished ends give none, and a closed top comes off.
    ///
    /// ```
    /// use hearthplan::design::inputs::RealVessel;
    /// use hearthplan::sizing::marking::Vessel;
    /// use uom::si::{f64::Length, length::millimeter};
    /// let mm = Length::new::<millimeter>;
    /// let tank = RealVessel {
    ///     measured: true,
    ///     has_bottom: true,
    ///     has_top: true,
    ///     dish: mm(50.0),
    ///     length: mm(1200.0),
    ///     lower_seam: mm(60.0),
    ///     upper_seam: mm(1150.0),
    ///     ..RealVessel::default()
    /// };
    /// let shell = Vessel::bought(&tank);
    /// assert!((shell.length - mm(1100.0)).value.abs() < 1e-12);
    /// assert!((shell.lower_seam - mm(10.0)).value.abs() < 1e-12);
    /// // It goes with the top, as one that is not there.
    /// assert_eq!(shell.upper_seam, shell.length);
    /// ```
    pub fn bought(bought: &RealVessel) -> Self {
        let (below, above) = (bought.below_straight(), bought.above_straight());
        let length = bought.length - below - above;
        let none = Length::default();
        let lower = bought.lower_seam - below;
        let in_the_bottom = below > none && lower < at_edge();
        let higher = upper(bought.upper_seam, bought.length) - below;
        let beyond = higher - length;
        // Within the top it comes off with that.
        let goes_along = above > none && beyond > -at_edge() && beyond <= above + at_edge();
        Self {
            girth: bought.girth,
            length,
            lower_seam: if in_the_bottom { none } else { lower },
            upper_seam: if goes_along { length } else { higher },
            below,
        }
    }

    /// The vessel that is marked out: the one bought, or the plan's while none is measured.
    pub(super) fn marked_out(design: &Design) -> Self {
        match design.real_vessel.measured {
            true => Self::bought(&design.real_vessel),
            false => Self::planned(&design.plan_vessel),
        }
    }

    /// Its round seams with their names, those that are there.
    pub fn round_seams(&self) -> impl Iterator<Item = (Length, &'static str)> {
        let lower = (self.lower_seam, "lower round seam", self.has_lower_seam());
        let upper = (self.upper_seam, "upper round seam", self.has_upper_seam());
        ([lower, upper].into_iter())
            .filter(|(_, _, there)| *there)
            .map(|(height, name, _)| (height, name))
    }

    pub(super) fn has_lower_seam(&self) -> bool {
        self.lower_seam > metres(0.0)
    }

    /// Whether it has an upper seam.
    pub fn has_upper_seam(&self) -> bool {
        self.upper_seam < self.length
    }

    /// A place to measure from, as this vessel has it: in place of a seam that is not there its end.
    pub fn own(&self, datum: Datum) -> Datum {
        match datum {
            Datum::LowerSeam if !self.has_lower_seam() => Datum::BottomEnd,
            Datum::UpperSeam if !self.has_upper_seam() => Datum::TopEnd,
            there => there,
        }
    }

    /// Outside radius.
    pub fn radius(&self) -> Length {
        self.girth / (2.0 * PI)
    }

    /// Height of a place above the bottom end, m.
    pub(super) fn height_of(&self, datum: Datum) -> f64 {
        match datum {
            Datum::BottomEnd => 0.0,
            Datum::LowerSeam => self.lower_seam.value,
            Datum::UpperSeam => self.upper_seam.value,
            Datum::TopEnd => self.length.value,
        }
    }

    pub(super) fn check(&self, which: &'static str) -> Result<(), MarkingError> {
        let sized = |length: Length| length.value > 0.0 && length.value.is_finite();
        if !(sized(self.girth) && sized(self.length)) {
            return Err(MarkingError::NoSize { which });
        }
        for (seam, at) in [
            ("lower seam", self.lower_seam),
            ("upper seam", self.upper_seam),
        ] {
            if !(at >= metres(0.0) && at <= self.length) {
                return Err(MarkingError::SeamOutside { seam, which });
            }
        }
        if self.lower_seam > self.upper_seam {
            return Err(MarkingError::SeamsCrossed { which });
        }
        Ok(())
    }
}

/// Middle of a hole above the bottom end of the vessel that is marked out, m.
pub(super) fn above_bottom(hole: &Hole, datum: Datum, [plan, vessel]: [&Vessel; 2]) -> f64 {
    let planned = plan.height_of(datum) + hole.height.value;
    match hole.stays_with {
        StaysWith::BottomEnd => planned,
        StaysWith::TopEnd => vessel.length.value - (plan.length.value - planned),
        StaysWith::PlanDatum => vessel.height_of(datum) + hole.height.value,
    }
}

/// Height of the upper seam; none lies at the top end.
fn upper(entered: Length, length: Length) -> Length {
    if entered == metres(0.0) {
        length
    } else {
        entered
    }
}
