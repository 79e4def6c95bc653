"""A glue-up in a maker's words: short sentences in the order in which they are done."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import assert_never

from exporters.faces import SIDES, FaceNames
from exporters.work.clamp_words import axis_of, pressed_in_words
from exporters.work.driven_words import driven_in_words
from exporters.work.move_words import moves_in_words
from exporters.work.names import counted_woods
from furniture.joints.joint import Joining, Role
from furniture.making.amounts import Gluing
from furniture.making.glue_ups import (
    Bareness,
    Check,
    Diagonals,
    Flat,
    GlueUps,
    Hung,
    Levelling,
    Pair,
    Square,
    Stage,
    Trimming,
    When,
)
from furniture.making.making import Making
from furniture.making.operations import Kind
from furniture.parts.placement import box_of
from furniture.pieces.bought import Bought, Fixing
from furniture.pieces.in_rows import named_in, woods_in_words
from furniture.pieces.piece import Piece, placed_named
from furniture.shop.tools.glues import HOURS_AT_REST, SIZED, GlueFacts
from furniture.units import Amounts, figure_among_words, listed, plural

_FLUSH_MM = 0.05
_FEW = 2


def cut_before_glue(making: Making) -> frozenset[str]:
    """The instances whose last length is cut before any glue.

    Args:
        making: of the piece.
    """
    return frozenset(
        size.instance for each in making.operations if each.kind is Kind.TRIM for size in each.sizes
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueWords:
    """Tells the glue-ups of a piece.

    Args:
        piece: that goes together.
        cut_before: instances whose last length the making cuts before any glue.
        gluing: what each glue-up takes, where it is known.
        set_out: parts that no cut locates: how far in from an edge [mm], along which axis of the
            piece, and whether from its high side.
    """

    piece: Piece
    cut_before: Collection[str] = ()
    gluing: tuple[Gluing, ...] = ()
    set_out: Mapping[str, Sequence[tuple[float, int, bool]]] = field(default_factory=dict)

    def called(self, names: Sequence[str]) -> str:
        """The instances in words; all that share a noun, three or more, are counted.

        Args:
            names: each once.
        """
        return counted_woods(self.piece, names)

    def title_of(self, stage: Stage) -> str:
        """What comes together; where something is together already, what comes to it.

        What comes as one was a title of its own before: it is told with what it is put to.

        Args:
            stage: of the piece.
        """
        whole = max(stage.bodies, key=len)
        bodies = [each for each in stage.bodies if each != whole or len(whole) == 1]
        new = [name for body in bodies for name in body]
        if all(len(body) == 1 for body in bodies):
            return self.called(new)
        pairs = [{each.into, each.incoming} for each in stage.glued]
        mates = dict.fromkeys(name for name in whole for pair in pairs
                              if name in pair and pair & set(new))  # fmt: skip
        onto = f", to {self.called(tuple(mates))}" if mates else ""
        return f"{self.called(new)} as one{onto}"

    def sentences_of(self, stage: Stage) -> tuple[str, ...]:
        """What is done in a stage, in order, each without a full stop.

        Args:
            stage: of the piece.
        """
        takes = next((each for each in self.gluing if each.number == stage.number), None)
        return tuple(
            each[:1].upper() + each[1:]
            for each in (
                *self._levelled(stage, When.BEFORE),
                *self._trimmed(stage.trimmed, When.BEFORE),
                *_sized(stage),
                *_glued(stage, takes, Amounts(shown=self.piece.shown)),
                *self._bare(stage),
                *(f"push home: {each}" for each in moves_in_words(self.piece, stage.moves)),
                *self._placed(stage),
                *driven_in_words(stage.driven, self.piece),
                *self._put_in(stage),
                *pressed_in_words(stage, takes, self.piece),
                *self._checked(stage.checks),
                *self._levelled(stage, When.AFTER),
                *self._trimmed(stage.trimmed, When.AFTER),
            )
        )

    def last_of(self, glue_ups: GlueUps) -> tuple[str, ...]:
        """What is only laid in when all glue is dry, each without a full stop.

        Args:
            glue_ups: of the piece.
        """
        turning = {each.instance for each in glue_ups.hung}
        laid = [
            f"put in without glue, loose: {each}"
            for step in glue_ups.laid_in
            if not turning & set(step.moving)
            for each in moves_in_words(self.piece, [step])
        ]
        hung = [said for each in glue_ups.hung for said in self._hung(each)]
        counts: dict[tuple[str, str], int] = Counter(
            (anchor.instance, each.name)
            for anchor in self.piece.anchors
            for each in anchor.fasteners
        )
        fixed = [
            f"fix {instance} to the wall with {_counted(count, name)}"
            for (instance, name), count in counts.items()
        ]
        over = {thing for each in self.piece.intent.fitted for thing in each.things}
        put = self._things(each.thing for each in glue_ups.fixed_with if each.thing not in over)
        fixed += list(self._fitted())
        return tuple(each[:1].upper() + each[1:] for each in (*fixed, *laid, *put, *hung))

    def _fitted(self) -> Iterator[str]:
        """What is fixed over the finish, like things on like parts counted together."""
        counts = Counter((each.on, tuple(t.name for t in each.things)) for each in
                         self.piece.intent.fitted)  # fmt: skip
        for (on, (name, *by)), count in counts.items():
            held = "".join(f" with {'its' if count == 1 else 'their'} {each}" + "s" * (count > 1)
                           for each in by)  # fmt: skip
            yield f"fix {_counted(count, name)} on {on}{held}"

    def _hung(self, hung: Hung) -> Iterator[str]:
        """How a part is hung that turns."""
        hinges = Counter(each.name for each in hung.by)
        by = listed([_counted(count, name) for name, count in hinges.items()])
        onto = woods_in_words(named_in(self.piece, hung.onto))
        yield f"hang {hung.instance} on {onto} with {by}, which turn freely before all is driven in"
        things = [_counted(each.thing.quantity, each.thing.name) for each in hung.fixed_with]
        if things:
            yield f"for it: {listed(things)}"

    def _bare(self, stage: Stage) -> Iterator[str]:
        """What goes in dry, and what lies against something that it is not glued to."""
        if stage.dry:
            goes, it = ("goes", "it") if len(stage.dry) == 1 else ("go", "them")
            yield f"{self.called(stage.dry)} {goes} in dry: no glue on {it}"
        partly: dict[str, list[str]] = defaultdict(list)
        glued_to: dict[str, list[str]] = defaultdict(list)
        for each in stage.bare:
            is_new = each.instance not in stage.dry
            if each.why is Bareness.MOVES and is_new and each.instance not in partly[each.against]:
                partly[each.against].append(each.instance)
                glued_to[each.against] += each.only_on
        for against, names in partly.items():
            only = list(dict.fromkeys(glued_to[against]))
            if 0 < len(only) <= _FEW:  # of more it is plainer to say what they keep off
                yield f"glue {self.called(names)} to {self.called(only)} alone, not to {against}"
            elif names:
                yield f"no glue between {self.called(names)} and {against}"

    def _placed(self, stage: Stage) -> Iterator[str]:
        """Where a part stands that nothing locates, or that its housing lets slide."""
        alike: dict[str, list[str]] = defaultdict(list)
        coming = (*(joining.incoming for joining in stage.glued), *stage.dry)
        for name in dict.fromkeys(coming):
            if name in self.set_out:
                alike[self._set_out(name)].append(name)
        for said, names in alike.items():
            yield f"{self.called(names)}: {said}"
        once: dict[str, tuple[str, str, str]] = {}
        for joining in stage.glued:
            if joining.role is Role.HOUSING:
                for place in slid_in_words(self.piece, joining):
                    is_middle = bool(place[0])
                    if joining.incoming not in once or is_middle:
                        once[joining.incoming] = place
        where: dict[tuple[str, str], list[tuple[str, str]]] = defaultdict(list)
        for name, (before, mm, after) in once.items():
            where[before, after].append((name, mm))
        for (before, after), slid in where.items():
            slid = list(dict.fromkeys(slid))
            names, figures = [name for name, _ in slid], [mm for _, mm in slid]
            if len(set(figures)) > 1:
                who = woods_in_words(named_in(self.piece, names))
                yield f"{who}: {before}{listed(figures)}{after} in turn"
            else:
                yield f"{self.called(names)}: {before}{figures[0]}{after}"
        slides = {name for slid in where.values() for name, _ in slid}
        heights = sorted(
            (box_of(each.part.blank, each.placement)[0][2], each.instance)
            for each in self.piece.placed
            if each.instance in slides
        )
        if len(heights) > 1:
            yield f"{heights[0][1]} is the lowest, {heights[-1][1]} the highest"

    def _set_out(self, name: str) -> str:
        """How far in from the edges of what carries it."""
        flush, off = [], []
        for mm, axis, is_high in self.set_out[name]:
            side, told_mm = f"the {SIDES[axis][is_high]}", figure_among_words(mm, self.piece.shown)
            if told_mm == figure_among_words(0.0, self.piece.shown):
                flush.append(side)
            else:
                off.append((told_mm, side))
        told = [f"flush with {listed(flush)}"] if flush else []
        if not flush and len(off) > 1 and len({mm for mm, _ in off}) == 1:
            return f"{off[0][0]} from both edges"
        return listed([*told, *(f"{mm} from {side}" for mm, side in off)])

    def _put_in(self, stage: Stage) -> Iterator[str]:
        yield from self._things(each.thing for each in stage.fixed_with)
        weights: dict[str, list[str]] = defaultdict(list)
        for weight in stage.weights:
            weights[weight.on].append(weight.name)
        for on, names in weights.items():
            fixed = f"fixed where the sheet of {on} shows, so that nothing shifts"
            yield f"in with it: {listed(names)}, {fixed}"
        for each in stage.at_once:
            woods = woods_in_words(named_in(self.piece, each.parts))
            yield f"{woods} go on {each.carrier} at once: glued to each other alone they swing"
        if stage.held_true_by:
            woods = woods_in_words(named_in(self.piece, stage.held_true_by))
            it = "it holds" if len(stage.held_true_by) == 1 else "they hold"
            yield f"put {woods} on dry: {it} all true till the clamps are off"

    def _things(self, things: Iterable[Bought]) -> Iterator[str]:
        """What a builder names, like things in like places counted together."""
        counts: dict[tuple[str, Fixing, tuple[str, ...]], int] = defaultdict(int)
        for each in things:
            counts[(each.name, each.fixing, each.where)] += each.quantity
        for (name, fixing, where), count in counts.items():
            at = f" {fixing.value} {self.called(where)}" if where else " on"
            yield f"put {_counted(count, name)}{at}"

    def _levelled(self, stage: Stage, when: When) -> Iterator[str]:
        alike: dict[tuple[str, str, str], list[str]] = defaultdict(list)
        names = FaceNames(piece=self.piece)
        for each in stage.levelled:
            if each.when is when:
                face = names.of((each.instance,), each.face)
                by = figure_among_words(each.by_mm, self.piece.shown)
                mate = level_with_in_words(each, stage)
                alike[(face, by, mate)].append(each.instance)
        for (face, by, mate), instances in alike.items():
            first = "when dry, plane" if when is When.AFTER else "first plane"
            woods = self.called(instances)
            yield f"{first} {by} off the {face} of {woods}, {mate}"

    def _trimmed(self, trimmed: Iterable[Trimming], when: When) -> Iterator[str]:
        names = FaceNames(piece=self.piece)
        alike: dict[tuple[str, str], list[str]] = defaultdict(list)
        for each in trimmed:
            if each.when is when and each.instance not in self.cut_before:
                end = names.of((each.instance,), each.end)
                face = names.of((each.measured_from[0],), each.measured_from[1])
                at = figure_among_words(each.distance_mm, self.piece.shown)
                line = f"saw it {at} from the {face} of {each.measured_from[0]}"
                alike[(end, line)].append(each.instance)
        for (end, line), instances in alike.items():
            first = "when dry, " if when is When.AFTER else "first "
            yield f"{first}trim the {end} of {self.called(instances)}: {line}"

    def _checked(self, checks: Iterable[Check]) -> Iterator[str]:
        square: dict[str, list[str]] = defaultdict(list)
        checks = tuple(checks)
        kinds = {type(each) for each in checks}
        wind = "; no wind" if kinds >= {Diagonals, Flat} else ""
        if Flat in kinds and not wind:
            yield "sight across it: no wind"
        for each in checks:
            match each:
                case Diagonals():
                    first, second = (
                        figure_among_words(mm, self.piece.shown) for mm in each.lengths_mm
                    )
                    both = f"both {first}" if first == second else f"{first} and {second}"
                    yield f"diagonals outside: {both}, press the longer in{wind}"
                case Flat():
                    pass
                case Square():
                    square[each.to].append(each.of)
                case _:
                    assert_never(each)
        for to, names in square.items():
            yield f"set {self.called(names)} square to {to}"


def level_with_in_words(levelled: Levelling, stage: Stage) -> str:
    """What a face is planed level with, and that it is only tried there if it is not in by then.

    Args:
        levelled: the face.
        stage: that it is planed before or after.
    """
    there = {name for body in stage.bodies for name in body}
    is_in = levelled.when is When.AFTER and levelled.flush_with in there
    tried = "" if is_in else " tried in its place"
    return f"level with {levelled.flush_with}{tried}"


def slid_in_words(piece: Piece, joining: Joining) -> Iterator[tuple[str, str, str]]:
    """Where a part stands along a channel that it could slide in: what stands out at either end.

    The figure, with the words before and after it.

    Args:
        piece: that they are of.
        joining: of a housing.
    """
    into, incoming = (
        box_of(each.part.blank, each.placement)
        for each in (placed_named(piece, name) for name in (joining.into, joining.incoming))
    )
    runs = {axis_of(face.along) for face in joining.faces}
    if len(runs) != 1:
        return
    axis = runs.pop()
    low, high = into[0][axis] - incoming[0][axis], incoming[1][axis] - into[1][axis]
    if min(low, high) <= _FLUSH_MM:  # an end of the channel, or an edge, is where it stops
        return
    if abs(low - high) <= _FLUSH_MM:
        middle = f"middle on the middle of {joining.into}, "
        yield middle, figure_among_words(low, piece.shown), " past it each way"
    else:
        side = SIDES[axis][0]
        yield "", figure_among_words(low, piece.shown), f" past {joining.into} at the {side}"


def _sized(stage: Stage) -> Iterator[str]:
    """End grain that drinks the glue: of all joints of a kind, or where two parts meet."""
    pairs = {each.pair for each in stage.spread if each.wants_size}
    kinds: dict[str, list[Pair]] = defaultdict(list)
    for joining in stage.glued:
        kinds[joining.kind].append((joining.into, joining.incoming))
    where: list[str] = []
    if pairs and all(pair in pairs for members in kinds.values() for pair in members):
        yield "size the end grain of every joint"
        return
    for kind, members in kinds.items():
        asked = [pair for pair in members if pair in pairs]
        if asked and len(asked) == len(members):
            where.append(f"of the {kind} joints" if len(members) > 1 else f"of the {kind} joint")
        else:
            where += [f"between {incoming} and {into}" for into, incoming in asked]
    if where:
        yield f"size the end grain {listed(where)}"


def _glued(stage: Stage, takes: Gluing | None, show: Amounts) -> Iterator[str]:
    counts = Counter(joining.kind for joining in stage.glued)
    if counts:
        dowels = len(stage.dowels)
        also = f", with {_counted(dowels, 'dowel')}" if dowels else ""
        joints = listed([_counted(n, f"{kind} joint") for kind, n in counts.items()])
        what = "" if takes is None else f", about {show.spoonful(takes.grams)}"
        yield f"glue {joints}{also}{what}{'' if takes is None else _times(stage, takes)}"


def _times(stage: Stage, takes: Gluing) -> str:
    """How long spreading takes, what the glue then leaves to draw the clamps tight, and that it
    does not wait for one pair of hands.
    """
    spread, left = max(1, round(takes.spread_minutes)), takes.closed_minutes
    is_slow = stage.over_open_seconds > 0.0 or takes.time.is_enough is False
    helped = "; one pair of hands is too slow: a slower glue, or a helper"
    slow = helped if stage.spread and is_slow else ""
    if left is None or left < 1.0:
        return f": {spread} min to spread it{slow}" if slow else ""
    return f": {spread} min to spread it, then {math.floor(left)} until all is tight{slow}"


def glue_in_words(glue: GlueFacts, show: Amounts) -> str:
    """What the glue asks for in every glue-up, as one sentence; its label decides.

    Args:
        glue: of the shop.
        show: puts amounts into the piece's units.
    """
    times = []
    if glue.open_minutes is not None:
        times.append(f"put together within {glue.open_minutes:g} min of spreading")
    if glue.clamp_minutes is not None:
        times.append(f"{_long(glue.clamp_minutes)} in clamps")
    times.append(f"{HOURS_AT_REST:g} h before planing")
    name = glue.family.value
    asks = "".join(f"; {each}" for each in (*_asked(glue, show), SIZED))
    return f"{name[:1].upper()}{name[1:]}: {listed(times)}{asks}; the label decides."


def _asked(glue: GlueFacts, show: Amounts) -> Iterator[str]:
    """What it asks of wood and room."""
    if glue.least_celsius is not None:
        yield f"at {show.temperature(glue.least_celsius)} or more"
    if glue.wood_pct is not None:
        least, most = glue.wood_pct
        yield f"wood at {f'{least:g} to ' if least else 'no more than '}{most:g} % moisture"
    yield from (each.value for each in glue.preparing)


def _long(minutes: float) -> str:
    return f"{minutes / 60.0:g} h" if minutes >= 120.0 else f"{minutes:g} min"


def _counted(count: int, name: str) -> str:
    return f"{count} {plural(name)}" if count > 1 else f"1 {name}"
