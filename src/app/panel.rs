//! The panels: which one is looked at, and which are on the screen. What is not on the screen is
//! neither made nor kept up to date, so that a keystroke only pays for what it shows.

use super::Workspace;
use super::turns::Turns;
use crate::app::shown::Show;
use leptos::prelude::*;

/// Screens on which panels take turns, as a media query; the style sheets say the same.
pub const NARROW: &str = "(max-width: 56.19em)";

/// A panel that a phone shows one at a time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Panel {
    /// What passes and what fails.
    Verdicts,
    /// The inputs.
    Numbers,
    /// The gas train.
    Train,
    /// What one number does to the verdicts.
    Charts,
    /// Sheets and files for the bench.
    Workshop,
    /// The person's designs, links and files.
    Designs,
    /// What differs from another design, while a comparison is on.
    Compare,
}

impl Panel {
    /// All of them, in the order of the bar.
    pub const ALL: [Panel; 7] = [
        Panel::Verdicts,
        Panel::Numbers,
        Panel::Train,
        Panel::Charts,
        Panel::Workshop,
        Panel::Designs,
        Panel::Compare,
    ];

    /// What its button says.
    pub fn label(self) -> &'static str {
        match self {
            Panel::Verdicts => "Verdicts",
            Panel::Numbers => "Numbers",
            Panel::Train => "Train",
            Panel::Charts => "Charts",
            Panel::Workshop => "Workshop",
            Panel::Designs => "Designs",
            Panel::Compare => "Compare",
        }
    }

    /// Its name in style sheets and tests.
    pub fn name(self) -> &'static str {
        match self {
            Panel::Verdicts => "verdicts",
            Panel::Numbers => "numbers",
            Panel::Train => "train",
            Panel::Charts => "charts",
            Panel::Workshop => "workshop",
            Panel::Designs => "designs",
            Panel::Compare => "compare",
        }
    }

    /// Whether it is on the screen while `chosen` is looked at. A desk shows all but those that only
    /// open when asked for.
    pub fn is_shown(self, chosen: Panel, narrow: bool) -> bool {
        self == chosen || !(narrow || matches!(self, Panel::Designs | Panel::Compare))
    }

    /// Whether a narrow screen that looks at it keeps the machine in view.
    pub fn leaves_machine_in_view(self) -> bool {
        !matches!(self, Panel::Train | Panel::Workshop)
    }
}

/// What stands in a panel: made when the panel is first on the screen, and kept from then on.
#[component]
pub fn Late(
    /// The panel it stands in.
    panel: Panel,
    /// What is made.
    children: ChildrenFn,
) -> impl IntoView {
    let on_screen = Workspace::get().on_screen(panel);
    let its_turn = Turns::get().panel(panel);
    let made = Memo::new(move |before: Option<&bool>| {
        before.is_some_and(|made| *made) || its_turn.get() && on_screen.get()
    });
    view! { <Show when=move || made.get() children /> }
}
