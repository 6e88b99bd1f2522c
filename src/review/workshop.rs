//! Parts, lifting, and what comes apart.

mod as_made;
mod tubes;

pub use as_made::told_apart;

use super::finding::{Chapter, Finding, Lever, NamedResult, Step, Verdict};
use crate::design::Source::CommonPractice;
use crate::design::inputs::{CostKind, Group, Presence, Shape};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice, Design, Value};
use crate::sizing::as_made::{MadeOtherwise, made_otherwise};
use crate::sizing::machine::{Machine, Piece, Solid};
use crate::sizing::parts_list::{PartLine, group_of, parts_for_stages, parts_list};
use crate::sizing::sub_assemblies::{SubAssembly, TakingApart, sub_assemblies, taking_apart};
use crate::sizing::train_mass::jacket;
use uom::si::f64::Mass;

/// What stands for the stages of a sub-assembly must weigh this share of them: our own mark, for what no size tells.
const PLACED_SHARE: f64 = 0.9;
/// Stages that weigh less than this need no place, kg.
const LIGHT: f64 = 1.0;
/// Height of a part that stands for stages of the train, m.
const NEW_HEIGHT: f64 = 0.3;
/// How far from the middle of the base a part may stand, m.
const FARTHEST: f64 = 4.0;
/// Sub-assemblies that hold little but the gas train.
const TRAIN_GROUPS: [Group; 3] = [Group::Filter, Group::Cooler, Group::Condensate];

/// The question about what stands for the gas train.
pub(super) const TRAIN_WEIGHT: &str = "workshop.train_weight";

/// What the stages of the gas train in a sub-assembly weigh, and what stands for them on the scales.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrainWeight {
    /// The sub-assembly.
    pub group: Group,
    /// Its stages, by their sizes or as weighed, with the water of a jacket.
    pub computed: Mass,
    /// The other parts that stand for them, which have a place.
    pub placed: Mass,
}

impl TrainWeight {
    /// Watch when what stands for the stages weighs clearly less than they do.
    pub fn verdict(&self) -> Verdict {
        if self.computed.value < LIGHT || self.placed >= self.computed * PLACED_SHARE {
            Verdict::Good
        } else {
            Verdict::Watch
        }
    }
}

/// Parts, lifting, and what comes apart.
#[derive(Debug, Clone, PartialEq)]
pub struct WorkshopReview {
    /// The parts list.
    pub parts: Vec<PartLine>,
    /// What the stages of the gas train weigh, by sub-assembly.
    pub train_weights: Vec<TrainWeight>,
    /// What each sub-assembly weighs, and which needs a hoist.
    pub sub_assemblies: Vec<SubAssembly>,
    /// Which joints open, and which sub-assemblies no longer come apart.
    pub apart: TakingApart,
    /// Parts that the design has otherwise than when their joint was ticked.
    pub otherwise: Vec<MadeOtherwise>,
}

impl WorkshopReview {
    /// The computed numbers with their stable names.
    pub fn results(&self) -> Vec<NamedResult> {
        let mut results = Vec::with_capacity(12);
        let mut tell = |name: String, label: String, count: f64| {
            results.push(NamedResult::new(
                format!("workshop.{name}"),
                label,
                Measure::new(Q::Count, count),
            ));
        };
        let changed = self.parts.iter().filter(|part| part.changed()).count();
        tell(
            "part_lines".into(),
            "Lines of the parts list".into(),
            self.parts.len() as f64,
        );
        tell(
            "changed_lines".into(),
            "Lines changed by hand".into(),
            changed as f64,
        );
        for one in &self.train_weights {
            let (name, label) = (one.group.name(), one.group.label());
            results.push(NamedResult::new(
                format!("workshop.train_mass_{name}"),
                format!("Weight of the gas train, {label}"),
                mass(one.computed.value),
            ));
        }
        let mut tell = |name: String, label: String, count: f64| {
            results.push(NamedResult::new(
                format!("workshop.{name}"),
                label,
                Measure::new(Q::Count, count),
            ));
        };
        for one in &self.sub_assemblies {
            let (name, label) = (one.group.name(), one.group.label());
            tell(
                format!("people_for_{name}"),
                format!("People to lift {label}"),
                one.people,
            );
        }
        results
    }
}

