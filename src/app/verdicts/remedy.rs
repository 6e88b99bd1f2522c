//! The changes that would make a question pass, in words, with a button that applies them.

use super::done::{DoneLine, LastStep};
use super::elsewhere;
use super::orders::order;
use super::search::Search;
use super::spoils::{Spoils, told_stops};
use super::trial::{Offered, Outcome};
use super::way::{Walk, WholeWay};
use crate::app::Workspace;
use crate::app::focus;
use crate::app::layout::UNDO;
use crate::app::naming::lower_first;
use crate::app::shown::{Show, live};
use crate::design::Design;
use crate::design::quantity::System;
use crate::review::{Assessment, BestStep, Chapter, Pair, Remedy, Verdict};
use leptos::prelude::*;
use std::cmp::Reverse;

/// What stands between two changes at once.
pub const BOTH: &str = "; and ";

/// What can be taken with one press.
#[derive(Debug, Clone, PartialEq)]
pub enum Proposal {
    /// One change, or a lever that is not enough alone.
    One(Remedy),
    /// Two changes at once.
    Two(Pair),
}

impl Proposal {
    /// What it changes, in words.
    pub fn words(&self, design: &Design, system: System) -> String {
        let parts = self.parts(design, system).into_iter();
        let words: Vec<String> = parts.map(|(words, _)| words).collect();
        words.join(BOTH)
    }

    /// Each change in words, and what to know of it before it is taken; that is empty if there is nothing.
    pub fn parts(&self, design: &Design, system: System) -> Vec<(String, String)> {
        match self {
            Self::One(remedy) => {
                let told = remedy.reservations(system).join("; ");
                vec![(order(remedy, design, system), told)]
            }
            Self::Two(pair) => {
                let [first, second] = &pair.changes;
                let between = pair.between(design);
                let then = between.as_ref().unwrap_or(design);
                let second = lower_first(&order(second, then, system));
                let words = [order(first, design, system), second];
                words.into_iter().zip(pair.reservations(system)).collect()
            }
        }
    }

    /// The design with it; none where it is not enough alone, or does not fit.
    fn apply(&self, design: &Design) -> Option<Design> {
        match self {
            Self::One(remedy) => remedy.change.as_ref()?.apply(design),
            Self::Two(pair) => pair.apply(design),
        }
    }

    /// What stands on its button.
    pub fn press(&self) -> &'static str {
        match self {
            Self::One(_) => "Apply",
            Self::Two(_) => "Apply both",
        }
    }

    /// Whether there is something to take.
    fn is_offered(&self) -> bool {
        match self {
            Self::One(remedy) => remedy.change.is_some(),
            Self::Two(_) => true,
        }
    }

    /// What it mends besides the question that it is told at, in words; empty if nothing.
    pub fn mends(&self, assessment: &Assessment, told_at: Option<&str>) -> String {
        let Self::One(remedy) = self else {
            return String::new();
        };
        let titles: Vec<&str> = (remedy.mends.iter())
            .filter(|id| Some(**id) != told_at)
            .filter_map(|id| Some(assessment.finding(id)?.title))
            .collect();
        let what = match titles.as_slice() {
            [] => return String::new(),
            [one] => (*one).to_string(),
            [one, other] => format!("{one}; {other}"),
            [first, more @ ..] => format!("{first}, and {} more", more.len()),
        };
        let also = if told_at.is_some() { " also" } else { "" };
        format!("Mends{also}: {what}")
    }

    /// What else it does that is not wanted.
    pub fn spoils(&self, assessment: &Assessment) -> Spoils {
        let (worsens, brings, after) = match self {
            Self::One(remedy) => (&remedy.worsens, &remedy.brings, remedy.after),
            Self::Two(pair) => (&pair.worsens, &pair.brings, Some(pair.after)),
        };
        let worse = worsens.iter().filter_map(|(id, before, after)| {
            let finding = assessment.finding(id)?;
            let words = match before == after {
                true => format!("Makes a {} worse: {}", after.word(), finding.title),
                false => format!("Then {}: {}", after.word(), finding.title),
            };
            let is_new_stop = *after == Verdict::Stop && before != after;
            Some((is_new_stop, *after, finding.harm(), words))
        });
        // What is only asked with the change.
        let brought = brings.iter().map(|(title, now, harm)| {
            let words = format!("Then {}: {title}", now.word());
            (*now == Verdict::Stop, *now, *harm, words)
        });
        let mut told: Vec<_> = worse.chain(brought).collect();
        told.sort_by_key(|(is_new_stop, now, harm, _)| (Reverse((*is_new_stop, *now)), *harm));
        let new_stops = told.iter().filter(|(is_new_stop, ..)| *is_new_stop).count();
        Spoils {
            stops: after.map(|after| (assessment.count(Verdict::Stop), after.stops)),
            new_stops,
            names: told.into_iter().map(|(.., words)| words).collect(),
        }
    }
}

