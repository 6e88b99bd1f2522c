//! A steel vessel that is there already: hearth and body are sized as ever, and their insulation fills what is left. Where
//! little is left, the fire tube is made narrower at its nozzles, as far as the published proportions allow.

use super::{
    Part, Tally, WiderVessel, assess, has_stops, in_both, marking, size, size_vessel, small_fire,
    thickest, wall_for_tube, whole,
};
use crate::design::Design;
use crate::design::inputs::{Datum, HearthKind, Layer};
use crate::design::quantity::{Quantity as Q, System};
use crate::sizing::build_order::closed_top;
use crate::sizing::machine::HearthShape;
use crate::sizing::marking::Vessel;
use crate::sizing::shell_there::seams_in_no_joint;
use std::f64::consts::PI;
use uom::si::f64::Length;
use uom::si::length::{meter, millimeter};

/// Insulation is made no thinner than this to fit into a vessel, and no thicker to fill it, m. Our own choice.
const THINNEST: f64 = 0.025;
const THICKEST: f64 = 0.15;
/// Insulation is taken away in steps of this thickness, and the fire tube made narrower by as much across, m.
const STEP: f64 = 0.01;
/// Share of the allowed distance from the published proportions that a fire tube is narrowed by, so that rounding does not
/// pass it.
const OF_TOLERANCE: f64 = 0.95;
/// The body is left at least this tall, m. Our own choice.
const LEAST_BODY: f64 = 0.1;

/// Fits walls of a design into the shell that was measured.
pub(super) fn fit(design: &mut Design) {
    let vessel = &mut design.real_vessel;
    let (across, sheet) = (vessel.girth / PI, vessel.sheet);
    let own = Vessel::bought(vessel);
    // No tape hooks to where a dish begins; once the vessel is open above, it does to the edge there.
    if own.below.value > 0.0 && own.own(vessel.tape_datum) == Datum::BottomEnd {
        vessel.tape_datum = Datum::TopEnd;
    }
    if let Some(plate) = (design.bottom_layers.last_mut())
        .filter(|layer| vessel.has_bottom && layer.material.is_metal())
    {
        plate.thickness = sheet;
    }
    let walls = [
        (
            &mut design.hearth_wall.inside_diameter,
            &mut design.hearth_layers,
        ),
        (
            &mut design.body_wall.inside_diameter,
            &mut design.body_layers,
        ),
    ];
    for (inside, layers) in walls {
        if let Some(shell) = layers.last_mut().filter(|layer| layer.material.is_metal()) {
            shell.thickness = sheet;
        }
        let room = 0.5 * (across - *inside) - through(layers);
        if let Some(layer) = thickest(layers) {
            let filling = (layer.thickness + room).value.clamp(THINNEST, THICKEST);
            layer.thickness = whole(Length::new::<meter>(filling));
        }
        *inside = whole_within(across - 2.0 * through(layers));
    }
    let below = through(&design.bottom_layers) + design.hearth_wall.height;
    design.body_wall.height = (own.length - below).max(Length::new::<meter>(LEAST_BODY));
}

/// Rounded down to the millimetre, so that lining and shell of the design are no wider than the vessel.
fn whole_within(length: Length) -> Length {
    Length::new::<meter>((length.value * 1000.0 + 1e-6).floor() / 1000.0)
}

/// Narrows the fire tube at the nozzles, where that is `free` to be sized, and takes from the insulation of the hearth band,
/// by steps, as far as that leaves less to be mended: a wide fire tube leaves no room for insulation, and thick insulation
/// warms up slowly.
pub(super) fn balance(design: &mut Design, start: &Design, free: bool) {
    let table = design.hearth.nozzle_ring_diameter;
    let allowed = design.limits.proportion_tolerance * OF_TOLERANCE;
    let least = table - table * allowed;
    let mut best: Option<(Left, Design)> = None;
    let mut tube = design.clone();
    loop {
        for tried in with_less_insulation(&tube) {
            let left = left(&tried);
            if best.as_ref().is_none_or(|(least, _)| left < *least) {
                best = Some((left, tried));
            }
        }
        let next = tube.hearth.nozzle_ring_diameter - Length::new::<meter>(STEP);
        // The published width is only left where that mends a Stop.
        let done = (best.as_ref()).is_some_and(|(left, _)| (left.0, left.1) == (0, 0));
        if done || !free || next < least || tube.hearth.kind != HearthKind::Constricted {
            break;
        }
        tube.hearth.nozzle_ring_diameter = whole(next);
        size_vessel(&mut tube, start);
        fit(&mut tube);
    }
    if let Some((_, best)) = best {
        *design = best;
    }
}

