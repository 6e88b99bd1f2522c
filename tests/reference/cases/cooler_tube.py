"""One bare tube that cools gas in still air, as an initial value problem along the tube."""

import math

from ht.conv_free_immersed import Nu_horizontal_cylinder_Churchill_Chu, Nu_vertical_cylinder_Popiel_Churchill
from ht.conv_internal import turbulent_Gnielinski
from scipy.constants import Stefan_Boltzmann, g
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from cases.air import air_properties
from cases.gas_mixture import MIXTURES, properties

ZERO_CELSIUS = 273.15
LAMINAR_NUSSELT = 3.66
LAMINAR_LIMIT = 2300.0
TURBULENT_LIMIT = 4000.0
# Dry, so that nothing condenses on the way.
FRACTIONS = MIXTURES["usual dry gas"]


def inside(case, gas_k):
    """Coefficient and Reynolds number at the gas's own temperature, developed flow."""
    gas = properties(gas_k, FRACTIONS)
    viscosity, conductivity = gas["viscosity_pa_s"], gas["conductivity_w_per_m_k"]
    bore = case["inside_diameter_m"]
    reynolds = 4 * case["mass_flow_kg_per_s"] / (math.pi * bore * viscosity)
    prandtl = viscosity * gas["heat_capacity_j_per_kg_k"] / conductivity

    def gnielinski(re):
        return turbulent_Gnielinski(re, prandtl, (0.79 * math.log(re) - 1.64) ** -2)

    if reynolds <= LAMINAR_LIMIT:
        nusselt = LAMINAR_NUSSELT
    elif reynolds >= TURBULENT_LIMIT:
        nusselt = gnielinski(reynolds)
    else:
        share = (reynolds - LAMINAR_LIMIT) / (TURBULENT_LIMIT - LAMINAR_LIMIT)
        nusselt = (1 - share) * LAMINAR_NUSSELT + share * gnielinski(TURBULENT_LIMIT)
    return nusselt * conductivity / bore, reynolds, gas["heat_capacity_j_per_kg_k"]


def outside_flux(case, surface_k):
    """W/m2 from the tube's surface to still air and surroundings of the same temperature."""
    ambient = case["ambient_c"] + ZERO_CELSIUS
    film = (surface_k + ambient) / 2
    air = air_properties(film)
    nu = air["viscosity_pa_s"] / air["density_kg_per_m3"]
    upright = case["orientation"] == "vertical"
    length = case["length_m"] if upright else case["outside_diameter_m"]
    grashof = g * (surface_k - ambient) / film * length**3 / nu**2
    if upright:
        nusselt = Nu_vertical_cylinder_Popiel_Churchill(air["prandtl"], grashof, length, case["outside_diameter_m"])
    else:
        nusselt = Nu_horizontal_cylinder_Churchill_Chu(air["prandtl"], grashof)
    convection = nusselt * air["conductivity_w_per_m_k"] / length * (surface_k - ambient)
    return convection + case["emissivity"] * Stefan_Boltzmann * (surface_k**4 - ambient**4)


def local(case, gas_k):
    """Heat lost per metre of tube and the surface temperature where the gas has this temperature."""
    coefficient, reynolds, heat_capacity = inside(case, gas_k)
    bore, outer = case["inside_diameter_m"], case["outside_diameter_m"]
    wall = math.log(outer / bore) / (2 * math.pi * case["wall_conductivity_w_per_m_k"])
    resistance = 1 / (math.pi * bore * coefficient) + wall

    def excess(surface_k):
        return math.pi * outer * outside_flux(case, surface_k) - (gas_k - surface_k) / resistance

    surface = brentq(excess, case["ambient_c"] + ZERO_CELSIUS + 1e-6, gas_k, xtol=1e-11, rtol=1e-14)
    return (gas_k - surface) / resistance, surface, reynolds, heat_capacity


def solve(case):
    flow = case["mass_flow_kg_per_s"]

    def slope(_, state):
        lost, _, _, heat_capacity = local(case, state[0])
        return [-lost / (flow * heat_capacity), lost]

    length = case["length_m"]
    places = [0.25 * length, 0.5 * length, 0.75 * length, length]
    start = [case["inlet_c"] + ZERO_CELSIUS, 0.0]
    answer = solve_ivp(slope, (0.0, length), start, method="DOP853", t_eval=places, rtol=1e-10, atol=1e-9)
    assert answer.success
    first, last = local(case, start[0]), local(case, answer.y[0][-1])
    return {
        **case,
        "gas_at_quarters_c": [t - ZERO_CELSIUS for t in answer.y[0]],
        "outlet_c": answer.y[0][-1] - ZERO_CELSIUS,
        "heat_w": answer.y[1][-1],
        "surface_at_inlet_c": first[1] - ZERO_CELSIUS,
        "surface_at_outlet_c": last[1] - ZERO_CELSIUS,
        "reynolds_inlet": first[2],
        "reynolds_outlet": last[2],
    }


def cases():
    for orientation in ["horizontal", "vertical"]:
        for bore, wall, flow, length in [
            (0.02, 0.0015, 0.0004, 1.5),
            (0.025, 0.002, 0.0006, 1.0),
            (0.025, 0.002, 0.004, 2.5),
            (0.05, 0.003, 0.0012, 2.0),
            (0.05, 0.003, 0.009, 4.0),
            (0.08, 0.002, 0.02, 6.0),
        ]:
            for inlet, ambient, emissivity in [(500.0, 20.0, 0.8), (250.0, 35.0, 0.3)]:
                yield {
                    "orientation": orientation,
                    "inside_diameter_m": bore,
                    "outside_diameter_m": round(bore + 2 * wall, 6),
                    "length_m": length,
                    "wall_conductivity_w_per_m_k": 45.0,
                    "emissivity": emissivity,
                    "mass_flow_kg_per_s": flow,
                    "inlet_c": inlet,
                    "ambient_c": ambient,
                }


def files():
    return {
        "cooler_tube.json": {
            "about": "One bare tube in still air; the model is in README.md",
            "source": "scipy.integrate.solve_ivp on ht correlations, CoolProp air and cantera gas",
            **{f"mole_fraction_{name.lower()}": share for name, share in FRACTIONS.items()},
            "rows": [solve(case) for case in cases()],
        }
    }
