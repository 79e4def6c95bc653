"""What has to be said about a cut so that it can be made: running figures and a callout.

Every number comes from the cut and the blank, in the part frame; nothing here knows of paper.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum
from typing import TypeVar

from exporters.faces import PartFaces
from exporters.views.values import ViewFrame
from furniture.parts.blank import Blank
from furniture.parts.cuts.figures import Care
from furniture.parts.faces import Face
from furniture.parts.vectors import Vector
from furniture.units import Shown, dialled, figure, plural
from furniture.units.showing import is_rounded as says_rounded

_SAME_MM = 0.0005


class Look(Enum):
    """A way to look at a part that a sheet may show."""

    FACE_SIDE = Face.FACE_SIDE.value
    BACK_SIDE = Face.BACK_SIDE.value
    FACE_EDGE = Face.FACE_EDGE.value
    BACK_EDGE = Face.BACK_EDGE.value
    NAMED_END = Face.NAMED_END.value
    FAR_END = Face.FAR_END.value
    SECTION = "section"
    """Cut across the grain, where nothing but what runs along the part is met."""


LOOK_OF_FACE: dict[Face, Look] = {
    Face.FACE_SIDE: Look.FACE_SIDE,
    Face.BACK_SIDE: Look.BACK_SIDE,
    Face.FACE_EDGE: Look.FACE_EDGE,
    Face.BACK_EDGE: Look.BACK_EDGE,
    Face.NAMED_END: Look.NAMED_END,
    Face.FAR_END: Look.FAR_END,
}
FACE_OF_LOOK: dict[Look, Face] = {look: face for face, look in LOOK_OF_FACE.items()}
_X: Vector = (1.0, 0.0, 0.0)
_Y: Vector = (0.0, 1.0, 0.0)
_Z: Vector = (0.0, 0.0, 1.0)
_BACK_Y: Vector = (0.0, -1.0, 0.0)
_DOWN_Z: Vector = (0.0, 0.0, -1.0)
FRAMES: dict[Look, ViewFrame] = {
    Look.FACE_SIDE: ViewFrame(right=_X, up=_Y),
    Look.BACK_SIDE: ViewFrame(right=_X, up=_BACK_Y),
    Look.FACE_EDGE: ViewFrame(right=_X, up=_Z),
    Look.BACK_EDGE: ViewFrame(right=_X, up=_DOWN_Z),
    Look.NAMED_END: ViewFrame(right=_Z, up=_Y),
    Look.FAR_END: ViewFrame(right=_DOWN_Z, up=_Y),
    Look.SECTION: ViewFrame(right=_DOWN_Z, up=_Y),
}
"""The grain lies level in every long view, the named end to the left; ends stand face edge down."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Position:
    """A running figure: how far along an axis a feature lies from its datum.

    Args:
        axis: of the part frame.
        value_mm: from the axis's datum, as the sheet says it [mm].
        point: where the feature meets the extension line, part frame [mm].
        look: the view that shows it.
        care: how it comes to the wood.
    """

    axis: int
    value_mm: float
    point: Vector
    look: Look
    care: Care


@dataclass(frozen=True, slots=True)
class Shoulder:
    """A shoulder to mark from: its running figure, and from where to where it goes [mm]."""

    at: Position
    first: Vector
    last: Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class SpanShown:
    """A size that carries a dimension line in a view: between which places of the part [mm]."""

    text: str
    value_mm: float
    start: Vector
    end: Vector
    look: Look


