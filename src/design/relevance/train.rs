//! Which inputs of a stage of the gas train matter, given its kind.

use super::Rule;
use crate::design::document::Design;
use crate::design::inputs::{CoolerType, Cover, FilterMedium, StageKind, TrainStage};
use uom::si::f64::Length;

pub(super) const RULES: &[Rule] = &[
    Rule {
        head: "train",
        names: &["bore"],
        matters: |design, place| in_train(design, place, TrainStage::has_bore),
    },
    Rule {
        head: "train",
        names: &["cover"],
        matters: |design, place| of_stage(design, place, HOLLOW),
    },
    Rule {
        head: "train",
        names: &["guarded"],
        matters: |design, place| in_train(design, place, TrainStage::may_be_guarded),
    },
    Rule {
        head: "train",
        names: &["insulation", "insulation_conductivity"],
        matters: |design, place| {
            of_stage(design, place, HOLLOW)
                && in_train(design, place, |stage| stage.cover == Cover::Insulated)
        },
    },
    Rule {
        head: "train",
        names: &["wall"],
        matters: |design, place| of_stage(design, place, HOLLOW),
    },
    Rule {
        head: "train",
        names: &["weighed"],
        matters: |design, place| !of_stage(design, place, BOUGHT),
    },
    Rule {
        head: "train",
        names: &["own_weight"],
        matters: |design, place| of_stage(design, place, BOUGHT),
    },
    Rule {
        head: "train",
        names: &["vessel_diameter", "vessel_height"],
        matters: |design, place| {
            of_stage(design, place, &[StageKind::Trap])
                || filtered_by(design, place, FilterMedium::Cloth)
        },
    },
    Rule {
        head: "train",
        names: &["length", "roughness", "elbows", "bends", "tees", "valves"],
        matters: |design, place| of_stage(design, place, &[StageKind::Pipe]),
    },
    Rule {
        head: "train",
        names: &["other_loss"],
        matters: |design, place| {
            of_stage(
                design,
                place,
                &[StageKind::Pipe, StageKind::Trap, StageKind::Blower],
            )
        },
    },
    Rule {
        head: "train",
        names: &["lie"],
        matters: |design, place| of_stage(design, place, &[StageKind::Pipe, StageKind::Cooler]),
    },
    Rule {
        head: "train",
        names: &["family", "body_diameter", "grain_density"],
        matters: |design, place| of_stage(design, place, &[StageKind::Cyclone]),
    },
    Rule {
        head: "train",
        names: &[
            "cooling",
            "tubes",
            "tube_length",
            "tube_bore",
            "tube_wall",
            "tube_material",
            "header_loss",
        ],
        matters: |design, place| of_stage(design, place, &[StageKind::Cooler]),
    },
    Rule {
        head: "train",
        names: &["emittance", "tube_rows", "tube_spacing"],
        matters: |design, place| {
            cooled_by(
                design,
                place,
                &[
                    CoolerType::Bare,
                    CoolerType::Finned,
                    CoolerType::Fan,
                    CoolerType::FinnedFan,
                ],
            )
        },
    },
    Rule {
        head: "train",
        names: &[
            "fin_diameter",
            "fin_thickness",
            "fin_pitch",
            "fin_conductivity",
        ],
        matters: |design, place| {
            cooled_by(design, place, &[CoolerType::Finned, CoolerType::FinnedFan])
        },
    },
    Rule {
        head: "train",
        names: &["air_speed"],
        matters: |design, place| {
            cooled_by(design, place, &[CoolerType::Fan, CoolerType::FinnedFan])
        },
    },
    Rule {
        head: "train",
        names: &["water_temperature", "water_flow", "water_coefficient"],
        matters: |design, place| cooled_by(design, place, &[CoolerType::Water]),
    },
    Rule {
        head: "train",
        names: &["capacity", "separation"],
        matters: |design, place| of_stage(design, place, &[StageKind::Trap]),
    },
    Rule {
        head: "train",
        names: &["medium", "catches", "dust_capacity", "medium_limit"],
        matters: |design, place| of_stage(design, place, &[StageKind::Filter]),
    },
    Rule {
        head: "train",
        names: &[
            "filter_diameter",
            "filter_depth",
            "filter_piece",
            "filter_voids",
            "bed_density",
            "dirty_factor",
            "may_be_wet",
        ],
        matters: |design, place| filtered_by(design, place, FilterMedium::Packed),
    },
    Rule {
        head: "train",
        names: &["cloth_area", "cloth_loss", "cake_loss"],
        matters: |design, place| filtered_by(design, place, FilterMedium::Cloth),
    },
    Rule {
        head: "train",
        names: &[
            "measured_loss",
            "measured_dirty",
            "measured_linear",
            "leaves_at",
        ],
        matters: |design, place| of_stage(design, place, &[StageKind::Measured]),
    },
];

