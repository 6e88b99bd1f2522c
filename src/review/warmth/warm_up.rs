//! Is the hearth wall warm soon enough after lighting?

use super::{BURN_CAUTION, Warmth};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice, Design, Source};
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::review::heart::Heart;
use crate::sizing::warm_up::{FIRE_BUILDS_UP, SHARE_OF_FIRE, WarmUp};
use crate::sizing::zone::Zone;

/// A wall that takes up heat for longer than this many times the time wanted is a Stop. Our own mark.
const FAR_TOO_LONG: f64 = 2.0;
/// A fire that takes longer than this many times the time wanted to give the heat is Watch. Our own mark: the engine may
/// run lightly long before the last of the heat is in.
const PATIENCE: f64 = 4.0;
/// A layer that stores less than this share of the heat is left alone.
const WORTH_CHANGING: f64 = 0.1;

/// Warm-up time against the one wanted.
pub(super) fn finding(design: &Design, heart: &Heart, warmth: &Warmth) -> Finding {
    let mut finding = Finding {
        id: "warmth.warm_up",
        chapter: Chapter::Warmth,
        title: "Time to warm up",
        meaning: "From lighting until the hearth wall takes no more heat than a running fire can spare.",
        verdict: Verdict::CannotTell,
        compared: Phrase::plain(""),
        why: "A cold wall cools the fire and lets tar through: until it is warm, burn the gas at the flare.",
        margin: None,
        working: Vec::new(),
        caution: Some(BURN_CAUTION),
        levers: Vec::new(),
        about: "hearth_layers",
    };
    let warm = match &warmth.warm_up {
        Ok(warm) => warm,
        Err(error) => {
            finding.compared = Phrase::new("{}", [error.to_string().into()]);
            return finding;
        }
    };
    let wanted = design.limits.warm_up_time.value;
    // How much of its heat a fire gives the wall is a rough mark, and a fire can be fanned: that alone stops nobody.
    let (through_wall, by_fire) = (warm.through_wall.value, warm.by_fire.value);
    let by_wall = Verdict::at_most(through_wall, wanted, FAR_TOO_LONG * wanted);
    let patience = PATIENCE * wanted;
    finding.verdict = by_wall.max(Verdict::at_most(by_fire, patience, f64::INFINITY));
    finding.margin = Some((1.0 - through_wall / wanted).min(1.0 - by_fire / patience));
    let time = |value| Measure::new(Q::Time, value).into();
    let heat = Measure::new(Q::HeatEnergy, warm.energy.value).into();
    let spared = Measure::new(Q::Power, warm.spared.value).into();
    finding.compared = if warm.waits_for_fire() {
        Phrase::new(
            "the wall takes less than {} after {}, wanted within {}; at the lighting flow the fire gives the {} until then only in {}, good up to {}, four times what is wanted of the wall. Wait for the longer of the two; more flow once the flare burns is quicker",
            [
                spared,
                time(through_wall),
                time(wanted),
                heat,
                time(by_fire),
                time(patience),
            ],
        )
    } else {
        Phrase::new(
            "the wall takes less than {} after {}, wanted within {}; {} of heat goes in until then",
            [spared, time(through_wall), time(wanted), heat],
        )
    };
    finding.working = working(design, heart, warm);
    if warm.waits_for_fire() {
        finding.working.insert(2, patience_step(wanted));
    }
    finding.levers = heaviest_layers(design, warmth);
    if by_fire > patience {
        finding.levers.push(Lever::input("operation.startup_share"));
    }
    finding
}

/// How long the fire may take.
fn patience_step(wanted: f64) -> Step {
    let time = |value| Measure::new(Q::Time, value);
    Step {
        words: "Longest that the fire should take to give that heat",
        formula: "t = n t_w",
        values: vec![
            (
                "n",
                "times the warm-up wanted",
                Measure::new(Q::Number, PATIENCE),
            ),
            ("t_w", "warm-up wanted", time(wanted)),
        ],
        result: time(PATIENCE * wanted),
        source: Source::OwnMark(
            "the engine may run lightly before the last of the heat is in, and a fire can be fanned; until the longer of the two times has passed the gas may still carry tar",
        ),
        sure: "a mark of patience, not of the hearth: the warm-up wanted is yours to change",
    }
}

/// Thickness of the layers that store most heat, greatest store first.
fn heaviest_layers(design: &Design, warmth: &Warmth) -> Vec<Lever> {
    let Some(heat) = warmth.zone(Zone::Hearth) else {
        return Vec::new();
    };
    let inner_radius = 0.5 * heat.inner_diameter;
    let air = design.site.air_temperature.value;
    let mut stores: Vec<_> = heat
        .layers
        .iter()
        .enumerate()
        .filter_map(|(index, layer)| {
            let material = design.material(layer.material).ok()?;
            let middle = inner_radius + layer.depth + 0.5 * layer.thickness;
            let rise = 0.5 * (layer.hot.value + layer.cold.value) - air;
            let store = middle.value
                * layer.thickness.value
                * material.density.value
                * material.heat_capacity.value
                * rise.max(0.0);
            Some((index, store))
        })
        .collect();
    stores.sort_by(|(_, one), (_, other)| other.total_cmp(one));
    let whole: f64 = stores.iter().map(|(_, store)| store).sum();
    stores
        .into_iter()
        .filter(|(_, store)| *store > WORTH_CHANGING * whole)
        .map(|(index, _)| Lever::input(format!("hearth_layers.{index}.thickness")))
        .collect()
}

