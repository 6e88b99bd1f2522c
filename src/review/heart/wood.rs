//! Is the wood dry enough, and do its pieces slide?

use super::Heart;
use crate::design::Design;
use crate::design::Source::{CommonPractice, Published};
use crate::design::inputs::HearthKind;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::sizing::fuel::HEAT_OF_EVAPORATION;

/// Below this share of a bridging mark pieces are sure to hang. Our own mark.
const SURE_TO_HANG: f64 = 0.7;

/// Moisture against its marks.
pub(super) fn moisture(design: &Design, heart: &Heart) -> Finding {
    let limits = &design.limits;
    let (good, stop) = (limits.moisture_good().value, limits.moisture_stop.value);
    let mut finding = Finding {
        id: "heart.moisture",
        chapter: Chapter::Heart,
        title: "Moisture of the wood",
        meaning: "Water in the wood must be boiled off inside the hearth, with heat that is then missing where tar should break up.",
        verdict: Verdict::CannotTell,
        compared: Phrase::plain(""),
        why: "Wet wood makes a cold hearth, weak gas and much tar; no insulation makes up for it.",
        margin: None,
        working: Vec::new(),
        caution: None,
        levers: Vec::new(),
        about: "fuel",
    };
    let moisture = match &heart.moisture {
        Ok(moisture) => moisture,
        Err(error) => {
            finding.compared = Phrase::new("{}", [error.to_string().into()]);
            return finding;
        }
    };
    let found = moisture.wet_basis.value;
    let share = |value| Measure::new(Q::Share, value);
    let by_share = |found| Verdict::at_most(found, good, stop);
    let off = (moisture.weighed.as_ref()).map_or(0.0, |weighed| weighed.uncertainty.value);
    let worst = by_share(found + off);
    finding.verdict = match by_share(found) {
        // The scale is too coarse to tell.
        Verdict::Good if worst != Verdict::Good => Verdict::CannotTell,
        likely => likely,
    };
    finding.margin = (finding.verdict != Verdict::CannotTell).then_some(1.0 - found / good);
    finding.compared = match &moisture.weighed {
        Some(weighed) => Phrase::new(
            match finding.verdict {
                Verdict::CannotTell => {
                    "{} water by weighing, give or take {}; good up to {}, stop above {}: it may be more than is good. Weigh more of it, or with a finer scale"
                }
                Verdict::Watch if worst == Verdict::Stop => {
                    "{} water by weighing, give or take {}; good up to {}, stop above {}: it may be above that too. Weigh more of it, or with a finer scale"
                }
                _ => "{} water by weighing, give or take {}; good up to {}, stop above {}",
            },
            [
                share(found).into(),
                share(weighed.uncertainty.value).into(),
                share(good).into(),
                share(stop).into(),
            ],
        ),
        None => Phrase::new(
            "{} water; good up to {}, stop above {}",
            [share(found).into(), share(good).into(), share(stop).into()],
        ),
    };
    if moisture.weighed.is_none() {
        finding.levers.push(Lever::input("fuel.moisture"));
    }
    let weights = (design.fuel.weighed_before, design.fuel.weighed_after);
    if let (Some(weighed), (Some(before), Some(after))) = (&moisture.weighed, weights) {
        finding.working.push(Step {
            words: "Moisture by weighing, drying at 105 °C and weighing again",
            formula: "u = (m₁ − m₂) / m₁",
            values: vec![
                ("m₁", "before drying", Measure::new(Q::Mass, before.value)),
                ("m₂", "after drying", Measure::new(Q::Mass, after.value)),
                (
                    "u_dry",
                    "the same over the dry weight, as foresters say it",
                    share(weighed.dry_basis.value),
                ),
            ],
            result: share(found),
            source: CommonPractice,
            sure: "as sure as the scale, if the sample was bone dry; take several from the middle of the heap",
        });
    }
    if let Ok(heating) = &heart.heating {
        finding.working.push(Step {
            words: "Heat left in the wood as loaded, its water as vapour",
            formula: "H = H_dry (1 − u) − L u",
            values: vec![
                (
                    "H_dry",
                    "lower heating value of the dry wood",
                    Measure::new(Q::EnergyPerMass, heating.lower_dry.value),
                ),
                ("u", "moisture", share(found)),
                (
                    "L",
                    "heat that makes steam of water",
                    Measure::new(Q::EnergyPerMass, HEAT_OF_EVAPORATION),
                ),
            ],
            result: Measure::new(Q::EnergyPerMass, heating.lower_as_fired.value),
            source: Published("Channiwala and Parikh, Fuel 81, 2002; evaporation as in ISO 18125"),
            sure: "±3 %",
        });
    }
    finding
}

