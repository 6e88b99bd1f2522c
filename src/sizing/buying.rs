//! How much of each sheet, tube, bolt and gasket is to be bought for all parts together?
//!
//! Lines of the parts list that are cut from the same stock are added up: same material, same thickness or section.
//! Amount and mass of a row belong together. Amounts are net: saw cuts, weld gaps, what falls out of rings and what is left of a sheet are not in them.

use super::machine::{Machine, density};
use super::parts_list::PartLine;
use super::standing_in::is_cut;
use super::stock::{Stock, stock};
use super::train_mass::{COPPER, FITTING_BORES};
use crate::design::Design;
use crate::design::inputs::Material;
use std::f64::consts::PI;
use uom::si::area::square_meter;
use uom::si::f64::{Area, Length, Mass};
use uom::si::mass::kilogram;

/// Sizes that differ by less are the same stock, m.
pub const ALIKE: f64 = 0.00005;

/// What is asked for in the shop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Form {
    /// Sheet, plate, blanket or board.
    Sheet {
        /// Thickness.
        thickness: Length,
    },
    /// Round tube.
    Tube {
        /// Outside diameter.
        outside: Length,
        /// Wall.
        wall: Length,
    },
    /// Square tube.
    SquareTube {
        /// Outside width.
        side: Length,
        /// Wall.
        wall: Length,
    },
    /// Bolts with nuts.
    Bolt {
        /// Outside diameter of the thread.
        thread: Length,
        /// Length under the head.
        length: Length,
    },
    /// Strip, such as gasket.
    Strip {
        /// Width.
        width: Length,
        /// Thickness.
        thickness: Length,
    },
    /// What is fitted to a pipe.
    Fitting {
        /// Which, by its place among the fittings of [`Stock::Pipe`].
        place: usize,
        /// Outside diameter of the pipe.
        outside: Length,
        /// Wall of the pipe.
        wall: Length,
    },
}

impl Form {
    /// Its two measures; none for the second of a sheet.
    fn measures(self) -> [f64; 2] {
        let [one, other] = match self {
            Form::Sheet { thickness } => [thickness, Length::default()],
            Form::Tube { outside, wall } | Form::Fitting { outside, wall, .. } => [outside, wall],
            Form::SquareTube { side, wall } => [side, wall],
            Form::Bolt { thread, length } => [thread, length],
            Form::Strip { width, thickness } => [width, thickness],
        };
        [one.value, other.value]
    }

    fn is_like(self, other: Self) -> bool {
        let fitting = |form| match form {
            Form::Fitting { place, .. } => Some(place),
            _ => None,
        };
        let same_kind = std::mem::discriminant(&self) == std::mem::discriminant(&other)
            && fitting(self) == fitting(other);
        let pairs = self.measures().into_iter().zip(other.measures());
        same_kind && pairs.into_iter().all(|(a, b)| (a - b).abs() < ALIKE)
    }
}

/// How much of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Amount {
    /// Of sheet.
    Area(Area),
    /// Of tube and strip.
    Length(Length),
    /// Of bolts and fittings.
    Count(u32),
}

impl Amount {
    fn plus(self, more: Self) -> Self {
        match (self, more) {
            (Amount::Area(one), Amount::Area(other)) => Amount::Area(one + other),
            (Amount::Length(one), Amount::Length(other)) => Amount::Length(one + other),
            (Amount::Count(one), Amount::Count(other)) => Amount::Count(one.saturating_add(other)),
            (one, _) => one,
        }
    }

    fn times(self, count: u32) -> Self {
        match self {
            Amount::Area(area) => Amount::Area(area * f64::from(count)),
            Amount::Length(length) => Amount::Length(length * f64::from(count)),
            Amount::Count(one) => Amount::Count(one.saturating_mul(count)),
        }
    }
}

/// One thing to buy.
#[derive(Debug, Clone, PartialEq)]
pub struct ToBuy {
    /// What it is made of; none where no material is entered.
    pub material: Option<Material>,
    /// What to ask for.
    pub form: Form,
    /// How much of it all parts need.
    pub amount: Amount,
    /// Mass of these parts.
    pub mass: Mass,
    /// Their names, in the order of the list.
    pub parts: Vec<String>,
}

