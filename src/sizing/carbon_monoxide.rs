//! How much carbon monoxide gathers in a room that gas leaks into?
//!
//! The air of the room is taken as well mixed: V dC/dt = q − n V C, with q the carbon monoxide that
//! leaks in and n the air changes. Beside the leak it is worse: keep well away from it. Carbon monoxide
//! has no smell. Marks: NIOSH Pocket Guide to Chemical Hazards (from memory).

use crate::physics::error::{PhysicsError, within};
use uom::si::f64::{Frequency, Ratio, Time, Volume, VolumeRate};
use uom::si::ratio::ratio;
use uom::si::time::second;

/// Mean over a working day that NIOSH recommends not to exceed: 35 ppm.
pub const RECOMMENDED: f64 = 35.0e-6;
/// Ceiling that NIOSH recommends never to exceed: 200 ppm.
pub const CEILING: f64 = 200.0e-6;
/// Immediately dangerous to life or health (NIOSH): 1200 ppm.
pub const DANGEROUS: f64 = 1200.0e-6;

/// Gas that leaks into a room.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoomLeak {
    /// Gas that leaks out, as volume flow at room conditions, 0 to 1 m³/s.
    pub leak: VolumeRate,
    /// Share of carbon monoxide in that gas, 0 to 1.
    pub share: Ratio,
    /// Air in the room, 0.1 to 10⁶ m³.
    pub room: Volume,
    /// How often the air is renewed, 0 to 0.1 per second.
    pub air_changes: Frequency,
}

impl RoomLeak {
    /// Share of carbon monoxide in the air of the room after a time, from clean air on.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`] naming the value at fault.
    ///
    /// ```
    /// use hearthplan::sizing::carbon_monoxide::RoomLeak;
    /// use uom::si::{f64::*, frequency::hertz, ratio::percent, time::hour, volume::cubic_meter};
    /// use uom::si::volume_rate::cubic_meter_per_hour;
    /// let leak = RoomLeak {
    ///     leak: VolumeRate::new::<cubic_meter_per_hour>(0.3),
    ///     share: Ratio::new::<percent>(20.0),
    ///     room: Volume::new::<cubic_meter>(100.0),
    ///     air_changes: Frequency::new::<hertz>(0.0),
    /// };
    /// let after_an_hour = leak.after(Time::new::<hour>(1.0))?;
    /// assert!((after_an_hour.value - 600e-6).abs() < 1e-12);
    /// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
    /// ```
    pub fn after(&self, time: Time) -> Result<Ratio, PhysicsError> {
        let (rise, renewal) = self.checked()?;
        let time = within("time", "s", time.value, 0.0, 1e9)?;
        // (1 − exp(−n t)) / n without loss of digits for little air change.
        let grown = if renewal > 0.0 {
            -(-renewal * time).exp_m1() / renewal
        } else {
            time
        };
        Ok(Ratio::new::<ratio>((rise * grown).min(self.share.value)))
    }

    /// Share of carbon monoxide that the room ends at; that of the gas itself without air change.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`] naming the value at fault.
    pub fn settled(&self) -> Result<Ratio, PhysicsError> {
        let (rise, renewal) = self.checked()?;
        let end = if rise <= 0.0 {
            0.0
        } else {
            (rise / renewal).min(self.share.value)
        };
        Ok(Ratio::new::<ratio>(end))
    }

    /// Time until the room holds this share of carbon monoxide; none when it never does.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`] naming the value at fault; `level` between 10⁻⁹ and 1.
    pub fn time_to(&self, level: Ratio) -> Result<Option<Time>, PhysicsError> {
        let (rise, renewal) = self.checked()?;
        let level = within("level", "", level.value, 1e-9, 1.0)?;
        if rise <= 0.0 || level >= self.share.value {
            return Ok(None);
        }
        let reached = renewal * level / rise;
        let time = if reached >= 1.0 {
            return Ok(None);
        } else if renewal > 0.0 {
            -(-reached).ln_1p() / renewal
        } else {
            level / rise
        };
        Ok(Some(Time::new::<second>(time)))
    }

    /// Rise per second in clean air, and renewal per second.
    fn checked(&self) -> Result<(f64, f64), PhysicsError> {
        let leak = within("leak", "m³/s", self.leak.value, 0.0, 1.0)?;
        let share = within("share of carbon monoxide", "", self.share.value, 0.0, 1.0)?;
        let room = within("room", "m³", self.room.value, 0.1, 1e6)?;
        let renewal = within("air changes", "1/s", self.air_changes.value, 0.0, 0.1)?;
        Ok((leak * share / room, renewal))
    }
}
