//! Only metal holds the gas.

use hearthplan::design::inputs::Material;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::review::{Verdict, assess, remedies};

fn told(design: &Design) -> (Verdict, String) {
    let assessment = assess(design);
    let finding = assessment.finding("leaks.wall").expect("always asked");
    (finding.verdict, finding.compared.text(System::Metric))
}

fn bare(design: &mut Design) {
    design
        .hearth_layers
        .retain(|layer| !layer.material.is_metal());
}

#[test]
fn a_wall_without_metal_is_a_stop_that_a_sheet_mends() {
    for design in [
        Design::default(),
        example::as_first_drawn(),
        example::as_improved(),
    ] {
        assert_eq!(told(&design).0, Verdict::Good);
    }
    let mut design = Design::default();
    bare(&mut design);
    let (verdict, words) = told(&design);
    assert_eq!(verdict, Verdict::Stop);
    assert_eq!(words, "without a layer of metal: hearth wall");
    let offered = remedies(&design, "leaks.wall");
    let change = offered.first().unwrap().change.as_ref().unwrap();
    let mended = change.apply(&design).unwrap();
    assert_eq!(told(&mended).0, Verdict::Good);
    let sheet = mended.hearth_layers.last().unwrap();
    assert_eq!(sheet.material, Material::MildSteel);
    design.lid_layers.clear();
    assert_eq!(
        told(&design).1,
        "without a layer of metal: hearth wall, lid"
    );
}

#[test]
fn whether_an_own_material_is_tight_nobody_knows() {
    let mut design = Design::default();
    bare(&mut design);
    design.hearth_layers[0].material = Material::Own1;
    let (verdict, words) = told(&design);
    assert_eq!(verdict, Verdict::CannotTell);
    assert!(words.ends_with("is not known: hearth wall"), "{words}");
}
