"""A variant as it is compared: plain values, so that what draws it knows of no check."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from exporters.pictures.outline import Outline
from furniture.pieces.piece import Stance


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Variant:
    """One of several designs.

    Args:
        name: what it is called here.
        views: from the front and from the right side [mm].
        stance: whether it stands on a floor.
        figures: what it is weighed by, in words, by what that is called.
    """

    name: str
    views: tuple[Outline, Outline]
    stance: Stance
    figures: Mapping[str, str]
