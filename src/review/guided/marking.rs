//! Plan vessel, holes, flange and grate of the machine that was sized.
//!
//! The plan's bottom end is the vessel's underside, its top end the foot of the lid; its round seams are the welds of
//! the shell: bottom to hearth band, hearth band to body. For a vessel that was measured the plan has its seams. All heights
//! count from the bottom end, which every vessel has, and a tape is hooked to: what is entered is what is marked.

use super::whole;
use crate::design::Design;
use crate::design::inputs::{
    Datum, HearthKind, Hole, HoleUse, PlanVessel, RealVessel, StageKind, StaysWith, TrainStage,
};
use crate::review::finding::Verdict;
use crate::review::marking::{examine, straight_wanted};
use crate::sizing::machine;
use crate::sizing::marking::Vessel;
use crate::sizing::nozzle_tube::USUAL_WALL;
use std::f64::consts::PI;
use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};
use uom::si::length::{meter, millimeter};

/// A hole for a nozzle tube is at least so much wider than the tube, and a whole number of these steps across, mm.
const NOZZLE_PLAY: f64 = 0.3;
const HOLE_STEP: f64 = 0.5;
/// Most holes of a ring.
const MOST_HOLES: u32 = 15;
/// The ash door across, and its middle above the lower weld, mm.
const ASH_DOOR: f64 = 100.0;
const ASH_DOOR_UP: f64 = 80.0;
/// The lighting port, for a pipe of one inch as it is sold, and the hole of the thermometer across, mm.
const LIGHTING_PORT: f64 = 34.0;
const LIGHTING_PIPE: f64 = 33.7;
const THERMOMETER: f64 = 13.0;
/// The thermometer above the foot of the body, mm.
const THERMOMETER_UP: f64 = 100.0;
/// From the front mark to gas outlet and thermometer; about where the long seam is wanted, °.
const OUTLET_ROUND: f64 = 145.0;
const THERMOMETER_ROUND: f64 = 200.0;
const SEAM_ROUND: f64 = 252.0;
/// The bore of the outlet's flange, which goes over the pipe, is so much wider than that, mm.
const FLANGE_PLAY: f64 = 1.0;
/// What is a whole number of millimetres but for this is one, mm.
const ROUNDING: f64 = 1e-6;
/// Share of the height of the nozzles above the throat that the fire tube goes straight on at most. Our own choice.
const MOST_STRAIGHT: f64 = 0.5;
/// Angle of the gas outlet to the vessel's axis, °.
const OUTLET_LEAN: f64 = 60.0;

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

fn round(degrees: f64) -> Angle {
    Angle::new::<degree>(degrees)
}

/// Inside diameter and wall of the first pipe that the gas passes.
fn outlet(design: &Design) -> (Length, Length) {
    let pipe = (design.train.iter()).find(|stage| stage.kind == StageKind::Pipe);
    let any = TrainStage::default();
    let pipe = pipe.unwrap_or(&any);
    (pipe.bore, pipe.wall)
}

/// Outside diameter of a nozzle tube, to a tenth of a millimetre.
fn nozzle_outside(design: &Design) -> Length {
    let tube = design.hearth.nozzle_bore.value + 2.0 * USUAL_WALL;
    Length::new::<meter>((1.0e4 * tube).round() / 1.0e4)
}

/// The next whole millimetre; what is one but for rounding is no more.
fn up_to_mm(length: Length) -> Length {
    mm((length.get::<millimeter>() - ROUNDING).ceil())
}

/// Lets the fire tube go on below its nozzles, by whole millimetres, until their holes keep clear of the weld of the cone, and
/// that of the lighting port as high as it may lie.
pub(super) fn clear_of_cone(design: &mut Design) {
    let port = straight_wanted(&design.hearth, mm(LIGHTING_PIPE)) - port_room(design);
    let needed = straight_wanted(&design.hearth, nozzle_outside(design)).max(port);
    let most = (MOST_STRAIGHT * design.hearth.nozzle_height.get::<millimeter>()).floor();
    design.hearth.straight_below_nozzles = up_to_mm(needed).min(mm(most));
}

/// The most that the lighting port may lie above the nozzles, by whole millimetres: where it still faces them, and no higher than
/// the round seam above leaves it.
fn port_room(design: &Design) -> Length {
    let (vessel, hearth) = machine::measures(design);
    let above = |height: Length| whole(height - vessel.underside);
    let nozzles = above(hearth.nozzle_plane);
    let own = Vessel::bought(&design.real_vessel);
    let seams = match design.real_vessel.measured {
        true => [own.lower_seam, own.upper_seam, own.length],
        false => [vessel.hearth_bottom, vessel.hearth_top, vessel.body_top].map(above),
    };
    let next = (seams.into_iter())
        .filter(|seam| *seam > nozzles)
        .fold(above(vessel.body_top), Length::min);
    let free = next - nozzles - 0.5 * mm(LIGHTING_PORT) - design.limits.hole_to_seam;
    let most = free.min(0.5 * mm(LIGHTING_PIPE)).get::<millimeter>();
    mm((most + ROUNDING).floor().max(0.0))
}

