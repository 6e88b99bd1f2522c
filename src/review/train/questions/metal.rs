//! Does the metal of the train bear the heat of the gas?

use super::{Answer, At, Question, Solved};
use crate::design::Source::{FromMemory, OwnMark};
use crate::design::inputs::{Cover, StageKind, TrainStage, TubeMetal};
use crate::design::phrase::{Measure, Phrase, lower_first};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice as _, Design, celsius};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::review::train::levers;
use crate::sizing::train::Detail;
use crate::sizing::train_mass;

/// From this share above its limit on, in degrees Celsius, metal is gone within a season. Our own mark.
const BURNS_AWAY: f64 = 0.25;
/// What copper bears for long, °C: above, it goes soft and scales (handbook value, from memory).
const COPPER: f64 = 200.0;

const CAUTION: &str = "A pipe that scales through lets air into hot gas: that burns inside. Where a blower pushes, carbon monoxide comes out. A hot pipe that is bare burns whoever touches it and lights what lies on it: put a guard of wire mesh around it. Look at hot pipes and vessels often, only when they are cold and have been aired, and change what has grown thin.";

/// What a wall is as hot as.
enum Wall {
    /// Reckoned along the stage.
    Found(f64),
    /// Close to the gas, which gives off little through insulation.
    Gas(f64),
    /// Colder than the gas, nobody reckons how much.
    Below(f64),
}

impl Wall {
    fn of(at: &At) -> Option<Wall> {
        let gas = at.gas.temperature.value;
        let covered = at.entry.cover == Cover::Insulated;
        Some(match &at.outcome.detail {
            Detail::Cooler(found) => Wall::Found(found.hottest_surface.value),
            Detail::Pipe(_) if at.entry.kind != StageKind::Pipe => return None,
            Detail::Pipe(found) => match found.hottest_surface {
                Some(wall) if !covered => Wall::Found(wall.value),
                _ => Wall::Gas(gas),
            },
            Detail::Cyclone(_) | Detail::Trap(_) | Detail::Filter(_) => match covered {
                true => Wall::Gas(gas),
                false => Wall::Below(gas),
            },
            // Nobody knows what is measured as a whole; blower and engine have marks of their own.
            Detail::Measured | Detail::Blower(_) | Detail::Engine(_) => return None,
        })
    }

    fn most(&self) -> f64 {
        match self {
            Wall::Found(wall) | Wall::Gas(wall) | Wall::Below(wall) => *wall,
        }
    }
}

/// Name of the metal of a stage, and what it bears for long in K.
fn metal(design: &Design, stage: &TrainStage) -> Option<(&'static str, f64)> {
    if stage.kind == StageKind::Cooler && stage.tube_material == TubeMetal::Copper {
        return Some((TubeMetal::Copper.label(), celsius(COPPER)));
    }
    let material = train_mass::material(stage)?;
    let limit = design.material(material).ok()?.limit.value;
    Some((material.label(), limit))
}

/// A stage at the load at which its wall comes nearest to what it bears, or farthest beyond it.
struct Worst<'a> {
    at: At<'a>,
    load: &'static str,
    wall: Wall,
    name: &'static str,
    limit: f64,
}

impl Worst<'_> {
    /// Share of the limit that is left, in degrees Celsius.
    fn margin(&self) -> f64 {
        1.0 - (self.wall.most() - celsius(0.0)) / (self.limit - celsius(0.0))
    }
}

