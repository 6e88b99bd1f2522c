//! Blower curve, affinity laws, working point and power against closed forms.

use hearthplan::sizing::battery::BatteryBank;
use hearthplan::sizing::blower::{BlowerCurve, BlowerError, BlowerPoint, Running};
use uom::si::electric_charge::ampere_hour;
use uom::si::electric_potential::volt;
use uom::si::f64::{
    ElectricCharge, ElectricPotential, MassDensity, Power, Pressure, Ratio, Time, VolumeRate,
};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::power::watt;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::time::hour;
use uom::si::volume_rate::cubic_meter_per_second;

fn flow(value: f64) -> VolumeRate {
    VolumeRate::new::<cubic_meter_per_second>(value)
}

fn point(at: f64, pressure: f64) -> BlowerPoint {
    BlowerPoint {
        flow: flow(at),
        pressure: Pressure::new::<pascal>(pressure),
    }
}

fn density(value: f64) -> MassDensity {
    MassDensity::new::<kilogram_per_cubic_meter>(value)
}

fn running(speed: f64, gas: f64) -> Running {
    Running {
        speed_share: Ratio::new::<ratio>(speed),
        density: density(gas),
    }
}

/// A chain that takes `k Q²`.
fn square(k: f64) -> impl Fn(VolumeRate) -> Pressure {
    move |flow| Pressure::new::<pascal>(k * flow.value * flow.value)
}

fn falling() -> BlowerCurve {
    BlowerCurve::new([point(0.03, 0.0), point(0.0, 3000.0)]).unwrap()
}

fn humped() -> BlowerCurve {
    BlowerCurve::new([
        point(0.0, 2000.0),
        point(0.01, 2600.0),
        point(0.02, 2200.0),
        point(0.03, 400.0),
    ])
    .unwrap()
}

#[test]
fn a_straight_curve_meets_a_square_chain_where_algebra_says() {
    // 3000 (1 − q/0.03) s² r = k q², with flow q at speed s.
    for (speed, gas) in [(1.0, 1.2), (0.6, 1.2), (0.7, 0.95)] {
        let k = 5.0e6;
        let factor: f64 = speed * speed * gas / 1.2;
        let slope = 3000.0 * factor / (0.03 * speed);
        let wanted = (-slope + (slope * slope + 4.0 * k * 3000.0 * factor).sqrt()) / (2.0 * k);
        let got = falling().working_point(&running(speed, gas), square(k));
        assert!(
            (got.flow.value / wanted - 1.0).abs() < 1e-6,
            "{got:?} {wanted}"
        );
        assert!((got.pressure.value / (k * wanted * wanted) - 1.0).abs() < 1e-5);
        assert!(!got.past_end);
        assert_eq!(got.stall_margin, None);
    }
}

#[test]
fn on_a_square_chain_flow_follows_speed() {
    let full = humped().working_point(&running(1.0, 1.2), square(4.0e6));
    let half = humped().working_point(&running(0.5, 1.2), square(4.0e6));
    assert!((half.flow.value / full.flow.value - 0.5).abs() < 1e-5);
    assert!((half.pressure.value / full.pressure.value - 0.25).abs() < 1e-5);
}

#[test]
fn thin_gas_makes_less_pressure_at_the_same_flow() {
    let cold = humped().pressure(flow(0.015), &running(1.0, 1.2)).unwrap();
    let thin = humped().pressure(flow(0.015), &running(1.0, 0.9)).unwrap();
    assert!((cold.value - 2400.0).abs() < 1e-9);
    assert!((thin.value - 1800.0).abs() < 1e-9);
}

#[test]
fn nothing_is_promised_past_the_last_point() {
    assert_eq!(humped().pressure(flow(0.031), &running(1.0, 1.2)), None);
    let easy = humped().working_point(&running(1.0, 1.2), square(1.0e5));
    assert!(easy.past_end);
    assert!((easy.flow.value - 0.03).abs() < 1e-12);
}

#[test]
fn stall_is_the_flow_of_highest_pressure() {
    let at = running(0.5, 1.2);
    assert!((humped().stall_flow(&at).value - 0.005).abs() < 1e-12);
    assert_eq!(falling().stall_flow(&at).value, 0.0);
    let choked = humped().working_point(&running(1.0, 1.2), square(4.0e7));
    assert!(choked.stall_margin.unwrap() < 0.0, "{choked:?}");
    let open = humped().working_point(&running(1.0, 1.2), square(5.0e6));
    assert!(open.stall_margin.unwrap() > 0.5, "{open:?}");
}

#[test]
fn the_speed_needed_gives_the_flow_wanted() {
    let system = square(6.0e6);
    for wanted in [0.004, 0.012, 0.02] {
        let needed = system(flow(wanted));
        let speed = humped()
            .speed_needed(density(0.95), flow(wanted), needed)
            .unwrap();
        let got = humped().working_point(&running(speed.value, 0.95), &system);
        assert!(
            (got.flow.value / wanted - 1.0).abs() < 1e-4,
            "{got:?} {wanted}"
        );
    }
    let far = Pressure::new::<pascal>(1.0e6);
    assert_eq!(humped().speed_needed(density(0.95), flow(0.02), far), None);
}

#[test]
fn curves_that_say_nothing_are_refused() {
    let refused = |points: Vec<BlowerPoint>| BlowerCurve::new(points).unwrap_err();
    assert_eq!(refused(vec![]), BlowerError::TooFewPoints(0));
    assert_eq!(
        refused(vec![point(0.01, 5.0), point(0.01, 9.0)]),
        BlowerError::TooFewPoints(1)
    );
    assert_eq!(
        refused(vec![point(0.0, 0.0), point(0.01, 0.0)]),
        BlowerError::NoPressure
    );
    assert_eq!(
        refused(vec![point(0.0, 5.0), point(f64::NAN, 2.0)]),
        BlowerError::NotAPoint(2)
    );
    assert_eq!(
        refused(vec![point(0.0, -5.0), point(0.01, 2.0)]),
        BlowerError::NotAPoint(1)
    );
}

#[test]
fn the_order_of_points_does_not_matter() {
    let shuffled = BlowerCurve::new([
        point(0.03, 400.0),
        point(0.0, 2000.0),
        point(0.02, 2200.0),
        point(0.01, 2600.0),
    ])
    .unwrap();
    assert_eq!(shuffled, humped());
}

fn battery(peukert: f64) -> BatteryBank {
    BatteryBank {
        voltage: ElectricPotential::new::<volt>(12.0),
        capacity: ElectricCharge::new::<ampere_hour>(100.0),
        rated_time: Time::new::<hour>(20.0),
        peukert,
        usable_share: Ratio::new::<ratio>(0.5),
    }
}

#[test]
fn an_ideal_battery_is_charge_over_current() {
    let time = battery(1.0).time(Power::new::<watt>(120.0)).unwrap();
    assert!((time.get::<hour>() - 5.0).abs() < 1e-9);
}

#[test]
fn at_the_rated_current_the_label_is_right() {
    let time = battery(1.3).time(Power::new::<watt>(60.0)).unwrap();
    assert!((time.get::<hour>() - 10.0).abs() < 1e-9);
}

#[test]
fn a_slow_discharge_gives_no_more_than_the_label() {
    let time = battery(1.3).time(Power::new::<watt>(12.0)).unwrap();
    assert!((time.get::<hour>() - 50.0).abs() < 1e-9);
    assert_eq!(battery(1.3).time(Power::new::<watt>(0.0)), None);
    assert_eq!(battery(1.3).time(Power::new::<watt>(f64::NAN)), None);
}
