//! The order of the work, with what must pass before it goes on.

use super::{BOX, cautions, row, table};
use crate::design::inputs::{BuildStep, ClosedBy, Joint, StepKind};
use crate::design::phrase::Slot;
use crate::design::{Choice, Design};
use crate::paper::sheet::{Block, Sheet};
use crate::review::{Assessment, TableRow, USED_VESSEL, Verdict, step_is_done, told_apart};
use crate::sizing::air_inside::holds_gas;
use crate::sizing::as_made::MadeOtherwise;
use crate::sizing::build_order::{OrderStep, Task, besides, closed_top, is_begun, is_hidden};

pub(super) fn sheet(design: &Design, assessment: &Assessment) -> Sheet {
    let order = &assessment.order;
    let mut sheet = Sheet::new(
        "build-order",
        "Build order",
        "What is done when, so that every joint is tested before something hides it.",
        &[
            "joints",
            "build_steps",
            "workshop",
            "real_vessel",
            "holes",
            "hearth",
            "hopper",
            "pace",
        ],
    );
    let mut add = |block| sheet.blocks.push(block);
    for block in cautions(
        assessment,
        &[
            "order.buries",
            "workshop.lift",
            "workshop.one_lump",
            "leaks.plan",
        ],
    ) {
        add(block);
    }
    if closed_top(design) {
        add(Block::Caution(USED_VESSEL.to_string()));
    }
    if let Some(caution) = super::wool::caution(design) {
        add(caution);
    }
    let kept = is_begun(design).then_some(
        "The tick of a joint keeps the sizes of the metal parts on both sides of it. What the design has otherwise after that is told here.",
    );
    add(Block::Points(
        [
            "At a hold point the work stops until the leak test has passed and somebody has signed for it. A later step hides that joint.",
            "Test and mend before insulation or cladding goes on.",
        ]
        .into_iter()
        .chain(kept)
        .map(Into::into)
        .collect(),
    ));
    if let Some(finding) = assessment.finding("order.buries") {
        add(Block::Text(finding.compared.clone().into()));
    }
    if let Some(finding) = assessment.finding("order.gas_way")
        && finding.verdict != Verdict::Good
    {
        add(Block::Text(finding.compared.clone().into()));
    }
    if let Some(finding) = assessment.finding("order.so_far") {
        add(Block::Text(finding.compared.clone().into()));
    }
    if !assessment.workshop.otherwise.is_empty() {
        add(otherwise(design, &assessment.workshop.otherwise));
    }
    let work = order.work(design);
    let so_far = |index: usize| work.get(index).map_or(&[][..], Vec::as_slice);
    let rows = if order.own {
        add(Block::Text("This is your own order.".into()));
        if !order.names_all() {
            let steps = 0..design.build_steps.len();
            let faults = steps.filter_map(|index| order.said(design, index));
            add(Block::Points(
                faults.map(|(_, words)| words.into()).collect(),
            ));
        }
        (design.build_steps.iter().enumerate())
            .map(|(index, step)| TableRow {
                verdict: order.said(design, index).map(|(verdict, _)| verdict),
                ..own(design, index, step, so_far(index))
            })
            .collect()
    } else {
        let steps = order.computed.as_deref().unwrap_or_default();
        (steps.iter().enumerate())
            .map(|(index, step)| computed(design, index, *step, so_far(index)))
            .collect()
    };
    add(table(
        "build-order",
        "Steps",
        &["Step", "On", "Hold point", "Done", "Date and sign"],
        rows,
        "There is no order to follow.",
    ));
    for block in super::leaks::in_short(design, assessment) {
        add(block);
    }
    let steps = order.computed.as_deref().unwrap_or_default();
    let rows: Vec<TableRow> = besides(design, steps)
        .into_iter()
        .map(|more| {
            let cells = [more.work.into(), more.on.into(), more.when.into()];
            row(cells.into_iter().chain([BOX.into(), "".into()]).collect())
        })
        .collect();
    add(Block::Text(
        "The steps name the joints that were entered, and no more. What follows is done between them: a leak test counts only with every hole of the vessel closed, and what was opened after its test is tested again. Where the machine has no steps for its lining, test it closed once more before the first fire."
            .into(),
    ));
    add(table(
        "build-besides",
        "Besides these steps",
        &["Work", "On", "When", "Done", "Date and sign"],
        rows,
        "",
    ));
    for block in super::work_time::blocks(design, &assessment.cost.time) {
        add(block);
    }
    sheet
}

