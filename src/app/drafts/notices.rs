//! What the person should know, above everything else.

use super::Drafts;
use super::sending::Sent;
use crate::app::panel::Panel;
use crate::app::shown::{Show, live};
use crate::app::{Workspace, focus, guide, landing};
use crate::design::{Design, Note};
use crate::review::guided::{Unmet, WiderVessel};
use leptos::ev::MouseEvent;
use leptos::prelude::*;
use std::sync::Arc;

/// What a notice's button does. Counted, not owned by the component that told it, since a notice
/// outlives what it is about.
pub(super) type Act = Arc<dyn Fn() + Send + Sync>;

/// A way back; whether it led back. What could not be taken back now may be later, so it stays on offer.
pub(super) type WayBack = Arc<dyn Fn() -> bool + Send + Sync>;

/// What the button of a notice does.
#[derive(Clone)]
pub(super) enum Press {
    /// Something that can be done elsewhere too.
    Act(Act),
    /// Something that no other place holds: the notice goes when it is done, and for no other notice.
    Back(WayBack),
}

/// Told of a design that came by link, until it is kept.
pub(super) const FROM_LINK: &str = "Opened from a link. It joins your designs when you change it.";

/// The same where a person has designs: with nothing to undo they must not seem to be lost.
pub(super) const FROM_LINK_BESIDE: &str =
    "Opened from a link. It joins your designs when you change it. Your own are under Designs.";

/// What becomes of either once the design is kept, where it came with a note: that is still to be read.
const WAS_FROM_LINK: &str = "From a link, and among your designs now.";

/// Told when another tab keeps this design otherwise, until this tab has a copy of its own.
pub(super) const CHANGED_ELSEWHERE: &str =
    "This design was changed in another tab. If you go on here, you get a copy of your own.";

/// Begins what is told of a file that cannot be opened.
const NO_FILE: &str = "The file cannot be opened.";

/// Longest text that is shown without folding, in characters.
const SHORT: usize = 80;

/// Something the person should know, with at most one thing to do about it.
#[derive(Clone)]
pub struct Notice {
    /// What happened.
    pub text: String,
    /// What the person who made the design has to say; empty if nothing.
    pub note: String,
    /// Whether all of the note is shown. Counted, so that it stays as it is while other notices come and go.
    whole: ArcRwSignal<bool>,
    /// Label of the button and what it does.
    pub(super) action: Option<(&'static str, Press)>,
    /// What was put into another design, where its button takes that back.
    pub(super) sent: Option<Arc<Sent>>,
    /// Whether it speaks of what stands in the design that is open, and goes when another takes its place.
    pub is_of_design: bool,
    /// Whether it is told where the page begins anyway. On a phone it then scrolls away with the page, while what answers
    /// something that was done further down stays in view.
    pub is_at_the_beginning: bool,
}

impl Notice {
    /// A notice with nothing to do about it.
    pub fn of(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            note: String::new(),
            whole: ArcRwSignal::new(false),
            action: None,
            sent: None,
            is_of_design: false,
            is_at_the_beginning: false,
        }
    }

    /// The same where the page begins, such as what is told when it comes up.
    pub fn at_the_beginning(mut self) -> Self {
        self.is_at_the_beginning = true;
        self
    }

    /// The same with a button.
    pub fn with(mut self, label: &'static str, act: Act) -> Self {
        self.action = Some((label, Press::Act(act)));
        self
    }

    /// The same with a button that is the only way back.
    pub(super) fn with_way_back(mut self, label: &'static str, back: WayBack) -> Self {
        self.action = Some((label, Press::Back(back)));
        self
    }

    /// The same with words of the person who made the design.
    pub fn with_note(mut self, note: &str) -> Self {
        self.note = note.trim().to_string();
        self
    }

    /// Whether what it holds would be lost with it.
    fn is_way_back(&self) -> bool {
        matches!(self.action, Some((_, Press::Back(_))))
    }

    /// Whether this is the very same notice, and not another of the same words.
    fn is(&self, other: &Self) -> bool {
        self.whole == other.whole
    }
}

impl Drafts {
    pub(super) fn tell(self, text: String) {
        self.notify(Notice::of(text));
    }

