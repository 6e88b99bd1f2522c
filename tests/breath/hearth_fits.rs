//! What the hearth must go into, rest on and be made of.

use crate::mended::every_remedy_passes;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Verdict, assess, remedies};
use hearthplan::sizing::machine::layout;
use hearthplan::sizing::scaling::time_to_scale;
use uom::si::f64::{Length, ThermodynamicTemperature};
use uom::si::length::millimeter;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::hour;

fn with(changes: &[(&str, Value)]) -> Design {
    let mut design = example::as_improved();
    for (path, value) in changes {
        design.set(path, value.clone()).unwrap();
    }
    design
}

fn number(value: f64) -> Value {
    Value::Number(value)
}

fn choice(name: &str) -> Value {
    Value::Choice(name.to_string())
}

fn verdict(design: &Design, id: &str) -> Verdict {
    assess(design).finding(id).unwrap().verdict
}

#[test]
fn a_fire_tube_wider_than_its_wall_is_a_stop() {
    // 262 mm inside and twice 5 mm of steel; a few millimetres more are left for its growth.
    for (wall, wanted) in [
        (0.280, Verdict::Good),
        (0.2719, Verdict::Stop),
        (0.15, Verdict::Stop),
    ] {
        let design = with(&[("hearth_wall.inside_diameter", number(wall))]);
        assert_eq!(verdict(&design, "hearth.inside"), wanted, "{wall}");
    }
    // Where the cone's foot is the widest, it counts.
    let wide = with(&[("hearth.below_throat_diameter", number(0.272))]);
    assert_eq!(verdict(&wide, "hearth.inside"), Verdict::Stop);
    every_remedy_passes(&wide, "hearth.inside", 1);
    let straight = with(&[
        ("hearth.kind", choice("straight")),
        ("hearth.tube_diameter", number(0.271)),
    ]);
    assert_eq!(verdict(&straight, "hearth.inside"), Verdict::Stop);
}

/// Stainless steel grows by 19 millionths for each kelvin, castable by 6.
#[test]
fn a_fire_tube_that_binds_when_it_is_hot_is_a_stop() {
    let outside: f64 = 0.272;
    let found = |wall: f64| {
        let design = with(&[("hearth_wall.inside_diameter", number(wall))]);
        let assessment = assess(&design);
        let finding = assessment.finding("hearth.inside").unwrap().clone();
        let warmer = finding.working[1].values[2].2.si - design.site.air_temperature.value;
        let left = wall * (1.0 + 6e-6 * warmer) - outside * (1.0 + 19e-6 * warmer);
        let told = finding.working.last().unwrap().result.si;
        assert!(
            warmer > 900.0 && (told - left).abs() < 1e-9,
            "{told} {left}"
        );
        (
            design,
            finding.verdict,
            finding.compared.text(System::Metric),
        )
    };
    for (wall, wanted, words) in [
        (0.2745, Verdict::Stop, "it binds"),
        (0.277, Verdict::Watch, "across, wanted 2 mm"),
        (0.280, Verdict::Good, "across, wanted 2 mm"),
    ] {
        let (design, verdict, told) = found(wall);
        assert_eq!(verdict, wanted, "{told}");
        assert!(told.contains(words), "{told}");
        if wanted == Verdict::Stop {
            every_remedy_passes(&design, "hearth.inside", 2);
        }
    }
    // A blanket yields; a hearth of castable grows no more than its wall.
    let soft = with(&[
        ("hearth_wall.inside_diameter", number(0.2745)),
        ("hearth_layers.0.material", choice("ceramic_blanket_1260")),
    ]);
    assert_eq!(verdict(&soft, "hearth.inside"), Verdict::Good);
    let cast = with(&[
        ("hearth_wall.inside_diameter", number(0.2745)),
        ("hearth.material", choice("dense_castable")),
    ]);
    assert_eq!(verdict(&cast, "hearth.inside"), Verdict::Good);
}

