"""Which glued joints close together: mitres of a ring, joints of one axis that hang together."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum

from furniture.joints.joint import Joining, Role
from furniture.joints.reading import is_face_to_face, is_flat_mitre, is_tilted_mitre
from furniture.joints.relation import axis_along
from furniture.making.glue_ups.values import GlueBench
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, dot
from furniture.pieces.piece import Piece

_ALONG = 1.0 - 1e-6
_WHOLE = 0.95
"""A glue line over so much of both parts makes one board of the two. Own rule."""


class Nature(Enum):
    """Why the joints of a cluster close together."""

    MITRES = "mitres that close at once, with what lies across them"
    BOARDS = "boards glued up into one"
    AXIS = "joints that are pressed along one axis"
    TONGUES = "tongues let in across closed joints"
    SEATS = "stuck on by a face"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cluster:
    """Glued joints that one stage closes: rows of the piece's joinings.

    `line` is the axis that they are pressed along, where there is one. `split_from` are all joints
    of the cluster that was too long for the glue, where this is a part.
    """

    nature: Nature
    line: Vector | None
    joinings: frozenset[int]
    split_from: frozenset[int] = frozenset()


def is_glued(joining: Joining) -> bool:
    """Whether a joint takes glue, on faces or round dowels."""
    return joining.glue_area_mm2 > 0.0 or any(each.is_glued for each in joining.fasteners)


def clusters_of(piece: Piece) -> tuple[Cluster, ...]:
    """The glued joints of a piece in clusters, in the order of its joinings."""
    placed = {each.instance: each for each in piece.placed}
    glued = [row for row, each in enumerate(piece.joinings) if is_glued(each)]
    mitres = [row for row in glued if is_mitre(each := piece.joinings[row], placed[each.incoming])]
    keys = {
        row: _key(
            piece.joinings[row],
            placed,
            [piece.joinings[each] for each in mitres],
            _beside(piece.joinings, piece.joinings[row]),
        )
        for row in glued
    }
    for row in frozenset[int]().union(*on_carriers(piece.joinings).values()):
        keys[row] = (Nature.SEATS, None)
    late = {Nature.SEATS, Nature.TONGUES}
    lots = _lots(piece.joinings, [row for row in glued if keys[row][0] not in late])
    clusters = _hanging_together(
        glued, lambda row: (keys[row], _places(piece.joinings[row], keys[row][0] in late, lots))
    )
    return tuple(
        Cluster(nature=keys[min(each)][0], line=keys[min(each)][1], joinings=frozenset(each))
        for each in clusters
    )


def on_carriers(joinings: Sequence[Joining]) -> Mapping[str, frozenset[int]]:
    """By the carrier, rows of what its parts meet in that nothing else holds, and are stuck on by.

    End to side in plain glue they swing about that line: they go on their carrier at once.

    Args:
        joinings: that take glue, or all of a piece.
    """
    faces = [row for row, each in enumerate(joinings) if is_glued(each) and is_face_to_face(each)]
    carried = {
        (joinings[row].into, joinings[row].incoming): row
        for row in faces
        if joinings[row].role in (Role.SEAT, Role.EDGE_GLUE)
    }
    found: dict[str, frozenset[int]] = {}
    for row in faces:
        each = joinings[row]
        for carrier in dict.fromkeys(into for into, _ in carried):
            ends = [(carrier, each.into), (carrier, each.incoming)]
            if each.role is Role.CORNER and all(end in carried for end in ends):
                own = {row, *(carried[end] for end in ends)}
                found[carrier] = found.get(carrier, frozenset()) | own
    return found


def split_where_long(
    piece: Piece, clusters: Sequence[Cluster], bench: GlueBench
) -> tuple[Cluster, ...]:
    """The clusters, those that take longer than the glue stays open shared by the part gone into.

    Mitres are left whole: a ring closes at once or not at all.
    """
    found: list[Cluster] = []
    for each in clusters:
        if (
            each.nature is Nature.MITRES
            or _seconds(piece, each.joinings, bench) <= bench.open_seconds
        ):
            found.append(each)
            continue
        found.extend(
            replace(each, joinings=frozenset(share), split_from=each.joinings)
            for share in _shares(piece, sorted(each.joinings), bench)
        )
    return tuple(found)


def faces_count(joinings: Iterable[Joining]) -> int:
    """How many faces take glue."""
    return sum(len(each.glued_faces) for each in joinings)


def _shares(piece: Piece, rows: Sequence[int], bench: GlueBench) -> list[list[int]]:
    """Joints by the part that they go into, as many in one share as the glue allows."""
    shares: list[list[int]] = []
    into = ""
    for row in sorted(rows, key=lambda each: piece.joinings[each].into):
        is_new = piece.joinings[row].into != into
        into = piece.joinings[row].into
        joined = [*shares[-1], row] if shares else [row]
        if not shares or is_new or _seconds(piece, joined, bench) > bench.open_seconds:
            shares.append([row])
        else:
            shares[-1].append(row)
    return shares


def _seconds(piece: Piece, rows: Iterable[int], bench: GlueBench) -> float:
    return faces_count(piece.joinings[row] for row in rows) * bench.seconds_per_face


Key = tuple[Nature, Vector | None]


def _beside(joinings: Sequence[Joining], joining: Joining) -> str | None:
    """The other part that a tongue goes into."""
    found = (each.into for each in joinings if each.incoming == joining.incoming)
    return next((name for name in found if name != joining.into), None)


def _key(
    joining: Joining, placed: dict[str, Placed], mitres: Sequence[Joining], beside: str | None
) -> Key:
    if is_mitre(joining, placed[joining.incoming]) or _lies_across(joining, beside, mitres):
        return (Nature.MITRES, None)
    if joining.role is Role.LOOSE_TONGUE:
        return (Nature.TONGUES, None)
    if joining.role is Role.SEAT and is_face_to_face(joining):
        return (Nature.SEATS, None)
    return (
        Nature.BOARDS if _makes_one_board(joining, placed) else Nature.AXIS,
        _line(joining.ways_in[0] if joining.ways_in else joining.faces[0].normal),
    )


def _line(way: Vector) -> Vector:
    """The same for a way and its opposite."""
    x, y, z = (round(value, 6) + 0.0 for value in way)
    first = next((value for value in (x, y, z) if value != 0.0), 1.0)
    return (x, y, z) if first > 0.0 else (-x + 0.0, -y + 0.0, -z + 0.0)


def is_mitre(joining: Joining, incoming: Placed) -> bool:
    """Whether two parts meet at their ends on a mitre."""
    return joining.role is Role.CORNER and (
        is_tilted_mitre(joining, incoming) or is_flat_mitre(joining, incoming)
    )


def _lies_across(joining: Joining, beside: str | None, mitres: Sequence[Joining]) -> bool:
    """Whether a tongue goes in square to its mitre, so that it is shut in as the mitre closes.

    A key goes in along its own mitre, which may be square to another mitre of the same rail.
    """
    return joining.role is Role.LOOSE_TONGUE and any(
        {joining.into, beside} >= {mitre.into, mitre.incoming}
        and any(abs(dot(face.normal, joining.ways_in[0])) > _ALONG for face in mitre.glued_faces)
        for mitre in mitres
    )


def _makes_one_board(joining: Joining, placed: dict[str, Placed]) -> bool:
    """Whether boards are glued along the grain over the whole of both."""
    if joining.role is not Role.EDGE_GLUE or len(joining.faces) != 1:
        return False
    face = joining.faces[0]
    for each in (placed[joining.into], placed[joining.incoming]):
        axis = axis_along(each, face.normal)
        whole = 1.0
        for other, size in enumerate(each.part.blank.size):
            whole *= size if other != axis else 1.0
        if axis == 0 or face.run_mm * face.deep_mm < _WHOLE * whole:
            return False
    return True


def _lots(joinings: Sequence[Joining], rows: Iterable[int]) -> dict[str, str]:
    """By instance, a name for the lot that these joints make one."""
    leader = {name: name for each in joinings for name in (each.into, each.incoming)}

    def top(name: str) -> str:
        while leader[name] != name:
            name = leader[name]
        return name

    for row in rows:
        leader[top(joinings[row].into)] = top(joinings[row].incoming)
    return {name: top(name) for name in leader}


def _places(joining: Joining, is_late: bool, lots: dict[str, str]) -> frozenset[str]:
    """What joints must share to hang together: a part, or for what comes late a lot."""
    ends = (joining.into, joining.incoming)
    return frozenset(lots[name] for name in ends) if is_late else frozenset(ends)


def _hanging_together(
    rows: Sequence[int], key_of: Callable[[int], tuple[Key, frozenset[str]]]
) -> list[list[int]]:
    """Joints of one key that share a place, in one list."""
    found: list[tuple[Key, frozenset[str], list[int]]] = []
    for row in rows:
        key, places = key_of(row)
        joined = [row]
        for each in [other for other in found if other[0] == key and other[1] & places]:
            places, joined = places | each[1], each[2] + joined
            found.remove(each)
        found.append((key, places, joined))
    return [each[2] for each in found]
