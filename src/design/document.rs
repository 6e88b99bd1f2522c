//! The design document: its sections and lists, and access to every input by its path.

use super::declare::{Input, Items, Kind, Record, Value};
use super::inputs::*;
use super::quantity::{Quantity, System};
use std::collections::BTreeMap;
use thiserror::Error;

/// Why an input could not be set. Reads as a sentence in metric units; the app words the range in
/// the person's own system with [`InputError::sentence`].
#[derive(Debug, Clone, PartialEq, Error)]
pub enum InputError {
    /// No input has this path.
    #[error("there is no input named “{0}”")]
    Unknown(String),
    /// The value is of another kind, for example text for a number.
    #[error("{label} does not take this kind of value")]
    WrongKind {
        /// Label of the input.
        label: &'static str,
    },
    /// The number is not inside the allowed range.
    #[error("{}", self.sentence(System::Metric))]
    OutOfRange {
        /// Label of the input.
        label: &'static str,
        /// What is measured.
        quantity: Quantity,
        /// What was given, SI.
        given: f64,
        /// Smallest and largest value accepted, SI.
        allowed: (f64, f64),
    },
    /// The option does not exist.
    #[error("{label} has no option named “{given}”")]
    NoSuchOption {
        /// Label of the input.
        label: &'static str,
        /// What was given.
        given: String,
    },
    /// The text is too long.
    #[error("{label} takes at most {longest} characters")]
    TooLong {
        /// Label of the input.
        label: &'static str,
        /// Longest text accepted, in characters.
        longest: usize,
    },
}

impl InputError {
    /// The sentence with its range in the given system of units.
    pub fn sentence(&self, system: System) -> String {
        match self {
            InputError::OutOfRange {
                label,
                quantity,
                allowed,
                ..
            } => {
                let [least, most] = quantity.show_range((*allowed).into(), system);
                format!("{label} must be between {least} and {most}")
            }
            other => other.to_string(),
        }
    }
}

/// What a section is for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SectionInfo {
    /// Name in paths and files.
    pub name: &'static str,
    /// Heading shown to a person.
    pub label: &'static str,
    /// One line that says what it holds.
    pub meaning: &'static str,
    /// The declarations of its inputs.
    pub inputs: &'static [Input],
}

/// What a list is for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ListInfo {
    /// Name in paths and files.
    pub name: &'static str,
    /// Heading shown to a person.
    pub label: &'static str,
    /// One line that says what it holds.
    pub meaning: &'static str,
    /// What one item is called.
    pub item: &'static str,
    /// The declarations of an item's inputs.
    pub inputs: &'static [Input],
    /// Most items accepted.
    pub longest: usize,
}

