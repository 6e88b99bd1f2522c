//! How quantities are shown in both systems.

use hearthplan::design::quantity::{Quantity as Q, System};

#[test]
fn quantities_are_shown_with_the_digits_that_matter() {
    for (quantity, si, metric, inch) in [
        (Q::Length, 0.66, "660 mm", "26 in"),
        (Q::Length, 0.0381, "38.1 mm", "1 1/2 in"),
        (Q::Length, 0.015875, "15.9 mm", "5/8 in"),
        (Q::Length, 1.2344, "1234 mm", "48 5/8 in"),
        (Q::Length, -0.33, "−330 mm", "−13 in"),
        (Q::Length, 0.0005, "0.5 mm", "0.02 in"),
        (Q::Length, 0.0, "0 mm", "0 in"),
        (Q::Length, -0.0, "0 mm", "0 in"),
        (Q::Length, 10.0, "10\u{202f}000 mm", "393 11/16 in"),
        (
            Q::Length,
            -400.0,
            "−400\u{202f}000 mm",
            "−15\u{202f}748 1/16 in",
        ),
        (Q::Length, 0.0254 / 16.0, "1.6 mm", "1/16 in"),
        (Q::VolumePerMass, 2.3, "2.3 Nm³/kg", "36.8 ft³/lb at 32 °F"),
        (Q::Thickness, 0.0015, "1.5 mm", "0.0591 in"),
        (Q::Thickness, 0.004_762_5, "4.76 mm", "0.188 in"),
        (
            Q::Thickness,
            (0.512 + 0.004_762_5) - 0.512,
            "4.76 mm",
            "0.188 in",
        ),
        (Q::Thickness, 0.050, "50 mm", "1 15/16 in"),
        (Q::Thickness, 0.025, "25 mm", "1 in"),
        (Q::Thickness, 0.010, "10 mm", "0.394 in"),
        (Q::Thickness, 2.53e-6, "2.53 µm", "2.53 µm"),
        (Q::Thickness, 150e-6, "0.15 mm", "0.00591 in"),
        (Q::Thickness, 0.0, "0 mm", "0 in"),
        (Q::Grain, 20e-6, "20 µm", "20 µm"),
        (Q::MassPrice, 2.2, "2.2 per kg", "0.998 per lb"),
        (Q::Wind, 20.1168, "20.1 m/s", "45 mph"),
        (
            Q::Velocity,
            1e-9,
            "under 0.000001 m/s",
            "under 0.000001 ft/s",
        ),
        (
            Q::Velocity,
            -2.5e-7,
            "over −0.000001 m/s",
            "over −0.000001 ft/s",
        ),
        (Q::Velocity, 2.5e-5, "0.000025 m/s", "0.000082 ft/s"),
        (Q::Velocity, 3e15, "over 10¹⁵ m/s", "over 10¹⁵ ft/s"),
        (Q::MassFlow, 6.08e-5 / 3600.0, "0.0608 g/h", "0.000134 lb/h"),
        (Q::MassFlow, 0.0, "0 kg/h", "0 lb/h"),
        (Q::MassFlow, 0.0025 / 3600.0, "0.0025 kg/h", "0.00551 lb/h"),
        (Q::Hole, 86.9e-6, "0.0869 mm", "0.00342 in"),
        (Q::Bore, 0.034, "34 mm", "1.339 in"),
        (Q::Bore, 0.0337, "33.7 mm", "1.327 in"),
        (Q::Bore, 0.311_15, "311.2 mm", "12.25 in"),
        (Q::Velocity, 0.000_25, "0.00025 m/s", "0.00082 ft/s"),
        (Q::Angle, 1e-9, "0°", "0°"),
        (Q::Distance, 4.0, "4 m", "13.1 ft"),
        (Q::Mass, 272.155, "272 kg", "600 lb"),
        (Q::Temperature, 293.15, "20 °C", "68 °F"),
        (Q::Temperature, 273.15, "0 °C", "32 °F"),
        (Q::Temperature, 1366.15, "1093 °C", "1999 °F"),
        (Q::TemperatureDifference, 5.0, "5 K", "9 °F"),
        (Q::Pressure, 250.0, "250 Pa", "1 inH₂O"),
        (Q::Pressure, 15_000.0, "15 kPa", "60.2 inH₂O"),
        (Q::Flow, 0.01, "36 m³/h", "21.2 cfm"),
        (Q::NormalFlow, 0.01, "36 Nm³/h", "21.2 cfm at 32 °F"),
        (Q::Power, 850.0, "850 W", "850 W"),
        (Q::Power, 12_340.0, "12.3 kW", "12.3 kW"),
        (Q::EnginePower, 10_000.0, "10 kW", "13.4 hp"),
        (Q::Angle, 11.04_f64.to_radians(), "11°", "11°"),
        (Q::Share, 0.125, "12.5 %", "12.5 %"),
        (Q::Count, 5.0, "5", "5"),
        (Q::Number, 0.85, "0.85", "0.85"),
        (Q::Time, 45.0, "45 s", "45 s"),
        (Q::Time, 1800.0, "30 min", "30 min"),
        (Q::LongTime, 72_000.0, "20 h", "20 h"),
        (Q::Charge, 252_000.0, "70 Ah", "70 Ah"),
        (
            Q::HearthLoad,
            2.5,
            "0.9 Nm³/(h·cm²)",
            "3.42 cfm/in² at 32 °F",
        ),
        (Q::Volume, 0.12, "120 L", "31.7 gal"),
        (Q::Displacement, 0.0016, "1.6 L", "97.6 in³"),
        (Q::Density, 220.0, "220 kg/m³", "13.7 lb/ft³"),
        (Q::HeatFlux, 450.0, "450 W/m²", "143 BTU/(h·ft²)"),
        (
            Q::EnergyPerVolume,
            4.5e6,
            "4.5 MJ/Nm³",
            "121 BTU/ft³ at 32 °F",
        ),
        (Q::DustLoad, 0.002, "2 g/Nm³", "0.874 grains/ft³ at 32 °F"),
        (
            Q::Conductivity,
            0.06,
            "0.06 W/(m·K)",
            "0.416 BTU·in/(h·ft²·°F)",
        ),
        (
            Q::HeatTransferCoefficient,
            10.0,
            "10 W/(m²·K)",
            "1.76 BTU/(h·ft²·°F)",
        ),
        (Q::HeatCapacity, 4186.8, "4187 J/(kg·K)", "1 BTU/(lb·°F)"),
        (Q::EnergyPerMass, 15.0e6, "15 MJ/kg", "6449 BTU/lb"),
    ] {
        assert_eq!(
            quantity.show(si, System::Metric),
            metric,
            "{quantity:?} {si}"
        );
        assert_eq!(quantity.show(si, System::Inch), inch, "{quantity:?} {si}");
    }
}

