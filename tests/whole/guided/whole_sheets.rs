//! The lining of a vessel that is there is of whole sheets where that costs nothing.

use super::vessel_there::vessel_there;
use hearthplan::review::{Verdict, assess};
use hearthplan::sizing::insulation_table::{SHEET, SOFT};
use uom::si::f64::Length;
use uom::si::length::meter;

#[test]
fn the_lining_is_of_whole_sheets_where_no_answer_is_worse_for_it() {
    let mut whole = 0;
    for across in [0.457, 0.47, 0.49, 0.5, 0.52, 0.56] {
        let (_, sized) = vessel_there(0.42, 2.0, across);
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
