//! What does a stage of the gas train weigh, without water and dust?
//!
//! Closed forms of its tubes, drums and cones from the sizes entered. What has no size of its own is left
//! out: headers of a cooler, brackets, the inlet duct and dust box of a cyclone. Elbows, bends, tees and
//! valves count as so many bores of pipe (common practice, no source). A water jacket is taken for a round
//! shell of sheet around the tubes: our own assumption.

use super::cyclone::{Cyclone, Proportions};
use super::machine::density;
use crate::design::Design;
use crate::design::inputs::{
    CoolerType, Cover, CycloneFamily, FilterMedium, Material, StageKind, TrainStage, TubeMetal,
};
use crate::physics::solids;
use std::f64::consts::PI;
use uom::si::area::square_meter;
use uom::si::f64::{Area, Length, Mass, Volume};
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::volume::cubic_meter;

/// Bores of pipe that weigh as much as a sharp elbow, a long bend, a tee and a ball valve. Common practice, no source.
pub(super) const FITTING_BORES: [f64; 4] = [6.0, 4.0, 8.0, 15.0];
/// Density of copper, kg/m³. Handbook value, from memory.
pub(super) const COPPER: f64 = 8930.0;
/// Mass of a square metre of filter cloth, kg. Common practice, no source.
const CLOTH: f64 = 0.5;
/// A fin that conducts better than this is of aluminium, W/(m·K): brass lies about there, steel at half of it. Our own mark.
const ALUMINIUM_FIN: f64 = 100.0;

/// Mass of a stage as computed from its sizes, or as entered where it is bought whole.
///
/// ```
/// use hearthplan::design::{Design, inputs::TrainStage};
/// use hearthplan::sizing::train_mass::computed_mass;
/// // A metre of pipe, 52 mm bore and 2 mm wall: π · 54 mm · 2 mm · 7850 kg/m³.
/// let mass = computed_mass(&Design::default(), &TrainStage::default());
/// assert!((mass.value - 2.6635).abs() < 1e-3);
/// ```
pub fn computed_mass(design: &Design, stage: &TrainStage) -> Mass {
    let steel = density(design, Material::MildSteel);
    let mass = match stage.kind {
        StageKind::Blower | StageKind::Measured => return stage.own_weight,
        StageKind::Pipe => steel * pipe(stage) + covered(design, stage, pipe_outside(stage)),
        StageKind::Cyclone => steel * cyclone(stage) + covered(design, stage, cyclone_size(stage)),
        StageKind::Cooler => cooler(design, stage),
        StageKind::Trap => {
            let size = [stage.vessel_diameter.value, stage.vessel_height.value];
            steel * drum(stage, size) + covered(design, stage, outside(stage, size))
        }
        StageKind::Filter => {
            let size = filter_size(stage);
            steel * drum(stage, size) + covered(design, stage, outside(stage, size)) + bed(stage)
        }
    };
    Mass::new::<kilogram>(mass)
}

/// What stages are insulated with. No input tells it; our own assumption.
pub const WOOL: Material = Material::RockWool;

/// Mass of the insulation around a stage, which is in [`computed_mass`] too.
///
/// ```
/// use hearthplan::design::{Design, inputs::{Cover, TrainStage}};
/// use hearthplan::sizing::train_mass::wool_mass;
/// // Around a metre of pipe, 56 mm over its wall, 50 mm thick: π · 106 mm · 50 mm · 100 kg/m³.
/// let stage = TrainStage { cover: Cover::Insulated, ..TrainStage::default() };
/// assert!((wool_mass(&Design::default(), &stage).value - 1.6650).abs() < 1e-3);
/// ```
pub fn wool_mass(design: &Design, stage: &TrainStage) -> Mass {
    let around = covered_size(stage).map_or(0.0, |size| covered(design, stage, size));
    Mass::new::<kilogram>(around)
}

