"""Shields between a hot wall and a battery box: closed gaps in series, the box wall last."""

from cases.shells import MATERIALS, solve

# The shields are thin bright or dull sheet; the box wall is painted steel.
SHEET_M = 0.0008


def steel():
    return {"material": "mild steel", "thickness_m": SHEET_M, "conductivity_points": MATERIALS["mild steel"]}


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
                row = solve(
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
            "about": "Hot wall, shields with still-air gaps, box wall; the far side of the box wall sees the ambient",
            "source": "the model of shells.json",
            "rows": rows,
        }
    }
