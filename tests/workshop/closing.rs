//! What closes the vessel inside and on top: rings and plates, the neck of the lid and flanges.

use super::needed::{sheet, with_all};
use hearthplan::design::inputs::{CoolerType, StageKind};
use hearthplan::design::{Design, Value, example};
use hearthplan::review::guided::complete;
use hearthplan::sizing::build_order::{Besides, besides, order};
use hearthplan::sizing::hearth_ledge::{Carried, liner_plate, ring_around_tube};
use uom::si::f64::Length;

fn mm(value: f64) -> Length {
    Length::new::<uom::si::length::millimeter>(value)
}

fn work(design: &Design) -> Vec<Besides> {
    besides(design, &order(design).expect("an order"))
}

fn is_told(design: &Design, on: &str) -> bool {
    work(design).iter().any(|one| one.on == on)
}

/// Between fire tube and wall a ring closes the gap; the plates of a cooler are as wide as its tubes need.
#[test]
fn ring_and_tube_plates_are_told_with_their_sizes() {
    let mut design = with_all();
    design.hearth.nozzle_ring_diameter = mm(268.0);
    design.hearth.steel_thickness = mm(5.0);
    design.hearth_wall.inside_diameter = mm(385.0);
    design.body_wall.inside_diameter = mm(415.0);
    let ring = ring_around_tube(&design).expect("a gap of 53.5 mm");
    assert!((ring.bore - mm(278.0)).value.abs() < 1e-9);
    // The body is 15 mm wider on each side, and the ring lies 10 mm over the top of the wall there.
    assert!((ring.outside - mm(405.0)).value.abs() < 1e-9);
    let parts = sheet(&design, "parts");
    assert!(
        parts.contains("405 mm outside, 278 mm bore")
            && parts.contains("closes the 53.5 mm between tube and wall"),
        "{parts}"
    );
    let ring = "Ring around the fire tube";
    assert!(is_told(&design, ring));
    design.hearth_wall.inside_diameter = mm(281.0);
    assert!(!is_told(&design, ring) && !sheet(&design, "parts").contains(ring));
    let cooler = (design.train.iter())
        .position(|stage| stage.kind == StageKind::Cooler)
        .expect("a cooler");
    design.train[cooler].tubes = 7;
    // Seven tubes of 20 mm stand 30 mm apart: each has √3/2 · 30² = 779.4 mm², a circle of 83.3 mm, and 30 mm around it.
    (
        design.train[cooler].tube_bore,
        design.train[cooler].tube_wall,
    ) = (mm(18.0), mm(1.0));
    assert!(is_told(&design, "Tube cooler, 7 tubes"));
    let parts = sheet(&design, "parts");
    assert!(
        parts.contains("at least 113 mm across, each drilled for 7 tubes of 20 mm outside, 30 mm"),
        "{parts}"
    );
    design.train[cooler].cooling = CoolerType::FinnedFan;
    assert!(!sheet(&design, "parts").contains("Tube plates"));
}

/// The liner of the body stands beyond the castable, over the blanket: a plate carries it, whatever engine the design was
/// sized for.
#[test]
fn the_liner_of_a_sized_body_stands_on_a_plate_that_the_castable_bears() {
    for power in [1500.0, 5000.0, 18_000.0] {
        let mut start = example::to_start_from();
        start
            .set("engine.wanted_power", Value::Number(power))
            .expect("in range");
        let design = complete(&start, &[]);
        let plate = liner_plate(&design).expect("a liner over blanket");
        let liner = design.body_wall.inside_diameter + 2.0 * design.body_layers[0].thickness;
        assert_eq!(plate.ring.outside, liner);
        assert_eq!(plate.ring.bore, design.hearth_wall.inside_diameter);
        let castable = plate.ring.bore + 2.0 * design.hearth_layers[0].thickness;
        let Carried::ByTheWall { firm, stands_out } = plate.carried else {
            panic!("{plate:?}");
        };
        assert_eq!(firm, castable);
        assert!((stands_out - 0.5 * (liner - castable)).value.abs() < 1e-12);
        // It is no wider than the liner, so that wool still fits beside it, and the ring of the fire tube lies on it.
        let ring = ring_around_tube(&design).expect("a gap");
        assert!(ring.outside > plate.ring.bore && ring.outside < design.body_wall.inside_diameter);
        let parts = sheet(&design, "parts");
        assert!(
            parts.contains("Plate under the liner of the body"),
            "{parts}"
        );
        assert!(is_told(&design, "Plate under the liner of the body"));
    }
}

#[test]
fn without_firm_lining_inside_the_plate_reaches_to_the_shell() {
    let mut design = example::as_improved();
    let plate = "Plate under the liner of the body";
    design.hearth_layers.remove(0);
    let found = liner_plate(&design).expect("a liner over blanket");
    assert_eq!(found.carried, Carried::ByTheShell);
    let shell = design.hearth_wall.inside_diameter + 2.0 * design.hearth_layers[0].thickness;
    assert_eq!(found.ring.outside, shell);
    assert!(sheet(&design, "parts").contains("set it on brackets at the shell"));
    // A body without a liner, and one that is lined already, need none.
    let mut bare = design.clone();
    bare.body_layers.remove(0);
    assert_eq!(liner_plate(&bare), None);
    assert!(!is_told(&bare, plate) && !sheet(&bare, "parts").contains(plate));
    design.real_vessel.lined = true;
    assert_eq!(liner_plate(&design), None);
}
