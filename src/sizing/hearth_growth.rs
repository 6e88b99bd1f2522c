//! Does the fire tube still have room in its wall when both are hot?
//!
//! Steel grows about three times as much with heat as castable, and it hangs in the fire. A tube that fits when it is cold
//! then presses against its lining, buckles, and breaks it.

use super::machine::HearthShape;
use crate::design::Design;
use crate::design::inputs::Material;
use uom::si::f64::{Length, TemperatureCoefficient, ThermodynamicTemperature};

/// Room that is left across the fire tube when all is hot, m. Our own mark: rolled tubes are out of round by as much, and
/// while the fire is lit the lining is still colder than the tube.
pub const ROUND: f64 = 0.002;

/// Fire tube and wall in the heat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HotRoom {
    /// Mean growth of the tube's material.
    pub of_tube: TemperatureCoefficient,
    /// That of the innermost layer of the wall; none where nobody knows it, and it is taken not to grow.
    pub of_wall: Option<TemperatureCoefficient>,
    /// By how much the outside of the tube grows across.
    pub tube: Length,
    /// By how much the wall gets wider inside.
    pub wall: Length,
    /// What is left between them across, below nothing where they bind.
    pub left: Length,
}

/// Whether a layer yields to what grows into it.
fn gives_way(material: Material) -> bool {
    matches!(
        material,
        Material::CeramicBlanket1260
            | Material::CeramicBlanket1430
            | Material::RockWool
            | Material::Perlite
            | Material::WoodAsh
            | Material::AirGap
    )
}

/// By how much one metre of the tube and of the wall grow up to this temperature; none where the wall gives way.
fn growth(
    design: &Design,
    hot: ThermodynamicTemperature,
) -> Option<[(Option<TemperatureCoefficient>, f64); 2]> {
    let inmost = design.hearth_layers.first()?.material;
    if gives_way(inmost) {
        return None;
    }
    let warmer = hot.value - design.site.air_temperature.value;
    let of = |material| {
        let expansion = (design.material(material).ok()).and_then(|known| known.expansion);
        (expansion, expansion.map_or(0.0, |by| by.value * warmer))
    };
    Some([of(design.hearth.material.material()), of(inmost)])
}

/// What is left between fire tube and wall when both are as hot as the rim of the fire. None where the innermost layer of
/// the wall is soft, or nobody knows how the tube grows.
///
/// ```
/// use hearthplan::{design::example, sizing::hearth_growth::hot_room};
/// use uom::si::f64::ThermodynamicTemperature;
/// use uom::si::thermodynamic_temperature::degree_celsius;
/// let design = example::as_improved();
/// let room = hot_room(&design, ThermodynamicTemperature::new::<degree_celsius>(1100.0)).unwrap();
/// // Stainless grows by more than the castable around it.
/// assert!(room.tube > room.wall && room.left.value > 0.0);
/// ```
pub fn hot_room(design: &Design, hot: ThermodynamicTemperature) -> Option<HotRoom> {
    let [(of_tube, by_tube), (of_wall, by_wall)] = growth(design, hot)?;
    let (outside, inside) = (
        HearthShape::widest(design),
        design.hearth_wall.inside_diameter,
    );
    let (tube, wall) = (outside * by_tube, inside * by_wall);
    Some(HotRoom {
        of_tube: of_tube?,
        of_wall,
        tube,
        wall,
        left: inside + wall - outside - tube,
    })
}

/// The narrowest wall that leaves the fire tube its room in this heat.
///
/// ```
/// use hearthplan::{design::example, sizing::hearth_growth::{ROUND, hot_room, least_wall}};
/// use uom::si::f64::ThermodynamicTemperature;
/// use uom::si::thermodynamic_temperature::degree_celsius;
/// let mut design = example::as_improved();
/// let hot = ThermodynamicTemperature::new::<degree_celsius>(1200.0);
/// design.hearth_wall.inside_diameter = least_wall(&design, hot);
/// assert!((hot_room(&design, hot).unwrap().left.value - ROUND).abs() < 1e-9);
/// ```
pub fn least_wall(design: &Design, hot: ThermodynamicTemperature) -> Length {
    let cold = HearthShape::widest(design) + Length::new::<uom::si::length::meter>(ROUND);
    let Some([(_, by_tube), (_, by_wall)]) = growth(design, hot) else {
        return cold;
    };
    let grown = HearthShape::widest(design) * by_tube;
    ((cold + grown) / (1.0 + by_wall)).max(cold)
}
