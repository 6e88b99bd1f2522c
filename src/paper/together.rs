//! Which templates are printed in one go, and which are better printed alone or cut from their file.

use super::tiling::{Paper, SharedPage, Sheet, TilingError, page_count, shared};
use crate::design::Design;
use crate::sizing::pattern::patterns;

/// A template of more pages than this is left out. Our own mark.
pub const MOST_PAGES: usize = 24;

/// The templates of a design, for the printer.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Together {
    /// Those that are printed in one go on pages of their own, by their place among all.
    pub places: Vec<usize>,
    /// The pages that small ones share.
    pub shared: Vec<SharedPage>,
    /// Pages that all these take.
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
/// assert!(!all.places.is_empty() && all.pages >= all.places.len() + all.shared.len());
/// assert!(all.plain.iter().any(|name| name == "Hearth jacket"));
/// assert!(all.left_out.iter().all(|(_, pages)| *pages > MOST_PAGES));
/// ```
pub fn together(design: &Design, paper: Paper) -> Together {
    let sheet = Sheet {
        paper,
        design: &design.about.name,
        ..Sheet::default()
    };
    let mut single = Vec::new();
    let mut all = Together::default();
    for (place, entry) in patterns(design).into_iter().enumerate() {
        let Ok(pattern) = entry.pattern else { continue };
        match page_count(&pattern, &sheet) {
            Ok(pages) if pattern.is_plain && pages > 1 => all.plain.push(entry.name),
            Ok(pages) if pages <= MOST_PAGES => {
                if pages == 1 {
                    single.push((place, pattern));
                }
                all.places.push(place);
                all.pages += pages;
            }
            Ok(pages) | Err(TilingError::TooManyPages(pages)) => {
                all.left_out.push((entry.name, pages));
            }
            Err(_) => {}
        }
    }
    all.shared = shared(&single, &sheet);
    let shares = |place: &usize| all.shared.iter().any(|page| page.places.contains(place));
    let before = all.places.len();
    all.places.retain(|place| !shares(place));
    all.pages = all.pages + all.places.len() + all.shared.len() - before;
    all
}
