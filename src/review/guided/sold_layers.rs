//! Blanket and wool as thick as the sheets that are sold come to, where that leaves every answer as good.

use super::whole;
use crate::design::Design;
use crate::design::inputs::{Layer, Material};
use crate::review::{Assessment, Verdict, assess, assess_after};
use crate::sizing::insulation_table::{SHEET, SOFT};
use crate::sizing::zone::Zone;
use uom::si::f64::Length;
use uom::si::length::meter;

/// What is poured is made no thinner than this to make room for a sheet, m. Our own choice.
const THINNEST_POURED: f64 = 0.010;

/// Makes the wool of both walls as thick as so many whole sheets, the nearest first. What is poured takes the rest, or else
/// the room inside; outside the wall stays as wide as it is.
pub(super) fn prefer(design: &mut Design) {
    let mut before = assess(design);
    for zone in [Zone::Hearth, Zone::Body] {
        let tried = candidates(design, zone).into_iter();
        let found = tried
            .map(|changed| {
                let after = assess_after(design, &before, &changed);
                (changed, after)
            })
            .find(|(_, after)| is_as_good(&before, after));
        if let Some((changed, after)) = found {
            (*design, before) = (changed, after);
        }
    }
}

/// Whether no answer is worse than before.
fn is_as_good(before: &Assessment, after: &Assessment) -> bool {
    (after.findings.iter()).all(|now| {
        let then = before.finding(now.id).map(|then| then.verdict);
        now.verdict <= then.unwrap_or(Verdict::Good)
    })
}

/// The design with the thickest wool of a wall of whole sheets.
fn candidates(design: &Design, zone: Zone) -> Vec<Design> {
    let layers = zone.layers(design);
    let thick = |layer: &Layer| layer.thickness.value;
    let thickest = |is: fn(&Layer) -> bool| {
        let those = layers.iter().enumerate().filter(|(_, layer)| is(layer));
        those
            .max_by(|(_, one), (_, other)| thick(one).total_cmp(&thick(other)))
            .map(|(place, layer)| (place, layer.thickness))
    };
    let Some((wool, now)) = thickest(is_wool) else {
        return Vec::new();
    };
    let sheets = now.value / SHEET;
    let nearest = sheets.round().max(1.0) * SHEET;
    if (nearest - now.value).abs() <= SOFT * now.value {
        return Vec::new();
    }
    let [fewer, more] = [sheets.floor(), sheets.ceil()];
    let counts = match sheets - fewer <= more - sheets {
        true => [fewer, more],
        false => [more, fewer],
    };
    let mut tried = Vec::new();
    for count in counts.into_iter().filter(|count| *count >= 1.0) {
        let sold = Length::new::<meter>(count * SHEET);
        let rest = now - sold;
        let mut changed = design.clone();
        if let Some(layer) = layers_of(&mut changed, zone).get_mut(wool) {
            layer.thickness = sold;
        }
        if let Some((poured, thickness)) = thickest(is_poured)
            && (thickness + rest).value >= THINNEST_POURED
        {
            let mut filled = changed.clone();
            if let Some(layer) = layers_of(&mut filled, zone).get_mut(poured) {
                layer.thickness = whole(thickness + rest);
            }
            tried.push(filled);
        }
        let inside = match zone {
            Zone::Hearth => &mut changed.hearth_wall.inside_diameter,
            _ => &mut changed.body_wall.inside_diameter,
        };
        *inside += 2.0 * rest;
        tried.push(changed);
    }
    tried
}

fn layers_of(design: &mut Design, zone: Zone) -> &mut Vec<Layer> {
    match zone {
        Zone::Hearth => &mut design.hearth_layers,
        Zone::Body => &mut design.body_layers,
        Zone::Lid => &mut design.lid_layers,
        Zone::Bottom => &mut design.bottom_layers,
    }
}

fn is_wool(layer: &Layer) -> bool {
    layer.material.is_wool() && layer.thickness.value > 0.0
}

fn is_poured(layer: &Layer) -> bool {
    layer.material == Material::DenseCastable
}
