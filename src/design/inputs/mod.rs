//! The declarations of all inputs, by part of the machine.

mod base;
mod cost;
mod doubt;
mod engine;
mod flow;
mod fuel;
mod hearth;
mod joints;
mod limits;
mod marking;
mod pace;
mod parts;
mod place;
pub(super) mod start;
mod tightness;
mod train;
mod vessel;
mod wiring;

pub use base::*;
pub use cost::*;
pub use doubt::*;
pub use engine::*;
pub use flow::*;
pub use fuel::*;
pub use hearth::*;
pub use joints::*;
pub use limits::*;
pub use marking::*;
pub use pace::*;
pub use parts::*;
pub use place::*;
pub use tightness::*;
pub use train::*;
pub use vessel::*;
pub use wiring::*;
