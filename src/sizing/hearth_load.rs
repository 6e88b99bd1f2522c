//! How hard is the hearth worked, and what does the published table say about its shape?
//!
//! Hearth load is the gas flow per area of the narrowest bore, the trade's Nm³/h per cm². It is a velocity: that of
//! the gas in an empty throat at 0 °C and 101.325 kPa, and is held as one here (1 Nm³/(h·cm²) = 2.778 m/s).

use super::fire_tube_table::{FIRE_TUBES, FireTubeRow};
use super::hearth_table::{FAMILIES, Family, HearthRow};
use std::f64::consts::PI;
use uom::si::f64::{Length, MassRate, Power, Ratio, Velocity, VolumeRate};
use uom::si::length::{inch, meter, millimeter};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::power::watt;
use uom::si::ratio::ratio;
use uom::si::velocity::meter_per_second;
use uom::si::volume_rate::cubic_meter_per_second;

/// SI value of one normal cubic metre per hour.
const NORMAL_CUBIC_METRE_PER_HOUR: f64 = 1.0 / 3600.0;

/// Watts in one horsepower of the fire tube table.
const HORSEPOWER: f64 = 745.7;

/// Gas flow per area of a round bore: `B = Q / (π/4 d²)`, FAO Forestry Paper 72, from memory.
///
/// `flow` is counted at 0 °C and 101.325 kPa, dry. A bore of zero gives an infinite load.
///
/// ```
/// use hearthplan::sizing::hearth_load::hearth_load;
/// use uom::si::{f64::*, length::millimeter, velocity::meter_per_second, volume_rate::cubic_meter_per_hour};
/// let load = hearth_load(VolumeRate::new::<cubic_meter_per_hour>(30.0), Length::new::<millimeter>(60.0));
/// let per_square_centimetre = load.get::<meter_per_second>() * 3600.0 * 1.0e-4;
/// assert!((per_square_centimetre - 1.061).abs() < 0.001);
/// ```
pub fn hearth_load(flow: VolumeRate, bore: Length) -> Velocity {
    Velocity::new::<meter_per_second>(4.0 * flow.value / (PI * bore.value * bore.value))
}

/// The bore that carries a gas flow at a wanted hearth load: `d = √(4 Q / (π B))`.
///
/// ```
/// use hearthplan::sizing::hearth_load::size_throat;
/// use uom::si::{f64::*, length::millimeter, velocity::meter_per_second, volume_rate::cubic_meter_per_hour};
/// let load = Velocity::new::<meter_per_second>(0.9 / 3600.0 / 1.0e-4);
/// let throat = size_throat(VolumeRate::new::<cubic_meter_per_hour>(44.0), load);
/// assert!((throat.get::<millimeter>() - 78.9).abs() < 0.1);
/// ```
pub fn size_throat(flow: VolumeRate, load: Velocity) -> Length {
    Length::new::<meter>((4.0 * flow.value / (PI * load.value)).sqrt())
}

/// The gas flow that a bore carries at a wanted hearth load: `Q = B π/4 d²`.
///
/// ```
/// use hearthplan::sizing::hearth_load::{gas_carried, hearth_load};
/// use uom::si::{f64::*, length::millimeter, volume_rate::cubic_meter_per_hour};
/// let (flow, bore) = (VolumeRate::new::<cubic_meter_per_hour>(30.0), Length::new::<millimeter>(60.0));
/// let carried = gas_carried(bore, hearth_load(flow, bore));
/// assert!((carried.get::<cubic_meter_per_hour>() - 30.0).abs() < 1e-9);
/// ```
pub fn gas_carried(bore: Length, load: Velocity) -> VolumeRate {
    VolumeRate::new::<cubic_meter_per_second>(PI / 4.0 * bore.value * bore.value * load.value)
}

/// Where a size lies with respect to a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TablePlace {
    /// Between the smallest and the largest row.
    Inside,
    /// Smaller than the smallest row; the proportions of that row are kept.
    Below,
    /// Larger than the largest row; the proportions of that row are kept.
    Above,
}

