"""What a maker calls the faces of a part: by where they are in the piece, never by our own terms.

Edges and wide faces go by the side that they look to, or by inside and outside on what stands round
a room; an end goes by its mitre or by the part that it meets where that tells the two apart. Faces
that look to no side, and those on which like parts differ, go by the marks that the bench gives
them: the face side, the face edge, the datum end, and what lies across from each.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import Enum
from types import MappingProxyType

from furniture.parts.cuts import Slope, shapes_of
from furniture.parts.faces import EDGES, ENDS, WIDE_FACES, Face
from furniture.parts.part import Placed
from furniture.parts.placement import Box, box_of
from furniture.parts.vectors import dot, subtract
from furniture.pieces.datums import USUAL_DATUMS, Datums, datums_of
from furniture.pieces.piece import Distinct, Piece, Stance, extents_of, placed_named

WAYS = (("to the left", "to the right"), ("to the front", "to the back"), ("down", "up"))
"""Along each axis of the piece, low and high, seen from the front."""
SIDES = (("left", "right"), ("front", "back"), ("bottom", "top"))
_EDGES = tuple((f"{low} edge", f"{high} edge") for low, high in SIDES)
_ENDS = (*((f"{low} end", f"{high} end") for low, high in SIDES[:2]), ("foot end", "top end"))
_WIDE = (("left face", "right face"), ("front face", "back face"), ("underside", "top face"))
MARKED: Mapping[Face, str] = MappingProxyType(
    {
        Face.FACE_SIDE: "face side",
        Face.BACK_SIDE: "other side",
        Face.FACE_EDGE: "face edge",
        Face.BACK_EDGE: "other edge",
        Face.NAMED_END: "datum end",
        Face.FAR_END: "other end",
    }
)
"""By the bench's marks alone. Common practice, no source; "other" and "datum end" are our own."""
_OFF_SHARE = 0.1
"""A part so far off the middle has an inside; nearer to it neither face is. Own rule."""
_SQUARE = 0.9
"""A face that turns more than this from a side looks to none. Own rule."""
_NEAR_MM = 1.0


def way_of(placed: Placed, face: Face) -> str:
    """Which way a face looks, such as `up`: the nearest of the six.

    Args:
        placed: the part in the piece.
        face: of it.
    """
    axis, is_high, _ = _nearest(placed, face)
    return WAYS[axis][is_high]


def is_outside(piece: Piece, placed: Placed, face: Face, extents: Box | None = None) -> bool | None:
    """Whether a wide face of a part that stands looks away from the piece's middle.

    Args:
        piece: that stands on the floor; what hangs on a wall has no inside.
        placed: a part of it.
        face: one of its wide faces.
        extents: of the piece, where they are known.

    Returns:
        None where the part lies, or stands in the middle.
    """
    low, high = extents or extents_of(piece)
    part_low, part_high = box_of(placed.part.blank, placed.placement)
    axis, is_high, _ = _nearest(placed, face)
    off = (part_low[axis] + part_high[axis] - low[axis] - high[axis]) / 2
    is_off = abs(off) > _OFF_SHARE * (high[axis] - low[axis])
    if axis == 2 or piece.stance is not Stance.FLOOR or not is_off:
        return None
    return (off > 0) == is_high


def _nearest(placed: Placed, face: Face) -> tuple[int, bool, float]:
    """The axis that a face looks along most, whether to its high side, and how squarely."""
    way = placed.placement.direction_to_piece(face.normal)
    axis = max(range(3), key=lambda each: abs(way[each]))
    return axis, way[axis] > 0, abs(way[axis])


class By(Enum):
    """What a face has its name from."""

    MARK = "mark"
    SIDE = "side"
    ROOM = "room"
    MITRE = "mitre"
    MATE = "mate"


@dataclass(frozen=True, slots=True)
class FaceName:
    """What a face is called, and by what.

    Args:
        text: such as `left face`.
        by: where the name is from.
        mirrored: what the face that mirrors it is called, such as `right face`.
    """

    text: str
    by: By
    mirrored: str

    @property
    def says_way(self) -> bool:
        """Whether the name tells which way the face looks in the piece."""
        return self.by is By.SIDE


def _by(by: By, text: str) -> FaceName:
    return FaceName(text, by, mirrored=text)


_BY_MARK: Mapping[Face, FaceName] = MappingProxyType(
    {face: _by(By.MARK, text) for face, text in MARKED.items()}
)


def _by_side(axis: int, is_high: bool, texts: Sequence[tuple[str, str]]) -> FaceName:
    """The name of a face that looks along an axis of the piece; left and right are mirrored."""
    text, across = texts[axis][is_high], texts[axis][not is_high]
    return FaceName(text, By.SIDE, across if axis == 0 else text)


@dataclass(frozen=True, slots=True, kw_only=True)
class PartFaces:
    """What the six faces of a part are called, no two alike, and which are its datums."""

    names: Mapping[Face, FaceName] = field(default_factory=lambda: _BY_MARK, hash=False)
    datums: Datums = USUAL_DATUMS

    def called(self, face: Face) -> str:
        """The name of a face, such as `inside face`."""
        return self.names[face].text

    def is_by_mark(self, face: Face) -> bool:
        """Whether a face has no better name than the bench's mark."""
        return self.names[face].by is By.MARK


