"""Clips for a cord under a tier, close to one of its edges: bought, screwed or stuck on."""

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
from furniture.builders.fixings import Screw
from furniture.builders.measured_hinge import pilot_mm
from furniture.builders.opening_room import near_of
from furniture.builders.panel_grain import PanelGrain
from furniture.builders.rules import DesignReader, at_least_known, at_most_known
from furniture.builders.sold_screws import read_screw_diameter
from furniture.joints import Joint
from furniture.joints.relation import clean
from furniture.parts.cuts import Bore
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.placement import box_of
from furniture.parts.vectors import DOWN
from furniture.pieces import Bought, Fitted, Note, SoldBy, Surface
from furniture.rules.building import (
    GREATEST_CLIP,
    GREATEST_SMALL_SCREW,
    LEAST_CLIP,
    LEAST_OPENING_WOOD,
    LEAST_SCREW,
    SCREW_SKIN,
)
from furniture.rules.hinges import HINGE_BITE
from furniture.units import Given, Shown, figure_with_unit, parameters, said
from furniture.units.words import listed

_FLAT_MM = 1e-6


@parameters
class CordClip:
    """A bought clip that holds a cord under a tier, close to one of its edges.

    Args:
        on: a tier such as `tier 2`, or `tiers`.
        edge: which edge of the tier it is close to.
        length: of its foot, along that edge.
        width: of its foot, from that edge inwards.
        from_corner: of its middle along that edge, from the left, or from the front at an end
            (default: in the middle of the longest stretch that is free).
        from_edge: of its middle from that edge (default: its foot is flush with the edge).
        screw: through the middle of its foot (default: it is stuck on).
        name: as one asks for it.
    """

    on: str = "tiers"
    edge: TierEdge = TierEdge.BACK
    length: Given = "16 mm"
    width: Given = "10 mm"
    from_corner: Given | None = None
    from_edge: Given | None = None
    screw: Screw | None = None
    name: str = "cord clip"


@dataclass(frozen=True, slots=True, kw_only=True)
class ClipFigures:
    """A clip [mm]: its foot, how far in its middle is, and its screw, thick and long, if any."""

    parameter: str
    on: tuple[str, ...]
    edge: TierEdge
    length: float
    width: float
    from_edge: float
    given: Given | None
    screw: tuple[float, float] | None
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Clipped:
    """The instances with the pilot holes of their clips, what is bought, and where it goes."""

    placed: list[Placed]
    fitted: list[Fitted]
    notes: list[Note]

    @property
    def fixings(self) -> list[Bought]:
        """The clips and their screws."""
        return [thing for each in self.fitted for thing in each.things]


def read_cord_clips(
    reader: DesignReader,
    clips: object,
    names: Names,
    tiers: Sequence[str],
    free: Sequence[TierEdge],
    thickness: Callable[[str], float],
) -> tuple[ClipFigures, ...]:
    """The clips; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        clips: several `CordClip`.
        names: of the piece.
        tiers: the instances that can have one.
        free: the edges of tiers that are open.
        thickness: of an instance [mm].
    """
    found = []
    for where, each in reader.each_of("cord_clips", clips, CordClip, "cord clip", "it is one"):
        why = "a cord is led along under a tier"
        meant = read_tiers(reader, where, each.on, names, tiers, why)
        why = "so large are the feet of clips (common practice)"
        length, width = (
            reader.length(
                f"{where} {name}",
                size,
                at_least=reader.rules[LEAST_CLIP],
                at_most=reader.rules[GREATEST_CLIP],
                why=why,
            )
            for name, size in (("length", each.length), ("width", each.width))
        )
        from_edge = width / 2
        if each.from_edge is not None:
            from_edge = reader.length(
                f"{where} from_edge", each.from_edge, at_least=at_least_known(width / 2),
                why="its foot lies on the tier",
            )  # fmt: skip
        read_from_corner(reader, where, each.from_corner)
        found.append(
            ClipFigures(
                parameter=where,
                on=meant,
                edge=read_edge(reader, where, each.edge, free),
                length=length,
                width=width,
                from_edge=from_edge,
                given=each.from_corner,
                screw=_read_screw(reader, where, each.screw, [thickness(name) for name in meant]),
                name=reader.text(f"{where} name", each.name) or "cord clip",
            )
        )
    return tuple(found)


