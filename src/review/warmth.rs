//! Heat through the shell, surfaces and warm-up.

use super::finding::{Finding, NamedResult};
use crate::design::Design;

/// Heat through the shell, surfaces and warm-up.
#[derive(Debug, Clone)]
pub struct Warmth {}

impl Warmth {
    /// The computed numbers with their stable names.
    pub fn results(&self) -> Vec<NamedResult> {
        Vec::new()
    }
}

/// Puts a design through the questions of this chapter.
pub(super) fn examine(_design: &Design) -> (Warmth, Vec<Finding>) {
    (Warmth {}, Vec::new())
}
