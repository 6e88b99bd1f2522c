//! Which sections and lists of a design each chapter reads. After a change only those chapters are asked again that
//! read something of it; the others answer as before.
//!
//! `tests/whole/reads.rs` holds every declaration to that: it puts anything at all into whatever a chapter does not
//! read, and the chapter has to answer the same.

use super::{Assessment, Chapter, Heart};
use crate::design::Design;

/// Names of sections and lists.
type Names = &'static [&'static str];

/// What hearth, gas and shell are solved from. A hopper opens the lid.
const HEARTH: Names = &[
    "site",
    "fuel",
    "engine",
    "operation",
    "gas_making",
    "hearth",
    "hearth_wall",
    "body_wall",
    "hopper",
    "lid",
    "bottom",
    "hearth_layers",
    "body_layers",
    "lid_layers",
    "bottom_layers",
    "own_materials",
    "doubt",
];

/// What the way of the gas from hearth to engine is worked out from, besides the gas itself. A fan or a
/// pump among the loads moves the air or the water of its cooler while it is on.
const TRAIN: Names = &[
    "raw_gas",
    "grate",
    "blower",
    "blower_curve",
    "train",
    "limits",
    "loads",
];

/// What warms up besides the walls: grate and nozzle tubes, and which steel is the vessel.
const WARM_UP: Names = &["grate", "part_changes", "real_vessel", "holes"];

/// What the machine is laid out from and weighed by, which steel is there, and what its doors follow from.
const MACHINE: Names = &[
    "fuel",
    "hearth",
    "hearth_wall",
    "body_wall",
    "hopper",
    "grate",
    "base",
    "workshop",
    "hearth_layers",
    "body_layers",
    "lid_layers",
    "bottom_layers",
    "own_materials",
    "contacts",
    "parts",
    "flanges",
    "joints",
    "part_changes",
    "holes",
    "real_vessel",
];

impl Chapter {
    /// The sections and lists that its answers follow from, through the chapters before it as well.
    pub fn reads(self) -> impl Iterator<Item = &'static str> {
        let groups: &[Names] = match self {
            Chapter::Heart => &[HEARTH, &["measured", "real_vessel", "limits"]],
            Chapter::Engine => &[HEARTH, &["limits"]],
            Chapter::Standing => &[MACHINE, &["site", "limits"]],
            Chapter::Warmth => &[HEARTH, WARM_UP, &["limits"]],
            Chapter::Hearth => &[HEARTH, WARM_UP, &["limits"]],
            Chapter::Train => &[HEARTH, TRAIN],
            Chapter::Breath => &[HEARTH, TRAIN],
            Chapter::Electrics => {
                const ELECTRICS: Names = &["battery", "wiring", "battery_box"];
                &[HEARTH, TRAIN, ELECTRICS, WARM_UP]
            }
            Chapter::Marking => {
                const HOLES: Names = &["plan_vessel", "real_vessel", "holes", "limits"];
                const NOZZLES: Names = &["base", "hearth", "hearth_wall", "bottom_layers"];
                const SHELL: Names = &["hearth_layers", "body_wall", "body_layers"];
                const PIPES: Names = &["train", "flanges"];
                &[HOLES, NOZZLES, SHELL, PIPES]
            }
            Chapter::Workshop => &[MACHINE, &["train", "limits", "battery", "battery_box"]],
            Chapter::Leaks => {
                const TESTS: Names = &["joints", "leak_test", "readings", "shed"];
                &[HEARTH, TRAIN, TESTS, &["real_vessel"]]
            }
            Chapter::Order => {
                const STEPS: Names = &["workshop", "joints", "build_steps"];
                &[STEPS, &["train", "real_vessel"]]
            }
            Chapter::Cost => {
                const NEEDED: Names = &["lid", "bottom", "battery_box", "operation"];
                const TIME: Names = &["pace", "build_steps", "loads"];
                &[MACHINE, NEEDED, TIME, &["train", "cost", "cost_lines"]]
            }
        };
        names(groups)
    }

    /// Whether its answers follow from the input with this path.
    pub fn reads_input(self, path: &str) -> bool {
        let part = path.split('.').next().unwrap_or_default();
        self.reads().any(|name| name == part)
    }
}

fn names(groups: &'static [Names]) -> impl Iterator<Item = &'static str> {
    groups.iter().copied().flatten().copied()
}

/// What is known from the review of a design about one that came of it by a change.
pub(super) struct Known<'a> {
    assessment: &'a Assessment,
    /// Sections and lists that differ.
    changed: Vec<&'a str>,
}

impl<'a> Known<'a> {
    pub(super) fn new(before: &Design, assessment: &'a Assessment, after: &Design) -> Self {
        Self {
            assessment,
            changed: after.changed_since(before),
        }
    }

    /// What stays known of a design when anything may be put into the inputs with these paths.
    pub(super) fn but_for(
        assessment: &'a Assessment,
        paths: impl Iterator<Item = &'a str>,
    ) -> Self {
        let parts = paths.filter_map(|path| Some(path.split_once('.')?.0));
        let mut changed: Vec<&str> = parts.collect();
        changed.dedup();
        Self {
            assessment,
            changed,
        }
    }

    fn same(&self, mut reads: impl Iterator<Item = &'static str>) -> bool {
        !reads.any(|name| self.changed.contains(&name))
    }

    /// The assessment before, if it holds for this chapter.
    pub(super) fn about(&self, chapter: Chapter) -> Option<&'a Assessment> {
        self.same(chapter.reads()).then_some(self.assessment)
    }

    /// Hearth, gas and shell as solved before, if they are the same.
    pub(super) fn hearth(&self) -> Option<&'a Heart> {
        self.same(names(&[HEARTH]))
            .then_some(&self.assessment.heart)
    }
}
