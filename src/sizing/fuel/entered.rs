//! The fuel as a design has it.

use super::{Fuel, FuelError, FuelPreset, MoistureFromWeighing, PRESETS, moisture_from_weighing};
use crate::design::Design;
use crate::design::inputs::FuelKind;
use uom::si::f64::{MassDensity, Ratio};

/// The moisture worked with, and the weighing it comes from, if any.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moisture {
    /// Water per mass as fired.
    pub wet_basis: Ratio,
    /// The weighing, when both weights were entered.
    pub weighed: Option<MoistureFromWeighing>,
}

/// Moisture from the two weighings when both were entered, else as entered.
///
/// # Errors
/// [`FuelError::Weighing`] for weighings that cannot both be right.
///
/// ```
/// use hearthplan::{design::Design, sizing::fuel::moisture_of};
/// use uom::si::{f64::Mass, mass::gram};
/// let mut design = Design::default();
/// assert_eq!(moisture_of(&design).unwrap().wet_basis, design.fuel.moisture);
/// design.fuel.weighed_before = Some(Mass::new::<gram>(250.0));
/// design.fuel.weighed_after = Some(Mass::new::<gram>(205.0));
/// assert!((moisture_of(&design).unwrap().wet_basis.value - 0.18).abs() < 1e-12);
/// ```
pub fn moisture_of(design: &Design) -> Result<Moisture, FuelError> {
    let fuel = &design.fuel;
    match (fuel.weighed_before, fuel.weighed_after) {
        (Some(before), Some(after)) => {
            let weighed = moisture_from_weighing(before, after, fuel.scale_step)?;
            Ok(Moisture {
                wet_basis: weighed.wet_basis,
                weighed: Some(weighed),
            })
        }
        _ => Ok(Moisture {
            wet_basis: fuel.moisture,
            weighed: None,
        }),
    }
}

/// Analysis and moisture of the fuel of a design.
///
/// # Errors
/// [`FuelError`] for an analysis or weighing that cannot be right.
///
/// ```
/// use hearthplan::{design::Design, sizing::fuel::fuel_of};
/// assert!((fuel_of(&Design::default()).unwrap().carbon.value - 0.50).abs() < 1e-12);
/// ```
pub fn fuel_of(design: &Design) -> Result<Fuel, FuelError> {
    let entered = &design.fuel;
    let analysis = match preset(entered.kind) {
        Some(preset) => preset.fuel(),
        None => Fuel {
            carbon: entered.carbon,
            hydrogen: entered.hydrogen,
            oxygen: entered.oxygen,
            nitrogen: entered.nitrogen,
            sulphur: entered.sulphur,
            ash: entered.ash,
            moisture: entered.moisture,
            heat: design.doubt.wood_heat,
        },
    };
    Fuel {
        moisture: moisture_of(design)?.wet_basis,
        heat: design.doubt.wood_heat,
        ..analysis
    }
    .checked()
}

/// Char left by pyrolysis: as entered, else what is usual for this kind of fuel.
///
/// ```
/// use hearthplan::{design::Design, sizing::fuel::char_share_of};
/// assert_eq!(char_share_of(&Design::default()).value, 0.22);
/// ```
pub fn char_share_of(design: &Design) -> Ratio {
    design
        .gas_making
        .char_share
        .unwrap_or_else(|| preset(design.fuel.kind).unwrap_or(&PRESETS[0]).char_share())
}

/// Char that falls through the grate, of the dry fuel: as entered, but no more than the fuel leaves.
///
/// ```
/// use hearthplan::{design::Design, sizing::fuel::{char_drawn_of, char_share_of}};
/// use uom::si::{f64::Ratio, ratio::percent};
/// let mut design = Design::default();
/// assert_eq!(char_drawn_of(&design).value, 0.03);
/// design.gas_making.char_drawn = Ratio::new::<percent>(50.0);
/// assert_eq!(char_drawn_of(&design), char_share_of(&design));
/// ```
pub fn char_drawn_of(design: &Design) -> Ratio {
    design.gas_making.char_drawn.min(char_share_of(design))
}

/// Density as loaded: as entered, else what is usual for this kind of fuel.
///
/// ```
/// use hearthplan::{design::Design, sizing::fuel::bulk_density_of};
/// assert_eq!(bulk_density_of(&Design::default()).value, 200.0);
/// ```
pub fn bulk_density_of(design: &Design) -> MassDensity {
    design.fuel.bulk_density.unwrap_or_else(|| {
        preset(design.fuel.kind)
            .unwrap_or(&PRESETS[0])
            .bulk_density()
    })
}

fn preset(kind: FuelKind) -> Option<&'static FuelPreset> {
    let [softwood, hardwood, charcoal, nut_shells, densified] = &PRESETS;
    match kind {
        FuelKind::Softwood => Some(softwood),
        FuelKind::Hardwood => Some(hardwood),
        FuelKind::Charcoal => Some(charcoal),
        FuelKind::NutShells => Some(nut_shells),
        FuelKind::Densified => Some(densified),
        FuelKind::Own => None,
    }
}
