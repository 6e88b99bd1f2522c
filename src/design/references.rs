//! Inputs that name an item of a list by its place. They go on naming that item wherever it goes.

use super::declare::Value;
use super::document::Design;

/// An input of a list whose value names an item of a list, the same or another one.
#[derive(Debug, Clone, Copy)]
pub(super) struct Reference {
    /// The list whose items have the input.
    pub(super) head: &'static str,
    /// Name of the input.
    pub(super) input: &'static str,
    /// How it names an item.
    by: By,
    /// Whether its own item is about nothing without the one that it names, and goes along with that.
    pub(super) goes_along: bool,
}

/// How a value names an item.
#[derive(Debug, Clone, Copy)]
enum By {
    /// A number as a person counts, 0 for none, of an item of this list.
    Number(&'static str),
    /// An option that ends with such a number: what stands before it, and the list.
    Option(&'static [(&'static str, &'static str)]),
    /// A text of parts and their sizes, among them layers of walls.
    Layers,
}

/// A value with the places that the items it names have now.
pub(super) struct Renamed {
    /// It names none where an item is gone.
    pub(super) value: Value,
    /// Whether an item that it named is gone.
    pub(super) is_gone: bool,
}

const OWN_MATERIAL: By = By::Option(&[("own_", "own_materials")]);

const PIECE: By = By::Option(&[
    ("hearth_layers_", "hearth_layers"),
    ("body_layers_", "body_layers"),
    ("lid_layers_", "lid_layers"),
    ("bottom_layers_", "bottom_layers"),
]);

/// All of them, one a row.
static REFERENCES: &[Reference] = &[
    stays("hearth_layers", "material", OWN_MATERIAL),
    stays("body_layers", "material", OWN_MATERIAL),
    stays("lid_layers", "material", OWN_MATERIAL),
    stays("bottom_layers", "material", OWN_MATERIAL),
    stays("parts", "material", OWN_MATERIAL),
    stays("flanges", "material", OWN_MATERIAL),
    stays("joints", "closing_joint", By::Number("joints")),
    stays("joints", "after", By::Number("joints")),
    stays("joints", "made_sizes", By::Layers),
    goes_along("build_steps", "joint", By::Number("joints")),
    goes_along("part_changes", "piece", PIECE),
];

const fn stays(head: &'static str, input: &'static str, by: By) -> Reference {
    Reference {
        head,
        input,
        by,
        goes_along: false,
    }
}

const fn goes_along(head: &'static str, input: &'static str, by: By) -> Reference {
    Reference {
        goes_along: true,
        ..stays(head, input, by)
    }
}

/// The lists of layers that a text may name.
const LAYERS: [&str; 4] = [
    "hearth_layers",
    "body_layers",
    "lid_layers",
    "bottom_layers",
];
/// Between two parts of such a text.
const NEXT: char = ';';
/// In place of the number of a layer that is gone.
const GONE: &str = "?";

impl Reference {
    /// The row of an input of a list.
    pub(super) fn of(head: &str, input: &str) -> Option<&'static Self> {
        REFERENCES
            .iter()
            .find(|row| row.head == head && row.input == input)
    }

    /// All rows of a list.
    pub(super) fn all_of(head: &str) -> impl Iterator<Item = &'static Self> {
        REFERENCES.iter().filter(move |row| row.head == head)
    }

    /// The value once the items of each list went to other places; none for an item that is gone.
    pub(super) fn renamed(
        &self,
        value: &Value,
        went: impl Fn(&str, usize) -> Option<usize>,
    ) -> Renamed {
        let to = |list: &str, place: usize| {
            let longest = Design::list_info(list).map_or(0, |info| info.longest);
            let place = went(list, place).filter(|place| *place < longest);
            place.map(|place| place + 1).ok_or(longest)
        };
        match (self.by, value) {
            (By::Number(list), Value::Number(number)) if *number >= 1.0 => {
                // Whole and below the length of any list.
                let number = to(list, *number as usize - 1);
                Renamed {
                    value: Value::Number(number.map_or(0.0, |number| number as f64)),
                    is_gone: number.is_err(),
                }
            }
            (By::Option(named), Value::Choice(option)) => {
                let found = named.iter().find_map(|(before, list)| {
                    let number: usize = option.strip_prefix(before)?.parse().ok()?;
                    Some((before, to(list, number.checked_sub(1)?)))
                });
                let Some((before, number)) = found else {
                    return Renamed::same(value);
                };
                // Of an item that is gone the last number is left, which has no item as long as the list is not full.
                let (Ok(left) | Err(left)) = number;
                Renamed {
                    value: Value::Choice(format!("{before}{left}")),
                    is_gone: number.is_err(),
                }
            }
            (By::Layers, Value::Text(text)) if !text.is_empty() => layers_renamed(text, went),
            _ => Renamed::same(value),
        }
    }
}

