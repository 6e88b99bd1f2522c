//! What was measured, beside what is computed.

use super::{GAS_CAUTION, Heart};
use crate::design::Source::{CommonPractice, Reckoned};
use crate::design::inputs::AirRule;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::{Quantity as Q, exceeds};
use crate::design::{Choice as _, Design};
use crate::physics::equilibrium::GasAmounts;
use crate::review::finding::{Chapter, Finding, Step, Verdict};
use crate::sizing::flammability::OXYGEN_IN_AIR;
use crate::sizing::gas::lower_heating_value;
use crate::sizing::heart::{HeartError, HeartModel};
use uom::si::f64::Ratio;

/// A measured value beside the computed one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measurement {
    /// Stable name in results.
    pub name: &'static str,
    /// What was measured.
    pub label: &'static str,
    /// What was entered.
    pub measured: Measure,
    /// What the model says at the same load; of gases and heat with the air in it that the measured oxygen tells.
    pub computed: Measure,
}

/// How much of the gas that was measured is air from a leak, as its oxygen tells: the fire leaves none. None where none was
/// measured.
fn leaked_air(design: &Design) -> Option<f64> {
    let oxygen = design.measured.oxygen?.value.max(0.0);
    (oxygen > 0.0).then(|| (oxygen / OXYGEN_IN_AIR).min(1.0))
}

/// Every measured value entered, beside the model at the load at which it was measured. Empty when nothing was entered or
/// the model has no solution there.
///
/// ```
/// use hearthplan::{design::Design, review::model_beside_measurement};
/// use uom::si::{f64::Ratio, ratio::percent};
/// let mut design = Design::default();
/// assert!(model_beside_measurement(&design).is_empty());
/// design.measured.hydrogen = Some(Ratio::new::<percent>(16.0));
/// assert_eq!(model_beside_measurement(&design)[0].name, "hydrogen");
/// ```
pub fn model_beside_measurement(design: &Design) -> Vec<Measurement> {
    beside(design, &HeartModel::of(design)).unwrap_or_default()
}

fn beside(design: &Design, model: &HeartModel) -> Result<Vec<Measurement>, HeartError> {
    let measured = &design.measured;
    let gas = [
        measured.carbon_monoxide,
        measured.hydrogen,
        measured.carbon_dioxide,
        measured.methane,
        measured.oxygen,
    ];
    let nothing = measured.hearth_temperature.is_none()
        && measured.gas_exit_temperature.is_none()
        && gas.iter().all(Option::is_none);
    if nothing {
        return Ok(Vec::new());
    }
    let solution = model.solve(measured.load)?;
    let dry = &solution.gas.dry;
    // The analyser sees the gas thinned by what has leaked in.
    let gas_left = 1.0 - leaked_air(design).unwrap_or(0.0);
    let mut rows = Vec::with_capacity(8);
    let mut row = |name, label, quantity, measured: Option<f64>, computed| {
        rows.extend(measured.map(|value| Measurement {
            name,
            label,
            measured: Measure::new(quantity, value),
            computed: Measure::new(quantity, computed),
        }));
    };
    row(
        "hearth_temperature",
        "Hearth temperature",
        Q::Temperature,
        measured.hearth_temperature.map(|value| value.value),
        solution.profile.mean.value,
    );
    row(
        "gas_exit_temperature",
        "Gas leaving the char",
        Q::Temperature,
        measured.gas_exit_temperature.map(|value| value.value),
        solution.gas.exit_temperature.value,
    );
    let names = [
        ("carbon_monoxide", "Carbon monoxide", dry.carbon_monoxide),
        ("hydrogen", "Hydrogen", dry.hydrogen),
        ("carbon_dioxide", "Carbon dioxide", dry.carbon_dioxide),
        ("methane", "Methane", dry.methane),
        ("oxygen", "Oxygen", dry.oxygen),
    ];
    for ((name, label, computed), share) in names.into_iter().zip(gas) {
        row(
            name,
            label,
            Q::Share,
            share.map(|share| share.value),
            computed * gas_left,
        );
    }
    row(
        "gas_heat",
        "Heat in the gas",
        Q::EnergyPerVolume,
        measured_heat(gas),
        1e6 * solution.gas.lower_heating_value * gas_left,
    );
    Ok(rows)
}

