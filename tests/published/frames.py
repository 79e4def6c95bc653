"""A bookcase as a frame of bars by finite elements: a thin hand on PyNite."""

from __future__ import annotations

from functools import cache

from Pynite import FEModel3D

LOOSE_SHEAR_MPA = 1e9
"""So stiff in shear that only bending is left, as thin plates have it."""


@cache
def sag_mm(
    span_mm: float, depth_mm: float, thickness_mm: float, height_mm: float, at_mm: float,
    even_n: float, stiffness_mpa: float,
) -> float:  # fmt: skip
    """The sag of a shelf hinged to two sides that stand fast, by the boards' middles [mm]."""
    model = FEModel3D()
    model.add_material("wood", stiffness_mpa, LOOSE_SHEAR_MPA, 0.3, 0.0)
    area, second = depth_mm * thickness_mm, depth_mm * thickness_mm**3 / 12.0
    model.add_section("board", area, second, second, 2.0 * second)
    for side, x in (("L", 0.0), ("R", span_mm)):
        model.add_node(f"{side}0", x, 0.0, 0.0)
        model.add_node(f"{side}1", x, at_mm, 0.0)
        model.add_node(f"{side}2", x, height_mm, 0.0)
        model.def_support(f"{side}0", *(True,) * 6)
        model.add_member(f"{side}a", f"{side}0", f"{side}1", "wood", "board")
        model.add_member(f"{side}b", f"{side}1", f"{side}2", "wood", "board")
    model.add_member("shelf", "L1", "R1", "wood", "board")
    model.def_releases("shelf", Rzi=True, Rzj=True)
    load = -even_n / span_mm
    model.add_member_dist_load("shelf", "FY", load, load, 0.0, span_mm)
    model.analyze(check_statics=False)
    ends = (float(model.nodes["L1"].DY["Combo 1"]) + float(model.nodes["R1"].DY["Combo 1"])) / 2.0
    return ends - float(model.members["shelf"].deflection("dy", span_mm / 2.0))
