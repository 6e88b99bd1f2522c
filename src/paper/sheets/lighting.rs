//! What is looked at before each fire, what the gauges should show, and what is due when.
//!
//! The order of lighting is common practice, no source.

mod gas_way;
mod open_top;
mod refuelling;

use super::summary::ALWAYS;
use super::{BOX, UNKNOWN, cell, row, table, upkeep};
use crate::design::inputs::FuelKind;
use crate::design::phrase::{Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice, Design, celsius};
use crate::paper::sheet::{Block, Sheet};
use crate::review::{Assessment, NamedResult, TableRow, Verdict, has_blower, wearing};
use crate::sizing::also_needed::has_nozzles;
use crate::sizing::hole_purpose::tells_of_lighting;
use crate::sizing::tube_pipes::lighting_ports;
use uom::si::f64::ThermodynamicTemperature;

/// What the gauges should show while lighting and at work, by the stable names of the results.
const GAUGES: [&str; 9] = [
    "electrics.knob_lighting",
    "breath.flow_wanted",
    "breath.suction_side",
    "electrics.meter_lighting",
    "electrics.meter_lighting_most",
    "warmth.warm_up_time",
    KNOB_AT_WORK,
    "breath.engine_vacuum",
    "engine.lasts",
];
/// Of a blower that helps the engine.
const KNOB_AT_WORK: &str = "electrics.knob_usual";
/// The gas just before the engine: its name holds the number of the stage.
const BEFORE_ENGINE: [&str; 2] = ["train.full_dirty.", "_engine.temperature"];

/// What is looked at before each fire, besides what follows from the way in which air gets to it.
const BEFORE: [&str; 5] = [
    "Outdoors or under an open roof; carbon monoxide alarm tested and worn; somebody else is there and knows",
    "Extinguisher and water at hand; nothing that burns near flare, vessel and bare pipes; guards in place",
    "Leak test passed since anything was opened or welded",
    "Traps and cans drained, filter not due",
    "Battery charged, each fuse in its place, blower turns the right way round",
];

/// What belongs to that where air comes in through nozzles.
const UNDER_NOZZLES: [&str; 2] = [
    "Ash taken out, grate moves; char lies up to above the nozzles",
    "Doors, lids and covers closed on clean seals",
];

/// How a hearth with nozzles is lit.
const LIGHT: &str = "First let the blower draw air through the whole machine for a few minutes. Only then bring a flame near, to {}, standing beside it. Shut the port once the char burns.";
/// What is told in place of that where no hole of the list is a lighting port, and where the one there is opens elsewhere.
const LIGHT_WHERE: &str = "First let the blower draw air through the whole machine for a few minutes. No lighting port is among the holes: settle first by which opening the char is lit. It must lead into the fire tube at the height of the nozzles, for anywhere else a flame meets gas. Stand beside it, and shut it once the char burns.";
const LIGHT_NOWHERE: &str = "Hold no flame to {}: as it is entered it does not open on the fire, and a flame there meets gas mixed with air. Put it right first; “Marking out” tells how it lies.";
/// The order of lighting, after that.
const LIGHTING: [&str; 3] = [
    "Once thick smoke comes, light the flare from the side and upwind, with a flame on a long handle. Keep a small flame burning at it: gas that leaves unlit poisons, and can explode.",
    "If the flare goes out and does not light again at once: flame away from all openings, everybody back and upwind, and let the blower clear the machine before you begin anew.",
    "Start the engine once the flare has burned steadily, and no sooner than the time to warm up below.",
];
/// What is told in place of all that where no blower stands in the train.
const UNLIT: &str = "No blower stands in the gas train: nothing purges the machine of air, and no gas burns at a flare before the engine gets it. Do not light it so. Once a blower with its flare branch is entered, what is looked at before each fire and the order of lighting stand here.";
/// How a hearth with nozzles is stopped.
const STOP_WITH_CAPS: &str = "To stop: {}, then put a cap tightly on each of the {} nozzles, with gloves, and shut {} tightly. With one nozzle open the fire goes on. The char glows for hours and gives off gas, carbon monoxide in it: leave it shut, outdoors.";
const AFTER: &str = "Open nothing before it is cold and aired, but the lid for filling, as told below. For the first fire, have somebody there who has done it before.";
/// What is done besides in frost.
const IN_FROST: &str = "In frost drain traps, cans and low bends after each run, once they are cold, into a closed can outdoors: what is left in them freezes, splits seams and shuts the way of the gas (common practice, no source).";
const CAPS: &str = "Caps off all {} nozzles, and at hand for stopping";

