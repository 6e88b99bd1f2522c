//! What do bolts, gaskets and drilled flanges weigh?
//!
//! Hexagon bolts with a partly threaded shank (ISO 4014) and one hexagon nut each (ISO 4032), from memory.
//! Threads count as full rods of nine tenths of the diameter, which is the pitch diameter of coarse threads
//! (ISO 724) within 2 %. Washers are left out. Good to about a tenth.

use super::machine::density;
use crate::design::Design;
use crate::design::inputs::{Flange, Joint, JointKind, Material};
use std::f64::consts::PI;
use uom::si::f64::{Length, Mass, MassDensity, Volume};
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::volume::cubic_meter;

/// Thread, width across flats of head and nut, height of the head, height of the nut; all in mm.
const HEXAGONS: [(f64, f64, f64, f64); 13] = [
    (3.0, 5.5, 2.0, 2.4),
    (4.0, 7.0, 2.8, 3.2),
    (5.0, 8.0, 3.5, 4.7),
    (6.0, 10.0, 4.0, 5.2),
    (8.0, 13.0, 5.3, 6.8),
    (10.0, 16.0, 6.4, 8.4),
    (12.0, 18.0, 7.5, 10.8),
    (16.0, 24.0, 10.0, 14.8),
    (20.0, 30.0, 12.5, 18.0),
    (24.0, 36.0, 15.0, 21.5),
    (30.0, 46.0, 18.7, 25.6),
    (36.0, 55.0, 22.5, 31.0),
    (42.0, 65.0, 26.0, 34.0),
];
/// Area of a hexagon over the square of its width across flats.
const HEXAGON: f64 = 0.866_025_403_784_438_6;
/// Mean diameter of a thread over its outside diameter.
const THREAD: f64 = 0.9;

/// Width across flats, height of the head and of the nut, m: read between the rows, and in proportion
/// to the nearest row beyond them.
fn hexagon(diameter: f64) -> [f64; 3] {
    let size = diameter * 1000.0;
    let larger = (HEXAGONS.iter().position(|row| size <= row.0)).unwrap_or(HEXAGONS.len() - 1);
    let place = larger.max(1);
    let (Some(below), Some(above)) = (HEXAGONS.get(place - 1), HEXAGONS.get(place)) else {
        return [0.0; 3];
    };
    let part = ((size - below.0) / (above.0 - below.0)).clamp(0.0, 1.0);
    let beyond = (size / below.0).min(1.0) * (size / above.0).max(1.0);
    let between = |low: f64, high: f64| (low + part * (high - low)) * beyond / 1000.0;
    [
        between(below.1, above.1),
        between(below.2, above.2),
        between(below.3, above.3),
    ]
}

/// Height of the nut of a bolt with this thread (ISO 4032, from memory).
///
/// ```
/// use hearthplan::sizing::fasteners::nut_height;
/// use uom::si::{f64::Length, length::millimeter};
/// let nut = nut_height(Length::new::<millimeter>(10.0));
/// assert!((nut.get::<millimeter>() - 8.4).abs() < 1e-9);
/// ```
pub fn nut_height(thread: Length) -> Length {
    let [_, _, nut] = hexagon(thread.value);
    Length::new::<meter>(nut)
}

/// Length of the thread of a bolt, m (ISO 4014, from memory): 2 d + 6 mm up to 125 mm, longer above.
fn thread_length(diameter: f64, length: f64) -> f64 {
    let more = match length {
        length if length <= 0.125 => 0.006,
        length if length <= 0.2 => 0.012,
        _ => 0.025,
    };
    (2.0 * diameter + more).min(length)
}

