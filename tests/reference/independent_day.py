#!/usr/bin/env python3
"""A second, independent model of the day of a masonry heater.

Written from the written specification alone. Gas, wood, emissivity and duct sections come
from independent_model.py beside it; time comes from SciPy: method of lines, BDF with a
sparse Jacobian. Longsmoke's own source was not read.
Its author had the walls of a run grow by the baffle's edge alone; the envelope of the whole
heater (face, cap, firebox) was put in later, in both programs, and the table computed again.
So was the facing that rises straight, with its wide spaces of air, by someone who knew the program.

    independent_day.py                     write tables/day.csv from day_designs/*.json
    independent_day.py --check             compute again, compare with the table to 4 digits
    independent_day.py NAME [STATE]        one design's energies on the screen
    independent_day.py --converge NAME     finer cells, finer nodes, tighter tolerance
    independent_day.py --verify            limits and exact solutions

A design is NAME.json (the heater) and NAME.day.json (after-air, base, burn curve).

How it works
- Unknowns: temperatures of the walls' nodes. Nodes lie on the surfaces (vertex-centered
  finite volumes), so a surface temperature is a state. Left and right side of a run are
  alike by symmetry and are one wall of twice the height.
- Gas: steady at each instant. All gas temperatures (firebox, cells of the runs, connector,
  chimney) are found together by Newton's method; the matrix is lower bidiagonal.
- In a cell the walls see the gas at T_out + w (T_in - T_out), with w = 1/n - 1/(e^n - 1) of
  the transfer units n: the mean of an exponential profile. It is second order in the cell
  length and stays right when the flow goes to zero.
- The Jacobian is exact but for the differences taken in the cells: local derivatives, then
  the gas temperatures are eliminated.
- Energies: Gauss's rule (3 points) over every step of the solver's own interpolation. Stored
  heat comes from the states; the residual of the balance therefore tests the solver.

Choices that the specification leaves open, made here:
- the gas of the burn keeps its composition while its flow goes to zero at either end; at the
  two instants themselves (flow exactly zero) no curve is printed
- the flame's emissivity is the same through the whole burn
- transport properties of a cell at its gas temperature (as in height of the fire, locally);
  the gap's air at its own mean temperature, not below 280 K
- alpha_g: as in height of the fire, sqrt(Tg/Tw) e_g(Tw, path Tw/Tg), at the mean of the wall
  temperatures (not of their fourth powers)
- natural convection beside a laminar flow: rule of cubes (Churchill 1977), the developed Nu_T
  becomes (Nu_T^3 + Nu_free^3)^(1/3), Nu_free = 0.10 Ra^(1/3) over d (Bayley 1955), gas
  halfway between gas and the mean of the wall temperatures; put in by someone else, in both
  programs, after the first comparison
- connector: one node and one gas cell in all; its inner and its outer area are perimeter
  times length
- chimney: cells of equal length indoors, and outdoors; nothing between the two parts
- hottest surface of the run faces: of the cells, at their middles; with 12 cells the first
  middle lies 1/24 of the length from the inlet
- base slab: perfect contact with the floor above it
- soapstone: k 3.3, rho 2980, c 1000
"""

import hashlib
import json
import math
import sys
import time as clock
from importlib.metadata import version
from multiprocessing import Pool
from pathlib import Path
from types import SimpleNamespace

import fluids
import numpy as np
from scipy.integrate import solve_ivp
from scipy.linalg import solve_triangular
from scipy.sparse import coo_array
from scipy.special import erfc, wrightomega

import independent_model as im
from independent_model import SIGMA, ZERO_C

HERE = Path(__file__).resolve().parent
DESIGNS = HERE / "day_designs"
TABLE = HERE / "tables" / "day.csv"

MATERIALS = dict(im.MATERIALS, soapstone=(3.3, 2980.0, 1000.0))
CONCRETE = (2.0, 2400.0, 1000.0)
WOOL = (0.06, 100.0, 1030.0)
SHEET = (7900.0, 480.0, 0.0015)  # rho, c, thickness of the connector

FIRST, PERIODIC = "first_fire", "periodic"
WINDOW = {FIRST: 86400.0, PERIODIC: 43200.0}


class Fineness:
    """Resolution: cells per run, along chimney and connector, scale of the walls' steps."""

    def __init__(self, cells=12, flue=16, scale=0.5, rtol=1e-7, connector=1):
        self.cells, self.flue, self.connector = cells, flue, connector
        self.scale, self.rtol = scale, rtol


# ---------------------------------------------------------------------- walls


def graded(thickness, fine_left, fine_right, scale):
    """Node positions 0..thickness; steps grow away from a fine end."""
    first, largest, growth = 0.001 * scale, 0.008 * scale, 1.0 + 0.22 * scale
    largest = min(largest, thickness / 4.0)
    if not (fine_left or fine_right):
        return np.linspace(0.0, thickness, max(4, math.ceil(thickness / largest)) + 1)
    span = thickness / 2.0 if fine_left and fine_right else thickness
    steps, size = [], first
    while sum(steps) < span:
        steps.append(size)
        size = min(size * growth, largest)
    steps = np.array(steps) * span / sum(steps)
    x = np.concatenate(([0.0], np.cumsum(steps)))
    if fine_left and fine_right:
        x = np.concatenate((x, thickness - x[-2::-1]))
    elif fine_right:
        x = thickness - x[::-1]
    x[-1] = thickness
    return x


class Layer:
    """One slab of a wall; `area(x)` is linear between the ends, relative to the inner face."""

    def __init__(self, material, x, a0=1.0, a1=1.0):
        self.material, self.x, self.a0, self.a1 = material, x, a0, a1

    def links(self):
        """Conductance of each step and heat capacity of each half step."""
        k, rho, c = self.material
        x = self.x
        a = self.a0 + (self.a1 - self.a0) * (x - x[0]) / (x[-1] - x[0])
        dx = np.diff(x)
        left, right = a[:-1], a[1:]
        mid = (left + right) / 2.0
        slope = (right - left) / dx
        flat = np.abs(right - left) < 1e-12
        safe = np.where(flat, 1.0, slope)
        # integral of dx/A, exact for a linear A
        inverse = np.where(flat, dx / left, np.log(right / left) / safe)
        heat = rho * c * dx / 2.0
        return k / inverse, heat * (left + mid) / 2.0, heat * (mid + right) / 2.0


GAP = object()  # a massless gap between two layers


