#!/usr/bin/env python3
"""Writes the reference tables that Longsmoke's tests compare against.

Every number comes from a general-purpose library (CoolProp, Cantera, fluids,
ht, SciPy) or from a formula written out here a second time, never from
Longsmoke itself. README.md says which is which and what to doubt.

    make_tables.py           write tables/*.csv beside this file
    make_tables.py --check   compute again; compare with tables/*.csv to 9 digits

A table's first line holds the SHA-256 of this script, so a test can tell when
script and tables have drifted apart.
"""

import hashlib
import math
import sys
from functools import cache
from importlib.metadata import version
from pathlib import Path
from typing import NamedTuple

import cantera as ct
import CoolProp as cp
import ht
import numpy as np
from CoolProp.CoolProp import PropsSI
from fluids import ATMOSPHERE_1976, friction
from scipy.integrate import solve_ivp
from scipy.linalg import eigh
from scipy.optimize import brentq
from scipy.sparse import diags
from scipy.special import erfcx

HERE = Path(__file__).resolve().parent
TABLES = HERE / "tables"

GAS_CONSTANT = 8.314462618  # J/(mol K), CODATA 2018
ATMOSPHERE = 101325.0  # Pa
REFERENCE_TEMPERATURE = 298.15  # K


class Table(NamedTuple):
    made_with: list[str]  # distributions, named with their versions in line 2
    header: list[str]
    rows: list[list]


# ---------------------------------------------------------------- wood and air

MOISTURES = [0.12, 0.17, 0.25]  # kg water per kg wet wood
EXCESS_AIR = [1.0, 1.5, 2.0, 2.5, 2.95, 4.0, 8.0]
PRESSURES = [ATMOSPHERE, 93900.0]  # Pa

# Ultimate analysis, mass % of dry wood. "generic" is Longsmoke's default.
WOODS = {
    "generic": {"C": 50.0, "H": 6.0, "O": 43.0, "N": 0.2, "ash": 0.8},
    "oak": {"C": 50.2, "H": 6.0, "O": 43.3, "N": 0.1, "ash": 0.4},
    "pine": {"C": 52.6, "H": 7.0, "O": 40.1, "N": 0.0, "ash": 0.3},
}

# Dry air, mole %; the four sum to exactly 100.
AIR = {"N2": 78.084, "O2": 20.946, "Ar": 0.934, "CO2": 0.036}

SPECIES = ["N2", "O2", "CO2", "H2O", "Ar"]
CANTERA_NAME = {"N2": "N2", "O2": "O2", "CO2": "CO2", "H2O": "H2O", "Ar": "AR"}
COOLPROP_NAME = {
    "N2": "Nitrogen",
    "O2": "Oxygen",
    "CO2": "CarbonDioxide",
    "H2O": "Water",
    "Ar": "Argon",
}

# Where the published transport formulations end, K. CoolProp itself runs on to
# 2000 K for all five. From memory: Lemmon and Jacobsen 2004 (N2, O2, Ar), Huber
# et al. 2016 (CO2 conductivity), IAPWS R12-08 and R15-11 (H2O).
TRANSPORT_LIMIT = {"N2": 2000.0, "O2": 2000.0, "CO2": 1100.0, "H2O": 1173.15, "Ar": 2000.0}

GAS = ct.Solution("gri30.yaml")  # NASA-7 thermodynamics only; no reactions used
KG_PER_MOL = {
    s: GAS.molecular_weights[GAS.species_index(CANTERA_NAME[s])] / 1000.0 for s in SPECIES
}
KG_PER_MOL_ELEMENT = {e: GAS.atomic_weight(e) / 1000.0 for e in "CHON"}

# Water's enthalpy of vaporisation at 25 C, J/kg
VAPORISATION = PropsSI("H", "T", REFERENCE_TEMPERATURE, "Q", 1, "Water") - PropsSI(
    "H", "T", REFERENCE_TEMPERATURE, "Q", 0, "Water"
)


def cantera_state(temperature: float, pressure: float, amounts: dict[str, float]) -> ct.Solution:
    GAS.TPX = temperature, pressure, {CANTERA_NAME[s]: n for s, n in amounts.items()}
    return GAS


@cache
def molar_enthalpy(species: str, temperature: float) -> float:
    """J/mol with the elements at 298.15 K as zero (NASA-7, gri30.yaml)."""
    return cantera_state(temperature, ATMOSPHERE, {species: 1.0}).enthalpy_mole / 1000.0


def elements_per_kg_dry(wood: dict[str, float]) -> dict[str, float]:
    """mol of C, H, O, N per kg of dry wood, ash included in the kg."""
    return {e: wood[e] / 100.0 / KG_PER_MOL_ELEMENT[e] for e in "CHON"}


def oxygen_need(wood: dict[str, float], moisture: float) -> float:
    """mol of O2 per kg of wet wood."""
    n = elements_per_kg_dry(wood)
    return (n["C"] + n["H"] / 4.0 - n["O"] / 2.0) * (1.0 - moisture)


def air_amounts(wood: dict[str, float], moisture: float, excess_air: float) -> dict[str, float]:
    """mol of each gas in the dry combustion air of 1 kg of wet wood."""
    need = oxygen_need(wood, moisture) * excess_air
    return {s: need * share / AIR["O2"] for s, share in AIR.items()}


