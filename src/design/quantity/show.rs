//! Writing a quantity: short for reading, exact for editing.

mod beside;

pub(super) use beside::{shown_alike, shown_apart, shown_difference, shown_in_column, shown_range};

use super::scales::{ANY, Step};
use super::units::{IN, PSI, Unit};
use super::{Quantity, System};

/// The parts of an inch on a workshop tape.
const TAPE: f64 = 16.0;
/// Below this many inches a tape says too little and decimals are shown.
const LEAST_TAPE_INCHES: f64 = 0.125;
/// From this many inches on a thickness is told as a tape does.
const LEAST_THICK_INCHES: f64 = 0.5;
/// What the rounding of a unit may change of a number, as a share of it.
const ROUNDING: f64 = 1e-12;
/// Smaller numbers say no more than that they are smaller: nobody counts the zeros behind a point.
const LEAST_PLAIN: f64 = 1e-6;
/// Larger numbers say no more than that they are larger.
const MOST_PLAIN: f64 = 1e15;
/// Digits that are meant on the screen, and in a working, where a person does the sum again.
const DIGITS: usize = 3;
const SUM_DIGITS: usize = 4;
/// A smaller number in a working has a power of ten.
const LEAST_IN_SUM: f64 = 1e-4;

impl Unit {
    /// The number in this unit for an SI value.
    pub fn from_si(&self, si: f64) -> f64 {
        (si - self.offset) / self.factor
    }

    /// The SI value of a number in this unit.
    pub fn to_si(&self, number: f64) -> f64 {
        number * self.factor + self.offset
    }

    /// A number text followed by the symbol.
    fn attached_to(&self, number: &str) -> String {
        match self.symbol {
            "" => number.to_string(),
            "°" => format!("{number}{}", self.symbol),
            symbol => format!("{number} {symbol}"),
        }
    }
}

pub(super) fn shown(quantity: Quantity, si: f64, system: System) -> String {
    if !si.is_finite() {
        return "—".to_string();
    }
    shown_in(unit_of(quantity, si, system), quantity, si, system)
}

/// A difference with its sign.
pub(super) fn shown_signed(quantity: Quantity, si: f64, system: System) -> String {
    let text = shown(quantity, si, system);
    if si > 0.0 { format!("+{text}") } else { text }
}

fn unit_of(quantity: Quantity, si: f64, system: System) -> Unit {
    step_of(quantity, si, system)
        .and_then(|place| steps(quantity, system).get(place))
        .map_or(quantity.field_unit(system), |step| step.unit)
}

fn steps(quantity: Quantity, system: System) -> &'static [Step] {
    let [metric, inch] = quantity.scale().shown;
    match system {
        System::Metric => metric,
        System::Inch => inch,
    }
}

/// Place of the step whose unit suits the value.
fn step_of(quantity: Quantity, si: f64, system: System) -> Option<usize> {
    steps(quantity, system)
        .iter()
        .rposition(|step| si.abs() >= step.from)
}

/// Whether the number in this unit is neither cumbersome nor loses figures that are meant.
fn is_told_well(unit: Unit, quantity: Quantity, si: f64) -> bool {
    let number = unit.from_si(si);
    let scale = 10_f64.powi(quantity.scale().decimals as i32);
    let lost = ((number * scale).round() / scale - number).abs();
    number == 0.0 || (0.01..1e5).contains(&number.abs()) && lost <= 0.005 * number.abs()
}

fn shown_in(unit: Unit, quantity: Quantity, si: f64, system: System) -> String {
    let number = unit.from_si(si);
    let text = if is_taped(quantity, unit, number, system) {
        in_groups(&on_tape((number * TAPE).round()))
    } else {
        digits_of(quantity, number, system)
    };
    unit.attached_to(&text.replace('-', "−"))
}

/// Whether a number in this unit is told as a tape does.
fn is_taped(quantity: Quantity, unit: Unit, number: f64, system: System) -> bool {
    let parts = number.abs() * TAPE;
    // The smallest part itself is on the tape.
    let is_one = (parts - 1.0).abs() < ROUNDING * TAPE;
    uses_tape(quantity, system) && (number.abs() >= LEAST_TAPE_INCHES || is_one)
        || is_thick(quantity, unit, number)
}

