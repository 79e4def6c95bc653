"""Boards from a CSV file beside the model: one row for each board, each width and each zone.

    what     `board`, `width`, or a kind of zone: `knot`, `check`, `sapwood`, `figure` ...
    board    the name chalked on the board; a board's row stands before its widths and zones
    name     of a zone, if a match calls it
    x        distance along the board: of a width, or of a zone's near end
    y        from the straight edge: of a zone
    length   of the board or the zone
    width    of a straight board, of a measured width, or of a zone
    corners  of a zone that is no rectangle, x and y of each in order: `0, 40; 120, 55; 0, 70`
             (`0 40, 120 55, 0 70` is understood too where no figure is a whole and a fraction)
    thickness, stock, price   of the board
    worth    of a zone worth keeping
    shows    `both faces`, `upper face` or `lower face`: of a zone
    note     in the maker's words

A unit in a heading, such as `x [mm]` or `price [EUR]`, is the unit of every bare figure under it.
Cells are parted by commas, or by semicolons or tabs where the heading is; then a figure may have a
decimal comma. Empty lines and lines that begin with # are passed over. Plain columns of our own.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path

from furniture.shop.boards.csv_text import cells_of, separator_of, text_of, with_points
from furniture.shop.boards.given import BoardZone, MeasuredBoard
from furniture.shop.boards.sources import BoardSource
from furniture.shop.cutting.values import ZoneKind, ZoneShows
from furniture.units import Reader, said
from furniture.units.words import nearest_word, word_remedy

COLUMNS = (
    "what", "board", "name", "x", "y", "length", "width", "corners", "thickness", "stock",
    "price", "worth", "shows", "note",
)  # fmt: skip
_FIGURES = ("x", "y", "length", "width", "thickness", "price", "worth")
_CORNERS_UNIT = "unit of corners"
_NEEDED = ("what", "board", "length", "width", "thickness", "stock")
_HEADING = re.compile(r"\s*(?P<name>[^\[\]]*?)\s*(?:\[\s*(?P<unit>[^\]]+?)\s*\])?\s*")
_BARE = re.compile(r"[\d\s./+-]+")


@dataclass(slots=True)
class _Heap:
    """A board's rows as they come in."""

    where: str
    row: dict[str, str]
    widths: list[tuple[str, str]] = field(default_factory=list)
    widths_where: list[str] = field(default_factory=list)
    zones: list[BoardZone] = field(default_factory=list)
    zones_where: list[str] = field(default_factory=list)


def sources_in_file(reader: Reader, path: Path) -> tuple[BoardSource, ...]:
    """The boards of a CSV file; every line that cannot be understood is noted with its number.

    Args:
        reader: keeps the problems.
        path: of the file.
    """
    text = text_of(reader, path)
    if text is None:
        return ()
    lines = [
        (number, line)
        for number, line in enumerate(text.splitlines(), start=1)
        if line.strip(" ,;\t") and not line.lstrip().startswith("#")
    ]
    if not lines:
        reader.refuse(
            f"boards file {path.name}", "no lines", "a heading and a line for each board",
            "there is no board in it", "leave boards out if there are none",
        )  # fmt: skip
        return ()
    separator = separator_of(lines[0][1], COLUMNS)
    rows = [
        cells_of(reader, f"{path.name} line {number}", line, separator) for number, line in lines
    ]
    headings = _headings(reader, f"{path.name} line {lines[0][0]}", rows[0])
    if headings is None:
        return ()
    heaps: dict[str, _Heap] = {}
    for (number, _), cells in zip(lines[1:], rows[1:], strict=True):
        where = f"{path.name} line {number}"
        if any(cell.strip() for cell in cells[len(headings) :]):
            reader.refuse(
                where, f"{len(cells)} cells", f"{len(headings)}, as many as there are headings",
                "a comma inside a figure or a text parts it in two",
                "write decimal points, and put quotes round a text with a comma",
            )  # fmt: skip
            continue
        if cells:
            _take(reader, where, _row(headings, cells, separator), heaps)
    return tuple(_source(heap) for heap in heaps.values())


def _headings(reader: Reader, where: str, cells: list[str]) -> list[tuple[str, str]] | None:
    headings = []
    for cell in cells:
        match = _HEADING.fullmatch(cell)
        name, unit = (match["name"].lower(), match["unit"] or "") if match else (cell, "")
        headings.append((name, unit))
    names = [name for name, _ in headings]
    unknown = [name for name in names if name and name not in COLUMNS]
    missing = [name for name in _NEEDED if name not in names]
    twice = sorted({name for name in names if name and names.count(name) > 1})
    for wrong, fault in ((unknown, "unknown"), (missing, "missing"), (twice, "repeated")):
        if wrong:
            reader.refuse(
                where, f"{fault} heading: {', '.join(wrong)}", ", ".join(COLUMNS),
                "the headings say what each column holds",
                _heading_remedy(fault, wrong[0]),
            )  # fmt: skip
    return None if unknown or missing or twice else headings


def _heading_remedy(fault: str, wrong: str) -> str:
    """What to do about a heading that is unknown, missing or there twice."""
    if fault == "missing":
        return f"add {wrong!r}"
    if fault == "repeated":
        return f"leave one {wrong!r} out"
    return word_remedy(wrong, COLUMNS)


