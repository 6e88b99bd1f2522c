//! Volume and centroid of the plain bodies a machine is made of.
//!
//! Closed forms of solid geometry. Every body stands on its base with its axis upright; heights are above that base.
//! All lengths in m, 0 to 50 unless said otherwise.

use std::f64::consts::PI;

use super::error::{PhysicsError, within};

/// Greatest length accepted, m.
const LONGEST: f64 = 50.0;

/// Volume of a body and how high its centroid lies. Sideways the centroid is on the axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Body {
    /// Volume of material, m³.
    pub volume: f64,
    /// Centroid above the base, m.
    pub centroid_height: f64,
}

/// Place in space, m; `z` is up.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Place {
    /// To the right, m.
    pub x: f64,
    /// To the back, m.
    pub y: f64,
    /// Up, m.
    pub z: f64,
}

/// Mass with its centre.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Mass {
    /// Mass, kg.
    pub mass: f64,
    /// Centre of mass, m.
    pub centre: Place,
}

/// Total mass and common centre. `None` if the total is not a positive finite number.
///
/// ```
/// use hearthplan::physics::solids::{combined, Mass, Place};
/// let low = Mass { mass: 3.0, centre: Place { x: 0.0, y: 0.0, z: 0.0 } };
/// let high = Mass { mass: 1.0, centre: Place { x: 0.0, y: 0.0, z: 2.0 } };
/// assert_eq!(combined(&[low, high]).unwrap().centre.z, 0.5);
/// ```
pub fn combined(masses: &[Mass]) -> Option<Mass> {
    let mut sum = Mass::default();
    for part in masses {
        sum.mass += part.mass;
        sum.centre.x += part.mass * part.centre.x;
        sum.centre.y += part.mass * part.centre.y;
        sum.centre.z += part.mass * part.centre.z;
    }
    let centre = Place {
        x: sum.centre.x / sum.mass,
        y: sum.centre.y / sum.mass,
        z: sum.centre.z / sum.mass,
    };
    let sound = sum.mass > 0.0
        && [sum.mass, centre.x, centre.y, centre.z]
            .iter()
            .all(|v| v.is_finite());
    sound.then_some(Mass {
        mass: sum.mass,
        centre,
    })
}

/// Upright tube, open at both ends. A wall of half the diameter makes a solid bar.
///
/// # Errors
/// [`PhysicsError`] if a length is out of range or the wall is thicker than the radius.
///
/// ```
/// let tube = hearthplan::physics::solids::tube(0.3, 0.003, 1.0)?;
/// assert!((tube.volume - 0.002799).abs() < 1e-6);
/// assert_eq!(tube.centroid_height, 0.5);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn tube(outside_diameter: f64, wall: f64, length: f64) -> Result<Body, PhysicsError> {
    let diameter = length_of("outside diameter", outside_diameter)?;
    let wall = within("wall", "m", wall, 0.0, 0.5 * diameter)?;
    let length = length_of("length", length)?;
    Ok(Body {
        volume: PI * wall * (diameter - wall) * length,
        centroid_height: 0.5 * length,
    })
}

/// Flat ring, or a round plate if the inside diameter is zero, lying down.
///
/// # Errors
/// [`PhysicsError`] if a length is out of range or the hole is wider than the ring.
///
/// ```
/// let plate = hearthplan::physics::solids::ring(0.4, 0.0, 0.005)?;
/// assert!((plate.volume - 0.000628).abs() < 1e-6);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn ring(
    outside_diameter: f64,
    inside_diameter: f64,
    thickness: f64,
) -> Result<Body, PhysicsError> {
    let outside = length_of("outside diameter", outside_diameter)?;
    let inside = within("inside diameter", "m", inside_diameter, 0.0, outside)?;
    let thickness = length_of("thickness", thickness)?;
    Ok(Body {
        volume: 0.25 * PI * (outside - inside) * (outside + inside) * thickness,
        centroid_height: 0.5 * thickness,
    })
}

/// Solid block, or a rectangular plate.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] if a length is out of range.
///
/// ```
/// let block = hearthplan::physics::solids::block(0.2, 0.3, 0.1)?;
/// assert!((block.volume - 0.006).abs() < 1e-12);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn block(width: f64, depth: f64, height: f64) -> Result<Body, PhysicsError> {
    let width = length_of("width", width)?;
    let depth = length_of("depth", depth)?;
    let height = length_of("height", height)?;
    Ok(Body {
        volume: width * depth * height,
        centroid_height: 0.5 * height,
    })
}

/// Closed box of sheet, six walls of the same thickness; the sizes are outside sizes.
///
/// # Errors
/// [`PhysicsError`] if a length is out of range or the walls meet inside.
///
/// ```
/// let shell = hearthplan::physics::solids::box_shell(1.0, 1.0, 1.0, 0.01)?;
/// assert!((shell.volume - (1.0 - 0.98_f64.powi(3))).abs() < 1e-12);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn box_shell(width: f64, depth: f64, height: f64, wall: f64) -> Result<Body, PhysicsError> {
    let outer = block(width, depth, height)?;
    let wall = within("wall", "m", wall, 0.0, 0.5 * width.min(depth).min(height))?;
    let inner = block(width - 2.0 * wall, depth - 2.0 * wall, height - 2.0 * wall)?;
    Ok(Body {
        volume: outer.volume - inner.volume,
        centroid_height: 0.5 * height,
    })
}

