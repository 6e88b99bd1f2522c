//! Which sub-assembly is tested, with what volume, and how much of the leak is its share.

use super::flow;
use hearthplan::design::Design;
use hearthplan::design::inputs::Group;
use hearthplan::design::quantity::System;
use hearthplan::paper::html;
use hearthplan::paper::sheets::all;
use hearthplan::review::assess;
use hearthplan::sizing::leak_test::budgets;
use uom::si::f64::{Length, Volume};
use uom::si::length::millimeter;
use uom::si::volume::liter;

#[test]
fn the_cone_of_the_hopper_is_full_of_air_too() {
    let energy = |cone: f64| {
        let mut design = Design::default();
        design.hopper.cone_height = Length::new::<millimeter>(cone);
        let leaks = assess(&design).leaks;
        let hopper = leaks
            .groups
            .iter()
            .find(|one| one.budget.group == Group::Hopper);
        let plan = hopper.and_then(|one| one.plan).expect("a plan");
        plan.stored_energy.value
    };
    assert!(energy(1_000.0) > 1.5 * energy(10.0));
}

#[test]
fn the_budget_is_shared_by_length_of_joint() {
    let design = Design::default();
    let shared = budgets(&design, flow(1.0));
    let tight: f64 = design
        .joints
        .iter()
        .filter(|joint| joint.airtight)
        .map(|joint| joint.length.value)
        .sum();
    let sum: f64 = shared.iter().map(|one| one.joint_length.value).sum();
    assert!((sum - tight).abs() < 1e-12);
    assert!((shared.iter().map(|one| one.budget.value).sum::<f64>() - 1.0).abs() < 1e-12);
    let engine = shared
        .iter()
        .find(|one| one.group == Group::Engine)
        .expect("a clamp");
    assert!((engine.budget.value - 0.08 / tight).abs() < 1e-12);
    assert!(shared.iter().all(|one| one.group != Group::Base));
}

#[test]
fn a_hopper_that_is_gone_is_told_by_its_joints() {
    let mut design = Design::default();
    design.hopper.fitted = false;
    for volume in [
        &mut design.leak_test.filter_volume,
        &mut design.leak_test.cooler_volume,
        &mut design.leak_test.condensate_volume,
    ] {
        *volume = Some(Volume::new::<liter>(20.0));
    }
    let plan = |design: &Design| {
        let assessment = assess(design);
        let finding = assessment.finding("leaks.plan").expect("asked").clone();
        finding.compared.text(System::Metric)
    };
    let told = plan(&design);
    assert!(
        told.contains("no hopper is fitted, but the list of joints"),
        "{told}"
    );
    design
        .joints
        .retain(|joint| joint.first != Group::Hopper && joint.second != Group::Hopper);
    assert!(!plan(&design).contains("hopper"));
}

#[test]
fn joints_that_no_gauge_tells_of_get_soap_film() {
    let design =
        hearthplan::review::guided::complete(&hearthplan::design::example::to_start_from(), &[]);
    let assessment = assess(&design);
    let holds = |group| hearthplan::sizing::air_inside::holds_gas(group);
    assert!(
        assessment
            .leaks
            .groups
            .iter()
            .any(|one| !holds(one.budget.group))
    );
    let told = (assessment.finding("leaks.plan").expect("asked").compared).text(System::Metric);
    assert!(told.contains("soap film"), "{told}");
    let sheets = all(&design, &assessment, System::Metric, &[]);
    let page = |name: &str| {
        let sheet = sheets
            .iter()
            .find(|sheet| sheet.name == name)
            .expect("the sheet");
        html::blocks(sheet, System::Metric)
    };
    let leaks = page("leak-tests");
    assert!(leaks.contains("No number: "), "{leaks}");
    assert!(!leaks.contains(">?<"), "{leaks}");
}
