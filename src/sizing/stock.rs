//! Which sizes are bought or cut for a line of the parts list?
//!
//! Sizes are those of [`machine::layout`](super::machine::layout) and of the stages of the gas train, so that what is
//! bought weighs what the list says. No allowance is made for saw cuts, weld gaps, overlaps or waste. The frame is told
//! between the middles of its corners, as it is reckoned; what its corners take off depends on how they are cut.

mod lengths;
mod parts;

use super::footprint::rolls;
use super::lid_joints::of_drum;
use super::machine::{
    Closure, Envelope, FRAME, Machine, NOZZLES, Piece, RoundEnvelope, Solid, WHEELS,
};
use super::nozzle_tube::nozzle_tube;
use super::parts_list::PartLine;
use super::train_mass::{self, Jacket};
use super::zone::Zone;
use crate::design::Design;
use crate::design::inputs::{FilterMedium, StageKind, TrainStage};
use std::f64::consts::PI;
use uom::si::f64::{Area, Length};
use uom::si::length::meter;

/// Sheet thicker than this share of its diameter is no longer rolled from flat, but bought as tube. Our own mark.
const ROLLED: f64 = 0.05;

/// Lengths that differ by less are cut alike, m.
const ALIKE: f64 = 0.0005;

/// The size of one piece of a line.
#[derive(Debug, Clone, PartialEq)]
pub enum Stock {
    /// A round tube or shell.
    Tube {
        /// Outside diameter.
        outside: Length,
        /// Wall.
        wall: Length,
        /// Length.
        length: Length,
    },
    /// A round plate.
    Disc {
        /// Diameter.
        diameter: Length,
        /// Thickness.
        thickness: Length,
    },
    /// A round plate with a hole.
    Ring {
        /// Outside diameter.
        outside: Length,
        /// Bore.
        bore: Length,
        /// Thickness.
        thickness: Length,
    },
    /// A cone of sheet without ends.
    Cone {
        /// Outside diameter below.
        foot: Length,
        /// Outside diameter above.
        top: Length,
        /// Height.
        height: Length,
        /// Thickness of the sheet.
        sheet: Length,
    },
    /// A dished end.
    Dish {
        /// Outside diameter of the rim.
        diameter: Length,
        /// Height.
        height: Length,
        /// Thickness of the sheet.
        sheet: Length,
    },
    /// A flat plate.
    Plate {
        /// Width.
        width: Length,
        /// Depth.
        depth: Length,
        /// Thickness.
        thickness: Length,
    },
    /// A closed box of sheet.
    Case {
        /// Width outside.
        width: Length,
        /// Depth outside.
        depth: Length,
        /// Height outside.
        height: Length,
        /// Thickness of the sheet.
        sheet: Length,
    },
    /// A full block, or the room that something bought takes.
    Block {
        /// Width.
        width: Length,
        /// Depth.
        depth: Length,
        /// Height.
        height: Length,
    },
    /// Square tube, cut to lengths.
    SquareTube {
        /// Outside width.
        side: Length,
        /// Wall.
        wall: Length,
        /// How many of each length, longest first.
        cuts: Vec<(u32, Length)>,
    },
    /// A wheel or castor.
    Wheel {
        /// Diameter.
        diameter: Length,
    },
    /// A bolt with its nut.
    Bolt {
        /// Outside diameter of the thread.
        thread: Length,
        /// Length under the head.
        length: Length,
    },
    /// A strip, such as a gasket.
    Strip {
        /// Length.
        length: Length,
        /// Width.
        width: Length,
        /// Thickness.
        thickness: Length,
    },
    /// Pipe, and what is fitted to it.
    Pipe {
        /// Outside diameter.
        outside: Length,
        /// Wall.
        wall: Length,
        /// Length of the straight pipe.
        length: Length,
        /// Sharp elbows, long bends, tees, valves.
        fittings: [u32; 4],
    },
    /// Tubes of a cooler.
    Tubes {
        /// How many.
        count: u32,
        /// Outside diameter.
        outside: Length,
        /// Wall.
        wall: Length,
        /// Length of each.
        length: Length,
        /// The water jacket around them; none without one.
        jacket: Option<Jacket>,
    },
    /// A drum of sheet with flat ends.
    Drum {
        /// Inside diameter.
        bore: Length,
        /// Inside height.
        height: Length,
        /// Thickness of the sheet.
        sheet: Length,
        /// Area of the cloth in it; none without cloth.
        cloth: Option<Area>,
    },
    /// Body and cone of a cyclone.
    Cyclone {
        /// Inside diameter of the body.
        bore: Length,
        /// Height of the straight body.
        body: Length,
        /// Height of the cone.
        cone: Length,
        /// Inside diameter of the dust outlet, at the foot of the cone.
        dust_outlet: Length,
        /// Thickness of the sheet.
        sheet: Length,
        /// Area of all its sheet, lid and outlet pipe too.
        area: Area,
    },
}

