//! What goes to the bench: the sheets, each in a fold; to print, and to take along as files.
//!
//! What stands in a sheet is made as one text, so a press on anything in it is told by its `data-act`.

mod printing;
mod templates;

use super::Workspace;
use super::drafts::sharing;
use super::form::group_of;
use super::shown::live;
use super::{drawing, focus, train};
use crate::design::Design;
use crate::design::quantity::System;
use crate::paper;
use crate::paper::archive::file_name;
use crate::paper::html::{blocks_on_screen, escaped};
use crate::paper::sheet::Sheet;
use crate::paper::sheets::{self, Drawing};
use crate::paper::tiling::Paper;
use crate::review::{Assessment, step_is_done};
use crate::sizing::as_made::keep_sizes;
use crate::sizing::build_order::turned;
use leptos::prelude::*;
use printing::Job;
pub use printing::Printer;
use std::fmt::Write as _;
use wasm_bindgen::JsCast as _;

/// The panel.
#[component]
pub fn Workshop() -> impl IntoView {
    let workspace = Workspace::get();
    let printer = Printer::get();
    let open = RwSignal::new(Vec::<&'static str>::new());
    let sheets = Memo::new(move |before: Option<&Vec<Sheet>>| match before {
        Some(before) if open.with(Vec::is_empty) => before.clone(),
        _ => made(workspace),
    });
    let trouble = RwSignal::new(String::new());
    let heads = Memo::new(move |_| {
        let head = |sheet: &Sheet| (sheet.name, sheet.title);
        sheets.with(|sheets| sheets.iter().map(head).collect::<Vec<_>>())
    });
    let folds = move || {
        let fold = |(name, title)| fold(name, title, open, sheets, printer).into_any();
        heads.get().into_iter().map(fold).collect_view().into_any()
    };
    view! {
        <h2>"Sheets for the workshop"</h2>
        <p class="meaning">"They follow from the numbers. Ticked sheets are printed."</p>
        <div class="item-tools">
            <button type="button" on:click=move |_| printer.print(Job::Sheets)>
                "Print sheets"
            </button>
            <button type="button" on:click=move |_| trouble.set(take_along(workspace, printer))>
                "Download everything"
            </button>
            <div class="switch" role="group" aria-label="Paper">
                {paper_choice(printer, Paper::A4, "A4")}
                {paper_choice(printer, Paper::Letter, "Letter")}
            </div>
        </div>
        <p class="wrong" role="status">{trouble}</p>
        {live(folds)}
    }
}

fn paper_choice(printer: Printer, paper: Paper, label: &'static str) -> impl IntoView {
    view! {
        <button
            type="button"
            aria-pressed=move || (printer.paper() == paper).to_string()
            on:click=move |_| printer.choose(paper)
        >
            {label}
        </button>
    }
}

/// A sheet with the tick that sends it to the printer; its content is only made while it is open.
fn fold(
    name: &'static str,
    title: &'static str,
    open: RwSignal<Vec<&'static str>>,
    sheets: Memo<Vec<Sheet>>,
    printer: Printer,
) -> impl IntoView {
    let workspace = Workspace::get();
    let is_open = Memo::new(move |_| open.with(|open| open.contains(&name)));
    let content = move || {
        if !is_open.get() {
            return String::new();
        }
        let system = workspace.system.get();
        sheets.with(|sheets| {
            let sheet = sheets.iter().find(|sheet| sheet.name == name);
            workspace.design.with(|design| {
                sheet.map_or_else(String::new, |sheet| {
                    content(sheet, design, system, printer.paper())
                })
            })
        })
    };
    view! {
        <div class="sheet-row">
            <label class="tick">
                <input
                    type="checkbox"
                    aria-label=format!("Print: {title}")
                    prop:checked=move || printer.prints(name)
                    on:change=move |_| printer.turn(name)
                />
            </label>
            <details class="sheet" data-sheet=name prop:open=move || is_open.get()>
                <summary on:click=move |event| {
                    event.prevent_default();
                    open.update(|open| turn(open, name));
                    if !is_open.get_untracked() {
                        begin_at(name);
                    }
                }>{title}</summary>
                <div
                    class="sheet-body"
                    inner_html=content
                    on:click=move |event| press(workspace, printer, event.target())
                    on:focusin=move |event| centre(event.target())
                ></div>
            </details>
        </div>
    }
}

/// Brings the heading of a sheet into view that was folded from far below it.
fn begin_at(name: &str) {
    let heading = format!("[data-sheet=\"{name}\"] > summary");
    request_animation_frame(move || {
        if let Ok(Some(heading)) = document().query_selector(&heading)
            && heading.get_bounding_client_rect().top() < 0.0
        {
            heading.scroll_into_view();
        }
    });
}

/// Takes a name in, or out again.
fn turn(names: &mut Vec<&'static str>, name: &'static str) {
    match names.iter().position(|other| *other == name) {
        Some(place) => {
            names.remove(place);
        }
        None => names.push(name),
    }
}

/// What stands in an open fold: the sheet, what can be done with it, and the way to its inputs.
fn content(sheet: &Sheet, design: &Design, system: System, paper: Paper) -> String {
    let mut content = format!("<p class=\"meaning\">{}</p>", escaped(sheet.meaning));
    content.push_str(&blocks_on_screen(sheet, system));
    if sheet.name == "templates" {
        content.push_str(&templates::list(design, paper));
    }
    let mut groups: Vec<&str> = Vec::new();
    content.push_str("<div class=\"item-tools\">");
    for about in sheet.about {
        if let Some(group) = group_of(about)
            && !groups.contains(&group.name)
        {
            groups.push(group.name);
            // Writing to a string cannot fail.
            let _ = write!(
                content,
                "<button type=\"button\" data-act=\"change\" data-of=\"{about}\">Change this: {}</button>",
                escaped(group.label)
            );
        }
    }
    content.push_str("</div>");
    content
}

/// Does what the pressed button of a sheet is for.
fn press(workspace: Workspace, printer: Printer, target: Option<web_sys::EventTarget>) {
    let button = target
        .and_then(|target| target.dyn_into::<web_sys::Element>().ok())
        .and_then(|element| element.closest("[data-act]").ok().flatten());
    let Some(button) = button else {
        return;
    };
    let of = button.get_attribute("data-of").unwrap_or_default();
    let place = of.parse().unwrap_or(0_usize);
    match button.get_attribute("data-act").as_deref() {
        Some("change") => {
            if let Some(group) = group_of(&of) {
                workspace.show_group(group.name);
            }
        }
        Some("tick") => tick(workspace, place),
        Some("print-all") => printer.print(Job::Templates),
        Some("print") => printer.print(Job::Template(place)),
        Some(kind) => templates::download(workspace, place, kind),
        None => {}
    }
}

/// Begins in the middle of a figure that is larger than its place once it has the focus.
fn centre(target: Option<web_sys::EventTarget>) {
    let figure = target.and_then(|target| target.dyn_into::<web_sys::Element>().ok());
    if let Some(figure) = figure.filter(|figure| figure.tag_name() == "FIGURE") {
        request_animation_frame(move || {
            figure.set_scroll_left((figure.scroll_width() - figure.client_width()) / 2);
        });
    }
}

/// Ticks a step of the order of the work, or takes the tick back; one undo step.
fn tick(workspace: Workspace, step: usize) {
    let joints = untrack(|| {
        with_both(workspace, |design, assessment| {
            let work = assessment.order.work(design);
            let tasks = work.get(step).filter(|tasks| !tasks.is_empty())?;
            Some(turned(design, tasks, !step_is_done(design, tasks)))
        })
    });
    match joints {
        Some(joints) => workspace.change(|design| {
            let before = std::mem::replace(&mut design.joints, joints);
            keep_sizes(design, &before);
        }),
        None => workspace
            .said
            .set("This step names no joint of the list, so it cannot be ticked.".to_string()),
    }
    focus::soon(vec![format!("[data-act=tick][data-of=\"{step}\"]")]);
}

/// All sheets as the design stands.
fn made(workspace: Workspace) -> Vec<Sheet> {
    let drawings = drawings(workspace);
    let system = workspace.system.get();
    with_both(workspace, |design, assessment| {
        sheets::all(design, assessment, system, &drawings)
    })
}

fn drawings(workspace: Workspace) -> Vec<Drawing> {
    let system = workspace.system.get();
    with_both(workspace, |design, assessment| {
        let machine = drawing::on_paper(design, assessment, system);
        let train = train::on_paper(design, assessment, system);
        (machine.into_iter())
            .chain(drawing::hearth_on_paper(design, assessment, system))
            .chain([train])
            .collect()
    })
}

fn with_both<T>(workspace: Workspace, ask: impl FnOnce(&Design, &Assessment) -> T) -> T {
    workspace.assessment.with(|assessment| {
        workspace
            .design
            .with_untracked(|design| ask(design, assessment))
    })
}

/// Offers the archive of everything; says why where there is none.
fn take_along(workspace: Workspace, printer: Printer) -> String {
    untrack(|| {
        let drawings = drawings(workspace);
        let system = workspace.system.get();
        let archive = with_both(workspace, |design, assessment| {
            paper::bundle(design, assessment, system, printer.paper(), &drawings)
        });
        match archive {
            Ok(bytes) => {
                let name = workspace
                    .design
                    .with(|design| file_name(&design.about.name));
                sharing::offer_file(&format!("{name}.zip"), "application/zip", &bytes);
                String::new()
            }
            Err(error) => error.to_string(),
        }
    })
}
