"""Several pieces from one pile of boards, as a maker asks for them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from exporters.designs import Design, piece_of
from furniture.checks.of_piece.setting import Place, Setting, read_setting
from furniture.errors import DesignError, Problem
from furniture.parts.part import slug_of
from furniture.pieces import Piece
from furniture.rules import ShopRules
from furniture.shop.boards import Match, PartWish
from furniture.shop.boards.lots import Lot, stock_problems
from furniture.units import REQUIRED, Reader, Shown, counted, parameters, said

if TYPE_CHECKING:
    from exporters.revision.against import Against, Letters
    from furniture.job.going_on import GoingOn

MOST_COPIES = 100
"""Of all pieces together: so many has a search for a plan been tried with. Own rule."""

FOLDERS_OF_BOARDS = ("sheets", "pictures")
"""Of the packet, beside those of the pieces."""


@parameters
class Copies:
    """A design that is made once or several times.

    Args:
        of: the design.
        count: how many of it.
        parts: what parts of each copy put up with, as in `CuttingWishes`.
        matches: of the parts of each copy, as in `CuttingWishes`; left out, the usual ones.
        place: where it will stand; left out, where all others do.
    """

    of: Any = REQUIRED
    count: int = 1
    parts: Sequence[PartWish] = ()
    matches: Sequence[Match] | None = None
    place: Place | str | None = None


@parameters
class Batch:
    """Several pieces that are cut from one pile of boards.

    Args:
        name: of the whole, such as `market day`.
        of: designs, or `Copies` of them.
        shown: how the lengths of the boards are shown; left out, as those of the first piece are.
    """

    name: str = REQUIRED
    of: Sequence[Any] = REQUIRED
    shown: Shown | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """One piece of a batch, however many copies of it are made; `job` where it is begun.

    `against` is the earlier packet that it is told against, `letters` those of the packet that is
    replaced.
    """

    piece: Piece
    setting: Setting
    count: int
    job: GoingOn | None = None
    against: Against | None = None
    letters: Letters | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BuiltBatch:
    """A batch whose pieces are built.

    Args:
        name: of the whole.
        members: each piece once.
        lots: each copy of each piece.
        shown: how the lengths of the boards are shown.
        told: of a job file what is said of the boards of all, a line each.
    """

    name: str
    members: tuple[Member, ...]
    lots: tuple[Lot, ...]
    shown: Shown
    told: tuple[str, ...] = ()

    @property
    def slug(self) -> str:
        """The name as a file's."""
        return slug_of(self.name)


def built(batch: Batch, place: Place | str | None, rules: ShopRules | None) -> BuiltBatch:
    """The batch with its pieces built.

    Args:
        batch: as the maker asks for it.
        place: where a piece stands that says nothing of its own.
        rules: the shop's own limits.

    Raises:
        DesignError: with every problem of every piece.
    """
    reader = Reader(batch.shown if isinstance(batch.shown, Shown) else None)
    reader.names("batch.", batch)
    reader.is_name("batch.name", batch.name)
    given = _given(reader, batch.of)
    problems = list(reader.problems)
    members: list[Member] = []
    for where, copies in given:
        piece = _piece(copies.of, where, rules, problems)
        try:
            setting = read_setting(place if copies.place is None else copies.place, rules)
        except DesignError as error:
            problems += _told_of(where if copies.place is not None else "", error)
            continue
        if piece is not None:
            members.append(Member(piece=piece, setting=setting, count=copies.count))
    problems += _same_slugs([each.piece for each in members])
    lots: tuple[Lot, ...] = ()
    if not problems:
        lots = _lots([(each, copies) for each, (_, copies) in zip(members, given, strict=True)])
        problems += [*_same_marks(lots), *stock_problems(lots)]
    if problems:
        raise DesignError(dict.fromkeys(problems))
    return BuiltBatch(
        name=batch.name, members=tuple(members), lots=lots,
        shown=batch.shown or members[0].piece.shown,
    )  # fmt: skip


def _given(reader: Reader, of: object) -> list[tuple[str, Copies]]:
    """Each entry with how a message calls it; a lone design counts as one copy of it."""
    entries = of if isinstance(of, (list, tuple)) else (of,)
    if not entries or entries == (None,):
        reader.refuse(
            "batch.of", said(of), "designs, or Copies of them", "a batch is made of pieces",
            "write of=[stand, Copies(of=box, count=2)]",
        )  # fmt: skip
        return []
    found = []
    for index, entry in enumerate(entries):
        where = counted("batch piece", index)
        copies = entry if isinstance(entry, Copies) else Copies(of=entry)
        reader.names(f"{where} ", copies)
        if not isinstance(copies.of, Piece) and not callable(getattr(copies.of, "build", None)):
            reader.refuse(
                f"{where} of", said(copies.of), "a design such as a SteppedStand, or a Piece",
                "it has to be built", "write of=stand",
            )  # fmt: skip
            continue
        is_whole = isinstance(copies.count, int) and not isinstance(copies.count, bool)
        if not is_whole or not 1 <= copies.count <= MOST_COPIES:
            reader.refuse(
                f"{where} count", said(copies.count), f"a whole number from 1 to {MOST_COPIES}",
                "so many copies are cut", "write count=2",
            )  # fmt: skip
            continue
        found.append((where, copies))
    total = sum(copies.count for _, copies in found)
    if total > MOST_COPIES and not reader.problems:
        reader.refuse(
            "batch.of", f"{total} pieces", f"at most {MOST_COPIES} in all",
            "no plan has been tried with more", "make two batches of it",
        )  # fmt: skip
    return found


def _piece(
    of: Design | Piece, where: str, rules: ShopRules | None, problems: list[Problem]
) -> Piece | None:
    try:
        return piece_of(of, rules)
    except DesignError as error:
        problems += _told_of(str(getattr(of, "name", "")) or where, error)
        return None


def _told_of(whose: str, error: DesignError) -> list[Problem]:
    """The problems of a piece, told as its own."""
    before = f"{whose}: " if whose else ""
    return [replace(each, parameter=f"{before}{each.parameter}") for each in error.problems]


def _same_slugs(pieces: Sequence[Piece]) -> list[Problem]:
    counts = Counter((*(piece.slug for piece in pieces), *FOLDERS_OF_BOARDS))
    return [
        Problem(
            parameter="batch.of",
            given=f"{slug!r} as the name of {count} folders",
            allowed="a name for each design, other than " + " and ".join(FOLDERS_OF_BOARDS),
            why="each has a folder of its name, and the boards have these",
            remedy="name one otherwise, or write Copies(of=..., count=...) if they are alike",
        )
        for slug, count in counts.items()
        if count > 1
    ]


def _same_marks(lots: Sequence[Lot]) -> list[Problem]:
    counts = Counter(lot.mark for lot in lots)
    return [
        Problem(
            parameter="batch.of",
            given=f"{count} copies called {mark!r}",
            allowed="a name for each copy",
            why="copies are numbered, and a design has the name of one of them",
            remedy=f"name the design {mark!r} otherwise",
        )
        for mark, count in counts.items()
        if count > 1
    ]


def _lots(entries: Sequence[tuple[Member, Copies]]) -> tuple[Lot, ...]:
    return tuple(
        Lot(
            piece=member.piece,
            parts=copies.parts,
            matches=copies.matches,
            mark=member.piece.name if copies.count == 1 else f"{member.piece.name} {number}",
            where=f"{member.piece.name}: ",
            number=None if copies.count == 1 else number,
        )
        for member, copies in entries
        for number in range(1, copies.count + 1)
    )
