//! Marking out the holes of the vessel bought.

use super::{cell, entered, judged, row, shell_drawing, table};
use crate::design::Choice;
use crate::design::Design;
use crate::design::inputs::{Hole, HoleUse};
use crate::design::phrase::{Phrase, Slot};
use crate::design::quantity::{Quantity as Q, System};
use crate::paper::sheet::{Block, Sheet};
use crate::review::{Assessment, TableRow, USED_VESSEL, Verdict, off_its_place};
use crate::sizing::also_needed::{has_nozzles, holds_instrument};
use crate::sizing::build_order::closed_top;
use crate::sizing::marking::{Gap, Mark, Marking, pipe_outside};
use crate::sizing::pipe_way::{outer_end, side};
use crate::sizing::sleeves::sleeves;

/// Where each hole goes on the vessel that is really there.
pub(super) fn sheet(design: &Design, assessment: &Assessment, system: System) -> Sheet {
    let mut sheet = Sheet::new(
        "marking",
        "Marking out",
        "Where the holes go on the vessel that stands in the workshop.",
        &["holes", "real_vessel", "plan_vessel"],
    );
    let mut add = |block| sheet.blocks.push(block);
    add(Block::Caution(USED_VESSEL.to_string()));
    if design.holes.is_empty() {
        add(Block::Text("No holes are entered.".into()));
        return sheet;
    }
    let marking = match &assessment.marking.marking {
        Ok(marking) => marking,
        Err(error) => {
            add(Block::Text(
                format!("It cannot be marked out: {error}.").into(),
            ));
            return sheet;
        }
    };
    if let Some(warning) = as_wide(assessment) {
        add(warning);
    }
    if !marking.measured {
        add(Block::Text(
            "The vessel has not been measured yet: these are the figures of the plan. Measure yours before you mark it out.".into(),
        ));
    }
    let vessel = match marking.measured {
        true => entered::section(design, "real_vessel"),
        // Its datum is that of the heights that were entered. Those on this sheet count from where the tape is hooked.
        false => entered::section_without(design, "plan_vessel", "datum"),
    };
    add(table(
        "vessel",
        "The vessel",
        &["Measure", "Value"],
        vessel,
        "Nothing is known of the vessel.",
    ));
    let mut points = vec![
        datum(marking),
        "Mark the front line first: straight up the shell. Lay the tape round the outside of the shell from it, to the right.".into(),
    ];
    points.extend(ends(design, marking));
    points.extend(front_line(marking));
    if !marking.seamless {
        points.push("Left and right of the long seam are as seen from outside; the shorter way round is told.".into());
    }
    points.push("Each figure counts from the mark itself, never from the hole before: so no error adds to the next.".into());
    if system == System::Inch {
        points.push("Inches are told to the nearest 1/16: at most 1/32 in off.".into());
    }
    points.push(
        "Prick the middle of each hole, then measure once more from another edge before you cut."
            .into(),
    );
    add(Block::Points(points));
    let holes = assessment.marking.hole_table();
    add(table(
        "holes",
        "Hole table",
        &holes.headings,
        holes.rows,
        "None of the holes has a place on the shell.",
    ));
    let off = assessment.marking.off_the_plan();
    if !off.rows.is_empty() {
        add(table(
            "off-the-plan",
            "How far off the plan would have put them",
            &off.headings,
            off.rows,
            "",
        ));
    }
    let elsewhere: Vec<Slot> = marking.marks.iter().filter_map(elsewhere).collect();
    if !elsewhere.is_empty() {
        add(Block::Points(elsewhere));
    }
    if !marking.marks.is_empty() {
        add(Block::Drawing {
            name: "shell-unrolled".to_string(),
            svg: shell_drawing::draw(marking, system),
            words: shell_drawing::words(marking),
        });
    }
    add(table(
        "hole-pipes",
        "What sits in the holes",
        &[
            "Hole",
            "How many",
            "What sits in it",
            "Pipe outside",
            "Pipe wall",
            "Angle to the axis",
            "Set off, seen from outside",
        ],
        pipes(design),
        "",
    ));
    for told in to_buy(design) {
        add(Block::Text(told.into()));
    }
    let wrong = cut_wrong(assessment, marking);
    if !wrong.is_empty() {
        add(Block::Heading(
            "What the plan would have cut wrong".to_string(),
        ));
        add(Block::Points(wrong));
    }
    if !assessment.marking.clashes.is_empty() {
        let clashes = (assessment.marking.clashes.iter())
            .map(|clash| clash_row(marking, clash))
            .collect();
        add(table(
            "clashes",
            "Too near",
            &["Hole", "Too near to", "Plain sheet between", "Wanted"],
            clashes,
            "",
        ));
    }
    if !marking.refused.is_empty() {
        let rows = (marking.refused.iter())
            .map(|refused| {
                judged(
                    Verdict::Stop,
                    vec![
                        refused.name.as_str().into(),
                        refused.reason.to_string().into(),
                    ],
                )
            })
            .collect();
        add(table(
            "refused-holes",
            "Holes that cannot be cut",
            &["Hole", "Why"],
            rows,
            "",
        ));
    }
    let places = [
        "marking.nozzles",
        "marking.lighting_port",
        "marking.ash_door",
        "marking.ends",
        "marking.tall",
        "marking.seams",
        "marking.pipes",
        "marking.outlet",
        "marking.outlet_mouth",
        "marking.cone_weld",
    ];
    for finding in places.iter().filter_map(|id| assessment.finding(id)) {
        if finding.verdict != Verdict::Good {
            add(Block::Text(finding.compared.clone().into()));
        }
    }
    sheet
}

