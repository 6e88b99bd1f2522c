//! Where does water fall out, who takes it, and how often must that be emptied?

use super::{Answer, At, Question, Solved, is};
use crate::design::Source::{CommonPractice, FromMemory};
use crate::design::inputs::StageKind;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::review::train::{levers, new_stage};
use crate::sizing::train::{Detail, GasState, TrainSolution};
use crate::sizing::train_mass::holds;
use uom::si::f64::{MassRate, Ratio, Volume};

/// Drops of water in the gas at the engine, kg per normal m³ of dry gas: Good below the first, Stop above the second.
/// Our own choice: the one is less than a damp day brings, the other wets the spark plugs.
const FEW_DROPS: f64 = 0.002;
const MANY_DROPS: f64 = 0.02;
/// A trap that fills sooner than this share of the wanted time is a Stop. Our own choice.
const GREY_TIME: f64 = 0.25;

pub(super) const CONDENSATE: &str = "Condensate is poisonous, acidic and tarry, and gives off carbon monoxide. Gloves and goggles, drain it outdoors into a closed can, never on the ground or into a drain: collect it, and hand it in as hazardous waste under your local rules.";

pub(super) fn ask(solved: &Solved) -> Vec<Finding> {
    let mut findings: Vec<Finding> = traps(solved).into_iter().collect();
    findings.push(loose(solved));
    findings
}

fn traps(solved: &Solved) -> Option<Finding> {
    let wanted = solved.design.limits.drain_time.value;
    let time = |at: &At| match &at.outcome.detail {
        Detail::Trap(trap) => trap.drain_interval.map_or(f64::INFINITY, |time| time.value),
        _ => f64::INFINITY,
    };
    let (load, at) = [("usual load", solved.usual), ("full load", solved.clean)]
        .into_iter()
        .flat_map(|(load, of)| {
            (solved.stages(of, is(StageKind::Trap))).map(move |stage| (load, stage))
        })
        .min_by(|(_, one), (_, other)| time(one).total_cmp(&time(other)))?;
    let interval = time(&at);
    let shown = interval.min(1.0e9);
    let inflow = at.outcome.water_removed.value;
    let held = holds(at.entry);
    Some(
        Question {
            id: "train.trap_time",
            title: "Time between drainings",
            meaning: "How long the condensate trap takes to fill.",
            why: "A full trap lets its water go on into filter and engine, or closes the gas off.",
            caution: Some(CONDENSATE),
        }
        .answered(Answer {
            verdict: Verdict::at_least(shown, wanted, GREY_TIME * wanted),
            margin: shown / wanted - 1.0,
            compared: if interval.is_finite() {
                let mut slots = vec![
                    solved.name(at.place).into(),
                    load.into(),
                    Measure::new(Q::MassFlow, inflow).into(),
                    Measure::new(Q::LongTime, shown).into(),
                    Measure::new(Q::LongTime, wanted).into(),
                ];
                let small = held < at.entry.capacity;
                if small {
                    let volume = |of: Volume| Measure::new(Q::Volume, of.value).into();
                    slots.extend([volume(held), volume(at.entry.capacity)]);
                }
                Phrase::new(
                    if small {
                        "{}: at {} {} of water fill it in {}, wanted {}; its vessel holds {}, not the {} entered"
                    } else {
                        "{}: at {} {} of water fill it in {}, wanted {}"
                    },
                    slots,
                )
            } else {
                Phrase::new("{}: no water comes to it", [solved.name(at.place).into()])
            },
            working: vec![caught(&at, at.entry.separation)],
            levers: ["capacity", "vessel_height", "vessel_diameter"]
                .map(|name| levers::at(at.place, name))
                .into(),
        }),
    )
}

/// The water that a trap or a wet filter takes out of the gas, by the share of the drops that it catches.
pub(super) fn caught(at: &At, share: Ratio) -> Step {
    let flow = |value: MassRate| Measure::new(Q::MassFlow, value.value);
    Step {
        words: "Steam that the gas can no longer hold becomes water; of all drops this stage takes its share",
        formula: "ṁ = η (ṁ_in + ṁ_new)",
        values: vec![
            ("ṁ_in", "drops that come in", flow(at.gas.liquid)),
            (
                "ṁ_new",
                "steam that becomes water in it",
                flow(at.outcome.condensate),
            ),
            (
                "T",
                "gas in it",
                Measure::new(Q::Temperature, at.outcome.out.temperature.value),
            ),
            ("η", "drops caught", Measure::new(Q::Share, share.value)),
        ],
        result: flow(at.outcome.water_removed),
        source: FromMemory("IAPWS R7-97 saturation line"),
        sure: "As sure as moisture of the wood and temperature in it: about a fifth.",
    }
}

