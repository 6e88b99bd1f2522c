//! Another design beside the one on the bench: what differs, and taking values over either way.

mod panel;
mod rows;
mod tables;

pub use panel::{Compare, ComparisonBar};

use super::Workspace;
use super::drafts::{self, Drafts, called};
use super::focus;
use super::landing;
use super::panel::Panel;
use crate::design::Design;
use crate::design::difference::{
    Differing, differences, how_many_differences, how_much, take_over,
};
use crate::design::link::{self, Answer, Linked};
use crate::review::{self, Assessment};
use leptos::prelude::*;
use std::sync::Arc;

/// How the other design came here.
#[derive(Debug, Clone, PartialEq)]
pub enum Origin {
    /// One of the person's own, kept under this key with this revision.
    Draft(String, u64),
    /// The same while it is on the bench itself: there is nothing to compare then.
    Open(String, u64),
    /// One of the person's own that was deleted since: its key and revision. What is here is a copy.
    Deleted(String, u64),
    /// The design on the bench, kept under this key, as it was when it was pinned.
    Earlier(String),
    /// The same while another design is on the bench: there is nothing to compare until this one is there again.
    Waiting(String),
    /// The design of someone's link as it came, from which the one on the bench was made.
    AsItCame,
    /// Someone's link.
    Link,
    /// Someone's answer, with what they have to say.
    Answer(String),
}

impl Origin {
    /// What the two designs are called, the open one first.
    fn names(&self, open: &str, other: &str) -> [String; 2] {
        let [open, other] = [called(open), called(other)];
        let alike = open == other;
        match self {
            Origin::Earlier(_) => ["Now", "Before"].map(str::to_string),
            Origin::AsItCame => ["Your answer", "From the link"].map(str::to_string),
            Origin::Answer(_) => [open, "Answer".to_string()],
            Origin::Link if alike => [format!("{open} (mine)"), format!("{other} (from the link)")],
            _ if alike => [format!("{open} (open)"), format!("{other} (the other)")],
            _ => [open, other],
        }
    }

    /// Whether the open design stands in the second column, of which better and worse are said. Not where someone's
    /// design is looked at for what it would change.
    fn open_is_second(&self) -> bool {
        !matches!(self, Origin::Link | Origin::Answer(_))
    }

    /// Whether it is the design on the bench in an earlier state: values can only be put back then.
    fn is_earlier(&self) -> bool {
        matches!(self, Origin::Earlier(_) | Origin::AsItCame)
    }

    /// Whether both are the person's own: then their names only tell them apart.
    fn is_own(&self) -> bool {
        matches!(
            self,
            Origin::Draft(..) | Origin::Open(..) | Origin::Deleted(..)
        )
    }

    /// Whether the other's name and note go along when all of it is taken over.
    fn gives_name_and_note(&self) -> bool {
        self.is_earlier() || matches!(self, Origin::Answer(_))
    }
}

/// The other design.
#[derive(Debug, Clone, PartialEq)]
pub struct Pinned {
    /// The design.
    pub design: Design,
    /// How it came here.
    pub origin: Origin,
}

impl Pinned {
    /// The design, where it is not the one on the bench, nor what another one was.
    fn other(&self) -> Option<&Design> {
        let is_none = matches!(self.origin, Origin::Open(..) | Origin::Waiting(_));
        (!is_none).then_some(&self.design)
    }

    /// Whether both are the same design in the same state, however often it was kept meanwhile.
    pub fn is_the_same(&self, as_this: &Self) -> bool {
        let is_of_one = match (&self.origin, &as_this.origin) {
            (Origin::Draft(one, _), Origin::Draft(other, _)) => one == other,
            (one, other) => one == other,
        };
        is_of_one && self.design == as_this.design
    }
}

/// Handle to the comparison; cheap to copy, found in context.
#[derive(Clone, Copy)]
pub struct Comparison {
    workspace: Workspace,
    /// The other design, while a comparison is on.
    pub pinned: RwSignal<Option<Pinned>>,
    /// Its assessment.
    pub assessment: Memo<Option<Arc<Assessment>>>,
    /// Everything in which the two differ.
    pub found: Memo<Arc<Vec<Differing>>>,
    /// What the columns are called.
    names: Memo<[String; 2]>,
}

impl Comparison {
    /// The comparison of the app.
    pub fn get() -> Self {
        expect_context::<Self>()
    }

