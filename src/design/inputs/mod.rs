//! The declarations of all inputs, by part of the machine.

mod base;
mod flow;
mod hearth;
mod limits;
mod parts;
mod place;
pub(super) mod start;
mod vessel;

pub use base::*;
pub use flow::*;
pub use hearth::*;
pub use limits::*;
pub use parts::*;
pub use place::*;
pub use vessel::*;
