//! What people type, and what is said when it is no quantity.

use crate::random_design::Dice;
use hearthplan::design::quantity::{Quantity, ReadReason, System};

#[track_caller]
fn reads(quantity: Quantity, text: &str, system: System, si: f64) {
    let read = quantity
        .read(text, system)
        .unwrap_or_else(|error| panic!("“{text}”: {error}"));
    assert!(
        (read - si).abs() <= 1e-12 * si.abs(),
        "“{text}” was read as {read}, not {si}"
    );
}

#[test]
fn lengths_are_read_as_people_write_them() {
    for (text, si) in [
        ("26 in", 0.6604),
        ("26in", 0.6604),
        ("26\"", 0.6604),
        ("26″", 0.6604),
        ("26''", 0.6604),
        ("26 inches", 0.6604),
        ("2 ft 2 in", 0.6604),
        ("2ft2in", 0.6604),
        ("2' 2\"", 0.6604),
        ("2′ 2″", 0.6604),
        ("2’2”", 0.6604),
        ("2' 2", 0.6604),
        ("2'-2\"", 0.6604),
        ("2' - 2 1/2\"", 0.6731),
        ("-2'-2½\"", -0.6731),
        ("2'-½\"", 0.6223),
        ("2 feet 2 inches", 0.6604),
        ("1 1/2\"", 0.0381),
        ("1-1/2 in", 0.0381),
        ("1½ in", 0.0381),
        ("1 ½″", 0.0381),
        ("1 1⁄2 in", 0.0381),
        ("5/8 in", 0.015875),
        ("⅝ in", 0.015875),
        ("2 ft 2 1/2 in", 0.6731),
        ("2 ft 2½ in", 0.6731),
        ("-1 1/2 in", -0.0381),
        ("66 cm", 0.66),
        ("0.66 m", 0.66),
        ("0,66 m", 0.66),
        (".66m", 0.66),
        ("660", 0.66),
        ("660.", 0.66),
        ("660 mm", 0.66),
        ("660\u{a0}mm", 0.66),
        ("  660   MM ", 0.66),
        ("−5", -0.005),
        ("1 200 mm", 1.2),
        ("1'000", 1.0),
        ("1’005 mm", 1.005),
        ("2'010", 2.01),
        ("1\u{202f}200", 1.2),
        ("1,200.5 mm", 1.2005),
        ("1.200,5 mm", 1.2005),
        ("1 200 000", 1200.0),
        ("1,200,000 mm", 1200.0),
        ("0,125 mm", 0.000125),
        ("1.125 mm", 0.001125),
        ("6.6e2", 0.66),
    ] {
        reads(Quantity::Length, text, System::Metric, si);
    }
    reads(Quantity::Length, "26", System::Inch, 0.6604);
    reads(Quantity::Length, "5/8", System::Inch, 0.015875);
    reads(Quantity::Length, "1 1/2", System::Inch, 0.0381);
    reads(Quantity::Distance, "10", System::Inch, 3.048);
}

