"""Whether a new part lies in an old one, and what it takes to get it out: the light test first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from furniture.job.old import OldPart
from furniture.job.places import in_new_frame, places_in
from furniture.job.trimming import Holding, taken_off
from furniture.job.values import (
    By,
    CutToMake,
    CutWork,
    Grown,
    InTheWay,
    Near,
    Place,
    TakenOff,
    TooSmall,
    TooThin,
    Turn,
    Why,
)
from furniture.job.voids import (
    HAIR_MM,
    LEAST_MM3,
    shared,
    surely_taken_alone,
    taken_alone,
)
from furniture.parts.blank import Blank
from furniture.parts.cuts import Cut, Hole, NoTurnedForm, Slope
from furniture.parts.faces import Face
from furniture.parts.lines import bounds_of
from furniture.parts.placement import Box
from furniture.parts.tools import Tool
from furniture.parts.vectors import Vector
from furniture.parts.wood import wood_left
from furniture.rules import Rules
from furniture.rules.staying import LEAST_WOOD

_ENOUGH = 24
"""So many places that serve are weighed against one another."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """A new part's blank and its cuts."""

    blank: Blank
    cuts: tuple[Cut, ...]

    @property
    def box(self) -> Box:
        """The box that it fills [mm]."""
        return ((0.0, 0.0, 0.0), self.blank.size)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """A place that serves, and what it takes there."""

    place: Place
    off: tuple[TakenOff, ...]
    cuts: tuple[CutToMake, ...]
    near: tuple[Near, ...]
    off_mm3: float

    @property
    def is_as_it_is(self) -> bool:
        """Whether nothing has to be done."""
        return not self.off and not self.cuts


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Effort:
    """How much there is to do: cuts first, then faces, then what is awkward; the less the better.

    Args:
        cuts: a mitre that is cut anew spoils a fitted corner and counts most, a hole that only gets
            deeper least.
        faces: that are trimmed.
        awkward: faces that the saw cannot hold, cuts that lie near, a part that is turned.
        off_mm3: wood that comes off [mm3].
    """

    cuts: float
    faces: int
    awkward: int
    off_mm3: float


def effort_of(fit: Fit, new: Work) -> Effort:
    """The effort of a place.

    Args:
        fit: the place and what it takes there.
        new: the part.
    """
    by_hand = sum(each.by in (By.HAND_PLANE, By.HAND_SAW) for each in fit.off)
    is_turned = fit.place.turn is not Turn.NONE
    return Effort(
        cuts=sum(_labour(each, new) for each in fit.cuts),
        faces=len(fit.off),
        awkward=by_hand + len(fit.near) + is_turned,
        off_mm3=fit.off_mm3,
    )


def _labour(made: CutToMake, new: Work) -> float:
    match new.cuts[made.index].shape(new.blank):
        case Slope():
            return 4.0
        case Hole(face=face) if made.work is CutWork.GROW:
            is_deeper = all(each.face.axis == face.axis for each in made.grown)
            return 0.5 if is_deeper else 1.0
        case _:
            return 1.0


@lru_cache(maxsize=2048)
def best_fit(old: OldPart, new: Work, holding: Holding) -> Fit | None:
    """The place in an old part where a new one takes least work; none where it lies nowhere.

    Args:
        old: the wood.
        new: what is wanted of it.
        holding: what the saw and the rules ask.
    """
    found: list[Fit] = []
    for place in _free_places(old, new):
        fit = _fit_at(old, new, place, holding)
        if fit is not None:
            found.append(fit)
            if fit.is_as_it_is or len(found) >= _ENOUGH:
                break
    return min(found, key=lambda each: effort_of(each, new), default=None)


def lies_in(old: OldPart, new: Work) -> bool:
    """Whether the wood of a new part is all there in an old one, at some place."""
    return any(_is_whole(old, new, place) for place in _free_places(old, new))


def why_not(old: OldPart, new: Work, rules: Rules) -> tuple[Why, ...]:
    """What keeps an old part from serving: wood that is wanting, cuts in the way, wood too thin.

    Args:
        old: the wood.
        new: what is wanted of it.
        rules: the maker's.
    """
    small = [
        TooSmall(axis=axis, by_mm=needed - had)
        for axis, (had, needed) in enumerate(zip(old.blank.size, new.blank.size, strict=True))
        if needed - had > HAIR_MM
    ]
    if small:
        return tuple(small)
    blocked = [
        (sum(each.mm3 for each in found), index, found)
        for index, place in enumerate(places_in(old, new.blank, new.cuts))
        if place.turn is Turn.NONE
        for found in [_in_the_way(old, new, place)]
    ]
    _, _, found = min(blocked, key=lambda each: each[:2])
    return tuple(found) or _too_thin(new, rules)


