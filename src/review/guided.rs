//! A complete design out of a few answers: what was not asked is sized to suit what was.
//!
//! The answers stand in a design already, typed into the same fields as ever. [`complete`] leaves them alone, but for
//! pieces of wood that would not pass the throat, and sizes the rest: throat and hearth by the published table for the gas
//! the engine draws, the vessel around the hearth, pipes in proportion to the example. Marking out, joints and the places
//! of the other parts then follow from what was sized.

mod ash;
mod bought_shell;
mod built_hearth;
mod joining;
mod marking;
mod places;
mod questions;
mod small_fire;
mod sold_layers;
mod stand;
mod unmet;

pub use questions::{Otherwise, Part, QUESTIONS, Question, There};
pub use unmet::{StillUnmet, Unmet, WiderVessel};

use super::finding::{Lever, Verdict};
use super::remedy::{Remedy, remedy};
use super::{Assessment, Tally, assess};
use crate::design::inputs::{FlowSource, HearthKind, Layer, Lie, StageKind, TrainStage};
use crate::design::quantity::{Quantity, Quantity as Q, System};
use crate::design::{Design, Kind, Value, example};
use crate::sizing::cooler_drive::CoolerDrive;
use crate::sizing::hearth_growth::least_wall;
use crate::sizing::hearth_load::{TableHearth, hearth_load, recommended_hearth};
use crate::sizing::machine;
use uom::si::f64::{Length, Power, ThermodynamicTemperature, Velocity, Volume, VolumeRate};
use uom::si::length::{meter, millimeter};
use uom::si::power::watt;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::velocity::meter_per_second;
use uom::si::volume::cubic_meter;

/// The design with everything sized that was not asked.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::review::guided::complete;
/// let design = complete(&example::to_start_from(), &[]);
/// assert!(design.hearth.throat_diameter.value > 0.05);
/// ```
pub fn complete(design: &Design, there: &[Part]) -> Design {
    let mut sized = size(design, there);
    // A note goes wherever the design goes, and stays: what still stops is no matter for it.
    let mut note = small_fire::told(design, &sized);
    note.push_str(&stand::told(&sized));
    note.push_str(&stand::told_of_room(&sized));
    note.push_str(&told_of_fan(&sized));
    note.push_str(&built_hearth::told(&sized));
    if sized.engine.wanted_power != design.engine.wanted_power {
        let wanted = in_both(Q::EnginePower, sized.engine.wanted_power.value);
        note.push_str(&format!(
            " Power wanted: {wanted}, what this engine gives on gas at the end of the train, rounded down."
        ));
    }
    if is_bought(there) {
        note.push(' ');
        note.push_str(&bought_shell::told(&sized));
    }
    sized.about.note = note;
    sized
}

/// The completed design without its room, where the questions ended before that was asked: nobody said how much there is.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::review::guided::{complete, without_room};
/// let design = without_room(complete(&example::to_start_from(), &[]));
/// assert_eq!(design.base.room_width, None);
/// assert!(!design.about.note.contains("Room:"));
/// ```
pub fn without_room(mut sized: Design) -> Design {
    let told = stand::told_of_room(&sized);
    if let Some((before, behind)) = sized.about.note.split_once(&told) {
        sized.about.note = [before, behind].concat();
    }
    (sized.base.room_width, sized.base.room_depth) = (None, None);
    sized
}

/// What vessel would do for answers whose design has Stops, where a steel vessel is there; none where nothing stops, and
/// where no vessel mends that.
pub fn wider_vessel(answered: &Design, there: &[Part], sized: &Design) -> Option<WiderVessel> {
    (is_bought(there) && has_stops(sized))
        .then(|| bought_shell::would_do(answered, there))
        .flatten()
}

/// What the fan of the cooler draws until its plate is at hand, in words for the note; nothing without a fan.
fn told_of_fan(design: &Design) -> String {
    let fan = example::cooler_fan();
    if !CoolerDrive::Fan.is_needed(design) || !design.loads.contains(&fan) {
        return String::new();
    }
    format!(
        " Fan of the cooler: {} among the electric loads, from memory of radiator fans; put in what the plate of yours tells.",
        in_both(Q::Power, fan.power.value)
    )
}

