//! A vessel that is there has a bottom, or one is welded in: lists, templates and joints tell the same.

use super::{power_wanted, verdict};
use hearthplan::design::Design;
use hearthplan::design::Value;
use hearthplan::review::Verdict;
use hearthplan::review::guided::{Part, complete};
use hearthplan::sizing::pattern::patterns;

/// A drum with two rolled beads, with a bottom of its own or open below.
fn drum(has_bottom: bool) -> Design {
    let mut design = power_wanted(5.0);
    for (path, value) in [
        ("real_vessel.girth", 1.885),
        ("real_vessel.length", 0.88),
        ("real_vessel.sheet", 0.0012),
        ("real_vessel.lower_seam", 0.29),
        ("real_vessel.upper_seam", 0.59),
        ("real_vessel.long_seam", 180.0_f64.to_radians()),
    ] {
        design.set(path, Value::Number(value)).unwrap();
    }
    design.real_vessel.has_bottom = has_bottom;
    complete(&design, &[Part::Shell])
}

/// Whether the plate of each layer of the bottom is still to be cut, from the inside outwards.
fn cut(design: &Design) -> Vec<bool> {
    (patterns(design).iter())
        .filter(|entry| entry.name.starts_with("Bottom plate"))
        .map(|entry| entry.pattern.is_ok())
        .collect()
}

#[test]
fn a_drum_with_a_bottom_gets_no_second_one_and_an_open_one_gets_its_weld() {
    let (closed, open) = (drum(true), drum(false));
    assert!(closed.real_vessel.has_bottom && !open.real_vessel.has_bottom);
    assert_eq!(cut(&closed), [true, false]);
    assert_eq!(cut(&open), [true, true]);
    let sheet = closed.real_vessel.sheet;
    assert_eq!(closed.bottom_layers.last().unwrap().thickness, sheet);
    let joint = &open.joints[0];
    assert_eq!(joint.name, "Bottom to the vessel");
    assert!(joint.airtight && (joint.length.value - 1.87).abs() < 0.02);
    let name = |joint: &hearthplan::design::inputs::Joint| joint.name.starts_with("Bottom");
    assert!(!closed.joints.iter().any(name));
    assert!(closed.about.note.contains("Its own bottom is there."));
    assert!(open.about.note.contains("a bottom is welded in"));
    for design in [&closed, &open] {
        assert!(design.about.note.contains("Its own seams are there"));
        for id in ["order.buries", "leaks.joint_lengths", "leaks.plan"] {
            assert_eq!(verdict(design, id), Some(Verdict::Good), "{id}");
        }
    }
}
