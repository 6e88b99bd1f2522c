//! Small templates share a page when all are printed in one go.

use hearthplan::design::{Design, example};
use hearthplan::paper::tiling::{Paper, SharedPage, Sheet, page_count};
use hearthplan::paper::together::{MOST_PAGES, Together, together};
use hearthplan::sizing::pattern::patterns;

/// A rectangle: left, top, width and height, mm of the page.
type Area = [f64; 4];

fn numbers(element: &str, names: [&str; 4]) -> Area {
    names.map(|name| {
        let (_, rest) = element.split_once(&format!(" {name}=\"")).unwrap();
        rest.split('"').next().unwrap().parse().unwrap()
    })
}

fn areas(page: &SharedPage, tag: &str) -> Vec<Area> {
    let elements = page.svg[1..].split(tag).skip(1);
    elements
        .map(|element| numbers(element, ["x", "y", "width", "height"]))
        .collect()
}

/// All designs on both papers, with what is printed of them in one go.
fn printed() -> Vec<(Design, Paper, Together)> {
    let designs = [
        Design::default(),
        example::as_first_drawn(),
        example::as_improved(),
        example::to_start_from(),
    ];
    (designs.into_iter())
        .flat_map(|design| {
            [Paper::A4, Paper::Letter].map(|paper| {
                let all = together(&design, paper);
                (design.clone(), paper, all)
            })
        })
        .collect()
}

#[test]
fn each_template_is_printed_once_and_on_fewer_pages_than_one_each() {
    let mut all_saved = 0;
    for (design, paper, all) in printed() {
        let sheet = Sheet {
            paper,
            ..Sheet::default()
        };
        let (mut wanted, mut each) = (Vec::new(), 0);
        for (place, entry) in patterns(&design).into_iter().enumerate() {
            let Ok(pattern) = entry.pattern else { continue };
            let pages = page_count(&pattern, &sheet).unwrap_or(usize::MAX);
            if pages <= MOST_PAGES && !(pattern.is_plain && pages > 1) {
                wanted.push(place);
                each += pages;
            }
        }
        let shared = all.shared.iter().flat_map(|page| &page.places);
        let mut found: Vec<usize> = all.places.iter().chain(shared).copied().collect();
        found.sort_unstable();
        assert_eq!(found, wanted);
        let saved: usize = all.shared.iter().map(|page| page.places.len() - 1).sum();
        assert_eq!(all.pages, each - saved);
        all_saved += saved;
    }
    assert!(all_saved >= 12, "{all_saved}");
}

#[test]
fn a_shared_page_has_one_check_line_and_frames_clear_of_each_other() {
    for (design, paper, all) in printed() {
        let [width, height] = match paper {
            Paper::A4 => [210.0, 297.0],
            Paper::Letter => [215.9, 279.4],
        };
        for page in &all.shared {
            assert_eq!(page.svg.matches("data-check=\"100\"").count(), 1);
            assert!(
                page.svg
                    .contains(&format!("width=\"{width}mm\" height=\"{height}mm\""))
            );
            assert!(page.svg.contains(&format!(">{}<", design.about.name)));
            let frames = areas(page, "<rect");
            assert_eq!(frames.len(), page.places.len());
            assert!(frames.len() > 1);
            for (at, [left, top, wide, high]) in frames.iter().enumerate() {
                assert!(
                    *left >= 10.0 && left + wide <= width - 10.0 + 1e-6,
                    "{frames:?}"
                );
                assert!(
                    *top >= 10.0 && top + high <= height - 30.0 + 1e-6,
                    "{frames:?}"
                );
                for other in &frames[at + 1..] {
                    let apart = left + wide < other[0]
                        || other[0] + other[2] < *left
                        || top + high < other[1]
                        || other[1] + other[3] < *top;
                    assert!(apart, "{frames:?}");
                }
            }
        }
    }
}

#[test]
fn a_template_on_a_shared_page_is_whole_at_true_size_with_its_words() {
    let mut shared = 0;
    for (design, _, all) in printed() {
        let entries = patterns(&design);
        for page in &all.shared {
            let windows = areas(page, "<svg");
            let frames = areas(page, "<rect");
            let texts = page.svg.split("<text").skip(1);
            let texts = texts.filter_map(|text| text.split_once('>')?.1.split_once('<'));
            let told = texts.map(|(text, _)| text).collect::<Vec<_>>().join(" ");
            for ((place, window), frame) in page.places.iter().zip(windows).zip(frames) {
                let pattern = entries[*place].pattern.clone().unwrap().bare();
                let bounds = pattern.bounds();
                let [left, top, wide, high] = window;
                // A cross of 3 mm at each corner is inside as well.
                assert!(wide >= bounds.width() + 6.0 && high >= bounds.height() + 6.0);
                assert!(left >= frame[0] && left + wide <= frame[0] + frame[2] + 1e-6);
                assert!(top >= frame[1] && top + high <= frame[1] + frame[3] + 1e-6);
                let at = format!("x=\"{left}\" y=\"{top}\" width=\"{wide}\" height=\"{high}\"");
                let (_, rest) = page.svg.split_once(&at).unwrap_or_else(|| panic!("{at}"));
                let view = rest.split('"').nth(1).unwrap();
                let size = format!(" {wide} {high}");
                assert!(view.ends_with(&size), "{view} shows {size}");
                for words in [&pattern.name, &pattern.note] {
                    assert!(told.contains(words.as_str()), "{words}: {told}");
                }
                shared += 1;
            }
        }
    }
    assert!(shared > 20, "{shared}");
}
