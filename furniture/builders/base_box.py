"""The mitred, lidded box: its figures, and its rails and lid in their places."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import mode

from furniture.builders.common import StockOf
from furniture.builders.panel_grain import PanelGrain
from furniture.builders.rules import DesignReader, at_least_known, at_most_known, is_room
from furniture.joints import Joint, MitreJoint
from furniture.parts.blank import Blank
from furniture.parts.part import Kin, Part, Placed, Rough
from furniture.parts.placement import Placement
from furniture.parts.vectors import BACK, FRONT, LEFT, RIGHT, UP, Vector
from furniture.pieces import Note
from furniture.rules import Rules
from furniture.rules.building import (
    GREATEST_BOX_HEIGHT,
    GREATEST_BOX_SIDE,
    LEAST_BELOW_RABBET,
    LEAST_BOX_SIDE,
    LEAST_INSIDE,
    LEAST_LID_GAP,
    LEAST_RABBET_FLOOR,
    LEAST_RABBET_WALL,
    RABBET_WALL_SHARE,
    RAIL_MISMATCH,
)
from furniture.rules.staying import CARD_PLAY
from furniture.timber.climates import USUAL_CLIMATE, find_climate
from furniture.timber.movement import Across, NoCoefficient
from furniture.timber.play import gap_in_still_opening_mm
from furniture.timber.stock import Timber
from furniture.timber.wood import Kind
from furniture.units import Given, Shown, figure_with_unit, said


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxFigures:
    """The figures of a mitred box with a rabbeted lid [mm].

    `height` is that of the rails as cut; the lid's top lies `flush_allowance` below it. `rail` is
    the rails' thickness and `wall` what is left of it outside the lid's rabbet, all round. Of a box
    that is open above, what is the lid's is 0, and its `lid_top` is the rails' top. `lid_below`
    is how far below that a lid in grooves has its underside, 0 where there is none.
    """

    width: float
    depth: float
    height: float
    flush_allowance: float
    rail: float
    wall: float
    gap_beside: float
    gap_before: float
    lid_thickness: float
    rough: Rough
    lid_below: float = 0.0

    @property
    def has_lid(self) -> bool:
        """Whether a lid lies in the rails' rabbets."""
        return self.lid_thickness != 0.0

    @property
    def lid_top(self) -> float:
        """Height of the lid's top, to which the rails are planed after glue-up."""
        return self.height - self.flush_allowance

    @property
    def rabbet_floor(self) -> float:
        """Height of the rabbet's floor, on which the lid lies."""
        return self.lid_top - self.lid_thickness

    @property
    def ceiling(self) -> float:
        """Height up to which the inside is free."""
        return self.height - self.lid_below if self.lid_below else self.rabbet_floor


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxGiven:
    """The parameters of a box as a builder names them: each with the name to report it by.

    `of_the_lid` are those that only a lid needs, by name, as far as they were written.
    """

    rails: str
    width: tuple[str, Given | None]
    depth: tuple[str, Given | None]
    height: tuple[str, Given | None]
    flush_allowance: Given
    rabbet_width: Given | None
    lid_gap_along: Given
    lid_gap_across: Given | None
    bottom_thickness: float = 0.0
    dowel_row: float = 0.0
    least_sides: tuple[float, float] = (0.0, 0.0)
    most_depth: float = math.inf
    has_lid: bool = True
    of_the_lid: tuple[tuple[str, Given | None], ...] = ()
    lid_grain: PanelGrain = PanelGrain.ALONG


def read_box(
    reader: DesignReader,
    given: BoxGiven,
    rail_thickness: float,
    lid: Timber | None,
    rough: Rough,
) -> BoxFigures:
    """The box's figures; what cannot be built is noted with the reader and not a number.

    Args:
        reader: keeps the problems.
        given: the parameters.
        rail_thickness: measured [mm].
        lid: the lid's timber, if it could be read.
        rough: allowances.
    """
    if not given.has_lid:
        _refuse_of_a_lid(reader, given)
    lid_thickness = math.nan if lid is None else lid.thickness_mm
    if not given.has_lid:
        lid_thickness = 0.0
    inside = reader.rules[LEAST_INSIDE]
    width, depth = (
        reader.length(
            *pair,
            at_least=at_least_known(
                2 * rail_thickness + inside, max(least, reader.rules[LEAST_BOX_SIDE])
            ),
            at_most=min(most, reader.rules[GREATEST_BOX_SIDE]),
            why=(
                f"the rails need at least {reader.least(inside)} between them, and room for what "
                "stands in it; a larger box wants other joinery (common practice)"
            ),
        )
        for pair, least, most in zip(
            (given.width, given.depth),
            given.least_sides,
            (math.inf, given.most_depth),
            strict=True,
        )
    )
    flush, gap_beside, gap_before = _read_lid(reader, given, (width, depth), lid)
    height = _read_height(reader, given, lid_thickness, flush)
    gap = gap_beside if math.isnan(gap_beside) else max(gap_before, gap_beside)
    return BoxFigures(
        width=width,
        depth=depth,
        height=height,
        flush_allowance=flush,
        rail=rail_thickness,
        wall=rail_thickness - _read_rabbet(reader, given, rail_thickness, gap),
        gap_beside=gap_beside,
        gap_before=gap_before,
        lid_thickness=lid_thickness,
        rough=rough,
    )


