//! Is the outside cool enough to touch, or at least behind a guard?

use super::{BURN_CAUTION, Hottest, levers, steps};
use crate::design::Design;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Verdict};
use crate::sizing::zone::Zone;

/// Below this emittance a coat of dull paint is worth trying.
const BRIGHT: f64 = 0.7;

/// The outside of one zone, as it is hottest, against the touch limit.
pub(super) fn finding(design: &Design, zone: Zone, hottest: &Hottest) -> Finding {
    let (id, title) = match zone {
        Zone::Hearth => ("warmth.touch_hearth", "Outside of the hearth wall"),
        Zone::Body => ("warmth.touch_body", "Outside of the body wall"),
        Zone::Lid => ("warmth.touch_lid", "Outside of the lid"),
        Zone::Bottom => ("warmth.touch_bottom", "Outside of the bottom"),
    };
    let guarded = zone.guarded(design);
    let mut finding = Finding {
        id,
        chapter: Chapter::Warmth,
        title,
        meaning: "How hot the outside gets while running. Too hot, and a hand that brushes it is burnt.",
        verdict: Verdict::CannotTell,
        compared: Phrase::plain(""),
        why: if guarded {
            "A guard keeps hands off, but a very hot surface still lights chaff, leaves or oil."
        } else {
            "Metal at the touch mark burns skin after some five seconds; the hotter, the faster. What is held for longer must be cooler: 51 °C (124 °F) for a minute, 48 °C (118 °F) for ten, 43 °C (109 °F) for a working day (ISO 13732-1, from memory)."
        },
        margin: None,
        working: Vec::new(),
        caution: Some(BURN_CAUTION),
        levers: Vec::new(),
        about: zone.section(),
    };
    let heat = match &hottest.heat {
        Ok(heat) => heat,
        Err(error) => {
            finding.compared = Phrase::new("{}", [error.to_string().into()]);
            return finding;
        }
    };
    let limit = if guarded {
        design.limits.guarded_temperature
    } else {
        design.limits.touch_temperature
    };
    let surface = heat.surface_temperature.value;
    let air = design.site.air_temperature.value;
    finding.verdict = Verdict::at_most(surface, limit.value, limit.value);
    finding.compared = Phrase::new(
        if guarded {
            "{} outside{} in still air, behind a guard; up to {} is good"
        } else if surface > limit.value {
            "{} outside{} in still air: burns the hand. Safe to touch: up to {}; fit a guard, or insulate better"
        } else {
            "{} outside{} in still air. Safe to touch: up to {}"
        },
        [
            Measure::new(Q::Temperature, surface).into(),
            hottest.at.as_str().into(),
            Measure::new(Q::Temperature, limit.value).into(),
        ],
    );
    finding.margin = Some((limit.value - surface) / (limit.value - air).max(1.0));
    finding.working = vec![steps::loss(design, heat), steps::surface(design, heat)];
    finding.levers = levers::insulation(design, zone, heat.inner_temperature);
    let path = |name: &str| Lever::input(format!("{}.{name}", zone.section()));
    if !guarded {
        finding.levers.push(path("guarded"));
    }
    if zone.outer_emittance(design).value < BRIGHT {
        finding.levers.push(path("outer_emittance"));
    }
    finding
}