/// Outside diameter and length of what insulation lies around, m; none for a stage that has none.
pub(super) fn covered_size(stage: &TrainStage) -> Option<[f64; 2]> {
    let size = match stage.kind {
        StageKind::Pipe => Some(pipe_outside(stage)),
        _ => outside_size(stage),
    };
    size.filter(|_| stage.cover == Cover::Insulated)
}

/// What a stage is mostly made of; none for what is bought whole and for copper.
pub fn material(stage: &TrainStage) -> Option<Material> {
    match (stage.kind, stage.tube_material) {
        (StageKind::Blower | StageKind::Measured, _) | (StageKind::Cooler, TubeMetal::Copper) => {
            None
        }
        (StageKind::Cooler, TubeMetal::Stainless) => Some(Material::Stainless304),
        (StageKind::Cooler, TubeMetal::Aluminium) => Some(Material::Aluminium),
        _ => Some(Material::MildSteel),
    }
}

/// Volume of a solid, m³; one whose sizes make no sense has none.
fn volume(solid: Result<solids::Body, crate::physics::error::PhysicsError>) -> f64 {
    solid.map_or(0.0, |solid| solid.volume)
}

/// A tube by its inside diameter, m³; as long as it may be.
fn tube(inside: f64, wall: f64, length: f64) -> f64 {
    PI * wall * (inside + wall) * length
}

fn disc(diameter: f64, sheet: f64) -> f64 {
    0.25 * PI * diameter * diameter * sheet
}

fn pipe(stage: &TrainStage) -> f64 {
    tube(stage.bore.value, stage.wall.value, pipe_outside(stage)[1])
}

/// Outside diameter and length, fittings included, m.
fn pipe_outside(stage: &TrainStage) -> [f64; 2] {
    let fittings = [stage.elbows, stage.bends, stage.tees, stage.valves];
    let bores: f64 = (FITTING_BORES.iter().zip(fittings))
        .map(|(bores, count)| bores * f64::from(count))
        .sum();
    [
        stage.bore.value + 2.0 * stage.wall.value,
        stage.length.value + bores * stage.bore.value,
    ]
}

/// Drum of sheet with a flat end above and below, by its inside diameter and height, m³.
fn drum(stage: &TrainStage, [diameter, height]: [f64; 2]) -> f64 {
    let sheet = stage.wall.value;
    tube(diameter, sheet, height) + 2.0 * disc(diameter + 2.0 * sheet, sheet)
}

fn outside(stage: &TrainStage, [diameter, height]: [f64; 2]) -> [f64; 2] {
    [diameter + 2.0 * stage.wall.value, height]
}

/// Inside diameter and height of the drum of a trap or a filter; none for another stage.
pub fn drum_size(stage: &TrainStage) -> Option<[Length; 2]> {
    drum_inside(stage).map(|size| size.map(Length::new::<meter>))
}

/// The same, m.
fn drum_inside(stage: &TrainStage) -> Option<[f64; 2]> {
    match stage.kind {
        StageKind::Trap => Some([stage.vessel_diameter.value, stage.vessel_height.value]),
        StageKind::Filter => Some(filter_size(stage)),
        _ => None,
    }
}

/// Water that a trap holds: as entered, but no more than its vessel.
///
/// ```
/// use hearthplan::{design::inputs::TrainStage, sizing::train_mass::holds};
/// let mut trap = TrainStage::default();
/// assert_eq!(holds(&trap), trap.capacity);
/// trap.vessel_height *= 0.1;
/// // π/4 · (160 mm)² · 30 mm
/// assert!((holds(&trap).value - 0.603e-3).abs() < 1e-6);
/// ```
pub fn holds(stage: &TrainStage) -> Volume {
    let vessel = disc(stage.vessel_diameter.value, stage.vessel_height.value);
    stage.capacity.min(Volume::new::<cubic_meter>(vessel))
}

