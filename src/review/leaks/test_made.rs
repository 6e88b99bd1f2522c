//! A leak test that was made: its readings against what the sub-assembly may leak.

use super::{GroupLeak, outside};
use crate::design::Design;
use crate::design::inputs::{Group, Reading};
use crate::physics::error::PhysicsError;
use crate::review::finding::Verdict;
use crate::sizing::air_inside::air_inside;
use crate::sizing::leak_test::{Decay, Leak, Tightness};
use std::sync::LazyLock;
use uom::si::f64::{Pressure, Volume, VolumeRate};

/// A leak test that was made.
#[derive(Debug, Clone, PartialEq)]
pub struct LeakTestMade {
    /// Place in the list of tests, counted from zero.
    pub place: usize,
    /// The sub-assembly.
    pub group: Group,
    /// Day of the test: year, month, day; none where the date entered is no such day.
    pub day: Option<[u16; 3]>,
    /// Whether anything was read: no pressure, temperature or time is entered where nothing was.
    pub read: bool,
    /// What the readings say, or why they say nothing.
    pub leak: Result<Leak, PhysicsError>,
    /// What it may leak; none when it has no tight joint.
    pub budget: Option<VolumeRate>,
    /// Whether it keeps to that; none without readings, leak or budget.
    pub tightness: Option<Tightness>,
    /// The most it may leak when the engine draws hardest, where less than that drove it in the test.
    pub in_service: Option<VolumeRate>,
    /// Air inside its sub-assembly, where that is far from what was entered for the test.
    pub other_air: Option<Volume>,
    /// Whether it is known what the engine draws: else nobody can tell whether the test was driven hard enough.
    pub suction_known: bool,
}

impl LeakTestMade {
    /// What the test says of its sub-assembly.
    pub fn verdict(&self) -> Verdict {
        match self.tightness {
            Some(Tightness::Pass) if !self.suction_known => Verdict::CannotTell,
            Some(Tightness::Pass) if self.leaks_more_in_service() || self.other_air.is_some() => {
                Verdict::Watch
            }
            Some(Tightness::Pass) => Verdict::Good,
            Some(Tightness::Fail) => Verdict::Stop,
            Some(Tightness::CannotTell) | None => Verdict::CannotTell,
        }
    }

    /// Whether it may leak more than allowed when the engine draws hardest.
    pub(super) fn leaks_more_in_service(&self) -> bool {
        let (leak, budget) = (self.in_service, self.budget);
        leak.zip(budget).is_some_and(|(leak, budget)| leak > budget)
    }
}

/// The pressure that a test must come near to: as it was planned, and as it is in service.
pub(super) fn wanted_pressure(design: &Design, suction: Option<Pressure>) -> Pressure {
    let planned = design.leak_test.test_pressure;
    suction.map_or(planned, |suction| planned.max(suction))
}

/// Air that is entered may be this many times more or less than the sub-assembly holds: headers, hoses and blanks come
/// along. Our own mark.
pub(super) const OTHER_AIR: f64 = 1.3;

/// What readings say of a sub-assembly with its share of the leak allowed.
pub(super) fn judged(
    design: &Design,
    groups: &[GroupLeak],
    suction: Option<Pressure>,
    place: usize,
    reading: &Reading,
) -> LeakTestMade {
    let leak = Decay {
        volume: reading.volume,
        outside: outside(design),
        first_pressure: reading.first_pressure,
        first_temperature: reading.first_temperature,
        second_pressure: reading.second_pressure,
        second_temperature: reading.second_temperature,
        outside_change: reading.barometer_change,
        time: reading.time,
        gauge_step: reading.gauge_step,
        thermometer_step: reading.thermometer_step,
    }
    .leak();
    let budget = groups
        .iter()
        .find(|one| one.budget.group == reading.group)
        .map(|one| one.budget.budget);
    let read = is_read(reading);
    let tightness = match (&leak, budget) {
        (Ok(leak), Some(budget)) if read => {
            Some(leak.against(budget, wanted_pressure(design, suction)))
        }
        _ => None,
    };
    let in_service =
        (leak.as_ref().ok().zip(suction)).and_then(|(leak, suction)| leak.most_at(suction));
    let other_air = air_inside(design, reading.group).filter(|own| {
        let share = (reading.volume / *own).value;
        !(1.0 / OTHER_AIR..=OTHER_AIR).contains(&share)
    });
    LeakTestMade {
        place,
        group: reading.group,
        day: day(&reading.date),
        read,
        leak,
        budget,
        tightness,
        in_service,
        other_air,
        suction_known: suction.is_some(),
    }
}

/// Whether anything of what is read was entered. A test that was just added holds readings like those of a perfect one,
/// so that a date alone would make it pass.
fn is_read(reading: &Reading) -> bool {
    static ADDED: LazyLock<Reading> = LazyLock::new(Reading::default);
    let added = &*ADDED;
    reading.first_pressure != added.first_pressure
        || reading.second_pressure != added.second_pressure
        || reading.first_temperature != added.first_temperature
        || reading.second_temperature != added.second_temperature
        || reading.time != added.time
}

/// Year, month and day of a date such as 2026-05-14.
fn day(date: &str) -> Option<[u16; 3]> {
    let mut parts = date.trim().split('-');
    let mut part = |digits: usize, most: u16| {
        let text = parts.next().filter(|text| text.len() == digits)?;
        text.parse()
            .ok()
            .filter(|number| (1..=most).contains(number))
    };
    let day = [part(4, 9999)?, part(2, 12)?, part(2, 31)?];
    parts.next().is_none().then_some(day)
}
