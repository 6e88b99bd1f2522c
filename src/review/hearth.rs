//! Hearth load, nozzles and table.

mod around;
mod ash_room;
mod char_pieces;
mod engines_fed;
mod fire_tube;
mod fits;
mod grate;
mod growth;
mod lasts;
mod questions;
mod spares;
mod wall;

use super::finding::{Finding, NamedResult};
use super::heart::Heart;
use crate::design::Design;
use crate::design::inputs::{Hearth, HearthKind};
use crate::design::phrase::{Measure, upper_first};
use crate::design::quantity::Quantity as Q;
use crate::sizing::heart::{AtLoads, HeartAt};
use crate::sizing::hearth_load::{
    TableHearth, TableTube, area_ratio, hearth_load, recommended_hearth, size_throat,
    table_hearths, table_tube, tube_for_engine,
};
use crate::sizing::nozzles::{NozzleFlow, NozzleRing, Surroundings, nozzle_flow};
use uom::si::f64::{Length, Ratio, Time, Velocity, Volume};
use uom::si::velocity::meter_per_second;

pub(super) use ash_room::ID as ASH_ROOM;
pub use ash_room::ash_room_lasts;
pub(super) use questions::GREY_SHARE;
pub use spares::{Wearing, wearing};

/// A dimension of the hearth beside the table's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Deviation {
    /// What it is, in words.
    pub label: &'static str,
    /// Stable name in results.
    pub name: &'static str,
    /// Path of the input that changes it.
    pub path: &'static str,
    /// What was entered.
    pub entered: Measure,
    /// What the table recommends for the entered throat.
    pub recommended: Measure,
}

impl Deviation {
    /// How far the entered value is from the recommended one: 0.1 is a tenth more.
    pub fn share(&self) -> f64 {
        self.entered.si / self.recommended.si - 1.0
    }
}

/// What only a constricted hearth has.
#[derive(Debug, Clone, PartialEq)]
pub struct Constricted {
    /// Air through the nozzles.
    pub nozzles: AtLoads<NozzleFlow>,
    /// Nozzle area as a share of throat area.
    pub area_ratio: Ratio,
    /// The table's hearth for the entered throat, of its families the one that the entered dimensions are nearest to.
    pub table: TableHearth,
    /// Each entered dimension beside the table's.
    pub deviations: Vec<Deviation>,
    /// The table's hearth for the wanted gas flow at the most the hearth may be loaded.
    pub recommended: TableHearth,
}

/// Hearth load, nozzles and table.
#[derive(Debug, Clone)]
pub struct HearthReview {
    /// The hearth type.
    pub kind: HearthKind,
    /// The narrowest bore: the throat, or the straight tube.
    pub bore: Length,
    /// Gas flow per area of the narrowest bore, at 0 °C and 101.325 kPa.
    pub load: AtLoads<Velocity>,
    /// The most it may be: the mark for throats, or for a straight tube what the engine draws that the table gives to this
    /// bore; none where nobody can tell that engine.
    pub load_most: Option<Velocity>,
    /// Whether there is gas that burns; where not, the numbers of that load only stand in for an answer.
    pub makes_gas: AtLoads<bool>,
    /// Full gas flow over the lowest.
    pub turndown: f64,
    /// The throat that carries the full gas flow at the most the hearth may be loaded, or the straight tube that suits
    /// the engine by the table; none where nobody can tell the engine.
    pub sized_bore: Option<Length>,
    /// Nozzles and table of a constricted hearth.
    pub constricted: Option<Constricted>,
    /// What the fire tube table says about a straight tube.
    pub tube: Option<TableTube>,
    /// Least and most displacement that a throat feeds at this speed; none where the engine draws nothing, or too little is
    /// known of the gas.
    pub engines: Option<[Volume; 2]>,
}

impl Constricted {
    /// The deviation farthest from zero.
    fn farthest(&self) -> Option<&Deviation> {
        farthest(&self.deviations)
    }
}

fn farthest(deviations: &[Deviation]) -> Option<&Deviation> {
    (deviations.iter()).max_by(|one, other| one.share().abs().total_cmp(&other.share().abs()))
}

