//! Views that come and go, compiled once for the whole app.
//!
//! Leptos compiles its own `Show` and `For` anew for every place they stand in, 1 to 4 kB each. These
//! box what differs, so that a further place costs next to nothing.

use leptos::prelude::*;

/// Shows its children while a condition holds.
#[component]
pub fn Show(
    /// The condition.
    when: impl Fn() -> bool + Send + Sync + 'static,
    /// Made anew each time the condition comes to hold.
    children: ChildrenFn,
) -> impl IntoView {
    shown(Box::new(when), children)
}

fn shown(when: Box<dyn Fn() -> bool + Send + Sync>, children: ChildrenFn) -> AnyView {
    let when = Memo::new(move |_| when());
    live(move || {
        if when.get() {
            children()
        } else {
            ().into_any()
        }
    })
}

/// A piece of view that is made anew when a signal it reads changes.
pub fn live(make: impl FnMut() -> AnyView + Send + 'static) -> AnyView {
    let boxed: Box<dyn FnMut() -> AnyView + Send> = Box::new(make);
    boxed.into_any()
}

/// A row that is made only if its key is new.
struct Row {
    key: String,
    make: Box<dyn FnOnce() -> AnyView + Send>,
}

/// One view for each item; those whose key stays are left as they are.
#[component]
pub fn Rows<T, V>(
    /// The items.
    each: impl Fn() -> Vec<T> + Send + Sync + 'static,
    /// What tells one item from the others.
    key: fn(&T) -> String,
    /// The view of an item.
    children: impl Fn(T) -> V + Clone + Send + Sync + 'static,
) -> impl IntoView
where
    T: Send + 'static,
    V: IntoView + 'static,
{
    rows(Box::new(move || {
        each()
            .into_iter()
            .map(|item| {
                let children = children.clone();
                Row {
                    key: key(&item),
                    make: Box::new(move || children(item).into_any()),
                }
            })
            .collect()
    }))
}

fn rows(each: Box<dyn Fn() -> Vec<Row> + Send + Sync>) -> AnyView {
    view! { <For each=each key=|row| row.key.clone() children=|row| (row.make)() /> }.into_any()
}
