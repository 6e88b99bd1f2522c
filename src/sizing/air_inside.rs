//! How much air is inside a sub-assembly? A leak that readings give is as large as the volume that they are taken for.

use super::hopper;
use crate::design::inputs::Group;
use crate::design::{Design, Value};
use std::f64::consts::PI;
use uom::si::f64::Volume;
use uom::si::volume::cubic_meter;

/// Air inside a sub-assembly: computed for vessel and hopper, entered for the others. None where it is not known, or the
/// sub-assembly holds none.
///
/// ```
/// use hearthplan::{design::{Design, inputs::Group}, sizing::air_inside::air_inside};
/// let mut design = Design::default();
/// let tall = |design: &Design| air_inside(design, Group::Reactor).unwrap();
/// let before = tall(&design);
/// design.body_wall.height *= 2.0;
/// assert!(tall(&design) > before);
/// assert_eq!(air_inside(&design, Group::Engine), None);
/// ```
pub fn air_inside(design: &Design, group: Group) -> Option<Volume> {
    let round = |diameter: f64, height: f64| {
        Volume::new::<cubic_meter>(0.25 * PI * diameter * diameter * height)
    };
    match group {
        Group::Reactor => {
            let (hearth, body) = (&design.hearth_wall, &design.body_wall);
            let lower = round(hearth.inside_diameter.value, hearth.height.value);
            let upper = round(body.inside_diameter.value, body.height.value);
            Some(lower + upper)
        }
        Group::Hopper if design.hopper.fitted => {
            let room = hopper::room(design);
            Some(room.straight + room.cone)
        }
        Group::Filter => design.leak_test.filter_volume,
        Group::Cooler => design.leak_test.cooler_volume,
        Group::Condensate => design.leak_test.condensate_volume,
        Group::Hopper | Group::Base | Group::Electrics | Group::Engine => None,
    }
}

/// Whether a sub-assembly holds gas of its own. What hangs on an engine or a blower is tested with its neighbour.
pub fn holds_gas(group: Group) -> bool {
    !matches!(group, Group::Base | Group::Electrics | Group::Engine)
}

/// The same to a tenth of a litre, as a person would enter it.
fn told(design: &Design, group: Group) -> Option<Value> {
    let tenths = (air_inside(design, group)?.value * 1e4).round() / 1e4;
    (tenths > 0.0).then_some(Value::Number(tenths))
}

/// Adds a leak test to the list, for the air of its sub-assembly where that is known, read with the instruments that
/// tests are planned with.
///
/// ```
/// use hearthplan::{design::Design, sizing::air_inside::{add_test, air_inside}};
/// let mut design = Design::default();
/// add_test(&mut design, 0);
/// let own = air_inside(&design, design.readings[0].group).unwrap();
/// assert!((design.readings[0].volume - own).value.abs() < 1e-4);
/// ```
pub fn add_test(design: &mut Design, index: usize) {
    let place = index.min(design.readings.len());
    design.insert_item("readings", place);
    let (gauge, thermometer) = (
        design.leak_test.gauge_step,
        design.leak_test.thermometer_step,
    );
    if let Some(reading) = design.readings.get_mut(place) {
        reading.gauge_step = gauge;
        reading.thermometer_step = thermometer;
    }
    let group = design.readings.get(place).map(|reading| reading.group);
    if let Some(volume) = group.and_then(|group| told(design, group)) {
        put(design, place, volume);
    }
}

/// After another sub-assembly was chosen for the leak test with this path: its air takes the place of that of the one
/// before, and of what a new test begins with. What the person has set stays.
///
/// ```
/// use hearthplan::design::Design;
/// use hearthplan::sizing::air_inside::{add_test, air_inside, follow};
/// let mut design = Design::default();
/// add_test(&mut design, 0);
/// let before = design.clone();
/// design.choose("readings.0.group", "hopper").unwrap();
/// follow(&mut design, &before, "readings.0.group");
/// let own = air_inside(&design, design.readings[0].group).unwrap();
/// assert!((design.readings[0].volume - own).value.abs() < 1e-4);
/// ```
pub fn follow(design: &mut Design, before: &Design, path: &str) {
    let Some(("readings", Some(place), "group")) = Design::split(path) else {
        return;
    };
    let (Some(now), Some(then)) = (design.readings.get(place), before.readings.get(place)) else {
        return;
    };
    let stands = Value::Number(then.volume.value);
    let begins = Value::Number(crate::design::inputs::Reading::default().volume.value);
    let follows = stands == begins || told(before, then.group).is_some_and(|own| own == stands);
    if let Some(volume) = told(design, now.group).filter(|_| follows) {
        put(design, place, volume);
    }
}

/// Enters the air of a leak test; what no input takes stays out.
fn put(design: &mut Design, place: usize, volume: Value) {
    let path = [&Design::item_path("readings", place), ".volume"].concat();
    // A vessel of an odd size may hold more or less than a leak test is entered for.
    let _ = design.set(&path, volume);
}