class Walls:
    """All walls in one vector of node temperatures."""

    def __init__(self):
        self.size = 0
        self.link, self.capacity = [], []
        self.gaps = []  # (left node, area, width, emissivity)
        self.natural, self.film = [], []  # (node, area, kind) / (node, area, h, far, kind)

    def add(self, layers, area, count=1, gap=None):
        """`count` equal walls of inner area `area`; gives nodes as (count, nodes)."""
        g, c = [], [0.0]
        where = []
        for layer in layers:
            if layer is GAP:
                where.append(len(g))
                g.append(0.0)
                c.append(0.0)
                continue
            conductance, low, high = layer.links()
            c[-1] += low[0]
            c.extend(high[:-1] + low[1:])
            c.append(high[-1])
            g.extend(conductance)
        g, c = np.array(g + [0.0]) * area, np.array(c) * area
        start, n = self.size, len(c)
        nodes = start + np.arange(count * n).reshape(count, n)
        self.link.append(np.tile(g, count))
        self.capacity.append(np.tile(c, count))
        for at in where:
            width, emissivity, ratio = gap
            self.gaps += [(int(row[at]), area * ratio, width, emissivity) for row in nodes]
        self.size += count * n
        return nodes

    def close(self, room):
        self.room = room
        self.link = np.concatenate(self.link)
        self.capacity = np.concatenate(self.capacity)
        columns = list(zip(*self.gaps, strict=True)) or [(), (), (), ()]
        self.gap_node = np.array(columns[0], dtype=int)
        self.gap_area, self.gap_width, self.gap_emissivity = map(np.array, columns[1:])
        columns = list(zip(*self.natural, strict=True)) or [(), (), ()]
        self.nat_node, self.nat_area = np.array(columns[0], dtype=int), np.array(columns[1])
        self.nat_kind = np.array(columns[2])
        columns = list(zip(*self.film, strict=True)) or [(), (), (), (), ()]
        self.film_node = np.array(columns[0], dtype=int)
        self.film_area, self.film_h, self.film_far = map(np.array, columns[1:4])
        self.film_kind = np.array(columns[4])

    def gap_conductance(self, hot, cold):
        """Still air, or in a wide space air that turns over (ISO 6946), and radiation."""
        mean = (hot + cold) / 2.0
        still = im.air_gas()._k(np.maximum(mean, 280.0)) / self.gap_width
        turning = np.where(
            np.abs(hot - cold) < 5.0, 1.25, 0.73 * np.maximum(np.abs(hot - cold), 5.0) ** (1 / 3)
        )
        radiated = 4.0 * SIGMA * mean**3 / (2.0 / self.gap_emissivity - 1.0)
        return self.gap_area * (np.maximum(still, turning) + radiated)

    def natural_loss(self, t):
        d = t[self.nat_node] - self.room
        q = 0.9 * SIGMA * (t[self.nat_node] ** 4 - self.room**4)
        return self.nat_area * (q + 1.31 * np.sign(d) * np.abs(d) ** (4.0 / 3.0))

    def film_loss(self, t):
        return self.film_area * self.film_h * (t[self.film_node] - self.film_far)

    def heat(self, t):
        """Net heat into each node, W, of conduction and the outer surfaces."""
        link = self.link.copy()
        if len(self.gap_node):
            link[self.gap_node] = self.gap_conductance(t[self.gap_node], t[self.gap_node + 1])
        q = link[:-1] * (t[:-1] - t[1:])
        out = np.zeros(self.size)
        out[:-1] -= q
        out[1:] += q
        np.subtract.at(out, self.nat_node, self.natural_loss(t))
        np.subtract.at(out, self.film_node, self.film_loss(t))
        return out

    def triplets(self, t):
        """Derivatives of heat() as rows, columns, values."""
        left = self.link[:-1].copy()
        right = left.copy()
        if len(self.gap_node):
            a, b = t[self.gap_node], t[self.gap_node + 1]
            g = self.gap_conductance(a, b)
            by_a = (self.gap_conductance(a + 0.01, b) - g) / 0.01
            by_b = (self.gap_conductance(a, b + 0.01) - g) / 0.01
            left[self.gap_node] = g + by_a * (a - b)
            right[self.gap_node] = g - by_b * (a - b)
        i = np.arange(self.size - 1)
        d = np.abs(t[self.nat_node] - self.room)
        nat = self.nat_area * (
            3.6 * SIGMA * t[self.nat_node] ** 3 + 1.31 * 4.0 / 3.0 * d ** (1.0 / 3.0)
        )
        rows = [i, i, i + 1, i + 1, self.nat_node, self.film_node]
        columns = [i, i + 1, i, i + 1, self.nat_node, self.film_node]
        values = [-left, right, left, -right, -nat, -self.film_area * self.film_h]
        return np.concatenate(rows), np.concatenate(columns), np.concatenate(values)


# ------------------------------------------------------------------------ gas


def leckner(temperature, p_w, p_c, length, p):
    """independent_model.emissivity for arrays; no water in dry air."""
    t = temperature / 1000.0

    def unary(rows, x):
        poly = [(row[-1] * t + row[-2]) for row in rows]
        for k in range(len(rows[0]) - 3, -1, -1):
            poly = [value * t + row[k] for value, row in zip(poly, rows, strict=True)]
        return np.exp(poly[0] + x * (poly[1] + x * poly[2]))

    def broadening(a, b, c, effective, log_most, log_path):
        weight = np.exp(-c * (log_most - log_path) ** 2)
        return 1.0 - (a - 1.0) * (1.0 - effective) / (a + b - 1.0 + effective) * weight

    lc = np.log10(100.0 * p_c * length)
    log_t = np.log10(t)
    log_most = np.where(
        t < 0.7, math.log10(0.054) - 2.0 * log_t, math.log10(0.225) + 2.0 * log_t
    )
    carbon = unary(im.CO2_ROWS, lc) * broadening(
        1.0 + 0.1 / t**1.45, 0.23, 1.47, p + 0.28 * p_c, log_most, lc
    )
    if p_w == 0.0:
        return carbon
    lw = np.log10(100.0 * p_w * length)
    a_w = np.where(t < 0.75, 2.144, 1.888 - 2.053 * log_t)
    water = unary(im.H2O_ROWS, lw) * broadening(
        a_w,
        1.10 / t**1.4,
        0.5,
        p + 2.56 * p_w / np.sqrt(t),
        math.log10(13.2) + 2.0 * log_t,
        lw,
    )
    both = np.log10(np.maximum(100.0 * (p_w + p_c) * length, 1.0))
    z = p_w / (p_w + p_c)
    return water + carbon - (z / (10.7 + 101.0 * z) - 0.0089 * z**10.4) * both**2.76


