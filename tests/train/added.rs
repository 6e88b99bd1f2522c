//! Stages that a remedy adds: as wide as their line, where they serve best, and told by a size that a builder chooses.

use hearthplan::design::inputs::{Lie, StageKind, TrainStage};
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Lever, Remedy, Verdict, assess, remedies, remedy};

fn without(kind: StageKind) -> Design {
    let mut design = example::as_improved();
    design.train.retain(|stage| stage.kind != kind);
    design
}

/// The one stage of this kind that is offered for a question, with the train that comes of it.
fn added(design: &Design, id: &str, kind: &str) -> (usize, Remedy, Design) {
    let kind = ("kind", Value::Choice(kind.to_string()));
    let found = remedies(design, id).into_iter();
    let mut new: Vec<(usize, Remedy)> = found
        .filter_map(|remedy| match &remedy.lever {
            Lever::NewItem { index, fields, .. } if fields.contains(&kind) => {
                Some((*index, remedy))
            }
            _ => None,
        })
        .collect();
    assert_eq!(new.len(), 1, "{new:?}");
    let (index, remedy) = new.remove(0);
    let after = remedy.change.as_ref().unwrap().apply(design).unwrap();
    (index, remedy, after)
}

#[test]
fn a_blower_gets_the_bore_of_its_line() {
    for bore in [0.052, 0.065] {
        let mut design = without(StageKind::Blower);
        for stage in &mut design.train {
            stage.bore = uom::si::f64::Length::new::<uom::si::length::meter>(bore);
        }
        let (index, remedy, after) = added(&design, "breath.startup", "blower");
        assert_eq!(index, design.train.len());
        assert_eq!(
            (remedy.input.name, remedy.value),
            ("bore", Some(Value::Number(bore)))
        );
        assert_eq!(after.train[index].bore.value, bore);
        assert!(remedy.worsens.is_empty(), "{:?}", remedy.worsens);
    }
}

#[test]
fn a_filter_is_as_wide_as_its_gas_wants() {
    let design = without(StageKind::Filter);
    let (_, remedy, after) = added(&design, "train.arrives", "filter");
    assert_eq!(remedy.input.name, "filter_diameter");
    assert!(remedy.worsens.is_empty(), "{:?}", remedy.worsens);
    let speed = assess(&after)
        .finding("train.filter_speed")
        .unwrap()
        .clone();
    let half = 0.15;
    assert!((0.8 * half..=1.05 * half).contains(&speed.working[0].result.si));
}

#[test]
fn a_trap_stands_where_it_keeps_the_blower_dry() {
    let design = without(StageKind::Trap);
    let before = assess(&design);
    let place = |kind| {
        let mut stages = design.train.iter();
        stages.position(|stage| stage.kind == kind).unwrap()
    };
    for id in ["train.loose_water", "breath.blower_place"] {
        let (index, remedy, after) = added(&design, id, "trap");
        assert!(index <= place(StageKind::Blower), "{index}");
        assert_eq!(
            (remedy.input.name, remedy.value),
            ("bore", Some(Value::Number(0.052)))
        );
        assert_eq!(
            after.train[index].separation,
            TrainStage::default().separation
        );
        let blower = assess(&after)
            .finding("breath.blower_place")
            .unwrap()
            .verdict;
        assert_eq!(blower, Verdict::Good, "{id}");
    }
    // Of all places that were tried none leaves the whole review better.
    let finding = before.finding("train.loose_water").unwrap();
    let (_, offered, _) = added(&design, "train.loose_water", "trap");
    let traps = (finding.levers.iter()).filter(|lever| matches!(lever, Lever::NewItem { .. }));
    let tried: Vec<_> = traps
        .filter_map(|lever| remedy(&design, &before, finding, lever)?.after)
        .collect();
    assert!(tried.len() > 1 && tried.iter().all(|after| offered.after <= Some(*after)));
    assert!(
        tried.iter().any(|after| offered.after < Some(*after)),
        "{tried:?}"
    );
}

#[test]
fn a_trap_holds_its_water_as_long_as_is_wanted() {
    let mut design = without(StageKind::Trap);
    let day = 24.0 * 3600.0;
    design.set("limits.drain_time", Value::Number(day)).unwrap();
    design
        .set("train.3.may_be_wet", Value::Flag(false))
        .unwrap();
    let assessment = assess(&design);
    let levers = &assessment.finding("train.loose_water").unwrap().levers;
    let (lever, index) = (levers.iter())
        .find_map(|lever| match lever {
            Lever::NewItem { index, .. } => Some((lever, *index)),
            _ => None,
        })
        .unwrap();
    let after = lever.change(Value::Number(0.052)).apply(&design).unwrap();
    let full = assessment.train.full_clean.unwrap();
    let water = full.points[index].liquid.value * day / 1000.0;
    let trap = &after.train[index];
    let usual = TrainStage::default();
    assert!(water > usual.capacity.value, "{water}");
    assert!((water..water + 0.001_001).contains(&trap.capacity.value));
    let room = |stage: &TrainStage| {
        stage.vessel_diameter.value.powi(2) * stage.vessel_height.value / stage.capacity.value
    };
    assert!(
        room(trap) > 0.9 * room(&usual),
        "{} {}",
        room(trap),
        room(&usual)
    );
}

#[test]
fn a_cooler_comes_upright_and_as_wide_as_its_line() {
    let mut design = without(StageKind::Cooler);
    for (bore, tubes) in [(0.052, 4), (0.08, 9)] {
        design.set("train.0.bore", Value::Number(bore)).unwrap();
        let levers = assess(&design)
            .finding("train.engine_temperature")
            .unwrap()
            .levers
            .clone();
        let change = levers[0].change(Value::Number(5.0));
        let after = change.apply(&design).unwrap();
        let cooler = after
            .train
            .iter()
            .find(|stage| stage.kind == StageKind::Cooler)
            .unwrap();
        assert_eq!((cooler.tubes, cooler.lie), (tubes, Lie::Upright), "{bore}");
        assert_eq!(cooler.tube_length.value, 5.0);
    }
}