macro_rules! document {
    (
        sections { $($section:ident : $record:ident = $label:literal, $meaning:literal;)+ }
        lists { $($list:ident : $item:ident [$longest:literal] = $start:expr, $list_label:literal, $item_label:literal, $list_meaning:literal;)+ }
    ) => {
        /// One machine as a person entered it.
        #[derive(Debug, Clone, PartialEq)]
        pub struct Design {
            $(#[doc = $meaning] pub $section: $record,)+
            $(#[doc = $list_meaning] pub $list: Vec<$item>,)+
            /// Entries of a file that this version does not know, by path; kept and written back.
            pub unknown: BTreeMap<String, serde_json::Value>,
        }

        impl Default for Design {
            fn default() -> Self {
                Self {
                    $($section: $record::default(),)+
                    $($list: $start,)+
                    unknown: BTreeMap::new(),
                }
            }
        }

        impl Design {
            /// All sections, in the order they are shown.
            pub const SECTIONS: &'static [SectionInfo] = &[
                $(SectionInfo { name: stringify!($section), label: $label, meaning: $meaning, inputs: $record::INPUTS }),+
            ];
            /// All lists, in the order they are shown.
            pub const LISTS: &'static [ListInfo] = &[
                $(ListInfo {
                    name: stringify!($list), label: $list_label, meaning: $list_meaning,
                    item: $item_label, inputs: $item::INPUTS, longest: $longest,
                }),+
            ];

            /// Names of the sections and lists in which this design differs from another one.
            pub fn changed_since(&self, before: &Self) -> Vec<&'static str> {
                let mut changed = Vec::new();
                $(if self.$section != before.$section { changed.push(stringify!($section)); })+
                $(if self.$list != before.$list { changed.push(stringify!($list)); })+
                changed
            }

            /// The section with this name.
            pub fn section(&self, name: &str) -> Option<&dyn Record> {
                match name { $(stringify!($section) => Some(&self.$section),)+ _ => None }
            }
            /// The section with this name, to be changed without a range check.
            pub fn section_mut(&mut self, name: &str) -> Option<&mut dyn Record> {
                match name { $(stringify!($section) => Some(&mut self.$section),)+ _ => None }
            }
            /// The list with this name.
            pub fn list(&self, name: &str) -> Option<&dyn Items> {
                match name { $(stringify!($list) => Some(&self.$list),)+ _ => None }
            }
            /// The list with this name, to be changed without a range check.
            pub fn list_mut(&mut self, name: &str) -> Option<&mut dyn Items> {
                match name { $(stringify!($list) => Some(&mut self.$list),)+ _ => None }
            }
        }
    };
}

document! {
    sections {
        about: About = "This design", "Name and note of the design.";
        site: Site = "Place", "Where the machine stands and what weather it meets.";
        fuel: Fuel = "Wood", "The fuel as it is loaded.";
        engine: Engine = "Engine", "What draws the gas and turns it into work.";
        operation: Operation = "Load", "How much gas is drawn, and how far down it runs.";
        gas_making: GasMaking = "Making gas", "What sets the air, and how heat moves in the char. Leave it as it is unless you know better.";
        measured: Measured = "Measured", "What you measured on a machine that runs, to be set beside what is computed. All of it may stay empty.";
        hearth: Hearth = "Hearth", "The burning and reducing part: fire tube, char bed and grate, with throat and nozzles where it has them.";
        hearth_wall: HearthBand = "Hearth wall", "The band of the vessel around the hearth, the hottest part.";
        body_wall: Wall = "Body wall", "The vessel above the hearth, where wood dries and chars.";
        lid: End = "Lid", "The top end of the vessel.";
        bottom: End = "Bottom", "The bottom end of the vessel, under the ash.";
        hopper: Hopper = "Hopper", "The wood store on top of the vessel.";
        base: Base = "Base", "What the machine stands on.";
        raw_gas: RawGas = "Gas at the outlet", "The gas as it leaves the hearth: how warm, how dusty, how tarry.";
        blower: Blower = "Blower", "The fan that pulls gas for lighting and for the flare.";
        battery: Battery = "Battery", "What feeds the blower when the generator does not run.";
        wiring: Wiring = "Wiring", "Cables and fuses, and the knob that sets the blower's speed.";
        battery_box: BatteryBox = "Battery box", "The box for battery and electronics, and the sheets that shield it from the hot wall.";
        plan_vessel: PlanVessel = "Vessel of the plan", "The vessel that the plan was drawn for, and what its heights are measured from.";
        real_vessel: RealVessel = "Vessel you bought", "The vessel in the workshop, measured with a tape.";
        grate: GratePlate = "Grate plate", "The drilled plate under the char.";
        workshop: Workshop = "Workshop", "Who lifts, and in which order you build.";
        leak_test: LeakTest = "Leak test", "What may leak, and what you test with.";
        shed: Shed = "Roof and room", "Where it stands, and the room around it: for the carbon monoxide that leaks out.";
        cost: Cost = "Prices", "Prices in your own currency. What stays empty is not counted, and is said so.";
        pace: Pace = "Time to build", "How fast you work and how much time you have: it tells how long the building takes.";
        doubt: Doubt = "Corrections of tables", "What no tape and no scale tells: how far tables may be off for your machine.";
        limits: Limits = "Pass marks", "What the verdicts compare with. Change them if you have better ones.";
    }
    lists {
        hearth_layers: Layer[8] = start::lined_hearth(), "Layers of the hearth wall", "Layer", "From the hot side outwards.";
        body_layers: Layer[8] = start::lined_vessel(), "Layers of the body wall", "Layer", "From the hot side outwards.";
        lid_layers: Layer[8] = start::plain_lid(), "Layers of the lid", "Layer", "From the hot side outwards.";
        bottom_layers: Layer[8] = start::lined_vessel(), "Layers of the bottom", "Layer", "From the hot side outwards.";
        own_materials: OwnMaterial[4] = Vec::new(), "Own materials", "Material", "Materials from your own data sheets.";
        contacts: Contact[16] = start::contacts(), "Contact points", "Point", "Where the machine touches the ground, when the base is not a plain rectangle.";
        parts: Part[60] = Vec::new(), "Other parts", "Part", "Everything on the base besides vessel, hopper and frame.";
        train: TrainStage[24] = start::train(), "Gas train", "Stage", "What the gas passes from hearth to engine, in this order. The engine is always the end.";
        loads: ElectricLoad[16] = start::loads(), "Electric loads", "Load", "Everything electric besides the blower.";
        blower_curve: CurvePoint[12] = start::blower_curve(), "Blower curve", "Point", "Pressure against flow at rated speed, from the maker's sheet or your own test.";
        holes: Hole[16] = Vec::new(), "Holes in the shell", "Hole", "Every hole of the plan. Leave the list empty if you do not mark out a vessel.";
        flanges: Flange[16] = Vec::new(), "Flanges", "Flange", "Flanges that you drill yourself.";
        joints: Joint[40] = start::joints(), "Joints", "Joint", "Every weld and flange between and inside the sub-assemblies.";
        build_steps: BuildStep[120] = Vec::new(), "My own order", "Step", "Your own order of the work. Leave it empty to use the computed order.";
        readings: Reading[60] = Vec::new(), "Leak tests made", "Test", "A record of each leak test, kept with the design.";
        part_changes: PartChange[40] = Vec::new(), "Changed by hand", "Change", "Pieces of the parts list whose weight or price you entered yourself.";
        cost_lines: CostLine[60] = Vec::new(), "Costs", "Line", "What you buy besides the materials of the parts list.";
        spreads: Spread[200] = Vec::new(), "Plus-minus", "Plus-minus", "How far inputs may be off, where you know it better than the table.";
    }
}

