//! Finding an input by words, among all that a design asks for.

use super::declare::{Input, Kind, Value};
use super::difference::own_name;
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
    let mut found = Vec::new();
    for part in parts(design) {
        let told = part.words.to_lowercase();
        for input in part.inputs {
            let path = format!("{}.{}", part.prefix, input.name);
            let value = || design.get(&path);
            let Some(place) = place(&told, input, value, system, &words) else {
                continue;
            };
            if let Some(value) = value().filter(|_| design.is_asked(&path)) {
                found.push((place, Found { path, input, value }));
            }
        }
    }
    found.sort_by_key(|(place, _)| *place);
    found.into_iter().map(|(_, found)| found).collect()
}

/// A section, or an item of a list.
struct Part {
    /// What the paths of its inputs begin with.
    prefix: String,
    /// What it is called.
    words: String,
    inputs: &'static [Input],
}

/// Every part of a design that has inputs.
fn parts(design: &Design) -> impl Iterator<Item = Part> {
    let sections = Design::SECTIONS.iter().map(|info| Part {
        prefix: info.name.to_string(),
        words: info.label.to_string(),
        inputs: info.inputs,
    });
    let lists = Design::LISTS.iter().flat_map(move |info| {
        let count = design.list(info.name).map_or(0, |list| list.count());
        (0..count).map(move |place| {
            let own = own_name(info, design, place).unwrap_or_default();
            Part {
                prefix: Design::item_path(info.name, place),
                words: format!("{} {} {} {own}", info.label, info.item, place + 1),
                inputs: info.inputs,
            }
        })
    });
    sections.chain(lists)
}

/// How far one has to read until all words are told; none where they are not.
fn place(
    part: &str,
    input: &Input,
    value: impl Fn() -> Option<Value>,
    system: System,
    words: &[&str],
) -> Option<usize> {
    let mut read = String::new();
    let shown = || value().map_or_else(String::new, |value| input.show(&value, system));
    let choices = || match input.kind {
        Kind::Choice { options, .. } => {
            let labels = options.iter().map(|option| option.label);
            labels.collect::<Vec<_>>().join(" ")
        }
        _ => String::new(),
    };
    let told: [&dyn Fn() -> String; 4] = [
        &|| input.label.to_lowercase(),
        &|| part.to_string(),
        &|| input.meaning.to_lowercase(),
        &|| format!("{} {}", shown(), choices()).to_lowercase(),
    ];
    told.iter().position(|told| {
        read.push('\n');
        read.push_str(&told());
        words.iter().all(|word| read.contains(word))
    })
}
