//! May a hand brush the pipes and vessels of the train?

use super::cool::{METHOD, air_of_fan, of_cooler};
use super::{Answer, At, Question, Solved};
use crate::design::Source::OwnMark;
use crate::design::inputs::{Cover, StageKind};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Step, Verdict};
use crate::review::hearth::surroundings;
use crate::review::train::levers;
use crate::review::train::stages::heat_flux;
use crate::sizing::train::{Detail, surface_giving_off};
use crate::sizing::train_mass;

/// A stage, how hot its outside gets, and how hot it may get, K.
struct Outside<'a> {
    at: At<'a>,
    surface: f64,
    limit: f64,
}

impl Outside<'_> {
    fn is_guarded(&self) -> bool {
        self.at.entry.guarded
    }

    fn is_too_hot(&self) -> bool {
        self.surface > self.limit
    }

    /// How far its outside is from its limit, as a share of what that is above the air.
    fn margin(&self, air: f64) -> f64 {
        (self.limit - self.surface) / (self.limit - air).max(1.0)
    }
}

/// The hottest place outside a stage, where its gas comes in; none where no heat is counted, as of what is measured as a
/// whole, and of blower and engine.
fn outside<'a>(solved: &Solved, at: At<'a>) -> Option<Outside<'a>> {
    let surface = match &at.outcome.detail {
        Detail::Cooler(found) => found.water.unwrap_or(found.hottest_surface).value,
        Detail::Pipe(found) => found.hottest_surface?.value,
        Detail::Cyclone(_) | Detail::Trap(_) | Detail::Filter(_) => {
            let (gas, around) = (at.gas.temperature.value, surroundings(solved.design));
            let flux = heat_flux(at.entry, gas - around.temperature.value);
            surface_giving_off(flux, train_mass::outside_size(at.entry)?, gas, &around)
        }
        Detail::Measured | Detail::Blower(_) | Detail::Engine(_) => return None,
    };
    let limits = &solved.design.limits;
    let limit = match at.entry.guarded {
        true => limits.guarded_temperature,
        false => limits.touch_temperature,
    };
    Some(Outside {
        at,
        surface,
        limit: limit.value,
    })
}

/// Whether a hand may brush the train. What burns is Watch: it may be out of reach.
pub(super) fn ask(solved: &Solved) -> Option<Finding> {
    let air = solved.design.site.air_temperature.value;
    let mut found: Vec<Outside> = (solved.stages(solved.clean, |_| true))
        .filter_map(|at| outside(solved, at))
        .collect();
    found.sort_by(|one, other| one.margin(air).total_cmp(&other.margin(air)));
    let (worst, others) = found.split_first()?;
    let too_hot: Vec<&Outside> = others.iter().filter(|other| other.is_too_hot()).collect();
    let verdict = Verdict::at_most(worst.surface, worst.limit, f64::INFINITY);
    let words = match (worst.is_guarded(), verdict) {
        (false, Verdict::Good) if others.iter().any(Outside::is_guarded) => {
            "{}: {} outside at full load, the hottest without a guard. Safe to touch: up to {}"
        }
        (false, Verdict::Good) => {
            "{}: {} outside at full load, the hottest. Safe to touch: up to {}"
        }
        (false, _) => {
            "{}: {} outside at full load: burns the hand. Safe to touch: up to {}; fit a guard of wire mesh, or set it out of reach"
        }
        (true, Verdict::Good) => "{}: {} outside at full load, behind a guard; up to {} is good",
        (true, _) => {
            "{}: {} outside at full load, behind a guard: lights chaff, leaves or oil. Up to {} is good; insulate it, or keep all that burns away from it"
        }
    };
    let temperature = |si| Measure::new(Q::Temperature, si);
    let compared = Phrase::new(
        words,
        [
            solved.name(worst.at.place).into(),
            temperature(worst.surface).into(),
            temperature(worst.limit).into(),
        ],
    );
    let bare = (found.iter()).filter(|found| found.is_too_hot() && can_be_covered(&found.at));
    let open = (found.iter()).filter(|found| found.is_too_hot() && !found.is_guarded());
    Some(
        Question {
            id: "train.touch",
            title: "Touching the train",
            meaning: "How hot pipes, vessels and coolers get outside at full load, where the hot gas comes into each.",
            why: "Metal at the touch mark burns skin after some five seconds, and hotter metal lights leaves or oil on it. A guard keeps hands off.",
            caution: (verdict > Verdict::Good).then_some("Bare pipes and vessels burn skin at a touch and light leaves or oil on them: put a guard of wire mesh around them, or insulation."),
        }
        .answered(Answer {
            verdict,
            margin: worst.margin(air),
            compared: match too_hot.is_empty() {
                true => compared,
                false => {
                    let alike = (too_hot.iter())
                        .all(|other| other.is_guarded() == worst.is_guarded());
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
            levers: (bare.map(|found| levers::at(found.at.place, "cover")))
                .chain(open.map(|found| levers::at(found.at.place, "guarded")))
                .collect(),
        }),
    )
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
