//! What is poured into a filter.

use super::needed::{sheet, with_all};
use hearthplan::design::inputs::{FilterMedium, StageKind};
use uom::si::f64::Length;
use uom::si::length::millimeter;

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

#[test]
fn what_is_poured_into_a_filter_is_named_with_its_grids() {
    let mut design = with_all();
    let filter = (design.train.iter_mut())
        .find(|stage| stage.kind == StageKind::Filter)
        .expect("a filter");
    (filter.filter_diameter, filter.filter_depth) = (mm(400.0), mm(400.0));
    filter.filter_piece = mm(8.0);
    // π/4 · (0.4 m)² · 0.4 m = 50.3 l
    let words = "50.3 L of charcoal or wood chips, sieved to pieces of about 8 mm";
    for name in ["parts", "gas-train"] {
        let text = sheet(&design, name);
        assert!(text.contains(words), "{text}");
        assert!(text.contains("openings of at most 4 mm"), "{text}");
    }
    let filter = (design.train.iter_mut()).find(|stage| stage.kind == StageKind::Filter);
    filter.expect("a filter").medium = FilterMedium::Cloth;
    assert!(!sheet(&design, "gas-train").contains("openings of at most"));
}
