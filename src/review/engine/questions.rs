//! The questions of the engine chapter.

use super::entries::entries;
use super::{EngineReview, OnGas, OtherSize, hopper, wood_volume};
use crate::design::Design;
use crate::design::Source::CommonPractice;
use crate::design::inputs::{HearthKind, Strokes};
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::review::heart::{FIRE_TUBES, Heart, USUAL_UNTOLD, untold};
use crate::sizing::engine::{EngineGas, EngineRun, PETROL_MIXTURE_HEAT};
use crate::sizing::fuel::bulk_density_of;
use crate::sizing::hearth_load::{gas_carried, table_tube};
use uom::si::f64::Velocity;
use uom::si::velocity::meter_per_second;

/// Power short by less than this share is still Watch: efficiency and filling are known no better. Our own mark.
pub(in crate::review) const GREY_POWER: f64 = 0.10;
/// A filling that lasts at least this share of the wanted time is Watch. Our own mark.
const GREY_TIME: f64 = 0.5;

/// Every question that fits the design.
pub(super) fn ask(design: &Design, heart: &Heart, review: &EngineReview) -> Vec<Finding> {
    let mut findings = Vec::with_capacity(4);
    findings.extend(review.on_gas.as_ref().map(|on_gas| match on_gas {
        Ok(on_gas) => power(design, heart, on_gas),
        Err(error) => Finding {
            verdict: Verdict::CannotTell,
            compared: Phrase::new("{}", [error.to_string().into()]),
            margin: None,
            ..unanswered_power(design)
        },
    }));
    if review.on_gas.is_some() {
        findings.push(entries(design));
    }
    let refuel = refuel(design, heart, review);
    findings.push(if review.makes_gas.usual {
        refuel
    } else {
        untold(refuel, USUAL_UNTOLD)
    });
    findings.extend(hopper::slides(design));
    findings
}

/// What kills wherever a generator gives its power: mains voltage, and current that is fed back into a grid.
macro_rules! mains {
    () => {
        "Mains voltage kills. Connect a generator to a building only through a changeover switch, earthed, by a licensed electrician under your local codes: what is fed back into the grid kills whoever works on its lines."
    };
}
/// What kills where an engine runs, and what a generator on it does.
macro_rules! running {
    () => {
        concat!(
            "Exhaust and wood gas both kill by carbon monoxide. Never run the engine in a closed room. ",
            mains!()
        )
    };
}
/// The caution of whoever connects a generator.
pub const MAINS: &str = mains!();
const RUNNING: &str = running!();
/// From memory of Heywood, Internal Combustion Engine Fundamentals, 1988, chapter 6.
const TWO_STROKE: &str = concat!(
    "A two-stroke that fills through its crankcase blows about a quarter of what it draws out unburned, and carbon monoxide with it: enter a filling and an efficiency so much lower. Wood gas brings it no oil. ",
    running!()
);

/// The caution wherever power of the engine, or of a generator on its shaft, is told.
pub(in crate::review) fn caution_of_power(design: &Design) -> &'static str {
    match design.engine.strokes {
        Strokes::Two => TWO_STROKE,
        Strokes::Four => RUNNING,
    }
}

fn unanswered_power(design: &Design) -> Finding {
    Finding {
        id: "engine.power",
        chapter: Chapter::Engine,
        title: "Power on wood gas, before the train",
        meaning: "A cylinder full of wood gas and air holds less heat than one of petrol and air, so the same engine gives less.",
        verdict: Verdict::CannotTell,
        compared: Phrase::plain(""),
        why: "An engine that is too small for its work stalls; one at its limit has nothing left for bad gas. This is reckoned with gas that comes by itself and is no warmer than the mixture entered; what suction and warm gas take off it is judged under “Power left at the end of the train”.",
        margin: None,
        working: Vec::new(),
        caution: Some(caution_of_power(design)),
        levers: Vec::new(),
        about: "engine",
    }
}

