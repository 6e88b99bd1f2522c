//! The wiring schedule: which cable and which fuse for each circuit.

use super::FullKnob;
use crate::design::Design;
use crate::design::inputs::{CableSystem, LoadKind};
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::{Quantity as Q, System};
use crate::review::finding::Verdict;
use crate::review::table::{Table, TableRow};
use crate::sizing::conductor_table::FUSES;
use crate::sizing::wiring::{CableRun, Circuit, Conductor, FUSE_LOADING, SizeSystem, WiringError};
use uom::si::electric_current::ampere;
use uom::si::f64::{Area, ElectricCurrent, Length, Power, Ratio, ThermodynamicTemperature};
use uom::si::ratio::ratio;

/// The question whether every cable carries its load.
pub(super) const CABLES: &str = "electrics.cables";
/// The question whether every fuse suits load and cable.
pub(super) const FUSES_SUIT: &str = "electrics.fuses";

/// Up to this many times the limit a load still runs, only weaker: Watch. Our own choice.
const GREY_DROP: f64 = 2.0;

/// A fuse of one's own may be this many times what its load takes: more, and a fault in the load burns before it melts. Our
/// own mark.
pub(super) const ABOVE_LOAD: f64 = 3.0;
/// A fuse of this or less is never too large, A: smaller ones are hard to come by. Our own mark.
pub(super) const SMALL_FUSE: f64 = 5.0;

/// One circuit of the wiring schedule.
#[derive(Debug, Clone, PartialEq)]
pub struct WiringRow {
    /// What it feeds.
    pub name: String,
    /// Where its inputs are: with `cable`, `cable_length` or `fuse` behind it, the path of one.
    pub inputs: String,
    /// How the power of the blower came about; none for a load, whose power was entered.
    pub full_knob: Option<FullKnob>,
    /// Load, length and what may be lost.
    pub circuit: Circuit,
    /// The cable was entered, not chosen.
    pub own_cable: bool,
    /// The fuse was entered, not chosen.
    pub own_fuse: bool,
    /// The cable at work, or why it cannot be told.
    pub run: Result<CableRun, String>,
    /// Its fuse; none if no rating fits between load and cable.
    pub fuse: Option<ElectricCurrent>,
}

/// What was entered for one circuit.
struct Entered {
    name: String,
    inputs: String,
    power: Result<Power, String>,
    full_knob: Option<FullKnob>,
    greatest_drop: Ratio,
    length: Length,
    cable: Option<Area>,
    fuse: Option<ElectricCurrent>,
}

/// The circuits in order, in air so warm: the blower first, if there is one, then the loads. The blower's power is that at
/// full knob.
pub(super) fn rows(
    design: &Design,
    blower: Option<Result<FullKnob, String>>,
    around: ThermodynamicTemperature,
) -> Vec<WiringRow> {
    let wiring = &design.wiring;
    let limits = &design.limits;
    let blower = blower.map(|full| Entered {
        name: "Blower".to_string(),
        inputs: "wiring.blower_".to_string(),
        full_knob: full.as_ref().ok().copied(),
        power: full.map(|full| full.electric),
        greatest_drop: limits.motor_drop,
        length: wiring.blower_cable_length,
        cable: wiring.blower_cable,
        fuse: wiring.blower_fuse,
    });
    let loads = design
        .loads
        .iter()
        .enumerate()
        .map(|(place, load)| Entered {
            name: load.name.clone(),
            inputs: format!("loads.{place}."),
            power: Ok(load.power),
            full_knob: None,
            greatest_drop: match load.kind {
                LoadKind::Motor => limits.motor_drop,
                LoadKind::Heater | LoadKind::Other => limits.other_drop,
            },
            length: load.cable_length,
            cable: load.cable,
            fuse: load.fuse,
        });
    blower
        .into_iter()
        .chain(loads)
        .map(|entered| row(design, entered, around))
        .collect()
}

fn row(design: &Design, entered: Entered, around: ThermodynamicTemperature) -> WiringRow {
    let circuit = Circuit {
        power: entered.power.clone().unwrap_or_default(),
        duty: Ratio::new::<ratio>(1.0),
        voltage: design.battery.voltage,
        length: entered.length,
        greatest_drop: entered.greatest_drop,
        around,
    };
    let run = entered.power.and_then(|_| {
        choose(design, &circuit, entered.cable, entered.fuse).map_err(|why| why.to_string())
    });
    WiringRow {
        fuse: entered.fuse.or(run.as_ref().ok().and_then(|run| run.fuse)),
        name: entered.name,
        inputs: entered.inputs,
        full_knob: entered.full_knob,
        circuit,
        own_cable: entered.cable.is_some(),
        own_fuse: entered.fuse.is_some(),
        run,
    }
}

