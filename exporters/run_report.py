"""What a run prints when its packet stands: three answers, and where to look first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from exporters.report.screen import ROWS, Said, columns_of, printed, rows_of
from exporters.report.standing import failing, standing_answer
from exporters.report.terminal import GUIDANCE_SHORT, change_lines, changes_of
from exporters.report.words import counted
from furniture.checks.of_piece import Group
from furniture.checks.of_piece.reading import shown_by
from furniture.pieces import Piece, extents_of, timbers_of
from furniture.pieces.weighed import Weighed
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.units import figure
from furniture.units.showing import without_mark

_NOT_CHECKED = "Not checked: --only left the checks out. --strict makes them all the same."
_FIRST = ("sheets.pdf", "checks.pdf", "cutting.csv", "parts.csv")
"""Where to look first: the first of these that was written."""
_ROOM = (
    (5, 12, 3), (4, 9, 3), (3, 8, 3), (3, 6, 3), (2, 6, 3), (2, 5, 3), (2, 4, 3), (1, 4, 3),
    (1, 3, 3), (1, 4, 2), (1, 3, 2), (1, 2, 3), (1, 2, 2), (1, 2, 1),
)  # fmt: skip
"""Lines for each piece of advice and for the boards, and findings told in full: the most of all
that the screen holds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One piece of a run.

    Args:
        piece: what was written.
        weighed: one copy, where its solids were made.
        groups: the findings by subject; None when no check was made.
        copies: how many are made.
        changes: what became of an earlier design's parts, a line each.
    """

    piece: Piece
    weighed: Weighed | None
    groups: Sequence[Group] | None
    copies: int = 1
    changes: Sequence[str] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A run that has ended.

    Args:
        pieces: what was written.
        cutting: the plan, when one was made.
        of_boards: what was found of the boards and is told of no piece.
        files: that were written, by their paths in the packet.
        target: as the maker wrote it.
        of_job: what is told of the job of all pieces together, a line each.
    """

    pieces: Sequence[Told]
    cutting: CuttingOutcome | None
    of_boards: Sequence[Group]
    files: Sequence[str]
    target: Path
    of_job: Sequence[str] = ()


def report(run: Run, *, is_quiet: bool = False) -> None:
    """Print how a run ended.

    Args:
        run: that has ended.
        is_quiet: only of what fails and what has no place.
    """
    printed(loud_alone(run) if is_quiet else ending(run, columns_of()))


def ending(run: Run, columns: int) -> list[Said]:
    """Will it stand, what to change, do my boards do; of a single piece as much as a screen holds.

    What became of an earlier design's parts stands above, whatever it takes.

    Args:
        run: that has ended.
        columns: of the screen.
    """
    for room in _ROOM:
        said = _said(run, room, columns)
        if rows_of(said, columns) < ROWS:  # the prompt stands in the last row
            break
    else:
        if len(run.pieces) > 1:
            said = _in_short(run, columns)
    changes = (line for told in run.pieces for line in told.changes)
    return [*(Said(text=line) for line in (*run.of_job, *changes)), *said]


def loud_alone(run: Run) -> list[Said]:
    """A line for each piece that fails, and one where parts have no place."""
    said = []
    for told in run.pieces:
        if told.groups and failing(told.groups):
            answer = standing_answer(told.groups, shown_by(told.piece))
            said.append(Said(text=f"{told.piece.name}: will it stand? {answer.sentence}"))
    if run.cutting is not None:
        from exporters.cutting.words import unplaced_heading

        if heading := unplaced_heading(run.cutting):
            said.append(Said(text=heading))
    return said


def _said(run: Run, room: tuple[int, int, int], columns: int) -> list[Said]:
    advice_lines, board_lines, findings = room
    said = [line for told in run.pieces for line in _of_piece(told, advice_lines, findings)]
    return [*said, *_after_pieces(run, board_lines, columns)]


def _after_pieces(run: Run, board_lines: int, columns: int) -> list[Said]:
    said = [] if run.cutting is None else _of_boards(run.cutting, board_lines, columns)
    said.append(Said(text=_where(run)))
    if any(told.groups is not None for told in run.pieces):
        said.append(Said(text=GUIDANCE_SHORT))
    return said


