//! Viscosity and conductivity of the gases of a wood-gas hearth, as polynomials of the logarithm of temperature.
//!
//! Source: kinetic theory with the Lennard-Jones parameters that GRI-Mech 3.0 ships (Smith and others, Gas Research
//! Institute, 1999), in the fitted form that the general-purpose library cantera writes (five terms each). With
//! `L = ln(T / K)`: `viscosity = sqrt(T) (c0 + c1 L + ... + c4 L⁴)²` in Pa·s and
//! `conductivity = sqrt(T) (c0 + c1 L + ... + c4 L⁴)` in W/(m·K). Fitted from 300 to 3500 K and good to 290 K.

/// The two coefficient sets of one gas, rising powers.
#[derive(Debug, Clone, Copy)]
pub(super) struct Transport {
    /// Of the root of viscosity.
    pub viscosity: [f64; 5],
    /// Of conductivity.
    pub conductivity: [f64; 5],
}

/// Carbon monoxide.
pub(super) const CARBON_MONOXIDE: Transport = Transport {
    viscosity: [
        -0.005216081451,
        0.003111199674,
        -0.0005939529792,
        5.162313385e-05,
        -1.674904055e-06,
    ],
    conductivity: [
        0.04060029462,
        -0.0209854709,
        0.004001373353,
        -0.0003201980152,
        9.270576538e-06,
    ],
};

/// Carbon dioxide.
pub(super) const CARBON_DIOXIDE: Transport = Transport {
    viscosity: [
        -0.002706042232,
        0.0009960891349,
        -3.245759288e-05,
        -9.152079935e-06,
        6.716178143e-07,
    ],
    conductivity: [
        0.08710886467,
        -0.05136577647,
        0.01107989242,
        -0.001029106463,
        3.531690263e-05,
    ],
};

/// Hydrogen.
pub(super) const HYDROGEN: Transport = Transport {
    viscosity: [
        -0.0003286235158,
        0.0004740294433,
        -8.852339014e-05,
        8.188000383e-06,
        -2.775116847e-07,
    ],
    conductivity: [
        -0.9677034329,
        0.574433766,
        -0.1257371151,
        0.01212356977,
        -0.0004317820758,
    ],
};

/// Water vapour.
pub(super) const WATER: Transport = Transport {
    viscosity: [
        0.009495196335,
        -0.004974400618,
        0.0009719845682,
        -7.63468726e-05,
        2.074120178e-06,
    ],
    conductivity: [
        -0.4044895225,
        0.2516652858,
        -0.05823800028,
        0.005930903659,
        -0.0002223375429,
    ],
};

/// Methane.
pub(super) const METHANE: Transport = Transport {
    viscosity: [
        -0.005571710606,
        0.003090389655,
        -0.0005670590118,
        4.721150901e-05,
        -1.468690408e-06,
    ],
    conductivity: [
        0.1467768265,
        -0.06681802798,
        0.009956130742,
        -0.0004803930295,
        1.559731286e-06,
    ],
};

/// Nitrogen.
pub(super) const NITROGEN: Transport = Transport {
    viscosity: [
        -0.005232503459,
        0.00312498112,
        -0.0005968857243,
        5.190839695e-05,
        -1.685098939e-06,
    ],
    conductivity: [
        0.00261292141,
        0.001593238645,
        -0.0009842775277,
        0.0001650715404,
        -8.297315315e-06,
    ],
};

/// Oxygen.
pub(super) const OXYGEN: Transport = Transport {
    viscosity: [
        -0.006186428072,
        0.003618824512,
        -0.0006861983404,
        5.91601271e-05,
        -1.904977178e-06,
    ],
    conductivity: [
        0.106895521,
        -0.06376711344,
        0.01421775618,
        -0.001390841153,
        5.091744389e-05,
    ],
};
