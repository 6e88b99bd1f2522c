//! The whole shell unrolled, with every hole and seam.

use super::saddle::hole_points;
use super::{Pattern, Reference, Use, at, mm, told};
use crate::design::inputs::Datum;
use crate::sizing::marking::{Mark, Marking};
use uom::si::angle::degree;
use uom::si::f64::Length;

/// How far apart the name of a line is written along it, mm.
const NAMES_APART: f64 = 80.0;

/// The wrap template: the shell unrolled, seen from outside, right way up. Its left and right edge
/// meet behind the widest stretch without a hole. Widths are along the outside of the shell.
///
/// ```
/// use hearthplan::{design::example, sizing::{marking::mark_out, pattern::wrap_template}};
/// let template = wrap_template(&mark_out(&example::as_improved()).unwrap());
/// assert!(template.bounds().width() > 1455.0);
/// ```
pub fn wrap_template(marking: &Marking) -> Pattern {
    let girth = mm(marking.vessel.girth);
    let length = mm(marking.vessel.length);
    let start = seam_of_paper(marking, girth);
    let place = |wrap: f64| (wrap - start).rem_euclid(girth);
    let mut pattern = Pattern::new(
        "Shell, unrolled",
        "Wrap it around the outside of the shell, printed side out, edges together, foot on the bottom \
         end. Widths are those of the shell's outside; thick paper makes it a little short. Pages without a hole are not \
         printed: draw the front line on the shell first, and set each page by the distances at its foot.",
    );
    if marking.vessel.below > Length::default() {
        let words = format!(
            " The bottom is dished: its bottom end is here where the straight shell begins, {} above its lowest point.",
            told(mm(marking.vessel.below))
        );
        pattern.note.push_str(&words);
    }
    pattern.rectangle(Use::Aid, at(0.0, 0.0), at(girth, length));
    let names =
        |long: f64| (0..(long / NAMES_APART) as u32).map(|name| NAMES_APART * f64::from(name));
    for (height, word) in marking.vessel.round_seams() {
        let y = mm(height);
        let seam = pattern.line(Use::Aid, at(0.0, y), at(girth, y));
        for along in names(girth) {
            pattern.name(seam, at(along + 3.0, y + 1.5), 4.0, word);
        }
    }
    let around = |angle: uom::si::f64::Angle| angle.value / std::f64::consts::TAU * girth;
    let long_seam =
        (!marking.seamless).then(|| (around(marking.long_seam), ["long seam", "the long seam"]));
    for (wrap, [word, name]) in [(0.0, ["front", "the front line"])]
        .into_iter()
        .chain(long_seam)
    {
        let x = place(wrap);
        let line = pattern.line(Use::Aid, at(x, 0.0), at(x, length));
        for down in names(length) {
            pattern.name(line, at(x + 1.5, length - 8.0 - down), 4.0, word);
        }
        pattern.upright.push(Reference { name, at: x });
    }
    pattern.level.push(Reference {
        name: match marking.tape_datum {
            Datum::BottomEnd => "the bottom end",
            Datum::LowerSeam => "the lower round seam",
            Datum::UpperSeam => "the upper round seam",
            Datum::TopEnd => "the top end",
        },
        at: mm(marking.tape_height()),
    });
    let elsewhere = on_other_walls(marking);
    if !elsewhere.is_empty() {
        let words = format!(
            " Not on it, since the wall they are drilled in has another width than the vessel: {}. Mark these by their angle.",
            elsewhere.join(", ")
        );
        pattern.note.push_str(&words);
    }
    for mark in on_the_vessel(marking) {
        let x = place(mm(mark.wrap_from_front));
        let y = mm(mark.above_bottom);
        let points = hole_points(&mark.cut, x, y);
        let right = points.iter().map(|point| point.x).fold(x, f64::max);
        let hole = pattern.outline(Use::Cut, points);
        pattern.cross(at(x, y), 5.0);
        // Whoever holds a page alone must see that it is not for the vessel in the workshop.
        let name = match marking.measured {
            true => mark.name.clone(),
            false => format!("{} (of the plan: measure your vessel)", mark.name),
        };
        pattern.name(hole, at(right + 2.0, y + 1.0), 4.0, name);
    }
    pattern.finished()
}

/// The holes that are drilled in the vessel itself.
fn on_the_vessel(marking: &Marking) -> impl Iterator<Item = &Mark> {
    (marking.marks.iter()).filter(|mark| mark.other_wall.is_none())
}

/// The others, with the angle they are marked by.
fn on_other_walls(marking: &Marking) -> Vec<String> {
    let told = |mark: &Mark| {
        let degrees = mark.angle.get::<degree>();
        Some(format!(
            "{} at {degrees:.1}° on the {}",
            mark.name, mark.other_wall?.name
        ))
    };
    marking.marks.iter().filter_map(told).collect()
}

/// Where the paper's edges meet, along the wrap from the front mark, mm: the middle of the widest
/// stretch that no hole reaches into; the back when there is none.
fn seam_of_paper(marking: &Marking, girth: f64) -> f64 {
    let mut spans: Vec<(f64, f64)> = on_the_vessel(marking)
        .map(|mark| {
            let middle = mm(mark.wrap_from_front);
            let points = hole_points(&mark.cut, middle, 0.0);
            let left = points.iter().map(|point| point.x).fold(middle, f64::min);
            let right = points.iter().map(|point| point.x).fold(middle, f64::max);
            (left, right)
        })
        .collect();
    spans.sort_by(|a, b| a.0.total_cmp(&b.0));
    let Some(first) = spans.first().copied() else {
        return 0.5 * girth;
    };
    // Once round, so that the stretch across the front mark is seen too.
    spans.push((first.0 + girth, first.1 + girth));
    let reach_back = spans
        .iter()
        .map(|span| span.1 - girth)
        .fold(f64::NEG_INFINITY, f64::max);
    let mut covered = first.1.max(reach_back);
    let (mut widest, mut at) = (0.0, 0.5 * girth);
    for (left, right) in spans {
        if left - covered > widest {
            widest = left - covered;
            at = 0.5 * (left + covered);
        }
        covered = covered.max(right);
    }
    at
}