/// What all parts are cut from, by material and size in the order of the parts list. What is bought as a whole, such as a
/// wheel, a pressed end or a blower, stands in the parts list alone.
///
/// ```
/// use hearthplan::design::Design;
/// use hearthplan::sizing::{buying, machine, parts_list::parts_list};
/// let design = Design::default();
/// let machine = machine::layout(&design);
/// let list = buying::to_buy(&design, &machine, &parts_list(&design, &machine));
/// assert!(list.iter().any(|one| matches!(one.form, buying::Form::Sheet { .. })));
/// ```
pub fn to_buy(design: &Design, machine: &Machine, parts: &[PartLine]) -> Vec<ToBuy> {
    let mut list: Vec<ToBuy> = Vec::new();
    for line in parts {
        let Some(stock) = stock(design, machine, line) else {
            continue;
        };
        // Where an other part is cut as the drum of a stage, that one is bought.
        let stood_for = matches!(stock, Stock::Drum { .. } | Stock::Cyclone { .. })
            && (line.stand_in.and_then(|index| design.parts.get(index))).is_some_and(is_cut);
        if stood_for {
            continue;
        }
        for bought in bought(design, line, &stock) {
            let like =
                |one: &&mut ToBuy| one.material == bought.material && one.form.is_like(bought.form);
            match list.iter_mut().find(like) {
                Some(one) => {
                    one.amount = one.amount.plus(bought.amount);
                    one.mass += bought.mass;
                    if !one.parts.contains(&line.name) {
                        one.parts.push(line.name.clone());
                    }
                }
                None => list.push(bought),
            }
        }
    }
    list
}

/// How much sheet, blanket or wool all of one line is cut from; none where it is cut from something else.
pub fn sheet_area(design: &Design, machine: &Machine, line: &PartLine) -> Option<Area> {
    let (_, amount) = cut_from(line, &stock(design, machine, line)?)?;
    match amount.times(line.count) {
        Amount::Area(area) => Some(area),
        Amount::Length(_) | Amount::Count(_) => None,
    }
}

/// What is bought for one line: what it is cut from, and what is fitted to it.
fn bought(design: &Design, line: &PartLine, stock: &Stock) -> Vec<ToBuy> {
    let row = |material: Option<Material>, (form, amount): (Form, Amount), mass: Mass| ToBuy {
        material,
        form,
        amount,
        mass,
        parts: vec![line.name.clone()],
    };
    let Some((form, amount)) = cut_from(line, stock) else {
        return Vec::new();
    };
    let cut = (form, amount.times(line.count));
    let mut rows = vec![row(line.material, cut, cut_mass(design, line, stock, cut))];
    match *stock {
        Stock::Pipe {
            outside,
            wall,
            fittings,
            ..
        } => {
            let counted = (fittings.into_iter().zip(FITTING_BORES)).enumerate();
            rows.extend(counted.filter(|(_, (count, _))| *count > 0).map(
                |(place, (count, bores))| {
                    let form = Form::Fitting {
                        place,
                        outside,
                        wall,
                    };
                    let as_long = (outside - 2.0 * wall) * bores * f64::from(count);
                    let mass = steel_of(
                        design,
                        line,
                        Form::Tube { outside, wall },
                        Amount::Length(as_long),
                    );
                    let amount = Amount::Count(count).times(line.count);
                    row(line.material, (form, amount), mass.unwrap_or_default())
                },
            ));
        }
        Stock::Tubes {
            jacket: Some(jacket),
            ..
        } => {
            let (material, thickness) = (Material::MildSteel, jacket.sheet);
            let volume = (jacket.area * thickness).value;
            rows.push(row(
                Some(material),
                (Form::Sheet { thickness }, Amount::Area(jacket.area)),
                Mass::new::<kilogram>(density(design, material) * volume),
            ));
        }
        _ => {}
    }
    rows
}

