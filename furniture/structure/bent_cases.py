"""The loads that bend a piece: all in the middle, at the front, at a front corner, and a hand."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from furniture.parts.vectors import Vector
from furniture.pieces import LoadKind, Piece, StandingLoad, Surface
from furniture.structure.bending import spread_load, spread_weights
from furniture.structure.frame import Frame
from furniture.structure.rigid import Push
from furniture.units.gravity import GRAVITY_M_S2


@dataclass(frozen=True, slots=True, kw_only=True)
class BentCase:
    """One way to load a piece that bends, in a maker's words.

    `lasting` is the place among the cases of what of this one stays for good, where some of it
    comes and goes.
    """

    told: str
    pushes: tuple[Push, ...]
    lasting: int | None = None


def bent_cases(piece: Piece, frame: Frame) -> tuple[BentCase, ...]:
    """Own weight alone, then with every load that stays in the middle, at the front and a corner.

    Then likewise with the things that come and go besides, where there are any.

    Args:
        piece: with its loads and surfaces
        frame: of the piece
    """
    own = spread_weights(piece, frame)
    places: tuple[tuple[str, Callable[[Surface, StandingLoad], Vector]], ...] = (
        ("in the middle", _middle),
        ("at the front", _front),
        ("at the front left", _left),
        ("at the front right", _right),
    )

    def at(loads: Sequence[StandingLoad], place: Callable[..., Vector]) -> tuple[Push, ...]:
        return own + tuple(
            push
            for load in loads
            for push in spread_load(frame, load, place(surface_of(piece, load.on), load))
        )

    staying = [each for each in piece.loads if each.kind is LoadKind.STAYS]
    passing = [each for each in piece.loads if each.kind is LoadKind.COMES_AND_GOES]
    found = [BentCase(told="under its own weight", pushes=own)]
    if staying:
        found += [
            BentCase(told=f"with its loads {told}", pushes=at(staying, place))
            for told, place in places
        ]
    if passing:
        names = ", ".join(dict.fromkeys(each.name for each in passing))
        found += [
            BentCase(
                told=f"with all its loads {told}, of which {names} comes and goes",
                pushes=at([*staying, *passing], place),
                lasting=index if staying else 0,
            )
            for index, (told, place) in enumerate(places, start=1)
        ]
    return tuple(found)


def pressed_at(
    frame: Frame, surface: Surface, force_n: float, inside_mm: float
) -> tuple[BentCase, ...]:
    """A force down at the middle of a front edge and at a front corner, and nothing else.

    Args:
        frame: of the piece
        surface: that is pressed
        force_n: down [N]
        inside_mm: how far inside the edges [mm]
    """
    middle = (surface.low[0] + surface.high[0]) / 2.0
    y = min(surface.low[1] + inside_mm, surface.high[1])
    left = min(surface.low[0] + inside_mm, surface.high[0])
    right = max(surface.high[0] - inside_mm, surface.low[0])
    body = frame.body(surface.instance)
    return tuple(
        BentCase(
            told=f"{told} of {surface.instance}",
            pushes=(Push(body=body, at=(x, y, surface.top_mm), force_n=(0.0, 0.0, -force_n)),),
        )
        for told, x in (
            ("the front edge", middle), ("the front left corner", left),
            ("the front right corner", right),
        )
    )  # fmt: skip


def stood_on(
    frame: Frame, surface: Surface, force_n: float, pad_mm: tuple[float, float]
) -> tuple[BentCase, ...]:
    """A force down on a pad in the middle of a surface and at a front corner, and nothing else.

    Args:
        frame: of the piece
        surface: that is stood or sat on
        force_n: down [N]
        pad_mm: width by depth of what presses [mm]
    """
    load = StandingLoad(
        on=surface.instance, mass_kg=force_n / GRAVITY_M_S2, footprint_mm=pad_mm,
        centre_height_mm=0.0,
    )  # fmt: skip
    return tuple(
        BentCase(
            told=f"{told} of {surface.instance}",
            pushes=spread_load(frame, load, place(surface, load)),
        )
        for told, place in (("the middle", _middle), ("the front left corner", _left))
    )


def surface_of(piece: Piece, instance: str) -> Surface:
    """The surface of an instance that carries loads."""
    return next(each for each in piece.surfaces if each.instance == instance)


def _middle(surface: Surface, load: StandingLoad) -> Vector:
    x, y = ((surface.low[axis] + surface.high[axis]) / 2.0 for axis in range(2))
    return (x, y, surface.top_mm)


def _front(surface: Surface, load: StandingLoad) -> Vector:
    x, y, z = _middle(surface, load)
    return (x, min(y, surface.low[1] + load.footprint_mm[1] / 2.0), z)


def _left(surface: Surface, load: StandingLoad) -> Vector:
    x, y, z = _front(surface, load)
    return (min(x, surface.low[0] + load.footprint_mm[0] / 2.0), y, z)


def _right(surface: Surface, load: StandingLoad) -> Vector:
    x, y, z = _front(surface, load)
    return (max(x, surface.high[0] - load.footprint_mm[0] / 2.0), y, z)