    /// Tells why a file cannot be opened, in the place of what was told of the one before, until a design is opened.
    pub(super) fn tell_of_file(self, why: &str) {
        self.notices
            .update(|notices| notices.retain(|known| !known.text.starts_with(NO_FILE)));
        let text = format!("{NO_FILE} {why} Your own designs are untouched.");
        self.notify(Notice {
            is_of_design: true,
            ..Notice::of(text)
        });
    }

    pub(super) fn tell_at_the_beginning(self, text: String) {
        self.notify(Notice::of(text).at_the_beginning());
    }

    /// Tells the person something, once. A way back takes the place of no other, even if both have the same words.
    pub fn notify(self, mut notice: Notice) {
        self.notices.update(|notices| {
            if notice.is_way_back() {
                while notices.iter().any(|known| known.text == notice.text) {
                    notice.text.insert_str(0, "Also: ");
                }
            }
            notices.retain(|known| known.is_way_back() || known.text != notice.text);
            notices.push(notice);
        });
    }

    /// Takes this one notice away.
    fn dismiss(self, notice: &Notice) {
        self.notices
            .update(|notices| notices.retain(|known| !known.is(notice)));
    }

    /// Does what the button of a notice says. What it has to say then stands alone; a way back that leads nowhere yet stays.
    fn press(self, notice: &Notice) {
        match &notice.action {
            Some((_, Press::Act(act))) => {
                self.dismiss(notice);
                act();
            }
            Some((_, Press::Back(back))) if back() => self.dismiss(notice),
            _ => {}
        }
    }

    /// Tells what a design out of the first questions does not meet, and what became of the answers, as long as that holds;
    /// whether there is anything.
    pub fn tell_unmet(self, answered: &Design, wider: Option<WiderVessel>) -> bool {
        let unmet = self.workspace.assessment.with_untracked(|assessment| {
            (self.workspace.design)
                .with_untracked(|design| Unmet::of(answered, design, assessment, wider))
        });
        let any = unmet.is_some();
        self.unmet.set(unmet);
        if any {
            focus::soon(vec![format!("#{UNMET}")]);
            landing::soon_at_the_top();
        }
        any
    }

    /// Takes a notice back that no longer holds.
    pub(super) fn take_back(self, text: &str) {
        let told = |notice: &Notice| notice.text == text;
        if self
            .notices
            .with_untracked(|notices| notices.iter().any(told))
        {
            self.notices
                .update(|notices| notices.retain(|notice| !told(notice)));
        }
    }

    /// Takes back what only holds for the design that was open before.
    pub(super) fn take_back_of_before(self) {
        if self.unmet.with_untracked(Option::is_some) {
            self.unmet.set(None);
        }
        let of_before = |notice: &Notice| notice.is_of_design;
        if (self.notices).with_untracked(|notices| notices.iter().any(of_before)) {
            self.notices
                .update(|notices| notices.retain(|notice| !of_before(notice)));
        }
    }

    /// The design that came by link is kept now: that it came so is told no longer, but for the words that came with it.
    pub(super) fn take_back_from_link(self) {
        for text in [FROM_LINK, FROM_LINK_BESIDE] {
            let place = (self.notices).with_untracked(|notices| {
                let mut notices = notices.iter();
                notices.position(|notice| notice.text == text && !notice.note.is_empty())
            });
            match place {
                Some(place) => self
                    .notices
                    .update(|notices| notices[place].text = WAS_FROM_LINK.to_string()),
                None => self.take_back(text),
            }
        }
    }

    pub(super) fn tell_notes(self, notes: &[Note]) {
        let system = self.workspace.system.get_untracked();
        let more = notes.len().saturating_sub(5);
        let told = (notes.iter().take(5).map(|note| note.sentence(system))).chain(
            (more > 0).then(|| format!("And {more} more things were not taken as they stand.")),
        );
        for text in told {
            self.notify(Notice {
                is_of_design: true,
                ..Notice::of(text).at_the_beginning()
            });
        }
    }
}

/// Id of what is told of a design out of the first questions.
const UNMET: &str = "unmet";

/// What the person should know, above everything else.
#[component]
pub fn Notices() -> impl IntoView {
    let drafts = Drafts::get();
    view! {
        <div class="notices" role="status">
            <StillAsked />
            <StillUnmet />
            {move || {
                (drafts.notices.get().into_iter())
                    .map(|notice| told(drafts, notice))
                    .collect_view()
            }}
        </div>
    }
}

