//! What layers and parts are made of: the table of materials, and the person's own.

mod table;

use super::declare::{Choice, celsius};
use super::document::Design;
use super::inputs::{Material, OwnMaterial};
use super::source::Source;
use std::ops::{Deref, DerefMut};
use thiserror::Error;
use uom::si::f64::{
    MassDensity, Ratio, SpecificHeatCapacity, TemperatureCoefficient, ThermalConductivity,
    ThermodynamicTemperature,
};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::ratio::ratio;
use uom::si::specific_heat_capacity::joule_per_kilogram_kelvin;
use uom::si::temperature_coefficient::per_kelvin;
use uom::si::thermal_conductivity::watt_per_meter_kelvin;
use uom::si::thermodynamic_temperature::kelvin;

/// A material whose conductivity stays below this everywhere counts as insulation, W/(m·K).
const INSULATION: f64 = 0.5;

/// Most points of a conductivity curve.
const MOST_POINTS: usize = 5;

/// Largest over smallest conductivity of one own material; beyond it a figure was surely mistyped.
const WIDEST_SPREAD: f64 = 30.0;

/// One point of a conductivity curve.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ConductivityAt {
    /// Mean temperature of the material.
    pub temperature: ThermodynamicTemperature,
    /// Conductivity there.
    pub conductivity: ThermalConductivity,
}

/// The points of a conductivity curve in rising order of temperature, held in place: a review looks up a hundred
/// materials.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ConductivityPoints {
    points: [ConductivityAt; MOST_POINTS],
    count: usize,
}

impl Deref for ConductivityPoints {
    type Target = [ConductivityAt];

    fn deref(&self) -> &[ConductivityAt] {
        self.points.get(..self.count).unwrap_or(&self.points)
    }
}

impl DerefMut for ConductivityPoints {
    fn deref_mut(&mut self) -> &mut [ConductivityAt] {
        let count = self.count.min(MOST_POINTS);
        self.points.split_at_mut(count).0
    }
}

impl FromIterator<ConductivityAt> for ConductivityPoints {
    /// Takes the first five.
    fn from_iter<T: IntoIterator<Item = ConductivityAt>>(given: T) -> Self {
        let mut all = Self::default();
        for (place, point) in all.points.iter_mut().zip(given) {
            *place = point;
            all.count += 1;
        }
        all
    }
}

/// The properties of a solid or loose material.
#[derive(Debug, Clone, PartialEq)]
pub struct MaterialProperties<'a> {
    /// What it is called.
    pub name: &'a str,
    /// Mass of a cubic metre as built in.
    pub density: MassDensity,
    /// Heat to warm one kilogram by one kelvin, mean over the range of use.
    pub heat_capacity: SpecificHeatCapacity,
    /// Emittance of its surface, 0 to 1.
    pub emittance: Ratio,
    /// Highest temperature it bears for long.
    pub limit: ThermodynamicTemperature,
    /// One to five points in rising order of temperature.
    pub conductivity: ConductivityPoints,
    /// Whether it holds heat back, unlike steel or dense castable.
    pub insulates: bool,
    /// Mean growth in length with heat; none where nobody knows, or where it is soft.
    pub expansion: Option<TemperatureCoefficient>,
    /// Where the values come from.
    pub source: Source,
}

/// Why a material has no properties.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum MaterialError {
    /// The air gap is no solid.
    #[error("a still air gap has no weight and no strength")]
    AirGap,
    /// An own material was chosen that has not been entered.
    #[error("own material {number} has not been entered yet")]
    NoOwnMaterial {
        /// Its place among the own materials, counted from one.
        number: usize,
    },
    /// Two conductivities of an own material stand at the same temperature.
    #[error("own material {number} gives two conductivities at the same temperature")]
    SameTemperature {
        /// Its place among the own materials, counted from one.
        number: usize,
    },
    /// The conductivities of an own material cannot all be right.
    #[error(
        "own material {number} gives conductivities more than {WIDEST_SPREAD} times apart: check the figures"
    )]
    Spread {
        /// Its place among the own materials, counted from one.
        number: usize,
    },
}

