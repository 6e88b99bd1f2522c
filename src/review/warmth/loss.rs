//! Does the shell keep enough of the wood's heat, at full load and at the lowest?

use super::{FIBRE_CAUTION, Warmth, levers, steps};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::review::heart::{FULL_UNTOLD, Heart, IDLE_UNTOLD, untold};
use crate::sizing::heart::{Basis, HeartAt};
use crate::sizing::shell::{ShellError, ZoneHeat, zone_heat};
use crate::sizing::zone::Zone;
use uom::si::f64::{Power, Ratio};

/// A zone that loses less than this share of the whole is left alone.
const WORTH_CHANGING: f64 = 0.05;

/// The loss at full load and at the lowest load.
pub(super) fn findings(design: &Design, heart: &Heart, warmth: &Warmth) -> [Finding; 2] {
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
        why: "At low load the shell takes more of the fire. More air per wood makes up for it, and the gas gets weak. The same marks are used as at full load.",
        ..full.clone()
    };
    let levers = insulate_where_it_counts(design, warmth);
    let idle_wall = match Zone::Hearth.entered_temperature(design) {
        Some(_) => warmth.wall(Zone::Hearth).clone(),
        None => zone_heat(design, Zone::Hearth, heart.at.idle.supply.wall_temperature),
    };
    let mut idle_levers = levers.clone();
    idle_levers.push(Lever::input("operation.idle_load"));
    [
        judge(
            full,
            design,
            warmth,
            &Load {
                at: &heart.at.full,
                untold: FULL_UNTOLD,
                hearth: warmth.wall(Zone::Hearth),
                loss: warmth.loss,
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
                at: &heart.at.idle,
                untold: IDLE_UNTOLD,
                hearth: &idle_wall,
                loss: warmth.loss_idle,
                share: warmth.loss_share_idle(),
                compared: "{} of the wood's heat leaves through the shell at the lowest load; good up to {}, stop above {}",
            },
            idle_levers,
        ),
    ]
}

struct Load<'a> {
    at: &'a HeartAt,
    /// What is said where no gas is made.
    untold: &'static str,
    /// The hearth wall, which has another temperature at every load.
    hearth: &'a Result<ZoneHeat, ShellError>,
    loss: Option<Power>,
    share: Option<Ratio>,
    compared: &'static str,
}

fn judge(
    mut finding: Finding,
    design: &Design,
    warmth: &Warmth,
    load: &Load<'_>,
    levers: Vec<Lever>,
) -> Finding {
    if !load.at.makes_gas() {
        return untold(finding, load.untold);
    }
    let (Some(loss), Some(share)) = (load.loss, load.share) else {
        let trouble = warmth.trouble().map(ToString::to_string);
        finding.compared = Phrase::new("{}", [trouble.unwrap_or_default().into()]);
        finding.caution = None;
        return finding;
    };
    let good = design.limits.loss_share_good().value;
    let stop = design.limits.loss_share_stop.value;
    let of_share = |share| Measure::new(Q::Share, share).into();
    finding.verdict = Verdict::at_most(share.value, good, stop);
    finding.compared = Phrase::new(
        load.compared,
        [of_share(share.value), of_share(good), of_share(stop)],
    );
    finding.margin = Some((good - share.value) / good);
    finding.working = working(design, warmth, load, loss, share);
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
        .flat_map(|heat| levers::insulation(design, heat.zone, heat.inner_temperature))
        .collect()
}

fn working(
    design: &Design,
    warmth: &Warmth,
    load: &Load<'_>,
    loss: Power,
    share: Ratio,
) -> Vec<Step> {
    let others = warmth.zones.iter().flatten();
    let mut working: Vec<_> = (load.hearth.iter())
        .chain(others.filter(|heat| heat.zone != Zone::Hearth))
        .map(|heat| steps::loss(design, heat))
        .collect();
    let supply = &load.at.supply;
    working.push(Step {
        words: match supply.basis {
            Basis::Solved => "Heat in the wood burnt at this load, as hearth, gas and shell agree",
            _ => "Heat in the wood burnt at this load, as if the hearth lost nothing",
        },
        formula: "P = V / y × H",
        values: vec![
            (
                "V",
                "gas flow at this load",
                Measure::new(Q::NormalFlow, supply.gas_flow.value),
            ),
            (
                "y",
                "normal cubic metres of gas per kilogram of wood",
                Measure::new(Q::Number, supply.gas_per_fuel),
            ),
            (
                "H",
                "heat in the wood, water condensed",
                Measure::new(
                    Q::EnergyPerMass,
                    supply.fuel_power.value / supply.fuel_rate.value,
                ),
            ),
        ],
        result: Measure::new(Q::Power, supply.fuel_power.value),
        source: Source::Published("Channiwala and Parikh, Fuel 81, 2002, for the heat in the wood"),
        sure: "±10 %, mostly by the moisture of the wood; 2.1 to 2.2 m³ of gas from a kilogram (34 to 35 ft³ from a pound) are common, and more from dry wood (common practice, no source)",
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
                Measure::new(Q::Power, supply.fuel_power.value),
            ),
        ],
        result: Measure::new(Q::Share, share.value),
        source: Source::OwnMark(
            "heat through the four zones; pipes, grate shaft and what lets in the air are not counted",
        ),
        sure: "±25 % of its value",
    });
    working
}
