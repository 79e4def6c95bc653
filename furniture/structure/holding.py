"""What keeps each instance: the one answer that every reader of held, captured or loose goes by."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, replace
from enum import Enum

from furniture.parts.vectors import Vector
from furniture.pieces import Piece
from furniture.pieces.weighed import Mass
from furniture.structure.capacity import Carries
from furniture.structure.cases import cases_of
from furniture.structure.frame import Frame, frame_of
from furniture.structure.held import Held, held_in
from furniture.structure.loose import (
    Clusters,
    WayOut,
    WaysOut,
    caught,
    clusters_of,
    is_closed,
    ways_by_faces,
)


class Hold(Enum):
    """What keeps an instance where it is."""

    GLUE = "held by glue"
    FASTENERS = "held by fasteners"
    FACES = "held by faces"
    CAPTURED = "captured with play"
    FREE = "free"


@dataclass(frozen=True, slots=True, kw_only=True)
class Holding:
    """What keeps an instance, or how it leaves.

    A piece of one part is held by itself, which counts as faces. `group` are the instances that
    move with it as one, itself among them; `ways` its ways out, none but where it is free;
    `stopped_by` the instances that stop it, where nothing fixes it. `comes_out` is the first case
    in which it goes by itself, None where it stays in all of them, as a lid does that only lifts.
    `is_loose` says that neither glue nor a fastener keeps it to what stands firm.
    """

    instance: str
    hold: Hold
    group: tuple[str, ...]
    ways: tuple[WayOut, ...] = ()
    stopped_by: tuple[str, ...] = ()
    comes_out: Held | None = None
    is_loose: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Statics:
    """All that the statics say of a piece: its cases, which of them it stands, what keeps what.

    `frame` has what only neighbours stop among its links, where the solids were looked at.
    """

    frame: Frame
    held: tuple[Held, ...]
    holdings: tuple[Holding, ...]


def statics_of(
    piece: Piece, masses: Mapping[str, Mass], ways_out: Sequence[WaysOut] | None = None
) -> Statics:
    """The statics of a piece as glued: the one place where held, captured or free is decided.

    Args:
        piece: as cut
        masses: of every instance, its centre in the piece's frame
        ways_out: what the solids say of its loose groups; None where they were not looked at, and
            the faces alone decide
    """
    stated = frame_of(piece, masses)
    frame = caught(stated, ways_out or ())
    held = tuple(held_in(frame, case) for case in cases_of(piece, frame))
    return Statics(frame=frame, held=held, holdings=holdings_of(stated, held, ways_out))


def holdings_of(
    frame: Frame, held: Sequence[Held], ways_out: Sequence[WaysOut] | None
) -> tuple[Holding, ...]:
    """What keeps every instance of a piece, in the order of its bodies.

    Args:
        frame: of the piece, as its faces and fasteners are stated
        held: what the statics say of its cases, with what the solids say among their links
        ways_out: what the solids say of its loose groups; None where they were not looked at, and
            the faces alone decide
    """
    clusters = clusters_of(frame)
    loose = {
        name: each
        for each in (ways_out if ways_out is not None else _by_faces(frame, clusters))
        for name in each.moving
    }
    lost = _lost(held)
    kept = _kept(frame)
    return tuple(
        _loose(frame, name, loose[name], lost.get(body))
        if name in loose
        else _firm(frame, body, clusters, kept, lost.get(body))
        for body, name in enumerate(frame.names)
    )


def rest_of(
    piece: Piece, holdings: Sequence[Holding], ways_out: Sequence[WaysOut] | None = None
) -> tuple[Piece, tuple[WaysOut, ...] | None]:
    """The piece without the loose parts that come out by themselves, and the ways out left in it.

    What drops out is told as that; how the rest bears and bends is not to hang on it. The piece
    itself where nothing comes out, or nothing would be left.

    Args:
        piece: as cut
        holdings: what keeps every instance of it
        ways_out: what the solids say of its loose groups; None where they were not looked at
    """
    out = {
        name
        for each in holdings
        if each.is_loose and each.comes_out is not None
        for name in each.group
    }
    given = None if ways_out is None else tuple(ways_out)
    placed = tuple(each for each in piece.placed if each.instance not in out)
    if not out or not placed:
        return piece, given
    rest = replace(
        piece,
        placed=placed,
        joinings=tuple(
            each for each in piece.joinings if out.isdisjoint((each.into, each.incoming))
        ),
        anchors=tuple(each for each in piece.anchors if each.instance not in out),
        surfaces=tuple(each for each in piece.surfaces if each.instance not in out),
        loads=tuple(each for each in piece.loads if each.on not in out),
        fixed=tuple(each for each in piece.fixed if each.on not in out),
    )
    return rest, None if given is None else tuple(_left(given, out))


def _left(ways_out: Iterable[WaysOut], out: Set[str]) -> Iterator[WaysOut]:
    """The ways out of the groups that stay: what came out stops none and leaves with none."""
    for each in ways_out:
        if out.isdisjoint(each.moving):
            ways = (
                replace(way, along=tuple(name for name in way.along if name not in out))
                for way in each.ways
            )
            stops = (stop for stop in each.stops if stop.by not in out)
            yield replace(each, ways=tuple(ways), stops=tuple(stops))


def _by_faces(frame: Frame, clusters: Clusters) -> tuple[WaysOut, ...]:
    return tuple(
        WaysOut(
            moving=tuple(frame.names[body] for body in group),
            ways=tuple(WayOut(way=way) for way in ways_by_faces(frame, group)),
            stops=(),
        )
        for group in clusters.loose
    )


def _loose(frame: Frame, name: str, out: WaysOut, lost: tuple[Held, Vector] | None) -> Holding:
    group = [frame.body(each) for each in out.moving]
    met, touched = {stop.by for stop in out.stops}, _touched(frame, group)
    stopped_by = tuple(each for each in touched if each in met) or tuple(sorted(met)) or touched
    ways = out.ways
    if ways or lost is not None:
        hold = Hold.FREE
        ways = ways or ((WayOut(way=lost[1]),) if lost is not None else ())
    else:
        hold = Hold.FACES if is_closed(frame, group, tight=True) else Hold.CAPTURED
    return Holding(
        instance=name, hold=hold, group=out.moving, ways=ways, stopped_by=stopped_by,
        comes_out=None if lost is None else lost[0],
        is_loose=True,
    )  # fmt: skip


def _firm(
    frame: Frame,
    body: int,
    clusters: Clusters,
    kept: dict[int, Hold],
    lost: tuple[Held, Vector] | None,
) -> Holding:
    group = next(each for each in (*clusters.firm, *clusters.loose) if body in each)
    names = tuple(frame.names[each] for each in group)
    name = frame.names[body]
    if lost is not None:
        return Holding(
            instance=name, hold=Hold.FREE, group=(name,), ways=(WayOut(way=lost[1]),),
            comes_out=lost[0],
        )  # fmt: skip
    return Holding(instance=name, hold=kept.get(body, Hold.FACES), group=names)


def _lost(held: Sequence[Held]) -> dict[int, tuple[Held, Vector]]:
    """The first case in which a body comes out by itself, and which way it goes."""
    found: dict[int, tuple[Held, Vector]] = {}
    for each in held:
        if each.is_held or each.motion is None:
            continue
        for body in each.motion.moving:
            found.setdefault(body, (each, each.motion.ways[body]))
    return found


def _kept(frame: Frame) -> dict[int, Hold]:
    """What keeps a body: glue where there is some, else fasteners."""
    found: dict[int, Hold] = {}
    for link in (*frame.links, *frame.wall):
        hold = _HOLDS.get(link.carries)
        for body in (link.first, link.second):
            if hold is not None and found.get(body) is not Hold.GLUE:
                found[body] = hold
    return found


_HOLDS = {
    Carries.SIDE_GLUE: Hold.GLUE,
    Carries.END_GLUE: Hold.GLUE,
    Carries.MITRE_GLUE: Hold.GLUE,
    Carries.PULL: Hold.FASTENERS,
    Carries.END_PULL: Hold.FASTENERS,
    Carries.GLUED_PULL: Hold.FASTENERS,
}


def _touched(frame: Frame, group: Sequence[int]) -> tuple[str, ...]:
    inside = set(group)
    others = (
        other
        for link in frame.links
        for one, other in ((link.first, link.second), (link.second, link.first))
        if one in inside and other not in inside and other >= 0
    )
    return tuple(frame.names[each] for each in dict.fromkeys(others))
