//! The many ways to type one sign, and what commas and points between figures mean.

/// Brings the many ways to type one sign to one.
pub(super) fn fold(sign: char) -> char {
    match sign {
        '′' | '’' | '‘' | '´' | '`' | 'ʹ' => '\'',
        '″' | '”' | '“' | '„' | 'ʺ' => '"',
        '−' | '–' | '‐' | '‑' | '⁻' => '-',
        '⁄' | '∕' => '/',
        '¹' => '1',
        '²' | '₂' => '2',
        '³' => '3',
        '⋅' | '∙' | '•' | '*' | '×' => '·',
        'º' | '˚' => '°',
        'μ' => 'µ',
        '\u{200b}' | '\u{feff}' => ' ',
        space if space.is_whitespace() => ' ',
        other => other.to_ascii_lowercase(),
    }
}

/// Whether a text has a unit of its own, in whatever signs it is typed. The e of `1e3` is none.
///
/// ```
/// use hearthplan::design::quantity::names_a_unit;
/// for text in ["26 in", "26″", "2′ 2″", "20 %", "68 °F", "1e3 mm"] {
///     assert!(names_a_unit(text), "{text}");
/// }
/// for text in ["26", "1 1/2", "12,5", "1e3", "1E-3", "½", ""] {
///     assert!(!names_a_unit(text), "{text}");
/// }
/// ```
pub fn names_a_unit(text: &str) -> bool {
    let mut before = None;
    let mut signs = text.chars().map(fold).peekable();
    while let Some(sign) = signs.next() {
        let is_figure = |near: Option<char>| near.is_some_and(|near| near.is_ascii_digit());
        let next = signs.peek().copied();
        let is_exponent = sign == 'e'
            && is_figure(before)
            && (is_figure(next) || matches!(next, Some('-' | '+')));
        if !is_exponent && (sign.is_alphabetic() || matches!(sign, '"' | '\'' | '°' | '%')) {
            return true;
        }
        before = Some(sign);
    }
    false
}

/// The value of a fraction that is one character.
pub(super) fn vulgar_fraction(sign: char) -> Option<f64> {
    let (top, bottom) = match sign {
        '½' => (1.0, 2.0),
        '⅓' => (1.0, 3.0),
        '⅔' => (2.0, 3.0),
        '¼' => (1.0, 4.0),
        '¾' => (3.0, 4.0),
        '⅕' => (1.0, 5.0),
        '⅖' => (2.0, 5.0),
        '⅗' => (3.0, 5.0),
        '⅘' => (4.0, 5.0),
        '⅙' => (1.0, 6.0),
        '⅚' => (5.0, 6.0),
        '⅛' => (1.0, 8.0),
        '⅜' => (3.0, 8.0),
        '⅝' => (5.0, 8.0),
        '⅞' => (7.0, 8.0),
        _ => return None,
    };
    Some(top / bottom)
}

/// Whether a number with one comma could mean thousands: `1,200`, but not `0,125` or `1,5`.
pub(super) fn ambiguous(mantissa: &str) -> bool {
    mantissa.split_once(',').is_some_and(|(whole, rest)| {
        rest.len() == 3 && (1..=3).contains(&whole.len()) && !whole.starts_with('0')
    })
}

/// The figures without the separators of thousands, if those stand where they must.
pub(super) fn ungrouped(figures: &str, separator: char) -> Option<String> {
    let mut groups = figures.split(separator);
    let first = groups.next()?;
    let grouped = (1..=3).contains(&first.len()) && groups.all(|group| group.len() == 3);
    let plain = !figures.contains(separator) && !figures.is_empty();
    (grouped || plain).then(|| figures.replace(separator, ""))
}
