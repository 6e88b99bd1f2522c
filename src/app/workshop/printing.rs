//! What the printer gets: the ticked sheets, or templates at true size.
//!
//! It stands in an element of its own beside the app and is made the moment the browser asks for it,
//! so whichever way a person prints, the same comes out.

use super::{made, templates};
use crate::app::Workspace;
use crate::app::drafts::{qr, sharing};
use crate::design::quantity::System;
use crate::paper::foot;
use crate::paper::html::{blocks, escaped};
use crate::paper::sheet::Sheet;
use crate::paper::tiling::{self, Paper, tiled};
use crate::paper::together::together;
use leptos::prelude::*;
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// The element that is printed.
const PAPER: &str = "paper";

/// What is to be printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Job {
    /// The ticked sheets.
    Sheets,
    /// One template, by its place.
    Template(usize),
    /// All templates but the largest.
    Templates,
}

/// What goes to the printer, and on which paper.
#[derive(Clone, Copy)]
pub struct Printer {
    workspace: Workspace,
    job: StoredValue<Job>,
    paper: RwSignal<Option<Paper>>,
    /// Sheets that a person ticked, or ticked off.
    chosen: RwSignal<BTreeMap<&'static str, bool>>,
    /// Whether the sheet of the cost has more to say than what is missing.
    priced: Memo<bool>,
}

impl Printer {
    /// The printer of the app.
    pub fn get() -> Self {
        expect_context::<Self>()
    }

    /// Waits for the browser to print.
    pub fn start(workspace: Workspace) -> Self {
        let printer = Self {
            workspace,
            job: StoredValue::new(Job::Sheets),
            paper: RwSignal::new(None),
            chosen: RwSignal::default(),
            priced: Memo::new(move |_| {
                workspace
                    .assessment
                    .with(|assessment| assessment.cost.priced || assessment.cost.tools_priced)
            }),
        };
        let before = window_event_listener_untyped("beforeprint", move |_| {
            let (pages, rules) = untrack(|| printer.pages());
            lay_out(pages);
            adopt(&rules);
        });
        let after = window_event_listener_untyped("afterprint", move |_| {
            printer.job.set_value(Job::Sheets);
        });
        on_cleanup(move || {
            before.remove();
            after.remove();
        });
        printer
    }

    /// Opens the browser's own window for printing.
    pub fn print(self, job: Job) {
        self.job.set_value(job);
        // A browser that cannot print leaves the page as it is.
        let _ = window().print();
    }

    /// The paper chosen; before that, the one usual where the units are.
    pub fn paper(self) -> Paper {
        self.paper
            .get()
            .unwrap_or_else(|| Paper::usual(self.workspace.system.get()))
    }

    /// Takes this paper from now on.
    pub fn choose(self, paper: Paper) {
        self.paper.set(Some(paper));
    }

    /// Whether a sheet is printed: as a person chose, else if it has something to say.
    pub fn prints(self, name: &str) -> bool {
        let chosen = self.chosen.with(|chosen| chosen.get(name).copied());
        chosen.unwrap_or_else(|| name != "cost" || self.priced.get())
    }

    /// Takes a sheet in, or out again.
    pub fn turn(self, name: &'static str) {
        let prints = untrack(|| self.prints(name));
        self.chosen.update(|chosen| {
            chosen.insert(name, !prints);
        });
    }

    /// What is printed, and the style rules that are its own: templates tell by themselves what they are.
    fn pages(self) -> (String, String) {
        let place = match self.job.get_value() {
            Job::Sheets => return self.sheets(),
            Job::Template(place) => place,
            Job::Templates => return (self.templates(), String::new()),
        };
        (self.template(place), String::new())
    }

