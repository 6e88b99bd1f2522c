//! Writes the figure as SVG text: a person's words are escaped here and nowhere else.

use crate::paper::html::escaped;
use std::fmt::Write as _;

/// Markup of a figure in the making, in pixels, down being positive.
#[derive(Debug, Default)]
pub struct Pen {
    markup: String,
    /// Nothing can be pressed on paper.
    for_paper: bool,
    /// Where a button begins that is left out.
    left_out: Option<usize>,
}

impl Pen {
    /// A pen for the screen, or for paper: there without buttons, and plain where no stylesheet is.
    pub fn new(for_paper: bool) -> Self {
        Self {
            for_paper,
            ..Self::default()
        }
    }

    /// Path data, moved to a place.
    pub fn path(&mut self, class: &str, data: &str, x: f64, y: f64) {
        if !data.is_empty() {
            self.write(format_args!(
                r#"<path class="{class}" d="{data}" transform="translate({x:.1} {y:.1})"/>"#
            ));
        }
    }

    /// A text that starts at a place.
    pub fn text(&mut self, class: &str, x: f64, y: f64, words: &str) {
        let words = escaped(words);
        let plain = if self.for_paper {
            r##" fill="#000" stroke="none""##
        } else {
            ""
        };
        self.write(format_args!(
            r#"<text class="{class}" x="{x:.1}" y="{y:.1}"{plain}>{words}</text>"#
        ));
    }

    /// Paths on a sheet of 20 by 20, drawn four fifths as large with the upper left corner at a place.
    pub fn small(&mut self, class: &str, paths: &[(&str, &str)], x: f64, y: f64) {
        self.write(format_args!(
            r#"<g class="{class}" transform="translate({x:.1} {y:.1}) scale(0.8)">"#
        ));
        for (class, data) in paths {
            self.path(class, data, 0.0, 0.0);
        }
        self.end();
    }

    /// Begins something that can be pressed: what it does, to which stage, its name, its area.
    pub fn button(&mut self, act: &str, stage: usize, label: &str, class: &str, area: [f64; 4]) {
        if self.for_paper {
            self.left_out = (class == "tool").then_some(self.markup.len());
            return self.begin(class);
        }
        let label = escaped(label);
        let [x, y, width, height] = area;
        self.write(format_args!(
            r#"<g class="{class}" role="button" tabindex="0" id="diagram-{act}-{stage}" data-act="{act}" data-stage="{stage}" aria-label="{label}"><rect class="touch" x="{x:.1}" y="{y:.1}" width="{width:.1}" height="{height:.1}" rx="3"/>"#
        ));
    }

    /// Begins a group; its texts are no part of a button's name.
    pub fn begin(&mut self, class: &str) {
        self.write(format_args!(r#"<g class="{class}">"#));
    }

    /// Ends what was begun last.
    pub fn end(&mut self) {
        self.markup.push_str("</g>");
        if let Some(start) = self.left_out.take() {
            self.markup.truncate(start);
        }
    }

    /// The markup.
    pub fn finish(self) -> String {
        self.markup
    }

    fn write(&mut self, piece: std::fmt::Arguments<'_>) {
        // Writing to a string cannot fail.
        let _ = self.markup.write_fmt(piece);
    }
}

/// Words in lines of at most so many signs; a longer word is cut.
pub fn wrapped(words: &str, most: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        let word: String = if word.chars().count() > most {
            word.chars()
                .take(most.saturating_sub(1))
                .chain(['…'])
                .collect()
        } else {
            word.to_string()
        };
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= most => {
                line.push(' ');
                line.push_str(&word);
            }
            _ => lines.push(word),
        }
    }
    lines
}
