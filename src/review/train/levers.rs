//! What could be changed at the stages of the train.

use crate::design::Design;
use crate::design::inputs::{FilterMedium, LoadTime, StageKind, TrainStage};
use crate::review::finding::Lever;
use crate::review::heart::flow_levers;
use crate::sizing::cooler_drive::CoolerDrive;
use crate::sizing::train::{StageError, TrainError, TrainSolution};

/// The input of the stage at `place`.
pub(in crate::review) fn at(place: usize, name: &str) -> Lever {
    Lever::input(Design::item_input("train", place, name))
}

/// What sets how wide a stage is where it is joined: of a cyclone its body, which all its sizes follow.
pub(in crate::review) fn width(place: usize, kind: StageKind) -> Lever {
    let name = match kind {
        StageKind::Cyclone => "body_diameter",
        _ => "bore",
    };
    at(place, name)
}

/// An input of every stage that `fits`.
pub(in crate::review) fn of(
    design: &Design,
    fits: impl Fn(&TrainStage) -> bool,
    name: &str,
) -> Vec<Lever> {
    design
        .train
        .iter()
        .enumerate()
        .filter(|(_, stage)| fits(stage))
        .map(|(place, _)| at(place, name))
        .collect()
}

/// When each electric load that drives a cooler is on, where none of them is in a state of the machine.
pub(in crate::review) fn switched_on(
    design: &Design,
    drive: CoolerDrive,
    state: LoadTime,
) -> Vec<Lever> {
    if !drive.is_needed(design) || drive.runs(design, state) {
        return Vec::new();
    }
    (drive.loads(design).into_iter())
        .map(|place| Lever::input(Design::item_input("loads", place, "when")))
        .collect()
}

/// Stages of these kinds from the first of both places to the second, at another place of the train.
pub(in crate::review) fn moved(
    design: &Design,
    kinds: &[StageKind],
    between: std::ops::RangeInclusive<usize>,
) -> Vec<Lever> {
    (design.train.iter().enumerate())
        .filter(|(place, stage)| between.contains(place) && kinds.contains(&stage.kind))
        .map(|(from, _)| Lever::Move {
            list: "train",
            from,
        })
        .collect()
}

/// What makes the most wasteful stages of a solution cost less pressure, at most `most` of them.
pub(in crate::review) fn wider(
    design: &Design,
    solved: &Result<TrainSolution, TrainError>,
    most: usize,
) -> Vec<Lever> {
    match solved {
        Ok(solved) => most_wasteful(design, solved, most),
        Err(_) => Vec::new(),
    }
}

/// What lets gas through where [none passes](TrainError::lets_nothing_through): the stage in which the last pressure is
/// lost first, then those before it that take most. What the stages do not take is lost in the hearth.
pub(in crate::review) fn through(design: &Design, why: &TrainError) -> Vec<Lever> {
    let inputs = |paths: &[&'static str]| paths.iter().map(|path| Lever::input(*path)).collect();
    let stage = why.number.checked_sub(1);
    let own: Vec<Lever> = match (&why.reason, stage) {
        (StageError::Grate(_), _) => return inputs(&NO_HOLE),
        (_, None) => inputs(&[
            "grate.pitch",
            "grate.hole",
            "hearth.throat_diameter",
            "hearth.nozzle_bore",
        ]),
        (_, Some(place)) => (design.train.get(place).into_iter())
            .flat_map(|stage| eased_by(place, stage))
            .collect(),
    };
    (own.into_iter())
        .chain(most_wasteful(design, &why.reached, 2))
        .chain(flow_levers(design))
        .collect()
}

/// What gives a plate room for holes.
pub(in crate::review) const NO_HOLE: [&str; 3] = ["grate.rim", "grate.hole", "grate.diameter"];

fn most_wasteful(design: &Design, solved: &TrainSolution, most: usize) -> Vec<Lever> {
    let mut stages: Vec<(usize, &TrainStage, f64)> = design
        .train
        .iter()
        .zip(&solved.outcomes)
        .enumerate()
        .map(|(place, (stage, outcome))| (place, stage, outcome.pressure_loss.value))
        .collect();
    stages.sort_by(|one, other| other.2.total_cmp(&one.2));
    stages
        .into_iter()
        .take(most)
        .flat_map(|(place, stage, _)| eased_by(place, stage))
        .collect()
}

/// What most plainly makes a stage cost less pressure; nothing where the loss was measured. A filter costs less if it is
/// changed before so much dust is in it, and that takes no steel.
fn eased_by(place: usize, stage: &TrainStage) -> impl Iterator<Item = Lever> + use<> {
    let names: &[&str] = match stage.kind {
        StageKind::Pipe | StageKind::Trap | StageKind::Blower => &["bore"],
        StageKind::Cyclone => &["body_diameter"],
        StageKind::Cooler => &["tubes"],
        StageKind::Filter => match stage.medium {
            FilterMedium::Packed => &["dirty_factor", "filter_diameter"],
            FilterMedium::Cloth => &["dust_capacity", "cloth_area"],
        },
        StageKind::Measured => &[],
    };
    names.iter().map(move |name| at(place, name))
}