def flue_amounts(wood: dict[str, float], moisture: float, excess_air: float) -> dict[str, float]:
    """mol of each gas after complete combustion of 1 kg of wet wood; ash stays behind."""
    n = elements_per_kg_dry(wood)
    dry = 1.0 - moisture
    air = air_amounts(wood, moisture, excess_air)
    flue = {
        "N2": air["N2"] + dry * n["N"] / 2.0,
        "O2": air["O2"] - oxygen_need(wood, moisture),
        "CO2": air["CO2"] + dry * n["C"],
        "H2O": dry * n["H"] / 2.0 + moisture / KG_PER_MOL["H2O"],
        "Ar": air["Ar"],
    }
    mass_in = mass_of(air) + 1.0 - dry * (1.0 - sum(wood[e] for e in "CHON") / 100.0)
    assert math.isclose(mass_of(flue), mass_in, rel_tol=1e-12)
    return flue


def mass_of(amounts: dict[str, float]) -> float:
    return sum(n * KG_PER_MOL[s] for s, n in amounts.items())


def fractions(amounts: dict[str, float]) -> dict[str, float]:
    total = sum(amounts.values())
    return {s: amounts[s] / total for s in SPECIES}


def higher_heating_value(wood: dict[str, float]) -> float:
    """J per kg of dry wood. Channiwala and Parikh 2002; no sulphur here."""
    return 1e6 * (
        0.3491 * wood["C"]
        + 1.1783 * wood["H"]
        - 0.1034 * wood["O"]
        - 0.0151 * wood["N"]
        - 0.0211 * wood["ash"]
    )


# -------------------------------------------------------------- gas properties

DILUTE_PRESSURE = 100.0  # Pa: water is a gas from 280 K up


@cache
def coolprop_state(species: str) -> cp.AbstractState:
    return cp.AbstractState("HEOS", COOLPROP_NAME[species])


@cache
def transport(species: str, temperature: float) -> tuple[float, float]:
    """Viscosity (Pa s) and conductivity (W/(m K)) of a dilute pure gas."""
    state = coolprop_state(species)
    state.update(cp.PT_INPUTS, DILUTE_PRESSURE, temperature)
    return state.viscosity(), state.conductivity()


def wilke_weight(i: str, j: str, mu: dict[str, float]) -> float:
    """phi_ij of Wilke 1950, by viscosities and molar masses."""
    mass_ratio = KG_PER_MOL[i] / KG_PER_MOL[j]
    top = (1.0 + math.sqrt(mu[i] / mu[j]) * mass_ratio**-0.25) ** 2
    return top / math.sqrt(8.0 * (1.0 + mass_ratio))


def mixture_transport(x: dict[str, float], temperature: float) -> tuple[float, float, float]:
    """Viscosity by Wilke and conductivity by Wassiljewa with Mason and Saxena's weights.

    Mason and Saxena's ratio of translational conductivities reduces to Wilke's
    phi_ij times a constant: 1.065 in their paper of 1958, 1 in Poling, Prausnitz
    and O'Connell 2001. Returns viscosity, conductivity with 1, with 1.065.
    """
    mu = {s: transport(s, temperature)[0] for s in SPECIES}
    k = {s: transport(s, temperature)[1] for s in SPECIES}

    def mix(pure: dict[str, float], constant: float) -> float:
        total = 0.0
        for i in SPECIES:
            others = sum(x[j] * wilke_weight(i, j, mu) for j in SPECIES if j != i)
            total += x[i] * pure[i] / (x[i] + constant * others)
        return total

    return mix(mu, 1.0), mix(k, 1.0), mix(k, 1.065)


def pure_gas() -> Table:
    temperatures = [250, 280, *range(300, 1550, 50), 1600, 1700, 1800]
    rows = []
    for s in SPECIES:
        for t in map(float, temperatures):
            if s == "H2O" and t < 280.0:
                continue
            mu, k = transport(s, t)
            heat_ideal = coolprop_state(s).cp0mass()
            heat_nasa = cantera_state(t, ATMOSPHERE, {s: 1.0}).cp_mass
            rows.append([s, t, heat_ideal, heat_nasa, mu, k, TRANSPORT_LIMIT[s]])
    return Table(
        ["CoolProp", "cantera"],
        [
            "species_name",
            "temperature_k",
            "heat_capacity_j_per_kg_k",
            "heat_capacity_nasa7_j_per_kg_k",
            "viscosity_pa_s",
            "conductivity_w_per_m_k",
            "transport_published_up_to_k",
        ],
        rows,
    )


def mixtures():
    for moisture in MOISTURES:
        for excess_air in EXCESS_AIR:
            yield moisture, excess_air, flue_amounts(WOODS["generic"], moisture, excess_air)


