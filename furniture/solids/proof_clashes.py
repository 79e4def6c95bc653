"""Two joints that fight over the same wood: cuts on one part that overlap, though not by design."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from furniture.parts.blank import Blank
from furniture.parts.cuts import (
    Bevel,
    Bore,
    Cut,
    Dado,
    FlatMitre,
    Groove,
    KeySlot,
    Mitre,
    Notch,
    Profile,
    Rabbet,
    Slot,
    SplineGroove,
)
from furniture.parts.faces import Face
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

_Trench = Dado | Groove | Rabbet


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
class Clash:
    """Two cuts of one part that both claim some wood, and how much [mm3]."""

    part: str
    first: CutInPart
    second: CutInPart
    volume_mm3: float

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
    or into the rabbet round the corner, a dado into the rabbet along an edge), a spline's groove or
    a key's slot in its mitre, trenches crossing square on one face, a bore or slot wholly inside a
    trench and square to it, a bore in line with another, and any edge profile. Own rule, after
    common practice.
    """
    return tuple(
        clash
        for distinct in distinct_parts(piece)
        for clash in _clashes_in(piece, distinct.part, distinct.instances)
    )


def _clashes_in(piece: Piece, part: Part, instances: tuple[str, ...]) -> list[Clash]:
    blank = part.blank
    boxes = [shared_box(blank_box(blank), box_of_tools(cut.tools(blank))) for cut in part.cuts]
    found = []
    for (i, first), (j, second) in combinations(enumerate(part.cuts), 2):
        a, b = boxes[i], boxes[j]
        block = None if a is None or b is None else shared_box(a, b)
        if block is None or _is_by_design(first, second, blank):
            continue
        sawn_off = [cut for cut in part.cuts if _is_sloping(cut) and cut not in (first, second)]
        volume = _shared_wood(block, first, second, sawn_off, blank)
        if volume >= LEAST_CLASH_MM3:
            found.append(
                Clash(
                    part=part.name,
                    first=_named(piece, part, instances, i),
                    second=_named(piece, part, instances, j),
                    volume_mm3=volume,
                )
            )
    return found


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


def _is_sloping(cut: Cut) -> bool:
    return isinstance(cut, (Mitre, FlatMitre, Bevel))


def _is_by_design(first: Cut, second: Cut, blank: Blank) -> bool:
    if isinstance(first, Profile) or isinstance(second, Profile):
        return True
    return any(
        _runs_out(a, b) or _lies_inside(a, b, blank) for a, b in ((first, second), (second, first))
    ) or _cross_or_line_up(first, second)


def _runs_out(trench: Cut, other: Cut) -> bool:
    """Whether a trench, or a sloping cut, leaves the wood through a face the other opens."""
    if isinstance(trench, (Dado, Groove, Rabbet)):
        return any(face.axis == _run_axis(trench) for face in _opened(other))
    if isinstance(trench, (SplineGroove, KeySlot)) and isinstance(other, (Mitre, FlatMitre)):
        return trench.end is other.end
    if isinstance(trench, SplineGroove):
        return any(face.axis == trench.third_axis for face in _opened(other))
    if _is_sloping(trench) and _is_sloping(other):
        return _opened(trench)[0].axis != _opened(other)[0].axis
    return False


def _lies_inside(opening: Cut, trench: Cut, blank: Blank) -> bool:
    """Whether a bore or slot goes square into a trench without touching its walls."""
    if not isinstance(opening, (Bore, Slot)) or not isinstance(trench, (Dado, Groove, Rabbet)):
        return False
    across = opening.face.axis
    if all(face.axis != across for face in _opened(trench)):
        return False
    (low, high), (wall_low, wall_high) = (
        box_of_tools(cut.tools(blank)) for cut in (opening, trench)
    )
    return all(
        wall_low[axis] <= low[axis] and high[axis] <= wall_high[axis]
        for axis in range(3)
        if axis != across
    )


def _cross_or_line_up(first: Cut, second: Cut) -> bool:
    if isinstance(first, (Dado, Groove, Rabbet)) and isinstance(second, (Dado, Groove, Rabbet)):
        return first.face is second.face and _run_axis(first) != _run_axis(second)
    if isinstance(first, Bore) and isinstance(second, Bore):
        axis = first.face.axis
        gaps = [
            abs((a or 0.0) - (b or 0.0))
            for index, (a, b) in enumerate(zip(_centre(first), _centre(second), strict=True))
            if index != axis
        ]
        return axis == second.face.axis and max(gaps) < _NEAR_MM
    return False


def _centre(bore: Bore) -> tuple[float | None, float | None, float | None]:
    return (bore.x_mm, bore.y_mm, bore.z_mm)


def _run_axis(trench: _Trench) -> int:
    if isinstance(trench, Rabbet):
        return 1 - trench.edge.axis
    return 1 if isinstance(trench, Dado) else 0


def _opened(cut: Cut) -> tuple[Face, ...]:
    """The faces that a cut opens along its whole run."""
    if isinstance(cut, (Dado, Groove)):
        return (cut.face,)
    if isinstance(cut, Rabbet):
        return (cut.edge, cut.face)
    if isinstance(cut, (Mitre, FlatMitre)):
        return (cut.end,)
    if isinstance(cut, (Bevel, Notch)):
        return (cut.edge,)
    return ()


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
        for contact in joining.contacts:
            off = scaled(contact.towards, contact.stand_off_mm if is_into else 0.0)
            found.append((partner, placed.placement.to_part(add(contact.at, off))))
    return found
