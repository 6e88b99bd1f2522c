//! Does carbon monoxide gather in the room?

use super::blank::{CARBON_MONOXIDE, blank};
use super::{Leaks, outside};
use crate::design::Design;
use crate::design::Source::{CommonPractice, FromMemory};
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::physics::error::PhysicsError;
use crate::physics::normal_state;
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::air_inside::holds_gas;
use crate::sizing::carbon_monoxide::{CEILING, DANGEROUS, RECOMMENDED, RoomLeak};
use uom::si::f64::{Frequency, Ratio, Time, VolumeRate};
use uom::si::frequency::hertz;
use uom::si::ratio::ratio;

const HOUR: f64 = 3600.0;

/// Where the leak comes from that the room is reckoned with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Taken {
    /// As much as the whole machine may leak.
    Allowed,
    /// Tests measured more than that.
    Measured,
    /// The air that is entered as leaking into the train is more than either.
    Entered,
}

/// What is taken to leak out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EscapingGas {
    /// At the normal state.
    pub rate: VolumeRate,
    /// Where that comes from.
    pub taken: Taken,
}

impl EscapingGas {
    /// The largest of what is allowed, what tests measured, and the air that is entered as leaking in. A sub-assembly whose
    /// test found less than it may leak makes up for no other.
    pub(super) fn of(leaks: &Leaks, entered: VolumeRate) -> Self {
        let none = VolumeRate::default();
        let beyond = (leaks.counted_tests())
            .filter(|test| test.read && holds_gas(test.group))
            .filter_map(|test| {
                let budget = test.budget.unwrap_or_default();
                Some((test.leak.as_ref().ok()?.rate - budget).max(none))
            })
            .fold(none, |sum, more| sum + more);
        let measured = leaks.allowed + beyond;
        let (rate, taken) = match (entered > measured, beyond > none) {
            (true, _) => (entered, Taken::Entered),
            (false, true) => (measured, Taken::Measured),
            (false, false) => (leaks.allowed, Taken::Allowed),
        };
        Self { rate, taken }
    }
}

/// Carbon monoxide in the room, if all that may leak came out as gas.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoomAir {
    /// What leaks out.
    pub escaping: EscapingGas,
    /// The same as warm as the room is, and the room.
    pub leak: RoomLeak,
    /// Share of carbon monoxide that the room comes to while the machine runs on.
    pub settled: Ratio,
    /// Share of carbon monoxide after the longest stay, where the air was clean before.
    pub after_stay: Ratio,
    /// Time to 35 ppm; none when it is never reached.
    pub to_recommended: Option<Time>,
    /// Time to 200 ppm.
    pub to_ceiling: Option<Time>,
    /// Time to 1200 ppm.
    pub to_dangerous: Option<Time>,
}

impl RoomAir {
    /// With this share of carbon monoxide in what leaks out.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`] naming the value at fault.
    pub(super) fn of(
        design: &Design,
        escaping: EscapingGas,
        share: f64,
    ) -> Result<Self, PhysicsError> {
        let shed = &design.shed;
        // The gas flow counts at 0 °C and 101.325 kPa; in the room it takes more space.
        let swelling = design.site.air_temperature.value / normal_state::TEMPERATURE
            * (normal_state::PRESSURE / outside(design).value);
        let leak = RoomLeak {
            leak: escaping.rate * swelling,
            share: Ratio::new::<ratio>(share),
            room: shed.volume,
            air_changes: Frequency::new::<hertz>(shed.air_changes / HOUR),
        };
        let to = |level: f64| leak.time_to(Ratio::new::<ratio>(level));
        Ok(Self {
            escaping,
            leak,
            settled: leak.settled()?,
            after_stay: leak.after(shed.stay)?,
            to_recommended: to(RECOMMENDED)?,
            to_ceiling: to(CEILING)?,
            to_dangerous: to(DANGEROUS)?,
        })
    }
}