def _read_screw(
    reader: DesignReader, where: str, given: object, tiers: Sequence[float]
) -> tuple[float, float] | None:
    """How thick and how long its screw is [mm]; None where it is stuck on."""
    if given is None:
        return None
    if not isinstance(given, Screw):
        reader.refuse(
            f"{where} screw", said(given), "Screw(...)", "it holds the clip",
            "leave it out, which sticks it on",
        )  # fmt: skip
        return None
    reader.names(f"{where} screw.", given)
    skin, bite = reader.rules[SCREW_SKIN], reader.rules[HINGE_BITE]
    thinnest = min((each for each in tiers if not math.isnan(each)), default=math.nan)
    room, least = at_most_known(thinnest - skin), reader.rules[LEAST_SCREW]
    if room < bite * least - 1e-6:
        reader.refuse(
            f"{where} screw", said(given), "no screw",
            f"one bites {bite:g} times its diameter, and {reader.least(skin)} of tier stay above "
            "its point: this tier is too thin for any",
            "leave it out, which sticks it on",
        )  # fmt: skip
        return None
    diameter = read_screw_diameter(
        reader, f"{where} screw.diameter", given.diameter, at_least=least,
        at_most=max(least, min(reader.rules[GREATEST_SMALL_SCREW], room / bite)),
        why=f"the screws of small hardware are no thicker, and one bites {bite:g} times its "
        "diameter",
    )  # fmt: skip
    length = reader.length(
        f"{where} screw.length", given.length, at_least=at_least_known(bite * diameter),
        at_most=room,
        why=f"it bites {bite:g} times its diameter, and {reader.least(skin)} of tier stay above "
        "its point",
    )  # fmt: skip
    return (diameter, length)


def with_cord_clips(
    reader: DesignReader,
    clips: Sequence[ClipFigures],
    placed: Sequence[Placed],
    joints: Sequence[Joint],
    grain: Callable[[str], PanelGrain],
    surfaces: Sequence[Surface],
) -> Clipped:
    """Where the clips go; what has no room is noted.

    Args:
        reader: keeps the problems.
        clips: as `read_cord_clips` gives them, all figures known.
        placed: every part of the piece in its place, with all else that is cut in it.
        joints: between them; their dowels are kept clear of.
        grain: of each tier.
        surfaces: of the tiers, as they are seen.
    """
    seen = {each.instance: each for each in surfaces}
    standing = {each.instance: each for each in placed}
    fitted, notes = list[Fitted](), list[Note]()
    wood = reader.least(reader.rules[LEAST_OPENING_WOOD])
    why = f"its foot lies flat, {wood} off every corner, joint and opening"
    for clip in clips:
        for name in clip.on:
            part = standing[name]
            edge = grain(name).face(clip.edge.face)
            near = near_of(part, _not_above(part, placed), joints, standing)[1:]
            deep = clip.from_edge + clip.width / 2
            at = place_at_edge(
                reader, AtEdge(parameter=clip.parameter, edge=clip.edge.face, given=clip.given,
                               along=clip.length, deep=deep,
                               deepest=part.part.blank.across(edge) - reader.rules[
                                   LEAST_OPENING_WOOD], why=why, instead="take a smaller clip"),
                part, edge, near,
            )  # fmt: skip
            if math.isnan(at):
                break
            if clip.screw is not None:
                standing[name] = _bored(reader, part, edge, at, clip.from_edge, clip.screw)
            foot = _on_edge(part, edge, at, clip.from_edge)
            side = edge.axis == 0
            fitted.append(
                Fitted(
                    things=_bought(clip, name),
                    on=name,
                    at=part.placement.to_piece((*foot, 0.0)),
                    along=part.placement.y_axis if side else part.placement.x_axis,
                    out=DOWN,
                    size_mm=(clip.length, clip.width),
                )
            )
            told = _seen(clip.edge, edge, part, at), _hidden(clip.edge, part, seen[name])
            notes.append(_note(clip, name, told, reader.shown))
    return Clipped(placed=[standing[each.instance] for each in placed], fitted=fitted, notes=notes)


