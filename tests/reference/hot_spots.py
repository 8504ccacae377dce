"""The middle of a face of a firebox, plane and in two dimensions.

    hot_spots.py             print the table below

Level section of a firebox: a rectangular hole with core, gap and facing around it, one quarter of
it by symmetry. Linear: fixed conductivities, films and a fixed conductance of the gap, driven by a
gas whose temperature is a mean and two harmonics of a period of 12 hours. So each harmonic is a
linear system of its own, solved at once, with no steps of time and nothing from Longsmoke's code:

* `plane`: one area all through, by transfer matrices as in EN ISO 13786.
* `middle`: finite volumes in two dimensions, at the middle of the wider side, which is the hotter
  one; `corner` is the corner of the outside, `mean` the mean of the outside.

Peaks over a period, in degrees C, of the outer face and of the inner side of the facing.

    width depth  cell  face: plane middle   mean  corner  facing: plane middle
    0.420 0.360 0.012        93.19  86.28  66.22   35.82        199.59 188.79
    0.420 0.360 0.006        93.19  86.35  66.27   35.38        199.59 189.05
    1.600 1.600 0.012        93.19  93.07  81.96   35.98        199.59 199.33
"""

import numpy as np
from scipy.sparse import csc_matrix
from scipy.sparse.linalg import spsolve

PERIOD = 43200.0
ROOM = 20.0
# Gas: mean, and amplitudes of cosines of one and of two periods (C).
GAS = (300.0, 250.0, 120.0)
INSIDE, OUTSIDE, GAP = 25.0, 9.0, 11.0  # W/m2K
CORE = (0.114, 1.05, 2150.0 * 956.0)  # thickness, conductivity, heat capacity per volume
FACING = (0.115, 0.78, 1760.0 * 800.0)
GAP_WIDTH = 0.006


def omega(harmonic: int) -> float:
    return 2.0 * np.pi * harmonic / PERIOD


def layer(of, harmonic: int):
    """Matrix from temperature and flux at one side of a layer to those at the other."""
    thickness, k, c = of
    if harmonic == 0:
        return np.array([[1.0, -thickness / k], [0.0, 1.0]], dtype=complex)
    g = np.sqrt(1j * omega(harmonic) * c / k)
    x = g * thickness
    return np.array([[np.cosh(x), -np.sinh(x) / (k * g)], [-k * g * np.sinh(x), np.cosh(x)]])


def film(h: float):
    return np.array([[1.0, -1.0 / h], [0.0, 1.0]], dtype=complex)


def plane(harmonic: int):
    """Outer face and inner side of the facing, per degree of the gas above the room."""
    to_facing = film(GAP) @ layer(CORE, harmonic) @ film(INSIDE)
    to_face = layer(FACING, harmonic) @ to_facing
    whole = film(OUTSIDE) @ to_face
    flux = -whole[0, 0] / whole[0, 1]
    return [(m @ np.array([1.0, flux]))[0] for m in (to_face, to_facing)]


def axis(half: float, cell: float):
    """Widths of cells from the middle outward, with what they would be of."""
    parts = [("hole", half), ("core", CORE[0]), ("gap", GAP_WIDTH), ("facing", FACING[0])]
    widths, names = [], []
    for name, width in parts:
        n = 1 if name == "gap" else max(1, round(width / cell))
        widths += [width / n] * n
        names += [name] * n
    return np.array(widths), names