class Ducts:
    """Sections of all gas cells as arrays; Nusselt number as in independent_model.Section."""

    def __init__(self, sections, entrances, cell_lengths):
        self.d = np.array([s.d for s in sections])
        self.area = np.array([s.area for s in sections])
        self.nu_t = np.array([s.nu_t for s in sections])
        self.rough = np.array([s.rough for s in sections])
        self.entrance = np.array(entrances)
        self.surface = np.array(
            [s.perimeter * x for s, x in zip(sections, cell_lengths, strict=True)]
        )

    def nusselt(self, re, pr, free=0.0):
        low, high = np.minimum(re, 2300.0), np.maximum(re, 4000.0)
        gz = low * pr * self.d / self.entrance
        developing = np.maximum(1.615 * np.cbrt(gz) - 0.7, 0.0)
        laminar = np.cbrt(self.nu_t**3 + free**3 + 0.7**3 + developing**3)
        # Colebrook's friction factor in closed form
        c = 2.0 / math.log(10.0)
        a, b = self.rough / 3.7, 2.51 / high
        f = (c * wrightomega(a / (b * c) - np.log(b * c)) - a / b) ** -2
        smooth = (1.8 * np.log10(high) - 1.5) ** -2
        gain = np.clip(f / smooth, 1.0, 4.0) ** (0.68 * pr**0.215)
        root = np.sqrt(smooth / 8.0)
        turbulent = (smooth / 8.0) * (high - 1000.0) * pr
        turbulent /= 1.0 + 12.7 * root * (np.cbrt(pr) ** 2 - 1.0)
        turbulent *= gain * (1.0 + np.cbrt(self.d / self.entrance) ** 2)
        share = np.clip((re - 2300.0) / 1700.0, 0.0, 1.0)
        return (1.0 - share) * laminar + share * turbulent


class Burn:
    """Rate of burning over time."""

    def __init__(self, charge, duration, day):
        self.duration = duration
        self.k, self.c = day["kindling_fraction"], day["char_start_fraction"]
        self.r, self.d = day["char_rate_ratio"], day["char_fall_fraction"]
        self.e = day["end_fall_fraction"]
        # the integral of S over its rise is one half
        k, c, r, d, e = self.k, self.c, self.r, self.d, self.e
        whole = k / 2.0 + (c - k) + d * (1.0 + r) / 2.0 + r * (1.0 - e - c - d) + r * e / 2.0
        self.scale = charge / duration / whole

    def shape(self, x):
        def smooth(u):
            return u * u * (3.0 - 2.0 * u)

        if x <= 0.0 or x >= 1.0:
            return 0.0
        if x < self.k:
            return smooth(x / self.k)
        if x < self.c:
            return 1.0
        if x < self.c + self.d:
            return 1.0 - (1.0 - self.r) * smooth((x - self.c) / self.d)
        if x < 1.0 - self.e:
            return self.r
        return self.r * (1.0 - smooth((x - 1.0 + self.e) / self.e))

    def rate(self, t):
        return self.scale * self.shape(t / self.duration)


# ---------------------------------------------------------------------- heater


