//! Rings, plates and flanges that close the vessel: neck and rim of its lid, what lies on the hearth wall, and the flanges of
//! what is bolted on.

use super::shapes::Shape;
use super::{HearthShape, Piece, Placing, Solid, Substance, VesselShape, density};
use crate::design::inputs::{Group, Material, Part, Presence};
use crate::design::{Choice as _, Design};
use crate::sizing::hearth_ledge::{FlatRing, ring_around_tube, under_liner};
use crate::sizing::lid_joints::{
    Around, Band, RoundFlange, has_word, neck, of_vessel, placed_drum, rim, tight_plate,
};
use std::f64::consts::PI;
use uom::si::f64::{Length, Mass};
use uom::si::mass::kilogram;

/// Words of which one stands in the name of each other part that stands for one of these.
const TELLING: [&str; 6] = ["ring", "plate", "neck", "rim", "flange", "flanges"];

/// What closes the vessel, and is told by no layer and no section.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Closure {
    /// The ring around the fire tube.
    TubeRing,
    /// The plate under the liner of the body.
    LinerPlate,
    /// The neck of the lid.
    LidNeck,
    /// The strip around the rim of the lid.
    LidRim,
    /// The flange around the shell, of this joint.
    ShellFlange(usize),
    /// The flange on the neck of the lid, of this joint.
    NeckFlange(usize),
    /// The flange around the hopper's foot, of this joint.
    HopperFlange(usize),
    /// The flange around the drum of the filter, of this joint.
    DrumFlange(usize),
}

impl Closure {
    /// What it is, as shown to a person.
    pub fn label(self, design: &Design) -> String {
        let flange = |place: usize, of: &str| {
            let joint = design.joints.get(place);
            ["Flange: ", joint.map_or("", |joint| &joint.name), of].concat()
        };
        match self {
            Closure::TubeRing => "Ring around the fire tube".to_string(),
            Closure::LinerPlate => "Plate under the liner of the body".to_string(),
            Closure::LidNeck => "Neck of the lid".to_string(),
            Closure::LidRim => "Rim of the lid".to_string(),
            Closure::ShellFlange(place) | Closure::DrumFlange(place) => flange(place, ""),
            Closure::NeckFlange(place) => flange(place, ", on the neck"),
            Closure::HopperFlange(place) => flange(place, ", at the hopper"),
        }
    }

    /// The word for things of its kind, by which a line of the costs may name it.
    pub fn kind_word(self) -> &'static str {
        match self {
            Closure::LinerPlate => "plate",
            _ => "ring",
        }
    }

    /// Path of what it follows from.
    pub(super) fn path(self) -> String {
        match self {
            Closure::TubeRing => "hearth".to_string(),
            Closure::LinerPlate => "body_wall".to_string(),
            Closure::LidNeck | Closure::LidRim => "lid".to_string(),
            Closure::ShellFlange(place)
            | Closure::NeckFlange(place)
            | Closure::HopperFlange(place)
            | Closure::DrumFlange(place) => Design::item_path("joints", place),
        }
    }

    /// Words by which an other part stands for it: what it is, and which one, where that must be told.
    fn told_by(self) -> (&'static [&'static str], &'static [&'static str]) {
        match self {
            Closure::TubeRing => (&["ring"], &["tube"]),
            Closure::LinerPlate => (&["plate"], &["liner"]),
            Closure::LidNeck => (&["neck"], &[]),
            Closure::LidRim => (&["rim"], &[]),
            Closure::ShellFlange(_) => (&["flange", "flanges"], &["lid", "shell"]),
            Closure::NeckFlange(_) | Closure::HopperFlange(_) => {
                (&["flange", "flanges"], &["hopper", "neck"])
            }
            Closure::DrumFlange(_) => (&["flange", "flanges"], &["filter", "drum"]),
        }
    }

    /// Whether a person entered it among the other parts, by its name, so that it is not counted twice.
    pub(in crate::sizing) fn is_entered(self, design: &Design) -> bool {
        self.is_one_of(&design.parts.iter().collect::<Vec<_>>())
    }

    fn is_one_of(self, parts: &[&Part]) -> bool {
        let (what, which) = self.told_by();
        let of_filter = matches!(self, Closure::DrumFlange(_));
        parts.iter().any(|part| {
            (part.group == Group::Filter) == of_filter
                && has_word(&part.name, what)
                && (which.is_empty() || has_word(&part.name, which))
        })
    }

    /// Whether it goes with the lid of a vessel, so that it is on the scales with a lid that was weighed as it is there.
    fn is_of_lid(self) -> bool {
        matches!(
            self,
            Closure::LidNeck | Closure::LidRim | Closure::ShellFlange(_) | Closure::NeckFlange(_)
        )
    }
}

