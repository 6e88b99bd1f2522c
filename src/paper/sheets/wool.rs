//! Blanket and wool: what the sheets sold come to in each layer, and the dust that cutting them makes.

use super::cell;
use crate::design::Design;
use crate::design::inputs::{Layer, Material};
use crate::design::phrase::{Phrase, Slot, lower_first};
use crate::design::quantity::{Quantity as Q, System};
use crate::paper::sheet::Block;
use crate::review::FIBRE_CAUTION;
use crate::review::guided::wall_for_tube;
use crate::sizing::shell_there::is_there;
use crate::sizing::there_already::still_to_lay;
use crate::sizing::zone::Zone;

/// What wool may be pressed or fluffed up by without another thickness being entered: our own mark.
const SOFT: f64 = 0.05;

/// The thickness that blanket and wool are sold in, and in multiples of it, m: 25 mm or an inch. Common practice, no source.
const fn sold(system: System) -> f64 {
    match system {
        System::Metric => 0.025,
        System::Inch => 0.0254,
    }
}

/// A length as exactly as it is told, so that what is reckoned from it agrees with it, m.
fn as_told(length: f64, system: System) -> f64 {
    let step = match system {
        System::Metric if length >= 0.1 => 0.001,
        System::Metric => 0.0001,
        System::Inch => sold(system) / 16.0,
    };
    (length / step).round() * step
}

/// A layer of wool, and how it lies.
struct WoolLayer<'a> {
    material: &'a str,
    zone: String,
    thickness: f64,
    /// Where the vessel around it is there, so that steel does not give way: by how much its wall may get narrower inside, m,
    /// so that the hearth, which is let down through both walls, still has its room; below nothing where it has too
    /// little already.
    inside_vessel: Option<f64>,
}

/// That fibres harm the lungs, where any are cut.
pub(super) fn caution(design: &Design) -> Option<Block> {
    let around_stage = design
        .train
        .iter()
        .any(|stage| stage.insulation.value > 0.0);
    // Holes are cut through a lining that is in, too.
    let in_a_wall = || (Zone::ALL.iter()).any(|zone| zone.layers(design).iter().any(is_wool));
    (around_stage || in_a_wall()).then(|| Block::Caution(FIBRE_CAUTION.to_string()))
}

/// What the sheets of wool that are sold come to in each layer of it; what a layer lacks or has too much of is told.
pub(super) fn as_sold(design: &Design) -> Vec<Slot> {
    let told = |layer: WoolLayer| {
        let [metric, inch] = [System::Metric, System::Inch]
            .map(|system| Slot::Only(system, layer.in_sheets(system)));
        Phrase::new("{}{}", [metric, inch]).into()
    };
    layers(design).map(told).collect()
}

/// The layers of wool that are still to be laid.
fn layers(design: &Design) -> impl Iterator<Item = WoolLayer<'_>> {
    let least = wall_for_tube(design).max(design.grate.diameter);
    let there = move |zone: Zone| {
        let inside = match zone {
            Zone::Hearth => design.hearth_wall.inside_diameter,
            Zone::Body => design.body_wall.inside_diameter,
            Zone::Lid | Zone::Bottom => return None,
        };
        is_there(design, inside, zone.layers(design)).then(|| (inside - least).value)
    };
    (Zone::ALL.into_iter())
        .flat_map(|zone| still_to_lay(design, zone).map(move |layer| (zone, layer)))
        .filter(|(_, layer)| is_wool(layer))
        .map(move |(zone, layer)| WoolLayer {
            material: design.material_name(layer.material),
            zone: lower_first(zone.label()),
            thickness: layer.thickness.value,
            inside_vessel: there(zone),
        })
}

/// Whether it is laid in sheets that give way, and shed fibres.
fn is_wool(layer: &Layer) -> bool {
    let wool = matches!(
        layer.material,
        Material::CeramicBlanket1260 | Material::CeramicBlanket1430 | Material::RockWool
    );
    wool && layer.thickness.value > 0.0
}

impl WoolLayer<'_> {
    /// What it comes to in the sheets that are sold.
    fn in_sheets(&self, system: System) -> Phrase {
        let sold = sold(system);
        let room = as_told(self.thickness, system);
        let sheets = (room / sold).round().max(1.0);
        let off = sheets * sold - room;
        // An inch is as good a name for it.
        let thin = |si: f64| cell(Q::Length, si.abs());
        let mut slots: Vec<Slot> = vec![
            self.material.into(),
            self.zone.as_str().into(),
            thin(room),
            cell(Q::Count, sheets),
            thin(sold),
        ];
        let is_soft = off.abs() <= SOFT * room;
        let words = if off.abs() < 1e-6 {
            "{} of the {}, {} thick: {} times {}."
        } else if off > 0.0 && is_soft {
            slots.push(thin(off));
            "{} of the {}, {} thick: {} times {}, pressed by {}."
        } else if is_soft {
            slots.push(thin(off));
            "{} of the {}, {} thick: {} times {}, laid loosely: {} are missing."
        } else if let Some(narrower) = self.inside_vessel {
            slots.push(thin(off));
            let fewer = sheets - 1.0;
            if off < 0.0 {
                slots.extend([thin(2.0 * off), thin(off)]);
                "{} of the {}, {} thick: {} times {} is {} too little. The vessel around it is there: look for other sheets, or make the wall {} wider inside and the layer {} thinner."
            } else if 2.0 * off <= narrower {
                slots.extend([thin(2.0 * off), thin(off)]);
                "{} of the {}, {} thick: {} times {} is {} too much. The vessel around it is there: press the sheets, look for others, or make the wall {} narrower inside and the layer {} thicker."
            } else if fewer >= 1.0 {
                let thinner = sold - off;
                slots.extend([cell(Q::Count, fewer), thin(2.0 * thinner), thin(thinner)]);
                "{} of the {}, {} thick: {} times {} is {} too much. The vessel around it is there, and a narrower wall leaves the hearth too little room: press the sheets, look for others, or take {} of them and make the wall {} wider inside and the layer {} thinner, which keeps less heat in."
            } else {
                "{} of the {}, {} thick: {} times {} is {} too much. The vessel around it is there, and a narrower wall leaves the hearth too little room: press the sheet, or look for another."
            }
        } else {
            slots.extend([thin(off), thin(sheets * sold)]);
            if off > 0.0 {
                "{} of the {}, {} thick: {} times {} is {} too much. Make the layer {} thick, or look for another sheet."
            } else {
                "{} of the {}, {} thick: {} times {} is {} too little. Make the layer {} thick, or look for another sheet."
            }
        };
        Phrase::new(words, slots)
    }
}
