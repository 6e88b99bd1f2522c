//! Weight, centre of gravity and tipping.

use super::finding::{Finding, NamedResult};
use crate::design::Design;

/// Weight, centre of gravity and tipping.
#[derive(Debug, Clone)]
pub struct Standing {}

impl Standing {
    /// The computed numbers with their stable names.
    pub fn results(&self) -> Vec<NamedResult> {
        Vec::new()
    }
}

/// Puts a design through the questions of this chapter.
pub(super) fn examine(_design: &Design) -> (Standing, Vec<Finding>) {
    (Standing {}, Vec::new())
}
