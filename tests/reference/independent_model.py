#!/usr/bin/env python3
"""A second, independent model of the height of the fire.

Written from the written specification alone, with general-purpose libraries:
Cantera (NASA-7 heat capacity and enthalpy), CoolProp (pure-gas transport, water
saturation), fluids (friction, atmosphere), ht (Gnielinski), SciPy (marching and
roots). Longsmoke's own source was not read.

    independent_model.py             write tables/height_of_fire.csv from designs/*.json
    independent_model.py --check     compute again, compare with the table to 7 digits
    independent_model.py FILE.json   print one design's figures

Choices that the specification leaves open, made here:
- conductivity of the mixture: constant 1 in Mason and Saxena's weights
- transition 2300 < Re < 4000: linear between the laminar value at 2300 and the
  turbulent value at 4000 (Gnielinski 2013), for Nusselt number and friction alike
- laminar Nusselt number: (Nu_T^3 + 0.7^3 + (1.615 Gz^(1/3) - 0.7)^3)^(1/3), with
  Nu_T of the rectangle (Shah and London's polynomials) or 3.66
- natural convection beside a laminar flow: rule of cubes (Churchill 1977), the developed Nu_T
  becomes (Nu_T^3 + Nu_free^3)^(1/3), Nu_free = 0.10 Ra^(1/3) over d (Bayley 1955), gas
  halfway between gas and each wall's own temperature; put in by someone else, in both
  programs, after the first comparison
- connector roughness 1 mm; its friction counts with the chimney's
- rectangular flue: D_i hydraulic diameter, D_o = D_i + twice the thickness
- the shared part of a run's wall is spread evenly along the run
- wall temperatures: mean over the surface; Reynolds and Richardson number of a run:
  at the mean gas temperature; Richardson's temperature difference: mean gas to mean wall
- flame temperature: of the heat that is released, so without the unburned share
- definitions taken over from the program's output after the first comparison, because
  the specification does not give them: velocity of a run at its inlet, path length with
  the rises between the runs, ledger items that hold back are negative
- no flow below the stoichiometric one (the search for the natural flow starts at 1)
"""

import hashlib
import json
import math
import sys
from functools import cache
from importlib.metadata import version
from multiprocessing import Pool
from pathlib import Path

import cantera as ct
import CoolProp as cp
import fluids
import ht
import numpy as np
from CoolProp.CoolProp import PropsSI
from scipy.integrate import solve_ivp
from scipy.interpolate import CubicSpline
from scipy.optimize import brentq

HERE = Path(__file__).resolve().parent
DESIGNS = HERE / "designs"
TABLE = HERE / "tables" / "height_of_fire.csv"

R = 8.314462618  # J/(mol K)
SIGMA = 5.670374419e-8  # W/(m2 K4)
G = 9.81  # m/s2, as the handbook's formulas
T25 = 298.15  # K
ZERO_C = 273.15  # K

# ------------------------------------------------------------- gases and fuel

AIR = {"N2": 78.084, "O2": 20.946, "AR": 0.934, "CO2": 0.036}  # mole %
COOLPROP = {
    "N2": "Nitrogen",
    "O2": "Oxygen",
    "CO2": "CarbonDioxide",
    "H2O": "Water",
    "AR": "Argon",
}
SPECIES = list(COOLPROP)
THERMO = ct.Solution("gri30.yaml")
MOLAR = {s: THERMO.molecular_weights[THERMO.species_index(s)] / 1e3 for s in SPECIES}
ATOM = {e: THERMO.atomic_weight(e) / 1e3 for e in "CHON"}

WOODS = {  # C, H, O, N, ash in mass % of dry wood
    "mixed": (50.0, 6.0, 43.0, 0.2, 0.8),
    "oak": (50.2, 6.0, 43.3, 0.1, 0.4),
    "pine": (52.6, 7.0, 40.1, 0.0, 0.3),
}
MATERIALS = {  # k W/(m K), rho kg/m3, c J/(kg K)
    "fireclay": (1.05, 2150.0, 956.0),
    "common_brick": (0.78, 1760.0, 800.0),
    "clay_tile": (1.0, 2000.0, 800.0),
    "granite": (2.8, 2600.0, 1000.0),
    "stainless": (17.0, 7900.0, 480.0),
}
WOOL_CONDUCTIVITY = 0.06

