//! What dust and tar does the engine get?

use super::cool::cooling;
use super::{Answer, Question, Solved, is};
use crate::design::Design;
use crate::design::Source::CommonPractice;
use crate::design::inputs::{Cover, StageKind};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::review::train::levers;
use crate::sizing::train::GasState;

/// What keeps tar from falling out behind the filter at this place: gas that is colder in it, or stays warm behind it.
fn against_tar(design: &Design, filter: usize) -> Vec<Lever> {
    let (before, behind) = design.train.split_at(filter);
    let mut found = match before.iter().any(is(StageKind::Cooler)) {
        true => cooling(design),
        false => vec![levers::new_stage(
            design,
            "cooler",
            &[StageKind::Filter],
            "tube_length",
        )],
    };
    found.retain(|lever| match lever {
        Lever::Input(path) => {
            Design::split(path).is_some_and(|(_, place, _)| place.is_some_and(|it| it < filter))
        }
        Lever::NewItem { .. } => true,
    });
    let bare = (behind.iter().enumerate().skip(1))
        .filter(|(_, stage)| stage.gives_off_heat() && stage.cover == Cover::Bare);
    found.extend(bare.map(|(further, _)| levers::at(filter + further, "cover")));
    found
}

/// The dirtiest gas at the engine, over usual load and full load with clean and with dirty filters.
pub(super) fn ask(solved: &Solved) -> Option<Finding> {
    let design = solved.design;
    let arriving = [solved.usual, solved.clean, solved.dirty].map(|load| load.points.last());
    let dust = |gas: &GasState| gas.dust.total().value / gas.dry_flow.value;
    let dustiest =
        (arriving.iter().flatten()).max_by(|one, other| dust(one).total_cmp(&dust(other)))?;
    let dusty = dust(dustiest);
    if !dusty.is_finite() {
        return None;
    }
    let tarry = arriving.iter().flatten().any(|gas| gas.tar.mist);
    let has = |kind| design.train.iter().any(|stage| stage.kind == kind);
    let (filtered, spun) = (has(StageKind::Filter), has(StageKind::Cyclone));
    let limits = &design.limits;
    let (watch, stop) = (
        limits.engine_dust_watch.value,
        limits.engine_dust_stop.value,
    );
    let by_dust = Verdict::at_most(dusty, watch, stop);
    let by_tar = match (tarry, filtered) {
        (false, _) => Verdict::Good,
        // What falls out behind a filter is what was vapour in it.
        (true, true) => Verdict::Watch,
        (true, false) => Verdict::Stop,
    };
    let load = |value| Measure::new(Q::DustLoad, value);
    let words = match (tarry, filtered) {
        (false, _) => "{} of dust at most, wanted {}; no tar floats in the gas there",
        (true, true) => {
            "{} of dust at most, wanted {}; tar falls out of the gas again behind the filter"
        }
        (true, false) => {
            "{} of dust at most, wanted {}; tar floats in the gas, and no filter holds it back"
        }
    };
    let mut levers = Vec::new();
    if by_dust != Verdict::Good || !tarry {
        levers.extend(levers::of(design, is(StageKind::Filter), "catches"));
        levers.extend(levers::of(design, is(StageKind::Cyclone), "body_diameter"));
    }
    match design.train.iter().rposition(is(StageKind::Filter)) {
        None => levers.push(levers::new_stage(
            design,
            "filter",
            &[StageKind::Blower],
            "filter_diameter",
        )),
        Some(filter) if tarry => levers.extend(against_tar(design, filter)),
        Some(_) => {}
    }
    Some(
        Question {
            id: "train.arrives",
            title: "Dust and tar at the engine",
            meaning: "What cyclone and filter let through goes into cylinders, oil and valves.",
            why: match (filtered, spun) {
                (true, _) => "Dust grinds rings and cylinders; tar glues valves to their guides, most of all once the engine is cold.",
                (false, true) => "No filter stands before the engine: a cyclone lets fine dust and all tar through. Dust grinds rings and cylinders; tar glues valves to their guides.",
                (false, false) => "Nothing cleans the gas before the engine. Dust grinds rings and cylinders; tar glues valves to their guides.",
            },
            caution: None,
        }
        .answered(Answer {
            verdict: by_dust.max(by_tar),
            margin: if by_tar > by_dust {
                f64::NAN
            } else {
                1.0 - dusty / watch
            },
            compared: Phrase::new(words, [load(dusty).into(), load(watch).into()]),
            working: vec![Step {
                words: "Dust behind the last stage, in each normal cubic metre of gas",
                formula: "c = ṁ / V",
                values: vec![
                    (
                        "ṁ",
                        "dust in the gas",
                        Measure::new(Q::MassFlow, dustiest.dust.total().value),
                    ),
                    (
                        "V",
                        "dry gas",
                        Measure::new(Q::NormalFlow, dustiest.dry_flow.value),
                    ),
                    (
                        "c₀",
                        "as it leaves the hearth",
                        load(design.raw_gas.dust_load.value),
                    ),
                ],
                result: load(dusty),
                source: CommonPractice,
                sure: "no better than the dust and the share caught that were entered: within a factor of three",
            }],
            levers,
        }),
    )
}
