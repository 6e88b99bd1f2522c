//! How much air is inside a sub-assembly? A leak that readings give is as large as the volume that they are taken for.

use super::hopper;
use super::parts_list::group_of;
use super::shell_there::is_there;
use super::train_mass::gas_inside;
use crate::design::inputs::{Group, Layer};
use crate::design::materials::MaterialError;
use crate::design::{Design, Value};
use std::f64::consts::PI;
use uom::si::f64::{Length, Volume};
use uom::si::volume::cubic_meter;

/// What the fibres and grains of a lining weigh without the air between them, kg/m³: alumina and silica, from memory.
const SOLID: f64 = 2_600.0;

/// Air inside a sub-assembly: as it was entered, or else by its sizes. None where it is not known, or the sub-assembly holds
/// none.
///
/// ```
/// use hearthplan::{design::{Design, inputs::Group}, sizing::air_inside::air_inside};
/// let mut design = Design::default();
/// let tall = |design: &Design| air_inside(design, Group::Reactor).unwrap();
/// let before = tall(&design);
/// design.body_wall.height *= 2.0;
/// assert!(tall(&design) > before);
/// assert!(air_inside(&design, Group::Filter).is_some());
/// assert_eq!(air_inside(&design, Group::Engine), None);
/// ```
pub fn air_inside(design: &Design, group: Group) -> Option<Volume> {
    entered(design, group).or_else(|| by_sizes(design, group))
}

/// Air that was entered for a sub-assembly of the gas train.
pub fn entered(design: &Design, group: Group) -> Option<Volume> {
    match group {
        Group::Filter => design.leak_test.filter_volume,
        Group::Cooler => design.leak_test.cooler_volume,
        Group::Condensate => design.leak_test.condensate_volume,
        _ => None,
    }
}

/// Air inside a sub-assembly by its sizes: of the gas train that of all its stages, where each has a size.
pub fn by_sizes(design: &Design, group: Group) -> Option<Volume> {
    let round = |diameter: f64, height: f64| {
        Volume::new::<cubic_meter>(0.25 * PI * diameter * diameter * height)
    };
    match group {
        Group::Reactor => {
            let (hearth, body) = (&design.hearth_wall, &design.body_wall);
            let lower = across(design, hearth.inside_diameter, &design.hearth_layers);
            let upper = across(design, body.inside_diameter, &design.body_layers);
            Some(round(lower, hearth.height.value) + round(upper, body.height.value))
        }
        Group::Hopper if design.hopper.fitted => {
            let room = hopper::room(design);
            Some(room.straight + room.cone)
        }
        Group::Filter | Group::Cooler | Group::Condensate => {
            let stages = (design.train.iter()).filter(|stage| group_of(stage.kind) == group);
            let inside: Option<Volume> = stages.map(gas_inside).sum();
            inside.filter(|inside| inside.value > 0.0)
        }
        Group::Hopper | Group::Base | Group::Electrics | Group::Engine => None,
    }
}

/// Diameter of a room, m, that holds as much air as a wall and what lies inside the steel that is its shell: that of the
/// vessel that was measured, or else the first metal from the inside. A lining of fibre, wool or loose grains is nearly all
/// air, so that a vessel holds almost as much of it lined as before its lining goes in. Without metal only the room counts.
fn across(design: &Design, inside: Length, layers: &[Layer]) -> f64 {
    let metal = |layer: &Layer| layer.material.is_metal();
    let shell = if is_there(design, inside, layers) {
        layers.len().checked_sub(1)
    } else {
        layers.iter().position(metal)
    };
    let mut outer = inside.value;
    let mut square = outer * outer;
    for layer in layers.iter().take(shell.unwrap_or(0)) {
        let wider = outer + 2.0 * layer.thickness.value;
        if !metal(layer) {
            let air = match design.material(layer.material) {
                Ok(lining) => (1.0 - lining.density.value / SOLID).clamp(0.0, 1.0),
                Err(MaterialError::AirGap) => 1.0,
                Err(_) => 0.0,
            };
            square += air * (wider * wider - outer * outer);
        }
        outer = wider;
    }
    square.sqrt()
}

/// Whether air between the fibres and grains of a lining counts in that of the vessel, so that its leak test may be made
/// with the lining or without.
///
/// ```
/// use hearthplan::{design::example, sizing::air_inside::counts_lining};
/// assert!(counts_lining(&example::as_improved()));
/// assert!(!counts_lining(&example::as_first_drawn()));
/// ```
pub fn counts_lining(design: &Design) -> bool {
    let walls = [
        (design.hearth_wall.inside_diameter, &design.hearth_layers),
        (design.body_wall.inside_diameter, &design.body_layers),
    ];
    (walls.into_iter()).any(|(inside, layers)| across(design, inside, layers) > inside.value)
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
