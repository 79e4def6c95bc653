"""The frame: every part as a rigid body and everything that its joints, the floor and a wall do."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from furniture.parts.part import Part, Placed
from furniture.parts.vectors import UP, Vector, add
from furniture.pieces import Piece, Stance
from furniture.pieces.weighed import Mass, Weighed
from furniture.structure.capacity import Carries
from furniture.structure.links import GROUND, Ends, Link, anchored, links_of

FLOOR_MM = 0.05
"""How near the lowest point of the piece a corner stands on the floor [mm]. Own rule."""
FREE = float("inf")


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The piece as rigid bodies and links, piece frame [mm, N].

    `names` are the instances, one body each, in the order of the piece; `masses` theirs in the
    piece's frame. `links` are those of the joints alone; `floor` and `wall` are what else may hold.
    """

    names: tuple[str, ...]
    masses: tuple[Mass, ...]
    links: tuple[Link, ...]
    floor: tuple[Link, ...]
    wall: tuple[Link, ...]

    def body(self, instance: str) -> int:
        """The index of an instance's body."""
        return self.names.index(instance)


def frame_of(piece: Piece, masses: Mapping[str, Mass]) -> Frame:
    """The frame of a piece.

    Args:
        piece: as cut, with its joinings
        masses: of every instance, its centre in the piece's frame
    """
    names = tuple(each.instance for each in piece.placed)
    species = {each.instance: each.part.timber.species for each in piece.placed}
    links: list[Link] = []
    for index, joining in enumerate(piece.joinings):
        ends = Ends(
            first=names.index(joining.incoming),
            second=names.index(joining.into),
            first_species=species[joining.incoming],
            second_species=species[joining.into],
            joining=index,
        )
        links.extend(links_of(joining, ends))
    return Frame(
        names=names,
        masses=tuple(masses[name] for name in names),
        links=tuple(links),
        floor=_floor(piece) if piece.stance is Stance.FLOOR else (),
        wall=_wall(piece) if piece.stance is Stance.WALL else (),
    )


def without_unknown(frame: Frame) -> Frame:
    """The frame without glue and fasteners of unknown strength: what it holds needs none."""
    return replace(frame, links=tuple(each for each in frame.links if each.is_known))


def masses_weighed(piece: Piece, weighed: Weighed) -> dict[str, Mass]:
    """Every instance's mass, its centre in the piece's frame, as the solids were weighed."""
    return {each.instance: _in_piece(each, weighed.parts[each.part.id]) for each in piece.placed}


def masses_by_cuts(piece: Piece) -> dict[str, Mass]:
    """Every instance's mass by its blank and its cuts' closed forms: no solid is needed.

    Cuts that share wood are counted twice, and the centre is the blank's: for screening, where a
    few per cent do not matter.
    """
    return {each.instance: _in_piece(each, _by_cuts(each.part)) for each in piece.placed}


def _by_cuts(part: Part) -> Mass:
    blank = part.blank
    gone = sum(cut.removed_alone_mm3(blank) for cut in part.cuts)
    volume = max(0.0, blank.volume_mm3 - gone)
    length, width, thickness = blank.size
    return Mass(
        volume_mm3=volume,
        mass_kg=volume * 1e-9 * part.timber.density_kg_m3,
        centre_mm=(length / 2.0, width / 2.0, thickness / 2.0),
    )


def _in_piece(placed: Placed, mass: Mass) -> Mass:
    return Mass(
        volume_mm3=mass.volume_mm3,
        mass_kg=mass.mass_kg,
        centre_mm=placed.placement.to_piece(mass.centre_mm),
    )


def _all_corners(piece: Piece) -> list[tuple[int, Vector]]:
    return [(index, at) for index, each in enumerate(piece.placed) for at in _corners(each)]


def _corners(placed: Placed) -> list[Vector]:
    """Corners and middles of edges: a long edge stands on more than its two ends."""
    length, width, thickness = placed.part.blank.size
    return [
        placed.placement.to_piece((x, y, z))
        for x in (0.0, length / 2.0, length)
        for y in (0.0, width / 2.0, width)
        for z in (0.0, thickness)
    ]


def _floor(piece: Piece) -> tuple[Link, ...]:
    """Edges of blanks at the lowest level: the floor pushes up there and nothing slides."""
    corners = _all_corners(piece)
    lowest = min((corner[2] for _, corner in corners), default=0.0)
    return tuple(
        link
        for index, corner in corners
        if corner[2] <= lowest + FLOOR_MM
        for link in _stood_on(index, corner)
    )


def _stood_on(body: int, at: Vector) -> tuple[Link, ...]:
    return (_fixed(body, at, UP, 0.0), *(_fixed(body, at, way, -FREE) for way in _LEVEL))


_LEVEL: tuple[Vector, Vector] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))


def _fixed(body: int, at: Vector, direction: Vector, least: float) -> Link:
    return Link(
        first=body,
        second=GROUND,
        at=at,
        direction=direction,
        least_n=least,
        most_n=FREE,
        carries=Carries.PUSH,
    )


def _wall(piece: Piece) -> tuple[Link, ...]:
    """Edges of blanks at the back, where the wall pushes forward, and what is anchored in it."""
    corners = _all_corners(piece)
    back = max((corner[1] for _, corner in corners), default=0.0)
    names = [each.instance for each in piece.placed]
    screws = [
        link
        for anchor in piece.anchors
        for fastener in anchor.fasteners
        for link in anchored(fastener, names.index(anchor.instance))
    ]
    return (
        *screws,
        *(
            _fixed(index, corner, (0.0, -1.0, 0.0), 0.0)
            for index, corner in corners
            if corner[1] >= back - FLOOR_MM
        ),
    )


def held_by_hand(frame: Frame, bodies: tuple[int, ...]) -> tuple[Link, ...]:
    """Links that hold some bodies still in every way, as hands do that lift the piece by them."""
    links = []
    for body in bodies:
        centre = frame.masses[body].centre_mm
        for axis in range(3):
            away = tuple(50.0 if other == axis else 0.0 for other in range(3))
            at = add(centre, (away[0], away[1], away[2]))
            for way in range(3):
                direction = tuple(1.0 if other == way else 0.0 for other in range(3))
                links.append(_fixed(body, at, (direction[0], direction[1], direction[2]), -FREE))
    return tuple(links)
