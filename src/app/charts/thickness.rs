//! Heat loss and outside temperature against the thickness of one layer.

use super::chart::{
    Answer, Axis, Band, Chart, Dash, Ink, Line, Mark, NONE, Pane, Question, Tone, Upright, range_of,
};
use super::scale;
use crate::app::naming::lower_first;
use crate::design::inputs::{Layer, Material};
use crate::design::quantity::{Quantity as Q, System};
use crate::design::{Choice as _, Design, Kind, Value};
use crate::review::{Assessment, Change, Lever};
use crate::sizing::insulation::{ThicknessPoint, against_thickness};
use crate::sizing::zone::Zone;
use uom::si::f64::{Length, ThermodynamicTemperature};
use uom::si::length::meter;

/// What the chart is about.
pub const QUESTION: Question = Question {
    name: "thickness",
    title: "Heat loss and outside temperature against thickness",
    meaning: "More insulation keeps more heat in the hearth and the outside cooler. Each further bit of thickness helps less than the one before. The loss is told at full load and in the wind of the place, the outside in still air and at the load at which it is hottest.",
};

/// Thickest layer always shown, m.
const SHOWN: f64 = 0.15;
/// Outside temperatures are shown up to this many times the rise that is allowed, and up to so many times as far where the
/// present one lies there; what lies further is told at the edge.
const SHOWN_RISE: f64 = 4.0;
const STRETCHED: f64 = 2.0;
/// Places computed: each is a solution of the whole wall.
const PLACES: u32 = 75;

/// The layer whose thickness is tried out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tried {
    /// A layer of the design.
    Layer(Zone, usize),
    /// A layer that is not there yet.
    Added(Zone),
}

impl Tried {
    /// Name of the choice in the page.
    pub fn name(self) -> String {
        match self {
            Tried::Layer(zone, layer) => format!("{}-{layer}", zone.name()),
            Tried::Added(zone) => format!("{}-new", zone.name()),
        }
    }

    /// What it is called.
    pub fn label(self, design: &Design) -> String {
        match self {
            Tried::Layer(zone, layer) => {
                let material = zone.layers(design).get(layer).map(|layer| layer.material);
                format!(
                    "{}, layer {}: {}",
                    zone.label(),
                    layer + 1,
                    material.map_or("", |material| name_of(design, material))
                )
            }
            Tried::Added(zone) => format!(
                "{}: add {}",
                zone.label(),
                lower_first(name_of(design, material_for(zone)))
            ),
        }
    }

    fn zone(self) -> Zone {
        match self {
            Tried::Layer(zone, _) | Tried::Added(zone) => zone,
        }
    }
}

/// What a material is called where there is little room: what the catalogue adds behind a comma is left out.
fn name_of(design: &Design, material: Material) -> &str {
    let label = material.label();
    let name = (design.material(material)).map_or(label, |properties| properties.name);
    if name == label {
        label.split(',').next().unwrap_or(label)
    } else {
        name
    }
}

/// What a bare wall is wrapped in.
fn material_for(zone: Zone) -> Material {
    match zone {
        Zone::Hearth | Zone::Bottom => Material::CeramicBlanket1260,
        Zone::Body | Zone::Lid => Material::RockWool,
    }
}

/// The insulating layers of the design, and a new one for each bare zone; the hearth wall first.
pub fn choices(design: &Design) -> Vec<Tried> {
    Zone::ALL
        .into_iter()
        .flat_map(|zone| {
            let mut layers: Vec<_> = zone
                .layers(design)
                .iter()
                .enumerate()
                .filter(|(_, layer)| {
                    (design.material(layer.material)).is_ok_and(|material| material.insulates)
                })
                .map(|(index, _)| Tried::Layer(zone, index))
                .collect();
            if layers.is_empty() {
                layers.push(Tried::Added(zone));
            }
            layers
        })
        .collect()
}

/// A new layer goes under the jacket, or around the wall when that is a single sheet.
fn place_for_new(design: &Design, zone: Zone) -> usize {
    match zone.layers(design).len() {
        count @ (0 | 1) => count,
        count => count - 1,
    }
}

/// Everything about the layer that is tried out.
struct Trial {
    zone: Zone,
    layer: usize,
    /// The design with the layer in it.
    design: Design,
    /// Its thickness now, m; none for a layer that is not there yet.
    now: Option<f64>,
    lever: Lever,
}

