//! What the insulation around the hearth does: the same hearth without it, and with one more layer.

use super::Heart;
use crate::design::Design;
use crate::design::inputs::{Layer, Material};
use crate::sizing::gas::HearthSolution;
use crate::sizing::heart::{HeartAt, HeartModel};
use std::sync::OnceLock;
use uom::si::f64::{Length, Ratio};
use uom::si::length::millimeter;

/// Thickness of the layer added where there is no insulation to double, mm. Our own choice.
const FIRST_LAYER: f64 = 50.0;

/// The hearth at the usual load behind other layers. No verdict hangs on it, so each is worked out when it is first looked at.
#[derive(Debug, Clone)]
pub(super) struct OtherLayers {
    usual: Ratio,
    /// The hearth as it is, to begin from.
    near: Option<HearthSolution>,
    without_insulation: Option<Relined>,
    one_more: Relined,
}

/// A hearth with other layers, and what it does once somebody has asked.
#[derive(Debug, Clone)]
struct Relined {
    model: HeartModel,
    found: OnceLock<HeartAt>,
}

impl OtherLayers {
    pub(super) fn of(design: &Design, heart: &Heart) -> Self {
        let relined = |layers: &[Layer]| Relined {
            model: heart.model.relined(design, layers),
            found: OnceLock::new(),
        };
        Self {
            usual: design.operation.usual_load,
            near: heart.at.usual.solved.as_ref().ok().copied(),
            without_insulation: without_insulation(design).map(|layers| relined(&layers)),
            one_more: relined(&one_more_layer(design)),
        }
    }

    pub(super) fn without_insulation(&self) -> Option<&HeartAt> {
        Some(self.at(self.without_insulation.as_ref()?))
    }

    pub(super) fn one_more(&self) -> &HeartAt {
        self.at(&self.one_more)
    }

    fn at<'a>(&self, relined: &'a Relined) -> &'a HeartAt {
        let work_out = || relined.model.at_beside(self.usual, self.near.as_ref());
        relined.found.get_or_init(work_out)
    }
}

fn insulates(design: &Design, layer: &Layer) -> bool {
    design
        .material(layer.material)
        .is_ok_and(|material| material.insulates)
}

/// The hearth wall without its insulation; none when there is none.
fn without_insulation(design: &Design) -> Option<Vec<Layer>> {
    let left: Vec<_> = design
        .hearth_layers
        .iter()
        .filter(|layer| !insulates(design, layer))
        .cloned()
        .collect();
    (left.len() < design.hearth_layers.len()).then_some(left)
}

/// The hearth wall with one more layer.
fn one_more_layer(design: &Design) -> Vec<Layer> {
    let mut layers = design.hearth_layers.clone();
    let (place, layer) = layer_to_add(design);
    layers.insert(place, layer);
    layers
}

/// What [`Heart::one_more_layer`] adds to the hearth wall, and its place there: the thickest insulation once more, or a
/// first layer of blanket.
pub fn layer_to_add(design: &Design) -> (usize, Layer) {
    let layers = &design.hearth_layers;
    let thickest = layers
        .iter()
        .enumerate()
        .filter(|(_, layer)| insulates(design, layer))
        .max_by(|(_, one), (_, other)| one.thickness.value.total_cmp(&other.thickness.value))
        .map(|(place, layer)| (place, layer.clone()));
    thickest.unwrap_or((
        layers.len(),
        Layer {
            material: Material::CeramicBlanket1260,
            thickness: Length::new::<millimeter>(FIRST_LAYER),
        },
    ))
}
