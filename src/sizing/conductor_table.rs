//! Copper conductors that can be bought, with the current they carry, and fuses.
//!
//! Sections and greatest resistances at 20 °C: IEC 60228, flexible conductors of class 5, plain copper, from memory.
//! Currents: IEC 60204-1, table for PVC insulation in conduit (method B1) at 40 °C, from memory; where editions differ the
//! lower value stands. Fuse ratings: ISO 8820 blade and bolt-in fuses, from memory.

/// A metric conductor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MetricConductor {
    /// Section, mm².
    pub section: f64,
    /// Greatest resistance at 20 °C, Ω/km.
    pub resistance: f64,
    /// Current it carries for ever at 40 °C around it, A.
    pub current: f64,
}

const fn conductor(section: f64, resistance: f64, current: f64) -> MetricConductor {
    MetricConductor {
        section,
        resistance,
        current,
    }
}

/// Metric conductors, rising.
pub const METRIC: [MetricConductor; 10] = [
    conductor(0.75, 26.0, 8.6),
    conductor(1.0, 19.5, 10.3),
    conductor(1.5, 13.3, 13.5),
    conductor(2.5, 7.98, 18.3),
    conductor(4.0, 4.95, 24.0),
    conductor(6.0, 3.30, 31.0),
    conductor(10.0, 1.91, 44.0),
    conductor(16.0, 1.21, 59.0),
    conductor(25.0, 0.780, 77.0),
    conductor(35.0, 0.554, 96.0),
];

/// Gauges of ASTM B258 that are offered, rising in section.
pub const GAUGES: [i32; 10] = [18, 16, 14, 12, 10, 8, 6, 4, 2, 1];

/// Fuse ratings, A, rising.
pub const FUSES: [f64; 17] = [
    1.0, 2.0, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 50.0, 60.0, 70.0, 80.0,
];