/// Where another panel takes the place of the first questions: that the design is not finished, and the way back.
#[component]
fn StillAsked() -> impl IntoView {
    let workspace = Workspace::get();
    let is_in_sight = workspace.on_screen(Panel::Numbers);
    let go_on = move |_| {
        workspace.panel.set(Panel::Numbers);
        focus::soon(vec![format!("#{} h2", guide::ID)]);
        landing::soon_at(workspace, Panel::Numbers);
    };
    let is_left = move || {
        let is_asked = workspace.question.with(Option::is_some);
        is_asked && workspace.is_narrow() && !is_in_sight.get()
    };
    view! {
        <Show when=is_left>
            <div class="notice">
                <span>"The first questions are not finished: nothing is sized yet."</span>
                <button type="button" on:click=go_on>"Go on"</button>
            </div>
        </Show>
    }
}

/// What a design out of the first questions does not meet, until it does.
#[component]
fn StillUnmet() -> impl IntoView {
    let drafts = Drafts::get();
    let workspace = Workspace::get();
    let still = Memo::new(move |_| {
        let unmet = drafts.unmet.get()?;
        let system = workspace.system.get();
        (workspace.assessment).with(|assessment| {
            (workspace.design).with_untracked(|design| unmet.still(design, assessment, system))
        })
    });
    let whole = ArcRwSignal::new(false);
    live(move || {
        let Some(still) = still.get() else {
            return ().into_any();
        };
        let lead = still.lead;
        let rest = still.more.join("\n");
        let has_rest = !rest.is_empty();
        let is_open = whole.clone();
        view! {
            <div class="notice" id=UNMET tabindex="-1">
                <span>{lead.clone()}</span>
                {has_rest.then(|| more(whole.clone()))}
                {dismissing(&lead, Arc::new(move || drafts.unmet.set(None)))}
                <p class="notice-note" hidden=move || !is_open.get()>
                    {rest}
                </p>
            </div>
        }
        .into_any()
    })
}

/// A notice, its note cut to the beginning where it is long.
fn told(drafts: Drafts, notice: Notice) -> AnyView {
    let is_long = notice.note.chars().count() > SHORT || notice.note.contains('\n');
    let whole = notice.whole.clone();
    let is_cut = move || is_long && !whole.get();
    let label = notice.action.as_ref().map(|(label, _)| *label);
    let (pressed, dismissed) = (notice.clone(), notice.clone());
    let dismiss: Act = Arc::new(move || drafts.dismiss(&dismissed));
    view! {
        <div class="notice" class:in-view=!notice.is_at_the_beginning>
            <span>{notice.text.clone()}</span>
            {(!notice.note.is_empty())
                .then(|| view! { <q class="notice-note" class:cut=is_cut>{notice.note}</q> })}
            {is_long.then(|| more(notice.whole))}
            {label
                .map(|label| {
                    view! {
                        <button
                            type="button"
                            on:click=move |event| {
                                give_focus_on(drafts, &event);
                                drafts.press(&pressed);
                            }
                        >
                            {label}
                        </button>
                    }
                })}
            {dismissing(&notice.text, dismiss)}
        </div>
    }
    .into_any()
}

/// A notice that was answered goes: the next one gets the focus. What is done by it may want it elsewhere after that.
fn give_focus_on(drafts: Drafts, event: &MouseEvent) {
    let next = ".notice.in-view button".to_string();
    focus::after_press(
        event,
        vec![next, drafts.workspace.where_panels_are_chosen()],
    );
}

/// The button that unfolds what is cut, and folds it again.
fn more(whole: ArcRwSignal<bool>) -> AnyView {
    let (is_whole, label) = (whole.clone(), whole.clone());
    view! {
        <button
            type="button"
            aria-expanded=move || is_whole.get().to_string()
            on:click=move |_| whole.update(|whole| *whole = !*whole)
        >
            {move || if label.get() { "Less" } else { "More" }}
        </button>
    }
    .into_any()
}

/// The button that takes a notice away; of several each says which one it is for.
fn dismissing(text: &str, act: Act) -> AnyView {
    view! {
        <button type="button" aria-label=format!("Dismiss: {text}") on:click=move |_| act()>
            "×"
        </button>
    }
    .into_any()
}
