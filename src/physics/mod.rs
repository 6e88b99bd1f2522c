//! What is true anywhere: properties of air, gas, water and steel, convection, friction, conduction, solvers.

pub mod air;
pub mod conductivity;
pub mod convection;
pub mod cube_root;
pub mod equilibrium;
pub mod error;
pub mod friction;
pub mod gas_mixture;
pub mod hull;
pub mod layers;
mod nasa_polynomials;
pub mod normal_state;
pub mod orifice;
pub mod packed_bed;
pub mod radiation;
pub mod secant;
pub mod solids;
pub mod solve;
pub mod species;
pub mod steady;
pub mod transient;
mod transient_grid;
mod transport_polynomials;
pub mod tube_flow;
pub mod water;
