//! What the sheets tell whoever works in inches beside the sizes entered, and that nobody else is told it.

use hearthplan::design::inputs::{CableSystem, Material, StageKind};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::paper::sheet::{Block, Sheet};
use hearthplan::paper::sheets::all;
use hearthplan::paper::{csv, html};
use hearthplan::review::{Table, assess};
use hearthplan::sizing::buying::Form;
use hearthplan::sizing::frame_strength::{FrameStrength, SquareTube, WANTED};
use hearthplan::sizing::loads::Loads;
use hearthplan::sizing::panel::{FlatSheet, flat_sheets};
use hearthplan::sizing::sold_in_inches::{nearest_sold, nearest_tube};
use uom::si::f64::{Area, Length};
use uom::si::length::{inch as in_inches, millimeter};

fn mm(size: f64) -> Length {
    Length::new::<millimeter>(size)
}

fn inches(size: f64) -> Length {
    Length::new::<in_inches>(size)
}

fn sheet(design: &Design, name: &str) -> Sheet {
    let sheets = all(design, &assess(design), System::Metric, &[]);
    let mut named = sheets.into_iter().filter(|sheet| sheet.name == name);
    named.next().expect("the sheet")
}

/// A sheet as a metric reader has it, and as one in inches.
fn told(design: &Design, name: &str) -> [String; 2] {
    let sheet = sheet(design, name);
    [System::Metric, System::Inch].map(|system| html::blocks(&sheet, system))
}

fn table(sheet: &Sheet, name: &str) -> Option<Table> {
    sheet.blocks.iter().find_map(|block| match block {
        Block::Table {
            name: own, table, ..
        } if own == name => Some(table.clone()),
        _ => None,
    })
}

#[test]
fn sheet_is_told_by_the_gauge_that_bears_as_much() {
    let sold = |material, thickness| {
        nearest_sold(Some(material), Form::Sheet { thickness }, &Loads::default())
    };
    // A gauge a tenth thinner at most; else the next thicker: 0.157 in is no 10 ga.
    for (size, name) in [
        (1.0, Some("20 ga, 0.0359 in")),
        (1.5, Some("16 ga, 0.0598 in")),
        (2.0, Some("14 ga, 0.0747 in")),
        (3.0, Some("11 ga, 0.1196 in")),
        (4.0, Some("3/16 in")),
        (5.0, Some("3/16 in")),
        (6.0, Some("1/4 in")),
        (0.05, None),
        (0.0, None),
        (60.0, None),
    ] {
        assert_eq!(
            sold(Material::MildSteel, mm(size)).as_deref(),
            name,
            "{size} mm"
        );
    }
    for size in (1..300).map(|tenths| 0.1 * f64::from(tenths)) {
        for material in [Material::MildSteel, Material::Stainless310] {
            let Some(name) = sold(material, mm(size)) else {
                continue;
            };
            let inches = match name.split_once(" ga, ") {
                Some((_, decimal)) => decimal.trim_end_matches(" in").parse::<f64>().expect(&name),
                None => {
                    hearthplan::design::quantity::Quantity::Length
                        .read(&name, System::Inch)
                        .expect(&name)
                        / 0.0254
                }
            };
            assert!(inches >= 0.9 * size / 25.4, "{size} mm as {name}");
        }
    }
    // Other metals go by other gauges, and blanket by none.
    assert_eq!(
        sold(Material::Stainless304, mm(6.0)).as_deref(),
        Some("1/4 in")
    );
    assert_eq!(sold(Material::Aluminium, mm(2.0)), None);
    assert_eq!(sold(Material::CeramicBlanket1260, mm(25.0)), None);
}

#[test]
fn tube_and_bolts_are_told_by_what_is_sold() {
    let steel = Some(Material::MildSteel);
    let square =
        |side, wall| nearest_sold(steel, Form::SquareTube { side, wall }, &Loads::default());
    assert_eq!(
        square(mm(40.0), mm(3.0)).as_deref(),
        Some("1 1/2 in square, wall 11 ga, 0.12 in")
    );
    assert_eq!(
        square(mm(60.0), mm(4.0)).as_deref(),
        Some("2 1/2 in square, wall 3/16 in")
    );
    assert_eq!(square(mm(0.0), mm(3.0)), None);
    let round = Form::Tube {
        outside: mm(44.0),
        wall: mm(2.0),
    };
    assert_eq!(
        nearest_sold(steel, round, &Loads::default()).as_deref(),
        Some("Ø 1 3/4 in, wall 14 ga, 0.083 in")
    );
    let cooler = Form::Tube {
        outside: mm(20.6),
        wall: mm(1.0),
    };
    assert_eq!(
        nearest_sold(Some(Material::Stainless304), cooler, &Loads::default()).as_deref(),
        Some("Ø 7/8 in, wall 18 ga, 0.049 in")
    );
    let bolt =
        |thread, length| nearest_sold(None, Form::Bolt { thread, length }, &Loads::default());
    for (thread, length, name) in [
        (mm(6.0), mm(20.0), Some("1/4-20 × 1 in")),
        (mm(8.0), mm(30.0), Some("5/16-18 × 1 1/4 in")),
        (mm(10.0), mm(40.0), Some("3/8-16 × 1 3/4 in")),
        (mm(12.0), mm(50.0), Some("1/2-13 × 2 in")),
        (mm(16.0), mm(60.0), Some("5/8-11 × 2 1/2 in")),
        (inches(0.375), inches(1.5), Some("3/8-16 × 1 1/2 in")),
        (mm(0.0), mm(40.0), None),
        (mm(42.0), mm(40.0), None),
    ] {
        assert_eq!(bolt(thread, length).as_deref(), name, "{thread:?}");
    }
}