#[test]
fn every_kind_of_unit_is_read() {
    for (quantity, text, si) in [
        (Quantity::Mass, "600 lb", 272.1554220),
        (Quantity::Mass, "5 lb 8 oz", 2.49475803500),
        (Quantity::Temperature, "1093 C", 1366.15),
        (Quantity::Temperature, "1093 °C", 1366.15),
        (Quantity::Temperature, "2000 F", 1366.483333333333),
        (Quantity::Temperature, "-40 °F", 233.15),
        (Quantity::Temperature, "300 K", 300.0),
        (Quantity::TemperatureDifference, "9 °F", 5.0),
        (Quantity::TemperatureDifference, "5 °C", 5.0),
        (Quantity::Pressure, "1.5 kPa", 1500.0),
        (Quantity::Pressure, "6 inH2O", 1494.53346),
        (Quantity::Pressure, "6 in H₂O", 1494.53346),
        (Quantity::Pressure, "6 in wc", 1494.53346),
        (Quantity::Pressure, "6\" H2O", 1494.53346),
        (Quantity::Pressure, "15 mbar", 1500.0),
        (Quantity::Pressure, "100 mmH2O", 980.665),
        (Quantity::Pressure, "1 psi", 6894.757293168361),
        (Quantity::Flow, "12 m3/h", 12.0 / 3600.0),
        (Quantity::Flow, "12 m³/h", 12.0 / 3600.0),
        (Quantity::Flow, "7 cfm", 7.0 * 4.719474432e-4),
        (Quantity::Flow, "200 l/min", 200.0 / 60_000.0),
        (Quantity::NormalFlow, "25 Nm3/h", 25.0 / 3600.0),
        (Quantity::NormalFlow, "25 m3/h", 25.0 / 3600.0),
        (Quantity::NormalFlow, "7 cfm", 7.0 * 4.719474432e-4),
        (Quantity::Velocity, "10 ft/s", 3.048),
        (Quantity::Velocity, "36 km/h", 10.0),
        (Quantity::Wind, "45 mph", 20.1168),
        (Quantity::MassPrice, "1 /lb", 2.204_622_621_848_776),
        (Quantity::MassPrice, "2,50 per kg", 2.5),
        (Quantity::Power, "10 kW", 10_000.0),
        (Quantity::EnginePower, "10 hp", 7456.9987158227),
        (Quantity::EnginePower, "10", 10_000.0),
        (Quantity::Force, "10 lbf", 44.482216152605),
        (Quantity::Conductivity, "0.08 W/mK", 0.08),
        (Quantity::Conductivity, "1 BTU·in/(h·ft²·°F)", 0.1442278889),
        (Quantity::Density, "8 lb/ft3", 128.147706991681),
        (Quantity::Density, "1 g/cc", 1000.0),
        (Quantity::Angle, "15°", 15_f64.to_radians()),
        (Quantity::Angle, "15 deg", 15_f64.to_radians()),
        (Quantity::Angle, "15", 15_f64.to_radians()),
        (Quantity::Share, "20 %", 0.2),
        (Quantity::Share, "20", 0.2),
        (Quantity::Time, "30", 1800.0),
        (Quantity::Time, "1 h 30 min", 5400.0),
        (Quantity::Time, "1 h 30", 5400.0),
        (Quantity::LongTime, "20", 72_000.0),
        (Quantity::Charge, "70 Ah", 252_000.0),
        (Quantity::Speed, "3000 rpm", 50.0),
        (Quantity::HearthLoad, "0.9", 2.5),
        (Quantity::HearthLoad, "0.9 Nm3/h/cm2", 2.5),
        (Quantity::Count, "5", 5.0),
        (Quantity::Number, "0,85", 0.85),
        (Quantity::Volume, "5 gal", 0.01892705892),
        (Quantity::Area, "50 cm2", 0.005),
        (Quantity::HeatEnergy, "2 kWh", 7.2e6),
    ] {
        let read = quantity
            .read(text, System::Metric)
            .unwrap_or_else(|error| panic!("“{text}”: {error}"));
        assert!(
            (read - si).abs() <= 1e-9 * si.abs(),
            "“{text}” was read as {read}, not {si}"
        );
    }
}

#[test]
fn every_unit_name_is_read_in_its_own_quantity_with_its_factor() {
    for &quantity in Quantity::ALL {
        for unit in quantity.units() {
            for name in std::iter::once(&unit.symbol).chain(unit.names) {
                let runs_on = !name.starts_with(|sign: char| sign.is_ascii_digit());
                let close = runs_on.then(|| format!("2{name}"));
                for text in [format!("2 {name}")].into_iter().chain(close) {
                    reads(
                        quantity,
                        &text,
                        System::Metric,
                        2.0 * unit.factor + unit.offset,
                    );
                }
            }
        }
    }
}

#[test]
fn no_two_units_of_a_quantity_share_a_name() {
    for &quantity in Quantity::ALL {
        let names: Vec<String> = quantity
            .units()
            .iter()
            .flat_map(|unit| std::iter::once(&unit.symbol).chain(unit.names))
            .map(|name| name.to_lowercase())
            .collect();
        for (place, name) in names.iter().enumerate() {
            assert!(
                !names[..place].contains(name),
                "{quantity:?} has “{name}” twice"
            );
        }
    }
}

