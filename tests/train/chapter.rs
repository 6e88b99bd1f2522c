//! The verdicts on the train: each turns when its cause is put in, and its remedies pass.

use crate::mended::every_remedy_passes;
use hearthplan::design::inputs::StageKind;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Assessment, Chapter, Lever, Verdict, assess};

/// Places in the train of the example.
const OUTLET: usize = 0;
const CYCLONE: usize = 1;
const COOLER: usize = 2;
const FILTER: usize = 4;
const BLOWER: usize = 7;

fn verdict(assessment: &Assessment, id: &str) -> Verdict {
    assessment.finding(id).unwrap().verdict
}

fn number(value: f64) -> Value {
    Value::Number(value)
}

fn choice(name: &str) -> Value {
    Value::Choice(name.to_string())
}

/// The example with these inputs changed.
fn with(changes: &[(&str, Value)]) -> Design {
    let mut design = example::as_improved();
    for (path, value) in changes {
        design.set(path, value.clone()).unwrap();
    }
    design
}

/// The example with one stage at another place.
fn moved(from: usize, to: usize) -> Design {
    let mut design = example::as_improved();
    let stage = design.train.remove(from);
    design.train.insert(to, stage);
    design
}

/// A finding, what makes it fail, how badly, and how many single changes mend it at least.
type Cause = (&'static str, Vec<(&'static str, Value)>, Verdict, usize);

fn causes() -> Vec<Cause> {
    use Verdict::{Stop, Watch};
    vec![
        (
            "train.engine_temperature",
            vec![("train.2.tube_length", number(0.2))],
            Stop,
            1,
        ),
        (
            "train.arrives",
            vec![("train.4.catches", number(0.0))],
            Watch,
            1,
        ),
        (
            "train.cooler_tar",
            vec![("train.2.lie", choice("level"))],
            Watch,
            1,
        ),
        (
            "train.cooler_outside",
            vec![
                ("train.2.cooling", choice("water")),
                ("train.2.water_flow", number(0.005)),
            ],
            Stop,
            1,
        ),
        (
            "train.cooler_outside",
            vec![
                ("train.2.cooling", choice("finned")),
                ("train.2.lie", choice("level")),
                ("train.2.fin_pitch", number(0.003)),
            ],
            Watch,
            1,
        ),
        (
            "train.cooler_outside",
            vec![
                ("train.2.cooling", choice("finned")),
                ("train.2.lie", choice("upright")),
            ],
            Watch,
            1,
        ),
        (
            "train.bores",
            vec![("train.2.tube_bore", number(0.012))],
            Watch,
            1,
        ),
        (
            "train.passes",
            vec![("train.0.bore", number(0.010))],
            Stop,
            1,
        ),
        (
            "train.dust_settles",
            vec![("train.0.bore", number(0.15))],
            Watch,
            2,
        ),
        (
            "train.dust_settles",
            vec![("train.1.body_diameter", number(0.5))],
            Watch,
            2,
        ),
        (
            "train.cyclone",
            vec![("train.1.body_diameter", number(0.2))],
            Stop,
            1,
        ),
        (
            "train.engine_power",
            vec![
                ("train.4.medium", choice("cloth")),
                ("train.4.cloth_area", number(0.2)),
            ],
            Stop,
            1,
        ),
        (
            "train.filter_temperature",
            vec![
                ("train.2.tube_length", number(0.5)),
                ("train.4.medium_limit", number(313.15)),
            ],
            Stop,
            1,
        ),
        (
            "train.filter_wet",
            vec![("train.4.may_be_wet", Value::Flag(false))],
            Stop,
            1,
        ),
        (
            "train.filter_speed",
            vec![("train.4.filter_diameter", number(0.12))],
            Stop,
            1,
        ),
        (
            "train.filter_drum",
            vec![("train.4.medium", choice("cloth"))],
            Watch,
            2,
        ),
        (
            "train.filter_drum",
            vec![
                ("train.4.medium", choice("cloth")),
                ("train.4.cloth_area", number(1.6)),
            ],
            Stop,
            1,
        ),
        (
            "train.filter_bed",
            vec![
                ("train.4.filter_depth", number(0.06)),
                ("train.4.filter_piece", number(0.025)),
            ],
            Watch,
            2,
        ),
        (
            "train.filter_bed",
            vec![
                ("train.4.filter_diameter", number(0.25)),
                ("train.4.filter_piece", number(0.03)),
            ],
            Watch,
            2,
        ),
        (
            "train.filter_interval",
            vec![("train.4.dust_capacity", number(0.01))],
            Stop,
            1,
        ),
        (
            "train.trap_time",
            vec![("train.3.capacity", number(0.000_2))],
            Stop,
            1,
        ),
        (
            "train.loose_water",
            vec![
                ("train.3.separation", number(0.0)),
                ("train.6.separation", number(0.0)),
                ("train.4.may_be_wet", Value::Flag(false)),
            ],
            Stop,
            1,
        ),
        (
            "train.oxygen",
            vec![("raw_gas.air_leak", number(0.3))],
            Stop,
            1,
        ),
        (
            "train.air_leak",
            vec![("raw_gas.air_leak", number(0.03))],
            Watch,
            1,
        ),
        (
            "train.metal",
            vec![
                ("raw_gas.temperature", number(973.15)),
                ("train.1.body_diameter", number(0.11)),
                ("train.0.cover", choice("insulated")),
            ],
            Stop,
            1,
        ),
        (
            "train.metal",
            vec![
                ("raw_gas.temperature", number(973.15)),
                ("train.0.cover", choice("bare")),
                ("train.1.cover", choice("bare")),
            ],
            Watch,
            1,
        ),
        (
            "train.cooler_frost",
            vec![
                ("train.2.cooling", choice("water")),
                ("site.air_temperature", number(273.15)),
            ],
            Watch,
            0,
        ),
        (
            "train.passes",
            vec![("site.air_temperature", number(263.15))],
            Stop,
            1,
        ),
        (
            "train.leaves",
            vec![("raw_gas.temperature", number(1163.15))],
            Stop,
            1,
        ),
    ]
}

