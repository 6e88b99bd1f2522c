//! Round plates and rings, most with holes: flanges, the grate, the nozzle ring, plates of ends.

use super::{Pattern, PatternError, Point, Use, at, bored, mm, told, within};
use crate::design::inputs::{Flange, GratePlate, Hearth, HearthKind};
use crate::sizing::lid_joints::RoundFlange;
use crate::sizing::machine::HearthShape;
use std::f64::consts::PI;
use uom::si::f64::Length;

/// Measures one after another, for words.
fn listed(measures: impl Iterator<Item = f64>) -> String {
    measures.map(told).collect::<Vec<_>>().join("; ")
}

/// Most holes a grate template shows.
const MOST_HOLES: usize = 4_000;

/// The flange, its bore and its bolt holes. The bolt holes straddle the upright centre line.
///
/// ```
/// use hearthplan::{design::inputs::Flange, sizing::pattern::flange};
/// let template = flange(&Flange::default()).unwrap();
/// assert!(template.bounds().width() >= 150.0);
/// ```
///
/// # Errors
/// [`PatternError`]: holes that reach the bore, the edge or each other.
pub fn flange(flange: &Flange) -> Result<Pattern, PatternError> {
    Ok(drilled_ring(flange)?.finished())
}

/// The plate of a lid that is bolted to this flange, open in the middle by that diameter. The outside of what it closes is drawn
/// on it, so that the flange is cut and drilled by the same template.
///
/// # Errors
/// As [`flange`].
pub(super) fn bolted_lid(
    name: &str,
    under: &RoundFlange,
    [opening, thickness]: [Length; 2],
) -> Result<Pattern, PatternError> {
    let mut pattern = drilled_ring(&Flange {
        name: name.to_string(),
        outside: under.outside,
        bore: opening,
        bolt_circle: under.circle,
        bolts: under.bolts,
        bolt_hole: under.hole,
        thickness,
        ..Flange::default()
    })?;
    let [outside, opening, closes] = [under.outside, opening, under.bore].map(mm);
    let compass = match opening > 0.0 {
        true => format!("{}, then to {}", told(0.5 * outside), told(0.5 * opening)),
        false => told(0.5 * outside),
    };
    pattern.note.push_str(&format!(
        " {} thick: set the compass to {compass}. The thin circle is the outside of what it closes, {}: the flange under it is \
         as wide outside and bored so, and both are drilled clamped together. Other holes in it are not drawn.",
        told(mm(thickness)),
        told(closes)
    ));
    pattern.circle(Use::Aid, at(0.0, 0.0), 0.5 * closes);
    Ok(pattern.finished())
}

/// A ring with its bolt holes, not yet finished.
fn drilled_ring(flange: &Flange) -> Result<Pattern, PatternError> {
    let outside = within("the flange", flange.outside, 1.0, 10_000.0)?;
    let bore = within("the bore", flange.bore, 0.0, outside)?;
    let hole = within("the bolt hole", flange.bolt_hole, 0.1, outside)?;
    let circle = within("the bolt circle", flange.bolt_circle, 0.0, outside)?;
    if circle + hole >= outside {
        return Err(PatternError::DoesNotFit(
            "the bolt holes reach the edge of the flange",
        ));
    }
    if circle - hole <= bore {
        return Err(PatternError::DoesNotFit("the bolt holes reach the bore"));
    }
    let bolts = flange.bolts.clamp(1, 200);
    let chord = |steps: u32| circle * (PI * f64::from(steps) / f64::from(bolts)).sin();
    let apart = chord(1);
    if bolts > 1 && apart <= hole {
        return Err(PatternError::DoesNotFit(
            "the bolt holes run into each other",
        ));
    }
    let neighbours = match bolts {
        1 => String::new(),
        2 | 3 => format!("From middle to middle, straight across: {}.", told(apart)),
        _ => format!(
            "Straight across from the middle of the first hole to that of the next on either side, of the one after that, and so \
             on: {}. Measure each from the first, so that no error adds to the next.",
            listed((1..=bolts / 2).map(chord))
        ),
    };
    let open = match bore > 0.0 {
        true => format!(", bore {}", bored(bore)),
        false => String::new(),
    };
    let mut pattern = Pattern::new(
        flange.name.as_str(),
        format!(
            "{bolts} bolt holes of {} on a circle of {} across; outside {}{open}. They straddle the upright centre line. \
             {neighbours}",
            bored(hole),
            told(circle),
            told(outside)
        ),
    );
    let middle = at(0.0, 0.0);
    pattern.circle(Use::Cut, middle, 0.5 * outside);
    if bore > 0.0 {
        pattern.circle(Use::Cut, middle, 0.5 * bore);
    }
    pattern.circle(Use::Mark, middle, 0.5 * circle);
    pattern.centre_lines(0.5 * outside);
    for bolt in 0..bolts {
        let turned = PI * (0.5 + (2.0 * f64::from(bolt) + 1.0) / f64::from(bolts));
        let place = at(0.5 * circle * turned.cos(), 0.5 * circle * turned.sin());
        pattern.circle(Use::Cut, place, 0.5 * hole);
        pattern.cross(place, 0.8 * hole);
    }
    Ok(pattern)
}

