//! Has the design been changed since a part was made?
//!
//! The tick of a joint keeps the sizes of the metal parts on both sides of it, as the design has them at that moment. They
//! are set beside the design ever after. Nobody is asked which of these parts are made already, so what is told of a
//! part holds if it is.

use super::machine::{Machine, layout};
use super::parts_list::{PartLine, parts_list};
use super::stock::stock;
use crate::design::Design;
use crate::design::inputs::{Joint, JointState, LONGEST_MADE_SIZES, Material};
use uom::si::f64::Length;
use uom::si::length::millimeter;

/// Between two parts, between a part and its sizes, and between two sizes.
const NEXT: &str = "; ";
const IS: &str = ": ";
const BY: &str = " × ";
/// Sheet, walls and threads below this are kept so exactly that a size in fractions of an inch comes back as it was, mm; others
/// to a tenth.
const THIN: f64 = 25.0;
/// Sizes that differ by less are told alike, mm: some were kept to a tenth.
const ALIKE: f64 = 0.15;

/// A part that the design has otherwise than when its joint was ticked.
#[derive(Debug, Clone, PartialEq)]
pub struct MadeOtherwise {
    /// The joint that keeps its sizes: place in the list, counted from zero.
    pub joint: usize,
    /// Name of the part.
    pub part: String,
    /// The first size that differs, when made and now; none where the design has no such part any more.
    pub sizes: Option<(Length, Length)>,
}

/// A part with its sizes.
#[derive(Debug, Clone, PartialEq)]
struct Sized {
    part: String,
    /// In millimetres.
    sizes: Vec<f64>,
}

impl Sized {
    fn of(design: &Design, machine: &Machine, line: &PartLine) -> Option<Self> {
        let sizes = stock(design, machine, line)?.lengths();
        Some(Self {
            part: line.name.replace([';', ':'], ","),
            sizes: sizes.iter().map(Length::get::<millimeter>).collect(),
        })
    }

    fn written(&self) -> String {
        let size = |size: &f64| {
            let decimals = if *size < THIN { 4 } else { 1 };
            let told = format!("{size:.decimals$}");
            told.trim_end_matches('0').trim_end_matches('.').to_string()
        };
        let sizes: Vec<String> = self.sizes.iter().map(size).collect();
        [self.part.as_str(), IS, &sizes.join(BY)].concat()
    }

    /// None for what does not read as a part with sizes.
    fn read(text: &str) -> Option<Self> {
        let (part, sizes) = text.rsplit_once(IS)?;
        let size = |size: &str| {
            size.trim()
                .parse()
                .ok()
                .filter(|size: &f64| size.is_finite())
        };
        let sizes: Option<Vec<f64>> = sizes.split(BY.trim()).map(size).collect();
        Some(Self {
            part: part.trim().to_string(),
            sizes: sizes?,
        })
    }

    /// The first size that differs; with another number of sizes it is another kind of piece.
    fn differs(&self, now: &Self) -> Option<Option<(Length, Length)>> {
        if self.sizes.len() != now.sizes.len() {
            return Some(None);
        }
        let mut pairs = self.sizes.iter().zip(&now.sizes);
        let (was, is) = pairs.find(|(was, is)| (*was - *is).abs() >= ALIKE)?;
        Some(Some((
            Length::new::<millimeter>(*was),
            Length::new::<millimeter>(*is),
        )))
    }
}

fn kept(joint: &Joint) -> impl Iterator<Item = Sized> {
    joint.made_sizes.split(NEXT.trim()).filter_map(Sized::read)
}

/// The metal parts of both sub-assemblies of a joint.
fn beside<'a>(joint: &'a Joint, parts: &'a [PartLine]) -> impl Iterator<Item = &'a PartLine> {
    let is_metal = |line: &PartLine| line.material.is_some_and(Material::is_metal);
    (parts.iter()).filter(move |line| is_metal(line) && joint.is_of(line.group))
}

