//! The pressure chain against the equations it is made of.

use hearthplan::physics::{air, orifice, packed_bed};
use hearthplan::sizing::nozzles::{NozzleRing, Surroundings};
use hearthplan::sizing::pressure_chain::{
    Bed, ChainInputs, Gas, Grate, HearthStage, PressureChain, Through,
};
use std::f64::consts::PI;
use uom::si::area::square_meter;
use uom::si::f64::{Area, Length, Pressure, Ratio, ThermodynamicTemperature, VolumeRate};
use uom::si::length::{meter, millimeter};
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};
use uom::si::volume_rate::cubic_meter_per_hour;

fn bed(entry: f64, exit: f64, length: f64) -> Bed {
    Bed {
        stage: HearthStage::Char,
        through: Through::Gas,
        entry_diameter: Length::new::<meter>(entry),
        exit_diameter: Length::new::<meter>(exit),
        length: Length::new::<meter>(length),
        piece_size: Length::new::<millimeter>(20.0),
        void_share: Ratio::new::<ratio>(0.45),
        fouling: 2.0,
        temperature: ThermodynamicTemperature::new::<degree_celsius>(900.0),
    }
}

fn inputs(beds: Vec<Bed>, nozzles: Option<NozzleRing>) -> ChainInputs {
    let drop = Pressure::new::<pascal>;
    ChainInputs {
        gas: Gas::default(),
        gas_per_air: 1.68,
        surroundings: Surroundings {
            temperature: ThermodynamicTemperature::new::<kelvin>(293.15),
            pressure: drop(101_325.0),
        },
        nozzles,
        beds,
        grate: None,
    }
}

fn drop_of(inputs: &ChainInputs, kind: HearthStage, flow: VolumeRate) -> f64 {
    PressureChain::new(inputs)
        .stages(flow)
        .into_iter()
        .filter(|stage| stage.kind == kind)
        .map(|stage| stage.drop.value)
        .sum()
}

/// Density and viscosity of the gas at a temperature in K, and its mass flow, at 25 Nm³/h.
fn gas_at(temperature: f64) -> (f64, f64, f64) {
    let density = 101_325.0 * 0.0244 / (8.314_462_618 * temperature);
    let mass_flow = 25.0 / 3600.0 * 101_325.0 * 0.0244 / (8.314_462_618 * 273.15);
    (density, 0.9 * air::viscosity(temperature), mass_flow)
}

fn flow() -> VolumeRate {
    VolumeRate::new::<cubic_meter_per_hour>(25.0)
}

/// Ergun added up over thin slices of a cone.
fn slices(entry: f64, exit: f64, length: f64) -> f64 {
    const COUNT: u32 = 4000;
    let (density, viscosity, mass_flow) = gas_at(1173.15);
    let gas = packed_bed::BedGas { density, viscosity };
    let slice = packed_bed::Bed {
        piece_diameter: 0.02,
        voidage: 0.45,
        depth: length / f64::from(COUNT),
    };
    (0..COUNT)
        .map(|place| {
            let share = (f64::from(place) + 0.5) / f64::from(COUNT);
            let diameter = entry + (exit - entry) * share;
            let velocity = mass_flow / density / (PI / 4.0 * diameter * diameter);
            2.0 * packed_bed::pressure_loss(&slice, &gas, velocity).unwrap()
        })
        .sum()
}

#[test]
fn a_cone_of_char_is_ergun_added_up_over_slices() {
    for (entry, exit, length) in [
        (0.268, 0.060, 0.080),
        (0.060, 0.150, 0.256),
        (0.152, 0.152, 0.41),
    ] {
        let got = drop_of(
            &inputs(vec![bed(entry, exit, length)], None),
            HearthStage::Char,
            flow(),
        );
        let wanted = slices(entry, exit, length);
        assert!(
            (got / wanted - 1.0).abs() < 1e-5,
            "{got} Pa, slices {wanted} Pa"
        );
    }
}

#[test]
fn two_beds_of_one_kind_are_one_stage() {
    let both = inputs(vec![bed(0.268, 0.06, 0.08), bed(0.06, 0.15, 0.256)], None);
    let stages = PressureChain::new(&both).stages(flow());
    assert_eq!(
        stages
            .iter()
            .filter(|stage| stage.kind == HearthStage::Char)
            .count(),
        1
    );
    let sum = slices(0.268, 0.06, 0.08) + slices(0.06, 0.15, 0.256);
    assert!((stages[0].drop.value / sum - 1.0).abs() < 1e-5);
}

#[test]
fn nozzles_are_an_orifice() {
    let ring = NozzleRing {
        count: 5,
        bore: Length::new::<millimeter>(7.5),
        discharge: Ratio::new::<ratio>(0.85),
    };
    let plain = orifice::Nozzles {
        count: 5,
        bore: 0.0075,
        discharge_coefficient: 0.85,
    };
    let around = air::Air::at(293.15, 101_325.0);
    let air_flow = 25.0 / 3600.0 / 1.68 * 293.15 / 273.15;
    let wanted = plain
        .passing(air_flow, around.density)
        .unwrap()
        .pressure_drop;
    let got = drop_of(
        &inputs(Vec::new(), Some(ring)),
        HearthStage::Nozzles,
        flow(),
    );
    assert!((got / wanted - 1.0).abs() < 1e-4, "{got} {wanted}");
}

#[test]
fn more_flow_always_takes_more_pressure() {
    let chain = PressureChain::new(&inputs(vec![bed(0.268, 0.06, 0.08)], None));
    let mut before = 0.0;
    for step in 1..400 {
        let flow = VolumeRate::new::<cubic_meter_per_hour>(0.1 * f64::from(step));
        let drop = chain.drop(flow).value;
        assert!(drop > before, "at step {step}");
        before = drop;
    }
}

/// A plate with a tenth of its channel open: Idelchik's 249.5 heads of the velocity before it.
#[test]
fn a_grate_is_a_plate_with_what_char_leaves_free_of_its_holes() {
    let area = |metres: f64| Area::new::<square_meter>(metres);
    let grate = Grate {
        char: area(0.02),
        open: area(0.005),
        void_share: Ratio::new::<ratio>(0.4),
        temperature: ThermodynamicTemperature::new::<degree_celsius>(900.0),
    };
    assert!((grate.free_share() - 0.1).abs() < 1e-12);
    let with = ChainInputs {
        grate: Some(grate),
        ..inputs(Vec::new(), None)
    };
    let (density, _, mass_flow) = gas_at(1173.15);
    let velocity = mass_flow / density / 0.02;
    let wanted = 249.52 * 0.5 * density * velocity * velocity;
    let got = drop_of(&with, HearthStage::Grate, flow());
    assert!((got / wanted - 1.0).abs() < 1e-3, "{got} {wanted}");
    // One without any hole still has a number.
    let shut = ChainInputs {
        grate: Some(Grate {
            open: area(0.0),
            ..grate
        }),
        ..inputs(Vec::new(), None)
    };
    let shut = drop_of(&shut, HearthStage::Grate, flow());
    assert!(shut.is_finite() && shut > 1e4 * got, "{shut}");
}

#[test]
fn more_holes_lose_less() {
    let mut before = f64::INFINITY;
    for step in 1..=1000 {
        let loss = orifice::plate_loss(f64::from(step) / 1000.0).unwrap();
        assert!(loss < before && loss >= 0.0, "at {step}");
        before = loss;
    }
    for nonsense in [f64::NAN, 0.0, 1.1] {
        assert!(orifice::plate_loss(nonsense).is_err());
    }
}
