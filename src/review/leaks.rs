//! Leak tests: plan, readings, the weakest panel; and the gas that leaks into a room.

mod blank;
mod budget;
mod joint_lengths;
mod panel;
mod plan;
mod readings;
mod room;
mod test_made;
mod wall;

pub(super) use joint_lengths::{JOINT_LENGTHS, length_that_suits};
pub use room::RoomAir;
pub use test_made::LeakTestMade;
use test_made::judged;

use super::breath::vacuum;
use super::finding::{Finding, NamedResult, Verdict};
use super::{Heart, TrainReview};
use crate::design::inputs::{Group, PanelShape};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice, Design};
use crate::physics::air::pressure_at_altitude;
use crate::physics::error::PhysicsError;
use crate::sizing::air_inside::{air_inside, holds_gas};
use crate::sizing::leak_test::{GroupBudget, TestMeans, TestPlan, budgets};
use crate::sizing::panel::{
    FlatSheet, Panel, PanelLimit, ShellMetal, flat_sheets, panel_limit, shell_metal,
};
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
    /// The metal of the shell, by which the panel is reckoned.
    pub shell: ShellMetal,
    /// What the weakest flat panel bears.
    pub panel: Result<PanelLimit, PhysicsError>,
    /// The flat sheet of vessel, hopper and gas train that bears least; none where the design knows of none.
    pub sheet: Option<FlatSheet>,
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
            .map(|budget| planned(design, budget))
            .collect();
        let tests = design.readings.iter().enumerate();
        let tests = tests
            .map(|(place, reading)| judged(design, &groups, suction, place, reading))
            .collect();
        let test = &design.leak_test;
        let panel = match test.panel_shape {
            PanelShape::Round => Panel::Round(test.panel_width),
            PanelShape::Rectangle => Panel::Rectangle(test.panel_width, test.panel_length),
        };
        let shell = shell_metal(design);
        Self {
            allowed,
            suction,
            no_suction: train.full_dirty.as_ref().err().cloned(),
            groups,
            tests,
            panel: panel_limit(panel, test.panel_sheet, &shell),
            sheet: flat_sheets(design).into_iter().min_by(|one, other| {
                let bears = |sheet: &FlatSheet| sheet.limit.pressure.value;
                bears(one).total_cmp(&bears(other))
            }),
            shell,
            room: (design.shed.indoors)
                .then(|| RoomAir::of(design, allowed, supply.gas.carbon_monoxide).ok())
                .flatten(),
        }
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

    /// The computed numbers with their stable names.
    pub fn results(&self) -> Vec<NamedResult> {
        let mut results = Vec::with_capacity(32);
        let mut tell = |name: String, label: String, quantity, si: f64| {
            results.push(NamedResult::new(
                format!("leaks.{name}"),
                label,
                Measure::new(quantity, si),
            ));
        };
        tell(
            "allowed".into(),
            "Leak allowed in all".into(),
            Q::NormalFlow,
            self.allowed.value,
        );
        if let Ok(panel) = &self.panel {
            tell(
                "panel_limit".into(),
                "Pressure the weakest panel bears".into(),
                Q::Pressure,
                panel.pressure.value,
            );
        }
        if let Some(sheet) = &self.sheet {
            tell(
                "sheet_limit".into(),
                format!("Pressure the {} bears if it is flat", sheet.label),
                Q::Pressure,
                sheet.limit.pressure.value,
            );
        }
        for one in &self.groups {
            let (name, label) = (one.budget.group.name(), one.budget.group.label());
            let mut of_group = |what: &str, words: &str, quantity, si| {
                tell(
                    format!("{what}_{name}"),
                    format!("{words}, {label}"),
                    quantity,
                    si,
                );
            };
            let budget = one.budget.budget.value;
            of_group("budget", "Leak allowed", Q::NormalFlow, budget);
            let Some(plan) = &one.plan else { continue };
            of_group("hold", "Time to hold", Q::Time, plan.hold.value);
            let loss = plan.allowed_loss.value;
            of_group("allowed_loss", "Pressure it may lose", Q::Pressure, loss);
            let energy = plan.stored_energy.value;
            of_group("energy", "Energy stored", Q::MechanicalEnergy, energy);
        }
        for test in self.counted_tests().filter(|test| test.read) {
            let Ok(leak) = &test.leak else { continue };
            let (name, label) = (test.group.name(), test.group.label());
            let mut of_test = |what: &str, words: &str, quantity, si| {
                tell(
                    format!("{what}_{name}"),
                    format!("{words}, {label}"),
                    quantity,
                    si,
                );
            };
            of_test("leak", "Leak measured", Q::NormalFlow, leak.rate.value);
            let sure = leak.uncertainty.value;
            of_test(
                "uncertainty",
                "Uncertainty of the leak",
                Q::NormalFlow,
                sure,
            );
            if let Some(hole) = leak.hole_diameter {
                of_test(
                    "hole",
                    "One hole that leaks as much",
                    Q::Thickness,
                    hole.value,
                );
            }
        }
        if let Some(room) = &self.room {
            tell(
                "room_ppm".into(),
                "Carbon monoxide after the longest stay, ppm".into(),
                Q::Number,
                1e6 * room.after_stay.value,
            );
            for (name, label, time) in [
                ("room_to_35", "Time to 35 ppm", room.to_recommended),
                ("room_to_200", "Time to 200 ppm", room.to_ceiling),
                ("room_to_1200", "Time to 1200 ppm", room.to_dangerous),
            ] {
                if let Some(time) = time {
                    tell(name.into(), label.into(), Q::LongTime, time.value);
                }
            }
        }
        results
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

fn planned(design: &Design, budget: GroupBudget) -> GroupLeak {
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
