"""Dry air at one atmosphere, and the pressure of the standard atmosphere."""

import math

import fluids
from CoolProp.CoolProp import PropsSI

ATMOSPHERE_PA = 101325.0


def air_properties(temperature_k):
    """Dry air at one atmosphere from CoolProp (Lemmon, Jacobsen et al., 2000 and 2004)."""
    density = PropsSI("D", "T", temperature_k, "P", ATMOSPHERE_PA, "Air")
    viscosity = PropsSI("V", "T", temperature_k, "P", ATMOSPHERE_PA, "Air")
    conductivity = PropsSI("L", "T", temperature_k, "P", ATMOSPHERE_PA, "Air")
    heat_capacity = PropsSI("C", "T", temperature_k, "P", ATMOSPHERE_PA, "Air")
    return {
        "density_kg_per_m3": density,
        "viscosity_pa_s": viscosity,
        "conductivity_w_per_m_k": conductivity,
        "heat_capacity_j_per_kg_k": heat_capacity,
        "prandtl": viscosity * heat_capacity / conductivity,
    }


def files():
    temperatures = sorted([250.0 + 50.0 * i for i in range(22)] + [273.15, 293.15, 298.15])
    air = [{"temperature_k": t, **air_properties(t)} for t in temperatures]
    altitude = []
    for metres in [0, 250, 500, 1000, 1500, 2000, 3000, 4000, 5000]:
        standard = fluids.ATMOSPHERE_1976(float(metres))
        altitude.append(
            {
                # The library takes geometric height and turns it into geopotential height.
                "altitude_m": float(metres),
                "pressure_pa": standard.P,
                "temperature_k": standard.T,
                "density_kg_per_m3": standard.rho,
            }
        )
    assert all(math.isfinite(v) for row in air for v in row.values())
    return {
        "air.json": {
            "about": "Dry air at 101325 Pa",
            "source": "CoolProp, fluid Air",
            "rows": air,
        },
        "altitude.json": {
            "about": "US Standard Atmosphere 1976 at geometric height",
            "source": "fluids.ATMOSPHERE_1976",
            "rows": altitude,
        },
    }