/// The cable entered; else the thinnest that passes with the fuse, or the thickest if none does.
fn choose(
    design: &Design,
    circuit: &Circuit,
    cable: Option<Area>,
    fuse: Option<ElectricCurrent>,
) -> Result<CableRun, WiringError> {
    if let Some(area) = cable {
        return circuit.with(Conductor::of(area));
    }
    let mut found = Err(WiringError::NoCable);
    for conductor in Conductor::all(system(design)) {
        let run = circuit.with(conductor)?;
        found = Ok(run);
        let fused = fuse.map_or(run.fuse.is_some(), |fuse| {
            fuse <= run.carries && run.current <= run.carries
        });
        if fused && run.drop_share <= circuit.greatest_drop {
            break;
        }
    }
    found
}

/// The smallest size that is sold of the cable or fuse at this path with which its circuit is Good, of the question with this
/// id; none where the path is of neither, or none is. What is Good for cable and fuse alike goes before a smaller one that
/// answers this question alone: the other would want another size of the same.
pub(in crate::review) fn size_that_suits(
    design: &Design,
    rows: &[WiringRow],
    id: &str,
    path: &str,
) -> Option<f64> {
    let answer = match id {
        CABLES => WiringRow::cable_answer,
        FUSES_SUIT => WiringRow::fuse_answer,
        _ => return None,
    };
    let found = |name: &str| rows.iter().find(|row| row.path(name) == path);
    let with = |row: &WiringRow, cable: Option<Area>, fuse: Option<ElectricCurrent>| {
        let run = choose(design, &row.circuit, cable, fuse).map_err(|why| why.to_string());
        WiringRow {
            fuse: fuse.or(run.as_ref().ok().and_then(|run| run.fuse)),
            own_cable: cable.is_some(),
            own_fuse: fuse.is_some(),
            run,
            ..row.clone()
        }
    };
    let tried: Vec<(f64, WiringRow)> = if let Some(row) = found("cable") {
        let sold = Conductor::all(system(design)).into_iter();
        sold.map(|conductor| conductor.area)
            .map(|area| (area.value, with(row, Some(area), row.entered_fuse())))
            .collect()
    } else {
        let row = found("fuse")?;
        let sold = FUSES.iter().copied();
        sold.map(|fuse| (fuse, ElectricCurrent::new::<ampere>(fuse)))
            .map(|(size, fuse)| (size, with(row, row.entered_cable(), Some(fuse))))
            .collect()
    };
    let in_all = |row: &WiringRow| row.verdict() == Verdict::Good;
    let asked = |row: &WiringRow| answer(row).0 == Verdict::Good;
    let smallest = |suits: &dyn Fn(&WiringRow) -> bool| {
        let size = tried.iter().find(|(_, row)| suits(row));
        size.map(|(size, _)| *size)
    };
    smallest(&in_all).or_else(|| smallest(&asked))
}

fn system(design: &Design) -> SizeSystem {
    match design.wiring.system {
        CableSystem::Metric => SizeSystem::Metric,
        CableSystem::Gauge => SizeSystem::Gauge,
    }
}

impl WiringRow {
    /// What a cable of it is called. Whoever works in inches is told the gauge to ask for beside a section in mm² that is
    /// still to be bought.
    pub fn cable_name(&self, run: &CableRun) -> Slot {
        let name = run.conductor.name.label();
        let gauge = run.conductor.gauge_no_thinner();
        match gauge.filter(|_| !self.own_cable) {
            Some(gauge) => {
                let beside = Phrase::new(" ({})", [gauge.label().into()]);
                let beside = Slot::Only(System::Inch, beside);
                Phrase::new("{}{}", [name.into(), beside]).into()
            }
            None => name.into(),
        }
    }

    fn entered_fuse(&self) -> Option<ElectricCurrent> {
        self.fuse.filter(|_| self.own_fuse)
    }

    fn entered_cable(&self) -> Option<Area> {
        let run = self.run.as_ref().ok().filter(|_| self.own_cable);
        run.map(|run| run.conductor.area)
    }

