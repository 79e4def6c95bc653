"""Whether strips are glued up in an order that serves: edges, a look when dry, glue, the scraper.

What leaves no mark that a replay could see; that edges meet, and faces and ends are level, the
replay sees itself. Common practice, no source, as the reasons in `furniture.making.why` are.
"""

from __future__ import annotations

from collections.abc import Iterator

from furniture.making.operations import Kind, Operation
from furniture.making.settings import Machine, Skim, Surface
from tests.making.order import Fault
from tests.making.replay import Making


def strip_faults(making: Making) -> Iterator[Fault]:
    """Every fault of gluing up strips."""
    order = list(making.operations)
    for at, each in enumerate(order):
        if each.kind is Kind.EDGE_GLUE:
            yield from _not_laid_out(order[:at], each)
            yield from _not_flat_in_the_vice(order[:at], set(each.takes))
            yield from _worked_over_glue(order[at + 1 :], each)
        if each.kind is Kind.LAY_OUT_STRIPS:
            for late in order[at + 1 :]:
                is_cut = isinstance(late.setting, Surface | Skim)
                if is_cut and set(late.takes) & set(each.takes):
                    yield Fault(late.key, "its strips were laid out before")


def _not_laid_out(before: list[Operation], glue: Operation) -> Iterator[Fault]:
    looks = [set(each.takes) for each in before if each.kind is Kind.LAY_OUT_STRIPS]
    if set(glue.takes) not in looks:
        yield Fault(glue.key, "its strips were not laid out dry")


def _not_flat_in_the_vice(before: list[Operation], strips: set[str]) -> Iterator[Fault]:
    """By hand two edges that meet are planed as one: no face of either is planed after."""
    in_vice = [
        at
        for at, each in enumerate(before)
        if each.kind is Kind.JOINT_EDGE and strips & set(each.takes)
        and each.rig is not None and each.rig.machine is Machine.BENCH
    ]  # fmt: skip
    for each in before[min(in_vice, default=len(before)) :]:
        if each.kind in (Kind.JOINT_FACE, Kind.PLANE) and strips & set(each.takes):
            yield Fault(each.key, "its edge was planed with its mate before it was flat")


def _worked_over_glue(after: list[Operation], glue: Operation) -> Iterator[Fault]:
    """Nothing bears on what is glued up, and nothing cuts it, before the glue is scraped off."""
    for each in after:
        if set(each.takes) & set(glue.gives):
            if each.kind is not Kind.SCRAPE:
                yield Fault(each.key, "hard glue is still on it")
            return
    yield Fault(glue.key, "its glue is never scraped off")