impl Stock {
    /// Length of the flat sheet that a shell is rolled from, along its middle surface; none for what is no shell of sheet.
    ///
    /// ```
    /// use hearthplan::sizing::stock::Stock;
    /// use uom::si::{f64::Length, length::millimeter};
    /// let mm = Length::new::<millimeter>;
    /// let shell = Stock::Tube { outside: mm(306.0), wall: mm(3.0), length: mm(400.0) };
    /// // π · 303 mm.
    /// assert!((shell.unrolled().unwrap().get::<millimeter>() - 951.9).abs() < 0.1);
    /// ```
    pub fn unrolled(&self) -> Option<Length> {
        match *self {
            Stock::Tube { outside, wall, .. } if wall <= ROLLED * outside => {
                Some(PI * (outside - wall))
            }
            _ => None,
        }
    }

    /// Length of the seam along what is rolled from flat sheet, on its slant where it is a cone; none for what has none.
    ///
    /// ```
    /// use hearthplan::sizing::stock::Stock;
    /// use uom::si::{f64::Length, length::millimeter};
    /// let mm = Length::new::<millimeter>;
    /// let cone = Stock::Cone { foot: mm(300.0), top: mm(900.0), height: mm(400.0), sheet: mm(2.0) };
    /// assert!((cone.long_seam().unwrap() - mm(500.0)).value.abs() < 1e-12);
    /// ```
    pub fn long_seam(&self) -> Option<Length> {
        let is_rolled = |outside: Length, wall: Length| wall <= ROLLED * outside;
        let slant = |foot: Length, top: Length, height: Length| (0.5 * (top - foot)).hypot(height);
        match *self {
            Stock::Tube { length, .. } => self.unrolled().map(|_| length),
            Stock::Cone {
                foot,
                top,
                height,
                sheet,
            } => (is_rolled(foot.max(top), sheet) && height.value > 0.0)
                .then(|| slant(foot, top, height)),
            Stock::Drum {
                bore,
                height,
                sheet,
                ..
            } => is_rolled(bore + 2.0 * sheet, sheet).then_some(height),
            Stock::Cyclone {
                bore,
                body,
                cone,
                dust_outlet,
                sheet,
                ..
            } => {
                is_rolled(bore + 2.0 * sheet, sheet).then(|| body + slant(dust_outlet, bore, cone))
            }
            Stock::Tubes {
                jacket: Some(jacket),
                ..
            } => is_rolled(jacket.bore + 2.0 * jacket.sheet, jacket.sheet).then_some(jacket.length),
            _ => None,
        }
    }
}

