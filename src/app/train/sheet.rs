//! Lays the train out as a column: signs on the left, what is known beside them.

use super::chain::{Chain, Point, Station};
use super::pen::{Pen, TOOL, wrapped};
use super::symbols::{self, Symbol};
use crate::app::markup::{Node, text};
use crate::app::verdicts::mark;
use crate::review::Verdict;

/// Width of the figure in pixels: a phone shows it at its own size.
pub const WIDTH: f64 = 330.0;
/// A thumb's width.
const THUMB: f64 = 44.0;
/// The line the gas goes along, and where texts begin.
const AXIS: f64 = 62.0;
const TEXT: f64 = 104.0;
/// Height of a sign, of the piece of pipe between two, and of a line of text.
const SIGN: f64 = 72.0;
const BETWEEN: f64 = 46.0;
const LINE: f64 = 17.0;
/// Height that may stand empty below the figure.
const SPARE: f64 = SIGN + 2.0 * BETWEEN;
/// Signs in a line: names stand beside the buttons.
const NAME_SIGNS: usize = 16;
const LINE_SIGNS: usize = 33;

/// Between two columns on paper, and what the pipe from one to the other takes above and below them.
const GAP: f64 = 24.0;

/// The figure: its elements and its height.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    pub elements: Vec<Node>,
    pub height: f64,
}

/// The train in one column, and for each stage where the pipe to it begins.
struct Column {
    sheet: Sheet,
    starts: Vec<f64>,
}

impl Column {
    /// Elements before the pipe to the first stage, and those for each stage.
    const HEAD: usize = 2;
    const A_STAGE: usize = 2;

    /// The elements in two columns of about the same height, and the size of both together.
    fn in_two(self) -> (Vec<Node>, [f64; 2]) {
        let Self { sheet, starts } = self;
        let Sheet {
            elements: mut first,
            height,
        } = sheet;
        let mut starts = starts.into_iter().enumerate();
        let Some((place, top)) = starts.find(|(_, y)| *y >= height / 2.0) else {
            return (first, [WIDTH, height]);
        };
        let second = first.split_off((Self::HEAD + Self::A_STAGE * place).min(first.len()));
        let column = |x: f64, y: f64, elements: Vec<Node>| {
            let place = format!("translate({x:.1} {y:.1})");
            elements
                .into_iter()
                .fold(Node::new("g").with("transform", place), Node::holding)
        };
        let (middle, right) = (WIDTH + GAP / 2.0, WIDTH + GAP);
        let pipe = format!(
            "M{AXIS} {:.1}v{:.1}H{middle}V{:.1}H{:.1}V{GAP}",
            GAP + top,
            GAP / 2.0,
            GAP / 2.0,
            right + AXIS
        );
        let columns = vec![
            column(0.0, GAP, first),
            Node::new("path").with("class", "flow").with("d", pipe),
            column(right, GAP - top, second),
        ];
        let height = top.max(height - top) + 2.0 * GAP;
        (columns, [right + WIDTH, height])
    }
}

/// The height to show a figure with that was shown with another height before: the same where that leaves little
/// empty, since at every change the browser measures all texts anew.
pub fn steady(before: Option<f64>, needed: f64) -> f64 {
    before
        .filter(|before| (needed..needed + SPARE).contains(before))
        .unwrap_or(needed)
}

/// Draws the train on the screen; `open` is the stage whose inputs stand open.
pub fn draw(chain: &Chain, open: Option<usize>) -> Sheet {
    drawn(chain, open, Pen::new(false)).sheet
}

/// The train as a drawing that stands by itself, in two columns, so that its words are large enough to read. The element
/// within is what the stylesheet of the screen knows; where there is none, the attributes paint it.
pub fn on_paper(chain: &Chain) -> String {
    let (elements, [width, height]) = drawn(chain, None, Pen::new(true)).in_two();
    let markup = text(&elements);
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"plan\" viewBox=\"0 0 {width} {height:.0}\"><g class=\"train\"><svg \
         class=\"plan\" width=\"{width}\" height=\"{height:.0}\" viewBox=\"0 0 {width} {height:.0}\" fill=\"none\" stroke=\"#000\" \
         stroke-width=\"1.5\" font-family=\"sans-serif\" font-size=\"13\">{markup}</svg></g></svg>"
    )
}

