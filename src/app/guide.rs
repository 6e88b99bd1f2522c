//! The first questions: one at a time, in the fields of the form; leaves a complete design.

use super::Workspace;
use super::back;
use super::drafts::{Drafts, Notice};
use super::fields::{Field, not_filled_in};
use super::focus;
use super::panel::Panel;
use super::shown::Show;
use crate::design::{Design, Value};
use crate::review::guided::{
    Otherwise, Part, QUESTIONS, Question, There, complete, wider_vessel, without_room,
};
use leptos::prelude::*;
use std::collections::BTreeSet;

/// Id of the questions.
pub const ID: &str = "first-questions";

/// Said where the questions end before the vessel that is there is measured.
const NOT_MEASURED: &str = "The vessel counts as not measured, since not all its figures were typed. What you typed is kept: say under Marking out that it is bought and measured, and type the rest.";

/// The question being asked, with the way on, back and out.
#[component]
pub fn Guide() -> impl IntoView {
    let workspace = Workspace::get();
    let there = workspace.there;
    let step = move || workspace.question.get().unwrap_or(0);
    let last = move || step() + 1 >= QUESTIONS.len();
    let finish = move || {
        drop_untyped(workspace, there);
        let answered = workspace.design.get_untracked();
        let mut wider = None;
        let room_asked = (QUESTIONS.iter().take(step() + 1))
            .any(|question| question.inputs.contains(&"base.width"));
        there.with_untracked(|there| {
            workspace.change_with_all_before(|design| {
                for flag in flags(there) {
                    // A flag takes either state.
                    let _ = design.set(flag, Value::Flag(true));
                }
                let sized = complete(design, there);
                wider = wider_vessel(design, there, &sized);
                *design = if room_asked {
                    sized
                } else {
                    without_room(sized)
                };
            });
        });
        workspace.end_questions();
        workspace.panel.set(Panel::Verdicts);
        if !Drafts::get().tell_unmet(&answered, wider) {
            focus::soon(vec!["#panel-verdicts button".into()]);
        }
        workspace
            .said
            .set("The design is complete. Its verdicts are shown.".into());
    };
    // A question begins at its beginning, however far the one before was scrolled; its title has the focus, since
    // the buttons that led here may be gone.
    Effect::new(move |_| {
        workspace.question.track();
        focus::soon(vec![format!("#{ID} h2")]);
        request_animation_frame(|| {
            if let Some(guide) = document().get_element_by_id(ID) {
                guide.scroll_into_view();
            }
        });
    });
    // The field that keeps from going on, while it is wrong.
    let stopped_at = RwSignal::new(None::<&'static str>);
    let trouble = move || {
        let path = stopped_at.get()?;
        let asked = QUESTIONS.get(step())?;
        let is_here = asked.inputs.contains(&path)
            || (asked.once_there.iter()).any(|once| once.inputs.contains(&path));
        if !is_here {
            return None;
        }
        let reason =
            (workspace.rejected).with(|rejected| Some(rejected.get(path)?.reason.clone()))?;
        let name = called(workspace, asked, path);
        Some(view! { <p class="wrong">"Not yet. " {name} ": " {reason}</p> })
    };
    let go_on = move |_| {
        take_no_seams(workspace);
        let asked = QUESTIONS.get(step());
        for path in asked.map_or(Vec::new(), |asked| figures(workspace, asked, there)) {
            if is_untyped(workspace, path) {
                workspace.reject(path, String::new(), not_filled_in(path).into());
            }
        }
        let wrong =
            asked.and_then(|asked| there.with_untracked(|there| wrong(workspace, asked, there)));
        if let Some((asked, (path, reason))) = asked.zip(wrong) {
            let name = called(workspace, asked, path);
            stopped_at.set(Some(path));
            workspace.said.set(format!("{name}: {reason}"));
            focus::soon(vec![format!("#{ID} [data-input='{path}']")]);
        } else if last() {
            finish();
        } else {
            workspace.question.set(Some(step() + 1));
        }
    };
    let leave = move |_| {
        drop_untyped(workspace, there);
        workspace.end_questions();
        workspace.show_group("design");
    };
    view! {
        <section class="guide" id=ID aria-label="First questions">
            <p class="count" role="status">
                {move || format!("Question {} of {}", step() + 1, QUESTIONS.len())}
            </p>
            {move || QUESTIONS.get(step()).map(|question| asked(question, there))}
            <p class="meaning" hidden=move || step() != 0>
                "Any question may stay as it is. Everything can be changed later, and one undo takes all of it back."
            </p>
            {trouble}
            <div class="item-tools steps">
                <button
                    type="button"
                    disabled=move || step() == 0
                    on:click=move |_| back::to_question_before(workspace)
                >
                    "Back"
                </button>
                <button type="button" class="go-on" on:click=go_on>
                    {move || if last() { "Finish" } else { "Next" }}
                </button>
            </div>
            <div class="ways-out">
                <button type="button" on:click=move |_| finish() hidden=last>
                    "Skip the rest"
                </button>
                <span hidden=last>"sizes the machine from what is answered so far."</span>
                <button type="button" on:click=leave>"Straight to the numbers"</button>
                <span>"sizes nothing: you enter all of it yourself."</span>
            </div>
        </section>
    }
}

/// The inputs that say that these parts are there. They are set when the questions end: what is half typed is not measured.
fn flags(there: &[Part]) -> impl Iterator<Item = &'static str> {
    (QUESTIONS.iter().flat_map(|question| question.once_there))
        .filter(|once| there.contains(&once.part))
        .filter_map(|once| once.flag)
}

