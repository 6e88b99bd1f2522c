//! What was answered binds the steps that are found later: the room, and an engine that is there.

use super::{power_wanted, stops, verdict};
use hearthplan::design::{Design, Value};
use hearthplan::review::guided::{Part, complete};
use hearthplan::review::{FACTS, Lever, Verdict, Way, assess, remedies, whole_way};

fn with(design: &Design, changes: &[(&str, f64)]) -> Design {
    let mut changed = design.clone();
    for (path, value) in changes {
        (changed.set(path, Value::Number(*value))).expect("a number in its range");
    }
    changed
}

/// A way through a design that stops leaves the machine in its room.
fn in_its_room(design: &Design) -> Way {
    assert!(!stops(design).is_empty(), "nothing to mend");
    let way = whole_way(design);
    assert!(way.end().1.count(Verdict::Stop) < stops(design).len());
    let end = way.end().0;
    assert_eq!(verdict(end, "standing.room"), Some(Verdict::Good));
    assert_eq!(
        [end.base.room_width, end.base.room_depth],
        [design.base.room_width, design.base.room_depth]
    );
    way
}

#[test]
fn all_steps_stay_in_the_room_that_was_answered() {
    let answered = with(
        &power_wanted(5.0),
        &[("base.width", 0.7), ("base.depth", 0.9)],
    );
    let design = complete(&answered, &[]);
    let tall = with(
        &design,
        &[
            ("hopper.height", 1.6),
            ("base.clearance", 0.9),
            ("site.storm_wind", 21.0),
        ],
    );
    assert!(stops(&tall).iter().any(|id| id.starts_with("standing.")));
    in_its_room(&tall);
    // Without a room the base is made wider.
    let mut free = tall.clone();
    (free.base.room_width, free.base.room_depth) = (None, None);
    let widens = |design: &Design| {
        let offered = remedies(design, "standing.tip_full");
        assert!(offered.iter().any(|remedy| remedy.change.is_some()));
        offered
            .iter()
            .any(|remedy| remedy.lever == Lever::input("base.width") && remedy.change.is_some())
    };
    assert!(widens(&free) && !widens(&tall));
}

#[test]
fn an_engine_that_is_there_stays() {
    let answered = with(&power_wanted(6.0), &[("engine.displacement", 0.42e-3)]);
    let design = complete(&answered, &[Part::Engine]);
    assert!(design.engine.at_hand);
    assert!(!complete(&answered, &[]).engine.at_hand);
    let way = whole_way(&design);
    assert_eq!(way.end().0.engine, design.engine);
    let found = assess(&design);
    for finding in &found.findings {
        for lever in &finding.levers {
            let told = format!("{lever:?}");
            let of_engine = told.contains("engine.") && !told.contains("engine.wanted_power");
            let is_fact = FACTS.iter().any(|fact| told.contains(fact));
            assert!(!of_engine || is_fact, "{}: {told}", finding.id);
        }
    }
    // What it takes is still said.
    let power = found.finding("engine.power").expect("asked");
    let told = power.compared.text(Default::default());
    assert!(
        told.contains("it takes another engine, of about "),
        "{told}"
    );
    let mut sought = design.clone();
    sought.engine.at_hand = false;
    let sought = assess(&sought);
    for id in ["engine.power", "train.engine_power"] {
        let levers = &sought.finding(id).expect("asked").levers;
        assert!(
            levers.contains(&Lever::input("engine.displacement")),
            "{id}"
        );
    }
}