impl HearthReview {
    /// The computed numbers with their stable names.
    pub fn results(&self) -> Vec<NamedResult> {
        let result = |name: &str, label: &str, quantity, si| {
            NamedResult::new(format!("hearth.{name}"), label, Measure::new(quantity, si))
        };
        let (load, gas) = (&self.load, &self.makes_gas);
        let number = |known: bool, name, label, quantity, si| {
            known.then(|| result(name, label, quantity, si))
        };
        let mut results: Vec<NamedResult> = [
            number(
                gas.full,
                "load_full",
                "Hearth load at full load",
                Q::HearthLoad,
                load.full.value,
            ),
            number(
                gas.usual,
                "load_usual",
                "Hearth load at the usual load",
                Q::HearthLoad,
                load.usual.value,
            ),
            number(
                gas.idle,
                "load_idle",
                "Hearth load at the lowest load",
                Q::HearthLoad,
                load.idle.value,
            ),
            number(
                gas.full && gas.idle,
                "turndown",
                "Full load over lowest load",
                Q::Number,
                self.turndown,
            ),
            self.load_most
                .filter(|_| gas.full)
                .map(|most| result("load_most", "Most hearth load", Q::HearthLoad, most.value)),
            self.sized_bore.filter(|_| gas.full).map(|bore| {
                let label = "Bore for the wanted gas flow";
                result("bore_sized", label, Q::Length, bore.value)
            }),
        ]
        .into_iter()
        .flatten()
        .collect();
        results.extend(self.engines.map(|[least, _]| {
            let label = "Least displacement for this hearth at the lowest load";
            result("engine_least", label, Q::Displacement, least.value)
        }));
        if let Some(part) = &self.constricted {
            let nozzles = &part.nozzles;
            for (load, at, flow, known) in [
                ("full", "at full load", nozzles.full, gas.full),
                ("usual", "at the usual load", nozzles.usual, gas.usual),
                ("idle", "at the lowest load", nozzles.idle, gas.idle),
            ] {
                if !known {
                    continue;
                }
                results.push(result(
                    &format!("nozzle_velocity_{load}"),
                    &format!("Air velocity in the nozzles {at}"),
                    Q::Velocity,
                    flow.velocity.value,
                ));
                results.push(result(
                    &format!("nozzle_drop_{load}"),
                    &format!("Pressure drop of the nozzles {at}"),
                    Q::Pressure,
                    flow.drop.value,
                ));
            }
            let table = &part.table;
            results.extend([
                result(
                    "area_ratio",
                    "Nozzle area over throat area",
                    Q::Share,
                    part.area_ratio.value,
                ),
                result(
                    "table_gas_most",
                    "Largest gas flow by the table",
                    Q::NormalFlow,
                    table.gas_most.value,
                ),
                result(
                    "table_gas_least",
                    "Smallest gas flow by the table",
                    Q::NormalFlow,
                    table.gas_least.value,
                ),
            ]);
            for deviation in &part.deviations {
                results.push(result(
                    &format!("table_{}", deviation.name),
                    &upper_first(&format!("{} by the table", deviation.label)),
                    deviation.recommended.quantity,
                    deviation.recommended.si,
                ));
                results.push(result(
                    &format!("deviation_{}", deviation.name),
                    &upper_first(&format!("{}, away from the table", deviation.label)),
                    Q::Share,
                    deviation.share(),
                ));
            }
        }
        if let Some(tube) = &self.tube {
            results.extend([
                result(
                    "tube_least_length",
                    "Least tube length by the table",
                    Q::Length,
                    tube.least_length.value,
                ),
                result(
                    "tube_engine_power",
                    "Engine power by the table",
                    Q::Power,
                    tube.engine_power.value,
                ),
            ]);
        }
        results
    }
}

/// Hearth loads for one bore, for the chart of load against throat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadPoint {
    /// The bore.
    pub bore: Length,
    /// Gas flow per area at the three loads; none where no gas burns.
    pub load: AtLoads<Option<Velocity>>,
    /// The most it may be loaded: the mark for throats, or for a straight tube what the engine draws that the table gives
    /// to this bore; none where nobody can tell that engine or no gas burns at full load.
    pub most: Option<Velocity>,
}

/// Hearth load against throat, `points` bores evenly spread between `from` and `to`.
pub fn load_against_throat(
    design: &Design,
    from: Length,
    to: Length,
    points: u32,
) -> Vec<LoadPoint> {
    let steps = f64::from(points.max(2) - 1);
    // The throat changes the hearth load, not the gas.
    let heart = Heart::of(design);
    (0..points.max(2))
        .map(|step| {
            let bore = from + (to - from) * (f64::from(step) / steps);
            LoadPoint {
                bore,
                load: heart.at.map(|at| at.makes_gas().then(|| load_at(at, bore))),
                most: most_load(design, &heart, bore).filter(|_| heart.at.full.makes_gas()),
            }
        })
        .collect()
}

/// The nozzle ring of a design.
pub(super) fn nozzle_ring(design: &Design) -> NozzleRing {
    NozzleRing {
        count: design.hearth.nozzle_count,
        bore: design.hearth.nozzle_bore,
        discharge: design.hearth.nozzle_discharge,
    }
}

/// The air around a design.
pub(super) fn surroundings(design: &Design) -> Surroundings {
    Surroundings::at(design.site.air_temperature, design.site.altitude)
}

