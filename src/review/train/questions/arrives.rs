//! What dust and tar does the engine get?

use super::cool::cooling;
use super::{Answer, Question, Solved, is};
use crate::design::Design;
use crate::design::Source::CommonPractice;
use crate::design::inputs::{Cover, StageKind};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::review::train::{levers, new_stage};
use crate::sizing::train::GasState;
use uom::si::f64::ThermodynamicTemperature;

/// What is known of the tar in the gas at the engine, the worst first.
#[derive(Clone, Copy)]
enum TarArrives {
    /// It floats in the gas.
    Drops,
    /// No stage has cooled the gas until tar fell out: all of it comes along, in gas this warm, and falls out below the
    /// second temperature.
    Vapour(Measure, Measure),
    /// None floats, but this share of the hearth is too cold to break it up.
    FromColdHearth(Measure),
    /// No more than a clean hearth leaves.
    None,
}

impl TarArrives {
    fn of<'a>(solved: &Solved, arriving: impl Iterator<Item = &'a GasState> + Clone) -> Self {
        if arriving.clone().any(|gas| gas.tar.mist) {
            return Self::Drops;
        }
        let design = solved.design;
        let dew = design.raw_gas.tar_dew_point;
        let temperature = |value| Measure::new(Q::Temperature, value);
        // Tar that stays vapour in gas as cool as an engine wants it falls out nowhere behind either.
        let warmest = arriving
            .filter(|gas| gas.tar.dew_point >= Some(dew) && gas.temperature >= dew)
            .map(|gas| gas.temperature)
            .filter(|_| dew > design.limits.engine_gas_good())
            .reduce(ThermodynamicTemperature::max);
        if let Some(warmest) = warmest {
            return Self::Vapour(temperature(warmest.value), temperature(dew.value));
        }
        (solved.cold_hearth).map_or(Self::None, |cold| {
            Self::FromColdHearth(Measure::new(Q::Share, cold.value))
        })
    }

    fn verdict(self, filtered: bool) -> Verdict {
        match (self, filtered) {
            (Self::None, _) => Verdict::Good,
            // What a filter lets through is vapour in it; how much that is nobody can tell.
            (Self::FromColdHearth(_), _) | (_, true) => Verdict::Watch,
            (Self::Drops | Self::Vapour(..), false) => Verdict::Stop,
        }
    }

    fn words(self, filtered: bool) -> &'static str {
        match (self, filtered) {
            (Self::None, _) => "{} of dust at most, wanted {}; no tar floats in the gas there",
            (Self::Drops, true) => {
                "{} of dust at most, wanted {}; tar falls out of the gas again behind the filter"
            }
            (Self::Drops, false) => {
                "{} of dust at most, wanted {}; tar floats in the gas, and no filter holds it back"
            }
            (Self::Vapour(..), true) => {
                "{} of dust at most, wanted {}; the gas is {} there, warmer than the {} at which tar condenses: all tar passes the filter as vapour and falls out in the engine"
            }
            (Self::Vapour(..), false) => {
                "{} of dust at most, wanted {}; the gas is {} there, warmer than the {} at which tar condenses: all tar reaches the engine as vapour and falls out in it"
            }
            (Self::FromColdHearth(_), _) => {
                "{} of dust at most, wanted {}; no tar floats in the gas there, but {} of the hearth is too cold to break tar up: what is vapour passes every filter, and nobody can tell how much. Mend “Clean gas” first"
            }
        }
    }
}

/// What keeps tar from falling out behind the filter at this place: another order, gas that is colder in it, or stays warm
/// behind it.
fn against_tar(design: &Design, filter: usize) -> Vec<Lever> {
    let (before, behind) = design.train.split_at(filter);
    let mut ordered = levers::moved(design, &[StageKind::Filter], filter..=filter);
    ordered.extend(levers::moved(
        design,
        &[StageKind::Cooler],
        filter + 1..=usize::MAX,
    ));
    let mut found = match before.iter().any(is(StageKind::Cooler)) {
        true => cooling(design),
        false => vec![new_stage::cooler(design, &[StageKind::Filter])],
    };
    found.retain(|lever| match lever {
        Lever::Input(path) => {
            Design::split(path).is_some_and(|(_, place, _)| place.is_some_and(|it| it < filter))
        }
        Lever::NewItem { .. } | Lever::Move { .. } => true,
    });
    let bare = (behind.iter().enumerate().skip(1))
        .filter(|(_, stage)| stage.gives_off_heat() && stage.cover == Cover::Bare);
    found.extend(bare.map(|(further, _)| levers::at(filter + further, "cover")));
    ordered.extend(found);
    ordered
}

/// The dirtiest gas at the engine, over usual load and full load with clean and with dirty filters.
pub(super) fn ask(solved: &Solved) -> Option<Finding> {
    let design = solved.design;
    let arriving = [solved.usual, solved.clean, solved.dirty].map(|load| load.points.last());
    let dustiest = (arriving.iter().flatten())
        .max_by(|one, other| one.dust_load().total_cmp(&other.dust_load()))?;
    let dusty = dustiest.dust_load();
    if !dusty.is_finite() {
        return None;
    }
    let tar = TarArrives::of(solved, arriving.iter().flatten().copied());
    let has = |kind| design.train.iter().any(|stage| stage.kind == kind);
    let (filtered, spun) = (has(StageKind::Filter), has(StageKind::Cyclone));
    let limits = &design.limits;
    let good = limits.engine_dust_good().value;
    let by_dust = Verdict::at_most(dusty, good, limits.engine_dust_stop.value);
    let by_tar = tar.verdict(filtered);
    let load = |value| Measure::new(Q::DustLoad, value);
    let more = match tar {
        TarArrives::Vapour(gas, dew) => [gas, dew].map(Some),
        TarArrives::FromColdHearth(cold) => [Some(cold), None],
        TarArrives::Drops | TarArrives::None => [None; 2],
    };
    let mut levers = Vec::new();
    if by_dust != Verdict::Good || matches!(tar, TarArrives::None) {
        levers.extend(levers::of(design, is(StageKind::Filter), "catches"));
        levers.extend(levers::of(design, is(StageKind::Cyclone), "body_diameter"));
    }
    match design.train.iter().rposition(is(StageKind::Filter)) {
        None => {
            let index = new_stage::before(design, &[StageKind::Blower]);
            levers.push(new_stage::filter(index, solved.clean.points.get(index)));
        }
        Some(filter) if matches!(tar, TarArrives::Drops | TarArrives::Vapour(..)) => {
            levers.extend(against_tar(design, filter))
        }
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
                1.0 - dusty / good
            },
            compared: Phrase::new(
                tar.words(filtered),
                ([Some(load(dusty)), Some(load(good))].into_iter().chain(more))
                    .flatten()
                    .map(Into::into),
            ),
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
