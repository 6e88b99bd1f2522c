//! The breath chapter of the review.

use crate::mended::every_remedy_passes;
use hearthplan::design::inputs::StageKind;
use hearthplan::design::quantity::{Quantity, System};
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Assessment, Lever, Verdict, assess};
use hearthplan::sizing::gas::molar_mass;
use hearthplan::sizing::pressure_chain::{Filter, HearthStage};

fn with(changes: &[(&str, Value)]) -> Design {
    let mut design = Design::default();
    for (path, value) in changes {
        design.set(path, value.clone()).unwrap();
    }
    design
}

fn number(value: f64) -> Value {
    Value::Number(value)
}

fn choice(name: &str) -> Value {
    Value::Choice(name.to_string())
}

fn verdict(assessment: &Assessment, id: &str) -> Verdict {
    assessment.finding(id).unwrap().verdict
}

#[test]
fn the_improved_example_passes_the_chapter_and_every_finding_is_complete() {
    let assessment = assess(&example::as_improved());
    let findings: Vec<_> = assessment
        .findings
        .iter()
        .filter(|finding| finding.id.starts_with("breath."))
        .collect();
    assert_eq!(findings.len(), 5);
    for finding in findings {
        assert_eq!(finding.verdict, Verdict::Good, "{}", finding.id);
        assert!(finding.margin.unwrap() >= 0.0, "{}", finding.id);
        assert!(
            finding.caution.is_some() && !finding.levers.is_empty(),
            "{}",
            finding.id
        );
        assert!(!finding.working.is_empty(), "{}", finding.id);
        for step in &finding.working {
            assert!(
                !step.formula.is_empty() && !step.sure.is_empty(),
                "{}",
                step.words
            );
        }
        for system in [System::Metric, System::Inch] {
            assert!(
                !finding.compared.text(system).contains("{}"),
                "{}",
                finding.id
            );
        }
    }
}

#[test]
fn levers_name_inputs_that_exist() {
    let design = with(&[("blower.assists", Value::Flag(true))]);
    for finding in assess(&design)
        .findings
        .iter()
        .filter(|f| f.id.starts_with("breath."))
    {
        for lever in &finding.levers {
            match lever {
                Lever::Input(path) => assert!(design.input(path).is_some(), "{path}"),
                Lever::NewItem { list, .. } | Lever::Move { list, .. } => {
                    assert_eq!(*list, "train");
                }
            }
        }
    }
}

#[test]
fn full_load_adds_up() {
    let breath = assess(&Design::default()).breath;
    let (clean, dirty) = (breath.full_clean.unwrap(), breath.full_dirty.unwrap());
    let sum: f64 = dirty.stages.iter().map(|stage| stage.drop.value).sum();
    assert!((sum - dirty.drop.value).abs() < 1e-9);
    assert!(dirty.drop > clean.drop);
    let startup = breath.startup.unwrap();
    let sides = breath.pressure_side.unwrap() + breath.suction_side.unwrap();
    assert!((sides - startup.drop).value.abs() < 1e-6);
    // The engine sucks what hearth and train lose, no more and no less.
    let vacuum = breath.engine_vacuum.unwrap();
    assert!((vacuum - dirty.drop).value.abs() < 1e-6);
    assert!((breath.vacuum_clean.unwrap() - clean.drop).value.abs() < 1e-6);
}

#[test]
fn at_the_speed_needed_the_blower_just_reaches_the_startup_flow() {
    let blower = assess(&Design::default()).breath.blower.unwrap();
    let speed = blower.startup.speed_needed.unwrap().value;
    let just = assess(&with(&[("blower.startup_speed_share", number(speed))])).breath;
    let reached =
        just.blower.unwrap().startup.gas_flow.value / just.startup.unwrap().gas_flow.value;
    assert!((reached - 1.0).abs() < 1e-3, "{reached}");
}

/// The design with its blower moved to this place in the train.
fn blower_at(place: usize) -> Design {
    let mut design = Design::default();
    let blower = design.train.pop().unwrap();
    design.train.insert(place, blower);
    design
}

