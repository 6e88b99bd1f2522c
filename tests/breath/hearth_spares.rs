//! What nozzle tips and grate are made of, and whether that lasts.

use crate::mended::every_remedy_passes;
use hearthplan::design::inputs::Material;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Verdict, assess};
use hearthplan::sizing::machine::layout;
use hearthplan::sizing::parts_list::parts_list;

fn with(changes: &[(&str, Value)]) -> Design {
    let mut design = example::as_improved();
    for (path, value) in changes {
        design.set(path, value.clone()).expect("in range");
    }
    design
}

fn choice(name: &str) -> Value {
    Value::Choice(name.to_string())
}

fn verdict(design: &Design, id: &str) -> Verdict {
    assess(design).finding(id).expect("asked").verdict
}

#[test]
fn nozzle_tips_and_grate_are_held_against_their_heat() {
    let of = |nozzles: &str, grate: &str, comes_out: bool| {
        with(&[
            ("hearth.nozzle_material", choice(nozzles)),
            ("grate.material", choice(grate)),
            ("hearth.comes_out", Value::Flag(comes_out)),
        ])
    };
    // The rim is 67 K above what stainless 310 bears: a spare part, as long as it comes out.
    for (comes_out, wanted) in [(true, Verdict::Good), (false, Verdict::Watch)] {
        let design = of("stainless_310", "stainless_304", comes_out);
        assert_eq!(verdict(&design, "hearth.tips_last"), wanted);
        assert_eq!(verdict(&design, "hearth.grate_lasts"), Verdict::Good);
    }
    let mild = of("mild_steel", "mild_steel", true);
    let assessment = assess(&mild);
    let tips = assessment.finding("hearth.tips_last").unwrap();
    assert_eq!(tips.verdict, Verdict::Stop);
    let tube = assessment.finding("hearth.lasts").unwrap();
    assert_eq!(tips.working[0].result, tube.working[0].result);
    // No air is left at the grate for it to burn in.
    let grate = assessment.finding("hearth.grate_lasts").unwrap();
    assert_eq!(grate.verdict, Verdict::Watch);
    let gas = &assessment.heart.at.full.solved.as_ref().unwrap().gas;
    assert_eq!(grate.working[0].result.si, gas.exit_temperature.value);
    for finding in [tips, grate] {
        assert!(finding.caution.is_some(), "{}", finding.id);
        every_remedy_passes(&mild, finding.id, 1);
    }
    let straight = with(&[("hearth.kind", choice("straight"))]);
    assert!(assess(&straight).finding("hearth.tips_last").is_none());
}

#[test]
fn list_and_weight_follow_the_steel_of_nozzles_and_grate() {
    let steels = |nozzles: &str, grate: &str| {
        let design = with(&[
            ("hearth.nozzle_material", choice(nozzles)),
            ("grate.material", choice(grate)),
        ]);
        let lines = parts_list(&design, &layout(&design));
        ["Nozzles", "Grate"].map(|name| {
            let line = lines.iter().find(|line| line.name == name).unwrap();
            (line.material, line.mass.value)
        })
    };
    let [[nozzles, grate], [own_nozzles, own_grate]] = [
        ("mild_steel", "mild_steel"),
        ("stainless_310", "stainless_304"),
    ]
    .map(|(nozzles, grate)| steels(nozzles, grate));
    assert_eq!(own_nozzles.0, Some(Material::Stainless310));
    assert_eq!(own_grate.0, Some(Material::Stainless304));
    assert!((own_nozzles.1 / nozzles.1 - 7900.0 / 7850.0).abs() < 1e-9);
    assert!((own_grate.1 / grate.1 - 7930.0 / 7850.0).abs() < 1e-9);
}
