"""Figures that follow what was measured at the bench: in which step that was, in words."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from exporters.work.steps import steps_of
from furniture.making.making import Making
from furniture.making.operations import FitTo, Follows, Kind, Operation
from furniture.units import listed

OF_THE_PART = frozenset({Follows.SIZE, Follows.PLACE, Follows.DEPTH})
"""What follows the size that a part is cut to at the bench."""


class ToFigure:
    """Tells in which step the figures were measured that an operation is set by.

    Args:
        making: of a piece.
    """

    def __init__(self, making: Making) -> None:
        self._steps = {one.key: step.number for step in steps_of(making) for one in step.operations}
        self._tried = {
            (each.rig, fit)
            for each in making.operations
            if each.kind is Kind.TEST_CUT
            for fit in each.fit_to
        }

    def of(self, operation: Operation, figures: Collection[Follows] = OF_THE_PART) -> str:
        """Such as `to the figure of step 8`; empty where nothing that was measured is followed.

        Args:
            operation: of the making.
            figures: that are asked for.
        """
        fits = [fit for fit in operation.fit_to if fit.figure in figures]
        steps = sorted({self._steps[fit.key] for fit in fits if fit.key in self._steps})
        if not fits:
            return ""
        if not steps:  # in the middle of a job: it was measured by an earlier work order
            return "to the figure measured before"
        name = "step" if len(steps) == 1 else "steps"
        return f"to the figure of {name} {listed([str(each) for each in steps])}"

    def otherwise(self, operation: Operation) -> str:
        """The same after a figure that is another where what was measured is: ` or to ...`.

        Args:
            operation: of the making.
        """
        said = self.of(operation)
        return f" or {said}" if said else ""

    def width_of(self, operation: Operation) -> str:
        """The same for a width, where no test cut of its rig has said it before.

        Args:
            operation: of the making.
        """
        own = tuple(self._untold(operation))
        return self.of(operation, {Follows.WIDTH}) if own else ""

    def _untold(self, operation: Operation) -> Iterator[FitTo]:
        for fit in operation.fit_to:
            is_tried = operation.kind is not Kind.TEST_CUT and (operation.rig, fit) in self._tried
            if fit.figure is Follows.WIDTH and not is_tried:
                yield fit
