//! The list of verdicts: what fails comes first, with the change that would make it pass.

mod done;
mod elsewhere;
mod hunt;
pub mod mark;
mod orders;
mod refused;
pub mod remedy;
mod search;
mod spoils;
mod summary;
mod trial;
mod way;
mod working;
mod written;

pub use done::LastStep;
pub use elsewhere::{SHOW_IT, words_for};
pub use mark::{Mark, class};
pub use search::{FIRST_OUTCOME, Search};
pub use summary::{Summary, WorstByName, show, show_reasons, tally, worst_by_name};
pub use trial::{Outcome, Trial};
pub use way::FIND_ALL;
use way::Walk;

use super::Workspace;
use super::form::arrange::{self, Place};
use super::form::group_of;
use super::how_sure::{HowSureBox, Sureness};
use super::turns::Turns;
use crate::app::panel::Panel;
use crate::app::shown::{Rows, Show};
use crate::design::Design;
use crate::design::phrase::Phrase;
use crate::design::quantity::System;
use crate::review::{Assessment, Chapter, Finding, Lever, Step, Verdict, worst_first};
use leptos::prelude::*;
use std::sync::Arc;

/// What does not pass, worst first, each with whether its caution is told there: once is enough for
/// several that share one.
pub fn to_mend(assessment: &Assessment) -> Vec<(&Finding, bool)> {
    let mut told = Vec::new();
    worst_first(&assessment.findings)
        .into_iter()
        .map(|finding| {
            let news = !told.contains(&finding.caution);
            told.push(finding.caution);
            (finding, news)
        })
        .collect()
}

/// Said where no verdict has a caution of its own to show any more.
const ALL_GOOD: &str = "All Good means reckoned, not proven. The gas holds carbon monoxide, which kills without a smell, and it can explode: run it outdoors or under an open roof, with an alarm that works, test for leaks before every first fire, and keep to local codes. Hot steel burns, and it stays hot for hours.";

/// All verdicts, worst first within the order of the chapters.
#[component]
pub fn Verdicts(
    /// What stands below the best step.
    #[prop(into)]
    below: ViewFn,
) -> impl IntoView {
    let workspace = Workspace::get();
    let assessment = workspace.assessment_while(workspace.on_screen(Panel::Verdicts));
    let bad = Memo::new(move |_| {
        assessment.with(|assessment| {
            let rows = to_mend(assessment).into_iter();
            rows.map(|(finding, news)| (finding.id, news))
                .collect::<Vec<_>>()
        })
    });
    let good = move |chapter: Chapter| {
        Memo::new(move |_| {
            assessment.with(|assessment| {
                assessment
                    .findings
                    .iter()
                    .filter(|finding| {
                        finding.chapter == chapter && finding.verdict == Verdict::Good
                    })
                    .map(|finding| finding.id)
                    .collect::<Vec<_>>()
            })
        })
    };
    let faces = Faces::start(workspace, assessment);
    let turns = Turns::get();
    let room = turns.rows();
    let is_current = Search::get().is_current;
    let walk = Walk::start(workspace);
    view! {
        <section
            class="verdicts"
            class:is-stale=move || workspace.is_stale()
            aria-busy=move || (!is_current.get()).to_string()
        >
            <remedy::BestSteps walk />
            {below.run()}
            <HowSureBox />
            <Show when=move || bad.with(Vec::is_empty)>
                <p class="caution">{ALL_GOOD}</p>
            </Show>
            <Show when=move || bad.with(|bad| !bad.is_empty())>
                <h2>"What to mend"</h2>
            </Show>
            <Rows
                each=move || bad.with(|bad| bad.iter().take(room.get()).copied().collect())
                key=|row| format!("{} {}", row.0, row.1) let:row>
                <FindingView id=row.0 faces walk bad=true caution=row.1 />
            </Rows>
            {Chapter::ALL
                .into_iter()
                .enumerate()
                .map(|(place, chapter)| {
                    let its_turn = turns.chapter(place);
                    let all_good = good(chapter);
                    let good = Memo::new(move |_| {
                        if its_turn.get() { all_good.get() } else { Vec::new() }
                    });
                    view! {
                        <Show when=move || good.with(|good| !good.is_empty())>
                            <h2>{chapter.label()}</h2>
                        </Show>
                        <Rows each=move || good.get() key=|id| id.to_string() let:id>
                            <FindingView id faces walk bad=false caution=false />
                        </Rows>
                    }
                })
                .collect_view()}
        </section>
    }
}

/// What a row says of a verdict while it is closed.
#[derive(Clone)]
struct Face {
    verdict: Verdict,
    compared: Phrase,
    system: System,
}

impl Face {
    fn of(finding: &Finding, system: System) -> Self {
        Self {
            verdict: finding.verdict,
            compared: finding.compared.clone(),
            system,
        }
    }

    /// Whether it is what is shown of this finding: cheaper to say than to write it out.
    fn shows(&self, finding: &Finding, system: System) -> bool {
        self.verdict == finding.verdict
            && self.system == system
            && self.compared == finding.compared
    }
}

/// The faces of all rows. One look through the assessment tells every row what changed for it: most
/// change nothing at a keystroke, and are left alone.
#[derive(Clone, Copy)]
struct Faces {
    assessment: Memo<Arc<Assessment>>,
    rows: StoredValue<Vec<Row>>,
}

