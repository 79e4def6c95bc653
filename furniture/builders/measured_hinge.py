"""A bought butt hinge as a maker measures it, and what its screws need of the wood."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from furniture.builders.fixings import Screw
from furniture.builders.rules import DesignReader, at_least_known, at_most_known
from furniture.builders.sold_screws import longer_screws, read_screw_diameter, thickest_that_bites
from furniture.joints import Leaf
from furniture.joints.pilots import pilot_for
from furniture.pieces import Bought, LongerScrews, Note, SoldBy
from furniture.rules.building import GREATEST_SMALL_SCREW, LEAST_SCREW, SCREW_SKIN
from furniture.rules.hinges import (
    HINGE_BITE,
    HINGE_INSIDE,
)
from furniture.timber.stock import Timber
from furniture.units import (
    REQUIRED,
    Amounts,
    Given,
    Shown,
    figure_with_unit,
    parameters,
    said,
)


@parameters
class Hinge:
    """A bought butt hinge as the callipers read it; both of its leaves are alike.

    Args:
        leaf_length: along the barrel.
        leaf_width: of the flat leaf, from its free edge to the barrel.
        leaf_thickness: of the leaf.
        barrel: its diameter.
        folded: over both leaves when the hinge is closed (default: as the barrel).
        screws: in each leaf, in one row.
        screw_from_end: from the end of a leaf to the middle of its outer screw holes (default: as
            if the holes shared the leaf).
        screw_from_edge: from a leaf's free edge to the middle of its holes (default: half of its
            width).
        screw: that goes through it.
        name: as one asks for it.
    """

    leaf_length: Given = REQUIRED
    leaf_width: Given = REQUIRED
    leaf_thickness: Given = REQUIRED
    barrel: Given = REQUIRED
    folded: Given | None = None
    screws: int = 2
    screw_from_end: Given | None = None
    screw_from_edge: Given | None = None
    screw: Screw = REQUIRED
    name: str = "butt hinge"


@dataclass(frozen=True, slots=True, kw_only=True)
class WoodFor:
    """What a leaf is let into: how deep and how wide its wood is there [mm]."""

    what: str
    timber: Timber | None
    deep: float
    wide: float


def read_hinge(
    reader: DesignReader, given: object, woods: tuple[WoodFor, ...], gap: float, lid: str
) -> Leaf | None:
    """The hinge, or nothing with the problems noted.

    Args:
        reader: keeps the problems.
        given: a `Hinge`.
        woods: what its leaves are let into.
        gap: between the two when they are closed [mm].
        lid: what messages call the lid's figures.
    """
    if not isinstance(given, Hinge):
        reader.refuse(
            f"{lid}hinge", said(given), "Hinge(...)",
            "the gains are cut to what your hinge measures", f"write {reader.example('Hinge')}",
        )  # fmt: skip
        return None
    where = f"{lid}hinge."
    reader.names(where, given)
    inside = reader.rules[HINGE_INSIDE]
    narrowest = min(each.wide for each in woods)
    length = reader.length(
        f"{where}leaf_length", given.leaf_length, at_least=10.0, at_most=200.0,
        why="so long are hinges of boxes (common practice)",
    )  # fmt: skip
    width = reader.length(
        f"{where}leaf_width", given.leaf_width, at_least=4.0,
        at_most=max(4.0, at_most_known(narrowest - inside)),
        why=f"{reader.least(inside)} of the rail stay inside the leaf, which hide it and hold",
    )  # fmt: skip
    thickness = reader.length(
        f"{where}leaf_thickness", given.leaf_thickness, at_least=0.4, at_most=4.0,
        why="so thick are leaves (common practice)",
    )  # fmt: skip
    barrel = reader.length(
        f"{where}barrel", given.barrel, at_least=at_least_known(2 * thickness, 1.0), at_most=20.0,
        why="two leaves roll round its pin",
    )  # fmt: skip
    folded = barrel
    if given.folded is not None:
        folded = reader.length(
            f"{where}folded", given.folded, at_least=at_least_known(2 * thickness, 1.0),
            at_most=at_most_known(barrel), why="closed, it is two leaves or more and no more than "
            "its barrel",
        )  # fmt: skip
    thin = reader.limit(
        f"{lid}gap", gap, at_most=max(0.1, at_most_known(folded - 0.2)),
        why="a hinge that is thinner than the gap lets nothing in",
    )  # fmt: skip
    screws = reader.whole(
        f"{where}screws", given.screws, 1, 5, 2, "so many holes has a leaf (common practice)"
    )
    row = _read_row(reader, where, given, length, width, screws or 2)
    screw = _read_screw(reader, where, given, woods, (thickness, folded, thin))
    if row is None or screw is None:
        return None
    found = (length, width, thickness, barrel, folded, thin)
    if any(math.isnan(each) for each in found):
        return None
    return Leaf(
        name=reader.text(f"{where}name", given.name) or "butt hinge",
        length_mm=length,
        width_mm=width,
        thickness_mm=thickness,
        barrel_mm=barrel,
        folded_mm=folded,
        screw_mm=screw[0],
        screw_length_mm=screw[1],
        screws_mm=row,
    )


def _read_row(
    reader: DesignReader, where: str, given: Hinge, length: float, width: float, count: int
) -> tuple[tuple[float, float], ...] | None:
    """The middles of a leaf's holes: along from its middle, and in from the barrel's side."""
    edge, end = width / 2, length / (2 * count)
    why = "a hole lies in its leaf"
    if given.screw_from_edge is not None:
        edge = reader.length(
            f"{where}screw_from_edge", given.screw_from_edge, at_least=1.5,
            at_most=max(1.5, at_most_known(width - 1.5)), why=why,
        )  # fmt: skip
    if given.screw_from_end is not None and count > 1:
        end = reader.length(
            f"{where}screw_from_end", given.screw_from_end, at_least=1.5,
            at_most=max(1.5, at_most_known(length / 2 - 1.5)), why=why,
        )  # fmt: skip
    if math.isnan(edge) or math.isnan(end) or math.isnan(length) or math.isnan(width):
        return None
    if count == 1:
        return ((0.0, width - edge),)
    step = (length - 2 * end) / (count - 1)
    return tuple((end + index * step - length / 2, width - edge) for index in range(count))


def _read_screw(
    reader: DesignReader,
    where: str,
    given: Hinge,
    woods: tuple[WoodFor, ...],
    closed: tuple[float, float, float],
) -> tuple[float, float] | None:
    """Diameter and length of a screw that bites and comes out of neither wood [mm].

    `closed` are the thickness of a leaf, of the closed hinge, and the gap.
    """
    thickness, _, _ = closed
    if not isinstance(given.screw, Screw):
        reader.refuse(
            f"{where}screw", said(given.screw), "Screw(...)", "it holds the hinge",
            "write Screw(diameter='2.5 mm', length='10 mm')",
        )  # fmt: skip
        return None
    reader.names(f"{where}screw.", given.screw)
    diameter = read_screw_diameter(
        reader, f"{where}screw.diameter", given.screw.diameter,
        at_least=reader.rules[LEAST_SCREW], at_most=reader.rules[GREATEST_SMALL_SCREW],
        why="so thick are the screws of small hinges (common practice)",
    )  # fmt: skip
    skin, thin = reader.rules[SCREW_SKIN], _thin(woods)
    most = _most_long(reader, woods, closed)
    least = thickness + reader.rules[HINGE_BITE] * diameter
    why = (
        f"it bites {reader.rules[HINGE_BITE]:g} times its diameter beyond the leaf, and "
        f"{reader.least(skin)} of {thin.what} stay before its point"
    )
    if most < least:
        thicker = f"make {thin.what} {reader.least(least - most)} thicker"
        would_do = thickest_that_bites(
            reader,
            thickness,
            reader.rules[HINGE_BITE],
            most,
            (reader.rules[LEAST_SCREW], reader.rules[GREATEST_SMALL_SCREW]),
        )
        if would_do is None:
            allowed, remedy = f"no screw that is sold where {thin.what} is so thin", thicker
        else:
            diameter_text, length_text, called = would_do
            allowed = f"at most {diameter_text}{called} thick and {length_text} long"
            written = f"Screw(diameter='{diameter_text}', length='{length_text}')"
            remedy = f"write {written}, or {thicker}"
        screw = f"{said(given.screw.diameter)} by {said(given.screw.length)}"
        reader.refuse(f"{where}screw", screw, allowed, why, remedy)
        return None
    length = reader.length(
        f"{where}screw.length", given.screw.length, at_least=at_least_known(least),
        at_most=at_most_known(most), why=why,
    )  # fmt: skip
    return None if math.isnan(diameter) or math.isnan(length) else (diameter, length)


def _thin(woods: Sequence[WoodFor]) -> WoodFor:
    return min(woods, key=lambda each: each.deep if not math.isnan(each.deep) else math.inf)


def _most_long(
    reader: DesignReader, woods: Sequence[WoodFor], closed: tuple[float, float, float]
) -> float:
    """How long a screw may be in a leaf that is let in [mm]; `closed` as it is read."""
    thickness, folded, gap = closed
    deep = min(each.deep for each in woods)
    return deep - (folded - gap) / 2 - reader.rules[SCREW_SKIN] + thickness


def hinge_screws(
    reader: DesignReader, leaf: Leaf, woods: Sequence[WoodFor], gap: float
) -> LongerScrews:
    """What longer screws the leaves and their woods take.

    Args:
        reader: knows the limits and the unit.
        leaf: of every hinge.
        woods: what its leaves are let into.
        gap: between the two when they are closed [mm].
    """
    most = _most_long(reader, woods, (leaf.thickness_mm, leaf.folded_mm, gap))
    thin = _thin(woods).what
    return longer_screws(reader, leaf.screw_length_mm, leaf.thickness_mm, most, thin)


def pilot_mm(reader: DesignReader, screw_mm: float, timber: Timber) -> float:
    """The bore for a screw's thread [mm].

    Args:
        reader: knows the shop's limits and whether it buys by the inch.
        screw_mm: diameter of the shank [mm].
        timber: that it goes into.
    """
    return pilot_for(screw_mm, timber, reader.rules, reader.shown)


def screws_bought(leaf: Leaf, count: int, where: tuple[str, str]) -> Bought:
    """The screws of a lid's hinges.

    Args:
        leaf: of every hinge.
        count: of the hinges.
        where: the lid, and what it hangs on.
    """
    return Bought(
        name="countersunk wood screw",
        quantity=2 * len(leaf.screws_mm) * count,
        diameter_mm=leaf.screw_mm,
        length_mm=leaf.screw_length_mm,
        where=where,
        note=f"for the {leaf.name}s",
        sold_by=SoldBy.GAUGE,
    )


def hung_note(leaf: Leaf, gap: float, where: tuple[str, str], shown: Shown) -> Note:
    """How a lid is hung.

    Args:
        leaf: of every hinge.
        gap: between lid and what it hangs on when it is closed [mm].
        where: the lid, and what it hangs on.
        shown: the piece's unit.
    """
    depth = Amounts(shown=shown).dial(leaf.gain_depth_mm(gap))
    said = (
        f"cut the gains to your hinges and {depth} deep, half of what a closed hinge measures "
        f"less half the gap of {figure_with_unit(gap, shown)}; hang the {where[0]} last, when "
        "lid and box are finished: a steel screw first where the hinge's are brass, and wax on "
        "the thread"
    )
    return Note(said, where)