class Heater:
    def __init__(self, design, day, fine):
        self.fine = fine
        site, fire, box, path, shell, flue = (
            design[k] for k in ("site", "fire", "firebox", "path", "shell", "chimney")
        )
        assert path["layout"] == "above"
        self.room = room = site["room_celsius"] + ZERO_C
        self.outdoor = outdoor = site["outdoor_celsius"] + ZERO_C
        self.bar = float(fluids.ATMOSPHERE_1976(site["altitude_m"]).P) / 1e5
        self.eps = shell["inner_emissivity"]
        self.gray = (self.eps + 1.0) / 2.0
        self.mutual = self.eps / (2.0 - self.eps)
        # fire
        excess = fire["excess_air_ratio"]
        fuel = im.Fuel(fire["species"], fire["moisture_fraction"])
        self.gas, self.air = im.Gas(fuel.flue(excess)), im.air_gas()
        self.gas_per_wood, self.air_per_wood = im.mass(fuel.flue(excess)), im.mass(fuel.air(excess))
        self.lhv, self.unburned = fuel.lhv, fire["unburned_fraction"]
        self.burn = Burn(fire["charge_kg"], fire["burn_duration_s"], day)
        self.after_air = day["after_air_kg_per_s"]
        self.air_h = self.air.h(room)
        # walls
        core, facing = MATERIALS[shell["core_material"]], MATERIALS[shell["facing_material"]]
        scale, n = fine.scale, fine.cells
        self.walls = walls = Walls()

        def slab(material, thickness, left, right, start=0.0, a0=1.0, a1=1.0):
            return Layer(material, start + graded(thickness, left, right, scale), a0, a1)

        def face(thickness, ratio, area, count, kind, space=shell["gap_m"], outside=None):
            """Core that spreads to `ratio`, a space, a facing of `outside` over the inner area."""
            outside = outside or ratio
            layers = [slab(core, thickness, True, space == 0.0, a1=ratio)]
            gap = None
            if space > 0.0:
                layers.append(GAP)
                gap = (space, self.eps, ratio)
            layers.append(
                slab(facing, shell["facing_thickness_m"], True, True, a0=outside, a1=outside)
            )
            nodes = walls.add(layers, area, count, gap)
            walls.natural += [(int(row[-1]), area * outside, kind) for row in nodes]
            return nodes

        sizes = []
        for i in range(int(path["run_count"])):
            own = path["runs"][i] if i < len(path.get("runs", [])) else {}
            sizes.append(
                tuple(
                    own.get(x) or path["run_" + x]
                    for x in ("length_m", "width_m", "height_m")
                )
            )
        runs = len(sizes)
        length, width = sizes[0][:2]
        assert all(s[:2] == (length, width) for s in sizes), "equal lengths and widths only"
        dx = length / n
        baffle = path["baffle_thickness_m"]
        # firebox
        w, d, h = box["width_m"], box["depth_m"], box["height_m"]
        door = box["door_width_m"] * box["door_height_m"]
        self.glass, self.metal = door * box["glass_fraction"], door * (1.0 - box["glass_fraction"])
        crown_area = min(length, w) * min(width, d)
        share = crown_area / (width * length)
        inner = 2.0 * w * d + 2.0 * (w + d) * h - door
        rest = inner - crown_area - w * d
        crown = walls.add([slab(core, box["crown_thickness_m"], True, True)], crown_area / n, n)
        under = walls.add(
            [
                slab(core, box["wall_thickness_m"], True, False),
                slab(CONCRETE, day["base_thickness_m"], False, False),
            ],
            w * d,
        )
        walls.film.append((int(under[0, -1]), w * d, 1.0 / 0.17, room, "under"))
        # The outer body is wider than what is inside it by its walls.
        behind_core = shell["gap_m"] + shell["facing_thickness_m"]
        box_ratio = (w + d + 4.0 * (box["wall_thickness_m"] + behind_core)) / (w + d)
        box_face = face(box["wall_thickness_m"], box_ratio, rest, 1, "faces")
        self.box_face = int(box_face[0, -1])
        self.box_node = np.concatenate((crown[:, 0], under[:, 0], box_face[:, 0]))
        self.box_area = np.array([crown_area / n] * n + [w * d, rest])
        self.flame = box["flame_emissivity"]
        # runs: strips of a cell are bottom (shared), bottom (solid), top, both sides
        strips, shares, sections, entrances, lengths, views = [], [], [], [], [], []
        self.run_end, self.run_faces, self.baffles = [], [], []
        below = None
        for i, (_, _, height) in enumerate(sizes):
            girth = 2.0 * (width + height)
            if i == 0:
                bottom, split = crown[:, -1], share
                solid_t = shell["core_thickness_m"] + shell["facing_thickness_m"]
                if share < 1.0 - 1e-9:
                    layers = [slab(core, solid_t, True, False)]
                    solid = walls.add(layers, (1.0 - share) * width * dx, n)[:, 0]
                else:
                    solid = bottom
            else:
                bottom, solid, split = below[::-1, -1], below[::-1, -1], 1.0
            if i + 1 < runs:
                below = walls.add([slab(core, baffle, True, True)], width * dx, n)
                self.baffles.append(below)
                top = below[:, 0]
            else:
                edge = 2.0 * shell["core_thickness_m"]
                cap_ratio = (length + edge) * (width + edge) / (length * width)
                layers = [slab(core, shell["cap_thickness_m"], True, True, a1=cap_ratio)]
                cap = walls.add(layers, width * dx, n)
                walls.natural += [(int(row[-1]), width * dx * cap_ratio, "cap") for row in cap]
                top = cap[:, 0]
            # Envelope of the heater over the inner faces: end walls and edges of baffles are in it.
            whole = shell["core_thickness_m"] + behind_core
            envelope = 2.0 * (length + width + 4.0 * whole) * (height + baffle)
            ratio = envelope / (2.0 * length * height)
            # The facing rises straight around firebox and stack: beside the narrower it stands off.
            box_wall, run_wall = box["wall_thickness_m"], shell["core_thickness_m"]
            deep = max(d + 2.0 * box_wall, width + 2.0 * run_wall)
            long = max(box_wall, run_wall) + max(w + box_wall, length + run_wall)
            around = 2.0 * (long + deep + 4.0 * behind_core) * (height + baffle)
            space = shell["gap_m"] + (deep - width) / 2.0 - run_wall
            sides = face(
                run_wall,
                ratio,
                2.0 * height * dx,
                n,
                "faces",
                space if space > 1e-9 else 0.0,
                around / (2.0 * length * height),
            )
            self.run_faces.append(sides[:, -1])
            diagonal = math.hypot(width, height)
            f_bt, f_lr = (diagonal - height) / width, (diagonal - width) / height
            s = im.Section("rectangular", width, height, path["roughness_m"])
            for k in range(n):
                strips.append((bottom[k], solid[k], top[k], sides[k, 0]))
                shares.append(
                    (
                        split * width / girth,
                        (1.0 - split) * width / girth,
                        width / girth,
                        2.0 * height / girth,
                    )
                )
                sections.append(s)
                entrances.append(length)
                lengths.append(dx)
                views.append((f_bt, f_lr, 1.0))
            self.run_end.append(len(strips))
        # connector
        diameter = flue["flue_width_m"]
        assert flue["shape"] == "round"
        pipe = im.Section("round", diameter, diameter, 0.001)
        stack = im.Section("round", diameter, diameter, flue["roughness_m"])

        def duct(node, section, entrance, part):
            strips.append((node, node, node, node))
            shares.append((0.0, 0.0, 0.0, 1.0))
            sections.append(section)
            entrances.append(entrance)
            lengths.append(part)
            views.append((0.0, 0.0, 0.0))

        reach = flue["connector_length_m"]
        area = pipe.perimeter * reach / fine.connector
        rho, c, sheet = SHEET
        for _ in range(fine.connector):
            node = walls.size
            walls.link.append(np.zeros(1))
            walls.capacity.append(np.array([rho * c * sheet * area]))
            walls.size += 1
            walls.natural.append((node, area, "connector"))
            duct(node, pipe, reach, reach / fine.connector)
        self.connector_end = len(strips)
        # chimney
        axis = box["height_m"] + box["crown_thickness_m"] + sizes[0][2] / 2.0
        for a, b in zip(sizes, sizes[1:], strict=False):
            axis += a[2] / 2.0 + baffle + b[2] / 2.0
        tall = flue["mouth_height_m"] - axis
        outside = min(flue["outdoor_length_m"], tall)
        r0 = diameter / 2.0
        r1 = r0 + flue["wall_thickness_m"]
        r2 = r1 + flue["insulation_thickness_m"]
        count_out = max(2, round(fine.flue * outside / tall))
        self.outdoor_nodes = np.zeros(0, dtype=int)
        for part, count, film, far, kind in (
            (tall - outside, fine.flue - count_out, 8.0, room, "chimney_indoors"),
            (outside, count_out, 23.0, outdoor, "chimney_outdoors"),
        ):
            if part <= 0.0:
                continue
            area = stack.perimeter * part / count
            layers = [
                slab(MATERIALS[flue["wall_material"]], r1 - r0, True, True, a1=r1 / r0),
                slab(WOOL, r2 - r1, False, False, a0=r1 / r0, a1=r2 / r0),
            ]
            nodes = walls.add(layers, area, count)
            walls.film += [(int(row[-1]), area * r2 / r0, film, far, kind) for row in nodes]
            for row in nodes:
                duct(row[0], stack, tall, part / count)
            if kind == "chimney_outdoors":
                self.outdoor_nodes = nodes.ravel()
        walls.close(room)
        self.strip = np.array(strips)
        self.share = np.array(shares)
        self.side = self.share[:, 0] + self.share[:, 1]
        self.ducts = Ducts(sections, entrances, lengths)
        self.f_bt, self.f_lr, self.sees = np.array(views).T
        self.beam = 0.9 * self.ducts.d
        # gas-side nodes, each once
        self.gas_node = np.unique(np.concatenate((self.strip.ravel(), self.box_node)))
        self.place = {int(v): i for i, v in enumerate(self.gas_node)}
        self.strip_place = np.searchsorted(self.gas_node, self.strip)
        self.box_place = np.searchsorted(self.gas_node, self.box_node)
        self.guess = np.full(len(strips) + 1, room)
        self.evaluations = 0

    # instant

    def flow(self, t, burning):
        """Gas flow, air flow and released heat."""
        if not burning:
            return self.after_air, self.after_air, 0.0
        rate = max(self.burn.rate(t), 1e-9 * self.burn.scale)
        return (
            rate * self.gas_per_wood,
            rate * self.air_per_wood,
            rate * self.lhv * (1.0 - self.unburned),
        )

    def free_nusselt(self, gas, t, tw):
        """Natural convection alone, over the diameter."""
        film = np.maximum((t + tw) / 2.0, 280.0)
        mu = gas._mu(film)
        pr = gas._c(film) * mu / gas._k(film)
        nu = mu / gas.density(film, self.bar * 1e5)
        ra = pr * 9.80665 * np.abs(t - tw) / film * self.ducts.d**3 / nu**2
        return 0.10 * np.cbrt(ra)

    def cells(self, m, burning, t_in, t_out, ts):
        """Residual of each cell's balance and heat into each strip (W)."""
        gas = self.gas if burning else self.air
        p_w = gas.x["H2O"] * self.bar
        p_c = gas.x["CO2"] * self.bar
        ducts = self.ducts

        mean = np.einsum("ij,ij->i", self.share, ts)

        def film(t):
            bounded = np.maximum(t, 280.0)
            mu, k, c = gas._mu(bounded), gas._k(bounded), gas._c(t)
            re = m / ducts.area * ducts.d / mu
            free = self.free_nusselt(gas, t, mean)
            return ducts.nusselt(re, c * mu / k, free) * k / ducts.d, c

        middle = (t_in + t_out) / 2.0
        h, c = film(middle)
        gained = 4.0 * SIGMA * self.gray * leckner(middle, p_w, p_c, self.beam, self.bar)
        units = ducts.surface * (h + gained * middle**3) / (m * c)
        units = np.clip(units, 1e-4, 300.0)
        weight = 1.0 / units - 1.0 / np.expm1(units)
        t = t_out + weight * (t_in - t_out)
        h, _ = film(t)
        emitted = leckner(t, p_w, p_c, self.beam, self.bar) * t**4
        absorbed = np.sqrt(t / mean)
        absorbed *= leckner(mean, p_w, p_c, self.beam * mean / t, self.bar)
        fourth = ts**4
        q = h[:, None] * (t[:, None] - ts)
        q += SIGMA * self.gray * (emitted[:, None] - absorbed[:, None] * fourth)
        # among the walls
        w = self.share
        e_b = (w[:, 0] * fourth[:, 0] + w[:, 1] * fourth[:, 1]) / np.maximum(self.side, 1e-9)
        e_t, e_s = fourth[:, 2], fourth[:, 3]
        seen_b = self.f_bt * e_t + (1.0 - self.f_bt) * e_s
        seen_t = self.f_bt * e_b + (1.0 - self.f_bt) * e_s
        seen_s = self.f_lr * e_s + (1.0 - self.f_lr) / 2.0 * (e_b + e_t)
        seen = np.stack((seen_b, seen_b, seen_t, seen_s), axis=1)
        factor = (self.sees * (1.0 - absorbed) * self.mutual * SIGMA)[:, None]
        q -= factor * (fourth - seen)
        q *= ducts.surface[:, None] * w
        return m * (gas._h(t_in) - gas._h(t_out)) - q.sum(axis=1), q

    def firebox(self, m, air, released, burning, tf, ts):
        """Residual, its slope, heat into each wall (W), derivatives, glass, door."""
        gas = self.gas if burning else self.air
        area = self.box_area
        part = area / area.sum()
        flame = self.flame if burning else 0.0
        a, b = self.gray * flame * SIGMA, (1.0 - flame) * self.mutual * SIGMA
        fourth, cube = ts**4, ts**3
        mean = part @ fourth
        gained = 8.0 * (tf - ts) + a * (tf**4 - fourth)
        q = gained - b * (fourth - mean)
        on_ts = np.diag(-8.0 - 4.0 * a * cube - 4.0 * b * cube) + b * 4.0 * part * cube
        door = self.metal * 4.0 * (tf - self.room)
        residual = released + air * self.air_h - m * float(gas._h(tf)) - area @ gained - door
        slope = -m * float(gas._c(tf)) - area.sum() * (8.0 + 4.0 * a * tf**3) - self.metal * 4.0
        if burning:
            glass = self.glass * 0.115 * SIGMA * (tf**4 - self.room**4)
            residual -= glass
            slope -= self.glass * 0.115 * SIGMA * 4.0 * tf**3
        else:
            glass = self.glass * 0.115 * SIGMA * (mean - self.room**4)
            q = q - glass / area.sum()
            on_ts = on_ts - self.glass * 0.115 * SIGMA / area.sum() * 4.0 * part * cube
        return {
            "residual": residual,
            "slope": slope,
            "residual_on_ts": area * (8.0 + 4.0 * a * cube),
            "q": area * q,
            "q_on_ts": area[:, None] * on_ts,
            "q_on_tf": area * (8.0 + 4.0 * a * tf**3),
            "glass": glass,
            "door": door,
        }

    def gas_state(self, t, y, burning, slopes=False):
        m, air, released = self.flow(t, burning)
        ts, tb = y[self.strip], y[self.box_node]
        g = self.guess.copy()
        # firebox first
        for _ in range(60):
            box = self.firebox(m, air, released, burning, g[0], tb)
            step = -box["residual"] / box["slope"]
            g[0] = min(max(g[0] + step, 200.0), 3000.0)
            if abs(step) < 1e-9:
                break
        else:
            raise RuntimeError("firebox")
        dt = 0.01
        for count in range(120):
            if count == 40:  # lost: begin again at the walls' temperatures
                g[1:] = np.einsum("ij,ij->i", self.share, ts)
            r, q = self.cells(m, burning, g[:-1], g[1:], ts)
            r_in = (self.cells(m, burning, g[:-1] + dt, g[1:], ts)[0] - r) / dt
            r_out = (self.cells(m, burning, g[:-1], g[1:] + dt, ts)[0] - r) / dt
            step = np.empty(len(r))
            before = 0.0
            for i in range(len(r)):  # lower bidiagonal
                before = (-r[i] - r_in[i] * before) / r_out[i]
                step[i] = before
            limit = 1.0 if count % 40 < 20 else 0.5
            g[1:] += limit * np.clip(step, -200.0, 200.0)
            if np.abs(step).max() < 1e-8:
                break
        else:
            raise RuntimeError("gas")
        self.guess = g
        self.evaluations += 1
        if not slopes:
            return g, box, q
        dt = 0.005
        t_in, t_out = g[:-1], g[1:]

        def local(change):
            up, down = change(dt), change(-dt)
            return [(a - b) / (2.0 * dt) for a, b in zip(up, down, strict=True)]

        by_in = local(lambda d: self.cells(m, burning, t_in + d, t_out, ts))
        by_out = local(lambda d: self.cells(m, burning, t_in, t_out + d, ts))
        by_wall = []
        for j in range(4):
            unit = np.zeros(4)
            unit[j] = 1.0
            by_wall.append(
                local(lambda d, unit=unit: self.cells(m, burning, t_in, t_out, ts + d * unit))
            )
        return g, box, q, by_in, by_out, by_wall

    def into_walls(self, box, q):
        out = np.zeros(self.walls.size)
        np.add.at(out, self.strip.ravel(), q.ravel())
        np.add.at(out, self.box_node, box["q"])
        return out

    def rhs(self, t, y, burning):
        _, box, q = self.gas_state(t, y, burning)
        return (self.walls.heat(y) + self.into_walls(box, q)) / self.walls.capacity

    def jacobian(self, t, y, burning):
        _, box, _, by_in, by_out, by_wall = self.gas_state(t, y, burning, slopes=True)
        nc, ns = len(self.strip), len(self.gas_node)
        # residuals of the gas balance on gas and on walls
        rg, rs = np.zeros((nc + 1, nc + 1)), np.zeros((nc + 1, ns))
        i = np.arange(nc)
        rg[0, 0] = box["slope"]
        rg[i + 1, i] = by_in[0]
        rg[i + 1, i + 1] = by_out[0]
        rs[0, self.box_place] = box["residual_on_ts"]
        for j in range(4):
            np.add.at(rs, (i + 1, self.strip_place[:, j]), by_wall[j][0])
        g_on_s = -solve_triangular(rg, rs, lower=True)
        # heat into the gas-side nodes on walls, gas eliminated
        s = np.zeros((ns, ns))
        s[np.ix_(self.box_place, self.box_place)] += box["q_on_ts"]
        s[self.box_place] += box["q_on_tf"][:, None] * g_on_s[0]
        q_on_g = np.zeros((ns, nc + 1))
        for j in range(4):
            np.add.at(q_on_g, (self.strip_place[:, j], i), by_in[1][:, j])
            np.add.at(q_on_g, (self.strip_place[:, j], i + 1), by_out[1][:, j])
            for k in range(4):
                at = (self.strip_place[:, k], self.strip_place[:, j])
                np.add.at(s, at, by_wall[j][1][:, k])
        s += q_on_g @ g_on_s
        s[np.abs(s) < 1e-7 * np.abs(s).max()] = 0.0
        rows, columns = np.nonzero(s)
        r, c, v = self.walls.triplets(y)
        r = np.concatenate((r, self.gas_node[rows]))
        c = np.concatenate((c, self.gas_node[columns]))
        v = np.concatenate((v, s[rows, columns])) / self.walls.capacity[r]
        return coo_array((v, (r, c)), shape=(len(y), len(y))).tocsc()

    # time

    def cold(self):
        y = np.full(self.walls.size, self.room)
        y[self.outdoor_nodes] = self.outdoor
        return y

    def powers(self, t, y, burning):
        """All powers of the balance, W."""
        m, air, _ = self.flow(t, burning)
        gas = self.gas if burning else self.air
        g, box, _ = self.gas_state(t, y, burning)
        rate = self.burn.rate(t) if burning else 0.0
        natural, film = self.walls.natural_loss(y), self.walls.film_loss(y)
        out = {
            "wood": rate * self.lhv,
            "air": air * self.air_h,
            "unburned": rate * self.lhv * self.unburned,
            "glass": box["glass"],
            "door": box["door"],
        }
        for kind in ("faces", "cap", "connector"):
            out[kind] = natural[self.walls.nat_kind == kind].sum()
        for kind in ("under", "chimney_indoors", "chimney_outdoors"):
            out[kind] = film[self.walls.film_kind == kind].sum()
        out["mouth"] = m * float(gas._h(g[-1]))
        out["stack"] = m * (float(gas._h(g[self.run_end[-1]])) - float(gas._h(self.room)))
        return out, g

    def pieces(self, y, end, dense=False):
        """The day in its two pieces."""
        out = []
        for start, stop, burning, first, largest in (
            (0.0, self.burn.duration, True, 1.0, 120.0),
            (self.burn.duration, end, False, 0.05, 1800.0),
        ):
            answer = solve_ivp(
                lambda t, z, burning=burning: self.rhs(t, z, burning),
                (start, stop),
                y,
                method="BDF",
                jac=lambda t, z, burning=burning: self.jacobian(t, z, burning),
                rtol=self.fine.rtol,
                atol=100.0 * self.fine.rtol,
                first_step=first,
                max_step=largest,
                dense_output=dense,
            )
            assert answer.success, answer.message
            y = answer.y[:, -1]
            out.append((burning, answer))
        return y, out

    def day(self, y0, end):
        """Energies and curves."""
        y1, pieces = self.pieces(y0, end, dense=True)
        nodes, weights = np.polynomial.legendre.leggauss(3)
        energy = {}
        for burning, answer in pieces:
            for a, b in zip(answer.t, answer.t[1:], strict=False):
                half = (b - a) / 2.0
                for x, w in zip(nodes, weights, strict=True):
                    t = (a + b) / 2.0 + half * x
                    for name, value in self.powers(t, answer.sol(t), burning)[0].items():
                        energy[name] = energy.get(name, 0.0) + w * half * value
        energy["stored"] = float(self.walls.capacity @ (y1 - y0))
        spent = (
            "unburned glass door faces cap under connector chimney_indoors chimney_outdoors "
            "mouth stored"
        ).split()
        balance = energy["wood"] + energy["air"] - sum(energy[x] for x in spent)
        times = set(np.arange(900.0, end + 1.0, 900.0))
        times |= set(np.arange(60.0, self.burn.duration, 60.0))
        times -= {self.burn.duration}
        curves = []
        for t in sorted(times):
            burning, answer = pieces[0] if t < self.burn.duration else pieces[1]
            y = answer.sol(t)
            p, g = self.powers(t, y, burning)
            row = {"firebox_gas_kelvin": g[0]}
            for i, at in enumerate(self.run_end):
                row[f"run.{i}.end_gas_kelvin"] = g[at]
            row["chimney_inlet_gas_kelvin"] = g[self.connector_end]
            row["mouth_gas_kelvin"] = g[-1]
            row["hottest_run_face_kelvin"] = max(y[x].max() for x in self.run_faces)
            row["firebox_face_kelvin"] = y[self.box_face]
            row["room_heat_watts"] = p["glass"] + p["door"] + p["faces"] + p["cap"]
            for i, b in enumerate(self.baffles):
                row[f"baffle.{i}.lower_face_kelvin"] = y[b[:, 0]].mean()
                row[f"baffle.{i}.upper_face_kelvin"] = y[b[:, -1]].mean()
            curves.append((float(t), row))
        steps = [len(a.t) - 1 for _, a in pieces]
        return {"energy": energy, "balance": balance, "curves": curves, "steps": steps, "end": y1}

    def repeat(self, y, tolerance=0.001, log=None):
        """Periodic state by Anderson's acceleration of the map over one period."""
        xs, fs = [], []
        for count in range(40):
            image = self.pieces(y, WINDOW[PERIODIC])[0]
            miss = image - y
            if log:
                log(f"  period {count}: {np.abs(miss).max():.5f} K")
            if np.abs(miss).max() < tolerance:
                return y, np.abs(miss).max()
            xs.append(y)
            fs.append(miss)
            xs, fs = xs[-8:], fs[-8:]
            y = image
            if len(xs) > 1:
                df = np.array([fs[-1] - f for f in fs[:-1]]).T
                dx = np.array([xs[-1] - x for x in xs[:-1]]).T
                weight = np.sqrt(self.walls.capacity)[:, None]
                gamma = np.linalg.lstsq(df * weight, miss * weight[:, 0], rcond=1e-10)[0]
                y = image - (dx + df) @ gamma
        raise RuntimeError("no periodic state")


