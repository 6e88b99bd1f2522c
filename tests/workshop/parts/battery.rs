//! The battery on the machine is the one that the hours are reckoned for.

use hearthplan::design::inputs::Chemistry;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::review::{Verdict, assess, remedies};
use hearthplan::sizing::battery::parts_named_battery;

const ID: &str = "workshop.battery_weight";

fn verdict(design: &Design) -> Option<Verdict> {
    assess(design).finding(ID).map(|finding| finding.verdict)
}

/// 70 Ah at 24 V weigh as much as two such batteries at 12 V.
#[test]
fn at_twice_the_voltage_one_battery_of_the_same_charge_is_too_light() {
    let mut design = example::as_improved();
    assert_eq!(verdict(&design), Some(Verdict::Good));
    design.battery.voltage *= 2.0;
    let assessment = assess(&design);
    let finding = assessment.finding(ID).unwrap();
    assert_eq!(finding.verdict, Verdict::Watch);
    let told = finding.compared.text(System::Metric);
    assert!(told.contains("19 kg") && told.contains("28 kg"), "{told}");
    assert!(
        remedies(&design, ID)
            .iter()
            .any(|remedy| remedy.change.is_some())
    );
    let battery = parts_named_battery(&design).next().unwrap();
    design.parts[battery].count = 2;
    assert_eq!(verdict(&design), Some(Verdict::Good));
    design.parts[battery].count = 1;
    design.battery_box.chemistry = Chemistry::Lithium;
    assert_eq!(verdict(&design), Some(Verdict::Good));
}

#[test]
fn what_only_belongs_to_a_battery_is_none() {
    let mut design = example::as_improved();
    let battery = parts_named_battery(&design).next().unwrap();
    assert_eq!(parts_named_battery(&design).count(), 1);
    for name in [
        "Battery box",
        "Shield sheets of the battery box",
        "Battery cables",
        "Charger",
    ] {
        design.parts[battery].name = name.to_string();
        assert_eq!(parts_named_battery(&design).count(), 0, "{name}");
        assert_eq!(verdict(&design), None, "{name}");
    }
    for name in ["Batteries", "Battery 70 Ah", "Lead battery"] {
        design.parts[battery].name = name.to_string();
        assert_eq!(parts_named_battery(&design).count(), 1, "{name}");
    }
}