def _refuse_of_a_lid(reader: DesignReader, given: BoxGiven) -> None:
    """What was written for a lid that there is none of."""
    for parameter, value in given.of_the_lid:
        reader.refuse(
            parameter, said(value), "nothing", "there is no lid in rabbets",
            "leave it out",
        )  # fmt: skip


def _read_lid(
    reader: DesignReader, given: BoxGiven, sides: tuple[float, float], lid: Timber | None
) -> tuple[float, float, float]:
    """What is planed off the rails to meet the lid, its gaps at its sides and before it [mm]."""
    if not given.has_lid:
        return 0.0, 0.0, 0.0
    flush = reader.length(
        "flush_allowance",
        given.flush_allowance,
        at_least=0.0,
        at_most=3.0,
        why="what is planed off the rails after glue-up is a few shavings (common practice)",
    )
    is_along = given.lid_grain is PanelGrain.ALONG
    along, across = read_lid_gaps(
        reader, given.lid_gap_along, given.lid_gap_across, sides[1 if is_along else 0], lid
    )
    return (flush, along, across) if is_along else (flush, across, along)


def read_lid_gaps(
    reader: DesignReader,
    along: Given,
    across: Given | None,
    wide: float,
    lid: Timber | None,
) -> tuple[float, float]:
    """A lid's gaps along its grain and across it [mm]; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        along: at each of its ends, as written.
        across: at each of its edges; what the wood needs when left out.
        wide: how wide the box is across the lid's grain [mm].
        lid: its timber, if it could be read.
    """
    gap_along = reader.length(
        "lid_gap_along",
        along,
        at_least=0.1,
        at_most=5.0,
        why="a lid needs a little room along the grain too",
    )
    return gap_along, _gap_across(reader, across, wide, lid)


def _read_height(reader: DesignReader, given: BoxGiven, lid: float, flush: float) -> float:
    """The rails' height [mm]; rails that are too low are told a height that holds dowels too."""
    beside = math.fsum(at_least_known(each) for each in (lid, flush, given.bottom_thickness))
    below, purpose = reader.rules[LEAST_BELOW_RABBET], "of wood beside them"
    if given.dowel_row > below and not reader.peek(given.height[1]) >= beside + below:
        below, purpose = given.dowel_row, "of wood for its dowels"
    why = (
        "the rail holds the rabbets of a lid and a bottom where there are some, and "
        f"{reader.least(below)} {purpose}"
    )
    least = min(beside + below, reader.rules[GREATEST_BOX_HEIGHT])
    return reader.length(
        *given.height, at_least=least, at_most=reader.rules[GREATEST_BOX_HEIGHT], why=why
    )


def _read_rabbet(reader: DesignReader, given: BoxGiven, rail: float, gap: float) -> float:
    """The rabbet's width; when left out, half the rail or what the lid needs to bear on it."""
    least, wall = gap + reader.rules[LEAST_RABBET_FLOOR], reader.rules[LEAST_RABBET_WALL]
    most = widest_rabbet_mm(rail, reader.rules)
    why = (
        "lid or bottom must always bear on the rabbet floor, and the rail left outside must be a "
        f"third of its thickness and {reader.least(wall)} at least (common practice)"
    )
    thickest = max(least + wall, least / (1 - reader.rules[RABBET_WALL_SHARE]))
    if not is_room(
        reader, f"{given.rails} thickness", rail, thickest, why,
        lambda nearest: f"use rails {nearest} thick, or a lid with smaller gaps",
    ):  # fmt: skip
        least = most = math.nan
    if given.rabbet_width is None:
        return max(rail / 2, least)
    return reader.length(
        "rabbet_width",
        given.rabbet_width,
        at_least=at_least_known(least, reader.rules[LEAST_RABBET_FLOOR]),
        at_most=at_most_known(most),
        why=why,
    )


def widest_rabbet_mm(rail: float, rules: Rules) -> float:
    """How far a rabbet may go into a rail of a thickness [mm], so that a wall is left outside."""
    return rail - max(rules[LEAST_RABBET_WALL], rules[RABBET_WALL_SHARE] * rail)


def _gap_across(
    reader: DesignReader, given: Given | None, depth: float, lid: Timber | None
) -> float:
    """The gap at each edge across the grain: given, or what the lid needs in the usual climate."""
    if given is not None:
        return reader.length(
            "lid_gap_across",
            given,
            at_least=0.2,
            at_most=10.0,
            why="wood moves across the grain with the seasons: 0 would jam or burst the box",
        )
    return usual_gap_mm(reader, "lid_gap_across", depth, lid)


_TRIED_GAP_MM = 2.0
"""Offered where nobody can say what a panel needs [mm]. Common practice, no source."""


