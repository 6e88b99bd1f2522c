"""Density, viscosity, conductivity and heat capacity of gas mixtures with cantera."""

import cantera as ct

PRESSURE_PA = 101325.0
SPECIES = ["CO", "CO2", "H2", "H2O", "CH4", "N2", "O2"]
GAS = ct.Solution(
    thermo="ideal-gas",
    transport_model="mixture-averaged",
    species=[s for s in ct.Species.list_from_file("gri30.yaml") if s.name in SPECIES],
)

# Mole fractions; invented compositions that span weak and rich, dry and wet gas.
MIXTURES = {
    "usual dry gas": {"CO": 0.21, "CO2": 0.11, "H2": 0.17, "CH4": 0.02, "N2": 0.49},
    "usual wet gas": {"CO": 0.18, "CO2": 0.10, "H2": 0.16, "H2O": 0.12, "CH4": 0.01, "N2": 0.43},
    "rich gas": {"CO": 0.28, "CO2": 0.07, "H2": 0.21, "H2O": 0.06, "CH4": 0.03, "N2": 0.35},
    "weak gas": {"CO": 0.10, "CO2": 0.15, "H2": 0.09, "H2O": 0.14, "CH4": 0.005, "N2": 0.515},
    "very wet gas": {"CO": 0.10, "CO2": 0.12, "H2": 0.15, "H2O": 0.30, "CH4": 0.01, "N2": 0.32},
    "gas with air leak": {"CO": 0.19, "CO2": 0.10, "H2": 0.15, "CH4": 0.02, "N2": 0.52, "O2": 0.02},
}
CELSIUS = [20.0, 60.0, 100.0, 200.0, 300.0, 400.0, 500.0, 600.0, 700.0, 800.0, 900.0]


def properties(temperature_k, fractions):
    GAS.TPX = temperature_k, PRESSURE_PA, fractions
    return {
        "density_kg_per_m3": GAS.density,
        "viscosity_pa_s": GAS.viscosity,
        "conductivity_w_per_m_k": GAS.thermal_conductivity,
        "heat_capacity_j_per_kg_k": GAS.cp_mass,
    }


def files():
    pure, mixed, polynomials = [], [], []
    for name in SPECIES:
        for celsius in CELSIUS:
            kelvin = celsius + 273.15
            pure.append({"species": name, "temperature_k": kelvin, **properties(kelvin, {name: 1.0})})
        index = GAS.species_index(name)
        polynomials.append(
            {
                "species": name,
                "molar_mass_kg_per_mol": GAS.molecular_weights[index] / 1000,
                "viscosity_coefficients": GAS.get_viscosity_polynomial(index).tolist(),
                "conductivity_coefficients": GAS.get_thermal_conductivity_polynomial(index).tolist(),
            }
        )
    for name, fractions in MIXTURES.items():
        assert abs(sum(fractions.values()) - 1) < 1e-12
        for celsius in CELSIUS:
            kelvin = celsius + 273.15
            shares = {f"mole_fraction_{s.lower()}": fractions.get(s, 0.0) for s in SPECIES}
            mixed.append({"gas": name, "temperature_k": kelvin, **shares, **properties(kelvin, fractions)})
    return {
        "gas_mixture.json": {
            "about": "Properties of pure gases and of mixtures at 101325 Pa",
            "source": "cantera, mixture-averaged transport, species of gri30.yaml",
            "transport_polynomials": polynomials,
            "pure": pure,
            "mixtures": mixed,
        }
    }
