//! The one state of the app: the design on the bench, its history, and what is typed but not valid.

use super::focus;
use super::media;
use super::naming::of_input;
use super::panel::{NARROW, Panel};
use crate::design::quantity::System;
use crate::design::{Design, InputError, Kind, Value};
use crate::review::guided::Part;
use crate::review::{self, Assessment, Change};
use crate::sizing::air_inside;
use crate::sizing::as_made::keep_sizes;
use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Most steps that undo goes back.
const HISTORY: usize = 200;

/// Earlier and later states of the design.
#[derive(Debug, Clone, Default)]
struct History {
    earlier: Vec<Design>,
    later: Vec<Design>,
    /// Path of the field being typed in: further keystrokes there belong to the same step.
    typing: Option<String>,
}

/// What was typed into a field and cannot be used.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Rejected {
    /// The text as typed.
    pub typed: String,
    /// Why it cannot be used, as a sentence; empty of a field that waits to be typed in and was not asked for yet.
    pub reason: String,
    /// How many steps could be taken back when it was typed.
    #[serde(skip)]
    steps: usize,
}

/// A design with its assessment, from which that of the next design is made.
struct Reviewed {
    design: Design,
    assessment: Arc<Assessment>,
}

impl Reviewed {
    fn after(before: Option<&Self>, design: &Design) -> Self {
        let assessment = match before {
            Some(before) => review::assess_after(&before.design, &before.assessment, design),
            None => review::assess(design),
        };
        Self {
            design: design.clone(),
            assessment: Arc::new(assessment),
        }
    }
}

/// Handle to the state; cheap to copy, found in context.
#[derive(Clone, Copy)]
pub struct Workspace {
    /// The design on the bench.
    pub design: RwSignal<Design>,
    /// The person's system of units.
    pub system: RwSignal<System>,
    /// The assessment of the design.
    pub assessment: Memo<Arc<Assessment>>,
    /// Fields whose typed text cannot be used, by path; while there are any, results are stale.
    pub rejected: RwSignal<BTreeMap<String, Rejected>>,
    /// The part of the machine that is being looked at: a group of the form.
    pub focus: RwSignal<&'static str>,
    /// The item of a list whose inputs stand open: name of the list, place in it.
    pub item: RwSignal<Option<(&'static str, usize)>>,
    /// What was just done, for those who do not see it.
    pub said: RwSignal<String>,
    /// The panel a phone shows.
    pub panel: RwSignal<Panel>,
    /// Whether the screen is so narrow that panels take turns.
    narrow: ReadSignal<bool>,
    /// The question of the guided start that is being asked, counted from zero.
    pub question: RwSignal<Option<usize>>,
    /// What is there already, as the questions were answered so far.
    pub there: RwSignal<Vec<Part>>,
    /// Figures of what is there whose fields were emptied once, by path: what is typed there is a person's own.
    pub emptied: RwSignal<BTreeSet<String>>,
    /// Told when undo, redo or another design puts another state in the place of the one on the bench: what was typed
    /// beside that and not taken is about nothing any more.
    pub turned: RwSignal<()>,
    history: RwSignal<History>,
}

impl Workspace {
    /// A workspace with this design on the bench.
    pub fn new(design: Design, system: System) -> Self {
        let design = RwSignal::new(design);
        let reviewed = Memo::new_with_compare(
            move |before: Option<&Reviewed>| design.with(|design| Reviewed::after(before, design)),
            |_, _| true,
        );
        let assessment = Memo::new_with_compare(
            move |_| reviewed.with(|reviewed| reviewed.assessment.clone()),
            is_another,
        );
        Self {
            design,
            system: RwSignal::new(system),
            assessment,
            rejected: RwSignal::default(),
            focus: RwSignal::new("base"),
            item: RwSignal::default(),
            said: RwSignal::default(),
            panel: RwSignal::new(Panel::Verdicts),
            narrow: media::matches(NARROW),
            question: RwSignal::new(None),
            there: RwSignal::default(),
            emptied: RwSignal::default(),
            turned: RwSignal::new(()),
            history: RwSignal::default(),
        }
    }

    /// The workspace of the app.
    pub fn get() -> Self {
        expect_context::<Self>()
    }

    /// Whether a panel is on the screen.
    pub fn on_screen(self, panel: Panel) -> Memo<bool> {
        Memo::new(move |_| panel.is_shown(self.panel.get(), self.narrow.get()))
    }

