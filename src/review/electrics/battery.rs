//! How long does the battery last?

use super::{Drain, Electrics, charge_left};
use crate::design::Source::{CommonPractice, FromMemory};
use crate::design::inputs::ElectricLoad;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, celsius};
use crate::review::breath::has_blower;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::sizing::battery::{LOST_PER_KELVIN, left_in_the_cold};
use uom::si::f64::Time;

/// A battery that lasts at least this share of the wanted time is Watch. Our own choice.
const GREY_TIME: f64 = 0.5;

const CAUTION: &str = "A shorted battery burns and lights gas: put each fuse close to the pole, in a sealed holder, outside the space where the battery's gas collects, and cover both poles. A lead-acid battery gives off hydrogen while it is charged: let air through its box, and keep it away from gas, flame and heat.";

/// The battery's hours against the hours wanted, and while lighting against the time that the hearth takes to get hot.
pub(super) fn finding(design: &Design, electrics: &Electrics, warm: Option<Time>) -> Finding {
    let wanted = design.limits.battery_time.value;
    let mut finding = Finding {
        // It was asked in the chapter of the blower once, and its id stays.
        id: "breath.battery",
        chapter: Chapter::Electrics,
        title: "Battery time",
        meaning: "How long the battery turns the blower and feeds the other loads before it is as empty as you allow.",
        verdict: Verdict::CannotTell,
        compared: Phrase::plain("nothing draws on the battery"),
        why: "A battery that dies while lighting leaves a smoking hearth and no flare.",
        margin: None,
        working: Vec::new(),
        caution: Some(CAUTION),
        levers: levers(design),
        about: "battery",
    };
    let (lighting, running) = match (&electrics.lighting, &electrics.running) {
        (Ok(lighting), Ok(running)) => (lighting, running),
        (Err(why), _) | (_, Err(why)) => {
            finding.compared = Phrase::new("{}", [why.clone().into()]);
            return finding;
        }
    };
    let hungriest = if running.mean > lighting.mean {
        running
    } else {
        lighting
    };
    let Some(time) = hungriest.time else {
        return finding;
    };
    finding.verdict = Verdict::at_least(time.value, wanted, wanted * GREY_TIME);
    finding.margin = Some(time.value / wanted - 1.0).filter(|margin| margin.is_finite());
    let told = |drain: &Drain, time: Time| {
        [
            Measure::new(Q::Power, drain.mean.value).into(),
            Measure::new(Q::LongTime, time.value).into(),
        ]
    };
    let wanted = [Measure::new(Q::LongTime, wanted).into()];
    finding.compared = match (lighting.time, running.time) {
        (Some(first), Some(then)) => Phrase::new(
            "carries {} for {} while lighting, {} for {} while running on the battery alone; wanted {}",
            told(lighting, first)
                .into_iter()
                .chain(told(running, then))
                .chain(wanted),
        ),
        (_, None) => Phrase::new(
            "carries {} for {} while lighting, nothing while running; wanted {}",
            told(lighting, time).into_iter().chain(wanted),
        ),
        (None, Some(then)) => Phrase::new(
            "carries {} for {} while running on the battery alone, nothing while lighting; wanted {}",
            told(running, then).into_iter().chain(wanted),
        ),
    };
    finding.working = working(design, hungriest);
    if let Some((first, warm)) = lighting.time.zip(warm) {
        outlasts(&mut finding, lighting, first, warm);
    }
    in_frost(design, &mut finding);
    finding
}

/// Tells what frost leaves of the charge.
fn in_frost(design: &Design, finding: &mut Finding) {
    let air = design.site.air_temperature;
    if air.value > celsius(0.0) {
        return;
    }
    finding.compared = Phrase::new(
        "{}; as cold as the air of {} it gives {} of its charge: keep it warm until you light",
        [
            finding.compared.clone().into(),
            Measure::new(Q::Temperature, air.value).into(),
            Measure::new(Q::Share, left_in_the_cold(air).value).into(),
        ],
    );
}

