"""What the random pairs are made of: lengths, fits, the expected figures, and turning a pair."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from hypothesis import strategies as st

from furniture.joints import EASY, PRESS, SLIP, Fit, Joint, own_fit
from furniture.parts.part import Placed
from furniture.parts.placement import Placement
from furniture.parts.vectors import Vector, add, cross, dot, scaled

X: Vector = (1.0, 0.0, 0.0)
Y: Vector = (0.0, 1.0, 0.0)
Z: Vector = (0.0, 0.0, 1.0)
LEFTWARDS: Vector = (-1.0, 0.0, 0.0)
DOWNWARDS: Vector = (0.0, 0.0, -1.0)
FORWARDS: Vector = (0.0, -1.0, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A joint between two parts as they stand, and what must come of it [mm, mm3].

    `towards_clearance` is the way in which the incoming part has `clearance` of play; none where
    the joint has no play.
    """

    joint: Joint
    into: Placed
    incoming: Placed
    into_left: float
    incoming_left: float
    clearance: float = 0.0
    towards_clearance: Vector | None = None


def mm(low: float, high: float) -> st.SearchStrategy[float]:
    """A length to a twentieth of a millimetre."""
    steps = st.integers(math.ceil(low * 20 - 1e-9), math.floor(high * 20 + 1e-9))
    return steps.map(lambda step: step / 20)


FITS = st.sampled_from([PRESS, SLIP, EASY, own_fit(0.0), own_fit(0.35)])


def play_of(fit: Fit, thickness: float) -> float:
    """The clearance by the fits' own stated rules, to 0.01 mm."""
    base, share = {
        "press": (0.0, 0.0025),
        "slip": (0.1, 0.0025),
        "easy": (0.2, 0.005),
    }.get(fit.name, (fit.base_mm, 0.0))
    return round(base + share * thickness, 2)


_AXES = (X, Y, Z, LEFTWARDS, FORWARDS, DOWNWARDS)
TURNS = st.sampled_from([(x, y) for x in _AXES for y in _AXES if dot(x, y) == 0.0])


@st.composite
def turned_anywhere(draw: st.DrawFn, cases: st.SearchStrategy[Case]) -> Case:
    """The same case turned one of the 24 ways and carried off: nothing may depend on the frame."""
    case = draw(cases)
    x, y = draw(TURNS)
    axes = (x, y, cross(x, y))
    shift = (draw(mm(-300, 300)), draw(mm(-300, 300)), draw(mm(-300, 300)))

    def way(vector: Vector) -> Vector:
        total: Vector = (0.0, 0.0, 0.0)
        for value, axis in zip(vector, axes, strict=True):
            total = add(total, scaled(axis, value))
        return total

    def carried(placed: Placed) -> Placed:
        where = placed.placement
        placement = Placement(
            origin=add(way(where.origin), shift),
            x_axis=way(where.x_axis),
            y_axis=way(where.y_axis),
        )
        return replace(placed, placement=placement)

    play = case.towards_clearance
    return replace(
        case,
        into=carried(case.into),
        incoming=carried(case.incoming),
        towards_clearance=None if play is None else way(play),
    )