/// How far the lighting port lies above the nozzles, by whole millimetres: its hole in the fire tube is wider than theirs, and
/// keeps clear of the weld of the cone too.
fn port_above_nozzles(design: &Design) -> Length {
    let hearth = &design.hearth;
    let needed = straight_wanted(hearth, mm(LIGHTING_PIPE)) - hearth.straight_below_nozzles;
    up_to_mm(needed)
        .max(Length::default())
        .min(port_room(design))
}

/// The gas outlet at about this height, but so high that its mouth inside the lining keeps above the grate.
fn outlet_height(design: &Design, about: Length) -> Length {
    let (vessel, hearth) = machine::measures(design);
    let lean = round(OUTLET_LEAN).value;
    let wall = vessel.hearth_outer_radius - vessel.hearth_inner_radius;
    let (bore, _) = outlet(design);
    let grate = hearth.grate - vessel.underside;
    let least = grate + wall / lean.tan() + 0.5 * bore / lean.sin();
    about.max(up_to_mm(least))
}

/// Outside diameter of the gas outlet.
pub(super) fn outlet_outside(design: &Design) -> Length {
    let (bore, wall) = outlet(design);
    bore + 2.0 * wall
}

/// Marks out the vessel of a design.
pub(super) fn mark(design: &mut Design, start: &Design) {
    let (vessel, hearth) = machine::measures(design);
    let above = |height: Length| whole(height - vessel.underside);
    let (lower_weld, upper_weld) = (above(vessel.hearth_bottom), above(vessel.hearth_top));
    let there = (design.real_vessel.measured).then(|| Vessel::bought(&design.real_vessel));
    let plan = PlanVessel {
        girth: whole(2.0 * PI * vessel.hearth_outer_radius),
        length: above(vessel.body_top),
        lower_seam: there.map_or(lower_weld, |own| own.lower_seam),
        upper_seam: there.map_or(upper_weld, |own| match own.has_upper_seam() {
            true => own.upper_seam,
            false => Length::default(),
        }),
        datum: Datum::BottomEnd,
    };
    let nozzles = design.hearth.nozzle_count.clamp(1, MOST_HOLES);
    let between = 360.0 / f64::from(nozzles);
    design.holes = holes(
        design,
        nozzles,
        &Heights {
            lower_weld,
            nozzles: above(hearth.nozzle_plane),
            upper_weld,
        },
    );
    if !design.real_vessel.measured {
        design.real_vessel = RealVessel {
            lined: design.real_vessel.lined,
            girth: plan.girth,
            length: plan.length,
            lower_seam: plan.lower_seam,
            upper_seam: plan.upper_seam,
            // Half-way between two nozzles.
            long_seam: round(((SEAM_ROUND / between).floor() + 0.5) * between),
            sheet: (design.hearth_layers.last())
                .map_or(design.real_vessel.sheet, |shell| shell.thickness),
            ..RealVessel::default()
        };
    }
    design.plan_vessel = plan;
    let bore = outlet_outside(design) + mm(FLANGE_PLAY);
    if let (Some(flange), Some(first)) = (design.flanges.first_mut(), start.flanges.first()) {
        let wider = bore - first.bore;
        flange.bore = bore;
        flange.bolt_circle = whole(first.bolt_circle + wider);
        flange.outside = whole(first.outside + wider);
    }
    let wider = design.hearth.below_throat_diameter - start.hearth.below_throat_diameter;
    design.grate.diameter = whole(start.grate.diameter + wider);
}

/// Heights above the bottom end.
struct Heights {
    /// Where bottom and hearth band meet.
    lower_weld: Length,
    /// The ring of nozzles.
    nozzles: Length,
    /// Where hearth band and body meet.
    upper_weld: Length,
}