pub(super) fn sheet(design: &Design, assessment: &Assessment) -> Sheet {
    let mut sheet = Sheet::new(
        "lighting",
        "Lighting and upkeep",
        "What is looked at before each fire, what the gauges should show, and what is due when.",
        &[
            "fuel",
            "operation",
            "wiring",
            "train",
            "hearth",
            "grate",
            "holes",
        ],
    );
    let mut add = |block| sheet.blocks.push(block);
    for caution in ALWAYS {
        add(Block::Caution(caution.to_string()));
    }
    if has_blower(design) {
        add(table(
            "before-fire",
            "Before each fire",
            &["Look at", "Done", "Date and sign"],
            before(design, assessment),
            "",
        ));
    } else {
        add(Block::Caution(UNLIT.to_string()));
    }
    add(Block::Points(order(design, assessment)));
    add(Block::Text(
        "The order is common practice, no source. What your engine, your insurer or your rules ask for goes before it.".into(),
    ));
    for block in gas_way::blocks(design) {
        add(block);
    }
    for block in refuelling::blocks(design, assessment) {
        add(block);
    }
    add(table(
        "gauges",
        "What the gauges should show",
        &["What", "Computed", "Read at first", "Read later"],
        gauges(design, &assessment.results()),
        "Nothing can be told yet.",
    ));
    add(Block::Text(
        "Write down what you read on the first good day. More suction than then at the same flow means soot, tar or a full filter; less means a leak: stop and look for it.".into(),
    ));
    add(table(
        "upkeep",
        "What is due, at the load at which that comes soonest",
        &["Stage", "What", "After", "At", "Done"],
        upkeep::due(design, assessment)
            .into_iter()
            .map(|mut due| {
                due.cells.push("".into());
                due
            })
            .collect(),
        "Nothing fills up.",
    ));
    for block in upkeep::heed(assessment) {
        add(block);
    }
    add(table(
        "worn",
        "What wears in the fire",
        &["Part", "Made of", "Bears for long", "Gets", "What", "Done"],
        worn(design, assessment),
        "Cannot be told while the hearth makes no gas that burns.",
    ));
    add(Block::Text(
        "Look at all of these each time the ash comes out, and write down when one was changed: how long it lasts is told by that alone (common practice, no source). What gets hotter than it bears is a spare part: keep another.".into(),
    ));
    sheet
}

/// What stands in the fire, with how hot that is and what is done about it.
fn worn(design: &Design, assessment: &Assessment) -> Vec<TableRow> {
    (wearing(design, &assessment.heart).iter())
        .map(|part| {
            let temperature = |at: ThermodynamicTemperature| cell(Q::Temperature, at.value);
            row(vec![
                part.label.into(),
                design.material_name(part.material).into(),
                temperature(part.limit),
                Phrase::new("{} {}", [temperature(part.temperature), part.at.into()]).into(),
                part.upkeep.into(),
                "".into(),
            ])
        })
        .collect()
}

/// How many nozzles there are.
fn nozzles(design: &Design) -> Slot {
    cell(Q::Count, f64::from(design.hearth.nozzle_count))
}