/// Said above pairs where no lever is enough alone, and above those that stand beside what is no matter of choice.
const TOGETHER: [&str; 2] = [
    "No single change is enough here; these two together are:",
    "No single change of what is built is enough; these two together are:",
];

/// Said above pairs where a change that is enough stands elsewhere.
const TOGETHER_TOO: &str = "These two together mend it too:";

/// Said where neither one change nor two are enough.
const NO_WAY: &str = "Of all that was tried, no change and no two together mend this without making something else worse.";

/// Said above what turns a Stop into a Watch, where nothing is enough.
const EASED: &str = "Of all that was tried, no change and no two together mend this without making something else worse. Not Good, but no Stop any more, with:";

/// Said above it where a change that is enough stands elsewhere.
const EASED_HERE: &str = "Not Good, but no Stop any more, with:";

/// What is said where no lever is enough alone, and what is offered then; no words where one is. What is enough may stand
/// elsewhere.
pub fn together(offered: &Offered, is_elsewhere: bool) -> (&'static str, Vec<Proposal>) {
    let one = |remedy: &Remedy| Proposal::One(remedy.clone());
    let two = |pair: &Pair| Proposal::Two(pair.clone());
    let none_passes = offered
        .remedies
        .iter()
        .all(|remedy| remedy.change.is_none());
    let words = match (offered.pairs.is_empty(), none_passes) {
        _ if offered.remedies.is_empty() => "",
        (false, _) if is_elsewhere => TOGETHER_TOO,
        (false, true) => TOGETHER[0],
        (false, false) => TOGETHER[1],
        (true, true) => match (offered.eased.is_empty(), is_elsewhere) {
            (true, true) => "",
            (true, false) => NO_WAY,
            (false, true) => EASED_HERE,
            (false, false) => EASED,
        },
        (true, false) => "",
    };
    let pairs = offered.pairs.iter().map(two);
    let eased = offered.eased.iter().filter(|_| none_passes).map(one);
    (words, pairs.chain(eased).collect())
}

/// What is offered for one finding: changes that are enough alone, then what is where none is. Levers that are not enough
/// alone, and all that a change elsewhere does as well, are only told when `all` are asked for.
#[component]
pub fn Remedies(id: &'static str, all: RwSignal<bool>, walk: Walk) -> impl IntoView {
    let search = Search::get();
    let pointer = elsewhere::pointer(walk, id);
    let is_elsewhere = Memo::new(move |_| pointer.with(Option::is_some));
    let folds = Memo::new(move |_| {
        let is_shared = pointer.with(|it| it.as_ref().is_some_and(|it| it.is_shared));
        is_shared && !all.get()
    });
    let found = Memo::new(move |_| {
        let offered = |outcome: &Outcome| outcome.offered.get(id).cloned();
        search
            .outcome
            .with(|outcome| offered(outcome))
            .unwrap_or_default()
    });
    let words = Memo::new(move |_| match folds.get() {
        true => "",
        false => found.with(|found| together(found, is_elsewhere.get()).0),
    });
    let alone = move || {
        let folds = folds.get();
        let remedies = found.get().remedies.into_iter();
        remedies
            .filter(|remedy| !folds && (all.get() || remedy.change.is_some()))
            .map(|remedy| view! { <Offer proposal=Proposal::One(remedy) told_at=id /> })
            .collect_view()
            .into_any()
    };
    let more = move || {
        let (_, proposals) = found.with(|found| together(found, is_elsewhere.get()));
        proposals
            .into_iter()
            .map(|proposal| view! { <Offer proposal told_at=id /> })
            .collect_view()
            .into_any()
    };
    view! {
        {elsewhere::shown(pointer)}
        <ul class="remedies">{live(alone)}</ul>
        <Show when=move || !words.get().is_empty()>
            <p class="no-way">{move || words.get()}</p>
            <ul class="remedies" data-together=id>
                {live(more)}
            </ul>
        </Show>
    }
}

/// What a step does to all verdicts, in words, where so many of its Stops are new.
fn effect(step: &BestStep, new_stops: usize) -> String {
    let (before, after) = step.stops;
    match step.more_watches.unsigned_abs() {
        _ if after < before => told_stops(before, after, new_stops),
        1 => "1 more question is Good".to_string(),
        more => format!("{more} more questions are Good"),
    }
}

