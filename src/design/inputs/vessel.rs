//! The vessel: walls, ends, layers, own materials, hopper.

use crate::design::Choice as _;
use crate::design::Source::{CommonPractice, FromMemory, YourOwn};
use crate::design::celsius;
use crate::design::declare::{choice, choices, flag, number, optional, record, text};
use crate::design::quantity::Quantity as Q;
use uom::si::f64::{
    Length, MassDensity, Ratio, SpecificHeatCapacity, ThermalConductivity, ThermodynamicTemperature,
};

choices! {
    /// Materials for layers and parts; properties stand in [`crate::design::materials`].
    Material {
        MildSteel = "mild_steel", "Mild steel";
        Stainless304 = "stainless_304", "Stainless 304";
        Stainless310 = "stainless_310", "Stainless 310";
        Aluminium = "aluminium", "Aluminium";
        CeramicBlanket1260 = "ceramic_blanket_1260", "Ceramic fibre blanket, 1260 °C (2300 °F) class";
        CeramicBlanket1430 = "ceramic_blanket_1430", "Ceramic fibre blanket, 1430 °C (2600 °F) class";
        RockWool = "rock_wool", "Rock wool";
        CalciumSilicate = "calcium_silicate", "Calcium silicate board";
        Vermiculite = "vermiculite_board", "Vermiculite board";
        InsulatingFirebrick = "insulating_firebrick", "Insulating firebrick";
        DenseCastable = "dense_castable", "Dense castable";
        Perlite = "loose_perlite", "Loose perlite";
        WoodAsh = "wood_ash", "Wood ash";
        AirGap = "air_gap", "Still air gap";
        Own1 = "own_1", "Own material 1";
        Own2 = "own_2", "Own material 2";
        Own3 = "own_3", "Own material 3";
        Own4 = "own_4", "Own material 4";
    }
}

impl Material {
    /// The materials that a person enters from a data sheet, in the order of their list.
    pub const OWN: [Material; 4] = [
        Material::Own1,
        Material::Own2,
        Material::Own3,
        Material::Own4,
    ];

    /// Whether it is one that a person enters.
    pub fn is_own(self) -> bool {
        Material::OWN.contains(&self)
    }

    /// Whether it is a metal of those listed.
    pub fn is_metal(self) -> bool {
        matches!(
            self,
            Material::MildSteel
                | Material::Stainless304
                | Material::Stainless310
                | Material::Aluminium
        )
    }

    /// Whether it is laid in soft sheets of fibres.
    pub fn is_wool(self) -> bool {
        matches!(
            self,
            Material::CeramicBlanket1260 | Material::CeramicBlanket1430 | Material::RockWool
        )
    }

    /// Whether one can stand for the other as it is built in: sheet for sheet, wool for wool, board for board.
    pub fn stands_for(self, other: Material) -> bool {
        let is_board = |material| {
            matches!(
                material,
                Material::CalciumSilicate | Material::Vermiculite | Material::InsulatingFirebrick
            )
        };
        (self.is_metal() && other.is_metal())
            || (self.is_wool() && other.is_wool())
            || (is_board(self) && is_board(other))
    }
}

record! {
    /// The band of the vessel around the hearth; how hot its inside gets is computed.
    HearthBand {
        inside_diameter: Length = number(Q::Length, 0.40, (0.05, 2.0), (0.25, 0.7)),
            "Inside diameter", "Across the inside of the innermost layer.", YourOwn;
        height: Length = number(Q::Length, 0.50, (0.05, 3.0), (0.3, 1.2)),
            "Height", "Height of this band of the vessel.", YourOwn;
        outer_emittance: Ratio = number(Q::Number, 0.80, (0.02, 1.0), (0.2, 0.95)),
            "Outside emittance", "How strongly the outside radiates: bright metal 0.1, rusty or painted steel 0.8 to 0.9.", CommonPractice;
        guarded: bool = flag(false),
            "Guard fitted", "A mesh or sheet keeps hands off this surface.", YourOwn;
    }
}

record! {
    /// A cylindrical band of the vessel.
    Wall {
        inside_diameter: Length = number(Q::Length, 0.40, (0.05, 2.0), (0.25, 0.7)),
            "Inside diameter", "Across the inside of the innermost layer.", YourOwn;
        height: Length = number(Q::Length, 0.50, (0.05, 3.0), (0.3, 1.2)),
            "Height", "Height of this band of the vessel.", YourOwn;
        inner_temperature: ThermodynamicTemperature = number(Q::Temperature, celsius(450.0), (celsius(30.0), celsius(1400.0)), (celsius(200.0), celsius(700.0))),
            "Temperature inside", "Temperature of the inner face of this band while running.", CommonPractice;
        outer_emittance: Ratio = number(Q::Number, 0.80, (0.02, 1.0), (0.2, 0.95)),
            "Outside emittance", "How strongly the outside radiates: bright metal 0.1, rusty or painted steel 0.8 to 0.9.", CommonPractice;
        guarded: bool = flag(false),
            "Guard fitted", "A mesh or sheet keeps hands off this surface.", YourOwn;
    }
}

record! {
    /// A flat or dished end of the vessel.
    End {
        inner_temperature: ThermodynamicTemperature = number(Q::Temperature, celsius(200.0), (celsius(30.0), celsius(1400.0)), (celsius(80.0), celsius(700.0))),
            "Temperature inside", "Temperature of the inner face of this end while running.", CommonPractice;
        outer_emittance: Ratio = number(Q::Number, 0.80, (0.02, 1.0), (0.2, 0.95)),
            "Outside emittance", "How strongly the outside radiates: bright metal 0.1, rusty or painted steel 0.8 to 0.9.", CommonPractice;
        guarded: bool = flag(false),
            "Guard fitted", "A mesh or sheet keeps hands off this surface.", YourOwn;
    }
}

