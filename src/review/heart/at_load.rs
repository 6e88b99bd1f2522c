//! Does the hearth get hot enough for clean gas, at full, usual and lowest load?

use super::{GAS_CAUTION, Heart, flow_levers, working};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, celsius};
use crate::review::finding::{Chapter, Finding, Lever, Verdict};
use crate::review::warmth::levers::insulation;
use crate::sizing::gas::HearthSolution;
use crate::sizing::heart::HeartAt;
use uom::si::f64::{Ratio, ThermodynamicTemperature};

/// A zone that loses less than this share of the whole is left alone.
const WORTH_CHANGING: f64 = 0.05;

/// Why heat in the hearth matters at all.
const WHY: &str = "Heat lost through the wall makes weak gas, and a cold rim lets tar through that gums up the engine's valves.";

/// Hotter than this on average, ash melts and nothing bears the fire, K: wood ash runs to slag from about 1200 to 1400 °C
/// (common practice, no source), and the material of the table that bears most, dense castable, bears 1400 °C.
pub const HOTTEST: f64 = celsius(1400.0);

/// Which of the numbers are not Good.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Failing {
    /// Mean temperature or cold rim: tar gets through.
    pub tar: bool,
    /// Heat in the gas.
    pub gas: bool,
    /// Mean temperature: ash melts, and nothing bears it.
    pub hot: bool,
}

impl Failing {
    /// Why that matters, in one line.
    pub fn why(self) -> &'static str {
        match (self.tar, self.gas) {
            (false, false) if self.hot => {
                "Here ash melts to slag that clogs the hearth, and no material of the table bears the fire for long: steel in the fire burns away. Whether the wall bears its side of it is told under “Layers of the hearth wall”."
            }
            (false, true) if self.hot => {
                "Here ash melts to slag that clogs the hearth, and steel in the fire burns away; and the gas is weak all the same, so that an engine loses power on it and stalls."
            }
            (true, false) => {
                "Where the char does not glow bright tar gets through, and gums up the engine's valves."
            }
            (false, true) => {
                "The fire is hot enough, but the gas is weak: more air makes up for what the shell and wet wood take. An engine loses power on it, and stalls."
            }
            _ => WHY,
        }
    }
}

/// The numbers that carry the verdict.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Verdicts {
    /// Mean temperature in the fire.
    pub mean: ThermodynamicTemperature,
    /// Share of the cross-section too cold for tar.
    pub cold: Ratio,
    /// Heat in the gas, J per normal m³.
    pub gas_heat: f64,
    /// What is said of each of them.
    pub each: [Verdict; 3],
    /// Which of them are not Good.
    pub failing: Failing,
    /// The worst of them.
    pub verdict: Verdict,
    /// Distance of the worst from Good.
    pub margin: f64,
}

pub(super) fn judge(design: &Design, solution: &HearthSolution) -> Verdicts {
    let limits = &design.limits;
    let (wanted, tar) = (limits.hearth_temperature_good(), limits.tar_temperature);
    let mean = solution.profile.mean;
    let cold = solution.profile.share_colder_than(tar);
    let gas_heat = 1e6 * solution.gas.lower_heating_value;
    let (most, least) = (limits.tar_share_good().value, limits.gas_heat_good());
    let by_mean = Verdict::at_least(mean.value, wanted.value, tar.value);
    let by_cold = Verdict::at_most(cold.value, most, limits.tar_share_stop.value);
    let by_tar = by_mean.max(by_cold);
    let by_gas = Verdict::at_least(gas_heat, least, limits.gas_heat_stop);
    let by_heat = Verdict::at_most(mean.value, HOTTEST, f64::INFINITY);
    let failing = Failing {
        tar: by_tar != Verdict::Good,
        gas: by_gas != Verdict::Good,
        hot: by_heat != Verdict::Good,
    };
    let margin = ((mean.value - wanted.value) / (wanted.value - celsius(0.0)))
        .min((HOTTEST - mean.value) / (HOTTEST - celsius(0.0)))
        .min(most - cold.value)
        .min(gas_heat / least - 1.0);
    Verdicts {
        mean,
        cold,
        gas_heat,
        each: [by_mean.max(by_heat), by_cold, by_gas],
        failing,
        verdict: by_tar.max(by_gas).max(by_heat),
        margin,
    }
}

/// What is said of the three numbers that decide whether the gas is clean, each by itself: mean temperature in the fire,
/// share too cold for tar, heat in the gas.
pub fn judge_each(design: &Design, solution: &HearthSolution) -> [Verdict; 3] {
    judge(design, solution).each
}

