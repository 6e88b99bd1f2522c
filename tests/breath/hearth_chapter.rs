//! The hearth chapter of the review.

use crate::mended::every_remedy_passes;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Assessment, Verdict, assess, load_against_throat, remedies};
use hearthplan::sizing::hearth_table::FAMILIES;
use hearthplan::sizing::nozzles::{NozzleRing, Surroundings, nozzle_flow};
use uom::si::f64::{Length, Pressure, Ratio, ThermodynamicTemperature, Volume, VolumeRate};
use uom::si::length::millimeter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::volume_rate::cubic_meter_per_hour;

const LOAD: f64 = 1.0 / 3600.0 / 1.0e-4;

fn with(changes: &[(&str, f64)]) -> Design {
    changed(Design::default(), changes)
}

/// A design whose gas flow is entered; without change 25 Nm³/h.
fn entered(changes: &[(&str, f64)]) -> Design {
    let mut design = Design::default();
    design
        .set("operation.flow_source", Value::Choice("entered".into()))
        .unwrap();
    changed(design, changes)
}

fn changed(mut design: Design, changes: &[(&str, f64)]) -> Design {
    for (path, value) in changes {
        design.set(path, Value::Number(*value)).unwrap();
    }
    design
}

fn straight() -> Design {
    let mut design = Design::default();
    design
        .set("hearth.kind", Value::Choice("straight".into()))
        .unwrap();
    design
}

fn verdict(assessment: &Assessment, id: &str) -> Verdict {
    assessment.finding(id).unwrap().verdict
}

#[test]
fn nozzle_velocity_of_each_published_hearth() {
    let freezing = Surroundings {
        temperature: ThermodynamicTemperature::new::<kelvin>(273.15),
        pressure: Pressure::new::<pascal>(101_325.0),
    };
    for row in FAMILIES.iter().flatten() {
        let ring = NozzleRing {
            count: row.nozzle_count,
            bore: Length::new::<millimeter>(row.nozzle_bore),
            discharge: Ratio::new::<ratio>(0.85),
        };
        let gas = VolumeRate::new::<cubic_meter_per_hour>(row.gas_most);
        let velocity = nozzle_flow(gas, 1.68, &ring, &freezing).velocity.value;
        assert!(
            (velocity / row.blast_velocity - 1.0).abs() < 0.12,
            "{velocity} m/s for {row:?}"
        );
    }
}

#[test]
fn the_printed_bore_of_the_last_row_is_the_one_that_does_not_fit() {
    let row = FAMILIES[2][3];
    let velocity = |bore: f64| {
        let area =
            f64::from(row.nozzle_count) * std::f64::consts::PI / 4.0 * (bore / 1000.0).powi(2);
        row.gas_most / 1.68 / 3600.0 / area
    };
    assert!((velocity(15.0) / row.blast_velocity - 1.0).abs() < 0.02);
    assert!((velocity(16.0) / row.blast_velocity - 1.0).abs() > 0.12);
}

#[test]
fn warm_thin_air_leaves_the_nozzles_faster() {
    let sea = assess(&entered(&[])).hearth;
    let hill = assess(&entered(&[("site.altitude", 3000.0)])).hearth;
    let (sea, hill) = (sea.constricted.unwrap(), hill.constricted.unwrap());
    let faster = hill.nozzles.full.velocity / sea.nozzles.full.velocity;
    assert!((faster.value - 1.445).abs() < 0.01, "{faster:?}");
    assert!(hill.nozzles.full.drop > sea.nozzles.full.drop);
}

