//! What is written into a field, or shown, reads back as the same value.

use hearthplan::design::quantity::{Quantity, System};
use proptest::prelude::*;

fn quantities() -> impl Strategy<Value = Quantity> {
    prop::sample::select(Quantity::ALL)
}

fn systems() -> impl Strategy<Value = System> {
    prop::sample::select(&[System::Metric, System::Inch][..])
}

/// Numbers of every size that a machine of this kind could need, and far beyond.
fn numbers() -> impl Strategy<Value = f64> {
    (-9.0..9.0_f64, any::<bool>()).prop_map(|(size, negative)| {
        let number = 10_f64.powf(size);
        if negative { -number } else { number }
    })
}

/// The SI value of a number in the unit of the field.
fn held(quantity: Quantity, system: System, number: f64) -> f64 {
    let whole = quantity == Quantity::Count;
    quantity
        .field_unit(system)
        .to_si(if whole { number.round() } else { number })
}

/// Whether so little is shown as no more than little; then it is so little.
fn is_told_as_little(quantity: Quantity, system: System, si: f64, text: &str) -> bool {
    let little = text.starts_with("under 0.000001") || text.starts_with("over −0.000001");
    // Grams of what is told in kilograms, micrometres of what is told in inches.
    let unit = quantity.field_unit(system).factor;
    assert!(
        !little || si != 0.0 && si.abs() < 1e-6 * unit,
        "{si}: {text}"
    );
    little
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_text_of_a_field_reads_back(quantity in quantities(), system in systems(), number in numbers()) {
        let si = held(quantity, system, number);
        let text = quantity.write(si, system);
        let read = quantity.read(&text, system).map_err(|error| TestCaseError::fail(format!("“{text}”: {error}")))?;
        let scale = if quantity == Quantity::Temperature { si.abs().max(100.0) } else { si.abs() };
        prop_assert!((read - si).abs() <= 1e-12 * scale, "{si} was written “{text}” and read {read}");
        prop_assert_eq!(quantity.write(read, system), text);
    }

    /// A number beside another is as good as one that stands alone.
    #[test]
    fn two_that_are_shown_alike_read_back(quantity in quantities(), system in systems(), one in numbers(), other in numbers()) {
        let values = [one, other].map(|number| held(quantity, system, number));
        let texts = quantity.show_alike(values, system);
        for (si, text) in values.into_iter().zip(texts) {
            if is_told_as_little(quantity, system, si, &text) {
                continue;
            }
            let read = quantity.read(&text, system).map_err(|error| TestCaseError::fail(format!("“{text}”: {error}")))?;
            let alone = quantity.read(&quantity.show(si, system), system).unwrap_or(f64::NAN);
            let lost = (alone - si).abs().max(5.01e-3 * si.abs());
            prop_assert!((read - si).abs() <= lost, "{si} was shown as “{text}” and read {read}");
        }
    }

    /// Nobody counts zeros behind a point.
    #[test]
    fn a_small_number_is_short(quantity in quantities(), system in systems(), number in numbers()) {
        let si = held(quantity, system, number * 1e-9);
        // A field has two digits more than the screen.
        for (text, most) in [(quantity.show(si, system), 11), (quantity.write_short(si, system), 13)] {
            let figures = text.chars().take_while(|sign| *sign != ' ').count();
            prop_assert!(figures <= most, "{si} was shown as “{text}”");
        }
    }

    #[test]
    fn what_is_shown_reads_back_to_its_digits(quantity in quantities(), system in systems(), number in numbers()) {
        let si = held(quantity, system, number);
        let text = quantity.show(si, system);
        let has_power = ["e−", "e-", "e1"].iter().any(|power| text.contains(power));
        prop_assert!(!has_power, "{si} was shown as “{text}”");
        if is_told_as_little(quantity, system, si, &text) {
            return Ok(());
        }
        let read = quantity.read(&text, system).map_err(|error| TestCaseError::fail(format!("“{text}”: {error}")))?;
        // Three significant digits, or half of the smallest step shown.
        let step = match quantity {
            Quantity::Length if system == System::Inch => 0.0254 / 32.0,
            Quantity::Thickness if system == System::Inch && si.abs() >= 0.5 * 0.0254 => 0.0254 / 32.0,
            Quantity::Length => 5e-5,
            Quantity::Distance => 5e-3,
            Quantity::Temperature | Quantity::TemperatureDifference => 0.05,
            Quantity::Angle => 0.05_f64.to_radians(),
            Quantity::Share => 5e-4,
            Quantity::Time | Quantity::LongTime => 180.0,
            Quantity::Speed => 0.5 / 60.0,
            Quantity::Heft => 0.5 * quantity.field_unit(system).factor,
            _ => 0.0,
        };
        prop_assert!((read - si).abs() <= 5.01e-3 * number.abs().max(0.5) * quantity.field_unit(system).factor + step * 1.001, "{si} was shown as “{text}” and read {read}");
    }
}