/// Displacement and speed stand on plates in the units of their country.
#[test]
fn engine_plates_are_read_as_they_stand() {
    const CUBIC_INCH: f64 = 1.638_706_4e-5;
    for (text, si) in [
        ("389 ccm", 3.89e-4),
        ("389 CCM", 3.89e-4),
        ("389 cc", 3.89e-4),
        ("389 cm3", 3.89e-4),
        ("389 ml", 3.89e-4),
        ("24 ci", 24.0 * CUBIC_INCH),
        ("24 cu in", 24.0 * CUBIC_INCH),
        ("24 cu. in.", 24.0 * CUBIC_INCH),
        ("1.6 L", 1.6e-3),
    ] {
        reads(Quantity::Displacement, text, System::Metric, si);
    }
    for text in [
        "1800 1/min",
        "1800 min-1",
        "1800 min⁻¹",
        "1800min-1",
        "1800 /min",
        "1 800 1/min",
        "1800 rpm",
        "30 1/s",
    ] {
        reads(Quantity::Speed, text, System::Metric, 30.0);
    }
    for system in [System::Metric, System::Inch] {
        for (quantity, si) in [(Quantity::Displacement, 3.89e-4), (Quantity::Speed, 30.0)] {
            let written = quantity.write(si, system);
            reads(quantity, &written, system, si);
        }
    }
    refuses(
        Quantity::Displacement,
        "389 bushel",
        "bushel",
        "the unit “bushel” is not known; use L, cm³, in³, m³, gal or ft³",
    );
}

#[test]
fn volts_times_amperes_are_no_watts() {
    refuses(
        Quantity::EnginePower,
        "5 kVA",
        "kVA",
        "“kVA” on a generator's plate is no shaft power: multiply it by the power factor, often 0.8, divide by the efficiency of the generator, often 0.8 to 0.85 (from memory), and type the result in kW",
    );
    refuses(
        Quantity::Power,
        "300 VA",
        "VA",
        "“VA” is volts times amperes: multiply it by the power factor, often 0.8 (from memory), and type the result in W or kW",
    );
    assert!(Quantity::Length.read("5 kVA", System::Metric).is_err());
}

#[track_caller]
fn refuses(quantity: Quantity, text: &str, piece: &str, sentence: &str) {
    let error = quantity.read(text, System::Metric).expect_err(text);
    assert_eq!(
        &text[error.place.clone()],
        piece,
        "place in “{text}”: {error}"
    );
    assert_eq!(error.to_string(), sentence);
}

#[test]
fn errors_point_at_what_was_typed() {
    let length = Quantity::Length;
    refuses(length, "", "", "nothing typed; here a length is wanted");
    refuses(length, "  ", "  ", "nothing typed; here a length is wanted");
    refuses(length, "wide", "wide", "“wide” is not a number");
    refuses(
        length,
        "26 furlong",
        "furlong",
        "the unit “furlong” is not known; use mm, cm, m, in, ft or µm",
    );
    refuses(
        length,
        "26 kg",
        "kg",
        "“kg” is the unit of a weight; here a length is wanted",
    );
    refuses(
        length,
        "2 ft²",
        "ft²",
        "“ft²” is the unit of an area; here a length is wanted",
    );
    refuses(
        length,
        "6 inH2O",
        "inH2O",
        "“inH2O” is the unit of a pressure; here a length is wanted",
    );
    refuses(length, "26 in wide", "wide", "“wide” is not a number");
    refuses(
        length,
        "1,200 mm",
        "1,200",
        "“1,200” can be read two ways: write 1200 or 1.200",
    );
    refuses(length, "1.2.3", "1.2.3", "“1.2.3” is not a number");
    refuses(length, "1/0", "1/0", "“1/0” is not a number");
    refuses(
        length,
        "1.5/2",
        "/2",
        "the unit “/2” is not known; use mm, cm, m, in, ft or µm",
    );
    refuses(
        length,
        "2 2 in",
        "2",
        "“2” does not add up with the rest; write one number with one unit",
    );
    refuses(
        length,
        "2 ft 14 in",
        "14 in",
        "“14 in” does not add up with the rest; write one number with one unit",
    );
    refuses(
        length,
        "2 in 3 ft",
        "3 ft",
        "“3 ft” does not add up with the rest; write one number with one unit",
    );
    refuses(length, "1e999", "1e999", "this number is too large");
    refuses(Quantity::Count, "2.5", "2.5", "“2.5” is not a whole number");
    refuses(
        Quantity::Number,
        "2 kg",
        "kg",
        "“kg” is the unit of a weight; here a plain number is wanted",
    );
    refuses(
        Quantity::Number,
        "2 x",
        "x",
        "“x” is not understood; here a plain number without a unit is wanted",
    );
    refuses(
        Quantity::Temperature,
        "5 °C 3 K",
        "5 °C",
        "“5 °C” does not add up with the rest; write one number with one unit",
    );
}

