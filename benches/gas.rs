//! Time of one gas solution and of one equilibrium: median over many rounds, in microseconds.

use hearthplan::physics::equilibrium::{Constants, Elements};
use hearthplan::sizing::fuel::PRESETS;
use hearthplan::sizing::gas::{
    AirClosure, Gasifier, HearthWall, HeatLoss, Load, ShellLoss, solve_with_shell,
};
use std::convert::Infallible;
use std::hint::black_box;
use std::time::Instant;
use uom::si::f64::{
    HeatFluxDensity, Length, Power, Ratio, ThermalConductivity, ThermodynamicTemperature,
    VolumeRate,
};
use uom::si::heat_flux_density::watt_per_square_meter;
use uom::si::length::millimeter;
use uom::si::power::watt;
use uom::si::ratio::{percent, ratio};
use uom::si::thermal_conductivity::watt_per_meter_kelvin;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::volume_rate::cubic_meter_per_hour;

const ROUNDS: usize = 201;
const CASES: usize = 200;

/// Median time in µs of one call of `work`, which is given the number of the case.
fn median_of<T>(mut work: impl FnMut(usize) -> T) -> f64 {
    let mut times: Vec<f64> = (0..ROUNDS)
        .map(|_| {
            let start = Instant::now();
            for case in 0..CASES {
                black_box(work(black_box(case)));
            }
            start.elapsed().as_secs_f64() * 1e6 / CASES as f64
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[ROUNDS / 2]
}

/// Case number as a number from 0 to 1 in a scattered order.
fn scattered(case: usize, step: usize) -> f64 {
    (case * step % CASES) as f64 / CASES as f64
}

/// A dry to wet fuel.
fn hearth(case: usize, air: AirClosure) -> Gasifier {
    let mut fuel = PRESETS[0].fuel();
    fuel.moisture = Ratio::new::<percent>(5.0 + 25.0 * scattered(case, 37));
    Gasifier {
        air,
        ..Gasifier::usual(fuel)
    }
}

fn loss(case: usize) -> HeatLoss {
    let lost = Ratio::new::<percent>(8.0 * scattered(case, 61));
    HeatLoss::Share {
        at_or_above_nozzle: lost,
        below_nozzle: lost,
    }
}

fn main() {
    let elements = |case: usize| Elements {
        carbon: 41.6,
        hydrogen: 60.0 + 40.0 * scattered(case, 37),
        oxygen: 60.0 + 30.0 * scattered(case, 61),
        nitrogen: 110.0 + 60.0 * scattered(case, 83),
    };
    let temperature = |case: usize| 950.0 + 250.0 * scattered(case, 29);
    let single = median_of(|case| {
        Constants::at(temperature(case), 101_325.0).and_then(|k| k.gas_only(&elements(case)))
    });
    let with_carbon = median_of(|case| {
        let mut rich = elements(case);
        rich.carbon *= 1.6;
        Constants::at(temperature(case), 101_325.0).and_then(|k| k.with_carbon(&rich))
    });
    let char_limited = median_of(|case| {
        let freeze =
            ThermodynamicTemperature::new::<degree_celsius>(700.0 + 200.0 * scattered(case, 43));
        hearth(
            case,
            AirClosure::CharLimited {
                freeze_temperature: freeze,
            },
        )
        .solve(loss(case))
    });
    let air_held = median_of(|case| {
        let equivalence_ratio = Ratio::new::<ratio>(0.25 + 0.2 * scattered(case, 43));
        hearth(case, AirClosure::AirHeld { equivalence_ratio }).solve(loss(case))
    });
    let wall = HearthWall {
        radius: Length::new::<millimeter>(60.0),
        conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(1.5),
    };
    let with_shell = median_of(|case| {
        let gas = VolumeRate::new::<cubic_meter_per_hour>(15.0 + 30.0 * scattered(case, 43));
        solve_with_shell(
            &hearth(case, AirClosure::usual()),
            Load::Gas(gas),
            wall,
            |inside| {
                let flux = 3.0 * (inside.get::<degree_celsius>() - 20.0);
                Ok::<_, Infallible>(ShellLoss {
                    at_or_above_nozzle: Power::new::<watt>(0.15 * flux),
                    below_nozzle: Power::new::<watt>(0.15 * flux),
                    wall_flux: HeatFluxDensity::new::<watt_per_square_meter>(flux),
                })
            },
        )
    });
    println!("one equilibrium, gas only            {single:8.3} µs");
    println!("one equilibrium over solid carbon    {with_carbon:8.3} µs");
    println!("one gas solution, char-limited       {char_limited:8.3} µs");
    println!("one gas solution, air held           {air_held:8.3} µs");
    println!("hearth with a one-line shell         {with_shell:8.3} µs");
}
