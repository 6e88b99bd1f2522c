//! What is rolled from flat sheet, so that it has a long seam that no joint of the list stands for?

use super::machine::{Closure, Machine, NOZZLES, Piece};
use super::parts_list::{PartLine, parts_for_stages};
use super::stock::stock;
use super::there_already::is_there_already;
use super::work_time::is_made;
use crate::design::Design;
use crate::design::inputs::{CostKind, Group, Material};
use crate::sizing::air_inside::holds_gas;
use uom::si::f64::Length;

/// The long seams of the pieces of one line of the parts list.
#[derive(Debug, Clone, PartialEq)]
pub struct LongSeam {
    /// What has it.
    pub name: String,
    /// Its sub-assembly.
    pub group: Group,
    /// Whether it hangs in the vessel, as the fire tube does, where no leak test of the vessel tells of it.
    pub hangs_inside: bool,
    /// Length of them all.
    pub length: Length,
}

/// The long seams of all that is rolled where gas is, in the order of the parts list. What is there already has
/// its own, and what stands for a stage of the gas train is not counted beside the stage.
///
/// ```
/// use hearthplan::design::Design;
/// use hearthplan::sizing::{long_seams::long_seams, machine::layout, parts_list::parts_list};
/// let design = Design::default();
/// let machine = layout(&design);
/// let seams = long_seams(&design, &machine, &parts_list(&design, &machine));
/// let hopper = seams.iter().find(|seam| seam.name == "Hopper").unwrap();
/// assert!((hopper.length - design.hopper.height).value.abs() < 1e-9);
/// ```
pub fn long_seams(design: &Design, machine: &Machine, parts: &[PartLine]) -> Vec<LongSeam> {
    let stands_for = parts_for_stages(design, parts);
    let is_welded = |line: &&PartLine| {
        let is_bought = match (line.stage(design), line.piece) {
            (Some(stage), _) => !is_made(stage),
            (None, Some(Piece::Part(place))) => {
                line.kind == CostKind::Bought || stands_for.get(place).is_some_and(Option::is_some)
            }
            // Nozzles are cut from pipe, however thin its wall.
            (None, Some(NOZZLES)) => true,
            // What only keeps wool in need not be tight.
            (None, Some(Piece::Closure(Closure::LidRim))) => true,
            (None, Some(piece)) => is_there_already(design, piece),
            (None, None) => true,
        };
        line.material.is_some_and(Material::is_metal) && holds_gas(line.group) && !is_bought
    };
    (parts.iter().filter(is_welded))
        .filter_map(|line| {
            let each = stock(design, machine, line)?.long_seam()?;
            Some(LongSeam {
                name: line.name.clone(),
                group: line.group,
                hangs_inside: line.from == "hearth",
                length: f64::from(line.count) * each,
            })
        })
        .collect()
}
