//! Checks of the calculation heart: fuel, equilibrium, gas, hearth temperature, engine.

#![allow(clippy::unwrap_used, reason = "a test may fail loudly")]

#[path = "heart/engine.rs"]
mod engine;
#[path = "heart/entries.rs"]
mod entries;
#[path = "heart/equilibrium.rs"]
mod equilibrium;
#[path = "heart/fuel.rs"]
mod fuel;
#[path = "heart/gas.rs"]
mod gas;
#[path = "heart/marks.rs"]
mod marks;
#[path = "heart/nonsense.rs"]
mod nonsense;
#[path = "heart/ordering.rs"]
mod ordering;
#[path = "heart/reference.rs"]
mod reference;
#[path = "heart/review.rs"]
mod review;
#[path = "heart/wall.rs"]
mod wall;

mod mended;
mod random_design;