#[test]
fn the_example_passes_every_question_of_the_train() {
    let assessment = assess(&example::as_improved());
    let of_train: Vec<_> = (assessment.findings.iter())
        .filter(|finding| finding.chapter == Chapter::Train)
        .collect();
    let (touched, others): (Vec<_>, Vec<_>) =
        (of_train.into_iter()).partition(|finding| finding.id == "train.touch");
    for finding in &others {
        assert_eq!(finding.verdict, Verdict::Good, "{}", finding.id);
    }
    // Hotter than a hand bears, and no guard is known of.
    let [touched] = touched[..] else {
        panic!("touch is not asked");
    };
    assert_eq!(touched.verdict, Verdict::Watch);
    let told = touched.compared.text(Default::default());
    assert!(told.contains("guard of wire mesh"), "{told}");
    // Each of them has its cause above.
    for finding in others {
        assert!(
            causes().iter().any(|cause| cause.0 == finding.id),
            "no cause turns {}",
            finding.id
        );
    }
}

#[test]
fn each_finding_turns_with_its_cause() {
    let missed: Vec<String> = (causes().into_iter())
        .filter_map(|(id, changes, wanted, _)| {
            let assessment = assess(&with(&changes));
            let finding = assessment.finding(id).unwrap();
            // Neither ice nor a way that is shut is a matter of more or less.
            let measured = id != "train.passes";
            assert!(
                !measured || finding.margin.is_some_and(|margin| margin < 0.0),
                "{id}"
            );
            let told = finding.compared.text(Default::default());
            (finding.verdict != wanted).then(|| format!("{id}, {:?}: {told}", finding.verdict))
        })
        .collect();
    assert!(missed.is_empty(), "{missed:#?}");
}

#[test]
fn the_remedies_of_each_finding_pass() {
    for (id, changes, _, at_least) in causes() {
        every_remedy_passes(&with(&changes), id, at_least);
    }
}