/// Every stage at every load against what its metal bears for long.
pub(super) fn ask(solved: &Solved) -> Option<Finding> {
    // Of loads that are as hot the first is told.
    let loads = [
        (Some(solved.clean), "at full load"),
        (Some(solved.dirty), "at full load with a dirty filter"),
        (Some(solved.usual), "at the usual load"),
        (solved.startup, "while lighting"),
    ];
    let worst = loads
        .into_iter()
        .filter_map(|(solution, load)| Some((solution?, load)))
        .flat_map(|(solution, load)| solved.stages(solution, |_| true).map(move |at| (at, load)))
        .filter_map(|(at, load)| {
            let (wall, (name, limit)) = (Wall::of(&at)?, metal(solved.design, at.entry)?);
            Some(Worst {
                at,
                load,
                wall,
                name,
                limit,
            })
        })
        .min_by(|one, other| one.margin().total_cmp(&other.margin()))?;
    let (wall, limit) = (worst.wall.most(), worst.limit);
    let above = limit + BURNS_AWAY * (limit - celsius(0.0));
    let verdict = match worst.wall {
        Wall::Below(_) => Verdict::at_most(wall, limit, f64::INFINITY),
        Wall::Found(_) | Wall::Gas(_) => Verdict::at_most(wall, limit, above),
    };
    let temperature = |value| Measure::new(Q::Temperature, value);
    let words = match (verdict, &worst.wall) {
        (Verdict::Good, Wall::Found(_)) => "{}: its wall comes to {} {}; {} bears {} for long",
        (Verdict::Good, _) => "{}: gas of {} comes into it {}; {} bears {} for long",
        (Verdict::Stop, Wall::Found(_)) => {
            "{}: its wall comes to {} {}; {} bears {} for long: it scales through"
        }
        (Verdict::Stop, _) => {
            "{}: gas of {} comes into it {}, and its wall is nearly as hot; {} bears {} for long: it scales through"
        }
        (_, Wall::Found(_)) => {
            "{}: its wall comes to {} {}; {} bears {} for long: it scales and gets thin"
        }
        (_, Wall::Gas(_)) => {
            "{}: gas of {} comes into it {}, and its wall is nearly as hot; {} bears {} for long: it scales and gets thin"
        }
        (_, Wall::Below(_)) => {
            "{}: gas of {} comes into it {}; {} bears {} for long: bare it stays colder than the gas, but nobody reckons how much"
        }
    };
    let finding = Question {
        id: "train.metal",
        title: "Metal against the heat of the gas",
        meaning: "Pipes and vessels that are too hot for their metal turn to scale from the inside and the outside.",
        why: "The first pipe and the cyclone get the gas as hot as it leaves the vessel; air that leaks in and burns makes it hotter still.",
        caution: (verdict > Verdict::Good).then_some(CAUTION),
    };
    Some(finding.answered(Answer {
        verdict,
        margin: worst.margin(),
        compared: Phrase::new(
            words,
            [
                solved.name(worst.at.place).into(),
                temperature(wall).into(),
                worst.load.into(),
                lower_first(worst.name).into(),
                temperature(limit).into(),
            ],
        ),
        working: vec![Step {
            words: match worst.wall {
                Wall::Found(_) => "Hottest place of the wall, where the gas comes in",
                Wall::Gas(_) => "Wall inside its insulation, taken as hot as the gas that comes in",
                Wall::Below(_) => "Wall, no hotter than the gas that comes in",
            },
            formula: "T ≤ T_max",
            values: vec![
                ("T_max", "what the metal bears for long", temperature(limit)),
                (
                    "T_gas",
                    "gas that comes in",
                    temperature(worst.at.gas.temperature.value),
                ),
            ],
            result: temperature(wall),
            source: match worst.name == TubeMetal::Copper.label() {
                true => FromMemory("handbook value for soft copper"),
                false => OwnMark(
                    "the limit is that of the table of materials, for scaling in air; a quarter above it, in °C, is Stop, but Watch for a bare vessel",
                ),
            },
            sure: "In lean gas metal scales more slowly than in air; the outside of a hot pipe is in air.",
        }],
        levers: mends(solved.design, &worst),
    }))
}

/// The metal where it can be chosen; else what keeps the wall colder than the gas, and what cools the gas before it.
fn mends(design: &Design, worst: &Worst) -> Vec<Lever> {
    let (place, entry) = (worst.at.place, worst.at.entry);
    let mut found = Vec::new();
    if entry.kind == StageKind::Cooler {
        found.push(levers::at(place, "tube_material"));
        found.push(levers::at(place, "cooling"));
    } else if entry.cover == Cover::Insulated {
        found.push(levers::at(place, "cover"));
    }
    if entry.kind == StageKind::Pipe {
        found.push(levers::at(place, "bore"));
    }
    let before = design.train.iter().take(place).enumerate().rev();
    for (place, stage) in before.filter(|(_, stage)| stage.kind == StageKind::Pipe) {
        if stage.cover == Cover::Insulated {
            found.push(levers::at(place, "cover"));
        }
        found.push(levers::at(place, "length"));
    }
    found.push(Lever::input("raw_gas.temperature"));
    found
}