/// Whether a steel vessel is there, to be lined.
fn is_bought(there: &[Part]) -> bool {
    there.contains(&Part::Shell) && !there.contains(&Part::Vessel)
}

/// The design with everything sized that was not asked, without a word of it.
fn size(design: &Design, there: &[Part]) -> Design {
    let start = example::to_start_from();
    let mut sized = design.clone();
    sized.operation.flow_source = FlowSource::Engine;
    sized.engine.at_hand = there.contains(&Part::Engine);
    sized.hearth.built = there.contains(&Part::Hearth);
    sized.real_vessel.lined = there.contains(&Part::Vessel);
    let bought = is_bought(there);
    let is_free = !bought && !there.contains(&Part::Vessel);
    sized.real_vessel.measured |= bought;
    let room = stand::within_room(&mut sized);
    stand::high_enough(&mut sized);
    // Engine, hearth and vessel depend on each other through the gas; a few rounds settle that.
    for _ in 0..4 {
        let assessment = assess(&sized);
        if !there.contains(&Part::Engine)
            && let Some(Ok(on_gas)) = &assessment.engine.on_gas
        {
            let least = built_hearth::least_engine(&sized, &assessment);
            // A hearth that makes no gas for such an engine is not sized for it yet.
            let in_proportion = || {
                let share = sized.engine.wanted_power / on_gas.runs.full.shaft_power;
                sized.engine.displacement * share
            };
            let wanted =
                (on_gas.for_power()).map_or_else(in_proportion, |other| other.displacement);
            sized.engine.displacement = rounded_up(wanted.max(least));
        }
        let flow = assessment.heart.at.full.supply.gas_flow;
        if !there.contains(&Part::Hearth) && flow.value.is_finite() && flow.value > 0.0 {
            let load = design.limits.hearth_load_most * share_of_load(&sized, &assessment, flow);
            let load = Velocity::new::<meter_per_second>(load);
            size_hearth(&mut sized, &recommended_hearth(flow, load));
            marking::clear_of_cone(&mut sized);
        }
        if !there.contains(&Part::Vessel) {
            size_vessel(&mut sized, &start);
        }
        if bought {
            bought_shell::fit(&mut sized);
        }
    }
    sized.base.vessel_y = whole(start.base.vessel_y * (sized.base.depth / start.base.depth));
    let flows = [&sized, &start].map(|design| assess(design).heart.at.full.supply.gas_flow.value);
    scale_train(&mut sized, &start, flows[0] / flows[1]);
    // A small hearth has more wall for its fire, and needs more around it.
    if !there.contains(&Part::Hearth) {
        small_fire::fit_pieces(&mut sized);
    }
    small_fire::fit_char(&mut sized);
    if bought {
        bought_shell::balance(&mut sized, &start, !there.contains(&Part::Hearth));
    }
    // In a vessel of its own width there is no room for more.
    small_fire::insulate(&mut sized, is_free, !bought);
    take(&mut sized, "warmth.layers_hearth", ".material");
    if !there.contains(&Part::Hearth) {
        small_fire::widen_throat(&mut sized);
        // Drills are sold by the tenth of a millimetre; a narrower bore makes the air faster.
        mend(
            &mut sized,
            "hearth.nozzle_velocity",
            ".nozzle_bore",
            |bore| (bore * 1.0e4).floor() / 1.0e4,
        );
        marking::clear_of_cone(&mut sized);
    }
    if is_free {
        ash::leave_room(&mut sized);
    }
    // Wood must slide out of a hopper that is wider than its vessel.
    mend(&mut sized, "engine.hopper_cone", ".cone_height", |height| {
        (height * 200.0).ceil() / 200.0
    });
    size_cooler(&mut sized);
    // The fan draws on battery and cables, whatever its plate will say.
    if CoolerDrive::Fan.has_no_load(&sized) {
        sized.loads.push(example::cooler_fan());
    }
    // What fits the example is no matter of another train: the air follows from the sizes.
    sized.leak_test.filter_volume = None;
    sized.leak_test.cooler_volume = None;
    sized.leak_test.condensate_volume = None;
    marking::mark(&mut sized, &start);
    // Its sheet is cut and bought, so whoever has no vessel rolls one.
    sized.real_vessel.rolled = is_free && !sized.real_vessel.measured;
    marking::clear_seams(&mut sized);
    if bought {
        bought_shell::raise_over_seam(&mut sized, &start);
    }
    joining::join(&mut sized, &start, bought);
    stand::test_as_hard_as_it_sucks(&mut sized);
    places::place(&mut sized, &start);
    stand::strengthen(&mut sized, &start);
    // What shields the battery follows from the wall that it stands beside.
    mend(&mut sized, "electrics.box", ".sheets", f64::ceil);
    places::raise_battery(&mut sized, &start);
    stand::keep_room(&mut sized, room);
    sold_layers::prefer(&mut sized);
    if there.contains(&Part::Engine) && sized.engine.wanted_power == start.engine.wanted_power {
        want_what_it_gives(&mut sized);
    }
    // Whatever came out beyond its range goes back to what was there.
    within_ranges(design, sized)
}