#[test]
fn soot_and_tar_close_the_narrowest_bore_before_the_filter() {
    let answer = |changes: &[(&str, Value)]| {
        let assessment = assess(&with(changes));
        let finding = assessment.finding("train.bores").unwrap().clone();
        let open = finding.working[0].result.si;
        (
            finding.verdict,
            open,
            finding.compared.text(Default::default()),
        )
    };
    // Two millimetres on each side of 18 mm leave 14 mm, of 12 mm 8 mm, of 7 mm 3 mm.
    for (bore, left, wanted) in [
        (0.018, 14.0 / 18.0, Verdict::Good),
        (0.012, 8.0 / 12.0, Verdict::Watch),
        (0.007, 3.0 / 7.0, Verdict::Stop),
    ] {
        let tubes = ("train.2.tubes", number(100.0));
        let (verdict, open, _) = answer(&[("train.2.tube_bore", number(bore)), tubes]);
        assert_eq!(verdict, wanted, "{bore}");
        assert!((open - left * left).abs() < 1e-9, "{bore}: {open}");
    }
    // A pipe counts as well, but not behind the filter, which keeps the soot.
    let (verdict, _, told) = answer(&[("train.0.bore", number(0.012))]);
    assert_eq!(verdict, Verdict::Watch);
    assert!(told.contains("a bore of 12 mm"), "{told}");
    let (verdict, open, _) = answer(&[("train.5.bore", number(0.012))]);
    assert_eq!(verdict, Verdict::Good);
    assert!((open - (14.0_f64 / 18.0).powi(2)).abs() < 1e-9, "{open}");
}

#[test]
fn suction_and_warm_gas_come_off_the_power() {
    let left = |changes: &[(&str, Value)]| {
        let assessment = assess(&with(changes));
        let whole = assessment.train.on_gas.unwrap().shaft_power.value;
        let vacuum = assessment.breath.engine_vacuum.unwrap().value / 101_325.0;
        let finding = assessment.finding("train.engine_power").unwrap().clone();
        let by_steam = assessment.train.power_left.unwrap().by_steam.value;
        (
            finding.working.last().unwrap().result.si / whole / by_steam,
            vacuum,
            finding.verdict,
        )
    };
    let (kept, vacuum, verdict) = left(&[]);
    assert_eq!(verdict, Verdict::Good);
    assert!((kept - (1.0 - vacuum)).abs() < 1e-9, "{kept} {vacuum}");
    let (kept, vacuum, verdict) = left(&[
        ("train.4.medium", choice("cloth")),
        ("train.4.cloth_area", number(0.2)),
    ]);
    let at_most = 1.0 - vacuum + 1e-9;
    assert!(vacuum > 0.2 && kept <= at_most, "{kept} {vacuum}");
    assert_eq!(verdict, Verdict::Stop);
    // Gas some 40 °C too warm is a little less than half of the mixture.
    let (kept, vacuum, _) = left(&[("train.2.tube_length", number(0.2))]);
    let by_warmth = kept / (1.0 - vacuum);
    assert!((0.8..0.97).contains(&by_warmth), "{by_warmth}");
    let mut tried = with(&[]);
    (tried.set("operation.flow_source", choice("entered"))).unwrap();
    assert!(assess(&tried).finding("train.engine_power").is_none());
}

#[test]
fn power_before_and_behind_the_train_do_not_contradict() {
    let behind_cloth = assess(&with(&[
        ("train.4.medium", choice("cloth")),
        ("train.4.cloth_area", number(0.2)),
    ]));
    assert_eq!(verdict(&behind_cloth, "engine.power"), Verdict::Good);
    assert_eq!(verdict(&behind_cloth, "train.engine_power"), Verdict::Stop);
    // What is told before the train says so, and names the verdict that counts in the end.
    let before = behind_cloth.finding("engine.power").unwrap();
    let behind = behind_cloth.finding("train.engine_power").unwrap();
    assert!(before.title.ends_with("before the train"));
    assert!(before.why.contains(behind.title), "{}", before.why);
    assert!(behind.why.contains(before.title), "{}", behind.why);
    let told = before.compared.text(Default::default());
    assert!(told.contains("before the train takes its share"), "{told}");
    let shown = |name: &str| {
        let results = behind_cloth.results();
        let result = results.into_iter().find(|result| result.name == name);
        result.unwrap().measure.si
    };
    assert!(shown("train.engine_power") < 0.9 * shown("engine.shaft_power_full"));
}