/// What to take first, pairs before single steps, each with what it does; of pairs it is told that they are two.
pub fn best(outcome: &Outcome) -> Vec<(&'static str, Proposal, String)> {
    let before = outcome.found_for.as_ref();
    let stops = before.map_or(0, |before| before.count(Verdict::Stop));
    let new_stops =
        |proposal: &Proposal| before.map_or(0, |before| proposal.spoils(before).new_stops);
    let pairs = outcome.best.pairs.iter().map(|pair| {
        let proposal = Proposal::Two(pair.clone());
        let effect = told_stops(stops, pair.after.stops, new_stops(&proposal));
        ("Two changes together: ", proposal, effect)
    });
    let steps = outcome.best.steps.iter().map(|step| {
        let proposal = Proposal::One(step.remedy.clone());
        let effect = effect(step, new_stops(&proposal));
        ("", proposal, effect)
    });
    pairs.chain(steps).collect()
}

/// Said under the best steps where questions that stop are left.
const LEFT: &str = "None of the steps tried removes what still stops, unless you ask for less.";
/// Said before the titles of those at which something is offered all the same, and of those at which nothing is.
const OFFERED: &str = "What can be done stands there: ";
const NOT_OFFERED: &str = "No single change and no two together mend: ";
/// What a person can do then: first the button below, then what no number tells.
const DECIDE: &str = "Look for several, one after another, with the button below. Where they do not mend it either, take back the change that brought it, or build or get that part otherwise";
/// What may help besides, by what is at fault.
const BY_WHAT_IS_BURNT: &str = "; other wood, another engine or another vessel may do";
const BY_WHERE_IT_STANDS: &str = "; a wider or lower stand, or another place, may do";

/// The Stops that no best step removes, in words; none where one does, or nothing stops. No more than what was looked for
/// until all steps are.
pub fn left(outcome: &Outcome) -> Option<String> {
    let before = outcome.found_for.as_ref()?;
    let titles = outcome.best.leaves(before);
    if titles.is_empty() {
        return None;
    }
    let is_offered = |title: &&str| {
        let of_title = before
            .findings
            .iter()
            .filter(|finding| finding.title == *title);
        of_title
            .filter_map(|finding| outcome.offered.get(finding.id))
            .any(|offered| {
                let (_, more) = together(offered, false);
                !more.is_empty() || offered.remedies.iter().any(|one| one.change.is_some())
            })
    };
    let (offered, bare): (Vec<&str>, Vec<&str>) = titles.into_iter().partition(is_offered);
    let mut words = vec![LEFT.to_string()];
    if !offered.is_empty() {
        words.push(format!("{OFFERED}{}.", offered.join("; ")));
    }
    if !bare.is_empty() {
        let of = |chapters: &[Chapter]| {
            (before.findings.iter())
                .any(|one| bare.contains(&one.title) && chapters.contains(&one.chapter))
        };
        let burns = [
            Chapter::Heart,
            Chapter::Engine,
            Chapter::Warmth,
            Chapter::Hearth,
            Chapter::Train,
            Chapter::Breath,
        ];
        let helps = match (of(&burns), of(&[Chapter::Standing])) {
            (true, _) => BY_WHAT_IS_BURNT,
            (false, true) => BY_WHERE_IT_STANDS,
            (false, false) => "",
        };
        words.push(format!(
            "{NOT_OFFERED}{}. {DECIDE}{helps}.",
            bare.join("; ")
        ));
    }
    Some(words.join(" "))
}

/// What stands above so many best steps.
pub fn heading(steps: usize) -> &'static str {
    match steps {
        0 | 1 => "Best step",
        _ => "Best steps: any one of",
    }
}

