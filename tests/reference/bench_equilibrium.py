"""Time cantera on the cases of data/equilibrium.json and on whole gas solutions; prints JSON.

    python bench_equilibrium.py [ROUNDS]
"""

import json
import pathlib
import statistics
import sys
import time

from cases import gas_model
from cases.hearth_energy import FUELS

DATA = pathlib.Path(__file__).resolve().parent / "data"


def median_microseconds(work, rounds, pieces):
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        work()
        times.append((time.perf_counter() - start) / pieces * 1e6)
    return statistics.median(times)


def single_equilibria(rounds):
    """Set the state, equilibrate, read the fractions: no more than a caller needs."""
    rows = json.loads((DATA / "equilibrium.json").read_text(encoding="utf-8"))["rows"]
    states = []
    for row in rows:
        start = gas_model.starting_gas({e: row[f"{e.lower()}_mol"] for e in "CHON"})
        gas_model.GAS.X = start
        states.append((row["temperature_k"], row["pressure_pa"], gas_model.GAS.X.copy()))
    gas = gas_model.GAS

    def work():
        for state in states:
            gas.TPX = state
            gas.equilibrate("TP")
            gas.X

    return len(states), median_microseconds(work, rounds, len(states))


def whole_solutions(rounds):
    """Air, composition and hearth temperature by the char-limited balance, built from equilibrium calls."""
    data = json.loads((DATA / "hearth_energy.json").read_text(encoding="utf-8"))["char_limited"]
    rows = [row for row in data if row["solved"] and row["hearth_c"] is not None]

    def work():
        for row in rows:
            fuel = gas_model.Fuel(FUELS[row["fuel"]], row["moisture_wet"])
            loss = row["loss_share_of_higher_heating_value"]
            drawn, freeze = row["char_drawn_kg_per_kg_dry"], row["freeze_c"] + 273.15
            ratio = gas_model.char_limited_ratio(fuel, loss, freeze, drawn)
            gas_model.gas_equilibrium(fuel.with_air(ratio, drawn), freeze)
            gas_model.hearth_temperature_k(fuel, loss, ratio, row["char_waiting_kg_per_kg_dry"])

    return len(rows), median_microseconds(work, max(1, rounds // 10), len(rows))


def main():
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 50
    count, single = single_equilibria(rounds)
    solutions, whole = whole_solutions(rounds)
    result = {
        "equilibrium_cases": count,
        "equilibrium_microseconds_median": round(single, 3),
        "gas_solution_cases": solutions,
        "gas_solution_microseconds_median": round(whole, 1),
        "cantera_version": gas_model.ct.__version__,
    }
    print(json.dumps(result))


if __name__ == "__main__":
    main()
