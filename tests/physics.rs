//! Checks of the physics room: closed forms, published values, reference data, properties.

// Functions shared by several tests may unwrap too; the lint only excuses the tests themselves.
#![allow(clippy::unwrap_used)]

mod physics {
    mod bodies;
    mod conduction;
    mod footprint;
    mod search;
    mod steady_limits;
}