#[test]
fn every_published_hearth_passes_at_its_own_largest_flow() {
    for row in FAMILIES.iter().flatten() {
        let design = entered(&[
            // The velocities of the print are counted at 0 °C.
            ("site.air_temperature", 273.15),
            ("operation.full_gas_flow", row.gas_most / 3600.0),
            ("hearth.throat_diameter", row.throat / 1000.0),
            ("hearth.nozzle_ring_diameter", row.nozzle_ring / 1000.0),
            ("hearth.below_throat_diameter", row.below_throat / 1000.0),
            ("hearth.nozzle_height", row.nozzle_height / 1000.0),
            ("hearth.reduction_height", row.reduction_height / 1000.0),
            ("hearth.nozzle_count", f64::from(row.nozzle_count)),
            ("hearth.nozzle_bore", row.nozzle_bore / 1000.0),
        ]);
        let assessment = assess(&design);
        assert_eq!(
            verdict(&assessment, "hearth.proportions"),
            Verdict::Good,
            "{row:?}"
        );
        assert_eq!(
            verdict(&assessment, "hearth.nozzle_velocity"),
            Verdict::Good,
            "{row:?}"
        );
        let load = assessment.hearth.load.full.value / LOAD;
        assert!((0.7..1.14).contains(&load), "{load} for {row:?}");
    }
}

#[test]
fn a_new_design_passes_the_chapter() {
    let assessment = assess(&Design::default());
    for finding in assessment
        .findings
        .iter()
        // Nobody said yet what it is made of, and whether it comes out.
        .filter(|f| {
            f.id.starts_with("hearth.") && !f.id.ends_with("last") && !f.id.ends_with("lasts")
        })
    {
        assert_eq!(finding.verdict, Verdict::Good, "{}", finding.id);
        assert!(finding.margin.unwrap() >= 0.0, "{}", finding.id);
        assert!(!finding.working.is_empty());
        assert!(!finding.compared.text(System::Metric).contains("{}"));
    }
}

#[test]
fn loads_at_both_ends_are_judged_against_their_marks() {
    let narrow = assess(&with(&[("hearth.throat_diameter", 0.050)]));
    assert_eq!(verdict(&narrow, "hearth.load_full"), Verdict::Stop);
    let wide = assess(&entered(&[("hearth.throat_diameter", 0.090)]));
    assert_eq!(verdict(&wide, "hearth.load_full"), Verdict::Good);
    assert_eq!(verdict(&wide, "hearth.load_idle"), Verdict::Stop);
    let full = wide.hearth.load.full.value / LOAD;
    assert!((full - 25.0 / 63.617).abs() < 1e-3, "{full}");
}

#[test]
fn proportions_outside_the_table_are_never_promised() {
    let assessment = assess(&with(&[("hearth.throat_diameter", 0.040)]));
    let finding = assessment.finding("hearth.proportions").unwrap();
    assert_eq!(finding.verdict, Verdict::Watch);
    let told = finding.compared.text(System::Metric);
    let reason = "a throat of 40 mm is smaller than any in the table, whose least is 60 mm";
    assert!(told.starts_with(reason), "{told}");
    assert!(finding.margin.unwrap() < 0.0);
}

#[test]
fn a_millimetre_past_the_last_row_of_a_ring_changes_little() {
    let row = |throat| {
        let assessment = assess(&with(&[
            ("hearth.throat_diameter", throat),
            ("hearth.nozzle_ring_diameter", 0.300),
            ("hearth.below_throat_diameter", 0.258),
            ("hearth.nozzle_height", 0.120),
            ("hearth.reduction_height", 0.275),
            ("hearth.nozzle_count", 5.0),
            ("hearth.nozzle_bore", 0.014),
        ]));
        let finding = assessment.finding("hearth.proportions").unwrap();
        (finding.verdict, finding.compared.text(System::Metric))
    };
    assert_eq!(row(0.150).0, Verdict::Good);
    let (verdict, told) = row(0.151);
    assert_eq!(verdict, Verdict::Good);
    let reason =
        "a throat of 151 mm lies outside the most alike series of the table, which ends at 150 mm";
    assert!(told.starts_with(reason), "{told}");
}

/// How far the farthest dimension is off, as the margin tells it: 1 for none, 0 at the mark.
fn proportions_of(changes: &[(&str, f64)]) -> f64 {
    let assessment = assess(&with(changes));
    let finding = assessment.finding("hearth.proportions").unwrap();
    finding.margin.unwrap()
}

