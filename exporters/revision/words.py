"""Verdicts in a maker's words: what to do, with which figures, and why."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import assert_never

from exporters.faces import FaceNames
from exporters.revision.in_the_work import NOWHERE, InTheWork, left_after
from furniture.job import Say, Verdict
from furniture.job.values import (
    By,
    CutToMake,
    CutWork,
    GoesElsewhere,
    Grown,
    InTheWay,
    IsSpoilt,
    NothingOfIt,
    OtherWood,
    Stays,
    TakenOff,
    TooSmall,
    TooThin,
    Turn,
    Why,
)
from furniture.parts.faces import Face
from furniture.parts.part import Part
from furniture.pieces import Piece, placed_named
from furniture.pieces.cut_faults import cut_in_words
from furniture.units import Amounts, finished_size, listed

WORST_FIRST = (Say.MAKE_NEW, Say.RECUT, Say.TRIM, Say.NOT_NEEDED, Say.NOT_CUT, Say.AS_IS)
"""The order in which a maker needs to hear of them."""

_TAKES_OFF = {
    By.CROSSCUT: "crosscut {} off the {}",
    By.SKIM: "skim {} off the {} at the crosscut",
    By.RIP: "rip {} off the {}",
    By.PLANE: "plane {} off the {}",
    By.HAND_PLANE: "plane {} off the {} by hand (too small for the machine)",
    By.HAND_SAW: "saw {} off the {} by hand (too small for the machine)",
    By.CUT: "{} comes off the {} with its cut",
}
_LACKS = ("short", "narrow", "thin")
_TURNED = {
    Turn.NONE: "",
    Turn.OVER_ALONG: ", turned over about its length",
    Turn.END_FOR_END_AND_OVER: ", turned over end for end",
    Turn.END_FOR_END: ", turned end for end",
}
_ALONG = ("along the grain", "across the grain", "through the thickness")


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """Parts of one verdict with the same to do.

    Args:
        instances: that it is said of.
        say: the verdict.
        how: what to do, a step each.
        why: what keeps the wood of the same name from serving, or what lies near now.
        was: the size before, or that of what goes; empty where nothing was.
        now: the size now; empty where nothing is.
    """

    instances: tuple[str, ...]
    say: Say
    how: tuple[str, ...]
    why: tuple[str, ...]
    was: str
    now: str


def told_of(
    verdicts: Sequence[Verdict], piece: Piece, work: InTheWork = NOWHERE
) -> tuple[Told, ...]:
    """Every verdict in words, worst first, those that say the same together.

    Args:
        verdicts: on every part.
        piece: the new design.
        work: in whose set-ups it is trimmed.
    """
    gone = {each.instance: each for each in verdicts if each.say is Say.NOT_NEEDED}
    groups: dict[tuple[object, ...], list[str]] = {}
    for say in WORST_FIRST:
        for each in verdicts:
            if each.say is say:
                key = (say, *_said(each, gone.get(each.instance), piece, work))
                groups.setdefault(key, []).append(each.instance)
    return tuple(
        Told(instances=tuple(names), say=say, how=how, why=why, was=was, now=now)  # type: ignore[arg-type]
        for (say, how, why, was, now), names in groups.items()
    )


def how_words(verdict: Verdict, piece: Piece, work: InTheWork = NOWHERE) -> tuple[str, ...]:
    """What to do, in order, a step each.

    Args:
        verdict: on one part.
        piece: the new design.
        work: in whose set-ups it is trimmed.
    """
    show = Amounts(shown=piece.shown)
    if verdict.say is Say.NOT_NEEDED:
        serves = ", ".join(verdict.serves)
        return (f"keep it: it would hold {serves}" if serves else "put it with the offcuts",)
    if verdict.say is Say.AS_IS:
        is_own = verdict.old is None or verdict.old.name == verdict.instance
        taken = () if is_own else (f"take what was cut as {_from(verdict)}",)
        part = placed_named(piece, verdict.instance).part
        return (*taken, *(_stays_words(each, part, show) for each in verdict.stays))
    if verdict.say is Say.NOT_CUT:
        return ("make it by its new sheet",)
    part, called = placed_named(piece, verdict.instance).part, _names_in(piece, verdict)
    return (
        *_sawn_out(verdict),
        *_taken_from(verdict, called, show),
        *(
            _off_words(off, work.set_for(off, left, called, show), called, show)
            for off, left in left_after(verdict)
        ),
        *(
            _cut_words(each, part, called, show) + work.step_of(verdict.instance, each.index)
            for each in verdict.cuts
        ),
        *(_stays_words(each, part, show) for each in verdict.stays),
    )


def why_words(verdict: Verdict, piece: Piece) -> tuple[str, ...]:
    """Why the wood of its name does not serve, and what of a trimmed part lies near an edge.

    Args:
        verdict: on one part.
        piece: the new design.
    """
    show = Amounts(shown=piece.shown)
    if verdict.say is Say.NOT_NEEDED:
        return ()
    part = placed_named(piece, verdict.instance).part
    called = _names_in(piece, verdict)
    near = (
        f"{_the_cut(part, each.index)} is then {show(each.wood_mm)} from the "
        f"{called(each.face)}; {show(each.asked_mm)} are usual"
        for each in verdict.near
    )
    return (*_once(_why_words(each, part, show) for each in verdict.why), *near)


def _said(
    verdict: Verdict, gone: Verdict | None, piece: Piece, work: InTheWork
) -> tuple[tuple[str, ...], tuple[str, ...], str, str]:
    """Its words; the size that a part made new had is that of what goes in its place."""
    old = verdict.old or (gone.old if gone else None)
    was = "" if old is None else finished_size(old.blank.size, piece.shown)
    now = ""
    if verdict.say is not Say.NOT_NEEDED:
        blank = placed_named(piece, verdict.instance).part.blank
        now = finished_size(blank.size, piece.shown)
    return how_words(verdict, piece, work), why_words(verdict, piece), was, now


def _from(verdict: Verdict) -> str:
    assert verdict.old is not None
    assert verdict.place is not None
    return f"{verdict.old.name}{_TURNED[verdict.place.turn]}"


Called = Callable[[Face], str]
"""What a face of the new part is called by where it is in the piece."""


def _names_in(piece: Piece, verdict: Verdict) -> Called:
    names = FaceNames(piece=piece)
    return lambda face: names.of((verdict.instance,), face)


def _sawn_out(verdict: Verdict) -> Iterator[str]:
    """What is given up of a length goes, and its neighbours stay."""
    if verdict.beside:
        yield (
            f"where the old one still hangs on one length with {listed(verdict.beside)}, saw it "
            "out in its own wood"
        )


def _taken_from(verdict: Verdict, called: Called, show: Amounts) -> Iterator[str]:
    """Where in another part it is taken, struck from the new part's own end and edge."""
    if verdict.say is not Say.RECUT or verdict.place is None:
        return
    low = verdict.place.off_low
    yield (
        f"take it from {_from(verdict)}: its {called(Face.NAMED_END)} {show(low[0])} in from that "
        f"wood's end, its {called(Face.FACE_EDGE)} {show(low[1])} in from that wood's edge"
    )


