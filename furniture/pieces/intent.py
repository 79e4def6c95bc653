"""What a builder knows of a piece and no solid tells: what its openings are for, where its box is
free inside, and which of its parameters draws the base out.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum
from typing import TYPE_CHECKING, Protocol

from furniture.parts.vectors import Vector, turned_about
from furniture.pieces.bought import Bought

if TYPE_CHECKING:
    from furniture.pieces.piece import Piece


class OpeningFor(Enum):
    """What goes through an opening."""

    CABLE = "cable"
    DRAIN = "drain"
    AIR = "air"


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedOpening:
    """An opening right through an instance: its centre, its axis, and its diameter or width [mm].

    The axis is a unit vector; both are in the piece frame. `least_mm` is how small it may be made,
    for what passes it or sits in it; None where its builder does not say.
    """

    purpose: OpeningFor
    instance: str
    centre: Vector
    axis: Vector
    size_mm: float
    least_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """The free inside of a box, piece frame [mm], clear of what stands in it and of its ballast.

    `is_open_below` is a box without a bottom; its floor is where one would be.
    """

    low: Vector
    high: Vector
    is_open_below: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class LongerScrews:
    """The screws of hinges or of a stay, and the longer ones that are sold [mm].

    `above_mm` of their length is in no wood; longer than `most_mm` they come out of what is `thin`.
    """

    length_mm: float
    above_mm: float
    most_mm: float
    thin: str
    sold_mm: tuple[float, ...]

    def bearing(self, share: float) -> float:
        """How long they must be [mm] to bear so many times what these do, as they bite deeper.

        Args:
            share: how many times [-].
        """
        return self.above_mm + share * (self.length_mm - self.above_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnsOpen:
    """An instance that turns on hinges, as it lies closed, piece frame [mm].

    It opens by `opens_deg` about the unit vector `axis` through `pin`, right-handed. Each of
    `stays` is fixed to it and to what stands still at two points, and bears `stay_bears_n`, None
    where nobody knows; `stay` is what is bought for each. `front` is where it is taken hold of, and
    `over_mm` how far it stands out there over what it closes on, None where it lies within a rim.
    """

    instance: str
    hinged_to: str
    pin: Vector
    axis: Vector
    opens_deg: float
    stays: tuple[tuple[Vector, Vector], ...]
    stay_bears_n: float | None
    front: Vector
    over_mm: float | None
    hinge_screws: LongerScrews
    stay_screws: LongerScrews
    stay: Bought | None = None

    def opened(self, point: Vector) -> Vector:
        """Where a point of the closed lid is once it is open [mm].

        Args:
            point: of the closed lid [mm].
        """
        return turned_about(point, self.pin, self.axis, self.opens_deg)


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnOut:
    """A parameter of the builder that draws the base out at some sides.

    `now_mm` is its figure and `most_mm` the greatest that the builder takes; it grows by `times`
    what each of the sides does. `size` is what one says of the base: "deep" or "wide".
    """

    parameter: str
    size: str
    now_mm: float
    most_mm: float
    sides: tuple[str, ...]
    times: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TierSeen:
    """A tier as one sees it: its width from the front, how far it stands out from the side [mm]."""

    instance: str
    width_mm: float
    depth_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Proportion:
    """A stand's tiers from the lowest up, and how narrow and shallow they may be made [mm].

    `least_width_mm` is None where their width is no figure of their own.
    """

    tiers: tuple[TierSeen, ...]
    least_width_mm: float | None
    least_depth_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """A bought thing that is fixed to the finished wood, with what holds it.

    Args:
        things: itself, then its screw where it has one.
        on: the instance.
        at: the middle of its foot, on the wood [mm].
        along: unit vector along the longer side of its foot.
        out: unit vector away from the wood.
        size_mm: of its foot, along that side and across it.
    """

    things: tuple[Bought, ...]
    on: str
    at: Vector
    along: Vector
    out: Vector
    size_mm: tuple[float, float]


class Under(Enum):
    """What may be put under a level part."""

    BRACKET = "bracket"
    CLEAT = "cleat"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bearer:
    """What a builder puts under a level part, against each of what holds it, or has there [mm].

    So many bear it side by side, over `wide_mm` of what holds it in all, and reach `least_mm` to
    `most_mm` from there. The `parameter` is the builder's that says so; `there` are the instances
    that bear it already.
    """

    under: Under
    parameter: str
    count: int
    wide_mm: float
    least_mm: float
    most_mm: float
    there: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Bearable:
    """A level part, and all that its builder takes under it: nothing else is."""

    instance: str
    bearers: tuple[Bearer, ...]


class BuiltAgain(Protocol):
    """A design that can be built once more with something put under one of its level parts."""

    def with_under(self, instance: str, bearer: Bearer, reach_mm: float) -> Piece | None:
        """The piece with that under a part, reaching so far [mm]; None where it is refused."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offered:
    """What may be put under an instance, and the design that is built with it to try it."""

    instance: str
    bearer: Bearer
    again: BuiltAgain

    def built(self, reach_mm: float) -> Piece | None:
        """The piece that has it; None where its builder refuses it, as with an opening in the way.

        Args:
            reach_mm: how far it reaches [mm], or a cleat is thick.
        """
        return self.again.with_under(self.instance, self.bearer, reach_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Intent:
    """What a builder states beside parts and joints; a maker who places parts may state less.

    Args:
        openings: those whose purpose is known.
        inside: of its box; none where it has no box, or where nobody says.
        base: the instances that grow when the base is drawn out.
        drawn_out: by which parameters; None where a maker places the parts and may draw out any
            side, and empty where nothing draws it out.
        proportion: of its tiers; none where it has none, or where nobody says.
        takes_corner_parts: whether splines and keys across mitred corners are a parameter.
        bearable: what may be put under its level parts; None where a maker may put anything there.
        again: the design that it was built from; None where nothing can be put under its parts.
        opens: what of it turns on hinges.
        fitted: what is fixed to it over its finish.
    """

    openings: tuple[PlacedOpening, ...] = ()
    inside: Inside | None = None
    base: tuple[str, ...] = ()
    drawn_out: tuple[DrawnOut, ...] | None = None
    takes_corner_parts: bool = False
    proportion: Proportion | None = None
    bearable: tuple[Bearable, ...] | None = None
    again: BuiltAgain | None = None
    opens: tuple[TurnsOpen, ...] = ()
    fitted: tuple[Fitted, ...] = ()

    def offered(self, instance: str) -> tuple[Offered, ...] | None:
        """What may be put under a level part; None where a maker may put anything there.

        Args:
            instance: the part.
        """
        if self.bearable is None:
            return None
        again = self.again
        return tuple(
            Offered(instance=instance, bearer=bearer, again=again)
            for each in self.bearable
            if each.instance == instance and again is not None
            for bearer in each.bearers
        )

    def lifted(self, height: float) -> Intent:
        """The same with everything raised by a height [mm]."""
        inside = self.inside
        return replace(
            self,
            openings=tuple(
                replace(each, centre=_raised(each.centre, height)) for each in self.openings
            ),
            opens=tuple(
                replace(
                    each,
                    pin=_raised(each.pin, height),
                    front=_raised(each.front, height),
                    stays=tuple((_raised(a, height), _raised(b, height)) for a, b in each.stays),
                )
                for each in self.opens
            ),
            fitted=tuple(replace(each, at=_raised(each.at, height)) for each in self.fitted),
            inside=None
            if inside is None
            else replace(
                inside, low=_raised(inside.low, height), high=_raised(inside.high, height)
            ),
        )


def _raised(point: Vector, height: float) -> Vector:
    return (point[0], point[1], point[2] + height)
