"""A back on a post: a panel against its back face, standing over what is behind it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from furniture.builders.back_panel import BACK_PANEL, BackFixing, BackPanel
from furniture.builders.bottom import panel_pin
from furniture.builders.common import StockOf
from furniture.builders.panel_grain import PanelGrain
from furniture.builders.rules import DesignReader, at_least_known
from furniture.joints import ButtJoint, Driven, Joint, Role
from furniture.parts.blank import Blank
from furniture.parts.faces import ENDS, Arris, Face
from furniture.parts.part import Part, Placed, Rough
from furniture.parts.placement import Placement
from furniture.parts.vectors import LEFT, RIGHT, UP
from furniture.pieces import Note
from furniture.rules.building import BACK_ABOVE_RAIL, BACK_PINS, GREATEST_BOX_SIDE, LEAST_BACK
from furniture.timber.stock import Timber
from furniture.timber.wood import Kind
from furniture.units import said


@dataclass(frozen=True, slots=True, kw_only=True)
class PostBack:
    """A panel on the back of a post [mm]: it begins at the height `foot`.

    It is pinned in its middle and `pins_off` of its height above and below.
    """

    thickness: float
    width: float
    foot: float
    fixing: BackFixing
    pin: tuple[Driven, ...]
    pins_off: float
    grain: PanelGrain

    def place(
        self, stock: StockOf, middle: float, behind: float, top: float, rough: Rough
    ) -> Placed:
        """The panel, its face side to the front.

        Args:
            stock: of every instance.
            middle: of the post, from the left [mm].
            behind: the back face of the post, from the front [mm].
            top: of the post [mm].
            rough: allowances.
        """
        timber = stock.timber(BACK_PANEL)
        assert timber is not None, "stocks were read before parts are placed"
        height, back = top - self.foot, behind + self.thickness
        if self.grain is PanelGrain.ACROSS:
            blank = Blank(length_mm=height, width_mm=self.width, thickness_mm=self.thickness)
            origin, ways = (middle + self.width / 2, back, self.foot), (UP, LEFT)
        else:
            blank = Blank(length_mm=self.width, width_mm=height, thickness_mm=self.thickness)
            origin, ways = (middle - self.width / 2, back, self.foot), (RIGHT, UP)
        part = Part(name=BACK_PANEL, blank=blank, timber=timber, rough=rough)
        placement = Placement(origin=origin, x_axis=ways[0], y_axis=ways[1])
        return Placed(instance=BACK_PANEL, part=part, placement=placement)

    def joints(self, boards: Sequence[str], top: float) -> list[Joint]:
        """Its face on every board of the post, glued, or pinned to the one in the middle.

        Args:
            boards: of the post, from the left.
            top: of the post [mm].
        """
        is_glued, off = self.fixing is BackFixing.GLUED, self.pins_off * (top - self.foot)
        pins = tuple(replace(pin, off_middle_mm=at) for at in (-off, 0.0, off) for pin in self.pin)
        return [
            ButtJoint(
                into=each, incoming=BACK_PANEL, role=Role.SEAT, is_glued=is_glued,
                driven=pins if each == boards[len(boards) // 2] else (),
            )
            for each in boards
        ]  # fmt: skip

    @property
    def hidden(self) -> dict[Arris, str]:
        """Where no profile may run on it: its ends lie against the post."""
        lies = "this edge lies against the post"
        edges = ENDS if self.grain is PanelGrain.ACROSS else (Face.FACE_EDGE, Face.BACK_EDGE)
        return {Arris(Face.FACE_SIDE, each): lies for each in edges}

    @property
    def notes(self) -> tuple[Note, ...]:
        """What the sheets say of it."""
        how = "glue the back on the post, its foot clear of what is below"
        if self.fixing is BackFixing.PINNED:
            how = "pin the back up the middle of the post, without glue, so that it can move"
        return (Note(how, (BACK_PANEL,)),)


def read_post_back(
    reader: DesignReader,
    given: BackPanel,
    timber: Timber | None,
    *,
    post_width: float,
    widest: tuple[float, float],
    room: tuple[float, str],
    foot: float,
) -> PostBack:
    """The panel's figures; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        given: the parameter set.
        timber: of the panel, if it could be read.
        post_width: that it lies on [mm].
        widest: of the tiers before it, and of the base below it [mm].
        room: behind the post above the base [mm], and what would give more.
        foot: the top of what it stands over [mm].
    """
    reader.names("back_panel.", given)
    rules, behind = reader.rules, room[0]
    thickness = math.nan if timber is None else timber.thickness_mm
    for name, value in (("let_in", given.let_in), ("gap", given.gap)):
        if value is not None:
            reader.refuse(
                f"back_panel.{name}", said(value), "nothing",
                "a post has no rabbets: its back lies on its face", "leave it out",
            )  # fmt: skip
    if behind < rules[LEAST_BACK] or thickness > behind + 1e-6:
        allowed = f"a panel of {reader.safe_figure(behind, 0.0)} at most"
        reader.refuse(
            "back_panel", "a back on a post", allowed if behind > 0.0 else "nothing",
            "it stands behind the post, over what is there and not out behind it",
            room[1].format(reader.least(at_least_known(thickness, rules[LEAST_BACK]))),
        )  # fmt: skip
    else:
        reader.limit(
            "back_panel.stock thickness", thickness, at_least=rules[LEAST_BACK],
            why="a thinner back bends as things lean on it",
        )  # fmt: skip
    width = widest[0]
    if given.width is not None:
        width = reader.length(
            "back_panel.width", given.width, at_least=at_least_known(post_width),
            at_most=min(widest[1], rules[GREATEST_BOX_SIDE]),
            why="it covers the post, and is no wider than the base",
        )  # fmt: skip
    is_sheet = timber is not None and timber.species.kind is Kind.SHEET
    grain = reader.choice("back_panel.grain", given.grain, PanelGrain, PanelGrain.ACROSS)
    if grain is PanelGrain.ALONG and not is_sheet:
        reader.refuse(
            "back_panel.grain", said(grain), "PanelGrain.ACROSS",
            "solid wood moves across its grain, and the post along it does not: glue or pins "
            "down its height would split it",
            "write PanelGrain.ACROSS, or take a sheet",
        )  # fmt: skip
    usual = BackFixing.GLUED
    fixing = reader.choice(
        "back_panel.fixing", usual if given.fixing is None else given.fixing, BackFixing, usual
    )
    pin = panel_pin(
        reader,
        thickness,
        "back_panel.fixing",
        "up the middle of the post, so that the back can move",
    )
    return PostBack(
        thickness=thickness,
        width=width,
        foot=foot + rules[BACK_ABOVE_RAIL],
        fixing=fixing,
        pin=pin if fixing is BackFixing.PINNED else (),
        pins_off=rules[BACK_PINS],
        grain=grain,
    )
