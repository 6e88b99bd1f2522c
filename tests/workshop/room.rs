//! Carbon monoxide in a room, against small steps and closed forms.

use hearthplan::sizing::carbon_monoxide::{CEILING, DANGEROUS, RECOMMENDED, RoomLeak};
use uom::si::f64::{Frequency, Ratio, Time, Volume, VolumeRate};
use uom::si::frequency::hertz;
use uom::si::ratio::ratio;
use uom::si::time::second;
use uom::si::volume::cubic_meter;
use uom::si::volume_rate::cubic_meter_per_hour;

fn leak(air_changes: f64) -> RoomLeak {
    RoomLeak {
        leak: VolumeRate::new::<cubic_meter_per_hour>(0.4),
        share: Ratio::new::<ratio>(0.2),
        room: Volume::new::<cubic_meter>(60.0),
        air_changes: Frequency::new::<hertz>(air_changes / 3600.0),
    }
}

#[test]
fn the_room_fills_as_in_small_steps() {
    for air_changes in [0.0, 0.5, 6.0] {
        let (mut share, steps) = (0.0, 20_000_u32);
        let step = 3600.0 / f64::from(steps);
        let rate = |share: f64| (0.4 * 0.2 / 60.0 - air_changes * share) / 3600.0;
        for _ in 0..steps {
            let half = share + 0.5 * step * rate(share);
            share += step * rate(half);
        }
        let found = leak(air_changes)
            .after(Time::new::<second>(3600.0))
            .expect("in range");
        assert!((found.value / share - 1.0).abs() < 1e-7, "{air_changes}");
    }
}

#[test]
fn time_and_share_are_inverse() {
    for air_changes in [0.0, 1e-7, 0.5, 6.0] {
        let room = leak(air_changes);
        let mut before = 0.0;
        for level in [RECOMMENDED, CEILING, DANGEROUS] {
            let level = Ratio::new::<ratio>(level);
            let Some(time) = room.time_to(level).expect("in range") else {
                assert!(room.settled().expect("in range") <= level);
                continue;
            };
            assert!(time.value > before);
            before = time.value;
            let reached = room.after(time).expect("in range");
            assert!((reached / level).value - 1.0 < 1e-9);
            assert!((reached / level).value - 1.0 > -1e-9);
        }
    }
    // By hand: 0.08 m³/h of carbon monoxide in 60 m³ without air change reach 35 ppm in 94.5 s.
    let time = leak(0.0)
        .time_to(Ratio::new::<ratio>(RECOMMENDED))
        .expect("in range");
    assert!((time.expect("reached").value - 94.5).abs() < 1e-9);
    // Six air changes settle at 0.08 / 360: 222 ppm, which is never 1200.
    let aired = leak(6.0);
    assert!((aired.settled().expect("in range").value - 222.2e-6).abs() < 0.1e-6);
    assert_eq!(aired.time_to(Ratio::new::<ratio>(DANGEROUS)), Ok(None));
}
