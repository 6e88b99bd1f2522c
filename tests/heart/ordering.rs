//! What must never happen, however the inputs are turned.

use crate::equilibrium::Draw;
use crate::gas::{celsius, loss, share, with_air_held};
use hearthplan::sizing::fuel::PRESETS;
use hearthplan::sizing::gas::{AirClosure, Gasifier};

/// A wood hearth of random kind; char stays at the usual 22 %.
fn random_hearth(draw: &mut Draw, moisture: f64) -> Gasifier {
    let mut fuel = PRESETS[if draw.next() < 0.5 { 0 } else { 1 }].fuel();
    fuel.moisture = share(moisture);
    Gasifier {
        air: AirClosure::CharLimited {
            freeze_temperature: celsius(draw.between(700.0, 1000.0)),
        },
        ..Gasifier::usual(fuel)
    }
}

#[test]
fn wetter_wood_never_gives_richer_gas_nor_with_air_held_a_hotter_hearth() {
    let mut draw = Draw(31);
    for _ in 0..400 {
        let dry = random_hearth(&mut draw, 0.0);
        let lost = draw.between(0.0, 15.0);
        let ratio = draw.between(0.25, 0.5);
        let (mut richest, mut hottest) = (f64::INFINITY, f64::INFINITY);
        for moisture in [5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0] {
            let mut hearth = dry;
            hearth.fuel.moisture = share(moisture);
            if let Ok(gas) = hearth.solve(loss(lost, 0.0)) {
                assert!(
                    gas.lower_heating_value <= richest + 1e-9,
                    "{hearth:?} {lost}"
                );
                richest = gas.lower_heating_value;
            }
            if let Ok(gas) = with_air_held(hearth, ratio).solve(loss(lost, 0.0)) {
                let temperature = gas.hearth_temperature.value;
                assert!(temperature <= hottest + 1e-6, "{hearth:?} {lost} {ratio}");
                hottest = temperature;
            }
        }
        assert!(richest.is_finite() && hottest.is_finite());
    }
}

#[test]
fn more_loss_never_gives_richer_gas_and_with_air_held_never_a_hotter_hearth() {
    let mut draw = Draw(47);
    for _ in 0..400 {
        let moisture = draw.between(0.0, 30.0);
        let hearth = random_hearth(&mut draw, moisture);
        let above = draw.next();
        let ratio = draw.between(0.25, 0.5);
        let (mut richest, mut hottest) = (f64::INFINITY, f64::INFINITY);
        for lost in [0.0, 1.0, 3.0, 6.0, 10.0, 15.0, 20.0, 30.0, 40.0] {
            let loss = loss(lost * above, lost * (1.0 - above));
            if let Ok(gas) = hearth.solve(loss) {
                assert!(
                    gas.lower_heating_value <= richest + 1e-9,
                    "{hearth:?} {lost}"
                );
                richest = gas.lower_heating_value;
            }
            if let Ok(gas) = with_air_held(hearth, ratio).solve(loss) {
                let temperature = gas.hearth_temperature.value;
                assert!(temperature <= hottest + 1e-6, "{hearth:?} {lost} {ratio}");
                hottest = temperature;
            }
        }
        assert!(richest.is_finite() && hottest.is_finite());
    }
}
