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

/// Cone of sheet, open at both ends. Diameters are those of the middle of the sheet, the wall is square to it; a top of
/// no diameter makes a point.
///
/// Pappus's rule, exact for this definition.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] if a length is out of range.
///
/// ```
/// use hearthplan::physics::solids::{cone_shell, tube};
/// // Equal diameters make a tube.
/// let (shell, straight) = (cone_shell(0.498, 0.498, 0.3, 0.002)?, tube(0.5, 0.002, 0.3)?);
/// assert!((shell.volume / straight.volume - 1.0).abs() < 1e-9);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn cone_shell(
    base_diameter: f64,
    top_diameter: f64,
    height: f64,
    wall: f64,
) -> Result<Body, PhysicsError> {
    let base = 0.5 * length_of("base diameter", base_diameter)?;
    let top = 0.5 * length_of("top diameter", top_diameter)?;
    let height = length_of("height", height)?;
    let wall = length_of("wall", wall)?;
    let slant = height.hypot(base - top);
    let both = base + top;
    let centroid_height = if both > 0.0 {
        height / 3.0 * (base + 2.0 * top) / both
    } else {
        0.5 * height
    };
    Ok(Body {
        volume: PI * both * slant * wall,
        centroid_height,
    })
}

/// Semi-elliptical 2:1 dished end of even sheet, bulging up, without a straight skirt.
///
/// Area and centroid of the middle surface, half an oblate spheroid whose depth is a quarter of its diameter, times the
/// wall; good to the square of wall over diameter.
///
/// # Errors
/// [`PhysicsError`] if a length is out of range or the wall is thicker than an eighth of the diameter.
///
/// ```
/// let end = hearthplan::physics::solids::dished_end(0.6, 0.004)?;
/// // The area of a 2:1 end is 1.084 times the square of its diameter.
/// assert!((end.volume / (1.084 * 0.596 * 0.596 * 0.004) - 1.0).abs() < 0.001);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn dished_end(outside_diameter: f64, wall: f64) -> Result<Body, PhysicsError> {
    let diameter = length_of("outside diameter", outside_diameter)?;
    let wall = within("wall", "m", wall, 0.0, 0.125 * diameter)?;
    let radius = 0.5 * (diameter - wall);
    let eccentricity = 0.75_f64.sqrt();
    let area = PI * radius * radius * (1.0 + 0.25 / eccentricity * eccentricity.atanh());
    // ∫ z dA over the half spheroid of depth c = a / 2 is (2/3) π a c (a³ − c³) / (a² − c²) = (7/18) π a³.
    let moment = 7.0 / 18.0 * PI * radius * radius * radius;
    Ok(Body {
        volume: area * wall,
        centroid_height: if area > 0.0 { moment / area } else { 0.0 },
    })
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

fn length_of(quantity: &'static str, value: f64) -> Result<f64, PhysicsError> {
    within(quantity, "m", value, 0.0, LONGEST)
}