/// How far a hearth grows that has no solution nobody knows.
#[test]
fn growth_is_not_told_where_the_hearth_has_no_solution() {
    let starved = with(&[
        ("fuel.kind", choice("charcoal")),
        ("gas_making.air_rule", choice("air_held")),
        ("gas_making.equivalence_ratio", number(0.85)),
    ]);
    let assessment = assess(&starved);
    assert!(assessment.heart.at.full.solved.is_err());
    let finding = assessment.finding("hearth.inside").unwrap();
    assert_eq!(finding.verdict, Verdict::CannotTell);
    let told = finding.compared.text(System::Metric);
    assert!(told.contains("Whether that holds at every load"), "{told}");
    // Nothing has to be told of a wall that gives way.
    let mut soft = starved.clone();
    let blanket = choice("ceramic_blanket_1260");
    soft.set("hearth_layers.0.material", blanket).unwrap();
    assert_eq!(verdict(&soft, "hearth.inside"), Verdict::Good);
}

#[test]
fn the_grate_must_hold_the_char_and_let_gas_through() {
    let said = |changes: &[(&str, Value)]| {
        let assessment = assess(&with(changes));
        let finding = assessment.finding("hearth.grate").unwrap().clone();
        (finding.verdict, finding.compared.text(Default::default()))
    };
    assert_eq!(said(&[]).0, Verdict::Good);
    let (verdict, words) = said(&[("grate.diameter", number(0.1))]);
    assert_eq!(verdict, Verdict::Stop);
    assert!(words.contains("past its edge"), "{words}");
    let (verdict, words) = said(&[("grate.hole", number(0.03)), ("grate.pitch", number(0.04))]);
    assert_eq!(verdict, Verdict::Watch);
    assert!(words.contains("falls through"), "{words}");
    let (verdict, words) = said(&[("grate.hole", number(0.005)), ("grate.pitch", number(0.1))]);
    assert_eq!(verdict, Verdict::Stop);
    assert!(words.contains("is open"), "{words}");
    // Holes that run into each other are no grate.
    let (verdict, _) = said(&[("grate.hole", number(0.02)), ("grate.pitch", number(0.018))]);
    assert_eq!(verdict, Verdict::CannotTell);
    // Only holes under the char count: 7 of 12 mm lie within 75 mm at a pitch of 60 mm.
    let few = with(&[
        ("grate.pitch", number(0.06)),
        ("hearth.below_throat_diameter", number(0.15)),
    ]);
    let assessment = assess(&few);
    let step = &assessment.finding("hearth.grate").unwrap().working[0];
    let counted = step.values.iter().find(|(symbol, _, _)| *symbol == "n");
    assert!((counted.unwrap().2.si - 7.0).abs() < 1e-9);
    assert!((step.result.si - 7.0 * 1.130_973e-4).abs() < 1e-9);
}

#[test]
fn what_is_far_too_weak_for_the_fire_burns_away_even_if_it_comes_out() {
    let of = |material: &str, comes_out: bool| {
        with(&[
            ("hearth.material", choice(material)),
            ("hearth.comes_out", Value::Flag(comes_out)),
        ])
    };
    for comes_out in [true, false] {
        let mild = of("mild_steel", comes_out);
        let assessment = assess(&mild);
        let finding = assessment.finding("hearth.lasts").unwrap();
        assert_eq!(finding.verdict, Verdict::Stop, "{comes_out}");
        assert!(finding.margin.unwrap() < -0.25 && finding.caution.is_some());
        let words = finding.compared.text(Default::default());
        assert!(words.contains("burns away"), "{words}");
    }
    every_remedy_passes(&of("mild_steel", true), "hearth.lasts", 1);
    // A little above its limit, what comes out is changed when it is worn: both numbers, what they mean and the caution
    // are told all the same.
    let worn = assess(&of("stainless_310", true));
    let finding = worn.finding("hearth.lasts").unwrap();
    assert_eq!(finding.verdict, Verdict::Good);
    let words = finding.compared.text(Default::default());
    for told in ["1100 °C", " K above it", "a spare part", "change it once"] {
        assert!(words.contains(told), "{told}: {words}");
    }
    assert!(finding.caution.is_some());
    assert_eq!(
        verdict(&of("stainless_310", false), "hearth.lasts"),
        Verdict::Watch
    );
}

