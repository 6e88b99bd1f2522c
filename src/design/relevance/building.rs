//! Which inputs of joints, order, leak tests and room matter.

use super::Rule;
use crate::design::Design;
use crate::design::inputs::{ClosedBy, PanelShape, StepKind};

/// The rules of joints, steps, leak test and room.
pub(super) const RULES: &[Rule] = &[
    Rule {
        head: "joints",
        names: &["closing_joint"],
        matters: |design, place| closed_by(design, place, ClosedBy::Joint),
    },
    Rule {
        head: "joints",
        names: &["closing_group"],
        matters: |design, place| closed_by(design, place, ClosedBy::Insulation),
    },
    Rule {
        head: "build_steps",
        names: &["joint"],
        matters: |design, place| !step_is(design, place, StepKind::CloseIn),
    },
    Rule {
        head: "build_steps",
        names: &["group"],
        matters: |design, place| !step_is(design, place, StepKind::Make),
    },
    Rule {
        head: "leak_test",
        names: &["panel_length"],
        matters: |design, _| design.leak_test.panel_shape == PanelShape::Rectangle,
    },
    Rule {
        head: "shed",
        names: &["volume", "air_changes", "stay"],
        matters: |design, _| design.shed.indoors,
    },
];

fn closed_by(design: &Design, place: Option<usize>, wanted: ClosedBy) -> bool {
    place
        .and_then(|place| design.joints.get(place))
        .is_some_and(|joint| joint.closed_by == wanted)
}

fn step_is(design: &Design, place: Option<usize>, kind: StepKind) -> bool {
    place
        .and_then(|place| design.build_steps.get(place))
        .is_some_and(|step| step.kind == kind)
}
