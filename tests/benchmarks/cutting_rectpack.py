"""The same instances by rectpack, a general packing library: its best layout that a saw can cut.

It knows no faults: pieces that it lays on one are not counted.
"""

from __future__ import annotations

import time
from dataclasses import dataclass

from tests.benchmarks.cutting_instances import Instance
from tests.shop.cutting.sawing import Box, is_guillotine, meets

MOST_PIECES = 1000
"""Unlimited copies are given to rectpack as so many rectangles at most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Packed:
    """rectpack's best value, how many layouts no saw can cut, and its time [s]."""

    value: int | None
    layouts: int
    unsawable: int
    seconds: float


def packed_by_rectpack(instance: Instance, seconds: float) -> Packed:
    """The best of all guillotine variants and sort orders tried within the time [s]."""
    import rectpack
    from rectpack import guillotine

    started = time.monotonic()
    algorithms = [
        getattr(guillotine, name)
        for name in dir(guillotine)
        if name.startswith("Guillotine") and len(name) == len("GuillotineBssfSas")
    ]
    orders = (rectpack.SORT_NONE, rectpack.SORT_AREA, rectpack.SORT_LSIDE, rectpack.SORT_SSIDE)
    best: int | None = None
    layouts = unsawable = 0
    fewest = instance.family.startswith(("g2csp", "csp1d"))
    for algorithm in algorithms:
        for order in orders:
            if time.monotonic() - started > seconds and layouts:
                break
            value, is_sawable = _one(instance, algorithm, order, fewest)
            layouts += 1
            unsawable += not is_sawable
            if value is None or not is_sawable:
                continue
            better = best is None or (value < best if fewest else value > best)
            best = value if better else best
    return Packed(
        value=best, layouts=layouts, unsawable=unsawable, seconds=time.monotonic() - started
    )


def _one(
    instance: Instance, algorithm: object, order: object, fewest: bool
) -> tuple[int | None, bool]:
    import rectpack

    packer = rectpack.newPacker(
        mode=rectpack.PackingMode.Offline,
        bin_algo=rectpack.PackingBin.BFF,
        pack_algo=algorithm,
        sort_algo=order,
        rotation=False,
    )
    panel = instance.panel
    pieces = 0
    by_worth = sorted(
        enumerate(instance.items),
        key=lambda entry: -entry[1].value / (entry[1].length * entry[1].width),
    )
    for index, item in by_worth:
        fit = (panel.length // item.length) * (panel.width // item.width)
        copies = fit if item.quantity is None else item.quantity
        for _ in range(min(copies, MOST_PIECES - pieces)):
            packer.add_rect(item.length, item.width, rid=index)
            pieces += 1
    packer.add_bin(panel.length, panel.width, count=max(1, pieces) if fewest else 1)
    packer.pack()
    faults = [(f.x, f.y, f.x + f.length, f.y + f.width) for f in panel.faults]
    value = packed = 0
    sawable = True
    for board in packer:
        boxes: list[Box] = [(r.x, r.y, r.x + r.width, r.y + r.height) for r in board]
        sawable = sawable and is_guillotine(boxes)
        packed += len(boxes)
        clear = [not any(meets(b, bad) for bad in faults) for b in boxes]
        worth = zip(board, clear, strict=True)
        value += sum(instance.items[r.rid].value for r, is_clear in worth if is_clear)
    if fewest:
        return (len(packer) if packed == instance.pieces else None), sawable
    if instance.family.startswith("g2opp"):
        return (1 if packed == instance.pieces else None), sawable
    return value, sawable
