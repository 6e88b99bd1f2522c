//! The lining of a vessel that is there is of whole sheets where that costs nothing.

use super::power_wanted;
use hearthplan::design::{Design, Value};
use hearthplan::review::guided::{Part, complete};
use hearthplan::review::{Verdict, assess};
use hearthplan::sizing::insulation_table::{SHEET, SOFT};
use std::f64::consts::PI;
use uom::si::f64::Length;
use uom::si::length::meter;

/// A steel vessel of this width, lined for a small engine.
fn lined(across: f64) -> Design {
    let mut design = power_wanted(2.0);
    for (path, value) in [
        ("engine.displacement", 0.000_42),
        ("real_vessel.girth", PI * across),
        ("real_vessel.length", 0.9),
        ("real_vessel.sheet", 0.0025),
        ("real_vessel.lower_seam", 0.07),
        ("real_vessel.upper_seam", 0.83),
    ] {
        design.set(path, Value::Number(value)).unwrap();
    }
    design.real_vessel.has_bottom = true;
    complete(&design, &[Part::Engine, Part::Shell])
}

#[test]
fn the_lining_is_of_whole_sheets_where_no_answer_is_worse_for_it() {
    let mut whole = 0;
    for across in [0.457, 0.47, 0.49, 0.5, 0.52, 0.56] {
        let sized = lined(across);
        let wools = sized.hearth_layers.iter().enumerate();
        let (place, thickness) = wools
            .filter(|(_, layer)| layer.material.is_wool())
            .map(|(place, layer)| (place, layer.thickness))
            .max_by(|(_, one), (_, other)| one.value.total_cmp(&other.value))
            .unwrap();
        let sheets = (thickness.value / SHEET).round().max(1.0);
        let off = sheets * SHEET - thickness.value;
        if off.abs() <= SOFT * thickness.value {
            whole += 1;
            continue;
        }
        // More or less of it, with the wall as much narrower or wider inside.
        let mut other = sized.clone();
        other.hearth_layers[place].thickness += Length::new::<meter>(off);
        other.hearth_wall.inside_diameter -= Length::new::<meter>(2.0 * off);
        let now = assess(&sized);
        let worse = assess(&other).findings.into_iter().any(|finding| {
            let then = now.finding(finding.id).map(|then| then.verdict);
            finding.verdict > then.unwrap_or(Verdict::Good)
        });
        assert!(worse, "{across} m: {} m", thickness.value);
    }
    assert!(whole > 0, "no lining is of whole sheets");
}