/// One rule of thumb about the size of a piece.
struct Rule {
    words: &'static str,
    formula: &'static str,
    symbol: &'static str,
    what: &'static str,
    /// The size compared with, m; shown as this quantity.
    size: f64,
    quantity: Q,
    /// What the ratio is, and should at least be.
    ratio: f64,
    least: f64,
    path: &'static str,
}

/// Size of the pieces against fire tube, throat and nozzles.
pub(super) fn pieces(design: &Design) -> Finding {
    let piece = design.fuel.piece_size.value;
    let rules = rules(design);
    let worst = rules
        .iter()
        .min_by(|one, other| (one.ratio / one.least).total_cmp(&(other.ratio / other.least)));
    let share = worst.map_or(f64::NAN, |rule| rule.ratio / rule.least);
    let compared = worst.map_or_else(
        || Phrase::plain(""),
        |rule| {
            Phrase::new(
                "pieces of {}, {} of {}: {} times, wanted at least {} times",
                [
                    Measure::new(Q::Length, piece).into(),
                    rule.what.into(),
                    Measure::new(rule.quantity, rule.size).into(),
                    Measure::new(Q::Number, rule.ratio).into(),
                    Measure::new(Q::Number, rule.least).into(),
                ],
            )
        },
    );
    let mut levers = vec![Lever::input("fuel.piece_size")];
    levers.extend(worst.map(|rule| Lever::input(rule.path)));
    Finding {
        id: "heart.pieces",
        chapter: Chapter::Heart,
        title: "Size of the wood pieces",
        meaning: match design.hearth.kind {
            HearthKind::Constricted => {
                "Large pieces lock into a bridge that hangs over a hole; small ones choke the fire and get into the nozzles."
            }
            HearthKind::Straight => {
                "Large pieces lock into a bridge that hangs over a hole; small ones choke the fire."
            }
        },
        verdict: Verdict::at_least(share, 1.0, SURE_TO_HANG),
        compared,
        why: "Under a bridge the char burns away, the hearth cools and tar comes through without warning.",
        margin: (share - 1.0).is_finite().then_some(share - 1.0),
        working: rules
            .iter()
            .map(|rule| Step {
                words: rule.words,
                formula: rule.formula,
                values: vec![
                    ("p", "piece", Measure::new(Q::Length, piece)),
                    (rule.symbol, rule.what, Measure::new(rule.quantity, rule.size)),
                ],
                result: Measure::new(Q::Number, rule.ratio),
                source: CommonPractice,
                sure: "a rule of thumb: long, splintered or mixed pieces hang sooner than even blocks",
            })
            .collect(),
        caution: Some("Never poke a bridge loose from above while the fire is hot: gas and flame shoot out."),
        levers,
        about: "fuel",
    }
}

fn rules(design: &Design) -> Vec<Rule> {
    let piece = design.fuel.piece_size.value;
    let (hearth, limits) = (&design.hearth, &design.limits);
    let tube = |what, diameter: f64, path| Rule {
        words: "Width that the wood slides through over piece",
        formula: "r = D / p",
        symbol: "D",
        what,
        size: diameter,
        quantity: Q::Length,
        ratio: diameter / piece,
        least: limits.ring_per_piece,
        path,
    };
    let body = tube(
        "body wall",
        design.body_wall.inside_diameter.value,
        "body_wall.inside_diameter",
    );
    let hopper = (design.hopper.fitted)
        .then(|| tube("hopper", design.hopper.diameter.value, "hopper.diameter"));
    if hearth.kind == HearthKind::Straight {
        let fire_tube = tube(
            "fire tube",
            hearth.tube_diameter.value,
            "hearth.tube_diameter",
        );
        return [fire_tube, body].into_iter().chain(hopper).collect();
    }
    let (throat, bore) = (hearth.throat_diameter.value, hearth.nozzle_bore.value);
    [
        tube(
            "fire tube",
            hearth.nozzle_ring_diameter.value,
            "hearth.nozzle_ring_diameter",
        ),
        body,
        Rule {
            words: "Throat over piece; charred pieces have shrunk by then",
            formula: "r = d / p",
            symbol: "d",
            what: "throat",
            size: throat,
            quantity: Q::Length,
            ratio: throat / piece,
            least: limits.throat_per_piece,
            path: "hearth.throat_diameter",
        },
        Rule {
            words: "Piece over nozzle bore",
            formula: "r = p / b",
            symbol: "b",
            what: "nozzle bore",
            size: bore,
            quantity: Q::Thickness,
            ratio: piece / bore,
            least: limits.piece_per_nozzle,
            path: "hearth.nozzle_bore",
        },
    ]
    .into_iter()
    .chain(hopper)
    .collect()
}
