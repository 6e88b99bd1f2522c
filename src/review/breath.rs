//! Pressure chain, blower and battery.

use super::finding::{Finding, NamedResult};
use crate::design::Design;

/// Pressure chain, blower and battery.
#[derive(Debug, Clone)]
pub struct Breath {}

impl Breath {
    /// The computed numbers with their stable names.
    pub fn results(&self) -> Vec<NamedResult> {
        Vec::new()
    }
}

/// Puts a design through the questions of this chapter.
pub(super) fn examine(_design: &Design) -> (Breath, Vec<Finding>) {
    (Breath {}, Vec::new())
}
