//! Can the gas leave the vessel as hot or cold as it was entered?

use super::{Answer, Question};
use crate::design::Design;
use crate::design::Source::CommonPractice;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::physics::normal_state::AIR_DENSITY;
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::review::heart::Heart;
use crate::review::train::TrainReview;
use crate::sizing::fuel::HEAT_OF_EVAPORATION;
use crate::sizing::shell::zone_heat;
use crate::sizing::zone::Zone;
use uom::si::f64::Power;
use uom::si::power::watt;

/// The gas at the outlet against the gas as it is made. None where hearth or gas cannot be worked out.
pub(in crate::review::train) fn ask(
    design: &Design,
    heart: &Heart,
    train: &TrainReview,
) -> Option<Finding> {
    let solution = heart.at.full.solved.as_ref().ok()?;
    let made = solution.gas.exit_temperature;
    let raw = &train.outlet;
    let leaves = design.raw_gas.temperature;
    // Hotter than the train bears, all of its water is steam.
    let gas = raw.flowing();
    let given = Power::new::<watt>(gas.enthalpy(made.value) - gas.enthalpy(leaves.value));
    let flow = raw.gas_mass_rate().value;
    let capacity = given.value / (flow * (made.value - leaves.value));
    let temperature = |value| Measure::new(Q::Temperature, value);
    let takers = Takers::of(design, heart, made.value);
    let most = takers.as_ref().map_or(f64::INFINITY, Takers::sum);
    let possible = leaves <= made;
    let verdict = Verdict::at_most(leaves.value, made.value, made.value);
    let too_much = possible && given.value > most;
    let power = |value| Measure::new(Q::Power, value).into();
    Some(
        Question {
            id: "train.leaves",
            title: "Gas at the outlet of the vessel",
            meaning: "Between char and outlet the gas gives off heat: to the wood above, to the air that comes in, and through the shell.",
            why: "Nothing heats the gas once it is made. What it gives back to air and wood is not counted for the fire here, and what it loses through the body is counted as entered there: measure the outlet once it runs.",
            caution: None,
        }
        .answered(Answer {
            verdict: if too_much { Verdict::Watch } else { verdict },
            margin: if too_much {
                1.0 - given.value / most
            } else {
                1.0 - (leaves.value - 273.15) / (made.value - 273.15)
            },
            compared: match &takers {
                _ if !possible => Phrase::new(
                    "made at {}, it cannot leave at {}",
                    [temperature(made.value).into(), temperature(leaves.value).into()],
                ),
                None => Phrase::new(
                    "made at {}, it leaves at {}: it gives off {} on the way",
                    [
                        temperature(made.value).into(),
                        temperature(leaves.value).into(),
                        power(given.value),
                    ],
                ),
                Some(takers) => Phrase::new(
                    if too_much {
                        "made at {}, it is to leave at {}: it would have to give off {} on the way, but air and wood take up at most {}, and the body wall passes {}. It will come out hotter, and the cooler gets more to do"
                    } else {
                        "made at {}, it leaves at {}: it gives off {} on the way; air and wood could take up to {}, the body wall passes {}"
                    },
                    [
                        temperature(made.value).into(),
                        temperature(leaves.value).into(),
                        power(given.value),
                        power(takers.air() + takers.wood()),
                        power(takers.body),
                    ],
                ),
            },
            working: (capacity.is_finite())
                .then(|| Step {
                    words: "Heat that the gas gives off from char to outlet, at full load",
                    formula: "Q = ṁ c (T₁ − T₂)",
                    values: vec![
                        ("ṁ", "gas with its steam", Measure::new(Q::MassFlow, flow)),
                        (
                            "c",
                            "mean heat capacity",
                            Measure::new(Q::HeatCapacity, capacity),
                        ),
                        ("T₁", "gas as it is made", temperature(made.value)),
                        ("T₂", "gas at the outlet", temperature(leaves.value)),
                    ],
                    result: Measure::new(Q::Power, given.value),
                    source: CommonPractice,
                    sure: "as sure as the outlet temperature, which only a measurement tells",
                })
                .into_iter()
                .chain(takers.filter(|_| possible).map(|takers| takers.step()))
                .collect(),
            levers: vec![Lever::input("raw_gas.temperature")],
        }),
    )
}

