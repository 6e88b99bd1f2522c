//! How several numbers are shown that stand beside each other: so that they can be told apart, and compared.

use super::{
    DIGITS, LEAST_PLAIN, LEAST_TAPE_INCHES, MOST_PLAIN, ROUNDING, TAPE, decimals_of, digits_of,
    in_groups, is_taped, is_told_well, on_tape, precision, shown, shown_in, shown_signed,
    significant, step_of, steps, unit_of, uses_tape, without_end_zeros,
};
use crate::design::quantity::{Quantity, System};

/// Most decimals that tell a number from its like.
const MOST_APART: usize = 3;

/// Two values in one unit, so that they can be compared at a glance; each in its own where none tells both. Values that
/// differ never look the same, as in [`shown_apart`].
pub(in crate::design::quantity) fn shown_alike(
    quantity: Quantity,
    values: [f64; 2],
    system: System,
) -> [String; 2] {
    let own = values.map(|si| step_of(quantity, si, system));
    if let [Some(one), Some(other)] = own
        && one != other
        && values.iter().all(|si| si.is_finite())
        && let Some(step) = steps(quantity, system)
            .get(one.min(other)..=one.max(other))
            .unwrap_or_default()
            .iter()
            .rev()
            .find(|step| {
                values
                    .iter()
                    .all(|&si| is_told_well(step.unit, quantity, si))
            })
    {
        return values.map(|si| shown_in(step.unit, quantity, si, system));
    }
    let [one, other] = values;
    [(one, other), (other, one)].map(|(si, other)| shown_apart(quantity, si, other, system))
}

/// The values of a column in one unit, with as many decimals: as the largest has, and one more at most where smaller ones
/// need it. What a tape tells stands as it is told alone.
pub(in crate::design::quantity) fn shown_in_column(
    quantity: Quantity,
    values: &[f64],
    system: System,
) -> Vec<String> {
    let finite = || values.iter().copied().filter(|si| si.is_finite());
    let largest = finite().max_by(|one, other| one.abs().total_cmp(&other.abs()));
    let alone = || {
        values
            .iter()
            .map(|si| shown(quantity, *si, system))
            .collect()
    };
    let Some(largest) = largest else {
        return alone();
    };
    let unit = unit_of(quantity, largest, system);
    let largest = unit.from_si(largest);
    if largest.abs() >= MOST_PLAIN || is_taped(quantity, unit, largest, system) {
        return alone();
    }
    let most = finite().map(|si| Told::of(quantity, unit.from_si(si), system).decimals);
    let own = (DIGITS as f64 - 1.0 - largest.abs().max(LEAST_PLAIN).log10().floor()).max(0.0);
    let decimals = most.max().unwrap_or(0).min(own as usize + 1);
    let told = |si: f64| {
        if !si.is_finite() {
            return shown(quantity, si, system);
        }
        let fixed = format!("{:.decimals$}", unit.from_si(si) * (1.0 + ROUNDING));
        let is_nothing = fixed.bytes().all(|byte| matches!(byte, b'-' | b'0' | b'.'));
        let fixed = if is_nothing {
            fixed.trim_start_matches('-')
        } else {
            fixed.as_str()
        };
        unit.attached_to(&in_groups(fixed).replace('-', "−"))
    };
    values.iter().map(|si| told(*si)).collect()
}

/// Both ends of a range as [`shown_alike`]; an end that would be refused as it is written there gets more digits.
pub(in crate::design::quantity) fn shown_range(
    quantity: Quantity,
    range: [f64; 2],
    system: System,
) -> [String; 2] {
    let [least, most] = range;
    let taken = |text: &str| {
        let meets = |si: f64, end: f64| (si - end).abs() <= ROUNDING * end.abs();
        (quantity.read(text, system))
            .is_ok_and(|si| (least..=most).contains(&si) || meets(si, least) || meets(si, most))
    };
    let [low, high] = shown_alike(quantity, range, system);
    let told = |text: String, end: f64, inwards: fn(f64) -> f64| {
        if taken(&text) {
            return text;
        }
        let unit = unit_of(quantity, end, system);
        let on_its_tape = unit.from_si(end) * TAPE;
        if uses_tape(quantity, system) && on_its_tape.abs() >= LEAST_TAPE_INCHES * TAPE {
            return unit.attached_to(&in_groups(&on_tape(inwards(on_its_tape))).replace('-', "−"));
        }
        let number = rounded_inwards(unit.from_si(end), inwards);
        let exact = unit.attached_to(&in_groups(&format!("{number}")).replace('-', "−"));
        if taken(&exact) { exact } else { text }
    };
    [told(low, least, f64::ceil), told(high, most, f64::floor)]
}

