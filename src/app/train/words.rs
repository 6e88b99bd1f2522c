//! What a stage has to tell, in a few words, and how grave it is.

use crate::design::inputs::StageKind;
use crate::review::Assessment;
use crate::review::Verdict::{self, Good, Stop, Watch};
use crate::sizing::train::Note;

/// A remark at a stage.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Remark {
    /// How grave; none where the review finds nothing wrong with it here.
    pub verdict: Option<Verdict>,
    pub words: &'static str,
}

/// What a note at a stage of this kind, none for the engine, means in this design. The verdict on
/// the matter is the review's, and never graver than the note itself.
pub fn remark(note: Note, kind: Option<StageKind>, assessment: &Assessment) -> Remark {
    let (mut gravest, words) = words(note);
    if expected(note, kind) {
        gravest = Good;
    }
    let judged = judge(note, kind)
        .and_then(|id| assessment.finding(id))
        .map(|finding| finding.verdict)
        .filter(|verdict| *verdict != Verdict::CannotTell);
    let verdict = judged.map_or(gravest, |judged| judged.min(gravest));
    let words = match (note, verdict) {
        // At the usual load the gas is fast enough.
        (Note::DustSettles, Good) => "dust settles until the gas is faster",
        _ => words,
    };
    Remark {
        verdict: (verdict != Good).then_some(verdict),
        words,
    }
}

/// Whether a stage of this kind is there to get just that.
fn expected(note: Note, kind: Option<StageKind>) -> bool {
    matches!(note, Note::DropsArrive | Note::TarMistArrives)
        && kind.is_some_and(|kind| kind != StageKind::Blower)
}

fn words(note: Note) -> (Verdict, &'static str) {
    match note {
        Note::DustSettles => (Watch, "dust settles: gas too slow"),
        Note::DustFalls => (Good, "slow gas: dust falls through"),
        Note::LittleDust => (Good, "slow gas, but hardly any dust left to settle"),
        Note::DustCakes => (Watch, "dusty and wet: it sticks"),
        Note::TarCondenses => (Watch, "tar condenses here"),
        Note::WaterCondenses => (Watch, "water condenses here"),
        Note::WetWall => (Watch, "cold wall: water wets it"),
        Note::Frost => (Stop, "would freeze: cover it"),
        Note::DropsArrive => (Stop, "drops come in"),
        Note::BelowHalfFlow => (Stop, "too slow to clean well"),
        Note::TooFast => (Stop, "faster than the good range"),
        Note::MediumTooHot => (Stop, "too hot for the medium"),
        Note::MediumWet => (Stop, "medium gets wet"),
        Note::TarMistArrives => (Watch, "tar mist comes in"),
        Note::BlowerHot => (Stop, "too hot for a blower"),
        Note::BlowerTooWeak => (Stop, "too weak for this flow"),
        Note::BlowerStalls => (Stop, "may stall here"),
        Note::UnderPressure => (Watch, "leaks let gas out behind it"),
        Note::JacketBoils => (Stop, "jacket water boils"),
        Note::FinsTooClose => (Watch, "fins too close for still air"),
        Note::EngineGasHot => (Watch, "warm for an engine"),
        Note::EngineGasTooHot => (Stop, "too hot for an engine"),
    }
}

/// The finding that judges what a note says.
fn judge(note: Note, kind: Option<StageKind>) -> Option<&'static str> {
    let at_blower = kind == Some(StageKind::Blower);
    match note {
        Note::DustSettles | Note::DustCakes => Some("train.dust_settles"),
        Note::DustFalls | Note::LittleDust => None,
        Note::TarCondenses if matches!(kind, Some(StageKind::Pipe | StageKind::Cyclone)) => {
            Some("train.tar_early")
        }
        Note::TarCondenses => Some("train.cooler_tar"),
        Note::WaterCondenses | Note::WetWall => Some("train.loose_water"),
        Note::Frost => Some("train.ice"),
        Note::BelowHalfFlow => Some("train.cyclone"),
        Note::TooFast if kind == Some(StageKind::Filter) => Some("train.filter_speed"),
        Note::TooFast => Some("train.cyclone"),
        Note::MediumTooHot => Some("train.filter_temperature"),
        Note::MediumWet => Some("train.filter_wet"),
        Note::DropsArrive | Note::TarMistArrives if at_blower => Some("breath.blower_place"),
        Note::UnderPressure => Some("breath.blower_place"),
        Note::DropsArrive if kind.is_none() => Some("train.loose_water"),
        Note::BlowerHot => Some("breath.blower_place"),
        Note::BlowerStalls => Some("breath.stall"),
        Note::EngineGasHot | Note::EngineGasTooHot => Some("train.engine_temperature"),
        Note::JacketBoils | Note::FinsTooClose => Some("train.cooler_outside"),
        Note::DropsArrive | Note::TarMistArrives | Note::BlowerTooWeak => None,
    }
}
