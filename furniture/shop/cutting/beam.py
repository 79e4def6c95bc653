"""The anytime search: keeps a few half-made packings, adds a blank to each, doubles the few."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass

from furniture.shop.cutting.packing import Packer
from furniture.shop.cutting.states import State


@dataclass(frozen=True, slots=True)
class Finished:
    """A packing to which nothing more could be added, and how it ranks (less is better)."""

    rank: tuple[float, ...]
    state: State


def rank_of(packer: Packer, state: State) -> tuple[float, ...]:
    """Musts left out and their area, then price, then waste behind the front."""
    count = sum(state.left[n] for n in packer.musts)
    area = sum(state.left[n] * packer.blanks[n].area_mm2 for n in packer.musts)
    return (float(count), area, round(state.price, 6), packer.waste(state))


def finished_packings(
    packer: Packer,
    start: State,
    width: int,
    price_limit: float,
    area_price: float,
    random_source: random.Random,
    is_over: Callable[[], bool],
) -> list[Finished]:
    """The best few packings found with `width` half-made ones kept at each step.

    area_price: wood [mm^2] that one unit of money is worth, to weigh prices against waste.
    price_limit: nothing dearer is followed.
    """
    kept = [start]
    finished: list[Finished] = []
    may_end_early = packer.has_extras()
    blur = 0.0 if width == 1 else 0.02
    while kept and not is_over():
        candidates: dict[tuple[object, ...], tuple[float, State]] = {}
        for state in kept:
            grew = False
            for child in packer.children(state, is_over):
                grew = True
                least = child.price
                if may_end_early:
                    least -= packer.still_to_win(child.left)
                if least > price_limit:
                    continue
                guide = packer.waste(child) + child.price * area_price
                guide = (guide + 1.0) / (child.laid_area_mm2 + 1.0)
                if blur:
                    guide *= 1.0 + blur * random_source.random()
                key = (
                    child.left,
                    child.beds_opened,
                    child.boards_touched,
                    child.ground,
                    round(child.strip_start_mm, 3),
                    round(child.strip_height_mm, 3),
                    round(child.section_start_mm, 3),
                    round(child.section_length_mm, 3),
                    round(child.column_front_mm, 3),
                    child.ceiling_mm,
                    child.homes,
                )
                known = candidates.get(key)
                if known is None or guide < known[0]:
                    candidates[key] = (guide, child)
            if not grew or (may_end_early and packer.has_all_musts(state)):
                finished.append(Finished(rank_of(packer, state), state))
            if is_over():
                break
        ordered = sorted(candidates.values(), key=lambda entry: entry[0])
        kept = [state for _, state in ordered[:width]]
        if may_end_early:
            finished = sorted(finished, key=lambda entry: entry.rank)[: max(4, width // 4)]
    finished.extend(Finished(rank_of(packer, state), state) for state in kept)
    finished.sort(key=lambda entry: entry.rank)
    return finished[: max(4, width // 4)]
