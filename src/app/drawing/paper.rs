//! The machine and its hearth as drawings that stand by themselves: in a sheet, in a file, black on white.

use super::hatch;
use super::ink::{self, Label, Only, View};
use super::scene::Scene;
use crate::app::markup::text;
use crate::design::Design;
use crate::design::quantity::System;
use crate::paper::sheets::Drawing;
use crate::review::Assessment;

/// The machine upright from the front. Attributes paint it where no stylesheet is; where the app's is,
/// that one wins.
pub fn on_paper(design: &Design, assessment: &Assessment, system: System) -> Drawing {
    let scene = Scene::of(design, assessment, None, View::Front, 0.0, system);
    // As tall as wide text needs on a sheet, not as on a small screen.
    let ink = Ink {
        lines: lines(&scene),
        labels: text(&ink::texts(scene.notes.labels.iter().filter(has_room))),
        size: 0.55 * scene.text_size,
        hatch: scene.text_size,
    };
    ink.drawing("machine", &scene.view_box(), scene.words)
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
        text(&ink::texts(&scene.notes.labels)),
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
