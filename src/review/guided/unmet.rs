//! What a design out of the first questions does not meet. It is told beside the design as long as it holds, and stands in
//! no note: there it would outlast what is changed.

use super::bought_shell::too_narrow;
use crate::design::Design;
use crate::design::quantity::{Quantity as Q, System};
use crate::review::{Assessment, Verdict};
use uom::si::f64::Length;

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

/// What was not met when the questions were over.
#[derive(Debug, Clone, PartialEq)]
pub struct Unmet {
    /// Ids of the questions that stopped, and of the power where that was too little.
    questions: Vec<&'static str>,
    wider: Option<WiderVessel>,
}

/// What of it still holds, in words.
#[derive(Debug, Clone, PartialEq)]
pub struct StillUnmet {
    /// The gravest of it.
    pub lead: String,
    /// Everything else there is to say, a sentence or two each.
    pub more: Vec<String>,
}

impl Unmet {
    /// What a design that was just completed does not meet; none if it meets all that was asked.
    pub fn of(
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
        (!questions.is_empty()).then_some(Self { questions, wider })
    }

    /// What of it the design as it is now still does not meet; none once it meets all.
    ///
    /// ```
    /// use hearthplan::design::{Value, example, quantity::System};
    /// use hearthplan::review::{assess, guided::{Part, Unmet, complete}};
    /// let mut answered = example::to_start_from();
    /// answered.set("engine.wanted_power", Value::Number(30_000.0)).unwrap();
    /// let mut design = complete(&answered, &[Part::Engine]);
    /// let unmet = Unmet::of(&design, &assess(&design), None).unwrap();
    /// let told = unmet.still(&design, &assess(&design), System::Metric).unwrap();
    /// assert!(told.lead.contains("Power on wood gas"));
    /// design.set("engine.wanted_power", Value::Number(3_000.0)).unwrap();
    /// assert_eq!(unmet.still(&design, &assess(&design), System::Metric), None);
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
        let mut wish = Some(system)
            .filter(|_| self.questions.contains(&POWER))
            .and_then(|system| wish(design, assessment, system));
        let mut more = Vec::new();
        let lead = match stops.as_slice() {
            [] => format!("Complete, but not all was met. {}", wish.take()?),
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
        more.extend(wish);
        let inside = stops.iter().any(|finding| finding.id == INSIDE);
        match self.wider {
            // One width is enough to be told: the one in which all passes.
            Some(wider) if !stops.is_empty() => more.push(wider.told(system)),
            _ if inside && design.real_vessel.measured => more.push(too_narrow(design, system)),
            _ => {}
        }
        Some(StillUnmet { lead, more })
    }
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
        format!(
            "On wood gas this engine gives {}, not the {} wanted: for those it takes {}.",
            Q::EnginePower.show(power.value, system),
            Q::EnginePower.show(wanted.value, system),
            Q::Displacement.show(on_gas.displacement_for_power.value, system)
        )
    })
}
