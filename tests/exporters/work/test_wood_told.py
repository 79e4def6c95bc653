"""No piece of wood is met that no step has made, and that nothing says to saw before the first."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from exporters.work.checklist import rough_wood_in_words
from exporters.work.names import counted_woods, strips_in
from furniture.making.making import Making
from furniture.making.workpieces import Wood
from furniture.pieces import Piece
from furniture.units import dialled, figure
from furniture.units.showing import without_mark
from tests.exporters.work.sheet_words import whole_work
from tests.making.made import made
from tests.making.test_corners import keyed, splined
from tests.making.test_from_boards import from_boards
from tests.making.test_resawing import SHARED, THICK_BOARD, box
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models


def unmade(making: Making) -> Iterator[str]:
    """What an operation takes that is no board and that none before it has given."""
    there = {each.id for each in making.workpieces if each.what is Wood.BOARD}
    for each in making.operations:
        yield from (name for name in each.takes if name not in there)
        there |= {*each.takes, *each.gives}


@pytest.mark.parametrize("name", NAMES)
def test_from_the_boards_every_piece_of_wood_is_made_by_a_step(name: str) -> None:
    whole, _ = from_boards(name)
    assert list(unmade(whole.making)) == []
    assert rough_wood_in_words(whole.piece, whole.making) == ""


@pytest.mark.parametrize("wood", [THICK_BOARD, SHARED])
def test_splines_too_come_from_the_boards(wood: str) -> None:
    assert list(unmade(box(wood).making)) == []


def _is_told(piece: Piece, making: Making) -> None:
    """Every piece of wood with its three sizes, and like ones once."""
    said = rough_wood_in_words(piece, making)
    told = said.removesuffix(".").split("first figure: ")[1].split("; ")
    sizes: dict[str, list[str]] = {}
    for each in making.workpieces:
        long, wide, thick = (b - a for a, b in zip(each.low, each.high, strict=True))
        rough = (without_mark(figure(mm, piece.shown)) for mm in (long, wide))
        size = " x ".join((*rough, str(dialled(thick, piece.shown))))
        sizes.setdefault(size, []).append(each.id)
    first = set(unmade(making))
    assert first
    expected = []
    for size, names in sizes.items():
        if here := [name for name in names if name in first]:
            each = "each " if len(here) > 1 else ""
            expected.append(f"{counted_woods(piece, here, strips_in(making))}: {each}{size}")
    assert told == expected


@pytest.mark.parametrize("name", NAMES)
def test_without_boards_the_first_sheet_says_what_is_sawn_before(name: str) -> None:
    _is_told(piece_of(name), whole_work(name).making)


@pytest.mark.parametrize("piece", [splined, keyed])
def test_splines_and_keys_are_told_among_it(piece) -> None:  # type: ignore[no-untyped-def]
    whole = made(piece())
    _is_told(whole.piece, whole.making)