fn has_stops(design: &Design) -> bool {
    assess(design).count(Verdict::Stop) > 0
}

/// Changes the first number whose path ends so and that lets a failing verdict pass, rounded to what can be had;
/// nothing larger than usual, and only if the whole review is better for it.
fn mend(design: &mut Design, id: &str, field: &str, rounded: impl Fn(f64) -> f64) {
    better(design, id, field, |design, path, found| {
        let (Value::Number(value), Kind::Number { usual, .. }) = (found.value?, found.input.kind)
        else {
            return None;
        };
        let value = rounded(value);
        let mut changed = design.clone();
        (value <= usual.1 && changed.set(path, Value::Number(value)).is_ok()).then_some(changed)
    });
}

/// Takes the first choice whose path ends so and that lets a failing verdict pass, if the whole review is better for it.
fn take(design: &mut Design, id: &str, field: &str) {
    better(design, id, field, |design, _, found| {
        found.change?.apply(design)
    });
}

/// The design with the first remedy of a failing verdict, by an input whose path ends so, that makes the whole review
/// better; `change` says what becomes of the design with a remedy.
fn better(
    design: &mut Design,
    id: &str,
    field: &str,
    change: impl Fn(&Design, &str, Remedy) -> Option<Design>,
) {
    let before = assess(design);
    let Some(finding) = before
        .finding(id)
        .filter(|finding| finding.verdict != Verdict::Good)
    else {
        return;
    };
    let is_better =
        |changed: &Design| Tally::of(&assess(changed).findings) < Tally::of(&before.findings);
    let mut tried = (finding.levers.iter()).filter_map(|lever| match lever {
        Lever::Input(path) if path.ends_with(field) => {
            let found = remedy(design, &before, finding, lever)?;
            change(design, path, found).filter(is_better)
        }
        _ => None,
    });
    if let Some(changed) = tried.next() {
        *design = changed;
    }
}

/// Share of the most hearth load that the throat is sized for: some room below the mark, so that rounding and wetter wood
/// do not pass it.
const ROOM: f64 = 0.95;
/// Room above the least hearth load at the lowest load, for the same reasons.
const ROOM_ABOVE: f64 = 1.1;
/// Share of the suction that is still good that is left to the hearth; the train takes the rest. Our own choice.
const HEARTH_SUCTION: f64 = 0.65;

