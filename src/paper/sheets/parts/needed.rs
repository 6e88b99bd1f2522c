//! What answers rest on, but nothing tells the size or weight of, and how what closes the vessel is made.

use super::place;
use crate::design::inputs::{Group, Hole, HoleUse, Layer};
use crate::design::phrase::{Phrase, Slot, lower_first};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice as _, Design};
use crate::paper::sheet::Block;
use crate::paper::sheets::marking::{lean, offset};
use crate::paper::sheets::{cell, row, table};
use crate::review::TableRow;
use crate::sizing::also_needed::{Need, also_needed, instruments};
use crate::sizing::cooler_drive::CoolerDrive;
use crate::sizing::hearth_ledge::{Carried, gap_around_tube, liner_plate, ring_around_tube};
use crate::sizing::lid_joints::{Around, RoundFlange, lid_neck, lid_rim, round_flanges};
use crate::sizing::sleeves::{lining_behind, sleeves};
use crate::sizing::train_mass::{built, bundle};

/// How rings, plates and flanges are made that stand in the parts list.
pub(super) fn closing(design: &Design) -> Block {
    table(
        "closing",
        "Rings, plates and flanges that close it",
        &["What", "How many", "For", "Made as", "From"],
        needs(design, true),
        "",
    )
}

/// What is needed, of that in the parts list or of the rest.
fn needs(design: &Design, listed: bool) -> Vec<TableRow> {
    (also_needed(design).into_iter())
        .filter(|need| need.is_listed() == listed)
        .map(|need| {
            row(vec![
                need.name(design).into(),
                cell(Q::Count, f64::from(need.count(design))),
                need.group(design).label().into(),
                reckoned(design, need),
                place(design, &need.from()).into(),
            ])
        })
        .collect()
}

/// The table of what is not in the parts list.
pub(super) fn needed(design: &Design) -> Block {
    let mut rows = needs(design, false);
    rows.extend(instruments(design).map(|(index, hole)| {
        row(vec![
            hole.name.as_str().into(),
            cell(Q::Count, f64::from(hole.count)),
            Group::Reactor.label().into(),
            fills(design, hole),
            place(design, &Design::item_path("holes", index)).into(),
        ])
    }));
    rows.extend(sleeves(design).map(|sleeve| {
        let leads = Phrase::new(
            "pipe or rolled sheet that just goes into the hole of {}, of a steel that bears the gas there, {} long: it leads from the shell through the lining{}",
            [
                cell(Q::Bore, sleeve.hole.diameter.value),
                cell(Q::Length, sleeve.long.value),
                on_its_way(sleeve.hole),
            ],
        );
        row(vec![
            Phrase::new("Sleeve: {}", [sleeve.hole.name.as_str().into()]).into(),
            cell(Q::Count, f64::from(sleeve.hole.count)),
            Group::Reactor.label().into(),
            leads.into(),
            place(design, &Design::item_path("holes", sleeve.place)).into(),
        ])
    }));
    table(
        "also-needed",
        "Also needed, not weighed",
        &["What", "How many", "For", "Reckoned with", "From"],
        rows,
        "",
    )
}

/// What an instrument fills, with each layer that it passes from the shell to what it tells of.
fn fills(design: &Design, hole: &Hole) -> Slot {
    let bore = cell(Q::Bore, hole.diameter.value);
    let closes = "it fills and closes its hole of {}, with a seal";
    let Some(lining) = lining_behind(design, hole) else {
        return Phrase::new(closes, [bore]).into();
    };
    let thick: f64 = lining.iter().map(|layer| layer.thickness.value).sum();
    let through = |layer: &Layer| -> Slot {
        let slots = [
            cell(Q::Thickness, layer.thickness.value),
            lower_first(design.material_name(layer.material)).into(),
        ];
        Phrase::new("{} of {}", slots).into()
    };
    let layers = (lining.iter().rev())
        .map(through)
        .reduce(|before, next| Phrase::new("{}, then {}", [before, next]).into());
    let slots = [bore.clone()]
        .into_iter()
        .chain([cell(Q::Length, thick)])
        .chain(layers)
        .chain([bore]);
    Phrase::new(
        "it fills and closes its hole of {}, with a seal. From the shell to the inside of the lining it is {}, and it goes through all of that in a pocket: tube that is closed at its inner end and tight at the shell. The layers from outside: {}. Make the same hole of {} in each",
        slots,
    )
    .into()
}

