//! Does the box with battery and electronics stay cool enough beside the hot wall?

use crate::design::Design;
use crate::design::Source::{CommonPractice, FromMemory};
use crate::design::celsius;
use crate::design::inputs::{Chemistry, HotWall};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::{Quantity as Q, falls_short};
use crate::physics::air::conductivity;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::review::heart::{Heart, as_far_as_known};
use crate::review::hearth::surroundings;
use crate::review::warmth::Hottest;
use crate::review::warmth::levers::insulation;
use crate::sizing::heat_shield::{HOTTEST_WALL, ShieldSheet, ShieldedBox, ShieldedTemperatures};
use crate::sizing::shell::{ShellError, ZoneHeat};
use crate::sizing::zone::Zone;
use uom::si::f64::{Length, ThermodynamicTemperature};
use uom::si::length::millimeter;

/// Colder than this no lithium iron phosphate battery is charged, K: 0 °C (common practice, no source).
const COLDEST_CHARGED: f64 = celsius(0.0);

const CAUTION: &str = "A hot battery swells, leaks or burns. A lead-acid battery gives off hydrogen while it is charged: give its box openings high and low, and no switch where that gas collects. Put each fuse close to the pole, in a sealed holder, outside the space where the battery's gas collects. Have the wiring checked where your rules ask for a licensed person.";

/// The box behind its sheets.
#[derive(Debug, Clone, PartialEq)]
pub struct Shelter {
    /// Outside of the wall it stands beside, at the load at which that is hottest.
    pub hot_wall: ThermodynamicTemperature,
    /// Sheets and box.
    pub found: ShieldedTemperatures,
}

/// The wall that the box stands beside.
pub(in crate::review) fn zone(design: &Design) -> Zone {
    match design.battery_box.beside {
        HotWall::Hearth => Zone::Hearth,
        HotWall::Body => Zone::Body,
    }
}

/// How warm sheets and box get.
pub(super) fn shelter(
    design: &Design,
    wall: &Result<ZoneHeat, ShellError>,
) -> Result<Shelter, String> {
    let heat = wall.as_ref().map_err(ToString::to_string)?;
    let shield = &design.battery_box;
    // A millimetre of any metal holds back no heat; only its faces count.
    let sheet = ShieldSheet {
        thickness: Length::new::<millimeter>(1.0),
        emittance: shield.sheet_emittance,
    };
    let sheets = usize::try_from(shield.sheets).unwrap_or(usize::MAX).min(8);
    let shielded = ShieldedBox {
        hot_wall: heat.surface_temperature,
        hot_emittance: zone(design).outer_emittance(design),
        shields: vec![sheet; sheets],
        gap: shield.gap,
        box_wall: shield.wall,
        box_conductivity: shield.conductivity,
        box_emittance: shield.emittance,
        height: shield.height,
        width: shield.width,
    };
    let found = shielded
        .solve(&surroundings(design))
        .map_err(|why| why.to_string())?;
    Ok(Shelter {
        hot_wall: heat.surface_temperature,
        found,
    })
}

/// The battery's kind, and what it stands.
pub(super) fn battery(design: &Design) -> (&'static str, ThermodynamicTemperature) {
    match design.battery_box.chemistry {
        Chemistry::LeadAcid => ("lead-acid", design.limits.lead_acid_temperature),
        Chemistry::Lithium => ("lithium", design.limits.lithium_temperature),
    }
}

/// The air that the cables are in: as entered, or that of the box which they leave where it comes out warmer. A box that is
/// too warm for its battery is mended first, so that no more than what the battery stands is reckoned with.
pub(super) fn around_cables(
    design: &Design,
    shelter: &Result<Shelter, String>,
) -> ThermodynamicTemperature {
    let (_, limit) = battery(design);
    let entered = design.wiring.air_temperature;
    let in_box = (shelter.iter()).map(|shelter| shelter.found.box_temperature);
    let within = |warm: ThermodynamicTemperature| if warm > limit { limit } else { warm };
    in_box
        .map(within)
        .fold(entered, |most, warm| if warm > most { warm } else { most })
}

/// The box against what its battery stands. At a load at which the hearth makes no gas nobody knows how hot its wall is.
pub(super) fn finding(
    design: &Design,
    heart: &Heart,
    wall: &Hottest,
    shelter: &Result<Shelter, String>,
) -> Finding {
    let finding = at_hottest(design, wall, shelter);
    match design.battery_box.beside {
        HotWall::Hearth => as_far_as_known(finding, heart.untold()),
        HotWall::Body => finding,
    }
}

