//! The hearth by itself: a section with its dimensions, and the nozzle ring seen from above.

use super::ink::{self, Stroke, circle, polygon};
use super::notes::{Notes, tape};
use super::paper::Sheet;
use super::pieces::mm;
use crate::app::Workspace;
use crate::app::markup::text;
use crate::design::inputs::HearthKind;
use crate::design::quantity::{Quantity, System};
use crate::design::{Design, Value};
use crate::paper::sheets::Drawing;
use crate::review::Assessment;
use crate::sizing::machine::HearthShape;
use leptos::prelude::*;

/// Both figures for a sheet or a file.
pub fn hearth_on_paper(
    design: &Design,
    assessment: &Assessment,
    system: System,
) -> impl Iterator<Item = Drawing> {
    let shape = &assessment.standing.machine.hearth;
    let section = section(design, shape, system).on_paper("hearth-section", "Hearth, section");
    let plan = plan(design, shape, system)
        .map(|plan| plan.on_paper("hearth-from-above", "Hearth, from above"));
    std::iter::once(section).chain(plan)
}

fn thick(notes: &mut Notes, corners: &[(f64, f64)]) {
    notes.strokes.push(Stroke {
        line: polygon(corners, false),
        class: "cut",
        fill: "none",
    });
}

fn ring(notes: &mut Notes, radius: f64, class: &'static str) {
    notes.strokes.push(Stroke {
        line: circle(0.0, 0.0, radius),
        class,
        fill: "none",
    });
}

/// The section through the axis; the grate lies at height 0.
fn section(design: &Design, shape: &HearthShape, system: System) -> Sheet {
    let grate = mm(shape.grate);
    let [top, plane, end, throat] = [
        shape.tube_top,
        shape.nozzle_plane,
        shape.tube_foot,
        shape.throat,
    ]
    .map(|level| mm(level) - grate);
    let [tube, waist, foot] = [shape.tube_radius, shape.throat_radius, shape.foot_radius].map(mm);
    let widest = tube.max(foot);
    let constricted = design.hearth.kind == HearthKind::Constricted;
    let size = (2.0 * widest + 0.3 * top).max(top) / 14.0;
    let mut notes = Notes::default();
    for side in [-1.0, 1.0] {
        let outline = [
            (side * tube, top),
            (side * tube, end),
            (side * waist, throat),
            (side * foot, 0.0),
        ];
        thick(&mut notes, &outline);
        if constricted {
            notes.line(
                &[(side * (tube + 1.6 * size), plane), (side * tube, plane)],
                "air-jet",
            );
        }
    }
    notes.line(&[(-foot, 0.0), (foot, 0.0)], "grate");
    notes.line(&[(0.0, top + 0.5 * size), (0.0, -0.5 * size)], "plumb");
    notes.level(
        -tube,
        tube,
        top + 1.6 * size,
        size,
        tape(2.0 * tube, system),
    );
    let left = -widest - 2.2 * size;
    let mut words = format!("Fire tube {} wide", tape(2.0 * tube, system));
    if constricted {
        notes.line(&[(-waist, throat), (waist, throat)], "throat");
        notes.leader(
            (waist, throat),
            (widest + 1.2 * size, throat),
            size,
            format!("throat {}", tape(2.0 * waist, system)),
            "label",
        );
        notes.level(-foot, foot, -1.2 * size, size, tape(2.0 * foot, system));
        notes.upright(left, throat, plane, size, tape(plane - throat, system));
        notes.upright(left, 0.0, throat, size, tape(throat, system));
        words.push_str(&format!(
            ", nozzles {} above the throat of {}, char {} deep below it, {} wide at the grate.",
            tape(plane - throat, system),
            tape(2.0 * waist, system),
            tape(throat, system),
            tape(2.0 * foot, system),
        ));
        if end < plane {
            let straight = tape(plane - end, system);
            let right = widest + 5.4 * size;
            notes.line(&[(tube + 0.4 * size, end), (right, end)], "dimension");
            notes.line(&[(tube + 1.8 * size, plane), (right, plane)], "dimension");
            // Shorter than its number is high, which therefore stands on the upper line.
            let above = plane + 0.3 * size;
            notes.upright_told_at(right, (end, plane), above, size, straight.clone());
            words.push_str(&format!(
                " The fire tube goes {straight} straight on below the nozzles."
            ));
        }
    } else {
        notes.upright(left, 0.0, top, size, tape(top, system));
        words.push_str(&format!(
            ", {} long from its open top to the grate.",
            tape(top, system)
        ));
    }
    Sheet {
        bounds: (
            left - 5.0 * size,
            widest + 8.5 * size,
            -3.0 * size,
            top + 3.0 * size,
        ),
        text_size: size,
        notes,
        words,
    }
}

