//! Weight, centre of gravity and tipping.

mod bears;
mod filling;
mod frame;
mod hangs;
mod levers;
mod motion;
mod room;
mod stance;
mod stay;

pub use stance::tip_verdict;

pub(super) use frame::overhang;
pub(super) use hangs::BALLAST_HANGS;
pub(super) use levers::most_ballast;

use super::finding::{Chapter, Finding, NamedResult, Verdict};
use crate::design::phrase::Measure;
use crate::design::quantity::Quantity;
use crate::design::{Choice, Design};
use crate::sizing::base_width::WidthStudy;
use crate::sizing::footprint::{Footprint, footprint};
use crate::sizing::frame_strength::{Bars, FrameStrength, frame_strength};
use crate::sizing::kerb::KerbStrike;
use crate::sizing::machine::{Machine, layout};
use crate::sizing::overall::{Overall, overall};
use crate::sizing::tipping::{StateTipping, tipping};
use crate::sizing::weight::{State, Weights, weigh};
use crate::sizing::wind::WindLoad;
use crate::sizing::{kerb, wind};
use uom::si::f64::Length;

/// The caution that goes with everything that can fall over.
const TIP_OVER: &str = "A falling machine crushes, and spills glowing char and poisonous gas. Never climb on it. \
     Tie it down or prop it before you work on it.";

/// What a kerb does, and in which state it does it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KerbAnswer {
    /// The state.
    pub state: State,
    /// The blow.
    pub strike: KerbStrike,
}

/// What the strongest wind does, and towards which edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WindAnswer {
    /// The edge it goes over.
    pub edge: crate::sizing::footprint::Edge,
    /// The load.
    pub load: WindLoad,
}

/// Weight, centre of gravity and tipping.
#[derive(Debug, Clone)]
pub struct Standing {
    /// The machine, put together.
    pub machine: Machine,
    /// Masses and centres of gravity.
    pub weights: Weights,
    /// Contact points and edges.
    pub footprint: Footprint,
    /// Tipping when filled.
    pub full: StateTipping,
    /// Tipping when empty.
    pub empty: StateTipping,
    /// Tipping when empty with the hopper off; none when no hopper is fitted.
    pub hopper_off: Option<StateTipping>,
    /// The worst kerb strike of all wheeled edges and states; none when nothing rolls.
    pub kerb: Option<KerbAnswer>,
    /// The worst wind, machine empty with the hopper on; none without a footprint.
    pub wind: Option<WindAnswer>,
    /// The frame under the full weight; none without a weight or a footprint.
    pub frame: Option<FrameStrength>,
    /// How far it reaches with all that sticks out of its base; none where nothing has a place.
    pub overall: Option<Overall>,
    /// Least base width with which slope, push, wind and a step tip it to neither side; none for own contact points, or
    /// when no allowed width does.
    pub least_width: Option<Length>,
}

impl Standing {
    fn of(design: &Design) -> Self {
        let machine = layout(design);
        let weights = weigh(&machine);
        let footprint = footprint(design);
        let in_state = |state| tipping(&design.base, &machine, &footprint, &weights, state);
        let full = in_state(State::Full);
        let empty = in_state(State::Empty);
        let hopper_off = design.hopper.fitted.then(|| in_state(State::HopperOff));
        let kerb = worst_kerb(design, &footprint, [&full, &empty]);
        let wind = worst_wind(design, &machine, &empty);
        let radius = machine.vessel.hearth_outer_radius;
        let frame = frame_strength(design, weights.in_state(State::Full), radius);
        let overall = overall(design, &machine);
        let least_width =
            WidthStudy::new(design, &machine).and_then(|mut study| study.least_width());
        Self {
            machine,
            weights,
            footprint,
            full,
            empty,
            hopper_off,
            kerb,
            wind,
            frame,
            overall,
            least_width,
        }
    }

    /// The states that are asked about.
    pub fn states(&self) -> impl Iterator<Item = &StateTipping> {
        [&self.full, &self.empty]
            .into_iter()
            .chain(self.hopper_off.as_ref())
    }

