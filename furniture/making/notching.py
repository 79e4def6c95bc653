"""Notches at the bench: round inner corners bored while the wood is whole, the rest sawn, chopped.

Common practice, no source.
"""

from __future__ import annotations

from furniture.making import rigs
from furniture.making.settings import Bored, Notched, Rig
from furniture.parts.blank import Blank
from furniture.parts.faces import Face
from furniture.rules import Rules
from furniture.shop.tools.on_hand import NoTool, drill_for
from furniture.shop.tools.values import ShopRead

_OPEN_MM = 1e-6
_POINT_INSIDE = 0.5
"""A drill's point bears on wood where the middle lies so far inside, of its radius. Own rule."""


def rig_of(setting: Notched, blank: Blank, is_bored: bool) -> Rig:
    """A saw alone where it takes a square corner off, else what it leaves is chopped or filed.

    Args:
        setting: of the notch.
        blank: of the part.
        is_bored: whether bores have left its inner corners round.
    """
    if setting.corner_mm and not is_bored:
        return rigs.SAWN_AND_FILED
    is_sawn = len(_closed_mm(setting, blank)) < 2
    return rigs.HAND_SAWN if is_sawn else rigs.SAWN_AND_CHOPPED


def bores_of(
    setting: Notched, blank: Blank, side: Face, shop: ShopRead, rules: Rules
) -> tuple[Bored, ...]:
    """The bores that leave its inner corners round; none where no drill on hand does.

    Args:
        setting: of the notch.
        blank: of the part.
        side: the wide face that is bored into.
        shop: what is on hand.
        rules: how near a drill must come.
    """
    radius = setting.corner_mm
    down = setting.depth_mm - radius
    if radius == 0.0 or down < _POINT_INSIDE * radius:
        return ()
    if isinstance(drill_for(shop, 2.0 * radius, rules), NoTool):
        return ()
    is_along = setting.off.axis < setting.edge.axis
    return tuple(
        Bored(
            face=side,
            off=(setting.off, setting.edge) if is_along else (setting.edge, setting.off),
            at_mm=(along, down) if is_along else (down, along),
            diameter_mm=2.0 * radius,
            depth_mm=None,
        )
        for along in dict.fromkeys(round(each, 9) for each in _closed_mm(setting, blank))
    )  # a notch that is half round has one


def _closed_mm(setting: Notched, blank: Blank) -> list[float]:
    """Inside each side that lies in the wood, by the radius of its corner."""
    far = setting.near_mm + setting.length_mm
    is_near, is_far = setting.near_mm > _OPEN_MM, far < blank.size[setting.off.axis] - _OPEN_MM
    near = [setting.near_mm + setting.corner_mm] if is_near else []
    return [*near, *([far - setting.corner_mm] if is_far else [])]