def mixture() -> Table:
    temperatures = [*range(300, 650, 50), *range(700, 1700, 100)]
    rows = []
    for moisture, excess_air, flue in mixtures():
        x = fractions(flue)
        molar_mass = mass_of(x)
        at_reference = cantera_state(REFERENCE_TEMPERATURE, ATMOSPHERE, x).enthalpy_mass
        for t in map(float, temperatures):
            gas = cantera_state(t, ATMOSPHERE, x)
            heat, enthalpy = gas.cp_mass, gas.enthalpy_mass - at_reference
            densities = [p * molar_mass / (GAS_CONSTANT * t) for p in PRESSURES]
            mu, k, k_1065 = mixture_transport(x, t)
            rows.append(
                [moisture, excess_air, *(x[s] for s in SPECIES), molar_mass, t]
                + [heat, enthalpy, *densities, mu, k, k_1065, heat * mu / k]
            )
    return Table(
        ["CoolProp", "cantera"],
        [
            "moisture_kg_per_kg_wet",
            "excess_air_dimensionless",
            *(f"{s.lower()}_mol_per_mol" for s in SPECIES),
            "molar_mass_kg_per_mol",
            "temperature_k",
            "heat_capacity_j_per_kg_k",
            "enthalpy_above_298_15_k_j_per_kg",
            "density_at_101325_pa_kg_per_m3",
            "density_at_93900_pa_kg_per_m3",
            "viscosity_pa_s",
            "conductivity_w_per_m_k",
            "conductivity_with_1_065_w_per_m_k",
            "prandtl_dimensionless",
        ],
        rows,
    )


# ------------------------------------------------------------- flame and fuel


def reactant_enthalpy(
    wood: dict[str, float], moisture: float, excess_air: float, air_temperature: float
) -> float:
    """J per kg of wet wood at 25 C, its water liquid, with its air.

    The wood's enthalpy of formation is the one that gives its HHV at 25 C.
    """
    n = elements_per_kg_dry(wood)
    at_25 = {s: molar_enthalpy(s, REFERENCE_TEMPERATURE) for s in SPECIES}
    liquid_water = at_25["H2O"] - VAPORISATION * KG_PER_MOL["H2O"]
    dry_wood = (
        higher_heating_value(wood)
        + n["C"] * at_25["CO2"]
        + n["H"] / 2.0 * liquid_water
        + n["N"] / 2.0 * at_25["N2"]
        - oxygen_need(wood, 0.0) * at_25["O2"]
    )
    air = air_amounts(wood, moisture, excess_air)
    return (
        (1.0 - moisture) * dry_wood
        + moisture / KG_PER_MOL["H2O"] * liquid_water
        + sum(amount * molar_enthalpy(s, air_temperature) for s, amount in air.items())
    )


def flame() -> Table:
    excess_airs = [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 2.95, 3.5, 4.0, 5.0, 6.0]
    wood = WOODS["generic"]
    rows = []
    for air_temperature in [298.15, 257.15, 293.15]:
        for moisture in MOISTURES:
            for excess_air in excess_airs:
                flue = flue_amounts(wood, moisture, excess_air)
                target = reactant_enthalpy(wood, moisture, excess_air, air_temperature)
                target /= mass_of(flue)

                def surplus(t: float) -> float:
                    return cantera_state(t, ATMOSPHERE, flue).enthalpy_mass - target

                complete = brentq(surplus, 300.0, 3000.0, xtol=1e-9)
                cantera_state(complete, ATMOSPHERE, flue).equilibrate("HP", rtol=1e-10)
                assert math.isclose(GAS.enthalpy_mass, target, rel_tol=1e-8, abs_tol=1.0)
                rows.append([moisture, air_temperature, excess_air, complete, GAS.T])
    return Table(
        ["cantera", "CoolProp", "scipy"],
        [
            "moisture_kg_per_kg_wet",
            "air_temperature_k",
            "excess_air_dimensionless",
            "flame_temperature_complete_combustion_k",
            "flame_temperature_equilibrium_k",
        ],
        rows,
    )


def fuel() -> Table:
    rows = []
    for name, wood in WOODS.items():
        hhv = higher_heating_value(wood)
        for w in [0.0, 0.1, 0.15, 0.17, 0.2, 0.3, 0.4]:
            flue = flue_amounts(wood, w, 1.0)
            air = air_amounts(wood, w, 1.0)
            water = flue["H2O"] * KG_PER_MOL["H2O"]
            co2_dry = flue["CO2"] / (sum(flue.values()) - flue["H2O"])
            rows.append(
                [name, w, hhv, hhv * (1.0 - w), hhv * (1.0 - w) - VAPORISATION * water]
                + [oxygen_need(wood, w), mass_of(air), mass_of(flue), water, co2_dry]
            )
    return Table(
        ["cantera", "CoolProp"],
        [
            "wood_name",
            "moisture_kg_per_kg_wet",
            "higher_heating_value_j_per_kg_dry",
            "higher_heating_value_j_per_kg_wet",
            "lower_heating_value_25_c_j_per_kg_wet",
            "oxygen_need_mol_per_kg_wet",
            "stoichiometric_air_kg_per_kg_wet",
            "stoichiometric_flue_gas_kg_per_kg_wet",
            "water_in_flue_gas_kg_per_kg_wet",
            "co2_max_dry_mol_per_mol",
        ],
        rows,
    )


def dew_point() -> Table:
    rows = [
        [p, PropsSI("T", "P", p, "Q", 1, "Water")] for p in map(float, range(2000, 20500, 500))
    ]
    return Table(["CoolProp"], ["partial_pressure_pa", "dew_point_k"], rows)


