//! What is to be bought, added up, against the parts list.

use crate::random_design::random_design;
use hearthplan::design::inputs::Material;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::paper::html;
use hearthplan::paper::sheets::all;
use hearthplan::review::assess;
use hearthplan::sizing::buying::{Amount, Form, ToBuy, to_buy};
use hearthplan::sizing::machine::layout;
use hearthplan::sizing::parts_list::{Counted, PartLine, parts_list};
use hearthplan::sizing::stock::{Stock, stock};
use std::f64::consts::PI;

fn list(design: &Design) -> (Vec<ToBuy>, Vec<PartLine>) {
    let machine = layout(design);
    let parts = parts_list(design, &machine);
    (to_buy(design, &machine, &parts), parts)
}

#[test]
fn sheet_and_tube_weigh_what_their_parts_weigh() {
    let mut held = 0;
    let designs = [example::as_improved(), example::as_first_drawn()];
    // Other parts may have a bore, or walls that meet: what is cut away is bought as well. Stages have fittings.
    let of_itself = |seed| Design {
        parts: Vec::new(),
        train: Vec::new(),
        flanges: Vec::new(),
        ..random_design(seed)
    };
    for design in designs.into_iter().chain((0..60).map(of_itself)) {
        let (bought, parts) = list(&design);
        let by_hand = |name: &String| {
            (parts.iter()).any(|line| line.name == *name && line.computed_mass.is_some())
        };
        for one in bought {
            let Some(density) = (one.material)
                .and_then(|material| design.material(material).ok())
                .map(|known| known.density.value)
            else {
                continue;
            };
            let volume = match (one.form, one.amount) {
                (Form::Sheet { thickness }, Amount::Area(area)) => thickness.value * area.value,
                (Form::SquareTube { side, wall }, Amount::Length(length)) => {
                    let hole = (side.value - 2.0 * wall.value).max(0.0);
                    (side.value.powi(2) - hole.powi(2)) * length.value
                }
                _ => continue,
            };
            // Holes weigh nothing, but their sheet is bought; stages have ends and fittings besides.
            let drilled = [
                "flange", "Grate", "door", "cover", "port", "Filter", "Cyclone", "trap",
            ];
            let plain =
                (one.parts.iter()).all(|name| !drilled.iter().any(|word| name.contains(word)));
            if !plain || one.parts.iter().any(by_hand) {
                continue;
            }
            let mass = volume * density;
            // Nozzles have no length where the fire tube is wider than its wall.
            let nothing = mass == 0.0 && one.mass.value == 0.0;
            assert!(
                nothing || (mass / one.mass.value - 1.0).abs() < 0.03,
                "{:?} {:?} {:?}: {mass} kg against {:?}",
                one.material,
                one.form,
                one.parts,
                one.mass
            );
            held += 1;
        }
    }
    assert!(held > 200, "only {held}");
}

#[test]
fn every_cut_part_is_in_it_once() {
    let design = example::as_improved();
    let machine = layout(&design);
    let (bought, parts) = list(&design);
    for line in &parts {
        let stock = stock(&design, &machine, line);
        let stood_for = line.counted == Counted::AsOtherParts
            && matches!(stock, Some(Stock::Drum { .. } | Stock::Cyclone { .. }));
        if stood_for {
            continue;
        }
        let whole = matches!(
            stock,
            None | Some(Stock::Dish { .. } | Stock::Block { .. } | Stock::Wheel { .. })
        );
        let found = (bought.iter())
            .filter(|one| one.material == line.material && one.parts.contains(&line.name))
            .count();
        assert_eq!(found > 0, !whole, "{}", line.name);
    }
    // By hand: the hopper's wall, lid and cone are of one sheet of mild steel.
    let hopper = &design.hopper;
    let sheet = (bought.iter())
        .find(|one| {
            one.material == Some(Material::MildSteel)
                && one.parts.iter().any(|name| name == "Hopper")
        })
        .unwrap();
    let Form::Sheet { thickness } = sheet.form else {
        panic!("{:?}", sheet.form);
    };
    assert!((thickness - hopper.wall_thickness).abs().value < 1e-9);
    let Amount::Area(area) = sheet.amount else {
        panic!("{:?}", sheet.amount);
    };
    let wall = PI * (hopper.diameter + hopper.wall_thickness).value * hopper.height.value;
    assert!(area.value > wall);
    let names = sheet.parts.join(", ");
    assert!(
        names.contains("Hopper lid") && names.contains("Hopper cone"),
        "{names}"
    );
}

#[test]
fn bolts_are_asked_for_by_their_metric_name() {
    let design = example::as_improved();
    let assessment = assess(&design);
    let sheets = all(&design, &assessment, System::Metric, &[]);
    let parts = sheets.iter().find(|sheet| sheet.name == "parts").unwrap();
    for system in [System::Metric, System::Inch] {
        let text = html::blocks(parts, system);
        assert!(text.contains("To buy, added up"));
        assert!(text.contains("bolts with nuts, M"), "{text}");
    }
}