    /// Whether the machine is on the screen.
    pub fn machine_in_view(self) -> Memo<bool> {
        Memo::new(move |_| self.panel.get().leaves_machine_in_view() || !self.narrow.get())
    }

    /// The assessment for what follows it only while it is looked at.
    pub fn assessment_while(self, looked_at: Memo<bool>) -> Memo<Arc<Assessment>> {
        Memo::new_with_compare(
            move |before: Option<&Arc<Assessment>>| match before {
                Some(before) if !looked_at.get() => before.clone(),
                _ => self.assessment.get(),
            },
            is_another,
        )
    }

    /// Whether the screen is so narrow that panels take turns.
    pub fn is_narrow(self) -> bool {
        self.narrow.get_untracked()
    }

    /// The button that the designs, or the panel that is shown, open with, as a selector.
    pub fn where_panels_are_chosen(self) -> String {
        if self.is_narrow() {
            ".panel-bar [aria-pressed='true']".to_string()
        } else {
            ".designs-button".to_string()
        }
    }

    /// Whether a number or choice that was typed cannot be used, so that results show the last good design. No result
    /// follows from a text that is too long.
    pub fn is_stale(self) -> bool {
        let is_text = |path: &String| {
            let input = self.design.with_untracked(|design| design.input(path));
            input.is_some_and(|input| matches!(input.kind, Kind::Text { .. }))
        };
        self.rejected.with(|rejected| !told(rejected).all(is_text))
    }

    /// Remembers the current design as an undo step unless `typing` goes on in the same field.
    fn remember(self, typing: Option<&str>) {
        self.history.update(|history| {
            if typing.is_some() && history.typing.as_deref() == typing {
                return;
            }
            history.typing = typing.map(str::to_string);
            history.earlier.push(self.design.get_untracked());
            if history.earlier.len() > HISTORY {
                history.earlier.remove(0);
            }
            history.later.clear();
        });
    }

    /// Sets one input from a field being typed in.
    ///
    /// # Errors
    /// The value does not fit the declaration; the design stays as it was.
    pub fn set(self, path: &str, value: Value) -> Result<(), InputError> {
        let mut changed = self.design.get_untracked();
        changed.set(path, value)?;
        self.forgive(path);
        if self.design.with_untracked(|now| *now != changed) {
            self.remember(Some(path));
            self.design.set(changed);
        }
        Ok(())
    }

    /// Chooses an option, with what belongs to it, as one undo step.
    ///
    /// # Errors
    /// The option does not fit the declaration; the design stays as it was.
    pub fn choose(self, path: &str, option: &str) -> Result<(), InputError> {
        let before = self.design.get_untracked();
        let mut changed = before.clone();
        changed.choose(path, option)?;
        air_inside::follow(&mut changed, &before, path);
        keep_sizes(&mut changed, &before.joints);
        self.forgive(path);
        self.change(|design| *design = changed);
        Ok(())
    }

    /// Notes that the text in a field cannot be used.
    pub fn reject(self, path: &str, typed: String, reason: String) {
        let steps = self.history.with_untracked(|history| history.earlier.len());
        let text = Rejected {
            typed,
            reason,
            steps,
        };
        self.rejected.update(|rejected| {
            rejected.insert(path.to_string(), text);
        });
    }

    /// Takes back a rejected text, for example when its field is emptied of the mistake.
    pub fn forgive(self, path: &str) {
        if self
            .rejected
            .with_untracked(|rejected| rejected.contains_key(path))
        {
            self.rejected.update(|rejected| {
                rejected.remove(path);
            });
        }
    }

    /// The paths of the fields whose text cannot be used.
    pub fn refused(self) -> BTreeSet<String> {
        self.rejected
            .with(|rejected| told(rejected).cloned().collect())
    }

    /// What an input is called away from the form.
    pub fn name_of(self, path: &str) -> String {
        self.design.with_untracked(|design| {
            let input = design.input(path);
            input.map_or_else(String::new, |input| of_input(design, path, input))
        })
    }

    /// Ends the typing step, so that the next keystroke is an undo step of its own.
    pub fn finish_typing(self) {
        self.history.update(|history| history.typing = None);
    }

    /// Changes the design as one undo step.
    pub fn change(self, edit: impl FnOnce(&mut Design)) {
        let mut changed = self.design.get_untracked();
        edit(&mut changed);
        if self.design.with_untracked(|now| *now != changed) {
            self.remember(None);
            self.put(changed);
        }
    }