def dew_point_mixture() -> Table:
    rows = []
    for moisture, excess_air, flue in mixtures():
        x = fractions(flue)["H2O"]
        points = [PropsSI("T", "P", x * p, "Q", 1, "Water") for p in PRESSURES]
        rows.append([moisture, excess_air, x, *points])
    return Table(
        ["CoolProp", "cantera"],
        [
            "moisture_kg_per_kg_wet",
            "excess_air_dimensionless",
            "h2o_mol_per_mol",
            "dew_point_at_101325_pa_k",
            "dew_point_at_93900_pa_k",
        ],
        rows,
    )


# ------------------------------------------------------------------- friction

REYNOLDS = [4e3, 5e3, 6e3, 8e3, 1e4, 1.5e4, 2e4, 3e4, 5e4, 1e5, 2e5, 5e5, 1e6]


def konakov(re: float) -> float:
    """Konakov 1946, as Gnielinski uses it in the VDI Heat Atlas."""
    return (1.8 * math.log10(re) - 1.5) ** -2


def filonenko(re: float) -> float:
    return (1.82 * math.log10(re) - 1.64) ** -2


def petukhov(re: float) -> float:
    return (0.790 * math.log(re) - 1.64) ** -2


def colebrook(re: float, roughness: float) -> float:
    """fluids' Lambert-W solution, held against a root of the equation itself."""
    f = friction.friction_factor(re, roughness, Method="Colebrook")

    def residual(root_f: float) -> float:
        return 1.0 / root_f + 2.0 * math.log10(roughness / 3.7 + 2.51 / (re * root_f))

    again = brentq(residual, 0.03, 1.0, xtol=1e-15) ** 2
    assert math.isclose(f, again, rel_tol=1e-9), (re, roughness, f, again)
    return f


def friction_rough() -> Table:
    rows = [
        [re, rough, colebrook(re, rough), friction.Haaland(re, rough)]
        for rough in [0.0, 0.001, 0.005, 0.011, 0.0111, 0.02, 0.03, 0.05]
        for re in REYNOLDS
    ]
    return Table(
        ["fluids", "scipy"],
        [
            "reynolds_dimensionless",
            "relative_roughness_dimensionless",
            "friction_factor_colebrook_dimensionless",
            "friction_factor_haaland_dimensionless",
        ],
        rows,
    )


def friction_smooth() -> Table:
    rows = [
        [
            re,
            friction.Prandtl_von_Karman_Nikuradse(re),
            konakov(re),
            filonenko(re),
            petukhov(re),
            friction.Blasius(re),
        ]
        for re in [2300.0, 3000.0, *REYNOLDS]
    ]
    return Table(
        ["fluids"],
        ["reynolds_dimensionless"]
        + [
            f"friction_factor_{name}_dimensionless"
            for name in ["prandtl_karman", "konakov", "filonenko", "petukhov", "blasius"]
        ],
        rows,
    )


# ------------------------------------------------- laminar flow in rectangles


def laminar_friction_series(aspect: float) -> float:
    """Darcy f Re on the hydraulic diameter: the exact series of the duct's velocity."""
    if aspect == 0.0:
        return 96.0
    odd = range(1, 400, 2)
    total = math.fsum(math.tanh(n * math.pi / (2.0 * aspect)) / n**5 for n in odd)
    return 96.0 / ((1.0 + aspect) ** 2 * (1.0 - 192.0 * aspect / math.pi**5 * total))


def laminar_friction_polynomial(a: float) -> float:
    """Shah and London 1978, from memory."""
    return 96.0 * (
        1 - 1.3553 * a + 1.9467 * a**2 - 1.7012 * a**3 + 0.9564 * a**4 - 0.2537 * a**5
    )


def isothermal_nusselt_polynomial(a: float) -> float:
    """Shah and London 1978, from memory."""
    return 7.541 * (1 - 2.610 * a + 4.970 * a**2 - 5.119 * a**3 + 2.702 * a**4 - 0.548 * a**5)


def duct_velocity(x: np.ndarray, y: np.ndarray, aspect: float) -> np.ndarray:
    """Velocity, not normalised, on 0 <= x <= 1, 0 <= y <= aspect (single sine series)."""
    total = np.zeros((x.size, y.size))
    for n in range(1, 400, 2):
        rate = n * math.pi / aspect
        # cosh(rate (x - 1/2)) / cosh(rate / 2), without overflow
        fall = (np.exp(-rate * x) + np.exp(-rate * (1.0 - x))) / (1.0 + math.exp(-rate))
        total += np.outer(1.0 - fall, np.sin(rate * y)) / n**3
    return total


