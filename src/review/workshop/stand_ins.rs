//! Which other part would stand for the stages of the gas train in weight and tipping, and where?

use super::train_weight::PLACED_SHARE;
use crate::design::inputs::{Group, Presence, Shape};
use crate::design::{Choice as _, Design, Value};
use crate::review::finding::Lever;
use crate::sizing::machine::{Machine, Piece, Solid};
use crate::sizing::parts_list::{PartLine, parts_for_stages};
use uom::si::f64::Mass;

/// Height of a part that stands for stages of the train, m. Our own mark: a drum of a usual filter is higher, a trap lower.
const NEW_HEIGHT: f64 = 0.3;
/// Sub-assemblies that hold little but the gas train.
const TRAIN_GROUPS: [Group; 3] = [Group::Filter, Group::Cooler, Group::Condensate];

/// Parts that stand for the stages of a sub-assembly: the heaviest weighed one that is too light made heavier, or a new one.
pub(super) fn stand_ins(
    design: &Design,
    machine: &Machine,
    parts: &[PartLine],
    group: Group,
) -> Vec<Lever> {
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
pub(super) fn standing_for<'a>(
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
    let enterable = |axis, metres: f64| {
        Design::nearest_allowed("parts", axis, (1000.0 * metres).round() / 1000.0)
    };
    [
        enterable("x", x),
        enterable("y", y),
        enterable("z", z - 0.5 * NEW_HEIGHT),
    ]
}
