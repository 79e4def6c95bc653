"""A post that stands on a plain foot board, tenoned into it: no box at all."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from furniture.builders.back_of_post import PostBack, read_post_back
from furniture.builders.back_panel import BACK_PANEL, BackPanel
from furniture.builders.base_box import BoxFigures
from furniture.builders.carried import Carried
from furniture.builders.common import StockOf
from furniture.builders.dowels import EndButts
from furniture.builders.overall import Allowed
from furniture.builders.panels import place_panel
from furniture.builders.post import PostSupport
from furniture.builders.rules import DesignReader, at_least_known, at_most_known, is_room
from furniture.builders.tiers import TierFigures, TierRoom, projections
from furniture.joints import Joint, MortiseAndTenonJoint
from furniture.parts.blank import Blank
from furniture.parts.faces import ALL_ARRISES, Arris, Face
from furniture.parts.part import Part, Placed, Rough
from furniture.parts.placement import Placement
from furniture.parts.vectors import LEFT, UP
from furniture.pieces import Note, Reference, Surface
from furniture.rules.building import (
    GREATEST_BOX_SIDE,
    LEAST_BOX_SIDE,
    LEAST_HOUSED,
    LEAST_POST,
    USUAL_FOOT_TENON,
)
from furniture.rules.joinery import BEHIND_MORTISE, LEAST_TENON_LENGTH
from furniture.timber.stock import Timber
from furniture.units import Given

FOOT, POST = "foot board", "post"
END_GAP_MM = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class FootedPost(PostSupport):
    """A post on a foot board [mm]: `tenon` is how deep it goes in, `board_behind` what lies behind.

    Its box has a height, which is the board's thickness, and neither rails nor a lid.
    """

    tenon: float
    board_behind: float

    def place_back(self, stock: StockOf) -> list[Placed]:
        """The foot board, face side up, and the post in it."""
        box = self.box
        board = place_foot(box, stock)
        sunk = box.height - self.tenon
        timber = stock.timber(POST)
        assert timber is not None, "stocks were read before parts are placed"
        blank = Blank(
            length_mm=self.length - sunk, width_mm=self.width, thickness_mm=self.thickness
        )
        part = Part(
            name=POST, blank=blank, timber=timber, rough=box.rough, trimmed_last=Face.FAR_END
        )
        origin = (self.left + self.width, self.back, sunk)
        placement = Placement(origin=origin, x_axis=UP, y_axis=LEFT)
        return [board, Placed(instance=POST, part=part, placement=placement)]

    def back_joints(self, butts: EndButts) -> list[Joint]:
        """The post's tenon, as long as the post goes in."""
        del butts  # no rail ends there
        return [MortiseAndTenonJoint(into=FOOT, incoming=POST, end_gap_mm=END_GAP_MM)]

    def lid_surface(self) -> Surface:
        """The foot board in front of the post."""
        return Surface(
            instance=FOOT, low=(0.0, 0.0), high=(self.box.width, self.front),
            top_mm=self.box.height,
        )  # fmt: skip

    def references(self, steps: Sequence[TierFigures]) -> list[Reference]:
        """As of any post, with the board's top for the rails'."""
        rails, *others = PostSupport.references(self, steps)
        middle = self.box.width / 2
        board = Reference(what="board behind the post", start=(middle, self.back, rails.end[2]),
                          end=(middle, self.box.depth, rails.end[2]))  # fmt: skip
        top = Reference(what="foot board's top", start=rails.start, end=rails.end, from_floor=True)
        return [top, *([board] if self.board_behind > 0.0 else []), *others]

    def hidden(self, steps: Sequence[TierFigures]) -> Mapping[str, Mapping[Arris, str]]:
        """Edges in the dados, and those of the post's foot."""
        at_foot = "the post's foot stands on its board: a profile there would open the shoulder"
        every = PostSupport.hidden(self, steps)
        found = {step.name: every[step.name] for step in steps}
        edges = {
            each: at_foot for each in ALL_ARRISES if Face.NAMED_END in (each.first, each.second)
        }
        if steps and self.length <= steps[-1].top + 1e-6:
            edges[Arris(Face.FACE_SIDE, Face.FAR_END)] = (
                "the top tier lies there in the end of a post trimmed flush"
            )
        panel = {} if self.panel is None else {BACK_PANEL: self.panel.hidden}
        return {**found, POST: {**self.hidden_by_panel(), **edges}, **panel}

    @property
    def notes(self) -> tuple[Note, ...]:
        """What the sheets say of the post."""
        return self.post_notes()


@dataclass(frozen=True, slots=True, kw_only=True)
class FootGiven:
    """The parameters that size a foot board and its post, as they were written.

    `depth` goes with the name of the parameter that says it.
    """

    width: Given
    depth: tuple[str, Given | None]
    behind: Given
    tenon: Given | None
    post_width: Given | None
    back_panel: BackPanel | None


