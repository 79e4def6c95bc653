"""At the saw: the wood that the operations really put in hand, judged as cautions."""

from __future__ import annotations

from collections.abc import Iterator

from furniture.checks.finding import Finding, Show
from furniture.checks.of_piece.reading import worst_alone
from furniture.checks.saw import crosscut_finding, narrow_rip_finding, rip_finding
from furniture.making.making import Making
from furniture.making.operations import Kind, Operation
from furniture.making.settings import Guide, Machine
from furniture.rules import USUAL_RULES, Rules


def saw_findings(making: Making, show: Show, rules: Rules = USUAL_RULES) -> tuple[Finding, ...]:
    """The rip, the narrow rip and the crosscut that are hardest to hold.

    What is too small for the shop's own limits goes to the next tool, so only a shop that keeps
    smaller limits than the rules has anything to be warned of.

    Args:
        making: of the piece.
        show: puts amounts into the piece's unit.
        rules: the maker's.
    """
    found = [each for one in making.operations for each in _judged(one, show, rules)]
    return worst_alone(found)


def _judged(operation: Operation, show: Show, rules: Rules) -> Iterator[Finding]:
    rig, wood = operation.rig, operation.in_hand
    if rig is None or wood is None or rig.machine is not Machine.TABLE_SAW:
        return
    name, length, width = operation.takes[0], round(wood.length_mm, 6), round(wood.width_mm, 6)
    if rig.guide is Guide.FENCE:
        yield rip_finding(name, length, width, show, rules)
        if operation.kind is Kind.RIP:
            yield narrow_rip_finding(name, length, width, show, rules)
    elif rig.guide is Guide.SLED:
        yield crosscut_finding(name, max(length, width), show, rules)
