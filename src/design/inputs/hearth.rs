//! The hearth: throat, nozzles, char bed.

use super::vessel::Material;
use crate::design::Choice as _;
use crate::design::Source::{CommonPractice, FromMemory, YourOwn};
use crate::design::celsius;
use crate::design::declare::{choice, choices, flag, number, record};
use crate::design::quantity::Quantity as Q;
use uom::si::f64::{Length, Ratio, ThermodynamicTemperature};

choices! {
    /// The two hearth types the tool knows.
    HearthKind {
        Constricted = "constricted", "Throat below nozzles";
        Straight = "straight", "Straight fire tube";
    }
}

choices! {
    /// What fire tube and cones are made of.
    HearthMaterial {
        MildSteel = "mild_steel", "Mild steel";
        Stainless304 = "stainless_304", "Stainless 304";
        Stainless310 = "stainless_310", "Stainless 310";
        DenseCastable = "dense_castable", "Dense castable";
    }
}

impl HearthMaterial {
    /// The same in the table of materials.
    pub fn material(self) -> Material {
        match self {
            HearthMaterial::MildSteel => Material::MildSteel,
            HearthMaterial::Stainless304 => Material::Stainless304,
            HearthMaterial::Stainless310 => Material::Stainless310,
            HearthMaterial::DenseCastable => Material::DenseCastable,
        }
    }
}

choices! {
    /// What nozzles and grate are made of.
    FireSteel {
        MildSteel = "mild_steel", "Mild steel";
        Stainless304 = "stainless_304", "Stainless 304";
        Stainless310 = "stainless_310", "Stainless 310";
    }
}

impl FireSteel {
    /// The same in the table of materials.
    pub fn material(self) -> Material {
        match self {
            FireSteel::MildSteel => Material::MildSteel,
            FireSteel::Stainless304 => Material::Stainless304,
            FireSteel::Stainless310 => Material::Stainless310,
        }
    }
}

const TABLE: crate::design::Source = FromMemory("SERI/SP-271-3022 (1988), table 5-1");

