//! Random designs inside the allowed ranges of the shell's inputs.

use hearthplan::design::{Choice, Design, Input, Kind, Value, inputs::Material};
use proptest::prelude::*;

/// A design whose shell inputs are drawn from their whole allowed ranges.
pub fn random_design() -> impl Strategy<Value = Design> {
    let layers = || prop::collection::vec((0..Material::OPTIONS.len(), 0.0_f64..1.0), 0..8);
    let numbers = prop::collection::vec(0.0_f64..=1.0, 128);
    (
        numbers,
        [layers(), layers(), layers(), layers()],
        0_usize..5,
    )
        .prop_map(|(numbers, layers, own)| build(&numbers, &layers, own))
}

fn build(numbers: &[f64], layers: &[Vec<(usize, f64)>; 4], own: usize) -> Design {
    let mut design = Design::default();
    let mut numbers = numbers.iter().copied().cycle();
    for list in [
        "hearth_layers",
        "body_layers",
        "lid_layers",
        "bottom_layers",
    ]
    .iter()
    .zip(layers)
    {
        fill(&mut design, list.0, list.1.len());
        for (index, (material, share)) in list.1.iter().enumerate() {
            let name = Material::OPTIONS[*material].name.to_string();
            put(
                &mut design,
                &format!("{}.{index}.material", list.0),
                Value::Choice(name),
            );
            // Cubed, so that thin layers are as common as they are in a workshop.
            let thickness = 0.0003 + share.powi(3) * 0.4997;
            put(
                &mut design,
                &format!("{}.{index}.thickness", list.0),
                Value::Number(thickness),
            );
        }
    }
    fill(&mut design, "own_materials", own);
    let paths: Vec<_> = design
        .paths()
        .into_iter()
        .filter(|path| {
            [
                "site.",
                "hearth_wall.",
                "body_wall.",
                "lid.",
                "bottom.",
                "own_materials.",
                "operation.",
                "fuel.",
            ]
            .iter()
            .any(|section| path.starts_with(section))
        })
        .collect();
    for path in paths {
        let share = numbers.next().unwrap_or(0.5);
        let drawn = design.input(&path).and_then(|input| draw(input, share));
        if let Some(value) = drawn {
            put(&mut design, &path, value);
        }
    }
    design
}

fn fill(design: &mut Design, list: &str, count: usize) {
    if let Some(items) = design.list_mut(list) {
        while items.count() > 0 {
            items.remove_item(0);
        }
        (0..count).for_each(|index| items.insert_new(index));
    }
}

fn draw(input: &Input, share: f64) -> Option<Value> {
    match input.kind {
        Kind::Number {
            allowed: (least, most),
            ..
        } => Some(Value::Number(
            (least + share * (most - least)).clamp(least, most),
        )),
        Kind::Flag { .. } => Some(Value::Flag(share > 0.5)),
        _ => None,
    }
}

fn put(design: &mut Design, path: &str, value: Value) {
    let outcome = design.set(path, value);
    assert!(outcome.is_ok(), "{path}: {outcome:?}");
}