/// Puts a design through the questions of this chapter.
pub(super) fn examine(design: &Design, machine: &Machine) -> (WorkshopReview, Vec<Finding>) {
    let parts = parts(design, machine);
    let workshop = WorkshopReview {
        train_weights: train_weights(design, &parts, machine),
        sub_assemblies: sub_assemblies(machine, design.workshop.lifters, design.limits.lift_mass),
        apart: taking_apart(design),
        otherwise: made_otherwise(design, machine, &parts),
        parts,
    };
    let asked = [
        lifting(design, &workshop),
        train_weight(design, machine, &workshop),
        one_lump(design, &workshop.apart),
    ];
    let findings = (asked.into_iter())
        .chain(tubes::fit(design, machine))
        .chain(as_made::as_drawn(design, &workshop.otherwise))
        .collect();
    (workshop, findings)
}

/// The parts list of a design, for searches that ask many times.
pub(super) fn parts(design: &Design, machine: &Machine) -> Vec<PartLine> {
    parts_list(design, machine)
}

fn mass(kilograms: f64) -> Measure {
    Measure::new(Q::Mass, kilograms)
}

/// Can the people at hand lift each sub-assembly?
fn lifting(design: &Design, workshop: &WorkshopReview) -> Finding {
    let (lifters, each) = (design.workshop.lifters, design.limits.lift_mass.value);
    let most = f64::from(lifters) * each;
    let mut finding = Finding {
        id: "workshop.lift",
        chapter: Chapter::Workshop,
        title: "Lifting the sub-assemblies",
        meaning: "What people at hand may lift together, against the weight of each sub-assembly without wood and water.",
        verdict: Verdict::CannotTell,
        compared: Phrase::plain("nothing weighs anything yet"),
        why: "A back that is hurt once stays hurt, and what slips out of hands falls on feet.",
        margin: None,
        working: Vec::new(),
        caution: Some(
            "Never stand or reach under a load that hangs. Use slings and eyes rated for the weight, and lift above the centre of gravity.",
        ),
        levers: vec![
            Lever::input("workshop.hoist"),
            Lever::input("workshop.lifters"),
        ],
        about: "workshop",
    };
    let heaviest =
        (workshop.sub_assemblies.iter()).max_by(|a, b| a.mass.value.total_cmp(&b.mass.value));
    let Some(heaviest) = heaviest else {
        return finding;
    };
    let hoisted: Vec<&str> = (workshop.sub_assemblies.iter())
        .filter(|one| one.needs_hoist)
        .map(|one| one.group.label())
        .collect();
    finding.margin = Some(most / heaviest.mass.value - 1.0).filter(|margin| margin.is_finite());
    let measures = [
        heaviest.group.label().into(),
        mass(heaviest.mass.value).into(),
        mass(most).into(),
    ];
    (finding.verdict, finding.compared) = if hoisted.is_empty() {
        let words = "the heaviest is {} with {}; the people at hand lift {}";
        (Verdict::Good, Phrase::new(words, measures))
    } else if design.workshop.hoist {
        finding.margin = Some(0.0);
        let words =
            "the heaviest is {} with {}, above the {} of the people at hand; the hoist lifts {}";
        let names = [hoisted.join(", ").into()];
        (
            Verdict::Good,
            Phrase::new(words, measures.into_iter().chain(names)),
        )
    } else {
        let words = "the heaviest is {} with {}, above the {} of the people at hand; a hoist is needed for {}";
        let names = [hoisted.join(", ").into()];
        (
            Verdict::Watch,
            Phrase::new(words, measures.into_iter().chain(names)),
        )
    };
    finding.working = vec![Step {
        words: "What people lift together",
        formula: "M = n m",
        values: vec![
            (
                "n",
                "people who lift",
                Measure::new(Q::Count, f64::from(lifters)),
            ),
            ("m", "lift by one person", mass(each)),
        ],
        result: mass(most),
        source: CommonPractice,
        sure: "a mark for healthy adults who grip well; a hot, dirty or awkward part is harder",
    }];
    finding
}

/// What the jackets of a sub-assembly hold: a jacket is always full, so its water weighs with the stage.
fn jacket_water(design: &Design, group: Group) -> Mass {
    let of_group = (design.train.iter()).filter(|stage| group_of(stage.kind) == group);
    of_group.filter_map(jacket).map(|jacket| jacket.water).sum()
}

