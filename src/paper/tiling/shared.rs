//! Small templates on one page, each in a frame of its own with its name, its note and a cross at each corner.

use super::foot::{LETTER, LINE, SMALL, ground, wrapped};
use super::page::{ARM, head, written};
use super::{Sheet, labels};
use crate::paper::number::decimal;
use crate::paper::svg;
use crate::sizing::pattern::{Bounds, Pattern};
use std::fmt::Write as _;

/// Height of the foot, which has no note, mm.
const FOOT: f64 = 20.0;
/// One that takes more than this share of a page in height gets a page of its own.
const MOST_HIGH: f64 = 0.5;
/// From the lines of a template to its frame, mm.
const AROUND: f64 = 6.0;
/// From frame to frame, mm.
const APART: f64 = 4.0;
/// Least width of a frame, for the words in it, mm.
const LEAST_WIDE: f64 = 90.0;
/// Size of a name, and from line to line of it, mm.
const NAME: f64 = 4.0;
const NAME_LINE: f64 = 5.0;
/// Width of its letters, on the safe side, mm.
const NAME_LETTER: f64 = LETTER * NAME / SMALL;

/// A page with several templates, the paper upright.
#[derive(Debug, Clone, PartialEq)]
pub struct SharedPage {
    /// The templates on it, by the places that were given with them.
    pub places: Vec<usize>,
    /// The page as an SVG element, width and height in millimetres.
    pub svg: String,
}

/// The pages that small ones of these templates share, each template given with its place among all. What is too large
/// for that, or would be alone on its page, is on none of them.
///
/// ```
/// use hearthplan::design::inputs::Flange;
/// use hearthplan::paper::tiling::{Sheet, shared};
/// use hearthplan::sizing::pattern::flange;
/// let small = flange(&Flange::default()).unwrap();
/// let pages = shared(&[(3, small.clone()), (7, small)], &Sheet::default());
/// assert!(pages.iter().all(|page| page.places.len() > 1));
/// ```
pub fn shared(templates: &[(usize, Pattern)], sheet: &Sheet) -> Vec<SharedPage> {
    let paper = sheet.paper.upright();
    let room = [
        paper[0] - 2.0 * sheet.margin,
        paper[1] - 2.0 * sheet.margin - FOOT,
    ];
    let mut blocks: Vec<Block> = (templates.iter())
        .map(|(place, pattern)| Block::of(*place, pattern))
        .filter(|block| block.size[0] <= room[0] && block.size[1] <= MOST_HIGH * room[1])
        .collect();
    // Those in one row are then about as high.
    blocks.sort_by(|a, b| b.size[1].total_cmp(&a.size[1]));
    let mut pages: Vec<Laid> = Vec::new();
    for block in blocks {
        let spot = (pages.iter_mut()).find_map(|page| Some((page.spot(block.size, room)?, page)));
        if let Some((spot, page)) = spot {
            page.blocks.push((spot, block));
        } else {
            let mut page = Laid::default();
            if let Some(spot) = page.spot(block.size, room) {
                page.blocks.push((spot, block));
                pages.push(page);
            }
        }
    }
    pages.retain(|page| page.blocks.len() > 1);
    let count = pages.len();
    (pages.iter().enumerate())
        .map(|(at, page)| {
            let name = format!("Small templates: page {} of {count}", at + 1);
            page.drawn(sheet, paper, &name)
        })
        .collect()
}

/// A template with its words and its frame.
struct Block {
    place: usize,
    pattern: Pattern,
    /// What is drawn, mm of the template.
    window: Bounds,
    name: Vec<String>,
    note: Vec<String>,
    size: [f64; 2],
}

impl Block {
    fn of(place: usize, pattern: &Pattern) -> Self {
        let pattern = pattern.bare();
        let bounds = pattern.bounds();
        let window = Bounds {
            left: bounds.left - AROUND,
            low: bounds.low - AROUND,
            right: bounds.right + AROUND,
            high: bounds.high + AROUND,
        };
        let width = window.width().max(LEAST_WIDE);
        let letters = |letter: f64| ((width - AROUND) / letter) as usize;
        let name = wrapped(&pattern.name, letters(NAME_LETTER));
        let note = wrapped(&pattern.note, letters(LETTER));
        let words = NAME_LINE * name.len() as f64 + LINE * note.len() as f64;
        Self {
            place,
            size: [width, window.height() + words + 0.5 * AROUND],
            pattern,
            window,
            name,
            note,
        }
    }

    /// The template in its frame, with its upper left corner here.
    fn drawn(&self, [x, y]: [f64; 2]) -> String {
        let windows = [self.window];
        let words = labels::spread(&self.pattern, &windows).pop();
        let words = words.unwrap_or_default();
        let mut drawn = svg::window(&self.pattern, &self.window, [x, y], &words);
        let [wide, high] = self.size;
        // Writing to a String cannot fail.
        let _ = write!(
            drawn,
            "<g data-layer=\"PAGE\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.15\">\
             <rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" stroke-dasharray=\"2 2\"/>",
            decimal(x),
            decimal(y),
            decimal(wide),
            decimal(high)
        );
        let (right, low) = (x + self.window.width(), y + self.window.height());
        for across in [x + AROUND, right - AROUND] {
            for down in [y + AROUND, low - AROUND] {
                let _ = write!(
                    drawn,
                    "<path d=\"M{} {}H{}M{} {}V{}\"/>",
                    decimal(across - ARM),
                    decimal(down),
                    decimal(across + ARM),
                    decimal(across),
                    decimal(down - ARM),
                    decimal(down + ARM)
                );
            }
        }
        drawn.push_str("</g><g data-layer=\"PAGE\">");
        let left = x + 0.5 * AROUND;
        let lines = (self.name.iter().map(|line| (line, NAME, NAME_LINE)))
            .chain(self.note.iter().map(|line| (line, SMALL, LINE)));
        let mut foot = low;
        for (line, letters, high) in lines {
            foot += high;
            drawn.push_str(&written([left, foot - 1.0], letters, line));
        }
        drawn.push_str("</g>");
        drawn
    }
}

/// Frames from left to right.
struct Row {
    top: f64,
    high: f64,
    taken: f64,
}

/// A page with what lies on it, row below row, and where.
#[derive(Default)]
struct Laid {
    rows: Vec<Row>,
    blocks: Vec<([f64; 2], Block)>,
}

impl Laid {
    /// Room for a frame no higher than those before it, which is then taken.
    fn spot(&mut self, [wide, high]: [f64; 2], room: [f64; 2]) -> Option<[f64; 2]> {
        if let Some(row) = (self.rows.iter_mut()).find(|row| row.taken + wide <= room[0]) {
            let left = row.taken;
            row.taken += wide + APART;
            return Some([left, row.top]);
        }
        let top = (self.rows.last()).map_or(0.0, |row| row.top + row.high + APART);
        (top + high <= room[1]).then(|| {
            self.rows.push(Row {
                top,
                high,
                taken: wide + APART,
            });
            [0.0, top]
        })
    }

    fn drawn(&self, sheet: &Sheet, paper: [f64; 2], name: &str) -> SharedPage {
        let mut svg = head(paper);
        for ([x, y], block) in &self.blocks {
            svg.push_str(&block.drawn([sheet.margin + x, sheet.margin + y]));
        }
        svg.push_str("<g data-layer=\"PAGE\">");
        svg.push_str(&ground(sheet, paper, name));
        svg.push_str("</g></svg>");
        SharedPage {
            places: self.blocks.iter().map(|(_, block)| block.place).collect(),
            svg,
        }
    }
}
