//! How long the building takes, against counting by hand.

use hearthplan::design::inputs::{
    CoolerType, Flange, Group, Hole, HoleUse, Joint, JointKind, JointState, Layer, Material, Part,
    Shape, StageKind, TrainStage,
};
use hearthplan::design::quantity::{Quantity, System};
use hearthplan::design::{Design, example};
use hearthplan::paper::{html, sheets};
use hearthplan::review::{Verdict, assess, remedies};
use hearthplan::sizing::buying::{Amount, ToBuy, to_buy};
use hearthplan::sizing::lid_joints::lid_neck;
use hearthplan::sizing::machine::layout;
use hearthplan::sizing::parts_list::parts_list;
use hearthplan::sizing::work_time::{Work, WorkTime, begun_weeks, work_time};
use std::f64::consts::PI;
use uom::si::f64::Length;
use uom::si::length::meter;
use uom::si::time::hour;

fn time(design: &Design) -> WorkTime {
    {
        let machine = layout(design);
        work_time(design, &machine, &parts_list(design, &machine))
    }
}

/// Hours that a change adds, without what is done again.
#[track_caller]
fn adds(change: impl Fn(&mut Design)) -> f64 {
    let mut design = Design::default();
    design.pace.again = Default::default();
    let before = time(&design).likely;
    change(&mut design);
    (time(&design).likely - before).get::<hour>()
}

#[track_caller]
fn same(found: f64, by_hand: f64) {
    assert!(
        (found - by_hand).abs() < 1e-9,
        "{found} h, by hand {by_hand} h"
    );
}

fn metres(value: f64) -> Length {
    Length::new::<meter>(value)
}

#[test]
fn each_kind_of_work_counts_by_its_own_time() {
    let joint = |kind, bolts| Joint {
        kind,
        bolts,
        airtight: false,
        length: metres(2.0),
        ..Joint::default()
    };
    // 1.5 h a metre, 0.2 h a bolt; clamps take as long as two bolts; a test takes an hour.
    same(
        adds(|design| design.joints.push(joint(JointKind::Welded, 0))),
        3.0,
    );
    same(
        adds(|design| design.joints.push(joint(JointKind::Bolted, 8))),
        1.6,
    );
    same(
        adds(|design| design.joints.push(joint(JointKind::Clamped, 0))),
        0.4,
    );
    same(
        adds(|design| {
            let tight = Joint {
                airtight: true,
                ..joint(JointKind::Welded, 0)
            };
            design.joints.push(tight);
        }),
        4.0,
    );
    // Three open holes of 0.75 h, each with a disc that closes it: one part, and 0.3 for each further one.
    let hole = |carries| Hole {
        carries,
        count: 3,
        diameter: metres(0.1),
        ..Hole::default()
    };
    same(
        adds(|design| design.holes.push(hole(HoleUse::Open))),
        2.25 + 1.6,
    );
    // With pipes welded round in their place.
    let around = 3.0 * PI * 0.1 * 1.5;
    same(
        adds(|design| design.holes.push(hole(HoleUse::SetOn))),
        2.25 + around,
    );
    // A flange is cut and welded to its pipe.
    let flange = Flange {
        bore: metres(0.2),
        ..Flange::default()
    };
    same(
        adds(|design| design.flanges.push(flange.clone())),
        1.0 + 0.2 * PI * 1.5,
    );
}

#[test]
fn insulation_counts_by_the_square_metre_and_layer() {
    let wool = |thickness| Layer {
        material: Material::RockWool,
        thickness: metres(thickness),
    };
    let added = |layers: &[f64]| {
        let laid = |layers: Vec<Layer>| {
            move |design: &mut Design| {
                design.body_layers = layers.clone();
                design.lid_layers.clear();
            }
        };
        adds(laid(
            layers.iter().map(|thickness| wool(*thickness)).collect(),
        )) - adds(laid(Vec::new()))
    };
    // Each by its own middle: the outer one lies around the inner one.
    let wall = Design::default().body_wall;
    let area = |inside: f64, thickness: f64| {
        PI * (wall.inside_diameter.value + 2.0 * inside + thickness) * wall.height.value
    };
    same(added(&[0.04]), 1.5 * area(0.0, 0.04));
    same(
        added(&[0.04, 0.08]),
        1.5 * (area(0.0, 0.04) + area(0.04, 0.08)),
    );
}