/// Share of the most hearth load to size the throat for: less where the engine would have to suck too hard, since suction
/// grows about with the square of the hearth load, but no less than the lowest load bears.
fn share_of_load(design: &Design, assessment: &Assessment, flow: VolumeRate) -> f64 {
    let (limits, loads) = (&design.limits, &assessment.heart.at);
    let sucked = assessment.train.at_full.hearth.drop(flow);
    let is = hearth_load(flow, design.hearth.throat_diameter).value / limits.hearth_load_most;
    let wanted = is
        * (HEARTH_SUCTION * limits.engine_vacuum_good() / sucked)
            .value
            .sqrt();
    let least = limits.hearth_load_least / limits.hearth_load_most;
    let lowest = ROOM_ABOVE * least / loads.idle.load.value;
    let share = if wanted.is_finite() { wanted } else { ROOM };
    share.max(lowest).min(ROOM)
}

/// Power is told to this step, W.
const POWER_STEP: f64 = 100.0;

/// For an engine that is there nobody wished for more than it gives on gas at the end of the train, rounded down.
fn want_what_it_gives(design: &mut Design) {
    let assessment = assess(design);
    let left = assessment.train.power_left.as_ref().map(|power| power.left);
    let (Some(Ok(on_gas)), Some(left)) = (&assessment.engine.on_gas, left) else {
        return;
    };
    let gives = left.min(on_gas.runs.full.shaft_power).value;
    let steps = (gives / POWER_STEP).floor();
    if steps >= 1.0 {
        design.engine.wanted_power = Power::new::<watt>(POWER_STEP * steps);
    }
}

/// The next 50 cm³, with a little to spare for suction and steam.
fn rounded_up(displacement: Volume) -> Volume {
    let steps = (displacement.value * 1.08 * 2.0e4).ceil();
    Volume::new::<cubic_meter>(steps / 2.0e4)
}

/// Rounded to the millimetre.
fn whole(length: Length) -> Length {
    Length::new::<meter>((length.value * 1000.0).round() / 1000.0)
}

/// A number in metric and, where that reads otherwise, in inch units: a note is kept as it is when units are switched.
fn in_both(quantity: Quantity, si: f64) -> String {
    let [metric, inch] = [System::Metric, System::Inch].map(|system| quantity.show(si, system));
    if metric == inch {
        metric
    } else {
        format!("{metric} ({inch})")
    }
}

fn size_hearth(design: &mut Design, table: &TableHearth) {
    let hearth = &mut design.hearth;
    hearth.kind = HearthKind::Constricted;
    hearth.throat_diameter = whole(table.throat);
    hearth.nozzle_ring_diameter = whole(table.nozzle_ring);
    hearth.below_throat_diameter = whole(table.below_throat);
    hearth.nozzle_height = whole(table.nozzle_height);
    hearth.reduction_height = whole(table.reduction_height);
    hearth.nozzle_count = table.nozzle_count;
    hearth.nozzle_bore = Length::new::<meter>((table.nozzle_bore.value * 1.0e4).round() / 1.0e4);
}

/// How hot the rim of a fire may get that a wall is sized for, °C: some way above the hottest that comes out of the answers.
const HOTTEST_RIM: f64 = 1250.0;

/// The body is wider inside than the hearth wall by this, mm: it needs less insulation. Our own choice.
const BODY_WIDER: f64 = 60.0;

/// The narrowest hearth wall that leaves the fire tube room to grow.
pub(crate) fn wall_for_tube(design: &Design) -> Length {
    let hot = ThermodynamicTemperature::new::<degree_celsius>(HOTTEST_RIM);
    let wanted = least_wall(design, hot);
    Length::new::<meter>((wanted.value * 1000.0).ceil() / 1000.0)
}

/// Leaves the fire tube room to grow, and keeps the example's other proportions.
fn size_vessel(design: &mut Design, start: &Design) {
    let tube = |design: &Design| design.hearth.nozzle_height + design.hearth.reduction_height;
    let height = tube(design) - tube(start);
    let wall = wall_for_tube(design);
    design.hearth_wall.inside_diameter = wall;
    design.hearth_wall.height = whole(start.hearth_wall.height + height);
    design.body_wall.inside_diameter = wall + Length::new::<millimeter>(BODY_WIDER);
    level_body(design);
}

fn thickest(layers: &mut [Layer]) -> Option<&mut Layer> {
    (layers.iter_mut()).max_by(|one, other| one.thickness.value.total_cmp(&other.thickness.value))
}

