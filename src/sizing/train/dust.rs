//! Dust in the gas, by size of its grains.

use super::gas_state::GasState;
use super::stage::Note;
use crate::physics::error::{PhysicsError, within};
use crate::sizing::cooler::Orientation;
use uom::si::f64::{Length, MassRate, Ratio};
use uom::si::length::meter;
use uom::si::mass_rate::kilogram_per_second;

/// Size classes.
pub const SIZES: usize = 8;

/// Diameter that stands for each class, m. Our own choice: doubling steps over the range a cyclone cuts in.
const DIAMETERS: [f64; SIZES] = [1e-6, 2e-6, 4e-6, 8e-6, 16e-6, 32e-6, 64e-6, 128e-6];

/// Dust above this, kg per normal m³ of dry gas, soon fills a pipe in which it settles. Our own choice.
pub const MUCH_DUST: f64 = 0.0005;
/// Bore below which wet dust closes a tube between two cleanings, m. Common practice, no source.
pub const NARROW: f64 = 0.04;
/// Gas slower than this lets char dust settle in a level pipe, m/s (common practice, no source).
pub const CONVEYING: f64 = 10.0;

/// What becomes of the dust of this gas in pipe or tubes.
pub(crate) struct Carried {
    /// m.
    pub bore: f64,
    /// Slowest gas, m/s.
    pub slowest: f64,
    pub orientation: Orientation,
    /// Tar or water falls out, or comes in as drops.
    pub wet: bool,
}

impl Carried {
    /// What to tell of it; nothing where the gas carries its dust along.
    pub fn note(&self, gas: &GasState) -> Option<Note> {
        let much = gas.dust_load() > MUCH_DUST;
        let wet = self.wet || gas.tar.mist || gas.liquid.value > 0.0;
        if much && wet && self.bore < NARROW {
            return Some(Note::DustCakes);
        }
        let settles = self.slowest < CONVEYING && gas.dust.total().value > 0.0;
        settles.then_some(match (much, self.orientation) {
            (false, _) => Note::LittleDust,
            (true, Orientation::Level) => Note::DustSettles,
            (true, Orientation::Upright) => Note::DustFalls,
        })
    }
}

/// Dust in the gas.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Dust {
    /// kg/s in each class.
    by_size: [f64; SIZES],
}

impl Dust {
    /// No dust.
    pub const NONE: Dust = Dust {
        by_size: [0.0; SIZES],
    };

    /// Dust whose sizes are spread log-normally about a median by mass.
    ///
    /// `spread` is the geometric standard deviation: 1 would be grains of one size, 2.5 is usual for char dust (our own
    /// estimate).
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`] for a flow not within 0 to 1 kg/s, a median not within 0.1 µm to 1 mm, a spread not
    /// within 1.1 to 10.
    ///
    /// ```
    /// use hearthplan::sizing::train::Dust;
    /// use uom::si::{f64::*, length::micrometer, mass_rate::gram_per_second, ratio::ratio};
    /// let rate = MassRate::new::<gram_per_second>(0.01);
    /// let dust = Dust::log_normal(rate, Length::new::<micrometer>(15.0), Ratio::new::<ratio>(2.5))?;
    /// assert!((dust.total() / rate).value - 1.0 < 1e-12);
    /// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
    /// ```
    pub fn log_normal(rate: MassRate, median: Length, spread: Ratio) -> Result<Dust, PhysicsError> {
        let rate = within("dust in the gas", "kg/s", rate.value, 0.0, 1.0)?;
        let median = within("median size of the dust", "m", median.value, 1e-7, 1e-3)?;
        let spread = within("spread of dust sizes", "", spread.value, 1.1, 10.0)?;
        let weights = DIAMETERS.map(|diameter| {
            let distance = (diameter / median).ln() / spread.ln();
            (-0.5 * distance * distance).exp()
        });
        let sum: f64 = weights.iter().sum();
        // A median far outside the classes may leave no weight at all: then all of it is in the nearest class.
        if sum > 1e-200 {
            return Ok(Dust {
                by_size: weights.map(|weight| rate * weight / sum),
            });
        }
        let mut by_size = [0.0; SIZES];
        let nearest = if median < 1e-5 {
            by_size.first_mut()
        } else {
            by_size.last_mut()
        };
        if let Some(class) = nearest {
            *class = rate;
        }
        Ok(Dust { by_size })
    }

    /// Dust of all sizes together.
    pub fn total(&self) -> MassRate {
        MassRate::new::<kilogram_per_second>(self.by_size.iter().sum())
    }

    /// What is left when of each size the share `caught(diameter)`, 0 to 1, is taken out.
    pub fn less(&self, caught: impl Fn(Length) -> f64) -> Dust {
        let mut left = *self;
        for (rate, diameter) in left.by_size.iter_mut().zip(DIAMETERS) {
            *rate *= 1.0 - caught(Length::new::<meter>(diameter)).clamp(0.0, 1.0);
        }
        left
    }

    /// All classes times `factor`.
    pub fn scaled(&self, factor: f64) -> Dust {
        Dust {
            by_size: self.by_size.map(|rate| rate * factor),
        }
    }

    pub(super) fn check(&self) -> Result<(), PhysicsError> {
        for rate in self.by_size {
            within("dust in the gas", "kg/s", rate, 0.0, 10.0)?;
        }
        Ok(())
    }
}
