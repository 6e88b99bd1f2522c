//! Checks of marking out, templates, and the files and pages they are written to.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test may fail loudly"
)]

#[path = "mended/mod.rs"]
mod mended;
mod random_design;
#[allow(dead_code, reason = "each test crate uses the part it needs")]
#[path = "physics/reference.rs"]
mod reference;

#[path = "marking/ash_door.rs"]
mod ash_door;
#[path = "marking/bolt_circles.rs"]
mod bolt_circles;
#[path = "marking/branches.rs"]
mod branches;
#[path = "marking/by_tape.rs"]
mod by_tape;
#[path = "marking/cone_weld.rs"]
mod cone_weld;
#[path = "marking/files_and_pages.rs"]
mod files_and_pages;
#[path = "marking/findings.rs"]
mod findings;
#[path = "marking/hole_table.rs"]
mod hole_table;
#[path = "marking/lids.rs"]
mod lids;
#[path = "marking/off_the_shell.rs"]
mod off_the_shell;
#[path = "marking/other_wall.rs"]
mod other_wall;
#[path = "marking/outlet_mouth.rs"]
mod outlet_mouth;
#[path = "marking/page_words.rs"]
mod page_words;
#[path = "marking/pipes.rs"]
mod pipes;
#[path = "marking/ports.rs"]
mod ports;
#[path = "marking/sheet.rs"]
mod sheet;
#[path = "marking/small_templates.rs"]
mod small_templates;
#[path = "marking/tall.rs"]
mod tall;
#[path = "marking/templates.rs"]
mod templates;
