//! What is told of single stages: their bores, place, metal, frost and temperature.

use super::{BLOWER, COOLER, CYCLONE, FILTER, OUTLET, choice, moved, number, verdict, with};
use hearthplan::design::{Value, example};
use hearthplan::review::{Assessment, Lever, Verdict, assess};

#[test]
fn soot_and_tar_close_the_narrowest_bore_before_the_filter() {
    let answer = |changes: &[(&str, Value)]| {
        let assessment = assess(&with(changes));
        let finding = assessment.finding("train.bores").unwrap().clone();
        let open = finding.working[0].result.si;
        (
            finding.verdict,
            open,
            finding.compared.text(Default::default()),
        )
    };
    // Two millimetres on each side of 18 mm leave 14 mm, of 12 mm 8 mm, of 7 mm 3 mm.
    for (bore, left, wanted) in [
        (0.018, 14.0 / 18.0, Verdict::Good),
        (0.012, 8.0 / 12.0, Verdict::Watch),
        (0.007, 3.0 / 7.0, Verdict::Stop),
    ] {
        let tubes = ("train.2.tubes", number(100.0));
        let (verdict, open, _) = answer(&[("train.2.tube_bore", number(bore)), tubes]);
        assert_eq!(verdict, wanted, "{bore}");
        assert!((open - left * left).abs() < 1e-9, "{bore}: {open}");
    }
    // A pipe counts as well, but not behind the filter, which keeps the soot.
    let (verdict, _, told) = answer(&[("train.0.bore", number(0.012))]);
    assert_eq!(verdict, Verdict::Watch);
    assert!(told.contains("a bore of 12 mm"), "{told}");
    let (verdict, open, _) = answer(&[("train.5.bore", number(0.012))]);
    assert_eq!(verdict, Verdict::Good);
    assert!((open - (14.0_f64 / 18.0).powi(2)).abs() < 1e-9, "{open}");
}

#[test]
fn a_cyclone_behind_cooler_or_filter_changes_the_verdicts() {
    let here = assess(&example::as_improved());
    let usual = |assessment: &Assessment| assessment.train.usual.clone().unwrap();
    // Cold gas takes less room: the inlet of the same cyclone becomes too slow.
    let behind_cooler = assess(&moved(CYCLONE, COOLER));
    assert_eq!(verdict(&here, "train.cyclone"), Verdict::Good);
    assert_ne!(verdict(&behind_cooler, "train.cyclone"), Verdict::Good);
    // And the tubes get all of the dust.
    let arrives = |solved: &hearthplan::sizing::train::TrainSolution, place: usize| {
        solved.points[place].dust.total().value
    };
    assert!(arrives(&usual(&behind_cooler), CYCLONE) > 1.5 * arrives(&usual(&here), COOLER));
    // Behind the filter it has nothing to do, and the filter fills sooner.
    let behind_filter = assess(&moved(CYCLONE, FILTER));
    let change_time = |assessment: &Assessment| {
        (assessment.results().into_iter())
            .find(|result| {
                result.name.starts_with("train.usual.")
                    && result.name.ends_with("_filter.change_time")
            })
            .unwrap()
            .measure
            .si
    };
    assert!(change_time(&behind_filter) < 0.7 * change_time(&here));
    let caught =
        |assessment: &Assessment, place: usize| usual(assessment).outcomes[place].dust_caught.value;
    assert!(caught(&behind_filter, FILTER) < 0.1 * caught(&here, CYCLONE));
}

#[test]
fn a_blower_before_the_filter_is_told_to_be_in_dusty_gas() {
    let told = |assessment: &Assessment| {
        let finding = assessment.finding("breath.blower_place").unwrap();
        (finding.verdict, finding.compared.text(Default::default()))
    };
    let (good, words) = told(&assess(&example::as_improved()));
    assert_eq!(good, Verdict::Good);
    assert!(!words.contains("dusty"), "{words}");
    let (watch, words) = told(&assess(&moved(BLOWER, FILTER)));
    assert_eq!(watch, Verdict::Watch);
    assert!(words.contains("in dusty gas with"), "{words}");
    let (stop, words) = told(&assess(&moved(BLOWER, OUTLET)));
    assert_eq!(stop, Verdict::Stop);
    assert!(
        words.contains("hot gas") && words.contains("dusty"),
        "{words}"
    );
}

