"""What can be measured on a piece, each figure with the key that the job file knows it by."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import Enum

from furniture.joints.joint import JointFace, Role
from furniture.parts.vectors import dot
from furniture.pieces import Piece
from furniture.pieces.piece import placed_named

AXES = ("length", "width", "thickness")
"""The sizes of a part, as a key names them, by their part axis."""
ALONG, ACROSS, THROUGH = 0, 1, 2
_SAME_WAY = 0.5
_SQUARE_ON = 0.999
_FILLS_A_GAP = (Role.CORNER, Role.HOUSING)


class Of(Enum):
    """What a figure is of: a part itself, or the room that it goes into."""

    SIZE = "size"
    OPENING = "opening"
    """Of a loose panel, along and across."""
    GAP = "gap"
    """Between two parts, one way only, such as that of a post between two stubs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A size of an instance, or of the room that it goes into: the size and the play that it keeps.

    Args:
        instance: whose size it is.
        axis: 0 length, 1 width, 2 thickness.
        of: the part itself, or its opening or gap.
    """

    instance: str
    axis: int
    of: Of = Of.SIZE

    @property
    def is_room(self) -> bool:
        """Whether what the instance goes into is meant."""
        return self.of is not Of.SIZE

    @property
    def key(self) -> str:
        """What the job file calls it; an opening has one key for both its figures."""
        if self.of is Of.OPENING:
            return f"{self.instance} opening"
        size = f"{self.instance}.{AXES[self.axis]}"
        return f"{size} gap" if self.of is Of.GAP else size

    @property
    def name(self) -> str:
        """The same, with the way that is meant of an opening."""
        if self.of is not Of.OPENING:
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
    """All that can be measured on a piece: openings and gaps first, then the sizes of its parts.

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
                of=name,
                takes="one length, between the parts that it goes between",
                designed_mm=(sizes[name, axis] + play,),
                figures=(figure,),
            )
            for (name, axis), play in play_of_gaps(piece).items()
            for figure in [Figure(instance=name, axis=axis, of=Of.GAP)]
        ),
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
    figures = tuple(Figure(instance=name, axis=axis, of=Of.OPENING) for axis in (ALONG, ACROSS))
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
        plays: of its openings and gaps.
    """
    at = (figure.instance, figure.axis)
    return sizes[at] + (plays[at] if figure.is_room else 0.0)


def rooms_of(piece: Piece) -> Sizes:
    """Every opening and gap as it is drawn [mm], under a key of its own beside those of sizes."""
    sizes = sizes_of(piece)
    rooms = ((Of.GAP, play_of_gaps(piece)), (Of.OPENING, play_of_openings(piece)))
    return {
        (room_key(name, of), axis): sizes[name, axis] + play
        for of, plays in rooms
        for (name, axis), play in plays.items()
    }


def room_key(instance: str, of: Of) -> str:
    """What a room is known by beside the sizes of parts; no part is called so."""
    return f"{instance}\n{of.value}"


def asked_for(piece: Piece, sizes: Iterable[tuple[str, int]]) -> tuple[Figure, ...]:
    """What is measured for these sizes and goes into the job file, one figure for each of its keys.

    Args:
        piece: as it is designed.
        sizes: instances and part axes that are cut to what is measured; a panel's length and width
            are measured in its opening, and what goes between two others in its gap.
    """
    asked = dict.fromkeys(sizes)
    plays, gaps = play_of_openings(piece), play_of_gaps(piece)
    found: dict[str, Figure] = {}
    for name, axis in asked:
        is_panel = all((name, each) in plays and (name, each) in asked for each in (ALONG, ACROSS))
        is_opening = is_panel and axis in (ALONG, ACROSS)
        of = Of.OPENING if is_opening else Of.GAP if (name, axis) in gaps else Of.SIZE
        one = Figure(instance=name, axis=axis, of=of)
        found.setdefault(one.key, one)
    return tuple(found.values())


def plays_of(piece: Piece) -> Sizes:
    """The play that parts keep in their openings and gaps, both sides together [mm], by the axis.

    Args:
        piece: with its joints.
    """
    return {**play_of_gaps(piece), **play_of_openings(piece)}


def play_of_openings(piece: Piece) -> Sizes:
    """The play that a loose panel keeps in its opening, both sides together [mm], by its axis.

    Only where walls stand on both sides is there an opening to measure.
    """
    return _both_sides([each for each in walls_of(piece) if each.of is Of.OPENING])


def play_of_gaps(piece: Piece) -> Sizes:
    """The play that a part keeps between two others that it goes between [mm], by its axis."""
    return _both_sides([each for each in walls_of(piece) if each.of is Of.GAP])


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """What stands beside a part on one side, by one face of a joint.

    Args:
        instance: the part.
        axis: of the part, along which the wall stands off.
        sign: to which side of it.
        of: an opening or a gap.
        other: what the wall is of.
        joint: what they meet in.
        face: where they meet.
    """

    instance: str
    axis: int
    sign: int
    of: Of
    other: str
    joint: str
    face: JointFace


def walls_of(piece: Piece) -> Iterator[Wall]:
    """Every wall of an opening, and every one that may be of a gap."""
    for joining in piece.joinings:
        if joining.role is Role.RIM and not joining.glued_faces:
            sides = [(joining.incoming, joining.into, 1.0, Of.OPENING, _SAME_WAY)]
        elif joining.role in _FILLS_A_GAP:
            sides = [(joining.incoming, joining.into, 1.0, Of.GAP, _SQUARE_ON)]
            if joining.role is Role.CORNER:  # either may be what goes between
                sides.append((joining.into, joining.incoming, -1.0, Of.GAP, _SQUARE_ON))
        else:
            continue
        for name, other, out, of, least in sides:
            frame = placed_named(piece, name).placement
            for axis, way in enumerate((frame.x_axis, frame.y_axis)):
                for face in joining.faces:
                    lies = out * dot(face.normal, way)
                    if abs(lies) > least:
                        yield Wall(instance=name, axis=axis, sign=1 if lies > 0 else -1, of=of,
                                   other=other, joint=joining.kind, face=face)  # fmt: skip


def _both_sides(walls: Iterable[Wall]) -> Sizes:
    """The plays on both sides together, where different parts stand on both."""
    plays: dict[tuple[str, int], dict[int, float]] = {}
    others: dict[tuple[str, int], dict[int, set[str]]] = {}
    for wall in walls:
        at = (wall.instance, wall.axis)
        by_side = plays.setdefault(at, {})
        by_side[wall.sign] = max(wall.face.play_mm, by_side.get(wall.sign, wall.face.play_mm))
        others.setdefault(at, {}).setdefault(wall.sign, set()).add(wall.other)
    return {
        at: sum(sides.values())
        for at, sides in plays.items()
        if len(sides) == 2 and not others[at][1] & others[at][-1]
    }
