//! Puts a design through every question, in order, and gives verdicts with remedies.
//!
//! One way for data: a [`Design`] goes in, [`assess`] gives an [`Assessment`]. Each chapter is a
//! file of its own with a result struct for drawing and charts, and a list of [`Finding`]s.

mod best_step;
mod breath;
pub mod compare;
mod cost;
mod detour;
mod earlier;
mod electrics;
mod elsewhere;
mod engine;
mod finding;
mod further;
pub mod guided;
mod harm;
mod heart;
mod hearth;
mod leaks;
mod marking;
mod moving;
mod offered;
mod order;
mod pair;
mod pull;
mod reach;
mod reads;
mod reckoned;
mod remark;
mod remedy;
mod reservations;
pub mod sampling;
mod standing;
mod table;
mod train;
mod two_changes;
mod warmth;
mod way;
mod workshop;

pub use crate::sizing::heart::{AtLoads, HeartAt};
pub use best_step::{BestStep, best_step, best_steps_or_pairs, rank_steps, weigh_step};
pub use breath::{
    BlowerDuty, BlowerReview, BlowerTrouble, Breath, CurveSample, Duty, Part, PartLoss, has_blower,
};
pub use detour::{detour, rank_detours};
pub use electrics::{Drain, Electrics, KnobSetting, Shelter, WiringRow};
pub use elsewhere::{Elsewhere, Own, Place, mended_elsewhere};
pub use engine::{EngineReview, MAINS, OnGas, OtherSize};
pub use finding::{Chapter, Finding, Lever, NamedResult, Step, Tally, Verdict};
pub use harm::{HARMS, Harm, worst_first};
pub use heart::{
    HOTTEST, Heart, HeartPoint, HearthNumbers, LoadRange, Measurement, heart_over_load, judge_each,
    layer_to_add, model_beside_measurement,
};
pub use hearth::{
    Constricted, Deviation, HearthReview, LoadPoint, Wearing, ash_room_lasts, load_against_throat,
    wearing,
};
pub use leaks::{EscapingGas, GroupLeak, LeakTestMade, Leaks, RoomAir, Taken, WhyCounted};
pub(crate) use marking::off_its_place;
pub use marking::{MarkingReview, USED_VESSEL};
pub use order::{OrderReview, step_is_done};
pub use pair::{Advice, Pair, advice, rank_pairs};
pub(crate) use remark::of_drive;
pub use remedy::{Brought, Change, Remedy, easing, remedies, remedy};
pub use reservations::{FACTS, in_order};
pub use standing::{Standing, tip_verdict};
pub use table::{Table, TableRow};
pub use train::{PowerLeft, StageName, TrainReview};
pub use two_changes::{pairs, takes_two, two_changes};
pub use warmth::{FIBRE_CAUTION, Hottest, Warmth};
pub use way::{OpenQuestion, Way, WayStep, whole_way};
pub use workshop::{WorkshopReview, told_apart};

use crate::design::Design;
use crate::sizing::cost::CostSheet;
use crate::sizing::machine::{self, Machine};
use reads::Known;
use std::borrow::Cow;

/// Everything the review found out about a design.
#[derive(Debug, Clone)]
pub struct Assessment {
    /// Wood, gas, hearth temperature, load range.
    pub heart: Heart,
    /// Power, wood use, filling.
    pub engine: EngineReview,
    /// Weight, centre of gravity, tipping.
    pub standing: Standing,
    /// Heat through the shell.
    pub warmth: Warmth,
    /// Hearth load and nozzles.
    pub hearth: HearthReview,
    /// The gas between hearth and engine, stage by stage.
    pub train: TrainReview,
    /// Pressure chain and blower.
    pub breath: Breath,
    /// Battery, cables, fuses, battery box.
    pub electrics: Electrics,
    /// The holes on the vessel that was bought.
    pub marking: MarkingReview,
    /// Parts, lifting, what comes apart.
    pub workshop: WorkshopReview,
    /// Leak tests, and the gas that leaks into a room.
    pub leaks: Leaks,
    /// The order of the work.
    pub order: OrderReview,
    /// What it costs.
    pub cost: CostSheet,
    /// All answers, in the order the questions are asked.
    pub findings: Vec<Finding>,
}

