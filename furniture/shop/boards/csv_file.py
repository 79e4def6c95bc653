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

A unit in a heading, such as `x [mm]`, `x (mm)` or `price [EUR]`, is the unit of every bare figure
under it.
Cells are parted by commas, or by semicolons or tabs where the heading is. A figure may have a
decimal comma (in quotes where commas part the cells), unless three figures behind it could make
it a thousand. Empty lines and lines that begin with # are passed over. Plain columns of our own.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from furniture.shop.boards.csv_text import cells_of, separator_of, text_of, with_points
from furniture.shop.boards.given import BoardZone, MeasuredBoard
from furniture.shop.boards.sources import BoardSource
from furniture.shop.cutting.values import ZoneKind, ZoneShows
from furniture.units import Reader, ReadingError, read_length, said
from furniture.units.words import listed, nearest_word, word_remedy

COLUMNS = (
    "what", "board", "name", "x", "y", "length", "width", "corners", "thickness", "stock",
    "price", "worth", "shows", "note",
)  # fmt: skip
_LENGTHS = ("x", "y", "length", "width", "thickness")
_FIGURES = (*_LENGTHS, "price", "worth")
_CORNERS_UNIT = "unit of corners"
_NEEDED = ("what", "board", "length", "width", "thickness", "stock")
_HEADING = re.compile(r"\s*(?P<name>[^\[\]()]*?)\s*(?:[\[(]\s*(?P<unit>[^\])]+?)\s*[\])])?\s*")
_BARE = re.compile(r"[\d\s./+-]+")
_UNIT = re.compile(r"[^\W\d_]+$|[\"'″′]+$")
_MOST_LINES = 3
_FIRST_LINE = "what,board,x [mm],y [mm],length [mm],width [mm],thickness [mm],stock"


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
    """The boards of a CSV file; every line that cannot be understood is noted with its number."""
    before = reader.noted
    text = text_of(reader, path)
    if text is None:
        return ()
    lines = [
        (number, line)
        for number, line in enumerate(text.splitlines(), start=1)
        if line.strip(" ,;\t") and not line.lstrip().startswith("#")
    ]
    if not lines:
        _refuse_empty(reader, path, "no lines")
        return ()
    separator = separator_of(lines[0][1], COLUMNS)
    if separator is None:
        reader.refuse(
            f"{path.name} line {lines[0][0]}", said(lines[0][1]),
            "headings, parted by commas, semicolons or tabs", "none of these is a heading",
            f"write '{_FIRST_LINE}' as its first line",
        )  # fmt: skip
        return ()
    rows = [
        cells_of(reader, f"{path.name} line {number}", line, separator) for number, line in lines
    ]
    headings = _headings(reader, f"{path.name} line {lines[0][0]}", rows[0])
    where = f"{path.name} line {lines[0][0]}"
    if headings is None:
        return ()
    by_number = {number: cells for (number, _), cells in zip(lines[1:], rows[1:], strict=True)}
    headings = _with_units(reader, where, headings, by_number)
    if headings is None:
        return ()
    heaps: dict[str, _Heap] = {}
    broken: set[str] = set()  # what lies on a board whose own line is no line is not told as well
    for (number, _), cells in zip(lines[1:], rows[1:], strict=True):
        where = f"{path.name} line {number}"
        if any(cell.strip() for cell in cells[len(headings) :]):
            reader.refuse(
                where, f"{len(cells)} cells", f"{len(headings)}, as many as there are headings",
                "a comma inside a figure or a text parts it in two",
                "write decimal points, and put quotes round a text with a comma",
            )  # fmt: skip
            broken |= set(cells)
            continue
        if cells:
            row = _row(headings, cells)
            if row["board"] not in broken or row["board"] in heaps:
                _take(reader, where, row, heaps)
    if not heaps and reader.noted == before:
        _refuse_empty(reader, path, "no board")
    return tuple(_source(heap) for heap in heaps.values())


def _refuse_empty(reader: Reader, path: Path, given: str) -> None:
    reader.refuse(
        f"boards file {path.name}", given, "a heading and a line for each board",
        "there is no board in it", "leave boards out if there are none",
    )  # fmt: skip


