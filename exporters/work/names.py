"""Names of pieces of wood in a line: like ones are counted where none is left out."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from types import MappingProxyType

from furniture.making.making import Making
from furniture.parts.faces import Face
from furniture.pieces.in_rows import Rows, WoodName, named_in, woods_in_words
from furniture.pieces.piece import Piece
from furniture.units import plural

_PAIR = 2
ON_A_BOARD = {
    Face.NAMED_END: "end that was measured from",
    Face.FAR_END: "other end",
    Face.FACE_EDGE: "straight edge",
    Face.BACK_EDGE: "other edge",
    Face.FACE_SIDE: "upper face",
    Face.BACK_SIDE: "lower face",
}
"""What a board's faces are called before anything comes off it."""


def strips_in(making: Making) -> Rows:
    """The strips that parts are glued up from, each in the row of its part.

    Args:
        making: of a piece.
    """
    return {
        each.id: WoodName.numbered(f"{whole.id}, strip", number)
        for whole in making.workpieces
        for number, each in enumerate(whole.glued_of, start=1)
    }


def counted_woods(piece: Piece, names: Sequence[str], rows: Rows = MappingProxyType({})) -> str:
    """The names in their order; all parts of the piece that share a noun are counted.

    Args:
        piece: that they are of.
        names: of its instances, or of other wood, each once.
        rows: of that other wood, where it is numbered.
    """
    return counted(piece, named_in(piece, names, rows))


def counted(piece: Piece, woods: Sequence[WoodName]) -> str:
    """What wood is called, in its order; all parts of the piece that share a noun are counted.

    Args:
        piece: that they are of.
        woods: each once.
    """
    of_noun: dict[str, list[str]] = defaultdict(list)
    nouns = {each.instance: each.noun for each in piece.placed}
    for instance, noun in nouns.items():
        of_noun[noun].append(instance)
    there = {each.text for each in woods}
    found: dict[WoodName, None] = {}
    for each in woods:
        noun = nouns.get(each.text, each.text)
        several = of_noun.get(noun, [])
        is_whole = len(several) > 1 and set(several) <= there
        is_counted = is_whole and each.in_row is None
        found[WoodName(_all_of(len(several), noun)) if is_counted else each] = None
    return woods_in_words(tuple(found))


def _all_of(count: int, noun: str) -> str:
    return f"both {plural(noun)}" if count == _PAIR else f"the {count} {plural(noun)}"
