"""Whether a piece stands on as much as it covers: its feet against its plan."""

from __future__ import annotations

from furniture.checks.finding import Finding, Show, Tipping, Verdict, Way
from furniture.checks.rows.standing import FEET
from furniture.checks.stability_findings import DEFERENCE, Standing
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.standing import FEET_SHARE, TABLE_TOP_FEET_SHARE

Plan = tuple[tuple[float, float], tuple[float, float]]
"""What a piece covers from above: from left to right, and from front to back [mm]."""
_WAYS = ((Way.LEFT, Way.RIGHT), (Way.FORWARD, Way.BACKWARD))
_SIZES = ("width", "depth")


def feet_finding(
    standing: Standing, plan: Plan, show: Show, *, is_table_top: bool, rules: Rules = USUAL_RULES
) -> Finding:
    """How much of its width or depth the feet span [%], whichever is less.

    It tells the cause of what hands, books and presses near an edge would do.

    Args:
        standing: the piece as it stands
        plan: what it covers from above
        show: puts a length into the piece's unit
        is_table_top: whether it is judged as a table-top piece
        rules: the maker's

    **Source:** own rule; geometry of the support polygon.
    """
    spans = [
        max(point[axis] for point in standing.contacts_mm)
        - min(point[axis] for point in standing.contacts_mm)
        for axis in (0, 1)
    ]
    sizes = [high - low for low, high in plan]
    axis = min((0, 1), key=lambda each: spans[each] / sizes[each])
    share = 100.0 * spans[axis] / sizes[axis]
    asked = 100.0 * rules[TABLE_TOP_FEET_SHARE if is_table_top else FEET_SHARE]
    limits = FEET.limits(cautions=asked)
    needed = show.up(asked / 100.0 * sizes[axis])
    is_right = FEET.verdict(share, limits) is Verdict.OK
    return Finding(
        check=FEET,
        subject=f"the {_SIZES[axis]}",
        value=share,
        limits=limits,
        tipping=Tipping(ways=_WAYS[axis]),
        basis=f"it stands on {show(spans[axis])} of {show(sizes[axis])}; what leans on an edge "
        f"beyond its feet tips it; {DEFERENCE}",
        advice=""
        if is_right
        else f"let its feet span {show(needed)} in {_SIZES[axis]}, or draw in what stands beyond",
    )