/// The bore decides how fast a nozzle blows: outside and wall are taken together.
#[test]
fn round_tube_has_nearly_the_bore_entered_and_goes_through_its_hole_where_one_does() {
    let steel = Some(Material::MildSteel);
    let sold = |outside: f64, wall: f64, hole: Option<f64>| {
        nearest_tube(steel, [mm(outside), mm(wall)], hole.map(mm)).expect("steel tube")
    };
    // 0.236 in: 11 ga would leave 0.260 in.
    let nozzle = sold(12.0, 3.0, Some(12.5));
    assert_eq!(nozzle.name, "Ø 1/2 in, wall 10 ga, 0.134 in");
    assert!((nozzle.bore.get::<in_inches>() - 0.232).abs() < 1e-9);
    // Where two bores are as near, the one that goes through the hole.
    let mut both = 0;
    for tenths in 60..400 {
        let (outside, wall) = (0.1 * f64::from(tenths), 2.6);
        let Some(free) = nearest_tube(steel, [mm(outside), mm(wall)], None) else {
            continue;
        };
        let held = sold(outside, wall, Some(outside + 0.3));
        let off = |bore: Length| {
            (bore.get::<millimeter>() / (outside - 2.0 * wall))
                .ln()
                .abs()
        };
        assert!(
            off(free.bore) <= off(held.bore) && held.outside <= free.outside.max(mm(outside + 0.3))
        );
        assert!(off(held.bore) <= off(free.bore).max(0.03));
        both += usize::from(held != free);
    }
    assert!(both > 0);
    assert_eq!(
        nearest_tube(Some(Material::Aluminium), [mm(12.0), mm(3.0)], None),
        None
    );
    for nothing in [0.0, f64::NAN, f64::INFINITY] {
        assert_eq!(nearest_tube(steel, [mm(nothing), mm(3.0)], None), None);
        assert_eq!(nearest_tube(steel, [mm(12.0), mm(nothing)], None), None);
    }
    let mut design = example::as_improved();
    design.holes[0].pipe = Some(mm(12.0));
    design.holes[0].pipe_wall = mm(3.0);
    design.holes[0].diameter = mm(12.5);
    let [metric, inch] = told(&design, "parts");
    assert!(
        inch.contains("; nearest sold: Ø 1/2 in, wall 10 ga, 0.134 in, bore 0.232 in where 0.236 in is entered; it does not go through its hole of 0.492 in: enter pipe and hole as wide as it is"),
        "{inch}"
    );
    // 12 by 3 mm is sold.
    assert!(!metric.contains(" ga, ") && !metric.contains("tube Ø 12 mm, wall 3 mm;"));
}

#[test]
fn whoever_works_in_inches_is_told_what_to_ask_for() {
    let [metric, inch] = told(&example::as_improved(), "parts");
    for words in [
        "; nearest sold: 11 ga, 0.1196 in",
        "; nearest sold: 3/8-16 × ",
        " in square, wall ",
        "enter what you buy",
        // Nobody finds 0.28 of a foot on a tape.
        ">3.28 ft (3 ft 3 3/8 in)<",
        "1260 °C (2300 °F) class",
    ] {
        assert!(inch.contains(words), "{words}");
    }
    for words in [" ga, ", "3/8-16", " in square", "Birmingham"] {
        assert!(!metric.contains(words), "{words}");
    }
    // What is not for a reader leaves no empty line behind.
    assert!(!metric.contains("<p></p>") && !metric.contains("<li></li>"));
}

