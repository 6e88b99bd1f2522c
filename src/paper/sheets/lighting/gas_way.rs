//! Which way the gas goes, and what shuts it: flare or engine. Common practice, no source.

use crate::design::Design;
use crate::design::phrase::Slot;
use crate::paper::sheet::Block;
use crate::sizing::also_needed::{feeds_engine, has_blower};

/// How the gas comes to the engine after the flare.
const OVER: &str = "To change over, shut the valve to the flare before the engine draws: through an open one it draws air, and the flame, back into the machine. Then open the valve to the engine, start it, and set its air at the mixer until it runs evenly.";
/// What is done with the blower then.
const BLOWER_OFF: &str = "Once the engine runs, switch the blower off.";

/// What is looked at before the fire is lit; for a machine with a blower.
pub(super) fn before(design: &Design) -> &'static str {
    match feeds_engine(design) {
        true => "Valve to the flare open, valve to the engine shut, engine off",
        false => "Valve to the flare open",
    }
}

pub(super) fn blocks(design: &Design) -> Vec<Block> {
    let (flare, engine) = (has_blower(design), feeds_engine(design));
    let over = (flare && engine).then_some(OVER);
    let blower = (flare && engine && !design.blower.assists).then_some(BLOWER_OFF);
    let stop = match (flare, engine) {
        (true, true) => {
            "To stop, shut the valves to flare and engine. Together they are what shuts the gas outlet: all of the gas train lies between, and must be tight."
        }
        (true, false) => {
            "To stop, shut the valve to the flare. It is what shuts the gas outlet: all of the gas train lies between, and must be tight."
        }
        (false, true) => {
            "To stop, shut the valve to the engine. It is what shuts the gas outlet: all of the gas train lies between, and must be tight."
        }
        (false, false) => {
            "To stop, shut what the gas leaves the machine by. It is what shuts the gas outlet."
        }
    };
    let points = over.into_iter().chain(blower).chain([stop]);
    vec![
        Block::Heading("The way of the gas".to_string()),
        Block::Points(points.map(Slot::from).collect()),
    ]
}
