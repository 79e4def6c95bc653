"""Notches at a tier's edge into which a cord is laid, so that its plug need not pass."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from enum import Enum

import shapely

from furniture.builders.common import Names
from furniture.builders.opening_room import Near, near_of
from furniture.builders.panel_grain import PanelGrain
from furniture.builders.passing import Cable, size_for
from furniture.builders.rules import DesignReader
from furniture.joints import Joint
from furniture.parts.blank import Blank
from furniture.parts.cuts import Notch
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.pieces import Note
from furniture.rules.building import LEAST_OPENING_WOOD, MOST_CORD_NOTCH
from furniture.units import REQUIRED, Given, counted, parameters, said

Span = tuple[float, float]


class NotchEdge(Enum):
    """The edge of a tier that a cord notch opens to."""

    FRONT = "front"
    BACK = "back"
    LEFT = "left"
    RIGHT = "right"

    @property
    def face(self) -> Face:
        """That edge of a part that lies face side up, its face edge in front."""
        return {
            "front": Face.FACE_EDGE, "back": Face.BACK_EDGE,
            "left": Face.NAMED_END, "right": Face.FAR_END,
        }[self.value]  # fmt: skip


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
    edge: NotchEdge = NotchEdge.BACK
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
    reader: DesignReader, notches: object, names: Names, tiers: Sequence[str]
) -> tuple[CordFigures, ...]:
    """The cord notches; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        notches: several `CordNotch`.
        names: of the piece.
        tiers: the instances that can have one.
    """
    found = []
    like = reader.example("CordNotch")
    for index, each in enumerate(reader.several("cord_notches", notches, CordNotch, like)):
        where = counted("cord notch", index)
        if not isinstance(each, CordNotch):
            reader.refuse(where, said(each), "a CordNotch", "it is one", f"write {like}")
            continue
        reader.names(f"{where} ", each)
        meant = tuple(name for name in names.meant_by(each.on) if name in tiers)
        if not meant:
            reader.refuse(
                f"{where} on", said(each.on), ", ".join(("tiers", *tiers)),
                "a cord is laid in at a tier's edge", "write 'tiers'",
            )  # fmt: skip
        edge = reader.choice(f"{where} edge", each.edge, NotchEdge, NotchEdge.BACK)
        width = math.nan
        if isinstance(each.passes, Cable):
            width = size_for(reader, f"{where} passes", each.passes)
        else:
            reader.refuse(
                f"{where} passes", said(each.passes), "Cable(...)",
                "what is laid in from the edge is a cable: its plug stays outside",
                f"write {reader.example('Cable')}",
            )  # fmt: skip
        if each.from_corner is not None:
            reader.length(
                f"{where} from_corner", each.from_corner, at_least=0.0, why="it is a distance"
            )
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
            at = _place(reader, notch, part, edge, near_of(part, placed, joints, standing)[1:])
            if math.isnan(at):
                break
            cut = Notch(
                edge=edge, start_mm=at - notch.width / 2, length_mm=notch.width,
                depth_mm=notch.width, inner_radius_mm=notch.width / 2,
            )  # fmt: skip
            standing[name] = replace(part, part=replace(part.part, cuts=(*part.part.cuts, cut)))
    return [standing[each.instance] for each in placed]


def _place(
    reader: DesignReader, notch: CordFigures, part: Placed, edge: Face, near: Sequence[Near]
) -> float:
    """The middle of a notch along its edge [mm]; not-a-number where it has no room there."""
    blank, wood = part.part.blank, reader.rules[LEAST_OPENING_WOOD]
    run, across = blank.size[1 - edge.axis], blank.across(edge)
    deepest = reader.rules[MOST_CORD_NOTCH] * across
    free = _free(notch.width, edge, blank, near, wood) if notch.width <= deepest else []
    why = (
        f"{reader.least(wood)} of wood stay between a notch and a corner, a joint or an opening, "
        "and most of the tier behind it"
    )
    if not free:
        reader.refuse(
            f"{notch.parameter} edge", said(notch.edge.value),
            f"an edge of {part.instance} with room for {reader.least(notch.width)}", why,
            "take another edge, or let less be laid in",
        )  # fmt: skip
        return math.nan
    if notch.given is None:
        low, high = max(free, key=lambda span: (round(span[1] - span[0], 6), span[0]))
        step = reader.shown.step_mm
        told = round((low + high) / 2 / step) * step
        return told if low <= told <= high else round((low + high) / 2, 3)
    # Struck from the front, and the grain of a turned tier begins behind.
    is_back = edge.axis != notch.edge.axis and notch.edge.axis == 0
    if is_back:
        free = [(run - high, run - low) for low, high in free]
    wanted = reader.peek(notch.given)
    low, high = min(free, key=lambda span: max(span[0] - wanted, wanted - span[1], 0.0))
    told = reader.length(
        f"{notch.parameter} from_corner", notch.given, at_least=low, at_most=high,
        why=f"on {part.instance} {why}",
    )  # fmt: skip
    return run - told if is_back else told


def _free(width: float, edge: Face, blank: Blank, near: Sequence[Near], wood: float) -> list[Span]:
    """Where along its edge the middle of a notch may lie, from the named end or face edge [mm]."""
    reach = wood + width / 2
    low, high = [0.0, 0.0], [blank.length_mm, blank.width_mm]
    axis = edge.axis
    run = high[1 - axis]
    if edge.is_far:
        low[axis] = high[axis] - width - wood
    else:
        high[axis] = width + wood
    band = shapely.box(*low, *high)
    taken = []
    for each in near:
        met = shapely.intersection(shapely.buffer(each.shape, each.reach + 1e-6), band)
        if not met.is_empty:
            bounds = met.bounds
            taken.append((bounds[1 - axis] - reach, bounds[3 - axis] + reach))
    found, start = [], reach
    for begin, end in (*sorted(taken), (run - reach, run)):
        if begin - start > 1e-6:
            found.append((start, min(begin, run - reach)))
        start = max(start, end)
    return found


def cord_notes(notches: Sequence[CordFigures]) -> tuple[Note, ...]:
    """What the sheets say of them."""
    said = "lay the cord into the notch at its edge: bore its round bottom, then saw down to it"
    return tuple(Note(f"{name}: {said}", (name,)) for each in notches for name in each.on)
