//! The elements of a figure as plain data: written as text, or laid over what the page shows already.
//!
//! A figure follows every keystroke, and most of it stays as it is. To write it anew takes the browser
//! far longer than to change the numbers that differ.

use crate::paper::html::escaped;
use leptos::prelude::*;
use leptos::svg;
use std::borrow::Cow;
use std::collections::VecDeque;
use wasm_bindgen::{JsCast as _, JsValue};
use web_sys::Element;

/// An element with what is in it: words or further elements.
#[derive(Debug, Clone, PartialEq)]
pub struct Node {
    /// What it is about, where elements change places; empty elsewhere.
    key: String,
    tag: &'static str,
    attributes: Vec<(&'static str, Cow<'static, str>)>,
    words: String,
    children: Vec<Node>,
}

impl Node {
    /// An empty element.
    pub fn new(tag: &'static str) -> Self {
        Self {
            key: String::new(),
            tag,
            attributes: Vec::new(),
            words: String::new(),
            children: Vec::new(),
        }
    }

    /// The element with a further attribute.
    pub fn with(mut self, name: &'static str, value: impl Into<Cow<'static, str>>) -> Self {
        self.attributes.push((name, value.into()));
        self
    }

    /// The element, known by what it is about: among its like it is found again wherever it stands, and keeps the
    /// focus.
    pub fn about(mut self, key: impl Into<String>) -> Self {
        self.key = key.into();
        self
    }

    /// The element with these words in it, whatever a person wrote in them.
    pub fn saying(mut self, words: impl Into<String>) -> Self {
        self.words = words.into();
        self
    }

    /// The element with a further element in it.
    pub fn holding(mut self, child: Node) -> Self {
        self.push(child);
        self
    }

    /// Puts a further element into it.
    pub fn push(&mut self, child: Node) {
        self.children.push(child);
    }

    /// The elements in it.
    pub fn into_children(self) -> Vec<Node> {
        self.children
    }

    fn write(&self, text: &mut String) {
        text.push('<');
        text.push_str(self.tag);
        for (name, value) in &self.attributes {
            for piece in [" ", name, "=\"", &escaped(value), "\""] {
                text.push_str(piece);
            }
        }
        text.push('>');
        text.push_str(&escaped(&self.words));
        for child in &self.children {
            child.write(text);
        }
        text.push_str("</");
        text.push_str(self.tag);
        text.push('>');
    }

    /// Whether an element of the other node can become this one by other values alone.
    fn is_like(&self, other: &Node) -> bool {
        let names = |node: &Node| node.attributes.len();
        self.tag == other.tag
            && names(self) == names(other)
            && (self.attributes.iter().zip(&other.attributes)).all(|(own, its)| own.0 == its.0)
            && self.words.is_empty() == other.words.is_empty()
    }

    /// Makes an element that shows `before` show this.
    fn lay_over(&self, element: &Element, before: &Node) -> Result<(), JsValue> {
        if !self.is_like(before) {
            element.set_outer_html(&text(std::slice::from_ref(self)));
            return Ok(());
        }
        for (own, its) in self.attributes.iter().zip(&before.attributes) {
            if own != its {
                element.set_attribute(own.0, &own.1)?;
            }
        }
        if self.words != before.words {
            match element.first_child() {
                // Other words in the same text cost the browser less than another text.
                Some(text) => text.set_node_value(Some(&self.words)),
                None => element.set_text_content(Some(&self.words)),
            }
        }
        lay_over(element, &before.children, &self.children)
    }
}

/// Elements as text.
pub fn text(nodes: &[Node]) -> String {
    let mut text = String::new();
    for node in nodes {
        node.write(&mut text);
    }
    text
}

/// For each new element the old one that it comes of, by its place: the one with the same key, else the next one
/// that is left over.
fn origins(before: &[Node], after: &[Node]) -> Vec<Option<usize>> {
    if after.iter().all(|new| new.key.is_empty()) {
        let old = |place| (place < before.len()).then_some(place);
        return (0..after.len()).map(old).collect();
    }
    let mut free = vec![true; before.len()];
    let mut take = |wanted: &dyn Fn(&Node) -> bool| {
        let place = (before.iter().zip(&free)).position(|(old, free)| *free && wanted(old))?;
        free[place] = false;
        Some(place)
    };
    let mut origins = Vec::with_capacity(after.len());
    for new in after {
        let known = !new.key.is_empty();
        origins.push(known.then(|| take(&|old| old.key == new.key)).flatten());
    }
    for (origin, new) in origins.iter_mut().zip(after) {
        *origin = origin.or_else(|| take(&|old| old.key.is_empty() == new.key.is_empty()));
    }
    origins
}

/// Makes an element with `before` in it hold `after`.
fn lay_over(parent: &Element, before: &[Node], after: &[Node]) -> Result<(), JsValue> {
    if before == after {
        return Ok(());
    }
    let children = parent.children();
    let elements: Vec<Element> = (0..children.length())
        .filter_map(|place| children.item(place))
        .collect();
    if elements.len() != before.len() {
        return Err("somebody else changed the figure".into());
    }
    let origins = origins(before, after);
    let mut kept = vec![false; before.len()];
    for origin in origins.iter().flatten() {
        kept[*origin] = true;
    }
    for (element, _) in elements.iter().zip(&kept).filter(|(_, kept)| !**kept) {
        element.remove();
    }
    // The old elements that stand behind what is done, in the order of the page.
    let mut ahead: VecDeque<usize> = (0..before.len()).filter(|place| kept[*place]).collect();
    let mut fresh = String::new();
    for (new, origin) in after.iter().zip(origins) {
        let Some(origin) = origin else {
            new.write(&mut fresh);
            continue;
        };
        let element = &elements[origin];
        let passed = ahead.iter().position(|place| *place == origin);
        let passed = passed.unwrap_or_default();
        if passed > 0 && holds_focus(element) {
            // What is moved loses the focus, so the others move.
            let behind = element.next_sibling();
            for place in ahead.iter().take(passed) {
                parent.insert_before(&elements[*place], behind.as_ref())?;
            }
        } else if let Some(next) = ahead.front().filter(|_| passed > 0) {
            parent.insert_before(element, Some(&elements[*next]))?;
        }
        ahead.remove(passed);
        if !fresh.is_empty() {
            element.insert_adjacent_html("beforebegin", &fresh)?;
            fresh.clear();
        }
        if *new != before[origin] {
            new.lay_over(element, &before[origin])?;
        }
    }
    if !fresh.is_empty() {
        parent.insert_adjacent_html("beforeend", &fresh)?;
    }
    Ok(())
}

fn holds_focus(element: &Element) -> bool {
    let focused = document().active_element();
    element.contains(focused.as_ref().map(|focused| focused.unchecked_ref()))
}

/// A group that holds these elements, and follows the signals they come from.
pub fn following(content: impl Fn() -> Vec<Node> + 'static) -> AnyView {
    let content: Box<dyn Fn() -> Vec<Node>> = Box::new(content);
    let group = NodeRef::<svg::G>::new();
    let shown = StoredValue::new_local(Vec::<Node>::new());
    Effect::new(move |_| {
        let Some(group) = group.get() else {
            return;
        };
        let after = content();
        shown.update_value(|before| {
            // Whatever the page refuses to take over in pieces, it gets as a whole.
            if lay_over(&group, before, &after).is_err() {
                group.set_inner_html(&text(&after));
            }
            *before = after;
        });
    });
    view! { <g node_ref=group></g> }.into_any()
}
