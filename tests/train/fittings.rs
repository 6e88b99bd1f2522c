//! Fittings: the table against reference coefficients, and what a pipe loses through the coefficients.

use crate::reference::{number, rows};
use hearthplan::design::inputs::{FittingKind, StageKind, TrainStage};
use hearthplan::design::{Choice, Design, example};
use hearthplan::review::assess;
use hearthplan::sizing::fitting_table;
use hearthplan::sizing::stage_bores::step_loss;
use hearthplan::sizing::train::Detail;
use uom::si::f64::Length;
use uom::si::length::meter;

fn reference(kind: &str, method: &str) -> f64 {
    let row = rows("fittings.json", "rows")
        .into_iter()
        .find(|row| row["kind"] == kind && row["method"] == method);
    number(&row.unwrap(), "loss_coefficient")
}

fn close(found: f64, wanted: f64, what: &str) {
    assert!(
        (found / wanted - 1.0).abs() < 0.005,
        "{what}: {found}, wanted {wanted}"
    );
}

/// Of a fitting in a pipe of this bore, m.
fn loss_coefficient(kind: FittingKind, reynolds: f64, bore: f64) -> f64 {
    fitting_table::loss_coefficient(kind, reynolds, Length::new::<meter>(bore))
}

/// What no bore and no flow changes.
fn fixed(kind: FittingKind) -> f64 {
    let coefficient = loss_coefficient(kind, 1e5, 0.05);
    for (reynolds, bore) in [(0.0, 0.05), (300.0, 0.02), (1e6, 0.5)] {
        assert_eq!(loss_coefficient(kind, reynolds, bore), coefficient);
    }
    coefficient
}

#[test]
fn entrance_and_exit_are_the_published_ones() {
    for method in ["Crane", "Idelchik"] {
        let wanted = reference("entrance_sharp", method);
        close(fixed(FittingKind::Entrance), wanted, method);
        close(fixed(FittingKind::Contraction), wanted, method);
    }
    let exit = reference("exit", "any");
    close(fixed(FittingKind::Exit), exit, "exit");
    close(fixed(FittingKind::Enlargement), exit, "enlargement");
}

/// The narrowing that is used, half of the area that is lost, lies up to 0.12 under that of Rennels.
#[test]
fn sudden_steps_are_the_published_ones() {
    let of_kind = |kind: &str| -> Vec<(f64, f64)> {
        (rows("fittings.json", "rows").into_iter())
            .filter(|row| row["kind"] == kind)
            .map(|row| {
                let narrow = number(&row, "diameter_ratio");
                (narrow, number(&row, "loss_coefficient"))
            })
            .collect()
    };
    let meters = Length::new::<meter>;
    let (widenings, narrowings) = (of_kind("sudden_widening"), of_kind("sudden_narrowing"));
    assert_eq!((widenings.len(), narrowings.len()), (4, 4));
    for (narrow, wanted) in widenings {
        close(step_loss(meters(narrow), meters(1.0)), wanted, "widening");
    }
    for (narrow, wanted) in narrowings {
        let off = wanted - step_loss(meters(1.0), meters(narrow));
        assert!((-0.01..0.125).contains(&off), "{narrow}: {off}");
    }
}

#[test]
fn elbows_tees_and_valves_are_those_of_the_2_k_method() {
    let sharp_edges = ["entrance", "exit", "contraction", "enlargement"];
    for option in FittingKind::OPTIONS {
        let rows: Vec<_> = (rows("fittings.json", "two_k").into_iter())
            .filter(|row| row["kind"] == option.name)
            .collect();
        assert_eq!(rows.is_empty(), sharp_edges.contains(&option.name));
        let kind = FittingKind::from_name(option.name).unwrap();
        for row in rows {
            let found = loss_coefficient(kind, number(&row, "reynolds"), number(&row, "bore_m"));
            close(found, number(&row, "loss_coefficient"), &row.to_string());
        }
    }
}

/// The example with a pipe of no length before its engine.
fn with_fittings(fittings: TrainStage) -> Design {
    let mut design = example::as_improved();
    design.train.push(TrainStage {
        kind: StageKind::Pipe,
        length: Length::default(),
        ..fittings
    });
    design
}

/// Loss coefficient of the last stage as its pressure loss shows it, and its Reynolds number.
fn found_in(design: &Design) -> (f64, f64) {
    let train = assess(design).train;
    let solved = train.full_clean.unwrap();
    let outcome = &solved.outcomes[design.train.len() - 1];
    let (density, velocity) = (outcome.density.value, outcome.velocity.value);
    let Detail::Pipe(pipe) = &outcome.detail else {
        panic!("the last stage is a pipe");
    };
    let coefficient = outcome.pressure_loss.value / (0.5 * density * velocity * velocity);
    (coefficient, pipe.reynolds)
}

#[test]
fn a_pipe_loses_what_each_reference_coefficient_says() {
    for row in rows("fittings.json", "rows") {
        let coefficient = number(&row, "loss_coefficient");
        let design = with_fittings(TrainStage {
            other_loss: coefficient,
            ..TrainStage::default()
        });
        close(found_in(&design).0, coefficient, &row.to_string());
    }
}

/// How many fittings of one kind a stage has.
type Count = fn(&mut TrainStage) -> &mut u32;

#[test]
fn counted_fittings_add_up() {
    let nothing = || TrainStage {
        other_loss: 0.0,
        ..TrainStage::default()
    };
    let each: [(FittingKind, Count); 4] = [
        (FittingKind::Elbow90, |stage| &mut stage.elbows),
        (FittingKind::LongElbow90, |stage| &mut stage.bends),
        (FittingKind::TeeBranch, |stage| &mut stage.tees),
        (FittingKind::BallValve, |stage| &mut stage.valves),
    ];
    let bore = TrainStage::default().bore.value;
    let mut all = nothing();
    for (place, (kind, count)) in each.into_iter().enumerate() {
        let many = place as u32 + 1;
        let mut one = nothing();
        *count(&mut one) = many;
        *count(&mut all) = many;
        let (found, reynolds) = found_in(&with_fittings(one));
        let wanted = f64::from(many) * loss_coefficient(kind, reynolds, bore);
        close(found, wanted, kind.name());
    }
    let (found, reynolds) = found_in(&with_fittings(all));
    let wanted: f64 = (each.iter().zip(1_u32..))
        .map(|((kind, _), many)| f64::from(many) * loss_coefficient(*kind, reynolds, bore))
        .sum();
    close(found, wanted, "all together");
}

#[test]
fn slow_and_narrow_costs_more_and_no_flow_costs_nothing() {
    for option in FittingKind::OPTIONS {
        let kind = FittingKind::from_name(option.name).unwrap();
        let at = |reynolds, bore| loss_coefficient(kind, reynolds, bore);
        assert!(at(500.0, 0.05) >= at(5000.0, 0.05), "{}", option.name);
        assert!(at(5000.0, 0.02) >= at(5000.0, 0.05), "{}", option.name);
        for reynolds in [0.0, -1.0, f64::NAN] {
            assert!(at(reynolds, 0.05).is_finite(), "{}", option.name);
        }
    }
}