    /// The path of one of its inputs: `cable`, `cable_length` or `fuse`.
    pub fn path(&self, name: &str) -> String {
        format!("{}{name}", self.inputs)
    }

    /// Does the cable carry the load without losing too much voltage? With the distance from Good as a share.
    pub fn cable_answer(&self) -> (Verdict, Option<f64>) {
        let Ok(run) = &self.run else {
            return (Verdict::CannotTell, None);
        };
        let drop = (run.drop_share / self.circuit.greatest_drop).value;
        let loading = (run.current / run.carries).value;
        let verdict =
            Verdict::at_most(drop, 1.0, GREY_DROP).max(Verdict::at_most(loading, 1.0, 1.0));
        let margin = 1.0 - if drop > loading { drop } else { loading };
        (verdict, Some(margin).filter(|margin| margin.is_finite()))
    }

    /// Does the fuse stand the load and still protect the cable? With the distance from Good as a share.
    pub fn fuse_answer(&self) -> (Verdict, Option<f64>) {
        let Ok(run) = &self.run else {
            return (Verdict::CannotTell, None);
        };
        let Some(fuse) = self.fuse else {
            return (Verdict::Stop, Some(-1.0));
        };
        // The load as a share of what the fuse stands for ever; the same slack as where fuses are chosen.
        let loading = (run.current / fuse).value / FUSE_LOADING * (1.0 - 1e-12);
        let over_cable = (fuse / run.carries).value;
        let over_load = match self.too_large() {
            Some(most) => (fuse / most).value,
            None => 0.0,
        };
        let verdict = Verdict::at_most(loading, 1.0, 1.0 / FUSE_LOADING)
            .max(Verdict::at_most(over_cable, 1.0, 1.0))
            .max(Verdict::at_most(over_load, 1.0, f64::INFINITY));
        let larger = |one: f64, other: f64| if one > other { one } else { other };
        let margin = 1.0 - larger(larger(loading, over_cable), over_load);
        (verdict, Some(margin).filter(|margin| margin.is_finite()))
    }

    /// The largest fuse that still protects the load, where the one that was entered is larger.
    pub fn too_large(&self) -> Option<ElectricCurrent> {
        let run = self.run.as_ref().ok().filter(|_| self.own_fuse)?;
        let small = ElectricCurrent::new::<ampere>(SMALL_FUSE);
        let most = (ABOVE_LOAD * run.current).max(small);
        self.fuse.filter(|fuse| *fuse > most).map(|_| most)
    }

    /// Whether its cable carries less than its fuse lets through.
    pub fn burns_first(&self) -> bool {
        let lets_through = |run: &CableRun| self.fuse.is_some_and(|fuse| fuse > run.carries);
        self.run.as_ref().is_ok_and(lets_through)
    }

    /// The worse of cable and fuse.
    pub fn verdict(&self) -> Verdict {
        self.cable_answer().0.max(self.fuse_answer().0)
    }

    fn cells(&self) -> Vec<Slot> {
        let told =
            |what: String, own: bool| Slot::Name(if own { format!("{what}, yours") } else { what });
        let mut cells: Vec<Slot> = vec![self.name.as_str().into()];
        let Ok(run) = &self.run else {
            cells.extend((0..7).map(|_| Slot::from("?")));
            return cells;
        };
        let measure = |quantity, si| Slot::Measure(Measure::new(quantity, si));
        cells.extend([
            measure(Q::Current, run.current.value),
            measure(Q::Distance, self.circuit.length.value),
            match self.own_cable {
                true => told(run.conductor.name.label(), true),
                false => self.cable_name(run),
            },
            measure(Q::Voltage, run.drop.value),
            measure(Q::Share, run.drop_share.value),
            measure(Q::Current, run.carries.value),
            match self.fuse {
                // A fuse is called by its number, which is the same in every system of units.
                Some(fuse) => told(format!("{} A", fuse.value), self.own_fuse),
                None => "none fits".into(),
            },
        ]);
        cells
    }
}

/// The schedule as a table.
pub(super) fn table(rows: &[WiringRow]) -> Table {
    Table {
        headings: vec![
            "Circuit",
            "Current",
            "Length",
            "Cable",
            "Drop",
            "Drop, share",
            "Carries",
            "Fuse",
        ],
        rows: rows
            .iter()
            .map(|row| TableRow {
                verdict: Some(row.verdict()),
                cells: row.cells(),
            })
            .collect(),
    }
}
