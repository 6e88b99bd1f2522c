//! Where one lands on a phone: at the beginning of a panel, below what stays in view above it.

use super::Workspace;
use super::panel::Panel;
use leptos::prelude::*;

/// Share of the height of the screen by which a panel must have begun; further down, it seems not to have come.
const BEGINS_BY: f64 = 0.6;

/// Lands at the beginning of a panel once the page shows it.
pub fn soon_at(workspace: Workspace, panel: Panel) {
    if workspace.is_narrow() {
        request_animation_frame(move || land(panel, 0.0));
    }
}

/// Lands at the beginning of the page.
pub fn soon_at_the_top() {
    request_animation_frame(|| window().scroll_to_with_x_and_y(0.0, 0.0));
}

/// By how much of a panel one has scrolled past its beginning; none or less where that is in sight.
pub fn passed(panel: Panel) -> f64 {
    top_of(panel).map_or(0.0, |top| covered() - top)
}

/// Scrolls to a panel, and so far past its beginning. One whose beginning is in sight below all that stands above is left
/// there, so that nothing is scrolled away without need.
pub fn land(panel: Panel, passed: f64) {
    window().scroll_to_with_x_and_y(0.0, 0.0);
    let Some(top) = top_of(panel) else { return };
    let height = (window().inner_height().ok()).and_then(|height| height.as_f64());
    if passed <= 0.0 && height.is_none_or(|height| top <= BEGINS_BY * height) {
        return;
    }
    // What stays in view only does so once the page is scrolled; a short page is not scrolled all the way.
    window().scroll_to_with_x_and_y(0.0, top);
    window().scroll_by_with_x_and_y(0.0, passed - self::passed(panel));
}

fn top_of(panel: Panel) -> Option<f64> {
    let id = format!("panel-{}", panel.name());
    let element = document().get_element_by_id(&id)?;
    Some(element.get_bounding_client_rect().top())
}

/// How far down the page what stays in view covers it.
fn covered() -> f64 {
    let bottoms = [".stays", ".summary"].into_iter().filter_map(|selector| {
        let element = document().query_selector(selector).ok().flatten()?;
        Some(element.get_bounding_client_rect().bottom())
    });
    bottoms.fold(0.0, f64::max)
}