def isothermal_nusselt(aspect: float) -> float:
    """Developed Nusselt number, walls all at one temperature, no axial conduction.

    The lowest eigenvalue m of  laplace(F) + m (w / w_mean) F = 0  with F = 0 on
    the walls (Galerkin, sine basis, Gauss-Legendre quadrature); a heat balance
    over the perimeter then gives Nu = m Dh^2 / 4.
    """
    nodes, weights = np.polynomial.legendre.leggauss(96)
    x, wx = 0.5 * (nodes + 1.0), 0.5 * weights
    if aspect == 0.0:  # parallel plates, gap 1, Dh 2
        basis = np.array([np.sin(m * math.pi * x) for m in range(1, 60, 2)])
        velocity = 6.0 * x * (1.0 - x)
        mass = (basis * (velocity * wx)) @ basis.T
        stiffness = np.diag([0.5 * (m * math.pi) ** 2 for m in range(1, 60, 2)])
        eigenvalue = 1.0 / eigh(mass, stiffness, eigvals_only=True)[-1]
        return float(eigenvalue)
    y, wy = aspect * x, aspect * wx
    velocity = duct_velocity(x, y, aspect)
    area_weights = np.outer(wx, wy)
    velocity = velocity * aspect / np.sum(velocity * area_weights)
    modes = [(m, n) for m in range(1, 40, 2) for n in range(1, 20, 2)]
    sin_x = {m: np.sin(m * math.pi * x) for m in range(1, 40, 2)}
    sin_y = {n: np.sin(n * math.pi * y / aspect) for n in range(1, 20, 2)}
    basis = np.array([np.outer(sin_x[m], sin_y[n]).ravel() for m, n in modes])
    mass = (basis * (velocity * area_weights).ravel()) @ basis.T
    stiffness = np.diag(
        [0.25 * aspect * math.pi**2 * (m**2 + (n / aspect) ** 2) for m, n in modes]
    )
    eigenvalue = 1.0 / eigh(mass, stiffness, eigvals_only=True)[-1]
    hydraulic_diameter = 2.0 * aspect / (1.0 + aspect)
    return float(eigenvalue * hydraulic_diameter**2 / 4.0)


def laminar_duct() -> Table:
    rows = [
        [
            a,
            laminar_friction_series(a),
            laminar_friction_polynomial(a),
            isothermal_nusselt(a),
            isothermal_nusselt_polynomial(a),
            ht.Nu_laminar_rectangular_Shan_London(a),
        ]
        for a in [0.0, 0.1, 0.125, 0.2, 0.25, 1.0 / 3.0, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0]
    ]
    return Table(
        ["scipy", "numpy", "ht"],
        [
            "aspect_short_over_long_dimensionless",
            "friction_factor_times_reynolds_series_dimensionless",
            "friction_factor_times_reynolds_polynomial_dimensionless",
            "nusselt_isothermal_eigenvalue_dimensionless",
            "nusselt_isothermal_polynomial_dimensionless",
            "nusselt_constant_flux_dimensionless",
        ],
        rows,
    )


# ------------------------------------------------------------------ convection


def nusselt_turbulent() -> Table:
    rows = []
    for pr in [0.65, 0.7, 0.71, 0.75, 0.8]:
        for re in [2300.0, 3000.0, 4e3, 5e3, 6e3, 8e3, 1e4, 1.5e4, 2e4, 5e4, 1e5]:
            for f in [konakov(re), petukhov(re), friction.Colebrook(re, 0.011)]:
                rows.append([re, pr, f, ht.conv_internal.turbulent_Gnielinski(re, pr, f)])
    return Table(
        ["ht", "fluids"],
        [
            "reynolds_dimensionless",
            "prandtl_dimensionless",
            "friction_factor_dimensionless",
            "nusselt_gnielinski_dimensionless",
        ],
        rows,
    )


def nusselt_laminar_entry() -> Table:
    rows = []
    for pr in [0.7, 0.75, 0.8]:
        for re in [200.0, 500.0, 1000.0, 1500.0, 2000.0, 2300.0]:
            for d_over_l in [0.02, 0.05, 0.1, 0.15, 0.25, 0.5]:
                # The functions themselves: Nu_conv_internal mislabels these three.
                numbers = {"Re": re, "Pr": pr, "L": 1.0 / d_over_l, "Di": 1.0}
                rows.append(
                    [
                        re,
                        pr,
                        d_over_l,
                        re * pr * d_over_l,
                        ht.conv_internal.laminar_entry_thermal_Hausen(**numbers),
                        ht.conv_internal.laminar_entry_Seider_Tate(**numbers),
                        ht.conv_internal.laminar_entry_Baehr_Stephan(**numbers),
                    ]
                )
    return Table(
        ["ht"],
        [
            "reynolds_dimensionless",
            "prandtl_dimensionless",
            "diameter_over_length_dimensionless",
            "graetz_dimensionless",
            "nusselt_hausen_thermal_entry_dimensionless",
            "nusselt_sieder_tate_dimensionless",
            "nusselt_baehr_stephan_combined_entry_dimensionless",
        ],
        rows,
    )


def nusselt_free_vertical() -> Table:
    rows = []
    for pr in [0.69, 0.7, 0.71, 0.72]:
        for ra in [10.0**e for e in range(3, 13)]:
            rows.append([pr, ra, ht.Nu_vertical_plate_Churchill(pr, ra / pr)])
    return Table(
        ["ht"],
        ["prandtl_dimensionless", "rayleigh_dimensionless", "nusselt_churchill_chu_dimensionless"],
        rows,
    )


def vdi_hot_plate_upward(pr: float, ra: float) -> float:
    """VDI Heat Atlas F2. ht's own function has the exponent +20/11: not used."""
    x = ra * (1.0 + (0.322 / pr) ** (11.0 / 20.0)) ** (-20.0 / 11.0)
    return 0.766 * x**0.2 if x <= 7e4 else 0.15 * x ** (1.0 / 3.0)


