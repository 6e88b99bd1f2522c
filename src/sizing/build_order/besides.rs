//! Work that no joint stands for: holes and what sits in them, the hearth, the hopper's lid, and what was open while the lining went in.

use super::{OrderStep, Task};
use crate::design::inputs::{ClosedBy, Group, Hole, HoleUse, JointKind};
use crate::design::quantity::{Quantity, System};
use crate::design::{Choice as _, Design};
use crate::sizing::also_needed::{
    Need, also_needed, has_nozzles, has_tube_plates, holds_instrument, ways_of_gas,
};
use crate::sizing::ballast::{BALLAST, hung};
use crate::sizing::hearth_ledge::{liner_plate, ring_around_tube};
use crate::sizing::joint_length::closes_bottom;
use crate::sizing::long_seams::long_seams;
use crate::sizing::machine::layout;
use crate::sizing::nozzle_tube::nozzle_ring;
use crate::sizing::parts_list::{parts_list, stage_name};
use crate::sizing::shell_there::seams_in_no_joint;
use crate::sizing::sleeves::{lining_behind, sleeves};
use crate::sizing::tube_pipes::reaches_fire_tube;

/// Work that stands in no step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Besides {
    /// What is done.
    pub work: &'static str,
    /// On what.
    pub on: String,
    /// When it is done, beside the steps.
    pub when: &'static str,
}

/// What is done to seams that no joint stands for, before a lining hides them and after.
const SOAP_SEAMS: &str = "Brush with soap film all along, and weld again what shows bubbles: the lining hides it, and no joint of the list stands for it";
const HIDDEN_SEAMS: &str = "No soap film reaches behind the lining, and no joint of the list stands for it: the gauge alone tells. Where the vessel loses more than it may and every joint in reach is tight, it leaks there";
const BEFORE_TEST: &str = "before the first leak test of the vessel";
const BEFORE_LID: &str = "when the lining is in, before the vessel is closed";

