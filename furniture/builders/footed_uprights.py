"""Two uprights that stand on a plain foot board, tenoned into it: tiers between them, no box."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from furniture.builders.back_panel import BACK_PANEL, BackPanel, place_back_panel, read_back_panel
from furniture.builders.base_box import BoxFigures
from furniture.builders.carried import Carried, stated_uprights
from furniture.builders.common import StockOf
from furniture.builders.dowels import EndButts
from furniture.builders.foot_board import END_GAP_MM, FOOT, place_foot, read_tenon
from furniture.builders.rules import DesignReader, at_least_known, at_most_known
from furniture.builders.tiers import TierFigures
from furniture.builders.upright_figures import (
    one_thickness,
    read_uprights,
    tier_depths,
)
from furniture.builders.uprights import (
    UPRIGHT_NAMES,
    UprightSupport,
)
from furniture.joints import Joint, MortiseAndTenonJoint
from furniture.joints.fit import SLIP
from furniture.parts.faces import ALL_ARRISES, WIDE_FACES, Arris, Face
from furniture.parts.part import Placed
from furniture.pieces import Reference, Surface
from furniture.rules.building import LEAST_BACK_RAIL, LEAST_BESIDE_UPRIGHT, LEAST_HOUSED
from furniture.rules.checking import LEAST_SHORT_GRAIN, SHORT_GRAIN_DEPTHS
from furniture.rules.joinery import USUAL_TENON
from furniture.units import Amounts, Given

_USUAL_BESIDE_MM = 20.0
"""Board beside an upright where its end stays whole with less [mm]. Common practice, no source."""
_BACK_EDGES = dict(zip(UPRIGHT_NAMES, (Face.FACE_EDGE, Face.BACK_EDGE), strict=True))
"""The edge of each that looks back."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FootedUprights(UprightSupport):
    """Two uprights on a board [mm]: `tenon` is how deep they go in.

    `board` is the whole of it; `box` ends at the uprights' back edges.
    """

    board: BoxFigures
    tenon: float

    @property
    def foot_at(self) -> float:
        """Where their tenons end in the board."""
        return self.board.height - self.tenon

    def place_back(self, stock: StockOf) -> list[Placed]:
        """The foot board, and the uprights in it."""
        return [place_foot(self.board, stock), *self._place_uprights(stock)]

    def back_panel(self, stock: StockOf) -> list[Placed]:
        """The panel behind the tiers, as far in as the uprights are."""
        if self.back is None:
            return []
        between = replace(self.box, width=self.box.width - 2 * self.beside)
        panel = place_back_panel(self.back, between, stock, self.thickness, self.length)
        x, y, z = panel.placement.origin
        return [replace(panel, placement=replace(panel.placement, origin=(x + self.beside, y, z)))]

    def back_joints(self, butts: EndButts) -> list[Joint]:
        """Their tenons, which bear in front: both mortises are cut at the same stops."""
        del butts  # no rail ends there
        return [
            MortiseAndTenonJoint(into=FOOT, incoming=each, end_gap_mm=END_GAP_MM, edge_play_at=back)
            for each, back in _BACK_EDGES.items()
        ]

    def lid_surface(self) -> Surface:
        """The foot board between the uprights."""
        left, right = self.inside
        return Surface(
            instance=FOOT, low=(left, 0.0), high=(right, self.tiers_back), top_mm=self.board.height
        )

    def references(self, steps: Sequence[TierFigures]) -> list[Reference]:
        """As of any uprights, with the board's top for the rails'."""
        rails, *others = UprightSupport.references(self, steps)
        top = Reference(what="foot board's top", start=rails.start, end=rails.end, from_floor=True)
        behind = self.board.depth - self.box.depth
        middle, height = self.box.width / 2, self.board.height
        beside = Reference(
            what="board beside an upright", start=(0.0, 0.0, height),
            end=(self.beside, 0.0, height),
        )  # fmt: skip
        others = [beside, *others]
        if behind <= 0.0:
            return [top, *others]
        board = Reference(
            what="board behind the uprights", start=(middle, self.box.depth, height),
            end=(middle, self.board.depth, height),
        )  # fmt: skip
        return [top, board, *others]

    def hidden(self, steps: Sequence[TierFigures]) -> Mapping[str, Mapping[Arris, str]]:
        """Edges in the dados, and those of the uprights' feet."""
        at_foot = "the upright's foot stands on its board: a profile there would open the shoulder"
        feet = {
            each: at_foot for each in ALL_ARRISES if Face.NAMED_END in (each.first, each.second)
        }
        every = dict(UprightSupport.hidden(self, steps))
        for name, back in _BACK_EDGES.items():
            free = {Arris(wide, edge) for wide in WIDE_FACES
                    for edge in (Face.FACE_EDGE, Face.BACK_EDGE)}  # fmt: skip
            if self.back is not None:
                free.discard(Arris(Face.FACE_SIDE, back))
            kept = {arris: why for arris, why in every[name].items() if arris not in free}
            every[name] = {**kept, **feet}
        for panel in ("lid", "bottom"):
            del every[panel]
        return every


