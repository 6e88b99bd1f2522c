//! What the lowest and the highest load that hold follow from.

use super::{LoadRange, full_jet, lowest_with_gas};
use crate::design::Design;
use crate::design::Source::{FromMemory, Reckoned};
use crate::design::inputs::HearthKind;
use crate::design::phrase::Measure;
use crate::design::quantity::Quantity as Q;
use crate::review::finding::Step;
use crate::review::heart::{FIRE_TUBES, Heart, at_load};
use crate::sizing::hearth_load::{hearth_load, table_tube};
use uom::si::f64::Ratio;

pub(super) fn working(design: &Design, heart: &Heart, range: &LoadRange) -> Vec<Step> {
    let share = |si| Measure::new(Q::Share, si);
    let of_throat = |flow| hearth_load(flow, design.hearth.throat_diameter).value;
    let load_of = |symbol, words, si| (symbol, words, Measure::new(Q::HearthLoad, si));
    let (full, limits) = (&heart.at.full.supply, &design.limits);
    let mut steps = Vec::with_capacity(4);
    let mut step = |words, formula, values: &[_], load: Option<Ratio>, source, sure| {
        steps.extend(load.map(|load| Step {
            words,
            formula,
            values: values.to_vec(),
            result: share(load.value),
            source,
            sure,
        }));
    };
    step(
        "Lowest load at which temperature, cold rim and gas are all good, found by trying loads",
        "T_m ≥ T_least, T_m ≤ T_most, s ≤ s_most, H ≥ H_least",
        &[
            (
                "T_least",
                "mean temperature wanted",
                Measure::new(Q::Temperature, limits.hearth_temperature_good().value),
            ),
            (
                "T_most",
                "mean temperature that nothing bears above",
                Measure::new(Q::Temperature, at_load::HOTTEST),
            ),
            (
                "s_most",
                "share that may be too cold",
                share(limits.tar_share_good().value),
            ),
            (
                "H_least",
                "heat in the gas wanted",
                Measure::new(Q::EnergyPerVolume, limits.gas_heat_good()),
            ),
        ],
        range.lowest_by_heat,
        Reckoned("the three numbers of this chapter, each solved anew at every load"),
        "±30 % of its value",
    );
    if let Some((at, called)) = lowest_with_gas(heart) {
        step(
            "Load below which too little gas passes the throat, from the lowest of your loads at which gas burns",
            "load = B_least / B × L",
            &[
                load_of("B_least", "least hearth load", limits.hearth_load_least),
                load_of("B", "hearth load at load L", of_throat(at.supply.gas_flow)),
                ("L", called, share(at.load.value)),
            ],
            range.lowest_by_hearth_load,
            FromMemory("FAO Forestry Paper 72; SERI/SP-271-3022"),
            "the arithmetic is exact, the mark is given as 0.3 to 0.35",
        );
    }
    match design.hearth.kind {
        HearthKind::Constricted => step(
            "Load at which the narrowest bore carries all it may",
            "load = B_most / B",
            &[
                load_of("B_most", "most hearth load", limits.hearth_load_most),
                load_of("B", "hearth load at full load", of_throat(full.gas_flow)),
            ],
            range.highest_by_bore,
            FromMemory("FAO Forestry Paper 72; SERI/SP-271-3022"),
            "±12 %",
        ),
        HearthKind::Straight => {
            let power = |symbol, words, si| (symbol, words, Measure::new(Q::EnginePower, si));
            let table = table_tube(design.hearth.tube_diameter).engine_power.value;
            let own = heart.petrol_power(design).map_or(f64::NAN, |own| own.value);
            step(
                "Load at which the fire tube feeds all the engine that the table of fire tubes gives it",
                "load = P_table / P",
                &[
                    power("P_table", "engine of the table", table),
                    power("P", "power of your engine on petrol", own),
                ],
                range.highest_by_bore,
                FIRE_TUBES,
                "±12 %",
            );
        }
    }
    if range.highest_by_nozzles.is_some() {
        let speed = |symbol, words, si| (symbol, words, Measure::new(Q::Velocity, si));
        let at_full = full_jet(design, heart).velocity.value;
        step(
            "Load at which the air in the nozzles is as fast as it may be",
            "load = w_most / w",
            &[
                speed(
                    "w_most",
                    "fastest air wanted",
                    limits.nozzle_velocity_most.value,
                ),
                speed("w", "air at full load", at_full),
            ],
            range.highest_by_nozzles,
            FromMemory("SERI/SP-271-3022"),
            "±12 %",
        );
    }
    steps
}