fn drawn(chain: &Chain, open: Option<usize>, mut pen: Pen) -> Column {
    let mut tone = tone(chain.start.as_ref());
    pen.button(
        "hearth",
        0,
        "Hearth: open the gas at the outlet",
        "stage",
        [0.0, 0.0, WIDTH, SIGN],
    );
    sign(&mut pen, &symbols::HEARTH, SIGN / 2.0, "idle", tone);
    pen.end();
    pen.text("name", TEXT, 0.5 * SIGN, "Hearth");
    let mut y = SIGN;
    let mut before = chain.start.as_ref();
    let last = chain.stations.len().saturating_sub(1);
    let mut starts = Vec::new();
    for (index, station) in chain.stations.iter().enumerate() {
        starts.push(y);
        pen.begin("between", y);
        between(&mut pen, before, index, tone);
        pen.end();
        y += BETWEEN;
        let after = self::tone(station.behind.as_ref());
        let row = Row {
            station,
            index,
            stages: last,
            before: tone,
            after,
        };
        pen.begin_about(&station.name, "row", y);
        y += row.draw(&mut pen, chain.to_flare, open == Some(index));
        pen.end();
        before = station.behind.as_ref();
        tone = match (
            chain.to_flare && station.is_blower(),
            station.stage.is_some(),
        ) {
            (true, _) => "idle",
            _ => after,
        };
        if tone == "idle" {
            before = None;
        }
    }
    Column {
        sheet: Sheet {
            elements: pen.finish(),
            height: y,
        },
        starts,
    }
}

/// How a pipe is drawn that holds this gas.
fn tone(point: Option<&Point>) -> &'static str {
    match point {
        Some(point) if point.hot => "hot",
        Some(_) => "cool",
        None => "idle",
    }
}

/// A sign with the pipes in and out.
fn sign(pen: &mut Pen, symbol: &Symbol, y: f64, before: &str, after: &str) {
    pen.path(&format!("flow {before}"), symbol.inlet, AXIS, y);
    pen.path(&format!("flow {after}"), symbol.outlet, AXIS, y);
    pen.path("body", symbol.body, AXIS, y);
    for inside in symbol.inside {
        pen.path("inside", inside, AXIS, y);
    }
}

/// The pipe between two stages with the numbers of its gas, and the place for another stage.
fn between(pen: &mut Pen, point: Option<&Point>, index: usize, tone: &str) {
    pen.path(
        &format!("flow {tone}"),
        &format!("M0 0V{BETWEEN}"),
        AXIS,
        0.0,
    );
    pen.path(
        &format!("arrow {tone}"),
        symbols::ARROW,
        AXIS,
        BETWEEN / 2.0,
    );
    let label = format!("Add a stage at place {}", index + 1);
    pen.button("add", index, &label, TOOL, [0.0, 1.0, THUMB, THUMB]);
    pen.path("body", "M-6 0H6M0-6V6", THUMB / 2.0, BETWEEN / 2.0);
    pen.end();
    let Some(point) = point else {
        return;
    };
    if point.drops {
        pen.path("drop", symbols::DROP, AXIS + 18.0, BETWEEN / 2.0);
    }
    pen.text(&format!("degrees {tone}"), TEXT, 18.0, &point.temperature);
    pen.text("number", TEXT + 80.0, 18.0, &point.pressure);
    pen.text("number", TEXT, 36.0, &point.flow);
    pen.text("number", TEXT + 80.0, 36.0, &point.water);
}

struct Row<'a> {
    station: &'a Station,
    index: usize,
    /// Number of stages, the engine not counted.
    stages: usize,
    before: &'static str,
    after: &'static str,
}