#[test]
fn nothing_typed_makes_the_reader_fail() {
    const PIECES: &[&str] = &[
        "1",
        "26",
        "0",
        "9",
        ".",
        ",",
        "/",
        "-",
        "−",
        "+",
        " ",
        "\u{a0}",
        "e",
        "E",
        "in",
        "ft",
        "'",
        "\"",
        "″",
        "½",
        "⅞",
        "mm",
        "m3/h",
        "°",
        "C",
        "%",
        "kg",
        "H2O",
        "₂",
        "²",
        "木",
        "🔥",
        "\u{0}",
        "at 0 °C",
        "nan",
        "inf",
        "(",
        "·",
        "1/2",
        "999999999999999999999",
        "e308",
    ];
    let mut dice = Dice::new(7);
    let mut errors = 0;
    for _ in 0..100_000 {
        let text: String = (0..dice.below(9)).map(|_| *dice.pick(PIECES)).collect();
        let quantity = *dice.pick(Quantity::ALL);
        match quantity.read(&text, *dice.pick(&[System::Metric, System::Inch])) {
            Ok(si) => assert!(si.is_finite(), "“{text}” was read as {si}"),
            Err(error) => {
                errors += 1;
                assert!(
                    text.get(error.place.clone()).is_some(),
                    "“{text}”: {:?}",
                    error.place
                );
                assert!(!error.to_string().is_empty());
            }
        }
    }
    assert!(errors > 1000);
    let long = "1".repeat(100_000);
    let error = Quantity::Length.read(&long, System::Metric).unwrap_err();
    assert_eq!(error.reason, ReadReason::TooLong);
}

#[test]
fn a_cable_may_be_named_by_its_american_gauge() {
    let read = |text: &str| Quantity::WireSection.read(text, System::Inch);
    // ASTM B258: 14 is 2.08 mm², 10 is 5.26 mm², 1/0 is 53.5 mm², 2/0 is 67.4 mm².
    for (text, section) in [
        ("14 AWG", 2.08),
        ("awg 10", 5.26),
        ("1/0 AWG", 53.5),
        ("2/0awg", 67.4),
        ("14", 14.0),
        ("#14", 2.08),
        ("# 14 AWG", 2.08),
        ("14 ga", 2.08),
        ("14 gauge", 2.08),
        // Of a cable of several wires, one of them.
        ("14/2 AWG", 2.08),
        ("AWG 10/3", 5.26),
        ("½", 0.5),
    ] {
        let found = read(text).unwrap() * 1e6;
        assert!((found / section - 1.0).abs() < 0.003, "{text}: {found}");
    }
    for text in ["99 AWG", "AWG", "1.5 AWG", "9/0 AWG", "x AWG"] {
        assert!(read(text).is_err(), "{text}");
    }
    assert!(Quantity::Area.read("14 AWG", System::Inch).is_err());
}

/// In North America “16/2” names a cable of two wires of gauge 16, each of 1.3 mm²; divided it would be taken for 8 mm².
#[test]
fn no_section_of_a_wire_is_a_fraction() {
    for system in [System::Metric, System::Inch] {
        let told = |text: &str| {
            let error = Quantity::WireSection.read(text, system).unwrap_err();
            assert_eq!(error.place, 0..text.len());
            error.to_string()
        };
        for text in ["16/2", " 16/2 ", "16⁄2"] {
            assert!(
                told(text).ends_with("may be cable of two AWG 16 wires: write 16 AWG"),
                "{}",
                told(text)
            );
        }
        assert_eq!(told("2/0"), "“2/0” may be a gauge: write 2/0 AWG");
        for text in [
            "5/2 mm²", "1 1/2", "1/2 in²", "16/0", "9/0 AWG", "99/2 AWG", "14/1", "/",
        ] {
            assert!(
                told(text).contains("is no section of a wire: write a decimal"),
                "{text}"
            );
        }
    }
    // Elsewhere a fraction stays one.
    assert_eq!(Quantity::Area.read("1/2 m²", System::Metric), Ok(0.5));
}

#[test]
fn cooling_water_is_told_by_litres_and_gallons_too() {
    let read = |text: &str| Quantity::MassFlow.read(text, System::Metric).unwrap() * 3600.0;
    for (text, kilograms) in [
        ("40 L/h", 40.0),
        ("2 l/min", 120.0),
        ("3 gpm", 681.4),
        ("180 kg/h", 180.0),
    ] {
        let found = read(text);
        assert!(
            (found / kilograms - 1.0).abs() < 1e-3,
            "{text}: {found} kg/h"
        );
    }
}
