//! Arranging a list: opening, adding, moving, copying and removing items. Each change is one undo
//! step, is said aloud, and leaves the focus on the item it was about.

use super::group_of;
use crate::app::Workspace;
use crate::app::focus;
use crate::app::panel::Panel;
use crate::design::inputs::{StageKind, TrainStage};
use crate::design::{Kind, Record, Value};
use crate::sizing::air_inside;
use leptos::prelude::*;

/// An item of a list by its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Place {
    /// Name of the list.
    pub list: &'static str,
    /// Place in it, from 0.
    pub index: usize,
}

impl Place {
    /// The element that holds the item's inputs.
    pub fn element_id(self) -> String {
        format!("item-{}-{}", self.list, self.index)
    }

    /// Selects the line that opens and closes it.
    fn summary(self) -> String {
        format!("#{} > summary", self.element_id())
    }

    /// What the item is called.
    fn name(self, workspace: Workspace) -> String {
        workspace.design.with_untracked(|design| {
            design
                .list(self.list)
                .and_then(|list| list.item(self.index))
                .map(name)
                .unwrap_or_default()
        })
    }

    fn open(self, workspace: Workspace) {
        workspace.item.set(Some((self.list, self.index)));
    }
}

/// What a person calls a record: its first text that is not empty, else its first choice.
pub fn name(record: &dyn Record) -> String {
    let words = record
        .inputs()
        .iter()
        .enumerate()
        .filter_map(|(place, input)| match (record.read(place)?, input.kind) {
            (Value::Text(text), _) => (!text.is_empty()).then_some(text),
            (Value::Choice(name), Kind::Choice { options, .. }) => options
                .iter()
                .find(|option| option.name == name)
                .map(|option| option.label.to_string()),
            _ => None,
        });
    words.take(1).collect()
}

/// Opens an item's inputs, brings them into view and gives them the focus.
pub fn show(workspace: Workspace, place: Place) {
    workspace.panel.set(Panel::Numbers);
    if let Some(group) = group_of(place.list) {
        workspace.focus.set(group.name);
    }
    place.open(workspace);
    bring_up_soon(place);
    focus::soon(vec![place.summary()]);
}

/// Takes an item to another place. `buttons` is what the ids of the buttons begin with that asked
/// for it, so that the focus goes with the item.
pub fn move_to(workspace: Workspace, place: Place, to: usize, buttons: &str) {
    let target = Place { index: to, ..place };
    let (moved, passed) = (place.name(workspace), target.name(workspace));
    let up = to < place.index;
    let was_open = workspace.item.get_untracked();
    workspace.change(|design| design.move_item(place.list, place.index, to));
    if was_open == Some((place.list, place.index)) {
        target.open(workspace);
    } else if was_open == Some((place.list, to)) {
        place.open(workspace);
    }
    let side = if up { "before" } else { "behind" };
    workspace
        .said
        .set(format!("{moved} moved {side} {passed}."));
    let [same, other] = if up { ["up", "down"] } else { ["down", "up"] };
    focus::soon(vec![
        format!("#{buttons}-{same}-{to}:not([disabled])"),
        format!("#{buttons}-{other}-{to}:not([disabled])"),
    ]);
}

/// Inserts a new item and opens it, with the focus where its kind is chosen.
pub fn add(workspace: Workspace, place: Place) {
    if place.list == "train" {
        return add_stage(workspace, place, TrainStage::default().kind);
    }
    workspace.change(|design| match place.list {
        "readings" => air_inside::add_test(design, place.index),
        list => design.insert_item(list, place.index),
    });
    show_new(workspace, place);
}

/// Inserts a stage of this kind into the gas train and opens it, as [`add`] does.
pub fn add_stage(workspace: Workspace, place: Place, kind: StageKind) {
    workspace.change(|design| design.insert_stage(place.index, kind));
    show_new(workspace, place);
}

fn show_new(workspace: Workspace, place: Place) {
    workspace.said.set(format!(
        "{} added at place {}.",
        place.name(workspace),
        place.index + 1
    ));
    show(workspace, place);
    let fields = format!("#{}", place.element_id());
    focus::soon(vec![format!("{fields} select"), format!("{fields} input")]);
}

/// Copies an item behind itself and opens the copy.
pub fn copy(workspace: Workspace, place: Place) {
    workspace.change(|design| design.copy_item(place.list, place.index));
    workspace
        .said
        .set(format!("{} copied.", place.name(workspace)));
    show(
        workspace,
        Place {
            index: place.index + 1,
            ..place
        },
    );
}

/// Removes an item; the focus goes to the one that takes its place.
pub fn remove(workspace: Workspace, place: Place) {
    let gone = place.name(workspace);
    workspace.item.set(None);
    workspace.change(|design| design.remove_item(place.list, place.index));
    workspace
        .said
        .set(format!("{gone} removed. Undo brings it back."));
    let before = Place {
        index: place.index.saturating_sub(1),
        ..place
    };
    focus::soon(vec![
        place.summary(),
        before.summary(),
        format!("#list-{} > .add", place.list),
    ]);
}

/// Brings an item to the top of its column once the page shows it.
fn bring_up_soon(place: Place) {
    request_animation_frame(move || {
        if let Some(item) = document().get_element_by_id(&place.element_id()) {
            item.scroll_into_view();
        }
    });
}