fn at_hottest(design: &Design, wall: &Hottest, shelter: &Result<Shelter, String>) -> Finding {
    let (kind, limit) = battery(design);
    let mut finding = Finding {
        id: "electrics.box",
        chapter: Chapter::Electrics,
        title: "Battery box beside the hot wall",
        meaning: "The hot wall shines on the box. Sheets between them, with air in the gaps, hold most of that heat back.",
        verdict: Verdict::CannotTell,
        compared: Phrase::plain(""),
        why: "A warm battery ages fast: each 10 °C (18 °F) more halve its life, and a hot one can burn.",
        margin: None,
        working: Vec::new(),
        caution: Some(CAUTION),
        levers: levers(design, &wall.heat),
        about: "battery_box",
    };
    let shelter = match shelter {
        Ok(shelter) => shelter,
        Err(why) => {
            finding.compared = Phrase::new("{}", [why.as_str().into()]);
            let outside = (wall.heat.as_ref()).map(|heat| heat.surface_temperature.value);
            if let Ok(outside) = outside
                && outside > HOTTEST_WALL
            {
                finding.verdict = Verdict::Stop;
                finding.compared = Phrase::new(
                    "the wall is {} outside{}, hotter than any wall beside which a box can be reckoned, {}; {} battery stands {}",
                    [
                        Measure::new(Q::Temperature, outside).into(),
                        wall.at.as_str().into(),
                        Measure::new(Q::Temperature, HOTTEST_WALL).into(),
                        kind.into(),
                        Measure::new(Q::Temperature, limit.value).into(),
                    ],
                );
            }
            return finding;
        }
    };
    let warm = shelter.found.box_temperature.value;
    let air = design.site.air_temperature.value;
    finding.verdict = Verdict::at_most(warm, limit.value, limit.value);
    let margin = (limit.value - warm) / (limit.value - air).max(1.0);
    finding.margin = Some(margin).filter(|margin| margin.is_finite());
    finding.compared = Phrase::new(
        "box {} beside a wall of {}{}, {} battery stands {}",
        [
            Measure::new(Q::Temperature, warm).into(),
            Measure::new(Q::Temperature, shelter.hot_wall.value).into(),
            wall.at.as_str().into(),
            kind.into(),
            Measure::new(Q::Temperature, limit.value).into(),
        ],
    );
    finding.working = working(design, shelter);
    if finding.verdict == Verdict::Good
        && design.battery_box.chemistry == Chemistry::Lithium
        && falls_short(air, COLDEST_CHARGED)
    {
        finding.verdict = Verdict::Watch;
        finding.margin = Some((air - COLDEST_CHARGED) / COLDEST_CHARGED);
        finding.compared = Phrase::new(
            "in air of {} a lithium battery is colder than {} until the machine has warmed it: charged so cold it is spoilt for good, and may burn later; warm it first, or have a charger that waits",
            [
                Measure::new(Q::Temperature, air).into(),
                Measure::new(Q::Temperature, COLDEST_CHARGED).into(),
            ],
        );
        finding.why = "Charged in the cold it plates out metal inside, which nobody sees (common practice, no source).";
        finding.levers = vec![Lever::input("battery_box.chemistry")];
    }
    finding
}

fn levers(design: &Design, wall: &Result<ZoneHeat, ShellError>) -> Vec<Lever> {
    let shield = &design.battery_box;
    let mut levers = vec![
        Lever::input("battery_box.sheets"),
        Lever::input("battery_box.gap"),
    ];
    if shield.sheets > 0 {
        levers.push(Lever::input("battery_box.sheet_emittance"));
    }
    levers.push(Lever::input("battery_box.beside"));
    if let Ok(heat) = wall {
        levers.extend(insulation(design, zone(design), heat.inner_temperature));
    }
    levers
}

fn working(design: &Design, shelter: &Shelter) -> Vec<Step> {
    let shield = &design.battery_box;
    let number = |value| Measure::new(Q::Number, value);
    let temperature = |value: ThermodynamicTemperature| Measure::new(Q::Temperature, value.value);
    let found = &shelter.found;
    let area = (
        "A",
        "side of the box",
        Measure::new(Q::Area, (shield.height * shield.width).value),
    );
    let (before, hot, emittance) = match found.shields.last() {
        Some(sheet) => ("last sheet", *sheet, shield.sheet_emittance),
        None => (
            "hot wall",
            shelter.hot_wall,
            zone(design).outer_emittance(design),
        ),
    };
    vec![
        Step {
            words: "Heat that reaches the box, through every gap alike; here through the last: radiation between grey plates, and air that conducts or moves",
            formula: "Q = A (σ (T₁⁴ − T₂⁴) / (1/ε₁ + 1/ε₂ − 1) + N λ (T₁ − T₂) / s)",
            values: vec![
                (
                    "T",
                    "outside of the hot wall",
                    temperature(shelter.hot_wall),
                ),
                (
                    "n",
                    "sheets",
                    Measure::new(Q::Count, f64::from(shield.sheets)),
                ),
                area,
                ("T₁", before, temperature(hot)),
                ("T₂", "face of the box", temperature(found.box_face)),
                ("ε₁", "emittance before the gap", number(emittance.value)),
                ("ε₂", "emittance of the box", number(shield.emittance.value)),
                (
                    "λ",
                    "air in the gap",
                    Measure::new(
                        Q::Conductivity,
                        conductivity(0.5 * (hot.value + found.box_face.value)),
                    ),
                ),
                ("s", "each gap", Measure::new(Q::Length, shield.gap.value)),
                (
                    "N",
                    "times as much as still air carries",
                    number(found.last_gap),
                ),
            ],
            result: Measure::new(Q::Power, found.heat.value),
            source: FromMemory(
                "ASTM C680, ISO 12241; grey parallel plates; ElSherbiny, Raithby and Hollands, Journal of Heat Transfer 104, 1982",
            ),
            sure: "Dust and rust raise the emittance of a bright sheet to 0.9: keep it clean, or enter 0.9.",
        },
        Step {
            words: "The side of the box towards the wall gives the heat to the air; no other side is counted",
            formula: "T = T_air + Q / (h A)",
            values: vec![
                ("T_air", "air", temperature(design.site.air_temperature)),
                (
                    "h",
                    "carried off by air and radiated",
                    Measure::new(Q::HeatTransferCoefficient, found.given_off.value),
                ),
                area,
            ],
            result: temperature(found.box_temperature),
            source: CommonPractice,
            sure: "Sun on the box is not counted: up to 20 K (36 °F) more. Shade it.",
        },
    ]
}