/// Stages with a wall of their own that gives off heat.
const HOLLOW: &[StageKind] = &[
    StageKind::Pipe,
    StageKind::Cyclone,
    StageKind::Trap,
    StageKind::Filter,
];

/// Stages that are bought whole: their weight is entered.
const BOUGHT: &[StageKind] = &[StageKind::Blower, StageKind::Measured];

/// Stages whose gas passes a pipe end of the bore that is entered.
const PIPED: &[StageKind] = &[StageKind::Pipe, StageKind::Trap, StageKind::Blower];

impl TrainStage {
    /// Whether it has a wall of its own that gives off heat, and that can be covered.
    pub(crate) fn gives_off_heat(&self) -> bool {
        HOLLOW.contains(&self.kind)
    }

    /// Whether it is reckoned how hot it gets outside, so that a guard bears on an answer.
    pub(crate) fn may_be_guarded(&self) -> bool {
        self.gives_off_heat() || self.kind == StageKind::Cooler
    }

    /// Whether its gas passes a pipe end of the bore that is entered.
    pub(crate) fn has_bore(&self) -> bool {
        PIPED.contains(&self.kind)
    }
}

impl Design {
    /// Bore of the gas train at a place between its stages: that of the nearest stage that has one, rather of one before
    /// it than behind. None where no stage has one.
    pub(crate) fn bore_at(&self, index: usize) -> Option<Length> {
        let (before, behind) = self.train.split_at(index.min(self.train.len()));
        let nearest = (before.iter().rev().chain(behind)).find(|stage| stage.has_bore());
        nearest.map(|stage| stage.bore)
    }

    /// Inserts a stage of this kind into the gas train. Pipe is seldom bought in two sizes, so that it gets the bore of
    /// the line.
    pub fn insert_stage(&mut self, index: usize, kind: StageKind) {
        let bore = self.bore_at(index);
        let place = index.min(self.train.len());
        self.insert_item("train", place);
        if let Some(stage) = self.train.get_mut(place) {
            stage.kind = kind;
            stage.bore = bore.unwrap_or(stage.bore);
        }
    }
}

fn in_train(design: &Design, place: Option<usize>, holds: impl Fn(&TrainStage) -> bool) -> bool {
    place
        .and_then(|place| design.train.get(place))
        .is_some_and(holds)
}

fn of_stage(design: &Design, place: Option<usize>, kinds: &[StageKind]) -> bool {
    in_train(design, place, |stage| kinds.contains(&stage.kind))
}

fn cooled_by(design: &Design, place: Option<usize>, coolings: &[CoolerType]) -> bool {
    in_train(design, place, |stage| {
        stage.kind == StageKind::Cooler && coolings.contains(&stage.cooling)
    })
}

fn filtered_by(design: &Design, place: Option<usize>, medium: FilterMedium) -> bool {
    in_train(design, place, |stage| {
        stage.kind == StageKind::Filter && stage.medium == medium
    })
}