/// In a working a person does the sum again: ln (r₂ / r₁) of two radii that look the same on a tape would be 0.
#[test]
fn in_a_working_numbers_have_the_digits_that_the_sum_needs() {
    for (quantity, si, metric, inch) in [
        (Q::Length, 0.2333, "233.3 mm", "9.185 in"),
        (Q::Length, 0.2348, "234.8 mm", "9.244 in"),
        (Q::Pressure, 104_820.0, "104.8 kPa", "420.8 inH₂O"),
        (Q::Number, 1.2834, "1.283", "1.283"),
        (Q::Number, 6.0823e-8, "6.082 × 10⁻⁸", "6.082 × 10⁻⁸"),
        (Q::Number, -2.0e17, "−2 × 10¹⁷", "−2 × 10¹⁷"),
        (Q::Share, 0.123_45, "12.35 %", "12.35 %"),
        (Q::Temperature, 355.45, "82.3 °C", "180.1 °F"),
        (Q::Count, 5.0, "5", "5"),
        (Q::Length, 0.0, "0 mm", "0 in"),
        (Q::Length, f64::NAN, "—", "—"),
    ] {
        assert_eq!(quantity.show_for_sum(si, System::Metric), metric);
        assert_eq!(quantity.show_for_sum(si, System::Inch), inch);
    }
}

