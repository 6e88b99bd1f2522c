//! Where the gas outlet opens inside the lining, what leads it there, and how what is sized is marked out.

use crate::ash_door::guided;
use crate::ports::{PORT, said, sheet};
use hearthplan::design::inputs::Datum;
use hearthplan::design::phrase::lower_first;
use hearthplan::design::quantity::{Quantity, System};
use hearthplan::design::{Design, Value, example};
use hearthplan::review::guided::{Part, complete};
use hearthplan::review::{Lever, Verdict, remedies};
use hearthplan::sizing::build_order::{Besides, besides, order};
use hearthplan::sizing::pattern::patterns;
use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};
use uom::si::length::{meter, millimeter};

const MOUTH: &str = "marking.outlet_mouth";

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

/// In a wide vessel that was bought the lining is thick, and a leaning outlet falls far.
fn in_a_bought_shell() -> Design {
    let mut design = example::to_start_from();
    for (path, value) in [
        ("engine.displacement", 420e-6),
        ("engine.wanted_power", 6_000.0),
        ("real_vessel.girth", 1.885),
        ("real_vessel.length", 0.9),
        ("real_vessel.sheet", 0.002),
        ("real_vessel.lower_seam", 0.08),
        ("real_vessel.upper_seam", 0.82),
    ] {
        design.set(path, Value::Number(value)).unwrap();
    }
    complete(&design, &[Part::Engine, Part::Shell])
}

/// Whatever the power, and in a vessel that was there.
#[test]
fn what_is_sized_is_lit_at_its_nozzles_and_drawn_off_above_its_grate() {
    let mut designs = vec![example::as_improved(), in_a_bought_shell()];
    designs.extend([2.0, 3.0, 5.0, 10.0, 20.0].map(guided));
    for design in designs {
        for id in [PORT, MOUTH, "marking.cone_weld", "marking.clash"] {
            let (verdict, words) = said(&design, id).unwrap();
            assert_eq!(verdict, Verdict::Good, "{id}: {words}");
        }
        if design.real_vessel.rolled {
            for id in ["marking.tall", "marking.seams"] {
                let (verdict, words) = said(&design, id).unwrap();
                assert_eq!(verdict, Verdict::Good, "{id}: {words}");
            }
        }
    }
}

/// Through a thick lining a leaning outlet falls below the grate, and draws from the ash.
#[test]
fn the_gas_outlet_opens_above_the_grate_inside_the_lining() {
    let mut design = example::as_improved();
    assert_eq!(said(&design, MOUTH).unwrap().0, Verdict::Good);
    design.holes[2].height = mm(110.0);
    let (verdict, told) = said(&design, MOUTH).unwrap();
    assert_eq!(verdict, Verdict::Watch, "{told}");
    assert!(
        told.contains("the grate is at 134 mm: it draws from the ash room"),
        "{told}"
    );
    let offered = remedies(&design, MOUTH);
    for path in ["holes.2.height", "holes.2.lean"] {
        let lever = Lever::input(path);
        let remedy = offered.iter().find(|remedy| remedy.lever == lever).unwrap();
        let mended = remedy.change.as_ref().unwrap().apply(&design).unwrap();
        assert_eq!(said(&mended, MOUTH).unwrap().0, Verdict::Good, "{path}");
    }
    // 91.5 mm of wall at 60° are 53 mm down, and the bore of 39.3 mm cut at a slant 45 mm tall.
    let (_, told) = said(&example::as_improved(), MOUTH).unwrap();
    assert!(
        told.starts_with("inside the lining Gas outlet opens from 195 mm to 241 mm"),
        "{told}"
    );
    design.holes[2].height = mm(0.0);
    let (verdict, told) = said(&design, MOUTH).unwrap();
    assert_eq!(verdict, Verdict::Stop, "{told}");
}

/// What is set on the shell ends there: a sleeve leads on, and no sheet asks for a pipe that goes through as well.
#[test]
fn a_sleeve_leads_on_through_the_lining() {
    let design = example::as_improved();
    let marking = sheet(&design, "marking");
    assert!(
        marking.contains("the pipes that are set through the shell are in no list"),
        "{marking}"
    );
    assert!(
        marking.contains("It ends on the shell; a sleeve leads on through the lining"),
        "{marking}"
    );
    let parts = sheet(&design, "parts");
    assert!(
        parts.contains("Sleeve: Gas outlet") && parts.contains("104 mm long"),
        "{parts}"
    );
    assert!(
        parts.contains("Sleeve: Ash door") && parts.contains("90 mm long"),
        "{parts}"
    );
    assert!(!parts.contains("Sleeve: Thermometer"), "{parts}");
    assert!(
        parts.contains("at the angle of the pipe to the axis: 60°, outer end up<"),
        "{parts}"
    );
    let more = besides(&design, &order(&design).unwrap());
    let sleeves = more.iter().filter(|one| one.on.ends_with(", its sleeve"));
    assert_eq!(sleeves.count(), 2);
    let bare = sheet(&example::as_first_drawn(), "parts");
    assert!(!bare.contains("Sleeve:"), "{bare}");
}

