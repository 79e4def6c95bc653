"""A stand built once more with brackets or cleats under a tier: what such advice would come to."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from furniture.builders.brackets import Bracket
from furniture.builders.common import Names
from furniture.builders.tier_cleats import TierCleat
from furniture.errors import DesignError
from furniture.pieces import Bearer, Piece, Under
from furniture.rules import ShopRules


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StandAgain:
    """A stand as it was given and built: by which rules, and of which measured thicknesses [mm].

    `names` are what its script may say of tiers.
    """

    stand: Any
    names: Names
    rules: ShopRules | None
    thicknesses: Mapping[str, float] | None

    def with_under(self, instance: str, bearer: Bearer, reach_mm: float) -> Piece | None:
        """The stand with that under a tier, or with longer ones; None where it is refused.

        Args:
            instance: the tier.
            bearer: what is put under it.
            reach_mm: how far it reaches [mm], or a cleat is thick.
        """
        reach = f"{reach_mm} mm"
        there = getattr(self.stand, bearer.parameter)
        listed: Sequence[Any] = there if isinstance(there, (list, tuple)) else (there,)
        kept = [own for each in listed for own in self._each(each, instance)]
        own: Bracket | TierCleat
        if bearer.under is Under.BRACKET:
            own = Bracket(on=instance, count=bearer.count, reach=reach)
        else:
            wood = replace(self.stand.thin, name=f"{instance}, cleats", thickness=reach)
            own = TierCleat(on=instance, stock=wood)
        for each in kept:
            if each.on == instance:
                own = replace(each, reach=reach)
        changed = replace(
            self.stand,
            **{bearer.parameter: (*(each for each in kept if each.on != instance), own)},
        )
        try:
            return changed.build(self.rules, self.thicknesses)  # type: ignore[no-any-return]
        except DesignError:
            return None

    def _each(self, entry: Any, instance: str) -> list[Any]:
        """An entry that speaks of several tiers, this one among them, as one for each of them."""
        meant = self.names.meant_by(entry.on)
        return [replace(entry, on=name) for name in meant] if instance in meant else [entry]
