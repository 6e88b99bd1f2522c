//! Leak tests: budgets, how to test, room for readings, and what the readings said.

use super::{BOX, UNKNOWN, cautions, cell, judged, pressed, row, table};
use crate::design::phrase::{Phrase, Slot};
use crate::design::quantity::{Quantity as Q, System};
use crate::design::{Choice, Design};
use crate::paper::sheet::{Block, Sheet};
use crate::review::{Assessment, Chapter, GroupLeak, LeakTestMade, Leaks, TableRow, has_blower};
use crate::sizing::air_inside::{counts_lining, holds_gas};
use crate::sizing::leak_test::TestPlan;
use crate::sizing::shell_there::seams_in_no_joint;
use uom::si::f64::Pressure;

pub(super) fn sheet(design: &Design, assessment: &Assessment) -> Sheet {
    let leaks = &assessment.leaks;
    let mut sheet = Sheet::new(
        "leak-tests",
        "Leak tests",
        "What each sub-assembly may leak, how it is tested, and room for the readings.",
        &["leak_test", "readings", "joints", "train"],
    );
    let mut add = |block| sheet.blocks.push(block);
    let ids: Vec<&str> = (assessment.findings.iter())
        .filter(|finding| finding.chapter == Chapter::Leaks)
        .map(|finding| finding.id)
        .collect();
    for block in cautions(assessment, &ids) {
        add(block);
    }
    add(Block::Points(how_to_test(design, leaks)));
    add(table(
        "leak-budgets",
        "What each sub-assembly may leak",
        &[
            "Sub-assembly",
            "Length of joints",
            "May leak",
            "Air inside",
            "Hold for",
            "May lose",
            "Warmer or colder air looks like",
            "Energy stored",
        ],
        budgets(leaks),
        "No joint must be tight.",
    ));
    add(table(
        "leak-readings",
        "Readings, to be filled in",
        &[
            "Sub-assembly",
            "Hold for",
            "May lose",
            "Pressure at the start",
            "Temperature at the start",
            "Pressure at the end",
            "Temperature at the end",
            "Time between",
            "Passed",
            "Date and sign",
        ],
        (tested(leaks))
            .map(|one| {
                let mut cells = figures(one).to_vec();
                cells.extend((0..5).map(|_| Slot::from("")));
                cells.extend([BOX.into(), "".into()]);
                row(cells)
            })
            .collect(),
        "There is nothing to test.",
    ));
    add(Block::Text(
        "“May lose” holds while the temperature stays: add what colder air takes, and take off what warmer air gives. A test has passed only where no more was lost."
            .into(),
    ));
    add(table(
        "leak-results",
        "Tests made",
        &[
            "Sub-assembly",
            "Date",
            "Leak",
            "Uncertain by",
            "May leak",
            "Like one hole of",
            "Note",
        ],
        (leaks.tests.iter())
            .map(|test| result(design, test))
            .collect(),
        "No test has been entered yet.",
    ));
    sheet
}

/// What a leak test is made with, for the sheet that says when: pressure, and for each sub-assembly hold and loss.
pub(super) fn in_short(design: &Design, assessment: &Assessment) -> Vec<Block> {
    let leaks = &assessment.leaks;
    let rows: Vec<TableRow> = (tested(leaks))
        .map(|one| row(figures(one).to_vec()))
        .collect();
    if rows.is_empty() {
        return Vec::new();
    }
    let figures = table(
        "order-tests",
        "For each leak test of a step",
        &["Sub-assembly", "Hold for", "May lose"],
        rows,
        "",
    );
    let joined = "The figures hold for each sub-assembly by itself, closed off with blanks. A joint between two is pumped up with both open to each other and brushed with soap film: where a bubble grows, it leaks. Readings go onto the sheet “Leak tests”.";
    let mut points = pressure(design, leaks);
    points.push(joined.into());
    vec![figures, Block::Points(points)]
}

