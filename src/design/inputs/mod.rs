//! The declarations of all inputs, by part of the machine.

mod base;
mod engine;
mod flow;
mod fuel;
mod hearth;
mod limits;
mod marking;
mod parts;
mod place;
pub(super) mod start;
mod train;
mod vessel;
mod wiring;

pub use base::*;
pub use engine::*;
pub use flow::*;
pub use fuel::*;
pub use hearth::*;
pub use limits::*;
pub use marking::*;
pub use parts::*;
pub use place::*;
pub use train::*;
pub use vessel::*;
pub use wiring::*;
