"""What no tool on hand makes, as cautions of the bench: which cuts, and what would make them."""

from __future__ import annotations

from collections import defaultdict

from furniture.checks.finding import Finding, Show
from furniture.checks.rows.bench import TOOL_ON_HAND
from furniture.making.making import Making
from furniture.making.operations import Kind, Operation
from furniture.shop.tools.on_hand import NoTool

_LIMITS = TOOL_ON_HAND.limits()


def tool_findings(making: Making, show: Show) -> tuple[Finding, ...]:
    """A finding for each kind of cut in each piece of wood; one in order where none is wanting.

    Args:
        making: of the piece.
        show: puts amounts into the piece's unit.

    **Source:** own rule.
    """
    alike: dict[tuple[str, str, NoTool], list[Operation]] = defaultdict(list)
    for each in making.operations:
        if each.wanting is not None:
            alike[_wood_of(each), each.kind.value, each.wanting].append(each)
    if not alike:
        return (_finding("the piece", 0, "every cut has its tool", ""),)
    return tuple(
        _finding(f"{wood}, {kind}", len(made), *_told(wanting, show))
        for (wood, kind, wanting), made in alike.items()
    )


def _wood_of(operation: Operation) -> str:
    """The wood that it is made in; of parts that are one body the first."""
    return operation.cuts[0].instance if operation.kind is Kind.KEY_SLOT else operation.takes[0]


def _finding(subject: str, count: int, basis: str, advice: str) -> Finding:
    return Finding(
        check=TOOL_ON_HAND, subject=subject, value=float(count), limits=_LIMITS, basis=basis,
        advice=advice,
    )  # fmt: skip


def _told(wanting: NoTool, show: Show) -> tuple[str, str]:
    """What is on hand, and what would make the cut or how it is made by hand."""
    near = wanting.nearest_mm
    basis = "none on hand" if near is None else f"the nearest on hand is {show(near)}"
    by_hand = "" if wanting.by_hand is None else f", or by hand: {wanting.by_hand.value}"
    return basis, f"{wanting.would.value} of {show(wanting.size_mm)}{by_hand}"
