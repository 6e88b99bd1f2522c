//! A tank is no open pipe: its top comes off, and a dished end gives no straight shell.

use super::{power_wanted, verdict};
use hearthplan::design::inputs::Datum;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value};
use hearthplan::paper::html;
use hearthplan::paper::sheets::all;
use hearthplan::review::guided::{Part, complete};
use hearthplan::review::{USED_VESSEL, Verdict, assess};
use hearthplan::sizing::build_order::{besides, order};
use hearthplan::sizing::machine::layout;
use hearthplan::sizing::marking::mark_out;
use uom::si::f64::Length;
use uom::si::length::meter;

/// 16 inches across and 48 long, with seams 2 inches from its ends.
fn tank(change: impl Fn(&mut Design)) -> Design {
    let mut design = power_wanted(5.0);
    for (path, value) in [
        ("real_vessel.girth", 50.25 * 0.0254),
        ("real_vessel.length", 48.0 * 0.0254),
        ("real_vessel.lower_seam", 2.0 * 0.0254),
        ("real_vessel.upper_seam", 46.0 * 0.0254),
        ("real_vessel.sheet", 0.003),
    ] {
        design.set(path, Value::Number(value)).unwrap();
    }
    design.real_vessel.has_bottom = true;
    change(&mut design);
    complete(&design, &[Part::Shell])
}

fn dished(design: &mut Design) {
    design.real_vessel.has_top = true;
    design.real_vessel.dish = Length::new::<meter>(2.0 * 0.0254);
}

fn page(design: &Design, name: &str) -> String {
    let sheets = all(design, &assess(design), System::Inch, &[]);
    let sheet = sheets.iter().find(|sheet| sheet.name == name).unwrap();
    html::blocks(sheet, System::Inch)
}

#[test]
fn a_dished_tank_is_lined_in_its_straight_part() {
    let plain = tank(|_| ());
    let tank = tank(dished);
    let tall = |design: &Design| {
        let vessel = layout(design).vessel;
        (vessel.body_top - vessel.underside).value / 0.0254
    };
    assert!((tall(&plain) - 48.0).abs() < 0.1, "{}", tall(&plain));
    assert!((tall(&tank) - 44.0).abs() < 0.1, "{}", tall(&tank));
    assert_eq!(verdict(&plain, "marking.ends"), None);
    assert_eq!(verdict(&tank, "marking.ends"), Some(Verdict::Watch));
    assert_eq!(verdict(&tank, "marking.tall"), Some(Verdict::Good));
    let found = assess(&tank);
    let told = |id: &str| found.finding(id).unwrap().compared.text(System::Inch);
    assert!(told("marking.tall").contains("has 44 in of straight shell"));
    assert!(told("marking.ends").contains("comes off 46 in above its lowest point"));
    assert!(told("marking.ends").contains("no place for flat discs"));
    assert_eq!(
        found.finding("marking.ends").unwrap().caution,
        Some(USED_VESSEL)
    );
    // Heights count from an edge that a tape hooks to, and the plan fits what is left.
    let marking = mark_out(&tank).unwrap();
    assert_ne!(marking.tape_datum, Datum::BottomEnd);
    assert!((marking.vessel.length.value / 0.0254 - 44.0).abs() < 1e-6);
    assert_eq!(marking.vessel.round_seams().count(), 0);
    for id in ["marking.cut_wrong", "marking.nozzles", "marking.fits"] {
        assert_eq!(verdict(&tank, id), Some(Verdict::Good), "{id}");
    }
}

#[test]
fn the_cut_is_told_where_the_work_is_with_its_caution() {
    let tank = tank(dished);
    let first = besides(&tank, &order(&tank).unwrap()).remove(0);
    assert!(
        first
            .on
            .starts_with("Closed top of the vessel that is there")
            && first.on.contains("46 in"),
        "{first:?}"
    );
    assert!(first.work.contains("any other is left alone"));
    let build = page(&tank, "build-order");
    assert!(build.contains("Closed top") && build.contains("There is no safe way to cut one"));
    let marking = page(&tank, "marking");
    assert!(
        marking.contains("The closed top comes off first, 46 in above the lowest point"),
        "{marking}"
    );
    assert!(marking.contains("the bottom end is where the straight shell begins, 2 in above"));
    assert!(page(&tank, "parts").contains("flat discs do not lie in a dished end"));
    let note = &tank.about.note;
    assert!(
        note.contains("(44 in) of straight shell") && note.contains("filled level first"),
        "{note}"
    );
}

#[test]
fn a_flat_top_comes_off_and_takes_nothing_along() {
    let flat = tank(|design| design.real_vessel.has_top = true);
    let found = assess(&flat);
    let told = (found.finding("marking.ends").unwrap().compared).text(System::Inch);
    assert!(
        told.contains("48 in above its lowest point") && !told.contains("dished"),
        "{told}"
    );
    let ends = found.finding("marking.ends").unwrap();
    assert_eq!(ends.verdict, Verdict::Good);
    assert!(!ends.why.contains("dish") && !ends.meaning.contains("dish"));
    assert_eq!(ends.caution, Some(USED_VESSEL));
    assert_eq!(mark_out(&flat).unwrap().vessel.round_seams().count(), 2);
    let parts = page(&flat, "parts");
    assert!(!parts.contains("dished end"), "{parts}");
    // A vessel that is lined was opened for that.
    let mut lined = flat.clone();
    lined.real_vessel.lined = true;
    assert_eq!(verdict(&lined, "marking.ends"), None);
    assert!(!page(&lined, "build-order").contains("Closed top"));
    // An open pipe has no dish, whatever stands there.
    let open = tank(|design| {
        design.real_vessel.has_bottom = false;
        design.real_vessel.dish = Length::new::<meter>(0.05);
    });
    assert_eq!(verdict(&open, "marking.ends"), None);
    let length = mark_out(&open).unwrap().vessel.length;
    assert_eq!(length, open.real_vessel.length);
}
