"""Wood that is far too thick for a part that no planer makes is sawn through its thickness."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from furniture.making.in_hand import refused_by
from furniture.making.operations import After, InHand, Kind, Operation
from furniture.making.rigs import HAND_SAWN
from furniture.making.settings import Hold, Parallel, Slice, Surface
from furniture.making.why import Why
from furniture.rules import Rules
from furniture.rules.tools import FACE_TAKES, RESAWN_FROM, RESAWN_OVER
from furniture.shop.tools.values import ShopRead


def face_takes_mm(over_mm: float, rules: Rules) -> float:
    """What is taken off the lower face to make it true; the other takes the rest [mm].

    Args:
        over_mm: what the wood is too thick.
        rules: how much at most.
    """
    return min(over_mm / 2, rules[FACE_TAKES])


def with_resawing(
    planed: Iterable[Operation], wood: InHand, shop: ShopRead, rules: Rules
) -> Iterator[Operation]:
    """What brings wood to its thickness, a saw before a plane that would take much by hand.

    Args:
        planed: its face and its thickness, in order, by the machines that do them best.
        wood: as it is in hand before them.
        shop: what is on hand.
        rules: from how much on it is sawn.

    **Source:** common practice, no source.
    """
    for each in planed:
        if isinstance(each.setting, Surface):
            wood = replace(wood, thickness_mm=wood.thickness_mm - each.setting.takes_mm)
        if each.kind is Kind.PLANE and isinstance(each.setting, Parallel):
            off, at = each.setting.off, each.setting.at_mm + rules[RESAWN_OVER]
            is_sawn = wood.thickness_mm - each.setting.at_mm >= rules[RESAWN_FROM]
            if is_sawn and refused_by(each, wood, shop) is not None:
                saw = replace(
                    each, key=f"{each.takes[0]}: resaw", kind=Kind.RESAW,
                    rig=HAND_SAWN, hold=Hold(down=off), sizes=(),
                    setting=Slice(off=off, at_mm=at, kerf_mm=shop.saw.kerf_mm),
                )  # fmt: skip
                yield saw
                each = replace(each, after=(*each.after, After(saw.key, Why.RESAWN_FIRST)))
        yield each
