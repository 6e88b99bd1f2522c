//! The vessel: ends, walls, hearth, hopper, and what fills them.

use super::closures::drill;
use super::shapes::Shape;
use super::{HearthShape, Piece, Placing, Solid, Substance, density, metres};
use crate::design::Design;
use crate::design::inputs::{Group, HearthKind, Layer, Material, Presence};
use crate::sizing::fuel::bulk_density_of;
use crate::sizing::lid_joints::{lid_flange, tight_plate};
use crate::sizing::nozzle_tube::nozzle_tube;
use crate::sizing::pattern::grate_holes;
use crate::sizing::shell_there::{bore, widest_disc};
use std::f64::consts::PI;
use uom::si::f64::Length;

/// Bulk density of char between nozzles and grate, kg/m³. Common practice, no source.
const CHAR_DENSITY: f64 = 200.0;
/// The nozzle tubes.
pub(in crate::sizing) const NOZZLES: Piece = Piece::OfSection {
    section: "hearth",
    label: "Nozzles",
};

/// Main measures of the vessel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VesselShape {
    /// The axis, to the right of the middle of the base.
    pub x: Length,
    /// The axis, behind the middle of the base.
    pub y: Length,
    /// Underside of the bottom end above ground.
    pub underside: Length,
    /// Where the hearth band begins, above ground.
    pub hearth_bottom: Length,
    /// Where the hearth band ends and the body band begins.
    pub hearth_top: Length,
    /// Where the body band ends and the lid begins.
    pub body_top: Length,
    /// Top of the lid.
    pub lid_top: Length,
    /// Top of the hopper's cone; top of the lid when no hopper is fitted.
    pub hopper_cone_top: Length,
    /// Top of the hopper with its lid; top of the vessel's lid when no hopper is fitted.
    pub hopper_top: Length,
    /// Inside radius of the hearth band.
    pub hearth_inner_radius: Length,
    /// Outside radius of the hearth band and the bottom end.
    pub hearth_outer_radius: Length,
    /// Radius of the bottom's layers: those of a vessel that is there lie in its bore, by what was measured, with a clearance;
    /// its wall goes down around them.
    pub bottom_radius: Length,
    /// Inside radius of the body band.
    pub body_inner_radius: Length,
    /// Outside radius of the body band and the lid.
    pub body_outer_radius: Length,
    /// Inside radius of the lid: as wide as the foot of the hopper, whose wood falls through it; zero when none is fitted.
    pub lid_bore_radius: Length,
    /// Inside radius of the hopper's straight part.
    pub hopper_inner_radius: Length,
    /// Outside radius of the hopper's straight part.
    pub hopper_outer_radius: Length,
    /// Level of the wood in the filled hopper, above ground.
    pub fill_level: Length,
}

fn stack(layers: &[Layer]) -> f64 {
    layers.iter().map(|layer| layer.thickness.value).sum()
}

impl VesselShape {
    /// The measures that follow from a design.
    pub(in crate::sizing) fn of(design: &Design) -> Self {
        let underside = design.base.clearance.value;
        let hearth_bottom = underside + stack(&design.bottom_layers);
        let hearth_top = hearth_bottom + design.hearth_wall.height.value;
        let body_top = hearth_top + design.body_wall.height.value;
        let lid_top = body_top + stack(&design.lid_layers);
        let hearth_inner = 0.5 * design.hearth_wall.inside_diameter.value;
        let body_inner = 0.5 * design.body_wall.inside_diameter.value;
        let hearth_outer = hearth_inner + stack(&design.hearth_layers);
        // The tape knows the bore of a vessel that is there better than layers of the design, which may come out wider.
        let in_bore = bore(design).map(widest_disc);
        let hopper = &design.hopper;
        let hopper_inner = 0.5 * hopper.diameter.value;
        let (cone, straight, sheet) = if hopper.fitted {
            (
                hopper.cone_height.value,
                hopper.height.value,
                hopper.wall_thickness.value,
            )
        } else {
            (0.0, 0.0, 0.0)
        };
        let level = fill_level(
            body_inner,
            hopper_inner,
            cone,
            straight,
            hopper.fill_share.value,
        );
        Self {
            x: design.base.vessel_x,
            y: design.base.vessel_y,
            underside: metres(underside),
            hearth_bottom: metres(hearth_bottom),
            hearth_top: metres(hearth_top),
            body_top: metres(body_top),
            lid_top: metres(lid_top),
            hopper_cone_top: metres(lid_top + cone),
            hopper_top: metres(lid_top + cone + straight + sheet),
            hearth_inner_radius: metres(hearth_inner),
            hearth_outer_radius: metres(hearth_outer),
            bottom_radius: in_bore.map_or(metres(hearth_outer), |disc| 0.5 * disc),
            body_inner_radius: metres(body_inner),
            body_outer_radius: metres(body_inner + stack(&design.body_layers)),
            lid_bore_radius: metres(if hopper.fitted { body_inner } else { 0.0 }),
            hopper_inner_radius: metres(hopper_inner),
            hopper_outer_radius: metres(hopper_inner + hopper.wall_thickness.value),
            fill_level: metres(lid_top + level),
        }
    }
}

