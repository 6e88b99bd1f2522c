//! Two assessments side by side: verdicts paired by question, numbers paired by name.

use super::Assessment;
use super::finding::{Finding, NamedResult, Verdict};
use crate::design::phrase::Measure;
use crate::design::quantity::System;
use std::cmp::Reverse;

/// The answers to one question for two designs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VerdictPair<'a> {
    /// The answer for the first design; none where the question does not arise.
    pub one: Option<&'a Finding>,
    /// The answer for the other.
    pub other: Option<&'a Finding>,
}

impl<'a> VerdictPair<'a> {
    /// Either finding, for what both have in common.
    pub fn either(&self) -> Option<&'a Finding> {
        self.one.or(self.other)
    }

    /// The worse of the two answers.
    pub fn gravest(&self) -> Option<Verdict> {
        let verdict = |finding: &Finding| finding.verdict;
        self.one.map(verdict).max(self.other.map(verdict))
    }

    /// What the other design is beside the first.
    pub fn change(&self) -> Change {
        let verdict = |finding: Option<&Finding>| finding.map(|finding| finding.verdict);
        match (verdict(self.one), verdict(self.other)) {
            (Some(one), Some(other)) if other > one => Change::Worse,
            (Some(one), Some(other)) if other < one => Change::Better,
            (Some(_), Some(_)) => Change::Same,
            (one, other) => {
                let fails = |verdict| verdict > Verdict::Good;
                if other.is_some_and(fails) {
                    Change::Worse
                } else if one.is_some_and(fails) {
                    Change::Better
                } else {
                    Change::Same
                }
            }
        }
    }
}

/// How a verdict of the other design stands to that of the first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Change {
    /// A better word.
    Better,
    /// The same word.
    Same,
    /// A worse word.
    Worse,
}

/// The verdicts of two assessments, paired by the name of the question: those whose word is another
/// come first, among them the gravest of either; else they stand in the order of the chapters.
pub fn verdict_pairs<'a>(one: &'a Assessment, other: &'a Assessment) -> Vec<VerdictPair<'a>> {
    let both = one.findings.iter().map(|finding| VerdictPair {
        one: Some(finding),
        other: other.finding(finding.id),
    });
    let rest = other
        .findings
        .iter()
        .filter(|finding| one.finding(finding.id).is_none())
        .map(|finding| VerdictPair {
            one: None,
            other: Some(finding),
        });
    let mut pairs: Vec<_> = both.chain(rest).collect();
    pairs.sort_by_key(|pair| (pair.change() == Change::Same, Reverse(pair.gravest())));
    pairs
}

/// One computed number for two designs.
#[derive(Debug, Clone, PartialEq)]
pub struct ResultPair {
    /// Its stable name, such as `standing.tip_angle_full`.
    pub name: String,
    /// Its label.
    pub label: String,
    /// For the first design; none where it does not arise.
    pub one: Option<Measure>,
    /// For the other.
    pub other: Option<Measure>,
}

impl ResultPair {
    /// The other number less the first; none unless both are there and finite.
    pub fn difference(&self) -> Option<Measure> {
        let (one, other) = (self.one?, self.other?);
        let less = other.si - one.si;
        less.is_finite()
            .then(|| Measure::new(one.quantity.of_difference(), less))
    }

    /// The difference with its sign, as shown; none where both show the same.
    pub fn shown_difference(&self, system: System) -> Option<String> {
        let show = |measure: Option<Measure>| measure.map(|measure| measure.show(system));
        if show(self.one) == show(self.other) {
            return None;
        }
        self.difference().map(|less| less.show_signed(system))
    }
}

/// The numbers of two assessments, paired by name in the order of the first; those that only the
/// other has come last.
pub fn result_pairs(one: &Assessment, other: &Assessment) -> Vec<ResultPair> {
    let mut rest = other.results();
    let mut take = |name: &str| {
        let place = rest.iter().position(|result| result.name == name)?;
        Some(rest.remove(place).measure)
    };
    let mut pairs: Vec<ResultPair> = one
        .results()
        .into_iter()
        .map(
            |NamedResult {
                 name,
                 label,
                 measure,
             }| ResultPair {
                other: take(&name),
                one: Some(measure),
                name,
                label,
            },
        )
        .collect();
    pairs.extend(rest.into_iter().map(|result| ResultPair {
        name: result.name,
        label: result.label,
        one: None,
        other: Some(result.measure),
    }));
    pairs
}
