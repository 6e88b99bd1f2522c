//! What do the stages of the gas train weigh, and does something stand for them where weight and tipping are asked?

use super::stand_ins::{stand_ins, standing_for};
use super::{WorkshopReview, mass};
use crate::design::Source::CommonPractice;
use crate::design::inputs::{CostKind, Group};
use crate::design::phrase::{Measure, Phrase};
use crate::design::{Choice, Design};
use crate::review::finding::{Chapter, Finding, Step, Verdict};
use crate::sizing::machine::Machine;
use crate::sizing::parts_list::{PartLine, group_of, parts_for_stages};
use crate::sizing::train_mass::jacket;
use uom::si::f64::Mass;

/// What stands for the stages of a sub-assembly must weigh this share of them: our own mark, for what no size tells.
pub(super) const PLACED_SHARE: f64 = 0.9;
/// Stages that weigh less than this need no place, kg. Our own mark.
const LIGHT: f64 = 1.0;

/// The question about what stands for the gas train.
pub(in crate::review) const TRAIN_WEIGHT: &str = "workshop.train_weight";

/// What the stages of the gas train in a sub-assembly weigh, and what stands for them on the scales.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrainWeight {
    /// The sub-assembly.
    pub group: Group,
    /// Its stages, by their sizes or as weighed, with the water of a jacket.
    pub computed: Mass,
    /// The other parts that stand for them, which have a place.
    pub placed: Mass,
}

impl TrainWeight {
    /// Watch when what stands for the stages weighs clearly less than they do.
    pub fn verdict(&self) -> Verdict {
        if self.computed.value < LIGHT || self.placed >= self.computed * PLACED_SHARE {
            Verdict::Good
        } else {
            Verdict::Watch
        }
    }
}

/// What the jackets of a sub-assembly hold: a jacket is always full, so its water weighs with the stage.
fn jacket_water(design: &Design, group: Group) -> Mass {
    let of_group = (design.train.iter()).filter(|stage| group_of(stage.kind) == group);
    of_group.filter_map(jacket).map(|jacket| jacket.water).sum()
}

/// What the stages weigh and what stands for them, for each sub-assembly that has stages.
pub(super) fn train_weights(
    design: &Design,
    parts: &[PartLine],
    machine: &Machine,
) -> Vec<TrainWeight> {
    let stands_for = parts_for_stages(design, parts);
    (Group::OPTIONS.iter())
        .filter_map(|option| Group::from_name(option.name))
        .filter_map(|group| {
            let stages = |line: &&PartLine| line.group == group && line.from.starts_with("train.");
            let computed = (parts.iter().filter(stages))
                .map(|line| line.mass)
                .sum::<Mass>()
                + jacket_water(design, group);
            (computed.value > 0.0).then(|| TrainWeight {
                group,
                computed,
                placed: standing_for(machine, &stands_for, group)
                    .map(|(_, solid)| solid.mass)
                    .sum(),
            })
        })
        .collect()
}

/// Does something stand for the gas train where weight and tipping are asked?
pub(super) fn train_weight(
    design: &Design,
    machine: &Machine,
    workshop: &WorkshopReview,
) -> Finding {
    let missing = || (workshop.train_weights.iter()).filter(|one| one.verdict() != Verdict::Good);
    let (verdict, compared) = placed_against_computed(workshop, missing().next());
    Finding {
        id: TRAIN_WEIGHT,
        chapter: Chapter::Workshop,
        title: "Weight of the gas train",
        meaning: "The stages of the gas train have a weight but no place. Other parts that are named for them stand for them in weight and tipping, with what lies in these.",
        verdict,
        compared,
        why: if verdict == Verdict::Watch {
            "A heavy cooler or filter that was forgotten moves the centre of gravity. What is offered here is what its stages weigh by their sizes, where the train is taken to stand: weigh it, and put its own weight and place there."
        } else {
            "A heavy cooler or filter that was forgotten moves the centre of gravity."
        },
        margin: None,
        working: (!workshop.train_weights.is_empty())
            .then(|| all_stages(design, workshop))
            .into_iter()
            .collect(),
        caution: None,
        levers: missing()
            .flat_map(|one| stand_ins(design, machine, &workshop.parts, one.group))
            .collect(),
        about: "parts",
    }
}

/// Over all sub-assemblies.
fn sum(workshop: &WorkshopReview, of: fn(&TrainWeight) -> Mass) -> Measure {
    mass(workshop.train_weights.iter().map(of).sum::<Mass>().value)
}

/// What stands for the stages against what they weigh, with the first sub-assembly where too little does.
fn placed_against_computed(
    workshop: &WorkshopReview,
    missing: Option<&TrainWeight>,
) -> (Verdict, Phrase) {
    if workshop.train_weights.is_empty() {
        let words = "the gas train has no stages";
        return (Verdict::CannotTell, Phrase::plain(words));
    }
    if let Some(one) = missing {
        let words = "{}: its stages weigh {}, the other parts that are named for them {}; what is missing there is missing from the weight";
        let slots = [
            one.group.label().into(),
            mass(one.computed.value).into(),
            mass(one.placed.value).into(),
        ];
        return (Verdict::Watch, Phrase::new(words, slots));
    }
    let nameless = nameless(&workshop.parts);
    let words = if nameless.is_empty() {
        "its stages weigh {}; the other parts that stand for them weigh {} where they stand"
    } else {
        "its stages weigh {}; the other parts that stand for them weigh {} where they stand; none of them is named for {}"
    };
    let weights = [
        sum(workshop, |one| one.computed).into(),
        sum(workshop, |one| one.placed).into(),
    ];
    let named = (!nameless.is_empty()).then(|| nameless.into());
    let slots = weights.into_iter().chain(named);
    (Verdict::Good, Phrase::new(words, slots))
}

fn all_stages(design: &Design, workshop: &WorkshopReview) -> Step {
    Step {
        words: "All stages, each from the sizes of its tubes, drums and cones, or as entered; the water of a jacket weighs with it",
        formula: "m = Σ mᵢ",
        values: stage_weights(design, &workshop.parts),
        result: sum(workshop, |one| one.computed),
        source: CommonPractice,
        sure: "without headers, brackets and inlets; the jacket is taken for a round shell of 3 mm (1/8 in) steel around the tubes, our own assumption; weigh it when it stands there, and enter that",
    }
}

/// The stages that weigh something, but that no other part is named for.
fn nameless(parts: &[PartLine]) -> String {
    let stages = parts.iter().filter(|line| {
        line.from.starts_with("train.")
            && line.stand_in.is_none()
            && line.kind == CostKind::Bought
            && line.mass.value >= LIGHT
    });
    let names: Vec<&str> = stages.map(|line| line.name.as_str()).collect();
    names.join(", ")
}

/// What each stage weighs on the parts list.
fn stage_weights(
    design: &Design,
    parts: &[PartLine],
) -> Vec<(&'static str, &'static str, Measure)> {
    let stages = design.train.iter().enumerate();
    stages
        .map(|(place, stage)| {
            let from = Design::item_path("train", place);
            let lines = parts.iter().filter(|line| line.from == from);
            let weight: Mass = lines.map(|line| line.mass).sum();
            let water = jacket(stage).map_or(Mass::default(), |jacket| jacket.water);
            ("mᵢ", stage.kind.label(), mass((weight + water).value))
        })
        .collect()
}