/// What is left to be mended: by how much the hearth is too wide for its wall once it is hot, mm; the Stops that no higher lowest load
/// mends; all Stops, and what else is not Good.
type Left = (u32, usize, (usize, usize));

fn left(design: &Design) -> Left {
    let too_wide = wall_for_tube(design) - design.hearth_wall.inside_diameter;
    let too_wide = too_wide.get::<millimeter>().ceil().max(0.0) as u32;
    let found = assess(design);
    let stops = small_fire::least_stops(design, &found);
    (too_wide, stops, small_fire::open(&found))
}

/// The design, the same with as much less insulation in the hearth band as the fire tube lacks room, and with thinner and
/// thinner insulation.
fn with_less_insulation(design: &Design) -> Vec<Design> {
    let step = Length::new::<meter>(STEP);
    let lacks = 0.5 * (wall_for_tube(design) - design.hearth_wall.inside_diameter);
    let mut roomy = design.clone();
    let gives = (thickest(&mut roomy.hearth_layers))
        .filter(|layer| lacks.value > 0.0 && layer.thickness.value > THINNEST + lacks.value)
        .map(|layer| layer.thickness -= lacks);
    let mut thinner = Vec::new();
    if gives.is_some() {
        roomy.hearth_wall.inside_diameter += 2.0 * lacks;
        thinner.push(roomy);
    }
    thinner.push(design.clone());
    while let Some(mut next) = thinner.last().cloned() {
        let Some(layer) = thickest(&mut next.hearth_layers)
            .filter(|layer| layer.thickness.value > THINNEST + STEP)
        else {
            break;
        };
        layer.thickness -= step;
        next.hearth_wall.inside_diameter += 2.0 * step;
        thinner.push(next);
    }
    thinner
}

/// The hearth is set higher by such steps, and no further than this, where the lower seam lies in the way of the ash door,
/// m. Our own choice.
const RAISED_BY: f64 = 0.01;
const RAISED_MOST: f64 = 0.15;

/// Where a seam of the vessel leaves no place for the holes of the hearth band, the hearth with its grate is set higher: the
/// ash door opens under the grate, and finds its place above the lower seam. The body gives way.
pub(super) fn raise_over_seam(design: &mut Design, start: &Design) {
    let are_clear = |design: &Design| {
        marking::crowded(design)
            .iter()
            .take(2)
            .all(|left| *left == 0)
    };
    if are_clear(design) {
        return;
    }
    let mut best = Tally::of(&assess(design).findings);
    let low = design.clone();
    for step in 1..=(RAISED_MOST / RAISED_BY).round() as u32 {
        let by = Length::new::<meter>(f64::from(step) * RAISED_BY);
        let mut raised = low.clone();
        raised.hearth_wall.height = whole(raised.hearth_wall.height + by);
        raised.body_wall.height -= by;
        if raised.body_wall.height.value < LEAST_BODY {
            return;
        }
        marking::mark(&mut raised, start);
        marking::clear_seams(&mut raised);
        let tally = Tally::of(&assess(&raised).findings);
        if are_clear(&raised) && tally < best {
            best = tally;
            *design = raised;
        }
    }
}

fn through(layers: &[Layer]) -> Length {
    layers.iter().map(|layer| layer.thickness).sum()
}

/// Widths and lengths that are tried are whole so many m, and the least width is looked for as closely. Our own choice.
const TRIED: f64 = 0.02;

