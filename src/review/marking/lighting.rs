//! Does the port that the fire is lit through open on the fire?

use super::MarkingReview;
use super::questions::{length, missing, question};
use crate::design::inputs::{HearthKind, Hole, HoleUse};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::tube_pipes::{Beside, lighting_ports};
use uom::si::f64::Length;

const FLAME: &str = "Gas mixed with air explodes when a flame meets it. Hold a flame only to a port that leads into the fire, once \
     the blower has drawn air through the machine for some minutes, and stand beside it, never before it.";

/// How a port lies, the worst last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Lies {
    AtTheNozzles,
    Higher,
    Lower,
    BelowTheTube,
    PassesBy,
    NoPipe,
}

struct Port<'a> {
    place: usize,
    hole: &'a Hole,
    beside: Beside,
    lies: Lies,
}

impl<'a> Port<'a> {
    fn of(design: &Design, place: usize, hole: &'a Hole) -> Self {
        let beside = Beside::of(design, hole);
        let lies = match beside {
            _ if hole.carries != HoleUse::SetIn => Lies::NoPipe,
            at if at.passes_by => Lies::PassesBy,
            at if at.is_below_the_tube() => Lies::BelowTheTube,
            at if at.is_at_the_nozzles() => Lies::AtTheNozzles,
            at if at.above.value < 0.0 => Lies::Lower,
            _ => Lies::Higher,
        };
        Self {
            place,
            hole,
            beside,
            lies,
        }
    }

    fn verdict(&self) -> Verdict {
        match self.lies {
            _ if !self.beside.above.value.is_finite() => Verdict::CannotTell,
            Lies::AtTheNozzles => Verdict::Good,
            Lies::Higher | Lies::Lower => Verdict::Watch,
            Lies::BelowTheTube | Lies::PassesBy | Lies::NoPipe => Verdict::Stop,
        }
    }

    /// How far off the height of the nozzles it may lie: below them no farther than the fire tube goes straight on.
    fn allowed(&self) -> Length {
        let Beside {
            above,
            reach,
            straight,
            ..
        } = self.beside;
        match above.value < 0.0 {
            true => reach.min(straight),
            false => reach,
        }
    }

    fn told(&self) -> Phrase {
        let Beside {
            above, straight, ..
        } = self.beside;
        let words = match self.lies {
            Lies::AtTheNozzles => {
                "the pipe of “{}” meets the fire tube {} off the height of the nozzles, allowed {}"
            }
            Lies::Higher => {
                "the pipe of “{}” meets the fire tube {} above the nozzles: a flame there lights wood above the char, and tar comes before gas"
            }
            Lies::Lower => {
                "the pipe of “{}” meets the fire tube {} below the nozzles, where a flame finds no air"
            }
            Lies::BelowTheTube => {
                "the pipe of “{}” lies {} below the nozzles, but the fire tube ends {} below them: it opens on the cone or beside it, where gas is"
            }
            Lies::PassesBy => "the pipe of “{}” passes beside the fire tube: it opens where gas is",
            Lies::NoPipe => {
                "“{}” is an opening in the shell alone, and no pipe leads from it into the fire tube: it opens where gas is"
            }
        };
        let sizes = match self.lies {
            Lies::AtTheNozzles => vec![above.abs(), self.allowed()],
            Lies::Higher | Lies::Lower => vec![above.abs()],
            Lies::BelowTheTube => vec![above.abs(), straight],
            Lies::PassesBy | Lies::NoPipe => Vec::new(),
        };
        let name = self.hole.name.as_str().into();
        Phrase::new(
            words,
            [name].into_iter().chain(sizes.into_iter().map(length)),
        )
    }

    fn levers(&self) -> Vec<Lever> {
        let field = match self.lies {
            Lies::PassesBy => "offset",
            Lies::NoPipe => "carries",
            _ => "height",
        };
        vec![Lever::input(format!("holes.{}.{field}", self.place))]
    }
}

/// Is the fire lit where it is to burn? A straight tube is lit from above, and wants no port. Not asked of one without.
pub(super) fn lighting_port(design: &Design, review: &MarkingReview) -> Option<Finding> {
    let ports = lighting_ports(design);
    let is_straight = design.hearth.kind == HearthKind::Straight;
    if is_straight && ports.is_empty() {
        return None;
    }
    let mut finding = question(
        "marking.lighting_port",
        "Lighting port opens on the fire",
        "A flame is held to the lighting port while the blower draws air through. The pipe of the port must lead into the fire tube, at the height of the nozzles.",
        "A port that opens anywhere else lets the flame into the room where the gas gathers: mixed with air it explodes, and the char is not lit.",
        review,
    );
    finding.about = "holes";
    finding.caution = Some(FLAME);
    if let (true, Some((_, hole))) = (is_straight, ports.first()) {
        finding.meaning =
            "A straight fire tube is lit from above. A port in the shell leads beside it.";
        finding.verdict = Verdict::Stop;
        finding.compared = Phrase::new(
            "“{}” opens beside a straight fire tube, which is lit from above: take it out of the list",
            [hole.name.as_str().into()],
        );
        return Some(finding);
    }
    let worst = (ports.into_iter())
        .map(|(place, hole)| Port::of(design, place, hole))
        .max_by(|one, other| {
            let off = |port: &Port| port.beside.above.value.abs();
            (one.lies.cmp(&other.lies)).then(off(one).total_cmp(&off(other)))
        });
    let Some(port) = worst else {
        return Some(missing(
            finding,
            "no hole is called a lighting port, and no pipe is set in beside the nozzles: by which the char is lit is not told",
        ));
    };
    finding.verdict = port.verdict();
    finding.compared = port.told();
    let margin = 1.0 - (port.beside.above.abs() / port.allowed()).value;
    let by_height = !matches!(port.lies, Lies::PassesBy | Lies::NoPipe);
    finding.margin = Some(margin).filter(|margin| by_height && margin.is_finite());
    finding.levers = port.levers();
    finding.working = vec![working(&port)];
    Some(finding)
}

fn working(port: &Port) -> Step {
    let measure = |length: Length| Measure::new(Q::Length, length.value);
    let Beside {
        at,
        nozzles,
        fall,
        above,
        ..
    } = port.beside;
    Step {
        words: "Where the pipe meets the fire tube, above the nozzles; below is negative",
        formula: "x = p − n − f",
        values: vec![
            ("p", "middle of the port above the bottom end", measure(at)),
            ("n", "nozzles above the bottom end", measure(nozzles)),
            (
                "f",
                "what a leaning pipe falls on its way to the fire tube",
                measure(fall),
            ),
        ],
        result: measure(above),
        source: Source::CommonPractice,
        sure: "The arithmetic is exact. That the fire is lit at the height of its nozzles is common practice; that half the width of the wider of both holes is near enough is our own mark.",
    }
}
