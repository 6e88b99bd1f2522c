//! Is the vessel that is marked out the wall that its holes pass through?

use super::MarkingReview;
use super::questions::{count, length, question};
use crate::design::inputs::{HoleUse, Layer};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::machine;
use crate::sizing::marking::{AS_WIDE, Mark, Marking, nearest_steel};
use std::f64::consts::PI;
use uom::si::f64::Length;

/// The id of the question.
pub(in crate::review) const SHELL: &str = "marking.shell";

/// The vessel may be this share of its width wider or narrower than the wall it is to be. Our own marks.
const SHELL_WATCH: f64 = AS_WIDE;
const SHELL_STOP: f64 = 0.03;
/// Less than this apart nobody finds with a tape, m. Our own mark.
const LITTLE: f64 = 0.001;
/// A vessel that reaches up more than this share of the body is the body as well. Our own mark.
const SPANNED: f64 = 0.5;

/// A wall of the design with the holes that lie on it.
struct Wall<'a> {
    /// What paths begin with.
    head: &'static str,
    name: &'static str,
    inside: Length,
    layers: &'a [Layer],
    /// Outside of that metal layer which is nearest to the vessel; none without metal.
    steel: Option<Length>,
    holes: Vec<&'a Mark>,
    /// How many of them bind the wall to the vessel.
    binding: usize,
    /// Whether the vessel that was measured reaches up most of the wall, holes or not.
    spanned: bool,
}

impl<'a> Wall<'a> {
    /// Hearth wall and body wall for a vessel so far across. What is set in a hole must meet what is inside, so that
    /// holes for pipes bind a wall to the vessel; mere openings do where there are no others.
    fn both(design: &'a Design, marking: &'a Marking, across: Length) -> [Self; 2] {
        let (vessel, _) = machine::measures(design);
        let hearth_top = vessel.hearth_top - vessel.underside;
        let up_the_body = (marking.vessel.length - hearth_top) / design.body_wall.height;
        let reaches = marking.measured && up_the_body.value > SPANNED;
        let carries = |mark: &Mark| {
            let hole = design.holes.get(mark.hole);
            hole.is_some_and(|hole| hole.carries != HoleUse::Open)
        };
        let pipes = marking.marks.iter().any(carries);
        let wall = |head, name, inside: Length, layers: &'a [Layer], above: bool| {
            let marks = marking.marks.iter();
            let holes: Vec<&Mark> = marks
                .filter(|mark| (mark.above_bottom >= hearth_top) == above)
                .collect();
            let binding = (holes.iter())
                .filter(|mark| !pipes || carries(mark))
                .count();
            Self {
                head,
                name,
                inside,
                layers,
                steel: nearest_steel(inside, layers, across),
                holes,
                binding,
                spanned: above && reaches,
            }
        };
        let (hearth, body) = (&design.hearth_wall, &design.body_wall);
        [
            wall(
                "hearth",
                "hearth wall",
                hearth.inside_diameter,
                &design.hearth_layers,
                false,
            ),
            wall(
                "body",
                "body wall",
                body.inside_diameter,
                &design.body_layers,
                true,
            ),
        ]
    }

    /// How far the vessel is off this wall, as a share of the vessel.
    fn off(&self, across: Length) -> f64 {
        (self.steel).map_or(f64::NAN, |steel| away(steel, across) / across.value)
    }

    fn verdict(&self, across: Length) -> Verdict {
        Verdict::at_most(self.off(across), SHELL_WATCH, SHELL_STOP)
    }

    /// Whether the vessel reaches up this wall, and the wall is nowhere near as wide.
    fn is_torn(&self, across: Length) -> bool {
        self.spanned && self.verdict(across) == Verdict::Stop
    }

    fn levers(&self) -> impl Iterator<Item = Lever> {
        let lining = (self.layers.iter().enumerate())
            .filter(|(_, layer)| !layer.material.is_metal())
            .max_by(|(_, one), (_, other)| one.thickness.value.total_cmp(&other.thickness.value))
            .map(|(place, _)| format!("{}_layers.{place}.thickness", self.head));
        let inside = format!("{}_wall.inside_diameter", self.head);
        [inside].into_iter().chain(lining).map(Lever::input)
    }
}

fn away(steel: Length, across: Length) -> f64 {
    (steel - across).value.abs()
}

