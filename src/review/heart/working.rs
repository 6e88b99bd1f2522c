//! The working behind the three numbers.

use super::{Heart, at_load};
use crate::design::Design;
use crate::design::Source::{CommonPractice, FromMemory, OwnMark, Published, Reckoned};
use crate::design::inputs::{AirRule, FlowSource};
use crate::design::phrase::Measure;
use crate::design::quantity::Quantity as Q;
use crate::review::finding::Step;
use crate::review::hearth::surroundings;
use crate::sizing::engine::cycle_of;
use crate::sizing::fuel::char_drawn_of;
use crate::sizing::gas::HearthSolution;
use crate::sizing::heart::{HeartAt, radius};

/// From wood and engine to the three numbers.
pub(super) fn at_load(design: &Design, at: &HeartAt, solution: &HearthSolution) -> Vec<Step> {
    vec![
        flow(design, at, solution),
        wood(solution),
        loss(solution),
        air(design, solution),
        mean(solution),
        hottest(solution),
        drop(design, solution),
        cold(design, solution),
        heat(solution),
    ]
}

fn flow(design: &Design, at: &HeartAt, solution: &HearthSolution) -> Step {
    let gas = Measure::new(Q::NormalFlow, solution.gas_rate.value);
    let load = (
        "load",
        "share of full load",
        Measure::new(Q::Share, at.load.value),
    );
    if design.operation.flow_source == FlowSource::Entered {
        return Step {
            words: "Gas flow at this load, as entered",
            formula: "Q = Q_full × load",
            values: vec![
                (
                    "Q_full",
                    "gas flow at full load",
                    Measure::new(Q::NormalFlow, design.operation.full_gas_flow.value),
                ),
                load,
            ],
            result: gas,
            source: CommonPractice,
            sure: "as sure as the flow entered",
        };
    }
    let engine = &design.engine;
    Step {
        words: "Gas the engine draws: what fills its cylinders, less the air that the gas needs",
        formula: "Q = V n / turns × η_v × load × (p / 101.325 kPa) (273.15 K / T) / (1 + s)",
        values: vec![
            (
                "V",
                "displacement",
                Measure::new(Q::Displacement, engine.displacement.value),
            ),
            ("n", "speed", Measure::new(Q::Speed, engine.speed.value)),
            (
                "turns",
                "from one filling of a cylinder to the next",
                Measure::new(Q::Count, cycle_of(engine.strokes).turns_per_filling()),
            ),
            (
                "η_v",
                "filling",
                Measure::new(Q::Share, engine.volumetric_efficiency.value),
            ),
            load,
            (
                "p",
                "air outside",
                Measure::new(Q::Pressure, surroundings(design).pressure.value),
            ),
            (
                "T",
                "mixture temperature",
                Measure::new(Q::Temperature, engine.intake_temperature.value),
            ),
            (
                "s",
                "air that a volume of gas needs",
                Measure::new(Q::Number, solution.gas.stoichiometric_air),
            ),
        ],
        result: gas,
        source: CommonPractice,
        sure: "±10 %, mostly by the filling",
    }
}

fn wood(solution: &HearthSolution) -> Step {
    let gas = &solution.gas;
    Step {
        words: "Wood burned for it",
        formula: "m = Q / y",
        values: vec![
            (
                "Q",
                "gas flow",
                Measure::new(Q::NormalFlow, solution.gas_rate.value),
            ),
            (
                "y",
                "normal cubic metres of gas from a kilogram of wood",
                Measure::new(Q::Number, gas.gas_per_fuel.value),
            ),
        ],
        result: Measure::new(Q::MassFlow, solution.fuel_rate.value),
        source: Published(
            "balance of carbon, hydrogen, oxygen and heat; gas in equilibrium by NASA TM-4513, 1993",
        ),
        sure: "±10 %",
    }
}

fn loss(solution: &HearthSolution) -> Step {
    let shell = &solution.shell;
    Step {
        words: "Share of the wood's heat that the shell takes",
        formula: "share = (Q_above + Q_below) / (m H)",
        values: vec![
            (
                "Q_above",
                "lost in the burning zone and above it",
                Measure::new(Q::Power, shell.at_or_above_nozzle.value),
            ),
            (
                "Q_below",
                "lost below the burning zone",
                Measure::new(Q::Power, shell.below_nozzle.value),
            ),
            (
                "m H",
                "heat in the wood, water condensed",
                Measure::new(Q::Power, solution.fuel_power.value),
            ),
        ],
        result: Measure::new(Q::Share, solution.gas.loss_share.value),
        source: Published("ASTM C680; ISO 12241; Channiwala and Parikh, Fuel 81, 2002"),
        sure: "±25 % of its value: conductivities are typical, pipes and grate shaft are not counted",
    }
}

