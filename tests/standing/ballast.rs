//! Dead weight that is offered hangs where it has room, and is no heavier than is worth it.

use super::findings::{asked, find};
use super::set;
use hearthplan::design::inputs::{Group, Part, Shape};
use hearthplan::design::quantity::{Quantity, System};
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Lever, Verdict, remedies};
use hearthplan::sizing::ballast::{BALLAST, hanger, hung, unheld};
use hearthplan::sizing::machine::layout;
use hearthplan::sizing::weight::{State, weigh};
use uom::si::f64::{Length, MassDensity};
use uom::si::mass_density::kilogram_per_cubic_meter;

/// The part that was added last is as tall as its weight in steel makes it, and hangs from the bars, clear of the ground.
fn hangs_under_the_bars(design: &Design, mass: f64) {
    let part = design.parts.last().unwrap();
    let bars = design.base.clearance - design.base.frame_side;
    assert!((part.z + part.height - bars).value.abs() < 1e-9);
    let steel = 7850.0 * (part.width * part.depth * part.height).value;
    assert!(
        steel >= mass - 1e-6 && steel < mass + 7850.0 * 0.001 * (part.width * part.depth).value,
        "{steel} for {mass}"
    );
    assert!(part.z.value >= 0.05 - 1e-9 && part.depth > design.base.depth / 3.0);
    assert_eq!(hung(design).count(), 1);
}

/// Where the bars lie near the ground nothing hangs under them, nor where something else is in the way.
#[test]
fn ballast_is_offered_only_where_it_has_room() {
    let offers = |design: &Design| {
        (asked(design).iter()).any(|finding| {
            (finding.levers.iter())
                .any(|lever| matches!(lever, Lever::NewItem { list: "parts", .. }))
        })
    };
    let mut design = example::as_first_drawn();
    set(&mut design, "base.width", 0.35);
    assert!(offers(&design));
    let mut blocked = design.clone();
    let mut part = blocked.parts[0].clone();
    (part.x, part.y, part.z) = Default::default();
    part.height = blocked.base.clearance;
    blocked.parts.push(part);
    assert!(!offers(&blocked));
    let low = 0.055 + design.base.frame_side.value;
    set(&mut design, "base.clearance", low);
    assert!(!offers(&design));
}

/// Dead weight of more than a third of the machine is not offered, what of it is there counted in.
#[test]
fn no_more_ballast_is_offered_than_a_third_of_the_machine() {
    let (mut offered, mut refused) = (0, 0);
    for width in [0.3, 0.35, 0.41, 0.5, 0.6, 0.7] {
        let mut design = example::as_first_drawn();
        set(&mut design, "base.width", width);
        let machine = weigh(&layout(&design)).in_state(State::Empty).mass.value;
        for finding in asked(&design) {
            for remedy in remedies(&design, finding.id) {
                if !matches!(remedy.lever, Lever::NewItem { list: "parts", .. }) {
                    continue;
                }
                let Some(Value::Number(mass)) = remedy.value else {
                    refused += 1;
                    continue;
                };
                offered += 1;
                assert!(mass <= machine / 3.0, "{mass} of {machine}");
                let with = remedy.change.as_ref().unwrap().apply(&design).unwrap();
                hangs_under_the_bars(&with, mass);
                assert_eq!(find(&with, finding.id).unwrap().verdict, Verdict::Good);
                for finding in asked(&with) {
                    for more in remedies(&with, finding.id) {
                        if let (Some(Value::Number(more)), Lever::NewItem { list: "parts", .. }) =
                            (&more.value, &more.lever)
                        {
                            assert!(mass + more <= machine / 3.0 + 1.0, "{mass} and {more}");
                        }
                    }
                }
            }
        }
    }
    assert!(
        offered > 0 && refused > 0,
        "{offered} offered, {refused} refused"
    );
}

/// A design with two plates of ballast, one right under the bars, the other under that.
fn with_ballast() -> Design {
    let mut design = example::as_first_drawn();
    // Nothing else is in the way.
    design.parts.clear();
    set(&mut design, "base.clearance", 0.3);
    let steel = MassDensity::new::<kilogram_per_cubic_meter>(7850.0);
    for _ in 0..2 {
        let free = hanger(&design).unwrap();
        let height = Length::new::<uom::si::length::millimeter>(40.0);
        design.parts.push(Part {
            name: BALLAST.to_string(),
            group: Group::Base,
            shape: Shape::Weighed,
            mass: steel * free.width * free.depth * height,
            width: free.width,
            depth: free.depth,
            height,
            x: free.x,
            y: free.y,
            z: free.level - height,
            ..Part::default()
        });
    }
    design
}

/// Bars that are moved leave ballast in the air, or in their way: it is told, with the height at which it would hang.
#[test]
fn ballast_that_the_bars_left_behind_is_told() {
    let id = "standing.ballast";
    assert!(find(&example::as_first_drawn(), id).is_none());
    let design = with_ballast();
    let upper = design.parts.len() - 2;
    assert_eq!(find(&design, id).unwrap().verdict, Verdict::Good);
    for (path, value) in [
        ("base.clearance", design.base.clearance.value + 0.05),
        ("base.clearance", design.base.clearance.value - 0.02),
        ("base.frame_side", design.base.frame_side.value + 0.01),
    ] {
        let mut moved = design.clone();
        set(&mut moved, path, value);
        // One after the other: the lower hangs from the upper.
        let bars = moved.base.clearance - moved.base.frame_side;
        for (place, level) in [(upper, bars), (upper + 1, bars - moved.parts[upper].height)] {
            let told = find(&moved, id).unwrap();
            assert_eq!(told.verdict, Verdict::Watch, "{path}");
            let found = unheld(&moved).unwrap();
            assert_eq!((found.place, found.level), (place, level));
            let fits = found.fits.unwrap();
            assert!((fits - (level - moved.parts[place].height)).value.abs() < 1e-9);
            let words = told.compared.text(System::Metric);
            let height = Quantity::Length.show(fits.value, System::Metric);
            assert!(words.contains(&height), "{words}");
            assert_eq!(told.levers, [Lever::input(format!("parts.{place}.z"))]);
            moved.parts[place].z = fits;
        }
        assert_eq!(find(&moved, id).unwrap().verdict, Verdict::Good, "{path}");
    }
    // A single one is hung again by its remedy.
    let mut single = design.clone();
    single.parts.pop();
    set(&mut single, "base.clearance", 0.33);
    let offered = remedies(&single, id);
    let change = offered[0].change.as_ref().unwrap();
    let again = change.apply(&single).unwrap();
    assert_eq!(find(&again, id).unwrap().verdict, Verdict::Good);
    assert_eq!(unheld(&again), None);
    // Where the bars lie low it has no room under them, and on the ground it carries nothing.
    let mut low = design.clone();
    set(&mut low, "base.clearance", 0.1);
    assert_eq!(unheld(&low).unwrap().fits, None);
    for part in &mut low.parts[upper..] {
        part.z = Length::default();
    }
    let told = find(&low, id).unwrap();
    assert_eq!((told.verdict, told.levers.len()), (Verdict::Stop, 0));
}
