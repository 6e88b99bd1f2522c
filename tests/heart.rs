//! Checks of the calculation heart: fuel, equilibrium, gas, hearth temperature, engine.

#[path = "heart/equilibrium.rs"]
mod equilibrium;
#[path = "heart/fuel.rs"]
mod fuel;
#[path = "heart/gas.rs"]
mod gas;
#[path = "heart/reference.rs"]
mod reference;