fn train_weights(design: &Design, parts: &[PartLine], machine: &Machine) -> Vec<TrainWeight> {
    let stands_for = parts_for_stages(design, parts);
    (Group::OPTIONS.iter())
        .filter_map(|option| Group::from_name(option.name))
        .filter_map(|group| {
            let stages = |line: &&PartLine| line.group == group && line.from.starts_with("train.");
            let computed = (parts.iter().filter(stages))
                .map(|line| line.mass)
                .sum::<Mass>()
                + jacket_water(design, group);
            (computed.value > 0.0).then(|| TrainWeight {
                group,
                computed,
                placed: standing_for(machine, &stands_for, group)
                    .map(|(_, solid)| solid.mass)
                    .sum(),
            })
        })
        .collect()
}

/// Does something stand for the gas train where weight and tipping are asked?
fn train_weight(design: &Design, machine: &Machine, workshop: &WorkshopReview) -> Finding {
    let all = |share: fn(&TrainWeight) -> Mass| -> Measure {
        mass(workshop.train_weights.iter().map(share).sum::<Mass>().value)
    };
    let missing = || (workshop.train_weights.iter()).filter(|one| one.verdict() != Verdict::Good);
    let (verdict, compared) = match missing().next() {
        _ if workshop.train_weights.is_empty() => {
            let words = "the gas train has no stages";
            (Verdict::CannotTell, Phrase::plain(words))
        }
        Some(one) => {
            let words = "{}: its stages weigh {}, the other parts that are named for them {}; what is missing there is missing from the weight";
            let slots = [
                one.group.label().into(),
                mass(one.computed.value).into(),
                mass(one.placed.value).into(),
            ];
            (Verdict::Watch, Phrase::new(words, slots))
        }
        None => {
            let nameless = nameless(&workshop.parts);
            let words = if nameless.is_empty() {
                "its stages weigh {}; the other parts that stand for them weigh {} where they stand"
            } else {
                "its stages weigh {}; the other parts that stand for them weigh {} where they stand; none of them is named for {}"
            };
            let weights = [all(|one| one.computed).into(), all(|one| one.placed).into()];
            let named = (!nameless.is_empty()).then(|| nameless.into());
            (
                Verdict::Good,
                Phrase::new(words, weights.into_iter().chain(named)),
            )
        }
    };
    Finding {
        id: TRAIN_WEIGHT,
        chapter: Chapter::Workshop,
        title: "Weight of the gas train",
        meaning: "The stages of the gas train have a weight but no place. Other parts that are named for them stand for them in weight and tipping, with what lies in these.",
        verdict,
        compared,
        why: if verdict == Verdict::Watch {
            "A heavy cooler or filter that was forgotten moves the centre of gravity. What is offered here is what its stages weigh by their sizes, where the train is taken to stand: weigh it, and put its own weight and place there."
        } else {
            "A heavy cooler or filter that was forgotten moves the centre of gravity."
        },
        margin: None,
        working: (!workshop.train_weights.is_empty())
            .then(|| Step {
            words: "All stages, each from the sizes of its tubes, drums and cones, or as entered; the water of a jacket weighs with it",
            formula: "m = Σ mᵢ",
            values: stage_weights(design, &workshop.parts),
            result: all(|one| one.computed),
            source: CommonPractice,
            sure: "without headers, brackets and inlets; the jacket is taken for a round shell of 3 mm (1/8 in) steel around the tubes, our own assumption; weigh it when it stands there, and enter that",
        })
            .into_iter()
            .collect(),
        caution: None,
        levers: missing()
            .flat_map(|one| stand_ins(design, machine, &workshop.parts, one.group))
            .collect(),
        about: "parts",
    }
}

/// The stages that weigh something, but that no other part is named for.
fn nameless(parts: &[PartLine]) -> String {
    let stages = parts.iter().filter(|line| {
        line.from.starts_with("train.")
            && line.stand_in.is_none()
            && line.kind == CostKind::Bought
            && line.mass.value >= LIGHT
    });
    let names: Vec<&str> = stages.map(|line| line.name.as_str()).collect();
    names.join(", ")
}

/// What each stage weighs on the parts list.
fn stage_weights(
    design: &Design,
    parts: &[PartLine],
) -> Vec<(&'static str, &'static str, Measure)> {
    let stages = design.train.iter().enumerate();
    stages
        .map(|(place, stage)| {
            let from = format!("train.{place}");
            let lines = parts.iter().filter(|line| line.from == from);
            let weight: Mass = lines.map(|line| line.mass).sum();
            let water = jacket(stage).map_or(Mass::default(), |jacket| jacket.water);
            ("mᵢ", stage.kind.label(), mass((weight + water).value))
        })
        .collect()
}

