//! Which words stand on which page.

use crate::sizing::pattern::{Bounds, Label, at};

/// How far a word may be moved to stand whole on a page, beyond its own width, mm.
const BEYOND: f64 = 10.0;

/// The words of each page. A word that no page shows whole is moved onto the nearest; one that is far from all, or that
/// stands whole elsewhere along its line, is left out.
pub(super) fn spread(labels: &[Label], windows: &[Bounds]) -> Vec<Vec<Label>> {
    let mut pages = vec![Vec::new(); windows.len()];
    for label in labels {
        let moves: Vec<[f64; 2]> = windows.iter().map(|window| into(label, window)).collect();
        if moves.contains(&[0.0, 0.0]) {
            for page in pages.iter_mut() {
                page.push(label.clone());
            }
            continue;
        }
        let is_told = (labels.iter()).any(|other| {
            other.text == label.text
                && (other.at.x == label.at.x || other.at.y == label.at.y)
                && windows
                    .iter()
                    .any(|window| into(other, window) == [0.0, 0.0])
        });
        if is_told {
            continue;
        }
        let nearest = (moves.iter().enumerate())
            .min_by(|(_, a), (_, b)| a[0].hypot(a[1]).total_cmp(&b[0].hypot(b[1])));
        if let Some((page, [along, up])) = nearest
            && along.hypot(*up) <= label.width() + BEYOND
            && let Some(page) = pages.get_mut(page)
        {
            page.push(Label {
                at: at(label.at.x + along, label.at.y + up),
                ..label.clone()
            });
        }
    }
    pages
}

/// The least move that brings a word into a window, mm to the right and upwards.
fn into(label: &Label, window: &Bounds) -> [f64; 2] {
    let least = |low: f64, high: f64, from: f64, to: f64| {
        if low < from {
            from - low
        } else {
            (to - high).min(0.0)
        }
    };
    let (x, y) = (label.at.x, label.at.y);
    [
        least(x, x + label.width(), window.left, window.right),
        least(y, y + label.height, window.low, window.high),
    ]
}
