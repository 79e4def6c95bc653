"""Where in the work a trim is made: with a set-up of the work sheets, or with one of its own."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from exporters.work.steps import Step, steps_of
from furniture.job import Verdict
from furniture.job.values import By, TakenOff
from furniture.making.making import Making
from furniture.making.operations import CutOf
from furniture.making.set_ups import Dial
from furniture.making.settings import Machine
from furniture.parts.faces import Face
from furniture.units import Amounts

_SAME_MM = 1e-6
_AT = {
    By.CROSSCUT: (Machine.TABLE_SAW, Dial.STOP, "stop"),
    By.RIP: (Machine.TABLE_SAW, Dial.FENCE, "fence"),
    By.PLANE: (Machine.PLANER, Dial.HEIGHT, "planer"),
}
"""What is set for a pass that leaves a stated size; the others go by eye or by hand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class InTheWork:
    """The steps of the work sheets that a trim may be made with.

    Args:
        steps: in order; none where no work is told.
        of_cuts: the number of the step that finishes each cut.
    """

    steps: tuple[Step, ...] = ()
    of_cuts: Mapping[CutOf, int] = field(default_factory=dict)

    def set_for(
        self, off: TakenOff, leaves_mm: float, called: Callable[[Face], str], show: Amounts
    ) -> str:
        """What is set for a trim, and the step that has it set; empty where nothing is.

        Args:
            off: what comes off.
            leaves_mm: the size across that face after this pass [mm].
            called: what a face of the part is called.
            show: how lengths are shown.
        """
        if off.by not in _AT:
            return ""
        machine, dial, word = _AT[off.by]
        if off.by is By.PLANE and off.face.axis != 2:
            return ""  # an edge is planed at the jointer, pass by pass
        told = f"{word} at {show(leaves_mm)}"
        if off.by is By.CROSSCUT:
            told += f", the {called(off.face.opposite)} at it"
        number = self._step(machine, dial, leaves_mm)
        if number is not None:
            return f"{told}, with step {number}"
        return f"{told}, a set-up of its own" if self.steps else told

    def step_of(self, instance: str, index: int) -> str:
        """The step that makes a cut, in words; empty where no step is told.

        Args:
            instance: of the new design.
            index: of its cut.
        """
        number = self.of_cuts.get(CutOf(instance, index))
        return "" if number is None else f" in step {number}"

    def _step(self, machine: Machine, dial: Dial, value_mm: float) -> int | None:
        for step in self.steps:
            set_up = step.set_up
            if set_up is None or set_up.rig.machine is not machine or set_up.times:
                continue
            if set_up.rig.tilt_deg or set_up.rig.turned_deg:
                continue
            if any(
                each is dial and abs(value - value_mm) <= _SAME_MM for each, value in set_up.figures
            ):
                return step.number
        return None


NOWHERE = InTheWork()
"""No work is told."""


def in_the_work(making: Making | None) -> InTheWork:
    """The steps of a making, and which of them finishes each cut.

    Args:
        making: that the work sheets tell; None where there is none.
    """
    if making is None:
        return NOWHERE
    steps = steps_of(making)
    return InTheWork(
        steps=steps,
        of_cuts={
            cut: step.number for step in steps for each in step.operations for cut in each.cuts
        },
    )


def left_after(verdict: Verdict) -> Sequence[tuple[TakenOff, float]]:
    """Each pass of a trim, with the size across its face when it is made [mm].

    Args:
        verdict: on one part.
    """
    size: dict[int, float] = {}
    found = []
    for off in verdict.off:
        axis = off.face.axis
        size[axis] = size.get(axis, off.before_mm) - off.mm
        found.append((off, size[axis]))
    return found