impl Design {
    /// The properties of a material: a row of the table, or one of the design's own materials.
    ///
    /// ```
    /// use hearthplan::design::{Design, inputs::Material};
    /// let design = Design::default();
    /// let steel = design.material(Material::MildSteel).unwrap();
    /// assert_eq!(steel.density.value, 7850.0);
    /// assert!(!steel.insulates);
    /// assert!(design.material(Material::Own1).is_err());
    /// ```
    ///
    /// # Errors
    /// The air gap, an own material that was not entered, or one whose conductivities cannot be right.
    pub fn material(&self, material: Material) -> Result<MaterialProperties<'_>, MaterialError> {
        let number = match material {
            Material::Own1 => 1,
            Material::Own2 => 2,
            Material::Own3 => 3,
            Material::Own4 => 4,
            _ => {
                return tabulated(material)
                    .map(|known| self.corrected(known))
                    .ok_or(MaterialError::AirGap);
            }
        };
        match self.own_materials.get(number - 1) {
            Some(own) => entered(own, number).map(|known| self.corrected(known)),
            None => Err(MaterialError::NoOwnMaterial { number }),
        }
    }

    /// Density of a material, for those who only weigh it.
    ///
    /// ```
    /// use hearthplan::design::{Design, inputs::Material};
    /// let design = Design::default();
    /// assert_eq!(design.material_density(Material::MildSteel).unwrap().value, 7850.0);
    /// assert!(design.material_density(Material::AirGap).is_err());
    /// ```
    ///
    /// # Errors
    /// As [`Design::material`].
    pub fn material_density(&self, material: Material) -> Result<MassDensity, MaterialError> {
        match table::row(material) {
            Some(row) => Ok(MassDensity::new::<kilogram_per_cubic_meter>(row.density)),
            None => self.material(material).map(|known| known.density),
        }
    }

    /// What a person calls a material: the name of an own one as it was entered.
    ///
    /// ```
    /// use hearthplan::design::{Design, inputs::{Material, OwnMaterial}};
    /// let mut design = Design::default();
    /// assert_eq!(design.material_name(Material::Own1), "Own material 1");
    /// design.own_materials.push(OwnMaterial { name: "Board from the mill".into(), ..Default::default() });
    /// assert_eq!(design.material_name(Material::Own1), "Board from the mill");
    /// ```
    pub fn material_name(&self, material: Material) -> &str {
        let place = match material {
            Material::Own1 => Some(0),
            Material::Own2 => Some(1),
            Material::Own3 => Some(2),
            Material::Own4 => Some(3),
            _ => None,
        };
        let own = place.and_then(|place| self.own_materials.get(place));
        own.map(|own| own.name.trim())
            .filter(|name| !name.is_empty())
            .unwrap_or(material.label())
    }

    /// The material with the correction that the design makes to all insulation.
    fn corrected<'a>(&self, mut known: MaterialProperties<'a>) -> MaterialProperties<'a> {
        if known.insulates {
            for point in known.conductivity.iter_mut() {
                point.conductivity = point.conductivity * self.doubt.insulation_conductivity;
            }
        }
        known
    }
}

#[cfg_attr(hearthplan_site, optimize(speed))]
fn tabulated(material: Material) -> Option<MaterialProperties<'static>> {
    let row = table::row(material)?;
    let conductivity: ConductivityPoints = row
        .conductivity
        .iter()
        .map(|&(temperature, conductivity)| ConductivityAt {
            temperature: ThermodynamicTemperature::new::<kelvin>(celsius(temperature)),
            conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(conductivity),
        })
        .collect();
    Some(MaterialProperties {
        name: material.label(),
        density: MassDensity::new::<kilogram_per_cubic_meter>(row.density),
        heat_capacity: SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(row.heat_capacity),
        emittance: Ratio::new::<ratio>(row.emittance),
        limit: ThermodynamicTemperature::new::<kelvin>(celsius(row.limit)),
        insulates: insulates(&conductivity),
        conductivity,
        expansion: (row.expansion)
            .map(|millionths| TemperatureCoefficient::new::<per_kelvin>(millionths * 1e-6)),
        source: row.source,
    })
}

fn entered(own: &OwnMaterial, number: usize) -> Result<MaterialProperties<'_>, MaterialError> {
    let pairs = [
        (Some(own.temperature_1), Some(own.conductivity_1)),
        (own.temperature_2, own.conductivity_2),
        (own.temperature_3, own.conductivity_3),
        (own.temperature_4, own.conductivity_4),
        (own.temperature_5, own.conductivity_5),
    ];
    let mut conductivity: ConductivityPoints = pairs
        .into_iter()
        .filter_map(|(temperature, conductivity)| {
            Some(ConductivityAt {
                temperature: temperature?,
                conductivity: conductivity?,
            })
        })
        .collect();
    conductivity.sort_by(|one, other| one.temperature.value.total_cmp(&other.temperature.value));
    let too_close = conductivity
        .iter()
        .zip(conductivity.iter().skip(1))
        .any(|(lower, upper)| upper.temperature.value - lower.temperature.value < 0.1);
    if too_close {
        return Err(MaterialError::SameTemperature { number });
    }
    let (least, most) = conductivity
        .iter()
        .map(|point| point.conductivity.value)
        .fold((f64::INFINITY, 0.0_f64), |(least, most), k| {
            (least.min(k), most.max(k))
        });
    if most > WIDEST_SPREAD * least {
        return Err(MaterialError::Spread { number });
    }
    Ok(MaterialProperties {
        name: &own.name,
        density: own.density,
        heat_capacity: own.heat_capacity,
        emittance: own.emittance,
        limit: own.limit,
        insulates: insulates(&conductivity),
        conductivity,
        expansion: None,
        source: Source::YourOwn,
    })
}

fn insulates(conductivity: &[ConductivityAt]) -> bool {
    conductivity
        .iter()
        .all(|point| point.conductivity.value < INSULATION)
}
