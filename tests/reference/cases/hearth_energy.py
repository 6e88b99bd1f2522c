"""Air, hearth temperature and heating value from the energy balance of the hearth."""

from cases.gas_model import (
    ATOMIC_G_PER_MOL,
    Fuel,
    air_held_exit,
    char_limited_ratio,
    fraction_fields,
    gas_equilibrium,
    hearth_temperature_k,
    heating_value_mj_per_nm3,
)

ZERO_CELSIUS = 273.15


def from_formula(hydrogen, oxygen):
    """Mass percent of a fuel CHxOy."""
    grams = {
        "C": ATOMIC_G_PER_MOL["C"],
        "H": hydrogen * ATOMIC_G_PER_MOL["H"],
        "O": oxygen * ATOMIC_G_PER_MOL["O"],
    }
    whole = sum(grams.values())
    return {e: 100 * g / whole for e, g in grams.items()}


FUELS = {
    "CH1.44O0.66": from_formula(1.44, 0.66),
    "nut shells": {"C": 53.0, "H": 6.3, "O": 40.2, "N": 0.5},
}
CHAR_SHARE = 0.22


def fuel_fields(name, moisture):
    percent = FUELS[name]
    return {
        "fuel": name,
        **{f"dry_mass_percent_{e.lower()}": percent.get(e, 0.0) for e in "CHON"},
        "moisture_wet": moisture,
        "higher_heating_value_j_per_kg_dry": Fuel(percent, moisture).heating_value_j,
    }


def hearth_celsius(fuel, loss, ratio, char):
    kelvin = hearth_temperature_k(fuel, loss, ratio, char)
    return None if kelvin is None else kelvin - ZERO_CELSIUS


def char_limited(name, moisture, loss, above_share, freeze_c, drawn, char):
    """`above_share` of the loss happens at or above the nozzle plane."""
    fuel = Fuel(FUELS[name], moisture)
    freeze_k = freeze_c + ZERO_CELSIUS
    ratio = char_limited_ratio(fuel, loss, freeze_k, drawn)
    given = {
        **fuel_fields(name, moisture),
        "loss_share_of_higher_heating_value": loss,
        "loss_share_at_or_above_nozzles": above_share,
        "freeze_c": freeze_c,
        "char_drawn_kg_per_kg_dry": drawn,
        "char_waiting_kg_per_kg_dry": char,
        "solved": ratio is not None,
    }
    if ratio is None:
        return given
    gas = gas_equilibrium(fuel.with_air(ratio, drawn), freeze_k)
    return {
        **given,
        "equivalence_ratio": ratio,
        "hearth_c": hearth_celsius(fuel, loss * above_share, ratio, char),
        "lower_heating_value_mj_per_nm3": heating_value_mj_per_nm3(gas["fractions"]),
        "gas_mol_per_kg_dry": gas["gas_mol"],
        **fraction_fields(gas["fractions"]),
        "carbon_activity": gas["carbon_activity"],
    }


def air_held(name, moisture, loss, ratio, drawn, char):
    fuel = Fuel(FUELS[name], moisture)
    exit_state = air_held_exit(fuel, loss, ratio, drawn)
    given = {
        **fuel_fields(name, moisture),
        "loss_share_of_higher_heating_value": loss,
        "equivalence_ratio": ratio,
        "char_drawn_kg_per_kg_dry": drawn,
        "char_waiting_kg_per_kg_dry": char,
        "hearth_c": hearth_celsius(fuel, loss, ratio, char),
        "solved": exit_state is not None,
    }
    if exit_state is None:
        return given
    temperature, gas = exit_state
    return {
        **given,
        "exit_c": temperature - ZERO_CELSIUS,
        "lower_heating_value_mj_per_nm3": heating_value_mj_per_nm3(gas["fractions"]),
        "gas_mol_per_kg_dry": gas["gas_mol"],
        "carbon_left_mol_per_kg_dry": gas["carbon_mol"],
        **fraction_fields(gas["fractions"]),
    }


def files():
    wood = "CH1.44O0.66"
    limited = [char_limited(wood, 0.15, loss, 1.0, 800.0, 0.0, CHAR_SHARE) for loss in [0.0, 0.05, 0.1, 0.2]]
    for name in FUELS:
        for moisture in [0.0, 0.1, 0.2, 0.3, 0.4, 0.5]:
            for loss in [0.0, 0.05, 0.1, 0.2, 0.4]:
                limited.append(char_limited(name, moisture, loss, 1.0, 800.0, 0.03, CHAR_SHARE))
    for freeze in [600.0, 700.0, 900.0, 1000.0]:
        for loss in [0.0, 0.1]:
            limited.append(char_limited(wood, 0.15, loss, 1.0, freeze, 0.03, CHAR_SHARE))
    for loss in [0.0, 0.05, 0.1, 0.2]:
        limited.append(char_limited(wood, 0.15, loss, 0.5, 800.0, 0.0, CHAR_SHARE))
    for char in [0.12, 0.3]:
        limited.append(char_limited(wood, 0.15, 0.05, 1.0, 800.0, 0.03, char))
    held = [air_held(wood, 0.15, loss, 0.36, 0.0, CHAR_SHARE) for loss in [0.0, 0.05, 0.1]]
    for name in FUELS:
        for moisture in [0.0, 0.15, 0.3, 0.5]:
            for loss in [0.0, 0.05, 0.15]:
                for ratio in [0.25, 0.36, 0.5]:
                    held.append(air_held(name, moisture, loss, ratio, 0.03, CHAR_SHARE))
    return {
        "hearth_energy.json": {
            "about": "Both ways to fix the air; the balances are written out in README.md",
            "source": "cantera, gas of nasa_gas.yaml, C(gr) of graphite.yaml; Channiwala and Parikh, Fuel 81, 2002",
            "char_limited": limited,
            "air_held": held,
        }
    }
