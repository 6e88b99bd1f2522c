//! Checks of the gas train: gas properties, coolers, cyclones, filters, water, flammability, wiring, and any order of
//! stages.

// Functions shared by several tests may unwrap too; the lint only excuses the tests themselves.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

#[path = "physics/reference.rs"]
mod reference;

mod mended;
mod random_design;

mod train {
    mod added;
    mod at_the_ends;
    mod balance;
    mod chain;
    mod chapter;
    mod cleaning;
    mod cloth;
    mod cooler_drives;
    mod cooling;
    mod dusty;
    mod fittings;
    mod gas_properties;
    mod leaking;
    mod order;
    mod safety;
    mod through_design;
    mod touch;
    mod vessels;
}