/// Full cone cut level at both ends, solid: the base on the ground, the top at `height`. Either diameter may be zero.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] if a length is out of range.
///
/// ```
/// let cone = hearthplan::physics::solids::cone(2.0, 0.0, 4.0)?;
/// assert!((cone.volume - 4.18879).abs() < 1e-5);
/// assert_eq!(cone.centroid_height, 1.0);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn cone(base_diameter: f64, top_diameter: f64, height: f64) -> Result<Body, PhysicsError> {
    let base = 0.5 * length_of("base diameter", base_diameter)?;
    let top = 0.5 * length_of("top diameter", top_diameter)?;
    let height = length_of("height", height)?;
    let squares = base * base + base * top + top * top;
    let moments = base * base + 2.0 * base * top + 3.0 * top * top;
    let centroid_height = if squares > 0.0 {
        0.25 * height * moments / squares
    } else {
        0.5 * height
    };
    Ok(Body {
        volume: PI / 3.0 * height * squares,
        centroid_height,
    })
}

/// Cone of sheet, open at both ends; outside diameters, thickness square to the sheet.
///
/// The inside is taken as a cone smaller by the wall's level width, so joints with other cones or tubes fit.
///
/// # Errors
/// [`PhysicsError`] if a length is out of range or the wall fills an end.
///
/// ```
/// use hearthplan::physics::solids::{cone_shell, tube};
/// // Equal diameters make a tube.
/// let (shell, straight) = (cone_shell(0.5, 0.5, 0.3, 0.002)?, tube(0.5, 0.002, 0.3)?);
/// assert!((shell.volume / straight.volume - 1.0).abs() < 1e-9);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn cone_shell(
    base_diameter: f64,
    top_diameter: f64,
    height: f64,
    wall: f64,
) -> Result<Body, PhysicsError> {
    let outer = cone(base_diameter, top_diameter, height)?;
    let height = within("height", "m", height, 1e-6, LONGEST)?;
    let narrow = base_diameter.min(top_diameter);
    let slope = 0.5 * (base_diameter - top_diameter) / height;
    let level_width = length_of("wall", wall)? * (1.0 + slope * slope).sqrt();
    within(
        "level width of the wall",
        "m",
        level_width,
        0.0,
        0.5 * narrow,
    )?;
    let inner = cone(
        base_diameter - 2.0 * level_width,
        top_diameter - 2.0 * level_width,
        height,
    )?;
    Ok(difference(outer, inner))
}

/// Semi-elliptical 2:1 dished end of sheet, bulging up, without a straight skirt.
///
/// Outside depth is a quarter of the outside diameter; the inside is an ellipsoid smaller by the wall all round, which
/// for thin sheet differs from an even wall by less than the sheet's own tolerance.
///
/// # Errors
/// [`PhysicsError`] if a length is out of range or the wall is thicker than the depth.
///
/// ```
/// let end = hearthplan::physics::solids::dished_end(0.6, 0.004)?;
/// // A 2:1 end of this size has an area near 1.084 times the diameter squared.
/// assert!((end.volume / (1.084 * 0.36 * 0.004) - 1.0).abs() < 0.02);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn dished_end(outside_diameter: f64, wall: f64) -> Result<Body, PhysicsError> {
    let diameter = length_of("outside diameter", outside_diameter)?;
    let wall = within("wall", "m", wall, 0.0, 0.25 * diameter)?;
    let outer = half_spheroid(0.5 * diameter, 0.25 * diameter);
    let inner = half_spheroid(0.5 * diameter - wall, 0.25 * diameter - wall);
    Ok(difference(outer, inner))
}

/// Bulk fill of an upright round vessel: a cylinder filled to `depth` above a cone that narrows downward.
///
/// `cone_height` may be zero. `outlet_diameter` is the small end of the cone; heights count from it.
///
/// # Errors
/// [`PhysicsError`] if a length is out of range or the outlet is wider than the vessel.
///
/// ```
/// let fuel = hearthplan::physics::solids::bulk_fill(0.5, 0.6, 0.1, 0.2)?;
/// assert!(fuel.volume > 0.117 && fuel.centroid_height > 0.2);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn bulk_fill(
    diameter: f64,
    depth: f64,
    outlet_diameter: f64,
    cone_height: f64,
) -> Result<Body, PhysicsError> {
    let diameter = length_of("vessel diameter", diameter)?;
    let outlet = within("outlet diameter", "m", outlet_diameter, 0.0, diameter)?;
    let below = cone(outlet, diameter, cone_height)?;
    let above = cone(diameter, diameter, length_of("depth of fill", depth)?)?;
    let volume = below.volume + above.volume;
    let moment =
        below.volume * below.centroid_height + above.volume * (cone_height + above.centroid_height);
    let centroid_height = if volume > 0.0 { moment / volume } else { 0.0 };
    Ok(Body {
        volume,
        centroid_height,
    })
}

/// Upper half of an ellipsoid of revolution standing on its flat side.
fn half_spheroid(radius: f64, rise: f64) -> Body {
    Body {
        volume: 2.0 / 3.0 * PI * radius * radius * rise,
        centroid_height: 0.375 * rise,
    }
}

/// `outer` with `inner` taken out; both stand on the same level.
fn difference(outer: Body, inner: Body) -> Body {
    let volume = outer.volume - inner.volume;
    let moment = outer.volume * outer.centroid_height - inner.volume * inner.centroid_height;
    // A wall of no thickness leaves nothing to divide by; the outer centroid is as good as any for no mass.
    let centroid_height = if volume > 1e-12 * outer.volume {
        moment / volume
    } else {
        outer.centroid_height
    };
    Body {
        volume: volume.max(0.0),
        centroid_height,
    }
}

fn length_of(quantity: &'static str, value: f64) -> Result<f64, PhysicsError> {
    within(quantity, "m", value, 0.0, LONGEST)
}