fn holes(design: &Design, nozzles: u32, at: &Heights) -> Vec<Hole> {
    let named = |name: &str, diameter: Length, height: Length, angle: f64| Hole {
        name: name.to_string(),
        diameter,
        height,
        angle: round(angle),
        stays_with: StaysWith::BottomEnd,
        ..Hole::default()
    };
    let tube = nozzle_outside(design);
    let steps = ((tube + mm(NOZZLE_PLAY)) / mm(HOLE_STEP)).value;
    let (bore, wall) = outlet(design);
    let ring = (design.hearth.kind == HearthKind::Constricted).then(|| Hole {
        count: nozzles,
        carries: HoleUse::SetIn,
        pipe: Some(tube),
        pipe_wall: Length::new::<meter>(USUAL_WALL),
        ..named("Nozzle", mm(HOLE_STEP * steps.ceil()), at.nozzles, 0.0)
    });
    let others = [
        named(
            "Ash door",
            mm(ASH_DOOR),
            at.lower_weld + mm(ASH_DOOR_UP),
            0.0,
        ),
        Hole {
            carries: HoleUse::SetOn,
            pipe: Some(outlet_outside(design)),
            pipe_wall: wall,
            lean: round(OUTLET_LEAN),
            ..named(
                "Gas outlet",
                bore,
                outlet_height(design, whole(0.5 * (at.lower_weld + at.nozzles))),
                OUTLET_ROUND,
            )
        },
        Hole {
            carries: HoleUse::SetIn,
            pipe: Some(mm(LIGHTING_PIPE)),
            ..named(
                "Lighting port",
                mm(LIGHTING_PORT),
                at.nozzles + port_above_nozzles(design),
                180.0 / f64::from(nozzles),
            )
        },
        Hole {
            stays_with: StaysWith::TopEnd,
            ..named(
                "Thermometer",
                mm(THERMOMETER),
                at.upper_weld + mm(THERMOMETER_UP),
                THERMOMETER_ROUND,
            )
        },
    ];
    ring.into_iter().chain(others).collect()
}

/// A hole that is too near to a seam is moved up or down by such steps, and no further than this, mm. Our own choice.
const MOVED_BY: f64 = 5.0;
const MOVED_MOST: f64 = 150.0;
/// One that is still too near is turned round the shell by such steps, and no further than this, °; so is the ring of nozzles,
/// by no more than from nozzle to nozzle. Our own choice.
const TURNED_BY: f64 = 5.0;
const RING_TURNED_BY: f64 = 1.0;
const TURNED_MOST: f64 = 90.0;
/// How often all that is looked through.
const ROUNDS: u8 = 2;

/// How badly the holes of a design lie, the gravest first: what else stops about them, how many places are too near to each
/// other, and how many other questions about them are not Good.
pub(super) fn crowded(design: &Design) -> [usize; 3] {
    let (review, findings) = examine(design);
    let others = |counts: fn(Verdict) -> bool| {
        (findings.iter())
            .filter(|finding| finding.id != "marking.clash" && counts(finding.verdict))
            .count()
    };
    [
        others(|verdict| verdict == Verdict::Stop),
        review.clashes.len(),
        others(|verdict| verdict != Verdict::Good),
    ]
}

/// Moves openings and the gas outlet up or down where they are too near to a seam or to another hole, and turns them round
/// the shell where that is not enough, by as little as leaves least of it. What they are for may become harder, but not fail.
/// Nozzles and lighting port stay at the height that the hearth has for them, and are turned as one ring.
pub(super) fn clear_seams(design: &mut Design) {
    let is_of_ring = |hole: &Hole| hole.carries == HoleUse::SetIn;
    let (ring, openings): (Vec<usize>, Vec<usize>) =
        (0..design.holes.len()).partition(|place| design.holes.get(*place).is_some_and(is_of_ring));
    let most = (ring.iter())
        .filter_map(|place| Some(360.0 / f64::from(design.holes.get(*place)?.count)))
        .fold(TURNED_MOST, f64::min);
    // What made room for one may have left another a shorter way.
    for _ in 0..ROUNDS {
        for place in &openings {
            least_crowded(
                design,
                MOVED_BY,
                MOVED_MOST,
                |hole, by| {
                    hole.height = whole(hole.height + mm(by));
                },
                &[*place],
            );
        }
        least_crowded(design, RING_TURNED_BY, most, turn, &ring);
        for place in &openings {
            least_crowded(design, TURNED_BY, TURNED_MOST, turn, &[*place]);
        }
    }
}

/// Turns a hole round the shell by so many degrees.
fn turn(hole: &mut Hole, by: f64) {
    let turned = (hole.angle + round(by)).get::<degree>();
    hole.angle = round(turned.rem_euclid(360.0));
}

/// Changes these holes alike, by whole steps one way or the other, by as little as leaves fewest places that are too near.
fn least_crowded(
    design: &mut Design,
    step: f64,
    most: f64,
    change: impl Fn(&mut Hole, f64),
    holes: &[usize],
) {
    let mut best = crowded(design);
    let [_, clashes, others] = best;
    if clashes == 0 {
        return;
    }
    let mut taken = None;
    let steps = (1..=(most / step) as u32).map(|count| step * f64::from(count));
    for by in steps.flat_map(|by| [by, -by]) {
        let mut changed = design.clone();
        for place in holes {
            if let Some(hole) = changed.holes.get_mut(*place) {
                change(hole, by);
            }
        }
        let left = crowded(&changed);
        if left < best {
            best = left;
            taken = Some(changed);
        }
        let [_, clashes, harder] = best;
        if clashes == 0 && harder <= others {
            break;
        }
    }
    if let Some(taken) = taken {
        *design = taken;
    }
}