def _free_places(old: OldPart, new: Work) -> Iterator[Place]:
    """The places that the light test leaves open; what stood in the way last is tried first."""
    tools = [tool for cut in old.cuts for tool in cut.tools(old.blank)]
    own = _tools(new)
    for place in places_in(old, new.blank, new.cuts):
        in_the_way = 0.0
        for index, tool in enumerate(tools):
            in_the_way += taken_alone(in_new_frame(tool, old.blank, place), new.box, own).low
            if in_the_way > LEAST_MM3:
                tools.insert(0, tools.pop(index))
                break
        else:
            yield place


def _is_whole(old: OldPart, new: Work, place: Place) -> bool:
    """Whether no old cut took wood that the new part needs there: by solids where it counts."""
    own, wanting = _tools(new), 0.0
    for cut in old.cuts:
        for tool in cut.tools(old.blank):
            wanting += surely_taken_alone(in_new_frame(tool, old.blank, place), new.box, own)
            if wanting > LEAST_MM3:
                return False
    return True


def _fit_at(old: OldPart, new: Work, place: Place, holding: Holding) -> Fit | None:
    if not _is_whole(old, new, place):
        return None
    cuts = tuple(_cuts_to_make(old, new, place))
    off = taken_off(old.blank, new.blank, place, holding, _faces_cut(new, cuts))
    made = {each.index for each in cuts}
    near = tuple(_near(new, off, made, holding))
    if any(each.wood_mm <= holding.rules[LEAST_WOOD] for each in near):
        return None
    volume = old.blank.volume_mm3 - new.blank.volume_mm3
    return Fit(place=place, off=off, cuts=cuts, near=near, off_mm3=volume)


def _faces_cut(new: Work, cuts: tuple[CutToMake, ...]) -> frozenset[Face]:
    """The faces that a cut to be made takes off whole, so that they need no pass of their own."""
    return frozenset(
        face for each in cuts for face in Face if _takes_face(new.cuts[each.index], face, new.blank)
    )


def _takes_face(cut: Cut, face: Face, blank: Blank) -> bool:
    """Whether of a face nothing is left but a line: a mitre, a bevel."""
    shape = cut.shape(blank)
    return isinstance(shape, Slope) and shape.face is face


def _tools(new: Work) -> list[Tool]:
    return [tool for cut in new.cuts for tool in cut.tools(new.blank)]


def _old_tools(old: OldPart, place: Place) -> list[list[Tool]]:
    """The tools of each old cut, as the new part sees them."""
    return [
        [in_new_frame(tool, old.blank, place) for tool in cut.tools(old.blank)] for cut in old.cuts
    ]


def _cuts_to_make(old: OldPart, new: Work, place: Place) -> Iterator[CutToMake]:
    there = _old_tools(old, place)
    gone = [tool for tools in there for tool in tools]
    turned = _turned_cuts(old, place.turn)
    for index, cut in enumerate(new.cuts):
        tools = cut.tools(new.blank)
        share = sum(taken_alone(tool, new.box, gone).low for tool in tools)
        if share <= LEAST_MM3:
            share = sum(surely_taken_alone(tool, new.box, gone) for tool in tools)
        if share <= LEAST_MM3:
            continue
        # A slope at a new length is the same pass again: what is left of the old one says nothing.
        is_slope = isinstance(cut.shape(new.blank), Slope)
        was = None if is_slope and cut in turned else _inside(there, tools, new)
        if was is not None:
            grown = _grown(_bounds(there[was], new.box), _bounds(tools, new.box))
            yield CutToMake(index=index, work=CutWork.GROW, was=was, grown=grown)
        elif cut in turned:
            yield CutToMake(index=index, work=CutWork.AGAIN, was=turned.index(cut))
        else:
            yield CutToMake(index=index, work=CutWork.NEW)


def _turned_cuts(old: OldPart, turn: Turn) -> list[Cut | None]:
    """The old part's cuts as they are written after the turn; none for one that cannot be."""
    found: list[Cut | None] = []
    for cut in old.cuts:
        try:
            found.append(cut if turn.axis is None else cut.turned_about(turn.axis, old.blank))
        except NoTurnedForm:
            found.append(None)
    return found