#[test]
fn hot_or_thin_gas_leaves_the_blower_weaker() {
    let flow = |design: &Design| {
        let breath = assess(design).breath;
        breath.blower.unwrap().startup.gas_flow.value
    };
    let here = flow(&Design::default());
    assert!(flow(&blower_at(1)) < 0.9 * here);
    assert!(flow(&with(&[("site.altitude", number(3000.0))])) < 0.95 * here);
}

#[test]
fn a_blower_that_helps_is_asked_for_full_load_and_spares_the_engine() {
    let alone = assess(&Design::default());
    assert!(alone.finding("breath.full_dirty").is_none());
    let helped = assess(&with(&[
        ("blower.assists", Value::Flag(true)),
        ("blower.speed_share", number(1.0)),
    ]));
    assert_ne!(verdict(&helped, "breath.full_dirty"), Verdict::Good);
    assert!(helped.breath.engine_vacuum.unwrap() < 0.5 * alone.breath.engine_vacuum.unwrap());
}

#[test]
fn each_place_of_the_blower_has_its_verdict() {
    let at = |place: usize| assess(&blower_at(place));
    let (clean, cool, hot) = (at(7), at(4), at(1));
    assert_eq!(verdict(&clean, "breath.blower_place"), Verdict::Good);
    assert_eq!(verdict(&cool, "breath.blower_place"), Verdict::Watch);
    assert_eq!(verdict(&hot, "breath.blower_place"), Verdict::Stop);
    assert!(clean.breath.suction_side > cool.breath.suction_side);
    assert!(cool.breath.suction_side > hot.breath.suction_side);
}

#[test]
fn a_train_without_a_blower_cannot_be_lit() {
    let mut design = Design::default();
    design.train.pop();
    let assessment = assess(&design);
    let startup = assessment.finding("breath.startup").unwrap();
    assert_eq!(startup.verdict, Verdict::Stop);
    let told = startup.compared.text(System::Metric);
    for words in ["no blower", "neither be purged", "at a flare"] {
        assert!(told.contains(words), "{words}: {told}");
    }
    assert!(assessment.finding("breath.blower_place").is_none());
    assert_ne!(verdict(&assessment, "breath.suction"), Verdict::CannotTell);
}

#[test]
fn a_curve_without_points_cannot_be_told() {
    let mut design = Design::default();
    design.blower_curve.clear();
    let assessment = assess(&design);
    for id in ["breath.startup", "breath.stall", "breath.battery"] {
        let finding = assessment.finding(id).unwrap();
        assert_eq!(finding.verdict, Verdict::CannotTell, "{id}");
        assert!(
            finding
                .compared
                .text(System::Metric)
                .contains("at least two points")
        );
    }
    assert_ne!(verdict(&assessment, "breath.suction"), Verdict::CannotTell);
    let curves = assessment.breath.curves(&design, &assessment.train, 20);
    assert!(curves.iter().all(|sample| sample.system_clean.is_some()));
}

#[test]
fn a_curve_of_one_point_is_what_keeps_the_blower_from_being_told() {
    let mut design = Design::default();
    design.blower_curve.truncate(1);
    let assessment = assess(&design);
    let why = assessment.train.startup.as_ref().unwrap_err().to_string();
    assert!(
        why.contains("Blower: the blower curve needs at least two points"),
        "{why}"
    );
    for finding in &assessment.findings {
        let told = finding.compared.text(System::Metric);
        assert!(!told.contains("there is no blower"), "{told}");
    }
}

#[test]
fn remedies_of_each_breath_question_pass() {
    let helps = ("blower.assists", Value::Flag(true));
    let cases = [
        (
            with(&[("blower.startup_speed_share", number(0.35))]),
            "breath.startup",
            2,
        ),
        (
            with(&[
                helps,
                ("blower.speed_share", number(1.0)),
                ("hearth.bed_fouling", number(1.0)),
                ("hearth.char_size", number(0.028)),
            ]),
            "breath.full_dirty",
            1,
        ),
        (
            with(&[("hearth.char_size", number(0.010))]),
            "breath.suction",
            1,
        ),
        (
            with(&[("hearth.char_size", number(0.010))]),
            "breath.stall",
            1,
        ),
        (
            with(&[("battery.capacity", number(5.0 * 3600.0))]),
            "breath.battery",
            1,
        ),
        (blower_at(4), "breath.blower_place", 1),
    ];
    for (design, id, expected) in cases {
        every_remedy_passes(&design, id, expected);
    }
}

