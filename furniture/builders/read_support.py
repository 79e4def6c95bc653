"""Reads the post or the uprights of a stand together with the tiers that they carry."""

from __future__ import annotations

import math
from typing import Protocol

from furniture.builders.back_of_post import PostBack, read_post_back
from furniture.builders.back_panel import BACK_PANEL, BackPanel, read_back_panel
from furniture.builders.back_rail import (
    BackRail,
    RailedPostSupport,
    least_beside_mm,
    read_back_rail,
)
from furniture.builders.base_box import BoxFigures
from furniture.builders.carried import Carried, TiersGiven, stated_uprights
from furniture.builders.common import StockOf
from furniture.builders.overall import Allowed
from furniture.builders.post import (
    PostSupport,
    least_post_mm,
    least_stub_mm,
    post_names,
    read_post_width,
)
from furniture.builders.rules import DesignReader, at_least_known, at_most_known
from furniture.builders.support import Support
from furniture.builders.tier_rules import are_depths_left, tier_names
from furniture.builders.tiers import TierFigures, TierRoom, projections
from furniture.builders.upright_figures import (
    UprightFigures,
    one_thickness,
    read_uprights,
    tier_depths,
)
from furniture.builders.uprights import (
    UPRIGHT_NAMES,
    DadoEnds,
    Uprights,
    UprightSupport,
)
from furniture.joints import Fit
from furniture.rules import Rules
from furniture.rules.building import (
    LEAST_BACK_RAIL,
    LEAST_BOX_SIDE,
    LEAST_HOUSED,
    LEAST_INSIDE,
    LEAST_LID,
    LEAST_RABBET_FLOOR,
    LEAST_UPRIGHT,
    LET_IN_PLAY,
)
from furniture.units import Given

_THROUGH = (DadoEnds.THROUGH, DadoEnds.THROUGH.value)


class SupportGiven(TiersGiven, Protocol):
    """The parameters of a stand that say what carries its tiers, and how."""

    @property
    def post_width(self) -> Given | None: ...
    @property
    def uprights(self) -> Uprights | None: ...
    @property
    def back_rail(self) -> BackRail | None: ...
    @property
    def back_panel(self) -> BackPanel | None: ...


def least_sides(
    stock: StockOf,
    support: tuple[str, ...],
    rail: float,
    strips: int,
    has_back_rail: bool,
    rules: Rules,
) -> tuple[float, float]:
    """The base's least outer width and depth [mm], for what stands at its back.

    Args:
        stock: of every instance.
        support: the instances that stand there.
        rail: thickness of the rails [mm].
        strips: that the post is glued up from.
        has_back_rail: whether a full rail stands behind the post.
        rules: the shop's own limits.
    """
    thickness = at_least_known(stock.thickness(support[0]))
    stub = least_stub_mm(rail, rules)
    if support == UPRIGHT_NAMES:
        least = (2 * thickness + rules[LEAST_BACK_RAIL], stub + rules[LEAST_UPRIGHT])
    else:
        inside = at_least_known(rail + rules[LEAST_INSIDE], rules[LEAST_LID])
        least = (least_post_mm(strips, rules) + 2 * stub, thickness + inside)
        if has_back_rail:
            beside = least_beside_mm(rail, rules)
            least = (
                least_post_mm(strips, rules) + 2 * beside,
                thickness + inside + at_least_known(rail),
            )
    return (max(rules[LEAST_BOX_SIDE], least[0]), max(rules[LEAST_BOX_SIDE], least[1]))


def whole_depths(
    reader: DesignReader, given: SupportGiven, stock: StockOf, support: tuple[str, ...], rail: float
) -> tuple[float, float]:
    """The least and greatest depth of a stand whose base and tiers both follow from it [mm].

    So that one figure is refused once, for the greater need.
    """
    if not are_depths_left(given.tiers):
        return 0.0, math.inf
    if isinstance(given.uprights, Uprights):
        upright = reader.peek(given.uprights.depth)
        allowed = tier_depths(
            UprightFigures(
                depth=upright,
                stop=0.0 if given.uprights.dado_ends in _THROUGH else math.nan,
                bit_radius=0.0,
            ),
            reader.shown,
            reader.rules,
        )
        behind = 0.0
    else:
        allowed = projections(reader.rules)
        behind = stock.thickness(support[0])
        if isinstance(given.back_rail, BackRail):
            behind += stock.thickness("back rail") - reader.peek(given.back_rail.let_in)
    return at_least_known(behind + allowed.least), at_most_known(behind + allowed.most)


def read_support(
    reader: DesignReader,
    given: SupportGiven,
    box: BoxFigures,
    stock: StockOf,
    fit: Fit,
    strips: int,
    feet: float,
) -> tuple[Support, tuple[TierFigures, ...]]:
    """Post or uprights, and their tiers; what cannot be built is noted with the reader.

    Args:
        reader: keeps the problems.
        given: the parameters.
        box: of the base.
        stock: of every instance.
        fit: of the dados.
        strips: that the post is glued up from.
        feet: how far they lift the base [mm].
    """
    tiers = tier_names(given.tiers)
    thickness = [stock.thickness(name) for name in tiers]
    clearance = [fit.clearance_mm(each) for each in thickness]
    carried = _Carried(
        reader=reader, given=given, box=box, fit=fit, thickness=thickness, clearance=clearance,
        feet=feet,
    )  # fmt: skip
    if given.uprights is not None:
        return carried.by_uprights(stock, strips)
    return carried.by_post(stock, strips)


