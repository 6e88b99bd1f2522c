//! Free text.

use super::element_id;
use crate::app::Workspace;
use crate::design::{Input, Value};
use leptos::prelude::*;

/// Longer texts than this get several lines.
const ONE_LINE: usize = 200;

#[component]
pub fn TextField(path: String, input: &'static Input, longest: usize) -> impl IntoView {
    let workspace = Workspace::get();
    let id = element_id(&path);
    let notes = format!("{id}-notes");
    let path = StoredValue::new(path);
    let value = Memo::new(move |_| {
        workspace
            .design
            .with(|design| match path.with_value(|path| design.get(path)) {
                Some(Value::Text(text)) => text,
                _ => String::new(),
            })
    });
    let rejected = Memo::new(move |_| {
        workspace
            .rejected
            .with(|rejected| path.with_value(|path| rejected.get(path).cloned()))
    });
    let shown = move || {
        rejected
            .get()
            .map_or_else(|| value.get(), |rejected| rejected.typed)
    };
    let invalid = move || rejected.get().is_some().then_some("true");
    let enter = move |text: String| {
        path.with_value(|path| {
            if let Err(error) = workspace.set(path, Value::Text(text.clone())) {
                workspace.reject(path, text, error.to_string());
            }
        });
    };
    let entry = if longest > ONE_LINE {
        view! {
            <textarea
                id=id.clone()
                data-input=path.get_value()
                rows="3"
                aria-describedby=notes.clone()
                aria-invalid=invalid
                prop:value=shown
                on:input=move |event| enter(event_target_value(&event))
                on:blur=move |_| workspace.finish_typing()
            ></textarea>
        }
        .into_any()
    } else {
        view! {
            <input
                id=id.clone()
                data-input=path.get_value()
                type="text"
                autocomplete="off"
                aria-describedby=notes.clone()
                aria-invalid=invalid
                prop:value=shown
                on:input=move |event| enter(event_target_value(&event))
                on:blur=move |_| workspace.finish_typing()
            />
        }
        .into_any()
    };
    view! {
        <div class="field" class:field-wrong=move || rejected.get().is_some()>
            <label for=id>{input.label}</label>
            <div class="entry entry-text">{entry}</div>
            <div class="notes" id=notes>
                {move || rejected.get().map(|rejected| view! { <p class="wrong" role="alert">{rejected.reason}</p> })}
                <p class="meaning">{input.meaning}</p>
            </div>
        </div>
    }
}
