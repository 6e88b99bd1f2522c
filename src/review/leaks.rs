//! Leak tests: plan, readings, the weakest panel; and the gas that leaks into a room.

mod blank;
mod budget;
mod joint_lengths;
mod panel;
mod plan;
mod readings;
mod results;
mod room;
mod test_made;
mod wall;

pub(super) use joint_lengths::{JOINT_LENGTHS, length_that_suits};
pub use room::{EscapingGas, RoomAir, Taken};
pub use test_made::LeakTestMade;
use test_made::judged;

use super::breath::vacuum;
use super::finding::{Finding, Verdict};
use super::{Heart, TrainReview};
use crate::design::inputs::Group;
use crate::design::phrase::Phrase;
use crate::design::{Choice, Design};
use crate::physics::air::pressure_at_altitude;
use crate::physics::error::PhysicsError;
use crate::sizing::air_inside::{air_inside, holds_gas};
use crate::sizing::leak_test::{GroupBudget, TestMeans, TestPlan, budgets};
use crate::sizing::panel::{FlatSheet, entered_panel, flat_sheets};
use crate::sizing::train::TrainError;
use uom::si::f64::{Pressure, Volume, VolumeRate};
use uom::si::pressure::pascal;

/// What a sub-assembly may leak, and how it is tested.
#[derive(Debug, Clone, PartialEq)]
pub struct GroupLeak {
    /// Its share of the leak allowed.
    pub budget: GroupBudget,
    /// Air inside; none when it was not entered.
    pub volume: Option<Volume>,
    /// How it is tested; none without a volume, or when the numbers are out of range.
    pub plan: Option<TestPlan>,
}

/// Why one of several tests of a sub-assembly counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WhyCounted {
    /// There is no other.
    Only,
    /// All of them have a date, and it has the latest.
    LatestDate,
    /// None of them has a date, and it is the last in the list.
    LastInList,
    /// Some of them have a date and some have none, and it is the worse of the last with and the last without.
    Worse,
}

/// Leak tests, and the gas that leaks into a room.
#[derive(Debug, Clone, PartialEq)]
pub struct Leaks {
    /// Leak allowed in the whole machine.
    pub allowed: VolumeRate,
    /// What the engine draws at full load with filters due, the strongest that sucks air in through a leak; none where
    /// the train cannot be worked out.
    pub suction: Option<Pressure>,
    /// Why that cannot be told.
    pub no_suction: Option<TrainError>,
    /// Each sub-assembly with a tight joint.
    pub groups: Vec<GroupLeak>,
    /// The tests made, in the order entered. Of several tests of a sub-assembly [one](Self::counted_tests) counts.
    pub tests: Vec<LeakTestMade>,
    /// The flat panel that was entered as the weakest.
    pub panel: Result<FlatSheet, PhysicsError>,
    /// The flat sheets of vessel, hopper and gas train that the design knows.
    pub sheets: Vec<FlatSheet>,
    /// Air of the room; none outdoors, or when the numbers are out of range.
    pub room: Option<RoomAir>,
}

