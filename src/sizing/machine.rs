//! What is the machine made of? Every solid with its place, mass and outline, from the design.
//!
//! The origin lies on the ground under the middle of the base; x points right, y back, z up.
//! From the ground upwards: frame, bottom end, hearth band, body band, lid, hopper. The vessel's
//! underside is at the clearance; layers are built outwards from the inside diameter; an end is as
//! wide as the outside of the wall next to it. Under a hopper the lid is a ring, open as wide as the hopper's foot.

mod changes;
mod closures;
mod envelope;
mod frame;
mod hearth;
mod held;
mod loose_parts;
mod shapes;
mod vessel;

pub use closures::Closure;
pub use envelope::{BoxEnvelope, Envelope, RoundEnvelope};
pub use frame::{CASTOR, WHEEL_DISC};
pub use hearth::HearthShape;
pub use vessel::{VesselShape, hearth_solids};

pub(super) use frame::{CROSS_BAR_PLACE, FRAME, WHEELS, members as frame_members};
pub(super) use held::masses as held_masses;
pub(super) use vessel::NOZZLES;

use crate::design::Design;
use crate::design::inputs::{Group, Material, Presence};
use shapes::Shape;
use uom::si::f64::{Area, Length, Mass};

/// A place in the machine.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// To the right of the middle of the base.
    pub x: Length,
    /// Behind the middle of the base.
    pub y: Length,
    /// Above the ground.
    pub z: Length,
}

/// Which piece of the design a solid is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Piece {
    /// A layer: name of its list, and its place there counted from zero.
    Layer {
        /// Name of the list of layers.
        list: &'static str,
        /// Place in that list.
        index: usize,
    },
    /// A piece that follows from the inputs of a section.
    OfSection {
        /// Name of the section.
        section: &'static str,
        /// What it is, as shown to a person.
        label: &'static str,
    },
    /// A part of the list of other parts, counted from zero.
    Part(usize),
    /// A flange of the list of flanges, counted from zero.
    Flange(usize),
    /// The bolts and nuts of a joint, counted from zero.
    Bolts(usize),
    /// The gasket of a joint, counted from zero.
    Gasket(usize),
    /// A ring, a plate or a flange that closes the vessel.
    Closure(Closure),
}

impl Piece {
    /// Path of the section or list item it comes from, such as `hopper` or `parts.2`.
    pub fn path(self) -> String {
        match self {
            Piece::Layer { list, index } => Design::item_path(list, index),
            Piece::OfSection { section, .. } => section.to_string(),
            Piece::Part(index) => Design::item_path("parts", index),
            Piece::Flange(index) => Design::item_path("flanges", index),
            Piece::Bolts(index) | Piece::Gasket(index) => Design::item_path("joints", index),
            Piece::Closure(closure) => closure.path(),
        }
    }

    /// Whether this is its name among the pieces whose figures can be entered by hand, such as
    /// `hearth_fire_tube` or `lid_layers_1`; see [`DerivedPart`](crate::design::inputs::DerivedPart).
    pub(super) fn has_key(self, key: &str) -> bool {
        let behind = |begins: &str| key.strip_prefix(begins)?.strip_prefix('_');
        match self {
            Piece::Layer { list, index } => {
                behind(list).and_then(|number| number.parse().ok()) == Some(index + 1)
            }
            Piece::OfSection { section, label } => behind(section).is_some_and(|name| {
                let letters = label.bytes().map(|letter| match letter {
                    b' ' => b'_',
                    letter => letter.to_ascii_lowercase(),
                });
                name.len() == label.len() && name.bytes().eq(letters)
            }),
            Piece::Part(_)
            | Piece::Flange(_)
            | Piece::Bolts(_)
            | Piece::Gasket(_)
            | Piece::Closure(_) => false,
        }
    }

    /// What it is, as shown to a person.
    pub fn label(self, design: &Design) -> String {
        match self {
            Piece::Layer { list, index } => Design::layer_name(list, index),
            Piece::OfSection { label, .. } => label.to_string(),
            Piece::Part(index) => design
                .parts
                .get(index)
                .map_or_else(String::new, |part| part.name.clone()),
            Piece::Flange(index) => {
                (design.flanges.get(index)).map_or_else(String::new, |flange| flange.name.clone())
            }
            Piece::Bolts(index) => (design.joints.get(index)).map_or_else(String::new, |joint| {
                ["Bolts and nuts of ", &joint.name].concat()
            }),
            Piece::Gasket(index) => (design.joints.get(index))
                .map_or_else(String::new, |joint| ["Gasket of ", &joint.name].concat()),
            Piece::Closure(closure) => closure.label(design),
        }
    }
}

/// What a solid is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Substance {
    /// A material of the table or of the person's own sheets.
    Material(Material),
    /// Wood as loaded.
    Wood,
    /// Char in the hearth.
    Char,
    /// Another loose fill or a liquid.
    Fill,
    /// A weighed item: nobody asked what it is made of.
    Unknown,
}

/// Mean square distance of a solid's mass from its own centre of gravity, along each axis.
/// The moment of inertia about the x axis is mass × (y + z), and so on.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Spread {
    /// Left to right.
    pub x: Area,
    /// Front to back.
    pub y: Area,
    /// Up and down.
    pub z: Area,
}

