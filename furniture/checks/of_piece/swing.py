"""How far a lid on hinges opens before it strikes what stands above or behind it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import product

from furniture.checks.finding import Finding, Show
from furniture.checks.rows.open_lid import SWING
from furniture.parts.part import Placed
from furniture.parts.placement import Box, box_of
from furniture.parts.vectors import Vector, cross, dot, scaled, subtract, turned_about
from furniture.pieces import Piece, TurnsOpen, placed_named

_STEP_DEG, _FINE_DEG, _FLAT_DEG = 1.0, 0.05, 180.0
"""How finely a turn is looked at, and how far: right back."""
_TOUCH_MM = 0.05
"""So much may two boxes share and only touch [mm]. Own rule."""
_STEP_MM, _MOST_STEPS = 1.0, 400
"""How finely and how far a hinge is tried further away. Own rule."""

Plane = tuple[float, float]


def swing_findings(piece: Piece, turns: TurnsOpen, show: Show) -> Iterator[Finding]:
    """Whether a lid opens as far as its stay lets it.

    Args:
        piece: the piece as cut
        turns: the lid
        show: shows amounts

    **Source:** geometry, boxes turned about a line; two convex outlines are apart where some side
    of either parts them.
    """
    swing = _Swing(turns, placed_named(piece, turns.instance))
    others = [each for each in piece.placed if each.instance != turns.instance]
    beside = [each for each in others if swing.is_beside(each)]
    reaching = [each.instance for each in beside if swing.strikes(each, 0.0)]
    tried = [each for each in beside if each.instance not in reaching]
    struck = swing.first_struck(tried)
    angle = _FLAT_DEG if struck is None else struck[0]
    told = "nothing is in its way" if struck is None else f"it strikes {struck[1]}"
    left_out = f"; not looked at: {', '.join(reaching)}, which it is cut round" if reaching else ""
    is_amiss = angle <= turns.opens_deg
    yield Finding(
        check=SWING,
        subject=turns.instance,
        value=angle,
        limits=SWING.limits(fails=turns.opens_deg),
        basis=f"opened about its pin, {told}{left_out}",
        advice=_advice(swing, tried, struck[1], show) if struck is not None and is_amiss else "",
    )


def _advice(swing: _Swing, others: Sequence[Placed], struck: str, show: Show) -> str:
    """How far away the hinge would have to be, else what is in the way."""
    for step in range(1, _MOST_STEPS):
        away = step * _STEP_MM
        hit = swing.moved(away).first_struck(others)
        if hit is None or hit[0] > swing.opens_deg:
            by = show(show.up(away))
            return f"hang it {by} further from {struck}, or bring {struck} {by} back"
    return f"leave the lid loose, or {struck} out"


class _Swing:
    """A lid in the plane that it turns in: along its reach and its rise, from the pin [mm]."""

    def __init__(self, turns: TurnsOpen, lid: Placed, away: float = 0.0) -> None:
        self._turns, self._lid, self._away = turns, lid, away
        front = subtract(turns.front, turns.pin)
        flat = subtract(front, scaled(turns.axis, dot(turns.axis, front)))
        main = max(range(3), key=lambda axis: abs(flat[axis]))
        self._reach: Vector = tuple(  # type: ignore[assignment]
            math.copysign(1.0, flat[main]) if axis == main else 0.0 for axis in range(3)
        )
        self._rise = cross(turns.axis, self._reach)
        self._run = _along(box_of(lid.part.blank, lid.placement), turns.axis)

    def moved(self, away: float) -> _Swing:
        """The same hung so much further along its reach [mm]."""
        return _Swing(self._turns, self._lid, away)

    @property
    def opens_deg(self) -> float:
        """How far its stay lets it open."""
        return self._turns.opens_deg

    def is_beside(self, other: Placed) -> bool:
        """Whether another part comes into the slice of space that it sweeps."""
        low, high = _along(box_of(other.part.blank, other.placement), self._turns.axis)
        return low < self._run[1] - _TOUCH_MM and high > self._run[0] + _TOUCH_MM

    def _flat(self, point: Vector) -> Plane:
        arm = subtract(point, self._turns.pin)
        return dot(arm, self._reach), dot(arm, self._rise)

    def _opened(self, by_deg: float) -> list[Plane]:
        """The lid's outline, open so far."""
        turns, blank, place = self._turns, self._lid.part.blank, self._lid.placement
        corners = (
            place.to_piece((x, y, z)) for x, y, z in product(*((0.0, side) for side in blank.size))
        )
        flat = (self._flat(turned_about(each, turns.pin, turns.axis, by_deg)) for each in corners)
        return [(x + self._away, y) for x, y in flat]

    def _outline(self, other: Placed) -> list[Plane]:
        low, high = box_of(other.part.blank, other.placement)
        return [self._flat(point) for point in product(*zip(low, high, strict=True))]  # type: ignore[arg-type]

    def strikes(self, other: Placed, by_deg: float) -> bool:
        """Whether it and another part share room when it is open so far."""
        angle = math.radians(by_deg)
        sides = ((1.0, 0.0), (0.0, 1.0), (math.cos(angle), math.sin(angle)),
                 (-math.sin(angle), math.cos(angle)))  # fmt: skip
        mine, theirs = self._opened(by_deg), self._outline(other)
        return all(_shared(mine, theirs, side) > _TOUCH_MM for side in sides)

    def first_struck(self, others: Sequence[Placed]) -> tuple[float, str] | None:
        """How far it opens, and what it strikes then; none where it folds right back."""
        for step in range(1, round(_FLAT_DEG / _STEP_DEG) + 1):
            angle = step * _STEP_DEG
            hit = next((each for each in others if self.strikes(each, angle)), None)
            if hit is not None:
                while angle > 0.0 and self.strikes(hit, angle - _FINE_DEG):
                    angle -= _FINE_DEG
                return max(0.0, angle - _FINE_DEG), hit.instance
        return None


def _along(box: Box, way: Vector) -> tuple[float, float]:
    first, last = dot(box[0], way), dot(box[1], way)
    return min(first, last), max(first, last)


def _shared(one: Sequence[Plane], other: Sequence[Plane], side: Plane) -> float:
    """How much two outlines share along a way [mm]; below nothing apart."""
    spans = [[x * side[0] + y * side[1] for x, y in outline] for outline in (one, other)]
    return min(max(each) for each in spans) - max(min(each) for each in spans)
