//! The working behind losses and temperatures.

use crate::design::phrase::Measure;
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice, Design, Source};
use crate::review::finding::Step;
use crate::sizing::shell::{LayerHeat, ZoneHeat};
use crate::sizing::zone::Zone;
use uom::si::f64::ThermalConductivity;

const METHOD: Source = Source::Published("ASTM C680; ISO 12241");
const AIR_SIDE: Source = Source::Published(
    "ASTM C680; Churchill and Chu, Int. J. Heat Mass Transfer 18, 1975; McAdams, Heat Transmission, 1954; Churchill and Bernstein, J. Heat Transfer 99, 1977",
);
const SURE_LAYERS: &str =
    "typical conductivities, ±20 %; no joints, bolts or pipes through the layers, which add to it";
const SURE_AIR: &str =
    "the air side ±15 %; with the conductivities about ±10 K (18 °F) on a warm outside";

const SURE_END: &str = "typical conductivities, ±20 %. What lies further out than the room inside rests on the wall's insulation. Only a sheet on the hot side carries heat out there: it is reckoned as a fin (Schmidt, Refrigerating Engineering 57, 1949) 75 mm (3 in) wide, however thick the insulation is, which is our own mark; of a lid of bare steel that may be off by a fifth";
const OF_END: &str = "room inside the wall with the metal that lines it, and what the sheet carries further out, as so much more of it";
const OF_RING: &str = "ring on the metal that lines the body wall, for the wood of the hopper lies inside of it, and what the sheet carries further out, as so much more of it";

fn is_wall(zone: Zone) -> bool {
    matches!(zone, Zone::Hearth | Zone::Body)
}

/// How the loss of a zone follows from the temperatures on both sides.
pub(super) fn loss(design: &Design, heat: &ZoneHeat) -> Step {
    let (words, formula) = match heat.zone {
        Zone::Hearth => ("Heat through the hearth wall", WALL_LOSS),
        Zone::Body => ("Heat through the body wall", WALL_LOSS),
        Zone::Lid => ("Heat through the lid", END_LOSS),
        Zone::Bottom => ("Heat through the bottom", END_LOSS),
    };
    let mut values = Vec::with_capacity(16);
    for layer in &heat.layers {
        let Some(conductivity) = heat.conductivity(layer) else {
            continue;
        };
        let label = layer.material.label();
        let [_, outside] = heat.radii(layer);
        values.push(if is_wall(heat.zone) {
            ("r₂", label, Measure::new(Q::Length, outside.value))
        } else {
            let thick = Measure::new(Q::Thickness, layer.thickness.value);
            ("d", label, thick)
        });
        values.push(conducts(layer, conductivity));
    }
    if is_wall(heat.zone) && !values.is_empty() {
        let inside = 0.5 * heat.inner_diameter;
        let words = "inside; of each further layer the r₂ before it";
        values.insert(0, height(heat));
        values.insert(1, ("r₁", words, Measure::new(Q::Length, inside.value)));
    }
    Step {
        words,
        formula: if values.is_empty() {
            BARE_LOSS
        } else {
            formula
        },
        values: [
            (
                "T_i",
                "inside",
                Measure::new(Q::Temperature, heat.inner_temperature.value),
            ),
            (
                "T_a",
                "air",
                Measure::new(Q::Temperature, design.site.air_temperature.value),
            ),
            (
                "h_c",
                "carried off by air",
                Measure::new(Q::HeatTransferCoefficient, heat.convection.value),
            ),
            (
                "h_r",
                "radiated",
                Measure::new(Q::HeatTransferCoefficient, heat.radiation.value),
            ),
            (
                "A",
                match heat.zone {
                    Zone::Lid if design.hopper.fitted => OF_RING,
                    Zone::Lid | Zone::Bottom => OF_END,
                    Zone::Hearth | Zone::Body => "outside area",
                },
                Measure::new(Q::Area, heat.outer_area.value),
            ),
        ]
        .into_iter()
        .chain(values)
        .collect(),
        result: Measure::new(Q::Power, heat.loss.value),
        source: METHOD,
        sure: match is_wall(heat.zone) {
            true => SURE_LAYERS,
            false => SURE_END,
        },
    }
}

