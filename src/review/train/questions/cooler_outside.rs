//! Can what is around the tubes of a cooler take their heat?

use super::cool::of_cooler;
use super::{Answer, At, Load, Question, Solved, is};
use crate::design::Source::{CommonPractice, FromMemory};
use crate::design::inputs::{CoolerType, Lie, StageKind, TrainStage};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Step, Verdict};
use crate::review::train::levers;
use crate::sizing::cooler::{BOILING, CLOSE_FINS, CoolerResult, TubeBlock, WATER_HEAT_CAPACITY};
use crate::sizing::cooler_drive::CoolerDrive;
use crate::sizing::train::Note;
use uom::si::f64::Length;

/// Jacket water this much below where it would boil is Watch, K. Our own choice.
const NEAR_BOILING: f64 = 10.0;

/// Jacket water that stands is no matter of more or less: it boils sooner or later.
const STANDS: f64 = -0.5;

/// The caution of water that may boil.
pub(in crate::review) const SCALDS: &str = "Boiling water and steam scald in an instant. Give the jacket an open vent that points away from people, never plug it, and do not open a hot jacket or fill cold water into one.";

/// Margin of fins that lie flat in rising air: half of what they should do is a guess.
const FLAT_FINS: f64 = -0.5;

/// How an outside does its work: jacket water that stays water, fins that air can pass between. Water that boils only while
/// lighting is Watch: how long that takes, and how long the water stays cold, is not known.
fn outside_of(at: &At, load: Load) -> (Verdict, f64) {
    let gap = (at.entry.fin_pitch - at.entry.fin_thickness).value;
    let water = of_cooler(at).and_then(|found| found.water);
    if let Some(short) = without_room(at.entry) {
        return (Verdict::Stop, -(short / at.entry.tube_bore).value);
    }
    match (water, at.entry.cooling) {
        (Some(_), _) if stands(at) && at.outcome.notes.contains(&Note::JacketBoils) => (
            match load {
                Load::Lighting => Verdict::Watch,
                Load::Full | Load::Usual => Verdict::Stop,
            },
            STANDS,
        ),
        (Some(water), _) => (
            Verdict::at_most(water.value, BOILING - NEAR_BOILING, BOILING),
            (BOILING - NEAR_BOILING - water.value) / (BOILING - NEAR_BOILING - 273.15),
        ),
        (None, CoolerType::Finned) if at.entry.lie == Lie::Upright => (Verdict::Watch, FLAT_FINS),
        (None, CoolerType::Finned) => (
            Verdict::at_least(gap, CLOSE_FINS, f64::MIN),
            gap / CLOSE_FINS - 1.0,
        ),
        (None, _) => (Verdict::Good, 0.0),
    }
}

/// Whether the water of a jacket stands.
fn stands(at: &At) -> bool {
    of_cooler(at).is_some_and(|found| found.standing_boils_at.is_some())
}

/// How much nearer tubes in air would stand to each other than they are wide; none where they fit.
fn without_room(entry: &TrainStage) -> Option<Length> {
    let gap = TubeBlock::of(entry).gap(entry);
    let in_air = entry.cooling != CoolerType::Water && entry.tubes > 1;
    (in_air && gap.value < 0.0).then_some(-gap)
}