    /// Takes up the comparison that was on when the page was left.
    pub fn start(workspace: Workspace) -> Self {
        let pinned = RwSignal::new(drafts::last_pinned().and_then(|text| restored(&text)));
        let assessment = Memo::new_with_compare(
            move |_| {
                pinned.with(|pinned| {
                    let other = pinned.as_ref()?.other()?;
                    Some(Arc::new(review::assess(other)))
                })
            },
            |_, _| true,
        );
        let found = Memo::new(move |_| {
            Arc::new(pinned.with(|pinned| {
                let Some(pinned) = pinned else {
                    return Vec::new();
                };
                let mut found = pinned.other().map_or_else(Vec::new, |other| {
                    workspace.design.with(|design| differences(design, other))
                });
                if pinned.origin.is_own() {
                    found.retain(|it| !it.is_the_name());
                }
                found
            }))
        });
        let names = Memo::new(move |_| {
            pinned.with(|pinned| {
                pinned
                    .as_ref()
                    .map_or_else(Default::default, |Pinned { design, origin }| {
                        let mut names = (workspace.design)
                            .with(|open| origin.names(&open.about.name, &design.about.name));
                        if origin.open_is_second() {
                            names.reverse();
                        }
                        names
                    })
            })
        });
        Effect::new(move |before: Option<()>| {
            let text = pinned.with(|pinned| pinned.as_ref().map(kept));
            // A link that the page was opened with may have pinned its answer before this runs for the first time.
            if before.is_some() || text.is_some() {
                drafts::remember_pinned(text.as_deref());
            }
        });
        Self {
            workspace,
            pinned,
            assessment,
            found,
            names,
        }
    }

    /// Whether a comparison is on.
    pub fn is_on(self) -> bool {
        self.pinned.with(Option::is_some)
    }

    /// Whether there is another design to compare with the one on the bench.
    pub fn has_other(self) -> bool {
        (self.pinned).with(|pinned| pinned.as_ref().is_some_and(|it| it.other().is_some()))
    }

    /// Whether the other design is the one on the bench as it was.
    pub fn is_with_earlier(self) -> bool {
        (self.pinned).with(|pinned| matches!(pinned, Some(pinned) if pinned.origin.is_earlier()))
    }

    /// Whether the other design is someone's answer.
    pub fn is_with_answer(self) -> bool {
        (self.pinned).with(
            |pinned| matches!(pinned, Some(pinned) if matches!(pinned.origin, Origin::Answer(_))),
        )
    }

    /// Whether the other design was deleted since it was pinned.
    pub fn is_with_deleted(self) -> bool {
        (self.pinned).with(
            |pinned| matches!(pinned, Some(pinned) if matches!(pinned.origin, Origin::Deleted(..))),
        )
    }

    /// Whether the open design stands in the second column.
    fn open_is_second(self) -> bool {
        (self.pinned)
            .with(|pinned| (pinned.as_ref()).is_none_or(|pinned| pinned.origin.open_is_second()))
    }

    /// Whether the open design stands in this column.
    fn is_open_one(self, column: usize) -> bool {
        (column == 1) == self.open_is_second()
    }

    /// What the design on the bench has, and the other, in the order of the columns.
    fn in_columns<T>(self, [here, other]: [T; 2]) -> [T; 2] {
        if self.open_is_second() {
            [other, here]
        } else {
            [here, other]
        }
    }

