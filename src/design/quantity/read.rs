//! Reading a quantity the way people write it: `2 ft 2 in`, `1 1/2"`, `0,66 m`, `7 cfm`.

use super::read_error::{ReadError, ReadReason};
use super::show::significant;
use super::signs::{ambiguous, fold, ungrouped, vulgar_fraction};
use super::units::Unit;
use super::{Quantity, System, sheet_gauge, wire_gauge};
use std::ops::Range;

/// Longest text looked at, in bytes; nobody types a longer quantity.
const LONGEST: usize = 120;

/// Largest number taken, SI: beyond any thing of this world, and finite in every unit.
const LARGEST: f64 = 1e100;

/// Numbers closer to zero than this are zero, SI: with fewer digits than others they could not be written back.
const SMALLEST: f64 = 1e-100;

pub(super) fn read(quantity: Quantity, text: &str, system: System) -> Result<f64, ReadError> {
    if text.len() > LONGEST {
        return Err(ReadError {
            place: 0..text.len(),
            reason: ReadReason::TooLong,
        });
    }
    if quantity == Quantity::WireSection {
        if let Some(section) = wire_gauge::section(text) {
            return Ok(section);
        }
        // Divided, “16/2” would be 8 mm²: six times the wire that it names.
        if text.chars().any(|sign| fold(sign) == '/') {
            let typed = text.trim().replace(['⁄', '∕'], "/");
            return Err(ReadError {
                place: 0..text.len(),
                reason: ReadReason::NoSection { typed },
            });
        }
    }
    if let Some(means) = sheet_gauge::gauge_of_steel(quantity, text) {
        return Err(ReadError {
            place: 0..text.len(),
            reason: ReadReason::SheetGauge {
                typed: text.trim().to_string(),
                means,
            },
        });
    }
    Reader::new(quantity, text, system).quantity()
}

/// Units of volts times amperes, which are no watts.
const APPARENT: [&str; 2] = ["kva", "va"];

fn is_power(quantity: Quantity) -> bool {
    matches!(quantity, Quantity::Power | Quantity::EnginePower)
}

/// One character of the text in the form that units and numbers are compared in.
#[derive(Clone, Copy)]
struct Folded {
    sign: char,
    start: usize,
    end: usize,
}

/// A number with the unit typed behind it.
struct Term {
    number: f64,
    unit: Option<Unit>,
    place: Range<usize>,
}

struct Reader<'a> {
    quantity: Quantity,
    system: System,
    text: &'a str,
    signs: Vec<Folded>,
    at: usize,
}

impl<'a> Reader<'a> {
    fn new(quantity: Quantity, text: &'a str, system: System) -> Self {
        let mut signs: Vec<Folded> = Vec::with_capacity(text.len());
        for (start, raw) in text.char_indices() {
            let sign = fold(raw);
            let after_space = signs.last().is_none_or(|last| last.sign == ' ');
            if !(sign == ' ' && after_space) {
                signs.push(Folded {
                    sign,
                    start,
                    end: start + raw.len_utf8(),
                });
            }
        }
        if signs.last().is_some_and(|last| last.sign == ' ') {
            signs.pop();
        }
        Self {
            quantity,
            system,
            text,
            signs,
            at: 0,
        }
    }

    fn sign_at(&self, place: usize) -> Option<char> {
        self.signs.get(place).map(|folded| folded.sign)
    }

    fn here(&self) -> Option<char> {
        self.sign_at(self.at)
    }

    fn digit_at(&self, place: usize) -> bool {
        self.sign_at(place)
            .is_some_and(|sign| sign.is_ascii_digit())
    }

    fn skip_space(&mut self) {
        if self.here() == Some(' ') {
            self.at += 1;
        }
    }

    /// The dash that joins feet and inches, as in `5'-2 13/16"`.
    fn skip_joining_dash(&mut self) {
        let behind = self.at + 1 + usize::from(self.sign_at(self.at + 1) == Some(' '));
        let is_number = |sign: char| sign.is_ascii_digit() || vulgar_fraction(sign).is_some();
        if self.here() == Some('-') && self.sign_at(behind).is_some_and(is_number) {
            self.at = behind;
        }
    }

