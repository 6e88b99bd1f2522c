//! Example designs.
