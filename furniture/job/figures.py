"""What can be measured on a piece, each figure with the key that the job file knows it by."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from furniture.joints.joint import Role
from furniture.parts.vectors import dot
from furniture.pieces import Piece
from furniture.pieces.piece import placed_named

AXES = ("length", "width", "thickness")
"""The sizes of a part, as a key names them, by their part axis."""
ALONG, ACROSS = 0, 1
_SAME_WAY = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A size of an instance, or what is cut to its opening: the size and the play that it keeps.

    Args:
        instance: whose size it is.
        axis: 0 length, 1 width, 2 thickness.
        is_opening: whether the opening is meant that the instance goes into.
    """

    instance: str
    axis: int
    is_opening: bool = False

    @property
    def key(self) -> str:
        """What the job file calls it; an opening has one key for both its figures."""
        if self.is_opening:
            return f"{self.instance} opening"
        return f"{self.instance}.{AXES[self.axis]}"

    @property
    def name(self) -> str:
        """The same, with the way that is meant of an opening."""
        if not self.is_opening:
            return self.key
        return f"{self.key} {'along' if self.axis == ALONG else 'across'}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Measurable:
    """A key of the job file with what it takes, as designed [mm].

    Args:
        key: of the job file.
        of: the instance, or the one that goes into the opening.
        takes: what is to be written, in words.
        designed_mm: as many as it takes.
        figures: which of them the piece has to meet; none for diagonals, which only tell.
    """

    key: str
    of: str
    takes: str
    designed_mm: tuple[float, ...]
    figures: tuple[Figure, ...] = ()


def measurables_of(piece: Piece) -> tuple[Measurable, ...]:
    """Everything that can be measured on a piece: openings first, then the sizes of its parts.

    Args:
        piece: as it is designed.
    """
    sizes, plays = sizes_of(piece), play_of_openings(piece)
    names = [name for name, axis in plays if axis == ALONG and (name, ACROSS) in plays]
    return (
        *(each for name in names for each in _opening(name, sizes, plays)),
        *(
            Measurable(
                key=figure.key,
                of=each.instance,
                takes="one length",
                designed_mm=(sizes[each.instance, figure.axis],),
                figures=(figure,),
            )
            for each in piece.placed
            for figure in (Figure(instance=each.instance, axis=axis) for axis in range(3))
        ),
    )


def _opening(name: str, sizes: Sizes, plays: Sizes) -> Iterator[Measurable]:
    figures = tuple(Figure(instance=name, axis=axis, is_opening=True) for axis in (ALONG, ACROSS))
    designed = tuple(designed_mm(each, sizes, plays) for each in figures)
    yield Measurable(
        key=f"{name} opening",
        of=name,
        takes="two lengths, along and across the grain of what goes in",
        designed_mm=designed,
        figures=figures,
    )
    yield Measurable(
        key=f"{name} opening diagonals",
        of=name,
        takes="two lengths, from corner to corner",
        designed_mm=(math.hypot(*designed),) * 2,
    )


Sizes = Mapping[tuple[str, int], float]
"""Length, width and thickness of every instance [mm], by its name and the part axis."""


def sizes_of(piece: Piece) -> Sizes:
    """The sizes of every blank [mm]."""
    return {
        (each.instance, axis): size
        for each in piece.placed
        for axis, size in enumerate(each.part.blank.size)
    }


def designed_mm(figure: Figure, sizes: Sizes, plays: Sizes) -> float:
    """What a figure is by the design [mm].

    Args:
        figure: which.
        sizes: of the piece.
        plays: of its openings.
    """
    at = (figure.instance, figure.axis)
    return sizes[at] + (plays[at] if figure.is_opening else 0.0)


def keys_for(piece: Piece, sizes: Iterable[tuple[str, int]]) -> tuple[str, ...]:
    """The keys under which what is measured for these sizes goes into the job file.

    Args:
        piece: as it is designed.
        sizes: instances and part axes that are cut to what is measured; a panel's length and width
            are measured in its opening.
    """
    asked = dict.fromkeys(sizes)
    plays = play_of_openings(piece)
    found = []
    for name, axis in asked:
        is_panel = all((name, each) in plays and (name, each) in asked for each in (ALONG, ACROSS))
        is_opening = is_panel and axis in (ALONG, ACROSS)
        found.append(Figure(instance=name, axis=axis, is_opening=is_opening).key)
    return tuple(dict.fromkeys(found))


def play_of_openings(piece: Piece) -> Sizes:
    """The play that a loose panel keeps in its opening, both sides together [mm], by its axis.

    Only where walls stand on both sides is there an opening to measure.
    """
    walls: dict[tuple[str, int, int], float] = {}
    for panel, axis, sign, play in _walls(piece):
        at = (panel, axis, sign)
        walls[at] = max(play, walls.get(at, play))
    return {
        (panel, axis): play + walls[panel, axis, -1]
        for (panel, axis, sign), play in walls.items()
        if sign > 0 and (panel, axis, -1) in walls
    }


def _walls(piece: Piece) -> Iterator[tuple[str, int, int, float]]:
    """Every wall that a loose panel stands off: along which axis of it, to which side, how far."""
    for joining in piece.joinings:
        if joining.role is not Role.RIM or joining.glued_faces:
            continue
        frame = placed_named(piece, joining.incoming).placement
        for axis, way in enumerate((frame.x_axis, frame.y_axis)):
            for face in joining.faces:
                lies = dot(face.normal, way)
                if abs(lies) > _SAME_WAY:
                    yield joining.incoming, axis, 1 if lies > 0 else -1, face.play_mm