def _on_edge(part: Placed, edge: Face, at: float, from_edge: float) -> tuple[float, float]:
    """The place along and across the grain of what lies so far along an edge and in from it."""
    inwards = part.part.blank.across(edge) - from_edge if edge.is_far else from_edge
    return (inwards, at) if edge.axis == 0 else (at, inwards)


def _hidden(edge: TierEdge, part: Placed, seen: Surface) -> float:
    """How much of the tier lies in its housing at the corner that one measures from [mm]."""
    axis = 1 - edge.face.axis
    return max(0.0, seen.low[axis] - box_of(part.part.blank, part.placement)[0][axis])


def _not_above(part: Placed, placed: Sequence[Placed]) -> list[Placed]:
    """The parts but for those that lie on it, such as lips."""
    top = box_of(part.part.blank, part.placement)[1][2]
    return [
        each for each in placed if box_of(each.part.blank, each.placement)[0][2] < top - _FLAT_MM
    ]


def _bored(
    reader: DesignReader,
    part: Placed,
    edge: Face,
    at: float,
    from_edge: float,
    screw: tuple[float, float],
) -> Placed:
    """The tier with the pilot hole in its underside."""
    x, y = _on_edge(part, edge, at, from_edge)
    pilot = Bore(
        face=Face.BACK_SIDE, x_mm=clean(x), y_mm=clean(y),
        diameter_mm=pilot_mm(reader, screw[0], part.part.timber), depth_mm=screw[1],
    )  # fmt: skip
    return replace(part, part=replace(part.part, cuts=(*part.part.cuts, pilot)))


def _seen(edge: TierEdge, own: Face, part: Placed, at: float) -> float:
    """Its place along the edge from the left or the front [mm]."""
    is_from_far = own.axis != edge.face.axis and edge.face.axis == 0
    return part.part.blank.size[1 - own.axis] - at if is_from_far else at


def _bought(clip: ClipFigures, on: str) -> tuple[Bought, ...]:
    """The clip and its screw."""
    held = "stuck on" if clip.screw is None else "with a hole for its screw"
    found = [Bought(name=clip.name, quantity=1, length_mm=clip.length, where=(on,), note=held)]
    if clip.screw is not None:
        found.append(
            Bought(
                name="round-head wood screw", quantity=1, diameter_mm=clip.screw[0],
                length_mm=clip.screw[1], where=(on,), note=f"for the {clip.name}",
                sold_by=SoldBy.GAUGE,
            )
        )  # fmt: skip
    return tuple(found)


def _note(clip: ClipFigures, on: str, told: tuple[float, float], shown: Shown) -> Note:
    """How it is fixed, and where one that no pilot hole places: from what is seen of its tier."""
    edge = f"its {clip.edge.value} edge"
    if clip.screw is not None:
        return Note(f"{on}: screw the {clip.name} under it at {edge}, on its pilot hole", (on,))
    along, hidden = told
    corner = f"{clip.edge.corner} upright" if hidden > 0.0 else clip.edge.corner
    far, deep = (figure_with_unit(each, shown) for each in (along - hidden, clip.from_edge))
    said = listed([f"{far} from {corner}", f"{deep} from {edge}"])
    return Note(f"{on}: stick the {clip.name} under it after finishing, its middle {said}", (on,))
