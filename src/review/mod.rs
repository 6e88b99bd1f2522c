//! Puts a design through every question, in order, and gives verdicts with remedies.
//!
//! One way for data: a [`Design`] goes in, [`assess`] gives an [`Assessment`]. Each chapter is a
//! file of its own with a result struct for drawing and charts, and a list of [`Finding`]s.

mod best_step;
mod breath;
pub mod compare;
mod cost;
mod electrics;
mod engine;
mod finding;
pub mod guided;
mod heart;
mod hearth;
mod leaks;
mod marking;
mod order;
mod remark;
mod remedy;
pub mod sampling;
mod standing;
mod table;
mod train;
mod warmth;
mod workshop;

pub use crate::sizing::heart::{AtLoads, HeartAt};
pub use best_step::{BestStep, best_step, rank_steps, weigh_step};
pub use breath::{
    BlowerDuty, BlowerReview, BlowerTrouble, Breath, CurveSample, Duty, Part, PartLoss,
};
pub use electrics::{Drain, Electrics, KnobSetting, Shelter, WiringRow};
pub use engine::{EngineReview, OnGas};
pub use finding::{Chapter, Finding, Lever, NamedResult, Step, Verdict};
pub use heart::{
    Heart, HeartPoint, HearthNumbers, LoadRange, Measurement, heart_over_load,
    model_beside_measurement,
};
pub use hearth::{Constricted, Deviation, HearthReview, LoadPoint, load_against_throat};
pub use leaks::{GroupLeak, LeakTestMade, Leaks, RoomAir};
pub use marking::MarkingReview;
pub use order::OrderReview;
pub use remedy::{Change, Remedy, remedies, remedy};
pub use standing::Standing;
pub use table::{Table, TableRow};
pub use train::{StageName, TrainReview};
pub use warmth::Warmth;
pub use workshop::WorkshopReview;

use crate::design::Design;
use crate::sizing::cost::CostSheet;
use crate::sizing::machine;

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
    examine(design, Heart::with_comparisons(design))
}

/// The answers of all chapters, without the comparisons that no verdict needs.
pub(super) fn verdicts(design: &Design) -> Vec<Finding> {
    examine(design, Heart::with_range(design)).findings
}

fn examine(design: &Design, heart: Heart) -> Assessment {
    let mut findings = heart::ask(design, &heart);
    let (engine, more) = engine::examine(design, &heart);
    findings.extend(more);
    let (standing, more) = standing::examine(design);
    findings.extend(more);
    let (warmth, more) = warmth::examine(design, &heart);
    findings.extend(more);
    let (hearth, more) = hearth::examine(design, &heart);
    findings.extend(more);
    let (train, more) = train::examine(design, &heart);
    findings.extend(more);
    let (breath, more) = breath::examine(design, &train);
    findings.extend(more);
    let (electrics, more) =
        electrics::examine(design, &breath, warmth.wall(electrics::zone(design)));
    findings.extend(more);
    let (marking, more) = marking::examine(design);
    findings.extend(more);
    let (workshop, more) = workshop::examine(design, &standing.machine);
    findings.extend(more);
    let (leaks, more) = leaks::examine(design, &heart);
    findings.extend(more);
    let (order, more) = order::examine(design);
    findings.extend(more);
    let (cost, more) = cost::examine(design, &workshop.parts);
    findings.extend(more);
    Assessment {
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
        findings,
    }
}

/// The answers of one chapter alone, for searches that ask many times.
pub fn ask(design: &Design, chapter: Chapter) -> Vec<Finding> {
    let heart = || Heart::of(design);
    match chapter {
        Chapter::Heart => heart::ask(design, &Heart::with_range(design)),
        Chapter::Engine => engine::examine(design, &heart()).1,
        Chapter::Standing => standing::examine(design).1,
        Chapter::Warmth => warmth::examine(design, &heart()).1,
        Chapter::Hearth => hearth::examine(design, &heart()).1,
        Chapter::Train => train::ask(design, &train::compute(design, &heart())),
        Chapter::Breath => breath_of(design, &heart()).1,
        Chapter::Electrics => {
            let heart = heart();
            let (breath, _) = breath_of(design, &heart);
            let wall = warmth::wall(design, &heart, electrics::zone(design));
            electrics::examine(design, &breath, &wall).1
        }
        Chapter::Marking => marking::examine(design).1,
        Chapter::Workshop => workshop::examine(design, &machine::layout(design)).1,
        Chapter::Leaks => leaks::examine(design, &heart()).1,
        Chapter::Order => order::examine(design).1,
        Chapter::Cost => cost::examine(design, &workshop::parts(design)).1,
    }
}

/// What the findings about the blower need, and no more.
fn breath_of(design: &Design, heart: &Heart) -> (Breath, Vec<Finding>) {
    let train = train::compute(design, heart);
    breath::examine(design, &train)
}
