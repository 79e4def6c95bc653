"""Which arrises of a part lie in a joint, read from solids alone, beside what a design refuses.

The solids are those of piece.json, rebuilt by another kernel. Slender boxes just inside and just
outside every arris are intersected with the part and with all that stand beside it. Nothing is
taken from faces of joints; of a joint with a fit only its play is read.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from enum import Enum
from pathlib import Path
from typing import Any

import numpy as np
from manifold3d import Manifold

import furniture
from furniture import Composition, DesignError, EdgeProfile
from furniture.parts.faces import ALL_ARRISES, EDGES, ENDS, Arris, Face
from furniture.parts.part import Placed
from furniture.pieces import Piece
from tests.everywhere.designs import Drawn
from tests.everywhere.walk import Walk

_IN = 0.2
"""How deep the boxes look into the wood [mm]."""
_SKIN = 1e-4
_NEAR = 0.02
_LEAST = 0.5
"""What is shorter than this is no edge that one could shape [mm]."""

Span = tuple[float, float]


class Lies(Enum):
    """How an arris lies."""

    HIDDEN = "all of it in a joint, or cut away"
    OPEN = "whole and in the open"
    BETWEEN = "partly the one and partly the other"


def how_they_lie(
    piece: Piece, record: Mapping[str, Any], solids: Mapping[str, Manifold]
) -> dict[tuple[str, Arris], Lies]:
    """Every arris of every instance.

    Args:
        piece: for the plays of its joints only.
        record: its piece.json.
        solids: every part by id, rebuilt from that.
    """
    rows = {row["instance"]: row for row in record["placements"]}
    sizes = {
        part["id"]: [part[f"{each}_mm"] for each in ("length", "width", "thickness")]
        for part in record["parts"]
    }
    stands = {name: solids[row["part"]].transform(_matrix(row)) for name, row in rows.items()}
    found = {}
    for name, row in rows.items():
        back = _inverse(_matrix(row))
        others = [
            (_play(piece, name, other), solid.transform(back))
            for other, solid in stands.items()
            if other != name
        ]
        for arris in ALL_ARRISES:
            own, size = solids[row["part"]], sizes[row["part"]]
            found[name, arris] = _lies(arris, own, size, others)
    return found


def _lies(
    arris: Arris, own: Manifold, size: Sequence[float], others: Sequence[tuple[float, Manifold]]
) -> Lies:
    run = arris.run_axis
    corner = {arris.first: (_SKIN, _IN), arris.second: (_SKIN, _IN)}
    wood = _square(own ^ _box(arris, size, corner), run)
    # Boxes on both faces, and past both ends, in which another part may stand.
    touched: list[Span] = []
    ends = 0.0
    for play, other in others:
        for face in (arris.first, arris.second):
            beside = {**corner, face: (-play, -_SKIN)}
            touched += _spans(other ^ _box(arris, size, beside), run)
        past = _box(arris, size, corner, longer=play)
        ends += (other ^ past).volume()
    length = _total(wood)
    shared = _total(
        _joined(
            [(max(a, c), min(b, d)) for a, b in wood for c, d in touched if min(b, d) > max(a, c)]
        )
    )
    if length < _LEAST or shared > length - _LEAST:
        return Lies.HIDDEN
    is_open = shared < _SKIN and ends < _SKIN and length > size[run] - _LEAST
    return Lies.OPEN if is_open else Lies.BETWEEN


def _box(
    arris: Arris, size: Sequence[float], across: Mapping[Face, Span], longer: float = 0.0
) -> Manifold:
    """A box along an arris; `across` says how far in from each of its faces [mm]."""
    low, high = [-longer] * 3, [each + longer for each in size]
    for face, (near, far) in across.items():
        whole = size[face.axis]
        low[face.axis], high[face.axis] = (
            (whole - far, whole - near) if face.is_far else (near, far)
        )
    extent = np.array(high) - np.array(low)
    return Manifold.cube(extent).translate(low)


def _square(solid: Manifold, axis: int) -> list[Span]:
    """The stretches where the whole corner is wood: a slope leaves less of it."""
    return [
        (low, high)
        for body in solid.decompose()
        for low, high in [_along(body, axis)]
        if body.volume() > 0.95 * (high - low) * (_IN - _SKIN) ** 2 and high - low > _SKIN
    ]


def _spans(solid: Manifold, axis: int) -> list[Span]:
    return [_along(body, axis) for body in solid.decompose() if body.volume() > 1e-7]


def _along(body: Manifold, axis: int) -> Span:
    bounds = body.bounding_box()
    return (bounds[axis], bounds[axis + 3])


def _joined(spans: Sequence[Span]) -> list[Span]:
    found: list[Span] = []
    for low, high in sorted(spans):
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], max(high, found[-1][1]))
        else:
            found.append((low, high))
    return found


def _total(spans: Sequence[Span]) -> float:
    return sum(high - low for low, high in spans)


def _play(piece: Piece, one: str, other: str) -> float:
    """How far apart two instances may stand and still be one joint [mm]."""
    plays: dict[frozenset[str], float] = defaultdict(float)
    for each in piece.joinings:
        if each.fit is not None:
            pair = frozenset((each.into, each.incoming))
            plays[pair] = max(plays[pair], each.clearance_mm)
    return plays[frozenset((one, other))] + _NEAR


def _matrix(row: Mapping[str, Any]) -> np.ndarray:
    return np.column_stack([row["x_axis"], row["y_axis"], row["z_axis"], row["origin_mm"]])


def _inverse(matrix: np.ndarray) -> np.ndarray:
    turn = matrix[:, :3].T
    return np.column_stack([turn, -turn @ matrix[:, 3]])


def refused_edges(
    make: type, figures: Mapping[str, Any], on: str
) -> tuple[set[Arris], set[Arris]] | None:
    """The arrises of an instance where a small round-over is refused: by its reader, by its joints.

    None where the design does not let one shape that part.

    Args:
        make: the design's class.
        figures: without profiles.
        on: the instance.
    """
    at_the_door: set[Arris] = set()
    left = sorted(ALL_ARRISES, key=lambda each: each.name)
    told = _problems(make, figures, on, left)
    if any(parameter.endswith(" on") for parameter, _ in told):
        return None
    for parameter, given in told:
        if parameter.endswith("edges") and given.endswith(f" of {on}"):
            at_the_door.add(_as_a_script_has_it(given.removesuffix(f" of {on}")))
    left = [each for each in left if each not in at_the_door]
    late = {
        _as_a_script_has_it(parameter.partition(" on ")[2])
        for parameter, _ in (_problems(make, figures, on, left) if left else ())
        if " on " in parameter
    }
    return at_the_door, late


def _as_a_script_has_it(code: str) -> Arris:
    arris = eval(code, vars(furniture))
    assert isinstance(arris, Arris)
    return arris


def _problems(
    make: type, figures: Mapping[str, Any], on: str, edges: Sequence[Arris]
) -> list[tuple[str, str]]:
    profile = EdgeProfile(on=on, edges=edges, radius="0.5 mm")
    try:
        make(**{**figures, "profiles": [profile]}).build()
    except DesignError as error:
        return [(each.parameter, each.given) for each in error.problems]
    return []


def differences(design: Drawn, folder: Path) -> list[str]:
    """Where what is refused is not what the solids show, in words.

    An arris that is partly hidden may be either, yet a stand or a box says so with all other
    problems of its figures, and never only once its joints are worked.

    Args:
        design: whose profiles are left out.
        folder: for the record.
    """
    figures = {name: given for name, given in design.figures.items() if name != "profiles"}
    piece = design.make(**figures).build()
    walk = Walk(piece, folder)
    lie = how_they_lie(piece, walk.record, walk.solids)
    found = []
    for placed in piece.placed:
        told = refused_edges(design.make, figures, placed.instance)
        if told is None:
            continue
        names = _names_seen(placed, figures.get("own_grain", {}))
        for own in ALL_ARRISES:
            arris = Arris(names[own.first], names[own.second])
            lies, name = lie[placed.instance, own], f"{arris.name} of {placed.instance}"
            is_refused = arris in told[0] or arris in told[1]
            if lies is Lies.HIDDEN and not is_refused:
                found.append(f"{name} is hidden and may be shaped")
            if lies is Lies.OPEN and is_refused:
                found.append(f"{name} is in the open and may not be shaped")
            if arris in told[1] and design.make is not Composition:
                found.append(f"{name} is refused by the joints alone")
    return found


_SEEN_TOWARDS = {
    (-1, 0): Face.NAMED_END,
    (1, 0): Face.FAR_END,
    (0, -1): Face.FACE_EDGE,
    (0, 1): Face.BACK_EDGE,
}
"""What a script calls the edges of a level part, from left to right and from front to back."""


def _names_seen(placed: Placed, own_grain: Mapping[str, object]) -> dict[Face, Face]:
    """What a script calls each face of a part: by where it is seen, if its grain is its own."""
    names = {face: face for face in Face}
    if not {placed.instance, placed.noun, f"{placed.noun}s"} & own_grain.keys():
        return names
    axes = (placed.placement.x_axis, placed.placement.y_axis)
    for face in (*ENDS, *EDGES):
        sign = 1.0 if face.is_far else -1.0
        x, y, _ = axes[face.axis]
        names[face] = _SEEN_TOWARDS[round(sign * x), round(sign * y)]
    return names
