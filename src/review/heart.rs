//! Wood, gas, hearth temperature and load range.

mod at_load;
mod beside;
mod char_left;
mod marks;
mod other_layers;
mod over_load;
mod range;
mod results;
mod wood;
mod working;

pub use at_load::{HOTTEST, judge_each};
pub use beside::{Measurement, model_beside_measurement};
pub(super) use char_left::{char_left_over, is_told};
pub use other_layers::layer_to_add;
pub use over_load::{HeartPoint, HearthNumbers, heart_over_load};
pub use range::LoadRange;
pub(super) use range::RANGE;
pub(super) use working::other_layers;

use super::finding::{Finding, Lever, Verdict};
use crate::design::inputs::FlowSource;
use crate::design::phrase::Phrase;
use crate::design::{Design, Source};
use crate::sizing::engine::{
    EngineError, EngineGas, EngineRun, engine_of, intake_of, part_load_factor,
};
use crate::sizing::fuel::{FuelError, HeatingValues, Moisture, fuel_of, moisture_of};
use crate::sizing::gas::stoichiometric_air;
use crate::sizing::heart::{AtLoads, HeartAt, HeartModel, Supply, loads_of};
use crate::sizing::hearth_load::table_tube;
use other_layers::OtherLayers;
use std::sync::Arc;
use uom::si::available_energy::joule_per_kilogram;
use uom::si::f64::{
    AvailableEnergy, Length, Power, Ratio, SpecificVolume, ThermodynamicTemperature,
};
use uom::si::power::watt;
use uom::si::ratio::ratio;
use uom::si::specific_volume::cubic_meter_per_kilogram;

/// The gas itself.
const GAS_CAUTION: &str = "A fifth of the gas, from charcoal a third, is carbon monoxide: it has no smell and kills. Run outdoors or under an open roof, wear a carbon monoxide alarm, never work alone.";

/// Where what is said of straight fire tubes stands.
pub(super) const FIRE_TUBES: Source =
    Source::FromMemory("Construction of a Simplified Wood Gas Generator, FEMA/ORNL 1989");

/// What is said where the hearth makes no gas at a load, so that what it does there is not known.
pub(super) const FULL_UNTOLD: &str = "cannot be told: at full load the hearth makes no gas that burns; mend that first, under “Clean gas at full load”";
pub(super) const USUAL_UNTOLD: &str = "cannot be told: at the usual load the hearth makes no gas that burns; mend that first, under “Clean gas at the usual load”";
pub(super) const IDLE_UNTOLD: &str = "cannot be told: at the lowest load the hearth makes no gas that burns; mend that first, under “Clean gas at the lowest load”";

/// What is said where the hearth has no solution for what was entered.
const UNSOLVED: &str = "cannot be told: the hearth has no solution, and this is that of one which loses no heat; mend that first, under “Clean gas at full load”";

/// A question that nobody can answer, since at its load no gas is made.
pub(super) fn untold(finding: Finding, words: &'static str) -> Finding {
    Finding {
        verdict: Verdict::CannotTell,
        compared: Phrase::plain(words),
        margin: None,
        working: Vec::new(),
        levers: Vec::new(),
        ..finding
    }
}

/// An answer that holds for the loads at which gas is made alone: a Stop stays one, of anything else nobody knows whether
/// it holds at the others.
pub(super) fn as_far_as_known(finding: Finding, untold: Option<Phrase>) -> Finding {
    match untold {
        Some(untold) if matches!(finding.verdict, Verdict::Good | Verdict::Watch) => Finding {
            verdict: Verdict::CannotTell,
            compared: Phrase::new(
                "{}. Whether that holds at every load {}",
                [finding.compared.into(), untold.into()],
            ),
            margin: None,
            levers: Vec::new(),
            ..finding
        },
        _ => finding,
    }
}

/// Heat in a kilogram of air-dry wood, its water as vapour, where the fuel entered gives no answer, J/kg (common practice,
/// no source).
const USUAL_WOOD_HEAT: f64 = 16.0e6;

