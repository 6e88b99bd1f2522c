//! Does it come apart for service?

use crate::design::inputs::Group;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice as _, Design};
use crate::review::finding::{Chapter, Finding, Lever, Verdict};
use crate::sizing::sub_assemblies::TakingApart;

fn labels(groups: &[Group]) -> String {
    let labels: Vec<&str> = groups.iter().map(|group| group.label()).collect();
    labels.join(", ")
}

/// Does it come apart where it must?
pub(super) fn one_lump(design: &Design, apart: &TakingApart) -> Finding {
    let name = |place: &usize| {
        let joint = design.joints.get(*place);
        joint.map_or_else(String::new, |joint| joint.name.clone())
    };
    let (verdict, compared) = if design.joints.is_empty() {
        let words = "no joints are entered yet";
        (Verdict::CannotTell, Phrase::plain(words))
    } else if let Some(lump) = apart.lumps.iter().max_by_key(|lump| lump.groups.len()) {
        let words = "{} are welded into one: none of them can be replaced alone";
        (
            Verdict::Watch,
            Phrase::new(words, [labels(&lump.groups).into()]),
        )
    } else if let Some(place) = apart.service_welded.first() {
        let words = "{} is welded, yet it must come apart for service";
        (Verdict::Watch, Phrase::new(words, [name(place).into()]))
    } else {
        let count = |joints: &[usize]| Measure::new(Q::Count, joints.len() as f64).into();
        let words = "no weld joins two sub-assemblies; {} joints open, {} are welded";
        (
            Verdict::Good,
            Phrase::new(words, [count(&apart.opens), count(&apart.welded)]),
        )
    };
    let mut welds: Vec<usize> = (apart.lumps.iter())
        .flat_map(|lump| lump.welds.iter().copied())
        .chain(apart.service_welded.iter().copied())
        .collect();
    welds.sort_unstable();
    welds.dedup();
    Finding {
        id: "workshop.one_lump",
        chapter: Chapter::Workshop,
        title: "Comes apart for service",
        meaning: "Sub-assemblies that are bolted can be cleaned, mended and replaced one by one. Welded together they are one lump.",
        verdict,
        compared,
        why: "Hearths burn out and filters clog. What cannot come off is cut off.",
        margin: None,
        working: Vec::new(),
        caution: (verdict != Verdict::Good).then_some(
            "Hot work on a machine that has run lights tar and gas inside it. Let it cool, open it, and air it for long. Never weld or cut a container that held fuel.",
        ),
        levers: (welds.iter().take(4))
            .map(|place| Lever::input(format!("joints.{place}.kind")))
            .collect(),
        about: "joints",
    }
}