TRANSPORT_T = np.arange(280.0, 2301.0, 20.0)
THERMO_T = np.arange(240.0, 2601.0, 10.0)


@cache
def pure_transport():
    """Viscosity and conductivity of the five dilute gases over TRANSPORT_T."""
    mu, k = {}, {}
    for s, name in COOLPROP.items():
        state = cp.AbstractState("HEOS", name)
        rows = []
        for t in TRANSPORT_T:
            state.update(cp.PT_INPUTS, 100.0, min(float(t), 2000.0))
            rows.append((state.viscosity(), state.conductivity()))
        mu[s], k[s] = np.array(rows).T
    return mu, k


class Gas:
    """Properties of one ideal mixture, moles given."""

    def __init__(self, moles):
        total = sum(moles.values())
        self.x = {s: moles.get(s, 0.0) / total for s in SPECIES}
        self.molar_mass = sum(self.x[s] * MOLAR[s] for s in SPECIES)
        mu, k = pure_transport()

        def mixed(values):
            out = 0.0
            for i in SPECIES:
                if self.x[i] == 0.0:
                    continue
                denominator = 0.0
                for j in SPECIES:
                    ratio = MOLAR[i] / MOLAR[j]
                    phi = (1.0 + np.sqrt(mu[i] / mu[j]) * ratio**-0.25) ** 2
                    phi /= math.sqrt(8.0 * (1.0 + ratio))
                    denominator = denominator + self.x[j] * phi
                out = out + self.x[i] * values[i] / denominator
            return out

        self._mu = CubicSpline(TRANSPORT_T, mixed(mu))
        self._k = CubicSpline(TRANSPORT_T, mixed(k))
        h, c = [], []
        for t in THERMO_T:
            THERMO.TPX = float(t), 101325.0, self.x
            h.append(THERMO.enthalpy_mass)
            c.append(THERMO.cp_mass)
        THERMO.TPX = T25, 101325.0, self.x
        self._h = CubicSpline(THERMO_T, np.array(h) - THERMO.enthalpy_mass)
        self._c = CubicSpline(THERMO_T, c)

    def mu(self, t):
        return float(self._mu(max(t, 280.0)))

    def k(self, t):
        return float(self._k(max(t, 280.0)))

    def cp(self, t):
        return float(self._c(t))

    def h(self, t):
        """J/kg above 25 C."""
        return float(self._h(t))

    def density(self, t, p):
        return p * self.molar_mass / (R * t)


@cache
def air_gas():
    return Gas(AIR)


@cache
def vaporisation():
    return PropsSI("H", "T", T25, "Q", 1, "Water") - PropsSI("H", "T", T25, "Q", 0, "Water")


class Fuel:
    def __init__(self, species, moisture):
        c, h, o, n, ash = WOODS[species]
        dry = 1.0 - moisture
        self.atoms = {
            e: v / 100.0 / ATOM[e] * dry for e, v in zip("CHON", (c, h, o, n), strict=True)
        }
        self.water = moisture / MOLAR["H2O"]  # mol/kg
        self.oxygen = self.atoms["C"] + self.atoms["H"] / 4.0 - self.atoms["O"] / 2.0
        self.hhv = dry * 1e6 * (0.3491 * c + 1.1783 * h - 0.1034 * o - 0.0151 * n - 0.0211 * ash)
        vapour = (self.atoms["H"] / 2.0 + self.water) * MOLAR["H2O"]
        self.lhv = self.hhv - vapour * vaporisation()

    def air(self, excess):
        """mol per kg of moist wood."""
        return {s: v / AIR["O2"] * self.oxygen * excess for s, v in AIR.items()}

    def flue(self, excess):
        moles = self.air(excess)
        moles["O2"] -= self.oxygen
        moles["CO2"] += self.atoms["C"]
        moles["N2"] += self.atoms["N"] / 2.0
        moles["H2O"] = self.atoms["H"] / 2.0 + self.water
        return moles