fn power(design: &Design, heart: &Heart, on_gas: &OnGas) -> Finding {
    let run = &on_gas.runs.full;
    let wanted = design.engine.wanted_power.value;
    let power = run.shaft_power.value;
    let mut finding = unanswered_power(design);
    finding.working = working(design, heart, on_gas);
    let engine = &design.engine;
    // An engine that is there is as large as it is, and an efficiency that was measured is what it is.
    let levers = [
        (!engine.at_hand, "engine.displacement"),
        (
            engine.brake_efficiency.is_none(),
            "engine.compression_ratio",
        ),
        (true, "engine.wanted_power"),
    ];
    finding.levers = (levers.into_iter())
        .filter(|(fits, _)| *fits)
        .map(|(_, path)| Lever::input(path))
        .collect();
    if heart.at.full.solved.is_err() {
        finding.compared = Phrase::new(
            "cannot be told while the hearth has no solution at full load; on the gas of a hearth without loss it would be {}, wanted {}",
            [
                Measure::new(Q::EnginePower, power).into(),
                Measure::new(Q::EnginePower, wanted).into(),
            ],
        );
        finding.levers.clear();
        return finding;
    }
    finding.verdict = Verdict::at_least(power, wanted, wanted * (1.0 - GREY_POWER));
    finding.margin = Some(power / wanted - 1.0).filter(|margin| margin.is_finite());
    let other = match finding.verdict {
        Verdict::Good => None,
        _ => on_gas.for_power(),
    };
    let larger = other.map_or(Phrase::plain(""), |other| {
        let least = Measure::new(Q::Displacement, other.displacement.value);
        Phrase::new(
            ". At this speed it takes another engine, of about {}, with hearth and train sized for its gas",
            [Slot::AtLeast(least)],
        )
    });
    finding.compared = Phrase::new(
        if run.power_kept.value > 1.0 {
            "{} at the shaft before the train takes its share, wanted {}; on petrol it would give {}, so gas would keep {}: no engine gives more on gas; look at both efficiencies; a generator on that shaft gives {}{}"
        } else if wanted > run.petrol_power.value {
            "{} at the shaft before the train takes its share, wanted {}: more than it gives even on petrol, {}; gas keeps {}; a generator on that shaft gives {}{}"
        } else {
            "{} at the shaft before the train takes its share, wanted {}; on petrol it would give {}, so gas keeps {}; a generator on that shaft gives {}{}"
        },
        [
            Measure::new(Q::EnginePower, power).into(),
            Measure::new(Q::EnginePower, wanted).into(),
            Measure::new(Q::EnginePower, run.petrol_power.value).into(),
            Measure::new(Q::Share, run.power_kept.value).into(),
            Measure::new(Q::Power, run.electric_power.value).into(),
            larger.into(),
        ],
    );
    finding
}

fn working(design: &Design, heart: &Heart, on_gas: &OnGas) -> Vec<Step> {
    let run = &on_gas.runs.full;
    let supply = &heart.at.full.supply;
    let gas = drawn(on_gas);
    let mut steps = vec![
        Step {
            words: "Power at the shaft",
            formula: "P = Q H η",
            values: vec![
                gas,
                (
                    "H",
                    "heat in the gas",
                    Measure::new(Q::EnergyPerVolume, supply.gas_heat),
                ),
                (
                    "η",
                    "efficiency on gas",
                    Measure::new(Q::Share, run.shaft_power.value / run.gas_power.value),
                ),
            ],
            result: Measure::new(Q::EnginePower, run.shaft_power.value),
            source: CommonPractice,
            sure: "±15 %: filling and efficiency differ from engine to engine; suction and warm gas come off it",
        },
        Step {
            words: "Power of the same engine on petrol, at the same place and speed",
            formula: "P_petrol = V_m H_m η",
            values: vec![
                mixture(run),
                (
                    "H_m",
                    "heat in petrol vapour and air",
                    Measure::new(Q::EnergyPerVolume, 1e6 * PETROL_MIXTURE_HEAT),
                ),
                (
                    "η",
                    "efficiency on petrol",
                    Measure::new(Q::Share, design.engine.petrol_efficiency.value),
                ),
            ],
            result: Measure::new(Q::EnginePower, run.petrol_power.value),
            source: CommonPractice,
            sure: "±15 %; an engine keeps roughly half to two thirds of it on gas",
        },
        Step {
            words: "Electric power, if it drives a generator",
            formula: "P_e = P η_g",
            values: vec![
                (
                    "P",
                    "power at the shaft, on gas",
                    Measure::new(Q::EnginePower, run.shaft_power.value),
                ),
                (
                    "η_g",
                    "generator efficiency",
                    Measure::new(Q::Share, design.engine.generator_efficiency.value),
                ),
            ],
            result: Measure::new(Q::Power, run.electric_power.value),
            source: CommonPractice,
            sure: "±10 %",
        },
        Step {
            words: "Wood for a kilowatt-hour of electricity",
            formula: "w = m / P_e",
            values: vec![(
                "m",
                "wood burned at full load",
                Measure::new(Q::MassFlow, run.fuel_rate.value),
            )],
            result: Measure::new(
                Q::MassPerEnergy,
                run.fuel_per_electric_kilowatt_hour / 3.6e6,
            ),
            source: CommonPractice,
            sure: "±20 %; 1.1 to 1.4 kg (2.4 to 3.1 lb) is usual",
        },
    ];
    steps.push(match design.hearth.kind {
        HearthKind::Constricted => narrowest_throat(design, on_gas),
        HearthKind::Straight => Step {
            words: "Fire tube that suits this engine, by the table of fire tubes",
            formula: "from the table",
            values: vec![on_petrol(on_gas)],
            result: Measure::new(Q::Length, on_gas.throat_for_engine.value),
            source: FIRE_TUBES,
            sure: "±12 %; rules from one design, tested on a tractor",
        },
    });
    steps
}

