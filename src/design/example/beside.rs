//! What stands beside the vessel of the pump set. Invented like the rest of the example.

use super::{FILTER_DRUM, FILTER_HEIGHT, FILTER_SHEET, mm};
use crate::design::inputs::{Group, Material, Part, Presence, Shape};
use uom::si::f64::{Length, Mass, MassDensity, Ratio};
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::ratio::percent;

/// A weighed part; its place is given in millimetres.
fn weighed(name: &str, group: Group, mass: f64, size: [f64; 3], place: [f64; 3]) -> Part {
    let [width, depth, height] = size.map(mm);
    let [x, y, z] = place.map(mm);
    Part {
        name: name.to_string(),
        group,
        shape: Shape::Weighed,
        mass: Mass::new::<kilogram>(mass),
        width,
        depth,
        height,
        x,
        y,
        z,
        ..Part::default()
    }
}

/// An upright drum of sheet steel; sizes and place in millimetres.
fn drum(name: &str, group: Group, diameter: f64, height: f64, sheet: f64, place: [f64; 3]) -> Part {
    let [x, y, z] = place.map(mm);
    Part {
        name: name.to_string(),
        group,
        shape: Shape::Tube,
        material: Material::MildSteel,
        diameter: mm(diameter),
        height: mm(height),
        thickness: mm(sheet),
        x,
        y,
        z,
        ..Part::default()
    }
}

/// Water in a trap, full to four fifths of a height; sizes and place in millimetres.
fn water(name: &str, [diameter, height]: [f64; 2], place: [f64; 3]) -> Part {
    let [x, y, z] = place.map(mm);
    Part {
        name: name.to_string(),
        group: Group::Condensate,
        shape: Shape::BulkFill,
        presence: Presence::WhenFull,
        density: MassDensity::new::<kilogram_per_cubic_meter>(1000.0),
        diameter: mm(diameter),
        height: mm(height),
        fill_share: Ratio::new::<percent>(80.0),
        x,
        y,
        z,
        ..Part::default()
    }
}

/// The discs that close a drum, of its sheet.
fn ends(drum: &Part) -> [Part; 2] {
    let top = drum.z + drum.height - drum.thickness;
    [("bottom", drum.z), ("lid", top)].map(|(end, z)| Part {
        name: format!("{}, {end}", drum.name),
        shape: Shape::Ring,
        second_diameter: Length::default(),
        z,
        ..drum.clone()
    })
}

/// What stands beside the vessel; the same parts in both forms, placed from the front.
pub(super) fn parts(front: f64) -> Vec<Part> {
    vec![
        drum(
            "Filter drum",
            Group::Filter,
            FILTER_DRUM,
            FILTER_HEIGHT,
            FILTER_SHEET,
            [120.0, front, 250.0],
        ),
        weighed(
            "Filter packing and grids",
            Group::Filter,
            9.0,
            [280.0, 280.0, 400.0],
            [120.0, front, 300.0],
        ),
        drum(
            "Condensate trap",
            Group::Condensate,
            165.0,
            300.0,
            2.0,
            [-120.0, front, 150.0],
        ),
        water("Water in the trap", [160.0, 249.0], [-120.0, front, 160.0]),
        weighed(
            "Cooler tubes",
            Group::Cooler,
            16.0,
            [60.0, 320.0, 700.0],
            [-120.0, front + 60.0, 480.0],
        ),
        weighed(
            "Blower with motor",
            Group::Electrics,
            6.5,
            [220.0, 220.0, 220.0],
            [110.0, front, 1000.0],
        ),
        weighed(
            "Battery",
            Group::Electrics,
            19.0,
            [260.0, 170.0, 210.0],
            [0.0, -front, 120.0],
        ),
        weighed(
            "Switch box",
            Group::Electrics,
            4.0,
            [250.0, 120.0, 300.0],
            [0.0, -front - 60.0, 700.0],
        ),
    ]
}

/// What the improved form has besides: a second trap, and what the gas passes on its way.
pub(super) fn as_improved(parts: &[Part]) -> Vec<Part> {
    let last_trap = drum(
        "Last trap",
        Group::Condensate,
        110.0,
        220.0,
        2.0,
        [-330.0, -320.0, 250.0],
    );
    let first_trap = parts.iter().find(|part| part.name == "Condensate trap");
    let closed: Vec<Part> = (first_trap.into_iter().chain([&last_trap]))
        .flat_map(ends)
        .collect();
    let mut more = vec![
        last_trap,
        water(
            "Water in the last trap",
            [106.0, 142.0],
            [-330.0, -320.0, 252.0],
        ),
        weighed(
            "Cyclone",
            Group::Filter,
            1.8,
            [100.0, 100.0, 380.0],
            [350.0, -350.0, 500.0],
        ),
        weighed(
            "Hearth outlet",
            Group::Cooler,
            4.1,
            [144.0, 144.0, 500.0],
            [330.0, 420.0, 350.0],
        ),
        weighed(
            "Pipe with fittings",
            Group::Cooler,
            8.5,
            [56.0, 56.0, 670.0],
            [350.0, -180.0, 400.0],
        ),
    ];
    more.extend(closed);
    more
}
