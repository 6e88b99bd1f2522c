"""Steady heat flow through layered shells. The model is written out in README.md."""

import math
import random

import numpy as np
from CoolProp.CoolProp import PropsSI
from ht.conv_external import Nu_cylinder_Churchill_Bernstein
from ht.conv_free_immersed import (
    Nu_horizontal_plate_McAdams,
    Nu_vertical_cylinder_Popiel_Churchill,
    Nu_vertical_plate_Churchill,
)
from scipy.constants import Stefan_Boltzmann, g
from scipy.optimize import brentq

from cases.air import ATMOSPHERE_PA, air_properties

ZERO_CELSIUS = 273.15
# Above this a face is called too hot; only the search for the answer comes near it.
CEILING_K = 6000.0
# CoolProp's air ends here; no answer has a mean gap temperature above it.
AIR_LIMIT_K = 2000.0

# Conductivity in W/(m K) at mean temperature in degrees Celsius; typical values, from memory.
MATERIALS = {
    "ceramic fibre": [[200.0, 0.06], [400.0, 0.09], [600.0, 0.15], [800.0, 0.22], [1000.0, 0.30]],
    "rock wool": [[50.0, 0.045], [150.0, 0.06], [300.0, 0.10], [500.0, 0.16]],
    "calcium silicate": [[200.0, 0.065], [400.0, 0.09], [600.0, 0.11]],
    "vermiculite board": [[200.0, 0.16], [600.0, 0.19]],
    "insulating firebrick": [[400.0, 0.15], [800.0, 0.19]],
    "dense castable": [[400.0, 1.2], [1000.0, 1.5]],
    "loose perlite": [[20.0, 0.05], [300.0, 0.12]],
    "wood ash": [[200.0, 0.10]],
    "mild steel": [[20.0, 50.0], [700.0, 30.0]],
    "stainless 304": [[20.0, 15.0], [800.0, 25.0]],
}


def conductivity_integral(points, t):
    """Integral of the piecewise-linear conductivity from 0 to t degrees Celsius, constant ends."""
    temperatures, values = np.array(points).T
    knots = sorted({0.0, t, *[x for x in temperatures if min(0.0, t) < x < max(0.0, t)]})
    k = np.interp(knots, temperatures, values)
    return math.copysign(float(np.trapezoid(k, knots)), t)


def solid_inner_face(layer, outer_c, integral):
    """Temperature of the hot face for an integral of conductivity over the layer in W/m."""
    target = conductivity_integral(layer["conductivity_points"], outer_c) + integral
    ceiling = CEILING_K - ZERO_CELSIUS

    def excess(t):
        return conductivity_integral(layer["conductivity_points"], t) - target

    return ceiling if excess(ceiling) < 0 else brentq(excess, outer_c, ceiling, xtol=1e-11, rtol=1e-14)


def gap_flow(case, layer, r_inner, r_outer, hot_c, cold_c):
    """Heat across a closed gap: still air and grey radiation side by side."""
    hot, cold = hot_c + ZERO_CELSIUS, cold_c + ZERO_CELSIUS
    mean = min((hot + cold) / 2, AIR_LIMIT_K)
    k = PropsSI("L", "T", mean, "P", ATMOSPHERE_PA, "Air")
    radiated = Stefan_Boltzmann * (hot**4 - cold**4)
    e_in, e_out = layer["emissivity_inner"], layer["emissivity_outer"]
    if case["geometry"] == "cylinder":
        conducted = 2 * math.pi * k * (hot - cold) / math.log(r_outer / r_inner)
        exchange = 1 / e_in + r_inner / r_outer * (1 / e_out - 1)
        return case["height_m"] * (conducted + 2 * math.pi * r_inner * radiated / exchange)
    exchange = 1 / e_in + 1 / e_out - 1
    return case["area_m2"] * (k * (hot - cold) / layer["thickness_m"] + radiated / exchange)


def outside(case, radius, surface_c):
    """Coefficients and heat flow from the outer surface to the surroundings."""
    surface, ambient = surface_c + ZERO_CELSIUS, case["ambient_c"] + ZERO_CELSIUS
    film = (surface + ambient) / 2
    air = air_properties(film)
    nu = air["viscosity_pa_s"] / air["density_kg_per_m3"]
    k, prandtl = air["conductivity_w_per_m_k"], air["prandtl"]

    def grashof(length):
        return g * (surface - ambient) / film * length**3 / nu**2

    if case["geometry"] == "cylinder":
        height = case["height_m"]
        nusselt = Nu_vertical_cylinder_Popiel_Churchill(prandtl, grashof(height), height, 2 * radius)
        natural = nusselt * k / height
        area = 2 * math.pi * radius * height
    elif case["facing"] == "vertical":
        height = case["height_m"]
        natural = Nu_vertical_plate_Churchill(prandtl, grashof(height)) * k / height
        area = case["area_m2"]
    else:
        length = case["area_m2"] / case["perimeter_m"]
        up = case["facing"] == "up"
        natural = Nu_horizontal_plate_McAdams(prandtl, grashof(length), up) * k / length
        area = case["area_m2"]
    forced = 0.0
    if case["wind_m_per_s"] > 0:
        reynolds = case["wind_m_per_s"] * 2 * radius / nu
        forced = Nu_cylinder_Churchill_Bernstein(reynolds, prandtl) * k / (2 * radius)
    convection = max(natural, forced)
    radiated = case["emissivity"] * Stefan_Boltzmann * (surface**4 - ambient**4)
    flow = area * (convection * (surface - ambient) + radiated)
    return {
        "natural_w_per_m2_k": natural,
        "forced_w_per_m2_k": forced,
        "convection_w_per_m2_k": convection,
        "radiation_w_per_m2_k": radiated / (surface - ambient),
        "heat_flow_w": flow,
        "outside_area_m2": area,
    }