/// Level of a hopper's fill above the hopper's foot, m, when this share of its volume is full: the cone fills first.
/// In the cone, the volume up to a level is that of a frustum, whose cube root gives the level.
fn fill_level(foot: f64, radius: f64, cone: f64, straight: f64, share: f64) -> f64 {
    let cone_volume = PI * cone * (foot * foot + foot * radius + radius * radius) / 3.0;
    let section = PI * radius * radius;
    let volume = share * (cone_volume + section * straight);
    if volume >= cone_volume {
        cone + if section > 0.0 {
            (volume - cone_volume) / section
        } else {
            0.0
        }
    } else {
        let flare = (radius - foot) / cone;
        if flare.abs() < 1.0e-9 {
            volume / section
        } else {
            ((3.0 * flare * volume / PI + foot.powi(3)).cbrt() - foot) / flare
        }
    }
}

/// Adds ends, walls, hearth, hopper and what fills them.
pub(super) fn place(
    design: &Design,
    vessel: &VesselShape,
    hearth: &HearthShape,
    solids: &mut Vec<Solid>,
) {
    let hand = Hand { design, vessel };
    hand.ends_and_walls(solids);
    hand.hearth(hearth, solids);
    let wood = Placing {
        substance: Substance::Wood,
        presence: Presence::WhenFull,
        density: bulk_density_of(design).value,
        ..hand.of(
            "fuel",
            "Wood in the vessel",
            Group::Reactor,
            vessel.hearth_top,
        )
    };
    solids.push(wood.solid(&Shape::Cylinder {
        inner: 0.0,
        outer: vessel.body_inner_radius.value,
        height: design.body_wall.height.value,
    }));
    if design.hopper.fitted {
        hand.hopper(solids);
    }
}

/// Fire tube, cones, nozzles, grate, and what fills them, as if the hearth's band stood on the ground.
pub fn hearth_solids(design: &Design) -> Vec<Solid> {
    let vessel = VesselShape::of(design);
    let shape = HearthShape::of(design, Length::default());
    let mut solids = Vec::with_capacity(8);
    let hand = Hand {
        design,
        vessel: &vessel,
    };
    hand.hearth(&shape, &mut solids);
    solids
}

struct Hand<'a> {
    design: &'a Design,
    vessel: &'a VesselShape,
}

