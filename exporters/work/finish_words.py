"""Sanding and finish in a maker's words: grits, coats, waits, and what goes over what."""

from __future__ import annotations

from collections import defaultdict

from exporters.faces import is_outside
from exporters.work.names import counted_woods
from furniture.making.amounts import Finishing
from furniture.making.making import Making
from furniture.parts.faces import Face
from furniture.pieces.piece import Piece
from furniture.shop.tools.finishes import FinishFacts, Over, goes_over
from furniture.shop.tools.kinds import FinishFamily
from furniture.units import listed

SHUT_IN = "what glue will shut in"


def shut_in_words(piece: Piece, making: Making) -> str:
    """What glue will shut in: the insides of what stands round a room, and all of what lies dry.

    Args:
        piece: that is finished.
        making: of it, with its glue-ups.
    """
    dry = dict.fromkeys(
        name for each in making.operations if each.glue_up for name in each.glue_up.dry
    )
    inside = [
        each.instance
        for each in piece.placed
        if is_outside(piece, each, Face.FACE_SIDE) is not None and each.instance not in dry
    ]
    told = [f"the inside of {counted_woods(piece, inside)}"] if inside else []
    told += [f"all of {counted_woods(piece, tuple(dry))}"] if dry else []
    return f"{SHUT_IN} ({'; '.join(told)})" if told else SHUT_IN


def sanded_in_words(finishing: Finishing | None, what: str, as_before: bool = False) -> str:
    """The grits in order.

    Args:
        finishing: of the piece, where it is known.
        what: is sanded; empty where that stands before it.
        as_before: the grits were told with other wood.
    """
    verb = f"sand {what}".strip()
    if finishing is None:
        return verb
    if as_before:
        return f"{verb} as before"
    raised = ", wet it, let it dry, sand once more" if finishing.facts.raises_grain else ""
    return f"{verb}, grits {listed([str(each) for each in finishing.grits])}{raised}"


def coated_in_words(finishing: Finishing | None, what: str, as_before: bool = False) -> str:
    """The coats with all that is known of them; the label has the last word.

    Args:
        finishing: of the piece, where it is known.
        what: is finished before it is shut in; empty where it is the whole piece, last.
        as_before: the coats were told with other wood.
    """
    verb = f"finish {what}".strip()
    if finishing is None:
        return verb
    facts = finishing.facts
    between = "" if facts.between_grit is None else f", sanded {facts.between_grit} between"
    coats = f"{finishing.coats} coats of {facts.family.value}"
    told = f"{verb}: {coats}, {facts.recoat_hours:g} h apart{between}"
    if as_before:
        told = f"{verb} as before"
    if what:
        return f"{told}; {over_in_words(facts)}"
    area, litres = finishing.area_mm2 / 1e6, finishing.litres
    days = finishing.time.work_days
    return (
        f"{told}: {days} {'days' if days > 1 else 'day'} of work; {litres:.2f} L in all for "
        f"{area:.2f} m2, inside and out; nothing stands on it for {facts.cured_days:g} days; the "
        "label decides"
    )


_SAID = {
    Over.CURED: "{} only once cured",
    Over.DEWAXED: "{} only if free of wax",
    Over.NEVER: "never over {}",
}


def over_in_words(facts: FinishFacts) -> str:
    """What it goes over only so or never, should something be on the wood; over all else once dry.

    Args:
        facts: of the finish.
    """
    under: dict[Over, list[str]] = defaultdict(list)
    for family in FinishFamily:
        under[goes_over(facts.family, family)].append(family.value)
    said = [_SAID[each].format(_either(under[each])) for each in _SAID if under[each]]
    return f"over {', '.join((*said, 'never over wax'))}".replace("over never", "never")


def _either(names: list[str]) -> str:
    return listed(names).replace(" and ", " or ")
