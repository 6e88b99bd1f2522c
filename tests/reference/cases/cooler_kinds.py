"""Cooler tubes with fins, a fan or a water jacket, and with water that condenses; the gas as in cooler_tube.py."""

import math

from CoolProp.CoolProp import PropsSI
from ht.conv_external import Nu_cylinder_Churchill_Bernstein
from ht.conv_free_immersed import Nu_horizontal_cylinder_Churchill_Chu
from ht.conv_internal import turbulent_Gnielinski
from scipy.constants import R, Stefan_Boltzmann, g
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from cases.air import air_properties
from cases.cooler_tube import FRACTIONS, LAMINAR_LIMIT, LAMINAR_NUSSELT, TURBULENT_LIMIT, ZERO_CELSIUS
from cases.gas_mixture import GAS, properties

PRESSURE_PA = 101325.0
NORMAL_MOLAR_VOLUME = R * 273.15 / 101325.0
WATER_KG_PER_MOL = 0.018015
WATER_HEAT_CAPACITY = 4186.0


def held_water(kelvin):
    """Most moles of steam per mole of dry gas."""
    if kelvin > 420:
        return math.inf
    # A trial step of the integration may look below freezing.
    saturated = PropsSI("P", "T", max(kelvin, 273.16), "Q", 0, "Water")
    return saturated / (PRESSURE_PA - saturated) if saturated < PRESSURE_PA else math.inf


def latent_j_per_mol(kelvin):
    vapour, liquid = (PropsSI("H", "T", max(kelvin, 273.16), "Q", quality, "Water") for quality in (1, 0))
    return (vapour - liquid) * WATER_KG_PER_MOL


class Stream:
    """One tube's share of the gas."""

    def __init__(self, case):
        self.dry = case["dry_flow_nm3_per_s"] / NORMAL_MOLAR_VOLUME
        self.water = case["steam_kg_per_s"] / WATER_KG_PER_MOL

    def steam(self, kelvin):
        return min(self.water, self.dry * held_water(kelvin))

    def composition(self, kelvin):
        steam = self.steam(kelvin)
        total = self.dry + steam
        return {**{name: share * self.dry / total for name, share in FRACTIONS.items()}, "H2O": steam / total}

    def enthalpy(self, kelvin):
        """W: all water as steam, less the latent heat of what is liquid."""
        total = self.dry + self.water
        GAS.TPX = kelvin, PRESSURE_PA, {
            **{name: share * self.dry / total for name, share in FRACTIONS.items()},
            "H2O": self.water / total,
        }
        liquid = self.water - self.steam(kelvin)
        return total * GAS.enthalpy_mole / 1000 - (liquid * latent_j_per_mol(kelvin) if liquid > 0 else 0.0)


def fin_surface(case, coefficient):
    """Effective convecting area and radiating area per metre."""
    outer = case["outside_diameter_m"]
    if "fin_diameter_m" not in case:
        return math.pi * outer, math.pi * outer
    fin, thickness, pitch = case["fin_diameter_m"], case["fin_thickness_m"], case["fin_pitch_m"]
    ratio = fin / outer
    reach = outer / 2 * (ratio - 1) * (1 + 0.35 * math.log(ratio))
    argument = math.sqrt(2 * coefficient / (case["fin_conductivity_w_per_m_k"] * thickness)) * reach
    faces = math.pi / 2 * (fin**2 - outer**2) + math.pi * fin * thickness
    bare = math.pi * outer * (1 - thickness / pitch)
    return bare + math.tanh(argument) / argument * faces / pitch, math.pi * fin


def outside_w_per_m(case, surface_k, water_k):
    outer = case["outside_diameter_m"]
    if water_k is not None:
        return math.pi * outer * case["water_coefficient_w_per_m2_k"] * (surface_k - water_k)
    ambient = case["ambient_c"] + ZERO_CELSIUS
    film = (surface_k + ambient) / 2
    air = air_properties(film)
    nu = air["viscosity_pa_s"] / air["density_kg_per_m3"]
    grashof = g * (surface_k - ambient) / film * outer**3 / nu**2
    nusselt = Nu_horizontal_cylinder_Churchill_Chu(air["prandtl"], grashof)
    if case["air_speed_m_per_s"] > 0:
        reynolds = case["air_speed_m_per_s"] * outer / nu
        nusselt = max(nusselt, Nu_cylinder_Churchill_Bernstein(reynolds, air["prandtl"]))
    coefficient = nusselt * air["conductivity_w_per_m_k"] / outer
    area, envelope = fin_surface(case, coefficient)
    radiated = case["emissivity"] * Stefan_Boltzmann * (surface_k**4 - ambient**4)
    return coefficient * area * (surface_k - ambient) + envelope * radiated