/// Judges a battery that is empty before the hearth is hot, whatever time was wanted of it. How long the fire takes is a
/// rough number, so that it stops nobody.
fn outlasts(finding: &mut Finding, lighting: &Drain, first: Time, warm: Time) {
    let by_fire = Verdict::at_least(first.value, warm.value, 0.0);
    if by_fire <= finding.verdict {
        return;
    }
    finding.verdict = by_fire;
    finding.margin = Some(first.value / warm.value - 1.0).filter(|margin| margin.is_finite());
    finding.compared = Phrase::new(
        "carries {} for {} while lighting, and the hearth takes {} to get hot: it is empty before the engine can run",
        [
            Measure::new(Q::Power, lighting.mean.value).into(),
            Measure::new(Q::LongTime, first.value).into(),
            Measure::new(Q::LongTime, warm.value).into(),
        ],
    );
}

fn levers(design: &Design) -> Vec<Lever> {
    let speed = if design.blower.assists {
        "blower.speed_share"
    } else {
        "blower.startup_speed_share"
    };
    let greediest = design
        .loads
        .iter()
        .enumerate()
        .max_by(|one, other| {
            let mean = |load: &ElectricLoad| load.power.value * load.duty.value;
            mean(one.1).total_cmp(&mean(other.1))
        })
        .map(|(place, _)| Lever::input(format!("loads.{place}.duty")));
    [Lever::input("battery.capacity")]
        .into_iter()
        .chain(has_blower(design).then(|| Lever::input(speed)))
        .chain(greediest)
        .collect()
}

fn working(design: &Design, drain: &Drain) -> Vec<Step> {
    let battery = &design.battery;
    let load = Step {
        words: "Mean load: the blower, and each load by the share of the time it is on",
        formula: "P = P_b + Σ Pᵢ dᵢ",
        values: vec![
            ("P_b", "blower", Measure::new(Q::Power, drain.blower.value)),
            (
                "Σ Pᵢ dᵢ",
                "other loads",
                Measure::new(Q::Power, (drain.mean - drain.blower).value),
            ),
        ],
        result: Measure::new(Q::Power, drain.mean.value),
        source: CommonPractice,
        sure: "Small fans vary by a factor of two: measure the current of yours.",
    };
    let charge = Step {
        words: "Charge that it still gives: as old as entered, and as cold as the air outside when the fire is lit",
        formula: "C = C_n a min(1, 1 − c (25 °C − T))",
        values: vec![
            (
                "C_n",
                "charge on the label",
                Measure::new(Q::Charge, battery.capacity.value),
            ),
            (
                "a",
                "left with age",
                Measure::new(Q::Share, battery.left_with_age.value),
            ),
            (
                "c",
                "lost for each kelvin below 25 °C",
                Measure::new(Q::Number, LOST_PER_KELVIN),
            ),
            (
                "T",
                "air outside",
                Measure::new(Q::Temperature, design.site.air_temperature.value),
            ),
        ],
        result: Measure::new(Q::Charge, charge_left(design).value),
        source: FromMemory(
            "common practice for lead-acid: a hundredth for each kelvin; lithium loses no more",
        ),
        sure: "Within a tenth for a battery that is as cold all through; age must be measured.",
    };
    let time = drain.time.map(|time| Step {
        words: "Battery time; a fast discharge leaves part of the charge unused",
        formula: "t = u · C/I · min(1, C/(I H))^(k−1)",
        values: vec![
            (
                "I",
                "current",
                Measure::new(Q::Current, drain.current.value),
            ),
            (
                "C",
                "charge that it still gives",
                Measure::new(Q::Charge, charge_left(design).value),
            ),
            (
                "H",
                "rated time",
                Measure::new(Q::LongTime, battery.rated_time.value),
            ),
            (
                "k",
                "Peukert exponent",
                Measure::new(Q::Number, battery.peukert),
            ),
            (
                "u",
                "usable share",
                Measure::new(Q::Share, battery.usable_share.value),
            ),
        ],
        result: Measure::new(Q::LongTime, time.value),
        source: FromMemory("Peukert, Elektrotechnische Zeitschrift 20, 1897"),
        sure: "As sure as the charge that it still gives.",
    });
    [load, charge].into_iter().chain(time).collect()
}
