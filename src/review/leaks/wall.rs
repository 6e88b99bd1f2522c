//! Does every wall hold the gas?

use super::blank::{CARBON_MONOXIDE, blank};
use crate::design::inputs::{Layer, Material};
use crate::design::phrase::{Phrase, lower_first};
use crate::design::{Choice, Design, Value};
use crate::review::finding::{Finding, Lever, Verdict};
use crate::sizing::zone::Zone;

/// Sheet for a layer of metal, where the search for it begins, m.
const SHEET: f64 = 0.003;

fn verdict(layers: &[Layer]) -> Verdict {
    let any = |is: fn(Material) -> bool| layers.iter().any(|layer| is(layer.material));
    if any(Material::is_metal) {
        Verdict::Good
    } else if any(Material::is_own) {
        // Whether gas passes it is not known.
        Verdict::CannotTell
    } else {
        Verdict::Stop
    }
}

/// Is there a layer of metal in each wall and end?
pub(super) fn holds_gas(design: &Design) -> Finding {
    let mut finding = blank(
        "leaks.wall",
        "A wall that holds the gas",
        "Only metal keeps gas in and air out: wool, brick and castable let both through.",
        "Air that comes through the wall burns the gas inside, and gas that goes out is poisonous.",
    );
    finding.caution = Some(CARBON_MONOXIDE);
    finding.about = Zone::Hearth.layer_list();
    let zones = Zone::ALL.map(|zone| (zone, verdict(zone.layers(design))));
    let worst = (zones.iter().map(|(_, verdict)| *verdict).max()).unwrap_or(Verdict::Good);
    let failing = || zones.iter().filter(|(_, verdict)| *verdict == worst);
    finding.verdict = worst;
    if worst == Verdict::Good {
        finding.compared =
            Phrase::plain("hearth wall, body wall, lid and bottom have a layer of metal each");
        return finding;
    }
    let names: Vec<String> = failing()
        .map(|(zone, _)| lower_first(zone.label()))
        .collect();
    finding.compared = Phrase::new(
        match worst {
            Verdict::Stop => "without a layer of metal: {}",
            _ => {
                "without a layer of metal, and whether a material of your own is tight is not known: {}"
            }
        },
        [names.join(", ").into()],
    );
    if let Some((zone, _)) = failing().next() {
        finding.about = zone.layer_list();
    }
    if worst == Verdict::Stop {
        // One wall mended is one less.
        finding.margin = Some(-(names.len() as f64) / Zone::ALL.len() as f64);
    }
    let steel = Value::Choice(Material::MildSteel.name().to_string());
    finding.levers = failing()
        .map(|(zone, _)| Lever::NewItem {
            list: zone.layer_list(),
            index: zone.layers(design).len(),
            fields: vec![
                ("material", steel.clone()),
                ("thickness", Value::Number(SHEET)),
            ],
            solve_for: "thickness",
        })
        .collect();
    finding
}
