"""What is looked at to say whether an order serves at the bench."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from furniture.making.operations import Axis, Kind, Operation
from furniture.pieces import Piece
from tests.making.history import Moment
from tests.making.order import Fault
from tests.making.replay import Making
from tests.making.solids import Placed

GLUED = frozenset({Kind.GLUE, Kind.PUT_TOGETHER})


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """A making, its passes with the wood in hand, and its parts where they stand in the piece."""

    making: Making
    moments: Sequence[Moment]
    piece: Piece
    placed: Placed

    @property
    def done(self) -> list[tuple[int, Operation]]:
        """Every operation with its place in the order."""
        return list(enumerate(self.making.operations))

    def of_kind(self, *kinds: Kind) -> list[tuple[int, Operation]]:
        """The operations of some kinds, with their places."""
        return [(at, each) for at, each in self.done if each.kind in kinds]

    def sized_at(self) -> Mapping[tuple[str, Axis], int]:
        """When each size is reached; what never is comes after all."""
        never = len(self.making.operations)
        found: dict[tuple[str, Axis], int] = defaultdict(lambda: never)
        for at, each in self.done:
            found |= {(size.instance, size.axis): at for size in each.sizes}
        return found

    def instances_of(self, operation: Operation) -> frozenset[str]:
        """The instances in what an operation takes, those that came off it before too."""
        return frozenset(name for wood in operation.takes for name in self.instances_in(wood))

    def instances_in(self, wood: str) -> tuple[str, ...]:
        """The instances in a workpiece."""
        return next(each.instances for each in self.making.workpieces if each.id == wood)


Rule = Callable[[Bench], Iterator[Fault]]
"""The faults of one kind."""