/// Whether what is around the tubes takes their heat.
pub(super) fn ask(solved: &Solved) -> Option<Finding> {
    let (load, at) = solved
        .named_loads()
        .flat_map(|(load, solution)| {
            let coolers = solved.stages(solution, is(StageKind::Cooler));
            coolers.map(move |at| (load, at))
        })
        .min_by(|(load, at), (other_load, other)| {
            let [one, other] = [outside_of(at, *load), outside_of(other, *other_load)];
            other.0.cmp(&one.0).then(one.1.total_cmp(&other.1))
        })?;
    let found = of_cooler(&at)?;
    let (verdict, margin) = outside_of(&at, load);
    let name = solved.name(at.place).into();
    let hottest = Measure::new(Q::Temperature, found.hottest_surface.value).into();
    let gap = (at.entry.fin_pitch - at.entry.fin_thickness).value;
    let block = TubeBlock::of(at.entry);
    let length = |length: Length| Measure::new(Q::Length, length.value).into();
    let (compared, fields): (_, &[&str]) = match (found.water, at.entry.cooling) {
        _ if without_room(at.entry).is_some() => (
            Phrase::new(
                "{}: its tubes are {} wide and cannot stand {} from middle to middle",
                [
                    name,
                    length(block.spacing - block.gap(at.entry)),
                    length(block.spacing),
                ],
            ),
            &["tube_spacing", "tube_bore", "fin_diameter"],
        ),
        (Some(water), _) if stands(&at) => (
            Phrase::new(
                match (verdict, load) {
                    (Verdict::Good, _) => {
                        "{}: {} its pump rests; the water that stands in the jacket gets no warmer than {}"
                    }
                    (_, Load::Lighting) => {
                        "{}: {} its pump rests; the water that stands in the jacket comes to {} if that takes long, and boils"
                    }
                    _ => {
                        "{}: {} its pump rests; the water that stands in the jacket comes to {} and boils"
                    }
                },
                [
                    name,
                    load.words().into(),
                    Measure::new(Q::Temperature, water.value).into(),
                ],
            ),
            &[],
        ),
        (Some(water), _) => (
            Phrase::new(
                "{}: jacket water leaves with {}, wanted at most {}; tubes up to {} {}",
                [
                    name,
                    Measure::new(Q::Temperature, water.value).into(),
                    Measure::new(Q::Temperature, BOILING - NEAR_BOILING).into(),
                    hottest,
                    load.words().into(),
                ],
            ),
            &["water_flow", "water_temperature"],
        ),
        (None, CoolerType::Finned) if at.entry.lie == Lie::Upright => (
            Phrase::new(
                "{}: fins around upright tubes lie flat and stand in the way of rising air; they cool little more than bare tubes, though they are reckoned with here",
                [name],
            ),
            &["lie", "cooling"],
        ),
        (None, CoolerType::Finned) => (
            Phrase::new(
                "{}: {} between the fins, still air wants {}",
                [
                    name,
                    Measure::new(Q::Thickness, gap).into(),
                    Measure::new(Q::Thickness, CLOSE_FINS).into(),
                ],
            ),
            &["fin_pitch", "cooling"],
        ),
        (None, _) if at.entry.tubes > 1 => (
            Phrase::new(
                "{}: {} of air between its tubes",
                [name, length(block.gap(at.entry))],
            ),
            &[],
        ),
        (None, _) => (
            Phrase::new("{}: air passes freely around its tube", [name]),
            &[],
        ),
    };
    let pumps_on = levers::switched_on(solved.design, CoolerDrive::Pump, load.state());
    Some(
        Question {
            id: "train.cooler_outside",
            title: "Water or air around the cooler",
            meaning: "The tubes must be able to give their heat to what is around them: water that does not boil, air that can pass between the fins.",
            why: "Boiling water throws steam and scalding water out of the jacket; air that stands between fins or tubes hardly cools.",
            caution: (found.water.is_some() && verdict > Verdict::Good).then_some(SCALDS),
        }
        .answered(Answer {
            verdict,
            margin,
            compared,
            working: around_tubes(&at, found),
            levers: (pumps_on.into_iter())
                .chain(fields.iter().map(|name| levers::at(at.place, name)))
                .collect(),
        }),
    )
}

/// How warm water gets that stands in a jacket; none where it flows, or without a jacket.
pub(super) fn standing_water(at: &At) -> Option<Step> {
    let found = of_cooler(at)?;
    let (boils, water) = (found.standing_boils_at?, found.water?);
    Some(Step {
        words: "Water that stands in the jacket: it gets as warm as the gas, or boils",
        formula: "T_w = min(T₁, T_boil)",
        values: vec![
            (
                "T₁",
                "gas comes in",
                Measure::new(Q::Temperature, at.gas.temperature.value),
            ),
            (
                "T_boil",
                "water boils at the pressure of the air",
                Measure::new(Q::Temperature, boils.value),
            ),
        ],
        result: Measure::new(Q::Temperature, water.value),
        source: FromMemory("IAPWS R7-97 saturation line"),
        sure: "What the jacket gives to the air is left out: a large one that is lit for a short while stays colder.",
    })
}

/// How warm the water of a jacket gets, or how wide still air has it between fins.
fn around_tubes(at: &At, found: &CoolerResult) -> Vec<Step> {
    let entry = at.entry;
    if let Some(step) = standing_water(at) {
        return vec![step];
    }
    let step = match (found.water, entry.cooling) {
        (Some(water), _) => Step {
            words: "Water as it leaves the jacket, mixed in it",
            formula: "T_w = T_in + Q / (ṁ c)",
            values: vec![
                (
                    "T_in",
                    "water as it comes in",
                    Measure::new(Q::Temperature, entry.water_temperature.value),
                ),
                (
                    "Q",
                    "heat that the cooler takes",
                    Measure::new(Q::Power, at.outcome.heat_rejected.value),
                ),
                (
                    "ṁ",
                    "flow of water",
                    Measure::new(Q::MassFlow, entry.water_flow.value),
                ),
                (
                    "c",
                    "heat capacity of water",
                    Measure::new(Q::HeatCapacity, WATER_HEAT_CAPACITY),
                ),
            ],
            result: Measure::new(Q::Temperature, water.value),
            source: CommonPractice,
            sure: "About 20 % of the rise; scale on the tubes makes it less.",
        },
        (None, CoolerType::Finned) => Step {
            words: "Room between two fins",
            formula: "s = p − t",
            values: vec![
                (
                    "p",
                    "from fin to fin",
                    Measure::new(Q::Thickness, entry.fin_pitch.value),
                ),
                (
                    "t",
                    "thickness of a fin",
                    Measure::new(Q::Thickness, entry.fin_thickness.value),
                ),
            ],
            result: Measure::new(Q::Thickness, (entry.fin_pitch - entry.fin_thickness).value),
            source: CommonPractice,
            sure: "The arithmetic is exact; dust between the fins takes room.",
        },
        (None, _) => return Vec::new(),
    };
    vec![step]
}