#[test]
fn the_chart_shows_the_working_point() {
    let design = Design::default();
    let assessment = assess(&design);
    let breath = &assessment.breath;
    let samples = breath.curves(&design, &assessment.train, 400);
    assert_eq!(samples.len(), 400);
    let working = breath.blower.as_ref().unwrap().startup.working;
    let crossing = samples
        .iter()
        .find(|sample| {
            sample
                .blower_startup
                .is_some_and(|pressure| pressure < sample.system_startup.unwrap())
        })
        .unwrap();
    let step = samples[1].flow.value;
    assert!(
        (crossing.flow - working.flow).value.abs() <= step,
        "{crossing:?} {working:?}"
    );
    assert!(
        samples
            .windows(2)
            .all(|pair| pair[1].system_dirty > pair[0].system_dirty)
    );
    assert!(samples.iter().all(|sample| sample.blower_running.is_none()));
}

#[test]
fn an_open_fire_tube_breathes_through_its_wood() {
    let names = |design: &Design| -> Vec<String> {
        let startup = assess(design).breath.startup.unwrap();
        (startup.stages.iter())
            .map(|stage| stage.name.to_string())
            .collect()
    };
    let straight = names(&with(&[("hearth.kind", choice("straight"))]));
    assert_eq!(&straight[..2], ["wood", "char"]);
    let shut = names(&Design::default());
    assert_eq!(&shut[..2], ["nozzles", "char"]);
    assert_eq!(shut.last().unwrap(), "flare");
}

#[test]
fn tar_behind_a_filter_is_not_laid_to_a_missing_one() {
    let mut design = example::as_first_drawn();
    design.set("train.5.length", number(8.0)).unwrap();
    let assessment = assess(&design);
    let finding = assessment.finding("breath.blower_place").unwrap();
    let told = finding.compared.text(System::Metric);
    assert!(told.contains("again behind its filter"), "{told}");
    // A cooler of another length would only move the place: what is left is another order.
    let moves = |lever: &Lever| matches!(lever, Lever::Move { .. });
    assert!(finding.levers.iter().all(moves), "{:?}", finding.levers);
    // A few drops are told, as the train tells them.
    let good = assess(&example::as_improved());
    let told = good.finding("breath.blower_place").unwrap();
    let told = told.compared.text(System::Metric);
    assert!(told.contains("a few drops of water"), "{told}");
}

#[test]
fn a_second_blower_is_spoken_of() {
    let mut design = Design::default();
    assert!(assess(&design).finding("breath.one_blower").is_none());
    let blower = design.train.last().cloned().unwrap();
    design.train.push(blower);
    let assessment = assess(&design);
    let finding = assessment.finding("breath.one_blower").unwrap();
    assert_eq!(finding.verdict, Verdict::Watch);
    assert!(
        finding
            .compared
            .text(System::Metric)
            .starts_with("2 blowers")
    );
}

