//! The machine as a drawing that stands by itself: in a sheet, in a file, black on white.

use super::hatch;
use super::ink::{self, View};
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
    let size = 0.55 * scene.text_size;
    let thin = 0.05 * size;
    let lines = lines(&scene);
    let labels = text(&ink::texts(&scene.notes.labels));
    let svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"plan\" viewBox=\"{}\">{}<g class=\"drawing\"><g fill=\"none\" \
         stroke=\"#000\" stroke-width=\"{thin:.2}\">{lines}</g><g fill=\"#000\" stroke=\"#fff\" \
         stroke-width=\"{:.2}\" paint-order=\"stroke\" font-family=\"sans-serif\" font-size=\"{size:.2}\">{labels}</g></g></svg>",
        scene.view_box(),
        hatch::patterns(scene.text_size),
        size / 5.0,
    );
    // Names of their own, since the drawing on the screen is in the same page.
    let svg = svg
        .replace("url(#hatch-", "url(#paper-hatch-")
        .replace("id=\"hatch-", "id=\"paper-hatch-");
    Drawing {
        name: "machine".to_string(),
        svg,
        words: scene.words,
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
