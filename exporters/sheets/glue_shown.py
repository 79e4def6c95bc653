"""What is shown of each glue-up, on sheets and in the plan: title, picture and words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from exporters.sheets.part_notes import rounded_note
from exporters.sheets.positions import glued_on
from exporters.views.glue_up import OpenedView, coming_together
from exporters.work.glue_words import GlueWords, cut_before_glue, glue_in_words
from exporters.work.work_of import Work
from furniture.assembly.values import NoOrder
from furniture.making.as_closed import placed_as_closed
from furniture.making.glue_ups import GlueUps, NoStages
from furniture.parts.part import Placed
from furniture.pieces.piece import Piece
from furniture.units import Amounts, listed
from furniture.units.showing import is_rounded

_NOTE = (
    "Ways are those of the piece as it stands, seen from its front. First try every joint dry in "
    "this order."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueUpShown:
    """One glue-up, or what is laid in when all is dry.

    Args:
        number: in the row of pictures, from 1.
        title: what comes together.
        sentences: what is done, in order, each without a full stop.
        picture: what comes together, drawn apart; None where nothing does.
        placed: what is then together, as it is cut by then; empty where there is no picture.
        closes: the number of its stage; None where it is none.
    """

    number: int
    title: str
    sentences: tuple[str, ...]
    picture: OpenedView | None = None
    placed: tuple[Placed, ...] = ()
    closes: int | None = None


def notes_on_glue_ups(piece: Piece, work: Work) -> tuple[str, ...]:
    """What holds for every glue-up: what ways mean, and what the glue asks for.

    Args:
        piece: that goes together.
        work: on it.
    """
    gluing, copies = work.making.gluing, work.making.copies
    show = Amounts(shown=piece.shown)
    each = (f"Each is done {copies} times, once for each copy.",) if copies > 1 else ()
    stages = work.found.stages if isinstance(work.found, GlueUps) else ()
    words = _words(piece, work)
    is_marked = any(is_rounded(said) for stage in stages for said in words.sentences_of(stage))
    marks = (rounded_note(piece.shown),) if is_marked else ()
    return (_NOTE, *marks, *each, *((glue_in_words(gluing[0].glue, show),) if gluing else ()))


def _words(piece: Piece, work: Work) -> GlueWords:
    return GlueWords(
        piece=piece,
        cut_before=cut_before_glue(work.making),
        gluing=work.making.gluing,
        set_out=_set_out(piece),
    )


def glue_ups_shown(piece: Piece, work: Work) -> tuple[GlueUpShown, ...]:
    """Every glue-up in order and what is laid in last; or why there are none.

    Args:
        piece: that goes together.
        work: on it.

    Raises:
        SolidError: a part cannot be made.
    """
    glue_ups = work.found
    if not isinstance(glue_ups, GlueUps):
        return (GlueUpShown(number=1, title="no order found", sentences=_why(glue_ups)),)
    words, found = _words(piece, work), []
    for stage in glue_ups.stages:
        placed = placed_as_closed(piece, work.making, stage)
        found.append(
            GlueUpShown(
                number=stage.number,
                title=words.title_of(stage),
                sentences=words.sentences_of(stage),
                picture=coming_together(placed, piece.joinings, stage.moves),
                placed=placed,
                closes=stage.number,
            )
        )
    last = words.last_of(glue_ups)
    if last:
        placed = _laid_in(piece, glue_ups)
        found.append(
            GlueUpShown(
                number=len(found) + 1,
                title="when all is dry",
                sentences=last,
                picture=coming_together(placed, piece.joinings, glue_ups.laid_in)
                if placed
                else None,
                placed=placed,
            )
        )
    return tuple(found)


def _set_out(piece: Piece) -> Mapping[str, Sequence[tuple[float, int, bool]]]:
    """How far in from which edges the parts go that no cut locates."""
    found: dict[str, list[tuple[float, int, bool]]] = {}
    for group in glued_on(piece):
        for each in group.positions:
            off = (each.length_mm, each.axis, each.is_from_high)
            found.setdefault(each.instance, []).append(off)
    return found


def _why(found: NoStages | NoOrder | None) -> tuple[str, ...]:
    if isinstance(found, NoOrder):
        return (found.reason.rstrip("."),)
    stuck = () if found is None else found.stuck
    return (f"these lock one another: {listed(stuck)}",)


def _laid_in(piece: Piece, glue_ups: GlueUps) -> tuple[Placed, ...]:
    names = {name for step in glue_ups.laid_in for name in (*step.moving, *step.onto)}
    return tuple(each for each in piece.placed if each.instance in names)
