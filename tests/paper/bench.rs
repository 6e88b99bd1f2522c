//! What somebody needs who works from the sheets alone.

use hearthplan::design::inputs::{Layer, Material, OwnMaterial};
use hearthplan::design::phrase::Slot;
use hearthplan::design::quantity::{Quantity, System};
use hearthplan::design::{Design, example};
use hearthplan::paper::html;
use hearthplan::paper::sheet::Sheet;
use hearthplan::paper::sheets::all;
use hearthplan::review::{Assessment, Table, Verdict, assess};
use std::collections::BTreeSet;
use std::f64::consts::PI;
use uom::si::f64::Length;
use uom::si::length::{meter, millimeter};

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

fn made(design: &Design, system: System) -> (Assessment, Vec<Sheet>) {
    let assessment = assess(design);
    let sheets = all(design, &assessment, system, &[]);
    (assessment, sheets)
}

fn named<'a>(sheets: &'a [Sheet], name: &str) -> &'a Sheet {
    sheets.iter().find(|sheet| sheet.name == name).unwrap()
}

fn table<'a>(sheets: &'a [Sheet], name: &str) -> &'a Table {
    let found = sheets
        .iter()
        .flat_map(|sheet| sheet.tables())
        .find(|(of, ..)| *of == name);
    found.unwrap_or_else(|| panic!("no table {name}")).2
}

fn words(slot: &Slot, system: System) -> String {
    slot.text(system)
}

/// A column by its heading, as it is read.
fn column(table: &Table, heading: &str, system: System) -> Vec<String> {
    let at = table
        .headings
        .iter()
        .position(|one| *one == heading)
        .unwrap();
    table
        .rows
        .iter()
        .map(|row| words(&row.cells[at], system))
        .collect()
}

#[test]
fn what_another_line_pays_for_is_told_once() {
    let design = example::as_improved();
    let (assessment, sheets) = made(&design, System::Metric);
    let paid: Vec<String> = column(table(&sheets, "cost-paid-with"), "Pays for", System::Metric);
    let payers = column(table(&sheets, "cost-paid-with"), "Line", System::Metric);
    assert_eq!(payers.iter().collect::<BTreeSet<_>>().len(), payers.len());
    let paid = paid.join(", ");
    let mut lines = 0;
    for line in assessment
        .cost
        .lines
        .iter()
        .filter(|line| line.amount.is_none())
    {
        assert!(
            line.paid_by.is_some() && paid.contains(&line.name),
            "{}",
            line.name
        );
        lines += 1;
    }
    assert!(lines > 20, "{lines}");
    let page = html::blocks(named(&sheets, "cost"), System::Metric);
    assert!(!page.contains("in “") && page.contains("costs nothing more: give it a price of 0"));
}

#[test]
fn every_leak_test_has_its_figures_where_it_is_made_and_a_box_for_its_answer() {
    let design = example::as_improved();
    let (assessment, sheets) = made(&design, System::Metric);
    let order = table(&sheets, "order-tests");
    let readings = table(&sheets, "leak-readings");
    for heading in ["Hold for", "May lose"] {
        let figures = column(order, heading, System::Metric);
        assert_eq!(figures, column(readings, heading, System::Metric));
        assert_eq!(
            figures,
            column(table(&sheets, "leak-budgets"), heading, System::Metric)
        );
        assert!(figures.len() > 3 && !figures.contains(&"?".to_string()));
    }
    assert!(
        column(readings, "Passed", System::Metric)
            .iter()
            .all(|cell| cell == "☐")
    );
    // A screen takes no pencil.
    let leaks = named(&sheets, "leak-tests");
    assert!(html::blocks(leaks, System::Metric).contains("data-table=\"leak-readings\""));
    let screen = html::blocks_on_screen(leaks, System::Metric);
    assert!(!screen.contains("data-table=\"leak-readings\""));
    assert!(screen.contains("Readings, to be filled in: a table of the printed sheet."));
    let page = html::blocks(named(&sheets, "build-order"), System::Metric);
    let pressure = design.leak_test.test_pressure.value;
    assert!(
        page.contains(&format!("{pressure:.0} Pa above the room")),
        "{page}"
    );
    assert!(page.contains("Never go above"));
    assert!(assessment.leaks.groups.len() > 4);
}

