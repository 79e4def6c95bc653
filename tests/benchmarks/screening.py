"""Screening a design by its statics: stated loads alone, rigid parts, no solid kernel."""

from __future__ import annotations

import importlib
import sys
import time

from furniture.structure import Held, cases_of, frame_of, held_in, masses_by_cuts

DESIGNS = (("herb_stand", "stand"), ("yarn_steps", "stand"), ("tea_box", "box"))
ASKED_S = 0.06
"""What a screening may take [s], stated for the herb stand."""


def screened(piece) -> Held:
    """What holds a piece under its stated loads: the one case that screens a variant."""
    frame = frame_of(piece, masses_by_cuts(piece))
    cases = cases_of(piece, frame)
    return held_in(frame, cases[min(1, len(cases) - 1)])


def main(arguments: list[str]) -> int:
    """Print how long screening takes, the least of several runs; 1 where the kernel was loaded."""
    runs = int(arguments[0]) if arguments else 7
    for module, name in DESIGNS:
        design = getattr(importlib.import_module(f"models.{module}"), name, None)
        if design is None:
            continue
        piece = design.build()
        times = []
        for _ in range(runs):
            start = time.perf_counter()
            held = screened(piece)
            times.append(time.perf_counter() - start)
        told = "held" if held.is_held else "not held"
        print(f"{module}: {min(times):.3f} s, asked {ASKED_S} s; {told}, {held.factor:.3g} times")
    loaded = sorted({"cadquery", "OCP"} & sys.modules.keys())
    print("no solid kernel was loaded" if not loaded else f"loaded: {', '.join(loaded)}")
    return 1 if loaded else 0
