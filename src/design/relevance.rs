//! Which inputs matter, given what was chosen: a straight fire tube has no throat to enter.

mod building;
mod marking;
mod train;

use super::document::Design;
use super::inputs::{
    AirRule, ContactKind, FlowSource, FuelKind, HearthKind, Layer, Material, Shape, Stance,
};

/// Inputs that matter only when something holds.
struct Rule {
    /// Section or list.
    head: &'static str,
    /// Inputs; all of them, and the list itself, when empty.
    names: &'static [&'static str],
    /// Whether they matter; gets the place in the list.
    matters: fn(&Design, Option<usize>) -> bool,
}

/// What is not named here always matters.
const RULES: &[Rule] = &[
    Rule {
        head: "hearth",
        names: &[
            "throat_diameter",
            "nozzle_ring_diameter",
            "below_throat_diameter",
            "nozzle_height",
            "reduction_height",
            "nozzle_count",
            "nozzle_bore",
            "nozzle_discharge",
            "straight_below_nozzles",
            "nozzle_material",
        ],
        matters: |design, _| constricted(design),
    },
    Rule {
        head: "hearth",
        names: &["tube_diameter", "tube_length", "engine_power", "top_open"],
        matters: |design, _| !constricted(design),
    },
    Rule {
        head: "hearth",
        names: &["engine_power"],
        matters: |design, _| !engine_draws(design),
    },
    Rule {
        head: "limits",
        names: &[
            "hearth_load_least",
            "hearth_load_most",
            "nozzle_velocity_least",
            "nozzle_velocity_most",
            "throat_per_piece",
            "piece_per_nozzle",
        ],
        matters: |design, _| constricted(design),
    },
    Rule {
        head: "fuel",
        names: &["carbon", "hydrogen", "oxygen", "nitrogen", "sulphur", "ash"],
        matters: |design, _| design.fuel.kind == FuelKind::Own,
    },
    Rule {
        head: "fuel",
        names: &["moisture"],
        matters: |design, _| !weighed(design),
    },
    Rule {
        head: "fuel",
        names: &["scale_step"],
        matters: |design, _| weighed(design),
    },
    Rule {
        head: "engine",
        names: &[
            "strokes",
            "displacement",
            "speed",
            "volumetric_efficiency",
            "compression_ratio",
            "brake_efficiency",
            "petrol_efficiency",
            "generator_efficiency",
            "intake_temperature",
            "wanted_power",
            "at_hand",
        ],
        matters: |design, _| engine_draws(design),
    },
    Rule {
        head: "engine",
        names: &["compression_ratio"],
        matters: |design, _| design.engine.brake_efficiency.is_none(),
    },
    Rule {
        head: "operation",
        names: &["full_gas_flow"],
        matters: |design, _| !engine_draws(design),
    },
    Rule {
        head: "gas_making",
        names: &["freeze_temperature"],
        matters: |design, _| design.gas_making.air_rule == AirRule::CharLimited,
    },
    Rule {
        head: "gas_making",
        names: &["equivalence_ratio"],
        matters: |design, _| design.gas_making.air_rule == AirRule::AirHeld,
    },
    Rule {
        head: "hopper",
        names: &[
            "diameter",
            "height",
            "cone_height",
            "wall_thickness",
            "fill_share",
        ],
        matters: |design, _| design.hopper.fitted,
    },
    Rule {
        head: "base",
        names: &["width", "depth"],
        matters: |design, _| design.base.stance != Stance::Points,
    },
    Rule {
        head: "contacts",
        names: &[],
        matters: |design, _| design.base.stance == Stance::Points,
    },
    Rule {
        head: "base",
        names: &[
            "wheel_diameter",
            "brakes",
            "rolling_resistance",
            "walking_speed",
            "kerb_height",
        ],
        matters: |design, _| wheels(design),
    },
    Rule {
        head: "base",
        names: &["swivel"],
        matters: |design, _| may_swivel(design),
    },
    Rule {
        head: "base",
        names: &["castor_trail"],
        matters: |design, _| may_swivel(design) && design.base.swivel,
    },
    Rule {
        head: "parts",
        names: &["mass"],
        matters: |design, place| of_shape(design, place, &[Shape::Weighed]),
    },
    Rule {
        head: "parts",
        names: &["material"],
        matters: |design, place| !of_shape(design, place, &[Shape::Weighed, Shape::BulkFill]),
    },
    Rule {
        head: "parts",
        names: &["density", "fill_share"],
        matters: |design, place| of_shape(design, place, &[Shape::BulkFill]),
    },
    Rule {
        head: "parts",
        names: &["diameter"],
        matters: |design, place| of_shape(design, place, ROUND),
    },
    Rule {
        head: "parts",
        names: &["second_diameter"],
        matters: |design, place| of_shape(design, place, &[Shape::Ring, Shape::Cone]),
    },
    Rule {
        head: "parts",
        names: &["width", "depth"],
        matters: |design, place| !of_shape(design, place, ROUND),
    },
    Rule {
        head: "parts",
        names: &["height"],
        matters: |design, place| !of_shape(design, place, &[Shape::Plate, Shape::Ring]),
    },
    Rule {
        head: "parts",
        names: &["thickness"],
        matters: |design, place| {
            !of_shape(
                design,
                place,
                &[Shape::Block, Shape::Weighed, Shape::BulkFill],
            )
        },
    },
    Rule {
        head: "battery_box",
        names: &["sheet_emittance"],
        matters: |design, _| design.battery_box.sheets > 0,
    },
];

