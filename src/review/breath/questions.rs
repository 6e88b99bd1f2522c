//! The questions of the breath chapter.

use super::{BlowerDuty, BlowerReview, Breath, Duty, Part, PartLoss, has_blower, place, working};
use crate::design::Design;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Verdict};
use crate::review::heart::flow_levers;
use crate::review::train::{TrainReview, levers, new_stage, nothing_passes};
use crate::sizing::pressure_chain::HearthStage;
use crate::sizing::train::TrainError;

/// A start-up flow short by less than this share is Watch: the fire still draws, only slower. Our own choice.
const GREY_FLOW: f64 = 0.10;

const FLARE: &str = "A fifth of the gas, from charcoal a third, is carbon monoxide. Light blower and flare outdoors only, keep the flare burning, stay upwind, wear a carbon monoxide alarm, never work alone.";
pub(super) const LEAKS: &str = "After the blower gas is pushed out at every leak; before it air is sucked in and can make an explosive mixture. Use a sealed, spark-free fan, outdoors, with a carbon monoxide alarm.";
const SUCTION: &str = "Under suction every leak lets air in. If the gas burns or pulses inside the pipes, stop and find the leak.";

/// Every question that fits the design.
pub(super) fn ask(design: &Design, train: &TrainReview, breath: &Breath) -> Vec<Finding> {
    let mut findings = vec![startup(design, train, breath)];
    if design.blower.assists && has_blower(design) {
        findings.push(full_dirty(design, train, breath));
    }
    if has_blower(design) {
        findings.push(stall(design, train, breath));
    }
    findings.push(suction(design, train, breath));
    findings.extend(place::finding(design, train, breath));
    findings.extend(place::more_than_one(design));
    findings
}

