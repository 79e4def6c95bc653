"""What the job file says of boards."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from furniture.errors import Problem
from furniture.job.job import BoardNow
from furniture.job.job_lines import Lines
from furniture.job.worked import Worked
from furniture.making.breaking_out import key_of_cut
from furniture.shop.boards.given import BoardZone, MeasuredBoard
from furniture.shop.boards.prices import Purse
from furniture.shop.boards.reading import read_board
from furniture.shop.boards.sources import BoardSource
from furniture.shop.cutting.values import ZoneKind
from furniture.timber.stock import Timber
from furniture.units import Reader, said, word_remedy

_BOARD = (
    "length", "width", "widths", "thickness", "stock", "price", "zones", "note", "gone", "cuts",
)  # fmt: skip
_ZONE = ("what", "x", "y", "length", "width", "corners", "name", "note")
_NEW_BOARD = ("stock", "length", "thickness")


def boards_told(
    lines: Lines,
    record: Mapping[str, Any],
    boards: Sequence[MeasuredBoard],
    timbers: Sequence[Timber],
) -> dict[str, BoardNow]:
    """What the file says of each board.

    Args:
        lines: keeps the problems.
        record: the whole file.
        boards: as the script lists them.
        timbers: the piece's stocks.
    """
    known = [each.name for each in boards]
    found = {}
    for name, value in lines.table(record, "boards").items():
        where = f"boards.{name}"
        if not isinstance(value, dict):
            lines.refuse("boards", name, said(value), "a table", "it says several things of one",
                        f"write [{where}] on a line of its own")  # fmt: skip
            continue
        lines.known(where, list(value), _BOARD)
        missing = [key for key in _NEW_BOARD if key not in value]
        if name not in known and missing:
            lines.refuse(
                where, "", f"a board without {' and '.join(missing)}",
                ", ".join(known) or "none is listed",
                "no board of the script is called so, and an offcut is told whole",
                f"{word_remedy(name, known)}, or give its {', '.join(missing)}",
            )  # fmt: skip
            continue
        changed = {key: value[key] for key in ("length", "thickness", "stock", "price")
                   if key in value}  # fmt: skip
        if "width" in value or "widths" in value:
            changed["widths"] = _widths(value.get("widths", value.get("width")))
        if "note" in value and _is(lines, where, value, "note", str, 'note = "..."'):
            changed["description"] = value["note"]
        now = BoardNow(
            changed=changed,
            zones=tuple(_zones(lines, where, value.get("zones", []))),
            is_gone="gone" in value and _is(lines, where, value, "gone", bool, "gone = true")
            and value["gone"],
        )  # fmt: skip
        before = next((each for each in boards if each.name == name), None)
        _refuse_figures(lines, where, value, before or MeasuredBoard(name=name), now, timbers)
        found[name] = now
    return found


def _is(
    lines: Lines, where: str, value: Mapping[str, Any], key: str, kind: type, remedy: str
) -> bool:
    if isinstance(value[key], kind):
        return True
    lines.refuse(where, key, said(value[key]), remedy, "it says that and no more",
                 f"write {remedy}")  # fmt: skip
    return False


def _refuse_figures(
    lines: Lines,
    where: str,
    value: Mapping[str, Any],
    before: MeasuredBoard,
    now: BoardNow,
    timbers: Sequence[Timber],
) -> None:
    """Note every figure that no board can have, with the line that it stands on."""
    if not now.changed and not now.zones:
        return
    key = "widths" if "widths" in value else "width"
    places = {name: lines.at(where, key if name == "widths" else name) for name in now.changed}
    zones = [lines.at_item(where, "zones", "zone", number + 1) for number in range(len(now.zones))]

    def problems_of(board: MeasuredBoard, zones_where: Sequence[str]) -> tuple[Problem, ...]:
        reader = Reader(lines.reader.shown)
        widths = len(board.widths) if isinstance(board.widths, (list, tuple)) else 0
        source = BoardSource(
            board=board,
            where=where,
            widths_where=(places.get("widths", where),) * widths,
            zones_where=tuple(f"{each}," for each in zones_where),
            own_places=places,
        )
        read_board(reader, source, timbers, Purse(reader))
        return reader.problems

    by_script = set(problems_of(replace(before, zones=()), ()))  # told with the boards
    told = problems_of(replace(before, **now.changed, zones=now.zones), zones)
    lines.reader.take(each for each in told if each not in by_script)


def cuts_told(
    lines: Lines,
    record: Mapping[str, Any],
    boards: Collection[str],
    worked: Worked,
    done: Collection[str],
) -> dict[str, frozenset[int]]:
    """The cuts of every board that are made, by their numbers.

    Args:
        lines: keeps the problems.
        record: the whole file.
        boards: that it may speak of; of others it is refused already.
        worked: the packet that tells of the cuts.
        done: keys of operations that are done.
    """
    found = {
        board: frozenset(cut.number for cut in cuts if key_of_cut(board, cut.number) in done)
        for board, cuts in worked.board_cuts.items()
    }
    for name, value in lines.table(record, "boards").items():
        if name in boards and "cuts" in value:
            made = range(1, _cuts(lines, f"boards.{name}", name, value, worked) + 1)
            found[name] = found.get(name, frozenset()).union(made)
    return {name: numbers for name, numbers in found.items() if numbers}


def _cuts(lines: Lines, where: str, name: str, value: Mapping[str, Any], worked: Worked) -> int:
    """How many cuts of its sheet are made."""
    given = value.get("cuts", 0)
    changed = {"length", "width", "widths"} & value.keys()
    there = len(worked.board_cuts.get(name, ()))
    if isinstance(given, int) and 0 <= given <= there and not (given and changed):
        return given
    if given and changed:
        lines.refuse(where, "cuts", said(given), "cuts, or the board as it is now",
                    "a board that is measured anew is as it is measured",
                    "leave cuts out")  # fmt: skip
    else:
        lines.refuse(where, "cuts", said(given), f"0 to {there}, as numbered on its sheet",
                    "the packet has no more cuts of this board"
                    if worked.board_cuts else "the file names no packet with a plan",
                    "write packet = 'out/NAME', or measure the board as it is now")  # fmt: skip
    return 0


def _zones(lines: Lines, where: str, given: object) -> Iterator[BoardZone]:
    if not isinstance(given, list):
        lines.refuse(where, "zones", said(given), "a list", "there may be several",
                    "write zones = [{ what = ..., x = ..., y = ... }]")  # fmt: skip
        return
    kinds = {each.value: each for each in ZoneKind}
    for value in given:
        if not isinstance(value, dict):
            lines.refuse(where, "zones", said(value), "a table in braces",
                        "a zone has a place and a size",
                        'write { what = "check", x = "512 mm", y = "30 mm", ... }')  # fmt: skip
            continue
        lines.known(where, list(value), _ZONE)
        kind = kinds.get(str(value.get("what", "")))
        if kind is None:
            lines.refuse(where, "what", said(value.get("what")), ", ".join(kinds),
                        "it says what the wood is like there",
                        word_remedy(value.get("what"), list(kinds)))  # fmt: skip
            continue
        corners = _corners(lines, where, value.get("corners", []))
        yield BoardZone(
            kind=kind,
            x=value.get("x"), y=value.get("y"),
            length=value.get("length"), width=value.get("width"),
            corners=corners,
            name=value.get("name", ""), description=value.get("note", ""),
        )  # fmt: skip


def _corners(lines: Lines, where: str, given: Any) -> tuple[tuple[Any, Any], ...]:
    """x and y of each corner in order; none where they cannot be told apart, noted."""
    pairs = given if isinstance(given, list) else [given]
    if all(isinstance(each, list) and len(each) == 2 for each in pairs):
        return tuple((each[0], each[1]) for each in pairs)
    lines.refuse(
        where, "corners", said(given), "pairs of lengths", "a corner has two figures",
        'write corners = [["0 mm", "40 mm"], ["120 mm", "55 mm"], ["0 mm", "70 mm"]]',
    )  # fmt: skip
    return ()


def _widths(value: object) -> Any:
    if isinstance(value, list):
        return tuple(tuple(each) if isinstance(each, list) else each for each in value)
    return value