/// A round plate without holes, and what bore of a vessel it goes into, if it goes into one.
///
/// # Errors
/// [`PatternError`]: no size.
pub(super) fn round_plate(
    name: &str,
    diameter: Length,
    thickness: Length,
    goes_into: Option<Length>,
) -> Result<Pattern, PatternError> {
    let radius = 0.5 * within("the plate", diameter, 1.0, 10_000.0)?;
    let fits = goes_into.map_or_else(String::new, |bore| {
        let play = mm(bore) - 2.0 * radius;
        format!(
            " It goes into the vessel that you measured, whose bore is {} by tape and gauge: it is {} narrower across, for the \
             weld to close. Measure the bore both ways before you cut.",
            bored(mm(bore)),
            told(play)
        )
    });
    let mut pattern = Pattern::new(
        name,
        format!(
            "Round plate of {}, {} thick: set the compass to {}. Holes in it are not drawn.{fits}",
            told(2.0 * radius),
            told(mm(thickness)),
            told(radius)
        ),
    );
    let middle = at(0.0, 0.0);
    pattern.circle(Use::Cut, middle, radius);
    pattern.centre_lines(radius);
    pattern.is_plain = true;
    Ok(pattern.finished())
}

/// A round plate that is open in the middle, by its diameters outside and inside.
///
/// # Errors
/// [`PatternError`]: no size, or an opening as wide as the plate.
pub(super) fn ring_plate(
    name: &str,
    [outside, inside]: [Length; 2],
    thickness: Length,
) -> Result<Pattern, PatternError> {
    let outside = within("the plate", outside, 1.0, 10_000.0)?;
    let inside = within("the opening", inside, 0.0, 10_000.0)?;
    if inside >= outside {
        return Err(PatternError::DoesNotFit(
            "the opening is as wide as the plate: nothing is left of it",
        ));
    }
    let mut pattern = Pattern::new(
        name,
        format!(
            "Ring of {} outside and {} inside, {} thick: set the compass to {}, then to {}. Other holes in it are not drawn.",
            told(outside),
            told(inside),
            told(mm(thickness)),
            told(0.5 * outside),
            told(0.5 * inside)
        ),
    );
    let middle = at(0.0, 0.0);
    pattern.circle(Use::Cut, middle, 0.5 * outside);
    pattern.circle(Use::Cut, middle, 0.5 * inside);
    pattern.centre_lines(0.5 * outside);
    pattern.is_plain = true;
    Ok(pattern.finished())
}

/// Middles of the grate's holes, in a triangle pattern around the plate's middle, mm.
///
/// ```
/// use hearthplan::{design::inputs::GratePlate, sizing::pattern::grate_holes};
/// assert!(grate_holes(&GratePlate::default()).unwrap().count() > 50);
/// ```
///
/// # Errors
/// [`PatternError`]: holes that run into each other, no room for any, or more than 4000.
pub fn grate_holes(
    grate: &GratePlate,
) -> Result<impl Iterator<Item = Point> + use<>, PatternError> {
    let diameter = within("the grate", grate.diameter, 1.0, 10_000.0)?;
    let hole = within("the grate hole", grate.hole, 0.1, diameter)?;
    let rim = within("the plain rim", grate.rim, 0.0, 10_000.0)?;
    let pitch = within("the grate pitch", grate.pitch, 0.1, 10_000.0)?;
    if pitch <= hole {
        return Err(PatternError::DoesNotFit(
            "the grate holes run into each other: the pitch must be wider than the hole",
        ));
    }
    let reach = 0.5 * (diameter - hole) - rim;
    if reach < 0.0 {
        return Err(PatternError::NoHole);
    }
    let row_height = pitch * 0.75_f64.sqrt();
    // A hexagonal cell has the area of pitch times row height.
    if PI * reach * reach / (pitch * row_height) > MOST_HOLES as f64 {
        return Err(PatternError::DoesNotFit(
            "the grate would have more than 4000 holes",
        ));
    }
    let rows = (reach / row_height).floor() as i32;
    let columns = (reach / pitch).ceil() as i32;
    Ok((-rows..=rows).flat_map(move |row| {
        let shifted = if row.rem_euclid(2) == 1 { 0.5 } else { 0.0 };
        let y = row_height * f64::from(row);
        (-columns - 1..=columns)
            .map(move |column| at(pitch * (f64::from(column) + shifted), y))
            .filter(move |place| place.is_within(reach))
    }))
}

