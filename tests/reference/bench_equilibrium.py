"""Time cantera on the cases of data/equilibrium.json and on whole gas solutions.

    python bench_equilibrium.py [--rounds N]            print JSON
    python bench_equilibrium.py --beside OURS.json      print a table beside the figures of benches/equilibrium.rs
"""

import argparse
import json
import pathlib
import statistics
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


def measured(rounds):
    count, single = single_equilibria(rounds)
    solutions, whole = whole_solutions(rounds)
    return {
        "equilibrium_cases": count,
        "equilibrium_microseconds_median": round(single, 3),
        "gas_solution_cases": solutions,
        "gas_solution_microseconds_median": round(whole, 1),
        "cantera_version": gas_model.ct.__version__,
    }


def table(ours, theirs):
    lines = [f"{'median per case, µs':34}{'cases':>7}{'ours':>10}{'cantera ' + theirs['cantera_version']:>16}{'ratio':>9}"]
    for name, kind in [("one equilibrium, gas only", "equilibrium"), ("one whole gas solution", "gas_solution")]:
        cases = ours[f"{kind}_cases"]
        if cases != theirs[f"{kind}_cases"]:
            raise ValueError(f"{name}: {cases} cases here, {theirs[f'{kind}_cases']} there")
        mine, other = ours[f"{kind}_microseconds_median"], theirs[f"{kind}_microseconds_median"]
        lines.append(f"{name:34}{cases:7}{mine:10.2f}{other:16.1f}{other / mine:8.0f}x")
    lines += [
        "Same rows of the reference data on both sides, one core, one after the other.",
        "Equilibrium: both work out the equilibrium constants at the temperature and solve for the composition.",
        "cantera: called from Python; sets the state, equilibrates by its general method and reads the fractions.",
        "Ours: compiled, written for seven species of C, H, O and N alone.",
        "Whole solution: air ratio, composition and hearth temperature from the char-limited balance;",
        "cantera: Python with root searches by scipy around equilibrium calls, as in the reference script.",
    ]
    return "\n".join(lines)


def main():
    parser = argparse.ArgumentParser(description="Time cantera on the reference cases.")
    parser.add_argument("--rounds", type=int, default=50)
    parser.add_argument("--beside", type=pathlib.Path)
    wanted = parser.parse_args()
    theirs = measured(wanted.rounds)
    if wanted.beside is None:
        print(json.dumps(theirs))
    else:
        print(table(json.loads(wanted.beside.read_text(encoding="utf-8")), theirs))


if __name__ == "__main__":
    main()
