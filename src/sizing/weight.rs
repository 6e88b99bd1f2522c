//! How heavy is it, and where is its centre of gravity? Empty, full, and with the hopper off.

use super::machine::{Machine, Point, Solid};
use crate::design::Choice;
use crate::design::inputs::{Group, Presence};
use uom::si::area::square_meter;
use uom::si::f64::{Area, Length, Mass};
use uom::si::length::meter;
use uom::si::mass::kilogram;

/// A state the machine is handled in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum State {
    /// Everything on, no fuel, no water.
    Empty,
    /// Everything on and filled.
    Full,
    /// No fuel, no water, hopper taken off.
    HopperOff,
}

impl State {
    /// All states.
    pub const ALL: [State; 3] = [State::Full, State::Empty, State::HopperOff];

    /// The name used in results and findings.
    pub fn name(self) -> &'static str {
        match self {
            State::Empty => "empty",
            State::Full => "full",
            State::HopperOff => "hopper_off",
        }
    }

    /// The state in words.
    pub fn words(self) -> &'static str {
        match self {
            State::Empty => "empty",
            State::Full => "full",
            State::HopperOff => "empty with the hopper off",
        }
    }

    /// Whether something weighs on the base in this state.
    ///
    /// ```
    /// use hearthplan::{design::inputs::Presence, sizing::weight::State};
    /// assert!(!State::Empty.counts(Presence::WhenFull));
    /// ```
    pub fn counts(self, presence: Presence) -> bool {
        match presence {
            Presence::Always => true,
            Presence::WhenFull => self == State::Full,
            Presence::WithHopper => self != State::HopperOff,
        }
    }
}

/// Mass, centre of gravity, and how the mass is spread around it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Weight {
    /// Total mass.
    pub mass: Mass,
    /// Centre of gravity; the origin when there is no mass.
    pub centre: Point,
    /// Mean square distance from the centre of gravity, left to right.
    pub spread_x: Area,
    /// Mean square distance from the centre of gravity, front to back.
    pub spread_y: Area,
    /// Mean product of the distances left-right and front-back.
    pub spread_xy: Area,
    /// Mean square distance from the centre of gravity, up and down.
    pub spread_z: Area,
}

impl Weight {
    /// Square of the radius of gyration about a level axis through the centre of gravity; the axis
    /// is square to the level unit vector given. Moment of inertia = mass × this.
    pub fn gyration_squared(&self, (nx, ny): (f64, f64)) -> Area {
        self.spread_x * (nx * nx)
            + self.spread_xy * (2.0 * nx * ny)
            + self.spread_y * (ny * ny)
            + self.spread_z
    }
}

/// Sums of mass and its moments: adds up solids in any order.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Moments {
    mass: f64,
    first: [f64; 3],
    /// xx, yy, xy, zz
    second: [f64; 4],
}

impl Moments {
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub fn add(&mut self, solid: &Solid) {
        let mass = solid.mass.value;
        let (x, y, z) = (
            solid.centre.x.value,
            solid.centre.y.value,
            solid.centre.z.value,
        );
        self.mass += mass;
        for (sum, place) in self.first.iter_mut().zip([x, y, z]) {
            *sum += mass * place;
        }
        let squares = [
            solid.spread.x.value + x * x,
            solid.spread.y.value + y * y,
            x * y,
            solid.spread.z.value + z * z,
        ];
        for (sum, square) in self.second.iter_mut().zip(squares) {
            *sum += mass * square;
        }
    }

    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub fn plus(mut self, other: &Self) -> Self {
        self.mass += other.mass;
        for (sum, more) in self.first.iter_mut().zip(other.first) {
            *sum += more;
        }
        for (sum, more) in self.second.iter_mut().zip(other.second) {
            *sum += more;
        }
        self
    }

    pub fn weight(&self) -> Weight {
        if self.mass <= 0.0 {
            return Weight::default();
        }
        let [x, y, z] = self.first.map(|moment| moment / self.mass);
        let [xx, yy, xy, zz] = self.second.map(|moment| moment / self.mass);
        let metres = Length::new::<meter>;
        let square = |value: f64| Area::new::<square_meter>(value);
        Weight {
            mass: Mass::new::<kilogram>(self.mass),
            centre: Point {
                x: metres(x),
                y: metres(y),
                z: metres(z),
            },
            spread_x: square((xx - x * x).max(0.0)),
            spread_y: square((yy - y * y).max(0.0)),
            spread_xy: square(xy - x * y),
            spread_z: square((zz - z * z).max(0.0)),
        }
    }
}

/// The mass of one sub-assembly.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroupMass {
    /// The sub-assembly.
    pub group: Group,
    /// Without fuel and water, hopper on.
    pub empty: Mass,
    /// With fuel and water.
    pub full: Mass,
}

/// Weight in the three states.
#[derive(Debug, Clone, PartialEq)]
pub struct Weights {
    /// Everything on, no fuel, no water.
    pub empty: Weight,
    /// Everything on and filled.
    pub full: Weight,
    /// No fuel, no water, hopper off.
    pub hopper_off: Weight,
    /// Masses by sub-assembly; those that weigh nothing are left out.
    pub groups: Vec<GroupMass>,
}

impl Weights {
    /// The weight in a state.
    pub fn in_state(&self, state: State) -> &Weight {
        match state {
            State::Empty => &self.empty,
            State::Full => &self.full,
            State::HopperOff => &self.hopper_off,
        }
    }
}

/// Weight and centre of gravity of a machine.
///
/// ```
/// use hearthplan::{design::Design, sizing::{machine, weight}};
/// let machine = machine::layout(&Design::default());
/// let weights = weight::weigh(&machine);
/// assert!(weights.full.mass > weights.empty.mass);
/// assert!(weights.empty.mass > weights.hopper_off.mass);
/// ```
pub fn weigh(machine: &Machine) -> Weights {
    let sums = state_moments(machine.weighing());
    let mut groups: Vec<GroupMass> = Vec::with_capacity(Group::OPTIONS.len());
    for solid in machine.weighing() {
        let place = match groups.iter().position(|sum| sum.group == solid.group) {
            Some(place) => place,
            None => {
                groups.push(GroupMass {
                    group: solid.group,
                    empty: Mass::default(),
                    full: Mass::default(),
                });
                groups.len() - 1
            }
        };
        if let Some(sum) = groups.get_mut(place) {
            sum.full += solid.mass;
            if solid.presence != Presence::WhenFull {
                sum.empty += solid.mass;
            }
        }
    }
    groups.retain(|sum| sum.full.value > 0.0);
    Weights {
        empty: sums.empty.weight(),
        full: sums.full.weight(),
        hopper_off: sums.hopper_off.weight(),
        groups,
    }
}

/// Moments in the three states.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct StateMoments {
    pub empty: Moments,
    pub full: Moments,
    pub hopper_off: Moments,
}

pub(super) fn state_moments<'a>(solids: impl IntoIterator<Item = &'a Solid>) -> StateMoments {
    let mut always = Moments::default();
    let mut filling = Moments::default();
    let mut hopper = Moments::default();
    for solid in solids {
        match solid.presence {
            Presence::Always => always.add(solid),
            Presence::WhenFull => filling.add(solid),
            Presence::WithHopper => hopper.add(solid),
        }
    }
    let empty = always.plus(&hopper);
    StateMoments {
        empty,
        full: empty.plus(&filling),
        hopper_off: always,
    }
}