/// The liner and the wool behind the shell have the hole too: a thermometer that ends at them tells nothing.
#[test]
fn a_thermometer_goes_through_each_layer_of_the_wall() {
    let design = example::as_improved();
    let parts = sheet(&design, "parts");
    let lining = &design.body_layers[..design.body_layers.len() - 1];
    let thick: Length = lining.iter().map(|layer| layer.thickness).sum();
    let long = Quantity::Length.show(thick.value, System::Metric);
    assert!(
        parts.contains(&format!("to the inside of the lining it is {long}")),
        "{parts}"
    );
    for layer in lining {
        let told = format!(
            "{} of {}",
            Quantity::Thickness.show(layer.thickness.value, System::Metric),
            lower_first(design.material_name(layer.material))
        );
        assert!(parts.contains(&told), "{told}: {parts}");
    }
    let marking = sheet(&design, "marking");
    assert!(marking.contains("What its name tells, with its seal"));
    let more = besides(&design, &order(&design).unwrap());
    let pocket = |one: &&Besides| one.on == "Thermometer, through the lining";
    assert_eq!(more.iter().filter(pocket).count(), 1);
    // A bare shell has nothing behind it.
    let mut bare = design.clone();
    bare.body_layers.drain(..lining.len());
    assert!(!sheet(&bare, "parts").contains("to the inside of the lining"));
}

/// An angle alone tells neither up nor down: a sleeve that rises inwards opens elsewhere than where it was reckoned.
#[test]
fn the_way_a_pipe_leads_is_told_in_words() {
    let mut design = example::as_improved();
    let outlet = (design.holes.iter())
        .position(|hole| hole.name == "Gas outlet")
        .unwrap();
    let hole_words = |design: &Design| -> Vec<String> {
        let pattern = (patterns(design).into_iter())
            .find(|entry| entry.name == "Gas outlet: hole")
            .and_then(|entry| entry.pattern.ok())
            .unwrap();
        pattern.labels.into_iter().map(|label| label.text).collect()
    };
    for (lean, offset, words, off) in [
        (60.0, 0.0, "60°, outer end up", None),
        (
            120.0,
            0.03,
            "120°, outer end down",
            Some("30 mm to the right"),
        ),
        (90.0, -0.03, "90°, straight out", Some("30 mm to the left")),
    ] {
        design.holes[outlet].lean = Angle::new::<degree>(lean);
        design.holes[outlet].offset = Length::new::<meter>(offset);
        for name in ["marking", "parts"] {
            let sheet = sheet(&design, name);
            assert!(sheet.contains(words), "{name} {words}: {sheet}");
            if let Some(off) = off {
                assert!(sheet.contains(off), "{name} {off}: {sheet}");
            }
        }
        let on_hole = hole_words(&design).join("; ");
        let [degrees, way] = [words.split("°, ").next(), words.split("°, ").nth(1)];
        for part in [degrees, way].into_iter().flatten() {
            assert!(on_hole.contains(part), "{part}: {on_hole}");
        }
        let side = off.and_then(|off| off.split(" mm ").nth(1));
        assert_eq!(on_hole.contains("set off"), side.is_some(), "{on_hole}");
        assert!(side.is_none_or(|side| on_hole.contains(side)), "{on_hole}");
    }
}

/// Heights have one datum on a sheet: that of the tape. For a vessel that nobody measured the plan has another.
#[test]
fn the_marking_sheet_names_no_other_datum_than_that_of_the_tape() {
    let mut design = example::as_improved();
    design.real_vessel.measured = false;
    design.plan_vessel.datum = Datum::LowerSeam;
    for (datum, words) in [
        (Datum::BottomEnd, "heights from the bottom end; round from"),
        (
            Datum::UpperSeam,
            "heights from the upper round seam, lower is negative; round from",
        ),
    ] {
        design.real_vessel.tape_datum = datum;
        let sheet = sheet(&design, "marking");
        assert!(sheet.contains(words), "{sheet}");
        assert!(!sheet.contains("Datum of the plan"), "{sheet}");
        assert!(!sheet.contains("the datum"), "{sheet}");
    }
}