    /// The bytes between two places of the folded text.
    fn bytes(&self, from: usize, to: usize) -> Range<usize> {
        let start = self
            .signs
            .get(from)
            .map_or(self.text.len(), |folded| folded.start);
        let end = to
            .checked_sub(1)
            .and_then(|last| self.signs.get(last))
            .map_or(start, |folded| folded.end);
        start..end.max(start)
    }

    fn typed(&self, place: &Range<usize>) -> String {
        self.text.get(place.clone()).unwrap_or_default().to_string()
    }

    /// The error at a place; where nothing stands, such as behind a lone sign, all that was typed is at fault.
    fn error(&self, place: Range<usize>, reason: impl FnOnce(String) -> ReadReason) -> ReadError {
        let place = if place.is_empty() {
            self.bytes(0, self.signs.len())
        } else {
            place
        };
        let typed = self.typed(&place);
        ReadError {
            place,
            reason: reason(typed),
        }
    }

    /// The piece from a place up to the next space.
    fn word(&self, from: usize) -> Range<usize> {
        let to = (from..self.signs.len())
            .find(|&place| place > from && self.sign_at(place) == Some(' '))
            .unwrap_or(self.signs.len());
        self.bytes(from, to)
    }

    fn quantity(mut self) -> Result<f64, ReadError> {
        let wanted = self.quantity;
        if self.signs.is_empty() {
            return Err(self.error(0..self.text.len(), |_| ReadReason::Empty { wanted }));
        }
        let negative = self.here() == Some('-');
        if negative || self.here() == Some('+') {
            self.at += 1;
            self.skip_space();
        }
        let mut terms = Vec::new();
        while terms.is_empty() || self.at < self.signs.len() {
            let term = self.term()?;
            self.skip_space();
            if term.unit.is_some_and(|unit| unit.followed_by.is_some()) {
                self.skip_joining_dash();
            }
            terms.push(term);
        }
        let si = self.sum(&terms, negative)?;
        let all = self.bytes(0, self.signs.len());
        if si.is_nan() || si.abs() > LARGEST {
            return Err(self.error(all, |_| ReadReason::TooLarge));
        }
        if si.abs() < SMALLEST {
            return Ok(0.0);
        }
        if wanted == Quantity::Count && si.fract() != 0.0 {
            return Err(self.error(all, |typed| ReadReason::NotWhole { typed }));
        }
        // So that 660 mm is held as 0.66 and not as 0.6600000000000001.
        Ok(significant(si, 15))
    }

    /// Adds the terms up: each further one must be less than one of the unit before it.
    fn sum(&self, terms: &[Term], negative: bool) -> Result<f64, ReadError> {
        let direction = if negative { -1.0 } else { 1.0 };
        let plain = self.quantity.field_unit(self.system);
        let does_not_add =
            |term: &Term| self.error(term.place.clone(), |typed| ReadReason::DoesNotAdd { typed });
        if let [only] = terms {
            return Ok(only.unit.unwrap_or(plain).to_si(direction * only.number));
        }
        let mut total = 0.0;
        let mut above: Option<Unit> = None;
        for term in terms {
            let unit = match (term.unit, above) {
                (Some(unit), _) => unit,
                (None, Some(above)) => self.unit_behind(above).ok_or_else(|| does_not_add(term))?,
                (None, None) => return Err(does_not_add(term)),
            };
            let size = unit.to_si(term.number);
            let fits = above.is_none_or(|above| unit.factor < above.factor && size < above.factor);
            if unit.offset != 0.0 || !fits {
                return Err(does_not_add(term));
            }
            total += size;
            above = Some(unit);
        }
        Ok(direction * total)
    }

    fn unit_behind(&self, above: Unit) -> Option<Unit> {
        let symbol = above.followed_by?;
        self.quantity
            .units()
            .iter()
            .find(|unit| unit.symbol == symbol)
            .copied()
    }

