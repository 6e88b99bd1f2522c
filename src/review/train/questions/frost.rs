//! Does ice block the train, and can the water of a jacket freeze?

use super::cool::cooling;
use super::{Answer, Question, Solved, is};
use crate::design::Source::OwnMark;
use crate::design::inputs::{CoolerType, Cover, StageKind, TrainStage};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, celsius};
use crate::review::finding::{Finding, Step, Verdict};
use crate::review::train::levers;
use crate::sizing::train::{GasState, Note, StageOutcome, TrainSolution};

/// A water jacket in frost: while it stands still, nothing keeps it warm. Asked only where it comes to that.
pub(super) fn jacket(design: &Design) -> Option<Finding> {
    let air = design.site.air_temperature.value;
    let jacket =
        |stage: &TrainStage| is(StageKind::Cooler)(stage) && stage.cooling == CoolerType::Water;
    (air <= celsius(0.0) && design.train.iter().any(jacket)).then(|| {
        Question {
            id: "train.cooler_frost",
            title: "Frost in the water jacket",
            meaning: "Water that freezes takes more room and bursts jacket, tubes and pump.",
            why: "A tube that burst lets water into the gas, and gas into the water: carbon monoxide then comes out where the water does.",
            caution: None,
        }
        .answered(Answer {
            verdict: Verdict::Watch,
            margin: (air / celsius(0.0) - 1.0).min(-f64::EPSILON),
            compared: Phrase::new(
                "in air of {} a jacket that stands still freezes and bursts: drain jacket, pump and hoses whenever it stops, or fill it with antifreeze in a closed round (common practice, no source)",
                [Measure::new(Q::Temperature, air).into()],
            ),
            working: Vec::new(),
            levers: Vec::new(),
        })
    })
}

/// A load at which the train was solved, in words.
type Load<'a> = (&'static str, Option<&'a TrainSolution>);

/// Stages in which the gas would get colder than freezing at a load, by their places.
fn frozen(solution: &TrainSolution) -> Vec<usize> {
    let freezes = (solution.outcomes.iter().enumerate())
        .filter(|(_, outcome)| outcome.notes.contains(&Note::Frost));
    freezes.map(|(place, _)| place).collect()
}

/// What frost does to the water that a run leaves in the train.
const SPLIT: &str = "A seam that frost has split lets carbon monoxide out, or draws air into the gas, which can then explode: after frost look at traps and cocks, and test for leaks before you light. Condensate is poisonous: gloves and goggles, and into a closed can, outdoors.";

/// Names of the stages in which water is left after a run, at any load.
fn wet(solved: &Solved) -> Vec<String> {
    let loads = [solved.startup, Some(solved.usual), Some(solved.clean)];
    let is_wet = |place: &usize| {
        (loads.iter().flatten())
            .filter_map(|found| found.outcomes.get(*place))
            .any(StageOutcome::leaves_water)
    };
    let places = (0..solved.design.train.len()).filter(is_wet);
    places.map(|place| solved.name(place)).collect()
}

/// Ice in the stages of the train. In frost it is asked always, else only where it comes to that.
pub(super) fn ice(solved: &Solved) -> Option<Finding> {
    let design = solved.design;
    let air = design.site.air_temperature.value;
    let loads: [Load; 4] = [
        ("while lighting", solved.startup),
        ("at usual load", Some(solved.usual)),
        ("at full load", Some(solved.clean)),
        ("at full load with a dirty filter", Some(solved.dirty)),
    ];
    let known = loads
        .into_iter()
        .filter_map(|(at, found)| Some((at, found?)));
    let coldest = (known.clone())
        .flat_map(|(_, found)| &found.points)
        .map(|gas: &GasState| gas.temperature.value)
        .fold(f64::INFINITY, f64::min);
    // What runs for hours counts before what lasts some minutes.
    let (lighting, running): (Vec<_>, Vec<_>) = known
        .map(|(at, found)| (at, frozen(found)))
        .filter(|(_, places)| !places.is_empty())
        .partition(|(at, _)| *at == "while lighting");
    let freezes = running.first().or(lighting.first());
    if freezes.is_none() && air > celsius(0.0) {
        return None;
    }
    let temperature = |si| Measure::new(Q::Temperature, si);
    let (verdict, compared) = match freezes {
        None => (
            Verdict::Good,
            Phrase::new(
                "in air of {} the gas gets no colder than {} on its way",
                [temperature(air).into(), temperature(coldest).into()],
            ),
        ),
        Some((at, places)) => {
            let names: Vec<String> = places.iter().map(|place| solved.name(*place)).collect();
            let verdict = match running.is_empty() {
                true => Verdict::Watch,
                false => Verdict::Stop,
            };
            let words = match verdict {
                Verdict::Watch => {
                    "{}: in air of {} the gas would freeze there {}; cover that until the engine runs, or light in warmer air. All answers hold for a train that is covered so far that the gas stays at {}"
                }
                _ => {
                    "{}: in air of {} the gas would freeze there {}; let the train cool less in such air, or cover part of it. All answers hold for a train that is covered so far that the gas stays at {}"
                }
            };
            let told = [
                names.join(", ").into(),
                temperature(air).into(),
                (*at).into(),
                temperature(celsius(0.0)).into(),
            ];
            (verdict, Phrase::new(words, told))
        }
    };
    let wet = match air <= celsius(0.0) {
        true => wet(solved),
        false => Vec::new(),
    };
    let caution = (!wet.is_empty()).then_some(SPLIT);
    let compared = match wet.is_empty() {
        true => compared,
        false => Phrase::new(
            "{}. Water is left in {}: drain that after each run, once it is cold, for it freezes where it stands, splits seams and shuts the way of the gas (common practice, no source)",
            [compared.into(), wet.join(", ").into()],
        ),
    };
    let hottest = design.raw_gas.temperature.value;
    let nearest = if freezes.is_some() { air } else { coldest };
    let margin = (nearest / celsius(0.0) - 1.0) / (hottest / celsius(0.0) - 1.0);
    Some(
        Question {
            id: "train.ice",
            title: "Ice in the train",
            meaning: "In frost the gas can get colder than ice on its way, most of all while lighting, when little of it flows.",
            why: "Frost from the gas narrows the stage until no gas comes through.",
            caution,
        }
        .answered(Answer {
            verdict,
            margin: if freezes.is_some() { margin.min(-f64::EPSILON) } else { margin },
            compared,
            working: vec![Step {
                words: "Coldest gas on its way, at any load; where it would get colder than freezing it is held there",
                formula: "T ≥ T₀",
                values: vec![
                    ("T₀", "water freezes", temperature(celsius(0.0))),
                    ("T_a", "air around", temperature(air)),
                ],
                result: temperature(coldest),
                source: OwnMark("a cover is taken to hold back just so much heat as it needs"),
                sure: "A few degrees; wind cools more.",
            }],
            // Less cooling mends it. While lighting a cover does, and in summer the cooler needs all its tubes.
            levers: match (verdict, freezes) {
                (Verdict::Stop, Some((_, places))) => {
                    let stages = places.iter().map(|place| (*place, design.train.get(*place)));
                    let bare = stages.filter(|(_, stage)| {
                        stage.is_some_and(|it| it.gives_off_heat() && it.cover == Cover::Bare)
                    });
                    (cooling(design).into_iter())
                        .chain(bare.map(|(place, _)| levers::at(place, "cover")))
                        .collect()
                }
                _ => Vec::new(),
            },
        }),
    )
}
