//! Blanket and wool: what the sheets sold come to in each layer, and the dust that cutting them makes.

use super::cell;
use crate::design::inputs::Layer;
use crate::design::phrase::{Phrase, Slot, lower_first};
use crate::design::quantity::{Quantity as Q, System};
use crate::design::{Design, Value};
use crate::paper::sheet::Block;
use crate::review::guided::wall_for_tube;
use crate::review::{Assessment, FIBRE_CAUTION, Finding, Verdict, assess_after};
use crate::sizing::insulation_table::{SHEET, SOFT};
use crate::sizing::shell_there::is_there;
use crate::sizing::there_already::still_to_lay;
use crate::sizing::zone::Zone;

/// The thickness that blanket and wool are sold in, and in multiples of it, m: 25 mm or an inch. Common practice, no source.
const fn sold(system: System) -> f64 {
    match system {
        System::Metric => SHEET,
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
    zone: Zone,
    /// Path of its thickness.
    path: String,
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

/// What the sheets of wool that are sold come to in each layer of it; what a layer lacks or has too much of is told. Another
/// thickness is only advised where the review finds nothing worse with it.
pub(super) fn as_sold(design: &Design, assessment: &Assessment) -> Vec<Slot> {
    let told = |layer: WoolLayer| {
        let spoils = |thicker, wider| layer.spoils(design, assessment, thicker, wider);
        let [metric, inch] = [System::Metric, System::Inch]
            .map(|system| Slot::Only(system, layer.in_sheets(system, &spoils)));
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
        .filter_map(move |(zone, layer)| {
            let mut layers = zone.layers(design).iter();
            let place = layers.position(|one| std::ptr::eq(one, layer))?;
            Some((zone, place, layer))
        })
        .map(move |(zone, place, layer)| WoolLayer {
            material: design.material_name(layer.material),
            zone,
            path: Design::item_input(zone.layer_list(), place, "thickness"),
            thickness: layer.thickness.value,
            inside_vessel: there(zone),
        })
}

/// Whether it is laid in sheets that give way, and shed fibres.
fn is_wool(layer: &Layer) -> bool {
    layer.material.is_wool() && layer.thickness.value > 0.0
}

/// Pressed to less than this share of its thickness wool is no longer what it was: our own mark.
const PRESSED: f64 = 0.75;

/// Whether the vessel is as wide as its walls.
const AS_WIDE: &str = "marking.shell";

/// What gets worse with a layer so much thicker in a wall so much wider inside, m.
type Spoils<'a> = dyn Fn(f64, f64) -> Option<&'static str> + 'a;

impl WoolLayer<'_> {
    /// What the review finds worse with this layer so much thicker, and the wall so much wider inside, m; none where nothing
    /// is.
    fn spoils(
        &self,
        design: &Design,
        assessment: &Assessment,
        thicker: f64,
        wider: f64,
    ) -> Option<&'static str> {
        let mut advised = design.clone();
        let number = |path: &str| match design.get(path)? {
            Value::Number(number) => Some(number),
            _ => None,
        };
        let inside = match self.zone {
            Zone::Hearth => "hearth_wall.inside_diameter",
            _ => "body_wall.inside_diameter",
        };
        let changes = [(self.path.as_str(), thicker), (inside, wider)];
        for (path, by) in changes.into_iter().filter(|(_, by)| *by != 0.0) {
            let changed = number(path).map(|now| Value::Number(now + by));
            if changed.is_none_or(|value| advised.set(path, value).is_err()) {
                return Some(self.zone.label());
            }
        }
        let after = assess_after(design, assessment, &advised);
        // A vessel that is not there yet is made as wide as its walls.
        let follows = |id: &str| self.inside_vessel.is_none() && id == AS_WIDE;
        let is_worse = |now: &&Finding| {
            if follows(now.id) {
                return false;
            }
            let then = assessment.finding(now.id).map(|then| then.verdict);
            now.verdict > then.unwrap_or(Verdict::Good)
        };
        (after.findings.iter().filter(is_worse))
            .max_by_key(|now| now.verdict)
            .map(|now| now.title)
    }

    /// What it comes to in the sheets that are sold.
    fn in_sheets(&self, system: System, spoils: &Spoils) -> Phrase {
        let sold = sold(system);
        let room = as_told(self.thickness, system);
        let sheets = (room / sold).round().max(1.0);
        let off = sheets * sold - room;
        // An inch is as good a name for it.
        let thin = |si: f64| cell(Q::Length, si.abs());
        let zone = lower_first(self.zone.label());
        let mut slots: Vec<Slot> = vec![
            self.material.into(),
            zone.into(),
            thin(room),
            cell(Q::Count, sheets),
            thin(sold),
        ];
        let is_soft = off.abs() <= SOFT * room;
        if off.abs() < 1e-6 {
            return Phrase::new("{} of the {}, {} thick: {} times {}.", slots);
        }
        slots.push(thin(off));
        if is_soft {
            let words = match off > 0.0 {
                true => "{} of the {}, {} thick: {} times {}, pressed by {}.",
                false => "{} of the {}, {} thick: {} times {}, laid loosely: {} are missing.",
            };
            return Phrase::new(words, slots);
        }
        let words = match off > 0.0 {
            true => "{} of the {}, {} thick: {} times {} is {} too much. {}",
            false => "{} of the {}, {} thick: {} times {} is {} too little. {}",
        };
        slots.push(self.advice(room, sold, sheets, spoils).into());
        Phrase::new(words, slots)
    }

    /// What to do where the sheets come to more or less than the room that they have.
    fn advice(&self, room: f64, sold: f64, sheets: f64, spoils: &Spoils) -> Phrase {
        let off = sheets * sold - room;
        let thin = |si: f64| cell(Q::Length, si.abs());
        let Some(narrower) = self.inside_vessel else {
            return match spoils(off, 0.0) {
                Some(worse) => self.press(room, sold, sheets, Some(worse)),
                None => Phrase::new(
                    match self.zone {
                        Zone::Hearth | Zone::Body => {
                            "Make the layer {} thick, with vessel and plan as wide as that makes them, or look for another sheet."
                        }
                        Zone::Lid | Zone::Bottom => {
                            "Make the layer {} thick, or look for another sheet."
                        }
                    },
                    [thin(sheets * sold)],
                ),
            };
        };
        if off < 0.0 {
            return match spoils(off, -2.0 * off) {
                Some(worse) => self.press(room, sold, sheets, Some(worse)),
                None => Phrase::new(
                    "The vessel around it is there: look for other sheets, or make the wall {} wider inside and the layer {} thinner.",
                    [thin(2.0 * off), thin(off)],
                ),
            };
        }
        if 2.0 * off <= narrower {
            return match spoils(off, -2.0 * off) {
                Some(worse) => self.press(room, sold, sheets, Some(worse)),
                None => Phrase::new(
                    "The vessel around it is there: press the sheets, look for others, or make the wall {} narrower inside and the layer {} thicker.",
                    [thin(2.0 * off), thin(off)],
                ),
            };
        }
        let fewer = sheets - 1.0;
        let thinner = sold - off;
        let takes_fewer = fewer >= 1.0 && spoils(-thinner, 2.0 * thinner).is_none();
        if !takes_fewer {
            return self.press(room, sold, sheets, None);
        }
        Phrase::new(
            "The vessel around it is there, and a narrower wall leaves the hearth too little room: press the sheets, look for others, or take {} of them and make the wall {} wider inside and the layer {} thinner, which keeps less heat in.",
            [cell(Q::Count, fewer), thin(2.0 * thinner), thin(thinner)],
        )
    }

    /// What to do where the layer stays as thick as it is.
    fn press(&self, room: f64, sold: f64, sheets: f64, worse: Option<&'static str>) -> Phrase {
        let pressed = match sheets * sold < room {
            true => sheets + 1.0,
            false => sheets,
        };
        let why = match worse {
            Some(worse) => Phrase::new(
                ": with a layer as thick as the sheets “{}” is worse",
                [worse.into()],
            ),
            None => Phrase::plain(
                ": the vessel around it is there, and a narrower wall leaves the hearth too little room",
            ),
        };
        let room_for = room >= PRESSED * pressed * sold;
        let thick = cell(Q::Length, room);
        match room_for {
            true => Phrase::new(
                "Leave the layer as it is, and press {} of them into {}, or look for other sheets{}.",
                [cell(Q::Count, pressed), thick, why.into()],
            ),
            false => Phrase::new(
                "Leave the layer as it is, and look for sheets that come to {}{}.",
                [thick, why.into()],
            ),
        }
    }
}
