//! Is the steel of the fire tube thick enough?

use super::questions::finite;
use crate::design::Design;
use crate::design::Source::{FromMemory, OwnMark};
use crate::design::inputs::{HearthKind, HearthMaterial};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::review::heart::Heart;
use crate::sizing::scaling::{ACTIVATION, GROWTH, OXYGEN, STEEL, time_to_scale};

/// Least wall of steel that bears its heat, m: welds burn through thinner sheet, and a poker dents it. Our own mark.
const COLD: f64 = 0.002;
/// Least wall of steel that is hotter than it bears for long, m: it scales, sags and cracks. Our own mark.
const HOT: f64 = 0.003;
/// Steel begins to melt, K: stainless 304 at 1400 °C, mild steel some 80 K above (from memory).
const MELTS: f64 = 1673.0;
/// Below this share of the least wall it is a Stop. Our own mark.
const GREY: f64 = 0.5;

/// The wall of the fire tube against the least of its heat. None for what is cast, which has its own mark, and while nobody
/// knows how hot it gets.
pub(super) fn wall(design: &Design, heart: &Heart) -> Option<Finding> {
    let hearth = &design.hearth;
    if hearth.material == HearthMaterial::DenseCastable {
        return None;
    }
    let (rim, at) = heart.hottest_wall()?;
    let limit = design.material(hearth.material.material()).ok()?.limit;
    let hot = rim > limit;
    let least = if hot { HOT } else { COLD };
    let wall = hearth.steel_thickness;
    // No thickness is enough where it melts.
    let melts = rim.value >= MELTS;
    let (verdict, margin) = match melts {
        true => (Verdict::Stop, MELTS / rim.value - 1.0),
        false => (
            Verdict::at_least(wall.value, least, GREY * least),
            wall.value / least - 1.0,
        ),
    };
    let thickness = |metres| Measure::new(Q::Thickness, metres);
    let temperature = |kelvin| Measure::new(Q::Temperature, kelvin);
    let mild = hearth.material == HearthMaterial::MildSteel;
    let scaled = (time_to_scale(wall, rim)).filter(|_| mild && !melts);
    let slots = [
        thickness(wall.value).into(),
        temperature(rim.value).into(),
        at.into(),
        thickness(least).into(),
    ];
    let compared = match (scaled, hot) {
        _ if melts => Phrase::new(
            "the wall is {} thick and the rim of the fire at {} {}, where steel melts: no thickness is enough",
            slots.into_iter().take(3),
        ),
        (Some(time), _) => Phrase::new(
            "the wall is {} thick and the rim of the fire at {} {}; wanted {}; air as hot would turn it all to scale in {}",
            slots
                .into_iter()
                .chain([Measure::new(Q::LongTime, time.value).into()]),
        ),
        (None, true) => Phrase::new(
            "the wall is {} thick and the rim of the fire at {} {}, above what it bears for long; wanted {}",
            slots,
        ),
        (None, false) => Phrase::new(
            "the wall is {} thick and the rim of the fire at {} {}; wanted {}",
            slots,
        ),
    };
    let mark = Step {
        words: "Wall of the fire tube against the least for its heat",
        formula: match hot {
            true => "s ≥ s_min, T > T_max",
            false => "s ≥ s_min, T ≤ T_max",
        },
        values: vec![
            ("s_min", "least wall", thickness(least)),
            ("T", "rim of the fire", temperature(rim.value)),
            (
                "T_max",
                "what the steel bears for long",
                temperature(limit.value),
            ),
        ],
        result: thickness(wall.value),
        source: OwnMark("thinner steel is soon burnt through where it is welded, dented or scaled"),
        sure: "a habit of the workshop, not a limit; below half of it is a Stop",
    };
    let scale = scaled.map(|time| Step {
        words: "Time in which air of that heat turns the wall into scale",
        formula: "t = (x ρ s)² / k, k = k₀ e^(−B / T)",
        values: vec![
            ("x", "oxygen that a kilogram of iron binds, in kg", Measure::new(Q::Number, OXYGEN)),
            ("ρ", "steel", Measure::new(Q::Density, STEEL)),
            ("s", "wall of the fire tube", thickness(wall.value)),
            ("k₀", "growth of scale in kg²/(m⁴ s)", Measure::new(Q::Number, GROWTH)),
            ("B", "how it grows with heat, in kelvin", Measure::new(Q::Number, ACTIVATION)),
            ("T", "rim of the fire", temperature(rim.value)),
        ],
        result: Measure::new(Q::LongTime, time.value),
        source: FromMemory("Païdassi, Acta Metallurgica 6, 1958: iron in air from 700 to 1250 °C"),
        sure: "within a factor of three: slower in the lean gas below the fire, faster where scale flakes off at each cooling",
    });
    Some(Finding {
        id: "hearth.wall",
        chapter: Chapter::Hearth,
        title: "Thickness of the fire tube",
        meaning: "Fire and air eat the steel of the fire tube from its surface: a thin wall has little to give.",
        verdict,
        compared,
        why: match hearth.kind {
            HearthKind::Constricted => {
                "Through a hole in the fire tube smoke or air gets past the throat into the gas: tar in the engine, or gas that burns where it should not."
            }
            HearthKind::Straight => {
                "Through a hole in the fire tube smoke or air gets past the fire into the gas: tar in the engine, or gas that burns where it should not."
            }
        },
        margin: finite(margin),
        working: [mark].into_iter().chain(scale).collect(),
        caution: Some(
            "Air that gets into the gas past the fire may make a mixture that explodes in the train. Look at the fire tube whenever the hearth is cold and aired, and change it before it is through.",
        ),
        levers: (["hearth.steel_thickness", "hearth.material"].into_iter())
            .skip(usize::from(melts))
            .map(Lever::input)
            .collect(),
        about: "hearth",
    })
}
