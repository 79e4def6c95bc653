"""A piece made ready to be bent: as plates on springs, with its glue and without."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from furniture.joints.joint import Joining
from furniture.parts.part import Placed
from furniture.pieces import Piece, placed_named
from furniture.pieces.weighed import Mass
from furniture.rules.bearing import TORN_AT
from furniture.structure import Case, Frame, State, cases_of, frame_of, held_in
from furniture.structure.bending import Sag, sag_of, uses_of
from furniture.structure.bent_cases import BentCase, bent_cases
from furniture.structure.capacity import Carries
from furniture.structure.elastic import (
    Bent,
    Elastic,
    bent_under,
    elastic_of,
    without_end_grain,
    without_glue,
)
from furniture.structure.links import Link
from furniture.structure.rigid import Push


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """A level part under one load: as glued, dry where it is held so, and by its own weight.

    `lasting` is the part under what of that load stays, where some of it comes and goes.
    """

    told: str
    placed: Placed
    glued: Sag
    dry: Sag | None
    own: Sag
    lasting: Level | None = None

    @property
    def worst(self) -> Sag:
        """The softer of the two, which is the cautious one."""
        if self.dry is None or self.dry.fall_mm < self.glued.fall_mm:
            return self.glued
        return self.dry


@dataclass(frozen=True, slots=True, eq=False)
class Bends:
    """A piece ready to be bent: its frame, its springs, and how it gives under what stays on it.

    `loads` are told with `tight`, the piece as glued, and `loose`, the same without glue. `dry` is
    the piece without glue, None where it is not held so.
    """

    piece: Piece
    frame: Frame
    glued: Elastic
    dry: Elastic | None
    loads: tuple[BentCase, ...]
    tight: tuple[Bent | None, ...]
    loose: tuple[Bent | None, ...]

    def dry_under(self, loads: Sequence[Sequence[Push]]) -> list[Bent | None]:
        """The piece without its glue under each of several loads; None where it comes apart.

        Args:
            loads: what presses on it, each by itself.
        """
        standing, *_ = cases_of(self.piece, self.frame)
        return _dry_under(self.frame, standing, self.dry, loads)

    def levels(self) -> list[Level]:
        """Every level part that carries anything, under every load; the first is its own weight."""
        names = dict.fromkeys(
            (*(each.instance for each in self.piece.surfaces),
             *(each.on for each in self.piece.fixed))
        )  # fmt: skip
        bare = self.tight[0]
        if bare is None:
            return []
        own = {name: sag_of(self.piece, bare, name) for name in names}
        found: dict[tuple[int, str], Level] = {}
        bents = zip(self.loads, self.tight, self.loose, strict=True)
        for index, (case, bent, slack) in enumerate(bents):
            if bent is None:
                continue
            for name in names:
                found[index, name] = Level(
                    told=case.told,
                    placed=placed_named(self.piece, name),
                    glued=sag_of(self.piece, bent, name),
                    dry=None if slack is None else sag_of(self.piece, slack, name),
                    own=own[name],
                    lasting=None if case.lasting is None else found.get((case.lasting, name)),
                )
        return list(found.values())


def bends_of(piece: Piece, masses: Mapping[str, Mass]) -> Bends | None:
    """The piece ready to be bent.

    None where it is not held, as springs would bear it in vain, or a wood's stiffness is unknown.

    Args:
        piece: the piece as cut
        masses: of its instances, by name
    """
    frame = frame_of(piece, masses)
    cases = cases_of(piece, frame)[:2]
    if not all(held_in(frame, case).is_held for case in cases):
        return None
    ground = standing_fast(frame)
    glued = elastic_of(piece, ground, piece.joinings)
    if glued is None:
        return None
    loads = bent_cases(piece, frame)
    pushes = [each.pushes for each in loads]
    tight = bent_under(glued, pushes)
    kept = _not_torn(piece, tight)
    if kept != piece.joinings and all(
        held_in(frame, case, State.NO_END_GRAIN).is_held for case in cases
    ):
        again = elastic_of(piece, ground, kept)
        assert again is not None, "its woods are known"
        glued, tight = again, bent_under(again, pushes)
    dry: Elastic | None = None
    if held_in(frame, cases[0], State.DRY).is_held:
        dry = elastic_of(piece, ground, [without_glue(each) for each in piece.joinings])
        assert dry is not None, "its woods are known"
    loose = _dry_under(frame, cases[0], dry, pushes)
    return Bends(piece, frame, glued, dry, loads, tuple(tight), tuple(loose))


def _dry_under(
    frame: Frame, case: Case, dry: Elastic | None, loads: Sequence[Sequence[Push]]
) -> list[Bent | None]:
    """A load in the middle may hold down what one at a corner tilts out: springs would bear that in
    vain, and fall by kilometres.
    """
    if dry is None:
        return [None] * len(loads)
    holds = [held_in(frame, replace(case, pushes=tuple(each)), State.DRY).is_held for each in loads]
    bents = iter(
        bent_under(dry, [each for each, is_held in zip(loads, holds, strict=True) if is_held])
    )
    return [next(bents) if is_held else None for is_held in holds]


def standing_fast(frame: Frame) -> tuple[Link, ...]:
    """A floor that holds the feet down: what tips is told elsewhere, here what bends."""
    return tuple(replace(link, least_n=-link.most_n) for link in (*frame.floor, *frame.wall))


def _not_torn(piece: Piece, bents: Sequence[Bent | None]) -> tuple[Joining, ...]:
    """The joints, those whose glue on end grain is stretched too far without it."""
    over = {
        use.joining
        for bent in bents
        if bent is not None
        for use in uses_of(bent)
        if use.carries is Carries.END_GLUE and use.share > piece.rules[TORN_AT]
    }
    return tuple(
        without_end_grain(each) if index in over else each
        for index, each in enumerate(piece.joinings)
    )