fn height(heat: &ZoneHeat) -> (&'static str, &'static str, Measure) {
    let height = Measure::new(Q::Length, heat.height().value);
    ("L", "height of the wall", height)
}

fn conducts(
    layer: &LayerHeat,
    conductivity: ThermalConductivity,
) -> (&'static str, &'static str, Measure) {
    let words = match layer.conductivity {
        Some(_) => "its mean conductivity",
        None => "its air and radiation, as one conductivity",
    };
    (
        "k",
        words,
        Measure::new(Q::Conductivity, conductivity.value),
    )
}

const WALL_LOSS: &str = "Q = (T_i − T_a) / (Σ ln(r₂/r₁) / (2π k L) + 1 / ((h_c + h_r) A))";
const BARE_LOSS: &str = "Q = (T_i − T_a) (h_c + h_r) A";
const END_LOSS: &str = "Q = (T_i − T_a) / (Σ d / (k A) + 1 / ((h_c + h_r) A))";

/// How the outside temperature follows from the heat that leaves.
pub(super) fn surface(design: &Design, heat: &ZoneHeat) -> Step {
    Step {
        words: "Temperature of the outside, where as much heat leaves as comes through. Without wind: it is hottest on a calm day and on the lee side",
        formula: "T_s = T_a + q / (h_c + h_r)",
        values: vec![
            (
                "T_a",
                "air",
                Measure::new(Q::Temperature, design.site.air_temperature.value),
            ),
            (
                "q",
                "heat per outside area",
                Measure::new(Q::HeatFlux, heat.outer_flux.value),
            ),
            (
                "h_c",
                "carried off by air",
                Measure::new(Q::HeatTransferCoefficient, heat.convection.value),
            ),
            (
                "h_r",
                "radiated",
                Measure::new(Q::HeatTransferCoefficient, heat.radiation.value),
            ),
        ],
        result: Measure::new(Q::Temperature, heat.surface_temperature.value),
        source: AIR_SIDE,
        sure: SURE_AIR,
    }
}

/// How the temperature falls from layer to layer.
pub(super) fn through_layers(heat: &ZoneHeat) -> Vec<Step> {
    heat.layers
        .iter()
        .map(|layer| {
            let mut values = vec![
                (
                    "d",
                    layer.material.label(),
                    Measure::new(Q::Thickness, layer.thickness.value),
                ),
                (
                    "T₁",
                    "hot side",
                    Measure::new(Q::Temperature, layer.hot.value),
                ),
                (
                    "Q",
                    "heat through it",
                    Measure::new(Q::Power, heat.loss.value),
                ),
            ];
            let conductivity = heat.conductivity(layer);
            values.extend(conductivity.map(|conductivity| conducts(layer, conductivity)));
            let formula = match (conductivity, is_wall(heat.zone)) {
                (None, _) => "T₂ = T₁",
                (Some(_), true) => {
                    let [inside, outside] = heat.radii(layer);
                    values.extend([
                        ("r₁", "inside radius", Measure::new(Q::Length, inside.value)),
                        (
                            "r₂",
                            "outside radius",
                            Measure::new(Q::Length, outside.value),
                        ),
                        height(heat),
                    ]);
                    "T₂ = T₁ − Q ln(r₂/r₁) / (2π k L)"
                }
                (Some(_), false) => {
                    values.push(("A", "area", Measure::new(Q::Area, heat.outer_area.value)));
                    "T₂ = T₁ − Q d / (k A)"
                }
            };
            Step {
                words: "Cold side of a layer",
                formula,
                values,
                result: Measure::new(Q::Temperature, layer.cold.value),
                source: METHOD,
                sure: if layer.beyond_data {
                    "hotter than the last conductivity known: it lets through more than computed"
                } else {
                    SURE_LAYERS
                },
            }
        })
        .collect()
}