@dataclass(frozen=True, slots=True, kw_only=True)
class Annotation:
    """What the sheet says about one cut.

    Args:
        noun: the cut in one word or two, such as `dado`.
        spec: its figures in words; cuts with the same noun, spec and stops share one callout.
        sizes: how many figures are told in one breath.
        more: what is said of it besides where its sizes are dimension lines.
        stops: the running figures of where it ends, among `positions`.
        spans: those lines.
        place: where on the part, in words; the places of a shared callout are listed.
        target: the point the leader runs to, part frame [mm].
        look: the view that shows it.
        size_mm: of its cross-section, least first, where it may be too small to be seen [mm].
        positions: running figures.
        centres: points that get a pair of centre lines, with half their length [mm].
        shoulder: the one to mark it from, where it has two.
        outline: corners of what is no cut of the part, and shown in its view all the same [mm].
    """

    noun: str
    spec: str
    place: str
    target: Vector
    look: Look
    sizes: int = 0
    more: str = ""
    spans: tuple[SpanShown, ...] = ()
    size_mm: tuple[float, float] | None = None
    positions: tuple[Position, ...] = ()
    stops: tuple[Position, ...] = ()
    centres: tuple[tuple[Vector, float], ...] = ()
    shoulder: Shoulder | None = None
    outline: tuple[Vector, ...] = ()

    @property
    def is_told_by_lines(self) -> bool:
        """Whether its dimension lines leave nothing to be said of it in words."""
        in_view = [span for span in self.spans if span.look is self.look]
        return bool(self.spans) and len(in_view) == self.sizes and not self.more


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """What an annotator works with: the wood, its faces, and how its figures are shown.

    `letters` stand for lengths [mm] that a table gives for each of several like parts. Lengths
    [mm] that are set on a dial or must fit somewhere on the part are `exact`: they are told so
    wherever they are, so that one length has one figure.
    """

    blank: Blank
    shown: Shown
    faces: PartFaces = field(default_factory=PartFaces)
    letters: tuple[tuple[float, str], ...] = ()
    exact: tuple[float, ...] = ()

    def letter(self, mm: float) -> str | None:
        """What stands for a length that the table gives; none where the view says it [mm]."""
        return next((each for value, each in self.letters if abs(value - mm) < 1e-6), None)

    def figure(self, mm: float) -> str:
        """A length in the shown unit [mm]."""
        return figure(mm, self.shown)

    def dial(self, mm: float) -> str:
        """A length that a machine is set to, or that must fit: an inch fraction with its decimal.

        Args:
            mm: the length [mm].
        """
        return self.letter(mm) or str(dialled(mm, self.shown))

    def said(self, mm: float) -> str:
        """A length in words: a fraction that rounds by too much gets its decimal [mm]."""
        text = self.letter(mm) or figure(mm, self.shown)
        is_exact = any(abs(mm - each) < _SAME_MM for each in self.exact)
        return self.dial(mm) if is_exact or says_rounded(text) else text

    def told(self, mm: float, care: Care) -> str:
        """A length as the sheet says it, as exactly as it comes to the wood [mm]."""
        return self.said(mm) if care is Care.RULE else self.dial(mm)

    @staticmethod
    def angle(degrees: float) -> str:
        """An angle [deg]."""
        return f"{round(degrees, 2):g}°"


@dataclass(frozen=True, slots=True, kw_only=True)
class Heard(Bench):
    """Notes every length that is told [mm] and how it comes to the wood, and tells none."""

    lengths: list[tuple[float, Care]] = field(default_factory=list, compare=False)

    def told(self, mm: float, care: Care) -> str:
        """A mark that stands for any length."""
        self.lengths.append((mm, care))
        return "#"


def is_rounded(part_figures: Bench, annotations: tuple[Annotation, ...]) -> bool:
    """Whether any figure about a part carries the mark of rounding.

    Args:
        part_figures: the wood and the unit.
        annotations: of the part's cuts.
    """
    said = [part_figures.figure(mm) for mm in part_figures.blank.size]
    for note in annotations:
        said.append(note.spec)
        said += [part_figures.told(position.value_mm, position.care) for position in note.positions]
    return any(says_rounded(text) for text in said)


@dataclass(frozen=True, slots=True, kw_only=True)
class Callout:
    """One callout of a sheet: its words, and what it is about.

    With a tag, the letter stands at every target and before the words, and there is no leader.
    `size_mm` is the feature's cross-section, least first, when a detail may show it larger [mm].
    `choices` are equal features that a leader may point at as well; `shoulders` are those to mark
    them from.
    """

    text: str
    look: Look
    targets: tuple[Vector, ...]
    tag: str = ""
    size_mm: tuple[float, float] | None = None
    choices: tuple[Vector, ...] = ()
    shoulders: tuple[Shoulder, ...] = ()


