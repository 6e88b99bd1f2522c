//! Which curve does a round branch make where it meets a round vessel?
//!
//! Both are straight cylinders. The vessel's axis stands upright. The branch's axis leans against it
//! by an angle and may pass beside it. Source: plane and solid geometry.

use std::f64::consts::PI;
use thiserror::Error;
use uom::si::angle::radian;
use uom::si::f64::{Angle, Length};
use uom::si::length::{meter, millimeter};

/// Least angle between branch and vessel axis, rad: 10°. Flatter branches make curves nobody can cut.
const LEAST_LEAN: f64 = 10.0 * PI / 180.0;
/// Rounding that a branch as wide as the vessel may be off by.
const ROUNDING: f64 = 1.0e-9;

/// Why there is no curve.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum BranchError {
    /// A measure is not a number, or not above zero.
    #[error("a measure is missing: the diameters of vessel and branch must be above zero")]
    NoSize,
    /// The branch is wider than the vessel.
    #[error("the branch is {branch:.1} mm wide and the vessel only {vessel:.1} mm: no saddle fits")]
    WiderThanVessel {
        /// Diameter of the branch, mm.
        branch: f64,
        /// Diameter of the vessel, mm.
        vessel: f64,
    },
    /// A plain hole that is wider than the vessel.
    #[error("the hole is {hole:.1} mm wide and the vessel only {vessel:.1} mm")]
    HoleWiderThanVessel {
        /// Hole, mm.
        hole: f64,
        /// Vessel, mm.
        vessel: f64,
    },
    /// Part of the branch passes beside the vessel.
    #[error(
        "with its axis {offset:.1} mm to the side, a branch {branch:.1} mm wide passes beside the vessel: \
         at most {most:.1} mm is possible"
    )]
    BesideVessel {
        /// Sideways offset, mm, without sign.
        offset: f64,
        /// Diameter of the branch, mm.
        branch: f64,
        /// Largest offset that still meets the vessel, mm.
        most: f64,
    },
    /// The branch runs nearly along the vessel.
    #[error("the angle to the axis is {degrees:.1}°; it must lie between 10° and 170°")]
    TooFlat {
        /// The angle, degrees.
        degrees: f64,
    },
}

/// A round branch on a round vessel; made by [`Branch::new`], which lets only those through that
/// have a curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Branch {
    vessel: f64,
    radius: f64,
    lean: f64,
    offset: f64,
}

/// A point of a hole's outline on the unrolled shell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OutlinePoint {
    /// Along the wrap from where the branch's axis meets the shell, to the right seen from outside.
    pub along: Length,
    /// Above that place.
    pub up: Length,
}

fn metres(value: f64) -> Length {
    Length::new::<meter>(value)
}

impl Branch {
    /// A branch of a radius on a vessel of a radius. `lean` is the angle between the two axes: 90°
    /// is straight out, less leans upwards. `offset` is how far the branch's axis passes beside the
    /// vessel's, to the right seen from outside.
    ///
    /// Which radius to give depends on the edge that the curve is for: the outside of the pipe, its
    /// inside, or the cutter that makes the hole.
    ///
    /// ```
    /// use hearthplan::sizing::branch::Branch;
    /// use uom::si::{angle::degree, f64::{Angle, Length}, length::millimeter};
    /// let mm = |value| Length::new::<millimeter>(value);
    /// let branch = Branch::new(mm(100.0), mm(60.0), Angle::new::<degree>(90.0), mm(0.0)).unwrap();
    /// // At the side the vessel has fallen away by 100 - sqrt(100² - 60²).
    /// let cut = branch.cut(Angle::new::<degree>(90.0));
    /// assert!((cut.get::<millimeter>() + 20.0).abs() < 1e-9);
    /// ```
    ///
    /// # Errors
    /// [`BranchError`]: no size, wider than the vessel, beside the vessel, or flatter than 10°.
    pub fn new(
        vessel_radius: Length,
        branch_radius: Length,
        lean: Angle,
        offset: Length,
    ) -> Result<Self, BranchError> {
        let (vessel, radius) = (vessel_radius.value, branch_radius.value);
        let sized = |value: f64| value > 0.0 && value.is_finite();
        let told = offset.value.is_finite() && lean.value.is_finite();
        if !(sized(vessel) && sized(radius) && told) {
            return Err(BranchError::NoSize);
        }
        let room = vessel * (1.0 + ROUNDING) - radius;
        if room < 0.0 {
            return Err(BranchError::WiderThanVessel {
                branch: 2.0 * branch_radius.get::<millimeter>(),
                vessel: 2.0 * vessel_radius.get::<millimeter>(),
            });
        }
        if offset.value.abs() > room {
            return Err(BranchError::BesideVessel {
                offset: offset.get::<millimeter>().abs(),
                branch: 2.0 * branch_radius.get::<millimeter>(),
                most: 1000.0 * (vessel - radius).max(0.0),
            });
        }
        let lean = lean.value;
        if lean.min(PI - lean) < LEAST_LEAN - ROUNDING {
            return Err(BranchError::TooFlat {
                degrees: lean.to_degrees(),
            });
        }
        Ok(Self {
            vessel,
            radius,
            lean,
            offset: offset.value,
        })
    }

