//! A cooler in parts gives what the whole gives, beyond the dew point and beside it too.

use super::{celsius, fan, fins, jacket, metres};
use hearthplan::sizing::cooler::{Cooler, CoolerKind, Orientation, TubeFins};
use hearthplan::sizing::train::{GasState, PipeRun, Stage, Trap, example};
use proptest::prelude::*;
use uom::si::f64::{MassRate, Ratio, TemperatureInterval};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::ratio::ratio;
use uom::si::temperature_interval::kelvin as kelvin_interval;

/// Finer steps change a condensing cooler little: two half lengths in a row give what one whole gives.
#[test]
fn halves_in_a_row_agree_with_the_whole() {
    let load = example::full_load();
    for kind in [CoolerKind::Bare, fan(None), jacket()] {
        for steam in [0.0, 0.5, 2.0, 6.0] {
            let mut gas = load.start;
            gas.vapour *= steam;
            // A jacket of much water stays at one temperature, whole or cut.
            let kind = match kind {
                CoolerKind::WaterJacket {
                    inlet, coefficient, ..
                } => CoolerKind::WaterJacket {
                    inlet,
                    coefficient,
                    flow: MassRate::new::<kilogram_per_second>(10.0),
                },
                other => other,
            };
            let whole = Cooler {
                kind,
                orientation: Orientation::Level,
                header_loss: 0.0,
                ..example::cooler()
            };
            let half = Cooler {
                length: whole.length * 0.5,
                ..whole
            };
            let once = Stage::Cooler(whole)
                .pass(&gas, &load.circumstances)
                .unwrap()
                .out;
            let first = Stage::Cooler(half)
                .pass(&gas, &load.circumstances)
                .unwrap()
                .out;
            let twice = Stage::Cooler(half)
                .pass(&first, &load.circumstances)
                .unwrap()
                .out;
            let difference = (once.temperature.value - twice.temperature.value).abs();
            let drop = gas.temperature.value - once.temperature.value;
            assert!(
                difference < 0.005 * drop,
                "{kind:?} {steam}: {difference} of {drop}"
            );
        }
    }
}

/// A cooler and what comes into it.
#[derive(Debug)]
struct Way {
    length: f64,
    bore: f64,
    tubes: u32,
    share: f64,
    steam: f64,
    inlet: f64,
    fan_blown: bool,
}

impl Way {
    /// How far the outlet of the cooler lies from the outlet of its eight parts in a row, and how
    /// far the gas falls, both in K; none where one of them cannot be computed.
    fn whole_against_parts(&self) -> Option<(f64, f64)> {
        let load = example::full_load().at_share(self.share);
        let gas = GasState {
            vapour: load.start.vapour * self.steam,
            temperature: celsius(self.inlet),
            ..load.start
        };
        let kind = if self.fan_blown {
            let diameter = metres(2.0 * self.bore);
            fan(Some(TubeFins { diameter, ..fins() }))
        } else {
            CoolerKind::Bare
        };
        let whole = Cooler {
            tubes: self.tubes,
            bore: metres(self.bore),
            length: metres(self.length),
            orientation: Orientation::Level,
            header_loss: 0.0,
            kind,
            ..example::cooler()
        };
        let part = Cooler {
            length: whole.length / 8.0,
            ..whole
        };
        let of = |cooler, gas: &GasState| Stage::Cooler(cooler).pass(gas, &load.circumstances);
        let once = of(whole, &gas).ok()?;
        let mut parts = gas;
        for _ in 0..8 {
            // The pressure is kept, so that the dew point is the same on both ways.
            parts = GasState {
                pressure: gas.pressure,
                ..of(part, &parts).ok()?.out
            };
        }
        let difference = (once.out.temperature.value - parts.temperature.value).abs();
        Some((difference, gas.temperature.value - parts.temperature.value))
    }
}

