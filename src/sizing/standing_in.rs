//! Which other part stands for a stage of the gas train?
//!
//! Stages have a weight but no place; a person enters what stands for them among the other parts, under a name of their
//! own. So names tell: a part of the stage's own name, or one of its sub-assembly that tells of its kind. A part stands
//! for one stage, the lump that is offered for stages of a sub-assembly for all of them that have no part of their own.

use super::names::Words;
use super::parts_list::group_of;
use crate::design::inputs::{Group, Part, Presence, Shape, StageKind, TrainStage};
use crate::design::{Choice, Design};

/// What the name of a part tells of a stage, the closest last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Told {
    /// It is of the stage's kind.
    ByKind,
    /// One name holds the words of the other.
    ByName,
    /// It has the stage's name.
    SameName,
}

/// For each stage of the gas train the place of the other part that stands for it; none where no name tells.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::sizing::standing_in::stand_ins;
/// let design = example::as_improved();
/// let found = stand_ins(&design);
/// let name = |stage: usize| found[stage].map(|part| design.parts[part].name.as_str());
/// assert_eq!(name(3), Some("Condensate trap"));
/// assert_eq!(name(5), Some("Pipe with fittings"));
/// ```
pub fn stand_ins(design: &Design) -> Vec<Option<usize>> {
    let mut found = vec![None; design.train.len()];
    let mut left: Vec<u32> = design.parts.iter().map(|part| part.count).collect();
    let words: Vec<Words> = (design.parts.iter())
        .map(|part| Words::of(&part.name))
        .collect();
    let mut pairs = Vec::new();
    for (stage, entry) in design.train.iter().enumerate() {
        let sought = Sought::of(entry);
        for (place, part) in design.parts.iter().enumerate() {
            let told = (words.get(place)).and_then(|words| sought.told(part, words));
            pairs.extend(told.map(|told| (told, is_shell(part), stage, place)));
        }
    }
    // The closest first, a shell before what may be in it; else in the order of the lists.
    pairs.sort_by_key(|(told, shell, ..)| std::cmp::Reverse((*told, *shell)));
    for (told, shell, stage, place) in pairs {
        let within = || {
            let taken = found
                .iter()
                .flatten()
                .filter_map(|at| design.parts.get(*at));
            let here = design.parts.get(place);
            here.is_some_and(|here| taken.into_iter().any(|around| is_within(here, around)))
        };
        if told == Told::ByKind && !shell && within() {
            continue;
        }
        if let (Some(at @ None), Some(count @ 1..)) = (found.get_mut(stage), left.get_mut(place)) {
            *at = Some(place);
            *count -= 1;
        }
    }
    for (at, entry) in found.iter_mut().zip(&design.train) {
        let mut parts = design.parts.iter().zip(&words);
        let here = group_of(entry.kind);
        *at = at
            .or_else(|| parts.position(|(part, words)| part.group == here && is_lump(part, words)));
    }
    found
}

/// For each other part the sub-assembly whose stages it stands for, from that of each stage and the part found for it: also
/// for what lies within such a part, as a packing does, and for the lump. None for a part that stands for no stage.
pub(super) fn stood_for(
    design: &Design,
    stages: impl Iterator<Item = (Group, Option<usize>)>,
) -> Vec<Option<Group>> {
    let mut groups = vec![None; design.parts.len()];
    let mut found: Vec<&Part> = Vec::new();
    for (group, place) in stages {
        let Some((part, of_part)) =
            place.and_then(|at| design.parts.get(at).zip(groups.get_mut(at)))
        else {
            continue;
        };
        if of_part.is_none() {
            *of_part = Some(group);
            found.push(part);
        }
    }
    for (of_part, part) in groups.iter_mut().zip(&design.parts) {
        let within = || found.iter().find(|around| is_within(part, around));
        // Names are only taken apart where they can tell.
        let is_lump = || part.shape == Shape::Weighed && is_lump(part, &Words::of(&part.name));
        if of_part.is_none() && (within().is_some() || is_lump()) {
            *of_part = Some(part.group);
        }
    }
    groups
}

/// Whether the sheet or tube of a stage is bought with the part that stands for it: what is only weighed tells nothing of
/// what it is made from.
pub(super) fn is_cut(part: &Part) -> bool {
    !matches!(part.shape, Shape::Weighed | Shape::Block | Shape::BulkFill)
}

/// What a part is called that stands for a stage.
struct Sought<'a> {
    stage: &'a TrainStage,
    kind: Words,
    name: Words,
}

impl<'a> Sought<'a> {
    fn of(stage: &'a TrainStage) -> Self {
        let measured = stage.kind == StageKind::Measured;
        let kind = if measured { "" } else { stage.kind.name() };
        let name = if stage.name.is_empty() && !measured {
            stage.kind.label()
        } else {
            &stage.name
        };
        Self {
            stage,
            kind: Words::of(kind),
            name: Words::of(name),
        }
    }

    /// What the name of a part tells of the stage. Of another sub-assembly only the very name of stage or kind counts.
    fn told(&self, part: &Part, words: &Words) -> Option<Told> {
        if part.presence == Presence::WhenFull
            || matches!(
                part.shape,
                Shape::Plate | Shape::Ring | Shape::DishedEnd | Shape::BulkFill
            )
        {
            return None;
        }
        let here = part.group == group_of(self.stage.kind);
        if words.are(&self.name) {
            Some(Told::SameName)
        } else if here && words.tell_of(&self.name) {
            Some(Told::ByName)
        } else if words.are(&self.kind) || (here && words.hold(&self.kind)) {
            Some(Told::ByKind)
        } else {
            None
        }
    }
}

fn is_shell(part: &Part) -> bool {
    matches!(part.shape, Shape::Tube | Shape::Box | Shape::Cone)
}

/// Whether the middle of a part lies within the outline of another of its sub-assembly, seen from above.
fn is_within(part: &Part, around: &Part) -> bool {
    let [right, back] = [part.x - around.x, part.y - around.y].map(|off| off.value);
    let reach = match around.shape {
        Shape::Tube | Shape::Cone => around.diameter,
        _ => around.width.min(around.depth),
    };
    part.group == around.group && right.hypot(back) < 0.5 * reach.value
}

/// Whether a part stands for all stages of its sub-assembly together.
fn is_lump(part: &Part, words: &Words) -> bool {
    part.shape == Shape::Weighed
        && words.say_it_is("stage")
        && words.hold(&Words::of(part.group.label()))
}
