//! Gas as it comes into the train and as it arrives: what it gives off before, its tar, its steam; and what is offered
//! where a stage is missing.

use hearthplan::design::inputs::StageKind;
use hearthplan::design::phrase::{Measure, Phrase};
use hearthplan::design::quantity::{Quantity, System};
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Assessment, Lever, Remedy, Verdict, assess, remedies};
use hearthplan::sizing::shell::zone_heat;
use hearthplan::sizing::zone::Zone;

fn with(changes: &[(&str, Value)]) -> Design {
    let mut design = example::as_improved();
    for (path, value) in changes {
        design.set(path, value.clone()).unwrap();
    }
    design
}

fn number(value: f64) -> Value {
    Value::Number(value)
}

fn celsius(value: f64) -> Value {
    number(value + 273.15)
}

fn verdict(assessment: &Assessment, id: &str) -> Verdict {
    assessment.finding(id).unwrap().verdict
}

/// At full load the gas stays warm enough to drop nothing, at the usual load it does not.
#[test]
fn water_that_falls_out_at_any_load_is_told() {
    let design = with(&[
        ("engine.displacement", number(2.6e-3)),
        ("train.3.separation", number(1.0)),
        ("train.6.separation", number(1.0)),
    ]);
    let assessment = assess(&design);
    let most = [
        &assessment.train.usual,
        &assessment.train.full_clean,
        &assessment.train.full_dirty,
    ]
    .into_iter()
    .map(|load| load.as_ref().unwrap().condensate.value)
    .fold(0.0, f64::max);
    assert!(most > 0.0);
    let finding = assessment.finding("train.loose_water").unwrap();
    let most = Measure::new(Quantity::MassFlow, most).into();
    let wanted = Phrase::new("up to {} falls out", [most]).text(System::Metric);
    let told = finding.compared.text(System::Metric);
    assert!(told.contains(&wanted), "{told}: {wanted}");
    assert!(finding.caution.is_some());
}

#[test]
fn gas_cannot_leave_hotter_than_it_is_made() {
    let said = |outlet: f64| {
        let assessment = assess(&with(&[("raw_gas.temperature", celsius(outlet))]));
        let finding = assessment.finding("train.leaves").unwrap().clone();
        (finding.verdict, finding.working[0].result.si)
    };
    assert_eq!(said(890.0).0, Verdict::Stop);
    let (cool, warm) = (said(350.0), said(600.0));
    assert_eq!((cool.0, warm.0), (Verdict::Good, Verdict::Good));
    // Dry gas of some 1.1 kg per normal cubic metre and 1.4 kJ/(kg K), 450 K colder.
    let flow = assess(&with(&[])).heart.at.full.supply.gas_flow.value;
    let about = flow * 1.1 * 1.4e3 * 450.0;
    assert!((cool.1 / about - 1.0).abs() < 0.2, "{} {about}", cool.1);
    assert!(warm.1 < 0.55 * cool.1);
}

/// Wood of 15 % water and 1.5 kJ/(kg K) to 300 °C, air of 1.09 kJ/(kg K) to 800 °C, both from 20 °C.
#[test]
fn gas_gives_off_no_more_than_something_takes() {
    let of = |outlet: f64| {
        let assessment = assess(&with(&[("raw_gas.temperature", celsius(outlet))]));
        let finding = assessment.finding("train.leaves").unwrap().clone();
        (assessment, finding)
    };
    let (assessment, warm) = of(350.0);
    let supply = &assessment.heart.at.full.supply;
    let moisture = assessment.heart.moisture.as_ref().unwrap().wet_basis.value;
    let wood = supply.fuel_rate.value * ((1.0 - moisture) * 1500.0 * 280.0 + moisture * 2.442e6);
    let air = 101_325.0 / (287.055 * 273.15) * supply.gas_flow.value / supply.gas_per_air
        * 1090.0
        * 780.0;
    let design = with(&[]);
    let inside = design.body_wall.inner_temperature;
    let body = zone_heat(&design, Zone::Body, inside).unwrap().loss.value;
    let most = warm.working[1].result.si;
    let wanted = wood + air + body;
    assert!((most / wanted - 1.0).abs() < 1e-9, "{most} {wanted}");
    assert_eq!(warm.verdict, Verdict::Good);
    let (_, cold) = of(100.0);
    assert_eq!(cold.verdict, Verdict::Watch);
    assert!(cold.working[0].result.si > most && cold.margin.unwrap() < 0.0);
    let told = cold.compared.text(Default::default());
    assert!(told.contains("come out hotter"), "{told}");
    let offered = remedies(
        &with(&[("raw_gas.temperature", celsius(100.0))]),
        "train.leaves",
    );
    assert!(offered.iter().any(|remedy| remedy.change.is_some()));
}