/// Beyond the dew point the gas cools several times more slowly: a piece that ends there must not
/// be drawn out to the end of the tube, however little is left.
#[test]
fn a_cooler_that_ends_just_beyond_the_dew_point_agrees_with_its_parts() {
    let ways = [
        Way {
            length: 32.114_598_557_440_84,
            bore: 0.023_295_423_226_098_677,
            tubes: 7,
            share: 1.727_285_610_132_186_3,
            steam: 3.112_555_870_636_330_5,
            inlet: 121.974_649_046_844_25,
            fan_blown: false,
        },
        Way {
            length: 9.751_735_217_852_826,
            bore: 0.018_158_580_850_726_97,
            tubes: 2,
            share: 1.981_329_591_050_728_5,
            steam: 3.875_532_692_371_550_5,
            inlet: 100.340_188_566_236_12,
            fan_blown: false,
        },
    ];
    for way in ways {
        let (difference, fall) = way.whole_against_parts().unwrap();
        assert!(
            difference < 0.005 * fall,
            "{way:?}: {difference} K of {fall} K"
        );
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]
    /// One long cooler gives what its eight parts in a row give, at any flow, dry or wet; where
    /// the flow turns turbulent on the way the pieces bend most, in one case of some ten thousands
    /// by more than 1.5 % of the fall.
    #[test]
    fn parts_in_a_row_agree_with_the_whole(
        length in 0.3..40.0_f64,
        bore in 0.012..0.08_f64,
        tubes in 1..20_u32,
        share in 0.1..3.0_f64,
        steam in 0.0..4.0_f64,
        inlet in 60.0..600.0_f64,
        fan_blown in any::<bool>(),
    ) {
        let way = Way { length, bore, tubes, share, steam, inlet, fan_blown };
        if let Some((difference, fall)) = way.whole_against_parts() {
            prop_assert!(difference < 0.02 * fall, "{difference} K of {fall} K");
        }
    }

    /// What a drained stage leaves stands at its dew point but for the last digits: a hair more or
    /// less must not tell how the next stage begins. The search for the surface's temperature leaves
    /// some thousandths of the fall open.
    #[test]
    fn gas_at_its_dew_point_is_cooled_alike_from_either_side(
        length in 0.05..20.0_f64,
        bore in 0.012..0.08_f64,
        share in 0.1..3.0_f64,
        steam in 0.3..8.0_f64,
        too_cold in 0.01..20.0_f64,
        air in -10.0..110.0_f64,
        kind in 0..4_usize,
        exponent in -9.0..-6.0_f64,
    ) {
        let load = example::full_load().at_share(share);
        let mut circumstances = load.circumstances;
        circumstances.surroundings.temperature = celsius(air);
        let steamy = GasState { vapour: load.start.vapour * steam, ..load.start };
        let dew_point = steamy.dew_point().unwrap();
        let soaked = GasState {
            temperature: dew_point - TemperatureInterval::new::<kelvin_interval>(too_cold),
            ..steamy
        };
        let trap = Trap { separation: Ratio::new::<ratio>(1.0), ..example::trap() };
        // Where the trap or what follows freezes there is nothing to compare.
        let Ok(drained) = Stage::CondensateTrap(trap).pass(&soaked, &circumstances) else { return Ok(()) };
        let gas = drained.out;
        prop_assert_eq!(gas.liquid.value, 0.0);
        let next = match kind {
            0 => Stage::Pipe(PipeRun { length: metres(length), ..example::pipe() }),
            kind => Stage::Cooler(Cooler {
                bore: metres(bore),
                length: metres(length),
                orientation: Orientation::Level,
                kind: [CoolerKind::Bare, fan(Some(TubeFins { diameter: metres(2.0 * bore), ..fins() })), jacket()][kind - 1],
                ..example::cooler()
            }),
        };
        let hair = 10.0_f64.powf(exponent);
        let at = |offset: f64| {
            let temperature = gas.temperature + TemperatureInterval::new::<kelvin_interval>(offset);
            next.pass(&GasState { temperature, ..gas }, &circumstances)
        };
        let Ok(middle) = at(0.0) else { return Ok(()) };
        let fall = (gas.temperature.value - middle.out.temperature.value).abs();
        for offset in [-1e-6, -hair, -1e-13, 1e-13, hair, 1e-6] {
            let near = at(offset).unwrap();
            let apart = (near.out.temperature.value - middle.out.temperature.value).abs();
            prop_assert!(apart <= 0.01 * fall + 1e-4, "{offset}: {apart} K of {fall} K");
            let apart = (near.condensate - middle.condensate).abs();
            let allowed = middle.condensate.abs() * 0.01 + gas.vapour * 1e-5;
            prop_assert!(apart <= allowed, "{offset}: {apart:?}, {:?}", middle.condensate);
            let apart = (near.pressure_loss - middle.pressure_loss).abs().value;
            let loss = middle.pressure_loss.value;
            prop_assert!(apart <= 0.01 * loss, "{offset}: {apart} Pa of {loss} Pa");
        }
    }
}
