//! The sheets that a design is made of, each flat: walls, ends, hearth and hopper.

use super::drilled::{bolted_lid, ring_plate, round_plate};
use super::rolled::{Cone, cone_blank, rolled_plate};
use super::{Pattern, PatternError};
use crate::design::Design;
use crate::design::inputs::{HearthKind, Layer};
use crate::sizing::lid_joints::{drum_lid, lid_flange, lid_neck, tight_plate};
use crate::sizing::machine::{HearthShape, Piece, VesselShape, measures};
use crate::sizing::shell_there;
use crate::sizing::there_already::there_already;
use crate::sizing::zone::Zone;
use uom::si::f64::Length;

/// Takes a template, or why there is none.
type Add<'a> = &'a mut dyn FnMut(String, Result<Pattern, PatternError>);

/// The template of a piece, or that it is there already.
pub(super) fn unless_there(
    design: &Design,
    piece: Piece,
    pattern: impl FnOnce() -> Result<Pattern, PatternError>,
) -> Result<Pattern, PatternError> {
    match there_already(design, piece) {
        Some(why) => Err(PatternError::DoesNotFit(why)),
        None => pattern(),
    }
}

/// Every sheet of a design.
pub(super) fn sheets(design: &Design, add: Add) {
    let (vessel, hearth) = measures(design);
    walls(design, add);
    ends(design, &vessel, add);
    fire(design, &hearth, &mut |name, pattern| {
        let label = name;
        let section = "hearth";
        let piece = Piece::OfSection { section, label };
        add(name.to_string(), unless_there(design, piece, || pattern));
    });
    hopper(design, &vessel, add);
    if let Some((flange, sheet)) = drum_lid(design) {
        let joint = design.joints.get(flange.place);
        let name = ["Plate: ", joint.map_or("", |joint| &joint.name)].concat();
        let plate = bolted_lid(&name, &flange, [Length::default(), sheet]);
        add(name, plate);
    }
}

/// The outermost layer of both walls as a jacket, and the steel nearest to the fire where it is another.
fn walls(design: &Design, add: Add) {
    for ([shell, jacket], list, layers, inside, height) in [
        (
            ["Hearth shell", "Hearth jacket"],
            "hearth_layers",
            &design.hearth_layers,
            design.hearth_wall.inside_diameter,
            design.hearth_wall.height,
        ),
        (
            ["Body shell", "Body jacket"],
            "body_layers",
            &design.body_layers,
            design.body_wall.inside_diameter,
            design.body_wall.height,
        ),
    ] {
        let last = layers.len().saturating_sub(1);
        let steel = layers.iter().position(|layer| layer.material.is_metal());
        let mut inside_of_layer = inside;
        for (place, layer) in layers.iter().enumerate() {
            let name = match place {
                _ if place == last => Some(jacket),
                _ if Some(place) == steel => Some(shell),
                _ => None,
            };
            if let Some(name) = name {
                let index = place;
                let blank = unless_there(design, Piece::Layer { list, index }, || {
                    rolled_plate(name, inside_of_layer, height, layer.thickness)
                });
                add(name.to_string(), blank);
            }
            inside_of_layer += 2.0 * layer.thickness;
        }
    }
}