def nusselt_free_horizontal() -> Table:
    rows = []
    for pr in [0.7, 0.71]:
        for ra in [10.0**e for e in range(4, 11)]:
            gr = ra / pr
            rows.append(
                [
                    pr,
                    ra,
                    ht.Nu_horizontal_plate_McAdams(pr, gr, buoyancy=True),
                    ht.Nu_horizontal_plate_Rohsenow(pr, gr, buoyancy=True),
                    vdi_hot_plate_upward(pr, ra),
                    ht.Nu_horizontal_plate_McAdams(pr, gr, buoyancy=False),
                    ht.Nu_horizontal_plate_Rohsenow(pr, gr, buoyancy=False),
                    ht.Nu_horizontal_plate_VDI(pr, gr, buoyancy=False),
                ]
            )
    return Table(
        ["ht"],
        ["prandtl_dimensionless", "rayleigh_dimensionless"]
        + [
            f"nusselt_hot_face_{face}_{author}_dimensionless"
            for face in ["up", "down"]
            for author in ["mcadams", "rohsenow", "vdi"]
        ],
        rows,
    )


# ------------------------------------------------------------------- radiation

BAR_PER_ATM = 1.01325

# Smith, Shen and Friedman 1982: rows k (1/(atm m)), b1..b4 (T in K), by pH2O/pCO2.
SMITH = {
    1: [
        (0.4303, 5.150e-1, -2.303e-4, 9.779e-8, -1.494e-11),
        (7.055, 7.749e-2, 3.399e-4, -2.297e-7, 3.770e-11),
        (178.1, 1.907e-1, -1.824e-4, 5.608e-8, -5.122e-12),
    ],
    2: [
        (0.4201, 6.508e-1, -5.551e-4, 3.029e-7, -5.353e-11),
        (6.516, -0.2504e-1, 6.112e-4, -3.882e-7, 6.528e-11),
        (131.9, 2.718e-1, -3.118e-4, 1.221e-7, -1.612e-11),
    ],
}

# Leckner 1972: row i multiplies log10(pL / (1 bar cm))^i, column j (T / 1000 K)^j.
LECKNER_H2O = [
    (-2.2118, -1.1987, 0.035596),
    (0.85667, 0.93048, -0.14391),
    (-0.10838, -0.17156, 0.045915),
]
LECKNER_CO2 = [
    (-3.9893, 2.7669, -2.1081, 0.39163),
    (1.2710, -1.1090, 1.0195, -0.21897),
    (-0.23678, 0.19731, -0.19544, 0.044644),
]


def smith_emissivity(ratio: int, temperature: float, path_atm_m: float) -> float:
    total = 0.0
    for k, *b in SMITH[ratio]:
        share = sum(c * temperature**j for j, c in enumerate(b))
        total += share * -math.expm1(-k * path_atm_m)
    return total


def leckner_zero(table: list[tuple[float, ...]], t: float, path_bar_cm: float) -> float:
    """Emissivity at 1 bar and vanishing partial pressure; t in 1000 K."""
    x = math.log10(path_bar_cm)
    return math.exp(sum(c * t**j * x**i for i, row in enumerate(table) for j, c in enumerate(row)))


def leckner_pressure(
    a: float, b: float, c: float, p_e: float, path_max: float, path: float
) -> float:
    damping = math.exp(-c * math.log10(path_max / path) ** 2)
    return 1.0 - (a - 1.0) * (1.0 - p_e) / (a + b - 1.0 + p_e) * damping


def leckner_parts(
    temperature: float, p_w: float, p_c: float, length: float, p: float
) -> tuple[float, float, float]:
    """Emissivities of H2O and CO2, and their overlap. Pressures in bar, length in m."""
    t = temperature / 1000.0
    w, c = 100.0 * p_w * length, 100.0 * p_c * length  # bar cm
    a_w = 2.144 if t < 0.75 else 1.888 - 2.053 * math.log10(t)
    eps_w = leckner_zero(LECKNER_H2O, t, w) * leckner_pressure(
        a_w, 1.10 / t**1.4, 0.5, p + 2.56 * p_w / math.sqrt(t), 13.2 * t * t, w
    )
    c_max = 0.054 / t**2 if t < 0.7 else 0.225 * t**2
    eps_c = leckner_zero(LECKNER_CO2, t, c) * leckner_pressure(
        1.0 + 0.1 / t**1.45, 0.23, 1.47, p + 0.28 * p_c, c_max, c
    )
    overlap = 0.0
    if w + c > 1.0:
        z = p_w / (p_w + p_c)
        overlap = (z / (10.7 + 101.0 * z) - 0.0089 * z**10.4) * math.log10(w + c) ** 2.76
    return eps_w, eps_c, overlap


def leckner_emissivity(
    temperature: float, p_w: float, p_c: float, length: float, p: float
) -> float:
    eps_w, eps_c, overlap = leckner_parts(temperature, p_w, p_c, length, p)
    return eps_w + eps_c - overlap


def leckner_absorptivity(
    gas: float, wall: float, p_w: float, p_c: float, length: float, p: float
) -> float:
    """Modest's form: the path, not the pressure broadening, scales with T_wall / T_gas."""
    return math.sqrt(gas / wall) * leckner_emissivity(wall, p_w, p_c, length * wall / gas, p)


