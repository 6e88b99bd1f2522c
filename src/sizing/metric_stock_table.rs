//! Sizes in which steel is sold where it is sold in millimetres.
//!
//! Sheet and plate: EN 10131 and EN 10051 leave the steps to the trade, common practice, no source. Round tube: outsides and
//! walls of EN 10220, and of precision tube after EN 10305-1, both from memory. Square tube: EN 10305-5 and EN 10219-2, from
//! memory. Round bar: EN 10060, from memory. Bolts: coarse threads of ISO 261 and lengths of ISO 888, from memory.

/// Sheet and plate, m, rising.
pub const SHEETS: [f64; 15] = [
    0.0005, 0.000_75, 0.001, 0.0015, 0.002, 0.0025, 0.003, 0.004, 0.005, 0.006, 0.008, 0.010,
    0.012, 0.015, 0.020,
];

/// Walls of the square tube that frames are welded from, m, rising.
pub const SQUARE_WALLS: [f64; 9] = [
    0.001, 0.0015, 0.002, 0.0025, 0.003, 0.004, 0.005, 0.006, 0.008,
];

/// Sides of square tube, m, rising.
pub const SQUARE_SIDES: [f64; 18] = [
    0.015, 0.020, 0.025, 0.030, 0.035, 0.040, 0.050, 0.060, 0.070, 0.080, 0.090, 0.100, 0.120,
    0.140, 0.150, 0.160, 0.180, 0.200,
];

/// The thickest wall of a square tube, as a share of its side: about what is sold.
pub const THICKEST_SQUARE: f64 = 0.13;

/// Round tube of one standard.
#[derive(Debug, Clone, Copy)]
pub struct RoundTubes {
    /// Outsides, m, rising.
    pub outsides: &'static [f64],
    /// Walls, m, rising.
    pub walls: &'static [f64],
    /// The thinnest and the thickest wall, as a share of the outside: about what is sold.
    pub shares: [f64; 2],
}

/// Pipe that is welded or drawn, EN 10220, and precision tube, EN 10305-1.
pub const ROUND_TUBES: [RoundTubes; 2] = [
    RoundTubes {
        outsides: &[
            0.0102, 0.0135, 0.0172, 0.0213, 0.0269, 0.0337, 0.0424, 0.0483, 0.0603, 0.0761, 0.0889,
            0.1016, 0.108, 0.1143, 0.127, 0.133, 0.1397, 0.159, 0.1683, 0.1937, 0.2191, 0.2445,
            0.273, 0.3239, 0.3556, 0.4064, 0.457, 0.508, 0.610,
        ],
        walls: &[
            0.0016, 0.0018, 0.002, 0.0023, 0.0026, 0.0029, 0.0032, 0.0036, 0.004, 0.0045, 0.005,
            0.0056, 0.0063, 0.0071, 0.008, 0.0088, 0.010, 0.0125,
        ],
        shares: [0.008, 0.2],
    },
    RoundTubes {
        outsides: &[
            0.004, 0.005, 0.006, 0.008, 0.010, 0.012, 0.014, 0.015, 0.016, 0.018, 0.020, 0.022,
            0.025, 0.028, 0.030, 0.032, 0.035, 0.038, 0.040, 0.042, 0.045, 0.050, 0.055, 0.060,
            0.070, 0.080, 0.090, 0.100,
        ],
        walls: &[
            0.0005, 0.001, 0.0015, 0.002, 0.0025, 0.003, 0.0035, 0.004, 0.005, 0.006, 0.008,
        ],
        shares: [0.02, 0.3],
    },
];

/// Round bar, m, rising.
pub const ROUND_BARS: [f64; 22] = [
    0.006, 0.008, 0.010, 0.012, 0.014, 0.015, 0.016, 0.018, 0.020, 0.022, 0.025, 0.028, 0.030,
    0.032, 0.035, 0.040, 0.045, 0.050, 0.055, 0.060, 0.065, 0.070,
];

/// Threads of bolts, m, rising.
pub const THREADS: [f64; 11] = [
    0.004, 0.005, 0.006, 0.008, 0.010, 0.012, 0.016, 0.020, 0.024, 0.030, 0.036,
];

/// Lengths of bolts, m, rising.
pub const BOLT_LENGTHS: [f64; 27] = [
    0.006, 0.008, 0.010, 0.012, 0.016, 0.020, 0.025, 0.030, 0.035, 0.040, 0.045, 0.050, 0.055,
    0.060, 0.065, 0.070, 0.080, 0.090, 0.100, 0.110, 0.120, 0.130, 0.140, 0.150, 0.160, 0.180,
    0.200,
];

/// Walls of round tube of either standard, m, rising.
///
/// ```
/// use hearthplan::sizing::metric_stock_table::pipe_walls;
/// let walls = pipe_walls();
/// assert!(walls.windows(2).all(|pair| pair[0] < pair[1]));
/// assert!(walls.contains(&0.0026) && walls.contains(&0.0025));
/// ```
pub fn pipe_walls() -> Vec<f64> {
    let mut walls: Vec<f64> = (ROUND_TUBES.iter())
        .flat_map(|tubes| tubes.walls.iter().copied())
        .collect();
    walls.sort_by(f64::total_cmp);
    walls.dedup();
    walls
}