#[test]
fn a_gauge_no_thinner_stands_beside_square_millimetres() {
    let mut design = example::as_improved();
    design.wiring.system = CableSystem::Metric;
    let [metric, inch] = told(&design, "wiring");
    assert!(!metric.contains("AWG"), "{metric}");
    assert!(inch.contains(" mm² (AWG "), "{inch}");
    assert!(inch.contains("under “Cable sizes in” to reckon with gauges"));
    let compared = |design: &Design, system| {
        let assessment = assess(design);
        let finding = assessment.finding("electrics.cables").expect("asked");
        finding.compared.text(system)
    };
    assert!(compared(&design, System::Inch).contains(" mm² (AWG "));
    assert!(!compared(&design, System::Metric).contains("AWG"));
    // By gauges there is nothing to be told beside them.
    design.wiring.system = CableSystem::Gauge;
    let [_, inch] = told(&design, "wiring");
    assert!(!inch.contains("mm²") && !inch.contains("to reckon with gauges"));
}

#[test]
fn cable_that_is_there_is_not_to_be_bought() {
    let mut design = example::as_improved();
    let rows = |design: &Design| {
        let table = table(&sheet(design, "wiring"), "wiring-cable");
        table.map_or(Vec::new(), |table| {
            let words = |row: &hearthplan::review::TableRow| row.cells[2].text(System::Metric);
            table.rows.iter().map(words).collect::<Vec<String>>()
        })
    };
    let names = |rows: &[String]| rows.join(", ").split(", ").count();
    let all = rows(&design);
    assert!(all.iter().any(|names| names.contains("Blower")), "{all:?}");
    let own = Some(Area::new::<uom::si::area::square_millimeter>(10.0));
    design.wiring.blower_cable = own;
    let left = rows(&design);
    assert!(
        !left.iter().any(|names| names.contains("Blower")),
        "{left:?}"
    );
    assert_eq!(names(&left) + 1, names(&all));
    for load in &mut design.loads {
        load.cable = own;
    }
    assert!(rows(&design).is_empty());
    let [metric, _] = told(&design, "wiring");
    assert!(metric.contains("No cable is to be bought."));
}

#[test]
fn a_leak_test_is_told_in_psi_and_by_whole_degrees() {
    let mut design = example::as_improved();
    design.leak_test.test_pressure =
        uom::si::f64::Pressure::new::<uom::si::pressure::pascal>(3_500.0);
    let [metric, inch] = told(&design, "leak-tests");
    assert!(
        inch.contains(": 14.1 inH₂O (0.51 psi) above the room."),
        "{inch}"
    );
    assert!(!metric.contains("psi") && !metric.contains("°F"));
    assert!(metric.contains(" for each 1 K"));
    assert!(inch.contains(" for each 1 °F") && !inch.contains("1.8 °F"));
    // One degree Fahrenheit is five ninths of a kelvin.
    let budgets = table(&sheet(&design, "leak-tests"), "leak-budgets").expect("budgets");
    let told = |system| budgets.rows[0].cells[6].text(system);
    let number = |words: String| -> f64 {
        let first = words.split_whitespace().next().expect("a number");
        first.parse().expect("a number")
    };
    let pascals = number(told(System::Inch)) * 249.089 / (5.0 / 9.0);
    assert!((pascals / number(told(System::Metric)) - 1.0).abs() < 0.01);
    // A file for a spreadsheet keeps its plain numbers, in one unit.
    for (system, heading) in [
        (System::Metric, "May lose (Pa)"),
        (System::Inch, "May lose (inH₂O)"),
    ] {
        let file = csv::csv(&budgets, system);
        assert!(file.contains(heading), "{file}");
        let first = file
            .lines()
            .nth(1)
            .expect("a row")
            .split(',')
            .nth(5)
            .expect("a cell");
        assert!(first.parse::<f64>().is_ok(), "{first}");
    }
}

#[test]
fn own_seams_of_a_vessel_are_soaped_before_its_lining() {
    let mut design = example::as_improved();
    let words =
        |design: &Design| ["leak-tests", "build-order"].map(|name| told(design, name)[0].clone());
    design.real_vessel.measured = true;
    assert!(
        words(&design)
            .iter()
            .all(|sheet| sheet.contains("its long seam"))
    );
    design.real_vessel.measured = false;
    assert!(
        !words(&design)
            .iter()
            .any(|sheet| sheet.contains("its long seam"))
    );
    // A drawn pipe has none.
    design.real_vessel.measured = true;
    design.real_vessel.seamless = true;
    design.real_vessel.lower_seam = mm(0.0);
    design.real_vessel.upper_seam = mm(0.0);
    assert!(!words(&design)[1].contains("its long seam"));
}

#[test]
fn wood_is_looked_at_by_the_moisture_reckoned_with() {
    use uom::si::{f64::Mass, mass::gram};
    let mut design = example::as_improved();
    design.fuel.weighed_before = Some(Mass::new::<gram>(200.0));
    design.fuel.weighed_after = Some(Mass::new::<gram>(178.0));
    let [metric, _] = told(&design, "lighting");
    assert!(metric.contains("Wood of at most 11 % water"), "{metric}");
    design.fuel.weighed_after = None;
    let entered = hearthplan::design::quantity::Quantity::Share
        .show(design.fuel.moisture.value, System::Metric);
    let [metric, _] = told(&design, "lighting");
    assert!(metric.contains(&format!("Wood of at most {entered} water")));
    design.fuel.kind = hearthplan::design::inputs::FuelKind::Charcoal;
    let [metric, _] = told(&design, "lighting");
    assert!(metric.contains("Charcoal of at most"), "{metric}");
    assert!(!metric.contains("Wood of at most"), "{metric}");
}