# ---------------------------------------------------------------------- output


def load(name):
    design = json.loads((DESIGNS / f"{name}.json").read_text(encoding="utf-8"))
    day = json.loads((DESIGNS / f"{name}.day.json").read_text(encoding="utf-8"))["day"]
    return design, day


def names():
    return sorted(
        p.stem for p in DESIGNS.glob("*.json") if not p.name.endswith(".day.json")
    )


def evaluate(job):
    name, fine, states = job
    log = lambda text: print(f"{name} {text}", file=sys.stderr, flush=True)  # noqa: E731
    heater = Heater(*load(name), fine)
    out = {}
    for state in states:
        begun = clock.perf_counter()
        y = heater.cold()
        repeated = 0.0
        if state == PERIODIC:
            y, repeated = heater.repeat(y, log=log)
        result = heater.day(y, WINDOW[state])
        result["repeated"] = repeated
        out[state] = result
        log(
            f"{state}: {heater.walls.size} nodes, steps {result['steps']}, balance "
            f"{result['balance']:.3f} J = {result['balance'] / result['energy']['wood']:.2e} "
            f"of wood, repeats within {repeated:.5f} K, {clock.perf_counter() - begun:.1f} s"
        )
    return name, out


def rows(name, out):
    for state, result in out.items():
        for figure, value in result["energy"].items():
            yield f"{name},{state},{figure}_joules,{WINDOW[state]:.0f},{value:.8g}"
        yield f"{name},{state},residual_joules,{WINDOW[state]:.0f},{result['balance']:.3g}"
        for t, row in result["curves"]:
            # Every half hour, and every ten minutes of the first two hours, are enough to compare.
            if t % 1800.0 > 0.0 and (t > 7200.0 or t % 600.0 > 0.0):
                continue
            for figure, value in row.items():
                yield f"{name},{state},{figure},{t:.0f},{value:.7g}"