impl Renamed {
    /// A value that names what it named.
    pub(super) fn same(value: &Value) -> Self {
        Self {
            value: value.clone(),
            is_gone: false,
        }
    }
}

fn layers_renamed(text: &str, went: impl Fn(&str, usize) -> Option<usize>) -> Renamed {
    let mut is_gone = false;
    let mut renamed = |part: &str| {
        let name = part.trim_start();
        let gap = part.get(..part.len() - name.len())?;
        LAYERS.iter().find_map(|list| {
            let [before, behind] = around_number(list)?;
            let (number, rest) = name.strip_prefix(before)?.split_once(behind)?;
            let place = number.parse::<usize>().ok()?.checked_sub(1)?;
            let place = went(list, place);
            is_gone |= place.is_none();
            let number = place.map_or(GONE.to_string(), |place| (place + 1).to_string());
            Some([gap, before, &number, behind, rest].concat())
        })
    };
    let parts: Vec<String> = (text.split(NEXT))
        .map(|part| renamed(part).unwrap_or_else(|| part.to_string()))
        .collect();
    Renamed {
        value: Value::Text(parts.join(&NEXT.to_string())),
        is_gone,
    }
}

/// What stands before and behind the number in the name of a layer.
fn around_number(list: &str) -> Option<[&'static str; 2]> {
    let heading = Design::list_info(list)?.label;
    Some(["Layer ", heading.strip_prefix("Layers")?])
}

impl Design {
    /// What the layer of a list is called, by its place counted from zero.
    ///
    /// ```
    /// use hearthplan::design::Design;
    /// assert_eq!(Design::layer_name("lid_layers", 0), "Layer 1 of the lid");
    /// ```
    pub fn layer_name(list: &str, index: usize) -> String {
        let [before, behind] = around_number(list).unwrap_or_default();
        [before, &(index + 1).to_string(), behind].concat()
    }

    /// Writes anew what names items by their place, where it is made use of. Told are the input, the place of its own item and
    /// its value. What is about nothing any more is taken out.
    pub(super) fn name_anew(
        &mut self,
        mut renamed: impl FnMut(&'static Reference, usize, &Value) -> Renamed,
    ) {
        let mut gone = Vec::new();
        for reference in REFERENCES {
            let count = self.list(reference.head).map_or(0, |items| items.count());
            for place in 0..count {
                let path = Self::item_input(reference.head, place, reference.input);
                let Some(value) = self.get(&path) else {
                    continue;
                };
                let Renamed {
                    value: now,
                    is_gone,
                } = renamed(reference, place, &value);
                if (now == value && !is_gone) || !self.in_use(&path) {
                    continue;
                }
                if is_gone && reference.goes_along {
                    gone.push((reference.head, place));
                } else {
                    // A place of its list, a number for none, or a text that is no longer than before: the input takes it.
                    let _ = self.set(&path, now);
                }
            }
        }
        for (list, place) in gone.into_iter().rev() {
            self.remove_item(list, place);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Kind;

    #[test]
    fn every_row_names_an_input_of_a_list() {
        for row in REFERENCES {
            let info = Design::list_info(row.head).expect("a list");
            assert!(
                info.inputs.iter().any(|input| input.name == row.input),
                "{}.{}",
                row.head,
                row.input
            );
        }
    }

    #[test]
    fn every_choice_of_an_own_material_or_a_layer_has_a_row() {
        let names_one = |kind: &Kind| match kind {
            Kind::Choice { options, .. } => options
                .iter()
                .any(|option| ["own_1", "hearth_layers_1"].contains(&option.name)),
            _ => false,
        };
        for info in Design::SECTIONS {
            assert!(!info.inputs.iter().any(|input| names_one(&input.kind)));
        }
        for info in Design::LISTS {
            for input in info.inputs.iter().filter(|input| names_one(&input.kind)) {
                let row = Reference::of(info.name, input.name);
                assert!(row.is_some(), "{}.{}", info.name, input.name);
            }
        }
    }

    #[test]
    fn a_text_names_the_layers_where_they_went() {
        let text = "Hopper: 1.5 × 400; Layer 2 of the lid: 3; Layer 1 of the lid: 2";
        let row = Reference::of("joints", "made_sizes").expect("a row");
        let renamed = row.renamed(&Value::Text(text.into()), |list, place| {
            (list != "lid_layers" || place > 0).then(|| place + 1)
        });
        let wanted = "Hopper: 1.5 × 400; Layer 3 of the lid: 3; Layer ? of the lid: 2";
        assert_eq!(renamed.value, Value::Text(wanted.into()));
        assert!(renamed.is_gone);
    }
}