/// Does carbon monoxide gather in the room?
pub(super) fn ask(design: &Design, leaks: &Leaks) -> Finding {
    let mut finding = blank(
        "leaks.room",
        "Carbon monoxide in the room",
        "If all that may leak came out as gas, carbon monoxide would gather in a closed room.",
        "A fifth of wood gas is carbon monoxide, of gas from charcoal a third. A few parts in a thousand of it kill within the hour.",
    );
    finding.caution = Some(CARBON_MONOXIDE);
    finding.about = "shed";
    finding.levers = vec![Lever::input("shed.stands")];
    match design.shed.is_closed() {
        Some(true) => {}
        Some(false) => {
            finding.verdict = Verdict::Good;
            finding.compared = Phrase::plain("it stands outdoors or under an open roof");
            return finding;
        }
        None => {
            finding.compared = Phrase::plain(
                "nobody told whether it stands outdoors, under an open roof or under a closed one",
            );
            return finding;
        }
    }
    let Some(room) = &leaks.room else {
        finding.compared = Phrase::plain("the leak or the room is out of range");
        return finding;
    };
    // Whoever comes in for a short while after it has run all day breathes what the room has come to by then, so that the
    // stay says nothing of how much that is.
    let share = room.settled.value;
    // The sum takes the air as well mixed and the leak as no larger than is known, and knows nothing of refuelling, of
    // lighting and of a fan that stops. So no room, however large or airy, makes it Good.
    finding.verdict = Verdict::at_most(share, RECOMMENDED, CEILING).max(Verdict::Watch);
    finding.margin = Some(1.0 - share / RECOMMENDED).filter(|margin| *margin < 0.0);
    let stay: Slot = Measure::new(Q::LongTime, design.shed.stay.value).into();
    finding.compared = Phrase::new(
        "{} ppm in the end if it runs on, {} ppm after {} where the air was clean before; wanted {} ppm at most, and never {} ppm. Reckoned with {} of gas that leak out, {}. Refuelling, lighting and a fan that stops are left out, so that indoors is never good",
        [
            ppm(share).into(),
            ppm(room.after_stay.value).into(),
            stay,
            ppm(RECOMMENDED).into(),
            ppm(CEILING).into(),
            Measure::new(Q::NormalFlow, room.escaping.rate.value).into(),
            taken(room.escaping.taken).into(),
        ],
    );
    finding.working = vec![settled(room), after_stay(design, room)];
    finding
}

/// What the room comes to while gas leaks into it on and on.
fn settled(room: &RoomAir) -> Step {
    let leak = &room.leak;
    let in_gas = (
        "x",
        "carbon monoxide in what leaks out",
        Measure::new(Q::Share, leak.share.value),
    );
    let aired = leak.air_changes.value > 0.0;
    Step {
        words: if aired {
            "Carbon monoxide in well mixed air, once as much goes out as comes in; never more than in the gas"
        } else {
            "Carbon monoxide in a room without any air change: in the end as much as in the gas"
        },
        formula: if aired {
            "C = min(q x / (n V), x)"
        } else {
            "C = x"
        },
        values: match aired {
            true => vec![leaks_out(room), in_gas, renewed(room), air(room)],
            false => vec![in_gas],
        },
        result: ppm(room.settled.value),
        source: FromMemory(
            "NIOSH Pocket Guide: 35 ppm mean, 200 ppm ceiling, 1200 ppm dangerous to life",
        ),
        sure: SURE,
    }
}

/// What the room comes to within the longest stay.
fn after_stay(design: &Design, room: &RoomAir) -> Step {
    let leak = &room.leak;
    Step {
        words: "The same after the longest stay, from clean air on",
        formula: if leak.air_changes.value > 0.0 {
            "C = min(q x / (n V) · (1 − e^(−n t)), x)"
        } else {
            "C = min(q x t / V, x)"
        },
        values: vec![
            leaks_out(room),
            (
                "x",
                "carbon monoxide in it",
                Measure::new(Q::Share, leak.share.value),
            ),
            renewed(room),
            air(room),
            (
                "t",
                "longest stay",
                Measure::new(Q::LongTime, design.shed.stay.value),
            ),
        ],
        result: ppm(room.after_stay.value),
        source: CommonPractice,
        sure: SURE,
    }
}

const SURE: &str = "the air is taken as well mixed and the leak as no larger than told; beside the leak it is far more, and how much air a shed changes is a guess";

/// What leak the sum is made with, in words that follow it.
fn taken(taken: Taken) -> &'static str {
    match taken {
        Taken::Allowed => "all that is allowed",
        Taken::Measured => {
            "as tests measured where that is more than allowed, else all that is allowed"
        }
        Taken::Entered => "as much as the air that is entered as leaking into the train",
    }
}

fn ppm(share: f64) -> Measure {
    Measure::new(Q::Number, 1e6 * share)
}

/// A symbol with its meaning and its value.
type Value = (&'static str, &'static str, Measure);

fn leaks_out(room: &RoomAir) -> Value {
    let leak = room.leak.leak.value;
    ("q", "gas that leaks out", Measure::new(Q::Flow, leak))
}

fn renewed(room: &RoomAir) -> Value {
    let per_hour = room.leak.air_changes.value * HOUR;
    (
        "n",
        "air changes per hour",
        Measure::new(Q::Number, per_hour),
    )
}

fn air(room: &RoomAir) -> Value {
    let air = room.leak.room.value;
    ("V", "air in the room", Measure::new(Q::RoomVolume, air))
}