def table(fine, write):
    digest = hashlib.sha256(Path(__file__).read_bytes()).hexdigest()
    packages = ["CoolProp", "cantera", "fluids", "ht", "numpy", "scipy"]
    lines = [
        f"# script-sha256: {digest}",
        "# made with: " + ", ".join(f"{n} {version(n)}" for n in packages),
        f"# {fine.cells} cells per run, {fine.flue} along the chimney; energies over the "
        "window that ends at time_s",
        "design,state,figure,time_s,value",
    ]
    with Pool(2) as pool:
        for name, out in pool.imap(evaluate, [(n, fine, (FIRST, PERIODIC)) for n in names()]):
            lines += rows(name, out)
            if write:
                TABLE.write_text("\n".join(lines) + "\n", encoding="utf-8", newline="\n")
    return lines


def verify():
    """Limits and exact solutions; raises when one is missed."""
    # Nusselt number and emissivity against the pieces they repeat
    worst = 0.0
    for s, entrance in (
        (im.Section("rectangular", 0.22, 0.18, 0.003), 0.9),
        (im.Section("round", 0.15, 0.15, 0.0015), 5.0),
    ):
        ducts = Ducts([s], [entrance], [1.0])
        for re in (10.0, 500.0, 2300.0, 3000.0, 4000.0, 9000.0, 3e4):
            for pr in (0.65, 0.75):
                mine, other = ducts.nusselt(re, pr)[0], s.nusselt(re, pr, entrance)
                worst = max(worst, abs(mine / other - 1.0))
    print(f"Nusselt number: {worst:.1e}")
    assert worst < 1e-9
    worst = 0.0
    for t in (300.0, 600.0, 699.0, 720.0, 760.0, 1200.0):
        for beam in (0.1, 0.18, 0.4):
            mine = float(leckner(np.array([t]), 0.08, 0.09, beam, 1.0)[0])
            worst = max(worst, abs(mine / im.emissivity(t, 0.08, 0.09, beam, 1.0) - 1.0))
    print(f"emissivity: {worst:.1e}")
    assert worst < 1e-9

    def run(walls, y, heat, end, rtol=1e-8):
        def rhs(_, z):
            q = walls.heat(z)
            np.add.at(q, heat[0], heat[1](z))
            return q / walls.capacity

        answer = solve_ivp(rhs, (0.0, end), y, method="BDF", rtol=rtol, atol=1e-6)
        return answer.y[:, -1]

    # constant flux, semi-infinite
    k, rho, c = MATERIALS["fireclay"]
    for scale in (1.0, 0.5):
        walls = Walls()
        walls.add([Layer((k, rho, c), graded(0.4, True, False, scale))], 1.0)
        walls.close(300.0)
        for end in (60.0, 900.0, 3600.0):
            y = run(walls, np.full(walls.size, 300.0), ([0], lambda z: [5000.0]), end)
            exact = 5000.0 * im.semi_infinite((k, rho, c), end)
            off = (y[0] - 300.0) / exact - 1.0
            print(f"semi-infinite, flux, {end:.0f} s, scale {scale}: {off:.1e}")
    # convection to a semi-infinite solid
    h = 60.0
    for end in (60.0, 900.0, 3600.0):
        y = run(walls, np.full(walls.size, 300.0), ([0], lambda z: [h * (900.0 - z[0])]), end)
        a = h * math.sqrt(end / (k * rho * c))
        exact = 600.0 * (1.0 - math.exp(a * a) * erfc(a))
        print(f"semi-infinite, film, {end:.0f} s, scale 0.5: {(y[0] - 300) / exact - 1:.1e}")
    # finite slab, both faces adiabatic but for the flux
    walls = Walls()
    walls.add([Layer((k, rho, c), graded(0.064, True, True, 1.0))], 1.0)
    walls.close(300.0)
    both = ([0, walls.size - 1], lambda z: [3000.0, 3000.0])
    y = run(walls, np.full(walls.size, 300.0), both, 1800.0)
    exact = 3000.0 * im.slab((k, rho, c), 1800.0, 0.032)
    print(f"slab: {(y[0] - 300) / exact - 1:.1e}")
    # steady wall with gap or wide space, area growth and outer surface
    for space, ratio, outside in ((0.006, 1.4, 1.4), (0.15, 1.4, 1.7)):
        walls = Walls()
        face = [
            Layer((k, rho, c), graded(0.114, True, False, 1.0), 1.0, ratio),
            GAP,
            Layer(MATERIALS["common_brick"], graded(0.1, True, True, 1.0), outside, outside),
        ]
        walls.add(face, 1.0, 1, (space, 0.9, ratio))
        walls.natural.append((walls.size - 1, outside, "faces"))
        walls.close(293.15)
        y = run(walls, np.full(walls.size, 293.15), ([0], lambda z: [500.0]), 5e7)
        outer = y[-1]
        rise = outer - 293.15
        lost = outside * (0.9 * SIGMA * (outer**4 - 293.15**4) + 1.31 * rise ** (4 / 3))
        inner_facing = outer + 500.0 / outside * 0.1 / 0.78
        low, high = inner_facing, inner_facing + 400.0
        for _ in range(60):
            t = (low + high) / 2.0
            mean = (t + inner_facing) / 2.0
            air = max(im.air_gas().k(mean) / space, 0.73 * max(t - inner_facing, 5.0) ** (1 / 3))
            g = air + 4 * SIGMA * mean**3 / (2 / 0.9 - 1)
            low, high = (t, high) if ratio * g * (t - inner_facing) < 500.0 else (low, t)
        inner = t + 500.0 / 1.05 * 0.114 * math.log(ratio) / (ratio - 1.0)
        print(f"steady wall: loss {lost / 500 - 1:.1e}, inner {y[0]:.5f} K, exact {inner:.5f} K")
    # steady chimney wall: tile and wool round a flue
    walls = Walls()
    r0, r1, r2 = 0.075, 0.095, 0.135
    tile = MATERIALS["clay_tile"]
    layers = [
        Layer(tile, graded(r1 - r0, True, True, 1.0), 1.0, r1 / r0),
        Layer(WOOL, graded(r2 - r1, False, False, 1.0), r1 / r0, r2 / r0),
    ]
    walls.add(layers, 1.0)
    walls.film.append((walls.size - 1, r2 / r0, 8.0, 300.0, "chimney_indoors"))
    walls.close(300.0)
    y = run(walls, np.full(walls.size, 300.0), ([0], lambda z: [100.0]), 1e7)
    exact = r0 * math.log(r1 / r0) / tile[0] + r0 * math.log(r2 / r1) / WOOL[0] + r0 / (r2 * 8.0)
    print(f"steady cylinder: {(y[0] - 300.0) / (100.0 * exact) - 1.0:.1e}")
    # gas through a run with walls at one temperature, against independent_model.March
    design, day = load(names()[0])
    for cells in (6, 12, 24):
        heater = Heater(design, day, Fineness(cells=cells))
        y = np.full(heater.walls.size, 450.0)
        for t in (1500.0, 4080.0):
            g, _, _ = heater.gas_state(t, y, True)
            other = SimpleNamespace(
                gas=heater.gas,
                flow=heater.flow(t, True)[0],
                inner_emissivity=heater.eps,
                p_w=heater.gas.x["H2O"] * heater.bar,
                p_c=heater.gas.x["CO2"] * heater.bar,
                bar=heater.bar,
                p=heater.bar * 1e5,
            )
            path = design["path"]
            s = im.Section(
                "rectangular", path["run_width_m"], path["run_height_m"], path["roughness_m"]
            )
            length = path["run_length_m"]
            held = [(1.0, lambda tw: 1e7 * (tw - 450.0), 450.0)]
            out = g[0]
            for i, at in enumerate(heater.run_end):
                out = im.March(other, s, length, length, held).run(out, 20)["out"]
                print(f"gas, {cells} cells, {t:.0f} s, run {i}: {g[at]:.4f} K, march {out:.4f} K")
    # nothing burns, outdoors as warm as the room: nothing happens
    design, day = load(names()[0])
    design["site"]["outdoor_celsius"] = design["site"]["room_celsius"]
    design["fire"]["charge_kg"] = 1e-12
    heater = Heater(design, day, Fineness(cells=6))
    result = heater.day(heater.cold(), 86400.0)
    worst = max(
        abs(v - heater.room) for _, r in result["curves"] for k, v in r.items() if "kelvin" in k
    )
    print(f"no fire: {worst:.1e} K")
    assert worst < 1e-4
    # Jacobian against differences
    design, day = load(names()[0])
    heater = Heater(design, day, Fineness(cells=3, flue=4, scale=3.0))
    y = heater.pieces(heater.cold(), 6000.0)[0]
    for t, burning in ((1500.0, True), (5000.0, False)):
        j = heater.jacobian(t, y, burning).toarray()
        worst = 0.0
        for i in range(len(y)):
            step = np.zeros(len(y))
            step[i] = 0.02
            d = heater.rhs(t, y + step, burning) - heater.rhs(t, y - step, burning)
            worst = max(worst, np.abs(d / 0.04 - j[:, i]).max() / np.abs(j[:, i]).max())
        print(f"Jacobian, burning {burning}: {worst:.1e}")
        assert worst < 1e-3


