"""Equilibrium compositions of wood gas, with and without solid carbon."""

from cases.gas_model import PRESSURE_PA, Fuel, equilibrium, fraction_fields, gas_equilibrium

# Dry, ash-free mass percent; round numbers over the range of solid fuels.
FUELS = {
    "softwood": {"C": 51.0, "H": 6.1, "O": 42.7, "N": 0.2},
    "hardwood": {"C": 49.5, "H": 6.0, "O": 44.1, "N": 0.4},
    "nut shells": {"C": 53.0, "H": 6.3, "O": 40.2, "N": 0.5},
    "torrefied wood": {"C": 62.0, "H": 5.5, "O": 32.0, "N": 0.5},
    "charcoal": {"C": 90.0, "H": 2.8, "O": 6.8, "N": 0.4},
}


def cases():
    for name, fuel in FUELS.items():
        for moisture in [0.0, 0.1, 0.2, 0.35, 0.5]:
            for ratio in [0.15, 0.25, 0.35, 0.5, 0.8]:
                for celsius in [600.0, 700.0, 800.0, 900.0, 1000.0]:
                    yield name, fuel, moisture, ratio, celsius
            yield name, fuel, moisture, 0.35, 1200.0


def files():
    gas_rows, carbon_rows = [], []
    for name, fuel, moisture, ratio, celsius in cases():
        per_kg = Fuel(fuel, moisture).with_air(ratio, 0.0)
        elements = {e: float(f"{per_kg[e] / per_kg['C']:.8g}") for e in "CHON"}
        given = {
            "fuel": name,
            "moisture_wet": moisture,
            "equivalence_ratio": ratio,
            "temperature_k": celsius + 273.15,
            "pressure_pa": PRESSURE_PA,
            **{f"{e.lower()}_mol": elements[e] for e in "CHON"},
        }
        gas = gas_equilibrium(elements, celsius + 273.15)
        if gas is not None:
            # Beyond this the activity only says that the gas is far from holding its carbon.
            row = {**given, "gas_mol": gas["gas_mol"], **fraction_fields(gas["fractions"])}
            gas_rows.append({**row, "carbon_activity": min(gas["carbon_activity"], 1e3)})
        if gas is None or gas["carbon_activity"] > 1:
            both = equilibrium(elements, celsius + 273.15)
            carbon_rows.append(
                {
                    **given,
                    "gas_mol": both["gas_mol"],
                    "carbon_mol": both["carbon_mol"],
                    **fraction_fields(both["fractions"]),
                }
            )
    return {
        "equilibrium.json": {
            "about": "Gas alone in equilibrium; carbon_activity above 1 means that solid carbon would settle (capped at 1000)",
            "source": "cantera, species CO, CO2, H2, H2O, CH4, N2, O2 of nasa_gas.yaml",
            "rows": gas_rows,
        },
        "equilibrium_carbon.json": {
            "about": "Gas in equilibrium with solid graphite, for every case in which graphite persists",
            "source": "cantera, the same gas and C(gr) of graphite.yaml",
            "rows": carbon_rows,
        },
    }
