//! Coefficients of the seven-term NASA polynomials for the gases of a wood-gas hearth and for graphite.
//!
//! Source: B. J. McBride, S. Gordon and M. A. Reno, Coefficients for Calculating Thermodynamic and Transport
//! Properties of Individual Species, NASA TM-4513, 1993, in the form the GRI-Mech 3.0 data set prints them.
//! Order: five of heat capacity, then the constant of enthalpy and that of entropy. The low set holds below
//! 1000 K, the high set above. Standard pressure 101 325 Pa. Valid 200 to 3500 K (nitrogen 300 to 5000 K,
//! graphite 200 to 5000 K).

/// The two coefficient sets of one species; dimensionless heat capacity is a polynomial of temperature in K.
#[derive(Debug, Clone, Copy)]
pub(super) struct Nasa7 {
    /// Below 1000 K.
    pub low: [f64; 7],
    /// From 1000 K.
    pub high: [f64; 7],
}

/// Carbon monoxide.
pub(super) const CARBON_MONOXIDE: Nasa7 = Nasa7 {
    low: [
        3.57953347,
        -0.00061035368,
        1.01681433e-06,
        9.07005884e-10,
        -9.04424499e-13,
        -14344.086,
        3.50840928,
    ],
    high: [
        2.71518561,
        0.00206252743,
        -9.98825771e-07,
        2.30053008e-10,
        -2.03647716e-14,
        -14151.8724,
        7.81868772,
    ],
};

/// Carbon dioxide.
pub(super) const CARBON_DIOXIDE: Nasa7 = Nasa7 {
    low: [
        2.35677352,
        0.00898459677,
        -7.12356269e-06,
        2.45919022e-09,
        -1.43699548e-13,
        -48371.9697,
        9.90105222,
    ],
    high: [
        3.85746029,
        0.00441437026,
        -2.21481404e-06,
        5.23490188e-10,
        -4.72084164e-14,
        -48759.166,
        2.27163806,
    ],
};

/// Hydrogen.
pub(super) const HYDROGEN: Nasa7 = Nasa7 {
    low: [
        2.34433112,
        0.00798052075,
        -1.9478151e-05,
        2.01572094e-08,
        -7.37611761e-12,
        -917.935173,
        0.683010238,
    ],
    high: [
        3.3372792,
        -4.94024731e-05,
        4.99456778e-07,
        -1.79566394e-10,
        2.00255376e-14,
        -950.158922,
        -3.20502331,
    ],
};

/// Water vapour.
pub(super) const WATER: Nasa7 = Nasa7 {
    low: [
        4.19864056,
        -0.0020364341,
        6.52040211e-06,
        -5.48797062e-09,
        1.77197817e-12,
        -30293.7267,
        -0.849032208,
    ],
    high: [
        3.03399249,
        0.00217691804,
        -1.64072518e-07,
        -9.7041987e-11,
        1.68200992e-14,
        -30004.2971,
        4.9667701,
    ],
};

/// Methane.
pub(super) const METHANE: Nasa7 = Nasa7 {
    low: [
        5.14987613,
        -0.0136709788,
        4.91800599e-05,
        -4.84743026e-08,
        1.66693956e-11,
        -10246.6476,
        -4.64130376,
    ],
    high: [
        0.074851495,
        0.0133909467,
        -5.73285809e-06,
        1.22292535e-09,
        -1.0181523e-13,
        -9468.34459,
        18.437318,
    ],
};

/// Nitrogen.
pub(super) const NITROGEN: Nasa7 = Nasa7 {
    low: [
        3.298677,
        0.0014082404,
        -3.963222e-06,
        5.641515e-09,
        -2.444854e-12,
        -1020.8999,
        3.950372,
    ],
    high: [
        2.92664,
        0.0014879768,
        -5.68476e-07,
        1.0097038e-10,
        -6.753351e-15,
        -922.7977,
        5.980528,
    ],
};

/// Oxygen.
pub(super) const OXYGEN: Nasa7 = Nasa7 {
    low: [
        3.78245636,
        -0.00299673416,
        9.84730201e-06,
        -9.68129509e-09,
        3.24372837e-12,
        -1063.94356,
        3.65767573,
    ],
    high: [
        3.28253784,
        0.00148308754,
        -7.57966669e-07,
        2.09470555e-10,
        -2.16717794e-14,
        -1088.45772,
        5.45323129,
    ],
};

/// Carbon as graphite.
pub(super) const GRAPHITE: Nasa7 = Nasa7 {
    low: [
        -0.310872072,
        0.00440353686,
        1.90394118e-06,
        -6.38546966e-09,
        2.98964248e-12,
        -108.650794,
        1.11382953,
    ],
    high: [
        1.45571829,
        0.00171702216,
        -6.97562786e-07,
        1.35277032e-10,
        -9.67590652e-15,
        -695.138814,
        -8.52583033,
    ],
};