    /// Puts a changed design in the place of the one it was made from. What is typed and rejected stays with its
    /// input, unless that has another value now.
    fn put(self, changed: Design) {
        let kept = self.rejected.with_untracked(|rejected| {
            self.design.with_untracked(|before| {
                let followed = rejected.iter().filter_map(|(path, typed)| {
                    Some((before.follow(path, &changed)?, typed.clone()))
                });
                followed.collect::<BTreeMap<_, _>>()
            })
        });
        if self.rejected.with_untracked(|rejected| *rejected != kept) {
            self.rejected.set(kept);
        }
        self.design.set(changed);
    }

    /// Changes the design; this and all steps since it was opened become one undo step.
    pub fn change_with_all_before(self, edit: impl FnOnce(&mut Design)) {
        self.change(edit);
        self.history.update(|history| history.earlier.truncate(1));
    }

    /// Applies a remedy as one undo step.
    pub fn apply(self, change: &Change) {
        if let Some(changed) = change.apply(&self.design.get_untracked()) {
            self.change(|design| *design = changed);
        }
    }

    /// Puts another design on the bench, with an empty history.
    pub fn open(self, design: Design) {
        self.history.set(History::default());
        self.rejected.set(BTreeMap::new());
        self.end_questions();
        self.design.set(design);
        self.turned.set(());
    }

    /// Asks no first questions any more.
    pub fn end_questions(self) {
        self.question.set(None);
        self.there.set(Vec::new());
        self.emptied.set(BTreeSet::new());
    }

    /// Opens a group of the form, brings it into view and gives it the focus.
    pub fn show_group(self, name: &'static str) {
        self.panel.set(Panel::Numbers);
        self.focus.set(name);
        focus::soon(vec![format!("#group-{name} > summary")]);
        request_animation_frame(move || {
            if let Some(group) = document().get_element_by_id(&format!("group-{name}")) {
                group.scroll_into_view();
            }
        });
    }

    /// Whether there is a step to take back, or a text that cannot be used.
    pub fn can_undo(self) -> bool {
        self.history.with(|history| !history.earlier.is_empty())
            || self.rejected.with(|rejected| !rejected.is_empty())
    }

    /// Whether there is a step to do again.
    pub fn can_redo(self) -> bool {
        self.history.with(|history| !history.later.is_empty())
    }

    /// Takes back what was typed last and could not be used, or else the last step; where none is left, all that is still
    /// refused.
    pub fn undo(self) {
        self.turned.set(());
        let steps = self.history.with_untracked(|history| history.earlier.len());
        if steps == 0 {
            self.rejected.set(BTreeMap::new());
            return;
        }
        let is_last = |rejected: &Rejected| {
            rejected.steps == steps && !rejected.reason.is_empty() && !rejected.typed.is_empty()
        };
        if (self.rejected).with_untracked(|all| all.values().any(is_last)) {
            (self.rejected).update(|all| all.retain(|_, rejected| !is_last(rejected)));
            return;
        }
        self.travel(|history| (&mut history.earlier, &mut history.later));
    }

    /// Does the step again that was taken back last.
    pub fn redo(self) {
        self.turned.set(());
        self.travel(|history| (&mut history.later, &mut history.earlier));
    }

    fn travel(self, way: impl FnOnce(&mut History) -> (&mut Vec<Design>, &mut Vec<Design>)) {
        let now = self.design.get_untracked();
        let mut target = None;
        self.history.update(|history| {
            history.typing = None;
            let (from, to) = way(history);
            if let Some(design) = from.pop() {
                to.push(now);
                target = Some(design);
            }
        });
        if let Some(design) = target {
            self.put(design);
        }
    }
}

/// The paths of fields of which it is told that they cannot be used: those that only wait for a text are not among them.
fn told(rejected: &BTreeMap<String, Rejected>) -> impl Iterator<Item = &String> {
    (rejected.iter())
        .filter(|(_, rejected)| !rejected.reason.is_empty())
        .map(|(path, _)| path)
}

/// Whether an assessment was made anew; two of the same design need no look at their numbers.
fn is_another(before: Option<&Arc<Assessment>>, after: Option<&Arc<Assessment>>) -> bool {
    match (before, after) {
        (Some(before), Some(after)) => !Arc::ptr_eq(before, after),
        _ => true,
    }
}
