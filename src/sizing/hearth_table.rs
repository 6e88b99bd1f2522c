//! Proportions of constricted hearths that ran on the road.
//!
//! Source: Handbook of Biomass Downdraft Gasifier Engine Systems, SERI/SP-271-3022 (1988), table 5-1, from memory.
//!
//! Two places depart from the print, because the other columns of the same row contradict it:
//! - ring 400, throat 150: the throat is printed as 135; area ratio, `h/dh` and `dr/dh` all say 150.
//! - ring 400, throat 200: the bore is printed as 16.0; the area ratio of 3.9 says 15, which stands here.
//!
//! The columns agree with 1.68 Nm³ of gas per Nm³ of air and 2.1 Nm³ of gas per kilogram of wood.

/// One row of the table, in the units of the print.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HearthRow {
    /// Throat diameter `dh`, mm.
    pub throat: f64,
    /// Fire tube diameter at the nozzles `dr`, mm.
    pub nozzle_ring: f64,
    /// Diameter below the throat `dr'`, mm.
    pub below_throat: f64,
    /// Height of the nozzle plane above the throat `h`, mm.
    pub nozzle_height: f64,
    /// Height of the reduction zone `H`, mm.
    pub reduction_height: f64,
    /// Radius `R`, mm.
    pub radius: f64,
    /// Number of nozzles `A`.
    pub nozzle_count: u32,
    /// Nozzle bore `dm`, mm.
    pub nozzle_bore: f64,
    /// Nozzle area as a share of throat area, `100 Am/Ah`, in percent.
    pub area_ratio: f64,
    /// Largest gas flow, Nm³/h.
    pub gas_most: f64,
    /// Smallest gas flow, Nm³/h.
    pub gas_least: f64,
    /// Largest wood use, kg/h.
    pub wood_most: f64,
    /// Air velocity in the nozzles at the largest gas flow, m/s.
    pub blast_velocity: f64,
}

/// A family: rows that share a nozzle ring, throats rising.
pub type Family = [HearthRow; 4];

/// The three families, rings rising.
pub const FAMILIES: [Family; 3] = [
    [
        row(
            [60.0, 268.0, 150.0, 80.0, 256.0, 100.0],
            5,
            [7.5, 7.8, 30.0, 4.0, 14.0, 22.4],
        ),
        row(
            [80.0, 268.0, 176.0, 95.0, 256.0, 100.0],
            5,
            [9.0, 6.4, 44.0, 5.0, 21.0, 23.0],
        ),
        row(
            [100.0, 268.0, 202.0, 100.0, 256.0, 100.0],
            5,
            [10.5, 5.5, 63.0, 8.0, 30.0, 24.2],
        ),
        row(
            [120.0, 268.0, 216.0, 110.0, 256.0, 100.0],
            5,
            [12.0, 5.0, 90.0, 12.0, 42.0, 26.0],
        ),
    ],
    [
        row(
            [100.0, 300.0, 208.0, 100.0, 275.0, 115.0],
            5,
            [10.5, 5.5, 77.0, 10.0, 36.0, 29.4],
        ),
        row(
            [115.0, 300.0, 228.0, 105.0, 275.0, 115.0],
            5,
            [11.5, 5.0, 95.0, 12.0, 45.0, 30.3],
        ),
        row(
            [130.0, 300.0, 248.0, 110.0, 275.0, 115.0],
            5,
            [12.5, 4.6, 115.0, 15.0, 55.0, 31.5],
        ),
        row(
            [150.0, 300.0, 258.0, 120.0, 275.0, 115.0],
            5,
            [14.0, 4.4, 140.0, 18.0, 67.0, 30.0],
        ),
    ],
    [
        row(
            [130.0, 400.0, 258.0, 110.0, 370.0, 155.0],
            7,
            [10.5, 4.6, 120.0, 17.0, 57.0, 32.6],
        ),
        row(
            [150.0, 400.0, 258.0, 120.0, 370.0, 155.0],
            7,
            [12.0, 4.5, 150.0, 21.0, 71.0, 32.6],
        ),
        row(
            [175.0, 400.0, 308.0, 130.0, 370.0, 155.0],
            7,
            [13.5, 4.2, 190.0, 26.0, 90.0, 31.4],
        ),
        row(
            [200.0, 400.0, 318.0, 145.0, 370.0, 153.0],
            7,
            [15.0, 3.9, 230.0, 33.0, 110.0, 31.2],
        ),
    ],
];

/// Columns left of the number of nozzles, the number, columns right of it, as printed.
const fn row(lengths: [f64; 6], nozzle_count: u32, rest: [f64; 6]) -> HearthRow {
    let [
        throat,
        nozzle_ring,
        below_throat,
        nozzle_height,
        reduction_height,
        radius,
    ] = lengths;
    let [
        nozzle_bore,
        area_ratio,
        gas_most,
        gas_least,
        wood_most,
        blast_velocity,
    ] = rest;
    HearthRow {
        throat,
        nozzle_ring,
        below_throat,
        nozzle_height,
        reduction_height,
        radius,
        nozzle_count,
        nozzle_bore,
        area_ratio,
        gas_most,
        gas_least,
        wood_most,
        blast_velocity,
    }
}