/// Whether a figure of what is there already is still to be typed: its field was emptied, and is.
fn is_untyped(workspace: Workspace, path: &str) -> bool {
    workspace.rejected.with_untracked(|rejected| {
        (rejected.get(path)).is_some_and(|rejected| {
            rejected.typed.is_empty()
                && ["", not_filled_in(path)].contains(&rejected.reason.as_str())
        })
    })
}

/// The figures of a question that tell of what is there already.
fn figures(
    workspace: Workspace,
    question: &Question,
    there: RwSignal<Vec<Part>>,
) -> Vec<&'static str> {
    let of_parts = (question.once_there.iter())
        .filter(|once| there.with_untracked(|there| there.contains(&once.part)));
    (workspace.design)
        .with_untracked(|design| of_parts.flat_map(|once| once.figures(design)).collect())
}

/// Where the questions end early: a part of which no figure was typed is not there, nor one that is said to be measured and
/// of which some lack. Of another that was begun, what lacks is asked for in the form.
fn drop_untyped(workspace: Workspace, there: RwSignal<Vec<Part>>) {
    for once in QUESTIONS.iter().flat_map(|question| question.once_there) {
        if !there.with_untracked(|there| there.contains(&once.part)) {
            continue;
        }
        let figures = (workspace.design).with_untracked(|design| once.figures(design));
        let untyped = (figures.iter()).filter(|path| is_untyped(workspace, path));
        let (untyped, all) = (untyped.count(), figures.len());
        // The form does not show what is said not to be there.
        let is_hidden = once.flag.is_some() && untyped > 0;
        if is_hidden && untyped < all {
            Drafts::get().notify(Notice::of(NOT_MEASURED).at_the_beginning());
        }
        if is_hidden || untyped == all {
            take_away(workspace, there, once);
            continue;
        }
        for path in once.inputs {
            if !is_untyped(workspace, path) {
                continue;
            }
            if figures.contains(path) {
                workspace.reject(path, String::new(), not_filled_in(path).into());
            } else {
                workspace.forgive(path);
            }
        }
    }
}

/// Says that a part is not there.
fn take_away(workspace: Workspace, there: RwSignal<Vec<Part>>, once: &There) {
    there.update(|there| there.retain(|part| *part != once.part));
    // What was typed of a part that is not there waits for nobody.
    once.inputs.iter().for_each(|path| workspace.forgive(path));
}

/// A vessel without round seams or dished ends: what was emptied there means the same as 0, that there is none.
fn take_no_seams(workspace: Workspace) {
    for path in [
        "real_vessel.lower_seam",
        "real_vessel.upper_seam",
        "real_vessel.dish",
    ] {
        let cleared = (workspace.rejected).with_untracked(|rejected| {
            (rejected.get(path)).is_some_and(|rejected| rejected.typed.trim().is_empty())
        });
        if cleared && !is_untyped(workspace, path) {
            // 0 is within the range of each.
            let _ = workspace.set(path, Value::Number(0.0));
        }
    }
}

