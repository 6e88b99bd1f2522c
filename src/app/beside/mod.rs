//! Work beside the page: workers run the same program, so that the page answers meanwhile.
//!
//! A [`Job`] falls into pieces, told by their numbers. The page keeps what comes back and decides
//! what it means; where no worker starts, it does the pieces itself.

mod desk;
mod quicken;
mod workers;

pub use quicken::{quicken, warm_up};
pub use workers::{Pace, Task, Workers};

use crate::design::{Design, file};
use serde::{Deserialize, Serialize};

/// What workers are to do, as the page tells them.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub enum Job {
    /// Cases of a sampling.
    Sampling {
        /// The design, as its file.
        design: String,
        /// Seed of the draws.
        seed: u32,
        /// Cases in all.
        cases: usize,
    },
    /// The search for what mends a design.
    Search {
        /// The design, as its file.
        design: String,
    },
    /// The example is reckoned and drawn over and over; see [`quicken`].
    WarmUp,
}

impl Job {
    /// A sampling of this design.
    pub fn sampling(design: &Design, seed: u32, cases: usize) -> Self {
        Self::Sampling {
            design: file::write(design),
            seed,
            cases,
        }
    }

    /// The search for what mends this design.
    pub fn search(design: &Design) -> Self {
        Self::Search {
            design: file::write(design),
        }
    }
}
