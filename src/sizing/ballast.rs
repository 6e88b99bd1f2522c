//! Where does dead weight hang that makes a machine stand better, and how tall is it?
//!
//! It is steel, in bars or plates, bolted up under both cross-bars of the base: there it lies lowest, in the middle, and the
//! vessel is not in its way. It is as deep as the cross-bars stand apart, and so tall as its weight makes it.

use super::footprint::{Extent, contact_points};
use super::machine::{CROSS_BAR_PLACE, Envelope, layout};
use super::scaling::STEEL;
use crate::design::inputs::Part;
use crate::design::{Design, Value};
use uom::si::f64::Length;
use uom::si::length::meter;

/// What dead weight is called.
pub const BALLAST: &str = "Ballast";

/// As wide as this, m, where the base is wide enough. Our own choice.
const WIDE: f64 = 0.3;
/// Narrower than this it is not hung, m. Our own mark.
const NARROWEST: f64 = 0.1;
/// Room that is left to the ground, m, or as much as the kerb is high. Our own mark.
const TO_GROUND: f64 = 0.05;
/// Less room than this under the bars is none, m. Our own mark.
const LEAST_ROOM: f64 = 0.01;
/// Heights are rounded up to this, m.
const STEP: f64 = 0.001;
/// Levels that differ by less are the same, m.
const ROUNDING: f64 = 1e-6;
/// A gap as small as this is none, m: washers fill it. Our own mark.
const TOUCHES: f64 = 0.001;

/// The place under the cross-bars where dead weight hangs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hanger {
    /// Its middle, to the right of the middle of the base.
    pub x: Length,
    /// Its middle, behind the middle of the base.
    pub y: Length,
    /// From side to side.
    pub width: Length,
    /// From front to back: over both cross-bars.
    pub depth: Length,
    /// What it hangs from, above ground: the underside of the bars, or of the dead weight that hangs there.
    pub level: Length,
    /// Height that is free below that.
    pub room: Length,
}

impl Hanger {
    /// The heaviest that has room there, kg.
    pub fn most(&self) -> f64 {
        let steps = (self.room.value / STEP + ROUNDING).floor();
        STEEL * (self.width * self.depth).value * steps * STEP
    }
}

/// Height of dead weight of this mass, kg, on this area of steel, m²; whole millimetres.
fn height(mass: f64, area: f64) -> f64 {
    ((mass / (STEEL * area) / STEP - ROUNDING).ceil() * STEP).max(STEP)
}

pub(crate) fn underside_of_bars(design: &Design) -> f64 {
    (design.base.clearance - design.base.frame_side).value
}

/// The dead weight that hangs under the bars.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::sizing::ballast::hung;
/// assert_eq!(hung(&example::as_improved()).count(), 0);
/// ```
pub fn hung(design: &Design) -> impl Iterator<Item = &Part> {
    let bars = underside_of_bars(design) + ROUNDING;
    (design.parts.iter())
        .filter(move |part| part.name == BALLAST && (part.z + part.height).value <= bars)
}

/// Where dead weight can hang; none where the base has no bars for it, or nothing is free below them.
///
/// ```
/// use hearthplan::design::Design;
/// use hearthplan::sizing::ballast::hanger;
/// let design = Design::default();
/// let free = hanger(&design).unwrap();
/// assert_eq!(free.level, design.base.clearance - design.base.frame_side);
/// assert!(free.depth > design.base.depth / 3.0);
/// ```
pub fn hanger(design: &Design) -> Option<Hanger> {
    let extent = Extent::of(&contact_points(design))?;
    let side = design.base.frame_side;
    let (x, y) = extent.middle();
    let width = (extent.width() - side).min(Length::new::<meter>(WIDE));
    let depth = 2.0 * CROSS_BAR_PLACE * extent.depth() + side;
    if width.min(depth).value < NARROWEST {
        return None;
    }
    let level = lowest(design, &held(design));
    let wanted = [x, y, width, depth].map(|length| length.value);
    let ground = TO_GROUND.max(design.base.kerb_height.value);
    let floor = (layout(design).solids.iter())
        .map(|solid| &solid.envelope)
        .filter(|other| other.bottom().value < level - ROUNDING && overlaps(other, wanted))
        .map(|other| other.top().value)
        .fold(ground, f64::max);
    let room = level - floor;
    (room >= LEAST_ROOM).then(|| Hanger {
        x,
        y,
        width,
        depth,
        level: Length::new::<meter>(level),
        room: Length::new::<meter>(room),
    })
}

/// Whether an outline, seen from above, lies over the rectangle of this middle, width and depth, m.
fn overlaps(other: &Envelope, [x, y, width, depth]: [f64; 4]) -> bool {
    let beside = |from: f64, to: f64, middle: f64, size: f64| {
        from < middle + 0.5 * size && to > middle - 0.5 * size
    };
    match other {
        Envelope::Box(sides) => {
            beside(sides.left.value, sides.right.value, x, width)
                && beside(sides.front.value, sides.back.value, y, depth)
        }
        Envelope::Round(round) => {
            let off = |middle: Length, of: f64, size: f64| {
                ((middle.value - of).abs() - 0.5 * size).max(0.0)
            };
            let radius = round.outer_bottom.max(round.outer_top).value;
            off(round.x, x, width).hypot(off(round.y, y, depth)) < radius
        }
    }
}