/// Units that nobody who works in inches has at hand; seconds, volts, amperes and watts are the same everywhere.
const METRIC: [&str; 22] = [
    "mm", "mm²", "cm", "cm²", "m", "m²", "m³", "µm", "L", "mg", "g", "kg", "N", "J", "kJ", "MJ",
    "K", "°C", "Pa", "kPa", "bar", "Nm³",
];

#[test]
fn who_works_in_inches_is_told_no_metric_unit() {
    for &quantity in Q::ALL {
        for power in -9..=9 {
            let text = quantity.show(10_f64.powi(power), System::Inch);
            let mut words =
                text.split(|sign: char| !(sign.is_alphabetic() || "°²³".contains(sign)));
            // Cable has a rule of its own, gauge or square millimetres; grains and filters go by micrometres.
            let is_sold_so = quantity == Q::WireSection || text.ends_with("µm");
            assert!(
                is_sold_so || !words.any(|word| METRIC.contains(&word)),
                "{quantity:?}: {text}"
            );
        }
    }
}

#[test]
fn the_ends_of_a_range_are_told_as_a_tape_does() {
    let told = Q::Length.show_range([0.1, 4.0], System::Inch);
    assert_eq!(told, ["3 15/16 in", "157 7/16 in"]);
}

/// ISO 80000-1, 7.3.1: groups of three, whichever way a number comes to be shown, and read as they are shown.
#[test]
fn large_numbers_are_shown_in_groups() {
    let large = 123_456.25;
    for (shown, expected) in [
        (Q::Number.show(large, System::Metric), "123\u{202f}456"),
        (
            Q::Number.show_apart(large, large - 0.125, System::Metric),
            "123\u{202f}456.2",
        ),
        (
            Q::Number.show_range([0.0, large + 0.5], System::Metric)[1].clone(),
            "123\u{202f}400",
        ),
        (
            Q::Length.show_range([0.0, 400.0], System::Inch)[1].clone(),
            "15\u{202f}748 in",
        ),
        (
            Q::Pressure.show(-large * 1e3, System::Metric),
            "−123\u{202f}456 kPa",
        ),
        (Q::Number.show(9999.0, System::Metric), "9999"),
    ] {
        assert_eq!(shown, expected);
    }
    let shown = Q::Length.show(400.0, System::Inch);
    let read = Q::Length.read(&shown, System::Inch).unwrap();
    assert!((read - 400.0).abs() <= 0.0254 / 32.0, "{shown}");
}

#[test]
fn what_is_no_number_is_shown_as_a_dash() {
    for &quantity in Q::ALL {
        for system in [System::Metric, System::Inch] {
            for broken in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
                assert_eq!(quantity.show(broken, system), "—");
                assert_eq!(quantity.write(broken, system), "");
            }
            for extreme in [f64::MAX, f64::MIN, f64::MIN_POSITIVE, -f64::MIN_POSITIVE] {
                let text = quantity.show(extreme, system);
                assert!(
                    !text.contains("NaN") && !text.starts_with("−0"),
                    "{quantity:?}: {text}"
                );
            }
        }
    }
}

#[test]
fn fields_show_the_unit_that_a_bare_number_has() {
    for &quantity in Q::ALL {
        for system in [System::Metric, System::Inch] {
            let symbol = quantity.unit_symbol(system);
            let named = quantity.read(&format!("3 {symbol}"), system);
            assert_eq!(
                named,
                quantity.read("3", system),
                "{quantity:?} in {symbol}"
            );
            assert!(named.is_ok());
        }
    }
}

