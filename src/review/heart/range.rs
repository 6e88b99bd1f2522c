//! From which load to which does the hearth hold?

mod working;

use super::{GAS_CAUTION, Heart, at_load, flow_levers};
use crate::design::Design;
use crate::design::inputs::HearthKind;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::{Quantity as Q, falls_short};
use crate::physics::secant::{NoCrossing, Search, crossing};
use crate::review::finding::{Chapter, Finding, Lever, Verdict};
use crate::review::hearth::{GREY_SHARE, nozzle_ring, surroundings};
use crate::sizing::gas::HearthSolution;
use crate::sizing::heart::HeartAt;
use crate::sizing::hearth_load::hearth_load;
use crate::sizing::nozzles::{NozzleFlow, nozzle_flow};
use uom::si::f64::Ratio;
use uom::si::ratio::ratio;
use working::working;

/// The lowest load looked at.
const LOWEST: f64 = 0.02;
/// The id of the question about the range of loads.
pub(in crate::review) const RANGE: &str = "heart.turndown";

/// The loads at which the hearth holds, as shares of full load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadRange {
    /// Lowest load at which temperature, cold rim and gas are good; none when full load is not.
    pub lowest_by_heat: Option<Ratio>,
    /// Load below which the hearth load is too small; none for a straight tube, for which no mark is published, and where
    /// no gas burns at any of the loads asked about.
    pub lowest_by_hearth_load: Option<Ratio>,
    /// Load at which the narrowest bore is loaded the most it may; for a straight tube, at which it feeds all the engine
    /// that the table gives it. None where that engine gives no answer, or no gas burns at full load.
    pub highest_by_bore: Option<Ratio>,
    /// Load at which the air in the nozzles is the fastest it may be; none without nozzles, or where no gas burns at full load.
    pub highest_by_nozzles: Option<Ratio>,
}

impl LoadRange {
    /// The lowest load that holds everything together.
    pub fn lowest(&self) -> Option<Ratio> {
        let heat = self.lowest_by_heat?;
        Some(
            self.lowest_by_hearth_load
                .map_or(heat, |load| load.max(heat)),
        )
    }

    /// Whether it holds at no load up to full load: what must not be undercut lies above what must not be passed.
    pub fn is_empty(&self) -> bool {
        self.lowest()
            .is_some_and(|lowest| lowest.value > self.most())
    }

    /// The highest load that holds, no more than full load.
    fn most(&self) -> f64 {
        self.highest().map_or(1.0, |highest| highest.value.min(1.0))
    }

    /// The highest load that holds everything together; none where the bore's is not known.
    pub fn highest(&self) -> Option<Ratio> {
        let bore = self.highest_by_bore?;
        Some(self.highest_by_nozzles.map_or(bore, |load| load.min(bore)))
    }
}

/// How far the hearth is from the first of its marks, about 1 for a tenth of it; below zero it fails.
fn in_hand(design: &Design, solution: &HearthSolution) -> f64 {
    let limits = &design.limits;
    let profile = &solution.profile;
    // Where the share allowed to be cold begins.
    let inside = Ratio::new::<ratio>(1.0 - limits.tar_share_good().value);
    let rim = profile.at(inside.sqrt()).value;
    let by_mean = (profile.mean.value - limits.hearth_temperature_good().value) / 100.0;
    let by_rim = (rim - limits.tar_temperature.value) / 100.0;
    let by_heat = (at_load::HOTTEST - profile.mean.value) / 100.0;
    let by_gas = 10.0 * (1e6 * solution.gas.lower_heating_value / limits.gas_heat_good() - 1.0);
    by_mean.min(by_rim).min(by_heat).min(by_gas)
}

