//! Who marks out by a tape is nowhere off by more than half its step.

use hearthplan::design::example;
use hearthplan::design::inputs::{Flange, Hearth};
use hearthplan::design::quantity::{Quantity, System};
use hearthplan::sizing::pattern::{Stroke, Use, flange, nozzle_ring};
use std::f64::consts::PI;
use uom::si::length::millimeter;

/// Places are told from one end or one hole, so that whoever works with a tape is nowhere off by more than its half step.
#[test]
fn no_error_of_a_tape_adds_up_over_a_template() {
    let told = |note: &str, before: &str| -> Vec<f64> {
        let (_, list) = note.split_once(before).unwrap();
        let inches = list.split('(').skip(1).map(|rest| {
            let (inches, _) = rest.split_once(')').unwrap();
            Quantity::Length.read(inches, System::Inch).unwrap() * 1000.0
        });
        inches.collect()
    };
    let half_step = 25.4 / 32.0 + 1e-6;
    for count in [3, 5, 7, 12] {
        let hearth = Hearth {
            nozzle_count: count,
            ..Hearth::default()
        };
        let strip = nozzle_ring(&hearth, None).unwrap();
        let drawn: Vec<f64> = (strip.lines.iter())
            .filter(|drawn| drawn.purpose == Use::Cut)
            .filter_map(|drawn| match drawn.stroke {
                Stroke::Circle { centre, .. } => Some(centre.x),
                _ => None,
            })
            .collect();
        let places = told(&strip.note, "no error adds to the next: ");
        assert_eq!(places.len(), drawn.len(), "{}", strip.note);
        for (told, drawn) in places.iter().zip(&drawn) {
            assert!((told - drawn).abs() <= half_step, "{}", strip.note);
        }
    }
    let plate = Flange {
        bolts: 12,
        ..example::as_improved().flanges[0].clone()
    };
    let note = flange(&plate).unwrap().note;
    let chords = told(&note, "and so on: ");
    assert_eq!(chords.len(), 6, "{note}");
    let circle = plate.bolt_circle.get::<millimeter>();
    assert!((chords[5] - circle).abs() <= half_step);
    let second = circle * (PI / 6.0).sin();
    assert!((chords[1] - second).abs() <= half_step, "{note}");
}
