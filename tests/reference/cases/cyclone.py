"""Cyclones of the two usual proportions: cut size and pressure loss."""

import math

from cases.air import air_properties

# Shares of the body diameter; Cooper and Alley, Air Pollution Control, chapter on cyclones, from memory.
PROPORTIONS = {
    "Lapple": {"inlet_height": 0.5, "inlet_width": 0.25, "outlet": 0.5, "body": 2.0, "cone": 2.0},
    "Stairmand": {"inlet_height": 0.5, "inlet_width": 0.2, "outlet": 0.5, "body": 1.5, "cone": 2.5},
}
LOSS_CONSTANT = 16.0  # tangential inlet without vanes, 12 to 18


def solve(kind, diameter, flow, density, viscosity, particle_density):
    """Lapple: turns, cut diameter and velocity heads lost."""
    share = PROPORTIONS[kind]
    height, width, outlet = (share[k] * diameter for k in ("inlet_height", "inlet_width", "outlet"))
    velocity = flow / (height * width)
    turns = (share["body"] * diameter + share["cone"] * diameter / 2) / height
    cut = math.sqrt(9 * viscosity * width / (2 * math.pi * turns * velocity * (particle_density - density)))
    heads = LOSS_CONSTANT * height * width / outlet**2
    return {
        "kind": kind,
        "body_diameter_m": diameter,
        "flow_m3_per_s": flow,
        "density_kg_per_m3": density,
        "viscosity_pa_s": viscosity,
        "particle_density_kg_per_m3": particle_density,
        "inlet_velocity_m_per_s": velocity,
        "turns": turns,
        "cut_diameter_m": cut,
        "velocity_heads_lost": heads,
        "pressure_drop_pa": heads * density * velocity**2 / 2,
    }


def files():
    rows = []
    for kind in PROPORTIONS:
        for diameter in [0.08, 0.12, 0.2]:
            for kelvin in [423.15, 673.15]:
                air = air_properties(kelvin)
                share = PROPORTIONS[kind]
                flow = 16.0 * share["inlet_height"] * share["inlet_width"] * diameter**2
                rows.append(
                    solve(kind, diameter, flow, air["density_kg_per_m3"], air["viscosity_pa_s"], 1200.0)
                )
    # The book's example as remembered: 1 m body, 150 m3/min at 350 K, 1600 kg/m3; it finds about 6.3 um.
    example = solve("Lapple", 1.0, 2.5, 1.01, 0.075 / 3600, 1600.0)
    return {
        "cyclone.json": {
            "about": "Cut diameter by Lapple and loss in velocity heads of the inlet, constant 16",
            "source": "Cooper and Alley, Air Pollution Control, proportions and example from memory",
            "rows": rows,
            "worked_example_from_memory": example | {"cut_diameter_remembered_m": 6.3e-6},
        }
    }