def place_foot(board: BoxFigures, stock: StockOf) -> Placed:
    """The foot board, face side up."""
    return place_panel(
        FOOT, stock.timber(FOOT), (0.0, 0.0), (board.width, board.depth), 0.0, board.rough,
        grain=stock.grain(FOOT),
    )  # fmt: skip


def read_foot_board(
    reader: DesignReader, given: FootGiven, stock: StockOf, rough: Rough, deep: float
) -> tuple[BoxFigures, float]:
    """The board's figures, and how much of it is behind the post [mm]; problems are noted.

    Args:
        reader: keeps the problems.
        given: the parameters.
        stock: of every instance.
        rough: allowances.
        deep: what stands on it, front to back [mm].
    """
    thickness = stock.thickness(FOOT)
    width, depth = (
        reader.length(
            name, value, at_least=at_least_known(least, reader.rules[LEAST_BOX_SIDE]),
            at_most=reader.rules[GREATEST_BOX_SIDE],
            why="the board carries what stands on it, and a larger one wants other joinery (common "
            "practice)",
        )
        for name, value, least in (
            ("base_width", given.width, reader.rules[LEAST_POST]),
            (*given.depth, deep),
        )
    )  # fmt: skip
    behind = reader.length(
        "behind_post", given.behind, at_least=0.0, at_most=at_most_known(depth - deep),
        why="what carries the tiers stands on its board",
    )  # fmt: skip
    box = BoxFigures(
        width=width, depth=depth, height=thickness, flush_allowance=0.0, rail=0.0, wall=0.0,
        gap_beside=0.0, gap_before=0.0, lid_thickness=0.0, rough=rough,
    )  # fmt: skip
    return box, behind


def read_footed_post(
    carried: Carried, given: FootGiven, stock: StockOf, behind: float
) -> tuple[FootedPost, tuple[TierFigures, ...]]:
    """The post on its board, and its tiers; what cannot be built is noted with the reader.

    Args:
        carried: what all supports are read by.
        given: the parameters.
        stock: of every instance.
        behind: board behind the post [mm].
    """
    reader, box = carried.reader, carried.box
    thickness = stock.thickness(POST)
    least = reader.rules[LEAST_POST]
    width = reader.length(
        "post_width", given.post_width, at_least=least, at_most=at_most_known(box.width),
        why=f"below {reader.least(least)} a post is too slender, and it stands on its board",
    )  # fmt: skip
    front = box.depth - behind - thickness
    steps = carried.steps(
        TierRoom(
            width=Allowed(
                least=at_least_known(width, least),
                most=at_most_known(box.width),
                why="a tier narrower than the post would show its dado, and one wider than the "
                "base is no step (own rule)",
            ),
            depth=projections(reader.rules),
            lid_top=box.height,
            base_width=box.width,
            face=front,
            below=0.0,
            height=carried.height,
            reach=carried.reach(behind + thickness),
        )
    )
    post = FootedPost(
        box=box,
        length=carried.length(steps),
        thickness=thickness,
        dado_depth=carried.dado_depth(thickness, stock.parameter(POST), reader.rules[LEAST_HOUSED]),
        width=width,
        front=front,
        fit=carried.fit,
        tenon=read_tenon(reader, given.tenon, stock.timber(FOOT), stock.parameter(FOOT)),
        board_behind=behind,
        panel=_read_panel(carried, given, stock, width, steps, behind),
    )
    return post, steps


def _read_panel(
    carried: Carried,
    given: FootGiven,
    stock: StockOf,
    width: float,
    steps: tuple[TierFigures, ...],
    behind: float,
) -> PostBack | None:
    """The panel on the post, over the board behind it."""
    if not isinstance(given.back_panel, BackPanel):
        return None
    box = carried.box
    return read_post_back(
        carried.reader, given.back_panel, stock.timber(BACK_PANEL),
        post_width=width, widest=(max((each.width for each in steps), default=math.nan), box.width),
        room=(behind, "write behind_post='{}'"), foot=box.height,
    )  # fmt: skip


def read_tenon(
    reader: DesignReader, given: Given | None, board: Timber | None, parameter: str
) -> float:
    """How deep a tenon goes into the board [mm]; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        given: what was written.
        board: its timber, if it could be read.
        parameter: that gave it.
    """
    rules = reader.rules
    thickness = math.nan if board is None else board.thickness_mm
    least, behind = rules[LEAST_TENON_LENGTH], rules[BEHIND_MORTISE] + END_GAP_MM
    why = (
        f"a tenon is {reader.least(least)} long at least, and {reader.least(rules[BEHIND_MORTISE])}"
        " of board stay below its mortise"
    )
    if not is_room(
        reader, f"{parameter} thickness", thickness, least + behind, why,
        lambda nearest: f"take a foot board {nearest} thick",
    ):  # fmt: skip
        return math.nan
    most = thickness - behind
    if given is None and math.isnan(thickness):
        return math.nan
    if given is None:
        return max(least, min(most, round(rules[USUAL_FOOT_TENON] * thickness * 2) / 2))
    return reader.length("tenon", given, at_least=least, at_most=at_most_known(most), why=why)