/// That the vessel is not as wide as the wall that its holes pass through, in the words of the summary; none where it is.
pub(super) fn as_wide(assessment: &Assessment) -> Option<Block> {
    let finding = assessment.finding("marking.shell")?;
    if !matches!(finding.verdict, Verdict::Stop | Verdict::Watch) {
        return None;
    }
    let slots = [
        finding.verdict.word().into(),
        finding.title.into(),
        finding.compared.clone().into(),
        finding.why.into(),
    ];
    Some(Block::Text(Phrase::new("{}: {}: {}. {}", slots).into()))
}

/// Where the ends are that heights count from, of a vessel with a top that comes off or a dished bottom.
fn ends(design: &Design, marking: &Marking) -> impl Iterator<Item = Slot> {
    let real = &design.real_vessel;
    let cut = real.length - real.above_straight();
    let top = closed_top(design).then(|| {
        Phrase::new(
            "The closed top comes off first, {} above the lowest point of the vessel: the top end is where that cut is.",
            [cell(Q::Length, cut.value)],
        )
    });
    let below = marking.vessel.below;
    let bottom = (below.value > 0.0).then(|| {
        Phrase::new(
            "The bottom is dished: the bottom end is where the straight shell begins, {} above the lowest point of the vessel. Mark a line right round there.",
            [cell(Q::Length, below.value)],
        )
    });
    top.into_iter().chain(bottom).map(Slot::from)
}

/// How a hole is marked whose wall is not the vessel.
fn elsewhere(mark: &Mark) -> Option<Slot> {
    let wall = mark.other_wall?;
    let [name, on] = [mark.name.as_str().into(), wall.name.into()];
    let angle = cell(Q::Angle, mark.angle.value);
    let phrase = match wall.across {
        Some(across) => {
            let told = Phrase::new(
                "“{}” is drilled in the {}, not in the vessel: its distance is round the bare steel of that wall, {} across. Carry the front line up to it first, or mark it by its angle, {} to the right.",
                [name, on, cell(Q::Length, across.value), angle],
            );
            match wall.also {
                Some(also) => Phrase::new(
                    "{} It passes the steel that is {} across too: round that it is {}.",
                    [
                        told.into(),
                        cell(Q::Length, also.value),
                        cell(Q::Length, 0.5 * (also * mark.angle.value).value),
                    ],
                ),
                None => told,
            }
        }
        None => Phrase::new(
            "“{}” is drilled in the {}, not in the vessel: carry the front line up to it, and mark it by its angle, {} to the right.",
            [name, on, angle],
        ),
    };
    Some(phrase.into())
}