/// The first shown field of a question whose text cannot be used, with the reason.
fn wrong(
    workspace: Workspace,
    question: &Question,
    there: &[Part],
) -> Option<(&'static str, String)> {
    let of_parts = (question.once_there.iter())
        .filter(|once| there.contains(&once.part))
        .flat_map(|once| once.inputs.iter().map(move |path| (path, Some(once))));
    let asked = question.inputs.iter().map(|path| (path, None));
    asked.chain(of_parts).find_map(|(path, once)| {
        let shown = (workspace.design).with_untracked(|design| match once {
            Some(once) => once.asks(design, path),
            None => design.in_use(path),
        });
        let rejected = workspace
            .rejected
            .with_untracked(|rejected| rejected.get(*path).cloned());
        rejected
            .filter(|_| shown)
            .map(|rejected| (*path, rejected.reason))
    })
}

/// Said under the figures of what is there already.
const NOT_AT_HAND: &str = "Not all of it at hand? Take the tick away: then it is sized for you, and can be entered later.";

/// What a question calls an input.
fn called(workspace: Workspace, question: &Question, path: &str) -> String {
    match otherwise(question, path) {
        Some(otherwise) => otherwise.label.to_string(),
        None => workspace.name_of(path),
    }
}

/// What an input is called where this question asks for another measure than the form.
fn otherwise(question: &Question, path: &str) -> Option<&'static Otherwise> {
    (question.otherwise.iter()).find(|otherwise| otherwise.path == path)
}

/// A question.
fn asked(question: &'static Question, there: RwSignal<Vec<Part>>) -> impl IntoView {
    let workspace = Workspace::get();
    let emptied = workspace.emptied;
    let once_there = question.once_there.iter().map(|once| {
        let is_there = move || there.with(|there| there.contains(&once.part));
        let turn = move |event: leptos::ev::Event| {
            if !event_target_checked(&event) {
                // What was typed stays typed, should it be there after all.
                emptied.update(|emptied| {
                    let is_wrong = |path: &str| {
                        (workspace.rejected).with_untracked(|rejected| rejected.contains_key(path))
                    };
                    emptied
                        .retain(|path| !(once.inputs.contains(&path.as_str()) && is_wrong(path)));
                });
                take_away(workspace, there, once);
                return;
            }
            // Nothing of ours may stand for what was measured: its fields begin empty.
            for path in (workspace.design).with_untracked(|design| once.figures(design)) {
                if !emptied.with_untracked(|emptied| emptied.contains(path)) {
                    emptied.update(|emptied| {
                        emptied.insert(path.to_string());
                    });
                    workspace.reject(path, String::new(), String::new());
                }
            }
            there.update(|there| there.push(once.part));
        };
        view! {
            <label class="tick-row">
                <input type="checkbox" prop:checked=is_there on:change=turn />
                {once.label}
            </label>
            <Show when=is_there>
                {once.caution.map(|caution| view! { <p class="caution">{caution}</p> })}
                {fields(question, once.inputs, Some(once))}
                <p class="meaning">{NOT_AT_HAND}</p>
            </Show>
        }
    });
    view! {
        <h2 tabindex="-1">{question.title}</h2>
        <p>{question.help}</p>
        {fields(question, question.inputs, None)}
        {once_there.collect_view()}
    }
}

fn fields(
    question: &Question,
    paths: &'static [&'static str],
    once: Option<&'static There>,
) -> impl IntoView + use<> {
    let workspace = Workspace::get();
    let part_of = |path: &str| path.split_once('.').map(|(head, _)| head.to_string());
    let parts: BTreeSet<_> = paths.iter().map(|path| part_of(path)).collect();
    let mut last = None;
    paths
        .iter()
        .filter_map(|path| {
            let input = workspace
                .design
                .with_untracked(|design| design.input(path))?;
            let part = part_of(path);
            let begins = parts.len() > 1 && part != last;
            let info = Design::SECTIONS
                .iter()
                .find(|info| begins && part.as_deref() == Some(info.name));
            last = part;
            Some(view! {
                {info.map(|info| view! { <h3>{info.label}</h3> })}
                <Field path=path.to_string() input once otherwise=otherwise(question, path) />
            })
        })
        .collect_view()
}