impl TablePlace {
    /// The throat where the table of constricted hearths ends on this side; none inside it.
    pub fn edge(self) -> Option<Length> {
        let throat = |row: &HearthRow| Length::new::<millimeter>(row.throat);
        match self {
            TablePlace::Inside => None,
            TablePlace::Below => Some(throat(&FAMILIES[0][0])),
            TablePlace::Above => Some(throat(&FAMILIES[2][3])),
        }
    }
}

/// A constricted hearth in the proportions of the published table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TableHearth {
    /// Whether the throat lies inside the table.
    pub place: TablePlace,
    /// The throat at which the rows of its family end, where the table holds the throat in other families alone; the
    /// proportions of the row there are kept.
    pub family_end: Option<Length>,
    /// Throat diameter.
    pub throat: Length,
    /// Fire tube diameter at the nozzles.
    pub nozzle_ring: Length,
    /// Diameter below the throat.
    pub below_throat: Length,
    /// Height of the nozzle plane above the throat.
    pub nozzle_height: Length,
    /// Height of the reduction zone.
    pub reduction_height: Length,
    /// Number of nozzles.
    pub nozzle_count: u32,
    /// Bore of each nozzle.
    pub nozzle_bore: Length,
    /// Largest gas flow, at 0 °C and 101.325 kPa.
    pub gas_most: VolumeRate,
    /// Smallest gas flow, at 0 °C and 101.325 kPa.
    pub gas_least: VolumeRate,
    /// Largest wood use.
    pub wood_most: MassRate,
    /// Air velocity in the nozzles at the largest gas flow.
    pub blast_velocity: Velocity,
}

impl TableHearth {
    /// Area of all nozzles as a share of the throat's area.
    pub fn area_ratio(&self) -> Ratio {
        area_ratio(self.nozzle_count, self.nozzle_bore, self.throat)
    }

    /// How far the throat at which its family ends is from the throat, as a share of the throat; 0 inside the family.
    pub fn past_family(&self) -> f64 {
        (self.family_end).map_or(0.0, |end| ((end / self.throat).value - 1.0).abs())
    }

    /// The bore of each of `count` nozzles that keeps the table's nozzle area.
    pub fn bore_for(&self, count: u32) -> Length {
        self.nozzle_bore * (f64::from(self.nozzle_count) / f64::from(count.max(1))).sqrt()
    }
}

/// Area of all nozzles as a share of the throat's area: `A dm² / dh²`.
///
/// ```
/// use hearthplan::sizing::hearth_load::area_ratio;
/// use uom::si::{f64::Length, length::millimeter};
/// let [bore, throat] = [10.0, 100.0].map(Length::new::<millimeter>);
/// assert!((area_ratio(5, bore, throat).value - 0.05).abs() < 1e-12);
/// ```
pub fn area_ratio(nozzle_count: u32, nozzle_bore: Length, throat: Length) -> Ratio {
    let bores = nozzle_bore.value / throat.value;
    Ratio::new::<ratio>(f64::from(nozzle_count) * bores * bores)
}

/// The hearths of the table that one of this throat may be held against, one of each family (rows that share a nozzle
/// ring), interpolated on the throat between its rows: SERI/SP-271-3022 (1988), table 5-1, from memory.
///
/// Where a family does not hold a throat that the table holds elsewhere, the proportions of its nearest row are kept, and
/// `family_end` says so. A throat outside the whole table keeps the proportions of the nearest row of all, gas flow growing
/// with throat area, and says so in `place`; there all three are the same. Each follows the throat without a jump, so that
/// what is nearest to a hearth does too.
///
/// ```
/// use hearthplan::sizing::hearth_load::{TablePlace, table_hearths};
/// use uom::si::{f64::*, length::millimeter};
/// let [small, medium, _] = table_hearths(Length::new::<millimeter>(70.0));
/// assert_eq!((small.place, small.family_end), (TablePlace::Inside, None));
/// assert!((small.below_throat.get::<millimeter>() - 163.0).abs() < 1e-9);
/// assert_eq!(medium.family_end, Some(Length::new::<millimeter>(100.0)));
/// ```
pub fn table_hearths(throat: Length) -> [TableHearth; 3] {
    let wanted = settled(throat.get::<millimeter>());
    if !FAMILIES.iter().any(|family| holds(family, wanted)) {
        return [outside(wanted); 3];
    }
    FAMILIES.map(|family| {
        let end = match wanted {
            _ if holds(&family, wanted) => return interpolated(&family, wanted),
            _ if wanted > family[3].throat => &family[3],
            _ => &family[0],
        };
        TableHearth {
            family_end: Some(Length::new::<millimeter>(end.throat)),
            ..scaled(end, wanted, TablePlace::Inside)
        }
    })
}

