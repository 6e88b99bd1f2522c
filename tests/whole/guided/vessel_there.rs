//! A steel vessel that is there already: it is lined to its width, or told too narrow with the one that would do.

use super::{power_wanted, stops, told_unmet, verdict};
use hearthplan::design::inputs::{Datum, HotWall};
use hearthplan::design::quantity::{Quantity as Q, System};
use hearthplan::design::{Design, Value};
use hearthplan::paper::sheets::all;
use hearthplan::paper::{html, svg};
use hearthplan::review::guided::{Part, QUESTIONS, complete, wider_vessel};
use hearthplan::review::{Verdict, assess};
use hearthplan::sizing::machine::{self, HearthShape, Piece};
use hearthplan::sizing::marking::mark_out;
use hearthplan::sizing::parts_list::parts_list;
use hearthplan::sizing::pattern::{patterns, wrap_template};
use hearthplan::sizing::shell_there::is_of_it;
use std::f64::consts::PI;

/// A steel vessel of this width and 0.9 m long, with its answers, and as it is lined for an engine.
pub(super) fn vessel_there(litres: f64, kilowatts: f64, across: f64) -> (Design, Design) {
    let mut design = power_wanted(kilowatts);
    for (path, value) in [
        ("engine.displacement", litres / 1000.0),
        ("real_vessel.girth", PI * across),
        ("real_vessel.length", 0.9),
        ("real_vessel.sheet", 0.0025),
        ("real_vessel.lower_seam", 0.07),
        ("real_vessel.upper_seam", 0.83),
    ] {
        design.set(path, Value::Number(value)).unwrap();
    }
    design.real_vessel.has_bottom = true;
    let sized = complete(&design, &[Part::Engine, Part::Shell]);
    (design, sized)
}

#[test]
fn a_vessel_that_is_there_is_lined_to_its_width() {
    for (litres, kilowatts, across) in [(0.42, 2.0, 0.457), (1.2, 7.5, 0.457), (1.2, 7.5, 0.56)] {
        let (design, sized) = vessel_there(litres, kilowatts, across);
        assert!(sized.real_vessel.measured);
        let asked = QUESTIONS.iter().flat_map(|question| question.once_there);
        for path in asked
            .filter(|there| there.part == Part::Shell)
            .flat_map(|there| there.inputs)
        {
            assert_eq!(sized.get(path), design.get(path), "{path}");
        }
        let case = format!("{litres} L, {across} m");
        assert_eq!(
            verdict(&sized, "marking.shell"),
            Some(Verdict::Good),
            "{case}"
        );
        let (vessel, _) = machine::measures(&sized);
        let half = across / 2.0;
        // No wider than the vessel, and by less than a millimetre across narrower.
        for outer in [vessel.hearth_outer_radius, vessel.body_outer_radius] {
            let room = half - outer.value;
            assert!((-1e-9..0.000_5).contains(&room), "{case}: {room}");
        }
        let stops: Vec<_> = stops(&sized)
            .into_iter()
            .filter(|id| !id.starts_with("marking"))
            .collect();
        assert_eq!(stops, Vec::<&str>::new(), "{case}");
        assert!(
            sized.about.note.contains("Your vessel of "),
            "{}",
            sized.about.note
        );
    }
}

/// A plain steel vessel of this width without round seams, lined for an engine.
fn plain_vessel(litres: f64, across: f64, sheet: f64, long: f64) -> Design {
    let mut design = power_wanted(5.0);
    for (path, value) in [
        ("engine.displacement", litres / 1000.0),
        ("fuel.moisture", 0.22),
        ("real_vessel.girth", PI * across),
        ("real_vessel.length", long),
        ("real_vessel.sheet", sheet),
        ("real_vessel.lower_seam", 0.0),
        ("real_vessel.upper_seam", long),
    ] {
        design.set(path, Value::Number(value)).unwrap();
    }
    complete(&design, &[Part::Engine, Part::Shell])
}