/// Where the front line lies beside the long seam, which is there already; none on a vessel without one.
fn front_line(marking: &Marking) -> Option<Slot> {
    let turned = marking.long_seam.value / std::f64::consts::TAU;
    let (share, side) = match turned {
        turned if turned > 0.5 => (1.0 - turned, "right"),
        turned => (turned, "left"),
    };
    (!marking.seamless && turned > 0.0).then(|| {
        let along = cell(Q::Length, (share * marking.vessel.girth).value);
        let angle = cell(Q::Angle, share * std::f64::consts::TAU);
        let words = "The front line lies {} ({}) to the {} of the long seam, seen from outside, along the shell. The angles of the holes count from it to the right.";
        Phrase::new(words, [along, angle, side.into()]).into()
    })
}

/// The pipe of each hole, as it is set.
fn pipes(design: &Design) -> Vec<TableRow> {
    (design.holes.iter())
        .map(|hole| {
            let mut cells = vec![
                hole.name.as_str().into(),
                cell(Q::Count, f64::from(hole.count)),
                match holds_instrument(hole) {
                    true => "What its name tells, with its seal".into(),
                    false => hole.carries.label().into(),
                },
            ];
            cells.extend(match hole.carries {
                HoleUse::Open => ["–"; 4].map(Into::into),
                HoleUse::SetIn | HoleUse::SetOn => [
                    cell(Q::Bore, pipe_outside(hole).value),
                    cell(Q::Thickness, hole.pipe_wall.value),
                    lean(hole),
                    offset(hole).map_or("none".into(), Into::into),
                ],
            });
            row(cells)
        })
        .collect()
}

/// The angle of a pipe to the vessel's axis, with the way it leads.
pub(super) fn lean(hole: &Hole) -> Slot {
    let slots = [cell(Q::Angle, hole.lean.value), outer_end(hole.lean).into()];
    Phrase::new("{}, {}", slots).into()
}

/// How far a pipe is set off, and to which side; none where its axis meets the vessel's.
pub(super) fn offset(hole: &Hole) -> Option<Phrase> {
    let far = cell(Q::Length, hole.offset.value.abs());
    Some(Phrase::new("{} {}", [far, side(hole.offset)?.into()]))
}

/// What is bought for the pipes in the holes, which no list has.
fn to_buy(design: &Design) -> impl Iterator<Item = &'static str> {
    let any = |carries| design.holes.iter().any(|hole| hole.carries == carries);
    let set_in = any(HoleUse::SetIn).then(|| match has_nozzles(design) {
        true => {
            "But for the nozzles, the pipes that are set through the shell are in no list of parts: buy for each a piece that reaches through wall and lining, out to its flange, cap or valve."
        }
        false => {
            "The pipes that are set through the shell are in no list of parts: buy for each a piece that reaches through wall and lining, out to its flange, cap or valve."
        }
    });
    let is_lined = sleeves(design).any(|sleeve| sleeve.hole.carries == HoleUse::SetOn);
    let set_on = any(HoleUse::SetOn).then_some(match is_lined {
        true => {
            "A pipe that is set on the shell is in no list of parts: buy for it a piece from the shell out to its flange, cap or valve. It ends on the shell; a sleeve leads on through the lining, as “Also needed” tells."
        }
        false => {
            "A pipe that is set on the shell is in no list of parts: buy for it a piece from the shell out to its flange, cap or valve."
        }
    });
    set_in.into_iter().chain(set_on)
}

fn datum(marking: &Marking) -> Slot {
    Phrase::new(
        "Hook the tape to: {}. All heights count from there, upwards or downwards as the hole table says.",
        [marking.tape_datum.label().into()],
    )
    .into()
}

fn cut_wrong(assessment: &Assessment, marking: &Marking) -> Vec<Slot> {
    (assessment.marking.cut_wrong.iter())
        .filter_map(|place| marking.marks.get(*place))
        .filter_map(|mark| {
            let slots = [mark.name.as_str().into(), off_its_place(&mark.blind?)];
            Some(Phrase::new("{}: {}", slots).into())
        })
        .collect()
}

fn clash_row(marking: &Marking, clash: &Gap) -> TableRow {
    row(vec![
        marking.told(clash.mark).as_ref().into(),
        marking.name_of(clash.with).as_ref().into(),
        cell(Q::Length, clash.clearance.value),
        cell(Q::Length, clash.wanted.value),
    ])
}
