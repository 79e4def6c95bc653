"""What fasteners bear: dowels, pins and screws across a joint, from the woods they stand in."""

from __future__ import annotations

import math

from furniture.joints.joint import Driven, Fastener, HoldBy, InSlot, JointFace
from furniture.joints.leaf import Leaf
from furniture.joints.relation import axis_along
from furniture.parts.cuts import Along
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, add, scaled
from furniture.rules.strengths import PIN_END_SHARE, SCREW_END_SHARE
from furniture.timber.wood import Kind, Species

DOWEL_SHEAR_MPA, DOWEL_DIVISOR = 3.0, 4.0
"""Mean shear of the glue round a dowel, as badly wetted [MPa], and its divisor.

**Source:** BioResources 13(3) 5179: 3.0 badly wetted, 4.9 to 5.4 else; 15(1) 1665: 3 (plain, 85 %
humidity) to 8.6 (abstracts read). The divisor is the one of all solid wood here (own rule).
"""
PIN_FACTOR, PIN_DIVISOR = 54.12, 6.0
"""Mean withdrawal of a smooth nail, 54.12 G^2.5 D L [N, mm], and its divisor.

**Source:** Wood Handbook Eq. 8-1 (read); it takes a fifth as allowable, a sixth is from memory.
"""
SCREW_FACTOR, SCREW_DIVISOR = 108.25, 5.0
"""Mean withdrawal of a wood screw, 108.25 G^2 D L [N, mm], and its divisor.

**Source:** Wood Handbook ch. 8 (from memory; 5.5 times the allowable 2850 G^2 D L lb an inch, which
was read in tables of two engineering sites).
"""
SIDE_SHARE, SIDE_DIVISOR = 1.0 / 2.5, 2.7
"""From bearing on its whole length to what a fastener bears across it, and the divisor. Own rule.
"""

_PULL_SOURCE = {
    HoldBy.DOWEL: "pull: pi d l x 3.0 MPa / 4 (BioResources 13(3) 5179, abstract; own divisor)",
    HoldBy.PEG: "pull: pi d l x 3.0 MPa / 4, as a dowel (own rule)",
    HoldBy.PIN: "pull: 54.12 G^2.5 D L / 6 (Wood Handbook Eq. 8-1, read; the sixth from memory), "
    "half in end grain (own rule)",
    HoldBy.SCREW: "pull: 108.25 G^2 D L / 5 (Wood Handbook ch. 8, from memory), a quarter in "
    "end grain (own rule)",
    HoldBy.WEDGE: "pull: no figure",
    HoldBy.HINGE: "pull: its screws as a leaf pries them out; 108.25 G^2 D L / 5 each (Wood "
    "Handbook ch. 8, from memory)",
}
_SIDE_SOURCE = "across: bearing d l / 2.5 / 2.7, bearing by EC5 8.15, 8.32 (from memory; own rule)"


def dowel_pull_n(diameter_mm: float, depth_mm: float) -> float:
    """What a glued dowel bears along its axis [N], by its shorter end [mm].

    **Source:** as `DOWEL_SHEAR_MPA`.
    """
    return math.pi * diameter_mm * depth_mm * DOWEL_SHEAR_MPA / DOWEL_DIVISOR


def pin_pull_n(gravity: float, diameter_mm: float, depth_mm: float, *, end_grain: bool) -> float:
    """What a smooth pin bears along its axis [N].

    Args:
        gravity: specific gravity of the wood that it bites, at 12 % moisture.
        diameter_mm: of the pin.
        depth_mm: how far it bites.
        end_grain: whether it is driven along the grain.

    **Source:** as `PIN_FACTOR` and `PIN_END_SHARE`.
    """
    share = PIN_END_SHARE.value if end_grain else 1.0
    return float(PIN_FACTOR * gravity**2.5 * diameter_mm * depth_mm / PIN_DIVISOR * share)


def screw_pull_n(gravity: float, diameter_mm: float, depth_mm: float, *, end_grain: bool) -> float:
    """What a wood screw bears along its axis [N]; a quarter of it is counted in end grain.

    Args:
        gravity: specific gravity of the wood that it bites, at 12 % moisture.
        diameter_mm: of its shank.
        depth_mm: how far it bites.
        end_grain: whether it is driven along the grain.

    **Source:** as `SCREW_FACTOR`; in end grain 75 % on average but erratic (Wood Handbook, as a
    woodworkers' page quotes it), never to be relied on (a construction handbook, read): a quarter,
    own rule.
    """
    share = SCREW_END_SHARE.value if end_grain else 1.0
    return SCREW_FACTOR * gravity**2 * diameter_mm * depth_mm / SCREW_DIVISOR * share


def bearing_mpa(gravity: float, diameter_mm: float, *, is_bored: bool) -> float:
    """How hard a fastener presses into wood before it gives [MPa].

    Args:
        gravity: specific gravity of the wood at 12 % moisture.
        diameter_mm: of the fastener.
        is_bored: whether it stands in a bore of its own size.

    **Source:** EC5 8.15 (driven) and 8.32 (bored), from memory, with a thousand times the gravity
    as density.
    """
    if is_bored:
        return 0.082 * (1.0 - 0.01 * diameter_mm) * gravity * 1000.0
    return float(0.082 * gravity * 1000.0 / diameter_mm**0.3)


