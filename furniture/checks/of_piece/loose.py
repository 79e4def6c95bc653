"""What becomes of parts that nothing fixes: they lift out, are captured, or can fall."""

from __future__ import annotations

from collections.abc import Sequence

from furniture.checks.finding import Finding, Verdict, not_checked, without_figure
from furniture.checks.rows.structure import LOOSE_PARTS
from furniture.joints.joint import Joining
from furniture.parts.vectors import DOWN, dot
from furniture.parts.ways import way_in_words
from furniture.rules.staying import FALLS_FROM
from furniture.structure import Hold, Holding
from furniture.units import Shown, figure_with_unit, listed


def loose_findings(
    holdings: Sequence[Holding], joinings: Sequence[Joining], shown: Shown
) -> tuple[Finding, ...]:
    """What becomes of each lot of parts that nothing fixes, told once for those that move as one.

    Args:
        holdings: what keeps every instance
        joinings: what the joints state
        shown: the unit of lengths in words

    **Source:** own rule: straight moves of one leg or two; a way out that leads down is a caution.
    """
    lots = {each.group: each for each in holdings if each.is_loose}
    jointed = {name for each in joinings for name in (each.into, each.incoming)}
    return tuple(
        _unstated(each)
        if each.hold is Hold.FREE and jointed.isdisjoint(each.group)
        else _finding(each, shown)
        for each in lots.values()
    )


def _unstated(holding: Holding) -> Finding:
    """Of what no joint speaks: where it lies is read off the solids, and what it bears is not."""
    return not_checked(
        LOOSE_PARTS,
        listed(holding.group),
        "no joint says where it lies, what it bears on or what keeps it there",
        advice="state the joint that it lies in; hinges and stays are not counted",
    )


def _finding(holding: Holding, shown: Shown) -> Finding:
    verdict, advice = Verdict.OK, ""
    it, is_one = ("it", True) if len(holding.group) == 1 else ("they", False)
    straight = [out for out in holding.ways if out.before is None]
    down = [out for out in straight if dot(out.way, DOWN) > FALLS_FROM.value]
    loose = f"{it} {'is' if is_one else 'are'} loose, and {'comes' if is_one else 'come'} out"
    if holding.hold is not Hold.FREE:
        basis = (
            f"{it} {'is' if is_one else 'are'} captured: {listed(holding.stopped_by)} hold "
            f"{'it' if is_one else 'them'} on every side, so {it} {'goes' if is_one else 'go'} in "
            f"before they close and never {'comes' if is_one else 'come'} out"
        )
    elif down:
        verdict = Verdict.CAUTION
        basis = (
            f"nothing holds {'it' if is_one else 'them'}: {it} {'comes' if is_one else 'come'} out "
            f"{way_in_words(down[0].way)}{_along(down[0].along)}"
        )
        advice = (
            "pin or screw it at the middle of its ends, which lets it move with the seasons; or "
            "glue it in where it is sheet stock"
        )
    elif holding.ways[0].before is not None:
        out = holding.ways[0]
        far = figure_with_unit(out.before.far_mm, shown) if out.before else ""
        first = way_in_words(out.before.way) if out.before else ""
        basis = (
            f"{loose} {first} by {far} and then {way_in_words(out.way)}{_along(out.along)} when "
            "the piece is together"
        )
    else:
        ways = " or ".join(dict.fromkeys(way_in_words(out.way) for out in holding.ways))
        basis = f"{loose} {ways}{_along(holding.ways[0].along)} when the piece is together"
    subject = listed(holding.group)
    return without_figure(LOOSE_PARTS, verdict, basis, subject=subject, advice=advice)


def _along(names: Sequence[str]) -> str:
    return f" along with {listed(names)}" if names else ""
