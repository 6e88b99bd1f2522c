//! Hearth, pressure chain, blower and battery against published tables and closed forms.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod breath {
    mod hearth_chapter;
    mod hearth_table;
}