/// Is the vessel that is marked out the one that the hearth was sized for? Its outside must be that of a metal layer of
/// the wall that its holes pass through; where they pass through both, the worse counts.
pub(super) fn shell(design: &Design, review: &MarkingReview) -> Option<Finding> {
    let mut finding = question(
        SHELL,
        "Vessel as wide as the design",
        "The vessel that is marked out is the steel of the wall that its holes pass through: lining and hearth must fit into it.",
        "In a narrower vessel lining and hearth have no room; in a wider one the insulation is another than was computed.",
        review,
    );
    let Ok(marking) = &review.marking else {
        return Some(finding);
    };
    let girth = marking.vessel.girth;
    let across = girth / PI;
    let walls = Wall::both(design, marking, across);
    if walls.iter().all(|wall| wall.steel.is_none()) {
        return None;
    }
    finding.about = if marking.measured {
        "real_vessel"
    } else {
        "plan_vessel"
    };
    let key = |wall: &Wall| (wall.verdict(across), wall.off(across));
    let bound = || walls.iter().filter(|wall| wall.binding > 0);
    let worst = bound().max_by(|one, other| {
        let ((one, one_off), (other, other_off)) = (key(one), key(other));
        one.cmp(&other).then(one_off.total_cmp(&other_off))
    });
    let Some(wall) = worst else {
        finding.compared = Phrase::plain("none of the holes has a place on the shell");
        return Some(finding);
    };
    let counts = [count(wall.holes.len()), count(marking.marks.len())];
    let Some(steel) = wall.steel else {
        let words =
            "{} of {} holes pass through the {}, which has no steel that the vessel could be";
        finding.compared = Phrase::new(words, counts.into_iter().chain([wall.name.into()]));
        return Some(finding);
    };
    let off = wall.off(across);
    finding.verdict = wall.verdict(across);
    finding.margin = Some(1.0 - off / SHELL_WATCH).filter(|margin| margin.is_finite());
    let torn = (walls.iter()).find(|other| other.head != wall.head && other.is_torn(across));
    if torn.is_some() && finding.verdict == Verdict::Good {
        (finding.verdict, finding.margin) = (Verdict::Watch, None);
    }
    let words = if marking.measured {
        "the vessel you measured is {} across; {} of {} holes pass through the {}, whose steel is {}{}{}"
    } else {
        "the vessel of the plan is {} across; {} of {} holes pass through the {}, whose steel is {}{}{}"
    };
    let apart = match finding.verdict {
        Verdict::Good if away(steel, across) < LITTLE => Phrase::plain(""),
        _ => Phrase::new(", {} apart", [length((steel - across).abs())]),
    };
    let [on_wall, of_all] = counts;
    finding.compared = Phrase::new(
        words,
        [
            length(across),
            on_wall,
            of_all,
            wall.name.into(),
            length(steel),
            apart.into(),
            other_wall(&walls, wall, across, finding.verdict).into(),
        ],
    );
    finding.working = working(girth, across, wall.inside, steel);
    let others = (walls.iter())
        .filter(|other| other.head != wall.head)
        .filter(|other| other.binding > 0 || other.is_torn(across));
    let levers = wall.levers().chain(others.flat_map(Wall::levers));
    // A vessel measured is a fact; on paper another one may be planned.
    let planned = (!marking.measured).then(|| Lever::input("plan_vessel.girth"));
    finding.levers = levers.chain(planned).collect();
    Some(finding)
}

/// What there is to say of the wall that does not decide.
fn other_wall(walls: &[Wall; 2], decides: &Wall, across: Length, verdict: Verdict) -> Phrase {
    let others = walls.iter().filter(|wall| wall.head != decides.head);
    let Some((other, steel)) = others.filter_map(|wall| Some((wall, wall.steel?))).next() else {
        return Phrase::plain("");
    };
    let fits = other.verdict(across) == Verdict::Good;
    match other.holes.first() {
        _ if other.is_torn(across) => Phrase::new(
            "; it is as long as both walls, but the steel of the {} is {}: one straight vessel is not both",
            [other.name.into(), length(steel)],
        ),
        _ if fits && verdict != Verdict::Good => {
            Phrase::new("; only the {} is as wide", [other.name.into()])
        }
        Some(mark) if !fits => Phrase::new(
            "; “{}” sits on the {}, whose steel is {}: mark it there by its angle, not along the tape",
            [mark.name.as_str().into(), other.name.into(), length(steel)],
        ),
        _ => Phrase::plain(""),
    }
}

fn working(girth: Length, across: Length, inside: Length, steel: Length) -> Vec<Step> {
    vec![
        Step {
            words: "Across the outside, from the tape round it",
            formula: "D = C / π",
            values: vec![("C", "circumference", Measure::new(Q::Length, girth.value))],
            result: Measure::new(Q::Length, across.value),
            source: Source::Reckoned("geometry"),
            sure: "as sure as the tape",
        },
        Step {
            words: "Outside of the wall: inside diameter and all layers up to the steel",
            formula: "d = d_i + 2 Σ t",
            values: vec![
                (
                    "d_i",
                    "inside diameter",
                    Measure::new(Q::Length, inside.value),
                ),
                (
                    "Σ t",
                    "layers up to the steel, and it",
                    Measure::new(Q::Thickness, 0.5 * (steel - inside).value),
                ),
            ],
            result: Measure::new(Q::Length, steel.value),
            source: Source::OwnMark("geometry; Watch from 1 %, Stop from 3 % apart"),
            sure: "as sure as the thicknesses of the layers",
        },
    ]
}