def _headings(reader: Reader, where: str, cells: list[str]) -> list[tuple[str, str]] | None:
    headings = []
    for cell in cells:
        match = _HEADING.fullmatch(cell)
        name, unit = (match["name"].lower(), match["unit"] or "") if match else (cell, "")
        headings.append((name, unit))
    names = [name for name, _ in headings]
    unknown = [name for name in names if name and name not in COLUMNS]
    meant = {nearest_word(name, COLUMNS) for name in unknown}
    missing = [name for name in _NEEDED if name not in names and name not in meant]
    if len(unknown) == len(missing) == 1:
        reader.refuse(
            where, f"unknown heading: {unknown[0]}", ", ".join(COLUMNS),
            "the headings say what each column holds", f"write {missing[0]!r}",
        )  # fmt: skip
        return None
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
    near = nearest_word(wrong, COLUMNS)
    return f"write {near!r}" if near else "leave that column out, or move it into note"


def _with_units(
    reader: Reader, where: str, headings: list[tuple[str, str]], rows: Mapping[int, list[str]]
) -> list[tuple[str, str]] | None:
    """The headings; each over bare figures that says no unit that is known is noted once.

    Where other cells of the column have a unit, the bare ones are taken for the same from there on,
    so that all else is told too; a lone one is told as a cell. None where no unit is known at all.

    Args:
        where: what to call the heading's line.
        headings: each with its unit, or with none.
        rows: the cells of each line below it, by its number.
    """
    found, is_known = [], True
    for place, (name, unit) in enumerate(headings):
        found.append((name, unit))
        if name not in (*_LENGTHS, "corners"):
            continue
        is_unknown = bool(unit) and not _is_length_unit(unit)
        cells = {number: row[place] for number, row in rows.items() if place < len(row)}
        bare = [at for at, cell in cells.items() if _is_bare(cell, name == "corners")]
        others = [cell for at, cell in cells.items() if cell.strip() and at not in bare]
        if not is_unknown and (unit or not bare or (len(bare) == 1 and others)):
            continue
        reader.refuse(
            f"{where} {name}",
            f"{name} [{unit}]" if unit else f"{name}, over bare figures in {_lines(bare)}",
            f"a heading with a unit, such as '{name} [mm]' or '{name} [in]', or a unit in each "
            "cell",
            f"{unit!r} is not a unit that is known" if unit else "a bare number could be any unit",
            f"write '{name} [{reader.shown.unit.symbol}]' if you mean it",
        )
        theirs = None if is_unknown or not others else _UNIT.search(others[0].strip())
        is_known = is_known and theirs is not None
        found[-1] = (name, theirs[0] if theirs else unit)
    return found if is_known else None


def _is_bare(cell: str, are_corners: bool) -> bool:
    value = re.sub("[;,]", " ", cell) if are_corners else with_points(cell.strip())
    return bool(value.strip()) and _BARE.fullmatch(value) is not None


def _lines(numbers: list[int]) -> str:
    shown = [str(each) for each in numbers[:_MOST_LINES]]
    more = len(numbers) - len(shown)
    return (
        f"line {shown[0]}"
        if len(numbers) == 1
        else f"lines {', '.join(shown)} and {more} more"
        if more
        else f"lines {listed(shown)}"
    )


def _is_length_unit(unit: str) -> bool:
    try:
        read_length(f"1 {unit}")
    except ReadingError:
        return False
    return True


def _row(headings: list[tuple[str, str]], cells: list[str]) -> dict[str, str]:
    row = dict.fromkeys(COLUMNS, "")
    for (name, unit), cell in zip(headings, cells, strict=False):
        value = cell.strip()
        if name == "corners":
            row[name], row[_CORNERS_UNIT] = value, unit
        elif name:
            row[name] = _with_unit(with_points(value) if name in _FIGURES else value, unit)
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
        near = nearest_word(name, list(heaps))
        reader.refuse(
            f"{where} board", said(name), ", ".join(map(repr, heaps)) or "a board's line first",
            "a width or a zone lies on a board that was listed before it",
            f"write {near!r}" if near else "list the board first, or correct the name",
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
    faces = {each.value: each for each in ZoneShows}
    shows = faces.get(row["shows"].lower() or ZoneShows.BOTH.value)
    if shows is None:
        reader.refuse(
            f"{where} shows", said(row["shows"]), ", ".join(faces),
            "it says on which faces of the board it is seen", word_remedy(row["shows"], [*faces]),
        )  # fmt: skip
        return None
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