/// What vessel would do where the one that is there leaves Stops; none where the same answers stop in any. A plain pipe without seams is tried: as wide as the vessel that would be sized freely, as long as
/// the one that is there or as that, and then narrower as far as it does.
pub(super) fn would_do(design: &Design, there: &[Part]) -> Option<WiderVessel> {
    let mut free = design.clone();
    free.real_vessel.measured = false;
    let others: Vec<Part> = (there.iter().copied())
        .filter(|part| *part != Part::Shell)
        .collect();
    let free = size(&free, &others).plan_vessel;
    let real = &design.real_vessel;
    let long = Vessel::bought(real).length;
    let up = |length: Length| Length::new::<meter>((length.value / TRIED).ceil() * TRIED);
    let is = real.girth / PI;
    let does = |across: Length, length: Length| {
        let mut pipe = design.clone();
        let vessel = &mut pipe.real_vessel;
        (vessel.girth, vessel.length) = (PI * across, length);
        (vessel.lower_seam, vessel.upper_seam) = (Length::default(), Length::default());
        (vessel.seamless, vessel.has_bottom, vessel.has_top) = (true, false, false);
        !has_stops(&size(&pipe, there))
    };
    // Seams in the way of holes are no matter of its width.
    if does(is, long) {
        return None;
    }
    let mut enough = up((free.girth / PI).max(is));
    let longer = up(free.length.max(long));
    let length = [long, longer]
        .into_iter()
        .find(|length| does(enough, *length))?;
    let mut too_narrow = is;
    while (enough - too_narrow).value > 1.5 * TRIED {
        // Rounded up, the middle of a short stretch would be its end again.
        let step_less = enough - Length::new::<meter>(TRIED);
        let between = up(0.5 * (enough + too_narrow)).min(step_less);
        if does(between, length) {
            enough = between;
        } else {
            too_narrow = between;
        }
    }
    Some(WiderVessel {
        across: enough,
        length: Some(length).filter(|length| *length > long),
    })
}

/// What became of the vessel, in words for the note of the design.
pub(super) fn told(design: &Design) -> String {
    let show = |length: Length| in_both(Q::Length, length.value);
    let across = design.real_vessel.girth / PI;
    let lining = (design.hearth_layers.iter())
        .filter(|layer| !layer.material.is_metal())
        .map(|layer| layer.thickness)
        .sum();
    let bottom = match design.real_vessel.has_bottom {
        true => " Its own bottom is there.",
        false => " It has no bottom: a bottom is welded in.",
    };
    let real = &design.real_vessel;
    let top = match closed_top(design) {
        true => format!(
            " Its closed top comes off, which leaves {} of straight shell.",
            show(Vessel::bought(real).length)
        ),
        false => String::new(),
    };
    let dish = match real.below_straight() {
        deep if deep.value > 0.0 => format!(
            " Flat discs do not lie in its dished bottom: it is filled level first, {} deep.",
            show(deep)
        ),
        _ => String::new(),
    };
    let seams = match seams_in_no_joint(design) {
        Some(_) => {
            " Its own seams are there: they are in no joint and no step of the work. Soap them in the first leak test of the vessel, before the lining hides them."
        }
        None => "",
    };
    format!(
        "Your vessel of {} across is filled with {} of lining, which leaves {} inside the hearth band.{bottom}{dish}{top}{seams}",
        show(across),
        show(lining),
        show(design.hearth_wall.inside_diameter)
    )
}

/// What a vessel that is too narrow for its hearth would have to be.
pub(super) fn too_narrow(design: &Design, system: System) -> String {
    let show = |length: Length| Q::Length.show(length.value, system);
    let widest = HearthShape::widest(design);
    let least = wall_for_tube(design) + 2.0 * through(&design.hearth_layers);
    format!(
        "Your vessel is too narrow for this hearth, which is {} outside where it is widest: take a vessel of at least {} \
         across, or a smaller engine.",
        show(widest),
        show(least)
    )
}
