//! Times the gas model on the very cases that `tests/reference/bench_equilibrium.py` times `cantera` on, and
//! prints the medians as JSON; `./dev bench` puts both side by side.

use hearthplan::physics::equilibrium::{Constants, Elements};
use hearthplan::sizing::fuel::Fuel;
use hearthplan::sizing::gas::{AirClosure, CharBed, Gasifier, HeatLoss};
use serde_json::{Value, json};
use std::error::Error;
use std::hint::black_box;
use std::time::Instant;
use uom::si::f64::{Ratio, ThermodynamicTemperature};
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::degree_celsius;

const ROUNDS: usize = 51;

const EQUILIBRIA: &str = include_str!("../tests/reference/data/equilibrium.json");
const HEARTHS: &str = include_str!("../tests/reference/data/hearth_energy.json");

fn rows(text: &str, list: &str) -> Result<Vec<Value>, Box<dyn Error>> {
    let file: Value = serde_json::from_str(text)?;
    Ok(file[list].as_array().cloned().ok_or("no rows")?)
}

fn number(row: &Value, field: &str) -> f64 {
    row[field].as_f64().unwrap_or(f64::NAN)
}

fn share(row: &Value, field: &str) -> Ratio {
    Ratio::new::<ratio>(number(row, field))
}

/// Median time in µs of one case; one round works through all of them.
fn median_of<C, T>(cases: &[C], mut work: impl FnMut(&C) -> T) -> f64 {
    let mut times: Vec<f64> = (0..ROUNDS)
        .map(|_| {
            let start = Instant::now();
            for case in cases {
                black_box(work(black_box(case)));
            }
            start.elapsed().as_secs_f64() * 1e6 / cases.len() as f64
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[ROUNDS / 2]
}

/// Temperature, pressure and elements of one equilibrium.
fn state(row: &Value) -> (f64, f64, Elements) {
    let elements = Elements {
        carbon: number(row, "c_mol"),
        hydrogen: number(row, "h_mol"),
        oxygen: number(row, "o_mol"),
        nitrogen: number(row, "n_mol"),
    };
    (
        number(row, "temperature_k"),
        number(row, "pressure_pa"),
        elements,
    )
}

/// A whole gas solution: the hearth with its fuel, and the heat it loses.
fn hearth(row: &Value) -> (Gasifier, HeatLoss) {
    let percent_of = |field: &str| Ratio::new::<ratio>(number(row, field) / 100.0);
    let fuel = Fuel {
        carbon: percent_of("dry_mass_percent_c"),
        hydrogen: percent_of("dry_mass_percent_h"),
        oxygen: percent_of("dry_mass_percent_o"),
        nitrogen: percent_of("dry_mass_percent_n"),
        sulphur: Ratio::new::<ratio>(0.0),
        ash: Ratio::new::<ratio>(0.0),
        moisture: share(row, "moisture_wet"),
        heat: Ratio::new::<ratio>(1.0),
    };
    let gasifier = Gasifier {
        air: AirClosure::CharLimited {
            freeze_temperature: ThermodynamicTemperature::new::<degree_celsius>(number(
                row, "freeze_c",
            )),
        },
        char: CharBed {
            share: share(row, "char_waiting_kg_per_kg_dry"),
            drawn: share(row, "char_drawn_kg_per_kg_dry"),
            ..CharBed::default()
        },
        ..Gasifier::usual(fuel)
    };
    let lost = number(row, "loss_share_of_higher_heating_value");
    let above = lost * number(row, "loss_share_at_or_above_nozzles");
    let loss = HeatLoss::Share {
        at_or_above_nozzle: Ratio::new::<ratio>(above),
        below_nozzle: Ratio::new::<ratio>(lost - above),
    };
    (gasifier, loss)
}

fn main() -> Result<(), Box<dyn Error>> {
    let states: Vec<_> = rows(EQUILIBRIA, "rows")?.iter().map(state).collect();
    // The same choice of rows as in the script: those for which it found a hearth temperature.
    let hearths: Vec<_> = rows(HEARTHS, "char_limited")?
        .iter()
        .filter(|row| row["solved"] == Value::Bool(true) && row["hearth_c"].is_number())
        .map(hearth)
        .collect();
    let single = median_of(&states, |(temperature, pressure, elements)| {
        Constants::at(*temperature, *pressure).and_then(|constants| constants.gas_only(elements))
    });
    let whole = median_of(&hearths, |(gasifier, loss)| gasifier.solve(*loss));
    let result = json!({
        "equilibrium_cases": states.len(),
        "equilibrium_microseconds_median": single,
        "gas_solution_cases": hearths.len(),
        "gas_solution_microseconds_median": whole,
    });
    println!("{result}");
    Ok(())
}