/// What is to be done besides the steps of an order, in the order it is done.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::sizing::build_order::{besides, order};
/// let design = example::as_improved();
/// let more = besides(&design, &order(&design).unwrap());
/// assert!(more.iter().any(|one| one.on == "Ash door"));
/// ```
pub fn besides(design: &Design, order: &[OrderStep]) -> Vec<Besides> {
    let holes = (design.holes.iter().enumerate()).map(|(place, hole)| Besides {
        work: match (hole.carries, reaches_fire_tube(design, place)) {
            (HoleUse::Open, _) if holds_instrument(hole) => {
                "Cut the hole, fit what it is named for with its seal: that closes it"
            }
            (HoleUse::Open, _) => "Cut the hole, fit what closes it with its seal",
            (HoleUse::SetOn, _) => "Cut the hole, weld its pipe on",
            (HoleUse::SetIn, false) => "Cut the holes, set the pipes through and weld them round",
            (HoleUse::SetIn, true) if design.hearth.comes_out => {
                "Cut the holes, weld on each a short socket that its tube slides in, and plug it for the leak test. The tubes go in later, for they reach into the fire tube: cut them longer than the parts list tells, by what stands out for socket and cap"
            }
            (HoleUse::SetIn, true) => {
                "Cut the holes, and plug them for the leak test. The tubes go in later, for they reach into the fire tube: cut them longer than the parts list tells, by what stands out for a cap"
            }
        },
        on: if_missing(design.real_vessel.lined, told(hole)),
        when: BEFORE_TEST,
    });
    let seams = seams_in_no_joint(design).map(|seams| Besides {
        work: match design.real_vessel.lined {
            true => HIDDEN_SEAMS,
            false => SOAP_SEAMS,
        },
        on: format!("Vessel that is there, {seams}"),
        when: match design.real_vessel.lined {
            true => "in the first leak test of the vessel",
            false => "in the first leak test of the vessel, before the lining goes in",
        },
    });
    let bottom = lacks_bottom_joint(design).then(|| Besides {
        work: "Weld it in right round. Brush with soap film all along while air is pumped in, and weld again what shows bubbles: no joint of the list stands for it",
        on: "Bottom of the vessel that is there".to_string(),
        when: "before the first leak test of the vessel, and before the lining goes in",
    });
    let ring = ring_around_tube(design).map(|_| Besides {
        work: "Weld it right through round the top edge of the fire tube, and lay a rope seal all round where it will sit: smoke that leaks there goes round the fire",
        on: if_missing(design.hearth.built, "Ring around the fire tube".to_string()),
        when: "before the fire tube is hung in",
    });
    let ballast = hung(design).next().map(|_| Besides {
        work: "Bars or plates of steel, each no heavier than you can lift: bolt them up under both cross-bars, through each corner, with washers and lock nuts, so that nothing slides or works loose. Set them on blocks under the frame first, and keep hands and feet from under them",
        on: BALLAST.to_string(),
        when: "when the frame is welded, before the machine is moved or stands in the wind",
    });
    let plate = liner_plate(design).map(|_| Besides {
        work: "Bed it level in mortar on the firm lining of the hearth wall, over the blanket: smoke that leaks there goes round the fire. The liner of the body stands on it",
        on: Need::LinerPlate.name(design),
        when: "when the hearth wall is lined, before the liner of the body goes in",
    });
    let tube = match has_nozzles(design) {
        true => "Fire tube with throat",
        false => "Fire tube",
    };
    let hearth = [tube, "Grate"].map(|part| Besides {
        work: "Hang in",
        on: part.to_string(),
        when: BEFORE_LID,
    });
    let lid = design.hopper.fitted.then(|| Besides {
        work: if has_nozzles(design) {
            "Fit it with a gasket all round and catches that open without tools. Gas stands in the hopper: open it only out of doors, standing to the side, face away, and let the first gas drift off"
        } else {
            "Fit it with a gasket all round and catches that open without tools. Air comes in there, so that it stands open while the fire burns and ends it once it is shut. Gas stands in the hopper when the flow stops: open it only out of doors, standing to the side, face away, and let the first gas drift off"
        },
        on: "Hopper lid".to_string(),
        when: "before the first leak test of the hopper",
    });
    let mut more: Vec<Besides> = (top_comes_off(design).into_iter())
        .chain(long_seams_of(design))
        .chain(bottom)
        .chain(ballast)
        .chain(around_the_lid(design))
        .chain(holes)
        .chain(seams)
        .chain(through_the_lining(design))
        .chain(holes_in_the_tube(design))
        .chain(plate)
        .chain(ring)
        .chain(hearth)
        .chain(into_the_tube(design))
        .chain(lid)
        .chain(tube_plates(design))
        .chain(fit_ways(design))
        .collect();
    let closed = order.iter().filter_map(|step| match step.task {
        Task::CloseIn(group) => Some(group),
        _ => None,
    });
    for group in closed {
        more.extend(again(design, group));
    }
    more
}

/// The long seams of what is rolled: those of each sub-assembly together, and those of what hangs in the vessel.
fn long_seams_of(design: &Design) -> Vec<Besides> {
    let machine = layout(design);
    let mut told: Vec<(Group, bool, Vec<String>)> = Vec::new();
    for seam in long_seams(design, &machine, &parts_list(design, &machine)) {
        let same = |one: &&mut (Group, bool, Vec<String>)| {
            one.0 == seam.group && one.1 == seam.hangs_inside
        };
        match told.iter_mut().find(same) {
            Some((_, _, names)) => names.push(seam.name),
            None => told.push((seam.group, seam.hangs_inside, vec![seam.name])),
        }
    }
    (told.into_iter())
        .map(|(group, hangs_inside, names)| Besides {
            work: if hangs_inside {
                "Roll, and weld the long seam right through: smoke that leaks there goes round the fire"
            } else {
                "Roll, and weld the long seam tight. Brush it with soap film all along while air is pumped in, and weld again what shows bubbles: no joint of the list stands for it"
            },
            on: format!("{}: {}", group.label(), names.join(", ")),
            when: if hangs_inside {
                "before it is hung in"
            } else {
                "before the first leak test of its sub-assembly counts, and before anything covers it"
            },
        })
        .collect()
}