# H2O and CO2, bar: wood gas lean to rich, then lopsided pairs that exercise the overlap
PARTIAL_PRESSURES = [
    (0.03, 0.03),
    (0.05, 0.05),
    (0.075, 0.065),
    (0.1, 0.1),
    (0.17, 0.17),
    (0.2, 0.2),
    (0.2, 0.03),
    (0.03, 0.2),
]
BEAM_LENGTHS = [0.05, 0.16, 0.3, 1.0]  # m
GAS_TEMPERATURES = [400.0, 500.0, 600.0, 700.0, 800.0, 1000.0, 1200.0, 1400.0, 1600.0]
PATH_HEADER = [
    "partial_pressure_h2o_bar",
    "partial_pressure_co2_bar",
    "beam_length_m",
    "pressure_bar",
]


def emissivity() -> Table:
    rows = []
    for t in GAS_TEMPERATURES:
        for p_w, p_c in PARTIAL_PRESSURES:
            for length in BEAM_LENGTHS:
                path = (p_w + p_c) / BAR_PER_ATM * length
                smith = [smith_emissivity(ratio, t, path) for ratio in SMITH]
                for p in [0.9, 1.01325]:
                    parts = leckner_parts(t, p_w, p_c, length, p)
                    total = leckner_emissivity(t, p_w, p_c, length, p)
                    rows.append([t, p_w, p_c, length, p, *parts, total, *smith])
    return Table(
        ["formulas in the script, Python's math module only"],
        ["gas_temperature_k", *PATH_HEADER]
        + ["emissivity_h2o_leckner_dimensionless", "emissivity_co2_leckner_dimensionless"]
        + ["overlap_leckner_dimensionless", "emissivity_leckner_dimensionless"]
        + [f"emissivity_smith_ratio_{ratio}_dimensionless" for ratio in SMITH],
        rows,
    )


def absorptivity() -> Table:
    rows = []
    for gas in GAS_TEMPERATURES:
        for wall in [400.0, 600.0, 900.0]:
            for p_w, p_c in PARTIAL_PRESSURES:
                for length in BEAM_LENGTHS:
                    value = leckner_absorptivity(gas, wall, p_w, p_c, length, 1.01325)
                    rows.append([gas, wall, p_w, p_c, length, 1.01325, value])
    return Table(
        ["formulas in the script, Python's math module only"],
        ["gas_temperature_k", "wall_temperature_k", *PATH_HEADER]
        + ["absorptivity_leckner_dimensionless"],
        rows,
    )


# ------------------------------------------------------- atmosphere, conduction


def atmosphere() -> Table:
    rows = []
    for altitude in map(float, range(-400, 3600, 100)):
        air = ATMOSPHERE_1976(altitude)
        rows.append([altitude, air.P, air.T, air.rho])
    return Table(
        ["fluids"], ["altitude_m", "pressure_pa", "temperature_k", "density_kg_per_m3"], rows
    )


FLUX = 3000.0  # W/m2, switched on at t = 0
SOLIDS = [(1.05, 2150.0, 956.0), (0.7, 1700.0, 840.0), (3.3, 2950.0, 980.0)]  # k, rho, c
SOLID_HEADER = ["conductivity_w_per_m_k", "density_kg_per_m3", "heat_capacity_j_per_kg_k"]


def semi_infinite_rise(x: float, t: float, k: float, rho: float, c: float) -> float:
    """K at depth x. Carslaw and Jaeger 1959, section 2.9: 2 q sqrt(a t) / k ierfc(z)."""
    reach = 2.0 * math.sqrt(k / (rho * c) * t)
    z = x / reach
    return FLUX * reach / k * math.exp(-z * z) * (1.0 / math.sqrt(math.pi) - z * float(erfcx(z)))


def conduction_semi_infinite() -> Table:
    rows = []
    for k, rho, c in SOLIDS:
        for t in [60.0, 300.0, 900.0, 1800.0, 3600.0, 5400.0, 7200.0, 21600.0]:
            for x in [0.0, 0.01, 0.03, 0.06, 0.12]:
                if x <= 6.0 * math.sqrt(k / (rho * c) * t):  # below that, nothing has arrived
                    rows.append([k, rho, c, FLUX, t, x, semi_infinite_rise(x, t, k, rho, c)])
    return Table(
        ["scipy"],
        [*SOLID_HEADER, "flux_w_per_m2", "time_s", "depth_m", "temperature_rise_k"],
        rows,
    )


def slab_rise(t: float, k: float, rho: float, c: float, length: float) -> tuple[float, float]:
    """K at the heated face and at the insulated back (Carslaw and Jaeger 1959, section 3.8)."""
    fourier = k / (rho * c) * t / length**2
    decays = []
    n = 1
    while (decay := math.exp(-((n * math.pi) ** 2) * fourier)) > 1e-18:
        decays.append(decay / n**2)
        n += 1
    front = math.fsum(decays)
    back = math.fsum(d if n % 2 == 0 else -d for n, d in enumerate(decays, 1))
    scale = FLUX * length / k
    return (
        scale * (fourier + 1.0 / 3.0 - 2.0 / math.pi**2 * front),
        scale * (fourier - 1.0 / 6.0 - 2.0 / math.pi**2 * back),
    )