/// As much is laid as is bought, the wool around stages with it.
#[test]
fn as_much_is_laid_as_is_bought() {
    let mut design = example::as_improved();
    assert!(
        design
            .train
            .iter()
            .any(|stage| stage.insulation.value > 0.0)
    );
    let both = |design: &Design| {
        let machine = layout(design);
        let parts = parts_list(design, &machine);
        let soft = |one: &&ToBuy| one.material.is_some_and(|material| !material.is_metal());
        let bought: f64 = (to_buy(design, &machine, &parts).iter())
            .filter(soft)
            .filter_map(|one| match one.amount {
                Amount::Area(area) => Some(area.value),
                Amount::Length(_) | Amount::Count(_) => None,
            })
            .sum();
        let time = work_time(design, &machine, &parts);
        let laid = (time.lines.iter()).find(|line| line.work == Work::Lining);
        (bought, laid.map_or(0.0, |line| line.amount))
    };
    let (bought, laid) = both(&design);
    assert!(bought > 1.0);
    same(laid, bought);
    // Wool that somebody takes off a stage is one thing less to lay, and nothing more.
    let before = time(&design).once().get::<hour>();
    for stage in &mut design.train {
        stage.insulation = Length::default();
    }
    let (_, less) = both(&design);
    assert!(less < laid);
    let after = time(&design).once().get::<hour>();
    same(
        before - after,
        design.pace.lining.get::<hour>() * (laid - less),
    );
}

#[test]
fn more_cooler_tubes_are_more_work_unless_they_are_bought_with_fins() {
    let design = example::as_improved();
    let is_cooler = |stage: &TrainStage| stage.kind == StageKind::Cooler && stage.tubes > 1;
    let place = design.train.iter().position(is_cooler).unwrap();
    let ten_more = |cooling| {
        let mut design = design.clone();
        design.train[place].cooling = cooling;
        let before = time(&design).likely;
        design.train[place].tubes += 10;
        (time(&design).likely - before).get::<hour>()
    };
    // Ten more of several alike, each welded at both ends.
    let ends = 20.0 * PI * design.train[place].tube_bore.value;
    same(ten_more(CoolerType::Bare), 1.3 * (3.0 + 1.5 * ends));
    same(ten_more(CoolerType::Finned), 0.0);
}

#[test]
fn steel_that_is_there_is_no_work() {
    let mut design = example::as_improved();
    let there = time(&design).likely;
    design.real_vessel.measured = false;
    assert!(time(&design).likely > there);
}

#[test]
fn the_example_takes_a_good_part_of_a_year_of_weekends() {
    let found = time(&example::as_improved());
    let hours = found.likely.get::<hour>();
    assert!((100.0..400.0).contains(&hours), "{hours} h");
    let sum: f64 = found
        .lines
        .iter()
        .map(|line| line.time().get::<hour>())
        .sum();
    same(1.3 * sum, hours);
    assert_eq!(found.lines.len(), Work::ALL.len());
    assert!(found.lines.iter().all(|line| line.done == 0.0));
}

#[test]
fn what_is_ticked_off_is_no_longer_to_be_done() {
    let mut design = example::as_improved();
    let before = time(&design);
    assert_eq!(before.left, before.likely);
    for joint in &mut design.joints {
        joint.state = JointState::Made;
    }
    let made = time(&design);
    assert_eq!(made.likely, before.likely);
    assert!(made.left < before.left);
    let line = |work| *(made.lines.iter().find(|line| line.work == work)).unwrap();
    assert_eq!(line(Work::Bolts).done, line(Work::Bolts).amount);
    assert_eq!(line(Work::Tests).done, 0.0);
    for joint in &mut design.joints {
        joint.state = JointState::Tested;
        joint.closed_in = true;
    }
    let tested = time(&design);
    let tests = tested
        .lines
        .iter()
        .find(|line| line.work == Work::Tests)
        .unwrap();
    assert_eq!(tests.done, tests.amount);
    assert!(tested.left < made.left);
}

#[test]
fn weeks_are_asked_about_only_where_they_are_entered() {
    let mut design = example::as_improved();
    assert!(assess(&design).finding("cost.time").is_none());
    let [_, likely, slow] = time(&design).weeks_left();
    let verdict = |design: &mut Design, weeks| {
        design.pace.weeks = Some(weeks);
        assess(design).finding("cost.time").unwrap().verdict
    };
    assert_eq!(verdict(&mut design, 1.01 * slow), Verdict::Good);
    assert_eq!(verdict(&mut design, 1.01 * likely), Verdict::Watch);
    assert_eq!(verdict(&mut design, 0.99 * likely), Verdict::Stop);
    let assessment = assess(&design);
    let finding = assessment.finding("cost.time").unwrap();
    assert_eq!(finding.chapter.name(), "cost");
    let offered = remedies(&design, "cost.time");
    let weekly = offered.first().unwrap();
    // More time a week is no plan, only a fact.
    assert!(offered.iter().all(|one| one.is_fact()));
    let mended = weekly.change.as_ref().unwrap().apply(&design).unwrap();
    assert_eq!(
        assess(&mended).finding("cost.time").unwrap().verdict,
        Verdict::Good
    );
    assert!(mended.pace.weekly > design.pace.weekly);
}

