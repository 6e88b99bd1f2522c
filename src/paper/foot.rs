//! What stands at the foot of each page of the sheets: the sheet, the design, and which page of all it is.
//!
//! A stylesheet for the printer, made anew for each print, since names of sheets and designs are in it.

use super::sheet::Sheet;
use super::tiling::Paper;
use std::fmt::Write as _;

/// Edge that is left white around a page, and holds its foot, mm.
const MARGIN: f64 = 14.0;

/// The style rules for the pages of these sheets; each stands in an element with its name as `data-page`.
///
/// ```
/// use hearthplan::paper::{foot, sheet::Sheet, tiling::Paper};
/// let sheet = Sheet::new("wiring", "Wiring", "", &[]);
/// let rules = foot::rules("Shed", [&sheet], Paper::A4);
/// assert!(rules.contains("size:210mm 297mm") && rules.contains("counter(pages)"));
/// assert!(rules.contains("@page on-wiring{@bottom-left{content:\"Wiring\"}}"));
/// ```
pub fn rules<'a>(
    design: &str,
    sheets: impl IntoIterator<Item = &'a Sheet>,
    paper: Paper,
) -> String {
    let [width, height] = paper.upright();
    let mut rules = format!(
        "@page{{size:{width}mm {height}mm;margin:{MARGIN}mm;font:8pt sans-serif;color:#333;\
         @bottom-center{{content:{}}}\
         @bottom-right{{content:\"Page \" counter(page) \" of \" counter(pages);white-space:nowrap}}}}",
        quoted(design)
    );
    for sheet in sheets {
        // Writing to a string cannot fail.
        let _ = write!(
            rules,
            "@page on-{name}{{@bottom-left{{content:{title}}}}}[data-page=\"{name}\"]{{page:on-{name}}}",
            name = sheet.name,
            title = quoted(sheet.title)
        );
    }
    rules
}

/// A text that a stylesheet takes as it is, whatever signs are in it.
fn quoted(text: &str) -> String {
    let mut quoted = String::from("\"");
    for sign in text.chars() {
        if sign.is_alphanumeric() || sign == ' ' {
            quoted.push(sign);
        } else {
            let _ = write!(quoted, "\\{:x} ", u32::from(sign));
        }
    }
    quoted.push('"');
    quoted
}

#[cfg(test)]
mod tests {
    use super::quoted;

    #[test]
    fn no_name_ends_its_text() {
        assert_eq!(quoted("My machine"), "\"My machine\"");
        assert_eq!(
            quoted("a\"}</style>\n\\"),
            "\"a\\22 \\7d \\3c \\2f style\\3e \\a \\5c \""
        );
    }
}