/// Parts that stand for the stages of a sub-assembly: the heaviest weighed one that is too light made heavier, or a new one.
fn stand_ins(design: &Design, machine: &Machine, parts: &[PartLine], group: Group) -> Vec<Lever> {
    let stands_for = parts_for_stages(design, parts);
    // One that weighs as much as its own stages already is right as it is.
    let is_right = |index: usize, solid: &Solid| {
        let stages = parts.iter().filter(|line| line.stand_in == Some(index));
        let wanted: Mass = stages.map(|line| line.mass).sum();
        wanted > Mass::default() && solid.mass >= wanted * PLACED_SHARE
    };
    let weighed = standing_for(machine, &stands_for, group)
        .filter(|(index, solid)| {
            let part = design.parts.get(*index);
            part.is_some_and(|part| part.shape == Shape::Weighed) && !is_right(*index, solid)
        })
        .max_by(|(_, one), (_, other)| one.mass.value.total_cmp(&other.mass.value))
        .map(|(index, _)| Lever::input(format!("parts.{index}.mass")));
    let [x, y, z] = place_of_train(design, machine, group);
    let number = Value::Number;
    let named = |name: &str| Value::Choice(name.to_string());
    let new = Lever::NewItem {
        list: "parts",
        index: design.parts.len(),
        fields: vec![
            (
                "name",
                Value::Text(format!("{} stages, to weigh and place", group.label())),
            ),
            ("group", named(group.name())),
            ("shape", named("weighed")),
            ("height", number(NEW_HEIGHT)),
            ("x", number(x)),
            ("y", number(y)),
            ("z", number(z)),
        ],
        solve_for: "mass",
    };
    weighed.into_iter().chain([new]).collect()
}

/// The parts that stand for the stages of a sub-assembly, without what only fills them.
fn standing_for<'a>(
    machine: &'a Machine,
    stands_for: &[Option<Group>],
    group: Group,
) -> impl Iterator<Item = (usize, &'a Solid)> {
    parts_of(machine, |_| true)
        .filter(move |(index, _)| stands_for.get(*index) == Some(&Some(group)))
}

/// The parts of some sub-assemblies, without what only fills them.
fn parts_of(
    machine: &Machine,
    wanted: impl Fn(Group) -> bool,
) -> impl Iterator<Item = (usize, &Solid)> {
    (machine.solids.iter()).filter_map(move |solid| match solid.piece {
        Piece::Part(index) if wanted(solid.group) && solid.presence != Presence::WhenFull => {
            Some((index, solid))
        }
        _ => None,
    })
}

/// Where stages of a sub-assembly are taken to stand, the middle of their underside in m: at the centre of its parts,
/// or of those of the whole train. Where there are none, over the front edge of the base, so that the machine does not
/// look steadier than it is.
fn place_of_train(design: &Design, machine: &Machine, group: Group) -> [f64; 3] {
    let centre = |solids: &mut dyn Iterator<Item = (usize, &Solid)>| {
        let (mut mass, mut moments) = (0.0, [0.0; 3]);
        for (_, solid) in solids {
            let [x, y, z] = &mut moments;
            mass += solid.mass.value;
            *x += solid.mass.value * solid.centre.x.value;
            *y += solid.mass.value * solid.centre.y.value;
            *z += solid.mass.value * solid.centre.z.value;
        }
        (mass > 0.0).then(|| moments.map(|moment| moment / mass))
    };
    let base = &design.base;
    let [x, y, z] = centre(&mut parts_of(machine, |of| of == group))
        .or_else(|| centre(&mut parts_of(machine, |of| TRAIN_GROUPS.contains(&of))))
        .unwrap_or([
            0.0,
            -0.5 * base.depth.value,
            base.clearance.value + 0.5 * NEW_HEIGHT,
        ]);
    let whole = |metres: f64| (1000.0 * metres).round() / 1000.0;
    let across = |metres: f64| whole(metres).clamp(-FARTHEST, FARTHEST);
    [
        across(x),
        across(y),
        whole((z - 0.5 * NEW_HEIGHT).max(0.0)).min(FARTHEST),
    ]
}

fn labels(groups: &[Group]) -> String {
    let labels: Vec<&str> = groups.iter().map(|group| group.label()).collect();
    labels.join(", ")
}

/// Does it come apart where it must?
fn one_lump(design: &Design, apart: &TakingApart) -> Finding {
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