/// Traps where they could be added: before the filter, behind the stage that leaves most water in the gas, before the
/// blower, and at the end; those that keep the blower dry first.
fn new_traps(solved: &Solved, behind: Option<usize>) -> Vec<Lever> {
    let design = solved.design;
    let of = |kind| new_stage::before(design, &[kind]);
    let blower = of(StageKind::Blower);
    let places = [of(StageKind::Filter)]
        .into_iter()
        .chain(behind)
        .chain([blower, design.train.len()]);
    let mut once: Vec<usize> = Vec::new();
    for place in places {
        if !once.contains(&place) {
            once.push(place);
        }
    }
    once.sort_by_key(|place| *place > blower);
    let trap = |place| new_stage::trap(design, place, solved.clean.points.get(place));
    once.into_iter().map(trap).collect()
}

/// Drops that no trap takes.
fn loose(solved: &Solved) -> Finding {
    let drops = |gas: &GasState| gas.liquid.value / gas.dry_flow.value;
    let loads = [solved.usual, solved.dirty, solved.clean];
    let at_end = loads
        .into_iter()
        .filter_map(|solution| solution.points.last());
    let most = at_end.map(drops).fold(0.0, f64::max);
    let left = |solution: &TrainSolution| {
        let end = solution.points.last();
        end.map_or(0.0, |gas| gas.liquid.value)
    };
    // Of loads that leave alike, the one in which most falls out is told.
    let wettest = loads.into_iter().fold(solved.clean, |most, load| {
        let wet = |load: &TrainSolution| (left(load), load.condensate.value);
        if wet(load) > wet(most) { load } else { most }
    });
    let rate = left(wettest);
    // The stage that leaves most new water in the gas.
    let from = [solved.usual, solved.clean]
        .into_iter()
        .flat_map(|load| solved.stages(load, |_| true))
        .max_by(|one, other| {
            let left = |at: &At| (at.outcome.condensate - at.outcome.water_removed).value;
            left(one).total_cmp(&left(other))
        });
    let name = from.map_or_else(String::new, |at| solved.name(at.place));
    let behind = from.map(|at| at.place + 1);
    let falls_out = loads.map(|load| load.condensate.value);
    let condensed = falls_out.into_iter().fold(0.0, f64::max);
    Question {
        id: "train.loose_water",
        title: "Water that no trap takes",
        meaning: "Gas that cools further behind the last trap drops more water, and every trap lets some drops go by.",
        why: "Water in blower, valves and engine rusts them, and in a low bend it closes the pipe.",
        caution: (condensed > 0.0).then_some(CONDENSATE),
    }
    .answered(Answer {
        verdict: Verdict::at_most(most, FEW_DROPS, MANY_DROPS),
        margin: 1.0 - most / FEW_DROPS,
        compared: if most > FEW_DROPS {
            Phrase::new(
                "while the engine runs, {} reaches it as drops and up to {} falls out in all; most of what stays comes from: {}",
                [
                    Measure::new(Q::MassFlow, rate).into(),
                    Measure::new(Q::MassFlow, condensed).into(),
                    name.into(),
                ],
            )
        } else {
            Phrase::new(
                "while the engine runs, {} reaches it as drops and up to {} falls out in all",
                [
                    Measure::new(Q::MassFlow, rate).into(),
                    Measure::new(Q::MassFlow, condensed).into(),
                ],
            )
        },
        working: vec![Step {
            words: "Water in drops where the gas enters the engine",
            formula: "ṁ = ṁ_condensed − ṁ_drained",
            values: vec![
                (
                    "ṁ_condensed",
                    "falls out at the load that leaves most of it",
                    Measure::new(Q::MassFlow, wettest.condensate.value),
                ),
                (
                    "ṁ_drained",
                    "taken by traps and wet filters",
                    Measure::new(Q::MassFlow, wettest.water_removed.value),
                ),
            ],
            result: Measure::new(Q::MassFlow, rate),
            source: CommonPractice,
            sure: "As sure as the share of drops that the traps catch.",
        }],
        levers: levers::moved(
            solved.design,
            &[StageKind::Trap, StageKind::Cooler],
            0..=usize::MAX,
        )
        .into_iter()
            .chain(levers::of(solved.design, is(StageKind::Trap), "separation"))
            .chain(new_traps(solved, behind))
            .chain(levers::of(
                solved.design,
                is(StageKind::Cooler),
                "tube_length",
            ))
            .collect(),
    })
}
