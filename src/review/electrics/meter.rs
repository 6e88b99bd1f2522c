//! What does an ammeter at the battery show?

use crate::design::Design;
use crate::design::inputs::{ElectricLoad, LoadTime};
use uom::si::f64::{ElectricCurrent, Power, Ratio};
use uom::si::ratio::ratio;

/// What an ammeter at the battery shows while lighting with the knob at the wanted flow. A mean over the time that a glow
/// plug is off is nothing that it ever shows.
#[derive(Debug, Clone, PartialEq)]
pub struct Meter {
    /// With nothing on but the blower and what stays on.
    pub steady: ElectricCurrent,
    /// With what is on for a part of the time as well, and what that is; none where nothing is.
    pub most: Option<(ElectricCurrent, String)>,
}

impl Meter {
    pub(super) fn of(design: &Design, blower: Power) -> Self {
        let always = Ratio::new::<ratio>(1.0);
        let on = || (design.loads.iter()).filter(|load| load.used(LoadTime::Lighting));
        let stays = |load: &&ElectricLoad| load.duty >= always;
        let at_times = |load: &&ElectricLoad| load.duty.value > 0.0 && load.duty < always;
        let sum = |power: Power| super::bank(design).current(power);
        let steady: Power = blower + on().filter(stays).map(|load| load.power).sum::<Power>();
        let more: Power = on().filter(at_times).map(|load| load.power).sum();
        let names: Vec<&str> = on()
            .filter(at_times)
            .map(|load| load.name.as_str())
            .collect();
        Self {
            steady: sum(steady),
            most: (!names.is_empty()).then(|| (sum(steady + more), names.join(", "))),
        }
    }
}
