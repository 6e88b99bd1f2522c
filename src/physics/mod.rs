//! What is true anywhere: properties of air, gas, water and steel, convection, friction, conduction, solvers.

pub mod equilibrium;
mod nasa_polynomials;
pub mod secant;
pub mod species;
