"""What the checks read off a piece: how its parts are held, turned, and which way they move."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from furniture.checks.check import Check
from furniture.checks.finding import GRAVEST_FIRST, Finding, Sense, Verdict
from furniture.checks.seasons import Side
from furniture.joints.joint import Joining, Role
from furniture.joints.reading import Housing, housing_of
from furniture.joints.relation import box_in, extent, overlap
from furniture.parts.part import Placed
from furniture.parts.placement import Box, box_of
from furniture.parts.vectors import Vector, dot, scaled
from furniture.pieces import Piece, placed_named
from furniture.timber.movement import Across
from furniture.units import Amounts, listed

_Case = TypeVar("_Case")
MOST_NAMED, MOST_LETTERS = 4, 44
"""How many others, and how many letters of them, are named beside the worst. Own rule."""
ACROSS = (Across.LENGTH, Across.WIDTH, Across.THICKNESS)
"""Which size a part's own axes 0, 1 and 2 are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A part's edge or end let into another: along the housing, into it, and the way out of it.

    `housing` is what of it is let in, `out` the unit vector from that part's face towards
    the rest of the part, and `face_mm` that face's place along `out`, piece frame [mm].
    """

    joining: Joining
    into: Placed
    incoming: Placed
    out: Vector
    face_mm: float
    housing: Housing

    @property
    def run_mm(self) -> float:
        """What it covers of the other part [mm]."""
        return self.housing.run_mm


def shown_by(piece: Piece) -> Amounts:
    """What puts lengths, forces, masses and stresses into the piece's unit."""
    return Amounts(shown=piece.shown)


def side_of(placed: Placed, axis: int, size_mm: float | None = None) -> Side:
    """One size of a part as the seasons take it, its rings as its stock says.

    Args:
        placed: the part in its place
        axis: its own axis: 0 along the grain, 1 across, 2 through
        size_mm: the size that counts [mm]; its whole size when left out

    **Source:** own rule: where its stock does not say how the rings lie, the livelier way is taken.
    """
    timber = placed.part.timber
    return Side(
        part=placed.instance,
        species=timber.species,
        sawn=timber.sawn,
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
        if joining.incoming == instance and joining.role is Role.HOUSING
        for held in [_held(piece, joining)]
        if held is not None
    )


def _held(piece: Piece, joining: Joining) -> Held | None:
    into, incoming = placed_named(piece, joining.into), placed_named(piece, joining.incoming)
    housing = housing_of(joining, incoming)
    if housing is None:
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
        housing=housing,
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


def worst_alone(findings: Iterable[Finding], show: Amounts | None = None) -> tuple[Finding, ...]:
    """For each check its worst finding alone; others not in order are counted and named with it.

    Args:
        findings: of any checks
        show: puts the figures of the others into words; without it they are only named
    """
    groups: dict[Check, list[Finding]] = {}
    for each in findings:
        groups.setdefault(each.check, []).append(each)
    return tuple(_standing_for(group, show) for group in groups.values())


def advised(
    cases: Iterable[_Case],
    bare: Callable[[_Case], Iterable[Finding]],
    whole: Callable[[_Case], Iterable[Finding]],
) -> list[Finding]:
    """The findings on several cases, with the whole advice where one speaks for its check.

    Args:
        cases: what is judged
        bare: its findings without advice that is dear, as what has to be tried by building
        whole: the same with it
    """
    rows = [(case, tuple(bare(case))) for case in cases]
    groups: dict[Check, list[Finding]] = {}
    for each in (each for _, row in rows for each in row):
        groups.setdefault(each.check, []).append(each)
    speaking = {id(min(group, key=badness)) for group in groups.values()}
    return [
        each
        for case, row in rows
        for each in (whole(case) if any(id(own) in speaking for own in row) else row)
    ]


def room_left(finding: Finding) -> float:
    """How far the value is inside its limit, as a share of it; infinite where there is none."""
    value, limit = finding.value, finding.limit
    if value is None or limit is None or finding.sense is None:
        return float("inf")
    if limit == 0.0:
        return abs(value)
    share = value / limit - 1.0
    return share if finding.sense is Sense.AT_LEAST else -share


def badness(finding: Finding) -> tuple[int, float, float]:
    """Orders findings: the gravest verdict first, then the least room, then the worse value."""
    sign = 1.0 if finding.check.sense is Sense.AT_LEAST else -1.0
    worse = 0.0 if finding.value is None else sign * round(finding.value, 6)
    return (GRAVEST_FIRST.index(finding.verdict), round(room_left(finding), 6), worse)


def _standing_for(group: Sequence[Finding], show: Amounts | None) -> Finding:
    worst = min(group, key=badness)
    if len(group) == 1:
        return worst
    others = [
        each for each in group if each.verdict is not Verdict.OK and each.subject != worst.subject
    ]
    names = list(dict.fromkeys(each.subject for each in others))
    told = ", ".join(names) if show is None else with_figures(others, show)
    also = f"; the same of {told}" if told else ""
    subject = told_with(worst.subject, names)
    return replace(worst, subject=subject, basis=f"the worst of {len(group)}: {worst.basis}{also}")


def with_figures(findings: Iterable[Finding], show: Amounts) -> str:
    """Each subject with its worst figure and, where it changes, its limit: the worst first.

    Args:
        findings: of one check
        show: puts their figures into words
    """
    worst: dict[str, Finding] = {}
    for each in sorted(findings, key=badness):
        worst.setdefault(each.subject, each)
    told, before = [], ""
    for each in worst.values():
        value = "" if each.value is None else f": {show.of_unit(each.value, each.unit)}"
        limit = "" if each.limit is None else f" beside {show.of_unit(each.limit, each.unit)}"
        told.append(f"{each.subject}{value}{limit if limit != before else ''}")
        before = limit
    return ", ".join(told)


def told_with(worst: str, others: Sequence[str]) -> str:
    """The worst subject and the others with it, by name where they are few and short.

    Words that all of them share are told once: `back edge (also front and left)`, and those before
    a number too: `tier 2 (also 3 and 4)`.

    Args:
        worst: the subject that speaks for all
        others: the others that are not in order
    """
    if not others:
        return worst
    tail = _common_tail([worst, *others])
    first, *heads = (
        each.removesuffix(tail).rstrip(",") for each in dict.fromkeys([worst, *others])
    )
    heads = _less_common_head(first, heads)
    told = listed(heads)
    if len(heads) > MOST_NAMED or len(told) > MOST_LETTERS:
        return f"{worst} and {len(others)} more"
    return f"{worst} (also {told})"


def _common_tail(names: Sequence[str]) -> str:
    words = [each.split(" ") for each in names]
    count = 0
    while all(len(each) > count + 1 for each in words) and (
        len({each[len(each) - 1 - count] for each in words}) == 1
        and not words[0][len(words[0]) - 1 - count].isdigit()
    ):
        count += 1
    return " " + " ".join(words[0][len(words[0]) - count :]) if count else ""


def _less_common_head(first: str, names: Sequence[str]) -> list[str]:
    """The numbers alone of names that are the first one's but for a number at their end."""
    head = first.rpartition(" ")[0]
    numbers = [each.rpartition(" ") for each in names]
    if all(start == head and last.isdigit() for start, _, last in numbers):
        return [last for *_, last in numbers]
    return list(names)