/// A solid in its place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Solid {
    /// Which piece of the design it is.
    pub piece: Piece,
    /// Sub-assembly.
    pub group: Group,
    /// What it is made of.
    pub substance: Substance,
    /// When it weighs on the base.
    pub presence: Presence,
    /// Its mass; all of them, when a part is there several times.
    pub mass: Mass,
    /// Centre of gravity.
    pub centre: Point,
    /// How its mass is spread around its centre of gravity.
    pub spread: Spread,
    /// Its outline.
    pub envelope: Envelope,
}

/// The whole machine, in place.
#[derive(Debug, Clone, PartialEq)]
pub struct Machine {
    /// All solids, frame first, then from the ground upwards, what closes the vessel, other parts last.
    pub solids: Vec<Solid>,
    /// What holds them together: flanges, bolts and gaskets. They have no place of their own, so each
    /// lies in the middle of its sub-assembly, spread as that is; where that weighs nothing, it has no
    /// place and is not here.
    pub held: Vec<Solid>,
    /// Names of pieces that were weighed by hand, with the masses that follow from the design.
    computed: Vec<(&'static str, Mass)>,
    /// Main measures of the vessel.
    pub vessel: VesselShape,
    /// Main measures of the hearth inside.
    pub hearth: HearthShape,
    /// Top of everything, hopper on.
    pub top: Length,
    /// Top of everything, hopper off.
    pub top_without_hopper: Length,
}

/// Puts a machine together from its design. Takes any design, even one outside the allowed ranges;
/// sizes that make no sense then give sizes and masses that make no sense, but never a panic.
///
/// ```
/// use hearthplan::{design::Design, sizing::machine};
/// let design = Design::default();
/// let machine = machine::layout(&design);
/// assert!((machine.vessel.underside - design.base.clearance).value.abs() < 1e-12);
/// assert!(machine.top > machine.top_without_hopper);
/// ```
pub fn layout(design: &Design) -> Machine {
    let (vessel, hearth) = measures(design);
    let mut solids = Vec::with_capacity(48 + design.parts.len());
    frame::members(
        design,
        &super::footprint::contact_points(design),
        &mut solids,
    );
    vessel::place(design, &vessel, &hearth, &mut solids);
    closures::place(design, &vessel, &hearth, &mut solids);
    loose_parts::place(design, &mut solids);
    let computed = changes::weigh_in(design, &mut solids);
    let held = held::place(design, &solids);
    let highest = |with_hopper: bool| {
        solids
            .iter()
            .filter(|solid| with_hopper || solid.presence != Presence::WithHopper)
            .filter(|solid| solid.presence != Presence::WhenFull)
            .map(|solid| solid.envelope.top().value)
            .fold(0.0, f64::max)
    };
    Machine {
        top: metres(highest(design.hopper.fitted)),
        top_without_hopper: metres(highest(false)),
        solids,
        held,
        computed,
        vessel,
        hearth,
    }
}

/// Main measures of vessel and hearth alone.
///
/// ```
/// use hearthplan::{design::Design, sizing::machine};
/// let (vessel, hearth) = machine::measures(&Design::default());
/// assert!(vessel.hearth_bottom < hearth.nozzle_plane && hearth.nozzle_plane < vessel.hearth_top);
/// ```
pub fn measures(design: &Design) -> (VesselShape, HearthShape) {
    let vessel = VesselShape::of(design);
    let hearth = HearthShape::of(design, vessel.hearth_bottom);
    (vessel, hearth)
}

impl Machine {
    /// What a piece that was weighed by hand would weigh by the design alone; `key` as in [`Piece::has_key`].
    pub(super) fn computed_mass(&self, key: &str) -> Option<Mass> {
        let known = self.computed.iter().find(|(name, _)| *name == key);
        known.map(|(_, mass)| *mass)
    }

    /// All that weighs.
    pub fn weighing(&self) -> impl Iterator<Item = &Solid> {
        self.solids.iter().chain(&self.held)
    }
}

fn metres(value: f64) -> Length {
    Length::new::<uom::si::length::meter>(value)
}

/// Sets a shape upright on a place given in m, with a density in kg/m³.
struct Placing {
    piece: Piece,
    group: Group,
    substance: Substance,
    presence: Presence,
    density: f64,
    x: f64,
    y: f64,
    bottom: f64,
}

impl Placing {
    fn solid(&self, shape: &Shape) -> Solid {
        let body = shape.body();
        let area = Area::new::<uom::si::area::square_meter>;
        Solid {
            piece: self.piece,
            group: self.group,
            substance: self.substance,
            presence: self.presence,
            mass: Mass::new::<uom::si::mass::kilogram>(body.volume * self.density),
            centre: Point {
                x: metres(self.x),
                y: metres(self.y),
                z: metres(self.bottom + body.centre_height),
            },
            spread: Spread {
                x: area(body.spread_x),
                y: area(body.spread_y),
                z: area(body.spread_z),
            },
            envelope: shape.envelope(self.x, self.y, self.bottom),
        }
    }
}

/// Density in kg/m³; an air gap weighs nothing, nor does an own material that is not fully entered.
pub(super) fn density(design: &Design, material: Material) -> f64 {
    (design.material_density(material)).map_or(0.0, |density| density.value)
}
