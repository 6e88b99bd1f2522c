//! What is sized stands in the room that was answered, on a frame that bears it.

use super::{power_wanted, stops, verdict};
use hearthplan::design::inputs::Stance;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value};
use hearthplan::review::guided::{complete, without_room};
use hearthplan::review::{Verdict, assess};

/// Answered with this room, in m.
fn in_room(kilowatts: f64, width: f64, depth: f64) -> Design {
    let mut design = power_wanted(kilowatts);
    for (path, value) in [("base.width", width), ("base.depth", depth)] {
        design.set(path, Value::Number(value)).unwrap();
    }
    complete(&design, &[])
}

/// How far the machine reaches over all, m.
fn over_all(design: &Design) -> [f64; 2] {
    let overall = assess(design).standing.overall.unwrap();
    [overall.width(), overall.depth()].map(|length| length.value)
}

#[test]
fn the_frame_is_no_wider_outside_than_answered() {
    for (width, depth) in [(0.6096, 0.9), (0.86, 1.0), (1.1, 1.2)] {
        let design = in_room(5.0, width, depth);
        let base = &design.base;
        let outside = [base.width, base.depth].map(|between| between + base.frame_side);
        assert!((outside[0].value - width).abs() < 1e-9, "{outside:?}");
        assert!((outside[1].value - depth).abs() < 1e-9, "{outside:?}");
    }
    let note = in_room(5.0, 0.86, 1.0).about.note;
    let told = "Base: 820 mm (32 5/16 in) wide";
    assert!(note.contains(told), "{note}");
    assert!(note.contains("860 mm"), "{note}");
}

/// What has room inside stands inside.
#[test]
fn parts_stand_inside_where_there_is_room() {
    for kilowatts in [2.0, 5.0, 7.5] {
        let design = in_room(kilowatts, 1.1, 1.3);
        let [width, depth] = over_all(&design);
        assert!(width <= 1.1 + 1e-6, "{kilowatts} kW: {width}");
        assert!(depth <= 1.3 + 1e-6, "{kilowatts} kW: {depth}");
    }
}

/// Asked once more, a base that nobody answered anew stays.
#[test]
fn a_base_is_made_smaller_only_once() {
    let mut first = in_room(5.0, 0.9, 1.0);
    let again = complete(&first, &[]);
    assert_eq!(again.base, first.base);
    first.set("base.width", Value::Number(0.95)).unwrap();
    let anew = complete(&first, &[]);
    assert!((anew.base.width.value - 0.91).abs() < 1e-9);
    // Points of one's own stay where they are.
    let mut points = power_wanted(5.0);
    points.base.stance = Stance::Points;
    assert_eq!(complete(&points, &[]).base.width, points.base.width);
}

#[test]
fn a_large_machine_has_a_frame_that_bears_it_and_is_tested_as_hard_as_it_sucks() {
    for kilowatts in [20.0, 30.0, 40.0] {
        let design = complete(&power_wanted(kilowatts), &[]);
        let panel = assess(&design).finding("leaks.panel").unwrap().clone();
        let told = panel.compared.text(System::Metric);
        for id in ["standing.frame_bears", "leaks.plan"] {
            assert_eq!(
                verdict(&design, id),
                Some(Verdict::Good),
                "{kilowatts} kW: {id}; {told}"
            );
        }
        assert_eq!(stops(&design), Vec::<&str>::new(), "{kilowatts} kW");
        let base = &design.base;
        assert!((base.width + base.frame_side).value <= power_wanted(1.0).base.width.value + 1e-9);
    }
}

/// On a narrow trolley it tips sooner the higher it stands; but lower it cannot be built.
#[test]
fn wheels_have_room_under_the_vessel_however_narrow_the_room() {
    for (width, wheel) in [(0.86, 0.2), (0.6, 0.2), (0.5, 0.25)] {
        let mut design = power_wanted(5.0);
        design.base.stance = Stance::FourWheels;
        for (path, value) in [("base.width", width), ("base.wheel_diameter", wheel)] {
            design.set(path, Value::Number(value)).unwrap();
        }
        let sized = complete(&design, &[]);
        let found = verdict(&sized, "standing.clearance");
        assert_eq!(found, Some(Verdict::Good), "{width} m, wheels of {wheel} m");
    }
}

/// What no later change may take more of.
#[test]
fn the_room_is_written_down_as_wide_as_the_machine_comes_out() {
    for (kilowatts, width, depth) in [(5.0, 1.1, 1.3), (5.0, 0.86, 1.0), (12.5, 0.7, 0.8)] {
        let design = in_room(kilowatts, width, depth);
        let over_all = over_all(&design);
        let room = [design.base.room_width, design.base.room_depth].map(|side| side.unwrap().value);
        let mut sticks_out = false;
        for (place, answered) in [width, depth].into_iter().enumerate() {
            let wanted = over_all[place].max(answered);
            assert!(
                (room[place] - wanted).abs() < 0.0011,
                "{room:?} {over_all:?}"
            );
            sticks_out |= room[place] > answered + 1e-9;
        }
        let note = &design.about.note;
        assert_eq!(note.contains(" Room: "), sticks_out, "{note}");
        assert_eq!(verdict(&design, "standing.room"), Some(Verdict::Good));
        // Asked once more, it stays.
        assert_eq!(complete(&design, &[]).base, design.base);
    }
    let mut points = power_wanted(5.0);
    points.base.stance = Stance::Points;
    assert_eq!(complete(&points, &[]).base.room_width, None);
    // Where nobody was asked for it, there is none; all else stays.
    let asked = in_room(12.5, 0.7, 0.8);
    let skipped = without_room(asked.clone());
    assert_eq!(
        [skipped.base.room_width, skipped.base.room_depth],
        [None; 2]
    );
    assert!(asked.about.note.contains(" Room: ") && !skipped.about.note.contains(" Room: "));
    assert!(asked.about.note.len() > skipped.about.note.len());
    assert_eq!(stops(&skipped), stops(&asked));
}

/// A room that was answered in inches is no whole number of millimetres, and stays as it was answered.
#[test]
fn a_room_in_inches_is_kept_as_answered() {
    const INCH: f64 = 0.0254;
    for (kilowatts, width, depth) in [(2.0, 32.0, 48.0), (5.0, 33.5, 49.0), (5.0, 41.0, 51.5)] {
        let answered = [width * INCH, depth * INCH];
        let design = in_room(kilowatts, answered[0], answered[1]);
        let over_all = over_all(&design);
        let room = [design.base.room_width, design.base.room_depth].map(|side| side.unwrap().value);
        for place in 0..2 {
            if over_all[place] <= answered[place] + 1e-9 {
                assert!((room[place] - answered[place]).abs() < 1e-9, "{room:?}");
            }
        }
        let sticks_out = (0..2).any(|place| over_all[place] > answered[place] + 1e-9);
        let note = &design.about.note;
        assert_eq!(note.contains(" Room: "), sticks_out, "{note}");
        assert_eq!(verdict(&design, "standing.room"), Some(Verdict::Good));
    }
}
