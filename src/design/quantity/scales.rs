//! Which units each quantity is read in, and which ones each system shows it in.

use super::Quantity as Q;
use super::units::*;

/// A unit to show a quantity in, from this absolute SI value upwards.
pub(super) struct Step {
    pub from: f64,
    pub unit: Unit,
}

/// How one quantity is named, read and shown.
pub(super) struct Scale {
    /// What the quantity is called in a sentence, with its article.
    pub noun: &'static str,
    /// All units that can be typed.
    pub accepted: &'static [Unit],
    /// The unit of a number typed without one: metric, inch.
    pub field: [Unit; 2],
    /// The units it is shown in, rising: metric, inch.
    pub shown: [&'static [Step]; 2],
    /// Most decimals that mean anything.
    pub decimals: usize,
}

const fn scale(
    noun: &'static str,
    accepted: &'static [Unit],
    decimals: usize,
    metric: Unit,
    inch: Unit,
    shown: [&'static [Step]; 2],
) -> Scale {
    Scale {
        noun,
        accepted,
        field: [metric, inch],
        shown,
        decimals,
    }
}

/// A scale shown in the units its field has.
macro_rules! plain {
    ($noun:literal, $accepted:expr, $decimals:expr, $metric:expr, $inch:expr) => {
        scale(
            $noun,
            $accepted,
            $decimals,
            $metric,
            $inch,
            [
                &[Step {
                    from: 0.0,
                    unit: $metric,
                }],
                &[Step {
                    from: 0.0,
                    unit: $inch,
                }],
            ],
        )
    };
}

/// A scale shown in larger units for larger values.
macro_rules! stepped {
    ($noun:literal, $accepted:expr, $decimals:expr, $metric:expr => [$($mf:expr, $mu:expr);+], $inch:expr => [$($if:expr, $iu:expr);+]) => {
        scale($noun, $accepted, $decimals, $metric, $inch, [
            &[$(Step { from: $mf, unit: $mu }),+],
            &[$(Step { from: $if, unit: $iu }),+],
        ])
    };
}

/// Decimals are only limited by significant digits.
pub(super) const ANY: usize = 12;

/// How a quantity is named, read and shown.
pub(super) const fn scale_of(quantity: Q) -> Scale {
    match quantity {
        Q::Length => plain!("a length", LENGTHS, 1, MM, IN),
        // A grain or a bump in micrometres, as filters are sold by; nothing at all is no micrometres.
        Q::Thickness => stepped!("a thickness", LENGTHS, ANY,
            MM => [0.0, MM; 1e-9, UM; 1e-4, MM], IN => [0.0, IN; 1e-9, UM; 1e-4, IN]),
        Q::Grain => plain!("a size of grains", LENGTHS, ANY, UM, UM),
        Q::Hole => plain!("a length", LENGTHS, ANY, MM, IN),
        Q::Bore => plain!("a diameter", LENGTHS, 3, MM, IN),
        Q::Distance => plain!("a distance", LENGTHS, 2, M, FT),
        Q::Area => {
            stepped!("an area", AREAS, ANY, M2 => [0.0, CM2; 0.1, M2], FT2 => [0.0, IN2; 0.1, FT2])
        }
        Q::WireSection => plain!("an area", AREAS, ANY, MM2, MM2),
        Q::Volume => plain!("a volume", VOLUMES, ANY, L, GAL),
        Q::RoomVolume => plain!("a volume", VOLUMES, ANY, M3, FT3),
        Q::Displacement => plain!("a volume", DISPLACEMENTS, ANY, L, IN3),
        Q::Mass => plain!("a weight", MASSES, ANY, KG, LB),
        Q::Heft => plain!("a weight", MASSES, 0, KG, LB),
        Q::Force => plain!("a force", FORCES, ANY, N, LBF),
        Q::MechanicalEnergy => plain!("an energy", ENERGIES, ANY, J, FT_LBF),
        Q::HeatEnergy => stepped!("an amount of heat", ENERGIES, ANY,
            MJ => [0.0, KJ; 1e5, MJ], KILOWATT_HOUR => [0.0, KILOWATT_HOUR]),
        Q::Temperature => plain!("a temperature", TEMPERATURES, 1, CELSIUS, FAHRENHEIT),
        Q::TemperatureDifference => plain!(
            "a temperature difference",
            TEMPERATURE_DIFFERENCES,
            1,
            KELVIN_STEP,
            FAHRENHEIT_STEP
        ),
        Q::Pressure => {
            stepped!("a pressure", PRESSURES, ANY, PA => [0.0, PA; 1e4, KPA], IN_WATER => [0.0, IN_WATER])
        }
        Q::Flow => plain!("a flow", FLOWS, ANY, M3_H, CFM),
        Q::NormalFlow => plain!("a gas flow at 0 °C", NORMAL_FLOWS, ANY, NM3_H, CFM_COLD),
        // Dust is a fraction of a gram; nothing at all is no grams.
        Q::MassFlow => stepped!("a weight per time", MASS_FLOWS, ANY,
            KG_H => [0.0, KG_H; 1e-18, G_H; 2.7e-7, KG_H], LB_H => [0.0, LB_H]),
        Q::Velocity => plain!("a speed", VELOCITIES, ANY, M_S, FT_S),
        Q::Wind => plain!("a wind speed", VELOCITIES, ANY, M_S, MPH),
        Q::Power => {
            stepped!("a power", POWERS, ANY, W => [0.0, W; 1e3, KW], W => [0.0, W; 1e3, KW])
        }
        Q::EnginePower => plain!("a power", POWERS, ANY, KW, HP),
        Q::HeatFlux => stepped!("a heat flow per area", HEAT_FLUXES, ANY,
            KW_M2 => [0.0, W_M2; 1e3, KW_M2], BTU_H_FT2 => [0.0, BTU_H_FT2]),
        Q::Conductivity => plain!("a conductivity", CONDUCTIVITIES, ANY, W_MK, BTU_IN),
        Q::HeatTransferCoefficient => {
            plain!(
                "a heat transfer coefficient",
                HEAT_TRANSFER_COEFFICIENTS,
                ANY,
                W_M2K,
                BTU_H_FT2_F
            )
        }
        Q::HeatCapacity => plain!("a heat capacity", HEAT_CAPACITIES, ANY, J_KGK, BTU_LB_F),
        Q::Density => plain!("a density", DENSITIES, ANY, KG_M3, LB_FT3),
        Q::DustLoad => plain!("a dust load", DUST_LOADS, ANY, G_NM3, GRAIN_FT3),
        Q::EnergyPerMass => plain!(
            "an energy per weight",
            ENERGIES_PER_MASS,
            ANY,
            MJ_KG,
            BTU_LB
        ),
        Q::EnergyPerVolume => plain!(
            "an energy per volume",
            ENERGIES_PER_VOLUME,
            ANY,
            MJ_NM3,
            BTU_FT3
        ),
        Q::VolumePerMass => plain!(
            "a gas volume per weight",
            VOLUMES_PER_MASS,
            ANY,
            NM3_KG,
            FT3_LB
        ),
        Q::MassPerEnergy => plain!(
            "a weight per energy",
            MASSES_PER_ENERGY,
            ANY,
            KG_KWH,
            LB_KWH
        ),
        Q::Angle => plain!("an angle", ANGLES, 1, DEGREE, DEGREE),
        Q::Money => plain!("an amount of money", &[], ANY, NAMELESS, NAMELESS),
        Q::MassPrice => plain!("a price by weight", MASS_PRICES, ANY, PER_KG, PER_LB),
        Q::Share => plain!("a share in percent", &[PERCENT], 1, PERCENT, PERCENT),
        Q::Number => plain!("a plain number", &[], ANY, NAMELESS, NAMELESS),
        Q::Count => plain!("a whole number", &[], 0, NAMELESS, NAMELESS),
        Q::Time => stepped!("a time", TIMES, 1,
            MINUTE => [0.0, SECOND; 90.0, MINUTE; 7200.0, HOUR], MINUTE => [0.0, SECOND; 90.0, MINUTE; 7200.0, HOUR]),
        Q::LongTime => stepped!("a time", TIMES, 1,
            HOUR => [0.0, SECOND; 90.0, MINUTE; 7200.0, HOUR], HOUR => [0.0, SECOND; 90.0, MINUTE; 7200.0, HOUR]),
        Q::Speed => plain!("a turning speed", SPEEDS, 0, RPM, RPM),
        Q::Voltage => plain!("a voltage", VOLTAGES, ANY, VOLT, VOLT),
        Q::Current => plain!("a current", CURRENTS, ANY, AMPERE, AMPERE),
        Q::Charge => plain!("a battery charge", CHARGES, ANY, AMPERE_HOUR, AMPERE_HOUR),
        Q::HearthLoad => plain!("a hearth load", HEARTH_LOADS, ANY, HEARTH_LOAD, CFM_IN2),
    }
}
