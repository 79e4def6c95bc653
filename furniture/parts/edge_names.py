"""What a script calls the arrises of a part: by where they lie in the piece, else by two faces."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from furniture.parts.faces import Arris, Face
from furniture.parts.placement import Placement
from furniture.parts.vectors import DOWN, FRONT, UP, Vector

# Edges of a shelf or lid, which lies face side up with its face edge in front.
TOP_FRONT = Arris(Face.FACE_SIDE, Face.FACE_EDGE)
TOP_BACK = Arris(Face.FACE_SIDE, Face.BACK_EDGE)
TOP_LEFT = Arris(Face.FACE_SIDE, Face.NAMED_END)
TOP_RIGHT = Arris(Face.FACE_SIDE, Face.FAR_END)
UNDER_FRONT = Arris(Face.BACK_SIDE, Face.FACE_EDGE)
UNDER_BACK = Arris(Face.BACK_SIDE, Face.BACK_EDGE)
UNDER_LEFT = Arris(Face.BACK_SIDE, Face.NAMED_END)
UNDER_RIGHT = Arris(Face.BACK_SIDE, Face.FAR_END)
# Edges of a rail, which stands face side out with its face edge down.
OUTER_BOTTOM = Arris(Face.FACE_SIDE, Face.FACE_EDGE)
OUTER_TOP = Arris(Face.FACE_SIDE, Face.BACK_EDGE)
INNER_BOTTOM = Arris(Face.BACK_SIDE, Face.FACE_EDGE)
INNER_TOP = Arris(Face.BACK_SIDE, Face.BACK_EDGE)

EdgeNames = Mapping[Arris, str]
"""What a script may call the arrises of a part that stands so; others go by their two faces."""
LYING: EdgeNames = MappingProxyType(
    {
        TOP_FRONT: "TOP_FRONT",
        TOP_BACK: "TOP_BACK",
        TOP_LEFT: "TOP_LEFT",
        TOP_RIGHT: "TOP_RIGHT",
        UNDER_FRONT: "UNDER_FRONT",
        UNDER_BACK: "UNDER_BACK",
        UNDER_LEFT: "UNDER_LEFT",
        UNDER_RIGHT: "UNDER_RIGHT",
    }
)
RAIL: EdgeNames = MappingProxyType(
    {
        OUTER_TOP: "OUTER_TOP",
        OUTER_BOTTOM: "OUTER_BOTTOM",
        INNER_TOP: "INNER_TOP",
        INNER_BOTTOM: "INNER_BOTTOM",
    }
)
BY_FACES: EdgeNames = MappingProxyType({})
_NEAR = 1e-6


def edge_names(placement: Placement) -> EdgeNames:
    """The names for a part that stands so in the piece.

    Args:
        placement: of the part.
    """
    side, edge = (
        placement.direction_to_piece(face.normal) for face in (Face.FACE_SIDE, Face.FACE_EDGE)
    )
    if _is(side, UP) and _is(edge, FRONT):
        return LYING
    return RAIL if _is(edge, DOWN) else BY_FACES


def _is(way: Vector, other: Vector) -> bool:
    return all(abs(a - b) < _NEAR for a, b in zip(way, other, strict=True))


def written(arris: Arris, names: EdgeNames = BY_FACES) -> str:
    """An arris as a script writes it, such as `TOP_FRONT`.

    Args:
        arris: any of a part's twelve.
        names: those of the part.
    """
    by_faces = f"Arris(Face.{arris.first.name}, Face.{arris.second.name})"
    return names.get(arris, by_faces)


def written_list(arrises: Sequence[Arris], names: EdgeNames = BY_FACES) -> str:
    """Arrises as a script writes them after `edges=`, such as `[TOP_FRONT, TOP_LEFT]`.

    Args:
        arrises: in the order to write them.
        names: those of the part.
    """
    return f"[{', '.join(written(each, names) for each in arrises)}]"


def in_order(arrises: frozenset[Arris], names: EdgeNames) -> list[Arris]:
    """Arrises with those first that have a name, as a maker names them.

    Args:
        arrises: to be told.
        names: those of the part.
    """
    named = list(names)
    return sorted(
        arrises,
        key=lambda each: (
            named.index(each) if each in names else len(named),
            written(each, names),
        ),
    )
