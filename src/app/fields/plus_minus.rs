//! How far an input may be off: what is usual, or the person's own.

use super::element_id;
use super::number::unit_beside;
use crate::app::Workspace;
use crate::app::focus;
use crate::app::naming;
use crate::app::shown::Show;
use crate::design::phrase::upper_first;
use crate::design::quantity::Quantity;
use leptos::html::Details;
use leptos::prelude::*;

/// What was typed and cannot be used, and why.
#[derive(Clone)]
struct Refused {
    typed: String,
    reason: String,
}

/// The plus-minus of a number, folded away. While it is, the Tab key passes it by, so that each number is one stop: a key
/// in the field opens it.
#[derive(Clone, Copy)]
pub struct PlusMinus {
    is_open: RwSignal<bool>,
    fold: NodeRef<Details>,
}

fn spread_id(path: &str) -> String {
    format!("{}-spread", element_id(path))
}

impl PlusMinus {
    /// That of the number at this path; none for pass marks, which are chosen.
    pub fn of(path: &str) -> Option<Self> {
        (!path.starts_with("limits.")).then(|| Self {
            is_open: RwSignal::new(false),
            fold: NodeRef::new(),
        })
    }

    /// Unfolds it and gives it the focus.
    pub fn open(self, path: StoredValue<String>) {
        if let Some(fold) = self.fold.get_untracked() {
            fold.set_open(true);
            self.is_open.set(true);
            let id = path.with_value(|path| spread_id(path));
            focus::soon(vec![format!("#{id}")]);
        }
    }

    /// The fold with what is in it.
    pub fn view(self, path: StoredValue<String>, quantity: Quantity) -> AnyView {
        let Self { is_open, fold } = self;
        let name = path.with_value(|path| {
            (Workspace::get().design).with_untracked(|design| naming::where_it_stands(design, path))
        });
        let entry = entry(path, quantity);
        let turn = move |_| {
            if let Some(fold) = fold.get_untracked() {
                is_open.set(fold.open());
            }
        };
        let tab = move || if is_open.get() { "0" } else { "-1" };
        view! {
            <details class="plus-minus" node_ref=fold on:toggle=turn>
                <summary tabindex=tab aria-label=format!("How sure? {name}")>
                    <span>"How sure?"</span>
                </summary>
                <Show when=move || is_open.get()>{entry.clone()}</Show>
            </details>
        }
        .into_any()
    }
}

/// What stands in the fold.
fn entry(
    path: StoredValue<String>,
    quantity: Quantity,
) -> impl Fn() -> AnyView + Clone + Send + Sync + 'static {
    let workspace = Workspace::get();
    let id = path.with_value(|path| spread_id(path));
    let notes = format!("{id}-notes");
    let difference = quantity.of_difference();
    let refused = RwSignal::new(None::<Refused>);
    let own = move || {
        workspace
            .design
            .with(|design| path.with_value(|path| design.own_spread(path)))
            .map(|own| difference.write_short(own, workspace.system.get()))
            .unwrap_or_default()
    };
    let taken = move || {
        let doubtful = workspace
            .design
            .with(|design| path.with_value(|path| design.doubtful(path)));
        let system = workspace.system.get();
        doubtful.map_or("Taken as exact.".to_string(), |doubtful| {
            let [low, high] = quantity.show_alike([doubtful.low, doubtful.high], system);
            format!("Taken as {low} to {high}.")
        })
    };
    let shown = move || refused.get().map_or_else(own, |refused| refused.typed);
    let enter = move |text: String| {
        let system = workspace.system.get_untracked();
        let wanted = match text.trim() {
            "" => Ok(None),
            text => difference
                .read(text, system)
                .map(Some)
                .map_err(|error| error.to_string()),
        };
        let set = wanted.and_then(|wanted| {
            let mut tried = workspace.design.get_untracked();
            path.with_value(|path| tried.set_spread(path, wanted))
                .map_err(|error| error.sentence(system))?;
            workspace.change(|design| *design = tried);
            Ok(())
        });
        refused.set(set.err().map(|reason| Refused {
            typed: text,
            reason,
        }));
    };
    // The browser's own undo brings back what was taken.
    let is_own_again = move |text: String| {
        if refused.with_untracked(Option::is_some) && text == untrack(own) {
            refused.set(None);
        }
    };
    move || {
        // What was refused holds in the units and beside the state that it was typed in.
        Effect::new(move |before: Option<()>| {
            workspace.turned.track();
            workspace.system.track();
            if before.is_some() && refused.with_untracked(Option::is_some) {
                refused.set(None);
            }
        });
        view! {
            <label for=id.clone()>"Plus-minus"</label>
            <input
                id=id.clone()
                data-spread=path.get_value()
                type="text"
                autocomplete="off"
                aria-describedby=notes.clone()
                aria-invalid=move || refused.with(Option::is_some).then_some("true")
                prop:value=shown
                on:input=move |event| is_own_again(event_target_value(&event))
                on:change=move |event| enter(event_target_value(&event))
            />
            <span class="unit" aria-hidden="true">
                {move || unit_beside(workspace, difference)}
            </span>
            <div class="notes" id=notes.clone()>
                {move || refused.get().map(|refused| view! { <p class="wrong" role="alert">{upper_first(&refused.reason)}</p> })}
                <p class="meaning">{taken} " Empty: what is usual; 0: exact."</p>
            </div>
        }
        .into_any()
    }
}