def usual_gap_mm(
    reader: DesignReader,
    parameter: str,
    size: float,
    panel: Timber | None,
    across: Across = Across.WIDTH,
) -> float:
    """The gap at each edge that a panel needs one way in the usual climate [mm].

    Not-a-number where one of the two is not known, or how the wood moves, which is noted.

    Args:
        reader: keeps the problems.
        parameter: that the gap could be given by.
        size: of the box that it lies in, that way [mm].
        panel: its timber.
        across: which of its sizes lies that way.
    """
    if panel is None or math.isnan(size):
        return math.nan
    usual = find_climate(USUAL_CLIMATE)
    try:
        gap = gap_in_still_opening_mm(
            panel.species, size, panel.moisture_pct, usual, panel.sawn, across,
            least_play_mm=reader.rules[CARD_PLAY],
        )  # fmt: skip
    except NoCoefficient:
        reader.refuse(
            parameter, "nothing", "a gap, where the wood's movement is not known",
            f"how much {panel.species.name} moves is not known, so nobody can say what it needs",
            f"write {parameter}='{reader.least(_TRIED_GAP_MM)}', or "
            + (
                "take an OwnSheet with its movement"
                if panel.species.kind is Kind.SHEET
                else "give the wood its tangential_shrinkage"
            ),
        )  # fmt: skip
        return math.nan
    return max(reader.rules[LEAST_LID_GAP], math.ceil(gap / 2 * 10 - 1e-9) / 10)


def place_rail(
    name: str,
    instance: str,
    stock: StockOf,
    figures: BoxFigures,
    length: float,
    outward: Vector,
    start: Vector,
    noun: str = "rail",
) -> Placed:
    """A rail standing face side out and face edge down.

    Args:
        name: of the part.
        instance: its own name in the piece.
        stock: what it is cut from.
        figures: of the box.
        length: from long point to long point [mm].
        outward: unit vector out of the box.
        start: the outer lower corner at its named end, the left as seen from outside [mm].
        noun: what it and its like are called.
    """
    timber = stock.timber(instance)
    assert timber is not None, "stocks were read before parts are placed"
    thickness = timber.thickness_mm
    blank = Blank(length_mm=length, width_mm=figures.height, thickness_mm=thickness)
    part = Part(name=name, blank=blank, timber=timber, rough=figures.rough)
    x_axis = {FRONT: RIGHT, BACK: LEFT, LEFT: FRONT, RIGHT: BACK}[outward]
    origin = (
        start[0] - outward[0] * thickness,
        start[1] - outward[1] * thickness,
        start[2],
    )
    placement = Placement(origin=origin, x_axis=x_axis, y_axis=UP)
    return Placed(instance=instance, part=part, placement=placement, kin=Kin(noun))


def place_front_and_sides(figures: BoxFigures, stock: StockOf) -> list[Placed]:
    """The front rail and the two side rails."""
    return [
        place_front(figures, stock),
        *place_sides(figures, stock, ("side rail", "side rail"), figures.depth),
    ]


def place_front(figures: BoxFigures, stock: StockOf) -> Placed:
    """The front rail."""
    start = (0.0, 0.0, 0.0)
    return place_rail("front rail", "front rail", stock, figures, figures.width, FRONT, start)


def place_sides(
    figures: BoxFigures, stock: StockOf, names: tuple[str, str], length: float
) -> list[Placed]:
    """The two side rails, from the front corners as far back as `length` [mm] reaches.

    Args:
        figures: of the box.
        stock: what they are cut from.
        names: of the left and the right one as parts.
        length: from the front corner [mm].
    """
    left, right = (0.0, length, 0.0), (figures.width, 0.0, 0.0)
    return [
        place_rail(names[0], "left side rail", stock, figures, length, LEFT, left),
        place_rail(names[1], "right side rail", stock, figures, length, RIGHT, right),
    ]


def corner(into: str, incoming: str) -> Joint:
    """A mitred corner between two rails."""
    return MitreJoint(into=into, incoming=incoming)


def read_rail_thicknesses(reader: DesignReader, stock: StockOf, rails: tuple[str, ...]) -> float:
    """The thickest rail [mm]; rails that differ too much to be mitred together are noted."""
    thicknesses = {rail: stock.thickness(rail) for rail in rails}
    if any(math.isnan(thickness) for thickness in thicknesses.values()):
        return math.nan
    usual = mode(thicknesses.values())
    for rail, thickness in thicknesses.items():
        reader.limit(
            f"{stock.parameter(rail)} thickness",
            thickness,
            at_least=usual - reader.rules[RAIL_MISMATCH],
            at_most=usual + reader.rules[RAIL_MISMATCH],
            why="rails mitred together need one thickness, or the corner shows a step",
            remedy=lambda nearest: (
                f"make it {reader.safe_figure(nearest, usual)}, or plane all rails to one thickness"
            ),
        )
    return max(thicknesses.values())


def flush_notes(figures: BoxFigures, shown: Shown, rails: tuple[str, ...]) -> list[Note]:
    """What the sheets say of the rail tops; `rails` are their instances."""
    if figures.flush_allowance <= 0:
        return []
    allowance = figure_with_unit(figures.flush_allowance, shown)
    said = f"rail tops stand {allowance} proud of the lid: plane flush as the glue-ups say"
    return [Note(said, rails)]