def _in_short(run: Run, columns: int) -> list[Said]:
    """A paragraph for each piece, those that fail first, as many as the screen holds; and what it
    holds besides of the boards."""
    _, least_lines, _ = _ROOM[-1]
    after = _after_pieces(run, least_lines, columns)
    pieces = sorted(run.pieces, key=lambda told: -len(failing(told.groups or ())))
    said: list[Said] = []
    for number, told in enumerate(pieces):
        line = Said(text=_paragraph(told), most=3, is_loud=bool(failing(told.groups or ())))
        left = len(pieces) - number
        pieces_left = "1 more piece" if left == 1 else f"{left} more pieces"
        rest = Said(text=f"{pieces_left}: see its checks.pdf")
        if rows_of([*said, line, *([rest] if left > 1 else []), *after], columns) >= ROWS:
            return [*said, rest, *after]
        said.append(line)
    for _, board_lines, _ in _ROOM:
        after = _after_pieces(run, board_lines, columns)
        if rows_of([*said, *after], columns) < ROWS:
            break
    return [*said, *after]


def _paragraph(told: Told) -> str:
    """One piece of many: its size, whether it stands, and what weighs most."""
    head = f"{_head(told)}."
    if not told.groups:
        return head if told.groups is not None else f"{head} {_NOT_CHECKED}"
    show = shown_by(told.piece)
    stands = standing_answer(told.groups, show).stands.value
    first = changes_of(told.groups).first
    weighs = f" First: {first[0].check.name}, {first[0].subject}." if first else ""
    return f"{head} Will it stand? {stands}; {counted(told.groups)}{weighs}"


def _of_piece(told: Told, advice_lines: int, findings: int) -> list[Said]:
    piece, show = told.piece, shown_by(told.piece)
    said = [Said(text=_head(told), is_loud=True, most=2)]
    assumed = [each for each in timbers_of(piece) if each.moisture_is_assumed]
    if assumed:
        percents = " or ".join(dict.fromkeys(f"{each.moisture_pct:g} %" for each in assumed))
        names = "; ".join(each.name for each in assumed)  # a name may hold a comma
        said.append(Said(text=f"moisture not given, {percents} assumed: {names}", most=2))
    if told.groups is None:
        return [*said, Said(text=_NOT_CHECKED)]
    if not told.groups:
        return said
    answer = standing_answer(told.groups, show)
    said.append(Said(text=f"Will it stand? {answer.sentence}", is_loud=True, most=4))
    return said + change_lines(told.groups, show, advice_lines, findings)


def _head(told: Told) -> str:
    """Name, width, depth and height of the whole as it stands, and its mass where it is known."""
    piece = told.piece
    low, high = extents_of(piece) if told.weighed is None else told.weighed.extents
    sizes = " x ".join(
        without_mark(figure(high[axis] - low[axis], piece.shown)) for axis in range(3)
    )
    text = f"{piece.name}: {sizes} {piece.shown.unit.symbol} overall"
    if told.weighed is not None:
        text += f", {shown_by(piece).mass(told.weighed.whole.mass_kg)}"
    return text + (f", {told.copies} of them" if told.copies > 1 else "")


def _of_boards(cutting: CuttingOutcome, most: int, columns: int) -> list[Said]:
    """The third answer; what finds no room on the screen is counted."""
    from exporters.cutting import boards_answer

    first, *rest = boards_answer(cutting)
    said = [Said(text=f"Do my boards do? {first}", is_loud=True, most=4)]
    for number, text in enumerate(rest):
        line = Said(text=text, indent=2, most=3)
        is_last = number == len(rest) - 1
        if rows_of([*said, line], columns) > most - (not is_last):
            where = "on the boards' sheets" if cutting.plan is not None else "in piece.json"
            return [*said, Said(text=f"{len(rest) - number} more {where}", indent=2)]
        said.append(line)
    return said


def _where(run: Run) -> str:
    count = len(run.files)
    text = f"{count} {'file' if count == 1 else 'files'} in {run.target}"
    first = next((name for name in _FIRST if name in run.files), "")
    return f"{text}: start with {first}" if first else text
