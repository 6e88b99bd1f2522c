//! What it costs: prices per kilogram, own lines, and what was changed by hand in the parts list.

use super::parts::Group;
use crate::design::Choice as _;
use crate::design::Source::{CommonPractice, YourOwn};
use crate::design::declare::{choice, choices, flag, number, optional, record, text};
use crate::design::quantity::Quantity as Q;
use uom::si::f64::{Mass, Ratio};

/// Prices accepted, in any currency.
const MONEY: (f64, f64) = (0.0, 1.0e9);
/// Usual prices of a part.
const USUAL: (f64, f64) = (0.0, 1_000.0);
/// Usual prices of a kilogram.
const PER_KG: (f64, f64) = (0.0, 50.0);

choices! {
    /// What money is spent on.
    CostKind {
        Material = "material", "Material";
        Bought = "bought", "Bought part";
        Consumable = "consumable", "Consumable";
        Tool = "tool", "Tool";
    }
}

choices! {
    /// A piece of the parts list that follows from the design.
    DerivedPart {
        Frame = "base_base_frame", "Base frame";
        Wheels = "base_wheels", "Wheels";
        FireTube = "hearth_fire_tube", "Fire tube";
        ConeAbove = "hearth_cone_above_the_throat", "Cone above the throat";
        ConeBelow = "hearth_cone_below_the_throat", "Cone below the throat";
        Nozzles = "hearth_nozzles", "Nozzles";
        HopperCone = "hopper_hopper_cone", "Hopper cone";
        HopperWall = "hopper_hopper", "Hopper wall";
        HopperLid = "hopper_hopper_lid", "Hopper lid";
        HearthLayer1 = "hearth_layers_1", "Hearth wall, layer 1";
        HearthLayer2 = "hearth_layers_2", "Hearth wall, layer 2";
        HearthLayer3 = "hearth_layers_3", "Hearth wall, layer 3";
        HearthLayer4 = "hearth_layers_4", "Hearth wall, layer 4";
        HearthLayer5 = "hearth_layers_5", "Hearth wall, layer 5";
        HearthLayer6 = "hearth_layers_6", "Hearth wall, layer 6";
        HearthLayer7 = "hearth_layers_7", "Hearth wall, layer 7";
        HearthLayer8 = "hearth_layers_8", "Hearth wall, layer 8";
        BodyLayer1 = "body_layers_1", "Body wall, layer 1";
        BodyLayer2 = "body_layers_2", "Body wall, layer 2";
        BodyLayer3 = "body_layers_3", "Body wall, layer 3";
        BodyLayer4 = "body_layers_4", "Body wall, layer 4";
        BodyLayer5 = "body_layers_5", "Body wall, layer 5";
        BodyLayer6 = "body_layers_6", "Body wall, layer 6";
        BodyLayer7 = "body_layers_7", "Body wall, layer 7";
        BodyLayer8 = "body_layers_8", "Body wall, layer 8";
        LidLayer1 = "lid_layers_1", "Lid, layer 1";
        LidLayer2 = "lid_layers_2", "Lid, layer 2";
        LidLayer3 = "lid_layers_3", "Lid, layer 3";
        LidLayer4 = "lid_layers_4", "Lid, layer 4";
        LidLayer5 = "lid_layers_5", "Lid, layer 5";
        LidLayer6 = "lid_layers_6", "Lid, layer 6";
        LidLayer7 = "lid_layers_7", "Lid, layer 7";
        LidLayer8 = "lid_layers_8", "Lid, layer 8";
        BottomLayer1 = "bottom_layers_1", "Bottom, layer 1";
        BottomLayer2 = "bottom_layers_2", "Bottom, layer 2";
        BottomLayer3 = "bottom_layers_3", "Bottom, layer 3";
        BottomLayer4 = "bottom_layers_4", "Bottom, layer 4";
        BottomLayer5 = "bottom_layers_5", "Bottom, layer 5";
        BottomLayer6 = "bottom_layers_6", "Bottom, layer 6";
        BottomLayer7 = "bottom_layers_7", "Bottom, layer 7";
        BottomLayer8 = "bottom_layers_8", "Bottom, layer 8";
        Grate = "grate_grate", "Grate";
    }
}