#[test]
fn an_engine_too_small_by_itself_is_one_stop() {
    let wanting = |watts: f64, more: &[(&str, Value)]| {
        let mut design = with(more);
        design.set("engine.wanted_power", number(watts)).unwrap();
        let assessment = assess(&design);
        ["engine.power", "train.engine_power"].map(|id| verdict(&assessment, id))
    };
    assert_eq!(wanting(30e3, &[]), [Verdict::Stop, Verdict::Watch]);
    // A train that takes much by itself is a Stop of its own.
    let tight = [
        ("train.4.medium", choice("cloth")),
        ("train.4.cloth_area", number(0.2)),
    ];
    assert_eq!(wanting(30e3, &tight), [Verdict::Stop, Verdict::Stop]);
}

/// Names of the computed numbers that begin so.
fn told(assessment: &Assessment, begin: &str) -> Vec<String> {
    let names = assessment.results().into_iter().map(|result| result.name);
    names.filter(|name| name.starts_with(begin)).collect()
}

#[test]
fn a_usual_load_without_gas_has_no_train() {
    let mut design = example::as_first_drawn();
    design.operation.usual_load = design.operation.idle_load;
    let assessment = assess(&design);
    assert!(!assessment.heart.at.usual.makes_gas() && assessment.heart.at.full.makes_gas());
    let of_train: Vec<_> = assessment.answers(Chapter::Train).collect();
    let [only] = of_train[..] else {
        panic!("what rests on the gas is asked: {of_train:?}");
    };
    assert_eq!(
        (only.id, only.verdict),
        ("train.passes", Verdict::CannotTell)
    );
    let words = only.compared.text(Default::default());
    let title = assessment.finding("heart.usual").unwrap().title;
    assert!(words.contains(title), "{words}");
    for begin in ["train.usual", "breath.drop_usual", "electrics.knob_usual"] {
        assert_eq!(told(&assessment, begin), Vec::<String>::new(), "{begin}");
    }
    // Full load, with gas, keeps its numbers.
    for begin in [
        "train.full_clean",
        "breath.drop_full_clean",
        "breath.engine_vacuum",
    ] {
        assert!(!told(&assessment, begin).is_empty(), "{begin}");
    }
    let knob = assessment.electrics.knob.as_ref().unwrap();
    assert_eq!(knob.map(|setting| setting.known), [true, false, true]);
}

#[test]
fn a_full_load_without_gas_has_no_train_no_breath_and_no_current() {
    let mut design = example::as_first_drawn();
    design.engine.displacement *= 0.3;
    let assessment = assess(&design);
    assert!(!assessment.heart.at.full.makes_gas());
    for begin in [
        "train.",
        "breath.",
        "electrics.load_",
        "electrics.current_",
        "electrics.time_",
        "electrics.knob_",
    ] {
        assert_eq!(told(&assessment, begin), Vec::<String>::new(), "{begin}");
    }
    for id in [
        "train.passes",
        "breath.startup",
        "breath.stall",
        "breath.suction",
        "breath.battery",
        "electrics.knob",
    ] {
        let finding = assessment.finding(id).unwrap();
        assert_eq!(finding.verdict, Verdict::CannotTell, "{id}");
        let words = finding.compared.text(Default::default());
        assert!(words.contains("makes no gas that burns"), "{id}: {words}");
        assert!(finding.levers.is_empty(), "{id}");
    }
    let curves = assessment.breath.curves(&design, &assessment.train, 3);
    assert!(curves.iter().all(|sample| sample.system_clean.is_none()));
}

#[test]
fn frost_is_told_where_it_blocks_the_train() {
    let at = |celsius: f64| assess(&with(&[("site.air_temperature", number(273.15 + celsius))]));
    assert!(at(0.5).finding("train.ice").is_none());
    let frost = at(-0.1);
    let ice = frost.finding("train.ice").unwrap();
    assert_eq!(ice.verdict, Verdict::Watch);
    assert!(
        ice.compared
            .text(Default::default())
            .starts_with("Tube cooler: ")
    );
    assert_eq!(verdict(&frost, "breath.startup"), Verdict::CannotTell);
    // In hard frost even the engine's own draught freezes.
    let hard = at(-20.0);
    assert_eq!(verdict(&hard, "train.passes"), Verdict::Stop);
}