class _Carried(Carried):
    """A post or two uprights on a box."""

    given: SupportGiven

    def by_post(self, stock: StockOf, strips: int) -> tuple[Support, tuple[TierFigures, ...]]:
        """A post and the tiers in front of it."""
        reader, box = self.reader, self.box
        names = post_names(strips)
        thickness = one_thickness(reader, stock, names, "post")
        rail = box.rail if self.given.back_rail is None else stock.thickness("back rail")
        railed = read_back_rail(reader, self.given.back_rail, box, rail, False, strips)
        least_mm = least_stub_mm if railed is None else least_beside_mm
        beside = least_mm(box.rail, reader.rules)
        width = read_post_width(reader, self.given.post_width, box, strips, beside)
        let_in = 0.0 if railed is None else railed.let_in
        behind = thickness + (0.0 if railed is None else rail - let_in)
        front, reach = box.depth - behind, self.reach(behind)
        room = TierRoom(
            width=Allowed(
                least=at_least_known(width, least_post_mm(strips, reader.rules)),
                most=at_most_known(box.width),
                why=(
                    "a tier narrower than the post would show its dado, and one wider than the "
                    "base is no step (own rule)"
                ),
            ),
            depth=projections(reader.rules),
            lid_top=box.lid_top,
            base_width=box.width,
            face=front,
            below=self.fit.clearance_mm(box.lid_thickness) if box.has_lid else 0.0,
            height=self.height,
            reach=reach,
        )
        steps = self.steps(room)
        length = self.length(steps)
        dado_depth = self.dado_depth(
            thickness,
            stock.parameter(names[0]),
            box.gap_before + self.reader.rules[LEAST_RABBET_FLOOR] if box.has_lid else 0.0,
        )
        panel = self._read_panel(
            stock, (width, max((each.width for each in steps), default=math.nan)),
            0.0 if railed is None else rail - let_in,
        )  # fmt: skip
        if railed is None:
            post = PostSupport(
                box=box,
                length=length,
                thickness=thickness,
                dado_depth=dado_depth,
                width=width,
                front=front,
                fit=self.fit,
                strips=strips,
                panel=panel,
            )
            return post, steps
        railed_post = RailedPostSupport(
            box=box,
            length=length,
            thickness=thickness,
            dado_depth=dado_depth,
            width=width,
            front=front,
            fit=self.fit,
            strips=strips,
            panel=panel,
            let_in=let_in,
            play=reader.rules[LET_IN_PLAY],
        )
        return railed_post, steps

    def _read_panel(
        self, stock: StockOf, widths: tuple[float, float], behind: float
    ) -> PostBack | None:
        """The panel on the post, over the back rail; `widths` are the post's and a tier's."""
        given = self.given.back_panel
        if not isinstance(given, BackPanel):
            return None
        more = (
            "use thicker rails, or a thinner back" if behind > 0.0 else "write back_rail=BackRail()"
        )
        return read_post_back(
            self.reader, given, stock.timber(BACK_PANEL),
            post_width=widths[0], widest=(widths[1], self.box.width), room=(behind, more),
            foot=self.box.height,
        )  # fmt: skip

    def by_uprights(self, stock: StockOf, strips: int) -> tuple[Support, tuple[TierFigures, ...]]:
        """Two uprights and the tiers between them."""
        reader, box, given = self.reader, self.box, self.given.uprights
        read_back_rail(reader, self.given.back_rail, box, box.rail, True, strips)
        for parameter, value in (("post_width", self.given.post_width),):
            if value is not None:
                reader.refuse(
                    parameter, f"'{value}'", "nothing", "uprights stand instead of a post",
                    "leave it out, or leave uprights out",
                )  # fmt: skip
        if strips > 1:
            reader.refuse(
                "post_strips", f"{strips} strips", "nothing", "uprights stand instead of a post",
                "leave it out, or leave uprights out",
            )  # fmt: skip
        stated = stated_uprights(reader, given)
        thickness = one_thickness(reader, stock, UPRIGHT_NAMES, "uprights")
        thinnest = min(self.thickness, default=math.nan)
        side = least_stub_mm(box.rail, reader.rules)
        figures = read_uprights(
            reader, stated, thinnest,
            (box.depth - side, "an upright holds its tiers level, and side rails at least "
             f"{reader.least(side)} long stand in front of it"),
        )  # fmt: skip
        depths = tier_depths(figures, reader.shown, reader.rules)
        steps = self.between_uprights(depths, box.lid_top, box.depth, 0.0)
        parameter = stock.parameter(UPRIGHT_NAMES[0])
        dado = self.dado_depth(thickness, parameter, self.reader.rules[LEAST_HOUSED])
        panel = self.given.back_panel
        back = (
            read_back_panel(
                reader, panel, stock.timber(BACK_PANEL), box, (thickness, parameter), dado,
                self.length(steps) - box.height,
            )
            if isinstance(panel, BackPanel)
            else None
        )  # fmt: skip
        support = UprightSupport(
            box=box,
            length=self.length(steps),
            thickness=thickness,
            dado_depth=dado,
            back=back,
            depth=figures.depth,
            stop=figures.stop,
            bit_radius=figures.bit_radius,
            fit=self.fit,
        )
        return support, steps