def _inside(there: list[list[Tool]], tools: tuple[Tool, ...], new: Work) -> int | None:
    """The largest old cut that lies inside a new one, and nowhere else in its wood."""
    sizes: list[tuple[float, int]] = []
    for index, old_tools in enumerate(there):
        bounds = _bounds(old_tools, new.box)
        if bounds is None:
            continue
        outside = sum(surely_taken_alone(tool, new.box, tools) for tool in old_tools)
        if outside <= LEAST_MM3:
            low, high = bounds
            sizes.append((sum(b - a for a, b in zip(low, high, strict=True)), index))
    return max(sizes)[1] if sizes else None


def _bounds(tools: list[Tool] | tuple[Tool, ...], box: Box) -> Box | None:
    """The box round what some tools take of a box [mm]; none where they take nothing."""
    boxes = [each for each in (shared(bounds_of(tool), box) for tool in tools) if each]
    if not boxes:
        return None
    low, high = (
        [pick(each[end][axis] for each in boxes) for axis in range(3)]
        for end, pick in ((0, min), (1, max))
    )
    return ((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _grown(was: Box | None, now: Box | None) -> tuple[Grown, ...]:
    if was is None or now is None:
        return ()
    sizes = [tuple(high - low for low, high in zip(*box, strict=True)) for box in (was, now)]
    return tuple(
        Grown(face=face, mm=by, before_mm=sizes[0][face.axis], after_mm=sizes[1][face.axis])
        for face in Face
        for by in [
            now[1][face.axis] - was[1][face.axis]
            if face.is_far
            else was[0][face.axis] - now[0][face.axis]
        ]
        if by > HAIR_MM
    )


def _near(new: Work, off: tuple[TakenOff, ...], made: set[int], holding: Holding) -> Iterator[Near]:
    """Cuts that stay, and what is left between them and a trimmed face, where that is little."""
    asked = holding.weak_under_mm(new.blank.thickness_mm)
    trimmed = {each.face for each in off if each.by is not By.CUT}
    least: dict[tuple[int, Face], float] = {}
    for each in wood_left(new.blank, new.cuts) if trimmed else ():
        towards = each.left.towards
        if each.cut in made or towards not in trimmed or each.other is not None:
            continue
        if each.wood_mm < asked:
            key = (each.cut, towards)
            least[key] = min(least.get(key, each.wood_mm), each.wood_mm)
    for (index, face), wood in least.items():
        yield Near(index=index, face=face, wood_mm=wood, asked_mm=asked)


def _too_thin(new: Work, rules: Rules) -> tuple[TooThin, ...]:
    """The cuts of a part that leave no wood by the rules."""
    least = min(
        (each for each in wood_left(new.blank, new.cuts)),
        key=lambda each: each.wood_mm,
        default=None,
    )
    if least is None:
        return ()
    return (TooThin(index=least.cut, wood_mm=least.wood_mm, least_mm=rules[LEAST_WOOD]),)


def _in_the_way(old: OldPart, new: Work, place: Place) -> list[InTheWay]:
    own = _tools(new)
    found = []
    for index, tools in enumerate(_old_tools(old, place)):
        volume = sum(surely_taken_alone(tool, new.box, own) for tool in tools)
        if volume > LEAST_MM3:
            to, moved = _moved(old, new, place, index)
            found.append(InTheWay(old_index=index, mm3=volume, moved_to=to, moved=moved))
    return found


def _moved(old: OldPart, new: Work, place: Place, index: int) -> tuple[int | None, Vector]:
    """The nearest cut of the same kind that the new part has, and how far it lies from this one.

    One that lies within what is made has not moved: it is smaller.
    """
    made = _taken_box(_old_tools(old, place)[index], new.box)
    alike = [
        (sum(abs(each) for each in apart), at, apart, there)
        for at, cut in enumerate(new.cuts)
        if type(cut) is type(old.cuts[index])
        for there in [_taken_box(cut.tools(new.blank), new.box)]
        for apart in [tuple((c + d - a - b) / 2 for a, b, c, d in zip(*made, *there, strict=True))]
    ]
    if not alike:
        return None, (0.0, 0.0, 0.0)
    _, at, apart, there = min(alike, key=lambda each: each[:2])
    return at, (0.0, 0.0, 0.0) if _is_within(there, made) else (apart[0], apart[1], apart[2])


def _taken_box(tools: list[Tool] | tuple[Tool, ...], box: Box) -> Box:
    return _bounds(tools, box) or bounds_of(tools[0])


def _is_within(inner: Box, outer: Box) -> bool:
    lows, highs = zip(inner[0], outer[0], strict=True), zip(inner[1], outer[1], strict=True)
    return all(a >= b - HAIR_MM for a, b in lows) and all(a <= b + HAIR_MM for a, b in highs)