impl Assessment {
    /// The worst verdict of all; Good when there is no finding.
    pub fn worst(&self) -> Verdict {
        self.findings
            .iter()
            .map(|finding| finding.verdict)
            .max()
            .unwrap_or(Verdict::Good)
    }

    /// Number of findings with this verdict.
    pub fn count(&self, verdict: Verdict) -> usize {
        self.findings
            .iter()
            .filter(|finding| finding.verdict == verdict)
            .count()
    }

    /// The findings of one chapter, in the order they are asked.
    pub fn answers(&self, chapter: Chapter) -> impl Iterator<Item = &Finding> {
        self.findings
            .iter()
            .filter(move |finding| finding.chapter == chapter)
    }

    /// The finding with this id.
    pub fn finding(&self, id: &str) -> Option<&Finding> {
        self.findings.iter().find(|finding| finding.id == id)
    }

    /// All computed numbers with their stable names.
    pub fn results(&self) -> Vec<NamedResult> {
        let mut results = self.heart.results();
        results.extend(self.engine.results());
        results.extend(self.standing.results());
        results.extend(self.warmth.results());
        results.extend(self.hearth.results());
        results.extend(self.train.results());
        results.extend(self.breath.results());
        results.extend(self.electrics.results());
        results.extend(self.marking.results());
        results.extend(self.workshop.results());
        results.extend(self.leaks.results());
        results.extend(self.order.results());
        results.extend(self.cost.results());
        results
    }
}

/// Puts a design through every question.
///
/// ```
/// use hearthplan::{design::Design, review};
/// let assessment = review::assess(&Design::default());
/// assert!(!assessment.findings.is_empty());
/// ```
pub fn assess(design: &Design) -> Assessment {
    examine(design, Depth::Whole, None).into_assessment()
}

/// As [`assess`], for a design that came of another one by a change: chapters that read nothing of what was changed
/// answer as before and are taken over. The less was changed, the quicker.
///
/// ```
/// use hearthplan::{design::{Design, Value}, review};
/// let design = Design::default();
/// let before = review::assess(&design);
/// let mut wider = design.clone();
/// wider.set("base.width", Value::Number(0.9)).unwrap();
/// let after = review::assess_after(&design, &before, &wider);
/// assert_eq!(after.findings, review::assess(&wider).findings);
/// ```
pub fn assess_after(before: &Design, assessment: &Assessment, after: &Design) -> Assessment {
    let known = Known::new(before, assessment, after);
    examine(after, Depth::Whole, Some(&known)).into_assessment()
}

/// The answers of all chapters, without the comparisons that no verdict needs.
fn verdicts(design: &Design, known: Option<&Known>) -> Vec<Finding> {
    examine(design, Depth::Verdicts, known).findings
}

/// The answers of those chapters alone that read something of what was changed.
fn changed_verdicts(design: &Design, known: &Known) -> Vec<Finding> {
    examine(design, Depth::ChangedVerdicts, Some(known)).findings
}

/// Room for the findings of a design as they usually are.
const USUAL_FINDINGS: usize = 96;

/// How much is worked out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Depth {
    /// What the verdicts need of those chapters that are asked anew; the other answers are left out.
    ChangedVerdicts,
    /// What the verdicts need.
    Verdicts,
    /// What a person can look at as well.
    Whole,
}

/// The chapters as they are asked one after the other.
struct Review<'a> {
    depth: Depth,
    known: Option<&'a Known<'a>>,
    findings: Vec<Finding>,
}