/// The size of one piece of a line; none where the design has no size for it, such as for loose fill.
///
/// ```
/// use hearthplan::design::Design;
/// use hearthplan::sizing::{machine, parts_list::parts_list, stock::{Stock, stock}};
/// let design = Design::default();
/// let machine = machine::layout(&design);
/// let lines = parts_list(&design, &machine);
/// let frame = lines.iter().find(|line| line.name == "Base frame").unwrap();
/// assert!(matches!(stock(&design, &machine, frame), Some(Stock::SquareTube { .. })));
/// ```
pub fn stock(design: &Design, machine: &Machine, line: &PartLine) -> Option<Stock> {
    let Some(piece) = line.piece else {
        let (list, index) = line.from.split_once('.')?;
        let index = index.parse::<usize>().ok()?;
        return match list {
            "train" if line.material == Some(train_mass::WOOL) => wool(design.train.get(index)?),
            "train" => stage(design.train.get(index)?),
            _ => Some(Stock::Disc {
                diameter: design.holes.get(index)?.diameter,
                thickness: design.real_vessel.sheet,
            }),
        };
    };
    let mut solids = machine.solids.iter().filter(|solid| solid.piece == piece);
    match piece {
        Piece::Part(index) => parts::part(design.parts.get(index)?, solids.next()),
        Piece::Flange(index) => {
            let flange = design.flanges.get(index)?;
            Some(Stock::Ring {
                outside: flange.outside,
                bore: flange.bore,
                thickness: flange.thickness,
            })
        }
        Piece::Bolts(index) => {
            let joint = design.joints.get(index)?;
            Some(Stock::Bolt {
                thread: joint.bolt,
                length: joint.bolt_length,
            })
        }
        Piece::Gasket(index) => {
            let joint = design.joints.get(index)?;
            Some(Stock::Strip {
                length: joint.length,
                width: joint.gasket_width,
                thickness: joint.gasket_thickness,
            })
        }
        FRAME => Some(Stock::SquareTube {
            side: design.base.frame_side,
            wall: design.base.frame_wall,
            cuts: cuts(design.base.frame_side, solids),
        }),
        WHEELS => rolls(design).then_some(Stock::Wheel {
            diameter: design.base.wheel_diameter,
        }),
        NOZZLES => match &solids.next()?.envelope {
            Envelope::Round(ring) => Some(Stock::Tube {
                outside: nozzle_tube(design).outside,
                wall: nozzle_tube(design).wall,
                length: ring.outer_bottom - ring.inner_bottom,
            }),
            Envelope::Box(_) => None,
        },
        Piece::Layer { .. } | Piece::OfSection { .. } => match &solids.next()?.envelope {
            Envelope::Round(outline) if is_open_lid(piece, outline) => Some(flat_ring(outline)),
            Envelope::Round(outline) => Some(round(outline)),
            Envelope::Box(_) => None,
        },
        Piece::Closure(closure) => match (closure, solids.next().map(|solid| &solid.envelope)) {
            (Closure::LidNeck | Closure::LidRim, Some(Envelope::Round(outline))) => {
                Some(round(outline))
            }
            (_, Some(Envelope::Round(outline))) => Some(flat_ring(outline)),
            (Closure::DrumFlange(_), None) => of_drum(design).next().map(|flange| Stock::Ring {
                outside: flange.outside,
                bore: flange.bore,
                thickness: flange.thickness,
            }),
            _ => None,
        },
    }
}

/// Whether a piece is a layer of a lid with a hopper over it: flat, though its outline is that of a short tube.
fn is_open_lid(piece: Piece, outline: &RoundEnvelope) -> bool {
    let of_lid = matches!(piece, Piece::Layer { list, .. } if list == Zone::Lid.layer_list());
    of_lid && outline.inner_bottom > Length::default()
}

/// A flat ring by its outline.
fn flat_ring(outline: &RoundEnvelope) -> Stock {
    Stock::Ring {
        outside: 2.0 * outline.outer_bottom,
        bore: 2.0 * outline.inner_bottom,
        thickness: outline.top - outline.bottom,
    }
}

