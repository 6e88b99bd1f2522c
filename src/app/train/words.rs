//! What a stage has to tell, in a few words, and how grave it is.

use crate::review::Verdict::{self, Stop, Watch};
use crate::sizing::train::Note;

/// The verdict and the words of a note.
pub fn remark(note: Note) -> (Verdict, &'static str) {
    match note {
        Note::DustSettles => (Watch, "dust settles: gas too slow"),
        Note::TarCondenses => (Watch, "tar condenses here"),
        Note::WaterCondenses => (Watch, "water condenses here"),
        Note::DropsArrive => (Watch, "drops come in"),
        Note::BelowHalfFlow => (Watch, "too slow to clean well"),
        Note::TooFast => (Watch, "faster than the good range"),
        Note::MediumTooHot => (Stop, "too hot for the medium"),
        Note::MediumWet => (Stop, "medium gets wet"),
        Note::TarMistArrives => (Watch, "tar mist comes in"),
        Note::BlowerHot => (Watch, "hot for a blower"),
        Note::BlowerTooWeak => (Stop, "too weak for this flow"),
        Note::BlowerStalls => (Watch, "may stall here"),
        Note::UnderPressure => (Watch, "leaks let gas out behind it"),
        Note::JacketBoils => (Stop, "jacket water boils"),
        Note::FinsTooClose => (Watch, "fins too close for still air"),
        Note::EngineGasHot => (Watch, "warm for an engine"),
        Note::EngineGasTooHot => (Stop, "too hot for an engine"),
    }
}