impl Design {
    pub(crate) fn split(path: &str) -> Option<(&str, Option<usize>, &str)> {
        let (head, rest) = path.split_once('.')?;
        match rest.split_once('.') {
            Some((index, name)) => Some((head, Some(index.parse().ok()?), name)),
            None => Some((head, None, rest)),
        }
    }

    fn record(&self, path: &str) -> Option<(&dyn Record, usize)> {
        let (head, index, name) = Self::split(path)?;
        let record = match index {
            Some(index) => self.list(head)?.item(index)?,
            None => self.section(head)?,
        };
        Some((record, record.index_of(name)?))
    }

    /// The declaration of the input at this path, such as `base.width` or `parts.2.mass`.
    pub fn input(&self, path: &str) -> Option<&'static Input> {
        let (record, index) = self.record(path)?;
        record.inputs().get(index)
    }

    /// The value at this path.
    pub fn get(&self, path: &str) -> Option<Value> {
        let (record, index) = self.record(path)?;
        record.read(index)
    }

    /// Sets the value at this path after checking kind and range.
    ///
    /// ```
    /// use hearthplan::design::{Design, Value};
    /// let mut design = Design::default();
    /// design.set("base.width", Value::Number(0.66)).unwrap();
    /// assert!(design.set("base.width", Value::Number(-1.0)).is_err());
    /// assert_eq!(design.get("base.width"), Some(Value::Number(0.66)));
    /// ```
    ///
    /// # Errors
    /// Unknown path, wrong kind of value, or outside the allowed range.
    pub fn set(&mut self, path: &str, value: Value) -> Result<(), InputError> {
        let unknown = || InputError::Unknown(path.to_string());
        let (head, index, name) = Self::split(path).ok_or_else(unknown)?;
        let record = match index {
            Some(index) => self.list_mut(head).and_then(|list| list.item_mut(index)),
            None => self.section_mut(head),
        }
        .ok_or_else(unknown)?;
        let place = record.index_of(name).ok_or_else(unknown)?;
        let input = record.inputs().get(place).ok_or_else(unknown)?;
        check(input, &value)?;
        if record.write(place, &value) {
            Ok(())
        } else {
            Err(InputError::WrongKind { label: input.label })
        }
    }

    /// The path of an item of a list.
    ///
    /// ```
    /// # use hearthplan::design::Design;
    /// assert_eq!(Design::item_path("parts", 2), "parts.2");
    /// ```
    pub fn item_path(list: &str, index: usize) -> String {
        item(list, index, 0)
    }

    /// The path of an input of an item of a list.
    ///
    /// ```
    /// # use hearthplan::design::Design;
    /// assert_eq!(Design::item_input("parts", 2, "mass"), "parts.2.mass");
    /// ```
    pub fn item_input(list: &str, index: usize, name: &str) -> String {
        let mut path = item(list, index, 1 + name.len());
        path.push('.');
        path.push_str(name);
        path
    }

    /// The paths of all inputs of this design, sections first, then list items.
    pub fn paths(&self) -> Vec<String> {
        let sections = Self::SECTIONS.iter().flat_map(|section| {
            section
                .inputs
                .iter()
                .map(move |input| format!("{}.{}", section.name, input.name))
        });
        let lists = Self::LISTS.iter().flat_map(|list| {
            let count = self.list(list.name).map_or(0, Items::count);
            (0..count).flat_map(move |index| {
                list.inputs
                    .iter()
                    .map(move |input| format!("{}.{index}.{}", list.name, input.name))
            })
        });
        sections.chain(lists).collect()
    }
}

