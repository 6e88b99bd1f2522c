//! What a change asks a builder to do, worded as an order.

use crate::app::naming::{NAMING, lower_first, of_input, of_item, of_value};
use crate::design::quantity::System;
use crate::design::{Design, Input, Kind, Value};
use crate::review::{Change, Lever, Remedy};

/// How many lift is not set like a size: it takes so many.
const LIFTERS: &str = "workshop.lifters";

/// The order of a change, or that it is not enough alone.
pub fn order(remedy: &Remedy, design: &Design, system: System) -> String {
    match (&remedy.lever, &remedy.value) {
        (Lever::Input(path), Some(value)) => set(remedy, path, value, design, system),
        (Lever::Input(path), None) => {
            let name = of_input(design, path, remedy.input);
            match remedy.input.kind {
                Kind::Flag { .. } => format!("{name}: changing it is not enough alone"),
                _ => format!("{name}: no allowed value is enough alone"),
            }
        }
        (
            Lever::NewItem {
                list,
                index,
                fields,
                ..
            },
            value,
        ) => {
            let what = what_is_added(design, list, fields, system);
            let place = behind(design, list, *index);
            match value {
                Some(value) => {
                    let size = of_value(design, remedy.input, value, system);
                    add(list, &what, &place, remedy.input, &size)
                }
                None => format!("{}: adding {what}{place} is not enough alone", label(list)),
            }
        }
        (Lever::Move { list, from }, _) => {
            let name = |place| lower_first(&of_item(design, list, place).unwrap_or_default());
            match remedy.change {
                Some(Change::Move { to, .. }) => {
                    let side = if to < *from { "in front of" } else { "behind" };
                    let (what, mark) = (name(*from), name(to));
                    format!("Move {what} {side} {mark} {}", place_of(list))
                }
                _ => format!("{}: moving one stage is not enough alone", label(list)),
            }
        }
    }
}

/// Another value of an input.
fn set(remedy: &Remedy, path: &str, value: &Value, design: &Design, system: System) -> String {
    let input = remedy.input;
    let now = design.get(path).unwrap_or(Value::Empty);
    let [before, then] = match value {
        Value::Choice(_) => [&now, value].map(|each| of_value(design, input, each, system)),
        _ => input.show_alike([&now, value], system),
    };
    if path == LIFTERS {
        return format!("Have {then} people to lift, not {before}");
    }
    if let Some((list, layer)) = layer_of(path) {
        let name = of_item(design, list, layer).unwrap_or_default();
        let name = lower_first(&name);
        return format!(
            "Make the {name} {} {then} thick, not {before}",
            place_of(list)
        );
    }
    let name = of_input(design, path, input);
    let so = remedy.comes_to(design);
    let so = so.map_or_else(String::new, |words| format!(", so {words}"));
    match now {
        Value::Empty => format!("Set “{name}” to {then}{so}"),
        _ => format!("Change “{name}” from {before} to {then}{so}"),
    }
}

/// The list and the place of the layer whose thickness this is.
fn layer_of(path: &str) -> Option<(&str, usize)> {
    let (list, rest) = path.split_once('.')?;
    let place = rest.strip_suffix(".thickness")?.parse().ok()?;
    list.ends_with("_layers").then_some((list, place))
}

/// The name or kind of what comes in new.
fn what_is_added(
    design: &Design,
    list: &str,
    fields: &[(&'static str, Value)],
    system: System,
) -> String {
    NAMING
        .iter()
        .find_map(|naming| fields.iter().find(|(name, _)| name == naming))
        .and_then(|(name, value)| {
            let input = Design::list_info(list)?.input(name)?;
            Some(lower_first(&of_value(design, input, value, system)))
        })
        .unwrap_or_default()
}

/// A new item of this size.
fn add(list: &str, what: &str, place: &str, input: &Input, size: &str) -> String {
    let home = place_of(list);
    if list.ends_with("_layers") {
        let stop = if what.contains(',') { "," } else { "" };
        return format!("Add {size} of {what}{stop}{place} {home}");
    }
    let article = match what.chars().next() {
        None => "an entry",
        Some('a' | 'e' | 'i' | 'o' | 'u') => "an ",
        Some(_) => "a ",
    };
    let label = lower_first(input.label);
    format!("Add {article}{what}{place} {home}: {label} {size}")
}

/// The heading of a list.
fn label(list: &str) -> &'static str {
    Design::list_info(list).map_or("", |info| info.label)
}

/// Where the items of a list are: “in the hearth wall”.
fn place_of(list: &str) -> String {
    let label = label(list);
    match label.strip_prefix("Layers of ") {
        Some(part) => format!("in {part}"),
        None if list == "train" => format!("in the {}", lower_first(label)),
        None => format!("to “{label}”"),
    }
}

/// Where a new item comes in, in words: two that are alike else, such as coolers, differ by that. Nothing in a list
/// without an order.
fn behind(design: &Design, list: &str, index: usize) -> String {
    if list != "train" && !list.ends_with("_layers") {
        return String::new();
    }
    let (word, place) = match index.checked_sub(1) {
        Some(before) => ("behind", before),
        None => ("in front of", 0),
    };
    of_item(design, list, place).map_or_else(String::new, |name| {
        format!(" {word} {}", lower_first(&name))
    })
}
