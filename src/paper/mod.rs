//! Sheets and files for the workshop: what goes on paper, and one archive that holds everything. No browser.

pub mod archive;
pub mod csv;
pub mod html;
pub mod sheet;
