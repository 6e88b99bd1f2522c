//! Fuels to start from.
//!
//! Analyses and densities are typical values from memory of the sources named with each entry; no two lots of
//! wood are alike, so weigh and, if it matters, have your own analysed. Char share is the fixed-carbon part of
//! a proximate analysis, rounded, plus what slow heating in a deep bed adds (common practice, no source).

use super::Fuel;
use uom::si::f64::{MassDensity, Ratio};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::ratio::percent;

/// A typical fuel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FuelPreset {
    /// Stable name for files and links.
    pub key: &'static str,
    /// Name shown.
    pub name: &'static str,
    /// Where the numbers come from.
    pub source: &'static str,
    /// Mass % of dry matter: C, H, O, N, S, ash.
    analysis: [f64; 6],
    /// Moisture in % wet basis, air-dry under a roof.
    moisture: f64,
    /// Char left by pyrolysis, % of dry matter.
    char: f64,
    /// Density as loaded, kg/m³.
    bulk_density: f64,
}

impl FuelPreset {
    /// Analysis and moisture.
    ///
    /// ```
    /// use hearthplan::sizing::fuel::PRESETS;
    /// assert!(PRESETS.iter().all(|preset| preset.fuel().checked().is_ok()));
    /// ```
    pub fn fuel(&self) -> Fuel {
        let share = Ratio::new::<percent>;
        let [carbon, hydrogen, oxygen, nitrogen, sulphur, ash] = self.analysis;
        Fuel {
            carbon: share(carbon),
            hydrogen: share(hydrogen),
            oxygen: share(oxygen),
            nitrogen: share(nitrogen),
            sulphur: share(sulphur),
            ash: share(ash),
            moisture: share(self.moisture),
            heat: share(100.0),
        }
    }

    /// Char left by pyrolysis as a share of dry matter.
    ///
    /// ```
    /// use hearthplan::sizing::fuel::PRESETS;
    /// use uom::si::ratio::percent;
    /// assert_eq!(PRESETS[0].char_share().get::<percent>(), 22.0);
    /// ```
    pub fn char_share(&self) -> Ratio {
        Ratio::new::<percent>(self.char)
    }

    /// Density as loaded into the hopper.
    ///
    /// ```
    /// use hearthplan::sizing::fuel::PRESETS;
    /// use uom::si::mass_density::kilogram_per_cubic_meter;
    /// assert!(PRESETS[0].bulk_density().get::<kilogram_per_cubic_meter>() > 100.0);
    /// ```
    pub fn bulk_density(&self) -> MassDensity {
        MassDensity::new::<kilogram_per_cubic_meter>(self.bulk_density)
    }
}

/// Fuels to start from; the first is the default.
pub const PRESETS: [FuelPreset; 5] = [
    FuelPreset {
        key: "softwood",
        name: "Softwood blocks",
        source: "Gaur and Reed, Thermal Data for Natural and Synthetic Fuels, 1998, from memory; density common practice",
        analysis: [50.0, 6.1, 43.3, 0.1, 0.0, 0.5],
        moisture: 15.0,
        char: 22.0,
        bulk_density: 200.0,
    },
    FuelPreset {
        key: "hardwood",
        name: "Hardwood blocks",
        source: "Gaur and Reed, Thermal Data for Natural and Synthetic Fuels, 1998, from memory; density common practice",
        analysis: [49.5, 6.0, 43.5, 0.2, 0.0, 0.8],
        moisture: 15.0,
        char: 22.0,
        bulk_density: 300.0,
    },
    FuelPreset {
        key: "charcoal",
        name: "Charcoal",
        source: "FAO Forestry Paper 72, 1986, from memory",
        analysis: [85.0, 3.0, 9.0, 0.5, 0.0, 2.5],
        moisture: 5.0,
        char: 85.0,
        bulk_density: 200.0,
    },
    FuelPreset {
        key: "nut-shells",
        name: "Nut shells",
        source: "Jenkins et al., Fuel Processing Technology 54, 1998 (almond shells), from memory",
        analysis: [49.3, 6.0, 40.6, 0.8, 0.0, 3.3],
        moisture: 10.0,
        char: 24.0,
        bulk_density: 400.0,
    },
    FuelPreset {
        key: "densified-wood",
        name: "Densified wood (pellets, briquettes)",
        source: "ISO 17225-2 class A1 limits and typical analysis, from memory",
        analysis: [50.5, 6.1, 42.8, 0.1, 0.0, 0.5],
        moisture: 8.0,
        char: 20.0,
        bulk_density: 620.0,
    },
];