/// A vessel that leaves little room gets a fire tube that is narrower at its nozzles, but within the published proportions,
/// and a battery box that stays cool.
#[test]
fn the_hearth_goes_into_a_vessel_that_is_there() {
    for (litres, across, sheet) in [
        (1.3, 0.33, 0.003),
        (1.3, 0.36, 0.003),
        (1.3, 0.4, 0.002),
        (1.3, 0.6, 0.003),
        (2.0, 0.36, 0.003),
        (0.8, 0.36, 0.003),
        (0.42, 0.3, 0.003),
    ] {
        let design = plain_vessel(litres, across, sheet, 0.9);
        let case = format!("{litres} L, {across} m");
        assert!(
            HearthShape::widest(&design) <= design.hearth_wall.inside_diameter,
            "{case}"
        );
        let stops = stops(&design);
        let about_wood_or_engine = |id: &str| id.starts_with("heart.") || id.contains("power");
        let others: Vec<_> = stops
            .iter()
            .filter(|id| !about_wood_or_engine(id))
            .collect();
        assert!(others.is_empty(), "{case}: {others:?}");
        let assessment = assess(&design);
        let proportions = assessment.finding("hearth.proportions").unwrap();
        let words = proportions.compared.text(System::Metric);
        assert!(
            proportions.verdict == Verdict::Good || words.contains("smaller than any"),
            "{case}: {words}"
        );
        let blanket = design.hearth_layers[1].thickness.value;
        assert!(across < 0.36 || blanket > 0.03, "{case}: {blanket}");
        let told = told_unmet(&design, None);
        assert!(!told.contains("too narrow"), "{case}: {told}");
        // What still stops is told, by its title.
        let titles = (assessment.findings.iter())
            .filter(|finding| finding.verdict == Verdict::Stop)
            .all(|finding| told.contains(finding.title));
        assert!(titles, "{case}: {told}");
        assert_eq!(told.contains("still stops at"), !stops.is_empty(), "{told}");
        let inside = design.hearth_wall.inside_diameter.value * 1000.0;
        assert!((inside - inside.round()).abs() < 1e-6, "{case}: {inside}");
    }
}

#[test]
fn a_vessel_that_is_too_narrow_is_told_so_with_the_width_it_takes() {
    let design = plain_vessel(1.3, 0.3, 0.003, 0.9);
    assert!(stops(&design).contains(&"hearth.inside"));
    let told = told_unmet(&design, None);
    let narrow = "too narrow for this hearth, which is 228 mm outside where it is widest: take a vessel of at least 320 mm";
    assert!(told.contains(narrow), "{told}");
    assert!(
        told.contains("; Fire tube inside the hearth wall"),
        "{told}"
    );
    // Behind so little insulation the frame is no place for the battery: it goes up beside the body.
    assert_eq!(design.battery_box.beside, HotWall::Body);
    assert_eq!(verdict(&design, "electrics.box"), Some(Verdict::Good));
    // The width that is told is enough.
    let wider = plain_vessel(1.3, 0.321, 0.003, 0.9);
    assert!(!stops(&wider).contains(&"hearth.inside"));
}

/// A drawn pipe has no seams at all: the plan that is made for it counts from its end, and fits it.
#[test]
fn a_plan_made_for_a_vessel_that_is_there_fits_it() {
    let answers = [
        ("real_vessel.girth", 0.942),
        ("real_vessel.length", 1.5),
        ("real_vessel.lower_seam", 0.0),
        ("real_vessel.upper_seam", 0.0),
    ];
    let mut pipe = power_wanted(5.0);
    for (path, value) in answers {
        pipe.set(path, Value::Number(value)).unwrap();
    }
    pipe.real_vessel.seamless = true;
    let pipe = complete(&pipe, &[Part::Shell]);
    let with_seams = vessel_there(1.2, 7.5, 0.457).1;
    for design in [&pipe, &with_seams] {
        for id in ["marking.cut_wrong", "marking.nozzles", "marking.fits"] {
            assert_eq!(verdict(design, id), Some(Verdict::Good), "{id}");
        }
        assert_eq!(design.plan_vessel.datum, Datum::BottomEnd);
    }
    let sheets = all(&pipe, &assess(&pipe), System::Metric, &[]);
    let marking = sheets.iter().find(|sheet| sheet.name == "marking").unwrap();
    let text = html::blocks(marking, System::Metric);
    assert!(text.contains("cut open at the back"), "{text}");
    assert!(!text.contains("cut wrong"), "{text}");
    assert!(!text.contains(">lower round seam<") && !text.contains(">upper round seam<"));
    let template = wrap_template(&mark_out(&pipe).unwrap());
    assert!(!svg::document(&template).contains("seam"));
}

