//! What is not entered anywhere else but known only within bounds, and how far inputs may be off.

use crate::design::Source::{CommonPractice, YourOwn};
use crate::design::declare::{number, record, text};
use crate::design::quantity::Quantity as Q;
use uom::si::f64::Ratio;

record! {
    /// Corrections of tables: 100 % is the table as it stands.
    Doubt {
        insulation_conductivity: Ratio = number(Q::Share, 1.0, (0.3, 3.0), (0.75, 1.5)),
            "Heat let through by insulation", "Conductivity of every insulating layer, against the table or your data sheet. Damp, pressed or aged insulation lets more through.", CommonPractice;
        wood_heat: Ratio = number(Q::Share, 1.0, (0.8, 1.2), (0.95, 1.05)),
            "Heat in the dry wood", "Against what follows from its carbon and hydrogen. Resin gives more, rot less.", CommonPractice;
    }
}

record! {
    /// A plus-minus of the person's own.
    Spread {
        input: String = text("", 60), "Input", "Path of the input, such as fuel.moisture.", YourOwn;
        plus_minus: f64 = number(Q::Number, 0.0, (0.0, 1.0e9), (0.0, 1.0e9)), "Plus-minus", "How far the true value may lie from the entered one, in the SI unit of the input; 0 is exact.", YourOwn;
    }
}
