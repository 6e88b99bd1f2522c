//! Does it slide or roll away? Feet grip with what they carry, wheels that roll only with their rolling resistance.
//!
//! A rigid machine rests where the resultant of its weight and of what drives it along meets the ground. On three points, or
//! on a line of feet and one of wheels, the load of each follows from that by moments: statics, no source needed. On more
//! points it also hangs on how even the ground is, so that the least is taken that the feet can carry.

use super::footprint::{ContactPoint, Footprint};
use super::weight::Weight;
use crate::design::inputs::{Base, ContactKind};
use std::f64::consts::{FRAC_1_SQRT_2, TAU};

/// A point carries load from so little a share of it below none on: a load on the line between two others is carried by these.
const EDGE: f64 = 1.0e-9;
/// Three points whose triangle is smaller lie in one line, m².
const LEAST_AREA: f64 = 1.0e-9;
/// Castors roll any way: so many ways are tried.
const WAYS: u32 = 72;

/// What holds a machine against a force along the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grip {
    /// The force along the ground at which it goes, over the force that it presses on the ground with.
    pub over_load: f64,
    /// Share of its load that then rests on what grips: on feet, and on wheels that do not roll that way.
    pub gripping: f64,
    /// The way that it goes, right and back.
    pub way: (f64, f64),
}

/// A force along the ground that grows until the machine goes.
struct Drive {
    way: (f64, f64),
    /// Height at which it acts, m.
    height: f64,
    /// How far that way the load rests from under the centre of gravity when there is none of it, m.
    offset: f64,
    /// How large it is from the first, over the load.
    from: f64,
}

/// Grip against the slope of the ground that falls the worst way, if it is steep enough. The machine stays up to the angle whose tangent it is.
///
/// ```
/// use hearthplan::design::{Design, inputs::Stance};
/// use hearthplan::review::assess;
/// use hearthplan::sizing::grip::on_slope;
/// let mut design = Design::default();
/// design.base.stance = Stance::Feet;
/// let standing = assess(&design).standing;
/// // Feet grip as well whichever way it falls.
/// let grip = on_slope(&design.base, &standing.footprint, &standing.full.weight);
/// assert_eq!(grip.over_load, design.base.friction);
/// ```
pub fn on_slope(base: &Base, footprint: &Footprint, weight: &Weight) -> Grip {
    let along = [(0.0, 1.0), (0.0, -1.0)];
    let round = (0..WAYS).map(|step| (f64::from(step) * TAU / f64::from(WAYS)).sin_cos());
    let outwards = footprint.edges.iter().map(|edge| edge.outwards());
    // Fixed wheels hold best across, and nothing is worse than straight down the way that they roll.
    let ways: Vec<(f64, f64)> = if base.on_castors() && has_both(footprint) {
        along.into_iter().chain(round).chain(outwards).collect()
    } else {
        along.to_vec()
    };
    let grips = ways.into_iter().map(|way| {
        let drive = Drive {
            way,
            height: weight.centre.z.value,
            offset: 0.0,
            from: 0.0,
        };
        grip(base, footprint, weight, &drive)
    });
    grips
        .reduce(|least, next| match next.over_load < least.over_load {
            true => next,
            false => least,
        })
        .unwrap_or(Grip {
            over_load: base.friction,
            gripping: 1.0,
            way: along[0],
        })
}

/// Grip against a push along the ground at this height, m, this way, right and back, on ground that falls that way.
pub(super) fn against_push(
    base: &Base,
    footprint: &Footprint,
    weight: &Weight,
    (way, height): ((f64, f64), f64),
) -> Grip {
    let slope = base.slope.value.tan();
    let drive = Drive {
        way,
        height,
        offset: (weight.centre.z.value - height) * slope,
        from: slope,
    };
    grip(base, footprint, weight, &drive)
}

fn is_foot(point: &ContactPoint) -> bool {
    point.kind == ContactKind::Foot
}

fn has_both(footprint: &Footprint) -> bool {
    let points = &footprint.points;
    points.iter().any(is_foot) && !points.iter().all(is_foot)
}

/// Whether wheels roll this way: not with their brakes on, nor fixed ones sideways.
fn wheels_roll(base: &Base, (_, back): (f64, f64)) -> bool {
    !base.brakes && (base.on_castors() || back.abs() > FRAC_1_SQRT_2)
}

