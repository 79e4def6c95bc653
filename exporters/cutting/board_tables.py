"""The lists on a board's sheet: cuts in order, parts and offcuts, zones."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from exporters.cutting.called import BY_MARKS_ALONE, Called
from exporters.cutting.steps import SawStep, offcut_key, part_key, saw_steps, zone_key
from exporters.cutting.words import (
    copies_whole,
    faces_told,
    held_size,
    setting,
    size,
    zone_place,
)
from exporters.sheets.tables import Table
from furniture.shop.boards.copies import Stretch
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import BoardPlan, Rectangle
from furniture.shop.cutting.values import Board
from furniture.units import Shown, figure


def lists_of(
    outcome: CuttingOutcome, board: Board, plan: BoardPlan, called: Called = BY_MARKS_ALONE
) -> tuple[Table, ...]:
    """The lists of a board, what is needed at the saw first."""
    shown = outcome.job.shown
    cuts = cuts_table(saw_steps(outcome, plan), shown)
    zones = zones_table(board, shown)
    named = (_copies_whole(each, outcome) for each in (cuts, parts_table(outcome, plan, called)))
    return (*named, *([] if zones is None else [zones]))


def _copies_whole(table: Table, outcome: CuttingOutcome) -> Table:
    rows = (tuple(copies_whole(cell, outcome.job) for cell in row) for row in table.rows)
    return replace(table, rows=tuple(rows))


def keyed_lists_of(
    outcome: CuttingOutcome, board: Board, plan: BoardPlan, called: Called = BY_MARKS_ALONE
) -> tuple[Table, ...]:
    """The lists of a board with the keys of parts and zones, and where on the board parts lie."""
    shown = outcome.job.shown
    cuts, parts, *zones = lists_of(outcome, board, plan, called)
    rows = tuple(
        (
            each.key,
            *each.row,
            ", ".join(figure(place.x_mm, shown) for place in each.places),
            figure(each.places[0].y_mm, shown),
        )
        for each in _part_rows(outcome, plan, called)
    )
    keyed = Table(
        headings=("key", *parts.headings, "from end", "from edge"),
        rows=rows,
    )
    return (cuts, _copies_whole(keyed, outcome), *(_with_zone_keys(each) for each in zones))


def _with_zone_keys(zones: Table) -> Table:
    return Table(
        headings=("key", *zones.headings),
        rows=tuple((zone_key(index), *row) for index, row in enumerate(zones.rows)),
    )


def cuts_table(steps: Sequence[SawStep], shown: Shown) -> Table:
    """Cuts in order: the piece in hand, the setting, what is against it, what comes of it."""
    rows = tuple(
        (
            f"{step.cut.number} {step.cut.direction.value}",
            f"{step.piece.name}: {size(shown, step.piece.length_mm, step.piece.width_mm)}",
            setting(step, shown),
            step.against,
            held_size(step, step.comes_off, shown),
            held_size(step, step.goes_on, shown),
            figure(step.cut.position_mm, shown),
        )
        for step in steps
    )
    return Table(
        headings=(
            "cut", "in hand", f"set [{shown.unit.symbol}]", "from its", "comes off",
            "stays", "on board",
        ),
        rows=rows,
        breaking=frozenset({3, 4, 5}),
        at_worst=frozenset({1}),
    )  # fmt: skip


GLUED_UP = "once glued up"
"""What stands for the finished size of a strip, which it has with the others of its part."""


def parts_table(outcome: CuttingOutcome, plan: BoardPlan, called: Called = BY_MARKS_ALONE) -> Table:
    """Parts with their rough and finished sizes and how they lie, then the offcuts worth keeping.

    How thick they are stands above: as the board was measured, or what it is planed to.

    Under a common blank stand the parts that come off it.
    """
    unit = outcome.job.shown.unit.symbol
    lies = () if lies_alike(outcome, plan, called) else ("up", "to jointed edge")
    return Table(
        headings=("part", f"rough L x W [{unit}]", "finished L x W", *lies),
        rows=tuple(each.row for each in _part_rows(outcome, plan, called)),
        breaking=frozenset({0, *range(3, 3 + len(lies))}),
        at_worst=frozenset({1, 2}),
    )


def lies_alike(outcome: CuttingOutcome, plan: BoardPlan, called: Called) -> str:
    """How all parts of a board lie, in words; empty where they lie in several ways."""
    ways = {
        (called.up(laid), called.at_jointed_edge(laid))
        for laid in map(outcome.laid, plan.placements)
    }
    if len(ways) != 1:
        return ""
    (up, edge), *_ = ways
    return f"Parts lie with their {up} up, their {edge} to the jointed edge."


@dataclass(frozen=True, slots=True)
class _PartRow:
    """A row of the list of parts, its key on a crowded drawing, and where on the board it lies: the
    parts of a common blank that are of one length are told together, side by side as they lie."""

    key: str
    row: tuple[str, ...]
    places: tuple[Rectangle, ...]


def _part_rows(outcome: CuttingOutcome, plan: BoardPlan, called: Called) -> Iterator[_PartRow]:
    shown, parts = outcome.job.shown, outcome.job.request.part_named
    is_told = bool(lies_alike(outcome, plan, called))
    unsaid = () if is_told else ("", "")
    for index, placement in enumerate(plan.placements):
        part = parts[placement.part]
        place = placement.place
        lengths = (place.length_mm, place.width_mm)
        if placement.is_turned:
            lengths = (place.width_mm, place.length_mm)
        laid = outcome.laid(placement)
        lies = () if is_told else (called.up(laid), called.at_jointed_edge(laid))
        finished = GLUED_UP if placement.strip else size(shown, part.length_mm, part.width_mm)
        row = (outcome.name_of(placement), size(shown, *lengths), finished, *lies)
        yield _PartRow(part_key(index), row, (place,))
        places = laid.places if laid.copy.is_common else ()
        alike: dict[float, list[tuple[Stretch, Rectangle]]] = defaultdict(list)
        for each in places:
            alike[each[0].length_mm].append(each)
        for length, stretches in alike.items():
            finished = size(shown, length, part.width_mm)
            names = ", ".join(stretch.instance for stretch, _ in stretches)
            lie = tuple(place for _, place in stretches)
            yield _PartRow("", (f"- {names}", "", finished, *unsaid), lie)
    for index, offcut in enumerate(each for each in plan.offcuts if each.is_usable):
        place = offcut.place
        name = f"offcut {offcut_key(index)}"
        name += f" with {', '.join(offcut.holds)}" if offcut.holds else ""
        rough = size(shown, place.length_mm, place.width_mm)
        yield _PartRow("", (name, rough, "", *unsaid), (place,))


def zones_table(board: Board, shown: Shown) -> Table | None:
    """Zones: name, place along and across, and the maker's words; none without zones.

    A zone that shows on one face alone says on which.
    """
    if not board.zones:
        return None
    rows = tuple((zone.name, *zone_place(zone, shown), faces_told(zone)) for zone in board.zones)
    return Table(
        headings=("zone", "from end", "from edge", "what it is"),
        rows=rows,
        breaking=frozenset({3}),
    )
