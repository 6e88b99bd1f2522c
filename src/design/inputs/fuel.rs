//! The wood, the making of gas from it, and what was measured.

use crate::design::Choice as _;
use crate::design::Source::{CommonPractice, FromMemory, OwnMark, YourOwn};
use crate::design::celsius;
use crate::design::declare::{choice, choices, number, optional, record};
use crate::design::quantity::Quantity as Q;
use uom::si::f64::{
    Length, Mass, MassDensity, Ratio, ThermalConductivity, ThermodynamicTemperature,
};

choices! {
    /// What is burned.
    FuelKind {
        Softwood = "softwood", "Softwood";
        Hardwood = "hardwood", "Hardwood";
        Charcoal = "charcoal", "Charcoal";
        NutShells = "nut_shells", "Nut shells";
        Densified = "densified_wood", "Pellets or briquettes of wood";
        Own = "own", "Own analysis";
    }
}

choices! {
    /// What fixes the air.
    AirRule {
        CharLimited = "char_limited", "All char is used up";
        AirHeld = "air_held", "The air is known";
    }
}

const ANALYSIS: crate::design::Source =
    FromMemory("Gaur and Reed, Thermal Data for Natural and Synthetic Fuels, 1998; softwood");

record! {
    /// The fuel as loaded.
    Fuel {
        kind: FuelKind = choice(FuelKind::OPTIONS, "softwood"),
            "Kind of wood", "Sets carbon, hydrogen, oxygen and ash; woods differ little, charcoal much. With an analysis of your own, choose that.", YourOwn;
        carbon: Ratio = number(Q::Share, 0.500, (0.2, 0.98), (0.45, 0.55)),
            "Carbon", "Share of the dry weight, from a laboratory. All six must add up to 100 %.", ANALYSIS;
        hydrogen: Ratio = number(Q::Share, 0.061, (0.0, 0.12), (0.05, 0.07)),
            "Hydrogen", "Share of the dry weight.", ANALYSIS;
        oxygen: Ratio = number(Q::Share, 0.433, (0.0, 0.55), (0.38, 0.45)),
            "Oxygen", "Share of the dry weight, usually what is left over.", ANALYSIS;
        nitrogen: Ratio = number(Q::Share, 0.001, (0.0, 0.12), (0.0, 0.01)),
            "Nitrogen", "Share of the dry weight.", ANALYSIS;
        sulphur: Ratio = number(Q::Share, 0.0, (0.0, 0.06), (0.0, 0.002)),
            "Sulphur", "Share of the dry weight.", ANALYSIS;
        ash: Ratio = number(Q::Share, 0.005, (0.0, 0.5), (0.002, 0.03)),
            "Ash", "Share of the dry weight that does not burn. Much ash melts to slag in the fire.", ANALYSIS;
        moisture: Ratio = number(Q::Share, 0.15, (0.0, 0.6), (0.05, 0.25)),
            "Moisture", "Water as a share of the weight as loaded. Air-dry under a roof: wood about 15 % (50 % fresh from the tree), nut shells 10 %, pellets 8 %, charcoal 5 %.", CommonPractice;
        weighed_before: Option<Mass> = optional(Q::Mass, (0.001, 50.0), (0.1, 5.0)),
            "Weight before drying", "No meter? Weigh a sample, dry it at 105 °C (221 °F) until it gets no lighter, weigh it again. Both weights together replace the moisture above.", YourOwn;
        weighed_after: Option<Mass> = optional(Q::Mass, (0.001, 50.0), (0.1, 5.0)),
            "Weight after drying", "The same sample, bone dry.", YourOwn;
        scale_step: Mass = number(Q::Mass, 0.001, (0.0, 1.0), (0.0001, 0.01)),
            "Step of the scale", "The smallest step your scale shows. It says how far the moisture can be off.", YourOwn;
        bulk_density: Option<MassDensity> = optional(Q::Density, (50.0, 800.0), (150.0, 350.0)),
            "Bulk density", "Weight of a heaped container of wood pieces divided by its volume. Empty: what is usual for this kind, 200 kg/m³ (12.5 lb/ft³) for softwood.", FromMemory("FAO Forestry Paper 72, section 2.3");
        piece_size: Length = number(Q::Length, 0.040, (0.003, 0.2), (0.01, 0.08)),
            "Piece size", "Usual edge of a wood piece.", CommonPractice;
        void_share: Ratio = number(Q::Share, 0.45, (0.3, 0.8), (0.35, 0.6)),
            "Gaps between pieces", "Share of a heap that is air, not wood.", CommonPractice;
    }
}