/// A sub-assembly with how long its test holds and what it may lose.
fn figures(one: &GroupLeak) -> [Slot; 3] {
    let told =
        |quantity, value: Option<f64>| value.map_or(UNKNOWN.into(), |value| cell(quantity, value));
    let plan = one.plan.as_ref();
    [
        one.budget.group.label().into(),
        told(Q::Time, plan.map(|plan| plan.hold.value)),
        may_lose(plan),
    ]
}

/// What a test may lose.
fn may_lose(plan: Option<&TestPlan>) -> Slot {
    (plan.and_then(|plan| plan.allowed_loss)).map_or(UNKNOWN.into(), |loss| pressed(loss.value))
}

/// What a change of the air's temperature by one degree of the reader's own looks like.
fn drift(plan: &TestPlan) -> Slot {
    let words = "{} for each {}";
    let per_degree = |degree: f64| {
        [
            cell(Q::Pressure, plan.per_kelvin.value * degree),
            cell(Q::TemperatureDifference, degree),
        ]
    };
    let told = |system, degree| Slot::Only(system, Phrase::new(words, per_degree(degree)));
    Phrase::new(
        "{}{}",
        [
            told(System::Metric, 1.0),
            told(System::Inch, FAHRENHEIT_DEGREE),
        ],
    )
    .into()
}

/// One degree Fahrenheit, K.
const FAHRENHEIT_DEGREE: f64 = 5.0 / 9.0;

fn how_to_test(design: &Design, leaks: &Leaks) -> Vec<Slot> {
    let test = &design.leak_test;
    let reads = Phrase::new(
        "Gauge read to {}, thermometer to {}. The hold times hold for these.",
        [
            pressed(test.gauge_step.value),
            cell(Q::TemperatureDifference, test.thermometer_step.value),
        ],
    );
    let mut lines = pressure(design, leaks);
    lines.extend([
        reads.into(),
        Phrase::new(
            "The whole machine may leak {}.",
            [cell(Q::NormalFlow, leaks.allowed.value)],
        )
        .into(),
        "Test out of sun and wind, and let it stand until the temperature is steady. Hold the thermometer against the vessel.".into(),
        "Read pressure and temperature, wait for the hold time, and read both again.".into(),
    ]);
    let is_lined = design.real_vessel.lined;
    lines.extend(seams_in_no_joint(design).map(|seams| {
        let words = if is_lined { HIDDEN_SEAMS } else { OWN_SEAMS };
        Phrase::new(words, [seams.into()]).into()
    }));
    lines.extend((counts_lining(design) && !is_lined).then(|| LINED.into()));
    lines.extend(with_film(design, leaks));
    let mut plans = leaks.groups.iter().filter_map(|one| one.plan.as_ref());
    if plans.any(|plan| plan.hold.value < MINUTE) {
        lines.push("A hold that is shorter than a minute may be longer: what has lost no more than it may after a longer time, at the same temperature, leaks less still.".into());
    }
    lines
}

/// What no joint of the list stands for.
const OWN_SEAMS: &str = "The vessel that is there has seams of its own, and no joint of the list stands for {}. In its first test, before the lining hides that, brush all along with soap film. Where a bubble grows, it leaks.";

/// The same of a vessel that is lined.
const HIDDEN_SEAMS: &str = "The vessel that is there has seams of its own, and no joint of the list stands for {}. The lining hides that, and no soap film reaches it: the gauge alone tells. Where the vessel loses more than it may and every joint in reach is tight, it leaks there.";

/// What the figures of a vessel hold for that is lined later.
const LINED: &str = "A lining of fibre or loose grains is nearly all air, which counts as air inside the vessel: its figures hold before the lining goes in, and after.";

/// s.
const MINUTE: f64 = 60.0;

