"""The work as a checklist: stages, machines made ready, and what is ticked, all in words."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import takewhile

from exporters.work.cautions import OF_A_CUT, cautions_for, cautions_of_cuts, hazards_of
from exporters.work.lines import Line, PlacementWords
from exporters.work.names import counted_woods, strips_in
from exporters.work.rig_words import (
    TO_LONG_POINT,
    figures_in_words,
    rig_in_words,
    set_in_words,
)
from exporters.work.set_up_shown import SetUpShown, SetUpsShown
from exporters.work.steps import Step, is_set, steps_of
from exporters.work.strips_shown import StripsShown, strips_shown
from exporters.work.words import LAY_OUT, WorkWords
from furniture.making.bench.cautions import Hazard
from furniture.making.making import Making
from furniture.making.operations import CLOSES
from furniture.making.set_ups import Dial
from furniture.making.settings import Cutter, Machine
from furniture.making.workpieces import Wood, Workpiece
from furniture.pieces.piece import Piece
from furniture.units import dialled, figure
from furniture.units.showing import without_mark

AT_THE_BENCH = "At the bench"
_TO_LINES = "Table saw, by the sheets of the boards"
_AS_BEFORE: PlacementWords = ("lies as before",)


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
    """One thing to tick: its number, what is set to what, and a line for each kind of work.

    Args:
        number: of the step.
        set_to: what is set to what.
        lines: what is done.
        shown: what its small picture shows; None where it has none.
        beside: the lines without what that picture tells.
        set_beside: the same of what is set.
    """

    number: str
    set_to: str
    lines: tuple[str, ...]
    shown: SetUpShown | StripsShown | None = None
    beside: tuple[str, ...] = ()
    set_beside: str = ""


Entry = StageHead | MachineHead | Tick


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
    return tuple(
        f"{each.id[:1].upper()}{each.id[1:]}, in order: {', '.join(each.instances)}."
        for each in making.workpieces
        if each.what is Wood.COMMON_BLANK
    )


def side_by_side(making: Making) -> tuple[str, ...]:
    """How several of a piece are made by one list; nothing of one alone.

    Args:
        making: of the piece.
    """
    if making.copies < 2:
        return ()
    both = "both" if making.copies == 2 else f"all {making.copies}"
    return (
        f"{making.copies} are made by this list: each step for {both} before the next, and one "
        "set-up serves. Mark each part with its copy; what is measured is measured on each.",
    )


def rough_wood_in_words(piece: Piece, making: Making) -> str:
    """What is sawn before the first step, where no step saws it from a board; else empty.

    Args:
        piece: that is made.
        making: of it.
    """
    rough = [
        each
        for each in making.workpieces
        if each.source is None and each.what in _SAWN_ROUGH and not each.glued_of
    ]
    if not rough or making.done:
        return ""
    names = strips_in(making)
    alike: dict[str, list[str]] = {}
    for wood in rough:
        alike.setdefault(_rough_size(wood, piece), []).append(wood.id)
    told = (
        f"{counted_woods(piece, woods, names)}: {'each ' if len(woods) > 1 else ''}{size}"
        for size, woods in alike.items()
    )
    each = "" if making.copies < 2 else ", for each copy"
    return f"Sawn before step 1{each}, grain along the first figure: {'; '.join(told)}."


def _rough_size(wood: Workpiece, piece: Piece) -> str:
    """Its rough length and width, where being rounded needs no mark, and its true thickness."""
    long, wide, thick = (b - a for a, b in zip(wood.low, wood.high, strict=True))
    rough = (without_mark(figure(mm, piece.shown)) for mm in (long, wide))
    return " x ".join((*rough, str(dialled(thick, piece.shown))))


_SAWN_ROUGH = (Wood.COMMON_BLANK, Wood.PART, Wood.GLUED_STRIP)


def _entries(piece: Piece, making: Making) -> Iterator[Entry]:
    words, told = WorkWords(piece, making), set[Hazard]()
    stacked = set[Cutter]()  # so are the cutters that make a head
    pictures = SetUpsShown(making, words, piece.shown)
    laid = set[Line]()  # a way to lay out is told where it first serves
    told_in: dict[Hazard, int] = {}
    stage = machine = None
    placement: PlacementWords = ()
    steps = steps_of(making)
    for index, step in enumerate(steps):
        if step.stage is not stage:
            stage, machine, placement = step.stage, None, ()
            yield StageHead(title=stage.value)
        title = _machine(step, piece)
        if title != machine:
            at_it = takewhile(
                lambda each: each.stage is stage and _machine(each, piece) == title,  # noqa: B023
                steps[index:],
            )
            hazards = hazards_of((one for each in at_it for one in each.operations), making)
            cautions = cautions_for(hazards, piece, told.union(OF_A_CUT))
            is_plain = machine is None and title == AT_THE_BENCH
            machine, placement = title, ()
            if cautions or not is_plain:  # a stage begins at the bench, where nothing else is said
                yield MachineHead(title=_known(step, stacked, piece, title), cautions=cautions)
            told |= set(hazards)
        if step.board is not None:
            yield Tick(number=str(step.number), set_to="", lines=(_sawn_up(step, making, piece),))
            continue
        closing = next((each for each in step.operations if each.kind in CLOSES), None)
        if closing is not None:
            line = f"glue-up {closing.glue_up.number if closing.glue_up else ''}, pictured"
            yield Tick(number=str(step.number), set_to="", lines=(line,))
            continue
        lines = tuple(line for line in words.lines_of(step) if line not in laid)
        laid |= {line for line in lines if line.wood == LAY_OUT}
        common = _common_placement(lines)
        set_to = _set_to(step, words, piece)
        set_up = pictures.of(step)
        set_beside = _set_to(step, words, piece, () if set_up is None else set_up.told)
        longs = {each.long for each in lines if each.long}
        if TO_LONG_POINT in set_to and len(longs) == 1:
            point = f"{TO_LONG_POINT} on {longs.pop()}"
            set_to, set_beside = (
                each.replace(TO_LONG_POINT, point) for each in (set_to, set_beside)
            )
            lines = tuple(replace(each, long="") for each in lines)
        if most := _common_most(lines):
            set_to, set_beside = (
                ", ".join(filter(None, (each, most))) for each in (set_to, set_beside)
            )
            lines = tuple(replace(each, most="") for each in lines)
        drawn = () if set_up is None else pictures.placement_in(set_up)
        shown = set_up or strips_shown(piece, making, step)
        of_cuts = cautions_of_cuts(step.operations, making, piece, told_in)
        told_in = dict.fromkeys(of_cuts, step.number) | told_in
        minded = tuple(of_cuts.values())
        yield Tick(
            number=str(step.number),
            set_to=f"{set_to}; all {common}" if common and set_to else set_to,
            lines=(*minded, *_shortened(lines, placement, common if set_to else "")),
            shown=shown,
            beside=()
            if shown is None
            else (
                *minded,
                *_shortened(tuple(_as_drawn(lines, drawn)), (), common if set_to else ""),
            ),
            set_beside="" if shown is None else set_beside,
        )
        placement = lines[-1].placement


def _sawn_up(step: Step, making: Making, piece: Piece) -> str:
    """A board sawn up to its lines, and what comes off it."""
    given = {name for each in step.operations for name in set(each.gives) - set(each.takes)}
    made = [
        each.id for each in making.workpieces if each.instances and each.source and each.id in given
    ]
    count = len(step.operations)
    cuts = f"{count} cuts" if count > 1 else "1 cut"
    return f"{step.board}: {cuts}, for {counted_woods(piece, made, strips_in(making))}"


def _machine(step: Step, piece: Piece) -> str:
    """The heading that a step stands under."""
    if step.board is not None:
        return _TO_LINES
    if step.rig is None or step.rig.machine is Machine.BENCH:
        return AT_THE_BENCH
    title = rig_in_words(step.rig, piece.shown)
    return title[:1].upper() + title[1:]


def _known(step: Step, stacked: set[Cutter], piece: Piece, title: str) -> str:
    """The heading without what a head is made of, where it was told before."""
    rig = step.rig
    if rig is None or rig.cutter.stack is None:
        return title
    if rig.cutter not in stacked:
        stacked.add(rig.cutter)
        return title
    bare = rig_in_words(replace(rig, cutter=replace(rig.cutter, stack=None)), piece.shown)
    return bare[:1].upper() + bare[1:]


def _set_to(step: Step, words: WorkWords, piece: Piece, drawn: Collection[Dial] = ()) -> str:
    if step.set_up is None:
        if step.set_ups:  # each has a figure of its own; what they share is set once
            shared = set.intersection(*(set(each.figures) for each in step.set_ups))
            shared = {each for each in shared if each[0] not in drawn}
            figures = tuple(each for each in step.set_ups[0].figures if each in shared)
            return figures_in_words(figures, step.operations[-1], piece.shown)
        return "" if step.rig is None else rig_in_words(step.rig, piece.shown)
    first = next((each for each in step.operations if is_set(each)), None)
    if first is None:  # what stands there is set by a later step, and serves no pass of this one
        return ""
    set_to = set_in_words(step.set_up, first, piece.shown, drawn)
    if step.resumes is not None:
        return f"{set_to}, as in {step.resumes}" if set_to else ""
    return f"{set_to}{words.as_measured(step)}" if set_to else ""


def _common_placement(lines: Iterable[Line]) -> str:
    """Which face of all wood in a step is down, where there are three lines or more."""
    placements = [line.placement for line in lines if line.placement]
    downs = {down for down, *_ in placements}
    is_one = len(downs) == 1 and len(placements) > 2 and all(rest for _, *rest in placements)
    return downs.pop() if is_one else ""


def _common_most(lines: Iterable[Line]) -> str:
    """What is sawn off at most, where several lines of a step say the same."""
    found = [line.most for line in lines if line.most]
    return found[0] if len(found) > 1 and len(set(found)) == 1 else ""


def _as_drawn(lines: Iterable[Line], drawn: PlacementWords) -> Iterator[Line]:
    """The lines without how the wood lies where it lies as drawn, be it away from the stop.

    Once it was turned, it is said in full.
    """
    turned = set[str]()
    for each in lines:
        is_drawn = bool(each.placement) and drawn[: len(each.placement)] == each.placement
        if is_drawn and each.wood not in turned:
            yield replace(each, placement=())
            continue
        if each.placement:
            turned.add(each.wood)
        yield each


def _shortened(lines: tuple[Line, ...], placement: PlacementWords, common: str) -> list[str]:
    """The lines in full, but where wood lies as that of the line before, and what is common.

    What is done next to the same wood goes on in the same line.
    """
    texts: list[str] = []
    before = why = ""
    for line in lines:
        is_same = line.placement == placement and len(line.placement_in_words) > len(_AS_BEFORE[0])
        rest = line.placement[1:] if common and line.placement[:1] == (common,) else line.placement
        own = replace(line, placement=_AS_BEFORE if is_same else rest)
        if line.why == why:  # it is said with the line before
            own = replace(own, why="")
        if line.wood == before:
            texts[-1] += f". {own.without_wood}"
        else:
            texts.append(own.text)
        placement, before, why = line.placement, line.wood, line.why
    return texts
