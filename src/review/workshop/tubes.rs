//! Has the machine room for the tubes of its cooler?

use crate::design::Design;
use crate::design::Source::CommonPractice;
use crate::design::inputs::{Lie, StageKind, TrainStage};
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::sizing::machine::Machine;

/// Level tubes may be so many times as long as the base. Our own mark.
const LEVEL_PER_BASE: f64 = 10.0;

/// Are the tubes of a cooler such as the machine has room for? Asked of the one that fits worst.
pub(super) fn fit(design: &Design, machine: &Machine) -> Option<Finding> {
    let height = machine.vessel.hopper_top.value;
    let base = design.base.width.max(design.base.depth).value;
    let room = |stage: &TrainStage| match stage.lie {
        Lie::Upright => height,
        Lie::Level => LEVEL_PER_BASE * base,
    };
    let margin = |stage: &TrainStage| room(stage) / stage.tube_length.value - 1.0;
    let (place, stage) = (design.train.iter().enumerate())
        .filter(|(_, stage)| stage.kind == StageKind::Cooler)
        .min_by(|(_, one), (_, other)| margin(one).total_cmp(&margin(other)))?;
    let long: Slot = Measure::new(Q::Distance, stage.tube_length.value).into();
    let told = |metres: f64| Slot::from(Measure::new(Q::Distance, metres));
    let fits = stage.tube_length.value <= room(stage);
    let compared = match (stage.lie, fits) {
        (Lie::Upright, true) => Phrase::new(
            "upright tubes of {} on a machine {} high",
            [long, told(height)],
        ),
        (Lie::Upright, false) => Phrase::new(
            "upright tubes of {} on a machine {} high: folded to and fro, they no longer drain",
            [long, told(height)],
        ),
        (Lie::Level, _) => Phrase::new(
            "level tubes of {} to and fro on a base of {}, wanted at most {} times",
            [
                long,
                told(base),
                Measure::new(Q::Count, LEVEL_PER_BASE).into(),
            ],
        ),
    };
    let reach = |symbol, words, metres| (symbol, words, Measure::new(Q::Distance, metres));
    let (words, formula, values, sure) = match stage.lie {
        Lie::Upright => (
            "Longest tube that stands straight beside the machine",
            "L = H",
            vec![reach("H", "height of the machine", height)],
            "pipes above the machine make room for more",
        ),
        Lie::Level => (
            "Longest tube that runs to and fro across the base",
            "L = n B",
            vec![
                ("n", "times across", Measure::new(Q::Count, LEVEL_PER_BASE)),
                reach("B", "longer side of the base", base),
            ],
            "our own mark: each bend holds water and takes room",
        ),
    };
    let working = Step {
        words,
        formula,
        values,
        result: Measure::new(Q::Distance, room(stage)),
        source: CommonPractice,
        sure,
    };
    let levers = ["tube_length", "lie"].map(|name| Design::item_input("train", place, name));
    Some(Finding {
        id: "workshop.cooler_tubes",
        chapter: Chapter::Workshop,
        title: "Room for the cooler's tubes",
        meaning: "Upright tubes stand straight beside the machine and drain into a pot below; level ones may run to and fro across it.",
        verdict: if fits { Verdict::Good } else { Verdict::Watch },
        compared,
        why: "A tube that is longer than the machine is high sticks out above it, or it is bent and holds water and tar in each lower bend. More and shorter tubes cool as well.",
        margin: Some(margin(stage)).filter(|margin| margin.is_finite()),
        working: vec![working],
        caution: None,
        levers: levers.map(Lever::input).to_vec(),
        about: "train",
    })
}
