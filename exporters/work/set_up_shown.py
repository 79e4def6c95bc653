"""What a small picture of a set-up shows: the pass, the wood before and after it, and the names."""

from __future__ import annotations

from dataclasses import dataclass, replace

from exporters.views.in_hand import Passed, left_of, passes_on
from exporters.work.lines import PlacementWords
from exporters.work.steps import Step
from exporters.work.words import WorkWords
from furniture.making.making import Making
from furniture.making.operations import Operation
from furniture.making.set_ups import Dial, standing_of
from furniture.making.settings import (
    Bored,
    CornerSlot,
    Easing,
    Hold,
    Machine,
    MitreGroove,
    Parallel,
    Skim,
    Slice,
    Surface,
    Trench,
)
from furniture.parts.faces import Face
from furniture.units import Shown, dialled, figure

_FAR = (Dial.STOP, Dial.BATTEN, Dial.FENCE, Dial.EXPOSED)
_HIGH = (Dial.HEIGHT, Dial.DEPTH)


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUpShown:
    """The first pass of a set-up, and what is written beside its picture.

    Args:
        operation: that is shown, on a machine.
        passed: its wood before and after it.
        down: what the face is called that lies down; empty where none is asked for.
        against: the same of the face at the fence, at the sled's fence or under the jig.
        stop: the same of the end at the stop.
        far: how far the cut lies from what it is set by, as a figure; empty where nothing is.
        high: how high the cutter stands, or how deep it goes; empty where it goes right through.
    """

    operation: Operation
    passed: Passed
    down: str = ""
    against: str = ""
    stop: str = ""
    far: str = ""
    high: str = ""

    @property
    def told(self) -> tuple[Dial, ...]:
        """What is set that nothing else has to say: how high the cutter stands, or how deep."""
        return _HIGH if self.high else ()

    @property
    def said(self) -> str:
        """How the wood lies, in words."""
        placements = (
            ("down", self.down),
            ("guided by", self.against),
            ("at the stop", self.stop),
        )
        return ", ".join(f"{where} {name}" for where, name in placements if name)


class SetUpsShown:
    """Says what the small pictures of a making show.

    Args:
        making: of the piece.
        words: that tell it.
        shown: how lengths are shown.
    """

    def __init__(self, making: Making, words: WorkWords, shown: Shown) -> None:
        self._words, self._shown = words, shown
        self._passed = dict(passes_on(making))
        left = left_of(making)
        for each in making.operations:  # a closed corner is shown by the part that is measured
            if isinstance(each.setting, CornerSlot) and each.setting.of in left:
                wood = left[each.setting.of]
                self._passed[each.key] = Passed(before=wood, after=wood)

    def of(self, step: Step) -> SetUpShown | None:
        """What the picture of a step shows: its first pass that something is set for.

        Args:
            step: of the making.

        Returns:
            None where nothing is set, or where the picture stands at an earlier step.
        """
        if step.board is not None or step.resumes is not None:
            return None
        passes = (each for each in step.operations if each.key in self._passed)
        first = next((each for each in passes if _is_shown(each)), None)
        if first is None:
            return None
        if isinstance(first.setting, CornerSlot):
            return self._of_corner(step, first, first.setting)
        hold = _held(first)
        down = first.setting.face if isinstance(first.setting, Surface) else hold.down
        is_drilled = isinstance(first.setting, Bored) and not _is_routed(first)
        stop = None if is_drilled else hold.stop
        standing = standing_of(first)
        known = {} if standing is None else dict(standing.figures)
        if isinstance(first.setting, MitreGroove):
            known.pop(Dial.STOP, None)  # to where the blade leaves the table, beyond the wood
        high = next((known[each] for each in _HIGH if each in known), None)
        is_deep = Dial.DEPTH in known or _is_routed(first)
        return SetUpShown(
            operation=replace(first, hold=hold),
            passed=self._passed[first.key],
            down=self._called(first, down),
            against=self._called(first, hold.against),
            stop=self._called(first, stop),
            far=self._far(step, first, known),
            high="" if high is None else f"{self._text(first, high)} {_DEEP[is_deep]}",
        )

    def _of_corner(self, step: Step, first: Operation, setting: CornerSlot) -> SetUpShown:
        """A closed corner in its cradle, cut through along its sharp line."""
        standing = standing_of(first)
        known = {} if standing is None else dict(standing.figures)
        return SetUpShown(
            operation=replace(first, hold=Hold(down=setting.long_face, stop=setting.off)),
            passed=self._passed[first.key],
            down=_IN_A_CRADLE,
            stop=self._called(replace(first, takes=(setting.of,)), setting.off),
            far=self._far(step, first, known),
            high=f"{self._text(first, setting.depth_mm)} {_DEEP[False]}",
        )

    def placement_in(self, shown: SetUpShown) -> PlacementWords:
        """How the wood lies in a picture, as its line would say it.

        Args:
            shown: in the picture.
        """
        if _is_routed(shown.operation):
            return ()  # its line says what the straight edge is measured from
        return self._words.bare_line_of(shown.operation).placement

    def _called(self, operation: Operation, face: Face | None) -> str:
        return "" if face is None else self._words.called(operation, face)

    def _text(self, operation: Operation, mm: float) -> str:
        """A figure as the words of its set-up have it."""
        by_rule = isinstance(operation.setting, Slice | Parallel)
        return figure(mm, self._shown) if by_rule else str(dialled(mm, self._shown))

    def _far(self, step: Step, first: Operation, known: dict[Dial, float]) -> str:
        """How far off the first cut is set; with spacers how that comes about."""
        far = next((known[each] for each in _FAR if each in known), None)
        if far is None:
            return ""
        set_up = step.set_up
        if set_up is None or not set_up.times:
            return self._text(first, far)
        spacer = dict(set_up.figures)[Dial.SPACER]
        last = self._text(first, far + set_up.times * spacer)
        return f"{last} – {set_up.times} x {self._text(first, spacer)}"


_IN_A_CRADLE = "corner, in the cradle"
_DEEP = {False: "high", True: "deep"}


def _is_routed(operation: Operation) -> bool:
    rig = operation.rig
    return rig is not None and rig.machine is Machine.ROUTER


def _held(operation: Operation) -> Hold:
    """How the wood lies: a router stands on the face that it works."""
    setting = operation.setting
    if _is_routed(operation) and isinstance(setting, Trench):
        return Hold(down=setting.face.opposite, stop=setting.off)
    if _is_routed(operation) and isinstance(setting, Bored):
        return Hold(down=setting.face.opposite, stop=setting.off[setting.beside])
    return operation.hold


def _is_shown(operation: Operation) -> bool:
    """Whether a picture tells more of a pass than that a face is made true."""
    standing = standing_of(operation)
    if standing is None:
        return False
    setting = operation.setting
    if isinstance(setting, MitreGroove) and operation.hold.down is None:
        return False  # wood that stands on its mitre: words tell of it
    leans = isinstance(setting, Skim) and bool(setting.lean_deg)
    return bool(standing.figures) or leans or isinstance(setting, Easing)
