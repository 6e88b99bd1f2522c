//! A best step does what it says, counted again by the whole review.

use crate::random_design::random_design;
use hearthplan::design::inputs::StageKind;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::guided::{Part, complete};
use hearthplan::review::{
    Advice, Change, Lever, Verdict, assess, best_step, best_steps_or_pairs, remedies,
};

const DESIGNS: u64 = if cfg!(target_family = "wasm") { 2 } else { 12 };

fn check(design: &Design) -> usize {
    let before = assess(design);
    let steps = best_step(design);
    for step in &steps {
        let after = assess(&step.change.apply(design).expect("fits the design"));
        assert_eq!(
            step.stops,
            (before.count(Verdict::Stop), after.count(Verdict::Stop))
        );
        let open = |one: &hearthplan::review::Assessment| {
            one.count(Verdict::Watch) + one.count(Verdict::CannotTell)
        };
        let more = open(&after) as isize - open(&before) as isize;
        assert_eq!(step.more_watches, more);
        assert!(step.stops.1 < step.stops.0 || step.more_watches < 0);
        assert!(step.size >= 0.0 && step.size.is_finite());
        if let Change::Set { path, .. } = &step.change {
            assert!(!path.starts_with("limits."), "{path}");
        }
    }
    let left = |step: &hearthplan::review::BestStep| {
        let remedy = &step.remedy;
        // What could not be told before may have been a Stop all the time.
        let known = |then| !matches!(then, Verdict::CannotTell | Verdict::Stop);
        let makes_one =
            (remedy.worsens.iter()).any(|(_, then, now)| *now == Verdict::Stop && known(*then));
        let stops = (step.stops.1, makes_one);
        (!remedy.is_plain(), stops, step.more_watches)
    };
    assert!(
        steps
            .windows(2)
            .all(|pair| left(&pair[0]) <= left(&pair[1]))
    );
    steps.len()
}

/// Another engine and drier wood are no work on the machine: that is told wherever they are offered, in pairs too.
#[test]
fn what_is_changed_elsewhere_is_told_so() {
    use hearthplan::design::quantity::System;
    let mut told = 0;
    let mut design = example::as_improved();
    design.fuel.moisture *= 1.6;
    design.engine.displacement *= 0.6;
    let before = assess(&design);
    for finding in (before.findings.iter()).filter(|one| one.verdict != Verdict::Good) {
        for remedy in remedies(&design, finding.id) {
            let Some(Change::Set { path, .. }) = &remedy.change else {
                continue;
            };
            let wanted = match path.as_str() {
                "engine.displacement" => "only with another engine",
                "fuel.moisture" => "only once the wood is so dry",
                _ => continue,
            };
            let words = remedy.reservations(System::Metric);
            assert!(words.iter().any(|one| one == wanted), "{path}: {words:?}");
            told += 1;
        }
    }
    assert!(told >= 2, "{told}");
}

/// A lining that is too thin in a vessel that is there: a thicker one needs a wider vessel, or a narrower hearth.
#[test]
fn what_takes_another_vessel_says_so_and_is_no_plain_step() {
    let mut design = example::as_improved();
    let lining = (design.hearth_layers.iter_mut())
        .filter(|layer| !layer.material.is_metal())
        .max_by(|one, other| one.thickness.value.total_cmp(&other.thickness.value));
    let thickness = &mut lining.unwrap().thickness;
    let taken = 0.9 * *thickness;
    *thickness -= taken;
    design.hearth_wall.inside_diameter += 2.0 * taken;
    let before = assess(&design);
    assert_eq!(
        before.finding("marking.shell").unwrap().verdict,
        Verdict::Good
    );
    let mut told = 0;
    for finding in (before.findings.iter()).filter(|one| one.verdict != Verdict::Good) {
        for remedy in remedies(&design, finding.id) {
            let mut worse = remedy.worsens.iter();
            if worse.any(|(id, _, now)| *id == "marking.shell" && *now == Verdict::Stop) {
                assert!(!remedy.is_plain());
                let words = remedy.reservations(System::Metric);
                assert!(
                    words.iter().any(|one| one == "only with another vessel"),
                    "{words:?}"
                );
                told += 1;
            }
        }
    }
    assert!(told > 0);
}

/// The thinnest blanket keeps the heat and lets something else fail; a thicker one does not.
#[test]
fn a_new_layer_is_tried_thicker_where_the_thinnest_stops_something() {
    let design = example::as_first_drawn();
    let mends = |remedy: &hearthplan::review::Remedy| {
        let is_layer = matches!(
            &remedy.lever,
            Lever::NewItem {
                list: "hearth_layers",
                ..
            }
        );
        is_layer && remedy.change.is_some()
    };
    assert!(remedies(&design, "warmth.loss").iter().any(mends));
}

/// The steel that was bought stays as wide as it is and of what it is of.
#[test]
fn what_changes_the_steel_that_was_measured_is_no_plain_step() {
    let mut design = example::as_first_drawn();
    assert!(design.real_vessel.measured);
    // So tall, it is a little too narrow for its ash.
    design
        .set("hearth_wall.height", Value::Number(0.426))
        .expect("in range");
    let remedies_of = |path: &str| {
        let lever = Lever::input(path.to_string());
        let before = assess(&design);
        let offered = before
            .findings
            .iter()
            .flat_map(|one| remedies(&design, one.id));
        offered
            .filter(|remedy| remedy.lever == lever && remedy.change.is_some())
            .collect::<Vec<_>>()
    };
    let wider = remedies_of("hearth_wall.inside_diameter");
    assert!(!wider.is_empty());
    for remedy in wider {
        assert!(remedy.other_vessel && !remedy.is_plain());
        let told = remedy.reservations(System::Metric);
        assert!(
            told.iter().any(|one| one == "only with another vessel"),
            "{told:?}"
        );
    }
    let base = remedies_of("base.width");
    assert!(!base.is_empty() && base.iter().all(|remedy| !remedy.other_vessel));
}