def slope(case, stream, gas_k, wet, water_k):
    """dT/dx where water condenses (`wet`) or not."""
    sink = water_k if water_k is not None else case["ambient_c"] + ZERO_CELSIUS
    if gas_k <= sink + 1e-6:
        return 0.0
    mixture = stream.composition(gas_k)
    gas = properties(gas_k, mixture)
    molar_mass = GAS.mean_molecular_weight / 1000
    flow = (stream.dry + stream.steam(gas_k)) * molar_mass
    bore = case["inside_diameter_m"]
    reynolds = 4 * flow / (math.pi * bore * gas["viscosity_pa_s"])
    prandtl = gas["viscosity_pa_s"] * gas["heat_capacity_j_per_kg_k"] / gas["conductivity_w_per_m_k"]

    def gnielinski(re):
        return turbulent_Gnielinski(re, prandtl, (0.79 * math.log(re) - 1.64) ** -2)

    if reynolds <= LAMINAR_LIMIT:
        nusselt = LAMINAR_NUSSELT
    elif reynolds >= TURBULENT_LIMIT:
        nusselt = gnielinski(reynolds)
    else:
        share = (reynolds - LAMINAR_LIMIT) / (TURBULENT_LIMIT - LAMINAR_LIMIT)
        nusselt = (1 - share) * LAMINAR_NUSSELT + share * gnielinski(TURBULENT_LIMIT)
    sensible = flow * gas["heat_capacity_j_per_kg_k"]
    # The derivative is taken on the side of the dew point that the gas is on.
    step = 0.01
    low, high = (gas_k - 2 * step, gas_k) if wet else (gas_k, gas_k + 2 * step)
    capacity = (stream.enthalpy(high) - stream.enthalpy(low)) / (2 * step)
    gain = max(1.0, capacity / sensible) if wet else 1.0
    coefficient = nusselt * gas["conductivity_w_per_m_k"] / bore * gain
    outer = case["outside_diameter_m"]
    wall = math.log(outer / bore) / (2 * math.pi * case["wall_conductivity_w_per_m_k"])
    resistance = 1 / (math.pi * bore * coefficient) + wall
    surface = brentq(
        lambda s: outside_w_per_m(case, s, water_k) - (gas_k - s) / resistance, sink + 1e-7, gas_k, xtol=1e-10
    )
    return -(gas_k - surface) / resistance / capacity


def run(case, stream, water_k):
    """Gas temperature at the outlet: up to the dew point, and on from there."""
    length, start = case["length_m"], case["inlet_c"] + ZERO_CELSIUS
    options = {"method": "RK45", "rtol": 1e-8, "atol": 1e-7, "max_step": length / 40}
    if stream.water <= 0:
        return solve_ivp(lambda _, t: [slope(case, stream, t[0], False, water_k)], (0, length), [start], **options).y[0][-1]
    share = stream.water / (stream.water + stream.dry)
    dew = PropsSI("T", "P", share * PRESSURE_PA, "Q", 1, "Water")

    def reached(_, t):
        return t[0] - dew

    reached.terminal = True
    dry = solve_ivp(
        lambda _, t: [slope(case, stream, t[0], False, water_k)], (0, length), [start], events=reached, **options
    )
    if not dry.t_events[0].size:
        return dry.y[0][-1]
    place = dry.t_events[0][0]
    wet = solve_ivp(
        lambda _, t: [slope(case, stream, t[0], True, water_k)], (place, length), [dew - 1e-7], **options
    )
    return wet.y[0][-1]


def solve(case):
    stream = Stream(case)
    before = stream.enthalpy(case["inlet_c"] + ZERO_CELSIUS)
    water_k = None
    if "water_inlet_c" in case:
        inlet = case["water_inlet_c"] + ZERO_CELSIUS
        capacity = case["water_kg_per_s"] * WATER_HEAT_CAPACITY

        def excess(guess):
            return inlet + (before - stream.enthalpy(run(case, stream, guess))) / capacity - guess

        water_k = brentq(excess, inlet, inlet + 70, xtol=1e-6)
    outlet = run(case, stream, water_k)
    answer = {
        **case,
        "outlet_c": outlet - ZERO_CELSIUS,
        "heat_w": before - stream.enthalpy(outlet),
        "condensate_kg_per_s": (stream.water - stream.steam(outlet)) * WATER_KG_PER_MOL,
    }
    if water_k is not None:
        answer["water_outlet_c"] = water_k - ZERO_CELSIUS
    return answer


def cases():
    fins = {"fin_diameter_m": 0.06, "fin_thickness_m": 0.0005, "fin_pitch_m": 0.01, "fin_conductivity_w_per_m_k": 200.0}
    for kind, more in [
        ("bare", {"air_speed_m_per_s": 0.0}),
        ("finned", {"air_speed_m_per_s": 0.0, **fins}),
        ("fan", {"air_speed_m_per_s": 4.0}),
        ("fan and fins", {"air_speed_m_per_s": 4.0, **fins}),
        ("jacket", {"water_inlet_c": 15.0, "water_kg_per_s": 0.02, "water_coefficient_w_per_m2_k": 500.0}),
    ]:
        for flow, length in [(0.0004, 3.0), (0.003, 8.0)]:
            for steam in [0.0, 0.06, 0.25]:
                yield {
                    "kind": kind,
                    "inside_diameter_m": 0.028,
                    "outside_diameter_m": 0.031,
                    "length_m": length,
                    "wall_conductivity_w_per_m_k": 45.0,
                    "emissivity": 0.85,
                    "dry_flow_nm3_per_s": flow,
                    "steam_kg_per_s": steam * flow,
                    "inlet_c": 300.0,
                    "ambient_c": 20.0,
                    **more,
                }


def files():
    return {
        "cooler_kinds.json": {
            "about": "One level tube with fins, fan or jacket, and with condensing water; the model is in README.md",
            "source": "scipy.integrate.solve_ivp on ht correlations, CoolProp air and water, cantera gas",
            "relative_tolerance": 1e-5,
            **{f"mole_fraction_{name.lower()}": share for name, share in FRACTIONS.items()},
            "rows": [solve(case) for case in cases()],
        }
    }