#[test]
fn a_hearth_that_takes_all_pressure_is_told_with_what_opens_it() {
    let shut = with(&[("grate.hole", number(0.003)), ("grate.pitch", number(0.06))]);
    let assessment = assess(&shut);
    let finding = assessment.finding("train.passes").unwrap();
    let told = finding.compared.text(Default::default());
    assert!(told.contains("char and grate take so much"), "{told}");
    let opens = |lever: &Lever| *lever == Lever::input("grate.hole");
    assert!(finding.levers.iter().any(opens));
}

/// Wet wood with the air held makes a hearth that is cold for tar: no filter makes up for it.
#[test]
fn a_cold_hearth_leaves_no_tar_told_good_at_the_engine() {
    let cold = with(&[
        ("fuel.moisture", number(0.28)),
        ("gas_making.air_rule", Value::Choice("air_held".to_string())),
    ]);
    let assessment = assess(&cold);
    assert_eq!(verdict(&assessment, "heart.full"), Verdict::Stop);
    let finding = assessment.finding("train.arrives").unwrap();
    assert_eq!(finding.verdict, Verdict::Watch);
    let told = finding.compared.text(Default::default());
    assert!(told.contains("too cold to break tar up"), "{told}");
    assert_eq!(verdict(&assess(&with(&[])), "train.arrives"), Verdict::Good);
}

#[test]
fn tar_that_no_stage_cools_reaches_the_engine_as_vapour() {
    let mut bare = with(&[]);
    bare.train.clear();
    let told = |design: &Design| {
        let assessment = assess(design);
        let finding = assessment.finding("train.arrives").unwrap();
        let text = finding.compared.text(Default::default());
        (finding.verdict, text)
    };
    let (stop, text) = told(&bare);
    assert_eq!(stop, Verdict::Stop);
    assert!(text.contains("350 °C") && text.contains("150 °C"), "{text}");
    assert!(text.contains("as vapour"), "{text}");
    // Tar that stays vapour in gas as cool as an engine wants it falls out nowhere.
    bare.set("raw_gas.tar_dew_point", celsius(20.0)).unwrap();
    assert!(!told(&bare).1.contains("vapour"));
}

#[test]
fn only_what_was_vapour_in_a_filter_can_fall_out_behind_it() {
    // The number of tubes moves the temperatures by tenths of a degree: tar must not come and go with it.
    for tubes in 28..=36 {
        let assessment = assess(&with(&[("train.2.tubes", number(f64::from(tubes)))]));
        assert_ne!(
            verdict(&assessment, "train.arrives"),
            Verdict::Stop,
            "{tubes}"
        );
        let usual = assessment.train.usual.as_ref().unwrap();
        let behind = |place: usize| &usual.points[place + 1];
        let filter = (assessment.train.names.iter()).position(|name| name.label.contains("ilter"));
        let filtered = behind(filter.unwrap());
        let engine = usual.points.last().unwrap();
        let fell = filtered.temperature.value - engine.temperature.value;
        assert!(fell < 10.0 && !engine.tar.mist, "{tubes}: {fell}");
    }
}

#[test]
fn steam_takes_room_in_the_cylinders() {
    let assessment = assess(&with(&[]));
    let left = assessment.train.power_left.unwrap();
    let engine = assessment.train.full_dirty.as_ref().unwrap();
    let gas = engine.points.last().unwrap();
    // Moles of steam over moles of dry gas, by mass flow and normal volume.
    let steam = gas.vapour.value / 0.018_015 / (gas.dry_flow.value / 0.022_414);
    let wanted = 1.0 / (1.0 + left.gas_share.value * steam);
    assert!((left.by_steam.value / wanted - 1.0).abs() < 1e-3);
    assert!((0.93..0.995).contains(&wanted), "{wanted}");
    let product = left.by_suction.value * left.by_warmth.value * left.by_steam.value;
    assert!((left.left.value / left.whole.value / product - 1.0).abs() < 1e-9);
}

#[test]
fn where_a_stage_is_missing_it_is_offered() {
    let mut bare = with(&[]);
    bare.train.retain(|stage| stage.kind == StageKind::Blower);
    let assessment = assess(&bare);
    let offered = |id: &str, kind: &str| {
        let finding = assessment.finding(id).unwrap();
        let of_kind = |lever: &Lever| {
            matches!(lever, Lever::NewItem { fields, .. }
            if fields.contains(&("kind", Value::Choice(kind.to_string()))))
        };
        finding.levers.iter().any(of_kind)
    };
    assert!(offered("train.engine_temperature", "cooler"));
    assert!(offered("train.arrives", "filter"));
    let cooled = remedies(&bare, "train.engine_temperature");
    assert!(cooled.iter().any(|remedy| remedy.change.is_some()));
}

