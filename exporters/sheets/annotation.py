"""What has to be said about a cut so that it can be made: running figures and a callout.

Every number comes from the cut and the blank, in the part frame; nothing here knows of paper.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from exporters.views.values import ViewFrame
from furniture.parts.blank import Blank
from furniture.parts.cuts.figures import Care
from furniture.parts.faces import Face
from furniture.parts.vectors import Vector
from furniture.units import Shown, dialled, figure, plural
from furniture.units.showing import ROUNDED_MARK


class Look(Enum):
    """A way to look at a part that a sheet may show; the value is its heading."""

    FACE_SIDE = "face side"
    BACK_SIDE = "back side"
    FACE_EDGE = "face edge"
    BACK_EDGE = "back edge"
    NAMED_END = "named end"
    FAR_END = "far end"
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
        axis: 0 from the named end, 1 from the face edge, 2 from the face side.
        value_mm: as the sheet says it [mm].
        point: where the feature meets the extension line, part frame [mm].
        look: the view that shows it.
        care: how it comes to the wood.
    """

    axis: int
    value_mm: float
    point: Vector
    look: Look
    care: Care


@dataclass(frozen=True, slots=True, kw_only=True)
class Annotation:
    """What the sheet says about one cut.

    Args:
        noun: the cut in one word or two, such as `dado`.
        spec: its figures in words; cuts with the same noun and spec share one callout.
        place: where on the part, in words; the places of a shared callout are listed.
        target: the point the leader runs to, part frame [mm].
        look: the view that shows it.
        size_mm: of its cross-section, least first, where it may be too small to be seen [mm].
        positions: running figures.
        centres: points that get a pair of centre lines, with half their length [mm].
        shoulder: the running figure of the shoulder to mark it from, where it has two.
    """

    noun: str
    spec: str
    place: str
    target: Vector
    look: Look
    size_mm: tuple[float, float] | None = None
    positions: tuple[Position, ...] = ()
    centres: tuple[tuple[Vector, float], ...] = ()
    shoulder: Position | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """What an annotator works with: the wood and how its figures are shown."""

    blank: Blank
    shown: Shown

    def figure(self, mm: float) -> str:
        """A length in the shown unit [mm]."""
        return figure(mm, self.shown)

    def dial(self, mm: float) -> str:
        """A length that a machine is set to, or that must fit: an inch fraction with its decimal.

        Args:
            mm: the length [mm].
        """
        return str(dialled(mm, self.shown))

    def said(self, mm: float) -> str:
        """A length in words: a fraction that rounds by too much gets its decimal [mm]."""
        text = figure(mm, self.shown)
        return self.dial(mm) if text.startswith(ROUNDED_MARK) else text

    def told(self, mm: float, care: Care) -> str:
        """A length as the sheet says it, as exactly as it comes to the wood [mm]."""
        return self.said(mm) if care is Care.RULE else self.dial(mm)

    @staticmethod
    def angle(degrees: float) -> str:
        """An angle [deg]."""
        return f"{round(degrees, 2):g}°"

    def from_face_side(self, z_mm: float) -> float:
        """A height in the part frame, struck from the face side [mm]."""
        return self.blank.thickness_mm - z_mm


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
    return any(ROUNDED_MARK in text for text in said)


@dataclass(frozen=True, slots=True, kw_only=True)
class Callout:
    """One callout of a sheet: its words, and what it is about.

    With a tag, the letter stands at every target and before the words, and there is no leader.
    `size_mm` is the feature's cross-section, least first, when a detail may show it larger [mm].
    `choices` are equal features that a leader may point at as well; `shoulder` is the one to mark
    from.
    """

    text: str
    look: Look
    targets: tuple[Vector, ...]
    tag: str = ""
    size_mm: tuple[float, float] | None = None
    choices: tuple[Vector, ...] = ()
    shoulder: Position | None = None


def grouped(annotations: tuple[Annotation, ...]) -> tuple[Callout, ...]:
    """The callouts: equal work is said once, with its count or its places.

    Args:
        annotations: of all cuts of a part, in order.
    """
    groups: dict[tuple[str, str, Look], list[Annotation]] = {}
    for each in annotations:
        groups.setdefault((each.noun, each.spec, each.look), []).append(each)
    said: dict[tuple[str, str], list[Annotation]] = {}
    for (noun, spec, _), members in groups.items():
        said.setdefault((noun, spec), []).extend(members)
    placed = [members[0].positions[0].look for members in said.values() if members[0].positions]
    callouts: list[Callout] = []
    for (noun, spec), members in said.items():
        has_positions = bool(members[0].positions)
        is_alone = has_positions and placed.count(members[0].positions[0].look) == 1
        shown = members if has_positions and not is_alone else members[:1]
        same_look = [each for each in shown if each.look is members[0].look]
        tag = ""
        if len(same_look) > 1:
            tag = chr(ord("a") + sum(bool(made.tag) for made in callouts))
        words = _words(noun, spec, members, has_positions)
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
                shoulder=members[0].shoulder,
            )
        )
    return tuple(callouts)


def _first_middle_last(targets: list[Vector]) -> tuple[Vector, ...]:
    """Enough of equal features to find one that a leader reaches well."""
    places = {0, len(targets) // 2, len(targets) - 1}
    return tuple(targets[at] for at in sorted(places))


def _words(noun: str, spec: str, members: list[Annotation], has_positions: bool) -> str:
    places = _joined(list(dict.fromkeys(each.place for each in members)))
    if not has_positions:
        return f"{noun} {spec}: {'; '.join(places)}"
    count = len(members)
    head = f"{noun} {spec}" if count == 1 else f"{count} {plural(noun)}, each {spec}"
    return f"{head}, {'; '.join(places)}"


def _joined(places: list[str]) -> list[str]:
    """Two places that differ only in the end or the edge, as one."""
    joined: list[str] = []
    for place in places:
        for near, far, both in (
            ("named end", "far end", "both ends"),
            ("face edge", "back edge", "both edges"),
        ):
            partner = place.replace(far, near) if far in place else place.replace(near, far)
            if partner != place and partner in joined:
                word = near if near in partner else far
                joined[joined.index(partner)] = partner.replace(word, both)
                break
        else:
            joined.append(place)
    return joined