/// Adds what closes the vessel, but for what a person entered among the other parts or weighed with a lid that is there.
pub(super) fn place(
    design: &Design,
    vessel: &VesselShape,
    hearth: &HearthShape,
    solids: &mut Vec<Solid>,
) {
    let with_lid = lid_was_weighed(design);
    let named: Vec<&Part> = (design.parts.iter())
        .filter(|part| has_word(&part.name, &TELLING))
        .collect();
    let mut add = |closure: Closure, what: Placed| {
        if !(closure.is_one_of(&named) || with_lid && closure.is_of_lid()) {
            solids.push(what.solid(design, closure));
        }
    };
    let around_axis = |bottom: Length, material: Material| At {
        x: vessel.x,
        y: vessel.y,
        bottom,
        material,
    };
    let hot_steel = design.hearth.material.material();
    let plate = under_liner(design).map(|plate| plate.ring);
    if let Some(ring) = plate {
        let at = around_axis(vessel.hearth_top, hot_steel);
        add(Closure::LinerPlate, Placed::ring(ring, at));
    }
    if let Some(ring) = ring_around_tube(design) {
        // Where it does not lie on the wall it hangs at the top of the tube.
        let on_wall = vessel.hearth_top + plate.map_or(Length::default(), |ring| ring.thickness);
        let bottom = match ring.outside > design.hearth_wall.inside_diameter {
            true => on_wall,
            false => hearth.tube_top - ring.thickness,
        };
        let at = around_axis(bottom, hot_steel);
        add(Closure::TubeRing, Placed::ring(ring, at));
    }
    let layers = &design.lid_layers;
    let tight = tight_plate(design);
    let of_plate = (tight.and_then(|place| layers.get(place)))
        .map_or(Material::MildSteel, |layer| layer.material);
    let above_plate = vessel.body_top
        + (layers.iter())
            .take(tight.map_or(0, |place| place + 1))
            .map(|layer| layer.thickness)
            .sum::<Length>();
    let neck = neck(design);
    if let Some(neck) = neck {
        let at = around_axis(above_plate, of_plate);
        add(Closure::LidNeck, Placed::band(neck, at));
    }
    if let Some(rim) = rim(design) {
        let cladding = layers.last().map(|layer| layer.material);
        let material = cladding.filter(|of| of.is_metal()).unwrap_or(of_plate);
        let at = around_axis(above_plate, material);
        add(Closure::LidRim, Placed::band(rim, at));
    }
    for flange in of_vessel(design, neck) {
        let lower = |level: Length| around_axis(level - flange.thickness, of_plate);
        let upper = around_axis(vessel.lid_top, Material::MildSteel);
        match flange.around {
            Around::Shell => {
                let closure = Closure::ShellFlange(flange.place);
                add(closure, Placed::flange(&flange, lower(vessel.body_top)));
            }
            Around::Neck => {
                let closure = Closure::NeckFlange(flange.place);
                add(closure, Placed::flange(&flange, lower(vessel.lid_top)));
                let closure = Closure::HopperFlange(flange.place);
                add(closure, Placed::flange(&flange, upper));
            }
            Around::Foot => {
                let closure = Closure::HopperFlange(flange.place);
                add(closure, Placed::flange(&flange, upper));
            }
            Around::Drum => {}
        }
    }
    let drum =
        placed_drum(design).and_then(|(place, flange)| Some((design.parts.get(place)?, flange)));
    if let Some((drum, flange)) = drum {
        let closure = Closure::DrumFlange(flange.place);
        add(closure, Placed::flange(&flange, under_lid(drum, &flange)));
    }
}