/// How a sleeve goes on behind its pipe: built the other way round it opens elsewhere.
fn on_its_way(hole: &Hole) -> Slot {
    match (hole.carries, offset(hole)) {
        (HoleUse::Open, _) => "".into(),
        (_, None) => {
            let words = ", at the angle of the pipe to the axis: {}";
            Phrase::new(words, [lean(hole)]).into()
        }
        (_, Some(off)) => {
            let words = ", at the angle of the pipe to the axis: {}, and set off {} like it, seen from outside";
            Phrase::new(words, [lean(hole), off.into()]).into()
        }
    }
}

/// As what it stands in the sums.
fn reckoned(design: &Design, need: Need) -> Slot {
    match need {
        Need::CoolerFan(place) => {
            let stage = design.train.get(place);
            let speed = stage.map_or(f64::NAN, |stage| stage.air_speed.value);
            let tubes = stage.map_or(f64::NAN, |stage| f64::from(stage.tubes));
            let slots = [cell(Q::Velocity, speed), cell(Q::Count, tubes)];
            let words = if CoolerDrive::Fan.has_no_load(design) {
                "air of {} between {} tubes; no electric load is entered for it"
            } else {
                "air of {} between {} tubes"
            };
            Phrase::new(words, slots).into()
        }
        Need::WaterPump(place) => {
            let flow = (design.train.get(place)).map_or(f64::NAN, |stage| stage.water_flow.value);
            let words = if CoolerDrive::Pump.has_no_load(design) {
                "{} of water through the jacket; no electric load is entered for its pump"
            } else {
                "{} of water through the jacket"
            };
            Phrase::new(words, [cell(Q::MassFlow, flow)]).into()
        }
        Need::Guard(_) | Need::StageGuard(_) => {
            "hands are kept off the hot surface: mesh or sheet around all of it".into()
        }
        Need::Shields => Phrase::new(
            "bright sheets of {} by {}, {} apart",
            [
                cell(Q::Length, design.battery_box.width.value),
                cell(Q::Length, design.battery_box.height.value),
                cell(Q::Length, design.battery_box.gap.value),
            ],
        )
        .into(),
        Need::TubeRing => match ring_around_tube(design) {
            Some(ring) => Phrase::new(
                "sheet of {}, {} outside, {} bore: welded round the top of the fire tube and laid with a rope seal on the top of the hearth wall, it closes the {} between tube and wall. Through an open gap smoke passes by the fire, and wood falls in",
                [
                    cell(Q::Thickness, ring.thickness.value),
                    cell(Q::Length, ring.outside.value),
                    cell(Q::Length, ring.bore.value),
                    cell(Q::Length, gap_around_tube(design).value),
                ],
            )
            .into(),
            None => "".into(),
        },
        Need::LinerPlate => under_liner(design),
        Need::LidNeck => neck(design),
        Need::LidRim => match lid_rim(design) {
            Some(rim) => Phrase::new(
                "strip of sheet {} thick, {} tall and {} long, around wool and outer sheet of the lid: it keeps the wool in and the rain out, and need not be tight",
                [
                    cell(Q::Thickness, rim.thickness.value),
                    cell(Q::Length, rim.tall.value),
                    cell(Q::Length, rim.around().value),
                ],
            )
            .into(),
            None => "".into(),
        },
        Need::Flanges(place) => {
            match round_flanges(design).find(|flange| flange.place == place) {
                Some(found) => flange(design, &found),
                None => "".into(),
            }
        }
        Need::TubePlates(place) => match design.train.get(place) {
            Some(stage) => {
                let bundle = bundle(stage);
                Phrase::new(
                    "plates at least {} across, each drilled for {} tubes of {} outside, {} from middle to middle; over each a box that the gas comes in or leaves by, with a cover for cleaning the tubes",
                    [
                        cell(Q::Length, bundle.across.value),
                        cell(Q::Count, f64::from(stage.tubes)),
                        cell(Q::Bore, (stage.tube_bore + 2.0 * stage.tube_wall).value),
                        cell(Q::Length, bundle.pitch.value),
                    ],
                )
                .into()
            }
            None => "".into(),
        },
        Need::DustBox(place) => match design.train.get(place) {
            Some(stage) => Phrase::new(
                "it closes the dust outlet of {} tightly, for the gas there is below the pressure of the air: what leaks in blows the dust up again, and burns. Emptied when all is cold",
                [cell(Q::Length, built(stage).dimensions().dust_outlet.value)],
            )
            .into(),
            None => "".into(),
        },
        Need::SpareFireTube => "one that the fire wears away is replaced by it".into(),
        Need::SpareNozzles => {
            "cut like the nozzles: those whose tips have burnt back are drawn and replaced".into()
        }
        Need::NozzleCaps => {
            "shut tightly, outside the shell, they end the fire; they close the nozzles for leak tests too".into()
        }
        Need::FlarePipe => Phrase::new(
            "from the branch at the blower to a burner that stands clear of all that burns: together they take {} at full gas flow",
            [cell(Q::Pressure, design.blower.flare_drop.value)],
        )
        .into(),
        Need::FlareValve => {
            "open while the gas burns at the flare, shut tightly while the engine runs and when the fire is to end".into()
        }
        Need::EngineValve => {
            "shut tightly while the gas burns at the flare and when the fire is to end".into()
        }
        Need::Mixer => {
            "just before the engine: it mixes the gas with as much air as its valve lets in, set by hand while the engine runs".into()
        }
    }
}