    /// The computed numbers with their stable names.
    pub fn results(&self) -> Vec<NamedResult> {
        let mut results = Vec::with_capacity(48);
        let mut tell = |name: String, label: String, quantity, si: f64| {
            results.push(NamedResult::new(name, label, Measure::new(quantity, si)));
        };
        for tipping in self.states() {
            let (name, words) = (tipping.state.name(), tipping.state.words());
            let centre = &tipping.weight.centre;
            let mut of_state = |what: &str, label: &str, quantity, si| {
                tell(
                    format!("standing.{what}_{name}"),
                    format!("{label}, {words}"),
                    quantity,
                    si,
                );
            };
            of_state("mass", "Weight", Quantity::Mass, tipping.weight.mass.value);
            of_state(
                "centre_x",
                "Centre of gravity to the right",
                Quantity::Length,
                centre.x.value,
            );
            of_state(
                "centre_y",
                "Centre of gravity to the back",
                Quantity::Length,
                centre.y.value,
            );
            of_state(
                "centre_height",
                "Height of the centre of gravity",
                Quantity::Length,
                centre.z.value,
            );
            if let Some(weakest) = tipping.weakest() {
                of_state(
                    "tip_angle",
                    "Tip angle",
                    Quantity::Angle,
                    weakest.tip_angle.value,
                );
            }
            if let Some(weakest) = tipping.weakest_to_push() {
                of_state(
                    "tip_push",
                    "Push that tips it",
                    Quantity::Force,
                    weakest.tip_push.value,
                );
                of_state(
                    "tip_energy",
                    "Energy that tips it",
                    Quantity::MechanicalEnergy,
                    weakest.tip_energy.value,
                );
            }
        }
        for sum in &self.weights.groups {
            let (name, label) = (sum.group.name(), sum.group.label());
            tell(
                format!("standing.mass_of_{name}_empty"),
                format!("Weight of {label}, empty"),
                Quantity::Mass,
                sum.empty.value,
            );
            tell(
                format!("standing.mass_of_{name}_full"),
                format!("Weight of {label}, full"),
                Quantity::Mass,
                sum.full.value,
            );
        }
        let over_all = |measure: fn(&Overall) -> Length| {
            (self.overall.as_ref()).map(|overall| measure(overall).value)
        };
        let optional = [
            (
                "overall_width",
                "Width over all, without pipes and hoses",
                Quantity::Length,
                over_all(Overall::width),
            ),
            (
                "overall_depth",
                "Depth over all, without pipes and hoses",
                Quantity::Length,
                over_all(Overall::depth),
            ),
            (
                "overall_height",
                "Height over all, without pipes and hoses",
                Quantity::Length,
                Some(self.machine.top.value),
            ),
            (
                "frame_bears",
                match self.frame.map(|frame| frame.bars) {
                    Some(Bars::Unknown { .. }) => {
                        "Weight the frame bears at the least over the full weight"
                    }
                    _ => "Weight the frame bears over the full weight",
                },
                Quantity::Number,
                self.frame.map(|frame| frame.weakest().1),
            ),
            (
                "least_width",
                "Least base width for slope, push, wind and a step to the sides",
                Quantity::Length,
                self.least_width.map(|width| width.value),
            ),
            (
                "kerb_tip_speed",
                "Rolling speed at which a step tips it",
                Quantity::Velocity,
                (self.kerb.as_ref())
                    .and_then(|answer| answer.strike.tip_speed)
                    .map(|speed| speed.value),
            ),
            (
                "climb_push",
                "Push that climbs the step",
                Quantity::Force,
                (self.kerb.as_ref())
                    .and_then(|answer| answer.strike.climb_push)
                    .map(|push| push.value),
            ),
            (
                "wind_force",
                "Drag of the strongest wind",
                Quantity::Force,
                self.wind.as_ref().map(|answer| answer.load.force.value),
            ),
            (
                "wind_tip_speed",
                "Wind that blows it over",
                Quantity::Wind,
                (self.wind.as_ref())
                    .and_then(|answer| answer.load.tip_speed)
                    .map(|speed| speed.value),
            ),
        ];
        for (name, label, quantity, si) in optional {
            if let Some(si) = si {
                tell(format!("standing.{name}"), label.to_string(), quantity, si);
            }
        }
        results
    }
}

fn worst_kerb(
    design: &Design,
    footprint: &Footprint,
    states: [&StateTipping; 2],
) -> Option<KerbAnswer> {
    let speed =
        |answer: &KerbAnswer| (answer.strike.tip_speed).map_or(f64::INFINITY, |speed| speed.value);
    states
        .into_iter()
        .flat_map(|tipping| {
            footprint.edges.iter().filter_map(|edge| {
                let strike = kerb::strike(&design.base, footprint, edge, &tipping.weight)?;
                Some(KerbAnswer {
                    state: tipping.state,
                    strike,
                })
            })
        })
        .min_by(|a, b| speed(a).total_cmp(&speed(b)))
}

fn worst_wind(design: &Design, machine: &Machine, empty: &StateTipping) -> Option<WindAnswer> {
    let speed =
        |answer: &WindAnswer| (answer.load.tip_speed).map_or(f64::INFINITY, |speed| speed.value);
    (empty.edges.iter())
        .map(|answer| WindAnswer {
            edge: answer.edge,
            load: wind::wind(design, machine, &answer.edge, State::Empty, &empty.weight),
        })
        .min_by(|a, b| speed(a).total_cmp(&speed(b)))
}

/// Puts a design through the questions of this chapter.
pub(super) fn examine(design: &Design) -> (Standing, Vec<Finding>) {
    let standing = Standing::of(design);
    let mut findings = Vec::with_capacity(12);
    findings.push(stance::hull(design, &standing));
    for tipping in standing.states() {
        findings.push(stance::tip(design, &standing, tipping));
    }
    findings.push(stance::push(design, &standing));
    findings.push(stance::clearance(design));
    findings.extend(hangs::ballast(design));
    findings.extend(frame::carried(design, &standing));
    findings.extend(bears::weight(design, &standing));
    findings.extend(room::fits(design, &standing));
    findings.push(filling::filling(design, &standing));
    findings.extend(motion::kerb(design, &standing));
    findings.extend(motion::wind(design, &standing));
    if design.base.slope.value > 0.0 {
        findings.extend(motion::slope(design, &standing));
        findings.extend(stay::stay(design, &standing));
    }
    (standing, findings)
}

/// A finding of this chapter about the base, still without its answer.
fn question(
    design: &Design,
    id: &'static str,
    title: &'static str,
    meaning: &'static str,
    why: &'static str,
) -> Finding {
    Finding {
        id,
        chapter: Chapter::Standing,
        title,
        meaning,
        verdict: Verdict::CannotTell,
        compared: crate::design::phrase::Phrase::plain(
            "needs three contact points that differ and do not lie in one line",
        ),
        why,
        margin: None,
        working: Vec::new(),
        caution: Some(TIP_OVER),
        levers: Vec::new(),
        about: levers::where_it_stands(design),
    }
}
