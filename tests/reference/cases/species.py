"""NASA polynomials of the gas species and graphite, and what cantera makes of them."""

import cantera as ct

from cases.gas_model import GAS_DATA, SPECIES


def files():
    graphite = next(s for s in ct.Species.list_from_file("graphite.yaml") if s.name == "C(gr)")
    data = {**{name: GAS_DATA[name] for name in SPECIES}, "C(gr)": graphite}
    coefficients, rows = [], []
    for name, species in data.items():
        thermo = species.thermo
        # cantera keeps the middle temperature first, then the upper range, then the lower one.
        middle, upper, lower = thermo.coeffs[0], thermo.coeffs[1:8], thermo.coeffs[8:15]
        coefficients.append(
            {
                "species": name,
                "lowest_k": thermo.min_temp,
                "middle_k": middle,
                "highest_k": thermo.max_temp,
                "reference_pressure_pa": thermo.reference_pressure,
                "below_middle": list(lower),
                "above_middle": list(upper),
            }
        )
        for temperature in [298.15] + [float(t) for t in range(300, 2001, 50)]:
            rows.append(
                {
                    "species": name,
                    "temperature_k": temperature,
                    "enthalpy_j_per_mol": thermo.h(temperature) / 1000,
                    "entropy_j_per_mol_k": thermo.s(temperature) / 1000,
                    "heat_capacity_j_per_mol_k": thermo.cp(temperature) / 1000,
                }
            )
    return {
        "species.json": {
            "about": "NASA 7-coefficient polynomials, and enthalpy (elements at 298.15 K are zero), entropy, heat capacity",
            "source": "McBride, Gordon, Reno, NASA TM-4513, 1993, as shipped with cantera in nasa_gas.yaml and graphite.yaml",
            "gas_constant_j_per_mol_k": ct.gas_constant / 1000,
            "coefficients": coefficients,
            "rows": rows,
        }
    }
