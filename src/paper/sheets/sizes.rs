//! The size of one piece in words, as one asks for it at the steel yard.

use super::cell;
use crate::design::inputs::Material;
use crate::design::phrase::{Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::sizing::machine::Piece;
use crate::sizing::parts_list::PartLine;
use crate::sizing::stock::Stock;
use uom::si::f64::Length;
use uom::si::length::millimeter;

/// What the column of sizes means.
pub(super) const MEANING: &str = "Size: of one piece, as the weight reckons it. Nothing is added for saw cuts, weld gaps, overlaps and waste. Bars of the frame are told between the middles of its corners: with square-cut ends, a bar that runs through is cut one width of the tube longer, one that ends between two others one width shorter; legs are cut as told. “Unrolled” is the length of the flat sheet along the middle of its thickness.";

/// The fittings of a pipe, one and several, in the order of [`Stock::Pipe`].
pub(super) const FITTINGS: [(&str, &str); 4] = [
    ("sharp elbow", "sharp elbows"),
    ("long bend", "long bends"),
    ("tee", "tees"),
    ("valve", "valves"),
];

/// A size so near to whole millimetres is one, mm.
const NEARLY: f64 = 0.01;

/// The size of one piece of a line; empty where there is none.
pub(super) fn size(line: &PartLine, stock: Option<&Stock>) -> Slot {
    let Some(stock) = stock else {
        return "".into();
    };
    let long = |length: Length| cell(Q::Length, length.value);
    let thin = |length: Length| cell(Q::Thickness, length.value);
    match stock {
        Stock::Tube {
            outside,
            wall,
            length,
        } => {
            match stock.unrolled().filter(|_| is_rolled(line)) {
                Some(flat) => Phrase::new(
                    "Ø {} outside, wall {}, {} long; unrolled {}",
                    [long(*outside), thin(*wall), long(*length), long(flat)],
                ),
                // Tube is bought by its outside, which a sixteenth of an inch tells too coarsely.
                None => Phrase::new(
                    "Ø {} outside, wall {}, {} long",
                    [thin(*outside), thin(*wall), long(*length)],
                ),
            }
        }
        Stock::Disc {
            diameter,
            thickness,
        } => Phrase::new("Ø {}, {} thick", [long(*diameter), thin(*thickness)]),
        Stock::Ring {
            outside,
            bore,
            thickness,
        } => {
            // A flange is bored for its pipe; the opening of a lid is cut by tape.
            let inside = match line.piece {
                Some(Piece::Flange(_)) => cell(Q::Bore, bore.value),
                _ => long(*bore),
            };
            Phrase::new(
                "Ø {} outside, Ø {} inside, {} thick",
                [long(*outside), inside, thin(*thickness)],
            )
        }
        Stock::Cone {
            foot,
            top,
            height,
            sheet,
        } => Phrase::new(
            "cone, outside Ø {} below and Ø {} above, {} high, sheet {}",
            [long(*foot), long(*top), long(*height), thin(*sheet)],
        ),
        Stock::Dish {
            diameter,
            height,
            sheet,
        } => Phrase::new(
            "dished, Ø {} outside, {} high, sheet {}",
            [long(*diameter), long(*height), thin(*sheet)],
        ),
        Stock::Plate {
            width,
            depth,
            thickness,
        } => Phrase::new(
            "{} × {}, {} thick",
            [long(*width), long(*depth), thin(*thickness)],
        ),
        Stock::Case {
            width,
            depth,
            height,
            sheet,
        } => Phrase::new(
            "box {} × {} × {}, sheet {}",
            [long(*width), long(*depth), long(*height), thin(*sheet)],
        ),
        Stock::Block {
            width,
            depth,
            height,
        } => Phrase::new("{} × {} × {}", [long(*width), long(*depth), long(*height)]),
        Stock::SquareTube { side, wall, cuts } => Phrase::new(
            "square tube {}, wall {}{}",
            [long(*side), thin(*wall), cut_list(cuts)],
        ),
        Stock::Wheel { diameter } => Phrase::new("Ø {}", [long(*diameter)]),
        Stock::Bolt { thread, length } => bolt(*thread, *length),
        Stock::Strip {
            length,
            width,
            thickness,
        } => Phrase::new(
            "{} long, {} wide, {} thick",
            [long(*length), long(*width), thin(*thickness)],
        ),
        Stock::Pipe {
            outside,
            wall,
            length,
            fittings,
        } => Phrase::new(
            "Ø {} outside, wall {}, {} straight{}",
            [
                thin(*outside),
                thin(*wall),
                long(*length),
                fitted(fittings).into(),
            ],
        ),
        Stock::Tubes {
            count,
            outside,
            wall,
            length,
            jacket,
        } => {
            let tubes = [
                cell(Q::Count, f64::from(*count)),
                thin(*outside),
                thin(*wall),
                long(*length),
            ];
            match jacket {
                Some(jacket) => Phrase::new(
                    "{} × tube Ø {} outside, wall {}, {} long; jacket taken as a round shell of Ø {} inside, sheet {}; the {} of water in it are not in the mass",
                    tubes.into_iter().chain([
                        long(jacket.bore),
                        thin(jacket.sheet),
                        cell(Q::Mass, jacket.water.value),
                    ]),
                ),
                None => Phrase::new("{} × tube Ø {} outside, wall {}, {} long", tubes),
            }
        }
        Stock::Drum {
            bore,
            height,
            sheet,
            cloth,
        } => {
            let words = [long(*bore), long(*height), thin(*sheet)];
            match cloth {
                Some(cloth) => Phrase::new(
                    "drum Ø {} inside, {} high inside, sheet {}; {} of cloth",
                    words.into_iter().chain([cell(Q::Area, cloth.value)]),
                ),
                None => Phrase::new("drum Ø {} inside, {} high inside, sheet {}", words),
            }
        }
        Stock::Cyclone {
            bore,
            body,
            cone,
            sheet,
            ..
        } => Phrase::new(
            "Ø {} inside, body {} and cone {} high, sheet {}",
            [long(*bore), long(*body), long(*cone), thin(*sheet)],
        ),
    }
    .into()
}

/// A bolt of whole millimetres is asked for by its metric name, whatever units its buyer has.
pub(super) fn bolt(thread: Length, length: Length) -> Phrase {
    let [across, long] = [thread, length].map(|size| size.get::<millimeter>());
    let is_whole = |size: f64| (size - size.round()).abs() < NEARLY;
    if is_whole(across) && is_whole(long) {
        let [across, long] = [across, long].map(|size| Slot::from(format!("{size:.0}")));
        return Phrase::new("M{} × {}", [across, long]);
    }
    let size = [
        cell(Q::Thickness, thread.value),
        cell(Q::Length, length.value),
    ];
    Phrase::new("thread {} × {} long", size)
}

/// Whether a shell of it can be rolled from flat sheet.
fn is_rolled(line: &PartLine) -> bool {
    matches!(
        line.material,
        Some(
            Material::MildSteel
                | Material::Stainless304
                | Material::Stainless310
                | Material::Aluminium
        )
    )
}

/// “: 4 of 410 mm, 2 of 600 mm”; nothing where nothing is cut.
fn cut_list(cuts: &[(u32, Length)]) -> Slot {
    cuts.iter()
        .enumerate()
        .rev()
        .fold(Slot::from(""), |rest, (place, (count, length))| {
            let words = [
                cell(Q::Count, f64::from(*count)),
                cell(Q::Length, length.value),
                rest,
            ];
            match place {
                0 => Phrase::new(": {} of {}{}", words),
                _ => Phrase::new(", {} of {}{}", words),
            }
            .into()
        })
}

/// What is fitted to a pipe: “, 2 sharp elbows, 1 valve”.
fn fitted(counts: &[u32; 4]) -> String {
    counts
        .iter()
        .zip(FITTINGS)
        .filter(|(count, _)| **count > 0)
        .map(|(count, (one, several))| {
            let name = if *count == 1 { one } else { several };
            format!(", {count} {name}")
        })
        .collect()
}
