//! Are cables and fuses right?

use super::schedule::{ABOVE_LOAD, CABLES, FUSES_SUIT, SMALL_FUSE, WiringRow};
use super::shelter::battery;
use crate::design::Design;
use crate::design::Source::{CommonPractice, FromMemory, OwnMark};
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::{Quantity as Q, exceeds};
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::sizing::conductor_table::FUSES;
use crate::sizing::wiring::{CableRun, FUSE_LOADING};
use uom::si::electric_current::ampere;
use uom::si::f64::ElectricCurrent;

const CAUTION: &str = "A cable that is too thin, or a fuse that is too big, sets fire to its insulation. Put each fuse close to the pole, in a sealed holder, outside the space where the battery's gas collects, cover the poles, and keep cables off hot metal. Have it checked where your rules ask for a licensed person.";
/// Of a battery above what the usual fuses are made for.
const CAUTION_HIGH: &str = "A cable that is too thin, or a fuse that is too big or made for less voltage, sets fire to its insulation: an arc goes on burning in such a fuse. Put each fuse close to the pole, in a sealed holder, outside the space where the battery's gas collects, cover the poles, and keep cables off hot metal. Bare metal is dangerous to touch from 60 V DC on, where it is wet from 30 V (IEC 60364-4-41, from memory), and a battery of 48 V comes near 60 V while it is charged: touch nothing bare, and leave the wiring to a licensed person.";

/// What a battery stands at while it is charged, over its nominal voltage: 14.4 V of 12 V. Common practice, no source.
const CHARGED: f64 = 1.2;
/// What the usual blade fuses and their holders are made for, V (ISO 8820-3, from memory). There are others for 58 V.
const BLADE_FUSE: f64 = 32.0;

/// What the battery stands at while it is charged, V, where the usual fuses are not made for that.
fn above_blade_fuses(design: &Design) -> Option<f64> {
    let charged = CHARGED * design.battery.voltage.value;
    exceeds(charged, BLADE_FUSE).then_some(charged)
}

/// What is told of the voltage that a fuse must be made for.
fn made_for(told: Phrase, charged: f64) -> Phrase {
    let volts = |si| Measure::new(Q::Voltage, si).into();
    Phrase::new(
        "{}; while it is charged the battery stands at about {}, the usual blade fuses are made for {}: take fuses and holders whose own rating in volts DC is above that of the battery",
        [told.into(), volts(charged), volts(BLADE_FUSE)],
    )
}

/// How that voltage is found.
fn charged_step(design: &Design, charged: f64) -> Step {
    Step {
        words: "What the battery stands at while it is charged, which its fuses must be able to break",
        formula: "U_c = c U",
        values: vec![
            (
                "c",
                "charged over nominal",
                Measure::new(Q::Number, CHARGED),
            ),
            (
                "U",
                "battery voltage",
                Measure::new(Q::Voltage, design.battery.voltage.value),
            ),
        ],
        result: Measure::new(Q::Voltage, charged),
        source: FromMemory("ISO 8820-3: blade fuses for 32 V DC; there are others for 58 V"),
        sure: "the sheet of your battery or charger tells its own charging voltage: that goes before this",
    }
}

/// The worst row: first by verdict, then by distance.
fn worst(
    rows: &[WiringRow],
    answer: fn(&WiringRow) -> (Verdict, Option<f64>),
) -> Option<&WiringRow> {
    rows.iter().max_by(|one, other| {
        let ((first, near), (second, far)) = (answer(one), answer(other));
        first.cmp(&second).then(
            far.unwrap_or(f64::INFINITY)
                .total_cmp(&near.unwrap_or(f64::INFINITY)),
        )
    })
}

fn amperes(current: ElectricCurrent) -> Slot {
    Measure::new(Q::Current, current.value).into()
}

/// From this section on a cable is dear and stiff: our own mark, m².
const THICK: f64 = 10e-6;
/// A cable that carries so many times its current is so thick for its length alone. Our own mark.
const FAR_ABOVE: f64 = 3.0;

/// A cable that was chosen so thick only for the voltage lost on its way.
fn thick_for_the_way(row: &WiringRow) -> Option<(&WiringRow, &CableRun)> {
    let run = row.run.as_ref().ok()?;
    let is_thick = run.conductor.area.value >= THICK * (1.0 - 1e-9)
        && run.carries.value >= FAR_ABOVE * run.current.value;
    (is_thick && !row.own_cable).then_some((row, run))
}