fn working(design: &Design, heart: &Heart, warm: &WarmUp) -> Vec<Step> {
    let layers = (design.hearth_layers.iter())
        .filter_map(|layer| Some((layer, design.material(layer.material).ok()?)))
        .flat_map(|(layer, made_of)| {
            let measure = Measure::new;
            [
                (
                    "d",
                    layer.material.label(),
                    measure(Q::Thickness, layer.thickness.value),
                ),
                (
                    "ρ",
                    "its density",
                    measure(Q::Density, made_of.density.value),
                ),
                (
                    "c",
                    "its heat capacity",
                    measure(Q::HeatCapacity, made_of.heat_capacity.value),
                ),
            ]
        });
    vec![
        Step {
            words: "Time until the hearth wall takes no more heat than a running fire can spare, by conduction from layer to layer",
            formula: "t from which q(t) ≤ q_s, with q_s = max(s P, 1.1 q_end), hot face from T_a to T_i over t_f",
            values: [
                (
                    "T_a",
                    "air, and the wall before lighting",
                    Measure::new(Q::Temperature, design.site.air_temperature.value),
                ),
                (
                    "T_i",
                    "inside when running",
                    Measure::new(Q::Temperature, heart.at.full.supply.wall_temperature.value),
                ),
                (
                    "t_f",
                    "time the fire takes to build up",
                    Measure::new(Q::Time, FIRE_BUILDS_UP),
                ),
                (
                    "q_s",
                    "heat flow that the wall may take",
                    Measure::new(Q::Power, warm.spared.value),
                ),
                (
                    "s",
                    "share of the wood's heat that may leave through the shell",
                    Measure::new(Q::Share, design.limits.loss_share_watch.value),
                ),
                (
                    "P",
                    "heat in the wood at full load",
                    Measure::new(Q::Power, heart.at.full.supply.fuel_power.value),
                ),
                (
                    "q_end",
                    "heat flow once all of the wall is warm",
                    Measure::new(Q::Power, warm.steady_loss.value),
                ),
                (
                    "E_end",
                    "heat stored by then",
                    Measure::new(Q::HeatEnergy, warm.stored.value),
                ),
            ]
            .into_iter()
            .chain(layers)
            .collect(),
            result: Measure::new(Q::Time, warm.through_wall.value),
            source: Source::Published(
                "conduction by finite volumes; checked against Carslaw and Jaeger, Conduction of Heat in Solids, 1959",
            ),
            sure: "±30 %: how fast the fire builds up is a guess",
        },
        Step {
            words: "Time in which the fire gives the heat that wall, steel and char of the hearth take up",
            formula: "t = E / (a s P)",
            values: vec![
                (
                    "E",
                    "heat taken in",
                    Measure::new(Q::HeatEnergy, warm.energy.value),
                ),
                (
                    "E_h",
                    "of that by steel and char inside the wall",
                    Measure::new(Q::HeatEnergy, warm.hearth.value),
                ),
                (
                    "a",
                    "share of the fire's heat that they can take",
                    Measure::new(Q::Share, SHARE_OF_FIRE),
                ),
                (
                    "s",
                    "flow while lighting, as a share of full load",
                    Measure::new(Q::Share, design.operation.startup_share.value),
                ),
                (
                    "P",
                    "heat in the wood at full load",
                    Measure::new(Q::Power, heart.at.full.supply.fuel_power.value),
                ),
            ],
            result: Measure::new(Q::Time, warm.by_fire.value),
            source: Source::OwnMark(
                "a quarter of the fire's heat; gas that still burns at the flare needs the rest",
            ),
            sure: "±50 %: the share is a guess, steel and char are taken as hot as the wall, and what the wall loses while it waits for the fire is left out",
        },
        Step {
            words: "Wood that holds as much heat as was taken in by then",
            formula: "m = E / H",
            values: vec![
                (
                    "E",
                    "heat taken in",
                    Measure::new(Q::HeatEnergy, warm.energy.value),
                ),
                (
                    "H",
                    "heat in the wood",
                    Measure::new(Q::EnergyPerMass, heart.wood_heat().value),
                ),
            ],
            result: Measure::new(Q::Mass, warm.wood.value),
            source: Source::OwnMark(
                "the least that must burn; most of a young fire's heat leaves with the gas",
            ),
            sure: "±30 %",
        },
    ]
}