/// A vessel that is closed above is lined from there. Where it held fuel or nobody knows, nothing is done to it at all.
fn top_comes_off(design: &Design) -> Option<Besides> {
    let vessel = &design.real_vessel;
    let height = vessel.length - vessel.above_straight();
    let [metric, inch] =
        [System::Metric, System::Inch].map(|system| Quantity::Length.show(height.value, system));
    closed_top(design).then(|| Besides {
        work: "Only of a vessel that never held fuel, solvent, oil or anything unknown; any other is left alone. With every fitting of it open, so that no pressure is in it: mark a line right round, take the top off there, square to the shell and outside its seam, and file the edge smooth. Lid, liner and heights are those of the shell that is left",
        on: format!("Closed top of the vessel that is there, {metric} ({inch}) above its lowest point"),
        when: "before anything is marked out",
    })
}

/// Whether a vessel that is there has a top that comes off before it is lined.
pub fn closed_top(design: &Design) -> bool {
    let vessel = &design.real_vessel;
    vessel.measured && vessel.has_top && !vessel.lined
}

/// Whether a vessel without a bottom gets one that no joint of the list stands for.
fn lacks_bottom_joint(design: &Design) -> bool {
    let vessel = &design.real_vessel;
    let is_open = vessel.measured && !vessel.has_bottom && !vessel.lined;
    let has_plate = || (design.bottom_layers.iter()).any(|layer| layer.material.is_metal());
    is_open && has_plate() && !design.joints.iter().any(closes_bottom)
}

/// What is built may have a thing already, or lack it: nothing tells.
fn if_missing(is_built: bool, what: String) -> String {
    match is_built {
        true => format!("{what}: where it is not there yet"),
        false => what,
    }
}

/// A hole as it is told: by its name, and how many there are.
fn told(hole: &Hole) -> String {
    match hole.count {
        0 | 1 => hole.name.clone(),
        count => format!("{}, {count} of them", hole.name),
    }
}

/// What leads on through the lining behind a pipe, a door or an instrument on the shell.
fn through_the_lining(design: &Design) -> impl Iterator<Item = Besides> {
    let pockets = (design.holes.iter())
        .filter(|hole| holds_instrument(hole) && lining_behind(design, hole).is_some())
        .map(|hole| Besides {
            work: "Make the same hole in each layer behind the shell, in line with it, and pack the lining tight around the pocket that goes through",
            on: format!("{}, through the lining", told(hole)),
            when: "while the lining goes in",
        });
    let leading = sleeves(design).map(|sleeve| Besides {
        work: "Set the sleeve into the hole from inside, flush with the lining, and pack the lining tight around it: no gas and no embers may get into the fibre",
        on: format!("{}, its sleeve", told(sleeve.hole)),
        when: "while the lining goes in",
    });
    leading.chain(pockets)
}

/// The holes whose pipes reach into the fire tube, with their places.
fn reaching(design: &Design) -> impl Iterator<Item = (usize, &Hole)> {
    (design.holes.iter().enumerate()).filter(|(place, _)| reaches_fire_tube(design, *place))
}

/// Holes in the fire tube that no template shows: that of the nozzles has the nozzles alone.
fn holes_in_the_tube(design: &Design) -> impl Iterator<Item = Besides> {
    let ring = nozzle_ring(design).map(|(place, _)| place);
    reaching(design)
        .filter(move |(place, _)| Some(*place) != ring)
        .map(|(_, hole)| Besides {
            work: "Hang the fire tube in, mark this hole on it through shell and lining, take it out and make the hole, as wide as the pipe: the template of the nozzle ring has the nozzles alone",
            on: if_missing(design.hearth.built, format!("{}, in the fire tube", told(hole))),
            when: "when the lining is in, before the fire tube stays in",
        })
}