fn inputs(paths: &[&'static str]) -> Vec<Lever> {
    paths.iter().map(|path| Lever::input(*path)).collect()
}

/// A grate that takes less than this share of the whole is left alone. Our own mark.
const WORTH_OPENING: f64 = 0.1;

/// What opens a grate that takes much of the pressure.
fn more_grate(duty: &Result<Duty, TrainError>) -> Vec<Lever> {
    let takes_much = duty.as_ref().is_ok_and(|duty| {
        let of_grate = |loss: &&PartLoss| loss.part == Part::Hearth(HearthStage::Grate);
        let grate = duty.stages.iter().find(of_grate);
        grate.is_some_and(|grate| grate.drop > duty.drop * WORTH_OPENING)
    });
    match takes_much {
        true => inputs(&["grate.pitch", "grate.hole"]),
        false => Vec::new(),
    }
}

/// A bed that is said to clog more than this is shaken sooner. Our own mark: what is taken where nothing is entered.
const CLOGS: f64 = 2.0;

/// What takes most of the pressure, and how much: whoever reads it looks there first. How far a bed clogs is no builder's
/// choice, but when it is shaken is.
fn most_of_it(design: &Design, duty: &Result<Duty, TrainError>) -> Phrase {
    let stages = duty.as_ref().map_or(&[][..], |duty| &duty.stages);
    let most = (stages.iter()).max_by(|one, other| one.drop.value.total_cmp(&other.drop.value));
    most.map_or(Phrase::plain(""), |most| {
        let is_bed = most.part == Part::Hearth(HearthStage::Char);
        Phrase::new(
            if is_bed && design.hearth.bed_fouling > CLOGS {
                "; most of it in “{}”: {}. Shake the grate sooner and sieve the char: a bed that clogs less has a lower fouling factor"
            } else {
                "; most of it in “{}”: {}"
            },
            [
                most.label.to_string().into(),
                Measure::new(Q::Pressure, most.drop.value).into(),
            ],
        )
    })
}

const DIRTY: &str = "at full load with a dirty filter";

/// What is left to say of a load at which no gas flows at all; none where some does, or where nobody can tell.
fn choked(why: Option<&TrainError>, at: &'static str) -> Option<(Verdict, Option<f64>, Phrase)> {
    let why = why.filter(|why| why.lets_nothing_through())?;
    Some((Verdict::Stop, None, nothing_passes(why, at)))
}

/// What is left to say where no blower stands in the train. To light a hearth by the suction of the engine fills that with
/// smoke, tar and air, and burns nothing off at a flare.
fn without_blower(design: &Design) -> Option<(Verdict, Option<f64>, Phrase)> {
    let compared = "there is no blower in the gas train: the machine can neither be purged of air before a flame comes near, nor its gas burn at a flare before the engine gets it";
    (!has_blower(design)).then(|| (Verdict::Stop, None, Phrase::plain(compared)))
}

/// What lets gas through at a load where none passes.
fn through(design: &Design, duty: &Result<Duty, TrainError>) -> Option<Vec<Lever>> {
    let why = duty.as_ref().err()?;
    (why.lets_nothing_through()).then(|| levers::through(design, why))
}

fn finite(margin: f64) -> Option<f64> {
    margin.is_finite().then_some(margin)
}

/// What a blower question answers from the blower's review.
struct Answer {
    verdict: Verdict,
    margin: Option<f64>,
    compared: Phrase,
}

/// The answer from a usable blower curve, or that it cannot be told and why.
fn answer(breath: &Breath, from: impl FnOnce(&BlowerReview) -> Answer) -> Answer {
    match &breath.blower {
        Ok(blower) => from(blower),
        Err(error) => Answer {
            verdict: Verdict::CannotTell,
            margin: None,
            compared: Phrase::new("{}", [error.to_string().into()]),
        },
    }
}

fn startup(design: &Design, train: &TrainReview, breath: &Breath) -> Finding {
    let needed = train.startup_load.start.dry_flow.value;
    let Answer {
        verdict,
        margin,
        compared,
    } = answer(breath, |blower| {
        let duty = &blower.startup;
        let flow = duty.gas_flow.value;
        let slots = [
            Measure::new(Q::NormalFlow, flow).into(),
            Measure::new(Q::Share, duty.running.speed_share.value).into(),
            Measure::new(Q::NormalFlow, needed).into(),
        ];
        let speed = duty
            .speed_needed
            .map(|speed| Measure::new(Q::Share, speed.value).into());
        let verdict = Verdict::at_least(flow, needed, needed * (1.0 - GREY_FLOW));
        let compared = match (speed, duty.working.past_end) {
            (Some(speed), false) => Phrase::new(
                "pulls {} through the flare at {} of rated speed, wanted {}; that takes {} of rated speed",
                slots.into_iter().chain([speed]),
            ),
            (Some(speed), true) => Phrase::new(
                "pulls at least {} through the flare at {} of rated speed, where its curve ends, wanted {}; that takes {} of rated speed",
                slots.into_iter().chain([speed]),
            ),
            (None, _) => Phrase::new(
                "pulls {} through the flare at {} of rated speed, wanted {}; no speed of this blower is enough",
                slots,
            ),
        };
        Answer {
            verdict,
            margin: finite(flow / needed - 1.0),
            compared: match &breath.startup {
                Ok(asked) if verdict != Verdict::Good => Phrase::new(
                    "{}; a blower has to make {} at {} there{}",
                    [
                        compared.into(),
                        Measure::new(Q::Pressure, asked.drop.value).into(),
                        Measure::new(Q::Flow, asked.flow_at_blower.value).into(),
                        most_of_it(design, &breath.startup).into(),
                    ],
                ),
                _ => compared,
            },
        }
    });
    let (verdict, margin, compared) = choked(breath.startup.as_ref().err(), "while lighting")
        .or_else(|| without_blower(design))
        .unwrap_or((verdict, margin, compared));
    let mut steps = working::chain(design, train, &train.startup, &breath.startup);
    if let Ok(blower) = &breath.blower {
        steps.push(working::working_point(&blower.startup));
    }
    Finding {
        id: "breath.startup",
        chapter: Chapter::Breath,
        title: "Blower while lighting",
        meaning: "The blower pulls air through the fire and pushes gas to the flare until the gas is good, even with filters that are due.",
        verdict,
        compared,
        why: "Too little flow and the fire never gets hot enough to make clean gas.",
        margin,
        working: steps,
        caution: Some(FLARE),
        levers: through(design, &breath.startup).unwrap_or_else(|| {
            if !has_blower(design) {
                return vec![new_stage::blower(design, design.train.len())];
            }
            inputs(&["blower.startup_speed_share", "operation.startup_share"])
                .into_iter()
                .chain(more_grate(&breath.startup))
                .chain(levers::wider(design, &train.startup, 1))
                .chain(inputs(&["hearth.throat_diameter"]))
                .collect()
        }),
        about: if has_blower(design) {
            "blower"
        } else {
            "train"
        },
    }
}

fn full_dirty(design: &Design, train: &TrainReview, breath: &Breath) -> Finding {
    let wanted = design.limits.blower_margin.value;
    let Answer {
        verdict,
        margin,
        compared,
    } = answer(breath, |blower| {
        let (Some(duty), Ok(asked)) = (&blower.full_dirty, &breath.full_dirty) else {
            return Answer {
                verdict: Verdict::CannotTell,
                margin: None,
                compared: Phrase::plain("full load cannot be computed"),
            };
        };
        let needed = asked.drop.value;
        let available = duty.available.map_or(0.0, |pressure| pressure.value);
        let reserve = available / needed - 1.0;
        let limit = needed * (1.0 + wanted);
        let end = blower.curve.largest_flow(&duty.running).value;
        Answer {
            verdict: Verdict::at_least(available, limit, needed),
            margin: finite(available / limit - 1.0),
            compared: if duty.available.is_some() {
                Phrase::new(
                    "makes {} at full flow, hearth and dirty train take {}: reserve {}, wanted {}",
                    [
                        Measure::new(Q::Pressure, available).into(),
                        Measure::new(Q::Pressure, needed).into(),
                        Measure::new(Q::Share, reserve).into(),
                        Measure::new(Q::Share, wanted).into(),
                    ],
                )
            } else {
                Phrase::new(
                    "its curve ends at {}, full gas flow is {} at the blower",
                    [
                        Measure::new(Q::Flow, end).into(),
                        Measure::new(Q::Flow, duty.flow_needed.value).into(),
                    ],
                )
            },
        }
    });
    let (verdict, margin, compared) =
        choked(breath.full_dirty.as_ref().err(), DIRTY).unwrap_or((verdict, margin, compared));
    let mut steps = working::chain(design, train, &train.full_dirty, &breath.full_dirty);
    if let Ok(BlowerReview {
        full_dirty: Some(duty),
        ..
    }) = &breath.blower
    {
        steps.push(working::working_point(duty));
    }
    Finding {
        id: "breath.full_dirty",
        chapter: Chapter::Breath,
        title: "Blower at full load, filter dirty",
        meaning: "If the blower runs with the engine it must carry the full gas flow until you clean the filter.",
        verdict,
        compared,
        why: "Without reserve the gas flow falls, and power with it, as soon as filter or char clog. A blower that cannot keep up may also rest while the engine runs: then the engine pulls the gas by itself.",
        margin,
        working: steps,
        caution: Some(LEAKS),
        levers: through(design, &breath.full_dirty).unwrap_or_else(|| {
            inputs(&["blower.speed_share"])
                .into_iter()
                .chain(more_grate(&breath.full_dirty))
                .chain(levers::wider(design, &train.full_dirty, 2))
                .chain(inputs(&["hearth.throat_diameter"]))
                .chain(flow_levers(design))
                .collect()
        }),
        about: "blower",
    }
}

fn stall(design: &Design, train: &TrainReview, breath: &Breath) -> Finding {
    let wanted = design.limits.stall_margin.value;
    let Answer {
        verdict,
        margin,
        compared,
    } = answer(breath, |blower| {
        let nearest = duties_in_use(blower)
            .filter_map(|duty| Some((duty, duty.working.stall_margin?)))
            .min_by(|one, other| one.1.total_cmp(&other.1));
        match nearest {
            None => Answer {
                verdict: Verdict::Good,
                margin: Some(0.0),
                compared: Phrase::plain("its pressure only falls with flow: there is no stall"),
            },
            Some((duty, distance)) => Answer {
                verdict: Verdict::at_least(distance, wanted, 0.0),
                margin: finite((1.0 + distance) / (1.0 + wanted) - 1.0),
                compared: Phrase::new(
                    "moves {}, its pressure is highest at {}: {} apart, wanted at least {}",
                    [
                        Measure::new(Q::Flow, duty.working.flow.value).into(),
                        Measure::new(Q::Flow, blower.curve.stall_flow(&duty.running).value).into(),
                        Measure::new(Q::Share, distance).into(),
                        Measure::new(Q::Share, wanted).into(),
                    ],
                ),
            },
        }
    });
    Finding {
        id: "breath.stall",
        chapter: Chapter::Breath,
        title: "Distance from stall",
        meaning: "At too little flow a fan can stall: flow and pressure begin to pulse.",
        verdict,
        compared,
        why: "Pulsing gas puts the flare out or draws its flame back.",
        margin,
        working: breath
            .blower
            .as_ref()
            .map(|blower| vec![working::working_point(&blower.startup)])
            .unwrap_or_default(),
        caution: Some(FLARE),
        levers: inputs(&["hearth.throat_diameter", "hearth.nozzle_bore"])
            .into_iter()
            .chain(levers::wider(design, &train.startup, 2))
            .collect(),
        about: "blower_curve",
    }
}

fn duties_in_use(blower: &BlowerReview) -> impl Iterator<Item = &BlowerDuty> {
    [
        Some(&blower.startup),
        blower.full_clean.as_ref(),
        blower.full_dirty.as_ref(),
    ]
    .into_iter()
    .flatten()
}

fn suction(design: &Design, train: &TrainReview, breath: &Breath) -> Finding {
    let limits = &design.limits;
    let (good, stop) = (
        limits.engine_vacuum_good().value,
        limits.engine_vacuum_stop.value,
    );
    let (verdict, margin, compared) = match (breath.engine_vacuum, breath.vacuum_clean) {
        (Some(vacuum), Some(clean)) => (
            Verdict::at_most(vacuum.value, good, stop),
            finite(1.0 - vacuum.value / good),
            Phrase::new(
                "{} at full load with a dirty filter, wanted at most {}; {} with a clean one{}",
                [
                    Measure::new(Q::Pressure, vacuum.value).into(),
                    Measure::new(Q::Pressure, good).into(),
                    Measure::new(Q::Pressure, clean.value).into(),
                    most_of_it(design, &breath.full_dirty).into(),
                ],
            ),
        ),
        _ => {
            let why = (breath.full_dirty.as_ref().err()).or(breath.full_clean.as_ref().err());
            choked(why, DIRTY).unwrap_or_else(|| {
                let told = why.map_or_else(String::new, ToString::to_string);
                (Verdict::CannotTell, None, Phrase::new("{}", [told.into()]))
            })
        }
    };
    Finding {
        id: "breath.suction",
        chapter: Chapter::Breath,
        title: "Suction at the engine",
        meaning: "At full load the engine itself must suck the gas through the whole machine.",
        verdict,
        compared,
        why: "The engine loses about one part in a hundred of its power for each kilopascal it must suck.",
        margin,
        working: working::chain(design, train, &train.full_dirty, &breath.full_dirty),
        caution: Some(SUCTION),
        levers: through(design, &breath.full_dirty).unwrap_or_else(|| {
            inputs(&["hearth.throat_diameter"])
                .into_iter()
                .chain(more_grate(&breath.full_dirty))
                .chain(levers::wider(design, &train.full_dirty, 2))
                .chain(inputs(&["hearth.nozzle_bore"]))
                .chain(flow_levers(design))
                .collect()
        }),
        about: "train",
    }
}
