//! The table of units.
//!
//! Factors: NIST Special Publication 811 (2008), appendix B. The inch of water is the conventional
//! one (water at 4 °C), the gallon is the US liquid gallon, the horsepower is 550 ft·lbf/s.

/// A unit: SI value = entered value × factor + offset.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// How it is written when shown.
    pub symbol: &'static str,
    /// Other ways to write it; upper and lower case are one, and so are `m3` and `m³`.
    pub names: &'static [&'static str],
    /// SI value of one.
    pub factor: f64,
    /// SI value of zero.
    pub offset: f64,
    /// Symbol of the unit meant by a bare number behind this one, as inches behind feet.
    pub followed_by: Option<&'static str>,
}

const fn unit(symbol: &'static str, factor: f64, names: &'static [&'static str]) -> Unit {
    Unit {
        symbol,
        names,
        factor,
        offset: 0.0,
        followed_by: None,
    }
}

impl Unit {
    const fn with_offset(self, offset: f64) -> Self {
        Self { offset, ..self }
    }
    const fn then(self, symbol: &'static str) -> Self {
        Self {
            followed_by: Some(symbol),
            ..self
        }
    }
}

const INCH: f64 = 0.0254;
const FOOT: f64 = 12.0 * INCH;
const POUND: f64 = 0.453_592_37;
const POUND_FORCE: f64 = POUND * 9.806_65;
const BTU: f64 = 1_055.055_852_62;
const RANKINE: f64 = 5.0 / 9.0;
const KWH: f64 = 3.6e6;
const HORSEPOWER: f64 = 550.0 * FOOT * POUND_FORCE;
pub(super) const NAMELESS: Unit = unit("", 1.0, &[]);

pub(super) const MM: Unit = unit(
    "mm",
    0.001,
    &["millimetre", "millimetres", "millimeter", "millimeters"],
);
pub(super) const UM: Unit = unit(
    "µm",
    1e-6,
    &[
        "um",
        "micron",
        "microns",
        "micrometre",
        "micrometres",
        "micrometer",
        "micrometers",
    ],
);
pub(super) const CM: Unit = unit(
    "cm",
    0.01,
    &["centimetre", "centimetres", "centimeter", "centimeters"],
);
pub(super) const M: Unit = unit("m", 1.0, &["metre", "metres", "meter", "meters"]);
pub(super) const IN: Unit = unit("in", INCH, &["\"", "''", "in.", "inch", "inches"]);
pub(super) const FT: Unit = unit("ft", FOOT, &["'", "ft.", "foot", "feet"]).then("in");
pub(super) const LENGTHS: &[Unit] = &[MM, CM, M, IN, FT, UM];

pub(super) const CM2: Unit = unit("cm²", 1e-4, &["sq cm"]);
pub(super) const M2: Unit = unit("m²", 1.0, &["sq m"]);
pub(super) const IN2: Unit = unit("in²", INCH * INCH, &["sq in"]);
pub(super) const FT2: Unit = unit("ft²", FOOT * FOOT, &["sq ft"]);
pub(super) const MM2: Unit = unit("mm²", 1e-6, &["sq mm"]);
pub(super) const AREAS: &[Unit] = &[MM2, CM2, M2, IN2, FT2];

pub(super) const L: Unit = unit("L", 0.001, &["litre", "litres", "liter", "liters"]);
pub(super) const GAL: Unit = unit(
    "gal",
    231.0 * INCH * INCH * INCH,
    &["gallon", "gallons", "us gal"],
);
pub(super) const IN3: Unit = unit(
    "in³",
    INCH * INCH * INCH,
    &["cu in", "cu in.", "cu. in.", "cid", "ci", "cubic inches"],
);
pub(super) const M3: Unit = unit("m³", 1.0, &[]);
pub(super) const FT3: Unit = unit("ft³", FOOT * FOOT * FOOT, &["cu ft"]);
pub(super) const VOLUMES: &[Unit] = &[
    L,
    unit("mL", 1e-6, &["cm³", "cc", "ccm"]),
    M3,
    GAL,
    IN3,
    FT3,
];
// An engine's plate tells cubic centimetres, so that an error names them.
pub(super) const DISPLACEMENTS: &[Unit] = &[
    L,
    unit("cm³", 1e-6, &["cc", "ccm", "mL"]),
    IN3,
    M3,
    GAL,
    FT3,
];

pub(super) const KG: Unit = unit(
    "kg",
    1.0,
    &["kilo", "kilos", "kilogram", "kilograms", "kgs"],
);
pub(super) const LB: Unit = unit("lb", POUND, &["lbs", "lb.", "lbm", "pound", "pounds"]).then("oz");
pub(super) const MASSES: &[Unit] = &[
    KG,
    unit("g", 0.001, &["gram", "grams"]),
    unit("t", 1000.0, &["tonne", "tonnes"]),
    LB,
    unit("oz", POUND / 16.0, &["ounce", "ounces"]),
];

pub(super) const PER_KG: Unit = unit("per kg", 1.0, &["/kg", "a kg", "per kilogram"]);
pub(super) const PER_LB: Unit = unit(
    "per lb",
    1.0 / POUND,
    &["/lb", "/lbs", "a lb", "per lbs", "per pound", "a pound"],
);
pub(super) const MASS_PRICES: &[Unit] = &[PER_KG, PER_LB];

pub(super) const N: Unit = unit("N", 1.0, &["newton", "newtons"]);
// A push is often taken with a hanging scale, so its kilograms and pounds are read as force.
pub(super) const LBF: Unit = unit("lbf", POUND_FORCE, &["lb", "lbs", "pound", "pounds"]);
pub(super) const FORCES: &[Unit] = &[
    N,
    unit("kN", 1000.0, &[]),
    unit("kgf", 9.806_65, &["kg", "kp"]),
    LBF,
];

pub(super) const J: Unit = unit("J", 1.0, &["joule", "joules", "N·m", "Nm"]);
pub(super) const FT_LBF: Unit = unit(
    "ft·lbf",
    FOOT * POUND_FORCE,
    &[
        "ft lbf", "ftlbf", "ft-lbf", "ft lb", "ft·lb", "ft-lb", "ftlb",
    ],
);
pub(super) const KJ: Unit = unit("kJ", 1000.0, &[]);
pub(super) const MJ: Unit = unit("MJ", 1e6, &[]);
pub(super) const KILOWATT_HOUR: Unit = unit("kWh", KWH, &[]);
pub(super) const ENERGIES: &[Unit] = &[
    J,
    KJ,
    MJ,
    unit("Wh", 3600.0, &[]),
    KILOWATT_HOUR,
    FT_LBF,
    unit("BTU", BTU, &[]),
];

pub(super) const CELSIUS: Unit =
    unit("°C", 1.0, &["C", "deg C", "℃", "celsius"]).with_offset(273.15);
pub(super) const FAHRENHEIT: Unit =
    unit("°F", RANKINE, &["F", "deg F", "℉", "fahrenheit"]).with_offset(459.67 * RANKINE);
pub(super) const TEMPERATURES: &[Unit] = &[CELSIUS, FAHRENHEIT, unit("K", 1.0, &["kelvin"])];
pub(super) const KELVIN_STEP: Unit = unit("K", 1.0, &["kelvin", "°C", "C", "deg C", "℃"]);
pub(super) const FAHRENHEIT_STEP: Unit = unit("°F", RANKINE, &["F", "deg F", "℉"]);

pub(super) const PA: Unit = unit("Pa", 1.0, &["N/m²"]);
pub(super) const KPA: Unit = unit("kPa", 1000.0, &[]);
pub(super) const IN_WATER: Unit = unit(
    "inH₂O",
    249.088_91,
    &[
        "in H2O", "\"H2O", "\" H2O", "inwc", "in wc", "in w.c.", "in. w.c.", "in. wc", "\"wc",
        "\" wc", "inwg", "in wg",
    ],
);
pub(super) const PSI: Unit = unit("psi", POUND_FORCE / (INCH * INCH), &[]);
pub(super) const PRESSURES: &[Unit] = &[
    PA,
    unit("hPa", 100.0, &[]),
    KPA,
    unit("mbar", 100.0, &["millibar"]),
    unit("bar", 1e5, &[]),
    IN_WATER,
    unit("mmH₂O", 9.806_65, &["mm H2O", "mmwc", "mm wc"]),
    unit("cmH₂O", 98.066_5, &["cm H2O", "cmwc", "cm wc"]),
    PSI,
];

const PER_HOUR: f64 = 1.0 / 3600.0;
const CUBIC_FOOT_PER_MINUTE: f64 = FOOT * FOOT * FOOT / 60.0;
pub(super) const M3_H: Unit = unit("m³/h", PER_HOUR, &["m3h", "m3/hr", "cmh"]);
pub(super) const CFM: Unit = unit("cfm", CUBIC_FOOT_PER_MINUTE, &["ft³/min"]);
pub(super) const FLOWS: &[Unit] = &[
    M3_H,
    unit("m³/min", 1.0 / 60.0, &[]),
    unit("m³/s", 1.0, &[]),
    unit("L/min", 0.001 / 60.0, &["lpm"]),
    unit("L/s", 0.001, &[]),
    unit("L/h", 0.001 * PER_HOUR, &[]),
    CFM,
];
pub(super) const NM3_H: Unit = unit("Nm³/h", PER_HOUR, &["m³/h", "m3n/h", "Nm3h", "m3h"]);
pub(super) const CFM_COLD: Unit = unit(
    "cfm at 32 °F",
    CUBIC_FOOT_PER_MINUTE,
    &["cfm at 0 °C", "cfm", "Ncfm", "ft³/min"],
);
pub(super) const NORMAL_FLOWS: &[Unit] = &[
    NM3_H,
    unit("NL/min", 0.001 / 60.0, &["L/min"]),
    unit("NL/s", 0.001, &["L/s"]),
    unit("Nm³/s", 1.0, &["m³/s"]),
    CFM_COLD,
];
pub(super) const KG_H: Unit = unit("kg/h", PER_HOUR, &["kg/hr"]);
pub(super) const G_H: Unit = unit("g/h", 0.001 * PER_HOUR, &["g/hr"]);
pub(super) const LB_H: Unit = unit("lb/h", POUND * PER_HOUR, &["lb/hr", "lbs/h", "lbs/hr"]);
pub(super) const MASS_FLOWS: &[Unit] = &[
    KG_H,
    unit("kg/s", 1.0, &[]),
    unit("g/s", 0.001, &[]),
    unit("g/min", 0.001 / 60.0, &[]),
    G_H,
    LB_H,
    // What flows by weight here and is entered is cooling water: a litre of it is taken as a kilogram.
    unit("L/min", 1.0 / 60.0, &["lpm"]),
    unit("L/h", PER_HOUR, &[]),
    unit("L/s", 1.0, &[]),
    unit("gpm", 3.785_411_784 / 60.0, &["gal/min"]),
];

pub(super) const M_S: Unit = unit("m/s", 1.0, &[]);
pub(super) const FT_S: Unit = unit("ft/s", FOOT, &["fps"]);
pub(super) const MPH: Unit = unit("mph", 5280.0 * FOOT * PER_HOUR, &[]);
pub(super) const VELOCITIES: &[Unit] = &[
    M_S,
    unit("km/h", 1.0 / 3.6, &["kph", "kmh"]),
    FT_S,
    unit("ft/min", FOOT / 60.0, &["fpm"]),
    MPH,
];

pub(super) const W: Unit = unit("W", 1.0, &["watt", "watts"]);
pub(super) const KW: Unit = unit("kW", 1000.0, &["kilowatt", "kilowatts"]);
pub(super) const HP: Unit = unit("hp", HORSEPOWER, &["horsepower"]);
pub(super) const POWERS: &[Unit] = &[
    W,
    KW,
    HP,
    unit("PS", 735.498_75, &["metric hp"]),
    unit("BTU/h", BTU * PER_HOUR, &["BTU/hr"]),
];
pub(super) const W_M2: Unit = unit("W/m²", 1.0, &["W/m2"]);
pub(super) const KW_M2: Unit = unit("kW/m²", 1000.0, &[]);
pub(super) const BTU_H_FT2: Unit = unit(
    "BTU/(h·ft²)",
    BTU * PER_HOUR / (FOOT * FOOT),
    &["BTU/hr·ft²", "BTU/h·ft²", "BTU/(hr·ft²)"],
);
pub(super) const W_MK: Unit = unit(
    "W/(m·K)",
    1.0,
    &["W/mK", "W/m·K", "W/m/K", "W/m K", "W/(mK)", "W/(m K)"],
);
// As data sheets of insulation have it: through a square foot an inch thick.
pub(super) const BTU_IN: Unit = unit(
    "BTU·in/(h·ft²·°F)",
    BTU * INCH * PER_HOUR / (FOOT * FOOT * RANKINE),
    &[
        "BTU·in/h·ft²·°F",
        "BTU·in/(hr·ft²·°F)",
        "BTU·in/hr·ft²·°F",
        "BTU in/hr ft² F",
        "BTU in/(hr ft² F)",
    ],
);
pub(super) const CONDUCTIVITIES: &[Unit] = &[
    W_MK,
    BTU_IN,
    unit(
        "BTU/(h·ft·°F)",
        BTU * PER_HOUR / (FOOT * RANKINE),
        &[
            "BTU/h·ft·°F",
            "BTU/(hr·ft·°F)",
            "BTU/hr·ft·°F",
            "BTU/hr ft F",
        ],
    ),
];
pub(super) const W_M2K: Unit = unit("W/(m²·K)", 1.0, &["W/m2K", "W/m²·K", "W/m2/K", "W/m² K"]);
pub(super) const BTU_H_FT2_F: Unit = unit(
    "BTU/(h·ft²·°F)",
    BTU * PER_HOUR / (FOOT * FOOT * RANKINE),
    &[
        "BTU/h·ft²·°F",
        "BTU/(hr·ft²·°F)",
        "BTU/hr·ft²·°F",
        "BTU/hr ft² F",
    ],
);
pub(super) const HEAT_TRANSFER_COEFFICIENTS: &[Unit] = &[W_M2K, BTU_H_FT2_F];
pub(super) const J_KGK: Unit = unit("J/(kg·K)", 1.0, &["J/kgK", "J/kg·K", "J/kg/K", "J/kg K"]);
pub(super) const BTU_LB_F: Unit = unit(
    "BTU/(lb·°F)",
    BTU / (POUND * RANKINE),
    &["BTU/lb·°F", "BTU/lb·F", "BTU/lbF", "BTU/lb F"],
);
pub(super) const HEAT_CAPACITIES: &[Unit] = &[
    J_KGK,
    unit(
        "kJ/(kg·K)",
        1000.0,
        &["kJ/kgK", "kJ/kg·K", "kJ/kg/K", "kJ/kg K"],
    ),
    BTU_LB_F,
];
pub(super) const KG_M3: Unit = unit("kg/m³", 1.0, &[]);
pub(super) const LB_FT3: Unit = unit(
    "lb/ft³",
    POUND / (FOOT * FOOT * FOOT),
    &["lbs/ft³", "pcf", "lb/cu ft"],
);
pub(super) const DENSITIES: &[Unit] = &[
    KG_M3,
    unit("g/cm³", 1000.0, &["g/cc", "g/ml"]),
    unit("kg/L", 1000.0, &[]),
    LB_FT3,
];
pub(super) const MJ_KG: Unit = unit("MJ/kg", 1e6, &[]);
pub(super) const BTU_LB: Unit = unit("BTU/lb", BTU / POUND, &[]);
pub(super) const ENERGIES_PER_MASS: &[Unit] = &[
    MJ_KG,
    unit("kJ/kg", 1000.0, &[]),
    unit("J/kg", 1.0, &[]),
    unit("kWh/kg", KWH, &[]),
    BTU_LB,
];
pub(super) const MJ_NM3: Unit = unit("MJ/Nm³", 1e6, &["MJ/m³"]);
// A cubic foot as cold as the normal cubic metre: at 60 °F, as fuel gas is sold, it would hold a twentieth less.
pub(super) const BTU_FT3: Unit = unit(
    "BTU/ft³ at 32 °F",
    BTU / (FOOT * FOOT * FOOT),
    &["BTU/ft³ at 0 °C", "BTU/ft³", "BTU/cu ft"],
);
pub(super) const ENERGIES_PER_VOLUME: &[Unit] = &[
    MJ_NM3,
    unit("kJ/Nm³", 1000.0, &["kJ/m³"]),
    unit("kWh/Nm³", KWH, &["kWh/m³"]),
    BTU_FT3,
];
pub(super) const G_NM3: Unit = unit("g/Nm³", 1e-3, &["g/m³"]);
pub(super) const GRAIN_FT3: Unit = unit(
    "grains/ft³ at 32 °F",
    POUND / 7000.0 / (FOOT * FOOT * FOOT),
    &["grains/ft³", "gr/ft³", "gr/cu ft"],
);
pub(super) const DUST_LOADS: &[Unit] = &[G_NM3, unit("mg/Nm³", 1e-6, &["mg/m³"]), GRAIN_FT3];
// Cubic metres and feet at 0 °C, dry.
pub(super) const NM3_KG: Unit = unit("Nm³/kg", 1.0, &["m³/kg"]);
pub(super) const FT3_LB: Unit = unit(
    "ft³/lb at 32 °F",
    FOOT * FOOT * FOOT / POUND,
    &["ft³/lb at 0 °C", "ft³/lb", "cu ft/lb"],
);
pub(super) const VOLUMES_PER_MASS: &[Unit] = &[NM3_KG, FT3_LB];
pub(super) const KG_KWH: Unit = unit("kg/kWh", 1.0 / KWH, &["kg per kWh"]);
pub(super) const LB_KWH: Unit = unit("lb/kWh", POUND / KWH, &["lb per kWh"]);
pub(super) const MASSES_PER_ENERGY: &[Unit] = &[
    KG_KWH,
    unit("g/kWh", 0.001 / KWH, &[]),
    unit("kg/MJ", 1e-6, &[]),
    LB_KWH,
    unit(
        "lb/(hp·h)",
        POUND / (HORSEPOWER * 3600.0),
        &["lb/hph", "lb/hp·h", "lb/hp-hr"],
    ),
];

pub(super) const DEGREE: Unit = unit(
    "°",
    std::f64::consts::PI / 180.0,
    &["deg", "degree", "degrees"],
);
pub(super) const PERCENT: Unit = unit("%", 0.01, &["percent", "pct"]);
pub(super) const SECOND: Unit = unit("s", 1.0, &["sec", "second", "seconds"]);
pub(super) const MINUTE: Unit = unit("min", 60.0, &["mins", "minute", "minutes"]).then("s");
pub(super) const HOUR: Unit = unit("h", 3600.0, &["hr", "hrs", "hour", "hours"]).then("min");
pub(super) const TIMES: &[Unit] = &[SECOND, MINUTE, HOUR, unit("d", 86_400.0, &["day", "days"])];
pub(super) const RPM: Unit = unit(
    "rpm",
    1.0 / 60.0,
    &["/min", "1/min", "min-1", "r/min", "rev/min"],
);
pub(super) const VOLT: Unit = unit("V", 1.0, &["volt", "volts"]);
pub(super) const AMPERE: Unit = unit("A", 1.0, &["amp", "amps"]);
pub(super) const AMPERE_HOUR: Unit = unit("Ah", 3600.0, &["A·h", "A h", "amp hours", "amp-hours"]);
pub(super) const HEARTH_LOAD: Unit = unit(
    "Nm³/(h·cm²)",
    PER_HOUR / 1e-4,
    &[
        "Nm³/h/cm²",
        "Nm³/h·cm²",
        "Nm³/hcm²",
        "m³/(h·cm²)",
        "m³/h/cm²",
        "m³/h·cm²",
        "m³/hcm²",
        "Nm³/h per cm²",
        "m³/h per cm²",
    ],
);

pub(super) const CFM_IN2: Unit = unit(
    "cfm/in² at 32 °F",
    CUBIC_FOOT_PER_MINUTE / (INCH * INCH),
    &["cfm/in²", "cfm per in²", "cfm/sq in"],
);
pub(super) const HEARTH_LOADS: &[Unit] = &[HEARTH_LOAD, M_S, CFM_IN2];

pub(super) const TEMPERATURE_DIFFERENCES: &[Unit] = &[KELVIN_STEP, FAHRENHEIT_STEP];
pub(super) const HEAT_FLUXES: &[Unit] = &[W_M2, KW_M2, BTU_H_FT2];
pub(super) const ANGLES: &[Unit] = &[DEGREE, unit("rad", 1.0, &[])];
pub(super) const SPEEDS: &[Unit] = &[RPM, unit("Hz", 1.0, &["/s", "1/s", "s-1"])];
pub(super) const VOLTAGES: &[Unit] = &[VOLT, unit("mV", 0.001, &[]), unit("kV", 1000.0, &[])];
pub(super) const CURRENTS: &[Unit] = &[AMPERE, unit("mA", 0.001, &[])];
pub(super) const CHARGES: &[Unit] = &[
    AMPERE_HOUR,
    unit("mAh", 3.6, &[]),
    unit("As", 1.0, &["coulomb"]),
];