fn trial(design: &Design, tried: Tried) -> Option<Trial> {
    let zone = tried.zone();
    match tried {
        Tried::Layer(_, layer) => Some(Trial {
            zone,
            layer,
            design: design.clone(),
            now: Some(zone.layers(design).get(layer)?.thickness.value),
            lever: Lever::input(format!("{}.{layer}.thickness", zone.layer_list())),
        }),
        Tried::Added(_) => {
            let (list, index) = (zone.layer_list(), place_for_new(design, zone));
            let material = Value::Choice(material_for(zone).name().to_string());
            let fields = vec![("material", material)];
            let change = Change::Insert {
                list,
                index,
                fields: fields.clone(),
            };
            Some(Trial {
                zone,
                layer: index,
                design: change.apply(design)?,
                now: None,
                lever: Lever::NewItem {
                    list,
                    index,
                    fields,
                    solve_for: "thickness",
                },
            })
        }
    }
}

/// Quantity and allowed range of a layer's thickness, as declared.
fn declared() -> (Q, (f64, f64)) {
    Layer::INPUTS
        .iter()
        .find(|input| input.name == "thickness")
        .and_then(|input| match input.kind {
            Kind::Number {
                quantity, allowed, ..
            } => Some((quantity, allowed)),
            _ => None,
        })
        .unwrap_or((Q::Length, (0.001, 0.5)))
}

/// The first place from which on every value is small enough.
fn enough_from(points: &[ThicknessPoint], fits: impl Fn(&ThicknessPoint) -> bool) -> Option<f64> {
    points
        .iter()
        .rev()
        .take_while(|point| fits(point))
        .last()
        .map(|point| point.thickness.value)
}

/// The chart of a design for one of its [`choices`].
pub fn answer(design: &Design, assessment: &Assessment, system: System, tried: Tried) -> Answer {
    let trial = trial(design, tried)
        .ok_or_else(|| "This layer is no longer there, or there is no room for it.".to_string())?;
    let zone = trial.zone;
    let (quantity, allowed) = declared();
    let thickest = SHOWN.max(2.0 * trial.now.unwrap_or(0.0));
    let at = scale::places(quantity, system, (0.0, thickest), allowed, PLACES);
    let (Some(first), Some(last)) = (at.first(), at.last()) else {
        return Err("There is no room for another thickness.".to_string());
    };
    let meters = Length::new::<meter>;
    let curve = |from: f64, to: f64, count: usize| {
        against_thickness(
            &trial.design,
            zone,
            trial.layer,
            meters(from),
            meters(to),
            count,
        )
        .map_err(|error| error.to_string())
    };
    let mut points = curve(*first, *last, at.len())?;

    // The wall as it is: the layer as thick as it is now, or not there at all.
    let as_it_is = assessment.warmth.zone(zone).ok_or_else(|| {
        (assessment.warmth.trouble()).map_or_else(String::new, ToString::to_string)
    })?;
    let hottest = assessment.warmth.hottest(zone);
    let outside_now = match &hottest.heat {
        Ok(heat) => heat.surface_temperature,
        Err(error) => return Err(error.to_string()),
    };
    let bare = trial.now.is_none();
    let now = trial.now.unwrap_or(0.0);
    if bare {
        let without = ThicknessPoint {
            thickness: meters(0.0),
            loss: as_it_is.loss,
            surface_temperature: outside_now,
        };
        points.insert(0, without);
    }
    let others = assessment.warmth.loss.map(|whole| whole - as_it_is.loss);
    let limits = &design.limits;
    let (touch, guarded) = if zone.guarded(design) {
        (limits.guarded_temperature, true)
    } else {
        (limits.touch_temperature, false)
    };
    let fuel = assessment.warmth.fuel_power_full.value;
    let watch = limits.loss_share_good().value * fuel;
    let stop = limits.loss_share_stop.value * fuel;

    let line = |label, ink, dash, value: &dyn Fn(&ThicknessPoint) -> f64| Line {
        label,
        ink,
        dash,
        values: points.iter().map(value).collect(),
    };
    let mut losses = vec![line(zone.label(), Ink::Heat, Dash::Long, &|point| {
        point.loss.value
    })];
    if let Some(others) = others {
        losses.push(line("whole shell", Ink::Heat, Dash::Solid, &|point| {
            (point.loss + others).value
        }));
    }
    let outside = line("outside", Ink::Heat, Dash::Solid, &|point| {
        point.surface_temperature.value
    });
    let in_kelvin = outside_now.value;
    let mark = |value: f64, label: String| Mark {
        x: now,
        y: value,
        label,
    };
    let cool_from = enough_from(&points, |point| point.surface_temperature <= touch);
    let whole = assessment.warmth.loss.map(|whole| whole.value);
    let loss_marks = [Some(as_it_is.loss.value), whole]
        .into_iter()
        .flatten()
        .map(|loss| mark(loss, String::new()))
        .collect();
    Ok(Chart {
        x: Axis {
            quantity,
            label: "Thickness",
        },
        panes: vec![
            loss_pane(
                losses,
                (watch, stop),
                limits_in_words(design, system),
                loss_marks,
            ),
            temperature_pane(
                design,
                outside,
                (touch, guarded),
                mark(
                    in_kelvin,
                    format!("now {}", Q::Temperature.show(in_kelvin, system)),
                ),
                system,
            ),
        ],
        uprights: vec![Upright {
            x: now,
            label: if bare {
                "now bare".to_string()
            } else {
                format!("now {}", quantity.show(now, system))
            },
        }],
        words: words(&Told {
            bare,
            now: quantity.show(now, system),
            outside: Q::Temperature.show(in_kelvin, system),
            loss: Q::Power.show(as_it_is.loss.value, system),
            limit: Q::Temperature.show(touch.value, system),
            guarded,
            cool_from: cool_from.map(|thickness| quantity.show(thickness, system)),
            thickest: quantity.show(*last, system),
        }),
        at: points.iter().map(|point| point.thickness.value).collect(),
        noted: cool_from
            .map(|enough| (enough, "cool enough from here"))
            .into_iter()
            .collect(),
        none: NONE,
        stretch: None,
        lever: Some(trial.lever),
    })
}

