"""Whether strips are glued up in an order that serves: edges, a look when dry, glue, the scraper.

What leaves no mark that a replay could see; that edges meet, and faces and ends are level, the
replay sees itself. Common practice, no source, as the reasons in `furniture.making.why` are.
"""

from __future__ import annotations

from collections.abc import Iterator

from furniture.making.operations import Kind, Operation
from furniture.making.settings import Skim, Surface
from tests.making.order import Fault
from tests.making.replay import Making


def strip_faults(making: Making) -> Iterator[Fault]:
    """Every fault of gluing up strips."""
    order = list(making.operations)
    for at, each in enumerate(order):
        if each.kind is Kind.EDGE_GLUE:
            yield from _not_laid_out(order[:at], each)
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


def _worked_over_glue(after: list[Operation], glue: Operation) -> Iterator[Fault]:
    """Nothing bears on what is glued up, and nothing cuts it, before the glue is scraped off."""
    for each in after:
        if set(each.takes) & set(glue.gives):
            if each.kind is not Kind.SCRAPE:
                yield Fault(each.key, "hard glue is still on it")
            return
    yield Fault(glue.key, "its glue is never scraped off")
