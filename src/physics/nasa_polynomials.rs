//! Coefficients of the seven-term NASA polynomials for the gases of a wood-gas hearth and for graphite.
//!
//! Source: B. J. McBride, S. Gordon and M. A. Reno, Coefficients for Calculating Thermodynamic and Transport
//! Properties of Individual Species, NASA TM-4513, 1993.
//! Order: five of heat capacity, then the constant of enthalpy and that of entropy. The low set holds below
//! 1000 K, the high set above. Standard pressure 101 325 Pa. Valid 200 to 6000 K (graphite to 5000 K).

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
        3.04848583,
        0.00135172818,
        -4.85794075e-07,
        7.88536486e-11,
        -4.69807489e-15,
        -14266.1171,
        6.0170979,
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
        4.63659493,
        0.00274131991,
        -9.95828531e-07,
        1.60373011e-10,
        -9.16103468e-15,
        -49024.9341,
        -1.93534855,
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
        2.93286579,
        0.000826607967,
        -1.46402335e-07,
        1.54100359e-11,
        -6.88804432e-16,
        -813.065597,
        -1.02432887,
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
        2.67703787,
        0.00297318329,
        -7.7376969e-07,
        9.44336689e-11,
        -4.26900959e-15,
        -29885.8938,
        6.88255571,
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
        1.63552643,
        0.0100842795,
        -3.36916254e-06,
        5.34958667e-10,
        -3.15518833e-14,
        -10005.6455,
        9.99313326,
    ],
};

/// Nitrogen.
pub(super) const NITROGEN: Nasa7 = Nasa7 {
    low: [
        3.53100528,
        -0.000123660987,
        -5.02999437e-07,
        2.43530612e-09,
        -1.40881235e-12,
        -1046.97628,
        2.96747468,
    ],
    high: [
        2.95257626,
        0.00139690057,
        -4.92631691e-07,
        7.86010367e-11,
        -4.60755321e-15,
        -923.948645,
        5.87189252,
    ],
};

/// Oxygen.
pub(super) const OXYGEN: Nasa7 = Nasa7 {
    low: [
        3.78245636,
        -0.00299673415,
        9.847302e-06,
        -9.68129508e-09,
        3.24372836e-12,
        -1063.94356,
        3.65767573,
    ],
    high: [
        3.66096083,
        0.000656365523,
        -1.41149485e-07,
        2.05797658e-11,
        -1.29913248e-15,
        -1215.97725,
        3.41536184,
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
