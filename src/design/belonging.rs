//! What belongs to a choice and comes along with it.

use super::declare::{Value, celsius};
use super::document::{Design, InputError};

/// A value that belongs to an option.
struct Belonging {
    /// Section or list of the choice and of what belongs to it.
    head: &'static str,
    /// Name of the choice, and the option.
    choice: (&'static str, &'static str),
    /// The input that goes with it: beside the choice, or by its whole path.
    input: &'static str,
    /// What it is with this option.
    value: Belongs,
}

/// What an input is that belongs to an option.
enum Belongs {
    /// This value.
    Fixed(Value),
    /// So much for each unit of a number that stands beside it, in SI.
    Each(&'static str, f64),
}

/// Common practice, no source: usual pieces of each fuel, and its water when it is air-dry under a roof; what the filter media bear, of cloth the cotton that bears
/// least; how much dust makes them due, of cloth about 100 g on each square metre; how a battery of each kind is
/// discharged.
static BELONGINGS: [Belonging; 20] = [
    pieces("softwood", 0.040),
    pieces("hardwood", 0.040),
    pieces("charcoal", 0.025),
    pieces("nut_shells", 0.015),
    pieces("densified_wood", 0.020),
    air_dry("softwood", WOOD_AIR_DRY),
    air_dry("hardwood", WOOD_AIR_DRY),
    air_dry("charcoal", 0.05),
    air_dry("nut_shells", 0.10),
    air_dry("densified_wood", 0.08),
    medium("packed", "may_be_wet", Belongs::Fixed(Value::Flag(true))),
    medium(
        "packed",
        "medium_limit",
        Belongs::Fixed(Value::Number(celsius(200.0))),
    ),
    medium(
        "packed",
        "dust_capacity",
        Belongs::Fixed(Value::Number(1.0)),
    ),
    medium("cloth", "may_be_wet", Belongs::Fixed(Value::Flag(false))),
    medium(
        "cloth",
        "medium_limit",
        Belongs::Fixed(Value::Number(celsius(80.0))),
    ),
    medium("cloth", "dust_capacity", Belongs::Each("cloth_area", 0.1)),
    battery("lead_acid", "battery.peukert", 1.2),
    battery("lead_acid", "battery.usable_share", 0.5),
    battery("lithium", "battery.peukert", 1.05),
    battery("lithium", "battery.usable_share", 0.8),
];

const fn pieces(fuel: &'static str, metres: f64) -> Belonging {
    Belonging {
        head: "fuel",
        choice: ("kind", fuel),
        input: "piece_size",
        value: Belongs::Fixed(Value::Number(metres)),
    }
}

const fn air_dry(fuel: &'static str, moisture: f64) -> Belonging {
    Belonging {
        head: "fuel",
        choice: ("kind", fuel),
        input: MOISTURE,
        value: Belongs::Fixed(Value::Number(moisture)),
    }
}

const fn medium(medium: &'static str, input: &'static str, value: Belongs) -> Belonging {
    Belonging {
        head: "train",
        choice: ("medium", medium),
        input,
        value,
    }
}

const fn battery(kind: &'static str, input: &'static str, value: f64) -> Belonging {
    Belonging {
        head: "battery_box",
        choice: ("chemistry", kind),
        input,
        value: Belongs::Fixed(Value::Number(value)),
    }
}

const MOISTURE: &str = "moisture";
const WOOD_AIR_DRY: f64 = 0.15;
/// The first questions begin with the wood of the example, which is so dry. Of another fuel that says as little as what is
/// usual of wood.
const WOOD_OF_THE_EXAMPLE: f64 = 0.12;

/// Whether the value of an input is one that came with the option before.
fn came_along(input: &str, now: &Value, then: &Value) -> bool {
    let of_wood = *then == Value::Number(WOOD_AIR_DRY);
    now == then || input == MOISTURE && of_wood && *now == Value::Number(WOOD_OF_THE_EXAMPLE)
}

impl Design {
    /// Chooses an option as a person does: what belongs to it comes along where there still stands what belonged to the
    /// option before. What the person has set stays.
    ///
    /// ```
    /// use hearthplan::design::Design;
    /// let mut design = Design::default();
    /// design.choose("fuel.kind", "densified_wood").unwrap();
    /// assert_eq!(design.fuel.piece_size.value, 0.020);
    /// design.fuel.piece_size.value = 0.012;
    /// design.choose("fuel.kind", "softwood").unwrap();
    /// assert_eq!(design.fuel.piece_size.value, 0.012);
    /// design.choose("battery_box.chemistry", "lithium").unwrap();
    /// assert_eq!(design.battery.peukert, 1.05);
    /// assert_eq!(design.battery.usable_share.value, 0.8);
    /// ```
    ///
    /// # Errors
    /// As [`Design::set`].
    pub fn choose(&mut self, path: &str, option: &str) -> Result<(), InputError> {
        let before = self.get(path);
        self.set(path, Value::Choice(option.to_string()))?;
        let (Some((head, _, choice)), Some(Value::Choice(before))) = (Self::split(path), before)
        else {
            return Ok(());
        };
        let of = |option| {
            let wanted = move |one: &&Belonging| one.head == head && one.choice == (choice, option);
            BELONGINGS.iter().filter(wanted)
        };
        for new in of(option) {
            let beside = |input: &str| match input.contains('.') {
                true => Some(input.to_string()),
                false => (path.strip_suffix(choice)).map(|begin| [begin, input].concat()),
            };
            let value = |design: &Self, belongs: &Belongs| match belongs {
                Belongs::Fixed(value) => Some(value.clone()),
                Belongs::Each(input, each) => match design.get(&beside(input)?)? {
                    Value::Number(number) => Some(Value::Number(each * number)),
                    _ => None,
                },
            };
            let old = of(before.as_str()).find(|old| old.input == new.input);
            if let (Some(own), Some(old)) = (beside(new.input), old)
                && let Some(belongs) = value(self, &new.value)
                && let Some(then) = value(self, &old.value)
                && let Some(now) = self.get(&own)
                && belongs != then
                && came_along(new.input, &now, &then)
            {
                self.set(&own, belongs)?;
            }
        }
        Ok(())
    }
}
