"""Notches at a tier's edge into which a cord is laid, so that its plug need not pass."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from furniture.builders.at_edge import (
    AtEdge,
    TierEdge,
    place_at_edge,
    read_edge,
    read_from_corner,
    read_tiers,
)
from furniture.builders.common import Names
from furniture.builders.opening_room import near_of
from furniture.builders.panel_grain import PanelGrain
from furniture.builders.passing import Cable, size_for
from furniture.builders.rules import DesignReader
from furniture.joints import Joint
from furniture.parts.cuts import Notch
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.pieces import Note
from furniture.rules.building import LEAST_OPENING_WOOD, MOST_CORD_NOTCH
from furniture.units import REQUIRED, Given, parameters, said


@parameters
class CordNotch:
    """A notch with a round bottom at the edge of a tier: a cord is laid in, plug and all outside.

    It is as wide as the cables lie in it side by side, and as deep.

    Args:
        on: a tier such as `tier 2`, or `tiers`.
        passes: the cables, without their plugs.
        edge: which edge of the tier it opens to.
        from_corner: of its middle along that edge, from the left, or from the front where it opens
            to an end (default: in the middle of the longest stretch of edge that is free).
    """

    on: str = "tiers"
    passes: Cable = REQUIRED
    edge: TierEdge = TierEdge.BACK
    from_corner: Given | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CordFigures:
    """A cord notch [mm]: its width, which is its depth too, and its place, or not-a-number."""

    parameter: str
    on: tuple[str, ...]
    edge: Face
    width: float
    given: Given | None


def read_cord_notches(
    reader: DesignReader,
    notches: object,
    names: Names,
    tiers: Sequence[str],
    free: Sequence[TierEdge],
) -> tuple[CordFigures, ...]:
    """The cord notches; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        notches: several `CordNotch`.
        names: of the piece.
        tiers: the instances that can have one.
        free: the edges of tiers that are open.
    """
    found = []
    for where, each in reader.each_of(
        "cord_notches", notches, CordNotch, "cord notch", "it is one"
    ):
        why = "a cord is laid in at a tier's edge"
        meant = read_tiers(reader, where, each.on, names, tiers, why)
        edge = read_edge(reader, where, each.edge, free)
        width = math.nan
        if isinstance(each.passes, Cable):
            width = size_for(reader, f"{where} passes", each.passes)
        else:
            reader.refuse(
                f"{where} passes", said(each.passes), "Cable(...)",
                "what is laid in from the edge is a cable: its plug stays outside",
                f"write {reader.example('Cable')}",
            )  # fmt: skip
        read_from_corner(reader, where, each.from_corner)
        found.append(
            CordFigures(
                parameter=where, on=meant, edge=edge.face, width=width, given=each.from_corner
            )
        )
    return tuple(found)


def with_cord_notches(
    reader: DesignReader,
    notches: Sequence[CordFigures],
    placed: Sequence[Placed],
    joints: Sequence[Joint],
    grain: Callable[[str], PanelGrain],
) -> list[Placed]:
    """The instances with their cord notches cut; what has no room is noted.

    Args:
        reader: keeps the problems.
        notches: as `read_cord_notches` gives them, all figures known.
        placed: every part of the piece in its place.
        joints: between them; their dowels are kept clear of.
        grain: of each tier.
    """
    standing = {each.instance: each for each in placed}
    for notch in notches:
        for name in notch.on:
            part = standing[name]
            edge = grain(name).face(notch.edge)
            near = near_of(part, placed, joints, standing)[1:]
            deepest = reader.rules[MOST_CORD_NOTCH] * part.part.blank.across(edge)
            at = place_at_edge(
                reader, AtEdge(parameter=notch.parameter, edge=notch.edge, given=notch.given,
                               along=notch.width, deep=notch.width, deepest=deepest,
                               why=_why(reader), instead="let less be laid in"),
                part, edge, near,
            )  # fmt: skip
            if math.isnan(at):
                break
            cut = Notch(
                edge=edge, start_mm=at - notch.width / 2, length_mm=notch.width,
                depth_mm=notch.width, inner_radius_mm=notch.width / 2,
            )  # fmt: skip
            standing[name] = replace(part, part=replace(part.part, cuts=(*part.part.cuts, cut)))
    return [standing[each.instance] for each in placed]


def _why(reader: DesignReader) -> str:
    return (
        f"{reader.least(reader.rules[LEAST_OPENING_WOOD])} of wood stay between a notch and a "
        "corner, a joint or an opening, and most of the tier behind it"
    )


def cord_notes(notches: Sequence[CordFigures]) -> tuple[Note, ...]:
    """What the sheets say of them."""
    said = "lay the cord into the notch at its edge: bore its round bottom, then saw down to it"
    return tuple(Note(f"{name}: {said}", (name,)) for each in notches for name in each.on)
