//! The templates on the screen: a preview of each, its files, and the way to print it at true size.

use crate::app::Workspace;
use crate::app::drafts::sharing;
use crate::design::Design;
use crate::paper::archive::file_name;
use crate::paper::html::escaped;
use crate::paper::tiling::Paper;
use crate::paper::together::together;
use crate::paper::{dxf, svg};
use crate::sizing::pattern::{Pattern, patterns};
use leptos::prelude::*;
use std::fmt::Write as _;

/// A template by its place, with its name.
pub fn at(design: &Design, place: usize) -> Option<Pattern> {
    patterns(design).into_iter().nth(place)?.pattern.ok()
}

/// All templates with their buttons, and the one that prints them in one go.
pub fn list(design: &Design, paper: Paper) -> String {
    let mut list = in_one_go(design, paper);
    for (place, entry) in patterns(design).iter().enumerate() {
        let name = escaped(&entry.name);
        let _ = write!(list, "<section class=\"template\"><h3>{name}</h3>");
        match &entry.pattern {
            Ok(pattern) => {
                list.push_str(&svg::document(pattern));
                list.push_str("<div class=\"item-tools\">");
                for (act, label) in [
                    ("svg", "SVG"),
                    ("dxf", "DXF"),
                    ("print", "Print at true size"),
                ] {
                    let _ = write!(
                        list,
                        "<button type=\"button\" data-act=\"{act}\" data-of=\"{place}\" \
                         aria-label=\"{label}: {name}\">{label}</button>"
                    );
                }
                list.push_str("</div>");
            }
            Err(error) => {
                let _ = write!(
                    list,
                    "<p class=\"wrong\">{}</p>",
                    escaped(&error.to_string())
                );
            }
        }
        list.push_str("</section>");
    }
    list
}

/// The button that prints all templates, and which of them it leaves out.
fn in_one_go(design: &Design, paper: Paper) -> String {
    let all = together(design, paper);
    if all.places.is_empty() {
        return String::new();
    }
    let mut words = format!(
        "<p>The tick above prints this list alone.</p><div class=\"item-tools\">\
         <button type=\"button\" data-act=\"print-all\">Print all templates: {} pages</button></div>",
        all.pages
    );
    if !all.plain.is_empty() {
        let _ = write!(
            words,
            "<p>Not among them, since tape, square or compass draw them as well: {}. Their measures stand in the list.</p>",
            escaped(&all.plain.join(", "))
        );
    }
    for (name, pages) in &all.left_out {
        let _ = write!(
            words,
            "<p>Not among them, since it takes {pages} pages: {}. Print it by itself, below.</p>",
            escaped(name)
        );
    }
    words
}

/// Offers a template as a file.
pub fn download(workspace: Workspace, place: usize, kind: &str) {
    let Some(pattern) = workspace.design.with_untracked(|design| at(design, place)) else {
        return;
    };
    let (text, media) = match kind {
        "dxf" => (dxf::drawing(&pattern), "image/vnd.dxf"),
        _ => (svg::document(&pattern), "image/svg+xml"),
    };
    let name = format!("{}.{kind}", file_name(&pattern.name));
    sharing::offer_file(&name, media, text.as_bytes());
}
