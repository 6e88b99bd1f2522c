//! What fails for one cause is told with the one change that mends it all.

use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{
    Advice, Assessment, Elsewhere, Own, Place, Remedy, Verdict, assess, best_steps_or_pairs,
    mended_elsewhere, remedies,
};
use std::collections::BTreeMap;

/// All that is offered for a design.
struct Offered {
    design: Design,
    before: Assessment,
    advice: Advice,
    remedies: BTreeMap<&'static str, Vec<Remedy>>,
}

impl Offered {
    fn of(design: Design) -> Self {
        let before = assess(&design);
        let bad = (before.findings.iter()).filter(|finding| finding.verdict != Verdict::Good);
        let remedies = bad
            .map(|finding| (finding.id, remedies(&design, finding.id)))
            .collect();
        Self {
            advice: best_steps_or_pairs(&design),
            design,
            before,
            remedies,
        }
    }

    fn elsewhere(&self) -> BTreeMap<&'static str, Elsewhere> {
        let own = |id: &str| -> Own<'_> {
            let singles = self.remedies.get(id);
            (singles.map_or(&[], Vec::as_slice), &[])
        };
        mended_elsewhere(&self.before, &self.advice, &own)
    }

    fn with(&self, remedy: &Remedy) -> Assessment {
        let change = remedy.change.as_ref().expect("something is offered");
        assess(&change.apply(&self.design).expect("fits the design"))
    }
}

fn narrow() -> Design {
    let mut design = example::as_improved();
    let width = Value::Number(0.35);
    design.set("base.width", width).expect("within its range");
    design
}

/// The wall that takes the heat spoils the gas at every load, and one thickness of wool mends all of it: one question tells
/// that thickness, the others lead to it.
#[test]
fn one_cause_is_told_once() {
    let offered = Offered::of(example::as_first_drawn());
    let elsewhere = offered.elsewhere();
    let best = &offered.advice.steps[0].remedy;
    for id in ["heart.full", "heart.usual", "warmth.loss"] {
        let told = elsewhere.get(id).unwrap_or_else(|| panic!("{id}"));
        assert_eq!(
            (told.place, &told.remedy.change),
            (Place::BestSteps, &best.change)
        );
    }
    assert_eq!(
        elsewhere.get("heart.idle"),
        None,
        "it offers the very change"
    );
    assert_eq!(elsewhere.get("electrics.cables"), None, "so it does here");
    assert_eq!(elsewhere["electrics.fuses"].place, Place::BestSteps);
    let push = Place::Question("standing.push");
    assert_eq!(
        elsewhere["standing.tip_full"].place, push,
        "no best step, but told before"
    );
    assert_eq!(elsewhere.get("standing.push"), None);
}

#[test]
fn what_is_told_elsewhere_does_as_much_as_what_is_offered_here() {
    for design in [example::as_first_drawn(), narrow()] {
        let offered = Offered::of(design);
        let elsewhere = offered.elsewhere();
        assert!(elsewhere.len() > 2, "{}", elsewhere.len());
        for (id, told) in &elsewhere {
            let after = offered.with(&told.remedy);
            let finding = after.finding(id).expect("still asked");
            assert_eq!(finding.verdict, Verdict::Good, "{id}");
            assert!(told.remedy.reservations(System::Metric).is_empty(), "{id}");
            let mut own = offered.remedies[id]
                .iter()
                .filter(|own| own.change.is_some());
            let does_as_well = own.all(|own| told.remedy.after <= own.after);
            assert!(does_as_well, "{id} has something better");
            if let Place::Question(place) = told.place {
                let there = &offered.remedies[place];
                assert!(there.contains(&told.remedy), "{id} leads to {place}");
                assert!(!elsewhere.contains_key(place), "{place} leads on");
            }
        }
    }
}

/// A way out that gives up what was asked for, or takes another engine, hides nothing.
#[test]
fn what_there_is_to_know_of_stands_for_nothing_else() {
    let mut design = example::as_improved();
    design.fuel.moisture *= 1.6;
    design.engine.displacement *= 0.6;
    let offered = Offered::of(design);
    let wish = (offered.advice.steps.iter())
        .find(|step| !step.remedy.reservations(System::Metric).is_empty())
        .expect("another engine does it");
    assert!(wish.remedy.mends.len() > 1);
    let elsewhere = offered.elsewhere();
    assert!(!elsewhere.contains_key("warmth.loss_idle"));
}

#[test]
fn a_change_mends_what_it_says_and_nothing_else() {
    let offered = Offered::of(narrow());
    let mut count = 0;
    for (id, tried) in &offered.remedies {
        for remedy in tried.iter().filter(|remedy| remedy.change.is_some()) {
            let after = offered.with(remedy);
            let good = |id: &str| after.finding(id).map(|now| now.verdict) == Some(Verdict::Good);
            let mut mended: Vec<&str> = (offered.remedies.keys().copied())
                .filter(|id| good(id))
                .collect();
            let mut told = remedy.mends.clone();
            mended.sort_unstable();
            told.sort_unstable();
            assert_eq!(told, mended, "{id}");
            assert!(told.contains(id));
            count += 1;
        }
    }
    assert!(count > 3, "{count}");
}
