"""Lips: strips that stand on a tier's edges and keep things from sliding off."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum

from furniture.builders.common import Names
from furniture.builders.rules import DesignReader
from furniture.joints import ButtJoint, Joint
from furniture.parts.blank import Blank
from furniture.parts.edge_names import TOP_FRONT, TOP_LEFT, TOP_RIGHT
from furniture.parts.faces import Arris
from furniture.parts.part import Kin, Part, Placed, Rough
from furniture.parts.placement import Placement
from furniture.parts.vectors import BACK, FRONT, RIGHT, UP, Vector
from furniture.pieces import Surface
from furniture.rules import Rules
from furniture.rules.building import GREATEST_LIP, LEAST_LIP, LIP_GAP
from furniture.timber.stock import Stock, Timber, read_stock
from furniture.units import Given, counted, parameters, said
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

    At the front its grain runs with the tier's; at the ends it crosses it.

    Args:
        on: a tier such as `tier 2`, or `tiers`.
        stock: of the strip (default: the tiers' own).
        height: above the tier's top.
        edges: which edges it stands on.
    """

    on: str = "tiers"
    stock: Stock | None = None
    height: Given = "8 mm"
    edges: Sequence[LipEdge] = (LipEdge.FRONT,)


@dataclass(frozen=True, slots=True, kw_only=True)
class LipFigures:
    """The lips of one tier, outer faces flush with its edges [mm]."""

    on: str
    timber: Timber
    height: float
    edges: tuple[LipEdge, ...]


def read_lips(
    reader: DesignReader,
    lips: object,
    names: Names,
    tiers: Sequence[str],
    thin: Timber | None,
    has_uprights: bool,
) -> tuple[LipFigures, ...]:
    """The lips, tier by tier; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        lips: several `Lip`.
        names: of the piece.
        tiers: the instances that can have a lip.
        thin: the stock of a lip that names none.
        has_uprights: whether the tiers' ends lie in uprights.
    """
    found: dict[str, LipFigures] = {}
    for index, lip in enumerate(reader.several("lips", lips, Lip, reader.example("Lip"))):
        where = counted("lip", index, getattr(lip, "on", None))
        if not isinstance(lip, Lip):
            reader.refuse(
                where,
                said(lip),
                "a Lip",
                "it says where it stands",
                f"write {reader.example('Lip')}",
            )
            continue
        reader.names(f"{where} ", lip)
        meant = [name for name in names.meant_by(lip.on) if name in tiers]
        if not meant:
            reader.refuse(
                f"{where} on", said(lip.on), ", ".join(("tiers", *tiers)), "a lip is on a tier",
                "write 'tiers'",
            )  # fmt: skip
        timber = thin if lip.stock is None else read_stock(reader, f"{where} stock", lip.stock)
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
            if timber is not None:
                found[name] = LipFigures(on=name, timber=timber, height=height, edges=edges)
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


def lip_hidden(lips: Sequence[LipFigures]) -> Mapping[str, Mapping[Arris, str]]:
    """The arrises of tiers that lips cover."""
    why = "a lip stands on this edge: shape the lip instead"
    return {lip.on: {edge.arris: why for edge in lip.edges} for lip in lips}


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
    thickness, top = lip.timber.thickness_mm, surface.top_mm
    gap = rules[LIP_GAP] if has_uprights else 0.0
    behind = front + (thickness if LipEdge.FRONT in lip.edges else 0.0)
    lines: dict[LipEdge, tuple[float, Vector, Vector]] = {
        LipEdge.FRONT: (right - left - 2 * gap, (left + gap, front + thickness, top), RIGHT),
        LipEdge.LEFT: (back - behind, (left + thickness, back, top), FRONT),
        LipEdge.RIGHT: (back - behind, (right - thickness, behind, top), BACK),
    }
    placed = []
    for edge in lip.edges:
        length, origin, along = lines[edge]
        name = f"{lip.on} {edge.value} lip"
        blank = Blank(length_mm=length, width_mm=lip.height, thickness_mm=thickness)
        part = Part(name=name, blank=blank, timber=lip.timber, rough=rough)
        placement = Placement(origin=origin, x_axis=along, y_axis=UP)
        placed.append(Placed(instance=name, part=part, placement=placement, kin=Kin("lip")))
    return placed


def lip_joints(lip: LipFigures) -> list[Joint]:
    """Each strip glued on its tier, and the end strips against the front one."""
    found: list[Joint] = [
        ButtJoint(into=lip.on, incoming=f"{lip.on} {edge.value} lip") for edge in lip.edges
    ]
    if LipEdge.FRONT in lip.edges:
        found += [
            ButtJoint(into=f"{lip.on} front lip", incoming=f"{lip.on} {edge.value} lip")
            for edge in lip.edges
            if edge is not LipEdge.FRONT
        ]
    return found


def within_lips(surface: Surface, lips: Sequence[LipFigures]) -> Surface:
    """What a surface still carries between its lips."""
    for lip in lips:
        if lip.on == surface.instance:
            thickness = lip.timber.thickness_mm
            left, front, right = (
                thickness if edge in lip.edges else 0.0
                for edge in (LipEdge.LEFT, LipEdge.FRONT, LipEdge.RIGHT)
            )
            surface = replace(
                surface,
                low=(surface.low[0] + left, surface.low[1] + front),
                high=(surface.high[0] - right, surface.high[1]),
            )
    return surface