/// Where wood and engine want a wider vessel, one is told that does: with it nothing stops.
#[test]
fn the_vessel_that_would_do_is_told_and_does() {
    let answered = |across: f64, long: f64| {
        let mut design = power_wanted(5.0);
        for (path, value) in [
            ("real_vessel.girth", PI * across),
            ("real_vessel.length", long),
            ("real_vessel.lower_seam", 0.0),
            ("real_vessel.upper_seam", 0.0),
        ] {
            design.set(path, Value::Number(value)).unwrap();
        }
        design.real_vessel.seamless = true;
        let sized = complete(&design, &[Part::Shell]);
        let wider = wider_vessel(&design, &[Part::Shell], &sized);
        (sized, wider)
    };
    let (narrow, wider) = answered(0.3, 0.9);
    assert!(!stops(&narrow).is_empty());
    let wider = wider.unwrap();
    let across = wider.across.value;
    assert!(across > 0.3, "{wider:?}");
    let told = told_unmet(&narrow, Some(wider));
    let width = format!(
        "a plain steel pipe of about {:.0} mm across",
        across * 1000.0
    );
    assert!(told.contains(&width), "{told}");
    // One width is told, that in which all passes, and not the one that only the hearth fits into as well.
    assert!(!told.contains("too narrow"), "{told}");
    let (enough, none) = answered(across, wider.length.map_or(0.9, |length| length.value));
    assert_eq!(stops(&enough), Vec::<&str>::new(), "{told}");
    assert_eq!(none, None);
    assert_eq!(told_unmet(&enough, None), "");
}

/// The round of trials that looks for a vessel that would do comes to an end wherever it stands in its steps.
#[test]
fn a_vessel_of_any_width_gets_an_answer() {
    for girth in [1.0, 1.15, 1.197, 1.2, 1.25, 1.3, 1.5] {
        let (answered, sized) = vessel_there(1.6, 10.0, girth / PI);
        assert!(sized.about.note.contains("Your vessel of "), "{girth} m");
        let wider = wider_vessel(&answered, &[Part::Engine, Part::Shell], &sized);
        assert!(wider.is_none_or(|wider| wider.across.value * PI >= girth));
    }
}

/// A tank that is there has its seams where they are: no opening is set too near to them, and the ash is still reached.
#[test]
fn openings_stand_clear_of_the_seams_of_a_tank_that_is_there() {
    for (lower, upper) in [(0.0889, 1.1303), (0.07, 0.83)] {
        let mut tank = power_wanted(5.0);
        for (path, value) in [
            ("real_vessel.girth", PI * 0.4572),
            ("real_vessel.length", 1.2192),
            ("real_vessel.lower_seam", lower),
            ("real_vessel.upper_seam", upper),
        ] {
            tank.set(path, Value::Number(value)).unwrap();
        }
        let tank = complete(&tank, &[Part::Shell]);
        for id in ["marking.clash", "marking.ash_door", "marking.fits"] {
            let told = assess(&tank)
                .finding(id)
                .unwrap()
                .compared
                .text(System::Metric);
            assert_eq!(
                verdict(&tank, id),
                Some(Verdict::Good),
                "{lower} m: {id}: {told}"
            );
        }
    }
}