impl Hand<'_> {
    /// A steel piece on the vessel's axis that is always there.
    fn of(
        &self,
        section: &'static str,
        label: &'static str,
        group: Group,
        bottom: Length,
    ) -> Placing {
        Placing {
            piece: Piece::OfSection { section, label },
            group,
            substance: Substance::Material(Material::MildSteel),
            presence: Presence::Always,
            density: density(self.design, Material::MildSteel),
            x: self.vessel.x.value,
            y: self.vessel.y.value,
            bottom: bottom.value,
        }
    }

    fn layer(&self, list: &'static str, index: usize, layer: &Layer, bottom: f64) -> Placing {
        Placing {
            piece: Piece::Layer { list, index },
            substance: Substance::Material(layer.material),
            density: density(self.design, layer.material),
            ..self.of("", "", Group::Reactor, metres(bottom))
        }
    }

    fn ends_and_walls(&self, solids: &mut Vec<Solid>) {
        let vessel = self.vessel;
        let design = self.design;
        let plate = |[inner, outer]: [Length; 2], layer: &Layer| Shape::Cylinder {
            inner: inner.value,
            outer: outer.value,
            height: layer.thickness.value,
        };
        let mut level = vessel.hearth_bottom.value;
        for (index, layer) in design.bottom_layers.iter().enumerate() {
            level -= layer.thickness.value;
            solids.push(
                self.layer("bottom_layers", index, layer, level)
                    .solid(&plate([Length::default(), vessel.bottom_radius], layer)),
            );
        }
        let (wall_of_hearth, wall_of_body) = (&design.hearth_wall, &design.body_wall);
        let walls = [
            (
                "hearth_layers",
                &design.hearth_layers,
                (wall_of_hearth.inside_diameter, wall_of_hearth.height),
                vessel.hearth_bottom,
                match bore(design) {
                    Some(_) => vessel.underside,
                    None => vessel.hearth_bottom,
                },
            ),
            (
                "body_layers",
                &design.body_layers,
                (wall_of_body.inside_diameter, wall_of_body.height),
                vessel.hearth_top,
                vessel.hearth_top,
            ),
        ];
        for (list, layers, (inside, height), bottom, outermost) in walls {
            let mut inner = 0.5 * inside.value;
            for (index, layer) in layers.iter().enumerate() {
                let outer = inner + layer.thickness.value;
                let foot = match index + 1 == layers.len() {
                    true => outermost,
                    false => bottom,
                };
                solids.push(
                    self.layer(list, index, layer, foot.value)
                        .solid(&Shape::Cylinder {
                            inner,
                            outer,
                            height: (bottom - foot + height).value,
                        }),
                );
                inner = outer;
            }
        }
        // The plate that holds the gas is wider by gasket and bolts where it is bolted on.
        let bolted = lid_flange(design).zip(tight_plate(design));
        let mut level = vessel.body_top.value;
        for (index, layer) in design.lid_layers.iter().enumerate() {
            let of_it = bolted.filter(|(_, place)| *place == index);
            let outer = of_it.map_or(vessel.body_outer_radius, |(flange, _)| 0.5 * flange.outside);
            let mut solid = self
                .layer("lid_layers", index, layer, level)
                .solid(&plate([vessel.lid_bore_radius, outer], layer));
            if let Some((flange, _)) = of_it {
                let density = density(design, layer.material);
                drill(
                    &mut solid,
                    flange.bolts,
                    flange.hole,
                    layer.thickness,
                    density,
                );
            }
            solids.push(solid);
            level += layer.thickness.value;
        }
    }

    fn hearth(&self, shape: &HearthShape, solids: &mut Vec<Solid>) {
        let sheet = self.design.hearth.steel_thickness.value;
        let material = self.design.hearth.material.material();
        let steel = |label, bottom: Length| Placing {
            substance: Substance::Material(material),
            density: density(self.design, material),
            ..self.of("hearth", label, Group::Reactor, bottom)
        };
        let cone = |foot: Length, top: Length, height: Length| Shape::ConeSheet {
            foot: foot.value,
            top: top.value,
            height: height.value,
            sheet,
        };
        let char = |bottom: Length| Placing {
            substance: Substance::Char,
            presence: Presence::WhenFull,
            density: CHAR_DENSITY,
            ..self.of("hearth", "Char in the hearth", Group::Reactor, bottom)
        };
        let fill = |foot: Length, top: Length, height: Length| Shape::Frustum {
            foot: foot.value,
            top: top.value,
            height: height.value,
        };
        solids.push(self.grate(shape));
        let tube_height = shape.tube_top - shape.tube_foot;
        solids.push(steel("Fire tube", shape.tube_foot).solid(&cone(
            shape.tube_radius,
            shape.tube_radius,
            tube_height,
        )));
        if self.design.hearth.kind == HearthKind::Straight {
            solids.push(char(shape.grate).solid(&fill(
                shape.foot_radius,
                shape.tube_radius,
                tube_height,
            )));
            return;
        }
        let (above, below) = (shape.tube_foot - shape.throat, shape.throat - shape.grate);
        let (foot, throat, tube) = (shape.foot_radius, shape.throat_radius, shape.tube_radius);
        let wood = Placing {
            substance: Substance::Wood,
            presence: Presence::WhenFull,
            density: bulk_density_of(self.design).value,
            ..self.of(
                "fuel",
                "Wood in the fire tube",
                Group::Reactor,
                shape.nozzle_plane,
            )
        };
        solids.extend([
            steel("Cone above the throat", shape.throat).solid(&cone(throat, tube, above)),
            steel("Cone below the throat", shape.grate).solid(&cone(foot, throat, below)),
            self.nozzles(shape),
            char(shape.throat).solid(&fill(throat, tube, above)),
            char(shape.grate).solid(&fill(foot, throat, below)),
            wood.solid(&fill(tube, tube, shape.tube_top - shape.nozzle_plane)),
        ]);
        let straight = shape.nozzle_plane - shape.tube_foot;
        if straight > Length::default() {
            solids.push(char(shape.tube_foot).solid(&fill(tube, tube, straight)));
        }
    }

    /// The drilled plate under the char: as thick as the hearth's steel, for nobody is asked, and no wider than the vessel
    /// around it. Where its holes cannot be drilled it is plain.
    fn grate(&self, shape: &HearthShape) -> Solid {
        let plate = &self.design.grate;
        let thickness = self.design.hearth.steel_thickness;
        let outer = (0.5 * plate.diameter).min(self.vessel.hearth_inner_radius);
        let holes = grate_holes(plate).map_or(0, Iterator::count) as f64;
        let drilled = 0.25 * PI * holes * plate.hole.value * plate.hole.value;
        let material = plate.material.material();
        let mut grate = Placing {
            substance: Substance::Material(material),
            density: density(self.design, material),
            ..self.of("grate", "Grate", Group::Reactor, shape.grate - thickness)
        }
        .solid(&Shape::Cylinder {
            inner: 0.0,
            outer: outer.value,
            height: thickness.value,
        });
        let steel = (PI * outer.value * outer.value - drilled).max(0.0) * thickness.value;
        grate.mass = uom::si::f64::Mass::new::<uom::si::mass::kilogram>(
            steel * density(self.design, material),
        );
        grate
    }

    /// The nozzle tubes, as the ring they lie in: from the fire tube through lining and shell.
    fn nozzles(&self, shape: &HearthShape) -> Solid {
        let tube = nozzle_tube(self.design);
        let (inside, outside) = (tube.inside().value, tube.outside.value);
        let inner = shape.tube_radius.value;
        let outer = self.vessel.hearth_outer_radius.value.max(inner);
        let steel = 0.25 * PI * (outside * outside - inside * inside) * (outer - inner);
        let underside = shape.nozzle_plane - metres(0.5 * outside);
        let material = self.design.hearth.nozzle_material.material();
        let mut nozzles = Placing {
            piece: NOZZLES,
            substance: Substance::Material(material),
            density: density(self.design, material),
            ..self.of("", "", Group::Reactor, underside)
        }
        .solid(&Shape::Cylinder {
            inner,
            outer,
            height: outside,
        });
        nozzles.mass = uom::si::f64::Mass::new::<uom::si::mass::kilogram>(
            steel * f64::from(self.design.hearth.nozzle_count) * density(self.design, material),
        );
        nozzles
    }

    fn hopper(&self, solids: &mut Vec<Solid>) {
        let vessel = self.vessel;
        let hopper = &self.design.hopper;
        let sheet = hopper.wall_thickness.value;
        let (foot, inner, outer) = (
            vessel.body_inner_radius.value,
            vessel.hopper_inner_radius.value,
            vessel.hopper_outer_radius.value,
        );
        let steel = |label, bottom: Length| Placing {
            presence: Presence::WithHopper,
            ..self.of("hopper", label, Group::Hopper, bottom)
        };
        let wood = |bottom: Length| Placing {
            substance: Substance::Wood,
            presence: Presence::WhenFull,
            density: bulk_density_of(self.design).value,
            ..self.of("hopper", "Wood in the hopper", Group::Hopper, bottom)
        };
        let level = vessel.fill_level.value - vessel.lid_top.value;
        let cone = hopper.cone_height.value;
        let in_cone = level.min(cone);
        let wetted = if cone > 0.0 {
            foot + (inner - foot) * in_cone / cone
        } else {
            inner
        };
        solids.extend([
            steel("Hopper cone", vessel.lid_top).solid(&Shape::ConeSheet {
                foot,
                top: inner,
                height: cone,
                sheet,
            }),
            steel("Hopper", vessel.hopper_cone_top).solid(&Shape::Cylinder {
                inner,
                outer,
                height: hopper.height.value,
            }),
            steel("Hopper lid", vessel.hopper_top - metres(sheet)).solid(&Shape::Cylinder {
                inner: 0.0,
                outer,
                height: sheet,
            }),
            wood(vessel.lid_top).solid(&Shape::Frustum {
                foot,
                top: wetted,
                height: in_cone,
            }),
            wood(vessel.hopper_cone_top).solid(&Shape::Cylinder {
                inner: 0.0,
                outer: inner,
                height: (level - cone).max(0.0),
            }),
        ]);
    }
}
