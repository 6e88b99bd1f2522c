//! Parts on the base besides vessel, hopper and frame.

use super::vessel::Material;
use crate::design::Choice as _;
use crate::design::Source::YourOwn;
use crate::design::declare::{choice, choices, number, record, text};
use crate::design::quantity::Quantity as Q;
use uom::si::f64::{Length, Mass, MassDensity, Ratio};

choices! {
    /// The shapes a part can have. Round shapes stand upright on their axis.
    Shape {
        Tube = "tube", "Round tube";
        Plate = "plate", "Flat plate";
        Ring = "ring", "Flat ring";
        DishedEnd = "dished_end", "Dished end";
        Box = "box", "Box of sheet";
        Block = "block", "Solid block";
        Cone = "cone", "Cone of sheet";
        BulkFill = "bulk_fill", "Loose fill or liquid";
        Weighed = "weighed", "Weighed item";
    }
}

choices! {
    /// The sub-assembly a part belongs to.
    Group {
        Base = "base", "Base";
        Reactor = "reactor", "Vessel";
        Filter = "filter", "Filter";
        Cooler = "cooler", "Cooler";
        Condensate = "condensate", "Condensate";
        Hopper = "hopper", "Hopper";
        Electrics = "electrics", "Electrics";
        Engine = "engine", "Engine";
    }
}

choices! {
    /// When a part weighs on the base.
    Presence {
        Always = "always", "Always";
        WhenFull = "when_full", "Only when filled";
        WithHopper = "with_hopper", "Only with the hopper";
    }
}

record! {
    /// One part; its place is the middle of its underside, from the middle of the base.
    Part {
        name: String = text("Part", 40), "Name", "What you call it.", YourOwn;
        group: Group = choice(Group::OPTIONS, "base"), "Belongs to", "The sub-assembly it is bolted to.", YourOwn;
        shape: Shape = choice(Shape::OPTIONS, "weighed"), "Shape", "The shape its mass is computed from, or weighed.", YourOwn;
        presence: Presence = choice(Presence::OPTIONS, "always"), "Counts", "Fuel and water count only when filled.", YourOwn;
        count: u32 = number(Q::Count, 1.0, (1.0, 500.0), (1.0, 20.0)), "How many", "Number of equal parts at this place.", YourOwn;
        material: Material = choice(Material::OPTIONS, "mild_steel"), "Material", "Gives the density.", YourOwn;
        mass: Mass = number(Q::Mass, 10.0, (0.0, 5_000.0), (0.1, 300.0)), "Weight of one", "Weighed, or from the maker's plate.", YourOwn;
        density: MassDensity = number(Q::Density, 1_000.0, (1.0, 12_000.0), (100.0, 1_200.0)), "Fill density", "Mass of the fill over its volume: water 1000 kg/m³ (62.4 lb/ft³).", YourOwn;
        diameter: Length = number(Q::Length, 0.30, (0.001, 4.0), (0.02, 1.0)), "Diameter", "Outside diameter; for a cone its foot, for a fill the width of the fill.", YourOwn;
        second_diameter: Length = number(Q::Length, 0.10, (0.0, 4.0), (0.02, 1.0)), "Second diameter", "Hole of a ring, or top of a cone.", YourOwn;
        width: Length = number(Q::Length, 0.30, (0.001, 4.0), (0.02, 1.5)), "Width", "Left to right.", YourOwn;
        depth: Length = number(Q::Length, 0.30, (0.001, 4.0), (0.02, 1.5)), "Depth", "Front to back.", YourOwn;
        height: Length = number(Q::Length, 0.30, (0.001, 4.0), (0.01, 1.5)), "Height", "Underside to top; for a dished end the depth of the dish.", YourOwn;
        thickness: Length = number(Q::Thickness, 0.003, (0.0002, 0.2), (0.001, 0.02)), "Sheet thickness", "Thickness of the sheet it is made from.", YourOwn;
        fill_share: Ratio = number(Q::Share, 1.0, (0.0, 1.0), (0.0, 1.0)), "Filled", "Share of the round volume that is filled.", YourOwn;
        x: Length = number(Q::Length, 0.0, (-4.0, 4.0), (-1.0, 1.0)), "Left or right", "To the right of the base's middle; left is negative.", YourOwn;
        y: Length = number(Q::Length, 0.0, (-4.0, 4.0), (-1.0, 1.0)), "Front or back", "Behind the base's middle; in front is negative.", YourOwn;
        z: Length = number(Q::Length, 0.1, (0.0, 5.0), (0.0, 2.0)), "Height above ground", "From the ground to its underside.", YourOwn;
    }
}
