"""Saturation line of water, dew points and condensate (IAPWS-95 by CoolProp)."""

from CoolProp.CoolProp import PropsSI

ZERO_CELSIUS = 273.15
WATER_KG_PER_MOL = 0.018015268


def saturation(celsius):
    kelvin = celsius + ZERO_CELSIUS
    vapour = PropsSI("H", "T", kelvin, "Q", 1, "Water")
    liquid = PropsSI("H", "T", kelvin, "Q", 0, "Water")
    return {
        "temperature_k": kelvin,
        "saturation_pressure_pa": PropsSI("P", "T", kelvin, "Q", 0, "Water"),
        "latent_heat_j_per_kg": vapour - liquid,
    }


def dew_points():
    rows = []
    for pressure in [85000.0, 95000.0, 101325.0]:
        for fraction in [0.01, 0.02, 0.04, 0.07, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5]:
            rows.append(
                {
                    "pressure_pa": pressure,
                    "mole_fraction_h2o": fraction,
                    "dew_point_k": PropsSI("T", "P", fraction * pressure, "Q", 1, "Water"),
                }
            )
    return rows


def condensates():
    """Gas in equilibrium with its water at the outlet; dry gas is not dissolved."""
    rows = []
    for pressure in [95000.0, 101325.0]:
        for fraction in [0.05, 0.12, 0.3]:
            for celsius in [5.0, 25.0, 40.0, 60.0]:
                outlet = saturation(celsius)
                held = outlet["saturation_pressure_pa"] / pressure
                inlet_water = fraction / (1 - fraction)
                outlet_water = min(inlet_water, held / (1 - held))
                condensed = (inlet_water - outlet_water) * WATER_KG_PER_MOL
                rows.append(
                    {
                        "pressure_pa": pressure,
                        "mole_fraction_h2o_inlet": fraction,
                        "outlet_k": outlet["temperature_k"],
                        "mole_fraction_h2o_outlet": outlet_water / (1 + outlet_water),
                        "condensate_kg_per_mol_dry_gas": condensed,
                        "latent_heat_at_outlet_j_per_mol_dry_gas": condensed * outlet["latent_heat_j_per_kg"],
                    }
                )
    return rows


def files():
    return {
        "dew_point.json": {
            "about": "Saturation line of water, dew point of a gas, water that condenses on cooling",
            "source": "CoolProp, fluid Water (IAPWS-95); ideal mixing of vapour and gas",
            "saturation": [saturation(c) for c in [0.01, 5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 90, 95, 100]],
            "dew_points": dew_points(),
            "condensates": condensates(),
        }
    }