/// Mass of one hexagon bolt with its nut, of steel of this density. Threads from M3 to M42; beyond, in proportion to these.
///
/// ```
/// use hearthplan::sizing::fasteners::bolt_with_nut;
/// use uom::si::f64::{Length, MassDensity};
/// use uom::si::{length::millimeter, mass::gram, mass_density::kilogram_per_cubic_meter};
/// let mm = Length::new::<millimeter>;
/// let steel = MassDensity::new::<kilogram_per_cubic_meter>(7850.0);
/// // Tables of fasteners give about 35 g for a bolt M10 × 40 and 11 g for its nut.
/// let mass = bolt_with_nut(mm(10.0), mm(40.0), steel);
/// assert!((mass.get::<gram>() - 46.0).abs() < 4.0);
/// ```
pub fn bolt_with_nut(diameter: Length, length: Length, density: MassDensity) -> Mass {
    let (diameter, length) = (diameter.value, length.value);
    let [flats, head, nut] = hexagon(diameter);
    let rod = |diameter: f64, length: f64| 0.25 * PI * diameter * diameter * length;
    let threaded = thread_length(diameter, length);
    let shank = rod(diameter, length - threaded) + rod(THREAD * diameter, threaded);
    let hexagons = HEXAGON * flats * flats * (head + nut) - rod(THREAD * diameter, nut);
    density * Volume::new::<cubic_meter>(shank + hexagons)
}

/// All bolts and nuts of a joint, as computed; none without bolts.
///
/// ```
/// use hearthplan::design::{Design, inputs::{Joint, JointKind}};
/// use hearthplan::sizing::fasteners::bolts;
/// let welded = Joint { kind: JointKind::Welded, bolts: 4, ..Joint::default() };
/// assert_eq!(bolts(&Design::default(), &welded), None);
/// ```
pub fn bolts(design: &Design, joint: &Joint) -> Option<Mass> {
    (joint.bolts > 0 && joint.kind != JointKind::Welded).then(|| {
        let steel = density(design, Material::MildSteel);
        let steel = MassDensity::new::<kilogram_per_cubic_meter>(steel);
        f64::from(joint.bolts) * bolt_with_nut(joint.bolt, joint.bolt_length, steel)
    })
}

/// The gasket of a joint: length, width and thickness times its density; none without a gasket.
///
/// ```
/// use hearthplan::design::Design;
/// use hearthplan::sizing::fasteners::gasket;
/// let design = Design::default();
/// // The vessel's lid: 1.2 m long, 20 mm wide, 3 mm thick, 1000 kg/m³.
/// let mass = gasket(&design, &design.joints[3]).unwrap();
/// assert!((mass.value - 0.072).abs() < 1e-12);
/// ```
pub fn gasket(design: &Design, joint: &Joint) -> Option<Mass> {
    (joint.has_gasket()).then(|| {
        let volume = joint.length * joint.gasket_width * joint.gasket_thickness;
        volume * design.workshop.gasket_density
    })
}

/// A flange as computed: a ring less its bolt holes.
///
/// ```
/// use hearthplan::design::{Design, inputs::Flange};
/// use hearthplan::sizing::fasteners::flange;
/// use uom::si::{f64::Length, length::millimeter};
/// let mm = Length::new::<millimeter>;
/// let ring = Flange {
///     outside: mm(150.0),
///     bore: mm(90.0),
///     bolts: 4,
///     bolt_hole: mm(11.0),
///     thickness: mm(8.0),
///     ..Flange::default()
/// };
/// // π/4 (150² − 90² − 4 · 11²) mm² · 8 mm · 7850 kg/m³
/// assert!((flange(&Design::default(), &ring).value - 0.6864).abs() < 1e-4);
/// ```
pub fn flange(design: &Design, flange: &Flange) -> Mass {
    let square = |length: Length| length.value * length.value;
    let holes = f64::from(flange.bolts) * square(flange.bolt_hole);
    let area = 0.25 * PI * (square(flange.outside) - square(flange.bore) - holes).max(0.0);
    let density = density(design, flange.material);
    Mass::new::<kilogram>(density * area * flange.thickness.value)
}
