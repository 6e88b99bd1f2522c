//! Plus-minus of inputs: kept in files, and staying with their items.

use hearthplan::design::quantity::System;
use hearthplan::design::spread::usual_spread;
use hearthplan::design::{Design, InputError, file};

fn with_parts() -> Design {
    let mut design = Design::default();
    for place in 0..3 {
        design.insert_item("parts", place);
    }
    design.set_spread("parts.1.mass", Some(0.7)).unwrap();
    design.set_spread("fuel.moisture", Some(0.01)).unwrap();
    design
}

#[test]
fn a_plus_minus_stays_with_its_item() {
    let mut design = with_parts();
    design.insert_item("parts", 0);
    assert_eq!(design.own_spread("parts.2.mass"), Some(0.7));
    design.move_item("parts", 2, 0);
    assert_eq!(design.own_spread("parts.0.mass"), Some(0.7));
    design.copy_item("parts", 0);
    design.remove_item("parts", 1);
    assert_eq!(design.own_spread("parts.0.mass"), Some(0.7));
    design.remove_item("parts", 0);
    assert_eq!(design.own_spread("parts.0.mass"), None);
    assert_eq!(design.own_spread("fuel.moisture"), Some(0.01));
    assert_eq!(design.spreads.len(), 1);
    // Places that do not exist, and lists that do not.
    design.move_item("parts", 0, 99);
    design.remove_item("nothing", 0);
    design.copy_item("parts", 99);
    assert_eq!(design.spreads.len(), 1);
}

#[test]
fn a_plus_minus_survives_the_file() {
    let design = with_parts();
    assert_eq!(file::read(&file::write(&design)).unwrap().design, design);
}

#[test]
fn only_number_inputs_take_one() {
    let mut design = Design::default();
    assert!(matches!(
        design.set_spread("about.name", Some(1.0)),
        Err(InputError::WrongKind { .. })
    ));
    assert!(matches!(
        design.set_spread("no.such", Some(1.0)),
        Err(InputError::Unknown(_))
    ));
    assert!(design.set_spread("fuel.moisture", Some(-0.1)).is_err());
    assert!(design.set_spread("fuel.moisture", Some(f64::NAN)).is_err());
    assert!(design.spreads.is_empty());
}

#[test]
fn a_plus_minus_that_is_refused_is_told_with_the_unit_of_its_input() {
    let mut design = Design::default();
    for (path, unit) in [
        ("base.width", "mm"),
        ("fuel.moisture", "%"),
        ("engine.intake_temperature", "K"),
    ] {
        let refused = design.set_spread(path, Some(-0.1)).unwrap_err();
        let told = refused.sentence(System::Metric);
        assert!(
            told.starts_with(&format!("The plus-minus must be between 0 {unit} and ")),
            "{told}"
        );
        assert!(told.ends_with(unit), "{told}");
        assert!(design.set_spread(path, Some(1.0e8)).is_err());
    }
}

#[test]
fn an_own_plus_minus_goes_before_the_usual_one_and_stays_in_range() {
    let mut design = Design::default();
    let usual = design.doubtful("fuel.moisture").unwrap();
    assert!((usual.low - 0.12).abs() < 1e-12 && (usual.high - 0.18).abs() < 1e-12);
    design.set_spread("fuel.moisture", Some(0.3)).unwrap();
    let own = design.doubtful("fuel.moisture").unwrap();
    assert_eq!(own.low, 0.0);
    assert!((own.high - 0.45).abs() < 1e-12);
    // Exact unless someone says otherwise.
    assert!(usual_spread("base.width").is_none() && design.doubtful("base.width").is_none());
    design.set_spread("base.width", Some(0.005)).unwrap();
    assert!(design.doubtful("base.width").is_some());
    // What is not in use is not in doubt.
    assert!(design.doubtful("gas_making.equivalence_ratio").is_none());
}