/// How far a value is from one before it, with its sign: in the unit of the larger, the difference of what is shown, no
/// more finely than the coarser of the two is told, unless that would say there is none.
pub(in crate::design::quantity) fn shown_difference(
    quantity: Quantity,
    [one, other]: [f64; 2],
    system: System,
) -> String {
    if !one.is_finite() || !other.is_finite() {
        return "—".to_string();
    }
    let larger = if one.abs() > other.abs() { one } else { other };
    let unit = unit_of(quantity, larger, system);
    let numbers = [one, other].map(|si| unit.from_si(si));
    let largest = unit.from_si(larger);
    let text = if is_taped(quantity, unit, largest, system) {
        let [from, to] = numbers.map(|number| (number * TAPE).round());
        on_tape(to - from)
    } else {
        let [from, to] = numbers.map(|number| Told::of(quantity, number, system));
        let told = |decimals: usize| {
            let text = format!("{:.decimals$}", to.number - from.number);
            without_end_zeros(&text).to_string()
        };
        let finest = from.decimals.max(to.decimals);
        let coarser = from.known_to.min(to.known_to).min(finest);
        match told(coarser) {
            none if matches!(none.as_str(), "0" | "-0") => told(finest),
            text => text,
        }
    };
    let less = other - one;
    let of_difference = quantity.of_difference();
    if matches!(text.as_str(), "0" | "-0") {
        return shown_signed(of_difference, less, system);
    }
    let sign = if text.starts_with('-') { "" } else { "+" };
    let number = format!("{sign}{}", in_groups(&text).replace('-', "−"));
    match unit.symbol {
        // A share of what is itself a share would be another number.
        "%" => format!("{number} points"),
        _ if of_difference != quantity => unit_of(of_difference, less, system).attached_to(&number),
        _ => unit.attached_to(&number),
    }
}

/// A number as its figures tell it.
struct Told {
    number: f64,
    /// How many decimals its figures have.
    decimals: usize,
    /// To how many decimals they are true: to any, where nothing was rounded.
    known_to: usize,
}

impl Told {
    fn of(quantity: Quantity, number: f64, system: System) -> Self {
        let figures = digits_of(quantity, number, system).replace('\u{202f}', "");
        let told = figures.parse().unwrap_or(number);
        let is_exact = (told - number).abs() <= ROUNDING * number.abs();
        let (most, most_decimals) = precision(quantity, system);
        Self {
            number: told,
            decimals: (figures.split_once('.')).map_or(0, |(_, decimals)| decimals.len()),
            known_to: match is_exact {
                true => usize::MAX,
                false => decimals_of(number, most).min(most_decimals),
            },
        }
    }
}

/// A number with four significant digits, rounded to the side that lies in its range.
fn rounded_inwards(number: f64, inwards: fn(f64) -> f64) -> f64 {
    let near = significant(number, 4);
    let step = 10_f64.powf(number.abs().log10().floor() - 3.0);
    if (near - number).abs() <= ROUNDING * number.abs() || !step.is_normal() {
        return near;
    }
    significant(inwards(number / step) * step, 4)
}

/// A value with as many decimals as tell it from another one that would look the same, three at most.
pub(in crate::design::quantity) fn shown_apart(
    quantity: Quantity,
    si: f64,
    other: f64,
    system: System,
) -> String {
    let text = shown(quantity, si, system);
    if si == other || !si.is_finite() || text != shown(quantity, other, system) {
        return text;
    }
    let unit = unit_of(quantity, si, system);
    let numbers = [si, other].map(|si| unit.from_si(si));
    (1..=MOST_APART)
        .map(|decimals| numbers.map(|number| format!("{number:.decimals$}")))
        .find(|[one, other]| one != other)
        .map_or(text, |[one, _]| {
            unit.attached_to(&in_groups(without_end_zeros(&one)).replace('-', "−"))
        })
}
