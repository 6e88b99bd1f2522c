//! A steel vessel that is there already: hearth and body are sized as ever, and their insulation fills what is left.

use super::{assess, in_both, small_fire, thickest, whole};
use crate::design::Design;
use crate::design::inputs::Layer;
use crate::design::quantity::Quantity as Q;
use std::f64::consts::PI;
use uom::si::f64::Length;
use uom::si::length::meter;

/// Insulation is made no thinner than this to fit into a vessel, and no thicker to fill it, m. Our own choice.
const THINNEST: f64 = 0.025;
const THICKEST: f64 = 0.15;
/// Insulation is taken away in steps of this thickness, m.
const STEP: f64 = 0.01;
/// The body is left at least this tall, m. Our own choice.
const LEAST_BODY: f64 = 0.1;

/// Fits walls of a design into the shell that was measured.
pub(super) fn fit(design: &mut Design) {
    let vessel = &design.real_vessel;
    let (across, sheet, length) = (vessel.girth / PI, vessel.sheet, vessel.length);
    let walls = [
        (
            &mut design.hearth_wall.inside_diameter,
            &mut design.hearth_layers,
        ),
        (
            &mut design.body_wall.inside_diameter,
            &mut design.body_layers,
        ),
    ];
    for (inside, layers) in walls {
        if let Some(shell) = layers.last_mut().filter(|layer| layer.material.is_metal()) {
            shell.thickness = sheet;
        }
        let room = 0.5 * (across - *inside) - through(layers);
        if let Some(layer) = thickest(layers) {
            let filling = (layer.thickness + room).value.clamp(THINNEST, THICKEST);
            layer.thickness = whole(Length::new::<meter>(filling));
        }
        *inside = across - 2.0 * through(layers);
    }
    let below = through(&design.bottom_layers) + design.hearth_wall.height;
    design.body_wall.height = (length - below).max(Length::new::<meter>(LEAST_BODY));
}

/// Takes from the insulation of the hearth band, by steps, where that leaves less to be mended: thick insulation warms up
/// slowly.
pub(super) fn balance(design: &mut Design) {
    let step = Length::new::<meter>(STEP);
    let mut thinner = vec![design.clone()];
    while let Some(mut next) = thinner.last().cloned() {
        let Some(layer) = thickest(&mut next.hearth_layers)
            .filter(|layer| layer.thickness.value > THINNEST + STEP)
        else {
            break;
        };
        layer.thickness -= step;
        next.hearth_wall.inside_diameter += 2.0 * step;
        thinner.push(next);
    }
    let best = thinner
        .into_iter()
        .min_by_key(|tried| small_fire::open(&assess(tried)));
    if let Some(best) = best {
        *design = best;
    }
}

fn through(layers: &[Layer]) -> Length {
    layers.iter().map(|layer| layer.thickness).sum()
}

/// What became of the vessel, in words for the note of the design.
pub(super) fn told(design: &Design) -> String {
    let show = |length: Length| in_both(Q::Length, length.value);
    let across = design.real_vessel.girth / PI;
    let lining = (design.hearth_layers.iter())
        .filter(|layer| !layer.material.is_metal())
        .map(|layer| layer.thickness)
        .sum();
    format!(
        "Your vessel of {} across is filled with {} of lining, which leaves {} inside the hearth band.",
        show(across),
        show(lining),
        show(design.hearth_wall.inside_diameter)
    )
}
