//! Gas that cools in a vessel: one wall gives off what the same wall does, cut into many, also where water falls out.

use hearthplan::sizing::nozzles::Surroundings;
use hearthplan::sizing::train::{Circumstances, GasState, Stage, Trap, example};
use uom::si::f64::{
    MassRate, Power, Pressure, Ratio, ThermalConductance, ThermodynamicTemperature, Volume,
};
use uom::si::pressure::pascal;
use uom::si::thermal_conductance::watt_per_kelvin;
use uom::si::thermodynamic_temperature::degree_celsius;

/// Many enough that each hardly cools the gas.
const MANY: usize = 400;

fn celsius(temperature: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(temperature)
}

/// A vessel that does nothing but cool.
fn vessel(conductance: f64) -> Stage {
    Stage::CondensateTrap(Trap {
        loss_coefficient: 0.0,
        separation: Ratio::default(),
        capacity: Volume::default(),
        wall_conductance: ThermalConductance::new::<watt_per_kelvin>(conductance),
        ..example::trap()
    })
}

fn in_air(air: f64) -> Circumstances {
    Circumstances {
        surroundings: Surroundings {
            temperature: celsius(air),
            pressure: Pressure::new::<pascal>(101_325.0),
        },
        ..example::full_load().circumstances
    }
}

/// The usual gas, cooled in large vessels to the temperature of the air around them.
fn gas_at(temperature: f64) -> GasState {
    let hot = GasState {
        temperature: celsius(150.0),
        ..example::full_load().start
    };
    let mut gas = hot;
    for _ in 0..4 {
        gas = vessel(1000.0).pass(&gas, &in_air(temperature)).unwrap().out;
    }
    let missed = gas.temperature.value - celsius(temperature).value;
    assert!(missed.abs() < 1e-6, "{missed}");
    gas
}

fn passed(gas: &GasState, conductance: f64, air: f64, pieces: usize) -> (Power, GasState) {
    let piece = vessel(conductance / pieces as f64);
    let (mut heat, mut state) = (Power::default(), *gas);
    for _ in 0..pieces {
        let outcome = piece.pass(&state, &in_air(air)).unwrap();
        heat += outcome.heat_rejected;
        state = outcome.out;
    }
    (heat, state)
}

fn dew_point() -> f64 {
    let dew = example::full_load().start.dew_point().unwrap();
    dew.get::<degree_celsius>()
}

#[test]
fn one_wall_gives_off_what_many_pieces_of_it_do() {
    let dew = dew_point();
    assert!((25.0..70.0).contains(&dew), "{dew}");
    for start in [dew + 40.0, dew + 5.0, dew + 0.5, dew, dew - 8.0] {
        let gas = gas_at(start);
        for air in [-5.0, 10.0, 25.0, dew + 2.0] {
            for conductance in [0.0, 1.0, 4.0, 15.0, 40.0] {
                let told = || format!("{start} °C, air {air} °C, {conductance} W/K");
                let fine = || passed(&gas, conductance, air, MANY);
                // Ice in the one is ice in the other.
                let frozen = vessel(conductance).pass(&gas, &in_air(air)).is_err();
                if frozen {
                    assert!(air < 0.0 && conductance > 4.0, "{}", told());
                    continue;
                }
                let ((one, out), (many, after)) = (passed(&gas, conductance, air, 1), fine());
                let share = (one - many).abs().value / many.abs().value.max(0.1);
                assert!(share < 0.012, "{}: {one:?} for {many:?}", told());
                let water = gas.vapour + gas.liquid;
                let fell = (out.liquid - after.liquid).abs();
                assert!(fell < 0.012 * water, "{}", told());
                let kept: MassRate = out.vapour + out.liquid - water;
                assert!(kept.abs().value < 1e-12 * water.value, "{}", told());
            }
        }
    }
}

#[test]
fn gas_a_hair_above_its_dew_point_is_no_other_than_a_hair_below() {
    let dew = dew_point();
    for conductance in [1.0, 4.0, 15.0] {
        let heat = |start: f64| passed(&gas_at(start), conductance, 15.0, 1).0.value;
        let (above, below) = (heat(dew + 0.01), heat(dew - 0.01));
        let jump = (above / below - 1.0).abs();
        assert!(jump < 2e-3, "{conductance} W/K: {above} W, {below} W");
    }
}
