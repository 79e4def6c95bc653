"""A joint in section, drawn large with its figures, as a block for the layout.

Figures that a part's own sheet defines stand in brackets here (ISO 129-1, from memory: auxiliary
dimensions); clearances are given nowhere else and stand without.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from enum import Enum
from itertools import pairwise

from exporters.sheets.blocks import Block, view_block
from exporters.sheets.callouts import LINE_SHARE, NoRoomError, place_callout
from exporters.sheets.clip import clipped_areas, clipped_view, inside_circle
from exporters.sheets.figures import Beside, Measured, Side, linear
from exporters.sheets.geometry import lettering_box, shape_points
from exporters.sheets.hatches import Hatch
from exporters.sheets.joint_values import JointProfile, Span
from exporters.sheets.lettering import wrapped
from exporters.sheets.paper import Box2, Scale, box_round, scales_for
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.space import Space, crosses_box
from exporters.sheets.values import Anchor, Figure, Hatched, Item, Lettering, Stroke
from exporters.views.values import Arc, EdgeClass, Line, SectionView
from furniture.joints.joint import Section
from furniture.parts.vectors import Point2, add, cross, length, scaled, subtract
from furniture.units import Dialled, Shown, decimal_figure, figure
from furniture.units.showing import is_rounded

_LEAST_REDUCTION = 0.2
_LEAST_WORDS_MM = 46.0
_LANES = (5.0, 12.5, 19.0)
"""From the circle out to the dimension lines [mm]: a fraction beside one keeps off the next."""


_SEEN_MM = 1.0
"""A gap that is so wide on paper is seen. Own rule."""


class Large(Enum):
    """How wide a joint is drawn at most [mm]."""

    ROOMY = 56.0
    BRIEF = 44.0
    """Where that saves a sheet. A joint stays roomy whose gap would hardly be seen. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JointDetail:
    """A joint to be drawn large: its letter, what is said under it, and what is seen.

    Args:
        letter: of the detail; none where it is all that is drawn of its section.
        profile: the joint.
        alike: other joints of the same figures, in words.
        section: the whole section that shows it.
        plane: the letter of that section where it is drawn nowhere else, or nothing.
    """

    letter: str
    profile: JointProfile
    alike: str
    section: SectionView
    plane: str

    @property
    def heading(self) -> str:
        """What stands under it: a detail, or all that is drawn of a section."""
        return f"section {self.plane}-{self.plane}" if self.plane else f"detail {self.letter}"

    @property
    def circle(self) -> tuple[Point2, float]:
        """The middle and the radius of what is shown, in the section's plane at 1:1 [mm]."""
        points = [self.section.view.frame.to_paper(corner) for corner in self.profile.corners]
        xs, ys = [x for x, _ in points], [y for _, y in points]
        centre = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
        return centre, max(math.dist(centre, point) for point in points) * 0.94


def joint_words(profile: JointProfile) -> str:
    """The joint as it is named under its picture."""
    one, _ = meeting_words(profile)
    return f"{profile.incoming} {one} {profile.into}"


def meeting_words(profile: JointProfile) -> tuple[str, str]:
    """How what comes in meets what it comes into: of one part, and of several."""
    if profile.metal:
        return "hangs on", "hang on"
    return ("meets", "meet") if profile.slopes or profile.inside else ("in", "in")


def signature(profile: JointProfile, shown: Shown) -> tuple[object, ...]:
    """Equal for joints whose pictures would say the same.

    Args:
        profile: a joint.
        shown: how its figures are printed.
    """
    return (
        tuple((span.kind, str(span.printed(shown))) for span in profile.spans),
        tuple(sorted(clearance_text(each.value_mm, shown) for each in profile.clearances)),
        tuple((slope.noun, round(slope.angle_deg, 2)) for slope in profile.slopes),
        tuple(clearance_text(each.value_mm, shown) for each in profile.prouds),
        tuple(each.printed(shown) for each in profile.inside),
    )


def clearance_text(mm: float, shown: Shown) -> str:
    """A gap: small as it is, to the hundredth of a millimetre or the thousandth of an inch [mm]."""
    decimal = decimal_figure(mm, shown)
    if not shown.is_inch:
        return decimal
    text = figure(mm, shown)
    is_fraction = "/" in text and not is_rounded(text)
    return f"{text} ({decimal})" if is_fraction else decimal


def play_text(to_hold_mm: tuple[float, float], shown: Shown) -> str:
    """What fits, such as `fit to play 0.05 to 0.15`.

    Args:
        to_hold_mm: the least and the most [mm].
        shown: the unit.
    """
    low, high = (decimal_figure(mm, shown) for mm in to_hold_mm)
    return f"fit to play {low} to {high}"


