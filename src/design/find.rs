//! Finding an input by words, among all that a design asks for.

use super::declare::{Input, Kind, Value};
use super::difference::told_path;
use super::document::Design;
use super::quantity::System;

/// An input that was found.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// Its path.
    pub path: String,
    /// Its declaration.
    pub input: &'static Input,
    /// Its value.
    pub value: Value,
}

/// The inputs that are asked for in this design and tell each of these words: in their label, in what they belong to, in
/// their meaning, or in their value and the choices there are. Those that tell them first of these come first, else they
/// stand in the order of the form.
///
/// ```
/// use hearthplan::design::{Design, find::find, quantity::System};
/// let found = find(&Design::default(), "base wid", System::Metric);
/// assert_eq!(found[0].path, "base.width");
/// assert!(find(&Design::default(), " ", System::Metric).is_empty());
/// ```
pub fn find(design: &Design, words: &str, system: System) -> Vec<Found> {
    let words = words.to_lowercase();
    let words: Vec<&str> = words.split_whitespace().collect();
    if words.is_empty() {
        return Vec::new();
    }
    let mut found: Vec<(usize, Found)> = inputs(design)
        .filter_map(|(path, input)| {
            let value = design.get(&path)?;
            let place = place(design, &path, input, &value, system, &words)?;
            let is_asked = design.is_asked(&path);
            is_asked.then_some((place, Found { path, input, value }))
        })
        .collect();
    found.sort_by_key(|(place, _)| *place);
    found.into_iter().map(|(_, found)| found).collect()
}

/// Every input of the design, with those of the items that its lists hold.
fn inputs(design: &Design) -> impl Iterator<Item = (String, &'static Input)> {
    let sections = Design::SECTIONS.iter().flat_map(|info| {
        (info.inputs.iter()).map(|input| (format!("{}.{}", info.name, input.name), input))
    });
    let lists = Design::LISTS.iter().flat_map(move |info| {
        let count = design.list(info.name).map_or(0, |list| list.count());
        (0..count).flat_map(move |item| {
            (info.inputs.iter())
                .map(move |input| (Design::item_input(info.name, item, input.name), input))
        })
    });
    sections.chain(lists)
}

/// How far one has to read until all words are told; none where they are not.
fn place(
    design: &Design,
    path: &str,
    input: &Input,
    value: &Value,
    system: System,
    words: &[&str],
) -> Option<usize> {
    let mut read = String::new();
    let choices = || match input.kind {
        Kind::Choice { options, .. } => {
            let labels = options.iter().map(|option| option.label);
            labels.collect::<Vec<_>>().join(" ")
        }
        _ => String::new(),
    };
    let parts: [&dyn Fn() -> String; 4] = [
        &|| input.label.to_string(),
        &|| told_path(design, path).unwrap_or_default(),
        &|| input.meaning.to_string(),
        &|| format!("{} {}", input.show(value, system), choices()),
    ];
    parts.iter().position(|part| {
        read.push('\n');
        read.push_str(&part().to_lowercase());
        words.iter().all(|word| read.contains(word))
    })
}