/// Whether a throat in mm lies between the rows of a family.
fn holds(family: &Family, throat: f64) -> bool {
    (family[0].throat..=family[3].throat).contains(&throat)
}

/// A full set of dimensions for a gas flow at a wanted hearth load.
///
/// The throat is sized by [`size_throat`]; where two families of the table hold it, the smaller ring is taken, because
/// it is the smaller machine.
///
/// ```
/// use hearthplan::sizing::hearth_load::recommended_hearth;
/// use uom::si::{f64::*, length::millimeter, velocity::meter_per_second, volume_rate::cubic_meter_per_hour};
/// let load = Velocity::new::<meter_per_second>(0.9 / 3600.0 / 1.0e-4);
/// let hearth = recommended_hearth(VolumeRate::new::<cubic_meter_per_hour>(44.0), load);
/// assert!((hearth.nozzle_ring.get::<millimeter>() - 268.0).abs() < 1e-9);
/// assert_eq!(hearth.nozzle_count, 5);
/// ```
pub fn recommended_hearth(flow: VolumeRate, load: Velocity) -> TableHearth {
    let throat = settled(size_throat(flow, load).get::<millimeter>());
    (FAMILIES.iter())
        .find(|family| holds(family, throat))
        .map_or_else(|| outside(throat), |family| interpolated(family, throat))
}

/// A hearth outside the table.
fn outside(throat: f64) -> TableHearth {
    let smallest = &FAMILIES[0][0];
    let largest = &FAMILIES[2][3];
    if throat > largest.throat {
        scaled(largest, throat, TablePlace::Above)
    } else {
        scaled(smallest, throat, TablePlace::Below)
    }
}

/// A row grown or shrunk as a whole.
fn scaled(row: &HearthRow, throat: f64, place: TablePlace) -> TableHearth {
    let scale = throat / row.throat;
    let millimetres = |length: f64| Length::new::<millimeter>(length * scale);
    TableHearth {
        place,
        family_end: None,
        throat: millimetres(row.throat),
        nozzle_ring: millimetres(row.nozzle_ring),
        below_throat: millimetres(row.below_throat),
        nozzle_height: millimetres(row.nozzle_height),
        reduction_height: millimetres(row.reduction_height),
        nozzle_count: row.nozzle_count,
        nozzle_bore: millimetres(row.nozzle_bore),
        gas_most: per_hour(row.gas_most * scale * scale),
        gas_least: per_hour(row.gas_least * scale * scale),
        wood_most: kilograms_per_hour(row.wood_most * scale * scale),
        blast_velocity: Velocity::new::<meter_per_second>(row.blast_velocity),
    }
}

/// A hearth between two rows of a family.
fn interpolated(family: &Family, throat: f64) -> TableHearth {
    let upper = family
        .iter()
        .skip(1)
        .position(|row| throat <= row.throat)
        .unwrap_or(2);
    let (small, large) = (&family[upper.min(2)], &family[upper.min(2) + 1]);
    let share = (throat - small.throat) / (large.throat - small.throat);
    let between = |column: fn(&HearthRow) -> f64| {
        let (low, high) = (column(small), column(large));
        low + (high - low) * share
    };
    let millimetres = |column| Length::new::<millimeter>(between(column));
    TableHearth {
        place: TablePlace::Inside,
        family_end: None,
        throat: Length::new::<millimeter>(throat),
        nozzle_ring: millimetres(|row| row.nozzle_ring),
        below_throat: millimetres(|row| row.below_throat),
        nozzle_height: millimetres(|row| row.nozzle_height),
        reduction_height: millimetres(|row| row.reduction_height),
        nozzle_count: small.nozzle_count,
        nozzle_bore: millimetres(|row| row.nozzle_bore),
        gas_most: per_hour(between(|row| row.gas_most)),
        gas_least: per_hour(between(|row| row.gas_least)),
        wood_most: kilograms_per_hour(between(|row| row.wood_most)),
        blast_velocity: Velocity::new::<meter_per_second>(between(|row| row.blast_velocity)),
    }
}