def reference_text(printed: Dialled) -> str:
    """A figure in brackets; an inch fraction with its decimal, since parts must fit here."""
    return f"({', '.join(printed.figures)})"


def detail_of_joint(
    detail: JointDetail,
    shown: Shown,
    style: SheetStyle,
    hatches: Mapping[str, Hatch],
    large: Large = Large.ROOMY,
) -> Block:
    """The joint at the largest scale whose figures all find room, with its words under it.

    Args:
        detail: what to draw.
        shown: the unit.
        style: pens and heights.
        hatches: of the instances.
        large: how wide it is drawn.

    Raises:
        NoRoomError: its figures find no room at any scale that shows it large.
    """
    _, radius = detail.circle
    most = _most(detail, shown, large)
    reason = "no scale"
    # Words wider than what they measure go to the other side before all is drawn smaller.
    for scale in scales_for(shown.is_inch):
        wide = 2 * radius * scale.factor
        if wide > most or scale.reduction < _LEAST_REDUCTION:
            continue
        for beside in Beside:
            try:
                return _drawn(detail, scale, shown, style, hatches, beside)
            except NoRoomError as error:
                reason = str(error)
        if wide < Large.ROOMY.value / 4:
            break
    raise NoRoomError(f"{joint_words(detail.profile)}: {reason}")


def _most(detail: JointDetail, shown: Shown, large: Large) -> float:
    """How wide the joint is drawn at most, so that its gaps are still seen [mm]."""
    wide = 2 * detail.circle[1]
    scale = next((s for s in scales_for(shown.is_inch) if wide * s.factor <= large.value), None)
    gaps = [each.value_mm for each in detail.profile.clearances]
    if gaps and (scale is None or min(gaps) * scale.factor < _SEEN_MM):
        return Large.ROOMY.value
    return large.value


def _drawn(
    detail: JointDetail,
    scale: Scale,
    shown: Shown,
    style: SheetStyle,
    hatches: Mapping[str, Hatch],
    beside: Beside,
) -> Block:
    centre, radius = detail.circle
    region = inside_circle(centre, radius)
    block = view_block(
        clipped_view(detail.section.view, region),
        scale.factor,
        classes=(EdgeClass.VISIBLE,),
        cut=clipped_areas(detail.section.cut, region),
        hatches=hatches,
    )
    x, y, r = centre[0] * scale.factor, centre[1] * scale.factor, radius * scale.factor
    arc = Arc(centre=(x, y), radius=r, start_deg=0.0, end_deg=360.0)
    block = block.with_items([Stroke(shape=arc, line_class=LineClass.DETAIL)])
    block = block.with_items(list(_metal(detail, block)))
    circle = Box2(left=x - r, bottom=y - r, right=x + r, top=y + r)
    for span in detail.profile.spans:
        block = block.with_items([_figure(block, circle, detail, span, shown, style, beside)])
    space = Space(block.box.grown(70.0))
    space.add(block.items)
    keep_out = [circle]
    for text, target in _said(detail, block, shown):
        block = block.with_items(place_callout(text, target, space, style, keep_out))
    return _titled(block, circle, detail, scale, style)


def _metal(detail: JointDetail, block: Block) -> Iterable[Item]:
    """What is bought and cut across in it: a leaf as a box, a barrel as a circle."""
    for each in detail.profile.metal:
        along = subtract(each.end, each.start)
        other = cross(scaled(along, 1.0 / length(along)), each.across)
        wide, thick = each.size_mm
        if each.section is Section.ROUND:
            arc = Arc(
                centre=block.to_paper(each.start), radius=wide / 2 * block.factor,
                start_deg=0.0, end_deg=360.0,
            )  # fmt: skip
            yield Stroke(shape=arc, line_class=LineClass.VISIBLE)
            continue
        corners = [
            block.to_paper(
                add(
                    each.start, add(scaled(each.across, a * wide / 2), scaled(other, b * thick / 2))
                )
            )
            for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))
        ]
        for start, end in pairwise([*corners, corners[0]]):
            yield Stroke(shape=Line(start=start, end=end), line_class=LineClass.VISIBLE)