    fn term(&mut self) -> Result<Term, ReadError> {
        let from = self.at;
        let number = self.number()?;
        let behind = self.at;
        self.skip_space();
        let unit = match self.here() {
            None => None,
            // A plate tells turns as “1/min”: a figure, but no further number.
            Some(_) if behind != self.at && self.longest(self.quantity).is_some() => {
                Some(self.unit()?)
            }
            Some(sign) if sign.is_ascii_digit() || vulgar_fraction(sign).is_some() => None,
            Some(_) => Some(self.unit()?),
        };
        let to = if unit.is_some() { self.at } else { behind };
        Ok(Term {
            number,
            unit,
            place: self.bytes(from, to),
        })
    }

    /// A decimal, a fraction, or a whole number with a fraction.
    fn number(&mut self) -> Result<f64, ReadError> {
        if let Some(fraction) = self.here().and_then(vulgar_fraction) {
            self.at += 1;
            return Ok(fraction);
        }
        let from = self.at;
        let figures = self.figures();
        let whole = !figures.is_empty() && figures.bytes().all(|byte| byte.is_ascii_digit());
        if whole && self.here() == Some('/') && self.digit_at(self.at + 1) {
            self.at += 1;
            return self.over(from, &figures);
        }
        let number = self.decimal(from, &figures)?;
        Ok(if whole {
            number + self.fraction_behind()?
        } else {
            number
        })
    }

    /// The fraction behind a whole number, as in `1 1/2`, `1-1/2` and `1½`; 0 without one.
    fn fraction_behind(&mut self) -> Result<f64, ReadError> {
        let from = self.at + usize::from(matches!(self.here(), Some(' ' | '-')));
        if let Some(fraction) = self.sign_at(from).and_then(vulgar_fraction) {
            self.at = from + 1;
            return Ok(fraction);
        }
        let length = (from..).take_while(|&place| self.digit_at(place)).count();
        let slash = from + length;
        if from == self.at
            || length == 0
            || self.sign_at(slash) != Some('/')
            || !self.digit_at(slash + 1)
        {
            return Ok(0.0);
        }
        let top: String = (from..slash)
            .filter_map(|place| self.sign_at(place))
            .collect();
        self.at = slash + 1;
        self.over(from, &top)
    }

    /// The value of a fraction whose upper number was read, at its lower number.
    fn over(&mut self, from: usize, top: &str) -> Result<f64, ReadError> {
        let mut bottom = String::new();
        while let Some(figure) = self.here().filter(char::is_ascii_digit) {
            bottom.push(figure);
            self.at += 1;
        }
        match (top.parse::<f64>(), bottom.parse::<f64>()) {
            (Ok(top), Ok(bottom))
                if bottom > 0.0 && !matches!(self.here(), Some('/' | '.' | ',')) =>
            {
                Ok(top / bottom)
            }
            _ => Err(self.error(self.word(from), |typed| ReadReason::NotANumber { typed })),
        }
    }

    /// The figures of a number with their points and commas, and an exponent; spaces and
    /// apostrophes between groups of three are left out.
    fn figures(&mut self) -> String {
        let mut figures = String::new();
        while let Some(figure) = self.here().filter(char::is_ascii_digit) {
            figures.push(figure);
            self.at += 1;
        }
        if (1..=3).contains(&figures.len()) {
            while self.group_behind() {
                figures.extend((1..=3).filter_map(|step| self.sign_at(self.at + step)));
                self.at += 4;
            }
        }
        while let Some(sign) = self.here() {
            let separates =
                matches!(sign, '.' | ',') && (self.digit_at(self.at + 1) || !figures.is_empty());
            if !(sign.is_ascii_digit() || separates) {
                break;
            }
            figures.push(sign);
            self.at += 1;
        }
        if self.here() == Some('e') && !figures.is_empty() {
            let sign = self
                .sign_at(self.at + 1)
                .filter(|sign| matches!(sign, '-' | '+'));
            let first = self.at + 1 + usize::from(sign.is_some());
            if self.digit_at(first) {
                figures.push('e');
                figures.extend(sign);
                self.at = first;
                while let Some(figure) = self.here().filter(char::is_ascii_digit) {
                    figures.push(figure);
                    self.at += 1;
                }
            }
        }
        figures
    }

