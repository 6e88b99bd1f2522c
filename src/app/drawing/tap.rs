//! Which label a tap means: a thumb is three times as wide as a line of text is high.

use super::ink::Leads;
use wasm_bindgen::JsCast as _;
use web_sys::{DomRect, Element, MouseEvent};

/// How far beside a label a tap still means it, px: with the height of a line this makes a place of 44.
const REACH: f64 = 15.0;

/// Where the label leads that was tapped: the one that was hit, or, where nothing was hit that answers by itself, the
/// nearest within reach.
pub fn leads(event: &MouseEvent) -> Option<String> {
    let target = event.target()?.dyn_into::<Element>().ok()?;
    let hit = target.closest("text").ok().flatten();
    let hit = hit.and_then(|text| text.get_attribute(Leads::ATTRIBUTE));
    if let Some(hit) = hit.filter(|leads| !leads.is_empty()) {
        return Some(hit);
    }
    if target.closest(".piece, .grip").ok()?.is_some() {
        return None;
    }
    let at = (f64::from(event.client_x()), f64::from(event.client_y()));
    let texts = target
        .closest("svg")
        .ok()??
        .get_elements_by_tag_name("text");
    (0..texts.length())
        .filter_map(|place| texts.item(place))
        .filter_map(|text| {
            let leads = text.get_attribute(Leads::ATTRIBUTE)?;
            let distance = distance(&text.get_bounding_client_rect(), at)?;
            (!leads.is_empty() && distance <= REACH).then_some((distance, leads))
        })
        .min_by(|(one, _), (other, _)| one.total_cmp(other))
        .map(|(_, leads)| leads)
}

/// How far a point lies outside a box; none where the box is not shown.
fn distance(shown: &DomRect, (x, y): (f64, f64)) -> Option<f64> {
    let outside = |at: f64, from: f64, to: f64| (from - at).max(at - to).max(0.0);
    (shown.width() > 0.0).then(|| {
        outside(x, shown.left(), shown.right()).hypot(outside(y, shown.top(), shown.bottom()))
    })
}
