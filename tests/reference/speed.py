#!/usr/bin/env python3
"""Our times beside those of the two independent models, at equal accuracy, in one run.

    speed.py OURS.json      what `cargo bench --bench reference` has just printed

- Height of the fire: one analysis with all its natural flows. Both agree within the tolerances
  of tests/independent.rs; the Python model marches six cells a run where it seeks a flow.
- Day: a single firing from cold and the day that repeats. The error is the largest of all
  energies over the heat of the wood against tables/day.csv, which the Python model made on fine
  walls. It is run ever finer until it is as near to that as ours, and only then compared: a
  favor to it, since the table is its own.
"""

import csv
import json
import sys
import time
from pathlib import Path

import independent_day as day
import independent_model as height

LADDER = (
    day.Fineness(cells=3, flue=4, scale=3.0, rtol=1e-3),
    day.Fineness(cells=6, flue=8, scale=2.0, rtol=1e-4),
    day.Fineness(cells=6, flue=8, scale=1.0, rtol=1e-5),
    day.Fineness(cells=12, flue=16, scale=1.0, rtol=1e-6),
)


def timed(call):
    begun = time.perf_counter()
    return call(), time.perf_counter() - begun


def table():
    """Energies (J) by design, state and figure."""
    with day.TABLE.open(encoding="utf-8") as file:
        rows = csv.DictReader(line for line in file if not line.startswith("#"))
        return {
            (row["design"], row["state"], row["figure"]): float(row["value"])
            for row in rows
            if row["figure"].endswith("_joules")
        }


def error(energies, name, expected):
    """Largest deviation of an energy over the heat of the wood."""
    worst = 0.0
    for (design, state, figure), value in expected.items():
        found = energies[state].get(figure) if design == name else None
        if found is not None:
            wood = expected[name, state, "wood_joules"]
            worst = max(worst, abs(found - value) / wood)
    return worst


def main():
    ours = json.loads(Path(sys.argv[1]).read_text(encoding="utf-8"))
    ratios = []
    for name, seconds in sorted(ours["height_of_fire"].items()):
        path = height.DESIGNS / f"{name}.json"
        theirs = timed(lambda path=path: height.evaluate(path))[1]
        ratios.append(theirs / seconds)
        print(f"{name}: {1e3 * seconds:.2f} ms, Python {theirs:.2f} s, {ratios[-1]:.0f} times")
    print(f"height of the fire with its flows: {min(ratios):.0f} to {max(ratios):.0f} times")
    expected = table()
    for name, mine in ours["day"].items():
        own = error(mine["energy"], name, expected)
        for fine in LADDER:
            states = (day.FIRST, day.PERIODIC)
            try:
                (_, out), theirs = timed(lambda fine=fine: day.evaluate((name, fine, states)))
            except RuntimeError as failure:
                print(f"{name}, {fine.cells} cells a run: {failure}")
                continue
            energies = {
                state: {f"{figure}_joules": value for figure, value in found["energy"].items()}
                for state, found in out.items()
            }
            other = error(energies, name, expected)
            print(
                f"{name}: {1e3 * mine['seconds']:.1f} ms within {own:.2%} of the wood, "
                f"Python {theirs:.1f} s within {other:.2%}, {theirs / mine['seconds']:.0f} times",
                flush=True,
            )
            if other <= own:
                break
        else:
            print(f"{name}: no rung is as near as ours")
    if ours["most_memory_kilobytes"]:
        print(f"memory of our program at most {ours['most_memory_kilobytes'] / 1e3:.1f} MB")


if __name__ == "__main__":
    main()