/// The test pressure, how far one may go, and what is braced before: by the same numbers as the question about flat panels.
fn pressure(design: &Design, leaks: &Leaks) -> Vec<Slot> {
    let planned = design.leak_test.test_pressure;
    let told = |pressure: Pressure| pressed(pressure.value);
    let weakest = leaks.weakest();
    let never = weakest.map(|panel| {
        Phrase::new(
            "Never go above {}: the {} bears no more if it is flat and has no ribs.",
            [told(panel.limit.by_stress), panel.label.to_string().into()],
        )
    });
    let gives_way = weakest.is_some_and(|panel| panel.limit.by_stress < planned);
    let planned_words = Phrase::new(
        if gives_way {
            "Test pressure once that is made stiffer, or its place closed with a thicker blank: {} above the room."
        } else {
            "Test pressure: {} above the room."
        },
        [told(planned)],
    );
    let bulging = (leaks.bulging(planned).into_iter())
        .map(|panel| {
            let slots = [
                panel.label.to_string().into(),
                told(panel.limit.by_deflection),
            ];
            Phrase::new("{} from {} on", slots)
        })
        .reduce(|told, next| Phrase::new("{}, {}", [told.into(), next.into()]));
    let braced = bulging.map(|bulging| {
        Phrase::new(
            "Before it is pumped up, clamp bars across what would bulge, or take it off and close its place with a thicker blank: {}.",
            [bulging.into()],
        )
    });
    let unknown = leaks.panel.is_err().then(|| {
        Phrase::plain(
            "What the “weakest flat panel” of the leak test inputs bears cannot be told: measure it first.",
        )
    });
    let lines = [never, Some(planned_words), braced, unknown];
    lines.into_iter().flatten().map(Slot::from).collect()
}

/// What a gauge can test; what holds no gas of its own has lines of its own.
fn tested(leaks: &Leaks) -> impl Iterator<Item = &GroupLeak> {
    (leaks.groups.iter()).filter(|one| holds_gas(one.budget.group))
}

/// What is done where no gauge tells anything.
fn with_film(design: &Design, leaks: &Leaks) -> Option<Slot> {
    let names = leaks.without_gauge();
    (!names.is_empty()).then(|| {
        let words = if has_blower(design) {
            "No number: {}. They hold no gas of their own. Pump them up together with their neighbour, or let the blower push cold air through before the first fire, and brush their joints with soap film: where a bubble grows, it leaks."
        } else {
            "No number: {}. They hold no gas of their own. Pump them up together with their neighbour, and brush their joints with soap film: where a bubble grows, it leaks."
        };
        Phrase::new(words, [names.join(", ").into()]).into()
    })
}

fn budgets(leaks: &Leaks) -> Vec<TableRow> {
    tested(leaks)
        .map(|one| {
            let told = |quantity, value: Option<f64>| {
                value.map_or(UNKNOWN.into(), |value| cell(quantity, value))
            };
            let plan = one.plan.as_ref();
            row(vec![
                one.budget.group.label().into(),
                cell(Q::Length, one.budget.joint_length.value),
                cell(Q::NormalFlow, one.budget.budget.value),
                told(Q::Volume, one.volume.map(|volume| volume.value)),
                told(Q::Time, plan.map(|plan| plan.hold.value)),
                may_lose(plan),
                plan.map_or(UNKNOWN.into(), drift),
                told(
                    Q::MechanicalEnergy,
                    plan.map(|plan| plan.stored_energy.value),
                ),
            ])
        })
        .collect()
}

fn result(design: &Design, test: &LeakTestMade) -> TableRow {
    let reading = design.readings.get(test.place);
    let date = reading.map_or("", |reading| reading.date.as_str());
    let note = reading.map_or("", |reading| reading.note.as_str());
    let flow = |flow: Option<f64>| flow.map_or(UNKNOWN.into(), |flow| cell(Q::NormalFlow, flow));
    let leak = test.leak.as_ref().ok().filter(|_| test.read);
    let hole = leak.and_then(|leak| leak.hole_diameter);
    judged(
        test.verdict(),
        vec![
            test.group.label().into(),
            date.into(),
            flow(leak.map(|leak| leak.rate.value)),
            flow(leak.map(|leak| leak.uncertainty.value)),
            flow(test.budget.map(|budget| budget.value)),
            hole.map_or("none".into(), |hole| cell(Q::Hole, hole.value)),
            match &test.leak {
                _ if !test.read => "nothing was read yet".into(),
                Ok(_) => note.into(),
                Err(error) => error.to_string().into(),
            },
        ],
    )
}