fn drawn(on_gas: &OnGas) -> (&'static str, &'static str, Measure) {
    let rate = on_gas.runs.full.gas_rate.value;
    (
        "Q",
        "gas drawn at full load",
        Measure::new(Q::NormalFlow, rate),
    )
}

/// Other engines, for the power wanted and for this hearth, as far as there are any.
pub(in crate::review) fn other_sizes(design: &Design, on_gas: &OnGas) -> Vec<Step> {
    let run = &on_gas.runs.full;
    let power = (on_gas.for_power()).map(|other| for_power(design, run, &other));
    let hearth = (on_gas.for_hearth()).map(|other| match design.hearth.kind {
        HearthKind::Constricted => by_hearth_load(design, run, &other),
        HearthKind::Straight => by_fire_tube(design, on_gas, &other),
    });
    power.into_iter().chain(hearth).collect()
}

/// The engine for the power wanted, on what this hearth makes for it.
fn for_power(design: &Design, run: &EngineRun, other: &OtherSize) -> Step {
    let gas = &other.gas;
    Step {
        words: "Displacement for the power wanted, on the gas that this hearth makes for an engine of that size",
        formula: "V' = V P_w (1 + s') / (V_m H' η)",
        values: vec![
            displacement(design),
            (
                "P_w",
                "power wanted",
                Measure::new(Q::EnginePower, design.engine.wanted_power.value),
            ),
            air_beside(gas),
            mixture(run),
            (
                "H'",
                "heat in that gas",
                Measure::new(Q::EnergyPerVolume, 1e6 * gas.lower_heating_value),
            ),
            (
                "η",
                "efficiency on gas",
                Measure::new(Q::Share, run.shaft_power.value / run.gas_power.value),
            ),
        ],
        result: Measure::new(Q::Displacement, other.displacement.value),
        source: CommonPractice,
        sure: "±15 %",
    }
}

fn air_beside(gas: &EngineGas) -> (&'static str, &'static str, Measure) {
    let air = Measure::new(Q::Number, gas.stoichiometric_air);
    ("s'", "air that a volume of that gas needs", air)
}

fn mixture(run: &EngineRun) -> (&'static str, &'static str, Measure) {
    let drawn = Measure::new(Q::NormalFlow, (run.gas_rate + run.air_rate).value);
    ("V_m", "mixture drawn at full load", drawn)
}

fn displacement(design: &Design) -> (&'static str, &'static str, Measure) {
    let swept = design.engine.displacement.value;
    ("V", "displacement", Measure::new(Q::Displacement, swept))
}

/// The engine for this hearth, by the most gas that a throat may carry.
fn by_hearth_load(design: &Design, run: &EngineRun, other: &OtherSize) -> Step {
    let most = design.limits.hearth_load_most;
    let carried = gas_carried(
        design.hearth.throat_diameter,
        Velocity::new::<meter_per_second>(most),
    );
    Step {
        words: "Displacement that would draw the most gas this hearth may make, of the gas that it makes for an engine of that size",
        formula: "V' = V Q_most (1 + s') / V_m",
        values: vec![
            displacement(design),
            (
                "Q_most",
                "most gas this hearth may make",
                Measure::new(Q::NormalFlow, carried.value),
            ),
            air_beside(&other.gas),
            mixture(run),
        ],
        result: Measure::new(Q::Displacement, other.displacement.value),
        source: CommonPractice,
        sure: "±15 %",
    }
}