record! {
    /// A piece that follows from the design, with figures entered by hand.
    PartChange {
        piece: DerivedPart = choice(DerivedPart::OPTIONS, "base_base_frame"), "Piece", "The piece of the parts list that is changed.", YourOwn;
        mass: Option<Mass> = optional(Q::Mass, (0.0, 5_000.0), (0.1, 300.0)), "Weighed", "Its whole weight, in place of the computed one.", YourOwn;
        price: Option<f64> = optional(Q::Money, MONEY, USUAL), "Price", "What it costs, in place of weight times price.", YourOwn;
        note: String = text("", 100), "Note", "Why it was changed.", YourOwn;
    }
}

record! {
    /// Prices and the money at hand.
    Cost {
        currency: String = text("", 8), "Currency", "Sign or letters put behind an amount.", YourOwn;
        budget: Option<f64> = optional(Q::Money, MONEY, USUAL), "Money at hand", "What the machine may cost, tools apart.", YourOwn;
        contingency: Ratio = number(Q::Share, 0.15, (0.0, 2.0), (0.1, 0.3)),
            "For what was forgotten", "Added to the sum of all lines.", CommonPractice;
        invented: bool = flag(false), "Prices are invented", "The prices by weight only show how it works.", YourOwn;
        mild_steel_low: Option<f64> = optional(Q::MassPrice, MONEY, PER_KG), "Mild steel, low", "Lowest price by weight.", YourOwn;
        mild_steel: Option<f64> = optional(Q::MassPrice, MONEY, PER_KG), "Mild steel, likely", "Likely price by weight.", YourOwn;
        mild_steel_high: Option<f64> = optional(Q::MassPrice, MONEY, PER_KG), "Mild steel, high", "Highest price by weight.", YourOwn;
        stainless_low: Option<f64> = optional(Q::MassPrice, MONEY, PER_KG), "Stainless, low", "Lowest price by weight.", YourOwn;
        stainless: Option<f64> = optional(Q::MassPrice, MONEY, PER_KG), "Stainless, likely", "Likely price by weight.", YourOwn;
        stainless_high: Option<f64> = optional(Q::MassPrice, MONEY, PER_KG), "Stainless, high", "Highest price by weight.", YourOwn;
        insulation_low: Option<f64> = optional(Q::MassPrice, MONEY, PER_KG), "Insulation, low", "Lowest price by weight.", YourOwn;
        insulation: Option<f64> = optional(Q::MassPrice, MONEY, PER_KG), "Insulation, likely", "Likely price by weight.", YourOwn;
        insulation_high: Option<f64> = optional(Q::MassPrice, MONEY, PER_KG), "Insulation, high", "Highest price by weight.", YourOwn;
        other_low: Option<f64> = optional(Q::MassPrice, MONEY, PER_KG), "Other material, low", "Lowest price by weight of castable, aluminium or your own materials.", YourOwn;
        other: Option<f64> = optional(Q::MassPrice, MONEY, PER_KG), "Other material, likely", "Likely price by weight of castable, aluminium or your own materials.", YourOwn;
        other_high: Option<f64> = optional(Q::MassPrice, MONEY, PER_KG), "Other material, high", "Highest price by weight of castable, aluminium or your own materials.", YourOwn;
    }
}

record! {
    /// A line of the cost list besides the materials of the parts list.
    CostLine {
        name: String = text("Item", 60), "Name", "What is bought.", YourOwn;
        group: Group = choice(Group::OPTIONS, "reactor"), "For", "The sub-assembly it is for.", YourOwn;
        kind: CostKind = choice(CostKind::OPTIONS, "bought"), "Kind", "Tools are summed apart: they stay when the machine is done.", YourOwn;
        quantity: f64 = number(Q::Number, 1.0, (0.0, 10_000.0), (1.0, 50.0)), "How many", "Pieces, metres, kilograms: whatever the price is for.", YourOwn;
        low: f64 = number(Q::Money, 0.0, MONEY, USUAL), "Low", "Lowest price of one.", YourOwn;
        likely: f64 = number(Q::Money, 0.0, MONEY, USUAL), "Likely", "Likely price of one.", YourOwn;
        high: f64 = number(Q::Money, 0.0, MONEY, USUAL), "High", "Highest price of one.", YourOwn;
        invented: bool = flag(false), "Invented", "This price only shows how it works.", YourOwn;
    }
}
