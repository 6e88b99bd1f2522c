//! How long the building takes, below the order of the work.

use super::{cell, row, table};
use crate::design::Design;
use crate::design::phrase::{Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::paper::sheet::Block;
use crate::sizing::build_order::is_begun;
use crate::sizing::cost::FIRST_BUILD;
use crate::sizing::work_time::{QUICK, WorkTime, begun_weeks};

const HOUR: f64 = 3600.0;
const HEADINGS: [&str; 4] = ["Work", "How much", "One takes", "Time"];

/// A sentence, the table behind it, and what it does not hold.
pub(super) fn blocks(design: &Design, time: &WorkTime) -> Vec<Block> {
    let (likely, left) = (time.likely.value, time.left.value);
    let [_, likely_weeks, slow] = time.weeks_left();
    let weeks = |weeks: f64| cell(Q::Number, begun_weeks(weeks));
    let of_that = if is_begun(design) {
        Phrase::new(", about {} of that left", [cell(Q::LongTime, left)])
    } else {
        Phrase::plain("")
    };
    let in_short = Phrase::new(
        "About {} of work{}: at {} a week {} weeks. Somebody quick and practised takes {} for it, first builds often {} ({} weeks).",
        [
            // As the table below adds it up.
            cell(Q::LongTime, likely),
            of_that.into(),
            cell(Q::LongTime, time.weekly.value),
            weeks(likely_weeks),
            about(QUICK * left),
            about(FIRST_BUILD * left),
            weeks(slow),
        ],
    );
    let mut rows: Vec<_> = (time.lines.iter())
        .map(|line| {
            row(vec![
                line.work.label().into(),
                cell(line.work.quantity(), line.amount),
                cell(Q::LongTime, line.each.value),
                cell(Q::LongTime, line.time().value),
            ])
        })
        .collect();
    rows.push(row(vec![
        "Done again: leaks, mistakes, what was forgotten".into(),
        cell(Q::Share, design.pace.again.value),
        "".into(),
        cell(Q::LongTime, (time.likely - time.once()).value),
    ]));
    rows.push(row(vec![
        "In all".into(),
        "".into(),
        "".into(),
        cell(Q::LongTime, likely),
    ]));
    vec![
        Block::Text(in_short.into()),
        table("work-time", "Time it takes", &HEADINGS, rows, ""),
        Block::Text(
            "What one piece takes stands under “Time to build”: time your first part, weld and test, and put your own times there. Not counted: learning to weld, waiting for deliveries, paint, and the first days of running."
                .into(),
        ),
    ]
}

/// Work as exactly as it is meant: two digits of hours, and no less than half hours.
fn about(seconds: f64) -> Slot {
    let hours = seconds / HOUR;
    let digits = hours.max(1.0).log10().floor() - 1.0;
    let step = 10f64.powf(digits).max(0.5);
    cell(Q::LongTime, (hours / step).round() * step * HOUR)
}