    /// A hole drilled straight towards the vessel's axis.
    ///
    /// # Errors
    /// As [`Branch::new`].
    pub fn straight(vessel_radius: Length, hole_radius: Length) -> Result<Self, BranchError> {
        let square = Angle::new::<radian>(0.5 * PI);
        let cut = Self::new(vessel_radius, hole_radius, square, metres(0.0));
        cut.map_err(|error| match error {
            BranchError::WiderThanVessel { branch, vessel } => BranchError::HoleWiderThanVessel {
                hole: branch,
                vessel,
            },
            other => other,
        })
    }

    /// Radius of the branch.
    pub fn radius(&self) -> Length {
        metres(self.radius)
    }

    /// Angle between the two axes: 90° is straight out, less leans upwards.
    pub fn lean(&self) -> Angle {
        Angle::new::<radian>(self.lean)
    }

    /// How far its axis passes beside the vessel's, to the right seen from outside.
    pub fn offset(&self) -> Length {
        metres(self.offset)
    }

    /// Half the width of the vessel at a distance beside its axis, m.
    fn chord(&self, beside: f64) -> f64 {
        (self.vessel * self.vessel - beside * beside)
            .max(0.0)
            .sqrt()
    }

    /// Where the branch ends, measured along its axis outwards from where the axis meets the shell.
    /// `around` runs round the branch: 0 at its top, 90° at its right seen from outside. Any angle
    /// gives a finite length.
    pub fn cut(&self, around: Angle) -> Length {
        metres(self.rim().cut(around.value.sin_cos()))
    }

    /// The same point on the unrolled shell. `around` as in [`Branch::cut`]. Any angle gives finite
    /// lengths.
    pub fn outline(&self, around: Angle) -> OutlinePoint {
        let (along, up) = self.rim().outline(around.value.sin_cos());
        OutlinePoint {
            along: metres(along),
            up: metres(up),
        }
    }

    /// The rim of the branch, for those who ask for many of its points.
    pub(super) fn rim(&self) -> Rim {
        let (lean_sine, lean_cosine) = self.lean.sin_cos();
        Rim {
            branch: *self,
            lean_sine,
            lean_cosine,
            middle: self.chord(self.offset),
            turned: self.turned(self.offset),
        }
    }

    /// Angle on the vessel of a distance beside its axis, rad.
    fn turned(&self, beside: f64) -> f64 {
        (beside / self.vessel).clamp(-1.0, 1.0).asin()
    }
}

/// Where a branch meets the shell, with what all points of it share. Points are asked for by sine and cosine of the
/// angle round the branch.
pub(super) struct Rim {
    branch: Branch,
    lean_sine: f64,
    lean_cosine: f64,
    /// Half the width of the vessel beside the middle of the branch, m.
    middle: f64,
    /// Angle on the vessel of that middle, rad.
    turned: f64,
}

impl Rim {
    /// As [`Branch::cut`], m.
    fn cut(&self, (sine, cosine): (f64, f64)) -> f64 {
        let branch = &self.branch;
        let far = branch.chord(branch.offset + branch.radius * sine);
        (far - self.middle + branch.radius * cosine * self.lean_cosine) / self.lean_sine
    }

    /// As [`Branch::outline`]: along the wrap and up, m.
    pub(super) fn outline(&self, (sine, cosine): (f64, f64)) -> (f64, f64) {
        let branch = &self.branch;
        let turned = branch.turned(branch.offset + branch.radius * sine) - self.turned;
        let up =
            self.cut((sine, cosine)) * self.lean_cosine + branch.radius * cosine * self.lean_sine;
        (branch.vessel * turned, up)
    }
}
