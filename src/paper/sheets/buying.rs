//! What is to be bought, added up over all parts.

use super::sizes;
use super::{cell, row, table};
use crate::design::phrase::{Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice, Design};
use crate::paper::sheet::Block;
use crate::review::{Assessment, TableRow};
use crate::sizing::buying::{Amount, Form, ToBuy, to_buy};

/// What the table leaves out.
pub(super) const MEANING: &str = "To buy: net, as the parts need it. Add for saw cuts, weld gaps and what is left of a sheet: a fifth is common. A vessel that you have already is in it. Wheels, pressed ends, blower, battery and other bought things stand in the parts list alone, and fans, guards, shields and spare parts under “Also needed, not weighed”.";

/// How many parts are named.
const NAMED: usize = 4;

/// One row for each material and size.
pub(super) fn buying(design: &Design, assessment: &Assessment) -> Block {
    let machine = &assessment.standing.machine;
    let rows = to_buy(design, machine, &assessment.workshop.parts)
        .iter()
        .map(line)
        .collect();
    table(
        "to-buy",
        "To buy, added up",
        &["Material", "Size", "How much", "Mass", "For"],
        rows,
        "",
    )
}

fn line(one: &ToBuy) -> TableRow {
    let amount = match one.amount {
        Amount::Area(area) => cell(Q::Area, area.value),
        Amount::Length(length) => cell(Q::Distance, length.value),
        Amount::Count(count) => cell(Q::Count, f64::from(count)),
    };
    row(vec![
        one.material
            .map_or("as bought", |material| material.label())
            .into(),
        size(one.form),
        amount,
        cell(Q::Mass, one.mass.value),
        names(&one.parts).into(),
    ])
}

fn size(form: Form) -> Slot {
    let thin = |length: uom::si::f64::Length| cell(Q::Thickness, length.value);
    let long = |length: uom::si::f64::Length| cell(Q::Length, length.value);
    match form {
        Form::Sheet { thickness } => Phrase::new("{} thick", [thin(thickness)]),
        Form::Tube { outside, wall } => {
            Phrase::new("tube Ø {}, wall {}", [thin(outside), thin(wall)])
        }
        Form::SquareTube { side, wall } => {
            Phrase::new("square tube {}, wall {}", [long(side), thin(wall)])
        }
        Form::Bolt { thread, length } => {
            Phrase::new("bolts with nuts, {}", [sizes::bolt(thread, length).into()])
        }
        Form::Strip { width, thickness } => {
            Phrase::new("strip {} wide, {} thick", [long(width), thin(thickness)])
        }
    }
    .into()
}

/// The first names, and how many more there are.
fn names(parts: &[String]) -> String {
    let named: Vec<&str> = parts.iter().take(NAMED).map(String::as_str).collect();
    let more = parts.len().saturating_sub(NAMED);
    let named = named.join(", ");
    if more > 0 {
        format!("{named} and {more} more")
    } else {
        named
    }
}
