//! Remedies that lie between too small and too large, and those for which the smallest change would not do.

use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Change, Lever, Remedy, Verdict, assess, remedies};

/// The improved example with one number changed.
fn with(path: &str, number: f64) -> Design {
    let mut design = example::as_improved();
    design.set(path, Value::Number(number)).unwrap();
    design
}

/// What one input does for a question.
fn by(design: &Design, id: &str, path: &str) -> Remedy {
    (remedies(design, id).into_iter())
        .find(|remedy| remedy.lever == Lever::input(path.to_string()))
        .unwrap_or_else(|| panic!("{path} is no lever of {id}"))
}

#[test]
fn a_number_between_too_small_and_too_large_is_found() {
    for (path, wrong, id) in [
        ("hearth.nozzle_bore", 0.014, "hearth.nozzle_velocity"),
        ("hearth.nozzle_count", 12.0, "hearth.nozzle_velocity"),
        ("train.1.body_diameter", 0.3, "train.cyclone"),
        ("holes.0.height", 0.3825, "marking.nozzles"),
    ] {
        let design = with(path, wrong);
        let before = assess(&design).finding(id).unwrap().verdict;
        assert_ne!(before, Verdict::Good, "{path}");
        let remedy = by(&design, id, path);
        let Some(Value::Number(found)) = remedy.value else {
            panic!("{path}: {remedy:?}");
        };
        let right = example::as_improved();
        let Some(Value::Number(right)) = right.get(path) else {
            panic!("{path} is no number");
        };
        assert!(
            (found - right).abs() < 0.2 * right,
            "{path}: {found}, it was {right}"
        );
        let after = assess(&remedy.change.unwrap().apply(&design).unwrap());
        assert_eq!(after.finding(id).unwrap().verdict, Verdict::Good, "{path}");
    }
}

#[test]
fn a_pipe_is_not_made_so_little_wider_that_something_else_stops() {
    for path in ["train.0.bore", "train.5.bore"] {
        let design = with(path, 0.010);
        let remedy = by(&design, "breath.startup", path);
        let after = assess(&remedy.change.unwrap().apply(&design).unwrap());
        assert_eq!(after.count(Verdict::Stop), 0, "{path}");
    }
}

#[test]
fn a_wool_that_bears_too_little_is_changed_for_one_that_bears_more() {
    let mut design = example::as_improved();
    let place = (design.hearth_layers.iter())
        .position(|layer| design.material(layer.material).is_ok_and(|it| it.insulates))
        .unwrap();
    let path = format!("hearth_layers.{place}.material");
    design
        .set(&path, Value::Choice("rock_wool".to_string()))
        .unwrap();
    let remedy = by(&design, "warmth.layers_hearth", &path);
    let Some(Change::Set {
        value: Value::Choice(name),
        ..
    }) = remedy.change
    else {
        panic!("nothing offered");
    };
    assert!(name.starts_with("ceramic_blanket"), "{name}");
}

#[test]
fn what_stops_something_else_is_offered_last() {
    let first = example::as_first_drawn();
    let mut seen = 0;
    for finding in &assess(&first).findings {
        let offered = remedies(&first, finding.id);
        let stops: Vec<bool> = (offered.iter())
            .filter(|remedy| remedy.change.is_some())
            .map(|remedy| {
                (remedy.worsens.iter())
                    .any(|(_, then, now)| *now == Verdict::Stop && *then != Verdict::CannotTell)
            })
            .collect();
        seen += usize::from(stops.contains(&true) && stops.contains(&false));
        assert!(stops.is_sorted(), "{}: {stops:?}", finding.id);
    }
    assert!(seen > 0);
}
