//! What was entered, as rows: labels from the declarations, so that form and paper never differ.

use super::{cell, row};
use crate::design::Design;
use crate::design::phrase::{Phrase, Slot, lower_first};
use crate::design::{Input, Kind, Value};
use crate::review::TableRow;

/// Label and value of every input of a section that matters and was given.
pub(super) fn section(design: &Design, name: &str) -> Vec<TableRow> {
    section_without(design, name, "")
}

/// The same but for one input.
pub(super) fn section_without(design: &Design, name: &str, left_out: &str) -> Vec<TableRow> {
    let inputs = Design::SECTIONS
        .iter()
        .find(|section| section.name == name)
        .map_or(&[][..], |section| section.inputs);
    inputs
        .iter()
        .filter(|input| input.name != left_out)
        .filter_map(|input| value(design, &format!("{name}.{}", input.name), input))
        .map(|(label, value)| row(vec![label.into(), value]))
        .collect()
}

/// As [`section`], with the name of the section before each label: for sections that have labels in common.
pub(super) fn named_section(design: &Design, name: &str) -> Vec<TableRow> {
    let section_named = Design::SECTIONS.iter().find(|section| section.name == name);
    let Some(info) = section_named else {
        return Vec::new();
    };
    (info.inputs.iter())
        .filter_map(|input| value(design, &format!("{name}.{}", input.name), input))
        .map(|(label, value)| {
            let label = Phrase::new("{}, {}", [info.label.into(), lower_first(label).into()]);
            row(vec![label.into(), value])
        })
        .collect()
}

/// Label and value of one input, if it matters and was given.
pub(super) fn value(design: &Design, path: &str, input: &Input) -> Option<(&'static str, Slot)> {
    if !design.in_use(path) {
        return None;
    }
    let slot = match (design.get(path)?, input.kind) {
        (Value::Number(si), Kind::Number { quantity, .. }) => cell(quantity, si),
        (Value::Choice(name), Kind::Choice { options, .. }) => options
            .iter()
            .find(|option| option.name == name)
            .map(|option| option.label)?
            .into(),
        (Value::Flag(on), _) => if on { "yes" } else { "no" }.into(),
        (Value::Text(text), _) if !text.is_empty() => text.into(),
        _ => return None,
    };
    Some((input.label, slot))
}