#[test]
fn a_published_hearth_is_nearest_to_itself() {
    for row in FAMILIES.iter().flatten() {
        let margin = proportions_of(&[
            ("hearth.throat_diameter", row.throat / 1000.0),
            ("hearth.nozzle_ring_diameter", row.nozzle_ring / 1000.0),
            ("hearth.below_throat_diameter", row.below_throat / 1000.0),
            ("hearth.nozzle_height", row.nozzle_height / 1000.0),
            ("hearth.reduction_height", row.reduction_height / 1000.0),
            ("hearth.nozzle_count", f64::from(row.nozzle_count)),
            ("hearth.nozzle_bore", row.nozzle_bore / 1000.0),
        ]);
        assert!((margin - 1.0).abs() < 1e-9, "{margin} for {row:?}");
    }
}

#[test]
fn a_millimetre_of_ring_or_throat_changes_little() {
    let (ring, throat) = ("hearth.nozzle_ring_diameter", "hearth.throat_diameter");
    for (path, at, range) in [
        (ring, 60.0, 296..=304),
        (ring, 70.0, 296..=304),
        (ring, 105.0, 280..=288),
        (ring, 140.0, 345..=355),
        (throat, 70.0, 97..=103),
        (throat, 70.0, 117..=123),
    ] {
        let margins: Vec<f64> = range
            .map(|millimetres| {
                proportions_of(&[
                    (throat, at / 1000.0),
                    (path, f64::from(millimetres) / 1000.0),
                ])
            })
            .collect();
        for pair in margins.windows(2) {
            // A millimetre is a hundredth of such a throat: a twentieth of what is allowed, and what stays as it was goes
            // with it.
            assert!((pair[0] - pair[1]).abs() < 0.15, "{path} at {at}: {pair:?}");
        }
    }
}

#[test]
fn a_ring_of_the_next_family_is_no_wrong_ring() {
    let told = |ring: f64| {
        let mut design = example::as_improved();
        design.hearth.nozzle_ring_diameter = Length::new::<millimeter>(ring);
        let assessment = assess(&design);
        let finding = assessment.finding("hearth.proportions").unwrap();
        (finding.verdict, finding.compared.text(System::Metric))
    };
    for (ring, words) in [
        (299.0, "11.6 % apart"),
        (300.0, "11.9 % apart"),
        (301.0, "12.3 % apart"),
    ] {
        let (verdict, told) = told(ring);
        assert_eq!(verdict, Verdict::Good, "{told}");
        assert!(told.contains(words), "{told}");
    }
}

#[test]
fn what_is_as_far_off_as_is_allowed_is_allowed() {
    let mut design = example::as_first_drawn();
    for (height, wanted) in [(79.0, Verdict::Watch), (80.0, Verdict::Good)] {
        design.hearth.nozzle_height = Length::new::<millimeter>(height);
        assert_eq!(verdict(&assess(&design), "hearth.proportions"), wanted);
    }
}

#[test]
fn a_wrong_dimension_names_itself_and_its_own_remedy_passes() {
    // A wall that holds its heat, so that a taller hearth stops nothing.
    let design = changed(
        example::as_improved(),
        &[("hearth.reduction_height", 0.160)],
    );
    let remedies = remedies(&design, "hearth.proportions");
    let change = remedies
        .iter()
        .find(|remedy| remedy.input.name == "reduction_height")
        .and_then(|remedy| remedy.change.clone())
        .unwrap();
    let after = assess(&change.apply(&design).unwrap());
    assert_eq!(verdict(&after, "hearth.proportions"), Verdict::Good);
}