/// The changes that mend most.
#[component]
pub fn BestSteps(walk: Walk) -> impl IntoView {
    let search = Search::get();
    let best = Memo::new(move |_| search.outcome.with(|outcome| best(outcome)));
    let left = Memo::new(move |_| search.outcome.with(|outcome| left(outcome)));
    let looking = Memo::new(move |_| !search.is_current.get());
    let last = LastStep::get();
    let all_told = Memo::new(move |_| walk.can_be_taken());
    // What all steps leave is told below, one by one.
    let untold = Memo::new(move |_| left.with(Option::is_some) && !walk.is_whole());
    view! {
        <Show when=move || {
            looking.get() || last.is_told() || best.with(|best| !best.is_empty())
                || left.with(Option::is_some)
        }>
            <section
                class="best-step"
                class:has-steps=move || best.with(|best| !best.is_empty())
                aria-label="Best step"
            >
                <DoneLine />
                <h2 tabindex="-1">
                    {move || match all_told.get() {
                        true => "All steps",
                        false => best.with(|best| heading(best.len())),
                    }}
                    " "
                    <span class="again">{STILL_LOOKING}</span>
                </h2>
                <Show when=move || best.with(Vec::is_empty) && left.with(Option::is_none)>
                    <p class="meaning">"Looking for what would mend most…"</p>
                </Show>
                <ul class="remedies" hidden=move || all_told.get()>
                    {move || {
                        best.get()
                            .into_iter()
                            .map(|(lead, proposal, effect)| {
                                view! { <Offer proposal lead effect /> }
                            })
                            .collect_view()
                    }}
                </ul>
                <Show when=move || untold.get()>
                    <p class="no-way" data-left="">{move || left.get()}</p>
                </Show>
                <WholeWay walk />
            </section>
        </Show>
    }
    .into_any()
}

/// Said of changes that were found before the design changed.
const STILL_LOOKING: &str = "for the numbers before; looking again…";

#[component]
fn Offer(
    proposal: Proposal,
    #[prop(optional)] lead: &'static str,
    #[prop(optional)] effect: String,
    #[prop(optional)] told_at: Option<&'static str>,
) -> impl IntoView {
    let workspace = Workspace::get();
    let search = Search::get();
    let last = LastStep::get();
    let is_current = search.is_current;
    let is_offered = proposal.is_offered();
    let is_pair = matches!(proposal, Proposal::Two(_));
    let press_words = proposal.press();
    let words = {
        let proposal = proposal.clone();
        move || {
            // A new name changes the words of a remedy that is the same otherwise.
            search.outcome.track();
            workspace
                .design
                .with_untracked(|design| proposal.words(design, workspace.system.get()))
        }
    };
    let told = {
        let proposal = proposal.clone();
        move || {
            search.outcome.track();
            let parts = (workspace.design)
                .with_untracked(|design| proposal.parts(design, workspace.system.get()));
            let part = |(place, (words, aside)): (usize, (String, String))| {
                let aside = (!aside.is_empty())
                    .then(|| view! { <span class="side-effect">" (" {aside} ")"</span> });
                view! {
                    {(place > 0).then_some(BOTH)}
                    {words}
                    {aside}
                }
            };
            let parts = parts.into_iter().enumerate().map(part);
            parts.collect_view().into_any()
        }
    };
    let outcome = (!effect.is_empty()).then(|| view! { <span class="effect">" " {effect}</span> });
    let mends =
        (workspace.assessment).with_untracked(|assessment| proposal.mends(assessment, told_at));
    let mends =
        (!mends.is_empty()).then(|| view! { <span class="effect mends">" " {mends}</span> });
    let spoils = (workspace.assessment).with_untracked(|assessment| proposal.spoils(assessment));
    let spoils = (!spoils.names.is_empty()).then(|| {
        let name = |name: String| view! { <p>{name}</p> };
        view! {
            <details class="spoils">
                <summary>{spoils.short(outcome.is_some())}</summary>
                {spoils.names.into_iter().map(name).collect_view()}
            </details>
        }
    });
    let apply = is_offered.then(|| {
        let named = words.clone();
        // What was found for an earlier state of the design may no longer mend it.
        let told = words.clone();
        let press = move |event: leptos::ev::MouseEvent| {
            if is_current.get_untracked() {
                let told = format!("Done: {}. Undo takes it back.", lower_first(&told()));
                let changed = workspace
                    .design
                    .with_untracked(|design| proposal.apply(design));
                if let Some(changed) = changed {
                    last.take(workspace, changed, told);
                }
                // Pressed by a key: the button goes, and whoever sees nothing would be left nowhere.
                if event.detail() == 0 {
                    focus::soon(vec![format!("#{UNDO}")]);
                }
            } else {
                workspace.said.set(format!("Found {STILL_LOOKING}"));
            }
        };
        view! {
            <button
                type="button"
                class="apply"
                aria-label=move || format!("{press_words}: {}", named())
                aria-disabled=move || (!is_current.get()).to_string()
                on:click=press
            >
                {press_words}
            </button>
        }
    });
    view! {
        <li class:no-way=!is_offered data-pair=is_pair.then_some("")>
            <span>
                {lead}
                {live(told)}
                {outcome}
                {mends}
            </span>
            {spoils}
            {apply}
        </li>
    }
}