/// The pipes that reach into the fire tube: it would not pass them, so that they go in after it, and are drawn before it
/// comes out. What seals them was not there in the first leak test.
fn into_the_tube(design: &Design) -> impl Iterator<Item = Besides> {
    let work = if design.hearth.comes_out {
        "Push each in from outside through shell and lining, close into its hole in the fire tube; hold and seal it in its socket. It must be drawn out again before the fire tube comes out"
    } else {
        "Push each in from outside through shell and lining, close into its hole in the fire tube, and weld it round at the shell"
    };
    let names: Vec<String> = reaching(design).map(|(_, hole)| told(hole)).collect();
    let test = (!names.is_empty()).then(|| Besides {
        work: "Close their ends, pump the vessel up and brush them with soap film where they pass the shell: they were not there in its first leak test",
        on: names.join("; "),
        when: if design.hearth.comes_out {
            "once the vessel is closed, before the first fire, and each time they were drawn"
        } else {
            "once the vessel is closed, before the first fire"
        },
    });
    reaching(design)
        .map(move |(_, hole)| Besides {
            work,
            on: told(hole),
            when: "when the fire tube is in, before the vessel is closed",
        })
        .chain(test)
}

/// What is welded to the lid, and around what is closed by one that is bolted on.
fn around_the_lid(design: &Design) -> impl Iterator<Item = Besides> {
    also_needed(design).into_iter().filter_map(|need| {
        let (work, when) = match need {
            Need::LidNeck => (
                "Weld it tight all round to the plate of the lid, and brush the weld with soap film while air is pumped in: wool and cladding hide it. The hopper stands on it",
                "before the first leak test of the vessel, and before the wool of the lid goes on",
            ),
            Need::LidRim => (
                "Rivet or weld it around the wool of the lid",
                "when the leak tests of the vessel are passed",
            ),
            Need::Flanges(_) => (
                "Clamp both sides together, drill them as one and mark how they lie. Weld each on tight all round, and see that the faces are flat again before the gasket goes in",
                "before the joint is made",
            ),
            _ => return None,
        };
        Some(Besides {
            work,
            on: need.name(design),
            when,
        })
    })
}

/// The tubes of each cooler in their plates: the longest weld of the gas train, which its boxes cover.
fn tube_plates(design: &Design) -> impl Iterator<Item = Besides> {
    (design.train.iter())
        .filter(|stage| has_tube_plates(stage))
        .map(|stage| Besides {
            work: "Weld each tube all round into both plates, plug the ends on one side, let air into the tubes by turns, and brush each weld with soap film: the boxes hide them",
            on: format!("{}, {} tubes", stage_name(stage), stage.tubes),
            when: "before the boxes go on, and before the first leak test of the cooler",
        })
}

/// Flare pipe, valves and mixer: what lets in air there takes the gas away from the engine, and may burn in it.
fn fit_ways(design: &Design) -> Option<Besides> {
    let ways = ways_of_gas(design);
    let names: Vec<String> = ways.iter().map(|need| need.name(design)).collect();
    let mixer_alone = ways == [Need::Mixer];
    (!names.is_empty()).then(|| Besides {
        work: match mixer_alone {
            true => "Fit it gas-tight to the engine, and see that its air valve shuts",
            false => "Fit them gas-tight at the end of the gas train. Shut the valves, blow air in before them, and brush valves and joints with soap film: no joint of the list stands for them",
        },
        on: names.join("; "),
        when: "before the first fire",
    })
}

/// What closes a sub-assembly and stays in reach: it was open for the lining, so it is closed and tested once more.
fn again(design: &Design, group: Group) -> impl Iterator<Item = Besides> {
    (design.joints.iter().enumerate())
        .filter(move |(_, joint)| {
            joint.airtight
                && joint.kind != JointKind::Welded
                && joint.closed_by == ClosedBy::Nothing
                && joint.first == group
                && joint.second == group
        })
        .map(move |(place, joint)| Besides {
            work: "Close again if it was opened for the lining, and test again",
            on: format!("{} {} ({})", place + 1, joint.name, group.label()),
            when: "after the insulation or cladding",
        })
}
