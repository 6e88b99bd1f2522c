//! Do nozzle tips and grate bear their heat?

use super::lasts::{Endurance, TubeWords};
use super::questions::finite;
use crate::design::Source::OwnMark;
use crate::design::inputs::Material;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice as _, Design};
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::review::heart::{Heart, as_far_as_known};
use crate::sizing::also_needed::has_nozzles;
use uom::si::f64::ThermodynamicTemperature;

/// A part of steel in the fire, or in the gas that comes from it.
pub struct Wearing {
    /// What it is.
    pub label: &'static str,
    /// What it is made of.
    pub material: Material,
    /// What that bears for long.
    pub limit: ThermodynamicTemperature,
    /// How hot it gets at most.
    pub temperature: ThermodynamicTemperature,
    /// At which load.
    pub at: &'static str,
    /// What has this temperature.
    pub of: &'static str,
    /// Whether it comes out without a cut or a weld.
    comes_out: bool,
    /// Whether it may burn away: at the grate no air is left for that.
    burns: bool,
    /// What is looked at, and when it is changed.
    pub upkeep: &'static str,
}

impl Wearing {
    fn endurance(&self) -> Endurance {
        Endurance {
            limit: self.limit.value,
            comes_out: self.comes_out,
        }
    }

    /// How it lasts.
    fn verdict(&self) -> Verdict {
        let endurance = self.endurance();
        let stop = if self.burns {
            endurance.burns_away()
        } else {
            f64::INFINITY
        };
        Verdict::at_most(self.temperature.value, endurance.good(), stop)
    }

    fn margin(&self) -> f64 {
        self.endurance().margin(self.temperature.value)
    }

    fn told(&self) -> Phrase {
        let temperature = |kelvin: ThermodynamicTemperature| -> Slot {
            Measure::new(Q::Temperature, kelvin.value).into()
        };
        let words = match self.verdict() {
            Verdict::Good if self.temperature > self.limit => {
                "{} bears {}, {} is at {} {}: it wears and is a spare part, since it comes out"
            }
            Verdict::Good => "{} bears {}, {} is at {} {}",
            Verdict::Watch if self.burns && !self.comes_out => {
                "{} bears {}, {} is at {} {}: it wears away, so make it so that it comes out, and keep another"
            }
            Verdict::Watch if self.burns => {
                "{} bears {}, {} is at {} {}: it wears away fast, look at it often and keep another"
            }
            Verdict::Watch => {
                "{} bears {}, {} is at {} {}: it sags and goes brittle under the char; look at it often and keep another"
            }
            _ => {
                "{} bears {}, {} is at {} {}: it burns away, and changing it does not keep up with that"
            }
        };
        Phrase::new(
            words,
            [
                self.material.label().into(),
                temperature(self.limit),
                self.of.into(),
                temperature(self.temperature),
                self.at.into(),
            ],
        )
    }

    fn step(&self) -> Step {
        let temperature = |kelvin: f64| Measure::new(Q::Temperature, kelvin);
        let (words, sure) = if self.burns {
            (
                "Rim of the fire at the height of the nozzles",
                "the tip may be hotter where it reaches into the fire, or colder: air blows through it; blown air makes it scale faster",
            )
        } else {
            (
                "Gas where its reactions end, at the foot of the char",
                "within 50 degrees; the plate is a little colder, and hotter for a while when air gets to the char above it",
            )
        };
        Step {
            words,
            formula: "T ≤ T_max",
            values: vec![(
                "T_max",
                "what the steel bears for long",
                temperature(self.limit.value),
            )],
            result: temperature(self.temperature.value),
            source: OwnMark(
                "the limit is that of the table of materials; a tenth above it, in °C, is Good for what comes out; tips in the fire from a quarter above it are Stop, a grate never is, since no air is left there that it burns in",
            ),
            sure,
        }
    }
}

