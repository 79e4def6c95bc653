"""Pieces with their making by the usual shop, their target and what is found amiss in them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from furniture.blanks import common_blanks, runs_round_corners
from furniture.making.making import Making, making_of
from furniture.pieces import Piece
from furniture.shop.tools import Shop
from furniture.shop.tools.reading import read_shop
from furniture.shop.tools.values import ShopRead
from furniture.units import Reader
from tests.making import replay as replays
from tests.making.order import Fault, faults_of
from tests.making.replay import LIGHT, CannotBeMade, Replayed, replay
from tests.making.targets import SAME_MM3, Target, target_of, unlike
from tests.models import piece_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A piece, the shop that makes it, its making, and its parts by another way."""

    piece: Piece
    shop: ShopRead
    making: Making
    target: Target


def made(piece: Piece, segments: int = LIGHT) -> Made:
    """The making of a piece in the usual shop of its unit."""
    reader = Reader(piece.shown)
    shop = read_shop(reader, Shop())
    reader.raise_if_any()
    commons = common_blanks(piece, runs_round_corners(piece), shop.saw.kerf)
    return Made(
        piece=piece,
        shop=shop,
        making=making_of(piece, commons, shop),
        target=target_of(piece, segments),
    )


@cache
def amiss_in(name: str) -> Amiss:
    """What is amiss in the making of a model."""
    return amiss(model(name))


@cache
def model(name: str, segments: int = LIGHT) -> Made:
    """The making of a model."""
    return made(piece_of(name), segments)


@dataclass(frozen=True, slots=True, kw_only=True)
class Amiss:
    """What is found: parts that came out otherwise and by how much [mm3], and faults of order."""

    parts: dict[str, float]
    faults: frozenset[Fault]
    done: Replayed


def amiss(made: Made) -> Amiss:
    """What is amiss in the making of a piece.

    Raises:
        CannotBeMade: the work cannot even be done.
    """
    done = replay(made.making, made.target.tool, made.target.segments)
    return Amiss(
        parts=unlike(done, made.target),
        faults=frozenset(faults_of(made.making, done, made.piece, made.shop.saw)),
        done=done,
    )


def is_found(made: Made, faulty: replays.Making, known: Amiss) -> bool:
    """Whether something is amiss in work with a fault that is not amiss without it."""
    target = made.target
    try:
        done = replay(faulty, target.tool, target.segments)
    except CannotBeMade:
        return True
    if set(faults_of(faulty, done, made.piece, made.shop.saw)) - known.faults:
        return True
    parts = unlike(done, target)
    return any(
        abs(parts.get(name, 0.0) - known.parts.get(name, 0.0)) > SAME_MM3
        for name in {*parts, *known.parts}
    )
