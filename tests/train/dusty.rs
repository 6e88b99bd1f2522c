//! Dust in pipes and tubes: where it settles, where it falls through, and where it meets tar and water and cakes.

use crate::mended::every_remedy_passes;
use hearthplan::design::inputs::StageKind;
use hearthplan::design::{Design, Value, example, quantity::System};
use hearthplan::review::{Finding, Lever, Verdict, assess, remedies};
use hearthplan::sizing::train::{Note, TrainSolution};

const DUST: &str = "train.dust_settles";

fn answer(design: &Design) -> (Finding, String) {
    let finding = assess(design).finding(DUST).unwrap().clone();
    let told = finding.compared.text(System::Metric);
    (finding, told)
}

fn without(kind: StageKind) -> Design {
    let mut design = example::as_improved();
    design.train.retain(|stage| stage.kind != kind);
    design
}

fn notes(solved: &TrainSolution, place: usize) -> &[Note] {
    &solved.outcomes[place].notes
}

#[test]
fn all_the_dust_in_narrow_wet_tubes_cakes() {
    let bare = without(StageKind::Cyclone);
    let (finding, told) = answer(&bare);
    assert_eq!(finding.verdict, Verdict::Watch, "{told}");
    assert!(
        told.starts_with("Tube cooler: 2 g/Nm³ of dust in a bore of 18 mm"),
        "{told}"
    );
    assert!(told.contains("cakes"), "{told}");
    let assessment = assess(&bare);
    let usual = assessment.train.usual.as_ref().unwrap();
    assert!(notes(usual, 1).contains(&Note::DustCakes));
    every_remedy_passes(&bare, DUST, 2);
    // A cyclone before them, of a size that it works with, is offered first.
    let found = remedies(&bare, DUST);
    let Lever::NewItem { index: 1, .. } = &found[0].lever else {
        panic!("{found:?}");
    };
    let mended = found[0].change.as_ref().unwrap().apply(&bare).unwrap();
    assert_eq!(mended.train[1].kind, StageKind::Cyclone);
    let after = assess(&mended);
    assert_eq!(
        after.finding("train.cyclone").unwrap().verdict,
        Verdict::Good
    );
}

#[test]
fn a_cyclone_behind_the_cooler_keeps_its_tubes_from_nothing() {
    let mut design = example::as_improved();
    design.train.swap(1, 2);
    let (finding, told) = answer(&design);
    assert_eq!(finding.verdict, Verdict::Watch, "{told}");
    let step = &finding.working[0];
    assert!(step.words.contains("before the cooler"), "{}", step.words);
    assert!((step.result.si - design.raw_gas.dust_load.value).abs() < 1e-9);
}

#[test]
fn dust_falls_through_wide_upright_tubes() {
    let mut design = without(StageKind::Cyclone);
    // So wide a hearth outlet would be the question.
    design
        .set("train.0.lie", Value::Choice("upright".to_string()))
        .unwrap();
    design
        .set("train.1.tube_bore", Value::Number(0.045))
        .unwrap();
    let (finding, told) = answer(&design);
    assert_eq!(finding.verdict, Verdict::Good, "{told}");
    assert!(told.starts_with("Tube cooler: "), "{told}");
    assert!(
        told.contains("2 g/Nm³ of dust") && told.contains("falls through"),
        "{told}"
    );
    let usual = assess(&design).train.usual.unwrap();
    assert!(notes(&usual, 1).contains(&Note::DustFalls));
    assert!(!notes(&usual, 1).contains(&Note::DustCakes));
}

#[test]
fn each_stage_is_told_of_the_dust_that_it_gets() {
    let assessment = assess(&example::as_improved());
    let (lighting, usual) = (
        assessment.train.startup.unwrap(),
        assessment.train.usual.unwrap(),
    );
    // All dust passes the outlet: slow while lighting, fast enough at the usual load.
    assert!(notes(&lighting, 0).contains(&Note::DustSettles));
    assert!(notes(&usual, 0).is_empty());
    // The cyclone has taken most of it before the cooler.
    for solved in [&lighting, &usual] {
        assert!(notes(solved, 2).contains(&Note::LittleDust));
    }
}

#[test]
fn a_train_of_nothing_is_not_told_to_be_clean() {
    let mut design = example::as_improved();
    design.train.clear();
    let (finding, told) = answer(&design);
    assert_eq!(finding.verdict, Verdict::Good);
    assert_eq!(
        told,
        "there is neither pipe nor cooler; 2 g/Nm³ goes on to the engine"
    );
    let arrives = assess(&design)
        .finding("train.arrives")
        .unwrap()
        .compared
        .text(System::Metric);
    assert!(arrives.starts_with("2 g/Nm³ of dust"), "{arrives}");
}