/// The grate plate with its holes. What is stepped off from hole to hole is told to a thousandth of an inch, since errors add up
/// over its rows.
///
/// ```
/// use hearthplan::{design::inputs::GratePlate, sizing::pattern::grate};
/// assert!(grate(&GratePlate::default()).is_ok());
/// ```
///
/// # Errors
/// As [`grate_holes`].
pub fn grate(grate: &GratePlate) -> Result<Pattern, PatternError> {
    let holes: Vec<Point> = grate_holes(grate)?.collect();
    let radius = 0.5 * mm(grate.hole);
    let plate = 0.5 * mm(grate.diameter);
    let open = 100.0 * holes.len() as f64 * (radius / plate).powi(2);
    let mut pattern = Pattern::new(
        "Grate",
        format!(
            "Plate of {}; {} holes of {}, {} from middle to middle, in rows {} apart; {open:.0} % of the plate is open.",
            told(2.0 * plate),
            holes.len(),
            bored(2.0 * radius),
            bored(mm(grate.pitch)),
            bored(mm(grate.pitch) * 0.75_f64.sqrt())
        ),
    );
    pattern.circle(Use::Cut, at(0.0, 0.0), plate);
    pattern.centre_lines(plate);
    for hole in holes {
        pattern.circle(Use::Cut, hole, radius);
    }
    Ok(pattern.finished())
}

/// A strip to wrap around the fire tube at the height of the nozzles, with a hole for each nozzle: for the tube of this
/// outside diameter, or as wide as the bore where the tube is not known. Its length is the outside circumference of the
/// fire tube.
///
/// ```
/// use hearthplan::{design::inputs::Hearth, sizing::pattern::nozzle_ring};
/// assert!(nozzle_ring(&Hearth::default(), None).is_ok());
/// ```
///
/// # Errors
/// [`PatternError`]: nozzles that run into each other, or a tube without size.
pub fn nozzle_ring(hearth: &Hearth, tube: Option<Length>) -> Result<Pattern, PatternError> {
    let outside = hearth.nozzle_ring_diameter + 2.0 * hearth.steel_thickness;
    let diameter = within("the fire tube", outside, 1.0, 10_000.0)?;
    let hole = match tube {
        Some(tube) => within("the nozzle tube", tube, 0.1, diameter)?,
        None => within("the nozzle bore", hearth.nozzle_bore, 0.1, diameter)?,
    };
    let circles = match tube {
        Some(_) => format!(
            "The circles are the nozzle tubes, {} outside: drill for the tube that you have in hand.",
            bored(hole)
        ),
        None => format!(
            "The circles are the nozzle bore of {}: open them to the outside of your nozzles.",
            bored(hole)
        ),
    };
    let girth = PI * diameter;
    let count = hearth.nozzle_count.clamp(1, 100);
    let pitch = girth / f64::from(count);
    if pitch <= hole {
        return Err(PatternError::DoesNotFit("the nozzles run into each other"));
    }
    let [straight, _] = HearthShape::below_nozzles(hearth);
    let straight = mm(straight);
    let joint = match hearth.kind {
        HearthKind::Straight => String::new(),
        HearthKind::Constricted if straight >= 0.5 * hole => format!(
            "The fire tube ends {} below that, and the cone above the throat begins: measure from the edge of the tube. ",
            told(straight)
        ),
        HearthKind::Constricted if straight > 0.0 => format!(
            "The fire tube ends {} below that, and the cone above the throat begins. The holes reach over this edge: weld \
             the cone on, and drill through both after that. ",
            told(straight)
        ),
        HearthKind::Constricted => {
            "The fire tube ends there, and the cone above the throat begins: mark the middles on the edge of the tube, weld \
             the cone on, and drill through both after that. "
                .to_string()
        }
    };
    let middles = || (0..count).map(|nozzle| pitch * (f64::from(nozzle) + 0.5));
    let half = hole + 15.0;
    let mut pattern = Pattern::new(
        "Nozzle ring",
        format!(
            "{count} nozzles. Wrap it around the outside of the fire tube, middle line at the height of the nozzles. \
             {joint}{circles} The strip is {} long. Measure each middle from its left end, so that no error adds to the next: {}.",
            told(girth),
            listed(middles())
        ),
    );
    pattern.rectangle(Use::Mark, at(0.0, -half), at(girth, half));
    pattern.line(Use::Mark, at(0.0, 0.0), at(girth, 0.0));
    pattern.measured_from(("the left end of the strip", 0.0), ("its middle line", 0.0));
    if hearth.kind == HearthKind::Constricted && straight > 0.0 && straight < half {
        let edge = pattern.line(Use::Aid, at(0.0, -straight), at(girth, -straight));
        pattern.name(edge, at(3.0, 1.5 - straight), 4.0, "end of the fire tube");
    }
    for along in middles() {
        let place = at(along, 0.0);
        pattern.circle(Use::Cut, place, 0.5 * hole);
        pattern.cross(place, hole);
    }
    Ok(pattern.finished())
}