/// The path of an item with room for so many letters behind it. Quicker than to format it: a review tells some hundred
/// paths, and few lists have more than ten items.
fn item(list: &str, index: usize, room: usize) -> String {
    const MOST_DIGITS: usize = 3;
    let mut path = String::with_capacity(list.len() + 1 + MOST_DIGITS + room);
    path.push_str(list);
    path.push('.');
    let digit = u32::try_from(index).ok();
    match digit.and_then(|digit| char::from_digit(digit, 10)) {
        Some(digit) => path.push(digit),
        None => path.push_str(&index.to_string()),
    }
    path
}

/// Checks a value against a declaration.
///
/// # Errors
/// Wrong kind of value, or outside the allowed range.
pub fn check(input: &Input, value: &Value) -> Result<(), InputError> {
    let label = input.label;
    match (input.kind, value) {
        (Kind::Number { default: None, .. }, Value::Empty) => Ok(()),
        (
            Kind::Number {
                quantity, allowed, ..
            },
            Value::Number(given),
        ) => {
            if *given >= allowed.0 && *given <= allowed.1 {
                Ok(())
            } else {
                Err(InputError::OutOfRange {
                    label,
                    quantity,
                    given: *given,
                    allowed,
                })
            }
        }
        (Kind::Choice { options, .. }, Value::Choice(given)) => {
            if options.iter().any(|option| option.name == given) {
                Ok(())
            } else {
                Err(InputError::NoSuchOption {
                    label,
                    given: given.clone(),
                })
            }
        }
        (Kind::Text { longest, .. }, Value::Text(text)) => {
            if text.chars().count() <= longest {
                Ok(())
            } else {
                Err(InputError::TooLong { label, longest })
            }
        }
        (Kind::Flag { .. }, Value::Flag(_)) => Ok(()),
        _ => Err(InputError::WrongKind { label }),
    }
}