/// The lowest load at which the hearth is hot enough, and not too hot. The loss hardly changes with load, so its share goes with one over
/// the load, and the search runs over that.
fn lowest_by_heat(design: &Design, heart: &Heart) -> Option<Ratio> {
    let share = Ratio::new::<ratio>;
    let full = in_hand(design, heart.at.full.solved.as_ref().ok()?);
    if full.is_nan() || full < 0.0 {
        return None;
    }
    let idle = &heart.at.idle;
    let idle_inverse = 1.0 / idle.load.value;
    let slope = idle
        .solved
        .as_ref()
        .ok()
        .filter(|_| idle_inverse > 1.001)
        .map_or(1.0, |solution| {
            (full - in_hand(design, solution)) / (idle_inverse - 1.0)
        })
        .max(0.02);
    let search = Search {
        low: 1.0,
        high: 1.0 / LOWEST,
        first: (1.0 + full / slope).clamp(1.0, 1.0 / LOWEST),
        expected_slope: slope,
        value_tolerance: 0.01,
        step_tolerance: 0.005,
    };
    let mut near = idle.solved.as_ref().ok().copied();
    let found = crossing(search, |inverse| {
        let load = share(1.0 / inverse);
        Ok::<f64, ()>(match heart.model.solve_beside(load, near.as_ref()) {
            Ok(solution) => -in_hand(design, near.insert(solution)),
            Err(_) => f64::INFINITY,
        })
    });
    match found {
        Ok(inverse) | Err(NoCrossing::NotSettled(inverse)) => Some(share(1.0 / inverse)),
        Err(NoCrossing::AboveRange) => Some(share(LOWEST)),
        Err(NoCrossing::BelowRange) => Some(share(1.0)),
        Err(NoCrossing::Function(())) => None,
    }
}

/// The lowest of the loads asked about at which gas is made, and what it is called.
fn lowest_with_gas(heart: &Heart) -> Option<(&HeartAt, &'static str)> {
    let at = &heart.at;
    [
        (&at.idle, "your lowest load"),
        (&at.usual, "your usual load"),
        (&at.full, "full load"),
    ]
    .into_iter()
    .find(|(at, _)| at.makes_gas())
}

pub(super) fn of(design: &Design, heart: &Heart) -> LoadRange {
    let share = Ratio::new::<ratio>;
    let constricted = design.hearth.kind == HearthKind::Constricted;
    let throat = design.hearth.throat_diameter;
    // Where no gas burns, flow and air only stand in for an answer.
    let full = Some(&heart.at.full).filter(|full| full.makes_gas());
    let load = |flow| hearth_load(flow, throat).value;
    LoadRange {
        lowest_by_heat: lowest_by_heat(design, heart),
        lowest_by_hearth_load: lowest_with_gas(heart)
            .filter(|_| constricted)
            .map(|(at, _)| at.load * (design.limits.hearth_load_least / load(at.supply.gas_flow))),
        highest_by_bore: full.and_then(|full| {
            if constricted {
                let most = design.limits.hearth_load_most;
                Some(share(most / load(full.supply.gas_flow)))
            } else {
                heart.load_of_tube(design, design.hearth.tube_diameter)
            }
        }),
        highest_by_nozzles: full
            .filter(|_| constricted)
            .map(|_| design.limits.nozzle_velocity_most / full_jet(design, heart).velocity),
    }
}

/// Whether no gas worth burning is made at a load, by the marks of the question about it.
fn is_stopped(design: &Design, at: &HeartAt) -> bool {
    match &at.solved {
        Ok(solution) => at_load::judge(design, solution).verdict == Verdict::Stop,
        Err(_) => true,
    }
}

/// Whether the hearth load is a Stop at the lowest load, by the mark of the question about it.
fn too_little(idle: f64, range: &LoadRange) -> bool {
    let least = range.lowest_by_hearth_load;
    least.is_some_and(|least| idle < least.value * (1.0 - GREY_SHARE))
}

/// A lowest load outside of the range is no worse than what is said of that load itself.
fn outside(is_within: bool, is_stopped: bool) -> Verdict {
    match (is_within, is_stopped) {
        (true, _) => Verdict::Good,
        (false, true) => Verdict::Stop,
        (false, false) => Verdict::Watch,
    }
}

/// What full load overruns, narrowest first: the bore, the nozzles.
fn too_narrow(design: &Design, range: &LoadRange) -> Vec<Lever> {
    let bore = match design.hearth.kind {
        HearthKind::Straight => "hearth.tube_diameter",
        HearthKind::Constricted => "hearth.throat_diameter",
    };
    let nozzles = (range.highest_by_nozzles, "hearth.nozzle_bore");
    let mut narrow: Vec<_> = [(range.highest_by_bore, bore), nozzles]
        .into_iter()
        .filter_map(|(highest, path)| Some((highest?.value, path)))
        .filter(|(highest, _)| falls_short(*highest, 1.0))
        .collect();
    narrow.sort_by(|(one, _), (other, _)| one.total_cmp(other));
    let paths = narrow.into_iter().map(|(_, path)| path);
    paths.map(Lever::input).collect()
}

