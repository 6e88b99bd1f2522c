//! One of a closed set, as a native select.

use super::element_id;
use crate::app::Workspace;
use crate::app::naming::of_option;
use crate::design::{ChoiceOption, Input, Value};
use leptos::prelude::*;

#[component]
pub fn ChoiceField(
    path: String,
    input: &'static Input,
    options: &'static [ChoiceOption],
) -> impl IntoView {
    let workspace = Workspace::get();
    let id = element_id(&path);
    let notes = format!("{id}-notes");
    let path = StoredValue::new(path);
    let chosen = Memo::new(move |_| {
        workspace
            .design
            .with(|design| match path.with_value(|path| design.get(path)) {
                Some(Value::Choice(name)) => name,
                _ => String::new(),
            })
    });
    let choose = move |name: String| {
        workspace.finish_typing();
        path.with_value(|path| {
            if let Err(error) = workspace.choose(path, &name) {
                workspace.reject(path, name, error.to_string());
            }
        });
    };
    // Few lists offer own materials; the others follow nothing.
    let named_by_design = |option: &ChoiceOption| option.name.starts_with("own_");
    let own_names = options.iter().any(named_by_design).then(|| {
        Memo::new(move |_| {
            workspace.design.with(|design| {
                (options.iter())
                    .map(|option| of_option(design, option).to_string())
                    .collect::<Vec<_>>()
            })
        })
    });
    let label = move |place: usize, option: &'static ChoiceOption| match own_names {
        Some(names) => names.with(|names| names.get(place).cloned().unwrap_or_default()),
        None => option.label.to_string(),
    };
    view! {
        <div class="field">
            <label for=id.clone()>{input.label}</label>
            <div class="entry">
                <select
                    id=id
                    data-input=path.get_value()
                    aria-describedby=notes.clone()
                    prop:value=move || chosen.get()
                    on:change=move |event| choose(event_target_value(&event))
                >
                    {options
                        .iter()
                        .enumerate()
                        .map(|(place, option)| {
                            view! {
                                <option value=option.name selected=move || chosen.get() == option.name>
                                    {move || label(place, option)}
                                </option>
                            }
                        })
                        .collect_view()}
                </select>
            </div>
            <div class="notes" id=notes>
                <p class="meaning">{input.meaning}</p>
            </div>
        </div>
    }
}