record! {
    /// One layer of a wall or end.
    Layer {
        material: Material = choice(Material::OPTIONS, "ceramic_blanket_1260"),
            "Material", "What this layer is made of.", YourOwn;
        thickness: Length = number(Q::Thickness, 0.025, (0.0003, 0.5), (0.001, 0.15)),
            "Thickness", "Thickness as built in; a blanket pressed thin insulates less.", YourOwn;
    }
}

record! {
    /// A material from the person's own data sheet.
    OwnMaterial {
        name: String = text("Own material", 40), "Name", "As on the data sheet.", YourOwn;
        density: MassDensity = number(Q::Density, 200.0, (1.0, 20_000.0), (50.0, 8_000.0)),
            "Density", "Mass over volume, as built in.", YourOwn;
        heat_capacity: SpecificHeatCapacity = number(Q::HeatCapacity, 1000.0, (100.0, 5_000.0), (400.0, 2_000.0)),
            "Heat capacity", "Heat that warms it by one degree, over its mass.", YourOwn;
        limit: ThermodynamicTemperature = number(Q::Temperature, celsius(650.0), (celsius(30.0), celsius(2_000.0)), (celsius(200.0), celsius(1_400.0))),
            "Temperature limit", "Highest temperature it may see for long.", YourOwn;
        emittance: Ratio = number(Q::Number, 0.9, (0.02, 1.0), (0.1, 0.95)),
            "Emittance", "How strongly its surface radiates, between 0 and 1.", YourOwn;
        temperature_1: ThermodynamicTemperature = number(Q::Temperature, celsius(200.0), (celsius(-40.0), celsius(1_800.0)), (celsius(0.0), celsius(1_200.0))),
            "At temperature", "Mean temperature of the first conductivity on the sheet.", YourOwn;
        conductivity_1: ThermalConductivity = number(Q::Conductivity, 0.08, (0.005, 500.0), (0.03, 60.0)),
            "Conductivity", "Conductivity at the first temperature.", YourOwn;
        temperature_2: Option<ThermodynamicTemperature> = optional(Q::Temperature, (celsius(-40.0), celsius(1_800.0)), (celsius(0.0), celsius(1_200.0))),
            "At temperature 2", "Second temperature, if the sheet gives one.", YourOwn;
        conductivity_2: Option<ThermalConductivity> = optional(Q::Conductivity, (0.005, 500.0), (0.03, 60.0)),
            "Conductivity 2", "Conductivity at the second temperature.", YourOwn;
        temperature_3: Option<ThermodynamicTemperature> = optional(Q::Temperature, (celsius(-40.0), celsius(1_800.0)), (celsius(0.0), celsius(1_200.0))),
            "At temperature 3", "Third temperature, if the sheet gives one.", YourOwn;
        conductivity_3: Option<ThermalConductivity> = optional(Q::Conductivity, (0.005, 500.0), (0.03, 60.0)),
            "Conductivity 3", "Conductivity at the third temperature.", YourOwn;
        temperature_4: Option<ThermodynamicTemperature> = optional(Q::Temperature, (celsius(-40.0), celsius(1_800.0)), (celsius(0.0), celsius(1_200.0))),
            "At temperature 4", "Fourth temperature, if the sheet gives one.", YourOwn;
        conductivity_4: Option<ThermalConductivity> = optional(Q::Conductivity, (0.005, 500.0), (0.03, 60.0)),
            "Conductivity 4", "Conductivity at the fourth temperature.", YourOwn;
        temperature_5: Option<ThermodynamicTemperature> = optional(Q::Temperature, (celsius(-40.0), celsius(1_800.0)), (celsius(0.0), celsius(1_200.0))),
            "At temperature 5", "Fifth temperature, if the sheet gives one.", YourOwn;
        conductivity_5: Option<ThermalConductivity> = optional(Q::Conductivity, (0.005, 500.0), (0.03, 60.0)),
            "Conductivity 5", "Conductivity at the fifth temperature.", YourOwn;
    }
}

record! {
    /// The wood store on top.
    Hopper {
        fitted: bool = flag(true), "Hopper fitted", "A wood store stands on top of the vessel.", YourOwn;
        diameter: Length = number(Q::Length, 0.50, (0.1, 2.0), (0.3, 0.9)),
            "Hopper diameter", "Across the inside of the wood store.", YourOwn;
        height: Length = number(Q::Length, 0.60, (0.05, 3.0), (0.3, 1.2)),
            "Hopper height", "Straight part of the wood store.", YourOwn;
        cone_height: Length = number(Q::Length, 0.10, (0.0, 1.5), (0.0, 0.4)),
            "Hopper cone", "Height of the cone that joins the store to the vessel; 0 for a flat step.", YourOwn;
        wall_thickness: Length = number(Q::Thickness, 0.0015, (0.0003, 0.02), (0.0008, 0.004)),
            "Hopper wall", "Thickness of the hopper's steel, lid included.", YourOwn;
        fill_share: Ratio = number(Q::Share, 1.0, (0.0, 1.0), (0.5, 1.0)),
            "Filled", "How full it is when full of wood.", CommonPractice;
        drag: f64 = number(Q::Number, 0.7, (0.2, 2.0), (0.5, 1.2)),
            "Wind drag coefficient", "How strongly wind grips it: a smooth drum 0.7, a box 1.2.", FromMemory("Hoerner, Fluid-Dynamic Drag");
    }
}
