"""How every level surface of a piece is borne: from one side, between two, or on rails."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from furniture.checks.housing import Ledge
from furniture.checks.of_piece.reading import Held, box_round, held_of, merged
from furniture.checks.of_piece.sections import reach_along
from furniture.checks.of_piece.standing import standing_of
from furniture.checks.stability import Load, Surface
from furniture.checks.stability_findings import Standing
from furniture.checks.support import Edge
from furniture.joints.joint import Role
from furniture.parts.part import Placed
from furniture.parts.placement import Box
from furniture.parts.vectors import Vector, dot
from furniture.pieces import LoadKind, Offered, Piece, Stance, placed_named
from furniture.pieces.weighed import Weighed
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.design import LEAST_BRACKET
from furniture.rules.standing import HAND, HAND_FROM_EDGE, SEAT_FACTOR, STEP_PAD, STEP_PRESS
from furniture.rules.staying import LIES_ON_WITHIN
from furniture.units import the_listed
from furniture.units.gravity import GRAVITY_M_S2

_LEVEL = 0.9


@dataclass(frozen=True, slots=True, kw_only=True)
class Supported:
    """A level part that carries things: what holds it, what stands on it, what it weighs.

    `sides` are its housings, those on one side together; none where it lies on rails. `rails` are
    the rails that it lies on, and `weight_n` is its own weight. `brackets` are parts that it lies
    on, which are fixed to what holds it from one side, `bearers` what its builder takes under it,
    None where a maker may put anything there. `persons` press on it as steps and seats are
    tested, and `hand_n` is what a hand on its front edge presses with before the piece tips.
    """

    shelf: Placed
    box: Box
    sides: tuple[tuple[Held, ...], ...]
    rails: tuple[Placed, ...]
    loads: tuple[Load, ...]
    weight_n: float
    brackets: tuple[Placed, ...] = ()
    persons: tuple[Load, ...] = ()
    bearers: tuple[Offered, ...] | None = None
    hand_n: float

    @property
    def name(self) -> str:
        """The instance's name."""
        return self.shelf.instance

    @property
    def thickness_mm(self) -> float:
        """Its thickness [mm]."""
        return self.shelf.part.blank.thickness_mm

    @property
    def one_side(self) -> tuple[Held, ...]:
        """The housings that hold it alone, from one side; none where it is borne otherwise."""
        return self.sides[0] if len(self.sides) == 1 and not self.rails else ()

    @property
    def holder_name(self) -> str:
        """What holds it from one side, by the names of its parts."""
        return the_listed([each.into.instance for each in self.one_side])

    def bracket_reach_mm(self, rules: Rules) -> float:
        """How far the shortest of its brackets reaches from what holds it [mm]; 0 if none counts.

        One that is shorter than a bracket should be wedges the shelf up rather than bears it.
        """
        if not self.one_side or not self.brackets:
            return 0.0
        held = self.one_side[0]
        reach = min(
            reach_along(box_round(each), held.out)[1] - held.face_mm for each in self.brackets
        )
        least = rules[LEAST_BRACKET] * self.projection_mm(held) - LIES_ON_WITHIN.value
        return reach if reach >= least else 0.0

    @property
    def two_sides(self) -> tuple[Held, Held] | None:
        """A housing at either end of it, or None."""
        for first in self.sides:
            for second in self.sides:
                if not self.rails and dot(first[0].out, second[0].out) < -0.9:
                    return (first[0], second[0])
        return None

    def size_along(self, direction: Vector) -> float:
        """Its size along a direction of the piece [mm]."""
        low, high = self.box
        return sum(abs(direction[axis]) * (high[axis] - low[axis]) for axis in range(3))

    def projection_mm(self, held: Held) -> float:
        """From the face of what holds it to its far edge [mm]."""
        low, high = self.box
        ends = (dot(low, held.out), dot(high, held.out))
        return max(ends) - held.face_mm

    def footprint_along(self, load: Load, direction: Vector) -> float:
        """A load's size along a direction of the piece [mm]."""
        return load.footprint_mm[0] if abs(direction[0]) > 0.5 else load.footprint_mm[1]


def brackets_of(piece: Piece, shelf: Placed, held: Sequence[Held]) -> tuple[Placed, ...]:
    """The parts that a shelf lies on and that are joined to what holds it, against its face.

    Args:
        piece: the piece as cut
        shelf: the shelf
        held: the housings that hold it, all from one side

    **Source:** own rule, geometry of the boxes round its parts; a bracket begins at the face of
    what holds the shelf, and the shelf touches its top.
    """
    if not held:
        return ()
    holders = {each.into.instance for each in held}
    joined = {
        name
        for each in piece.joinings
        for name, other in ((each.into, each.incoming), (each.incoming, each.into))
        if other in holders
    }
    (low, high), out = box_round(shelf), held[0].out
    return tuple(
        each
        for each in piece.placed
        if each.instance in joined - holders - {shelf.instance}
        for under, top in [box_round(each)]
        if abs(top[2] - low[2]) < LIES_ON_WITHIN.value
        and all(under[axis] < high[axis] and top[axis] > low[axis] for axis in (0, 1))
        and abs(reach_along((under, top), out)[0] - held[0].face_mm) < LIES_ON_WITHIN.value
    )


