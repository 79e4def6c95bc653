"""What the checks read off a piece: how its parts are held, turned, and which way they move."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from furniture.checks.finding import Finding, Sense, Verdict
from furniture.checks.seasons import Side
from furniture.joints.joint import Joining
from furniture.joints.relation import box_in, extent, overlap
from furniture.parts.part import Placed
from furniture.parts.placement import Box, box_of
from furniture.parts.vectors import Vector, dot, scaled
from furniture.pieces import Piece, placed_named
from furniture.timber.movement import Across, Sawn
from furniture.units import decimal_figure, figure_with_unit
from furniture.units.showing import ROUNDED_MARK

SMALL_MM = 3.0
"""Amounts below this are of the kind that a feeler gauge or a dial shows [mm]. Own rule."""
ACROSS = (Across.LENGTH, Across.WIDTH, Across.THICKNESS)
"""Which size a part's own axes 0, 1 and 2 are."""

HOUSINGS = frozenset({"dado", "rabbet", "stopped dado", "stopped rabbet", "groove"})
"""Kinds of joints that hold a part from one side; a rabbet without a fit is one along a rail."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A part's edge or end let into another: along the housing, into it, and the way out of it.

    `run` is what it covers of the other part, `out` the unit vector from that part's face towards
    the rest of the part, and `face_mm` that face's place along `out`, piece frame [mm].
    """

    joining: Joining
    into: Placed
    incoming: Placed
    out: Vector
    face_mm: float
    run_mm: float


def shown_by(piece: Piece) -> Callable[[float], str]:
    """What puts a length [mm] into the piece's unit.

    A small amount that the piece's step would spoil is shown to a dial's precision.
    """

    def show(mm: float) -> str:
        text = figure_with_unit(mm, piece.shown)
        is_spoilt = text.startswith(ROUNDED_MARK) or abs(mm) < piece.shown.step_mm
        if 1e-9 < abs(mm) < SMALL_MM and is_spoilt:
            return f"{decimal_figure(mm, piece.shown)} {piece.shown.unit.symbol}"
        return text.removeprefix(ROUNDED_MARK)

    return show


def side_of(placed: Placed, axis: int, size_mm: float | None = None) -> Side:
    """One size of a part as the seasons take it; how its rings lie is not known.

    Args:
        placed: the part in its place
        axis: its own axis: 0 along the grain, 1 across, 2 through
        size_mm: the size that counts [mm]; its whole size when left out

    **Source:** own rule: rings unknown, so the livelier way is taken.
    """
    timber = placed.part.timber
    return Side(
        part=placed.instance,
        species=timber.species,
        sawn=Sawn.UNKNOWN,
        across=ACROSS[axis],
        size_mm=placed.part.blank.size[axis] if size_mm is None else size_mm,
        made_at_pct=timber.moisture_pct,
    )


def axis_towards(placed: Placed, direction: Vector) -> int:
    """The part's own axis that lies most along a direction of the piece."""
    return max(range(3), key=lambda axis: abs(dot(placed.placement.axes[axis], direction)))


def is_upright(placed: Placed) -> bool:
    """Whether the part's grain runs up and down."""
    return abs(placed.placement.x_axis[2]) > 0.9


def held_of(piece: Piece, instance: str) -> tuple[Held, ...]:
    """Every housing that holds the part from one side, in the order of its joints.

    A panel that lies in the rabbets of rails is borne from below and is not held so.
    """
    return tuple(
        held
        for joining in piece.joinings
        if joining.incoming == instance and joining.seat is not None
        for held in [_held(piece, joining)]
        if held is not None
    )


