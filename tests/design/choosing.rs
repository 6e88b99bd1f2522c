//! What comes along with a choice.

use hearthplan::design::inputs::{FilterMedium, FuelKind, StageKind, TrainStage};
use hearthplan::design::{Choice, Design, Kind, Value, celsius};
use hearthplan::sizing::fuel::PRESETS;

/// A design with a filter as the only stage.
fn with_filter() -> Design {
    Design {
        train: vec![TrainStage {
            kind: StageKind::Filter,
            ..TrainStage::default()
        }],
        ..Design::default()
    }
}

#[test]
fn cloth_stays_dry_and_bears_less_than_a_bed() {
    let mut design = with_filter();
    design.choose("train.0.medium", "cloth").unwrap();
    let stage = &design.train[0];
    assert_eq!(stage.medium, FilterMedium::Cloth);
    assert!(!stage.may_be_wet);
    assert_eq!(stage.medium_limit.value, celsius(80.0));
    // 100 g on each square metre of it.
    assert_eq!(
        stage.dust_capacity.value,
        0.1 * TrainStage::default().cloth_area.value
    );
    // And back.
    design.choose("train.0.medium", "packed").unwrap();
    assert_eq!(design, with_filter());
}

#[test]
fn a_larger_cloth_holds_more_dust() {
    let mut design = with_filter();
    let set = |design: &mut Design, name: &str, value| {
        let path = format!("train.0.{name}");
        design.set(&path, Value::Number(value)).unwrap();
    };
    set(&mut design, "cloth_area", 3.0);
    let bed = design.clone();
    design.choose("train.0.medium", "cloth").unwrap();
    assert!((design.train[0].dust_capacity.value - 0.3).abs() < 1e-12);
    design.choose("train.0.medium", "packed").unwrap();
    assert_eq!(design, bed);
    // What was weighed out stays.
    set(&mut design, "dust_capacity", 0.7);
    design.choose("train.0.medium", "cloth").unwrap();
    assert_eq!(design.train[0].dust_capacity.value, 0.7);
}

#[test]
fn what_a_person_has_set_stays() {
    let mut design = with_filter();
    design
        .set("train.0.medium_limit", Value::Number(celsius(150.0)))
        .unwrap();
    design.choose("train.0.medium", "cloth").unwrap();
    assert_eq!(design.train[0].medium_limit.value, celsius(150.0));
    assert!(!design.train[0].may_be_wet);
    design.fuel.piece_size.value = 0.033;
    design.choose("fuel.kind", "densified_wood").unwrap();
    assert_eq!(design.fuel.piece_size.value, 0.033);
}

#[test]
fn each_wood_comes_in_its_pieces() {
    for (wood, millimetres) in [
        ("hardwood", 40.0),
        ("charcoal", 25.0),
        ("nut_shells", 15.0),
        ("densified_wood", 20.0),
    ] {
        let mut design = Design::default();
        design.choose("fuel.kind", wood).unwrap();
        assert_eq!(design.fuel.kind.name(), wood);
        assert_eq!(design.fuel.piece_size.value, 1e-3 * millimetres, "{wood}");
    }
    // Of an own analysis nobody knows the pieces.
    let mut own = Design::default();
    own.choose("fuel.kind", "own").unwrap();
    assert_eq!(own.fuel.kind, FuelKind::Own);
    assert_eq!(own.fuel.piece_size, Design::default().fuel.piece_size);
}

/// Charcoal dries further than wood, and what was measured stays.
#[test]
fn each_fuel_is_as_dry_as_it_is_sold() {
    for preset in PRESETS {
        let kind = preset.key.replace('-', "_");
        for begun in [0.15, 0.12] {
            let mut design = Design::default();
            design.fuel.kind = FuelKind::Hardwood;
            design.fuel.moisture.value = begun;
            design.choose("fuel.kind", &kind).unwrap();
            let usual = preset.fuel().moisture.value;
            // Of wood the examples' own is as good as the usual.
            let wanted = if usual == 0.15 { begun } else { usual };
            assert!(
                (design.fuel.moisture.value - wanted).abs() < 1e-12,
                "{kind}"
            );
        }
        let mut measured = Design::default();
        measured.fuel.moisture.value = 0.18;
        measured.choose("fuel.kind", &kind).unwrap();
        assert_eq!(measured.fuel.moisture.value, 0.18, "{kind}");
    }
}

#[test]
fn what_belongs_to_the_first_options_is_that_of_a_new_design() {
    let design = with_filter();
    for (path, options) in [
        ("fuel.kind", FuelKind::OPTIONS),
        ("train.0.medium", FilterMedium::OPTIONS),
    ] {
        for option in options {
            let mut there = design.clone();
            there.choose(path, option.name).unwrap();
            let first = match design.input(path).unwrap().kind {
                Kind::Choice { default, .. } => default,
                _ => panic!("{path} is a choice"),
            };
            there.choose(path, first).unwrap();
            assert_eq!(there, design, "{path}: {}", option.name);
        }
    }
}

#[test]
fn a_choice_that_is_none_changes_nothing() {
    let mut design = with_filter();
    for (path, option) in [
        ("train.0.medium", "wool"),
        ("train.7.medium", "cloth"),
        ("fuel.piece_size", "large"),
        ("", ""),
    ] {
        assert!(design.choose(path, option).is_err(), "{path}");
    }
    assert_eq!(design, with_filter());
}