def mass(moles):
    return sum(n * MOLAR[s] for s, n in moles.items())


# ------------------------------------------------------------------ radiation


def unary(rows, t, x):
    total, power = 0.0, 1.0
    for row in rows:
        poly = 0.0
        for c in reversed(row):
            poly = poly * t + c
        total += poly * power
        power *= x
    return math.exp(total)


H2O_ROWS = (
    (-2.2118, -1.1987, 0.035596),
    (0.85667, 0.93048, -0.14391),
    (-0.10838, -0.17156, 0.045915),
)
CO2_ROWS = (
    (-3.9893, 2.7669, -2.1081, 0.39163),
    (1.2710, -1.1090, 1.0195, -0.21897),
    (-0.23678, 0.19731, -0.19544, 0.044644),
)


def emissivity(temperature, p_w, p_c, length, p):
    """Leckner 1972; pressures in bar, length in m."""
    t = temperature / 1000.0
    lw, lc = math.log10(100.0 * p_w * length), math.log10(100.0 * p_c * length)

    def broadening(a, b, c, effective, log_most, log_path):
        weight = math.exp(-c * (log_most - log_path) ** 2)
        return 1.0 - (a - 1.0) * (1.0 - effective) / (a + b - 1.0 + effective) * weight

    a_w = 2.144 if t < 0.75 else 1.888 - 2.053 * math.log10(t)
    water = unary(H2O_ROWS, t, lw) * broadening(
        a_w, 1.10 / t**1.4, 0.5, p + 2.56 * p_w / math.sqrt(t), math.log10(13.2 * t * t), lw
    )
    most = 0.054 / t**2 if t < 0.7 else 0.225 * t**2
    carbon = unary(CO2_ROWS, t, lc) * broadening(
        1.0 + 0.1 / t**1.45, 0.23, 1.47, p + 0.28 * p_c, math.log10(most), lc
    )
    both = 100.0 * (p_w + p_c) * length
    overlap = 0.0
    if both > 1.0:
        z = p_w / (p_w + p_c)
        overlap = (z / (10.7 + 101.0 * z) - 0.0089 * z**10.4) * math.log10(both) ** 2.76
    return water + carbon - overlap


# ----------------------------------------------------------------- convection


def laminar_numbers(shape, a, b):
    """Developed isothermal Nusselt number and f Re."""
    if shape == "round":
        return 3.66, 64.0
    r = min(a, b) / max(a, b)
    nu = 7.541 * (1 - 2.610 * r + 4.970 * r**2 - 5.119 * r**3 + 2.702 * r**4 - 0.548 * r**5)
    fre = 96.0 * (1 - 1.3553 * r + 1.9467 * r**2 - 1.7012 * r**3 + 0.9564 * r**4 - 0.2537 * r**5)
    return nu, fre


class Section:
    def __init__(self, shape, a, b, roughness):
        if shape == "round":
            self.area, self.perimeter = math.pi * a * a / 4.0, math.pi * a
        else:
            self.area, self.perimeter = a * b, 2.0 * (a + b)
        self.d = 4.0 * self.area / self.perimeter
        self.nu_t, self.f_re = laminar_numbers(shape, a, b)
        self.rough = roughness / self.d

    def _turbulent_f(self, re):
        return float(fluids.friction_factor(re, self.rough, Method="Colebrook"))

    def friction(self, re):
        if re <= 2300.0:
            return self.f_re / re
        if re >= 4000.0:
            return self._turbulent_f(re)
        share = (re - 2300.0) / 1700.0
        return (1.0 - share) * self.f_re / 2300.0 + share * self._turbulent_f(4000.0)

    def _laminar_nu(self, re, pr, length, free):
        gz = re * pr * self.d / length
        developing = max(1.615 * gz ** (1 / 3) - 0.7, 0.0)
        return (self.nu_t**3 + free**3 + 0.7**3 + developing**3) ** (1 / 3)

    def _turbulent_nu(self, re, pr, length):
        smooth = (1.8 * math.log10(re) - 1.5) ** -2
        gain = min(max(self._turbulent_f(re) / smooth, 1.0), 4.0) ** (0.68 * pr**0.215)
        entrance = 1.0 + (self.d / length) ** (2 / 3)
        return float(ht.conv_internal.turbulent_Gnielinski(re, pr, smooth)) * gain * entrance

    def nusselt(self, re, pr, length, free=0.0):
        """`free`: Nusselt number of natural convection alone."""
        if re <= 2300.0:
            return self._laminar_nu(re, pr, length, free)
        if re >= 4000.0:
            return self._turbulent_nu(re, pr, length)
        share = (re - 2300.0) / 1700.0
        laminar = self._laminar_nu(2300.0, pr, length, free)
        return (1.0 - share) * laminar + share * self._turbulent_nu(4000.0, pr, length)