def _held(piece: Piece, joining: Joining) -> Held | None:
    into, incoming = placed_named(piece, joining.into), placed_named(piece, joining.incoming)
    assert joining.seat is not None
    if joining.kind not in HOUSINGS or (joining.kind == "rabbet" and joining.fit is None):
        return None
    try:
        low, high = box_in(into, incoming)
    except ValueError:
        return None
    found: list[tuple[float, int, float]] = []
    for axis in (1, 2):
        size = into.part.blank.size[axis]
        if high[axis] > size + 1e-6 and 1e-6 < low[axis] < size:
            found.append((high[axis] - size, axis, 1.0))
        elif low[axis] < -1e-6 and 1e-6 < high[axis] < size:
            found.append((-low[axis], axis, -1.0))
    if not found:
        return None
    _, axis, sign = max(found)
    out = scaled(into.placement.axes[axis], sign)
    surface = [0.0, 0.0, 0.0]
    surface[axis] = into.part.blank.size[axis] if sign > 0.0 else 0.0
    face = dot(into.placement.to_piece((surface[0], surface[1], surface[2])), out)
    return Held(
        joining=joining, into=into, incoming=incoming, out=out, face_mm=face,
        run_mm=joining.seat.run_mm,
    )  # fmt: skip


def merged(held: Sequence[Held]) -> tuple[tuple[Held, ...], ...]:
    """The housings by the side that they hold from: strips of one post count as one post."""
    groups: list[list[Held]] = []
    for each in held:
        for group in groups:
            if dot(group[0].out, each.out) > 0.9 and abs(group[0].face_mm - each.face_mm) < 1e-6:
                group.append(each)
                break
        else:
            groups.append([each])
    return tuple(tuple(group) for group in groups)


def patch_of(into: Placed, incoming: Placed) -> tuple[tuple[int, int, float], ...]:
    """Where two parts lie against each other: for both ways of that face, axes and size [mm].

    Each entry holds the axis of `into`, the axis of the incoming part and the common length.
    Nothing where they do not stand square to each other.
    """
    try:
        low, high = box_in(into, incoming)
    except ValueError:
        return ()
    blank = into.part.blank
    sizes = []
    for axis in range(3):
        start, end = overlap((low[axis], high[axis]), extent(blank, axis))
        direction = into.placement.axes[axis]
        sizes.append((axis, axis_towards(incoming, direction), end - start))
    sizes.sort(key=lambda each: each[2])
    return tuple(sizes[1:]) if sizes[1][2] > 0.0 else ()


def box_round(placed: Placed) -> Box:
    """The upright box round a placed blank [mm]."""
    return box_of(placed.part.blank, placed.placement)


def most_telling(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """For each check all that is not in order, or else the one that is nearest to its limit.

    The one that stands for several says so in its basis.
    """
    groups: dict[str, list[Finding]] = {}
    for each in findings:
        groups.setdefault(each.check, []).append(each)
    told: list[Finding] = []
    for group in groups.values():
        amiss = [each for each in group if each.verdict is not Verdict.OK]
        if amiss:
            told.extend(amiss)
            continue
        told.append(_standing_for(group, "the nearest to its limit"))
    return tuple(told)


def worst_alone(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """For each check its worst finding alone; others not in order are counted and named with it."""
    groups: dict[str, list[Finding]] = {}
    for each in findings:
        groups.setdefault(each.check, []).append(each)
    return tuple(_standing_for(group, "the worst") for group in groups.values())


def room_left(finding: Finding) -> float:
    """How far the value is inside its limit, as a share of it; infinite where there is none."""
    value, limit = finding.value, finding.limit
    if value is None or limit is None or finding.sense is None:
        return float("inf")
    if limit == 0.0:
        return abs(value)
    share = value / limit - 1.0
    return share if finding.sense is Sense.AT_LEAST else -share


GRAVEST_FIRST = {Verdict.FAIL: 0, Verdict.CAUTION: 1, Verdict.OK: 2}


def badness(finding: Finding) -> tuple[int, float]:
    """Orders findings: the gravest verdict first, then the least room."""
    return (GRAVEST_FIRST[finding.verdict], round(room_left(finding), 6))


def _standing_for(group: Sequence[Finding], how: str) -> Finding:
    worst = min(group, key=badness)
    if len(group) == 1:
        return worst
    others = [
        each.subject
        for each in group
        if each is not worst and each.verdict is not Verdict.OK and each.subject != worst.subject
    ]
    also = f"; the same of {', '.join(others)}" if others else ""
    subject = f"{worst.subject} and {len(others)} more" if others else worst.subject
    return replace(worst, subject=subject, basis=f"{how} of {len(group)}: {worst.basis}{also}")
