//! Hearth, pressure chain, blower and battery against published tables and closed forms.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod mended;
mod random_design;

mod breath {
    mod any_design;
    mod ash_room;
    mod blower;
    mod breath_chapter;
    mod char_bed;
    mod hearth_chapter;
    mod hearth_entries;
    mod hearth_fits;
    mod hearth_spares;
    mod hearth_table;
    mod pressure_chain;
}
