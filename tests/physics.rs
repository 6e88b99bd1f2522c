//! Checks of the physics room: closed forms, published values, reference data, properties.

// Functions shared by several tests may unwrap too; the lint only excuses the tests themselves.
#![allow(clippy::unwrap_used, clippy::panic)]

mod physics {
    mod against_correlations;
    mod against_statics;
    mod against_walls;
    mod bodies;
    mod conduction;
    mod flow_limits;
    mod footprint;
    mod reference;
    mod search;
    mod steady_limits;
    mod steam;
    mod warming;
}
