//! Fittings: the table against reference coefficients, and what a pipe loses through the coefficients.

use crate::reference::{number, rows};
use hearthplan::design::inputs::{FittingKind, StageKind, TrainStage};
use hearthplan::design::{Design, example};
use hearthplan::review::assess;
use hearthplan::sizing::fitting_table::loss_coefficient;
use uom::si::f64::Length;

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

#[test]
fn entrance_and_exit_are_the_published_ones() {
    for method in ["Crane", "Idelchik"] {
        let wanted = reference("entrance_sharp", method);
        close(loss_coefficient(FittingKind::Entrance), wanted, method);
        close(loss_coefficient(FittingKind::Contraction), wanted, method);
    }
    let exit = reference("exit", "any");
    close(loss_coefficient(FittingKind::Exit), exit, "exit");
    close(
        loss_coefficient(FittingKind::Enlargement),
        exit,
        "enlargement",
    );
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

/// Loss coefficient of the last stage as its pressure loss shows it.
fn found_in(design: &Design) -> f64 {
    let train = assess(design).train;
    let solved = train.full_clean.unwrap();
    let outcome = &solved.outcomes[design.train.len() - 1];
    let (density, velocity) = (outcome.density.value, outcome.velocity.value);
    outcome.pressure_loss.value / (0.5 * density * velocity * velocity)
}

#[test]
fn a_pipe_loses_what_each_reference_coefficient_says() {
    for row in rows("fittings.json", "rows") {
        let coefficient = number(&row, "loss_coefficient");
        let design = with_fittings(TrainStage {
            other_loss: coefficient,
            ..TrainStage::default()
        });
        close(found_in(&design), coefficient, &row.to_string());
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
    let (mut all, mut sum) = (nothing(), 0.0);
    for (place, (kind, count)) in each.into_iter().enumerate() {
        let many = place as u32 + 1;
        let mut one = nothing();
        *count(&mut one) = many;
        *count(&mut all) = many;
        let wanted = f64::from(many) * loss_coefficient(kind);
        close(found_in(&with_fittings(one)), wanted, &format!("{kind:?}"));
        sum += wanted;
    }
    close(found_in(&with_fittings(all)), sum, "all together");
}