#[test]
fn metal_is_held_against_the_heat_it_gets() {
    let said = |changes: &[(&str, Value)]| {
        let assessment = assess(&with(changes));
        let finding = assessment.finding("train.metal").unwrap().clone();
        let told = finding.compared.text(Default::default());
        (finding, told)
    };
    let (good, _) = said(&[]);
    assert_eq!(good.verdict, Verdict::Good);
    assert!(good.caution.is_none());
    // Gas of 700 degrees in mild steel, which bears 550 for long.
    let hot = ("raw_gas.temperature", number(973.15));
    let (pipe, told) = said(&[hot.clone(), ("train.0.cover", choice("insulated"))]);
    assert!(
        told.contains("its wall is nearly as hot; mild steel bears 550 °C"),
        "{told}"
    );
    assert!(pipe.caution.is_some() && pipe.working[0].result.si >= 973.15);
    // Without its insulation the same pipe is far colder than its gas.
    let bare = [hot, ("train.0.cover", choice("bare"))];
    let solved = assess(&with(&bare)).train.full_clean.unwrap();
    let hearthplan::sizing::train::Detail::Pipe(found) = &solved.outcomes[OUTLET].detail else {
        panic!("no pipe");
    };
    assert!(found.hottest_surface.unwrap().value < 923.15);
    // Copper and aluminium bear little where the cooler comes first.
    for (metal, is_good) in [
        ("mild_steel", true),
        ("copper", false),
        ("aluminium", false),
    ] {
        let mut design = moved(COOLER, OUTLET);
        design.set("raw_gas.temperature", number(1173.15)).unwrap();
        design.set("train.0.tube_material", choice(metal)).unwrap();
        let assessment = assess(&design);
        let finding = assessment.finding("train.metal").unwrap();
        let told = finding.compared.text(Default::default());
        assert_eq!(finding.verdict == Verdict::Good, is_good, "{told}");
        if !is_good {
            let first = finding.levers.first();
            assert!(matches!(first, Some(Lever::Input(path)) if path.contains("tube_material")));
        }
    }
}

#[test]
fn a_jacket_is_told_of_frost_only_where_there_is_one() {
    let asked = |cooling: &str, kelvin: f64| {
        let design = with(&[
            ("train.2.cooling", choice(cooling)),
            ("site.air_temperature", number(kelvin)),
        ]);
        let assessment = assess(&design);
        (assessment.finding("train.cooler_frost")).map(|finding| finding.verdict)
    };
    assert_eq!(asked("water", 274.15), None);
    assert_eq!(asked("bare", 270.15), None);
    // Where the train cannot be solved for ice too.
    for kelvin in [273.15, 270.15, 243.15] {
        assert_eq!(asked("water", kelvin), Some(Verdict::Watch), "{kelvin}");
    }
}

#[test]
fn no_length_cools_below_the_air() {
    let design = with(&[
        ("site.air_temperature", number(313.15)),
        ("limits.engine_gas_watch", number(313.15)),
    ]);
    let assessment = assess(&design);
    assert!(matches!(assessment.train.cooler_length, Some(Err(_))));
    let finding = assessment.finding("train.engine_temperature").unwrap();
    let told = finding.compared.text(Default::default());
    assert!(told.contains("no length of its tubes does it"), "{told}");
}

#[test]
fn gas_behind_the_cooler_is_told_with_its_load() {
    for lie in ["level", "upright"] {
        let assessment = assess(&with(&[("train.2.lie", choice(lie))]));
        let finding = assessment.finding("train.cooler_tar").unwrap();
        let told = finding.compared.text(Default::default());
        assert!(told.contains(" at usual load"), "{told}");
        let usual = assessment.train.usual.as_ref().unwrap();
        let behind = usual.outcomes[COOLER].out.temperature;
        assert_eq!(finding.working[0].result.si, behind.value);
    }
}

/// A trap holds no more water than its vessel has room for, whatever was entered.
#[test]
fn a_trap_holds_no_more_than_its_vessel() {
    let answer = |changes: &[(&str, Value)]| {
        let assessment = assess(&with(changes));
        let finding = assessment.finding("train.trap_time").unwrap();
        let told = finding.compared.text(Default::default());
        (finding.verdict, finding.margin.unwrap(), told)
    };
    let (large, _, as_entered) = answer(&[]);
    assert_eq!(large, Verdict::Good);
    assert!(!as_entered.contains("its vessel holds"), "{as_entered}");
    // π/4 · (160 mm)² · 60 mm = 1.206 L of the 4 L entered, which last 4.2 h there.
    let low = [("train.3.vessel_height", number(0.06))];
    let (verdict, margin, told) = answer(&low);
    assert_eq!(verdict, Verdict::Watch, "{told}");
    assert!(
        told.contains("its vessel holds 1.21 L, not the 4 L entered"),
        "{told}"
    );
    let (_, as_much, _) = answer(&[low[0].clone(), ("train.3.capacity", number(1.206e-3))]);
    assert!((margin - as_much).abs() < 1e-3, "{margin} {as_much}");
    // More of the vessel mends it, more on paper does not.
    let offered = hearthplan::review::remedies(&with(&low), "train.trap_time");
    let mends = |name: &str| {
        let of = |lever: &Lever| matches!(lever, Lever::Input(path) if path.ends_with(name));
        let found = offered.iter().find(|remedy| of(&remedy.lever)).unwrap();
        found.change.is_some()
    };
    assert!(mends("vessel_height") && mends("vessel_diameter") && !mends("capacity"));
}
