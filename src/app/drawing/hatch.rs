//! Hatching of cut materials, after the drawing conventions of ISO 128-50: metal in diagonal lines,
//! loose insulation in waves, stone in crossed diagonals, fills in dots.

use crate::design::inputs::Material;
use crate::sizing::machine::Substance;
use std::fmt::Write as _;

/// The paint for a substance, as a reference to one of [`patterns`].
pub fn fill(substance: Substance) -> &'static str {
    match substance {
        Substance::Material(material) => match material {
            Material::MildSteel
            | Material::Stainless304
            | Material::Stainless310
            | Material::Aluminium => "url(#hatch-metal)",
            Material::CeramicBlanket1260 | Material::CeramicBlanket1430 | Material::RockWool => {
                "url(#hatch-wool)"
            }
            Material::CalciumSilicate
            | Material::Vermiculite
            | Material::InsulatingFirebrick
            | Material::DenseCastable => "url(#hatch-stone)",
            Material::Perlite | Material::WoodAsh => "url(#hatch-dots)",
            Material::AirGap => "none",
            Material::Own1 | Material::Own2 | Material::Own3 | Material::Own4 => {
                "url(#hatch-stone)"
            }
        },
        Substance::Wood => "url(#hatch-wood)",
        Substance::Char => "url(#hatch-char)",
        Substance::Fill => "url(#hatch-dots)",
        Substance::Unknown => "none",
    }
}

/// The patterns as SVG, scaled to the figure: `step` is the distance of the lines in mm.
pub fn patterns(step: f64) -> String {
    let mut svg = String::from("<defs>");
    for (id, share, lines) in PATTERNS {
        // Writing to a string cannot fail.
        let _ = write!(
            svg,
            "<pattern id=\"{id}\" width=\"10\" height=\"10\" patternUnits=\"userSpaceOnUse\" \
             patternTransform=\"scale({:.2})\"><rect class=\"hatch-ground\" width=\"10\" height=\"10\" fill=\"#fff\" stroke=\"none\"/>\
             <path class=\"hatch-line\" d=\"{lines}\" fill=\"none\" stroke=\"#555\" stroke-width=\"0.6\"/></pattern>",
            step * share
        );
    }
    svg.push_str("</defs>");
    svg
}

/// Name, distance of the lines as a share of the step, lines on a square of 10 by 10.
const PATTERNS: [(&str, f64, &str); 6] = [
    ("hatch-metal", 0.06, "M-1 11L11 -1M-1 1L1 -1M9 11L11 9"),
    ("hatch-wool", 0.1, "M0 5q2.5 -5 5 0t5 0"),
    ("hatch-stone", 0.1, "M0 10L10 0M0 0L10 10"),
    ("hatch-dots", 0.1, "M2 2h.8M7 7h.8M7 2.5h.5M2.5 7h.5"),
    (
        "hatch-wood",
        0.2,
        "M1 2l4 1-.6 2-4-1zM6 6l3 1.5-.8 1.8-3-1.5z",
    ),
    (
        "hatch-char",
        0.12,
        "M1 1h2v2h-2zM6 2h2v2h-2zM3 6h2v2h-2zM7.5 7h2v2h-2z",
    ),
];