record! {
    /// How wood becomes gas.
    GasMaking {
        air_rule: AirRule = choice(AirRule::OPTIONS, "char_limited"),
            "What sets the air", "A hearth that is full of char takes as much air as it needs to use it up: lost heat then costs gas quality. Charcoal and other fuels with little smoke may bear their heat with less air; the char left over is then told. Choose the other only if you measured air and wood.", OwnMark("published measurements of small hearths lie nearer the first");
        freeze_temperature: ThermodynamicTemperature = number(Q::Temperature, celsius(800.0), (celsius(600.0), celsius(1000.0)), (celsius(700.0), celsius(900.0))),
            "Gas stops changing at", "Below this temperature the reactions in the char are too slow and the gas stays as it is.", FromMemory("Zainal et al., Energy Conversion and Management 42, 2001");
        equivalence_ratio: Ratio = number(Q::Number, 0.35, (0.05, 1.0), (0.25, 0.5)),
            "Air over air of full burning", "Measured air divided by the air that would burn all of the wood; good hearths need 0.25 to 0.4.", CommonPractice;
        char_drawn: Ratio = number(Q::Share, 0.03, (0.0, 0.5), (0.01, 0.06)),
            "Char lost at the grate", "Share of the dry wood that falls through the grate as char.", CommonPractice;
        char_share: Option<Ratio> = optional(Q::Share, (0.02, 0.95), (0.18, 0.3)),
            "Char from the wood", "Share of the dry wood that is left as char when it has smoked itself out. Empty: what is usual for this kind, 22 % for softwood.", CommonPractice;
        char_conductivity: ThermalConductivity = number(Q::Conductivity, 1.5, (0.2, 10.0), (0.8, 3.0)),
            "Heat through glowing char", "How easily heat passes from the middle of the hearth to its wall, radiation included. Uncertain: try 0.8 and 3 W/(m·K) as well (5.5 and 21 BTU·in/(h·ft²·°F)), and see whether the verdict stands.", FromMemory("published values lie between 0.8 and 3 W/(m·K), 5.5 and 21 BTU·in/(h·ft²·°F)");
    }
}

record! {
    /// What was measured on the machine, to be set beside what is computed.
    Measured {
        load: Ratio = number(Q::Share, 1.0, (0.05, 1.0), (0.3, 1.0)),
            "Measured at", "Share of full load at which you measured.", YourOwn;
        hearth_temperature: Option<ThermodynamicTemperature> = optional(Q::Temperature, (celsius(100.0), celsius(1700.0)), (celsius(900.0), celsius(1300.0))),
            "Hearth temperature", "A thermocouple in a ceramic tube in the fire: at the height of the nozzles, where there are any. It leaves nothing but the number: the tool does not change its result by it.", YourOwn;
        gas_exit_temperature: Option<ThermodynamicTemperature> = optional(Q::Temperature, (celsius(50.0), celsius(1100.0)), (celsius(300.0), celsius(850.0))),
            "Gas leaving the char", "Temperature just under the grate.", YourOwn;
        carbon_monoxide: Option<Ratio> = optional(Q::Share, (0.0, 0.5), (0.15, 0.25)),
            "Carbon monoxide", "CO in the dry gas by volume, from a gas analysis.", YourOwn;
        hydrogen: Option<Ratio> = optional(Q::Share, (0.0, 0.5), (0.12, 0.22)),
            "Hydrogen", "H₂ in the dry gas by volume.", YourOwn;
        carbon_dioxide: Option<Ratio> = optional(Q::Share, (0.0, 0.4), (0.08, 0.15)),
            "Carbon dioxide", "CO₂ in the dry gas by volume.", YourOwn;
        methane: Option<Ratio> = optional(Q::Share, (0.0, 0.3), (0.0, 0.04)),
            "Methane", "CH₄ in the dry gas by volume.", YourOwn;
        oxygen: Option<Ratio> = optional(Q::Share, (0.0, 0.21), (0.0, 0.02)),
            "Oxygen", "O₂ in the dry gas by volume. It tells of a leak: more than 2 % is a warning, 4 % is dangerous.", YourOwn;
    }
}
