//! What a sheet of paper holds, before it is turned into a page, a file or a print.

use crate::design::phrase::Slot;
use crate::review::{Table, Verdict};

/// A box that is ticked by hand, on paper alone; [`Slot::Tick`] is one for the screen too.
pub const BOX: &str = "☐";

/// One sheet: a heading and blocks from top to bottom.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Stable name: anchor on the page, name of files.
    pub name: &'static str,
    /// Heading.
    pub title: &'static str,
    /// One line that says what it is for.
    pub meaning: &'static str,
    /// Sections and lists of the design that it follows from, so that a reader can go there and change them.
    pub about: &'static [&'static str],
    /// From top to bottom.
    pub blocks: Vec<Block>,
}

/// One block of a sheet.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A smaller heading.
    Heading(String),
    /// A paragraph.
    Text(Slot),
    /// A caution, set apart.
    Caution(String),
    /// What a question of the review is called, and its answer.
    Answer {
        /// The verdict.
        verdict: Verdict,
        /// What the question is called.
        question: String,
        /// What was compared, and why it matters.
        words: Slot,
    },
    /// Points one below the other.
    Points(Vec<Slot>),
    /// A table with its stable name and caption.
    Table {
        /// Name of its file.
        name: String,
        /// Caption.
        caption: String,
        /// Rows.
        table: Table,
    },
    /// A drawing as SVG text of our own making, with words for those who do not see it.
    Drawing {
        /// Name of its file.
        name: String,
        /// The SVG element.
        svg: String,
        /// What it shows.
        words: String,
    },
    /// Lines to write on, each with what belongs there.
    FillIn(Vec<String>),
}

impl Sheet {
    /// An empty sheet.
    pub fn new(
        name: &'static str,
        title: &'static str,
        meaning: &'static str,
        about: &'static [&'static str],
    ) -> Self {
        Self {
            name,
            title,
            meaning,
            about,
            blocks: Vec::new(),
        }
    }

    /// The sheet with one more block.
    #[must_use]
    pub fn with(mut self, block: Block) -> Self {
        self.blocks.push(block);
        self
    }

    /// Its drawings: name and SVG element.
    pub fn drawings(&self) -> impl Iterator<Item = (&str, &str)> {
        self.blocks.iter().filter_map(|block| match block {
            Block::Drawing { name, svg, .. } => Some((name.as_str(), svg.as_str())),
            _ => None,
        })
    }

    /// Its tables with their names and captions.
    pub fn tables(&self) -> impl Iterator<Item = (&str, &str, &Table)> {
        self.blocks.iter().filter_map(|block| match block {
            Block::Table {
                name,
                caption,
                table,
            } => Some((name.as_str(), caption.as_str(), table)),
            _ => None,
        })
    }
}