def grouped(annotations: tuple[Annotation, ...], faces: PartFaces) -> tuple[Callout, ...]:
    """The callouts: equal work is said once, with its count or its places.

    Args:
        annotations: of all cuts of a part, in order.
        faces: what its ends and edges are called.
    """
    groups: dict[tuple[_Alike, Look], list[Annotation]] = {}
    for each in annotations:
        groups.setdefault((_alike(each), each.look), []).append(each)
    said: dict[_Alike, list[Annotation]] = {}
    for (alike, _), members in groups.items():
        said.setdefault(alike, []).extend(members)
    placed = [members[0].positions[0].look for members in said.values() if members[0].positions]
    callouts: list[Callout] = []
    for (noun, spec, _), members in said.items():
        if members[0].is_told_by_lines:
            continue
        has_positions = bool(members[0].positions)
        is_alone = has_positions and placed.count(members[0].positions[0].look) == 1
        shown = members if has_positions and not is_alone else members[:1]
        same_look = [each for each in shown if each.look is members[0].look]
        tag = ""
        if len(same_look) > 1:
            tag = chr(ord("a") + sum(bool(made.tag) for made in callouts))
        words = _words(noun, spec, members, has_positions, faces)
        callouts.append(
            Callout(
                text=f"{tag}: {words}" if tag else words,
                look=members[0].look,
                targets=tuple(each.target for each in same_look),
                tag=tag,
                size_mm=members[0].size_mm if is_alone or not has_positions else None,
                choices=_first_middle_last(
                    [each.target for each in members if each.look is members[0].look]
                ),
                shoulders=_first_middle_last(
                    [each.shoulder for each in members if each.shoulder is not None]
                ),
            )
        )
    return tuple(callouts)


_Alike = tuple[str, str, frozenset[tuple[int, float]]]


def _alike(note: Annotation) -> _Alike:
    """What cuts have in common that one callout tells."""
    stops = ((each.axis, round(each.value_mm, 3)) for each in note.stops)
    return note.noun, note.spec, frozenset(stops)


_Target = TypeVar("_Target")


def _first_middle_last(targets: list[_Target]) -> tuple[_Target, ...]:
    """Enough of equal features to find one that a leader reaches well."""
    places = {0, len(targets) // 2, len(targets) - 1}
    return tuple(targets[at] for at in sorted(places) if targets)


def _words(
    noun: str, spec: str, members: list[Annotation], has_positions: bool, faces: PartFaces
) -> str:
    places = places_joined(list(dict.fromkeys(each.place for each in members)), faces)
    if members[0].spans:
        spec = members[0].more
    if not has_positions:
        return f"{noun} {spec}".rstrip() + f": {'; '.join(places)}"
    count = len(members)
    what = noun if count == 1 else f"{count} {plural(noun)}"
    head = what if not spec else f"{noun} {spec}" if count == 1 else f"{what}, each {spec}"
    return f"{head}, {'; '.join(places)}"


def places_joined(places: list[str], faces: PartFaces) -> list[str]:
    """Two places that differ only in the end or the edge, as one.

    Args:
        places: in words, each once.
        faces: what ends and edges are called.
    """
    joined: list[str] = []
    pairs = [
        (faces.called(near), faces.called(near.opposite), both)
        for near, both in ((Face.NAMED_END, "both ends"), (Face.FACE_EDGE, "both edges"))
    ]
    for place in places:
        for near, far, both in pairs:
            partner = place.replace(far, near) if far in place else place.replace(near, far)
            if partner != place and partner in joined:
                word = near if near in partner else far
                joined[joined.index(partner)] = partner.replace(word, both)
                break
        else:
            joined.append(place)
    return joined