#[test]
fn cable_is_bought_there_and_back() {
    let design = example::as_improved();
    let (assessment, sheets) = made(&design, System::Metric);
    let circuits = &assessment.electrics.wiring;
    let wanted: f64 = circuits
        .iter()
        .map(|one| 2.0 * one.circuit.length.value)
        .sum();
    let to_buy = table(&sheets, "wiring-cable");
    let at = |row: &hearthplan::review::TableRow| match &row.cells[1] {
        Slot::Measure(measure) => measure.si,
        other => panic!("{other:?}"),
    };
    let sum: f64 = to_buy.rows.iter().map(at).sum();
    assert!((sum - wanted).abs() < 1e-9, "{sum} {wanted}");
    let checks = table(&sheets, "wiring-check");
    assert_eq!(checks.rows.len(), circuits.len());
    for (row, circuit) in checks.rows.iter().zip(circuits) {
        let Slot::Measure(left) = &row.cells[2] else {
            panic!("{row:?}")
        };
        let drop = circuit.run.as_ref().unwrap().drop.value;
        assert!((left.si + drop - design.battery.voltage.value).abs() < 1e-9);
    }
}

#[test]
fn the_front_line_is_found_from_the_seam_and_pipes_have_their_lean() {
    let mut design = example::as_improved();
    let (_, sheets) = made(&design, System::Metric);
    let page = html::blocks(named(&sheets, "marking"), System::Metric);
    // 100° of 1455 mm.
    assert!(
        page.contains("The front line lies 404 mm (100°) to the left of the long seam"),
        "{page}"
    );
    // The shorter way round is told.
    let mut turned = design.clone();
    turned.real_vessel.long_seam *= 3.0;
    let (_, sheets_turned) = made(&turned, System::Metric);
    let other = html::blocks(named(&sheets_turned, "marking"), System::Metric);
    assert!(
        other.contains("The front line lies 243 mm (60°) to the right of the long seam"),
        "{other}"
    );
    assert!(!page.contains("nearest 1/16"));
    let pipes = table(&sheets, "hole-pipes");
    let lean = column(pipes, "Angle to the axis", System::Metric);
    let straight = "90°, straight out";
    assert_eq!(lean, [straight, "–", "60°, outer end up", straight, "–"]);
    let outside = column(pipes, "Pipe outside", System::Metric);
    assert_eq!(outside, ["13.5 mm", "–", "44.5 mm", "33.7 mm", "–"]);
    let (_, inches) = made(&design, System::Inch);
    let page = html::blocks(named(&inches, "marking"), System::Inch);
    assert!(page.contains("nearest 1/16: at most 1/32 in off"));
    design.real_vessel.seamless = true;
    let (_, sheets) = made(&design, System::Metric);
    let page = html::blocks(named(&sheets, "marking"), System::Metric);
    assert!(!page.contains("The front line lies"));
}

#[test]
fn an_own_material_goes_by_the_name_it_was_given() {
    let mut design = Design::default();
    design.own_materials.push(OwnMaterial {
        name: "Slag wool from the mill".to_string(),
        ..OwnMaterial::default()
    });
    design.hearth_layers[1] = Layer {
        material: Material::Own1,
        ..design.hearth_layers[1].clone()
    };
    let (_, sheets) = made(&design, System::Metric);
    let page = html::blocks(named(&sheets, "parts"), System::Metric);
    assert!(page.contains("Slag wool from the mill") && !page.contains("Own material 1"));
}

#[test]
fn wool_is_compared_with_the_sheets_that_are_sold() {
    let mut design = Design::default();
    let told = |design: &Design| {
        let (_, sheets) = made(design, System::Metric);
        html::blocks(named(&sheets, "parts"), System::Metric)
    };
    let layer = design
        .hearth_layers
        .iter()
        .position(|layer| layer.material == Material::CeramicBlanket1260)
        .unwrap();
    for (thickness, wanted) in [
        (75.0, "75 mm thick: 3 times 25 mm."),
        (99.0, "99 mm thick: 4 times 25 mm, pressed by 1 mm."),
        (
            51.0,
            "51 mm thick: 2 times 25 mm, laid loosely: 1 mm are missing.",
        ),
        (
            81.0,
            "81 mm thick: 3 times 25 mm is 6 mm too little. Make the layer 75 mm thick",
        ),
        (
            40.0,
            "40 mm thick: 2 times 25 mm is 10 mm too much. Make the layer 50 mm thick",
        ),
    ] {
        design.hearth_layers[layer].thickness = mm(thickness);
        let page = told(&design);
        assert!(page.contains(wanted), "{wanted}: {page}");
    }
}

