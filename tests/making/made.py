"""Pieces with their making by the usual shop, their target and what is found amiss in them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from furniture.assembly import assembly_of, scene_of
from furniture.blanks import common_blanks, runs_round_corners
from furniture.making.glue_ups import GlueUps, stages_of
from furniture.making.making import Making, making_of
from furniture.pieces import Piece
from furniture.pieces.let_in import let_in_of
from furniture.shop.tools.reading import usual_or
from furniture.shop.tools.values import ShopRead
from tests.making import replay as replays
from tests.making.bench import Bench
from tests.making.bench_order import bench_faults
from tests.making.corner_room import cradle_faults, groove_faults
from tests.making.followed import named_before
from tests.making.held import held_faults
from tests.making.history import moments_of
from tests.making.machine_room import machine_faults
from tests.making.order import Fault, faults_of
from tests.making.replay import LIGHT, CannotBeMade, Replayed, replay
from tests.making.room import room_faults
from tests.making.solids import Placed, placed_of
from tests.making.strip_order import strip_faults
from tests.making.targets import SAME_MM3, Target, target_of, unlike
from tests.models import piece_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A piece, the shop that makes it, its making, and its parts by another way."""

    piece: Piece
    shop: ShopRead
    making: Making
    target: Target
    placed: Placed


def made(piece: Piece, segments: int = LIGHT, shop: ShopRead | None = None) -> Made:
    """The making of a piece in a shop; None is the usual one of its unit."""
    if shop is None:
        shop = usual_or(None, piece.shown)
    commons = common_blanks(piece, runs_round_corners(piece), shop.saw.kerf_mm)
    target = target_of(piece, segments)
    return Made(
        piece=piece,
        shop=shop,
        making=making_of(piece, commons, shop, _glue_ups(piece)),
        target=target,
        placed=placed_of(piece, target),
    )


def _glue_ups(piece: Piece) -> GlueUps | None:
    """How it goes together, where something is sawn only then; else it stays in parts."""
    if not let_in_of(piece):
        return None
    scene = scene_of(piece)
    found = stages_of(piece, assembly_of(piece, scene), scene=scene)
    return found if isinstance(found, GlueUps) else None


@cache
def amiss_in(name: str) -> Amiss:
    """What is amiss in the making of a model."""
    return amiss(model(name))


@cache
def model(name: str) -> Made:
    """The making of a model."""
    return made(piece_of(name))


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
    done = replay(
        made.making, made.target.tool, made.target.segments, standing=made.placed.matrices
    )
    return Amiss(
        parts=unlike(done, made.target),
        faults=frozenset(all_faults(made, made.making, done)),
        done=done,
    )


def all_faults(made: Made, making: replays.Making, done: Replayed) -> list[Fault]:
    """Faults of order in cutting wood, and at the bench."""
    moments = moments_of(making, done)
    bench = Bench(making=making, moments=moments, piece=made.piece, placed=made.placed)
    return [
        *faults_of(making, done, made.piece, made.shop.saw),
        *bench_faults(bench),
        *named_before(bench),
        *held_faults(moments, made.shop),
        *room_faults(moments, made.shop),
        *machine_faults(moments, made.shop),
        *strip_faults(making),
        *groove_faults(moments),
        *cradle_faults(done.body_steps, made.placed.matrices),
    ]


def is_found(made: Made, faulty: replays.Making, known: Amiss) -> bool:
    """Whether something is amiss in work with a fault that is not amiss without it."""
    target = made.target
    try:
        done = replay(faulty, target.tool, target.segments, standing=made.placed.matrices)
    except CannotBeMade:
        return True
    if set(all_faults(made, faulty, done)) - known.faults:
        return True
    if set(done.untrue) - set(known.done.untrue):
        return True
    parts = unlike(done, target)
    return any(
        abs(parts.get(name, 0.0) - known.parts.get(name, 0.0)) > SAME_MM3
        for name in {*parts, *known.parts}
    )
