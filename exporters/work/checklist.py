"""The work as a checklist: stages, machines made ready, and what is ticked, all in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from exporters.work.cautions import cautions_for, hazards_of
from exporters.work.lines import Line
from exporters.work.names import strips_of, woods_in_words
from exporters.work.rig_words import rig_in_words, set_in_words
from exporters.work.steps import Step, steps_of
from exporters.work.words import WorkWords
from furniture.making.bench.cautions import Hazard
from furniture.making.making import Making
from furniture.making.operations import Kind
from furniture.making.settings import Machine
from furniture.pieces.piece import Piece

AT_THE_BENCH = "At the bench"
_TO_LINES = "Table saw, fence and sled"
_AS_BEFORE = "lies as before"


@dataclass(frozen=True, slots=True, kw_only=True)
class StageHead:
    """A stage of the work begins."""

    title: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MachineHead:
    """A machine is made ready, with what to mind at it."""

    title: str
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    """One thing to tick: its number, what is set to what, and a line for each kind of work."""

    number: str
    set_to: str
    lines: tuple[str, ...]


Entry = StageHead | MachineHead | Tick


_CLOSES = frozenset({Kind.GLUE, Kind.PUT_TOGETHER})


def checklist_of(piece: Piece, making: Making) -> tuple[Entry, ...]:
    """The making from its first operation to its last.

    Args:
        piece: that is made.
        making: of it.
    """
    return tuple(_entries(piece, making))


def key_to_strips(making: Making) -> tuple[str, ...]:
    """What each strip of the checklist is, one sentence for each.

    Args:
        making: of the piece.
    """
    names = strips_of(making)
    return tuple(
        f"{names[each.id].capitalize()}, the {each.id}: {', '.join(each.instances)}."
        for each in making.workpieces
        if each.id in names
    )


def _entries(piece: Piece, making: Making) -> Iterator[Entry]:
    words, told = WorkWords(piece, making, strips_of(making)), set[Hazard]()
    stage = machine = None
    lie = ""
    for step in steps_of(making):
        if step.stage is not stage:
            stage, machine, lie = step.stage, None, ""
            yield StageHead(title=stage.value)
        title = _machine(step, piece)
        hazards = hazards_of(step.operations, making)
        cautions = cautions_for(hazards, piece, told)
        if title != machine or cautions:
            is_plain = machine is None and title == AT_THE_BENCH
            machine, lie = title, ""
            if cautions or not is_plain:  # a stage begins at the bench, where nothing else is said
                yield MachineHead(title=title, cautions=cautions)
            told |= set(hazards)
        if step.board is not None:
            yield Tick(number=str(step.number), set_to="", lines=(_sawn_up(step, making),))
            continue
        closing = next((each for each in step.operations if each.kind in _CLOSES), None)
        if closing is not None:
            line = f"{words.line_of(closing)}, from the first word to the last"
            yield Tick(number=str(step.number), set_to="", lines=(line,))
            continue
        lines = words.lines_of(step)
        yield Tick(
            number=str(step.number),
            set_to=_set_to(step, words, piece),
            lines=tuple(_shortened(lines, lie)),
        )
        lie = lines[-1].lie


def _sawn_up(step: Step, making: Making) -> str:
    """A board sawn up to its lines, and what comes off it."""
    strips = strips_of(making)
    blanks = {each.id for each in making.workpieces if each.instances and each.source}
    made = [
        strips.get(name, name)
        for each in step.operations
        for name in each.gives
        if name in blanks and name not in each.takes
    ]
    count = len(step.operations)
    cuts = f"{count} cuts" if count > 1 else "1 cut"
    return f"{step.board}: saw it up as its sheet shows, {cuts}, for {woods_in_words(made)}"


def _machine(step: Step, piece: Piece) -> str:
    """The heading that a step stands under."""
    if step.board is not None:
        return _TO_LINES
    if step.rig is None or step.rig.machine is Machine.BENCH:
        return AT_THE_BENCH
    title = rig_in_words(step.rig, piece.shown)
    return title[:1].upper() + title[1:]


def _set_to(step: Step, words: WorkWords, piece: Piece) -> str:
    if step.set_up is None:
        return "" if step.rig is None else rig_in_words(step.rig, piece.shown)
    first = next(
        (each for each in step.operations if each.kind is not Kind.TEST_CUT), step.operations[0]
    )
    set_to = set_in_words(step.set_up, first, piece.shown)
    if step.resumes is not None:
        return f"{set_to}, as in {step.resumes}" if set_to else f"as in {step.resumes}"
    return f"{set_to}, or as measured" if set_to and words.is_as_measured(step) else set_to


def _shortened(lines: tuple[Line, ...], lie: str) -> Iterator[str]:
    """The lines in full, but where wood lies as that of the line before."""
    for line in lines:
        is_same = line.lie == lie and len(line.lie) > len(_AS_BEFORE)
        yield Line(wood=line.wood, what=line.what, lie=_AS_BEFORE if is_same else line.lie).text
        lie = line.lie