/// Puts a design through the questions of this chapter.
pub(super) fn examine(
    design: &Design,
    heart: &Heart,
    warms_up: Option<Time>,
) -> (HearthReview, Vec<Finding>) {
    let review = compute(design, heart);
    let findings = questions::ask(design, heart, &review, warms_up);
    (review, findings)
}

fn compute(design: &Design, heart: &Heart) -> HearthReview {
    let kind = design.hearth.kind;
    let bore = match kind {
        HearthKind::Constricted => design.hearth.throat_diameter,
        HearthKind::Straight => design.hearth.tube_diameter,
    };
    let most = Velocity::new::<meter_per_second>(design.limits.hearth_load_most);
    let load = heart.at.map(|at| load_at(at, bore));
    HearthReview {
        kind,
        bore,
        load,
        engines: engines_fed::range(design, heart, &load),
        load_most: most_load(design, heart, bore),
        makes_gas: heart.at.map(HeartAt::makes_gas),
        turndown: (heart.at.full.supply.gas_flow / heart.at.idle.supply.gas_flow).value,
        sized_bore: match kind {
            HearthKind::Constricted => Some(size_throat(heart.at.full.supply.gas_flow, most)),
            HearthKind::Straight => heart.petrol_power(design).ok().map(tube_for_engine),
        },
        constricted: (kind == HearthKind::Constricted).then(|| constricted(design, heart, most)),
        tube: (kind == HearthKind::Straight).then(|| table_tube(bore)),
    }
}

/// The most that a bore may be loaded.
fn most_load(design: &Design, heart: &Heart, bore: Length) -> Option<Velocity> {
    match design.hearth.kind {
        HearthKind::Constricted => Some(Velocity::new::<meter_per_second>(
            design.limits.hearth_load_most,
        )),
        HearthKind::Straight => {
            let flow = heart.at.full.supply.gas_flow * heart.load_of_tube(design, bore)?;
            Some(hearth_load(flow, bore))
        }
    }
}

fn load_at(at: &HeartAt, bore: Length) -> Velocity {
    hearth_load(at.supply.gas_flow, bore)
}

fn constricted(design: &Design, heart: &Heart, most: Velocity) -> Constricted {
    let hearth = &design.hearth;
    let (ring, around) = (nozzle_ring(design), surroundings(design));
    let (table, deviations) = most_alike(hearth);
    Constricted {
        nozzles: heart
            .at
            .map(|at| nozzle_flow(at.supply.gas_flow, at.supply.gas_per_air, &ring, &around)),
        area_ratio: area_ratio(
            hearth.nozzle_count,
            hearth.nozzle_bore,
            hearth.throat_diameter,
        ),
        table,
        deviations,
        recommended: recommended_hearth(heart.at.full.supply.gas_flow, most),
    }
}

/// The hearth of the table that a hearth is most like: that of the family to which its dimension farthest off is nearest.
/// So a millimetre never makes it a hearth of another kind. How far its throat is past the family counts as well.
fn most_alike(hearth: &Hearth) -> (TableHearth, Vec<Deviation>) {
    let [first, others @ ..] = table_hearths(hearth.throat_diameter).map(|table| {
        let deviations = deviations(hearth, &table);
        let share = farthest(&deviations).map_or(f64::NAN, |deviation| deviation.share().abs());
        (share.max(table.past_family()), table, deviations)
    });
    let (_, table, deviations) =
        (others.into_iter()).fold(first, |best, next| match next.0 < best.0 {
            true => next,
            false => best,
        });
    (table, deviations)
}

/// Each dimension of a hearth beside that of the table.
fn deviations(hearth: &Hearth, table: &TableHearth) -> Vec<Deviation> {
    let length = |label, name, path, entered: Length, recommended: Length| Deviation {
        label,
        name,
        path,
        entered: Measure::new(Q::Length, entered.value),
        recommended: Measure::new(Q::Length, recommended.value),
    };
    vec![
        length(
            "fire tube at the nozzles",
            "nozzle_ring",
            "hearth.nozzle_ring_diameter",
            hearth.nozzle_ring_diameter,
            table.nozzle_ring,
        ),
        length(
            "width below the throat",
            "below_throat",
            "hearth.below_throat_diameter",
            hearth.below_throat_diameter,
            table.below_throat,
        ),
        length(
            "nozzles above the throat",
            "nozzle_height",
            "hearth.nozzle_height",
            hearth.nozzle_height,
            table.nozzle_height,
        ),
        length(
            "char below the throat",
            "reduction_height",
            "hearth.reduction_height",
            hearth.reduction_height,
            table.reduction_height,
        ),
        Deviation {
            label: "nozzle bore for this number of nozzles",
            name: "nozzle_bore",
            path: "hearth.nozzle_bore",
            entered: Measure::new(Q::Thickness, hearth.nozzle_bore.value),
            recommended: Measure::new(Q::Thickness, table.bore_for(hearth.nozzle_count).value),
        },
    ]
}