/// The lowest efficiency that an engine is reckoned with. Our own mark.
const LEAST_EFFICIENCY: f64 = 0.05;

/// Wood, gas, hearth temperature and load range.
#[derive(Debug, Clone)]
pub struct Heart {
    /// The hearth at the three loads a person names.
    pub at: AtLoads<HeartAt>,
    /// The moisture worked with.
    pub moisture: Result<Moisture, FuelError>,
    /// Heat in the wood.
    pub heating: Result<HeatingValues, FuelError>,
    /// Lowest and highest load that hold; none in a quick look at another chapter.
    pub range: Option<LoadRange>,
    /// To be asked at other loads.
    pub model: Arc<HeartModel>,
    /// The hearth with less and with more insulation; none in a quick look at the verdicts.
    other_layers: Option<OtherLayers>,
}

impl Heart {
    /// The three loads alone: what the other chapters need.
    pub(super) fn of(design: &Design) -> Self {
        let model = HeartModel::of(design);
        Self {
            at: model.at_loads(&loads_of(design)),
            moisture: moisture_of(design),
            heating: fuel_of(design).and_then(|fuel| fuel.heating_values()),
            range: None,
            model: Arc::new(model),
            other_layers: None,
        }
    }

    /// With the range of loads that hold.
    pub(super) fn with_range(mut self, design: &Design) -> Self {
        self.range = Some(range::of(design, &self));
        self
    }

    /// To be compared with the hearth with less and with more insulation.
    pub(super) fn with_comparisons(mut self, design: &Design) -> Self {
        self.other_layers = Some(OtherLayers::of(design, &self));
        self
    }

    /// The hearth at the usual load without the insulation of its wall; none when there is none to leave away.
    pub fn without_insulation(&self) -> Option<&HeartAt> {
        self.other_layers.as_ref()?.without_insulation()
    }

    /// The hearth at the usual load with one more layer of insulation around it.
    pub fn one_more_layer(&self) -> Option<&HeartAt> {
        Some(self.other_layers.as_ref()?.one_more())
    }