/// Inch sheets are an inch thick, so that the sum comes out; and steel that is there does not give way.
#[test]
fn wool_is_added_up_in_the_sheets_of_the_reader_and_fits_the_vessel_that_is_there() {
    let mut design = example::as_improved();
    let wool = |layer: &Layer| layer.material == Material::CeramicBlanket1260;
    let place = design.hearth_layers.iter().position(wool).unwrap();
    let told = |design: &Design, system| {
        let (_, sheets) = made(design, system);
        html::blocks(named(&sheets, "parts"), system)
    };
    let as_thick = |design: &mut Design, thickness: f64| {
        let more = mm(thickness) - design.hearth_layers[place].thickness;
        design.hearth_layers[place].thickness += more;
        design.hearth_wall.inside_diameter -= 2.0 * more;
    };
    as_thick(&mut design, 40.0);
    let page = told(&design, System::Metric);
    assert!(page.contains("2 times 25 mm is 10 mm too much. The vessel around it is there: press the sheets, look for others, or make the wall 20 mm narrower inside and the layer 10 mm thicker."), "{page}");
    as_thick(&mut design, 117.5);
    let page = told(&design, System::Inch);
    assert!(
        page.contains("4 5/8 in thick: 5 times 1 in is 3/8 in too much. The vessel around it is there, and a narrower wall leaves the hearth too little room: press the sheets, look for others, or take 4 of them and make the wall 1 1/4 in wider inside and the layer 5/8 in thinner, which keeps less heat in."),
        "{page}"
    );
    as_thick(&mut design, 85.0);
    let page = told(&design, System::Metric);
    assert!(page.contains("3 times 25 mm is 10 mm too little. The vessel around it is there: look for other sheets, or make the wall 20 mm wider inside and the layer 10 mm thinner."), "{page}");
    // Bought to measure, the vessel follows the layer.
    design.real_vessel.measured = false;
    assert!(told(&design, System::Inch).contains("3/8 in too little. Make the layer 3 in thick"));
}

/// What is offered to make sheets fit leaves the hearth its room, and its figures agree as they are told.
#[test]
fn the_hearth_has_its_room_after_a_wall_was_made_to_fit_the_sheets() {
    const SIXTEENTH: f64 = 0.0254 / 16.0;
    let told = |design: &Design| {
        let (_, sheets) = made(design, System::Inch);
        let page = html::blocks(named(&sheets, "parts"), System::Inch);
        let from = page.find(" of the hearth wall, ").unwrap();
        let point = &page[from..];
        point[..point.find('<').unwrap()].to_string()
    };
    let inches = |text: &str, before: &str, behind: &str| {
        let (_, rest) = text.split_once(before)?;
        let (number, _) = rest.split_once(behind)?;
        Some(Quantity::Length.read(number, System::Inch).unwrap())
    };
    let inside = |design: &Design| {
        let assessment = assess(design);
        assessment.finding("hearth.inside").unwrap().verdict
    };
    let start = example::as_improved();
    let wool = |layer: &Layer| layer.material == Material::CeramicBlanket1260;
    let place = start.hearth_layers.iter().position(wool).unwrap();
    let (mut narrower, mut wider) = (0, 0);
    for steps in 8..60 {
        let mut design = start.clone();
        let thickness = Length::new::<meter>(f64::from(steps) * SIXTEENTH + 0.0003);
        let more = thickness - design.hearth_layers[place].thickness;
        design.hearth_layers[place].thickness += more;
        design.real_vessel.girth += 2.0 * PI * more;
        let text = told(&design);
        let stops = assess(&design).count(Verdict::Stop);
        let (wall, layer, sign) = if let Some(wall) = inches(&text, "make the wall ", " narrower") {
            narrower += 1;
            (
                wall,
                inches(&text, "and the layer ", " thicker").unwrap(),
                1.0,
            )
        } else if let Some(wall) = inches(&text, "make the wall ", " wider") {
            wider += 1;
            (
                wall,
                inches(&text, "and the layer ", " thinner").unwrap(),
                -1.0,
            )
        } else {
            continue;
        };
        assert!((wall - 2.0 * layer).abs() < 1e-9, "{text}");
        design.hearth_layers[place].thickness += Length::new::<meter>(sign * layer);
        design.hearth_wall.inside_diameter -= Length::new::<meter>(sign * wall);
        assert_eq!(inside(&design), Verdict::Good, "{text}");
        assert!(assess(&design).count(Verdict::Stop) <= stops, "{text}");
        assert!(!told(&design).contains("make the wall"), "{text}");
    }
    assert!(narrower + wider > 5 && wider > 0, "{narrower} {wider}");
}

