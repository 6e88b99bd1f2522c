//! Coolers against an integration of the same model by `scipy`, and what more tube must do.

use crate::reference::{close, document, number, numbers, rows};
use hearthplan::physics::equilibrium::GasAmounts;
use hearthplan::sizing::cooler::{
    Cooler, CoolerError, CoolerKind, CoolerResult, Orientation, TubeFins,
};
use hearthplan::sizing::nozzles::Surroundings;
use hearthplan::sizing::train::{
    Detail, Dust, GasState, Note, PipeRun, Stage, StageOutcome, Tar, Trap, example,
};
use proptest::prelude::*;
use serde_json::Value;
use uom::si::f64::{
    HeatTransfer, Length, MassRate, Pressure, Ratio, TemperatureInterval, ThermalConductivity,
    ThermodynamicTemperature, Velocity, VolumeRate,
};
use uom::si::heat_transfer::watt_per_square_meter_kelvin;
use uom::si::length::{meter, millimeter};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::temperature_interval::kelvin as kelvin_interval;
use uom::si::thermal_conductivity::watt_per_meter_kelvin;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::velocity::meter_per_second;
use uom::si::volume_rate::cubic_meter_per_second;

fn celsius(temperature: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(temperature)
}

fn metres(length: f64) -> Length {
    Length::new::<meter>(length)
}

/// Gas of the reference file's composition at a mass flow, dry.
fn reference_gas(row: &Value) -> GasState {
    let head = document("cooler_tube.json");
    let share = |name| number(&head, name);
    let dry = GasAmounts {
        carbon_monoxide: share("mole_fraction_co"),
        carbon_dioxide: share("mole_fraction_co2"),
        hydrogen: share("mole_fraction_h2"),
        water: 0.0,
        methane: share("mole_fraction_ch4"),
        nitrogen: share("mole_fraction_n2"),
        oxygen: 0.0,
    };
    let one = GasState {
        dry,
        dry_flow: VolumeRate::new::<cubic_meter_per_second>(1.0),
        vapour: MassRate::default(),
        liquid: MassRate::default(),
        temperature: celsius(number(row, "inlet_c")),
        pressure: Pressure::new::<pascal>(101_325.0),
        dust: Dust::NONE,
        tar: Tar::NONE,
    };
    let wanted = MassRate::new::<kilogram_per_second>(number(row, "mass_flow_kg_per_s"));
    GasState {
        dry_flow: one.dry_flow * (wanted / one.gas_mass_rate()),
        ..one
    }
}

fn reference_cooler(row: &Value) -> Cooler {
    let bore = number(row, "inside_diameter_m");
    Cooler {
        tubes: 1,
        length: metres(number(row, "length_m")),
        bore: metres(bore),
        wall: metres(0.5 * (number(row, "outside_diameter_m") - bore)),
        wall_conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(number(
            row,
            "wall_conductivity_w_per_m_k",
        )),
        roughness: Length::default(),
        emittance: Ratio::new::<ratio>(number(row, "emissivity")),
        orientation: if row["orientation"] == "horizontal" {
            Orientation::Level
        } else {
            Orientation::Upright
        },
        header_loss: 0.0,
        kind: CoolerKind::Bare,
    }
}

fn pass(cooler: Cooler, gas: &GasState, air: f64) -> StageOutcome {
    let mut circumstances = example::full_load().circumstances;
    circumstances.surroundings = Surroundings {
        temperature: celsius(air),
        pressure: Pressure::new::<pascal>(101_325.0),
    };
    Stage::Cooler(cooler).pass(gas, &circumstances).unwrap()
}

fn result(outcome: &StageOutcome) -> &CoolerResult {
    match &outcome.detail {
        Detail::Cooler(result) => result,
        other => panic!("{other:?}"),
    }
}