/// Flush with the top of its drum.
fn under_lid(drum: &Part, flange: &RoundFlange) -> At {
    At {
        x: drum.x,
        y: drum.y,
        bottom: drum.z + drum.height - flange.thickness,
        material: drum.material,
    }
}

/// Whether the lid is there and was put on the scales with all that is welded to it.
fn lid_was_weighed(design: &Design) -> bool {
    let of_lid = |index| Piece::Layer {
        list: "lid_layers",
        index,
    };
    design.real_vessel.lined
        && (design.part_changes.iter()).any(|change| {
            let layers = 0..design.lid_layers.len();
            change.mass.is_some()
                && layers
                    .map(of_lid)
                    .any(|layer| layer.has_key(change.piece.name()))
        })
}

/// The axis of a ring, its underside, and what it is made of.
#[derive(Clone, Copy)]
struct At {
    x: Length,
    y: Length,
    bottom: Length,
    material: Material,
}

/// A ring in its place.
struct Placed {
    inner: Length,
    outer: Length,
    height: Length,
    /// How many bolt holes, and their diameter.
    holes: (u32, Length),
    at: At,
}

impl Placed {
    fn ring(ring: FlatRing, at: At) -> Self {
        Self {
            inner: 0.5 * ring.bore,
            outer: 0.5 * ring.outside,
            height: ring.thickness,
            holes: (0, Length::default()),
            at,
        }
    }

    fn band(band: Band, at: At) -> Self {
        Self {
            inner: 0.5 * band.across,
            outer: 0.5 * band.across + band.thickness,
            height: band.tall,
            holes: (0, Length::default()),
            at,
        }
    }

    fn flange(flange: &RoundFlange, at: At) -> Self {
        Self {
            inner: 0.5 * flange.bore,
            outer: 0.5 * flange.outside,
            height: flange.thickness,
            holes: (flange.bolts, flange.hole),
            at,
        }
    }

    fn solid(&self, design: &Design, closure: Closure) -> Solid {
        let At {
            x,
            y,
            bottom,
            material,
        } = self.at;
        let group = match closure {
            Closure::HopperFlange(_) => Group::Hopper,
            Closure::DrumFlange(_) => Group::Filter,
            _ => Group::Reactor,
        };
        let mut solid = Placing {
            piece: Piece::Closure(closure),
            group,
            substance: Substance::Material(material),
            presence: match group {
                Group::Hopper => Presence::WithHopper,
                _ => Presence::Always,
            },
            density: density(design, material),
            x: x.value,
            y: y.value,
            bottom: bottom.value,
        }
        .solid(&Shape::Cylinder {
            inner: self.inner.value,
            outer: self.outer.value,
            height: self.height.value,
        });
        let (count, hole) = self.holes;
        drill(
            &mut solid,
            count,
            hole,
            self.height,
            density(design, material),
        );
        solid
    }
}

/// Takes round holes through a plate so thick off its mass; of that density, kg/m³.
pub(super) fn drill(solid: &mut Solid, count: u32, hole: Length, thick: Length, density: f64) {
    let drilled = 0.25 * PI * f64::from(count) * hole.value * hole.value * thick.value;
    let left = solid.mass - Mass::new::<kilogram>(drilled * density);
    solid.mass = left.max(Mass::default());
}
