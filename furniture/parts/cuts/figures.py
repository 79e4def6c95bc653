"""What has to be said about a cut so that it can be made: where it is struck from, and its figures.

A cut gives these values in the part frame. They know no unit, no paper and no view; whoever shows
them chooses all three. Lengths in mm, angles in degrees.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from furniture.parts.blank import Blank
from furniture.parts.cuts.left import put
from furniture.parts.cuts.shapes import level_of
from furniture.parts.faces import Arris, Face
from furniture.parts.vectors import Vector

SECTION_OF_RUN: tuple[Face | None, Face, Face] = (None, Face.FACE_EDGE, Face.FACE_SIDE)
"""The face that shows the outline of what runs along each part axis; along the grain none does."""


class Care(Enum):
    """How a length comes to the wood, and so how exactly it has to be told."""

    RULE = "measured with a rule"
    DIAL = "set on a machine's dial"
    FIT = "another part must fit it"


@dataclass(frozen=True, slots=True)
class Size:
    """A length [mm]."""

    mm: float
    care: Care


@dataclass(frozen=True, slots=True)
class Angle:
    """An angle [deg]."""

    deg: float


Figure = Size | Angle | Face | Arris


@dataclass(frozen=True, slots=True)
class Said:
    """Some figures, and what they mean."""

    what: Wording
    figures: tuple[Figure, ...] = ()


class Wording(Enum):
    """What figures mean, in the words of a callout; braces hold their places."""

    def of(self, *figures: Figure) -> Said:
        """Said of figures, in the order of its words."""
        return Said(self, figures)

    def ruled(self, mm: float) -> Said:
        """Said of a length that is measured with a rule [mm]."""
        return self.of(Size(mm, Care.RULE))

    def where_any(self, mm: float) -> tuple[Said, ...]:
        """The same [mm]; nothing is said of a radius of 0."""
        return (self.ruled(mm),) if mm > 0 else ()

    def dialled(self, mm: float) -> Said:
        """Said of a length that a machine is set to by a dial [mm]."""
        return self.of(Size(mm, Care.DIAL))

    def fitted(self, mm: float) -> Said:
        """Said of a length that another part must fit [mm]."""
        return self.of(Size(mm, Care.FIT))


class Says(Wording):
    """What the figures of cuts mean; a cut with words of its own has a wording of its own."""

    WIDE = "{} wide"
    DEEP = "{} deep"
    LONG = "{} long"
    THICK = "{} thick"
    BARE = "{}"
    DOWN = "{} down"
    INTO_THICKNESS = "{} into the thickness"
    DEEP_FROM_CORNER = "{} deep from the outside corner"
    DIAMETER = "dia {}"
    COUNTERSUNK = "countersunk dia {} at {}"
    RADIUS = "R{}"
    CORNERS = "corners R{}"
    INNER_CORNERS = "inner corners R{}"
    BOTH_ARRISES = "R{} on both arrises"
    FROM_TONGUE_END = "{} from the end of the tongue"
    THROUGH = "through"
    STOPPED = "stopped short of {}"
    STOPPED_TWICE = "stopped short of {} and {}"
    ALONG_GRAIN = "along the grain"
    ACROSS_GRAIN = "across the grain"
    ROUND_ENDS = "round ends"
    HALF_ROUND = "half round"
    BLADE_TILTED = "{}, blade tilted"
    GAUGE_TURNED = "{}, gauge turned"
    SQUARE_TO_MITRE = "square to the mitre"
    ACROSS_MITRE = "across the glued mitre"
    IN = "in {}"
    ON = "on {}"
    FROM = "from {}"
    CENTRED_ON = "centred on {}"
    ALONG_ON = "along {}, on {}"
    ON_TOWARDS = "on {}, towards {}"
    LONG_POINT = "{}, long point on {}"
    DOWN_MITRE = "{}, {} down the mitre from the long point"


@dataclass(frozen=True, slots=True, kw_only=True)
class Struck:
    """A place marked on the wood from the datum of an axis.

    Args:
        axis: 0 from the named end, 1 from the face edge, 2 from the face side.
        point: the place, part frame [mm].
        seen: the face that shows it; None is seen only where the part is cut across.
        care: how it comes to the wood.
    """

    axis: int
    point: Vector
    seen: Face | None
    care: Care = Care.RULE

    def value_mm(self, blank: Blank) -> float:
        """How far it lies from its datum [mm]."""
        at = self.point[self.axis]
        return blank.thickness_mm - at if self.axis == 2 else at


@dataclass(frozen=True, slots=True, kw_only=True)
class Spanned:
    """A size between two places that a view shows, so that it can carry a dimension line.

    Args:
        size: the length.
        start: one place, part frame [mm].
        end: the other.
        seen: the face that shows it; None is seen only where the part is cut across.
    """

    size: Size
    start: Vector
    end: Vector
    seen: Face | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """Everything that defines one cut, apart from its name.

    Args:
        sizes: those that are told in one breath.
        more: what is told after them.
        place: where on the part.
        at: the point of the cut that is meant, part frame [mm].
        seen: the face that shows it; None is seen only where the part is cut across.
        spans: those of the sizes that dimension lines tell instead of words.
        struck: the places that are marked from the part's datums.
        stops: where it ends short of an edge or an end, marked from a datum too.
        shoulder: the one of them to mark it from, where it has two shoulders.
        shoulder_to: where that shoulder ends, which begins where it is struck [mm].
        centres: the middles of its rounds, each with its radius [mm].
        section_mm: both sizes of its cross-section, where it may be too small to be seen [mm].
    """

    sizes: tuple[Said, ...]
    more: tuple[Said, ...] = ()
    place: Said
    at: Vector
    seen: Face | None
    spans: tuple[Spanned, ...] = ()
    struck: tuple[Struck, ...] = ()
    stops: tuple[Struck, ...] = ()
    shoulder: Struck | None = None
    shoulder_to: Vector | None = None
    centres: tuple[tuple[Vector, float], ...] = ()
    section_mm: tuple[float, float] | None = None


def sunk(depth_mm: float | None) -> Said:
    """How deep a hole goes [mm]; None is right through."""
    return Says.THROUGH.of() if depth_mm is None else Says.DEEP.dialled(depth_mm)


def stopped(*stops: tuple[float, Face], corner_mm: float = 0.0) -> tuple[Said, ...]:
    """That wood is left at one or both ends of a run [mm], and the radius of its corners there."""
    left = [face for mm, face in stops if mm > 0]
    what = Says.STOPPED if len(left) == 1 else Says.STOPPED_TWICE
    return (what.of(*left), *Says.CORNERS.where_any(corner_mm)) if left else ()


def stops_struck(
    blank: Blank, mouth: Vector, seen: Face, *stops: tuple[float, Face]
) -> tuple[Struck, ...]:
    """Where a run ends that wood is left beyond.

    Args:
        blank: that it is cut from.
        mouth: any point of the run's middle line, part frame [mm].
        seen: the face that shows it.
        stops: the wood left [mm], and at which edge or end.
    """
    return tuple(
        Struck(
            axis=face.axis,
            point=put(mouth, face.axis, abs(level_of(face, blank) - mm)),
            seen=seen,
        )
        for mm, face in stops
        if mm > 0
    )


def struck_on(face: Face, point: Vector, care: Care = Care.RULE) -> tuple[Struck, ...]:
    """A point in a face, marked on both axes of that face.

    In the thickness it is set with a gauge or a jig, and a mate must fit it there.
    """
    axes = (axis for axis in range(3) if axis != face.axis)
    return tuple(
        Struck(axis=axis, point=point, seen=face, care=_finer(care) if axis == 2 else care)
        for axis in axes
    )


def _finer(care: Care) -> Care:
    return Care.DIAL if care is Care.RULE else care
