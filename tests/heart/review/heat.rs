//! How hot the hearth is: too cold, hotter than anything bears, and what insulation does.

use super::{choose, verdict, with};
use hearthplan::design::inputs::Material;
use hearthplan::design::quantity::System;
use hearthplan::design::{Choice, Design, example};
use hearthplan::review::{
    Assessment, Change, HOTTEST, Lever, Verdict, assess, judge_each, remedies,
};

/// Carbon burns in air of 25 °C at about 2310 K, dissociation counted (from memory); the model leaves some of that out.
#[test]
fn the_bare_hearth_of_the_first_example_is_no_hotter_than_any_fire() {
    let assessment = assess(&example::as_first_drawn());
    let shown = |of: &Assessment, name: &str| of.results().iter().any(|result| result.name == name);
    for (load, at) in [
        ("full", &assessment.heart.at.full),
        ("usual", &assessment.heart.at.usual),
    ] {
        let profile = at.solved.as_ref().unwrap().profile;
        assert!(profile.is_held());
        assert!((2300.0..2390.0).contains(&profile.core.value));
        let finding = assessment.finding(&format!("heart.{load}")).unwrap();
        let said = |symbol| {
            let mut values = finding.working.iter().flat_map(|step| &step.values);
            values.any(|(each, ..)| *each == symbol)
        };
        assert!(said("T_max") && said("n"), "{load}");
        assert!(!shown(&assessment, &format!("heart.core_{load}")));
        assert!(shown(&assessment, &format!("heart.wall_{load}")));
    }
    let improved = assess(&example::as_improved());
    assert!(shown(&improved, "heart.core_full"));
}

#[test]
fn insulation_mends_the_bare_hearth() {
    // The vessel of the first drawing is there and measured: nothing can be put inside it.
    let there = example::as_first_drawn();
    let mut free = there.clone();
    free.real_vessel.measured = false;
    for (first, place) in [(there, 1), (free, 0)] {
        let found = remedies(&first, "heart.full");
        let layer = found
            .iter()
            .find(|remedy| {
                matches!(
                    remedy.lever,
                    Lever::NewItem {
                        list: "hearth_layers",
                        ..
                    }
                )
            })
            .and_then(|remedy| remedy.change.clone())
            .unwrap();
        assert!(matches!(layer, Change::Insert { index, .. } if index == place));
        let after = assess(&layer.apply(&first).unwrap());
        assert_eq!(verdict(&after, "heart.full"), Verdict::Good);
    }
}

#[test]
fn what_fails_is_what_is_named() {
    let why = |design: &Design, id: &str| assess(design).finding(id).unwrap().why;
    let wet = with(example::as_improved(), &[("fuel.moisture", 0.24)]);
    for id in ["heart.usual", "heart.idle", "heart.turndown"] {
        let why = why(&wet, id);
        assert!(
            why.contains("the gas is weak") && !why.contains("rim"),
            "{id}: {why}"
        );
    }
    let cold = with(
        example::as_improved(),
        &[("limits.hearth_temperature", 1600.0)],
    );
    let why_cold = why(&cold, "heart.full");
    assert!(
        why_cold.contains("tar gets through") && !why_cold.contains("weak"),
        "{why_cold}"
    );
    // In the first sketch both fail.
    let both = why(&example::as_first_drawn(), "heart.full");
    assert!(both.contains("weak gas") && both.contains("rim"), "{both}");
}

#[test]
fn a_hearth_hotter_than_anything_bears_is_told() {
    let bears = Material::OPTIONS.iter().filter_map(|option| {
        let design = Design::default();
        let material = Material::from_name(option.name)?;
        Some(design.material(material).ok()?.limit.value)
    });
    assert_eq!(bears.fold(0.0, f64::max), HOTTEST);
    // Charcoal has little smoke to cool it, and a wall that holds its heat.
    let hot = choose(example::as_improved(), "fuel.kind", "charcoal");
    let assessment = assess(&hot);
    let mean = assessment
        .heart
        .at
        .full
        .solved
        .as_ref()
        .unwrap()
        .profile
        .mean;
    assert!(mean.value > HOTTEST, "{mean:?}");
    for id in ["heart.full", "heart.usual", "heart.idle"] {
        let finding = assessment.finding(id).unwrap();
        assert_eq!(finding.verdict, Verdict::Watch, "{id}");
        assert!(finding.margin.unwrap() < 0.0, "{id}");
        assert!(finding.why.contains("slag"), "{}", finding.why);
        // Wetter wood would cool it, and is no advice.
        let moisture = Lever::input("fuel.moisture");
        assert!(!finding.levers.contains(&moisture), "{id}");
    }
    // Weak gas beside it does not make it a fire that is just hot enough.
    let mut weak = hot.clone();
    weak.limits.gas_heat_watch *= 1.5;
    let weak = assess(&weak);
    let finding = weak.finding("heart.full").unwrap();
    assert!(
        finding.why.contains("slag") && finding.why.contains("weak"),
        "{}",
        finding.why
    );
    // No wall of steel is thick enough where it melts.
    let wall = assessment.finding("hearth.wall").unwrap();
    assert_eq!(
        wall.verdict,
        Verdict::Stop,
        "{}",
        wall.compared.text(System::Metric)
    );
    assert!(
        !wall
            .levers
            .contains(&Lever::input("hearth.steel_thickness"))
    );
    let layers = assessment.finding("warmth.layers_hearth").unwrap();
    assert_eq!(layers.verdict, Verdict::Stop);
    let why = assessment.finding("heart.full").unwrap().why;
    assert!(why.contains(layers.title), "{why}");
    // A hearth of wood stays below.
    let wood = assess(&example::as_improved());
    let told = wood.finding("heart.full").unwrap();
    assert_eq!(told.verdict, Verdict::Good);
    let told = told.compared.text(System::Metric);
    assert!(told.ends_with(", wanted 1093 °C to 1400 °C"), "{told}");
}

#[test]
fn each_of_the_three_numbers_is_judged_by_itself() {
    let bare = example::as_first_drawn();
    let assessment = assess(&bare);
    let solved = assessment.heart.at.full.solved.as_ref().unwrap();
    let each = judge_each(&bare, solved);
    let whole = assessment.finding("heart.full").unwrap().verdict;
    assert_eq!(each.iter().max(), Some(&whole));
    assert!(
        each.iter().all(|verdict| *verdict != Verdict::Good),
        "{each:?}"
    );
    let mended = example::as_improved();
    let assessment = assess(&mended);
    let solved = assessment.heart.at.full.solved.as_ref().unwrap();
    assert_eq!(judge_each(&mended, solved), [Verdict::Good; 3]);
}

#[test]
fn with_and_without_insulation() {
    let heart = assess(&example::as_improved()).heart;
    let now = heart.at.usual.solved.as_ref().unwrap().gas;
    let more = heart.one_more_layer().unwrap().solved.as_ref().unwrap().gas;
    assert!(more.lower_heating_value > now.lower_heating_value);
    let bare = heart.without_insulation().unwrap();
    assert!(
        bare.solved
            .as_ref()
            .is_ok_and(|bare| bare.gas.lower_heating_value < 0.8 * now.lower_heating_value)
    );
    assert!(
        assess(&example::as_first_drawn())
            .heart
            .without_insulation()
            .is_none()
    );
}