#[test]
fn the_first_drawing_has_a_best_step() {
    let design = example::as_first_drawn();
    assert!(check(&design) > 0);
    // No remedy of any finding that a builder would take leaves fewer Stops than the best step.
    let first = best_step(&design).swap_remove(0);
    assert!(first.remedy.is_plain());
    let best = first.stops.1;
    let before = assess(&design);
    for finding in before
        .findings
        .iter()
        .filter(|one| one.verdict != Verdict::Good)
    {
        for change in remedies(&design, finding.id)
            .into_iter()
            .filter(|remedy| remedy.is_plain())
            .filter_map(|remedy| remedy.change)
        {
            if matches!(&change, Change::Set { path, .. } if path.starts_with("limits.") || path == "engine.wanted_power")
            {
                continue;
            }
            let stops = assess(&change.apply(&design).expect("fits")).count(Verdict::Stop);
            assert!(
                stops >= best,
                "{change:?} leaves {stops}, the best step {best}"
            );
        }
    }
}

#[test]
fn a_design_without_faults_has_none() {
    let mended = example::as_improved();
    if assess(&mended).worst() == Verdict::Good {
        assert!(best_step(&mended).is_empty());
    }
    check(&mended);
}

#[test]
fn steps_of_random_designs_do_what_they_say() {
    let found: usize = (700_000..700_000 + DESIGNS)
        .map(|seed| check(&random_design(seed)))
        .sum();
    assert!(found > 0);
}

/// A wish is no step: where nothing else mends a Stop, it is told that no step is left for it.
#[test]
fn a_stop_that_no_step_removes_is_told() {
    let mut answered = example::to_start_from();
    for (path, value) in [
        ("engine.wanted_power", 6200.0),
        ("engine.displacement", 389e-6),
        ("engine.speed", 50.0),
        ("fuel.moisture", 0.18),
    ] {
        answered.set(path, Value::Number(value)).unwrap();
    }
    let design = complete(&answered, &[Part::Engine]);
    let before = assess(&design);
    assert_eq!(
        best_steps_or_pairs(&design).leaves(&before),
        [
            "Power on wood gas, before the train",
            "Power left at the end of the train"
        ]
    );
    let first = example::as_first_drawn();
    let before = assess(&first);
    assert!(best_steps_or_pairs(&first).leaves(&before).is_empty());
    assert_eq!(
        Advice::default().leaves(&before).len(),
        before.count(Verdict::Stop)
    );
}

/// Without a cooler hot gas comes to the blower: another one mends that, and what is asked of it is told beforehand.
#[test]
fn a_cooler_that_was_taken_out_is_offered_at_the_blower() {
    let mut answered = example::to_start_from();
    answered
        .set("engine.wanted_power", Value::Number(6200.0))
        .unwrap();
    let mut design = complete(&answered, &[]);
    design.train.retain(|stage| stage.kind != StageKind::Cooler);
    let place = remedies(&design, "breath.blower_place");
    let cooler = place
        .iter()
        .find(|remedy| matches!(&remedy.lever, Lever::NewItem { list: "train", .. }))
        .expect("a cooler");
    assert!(cooler.change.is_some());
    let room = ("Room for the cooler's tubes".to_string(), Verdict::Watch);
    let is_room =
        |(title, verdict, _): &hearthplan::review::Brought| (title, verdict) == (&room.0, &room.1);
    assert!(cooler.brings.iter().any(is_room), "{:?}", cooler.brings);
    let after = assess(&cooler.change.as_ref().unwrap().apply(&design).unwrap());
    for (title, verdict, harm) in &cooler.brings {
        let is_asked = |finding: &&hearthplan::review::Finding| finding.title == title;
        let asked = after.findings.iter().find(is_asked).expect("asked");
        assert_eq!((asked.verdict, asked.harm()), (*verdict, *harm));
        assert!(assess(&design).finding(asked.id).is_none());
    }
}

/// Wood dried to 12 % would do, but makes other answers worse: 17 % leaves as few Stops.
#[test]
fn what_stops_no_more_with_less_is_told_beside_what_passes() {
    let mut answered = example::to_start_from();
    for (path, value) in [
        ("engine.wanted_power", 4_000.0),
        ("fuel.moisture", 0.24),
        ("real_vessel.girth", 0.4 * std::f64::consts::PI),
        ("real_vessel.length", 1.0),
        ("real_vessel.sheet", 0.003),
        ("real_vessel.lower_seam", 0.0),
        ("real_vessel.upper_seam", 0.0),
    ] {
        answered.set(path, Value::Number(value)).unwrap();
    }
    let design = complete(&answered, &[Part::Shell]);
    let advice = best_steps_or_pairs(&design);
    let dried: Vec<_> = (advice.steps.iter())
        .filter(|step| step.remedy.lever == Lever::input("fuel.moisture"))
        .collect();
    let [dry, milder] = dried[..] else {
        panic!("{:?}", advice.steps)
    };
    assert!(milder.size <= 0.9 * dry.size && milder.stops == dry.stops);
    let after = assess(&milder.change.apply(&design).unwrap());
    assert_eq!(after.count(Verdict::Stop), milder.stops.1);
}
