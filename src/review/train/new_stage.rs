//! Stages that could be added to the train, as wide as the line that they come into.

use crate::design::inputs::{Lie, StageKind, TrainStage};
use crate::design::{Choice as _, Design, Value};
use crate::review::finding::Lever;
use crate::sizing::condensate::trap_volume;
use crate::sizing::cyclone::{FASTEST_INLET, SLOWEST_INLET};
use crate::sizing::filter::BED_FASTEST;
use crate::sizing::train::GasState;
use crate::sizing::train_mass;
use std::f64::consts::PI;
use std::sync::LazyLock;

/// Share of the fastest usual velocity that a new filter is sized for, so that it costs little pressure once it is dirty.
/// Our own choice.
const CALM: f64 = 0.5;

/// A stage as it comes when nothing is entered.
static USUAL: LazyLock<TrainStage> = LazyLock::new(TrainStage::default);

type Field = (&'static str, Value);

fn number((name, size): (&'static str, f64)) -> Field {
    (name, Value::Number(size))
}

/// A stage with these fields; the search begins at the one named last, where it is among them.
fn stage(
    kind: StageKind,
    index: usize,
    fields: impl IntoIterator<Item = Field>,
    solve_for: &'static str,
) -> Lever {
    let kind = ("kind", Value::Choice(kind.name().to_string()));
    Lever::NewItem {
        list: "train",
        index,
        fields: std::iter::once(kind).chain(fields).collect(),
        solve_for,
    }
}

/// The place in front of the first stage of these kinds, or the end of the train.
pub(in crate::review) fn before(design: &Design, kinds: &[StageKind]) -> usize {
    let mut stages = design.train.iter();
    let first = stages.position(|stage| kinds.contains(&stage.kind));
    first.unwrap_or(design.train.len())
}

/// Bore of the line at a place, m.
fn line(design: &Design, index: usize) -> f64 {
    let bore = design.bore_at(index);
    bore.unwrap_or(USUAL.bore).value
}

/// A blower with the bore of its line.
pub(in crate::review) fn blower(design: &Design, index: usize) -> Lever {
    let bore = ("bore", line(design, index));
    stage(StageKind::Blower, index, [number(bore)], "bore")
}

/// A trap with the bore of its line, in a drum that holds the drops in this gas as long as is wanted.
pub(in crate::review) fn trap(design: &Design, index: usize, gas: Option<&GasState>) -> Lever {
    let usual = &*USUAL;
    let time = design.limits.drain_time;
    let water = gas.map_or(0.0, |gas| trap_volume(time, gas.liquid).value);
    let times = water / usual.capacity.value;
    let longer = |length: f64| (length * times.cbrt() * 100.0).ceil() / 100.0;
    let larger = [
        ("capacity", (water * 1000.0).ceil() / 1000.0),
        ("vessel_diameter", longer(usual.vessel_diameter.value)),
        ("vessel_height", longer(usual.vessel_height.value)),
    ];
    let sizes = (larger.into_iter().filter(|_| times > 1.0)).chain([("bore", line(design, index))]);
    stage(StageKind::Trap, index, sizes.map(number), "bore")
}

/// A packed bed, as wide as it takes for this gas to pass it slowly.
pub(in crate::review) fn filter(index: usize, gas: Option<&GasState>) -> Lever {
    let wide = gas.map(|gas| {
        let area = gas.volume_rate().value / (CALM * BED_FASTEST);
        let wide = 2.0 * (area / PI).sqrt();
        ("filter_diameter", (wide * 100.0).ceil() / 100.0)
    });
    let sizes = wide.map(number);
    stage(StageKind::Filter, index, sizes, "filter_diameter")
}

/// A cyclone whose inlet this gas passes at a good velocity.
pub(in crate::review) fn cyclone(index: usize, gas: Option<&GasState>) -> Lever {
    let usual = &*USUAL;
    let sizes = train_mass::built(usual).dimensions();
    let inlet = (sizes.inlet_height * sizes.inlet_width).value;
    let wide = gas.map(|gas| {
        let wanted = gas.volume_rate().value / (0.5 * (SLOWEST_INLET + FASTEST_INLET));
        let wide = usual.body_diameter.value * (wanted / inlet).sqrt();
        ("body_diameter", (wide * 1000.0).round() / 1000.0)
    });
    stage(StageKind::Cyclone, index, wide.map(number), "body_diameter")
}

/// A cooler in front of the first stage of these kinds: upright tubes, so that what falls out runs down, and together at
/// least as wide as the line.
pub(in crate::review) fn cooler(design: &Design, kinds: &[StageKind]) -> Lever {
    let index = before(design, kinds);
    let usual = &*USUAL;
    let least = f64::from(usual.tubes);
    let tubes = (line(design, index) / usual.tube_bore.value).powi(2).ceil();
    let fields = [
        ("lie", Value::Choice(Lie::Upright.name().to_string())),
        number((
            "tubes",
            Design::nearest_allowed("train", "tubes", tubes.max(least)),
        )),
    ];
    stage(StageKind::Cooler, index, fields, "tube_length")
}