/// Mass of what is cut for a line, where more than that is in its mass: the ends, the bed or the cloth, fittings, a jacket.
/// No more than the scales tell of all of it.
fn cut_mass(
    design: &Design,
    line: &PartLine,
    stock: &Stock,
    (form, amount): (Form, Amount),
) -> Mass {
    let more = matches!(
        stock,
        Stock::Drum { .. }
            | Stock::Cyclone { .. }
            | Stock::Pipe { .. }
            | Stock::Tubes {
                jacket: Some(_),
                ..
            }
    );
    let cut = (more.then(|| steel_of(design, line, form, amount))).flatten();
    cut.map_or(line.mass, |cut| cut.min(line.mass))
}

/// What so much sheet or tube of the material of a line weighs; none for other forms, and where no material is known.
fn steel_of(design: &Design, line: &PartLine, form: Form, amount: Amount) -> Option<Mass> {
    let volume = match (form, amount) {
        (Form::Sheet { thickness }, Amount::Area(area)) => thickness * area,
        (Form::Tube { outside, wall }, Amount::Length(length)) => {
            PI * (outside - wall) * wall * length
        }
        _ => return None,
    };
    let density = match (line.material, form) {
        (Some(material), _) => density(design, material),
        (None, Form::Tube { .. }) => COPPER,
        (None, _) => return None,
    };
    Some(Mass::new::<kilogram>(density * volume.value))
}

/// What one piece is cut from; none where it is bought as it is.
fn cut_from(line: &PartLine, stock: &Stock) -> Option<(Form, Amount)> {
    let sheet = |thickness: Length, area: Area| (Form::Sheet { thickness }, Amount::Area(area));
    let is_metal = line.material.is_some_and(Material::is_metal);
    Some(match *stock {
        Stock::Tube {
            outside,
            wall,
            length,
        } => match stock.unrolled() {
            Some(unrolled) => sheet(wall, unrolled * length),
            // Wool and board are laid round, however thick.
            None if line.material.is_some() && !is_metal => {
                sheet(wall, PI * (outside - wall) * length)
            }
            None => (Form::Tube { outside, wall }, Amount::Length(length)),
        },
        Stock::Disc {
            diameter,
            thickness,
        } => sheet(thickness, circle(diameter)),
        Stock::Ring {
            outside,
            bore,
            thickness,
        } => sheet(thickness, circle(outside) - circle(bore.min(outside))),
        Stock::Cone {
            foot,
            top,
            height,
            sheet: thickness,
        } => {
            let run = 0.5 * (foot - top).value;
            let slant = height.value.hypot(run);
            let mean = 0.5 * (foot + top) - thickness;
            let area = PI * mean.value.max(0.0) * slant;
            sheet(thickness, Area::new::<square_meter>(area))
        }
        Stock::Plate {
            width,
            depth,
            thickness,
        } => sheet(thickness, width * depth),
        Stock::Case {
            width,
            depth,
            height,
            sheet: thickness,
        } => {
            let sides = width * depth + depth * height + height * width;
            sheet(thickness, 2.0 * sides)
        }
        Stock::SquareTube {
            side,
            wall,
            ref cuts,
        } => {
            let length = cuts.iter().map(|(count, cut)| *cut * f64::from(*count));
            (
                Form::SquareTube { side, wall },
                Amount::Length(length.sum()),
            )
        }
        Stock::Bolt { thread, length } => (Form::Bolt { thread, length }, Amount::Count(1)),
        Stock::Strip {
            length,
            width,
            thickness,
        } => (Form::Strip { width, thickness }, Amount::Length(length)),
        Stock::Pipe {
            outside,
            wall,
            length,
            ..
        } => (Form::Tube { outside, wall }, Amount::Length(length)),
        Stock::Tubes {
            count,
            outside,
            wall,
            length,
            ..
        } => (
            Form::Tube { outside, wall },
            Amount::Length(length * f64::from(count)),
        ),
        Stock::Drum {
            bore,
            height,
            sheet: thickness,
            ..
        } => {
            let shell = PI * (bore + thickness) * height;
            sheet(thickness, shell + 2.0 * circle(bore + 2.0 * thickness))
        }
        Stock::Cyclone {
            sheet: thickness,
            area,
            ..
        } => sheet(thickness, area),
        Stock::Dish { .. } | Stock::Block { .. } | Stock::Wheel { .. } => return None,
    })
}

fn circle(diameter: Length) -> Area {
    0.25 * PI * diameter * diameter
}
