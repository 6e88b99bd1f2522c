//! What the sheets tell whoever works in millimetres beside sizes that no shop has.

use hearthplan::design::inputs::Material;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::paper::html;
use hearthplan::paper::sheets::all;
use hearthplan::review::assess;
use hearthplan::sizing::buying::Form;
use hearthplan::sizing::loads::Loads;
use hearthplan::sizing::metric_stock_table::{ROUND_TUBES, SHEETS, SQUARE_SIDES, SQUARE_WALLS};
use hearthplan::sizing::sold_in_millimetres::{bar_to_bore, nearest_sold, nearest_tube};
use uom::si::f64::Length;
use uom::si::length::millimeter;

const STEEL: Option<Material> = Some(Material::MildSteel);

fn mm(size: f64) -> Length {
    Length::new::<millimeter>(size)
}

/// The parts sheet as a metric reader has it, and as one in inches.
fn parts(design: &Design) -> [String; 2] {
    let sheets = all(design, &assess(design), System::Metric, &[]);
    let sheet = (sheets.iter().find(|sheet| sheet.name == "parts")).expect("the sheet");
    [System::Metric, System::Inch].map(|system| html::blocks(sheet, system))
}

#[test]
fn sheet_and_square_tube_come_in_the_steps_that_are_sold() {
    let none = Loads::default();
    let sheet = |thickness| nearest_sold(STEEL, Form::Sheet { thickness }, &none);
    for (size, name) in [
        (1.9, Some("2 mm")),
        (3.1, Some("3 mm")),
        // 3 mm would be more than a tenth thinner.
        (3.4, Some("4 mm")),
        (0.8, Some("0.75 mm")),
        (4.0, None),
        (0.0, None),
        (60.0, None),
    ] {
        assert_eq!(sheet(mm(size)).as_deref(), name, "{size} mm");
    }
    assert_eq!(
        nearest_sold(
            Some(Material::RockWool),
            Form::Sheet { thickness: mm(1.9) },
            &none
        ),
        None
    );
    let square = |side, wall| nearest_sold(STEEL, Form::SquareTube { side, wall }, &none);
    assert_eq!(
        square(mm(45.0), mm(3.1)).as_deref(),
        Some("50 mm square, wall 3 mm")
    );
    assert_eq!(square(mm(40.0), mm(3.0)), None);
    assert_eq!(square(mm(0.0), mm(3.0)), None);
}

#[test]
fn sheet_that_would_not_bear_the_test_is_told_thicker() {
    let mut design = example::as_improved();
    design.leak_test.panel_sheet = mm(3.1);
    let sold = |design: &Design| {
        let form = Form::Sheet { thickness: mm(3.1) };
        nearest_sold(STEEL, form, &Loads::of(design, None))
    };
    design.leak_test.test_pressure *= 1e-6;
    assert_eq!(sold(&design).as_deref(), Some("3 mm"));
    design.leak_test.test_pressure *= 1e12;
    assert_eq!(sold(&design).as_deref(), Some("4 mm"));
}

#[test]
fn round_tube_has_nearly_the_bore_entered_and_is_one_that_is_sold() {
    let name =
        |outside, wall| nearest_tube(STEEL, [mm(outside), mm(wall)], None).map(|sold| sold.name);
    for (outside, wall, wanted) in [
        (27.0, 2.0, Some("Ø 26.9 mm, wall 2 mm")),
        (82.0, 2.0, Some("Ø 80 mm, wall 2 mm")),
        (9.6, 3.0, Some("Ø 10 mm, wall 3 mm")),
        (26.9, 2.0, None),
        (12.0, 3.0, None),
    ] {
        assert_eq!(name(outside, wall).as_deref(), wanted, "{outside} {wall}");
    }
    let mut found = 0;
    for tenths in 60..1200 {
        let (outside, wall) = (0.1 * f64::from(tenths), 2.1);
        let Some(sold) = nearest_tube(STEEL, [mm(outside), mm(wall)], None) else {
            continue;
        };
        found += 1;
        let thick = 0.5 * (sold.outside - sold.bore);
        let is = |size: f64, one: &f64| (size - one).abs() < 1e-9;
        assert!(
            ROUND_TUBES.iter().any(|tubes| {
                (tubes.outsides.iter()).any(|one| is(sold.outside.value, one))
                    && tubes.walls.iter().any(|one| is(thick.value, one))
            }),
            "{}",
            sold.name
        );
        assert!(thick >= 0.9 * mm(wall) && thick <= 1.5 * mm(wall));
    }
    assert!(found > 900, "{found}");
    assert_eq!(
        nearest_tube(Some(Material::Aluminium), [mm(27.0), mm(2.0)], None),
        None
    );
    for nothing in [0.0, f64::NAN, f64::INFINITY] {
        assert_eq!(nearest_tube(STEEL, [mm(nothing), mm(3.0)], None), None);
        assert_eq!(nearest_tube(STEEL, [mm(12.0), mm(nothing)], None), None);
        assert_eq!(bar_to_bore(mm(nothing), None), None);
    }
}

#[test]
fn bolts_are_told_where_they_are_no_metric_ones() {
    let bolt =
        |thread, length| nearest_sold(None, Form::Bolt { thread, length }, &Loads::default());
    for (thread, length, name) in [
        (10.0, 40.0, None),
        (9.525, 38.1, Some("M10 × 40 mm")),
        (8.0, 33.0, Some("M8 × 35 mm")),
        (0.0, 40.0, None),
        (8.0, 900.0, None),
    ] {
        assert_eq!(bolt(mm(thread), mm(length)).as_deref(), name, "{thread}");
    }
}

#[test]
fn whoever_works_in_millimetres_is_told_what_a_shop_has() {
    let mut design = example::as_improved();
    design.holes[0].pipe = Some(mm(9.6));
    design.holes[0].pipe_wall = mm(3.0);
    design.holes[0].diameter = mm(10.2);
    design.base.frame_wall = mm(3.1);
    let [metric, inch] = parts(&design);
    for words in [
        "tube Ø 9.6 mm, wall 3 mm; nearest sold: Ø 10 mm, wall 3 mm, bore 4 mm where 3.6 mm is entered: what flows through it is then another, so enter it before you buy; or round bar of 10 mm, bored to 3.6 mm",
        " mm square, wall 3 mm<",
        "EN 10305-1",
    ] {
        assert!(metric.contains(words), "{words}: {metric}");
    }
    assert!(!inch.contains("EN 10305-1"));
}

/// The tables are read from thin to thick.
#[test]
fn what_is_sold_stands_in_rising_order() {
    let rises = |sizes: &[f64]| sizes.is_sorted_by(|one, other| one < other);
    assert!(rises(&SHEETS) && rises(&SQUARE_SIDES) && rises(&SQUARE_WALLS));
    for tubes in &ROUND_TUBES {
        assert!(rises(tubes.outsides) && rises(tubes.walls));
    }
}