#[test]
fn what_no_gas_can_pass_is_said_by_its_stage() {
    let design = with(&[
        ("train.0.bore", number(0.01)),
        ("train.0.length", number(60.0)),
    ]);
    let assessment = assess(&design);
    let finding = assessment.finding("train.passes").unwrap();
    assert_eq!(finding.verdict, Verdict::Stop);
    let told = finding.compared.text(Default::default());
    assert!(
        told.starts_with("at the usual load, stage 1, Pipe: "),
        "{told}"
    );
    assert!(assessment.finding("train.engine_temperature").is_none());
}

#[test]
fn a_cyclone_behind_cooler_or_filter_changes_the_verdicts() {
    let here = assess(&example::as_improved());
    let usual = |assessment: &Assessment| assessment.train.usual.clone().unwrap();
    // Cold gas takes less room: the inlet of the same cyclone becomes too slow.
    let behind_cooler = assess(&moved(CYCLONE, COOLER));
    assert_eq!(verdict(&here, "train.cyclone"), Verdict::Good);
    assert_ne!(verdict(&behind_cooler, "train.cyclone"), Verdict::Good);
    // And the tubes get all of the dust.
    let arrives = |solved: &hearthplan::sizing::train::TrainSolution, place: usize| {
        solved.points[place].dust.total().value
    };
    assert!(arrives(&usual(&behind_cooler), CYCLONE) > 1.5 * arrives(&usual(&here), COOLER));
    // Behind the filter it has nothing to do, and the filter fills sooner.
    let behind_filter = assess(&moved(CYCLONE, FILTER));
    let change_time = |assessment: &Assessment| {
        (assessment.results().into_iter())
            .find(|result| {
                result.name.starts_with("train.usual.")
                    && result.name.ends_with("_filter.change_time")
            })
            .unwrap()
            .measure
            .si
    };
    assert!(change_time(&behind_filter) < 0.7 * change_time(&here));
    let caught =
        |assessment: &Assessment, place: usize| usual(assessment).outcomes[place].dust_caught.value;
    assert!(caught(&behind_filter, FILTER) < 0.1 * caught(&here, CYCLONE));
}

#[test]
fn a_blower_before_the_filter_is_told_to_be_in_dusty_gas() {
    let told = |assessment: &Assessment| {
        let finding = assessment.finding("breath.blower_place").unwrap();
        (finding.verdict, finding.compared.text(Default::default()))
    };
    let (good, words) = told(&assess(&example::as_improved()));
    assert_eq!(good, Verdict::Good);
    assert!(!words.contains("dusty"), "{words}");
    let (watch, words) = told(&assess(&moved(BLOWER, FILTER)));
    assert_eq!(watch, Verdict::Watch);
    assert!(words.contains("in dusty gas with"), "{words}");
    let (stop, words) = told(&assess(&moved(BLOWER, OUTLET)));
    assert_eq!(stop, Verdict::Stop);
    assert!(
        words.contains("hot gas") && words.contains("dusty"),
        "{words}"
    );
}

#[test]
fn every_stage_of_the_example_has_the_kind_its_place_is_named_after() {
    let design = example::as_improved();
    let kind = |place: usize| design.train[place].kind;
    assert_eq!(kind(OUTLET), StageKind::Pipe);
    assert_eq!(kind(CYCLONE), StageKind::Cyclone);
    assert_eq!(kind(COOLER), StageKind::Cooler);
    assert_eq!(kind(FILTER), StageKind::Filter);
    assert_eq!(kind(BLOWER), StageKind::Blower);
}

/// Verdict and words of a finding.
fn said(assessment: &Assessment, id: &str) -> (Verdict, String) {
    let finding = assessment.finding(id).unwrap();
    (finding.verdict, finding.compared.text(Default::default()))
}

