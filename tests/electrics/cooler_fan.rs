//! Which loads are the fan of a cooler, by their name.

use hearthplan::design::example;
use hearthplan::sizing::cooler_drive::CoolerDrive;

#[test]
fn whole_words_tell_of_the_fan_of_a_cooler() {
    let counts = |name: &str| {
        let mut design = example::as_improved();
        design.loads.truncate(1);
        design.loads[0].name = name.to_string();
        CoolerDrive::Fan.loads(&design).len()
    };
    for fan in [
        "Cooler fan",
        "Fans of the radiator",
        "FAN",
        "Blower of the cooler",
        "Motor of the cooler",
        "Cool air blower",
        "Radiator",
        "Cooling",
    ] {
        assert_eq!(counts(fan), 1, "{fan}");
    }
    for other in [
        "Cool room lamps",
        "Lamps of the cooler room",
        "Infant scale",
        "Fanfare",
        "Coolant level",
        "Cooling water pump",
        "Blower",
        "Lamps",
    ] {
        assert_eq!(counts(other), 0, "{other}");
    }
}
