//! What can be changed to keep heat in: thicker insulation, or a layer of it where there is none.

use crate::design::inputs::{Layer, Material};
use crate::design::{Choice, Design, Value};
use crate::review::finding::Lever;
use crate::sizing::zone::Zone;
use uom::si::f64::ThermodynamicTemperature;

/// Above this, rock wool is too near its limit to be offered, °C.
const ROCK_WOOL_UP_TO: f64 = 550.0;
/// Above this, the higher class of ceramic fibre blanket is offered, °C.
const BLANKET_1260_UP_TO: f64 = 1150.0;

/// Thickness of each insulating layer of a zone, outermost first; a new layer when there is none.
///
/// The new layer goes under the jacket, or around the wall when it is a single sheet: on the hot side it would be
/// scraped off by wood and char. Around the hearth, where the fire tube keeps them off, it goes to the hot side if the
/// sheet would not bear the fire's own heat, which it takes on behind insulation; but not in a vessel that is there
/// already, which would have to be wider for it.
pub(in crate::review) fn insulation(
    design: &Design,
    zone: Zone,
    inside: ThermodynamicTemperature,
) -> Vec<Lever> {
    let layers = zone.layers(design);
    let levers: Vec<_> = layers
        .iter()
        .enumerate()
        .rev()
        .filter(|(_, layer)| insulates(design, layer))
        .map(|(index, _)| thickness(zone, index))
        .collect();
    if !levers.is_empty() {
        return levers;
    }
    let bears_fire = |layer: &Layer| {
        design
            .material(layer.material)
            .is_ok_and(|material| material.limit.value - 273.15 >= BLANKET_1260_UP_TO)
    };
    let is_there = design.real_vessel.measured;
    let place = if zone == Zone::Hearth && !is_there && !layers.iter().all(bears_fire) {
        0
    } else if layers.len() > 1 {
        layers.len() - 1
    } else {
        layers.len()
    };
    new_layer(design, zone, place, inside).into_iter().collect()
}

/// Thickness of the insulating layers on the hot side of a layer, nearest first, and a new one in front of it.
pub(super) fn in_front_of(
    design: &Design,
    zone: Zone,
    place: usize,
    inside: ThermodynamicTemperature,
) -> Vec<Lever> {
    let layers = zone.layers(design);
    let mut levers: Vec<_> = layers
        .iter()
        .enumerate()
        .take(place)
        .rev()
        .filter(|(_, layer)| insulates(design, layer))
        .map(|(index, _)| thickness(zone, index))
        .collect();
    let insulated_itself = layers
        .get(place)
        .is_some_and(|layer| insulates(design, layer));
    // Around the hearth the fire tube keeps wood and char off a layer on the hot side.
    if levers.is_empty() && (place > 0 || insulated_itself || zone == Zone::Hearth) {
        levers.extend(new_layer(design, zone, place, inside));
    }
    levers
}

/// Thickness of the insulating layers behind a layer: the less there is, the cooler it stays.
pub(super) fn behind(design: &Design, zone: Zone, place: usize) -> impl Iterator<Item = Lever> {
    (zone.layers(design).iter().enumerate())
        .skip(place + 1)
        .filter(|(_, layer)| insulates(design, layer))
        .map(move |(index, _)| thickness(zone, index))
}

/// A new layer of insulation at this place, its thickness to be searched; none when the list is full.
fn new_layer(
    design: &Design,
    zone: Zone,
    place: usize,
    inside: ThermodynamicTemperature,
) -> Option<Lever> {
    let list = zone.layer_list();
    let info = Design::list_info(list)?;
    if zone.layers(design).len() >= info.longest {
        return None;
    }
    let hot = inside.value - 273.15;
    // On the hot side of the hearth it comes to the temperature of the fire.
    let at_fire = zone == Zone::Hearth && place == 0;
    let material = if hot > BLANKET_1260_UP_TO || at_fire {
        Material::CeramicBlanket1430
    } else if hot > ROCK_WOOL_UP_TO || zone == Zone::Hearth {
        Material::CeramicBlanket1260
    } else {
        Material::RockWool
    };
    Some(Lever::NewItem {
        list,
        index: place,
        fields: vec![("material", Value::Choice(material.name().to_string()))],
        solve_for: "thickness",
    })
}

fn thickness(zone: Zone, place: usize) -> Lever {
    Lever::input(Design::item_input(zone.layer_list(), place, "thickness"))
}

fn insulates(design: &Design, layer: &Layer) -> bool {
    design
        .material(layer.material)
        .is_ok_and(|material| material.insulates)
}