    /// What stands on the button that takes over all.
    fn take_all_words(self) -> &'static str {
        self.pinned.with(
            |pinned| match pinned.as_ref().map(|pinned| &pinned.origin) {
                Some(Origin::Earlier(_) | Origin::AsItCame) => "Put all back",
                Some(Origin::Answer(_)) => "Use everything in the answer",
                _ => "Use everything in the other design",
            },
        )
    }

    /// Pins a design and shows what differs.
    pub fn pin(self, design: Design, origin: Origin) {
        self.pinned.set(Some(Pinned { design, origin }));
        self.look();
    }

    /// Shows what differs.
    fn look(self) {
        self.workspace.panel.set(Panel::Compare);
        focus::soon(vec!["#panel-compare h2".to_string()]);
        landing::soon_at(self.workspace, Panel::Compare);
    }

    /// Ends the comparison; both designs stay as they are.
    pub fn stop(self) {
        self.pinned.set(None);
        if self.workspace.panel.get_untracked() == Panel::Compare {
            self.workspace.panel.set(Panel::Verdicts);
        }
        // What was pressed is gone. Comparing begins among the designs.
        focus::soon(vec![self.workspace.where_panels_are_chosen()]);
    }

    /// How much differs, in words. Names tell designs apart, so that another one is only news in an answer.
    fn how_much(self) -> String {
        let (is_answer, are_changes) =
            self.pinned.with(
                |pinned| match pinned.as_ref().map(|pinned| &pinned.origin) {
                    Some(Origin::Answer(_)) => (true, true),
                    Some(Origin::Earlier(_)) => (false, true),
                    Some(Origin::AsItCame) => (true, true),
                    _ => (false, false),
                },
            );
        let in_words = |found: &Arc<Vec<Differing>>| {
            let told = found.iter().filter(|it| is_answer || !it.is_the_name());
            match are_changes {
                true => how_much(told),
                false => how_many_differences(told),
            }
        };
        self.found.with(in_words)
    }

    /// Whether one's own name and note stay when all is taken over.
    fn keeps_name_and_note(self) -> bool {
        (self.pinned).with(|pinned| {
            (pinned.as_ref()).is_some_and(|pinned| !pinned.origin.gives_name_and_note())
        })
    }

    /// What is taken over with all: one's own name and note stay, unless the other is this very design or an answer.
    pub fn all_to_take(self) -> Vec<Differing> {
        let are_kept = self.keeps_name_and_note();
        let is_taken = |it: &&Differing| !(are_kept && it.is_name_or_note());
        (self.found).with(|found| found.iter().filter(is_taken).cloned().collect())
    }

    /// Takes these things over into the design on the bench, as one undo step.
    pub fn take(self, wanted: &[Differing]) {
        let Some(pinned) = self.pinned.get_untracked() else {
            return;
        };
        let mut is_whole = true;
        (self.workspace).change(|design| is_whole = take_over(wanted, &pinned.design, design));
        self.say_if_full(is_whole);
    }

    /// Puts one thing from the bench into the other design; a draft is kept so at once.
    pub fn give(self, differing: &Differing) {
        let mine = self.workspace.design.get_untracked();
        let wanted = [differing.reversed()];
        let mut is_whole = true;
        Drafts::get().change_pinned(|design| is_whole = take_over(&wanted, &mine, design));
        self.say_if_full(is_whole);
    }

    fn say_if_full(self, is_whole: bool) {
        if !is_whole {
            self.workspace.said.set(FULL.to_string());
        }
    }
}

/// Said where a list takes no more.
const FULL: &str = "Not all could be put there: the list is full. Take something out of it first.";

/// The pinned design as a text to remember: where it came from, and a link.
fn kept(pinned: &Pinned) -> String {
    match &pinned.origin {
        Origin::Draft(id, revision) | Origin::Open(id, revision) => {
            format!("draft {id} {revision} {}", link::write(&pinned.design))
        }
        Origin::Deleted(id, revision) => {
            format!("deleted {id} {revision} {}", link::write(&pinned.design))
        }
        Origin::Earlier(id) | Origin::Waiting(id) => {
            format!("earlier {id} {}", link::write(&pinned.design))
        }
        Origin::AsItCame => format!("came {}", link::write(&pinned.design)),
        Origin::Link => format!("link {}", link::write(&pinned.design)),
        Origin::Answer(note) => format!(
            "answer {}",
            link::write_answer(&Answer {
                base: Design::default(),
                design: pinned.design.clone(),
                note: note.clone(),
            })
        ),
    }
}

fn restored(text: &str) -> Option<Pinned> {
    let mut words = text.split(' ');
    let (origin, link) = match words.next()? {
        "draft" => {
            let origin = Origin::Draft(words.next()?.to_string(), words.next()?.parse().ok()?);
            (origin, words.next()?)
        }
        "deleted" => {
            let origin = Origin::Deleted(words.next()?.to_string(), words.next()?.parse().ok()?);
            (origin, words.next()?)
        }
        "earlier" => (Origin::Earlier(words.next()?.to_string()), words.next()?),
        "came" => (Origin::AsItCame, words.next()?),
        "link" => (Origin::Link, words.next()?),
        _ => (Origin::Answer(String::new()), words.next()?),
    };
    Some(match link::open(link).ok()? {
        Linked::Design(opened) => Pinned {
            design: opened.design,
            origin,
        },
        Linked::Answer(answer, _) => Pinned {
            design: answer.design,
            origin: Origin::Answer(answer.note),
        },
    })
}
