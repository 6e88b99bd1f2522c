//! The machine and its hearth as drawings that stand by themselves: in a sheet, in a file, black on white.

use super::hatch;
use super::ink::{self, Label, Only, View};
use super::notes::Notes;
use super::scene::{Scene, view_box};
use super::{build_front, build_plan};
use crate::app::markup::text;
use crate::design::Design;
use crate::design::quantity::System;
use crate::paper::sheets::Drawing;
use crate::review::Assessment;

/// How large the texts of a [`Sheet`] are, as a share of its text size.
pub(super) const LETTERS: f64 = 0.8;
/// That text size on paper, mm: capitals come out 2 mm high. ISO 3098-1 has 2.5 mm, and 1.8 mm for the smallest (from memory).
const ON_PAPER: f64 = 3.5;

/// The text size of a drawing, mm of the machine, so that it comes out on paper as it should: the room there, mm; and across
/// and upright each how large the machine is, mm, and what texts and lines take beside it, as a multiple of the text size.
pub(super) fn text_size(room: (f64, f64), across: (f64, f64), upright: (f64, f64)) -> f64 {
    let size = |room: f64, (machine, beside): (f64, f64)| {
        // Texts that would leave the machine no room leave it some.
        machine / (room / ON_PAPER - beside).max(0.2 * room / ON_PAPER)
    };
    size(room.0, across).max(size(room.1, upright)).max(1.0)
}

/// How wide paper of so many mm is in a drawing with this text size, mm of the machine.
pub(super) fn paper_width(room: f64, size: f64) -> f64 {
    size * room / ON_PAPER
}

/// A figure with dimensions, in millimetres.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Sheet {
    /// Left, right, lowest and highest point shown.
    pub bounds: (f64, f64, f64, f64),
    pub text_size: f64,
    pub notes: Notes,
    /// What is not written in it.
    pub words: String,
}

impl Sheet {
    pub fn view_box(&self) -> String {
        view_box(self.bounds)
    }

    /// The figure for a sheet or a file.
    pub fn on_paper(self, name: &str, title: &str) -> Drawing {
        let ink = Ink {
            lines: text(&ink::paths(&self.notes.strokes)),
            labels: text(&ink::texts(self.notes.labels.iter().filter(has_room))),
            size: LETTERS * self.text_size,
            hatch: self.text_size,
        };
        Drawing {
            is_captioned: true,
            ..ink.drawing(name, &self.view_box(), format!("{title}. {}", self.words))
        }
    }
}

/// The machine upright from the front with what the review says of it, then as it is built: from above, and from the front.
/// Attributes paint them where no stylesheet is; where the app's is, that one wins.
pub fn on_paper(design: &Design, assessment: &Assessment, system: System) -> [Drawing; 3] {
    let scene = Scene::of(design, assessment, None, View::Front, 0.0, system);
    let labels = |is_shown: fn(&&Label) -> bool| {
        text(&ink::texts(scene.notes.labels.iter().filter(is_shown)))
    };
    // As tall as wide text needs on a sheet, not as on a small screen: for that the stylesheet shows the narrow texts.
    let ink = Ink {
        lines: lines(&scene),
        labels: format!(
            "{}<g class=\"cramped\" display=\"none\">{}</g>",
            labels(has_room),
            labels(|label| !has_room(label))
        ),
        size: 0.6 * scene.text_size,
        hatch: scene.text_size,
    };
    [
        ink.drawing("machine", &scene.view_box(), scene.words.clone()),
        build_plan::sheet(design, assessment, system)
            .on_paper("machine-from-above", "The machine from above"),
        build_front::sheet(design, assessment, system)
            .on_paper("machine-from-the-front", "The machine from the front"),
    ]
}

/// A sheet has room for all on one line.
fn has_room(label: &&Label) -> bool {
    label.only != Only::Cramped
}
/// What is drawn, as SVG, and how large.
pub(super) struct Ink {
    pub lines: String,
    pub labels: String,
    /// Size of the texts, mm.
    pub size: f64,
    /// Step of the hatches, mm.
    pub hatch: f64,
}

impl Ink {
    /// The drawing that stands by itself.
    pub(super) fn drawing(self, name: &str, view_box: &str, words: String) -> Drawing {
        let Ink {
            lines,
            labels,
            size,
            hatch,
        } = self;
        let svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"plan {name}\" viewBox=\"{view_box}\">{}<g class=\"drawing\"><g \
             fill=\"none\" fill-rule=\"evenodd\" stroke=\"#000\" stroke-width=\"{:.2}\">{lines}</g><g fill=\"#000\" stroke=\"#fff\" \
             stroke-width=\"{:.2}\" paint-order=\"stroke\" font-family=\"sans-serif\" font-size=\"{size:.2}\">{labels}</g></g></svg>",
            hatch::patterns(hatch),
            size / 20.0,
            size / 5.0,
        );
        // Names of their own, since the drawing on the screen and others on paper are in the same page.
        let svg = svg
            .replace("url(#hatch-", &format!("url(#paper-{name}-hatch-"))
            .replace("id=\"hatch-", &format!("id=\"paper-{name}-hatch-"));
        Drawing {
            name: name.to_string(),
            svg,
            words,
            is_captioned: false,
        }
    }
}

/// The machine as the app shows it first, for the page to show before the app is there.
pub fn at_first(design: &Design, assessment: &Assessment, system: System) -> String {
    let scene = Scene::of(design, assessment, None, View::Front, 0.0, system);
    format!(
        "<svg viewBox=\"{}\" font-size=\"{:.1}\">{}{}{}</svg>",
        scene.view_box(),
        scene.text_size,
        hatch::patterns(scene.text_size),
        lines(&scene),
        text(&ink::texts(
            scene.notes.labels.iter().chain(&scene.drags.labels)
        )),
    )
}

/// Everything but the texts, from the ground up.
fn lines(scene: &Scene) -> String {
    let pieces = scene.touchables.iter().map(|piece| &piece.strokes);
    let rest = [
        &scene.contacts,
        &scene.fire,
        &scene.balance.strokes,
        &scene.notes.strokes,
    ];
    std::iter::once(&scene.ground)
        .chain(pieces)
        .chain(rest)
        .map(|strokes| text(&ink::paths(strokes)))
        .collect()
}
