//! Battery, cables, fuses, knob and battery box as the review answers them.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod mended;
mod random_design;

mod electrics {
    mod box_beside_the_wall;
    mod chapter;
    mod cooler_fan;
    mod wiring_schedule;
}