/// Does every cable carry its load without losing too much voltage?
pub(super) fn cables(design: &Design, rows: &[WiringRow]) -> Option<Finding> {
    let row = worst(rows, WiringRow::cable_answer)?;
    let (verdict, margin) = row.cable_answer();
    let name = row.name.as_str();
    let compared = match &row.run {
        Err(why) => Phrase::new("{}: {}", [name.into(), why.as_str().into()]),
        Ok(run) if exceeds(run.current.value, run.carries.value) && warmed_by_box(design, row) => {
            Phrase::new(
                match once_mended(design, row) {
                    true => {
                        "{}: {} carries {} at {} in the battery box where it begins, and less while the box is hotter; the load takes {}"
                    }
                    false => {
                        "{}: {} carries {} at {} in the battery box where it begins; the load takes {}"
                    }
                },
                [
                    name.into(),
                    row.cable_name(run),
                    amperes(run.carries),
                    Measure::new(Q::Temperature, row.circuit.around.value).into(),
                    amperes(run.current),
                ],
            )
        }
        Ok(run) if exceeds(run.current.value, run.carries.value) => Phrase::new(
            "{}: {} carries {} in this heat, the load takes {}",
            [
                name.into(),
                row.cable_name(run),
                amperes(run.carries),
                amperes(run.current),
            ],
        ),
        Ok(run) => Phrase::new(
            "{}: {} loses {} of the voltage over {}, wanted at most {}",
            [
                name.into(),
                row.cable_name(run),
                Measure::new(Q::Share, run.drop_share.value).into(),
                Measure::new(Q::Distance, row.circuit.length.value).into(),
                Measure::new(Q::Share, row.circuit.greatest_drop.value).into(),
            ],
        ),
    };
    let compared = match rows.iter().find_map(thick_for_the_way) {
        Some((thick, run)) if verdict == Verdict::Good => Phrase::new(
            "{}; {} takes as much as {} only because its way of {} is long: at twice the battery voltage a quarter of the copper does, with the battery half as far away half of it",
            [
                compared.into(),
                thick.name.as_str().into(),
                thick.cable_name(run),
                Measure::new(Q::Distance, thick.circuit.length.value).into(),
            ],
        ),
        _ => compared,
    };
    let mut levers = Vec::with_capacity(3);
    if row.own_cable {
        levers.push(Lever::input(row.path("cable")));
    }
    levers.push(Lever::input(row.path("cable_length")));
    levers.push(Lever::input("battery.voltage"));
    Some(Finding {
        id: CABLES,
        chapter: Chapter::Electrics,
        title: "Cables",
        meaning: "A long thin cable gets warm and takes voltage from what it feeds. The worst circuit is named; the wiring schedule has them all.",
        verdict,
        compared,
        why: "A motor that gets too little voltage starts badly and turns slowly; a cable that carries too much melts.",
        margin,
        working: (row.run.iter())
            .flat_map(|run| working(design, row, run))
            .collect(),
        caution: Some(CAUTION),
        levers,
        about: if row.inputs.starts_with("loads") {
            "loads"
        } else {
            "wiring"
        },
    })
}

/// Does every fuse stand its load and protect its cable?
pub(super) fn fuses(design: &Design, rows: &[WiringRow]) -> Option<Finding> {
    // A fuse that blows is a nuisance; one that lets its cable burn is named before it.
    let row = (rows.iter().find(|row| row.burns_first()))
        .or_else(|| worst(rows, WiringRow::fuse_answer))?;
    let (verdict, margin) = row.fuse_answer();
    let name = row.name.as_str();
    let too_large = row.too_large().filter(|_| !row.burns_first());
    let compared = match (&row.run, row.fuse) {
        (Ok(run), Some(fuse)) if let Some(most) = too_large => Phrase::new(
            "{}: takes {}, fuse {}: its cable, which carries {}, is safe, but at a fault the load may burn before the fuse melts; wanted at most {}",
            [
                name.into(),
                amperes(run.current),
                amperes(fuse),
                amperes(run.carries),
                amperes(most),
            ],
        ),
        (Err(why), _) => Phrase::new("{}: {}", [name.into(), why.as_str().into()]),
        (Ok(run), None) if beyond_fuses(run) => Phrase::new(
            "{}: takes {}, so that its fuse must be of {} at the least; the table of fuses ends at {}. Twice the battery voltage halves the current",
            [
                name.into(),
                amperes(run.current),
                amperes(run.current / FUSE_LOADING),
                amperes(ElectricCurrent::new::<ampere>(largest_fuse())),
            ],
        ),
        (Ok(run), None) => Phrase::new(
            "{}: takes {}, its cable carries {}: no fuse fits between",
            [name.into(), amperes(run.current), amperes(run.carries)],
        ),
        (Ok(run), Some(fuse)) => Phrase::new(
            if row.own_fuse && !row.own_cable {
                "{}: takes {}, fuse {} as entered; the cable chosen to suit that fuse carries {}"
            } else {
                "{}: takes {}, fuse {}, its cable carries {}"
            },
            [
                name.into(),
                amperes(run.current),
                amperes(fuse),
                amperes(run.carries),
            ],
        ),
    };
    let above = above_blade_fuses(design);
    let compared = match above {
        Some(charged) => made_for(compared, charged),
        None => compared,
    };
    let mut levers = Vec::with_capacity(2);
    if row.own_fuse {
        levers.push(Lever::input(row.path("fuse")));
    }
    if row.own_cable && too_large.is_none() {
        levers.push(Lever::input(row.path("cable")));
    }
    if row.fuse.is_none() && row.run.as_ref().is_ok_and(beyond_fuses) {
        levers.push(Lever::input("battery.voltage"));
    }
    let mut working: Vec<Step> = (row.run.iter())
        .flat_map(|run| working(design, row, run))
        .collect();
    working.extend(too_large.map(for_load));
    working.extend(above.map(|charged| charged_step(design, charged)));
    Some(Finding {
        id: FUSES_SUIT,
        chapter: Chapter::Electrics,
        title: "Fuses",
        meaning: "A fuse must stand its load, and melt before the cable does. The circuit nearest to the edge is named.",
        verdict,
        compared,
        why: "A fuse that is loaded to more than four fifths ages and blows; one above what the cable carries does not protect it. One far above what the load takes protects nothing but the cable: a motor that jams burns.",
        margin,
        working,
        caution: Some(if above.is_some() {
            CAUTION_HIGH
        } else {
            CAUTION
        }),
        levers,
        about: if row.inputs.starts_with("loads") {
            "loads"
        } else {
            "wiring"
        },
    })
}

