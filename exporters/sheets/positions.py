"""Where parts go that no cut locates: glued or screwed on by one face, they are set out by measure.

Read off the placements: how far a part's near edge lies from the edge of what it is glued to.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from exporters.views.frames import StandardView, standard_frame
from furniture.joints.joint import HoldBy, Joining
from furniture.joints.reading import is_face_to_face
from furniture.making.glue_ups.flush import proud_of
from furniture.parts.placement import Box, box_of
from furniture.parts.vectors import BACK, DOWN, FRONT, LEFT, RIGHT, UP, Vector, dot
from furniture.pieces.piece import Piece, Reference, placed_named

_SQUARE = 0.999
_OUT = ((LEFT, RIGHT), (FRONT, BACK), (DOWN, UP))
_LEAST_MM = 1e-3
_LOOKS = {
    StandardView.FRONT: "from the front",
    StandardView.BACK: "from the back",
    StandardView.LEFT: "from the left",
    StandardView.RIGHT: "from the right",
    StandardView.TOP: "from above",
    StandardView.BOTTOM: "from below",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Position:
    """How far one edge of a part lies from the like edge of what carries it, along an axis [mm].

    `carrier` is what it is fixed to; `datum` and `edge` are where the two edges lie in the piece
    frame; equal ones are flush. They are the low edges along the axis, or the high ones.
    """

    instance: str
    carrier: str
    axis: int
    datum: float
    edge: float
    is_from_high: bool

    @property
    def length_mm(self) -> float:
        """How far apart they are."""
        return abs(self.edge - self.datum)


@dataclass(frozen=True, slots=True, kw_only=True)
class GluedOn:
    """The parts that are glued on from one side, or screwed: how they are seen, on what, where."""

    look: StandardView
    carriers: tuple[str, ...]
    parts: tuple[str, ...]
    positions: tuple[Position, ...]
    screwed: frozenset[str] = frozenset()
    """Those of the parts that no glue holds."""

    @property
    def words(self) -> str:
        """The heading of their view."""
        glued = [each for each in self.parts if each not in self.screwed]
        how = " and ".join([*(["glued"] if glued else []), *(["screwed"] if self.screwed else [])])
        return f"{how} on, {_LOOKS[self.look]}"


def glued_on(piece: Piece) -> tuple[GluedOn, ...]:
    """Every part that is set out by measure, side by side of the piece.

    Args:
        piece: its joints and places.
    """
    groups: dict[StandardView, dict[str, list[str]]] = {}
    screwed = set()
    for placed in piece.placed:
        own = [each for each in piece.joinings if each.incoming == placed.instance]
        joints = [each for each in own if each.glue_area_mm2 > 0.0]
        if not joints:
            joints = [each for each in own if _is_screwed(each)]
            screwed.add(placed.instance)
        look = _look(joints)
        if look is not None:
            groups.setdefault(look, {})[placed.instance] = [each.into for each in joints]
    return tuple(
        _group(piece, look, groups[look], frozenset(screwed & set(groups[look])))
        for look in _LOOKS
        if look in groups
    )


def _is_screwed(joining: Joining) -> bool:
    """Whether screws alone hold it, through the part that comes."""
    return any(each.by is HoldBy.SCREW for each in joining.fasteners)


def _look(joints: Sequence[Joining]) -> StandardView | None:
    """The view that sees the part on what carries it; none when a cut or a dowel locates it."""
    ways = {face.normal for each in joints for face in each.faces}
    if len(ways) != 1 or not all(is_face_to_face(each) for each in joints):
        return None
    (way,) = ways
    for look in _LOOKS:
        if dot(standard_frame(look).towards_eye, way) < -_SQUARE:
            return look
    return None


def _group(
    piece: Piece, look: StandardView, parts: dict[str, list[str]], screwed: frozenset[str]
) -> GluedOn:
    carriers = tuple(dict.fromkeys(name for names in parts.values() for name in names))
    boxes = {name: _box(piece, name) for name in (*carriers, *parts)}
    eye = standard_frame(look).towards_eye
    outlines = [(each, _round([boxes[name] for name in each])) for each in _joined(piece, carriers)]
    planed = {(each.high, each.side) for each in proud_of(piece)}
    positions = [
        position
        for name, onto in parts.items()
        for axis in range(3)
        if abs(eye[axis]) < 0.5
        for lot, box in outlines
        if onto[0] in lot
        for position in _positions(
            (name, onto[0]),
            axis,
            boxes[name],
            box,
            [end for end in (0, 1) if not planed & {(each, _OUT[axis][end]) for each in lot}],
        )
    ]
    return GluedOn(
        look=look, carriers=carriers, parts=tuple(parts), positions=tuple(positions),
        screwed=screwed,
    )  # fmt: skip


def _joined(piece: Piece, carriers: Sequence[str]) -> tuple[frozenset[str], ...]:
    """The carriers that are joined to one another, which a maker measures from as one outline.

    Tiers one above the other are none, though one post holds them all.
    """
    lots = [frozenset({name}) for name in carriers]
    for joining in piece.joinings:
        pair = {joining.into, joining.incoming}
        if pair <= set(carriers):
            met = [lot for lot in lots if lot & pair]
            lots = [lot for lot in lots if lot not in met] + [frozenset().union(*met)]
    return tuple(lots)


def _positions(
    on: tuple[str, str], axis: int, box: Box, around: Box, lasting: Sequence[int]
) -> Iterator[Position]:
    """The nearer edge, from the like edge of what carries the part: one that is planed down before
    is no edge to measure from, where the other is not.
    """
    name, carrier = on
    ends = [
        Position(
            instance=name,
            carrier=carrier,
            axis=axis,
            datum=around[end][axis],
            edge=box[end][axis],
            is_from_high=bool(end),
        )
        for end in lasting or (0, 1)
    ]
    yield min(ends, key=lambda each: round(each.length_mm, 4))


def _box(piece: Piece, name: str) -> Box:
    placed = placed_named(piece, name)
    return box_of(placed.part.blank, placed.placement)


def _round(boxes: Sequence[Box]) -> Box:
    low = tuple(min(box[0][axis] for box in boxes) for axis in range(3))
    high = tuple(max(box[1][axis] for box in boxes) for axis in range(3))
    return ((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def without_positions(
    references: Sequence[Reference], groups: Sequence[GluedOn]
) -> tuple[Reference, ...]:
    """The references that no position says already: every figure stands once.

    Args:
        references: of the piece.
        groups: what is set out by measure.
    """
    said = {
        (each.axis, *sorted((round(each.datum, 3), round(each.edge, 3))))
        for group in groups
        for each in group.positions
    }
    return tuple(each for each in references if _key(each.start, each.end) not in said)


def _key(start: Vector, end: Vector) -> tuple[float, ...]:
    axis = max(range(3), key=lambda each: abs(end[each] - start[each]))
    return (axis, *sorted((round(start[axis], 3), round(end[axis], 3))))