fn limits_in_words(design: &Design, system: System) -> (String, String) {
    let share = |share: f64| Q::Share.show(share, system);
    (
        format!(
            "Watch, over {} of the wood",
            share(design.limits.loss_share_good().value)
        ),
        format!("Stop, over {}", share(design.limits.loss_share_stop.value)),
    )
}

fn loss_pane(
    lines: Vec<Line>,
    (watch, stop): (f64, f64),
    (watch_words, stop_words): (String, String),
    marks: Vec<Mark>,
) -> Pane {
    let reached = lines.iter().flat_map(|line| line.values.iter().copied());
    let (_, top) = range_of(reached.chain(marks.iter().map(|mark| mark.y)));
    let range = (0.0, top.max(1.15 * watch));
    Pane {
        axis: Axis {
            quantity: Q::Power,
            label: "Heat loss",
        },
        range,
        lines,
        bands: vec![
            Band {
                from: watch,
                to: stop.max(watch),
                tone: Tone::Watch,
                label: watch_words,
            },
            Band {
                from: stop.max(watch),
                to: f64::INFINITY,
                tone: Tone::Stop,
                label: stop_words,
            },
        ],
        marks,
    }
}

fn temperature_pane(
    design: &Design,
    outside: Line,
    (touch, guarded): (ThermodynamicTemperature, bool),
    mark: Mark,
    system: System,
) -> Pane {
    let air = design.site.air_temperature.value;
    let reached = outside.values.iter().copied();
    let (low, top) = range_of(reached.chain([air, touch.value]));
    // Far above the limit only the way down matters, not how hot a mere skin of insulation would be.
    let worth_showing = air + SHOWN_RISE * (touch.value - air).max(10.0);
    let with_mark = mark.y + 0.2 * (mark.y - air);
    let top = if with_mark - air <= STRETCHED * (worth_showing - air) {
        worth_showing.max(with_mark)
    } else {
        worth_showing
    }
    .min(top);
    let limit = Q::Temperature.show(touch.value, system);
    Pane {
        axis: Axis {
            quantity: Q::Temperature,
            label: "Outside surface",
        },
        range: (low, top),
        lines: vec![outside],
        bands: vec![Band {
            from: touch.value,
            to: f64::INFINITY,
            tone: Tone::Stop,
            label: if guarded {
                format!("Stop, over {limit} behind a guard")
            } else {
                format!("Stop, over {limit} to touch")
            },
        }],
        marks: vec![mark],
    }
}

struct Told {
    bare: bool,
    now: String,
    outside: String,
    loss: String,
    limit: String,
    guarded: bool,
    cool_from: Option<String>,
    thickest: String,
}

fn words(told: &Told) -> String {
    let Told {
        now,
        outside,
        loss,
        limit,
        ..
    } = told;
    let state = if told.bare {
        format!(
            "Bare as it is, the outside gets up to {outside} in still air, and the part loses {loss} at full load"
        )
    } else {
        format!(
            "At {now} the outside gets up to {outside} in still air, and the part loses {loss} at full load"
        )
    };
    let mark = if told.guarded {
        format!("{limit} behind a guard")
    } else {
        format!("the {limit} that may be touched")
    };
    match &told.cool_from {
        Some(from) => format!("{state}; from {from} it keeps to {mark}."),
        None => format!(
            "{state}; up to {} it does not come down to {mark}.",
            told.thickest
        ),
    }
}
