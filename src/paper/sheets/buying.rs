//! What is to be bought, added up over all parts.

use super::sizes;
use super::{cell, row, table};
use crate::design::Design;
use crate::design::inputs::Material;
use crate::design::phrase::{Phrase, Slot};
use crate::design::quantity::{Quantity as Q, System};
use crate::paper::sheet::Block;
use crate::review::{Assessment, TableRow};
use crate::sizing::buying::{ALIKE, Amount, Form, ToBuy, to_buy};
use crate::sizing::loads::Loads;
use crate::sizing::nozzle_tube::{nozzle_ring, nozzle_tube};
use crate::sizing::parts_list::PartLine;
use crate::sizing::sold_in_inches::{self, BORE_NEAR};
use crate::sizing::sold_in_millimetres;
use crate::sizing::there_already::is_there_already;
use uom::si::f64::Length;
use uom::si::length::inch;

/// What the table leaves out.
const MEANING: &str = "To buy: net, as the parts need it. Add for saw cuts, weld gaps, what falls out of rings and what is left of a sheet: a fifth is common. A vessel that was bought and measured is not in it, where it is as wide as the steel here, nor is its own bottom; nor are a hearth that is built, and a vessel that is built and lined. Wheels, pressed ends, blower, battery and other bought things stand in the parts list alone, and fans, guards, shields, caps and spare parts under “Also needed, not weighed”.";

/// What the sizes in millimetres are, for whoever buys in millimetres.
const SOLD_IN_MM: &str = "Sizes are those that were entered or reckoned. Nearest sold: what to ask a shop for where no shop has such a size; where the nearest is more than a tenth thinner than entered, or with it a flat sheet would not bear the test pressure or the frame the machine, the next thicker or wider. Weight and strength are reckoned with the size entered: enter what you buy. Drill holes for the bolts you buy. Round tube is told by its bore, since gas or air flows through it. Round tube after EN 10220 and EN 10305-1, square tube after EN 10305-5 and EN 10219-2, bar after EN 10060, bolts after ISO 261 and ISO 888, all from memory; steps of sheet are common practice, no source. No shop has all of them.";

/// What the sizes in inches are, for whoever buys in inches.
const SOLD_MEANING: &str = "Nearest sold: what a shop that sells in inches is asked for; where the nearest is more than a tenth thinner than entered, or with it a flat sheet would not bear the test pressure or the frame the machine, the next thicker or wider. Weight and strength are reckoned with the size entered: enter what you buy. Drill holes for the bolts you buy. Round tube is told by its bore, since gas or air flows through it: of outside and wall the pair that comes nearest to it. Sheet of mild steel by the Manufacturers' Standard Gage for sheet steel, walls of tube by the Birmingham gauge, bolts of the coarse series of ASME B1.1, all from memory; plate and outsides of tube are common practice, no source.";

/// [`MEANING`], and what is told beside the sizes in each system.
pub(super) fn meaning() -> [Slot; 3] {
    let sold = |system, words| Slot::Only(system, Phrase::plain(words));
    [
        MEANING.into(),
        sold(System::Metric, SOLD_IN_MM),
        sold(System::Inch, SOLD_MEANING),
    ]
}

const SIXTEENTHS_OF_A_FOOT: f64 = 192.0;

/// How many parts are named.
const NAMED: usize = 4;

/// One row for each material and size.
pub(super) fn buying(design: &Design, assessment: &Assessment) -> Block {
    let machine = &assessment.standing.machine;
    let parts: Vec<PartLine> = (assessment.workshop.parts.iter())
        .filter(|line| !(line.piece).is_some_and(|piece| is_there_already(design, piece)))
        .cloned()
        .collect();
    let loads = Loads::of(design, assessment.standing.frame);
    let rows = to_buy(design, machine, &parts)
        .iter()
        .map(|one| line(design, one, &loads))
        .collect();
    table(
        "to-buy",
        "To buy, added up",
        &["Material", "Size", "How much", "Mass", "For"],
        rows,
        "",
    )
}

fn line(design: &Design, one: &ToBuy, loads: &Loads) -> TableRow {
    let amount = match one.amount {
        Amount::Area(area) => cell(Q::Area, area.value),
        Amount::Length(length) => Phrase::new(
            "{}{}",
            [
                cell(Q::Distance, length.value),
                Slot::Only(System::Inch, feet_and_inches(length)),
            ],
        )
        .into(),
        Amount::Count(count) => cell(Q::Count, f64::from(count)),
    };
    row(vec![
        one.material
            .map_or("as bought", |material| design.material_name(material))
            .into(),
        size(design, one.material, one.form, loads),
        amount,
        cell(Q::Mass, one.mass.value),
        names(&one.parts).into(),
    ])
}

