//! The machine from the front as it is built: heights of all zones, diameters, layers, base and over all.

use super::frame::extent;
use super::ink::{Leads, Stroke, View};
use super::notes::{Notes, Remark, tape, width};
use super::paper::{LETTERS, Sheet, text_size};
use super::pieces::{self, FILL, mm};
use super::scene::{edges, ground};
use crate::design::Design;
use crate::design::phrase::{Measure, lower_first};
use crate::design::quantity::{Quantity, System};
use crate::review::Assessment;
use crate::sizing::also_needed::has_nozzles;
use crate::sizing::zone::Zone;

/// What the drawing may take on paper, across and upright, mm.
const ROOM: (f64, f64) = (182.0, 150.0);
/// Between the machine and what is told beside it, as a multiple of the text size.
const APART: f64 = 1.6;
/// Room for the height over all beside its line.
const HEIGHT: f64 = 5.0;
/// Room for both widths below the ground, and above the top.
const BELOW: f64 = 7.0;
const ABOVE: f64 = 1.6;

/// The drawing of a design with its assessment.
pub(super) fn sheet(design: &Design, assessment: &Assessment, system: System) -> Sheet {
    let standing = &assessment.standing;
    let view = View::Front;
    let (left, right) = extent(&assessment.standing.machine, view);
    let top = mm(standing.machine.top);
    let told = [
        heights(assessment, system),
        across(design, assessment, system),
    ];
    let [column, other] = told.each_ref().map(|remarks| widest(remarks));
    let texts = column + other + HEIGHT + 4.5 * APART;
    let size = text_size(ROOM, (right - left, texts), (top, BELOW + ABOVE));

    let mut notes = Notes::default();
    notes.strokes.extend(ground((left, right, 0.0, top), size));
    for piece in pieces::touchables(design, &standing.machine, view) {
        let of_machine = |stroke: &Stroke| stroke.class != FILL;
        notes
            .strokes
            .extend(piece.strokes.into_iter().filter(of_machine));
    }
    (notes.strokes).extend(pieces::contacts(design, &standing.footprint, view));
    (notes.strokes).extend(pieces::fire(design, &standing.machine, view));

    let chain = left - APART * size;
    let mut highest = 0.0;
    for up in std::iter::once(0.0).chain(levels(assessment).map(|(_, up)| up)) {
        notes.tick(chain, up, size);
        highest = up;
    }
    notes.line(&[(chain, 0.0), (chain, highest)], "dimension");
    let texts_end = chain - APART * size;
    let over_all = texts_end - (column + 1.0) * size;
    notes.upright(over_all, 0.0, top, size, tape(top, system));
    let wide = |name: &str, from: f64, to: f64| format!("{name} {}", tape(to - from, system));
    if let Some((from, to)) = edges(assessment, view) {
        notes.level(from, to, -1.4 * size, size, wide("base", from, to));
    }
    if let Some(overall) = &standing.overall {
        let (from, to) = (mm(overall.left), mm(overall.right));
        notes.level(from, to, -4.6 * size, size, wide("over all", from, to));
    }
    let [mut heights, others] = told;
    for height in &mut heights {
        height.from.0 = chain;
    }
    let texts_begin = right + APART * size;
    notes.column(heights, texts_end, f64::INFINITY, size);
    notes.column(others, texts_begin, f64::INFINITY, size);
    let above = top + ABOVE * size;
    Sheet {
        bounds: (
            over_all - HEIGHT * size,
            texts_begin + (other + 0.5) * size,
            -BELOW * size,
            (notes.labels.iter()).fold(above, |known, label| known.max(label.at.1 + size)),
        ),
        text_size: size,
        notes,
        words: words(design, system),
    }
}

/// Widest of these, as a multiple of the text size.
fn widest(remarks: &[Remark]) -> f64 {
    let wide = |remark: &Remark| LETTERS * width(&format!("{} {}", remark.name, remark.value));
    remarks.iter().map(wide).fold(0.0, f64::max)
}

/// Where a zone ends and the next begins, from the ground up, each with the name of what lies below it, mm.
fn levels(assessment: &Assessment) -> impl Iterator<Item = (&'static str, f64)> {
    let vessel = &assessment.standing.machine.vessel;
    let mut below = 0.0;
    [
        ("clearance", vessel.underside),
        ("bottom", vessel.hearth_bottom),
        ("hearth wall", vessel.hearth_top),
        ("body wall", vessel.body_top),
        ("lid", vessel.lid_top),
        ("hopper cone", vessel.hopper_cone_top),
        ("hopper", vessel.hopper_top),
    ]
    .into_iter()
    .map(|(name, up)| (name, mm(up)))
    .filter(move |(_, up)| {
        let is_there = *up - below > 0.05;
        below = below.max(*up);
        is_there
    })
}

/// How tall each zone is, told at the height of its middle.
fn heights(assessment: &Assessment, system: System) -> Vec<Remark> {
    let mut below = 0.0;
    levels(assessment)
        .map(|(name, up)| {
            let told = remark(
                (0.0, 0.5 * (below + up)),
                name.to_string(),
                tape(up - below, system),
            );
            below = up;
            told
        })
        .collect()
}

