//! What does the blower take with its knob fully turned, whatever it draws?

use crate::design::Design;
use crate::design::Source::FromMemory;
use crate::design::phrase::Measure;
use crate::design::quantity::Quantity as Q;
use crate::physics::air::{self, Air};
use crate::review::breath::BlowerReview;
use crate::review::finding::Step;
use crate::sizing::blower::{BlowerPoint, CURVE_DENSITY, blower_power};
use uom::si::f64::{MassDensity, Power, Ratio};
use uom::si::mass_density::kilogram_per_cubic_meter;

/// The most that the blower can take: its knob fully turned, with air from outside. Before each fire it draws that through
/// the cold machine, which is heavier than hot gas and finds an easier way; with a lid or door open it may work anywhere on
/// its curve. Cable and fuse must stand it, whatever the knob is set to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FullKnob {
    /// The point of the curve at which it gives most power, at rated speed and the density of the curve.
    pub point: BlowerPoint,
    /// Speed at full knob, or the one entered where that is more, as a share of rated speed.
    pub speed: Ratio,
    /// Density of the air outside.
    pub density: MassDensity,
    /// Electric power drawn.
    pub electric: Power,
}

impl FullKnob {
    pub(super) fn of(design: &Design, review: &BlowerReview) -> Self {
        let (site, blower) = (&design.site, &design.blower);
        let pressure = air::pressure_at_altitude(site.altitude.value);
        let air = Air::at(site.air_temperature.value, pressure).density;
        let entered = match blower.assists {
            true => blower.startup_speed_share.max(blower.speed_share),
            false => blower.startup_speed_share,
        };
        let speed = design.wiring.knob_end.max(entered);
        let point = review.curve.most_power();
        let rated = blower_power(
            point.flow,
            point.pressure,
            blower.efficiency,
            blower.motor_efficiency,
        );
        Self {
            point,
            speed,
            density: MassDensity::new::<kilogram_per_cubic_meter>(air),
            electric: rated.electric * (speed.value.powi(3) * air / CURVE_DENSITY),
        }
    }

    pub(super) fn step(&self, design: &Design) -> Step {
        let value = |quantity, si| Measure::new(quantity, si);
        let blower = &design.blower;
        Step {
            words: "The most that the blower takes with its knob fully turned: it draws cold air, as before each fire or with a lid open, anywhere on its curve",
            formula: "P = p Q / (η_f η_m) · s³ · ρ / ρ_c",
            values: vec![
                (
                    "p",
                    "pressure where its curve, as entered, gives most power",
                    value(Q::Pressure, self.point.pressure.value),
                ),
                ("Q", "flow there", value(Q::Flow, self.point.flow.value)),
                (
                    "η_f",
                    "fan efficiency",
                    value(Q::Share, blower.efficiency.value),
                ),
                (
                    "η_m",
                    "motor efficiency",
                    value(Q::Share, blower.motor_efficiency.value),
                ),
                (
                    "s",
                    "speed at full knob, of rated speed",
                    value(Q::Share, self.speed.value),
                ),
                ("ρ", "air outside", value(Q::Density, self.density.value)),
                (
                    "ρ_c",
                    "air that curves are drawn for",
                    value(Q::Density, CURVE_DENSITY),
                ),
            ],
            result: value(Q::Power, self.electric.value),
            source: FromMemory("affinity laws of fans: power grows with the cube of the speed"),
            sure: "As sure as curve and efficiencies; enter the curve as far as the blower goes. In colder air than that entered it takes more. Measure the current with the lid open.",
        }
    }
}