# ---------------------------------------------------------------------- walls


def semi_infinite(material, time):
    k, rho, c = material
    return 2.0 * math.sqrt(time / math.pi) / math.sqrt(k * rho * c)


def slab(material, time, half):
    """Surface rise per constant flux of a slab with an adiabatic back."""
    k, rho, c = material
    fo = k / (rho * c) * time / half**2
    total, n = 0.0, 1
    while True:
        term = math.exp(-((n * math.pi) ** 2) * fo) / n**2
        total += term
        if term < 1e-13 or n > 20000:
            break
        n += 1
    return half / k * (fo + 1.0 / 3.0 - 2.0 / math.pi**2 * total)


def free_nusselt(gas, p, t, tw, d):
    """Natural convection alone, over d."""
    film = (t + tw) / 2.0
    mu = gas.mu(film)
    pr = gas.cp(film) * mu / gas.k(film)
    gr = 9.80665 * abs(t - tw) / film * d**3 * (gas.density(film, p) / mu) ** 2
    return 0.10 * (gr * pr) ** (1 / 3)


# -------------------------------------------------------------------- marching


class March:
    """One duct with several kinds of walls: q -> wall temperature by `wall_of`."""

    def __init__(self, model, section, length, entrance, walls):
        self.m, self.s, self.length, self.entrance, self.walls = (
            model,
            section,
            length,
            entrance,
            walls,
        )

    def local(self, t):
        m, s = self.m, self.s
        mu, k, c = m.gas.mu(t), m.gas.k(t), m.gas.cp(t)
        g = m.flow / s.area
        re = g * s.d / mu
        forced = s.nusselt(re, c * mu / k, self.entrance) * k / s.d

        def film(tw):
            if re >= 4000.0:
                return forced
            free = free_nusselt(m.gas, m.p, t, tw, s.d)
            return s.nusselt(re, c * mu / k, self.entrance, free) * k / s.d

        beam = 0.9 * s.d
        gray = (m.inner_emissivity + 1.0) / 2.0
        emitted = emissivity(t, m.p_w, m.p_c, beam, m.bar) * t**4

        def radiated(tw):
            absorbed = math.sqrt(t / tw) * emissivity(tw, m.p_w, m.p_c, beam * tw / t, m.bar)
            return SIGMA * gray * (emitted - absorbed * tw**4)

        out = []
        for share, conducted, far in self.walls:

            def miss(tw, conducted=conducted):
                return film(tw) * (t - tw) + radiated(tw) - conducted(tw)

            low, high = min(far, t) - 1.0, max(far, t) + 1.0
            tw = brentq(miss, low, high, xtol=1e-8)
            out.append((share, tw, film(tw) * (t - tw), radiated(tw)))
        return c, re, out

    def run(self, t_in, cells):
        """Outlet temperature and the integrals along the duct."""
        m, s = self.m, self.s
        if self.length <= 0.0:
            return {"out": t_in, "friction": 0.0, "radiated": 0.0, "wall": t_in, "mean": t_in}
        g = m.flow / s.area

        def slope(_, y):
            t = y[0]
            c, re, walls = self.local(t)
            q_rad = sum(w[0] * w[3] for w in walls)
            q = q_rad + sum(w[0] * w[2] for w in walls)
            wall = sum(w[0] * w[1] for w in walls)
            drop = s.friction(re) / s.d * g * g / (2.0 * m.gas.density(t, m.p))
            return [-q * s.perimeter / (m.flow * c), drop, q_rad * s.perimeter, wall, t]

        answer = solve_ivp(
            slope,
            (0.0, self.length),
            [t_in, 0.0, 0.0, 0.0, 0.0],
            rtol=1e-7,
            atol=[1e-5, 1e-7, 1e-3, 1e-3, 1e-3],
            max_step=self.length / cells,
        )
        assert answer.success
        t, drop, rad, wall, mean = (float(v) for v in answer.y[:, -1])
        return {
            "out": t,
            "friction": drop,
            "radiated": rad,
            "wall": wall / self.length,
            "mean": mean / self.length,
        }