/// Gas inside a stage when it is clean and empty; none for what has no size of its own. What fittings hold beyond straight
/// pipe, and the headers of a cooler, are left out.
///
/// ```
/// use hearthplan::design::inputs::{StageKind, TrainStage};
/// use hearthplan::sizing::train_mass::gas_inside;
/// let trap = TrainStage { kind: StageKind::Trap, ..TrainStage::default() };
/// // π/4 · (160 mm)² · 300 mm
/// assert!((gas_inside(&trap).unwrap().value - 6.032e-3).abs() < 1e-6);
/// ```
pub fn gas_inside(stage: &TrainStage) -> Option<Volume> {
    let inside = match stage.kind {
        StageKind::Pipe => disc(stage.bore.value, stage.length.value),
        StageKind::Cooler => {
            f64::from(stage.tubes) * disc(stage.tube_bore.value, stage.tube_length.value)
        }
        StageKind::Trap => disc(stage.vessel_diameter.value, stage.vessel_height.value),
        StageKind::Filter => {
            let [diameter, height] = filter_size(stage);
            let packing = match stage.medium {
                FilterMedium::Packed => {
                    (1.0 - stage.filter_voids.value) * disc(diameter, stage.filter_depth.value)
                }
                FilterMedium::Cloth => 0.0,
            };
            disc(diameter, height) - packing
        }
        StageKind::Cyclone => {
            let size = built(stage).dimensions();
            let (body, foot) = (size.body_diameter.value, size.dust_outlet.value);
            let squares = body * body + body * foot + foot * foot;
            disc(body, size.body_height.value) + PI / 12.0 * squares * size.cone_height.value
        }
        StageKind::Blower | StageKind::Measured => return None,
    };
    Some(Volume::new::<cubic_meter>(inside))
}

/// Outside diameter of that drum, and its height.
///
/// ```
/// use hearthplan::design::inputs::{StageKind, TrainStage};
/// use hearthplan::sizing::train_mass::{drum_outside, drum_size};
/// let trap = TrainStage { kind: StageKind::Trap, ..TrainStage::default() };
/// let ([inside, _], [outside, _]) = (drum_size(&trap).unwrap(), drum_outside(&trap).unwrap());
/// assert!((outside - inside - 2.0 * trap.wall).value.abs() < 1e-12);
/// ```
pub fn drum_outside(stage: &TrainStage) -> Option<[Length; 2]> {
    outside_of_drum(stage).map(|size| size.map(Length::new::<meter>))
}

/// The same, m.
fn outside_of_drum(stage: &TrainStage) -> Option<[f64; 2]> {
    drum_inside(stage).map(|size| outside(stage, size))
}

/// Outside of that drum, shell and both ends.
///
/// ```
/// use hearthplan::design::inputs::{StageKind, TrainStage};
/// use hearthplan::sizing::train_mass::drum_surface;
/// let trap = TrainStage { kind: StageKind::Trap, ..TrainStage::default() };
/// // 164 mm across and 300 mm high: π · 164 mm · (300 + 82) mm.
/// assert!((drum_surface(&trap).unwrap().value - 0.1968).abs() < 1e-4);
/// ```
pub fn drum_surface(stage: &TrainStage) -> Option<Area> {
    drum_outside(stage).map(|[diameter, height]| PI * diameter * (height + 0.5 * diameter))
}

/// Outside diameter and height of a cyclone, a trap or a filter, m; none for another stage.
pub(crate) fn outside_size(stage: &TrainStage) -> Option<[f64; 2]> {
    match stage.kind {
        StageKind::Cyclone => Some(cyclone_size(stage)),
        _ => outside_of_drum(stage),
    }
}

/// Mass of that drum with its ends, without what is in it and around it.
///
/// ```
/// use hearthplan::design::{Design, inputs::{StageKind, TrainStage}};
/// use hearthplan::sizing::train_mass::{computed_mass, drum_mass};
/// let (design, trap) = (Design::default(), TrainStage { kind: StageKind::Trap, ..TrainStage::default() });
/// assert_eq!(drum_mass(&design, &trap), computed_mass(&design, &trap));
/// ```
pub fn drum_mass(design: &Design, stage: &TrainStage) -> Mass {
    let volume = drum_inside(stage).map_or(0.0, |size| drum(stage, size));
    Mass::new::<kilogram>(density(design, Material::MildSteel) * volume)
}