def _stays_words(stays: Stays, part: Part, show: Amounts) -> str:
    apart = max(range(3), key=lambda axis: abs(stays.off_mm[axis]))
    because = [
        f"{name} {does}"
        for names, does in ((stays.mates, "has it so too"), (stays.follow, "is cut to it"))
        for name in names
    ]
    why = f": {', '.join(because)}" if because else ""
    return (
        f"leave {_the_cut(part, stays.index)} as it is made, {show(abs(stays.off_mm[apart]))} "
        f"{_ALONG[apart]} from where the script has it{why}"
    )


def _off_words(off: TakenOff, set_to: str, called: Called, show: Amounts) -> str:
    words = _TAKES_OFF[off.by].format(show(off.mm), called(off.face))
    told = f"{words}, {show(off.before_mm)} to {show(off.after_mm)}"
    return f"{told} ({set_to})" if set_to else told


def _cut_words(made: CutToMake, part: Part, called: Called, show: Amounts) -> str:
    name = _the_cut(part, made.index)
    match made.work:
        case CutWork.GROW:
            axes = dict.fromkeys(each.face.axis for each in made.grown)
            sides = "; ".join(
                _grown_words([each for each in made.grown if each.face.axis == axis], called, show)
                for axis in axes
            )
            return f"cut {name} further: {sides}" if sides else f"go over {name}"
        case CutWork.AGAIN:
            return f"run {name} again"
        case CutWork.NEW:
            return f"cut {name}"


def _grown_words(sides: Sequence[Grown], called: Called, show: Amounts) -> str:
    """How far a cut grows on one axis, with its size before and after."""
    ways = " and ".join(f"{show.dial(each.mm)} towards the {called(each.face)}" for each in sides)
    return f"{ways}, {show.dial(sides[0].before_mm)} to {show.dial(sides[0].after_mm)}"


def _the_cut(part: Part, index: int) -> str:
    name = cut_in_words(part.cuts, index)
    return name if name[-1].isdigit() else f"the {name}"


def _why_words(why: Why, part: Part, show: Amounts) -> str:
    match why:
        case TooSmall():
            return f"what was cut is {show(why.by_mm)} too {_LACKS[why.axis]}"
        case InTheWay():
            return _in_the_way_words(why, part, show)
        case OtherWood():
            return f"it is {why.species} now and was {why.was}"
        case TooThin():
            return (
                f"trimmed, {show(max(0.0, why.wood_mm))} of wood would be left beside "
                f"{_the_cut(part, why.index)}"
            )
        case NothingOfIt():
            return "no part of this name was cut"
        case GoesElsewhere():
            return f"what was cut serves for {why.into}"
        case IsSpoilt():
            return "it is spoilt"
        case _:
            assert_never(why)


def _in_the_way_words(why: InTheWay, part: Part, show: Amounts) -> str:
    """What an earlier cut took, by the cut that it has become where there is one."""
    if why.moved_to is None:
        return "a cut that is made took wood that is needed now"
    apart = max(range(3), key=lambda axis: abs(why.moved[axis]))
    name = _the_cut(part, why.moved_to)
    if abs(why.moved[apart]) < 1e-6:
        return f"{name} is smaller now, and the wood is gone"
    return (
        f"{name} lies {show(abs(why.moved[apart]))} further {_ALONG[apart]} now, and the wood "
        "where it was is gone"
    )


def _once(lines: Iterator[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(lines))
