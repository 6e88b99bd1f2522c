//! Parts, lifting, and what comes apart.

mod as_made;
mod battery_weight;
mod lifting;
mod one_lump;
mod stand_ins;
mod train_weight;
mod tubes;

pub use as_made::told_apart;
pub(super) use train_weight::TRAIN_WEIGHT;
pub use train_weight::TrainWeight;

use super::finding::{Finding, NamedResult};
use crate::design::phrase::Measure;
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice, Design};
use crate::sizing::as_made::{MadeOtherwise, made_otherwise};
use crate::sizing::machine::Machine;
use crate::sizing::parts_list::{PartLine, parts_list};
use crate::sizing::sub_assemblies::{SubAssembly, TakingApart, sub_assemblies, taking_apart};

/// Parts, lifting, and what comes apart.
#[derive(Debug, Clone, PartialEq)]
pub struct WorkshopReview {
    /// The parts list.
    pub parts: Vec<PartLine>,
    /// What the stages of the gas train weigh, by sub-assembly.
    pub train_weights: Vec<TrainWeight>,
    /// What each sub-assembly weighs, and which needs a hoist.
    pub sub_assemblies: Vec<SubAssembly>,
    /// Which joints open, and which sub-assemblies no longer come apart.
    pub apart: TakingApart,
    /// Parts that the design has otherwise than when their joint was ticked.
    pub otherwise: Vec<MadeOtherwise>,
}

impl WorkshopReview {
    /// The computed numbers with their stable names.
    pub fn results(&self) -> Vec<NamedResult> {
        let result = |name: &str, label: String, measure: Measure| {
            NamedResult::new(format!("workshop.{name}"), label, measure)
        };
        let count = |count: usize| Measure::new(Q::Count, count as f64);
        let changed = self.parts.iter().filter(|part| part.changed()).count();
        let mut results = vec![
            result(
                "part_lines",
                "Lines of the parts list".into(),
                count(self.parts.len()),
            ),
            result(
                "changed_lines",
                "Lines changed by hand".into(),
                count(changed),
            ),
        ];
        results.extend(self.train_weights.iter().map(|one| {
            let (name, label) = (one.group.name(), one.group.label());
            result(
                &format!("train_mass_{name}"),
                format!("Weight of the gas train, {label}"),
                mass(one.computed.value),
            )
        }));
        results.extend(self.sub_assemblies.iter().filter_map(|one| {
            let (name, label) = (one.group.name(), one.group.label());
            Some(result(
                &format!("people_for_{name}"),
                format!("People to lift {label}"),
                Measure::new(Q::Count, f64::from(one.people?)),
            ))
        }));
        results
    }
}

/// Puts a design through the questions of this chapter.
pub(super) fn examine(design: &Design, machine: &Machine) -> (WorkshopReview, Vec<Finding>) {
    let parts = parts(design, machine);
    let workshop = WorkshopReview {
        train_weights: train_weight::train_weights(design, &parts, machine),
        sub_assemblies: sub_assemblies(machine, design.workshop.lifters, design.limits.lift_mass),
        apart: taking_apart(design),
        otherwise: made_otherwise(design, machine, &parts),
        parts,
    };
    let asked = [
        lifting::lifting(design, &workshop),
        train_weight::train_weight(design, machine, &workshop),
        one_lump::one_lump(design, &workshop.apart),
    ];
    let findings = (asked.into_iter())
        .chain(tubes::fit(design, machine))
        .chain(battery_weight::battery_weight(design))
        .chain(as_made::as_drawn(design, &workshop.otherwise))
        .collect();
    (workshop, findings)
}

/// The parts list of a design, for searches that ask many times.
pub(super) fn parts(design: &Design, machine: &Machine) -> Vec<PartLine> {
    parts_list(design, machine)
}

fn mass(kilograms: f64) -> Measure {
    Measure::new(Q::Mass, kilograms)
}
