//! Dead weight that is offered hangs where it has room, and is no heavier than is worth it.

use super::findings::{asked, find};
use super::set;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Lever, Verdict, remedies};
use hearthplan::sizing::ballast::hung;
use hearthplan::sizing::machine::layout;
use hearthplan::sizing::weight::{State, weigh};

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
