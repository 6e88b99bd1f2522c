//! Checks of the gas train: gas properties, coolers, cyclones, filters, water, flammability, wiring, and any order of
//! stages.

// Functions shared by several tests may unwrap too; the lint only excuses the tests themselves.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

#[path = "physics/reference.rs"]
mod reference;

mod train {
    mod chain;
    mod cleaning;
    mod cooling;
    mod gas_properties;
    mod safety;
}