#[test]
fn remedies_of_each_hearth_question_pass() {
    let cases = [
        (
            with(&[("hearth.throat_diameter", 0.050)]),
            "hearth.load_full",
            1,
        ),
        (
            with(&[("hearth.throat_diameter", 0.090)]),
            "hearth.load_idle",
            1,
        ),
        (
            with(&[("hearth.nozzle_bore", 0.012)]),
            "hearth.nozzle_velocity",
            1,
        ),
        (
            with(&[("hearth.nozzle_bore", 0.005)]),
            "hearth.nozzle_velocity",
            2,
        ),
        (
            changed(straight(), &[("engine.displacement", 0.0025)]),
            "hearth.fire_tube",
            1,
        ),
        (
            changed(straight(), &[("hearth.tube_length", 0.3)]),
            "hearth.fire_tube_length",
            1,
        ),
        (with(&[("hearth_wall.height", 0.3)]), "hearth.band", 1),
    ];
    for (design, id, expected) in cases {
        every_remedy_passes(&design, id, expected);
    }
}

#[test]
fn the_fire_never_leaves_its_insulation() {
    let at = |height| {
        verdict(
            &assess(&with(&[("hearth_wall.height", height)])),
            "hearth.band",
        )
    };
    // 256 mm of char and 80 mm up to the nozzles.
    assert_eq!(at(0.380), Verdict::Good);
    assert_eq!(at(0.340), Verdict::Watch);
    assert_eq!(at(0.330), Verdict::Stop);
    let told = assess(&with(&[("hearth_wall.height", 0.175)]));
    let told = told
        .finding("hearth.band")
        .unwrap()
        .compared
        .text(System::Metric);
    assert!(told.contains("it needs 376 mm"), "{told}");
    let tube = changed(straight(), &[("hearth.tube_length", 0.55)]);
    assert_eq!(verdict(&assess(&tube), "hearth.band"), Verdict::Stop);
    // Whatever a shorter wall would mend.
    let low = changed(example::as_improved(), &[("operation.idle_load", 0.25)]);
    for id in ["heart.idle", "heart.usual", "heart.turndown"] {
        for remedy in remedies(&low, id) {
            if let Some(change) = remedy.change {
                let after = assess(&change.apply(&low).unwrap());
                assert_eq!(verdict(&after, "hearth.band"), Verdict::Good, "{change:?}");
            }
        }
    }
}

#[test]
fn a_straight_tube_is_asked_its_own_questions() {
    let assessment = assess(&straight());
    assert_eq!(verdict(&assessment, "hearth.fire_tube"), Verdict::Good);
    assert_eq!(
        verdict(&assessment, "hearth.fire_tube_length"),
        Verdict::Good
    );
    assert!(assessment.finding("hearth.nozzle_velocity").is_none());
    assert!(assessment.hearth.constricted.is_none());
    let long_engine = assess(&changed(straight(), &[("engine.displacement", 0.00235)]));
    assert_eq!(verdict(&long_engine, "hearth.fire_tube"), Verdict::Watch);
}

#[test]
fn what_suits_a_straight_tube_follows_from_its_table() {
    let design = straight();
    let assessment = assess(&design);
    let in_hand = |assessment: &Assessment| {
        let finding = assessment.finding("hearth.fire_tube").unwrap();
        finding.margin.unwrap()
    };
    let highest = assessment
        .heart
        .range
        .unwrap()
        .highest_by_bore
        .unwrap()
        .value;
    assert!((highest - 1.0 - in_hand(&assessment)).abs() < 1e-9);
    let on_gas = assessment.engine.on_gas.unwrap().unwrap();
    let mut larger = design.clone();
    larger.engine.displacement = on_gas.for_hearth().unwrap().displacement;
    assert!(in_hand(&assess(&larger)).abs() < 0.02);
    let bore = on_gas.throat_for_engine;
    assert_eq!(bore, assessment.hearth.sized_bore.unwrap());
    let mut narrower = design;
    narrower.hearth.tube_diameter = bore;
    assert!(in_hand(&assess(&narrower)).abs() < 1e-9);
}