fn air(design: &Design, solution: &HearthSolution) -> Step {
    let making = &design.gas_making;
    let gas = &solution.gas;
    let exit = (
        "T_e",
        "gas stops changing at",
        Measure::new(Q::Temperature, gas.exit_temperature.value),
    );
    let lost = (
        "share",
        "lost through the shell",
        Measure::new(Q::Share, gas.loss_share.value),
    );
    let air = Measure::new(Q::Number, gas.equivalence_ratio.value);
    match making.air_rule {
        AirRule::CharLimited => Step {
            words: "Air over that of full burning: as much as it takes to make gas of that heat, bear the loss and use up all char; only very dry fuel rich in carbon gets hotter by that",
            formula: "wood + air = gas at T_e + char drawn + loss",
            values: vec![
                exit,
                lost,
                (
                    "c",
                    "char drawn off, of dry wood",
                    Measure::new(Q::Share, char_drawn_of(design).value),
                ),
            ],
            result: air,
            source: FromMemory("Zainal et al., Energy Conversion and Management 42, 2001"),
            sure: "the gas is within 2 % by volume of the published case; a real hearth is not quite in equilibrium",
        },
        AirRule::AirHeld => Step {
            words: "Air over that of full burning, as entered; the temperature of the leaving gas follows",
            formula: "wood + air = gas at T_e + char + loss",
            values: vec![
                exit,
                lost,
                (
                    "c",
                    "char drawn off, of dry wood",
                    Measure::new(Q::Share, char_drawn_of(design).value),
                ),
                (
                    "l",
                    "char left over, of dry wood",
                    Measure::new(Q::Share, gas.char_left.value),
                ),
            ],
            result: air,
            source: OwnMark("as entered"),
            sure: "as sure as the measurement",
        },
    }
}

fn mean(solution: &HearthSolution) -> Step {
    let gas = &solution.gas;
    Step {
        words: "Mean temperature in the fire: smoke and steam burn with all of the air, char is warmed along",
        formula: "burned smoke + char at T_m = wood + air − loss above",
        values: vec![
            (
                "λ",
                "air over that of full burning",
                Measure::new(Q::Number, gas.equivalence_ratio.value),
            ),
            (
                "loss above",
                "share lost in the burning zone and above it",
                Measure::new(Q::Share, gas.loss_share_above.value),
            ),
        ],
        result: Measure::new(Q::Temperature, solution.profile.mean.value),
        source: Reckoned("a balance of heat for the burning zone alone"),
        sure: "±60 K (110 °F): how much char waits for the zone below is typical, not measured. Heat lost below the fire draws more air: the fire gets hotter while the gas gets weaker",
    }
}

fn hottest(solution: &HearthSolution) -> Step {
    Step {
        words: "Hottest mean that is still Good: up to here wood ash stays solid and dense castable, which bears most of all materials of the table, bears the fire itself. The wall behind it is colder",
        formula: "T_max ≥ T_m",
        values: vec![
            (
                "T_m",
                "mean temperature in the fire",
                Measure::new(Q::Temperature, solution.profile.mean.value),
            ),
            (
                "T_w",
                "wall; at the hottest load it is held against its layers under “Layers of the hearth wall”",
                Measure::new(Q::Temperature, solution.profile.wall.value),
            ),
        ],
        result: Measure::new(Q::Temperature, at_load::HOTTEST),
        source: CommonPractice,
        sure: "±100 K (180 °F): ash of bark and shells melts from about 1200 °C (2200 °F), clean wood's later",
    }
}

fn drop(design: &Design, solution: &HearthSolution) -> Step {
    let profile = &solution.profile;
    let wall = (
        "T_w",
        "wall, solved together with the shell",
        Measure::new(Q::Temperature, profile.wall.value),
    );
    let through_char = [
        (
            "q",
            "heat that flows to the wall",
            Measure::new(Q::HeatFlux, solution.shell.wall_flux.value),
        ),
        (
            "R",
            "inside radius where the air comes in",
            Measure::new(Q::Length, radius(design).value),
        ),
        (
            "k",
            "heat through glowing char",
            Measure::new(Q::Conductivity, design.gas_making.char_conductivity.value),
        ),
        wall,
    ];
    let drop = Measure::new(Q::TemperatureDifference, profile.drop.value);
    if profile.is_held() {
        return Step {
            words: "This wall takes so much heat that q R / (2 k) would ask for a middle hotter than any fire here gets: it is held at what char reaches with just its air and no loss, or this hearth without loss. From there to the wall the temperature falls by",
            formula: "ΔT = T_max − T_w, instead of q R / (2 k)",
            values: [
                &through_char[..],
                &[(
                    "T_max",
                    "the hottest that a fire here gets",
                    Measure::new(Q::Temperature, profile.core.value),
                )],
            ]
            .concat(),
            result: drop,
            source: Reckoned(
                "a balance of heat for char and air alone, and for the hearth without loss",
            ),
            sure: "a rough guide: the real middle is colder, and the rim by the wall colder and wider than one conductivity of char can say",
        };
    }
    Step {
        words: "From the middle of the hearth to its wall the temperature falls by",
        formula: "ΔT = q R / (2 k)",
        values: through_char.to_vec(),
        result: drop,
        source: Published("Carslaw and Jaeger, Conduction of Heat in Solids, 1959"),
        sure: "within a factor of two: published conductivities of glowing char lie between 0.8 and 3 W/(m·K), 5.5 and 21 BTU·in/(h·ft²·°F)",
    }
}