/// Heat in the measured gas; none unless all that burns was measured.
fn measured_heat([carbon_monoxide, hydrogen, _, methane, _]: [Option<Ratio>; 5]) -> Option<f64> {
    let gas = GasAmounts {
        carbon_monoxide: carbon_monoxide?.value,
        hydrogen: hydrogen?.value,
        methane: methane?.value,
        ..GasAmounts::default()
    };
    Some(1e6 * lower_heating_value(&gas))
}

/// How far the measured value may be from the computed one before a person should wonder, as a share. Our own mark, about
/// what the model claims of itself.
const NEAR: f64 = 0.15;
/// The same for temperatures, K.
const NEAR_KELVIN: f64 = 100.0;
/// Gases scarcer than this are compared as if there were this much of them: equilibrium leaves less methane than a real
/// hearth does.
const SCARCE: f64 = 0.20;

impl Measurement {
    /// Whether leaked air thins what was measured.
    fn is_of_gas(&self) -> bool {
        self.measured.quantity != Q::Temperature
    }

    /// How far apart measurement and model are; 1 is as far as the model claims to be sure.
    fn apart(&self) -> f64 {
        let (measured, computed) = (self.measured.si, self.computed.si);
        let near = match self.measured.quantity {
            Q::Temperature => NEAR_KELVIN,
            Q::Share => NEAR * computed.max(SCARCE),
            _ => NEAR * computed,
        };
        let off = (measured - computed).abs();
        // All air: no gas is left that could be off.
        if off > 0.0 { off / near } else { 0.0 }
    }
}

/// The gases that are computed too, as measured; oxygen has a question of its own.
fn gases(design: &Design) -> [Option<Ratio>; 4] {
    let measured = &design.measured;
    [
        measured.carbon_monoxide,
        measured.hydrogen,
        measured.carbon_dioxide,
        measured.methane,
    ]
}

/// The gases measured, together, where they are more than all of the gas.
fn more_than_all(design: &Design) -> Option<Ratio> {
    let with_oxygen = gases(design).into_iter().chain([design.measured.oxygen]);
    let together: Ratio = with_oxygen.flatten().sum();
    exceeds(together.value, 1.0).then_some(together)
}

/// The model beside what was measured; not asked when nothing was measured that could be compared.
pub(super) fn finding(design: &Design, heart: &Heart) -> Option<Finding> {
    let finding = match beside(design, &heart.model) {
        Ok(rows) => compared_with(design, rows)?,
        Err(error) => without_gas(design, &error)?,
    };
    let Some(together) = more_than_all(design) else {
        return Some(finding);
    };
    let over = 1.0 - together.value;
    Some(Finding {
        verdict: finding.verdict.max(Verdict::Watch),
        margin: finding.margin.map(|margin| margin.min(over)),
        compared: Phrase::new(
            "{}. The gases measured come to {} together, more than all of the gas: an entry or the analyser is wrong",
            [
                finding.compared.into(),
                Measure::new(Q::Share, together.value).into(),
            ],
        ),
        ..finding
    })
}

/// What was measured at a load at which there is nothing to compare it with; oxygen has a question of its own.
fn without_gas(design: &Design, error: &HeartError) -> Option<Finding> {
    let measured = &design.measured;
    let temperatures = [measured.hearth_temperature, measured.gas_exit_temperature];
    let any = gases(design).iter().any(Option::is_some) || temperatures.iter().any(Option::is_some);
    let load = Measure::new(Q::Share, measured.load.value);
    any.then(|| Finding {
        compared: match error.too_cold() {
            true => Phrase::new(
                "cannot be told: at {} of full load, where it was measured, the model makes no gas that burns. A fire that burns there is not the one that is reckoned here: look at insulation, wood, and the load entered under “Measured at”",
                [load.into()],
            ),
            false => Phrase::new(
                "cannot be told at {} of full load: {}",
                [load.into(), error.to_string().into()],
            ),
        },
        ..unanswered()
    })
}

fn unanswered() -> Finding {
    Finding {
        id: "heart.measured",
        chapter: Chapter::Heart,
        title: "Model beside measurement",
        meaning: "What you measured, beside what is computed for the same load. The tool does not bend its result to the measurement.",
        verdict: Verdict::CannotTell,
        compared: Phrase::plain(""),
        why: "Where both differ much, look for the reason: another moisture, a leak, a bare spot in the insulation, or a wrong instrument.",
        margin: None,
        working: Vec::new(),
        caution: Some(GAS_CAUTION),
        levers: Vec::new(),
        about: "measured",
    }
}