#[test]
fn a_hot_filter_is_offered_a_cooler_before_it() {
    let mut hot = with(&[]);
    let place = |kind| {
        hot.train
            .iter()
            .position(|stage| stage.kind == kind)
            .unwrap()
    };
    let (cooler, filter) = (place(StageKind::Cooler), place(StageKind::Filter));
    let stage = hot.train.remove(filter);
    hot.train.insert(cooler, stage);
    let assessment = assess(&hot);
    let finding = assessment.finding("train.filter_temperature").unwrap();
    assert_eq!(finding.verdict, Verdict::Stop);
    let offered = remedies(&hot, "train.filter_temperature");
    // To change the places of both takes no new steel.
    assert!(matches!(&offered[0].lever, Lever::Move { .. }));
    let new = |one: &&Remedy| matches!(&one.lever, Lever::NewItem { list: "train", .. });
    let new = offered.iter().find(new).unwrap();
    assert!(new.change.is_some());
    // Another limit is right only where the medium has it.
    let limit = offered.iter().find(|one| one.input.name == "medium_limit");
    assert!(limit.is_none_or(|limit| limit.is_fact()));
}

#[test]
fn frost_in_the_train_is_offered_less_cooling() {
    let frozen = with(&[("site.air_temperature", celsius(-5.0))]);
    let assessment = assess(&frozen);
    let finding = assessment.finding("train.ice").unwrap();
    assert_eq!(finding.verdict, Verdict::Stop);
    let offered = remedies(&frozen, "train.ice");
    assert!(
        offered.iter().any(|remedy| remedy.change.is_some()),
        "{offered:?}"
    );
}

#[test]
fn what_is_offered_against_tar_is_not_what_helps_against_dust() {
    let levers = |design: &Design| {
        let finding = assess(design).finding("train.arrives").unwrap().clone();
        assert_eq!(finding.verdict, Verdict::Watch);
        finding.levers
    };
    let dust = [
        Lever::input("train.1.body_diameter"),
        Lever::input("train.4.catches"),
    ];
    let tar = [
        Lever::input("train.2.tube_length"),
        Lever::input("train.5.cover"),
    ];
    // A filter that is hot lets tar through as vapour.
    let tarry = with(&[("train.2.tube_length", number(0.3))]);
    let offered = levers(&tarry);
    assert!(tar.iter().all(|lever| offered.contains(lever)));
    assert!(!dust.iter().any(|lever| offered.contains(lever)));
    let found = remedies(&tarry, "train.arrives");
    let cooler = found
        .iter()
        .find(|one| one.lever == tar[0] && one.change.is_some());
    assert!(cooler.is_some());
    let dusty = with(&[("train.4.catches", number(0.0))]);
    let offered = levers(&dusty);
    assert!(dust.iter().all(|lever| offered.contains(lever)));
    assert!(!tar.iter().any(|lever| offered.contains(lever)));
    // Nothing cools the gas before the filter: a cooler is offered there.
    let mut hot = tarry.clone();
    let cooler = hot.train.remove(2);
    hot.train.insert(6, cooler);
    let offered = levers(&hot);
    let new =
        |lever: &Lever| matches!(lever, Lever::NewItem { list: "train", index, .. } if *index <= 3);
    assert!(offered.iter().any(new), "{offered:?}");
    assert!(!offered.contains(&Lever::input("train.6.tube_length")));
}

#[test]
fn cloth_is_judged_by_the_dew_point_whatever_it_may() {
    let cloth = |may: bool| {
        with(&[
            ("train.4.medium", Value::Choice("cloth".to_string())),
            ("train.4.may_be_wet", Value::Flag(may)),
        ])
    };
    for may in [false, true] {
        let design = cloth(may);
        assert!(!design.in_use("train.4.may_be_wet"));
        let finding = assess(&design).finding("train.filter_wet").unwrap().clone();
        assert_eq!(finding.verdict, Verdict::Stop, "{may}");
        let flag = Lever::input("train.4.may_be_wet");
        assert!(!finding.levers.contains(&flag));
        // A bed in its place may get wet, and comes with a drain.
        let found = remedies(&design, "train.filter_wet");
        let medium = Lever::input("train.4.medium");
        let bed = found.iter().find(|one| one.lever == medium).unwrap();
        let mended = bed.change.as_ref().unwrap().apply(&design).unwrap();
        assert!(mended.train[4].may_be_wet);
    }
    let (dry, wet) = (assess(&cloth(false)), assess(&cloth(true)));
    let caught = |assessment: &Assessment| {
        let usual = assessment.train.usual.as_ref().unwrap();
        usual.outcomes[4].water_removed.value
    };
    assert_eq!(caught(&dry), 0.0);
    assert_eq!(caught(&wet), 0.0);
    let bed = with(&[("train.4.may_be_wet", Value::Flag(false))]);
    let finding = assess(&bed).finding("train.filter_wet").unwrap().clone();
    let flag = Lever::input("train.4.may_be_wet");
    assert!(bed.in_use("train.4.may_be_wet") && finding.levers.contains(&flag));
}