/// Keeps the sizes beside each joint that is ticked and was not before, and drops those of a joint that is open again. What
/// another joint has kept already stays with that one.
///
/// ```
/// use hearthplan::design::{Design, inputs::JointState};
/// use hearthplan::sizing::as_made::keep_sizes;
/// let mut design = Design::default();
/// let before = design.joints.clone();
/// design.joints[0].state = JointState::Made;
/// keep_sizes(&mut design, &before);
/// assert!(!design.joints[0].made_sizes.is_empty());
/// ```
pub fn keep_sizes(design: &mut Design, before: &[Joint]) {
    let is_open = |joint: &Joint| joint.state == JointState::Open;
    let is_new = |(place, joint): (usize, &Joint)| {
        let was_open = before.get(place).is_none_or(is_open);
        (!is_open(joint) && was_open).then_some(place)
    };
    let new: Vec<usize> = (design.joints.iter().enumerate())
        .filter_map(is_new)
        .collect();
    for joint in design.joints.iter_mut().filter(|joint| is_open(joint)) {
        joint.made_sizes.clear();
    }
    if new.is_empty() {
        return;
    }
    let machine = layout(design);
    let parts = parts_list(design, &machine);
    for place in new {
        let text = design.joints.get(place).map(|joint| {
            let others = (design.joints.iter().enumerate()).filter(|(other, _)| *other != place);
            let is_kept = |line: &PartLine, sized: &Sized| {
                (others.clone())
                    .filter(|(_, other)| other.is_of(line.group))
                    .any(|(_, other)| kept(other).any(|kept| kept.part == sized.part))
            };
            let new = beside(joint, &parts).filter_map(|line| {
                let sized = Sized::of(design, &machine, line)?;
                (!is_kept(line, &sized)).then(|| sized.written())
            });
            as_text(new)
        });
        if let (Some(text), Some(joint)) = (text, design.joints.get_mut(place)) {
            joint.made_sizes = text;
        }
    }
}

/// As many parts as the input takes.
fn as_text(parts: impl Iterator<Item = String>) -> String {
    let mut text = String::new();
    for part in parts {
        let between = if text.is_empty() { "" } else { NEXT };
        if text.chars().count() + between.len() + part.chars().count() > LONGEST_MADE_SIZES {
            break;
        }
        text.push_str(between);
        text.push_str(&part);
    }
    text
}

/// How many parts have kept sizes.
pub fn kept_parts(design: &Design) -> usize {
    ticked(design).map(|(_, joint)| kept(joint).count()).sum()
}

fn ticked(design: &Design) -> impl Iterator<Item = (usize, &Joint)> {
    (design.joints.iter().enumerate()).filter(|(_, joint)| joint.state != JointState::Open)
}

/// The parts that the design has otherwise than when their joint was ticked, in the order of the joints.
///
/// ```
/// use hearthplan::design::{Design, inputs::JointState};
/// use hearthplan::sizing::{as_made::{keep_sizes, made_otherwise}, machine::layout, parts_list::parts_list};
/// let mut design = Design::default();
/// let before = design.joints.clone();
/// design.joints.iter_mut().for_each(|joint| joint.state = JointState::Made);
/// keep_sizes(&mut design, &before);
/// let otherwise = |design: &Design| {
///     let machine = layout(design);
///     made_otherwise(design, &machine, &parts_list(design, &machine))
/// };
/// assert!(otherwise(&design).is_empty());
/// design.hopper.diameter *= 1.1;
/// assert!(otherwise(&design).iter().any(|one| one.part == "Hopper"));
/// ```
pub fn made_otherwise(
    design: &Design,
    machine: &Machine,
    parts: &[PartLine],
) -> Vec<MadeOtherwise> {
    let mut otherwise = Vec::new();
    for (place, joint) in ticked(design) {
        let mut now: Vec<Sized> = beside(joint, parts)
            .filter_map(|line| Sized::of(design, machine, line))
            .collect();
        for was in kept(joint) {
            let like = |now: &Sized| now.part == was.part;
            let same = |now: &Sized| like(now) && was.differs(now).is_none();
            let found = now.iter().position(same).or(now.iter().position(like));
            let differs = match found {
                Some(found) => was.differs(&now.swap_remove(found)),
                None => Some(None),
            };
            otherwise.extend(differs.map(|sizes| MadeOtherwise {
                joint: place,
                part: was.part,
                sizes,
            }));
        }
    }
    otherwise
}
