//! Plain shapes: volume and centre of gravity from the solids of the physics room, and beside them how
//! the mass is spread, by integration in closed form.
//!
//! Cones and dishes of sheet are the middle surface times the thickness (Pappus), so that a cone may
//! be as flat as a ring. All lengths in m.

use super::envelope::{Envelope, RoundEnvelope};
use super::metres;
use crate::physics::error::PhysicsError;
use crate::physics::solids;
use std::f64::consts::PI;

/// A shape that stands upright.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Shape {
    /// Between two radii; a full cylinder when the inner one is 0.
    Cylinder { inner: f64, outer: f64, height: f64 },
    /// Cone of sheet without ends, by the inside radii of foot and top; a flat ring at no height.
    ConeSheet {
        foot: f64,
        top: f64,
        height: f64,
        sheet: f64,
    },
    /// Full frustum.
    Frustum { foot: f64, top: f64, height: f64 },
    /// Cap of a sphere in sheet, apex up, by the outside radius of its rim.
    Dish { rim: f64, height: f64, sheet: f64 },
    /// Full box.
    Block { width: f64, depth: f64, height: f64 },
    /// Closed box of sheet, outside sizes.
    BoxSheet {
        width: f64,
        depth: f64,
        height: f64,
        sheet: f64,
    },
}

/// What follows from a shape.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Body {
    /// Volume of the material, m³.
    pub volume: f64,
    /// Centre of gravity above the underside, m.
    pub centre_height: f64,
    /// Mean square distance from the centre, left to right, m².
    pub spread_x: f64,
    /// Mean square distance from the centre, front to back, m².
    pub spread_y: f64,
    /// Mean square distance from the centre, up and down, m².
    pub spread_z: f64,
}

/// `share / whole`, and 0 where the whole vanishes.
fn ratio(share: f64, whole: f64) -> f64 {
    if whole > 0.0 { share / whole } else { 0.0 }
}

impl Shape {
    pub fn body(&self) -> Body {
        match *self {
            Shape::Cylinder {
                inner,
                outer,
                height,
            } => {
                let spread = (inner * inner + outer * outer) / 4.0;
                Body {
                    spread_x: spread,
                    spread_y: spread,
                    spread_z: height * height / 12.0,
                    ..plain(solids::tube(2.0 * outer, outer - inner, height))
                }
            }
            Shape::ConeSheet {
                foot,
                top,
                height,
                sheet,
            } => cone_sheet(foot + sheet / 2.0, top + sheet / 2.0, height, sheet),
            Shape::Frustum { foot, top, height } => frustum(foot, top, height),
            Shape::Dish { rim, height, sheet } => {
                let rim = (rim - sheet / 2.0).max(0.0);
                let radius = ratio(rim * rim + height * height, 2.0 * height);
                // A cap has the same area in every slice of its height (Archimedes).
                let spread = (radius * height - height * height / 3.0) / 2.0;
                Body {
                    volume: PI * (rim * rim + height * height) * sheet,
                    centre_height: height / 2.0,
                    spread_x: spread,
                    spread_y: spread,
                    spread_z: height * height / 12.0,
                }
            }
            Shape::Block {
                width,
                depth,
                height,
            } => block(width, depth, height),
            Shape::BoxSheet {
                width,
                depth,
                height,
                sheet,
            } => {
                let outer = block(width, depth, height);
                let inside = |size: f64| (size - 2.0 * sheet).max(0.0);
                let inner = block(inside(width), inside(depth), inside(height));
                let thickest = 0.5 * width.min(depth).min(height);
                let shell = plain(solids::box_shell(width, depth, height, sheet.min(thickest)));
                let less = |whole: f64, hole: f64| {
                    ratio(whole * outer.volume - hole * inner.volume, shell.volume)
                };
                Body {
                    spread_x: less(outer.spread_x, inner.spread_x),
                    spread_y: less(outer.spread_y, inner.spread_y),
                    spread_z: less(outer.spread_z, inner.spread_z),
                    ..shell
                }
            }
        }
    }

    pub fn envelope(&self, x: f64, y: f64, bottom: f64) -> Envelope {
        let round = |inner: (f64, f64), outer: (f64, f64), height: f64| {
            Envelope::Round(RoundEnvelope {
                x: metres(x),
                y: metres(y),
                bottom: metres(bottom),
                top: metres(bottom + height),
                inner_bottom: metres(inner.0),
                outer_bottom: metres(outer.0),
                inner_top: metres(inner.1),
                outer_top: metres(outer.1),
            })
        };
        match *self {
            Shape::Cylinder {
                inner,
                outer,
                height,
            } => round((inner, inner), (outer, outer), height),
            Shape::ConeSheet {
                foot,
                top,
                height,
                sheet,
            } => round((foot, top), (foot + sheet, top + sheet), height),
            Shape::Frustum { foot, top, height } => round((0.0, 0.0), (foot, top), height),
            Shape::Dish { rim, height, sheet } => {
                round(((rim - sheet).max(0.0), 0.0), (rim, 0.0), height)
            }
            Shape::Block {
                width,
                depth,
                height,
            }
            | Shape::BoxSheet {
                width,
                depth,
                height,
                ..
            } => Envelope::of_box(x, y, bottom, (width, depth, height)),
        }
    }
}