/// The fields of new dead weight that hangs there, without its weight: its place is told by what it hangs from, until
/// [`hang`] knows how tall it is.
pub fn fields(hanger: &Hanger) -> Vec<(&'static str, Value)> {
    let number = |length: Length| Value::Number(length.value);
    let named = |name: &str| Value::Choice(name.to_string());
    vec![
        ("name", Value::Text(BALLAST.to_string())),
        ("group", named("base")),
        ("shape", named("weighed")),
        ("width", number(hanger.width)),
        ("depth", number(hanger.depth)),
        ("x", number(hanger.x)),
        ("y", number(hanger.y)),
        ("z", number(hanger.level)),
    ]
}

/// Gives dead weight among the fields of a new part its height, and lets it hang down by that.
pub fn hang(list: &str, fields: &mut Vec<(&'static str, Value)>) {
    if list != "parts" || !fields.contains(&("name", Value::Text(BALLAST.to_string()))) {
        return;
    }
    let number = |wanted: &str| {
        fields.iter().find_map(|(name, value)| match value {
            Value::Number(number) if *name == wanted => Some(*number),
            _ => None,
        })
    };
    let numbers = [
        number("mass"),
        number("width"),
        number("depth"),
        number("z"),
    ];
    let [Some(mass), Some(width), Some(depth), Some(level)] = numbers else {
        return;
    };
    let tall = height(mass, width * depth);
    fields.retain(|(name, _)| *name != "z");
    fields.push(("height", Value::Number(tall)));
    fields.push(("z", Value::Number(level - tall)));
}

/// Dead weight that nothing holds where it stands: bars or ground were moved since it was hung, or it was.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unheld {
    /// Its place among the other parts, counted from zero.
    pub place: usize,
    /// Its underside, above ground.
    pub underside: Length,
    /// Its top, above ground.
    pub top: Length,
    /// What it would hang from, above ground: the underside of the bars, or of the dead weight that hangs there.
    pub level: Length,
    /// Where its underside would be if it hung there; none where it has no room there.
    pub fits: Option<Length>,
}

impl Unheld {
    /// Whether it touches the ground where it stands.
    pub fn is_on_ground(&self) -> bool {
        self.underside.value < TOUCHES
    }
}

/// Underside and top, m.
fn ends(part: &Part) -> [f64; 2] {
    [part.z, part.z + part.height].map(|level| level.value)
}

fn is_near(one: f64, other: f64) -> bool {
    (one - other).abs() <= TOUCHES
}

/// Whether a design has dead weight by that name.
pub fn has_ballast(design: &Design) -> bool {
    design.parts.iter().any(|part| part.name == BALLAST)
}

/// The dead weight that hangs under the bars or lies on them, with its places among the other parts: what does so right there,
/// then what does so at that, and so on. What touches the ground does not.
fn held(design: &Design) -> Vec<(usize, &Part)> {
    let bars = underside_of_bars(design);
    let all: Vec<(usize, &Part)> = (design.parts.iter().enumerate())
        .filter(|(_, part)| part.name == BALLAST && part.z.value >= TOUCHES)
        .collect();
    let mut held: Vec<(usize, &Part)> = Vec::new();
    loop {
        let before = held.len();
        for one in &all {
            let [below, above] = ends(one.1);
            let at_bars = is_near(above, bars) || is_near(below, design.base.clearance.value);
            let at_another = || {
                (held.iter()).any(|(_, other)| {
                    let [foot, head] = ends(other);
                    is_near(above, foot) || is_near(below, head)
                })
            };
            if !held.contains(one) && (at_bars || at_another()) {
                held.push(*one);
            }
        }
        if held.len() == before {
            return held;
        }
    }
}

/// Underside of the bars, or of the lowest that is held under them, m.
fn lowest(design: &Design, held: &[(usize, &Part)]) -> f64 {
    (held.iter())
        .map(|(_, part)| part.z.value)
        .fold(underside_of_bars(design), f64::min)
}

/// The first dead weight that neither hangs under the bars nor lies on them, right there or with others between, or that
/// touches the ground; none where all of it is held.
///
/// ```
/// use hearthplan::design::{Design, inputs::Part};
/// use hearthplan::sizing::ballast::{BALLAST, hanger, unheld};
/// let mut design = Design::default();
/// let level = hanger(&design).unwrap().level;
/// let mut plate = Part { name: BALLAST.to_string(), ..Part::default() };
/// plate.height = 0.2 * level;
/// plate.z = level - plate.height;
/// design.parts.push(plate);
/// assert_eq!(unheld(&design), None);
/// design.base.clearance *= 1.1;
/// let found = unheld(&design).unwrap();
/// assert_eq!(found.fits, Some(hanger(&design).unwrap().level - 0.2 * level));
/// ```
pub fn unheld(design: &Design) -> Option<Unheld> {
    let held = held(design);
    let (place, part) = (design.parts.iter().enumerate())
        .find(|one| one.1.name == BALLAST && !held.contains(one))?;
    let level = lowest(design, &held);
    let fits = level - part.height.value;
    let ground = TO_GROUND.max(design.base.kerb_height.value);
    Some(Unheld {
        place,
        underside: part.z,
        top: part.z + part.height,
        level: Length::new::<meter>(level),
        fits: (fits >= ground - ROUNDING).then(|| Length::new::<meter>(fits)),
    })
}