#[test]
fn the_dust_of_wool_is_warned_of_where_it_is_cut() {
    let mut design = example::as_improved();
    let warned = |design: &Design| {
        let (_, sheets) = made(design, System::Metric);
        ["parts", "build-order"].map(|name| {
            let page = html::blocks(named(&sheets, name), System::Metric);
            page.matches("sheds dust that harms the lungs").count()
        })
    };
    assert_eq!(warned(&design), [1, 1]);
    for layers in [
        &mut design.hearth_layers,
        &mut design.body_layers,
        &mut design.lid_layers,
        &mut design.bottom_layers,
    ] {
        layers.retain(|layer| layer.material.is_metal());
    }
    for stage in &mut design.train {
        stage.insulation = mm(0.0);
    }
    assert_eq!(warned(&design), [0, 0]);
    // A pipe is wrapped in it too.
    design.train[0].insulation = mm(25.0);
    assert_eq!(warned(&design), [1, 1]);
}

#[test]
fn the_first_fire_has_its_checks_and_what_the_gauges_show() {
    let (assessment, sheets) = made(&example::as_improved(), System::Metric);
    let gauges = table(&sheets, "gauges");
    let results = assessment.results();
    let computed = column(gauges, "What", System::Metric);
    for name in [
        "electrics.knob_lighting",
        "breath.suction_side",
        "warmth.warm_up_time",
        "breath.engine_vacuum",
    ] {
        let result = results.iter().find(|result| result.name == name).unwrap();
        assert!(computed.contains(&result.label), "{name}: {computed:?}");
    }
    assert_eq!(gauges.rows.len(), 9);
    // No gauge shows a mean.
    assert!(!computed.iter().any(|label| label.starts_with("Mean")));
    assert!(computed.iter().any(|label| label.ends_with("Glow plug on")));
    // All that is told of lighting is at the wanted flow: a knob turned down takes less than the speed entered.
    let value = |name: &str| {
        let result = results.iter().find(|result| result.name == name);
        result.map(|result| result.measure.si).unwrap()
    };
    assert!(value("breath.flow_wanted") < value("breath.blower_flow_startup"));
    assert!(value("electrics.current_knob") < value("electrics.current_lighting"));
    assert!(
        computed
            .iter()
            .any(|label| label.contains("gas that comes to it"))
    );
    // The knob at work is that of a blower that works then.
    let is_knob = |label: &String| label.starts_with("Knob") && label.contains("usual load");
    assert!(!computed.iter().any(is_knob));
    let mut helped = example::as_improved();
    helped.blower.assists = true;
    let (_, sheets_of_it) = made(&helped, System::Metric);
    let told = column(table(&sheets_of_it, "gauges"), "What", System::Metric);
    assert!(told.iter().any(is_knob), "{told:?}");
    let before = table(&sheets, "before-fire");
    assert!(
        column(before, "Done", System::Metric)
            .iter()
            .all(|cell| cell == "☐")
    );
    assert!(
        column(before, "Look at", System::Metric)
            .iter()
            .any(|look| look.contains("carbon monoxide alarm"))
    );
    let stages = column(table(&sheets, "upkeep"), "Stage", System::Metric);
    assert_eq!(
        stages,
        column(table(&sheets, "maintenance"), "Stage", System::Metric)
    );
    assert_eq!(
        column(table(&sheets, "worn"), "Part", System::Metric),
        ["Fire tube and throat", "Nozzle tips", "Grate"]
    );
}
