//! Letters beside the holes, and the key to them: full names would not fit between holes that lie close together.

use super::{Frame, SIGN, TEXT, WIDTH, front, middle, path, without_unit, write};
use crate::design::quantity::{Quantity, System};
use crate::paper::number::decimal;
use crate::paper::sheets::label_places::{self, Area, Ground};
use crate::sizing::marking::Marking;
use std::fmt::Write as _;

/// From line to line of the key, mm.
const LINE: f64 = 4.4;
/// Between its columns, mm.
const BETWEEN: f64 = 4.0;

/// Letters that nobody takes for figures: not I, not O.
const LETTERS: [char; 24] = [
    'A', 'B', 'C', 'D', 'E', 'F', 'G', 'H', 'J', 'K', 'L', 'M', 'N', 'P', 'Q', 'R', 'S', 'T', 'U',
    'V', 'W', 'X', 'Y', 'Z',
];

/// The letter of a hole: A to Z, then AA, AB and so on.
fn letter(place: usize) -> String {
    let last = LETTERS[place % LETTERS.len()];
    match (place / LETTERS.len()).checked_sub(1) {
        Some(before) => format!("{}{last}", letter(before)),
        None => last.to_string(),
    }
}

/// What each letter stands for, in columns below the drawing.
pub(super) struct Key {
    entries: Vec<String>,
    columns: usize,
}

impl Key {
    pub fn of(marking: &Marking, system: System) -> Self {
        let entries: Vec<String> = (marking.marks.iter().enumerate())
            .map(|(place, mark)| {
                // A sixteenth of an inch tells a hole too coarsely: a pipe would not go in.
                let across = without_unit(Quantity::Bore, 1000.0 * mark.diameter.value, system);
                format!("{}: {} ⌀{across}", letter(place), mark.name)
            })
            .collect();
        let longest = entries.iter().map(|entry| entry.chars().count()).max();
        let widest = SIGN * TEXT * longest.unwrap_or_default() as f64 + BETWEEN;
        let columns = (1..=4)
            .rev()
            .find(|columns| f64::from(*columns) * widest <= WIDTH);
        Self {
            entries,
            columns: columns.map_or(1, |columns| columns as usize),
        }
    }

    fn rows(&self) -> usize {
        self.entries.len().div_ceil(self.columns)
    }

    /// Of all lines together, mm.
    pub fn height(&self) -> f64 {
        LINE * self.rows() as f64
    }

    /// Writes it below this height, each column from top to bottom.
    pub fn write(&self, svg: &mut String, top: f64) {
        let (rows, width) = (self.rows(), WIDTH / self.columns as f64);
        for (place, entry) in self.entries.iter().enumerate() {
            let x = width * (place / rows) as f64;
            let y = top + LINE * (place % rows + 1) as f64 - 1.0;
            write(svg, x, y, "start", entry);
        }
    }
}

/// A letter beside each hole. Where it stands off it is underlined, or overlined below its hole, and a line runs from there
/// to the hole: so the two meet in any font.
pub(super) fn letters(svg: &mut String, marking: &Marking, frame: &Frame) {
    let sheet = Area {
        left: frame.x(0.0),
        top: frame.y(frame.length),
        right: frame.x(frame.girth),
        bottom: frame.y(0.0),
    };
    let spots: Vec<Area> = (marking.marks.iter())
        .map(|mark| {
            let (along, up) = middle(mark);
            let (x, y) = (frame.x(along), frame.y(up));
            let half = (500.0 * mark.diameter.value * frame.scale).max(2.5) + 0.5;
            Area {
                left: x - half,
                top: y - half,
                right: x + half,
                bottom: y + half,
            }
        })
        .collect();
    let front = front(marking, frame);
    let lines = [Area {
        left: front - 0.5,
        right: front + 0.5,
        ..sheet
    }];
    let seams = marking.vessel.round_seams().map(|(seam, _)| {
        let y = frame.y(seam.value * 1000.0);
        Area {
            top: y - 0.5,
            bottom: y + 0.5,
            ..sheet
        }
    });
    let taken: Vec<Area> = seams.collect();
    let ground = Ground {
        sheet,
        marks: &spots,
        taken: &taken,
        lines: &lines,
    };
    let names: Vec<String> = (0..spots.len()).map(letter).collect();
    let sizes: Vec<[f64; 2]> = (names.iter())
        .map(|name| [SIGN * TEXT * name.chars().count() as f64, TEXT + 0.5])
        .collect();
    let places = label_places::places(&ground, &sizes);
    for ((name, area), spot) in names.iter().zip(&places).zip(&spots) {
        if label_places::covers(area, &lines) {
            blank(svg, area);
        }
        let written = label_places::written(area, spot);
        write(svg, written.x, area.bottom - 1.0, written.anchor, name);
        if label_places::needs_line(area, spot, &spots) {
            let [from, to] = label_places::line(area, spot);
            let [x1, y1, x2, y2] = [from[0], from[1], to[0], to[1]].map(decimal);
            let [left, right] = [written.from, written.to].map(decimal);
            let way = format!("M{left} {y1}H{right}M{x1} {y1}L{x2} {y2}");
            path(svg, 0.18, "", &way);
        }
    }
}

/// Takes away what was drawn where a letter is to stand.
fn blank(svg: &mut String, area: &Area) {
    let [x, y] = [area.left, area.top].map(decimal);
    let [width, height] = [area.right - area.left, area.bottom - area.top].map(decimal);
    // Writing to a string cannot fail.
    let _ = write!(
        svg,
        "<rect x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\" fill=\"#fff\" stroke=\"none\"/>"
    );
}

/// Lines of a seam's name, one word on each.
const NAME_LINE: f64 = 3.6;
/// Heights of two names so far apart do not run into each other, mm.
const NAMES_APART: f64 = 12.0;
/// Above the middle of a name, mm.
const HALF_NAME: f64 = 5.5;

/// The names of the round seams, right of the shell, each at its seam.
pub(super) fn seam_names(svg: &mut String, marking: &Marking, frame: &Frame) {
    let x = frame.x(frame.girth) + 2.0;
    let mut lowest = f64::INFINITY;
    for (seam, name) in marking.vessel.round_seams() {
        let middle = (frame.y(seam.value * 1000.0)).min(lowest).max(HALF_NAME);
        lowest = middle - NAMES_APART;
        for (place, word) in name.split(' ').enumerate() {
            let y = middle + 1.1 + NAME_LINE * (place as f64 - 1.0);
            write(svg, x, y, "start", word);
        }
    }
}
