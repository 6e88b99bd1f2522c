//! Trying every lever of everything that does not pass: by the page or by its workers, who number
//! the levers alike. Where none is enough alone, each is tried with a second one.

use super::written::Written;
use crate::design::Design;
use crate::review::{
    Advice, Assessment, Elsewhere, Finding, Lever, Pair, Remedy, Tally, Verdict, advice, assess,
    detour, easing, in_order, mended_elsewhere, pairs, rank_detours, rank_pairs, remedy, takes_two,
    weigh_step, worst_first,
};
use std::collections::BTreeMap;
use std::sync::Arc;

/// A design with the levers that may mend it.
///
/// Its pieces are all levers alone, then all levers as the first of two, then all as a [`detour`]. Of the second only those
/// are worth doing that [`Trial::to_pair`] names once the first are done, of the third those of [`Trial::to_detour`].
pub struct Trial {
    design: Design,
    assessment: Arc<Assessment>,
    /// Id of a finding and place of the lever in it; worst findings first.
    levers: Vec<(&'static str, usize)>,
}

/// What came of one piece.
#[derive(Debug, Clone, Default)]
pub struct Answer {
    /// What the lever does alone; of one that is tried with a second, what it eases; of a detour, that. None when it does not
    /// fit.
    pub remedy: Option<Remedy>,
    /// What it does with a second.
    pub pairs: Vec<Pair>,
}

/// What is offered for one finding.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Offered {
    /// All levers alone, in the order in which they are offered.
    pub remedies: Vec<Remedy>,
    /// Two changes that together are enough.
    pub pairs: Vec<Pair>,
    /// Changes with which it is no Stop any more, though not Good; only where nothing is enough.
    pub eased: Vec<Remedy>,
}

/// What all levers came to.
#[derive(Debug, Default)]
pub struct Outcome {
    /// What is offered, by id of the finding.
    pub offered: BTreeMap<&'static str, Offered>,
    /// What to take first.
    pub best: Advice,
    /// The questions, by id, that a change mends which stands elsewhere.
    pub elsewhere: BTreeMap<&'static str, Elsewhere>,
    /// What it was found for; none while nothing has been looked for.
    pub found_for: Option<Arc<Assessment>>,
}

impl Outcome {
    /// Whether it was found for the design with this assessment.
    pub fn is_for(&self, assessment: &Arc<Assessment>) -> bool {
        (self.found_for.as_ref()).is_some_and(|found_for| Arc::ptr_eq(found_for, assessment))
    }
}

/// How a lever is tried.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Tried {
    Alone,
    WithSecond,
    AsDetour,
}

/// In the order of the pieces.
const TRIED: [Tried; 3] = [Tried::Alone, Tried::WithSecond, Tried::AsDetour];

impl Trial {
    /// All levers of what does not pass in this assessment of the design.
    pub fn new(design: Design, assessment: Arc<Assessment>) -> Self {
        let levers = worst_first(&assessment.findings)
            .into_iter()
            .flat_map(|finding| (0..finding.levers.len()).map(move |place| (finding.id, place)))
            .collect();
        Self {
            design,
            assessment,
            levers,
        }
    }

    /// The same for a design that has yet to be assessed.
    pub fn of_design(design: Design) -> Self {
        let assessment = Arc::new(assess(&design));
        Self::new(design, assessment)
    }

    /// The number of pieces.
    pub fn len(&self) -> usize {
        TRIED.len() * self.levers.len()
    }

    /// The pieces that try levers alone, of questions with this verdict or a worse one.
    pub fn alone(&self, from: Verdict) -> Vec<usize> {
        let is_wanted = |id: &str| {
            let finding = self.assessment.finding(id);
            finding.is_some_and(|finding| finding.verdict >= from)
        };
        let levers = self.levers.iter().enumerate();
        levers
            .filter(|(_, (id, _))| is_wanted(id))
            .map(|(place, _)| place)
            .collect()
    }

    /// Whether a lever alone removes a Stop, so that none need be tried with a second one for the next step.
    pub fn is_enough(&self, answers: &[Option<Answer>]) -> bool {
        let stops = Tally::of(&self.assessment.findings).stops;
        self.outcome(answers).best.removes_plainly(stops)
    }

    /// The pieces that try levers with a second one, where none was enough alone.
    pub fn to_pair(&self, answers: &[Option<Answer>]) -> Vec<usize> {
        let tried = self.tried_alone(answers);
        let levers = self.levers.iter().enumerate();
        levers
            .filter(|(_, (id, _))| tried.get(id).is_some_and(|tried| takes_two(tried)))
            .map(|(place, _)| self.levers.len() + place)
            .collect()
    }

    /// The pieces that look for a detour, where neither one change nor two lead on.
    pub fn to_detour(&self, answers: &[Option<Answer>]) -> Vec<usize> {
        let stops = Tally::of(&self.assessment.findings).stops;
        if self.outcome(answers).best.leads_on(stops) {
            return Vec::new();
        }
        // What mends something alone is known already.
        let is_open = |place: &usize| {
            let alone = answers.get(*place).and_then(Option::as_ref);
            let remedy = alone.and_then(|answer| answer.remedy.as_ref());
            remedy.is_some_and(|remedy| remedy.change.is_none())
        };
        (self.alone(Verdict::Stop).into_iter())
            .filter(is_open)
            .map(|place| 2 * self.levers.len() + place)
            .collect()
    }

