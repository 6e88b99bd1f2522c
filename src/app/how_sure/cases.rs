//! What a worker runs: cases of a sampling, named by their places.

use crate::design::file;
use crate::review::sampling::Sampling;
use wasm_bindgen::prelude::*;

/// A sampling as the worker holds it.
#[wasm_bindgen]
pub struct Cases(Sampling);

#[wasm_bindgen]
impl Cases {
    /// A sampling of the design in this file; of the design that the app starts with if it is none, whose
    /// outcomes the page then does not take.
    #[wasm_bindgen(constructor)]
    pub fn new(design: &str, seed: u32, wanted: usize) -> Self {
        let design = file::read(design).map(|opened| opened.design);
        Self(Sampling::new(
            &design.unwrap_or_default(),
            u64::from(seed),
            wanted,
        ))
    }

    /// What the review says of these cases.
    pub fn outcomes(&self, first: usize, end: usize) -> Vec<f32> {
        self.0.outcomes(first..end)
    }
}