BY_MARKS = PartFaces()
"""Of a part that is in no piece."""


def faces_of(piece: Piece, each: Distinct) -> PartFaces:
    """The faces of a distinct part, as all of its instances may call them.

    Args:
        piece: that it is of.
        each: the part and its instances.
    """
    names = FaceNames(piece=piece)
    called = {face: names.shared_by(each.instances, face) for face in Face}
    for face in (Face.FACE_SIDE, Face.FACE_EDGE, Face.NAMED_END):
        one, two = called[face], called[face.opposite]
        if By.MARK in (one.by, two.by) or one.text == two.text:
            called |= {each: _BY_MARK[each] for each in (face, face.opposite)}
    return PartFaces(names=MappingProxyType(called), datums=datums_of(piece)[each.part.id])


def shared_faces(one: PartFaces, two: PartFaces) -> PartFaces | None:
    """What a drawing of two like parts calls their faces: an end by its mark where their own names
    for it differ.

    Args:
        one: the faces of one.
        two: the faces of the other.

    Returns:
        None where more than the names of ends differs: no mark tells inside from outside.
    """
    differ = {face for face in Face if one.names[face] != two.names[face]}
    if one.datums != two.datums or not differ <= set(ENDS):
        return None
    if not differ:
        return one
    names = {**one.names, **{end: _BY_MARK[end] for end in ENDS}}
    return replace(one, names=MappingProxyType(names))


@dataclass(frozen=True, slots=True, kw_only=True)
class FaceNames:
    """Names the faces of a piece's parts."""

    piece: Piece
    _extents: Box = field(init=False, repr=False)

    def __post_init__(self) -> None:
        """Faces are named by the thousand, all against one middle."""
        object.__setattr__(self, "_extents", extents_of(self.piece))

    def of(self, instances: Sequence[str], face: Face) -> str:
        """The face of one part, or of several in one blank, such as `outside` or `foot end`.

        Args:
            instances: in their order along the blank; an end is that of the outermost.
            face: of the blank.
        """
        if face in ENDS and len(instances) > 1:
            return self._end_of_blank(instances, face)
        return self.of_all(instances, face)

    def of_all(self, instances: Sequence[str], face: Face) -> str:
        """The face of each of several parts by the name that they share.

        Args:
            instances: such as those of one distinct part.
            face: of each.
        """
        return self.shared_by(instances, face).text

    def shared_by(self, instances: Sequence[str], face: Face) -> FaceName:
        """The name that a face of several parts has on each of them, else its mark.

        Args:
            instances: such as those of one distinct part.
            face: of each.
        """
        names = {self._name(placed_named(self.piece, name), face) for name in instances}
        return names.pop() if len(names) == 1 else _BY_MARK[face]

    def _end_of_blank(self, instances: Sequence[str], face: Face) -> str:
        outer = instances[-1 if face.is_far else 0]
        parts = {placed_named(self.piece, name).part.id for name in instances}
        if len(parts) > 1:
            return f"{outer} end"
        return self.of_all(instances, face)

    def _name(self, placed: Placed, face: Face) -> FaceName:
        axis, is_high, square = _nearest(placed, face)
        if face in ENDS:
            told = self._told_apart(placed, face)
            if told is not None:
                return told
        if square < _SQUARE:
            return _BY_MARK[face]
        if face in WIDE_FACES:
            outside = is_outside(self.piece, placed, face, self._extents)
            if outside is not None:
                return _by(By.ROOM, "outside face" if outside else "inside face")
            return _by_side(axis, is_high, _WIDE)
        return _by_side(axis, is_high, _EDGES if face in EDGES else _ENDS)

    def _told_apart(self, placed: Placed, end: Face) -> FaceName | None:
        """What tells an end from the other one: only one is mitred, the other meets a part."""
        mitred = {each.face for each in shapes_of(placed.part.cuts, placed.part.blank, Slope)}
        if len(mitred & set(ENDS)) != 1:
            return None
        if end in mitred:
            return _by(By.MITRE, "mitre end")
        met = {placed_named(self.piece, name).noun for name in self._met_at(placed, end)}
        return _by(By.MATE, f"{met.pop() if len(met) == 1 else 'square'} end")

    def _met_at(self, placed: Placed, end: Face) -> set[str]:
        """The instances that a joint's face brings to an end of a part."""
        way = placed.placement.direction_to_piece(end.normal)
        at = placed.placement.to_piece(
            (placed.part.blank.length_mm if end.is_far else 0.0, 0.0, 0.0)
        )
        found = set()
        for joining in self.piece.joinings:
            pair = (joining.into, joining.incoming)
            if placed.instance not in pair:
                continue
            for each in joining.faces:
                is_there = abs(dot(subtract(each.centre, at), way)) < _NEAR_MM
                if is_there and abs(dot(each.normal, way)) > _SQUARE:
                    found.add(pair[1] if pair[0] == placed.instance else pair[0])
        return found