record! {
    /// The hearth.
    Hearth {
        kind: HearthKind = choice(HearthKind::OPTIONS, "constricted"),
            "Hearth type", "A narrow throat under a ring of nozzles, or a straight tube open at the top.", CommonPractice;
        throat_diameter: Length = number(Q::Length, 0.060, (0.02, 0.6), (0.06, 0.2)),
            "Throat", "Narrowest bore below the nozzles, where the gas must pass the hottest char.", TABLE;
        nozzle_ring_diameter: Length = number(Q::Length, 0.268, (0.05, 1.5), (0.2, 0.4)),
            "Fire tube at the nozzles", "Inside diameter at the height of the air nozzles.", TABLE;
        below_throat_diameter: Length = number(Q::Length, 0.150, (0.03, 1.5), (0.15, 0.32)),
            "Below the throat", "Inside diameter of the cone's foot, where the reduction zone widens.", TABLE;
        nozzle_height: Length = number(Q::Length, 0.080, (0.02, 0.5), (0.08, 0.15)),
            "Nozzles above throat", "Height of the nozzle plane above the throat.", TABLE;
        reduction_height: Length = number(Q::Length, 0.256, (0.03, 1.0), (0.2, 0.4)),
            "Char below throat", "Depth of glowing char from throat to grate, where gas is made.", TABLE;
        nozzle_count: u32 = number(Q::Count, 5.0, (1.0, 15.0), (3.0, 9.0)),
            "Nozzles", "Number of air nozzles; an odd number keeps jets from meeting head-on.", TABLE;
        nozzle_bore: Length = number(Q::Thickness, 0.0075, (0.002, 0.06), (0.006, 0.02)),
            "Nozzle bore", "Inside diameter of each nozzle tip.", TABLE;
        nozzle_discharge: Ratio = number(Q::Number, 0.85, (0.5, 1.0), (0.8, 0.9)),
            "Nozzle discharge coefficient", "How freely air leaves the nozzle: 0.6 sharp edge, 0.8 to 0.9 rounded.", CommonPractice;
        tube_diameter: Length = number(Q::Length, 0.152, (0.02, 0.8), (0.05, 0.36)),
            "Fire tube bore", "Inside diameter of the straight fire tube.", FromMemory("Construction of a Simplified Wood Gas Generator, FEMA/ORNL 1989");
        tube_length: Length = number(Q::Length, 0.410, (0.1, 2.0), (0.4, 0.85)),
            "Fire tube length", "Length of the straight fire tube, open top to grate.", FromMemory("Construction of a Simplified Wood Gas Generator, FEMA/ORNL 1989");
        steel_thickness: Length = number(Q::Thickness, 0.005, (0.0005, 0.03), (0.003, 0.01)),
            "Fire tube wall", "Thickness of the hearth steel, or of what is cast in its place.", CommonPractice;
        material: HearthMaterial = choice(HearthMaterial::OPTIONS, "mild_steel"),
            "Hearth made of", "What fire tube and throat are made of: steel scales away where it is hot, cast refractory does not.", YourOwn;
        comes_out: bool = flag(false),
            "Fire tube comes out", "Fire tube and throat are bolted or hung in, so that worn ones are changed without cutting the vessel.", YourOwn;
        char_size: Length = number(Q::Length, 0.020, (0.002, 0.1), (0.01, 0.04)),
            "Char size", "Usual size of the char pieces between fire and grate.", CommonPractice;
        char_void_share: Ratio = number(Q::Share, 0.45, (0.3, 0.8), (0.4, 0.55)),
            "Gaps in the char", "Share of the char bed that is gap; fine char and ash close it.", CommonPractice;
        bed_fouling: f64 = number(Q::Number, 2.0, (1.0, 20.0), (1.0, 5.0)),
            "Bed fouling factor", "How many times the clean bed's resistance to expect after some hours of running.", CommonPractice;
        bed_temperature: ThermodynamicTemperature = number(Q::Temperature, celsius(900.0), (celsius(300.0), celsius(1400.0)), (celsius(700.0), celsius(1100.0))),
            "Gas temperature in the char", "Mean temperature of gas passing the char bed; hot gas is thin and resists more.", CommonPractice;
        engine_power: f64 = number(Q::EnginePower, 10_000.0, (200.0, 200_000.0), (1_000.0, 80_000.0)),
            "Engine power", "Shaft power on petrol of the engine it is meant for, for the fire tube table.", YourOwn;
        straight_below_nozzles: Length = number(Q::Length, 0.0, (0.0, 0.2), (0.0, 0.05)),
            "Straight below nozzles", "How far the fire tube goes straight on below the nozzle plane before the cone begins, so that the nozzle holes lie clear of the weld; 0 where it ends at the nozzles.", CommonPractice;
        nozzle_material: FireSteel = choice(FireSteel::OPTIONS, "mild_steel"),
            "Nozzles made of", "The steel of the nozzle tubes: their tips stand in the hottest of the fire.", YourOwn;
        built: bool = flag(false),
            "The hearth is built", "The fire tube is as it is, and so are throat and nozzles where it has them: a change of them is only told as another hearth, and they are neither bought, made nor paid for. As long as the engine is open, another engine is offered.", YourOwn;
        top_open: bool = flag(false),
            "Top open while it runs", "A straight fire tube has no nozzles: all its air comes down with the wood, so that the lid above it stays open while it runs. It is shut once it stops, to smother the fire.", FromMemory("Construction of a Simplified Wood Gas Generator, FEMA/ORNL 1989");
    }
}

impl Hearth {
    /// Whether all air for the fire comes down through the wood: a straight tube has no nozzles.
    ///
    /// ```
    /// use hearthplan::design::Design;
    /// assert!(!Design::default().hearth.draws_from_top());
    /// ```
    pub fn draws_from_top(&self) -> bool {
        self.kind == HearthKind::Straight
    }
}