/// Items that nothing uses yet. They bear on nothing, but are entered before they are chosen, so that the form keeps them
/// and their list open.
const NOT_USED_YET: &[Rule] = &[Rule {
    head: "own_materials",
    names: &[],
    matters: own_material_chosen,
}];

/// The rules of all parts of the machine.
fn rules() -> impl Iterator<Item = &'static Rule> {
    RULES
        .iter()
        .chain(train::RULES)
        .chain(marking::RULES)
        .chain(building::RULES)
}

const ROUND: &[Shape] = &[
    Shape::Tube,
    Shape::Ring,
    Shape::DishedEnd,
    Shape::Cone,
    Shape::BulkFill,
];

impl Design {
    /// Whether the input at this path, or the list of this name, matters given the choices made.
    /// A path that is not of this design never matters.
    ///
    /// ```
    /// use hearthplan::design::{Design, Value};
    /// let mut design = Design::default();
    /// assert!(design.in_use("hearth.throat_diameter"));
    /// design.set("hearth.kind", Value::Choice("straight".to_string())).unwrap();
    /// assert!(!design.in_use("hearth.throat_diameter"));
    /// ```
    pub fn in_use(&self, path: &str) -> bool {
        self.passes(path, rules().chain(NOT_USED_YET))
    }

    /// Whether the form asks for the input at this path, or shows the list of this name: all that is in use, and an item
    /// that nothing uses yet, since a person who adds it has to type it in first.
    ///
    /// ```
    /// use hearthplan::design::Design;
    /// let mut design = Design::default();
    /// design.insert_item("own_materials", 0);
    /// assert!(design.is_asked("own_materials.0.name") && !design.in_use("own_materials.0.name"));
    /// ```
    pub fn is_asked(&self, path: &str) -> bool {
        self.passes(path, rules())
    }

    /// Whether the path is of this design, and none of these rules says that it does not matter.
    fn passes(&self, path: &str, mut rules: impl Iterator<Item = &'static Rule>) -> bool {
        let mut steps = path.split('.');
        let head = steps.next().unwrap_or_default();
        let (place, name) = match (steps.next(), steps.next()) {
            (Some(place), Some(name)) => (place.parse().ok(), name),
            (name, _) => (None, name.unwrap_or_default()),
        };
        let known = if name.is_empty() {
            self.list(head).is_some()
        } else {
            self.input(path).is_some()
        };
        let speaks_of = |rule: &Rule| {
            rule.head == head && (rule.names.is_empty() || rule.names.contains(&name))
        };
        known && rules.all(|rule| !speaks_of(rule) || (rule.matters)(self, place))
    }
}

fn constricted(design: &Design) -> bool {
    design.hearth.kind == HearthKind::Constricted
}

fn engine_draws(design: &Design) -> bool {
    design.operation.flow_source == FlowSource::Engine
}

/// Both weighings are there, so they stand for the moisture.
fn weighed(design: &Design) -> bool {
    design.fuel.weighed_before.is_some() && design.fuel.weighed_after.is_some()
}

fn wheels(design: &Design) -> bool {
    match design.base.stance {
        Stance::Feet => false,
        Stance::TwoWheels | Stance::FourWheels => true,
        Stance::Points => design
            .contacts
            .iter()
            .any(|contact| contact.kind == ContactKind::Wheel),
    }
}

/// Of two wheels and two feet, the wheels are fixed.
fn may_swivel(design: &Design) -> bool {
    wheels(design) && design.base.stance != Stance::TwoWheels
}

fn of_shape(design: &Design, place: Option<usize>, shapes: &[Shape]) -> bool {
    place
        .and_then(|place| design.parts.get(place))
        .is_some_and(|part| shapes.contains(&part.shape))
}

/// Whether a layer or part is of the own material at this place, or of any.
fn own_material_chosen(design: &Design, place: Option<usize>) -> bool {
    let wanted: &[Material] = match place {
        Some(place) => Material::OWN.get(place..=place).unwrap_or_default(),
        None => &Material::OWN,
    };
    let chosen_in = |layers: &[Layer]| layers.iter().any(|layer| wanted.contains(&layer.material));
    chosen_in(&design.hearth_layers)
        || chosen_in(&design.body_layers)
        || chosen_in(&design.lid_layers)
        || chosen_in(&design.bottom_layers)
        || (design.flanges.iter()).any(|flange| wanted.contains(&flange.material))
        || design.parts.iter().any(|part| {
            wanted.contains(&part.material)
                && !matches!(part.shape, Shape::Weighed | Shape::BulkFill)
        })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Items as _;

    #[test]
    fn every_rule_names_inputs_that_exist() {
        let mut design = Design::default();
        design.parts.insert_new(0);
        design.build_steps.insert_new(0);
        design.holes.insert_new(0);
        for rule in rules().chain(NOT_USED_YET) {
            assert!(
                rule.names.iter().all(|name| {
                    design.input(&format!("{}.{name}", rule.head)).is_some()
                        || design.input(&format!("{}.0.{name}", rule.head)).is_some()
                }),
                "{} {:?}",
                rule.head,
                rule.names
            );
            assert!(!rule.names.is_empty() || design.list(rule.head).is_some());
        }
    }
}