/// A round piece by its outline.
fn round(outline: &RoundEnvelope) -> Stock {
    let height = outline.top - outline.bottom;
    let (foot, top) = (2.0 * outline.outer_bottom, 2.0 * outline.outer_top);
    let wall = outline.outer_bottom - outline.inner_bottom;
    if outline.inner_bottom == Length::default() && outline.inner_top == Length::default() {
        Stock::Disc {
            diameter: foot,
            thickness: height,
        }
    } else if foot == top {
        Stock::Tube {
            outside: foot,
            wall,
            length: height,
        }
    } else {
        Stock::Cone {
            foot,
            top,
            height,
            sheet: wall,
        }
    }
}

/// The lengths of the bars of this width, longest first; those alike are counted together. A leg may be shorter than it is
/// wide.
fn cuts<'a>(side: Length, bars: impl Iterator<Item = &'a Solid>) -> Vec<(u32, Length)> {
    let mut lengths: Vec<Length> = bars
        .filter_map(|bar| match bar.envelope {
            Envelope::Box(bar) => [
                bar.right - bar.left,
                bar.back - bar.front,
                bar.top - bar.bottom,
            ]
            .into_iter()
            .max_by(|one, other| {
                let off = |size: &Length| (*size - side).value.abs();
                off(one).total_cmp(&off(other))
            }),
            Envelope::Round(_) => None,
        })
        // On wheels right under it a frame has no legs.
        .filter(|length| length.value >= ALIKE)
        .collect();
    lengths.sort_by(|one, other| other.value.total_cmp(&one.value));
    let mut cuts: Vec<(u32, Length)> = Vec::new();
    for length in lengths {
        match cuts.last_mut() {
            Some((count, cut)) if (cut.value - length.value).abs() < ALIKE => *count += 1,
            _ => cuts.push((1, length)),
        }
    }
    cuts
}

/// The insulation around a stage of the gas train.
fn wool(stage: &TrainStage) -> Option<Stock> {
    let [diameter, length] = train_mass::covered_size(stage)?.map(Length::new::<meter>);
    Some(Stock::Tube {
        outside: diameter + 2.0 * stage.insulation,
        wall: stage.insulation,
        length,
    })
}

/// A stage of the gas train; none for what is bought whole.
fn stage(stage: &TrainStage) -> Option<Stock> {
    let cloth = match (stage.kind, stage.medium) {
        (StageKind::Filter, FilterMedium::Cloth) => Some(stage.cloth_area),
        _ => None,
    };
    let drum = |[bore, height]: [f64; 2]| Stock::Drum {
        bore: Length::new::<meter>(bore),
        height: Length::new::<meter>(height),
        sheet: stage.wall,
        cloth,
    };
    match stage.kind {
        StageKind::Pipe => Some(Stock::Pipe {
            outside: stage.bore + 2.0 * stage.wall,
            wall: stage.wall,
            length: stage.length,
            fittings: [stage.elbows, stage.bends, stage.tees, stage.valves],
        }),
        StageKind::Cooler => Some(Stock::Tubes {
            count: stage.tubes,
            outside: stage.tube_bore + 2.0 * stage.tube_wall,
            wall: stage.tube_wall,
            length: stage.tube_length,
            jacket: train_mass::jacket(stage),
        }),
        StageKind::Trap => Some(drum([
            stage.vessel_diameter.value,
            stage.vessel_height.value,
        ])),
        StageKind::Filter => Some(drum(train_mass::filter_size(stage))),
        StageKind::Cyclone => {
            let size = train_mass::built(stage).dimensions();
            Some(Stock::Cyclone {
                bore: size.body_diameter,
                body: size.body_height,
                cone: size.cone_height,
                dust_outlet: size.dust_outlet,
                sheet: stage.wall,
                area: train_mass::cyclone_sheet(stage),
            })
        }
        StageKind::Blower | StageKind::Measured => None,
    }
}
