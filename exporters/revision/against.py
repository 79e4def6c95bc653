"""An earlier packet that a run is compared with."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from exporters.sheets.letters import letter_of
from furniture.job import Old, Verdict, read_packet, verdicts_of
from furniture.job.figures import Figure
from furniture.job.measured_old import with_measured
from furniture.pieces import Piece
from furniture.shop.cutting.values import Saw

UNCHANGED = "-"
"""What stands in the revision field of a sheet that never changed."""

_LETTERS = 26 * 27
"""A to ZZ."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Against:
    """The earlier packet, as it was named, and what becomes of its parts.

    Args:
        named: the folder as the maker wrote it.
        old: what was cut by it, and its sheets.
        verdicts: on every part.
        letter: that changed sheets carry now.
    """

    named: str
    old: Old
    verdicts: tuple[Verdict, ...]
    letter: str


def compared(
    folder: Path,
    piece: Piece,
    saw: Saw,
    revision: str = UNCHANGED,
    measured: Mapping[Figure, float] | None = None,
) -> Against:
    """The piece told against the packet that stands in a folder.

    Args:
        folder: of the earlier packet; it may be the one that is replaced afterwards.
        piece: as it is designed now.
        saw: with its limits.
        revision: the maker's own letter for what changed; a dash takes the next one.
        measured: sizes of its parts that came out otherwise [mm].

    Raises:
        PacketError: there is no packet of this piece, or it cannot be read.
        SolidError: the solid kernel did not do what the model asked.
    """
    old = with_measured(read_packet(folder, piece.slug), measured or {})
    return Against(
        named=str(folder),
        old=old,
        verdicts=verdicts_of(old, piece, saw),
        letter=next_letter(old) if revision == UNCHANGED else revision,
    )


def next_letter(old: Old) -> str:
    """The letter after the last that a sheet of the earlier packet carries; A where none does.

    Args:
        old: the earlier packet.
    """
    known = [letter_of(index) for index in range(_LETTERS)]
    used = {each.revision for each in old.sheets.values()}
    last = max((index for index, letter in enumerate(known) if letter in used), default=-1)
    return letter_of(last + 1)
