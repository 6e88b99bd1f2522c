//! The elements of a figure as plain data: written as text, or laid over what the page shows already.
//!
//! A figure follows every keystroke, and most of it stays as it is. To write it anew takes the browser
//! far longer than to change the numbers that differ.

use crate::paper::html::escaped;
use leptos::prelude::*;
use leptos::svg;
use std::borrow::Cow;
use wasm_bindgen::JsValue;
use web_sys::Element;

/// An element with what is in it: words or further elements.
#[derive(Debug, Clone, PartialEq)]
pub struct Node {
    tag: &'static str,
    attributes: Vec<(&'static str, Cow<'static, str>)>,
    words: String,
    children: Vec<Node>,
}

impl Node {
    /// An empty element.
    pub fn new(tag: &'static str) -> Self {
        Self {
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

    /// The element with these words in it, whatever a person wrote in them.
    pub fn saying(mut self, words: impl Into<String>) -> Self {
        self.words = words.into();
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
            element.set_text_content(Some(&self.words));
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

/// Makes an element with `before` in it hold `after`.
fn lay_over(parent: &Element, before: &[Node], after: &[Node]) -> Result<(), JsValue> {
    if before == after {
        return Ok(());
    }
    let mut next = parent.first_element_child();
    for (old, new) in before.iter().zip(after) {
        let Some(here) = next else {
            break;
        };
        next = here.next_element_sibling();
        if old != new {
            new.lay_over(&here, old)?;
        }
    }
    while let Some(left_over) = next {
        next = left_over.next_element_sibling();
        left_over.remove();
    }
    match after.get(before.len()..) {
        Some([]) | None => Ok(()),
        Some(more) => parent.insert_adjacent_html("beforeend", &text(more)),
    }
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