#[test]
fn the_sheet_of_the_order_tells_the_time() {
    let design = example::as_improved();
    let told = sheets::all(&design, &assess(&design), System::Metric, &[]);
    let order = told
        .iter()
        .find(|sheet| sheet.name == "build-order")
        .unwrap();
    let page = html::blocks(order, System::Metric);
    // Sentence and table tell one number.
    let all = Quantity::LongTime.show(time(&design).likely.value, System::Metric);
    let [sentence, sum] = [format!("About {all} of work"), format!(">{all}<")];
    assert!(
        page.contains(&sentence) && page.contains(&sum),
        "{sentence}"
    );
    for words in [
        "of work: at 6 h a week",
        "Tight welds",
        "Done again",
        "In all",
    ] {
        assert!(page.contains(words), "{words}");
    }
}

/// Once work is begun, sheet and verdict tell the weeks of what is left, alike, and the hours beside them are of that too.
#[test]
fn sheet_and_verdict_tell_the_same_weeks() {
    let mut design = example::as_improved();
    for joint in &mut design.joints {
        joint.state = JointState::Made;
    }
    design.pace.weeks = Some(10.0);
    let assessment = assess(&design);
    let [_, likely, slow] = time(&design).weeks_left().map(begun_weeks);
    let verdict = assessment.finding("cost.time").unwrap();
    let told = verdict.compared.text(System::Metric);
    assert!(
        told.starts_with(&format!("likely {likely} weeks at 6 h a week")),
        "{told}"
    );
    assert!(told.contains(&format!("to {slow})")), "{told}");
    let sheets = sheets::all(&design, &assessment, System::Metric, &[]);
    let order = sheets.iter().find(|sheet| sheet.name == "build-order");
    let page = html::blocks(order.unwrap(), System::Metric);
    assert!(page.contains(&format!("of that left: at 6 h a week {likely} weeks")));
    let hours = |words: &str| -> f64 {
        let rest = page.split(words).nth(1).unwrap();
        rest.split(' ').next().unwrap().parse().unwrap()
    };
    let left = time(&design).left.get::<hour>();
    assert!((hours("first builds often ") / (2.0 * left) - 1.0).abs() < 0.06);
    assert!(page.contains(&format!("({slow} weeks)")));
    // So does the list of all numbers.
    let results = assessment.results();
    let number = |name: &str| results.iter().find(|result| result.name == name).unwrap();
    assert_eq!(number("cost.weeks_likely").measure.si, likely);
    assert_eq!(number("cost.weeks_slow").measure.si, slow);
}

/// Insulation on a lid that the hopper's foot opens lies on a ring.
#[test]
fn a_lid_under_a_hopper_is_lined_as_a_ring() {
    let lining = |design: &Design| {
        let found = time(design);
        let line = found.lines.iter().find(|line| line.work == Work::Lining);
        line.map_or(0.0, |line| line.time().get::<hour>())
    };
    let lined = |fitted: bool| {
        let mut design = Design::default();
        design.hopper.fitted = fitted;
        let before = lining(&design);
        let wool = (design.body_layers.iter()).find(|layer| !layer.material.is_metal());
        let wool = wool.unwrap().clone();
        design.lid_layers.extend([wool.clone(), wool]);
        lining(&design) - before
    };
    let vessel = layout(&Design::default()).vessel;
    let open = (vessel.lid_bore_radius / vessel.body_outer_radius).value;
    same(lined(true), (1.0 - open * open) * lined(false));
}

/// Parts of a sub-assembly count as made with the joints inside it, and there are none without joints.
#[test]
fn a_part_is_done_with_the_joints_of_its_sub_assembly() {
    let mut design = Design::default();
    design.parts.clear();
    let metal = |design: &Design| {
        let found = time(design);
        *(found.lines.iter().find(|line| line.work == Work::Parts)).unwrap()
    };
    assert_eq!(metal(&design).done, 0.0);
    for joint in &mut design.joints {
        if joint.first == Group::Reactor && joint.second == Group::Reactor {
            joint.state = JointState::Made;
        }
    }
    let reactor = metal(&design);
    assert!(reactor.done > 0.0 && reactor.done < reactor.amount);
    assert!(
        design
            .hearth_layers
            .iter()
            .any(|layer| layer.material == Material::MildSteel)
    );
}