/// A vessel that is there is not welded, cut or bought once more.
#[test]
fn a_vessel_that_is_there_is_no_work_and_no_shopping() {
    let (_, sized) = vessel_there(1.2, 7.5, 0.457);
    let names: Vec<&str> = (sized.joints.iter())
        .map(|joint| joint.name.as_str())
        .collect();
    assert!(
        names.starts_with(&["Gas outlet in the shell", "Vessel lid"]),
        "{names:?}"
    );
    let note = &sized.about.note;
    assert!(note.contains("Its own seams are there"), "{note}");
    for id in [
        "order.gas_way",
        "order.buries",
        "workshop.one_lump",
        "leaks.plan",
    ] {
        assert_eq!(verdict(&sized, id), Some(Verdict::Good), "{id}");
    }
    let entries = patterns(&sized);
    for jacket in ["Hearth jacket", "Body jacket"] {
        let entry = entries.iter().find(|entry| entry.name == jacket).unwrap();
        let why = entry.pattern.as_ref().unwrap_err().to_string();
        assert!(why.contains("there already"), "{why}");
    }
    // The two sheets that are the vessel, besides its bottom, are told apart from all else, and not bought.
    let of_it = |design: &Design| {
        let lines = parts_list(design, &machine::layout(design));
        let there = |piece| is_of_it(design, piece);
        (lines.iter())
            .filter(|line| line.piece.is_some_and(there))
            .count()
    };
    assert_eq!(of_it(&sized), 2);
    let sheet = |design: &Design| {
        let sheets = all(design, &assess(design), System::Metric, &[]);
        let sheet = sheets.iter().find(|sheet| sheet.name == "parts").unwrap();
        html::blocks(sheet, System::Metric)
    };
    let there = sheet(&sized);
    let mut rolled = sized.clone();
    rolled.real_vessel.measured = false;
    assert_eq!(of_it(&rolled), 0);
    let rolled = sheet(&rolled);
    assert_ne!(there, rolled);
    assert!(there.contains("A vessel that was bought and measured is not in it,"));
    // A pipe has no bottom: one is welded in.
    let pipe = plain_vessel(1.3, 0.4, 0.002, 0.9);
    assert_eq!(pipe.joints[0].name, "Bottom to the vessel");
    assert_eq!(pipe.joints[1].name, "Gas outlet in the shell");
    assert!(pipe.about.note.contains("a bottom is welded in"));
    // One that is sized freely is rolled and welded as ever.
    let free = complete(&power_wanted(5.0), &[]);
    assert_eq!(free.joints[0].name, "Bottom to hearth shell");
    assert!(patterns(&free).iter().all(|entry| entry.pattern.is_ok()));
}

/// The bottom lies in the pipe, as wide as its bore; all of the pipe's wall is weighed, from end to end.
#[test]
fn the_bottom_goes_into_the_pipe_that_is_there() {
    let (across, sheet, long) = (0.508, 0.0064, 0.914);
    let design = plain_vessel(1.3, across, sheet, long);
    let bore = across - 2.0 * sheet;
    let machine = machine::layout(&design);
    let clearance = bore - 2.0 * machine.vessel.bottom_radius.value;
    assert!((0.002..0.003).contains(&clearance), "{clearance}");
    let mass = |wanted: &dyn Fn(Piece) -> bool| {
        (machine.solids.iter())
            .filter(|solid| wanted(solid.piece))
            .map(|solid| solid.mass.value)
            .sum::<f64>()
    };
    let wall = mass(&|piece| is_of_it(&design, piece));
    let pipe = PI * (across - sheet) * sheet * long * 7850.0;
    assert!((wall / pipe - 1.0).abs() < 0.005, "{wall} {pipe}");
    let plate = &design.bottom_layers[0];
    let bottom = mass(&|piece| {
        piece
            == Piece::Layer {
                list: "bottom_layers",
                index: 0,
            }
    });
    let disc = PI / 4.0 * bore * bore * plate.thickness.value * 7850.0;
    assert!((bottom / disc - 1.0).abs() < 0.015, "{bottom} {disc}");
    let parts = |design: &Design| {
        let sheets = all(design, &assess(design), System::Metric, &[]);
        let sheet = sheets.iter().find(|sheet| sheet.name == "parts").unwrap();
        html::blocks(sheet, System::Metric)
    };
    assert!(!parts(&design).contains("Sides of the bottom"));
    // Nothing closes the sides of a bottom under a shell that is rolled.
    let free = complete(&power_wanted(5.0), &[]);
    assert!(parts(&free).contains("Sides of the bottom"));
}