impl<'a> Review<'a> {
    /// What a chapter finds out: taken over where it is known, asked otherwise.
    fn chapter<T: Clone>(
        &mut self,
        chapter: Chapter,
        of: fn(&'a Assessment) -> &'a T,
        ask: impl FnOnce() -> (T, Vec<Finding>),
    ) -> Cow<'a, T> {
        match self.known.and_then(|known| known.about(chapter)) {
            Some(before) => {
                if self.depth != Depth::ChangedVerdicts {
                    self.findings.extend(before.answers(chapter).cloned());
                }
                Cow::Borrowed(of(before))
            }
            None => {
                let (found, answers) = ask();
                self.findings.extend(answers);
                Cow::Owned(found)
            }
        }
    }
}

/// What the chapters found, taken over or new.
struct Found<'a> {
    heart: Cow<'a, Heart>,
    engine: Cow<'a, EngineReview>,
    standing: Cow<'a, Standing>,
    warmth: Cow<'a, Warmth>,
    hearth: Cow<'a, HearthReview>,
    train: Cow<'a, TrainReview>,
    breath: Cow<'a, Breath>,
    electrics: Cow<'a, Electrics>,
    marking: Cow<'a, MarkingReview>,
    workshop: Cow<'a, WorkshopReview>,
    leaks: Cow<'a, Leaks>,
    order: Cow<'a, OrderReview>,
    cost: Cow<'a, CostSheet>,
    findings: Vec<Finding>,
}

impl Found<'_> {
    fn into_assessment(self) -> Assessment {
        Assessment {
            heart: self.heart.into_owned(),
            engine: self.engine.into_owned(),
            standing: self.standing.into_owned(),
            warmth: self.warmth.into_owned(),
            hearth: self.hearth.into_owned(),
            train: self.train.into_owned(),
            breath: self.breath.into_owned(),
            electrics: self.electrics.into_owned(),
            marking: self.marking.into_owned(),
            workshop: self.workshop.into_owned(),
            leaks: self.leaks.into_owned(),
            order: self.order.into_owned(),
            cost: self.cost.into_owned(),
            findings: self.findings,
        }
    }
}

fn examine<'a>(design: &Design, depth: Depth, known: Option<&'a Known<'a>>) -> Found<'a> {
    let mut review = Review {
        depth,
        known,
        findings: Vec::with_capacity(USUAL_FINDINGS),
    };
    let heart = review.chapter(
        Chapter::Heart,
        |known| &known.heart,
        || {
            let heart = match known.and_then(Known::hearth) {
                Some(hearth) => hearth.clone(),
                None if depth == Depth::Whole => Heart::of(design).with_comparisons(design),
                None => Heart::of(design),
            };
            let heart = heart.with_range(design);
            let findings = heart::ask(design, &heart);
            (heart, findings)
        },
    );
    let engine = review.chapter(
        Chapter::Engine,
        |known| &known.engine,
        || engine::examine(design, &heart, depth),
    );
    let standing = review.chapter(
        Chapter::Standing,
        |known| &known.standing,
        || standing::examine(design),
    );
    let warmth = review.chapter(
        Chapter::Warmth,
        |known| &known.warmth,
        || warmth::examine(design, &heart),
    );
    let hearth = review.chapter(
        Chapter::Hearth,
        |known| &known.hearth,
        || hearth::examine(design, &heart, warmth.time_to_light()),
    );
    let train = review.chapter(
        Chapter::Train,
        |known| &known.train,
        || train::examine(design, &heart, depth),
    );
    let breath = review.chapter(
        Chapter::Breath,
        |known| &known.breath,
        || breath::examine(design, &train),
    );
    let electrics = review.chapter(
        Chapter::Electrics,
        |known| &known.electrics,
        || {
            let wall = warmth.hottest(electrics::zone(design));
            electrics::examine(design, &heart, &breath, wall, warmth.time_to_light())
        },
    );
    let marking = review.chapter(
        Chapter::Marking,
        |known| &known.marking,
        || marking::examine(design),
    );
    let workshop = review.chapter(
        Chapter::Workshop,
        |known| &known.workshop,
        || workshop::examine(design, &standing.machine),
    );
    let leaks = review.chapter(
        Chapter::Leaks,
        |known| &known.leaks,
        || leaks::examine(design, &heart, &train),
    );
    let order = review.chapter(
        Chapter::Order,
        |known| &known.order,
        || order::examine(design),
    );
    let cost = review.chapter(
        Chapter::Cost,
        |known| &known.cost,
        || cost::examine(design, &standing.machine, &workshop.parts),
    );
    Found {
        heart,
        engine,
        standing,
        warmth,
        hearth,
        train,
        breath,
        electrics,
        marking,
        workshop,
        leaks,
        order,
        cost,
        findings: review.findings,
    }
}

