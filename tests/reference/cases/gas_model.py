"""Equilibrium gas and the energy balances of the hearth with cantera. Written out in README.md."""

import math

import cantera as ct
from scipy.optimize import brentq

PRESSURE_PA = 101325.0
REFERENCE_K = 298.15
NITROGEN_PER_OXYGEN = 3.76
ATOMIC_G_PER_MOL = {"C": 12.011, "H": 1.008, "O": 15.999, "N": 14.007}
WATER_G_PER_MOL = 2 * 1.008 + 15.999
LIQUID_WATER_J_PER_MOL = -285830.0  # heat of formation, CODATA
CHAR_MASS_PERCENT = {"C": 92.0, "H": 2.5, "O": 5.5}
CHAR_HEAT_CAPACITY_J_PER_KG_K = 1600.0

SPECIES = ["CO", "CO2", "H2", "H2O", "CH4", "N2", "O2"]
GAS_DATA = {s.name: s for s in ct.Species.list_from_file("nasa_gas.yaml") if s.name in SPECIES}
GAS = ct.Solution(thermo="ideal-gas", species=[GAS_DATA[name] for name in SPECIES])
GRAPHITE = ct.Solution("graphite.yaml", "graphite")


def gas_enthalpy_j_per_mol(name, temperature_k):
    return GAS_DATA[name].thermo.h(temperature_k) / 1000


def graphite_enthalpy_j_per_mol(temperature_k):
    GRAPHITE.TP = temperature_k, PRESSURE_PA
    return GRAPHITE.enthalpy_mole / 1000


def starting_gas(elements):
    """Some mixture of the species with these elements in mol, or None where there is none."""
    c, h, o, n = (elements[e] for e in "CHON")
    start = {"N2": n / 2, "CO": c, "H2": h / 2, "O2": (o - c) / 2, "CH4": 0.0}
    if o < c:
        short = c - o
        start |= {"CO": o, "CH4": short, "H2": h / 2 - 2 * short, "O2": 0.0}
    return start if start["H2"] >= 0 else None


def gas_equilibrium(elements, temperature_k, pressure_pa=PRESSURE_PA):
    """Gas alone, carbon not allowed to settle: amounts, enthalpy and activity of carbon."""
    start = starting_gas(elements)
    if start is None:
        return None
    amount = sum(start.values())
    GAS.TPX = temperature_k, pressure_pa, start
    mass = amount * GAS.mean_molecular_weight
    GAS.equilibrate("TP", rtol=1e-11, max_steps=5000)
    amount = mass / GAS.mean_molecular_weight
    potentials = dict(zip(SPECIES, GAS.chemical_potentials / 1000))
    GRAPHITE.TP = temperature_k, pressure_pa
    # 2 CO = CO2 + C sets how eager the gas is to drop carbon; above one it settles.
    carbon = 2 * potentials["CO"] - potentials["CO2"] - GRAPHITE.gibbs_mole / 1000
    return {
        "gas_mol": amount,
        "fractions": dict(zip(SPECIES, GAS.X.tolist())),
        "enthalpy_j": amount * GAS.enthalpy_mole / 1000,
        "carbon_activity": math.exp(min(carbon / (ct.gas_constant / 1000 * temperature_k), 50.0)),
        "carbon_mol": 0.0,
    }


def equilibrium(elements, temperature_k, pressure_pa=PRESSURE_PA):
    """Gas with solid carbon where it persists: that much carbon leaves the gas that its activity is one."""
    whole = gas_equilibrium(elements, temperature_k, pressure_pa)
    if whole is not None and whole["carbon_activity"] <= 1:
        return whole

    def gas_left(carbon):
        return gas_equilibrium({**elements, "C": elements["C"] - carbon}, temperature_k, pressure_pa)

    def excess(carbon):
        return math.log(gas_left(carbon)["carbon_activity"])

    low = 0.0
    if whole is None:
        low = (elements["C"] - elements["O"] - elements["H"] / 4) * (1 + 1e-9) + 1e-6
    carbon = brentq(excess, low, elements["C"] * (1 - 1e-7), xtol=1e-14, rtol=1e-14)
    left = gas_left(carbon)
    left["carbon_mol"] = carbon
    left["enthalpy_j"] += carbon * graphite_enthalpy_j_per_mol(temperature_k)
    return left


def higher_heating_value_j_per_kg(mass_percent):
    """Channiwala and Parikh, Fuel 81, 2002, without sulphur and ash."""
    c, h, o, n = (mass_percent.get(e, 0.0) for e in "CHON")
    return 1e6 * (0.3491 * c + 1.1783 * h - 0.1034 * o - 0.0151 * n)


def formation_enthalpy_j(amounts, heating_value_j):
    """Burning gives CO2, liquid water and N2: what is left over is the enthalpy of formation."""
    return (
        heating_value_j
        + amounts["C"] * gas_enthalpy_j_per_mol("CO2", REFERENCE_K)
        + amounts["H"] / 2 * LIQUID_WATER_J_PER_MOL
    )


