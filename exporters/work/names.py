"""Names of pieces of wood in a line: like ones are counted where none is left out."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from types import MappingProxyType

from furniture.making.making import Making
from furniture.pieces.in_rows import Rows, WoodName, named_in, woods_in_words
from furniture.pieces.piece import Piece
from furniture.units import plural

_MANY = 3
"""So many of a noun are counted where none is left out. Own rule."""


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
    of_noun: dict[str, list[str]] = defaultdict(list)
    nouns = {each.instance: each.noun for each in piece.placed}
    for instance, noun in nouns.items():
        of_noun[noun].append(instance)
    found: dict[WoodName, None] = {}
    for each in named_in(piece, names, rows):
        noun = nouns.get(each.text, each.text)
        several = of_noun.get(noun, [])
        is_whole = len(several) >= _MANY and set(several) <= set(names)
        is_counted = is_whole and each.in_row is None
        found[WoodName(f"the {len(several)} {plural(noun)}") if is_counted else each] = None
    return woods_in_words(tuple(found))