fn size(design: &Design, material: Option<Material>, form: Form, loads: &Loads) -> Slot {
    let thin = |length: Length| cell(Q::Thickness, length.value);
    let long = |length: Length| cell(Q::Length, length.value);
    let entered = match form {
        Form::Sheet { thickness } => Phrase::new("{} thick", [thin(thickness)]),
        Form::Tube { outside, wall } => {
            Phrase::new("tube Ø {}, wall {}", [thin(outside), thin(wall)])
        }
        Form::SquareTube { side, wall } => {
            Phrase::new("square tube {}, wall {}", [long(side), thin(wall)])
        }
        Form::Fitting { place, outside, .. } => {
            let (_, several) = sizes::FITTINGS.get(place).copied().unwrap_or_default();
            Phrase::new("{} of tube Ø {}", [several.into(), thin(outside)])
        }
        Form::Bolt { thread, length } => {
            Phrase::new("bolts with nuts, {}", [sizes::bolt(thread, length).into()])
        }
        Form::Strip { width, thickness } => {
            Phrase::new("strip {} wide, {} thick", [long(width), thin(thickness)])
        }
    };
    let beside = [System::Metric, System::Inch].map(|system| {
        let sold = match form {
            Form::Tube { outside, wall } => sold_tube(design, material, [outside, wall], system),
            _ => match system {
                System::Metric => sold_in_millimetres::nearest_sold(material, form, loads),
                System::Inch => sold_in_inches::nearest_sold(material, form, loads),
            }
            .map(|sold| Phrase::new("; nearest sold: {}", [sold.into()])),
        };
        Slot::Only(system, sold.unwrap_or_else(|| Phrase::plain("")))
    });
    let [in_millimetres, in_inches] = beside;
    Phrase::new("{}{}{}", [entered.into(), in_millimetres, in_inches]).into()
}

/// The tube sold that has nearly the bore entered, and what differs.
fn sold_tube(
    design: &Design,
    material: Option<Material>,
    [outside, wall]: [Length; 2],
    system: System,
) -> Option<Phrase> {
    let nozzle = nozzle_tube(design);
    let is_nozzle = [(nozzle.outside, outside), (nozzle.wall, wall)]
        .iter()
        .all(|(one, other)| (*one - *other).value.abs() < ALIKE);
    let ring = nozzle_ring(design).filter(|_| is_nozzle);
    let hole = ring.map(|(_, ring)| ring.diameter);
    let nearest = match system {
        System::Metric => sold_in_millimetres::nearest_tube,
        System::Inch => sold_in_inches::nearest_tube,
    };
    let sold = nearest(material, [outside, wall], hole)?;
    let bore = outside - 2.0 * wall;
    let across = |length: Length| cell(Q::Bore, length.value);
    let is_other = ((sold.bore / bore).value - 1.0).abs() > BORE_NEAR;
    let otherwise = match is_other {
        true => {
            Phrase::plain(": what flows through it is then another, so enter it before you buy")
        }
        false => Phrase::plain(""),
    };
    let too_wide = match hole.filter(|hole| sold.outside > *hole) {
        Some(hole) => Phrase::new(
            "; it does not go through its hole of {}: enter pipe and hole as wide as it is",
            [across(hole)],
        ),
        None => Phrase::plain(""),
    };
    // The bore of a nozzle sets the air: a bar takes any.
    let bar = match system {
        System::Metric if is_nozzle => sold_in_millimetres::bar_to_bore(outside, hole),
        _ => None,
    };
    let bored = match bar.filter(|_| is_other) {
        Some(bar) => Phrase::new(
            "; or round bar of {}, bored to {}",
            [bar.into(), across(bore)],
        ),
        None => Phrase::plain(""),
    };
    let slots = [
        sold.name.into(),
        across(sold.bore),
        across(bore),
        otherwise.into(),
        too_wide.into(),
        bored.into(),
    ];
    let words = "; nearest sold: {}, bore {} where {} is entered{}{}{}";
    Some(Phrase::new(words, slots))
}

/// A length as a yard cuts it, so that nothing is missing: feet, and inches rounded up to a sixteenth; nothing for less
/// than a foot, and for whole feet.
fn feet_and_inches(length: Length) -> Phrase {
    let sixteenths = (16.0 * length.get::<inch>() - 1e-6).ceil();
    let feet = (sixteenths / SIXTEENTHS_OF_A_FOOT).floor();
    if !(feet >= 1.0 && feet.is_finite()) {
        return Phrase::plain("");
    }
    let rest = Length::new::<inch>((sixteenths - feet * SIXTEENTHS_OF_A_FOOT) / 16.0);
    if rest == Length::default() {
        return Phrase::plain("");
    }
    Phrase::new(
        " ({} ft {})",
        [cell(Q::Count, feet), cell(Q::Length, rest.value)],
    )
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
