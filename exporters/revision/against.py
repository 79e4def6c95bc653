"""An earlier packet that a run is compared with, and the letters that its sheets carry."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from exporters.sheets.letters import letter_of
from furniture.job import Old, PacketError, Say, Verdict, read_packet
from furniture.job.alike import verdicts_as_made
from furniture.job.done import begun_cuts
from furniture.job.going_on import GoingOn, not_cut
from furniture.job.measured_old import as_they_stand, with_measured
from furniture.pieces import Piece
from furniture.shop.cutting.values import Saw

UNCHANGED = "-"
"""What stands in the revision field of a sheet that never changed."""

_LETTERS = 26 * 27
"""A to ZZ."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Letters:
    """The letters of a set of sheets.

    Args:
        old: the earlier packet: what was cut by it, and its sheets.
        letter: that changed sheets carry now.
    """

    old: Old
    letter: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Against(Letters):
    """The earlier packet, as it was named, and what becomes of its parts.

    Args:
        named: the folder as the maker wrote it.
        verdicts: on every part; in a job on those that are done, or that change before they are.
        told: of a job, what was measured and what gave for it.
    """

    named: str
    verdicts: tuple[Verdict, ...]
    told: tuple[str, ...] = ()


def compared(
    folder: Path,
    piece: Piece,
    saw: Saw,
    revision: str = UNCHANGED,
    going: GoingOn | None = None,
) -> tuple[Piece, Against]:
    """The piece told against the packet that stands in a folder, with cuts where they are made.

    Args:
        folder: of the earlier packet; it may be the one that is replaced afterwards.
        piece: as it is designed now.
        saw: with its limits.
        revision: the maker's own letter for what changed; a dash takes the next one.
        going: the job, where one is gone on with: what was measured, and how what is made stands.

    Raises:
        PacketError: there is no packet of this piece, or it cannot be read.
        SolidError: the solid kernel did not do what the model asked.
    """
    old = read_packet(folder, piece.design_slug)
    if going is not None:
        old = as_they_stand(with_measured(old, going.job.measured), going.stands)
    if going is None:
        piece, verdicts = verdicts_as_made(old, piece, saw)
    else:
        piece, verdicts = _of_what_is_cut(old, piece, saw, going)
    return piece, Against(
        named=str(folder), old=old, verdicts=verdicts, letter=_letter(old, revision)
    )


def _of_what_is_cut(
    old: Old, piece: Piece, saw: Saw, going: GoingOn
) -> tuple[Piece, tuple[Verdict, ...]]:
    """A job's verdicts: what was only drawn by the earlier packet spoils nothing."""
    done = going.job.done_parts
    cut = replace(old, parts=tuple(each for each in old.parts if each.name in done))
    piece, verdicts = verdicts_as_made(cut, piece, saw, begun_cuts(going.job.done))
    told = {each.instance: each for each in not_cut(old, piece, done)}
    told |= {each.instance: each for each in going.verdicts if each.instance not in done}
    told |= {each.instance: each for each in verdicts if each.instance in done}
    return piece, (
        *(
            told.get(each.instance, Verdict(instance=each.instance, say=Say.AS_IS))
            for each in piece.placed
        ),
        *(each for each in verdicts if each.say is Say.NOT_NEEDED),
    )


def gone_on_against(going: GoingOn, revision: str = UNCHANGED) -> Against | None:
    """A job told against the packet that it is worked by; None where it names none.

    Args:
        going: the job.
        revision: the maker's own letter for what changed; a dash takes the next one.
    """
    if going.job.packet is None or going.old is None:
        return None
    return Against(
        named=str(going.job.packet),
        old=going.old,
        verdicts=(*going.verdicts, *going.not_cut),
        letter=_letter(going.old, revision),
    )


def letters_kept(folder: Path, piece: Piece, revision: str = UNCHANGED) -> Letters | None:
    """The letters of the packet that is replaced; None where its sheets carry none.

    Args:
        folder: that is written.
        piece: as it is designed now.
        revision: the maker's own letter for what changed; a dash takes the next one.
    """
    try:
        old = read_packet(folder, piece.design_slug)
    except PacketError:
        return None  # there is none, or it cannot be gone by
    if not any(_is_letter(each.revision) for each in old.sheets.values()):
        return None
    return Letters(old=old, letter=_letter(old, revision))


def _letter(old: Old, revision: str) -> str:
    return next_letter(old) if revision == UNCHANGED else revision


def next_letter(old: Old) -> str:
    """The letter after the last that a sheet of the earlier packet carries; A where none does.

    Args:
        old: the earlier packet.
    """
    known = [letter_of(index) for index in range(_LETTERS)]
    used = {each.revision for each in old.sheets.values()}
    last = max((index for index, letter in enumerate(known) if letter in used), default=-1)
    return letter_of(last + 1)


def _is_letter(revision: str) -> bool:
    return revision not in ("", UNCHANGED)
