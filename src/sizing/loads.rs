//! How thin may steel be that is bought, beside what was entered, and still bear its load?
//!
//! Flat sheets bear the test pressure, the frame bears the machine. What bears neither may be a little thinner.

use super::frame_strength::{FrameStrength, SquareTube, WANTED};
use super::panel::{FlatSheet, entered_panel, flat_sheets};
use crate::design::Design;
use crate::design::inputs::Material;
use uom::si::f64::{Length, Pressure};

/// Sizes that differ by less are the same, m.
const ALIKE: f64 = 1e-6;

/// What the steel of a design has to bear.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Loads {
    flat: Vec<FlatSheet>,
    pressure: Pressure,
    frame: Option<FrameStrength>,
}

impl Loads {
    /// Those of a design and its frame.
    ///
    /// ```
    /// use hearthplan::design::{Design, inputs::Material};
    /// use hearthplan::sizing::loads::Loads;
    /// let mut design = Design::default();
    /// let sheet = design.leak_test.panel_sheet;
    /// let needed = |design: &Design| Loads::of(design, None).share_needed(Material::MildSteel, sheet);
    /// design.leak_test.test_pressure *= 1e-6;
    /// assert!(needed(&design) < 0.1);
    /// design.leak_test.test_pressure *= 1e12;
    /// assert_eq!(needed(&design), 1.0);
    /// ```
    pub fn of(design: &Design, frame: Option<FrameStrength>) -> Self {
        let sheets = flat_sheets(design).into_iter().chain(entered_panel(design));
        Self {
            flat: sheets.collect(),
            pressure: design.leak_test.test_pressure,
            frame,
        }
    }

    /// Share of the thickness entered that the flat sheets of it need to bear the test; nothing where there are none, all of
    /// it where they do not bear it as they are.
    pub fn share_needed(&self, material: Material, thickness: Length) -> f64 {
        (self.flat.iter())
            .filter(|sheet| sheet.shell.material == material)
            .filter(|sheet| (sheet.thickness - thickness).value.abs() < ALIKE)
            .map(|sheet| {
                // Stress goes by the square of the thickness, deflection by its fourth power.
                let by_stress = (self.pressure / sheet.limit.by_stress).value.sqrt();
                let by_deflection = (self.pressure / sheet.limit.by_deflection)
                    .value
                    .sqrt()
                    .sqrt();
                by_stress.max(by_deflection).min(1.0)
            })
            .fold(0.0, f64::max)
    }

    /// Whether the frame of such tube bears as much as is wanted with another tube in its place, or as much as it does where
    /// that is less; what is no frame bears nothing.
    pub fn frame_bears(&self, entered: SquareTube, sold: SquareTube) -> bool {
        let same = |one: Length, other: Length| (one - other).value.abs() < ALIKE;
        let of_frame = |frame: &&FrameStrength| {
            same(frame.tube.side, entered.side) && same(frame.tube.wall, entered.wall)
        };
        self.frame.as_ref().filter(of_frame).is_none_or(|frame| {
            let with = |tube| FrameStrength { tube, ..*frame }.weakest().1;
            with(sold) >= with(entered).min(WANTED)
        })
    }
}
