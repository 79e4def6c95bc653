"""A housed crushing in the dado: conservative estimates, and called so.

The trade has no accepted formula for the strength of a dado joint. The bound used here leaves all
glue out: the shelf's edge is a rigid tongue that presses on the lower shoulder at the mouth and on
the upper shoulder at the back, with a pressure that changes evenly along the depth.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from furniture.checks.strength import Grain, working_shear_mpa
from furniture.pieces import Offered
from furniture.rules import Rules
from furniture.rules.design import DADO_SHARE
from furniture.timber.species import Species

_HALVINGS = 60
END_GRAIN_SHARE = 0.0
GLUE_SHARE = 0.5
CROSSING_SHARE = 1.0 / 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Housing:
    """A shelf's edge in a dado, held at one side only.

    width is along the dado (the post's width), depth is into the post, reach is how far the
    load's centre stands off the post's face, above is the wood over the dado up to the post's top.
    side_grain is the glued area of side grain on side grain, end_grain that with an end grain.
    post_grain is along where the post's grain runs up and down, across where it is level.
    post_thickness is the wood that the dado is cut into, holder what it is called. brackets are the
    names of those under the shelf, bracket is how far the shortest reaches from the post's face, 0
    where that is too short to count. bearers are what the builder takes under the shelf, None where
    a maker may put anything there.
    """

    name: str
    shelf: Species
    post: Species
    width_mm: float
    depth_mm: float
    shelf_thickness_mm: float
    clearance_mm: float
    above_mm: float
    projection_mm: float
    side_grain_mm2: float
    end_grain_mm2: float
    post_grain: Grain = Grain.ALONG
    post_thickness_mm: float = 0.0
    holder: str = "the post"
    brackets: str = ""
    bracket_mm: float = 0.0
    bearers: tuple[Offered, ...] | None = None

    def most_depth_mm(self, rules: Rules) -> float:
        """How deep its dado may be [mm]: half the wood, so that the other half stays behind it.

        Args:
            rules: the maker's
        """
        return rules[DADO_SHARE] * self.post_thickness_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Lever:
    """A load on a housed shelf: a force and how far it stands off the post's face.

    `own_n` is what of it is the shelf's own weight; none where the force is a hand's, which no
    maker states.
    """

    what: str
    force_n: float
    reach_mm: float
    own_n: float | None = None


def peak_bearing_mpa(width_mm: float, depth_mm: float, force_n: float, reach_mm: float) -> float:
    """The pressure [MPa] at the mouth of the dado, where it is greatest.

    Args:
        width_mm: length of the tongue along the dado [mm]
        depth_mm: depth of the dado [mm]
        force_n: force on the shelf [N]
        reach_mm: how far it stands off the post's face [mm]

    **Source:** own mechanics, a rigid tongue between two shoulders: F/(b d) + 6 M/(b d^2) with the
    moment about the middle of the depth, M = F (reach + d/2).
    """
    moment = force_n * (reach_mm + depth_mm / 2.0)
    even = force_n / (width_mm * depth_mm)
    return even + 6.0 * moment / (width_mm * depth_mm**2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ledge:
    """What the end of a shelf lies on before its dado: how wide along it, how far out [mm]."""

    wide_mm: float
    reach_mm: float


def rested_bearing_mpa(
    width_mm: float, depth_mm: float, force_n: float, ledges: Sequence[Ledge]
) -> float:
    """The greatest pressure [MPa] under the end of a shelf in a dado and on ledges before it.

    Args:
        width_mm: length of the tongue along the dado [mm]
        depth_mm: depth of the dado [mm]
        force_n: force on the shelf, over the dado's mouth [N]
        ledges: what it also lies on

    **Source:** own mechanics, as `peak_bearing_mpa`: a rigid end whose pressure changes evenly over
    all that it lies on. A ledge never pulls: where the end would lift off, it ends.
    """

    def moments(end_mm: float) -> tuple[float, float, float]:
        """Area, its first and its second moment about the mouth [mm2, mm3, mm4]."""
        parts = [(width_mm, -depth_mm, 0.0)]
        parts += [(each.wide_mm, 0.0, min(each.reach_mm, end_mm)) for each in ledges]
        area, first, second = (
            sum(wide * (far**power - near**power) / power for wide, near, far in parts)
            for power in (1, 2, 3)
        )
        return area, first, second

    end = max((each.reach_mm for each in ledges), default=0.0)
    near, far = 0.0, end
    for _ in range(_HALVINGS):
        middle = (near + far) / 2.0
        _, first, second = moments(middle)
        near, far = (near, middle) if second < first * middle else (middle, far)
    area, first, second = moments(far)
    scale = force_n / (area * second - first**2)
    at_mouth, slope = scale * second, -scale * first
    return max(at_mouth - slope * depth_mm, at_mouth + slope * far)


def bracketed_bearing_mpa(
    width_mm: float, depth_mm: float, force_n: float, reach_mm: float, bracket_mm: float
) -> float:
    """The greatest pressure [MPa] in the dado of a shelf that also lies on brackets.

    Args:
        width_mm: length of the tongue along the dado [mm]
        depth_mm: depth of the dado [mm]
        force_n: force on the shelf [N]
        reach_mm: how far it stands off the post's face [mm]
        bracket_mm: how far the shortest bracket reaches from there [mm], above 0

    **Source:** own mechanics: before the brackets' end all of it might stand at the dado's mouth,
    beyond it the shelf turns about that end, as in `bracket_reach_mm`. The worse of both.
    """
    at_mouth = peak_bearing_mpa(width_mm, depth_mm, force_n, 0.0)
    lifting = bracketed_lift_n(depth_mm, force_n, reach_mm, bracket_mm)
    return max(at_mouth, 2.0 * lifting / (width_mm * depth_mm))


def bracketed_lift_n(depth_mm: float, force_n: float, reach_mm: float, bracket_mm: float) -> float:
    """The force [N] with which the tongue of a shelf on brackets lifts the upper shoulder.

    Args:
        depth_mm: depth of the dado [mm]
        force_n: force on the shelf [N]
        reach_mm: how far it stands off the post's face [mm]
        bracket_mm: how far the shortest bracket reaches from there [mm], above 0

    **Source:** own mechanics: the shelf turns about the bracket's end, as in `bracket_reach_mm`.
    """
    return force_n * max(0.0, reach_mm - bracket_mm) / (bracket_mm + 2.0 / 3.0 * depth_mm)


def bracket_reach_mm(width_mm: float, depth_mm: float, lever: Lever, limit_mpa: float) -> float:
    """How far a bracket must reach [mm] so that the shelf does not crush itself in its dado.

    Args:
        width_mm: length of the tongue along the dado [mm]
        depth_mm: depth of the dado [mm]
        lever: the load
        limit_mpa: the pressure that the shelf bears [MPa]

    **Source:** own mechanics: the shelf turns about the bracket's end, the upper shoulder holds
    its tongue down with a pressure that falls evenly to nothing at the mouth.
    """
    holds = limit_mpa * width_mm * depth_mm / 2.0
    arm = 2.0 / 3.0 * depth_mm
    reach = (lever.force_n * lever.reach_mm - holds * arm) / (lever.force_n + holds)
    return max(0.0, reach)


def depth_for_mm(housing: Housing, lever: Lever, limit_mpa: float) -> float:
    """The dado's depth [mm] at which the peak pressure meets the limit: a quadratic.

    Args:
        housing: the joint
        lever: the load
        limit_mpa: the pressure that the shelf bears [MPa]

    **Source:** own mechanics, `peak_bearing_mpa` solved for the depth.
    """
    # p b d^2 = F d + 6 F (reach + d/2)  =>  p b d^2 - 4 F d - 6 F reach = 0
    a, b, c = (
        limit_mpa * housing.width_mm,
        -4.0 * lever.force_n,
        -6.0 * lever.force_n * lever.reach_mm,
    )
    return float((-b + (b * b - 4.0 * a * c) ** 0.5) / (2.0 * a))


def upward_force_n(depth_mm: float, force_n: float, reach_mm: float) -> float:
    """The force [N] with which the tongue lifts the upper shoulder.

    Args:
        depth_mm: depth of the dado [mm]
        force_n: force on the shelf [N]
        reach_mm: how far it stands off the post's face [mm]

    **Source:** own mechanics: the part of the straight pressure line that points upward.
    """
    moment = force_n * (reach_mm + depth_mm / 2.0)
    even = force_n / depth_mm
    slope = 12.0 * moment / depth_mm**3
    turning = even / slope
    back = max(0.0, depth_mm / 2.0 - turning)
    return slope * back**2 / 2.0


def loose_droop_mm(clearance_mm: float, depth_mm: float, projection_mm: float) -> float:
    """How far the shelf's front edge can drop before a dry, loose joint takes hold [mm].

    Args:
        clearance_mm: dado wider than the shelf by this [mm]
        depth_mm: depth of the dado [mm]
        projection_mm: shelf in front of the post's face [mm]

    **Source:** own geometry: free turn = clearance / depth.
    """
    return clearance_mm / depth_mm * projection_mm


def droop_mm(housing: Housing) -> float:
    """The drop of the front edge [mm]: in the dado alone, or about the end of the brackets.

    Args:
        housing: the joint
    """
    if housing.bracket_mm > 0.0:
        beyond = max(0.0, housing.projection_mm - housing.bracket_mm)
        return housing.clearance_mm / housing.bracket_mm * beyond
    return loose_droop_mm(housing.clearance_mm, housing.depth_mm, housing.projection_mm)


def glue_capacity_n(housing: Housing, reach_mm: float) -> float | None:
    """The downward force [N] that the glue alone might carry; None if nothing is printed.

    The force pushes the tongue past its glued faces, and turns it: a couple between its upper and
    its lower face, each with half of the glued area. The lesser of both holds.

    Args:
        housing: the joint
        reach_mm: how far the force stands off the post's face [mm]

    **Source:** Forest Products Laboratory report 1522 (1945): glued across each other, side grains
    bear a third of the shear along them; own rules: half of it in a shop, end grain nothing;
    statics of a couple over the tongue's thickness.
    """
    strengths = [working_shear_mpa(wood, Grain.ALONG) for wood in (housing.shelf, housing.post)]
    known = [strength for strength in strengths if strength is not None]
    if len(known) < 2:
        return None
    area = housing.side_grain_mm2 + END_GRAIN_SHARE * housing.end_grain_mm2
    straight = min(known) * CROSSING_SHARE * GLUE_SHARE * area
    arm = reach_mm + housing.depth_mm / 2.0
    return min(straight, straight / 2.0 * housing.shelf_thickness_mm / arm)
