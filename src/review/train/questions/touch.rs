//! May a hand brush the pipes and vessels of the train?

use super::cool::{METHOD, air_of_fan, of_cooler};
use super::cooler_outside::standing_water;
use super::{Answer, At, Load, Question, Solved};
use crate::design::Source::OwnMark;
use crate::design::inputs::{Cover, LoadTime, StageKind};
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::review::hearth::surroundings;
use crate::review::train::levers;
use crate::review::train::stages::heat_flux;
use crate::review::warmth::BURN_CAUTION;
use crate::sizing::cooler_drive::CoolerDrive;
use crate::sizing::nozzles::Surroundings;
use crate::sizing::train::{Detail, surface_giving_off};
use crate::sizing::train_mass;

/// A stage at the load at which its outside gets hottest, and how hot that gets, K.
struct Outside<'a> {
    at: At<'a>,
    load: Load,
    surface: f64,
    /// Up to here it is good: a hand may brush it, or it is behind a guard.
    limit: f64,
    /// From here on it lights what falls on it, guard or no guard.
    lights: f64,
}

impl Outside<'_> {
    fn is_guarded(&self) -> bool {
        self.at.entry.guarded
    }

    fn is_too_hot(&self) -> bool {
        self.surface > self.limit
    }

    /// What burns a hand alone is Watch: unlike the vessel, a pipe may be out of reach. What lights chaff is Stop wherever it
    /// is, as at the vessel.
    fn verdict(&self) -> Verdict {
        Verdict::at_most(self.surface, self.limit, self.lights.max(self.limit))
    }

    /// How far its outside is from its limit, as a share of what that is above the air.
    fn margin(&self, air: f64) -> f64 {
        (self.limit - self.surface) / (self.limit - air).max(1.0)
    }
}

/// What tells at which of several loads a stage is hottest outside, K: its outside where its gas comes in, or where only a
/// search tells that, the gas that heats it. None where no heat is counted, as of what is measured as a whole, and of blower
/// and engine.
fn heat_of(at: &At) -> Option<f64> {
    Some(match &at.outcome.detail {
        Detail::Cooler(found) => found.water.unwrap_or(found.hottest_surface).value,
        Detail::Pipe(found) => found.hottest_surface?.value,
        Detail::Cyclone(_) | Detail::Trap(_) | Detail::Filter(_) => at.gas.temperature.value,
        Detail::Measured | Detail::Blower(_) | Detail::Engine(_) => return None,
    })
}

/// The hottest place outside a stage, from what tells it, K.
fn surface(at: &At, heat: f64, around: &Surroundings) -> Option<f64> {
    match &at.outcome.detail {
        Detail::Cyclone(_) | Detail::Trap(_) | Detail::Filter(_) => {
            let flux = heat_flux(at.entry, heat - around.temperature.value);
            let size = train_mass::outside_size(at.entry)?;
            Some(surface_giving_off(flux, size, heat, around))
        }
        _ => Some(heat),
    }
}

/// Each stage at the load at which it is hottest, the highest of those at which it is as hot.
fn outsides<'a>(solved: &Solved<'a>) -> Vec<Outside<'a>> {
    let mut hottest: Vec<(At, Load, f64)> = Vec::with_capacity(solved.design.train.len());
    for (load, solution) in solved.named_loads() {
        for at in solved.stages(solution, |_| true) {
            let Some(heat) = heat_of(&at) else {
                continue;
            };
            match (hottest.iter_mut()).find(|(other, ..)| other.place == at.place) {
                None => hottest.push((at, load, heat)),
                Some(other) if heat > other.2 => *other = (at, load, heat),
                Some(_) => {}
            }
        }
    }
    let limits = &solved.design.limits;
    let around = surroundings(solved.design);
    (hottest.into_iter())
        .filter_map(|(at, load, heat)| {
            Some(Outside {
                surface: surface(&at, heat, &around)?,
                limit: match at.entry.guarded {
                    true => limits.guarded_temperature.value,
                    false => limits.touch_temperature.value,
                },
                lights: limits.guarded_temperature.value,
                at,
                load,
            })
        })
        .collect()
}

