"""Copper cable: wire gauges from their definition, metric sizes from memory of the standard."""

import math

RESISTIVITY_OHM_M = 1.724e-8  # annealed copper at 20 degrees Celsius, IEC 60028
TEMPERATURE_COEFFICIENT_PER_K = 0.00393  # IEC 60028, from memory

# mm2 and the greatest resistance in ohm/km at 20 degrees Celsius, plain copper, IEC 60228, from memory.
CLASS_2 = {1.5: 12.1, 2.5: 7.41, 4.0: 4.61, 6.0: 3.08, 10.0: 1.83, 16.0: 1.15, 25.0: 0.727, 35.0: 0.524}
CLASS_5 = {
    0.5: 39.0,
    0.75: 26.0,
    1.0: 19.5,
    1.5: 13.3,
    2.5: 7.98,
    4.0: 4.95,
    6.0: 3.30,
    10.0: 1.91,
    16.0: 1.21,
    25.0: 0.780,
    35.0: 0.554,
}


def gauges():
    rows = []
    for gauge in range(0, 25, 2):
        # ASTM B258: 0.005 in at gauge 36, 0.46 in at gauge 0000, in 39 equal ratios.
        diameter = 0.005 * 0.0254 * 92 ** ((36 - gauge) / 39)
        area = math.pi / 4 * diameter**2
        rows.append(
            {
                "gauge_awg": gauge,
                "diameter_m": diameter,
                "area_m2": area,
                "resistance_ohm_per_m": RESISTIVITY_OHM_M / area,
            }
        )
    return rows


def metric():
    rows = []
    for name, table in [("2", CLASS_2), ("5", CLASS_5)]:
        for area, resistance in table.items():
            rows.append(
                {
                    "conductor_class": name,
                    "area_m2": area * 1e-6,
                    "greatest_resistance_ohm_per_m": resistance / 1000,
                    "from_memory": True,
                }
            )
    return rows


def drops():
    """Out and back: twice the run. Warm copper: 1 + alpha (T - 20)."""
    rows = []
    for area, run, current, celsius in [(2.5, 3.0, 8.0, 20.0), (4.0, 5.0, 15.0, 20.0), (6.0, 4.0, 25.0, 60.0), (16.0, 2.0, 60.0, 40.0)]:
        warm = RESISTIVITY_OHM_M * (1 + TEMPERATURE_COEFFICIENT_PER_K * (celsius - 20))
        rows.append(
            {
                "area_m2": area * 1e-6,
                "run_m": run,
                "current_a": current,
                "conductor_c": celsius,
                "drop_v": 2 * run * current * warm / (area * 1e-6),
            }
        )
    return rows


def files():
    return {
        "cable.json": {
            "about": "Copper wire gauges, metric conductors and voltage drops",
            "source": "ASTM B258 definition; IEC 60228 from memory; 1.724e-8 ohm m at 20 degrees Celsius, IEC 60028",
            "gauges": gauges(),
            "metric": metric(),
            "drops": drops(),
        }
    }
