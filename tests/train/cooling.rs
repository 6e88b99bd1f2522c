//! Coolers: what more tube and more help must do, and where the heat goes.

mod in_a_row;
mod integration;

use hearthplan::sizing::cooler::{
    Cooler, CoolerError, CoolerKind, CoolerResult, Orientation, TubeBlock, TubeFins,
};
use hearthplan::sizing::train::{Detail, Note, Stage, StageOutcome, TrainLoad, example};
use proptest::prelude::*;
use uom::si::f64::{
    HeatTransfer, Length, MassRate, Pressure, TemperatureInterval, ThermalConductivity,
    ThermodynamicTemperature, Velocity,
};
use uom::si::heat_transfer::watt_per_square_meter_kelvin;
use uom::si::length::{meter, millimeter};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
use uom::si::temperature_interval::kelvin as kelvin_interval;
use uom::si::thermal_conductivity::watt_per_meter_kelvin;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::velocity::meter_per_second;

fn celsius(temperature: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(temperature)
}

fn metres(length: f64) -> Length {
    Length::new::<meter>(length)
}

fn result(outcome: &StageOutcome) -> &CoolerResult {
    match &outcome.detail {
        Detail::Cooler(result) => result,
        other => panic!("{other:?}"),
    }
}

fn fins() -> TubeFins {
    TubeFins {
        diameter: Length::new::<millimeter>(62.0),
        thickness: Length::new::<millimeter>(0.5),
        pitch: Length::new::<millimeter>(10.0),
        conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(200.0),
    }
}

fn jacket() -> CoolerKind {
    CoolerKind::WaterJacket {
        inlet: celsius(15.0),
        flow: MassRate::new::<kilogram_per_second>(0.05),
        coefficient: HeatTransfer::new::<watt_per_square_meter_kelvin>(500.0),
    }
}

fn fan(fins: Option<TubeFins>) -> CoolerKind {
    CoolerKind::FanBlown {
        air_speed: Velocity::new::<meter_per_second>(5.0),
        fins,
    }
}

/// Every further step of help cools more: still air, fins, fan, fan and fins, water.
#[test]
fn each_kind_cools_more_than_the_plainer_one() {
    let load = example::full_load();
    let kinds = [
        CoolerKind::Bare,
        CoolerKind::Finned(fins()),
        fan(None),
        fan(Some(fins())),
    ];
    let outlet = |kind| {
        let cooler = Cooler {
            kind,
            length: metres(1.0),
            orientation: Orientation::Level,
            ..example::cooler()
        };
        Stage::Cooler(cooler)
            .pass(&load.start, &load.circumstances)
            .unwrap()
            .out
            .temperature
            .value
    };
    let outlets = kinds.map(outlet);
    assert!(
        outlets[0] > outlets[1] && outlets[1] > outlets[3] && outlets[2] > outlets[3],
        "{outlets:?}"
    );
    assert!(outlet(jacket()) < outlets[0]);
}

/// Tubes in a block see each other and hold up the air between them: the closer, the warmer the gas leaves. A block whose
/// tubes are far apart is no block.
#[test]
fn a_block_cools_less_than_tubes_that_stand_free() {
    let load = example::full_load();
    let outlet = |orientation, rows: u32, spacing: Option<f64>| {
        let block = spacing.map(|spacing| TubeBlock {
            rows,
            spacing: metres(spacing),
        });
        let cooler = Cooler {
            tubes: 64,
            length: metres(1.0),
            bore: metres(0.018),
            wall: metres(0.001),
            orientation,
            block,
            ..example::cooler()
        };
        Stage::Cooler(cooler)
            .pass(&load.start, &load.circumstances)
            .map(|outcome| outcome.out.temperature.value)
    };
    for orientation in [Orientation::Level, Orientation::Upright] {
        let of = |rows, spacing| outlet(orientation, rows, Some(spacing)).unwrap();
        let free = outlet(orientation, 1, None).unwrap();
        assert!((of(8, 1.9) - free).abs() < 1e-9);
        assert!((of(1, 0.06) - free).abs() < 1e-9);
        let closer = [0.2, 0.1, 0.05, 0.03, 0.021].map(|spacing| of(8, spacing));
        assert!(closer.is_sorted(), "{closer:?}");
        assert!(closer[3] > free + 10.0, "{closer:?} {free}");
        // One plane of the same tubes as close radiates to both sides.
        assert!(of(1, 0.03) < closer[3] - 5.0);
        // What does not fit is no better than what touches.
        assert!((of(8, 0.019) - of(8, 0.02)).abs() < 1e-9);
    }
    // Air rises between upright tubes that nearly touch only with trouble.
    let [level, upright] = [Orientation::Level, Orientation::Upright].map(|orientation| {
        let of = |spacing| outlet(orientation, 8, Some(spacing)).unwrap();
        of(0.0205) - of(0.03)
    });
    assert!(upright > 1.5 * level, "{upright} {level}");
}

#[test]
fn jacket_water_takes_the_heat_that_the_gas_loses() {
    let load = example::full_load();
    let cooler = Cooler {
        kind: jacket(),
        ..example::cooler()
    };
    let outcome = Stage::Cooler(cooler)
        .pass(&load.start, &load.circumstances)
        .unwrap();
    let water = result(&outcome).water.unwrap().get::<degree_celsius>();
    let taken = 0.05 * 4186.0 * (water - 15.0);
    assert!(
        (taken / outcome.heat_rejected.value - 1.0).abs() < 2e-3,
        "{taken} {}",
        outcome.heat_rejected.value
    );
    assert!(outcome.notes.contains(&Note::WaterCondenses));
}