/// A part that is as hot as the rim of the fire; none where nobody knows how hot that is.
fn in_the_fire(
    design: &Design,
    heart: &Heart,
    label: &'static str,
    material: Material,
) -> Option<Wearing> {
    let (temperature, at) = heart.hottest_wall()?;
    Some(Wearing {
        label,
        material,
        limit: design.material(material).ok()?.limit,
        temperature,
        at,
        of: "the rim of the fire",
        comes_out: design.hearth.comes_out,
        burns: true,
        upkeep: TubeWords::of(design).upkeep,
    })
}

fn nozzle_tips(design: &Design, heart: &Heart) -> Option<Wearing> {
    let material = design.hearth.nozzle_material.material();
    Some(Wearing {
        upkeep: "change a tube once its tip has burnt back or its bore has grown wide",
        ..in_the_fire(design, heart, "Nozzle tips", material)?
    })
}

fn grate(design: &Design, heart: &Heart) -> Option<Wearing> {
    let (temperature, at) = heart.hottest_gas()?;
    let material = design.grate.material.material();
    Some(Wearing {
        label: "Grate",
        material,
        limit: design.material(material).ok()?.limit,
        temperature,
        at,
        of: "the gas that passes it",
        comes_out: true,
        burns: false,
        upkeep: "change it once it sags, cracks or its holes have grown wide",
    })
}

/// Fire tube, nozzle tips, where there are any, and grate; what is not known how hot it gets is left out.
pub fn wearing(design: &Design, heart: &Heart) -> Vec<Wearing> {
    let tube = design.hearth.material.material();
    let tube = in_the_fire(design, heart, TubeWords::of(design).label, tube);
    let tips = has_nozzles(design).then(|| nozzle_tips(design, heart));
    let grate = grate(design, heart);
    ([tube, tips.flatten(), grate].into_iter().flatten()).collect()
}

/// Nozzle tips, where there are any, and grate against what their steel bears.
pub(super) fn spares(design: &Design, heart: &Heart) -> impl Iterator<Item = Finding> {
    let tips = has_nozzles(design).then(|| Finding {
        id: "hearth.tips_last",
        title: "Nozzle tips against the heat",
        meaning: "The tips of the nozzles stand in the fire: steel scales away there, and they are changed.",
        why: "A nozzle that has burnt back blows its air at the wall instead of into the fire, and tar gets through.",
        levers: ["hearth.nozzle_material", "hearth.comes_out"]
            .map(Lever::input)
            .into(),
        ..judged(nozzle_tips(design, heart))
    });
    let grate = Finding {
        id: "hearth.grate_lasts",
        title: "Grate against the heat",
        meaning: "Hot gas passes the grate, and the char lies on it: steel that gets too hot for that sags.",
        why: "A grate that gives way drops the fire into the ash.",
        levers: vec![Lever::input("grate.material")],
        about: "grate",
        ..judged(grate(design, heart))
    };
    (tips.into_iter().chain([grate])).map(|finding| as_far_as_known(finding, heart.untold()))
}

/// The answer about a part, without its name.
fn judged(part: Option<Wearing>) -> Finding {
    let hot = (part.as_ref()).is_some_and(|part| part.temperature > part.limit);
    Finding {
        id: "",
        chapter: Chapter::Hearth,
        title: "",
        meaning: "",
        verdict: part.as_ref().map_or(Verdict::CannotTell, Wearing::verdict),
        compared: part.as_ref().map_or_else(
            || Phrase::plain("cannot be told while the hearth makes no gas that burns"),
            Wearing::told,
        ),
        why: "",
        margin: part.as_ref().and_then(|part| finite(part.margin())),
        working: part.iter().map(Wearing::step).collect(),
        caution: hot.then_some(
            "Look at what stands in the fire, and at the grate, only when the machine is cold and has been aired: carbon monoxide stays in it.",
        ),
        levers: Vec::new(),
        about: "hearth",
    }
}