#[test]
fn bare_tubes_agree_with_the_integration() {
    for row in rows("cooler_tube.json", "rows") {
        let (whole, gas) = (reference_cooler(&row), reference_gas(&row));
        let air = number(&row, "ambient_c");
        let outcome = pass(whole, &gas, air);
        let (inlet, outlet) = (number(&row, "inlet_c"), number(&row, "outlet_c"));
        let found = outcome.out.temperature.get::<degree_celsius>();
        let allowed = 0.01 * (inlet - outlet);
        assert!((found - outlet).abs() < allowed, "found {found}: {row}");
        close(
            outcome.heat_rejected.value,
            number(&row, "heat_w"),
            0.01,
            &row,
        );
        if row["orientation"] == "horizontal" {
            for (quarter, wanted) in numbers(&row, "gas_at_quarters_c").iter().enumerate() {
                let cut = Cooler {
                    length: whole.length * (0.25 * (quarter as f64 + 1.0)),
                    ..whole
                };
                let found = pass(cut, &gas, air).out.temperature;
                assert!(
                    (found.get::<degree_celsius>() - wanted).abs() < allowed,
                    "{quarter}: {row}"
                );
            }
        }
        let found = result(&outcome);
        let first = found.hottest_surface.get::<degree_celsius>();
        // The wall of a bare steel tube is as warm inside as outside.
        let last = found.coldest_wall.get::<degree_celsius>();
        assert!(
            (first - number(&row, "surface_at_inlet_c")).abs() < 1.5,
            "{first}: {row}"
        );
        assert!(
            (last - number(&row, "surface_at_outlet_c")).abs() < 1.5,
            "{last}: {row}"
        );
        close(found.reynolds, number(&row, "reynolds_inlet"), 0.01, &row);
    }
}

/// Fins, fan and jacket of a row of the second file; bare if it has none of them.
fn reference_kind(row: &Value) -> CoolerKind {
    let metres_of = |field| metres(number(row, field));
    let fins = row["fin_diameter_m"].is_number().then(|| TubeFins {
        diameter: metres_of("fin_diameter_m"),
        thickness: metres_of("fin_thickness_m"),
        pitch: metres_of("fin_pitch_m"),
        conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(number(
            row,
            "fin_conductivity_w_per_m_k",
        )),
    });
    match (row["kind"].as_str().unwrap(), fins) {
        ("bare", None) => CoolerKind::Bare,
        ("finned", Some(fins)) => CoolerKind::Finned(fins),
        ("fan", None) | ("fan and fins", Some(_)) => CoolerKind::FanBlown {
            air_speed: Velocity::new::<meter_per_second>(number(row, "air_speed_m_per_s")),
            fins,
        },
        ("jacket", None) => CoolerKind::WaterJacket {
            inlet: celsius(number(row, "water_inlet_c")),
            flow: MassRate::new::<kilogram_per_second>(number(row, "water_kg_per_s")),
            coefficient: HeatTransfer::new::<watt_per_square_meter_kelvin>(number(
                row,
                "water_coefficient_w_per_m2_k",
            )),
        },
        (other, _) => panic!("{other}"),
    }
}

/// Fins, fan and jacket, dry and with water that condenses, within 1 % of the temperature drop and of the heat.
#[test]
fn every_kind_agrees_with_the_integration() {
    let dry = reference_gas(&rows("cooler_tube.json", "rows")[0]);
    for row in rows("cooler_kinds.json", "rows") {
        let gas = GasState {
            dry_flow: VolumeRate::new::<cubic_meter_per_second>(number(&row, "dry_flow_nm3_per_s")),
            vapour: MassRate::new::<kilogram_per_second>(number(&row, "steam_kg_per_s")),
            temperature: celsius(number(&row, "inlet_c")),
            ..dry
        };
        let cooler = Cooler {
            tubes: 1,
            length: metres(number(&row, "length_m")),
            bore: metres(number(&row, "inside_diameter_m")),
            wall: metres(
                0.5 * (number(&row, "outside_diameter_m") - number(&row, "inside_diameter_m")),
            ),
            wall_conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(number(
                &row,
                "wall_conductivity_w_per_m_k",
            )),
            roughness: Length::default(),
            emittance: Ratio::new::<ratio>(number(&row, "emissivity")),
            orientation: Orientation::Level,
            header_loss: 0.0,
            kind: reference_kind(&row),
        };
        let outcome = pass(cooler, &gas, number(&row, "ambient_c"));
        let (inlet, outlet) = (number(&row, "inlet_c"), number(&row, "outlet_c"));
        let found = outcome.out.temperature.get::<degree_celsius>();
        assert!(
            (found - outlet).abs() < 0.01 * (inlet - outlet),
            "found {found}: {row}"
        );
        close(
            outcome.heat_rejected.value,
            number(&row, "heat_w"),
            0.01,
            &row,
        );
        let condensed = number(&row, "condensate_kg_per_s");
        let steam = gas.vapour.value;
        let miss = (outcome.condensate.value - condensed).abs();
        assert!(
            miss <= 0.01 * steam,
            "condensed {}: {row}",
            outcome.condensate.value
        );
        if let Some(water) = result(&outcome).water {
            let wanted = number(&row, "water_outlet_c");
            let rise = wanted - number(&row, "water_inlet_c");
            assert!(
                (water.get::<degree_celsius>() - wanted).abs() < 0.01 * rise,
                "{water:?}: {row}"
            );
        }
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