    fn paper_name(self) -> &'static str {
        match self.paper() {
            Paper::A4 => "a4",
            Paper::Letter => "letter",
        }
    }

    fn sheets(self) -> (String, String) {
        let name = self.workspace.design.with(|design| {
            let invented = if design.about.invented {
                " (invented example)"
            } else {
                ""
            };
            format!("{}{invented}", design.about.name)
        });
        let system = self.workspace.system.get();
        let mut left_out = String::new();
        if self.workspace.question.get().is_some() {
            left_out.push_str("<p class=\"caution\">The first questions are not finished: nothing is sized for the answers yet. Build nothing by these numbers.</p>");
        }
        if let Some(path) = self.workspace.refused().pop_first() {
            let name = escaped(&self.workspace.name_of(&path));
            // Writing to a string cannot fail.
            let _ = write!(
                left_out,
                "<p class=\"caution\">What was typed at “{name}” cannot be used: these numbers are reckoned with the last value that could.</p>"
            );
        }
        let code = || qr::on_paper(&self.workspace.design.with(sharing::address));
        let mut sheets = made(self.workspace);
        sheets.retain(|sheet| self.prints(sheet.name));
        let mut pages = String::new();
        for sheet in &sheets {
            // Writing to a string cannot fail.
            let _ = write!(
                pages,
                "<section class=\"sheet\" data-page=\"{}\"><p class=\"of-design\">{}</p>{left_out}{}{}</section>",
                sheet.name,
                escaped(&name),
                (sheet.name == "summary").then(code).unwrap_or_default(),
                page(sheet, system)
            );
        }
        (pages, foot::rules(&name, &sheets, self.paper()))
    }

    /// All templates, those that share a page last.
    fn templates(self) -> String {
        let paper = self.paper();
        let all = (self.workspace.design).with(|design| together(design, paper));
        let own = all.places.into_iter().map(|place| self.template(place));
        let shared = (all.shared.iter()).map(|page| self.true_size("upright", &page.svg));
        own.chain(shared).collect()
    }

    /// A page for the printer, with the paper this way round.
    fn true_size(self, way: &str, page: &str) -> String {
        let paper = self.paper_name();
        format!("<div class=\"true-size {paper}-{way}\">{page}</div>")
    }

    fn template(self, place: usize) -> String {
        let pattern = self
            .workspace
            .design
            .with(|design| templates::at(design, place));
        let name = self
            .workspace
            .design
            .with(|design| design.about.name.clone());
        let sheet = tiling::Sheet {
            paper: self.paper(),
            design: &name,
            ..tiling::Sheet::default()
        };
        let Some(pattern) = pattern else {
            return String::new();
        };
        match tiled(&pattern, &sheet) {
            Ok(tiling) => {
                let way = if tiling.is_lying() {
                    "lying"
                } else {
                    "upright"
                };
                (tiling.sheets())
                    .map(|page| self.true_size(way, page))
                    .collect()
            }
            Err(error) => format!(
                "<p>{}: {}</p>",
                escaped(&pattern.name),
                escaped(&error.to_string())
            ),
        }
    }
}

fn page(sheet: &Sheet, system: System) -> String {
    format!(
        "<h2>{}</h2><p>{}</p>{}",
        escaped(sheet.title),
        escaped(sheet.meaning),
        blocks(sheet, system)
    )
}

/// Has these rules count beside the stylesheets of the page, and no others before them. A browser that does not know how
/// prints without a foot.
fn adopt(rules: &str) {
    if let Ok(sheet) = web_sys::CssStyleSheet::new()
        && sheet.replace_sync(rules).is_ok()
    {
        document().set_adopted_style_sheets(&js_sys::Array::of1(&sheet));
    }
}

/// Puts the pages where the stylesheet for paper looks for them.
fn lay_out(pages: String) {
    let page = document();
    let paper = page.get_element_by_id(PAPER).or_else(|| {
        let made = page.create_element("div").ok()?;
        made.set_id(PAPER);
        page.body()?.append_child(&made).ok()?;
        Some(made)
    });
    if let Some(paper) = paper {
        paper.set_inner_html(&pages);
    }
}