#[test]
fn a_straight_tube_is_held_to_its_own_table_alone() {
    let design = straight();
    let assessment = assess(&design);
    // The marks of throats are neither asked nor in use.
    for id in ["hearth.load_full", "hearth.load_idle"] {
        assert!(assessment.finding(id).is_none(), "{id}");
    }
    assert!(!design.in_use("limits.hearth_load_most"));
    let load = assessment.hearth.load.full.value;
    let most = assessment.hearth.load_most.unwrap().value;
    let margin = assessment.finding("hearth.fire_tube").unwrap().margin;
    assert!((most / load - 1.0 - margin.unwrap()).abs() < 1e-9);
    // Far below what a throat may carry, the table refuses such a tube all the same.
    assert!(most < 0.5 * design.limits.hearth_load_most, "{most}");
    let suits = assessment.hearth.sized_bore.unwrap();
    let crowded = changed(
        design.clone(),
        &[("hearth.tube_diameter", 0.7 * suits.value)],
    );
    let found = assess(&crowded);
    assert_eq!(verdict(&found, "hearth.fire_tube"), Verdict::Stop);
    let load = found.hearth.load.full.value;
    assert!(load > found.hearth.load_most.unwrap().value);
    assert!(load < crowded.limits.hearth_load_most, "{load}");
    // The chart crosses its mark where the table's bore for this engine is.
    let points = load_against_throat(&design, suits, 2.0 * suits, 3);
    let at = points.first().unwrap();
    let most = at.most.unwrap().value;
    assert!((at.load.full.unwrap().value / most - 1.0).abs() < 1e-9);
    let wider = points.last().unwrap();
    assert!(wider.load.full < wider.most);
    // A throat's mark is the same at any bore.
    let points = load_against_throat(&Design::default(), suits, 2.0 * suits, 3);
    let mark = Design::default().limits.hearth_load_most;
    assert!(points.iter().all(|point| point.most.unwrap().value == mark));
}

#[test]
fn an_engine_without_an_answer_is_not_guessed() {
    let mut design = straight();
    design.engine.displacement = Volume::default();
    let assessment = assess(&design);
    let finding = assessment.finding("hearth.fire_tube").unwrap();
    assert_eq!(finding.verdict, Verdict::CannotTell);
    assert!(finding.levers.is_empty() && finding.margin.is_none());
    let told = finding.compared.text(System::Metric);
    assert!(told.contains("yours cannot be worked out"), "{told}");
    assert!(assessment.hearth.sized_bore.is_none());
    assert!(assessment.hearth.load_most.is_none());
    assert!(assessment.engine.hearth_most.is_none());
    assert!(assessment.heart.range.unwrap().highest_by_bore.is_none());
    let names: Vec<_> = (assessment.results().into_iter())
        .map(|result| result.name)
        .collect();
    for name in [
        "hearth.bore_sized",
        "hearth.load_most",
        "engine.hearth_most",
    ] {
        assert!(!names.iter().any(|other| other == name), "{name}");
    }
}

#[test]
fn the_chart_passes_through_the_design() {
    let design = Design::default();
    let points = load_against_throat(
        &design,
        Length::new::<millimeter>(40.0),
        Length::new::<millimeter>(80.0),
        41,
    );
    assert_eq!(points.len(), 41);
    let here = points
        .iter()
        .find(|point| (point.bore.get::<millimeter>() - 60.0).abs() < 1e-9)
        .unwrap();
    let assessed = assess(&design).hearth.load.full;
    assert!((here.load.full.unwrap().value / assessed.value - 1.0).abs() < 1e-12);
    assert!(
        points
            .windows(2)
            .all(|pair| pair[1].load.full < pair[0].load.full)
    );
}

#[test]
fn the_chart_marks_nothing_where_no_gas_burns() {
    let design = example::as_first_drawn();
    let makes_gas = assess(&design).hearth.makes_gas;
    assert!(makes_gas.full && !makes_gas.idle);
    let (from, to) = (0.05, 0.15);
    let of = |bore| Length::new::<uom::si::length::meter>(bore);
    for point in load_against_throat(&design, of(from), of(to), 5) {
        assert!(point.load.full.is_some() && point.load.idle.is_none());
    }
}
