//! Checks of the sheets for the workshop and of the archive that holds everything.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test may fail loudly"
)]

mod random_design;

#[path = "paper/archive.rs"]
mod archive;
#[path = "paper/bench.rs"]
mod bench;
#[path = "paper/cautions.rs"]
mod cautions;
#[path = "paper/columns.rs"]
mod columns;
#[path = "paper/on_screen.rs"]
mod on_screen;
#[path = "paper/sheets.rs"]
mod sheets;
