//! Does every layer bear the heat on its hot side?

use super::{FIBRE_CAUTION, levers, steps};
use crate::design::inputs::Material;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice, Design, celsius};
use crate::review::finding::{Chapter, Finding, Lever, Verdict};
use crate::sizing::shell::{LayerHeat, ShellError, ZoneHeat};
use crate::sizing::zone::Zone;

/// Up to this share above its limit, in degrees Celsius, a layer serves, but not for long. Our own mark.
const SHORT_LIFE: f64 = 0.10;

/// The layer of one zone that is pressed hardest; `at` tells the load, where it is not full load.
pub(super) fn finding(
    design: &Design,
    zone: Zone,
    heat: &Result<ZoneHeat, ShellError>,
    at: &str,
) -> Finding {
    let (id, title) = match zone {
        Zone::Hearth => ("warmth.layers_hearth", "Layers of the hearth wall"),
        Zone::Body => ("warmth.layers_body", "Layers of the body wall"),
        Zone::Lid => ("warmth.layers_lid", "Layers of the lid"),
        Zone::Bottom => ("warmth.layers_bottom", "Layers of the bottom"),
    };
    let mut finding = Finding {
        id,
        chapter: Chapter::Warmth,
        title,
        meaning: "Every material bears only so much heat for long: steel scales away, wool shrinks and crumbles. The class of a fibre blanket is a figure for a short time; it lasts below that.",
        verdict: Verdict::CannotTell,
        compared: Phrase::plain(""),
        why: "A layer past its limit fails from the inside, where nobody sees it until the outside glows.",
        margin: None,
        working: Vec::new(),
        caution: Some(FIBRE_CAUTION),
        levers: Vec::new(),
        about: zone.layer_list(),
    };
    let heat = match heat {
        Ok(heat) => heat,
        Err(error) => {
            finding.compared = Phrase::new("{}", [error.to_string().into()]);
            return finding;
        }
    };
    finding.working = steps::through_layers(heat);
    let Some((place, layer, limit)) = hardest_pressed(heat) else {
        finding.compared = Phrase::plain("no layer with a temperature limit has been entered");
        return finding;
    };
    let hot = layer.hot.value;
    let in_celsius = (limit - celsius(0.0)).max(1.0);
    finding.verdict = Verdict::at_most(hot, limit, limit + SHORT_LIFE * in_celsius);
    finding.margin = Some((limit - hot) / in_celsius);
    finding.compared = Phrase::new(
        "layer {}, {}, is at {} on its hot side{}; in lasting use it bears {}",
        [
            (place + 1).to_string().into(),
            name(design, layer.material).into(),
            Measure::new(Q::Temperature, hot).into(),
            at.into(),
            Measure::new(Q::Temperature, limit).into(),
        ],
    );
    if finding.verdict == Verdict::Good {
        if let Some((unknown, layer)) = beyond_data(heat) {
            finding.verdict = Verdict::Watch;
            finding.margin = Some(0.0);
            finding.compared = Phrase::new(
                "layer {}, {}, works at a mean of {}, hotter than the last conductivity known for it",
                [
                    (unknown + 1).to_string().into(),
                    name(design, layer.material).into(),
                    Measure::new(Q::Temperature, 0.5 * (layer.hot.value + layer.cold.value)).into(),
                ],
            );
            finding.why = "Insulation lets through more when hotter. The loss and the outside are worse than computed.";
            finding.levers = levers::in_front_of(design, zone, unknown, heat.inner_temperature);
        }
        return finding;
    }
    finding.levers = levers::in_front_of(design, zone, place, heat.inner_temperature);
    if let Some(better) = material_that_bears_more(design, zone, place, layer) {
        finding.levers.insert(0, better);
    }
    if layer.material.is_metal() {
        finding.levers.extend(levers::behind(design, zone, place));
    }
    if place == 0 && layer.material.is_metal() {
        finding.why = "Metal with insulation behind it gets as hot as what it faces, and scales away. Insulation on its hot side, a steel that bears more, or less insulation behind it helps.";
    }
    finding
}

/// The solid layer furthest above its limit, or nearest to it: place, layer, limit in K.
fn hardest_pressed(heat: &ZoneHeat) -> Option<(usize, &LayerHeat, f64)> {
    let (place, layer) = heat.hardest_pressed()?;
    Some((place, layer, layer.limit?.value))
}

fn beyond_data(heat: &ZoneHeat) -> Option<(usize, &LayerHeat)> {
    heat.layers
        .iter()
        .enumerate()
        .find(|(_, layer)| layer.beyond_data)
}

/// The material of a layer, where another one that can stand for it bears more, if not always all of the heat.
fn material_that_bears_more(
    design: &Design,
    zone: Zone,
    place: usize,
    layer: &LayerHeat,
) -> Option<Lever> {
    let bears_more = |other: &Material| {
        let limit = design.material(*other).ok().map(|other| other.limit);
        layer.material.stands_for(*other) && limit > layer.limit
    };
    (Material::OPTIONS.iter())
        .filter_map(|option| Material::from_name(option.name))
        .any(|other| bears_more(&other))
        .then(|| Lever::input(format!("{}.{place}.material", zone.layer_list())))
}

fn name(design: &Design, material: Material) -> String {
    design
        .material(material)
        .map_or(material.label(), |properties| properties.name)
        .to_string()
}
