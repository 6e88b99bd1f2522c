//! How far usual knowledge of an input may be off, unless a person says otherwise.
//!
//! One row an input; `*` stands for any place in a list. What is not named here counts as exact.

use super::spread::{PlusMinus, UsualSpread};
use super::{Source, Source::CommonPractice, Source::FromMemory, Source::OwnMark};

const WEIGHED: Source = OwnMark("a bathroom or luggage scale, or a maker's plate");
const MEASURED_PRESSURE: Source = OwnMark("read from a water column that moves");
const DATA_SHEETS: Source = OwnMark("spread of makers' data sheets, and of building it in");
const GUESSED: Source = OwnMark("seldom measured, mostly guessed");

const fn row(path: &'static str, plus_minus: PlusMinus, source: Source) -> UsualSpread {
    UsualSpread {
        path,
        plus_minus,
        source,
    }
}

use PlusMinus::{By, Share, Times};

/// The rows.
pub(super) const USUAL: &[UsualSpread] = &[
    // Wood.
    row("fuel.moisture", By(0.03), CommonPractice),
    row("fuel.weighed_before", Share(0.005), WEIGHED),
    row("fuel.weighed_after", Share(0.005), WEIGHED),
    row("fuel.bulk_density", Share(0.10), CommonPractice),
    row("fuel.piece_size", Share(0.15), CommonPractice),
    row(
        "fuel.void_share",
        By(0.04),
        FromMemory("Ergun, Chem. Eng. Prog. 48, 1952: packed beds differ by about this"),
    ),
    // Tables.
    row("doubt.insulation_conductivity", Share(0.25), DATA_SHEETS),
    row(
        "doubt.wood_heat",
        Share(0.05),
        FromMemory("Channiwala and Parikh, Fuel 81, 2002, and the spread between woods"),
    ),
    // Making gas.
    row(
        "gas_making.char_conductivity",
        Times(2.0),
        FromMemory("published values lie between 0.8 and 3 W/(m·K), 5.5 and 21 BTU·in/(h·ft²·°F)"),
    ),
    row(
        "gas_making.freeze_temperature",
        By(50.0),
        FromMemory("Zainal et al., Energy Conversion and Management 42, 2001"),
    ),
    row("gas_making.char_drawn", By(0.01), GUESSED),
    row("gas_making.char_share", By(0.03), CommonPractice),
    row("gas_making.equivalence_ratio", Share(0.10), CommonPractice),
    // Hearth.
    row("hearth.nozzle_discharge", By(0.05), CommonPractice),
    row("hearth.char_size", Share(0.25), GUESSED),
    row("hearth.char_void_share", By(0.05), CommonPractice),
    row("hearth.bed_fouling", Times(1.5), GUESSED),
    row("hearth.bed_temperature", By(75.0), GUESSED),
    // Shell.
    row(
        "hearth_layers.*.thickness",
        Share(0.05),
        OwnMark("a blanket gives under the hand"),
    ),
    row(
        "body_layers.*.thickness",
        Share(0.05),
        OwnMark("a blanket gives under the hand"),
    ),
    row(
        "lid_layers.*.thickness",
        Share(0.05),
        OwnMark("a blanket gives under the hand"),
    ),
    row(
        "bottom_layers.*.thickness",
        Share(0.05),
        OwnMark("a blanket gives under the hand"),
    ),
    row("body_wall.inner_temperature", By(75.0), GUESSED),
    row("lid.inner_temperature", By(50.0), GUESSED),
    row("bottom.inner_temperature", By(75.0), GUESSED),
    row("hearth_wall.outer_emittance", By(0.05), CommonPractice),
    row("body_wall.outer_emittance", By(0.05), CommonPractice),
    row("lid.outer_emittance", By(0.05), CommonPractice),
    row("bottom.outer_emittance", By(0.05), CommonPractice),
    // Engine.
    row("engine.volumetric_efficiency", By(0.05), CommonPractice),
    row("engine.brake_efficiency", By(0.02), CommonPractice),
    row("engine.petrol_efficiency", By(0.02), CommonPractice),
    row("engine.generator_efficiency", By(0.05), CommonPractice),
    row("engine.intake_temperature", By(10.0), CommonPractice),
    row("operation.full_gas_flow", Share(0.10), GUESSED),
    row("operation.startup_share", Share(0.15), GUESSED),
    // Standing.
    row("parts.*.mass", Share(0.05), WEIGHED),
    row("parts.*.density", Share(0.10), CommonPractice),
    row("parts.*.z", By(0.01), OwnMark("a tape held by hand")),
    row(
        "hopper.drag",
        Share(0.20),
        FromMemory("Hoerner, Fluid-Dynamic Drag"),
    ),
    row(
        "base.anchors",
        Share(0.30),
        OwnMark("ground holds otherwise wet, dry and frozen"),
    ),
    // Gas path.
    row("raw_gas.temperature", By(40.0), GUESSED),
    row("raw_gas.dust_load", Times(2.0), GUESSED),
    row("raw_gas.dust_size", Times(1.5), GUESSED),
    row("raw_gas.tar_dew_point", By(30.0), GUESSED),
    row(
        "train.*.roughness",
        Times(2.0),
        FromMemory("Moody, Trans. ASME 66, 1944"),
    ),
    row("train.*.other_loss", Share(0.25), CommonPractice),
    row("train.*.insulation_conductivity", Share(0.25), DATA_SHEETS),
    row("train.*.grain_density", Share(0.15), CommonPractice),
    row("train.*.header_loss", Share(0.25), CommonPractice),
    row("train.*.air_speed", Share(0.15), GUESSED),
    row("train.*.water_temperature", By(5.0), CommonPractice),
    row("train.*.water_coefficient", Times(1.5), CommonPractice),
    row("train.*.filter_piece", Share(0.25), GUESSED),
    row(
        "train.*.filter_voids",
        By(0.04),
        FromMemory("Ergun, Chem. Eng. Prog. 48, 1952: packed beds differ by about this"),
    ),
    row("train.*.dirty_factor", Times(1.5), GUESSED),
    row("train.*.cloth_loss", Share(0.2), CommonPractice),
    row("train.*.cake_loss", Times(1.5), GUESSED),
    // Blower, battery, loads.
    row("loads.*.power", Share(0.10), CommonPractice),
    row("battery_box.sheet_emittance", Times(1.5), CommonPractice),
    row("blower.efficiency", By(0.07), CommonPractice),
    row("blower.motor_efficiency", By(0.07), CommonPractice),
    row("blower.flare_drop", Share(0.20), MEASURED_PRESSURE),
    row(
        "blower_curve.*.pressure",
        Share(0.05),
        OwnMark("makers' curves are of good days"),
    ),
    row(
        "battery.capacity",
        Share(0.10),
        OwnMark("a battery in use has lost some"),
    ),
    row("battery.peukert", By(0.05), CommonPractice),
    row("battery.usable_share", By(0.05), CommonPractice),
    row("battery.left_with_age", By(0.10), CommonPractice),
];