fn narrowest_throat(design: &Design, on_gas: &OnGas) -> Step {
    let most = design.limits.hearth_load_most;
    Step {
        words: "Narrowest throat for the gas that this engine draws",
        formula: "d = √(4 Q / (π B))",
        values: vec![
            drawn(on_gas),
            ("B", "most hearth load", Measure::new(Q::HearthLoad, most)),
        ],
        result: Measure::new(Q::Length, on_gas.throat_for_engine.value),
        source: CommonPractice,
        sure: "±12 %",
    }
}

fn on_petrol(on_gas: &OnGas) -> (&'static str, &'static str, Measure) {
    let power = on_gas.runs.full.petrol_power.value;
    let words = "power of this engine on petrol";
    ("P", words, Measure::new(Q::EnginePower, power))
}

/// The engine for this straight fire tube, by the table: the marks for throats say nothing of tubes.
fn by_fire_tube(design: &Design, on_gas: &OnGas, other: &OtherSize) -> Step {
    let table = table_tube(design.hearth.tube_diameter).engine_power.value;
    Step {
        words: "Displacement that this fire tube feeds, by the table of fire tubes",
        formula: "V' = V P_table / P",
        values: vec![
            displacement(design),
            (
                "P_table",
                "engine of the table",
                Measure::new(Q::EnginePower, table),
            ),
            on_petrol(on_gas),
        ],
        result: Measure::new(Q::Displacement, other.displacement.value),
        source: FIRE_TUBES,
        sure: "±15 %; rules from one design, tested on a tractor",
    }
}

fn refuel(design: &Design, heart: &Heart, review: &EngineReview) -> Finding {
    let wanted = design.limits.refuel_time.value;
    let lasts = review.lasts.value;
    let rate = heart.at.usual.supply.fuel_rate.value;
    let mut levers = if design.hopper.fitted {
        vec![
            Lever::input("hopper.height"),
            Lever::input("hopper.diameter"),
        ]
        .into_iter()
        .chain((design.hopper.fill_share.value < 1.0).then(|| Lever::input("hopper.fill_share")))
        .collect()
    } else {
        vec![Lever::input("hopper.fitted")]
    };
    levers.push(Lever::input("limits.refuel_time"));
    Finding {
        id: "engine.refuel",
        chapter: Chapter::Engine,
        title: "Time between fillings",
        meaning: "How long the wood in the hopper lasts at the usual load.",
        verdict: Verdict::at_least(lasts, wanted, wanted * GREY_TIME),
        compared: Phrase::new(
            "{} of wood last {} at the usual load, wanted {}",
            [
                Measure::new(Q::Mass, review.filling.value).into(),
                Measure::new(Q::LongTime, lasts).into(),
                Measure::new(Q::LongTime, wanted).into(),
            ],
        ),
        why: if design.hearth.draws_from_top() {
            "Each filling lies in the way of the air, and cools the fire under it; a hopper run empty burns down to its steel."
        } else {
            "Each filling lets air into a hot, gas-filled hopper; a hopper run empty burns down to its steel."
        },
        margin: Some(lasts / wanted - 1.0).filter(|margin| margin.is_finite()),
        working: vec![Step {
            words: "One filling over the wood burned at the usual load",
            formula: "t = V ρ / m",
            values: vec![
                (
                    "V",
                    "room for wood",
                    Measure::new(Q::Volume, wood_volume(design).value),
                ),
                (
                    "ρ",
                    "bulk density",
                    Measure::new(Q::Density, bulk_density_of(design).value),
                ),
                (
                    "m",
                    "wood burned at the usual load",
                    Measure::new(Q::MassFlow, rate),
                ),
            ],
            result: Measure::new(Q::LongTime, lasts),
            source: CommonPractice,
            sure: "±20 %: how tightly wood lies changes with every load",
        }],
        caution: Some(if design.hearth.draws_from_top() {
            "Flames can come out of the open top while it is filled. Stand to the side, face away, never look in, and never cover it while it runs."
        } else {
            "Opening a hot hopper can flash. Stand to the side, face away, let the first gas drift off, never look in."
        }),
        levers,
        about: "hopper",
    }
}