def slab_rise_numerical(
    times: list[float], k: float, rho: float, c: float, length: float
) -> list[tuple[float, float]]:
    """The same by the method of lines: 600 volumes, finer towards the heat, BDF in time."""
    edges = length * np.linspace(0.0, 1.0, 601) ** 2
    widths = np.diff(edges)
    centres = 0.5 * (edges[:-1] + edges[1:])
    between = k / np.diff(centres)
    capacity = rho * c * widths
    out = np.append(between, 0.0) + np.insert(between, 0, 0.0)
    matrix = diags(
        [between / capacity[1:], -out / capacity, between / capacity[:-1]],
        [-1, 0, 1],
        format="csc",
    )
    source = np.zeros(600)
    source[0] = FLUX / capacity[0]
    solution = solve_ivp(
        lambda _, temperature: matrix @ temperature + source,
        (0.0, times[-1]),
        np.zeros(600),
        method="BDF",
        t_eval=times,
        jac=matrix,
        rtol=1e-7,
        atol=1e-7,
    )
    assert solution.success
    front = solution.y[0] + FLUX * 0.5 * widths[0] / k
    return list(zip(front.tolist(), solution.y[-1].tolist(), strict=True))


def conduction_slab() -> Table:
    times = [60.0, 300.0, 900.0, 1800.0, 3600.0, 5400.0, 7200.0, 21600.0]
    rows = []
    for k, rho, c in SOLIDS:
        for length in [0.03175, 0.0635, 0.115, 0.24]:
            numerical = slab_rise_numerical(times, k, rho, c, length)
            for t, (front_n, back_n) in zip(times, numerical, strict=True):
                front, back = slab_rise(t, k, rho, c, length)
                assert abs(front - front_n) < 1e-4 * front and abs(back - back_n) < 1e-4 * front
                rows.append([k, rho, c, length, FLUX, t, front, back, front_n])
    return Table(
        ["scipy", "numpy"],
        [*SOLID_HEADER, "thickness_m", "flux_w_per_m2", "time_s"]
        + ["front_rise_series_k", "back_rise_series_k", "front_rise_method_of_lines_k"],
        rows,
    )


# ----------------------------------------------------------------------- output

TABLE_MAKERS = {
    "pure_gas": pure_gas,
    "mixture": mixture,
    "flame": flame,
    "fuel": fuel,
    "dew_point": dew_point,
    "dew_point_mixture": dew_point_mixture,
    "friction": friction_rough,
    "friction_smooth": friction_smooth,
    "laminar_duct": laminar_duct,
    "nusselt_turbulent": nusselt_turbulent,
    "nusselt_laminar_entry": nusselt_laminar_entry,
    "nusselt_free_vertical": nusselt_free_vertical,
    "nusselt_free_horizontal": nusselt_free_horizontal,
    "emissivity": emissivity,
    "absorptivity": absorptivity,
    "atmosphere": atmosphere,
    "conduction_semi_infinite": conduction_semi_infinite,
    "conduction_slab": conduction_slab,
}


def require_pinned_versions() -> None:
    for line in (HERE / "requirements.txt").read_text(encoding="utf-8").split():
        name, pinned = line.split("==")
        if version(name) != pinned:
            sys.exit(f"{name} is {version(name)}, requirements.txt wants {pinned}")


def text_of(table: Table, script_hash: str) -> str:
    made_with = [
        f"{name} {version(name)}" if name.isidentifier() else name for name in table.made_with
    ]
    lines = [f"# script-sha256: {script_hash}", f"# made with: {', '.join(made_with)}"]
    lines.append(",".join(table.header))
    for row in table.rows:
        assert len(row) == len(table.header)
        lines.append(",".join(v if isinstance(v, str) else f"{v:.10g}" for v in row))
    return "\n".join(lines) + "\n"


def differences(name: str, committed: str, computed: str) -> list[str]:
    """What differs, numbers beyond 9 significant digits aside."""

    def same(a: str, b: str) -> bool:
        if a == b:
            return True
        try:
            return math.isclose(float(a), float(b), rel_tol=1e-9)
        except ValueError:
            return False

    old, new = committed.splitlines(), computed.splitlines()
    if len(old) != len(new):
        return [f"{name}: {len(old)} lines committed, {len(new)} computed"]
    return [
        f"{name}, line {number}: {a} | {b}"
        for number, (a, b) in enumerate(zip(old, new, strict=True), 1)
        if len(a.split(",")) != len(b.split(","))
        or not all(map(same, a.split(","), b.split(",")))
    ]


def main() -> None:
    if sys.argv[1:] not in ([], ["--check"]):
        sys.exit(__doc__)
    require_pinned_versions()
    script_hash = hashlib.sha256(Path(__file__).read_bytes()).hexdigest()
    found = []
    for name, make in TABLE_MAKERS.items():
        path = TABLES / f"{name}.csv"
        text = text_of(make(), script_hash)
        if sys.argv[1:]:
            committed = path.read_text(encoding="utf-8") if path.exists() else ""
            found += differences(path.name, committed, text)
        else:
            TABLES.mkdir(exist_ok=True)
            path.write_text(text, encoding="utf-8", newline="\n")
    if found:
        sys.exit("\n".join(found[:50] + [f"{len(found)} lines differ"]))
    print(f"{len(TABLE_MAKERS)} tables {'agree' if sys.argv[1:] else 'written'}")


if __name__ == "__main__":
    main()