/// The answers of one chapter alone.
pub fn ask(design: &Design, chapter: Chapter) -> Vec<Finding> {
    answers(design, chapter, None, None)
}

/// As [`ask`], for searches that ask many times about designs that differ little from a known one. With an id, only
/// the question of that id is sure to be among the answers.
fn answers(
    design: &Design,
    chapter: Chapter,
    id: Option<&str>,
    known: Option<&Known>,
) -> Vec<Finding> {
    if let Some(before) = known.and_then(|known| known.about(chapter)) {
        return before.answers(chapter).cloned().collect();
    }
    let heart = || match known.and_then(Known::hearth) {
        Some(hearth) => Cow::Borrowed(hearth),
        None => Cow::Owned(Heart::of(design)),
    };
    let train = |heart: &Heart| match known.and_then(|known| known.about(Chapter::Train)) {
        Some(before) => Cow::Borrowed(&before.train),
        None => Cow::Owned(train::compute(design, heart)),
    };
    let breath = |heart: &Heart| match known.and_then(|known| known.about(Chapter::Breath)) {
        Some(before) => Cow::Borrowed(&before.breath),
        None => Cow::Owned(breath::examine(design, &train(heart)).0),
    };
    let warmth = |heart: &Heart| match known.and_then(|known| known.about(Chapter::Warmth)) {
        Some(before) => Cow::Borrowed(&before.warmth),
        None => Cow::Owned(Warmth::of(design, heart)),
    };
    let laid_out = known.and_then(|known| known.about(Chapter::Standing));
    let machine = |of: fn(&Design, &Machine) -> Vec<Finding>| match laid_out {
        Some(before) => of(design, &before.standing.machine),
        None => of(design, &machine::layout(design)),
    };
    match chapter {
        Chapter::Heart => {
            // The range takes many loads.
            let heart = match id {
                Some(id) if id != heart::RANGE => heart(),
                _ => Cow::Owned(heart().into_owned().with_range(design)),
            };
            heart::ask(design, &heart)
        }
        Chapter::Engine => engine::examine(design, &heart(), Depth::Verdicts).1,
        Chapter::Standing => standing::examine(design).1,
        Chapter::Warmth => warmth::examine(design, &heart()).1,
        Chapter::Hearth => {
            let heart = heart();
            // How long the wall warms up bears on one question alone, and takes many steps.
            let lit = (id.is_none_or(|id| id == hearth::ASH_ROOM))
                .then(|| warmth(&heart).time_to_light())
                .flatten();
            hearth::examine(design, &heart, lit).1
        }
        Chapter::Train => {
            let heart = heart();
            train::ask(design, &heart, &train(&heart))
        }
        Chapter::Breath => breath::examine(design, &train(&heart())).1,
        Chapter::Electrics => {
            let heart = heart();
            let warmth = warmth(&heart);
            let wall = warmth.hottest(electrics::zone(design));
            let breath = breath(&heart);
            electrics::examine(design, &heart, &breath, wall, warmth.time_to_light()).1
        }
        Chapter::Marking => marking::examine(design).1,
        Chapter::Workshop => machine(|design, machine| workshop::examine(design, machine).1),
        Chapter::Leaks => {
            let heart = heart();
            leaks::examine(design, &heart, &train(&heart)).1
        }
        Chapter::Order => order::examine(design).1,
        Chapter::Cost => machine(|design, machine| {
            let parts = workshop::parts(design, machine);
            cost::examine(design, machine, &parts).1
        }),
    }
}
