//! How long until the hearth wall holds its heat, and how much wood does that take?
//!
//! The wall starts at air temperature. Its hot face rises in a straight line over the time a fire takes to fill the
//! hearth and then stays. Heat moves through the same layers as in the steady state, see
//! [`crate::physics::transient`]. The wall counts as warm when it has nine tenths of the heat it will store.

use super::shell::{ShellError, ZoneShell};
use super::zone::Zone;
use crate::design::Design;
use crate::physics::solve;
use crate::physics::transient::{Fineness, HotFace, OutsideLoss, WarmUpCase, warm_up as follow};
use uom::si::energy::joule;
use uom::si::f64::{AvailableEnergy, Energy, Mass, ThermodynamicTemperature, Time};
use uom::si::time::second;

/// Time a fire takes to fill a small hearth, s. Common practice, no source.
pub const FIRE_BUILDS_UP: f64 = 600.0;

/// Share of the stored heat at which the wall counts as warm.
pub const WARM: f64 = 0.9;

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
    /// From lighting until the wall counts as warm.
    pub time: Time,
    /// Heat the wall has taken in by then.
    pub energy: Energy,
    /// Heat it stores in the end.
    pub stored: Energy,
    /// Wood that holds as much heat as the wall has taken in.
    pub wood: Mass,
}

/// Time and heat to warm the hearth wall up to a temperature of its inside, within 5 % of a fine calculation for walls
/// as they are built; `wood_heat` is the heat in a kilogram of wood.
///
/// ```
/// use hearthplan::{design::Design, sizing::warm_up::warm_up};
/// # use uom::si::{available_energy::megajoule_per_kilogram, f64::*, thermodynamic_temperature::degree_celsius};
/// let inside = ThermodynamicTemperature::new::<degree_celsius>(1000.0);
/// let wood_heat = AvailableEnergy::new::<megajoule_per_kilogram>(16.0);
/// let warm = warm_up(&Design::default(), inside, wood_heat)?;
/// assert!(warm.time.value > 600.0 && warm.time.value < 7200.0);
/// assert!(warm.wood.value > 0.1 && warm.wood.value < 2.0);
/// # Ok::<(), hearthplan::sizing::shell::ShellError>(())
/// ```
///
/// # Errors
/// [`ShellError`] when a layer has no usable material, no layer is solid, or a number is out of range.
pub fn warm_up(
    design: &Design,
    inside: ThermodynamicTemperature,
    wood_heat: AvailableEnergy,
) -> Result<WarmUp, ShellError> {
    with_fineness(design, inside, wood_heat, EVERY_KEYSTROKE)
}

/// As [`warm_up`], as finely as wanted.
///
/// # Errors
/// As [`warm_up`].
pub fn with_fineness(
    design: &Design,
    inside: ThermodynamicTemperature,
    wood_heat: AvailableEnergy,
    fineness: Fineness,
) -> Result<WarmUp, ShellError> {
    let shell = ZoneShell::new(design, Zone::Hearth)?;
    let physics = |reason| ShellError::Physics {
        zone: Zone::Hearth,
        reason,
    };
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
    let energy = Energy::new::<joule>(course.heat_taken(time));
    Ok(WarmUp {
        time: Time::new::<second>(time),
        energy,
        stored: Energy::new::<joule>(stored),
        wood: energy / wood_heat,
    })
}