fn order(design: &Design, assessment: &Assessment) -> Vec<Slot> {
    let (lighting, off) = match has_blower(design) {
        true => (&LIGHTING[..], "engine off, blower off"),
        false => (&[][..], "engine off"),
    };
    let (light, stop) = if has_nozzles(design) {
        let (light, shut) = by_port(design, assessment);
        let slots = [off.into(), nozzles(design), shut.into()];
        (light, Phrase::new(STOP_WITH_CAPS, slots))
    } else {
        let stop = Phrase::new(open_top::STOP, [off.into()]);
        (open_top::LIGHT.into(), stop)
    };
    let in_frost = design.site.air_temperature.value <= celsius(0.0) && !design.train.is_empty();
    (has_blower(design).then_some(light).into_iter())
        .chain(lighting.iter().copied().map(Slot::from))
        .chain([stop.into(), AFTER.into()])
        .chain(in_frost.then(|| IN_FROST.into()))
        .collect()
}

/// How a hearth with nozzles is lit, and what is shut besides them: by the port that is among the holes. As long as no hole is
/// entered, there is one.
fn by_port(design: &Design, assessment: &Assessment) -> (Slot, &'static str) {
    const BOTH: &str = "lighting port and gas outlet";
    let astray = (assessment.finding("marking.lighting_port"))
        .is_some_and(|finding| finding.verdict == Verdict::Stop);
    let port = lighting_ports(design).first().map(|(_, hole)| match hole {
        hole if tells_of_lighting(hole) => Slot::from("the lighting port"),
        hole => Phrase::new("“{}”", [hole.name.as_str().into()]).into(),
    });
    match port {
        Some(port) if astray => (Phrase::new(LIGHT_NOWHERE, [port]).into(), BOTH),
        Some(port) => (Phrase::new(LIGHT, [port]).into(), BOTH),
        None if design.holes.is_empty() => {
            let light = Phrase::new(LIGHT, ["the lighting port".into()]);
            (light.into(), BOTH)
        }
        None => (LIGHT_WHERE.into(), "gas outlet and every other opening"),
    }
}

/// What goes into the hopper, as a line begins with it.
fn called(fuel: FuelKind) -> &'static str {
    match fuel {
        FuelKind::Softwood | FuelKind::Hardwood => "Wood",
        FuelKind::Own => "Fuel",
        other => other.label(),
    }
}

fn before(design: &Design, assessment: &Assessment) -> Vec<TableRow> {
    // What was weighed goes before what was entered.
    let moisture = (assessment.heart.moisture.as_ref()).map_or(UNKNOWN.into(), |found| {
        cell(Q::Share, found.wet_basis.value)
    });
    let (of_air, fuel) = match (has_nozzles(design), design.hopper.fitted) {
        (true, true) => (
            UNDER_NOZZLES,
            "{} of at most {} water and about {} across, as reckoned; hopper filled and its lid shut",
        ),
        (true, false) => (
            UNDER_NOZZLES,
            "{} of at most {} water and about {} across, as reckoned; vessel filled and its lid shut",
        ),
        (false, _) => (open_top::BEFORE, open_top::FUEL),
    };
    let pieces = cell(Q::Length, design.fuel.piece_size.value);
    let fuel = Phrase::new(fuel, [called(design.fuel.kind).into(), moisture, pieces]);
    let caps = has_nozzles(design).then(|| Phrase::new(CAPS, [nozzles(design)]).into());
    (BEFORE.into_iter().chain([gas_way::before(design)]))
        .chain(of_air)
        .map(Slot::from)
        .chain(caps)
        .chain([fuel.into()])
        .map(|look| row(vec![look, BOX.into(), "".into()]))
        .collect()
}

fn gauges(design: &Design, results: &[NamedResult]) -> Vec<TableRow> {
    let [before, behind] = BEFORE_ENGINE;
    let named = |name: &&str| results.iter().find(|result| result.name == **name);
    let gas = (results.iter())
        .find(|result| result.name.starts_with(before) && result.name.ends_with(behind));
    let turned = |name: &&&str| design.blower.assists || **name != KNOB_AT_WORK;
    (GAUGES.iter().filter(turned).filter_map(named))
        .chain(gas)
        .map(|result| {
            row(vec![
                result.label.as_str().into(),
                cell(result.measure.quantity, result.measure.si),
                "".into(),
                "".into(),
            ])
        })
        .collect()
}