#[test]
fn a_train_through_which_no_gas_flows_stops() {
    let narrow = |bore: f64| assess(&with(&[("train.0.bore", number(bore))]));
    let thin = narrow(0.010);
    for id in ["train.passes", "breath.suction"] {
        let (verdict, words) = said(&thin, id);
        assert_eq!(verdict, Verdict::Stop, "{id}: {words}");
        assert!(words.contains("stage 1, Pipe"), "{id}: {words}");
        let first = &thin.finding(id).unwrap().levers[0];
        assert_eq!(*first, Lever::input("train.0.bore"), "{id}");
    }
    // Where not even the gas of the lighting comes through, no blower helps.
    let longer = assess(&with(&[
        ("train.0.bore", number(0.010)),
        ("train.0.length", number(60.0)),
    ]));
    let (verdict, words) = said(&longer, "breath.startup");
    assert_eq!(verdict, Verdict::Stop, "{words}");
    assert!(words.contains("while lighting"), "{words}");
    let large = assess(&with(&[("engine.displacement", number(0.010))]));
    assert_eq!(said(&large, "train.passes").0, Verdict::Stop);
    // What an engine draws through it is not known, and no leak test is planned by it.
    let (verdict, words) = said(&thin, "leaks.plan");
    assert_eq!(verdict, Verdict::CannotTell, "{words}");
    let title = thin.finding("train.passes").unwrap().title;
    assert!(words.contains(title), "{words}");
    let panel = thin.finding("leaks.panel").unwrap();
    let pressure = Lever::input("leak_test.test_pressure");
    assert!(!panel.levers.contains(&pressure), "{:?}", panel.levers);
    // Far more than a test takes, or just enough: nobody knows.
    let mut pressed = with(&[
        ("train.0.bore", number(0.010)),
        ("leak_test.test_pressure", number(8_000.0)),
        ("hopper.fitted", Value::Flag(false)),
        ("leak_test.panel_sheet", number(0.02)),
    ]);
    for stage in &mut pressed.train {
        stage.wall *= 3.0;
    }
    let (verdict, words) = said(&assess(&pressed), "leaks.panel");
    assert_eq!(verdict, Verdict::CannotTell, "{words}");
    pressed.set("train.0.bore", number(0.05)).unwrap();
    let (verdict, words) = said(&assess(&pressed), "leaks.panel");
    assert_eq!(verdict, Verdict::Watch, "{words}");
}

#[test]
fn a_grate_without_a_hole_lets_no_gas_through() {
    let shut = assess(&with(&[("grate.rim", number(0.1))]));
    for id in ["hearth.grate", "train.passes", "breath.suction"] {
        let (verdict, words) = said(&shut, id);
        assert_eq!(verdict, Verdict::Stop, "{id}: {words}");
        assert!(words.contains("no room for a grate hole"), "{id}: {words}");
        every_remedy_passes(&with(&[("grate.rim", number(0.1))]), id, 1);
    }
    // A rim wider than the plate leaves no more room.
    let wider = assess(&with(&[("grate.rim", number(0.3))]));
    assert_eq!(verdict(&wider, "hearth.grate"), Verdict::Stop);
    // Nothing is reckoned as if there were no grate.
    assert_eq!(verdict(&shut, "breath.startup"), Verdict::Stop);
    assert_eq!(verdict(&shut, "leaks.plan"), Verdict::CannotTell);
    assert_eq!(told(&shut, "breath."), Vec::<String>::new());
    let curves = shut
        .breath
        .curves(&with(&[("grate.rim", number(0.1))]), &shut.train, 3);
    assert!(curves.iter().all(|sample| sample.system_clean.is_none()));
    // Holes that run into each other are refused.
    let torn = assess(&with(&[
        ("grate.hole", number(0.02)),
        ("grate.pitch", number(0.018)),
    ]));
    let (verdict, words) = said(&torn, "train.passes");
    assert_eq!(verdict, Verdict::CannotTell, "{words}");
    let title = torn.finding("hearth.grate").unwrap().title;
    assert!(words.contains(title), "{words}");
}

