//! The sizes of a piece as lengths alone, to set two pieces beside each other.

use super::Stock;
use uom::si::f64::Length;

impl Stock {
    /// Its lengths, always in the same order. What is counted, and areas, are left out.
    ///
    /// ```
    /// use hearthplan::sizing::stock::Stock;
    /// use uom::si::{f64::Length, length::millimeter};
    /// let mm = Length::new::<millimeter>;
    /// let plate = Stock::Disc { diameter: mm(300.0), thickness: mm(5.0) };
    /// assert_eq!(plate.lengths(), [mm(300.0), mm(5.0)]);
    /// ```
    pub fn lengths(&self) -> Vec<Length> {
        match *self {
            Stock::Tube {
                outside,
                wall,
                length,
            }
            | Stock::Pipe {
                outside,
                wall,
                length,
                ..
            }
            | Stock::Tubes {
                outside,
                wall,
                length,
                ..
            } => vec![outside, wall, length],
            Stock::Disc {
                diameter,
                thickness,
            } => vec![diameter, thickness],
            Stock::Ring {
                outside,
                bore,
                thickness,
            } => vec![outside, bore, thickness],
            Stock::Cone {
                foot,
                top,
                height,
                sheet,
            } => vec![foot, top, height, sheet],
            Stock::Dish {
                diameter,
                height,
                sheet,
            } => vec![diameter, height, sheet],
            Stock::Plate {
                width,
                depth,
                thickness,
            } => vec![width, depth, thickness],
            Stock::Case {
                width,
                depth,
                height,
                sheet,
            } => vec![width, depth, height, sheet],
            Stock::Block {
                width,
                depth,
                height,
            } => vec![width, depth, height],
            Stock::SquareTube {
                side,
                wall,
                ref cuts,
            } => {
                let cuts = cuts.iter().map(|(_, length)| *length);
                [side, wall].into_iter().chain(cuts).collect()
            }
            Stock::Wheel { diameter } => vec![diameter],
            Stock::Bolt { thread, length } => vec![thread, length],
            Stock::Strip {
                length,
                width,
                thickness,
            } => vec![length, width, thickness],
            Stock::Drum {
                bore,
                height,
                sheet,
                ..
            } => vec![bore, height, sheet],
            Stock::Cyclone {
                bore,
                body,
                cone,
                sheet,
                ..
            } => vec![bore, body, cone, sheet],
        }
    }
}
