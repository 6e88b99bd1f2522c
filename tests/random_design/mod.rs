//! Random designs made from the declarations alone: any number inside its allowed range, any
//! option, any length of list. The same seed gives the same design on every machine.

#![allow(dead_code, reason = "each test crate uses the part it needs")]
#![allow(
    clippy::expect_used,
    clippy::panic,
    reason = "a declaration that does not hold must stop the test"
)]

use hearthplan::design::{Design, Input, Kind, Value, quantity::Quantity};

/// A small generator of random numbers (SplitMix64: Steele, Lea, Flood, OOPSLA 2014).
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A whole number below `end`.
    pub fn below(&mut self, end: usize) -> usize {
        (self.next() % end.max(1) as u64) as usize
    }

    /// A number from 0 up to but not including 1.
    pub fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A number between two ends.
    pub fn between(&mut self, (low, high): (f64, f64)) -> f64 {
        (low + (high - low) * self.share()).clamp(low, high)
    }

    pub fn pick<'a, T>(&mut self, choices: &'a [T]) -> &'a T {
        &choices[self.below(choices.len())]
    }
}

/// A design with every input drawn from its allowed range; most have an ordinary grate.
pub fn random_design(seed: u64) -> Design {
    let mut dice = Dice::new(seed);
    let mut design = Design::default();
    for list in Design::LISTS {
        let count = dice.below(list.longest + 1);
        let items = design.list_mut(list.name).expect("declared list");
        while items.count() > 0 {
            items.remove_item(0);
        }
        for place in 0..count {
            items.insert_new(place);
        }
    }
    for path in design.paths() {
        let input = design.input(&path).expect("path of the design");
        let value = random_value(&mut dice, input);
        design
            .set(&path, value)
            .unwrap_or_else(|error| panic!("{path}: {error}"));
    }
    // Few plates of any sizes at all have room for holes, and behind one without a hole nothing is left to be told.
    if dice.below(8) != 0 {
        design.grate = Design::default().grate;
    }
    design
}

/// A value that the declaration accepts; now and then one of the ends of the range.
pub fn random_value(dice: &mut Dice, input: &Input) -> Value {
    match input.kind {
        Kind::Number {
            quantity,
            default,
            allowed,
            ..
        } => match dice.below(12) {
            0 => Value::Number(allowed.0),
            1 => Value::Number(allowed.1),
            2 | 3 => default.map_or(Value::Empty, Value::Number),
            _ if quantity == Quantity::Count => Value::Number(dice.between(allowed).round()),
            _ => Value::Number(dice.between(allowed)),
        },
        Kind::Choice { options, .. } => Value::Choice(dice.pick(options).name.to_string()),
        Kind::Text { longest, .. } => Value::Text(random_text(dice, longest.min(40))),
        Kind::Flag { .. } => Value::Flag(dice.below(2) == 0),
    }
}

/// Letters, signs and scripts that formats tend to stumble over.
pub fn random_text(dice: &mut Dice, longest: usize) -> String {
    const SIGNS: &[char] = &[
        'a', 'b', 'Z', '0', '9', ' ', '"', '\'', '\\', '/', '<', '&', '%', '.', ',', '\n', '\t',
        'ä', 'ß', '½', '″', '木', '🔥', '\u{202f}', '\u{0}',
    ];
    (0..dice.below(longest + 1))
        .map(|_| *dice.pick(SIGNS))
        .collect()
}
