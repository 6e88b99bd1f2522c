//! What is typed for inputs of every kind.

use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Kind, Value};

#[track_caller]
fn typed(path: &str, text: &str) -> Result<Value, String> {
    let mut design = Design::default();
    design.list_mut("own_materials").unwrap().insert_new(0);
    let input = design.input(path).unwrap();
    input
        .read(text, System::Metric)
        .map_err(|error| error.sentence(System::Metric))
}

#[test]
fn every_kind_of_input_is_read() {
    assert_eq!(typed("base.width", "26 in"), Ok(Value::Number(0.6604)));
    assert_eq!(typed("hearth.nozzle_count", "7"), Ok(Value::Number(7.0)));
    assert_eq!(
        typed("hearth.kind", "straight"),
        Ok(Value::Choice("straight".to_string()))
    );
    assert_eq!(
        typed("hearth.kind", " Straight Fire Tube "),
        Ok(Value::Choice("straight".to_string()))
    );
    assert_eq!(typed("hopper.fitted", "No"), Ok(Value::Flag(false)));
    assert_eq!(typed("hopper.fitted", "true"), Ok(Value::Flag(true)));
    assert_eq!(
        typed("about.name", " Shed 2 "),
        Ok(Value::Text(" Shed 2 ".to_string()))
    );
    assert_eq!(
        typed("own_materials.0.temperature_2", " "),
        Ok(Value::Empty)
    );
    assert_eq!(
        typed("own_materials.0.temperature_2", "400 C"),
        Ok(Value::Number(673.15))
    );
}

#[test]
fn the_ends_of_a_range_are_told_as_they_are_taken() {
    let mut design = Design::default();
    for list in Design::LISTS {
        design.insert_item(list.name, 0);
    }
    for (path, sentence) in [
        (
            "leak_test.budget",
            "Leak allowed must be between 0.01 % and 20 %",
        ),
        (
            "leak_test.thermometer_step",
            "Thermometer reads to must be between 0.001 K and 5 K",
        ),
    ] {
        let error = typed(path, "0").unwrap_err();
        assert_eq!(error, sentence);
    }
    let mut seen = 0;
    for path in design.paths() {
        let input = design.input(&path).unwrap();
        let Kind::Number {
            quantity, allowed, ..
        } = input.kind
        else {
            continue;
        };
        for system in [System::Metric, System::Inch] {
            for end in quantity.show_range(allowed.into(), system) {
                let taken = input.read(&end, system);
                assert!(taken.is_ok(), "{path}: {end}: {taken:?}");
                seen += 1;
            }
        }
    }
    assert!(seen > 400, "{seen}");
}

#[test]
fn what_is_not_taken_is_explained() {
    for (path, text, sentence) in [
        (
            "base.width",
            "9 m",
            "Base width must be between 100 mm and 3000 mm",
        ),
        ("base.width", "", "nothing typed; here a length is wanted"),
        (
            "base.width",
            "9 kg",
            "“kg” is the unit of a weight; here a length is wanted",
        ),
        ("hearth.nozzle_count", "5.5", "“5.5” is not a whole number"),
        (
            "hearth.kind",
            "round",
            "Hearth type has no option named “round”",
        ),
        ("hopper.fitted", "maybe", "“maybe” is neither yes nor no"),
        (
            "about.name",
            &"x".repeat(61),
            "Name takes at most 60 characters",
        ),
    ] {
        assert_eq!(
            typed(path, text),
            Err(sentence.to_string()),
            "{path} = {text}"
        );
    }
}

#[test]
fn every_default_is_taken_as_its_field_writes_it() {
    let design = Design::default();
    for path in design.paths() {
        let input = design.input(&path).unwrap();
        let Kind::Number { quantity, .. } = input.kind else {
            continue;
        };
        for system in [System::Metric, System::Inch] {
            let Some(Value::Number(number)) = design.get(&path) else {
                continue;
            };
            let text = quantity.write(number, system);
            let read = input.read(&text, system).map(|value| value.number());
            let close =
                matches!(read, Ok(Some(read)) if (read - number).abs() <= 1e-12 * number.abs());
            assert!(
                close,
                "{path}: {number} was written “{text}” and read {read:?}"
            );
        }
    }
}

