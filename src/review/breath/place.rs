//! What does its place in the train mean for the blower?

use super::questions::LEAKS;
use super::{Breath, working};
use crate::design::Design;
use crate::design::inputs::StageKind;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Verdict};
use crate::review::train::{BLOWER_LIMIT, TrainReview, levers, new_stage};
use crate::sizing::train::{GasState, TrainSolution};
use uom::si::f64::Pressure;

/// Drops of water in the gas that a blower hardly notices, kg per normal m³ of dry gas. Our own choice.
const FEW_DROPS: f64 = 0.002;
/// Dust that a blower hardly notices, kg per normal m³ of dry gas. Our own choice: a filter leaves less, a cyclone
/// alone more.
const LITTLE_DUST: f64 = 0.000_1;

/// The worst gas that reaches the blower.
struct Gas {
    /// Hottest, K.
    temperature: f64,
    /// Tar reaches it as droplets.
    tar: bool,
    /// Most water in drops, kg per normal m³.
    drops: f64,
    /// Most dust, kg per normal m³.
    dust: f64,
    /// While the engine runs, the highest pressure behind it above the air outside, Pa.
    pressed: f64,
}

impl Gas {
    fn worst(train: &TrainReview, place: usize) -> Option<Gas> {
        let air = train.full_load.circumstances.surroundings.pressure;
        let solved: Vec<&TrainSolution> = [
            &train.startup,
            &train.usual,
            &train.full_clean,
            &train.full_dirty,
        ]
        .into_iter()
        .map(|solved| solved.as_ref().ok())
        .collect::<Option<_>>()?;
        let reached = || solved.iter().filter_map(|solved| solved.points.get(place));
        let most = |of: fn(&GasState) -> f64| reached().map(of).fold(f64::MIN, f64::max);
        reached().next()?;
        Some(Gas {
            temperature: most(|gas| gas.temperature.value),
            tar: reached().any(|gas| gas.tar.mist),
            drops: most(|gas| gas.liquid.value / gas.dry_flow.value),
            dust: most(GasState::dust_load),
            pressed: (solved.iter().skip(1))
                .filter_map(|solved| solved.points.get(place + 1))
                .map(|gas| (gas.pressure - air).value)
                .fold(0.0, f64::max),
        })
    }
}

/// Hot, tarry or wet gas at the blower, and what is under pressure. None without a blower.
pub(super) fn finding(design: &Design, train: &TrainReview, breath: &Breath) -> Option<Finding> {
    let place = (design.train.iter()).position(|stage| stage.kind == StageKind::Blower)?;
    let limit = BLOWER_LIMIT + 273.15;
    let gas = Gas::worst(train, place);
    // A cooler of another length only moves the place where tar falls out.
    let tarry = gas
        .as_ref()
        .is_some_and(|gas| gas.tar && gas.temperature <= limit);
    let (verdict, margin, compared) = match gas {
        None => {
            let why = [
                &train.startup,
                &train.usual,
                &train.full_clean,
                &train.full_dirty,
            ]
            .into_iter()
            .find_map(|solved| solved.as_ref().err())
            .map_or_else(String::new, ToString::to_string);
            (Verdict::CannotTell, None, Phrase::new("{}", [why.into()]))
        }
        Some(gas) => {
            let hot = gas.temperature > limit;
            let wet = gas.drops > FEW_DROPS;
            let dusty = gas.dust > LITTLE_DUST;
            let pressed = gas.pressed > 0.0;
            let (verdict, margin) = if hot {
                (
                    Verdict::Stop,
                    (1.0 - (gas.temperature - 273.15) / BLOWER_LIMIT).max(-1.0),
                )
            } else if gas.tar || dusty || wet || pressed {
                (Verdict::Watch, -0.5)
            } else {
                (Verdict::Good, 0.0)
            };
            let dust = dusty.then(|| Measure::new(Q::DustLoad, gas.dust).into());
            let slots = [Measure::new(Q::Temperature, gas.temperature).into()]
                .into_iter()
                .chain(dust)
                .chain([breath.suction_side, breath.pressure_side].map(pressure));
            let filtered = filter_before(design, place);
            let words = match (hot, dusty) {
                (true, false) => {
                    "hot gas, {} at the worst, ruins wheel, seal and bearings; while lighting {} of suction before it, {} of pressure after it"
                }
                (true, true) => {
                    "hot gas, {} at the worst, ruins wheel, seal and bearings; it is in dusty gas with {}; while lighting {} of suction before it, {} of pressure after it"
                }
                (false, true) if gas.tar && filtered => {
                    "tar falls out of the gas again behind its filter and comes to it, at {} at the worst; it is in dusty gas with {}; while lighting {} of suction before it, {} of pressure after it"
                }
                (false, true) if gas.tar => {
                    "tar comes to it, no filter stands before it, at {} at the worst; it is in dusty gas with {}; while lighting {} of suction before it, {} of pressure after it"
                }
                (false, true) => {
                    "{} at the worst; it is in dusty gas with {}; while lighting {} of suction before it, {} of pressure after it"
                }
                (false, false) if gas.tar && filtered => {
                    "tar falls out of the gas again behind its filter, where the gas cools further, and comes to it, at {} at the worst; while lighting {} of suction before it, {} of pressure after it"
                }
                (false, false) if gas.tar => {
                    "tar comes to it, no filter stands before it, at {} at the worst; while lighting {} of suction before it, {} of pressure after it"
                }
                (false, false) if wet => {
                    "drops of water come to it at one load or another, its gas is {} at the hottest; while lighting {} of suction before it, {} of pressure after it"
                }
                (false, false) if pressed => {
                    "cool, clean gas, {} at the worst, but it presses gas towards the engine; while lighting {} of suction before it, {} of pressure after it"
                }
                (false, false) if gas.drops > 0.0 => {
                    "cool, clean gas with a few drops of water, {} at the worst; while lighting {} of suction before it, {} of pressure after it"
                }
                (false, false) => {
                    "cool, clean gas, {} at the worst; while lighting {} of suction before it, {} of pressure after it"
                }
            };
            (
                verdict,
                Some(margin).filter(|margin| margin.is_finite()),
                Phrase::new(words, slots),
            )
        }
    };
    Some(Finding {
        id: "breath.blower_place",
        chapter: Chapter::Breath,
        title: "Place of the blower",
        meaning: "Before the filter a fan gets tar and soot; before the cooler it gets the heat as well. Reorder the stages of the gas train to try another place.",
        verdict,
        compared,
        why: "Tar on the wheel unbalances it; a shaft seal that leaks puts carbon monoxide where you stand.",
        margin,
        working: working::chain(design, train, &train.startup, &breath.startup),
        caution: Some(LEAKS),
        levers: {
            let mut found = another_order(design, place);
            if !(tarry && filter_before(design, place)) {
                found.extend(place_levers(design, train, place));
            }
            found
        },
        about: "train",
    })
}

