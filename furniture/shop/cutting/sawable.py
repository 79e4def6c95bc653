"""A quick look whether everything comes off the boards by safe cuts; a yes is sure, a no is not."""

from __future__ import annotations

import random
from collections.abc import Callable

from furniture.shop.cutting.beam import finished_packings
from furniture.shop.cutting.beds import FirstCut, whole_beds
from furniture.shop.cutting.blanks import blanks_of
from furniture.shop.cutting.packing import Packer
from furniture.shop.cutting.settling import placements_of, settled_boards
from furniture.shop.cutting.states import laid_in_order
from furniture.shop.cutting.values import CuttingRequest, MatchRule

LOOKED_AT = 2
"""So many half-made packings are followed at once. Own rule: a look, not a search."""


def can_be_sawn(request: CuttingRequest, is_over: Callable[[], bool] = lambda: False) -> bool:
    """Whether a plan is found that places every part, sequences whole, and cuts safely.

    Args:
        request: its matches in sequence are kept, others are not looked at.
        is_over: whether to look no longer.
    """
    sequences = frozenset(
        index for index, match in enumerate(request.matches) if match.rule is MatchRule.IN_SEQUENCE
    )
    blanks = blanks_of(request, sequences)
    beds = whole_beds(request)
    for first_cut in FirstCut:
        if is_over():
            break
        packer = Packer(request, blanks, beds, first_cut)
        start = packer.start(())
        if start is None:
            continue
        source = random.Random(request.limits.seed)
        found = finished_packings(packer, start, LOOKED_AT, float("inf"), 0.0, source, is_over)
        for entry in found:
            if any(entry.state.left):
                continue
            placements = placements_of(request, blanks, laid_in_order(entry.state))
            settled = settled_boards(request, placements)
            if settled is not None and settled.unsafe is None:
                return True
    return False