    fn tried_alone(&self, answers: &[Option<Answer>]) -> BTreeMap<&'static str, Vec<Remedy>> {
        let mut tried: BTreeMap<_, Vec<Remedy>> = BTreeMap::new();
        for ((id, _), answer) in self.levers.iter().zip(answers) {
            let remedy = answer.as_ref().and_then(|answer| answer.remedy.clone());
            tried.entry(*id).or_default().extend(remedy);
        }
        tried
    }

    /// The lever of a piece, with the finding it may mend, and how it is tried.
    fn lever(&self, piece: usize) -> Option<(&Finding, &Lever, Tried)> {
        let count = self.levers.len();
        let tried = TRIED.get(piece.checked_div(count)?)?;
        let (id, place) = self.levers.get(piece % count)?;
        let finding = self.assessment.finding(id)?;
        Some((finding, finding.levers.get(*place)?, *tried))
    }

    /// Does a piece.
    pub fn answer(&self, piece: usize) -> Answer {
        let (design, before) = (&self.design, &self.assessment);
        match self.lever(piece) {
            None => Answer::default(),
            Some((finding, lever, Tried::Alone)) => Answer {
                remedy: remedy(design, before, finding, lever),
                pairs: Vec::new(),
            },
            Some((finding, lever, Tried::WithSecond)) => Answer {
                remedy: easing(design, before, finding, lever),
                pairs: pairs(design, before, finding, lever),
            },
            Some((finding, lever, Tried::AsDetour)) => Answer {
                remedy: detour(design, before, finding, lever),
                pairs: Vec::new(),
            },
        }
    }

    /// What came of all pieces, in their order; none for one that was not done.
    pub fn outcome(&self, answers: &[Option<Answer>]) -> Outcome {
        let mut offered: BTreeMap<&'static str, Offered> = BTreeMap::new();
        for (id, tried) in self.tried_alone(answers) {
            offered.entry(id).or_default().remedies = in_order(tried);
        }
        let with_second = answers.iter().skip(self.levers.len());
        for ((id, _), answer) in self.levers.iter().zip(with_second) {
            if let Some(answer) = answer {
                let found = offered.entry(*id).or_default();
                found.pairs.extend(answer.pairs.iter().cloned());
                found.eased.extend(answer.remedy.clone());
            }
        }
        let (mut steps, mut eased, mut together) = (Vec::new(), Vec::new(), Vec::new());
        let weigh = |remedy: &Remedy| weigh_step(&self.design, &self.assessment, remedy);
        for found in offered.values_mut() {
            found.pairs = rank_pairs(std::mem::take(&mut found.pairs));
            steps.extend(found.remedies.iter().filter_map(weigh));
            eased.extend(found.eased.iter().filter_map(weigh));
            together.extend(found.pairs.iter().cloned());
            if !found.pairs.is_empty() {
                found.eased.clear();
            }
        }
        let stops = Tally::of(&self.assessment.findings).stops;
        let mut best = advice(stops, steps, eased, together);
        let detours = answers.iter().skip(2 * self.levers.len()).flatten();
        let detours: Vec<&Remedy> = detours.filter_map(|it| it.remedy.as_ref()).collect();
        if !best.leads_on(stops) {
            let alone = offered.values().flat_map(|found| &found.remedies);
            best.detours = rank_detours(&self.design, &self.assessment, alone.chain(detours));
        }
        let own = |id: &str| {
            let found = offered.get(id);
            found.map_or_else(Default::default, |found| {
                (found.remedies.as_slice(), found.pairs.as_slice())
            })
        };
        let elsewhere = mended_elsewhere(&self.assessment, &best, &own);
        Outcome {
            offered,
            best,
            elsewhere,
            found_for: Some(self.assessment.clone()),
        }
    }

    /// Does a piece and writes down what came of it, for [`Trial::read`].
    pub fn written(&self, piece: usize) -> String {
        serde_json::to_string(&Written::of(self.answer(piece))).unwrap_or_default()
    }

    /// Does all pieces that are worth doing and writes down what came of them, for [`Trial::read_all`].
    pub fn written_whole(&self) -> String {
        let mut answers = vec![None; self.len()];
        let mut do_all = |pieces: Vec<usize>| {
            for piece in pieces {
                if let Some(place) = answers.get_mut(piece) {
                    *place = Some(self.answer(piece));
                }
            }
            self.to_pair(&answers)
        };
        let to_pair = do_all(self.alone(Verdict::Watch));
        do_all(to_pair);
        let written = |answer: Option<Answer>| answer.map(Written::of);
        let written: Vec<_> = answers.into_iter().map(written).collect();
        serde_json::to_string(&written).unwrap_or_default()
    }

    /// What a worker wrote of a piece.
    ///
    /// # Errors
    /// The text is not what a worker of this program writes.
    pub fn read(&self, written: &str) -> Result<Answer, serde_json::Error> {
        let written: Written = serde_json::from_str(written)?;
        Ok(written.read(&self.design, &self.assessment))
    }

    /// What was written of all pieces.
    ///
    /// # Errors
    /// The text is not what this program writes.
    pub fn read_all(&self, written: &str) -> Result<Vec<Option<Answer>>, serde_json::Error> {
        let written: Vec<Option<Written>> = serde_json::from_str(written)?;
        let read = |written: Written| written.read(&self.design, &self.assessment);
        Ok((written.into_iter())
            .map(|written| written.map(read))
            .collect())
    }
}
