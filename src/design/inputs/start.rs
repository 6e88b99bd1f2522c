//! The lists of a new design: a lined vessel, a rectangular base, a small blower.

use super::{Contact, CurvePoint, Fitting, FittingKind, Layer, Material};
use uom::si::f64::{Length, Pressure, VolumeRate};
use uom::si::length::millimeter;
use uom::si::pressure::pascal;
use uom::si::volume_rate::cubic_meter_per_hour;

/// A layer of the given material, thickness in millimetres.
pub fn layer(material: Material, thickness: f64) -> Layer {
    Layer {
        material,
        thickness: Length::new::<millimeter>(thickness),
    }
}

/// A wall of a face towards the heat, insulation so many millimetres thick, and a thin steel jacket.
pub fn jacketed(face: Layer, insulation: Material, thickness: f64) -> Vec<Layer> {
    vec![
        face,
        layer(insulation, thickness),
        layer(Material::MildSteel, 1.0),
    ]
}

/// A hearth wall of castable and blanket.
pub fn lined_hearth() -> Vec<Layer> {
    jacketed(
        layer(Material::DenseCastable, 15.0),
        Material::CeramicBlanket1260,
        75.0,
    )
}

/// A vessel wall of steel and rock wool.
pub fn lined_vessel() -> Vec<Layer> {
    jacketed(layer(Material::MildSteel, 3.0), Material::RockWool, 50.0)
}

/// A plain steel lid.
pub fn plain_lid() -> Vec<Layer> {
    vec![layer(Material::MildSteel, 4.0)]
}

/// Four feet, used when own contact points are chosen.
pub fn contacts() -> Vec<Contact> {
    [
        (-330.0, -400.0),
        (330.0, -400.0),
        (330.0, 400.0),
        (-330.0, 400.0),
    ]
    .into_iter()
    .map(|(x, y)| Contact {
        x: Length::new::<millimeter>(x),
        y: Length::new::<millimeter>(y),
        ..Contact::default()
    })
    .collect()
}

/// A plausible pipe run.
pub fn fittings() -> Vec<Fitting> {
    [
        (FittingKind::Entrance, 2),
        (FittingKind::Exit, 2),
        (FittingKind::LongElbow90, 4),
        (FittingKind::BallValve, 1),
    ]
    .into_iter()
    .map(|(kind, count)| Fitting { kind, count })
    .collect()
}

/// A small centrifugal blower.
pub fn blower_curve() -> Vec<CurvePoint> {
    [
        (0.0, 2600.0),
        (20.0, 2650.0),
        (40.0, 2450.0),
        (60.0, 2000.0),
        (80.0, 1300.0),
        (95.0, 500.0),
    ]
    .into_iter()
    .map(|(flow, pressure)| CurvePoint {
        flow: VolumeRate::new::<cubic_meter_per_hour>(flow),
        pressure: Pressure::new::<pascal>(pressure),
    })
    .collect()
}