/// Makes the body as wide outside as the hearth band, by its thickest layer, so that the shell is one straight piece.
fn level_body(design: &mut Design) {
    let (vessel, _) = machine::measures(design);
    let wider = vessel.hearth_outer_radius - vessel.body_outer_radius;
    if let Some(layer) = thickest(&mut design.body_layers)
        && (layer.thickness + wider).value > 0.0
    {
        layer.thickness += wider;
    }
}

/// Pipes, cooler, filter and blower for so many times the example's gas flow: areas and numbers grow
/// with the flow, so that speeds stay.
fn scale_train(design: &mut Design, start: &Design, times: f64) {
    if !times.is_finite() {
        return;
    }
    let times = times.max(0.2);
    let across = times.sqrt();
    for (stage, first) in design.train.iter_mut().zip(&start.train) {
        stage.bore = whole(first.bore * across);
        stage.body_diameter = whole(first.body_diameter * across);
        stage.filter_diameter = whole(first.filter_diameter * across);
        stage.tubes = (f64::from(first.tubes) * times).ceil() as u32;
        stage.cloth_area = first.cloth_area * times;
        stage.capacity = first.capacity * times;
        stage.dust_capacity = first.dust_capacity * times;
        stage.water_flow = first.water_flow * times;
        stage.vessel_diameter = whole(first.vessel_diameter * across);
    }
    for (point, first) in design.blower_curve.iter_mut().zip(&start.blower_curve) {
        point.flow = first.flow * times;
    }
}

/// Bore and wall of the tubes of a sized cooler, mm. In slow gas a narrow tube takes as much heat as a wide one. Our own
/// choice.
const TUBE_BORE: f64 = 18.0;
const TUBE_WALL: f64 = 1.0;
/// Room under upright tubes for the trap that they drain into, m. Our own choice.
const UNDER_TUBES: f64 = 0.45;
/// Shortest tubes of a sized cooler, m. Our own choice.
const SHORTEST_TUBE: f64 = 0.5;

/// The last cooler as straight upright tubes that end below the machine's top: as many as cool the gas enough.
fn size_cooler(design: &mut Design) {
    let (vessel, _) = machine::measures(design);
    let top = vessel.hopper_top.value;
    let length = ((top - UNDER_TUBES) * 10.0).floor() / 10.0;
    let length = Length::new::<meter>(length.max(SHORTEST_TUBE));
    let is_cooler = |stage: &TrainStage| stage.kind == StageKind::Cooler;
    let Some(place) = design.train.iter().rposition(is_cooler) else {
        return;
    };
    let mut needed = None;
    for _ in 0..6 {
        let Some(cooler) = design.train.get_mut(place) else {
            return;
        };
        let times = needed.unwrap_or(cooler.tube_length) / length;
        let tubes = (f64::from(cooler.tubes) * times.value).ceil();
        cooler.lie = Lie::Upright;
        cooler.tubes = Design::nearest_allowed("train", "tubes", tubes) as u32;
        // As nearly square as they go.
        let across = f64::from(cooler.tubes).sqrt().ceil();
        cooler.tube_rows = (f64::from(cooler.tubes) / across).ceil() as u32;
        cooler.tube_length = length;
        cooler.tube_bore = Length::new::<millimeter>(TUBE_BORE);
        cooler.tube_wall = Length::new::<millimeter>(TUBE_WALL);
        cooler.tube_spacing = None;
        match assess(design).train.cooler_length {
            Some(Ok(found)) if found > length => needed = Some(found),
            _ => return,
        }
    }
}

/// The sized design, with values that no input takes put back.
fn within_ranges(before: &Design, mut sized: Design) -> Design {
    for path in sized.paths() {
        let fits = sized
            .input(&path)
            .zip(sized.get(&path))
            .is_some_and(|(input, value)| input.takes(&value));
        if !fits && let Some(value) = before.get(&path) {
            // A value that stood in a design is in its range.
            let _ = sized.set(&path, value);
        }
    }
    sized
}