#[test]
fn two_values_are_shown_in_one_unit_where_one_suits_both() {
    for (quantity, values, metric, inch) in [
        (
            Q::Time,
            [3600.0, 60.0],
            ["60 min", "1 min"],
            ["60 min", "1 min"],
        ),
        (
            Q::Time,
            [60.0, 3600.0],
            ["1 min", "60 min"],
            ["1 min", "60 min"],
        ),
        // A minute is told in decimals of one; what those would round off is told in seconds.
        (
            Q::Time,
            [3600.0, 65.0],
            ["3600 s", "65 s"],
            ["3600 s", "65 s"],
        ),
        (
            Q::Time,
            [7200.0, 90.0],
            ["120 min", "1.5 min"],
            ["120 min", "1.5 min"],
        ),
        (
            Q::LongTime,
            [72_000.0, 1800.0],
            ["20 h", "0.5 h"],
            ["20 h", "0.5 h"],
        ),
        (
            Q::LongTime,
            [360_000.0, 1.0],
            ["100 h", "1 s"],
            ["100 h", "1 s"],
        ),
        (
            Q::Power,
            [1200.0, 800.0],
            ["1.2 kW", "0.8 kW"],
            ["1.2 kW", "0.8 kW"],
        ),
        (
            Q::Power,
            [0.0, 1200.0],
            ["0 kW", "1.2 kW"],
            ["0 kW", "1.2 kW"],
        ),
        (
            Q::Pressure,
            [15_000.0, 250.0],
            ["15 kPa", "0.25 kPa"],
            ["60.2 inH₂O", "1 inH₂O"],
        ),
        (
            Q::Thickness,
            [50e-6, 500e-6],
            ["0.05 mm", "0.5 mm"],
            ["50 µm", "500 µm"],
        ),
        (
            Q::Length,
            [0.66, 0.5],
            ["660 mm", "500 mm"],
            ["26 in", "19 11/16 in"],
        ),
        (
            Q::Time,
            [f64::NAN, 3600.0],
            ["—", "60 min"],
            ["—", "60 min"],
        ),
        // A step from one to the other is to be seen, though a tape tells both alike.
        (
            Q::Length,
            [0.095, 0.096],
            ["95 mm", "96 mm"],
            ["3.7 in", "3.8 in"],
        ),
    ] {
        assert_eq!(
            quantity.show_alike(values, System::Metric),
            metric,
            "{quantity:?} {values:?}"
        );
        assert_eq!(
            quantity.show_alike(values, System::Inch),
            inch,
            "{quantity:?} {values:?}"
        );
    }
}

#[test]
fn a_column_has_one_unit_and_as_many_decimals_throughout() {
    for (quantity, values, metric) in [
        (
            Q::Power,
            [1130.0, 983.0, f64::NAN],
            ["1.130 kW", "0.983 kW", "—"],
        ),
        (Q::Share, [0.046, 0.0184, 0.1], ["4.6 %", "1.8 %", "10.0 %"]),
        (Q::Number, [16.5, 0.0, -0.0], ["16.5", "0.0", "0.0"]),
        (
            Q::Power,
            [12_345.0, 95.0, 0.0],
            ["12.35 kW", "0.10 kW", "0.00 kW"],
        ),
        (
            Q::Temperature,
            [323.15, 322.95, 1774.05],
            ["50.0 °C", "49.8 °C", "1500.9 °C"],
        ),
        (
            Q::Length,
            [0.4, 12.5, 0.1],
            ["400 mm", "12\u{202f}500 mm", "100 mm"],
        ),
    ] {
        assert_eq!(quantity.show_column(&values, System::Metric), metric);
    }
    let taped = Q::Length.show_column(&[0.0381, 0.66], System::Inch);
    assert_eq!(taped, ["1 1/2 in", "26 in"]);
    assert!(Q::Power.show_column(&[], System::Metric).is_empty());
}