/// What is made, or may be, and has another size in the design now.
fn otherwise(design: &Design, parts: &[MadeOtherwise]) -> Block {
    let rows = parts.iter().map(|one| {
        let [was, now]: [Slot; 2] = match one.sizes {
            Some(sizes) => told_apart(sizes).map(Slot::from),
            None => ["there".into(), "not in the design".into()],
        };
        let part: Slot = one.part.clone().into();
        row(vec![part, joint(design, one.joint).into(), was, now])
    });
    table(
        "made-otherwise",
        "Changed since the tick",
        &["Part", "Joint", "Then", "Now"],
        rows.collect(),
        "",
    )
}

fn joint(design: &Design, place: usize) -> String {
    match design.joints.get(place) {
        Some(joint) if joint.first == joint.second => {
            let (kind, group) = (joint.kind.label().to_lowercase(), joint.first.label());
            format!("{} {} ({kind}, {group})", place + 1, joint.name)
        }
        Some(joint) => {
            let kind = joint.kind.label().to_lowercase();
            let (first, second) = (joint.first.label(), joint.second.label());
            format!(
                "{} {} ({kind}, {first} with {second})",
                place + 1,
                joint.name
            )
        }
        None => format!("joint {}", place + 1),
    }
}

/// What was written down about the joint that a step is the last of.
fn signed(design: &Design, work: &[Task]) -> String {
    let place = match work {
        [Task::Make(place)] => (design.joints.get(*place))
            .is_some_and(|joint| !joint.airtight)
            .then_some(*place),
        [Task::Test(place)] => Some(*place),
        _ => None,
    };
    place
        .filter(|_| step_is_done(design, work))
        .and_then(|place| design.joints.get(place))
        .map_or_else(String::new, |joint| joint.signed.clone())
}

fn step(
    design: &Design,
    index: usize,
    [work, on]: [String; 2],
    hold: bool,
    tasks: &[Task],
) -> TableRow {
    let hold: Slot = if hold { "HOLD" } else { "no" }.into();
    row(vec![
        format!("{} {work}", index + 1).into(),
        on.into(),
        hold,
        Slot::Tick(step_is_done(design, tasks)),
        signed(design, tasks).into(),
    ])
}

/// Whether a joint holds together only what has no gas of its own, so that the leak tests have no number for it.
fn no_gauge_tells(design: &Design, place: usize) -> bool {
    (design.joints.get(place))
        .is_some_and(|joint| !holds_gas(joint.first) && !holds_gas(joint.second))
}

fn computed(design: &Design, index: usize, order: OrderStep, tasks: &[Task]) -> TableRow {
    let (kind, on) = match order.task {
        Task::Make(place) => (StepKind::Make, joint(design, place)),
        Task::Test(place) => (StepKind::Test, joint(design, place)),
        Task::CloseIn(group) => (StepKind::CloseIn, group.label().to_string()),
    };
    let work = match order.task {
        Task::Test(place) if no_gauge_tells(design, place) => {
            format!("{}: no number, soap film", kind.label())
        }
        Task::Test(place)
            if (design.joints.get(place)).is_some_and(|joint| is_hidden(design, joint)) =>
        {
            format!(
                "{}: with the gauge alone, the lining hides it",
                kind.label()
            )
        }
        _ => kind.label().to_string(),
    };
    step(design, index, [work, on], order.hold, tasks)
}

fn own(design: &Design, index: usize, entered: &BuildStep, tasks: &[Task]) -> TableRow {
    let place = usize::try_from(entered.joint)
        .ok()
        .and_then(|number| number.checked_sub(1));
    let of_joint = |place: Option<usize>| place.and_then(|place| design.joints.get(place));
    let hides = |joint: &Joint| joint.closed_by != ClosedBy::Nothing && !is_hidden(design, joint);
    let (on, hold) = match (entered.kind, place) {
        (StepKind::CloseIn, _) => (entered.group.label().to_string(), false),
        (StepKind::Test, None) => {
            let hidden = design
                .joints
                .iter()
                .any(|joint| joint.is_of(entered.group) && hides(joint));
            (entered.group.label().to_string(), hidden)
        }
        (StepKind::Test, Some(at)) => {
            let hidden = of_joint(place).is_some_and(hides);
            (joint(design, at), hidden)
        }
        (StepKind::Make, Some(at)) => (joint(design, at), false),
        (StepKind::Make, None) => (String::new(), false),
    };
    let work = format!("{} ({})", entered.name, entered.kind.label().to_lowercase());
    step(design, index, [work, on], hold, tasks)
}