    /// Whether a space or an apostrophe and exactly three figures follow that are no fraction: no inches behind feet have
    /// three.
    fn group_behind(&self) -> bool {
        matches!(self.here(), Some(' ' | '\''))
            && (1..=3).all(|step| self.digit_at(self.at + step))
            && !self.digit_at(self.at + 4)
            && self.sign_at(self.at + 4) != Some('/')
    }

    fn decimal(&self, from: usize, figures: &str) -> Result<f64, ReadError> {
        let place = if figures.is_empty() {
            self.word(from)
        } else {
            self.bytes(from, self.at)
        };
        let not_a_number = || self.error(place.clone(), |typed| ReadReason::NotANumber { typed });
        let (mantissa, exponent) = figures.split_once('e').unwrap_or((figures, "0"));
        let commas = mantissa.matches(',').count();
        let points = mantissa.matches('.').count();
        let plain = match (commas, points) {
            (0, 0 | 1) => mantissa.to_string(),
            (1, 0) if ambiguous(mantissa) => {
                return Err(self.error(place, |typed| ReadReason::TwoMeanings { typed }));
            }
            (1, 0) => mantissa.replace(',', "."),
            (0, _) => ungrouped(mantissa, '.').ok_or_else(not_a_number)?,
            (_, 0) => ungrouped(mantissa, ',').ok_or_else(not_a_number)?,
            (_, 1) if mantissa.rfind(',') < mantissa.rfind('.') => {
                let (whole, decimals) = mantissa.split_once('.').ok_or_else(not_a_number)?;
                format!(
                    "{}.{decimals}",
                    ungrouped(whole, ',').ok_or_else(not_a_number)?
                )
            }
            (1, _) => {
                let (whole, decimals) = mantissa.split_once(',').ok_or_else(not_a_number)?;
                format!(
                    "{}.{decimals}",
                    ungrouped(whole, '.').ok_or_else(not_a_number)?
                )
            }
            _ => return Err(not_a_number()),
        };
        format!("{plain}e{exponent}")
            .parse()
            .map_err(|_| not_a_number())
    }

    /// The unit at this place: the longest name that fits and is not cut out of a longer word.
    fn unit(&mut self) -> Result<Unit, ReadError> {
        let wanted = self.quantity;
        let own = self.longest(wanted);
        let other = Quantity::ALL
            .iter()
            .filter_map(|&measures| self.longest(measures).map(|(length, _)| (length, measures)))
            // The first of several that measure the same is the everyday one.
            .rev()
            .max_by_key(|(length, _)| *length);
        match (own, other) {
            (Some((length, unit)), other) if other.is_none_or(|(longer, _)| longer <= length) => {
                self.at += length;
                Ok(unit)
            }
            (_, Some((length, measures))) => {
                let place = self.bytes(self.at, self.at + length);
                Err(self.error(place, |typed| ReadReason::OtherQuantity {
                    typed,
                    measures,
                    wanted,
                }))
            }
            _ => Err(self.error(self.word(self.at), |typed| {
                if is_power(wanted) && APPARENT.contains(&typed.to_lowercase().as_str()) {
                    ReadReason::ApparentPower { typed, wanted }
                } else {
                    ReadReason::UnknownUnit { typed, wanted }
                }
            })),
        }
    }

    /// The longest unit name of a quantity at this place, with its length.
    fn longest(&self, quantity: Quantity) -> Option<(usize, Unit)> {
        quantity
            .units()
            .iter()
            .flat_map(|unit| {
                std::iter::once(&unit.symbol)
                    .chain(unit.names)
                    .filter_map(|name| self.name_length(name))
                    .map(move |length| (length, *unit))
            })
            .max_by_key(|(length, _)| *length)
    }

    fn name_length(&self, name: &str) -> Option<usize> {
        let mut to = self.at;
        for sign in name.chars().map(fold) {
            if self.sign_at(to) != Some(sign) {
                return None;
            }
            to += 1;
        }
        let closed = name.ends_with(['\'', '"', '°', '%', '.']);
        let next_is_free = self.sign_at(to).is_none_or(|next| {
            next == ' ' || next.is_ascii_digit() || vulgar_fraction(next).is_some()
        });
        (closed || next_is_free).then_some(to - self.at)
    }
}
