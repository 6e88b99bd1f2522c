//! How long a filling lasts, and how wood is filled in. Common practice, no source.

use super::super::{cautions, cell};
use crate::design::Design;
use crate::design::phrase::{Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::paper::sheet::Block;
use crate::review::Assessment;
use crate::sizing::also_needed::has_nozzles;

/// How a closed hopper, or the vessel above a hearth, is filled.
const CLOSED: [&str; 2] = [
    "The safe way: stop as told above, and open the {} only once the machine is cold and aired.",
    "While it is hot, the {} is opened only as the caution here says: outdoors, carbon monoxide alarm worn, no other flame or spark near, somebody with you. Never lean over it: what flashes shoots straight up. Shut it at once, tightly on a clean seal.",
];
/// How wood is filled in where air comes in at the top.
const OPEN: &str = "Fill in wood only while engine or blower draws air down through the open top: with the flow stopped, gas and flame rise out of it. Stand to the side, carbon monoxide alarm worn, and never lean over it.";

pub(super) fn blocks(design: &Design, assessment: &Assessment) -> Vec<Block> {
    let engine = &assessment.engine;
    let lasts = if engine.makes_gas.usual {
        Phrase::new(
            "One filling lasts {} at the usual load, and less at a higher one. Stop or fill up before it is used up: a machine run empty burns down to its steel.",
            [cell(Q::LongTime, engine.lasts.value)],
        )
    } else {
        Phrase::plain(
            "Stop or fill up before the wood is used up: a machine run empty burns down to its steel.",
        )
    };
    let lid = match design.hopper.fitted {
        true => "hopper lid",
        false => "lid",
    };
    let how: Vec<Slot> = match has_nozzles(design) {
        true => (CLOSED.into_iter())
            .map(|words| Phrase::new(words, [lid.into()]).into())
            .collect(),
        false => vec![OPEN.into()],
    };
    [
        Block::Heading("Filling up".to_string()),
        Block::Points(std::iter::once(lasts.into()).chain(how).collect()),
    ]
    .into_iter()
    .chain(cautions(assessment, &["engine.refuel"]))
    .collect()
}