/// A number without the dust of unit conversion, so that a size that stands in a table counts as inside it.
fn settled(number: f64) -> f64 {
    (number * 1.0e9).round() / 1.0e9
}

fn per_hour(normal_cubic_metres: f64) -> VolumeRate {
    VolumeRate::new::<cubic_meter_per_second>(normal_cubic_metres * NORMAL_CUBIC_METRE_PER_HOUR)
}

fn kilograms_per_hour(kilograms: f64) -> MassRate {
    MassRate::new::<kilogram_per_second>(kilograms / 3600.0)
}

/// What the fire tube table says about a bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TableTube {
    /// Whether the bore lies inside the table.
    pub place: TablePlace,
    /// Least length of the tube.
    pub least_length: Length,
    /// Power on petrol of the engine it feeds.
    pub engine_power: Power,
}

/// The straight fire tube of the table for a bore, interpolated between rows: Construction of a Simplified Wood Gas
/// Generator, FEMA/ORNL 1989, from memory.
///
/// A bore outside the table keeps the nearest row: its length, and its power per area.
///
/// ```
/// use hearthplan::sizing::hearth_load::table_tube;
/// use uom::si::{f64::*, length::inch, power::watt};
/// let tube = table_tube(Length::new::<inch>(6.0));
/// assert!((tube.least_length.get::<inch>() - 16.0).abs() < 1e-9);
/// assert!((tube.engine_power.get::<watt>() - 30.0 * 745.7).abs() < 1e-6);
/// ```
pub fn table_tube(bore: Length) -> TableTube {
    let wanted = settled(bore.get::<inch>());
    let tube = |place, length: f64, horsepower: f64| TableTube {
        place,
        least_length: Length::new::<inch>(length),
        engine_power: Power::new::<watt>(horsepower * HORSEPOWER),
    };
    let outside = |place, row: &FireTubeRow| {
        let scale = wanted / row.bore;
        tube(place, row.least_length, row.engine_power * scale * scale)
    };
    let inside = FIRE_TUBES
        .iter()
        .zip(FIRE_TUBES.iter().skip(1))
        .find(|(small, large)| (small.bore..=large.bore).contains(&wanted));
    match inside {
        Some((small, large)) => {
            let share = (wanted - small.bore) / (large.bore - small.bore);
            tube(
                TablePlace::Inside,
                small.least_length + (large.least_length - small.least_length) * share,
                small.engine_power + (large.engine_power - small.engine_power) * share,
            )
        }
        None if wanted > FIRE_TUBES[10].bore => outside(TablePlace::Above, &FIRE_TUBES[10]),
        None => outside(TablePlace::Below, &FIRE_TUBES[0]),
    }
}

/// The straight fire tube of the table that feeds an engine of this power on petrol: [`table_tube`] the other way round.
///
/// ```
/// use hearthplan::sizing::hearth_load::{table_tube, tube_for_engine};
/// use uom::si::{f64::*, length::inch};
/// let bore = Length::new::<inch>(8.5);
/// let back = tube_for_engine(table_tube(bore).engine_power);
/// assert!((back.get::<inch>() - 8.5).abs() < 1e-9);
/// ```
pub fn tube_for_engine(power: Power) -> Length {
    let wanted = settled(power.get::<watt>() / HORSEPOWER);
    let scaled = |row: &FireTubeRow| row.bore * (wanted / row.engine_power).sqrt();
    let inside = FIRE_TUBES
        .iter()
        .zip(FIRE_TUBES.iter().skip(1))
        .find(|(small, large)| (small.engine_power..=large.engine_power).contains(&wanted));
    Length::new::<inch>(match inside {
        Some((small, large)) => {
            let share = (wanted - small.engine_power) / (large.engine_power - small.engine_power);
            small.bore + (large.bore - small.bore) * share
        }
        None if wanted > FIRE_TUBES[10].engine_power => scaled(&FIRE_TUBES[10]),
        None => scaled(&FIRE_TUBES[0]),
    })
}
