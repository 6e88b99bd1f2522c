//! What a design out of the first questions does not meet, and what became of answers that could not be taken as they
//! were. It is told above the design as long as it holds. What is not met stands in no note: there it would outlast what
//! is changed.

use super::bought_shell::too_narrow;
use super::{small_fire, stand};
use crate::design::Design;
use crate::design::inputs::Stance;
use crate::design::quantity::{Quantity as Q, System};
use crate::review::{Assessment, Verdict};
use uom::si::f64::{Length, Ratio};

const POWER: &str = "engine.power";
const INSIDE: &str = "hearth.inside";

/// The narrowest plain steel pipe in which the same answers stop at nothing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WiderVessel {
    /// Its width outside.
    pub across: Length,
    /// Its length, where that has to be more than that of the vessel that is there.
    pub length: Option<Length>,
}

/// What was not met when the questions were over, and which answers were not taken as they were.
#[derive(Debug, Clone, PartialEq)]
pub struct Unmet {
    /// Ids of the questions that stopped, and of the power where that was too little.
    questions: Vec<&'static str>,
    /// Size of the pieces of wood as answered, and as reckoned with.
    pieces: Option<[Length; 2]>,
    /// Lowest load before, and as reckoned with.
    load: Option<[Ratio; 2]>,
    /// Width and depth of the base, where its frame was answered over all.
    base: Option<[Length; 2]>,
    wider: Option<WiderVessel>,
}

/// What of it still holds, in words.
#[derive(Debug, Clone, PartialEq)]
pub struct StillUnmet {
    /// That the design is complete, and the gravest of it.
    pub lead: String,
    /// Everything else there is to say, a sentence or two each.
    pub more: Vec<String>,
}

impl Unmet {
    /// What a design that was just completed from these answers does not meet, and what became of them; none if it meets
    /// all that was asked as it was asked.
    pub fn of(
        answered: &Design,
        design: &Design,
        assessment: &Assessment,
        wider: Option<WiderVessel>,
    ) -> Option<Self> {
        let findings = assessment.findings.iter();
        let questions: Vec<&'static str> = findings
            .filter(|finding| {
                finding.verdict == Verdict::Stop
                    || finding.id == POWER && wish(design, assessment, System::Metric).is_some()
            })
            .map(|finding| finding.id)
            .collect();
        let unmet = Self {
            questions,
            pieces: small_fire::smaller_pieces(answered, design),
            load: small_fire::higher_load(answered, design),
            base: over_all(answered, design),
            wider,
        };
        let has_changed = unmet.pieces.is_some() || unmet.load.is_some() || unmet.base.is_some();
        (has_changed || !unmet.questions.is_empty()).then_some(unmet)
    }

