//! Does the shell keep enough of the wood's heat, at full load and at the lowest?

use super::{FIBRE_CAUTION, Warmth, levers, steps};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use uom::si::f64::{Power, Ratio};

/// A zone that loses less than this share of the whole is left alone.
const WORTH_CHANGING: f64 = 0.05;

/// The loss at full load and at the lowest load.
pub(super) fn findings(design: &Design, warmth: &Warmth) -> [Finding; 2] {
    let full = Finding {
        id: "warmth.loss",
        chapter: Chapter::Warmth,
        title: "Heat loss at full load",
        meaning: "Part of the wood's heat leaves through the walls. The hearth makes up for it by burning more wood, and the gas gets weaker.",
        verdict: Verdict::CannotTell,
        compared: Phrase::plain(""),
        why: "Lost heat costs gas quality first: more air is needed, and more air means more nitrogen in the gas.",
        margin: None,
        working: Vec::new(),
        caution: Some(FIBRE_CAUTION),
        levers: Vec::new(),
        about: "hearth_wall",
    };
    let idle = Finding {
        id: "warmth.loss_idle",
        title: "Heat loss at lowest load",
        meaning: "The walls lose the same heat however little wood burns, so at low load the loss takes a larger share.",
        why: "A hearth that cools at low load lets tar through. The same marks are used as at full load.",
        ..full.clone()
    };
    let levers = insulate_where_it_counts(design, warmth);
    let mut idle_levers = levers.clone();
    idle_levers.push(Lever::input("operation.idle_load"));
    [
        judge(
            full,
            design,
            warmth,
            &Load {
                fuel_power: warmth.fuel_power_full,
                share: warmth.loss_share_full(),
                compared: "{} of the wood's heat leaves through the shell at full load; good up to {}, stop above {}",
            },
            levers,
        ),
        judge(
            idle,
            design,
            warmth,
            &Load {
                fuel_power: warmth.fuel_power_idle,
                share: warmth.loss_share_idle(),
                compared: "{} of the wood's heat leaves through the shell at the lowest load; good up to {}, stop above {}",
            },
            idle_levers,
        ),
    ]
}

struct Load {
    fuel_power: Power,
    share: Option<Ratio>,
    compared: &'static str,
}

fn judge(
    mut finding: Finding,
    design: &Design,
    warmth: &Warmth,
    load: &Load,
    levers: Vec<Lever>,
) -> Finding {
    let (Some(loss), Some(share)) = (warmth.loss, load.share) else {
        let trouble = warmth.trouble().map(ToString::to_string);
        finding.compared = Phrase::new("{}", [trouble.unwrap_or_default().into()]);
        finding.caution = None;
        return finding;
    };
    let watch = design.limits.loss_share_watch.value;
    let stop = design.limits.loss_share_stop.value;
    let of_share = |share| Measure::new(Q::Share, share).into();
    finding.verdict = Verdict::at_most(share.value, watch, stop);
    finding.compared = Phrase::new(
        load.compared,
        [of_share(share.value), of_share(watch), of_share(stop)],
    );
    finding.margin = Some((watch - share.value) / watch);
    finding.working = working(design, warmth, load.fuel_power, loss, share);
    finding.levers = levers;
    finding
}

/// Insulation of the zones that lose most, greatest loss first.
fn insulate_where_it_counts(design: &Design, warmth: &Warmth) -> Vec<Lever> {
    let mut zones: Vec<_> = warmth.zones.iter().flatten().collect();
    zones.sort_by(|one, other| other.loss.value.total_cmp(&one.loss.value));
    let whole = warmth.loss.map_or(0.0, |loss| loss.value);
    zones
        .into_iter()
        .filter(|heat| heat.loss.value > WORTH_CHANGING * whole)
        .flat_map(|heat| levers::insulation(design, heat.zone))
        .collect()
}

fn working(
    design: &Design,
    warmth: &Warmth,
    fuel_power: Power,
    loss: Power,
    share: Ratio,
) -> Vec<Step> {
    let mut working: Vec<_> = warmth
        .zones
        .iter()
        .flatten()
        .map(|heat| steps::loss(design, heat))
        .collect();
    working.push(Step {
        words: "Heat in the wood burnt at this load",
        formula: "P = V / y × H × load",
        values: vec![
            (
                "V",
                "gas flow at full load",
                Measure::new(Q::NormalFlow, design.operation.full_gas_flow.value),
            ),
            (
                "y",
                "normal cubic metres of gas per kilogram of wood",
                Measure::new(Q::Number, design.operation.gas_per_wood),
            ),
            (
                "H",
                "heat in the wood",
                Measure::new(Q::EnergyPerMass, design.fuel.heating_value.value),
            ),
        ],
        result: Measure::new(Q::Power, fuel_power.value),
        source: Source::FromMemory("SERI/SP-271-3022, table 5-1, for the gas per kilogram of wood"),
        sure: "±10 %, mostly by the moisture of the wood",
    });
    working.push(Step {
        words: "Loss of all zones as a share of it",
        formula: "share = Σ Q / P",
        values: vec![
            (
                "Σ Q",
                "loss of the shell",
                Measure::new(Q::Power, loss.value),
            ),
            (
                "P",
                "heat in the wood",
                Measure::new(Q::Power, fuel_power.value),
            ),
        ],
        result: Measure::new(Q::Share, share.value),
        source: Source::OwnMark(
            "heat through the four zones; pipes, grate shaft and nozzles are not counted",
        ),
        sure: "±25 % of its value",
    });
    working
}
