//! Which templates are printed in one go, and which are better printed alone or cut from their file.

use super::tiling::{Paper, Sheet, TilingError, page_count};
use crate::design::Design;
use crate::sizing::pattern::patterns;

/// A template of more pages than this is left out. Our own mark.
pub const MOST_PAGES: usize = 24;

/// The templates of a design, for the printer.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Together {
    /// Those that are printed in one go, by their place among all.
    pub places: Vec<usize>,
    /// Pages that they take.
    pub pages: usize,
    /// Those that are left out since they take too many: name and pages.
    pub left_out: Vec<(String, usize)>,
    /// Those that are left out since tape, square and compass draw them as well, by name.
    pub plain: Vec<String>,
}

/// What is printed in one go on this paper.
///
/// ```
/// use hearthplan::{design::Design, paper::{tiling::Paper, together::{MOST_PAGES, together}}};
/// let all = together(&Design::default(), Paper::A4);
/// assert!(!all.places.is_empty() && all.pages >= all.places.len());
/// assert!(all.plain.iter().any(|name| name == "Hearth jacket"));
/// assert!(all.left_out.iter().all(|(_, pages)| *pages > MOST_PAGES));
/// ```
pub fn together(design: &Design, paper: Paper) -> Together {
    let sheet = Sheet {
        paper,
        ..Sheet::default()
    };
    let mut all = Together::default();
    for (place, entry) in patterns(design).into_iter().enumerate() {
        let Ok(pattern) = entry.pattern else { continue };
        match page_count(&pattern, &sheet) {
            Ok(pages) if pattern.is_plain && pages > 1 => all.plain.push(entry.name),
            Ok(pages) if pages <= MOST_PAGES => {
                all.places.push(place);
                all.pages += pages;
            }
            Ok(pages) | Err(TilingError::TooManyPages(pages)) => {
                all.left_out.push((entry.name, pages));
            }
            Err(_) => {}
        }
    }
    all
}