def amounts_per_kg(mass_percent):
    return {e: 10 * mass_percent.get(e, 0.0) / ATOMIC_G_PER_MOL[e] for e in "CHON"}


class Fuel:
    """One kilogram of dry, ash-free fuel with its moisture."""

    def __init__(self, mass_percent, moisture_wet):
        self.mass_percent = mass_percent
        self.elements = amounts_per_kg(mass_percent)
        self.heating_value_j = higher_heating_value_j_per_kg(mass_percent)
        self.enthalpy_j = formation_enthalpy_j(self.elements, self.heating_value_j)
        self.water_mol = 1000 * moisture_wet / (1 - moisture_wet) / WATER_G_PER_MOL
        self.enthalpy_wet_j = self.enthalpy_j + self.water_mol * LIQUID_WATER_J_PER_MOL
        e = self.elements
        self.stoichiometric_oxygen_mol = e["C"] + e["H"] / 4 - e["O"] / 2

    def with_air(self, equivalence_ratio, char_kg):
        """Elements of fuel, moisture and air without this much char, per kilogram of dry fuel."""
        oxygen = equivalence_ratio * self.stoichiometric_oxygen_mol
        char = amounts_per_kg(CHAR_MASS_PERCENT)
        total = {e: self.elements[e] - char_kg * char[e] for e in "CHON"}
        total["H"] += 2 * self.water_mol
        total["O"] += self.water_mol + 2 * oxygen
        total["N"] += 2 * NITROGEN_PER_OXYGEN * oxygen
        return total


def char_enthalpy_j(char_kg, temperature_k):
    formation = formation_enthalpy_j(
        amounts_per_kg(CHAR_MASS_PERCENT), higher_heating_value_j_per_kg(CHAR_MASS_PERCENT)
    )
    return char_kg * (formation + CHAR_HEAT_CAPACITY_J_PER_KG_K * (temperature_k - REFERENCE_K))


def char_limited_ratio(fuel, loss_share, freeze_k, char_drawn_kg):
    """Equivalence ratio that closes the balance at the freeze temperature, or None."""
    available = fuel.enthalpy_wet_j - loss_share * fuel.heating_value_j - char_enthalpy_j(char_drawn_kg, freeze_k)

    def excess(ratio):
        gas = gas_equilibrium(fuel.with_air(ratio, char_drawn_kg), freeze_k)
        return available - gas["enthalpy_j"]

    low, high = 0.02, 0.98
    while gas_equilibrium(fuel.with_air(low, char_drawn_kg), freeze_k) is None:
        low += 0.02
    if excess(low) > 0 or excess(high) < 0:
        return None
    return brentq(excess, low, high, xtol=1e-13, rtol=1e-13)


def hearth_temperature_k(fuel, loss_share, ratio, char_share):
    """Volatiles, moisture and all of the air; char is only warmed. None outside 400 to 3000 K."""
    available = fuel.enthalpy_wet_j - loss_share * fuel.heating_value_j
    elements = fuel.with_air(ratio, char_share)

    def excess(temperature_k):
        gas = gas_equilibrium(elements, temperature_k)
        return gas["enthalpy_j"] + char_enthalpy_j(char_share, temperature_k) - available

    if gas_equilibrium(elements, 1000.0) is None or excess(400.0) > 0 or excess(3000.0) < 0:
        return None
    return brentq(excess, 400.0, 3000.0, xtol=1e-9, rtol=1e-13)


def air_held_exit(fuel, loss_share, ratio, char_drawn_kg):
    """Exit temperature and composition, solid carbon where equilibrium leaves some; None outside 500 to 2500 K."""
    available = fuel.enthalpy_wet_j - loss_share * fuel.heating_value_j
    elements = fuel.with_air(ratio, char_drawn_kg)

    def excess(temperature_k):
        gas = equilibrium(elements, temperature_k)
        return gas["enthalpy_j"] + char_enthalpy_j(char_drawn_kg, temperature_k) - available

    if excess(500.0) > 0 or excess(2500.0) < 0:
        return None
    temperature = brentq(excess, 500.0, 2500.0, xtol=1e-9, rtol=1e-13)
    return temperature, equilibrium(elements, temperature)


def heating_value_mj_per_nm3(fractions):
    """Lower heating value of the dry gas, ISO 6976 data at 0 degrees Celsius, from memory."""
    dry = 1 - fractions["H2O"]
    return (12.63 * fractions["CO"] + 10.78 * fractions["H2"] + 35.8 * fractions["CH4"]) / dry


def fraction_fields(fractions):
    return {f"mole_fraction_{name.lower()}": fractions[name] for name in SPECIES if name != "O2"}
