"""Shields between a hot wall and a battery box: closed upright gaps in series, the box wall last."""

from cases.air import air_properties
from cases.shells import MATERIALS, ZERO_CELSIUS, solve

# The shields are thin bright or dull sheet; the box wall is painted steel.
SHEET_M = 0.0008


def steel():
    return {"material": "mild steel", "thickness_m": SHEET_M, "conductivity_points": MATERIALS["mild steel"]}


def nusselt(width_m, height_m, hot_c, cold_c):
    """Air in a closed upright gap: ElSherbiny, Raithby and Hollands, Journal of Heat Transfer 104 (1982) 96, from memory."""
    mean = 0.5 * (hot_c + cold_c) + ZERO_CELSIUS
    air = air_properties(mean)
    viscosity = air["viscosity_pa_s"] / air["density_kg_per_m3"]
    rayleigh = air["prandtl"] * 9.80665 * abs(hot_c - cold_c) / mean * width_m**3 / viscosity**2
    between = 0.104 * rayleigh**0.293 / (1 + (6310 / rayleigh) ** 1.36)
    return max(
        0.0605 * rayleigh ** (1 / 3),
        (1 + between**3) ** (1 / 3),
        0.242 * (rayleigh / (height_m / width_m)) ** 0.272,
    )


def solve_moving(case):
    """Each gap as still air in one that is so much narrower as the moving air carries more."""
    gaps = [layer for layer in case["layers"] if "emissivity_inner" in layer]
    widths = [gap["thickness_m"] for gap in gaps]
    moving = [1.0] * len(gaps)
    for _ in range(60):
        for gap, width, moves in zip(gaps, widths, moving):
            gap["thickness_m"] = width / moves
        row = solve(case)
        faces = row["face_temperatures_c"]
        found = [nusselt(width, case["height_m"], *faces[2 * i : 2 * i + 2]) for i, width in enumerate(widths)]
        moving = [0.5 * (one + other) for one, other in zip(moving, found)]
    for gap, width in zip(gaps, widths):
        gap["thickness_m"] = width
    return {**row, "last_gap": moving[-1]}


def files():
    rows = []
    for hot in [100.0, 250.0, 450.0]:
        for shields in [0, 1, 2, 3]:
            for shield_emissivity in [0.1, 0.6]:
                if shields == 0 and shield_emissivity != 0.1:
                    continue
                layers = []
                for number in range(shields + 1):
                    first, last = number == 0, number == shields
                    layers.append(
                        {
                            "thickness_m": 0.015,
                            "emissivity_inner": 0.8 if first else shield_emissivity,
                            "emissivity_outer": 0.9 if last else shield_emissivity,
                        }
                    )
                    layers.append(steel())
                row = solve_moving(
                    {
                        "geometry": "flat",
                        "facing": "vertical",
                        "hot_face_c": hot,
                        "area_m2": 0.12,
                        "perimeter_m": 1.4,
                        "layers": layers,
                        "emissivity": 0.9,
                        "ambient_c": 30.0,
                        "wind_m_per_s": 0.0,
                        "height_m": 0.3,
                    }
                )
                rows.append({"shields": shields, **row})
    return {
        "heat_shield.json": {
            "about": "Hot wall, shields with closed upright gaps, box wall; the far side of the box wall sees the ambient",
            "source": "the model of shells.json; air in the gaps by ElSherbiny, Raithby and Hollands, 1982",
            "rows": rows,
        }
    }
