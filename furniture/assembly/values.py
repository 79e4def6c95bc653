"""What a proof of assembly says: the steps in order, or what cannot be put together and why."""

from __future__ import annotations

from dataclasses import dataclass

from furniture.parts.vectors import Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One move: a part or a sub-assembly pushed straight home onto another.

    Args:
        moving: the instances that move, as one.
        onto: the instances that stand still, already together.
        direction: unit vector of the move home, piece frame.
        joints: the joints that close, each as (into, incoming).
    """

    moving: tuple[str, ...]
    onto: tuple[str, ...]
    direction: Vector
    joints: tuple[tuple[str, str], ...]


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
