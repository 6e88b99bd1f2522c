//! The measures of the hearth inside its band of the vessel.

use super::metres;
use crate::design::Design;
use crate::design::inputs::{Hearth, HearthKind};
use uom::si::f64::Length;

/// Main measures of the hearth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HearthShape {
    /// Top of the fire tube above ground.
    pub tube_top: Length,
    /// Plane of the nozzles; where a straight tube has none, its top.
    pub nozzle_plane: Length,
    /// End of the fire tube, where the cone above the throat begins; of a straight tube its grate.
    pub tube_foot: Length,
    /// Throat above ground; of a straight tube its grate.
    pub throat: Length,
    /// Grate above ground.
    pub grate: Length,
    /// Inside radius of the fire tube at the nozzles, or of the straight tube.
    pub tube_radius: Length,
    /// Inside radius of the throat, or of the straight tube.
    pub throat_radius: Length,
    /// Inside radius where the char meets the grate.
    pub foot_radius: Length,
    /// How far the hearth is too tall for its band of the vessel; 0 when it fits.
    pub overhang: Length,
}

impl HearthShape {
    /// From grate to nozzles, or of a straight tube its length: what its band of the vessel must hold.
    ///
    /// ```
    /// use hearthplan::{design::Design, sizing::machine::HearthShape};
    /// assert!((HearthShape::tall(&Design::default()).value - 0.336).abs() < 1e-9);
    /// ```
    pub fn tall(design: &Design) -> Length {
        let hearth = &design.hearth;
        match hearth.kind {
            HearthKind::Constricted => hearth.nozzle_height + hearth.reduction_height,
            HearthKind::Straight => hearth.tube_length,
        }
    }

    /// How far the fire tube goes straight on below the nozzle plane, and how tall the cone from there to the throat is:
    /// together the height of the nozzles above the throat. A tube that would go on past the throat ends there.
    ///
    /// ```
    /// use hearthplan::{design::inputs::Hearth, sizing::machine::HearthShape};
    /// let mut hearth = Hearth::default();
    /// assert_eq!(HearthShape::below_nozzles(&hearth)[1], hearth.nozzle_height);
    /// hearth.straight_below_nozzles = 0.25 * hearth.nozzle_height;
    /// assert_eq!(HearthShape::below_nozzles(&hearth)[1], 0.75 * hearth.nozzle_height);
    /// ```
    pub fn below_nozzles(hearth: &Hearth) -> [Length; 2] {
        let straight = hearth.straight_below_nozzles.min(hearth.nozzle_height);
        [straight, hearth.nozzle_height - straight]
    }

    /// Outside diameter of fire tube and cones where they are widest.
    ///
    /// ```
    /// use hearthplan::{design::Design, sizing::machine::HearthShape};
    /// let design = Design::default();
    /// let sheets = 2.0 * design.hearth.steel_thickness;
    /// assert_eq!(HearthShape::widest(&design), design.hearth.nozzle_ring_diameter + sheets);
    /// ```
    pub fn widest(design: &Design) -> Length {
        let hearth = &design.hearth;
        let inside = match hearth.kind {
            HearthKind::Constricted => (hearth.nozzle_ring_diameter)
                .max(hearth.below_throat_diameter)
                .max(hearth.throat_diameter),
            HearthKind::Straight => hearth.tube_diameter,
        };
        inside + 2.0 * hearth.steel_thickness
    }

    /// Height of the room under the grate.
    ///
    /// ```
    /// use hearthplan::{design::Design, sizing::machine::HearthShape};
    /// let design = Design::default();
    /// let free = design.hearth_wall.height - HearthShape::tall(&design);
    /// assert_eq!(HearthShape::ash_room(&design), 0.5 * free);
    /// ```
    pub fn ash_room(design: &Design) -> Length {
        let free = design.hearth_wall.height - Self::tall(design);
        0.5 * free.max(Length::default())
    }

    /// The measures that follow from a design, where its band begins at this height. The height that the hearth leaves
    /// free in its band is shared equally: fire tube above the nozzles, ash room under the grate. A straight tube hangs
    /// with half of it under the grate. A hearth too tall for its band rises above it.
    pub(in crate::sizing) fn of(design: &Design, band_bottom: Length) -> Self {
        let hearth = &design.hearth;
        let bottom = band_bottom.value;
        let band = design.hearth_wall.height.value;
        let tall = Self::tall(design).value;
        let grate = bottom + Self::ash_room(design).value;
        let overhang = metres((tall - band).max(0.0));
        match hearth.kind {
            HearthKind::Constricted => {
                let (plane, throat) = (
                    metres(grate + tall),
                    metres(grate) + hearth.reduction_height,
                );
                let [straight, _] = Self::below_nozzles(hearth);
                Self {
                    tube_top: metres(bottom + tall.max(band)),
                    nozzle_plane: plane,
                    tube_foot: (plane - straight).max(throat),
                    throat,
                    grate: metres(grate),
                    tube_radius: 0.5 * hearth.nozzle_ring_diameter,
                    throat_radius: 0.5 * hearth.throat_diameter,
                    foot_radius: 0.5 * hearth.below_throat_diameter,
                    overhang,
                }
            }
            HearthKind::Straight => Self {
                tube_top: metres(grate + tall),
                nozzle_plane: metres(grate + tall),
                tube_foot: metres(grate),
                throat: metres(grate),
                grate: metres(grate),
                tube_radius: 0.5 * hearth.tube_diameter,
                throat_radius: 0.5 * hearth.tube_diameter,
                foot_radius: 0.5 * hearth.tube_diameter,
                overhang,
            },
        }
    }
}