def _said(detail: JointDetail, block: Block, shown: Shown) -> Iterable[tuple[str, Point2]]:
    """The callouts of a joint: gaps, slopes, and what stands proud."""
    profile = detail.profile
    for clearance in profile.clearances:
        drawn = clearance_text(clearance.value_mm, shown)
        text = f"clearance {drawn}"
        if clearance.to_hold_mm is not None:
            text = f"{play_text(clearance.to_hold_mm, shown)}, drawn {drawn}"
        yield text, block.to_paper(clearance.at)
    for slope in profile.slopes:
        yield f"({slope.noun} {round(slope.angle_deg, 2):g}°)", block.to_paper(slope.at)
    for inside in profile.inside:
        yield inside.printed(shown), block.to_paper(inside.at)
    for proud in profile.prouds:
        text = f"stands {clearance_text(proud.value_mm, shown)} proud, as cut"
        yield text, block.to_paper(proud.at)


def _figure(
    block: Block,
    circle: Box2,
    detail: JointDetail,
    span: Span,
    shown: Shown,
    style: SheetStyle,
    beside: Beside,
) -> Figure:
    """The span's dimension on the first side and lane where it runs into nothing."""
    start, end = block.to_paper(span.start), block.to_paper(span.end)
    is_level = abs(start[0] - end[0]) > abs(start[1] - end[1])
    text = reference_text(span.printed(shown))
    measured = Measured(text=text, value_mm=span.value_mm, factor=block.factor)
    for lane in _LANES:
        for side in _sides(detail, block, span, is_level):
            edge = {
                Side.TOP: circle.top,
                Side.BOTTOM: circle.bottom,
                Side.LEFT: circle.left,
                Side.RIGHT: circle.right,
            }[side]
            made = linear(start, end, edge + side.outward * lane, measured, style, side, beside)
            if _stands_clear(made, block.items):
                return made
    raise NoRoomError(f"no room for the {span.kind.value}")


def _sides(detail: JointDetail, block: Block, span: Span, is_level: bool) -> tuple[Side, Side]:
    """The two sides that a figure may stand on, the better one first."""
    middle = 1 if is_level else 0
    (cx, cy), _ = detail.circle
    centre = (cx * block.factor, cy * block.factor)
    at = block.to_paper(span.start)[middle] + block.to_paper(span.end)[middle]
    is_upper = at / 2 > centre[middle]
    if is_level:
        return (Side.TOP, Side.BOTTOM) if is_upper else (Side.BOTTOM, Side.TOP)
    return (Side.RIGHT, Side.LEFT) if is_upper else (Side.LEFT, Side.RIGHT)


def _stands_clear(made: Figure, others: Iterable[Item]) -> bool:
    """Whether a figure's text keeps off everything drawn, and its lines off every text."""
    texts, lines = _texts_and_lines([made])
    other_texts, other_lines = _texts_and_lines(others)
    for text in texts:
        box = text.grown(0.4)
        if any(box.overlaps(other) for other in other_texts):
            return False
        if any(crosses_box(*line, box) for line in other_lines):
            return False
    return not any(crosses_box(*line, box.grown(0.4)) for line in lines for box in other_texts)


def _texts_and_lines(items: Iterable[Item]) -> tuple[list[Box2], list[tuple[Point2, Point2]]]:
    """The boxes of texts, one for a figure since a fraction is set of several, and the lines."""
    texts: list[Box2] = []
    lines: list[tuple[Point2, Point2]] = []
    for item in items:
        if isinstance(item, Figure):
            more_texts, more_lines = _texts_and_lines(item.drawn)
            texts.append(box_round(more_texts))
            lines += more_lines
        elif isinstance(item, Lettering):
            texts.append(lettering_box(item))
        elif isinstance(item, Stroke):
            lines += pairwise(shape_points(item.shape))
        elif isinstance(item, Hatched):
            lines += pairwise((*item.outline, item.outline[0]))
    return texts, lines


def _titled(
    block: Block, circle: Box2, detail: JointDetail, scale: Scale, style: SheetStyle
) -> Block:
    """The letter and the scale, then the joint's name, centred under the picture."""
    x = circle.centre[0]
    height = style.heading_height_mm
    y = block.box.bottom - 2.0 - height
    items: list[Item] = [
        Lettering(
            text=f"{detail.heading} ({scale.text})",
            at=(x, y),
            height=height,
            anchor=Anchor.CENTRE,
        )
    ]
    words = joint_words(detail.profile)
    if detail.alike:
        words += f"; the same: {detail.alike}"
    small, middle = style.text_height_mm, block.box.centre[0]
    y -= 1.2
    for line in wrapped(words, small, max(block.box.width, _LEAST_WORDS_MM)):
        y -= small * LINE_SHARE
        items.append(Lettering(text=line, at=(middle, y), height=small, anchor=Anchor.CENTRE))
    made = block.with_items(items)
    return replace(made, core=circle)