/// The nozzle ring and the restrictor plate from above.
fn plan(design: &Design, shape: &HearthShape, system: System) -> Option<Sheet> {
    if design.hearth.kind != HearthKind::Constricted {
        return None;
    }
    let [tube, waist] = [shape.tube_radius, shape.throat_radius].map(mm);
    let size = tube / 6.0;
    let count = design.hearth.nozzle_count.max(1);
    let apart = 360.0 / f64::from(count);
    let bore = mm(design.hearth.nozzle_bore);
    let mut notes = Notes::default();
    notes.strokes.push(Stroke {
        line: format!("{}{}", circle(0.0, 0.0, tube), circle(0.0, 0.0, waist)),
        class: "plate",
        fill: "url(#hatch-metal)",
    });
    ring(&mut notes, tube, "cut");
    ring(&mut notes, waist, "throat");
    for number in 0..count {
        let degrees = apart * f64::from(number);
        let (sine, cosine) = degrees.to_radians().sin_cos();
        let across = |radius: f64, aside: f64| {
            (
                radius * sine + aside * cosine,
                radius * cosine - aside * sine,
            )
        };
        for side in [-0.5, 0.5] {
            notes.line(
                &[
                    across(tube, side * bore),
                    across(tube + 1.6 * size, side * bore),
                ],
                "outline",
            );
        }
        let (x, up) = across(tube + 2.6 * size, 0.0);
        notes.text(
            (x, up - 0.35 * size),
            format!("{degrees:.0}°"),
            "label",
            "middle",
        );
    }
    let words = format!(
        "{count} nozzles of {} bore, {apart:.1}° apart; restrictor hole {}.",
        Quantity::Thickness.show(bore / 1000.0, system),
        tape(2.0 * waist, system)
    );
    let reach = tube + 3.8 * size;
    Some(Sheet {
        bounds: (-reach - size, reach + size, -reach, reach),
        text_size: size,
        notes,
        words,
    })
}

#[component]
fn SheetView(sheet: Sheet, title: &'static str) -> impl IntoView {
    view! {
        <figure class="drawing hearth-sheet">
            <svg
                role="img"
                aria-label=sheet.words.clone()
                viewBox=sheet.view_box()
                font-size=format!("{:.1}", sheet.text_size)
            >
                <title>{title}</title>
                <g inner_html=text(&ink::paths(&sheet.notes.strokes))></g>
                <g inner_html=text(&ink::texts(&sheet.notes.labels))></g>
            </svg>
            <figcaption class="meaning">{title} ". " {sheet.words}</figcaption>
        </figure>
    }
}

/// Both figures, and what the published table would have instead.
#[component]
pub fn HearthDetail() -> impl IntoView {
    let workspace = Workspace::get();
    let sheets = Memo::new(move |_| {
        let system = workspace.system.get();
        workspace.design.with(|design| {
            workspace.assessment.with(|assessment| {
                let shape = &assessment.standing.machine.hearth;
                (section(design, shape, system), plan(design, shape, system))
            })
        })
    });
    let figures = move || {
        let (section, plan) = sheets.get();
        view! {
            <SheetView sheet=section title="Section" />
            {plan.map(|plan| view! { <SheetView sheet=plan title="From above" /> })}
        }
    };
    view! {
        <div class="hearth-detail">
            {figures}
            <TableAdvice />
        </div>
    }
}

/// A dimension that is not the table's: label, path, entered and recommended value, m.
type Advice = (&'static str, &'static str, f64, f64);

fn advice(assessment: &Assessment) -> Vec<Advice> {
    assessment
        .hearth
        .constricted
        .iter()
        .flat_map(|constricted| &constricted.deviations)
        .filter(|deviation| deviation.share().abs() > 0.02)
        .map(|deviation| {
            (
                deviation.label,
                deviation.path,
                deviation.entered.si,
                deviation.recommended.si,
            )
        })
        .collect()
}

#[component]
fn TableAdvice() -> impl IntoView {
    let workspace = Workspace::get();
    let rows = Memo::new(move |_| workspace.assessment.with(|assessment| advice(assessment)));
    let summary = move || match rows.with(Vec::len) {
        0 => "All sizes are about those of the published table".to_string(),
        1 => "One size differs from the published table".to_string(),
        more => format!("{more} sizes differ from the published table"),
    };
    let row = move |(label, path, entered, recommended): Advice| {
        let words = move || {
            let show = |si: f64| Quantity::Length.show(si, workspace.system.get());
            format!(
                "{label} {}, the table has {} for this throat",
                show(entered),
                show(recommended)
            )
        };
        let take = move |_| {
            workspace.finish_typing();
            // To a tenth of a millimetre, as a table is read.
            let value = (recommended * 1.0e4).round() / 1.0e4;
            // A table value outside the input's range is not taken; the entered one stays.
            let _ = workspace.set(path, Value::Number(value));
            workspace.finish_typing();
        };
        view! {
            <li>
                <span>{words}</span>
                <button type="button" class="apply" aria-label=format!("Take: {label}") on:click=take>
                    "Take"
                </button>
            </li>
        }
    };
    view! {
        // Folded, so that the field being typed in stays where it is.
        <details class="table-advice">
            <summary>{summary}</summary>
            <ul class="remedies">{move || rows.get().into_iter().map(row).collect_view()}</ul>
            <p class="source">
                "Table: SERI/SP-271-3022 (1988), table 5-1 (from memory), between its rows by the throat."
            </p>
        </details>
    }
}