pub(super) fn finding(design: &Design, heart: &Heart, range: &LoadRange) -> Finding {
    let idle = heart.at.idle.load.value;
    let mut finding = Finding {
        id: RANGE,
        chapter: Chapter::Heart,
        title: "Range of loads",
        meaning: "The shell takes the same heat however little wood burns. Below some load the gas is too weak or the hearth too cold for it, above another it is overrun.",
        verdict: Verdict::CannotTell,
        compared: Phrase::plain("cannot be told: the hearth has no solution at full load"),
        why: "Most tar is made at low load, not at full load: while the machine waits, and while it is tried out.",
        margin: None,
        working: working(design, heart, range),
        caution: Some(GAS_CAUTION),
        levers: Vec::new(),
        about: "operation",
    };
    let solved = match &heart.at.full.solved {
        Ok(_) => true,
        Err(error) => error.too_cold(),
    };
    if !solved {
        return finding;
    }
    finding.levers = vec![Lever::input("operation.idle_load")];
    let by_throat =
        range.lowest_by_heat.is_some() && range.lowest_by_hearth_load > range.lowest_by_heat;
    if by_throat {
        finding.levers.push(Lever::input("hearth.throat_diameter"));
    } else if let Ok(solution) = &heart.at.idle.solved {
        let failing = at_load::judge(design, solution).failing;
        if failing.gas && !failing.tar {
            finding.why = failing.why();
        }
    }
    finding
        .levers
        .extend(at_load::levers(design, heart, &heart.at.idle));
    match range.lowest().map(|load| load.value) {
        Some(lowest) if range.is_empty() => {
            holds_nowhere(&mut finding, design, heart, range, lowest, by_throat)
        }
        Some(lowest) => holds_from(&mut finding, design, heart, range, lowest),
        None => {
            let any = [&heart.at.full, &heart.at.idle]
                .map(|at| is_stopped(design, at))
                .contains(&true);
            finding.verdict = outside(false, any || too_little(idle, range));
            finding.margin = Some(-1.0);
            let found = (heart.at.full.solved.as_ref()).map(|full| at_load::judge(design, full));
            let failing = found.map(|found| found.failing);
            let hot = failing.is_ok_and(|failing| failing.hot && !failing.tar && !failing.gas);
            if hot {
                finding.why = "A fire that is too hot melts its ash, and no material of the table bears it for long.";
                // Wetter wood would cool the fire, and is no advice.
                let moisture = Lever::input("fuel.moisture");
                finding.levers.retain(|lever| *lever != moisture);
            }
            finding.compared = Phrase::new(
                match hot {
                    // At less load it may be cooler.
                    true => "does not hold up to full load, where {}; your lowest load is {}",
                    false => "holds at no load: even at full load {}; your lowest load is {}",
                },
                [failing_at_full(design, heart).into(), share(idle)],
            );
        }
    }
    finding
}

fn share(value: f64) -> Slot {
    Measure::new(Q::Share, value).into()
}

/// Whether the lowest load gives no gas worth burning, or far too little of it for the throat.
fn stops_below(design: &Design, heart: &Heart, range: &LoadRange) -> bool {
    let idle = &heart.at.idle;
    is_stopped(design, idle) || too_little(idle.load.value, range)
}

/// Where bore or nozzles are overrun before the gas is good.
fn holds_nowhere(
    finding: &mut Finding,
    design: &Design,
    heart: &Heart,
    range: &LoadRange,
    lowest: f64,
    by_throat: bool,
) {
    let idle = heart.at.idle.load.value;
    finding.verdict = outside(false, stops_below(design, heart, range));
    finding.margin =
        Some(idle.min(range.most()) / lowest - 1.0).filter(|margin| margin.is_finite());
    let nozzles = design.in_use("hearth.nozzle_bore");
    finding.compared = Phrase::new(
        match (by_throat, lowest > 1.0) {
            (true, true) => {
                "holds at no load: not even full load draws gas enough for so wide a throat; your lowest load is {}"
            }
            (true, false) => {
                "holds at no load: bore or nozzles are overrun before enough gas passes the throat; your lowest load is {}"
            }
            (false, _) if nozzles => {
                "holds at no load: bore or nozzles are overrun before the hearth is hot enough; your lowest load is {}"
            }
            (false, _) => {
                "holds at no load: the bore is overrun before the hearth is hot enough; your lowest load is {}"
            }
        },
        [share(idle)],
    );
    if nozzles {
        finding.levers.push(Lever::input("hearth.nozzle_bore"));
    }
}

