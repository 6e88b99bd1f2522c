//! What a worker holds: one job, of which it does the pieces it is given.

use super::Job;
use crate::app::how_sure;
use crate::app::verdicts::Trial;
use crate::design::file;
use crate::review::sampling::Sampling;
use js_sys::Float32Array;
use wasm_bindgen::prelude::*;

/// A worker's desk.
#[wasm_bindgen]
pub struct Desk(Option<Work>);

enum Work {
    Sampling(Box<Sampling>),
    Search(Box<Trial>),
    WarmUp,
}

fn work(job: &str) -> Option<Work> {
    Some(match serde_json::from_str(job).ok()? {
        Job::Sampling {
            design,
            seed,
            cases,
        } => Work::Sampling(Box::new(Sampling::new(
            &file::read(&design).ok()?.design,
            u64::from(seed),
            cases,
        ))),
        Job::WarmUp => Work::WarmUp,
        Job::Search { design } => {
            Work::Search(Box::new(Trial::of_design(file::read(&design).ok()?.design)))
        }
    })
}

#[wasm_bindgen]
impl Desk {
    /// A desk with this job on it.
    #[wasm_bindgen(constructor)]
    pub fn new(job: &str) -> Self {
        Self(work(job))
    }

    /// The answer to one piece; undefined where the job could not be read, which the page takes as a
    /// failure.
    pub fn answer(&self, piece: usize) -> JsValue {
        match &self.0 {
            None => JsValue::UNDEFINED,
            Some(Work::Sampling(sampling)) => {
                let outcomes = sampling.outcomes(how_sure::run(piece));
                Float32Array::from(outcomes.as_slice()).into()
            }
            Some(Work::Search(trial)) => trial.written(piece).into(),
            Some(Work::WarmUp) => {
                super::warm_up();
                JsValue::TRUE
            }
        }
    }
}