/// A tank with an upright seam: whatever side that is on, no hole is cut into it or too near, and the ring stays a ring.
#[test]
fn openings_stand_clear_of_an_upright_seam_wherever_it_is() {
    const INCH: f64 = 0.0254;
    for turned in (0..360).step_by(10) {
        let mut tank = power_wanted(5.0);
        for (path, value) in [
            ("real_vessel.girth", 75.5 * INCH),
            ("real_vessel.length", 36.1875 * INCH),
            ("real_vessel.sheet", 0.125 * INCH),
            ("real_vessel.lower_seam", 4.0625 * INCH),
            ("real_vessel.upper_seam", 32.125 * INCH),
            ("real_vessel.long_seam", f64::from(turned).to_radians()),
        ] {
            tank.set(path, Value::Number(value)).unwrap();
        }
        let tank = complete(&tank, &[Part::Shell]);
        assert_eq!(
            tank.get("real_vessel.long_seam").unwrap(),
            Value::Number(f64::from(turned).to_radians()),
        );
        let assessment = assess(&tank);
        for id in [
            "marking.clash",
            "marking.ash_door",
            "marking.fits",
            "marking.nozzles",
        ] {
            let finding = assessment.finding(id).unwrap();
            let told = finding.compared.text(System::Inch);
            let wanted = match id {
                // So high a seam leaves little room for a door between it and the grate.
                "marking.ash_door" => finding.verdict != Verdict::Stop,
                _ => finding.verdict == Verdict::Good,
            };
            assert!(wanted, "{turned}°: {id}: {told}");
        }
        // The lighting port stays half-way between two nozzles.
        let [ring, port] = ["Nozzle", "Lighting port"]
            .map(|name| tank.holes.iter().find(|hole| hole.name == name).unwrap());
        let spaces = (port.angle - ring.angle).value / (2.0 * PI) * f64::from(ring.count);
        assert!(
            (spaces.rem_euclid(1.0) - 0.5).abs() < 1e-6,
            "{turned}°: {spaces}"
        );
    }
}

/// The lower seam lies where the ash room would be: the hearth is set higher, so that the ash door finds its place above it.
#[test]
fn a_hearth_is_set_higher_where_a_seam_is_in_the_way_of_the_ash_door() {
    let mut design = power_wanted(7.2);
    for (path, value) in [
        ("engine.displacement", 0.42e-3),
        ("real_vessel.girth", 0.96),
        ("real_vessel.length", 1.0),
        ("real_vessel.sheet", 0.003),
        ("real_vessel.lower_seam", 0.12),
        ("real_vessel.upper_seam", 0.88),
        ("real_vessel.long_seam", 37.0_f64.to_radians()),
    ] {
        design.set(path, Value::Number(value)).unwrap();
    }
    let sized = complete(&design, &[Part::Engine, Part::Shell]);
    for id in ["marking.clash", "marking.nozzles", "marking.tall"] {
        assert_eq!(verdict(&sized, id), Some(Verdict::Good), "{id}");
    }
    // More room under the grate would take more of the heat than is left.
    assert_ne!(verdict(&sized, "marking.ash_door"), Some(Verdict::Stop));
    assert_eq!(stops(&sized), ["engine.power", "train.engine_power"]);
}

/// What is cut to go into the vessel is narrower than its bore, by what was measured and not by layers that were rounded; as
/// it is told in millimetres and in inches, on template and list, and by its radius too.
#[test]
fn discs_go_into_the_bore_that_was_measured() {
    const INCH: f64 = 0.0254;
    for (girth, again) in [
        (50.25, 50.1),
        (75.375, 75.0),
        (62.8125, 62.625),
        (62.8125, 62.2),
    ] {
        let mut design = plain_vessel(1.3, girth * INCH / PI, 0.25 * INCH, 0.914);
        for measured in [girth, again] {
            design
                .set("real_vessel.girth", Value::Number(measured * INCH))
                .unwrap();
            let bore = measured * INCH / PI - 0.5 * INCH;
            let disc = 2.0 * machine::measures(&design).0.bottom_radius.value;
            assert!(
                (0.002 - 1e-9..0.003).contains(&(bore - disc)),
                "{bore} {disc}"
            );
            for system in [System::Metric, System::Inch] {
                let told = |size: f64| Q::Length.read(&Q::Length.show(size, system), system);
                assert!(told(disc).unwrap() < bore && 2.0 * told(0.5 * disc).unwrap() < bore);
            }
            let templates = patterns(&design);
            let bottom = templates
                .iter()
                .find(|one| one.name.starts_with("Bottom plate"))
                .unwrap();
            let note = &bottom.pattern.as_ref().unwrap().note;
            assert!(note.contains("Measure the bore both ways"), "{note}");
            let sheets = all(&design, &assess(&design), System::Inch, &[]);
            let parts = sheets.iter().find(|sheet| sheet.name == "parts").unwrap();
            let page = html::blocks(parts, System::Inch);
            let shown = Q::Length.show(disc, System::Inch);
            assert!(page.contains(&format!(">Ø {shown}, ")), "{shown}");
            assert!(page.contains("Bottom: its discs go into the vessel that you measured"));
        }
    }
}
