//! What inputs are called where they stand by themselves, away from the form.

pub use crate::design::phrase::lower_first;
use crate::design::quantity::System;
use crate::design::{ChoiceOption, Design, Input, Kind, Value};

/// What stands before the input's own label: which layer, part or section it belongs to. Left out
/// where the label already says it.
fn owner(design: &Design, path: &str, label: &str) -> String {
    let Some((head, rest)) = path.split_once('.') else {
        return String::new();
    };
    let index = rest
        .split_once('.')
        .and_then(|(index, _)| index.parse::<usize>().ok());
    let list = Design::list_info(head);
    if let (Some(list), Some(index)) = (list, index) {
        let name = of_item(design, head, index).unwrap_or_default();
        return format!("{}, {}: ", list.label, lower_first(&name));
    }
    Design::SECTIONS
        .iter()
        .find(|info| info.name == head)
        .filter(|info| !label.to_lowercase().contains(&info.label.to_lowercase()))
        .map(|info| format!("{}: ", info.label))
        .unwrap_or_default()
}

/// The section or list an input stands in, and its label: what nothing in the design changes.
pub fn where_it_stands(design: &Design, path: &str) -> String {
    let head = path.split('.').next().unwrap_or_default();
    let sections = Design::SECTIONS.iter().map(|info| (info.name, info.label));
    let lists = Design::LISTS.iter().map(|info| (info.name, info.label));
    let part = sections.chain(lists).find(|(name, _)| *name == head);
    let label = design.input(path).map_or("", |input| input.label);
    match part {
        Some((_, part)) => format!("{part}: {}", lower_first(label)),
        None => label.to_string(),
    }
}

/// What an item of a list is called where it stands by itself; none where there is no such list or item.
pub fn of_item(design: &Design, list: &str, index: usize) -> Option<String> {
    let info = Design::list_info(list)?;
    let count = design.list(list)?.count();
    let place = || format!("{} {}", info.item, index + 1);
    let mut others = (0..count).filter(|at| *at != index);
    (index < count).then(|| match own_name(design, list, index) {
        // A name that others of the list have as well tells nobody which one is meant.
        Some(name) if others.any(|at| own_name(design, list, at).as_ref() == Some(&name)) => {
            format!("{} ({})", place(), lower_first(&name))
        }
        Some(name) => name,
        None => place(),
    })
}

/// What an item of a list is called in the design; none where nothing tells.
fn own_name(design: &Design, list: &str, index: usize) -> Option<String> {
    NAMING.iter().find_map(|field| {
        let path = format!("{list}.{index}.{field}");
        let name = of_value(
            design,
            design.input(&path)?,
            &design.get(&path)?,
            System::Metric,
        );
        (!name.is_empty()).then_some(name)
    })
}

/// What an option is called in this design: an own material as on its data sheet.
pub fn of_option<'a>(design: &'a Design, option: &'a ChoiceOption) -> &'a str {
    (option.name.strip_prefix("own_"))
        .and_then(|place| place.parse::<usize>().ok()?.checked_sub(1))
        .and_then(|place| design.own_materials.get(place))
        .map_or(option.label, |own| own.name.as_str())
}

/// A value of an input as a person reads it in this design.
pub fn of_value(design: &Design, input: &Input, value: &Value, system: System) -> String {
    if let (Value::Choice(name), Kind::Choice { options, .. }) = (value, input.kind)
        && let Some(option) = options.iter().find(|option| option.name == name)
    {
        return of_option(design, option).to_string();
    }
    input.show(value, system)
}

/// Fields that tell the items of a list apart.
pub const NAMING: [&str; 3] = ["name", "material", "kind"];

/// The input with the layer, part or section that it belongs to: “Base: width”.
pub fn of_input(design: &Design, path: &str, input: &Input) -> String {
    let owner = owner(design, path, input.label);
    if owner.is_empty() {
        input.label.to_string()
    } else {
        format!("{owner}{}", lower_first(input.label))
    }
}