/// The value that is farthest from what is computed.
fn compared_with(design: &Design, rows: Vec<Measurement>) -> Option<Finding> {
    let rows: Vec<_> = (rows.into_iter())
        .filter(|row| row.name != "oxygen")
        .collect();
    let worst = rows
        .iter()
        .max_by(|one, other| one.apart().total_cmp(&other.apart()))?;
    let apart = worst.apart();
    let compared = Phrase::new(
        "farthest apart: {}, measured {}, computed {}",
        [
            worst.label.into(),
            worst.measured.into(),
            worst.computed.into(),
        ],
    );
    let far_colder =
        worst.name == "hearth_temperature" && apart > 1.0 && worst.measured.si < worst.computed.si;
    let compared = if far_colder && design.gas_making.air_rule == AirRule::CharLimited {
        Phrase::new(
            "{}; a fire that gets less air than is reckoned here is colder, and lets tar through: measure air and wood, and choose “{}” under “What sets the air”",
            [compared.into(), AirRule::AirHeld.label().into()],
        )
    } else {
        compared
    };
    let air = leaked_air(design);
    let thinned_by = |row: &Measurement| {
        air.filter(|_| row.is_of_gas())
            .map(|air| Measure::new(Q::Share, air))
    };
    let compared = match thinned_by(worst) {
        Some(air) => Phrase::new(
            "{} with the {} of leaked air that the oxygen tells",
            [compared.into(), air.into()],
        ),
        None => compared,
    };
    Some(Finding {
        verdict: Verdict::at_most(apart, 1.0, f64::INFINITY),
        compared,
        margin: Some(1.0 - apart).filter(|margin| margin.is_finite()),
        working: rows
            .iter()
            .map(|row| Step {
                words: row.label,
                formula: match thinned_by(row) {
                    Some(_) => {
                        "computed for the load at which it was measured, times what is no air"
                    }
                    None => "computed for the load at which it was measured",
                },
                values: [
                    ("measured", "as entered", row.measured),
                    (
                        "load",
                        "share of full load",
                        Measure::new(Q::Share, design.measured.load.value),
                    ),
                ]
                .into_iter()
                .chain(
                    thinned_by(row)
                        .map(|air| ("air", "oxygen measured over the 20.95 % of dry air", air)),
                )
                .collect(),
                result: row.computed,
                source: Reckoned("the model of this chapter"),
                sure: "gas ±15 %, temperatures ±100 K (180 °F)",
            })
            .collect(),
        ..unanswered()
    })
}

/// The caution of gas that has air in it: it explodes, and it poisons.
const AIR_IN_GAS: &str = "Gas with air in it explodes from one spark: no flame at flare, engine or lid until the leak is found and the train is purged outdoors. A fifth of it, from charcoal a third, is carbon monoxide: it has no smell and kills.";

/// Measured oxygen against its marks; not asked when none was measured.
pub(super) fn oxygen(design: &Design) -> Option<Finding> {
    let oxygen = design.measured.oxygen?.value;
    let stop = design.limits.oxygen_stop.value;
    let watch = design.limits.oxygen_good().value;
    let verdict = Verdict::at_most(oxygen, watch, stop);
    let share = |value| Measure::new(Q::Share, value);
    Some(Finding {
        id: "heart.oxygen",
        chapter: Chapter::Heart,
        title: "Oxygen measured in the gas",
        meaning: "The fire leaves no oxygen. What is measured has come in through a leak after it.",
        verdict,
        compared: Phrase::new(
            if oxygen > watch {
                "{} measured; warning above {}, stop above {}; {} of what was measured is air. Draw clean air through the analyser's hose and its joints first, then soap every joint under suction, from the hearth on"
            } else {
                "{} measured; warning above {}, stop above {}; {} of what was measured is air"
            },
            [oxygen, watch, stop, leaked_air(design).unwrap_or(0.0)]
                .map(|value| share(value).into()),
        ),
        why: "Air in the gas burns it where nobody sees, and can make a mixture that explodes in the pipes.",
        margin: Some(1.0 - oxygen / watch),
        working: vec![Step {
            words: "Oxygen as entered under Measured",
            formula: "as measured",
            values: vec![("O₂", "oxygen in the dry gas", share(oxygen))],
            result: share(oxygen),
            source: CommonPractice,
            sure: "as sure as the analyser; let it settle in clean air first",
        }],
        caution: Some(match verdict {
            Verdict::Good => GAS_CAUTION,
            _ => AIR_IN_GAS,
        }),
        levers: Vec::new(),
        about: "measured",
    })
}
