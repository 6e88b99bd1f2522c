//! From the computed order of the work to a person's own.

use crate::app::Workspace;
use crate::sizing::build_order::as_own;
use leptos::prelude::*;

/// Takes the computed order over into the list, where it can be changed; one undo step.
#[component]
pub fn TakeOrder() -> impl IntoView {
    let workspace = Workspace::get();
    let none = move || {
        let possible =
            |order: &Result<Vec<_>, _>| order.as_ref().is_ok_and(|steps| !steps.is_empty());
        (workspace.assessment).with(|assessment| !possible(&assessment.order.computed))
    };
    let take = move |_| {
        let steps = workspace.assessment.with_untracked(|assessment| {
            let order = assessment.order.computed.as_deref().unwrap_or_default();
            (workspace.design).with_untracked(|design| as_own(design, order))
        });
        let said = format!("{} steps taken over. Undo brings yours back.", steps.len());
        workspace.change(|design| {
            design.build_steps = steps;
            design.workshop.own_order = true;
        });
        workspace.said.set(said);
    };
    view! {
        <button type="button" id="take-order" disabled=none on:click=take>
            "Use the computed order as my own"
        </button>
    }
}
