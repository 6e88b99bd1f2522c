//! Where does the knob stand, and does it reach the speeds that were entered?

use crate::design::Design;
use crate::design::Source::FromMemory;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::review::breath::{BlowerReview, Breath, Duty};
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::sizing::knob::Knob;
use crate::sizing::train::TrainError;
use uom::si::f64::Ratio;
use uom::si::ratio::ratio;

/// The knob for one wanted gas flow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KnobSetting {
    /// Name used in results.
    pub name: &'static str,
    /// When, in words.
    pub label: &'static str,
    /// Speed that gives the wanted flow, as a share of the rated speed; none when no speed does.
    pub speed: Option<Ratio>,
    /// Share of the knob's turn; none beyond full knob.
    pub position: Option<Ratio>,
    /// Whether what the gas needs on its way can be told at this load.
    pub known: bool,
}

/// The knob for lighting, and for the blower doing the engine's sucking at usual and full load.
pub(super) fn settings(
    design: &Design,
    breath: &Breath,
    blower: &BlowerReview,
) -> [KnobSetting; 3] {
    let knob = knob(design);
    let setting = |name, label, known, speed: Option<Ratio>| KnobSetting {
        name,
        label,
        speed,
        position: speed.and_then(|speed| knob.position(speed)),
        known,
    };
    let to_engine = |duty: &Result<Duty, TrainError>| {
        let duty = duty.as_ref().ok()?;
        blower
            .curve
            .speed_needed(duty.density_at_blower, duty.flow_at_blower, duty.drop)
    };
    [
        setting(
            "lighting",
            "while lighting",
            true,
            blower.startup.speed_needed,
        ),
        setting(
            "usual",
            if design.blower.assists {
                "at usual load"
            } else {
                "at usual load, were it to do the sucking"
            },
            breath.usual.is_ok(),
            to_engine(&breath.usual),
        ),
        setting(
            "full",
            if design.blower.assists {
                "at full load"
            } else {
                "at full load, were it to do the sucking"
            },
            breath.full_clean.is_ok(),
            to_engine(&breath.full_clean),
        ),
    ]
}

fn knob(design: &Design) -> Knob {
    Knob {
        start: design.wiring.knob_start,
        full_speed: design.wiring.knob_end,
    }
}

/// Does the knob reach the speeds that were entered?
pub(super) fn finding(design: &Design, settings: &Result<[KnobSetting; 3], String>) -> Finding {
    let blower = &design.blower;
    let end = design.wiring.knob_end;
    let (set, path) = if blower.assists && blower.speed_share > blower.startup_speed_share {
        (blower.speed_share, "blower.speed_share")
    } else {
        (blower.startup_speed_share, "blower.startup_speed_share")
    };
    // The fastest of the speeds that the wanted flows ask of it; without end where no speed of it is enough.
    let asked = settings.as_ref().map_or(set, |settings| {
        let flows = if blower.assists { settings.len() } else { 1 };
        let no_speed = Ratio::new::<ratio>(f64::INFINITY);
        (settings.iter().take(flows))
            .filter(|setting| setting.known)
            .map(|setting| setting.speed.unwrap_or(no_speed))
            .fold(Ratio::default(), Ratio::max)
    });
    let turn = |setting: &KnobSetting| match setting.position {
        Some(position) => Slot::Measure(Measure::new(Q::Share, position.value)),
        None if setting.known => "beyond full".into(),
        None => "cannot be told".into(),
    };
    let speeds = [
        Measure::new(Q::Share, set.value).into(),
        Measure::new(Q::Share, end.value).into(),
    ];
    let (verdict, compared) = match settings {
        Err(why) => (
            Verdict::CannotTell,
            Phrase::new("{}", [why.as_str().into()]),
        ),
        Ok([lighting, usual, full]) => (
            Verdict::at_most(set.value, end.value, end.value).max(
                match asked.value.is_infinite() {
                    true => Verdict::Watch,
                    false => Verdict::at_most(asked.value, end.value, f64::INFINITY),
                },
            ),
            if blower.assists {
                Phrase::new(
                    "speed entered {}, full knob gives {}; knob for the wanted flow: lighting {}, usual load {}, full load {}",
                    speeds
                        .into_iter()
                        .chain([turn(lighting), turn(usual), turn(full)]),
                )
            } else {
                Phrase::new(
                    "speed entered {}, full knob gives {}; knob for the wanted flow while lighting: {}",
                    speeds.into_iter().chain([turn(lighting)]),
                )
            },
        ),
    };
    Finding {
        id: "electrics.knob",
        chapter: Chapter::Electrics,
        title: "Knob of the blower",
        meaning: "The knob of the speed controller sets how fast the blower turns. Positions are shares of its turn.",
        verdict,
        compared,
        why: "A speed that the knob does not give is a flow that you will not get.",
        margin: Some(1.0 - (set.max(asked) / end).value)
            .filter(|margin| margin.is_finite() && verdict != Verdict::CannotTell),
        working: settings
            .iter()
            .flatten()
            .flat_map(|setting| step(design, setting))
            .collect(),
        caution: None,
        levers: vec![Lever::input("wiring.knob_end"), Lever::input(path)],
        about: "wiring",
    }
}

fn step(design: &Design, setting: &KnobSetting) -> Option<Step> {
    let (speed, position) = (setting.speed?, setting.position?);
    let share = |value: Ratio| Measure::new(Q::Share, value.value);
    Some(Step {
        words: match setting.name {
            "lighting" => "Knob for the wanted flow while lighting",
            "usual" => "Knob at usual load, filter clean, if the blower does the sucking",
            _ => "Knob at full load, filter clean, if the blower does the sucking",
        },
        formula: "k = k₀ + (1 − k₀) s / s₁",
        values: vec![
            ("s", "speed needed, of rated speed", share(speed)),
            (
                "k₀",
                "knob where it starts",
                share(design.wiring.knob_start),
            ),
            ("s₁", "speed at full knob", share(design.wiring.knob_end)),
        ],
        result: share(position),
        source: FromMemory("speed by the affinity laws, as in ISO 5801"),
        sure: "A straight line; real controllers bend. Mark the true positions on the dial.",
    })
}