/// Whether a hand may brush the train, and whether it lights what falls on it.
pub(super) fn ask(solved: &Solved) -> Option<Finding> {
    let air = solved.design.site.air_temperature.value;
    let mut found = outsides(solved);
    found.sort_by(|one, other| {
        (other.verdict().cmp(&one.verdict())).then(one.margin(air).total_cmp(&other.margin(air)))
    });
    let (worst, others) = found.split_first()?;
    let too_hot: Vec<&Outside> = others.iter().filter(|other| other.is_too_hot()).collect();
    let verdict = worst.verdict();
    let compared = compared(solved, worst, others);
    let burns =
        (found.iter()).any(|one| one.surface > solved.design.limits.touch_temperature.value);
    Some(
        Question {
            id: "train.touch",
            title: "Touching the train",
            meaning: "How hot pipes, vessels and coolers get outside, where the hot gas comes into each, at the load at which each is hottest.",
            why: "Metal at the touch mark burns skin after some five seconds, and hotter metal lights leaves or oil on it. A guard keeps hands off, but not what falls on it.",
            caution: match verdict {
                Verdict::Good => burns.then_some(BURN_CAUTION),
                _ => Some("Bare pipes and vessels burn skin at a touch and light leaves or oil on them: put a guard of wire mesh around them, or insulation."),
            },
        }
        .answered(Answer {
            verdict,
            margin: worst.margin(air),
            compared: match too_hot.is_empty() {
                true => compared,
                false => {
                    let alike = (too_hot.iter())
                        .all(|other| other.is_guarded() == worst.is_guarded() && other.verdict() == verdict);
                    let names: Vec<String> = (too_hot.iter())
                        .map(|other| solved.name(other.at.place))
                        .collect();
                    Phrase::new(
                        match alike {
                            true => "{}. The same goes for: {}",
                            false => "{}. Too hot as well: {}",
                        },
                        [compared.into(), names.join(", ").into()],
                    )
                }
            },
            working: vec![step(worst, air)],
            levers: cooler_or_covered(solved, &found),
        }),
    )
}

/// The outside of one stage beside its marks.
fn compared(solved: &Solved, worst: &Outside, others: &[Outside]) -> Phrase {
    let temperature = |si| Measure::new(Q::Temperature, si);
    let less = match worst.at.entry.kind {
        StageKind::Cooler
            if worst.load == Load::Lighting && CoolerDrive::Fan.is_of(worst.at.entry) =>
        {
            "let its fan run then too"
        }
        StageKind::Cooler => "cool it more",
        _ => "insulate it",
    };
    let told = [
        solved.name(worst.at.place).into(),
        temperature(worst.surface).into(),
        worst.load.words().into(),
        temperature(worst.limit).into(),
    ];
    let and = |slots: Vec<Slot>| told.clone().into_iter().chain(slots);
    match (worst.is_guarded(), worst.verdict()) {
        (false, Verdict::Good) if others.iter().any(Outside::is_guarded) => Phrase::new(
            "{}: {} outside {}, the hottest without a guard. Safe to touch: up to {}",
            told,
        ),
        (false, Verdict::Good) => Phrase::new(
            "{}: {} outside {}, the hottest. Safe to touch: up to {}",
            told,
        ),
        (false, Verdict::Stop) => Phrase::new(
            "{}: {} outside {}: burns the hand, and lights chaff, leaves or oil. Safe to touch: up to {}, behind a guard up to {}; {}",
            and(vec![temperature(worst.lights).into(), less.into()]),
        ),
        (false, _) => Phrase::new(
            "{}: {} outside {}: burns the hand. Safe to touch: up to {}; fit a guard of wire mesh, or set it out of reach",
            told,
        ),
        (true, Verdict::Good) => {
            Phrase::new("{}: {} outside {}, behind a guard; up to {} is good", told)
        }
        (true, _) => Phrase::new(
            "{}: {} outside {}, behind a guard: lights chaff, leaves or oil. Up to {} is good; {}",
            and(vec![less.into()]),
        ),
    }
}