impl Row<'_> {
    /// Draws the row, from its upper edge, and gives its height.
    fn draw(&self, pen: &mut Pen, to_flare: bool, open: bool) -> f64 {
        let Row { station, index, .. } = self;
        let does = wrapped(&station.does, LINE_SIGNS);
        let remarks: Vec<(Option<Verdict>, Vec<String>)> = (station.remarks.iter())
            .map(|remark| (remark.verdict, remark.words))
            .chain((station.trouble.iter()).map(|trouble| (Some(Verdict::Stop), trouble.as_str())))
            .map(|(verdict, words)| (verdict, wrapped(words, LINE_SIGNS - 3)))
            .collect();
        let lines = does.len() + remarks.iter().map(|(_, lines)| lines.len()).sum::<usize>();
        let height = (THUMB + LINE * lines as f64 + 8.0).max(SIGN);
        let act = if station.stage.is_some() {
            "open"
        } else {
            "engine"
        };
        let label = format!("{}. Open its numbers", station.words());
        let class = if open { "stage chosen" } else { "stage" };
        pen.button(act, *index, &label, class, [0.0, 0.0, WIDTH, height]);
        let symbol = station
            .stage
            .as_ref()
            .map_or(symbols::ENGINE, symbols::symbol);
        if station.is_blower() {
            let lit = if to_flare { self.after } else { "idle" };
            pen.path(&format!("flow {lit}"), symbols::FLARE[0], AXIS, SIGN / 2.0);
            pen.path(
                if to_flare { "flame" } else { "inside" },
                symbols::FLARE[1],
                AXIS,
                SIGN / 2.0,
            );
        }
        let onward = if to_flare && station.is_blower() {
            "idle"
        } else {
            self.after
        };
        sign(pen, &symbol, SIGN / 2.0, self.before, onward);
        if station.stage.is_some() && height > SIGN {
            let pipe = format!("M0 0V{:.1}", height - SIGN);
            pen.path(&format!("flow {onward}"), &pipe, AXIS, SIGN);
        }
        pen.end();
        if station.stage.is_some() {
            self.movers(pen);
        }
        let name = wrapped(&station.name, NAME_SIGNS);
        let first = if name.len() > 1 { 18.0 } else { 27.0 };
        for (line, words) in name.iter().take(2).enumerate() {
            pen.text("name", TEXT, first + LINE * line as f64, words);
        }
        let mut below = THUMB + 12.0;
        for words in &does {
            pen.text("number", TEXT, below, words);
            below += LINE;
        }
        for (verdict, lines) in &remarks {
            pen.begin("said", below);
            remark(pen, *verdict, lines);
            pen.end();
            below += LINE * lines.len() as f64;
        }
        height
    }

    /// The buttons that move the stage.
    fn movers(&self, pen: &mut Pen) {
        let ways = [
            (
                "up",
                "M-5 1L0-6L5 1M0-5V7",
                WIDTH - 2.0 * THUMB,
                self.index > 0,
            ),
            (
                "down",
                "M-5-1L0 6L5-1M0 5V-7",
                WIDTH - THUMB,
                self.index + 1 < self.stages,
            ),
        ];
        for (way, arrow, x, possible) in ways {
            if possible {
                let label = format!("Move {} {way}", self.station.name);
                pen.button(way, self.index, &label, TOOL, [x, 0.0, THUMB, THUMB]);
                pen.path("body", arrow, x + THUMB / 2.0, THUMB / 2.0);
                pen.end();
            }
        }
    }
}

/// Shape and words of a remark; without a verdict its words alone.
fn remark(pen: &mut Pen, verdict: Option<Verdict>, lines: &[String]) {
    let class = verdict.map_or("", mark::class);
    let mut room = 0.0;
    if let Some(verdict) = verdict {
        let (outline, stroke) = mark::shape(verdict);
        room = 22.0;
        pen.small(
            &format!("remark {class}"),
            &[("mark-outline", outline), ("mark-sign", stroke)],
            TEXT,
            -13.0,
        );
    }
    for (line, words) in lines.iter().enumerate() {
        pen.text(
            &format!("number {class}"),
            TEXT + room,
            LINE * line as f64,
            words,
        );
    }
}