/// Hot gas wets a cold wall before any water falls out of the gas itself: the tables have no drops then.
#[test]
fn a_wet_wall_is_told_from_water_that_falls_out() {
    let load = example::full_load();
    let (mut wet_walls, mut falls) = (0, 0);
    for length in [0.05, 0.1, 0.2, 0.5, 1.0, 3.0, 9.0, 20.0] {
        let cooler = Cooler {
            kind: jacket(),
            length: metres(length),
            ..example::cooler()
        };
        let outcome = Stage::Cooler(cooler)
            .pass(&load.start, &load.circumstances)
            .unwrap();
        let told = |note| outcome.notes.contains(&note);
        let fallen = outcome.out.liquid > load.start.liquid;
        assert_eq!(told(Note::WaterCondenses), fallen, "{length} m");
        assert!(!(fallen && told(Note::WetWall)), "{length} m");
        wet_walls += u32::from(told(Note::WetWall));
        falls += u32::from(fallen);
    }
    assert!(wet_walls > 0 && falls > 0, "{wet_walls} {falls}");
}

#[test]
fn needed_length_ends_at_the_wish() {
    let load = example::full_load();
    let around = &load.circumstances.surroundings;
    for wish in [200.0, 90.0, 60.0, 40.0, 30.0] {
        let length = example::cooler()
            .needed_length(&load.start, around, celsius(wish))
            .unwrap();
        let cooler = Cooler {
            length,
            ..example::cooler()
        };
        let out = Stage::Cooler(cooler)
            .pass(&load.start, &load.circumstances)
            .unwrap()
            .out;
        assert!(
            (out.temperature.get::<degree_celsius>() - wish).abs() < 0.05,
            "{wish}: {length:?}"
        );
    }
    // Gas nears the air around the tubes, and never gets there; a jacket is as cold as its water.
    for wish in [19.0, 20.0] {
        let never = example::cooler().needed_length(&load.start, around, celsius(wish));
        assert_eq!(never, Err(CoolerError::TooWarmAround));
    }
    let jacketed = Cooler {
        kind: jacket(),
        ..example::cooler()
    };
    let never = jacketed.needed_length(&load.start, around, celsius(2.0));
    assert_eq!(never, Err(CoolerError::TooWarmAround));
    // One short tube for all of it is too little even where it is as long as any.
    let alone = Cooler {
        tubes: 1,
        ..example::cooler()
    };
    let never = alone.needed_length(
        &load.start,
        around,
        around.temperature + TemperatureInterval::new::<kelvin_interval>(0.01),
    );
    assert_eq!(never, Err(CoolerError::NotReached));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]
    /// More tubes or longer ones never leave the gas hotter; it never falls below the air.
    #[test]
    fn more_tube_cools_more(length in 0.1..5.0_f64, tubes in 1..20_u32, share in 0.1..1.5_f64) {
        let load = example::full_load().at_share(share);
        // Reynolds number stays on one side: laminar.
        let cooler = Cooler { tubes: tubes + 12, length: metres(length), orientation: Orientation::Level, ..example::cooler() };
        let longer = Cooler { length: metres(length * 1.3), ..cooler };
        let air = load.circumstances.surroundings.temperature.value;
        let out = |cooler| Stage::Cooler(cooler).pass(&load.start, &load.circumstances).map(|o| o.out.temperature.value);
        let (short, long) = (out(cooler).unwrap(), out(longer).unwrap());
        prop_assert!(long <= short + 1e-3 && long >= air - 1e-6);
    }
}

/// Water that stands boils at the pressure of the air, and gets no warmer than the gas.
#[test]
fn water_that_stands_around_the_tubes_boils_or_is_as_warm_as_the_gas() {
    let mut load = example::full_load();
    load.circumstances.pumps = false;
    let cooler = Cooler {
        kind: jacket(),
        ..example::cooler()
    };
    let pass = |load: &TrainLoad| {
        Stage::Cooler(cooler)
            .pass(&load.start, &load.circumstances)
            .unwrap()
    };
    let boiling = pass(&load);
    assert!((result(&boiling).water.unwrap().value - 373.12).abs() < 0.05);
    assert!(boiling.notes.contains(&Note::JacketBoils));
    assert!(boiling.out.temperature.value >= 373.1);
    // At 70 kPa water boils at 89.93 °C (steam tables).
    let mut high = load;
    high.circumstances.surroundings.pressure = Pressure::new::<pascal>(70_000.0);
    let boiling = pass(&high);
    assert!((result(&boiling).water.unwrap().value - 363.08).abs() < 0.05);
    assert!(boiling.notes.contains(&Note::JacketBoils));
    // Gas that is colder brings no water to the boil, and nothing cools it.
    let mut cold = load;
    cold.start.temperature = celsius(70.0);
    let warm = pass(&cold);
    assert_eq!(result(&warm).water, Some(celsius(70.0)));
    assert!(!warm.notes.contains(&Note::JacketBoils));
    assert!((warm.out.temperature.value - celsius(70.0).value).abs() < 1e-6);
    // With the pump on it is the jacket that it was.
    load.circumstances.pumps = true;
    let flowing = pass(&load);
    assert!(result(&flowing).standing_boils_at.is_none());
    assert!(result(&flowing).water.unwrap() < celsius(90.0));
}