#[test]
fn metal_is_held_against_the_heat_it_gets() {
    let said = |changes: &[(&str, Value)]| {
        let assessment = assess(&with(changes));
        let finding = assessment.finding("train.metal").unwrap().clone();
        let told = finding.compared.text(Default::default());
        (finding, told)
    };
    let (good, _) = said(&[]);
    assert_eq!(good.verdict, Verdict::Good);
    assert!(good.caution.is_none());
    // Gas of 700 degrees in mild steel, which bears 550 for long.
    let hot = ("raw_gas.temperature", number(973.15));
    let (pipe, told) = said(&[hot.clone(), ("train.0.cover", choice("insulated"))]);
    assert!(
        told.contains("its wall is nearly as hot; mild steel bears 550 °C"),
        "{told}"
    );
    assert!(pipe.caution.is_some() && pipe.working[0].result.si >= 973.15);
    // Without its insulation the same pipe is far colder than its gas.
    let bare = [hot, ("train.0.cover", choice("bare"))];
    let solved = assess(&with(&bare)).train.full_clean.unwrap();
    let hearthplan::sizing::train::Detail::Pipe(found) = &solved.outcomes[OUTLET].detail else {
        panic!("no pipe");
    };
    assert!(found.hottest_surface.unwrap().value < 923.15);
    // Copper and aluminium bear little where the cooler comes first.
    for (metal, is_good) in [
        ("mild_steel", true),
        ("copper", false),
        ("aluminium", false),
    ] {
        let mut design = moved(COOLER, OUTLET);
        design.set("raw_gas.temperature", number(1173.15)).unwrap();
        design.set("train.0.tube_material", choice(metal)).unwrap();
        let assessment = assess(&design);
        let finding = assessment.finding("train.metal").unwrap();
        let told = finding.compared.text(Default::default());
        assert_eq!(finding.verdict == Verdict::Good, is_good, "{told}");
        if !is_good {
            let first = finding.levers.first();
            assert!(matches!(first, Some(Lever::Input(path)) if path.contains("tube_material")));
        }
    }
}

#[test]
fn a_jacket_is_told_of_frost_only_where_there_is_one() {
    let asked = |cooling: &str, kelvin: f64| {
        let design = with(&[
            ("train.2.cooling", choice(cooling)),
            ("site.air_temperature", number(kelvin)),
        ]);
        let assessment = assess(&design);
        (assessment.finding("train.cooler_frost")).map(|finding| finding.verdict)
    };
    assert_eq!(asked("water", 274.15), None);
    assert_eq!(asked("bare", 270.15), None);
    // Where the train cannot be solved for ice too.
    for kelvin in [273.15, 270.15, 243.15] {
        assert_eq!(asked("water", kelvin), Some(Verdict::Watch), "{kelvin}");
    }
}

#[test]
fn no_length_cools_below_the_air() {
    let design = with(&[
        ("site.air_temperature", number(313.15)),
        ("limits.engine_gas_watch", number(313.15)),
    ]);
    let assessment = assess(&design);
    assert!(matches!(assessment.train.cooler_length, Some(Err(_))));
    let finding = assessment.finding("train.engine_temperature").unwrap();
    let told = finding.compared.text(Default::default());
    assert!(told.contains("no length of its tubes does it"), "{told}");
}

#[test]
fn air_that_leaks_and_air_that_burns_are_shares_of_the_same() {
    let of = |leak: f64| {
        let assessment = assess(&with(&[("raw_gas.air_leak", number(leak))]));
        let finding = assessment.finding("train.oxygen").unwrap().clone();
        let told = finding.compared.text(Default::default());
        let least = told.split("burn inside from ").nth(1).unwrap();
        let least: f64 = least.split('%').next().unwrap().trim().parse().unwrap();
        let gas = assessment.train.full_clean.unwrap().points[0].dry;
        let burns = |share: f64| {
            let share = uom::si::f64::Ratio::new::<uom::si::ratio::ratio>(share);
            let mixed = hearthplan::sizing::flammability::with_air(&gas, share).unwrap();
            hearthplan::sizing::flammability::flammability(&mixed)
                .unwrap()
                .burns_as_it_is
        };
        (
            least / 100.0,
            burns(0.99 * least / 100.0),
            burns(1.01 * least / 100.0),
        )
    };
    let (least, just_below, just_above) = of(0.26);
    assert!(least > 0.26, "{least}");
    assert!(!just_below && just_above);
}

#[test]
fn gas_behind_the_cooler_is_told_with_its_load() {
    for lie in ["level", "upright"] {
        let assessment = assess(&with(&[("train.2.lie", choice(lie))]));
        let finding = assessment.finding("train.cooler_tar").unwrap();
        let told = finding.compared.text(Default::default());
        assert!(told.contains(" at usual load"), "{told}");
        let usual = assessment.train.usual.as_ref().unwrap();
        let behind = usual.outcomes[COOLER].out.temperature;
        assert_eq!(finding.working[0].result.si, behind.value);
    }
}
