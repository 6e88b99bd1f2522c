//! How long the building takes, below the order of the work.

use super::{cell, row, table};
use crate::design::Design;
use crate::design::phrase::Phrase;
use crate::design::quantity::Quantity as Q;
use crate::paper::sheet::Block;
use crate::sizing::build_order::is_begun;
use crate::sizing::cost::FIRST_BUILD;
use crate::sizing::work_time::{QUICK, WorkTime};

const HEADINGS: [&str; 4] = ["Work", "How much", "One takes", "Time"];

/// A sentence, the table behind it, and what it does not hold.
pub(super) fn blocks(design: &Design, time: &WorkTime) -> Vec<Block> {
    let hours = |si: f64| cell(Q::LongTime, about(si, 3600.0));
    let likely = time.likely.value;
    let [_, weeks, slow] = time.weeks_left();
    let left = if is_begun(design) {
        let left = hours(time.left.value);
        Phrase::new("about {} of that are left, ", [left])
    } else {
        Phrase::plain("")
    };
    let in_short = Phrase::new(
        "About {} of work: {}at {} a week {} weeks. Somebody quick and practised takes {} of all that, first builds often {} ({} weeks).",
        [
            hours(likely),
            left.into(),
            cell(Q::LongTime, time.weekly.value),
            cell(Q::Number, about(weeks, 1.0)),
            cell(Q::LongTime, about(QUICK * likely, 3600.0)),
            cell(Q::LongTime, about(FIRST_BUILD * likely, 3600.0)),
            cell(Q::Number, about(slow, 1.0)),
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
    let again = likely - time.lines.iter().map(|line| line.time().value).sum::<f64>();
    rows.push(row(vec![
        "Done again: leaks, mistakes, what was forgotten".into(),
        cell(Q::Share, design.pace.again.value),
        "".into(),
        cell(Q::LongTime, again),
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

/// A number as exactly as it is meant: two digits, and no less than `unit` steps.
fn about(value: f64, unit: f64) -> f64 {
    let units = value / unit;
    if !units.is_finite() || units <= 0.0 {
        return value;
    }
    let step = 10f64.powf(units.log10().floor() - 1.0).max(0.5);
    (units / step).round() * step * unit
}
