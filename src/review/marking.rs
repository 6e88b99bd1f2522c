//! Marking out: do the holes fit the vessel that was bought, and would the plan have cut them wrong?

mod ash_door;
mod bolt_circle;
mod clash;
mod cone_weld;
mod ends;
mod fit;
mod flanges;
mod hole_table;
mod lighting;
mod off_place;
mod outlet;
mod outlet_mouth;
mod pipes;
mod questions;
mod seams;
mod sheet;
mod shell;
mod tall;

use super::finding::{Finding, NamedResult};
use super::table::Table;
use crate::design::Design;
use crate::design::phrase::Measure;
use crate::design::quantity::{Quantity as Q, falls_short};
use crate::sizing::marking::{Gap, KeepFree, Marking, MarkingError, mark_out};

pub(super) use cone_weld::straight_wanted;
pub(crate) use off_place::told as off_its_place;
pub(super) use sheet::SHEET;
pub(super) use shell::SHELL;

/// The caution that goes with every vessel that may have held something before.
pub const USED_VESSEL: &str = "Use new tube or sheet, or a vessel that never held fuel, solvent, oil or anything unknown. A \
     used fuel container can explode when it is cut, even after it was emptied and washed: vapour hides in seams and scale. \
     Liquid propane left in it makes about 270 times its volume of gas, and 2.1 % of it in air can explode (figures from \
     memory). There is no safe way to cut one at home or in an ordinary workshop: leave it to a licensed shop that works to AWS F4.1.";

/// The holes on the vessel that was bought.
#[derive(Debug, Clone)]
pub struct MarkingReview {
    /// Hole table, or why the vessel cannot be marked out.
    pub marking: Result<Marking, MarkingError>,
    /// Holes that the plan would have cut too far from their place, by their place in the hole table.
    pub cut_wrong: Vec<usize>,
    /// Holes too near to a seam, an end or another hole; the worst first.
    pub clashes: Vec<Gap>,
    /// The hole that has least to spare beside a seam, an end or another hole.
    pub tightest: Option<Gap>,
}

impl MarkingReview {
    fn of(design: &Design) -> Self {
        let marking = mark_out(design);
        let limits = &design.limits;
        let keep_free = KeepFree {
            seam: limits.hole_to_seam,
            end: limits.hole_to_end,
            hole: limits.hole_to_hole,
        };
        let cut_wrong = (marking.iter())
            .flat_map(|marking| marking.cut_wrong(limits.hole_off))
            .collect();
        let mut gaps: Vec<Gap> = (marking.iter())
            .flat_map(|marking| marking.gaps(&keep_free))
            .collect();
        let tightest = gaps.first().copied();
        gaps.retain(|gap| falls_short(gap.clearance.value, gap.wanted.value));
        Self {
            marking,
            cut_wrong,
            clashes: gaps,
            tightest,
        }
    }

    /// The hole table for the workshop: one row for each hole, with the verdict on it.
    pub fn hole_table(&self) -> Table {
        match &self.marking {
            Ok(marking) => hole_table::table(marking, self),
            Err(_) => Table::default(),
        }
    }

    /// How far off its place the plan would have put each hole, which only a vessel that was measured tells.
    pub fn off_the_plan(&self) -> Table {
        match &self.marking {
            Ok(marking) => hole_table::off_the_plan(marking, self),
            Err(_) => Table::default(),
        }
    }

    /// The computed numbers with their stable names; none while no hole is entered.
    pub fn results(&self) -> Vec<NamedResult> {
        let mut results = Vec::new();
        let Ok(marking) = &self.marking else {
            return results;
        };
        let mut add = |name: String, label: String, quantity, si| {
            results.push(NamedResult::new(
                format!("marking.{name}"),
                label,
                Measure::new(quantity, si),
            ));
        };
        let from = hole_table::datum_words(marking.tape_datum);
        for (place, mark) in marking.marks.iter().enumerate() {
            let number = place + 1;
            let name = &mark.name;
            add(
                format!("hole_{number}_height"),
                format!("{name}, above the {from}"),
                Q::Length,
                mark.from_tape_datum.value,
            );
            if let Some(round) = mark.round_from_front() {
                add(
                    format!("hole_{number}_wrap"),
                    format!("{name}, round from the front mark"),
                    Q::Length,
                    round.value,
                );
            }
        }
        if !marking.marks.is_empty() {
            for (name, label, count) in [
                (
                    "cut_wrong",
                    "Holes the plan would have cut wrong",
                    self.cut_wrong.len(),
                ),
                (
                    "clashes",
                    "Places where a hole is too near",
                    self.clashes.len(),
                ),
            ] {
                add(name.to_string(), label.to_string(), Q::Count, count as f64);
            }
        }
        results
    }
}

/// Puts a design through the questions of this chapter; without holes in the shell only fire tube and flanges are asked
/// about.
pub(super) fn examine(design: &Design) -> (MarkingReview, Vec<Finding>) {
    let review = MarkingReview::of(design);
    let mut findings = if design.holes.is_empty() {
        Vec::new()
    } else {
        vec![
            questions::fits(design, &review),
            questions::cut_wrong(design, &review),
            clash::question_of(design, &review),
        ]
        .into_iter()
        .chain(questions::nozzles(design, &review))
        .chain(lighting::lighting_port(design, &review))
        .chain([ash_door::ash_door(design, &review)])
        .chain(shell::shell(design, &review))
        .chain(sheet::sheet(design, &review))
        .chain(ends::ends(design, &review))
        .chain(tall::as_tall(design, &review))
        .chain(seams::seams(design, &review))
        .chain(pipes::pipes(design, &review))
        .chain(outlet::outlet(design, &review))
        .chain(outlet_mouth::mouth(design, &review))
        .collect()
    };
    findings.extend(cone_weld::cone_weld(design, &review));
    findings.extend(flanges::flanges(design, &review));
    findings.extend(bolt_circle::bolt_circles(design, &review));
    (review, findings)
}
