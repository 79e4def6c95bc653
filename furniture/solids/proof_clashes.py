"""Two joints that fight over the same wood: cuts on one part that overlap, though not by design."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import assert_never

from furniture.parts.blank import Blank
from furniture.parts.cuts import (
    Bite,
    Channel,
    Cut,
    Eased,
    Hole,
    InSlope,
    Shape,
    Slope,
    Stub,
    TongueEnd,
)
from furniture.parts.faces import EDGES, ENDS
from furniture.parts.part import Part, Placed
from furniture.parts.placement import Box
from furniture.parts.vectors import Vector, add, scaled
from furniture.pieces.piece import Piece, distinct_parts, placed_named
from furniture.solids.proof_wood import (
    blank_box,
    box_of_tools,
    left_of_block,
    shared_box,
)

LEAST_CLASH_MM3 = 0.01
"""Cuts that share less wood than this only meet [mm3]. Own rule: below it is rounding."""
_NEAR_MM = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class CutInPart:
    """A cut by its kind, its place in the part's order from 1, and the parts it is there for."""

    kind: str
    number: int
    partners: tuple[str, ...]

    @property
    def in_words(self) -> str:
        """Such as `dado for tier 1 (cut 2)`."""
        whose = f" for {', '.join(self.partners)}" if self.partners else ""
        return f"{self.kind}{whose} (cut {self.number})"


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """How far along an axis of a part one of two cuts must go from the other: 0 along, 1 across."""

    axis: int
    by_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """Two cuts of one part that both claim some wood, and how much [mm3].

    `apart` is how much further one of them must go along the part or across it, the less of the
    two where it has room [mm]; None where the wood has room for one of them only.
    """

    part: str
    first: CutInPart
    second: CutInPart
    volume_mm3: float
    apart: Apart | None

    @property
    def in_words(self) -> str:
        """The finding in one sentence."""
        return (
            f"{self.part}: the {self.first.in_words} and the {self.second.in_words} fight over "
            f"{self.volume_mm3:.2f} mm3 of the same wood"
        )


def clashing_joints(piece: Piece) -> tuple[Clash, ...]:
    """Every two cuts of a part that share wood, though joinery does not mean them to.

    By design: a trench that runs out through what another cut leaves open (a rabbet into a mitre
    or into the rabbet round the corner, a dado into the rabbet along an edge), a notch in an edge
    that reaches into a mitre, a spline's groove or a key's slot in its mitre, trenches crossing
    square on one face, a bore or slot wholly inside a trench and square to it, a bore in line with
    another, and any edge profile. Own rule, after common practice.
    """
    return tuple(
        clash
        for distinct in distinct_parts(piece)
        for clash in _clashes_in(piece, distinct.part, distinct.instances)
    )


def _clashes_in(piece: Piece, part: Part, instances: tuple[str, ...]) -> list[Clash]:
    blank = part.blank
    boxes = [shared_box(blank_box(blank), box_of_tools(cut.tools(blank))) for cut in part.cuts]
    shapes = [cut.shape(blank) for cut in part.cuts]
    found = []
    for (i, first), (j, second) in combinations(enumerate(part.cuts), 2):
        a, b = boxes[i], boxes[j]
        if a is None or b is None:
            continue
        block = shared_box(a, b)
        if block is None or _is_by_design(shapes[i], shapes[j], blank):
            continue
        sawn_off = [
            cut
            for cut, shape in zip(part.cuts, shapes, strict=True)
            if isinstance(shape, Slope) and cut not in (first, second)
        ]
        volume = _shared_wood(block, first, second, sawn_off, blank)
        if volume >= LEAST_CLASH_MM3:
            found.append(
                Clash(
                    part=part.name,
                    first=_named(piece, part, instances, i),
                    second=_named(piece, part, instances, j),
                    volume_mm3=volume,
                    apart=_apart(a, b, blank),
                )
            )
    return found


def _apart(first: Box, second: Box, blank: Blank) -> Apart | None:
    found = []
    for axis in (0, 1):
        (low, high), (start, end) = ((box[0][axis], box[1][axis]) for box in (first, second))
        if (high - low) + (end - start) <= blank.size[axis]:
            found.append(Apart(axis=axis, by_mm=min(high - start, end - low)))
    return min(found, key=lambda each: each.by_mm, default=None)