/// The figures of a number that no tape tells.
fn digits_of(quantity: Quantity, number: f64, system: System) -> String {
    let (most, most_decimals) = precision(quantity, system);
    digits(number, most, most_decimals)
}

/// How many significant digits and how many decimals a number has at most that no tape tells.
fn precision(quantity: Quantity, system: System) -> (usize, usize) {
    if uses_tape(quantity, system) {
        return (DIGITS, 3);
    }
    let most = match quantity {
        Quantity::Bore => SUM_DIGITS,
        _ => DIGITS,
    };
    (most, quantity.scale().decimals)
}

/// Less than this many pounds per square inch is told by a water column alone.
const LEAST_PSI: f64 = 0.1;

/// A pressure in pounds per square inch, to hundredths; none for less than a tenth.
pub(super) fn in_psi(si: f64) -> Option<String> {
    let number = PSI.from_si(si);
    let tells = number.is_finite() && number.abs() >= LEAST_PSI;
    tells.then(|| PSI.attached_to(&digits(number, DIGITS, 2).replace('-', "−")))
}

/// A value for doing the sum again: one digit more than on the screen, decimals of an inch, powers of ten where a number is
/// very small or large.
pub(super) fn shown_for_sum(quantity: Quantity, si: f64, system: System) -> String {
    if !si.is_finite() {
        return "—".to_string();
    }
    let unit = unit_of(quantity, si, system);
    let number = unit.from_si(si);
    let decimals = quantity.scale().decimals;
    let text = match quantity {
        Quantity::Count | Quantity::Speed => digits(number, DIGITS, decimals),
        // Radii of thin layers differ by little.
        Quantity::Length | Quantity::Bore if system == System::Inch => {
            digits(number, SUM_DIGITS + 1, 3)
        }
        Quantity::Length | Quantity::Bore => digits(number, SUM_DIGITS + 1, 2),
        _ if decimals == ANY
            && number != 0.0
            && !(LEAST_IN_SUM..MOST_PLAIN).contains(&number.abs()) =>
        {
            with_power(number)
        }
        _ if decimals == ANY => digits(number, SUM_DIGITS, ANY),
        _ => digits(number, SUM_DIGITS, decimals + 1),
    };
    unit.attached_to(&text.replace('-', "−"))
}

/// A number with its power of ten, as in 6.082 × 10⁻⁵.
fn with_power(number: f64) -> String {
    const RAISED: [char; 10] = ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹'];
    let text = format!("{number:.*e}", SUM_DIGITS - 1);
    let (figures, power) = text.split_once('e').unwrap_or((&text, "0"));
    let raised: String = (power.chars())
        .map(|sign| {
            let place = sign
                .to_digit(10)
                .and_then(|digit| usize::try_from(digit).ok());
            place
                .and_then(|place| RAISED.get(place))
                .copied()
                .unwrap_or('⁻')
        })
        .collect();
    format!("{} × 10{raised}", without_end_zeros(figures))
}

pub(super) fn written(quantity: Quantity, si: f64, system: System) -> String {
    if !si.is_finite() {
        return String::new();
    }
    let unit = quantity.field_unit(system);
    let exact = unit.from_si(si);
    // An offset leaves rounding dust behind, which would show as 19.99999999999997.
    let clean = if unit.offset == 0.0 || exact.abs() > 1e4 {
        exact
    } else {
        (exact * 1e10).round() / 1e10
    };
    let number = significant(clean, 13);
    let sixteenths = number * TAPE;
    if uses_tape(quantity, system) && sixteenths.fract() == 0.0 && sixteenths.abs() < 1e6 {
        on_tape(sixteenths)
    } else if number == 0.0 {
        "0".to_string()
    } else if (LEAST_PLAIN..1e15).contains(&number.abs()) {
        format!("{number}")
    } else {
        format!("{number:e}")
    }
}

fn uses_tape(quantity: Quantity, system: System) -> bool {
    quantity == Quantity::Length && system == System::Inch
}

/// Whether a thickness in inches is no longer sheet, which gauges tell in decimals, but a layer that a tape tells.
fn is_thick(quantity: Quantity, unit: Unit, number: f64) -> bool {
    quantity == Quantity::Thickness && unit == IN && number.abs() >= LEAST_THICK_INCHES
}

