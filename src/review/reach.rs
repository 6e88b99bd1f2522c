//! How far a change may go: what lies beyond is not offered.

use super::finding::Lever;
use super::offered::thinnest;
use super::standing::most_ballast;
use crate::design::Design;
use crate::sizing::marking::mark_out;
use crate::sizing::tube_pipes::{Beside, lighting_ports};

/// How far a remedy may go: half beyond the usual range, and not below half of its lower end.
fn offered((low, high): (f64, f64)) -> (f64, f64) {
    let far = 0.5 * (high - low);
    let least = if low > 0.0 {
        (low - far).max(0.5 * low)
    } else {
        low - far
    };
    (least, high + far)
}

/// Least and most of what a number is tried at: allowed, and no further than a remedy may go.
pub(super) fn reach(
    design: &Design,
    lever: &Lever,
    start: f64,
    allowed: (f64, f64),
    usual: (f64, f64),
) -> (f64, f64) {
    let (least, most) = ends(design, lever, start, offered(usual));
    (
        allowed.0.max(least).min(start),
        allowed.1.min(most).max(start),
    )
}

/// A door is offered no smaller than this across, m: a flat scraper still goes in, and ash comes out beside it. Our own mark.
pub(super) const SMALLEST_DOOR: f64 = 0.070;

/// Wood is not offered drier than this: in air it takes up water again. Our own mark.
const DRIEST: f64 = 0.04;

/// A part is moved down so that the machine stands better, but not lower than the vessel, where nothing carries it and the
/// ground is near. A hole stays on the shell, a lighting port on the fire tube,
/// and a door is only made smaller. Insulation is no thinner than what is
/// sold, and dead weight no heavier than a share of the machine. Any other input may go as far as is offered.
fn ends(design: &Design, lever: &Lever, start: f64, offered: (f64, f64)) -> (f64, f64) {
    match lever {
        Lever::Input(path) if path.starts_with("parts.") && path.ends_with(".z") => {
            (offered.0.max(design.base.clearance.value), start)
        }
        Lever::Input(path) if path.starts_with("holes.") && path.ends_with(".height") => {
            on_the_shell(design, path, start).unwrap_or(offered)
        }
        Lever::Input(path) if path.starts_with("holes.") && path.ends_with(".diameter") => {
            match on_the_shell(design, path, start) {
                Some(_) if start > SMALLEST_DOOR => (SMALLEST_DOOR, start),
                _ => offered,
            }
        }
        Lever::Input(path) if path == "fuel.moisture" => (offered.0.max(DRIEST), offered.1),
        _ => match (thinnest(design, lever), most_ballast(design, lever)) {
            (Some(thinnest), _) => (offered.0.max(thinnest), offered.1),
            (None, Some(most)) => (offered.0, offered.1.min(most)),
            (None, None) => offered,
        },
    }
}

/// From where to where a hole may go in height: from the bottom end to the top end of the shell, or from the end of the fire
/// tube.
fn on_the_shell(design: &Design, path: &str, start: f64) -> Option<(f64, f64)> {
    let hole = path.split('.').nth(1)?.parse::<usize>().ok()?;
    let marking = mark_out(design).ok()?;
    let mark = marking.marks.iter().find(|mark| mark.hole == hole)?;
    let above = mark.above_bottom.value;
    let least = start - above;
    let on_tube = down_the_fire_tube(design, hole).map_or(least, |down| start - down);
    Some((
        least.max(on_tube),
        start + marking.vessel.length.value - above,
    ))
}

/// How far a lighting port that meets the fire tube may go down before it opens below that.
fn down_the_fire_tube(design: &Design, place: usize) -> Option<f64> {
    let (_, port) = (lighting_ports(design).into_iter()).find(|(port, _)| *port == place)?;
    let beside = Beside::of(design, port);
    (beside.meets_the_tube()).then(|| (beside.above + beside.straight).value.max(0.0))
}