/// The plate under the liner of the body, and what carries it.
fn under_liner(design: &Design) -> Slot {
    let Some(plate) = liner_plate(design) else {
        return "".into();
    };
    let ring = plate.ring;
    let sizes = [
        cell(Q::Thickness, ring.thickness.value),
        cell(Q::Length, ring.outside.value),
        cell(Q::Length, ring.bore.value),
    ];
    match plate.carried {
        Carried::ByTheWall { firm, stands_out } => Phrase::new(
            "ring of sheet {} thick, {} outside, {} bore, of a steel that bears the heat of the fire tube: bedded on the firm lining of the hearth wall, {} across, it carries the liner {} beyond that, and covers the blanket there. Fibre carries nothing, and must not lie bare under the wood. Cut the liner shorter by its thickness",
            sizes.into_iter().chain([
                cell(Q::Length, firm.value),
                cell(Q::Length, stands_out.value),
            ]),
        ),
        Carried::ByTheShell => Phrase::new(
            "ring of sheet {} thick, {} outside, {} bore, of a steel that bears the heat of the fire tube: it carries the liner and covers the blanket, for fibre carries nothing and must not lie bare under the wood. Nothing firm in the hearth wall is near enough to bear it: set it on brackets at the shell, which lead out heat, so that the shell is hotter there than reckoned. Cut the liner shorter by its thickness",
            sizes,
        ),
    }
    .into()
}

/// The neck of the lid.
fn neck(design: &Design) -> Slot {
    let Some(neck) = lid_neck(design) else {
        return "".into();
    };
    Phrase::new(
        "ring of sheet {} thick, {} inside, {} tall: welded gas-tight all round to the plate of the lid that holds the gas, it carries the hopper, and keeps gas and wood out of the wool. What lies on that plate is cladding and carries nothing: cut its opening wider by twice this sheet",
        [
            cell(Q::Thickness, neck.thickness.value),
            cell(Q::Length, neck.across.value),
            cell(Q::Length, neck.tall.value),
        ],
    )
    .into()
}

/// The flanges of a bolted joint that goes once around.
fn flange(design: &Design, found: &RoundFlange) -> Slot {
    let what = match found.around {
        Around::Shell => {
            "welded tight around the top of the shell, flush with it; the plate of the lid that holds the gas is cut as wide outside and drilled alike"
        }
        Around::Neck => {
            "one welded tight around the top of the neck, one around the foot of the hopper. Tack the bolts in from below before the wool goes in: no spanner reaches them there later"
        }
        Around::Foot => {
            "welded tight around the foot of the hopper; the plate of the lid is drilled alike"
        }
        Around::Drum => {
            "welded tight around the top of the drum, flush with it; its lid is cut as wide outside and drilled alike"
        }
    };
    let entered = (design.joints.get(found.place)).map(|joint| joint.bolt_length);
    let short = entered.filter(|length| *length < found.bolt_length);
    let bolts = match short {
        Some(entered) => Phrase::new(
            "bolts at least {} long, longer than the {} entered",
            [
                cell(Q::Length, found.bolt_length.value),
                cell(Q::Length, entered.value),
            ],
        ),
        None => Phrase::new(
            "bolts at least {} long",
            [cell(Q::Length, found.bolt_length.value)],
        ),
    };
    Phrase::new(
        "ring of plate {} thick, {} outside, {} bore, {} holes of {} on a circle of {}, {} straight from one to the next: {}. It clamps {} with the gasket, which takes {}",
        [
            cell(Q::Thickness, found.thickness.value),
            cell(Q::Length, found.outside.value),
            cell(Q::Length, found.bore.value),
            cell(Q::Count, f64::from(found.bolts)),
            cell(Q::Bore, found.hole.value),
            cell(Q::Length, found.circle.value),
            cell(Q::Length, found.apart().value),
            what.into(),
            cell(Q::Thickness, found.clamps.value),
            bolts.into(),
        ],
    )
    .into()
}