class Model:
    def __init__(self, design, excess=None, cells=40):
        site, fire, box, path, shell, flue = (
            design[k] for k in ("site", "fire", "firebox", "path", "shell", "chimney")
        )
        self.cells = cells
        excess = fire["excess_air_ratio"] if excess is None else excess
        room, outdoor = site["room_celsius"] + ZERO_C, site["outdoor_celsius"] + ZERO_C
        fuel = Fuel(fire["species"], fire["moisture_fraction"])
        burn = fire["charge_kg"] / fire["burn_duration_s"]
        self.gas = Gas(fuel.flue(excess))
        air = air_gas()
        self.flow = burn * mass(fuel.flue(excess))
        air_flow = burn * mass(fuel.air(excess))
        self.p = float(fluids.ATMOSPHERE_1976(site["altitude_m"]).P)
        self.bar = self.p / 1e5
        self.p_w, self.p_c = self.gas.x["H2O"] * self.bar, self.gas.x["CO2"] * self.bar
        self.inner_emissivity = shell["inner_emissivity"]
        time = fire["burn_duration_s"] / 2.0
        core = MATERIALS[shell["core_material"]]
        layout = path["layout"]
        deep = semi_infinite(core, time)
        crown = slab(core, time, box["crown_thickness_m"] / 2.0)
        back = slab(core, time, box["wall_thickness_m"] / 2.0)
        baffle = slab(core, time, path["baffle_thickness_m"] / 2.0)

        # runs: sizes, floor heights, shares of wall kinds
        sizes = []
        for i in range(int(path["run_count"])):
            own = path["runs"][i] if i < len(path.get("runs", [])) else {}
            sizes.append(
                tuple(
                    own.get(n) or path["run_" + n]
                    for n in ("length_m", "width_m", "height_m")
                )
            )
        n = len(sizes)
        assert n > 0, "a design without runs has no table here"
        gap = path["baffle_thickness_m"]
        floors = [0.0] * n
        if layout == "above":
            floors[0] = box["height_m"] + box["crown_thickness_m"]
            for i in range(1, n):
                floors[i] = floors[i - 1] + sizes[i - 1][2] + gap
        elif layout == "behind":
            for i in range(n - 2, -1, -1):
                floors[i] = floors[i + 1] + sizes[i + 1][2] + gap
        axes = [f + s[2] / 2.0 for f, s in zip(floors, sizes, strict=True)]

        box_shared = 0.0
        walls = []
        for i, (length, width, height) in enumerate(sizes):
            kinds = []
            for j in (i - 1, i + 1):
                if 0 <= j < n:
                    across = 2 if layout == "bench" else 1
                    face = min(length, sizes[j][0]) * min(sizes[i][across], sizes[j][across])
                    kinds.append((face, baffle))
            if layout == "above" and i == 0:
                face = min(length, box["width_m"]) * min(width, box["depth_m"])
                kinds.append((face, crown))
                box_shared += face
            if layout == "behind":
                overlap = min(floors[i] + height, box["height_m"]) - max(floors[i], 0.0)
                if overlap > 0.0:
                    face = min(length, box["width_m"]) * overlap
                    kinds.append((face, back))
                    box_shared += face
            whole = 2.0 * (width + height) * length
            kinds.append((whole - sum(k[0] for k in kinds), deep))
            walls.append(
                [
                    (face / whole, lambda tw, r=r: (tw - room) / r, room)
                    for face, r in kinds
                    if face > 0.0
                ]
            )

        # firebox
        w, d, h = box["width_m"], box["depth_m"], box["height_m"]
        door = box["door_width_m"] * box["door_height_m"]
        inner = 2.0 * w * d + 2.0 * (w + d) * h - door
        glass, metal = door * box["glass_fraction"], door * (1.0 - box["glass_fraction"])
        gray = (self.inner_emissivity + 1.0) / 2.0 * box["flame_emissivity"]
        shared_r = crown if layout == "above" else back

        def flux(t, r):
            def miss(tw):
                return SIGMA * gray * (t**4 - tw**4) + 8.0 * (t - tw) - (tw - room) / r

            tw = brentq(miss, room - 1.0, t + 1.0, xtol=1e-9)
            return (tw - room) / r, tw

        def firebox(t):
            q1, tw1 = flux(t, deep)
            q2, tw2 = flux(t, shared_r)
            return {
                "walls": q1 * (inner - box_shared) + q2 * box_shared,
                "wall": (tw1 * (inner - box_shared) + tw2 * box_shared) / inner,
                "wall_deep": tw1,
                "glass": glass * 0.115 * SIGMA * (t**4 - room**4),
                "door": metal * 4.0 * (t - room),
            }

        wood = burn * fuel.lhv
        unburned = wood * fire["unburned_fraction"]
        air_heat = air_flow * air.h(room)
        released = wood - unburned + air_heat

        def surplus(t):
            f = firebox(t)
            return released - self.flow * self.gas.h(t) - f["walls"] - f["glass"] - f["door"]

        t0 = brentq(surplus, room + 0.01, 2500.0, xtol=1e-8)
        fb = firebox(t0)
        flame = brentq(lambda t: released - self.flow * self.gas.h(t), room, 2590.0, xtol=1e-8)

        # along the path
        rho = lambda t: self.gas.density(t, self.p)  # noqa: E731
        cold = air.density(outdoor, self.p)
        dynamic = lambda s, t: (self.flow / s.area) ** 2 / (2.0 * rho(t))  # noqa: E731
        ledger = dict.fromkeys(
            [
                "firebox_column",
                "run_rises",
                "chimney_column",
                "inlet",
                "entry_turn",
                "reversals",
                "exit_turn",
                "run_friction",
                "chimney_friction",
                "mouth",
                "acceleration",
                "house_suction",
            ],
            0.0,
        )
        ledger["firebox_column"] = (cold - rho(t0)) * G * axes[0]
        inflow = air_flow / (air.density(room, self.p) * box["inlet_area_m2"])
        ledger["inlet"] = (
            box["inlet_coefficient"] * air.density(room, self.p) * inflow**2 / 2.0
        )
        ledger["house_suction"] = site["house_suction_pascals"]

        runs = []
        t, previous = t0, None
        for i, (length, width, height) in enumerate(sizes):
            s = Section("rectangular", width, height, path["roughness_m"])
            if i == 0:
                turn = path["turn_coefficient"] * dynamic(s, t)
                ledger["entry_turn"] = turn
                ledger["acceleration"] += dynamic(s, t)
            else:
                narrow = min(s, previous, key=lambda x: x.area)
                turn = path["reversal_coefficient"] * dynamic(narrow, t)
                ledger["reversals"] += turn
                ledger["acceleration"] += dynamic(s, t) - dynamic(previous, t)
                ledger["run_rises"] += (cold - rho(t)) * G * (axes[i] - axes[i - 1])
            duct = March(self, s, length, length, walls[i])
            a = duct.run(t, cells)
            ledger["run_friction"] += a["friction"]
            ledger["acceleration"] += (self.flow / s.area) ** 2 * (1 / rho(a["out"]) - 1 / rho(t))
            heat = self.flow * (self.gas.h(t) - self.gas.h(a["out"]))
            mean = a["mean"]
            v = self.flow / s.area / rho(mean)
            runs.append(
                {
                    "inlet_celsius": t - ZERO_C,
                    "outlet_celsius": a["out"] - ZERO_C,
                    "wall_celsius": a["wall"] - ZERO_C,
                    "heat_watts": heat,
                    "radiation_fraction": a["radiated"] / heat,
                    "velocity_m_per_s": self.flow / s.area / rho(t),
                    "reynolds": self.flow / s.area * s.d / self.gas.mu(mean),
                    "richardson": G * (mean - a["wall"]) / mean * s.d / v**2,
                    "friction_pascals": a["friction"],
                    "turn_pascals": turn,
                }
            )
            t, previous = a["out"], s
        t_end = t

        # connector and chimney
        sizes_flue = (flue["flue_width_m"], flue["flue_depth_m"])
        pipe = Section(flue["shape"], *sizes_flue, 0.001)
        stack = Section(flue["shape"], *sizes_flue, flue["roughness_m"])
        narrow = min(pipe, previous, key=lambda x: x.area)
        ledger["exit_turn"] = path["turn_coefficient"] * dynamic(narrow, t)
        ledger["acceleration"] += dynamic(pipe, t) - dynamic(previous, t)

        def bare(tw):
            natural = 1.31 * math.copysign(abs(tw - room) ** (4 / 3), tw - room)
            return 0.9 * SIGMA * (tw**4 - room**4) + natural

        g = self.flow / stack.area
        length = flue["connector_length_m"]
        a = March(self, pipe, length, length, [(1.0, bare, room)]).run(t, cells)
        ledger["chimney_friction"] += a["friction"]
        ledger["acceleration"] += g**2 * (1 / rho(a["out"]) - 1 / rho(t))
        t_in = a["out"]
        connector_heat = self.flow * (self.gas.h(t) - self.gas.h(t_in))

        tall = flue["mouth_height_m"] - axes[-1]
        assert tall > 0.0
        outside = min(flue["outdoor_length_m"], tall)
        d_in = stack.d
        d_mid = d_in + 2.0 * flue["wall_thickness_m"]
        d_out = d_mid + 2.0 * flue["insulation_thickness_m"]
        layers = d_in / 2.0 * math.log(d_mid / d_in) / MATERIALS[flue["wall_material"]][0]
        layers += d_in / 2.0 * math.log(d_out / d_mid) / WOOL_CONDUCTIVITY
        t = t_in
        weight = 0.0
        for part, alpha, far in ((tall - outside, 8.0, room), (outside, 23.0, outdoor)):
            r = layers + d_in / (d_out * alpha)
            duct = March(
                self, stack, part, tall, [(1.0, lambda tw, r=r, far=far: (tw - far) / r, far)]
            )
            if part > 0.0:
                # the column's mean density, integrated cell by cell with the temperature
                count = cells
                for _ in range(count):
                    small = March(self, stack, part / count, tall, duct.walls)
                    a = small.run(t, 1)
                    ledger["chimney_friction"] += a["friction"]
                    ledger["acceleration"] += g**2 * (1 / rho(a["out"]) - 1 / rho(t))
                    weight += (cold - rho(a["mean"])) * G * part / count
                    t = a["out"]
        # The mouth stands outdoors, however short the part is that does (duct: the outdoor part).
        mouth_wall = duct.local(t)[2][0][1]
        ledger["chimney_column"] = weight
        ledger["mouth"] = flue["mouth_coefficient"] * dynamic(stack, t)

        pulls = ("firebox_column", "run_rises", "chimney_column")
        draft = sum(ledger[k] for k in pulls)
        losses = sum(v for k, v in ledger.items() if k not in pulls)
        kept = wood - unburned - self.flow * (self.gas.h(t_end) - self.gas.h(room))
        self.margin = draft - losses
        signed = {k: v if k in pulls else -v for k, v in ledger.items()}  # sums to the margin
        self.figures = {
            "charge_kg": fire["charge_kg"],
            "burn_rate_kg_per_s": burn,
            "excess_air_ratio": excess,
            "gas_flow_kg_per_s": self.flow,
            "air_flow_kg_per_s": air_flow,
            "pressure_pascals": self.p,
            "lower_heating_value_j_per_kg": fuel.lhv,
            "flame_celsius": flame - ZERO_C,
            "firebox_outlet_celsius": t0 - ZERO_C,
            "firebox_wall_celsius": fb["wall"] - ZERO_C,
            "runs": runs,
            "path_length_m": sum(x[0] for x in sizes)
            + sum(abs(b - a) for a, b in zip(axes, axes[1:], strict=False)),
            "runs_outlet_celsius": t_end - ZERO_C,
            "chimney_inlet_celsius": t_in - ZERO_C,
            "chimney_velocity_m_per_s": g / rho(t_in),
            "chimney_mouth_gas_celsius": t - ZERO_C,
            "chimney_mouth_wall_celsius": mouth_wall - ZERO_C,
            "dew_point_celsius": PropsSI("T", "P", self.gas.x["H2O"] * self.p, "Q", 1, "Water")
            - ZERO_C,
            "draft_pascals": draft,
            "losses_pascals": losses,
            "margin_pascals": self.margin,
            "ledger": signed,
            "efficiency_lower": kept / wood,
            "efficiency_higher": kept / (burn * fuel.hhv),
            "heat": {
                "wood_watts": wood,
                "air_watts": air_heat,
                "unburned_watts": unburned,
                "firebox_walls_watts": fb["walls"],
                "glass_watts": fb["glass"],
                "door_watts": fb["door"],
                "runs_watts": sum(r["heat_watts"] for r in runs),
                "connector_watts": connector_heat,
                "chimney_watts": self.flow * (self.gas.h(t_in) - self.gas.h(t)),
                "mouth_watts": self.flow * self.gas.h(t),
            },
        }