#[test]
fn what_the_hearth_is_made_of_is_held_against_its_rim() {
    let mild = with(&[
        ("hearth.material", choice("mild_steel")),
        ("hearth.comes_out", Value::Flag(false)),
    ]);
    let assessment = assess(&mild);
    let finding = assessment.finding("hearth.lasts").unwrap();
    let rim = finding.working[0].result.si;
    let hottest = [
        &assessment.heart.at.full,
        &assessment.heart.at.usual,
        &assessment.heart.at.idle,
    ]
    .map(|at| at.supply.wall_temperature.value)
    .into_iter()
    .fold(0.0, f64::max);
    assert!((rim - hottest).abs() < 1e-9 && rim > 550.0 + 273.15);
    // Cast refractory bears it, but not five millimetres of it.
    let cast = |thickness: f64| {
        with(&[
            ("hearth.material", choice("dense_castable")),
            ("hearth.comes_out", Value::Flag(false)),
            ("hearth.steel_thickness", number(thickness)),
        ])
    };
    assert_eq!(verdict(&cast(0.005), "hearth.lasts"), Verdict::Watch);
    assert_eq!(verdict(&cast(0.020), "hearth.lasts"), Verdict::Good);
}

#[test]
fn thin_steel_in_the_fire_is_told() {
    // The rim of the improved example is hotter than any steel bears: 3 mm are wanted, and half of it at the least.
    let wall = |thickness: f64| with(&[("hearth.steel_thickness", number(thickness))]);
    for (thickness, wanted) in [
        (0.003, Verdict::Good),
        (0.002, Verdict::Watch),
        (0.0014, Verdict::Stop),
        (0.0005, Verdict::Stop),
    ] {
        assert_eq!(
            verdict(&wall(thickness), "hearth.wall"),
            wanted,
            "{thickness}"
        );
    }
    every_remedy_passes(&wall(0.0005), "hearth.wall", 1);
    // 612 °C, and stainless 304 bears 870 °C: 2 mm are enough.
    let cooler = |thickness: f64| {
        let mut design = example::as_first_drawn();
        design
            .set("hearth.material", choice("stainless_304"))
            .unwrap();
        (design.set("hearth.steel_thickness", number(thickness))).unwrap();
        design
    };
    for (thickness, wanted) in [
        (0.002, Verdict::Good),
        (0.0015, Verdict::Watch),
        (0.0009, Verdict::Stop),
    ] {
        assert_eq!(
            verdict(&cooler(thickness), "hearth.wall"),
            wanted,
            "{thickness}"
        );
    }
    // What is cast has a mark of its own.
    let cast = with(&[("hearth.material", choice("dense_castable"))]);
    assert!(assess(&cast).finding("hearth.wall").is_none());
}

#[test]
fn scale_takes_the_square_of_the_wall_and_heat_makes_it_faster() {
    let hours = |millimetres: f64, celsius: f64| {
        let wall = Length::new::<millimeter>(millimetres);
        let heat = ThermodynamicTemperature::new::<degree_celsius>(celsius);
        time_to_scale(wall, heat).map(|time| time.get::<hour>())
    };
    // √(6.1 g²/(cm⁴ s) · e^(−20 330 / 1273.15)) = 0.8416 mg/(cm² √s); 1 mm of steel binds 224.9 mg/cm² of oxygen.
    let by_hand = (224.9_f64 / 0.8416).powi(2) / 3600.0;
    let found = hours(1.0, 1000.0).unwrap();
    assert!((found / by_hand - 1.0).abs() < 2e-3, "{found} {by_hand}");
    assert!((hours(2.0, 1000.0).unwrap() / found - 4.0).abs() < 1e-9);
    assert!(hours(1.0, 1100.0).unwrap() < 0.5 * found);
    assert!(hours(1.0, 650.0).is_none() && hours(1.0, f64::NAN).is_none());
    // The reader of a thin tube of mild steel is told the hours.
    let thin = with(&[
        ("hearth.material", choice("mild_steel")),
        ("hearth.steel_thickness", number(0.001)),
    ]);
    let assessment = assess(&thin);
    let finding = assessment.finding("hearth.wall").unwrap();
    let told = finding.compared.text(Default::default());
    assert!(told.contains("would turn it all to scale in"), "{told}");
    assert_eq!(finding.working.len(), 2);
}

