//! How long until the hearth wall holds its heat, and how much wood does that take?
//!
//! The wall starts at air temperature. Its hot face rises in a straight line over the time a fire takes to fill the
//! hearth and then stays. Heat moves through the same layers as in the steady state, see
//! [`crate::physics::transient`]. The wall counts as warm when it has nine tenths of the heat it will store.
//!
//! A fire gives only so much: of its heat at the lighting flow a share goes into wall, steel and char, and the rest leaves
//! with the gas, which must burn at the flare. Whichever takes longer counts.

use super::gas::CHAR_HEAT_CAPACITY;
use super::machine::{Substance, hearth_solids};
use super::shell::{ShellError, ZoneShell};
use super::zone::Zone;
use crate::design::Design;
use crate::physics::error::within;
use crate::physics::solve;
use crate::physics::transient::{Fineness, HotFace, OutsideLoss, WarmUpCase, warm_up as follow};
use uom::si::energy::joule;
use uom::si::f64::{AvailableEnergy, Energy, Mass, Power, ThermodynamicTemperature, Time};
use uom::si::time::second;

/// Time a fire takes to fill a small hearth, s. Common practice, no source.
pub const FIRE_BUILDS_UP: f64 = 600.0;

/// Share of the stored heat at which the wall counts as warm.
pub const WARM: f64 = 0.9;

/// Most of the fire's heat that wall, steel and char can take while the gas still burns at the flare. Our own mark.
pub const SHARE_OF_FIRE: f64 = 0.25;

/// Smallest stored heat worth waiting for, J.
const NOTHING: f64 = 1.0;

/// Coarse enough for every keystroke; within 5 % of a fine calculation for walls as they are built.
const EVERY_KEYSTROKE: Fineness = Fineness {
    cells_per_layer: 6,
    steps: 40,
};

/// Warming up of the hearth wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WarmUp {
    /// From lighting until the wall counts as warm: the longer of the next two.
    pub time: Time,
    /// Time that the heat takes into the wall, however large the fire.
    pub through_wall: Time,
    /// Time in which the fire gives all the heat taken in.
    pub by_fire: Time,
    /// Heat that wall, steel and char have taken in by then.
    pub energy: Energy,
    /// What steel and char inside the wall take of it.
    pub hearth: Energy,
    /// Heat the wall stores in the end.
    pub stored: Energy,
    /// Wood that holds as much heat as was taken in.
    pub wood: Mass,
}

impl WarmUp {
    /// Whether the fire is what makes it wait.
    pub fn waits_for_fire(&self) -> bool {
        self.by_fire > self.through_wall
    }
}

/// The fire that warms a hearth up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LightingFire {
    /// Heat in a kilogram of wood.
    pub wood_heat: AvailableEnergy,
    /// Heat in the wood that burns at the lighting flow, 1 W to 1 GW.
    pub power: Power,
}

/// Time and heat to warm the hearth wall up to a temperature of its inside, within 5 % of a fine calculation for walls
/// as they are built.
///
/// ```
/// use hearthplan::{design::Design, sizing::warm_up::{LightingFire, warm_up}};
/// # use uom::si::{available_energy::megajoule_per_kilogram, f64::*, power::kilowatt};
/// # use uom::si::thermodynamic_temperature::degree_celsius;
/// let inside = ThermodynamicTemperature::new::<degree_celsius>(1000.0);
/// let fire = |kilowatts: f64| LightingFire {
///     wood_heat: AvailableEnergy::new::<megajoule_per_kilogram>(16.0),
///     power: Power::new::<kilowatt>(kilowatts),
/// };
/// let warm = warm_up(&Design::default(), inside, fire(20.0))?;
/// assert!(warm.time.value > 600.0 && warm.time.value < 7200.0);
/// assert!(warm.wood.value > 0.1 && warm.wood.value < 2.0);
/// let small = warm_up(&Design::default(), inside, fire(5.0))?;
/// assert!(small.waits_for_fire() && small.time > warm.time);
/// # Ok::<(), hearthplan::sizing::shell::ShellError>(())
/// ```
///
/// # Errors
/// [`ShellError`] when a layer has no usable material, no layer is solid, or a number is out of range.
pub fn warm_up(
    design: &Design,
    inside: ThermodynamicTemperature,
    fire: LightingFire,
) -> Result<WarmUp, ShellError> {
    with_fineness(design, inside, fire, EVERY_KEYSTROKE)
}

/// As [`warm_up`], as finely as wanted.
///
/// # Errors
/// As [`warm_up`].
pub fn with_fineness(
    design: &Design,
    inside: ThermodynamicTemperature,
    fire: LightingFire,
    fineness: Fineness,
) -> Result<WarmUp, ShellError> {
    let shell = ZoneShell::new(design, Zone::Hearth)?;
    let physics = |reason| ShellError::Physics {
        zone: Zone::Hearth,
        reason,
    };
    let power = within("heat of the lighting fire", "W", fire.power.value, 1.0, 1e9);
    let power = power.map_err(physics)?;
    let case = WarmUpCase {
        stack: shell.stack(),
        stores: shell.stores(),
        start: design.site.air_temperature.value,
        hot_face: HotFace {
            temperature: inside.value,
            ramp: FIRE_BUILDS_UP,
        },
        outside: OutsideLoss::Air(*shell.outside()),
        duration: None,
    };
    let course = follow(&case, fineness).map_err(physics)?;
    let end = course.duration();
    let stored_by = |time: f64| course.heat_taken(time) - course.heat_lost(time);
    let stored = stored_by(end);
    let time = if stored.abs() < NOTHING {
        0.0
    } else {
        let missing = |time: f64| stored_by(time) / stored - WARM;
        solve::bracketed(0.0, end, 1.0, missing)
            .map_err(physics)?
            .at
    };
    let hearth = heat_of_hearth(design, inside.value - case.start);
    let energy = Energy::new::<joule>(course.heat_taken(time)) + hearth;
    let through_wall = Time::new::<second>(time);
    let by_fire = Time::new::<second>(energy.value / (SHARE_OF_FIRE * power));
    Ok(WarmUp {
        time: through_wall.max(by_fire),
        through_wall,
        by_fire,
        energy,
        hearth,
        stored: Energy::new::<joule>(stored),
        wood: energy / fire.wood_heat,
    })
}

/// Heat that fire tube, cones, nozzles, grate and char take up by getting so many kelvins warmer.
fn heat_of_hearth(design: &Design, rise: f64) -> Energy {
    let per_kelvin: f64 = hearth_solids(design)
        .iter()
        .map(|solid| {
            let heat_capacity = match solid.substance {
                Substance::Material(material) => {
                    (design.material(material).ok()).map_or(0.0, |known| known.heat_capacity.value)
                }
                Substance::Char => CHAR_HEAT_CAPACITY,
                Substance::Wood | Substance::Fill | Substance::Unknown => 0.0,
            };
            solid.mass.value * heat_capacity
        })
        .sum();
    Energy::new::<joule>(per_kelvin * rise)
}
