//! Fan and pump of a cooler work only while they are switched on.

use crate::mended::every_remedy_passes;
use hearthplan::design::inputs::{LoadTime, StageKind};
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Assessment, Change, Finding, Verdict, assess, remedies};
use hearthplan::sizing::train::TrainSolution;

/// Place of the cooler in the train, and of its fan among the loads.
const COOLER: usize = 2;
const DRIVE: usize = 4;

fn ask<'a>(assessment: &'a Assessment, id: &str) -> &'a Finding {
    assessment.finding(id).unwrap()
}

fn told(assessment: &Assessment, id: &str) -> String {
    ask(assessment, id).compared.text(Default::default())
}

/// The example with the drive of its cooler on at that time.
fn blown(when: LoadTime) -> Design {
    let mut design = example::as_improved();
    assert_eq!(design.train[COOLER].kind, StageKind::Cooler);
    assert_eq!(design.loads[DRIVE].name, "Cooler fan");
    design.loads[DRIVE].when = when;
    design
}

/// The same with a water jacket and its pump.
fn pumped(when: LoadTime) -> Design {
    let mut design = blown(when);
    design
        .choose(&format!("train.{COOLER}.cooling"), "water")
        .unwrap();
    design.loads[DRIVE].name = "Cooling water pump".to_string();
    design
}

/// Gas behind the cooler, K.
fn behind(solved: &TrainSolution) -> f64 {
    solved.points[COOLER + 1].temperature.value
}

#[test]
fn a_fan_that_is_off_at_work_leaves_the_tubes_in_still_air() {
    let on = assess(&blown(LoadTime::Running));
    let design = blown(LoadTime::Lighting);
    let off = assess(&design);
    let full = |assessment: &Assessment| behind(assessment.train.full_clean.as_ref().unwrap());
    assert!(full(&off) > full(&on) + 5.0);
    let mut still = blown(LoadTime::Running);
    (still.choose(&format!("train.{COOLER}.cooling"), "bare")).unwrap();
    assert_eq!(full(&off), full(&assess(&still)));
    assert_eq!(ask(&off, "electrics.fan").verdict, Verdict::Stop);
    let words = told(&off, "electrics.fan");
    assert!(words.contains("off while the engine runs"), "{words}");
    let (verdict, remark) = off.remark(&design, "train", COOLER).unwrap();
    assert_eq!(
        (verdict, &remark),
        (Verdict::Stop, &ask(&off, "electrics.fan").compared)
    );
    every_remedy_passes(&design, "electrics.fan", 2);
    // The sum tells no air of a fan that does not blow, and the length is that for still air.
    let speeds = |assessment: &Assessment| {
        (ask(assessment, "train.engine_temperature").working.iter())
            .flat_map(|step| &step.values)
            .filter(|value| value.0 == "w")
            .count()
    };
    assert_eq!((speeds(&on), speeds(&off)), (1, 0));
    let length = |assessment: &Assessment| {
        let length = assessment.train.cooler_length.clone();
        length.unwrap().unwrap().value
    };
    assert!(length(&off) > 2.0 * length(&on));
    // One that is on for no share of the time is off.
    let mut never = blown(LoadTime::Always);
    never.loads[DRIVE].duty *= 0.0;
    assert_eq!(ask(&assess(&never), "electrics.fan").verdict, Verdict::Stop);
    every_remedy_passes(&never, "electrics.fan", 1);
}

#[test]
fn a_fan_that_is_no_load_turns_with_the_engine() {
    let mut design = blown(LoadTime::Running);
    let listed = assess(&design);
    design.loads.remove(DRIVE);
    let driven = assess(&design);
    assert_eq!(ask(&driven, "electrics.fan").verdict, Verdict::Watch);
    let outlet = |assessment: &Assessment| {
        let train = &assessment.train;
        [&train.startup, &train.usual, &train.full_clean].map(|it| behind(it.as_ref().unwrap()))
    };
    assert_eq!(outlet(&driven), outlet(&listed));
}

#[test]
fn a_pump_that_is_off_at_work_lets_the_jacket_boil() {
    let design = pumped(LoadTime::Lighting);
    let off = assess(&design);
    for id in ["electrics.pump", "train.cooler_outside"] {
        let finding = ask(&off, id);
        assert_eq!(finding.verdict, Verdict::Stop, "{id}");
        assert!(finding.caution.unwrap().contains("scald"), "{id}");
        every_remedy_passes(&design, id, 1);
    }
    let step = &ask(&off, "train.cooler_outside").working[0];
    let boils = step.result.si - 273.15;
    assert!((95.0..=100.1).contains(&boils), "{boils}");
    // Gas is not cooled below the water that stands around it.
    let full = off.train.full_clean.as_ref().unwrap();
    assert!(behind(full) >= step.result.si - 1e-6);
}

#[test]
fn water_that_stands_while_lighting_is_told() {
    let design = pumped(LoadTime::Running);
    let resting = assess(&design);
    assert_eq!(ask(&resting, "electrics.pump").verdict, Verdict::Good);
    assert!(told(&resting, "electrics.pump").contains("water stands"));
    let finding = ask(&resting, "train.cooler_outside");
    assert_eq!(finding.verdict, Verdict::Watch);
    let words = told(&resting, "train.cooler_outside");
    assert!(words.contains("while lighting its pump rests"), "{words}");
    assert!(finding.caution.unwrap().contains("scald"));
    every_remedy_passes(&design, "train.cooler_outside", 1);
    let always = assess(&pumped(LoadTime::Always));
    assert_eq!(ask(&always, "train.cooler_outside").verdict, Verdict::Good);
    let lit = |assessment: &Assessment| behind(assessment.train.startup.as_ref().unwrap());
    assert!(lit(&resting) > lit(&always) + 20.0);
    // Water that no load moves comes from a tap, from lighting on.
    let mut tap = pumped(LoadTime::Running);
    tap.loads.remove(DRIVE);
    assert_eq!(lit(&assess(&tap)), lit(&always));
}

/// The pump that is offered runs as long as there is hot gas.
#[test]
fn a_pump_that_is_offered_runs_from_lighting_on() {
    let mut design = pumped(LoadTime::Running);
    design.loads.remove(DRIVE);
    let offered = remedies(&design, "electrics.pump");
    let Some(Change::Insert { .. }) = &offered[0].change else {
        panic!("{offered:?}");
    };
    let after = offered[0].change.as_ref().unwrap().apply(&design).unwrap();
    assert_eq!(after.loads.last().unwrap().when, LoadTime::Always);
    let after = assess(&after);
    assert_eq!(ask(&after, "train.cooler_outside").verdict, Verdict::Good);
    assert!(told(&after, "electrics.pump").contains("also while lighting"));
}

#[test]
fn a_cooler_that_rests_while_lighting_burns_then() {
    let mut design = blown(LoadTime::Running);
    design.train[COOLER].guarded = false;
    (design.set(&format!("train.{COOLER}.air_speed"), Value::Number(15.0))).unwrap();
    let found = assess(&design);
    let finding = ask(&found, "train.touch");
    assert_eq!(finding.verdict, Verdict::Watch);
    let words = told(&found, "train.touch");
    assert!(words.contains("outside while lighting"), "{words}");
    let outside = finding.working[0].result.si - 273.15;
    assert!((130.0..170.0).contains(&outside), "{outside}");
    assert!(finding.working[0].values.iter().all(|value| value.0 != "w"));
    every_remedy_passes(&design, "train.touch", 2);
}
