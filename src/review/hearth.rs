//! Hearth load, nozzles and table.

use super::finding::{Finding, NamedResult};
use crate::design::Design;

/// Hearth load, nozzles and table.
#[derive(Debug, Clone)]
pub struct HearthReview {}

impl HearthReview {
    /// The computed numbers with their stable names.
    pub fn results(&self) -> Vec<NamedResult> {
        Vec::new()
    }
}

/// Puts a design through the questions of this chapter.
pub(super) fn examine(_design: &Design) -> (HearthReview, Vec<Finding>) {
    (HearthReview {}, Vec::new())
}
