//! How long does the hearth wall draw on the fire after lighting, and how much wood does that take?
//!
//! The wall starts at air temperature. Its hot face rises in a straight line over the time a fire takes to fill the
//! hearth and then stays. Heat moves through the same layers as in the steady state, see
//! [`crate::physics::transient`]. The wall counts as warm once it takes no more heat than a running fire can spare, or
//! little more than it will lose for ever. What its outer layers still store by and by is no matter: a thick blanket is
//! filled after hours, but hot on its inside within minutes.
//!
//! A fire gives only so much: of its heat at the lighting flow a share goes into wall, steel and char, and the rest leaves
//! with the gas, which must burn at the flare. Whichever takes longer counts.

use super::gas::CHAR_HEAT_CAPACITY;
use super::machine::{Substance, hearth_solids};
use super::shell::{ShellError, ZoneShell};
use super::zone::Zone;
use crate::design::Design;
use crate::physics::error::within;
use crate::physics::transient::{Fineness, HotFace, OutsideLoss, WarmUpCase, warm_up as follow};
use uom::si::energy::joule;
use uom::si::f64::{AvailableEnergy, Energy, Mass, Power, ThermodynamicTemperature, Time};
use uom::si::power::watt;
use uom::si::time::second;

/// Time a fire takes to fill a small hearth, s. Common practice, no source.
pub const FIRE_BUILDS_UP: f64 = 600.0;

/// How much more than it loses for ever a warm wall may take in. Our own mark.
pub const NEARLY_STEADY: f64 = 1.1;

/// Most of the fire's heat that wall, steel and char can take while the gas still burns at the flare. Our own mark.
pub const SHARE_OF_FIRE: f64 = 0.25;

/// Coarse enough for every keystroke; for walls as they are built times come within 10 % of a fine calculation, heat
/// within 6 %.
const EVERY_KEYSTROKE: Fineness = Fineness {
    cells_per_layer: 6,
    steps: 40,
};

/// Warming up of the hearth wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WarmUp {
    /// From lighting until the wall counts as warm: the longer of the next two.
    pub time: Time,
    /// Time until the wall takes no more heat than it counts as warm with, however large the fire.
    pub through_wall: Time,
    /// Heat flow into the wall with which it counts as warm.
    pub spared: Power,
    /// Heat that the wall loses for ever once all of it is warm.
    pub steady_loss: Power,
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
    /// Heat flow that the hearth can spare for its wall once it runs, 0 to 1 GW.
    pub spare: Power,
}

/// Time and heat to warm the hearth wall up to a temperature of its inside, times within 10 %
/// and heat within 6 % of a fine calculation for walls as they are built. Never shorter than the fire takes to fill the hearth.
///
/// ```
/// use hearthplan::{design::Design, sizing::warm_up::{LightingFire, warm_up}};
/// # use uom::si::{available_energy::megajoule_per_kilogram, f64::*, power::kilowatt};
/// # use uom::si::thermodynamic_temperature::degree_celsius;
/// let inside = ThermodynamicTemperature::new::<degree_celsius>(1000.0);
/// let fire = |kilowatts: f64| LightingFire {
///     wood_heat: AvailableEnergy::new::<megajoule_per_kilogram>(16.0),
///     power: Power::new::<kilowatt>(kilowatts),
///     spare: Power::new::<kilowatt>(2.0),
/// };
/// let warm = warm_up(&Design::default(), inside, fire(20.0))?;
/// assert!(warm.time.value >= 600.0 && warm.time.value < 7200.0);
/// assert!(warm.wood.value > 0.1 && warm.wood.value < 3.0);
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
    let spare = within("heat spared for the wall", "W", fire.spare.value, 0.0, 1e9);
    let spare = spare.map_err(physics)?;
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
    let spared = spare.max(NEARLY_STEADY * course.steady_loss());
    let time = (course.draws_until(spared).unwrap_or(end)).max(FIRE_BUILDS_UP);
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
        spared: Power::new::<watt>(spared),
        steady_loss: Power::new::<watt>(course.steady_loss()),
        stored: Energy::new::<joule>(course.heat_taken(end) - course.heat_lost(end)),
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
