//! Is each stage about as wide as the next, so that they are joined without a reducer?

use super::{Answer, Question};
use crate::design::Source::{CommonPractice, FromMemory, OwnMark};
use crate::design::inputs::{StageKind, TrainStage};
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::review::finding::{Finding, Step, Verdict};
use crate::review::train::{TrainReview, levers};
use crate::sizing::stage_bores::{ALIKE, inlet, outlet, step_loss};
use crate::sizing::train_mass::built;
use uom::si::f64::Length;

/// The slot of a cyclone may have as little as half of the area of the line before it: it is there to make the gas fast.
/// Our own mark.
const SLOT: f64 = std::f64::consts::FRAC_1_SQRT_2;

/// Where a stage meets the next.
struct Meeting<'a> {
    place: usize,
    stages: [&'a TrainStage; 2],
    /// Bores where the gas leaves the one and comes into the other.
    bores: [Length; 2],
}

impl<'a> Meeting<'a> {
    /// None where one of both is a wide vessel, whose connections no input tells.
    fn new(place: usize, stages: [&'a TrainStage; 2]) -> Option<Self> {
        let [before, behind] = stages;
        Some(Self {
            place,
            stages,
            bores: [outlet(before)?, inlet(behind)?],
        })
    }

    /// The narrower over the wider.
    fn share(&self) -> f64 {
        let [before, behind] = self.bores;
        (before.min(behind) / before.max(behind)).value
    }

    fn narrows_to_slot(&self) -> bool {
        let [before, behind] = self.bores;
        self.stages[1].kind == StageKind::Cyclone && behind < before
    }

    fn wanted(&self) -> f64 {
        match self.narrows_to_slot() {
            true => SLOT,
            false => ALIKE,
        }
    }
}

/// The step that is least as it is wanted. None where no stage meets another with a bore of its own.
pub(super) fn ask(design: &Design, train: &TrainReview) -> Option<Finding> {
    let next = design.train.iter().skip(1);
    let worst = (design.train.iter().zip(next).enumerate())
        .filter_map(|(place, (before, behind))| Meeting::new(place, [before, behind]))
        .min_by(|one, other| {
            (one.share() / one.wanted()).total_cmp(&(other.share() / other.wanted()))
        })?;
    let (share, wanted) = (worst.share(), worst.wanted());
    let verdict = Verdict::at_least(share, wanted, f64::NEG_INFINITY);
    let name = |place: usize| -> Slot {
        let name = train.names.get(place);
        name.map_or("", |name| &name.told).into()
    };
    let told = |share| Slot::from(Measure::new(Q::Share, share));
    let [before, behind] = worst.bores.map(across);
    let places = [worst.place, worst.place + 1];
    Some(
        Question {
            id: "train.steps",
            title: "Bores from stage to stage",
            meaning: "Where a stage of the gas train is much narrower or wider than the next, the gas passes a step.",
            why: "Pipes of unlike bore are only joined with a reducer. A sudden step costs pressure, and behind a widening dust and tar settle.",
            caution: None,
        }
        .answered(Answer {
            verdict,
            margin: share / wanted - 1.0,
            compared: Phrase::new(
                match verdict {
                    Verdict::Good => "least alike: {} is {} wide, {} behind it {}; the narrower has {} of the width of the wider, wanted {}",
                    _ => "{} is {} wide, {} behind it {}: that takes a reducer; the narrower has {} of the width of the wider, wanted {}",
                },
                [
                    name(worst.place),
                    before.into(),
                    name(worst.place + 1),
                    behind.into(),
                    told(share),
                    told(wanted),
                ],
            ),
            working: working(&worst),
            levers: (worst.stages.into_iter().zip(places))
                .map(|(stage, place)| levers::width(place, stage.kind))
                .collect(),
        }),
    )
}

fn length(length: Length) -> Measure {
    Measure::new(Q::Length, length.value)
}

fn across(bore: Length) -> Measure {
    Measure::new(Q::Bore, bore.value)
}

fn working(worst: &Meeting) -> Vec<Step> {
    let [before, behind] = worst.bores;
    let (narrow, wide) = (before.min(behind), before.max(behind));
    let slot = (worst.stages[1].kind == StageKind::Cyclone).then(|| {
        let sizes = built(worst.stages[1]).dimensions();
        Step {
            words: "Round bore with the area of the cyclone's inlet",
            formula: "d = 2 √(a b/π)",
            values: vec![
                ("a", "height of the slot", length(sizes.inlet_height)),
                ("b", "width of the slot", length(sizes.inlet_width)),
            ],
            result: across(behind),
            source: CommonPractice,
            sure: "The arithmetic is exact. From round pipe to slot it takes a piece of sheet in any case.",
        }
    });
    let alike = Step {
        words: "The narrower bore over the wider",
        formula: "x = d/D",
        values: vec![
            ("d", "narrower bore", across(narrow)),
            ("D", "wider bore", across(wide)),
        ],
        result: Measure::new(Q::Share, worst.share()),
        source: mark(worst),
        sure: "Within a tenth walls of pipes differ too, and they are joined as they are.",
    };
    let loss = Step {
        words: "What the step costs, on the velocity in the narrower bore",
        formula: match behind < before {
            true => "ζ = (1 − (d/D)²)/2",
            false => "ζ = (1 − (d/D)²)²",
        },
        values: vec![
            ("d", "narrower bore", across(narrow)),
            ("D", "wider bore", across(wide)),
        ],
        result: Measure::new(Q::Number, step_loss(before, behind)),
        source: FromMemory("Borda and Carnot; Idelchik, Handbook of Hydraulic Resistance"),
        sure: "For a sharp edge. It is part of “Other losses” of the stages: a sharp entrance 0.5 and an exit 1.0 are about the most that a step can cost.",
    };
    slot.into_iter().chain([alike, loss]).collect()
}

fn mark(worst: &Meeting) -> Source {
    match worst.narrows_to_slot() {
        true => OwnMark("the slot of a cyclone may have half of the area of its line"),
        false => CommonPractice,
    }
}
