"""Beams by finite elements: a thin hand on PyNite, used only as a judge of our own beams."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from Pynite import FEModel3D

from furniture.checks.beams import Support
from furniture.checks.sections import Rectangle

E_GPA = 10.0
LOOSE_SHEAR_GPA = 1e6
"""So stiff in shear that only bending is left, as our formulas have it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """A beam of stretches end to end, with point loads and even loads [N, mm]."""

    support: Support
    stretches: tuple[tuple[float, Rectangle], ...]
    points: tuple[tuple[float, float], ...] = ()
    even_n: float = 0.0


@cache
def solved(frame: Frame) -> FEModel3D:
    """The solved model."""
    model = FEModel3D()
    model.add_material("wood", E_GPA * 1000.0, LOOSE_SHEAR_GPA * 1000.0, 0.3, 0.0)
    places = [0.0]
    for length, _ in frame.stretches:
        places.append(places[-1] + length)
    for index, place in enumerate(places):
        model.add_node(f"N{index}", place, 0.0, 0.0)
    for index, (length, section) in enumerate(frame.stretches):
        name = f"M{index}"
        area, second = section.area_mm2, section.second_moment_mm4
        model.add_section(name, area, second, second, 2.0 * second)
        model.add_member(name, f"N{index}", f"N{index + 1}", "wood", name)
        if frame.even_n:
            load = -frame.even_n / places[-1]
            model.add_member_dist_load(name, "FY", load, load, 0.0, length)
        for at, force in frame.points:
            low, high = places[index], places[index + 1]
            if low <= at < high or (at == high == places[-1]):
                model.add_member_pt_load(name, "FY", -force, at - low)
    last = f"N{len(places) - 1}"
    held = (True,) * 6
    if frame.support is Support.CANTILEVER:
        model.def_support("N0", *held)
    elif frame.support is Support.FIXED:
        model.def_support("N0", *held)
        model.def_support(last, *held)
    else:
        model.def_support("N0", True, True, True, True, False, False)
        model.def_support(last, False, True, True, False, False, False)
    model.analyze(check_statics=False)
    return model


def deflection_mm(frame: Frame, at_mm: float) -> float:
    """The deflection downward at a place [mm]."""
    name, x = _member(frame, at_mm)
    return -float(solved(frame).members[name].deflection("dy", x))


def moment_nmm(frame: Frame, at_mm: float) -> float:
    """The size of the bending moment at a place [N mm]."""
    name, x = _member(frame, at_mm)
    return abs(float(solved(frame).members[name].moment("Mz", x)))


def _member(frame: Frame, at_mm: float) -> tuple[str, float]:
    start = 0.0
    for index, (length, _) in enumerate(frame.stretches):
        if at_mm <= start + length:
            return f"M{index}", at_mm - start
        start += length
    raise ValueError(f"{at_mm} mm is past the end")