/// Inside diameter and height of a filter's drum. Above and below a bed a quarter of its diameter stays
/// free for the gas to spread (common practice, no source).
pub(super) fn filter_size(stage: &TrainStage) -> [f64; 2] {
    match stage.medium {
        FilterMedium::Packed => {
            let diameter = stage.filter_diameter.value;
            [diameter, stage.filter_depth.value + 0.5 * diameter]
        }
        FilterMedium::Cloth => [stage.vessel_diameter.value, stage.vessel_height.value],
    }
}

/// Mass of what the gas passes in a filter, kg.
fn bed(stage: &TrainStage) -> f64 {
    match stage.medium {
        FilterMedium::Packed => {
            let poured = disc(stage.filter_diameter.value, stage.filter_depth.value);
            stage.bed_density.value * poured
        }
        FilterMedium::Cloth => CLOTH * stage.cloth_area.value,
    }
}

/// Insulation around a round body of this outside diameter and length: rock wool, kg.
fn covered(design: &Design, stage: &TrainStage, [diameter, length]: [f64; 2]) -> f64 {
    match stage.cover {
        Cover::Bare => 0.0,
        Cover::Insulated => {
            let wool = density(design, WOOL);
            wool * tube(diameter, stage.insulation.value, length)
        }
    }
}

/// Area of the sheet in body, cone, lid and outlet pipe of a cyclone, along the middle of its thickness.
pub(super) fn cyclone_sheet(stage: &TrainStage) -> Area {
    Area::new::<square_meter>(cyclone(stage) / stage.wall.value)
}

/// Body, cone, lid and the pipe of the gas outlet, m³.
fn cyclone(stage: &TrainStage) -> f64 {
    let sheet = stage.wall.value;
    let size = built(stage).dimensions();
    let [body, outlet] = [size.body_diameter, size.outlet_diameter].map(|length| length.value);
    let outer = body + 2.0 * sheet;
    let cone = solids::cone_shell(
        body + sheet,
        size.dust_outlet.value + sheet,
        size.cone_height.value,
        sheet,
    );
    tube(body, sheet, size.body_height.value) + volume(cone) + disc(outer, sheet)
        - disc(outlet, sheet)
        + tube(outlet, sheet, size.vortex_finder.value)
}

/// The cyclone that a stage is built as.
pub(crate) fn built(stage: &TrainStage) -> Cyclone {
    Cyclone {
        proportions: match stage.family {
            CycloneFamily::Lapple => Proportions::Lapple,
            CycloneFamily::Stairmand => Proportions::Stairmand,
        },
        body_diameter: stage.body_diameter,
        particle_density: stage.grain_density,
        wall_conductance: Default::default(),
    }
}

/// Outside diameter of the body, and its height with the cone.
fn cyclone_size(stage: &TrainStage) -> [f64; 2] {
    let size = built(stage).dimensions();
    let height = size.body_height + size.cone_height;
    outside(stage, [size.body_diameter.value, height.value])
}

/// Tubes, fins and the steel of a jacket, kg.
fn cooler(design: &Design, stage: &TrainStage) -> f64 {
    let metal = match stage.tube_material {
        TubeMetal::MildSteel => density(design, Material::MildSteel),
        TubeMetal::Stainless => density(design, Material::Stainless304),
        TubeMetal::Aluminium => density(design, Material::Aluminium),
        TubeMetal::Copper => COPPER,
    };
    let (bore, wall, length) = (
        stage.tube_bore.value,
        stage.tube_wall.value,
        stage.tube_length.value,
    );
    let fins = match stage.cooling {
        CoolerType::Finned | CoolerType::FinnedFan => {
            let fin = if stage.fin_conductivity.value > ALUMINIUM_FIN {
                Material::Aluminium
            } else {
                Material::MildSteel
            };
            let one = disc(stage.fin_diameter.value, stage.fin_thickness.value)
                - disc(bore + 2.0 * wall, stage.fin_thickness.value);
            density(design, fin) * one.max(0.0) * length / stage.fin_pitch.value
        }
        CoolerType::Bare | CoolerType::Fan | CoolerType::Water => 0.0,
    };
    let tubes = f64::from(stage.tubes) * (metal * tube(bore, wall, length) + fins);
    match jacket(stage) {
        Some(jacket) => {
            tubes + density(design, Material::MildSteel) * (jacket.area * jacket.sheet).value
        }
        None => tubes,
    }
}