fn grip(base: &Base, footprint: &Footprint, weight: &Weight, drive: &Drive) -> Grip {
    let points = &footprint.points;
    let way = drive.way;
    let rolling = base.rolling_resistance.min(base.friction);
    let more = base.friction - rolling;
    let of = |gripping: f64| Grip {
        over_load: rolling + more * gripping,
        gripping,
        way,
    };
    if !wheels_roll(base, way) || points.iter().all(is_foot) {
        return of(1.0);
    }
    if !points.iter().any(is_foot) {
        return of(0.0);
    }
    let threes = threes(points, weight, drive);
    // Outside all points it falls; what then holds is the wheels at the least.
    let Some(least) = least_gripping(&threes, drive.from) else {
        return of(0.0);
    };
    if rolling + more * least <= drive.from {
        return of(least);
    }
    let goes = (threes.iter())
        .filter_map(|three| three.goes_at(rolling, more))
        .reduce(f64::min);
    match goes {
        Some(over_load) => Grip {
            over_load,
            gripping: ((over_load - rolling) / more).clamp(0.0, 1.0),
            way,
        },
        // It tips before, over what carries it then.
        None => {
            let last = threes.iter().map(|three| three.to).reduce(f64::max);
            of(last
                .and_then(|last| least_gripping(&threes, last))
                .unwrap_or(least))
        }
    }
}

/// Three points that can carry the machine by themselves.
struct Three {
    /// From which force on, over the load, and up to which.
    from: f64,
    to: f64,
    /// Share of the load on the feet among them without that force, and how much more for each of it.
    feet: f64,
    feet_per_drive: f64,
}

impl Three {
    fn on_feet(&self, drive: f64) -> f64 {
        (self.feet + self.feet_per_drive * drive).clamp(0.0, 1.0)
    }

    /// The force at which it goes while these three carry it, over the load.
    fn goes_at(&self, rolling: f64, more: f64) -> Option<f64> {
        if rolling + more * self.on_feet(self.from) <= self.from {
            return Some(self.from);
        }
        let falls = 1.0 - more * self.feet_per_drive;
        let at = (rolling + more * self.feet) / falls;
        (falls > 0.0 && at <= self.to).then_some(at)
    }
}

/// The least share of the load that feet can carry under this force; none where no points carry it.
fn least_gripping(threes: &[Three], drive: f64) -> Option<f64> {
    (threes.iter())
        .filter(|three| (three.from..=three.to).contains(&drive))
        .map(|three| three.on_feet(drive))
        .reduce(f64::min)
}

fn threes(points: &[ContactPoint], weight: &Weight, drive: &Drive) -> Vec<Three> {
    let (right, back) = drive.way;
    let at = |point: &ContactPoint| (point.x.value, point.y.value);
    let start = (
        weight.centre.x.value + right * drive.offset,
        weight.centre.y.value + back * drive.offset,
    );
    let along = (right * drive.height, back * drive.height);
    let mut found = Vec::new();
    for (place, first) in points.iter().enumerate() {
        for (next, second) in points.iter().enumerate().skip(place + 1) {
            for third in points.iter().skip(next + 1) {
                let three = [first, second, third];
                let shares = shares(three.map(at), start, along);
                let carried =
                    shares.and_then(|shares| carried(three.map(is_foot), shares, drive.from));
                found.extend(carried);
            }
        }
    }
    found
}

fn cross((ax, ay): (f64, f64), (bx, by): (f64, f64)) -> f64 {
    ax * by - ay * bx
}

/// Share of the load on each of three points when it rests at a place, and how much more for each step along.
fn shares(
    corners: [(f64, f64); 3],
    start: (f64, f64),
    along: (f64, f64),
) -> Option<[(f64, f64); 3]> {
    let from = |(ax, ay): (f64, f64), (bx, by): (f64, f64)| (bx - ax, by - ay);
    let [first, second, third] = corners;
    let area = cross(from(first, second), from(first, third));
    let opposite = [(second, third), (third, first), (first, second)];
    (area.abs() > LEAST_AREA).then(|| {
        opposite.map(|(one, other)| {
            let side = from(one, other);
            (
                cross(side, from(one, start)) / area,
                cross(side, along) / area,
            )
        })
    })
}

/// Between which forces all three points are pressed on the ground, and what the feet among them carry.
fn carried(feet: [bool; 3], shares: [(f64, f64); 3], from: f64) -> Option<Three> {
    let mut three = Three {
        from,
        to: f64::INFINITY,
        feet: 0.0,
        feet_per_drive: 0.0,
    };
    for (is_foot, (share, per_drive)) in feet.into_iter().zip(shares) {
        let lifts = -(share + EDGE) / per_drive;
        if per_drive > EDGE {
            three.from = three.from.max(lifts);
        } else if per_drive < -EDGE {
            three.to = three.to.min(lifts);
        } else if share.is_nan() || share < -EDGE {
            return None;
        }
        if is_foot {
            three.feet += share;
            three.feet_per_drive += per_drive;
        }
    }
    (three.from <= three.to).then_some(three)
}