/// The plates of lid and bottom, as wide as the wall they close, or as the bore of a vessel that is there; under a hopper the
/// lid is open. The plate of the lid that holds the gas is wider by its gasket and its bolts where it is bolted on, and what
/// lies on that is open as wide as the neck of the lid outside.
fn ends(design: &Design, vessel: &VesselShape, add: Add) {
    let none = Length::default();
    let (flange, neck) = (lid_flange(design), lid_neck(design));
    for (name, list, layers, radius, bore, goes_into) in [
        (
            "Bottom",
            "bottom_layers",
            &design.bottom_layers,
            vessel.bottom_radius,
            none,
            shell_there::bore(design),
        ),
        (
            "Lid",
            "lid_layers",
            &design.lid_layers,
            vessel.body_outer_radius,
            vessel.lid_bore_radius,
            None,
        ),
    ] {
        let steel = |layer: &&Layer| layer.material.is_metal();
        let alone = layers.iter().filter(steel).count() == 1;
        for (place, layer) in layers.iter().enumerate() {
            if layer.material.is_metal() {
                let name = match alone {
                    true => format!("{name} plate"),
                    false => format!("{name} plate, layer {}", place + 1),
                };
                let index = place;
                let of_lid = list == Zone::Lid.layer_list();
                let bolted = flange.filter(|_| of_lid && tight_plate(design) == Some(place));
                let around_neck = (neck.as_ref())
                    .filter(|_| of_lid && tight_plate(design) < Some(place))
                    .map_or(none, |neck| neck.thickness);
                let open = 2.0 * (bore + around_neck);
                let plate = unless_there(design, Piece::Layer { list, index }, || match bolted {
                    Some(flange) => bolted_lid(&name, &flange, [open, layer.thickness]),
                    None if bore > none => ring_plate(&name, [2.0 * radius, open], layer.thickness),
                    None => round_plate(&name, 2.0 * radius, layer.thickness, goes_into),
                });
                add(name, plate);
            }
        }
    }
}

/// Fire tube and cones of the hearth.
fn fire(
    design: &Design,
    hearth: &HearthShape,
    add: &mut dyn FnMut(&'static str, Result<Pattern, PatternError>),
) {
    let sheet = design.hearth.steel_thickness;
    let constricted = design.hearth.kind == HearthKind::Constricted;
    let name = "Fire tube";
    let tube = rolled_plate(
        name,
        2.0 * hearth.tube_radius,
        hearth.tube_top - hearth.tube_foot,
        sheet,
    );
    add(name, tube);
    if !constricted {
        return;
    }
    for (name, end, height) in [
        (
            "Cone above the throat",
            hearth.tube_radius,
            hearth.tube_foot - hearth.throat,
        ),
        (
            "Cone below the throat",
            hearth.foot_radius,
            hearth.throat - hearth.grate,
        ),
    ] {
        add(
            name,
            match hearth.throat_radius {
                throat if throat >= hearth.tube_radius => Err(PatternError::DoesNotFit(
                    "the throat is as wide as the fire tube or wider: make it narrower first",
                )),
                throat if throat > hearth.foot_radius => Err(PatternError::DoesNotFit(
                    "the throat is wider than the foot of the cone below it: make it narrower first",
                )),
                _ if height <= Length::default() => Err(PatternError::DoesNotFit(
                    "the fire tube goes straight on down to the throat, and no cone is left above it: let it end higher",
                )),
                throat => between(name, [end, throat], height, sheet),
            },
        );
    }
}

/// Wall and cone of the hopper.
fn hopper(design: &Design, vessel: &VesselShape, add: Add) {
    let hopper = &design.hopper;
    if !hopper.fitted {
        return;
    }
    let sheet = hopper.wall_thickness;
    let name = "Hopper wall";
    add(
        name.to_string(),
        rolled_plate(name, hopper.diameter, hopper.height, sheet),
    );
    let ends = [vessel.body_inner_radius, vessel.hopper_inner_radius];
    if ends[0] != ends[1] && hopper.cone_height.value > 0.0 {
        let name = "Hopper cone";
        add(
            name.to_string(),
            between(name, ends, hopper.cone_height, sheet),
        );
    }
}

/// The cone between two ends of these inside radii; a tube where they are alike.
fn between(
    name: &str,
    ends: [Length; 2],
    height: Length,
    sheet: Length,
) -> Result<Pattern, PatternError> {
    let (narrow, wide) = (2.0 * ends[0].min(ends[1]), 2.0 * ends[0].max(ends[1]));
    if narrow == wide {
        return rolled_plate(name, wide, height, sheet);
    }
    cone_blank(
        name,
        &Cone {
            narrow,
            wide,
            height,
            sheet,
        },
    )
}
