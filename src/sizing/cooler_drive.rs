//! What moves the air or the water around the tubes of a cooler, and when does it run?
//!
//! Which electric load it is, its name tells.

use super::also_needed::{has_fan, has_jacket};
use super::names::Words;
use crate::design::Design;
use crate::design::inputs::{LoadTime, TrainStage};
use crate::physics::air::GRAVITY;
use uom::si::f64::{MassRate, Power};
use uom::si::power::watt;

/// Words for what cools the gas.
const COOLERS: [&str; 3] = ["cooler", "cooling", "radiator"];
/// A name without any of these tells of no fan, so that its words need not be taken apart.
const OF_FANS: [&str; 3] = ["fan", "cool", "radiator"];

/// What a cooler does not do its work without.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CoolerDrive {
    /// The fan that blows across its tubes.
    Fan,
    /// The pump that moves the water of its jacket.
    Pump,
}

impl CoolerDrive {
    /// Whether a stage has it.
    pub fn is_of(self, stage: &TrainStage) -> bool {
        match self {
            CoolerDrive::Fan => has_fan(stage),
            CoolerDrive::Pump => has_jacket(stage),
        }
    }

    /// Whether a stage of the gas train has it.
    pub fn is_needed(self, design: &Design) -> bool {
        design.train.iter().any(|stage| self.is_of(stage))
    }

    /// Whether a name tells of it; a room that is kept cool tells of none.
    fn is_told(self, name: &str) -> bool {
        let pump = holds(name, "pump");
        match self {
            CoolerDrive::Fan if !OF_FANS.iter().any(|word| holds(name, word)) => false,
            CoolerDrive::Fan => {
                let words = Words::of(name);
                let mentions = |those: &[&str]| those.iter().any(|word| words.mention(word));
                let is_cooler = COOLERS.iter().any(|word| words.say_it_is(word));
                let moves_air = mentions(&["blow", "blower", "motor"])
                    && (mentions(&["cool"]) || mentions(&COOLERS));
                mentions(&["fan"]) || (is_cooler || moves_air) && !pump
            }
            CoolerDrive::Pump => pump,
        }
    }

    /// The electric loads that are it by their name, by their places.
    pub fn loads(self, design: &Design) -> Vec<usize> {
        (design.loads.iter().enumerate())
            .filter(|(_, load)| self.is_told(&load.name))
            .map(|(place, _)| place)
            .collect()
    }

    /// Those of them that are on in a state of the machine.
    pub fn loads_on(self, design: &Design, state: LoadTime) -> Vec<usize> {
        let mut places = self.loads(design);
        places.retain(|place| is_on(design, *place, state));
        places
    }

    /// Whether it is needed, but no electric load tells of it: then battery time, cables and fuses leave it out.
    pub fn has_no_load(self, design: &Design) -> bool {
        self.is_needed(design) && self.loads(design).is_empty()
    }

    /// Whether it runs in a state of the machine. Where no electric load is it, something else drives it: a fan then turns with
    /// the engine, and water flows from a tap or rises by itself.
    ///
    /// ```
    /// use hearthplan::design::{example, inputs::LoadTime};
    /// use hearthplan::sizing::cooler_drive::CoolerDrive;
    /// let mut design = example::as_improved();
    /// assert!(CoolerDrive::Fan.runs(&design, LoadTime::Running));
    /// assert!(!CoolerDrive::Fan.runs(&design, LoadTime::Lighting));
    /// for load in &mut design.loads {
    ///     load.when = LoadTime::Lighting;
    /// }
    /// assert!(!CoolerDrive::Fan.runs(&design, LoadTime::Running));
    /// assert!(CoolerDrive::Pump.runs(&design, LoadTime::Running));
    /// ```
    pub fn runs(self, design: &Design, state: LoadTime) -> bool {
        let places = self.loads(design);
        match (places.is_empty(), self) {
            (true, CoolerDrive::Fan) => state != LoadTime::Lighting,
            (true, CoolerDrive::Pump) => true,
            (false, _) => places.iter().any(|place| is_on(design, *place, state)),
        }
    }
}

/// Whether these letters stand in a name, in capitals or not.
fn holds(name: &str, letters: &str) -> bool {
    let mut pieces = name.as_bytes().windows(letters.len());
    pieces.any(|piece| piece.eq_ignore_ascii_case(letters.as_bytes()))
}

fn is_on(design: &Design, place: usize, state: LoadTime) -> bool {
    (design.loads.get(place)).is_some_and(|load| load.used(state) && load.duty.value > 0.0)
}

/// The electric loads that by their name are fan or pump of a cooler, where no cooler has such a thing, by their places.
pub fn loads_without_cooler(design: &Design) -> Vec<usize> {
    let [fan, pump] = [CoolerDrive::Fan, CoolerDrive::Pump].map(|drive| drive.is_needed(design));
    let of_cooler = |name: &str| {
        ["cool", "radiator", "jacket"]
            .iter()
            .any(|it| holds(name, it))
    };
    (design.loads.iter().enumerate())
        .filter(|(_, load)| {
            let name = &load.name;
            let idle_pump = holds(name, "pump") && !pump;
            let idle_fan = holds(name, "fan") && !holds(name, "pump") && !fan;
            of_cooler(name) && (idle_pump || idle_fan)
        })
        .map(|(place, _)| place)
        .collect()
}

/// Height that the pump of a jacket lifts its water, hoses included, m. Our own assumption.
const LIFT: f64 = 3.0;
/// What a small pump with its motor makes of the current. Common practice, no source.
const PUMP_EFFICIENCY: f64 = 0.15;
/// Small pumps are sold in steps of about this, and none smaller than two of them, W. Common practice, no source.
const PUMP_STEP: f64 = 5.0;

/// What the pump of a water jacket draws for this flow, until its own plate is at hand: the lift over what it makes of the
/// current, rounded up to what is sold.
///
/// ```
/// use hearthplan::sizing::cooler_drive::pump_power;
/// use uom::si::{f64::MassRate, mass_rate::kilogram_per_second, power::watt};
/// let power = pump_power(MassRate::new::<kilogram_per_second>(0.2));
/// assert_eq!(power.get::<watt>(), 40.0);
/// ```
pub fn pump_power(flow: MassRate) -> Power {
    let lifted = flow.value * GRAVITY * LIFT / PUMP_EFFICIENCY;
    let steps = (lifted / PUMP_STEP).ceil().max(2.0);
    Power::new::<watt>(PUMP_STEP * steps)
}