#[test]
fn the_ends_of_every_range_can_be_typed() {
    let mut design = Design::default();
    for list in Design::LISTS {
        design.list_mut(list.name).unwrap().insert_new(0);
    }
    for path in design.paths() {
        let input = design.input(&path).unwrap();
        let Kind::Number {
            quantity, allowed, ..
        } = input.kind
        else {
            continue;
        };
        for end in [allowed.0, allowed.1] {
            let text = quantity.write(end, System::Metric);
            assert!(
                input.read(&text, System::Metric).is_ok(),
                "{path} refuses its own end “{text}”"
            );
        }
    }
}

#[test]
fn a_bare_number_is_no_section_where_cable_goes_by_gauges() {
    let mut design = Design::default();
    let by_gauge = Value::Choice("gauge".to_string());
    design.set("wiring.system", by_gauge).unwrap();
    let read = |text: &str| {
        let input = design.input("wiring.blower_cable").unwrap();
        design.read_for(input, text, System::Metric)
    };
    for bare in ["14", " 2/0 ", "4"] {
        let told = read(bare).unwrap_err().to_string();
        let number = bare.trim();
        assert!(
            told.contains(&format!("{number} AWG or {number} mm²")),
            "{told}"
        );
    }
    let section = |text| match read(text) {
        Ok(Value::Number(section)) => section * 1e6,
        other => panic!("{text}: {other:?}"),
    };
    assert!((section("14 AWG") - 2.08).abs() < 0.01);
    assert!((section("14 mm²") - 14.0).abs() < 1e-9);
    // No gauge has a part of a number.
    assert!((section("2.5") - 2.5).abs() < 1e-9);
    let input = Design::default().input("wiring.blower_cable").unwrap();
    assert!(
        Design::default()
            .read_for(input, "14", System::Metric)
            .is_ok()
    );
    // A section that is a gauge is told as one as well.
    let shown = input.show(&Value::Number(2.08e-6), System::Metric);
    assert_eq!(shown, "2.08 mm² (AWG 14)");
    assert_eq!(input.show(&Value::Number(2.5e-6), System::Inch), "2.5 mm²");
}

#[test]
fn a_gauge_of_steel_is_told_in_inches_for_sheet_and_for_tube() {
    let sheet = Design::default().input("hopper.wall_thickness").unwrap();
    let told = |text: &str| sheet.read(text, System::Inch).unwrap_err().to_string();
    for text in ["16 ga", "16ga", "#16 gauge", "16 GA."] {
        let words = told(text);
        assert!(words.contains("as steel sheet it is 0.0598 in"), "{words}");
        assert!(words.contains("the wall of a tube 0.065 in"), "{words}");
    }
    assert!(told("26 ga").contains("as steel sheet 0.0179 in"));
    assert!(told("40 ga").contains("is a gauge: measure it"));
    // Each is read as it is told.
    assert_eq!(
        sheet.read("0.0598 in", System::Inch),
        Ok(Value::Number(0.00151892))
    );
    let length = Design::default().input("base.width").unwrap();
    assert!(
        !length
            .read("16 ga", System::Inch)
            .unwrap_err()
            .to_string()
            .contains("steel")
    );
}

#[test]
fn a_price_is_read_with_and_without_the_currency() {
    let mut design = Design::default();
    design.cost_lines.push(Default::default());
    let mut read = |currency: &str, path: &str, text: &str| {
        design.cost.currency = currency.to_string();
        let input = design.input(path).unwrap();
        design.read_for(input, text, System::Metric).ok()
    };
    let (line, kilogram) = ("cost_lines.0.likely", "cost.mild_steel");
    for text in ["12.5", "12,5 €", "€ 12.5", "€12.5"] {
        assert_eq!(read("€", line, text), Some(Value::Number(12.5)), "{text}");
    }
    for text in ["3", "3 €", "€3 per kg", "3 €/kg"] {
        assert_eq!(
            read("€", kilogram, text),
            Some(Value::Number(3.0)),
            "{text}"
        );
    }
    assert_eq!(
        read("credits", line, "12 credits"),
        Some(Value::Number(12.0))
    );
    assert_eq!(read("€", line, "12 $"), None, "another currency");
    assert_eq!(read("", line, "12 €"), None);
    assert_eq!(read("€", line, "€"), None);
    // A currency that looks like a number takes nothing away from one.
    assert_eq!(read("2", line, "12"), Some(Value::Number(12.0)));
    assert_eq!(read("2", line, "12 2"), None);
    assert_eq!(read("€", "base.width", "12 €"), None, "no price");
}
