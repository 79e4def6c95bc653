"""What a proof of assembly says: the steps in order, or what cannot be put together and why."""

from __future__ import annotations

from dataclasses import dataclass

from furniture.parts.vectors import Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class LegBefore:
    """The first leg of a move in two: its unit vector, and how much of the second is left [mm]."""

    way: Vector
    left_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One move: a part or a sub-assembly pushed straight home onto another.

    Args:
        moving: the instances that move, as one.
        onto: the instances that stand still, already together.
        direction: unit vector of the move home, piece frame.
        joints: the joints that close, each as (into, incoming).
        before: the leg before it, when the move has two: from afar along `way`, until `left_mm` are
            left along `direction`.
    """

    moving: tuple[str, ...]
    onto: tuple[str, ...]
    direction: Vector
    joints: tuple[tuple[str, str], ...]
    before: LegBefore | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AssemblyPlan:
    """An order in which the piece goes together, first step first."""

    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class NoOrder:
    """Parts that lock one another, so that no straight move puts them together.

    Args:
        stuck: the instances; take any one of them away and the rest go together.
        reason: why, in one plain sentence or two, naming them.
    """

    stuck: tuple[str, ...]
    reason: str