/// The number rounded to so many significant digits.
pub(super) fn significant(number: f64, digits: usize) -> f64 {
    let text = format!("{number:.*e}", digits.saturating_sub(1));
    text.parse().unwrap_or(number)
}

/// Whole inches and a fraction in lowest terms, from a whole number of sixteenths.
fn on_tape(sixteenths: f64) -> String {
    let sign = if sixteenths < 0.0 { "-" } else { "" };
    let whole = (sixteenths.abs() / TAPE).floor();
    let (mut top, mut bottom) = (sixteenths.abs() % TAPE, TAPE);
    while top > 0.0 && top % 2.0 == 0.0 {
        top /= 2.0;
        bottom /= 2.0;
    }
    match (whole > 0.0, top > 0.0) {
        (true, true) => format!("{sign}{whole} {top}/{bottom}"),
        (false, true) => format!("{sign}{top}/{bottom}"),
        (true, false) => format!("{sign}{whole}"),
        (false, false) => "0".to_string(),
    }
}

/// A finite number with so many significant digits, all whole digits, and at most so many decimals.
fn digits(number: f64, figures: usize, most_decimals: usize) -> String {
    let size = number.abs();
    let (more, less, sign) = if number < 0.0 {
        ("under", "over", "-")
    } else {
        ("over", "under", "")
    };
    if size >= MOST_PLAIN {
        return format!("{more} {sign}10¹⁵");
    }
    if size > 0.0 && size < LEAST_PLAIN && most_decimals == ANY {
        return format!("{less} {sign}0.000001");
    }
    let decimals = decimals_of(number, figures);
    // Half a step is rounded up, whatever sums before have left behind: 3/16 in is 0.188 in wherever it stands.
    let fixed = format!(
        "{:.*}",
        decimals.min(most_decimals),
        number * (1.0 + ROUNDING)
    );
    match without_end_zeros(&fixed) {
        "-0" => "0".to_string(),
        text => in_groups(text),
    }
}

/// How many decimals a number has with so many significant digits.
fn decimals_of(number: f64, figures: usize) -> usize {
    match number.abs() {
        0.0 => 0,
        size => (figures as f64 - 1.0 - size.log10().floor()).clamp(0.0, 12.0) as usize,
    }
}

/// A decimal number without the zeros, and the point, that say nothing.
fn without_end_zeros(fixed: &str) -> &str {
    if fixed.contains('.') {
        fixed.trim_end_matches('0').trim_end_matches('.')
    } else {
        fixed
    }
}

/// A number rounded to a whole one, written as all large numbers are.
///
/// ```
/// use hearthplan::design::quantity::whole;
/// assert_eq!((whole(1477.45), whole(1_477_452.3)), ("1477".to_string(), "1\u{202f}477\u{202f}452".to_string()));
/// ```
pub fn whole(number: f64) -> String {
    in_groups(&format!("{number:.0}"))
}

/// Whole digits of five and more get narrow spaces between groups of three; decimals, or a fraction behind them, stay.
fn in_groups(text: &str) -> String {
    let (whole, rest) = text.split_at(text.find(['.', ' ']).unwrap_or(text.len()));
    let (sign, figures) = whole
        .strip_prefix('-')
        .map_or(("", whole), |figures| ("-", figures));
    // What is no plain number, such as 5/16 or a power of ten, has no groups.
    if figures.len() < 5 || !figures.bytes().all(|byte| byte.is_ascii_digit()) {
        return text.to_string();
    }
    let mut grouped = String::from(sign);
    for (place, figure) in figures.chars().enumerate() {
        if place > 0 && (figures.len() - place).is_multiple_of(3) {
            grouped.push('\u{202f}');
        }
        grouped.push(figure);
    }
    grouped + rest
}

/// A written number of more than eight characters, cut to five digits.
pub(super) fn shortened(written: String) -> String {
    match written.parse::<f64>() {
        Ok(number) if written.len() > 8 && number != 0.0 => {
            if number.abs() < LEAST_PLAIN {
                return format!("{:e}", significant(number, 5));
            }
            let places = (4 - number.abs().log10().floor() as i32).clamp(0, 12) as usize;
            without_end_zeros(&format!("{number:.places$}")).to_string()
        }
        _ => written,
    }
}
