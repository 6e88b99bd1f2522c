//! A wall built of layers: solids and still-air gaps on a cylinder or a flat face.
//!
//! Method as in ASTM C680 and ISO 12241: steady heat flow in one direction, concentric cylinders or flat layers, the
//! flow across a gap by still-air conduction and radiation. No end effects, no contact resistance. Air in a wide gap
//! moves and carries more heat than still air does: keep gaps to about 25 mm or take the result as a lower bound.

use std::f64::consts::TAU;

use super::conductivity::ConductivityCurve;
use super::convection::Surface;
use super::error::{PhysicsError, within};
use super::radiation;

/// Most layers a stack can hold.
pub const MOST_LAYERS: usize = 16;

/// One layer of a wall, from the hot side outward.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Layer {
    /// Solid material.
    Solid {
        /// Thickness, m, 1e-6 to 5.
        thickness: f64,
        /// Conductivity against temperature.
        conductivity: ConductivityCurve,
    },
    /// Gap of still air, with radiation across it. If it is outermost, it is taken to be closed by a skin too thin to
    /// matter.
    StillAir {
        /// Width, m, 1e-6 to 5.
        thickness: f64,
        /// Emittance of the face on the hot side, 0 to 1.
        emittance_inside: f64,
        /// Emittance of the face on the cold side, 0 to 1.
        emittance_outside: f64,
    },
}

impl Layer {
    /// Thickness, m.
    pub fn thickness(&self) -> f64 {
        match self {
            Layer::Solid { thickness, .. } | Layer::StillAir { thickness, .. } => *thickness,
        }
    }
}

/// Which way a flat face looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Facing {
    /// Seen from above: a lid.
    Up,
    /// Seen from below: a bottom.
    Down,
    /// Upright wall.
    Sideways,
}

/// Form of the wall the layers lie on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    /// Upright cylinder; layers lie around it.
    Cylinder {
        /// Radius of the hot face, m, 1e-4 to 20.
        inner_radius: f64,
        /// Length, m, 0.001 to 50; also the height for the air outside.
        length: f64,
    },
    /// Flat or slightly dished face.
    Flat {
        /// Area through which heat flows, m², 1e-6 to 1000.
        area: f64,
        /// Diameter or side of the outline, m, 0.001 to 50; the height if it faces sideways.
        side: f64,
        /// Which way it faces.
        facing: Facing,
    },
}

impl Shape {
    /// Flat round disc of `diameter` in m.
    ///
    /// ```
    /// use hearthplan::physics::layers::{Facing, Shape};
    /// let Shape::Flat { area, .. } = Shape::disc(0.4, Facing::Up) else { unreachable!() };
    /// assert!((area - 0.12566).abs() < 1e-5);
    /// ```
    pub fn disc(diameter: f64, facing: Facing) -> Shape {
        Shape::Flat {
            area: TAU / 8.0 * diameter * diameter,
            side: diameter,
            facing,
        }
    }

    /// Flat ring open by `bore` in a disc of `diameter`, both in m; open to its edge, it still has a square millimetre.
    /// The air outside sees the outline of the disc.
    ///
    /// ```
    /// use hearthplan::physics::layers::{Facing, Shape};
    /// let Shape::Flat { area, .. } = Shape::ring(0.4, 0.3, Facing::Up) else { unreachable!() };
    /// assert!((area - 0.05498).abs() < 1e-5);
    /// ```
    pub fn ring(diameter: f64, bore: f64, facing: Facing) -> Shape {
        Shape::Flat {
            area: (TAU / 8.0 * (diameter * diameter - bore * bore)).max(1e-6),
            side: diameter,
            facing,
        }
    }

    /// Area, m², at `depth` in m from the hot face.
    pub fn area_at(&self, depth: f64) -> f64 {
        match *self {
            Shape::Cylinder {
                inner_radius,
                length,
            } => TAU * (inner_radius + depth) * length,
            Shape::Flat { area, .. } => area,
        }
    }

    /// Volume, m³, between two depths in m from the hot face.
    pub fn volume_between(&self, inner_depth: f64, outer_depth: f64) -> f64 {
        // A cylinder's area rises in a straight line, so the area half way is the exact mean for both shapes.
        (outer_depth - inner_depth) * self.area_at(0.5 * (inner_depth + outer_depth))
    }

    /// Heat flow, W, between two depths in m from the hot face for a conductivity integral of 1 W/m.
    pub fn conduction_factor(&self, inner_depth: f64, outer_depth: f64) -> f64 {
        match *self {
            Shape::Cylinder {
                inner_radius,
                length,
            } => {
                let growth = (outer_depth - inner_depth) / (inner_radius + inner_depth);
                TAU * length / growth.ln_1p()
            }
            Shape::Flat { area, .. } => area / (outer_depth - inner_depth),
        }
    }

