"""The tables of the packet: parts.csv, bought.csv and checks.csv."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from furniture.checks.check import Verdict
from furniture.checks.finding import Finding
from furniture.pieces import Piece, bought_parts, distinct_parts
from furniture.pieces.bought import Bought, thickness_in_words
from furniture.pieces.weighed import Mass
from furniture.units import Shown, figure, fitted

PARTS_HEADER = (
    "number", "part", "quantity", "stock", "species", "length", "width", "thickness", "unit",
    "rough length", "rough width", "cuts", "moisture %", "moisture is", "volume mm3 each",
    "mass kg each", "price",
)  # fmt: skip
BOUGHT_HEADER = ("thing", "quantity", "diameter", "length", "unit", "where", "note")
CHECKS_HEADER = (
    "check", "kind", "where", "value", "limit", "sense", "unit", "verdict", "basis", "advice",
)  # fmt: skip


def parts_rows(piece: Piece, masses: Mapping[str, Mass] | None) -> list[tuple[str, ...]]:
    """One row per distinct part, lengths in the shown unit; without masses those columns are empty.

    Args:
        piece: the piece.
        masses: by the id of the part, when the solids were made.
    """
    shown = piece.shown
    rows: list[tuple[str, ...]] = []
    for number, distinct in enumerate(distinct_parts(piece), start=1):
        part = distinct.part
        blank, timber, rough = part.blank, part.timber, part.rough
        mass = None if masses is None else masses[part.id]
        rows.append(
            (
                str(number),
                part.name,
                str(distinct.quantity),
                timber.name,
                timber.species.name,
                figure(blank.length_mm, shown),
                figure(blank.width_mm, shown),
                fitted(blank.thickness_mm, shown),
                shown.unit.symbol,
                figure(blank.length_mm + rough.length_mm, shown),
                figure(blank.width_mm + rough.width_mm, shown),
                ", ".join(cut.name for cut in part.cuts),
                f"{timber.moisture_pct:g}",
                "assumed" if timber.moisture_is_assumed else "measured",
                "" if mass is None else f"{mass.volume_mm3:.0f}",
                "" if mass is None else f"{mass.mass_kg:.3f}",
                timber.price or "",
            )
        )
    return rows


def bought_rows(piece: Piece) -> list[tuple[str, ...]]:
    """One row for each kind and size of thing to buy, lengths in the shown unit."""
    return things_rows(bought_parts(piece), piece.shown)


def things_rows(things: Iterable[Bought], shown: Shown) -> list[tuple[str, ...]]:
    """One row for each thing to buy.

    Args:
        things: equal ones counted together.
        shown: how lengths are shown.
    """
    return [
        (
            each.name,
            str(each.quantity),
            thickness_in_words(each, shown),
            "" if each.length_mm is None else figure(each.length_mm, shown),
            "" if each.diameter_mm is None and each.length_mm is None else shown.unit.symbol,
            ", ".join(each.where),
            each.note,
        )
        for each in things
    ]


def checks_rows(findings: Iterable[Finding]) -> list[tuple[str, ...]]:
    """One row per finding."""
    return [
        (
            each.check.name,
            each.check.kind.value,
            each.subject,
            "" if each.value is None else f"{each.value:.4g}",
            "" if each.limit is None else f"{each.limit:.4g}",
            "" if each.sense is None else each.sense.value,
            each.unit,
            "in order" if each.verdict is Verdict.OK else each.verdict.value,
            each.basis,
            each.advice,
        )
        for each in findings
    ]


def write_table(header: Sequence[str], rows: Sequence[Sequence[str]], path: Path) -> Path:
    """The CSV file written: UTF-8, a header line, then the rows."""
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(header)
        writer.writerows(rows)
    return path