fn cold(design: &Design, solution: &HearthSolution) -> Step {
    let profile = &solution.profile;
    let limit = design.limits.tar_temperature;
    let mut values = vec![
        (
            "T_core",
            if profile.is_held() {
                "middle of the hearth, at most"
            } else {
                "middle of the hearth"
            },
            Measure::new(Q::Temperature, profile.core.value),
        ),
        (
            "T_tar",
            "tar breaks up above",
            Measure::new(Q::Temperature, limit.value),
        ),
        (
            "ΔT",
            "from middle to wall",
            Measure::new(Q::TemperatureDifference, profile.drop.value),
        ),
    ];
    if profile.is_held() {
        values.push((
            "n",
            "how much steeper than usual it falls near the wall, for the same mean: usual is 2",
            Measure::new(Q::Number, profile.power()),
        ));
    }
    Step {
        words: "Share of the cross-section too cold to break up tar",
        formula: if profile.is_held() {
            "s = 1 − ((T_core − T_tar) / ΔT)^(2 / n), held within 0 and 1"
        } else {
            "s = 1 − (T_core − T_tar) / ΔT, held within 0 and 1"
        },
        values,
        result: Measure::new(Q::Share, profile.share_colder_than(limit).value),
        source: OwnMark("tar that passes the cold rim is taken to stay tar"),
        sure: "a guide to compare designs by, not a measure of tar",
    }
}

fn heat(solution: &HearthSolution) -> Step {
    let gas = &solution.gas;
    let share = |symbol, words, value| (symbol, words, Measure::new(Q::Share, value));
    Step {
        words: "Heat in a normal cubic metre of dry gas",
        formula: "H = 12.63 CO + 10.78 H₂ + 35.8 CH₄",
        values: vec![
            share("CO", "carbon monoxide", gas.dry.carbon_monoxide),
            share("H₂", "hydrogen", gas.dry.hydrogen),
            share("CH₄", "methane", gas.dry.methane),
            share("CO₂", "carbon dioxide", gas.dry.carbon_dioxide),
            share("N₂", "nitrogen", gas.dry.nitrogen),
        ],
        result: Measure::new(Q::EnergyPerVolume, 1e6 * gas.lower_heating_value),
        source: FromMemory("ISO 6976, data at 0 °C"),
        sure: "±8 %",
    }
}

/// Where no fire holds: what the shell would take of a fire that did.
pub(super) fn unsolved(at: &HeartAt) -> Vec<Step> {
    let supply = &at.supply;
    let (Some(loss), Some(share)) = (supply.loss, supply.loss_share()) else {
        return Vec::new();
    };
    vec![Step {
        words: "What the shell would take if the fire stayed as it is without any loss, over the heat in the wood for this load",
        formula: "share = Q / (m H)",
        values: vec![
            ("Q", "loss", Measure::new(Q::Power, loss.value)),
            (
                "m H",
                "heat in the wood, water condensed",
                Measure::new(Q::Power, supply.fuel_power.value),
            ),
        ],
        result: Measure::new(Q::Share, share.value),
        source: Published("ASTM C680; ISO 12241; Channiwala and Parikh, Fuel 81, 2002"),
        sure: "no more than a hint: to make up for the loss the hearth burns its own gas, gets hotter, and loses more than that",
    }]
}

/// The same hearth with less and with more insulation.
pub(in crate::review) fn other_layers(design: &Design, heart: &Heart) -> Vec<Step> {
    let cases = [
        (
            "The same at the usual load without the insulation of the hearth wall: mean temperature",
            heart.without_insulation(),
        ),
        (
            "The same at the usual load with one more layer around the hearth: mean temperature",
            heart.one_more_layer(),
        ),
    ];
    cases
        .into_iter()
        .filter_map(|(words, at)| {
            let solution = at?.solved.as_ref().ok()?;
            let numbers = at_load::judge(design, solution);
            Some(Step {
                words,
                formula: "as above, with other layers",
                values: vec![
                    (
                        "s",
                        "share of the hearth too cold for tar",
                        Measure::new(Q::Share, numbers.cold.value),
                    ),
                    (
                        "H",
                        "heat in the gas",
                        Measure::new(Q::EnergyPerVolume, numbers.gas_heat),
                    ),
                    (
                        "share",
                        "lost through the shell",
                        Measure::new(Q::Share, solution.gas.loss_share.value),
                    ),
                ],
                result: Measure::new(Q::Temperature, numbers.mean.value),
                source: OwnMark("for comparison only"),
                sure: "as above",
            })
        })
        .collect()
}