def _row(headings: list[tuple[str, str]], cells: list[str], separator: str) -> dict[str, str]:
    row = dict.fromkeys(COLUMNS, "")
    for (name, unit), cell in zip(headings, cells, strict=False):
        value = cell.strip()
        if name == "corners":
            row[name], row[_CORNERS_UNIT] = value, unit
        elif name:
            is_figure = name in _FIGURES and separator != ","
            row[name] = _with_unit(with_points(value) if is_figure else value, unit)
    return row


def _with_unit(value: str, unit: str) -> str:
    if not unit or not value or not _BARE.fullmatch(value):
        return value
    return f"{value} {unit}"


def _take(reader: Reader, where: str, row: dict[str, str], heaps: dict[str, _Heap]) -> None:
    name = row["board"]
    kinds = {kind.value: kind for kind in ZoneKind}
    what = _what(reader, where, row, ["board", "width", *kinds])
    if what is None:
        return
    if what == "board":
        if name in heaps:
            reader.refuse(
                where, f"board {name!r} again", "each board once",
                f"it stands in {heaps[name].where} already", "give one of them another name",
            )  # fmt: skip
            return
        heaps[name] = _Heap(where=f"{where} (board {name!r})", row=row)
        return
    heap = heaps.get(name)
    if heap is None:
        reader.refuse(
            f"{where} board", said(name), ", ".join(map(repr, heaps)) or "a board's line first",
            "a width or a zone lies on a board that was listed before it",
            "list the board first, or correct the name",
        )  # fmt: skip
        return
    if what == "width":
        heap.widths.append((row["x"] or "0 mm", row["width"]))
        heap.widths_where.append(where)
        return
    zone = _zone(reader, where, row, kinds[what])
    if zone is not None:
        heap.zones.append(zone)
        heap.zones_where.append(where)


def _what(reader: Reader, where: str, row: dict[str, str], words: list[str]) -> str | None:
    """What a line is about; a word near enough to one that is known is noted and taken for it.

    So a misspelt board's line does not make every later line of that board wrong.
    """
    given = row["what"].lower()
    if given in words:
        return given
    reader.refuse(
        f"{where} what", said(row["what"]), ", ".join(words),
        "it says what the line is about", word_remedy(given, words),
    )  # fmt: skip
    if row["stock"] and row["thickness"]:
        return "board"  # only a board has both
    return nearest_word(given, words)


def _zone(reader: Reader, where: str, row: dict[str, str], kind: ZoneKind) -> BoardZone | None:
    """The zone of a row; none when its corners cannot be told apart, noted."""
    corners = _corners(reader, where, row)
    if corners is None:
        return None
    shows = ZoneShows.BOTH
    if row["shows"]:
        shows = reader.choice(f"{where} shows", row["shows"].lower(), ZoneShows, ZoneShows.BOTH)
    return BoardZone(
        kind=kind,
        x=row["x"] or None,
        y=row["y"] or None,
        length=row["length"] or None,
        width=row["width"] or None,
        corners=corners,
        shows=shows,
        worth=row["worth"] or None,
        name=row["name"],
        description=row["note"],
    )


def _corners(reader: Reader, where: str, row: dict[str, str]) -> tuple[tuple[str, str], ...] | None:
    """Corners as x and y with their unit; empty for a rectangle; none when one is wrong, noted."""
    text, unit = row["corners"], row.get(_CORNERS_UNIT, "")
    between, inside = (";", ",") if ";" in text else (",", None)
    corners: list[tuple[str, str]] = []
    is_right = True
    for pair in filter(None, (each.strip() for each in text.split(between))):
        figures = [each.strip() for each in pair.split(inside)] if unit or inside else []
        if not figures:  # bare text: figures and their units by turns, such as `0 mm 40 mm`
            figures = re.findall(r"[-+]?[\d./]+(?:\s*[a-z\"']+)?", pair)
        if len(figures) != 2:
            is_right = False
            reader.refuse(
                f"{where} corners", said(pair), f"x and y of each corner, as {_example(reader)}",
                "a corner has two figures", "put ; between corners and , between x and y",
            )  # fmt: skip
            continue
        corners.append((_with_unit(figures[0], unit), _with_unit(figures[1], unit)))
    return tuple(corners) if is_right else None


def _example(reader: Reader) -> str:
    """Three corners as a maker who works in this unit would write them."""
    if reader.shown.is_inch:
        return "'0, 1 1/2; 4 3/4, 2 1/8; 0, 2 3/4' under corners [in]"
    return "'0, 40; 120, 55; 0, 70' under corners [mm]"


def _source(heap: _Heap) -> BoardSource:
    row = heap.row
    board = MeasuredBoard(
        name=row["board"],
        stock=row["stock"],
        length=row["length"],
        widths=tuple(heap.widths) or row["width"],
        thickness=row["thickness"],
        price=row["price"] or None,
        zones=tuple(heap.zones),
        description=row["note"],
    )
    return BoardSource(
        board=board,
        where=heap.where,
        widths_where=tuple(heap.widths_where),
        zones_where=tuple(heap.zones_where),
    )
