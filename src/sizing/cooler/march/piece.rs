//! One piece of a cooled tube: what it takes between its two temperatures.

/// How far the rate in the middle of a piece may lie off the line between its ends, as a share, before the piece is cut.
const BEND: f64 = 0.04;

/// Gas and wall at one temperature of the gas.
#[derive(Debug, Clone, Copy)]
pub(super) struct Local {
    /// Share by which the distance to the sink's temperature falls per metre, 1/m.
    pub rate: f64,
    pub surface: f64,
    pub inside_wall: f64,
    pub velocity: f64,
    pub reynolds: f64,
    /// Pa/m.
    pub friction: f64,
}

impl Local {
    pub fn mean(&self, other: &Local) -> Local {
        let mean = |of: fn(&Local) -> f64| 0.5 * (of(self) + of(other));
        Local {
            // Length is a sum of what one unit takes.
            rate: 2.0 / (1.0 / self.rate + 1.0 / other.rate),
            surface: mean(|place| place.surface),
            inside_wall: mean(|place| place.inside_wall),
            velocity: mean(|place| place.velocity),
            reynolds: mean(|place| place.reynolds),
            friction: mean(|place| place.friction),
        }
    }
}

/// Why a piece ends where it does.
#[derive(Debug, Clone, Copy)]
pub(super) enum Stop {
    /// Nothing special: the next piece goes on from there.
    Onward,
    /// At the dew point; the next piece starts from this temperature in K, on the other side.
    Dew(f64),
    /// Water freezes.
    Frost,
}

/// One piece of the way, measured in transfer units: each lets the distance to the sink's temperature fall to 1/e.
#[derive(Debug, Clone, Copy)]
pub(super) struct Piece {
    pub units: f64,
    pub start: Local,
    pub middle: Local,
    pub end: Local,
    pub stop: Stop,
}

impl Piece {
    /// The parabola through the values at start, middle and end: its coefficients over the share of the piece.
    pub fn parabola(&self, value: impl Fn(&Local) -> f64) -> [f64; 3] {
        let [first, middle, last] = [&self.start, &self.middle, &self.end].map(value);
        [
            first,
            4.0 * middle - 3.0 * first - last,
            2.0 * (first + last) - 4.0 * middle,
        ]
    }

    /// Integral of such a parabola over the first `units` of the piece.
    pub fn integral(&self, [first, slope, bend]: [f64; 3], units: f64) -> f64 {
        let share = units / self.units;
        units * (first + share * (0.5 * slope + share * bend / 3.0))
    }

    /// Tube that it takes, m.
    pub fn length(&self, units: f64) -> f64 {
        self.integral(self.parabola(|place| 1.0 / place.rate), units)
    }

    /// Pressure lost in it, Pa.
    pub fn friction(&self, units: f64) -> f64 {
        self.integral(self.parabola(|place| place.friction / place.rate), units)
    }

    /// Whether the parabola stands for what lies between.
    pub fn is_even(&self) -> bool {
        let [first, middle, last] =
            [&self.start, &self.middle, &self.end].map(|place| 1.0 / place.rate);
        (0.5 * (first + last) - middle).abs() <= BEND * middle
    }

    /// Transfer units after which `length` in m is used up; a hair more than the piece has, if it is a little short.
    pub fn units_after(&self, length: f64) -> f64 {
        let parabola = self.parabola(|place| 1.0 / place.rate);
        let [first, slope, bend] = parabola;
        let mut units = self.units * (length / self.integral(parabola, self.units)).min(1.0);
        // Newton steps on a line that bends little.
        for _ in 0..3 {
            let share = units / self.units;
            let per_unit = first + share * (slope + share * bend);
            units += (length - self.integral(parabola, units)) / per_unit;
        }
        units
    }
}