/// What is rolled from flat sheet has a long seam that no joint stands for.
#[test]
fn the_long_seam_of_what_is_rolled_counts_as_weld() {
    let welds = |design: &Design| {
        let found = time(design);
        (found.lines.iter())
            .find(|line| line.work == Work::Welds)
            .expect("welds")
            .amount
    };
    let more = |design: &Design, change: &dyn Fn(&mut Design)| {
        let mut changed = design.clone();
        change(&mut changed);
        welds(&changed) - welds(design)
    };
    let design = Design::default();
    // A taller hopper and a taller trap, along their height; more of a cone along its slant.
    same(
        more(&design, &|design| design.hopper.height += metres(0.1)),
        0.1,
    );
    let trap = |kind| move |stage: &TrainStage| stage.kind == kind;
    let place = (design.train.iter())
        .position(trap(StageKind::Trap))
        .unwrap();
    same(
        more(&design, &|design| {
            design.train[place].vessel_height += metres(0.1)
        }),
        0.1,
    );
    let mut thin = design.clone();
    thin.train[place].wall = 0.01 * thin.train[place].vessel_diameter;
    let mut thick = thin.clone();
    thick.train[place].wall = 0.2 * thick.train[place].vessel_diameter;
    same(
        welds(&thin) - welds(&thick),
        thin.train[place].vessel_height.value,
    );
    // The outer steel of both walls, where it is no vessel that was bought.
    let bought = example::as_improved();
    let made = more(&bought, &|design| design.real_vessel.measured = false);
    let walls = [&bought.hearth_wall.height, &bought.body_wall.height];
    let is_shell = |inside: Length, layers: &[hearthplan::design::inputs::Layer]| {
        hearthplan::sizing::shell_there::is_there(&bought, inside, layers)
    };
    let there = [
        is_shell(bought.hearth_wall.inside_diameter, &bought.hearth_layers),
        is_shell(bought.body_wall.inside_diameter, &bought.body_layers),
    ];
    let by_hand: f64 = (walls.iter().zip(there))
        .filter(|(_, there)| *there)
        .map(|(height, _)| height.value)
        .sum();
    assert!(by_hand > 0.0);
    same(made, by_hand);
    // It takes the time of any other weld.
    same(adds(|design| design.hopper.height += metres(0.1)), 0.15);
}

/// The work besides the steps tells of the same seams, before the first leak test, and of those of the fire tube before it
/// is hung in.
#[test]
fn the_long_seams_stand_besides_the_steps() {
    use hearthplan::sizing::build_order::{besides, order};
    let design = Design::default();
    let more = besides(&design, &order(&design).unwrap());
    let of = |words: &str| more.iter().find(|one| one.on.contains(words)).unwrap();
    let hopper = of("Hopper: Hopper");
    assert!(hopper.work.contains("soap film"), "{hopper:?}");
    assert!(hopper.when.contains("before the first leak test"));
    assert_eq!(of(": Fire tube").when, "before it is hung in");
    let of_seams = |words: &str| {
        let mut seams = more.iter().filter(|one| one.work.contains("long seam"));
        seams.any(|one| one.on.contains(words))
    };
    assert!(of_seams("Layer ") && !of_seams("Nozzle"), "{more:?}");
}

/// Neck and rim are parts to be cut, and the neck is welded right round; what is there already is no work.
#[test]
fn what_closes_the_vessel_is_cut_and_welded() {
    let mut design = example::as_improved();
    let of = |design: &Design, work: Work| {
        let found = time(design);
        let line = found.lines.iter().find(|line| line.work == work);
        line.map_or(0.0, |line| line.amount)
    };
    let with = [Work::Parts, Work::Welds].map(|work| of(&design, work));
    let neck = lid_neck(&design).unwrap();
    for name in ["Neck of the lid", "Rim of the lid"] {
        design.parts.push(Part {
            name: name.to_string(),
            group: Group::Reactor,
            shape: Shape::Weighed,
            ..Part::default()
        });
    }
    let without = [Work::Parts, Work::Welds].map(|work| of(&design, work));
    same(with[0] - without[0], 2.0);
    // Once around outside, and its long seam.
    let outside = (neck.across + 2.0 * neck.thickness).value;
    same(with[1] - without[1], PI * outside + neck.tall.value);
}