#[test]
fn what_the_hearth_is_made_of_weighs_as_such() {
    let tube = |material: &str| {
        let design = with(&[("hearth.material", choice(material))]);
        let machine = layout(&design);
        let solid = machine
            .solids
            .iter()
            .find(|solid| solid.piece.label(&design) == "Fire tube");
        solid.unwrap().mass.value
    };
    let ratio = tube("dense_castable") / tube("mild_steel");
    assert!((0.2..0.4).contains(&ratio), "{ratio}");
}

#[test]
fn wood_must_slide_through_the_body_too() {
    let narrow = with(&[("body_wall.inside_diameter", number(0.06))]);
    assert_eq!(verdict(&narrow, "heart.pieces"), Verdict::Stop);
    let offered = remedies(&narrow, "heart.pieces");
    assert!(
        offered
            .iter()
            .any(|remedy| remedy.input.name == "inside_diameter")
    );
}

#[test]
fn a_throat_that_is_no_throat_is_a_stop_and_has_no_template() {
    use hearthplan::sizing::pattern::patterns;
    let of = |throat: f64, foot: f64| {
        with(&[
            ("hearth.throat_diameter", number(throat)),
            ("hearth.below_throat_diameter", number(foot)),
        ])
    };
    assert_eq!(verdict(&of(0.100, 0.2), "hearth.throat"), Verdict::Good);
    for (throat, foot, words, cone) in [
        (0.500, 0.55, "that is no throat", "Cone above the throat"),
        (0.268, 0.268, "that is no throat", "Cone above the throat"),
        (0.200, 0.15, "narrower still", "Cone below the throat"),
    ] {
        let design = of(throat, foot);
        let assessment = assess(&design);
        let finding = assessment.finding("hearth.throat").unwrap();
        assert_eq!(finding.verdict, Verdict::Stop, "{throat}");
        let told = finding.compared.text(Default::default());
        assert!(told.contains(words), "{told}");
        let refused = (patterns(&design).into_iter())
            .find(|entry| entry.name == cone)
            .unwrap();
        assert!(refused.pattern.is_err(), "{cone}");
    }
    every_remedy_passes(&of(0.200, 0.15), "hearth.throat", 1);
    // What is widest must go into the wall, even if that is what should be narrowest.
    let wide = assess(&of(0.500, 0.15));
    let inside = wide.finding("hearth.inside").unwrap();
    let widest = inside.working[0].result.si;
    assert!((widest - 0.510).abs() < 1e-9, "{widest}");
    // A straight tube has none.
    let straight = with(&[("hearth.kind", choice("straight"))]);
    assert!(assess(&straight).finding("hearth.throat").is_none());
}

#[test]
fn a_fire_tube_that_goes_on_to_its_throat_leaves_no_cone() {
    use hearthplan::sizing::pattern::patterns;
    let of = |straight: f64| with(&[("hearth.straight_below_nozzles", number(straight))]);
    // The throat lies 88 mm below the nozzles.
    assert_eq!(verdict(&of(0.087), "hearth.throat"), Verdict::Good);
    for straight in [0.088, 0.1, 0.2] {
        let design = of(straight);
        let assessment = assess(&design);
        let finding = assessment.finding("hearth.throat").unwrap();
        assert_eq!(finding.verdict, Verdict::Stop, "{straight}");
        assert!(finding.margin.unwrap() <= 0.0, "{straight}");
        let told = finding.compared.text(Default::default());
        assert!(told.contains("no cone is left"), "{told}");
        let cone = (patterns(&design).into_iter())
            .find(|entry| entry.name == "Cone above the throat")
            .unwrap();
        let refused = cone.pattern.unwrap_err().to_string();
        assert!(
            refused.contains("straight on down to the throat"),
            "{refused}"
        );
    }
    every_remedy_passes(&of(0.1), "hearth.throat", 2);
}

