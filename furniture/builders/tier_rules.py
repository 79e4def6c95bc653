"""The tiers of a stepped stand as a maker states them: each by itself, by a step, or by a line."""

from __future__ import annotations

from collections.abc import Sequence

from furniture.units import REQUIRED, Given, parameters
from furniture.units.reading import ReadingError, read_length
from furniture.units.words import number_meant

MOST_TIERS = 20
_LONGEST_COUNT = 5


@parameters
class Tier:
    """One tier, counted above the lid.

    Its stock and its grain are said by its name: `own_stock={"tier 2": ...}`, `own_grain` of the
    stand alike.

    Args:
        width: left to right; not between uprights, where the box gives it.
        depth: how far it stands out from the post's front face; front to back between uprights
            (default: as far as the stand's overall depth).
        rise: from the top below it to its own top; for the first, from the lid's, or the rails'
            where there is none (default: a share of what the stand's overall height leaves).
    """

    width: Given | None = None
    depth: Given | None = None
    rise: Given | None = None


@parameters
class TierRule:
    """Tiers by rule: the lowest one stated, each one above it stepped back.

    Args:
        count: how many, 1 to 20.
        width: of the lowest tier; not between uprights, where the box gives it.
        depth: of the lowest tier (default: the deepest reaches as far as the overall depth).
        rise: of the lowest tier (default: the tiers share what the overall height leaves).
        step_back_width: how much narrower each tier is than the one below.
        step_back_depth: how much less each stands out than the one below.
        rise_change: how much more each rises than the one below; negative closes up.
    """

    count: int = 3
    width: Given | None = None
    depth: Given | None = None
    rise: Given | None = None
    step_back_width: Given = "0 mm"
    step_back_depth: Given = "0 mm"
    rise_change: Given = "0 mm"

    def one_by_one(self) -> tuple[Tier, ...]:
        """The same tiers, each stated; none where the rule cannot be read, or leaves a figure to
        the whole that they share."""
        count = counted_in(self)
        if self.depth is None or self.rise is None:
            return ()
        try:
            width, depth, rise = (
                None if each is None else read_length(each)
                for each in (self.width, self.depth, self.rise)
            )
            back, inward, change = (
                read_length(each)
                for each in (self.step_back_width, self.step_back_depth, self.rise_change)
            )
        except ReadingError:
            return ()

        def at(first: float | None, by: float) -> str | None:
            return None if first is None else f"{first + by:.9f} mm"

        return tuple(
            Tier(
                width=at(width, -index * back),
                depth=at(depth, -index * inward),
                rise=at(rise, index * change),
            )
            for index in range(min(count or 0, MOST_TIERS))
        )


@parameters
class TierLine:
    """Tiers on a line: front edges and ends lie on straight lines from the base to the top tier.

    Seen from the front the lines run from the base's sides, at the height that tiers rise from, to
    the ends of the top tier; seen from the side from the base's front to its front edge.

    Args:
        count: how many, 1 to 20.
        top_width: of the top tier; not between uprights, where the box gives it.
        top_depth: of the top tier.
        rise: of the lowest tier (default: the tiers share what the overall height leaves).
        rise_change: how much more each rises than the one below; negative closes up.
    """

    count: int = 3
    top_width: Given | None = None
    top_depth: Given = REQUIRED
    rise: Given | None = None
    rise_change: Given = "0 mm"

    def one_by_one(self) -> tuple[Tier, ...]:
        """None: what each would be hangs on the base, and one off the line ends it."""
        return ()


def said_of(name: str) -> dict[str, str]:
    """What to write instead of a parameter that is looked for among those of tiers.

    Args:
        name: of the tier, or of all.
    """
    stock = f"write own_stock={{{name!r}: Stock(...)}} among the stand's parameters"
    return {
        "grain": f"write own_grain={{{name!r}: PanelGrain.ACROSS}} among the stand's parameters",
        **dict.fromkeys(("stock", "thickness", "species"), stock),
        **dict.fromkeys(
            ("lip", "lips", "bracket", "brackets", "cleat", "cleats", "load", "loads"),
            f"write it among the stand's parameters, on={name!r}",
        ),
    }


def tier_names(tiers: object) -> tuple[str, ...]:
    """The instance names that these tiers will have; all there may be where none can count them.

    So what is said of tiers elsewhere is not refused as well.
    """
    count = counted_in(tiers)
    count = MOST_TIERS if count is None else min(count, MOST_TIERS)
    return tuple(f"tier {index + 1}" for index in range(count))


def counted_in(tiers: object) -> int | None:
    """How many tiers are meant, a count in quotes or as a word too; nothing where that cannot be
    told."""
    if not isinstance(tiers, (TierRule, TierLine)):
        return len(listed_in(tiers)) or None
    # Below one there is no tier to speak of: the count alone is at fault, not what names a tier.
    meant = number_meant(tiers.count)
    return meant if meant is not None and meant >= 1 else None


def listed_in(tiers: object) -> Sequence[object]:
    """The tiers as they are listed, a lone one as one."""
    if isinstance(tiers, Tier):
        return (tiers,)
    return tiers if isinstance(tiers, (list, tuple)) else ()


def are_depths_left(tiers: object) -> bool:
    """Whether the depth of some tier is left to follow from the overall depth."""
    if isinstance(tiers, TierRule):
        return tiers.depth is None
    return any(isinstance(each, Tier) and each.depth is None for each in listed_in(tiers))
