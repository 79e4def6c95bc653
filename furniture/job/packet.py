"""An earlier packet read back from its piece.json: what was cut by it, every fault told at once."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from furniture.errors import DesignError, Problem
from furniture.job.old import Drawn, Old, OldPart, Wood
from furniture.job.records import Reading, cut_from, number
from furniture.parts.blank import Blank
from furniture.parts.part import slug_of

SUMMARY = "piece.json"
SCHEMA = "knifewall.piece/"
KNOWN = 1
"""The schema that this reader knows; an older one there is none."""


class PacketError(DesignError):
    """An earlier packet that cannot be compared with, with everything that is wrong with it."""

    heading = "the earlier packet cannot be compared with"

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__(problems)
        count = f"{len(self.problems)} problem{'' if len(self.problems) == 1 else 's'}"
        _, _, rest = str(self).partition("\n")
        self.args = (f"{self.heading}: {count}\n{rest}",)


def read_packet(folder: Path, slug: str | None = None) -> Old:
    """What was cut by the packet in a folder: every instance, offcuts worth keeping, sheets.

    Args:
        folder: of the packet.
        slug: of the design that it has to be of; none takes any.

    Raises:
        PacketError: there is no packet of ours, a newer version wrote it, it is of another piece,
            or some of it cannot be read.
    """
    record = _record_in(folder)
    reading = Reading(where=str(folder / SUMMARY))
    found = str(record.get("slug", ""))
    design = slug_of(str(record["copy_of"])) if record.get("copy_of") else found
    if slug is not None and design != slug:
        reading.refuse(
            "slug", repr(found), repr(slug), "it is the packet of another piece",
            "name the folder of this piece's earlier packet",
        )  # fmt: skip
    parts = _parts(reading, record)
    placed = _placed(reading, record, parts)
    offcuts = _offcuts(reading, record, placed)
    if reading.problems:
        raise PacketError(tuple(reading.problems))
    return Old(
        name=str(record.get("name", found)),
        slug=found,
        parts=(*placed, *offcuts),
        sheets=_sheets(record),
    )


def _record_in(folder: Path) -> Mapping[str, Any]:
    """piece.json as it stands.

    Raises:
        PacketError: it is not there, not ours, or of a newer schema.
    """
    path = folder / SUMMARY
    where = Reading(where=str(path))
    if (folder / "batch.json").is_file() and not path.is_file():
        raise _alone(where, "the packet of a batch", "name the folder of one piece in it")
    if not path.is_file():
        raise _alone(where, f"no {SUMMARY}", "name the folder that an earlier run wrote")
    try:
        record = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError) as error:
        told = error.strerror if isinstance(error, OSError) and error.strerror else "no JSON"
        raise _alone(where, told, "take a packet as it was written") from error
    schema = record.get("schema") if isinstance(record, dict) else None
    if not isinstance(schema, str) or not schema.startswith(SCHEMA):
        raise _alone(where, f"schema {schema!r}", "name the folder that an earlier run wrote")
    if schema != f"{SCHEMA}{KNOWN}":
        raise _alone(
            where, f"schema {schema!r}", "take the knifewall that wrote it, or a newer one"
        )
    return dict(record)


def _alone(where: Reading, given: str, remedy: str) -> PacketError:
    where.refuse("", given, f"a packet of one piece, schema {SCHEMA}{KNOWN}",
                 "parts are compared with those of that packet", remedy)  # fmt: skip
    return PacketError(tuple(where.problems))


def _parts(reading: Reading, record: Mapping[str, Any]) -> dict[str, OldPart]:
    """Every distinct part by its id."""
    found: dict[str, OldPart] = {}
    for at, row in reading.rows(record, "parts"):
        with_name = reading.text(row, at, "id")
        sizes = [
            number(reading, row, at, f"{what}_mm") for what in ("length", "width", "thickness")
        ]
        cuts = [cut_from(reading, cut, where) for where, cut in reading.rows(row, "cuts", at)]
        wood = Wood(stock=reading.text(row, at, "stock"), species=reading.text(row, at, "species"))
        if any(each is None for each in (*sizes, *cuts)) or min(each or 0.0 for each in sizes) <= 0:
            if not any(each is None for each in (*sizes, *cuts)):
                reading.refuse(at, "a size of nothing", "sizes above 0 mm", "it is a piece of wood",
                               "take a packet as it was written")  # fmt: skip
            continue
        blank = Blank(
            length_mm=sizes[0] or 0.0, width_mm=sizes[1] or 0.0, thickness_mm=sizes[2] or 0.0
        )
        made = tuple(each for each in cuts if each is not None)
        for index, cut in enumerate(made):
            for miss in cut.misfits(blank):
                reading.refuse(
                    f"{at}.cuts[{index}].{miss.field}", f"{miss.given:g}",
                    f"{miss.low:g} to {miss.high:g}", miss.why, "take a packet as it was written",
                )  # fmt: skip
        found[with_name] = OldPart(name=with_name, blank=blank, cuts=made, wood=wood)
    return found


def _placed(
    reading: Reading, record: Mapping[str, Any], parts: Mapping[str, OldPart]
) -> list[OldPart]:
    """Every instance, as a part of its own."""
    found: dict[str, OldPart] = {}
    known = {row.get("id") for row in record.get("parts") or () if isinstance(row, dict)}
    for at, row in reading.rows(record, "placements"):
        instance, of = reading.text(row, at, "instance"), reading.text(row, at, "part")
        if of not in known:
            reading.refuse(f"{at}.part", repr(of), "the id of a part", "no part has it",
                           "take a packet as it was written")  # fmt: skip
        elif instance in found:
            reading.refuse(
                f"{at}.instance", repr(instance), "a name of its own",
                "two instances would go by it", "take a packet as it was written",
            )  # fmt: skip
        elif of in parts:
            part = parts[of]
            found[instance] = OldPart(
                name=instance, blank=part.blank, cuts=part.cuts, wood=part.wood
            )
    return list(found.values())


def _offcuts(reading: Reading, record: Mapping[str, Any], placed: list[OldPart]) -> list[OldPart]:
    """Offcuts worth keeping, planed to their stock where a part of it says how thick that is."""
    plan = record.get("cutting_plan")
    if not isinstance(plan, dict):
        return []
    by_stock = {part.wood.stock: part for part in placed}
    found = []
    for at, board in reading.rows(plan, "boards", "cutting_plan"):
        like = by_stock.get(str(board.get("stock")))
        usable = [
            (where, each)
            for where, each in reading.rows(board, "offcuts", at)
            if each.get("is_usable")
        ]
        for count, (where, each) in enumerate(usable, start=1):
            length, width = (
                number(reading, each, where, f"{what}_mm") for what in ("length", "width")
            )
            if like is None or length is None or width is None:
                continue
            found.append(
                OldPart(
                    name=f"offcut {count} of board {board.get('name')}",
                    blank=Blank(
                        length_mm=length, width_mm=width, thickness_mm=like.blank.thickness_mm
                    ),
                    cuts=(),
                    wood=like.wood,
                    is_offcut=True,
                )
            )
    return found


def _sheets(record: Mapping[str, Any]) -> dict[str, Drawn]:
    """Its sheets by name, as far as it tells of them: an older packet does not."""
    rows = record.get("sheets")
    if not isinstance(rows, list):
        return {}
    return {
        str(row["name"]): Drawn(
            revision=str(row.get("revision", "")),
            says=tuple(str(each) for each in row.get("says", ())),
            changed=tuple(str(each) for each in row.get("changed", ())),
        )
        for row in rows
        if isinstance(row, dict) and "name" in row
    }