#[test]
fn a_range_without_loads_is_told_in_words() {
    for throat in [0.3, 0.5] {
        let wide = with(&[("hearth.throat_diameter", number(throat))]);
        let assessment = assess(&wide);
        let range = assessment.heart.range.as_ref().unwrap();
        assert!(range.is_empty() && range.lowest().unwrap().value > 1.0);
        let finding = assessment.finding("heart.turndown").unwrap();
        assert!(finding.verdict >= Verdict::Watch && finding.margin.unwrap() < 0.0);
        let told = finding.compared.text(Default::default());
        assert!(told.starts_with("holds at no load"), "{told}");
        let shown = assessment.results().into_iter();
        for result in shown.filter(|result| result.name.starts_with("heart.lowest")) {
            assert!(result.measure.si <= 1.0, "{}", result.name);
        }
    }
    // Nozzles that are overrun before the hearth is hot leave nothing either, even if the lowest load is hot enough.
    let tight = with(&[("hearth.nozzle_bore", number(0.002))]);
    let assessment = assess(&tight);
    assert!(assessment.heart.range.as_ref().unwrap().is_empty());
    let finding = assessment.finding("heart.turndown").unwrap();
    assert!(finding.verdict >= Verdict::Watch);
    let told = finding.compared.text(Default::default());
    assert!(told.contains("overrun before"), "{told}");
}

#[test]
fn a_grate_wider_than_its_vessel_does_not_go_in() {
    use hearthplan::sizing::pattern::patterns;
    let wall = example::as_improved().hearth_wall.inside_diameter.value;
    for (diameter, wanted) in [(wall, Verdict::Good), (wall + 0.002, Verdict::Stop)] {
        let design = with(&[("grate.diameter", number(diameter))]);
        assert_eq!(verdict(&design, "hearth.grate"), wanted, "{diameter}");
        let entry = (patterns(&design).into_iter()).find(|entry| entry.name == "Grate");
        assert_eq!(entry.unwrap().pattern.is_ok(), wanted == Verdict::Good);
    }
    let wide = with(&[("grate.diameter", number(0.4))]);
    let told = (assess(&wide).finding("hearth.grate").unwrap().compared).text(Default::default());
    assert!(told.contains("does not go in"), "{told}");
    every_remedy_passes(&wide, "hearth.grate", 1);
}

/// Char that is far too shallow is no hearth, and holes far wider than the char are no grate.
#[test]
fn a_hearth_without_depth_and_a_grate_without_hold_stop() {
    let verdict = |path: &str, metres: f64, id: &str| {
        let mut design = example::as_improved();
        design.set(path, Value::Number(metres)).unwrap();
        assess(&design).finding(id).unwrap().verdict
    };
    for path in ["hearth.reduction_height", "hearth.nozzle_height"] {
        let Some(Value::Number(good)) = example::as_improved().get(path) else {
            panic!("{path} is a number");
        };
        for (share, wanted) in [
            (1.0, Verdict::Good),
            (0.65, Verdict::Watch),
            (0.3, Verdict::Stop),
        ] {
            let found = verdict(path, share * good, "hearth.proportions");
            assert_eq!(found, wanted, "{path} {share}");
        }
    }
    let char = example::as_improved().hearth.char_size.value;
    for (times, wanted) in [(1.2, Verdict::Watch), (1.6, Verdict::Stop)] {
        let mut design = example::as_improved();
        for (path, metres) in [("grate.hole", times * char), ("grate.pitch", 2.0 * char)] {
            design.set(path, Value::Number(metres)).unwrap();
        }
        let finding = assess(&design).finding("hearth.grate").cloned().unwrap();
        let told = finding.compared.text(System::Metric);
        assert_eq!(finding.verdict, wanted, "{told}");
    }
}