/// Steam passes the char with the gas: Ergun's law once more by hand, for a bed as wide as it is at its entry and exit alike.
#[test]
fn the_char_bed_takes_the_steam_as_well() {
    let mut design = example::as_improved();
    let bore = design.hearth.throat_diameter;
    design.hearth.nozzle_ring_diameter = bore;
    design.hearth.below_throat_diameter = bore;
    let assessment = assess(&design);
    let supply = &assessment.heart.at.full.supply;
    let stages = assessment.train.at_full.hearth.stages(supply.gas_flow);
    let char = (stages.iter())
        .find(|stage| stage.kind == HearthStage::Char)
        .unwrap();
    assert!(supply.steam > 0.05, "{}", supply.steam);
    let (hearth, flow) = (&design.hearth, supply.gas_flow.value * (1.0 + supply.steam));
    let temperature = hearth.bed_temperature.value;
    let dry = molar_mass(&supply.gas).value;
    let mass = (dry + supply.steam * 0.018_015) / (1.0 + supply.steam);
    let pressure = 101_325.0 * (1.0 - 2.255_77e-5 * design.site.altitude.value).powf(5.255_88);
    let density = pressure * mass / (8.314_462_618 * temperature);
    let velocity = flow * temperature / 273.15 * 101_325.0
        / pressure
        / (0.25 * std::f64::consts::PI * bore.value.powi(2));
    let (gap, size) = (hearth.char_void_share.value, hearth.char_size.value);
    let solid = 1.0 - gap;
    let viscous =
        150.0 * char.viscosity.value * velocity * solid.powi(2) / (gap.powi(3) * size.powi(2));
    let inertial = 1.75 * density * velocity.powi(2) * solid / (gap.powi(3) * size);
    let length = (hearth.nozzle_height + hearth.reduction_height).value;
    let drop = hearth.bed_fouling * length * (viscous + inertial);
    assert!(
        (char.drop.value / drop - 1.0).abs() < 0.01,
        "{} {drop}",
        char.drop.value
    );
}

#[test]
fn what_the_char_is_taken_for_mends_nothing() {
    let design = with(&[("hearth.char_size", number(0.010))]);
    for finding in &assess(&design).findings {
        let levers = &finding.levers;
        let is_char = levers.contains(&Lever::input("hearth.char_size"));
        assert!(
            !is_char || finding.id == "hearth.char_pieces",
            "{}",
            finding.id
        );
    }
    let verdict = |char: f64| {
        let design = with(&[
            ("fuel.piece_size", number(0.040)),
            ("hearth.char_size", number(char)),
        ]);
        verdict(&assess(&design), "hearth.char_pieces")
    };
    assert_eq!([0.020, 0.028].map(verdict), [Verdict::Good; 2]);
    assert_eq!([0.036, 0.050].map(verdict), [Verdict::Watch; 2]);
}

#[test]
fn it_is_lit_with_filters_that_are_due() {
    let design = example::as_improved();
    let train = assess(&design).train;
    assert_eq!(train.startup_load.circumstances.filter, Filter::Dirty);
    let with_loss = |factor: f64| {
        let mut design = design.clone();
        let filter = (design.train.iter_mut())
            .find(|stage| stage.kind == StageKind::Filter)
            .unwrap();
        filter.dirty_factor = factor;
        let duty = assess(&design).breath.blower.unwrap().startup;
        duty.gas_flow.value
    };
    assert!(with_loss(8.0) < with_loss(2.0));
}

#[test]
fn a_clogged_bed_is_named_and_a_weak_fan_is_told_what_it_takes() {
    let mut design = example::as_improved();
    design.hearth.bed_fouling = 8.0;
    design.set("hearth.char_size", number(0.010)).unwrap();
    let assessment = assess(&design);
    for id in ["breath.suction", "breath.startup"] {
        let finding = assessment.finding(id).unwrap();
        assert_ne!(finding.verdict, Verdict::Good, "{id}");
        let told = finding.compared.text(System::Metric);
        assert!(told.contains("most of it in “Char"), "{told}");
        assert!(told.contains("Shake the grate sooner"), "{told}");
    }
    // A fan that is too weak is told by what it would have to make.
    let told = assessment.finding("breath.startup").unwrap();
    let told = told.compared.text(System::Metric);
    let asked = assessment.breath.startup.as_ref().unwrap().drop.value;
    let words = format!(
        "has to make {}",
        Quantity::Pressure.show(asked, System::Metric)
    );
    assert!(told.contains(&words), "{words}: {told}");
    // Where the bed clogs no more than usual, shaking it sooner is no advice.
    design.hearth.bed_fouling = 2.0;
    for finding in &assess(&design).findings {
        let told = finding.compared.text(System::Metric);
        assert!(!told.contains("Shake the grate"), "{}: {told}", finding.id);
    }
}