/// What is shown of the finding with an id; nothing once there is none.
struct Row {
    id: &'static str,
    face: ArcRwSignal<Option<Face>>,
}

impl Faces {
    fn start(workspace: Workspace, assessment: Memo<Arc<Assessment>>) -> Self {
        let faces = Self {
            assessment,
            rows: StoredValue::new(Vec::new()),
        };
        Effect::new(move |_| {
            let system = workspace.system.get();
            assessment.with(|assessment| {
                faces.rows.with_value(|rows| {
                    for Row { id, face } in rows {
                        let now = assessment.finding(id);
                        let as_before = face.with_untracked(|before| match (before, now) {
                            (Some(before), Some(now)) => before.shows(now, system),
                            (before, now) => before.is_none() && now.is_none(),
                        });
                        if !as_before {
                            face.set(now.map(|now| Face::of(now, system)));
                        }
                    }
                });
            });
        });
        faces
    }

    fn of(self, workspace: Workspace, id: &'static str) -> ArcRwSignal<Option<Face>> {
        let known = self.rows.with_value(|rows| {
            let row = rows.iter().find(|row| row.id == id);
            row.map(|row| row.face.clone())
        });
        known.unwrap_or_else(|| {
            let system = workspace.system.get_untracked();
            let face = (self.assessment).with_untracked(|assessment| {
                let finding = assessment.finding(id);
                finding.map(|finding| Face::of(finding, system))
            });
            let face = ArcRwSignal::new(face);
            let row = Row {
                id,
                face: face.clone(),
            };
            self.rows.update_value(|rows| rows.push(row));
            face
        })
    }
}

/// One verdict: word, shape, comparison; opens to its reasons. A bad one has its remedies below.
#[component]
fn FindingView(
    id: &'static str,
    faces: Faces,
    walk: Walk,
    bad: bool,
    caution: bool,
) -> impl IntoView {
    let workspace = Workspace::get();
    let first = faces.assessment.with_untracked(|assessment| {
        assessment
            .finding(id)
            .map(|finding| (finding.title, finding.caution))
    });
    let (title, danger) = first.unwrap_or_default();
    let face = faces.of(workspace, id);
    let compared = {
        let face = face.clone();
        move || face.with(|face| face.as_ref().map(|face| face.compared.text(face.system)))
    };
    let verdict = Memo::new(move |_| face.with(|face| face.as_ref().map(|face| face.verdict)));
    let sureness = Sureness::get();
    let open = RwSignal::new(false);
    let warned = caution && danger.is_some();
    let reasons = move || {
        faces.assessment.with(|assessment| {
            let finding = assessment.finding(id)?.clone();
            let design = workspace.design.read_untracked();
            let steps = assessment.working(&design, &finding);
            Some(view! { <Reasons finding steps warned /> })
        })
    };
    view! {
        <article
            class=move || format!("finding {}", verdict.get().map_or("", mark::class))
            data-finding=id
            data-verdict=move || verdict.get().map(Verdict::word)
        >
            <h3>
                <button
                    type="button"
                    class="finding-head"
                    aria-expanded=move || open.get().to_string()
                    on:click=move |_| open.update(|open| *open = !*open)
                >
                    {move || {
                        verdict
                            .get()
                            .map(|verdict| {
                                view! {
                                    <span class="verdict"><Mark verdict />{verdict.word()}</span>
                                }
                            })
                    }}
                    <span class="title">{title}</span>
                    <span class="compared">{compared}</span>
                </button>
            </h3>
            {danger
                .filter(|_| caution)
                .map(|danger| view! { <p class="caution">{danger}</p> })}
            <p class="sure">{move || sureness.words(id, workspace.system.get())}</p>
            {bad.then(|| view! { <remedy::Remedies id all=open walk /> })}
            <Show when=move || open.get()>{reasons}</Show>
        </article>
    }
}

/// The item of a list that a finding speaks of: the one that its best lever changes.
fn item_of(finding: &Finding) -> Option<Place> {
    let (list, index) = match finding.levers.first()? {
        Lever::Input(path) => {
            let (head, rest) = path.split_once('.')?;
            let list = Design::list_info(head)?.name;
            (list, rest.split_once('.')?.0.parse().ok()?)
        }
        Lever::Move { list, from } => (*list, *from),
        Lever::NewItem { .. } => return None,
    };
    (list == finding.about).then_some(Place { list, index })
}

#[component]
fn Reasons(finding: Finding, steps: Vec<Step>, warned: bool) -> impl IntoView {
    let workspace = Workspace::get();
    let about = finding.about;
    let item = item_of(&finding);
    let go = move |_| match item {
        Some(place) => arrange::show(workspace, place),
        None => {
            if let Some(group) = group_of(about) {
                workspace.show_group(group.name);
            }
        }
    };
    view! {
        <div class="reasons">
            <p>{finding.why}</p>
            <p class="meaning">{finding.meaning}</p>
            {finding
                .caution
                .filter(|_| !warned)
                .map(|caution| view! { <p class="caution">{caution}</p> })}
            <working::Working steps />
            <button type="button" aria-label=format!("Show the inputs: {}", finding.title) on:click=go>
                "Show the inputs"
            </button>
        </div>
    }
}
