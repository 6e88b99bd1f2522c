//! What a person enters: plain data, ranges, presets, link and file formats, upgrades of old versions.
//!
//! A [`Design`] is a fixed set of sections (one record each) and lists (many records of one kind).
//! Every input is declared once, as an [`Input`], in [`inputs`]; that declaration serves the form,
//! the help, the link, the file, the command line and the documentation.

mod arrange;
mod belonging;
mod declare;
mod declared;
pub mod difference;
mod document;
pub mod example;
pub mod file;
pub mod find;
mod follow;
mod free_name;
pub mod inputs;
pub mod link;
pub mod materials;
pub mod packing;
pub mod phrase;
pub mod quantity;
mod references;
mod relevance;
mod source;
pub mod spread;
mod spread_table;
pub mod strength;
mod tree;
mod typed;
pub mod upgrade;

pub use declare::{Choice, ChoiceOption, Input, Items, Kind, Record, Value, celsius};
pub use document::{Design, InputError, ListInfo, SectionInfo};
pub use free_name::free_name;
pub use source::Source;
pub use tree::{Note, Opened};
pub use typed::TypedError;