/// The water jacket around the tubes of a cooler: a round shell with flat ends. Our own assumption, no input tells it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Jacket {
    /// Inside diameter.
    pub bore: Length,
    /// Thickness of its sheet.
    pub sheet: Length,
    /// Length between the ends.
    pub length: Length,
    /// Area of its sheet, ends and all, along the middle of its thickness.
    pub area: Area,
    /// Water around the tubes.
    pub water: Mass,
}

/// Sheet of a jacket, m, and how far its tubes stand apart from middle to middle, over their outside. Our own assumption.
const JACKET_SHEET: f64 = 0.003;
const JACKET_PITCH: f64 = 1.5;
/// Density of water, rounded, kg/m³.
const WATER: f64 = 1000.0;

/// The tubes of a cooler side by side in a triangle pattern, with room for half a pitch around them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bundle {
    /// From the middle of a tube to the middle of the next.
    pub pitch: Length,
    /// Diameter of the circle around them all, which their plates and a jacket are as wide as.
    pub across: Length,
}

/// How much room the tubes of a stage take across.
///
/// ```
/// use hearthplan::design::inputs::{StageKind, TrainStage};
/// use hearthplan::sizing::train_mass::bundle;
/// use uom::si::length::millimeter;
/// let mut cooler = TrainStage { kind: StageKind::Cooler, ..TrainStage::default() };
/// cooler.tubes = 1;
/// let one = bundle(&cooler);
/// // A hexagon of its own has the area of a circle 1.05 pitches across.
/// assert!(((one.across / one.pitch).value - 2.05).abs() < 0.001);
/// ```
pub fn bundle(stage: &TrainStage) -> Bundle {
    let pitch = JACKET_PITCH * (stage.tube_bore + 2.0 * stage.tube_wall);
    // Each tube has a hexagon of its own.
    let hexagons = (f64::from(stage.tubes) * 12.0_f64.sqrt() / PI).sqrt();
    Bundle {
        pitch,
        across: pitch * hexagons + pitch,
    }
}

/// The jacket of a stage; none for what no water cools.
///
/// ```
/// use hearthplan::design::inputs::{CoolerType, StageKind, TrainStage};
/// use hearthplan::sizing::train_mass::jacket;
/// let mut cooler = TrainStage { kind: StageKind::Cooler, ..TrainStage::default() };
/// assert_eq!(jacket(&cooler), None);
/// cooler.cooling = CoolerType::Water;
/// assert!(jacket(&cooler).unwrap().water.value > 10.0);
/// ```
pub fn jacket(stage: &TrainStage) -> Option<Jacket> {
    if stage.kind != StageKind::Cooler || stage.cooling != CoolerType::Water {
        return None;
    }
    let (tubes, outer) = (
        f64::from(stage.tubes),
        stage.tube_bore.value + 2.0 * stage.tube_wall.value,
    );
    let (bore, length) = (bundle(stage).across.value, stage.tube_length.value);
    let room = disc(bore, length) - tubes * disc(outer, length);
    Some(Jacket {
        bore: Length::new::<meter>(bore),
        sheet: Length::new::<meter>(JACKET_SHEET),
        length: stage.tube_length,
        area: Area::new::<square_meter>(
            (tube(bore, JACKET_SHEET, length)
                + 2.0 * disc(bore + 2.0 * JACKET_SHEET, JACKET_SHEET))
                / JACKET_SHEET,
        ),
        water: Mass::new::<kilogram>(WATER * room.max(0.0)),
    })
}