    /// Outside surface as the air sees it when the wall is `thickness` in m thick.
    pub fn outside_surface(&self, thickness: f64) -> Surface {
        match *self {
            Shape::Cylinder {
                inner_radius,
                length,
            } => Surface::VerticalCylinder {
                height: length,
                diameter: 2.0 * (inner_radius + thickness),
            },
            Shape::Flat { side, facing, .. } => match facing {
                Facing::Up => Surface::FacingUp { side },
                Facing::Down => Surface::FacingDown { side },
                Facing::Sideways => Surface::VerticalPlate { height: side },
            },
        }
    }

    fn check(&self) -> Result<(), PhysicsError> {
        match *self {
            Shape::Cylinder {
                inner_radius,
                length,
            } => {
                within("radius of the hot face", "m", inner_radius, 1e-4, 20.0)?;
                within("length of the cylinder", "m", length, 1e-3, 50.0)?;
            }
            Shape::Flat { area, side, .. } => {
                within("area of the face", "m²", area, 1e-6, 1000.0)?;
                within("side of the face", "m", side, 1e-3, 50.0)?;
            }
        }
        Ok(())
    }
}

/// How heat gets through one layer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Path {
    /// Flow = `factor` × difference of the curve's integral.
    Solid {
        curve: ConductivityCurve,
        factor: f64,
    },
    /// Flow = `factor` × difference of the air integral + `radiation` × difference of T⁴.
    StillAir {
        factor: f64,
        /// W/K⁴.
        radiation: f64,
    },
}

/// Layers on a shape, checked and ready for the solvers.
#[derive(Debug, Clone, PartialEq)]
pub struct Stack {
    shape: Shape,
    layers: Vec<Layer>,
    paths: Vec<Path>,
    thickness: f64,
}

impl Stack {
    /// Puts `layers`, hot side first, on `shape`.
    ///
    /// No layers at all is allowed: the hot face is then the outside surface.
    ///
    /// # Errors
    /// [`PhysicsError`] if a dimension or emittance is out of range or there are more than [`MOST_LAYERS`] layers.
    ///
    /// ```
    /// use hearthplan::physics::conductivity::ConductivityCurve;
    /// use hearthplan::physics::layers::{Layer, Shape, Stack};
    /// let shape = Shape::Cylinder { inner_radius: 0.15, length: 0.5 };
    /// let wool = Layer::Solid { thickness: 0.05, conductivity: ConductivityCurve::constant(0.06)? };
    /// let stack = Stack::new(shape, &[wool])?;
    /// assert!((stack.thickness() - 0.05).abs() < 1e-12);
    /// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
    /// ```
    pub fn new(shape: Shape, layers: &[Layer]) -> Result<Stack, PhysicsError> {
        shape.check()?;
        if layers.len() > MOST_LAYERS {
            return Err(PhysicsError::Impossible {
                quantity: "stack of layers",
                reason: "it has more than sixteen layers",
            });
        }
        let mut paths = Vec::with_capacity(layers.len());
        let mut depth = 0.0;
        for layer in layers {
            let thickness = within("thickness of a layer", "m", layer.thickness(), 1e-6, 5.0)?;
            let outer = depth + thickness;
            let factor = shape.conduction_factor(depth, outer);
            paths.push(match *layer {
                Layer::Solid { conductivity, .. } => Path::Solid {
                    curve: conductivity,
                    factor,
                },
                Layer::StillAir {
                    emittance_inside,
                    emittance_outside,
                    ..
                } => {
                    within("emittance of a gap", "", emittance_inside, 0.0, 1.0)?;
                    within("emittance of a gap", "", emittance_outside, 0.0, 1.0)?;
                    let inner_area = shape.area_at(depth);
                    let exchange = radiation::concentric_cylinders(
                        emittance_inside,
                        emittance_outside,
                        inner_area / shape.area_at(outer),
                    );
                    Path::StillAir {
                        factor,
                        radiation: radiation::STEFAN_BOLTZMANN * exchange * inner_area,
                    }
                }
            });
            depth = outer;
        }
        Ok(Stack {
            shape,
            layers: layers.to_vec(),
            paths,
            thickness: depth,
        })
    }

    /// Shape the layers lie on.
    pub fn shape(&self) -> Shape {
        self.shape
    }

    /// Layers, hot side first.
    pub fn layers(&self) -> &[Layer] {
        &self.layers
    }

    /// Thickness of all layers together, m.
    pub fn thickness(&self) -> f64 {
        self.thickness
    }

    /// Area of the hot face, m².
    pub fn inner_area(&self) -> f64 {
        self.shape.area_at(0.0)
    }

    /// Area of the outside surface, m².
    pub fn outer_area(&self) -> f64 {
        self.shape.area_at(self.thickness)
    }

    pub(crate) fn paths(&self) -> &[Path] {
        &self.paths
    }
}
