//! Templates of the vessel's lid.

use super::templates::cuts;
use hearthplan::design::example;
use hearthplan::design::inputs::JointKind;
use hearthplan::sizing::lid_joints::{drum_lid, lid_flange};
use hearthplan::sizing::pattern::{Pattern, Stroke, patterns};
use uom::si::f64::Length;
use uom::si::length::millimeter;

/// A lid that is bolted on is cut wider than the shell, with a hole for each bolt; that shell is drawn on it.
#[test]
fn a_bolted_lid_is_cut_with_room_for_gasket_and_bolts() {
    let design = example::as_improved();
    let flange = lid_flange(&design).unwrap();
    let entries = patterns(&design);
    let lids: Vec<&Pattern> = (entries.iter())
        .filter(|entry| entry.name.starts_with("Lid plate"))
        .map(|entry| entry.pattern.as_ref().unwrap())
        .collect();
    let radii = |pattern: &Pattern| -> Vec<f64> {
        (cuts(pattern).into_iter())
            .map(|stroke| match stroke {
                Stroke::Circle { radius, .. } => 2.0 * radius,
                _ => panic!("{stroke:?}"),
            })
            .collect()
    };
    let across = |length: Length| length.get::<millimeter>();
    let opening = across(design.body_wall.inside_diameter);
    let found = radii(lids[0]);
    let mut wanted = vec![across(flange.outside), opening];
    wanted.extend((0..flange.bolts).map(|_| across(flange.hole)));
    assert_eq!(found.len(), wanted.len());
    for (found, wanted) in found.iter().zip(wanted) {
        assert!((found - wanted).abs() < 1e-9, "{found} {wanted}");
    }
    assert!(lids[0].bounds().width() >= across(flange.bore) + 2.0 * 40.0);
    let shell = format!("{:.1} mm", across(flange.bore));
    assert!(lids[0].note.contains(&shell), "{}", lids[0].note);
    // The cladding ends at the neck and at the rim.
    let neck = 2.0 * across(design.lid_layers[0].thickness);
    let found = radii(lids[1]);
    assert!((found[0] - across(flange.bore)).abs() < 1e-9);
    assert!((found[1] - opening - neck).abs() < 1e-9);
}

/// Two circles for the lid that wood falls through, one for a lid without a hopper.
#[test]
fn the_lid_is_cut_as_a_ring_under_a_hopper() {
    let mut design = example::as_improved();
    for joint in &mut design.joints {
        joint.kind = JointKind::Welded;
    }
    let inside = design.body_wall.inside_diameter.get::<millimeter>();
    let outside = inside
        + 2.0
            * (design.body_layers.iter())
                .map(|layer| layer.thickness.get::<millimeter>())
                .sum::<f64>();
    for fitted in [true, false] {
        design.hopper.fitted = fitted;
        let entries = patterns(&design);
        let mut plates = (entries.iter()).filter(|entry| entry.name.starts_with("Lid plate"));
        let pattern = plates.next().unwrap().pattern.as_ref().unwrap();
        let radii: Vec<f64> = cuts(pattern)
            .into_iter()
            .map(|stroke| match stroke {
                Stroke::Circle { radius, .. } => *radius,
                _ => panic!("{stroke:?}"),
            })
            .collect();
        let mut wanted = vec![0.5 * outside];
        wanted.extend(fitted.then_some(0.5 * inside));
        assert_eq!(radii.len(), wanted.len());
        for (radius, wanted) in radii.iter().zip(wanted) {
            assert!((radius - wanted).abs() < 1e-9, "{radius} {wanted}");
        }
        let told = format!("{:.1} mm", 0.5 * inside);
        assert_eq!(pattern.note.contains(&told), fitted, "{}", pattern.note);
        assert!(pattern.is_plain);
    }
}

/// The lid of the filter has its template too, on which the drum is drawn: with a hole for each bolt, and no opening.
#[test]
fn the_filters_lid_is_drilled_by_a_template() {
    let mut design = example::as_improved();
    let name = "Plate: Filter lid";
    let (flange, sheet) = drum_lid(&design).unwrap();
    let entries = patterns(&design);
    let entry = entries.iter().find(|entry| entry.name == name).unwrap();
    let pattern = entry.pattern.as_ref().unwrap();
    let across = |length: Length| length.get::<millimeter>();
    let found: Vec<f64> = (cuts(pattern).into_iter())
        .map(|stroke| match stroke {
            Stroke::Circle { radius, .. } => 2.0 * radius,
            _ => panic!("{stroke:?}"),
        })
        .collect();
    let mut wanted = vec![across(flange.outside)];
    wanted.extend((0..flange.bolts).map(|_| across(flange.hole)));
    assert_eq!(found.len(), wanted.len());
    for (found, wanted) in found.iter().zip(wanted) {
        assert!((found - wanted).abs() < 1e-9, "{found} {wanted}");
    }
    let drum = format!("{:.1} mm", across(flange.bore));
    let thick = format!("{:.1} mm", across(sheet));
    let note = &pattern.note;
    assert!(note.contains(&drum) && note.contains(&thick), "{note}");
    assert!(!note.contains("bore 0"), "{note}");
    for joint in &mut design.joints {
        joint.kind = JointKind::Welded;
    }
    assert!(patterns(&design).iter().all(|entry| entry.name != name));
}