/// Steel that bears its load as it was entered bears it as it is told to be bought.
#[test]
fn what_is_sold_bears_what_was_entered_to_bear_it() {
    let mut design = example::as_improved();
    design.leak_test.panel_sheet = mm(20.0);
    design.hopper.wall_thickness = inches(0.126);
    let wall = |sheet: &FlatSheet| (sheet.thickness - inches(0.126)).value.abs() < 1e-9;
    let sheets = flat_sheets(&design);
    let bears = (sheets.iter().filter(|sheet| wall(sheet)))
        .map(|sheet| sheet.limit.at_ease())
        .reduce(|one, other| one.min(other))
        .expect("the hopper has a flat lid");
    let sold = |design: &Design| {
        let [_, page] = told(design, "parts");
        let (_, rest) = page
            .split_once(">0.126 in thick; nearest sold: ")
            .expect("the sheet");
        rest.split_once('<').expect("the cell").0.to_string()
    };
    design.leak_test.test_pressure = 0.8 * bears;
    assert_eq!(sold(&design), "11 ga, 0.1196 in");
    design.leak_test.test_pressure = 0.99 * bears;
    assert_eq!(sold(&design), "10 ga, 0.1345 in");
    // The tube of a frame that has much in hand is told as before; else one that bears as much.
    let tube = SquareTube {
        side: mm(40.0),
        wall: mm(3.0),
    };
    let form = Form::SquareTube {
        side: tube.side,
        wall: tube.wall,
    };
    design.base.frame_side = tube.side;
    design.base.frame_wall = tube.wall;
    let mut frame = assess(&design).standing.frame.expect("a frame");
    let told_for = |frame: FrameStrength| {
        let loads = Loads::of(&design, Some(frame));
        nearest_sold(Some(Material::MildSteel), form, &loads)
    };
    frame.mass *= frame.weakest().1 / (1.5 * WANTED);
    assert_eq!(
        told_for(frame).as_deref(),
        Some("1 1/2 in square, wall 11 ga, 0.12 in")
    );
    frame.mass *= 1.5;
    assert_eq!(
        told_for(frame).as_deref(),
        Some("1 3/4 in square, wall 11 ga, 0.12 in")
    );
}

/// A bore is told by the same figures wherever it stands: a sixteenth of an inch is too coarse for it.
#[test]
fn bores_have_one_number() {
    let mut design = example::as_improved();
    design.flanges[0].bore = inches(1.40625);
    let place = (design.train.iter())
        .position(|stage| stage.kind == StageKind::Cooler)
        .expect("a cooler");
    design.train[place].tube_bore = inches(0.652);
    let assessment = assess(&design);
    let sheets = all(&design, &assessment, System::Inch, &[]);
    let page = |name: &str| {
        let sheet = sheets
            .iter()
            .find(|sheet| sheet.name == name)
            .expect("the sheet");
        html::blocks(sheet, System::Inch)
    };
    assert!(
        page("parts").contains("Ø 1.406 in inside"),
        "{}",
        page("parts")
    );
    let train = page("gas-train");
    assert!(
        train.contains("0.652 in") && !train.contains(">5/8 in<"),
        "{train}"
    );
    let told = (assessment.findings.iter())
        .flat_map(|finding| &finding.working)
        .flat_map(|step| &step.values)
        .filter(|(_, _, measure)| (measure.si - inches(0.652).value).abs() < 1e-12)
        .map(|(.., measure)| measure.quantity.show_for_sum(measure.si, System::Inch));
    assert!(told.clone().count() > 0);
    assert!(
        told.clone().all(|told| told == "0.652 in"),
        "{:?}",
        told.collect::<Vec<_>>()
    );
}

/// A length that is cut tells inches as a tape has them, down to its smallest part.
#[test]
fn a_sixteenth_beside_feet_is_told_as_a_tape_has_it() {
    let mut design = example::as_improved();
    let place = (design.train.iter())
        .position(|stage| stage.kind == StageKind::Cooler)
        .expect("a cooler");
    for (length, wanted) in [
        (20.0 * 12.0 + 0.03, " (20 ft 1/16 in)<"),
        (240.0, ">20 ft<"),
    ] {
        design.train[place].tubes = 1;
        design.train[place].tube_length = inches(length);
        let [_, page] = told(&design, "parts");
        assert!(page.contains(wanted), "{wanted}");
    }
}
