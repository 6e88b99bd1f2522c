//! Which inputs of joints, order, leak tests and room matter.

use super::Rule;
use crate::design::Design;
use crate::design::inputs::{ClosedBy, Joint, JointKind, JointState, PanelShape, Stands, StepKind};

/// The rules of joints, steps, leak test and room.
pub(super) const RULES: &[Rule] = &[
    Rule {
        head: "joints",
        names: &["closing_joint"],
        matters: |design, place| closed_by(design, place, ClosedBy::Joint),
    },
    Rule {
        head: "joints",
        names: &["closing_group", "closed_in"],
        matters: |design, place| closed_by(design, place, ClosedBy::Insulation),
    },
    Rule {
        head: "joints",
        names: &["signed", "made_sizes"],
        matters: |design, place| in_joints(design, place, |joint| joint.state != JointState::Open),
    },
    Rule {
        head: "joints",
        names: &["bolt", "bolt_length", "weighed"],
        matters: |design, place| {
            in_joints(design, place, |joint| {
                joint.bolts > 0 && joint.kind != JointKind::Welded
            })
        },
    },
    Rule {
        head: "joints",
        names: &["gasket_width", "gasket_thickness"],
        matters: |design, place| in_joints(design, place, Joint::has_gasket),
    },
    Rule {
        head: "workshop",
        names: &["gasket_density"],
        matters: |design, _| design.joints.iter().any(Joint::has_gasket),
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
        matters: |design, _| design.shed.is_closed() == Some(true),
    },
    Rule {
        head: "shed",
        names: &["indoors"],
        matters: |design, _| design.shed.stands == Stands::NotTold,
    },
];

fn in_joints(design: &Design, place: Option<usize>, holds: impl Fn(&Joint) -> bool) -> bool {
    place
        .and_then(|place| design.joints.get(place))
        .is_some_and(holds)
}

fn closed_by(design: &Design, place: Option<usize>, wanted: ClosedBy) -> bool {
    in_joints(design, place, |joint| joint.closed_by == wanted)
}

fn step_is(design: &Design, place: Option<usize>, kind: StepKind) -> bool {
    place
        .and_then(|place| design.build_steps.get(place))
        .is_some_and(|step| step.kind == kind)
}