    /// What of it the design as it is now still does not meet; none once it meets all.
    ///
    /// ```
    /// use hearthplan::design::{Value, example, quantity::System};
    /// use hearthplan::review::{assess, guided::{Part, Unmet, complete}};
    /// let mut answered = example::to_start_from();
    /// answered.set("engine.wanted_power", Value::Number(30_000.0)).unwrap();
    /// let mut design = complete(&answered, &[Part::Engine]);
    /// let unmet = Unmet::of(&answered, &design, &assess(&design), None).unwrap();
    /// let told = unmet.still(&design, &assess(&design), System::Metric).unwrap();
    /// assert!(told.lead.contains("Power on wood gas"));
    /// design.set("engine.wanted_power", Value::Number(3_000.0)).unwrap();
    /// let told = unmet.still(&design, &assess(&design), System::Metric).unwrap();
    /// assert!(told.lead.starts_with("Complete. Base: "));
    /// ```
    pub fn still(
        &self,
        design: &Design,
        assessment: &Assessment,
        system: System,
    ) -> Option<StillUnmet> {
        let stops: Vec<_> = (self.questions.iter())
            .filter_map(|id| assessment.finding(id))
            .filter(|finding| finding.verdict == Verdict::Stop)
            .collect();
        let wish = Some(system)
            .filter(|_| self.questions.contains(&POWER))
            .and_then(|system| wish(design, assessment, system));
        // Each with what it is told after, where it is the gravest.
        let others = [
            wish.map(|told| ("Complete, but not all was met.", told)),
            self.told_of_pieces(design, system)
                .map(|told| ("Complete, but for smaller wood.", told)),
            self.told_of_load(design, system)
                .map(|told| ("Complete, but for a higher load.", told)),
            self.told_of_base(design, system)
                .map(|told| ("Complete.", told)),
        ];
        let mut others = others.into_iter().flatten();
        let mut more = Vec::new();
        let lead = match stops.as_slice() {
            [] => {
                let (before, told) = others.next()?;
                format!("{before} {told}")
            }
            [only] => format!("Complete, but it still stops at: {}.", only.title),
            [first, others @ ..] => {
                let titles: Vec<&str> = others.iter().map(|finding| finding.title).collect();
                more.push(format!("It also stops at: {}.", titles.join("; ")));
                format!(
                    "Complete, but it still stops at: {}, and {} more.",
                    first.title,
                    others.len()
                )
            }
        };
        more.extend(others.map(|(_, told)| told));
        let inside = stops.iter().any(|finding| finding.id == INSIDE);
        match self.wider {
            // One width is enough to be told: the one in which all passes.
            Some(wider) if !stops.is_empty() => more.push(wider.told(system)),
            _ if inside && design.real_vessel.measured => more.push(too_narrow(design, system)),
            _ => {}
        }
        Some(StillUnmet { lead, more })
    }

    fn told_of_pieces(&self, design: &Design, system: System) -> Option<String> {
        let [asked, used] = self.pieces?;
        let show = |length: Length| Q::Length.show(length.value, system);
        (design.fuel.piece_size == used).then(|| {
            format!(
                "Wood pieces of {} would hang up above so small a throat: all is reckoned with pieces of {}, so cut the wood to that.",
                show(asked),
                show(used)
            )
        })
    }

    fn told_of_base(&self, design: &Design, system: System) -> Option<String> {
        let show = |length: Length| Q::Length.show(length.value, system);
        (self.base == Some(sides(design))).then(|| stand::told_in(design, show).trim().to_string())
    }

    fn told_of_load(&self, design: &Design, system: System) -> Option<String> {
        let [before, used] = self.load?;
        let show = |load: Ratio| Q::Share.show(load.value, system);
        (design.operation.idle_load == used).then(|| {
            format!(
                "Lowest load: all is reckoned with {} instead of {}. Below it the shell takes too much of so small a fire, and the gas gets weak.",
                show(used),
                show(before)
            )
        })
    }
}

fn sides(design: &Design) -> [Length; 2] {
    [design.base.width, design.base.depth]
}

/// Width and depth of the base, where its frame was answered over all, and the base is smaller than that.
fn over_all(answered: &Design, design: &Design) -> Option<[Length; 2]> {
    let base = &design.base;
    let is_asked = base.stance != Stance::Points && base.room_width.is_some();
    (is_asked && sides(design) != sides(answered)).then(|| sides(design))
}

impl WiderVessel {
    fn told(self, system: System) -> String {
        let show = |length: Length| Q::Length.show(length.value, system);
        let long = self
            .length
            .map_or_else(String::new, |length| format!(" and {} long", show(length)));
        format!(
            "This vessel is too small for wood and engine: with the same answers a plain steel pipe of about {} across{long} \
             would stop at nothing.",
            show(self.across)
        )
    }
}

/// The power that was wished for, where the engine gives less.
fn wish(design: &Design, assessment: &Assessment, system: System) -> Option<String> {
    let on_gas = assessment.engine.on_gas.as_ref()?.as_ref().ok()?;
    let (power, wanted) = (on_gas.runs.full.shaft_power, design.engine.wanted_power);
    (power < wanted).then(|| {
        let takes = (on_gas.told_for_power(system))
            .map_or_else(String::new, |told| format!(": for those it takes {told}"));
        format!(
            "On wood gas this engine gives {}, not the {} wanted{takes}.",
            Q::EnginePower.show(power.value, system),
            Q::EnginePower.show(wanted.value, system),
        )
    })
}
