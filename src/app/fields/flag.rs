//! Yes or no, as a native checkbox.

use super::element_id;
use crate::app::Workspace;
use crate::design::{Input, Value};
use leptos::prelude::*;

#[component]
pub fn FlagField(path: String, input: &'static Input) -> impl IntoView {
    let workspace = Workspace::get();
    let id = element_id(&path);
    let notes = format!("{id}-notes");
    let path = StoredValue::new(path);
    let on = Memo::new(move |_| {
        workspace
            .design
            .with(|design| path.with_value(|path| design.get(path)) == Some(Value::Flag(true)))
    });
    let turn = move |state: bool| {
        workspace.finish_typing();
        path.with_value(|path| {
            if let Err(error) = workspace.set(path, Value::Flag(state)) {
                workspace.reject(path, state.to_string(), error.to_string());
            }
        });
        workspace.finish_typing();
    };
    view! {
        <div class="field field-flag">
            <label for=id.clone()>
                <input
                    id=id.clone()
                    data-input=path.get_value()
                    type="checkbox"
                    aria-describedby=notes.clone()
                    prop:checked=move || on.get()
                    on:change=move |event| turn(event_target_checked(&event))
                />
                {input.label}
            </label>
            <div class="notes" id=notes>
                <p class="meaning">{input.meaning}</p>
            </div>
        </div>
    }
}