/// Mean heat capacity of air up to the heat of the fire, J/(kg·K) (from memory of gas tables).
const AIR_HEAT: f64 = 1090.0;
/// Heat capacity of dry wood, J/(kg·K) (common practice, no source).
const WOOD_HEAT: f64 = 1500.0;
/// Where wood begins to char by itself, K: up to here it must be warmed (common practice, no source).
const CHARS: f64 = 573.15;

/// What can take up heat of the gas between char and outlet, at full load. SI numbers.
struct Takers {
    /// Heat through the body wall, W.
    body: f64,
    /// Air and wood as they come in, K.
    outside: f64,
    /// Gas as it is made, K: the air gets no hotter.
    made: f64,
    /// Air, kg/s.
    air_rate: f64,
    /// Wood as loaded, kg/s.
    wood_rate: f64,
    /// Share of water in it.
    moisture: f64,
}

impl Takers {
    /// None where the body wall or the moisture of the wood cannot be told.
    fn of(design: &Design, heart: &Heart, made: f64) -> Option<Takers> {
        let body = zone_heat(design, Zone::Body, design.body_wall.inner_temperature).ok()?;
        let supply = &heart.at.full.supply;
        Some(Takers {
            body: body.loss.value.max(0.0),
            outside: design.site.air_temperature.value,
            made,
            air_rate: AIR_DENSITY * supply.gas_flow.value / supply.gas_per_air,
            wood_rate: supply.fuel_rate.value,
            moisture: heart.moisture.as_ref().ok()?.wet_basis.value,
        })
    }

    fn air(&self) -> f64 {
        self.air_rate * AIR_HEAT * (self.made - self.outside).max(0.0)
    }

    fn wood(&self) -> f64 {
        let warmed = (1.0 - self.moisture) * WOOD_HEAT * (CHARS - self.outside).max(0.0);
        self.wood_rate * (warmed + self.moisture * HEAT_OF_EVAPORATION)
    }

    fn sum(&self) -> f64 {
        self.body + self.air() + self.wood()
    }

    fn step(&self) -> Step {
        let flow = |value| Measure::new(Q::MassFlow, value);
        let heat = |value| Measure::new(Q::HeatCapacity, value);
        let temperature = |value| Measure::new(Q::Temperature, value);
        Step {
            words: "Most that can take it up: through the body wall, into the wood until it chars, and into the air until it is as hot as the gas was made",
            formula: "Q_most = Q_b + m_w ((1 − u) c_w (T_c − T_a) + u r) + m_a c_a (T₁ − T_a)",
            values: vec![
                (
                    "Q_b",
                    "through the body wall",
                    Measure::new(Q::Power, self.body),
                ),
                ("m_w", "wood", flow(self.wood_rate)),
                ("u", "moisture", Measure::new(Q::Share, self.moisture)),
                ("c_w", "heat capacity of dry wood", heat(WOOD_HEAT)),
                ("T_c", "wood chars by itself from", temperature(CHARS)),
                ("T_a", "air and wood come in at", temperature(self.outside)),
                (
                    "r",
                    "heat that dries the wood",
                    Measure::new(Q::EnergyPerMass, HEAT_OF_EVAPORATION),
                ),
                ("m_a", "air", flow(self.air_rate)),
                ("c_a", "heat capacity of air", heat(AIR_HEAT)),
                ("T₁", "gas as it is made", temperature(self.made)),
            ],
            result: Measure::new(Q::Power, self.sum()),
            source: CommonPractice,
            sure: "Far more than a plain vessel passes on: without a jacket for the air little more than the body wall takes it",
        }
    }
}