def _shared_wood(
    block: Box, first: Cut, second: Cut, sawn_off: Sequence[Cut], blank: Blank
) -> float:
    """What both cuts take of a block: one's and the other's, less what the two take together.

    Wood beyond a mitre or bevel is no part's, so it is taken off first.
    """
    off = [tool for cut in sawn_off for tool in cut.tools(blank)]
    a, b = first.tools(blank), second.tools(blank)
    whole, *left = (left_of_block(block, (*off, *tools)) for tools in ((), a, b, (*a, *b)))
    return whole - left[0] - left[1] + left[2]


def _is_by_design(first: Shape, second: Shape, blank: Blank) -> bool:
    if isinstance(first, Eased) or isinstance(second, Eased):
        return True
    return any(
        _runs_out(a, b) or _lies_inside(a, b, blank) for a, b in ((first, second), (second, first))
    ) or _cross_or_line_up(first, second)


def _runs_out(shape: Shape, other: Shape) -> bool:
    """Whether a trench, or a sloping cut, leaves the wood through a face the other opens."""
    match shape:
        case Channel():
            return shape.along in _axes(other)
        case InSlope():
            if isinstance(other, Slope):
                return shape.end is other.face
            return shape.depth_mm is not None and shape.along in _axes(other)
        case Slope():
            return isinstance(other, Slope) and shape.face.axis != other.face.axis
        case Bite():  # right through an edge, and on into the slope of a mitred end
            return isinstance(other, Slope) and shape.edge in EDGES and other.face in ENDS
        case Hole() | Eased() | TongueEnd() | Stub():
            return False
        case _:
            assert_never(shape)


def _axes(shape: Shape) -> set[int]:
    """The axes of the faces that a cut opens along its whole run."""
    return {face.axis for face in shape.mouths}


def _lies_inside(hole: Shape, trench: Shape, blank: Blank) -> bool:
    """Whether a hole goes square into a trench without touching its walls."""
    if not isinstance(hole, Hole) or not isinstance(trench, Channel):
        return False
    across = hole.face.axis
    if across not in _axes(trench):
        return False
    low, high = trench.corners(blank)
    return all(
        _is_within(hole, axis, (low[axis], high[axis])) for axis in range(3) if axis != across
    )


def _is_within(hole: Hole, axis: int, span: tuple[float, float]) -> bool:
    ends = sorted((hole.first[axis], hole.last[axis]))
    radius = hole.mouth_radius_mm
    return span[0] <= ends[0] - radius and ends[1] + radius <= span[1]


def _cross_or_line_up(first: Shape, second: Shape) -> bool:
    if isinstance(first, Channel) and isinstance(second, Channel):
        return first.face is second.face and first.along != second.along
    if isinstance(first, Hole) and isinstance(second, Hole):
        axis = first.face.axis
        gaps = [abs(first.centre[each] - second.centre[each]) for each in range(3) if each != axis]
        is_bored = first.is_round and second.is_round
        return is_bored and axis == second.face.axis and max(gaps) < _NEAR_MM
    return False


def _named(piece: Piece, part: Part, instances: tuple[str, ...], index: int) -> CutInPart:
    cut = part.cuts[index]
    low, high = box_of_tools(cut.tools(part.blank))
    partners = [
        partner
        for instance in instances
        for partner, point in _contact_points(piece, placed_named(piece, instance))
        if all(low[axis] - _NEAR_MM <= point[axis] <= high[axis] + _NEAR_MM for axis in range(3))
    ]
    return CutInPart(kind=cut.kind, number=index + 1, partners=tuple(dict.fromkeys(partners)))


def _contact_points(piece: Piece, placed: Placed) -> list[tuple[str, Vector]]:
    """The other part of every joint of an instance, with the places they meet, part frame."""
    found = []
    for joining in piece.joinings:
        if placed.instance not in (joining.into, joining.incoming):
            continue
        is_into = joining.into == placed.instance
        partner = joining.incoming if is_into else joining.into
        for face in joining.faces:
            off = scaled(face.normal, face.drawn_play_mm if is_into else 0.0)
            found.append((partner, placed.placement.to_part(add(face.centre, off))))
    return found
