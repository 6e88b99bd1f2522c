//! Draws the figure as elements: a person's words stand in them as they are.

use crate::app::markup::Node;

/// Class of what only serves to press, and is left out on paper.
pub const TOOL: &str = "tool";

/// A figure in the making, in pixels, down being positive.
#[derive(Debug)]
pub struct Pen {
    /// What has been begun and whether it is shown at all, the whole figure first.
    open: Vec<(Node, bool)>,
    /// Nothing can be pressed on paper.
    for_paper: bool,
}

impl Pen {
    /// A pen for the screen, or for paper: there without buttons, and plain where no stylesheet is.
    pub fn new(for_paper: bool) -> Self {
        Self {
            open: vec![(Node::new("g"), true)],
            for_paper,
        }
    }

    fn put(&mut self, node: Node) {
        if let Some((open, _)) = self.open.last_mut() {
            open.push(node);
        }
    }

    /// Path data, moved to a place. A path without data shows nothing, but keeps its place among the others:
    /// signs of the same make can then take each other's place by their data alone.
    pub fn path(&mut self, class: &str, data: &str, x: f64, y: f64) {
        self.put(
            Node::new("path")
                .with("class", class.to_string())
                .with("d", data.to_string())
                .with("transform", format!("translate({x:.1} {y:.1})")),
        );
    }

    /// A text that starts at a place.
    pub fn text(&mut self, class: &str, x: f64, y: f64, words: &str) {
        let mut text = Node::new("text")
            .with("class", class.to_string())
            .with("x", format!("{x:.1}"))
            .with("y", format!("{y:.1}"));
        if self.for_paper {
            text = text.with("fill", "#000").with("stroke", "none");
        }
        self.put(text.saying(words));
    }

    /// Paths on a sheet of 20 by 20, drawn four fifths as large with the upper left corner at a place.
    pub fn small(&mut self, class: &str, paths: &[(&str, &str)], x: f64, y: f64) {
        let place = format!("translate({x:.1} {y:.1}) scale(0.8)");
        let group = Node::new("g")
            .with("class", class.to_string())
            .with("transform", place);
        self.open.push((group, true));
        for (class, data) in paths {
            self.path(class, data, 0.0, 0.0);
        }
        self.end();
    }

    /// Begins something that can be pressed: what it does, to which stage, its name, its area.
    pub fn button(
        &mut self,
        act: &'static str,
        stage: usize,
        label: &str,
        class: &'static str,
        area: [f64; 4],
    ) {
        if self.for_paper {
            self.open
                .push((Node::new("g").with("class", class), class != TOOL));
            return;
        }
        let mut button = Node::new("g")
            .with("class", class)
            .with("role", "button")
            .with("tabindex", "0")
            .with("id", format!("diagram-{act}-{stage}"))
            .with("data-act", act)
            .with("data-stage", stage.to_string())
            .with("aria-label", label.to_string());
        let [x, y, width, height] = area.map(|length| format!("{length:.1}"));
        button.push(
            Node::new("rect")
                .with("class", "touch")
                .with("x", x)
                .with("y", y)
                .with("width", width)
                .with("height", height)
                .with("rx", "3"),
        );
        self.open.push((button, true));
    }

    /// Begins a group so far down, whose places count from there: when it moves, what is in it stays.
    pub fn begin(&mut self, class: &'static str, y: f64) {
        self.open.push((moved(class, y), true));
    }

    /// As [`Pen::begin`], for what is found again by its name where things change places.
    pub fn begin_about(&mut self, name: &str, class: &'static str, y: f64) {
        self.open.push((moved(class, y).about(name), true));
    }

    /// Ends what was begun last.
    pub fn end(&mut self) {
        if self.open.len() > 1
            && let Some((ended, true)) = self.open.pop()
        {
            self.put(ended);
        }
    }

    /// The elements of the figure.
    pub fn finish(mut self) -> Vec<Node> {
        while self.open.len() > 1 {
            self.end();
        }
        let whole = self.open.pop();
        whole.map_or_else(Vec::new, |(whole, _)| whole.into_children())
    }
}

/// A group that stands so far down.
fn moved(class: &'static str, y: f64) -> Node {
    Node::new("g")
        .with("class", class)
        .with("transform", format!("translate(0 {y:.1})"))
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
