//! What is true anywhere: properties of air, gas, water and steel, convection, friction, conduction, solvers.