class Section:
    def __init__(self, width: float, depth: float, cell: float):
        order = ["hole", "core", "gap", "facing"]
        k = {"core": CORE[1], "gap": GAP * GAP_WIDTH, "facing": FACING[1]}
        c = {"core": CORE[2], "gap": 0.0, "facing": FACING[2]}
        (dx, tx), (dy, ty) = axis(width / 2, cell), axis(depth / 2, cell)
        self.of = lambda i, j: order[max(order.index(tx[i]), order.index(ty[j]))]
        cells = [(i, j) for i in range(len(dx)) for j in range(len(dy)) if self.of(i, j) != "hole"]
        self.index = {at: n for n, at in enumerate(cells)}
        self.capacity = np.array([c[self.of(i, j)] * dx[i] * dy[j] for i, j in cells])
        rows, columns, values = [], [], []
        self.diagonal = np.zeros(len(cells))
        self.right = np.zeros(len(cells))
        self.outer = []

        def link(a, b, g):
            for one, other in ((a, b), (b, a)):
                self.diagonal[one] += g
                rows.append(one), columns.append(other), values.append(-g)

        for i in range(len(dx)):
            for j in range(len(dy)):
                for di, dj in ((1, 0), (0, 1)):
                    face, here = (dy[j], dx[i]) if di else (dx[i], dy[j])
                    a = self.index.get((i, j))
                    if i + di == len(dx) or j + dj == len(dy):
                        g = face / (0.5 * here / k["facing"] + 1.0 / OUTSIDE)
                        self.diagonal[a] += g
                        self.outer.append((a, face, g / face / OUTSIDE, (i, j, di)))
                        continue
                    b = self.index.get((i + di, j + dj))
                    there = dx[i + 1] if di else dy[j + 1]
                    if a is not None and b is not None:
                        halves = 0.5 * here / k[self.of(i, j)]
                        halves += 0.5 * there / k[self.of(i + di, j + dj)]
                        link(a, b, face / halves)
                    elif b is not None:
                        g = face / (1.0 / INSIDE + 0.5 * there / k["core"])
                        self.diagonal[b] += g
                        self.right[b] += g
        n = len(cells)
        self.links = csc_matrix((values, (rows, columns)), shape=(n, n))
        self.dx, self.tx = dx, tx

    def solve(self, harmonic: int):
        d = self.diagonal + 1j * omega(harmonic) * self.capacity
        n = len(d)
        matrix = self.links + csc_matrix((d, (range(n), range(n))), shape=(n, n))
        t = spsolve(matrix, self.right.astype(complex))
        faces = np.array([t[a] * share for a, _, share, _ in self.outer])
        widths = np.array([face for _, face, _, _ in self.outer])
        # The wider side lies along x: its middle is at i = 0 on the outside of y.
        middle = next(f for f, o in zip(faces, self.outer) if o[3][0] == 0 and not o[3][2])
        # The corner belongs to the last cell of either side.
        corner = faces[-1]
        j = next(j for (i, j) in sorted(self.index) if i == 0 and self.of(0, j) == "facing")
        # From the first node of the facing back to its inner side.
        one, two = t[self.index[0, j]], t[self.index[0, j + 1]]
        return [middle, (faces * widths).sum() / widths.sum(), corner, one + 0.5 * (one - two)]


def peaks(parts) -> list[float]:
    """Largest of mean and harmonics over a period, for each of several spots."""
    time = np.linspace(0.0, PERIOD, 8641)
    found = []
    for spot in range(len(parts[0])):
        excess = (GAS[0] - ROOM) * parts[0][spot].real
        for n in (1, 2):
            excess = excess + (GAS[n] * parts[n][spot] * np.exp(1j * omega(n) * time)).real
        found.append(ROOM + excess.max())
    return found


def main() -> None:
    face, facing = peaks([plane(n) for n in range(3)])
    print("width depth  cell  face: plane middle   mean  corner  facing: plane middle")
    for width, depth, cell in [(0.42, 0.36, 0.012), (0.42, 0.36, 0.006), (1.6, 1.6, 0.012)]:
        section = Section(width, depth, cell)
        middle, mean, corner, inner = peaks([section.solve(n) for n in range(3)])
        print(
            f"{width:.3f} {depth:.3f} {cell:.3f}       {face:6.2f} {middle:6.2f} {mean:6.2f} "
            f"{corner:7.2f}        {facing:6.2f} {inner:6.2f}"
        )


if __name__ == "__main__":
    main()
