//! What is ticked as built, and a bottom that a vessel has, is neither bought, cut, welded nor paid for.

use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::paper::html;
use hearthplan::paper::sheets::all;
use hearthplan::review::assess;
use hearthplan::sizing::build_order::{Task, as_own, besides, check, is_done, order};
use hearthplan::sizing::cost::cost_sheet;
use hearthplan::sizing::long_seams::long_seams;
use hearthplan::sizing::machine::layout;
use hearthplan::sizing::parts_list::parts_list;
use hearthplan::sizing::pattern::patterns;
use hearthplan::sizing::shell_there::keeps_vessel;
use hearthplan::sizing::work_time::{Work, work_time};
use uom::si::f64::Length;

/// The example before any vessel is bought, in the computed order.
fn to_be_made() -> Design {
    let mut design = example::as_improved();
    design.real_vessel.measured = false;
    design.workshop.own_order = false;
    design
}

fn built() -> Design {
    let mut design = to_be_made();
    (design.hearth.built, design.real_vessel.lined) = (true, true);
    design
}

fn bought(has_bottom: bool) -> Design {
    let mut design = example::as_improved();
    design.real_vessel.measured = true;
    design.real_vessel.has_bottom = has_bottom;
    design
}

fn page(design: &Design, name: &str) -> String {
    let sheets = all(design, &assess(design), System::Metric, &[]);
    let sheet = sheets.iter().find(|sheet| sheet.name == name);
    html::blocks(sheet.expect("a sheet of that name"), System::Metric)
}

/// The rows of “To buy, added up”.
fn to_buy(design: &Design) -> String {
    let page = page(design, "parts");
    let (_, behind) = page.split_once("To buy, added up").expect("the table");
    let (table, _) = behind.split_once("</table>").expect("its end");
    table.to_string()
}

/// The templates that are refused because the piece is there, by name.
fn not_cut(design: &Design) -> Vec<String> {
    (patterns(design).into_iter())
        .filter(|entry| {
            let why = entry.pattern.as_ref().err().map(ToString::to_string);
            why.is_some_and(|why| why.contains("which is there already: nothing to cut"))
        })
        .map(|entry| entry.name)
        .collect()
}

/// Where the lines come from that are there already, each once.
fn unpaid(design: &Design) -> Vec<String> {
    let lines = {
        let machine = layout(design);
        cost_sheet(design, &machine, &parts_list(design, &machine)).lines
    };
    let mut from: Vec<String> = (lines.iter().filter(|line| line.there))
        .map(|line| line.from.split('.').next().unwrap_or_default().to_string())
        .collect();
    from.dedup();
    from
}

fn amount(design: &Design, work: Work) -> f64 {
    let time = {
        let machine = layout(design);
        work_time(design, &machine, &parts_list(design, &machine))
    };
    (time.lines.iter())
        .find(|line| line.work == work)
        .map_or(0.0, |line| line.amount)
}

fn welded_long(design: &Design) -> Vec<String> {
    let machine = layout(design);
    (long_seams(design, &machine, &parts_list(design, &machine)).into_iter())
        .map(|seam| seam.name)
        .collect()
}

#[test]
fn what_is_built_is_not_bought_cut_or_paid_for() {
    let (free, built) = (to_be_made(), built());
    let before = to_buy(&free);
    for name in [
        "Fire tube",
        "Nozzles",
        "Cone above the throat",
        "hearth wall",
    ] {
        assert!(before.contains(name), "{name}: {before}");
        assert!(!to_buy(&built).contains(name), "{name}");
    }
    assert!(to_buy(&built).contains("Grate") && to_buy(&built).contains("Hopper"));
    assert!(not_cut(&free).is_empty());
    let refused = not_cut(&built);
    for name in [
        "Fire tube",
        "Cone above the throat",
        "Cone below the throat",
        "Nozzle ring",
        "Hearth jacket",
        "Body jacket",
    ] {
        assert!(refused.iter().any(|one| one == name), "{name}: {refused:?}");
    }
    assert!(refused.iter().any(|name| name.starts_with("Bottom plate")));
    assert!(
        !refused
            .iter()
            .any(|name| name == "Grate" || name.starts_with("Hopper"))
    );
    assert_eq!(unpaid(&free), Vec::<String>::new());
    let mut from = unpaid(&built);
    from.sort();
    from.dedup();
    let wanted = [
        "body_layers",
        "body_wall",
        "bottom_layers",
        "hearth",
        "hearth_layers",
        "joints",
        "lid",
        "lid_layers",
    ];
    assert_eq!(from, wanted);
    // The sheets of wool that would be cut are told only where they are to be.
    let wool = "Blanket and wool as they are sold";
    assert!(page(&free, "parts").contains(wool) && !page(&built, "parts").contains(wool));
}

#[test]
fn what_is_built_is_no_work() {
    let (free, built) = (to_be_made(), built());
    assert!(amount(&free, Work::Lining) > 0.0);
    // Nothing is left to be laid but the wool around stages of the gas train.
    assert!(amount(&built, Work::Lining) < amount(&free, Work::Lining));
    let mut bare = built.clone();
    for stage in &mut bare.train {
        stage.insulation = Length::default();
    }
    assert_eq!(amount(&bare, Work::Lining), 0.0);
    for work in [Work::Parts, Work::Welds] {
        assert!(amount(&built, work) < amount(&free, work), "{work:?}");
    }
    assert!(welded_long(&free).iter().any(|name| name == "Fire tube"));
    let left = welded_long(&built);
    assert!(
        !left
            .iter()
            .any(|name| name == "Fire tube" || name.contains("wall"))
    );
    assert!(left.iter().any(|name| name == "Hopper"), "{left:?}");
    // Each by itself.
    let mut hearth = free.clone();
    hearth.hearth.built = true;
    assert_eq!(amount(&hearth, Work::Lining), amount(&free, Work::Lining));
    assert_eq!(unpaid(&hearth), ["hearth"]);
}