def compare(a, b, base):
    """Largest differences between two results."""
    worst = {}
    for figure, value in b["energy"].items():
        worst[figure] = (a["energy"][figure] - value) / base
    lines = ["  energies, share of wood: " + ", ".join(f"{k} {v:+.1e}" for k, v in worst.items())]
    peak = {}
    for (t, x), (_, y) in zip(a["curves"], b["curves"], strict=True):
        for figure, value in y.items():
            d = x[figure] - value
            if abs(d) > abs(peak.get(figure, (0.0, 0.0))[0]):
                peak[figure] = (d, t)
    lines.append("  curves: " + ", ".join(f"{k} {d:+.2f} at {t:.0f}" for k, (d, t) in peak.items()))
    return "\n".join(lines)


def main():
    arguments = sys.argv[1:]
    if arguments[:1] == ["--verify"]:
        verify()
    elif arguments[:1] == ["--check"]:
        old = TABLE.read_text(encoding="utf-8").splitlines()
        new = table(Fineness(), False)
        assert len(old) == len(new), "number of rows"
        assert old[:4] == new[:4], "script or library versions"
        for a, b in zip(old[4:], new[4:], strict=True):
            (name, x), (other, y) = a.rsplit(",", 1), b.rsplit(",", 1)
            assert name == other, f"{a} | {b}"
            near = math.isclose(float(x), float(y), rel_tol=1e-4, abs_tol=0.05)
            small = "residual" in name or "stored" in name
            assert near or (small and abs(float(x) - float(y)) < 2e3), f"{a} | {b}"
        print("agrees")
    elif arguments[:1] == ["--converge"]:
        name = arguments[1]
        states = tuple(arguments[2:]) or (FIRST,)
        jobs = [
            (name, f, states)
            for f in (
                Fineness(),
                Fineness(cells=6),
                Fineness(scale=1.0),
                Fineness(flue=8),
                Fineness(rtol=1e-6),
            )
        ]
        with Pool(2) as pool:
            results = pool.map(evaluate, jobs, chunksize=1)
        for state in states:
            best = results[0][1][state]
            labels = ("cells halved", "wall steps doubled", "flue cells halved", "rtol 1e-6")
            for label, (_, out) in zip(labels, results[1:], strict=True):
                print(f"{name} {state}: {label}")
                print(compare(out[state], best, best["energy"]["wood"]))
    elif arguments:
        states = tuple(arguments[1:]) or (FIRST, PERIODIC)
        for state, result in evaluate((arguments[0], Fineness(), states))[1].items():
            for figure, value in result["energy"].items():
                print(f"{state} {figure} {value:.8g}")
    else:
        TABLE.parent.mkdir(exist_ok=True)
        print(f"{len(table(Fineness(), True)) - 4} figures")


if __name__ == "__main__":
    main()
