//! What a tap means: a thumb is three times as wide as a line of text is high, and wider than most walls.

use super::ink::Leads;
use leptos::prelude::document;
use std::f64::consts::TAU;
use wasm_bindgen::JsCast as _;
use web_sys::{DomRect, Element, MouseEvent};

/// How far beside a label a tap still means it, px: with the height of a line this makes a place of 44.
const REACH: f64 = 15.0;
/// How far around a tap a part of the machine is looked for, px, nearest first: half of a place of 44.
const AROUND: [f64; 7] = [0.0, 3.0, 6.0, 9.0, 13.0, 17.0, 22.0];
/// In how many directions.
const DIRECTIONS: u32 = 16;
/// How far inside of what a wall encloses a tap still means the wall, px.
const WALL: f64 = 9.0;
/// How far a finger may slide in a tap, px; more was a drag.
const SLIP: f64 = 6.0;

/// What was tapped.
pub enum Meant {
    /// A label that leads somewhere.
    Label(String),
    /// A piece of the machine, by its element.
    Piece(Element),
}

/// What a tap means that began at a place of the window: what was hit, or else the nearest.
pub fn meant(event: &MouseEvent, (from_x, from_y): (f64, f64)) -> Option<Meant> {
    let target = event.target()?.dyn_into::<Element>().ok()?;
    let label = target.closest("text").ok().flatten();
    let label = label.and_then(|text| text.get_attribute(Leads::ATTRIBUTE));
    if let Some(leads) = label.filter(|leads| !leads.is_empty()) {
        return Some(Meant::Label(leads));
    }
    // Not by a pointer: there is no place to look around.
    if event.detail() == 0 {
        return target.closest(".piece").ok().flatten().map(Meant::Piece);
    }
    let at = (f64::from(event.client_x()), f64::from(event.client_y()));
    if (at.0 - from_x).hypot(at.1 - from_y) > SLIP {
        return None;
    }
    let svg = target.closest("svg").ok().flatten()?;
    let piece = nearest_piece(&svg, at);
    let label = match piece {
        Some((0.0, _)) => None,
        _ => nearest_label(&svg, at),
    };
    match (piece, label) {
        (Some((far, piece)), Some((near, _))) if far < near => Some(Meant::Piece(piece)),
        (_, Some((_, leads))) => Some(Meant::Label(leads)),
        (Some((_, piece)), None) => Some(Meant::Piece(piece)),
        (None, None) => None,
    }
}

/// The label within reach, and how far it is.
fn nearest_label(svg: &Element, at: (f64, f64)) -> Option<(f64, String)> {
    let texts = svg.get_elements_by_tag_name("text");
    (0..texts.length())
        .filter_map(|place| texts.item(place))
        .filter_map(|text| {
            let leads = text.get_attribute(Leads::ATTRIBUTE)?;
            let distance = distance(&text.get_bounding_client_rect(), at)?;
            (!leads.is_empty() && distance <= REACH).then_some((distance, leads))
        })
        .min_by(|(one, _), (other, _)| one.total_cmp(other))
}

/// The piece within reach, and how far the tap was from the first one: a wall wins over what it encloses.
fn nearest_piece(svg: &Element, (x, y): (f64, f64)) -> Option<(f64, Element)> {
    let mut enclosed: Option<(f64, Element)> = None;
    for radius in AROUND {
        if (enclosed.as_ref()).is_some_and(|(first, _)| radius > first + WALL) {
            break;
        }
        let directions = if radius > 0.0 { DIRECTIONS } else { 1 };
        for direction in 0..directions {
            let (sin, cos) = (TAU * f64::from(direction) / f64::from(directions)).sin_cos();
            let Some(piece) = piece_at(svg, (x + radius * cos, y + radius * sin)) else {
                continue;
            };
            let first = (enclosed.as_ref()).map_or(radius, |(first, _)| *first);
            if !matches!(piece.query_selector("path.fill"), Ok(Some(_))) {
                return Some((first, piece));
            }
            if enclosed.is_none() {
                enclosed = Some((radius, piece));
            }
        }
    }
    enclosed
}

/// The uppermost piece of a figure at a place of the window, whatever lies over it.
fn piece_at(svg: &Element, (x, y): (f64, f64)) -> Option<Element> {
    // The browser takes places as single numbers.
    let hit = document().elements_from_point(x as f32, y as f32);
    hit.iter()
        .filter_map(|element| element.dyn_into::<Element>().ok())
        .filter_map(|element| element.closest(".piece").ok().flatten())
        .find(|piece| svg.contains(Some(piece)))
}

/// How far a point lies outside a box; none where the box is not shown.
fn distance(shown: &DomRect, (x, y): (f64, f64)) -> Option<f64> {
    let outside = |at: f64, from: f64, to: f64| (from - at).max(at - to).max(0.0);
    (shown.width() > 0.0).then(|| {
        outside(x, shown.left(), shown.right()).hypot(outside(y, shown.top(), shown.bottom()))
    })
}