def radii(case):
    r = [case.get("inner_radius_m", 0.0)]
    for layer in case["layers"]:
        r.append(r[-1] + layer["thickness_m"])
    return r


def faces_from_surface(case, surface_c):
    """March inwards: every face temperature that goes with one surface temperature."""
    r = radii(case)
    flow = outside(case, r[-1], surface_c)["heat_flow_w"]
    faces = [surface_c]
    for i in reversed(range(len(case["layers"]))):
        layer, cold = case["layers"][i], faces[0]
        if "conductivity_points" in layer:
            if case["geometry"] == "cylinder":
                integral = flow * math.log(r[i + 1] / r[i]) / (2 * math.pi * case["height_m"])
            else:
                integral = flow * layer["thickness_m"] / case["area_m2"]
            faces.insert(0, solid_inner_face(layer, cold, integral))
        else:
            ceiling = CEILING_K - ZERO_CELSIUS

            def excess(hot):
                return gap_flow(case, layer, r[i], r[i + 1], hot, cold) - flow

            hot = ceiling if excess(ceiling) < 0 else brentq(excess, cold, ceiling, xtol=1e-11, rtol=1e-14)
            faces.insert(0, hot)
        if faces[0] >= CEILING_K - ZERO_CELSIUS:
            faces[:0] = [CEILING_K] * i
            break
    return faces


def solve(case):
    hot = case["hot_face_c"]

    def excess(surface_c):
        return faces_from_surface(case, surface_c)[0] - hot

    surface = brentq(excess, case["ambient_c"] + 1e-6, hot, xtol=1e-11, rtol=1e-14)
    faces = faces_from_surface(case, surface)
    air = outside(case, radii(case)[-1], surface)
    area = air["outside_area_m2"]
    return {
        **case,
        "heat_flow_w": air["heat_flow_w"],
        "outside_area_m2": area,
        "outside_flux_w_per_m2": air["heat_flow_w"] / area,
        "face_temperatures_c": faces,
        "surface_c": surface,
        "natural_w_per_m2_k": air["natural_w_per_m2_k"],
        "forced_w_per_m2_k": air["forced_w_per_m2_k"],
        "convection_w_per_m2_k": air["convection_w_per_m2_k"],
        "radiation_w_per_m2_k": air["radiation_w_per_m2_k"],
    }


def random_layers(draw, count, gaps):
    """Steel inside and outside, as shells are built, something insulating between them."""
    steel_first = draw.random() < 0.4 if count == 1 else True
    steel_last = count > 2
    insulating = [m for m in MATERIALS if "steel" not in m and "stainless" not in m]
    layers = []
    for i in range(count):
        if (i == 0 and steel_first) or (i == count - 1 and steel_last):
            material, thickness = draw.choice(["mild steel", "stainless 304"]), draw.choice([0.0015, 0.003, 0.006])
        elif gaps and not (layers and "emissivity_inner" in layers[-1]) and draw.random() < 0.6:
            layers.append(
                {
                    "thickness_m": draw.choice([0.005, 0.01, 0.02, 0.04]),
                    "emissivity_inner": round(draw.uniform(0.2, 0.95), 2),
                    "emissivity_outer": round(draw.uniform(0.2, 0.95), 2),
                }
            )
            continue
        else:
            material, thickness = draw.choice(insulating), draw.choice([0.01, 0.025, 0.05, 0.1])
        layers.append(
            {"material": material, "thickness_m": thickness, "conductivity_points": MATERIALS[material]}
        )
    return layers


def cases():
    draw = random.Random(20)
    made = []
    for number in range(60):
        made.append(
            {
                "geometry": "cylinder",
                "hot_face_c": float(draw.randrange(100, 1101, 25)),
                "inner_radius_m": draw.choice([0.03, 0.06, 0.1, 0.15, 0.25, 0.4]),
                "height_m": draw.choice([0.2, 0.35, 0.6, 1.0, 1.8]),
                "layers": random_layers(draw, 1 + number % 5, gaps=number % 2 == 1),
                "emissivity": round(draw.uniform(0.1, 0.95), 2),
                "ambient_c": float(draw.randrange(-10, 46, 5)),
                "wind_m_per_s": draw.choice([0.0, 0.0, 0.5, 2.0, 5.0, 10.0]),
            }
        )
    for number in range(36):
        facing = ["up", "down", "vertical"][number % 3]
        diameter = draw.choice([0.15, 0.3, 0.5, 0.8])
        case = {
            "geometry": "flat",
            "facing": facing,
            "hot_face_c": float(draw.randrange(100, 1101, 25)),
            "area_m2": round(math.pi / 4 * diameter**2, 6),
            "perimeter_m": round(math.pi * diameter, 6),
            "layers": random_layers(draw, 1 + number // 3 % 5, gaps=number % 2 == 1),
            "emissivity": round(draw.uniform(0.1, 0.95), 2),
            "ambient_c": float(draw.randrange(-10, 46, 5)),
            "wind_m_per_s": 0.0,
        }
        if facing == "vertical":
            case["height_m"] = diameter
        made.append(case)
    return made


def files():
    rows = [solve(case) for case in cases()]
    for row in rows:
        assert len(row["face_temperatures_c"]) == len(row["layers"]) + 1
        assert abs(row["face_temperatures_c"][0] - row["hot_face_c"]) < 1e-8
    return {
        "shells.json": {
            "about": "Steady heat flow through layered shells; the hot face temperature is given",
            "source": "scipy.optimize.brentq on ht correlations and CoolProp air; model in README.md",
            "rows": rows,
        }
    }
