//! Two assessments side by side: verdicts paired by question, numbers paired by name.

use super::Assessment;
use super::finding::{Finding, NamedResult, Verdict};
use crate::design::phrase::Measure;
use crate::design::quantity::System;
use std::cmp::Reverse;
use std::collections::{BTreeMap, VecDeque};

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

impl VerdictPair<'_> {
    /// How the other answer stands to the first, in words: a pair that is not told apart says so, so that nobody takes an
    /// empty place for something forgotten.
    pub fn told(&self) -> &'static str {
        match (self.change(), self.one, self.other) {
            (Change::Better, ..) => "better",
            (Change::Worse, ..) => "worse",
            (Change::Same, Some(_), Some(_)) => "same verdict",
            // What does not arise and what is Good are as good as each other.
            (Change::Same, ..) => "as good",
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
        let (one, other) = (self.one?, self.other?);
        self.difference()
            .map(|_| one.quantity.show_difference([one.si, other.si], system))
    }
}

/// What a number is, without whose it is: “gas behind it” of “Cooler: gas behind it”.
fn what(label: &str) -> &str {
    let end = |mark: &str| label.find(mark).map(|at| at + mark.len());
    let start = end(": ").or_else(|| end(", ")).unwrap_or(0);
    label.get(start..).unwrap_or_default()
}

/// The numbers of two assessments side by side in the order of the first; those that only the other has come last.
/// Pairs have the same name or, where a stage stands elsewhere, the same label; numbers of one name that are measured
/// from different places are no pair.
pub fn result_pairs(one: &Assessment, other: &Assessment) -> Vec<ResultPair> {
    let (here, there) = (one.results(), other.results());
    let mut partner: Vec<Option<usize>> = vec![None; here.len()];
    let mut free: Vec<bool> = vec![true; there.len()];
    let mut pair_off = |key: fn(&NamedResult) -> (&str, &str)| {
        let mut places: BTreeMap<(&str, &str), VecDeque<usize>> = BTreeMap::new();
        for (place, result) in there.iter().enumerate().filter(|(place, _)| free[*place]) {
            places.entry(key(result)).or_default().push_back(place);
        }
        for (result, partner) in here.iter().zip(&mut partner) {
            if partner.is_none()
                && let Some(place) = places.get_mut(&key(result)).and_then(VecDeque::pop_front)
            {
                *partner = Some(place);
                free[place] = false;
            }
        }
    };
    pair_off(|result| (&result.name, &result.label));
    pair_off(|result| ("", &result.label));
    pair_off(|result| (&result.name, what(&result.label)));
    let pair = |result: &NamedResult, one, other| ResultPair {
        name: result.name.clone(),
        label: result.label.clone(),
        one,
        other,
    };
    let both = here.iter().zip(partner).map(|(result, partner)| {
        let other = partner.map(|place| there[place].measure);
        pair(result, Some(result.measure), other)
    });
    let rest = there.iter().zip(&free).filter(|(_, free)| **free);
    let rest = rest.map(|(result, _)| pair(result, None, Some(result.measure)));
    both.chain(rest).collect()
}