def natural_flows(design):
    def margin(log_excess):
        return Model(design, math.exp(log_excess), cells=6).margin

    grid = np.linspace(0.0, math.log(14.0), 16)
    values = [margin(x) for x in grid]
    found = []
    for a, b, va, vb in zip(grid, grid[1:], values, values[1:], strict=False):
        if va * vb < 0.0:
            root = brentq(margin, a, b, xtol=1e-5)
            m = Model(design, math.exp(root), cells=6)
            found.append(
                {
                    "gas_flow_kg_per_s": m.flow,
                    "excess_air_ratio": math.exp(root),
                    "stable": float(vb < va),
                }
            )
    return found


def flat(figures, prefix=""):
    for key, value in figures.items() if isinstance(figures, dict) else enumerate(figures):
        name = f"{prefix}{key}"
        if isinstance(value, dict | list):
            yield from flat(value, name + ".")
        else:
            yield name, float(value)


def evaluate(path):
    design = json.loads(Path(path).read_text(encoding="utf-8"))
    figures = Model(design).figures
    figures["natural_flows"] = natural_flows(design)
    return Path(path).stem, list(flat(figures))


def table():
    digest = hashlib.sha256(Path(__file__).read_bytes()).hexdigest()
    names = ["CoolProp", "cantera", "fluids", "ht", "numpy", "scipy"]
    lines = [
        f"# script-sha256: {digest}",
        "# made with: " + ", ".join(f"{n} {version(n)}" for n in names),
        "design,figure,value",
    ]
    with Pool() as pool:
        for stem, rows in pool.map(evaluate, sorted(DESIGNS.glob("*.json")), chunksize=1):
            lines += [f"{stem},{name},{value:.8g}" for name, value in rows]
    return lines


def main():
    if len(sys.argv) > 1 and sys.argv[1] != "--check":
        for name, value in evaluate(sys.argv[1])[1]:
            print(f"{name} {value:.8g}")
        return
    lines = table()
    if len(sys.argv) == 1:
        TABLE.write_text("\n".join(lines) + "\n", encoding="utf-8", newline="\n")
        print(f"{len(lines) - 3} figures")
        return
    old = TABLE.read_text(encoding="utf-8").splitlines()
    assert len(old) == len(lines), "number of rows"
    for a, b in zip(old, lines, strict=True):
        if a != b:
            x, y = a.rsplit(",", 1), b.rsplit(",", 1)
            same = x[0] == y[0] and math.isclose(float(x[1]), float(y[1]), rel_tol=1e-7)
            assert same, f"{a} | {b}"
    print("agrees")


if __name__ == "__main__":
    main()