/// What makes hot outsides colder, or keeps hands off them.
fn cooler_or_covered(solved: &Solved, found: &[Outside]) -> Vec<Lever> {
    let hot = || found.iter().filter(|found| found.is_too_hot());
    let bare = hot().filter(|found| can_be_covered(&found.at));
    let open = hot().filter(|found| !found.is_guarded());
    let states: Vec<LoadTime> = [LoadTime::Running, LoadTime::Lighting]
        .into_iter()
        .filter(|state| hot().any(|found| found.load.state() == *state))
        .collect();
    let switched_on = (states.iter()).flat_map(|state| {
        [CoolerDrive::Fan, CoolerDrive::Pump]
            .into_iter()
            .flat_map(|drive| levers::switched_on(solved.design, drive, *state))
    });
    // Where a guard is not enough.
    let lights = hot().filter(|found| found.surface > found.lights);
    (bare.map(|found| levers::at(found.at.place, "cover")))
        .chain(open.map(|found| levers::at(found.at.place, "guarded")))
        .chain(switched_on)
        .chain(lights.flat_map(|found| {
            let entry = found.at.entry;
            let names: &[&str] = match (entry.kind, entry.cover) {
                (StageKind::Cooler, _) if CoolerDrive::Fan.is_of(entry) => {
                    &["air_speed", "cooling"]
                }
                (StageKind::Cooler, _) => &["cooling"],
                (_, Cover::Insulated) => &["insulation"],
                (_, Cover::Bare) => &[],
            };
            names.iter().map(|name| levers::at(found.at.place, name))
        }))
        .collect()
}

fn can_be_covered(at: &At) -> bool {
    at.entry.kind != StageKind::Cooler && at.entry.cover == Cover::Bare
}

fn step(hottest: &Outside, air: f64) -> Step {
    let at = &hottest.at;
    let temperature = |si| Measure::new(Q::Temperature, si);
    let gas = ("T₁", "gas comes in", temperature(at.gas.temperature.value));
    let result = temperature(hottest.surface);
    let around = ("T_a", "air around", temperature(air));
    if let Detail::Cyclone(_) | Detail::Trap(_) | Detail::Filter(_) = at.outcome.detail {
        let flux = heat_flux(at.entry, at.gas.temperature.value - air);
        return Step {
            words: "Outside of the vessel, so hot that still air and what is around take its heat, q, by convection and radiation",
            formula: "q = k (T₁ − T_a)",
            values: vec![
                gas,
                around,
                (
                    "k",
                    "heat through the wall for each degree",
                    Measure::new(Q::HeatTransferCoefficient, heat_flux(at.entry, 1.0)),
                ),
                (
                    "q",
                    "heat through the wall",
                    Measure::new(Q::HeatFlux, flux),
                ),
            ],
            result,
            source: OwnMark(
                "heat through a bare wall 10 W/(m²·K) or 1.8 BTU/(h·ft²·°F), our own estimate; natural convection and radiation outside",
            ),
            sure: "About 20 % of the way from air to gas: gas that whirls heats its wall more.",
        };
    }
    if let Some(step) = standing_water(at) {
        return step;
    }
    let cooler = of_cooler(at);
    Step {
        words: match cooler.map(|found| found.water) {
            Some(Some(_)) => "The water around its tubes, as warm as their heat makes it",
            Some(None) => "Hottest place of its tubes",
            None => "Hottest place of the pipe, where the gas comes in",
        },
        formula: "heat from the gas at T₁ = heat to the air at T_a, found step by step along bore d",
        values: [
            gas,
            around,
            (
                "v",
                "gas velocity at the inlet",
                Measure::new(Q::Velocity, at.outcome.velocity.value),
            ),
            ("d", "bore", Measure::new(Q::Bore, bore(at))),
        ]
        .into_iter()
        .chain(cooler.map(|_| {
            let emittance = Measure::new(Q::Share, at.entry.emittance.value);
            ("ε", "emittance of the outside", emittance)
        }))
        .chain(air_of_fan(at).filter(|_| cooler.is_some()))
        .collect(),
        result,
        source: METHOD,
        sure: "About 20 % of the way from air to gas where it is clean; soot inside makes it cooler.",
    }
}

fn bore(at: &At) -> f64 {
    match at.entry.kind {
        StageKind::Cooler => at.entry.tube_bore.value,
        _ => at.entry.bore.value,
    }
}
