"""One instance by our solver: value, bound, time, and what the independent checker says."""

from __future__ import annotations

import time
from dataclasses import dataclass

from furniture.shop.cutting.classic.bars import fewest_bars
from furniture.shop.cutting.classic.boards import fewest_boards
from furniture.shop.cutting.classic.decision import Verdict, fits_one_board
from furniture.shop.cutting.classic.limited import best_limited
from furniture.shop.cutting.classic.unlimited import best_unlimited
from furniture.shop.cutting.classic.values import Item, Laying, Panel
from tests.benchmarks.cutting_instances import Instance
from tests.shop.cutting.sawing import faults_of_boards


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """What we found: value (1 or 0 for yes or no, None for unknown), bound, source, faults."""

    value: int | None
    bound: int | None
    source: str
    is_proven: bool
    seconds: float
    faults: tuple[str, ...]


def warm_up() -> None:
    """Compile every kernel once, so that the first instance is not charged with it."""
    panel = Panel(length=12, width=9)
    items = [
        Item(length=5, width=4, quantity=3, value=20),
        Item(length=3, width=7, quantity=2, value=22),
    ]
    best_limited(panel, items, seconds=2)
    fits_one_board(panel, items, seconds=2)
    fits_one_board(panel, [Item(length=4, width=3, quantity=9, value=12)], seconds=2)
    fewest_boards(panel, [*items, Item(length=7, width=5, quantity=9, value=35)], seconds=2)
    fewest_bars(10, [3, 4, 7], [5, 5, 5], seconds=2)
    best_unlimited(panel, items)


def solved(instance: Instance, seconds: float) -> Run:
    """Our answer within about `seconds` [s], checked."""
    started = time.monotonic()
    panel, items = instance.panel, instance.items
    if instance.family == "csp1d_bpplib":
        return _bars(instance, seconds, started)
    if instance.family.startswith("g2opp"):
        decision = fits_one_board(panel, items, seconds=seconds)
        took = time.monotonic() - started
        value = {Verdict.YES: 1, Verdict.NO: 0, Verdict.UNKNOWN: None}[decision.verdict]
        boards = (decision.layings,) if value else ()
        return Run(
            value=value,
            bound=value,
            source=decision.proof.value,
            is_proven=value is not None,
            seconds=took,
            faults=_checked(instance, boards, all_wanted=bool(value)),
        )
    fewest = instance.family.startswith("g2csp")
    if fewest:
        answer = fewest_boards(panel, items, seconds=seconds)
    elif all(item.quantity is None for item in items):
        answer = best_unlimited(panel, items)
    else:
        answer = best_limited(panel, items, seconds=seconds)
    took = time.monotonic() - started
    faults = list(_checked(instance, answer.boards, all_wanted=fewest))
    worth = sum(items[laying.item].value for board in answer.boards for laying in board)
    if answer.value != (len(answer.boards) if fewest else worth):
        faults.append(f"value {answer.value} is not that of the layout")
    return Run(
        value=answer.value,
        bound=answer.bound,
        source=answer.bound_from.value,
        is_proven=answer.is_proven,
        seconds=took,
        faults=tuple(faults),
    )


def _bars(instance: Instance, seconds: float, started: float) -> Run:
    sizes = [item.length for item in instance.items]
    wanted = [item.quantity or 0 for item in instance.items]
    bars, bound, source = fewest_bars(instance.panel.length, sizes, wanted, seconds=seconds)
    took = time.monotonic() - started
    faults = []
    for number, bar in enumerate(bars):
        if sum(count * size for count, size in zip(bar, sizes, strict=True)) > (
            instance.panel.length
        ):
            faults.append(f"bar {number} is too full")
    for index, quantity in enumerate(wanted):
        if sum(bar[index] for bar in bars) < quantity:
            faults.append(f"size {index}: too few cut")
    return Run(
        value=len(bars),
        bound=bound,
        source=source.value,
        is_proven=bound == len(bars),
        seconds=took,
        faults=tuple(faults),
    )


def _checked(
    instance: Instance, boards: tuple[tuple[Laying, ...], ...], *, all_wanted: bool
) -> tuple[str, ...]:
    panel = instance.panel
    faults = faults_of_boards(
        panel.length,
        panel.width,
        [(item.length, item.width) for item in instance.items],
        [item.quantity for item in instance.items],
        [[(laying.item, laying.x, laying.y) for laying in board] for board in boards],
        [(f.x, f.y, f.x + f.length, f.y + f.width) for f in panel.faults],
        all_wanted=all_wanted,
    )
    return tuple(faults)