/// Where there is a range, which full load may overrun.
fn holds_from(
    finding: &mut Finding,
    design: &Design,
    heart: &Heart,
    range: &LoadRange,
    lowest: f64,
) {
    let idle = heart.at.idle.load.value;
    let below = stops_below(design, heart, range);
    // By how much full load overruns it has a question of its own for bore and nozzles.
    let overrun = falls_short(range.most(), 1.0);
    finding.verdict = outside(idle >= lowest, below).max(outside(!overrun, false));
    let most = range.highest().map_or(f64::INFINITY, |load| load.value);
    finding.margin = Some((idle / lowest).min(most) - 1.0).filter(|margin| margin.is_finite());
    if overrun {
        if idle >= lowest {
            finding.levers.clear();
            finding.why = "More gas than the hearth bears tears char dust along, has no time to react, and is hard to suck.";
        }
        let wider = too_narrow(design, range).into_iter();
        for lever in wider.chain(flow_levers(design)) {
            if !finding.levers.contains(&lever) {
                finding.levers.push(lever);
            }
        }
    }
    finding.compared = match range.highest() {
        Some(highest) => Phrase::new(
            if overrun {
                "holds from {} to {} of full load, and more overruns it; your lowest load is {}"
            } else {
                "holds from {} to {} of full load; your lowest load is {}"
            },
            [share(lowest), share(highest.value), share(idle)],
        ),
        None => Phrase::new(
            "holds from {} of full load; your lowest load is {}",
            [share(lowest), share(idle)],
        ),
    };
}

/// What is not good enough at full load, each with its number and its mark.
fn failing_at_full(design: &Design, heart: &Heart) -> Phrase {
    let Ok(solution) = &heart.at.full.solved else {
        return Phrase::plain("the hearth is too cold to make gas");
    };
    let limits = &design.limits;
    let found = at_load::judge(design, solution);
    let told = |words, quantity, [is, mark]: [f64; 2]| {
        let slots = [is, mark].map(|si| Measure::new(quantity, si).into());
        Phrase::new(words, slots)
    };
    let (mean, wanted) = (found.mean.value, limits.hearth_temperature_good().value);
    let (cold, most) = (found.cold.value, limits.tar_share_good().value);
    let (heat, least) = (found.gas_heat, limits.gas_heat_good());
    let by_mean = (mean < wanted).then(|| {
        let words = "the mean temperature in the fire is {}, wanted at least {}";
        told(words, Q::Temperature, [mean, wanted])
    });
    let by_heat = (mean > at_load::HOTTEST).then(|| {
        let words = "the mean temperature in the fire is {}, wanted at most {}";
        told(words, Q::Temperature, [mean, at_load::HOTTEST])
    });
    let by_rim = (cold > most).then(|| {
        let words = "{} of the hearth is too cold for tar, wanted at most {}";
        told(words, Q::Share, [cold, most])
    });
    let by_gas = (heat < least).then(|| {
        let words = "the gas has {}, wanted at least {}";
        told(words, Q::EnergyPerVolume, [heat, least])
    });
    ([by_mean, by_heat, by_rim, by_gas].into_iter().flatten())
        .reduce(|told, next| Phrase::new("{}, and {}", [told.into(), next.into()]))
        .unwrap_or_else(|| Phrase::plain("it is just not good enough"))
}

/// The air in the nozzles at full load.
fn full_jet(design: &Design, heart: &Heart) -> NozzleFlow {
    let full = &heart.at.full.supply;
    nozzle_flow(
        full.gas_flow,
        full.gas_per_air,
        &nozzle_ring(design),
        &surroundings(design),
    )
}
