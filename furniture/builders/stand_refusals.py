"""How the lid and the bottom of a stand cannot be held, since something stands on its base."""

from __future__ import annotations

from furniture.builders.bottom import BottomFixing
from furniture.builders.box_options import BoxOptionsGiven, is_hinged, slides
from furniture.builders.common import StockOf
from furniture.builders.panel_grain import PanelGrain
from furniture.builders.rules import DesignReader
from furniture.builders.support import Support
from furniture.units import is_meant, said


def refuse_unheld(
    reader: DesignReader, stand: BoxOptionsGiven, stock: StockOf, support: Support
) -> None:
    """Note a lid or a bottom that is held in a way which what stands on the base forbids.

    Args:
        reader: keeps the problems.
        stand: as the script has it.
        stock: of every instance, and how its grain lies.
        support: what stands on the base.
    """
    if slides(stand):
        reader.refuse(
            "lid_fixing", "sliding", "LidFixing.LOOSE, GLUED, CLEATS or NONE",
            "the lid of a stand ends at what stands on it and has nowhere to slide",
            "write LidFixing.LOOSE",
        )  # fmt: skip
    if is_hinged(stand):
        reader.refuse(
            "lid_fixing", "hinged", "LidFixing.LOOSE, GLUED, CLEATS or NONE",
            "what stands on the base reaches through the back of its lid, where hinges would be, "
            "and the tiers are in the way of a lid that opens",
            "write LidFixing.LOOSE, or LidFixing.GLUED with flap=Flap(hinge=Hinge(...)) for a lid "
            "whose front opens",
        )  # fmt: skip
    is_pinned = stand.bottom_fixing is None or is_meant(stand.bottom_fixing, BottomFixing.PINNED)
    if stand.bottom is None or not is_pinned or len(support.cross_rails) == 2:
        return
    if stock.grain("bottom") is PanelGrain.ACROSS:
        reader.refuse(
            "own_grain['bottom']", said(PanelGrain.ACROSS), "PanelGrain.ALONG",
            "it is pinned at the middle of both its ends, and behind the post stands there",
            "leave it out, or write back_rail=BackRail()",
        )  # fmt: skip
