"""Face of a wall of the house across a gap from the back of a heater.

    wall_behind.py           write tables/wall_behind.csv beside this file

Two answers to the same question, neither from Longsmoke's code:

* `wall_k`, `flux_w_per_m2`: the balance that the program states (films of 3.5 W/m2K, air 10 K
  above the room, midway to the back, or shut in), written as radiosities of two gray plates and
  solved by SciPy's Brent.
* `wall_correlation_k`: the same wall with films from ht's correlations instead: Churchill and Chu
  on plates 2 m high in air of 30 C where it flows, Thess's tall closed cavity of 0.1 m where it is
  shut in. Empty where the air flows poorly, for which there is no correlation.
"""

import hashlib
from importlib.metadata import version
from pathlib import Path

import numpy as np
from ht import Nu_Nusselt_vertical_Thess, Nu_vertical_plate_Churchill
from scipy.optimize import brentq

HERE = Path(__file__).resolve().parent
SIGMA = 5.670374419e-8
EMISSIVITY = 0.9
FILM = 3.5
RISE = 10.0
ROOM = 293.15
HEIGHT = 2.0
GAP = 0.1
PRANDTL = 0.71


def radiation(hot: float, cold: float) -> float:
    """Net flux between gray parallel plates (W/m2) from their radiosities."""
    e, r = EMISSIVITY, 1.0 - EMISSIVITY
    matrix = np.array([[1.0, -r], [-r, 1.0]])
    j = np.linalg.solve(matrix, e * SIGMA * np.array([hot**4, cold**4]))
    return float(j[0] - j[1])


def air(t: float) -> tuple[float, float]:
    """Kinematic viscosity (m2/s) and conductivity (W/mK) of air at sea level, Sutherland."""
    mu = 18.27e-6 * (291.15 + 120.0) / (t + 120.0) * (t / 291.15) ** 1.5
    return mu * 287.05 * t / 101325.0, mu * 1007.0 / PRANDTL


def plate_film(face: float, fluid: float) -> float:
    mean = 0.5 * (face + fluid)
    nu, k = air(mean)
    grashof = 9.80665 / mean * abs(face - fluid) * HEIGHT**3 / nu**2
    return Nu_vertical_plate_Churchill(PRANDTL, max(grashof, 1e-9)) * k / HEIGHT


def cavity_film(hot: float, cold: float) -> float:
    mean = 0.5 * (hot + cold)
    nu, k = air(mean)
    grashof = 9.80665 / mean * max(hot - cold, 1e-6) * GAP**3 / nu**2
    return Nu_Nusselt_vertical_Thess(PRANDTL, grashof, H=HEIGHT, L=GAP) * k / GAP


def free_air(back: float) -> float:
    return ROOM + min(RISE, 0.5 * (back - ROOM))


def stated(back: float, state: str, resistance: float, beyond: float) -> tuple[float, float]:
    def air_at(wall: float) -> float:
        return {
            "flowing": free_air(back),
            "poor": 0.5 * (free_air(back) + back),
            "blocked": 0.5 * (wall + back),
        }[state]

    def surplus(wall: float) -> float:
        gained = radiation(back, wall) + FILM * (air_at(wall) - wall)
        return gained - (wall - beyond) / resistance

    wall = brentq(surplus, 200.0, back + 50.0, xtol=1e-10)
    return wall, radiation(back, wall) + FILM * (back - air_at(wall))


def correlated(back: float, state: str, resistance: float, beyond: float) -> float | None:
    if state == "poor":
        return None

    def surplus(wall: float) -> float:
        if state == "flowing":
            fluid = free_air(back)
            convected = plate_film(wall, fluid) * (fluid - wall)
        else:
            convected = cavity_film(max(back, wall), min(back, wall)) * (back - wall)
        return radiation(back, wall) + convected - (wall - beyond) / resistance

    return brentq(surplus, 200.0, back + 50.0, xtol=1e-10)


def main() -> None:
    script_hash = hashlib.sha256(Path(__file__).read_bytes()).hexdigest()
    libraries = ", ".join(f"{name} {version(name)}" for name in ("scipy", "numpy", "ht"))
    lines = [
        f"# script-sha256: {script_hash}",
        f"# {libraries}",
        "air,back_k,resistance_m2k_per_w,beyond_k,wall_k,flux_w_per_m2,wall_correlation_k",
    ]
    for state in ("flowing", "poor", "blocked"):
        for back in (300.0, 330.0, 358.15, 383.15, 420.0):
            for resistance, beyond in ((4.0, ROOM), (2.5, 257.15), (0.44, ROOM)):
                wall, flux = stated(back, state, resistance, beyond)
                other = correlated(back, state, resistance, beyond)
                text = "" if other is None else f"{other:.10g}"
                lines.append(
                    f"{state},{back:.10g},{resistance:.10g},{beyond:.10g},{wall:.10g},"
                    f"{flux:.10g},{text}"
                )
    (HERE / "tables" / "wall_behind.csv").write_text("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