/// Diameters, layers, and how high nozzles and grate lie.
fn across(design: &Design, assessment: &Assessment, system: System) -> Vec<Remark> {
    let machine = &assessment.standing.machine;
    let vessel = &machine.vessel;
    let axis = mm(vessel.x);
    let mut told = Vec::new();
    let mut wide = |name: &str, radius: f64, up: f64| {
        let from = (axis + radius, up);
        told.push(remark(from, name.to_string(), tape(2.0 * radius, system)));
    };
    let between = |from, to, share: f64| mm(from) + share * (mm(to) - mm(from));
    let hearth = |share| between(vessel.hearth_bottom, vessel.hearth_top, share);
    let body = |share| between(vessel.hearth_top, vessel.body_top, share);
    wide(
        "hearth wall, outside",
        mm(vessel.hearth_outer_radius),
        hearth(0.8),
    );
    wide(
        "hearth wall, inside",
        mm(vessel.hearth_inner_radius),
        hearth(0.7),
    );
    wide(
        "body wall, outside",
        mm(vessel.body_outer_radius),
        body(0.8),
    );
    wide("body wall, inside", mm(vessel.body_inner_radius), body(0.7));
    if design.hopper.fitted {
        let up = |share| between(vessel.hopper_cone_top, vessel.hopper_top, share);
        wide("hopper, outside", mm(vessel.hopper_outer_radius), up(0.6));
        let wall = design.hopper.wall_thickness.value;
        let from = (axis + mm(vessel.hopper_inner_radius), up(0.4));
        told.push(remark(
            from,
            "hopper wall".to_string(),
            thickness(wall, system),
        ));
    }
    for zone in Zone::ALL {
        told.extend(layers(design, assessment, zone, system));
    }
    let hearth = &machine.hearth;
    let mut levels = vec![("grate", hearth.grate, hearth.foot_radius)];
    if has_nozzles(design) {
        levels.push(("nozzles", hearth.nozzle_plane, hearth.tube_radius));
    }
    told.extend(levels.into_iter().map(|(name, up, radius)| {
        let name = format!("{name}, above ground");
        remark((axis + mm(radius), mm(up)), name, tape(mm(up), system))
    }));
    told
}

/// How thick each layer of a zone is, told at the layer.
fn layers(
    design: &Design,
    assessment: &Assessment,
    zone: Zone,
    system: System,
) -> impl Iterator<Item = Remark> {
    let vessel = &assessment.standing.machine.vessel;
    let axis = mm(vessel.x);
    let layers = zone.layers(design);
    let alone = layers.len() == 1;
    let mut inside = 0.0;
    layers.iter().enumerate().map(move |(place, layer)| {
        let middle = inside + 0.5 * mm(layer.thickness);
        inside += mm(layer.thickness);
        let lower = |from: f64, to: f64| from + (0.5 - 0.08 * place.min(4) as f64) * (to - from);
        let from = match zone {
            Zone::Hearth => (
                axis + mm(vessel.hearth_inner_radius) + middle,
                lower(mm(vessel.hearth_bottom), mm(vessel.hearth_top)),
            ),
            Zone::Body => (
                axis + mm(vessel.body_inner_radius) + middle,
                lower(mm(vessel.hearth_top), mm(vessel.body_top)),
            ),
            Zone::Lid => (
                axis + 0.97 * mm(vessel.body_outer_radius),
                mm(vessel.body_top) + middle,
            ),
            Zone::Bottom => (
                axis + 0.97 * mm(vessel.bottom_radius),
                mm(vessel.hearth_bottom) - middle,
            ),
        };
        let name = lower_first(zone.label());
        let name = if alone {
            name
        } else {
            format!("{name}, layer {}:", place + 1)
        };
        remark(from, name, thickness(layer.thickness.value, system))
    })
}

fn thickness(si: f64, system: System) -> String {
    Measure::new(Quantity::Thickness, si).show(system)
}

fn remark(from: (f64, f64), name: String, value: String) -> Remark {
    Remark {
        from,
        name,
        value,
        class: "label",
        leads: Leads::Nowhere,
    }
}

/// What is not written in the drawing: what the layers are made of.
fn words(design: &Design, system: System) -> String {
    let zones = Zone::ALL.into_iter().filter_map(|zone| {
        let layers = zone.layers(design).iter().map(|layer| {
            let name = (design.material(layer.material)).map_or("?", |material| material.name);
            format!(
                "{} of {}",
                thickness(layer.thickness.value, system),
                lower_first(name)
            )
        });
        let layers: Vec<String> = layers.collect();
        (!layers.is_empty()).then(|| format!("{}: {}.", zone.label(), layers.join(", ")))
    });
    let zones: Vec<String> = zones.collect();
    format!(
        "Heights, diameters and layers; layers are counted from the hot side. {} The base is told between its outermost feet or wheels. Pipes and hoses are not drawn.",
        zones.join(" ")
    )
}