    /// Each load at which gas is made and the hearth wall has a temperature, and that load in words.
    pub(super) fn walls(&self) -> impl Iterator<Item = (&HeartAt, &'static str)> + use<'_> {
        [
            (&self.at.full, "at full load"),
            (&self.at.usual, "at the usual load"),
            (&self.at.idle, "at the lowest load"),
        ]
        .into_iter()
        .filter(|(at, _)| at.has_wall())
    }

    /// The hottest of these; of equal ones the larger load.
    pub(super) fn hottest_wall(&self) -> Option<(ThermodynamicTemperature, &'static str)> {
        (self.walls())
            .map(|(at, words)| (at.supply.wall_temperature, words))
            .reduce(|hottest, next| match next.0 > hottest.0 {
                true => next,
                false => hottest,
            })
    }

    /// The hottest gas at the foot of the char, at the loads at which gas is made; of equal ones the larger load.
    pub(super) fn hottest_gas(&self) -> Option<(ThermodynamicTemperature, &'static str)> {
        (self.walls())
            .filter_map(|(at, words)| Some((at.solved.as_ref().ok()?.gas.exit_temperature, words)))
            .reduce(|hottest, next| match next.0 > hottest.0 {
                true => next,
                false => hottest,
            })
    }

    /// Whether the hearth has no solution at one of the three loads, for another reason than that it is too cold.
    pub(super) fn is_unsolved(&self) -> bool {
        [&self.at.full, &self.at.usual, &self.at.idle]
            .into_iter()
            .any(|at| at.solved.is_err() && at.makes_gas())
    }

    /// Where the hearth makes no gas at one of the three loads, or has no solution: what is said there instead of an answer.
    pub(super) fn untold(&self) -> Option<Phrase> {
        let loads = [
            (&self.at.full, FULL_UNTOLD),
            (&self.at.usual, USUAL_UNTOLD),
            (&self.at.idle, IDLE_UNTOLD),
        ];
        let cold = loads.iter().find(|(at, _)| !at.makes_gas());
        let words = match cold {
            Some((_, words)) => Some(*words),
            None => self.is_unsolved().then_some(UNSOLVED),
        };
        words.map(Phrase::plain)
    }

    /// The largest share of the hearth too cold for tar at usual and full load; none where it is within its mark.
    pub(super) fn cold_for_tar(&self, design: &Design) -> Option<Ratio> {
        [&self.at.usual, &self.at.full]
            .into_iter()
            .filter_map(|at| at.solved.as_ref().ok())
            .map(|solution| at_load::judge(design, solution).cold)
            .filter(|cold| *cold > design.limits.tar_share_good())
            .reduce(Ratio::max)
    }

    /// Heat in a kilogram of wood as loaded, its water as vapour.
    pub(super) fn wood_heat(&self) -> AvailableEnergy {
        match &self.heating {
            Ok(heating) => heating.lower_as_fired,
            Err(_) => AvailableEnergy::new::<joule_per_kilogram>(USUAL_WOOD_HEAT),
        }
    }

    /// Shaft power on petrol of the engine to be fed, or why the engine gives no answer.
    pub(super) fn petrol_power(&self, design: &Design) -> Result<Power, EngineError> {
        match design.operation.flow_source {
            FlowSource::Entered => Ok(Power::new::<watt>(design.hearth.engine_power)),
            FlowSource::Engine => run(design, &self.at.full).map(|run| run.petrol_power),
        }
    }

    /// The load at which a straight fire tube of this bore feeds all the engine that the table gives it, as a share of
    /// full load; none where the engine gives no answer.
    pub(super) fn load_of_tube(&self, design: &Design, bore: Length) -> Option<Ratio> {
        let power = self.petrol_power(design).ok()?;
        Some(table_tube(bore).engine_power / power)
    }
}

/// The gas of a supply as the engine sees it, cooled and dried.
pub(super) fn engine_gas(supply: &Supply) -> EngineGas {
    EngineGas {
        lower_heating_value: supply.gas_heat / 1e6,
        stoichiometric_air: stoichiometric_air(&supply.gas),
        air_ratio: Ratio::new::<ratio>(1.0),
        water_per_gas: Ratio::new::<ratio>(0.0),
        gas_per_fuel: SpecificVolume::new::<cubic_meter_per_kilogram>(supply.gas_per_fuel),
    }
}

/// The engine of a design on the gas at one load.
pub(super) fn run(design: &Design, at: &HeartAt) -> Result<EngineRun, EngineError> {
    let mut engine = engine_of(design)?;
    engine.load = at.load;
    let factor = part_load_factor(at.load);
    let least = Ratio::new::<ratio>(LEAST_EFFICIENCY);
    engine.brake_efficiency = (engine.brake_efficiency * factor).max(least);
    engine.petrol_efficiency = (engine.petrol_efficiency * factor).max(least);
    engine.run(&engine_gas(&at.supply), &intake_of(design))
}

/// What changes how much gas is drawn: the flow of a test. The engine is what hearth and train are made for, unless the
/// hearth is there and the engine is not; its speed is that of the generator it turns.
pub(super) fn flow_levers(design: &Design) -> Vec<Lever> {
    let is_open = design.hearth.built && !design.engine.at_hand;
    match design.operation.flow_source {
        FlowSource::Engine if is_open => vec![Lever::input("engine.displacement")],
        FlowSource::Engine => Vec::new(),
        FlowSource::Entered => vec![Lever::input("operation.full_gas_flow")],
    }
}

/// Every question of this chapter.
pub(super) fn ask(design: &Design, heart: &Heart) -> Vec<Finding> {
    let mut findings = vec![wood::moisture(design, heart)];
    findings.extend(at_load::findings(design, heart));
    findings.extend(
        heart
            .range
            .as_ref()
            .map(|range| range::finding(design, heart, range)),
    );
    findings.extend(char_left::finding(design, heart));
    findings.extend(char_left::more_than_there_is(design));
    findings.push(wood::pieces(design));
    findings.extend(beside::finding(design, heart));
    findings.extend(beside::oxygen(design));
    findings.extend(marks::reversed(design));
    findings
}
