//! Is the battery on the machine as heavy as one of its charge and voltage?

use super::mass;
use crate::design::Design;
use crate::design::Source::CommonPractice;
use crate::design::inputs::Shape;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::sizing::battery::{Lightest, parts_named_battery};
use uom::si::f64::Mass;

/// What the parts that are named for the battery weigh, against the least that a battery of its charge and voltage does; not
/// asked where none is named for it.
pub(super) fn battery_weight(design: &Design) -> Option<Finding> {
    let places: Vec<usize> = parts_named_battery(design).collect();
    let weighed = |place: &usize| {
        design
            .parts
            .get(*place)
            .filter(|part| part.shape == Shape::Weighed)
    };
    let parts: Vec<_> = places.iter().map(weighed).collect::<Option<_>>()?;
    let first = *places.first()?;
    let placed: Mass = (parts.iter())
        .map(|part| part.mass * f64::from(part.count))
        .sum();
    let battery = &design.battery;
    let lightest = Lightest::of(design.battery_box.chemistry);
    let least = lightest.mass_for(battery.capacity, battery.voltage);
    let verdict = match placed >= least {
        true => Verdict::Good,
        false => Verdict::Watch,
    };
    let words = match verdict {
        Verdict::Good => "{} on the machine, for {} at {} at least {}",
        _ => {
            "{} on the machine, for {} at {} at least {}: that takes a larger battery, or several, with their weight, place and price"
        }
    };
    let charge = Measure::new(Q::Charge, battery.capacity.value);
    let voltage = Measure::new(Q::Voltage, battery.voltage.value);
    let [placed, least] = [placed, least].map(|mass_of| mass(mass_of.value));
    Some(Finding {
        id: "workshop.battery_weight",
        chapter: Chapter::Workshop,
        title: "Weight of the battery",
        meaning: "The battery that the hours are reckoned for, against the one that stands on the machine.",
        verdict,
        compared: Phrase::new(
            words,
            [placed.into(), charge.into(), voltage.into(), least.into()],
        ),
        why: "At twice the voltage the same charge lasts twice as long, but it is two such batteries: one that is drawn too small has no room on the machine, and costs more than was planned.",
        margin: Some(placed.si / least.si - 1.0).filter(|margin| margin.is_finite()),
        working: vec![Step {
            words: "The least that a battery of this charge and voltage weighs",
            formula: "m = m₁ C U / (C₁ U₁)",
            values: vec![
                ("m₁", "the lightest of this kind, of C₁ at U₁", mass(lightest.mass.value)),
                ("C", "charge on the label", charge),
                ("U", "voltage", voltage),
                ("C₁", "its charge", Measure::new(Q::Charge, lightest.capacity.value)),
                ("U₁", "its voltage", Measure::new(Q::Voltage, lightest.voltage.value)),
            ],
            result: least,
            source: CommonPractice,
            sure: "The lightest that are sold: most lead-acid batteries weigh a third more. Weigh yours and enter that, with its size and price.",
        }],
        caution: (verdict != Verdict::Good).then_some(
            "Batteries that are joined to one must be alike, equally old and equally charged. Each joint carries all the current: a loose one burns.",
        ),
        levers: vec![Lever::input(format!("parts.{first}.mass"))],
        about: "parts",
    })
}