def _usual_beside_mm(reader: DesignReader, tenon: float, thickness: float) -> float:
    """As much as keeps the board's end from splitting off, and does not look mean [mm].

    **Source:** own rule: as much short grain beside a mortise as its check asks for.
    """
    rules = reader.rules
    asked = max(rules[LEAST_SHORT_GRAIN], rules[SHORT_GRAIN_DEPTHS] * (tenon + END_GAP_MM))
    mouth = thickness * rules[USUAL_TENON] + SLIP.clearance_mm(thickness)
    return max(_USUAL_BESIDE_MM, Amounts(shown=reader.shown).up(asked - (thickness - mouth) / 2))


def read_footed_uprights(
    carried: Carried,
    given: object,
    beside: Given | None,
    tenon: Given | None,
    panel: object,
    stock: StockOf,
    behind: float,
) -> tuple[FootedUprights, tuple[TierFigures, ...]]:
    """The uprights on their board, and their tiers; what cannot be built is noted.

    Args:
        carried: what all supports are read by.
        given: the uprights' parameter set.
        beside: board beside either of them, as written; nothing is the usual.
        tenon: how deep they go in, as written.
        panel: the back's parameter set, or nothing.
        stock: of every instance.
        behind: board behind them [mm].
    """
    reader, board = carried.reader, carried.box
    given = stated_uprights(reader, given)
    thickness = one_thickness(reader, stock, UPRIGHT_NAMES, "uprights")
    least, between = reader.rules[LEAST_BESIDE_UPRIGHT], reader.rules[LEAST_BACK_RAIL]
    deep = read_tenon(reader, tenon, stock.timber(FOOT), stock.parameter(FOOT))
    most = max(least, at_most_known((board.width - between) / 2 - thickness))
    off = min(most, _usual_beside_mm(reader, deep, thickness)) if beside is None else reader.length(
        "beside_uprights", beside, at_least=least, at_most=most,
        why=f"{reader.least(least)} of board beside an upright keep its mortise from breaking out "
        f"at the end, and {reader.least(between)} stay between the two",
    )  # fmt: skip
    box = replace(board, depth=board.depth - behind)
    figures = read_uprights(
        reader, given, min(carried.thickness, default=math.nan),
        (box.depth, "an upright holds its tiers level, and stands on its board"),
    )  # fmt: skip
    depths = tier_depths(figures, reader.shown, reader.rules)
    steps = carried.between_uprights(depths, board.height, box.depth, behind)
    parameter = stock.parameter(UPRIGHT_NAMES[0])
    dado = carried.dado_depth(thickness, parameter, reader.rules[LEAST_HOUSED])
    length, back = carried.length(steps), None
    if isinstance(panel, BackPanel):
        back = read_back_panel(
            reader, panel, stock.timber(BACK_PANEL), replace(box, width=box.width - 2 * off),
            (thickness, parameter), dado, length - board.height,
        )  # fmt: skip
        back = replace(back, rail=at_least_known(deep))
    uprights = FootedUprights(
        box=box,
        board=board,
        beside=off,
        tenon=deep,
        length=length,
        thickness=thickness,
        dado_depth=dado,
        back=back,
        depth=figures.depth,
        stop=figures.stop,
        bit_radius=figures.bit_radius,
        fit=carried.fit,
    )
    return uprights, steps
