//! What the two designs have in each row, in words.

use super::Comparison;
use crate::app::form::group_of;
use crate::design::difference::{Differing, What};
use crate::design::quantity::System;
use crate::design::{Input, Kind, Value};
use crate::review::compare::{Change, ResultPair, VerdictPair};
use crate::review::{Chapter, Finding, Verdict};
use leptos::prelude::GetUntracked as _;

/// One row of inputs or numbers.
#[derive(Clone, PartialEq)]
pub struct Row {
    /// The fold it stands in.
    pub fold: &'static str,
    /// What it belongs to, above its name.
    pub part: String,
    /// What it is.
    pub name: String,
    /// What each design has, in the order of the columns.
    pub cells: [String; 2],
    /// How the second differs from the first.
    pub less: String,
    /// Whether that is no difference, which is told quietly.
    pub alike: bool,
    /// What the buttons take over.
    pub differing: Option<Differing>,
}

/// The answers to one question.
#[derive(Clone, PartialEq)]
pub struct Answers {
    /// Id of the question.
    pub id: &'static str,
    /// Its title.
    pub title: &'static str,
    /// Verdict and sentence of each design, in the order of the columns; none where the question does not arise.
    pub each: [Option<(Verdict, String)>; 2],
    /// How the second stands to the first.
    pub told: &'static str,
}

/// In the place of items that one of the two designs does not have.
pub const NOT_THERE: &str = "not there";

/// In the place of a difference where both numbers are shown alike.
const SAME: &str = "same";

/// In the place of items that one of the two designs has, and that have nothing to tell.
const THERE: &str = "there";

/// The row of something in which the two differ.
pub fn of_input(comparison: Comparison, differing: &Differing, system: System) -> Row {
    let in_columns = match comparison.open_is_second() {
        true => differing.reversed(),
        false => differing.clone(),
    };
    let mut less = String::new();
    let (name, cells) = match &in_columns.what {
        What::Input {
            input, one, other, ..
        } => {
            if let (Value::Number(one), Value::Number(other), Kind::Number { quantity, .. }) =
                (one, other, input.kind)
            {
                less = quantity.show_difference([*one, *other], system);
            }
            (input.label, input.show_alike([one, other], system))
        }
        What::Item {
            is_added, values, ..
        } => {
            let value = |(input, value): &(&Input, Value)| {
                format!("{}: {}", input.label, input.show(value, system))
            };
            let told = match values.as_slice() {
                [] => THERE.to_string(),
                values => values.iter().map(value).collect::<Vec<_>>().join("; "),
            };
            match is_added {
                true => ("Added", [NOT_THERE.to_string(), told]),
                false => ("Removed", [told, NOT_THERE.to_string()]),
            }
        }
        What::Order { one, other } => ("Order", [one, other].map(|names| names.join("; "))),
    };
    Row {
        fold: group_of(differing.head).map_or("", |group| group.label),
        part: in_columns.part(),
        name: name.to_string(),
        cells,
        less,
        alike: false,
        differing: Some(differing.clone()),
    }
}

/// The row of a computed number.
pub fn of_result(pair: ResultPair, system: System) -> Row {
    let chapter = pair.name.split('.').next().unwrap_or_default();
    let chapter = (Chapter::ALL.into_iter()).find(|each| each.name() == chapter);
    let shown = [pair.one, pair.other]
        .map(|measure| measure.map_or_else(|| "—".to_string(), |measure| measure.show(system)));
    let alike = shown[0] == shown[1];
    let less = pair.shown_difference(system);
    Row {
        fold: chapter.map_or("", Chapter::label),
        less: less.or(alike.then(|| SAME.to_string())).unwrap_or_default(),
        alike,
        cells: shown,
        part: String::new(),
        name: pair.label,
        differing: None,
    }
}

/// The answers to a question; where `all` are not wanted, only where its verdict is another.
pub fn of_question(pair: &VerdictPair, all: bool, system: System) -> Option<Answers> {
    let either = pair.either()?;
    let each = |finding: Option<&Finding>| {
        finding.map(|finding| (finding.verdict, finding.compared.text(system)))
    };
    (all || pair.change() != Change::Same).then(|| Answers {
        id: either.id,
        title: either.title,
        each: [each(pair.one), each(pair.other)],
        told: pair.told(),
    })
}

/// Longest value that a button repeats.
const SHORT: usize = 16;

/// The label of the button of a cell that puts its value into the other column, and its words for those who do not see
/// the table; none where nothing is to be put there.
pub fn press(comparison: Comparison, row: &Row, place: usize) -> Option<(String, String)> {
    let differing = row.differing.as_ref()?;
    let what = format!("{} {}", row.part, row.name);
    let is_open = comparison.is_open_one(place);
    if comparison.is_with_earlier() {
        let text = &row.cells[place];
        let label = if text == NOT_THERE {
            "Take away again".to_string()
        } else if text.chars().count() > SHORT {
            "Put back".to_string()
        } else {
            format!("Put back {text}")
        };
        let words = format!("{label}: {what}");
        return (!is_open).then_some((label, words));
    }
    let names = comparison.names.get_untracked();
    let [from, into] = [&names[place], &names[1 - place]];
    let label = match (is_open, &differing.what) {
        // It would come back by itself.
        (true, _) if comparison.is_with_deleted() => return None,
        (true, _) => "Send mine there",
        (false, What::Input { .. }) => "Use this value",
        (false, _) => "Use this",
    };
    let words = format!("{label}: {what} from “{from}” into “{into}”");
    Some((label.to_string(), words))
}
