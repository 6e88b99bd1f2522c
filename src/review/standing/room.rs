//! Does it stand in the room there is for it?

use super::{Standing, question};
use crate::design::inputs::{Layer, Stance};
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::lid_joints::placed_drum;
use crate::sizing::machine::{Closure, Piece};
use crate::sizing::overall::{Outermost, Overall};

/// One way across the ground, with the room there is for it.
struct Across {
    /// What it is called, and its two sides.
    words: [&'static str; 3],
    /// Input that tells the room.
    entered: &'static str,
    /// Letter of the place to this side.
    axis: &'static str,
    /// Input of the base that is measured this way.
    base: &'static str,
    /// Room, m.
    room: f64,
    /// From where to where the machine reaches, m.
    reach: [f64; 2],
    by: [Outermost; 2],
}

impl Across {
    fn takes(&self) -> f64 {
        self.reach[1] - self.reach[0]
    }

    fn margin(&self) -> f64 {
        1.0 - self.takes() / self.room
    }
}

/// Both ways for which a room was entered.
fn ways(design: &Design, overall: &Overall) -> impl Iterator<Item = Across> {
    let [left, right, front, back] = overall.by;
    let base = &design.base;
    let across = base.room_width.map(|room| Across {
        words: ["wide", "left", "right"],
        entered: "base.room_width",
        axis: "x",
        base: "base.width",
        room: room.value,
        reach: [overall.left.value, overall.right.value],
        by: [left, right],
    });
    let along = base.room_depth.map(|room| Across {
        words: ["deep", "front", "back"],
        entered: "base.room_depth",
        axis: "y",
        base: "base.depth",
        room: room.value,
        reach: [overall.front.value, overall.back.value],
        by: [front, back],
    });
    across.into_iter().chain(along)
}

/// The machine over all against its room, the way it fits worse. Not asked where no room was entered.
pub(super) fn fits(design: &Design, standing: &Standing) -> Option<Finding> {
    let overall = standing.overall.as_ref()?;
    let worst =
        ways(design, overall).min_by(|one, other| one.margin().total_cmp(&other.margin()))?;
    let mut finding = question(
        design,
        "standing.room",
        "Machine in its room",
        "Everything that is laid out, from the outermost left to the outermost right and from front to back: frame, wheels, vessel, hopper and other parts.",
        "What is wider than its place, or than the door or gate on the way there, is found out when it is built.",
    );
    let takes = worst.takes();
    finding.verdict = Verdict::at_most(takes, worst.room, worst.room);
    finding.margin = Some(worst.margin()).filter(|margin| margin.is_finite());
    let length = |value| Measure::new(Q::Length, value);
    let [wide, one, other] = worst.words;
    let [at_one, at_other] = worst.by.map(|by| Slot::from(by.label(design)));
    finding.compared = Phrase::new(
        "{} {} over all, without pipes and hoses; its room is {} {}; furthest to the {} reaches “{}”, to the {} “{}”",
        [
            length(takes).into(),
            wide.into(),
            length(worst.room).into(),
            wide.into(),
            one.into(),
            at_one,
            other.into(),
            at_other,
        ],
    );
    let [from, to] = worst.reach;
    finding.working = vec![Step {
        words: "From the outermost on one side to the outermost on the other, from the middle of the base",
        formula: "b = r − l",
        values: vec![
            ("r", "outermost to the right, or to the back", length(to)),
            (
                "l",
                "outermost to the left, or to the front; less than nothing on that side",
                length(from),
            ),
        ],
        result: length(takes),
        source: Source::CommonPractice,
        sure: "as exact as sizes and places are entered; pipes and hoses between the parts, handles and open doors come on top",
    }];
    finding.caution = Some(
        "Leave room to walk round it, to open hopper and ash door, and to get away from it. What stands near a hot wall or a flare can catch fire: keep wood, straw and walls away, and follow your local rules.",
    );
    finding.about = "base";
    if finding.verdict != Verdict::Good {
        finding.levers = levers(design, &worst);
    }
    Some(finding)
}

/// What brings the outermost pieces nearer to each other, and the room itself.
fn levers(design: &Design, worst: &Across) -> Vec<Lever> {
    let mut levers: Vec<Lever> = Vec::new();
    let mut offer = |path: String| {
        let lever = Lever::input(path);
        if !levers.contains(&lever) {
            levers.push(lever);
        }
    };
    for by in worst.by {
        match by {
            Outermost::Solid(Piece::Part(index)) => {
                offer(Design::item_input("parts", index, worst.axis));
            }
            Outermost::Solid(Piece::Layer { list, .. }) => of_wall(design, list, &mut offer),
            // The drum that it sits around is what is moved.
            Outermost::Solid(Piece::Closure(Closure::DrumFlange(_))) => {
                if let Some((place, _)) = placed_drum(design) {
                    offer(Design::item_input("parts", place, worst.axis));
                }
            }
            Outermost::Solid(Piece::Closure(_)) => of_wall(design, "body_layers", &mut offer),
            Outermost::Solid(Piece::OfSection { section, .. }) => match section {
                "hopper" => offer("hopper.diameter".to_string()),
                "base" if design.base.stance == Stance::Points => {}
                "base" => {
                    offer(worst.base.to_string());
                    offer("base.frame_side".to_string());
                }
                _ => {}
            },
            Outermost::Wheel(index) if design.base.stance == Stance::Points => {
                offer(Design::item_input("contacts", index, worst.axis));
                offer("base.wheel_diameter".to_string());
            }
            Outermost::Wheel(_) => {
                offer(worst.base.to_string());
                offer("base.wheel_diameter".to_string());
            }
            Outermost::Solid(Piece::Flange(_) | Piece::Bolts(_) | Piece::Gasket(_)) => {}
        }
    }
    offer(worst.entered.to_string());
    levers
}

/// What makes a wall narrower: its thickest layer, then what it encloses.
fn of_wall(design: &Design, list: &'static str, offer: &mut impl FnMut(String)) {
    // A lid with its flange goes by the body under it.
    let list = match list {
        "lid_layers" => "body_layers",
        list => list,
    };
    let (layers, inside): (&[Layer], _) = match list {
        "hearth_layers" => (&design.hearth_layers, "hearth_wall.inside_diameter"),
        "body_layers" => (&design.body_layers, "body_wall.inside_diameter"),
        _ => return,
    };
    let thickest = (layers.iter().enumerate())
        .max_by(|(_, one), (_, other)| one.thickness.value.total_cmp(&other.thickness.value));
    if let Some((place, _)) = thickest {
        offer(Design::item_input(list, place, "thickness"));
    }
    offer(inside.to_string());
}
