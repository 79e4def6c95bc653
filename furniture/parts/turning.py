"""The six ways of a piece, and how the ways that its faces look turn a part."""

from __future__ import annotations

from enum import Enum

from furniture.parts.vectors import BACK, DOWN, FRONT, LEFT, RIGHT, UP, Vector, cross
from furniture.units import Reader, said
from furniture.units.words import nearest_word


class Way(Enum):
    """A direction of the piece."""

    LEFT = "left"
    RIGHT = "right"
    FRONT = "front"
    BACK = "back"
    DOWN = "down"
    UP = "up"

    @property
    def vector(self) -> Vector:
        """The unit vector, piece frame."""
        return _VECTORS[self]

    @property
    def axis(self) -> int:
        """The piece axis: 0 left to right, 1 front to back, 2 down to up."""
        return next(axis for axis in range(3) if self.vector[axis])

    @property
    def sign(self) -> float:
        """1 towards the right, the back and up; else -1."""
        return sum(self.vector)


_VECTORS: dict[Way, Vector] = {
    Way.LEFT: LEFT,
    Way.RIGHT: RIGHT,
    Way.FRONT: FRONT,
    Way.BACK: BACK,
    Way.DOWN: DOWN,
    Way.UP: UP,
}
AXES_IN_WORDS = ("left to right", "front to back", "down to up")


def turned(
    reader: Reader, name: str, side: Way, edge: Way | None, grain: Way | None
) -> tuple[Vector, Vector] | None:
    """A part's x and y axes in the piece; nothing where a problem is noted.

    Args:
        reader: keeps the problems.
        name: of the part.
        side: the way its face side looks.
        edge: the way its face edge looks; left out, as the other two have it.
        grain: the way from its named end to its far end; left out, as a stated face edge has it,
            else to the right.
    """
    stated = {"face_side": side, "face_edge": edge, "grain": grain}
    odd = [
        (what, way)
        for what, way in stated.items()
        if not isinstance(way, Way) and (way is not None or what == "face_side")
    ]
    for what, way in odd:
        refuse_choice(reader, f"{name}: {what}", way, "Way")
    if odd:
        return None
    why = f"runs along the face, which looks to the {side.value}"
    if edge is not None and edge.axis == side.axis:
        _refuse_way(reader, f"{name}: face_edge", edge, f"an edge {why}")
        return None
    if grain is None:
        grain = Way.RIGHT if edge is None else _way_along(edge, side)
    if grain.axis == side.axis:
        _refuse_way(reader, f"{name}: grain", grain, f"the grain {why}")
        return None
    follows = _opposite(_way(cross(side.vector, grain.vector)))
    if edge not in (None, follows):
        assert edge is not None
        turned = "" if edge.axis != follows.axis else f", or grain=Way.{_opposite(grain).name}"
        reader.refuse(
            f"{name}: face_edge",
            f"Way.{edge.name}",
            f"Way.{follows.name}",
            f"that edge is the face edge with face_side=Way.{side.name} and grain=Way.{grain.name}",
            f"write face_edge=Way.{follows.name}{turned}",
        )
        return None
    return grain.vector, cross(side.vector, grain.vector)


def _refuse_way(reader: Reader, parameter: str, way: Way, why: str) -> None:
    """Notes that a way lies along the one that the face side looks."""
    allowed = ", ".join(f"Way.{each.name}" for each in Way if each.axis != way.axis)
    reader.refuse(
        parameter,
        f"Way.{way.name}",
        allowed,
        why,
        f"write {allowed.split(',')[0]}",
    )


def _way(vector: Vector) -> Way:
    return next(way for way in Way if way.vector == vector)


def _opposite(way: Way) -> Way:
    return next(each for each in Way if each.axis == way.axis and each is not way)


def _way_along(edge: Way, side: Way) -> Way:
    """The way that the grain runs where these faces look so."""
    return _way(cross(_opposite(edge).vector, side.vector))


def refuse_choice(reader: Reader, parameter: str, given: object, what: str) -> None:
    """Notes that something is none of the ways.

    Args:
        reader: keeps the problem.
        parameter: its name.
        given: what was written.
        what: it is meant to be.
    """
    allowed = ", ".join(f"Way.{way.name}" for way in Way)
    if "Face" in what:
        allowed += ", or a Face of that part such as Face.FACE_EDGE"
    near = nearest_word(given, [way.name.lower() for way in Way]) or "right"
    why = f"it is a {what}, without quotes" if isinstance(given, str) else f"it is a {what}"
    reader.refuse(parameter, said(given), allowed, why, f"write Way.{near.upper()}")