/// What the lining of a built vessel hides is made and stays to be tested, by the gauge: nothing is hidden any more.
#[test]
fn the_order_of_a_lined_vessel_begins_behind_its_lining() {
    let built = built();
    let steps = order(&built).expect("an order");
    assert!(!steps.iter().any(|step| is_done(&built, step.task)));
    assert!(is_done(&built, Task::Make(0)) && !is_done(&to_be_made(), Task::Make(0)));
    let hidden = (steps.iter()).find(|step| step.task == Task::Test(0));
    assert!(!hidden.expect("it is still tested").hold);
    let told = page(&built, "build-order");
    assert!(
        told.contains("with the gauge alone, the lining hides it"),
        "{told}"
    );
    assert!(!told.contains("Insulate or clad"), "{told}");
    assert!(!told.contains("before the lining goes in"), "{told}");
    assert!(!told.contains("Fire tube, Cone"), "{told}");
    assert!(told.contains("Ash door: where it is not there yet"));
    let before = page(&to_be_made(), "build-order");
    assert!(before.contains("Insulate or clad") && !before.contains("not there yet"));
    // The same as a person's own order is sound.
    let mut own = built.clone();
    own.build_steps = as_own(&built, &steps);
    own.workshop.own_order = true;
    assert_eq!(check(&own), []);
    assert!(!page(&own, "build-order").contains("HOLD"));
    // An order that was entered before the vessel was ticked is too.
    let free = to_be_made();
    own.build_steps = as_own(&free, &order(&free).expect("an order"));
    assert_eq!(check(&own), []);
    let leaks = page(&built, "leak-tests");
    assert!(!leaks.contains("before the lining"), "{leaks}");
    assert!(
        leaks.contains("stands for its long seam. The lining hides that"),
        "{leaks}"
    );
}

/// The welds of the list stand for the round seams, and no soap is asked for twice.
#[test]
fn only_seams_that_no_joint_stands_for_are_told() {
    let mut design = bought(false);
    let told = page(&design, "leak-tests");
    assert!(
        told.contains("no joint of the list stands for its long seam. In its"),
        "{told}"
    );
    design.real_vessel.seamless = true;
    assert!(!page(&design, "leak-tests").contains("seams of its own"));
    design.joints.remove(1);
    assert!(page(&design, "leak-tests").contains("stands for its round seams."));
}

#[test]
fn a_bottom_of_its_own_is_neither_cut_nor_welded() {
    let (open, closed) = (bought(false), bought(true));
    let outermost = closed.bottom_layers.len() - 1;
    assert!(closed.bottom_layers[outermost].material.is_metal());
    let name = format!("Layer {} of the bottom", outermost + 1);
    assert!(to_buy(&open).contains(&name), "{}", to_buy(&open));
    assert!(!to_buy(&closed).contains(&name));
    let plates = |design: &Design| {
        let names = not_cut(design).into_iter();
        names.filter(|name| name.starts_with("Bottom")).count()
    };
    assert_eq!([plates(&open), plates(&closed)], [0, 1]);
    assert!(unpaid(&closed).contains(&"bottom_layers".to_string()));
    assert!(
        page(&closed, "parts").contains("the outermost of its layers is that of the vessel itself")
    );
    // Its weld is made, and tested before the lining hides it.
    let steps = order(&closed).expect("an order");
    assert!(!steps.iter().any(|step| step.task == Task::Make(0)));
    assert!(
        steps
            .iter()
            .any(|step| step.task == Task::Test(0) && step.hold)
    );
    // A thicker plate would be another vessel.
    let mut thicker = closed.clone();
    thicker.bottom_layers[outermost].thickness *= 2.0;
    assert!(!keeps_vessel(&closed, &thicker));
    let mut thicker = open.clone();
    thicker.bottom_layers[outermost].thickness *= 2.0;
    assert!(keeps_vessel(&open, &thicker));
    // Nothing but a vessel that is there has a bottom of its own.
    let mut rolled = closed;
    rolled.real_vessel.measured = false;
    assert!(not_cut(&rolled).is_empty());
    assert!(!rolled.in_use("real_vessel.has_bottom"));
}

/// A bottom that is to be welded in is told even where no joint of the list stands for it.
#[test]
fn the_weld_of_a_bottom_that_is_missing_is_told() {
    let told = |design: &Design| {
        let steps = order(design).expect("an order");
        let more = besides(design, &steps);
        more.iter()
            .any(|one| one.on == "Bottom of the vessel that is there")
    };
    let mut design = bought(false);
    assert!(!told(&design));
    design.joints.remove(0);
    assert!(told(&design));
    design
        .set("real_vessel.has_bottom", Value::Flag(true))
        .expect("a flag");
    assert!(!told(&design));
    design.real_vessel.has_bottom = false;
    design.bottom_layers.clear();
    assert!(!told(&design));
    design.bottom_layers = example::as_improved().bottom_layers;
    design.real_vessel.measured = false;
    assert!(!told(&design));
}