def ledges_of(
    piece: Piece, shelf: Placed, under: Sequence[Placed], out: Vector
) -> tuple[Ledge, ...]:
    """Where a shelf lies on the parts under it, as their joints with it say.

    Args:
        piece: the piece as cut
        shelf: the shelf
        under: the parts, which begin at the face of what holds it
        out: the unit vector away from that face
    """
    pairs = [{shelf.instance, each.instance} for each in under]
    return tuple(
        Ledge(wide_mm=face.area_mm2 / reach, reach_mm=reach)
        for joining in piece.joinings
        if {joining.into, joining.incoming} in pairs
        for face in joining.faces
        if abs(face.normal[2]) > _LEVEL
        for reach in [face.run_mm if abs(dot(face.along, out)) > _LEVEL else face.deep_mm]
    )


def supported_of(
    piece: Piece, weighed: Weighed, rules: Rules = USUAL_RULES, *, is_fixed: bool = False
) -> tuple[Supported, ...]:
    """Every level surface of the piece with what bears it and what it bears.

    Args:
        piece: the piece as cut
        weighed: its mass
        rules: the maker's
        is_fixed: whether it is fixed to a wall, so that no hand tips it
    """
    standing = standing_of(piece, weighed)
    is_held = is_fixed or piece.stance is Stance.WALL
    surfaces = {each.name: each for each in standing.surfaces}
    found = []
    for surface in piece.surfaces:
        shelf = placed_named(piece, surface.instance)
        sides = merged(held_of(piece, surface.instance))
        found.append(
            Supported(
                shelf=shelf,
                box=box_round(shelf),
                sides=sides,
                brackets=brackets_of(piece, shelf, sides[0] if len(sides) == 1 else ()),
                rails=tuple(
                    placed_named(piece, joining.into)
                    for joining in piece.joinings
                    if joining.incoming == surface.instance and joining.role is Role.RIM
                ),
                loads=tuple(load for load in standing.loads if load.on.name == surface.instance),
                weight_n=weighed.parts[shelf.part.id].mass_kg * GRAVITY_M_S2,
                persons=persons_on(piece, surfaces[surface.instance], rules),
                bearers=piece.intent.offered(surface.instance),
                hand_n=rules[HAND]
                if is_held
                else hand_before_it_tips_n(standing, surfaces[surface.instance], rules),
            )
        )
    return tuple(found)


def persons_on(piece: Piece, surface: Surface, rules: Rules) -> tuple[Load, ...]:
    """The persons stated for a surface, as the loads that steps and seats are tested with.

    Args:
        piece: the piece as cut
        surface: a level surface of it
        rules: the maker's

    **Source:** EN 14183 for one who stands; a multiple of his weight for one who sits, own rule.
    """
    pad = rules[STEP_PAD]
    return tuple(
        Load(
            name=f"{each.name} on {each.on}",
            thing=each.name,
            on=surface,
            mass_kg=rules[STEP_PRESS] / GRAVITY_M_S2
            if each.kind is LoadKind.PERSON_STANDING
            else rules[SEAT_FACTOR] * each.mass_kg,
            footprint_mm=(pad, pad) if each.kind is LoadKind.PERSON_STANDING else each.footprint_mm,
            centre_height_mm=0.0,
        )
        for each in piece.loads
        if each.on == surface.name and each.kind.is_person
    )


def hand_before_it_tips_n(standing: Standing, surface: Surface, rules: Rules) -> float:
    """What a hand presses with on the middle of a front edge before the piece tips [N].

    Args:
        standing: the piece as it stands
        surface: the surface whose edge it leans on
        rules: the maker's

    **Source:** statics; loads hold the piece down where their surfaces' middles do.
    """
    try:
        edges = standing.edges()
    except ValueError:
        return rules[HAND]
    at = ((surface.x0_mm + surface.x1_mm) / 2.0, surface.y0_mm + rules[HAND_FROM_EDGE])
    presses = [rules[HAND]]
    for edge in edges:
        arm = -edge.inside_mm(at)
        if arm > 0.0:
            presses.append(_held_down_nmm(standing, edge) / arm)
    return max(0.0, min(presses))


def _held_down_nmm(standing: Standing, edge: Edge) -> float:
    own = standing.piece.weight_n * edge.inside_mm(standing.piece.centre_mm[:2])
    helping = (
        load.mass_kg
        * GRAVITY_M_S2
        * edge.inside_mm(
            ((load.on.x0_mm + load.on.x1_mm) / 2.0, (load.on.y0_mm + load.on.y1_mm) / 2.0)
        )
        for load in standing.loads
    )
    return own + sum(max(0.0, each) for each in helping)
