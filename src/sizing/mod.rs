//! What this trade computes: one file per question, each answerable on its own.

pub mod footprint;
pub mod fuel;
pub mod machine;
pub mod weight;