def side_n(
    gravities: tuple[float, float], depths_mm: tuple[float, float], diameter_mm: float, by: HoldBy
) -> float:
    """What a fastener bears across its axis [N], by the end that gives first.

    Args:
        gravities: specific gravity of both woods at 12 % moisture.
        depths_mm: how far it stands in each.
        diameter_mm: of the fastener.
        by: what it is; pins are driven, the others bored for.

    **Source:** as `SIDE_SHARE` and `bearing_mpa`.
    """
    is_bored = by is not HoldBy.PIN
    pressed = (
        bearing_mpa(gravity, diameter_mm, is_bored=is_bored) * diameter_mm * depth
        for gravity, depth in zip(gravities, depths_mm, strict=True)
    )
    return min(pressed) * SIDE_SHARE / SIDE_DIVISOR


def fastener_at(
    driven: Driven, at: Vector, axis: Vector, into: Placed, incoming: Placed
) -> Fastener:
    """A fastener in its place, with what it bears there.

    Args:
        driven: what it is and how far it stands in both parts.
        at: where its axis crosses the meeting face, piece frame [mm].
        axis: the unit vector into the part that is gone into.
        into: that part.
        incoming: the other part.
    """
    woods = (incoming.part.timber.species, into.part.timber.species)
    first, second = (gravity_felt(each) for each in woods)
    side, is_weak = None, _is_weak_way(into, axis)
    if first is not None and second is not None:
        depths = (driven.incoming_mm, driven.into_mm)
        side = side_n((first, second), depths, driven.diameter_mm, driven.by)
    slot = None
    if driven.slides is not None:
        axes = incoming.placement
        along = axes.x_axis if driven.slides is Along.GRAIN else axes.y_axis
        slot, side = InSlot(along=along, across_n=side), 0.0
    return Fastener(
        by=driven.by,
        at=at,
        axis=axis,
        diameter_mm=driven.diameter_mm,
        incoming_mm=driven.incoming_mm,
        into_mm=driven.into_mm,
        is_glued=driven.is_glued,
        head_holds=driven.head_holds,
        pull_n=_pull_n(driven, second, is_weak),
        side_n=side,
        source=f"{_PULL_SOURCE[driven.by]}; {_SIDE_SOURCE}",
        name=driven.name,
        note=driven.note,
        end_gap_mm=driven.end_gap_mm,
        in_end_grain=is_weak,
        slot=slot,
    )


def hinge_at(leaf: Leaf, pin: Vector, axis: Vector, into: Placed, incoming: Placed) -> Fastener:
    """A butt hinge in its place: what its screws bear at its pin, by the softer wood.

    Args:
        leaf: the hinge.
        pin: the middle of its pin, piece frame [mm].
        axis: the unit vector into the part that it hangs on.
        into: that part.
        incoming: the part that turns.
    """
    parts = (into, incoming)
    known = [each for each in (gravity_felt(part.part.timber.species) for part in parts) if each]
    pull = side = None
    if len(known) == len(parts):
        screws = [
            screw_pull_n(
                gravity, leaf.screw_mm, leaf.bite_mm, end_grain=_is_weak_way(part, axis)
            )
            for gravity, part in zip(known, parts, strict=True)
        ]  # fmt: skip
        pull = len(leaf.screws_mm) * min(screws) * leaf.pried_share
        bites = (leaf.bite_mm, leaf.bite_mm)
        each = side_n((known[0], known[1]), bites, leaf.screw_mm, HoldBy.SCREW)
        side = len(leaf.screws_mm) * each
    return Fastener(
        by=HoldBy.HINGE,
        at=pin,
        axis=axis,
        diameter_mm=leaf.barrel_mm,
        incoming_mm=leaf.folded_mm / 2,
        into_mm=leaf.folded_mm / 2,
        is_glued=False,
        head_holds=True,
        pull_n=pull,
        side_n=side,
        source=f"{_PULL_SOURCE[HoldBy.HINGE]}; {_SIDE_SOURCE}",
        name=leaf.name,
        bears_too=True,
        asked_by_mm=(None, leaf.length_mm),
    )


def gravity_felt(species: Species) -> float | None:
    """The specific gravity that fasteners feel: of a sheet's face, where its layers are known.

    Args:
        species: of the wood; None where no gravity of it is known.
    """
    known = species.holding_gravity
    return species.specific_gravity_12 if known is None else known


def _is_weak_way(into: Placed, axis: Vector) -> bool:
    """Whether a fastener stands in end grain, or between the layers of a sheet's edge.

    **Source:** edges hold less than faces (Wu 1999, two furniture plywoods, abstract read); that
    they are counted as end grain is an own rule.
    """
    along = axis_along(into, axis)
    return along != 2 if into.part.timber.species.kind is Kind.SHEET else along == 0


def _pull_n(driven: Driven, gravity: float | None, end_grain: bool) -> float | None:
    size, bite = driven.diameter_mm, driven.into_mm
    if driven.is_glued:
        return dowel_pull_n(size, min(bite, driven.incoming_mm))
    if gravity is None:
        return None
    if driven.by is HoldBy.PIN:
        return pin_pull_n(gravity, size, bite, end_grain=end_grain)
    if driven.by is HoldBy.SCREW:
        return screw_pull_n(gravity, size, bite, end_grain=end_grain)
    return None


def driven_through(
    driven: tuple[Driven, ...], faces: tuple[JointFace, ...], into: Placed, incoming: Placed
) -> tuple[Fastener, ...]:
    """The fasteners that are driven through a joint's first face, each at its place along it.

    Args:
        driven: what is driven.
        faces: of the joint, as it states them; the first is what the incoming part bears on.
        into: the part that is gone into.
        incoming: the part that they pass.
    """
    if not faces:
        return ()
    face = faces[0]
    return tuple(
        fastener_at(
            each,
            add(face.centre, scaled(face.along, each.off_middle_mm)),
            face.normal,
            into,
            incoming,
        )
        for each in driven
    )
