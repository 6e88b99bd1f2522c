//! Remedies are offered in what can be bought, and in what the display of an instrument shows.

use hearthplan::design::inputs::{Layer, Material};
use hearthplan::design::quantity::System;
use hearthplan::design::{Choice as _, Design, Value, example};
use hearthplan::review::{Change, Lever, Verdict, assess, remedies};
use hearthplan::sizing::insulation_table::sold;
use uom::si::f64::Length;
use uom::si::length::millimeter;

fn improved_but(path: &str, text: &str) -> Design {
    let mut design = example::as_improved();
    let value = design
        .input(path)
        .unwrap()
        .read(text, System::Metric)
        .unwrap();
    design.set(path, value).unwrap();
    design
}

/// The numbers offered, with the lever of each.
fn offered(design: &Design, id: &str) -> Vec<(Lever, f64)> {
    let found = remedies(design, id).into_iter();
    found
        .filter_map(|remedy| match remedy.value {
            Some(Value::Number(number)) => Some((remedy.lever, number)),
            _ => None,
        })
        .collect()
}

#[test]
fn the_coarsest_thermometer_that_does_is_offered() {
    let design = improved_but("leak_test.thermometer_step", "1 K");
    let found = offered(&design, "leaks.plan");
    let step = Lever::input("leak_test.thermometer_step");
    let (_, kelvin) = found.iter().find(|(lever, _)| *lever == step).unwrap();
    assert!((kelvin - 0.5).abs() < 1e-12, "{found:?}");
}

#[test]
fn square_tube_is_offered_in_whole_five_millimetres() {
    let design = improved_but("base.frame_side", "12 mm");
    let found = offered(&design, "standing.frame_bears");
    let side = Lever::input("base.frame_side");
    let (_, metres) = found.iter().find(|(lever, _)| *lever == side).unwrap();
    let fives = metres / 0.005;
    assert!((fives - fives.round()).abs() < 1e-9, "{found:?}");
}

#[test]
fn insulation_is_offered_no_thinner_than_it_is_sold() {
    let steel = |thickness| Layer {
        material: Material::MildSteel,
        thickness: Length::new::<millimeter>(thickness),
    };
    let mut bare = example::as_improved();
    bare.lid_layers = vec![steel(4.0)];
    let thin = improved_but("hearth_layers.1.thickness", "30 mm");
    let mut thicknesses = 0;
    for design in [bare, thin] {
        let failing: Vec<&str> = (assess(&design).findings.iter())
            .filter(|finding| finding.verdict != Verdict::Good)
            .map(|finding| finding.id)
            .collect();
        for id in failing {
            for remedy in remedies(&design, id) {
                let of_layer = match &remedy.change {
                    Some(Change::Set { path, .. }) => path.ends_with("_layers.1.thickness"),
                    Some(Change::Insert { .. }) => remedy.input.name == "thickness",
                    _ => false,
                };
                if !of_layer {
                    continue;
                }
                let Some(Value::Number(metres)) = remedy.value else {
                    panic!("{id}: {remedy:?}");
                };
                let list = match remedy.change.as_ref() {
                    Some(Change::Set { path, .. }) => path.replace(".thickness", ".material"),
                    _ => String::new(),
                };
                let material = match (&remedy.lever, design.get(&list)) {
                    (_, Some(Value::Choice(name))) => name,
                    (Lever::NewItem { fields, .. }, _) => {
                        let of = |(name, value): &(&str, Value)| match value {
                            Value::Choice(choice) if *name == "material" => Some(choice.clone()),
                            _ => None,
                        };
                        fields.iter().find_map(of).unwrap()
                    }
                    _ => panic!("{id}: {remedy:?}"),
                };
                let material = Material::from_name(&material).unwrap();
                assert!(sold(material).contains(&metres), "{id}: {metres}");
                thicknesses += 1;
            }
        }
    }
    assert!(thicknesses > 1, "{thicknesses}");
}

/// The thicknesses offered for the layer of the hearth of this material, 30 mm thick.
fn lined_with(material: Material) -> Vec<f64> {
    let mut design = improved_but("hearth_layers.1.thickness", "30 mm");
    design.hearth_layers[1].material = material;
    let lever = Lever::input("hearth_layers.1.thickness");
    let failing: Vec<&str> = (assess(&design).findings.iter())
        .filter(|finding| finding.levers.contains(&lever))
        .map(|finding| finding.id)
        .collect();
    (failing.iter())
        .flat_map(|id| offered(&design, id))
        .filter(|(one, _)| *one == lever)
        .map(|(_, metres)| metres)
        .collect()
}

#[test]
fn blanket_is_offered_in_layers_and_what_is_poured_in_fives() {
    let blanket = lined_with(Material::CeramicBlanket1260);
    assert!(!blanket.is_empty());
    for metres in blanket {
        assert!(
            sold(Material::CeramicBlanket1260).contains(&metres),
            "{metres}"
        );
        assert!(metres != 0.030);
    }
    let poured = lined_with(Material::Perlite);
    assert!(!poured.is_empty());
    for metres in poured {
        let fives = metres / 0.005;
        assert!((fives - fives.round()).abs() < 1e-9, "{metres}");
    }
}

/// What equals a mark but for the last digits of the sums is as good as the mark.
#[test]
fn pieces_exactly_as_small_as_wanted_are_small_enough() {
    for (throat, piece) in [(75.0, 50.0), (36.0, 24.0), (51.0, 34.0), (72.0, 48.0)] {
        let mut design = example::as_improved();
        design.hearth.throat_diameter = Length::new::<millimeter>(throat);
        design.fuel.piece_size = Length::new::<millimeter>(piece);
        let verdict = |design: &Design| assess(design).finding("heart.pieces").unwrap().verdict;
        assert_eq!(verdict(&design), Verdict::Good, "{throat} {piece}");
        design.fuel.piece_size = Length::new::<millimeter>(piece + 0.1);
        assert_eq!(verdict(&design), Verdict::Watch, "{throat} {piece}");
    }
}