/// Says what is reckoned with when there are more blowers than one, and none when there are not.
pub(super) fn more_than_one(design: &Design) -> Option<Finding> {
    let blowers = (design.train.iter())
        .filter(|stage| stage.kind == StageKind::Blower)
        .count();
    (blowers > 1).then(|| Finding {
        id: "breath.one_blower",
        chapter: Chapter::Breath,
        title: "More blowers than one",
        meaning: "A blower pulls the gas while the fire is lit. What is entered of the blower, its curve included, is one blower.",
        verdict: Verdict::Watch,
        compared: Phrase::new(
            "{} blowers, reckoned with one curve; while lighting, the gas leaves at the first",
            [blowers.to_string().into()],
        ),
        why: "All that is said here of pull, stall and place is about the first; battery and cables follow from the list of electric loads.",
        margin: None,
        working: Vec::new(),
        caution: Some(LEAKS),
        levers: Vec::new(),
        about: "train",
    })
}

fn pressure(pressure: Option<Pressure>) -> crate::design::phrase::Slot {
    Measure::new(
        Q::Pressure,
        pressure.map_or(f64::NAN, |pressure| pressure.value),
    )
    .into()
}

fn filter_before(design: &Design, place: usize) -> bool {
    (design.train.iter().take(place)).any(|stage| stage.kind == StageKind::Filter)
}

/// The blower at another place, or what cools, cleans and dries the gas behind it.
fn another_order(design: &Design, place: usize) -> Vec<Lever> {
    let helps = [
        StageKind::Cyclone,
        StageKind::Cooler,
        StageKind::Trap,
        StageKind::Filter,
    ];
    let mut found = levers::moved(design, &[StageKind::Blower], place..=place);
    found.extend(levers::moved(design, &helps, place + 1..=usize::MAX));
    found
}

fn place_levers(design: &Design, train: &TrainReview, place: usize) -> Vec<Lever> {
    let before =
        |kind: StageKind| (design.train.iter().take(place)).any(|stage| stage.kind == kind);
    let gas = (train.full_clean.as_ref().ok()).and_then(|solved| solved.points.get(place));
    let filter = (!filter_before(design, place)).then(|| new_stage::filter(place, gas));
    let trap = before(StageKind::Cooler).then(|| new_stage::trap(design, place, gas));
    let longer = levers::of(
        design,
        |stage| stage.kind == StageKind::Cooler,
        "tube_length",
    );
    let assists = (["blower.speed_share", "blower.assists"].into_iter())
        .filter(|_| design.blower.assists)
        .map(Lever::input);
    // A cooler behind the blower does nothing for it.
    let behind = [StageKind::Trap, StageKind::Filter, StageKind::Blower];
    let cooler = (!before(StageKind::Cooler)).then(|| new_stage::cooler(design, &behind));
    cooler
        .into_iter()
        .chain(longer)
        .chain(filter)
        .chain(trap)
        .chain(assists)
        .collect()
}