/// Whether a circuit begins in air that is warmer than what was entered for the cables.
fn warmed_by_box(design: &Design, row: &WiringRow) -> bool {
    row.circuit.around > design.wiring.air_temperature
}

/// Whether the box is reckoned no warmer than its battery stands, as it is once it has been mended.
fn once_mended(design: &Design, row: &WiringRow) -> bool {
    let (_, limit) = battery(design);
    warmed_by_box(design, row) && row.circuit.around >= limit
}

/// Rating of the largest fuse of the table, A.
fn largest_fuse() -> f64 {
    FUSES.iter().copied().fold(0.0, f64::max)
}

/// Whether even the largest fuse of the table is too small for what a circuit takes.
fn beyond_fuses(run: &CableRun) -> bool {
    run.current.value > FUSE_LOADING * largest_fuse()
}

/// The largest fuse that still melts before its load burns.
fn for_load(most: ElectricCurrent) -> Step {
    let small = Measure::new(Q::Current, SMALL_FUSE);
    Step {
        words: "Largest fuse that still protects the load",
        formula: "I_f = max(n I, I_s)",
        values: vec![
            ("n", "fuse over load", Measure::new(Q::Number, ABOVE_LOAD)),
            ("I_s", "fuse that is small enough for anything", small),
        ],
        result: Measure::new(Q::Current, most.value),
        source: OwnMark("a motor that jams takes some five times its current"),
        sure: "A fuse inside the load, or the maker's rating for it, goes before this.",
    }
}

fn working(design: &Design, row: &WiringRow, run: &CableRun) -> Vec<Step> {
    let around = match (once_mended(design, row), warmed_by_box(design, row)) {
        (true, _) => {
            "air in the battery box where it begins, once the box is mended to what its battery stands: it is warmer now"
        }
        (false, true) => {
            "air in the battery box where it begins, warmer than the air entered for the cables"
        }
        (false, false) => "air around it",
    };
    let value = |quantity, si| Measure::new(quantity, si);
    let of_blower = row.full_knob.map(|full| full.step(design));
    let of_any = [
        Step {
            words: "Current while the load is on; for the blower with its knob fully turned, in cold air as when it purges the machine",
            formula: "I = P / U",
            values: vec![
                ("P", "power", value(Q::Power, row.circuit.power.value)),
                (
                    "U",
                    "battery voltage",
                    value(Q::Voltage, row.circuit.voltage.value),
                ),
            ],
            result: value(Q::Current, run.current.value),
            source: CommonPractice,
            sure: "As sure as the power; measure it. For a moment a starting motor takes several times as much.",
        },
        Step {
            words: "Voltage lost in the cable, out and back, the copper as warm as the current makes it",
            formula: "ΔU = I · 2 L · r₂₀ · (1 + 0.00393 (T − 20 °C))",
            values: vec![
                (
                    "L",
                    "cable, one way",
                    value(Q::Distance, row.circuit.length.value),
                ),
                (
                    "A",
                    "section",
                    value(Q::WireSection, run.conductor.area.value),
                ),
                (
                    "r₂₀",
                    "its resistance at 20 °C in mΩ for each metre",
                    value(Q::Number, 1e3 * run.conductor.per_metre),
                ),
                ("T", "the copper", value(Q::Temperature, run.warm.value)),
            ],
            result: value(Q::Voltage, run.drop.value),
            source: FromMemory(
                "IEC 60028 for copper; IEC 60228 for the metric conductors; ASTM B258 for gauges",
            ),
            sure: "Within a tenth for clean, tight terminals; a loose one loses more than the cable.",
        },
        Step {
            words: "What current the cable carries all day in this heat",
            formula: "I_max = I₄₀ · √((70 °C − T) / 30 K)",
            values: vec![
                (
                    "I₄₀",
                    "in air of 40 °C, by the table",
                    value(Q::Current, run.conductor.rated_current.value),
                ),
                ("T", around, value(Q::Temperature, row.circuit.around.value)),
            ],
            result: value(Q::Current, run.carries.value),
            source: FromMemory("IEC 60204-1, PVC insulation in conduit at 40 °C"),
            sure: "Several cables in one conduit carry less: down to two thirds.",
        },
    ];
    of_blower.into_iter().chain(of_any).collect()
}