/// One finding for each of the three loads.
pub(super) fn findings(design: &Design, heart: &Heart) -> [Finding; 3] {
    let at = &heart.at;
    let full = Finding {
        id: "heart.full",
        title: "Clean gas at full load",
        ..finding(design, heart, &at.full)
    };
    let mut usual = Finding {
        id: "heart.usual",
        title: "Clean gas at the usual load",
        ..finding(design, heart, &at.usual)
    };
    usual.levers.push(Lever::input("operation.usual_load"));
    let mut idle = Finding {
        id: "heart.idle",
        title: "Clean gas at the lowest load",
        ..finding(design, heart, &at.idle)
    };
    idle.levers.push(Lever::input("operation.idle_load"));
    [full, usual, idle]
}

fn finding(design: &Design, heart: &Heart, at: &HeartAt) -> Finding {
    let mut finding = Finding {
        id: "",
        chapter: Chapter::Heart,
        title: "",
        meaning: "Tar only breaks up where char glows bright. A hearth that loses heat burns its own gas to make up for it: its middle stays hot, or even gets hotter, while the gas gets weak and the rim cold.",
        verdict: Verdict::CannotTell,
        compared: Phrase::plain(""),
        why: WHY,
        margin: None,
        working: Vec::new(),
        caution: Some(GAS_CAUTION),
        levers: levers(design, heart, at),
        about: "hearth",
    };
    match &at.solved {
        Ok(solution) => {
            let numbers = judge(design, solution);
            finding.verdict = numbers.verdict;
            finding.why = numbers.failing.why();
            finding.margin = numbers.margin.is_finite().then_some(numbers.margin);
            finding.compared = compared(design, &numbers);
            finding.working = working::at_load(design, at, solution);
            // Wetter wood would cool the fire, and is no advice.
            if numbers.failing.hot {
                let moisture = Lever::input("fuel.moisture");
                finding.levers.retain(|lever| *lever != moisture);
            }
        }
        Err(error) if error.too_cold() => {
            finding.verdict = Verdict::Stop;
            finding.margin = Some(-1.0);
            // Wood and loss are known of a hearth that loses nothing alone: they are no comparison.
            finding.compared = Phrase::new("no gas that burns: {}", [error.to_string().into()]);
            finding.working = working::unsolved(at);
        }
        Err(error) => {
            finding.compared = Phrase::new("{}", [error.to_string().into()]);
            finding.levers.clear();
        }
    }
    finding
}

fn compared(design: &Design, numbers: &Verdicts) -> Phrase {
    let limits = &design.limits;
    Phrase::new(
        "gas of {}, wanted at least {}; {} of the hearth too cold for tar, wanted at most {}; mean temperature in the fire {}, wanted {} to {}",
        [
            Measure::new(Q::EnergyPerVolume, numbers.gas_heat).into(),
            Measure::new(Q::EnergyPerVolume, limits.gas_heat_good()).into(),
            Measure::new(Q::Share, numbers.cold.value).into(),
            Measure::new(Q::Share, limits.tar_share_good().value).into(),
            Measure::new(Q::Temperature, numbers.mean.value).into(),
            Measure::new(Q::Temperature, limits.hearth_temperature_good().value).into(),
            Measure::new(Q::Temperature, HOTTEST).into(),
        ],
    )
}

/// Insulation where most heat leaves, drier wood, a smaller hearth, more wood burned.
pub(super) fn levers(design: &Design, heart: &Heart, at: &HeartAt) -> Vec<Lever> {
    let wall = at.supply.wall_temperature;
    let mut zones = heart.model.zone_losses(wall);
    zones.sort_by(|(_, one), (_, other)| other.value.total_cmp(&one.value));
    let whole: f64 = zones.iter().map(|(_, loss)| loss.value).sum();
    let mut levers: Vec<Lever> = zones
        .into_iter()
        .filter(|(_, loss)| loss.value > WORTH_CHANGING * whole)
        .flat_map(|(zone, _)| {
            insulation(
                design,
                zone,
                zone.entered_temperature(design).unwrap_or(wall),
            )
        })
        .collect();
    if heart
        .moisture
        .as_ref()
        .is_ok_and(|moisture| moisture.weighed.is_none())
    {
        levers.push(Lever::input("fuel.moisture"));
    }
    levers.push(Lever::input("hearth_wall.height"));
    levers.extend(flow_levers(design));
    levers
}