/// A solid still without its spread. One whose sizes make no sense weighs nothing.
fn plain(solid: Result<solids::Body, PhysicsError>) -> Body {
    solid.map_or(Body::default(), |solid| Body {
        volume: solid.volume,
        centre_height: solid.centroid_height,
        ..Body::default()
    })
}

fn block(width: f64, depth: f64, height: f64) -> Body {
    Body {
        spread_x: width * width / 12.0,
        spread_y: depth * depth / 12.0,
        spread_z: height * height / 12.0,
        ..plain(solids::block(width, depth, height))
    }
}

/// `foot` and `top` are radii of the middle surface.
fn cone_sheet(foot: f64, top: f64, height: f64, sheet: f64) -> Body {
    let both = foot + top;
    let slant = (foot - top).hypot(height);
    let centre_height = ratio(height * (foot + 2.0 * top), 3.0 * both);
    let spread = (foot * foot + top * top) / 4.0;
    let from_foot = ratio(height * height * (foot + 3.0 * top), 6.0 * both);
    Body {
        volume: PI * both * slant * sheet,
        centre_height,
        spread_x: spread,
        spread_y: spread,
        spread_z: (from_foot - centre_height * centre_height).max(0.0),
    }
}

fn frustum(foot: f64, top: f64, height: f64) -> Body {
    let squares = foot * foot + foot * top + top * top;
    let fourths = foot.powi(4)
        + foot.powi(3) * top
        + foot * foot * top * top
        + foot * top.powi(3)
        + top.powi(4);
    let solid = plain(solids::cone(2.0 * foot, 2.0 * top, height));
    let rise = top - foot;
    let from_foot = ratio(
        3.0 * height * height * (foot * foot / 3.0 + foot * rise / 2.0 + rise * rise / 5.0),
        squares,
    );
    let spread = ratio(3.0 * fourths, 20.0 * squares);
    Body {
        spread_x: spread,
        spread_y: spread,
        spread_z: (from_foot - solid.centre_height * solid.centre_height).max(0.0),
        ..solid
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Sums thin level rings of a sheet or full body of revolution: weight share, radius², height.
    fn sliced(slices: impl Iterator<Item = (f64, f64, f64)>) -> (f64, f64, f64) {
        let (mut sum, mut high, mut wide, mut tall) = (0.0, 0.0, 0.0, 0.0);
        for (share, radius_squared, height) in slices {
            sum += share;
            high += share * height;
            wide += share * radius_squared;
            tall += share * height * height;
        }
        let centre = high / sum;
        (centre, wide / sum / 2.0, tall / sum - centre * centre)
    }

    fn agrees(body: &Body, (centre, across, up): (f64, f64, f64)) {
        for (found, wanted) in [
            (body.centre_height, centre),
            (body.spread_x, across),
            (body.spread_y, across),
            (body.spread_z, up),
        ] {
            assert!((found - wanted).abs() < 1e-5, "{found} against {wanted}");
        }
    }

    fn heights(height: f64) -> impl Iterator<Item = f64> {
        (0..2000).map(move |slice| (f64::from(slice) + 0.5) / 2000.0 * height)
    }

    #[test]
    fn a_frustum_spreads_as_its_slices_do() {
        let body = Shape::Frustum {
            foot: 0.1,
            top: 0.3,
            height: 0.4,
        }
        .body();
        let slices = heights(0.4).map(|height| {
            let radius: f64 = 0.1 + 0.2 * height / 0.4;
            (radius * radius, radius * radius / 2.0, height)
        });
        agrees(&body, sliced(slices));
    }

    #[test]
    fn a_cone_of_sheet_spreads_as_its_slices_do() {
        let sheet = 0.001;
        let body = Shape::ConeSheet {
            foot: 0.3,
            top: 0.1,
            height: 0.4,
            sheet,
        }
        .body();
        let slices = heights(0.4).map(|height| {
            let radius: f64 = 0.3 + sheet / 2.0 - 0.2 * height / 0.4;
            (radius, radius * radius, height)
        });
        agrees(&body, sliced(slices));
    }

    #[test]
    fn a_dish_spreads_as_its_slices_do() {
        let (rim, rise) = (0.3_f64, 0.1_f64);
        let body = Shape::Dish {
            rim: rim + 0.0005,
            height: rise,
            sheet: 0.001,
        }
        .body();
        let sphere = (rim * rim + rise * rise) / (2.0 * rise);
        let slices = heights(rise).map(|height| {
            let from_apex = rise - height;
            (1.0, from_apex * (2.0 * sphere - from_apex), height)
        });
        agrees(&body, sliced(slices));
    }

    #[test]
    fn a_cone_without_height_is_a_ring() {
        let flat = Shape::ConeSheet {
            foot: 0.2,
            top: 0.3,
            height: 0.0,
            sheet: 0.002,
        }
        .body();
        // The ring between the middle radii 0.201 and 0.301.
        let area = PI * (0.301_f64.powi(2) - 0.201_f64.powi(2));
        assert!((flat.volume - area * 0.002).abs() < 1e-12);
    }

    #[test]
    fn sheet_thicker_than_its_box_makes_a_block() {
        let boxed = Shape::BoxSheet {
            width: 0.1,
            depth: 0.2,
            height: 0.3,
            sheet: 0.06,
        }
        .body();
        let full = block(0.1, 0.2, 0.3);
        assert!((boxed.volume - full.volume).abs() < 1e-12);
        assert!((boxed.spread_z - full.spread_z).abs() < 1e-12);
    }
}
