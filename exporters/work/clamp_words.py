"""Clamps, bands, cauls and blocks of a glue-up in a maker's words."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator

from exporters.work.names import counted_woods
from furniture.making.amounts import Gluing, Reach
from furniture.making.clamp_room import BY_HAND
from furniture.making.glue_ups import Caul, Pad, Stage
from furniture.making.glue_ups.blocks import blocks_of
from furniture.making.glue_ups.values import Block
from furniture.parts.vectors import Vector
from furniture.pieces.in_rows import named_in, woods_in_words
from furniture.pieces.piece import Piece
from furniture.units import Shown, figure_among_words, listed

_AXES = ("left to right", "front to back", "top to bottom")
_ACROSS_CORNERS = "across the corners, square to each mitre"
_ALONG = 0.999
"""A way is along an axis of the piece where this much of it is. Own rule."""
_TOO_NEAR = "no clamp on hand opens so far"


def pressed_in_words(stage: Stage, takes: Gluing | None, piece: Piece) -> Iterator[str]:
    """What presses a glue-up, and what goes below the heads.

    Args:
        stage: the glue-up.
        takes: what it takes of clamps, where it is known.
        piece: that it is of.
    """
    if stage.bands:
        count = 1 if takes is None else max(takes.bands, default=1)
        more = f"; {count} bands press it in full" if count > 1 else ""
        yield f"one band round all corners, a caul at each{more}"
    ways: dict[str, int] = Counter()
    for index, line in enumerate(stage.clamps):
        enough = 1 if takes is None else max(1, takes.pressing[index].clamps.count)
        ways[_way(line.direction)] += enough
    cauls = [
        f"{caul.value} cauls on {counted_woods(piece, tuple(names))}"
        for caul in (Caul.MITRE_CUT, Caul.SQUARE)
        if (names := dict.fromkeys(pad.instance for pad in _pads(stage) if pad.caul is caul))
    ]
    if ways:
        told = listed([f"{count} {way}" for way, count in ways.items()])
        yield "; ".join((f"clamps: {told}", *cauls))
    else:
        yield from cauls
    if takes is not None and any(each.clamps.short_n > 0.0 for each in takes.pressing):
        clamps = sum(each.wanting for each in takes.pressing)
        few = f"{_counted(clamps)} short" if clamps else _TOO_NEAR
        yield f"{few}: close one joint after another"
    if takes is not None:
        yield from _far_in(takes, piece)
    yield from _blocks(stage, piece)
    alone: dict[str, list[str]] = defaultdict(list)
    for into, incoming in stage.unpressed:
        alone[incoming].append(into)
    for incoming, onto in alone.items():
        yield f"{incoming} to {counted_woods(piece, onto)}: no clamp has room; {BY_HAND}"


def _far_in(takes: Gluing, piece: Piece) -> Iterator[str]:
    """Where no clamp on hand reaches the place that is pressed."""
    far = [each for each in takes.pressing if each.reach is Reach.CAUL_ACROSS]
    names = named_in(piece, (pad.instance for each in far for pad in each.line.pads))
    if names:
        yield f"{Reach.CAUL_ACROSS.value}, on {woods_in_words(names)}: no throat reaches in"


def _blocks(stage: Stage, piece: Piece) -> Iterator[str]:
    """Blocks that lift a head over what stands beside, like ones together."""
    alike: dict[Block, list[str]] = {}
    for name, block in blocks_of(stage).items():
        alike.setdefault(block, []).append(name)
    for block, names in alike.items():
        woods = counted_woods(piece, names)
        yield (
            f"on {woods} a block {block_size_in_words(block, piece.shown)}, "
            "below the head: it clears what stands beside"
        )


def block_size_in_words(block: Block, shown: Shown) -> str:
    """How large a block is.

    Args:
        block: below a clamp's head.
        shown: how lengths are shown.
    """
    high, wide = (figure_among_words(each, shown) for each in (block.high_mm, block.wide_mm))
    return f"{high} high, at most {wide} wide"


def _pads(stage: Stage) -> Iterator[Pad]:
    yield from (pad for line in stage.clamps for pad in line.pads)


def _way(direction: Vector) -> str:
    axis = axis_of(direction)
    return _AXES[axis] if abs(direction[axis]) > _ALONG else _ACROSS_CORNERS


def axis_of(direction: Vector) -> int:
    """The axis of the piece that a way lies along most.

    Args:
        direction: in the piece.
    """
    return max(range(3), key=lambda each: abs(direction[each]))


def _counted(count: int) -> str:
    return f"{count} clamps" if count > 1 else "1 clamp"
