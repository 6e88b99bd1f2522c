//! What this trade computes: one file per question, each answerable on its own.

pub mod fuel;
