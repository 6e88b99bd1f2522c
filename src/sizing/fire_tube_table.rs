//! Straight fire tubes by engine power.
//!
//! Source: Construction of a Simplified Wood Gas Generator for Fueling Internal Combustion Engines in a Petroleum
//! Emergency, FEMA/ORNL (1989), table of fire tube sizes, from memory.

/// One row of the table, in the units of the print.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FireTubeRow {
    /// Inside diameter, inches.
    pub bore: f64,
    /// Least length, inches.
    pub least_length: f64,
    /// Engine power on petrol, horsepower of 745.7 W.
    pub engine_power: f64,
}

/// The eleven rows, bores rising.
pub const FIRE_TUBES: [FireTubeRow; 11] = [
    row(2.0, 16.0, 5.0),
    row(4.0, 16.0, 15.0),
    row(6.0, 16.0, 30.0),
    row(7.0, 18.0, 40.0),
    row(8.0, 20.0, 50.0),
    row(9.0, 22.0, 65.0),
    row(10.0, 24.0, 80.0),
    row(11.0, 26.0, 100.0),
    row(12.0, 28.0, 120.0),
    row(13.0, 30.0, 140.0),
    row(14.0, 32.0, 160.0),
];

const fn row(bore: f64, least_length: f64, engine_power: f64) -> FireTubeRow {
    FireTubeRow {
        bore,
        least_length,
        engine_power,
    }
}