impl Leaks {
    /// The sub-assemblies that hold no gas of their own, so that no gauge tells of their joints.
    pub fn without_gauge(&self) -> Vec<&'static str> {
        (self.groups.iter())
            .map(|one| one.budget.group)
            .filter(|group| !holds_gas(*group))
            .map(|group| group.label())
            .collect()
    }

    fn of(design: &Design, heart: &Heart, train: &TrainReview) -> Self {
        let supply = &heart.at.full.supply;
        let allowed = supply.gas_flow * design.leak_test.budget;
        let suction = vacuum(&train.full_dirty);
        let groups: Vec<GroupLeak> = budgets(design, allowed)
            .into_iter()
            .map(|budget| planned(design, budget, suction))
            .collect();
        let tests = design.readings.iter().enumerate();
        let tests = tests
            .map(|(place, reading)| judged(design, &groups, suction, place, reading))
            .collect();
        let mut leaks = Self {
            allowed,
            suction,
            no_suction: train.full_dirty.as_ref().err().cloned(),
            groups,
            tests,
            panel: entered_panel(design),
            sheets: flat_sheets(design),
            room: None,
        };
        if design.shed.is_closed() == Some(true) {
            let entered = supply.gas_flow * design.raw_gas.air_leak;
            let leaks_out = EscapingGas::of(&leaks, entered);
            leaks.room = RoomAir::of(design, leaks_out, supply.gas.carbon_monoxide).ok();
        }
        leaks
    }

    /// All flat panels that the test pressure loads: the one that was entered, and those that the design knows.
    pub fn panels(&self) -> impl Iterator<Item = &FlatSheet> {
        self.panel.as_ref().ok().into_iter().chain(&self.sheets)
    }

    /// The panel that bears least: the test pressure must stay below that.
    pub fn weakest(&self) -> Option<&FlatSheet> {
        (self.panels()).min_by(|one, other| {
            let bears = |panel: &FlatSheet| panel.limit.by_stress.value;
            bears(one).total_cmp(&bears(other))
        })
    }

    /// The panels that no longer count as flat at a pressure; first the one that bulges at the least.
    pub fn bulging(&self, pressure: Pressure) -> Vec<&FlatSheet> {
        let flat = |panel: &FlatSheet| panel.limit.by_deflection;
        let mut bulging: Vec<&FlatSheet> = self
            .panels()
            .filter(|panel| flat(panel) < pressure)
            .collect();
        bulging.sort_by(|one, other| flat(one).value.total_cmp(&flat(other).value));
        bulging
    }

    /// Why it is not known what the engine draws, in words that follow others.
    fn untold_suction(&self) -> Option<String> {
        let why = self.no_suction.as_ref()?;
        Some(if why.is_for_want_of_gas() {
            why.to_string()
        } else {
            "mend first what is told under “Gas gets through the train”".to_string()
        })
    }

    /// The test of each sub-assembly that counts, in the order of the list. One that nobody has made yet only counts
    /// where there is no other.
    pub fn counted_tests(&self) -> impl Iterator<Item = &LeakTestMade> {
        self.tests.iter().filter(|test| {
            self.counted(test.group)
                .is_some_and(|(counted, _)| counted.place == test.place)
        })
    }

    /// Which test of a sub-assembly counts, and why that one: the latest by date, or where none has a date the last of
    /// the list. Where only some have one nobody can tell which is the latest, so that the worse of the last with and the
    /// last without counts: a failure is never hidden by a date left out.
    pub fn counted(&self, group: Group) -> Option<(&LeakTestMade, WhyCounted)> {
        let of_group = || self.tests.iter().filter(|test| test.group == group);
        let read = of_group().any(|test| test.read);
        let made = || of_group().filter(|test| test.read == read);
        let dated =
            (made().filter(|test| test.day.is_some())).max_by_key(|test| (test.day, test.place));
        let undated = made().rfind(|test| test.day.is_none());
        match (dated, undated) {
            _ if made().count() < 2 => made().next().map(|test| (test, WhyCounted::Only)),
            (Some(dated), Some(undated)) => Some((
                if (undated.verdict(), undated.place) > (dated.verdict(), dated.place) {
                    undated
                } else {
                    dated
                },
                WhyCounted::Worse,
            )),
            (Some(dated), None) => Some((dated, WhyCounted::LatestDate)),
            (None, undated) => undated.map(|test| (test, WhyCounted::LastInList)),
        }
    }

    /// What a test of the list gave, in words.
    pub(super) fn said(&self, design: &Design, place: usize) -> Option<(Verdict, Phrase)> {
        let test = self.tests.get(place)?;
        let finding = readings::reading(design, self, test);
        Some((finding.verdict, finding.compared))
    }
}

/// Puts a design through the questions of this chapter.
pub(super) fn examine(
    design: &Design,
    heart: &Heart,
    train: &TrainReview,
) -> (Leaks, Vec<Finding>) {
    let leaks = Leaks::of(design, heart, train);
    let mut findings = vec![
        wall::holds_gas(design),
        budget::budget(design, heart),
        plan::plan(design, &leaks),
        panel::panel(design, &leaks),
    ];
    findings.extend(
        leaks
            .counted_tests()
            .map(|test| readings::counted(design, &leaks, test)),
    );
    findings.extend(joint_lengths::joint_lengths(design));
    findings.push(room::ask(design, &leaks));
    (leaks, findings)
}

fn outside(design: &Design) -> Pressure {
    Pressure::new::<pascal>(pressure_at_altitude(design.site.altitude.value))
}

fn planned(design: &Design, budget: GroupBudget, suction: Option<Pressure>) -> GroupLeak {
    let volume = air_inside(design, budget.group);
    let test = &design.leak_test;
    let plan = volume.and_then(|volume| {
        TestMeans {
            volume,
            outside: outside(design),
            pressure: test.test_pressure,
            temperature: design.site.air_temperature,
            gauge_step: test.gauge_step,
            thermometer_step: test.thermometer_step,
            suction,
        }
        .plan(budget.budget)
        .ok()
    });
    GroupLeak {
        budget,
        volume,
        plan,
    }
}
