"""What is cut to what is measured at the bench: where that is written, on paper and in the job."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from exporters.faces import FaceNames
from furniture.job.figures import Figure, Of, asked_for, play_of_gaps, play_of_openings
from furniture.job.gaps import GapEnd, gap_ends
from furniture.making.making import Making
from furniture.making.operations import Axis, Follows, Kind, Operation, SizeOf, Span, Stage
from furniture.making.settings import Slice
from furniture.parts.cuts import Slope
from furniture.parts.faces import Face
from furniture.pieces.in_rows import named_in, woods_in_words
from furniture.pieces.piece import Piece, placed_named
from furniture.units import figure_among_words, listed

_BOX = "[............]"
_AXES = tuple(Axis)
_WAYS = {Axis.LENGTH: "along its grain", Axis.WIDTH: "across"}


def sizes_measured_for(making: Making) -> Mapping[str, tuple[SizeOf, ...]]:
    """The sizes that follow each measurement at the bench, by its operation's key.

    Args:
        making: of a piece.
    """
    measuring = [
        each.key
        for each in making.operations
        if each.kind is Kind.MEASURE and each.stage is not Stage.MILL
    ]
    found: dict[str, tuple[SizeOf, ...]] = dict.fromkeys(measuring, ())
    for each in making.operations:
        for fit in each.fit_to:
            if fit.key in found and fit.figure is Follows.SIZE:
                found[fit.key] = (*found[fit.key], *each.sizes)
    return found


def fitted(piece: Piece, making: Making) -> Mapping[str, tuple[Figure, ...]]:
    """What is measured for those sizes and goes into the job file, by the instance cut to them.

    Args:
        piece: that is made.
        making: of it.
    """
    by_instance: dict[str, list[SizeOf]] = {}
    for sizes in sizes_measured_for(making).values():
        for size in sizes:
            by_instance.setdefault(size.instance, []).append(size)
    return {name: measured_for(piece, sizes) for name, sizes in by_instance.items()}


def measured_for(piece: Piece, sizes: Iterable[SizeOf]) -> tuple[Figure, ...]:
    """What is measured for some sizes and goes into the job file.

    Args:
        piece: that they are of.
        sizes: of its instances.
    """
    return asked_for(piece, ((each.instance, _AXES.index(each.axis)) for each in sizes))


def boxes_for(figures: Sequence[Figure]) -> str:
    """Each key of the job file with a box to write into; that of an opening takes two figures.

    Args:
        figures: one for each key.
    """
    boxes = {Of.OPENING: f"{_BOX} x {_BOX}"}
    return ", ".join(f"{each.key} {boxes.get(each.of, _BOX)}" for each in figures)


def gap_in_words(piece: Piece, names: FaceNames, figure: Figure) -> str:
    """Between which faces a gap is measured, such as `between the left end of A and ...`.

    Args:
        piece: that is made.
        names: of its faces.
        figure: the gap.
    """

    def called(end: GapEnd) -> str:
        if end.sunk_in is not None:
            return f"the floor of the {end.sunk_in} in {end.instance}"
        return f"the {names.of((end.instance,), end.face)} of {end.instance}"

    low, high = map(called, gap_ends(piece)[figure.instance, figure.axis])
    return f"between {low} and {high}"


def gaps_in_words(piece: Piece, names: FaceNames, figures: Sequence[Figure]) -> str:
    """All gaps among some figures and how much less is cut, each by its key among several.

    Args:
        piece: that is made.
        names: of its faces.
        figures: that are measured.
    """
    plays = play_of_gaps(piece)

    def told(figure: Figure) -> str:
        play = plays[figure.instance, figure.axis]
        less = f": cut {figure_among_words(play, piece.shown)} less" if play > 0.0 else ""
        return f"{gap_in_words(piece, names, figure)}{less}"

    gaps = [each for each in figures if each.of is Of.GAP]
    if len(figures) == 1:
        return "".join(f", {told(each)}" for each in gaps)
    return "".join(f"; {each.key} {told(each)}" for each in gaps)


def less_play_in_words(piece: Piece, sizes: Sequence[SizeOf]) -> str:
    """How much smaller than its opening something loose is cut, along and across its grain.

    Args:
        piece: that is made.
        sizes: that are measured for.
    """
    plays = play_of_openings(piece)
    told: list[tuple[str, str]] = []
    for name in dict.fromkeys(each.instance for each in sizes):
        play = {
            way: figure_among_words(plays[name, _AXES.index(axis)], piece.shown)
            for axis, way in _WAYS.items()
            if SizeOf(name, axis) in sizes and plays.get((name, _AXES.index(axis)), 0.0) > 0.0
        }
        less = [f"{mm} {way}" for way, mm in play.items()]
        if len(play) > 1 and len(set(play.values())) == 1:
            less = [f"{play[_WAYS[Axis.WIDTH]]} both ways"]
        told += [(name, f"its opening less {listed(less)}")] if less else []
    if len(told) == 1 == len({each.instance for each in sizes}):
        return f", {told[0][1]}"
    all_told = ", ".join(f"{name} is {less}" for name, less in told)
    return f": {all_told}" if told else ""


def measured_in_words(
    piece: Piece, names: FaceNames, operation: Operation, sizes: Sequence[SizeOf]
) -> str:
    """What is measured for, from where to where, and where it is written.

    Args:
        piece: that is made.
        names: of its faces.
        operation: that measures.
        sizes: that follow it.
    """
    wanted = woods_in_words(named_in(piece, (each.instance for each in sizes)))
    if operation.span is not None:
        wanted += span_in_words(piece, names, operation.span)
    wanted += less_play_in_words(piece, sizes)
    wanted += written_in(piece, names, sizes)
    return wanted or "what follows"


def ends_marked_in_words(
    piece: Piece, names: FaceNames, dry: Operation, operations: Iterable[Operation]
) -> Iterator[str]:
    """The ends that are trimmed to where they come when all is together.

    Args:
        piece: that is made.
        names: of its faces.
        dry: a dry fit.
        operations: all of the making.
    """
    ends: dict[str, list[str]] = {}
    for each in operations:
        if isinstance(each.setting, Slice) and dry.key in {fit.key for fit in each.fit_to}:
            name = each.sizes[0].instance
            end = names.of((name,), each.setting.off.opposite)
            ends.setdefault(end, []).append(name)
    for end, instances in ends.items():
        woods = woods_in_words(named_in(piece, instances))
        yield f"mark where the {end} of {woods} comes"


def span_in_words(piece: Piece, names: FaceNames, span: Span) -> str:
    """From where to where something is measured, over the outside.

    Args:
        piece: that is made.
        names: of its faces.
        span: that is read.
    """

    def called(at: tuple[str, Face]) -> str:
        instance, face = at
        part = placed_named(piece, instance).part
        shapes = (cut.shape(part.blank) for cut in part.cuts)
        is_long = any(isinstance(each, Slope) and each.face is face for each in shapes)
        return "long point" if is_long else names.of((instance,), face)

    low, high = called(span.low), called(span.high)
    if low == high:
        return f", over all, from {low} to {high}"
    return f", over all, from the {low} of {span.low[0]} to the {high} of {span.high[0]}"


def written_in(piece: Piece, names: FaceNames, sizes: Sequence[SizeOf]) -> str:
    """Between what it lies, and where what is measured for these sizes is written.

    Args:
        piece: that is made.
        names: of its faces.
        sizes: that are measured for.
    """
    figures = measured_for(piece, sizes)
    told = gaps_in_words(piece, names, figures)
    return f"{told} (here and in the job file: {boxes_for(figures)})" if figures else ""


def standing_dry(operations: Iterable[Operation]) -> frozenset[str]:
    """The keys of the measurements at what stands together since it was tried dry.

    Args:
        operations: of a making, in order.
    """
    tried: Operation | None = None
    found = set()
    for each in operations:
        if each.kind is Kind.DRY_FIT:
            tried = each
        elif each.kind is not Kind.MEASURE:
            tried = None
        elif tried is not None and set(each.takes) == set(tried.takes):
            found.add(each.key)
    return frozenset(found)
