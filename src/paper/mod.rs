//! Sheets and files for the workshop: what goes on paper, templates as SVG and DXF, print pages at true size, and one
//! archive that holds everything. No browser.

pub mod archive;
mod bundle;
pub mod csv;
pub mod dxf;
pub mod foot;
pub mod html;
mod number;
pub mod sheet;
pub mod sheets;
pub mod svg;
pub mod tiling;
pub mod together;

pub use bundle::bundle;
