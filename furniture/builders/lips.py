"""Lips: strips that stand on a tier's edges and keep things from sliding off."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum

from furniture.builders.common import Names, StockOf
from furniture.builders.rules import DesignReader
from furniture.joints import ButtJoint, Joint
from furniture.parts.blank import Blank
from furniture.parts.edge_names import TOP_FRONT, TOP_LEFT, TOP_RIGHT
from furniture.parts.faces import ALL_ARRISES, Arris, Face
from furniture.parts.part import Kin, Part, Placed, Rough
from furniture.parts.placement import Placement
from furniture.parts.vectors import BACK, FRONT, RIGHT, UP, Vector
from furniture.pieces import Surface
from furniture.rules import Rules
from furniture.rules.building import GREATEST_LIP, LEAST_LIP, LIP_GAP
from furniture.timber.stock import Stock, Timber, read_stock
from furniture.units import Given, parameters, said
from furniture.units.words import listed


class LipEdge(Enum):
    """The edge of a tier that a lip stands on."""

    FRONT = "front"
    LEFT = "left"
    RIGHT = "right"

    @property
    def arris(self) -> Arris:
        """The arris that it covers."""
        return {"front": TOP_FRONT, "left": TOP_LEFT, "right": TOP_RIGHT}[self.value]


@parameters
class Lip:
    """A strip glued upright on some edges of a tier; a high one is a gallery rail.

    Its grain runs along its edge: with the tier's at the front, unless that has its grain across.
    Each is a part with a name, such as `tier 1 front lip`, for a stock or a profile of its own.

    Args:
        on: a tier such as `tier 2`, or `tiers`.
        stock: of the strips (default: their tier's own).
        height: above the tier's top.
        edges: which edges it stands on.
    """

    on: str = "tiers"
    stock: Stock | None = None
    height: Given = "8 mm"
    edges: Sequence[LipEdge] = (LipEdge.FRONT,)


@dataclass(frozen=True, slots=True, kw_only=True)
class LipFigures:
    """The lips of one tier, outer faces flush with its edges [mm], and what each is cut from."""

    on: str
    height: float
    timbers: Mapping[LipEdge, Timber]

    @property
    def edges(self) -> tuple[LipEdge, ...]:
        """The edges that they stand on."""
        return tuple(self.timbers)

    def thickness(self, edge: LipEdge) -> float:
        """Of the lip on an edge; 0 where there is none."""
        return self.timbers[edge].thickness_mm if edge in self.timbers else 0.0


def lip_name(tier: str, edge: LipEdge) -> str:
    """The instance that stands on that edge of a tier."""
    return f"{tier} {edge.value} lip"


def lip_names(lips: object, names: Names) -> tuple[str, ...]:
    """The instances that these lips will be, as far as they can be told before they are read."""
    return tuple(
        dict.fromkeys(
            lip_name(tier, edge)
            for lip in _listed(lips)
            if isinstance(lip, Lip)
            for tier in names.meant_by(lip.on)
            for edge in LipEdge
            if edge in _listed(lip.edges)
        )
    )


def _listed(given: object) -> Sequence[object]:
    """What was written as a list, a lone one as one."""
    return given if isinstance(given, (list, tuple)) else (given,)


def read_lips(
    reader: DesignReader,
    lips: object,
    names: Names,
    tiers: Sequence[str],
    stock: StockOf,
    has_uprights: bool,
) -> tuple[LipFigures, ...]:
    """The lips, tier by tier; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        lips: several `Lip`.
        names: of the piece.
        tiers: the instances that can have a lip.
        stock: of each tier, which is that of its lips where they name none.
        has_uprights: whether the tiers' ends lie in uprights.
    """
    found: dict[str, LipFigures] = {}
    for where, lip in reader.each_of("lips", lips, Lip, "lip", "it says where it stands", "on"):
        meant = [name for name in names.meant_by(lip.on) if name in tiers]
        if not meant:
            reader.refuse(
                f"{where} on", said(lip.on), ", ".join(("tiers", *tiers)), "a lip is on a tier",
                "write 'tiers'",
            )  # fmt: skip
        own = None if lip.stock is None else read_stock(reader, f"{where} stock", lip.stock)
        height = reader.length(
            f"{where} height",
            lip.height,
            at_least=reader.rules[LEAST_LIP],
            at_most=reader.rules[GREATEST_LIP],
            why="a lip stops things, and a higher one is a wall that wants other joinery",
        )
        edges = _read_edges(reader, f"{where} edges", lip.edges, has_uprights)
        for name in meant:
            if name in found:
                reader.refuse(
                    f"{where} on", said(lip.on), "each tier once", f"{name} has a lip already",
                    "leave it out, or give one Lip all its edges",
                )  # fmt: skip
            usual = stock.timber(name) if lip.stock is None else own
            timbers = {edge: stock.own_or(lip_name(name, edge), usual) for edge in edges}
            found[name] = LipFigures(
                on=name, height=height,
                timbers={edge: each for edge, each in timbers.items() if each is not None},
            )  # fmt: skip
    return tuple(found.values())


def _read_edges(
    reader: DesignReader, parameter: str, given: object, has_uprights: bool
) -> tuple[LipEdge, ...]:
    before = reader.noted
    entries = reader.several(parameter, given, LipEdge, "LipEdge.FRONT")
    if reader.noted > before:
        return ()
    edges = tuple(edge for edge in LipEdge if edge in entries)
    if len(edges) != len(entries) or not edges:
        reader.refuse(
            parameter, said(given),
            f"{listed([f'LipEdge.{each.name}' for each in LipEdge])}, each once",
            "a lip has a place",
            "write edges=[LipEdge.FRONT]",
        )  # fmt: skip
    if has_uprights and edges not in ((), (LipEdge.FRONT,)):
        reader.refuse(
            parameter, ", ".join(edge.value for edge in edges), "LipEdge.FRONT",
            "the uprights close the ends of a tier", "write edges=[LipEdge.FRONT]",
        )  # fmt: skip
    return edges


_AT_FRONT = {LipEdge.LEFT: Face.FAR_END, LipEdge.RIGHT: Face.NAMED_END}
"""The end of an end lip that meets the front one."""


def lip_hidden(lips: Sequence[LipFigures]) -> Mapping[str, Mapping[Arris, str]]:
    """The arrises of tiers that lips cover, and those of lips that lie against others."""
    found: dict[str, dict[Arris, str]] = {}
    for lip in lips:
        why = "a lip stands on this edge: shape the lip instead, `on` its own name"
        found[lip.on] = {edge.arris: why for edge in lip.edges}
        ends = [edge for edge in _AT_FRONT if edge in lip.edges]
        for edge in lip.edges:
            glued = {Face.FACE_EDGE: "it is glued on its tier there"}
            if edge in _AT_FRONT and LipEdge.FRONT in lip.edges:
                glued[_AT_FRONT[edge]] = "the front lip is glued against it there"
            elif edge is LipEdge.FRONT and ends:
                glued[Face.BACK_SIDE] = "the end lips are glued against it there"
            found[lip_name(lip.on, edge)] = {
                arris: told
                for face, told in glued.items()
                for arris in ALL_ARRISES
                if face in (arris.first, arris.second)
            }
    return found


def place_lips(
    lip: LipFigures, surface: Surface, rough: Rough, has_uprights: bool, rules: Rules
) -> list[Placed]:
    """The strips of one tier.

    Args:
        lip: its figures.
        surface: the tier's top before the lips stand on it.
        rough: allowances.
        has_uprights: whether the strip runs between uprights.
    """
    (left, front), (right, back) = surface.low, surface.high
    top, gap = surface.top_mm, rules[LIP_GAP] if has_uprights else 0.0
    behind = front + lip.thickness(LipEdge.FRONT)
    lines: dict[LipEdge, tuple[float, Vector, Vector]] = {
        LipEdge.FRONT: (right - left - 2 * gap, (left + gap, behind, top), RIGHT),
        LipEdge.LEFT: (back - behind, (left + lip.thickness(LipEdge.LEFT), back, top), FRONT),
        LipEdge.RIGHT: (back - behind, (right - lip.thickness(LipEdge.RIGHT), behind, top), BACK),
    }
    placed = []
    for edge, timber in lip.timbers.items():
        length, origin, along = lines[edge]
        name = lip_name(lip.on, edge)
        blank = Blank(length_mm=length, width_mm=lip.height, thickness_mm=timber.thickness_mm)
        part = Part(name=name, blank=blank, timber=timber, rough=rough)
        placement = Placement(origin=origin, x_axis=along, y_axis=UP)
        placed.append(Placed(instance=name, part=part, placement=placement, kin=Kin("lip")))
    return placed


def lip_joints(lip: LipFigures) -> list[Joint]:
    """Each strip glued on its tier, and the end strips against the front one."""
    found: list[Joint] = [
        ButtJoint(into=lip.on, incoming=lip_name(lip.on, edge)) for edge in lip.edges
    ]
    if LipEdge.FRONT in lip.edges:
        found += [
            ButtJoint(into=lip_name(lip.on, LipEdge.FRONT), incoming=lip_name(lip.on, edge))
            for edge in lip.edges
            if edge is not LipEdge.FRONT
        ]
    return found


def within_lips(surface: Surface, lips: Sequence[LipFigures]) -> Surface:
    """What a surface still carries between its lips."""
    for lip in lips:
        if lip.on == surface.instance:
            left, front, right = (
                lip.thickness(edge) for edge in (LipEdge.LEFT, LipEdge.FRONT, LipEdge.RIGHT)
            )
            surface = replace(
                surface,
                low=(surface.low[0] + left, surface.low[1] + front),
                high=(surface.high[0] - right, surface.high[1]),
            )
    return surface
