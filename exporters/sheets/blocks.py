"""A view with its figures as one block that the layout moves about the sheet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from types import MappingProxyType
from typing import Self

from exporters.sheets.broken import Break, break_paths, broken_view, drawn_at
from exporters.sheets.figures import stroke
from exporters.sheets.geometry import items_box, moved_item, scaled_shape
from exporters.sheets.hatches import ALONE, Hatch
from exporters.sheets.paper import Box2, box_round
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.values import Anchor, Hatched, Item, Lettering, Stroke
from exporters.views.values import CutArea, EdgeClass, View, ViewFrame
from furniture.parts.vectors import Point2, Vector

CLASS_OF = {
    EdgeClass.VISIBLE: LineClass.VISIBLE,
    EdgeClass.HIDDEN: LineClass.HIDDEN,
    EdgeClass.SMOOTH: LineClass.SMOOTH,
}


_OF_PICTURE = (EdgeClass.VISIBLE, EdgeClass.SMOOTH)
_SMALL = 1 / 8
"""From this share of its size down a picture is drawn in fine lines. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A view on paper: its frame and factor, where its origin lies, its items and its outline.

    `core` is the rectangle round the drawn part without figures, `box` the one round everything.
    `breaks` are what a long view of a part leaves out of its length.
    """

    frame: ViewFrame
    factor: float
    at: Point2
    core: Box2
    box: Box2
    items: tuple[Item, ...]
    breaks: tuple[Break, ...] = ()

    def to_paper(self, point: Vector) -> Point2:
        """A point of the model on paper [mm]."""
        u, v = self.frame.to_paper(point)
        u = drawn_at(u, self.breaks, self.factor)
        return (self.at[0] + u * self.factor, self.at[1] + v * self.factor)

    def moved(self, dx: float, dy: float) -> Self:
        """The block shifted on paper [mm]."""
        return replace(
            self,
            at=(self.at[0] + dx, self.at[1] + dy),
            core=self.core.moved(dx, dy),
            box=self.box.moved(dx, dy),
            items=tuple(moved_item(item, dx, dy) for item in self.items),
        )

    def with_items(self, items: list[Item]) -> Self:
        """The block with more items."""
        if not items:
            return self
        box = box_round([self.box, items_box(items)])
        return replace(self, box=box, items=(*self.items, *items))


def view_block(
    view: View,
    factor: float,
    *,
    classes: tuple[EdgeClass, ...] = (EdgeClass.VISIBLE, EdgeClass.HIDDEN),
    cut: tuple[CutArea, ...] = (),
    hatches: Mapping[str, Hatch] = MappingProxyType({}),
    breaks: tuple[Break, ...] = (),
    line_classes: Mapping[EdgeClass, LineClass] = MappingProxyType(CLASS_OF),
) -> Block:
    """The bare view on paper with its origin at 0, 0.

    Args:
        view: at 1:1.
        factor: paper length of one mm of the thing.
        classes: the kinds of edge that are drawn.
        cut: areas of cut wood, hatched.
        hatches: by instance; what is not named is hatched as a part alone.
        breaks: what a long view of a part leaves out.
        line_classes: how each kind of edge is drawn.
    """
    view = broken_view(view, breaks, factor)
    items: list[Item] = [
        Stroke(shape=scaled_shape(edge.shape, factor), line_class=line_classes[edge.edge_class])
        for edge in view.edges
        if edge.edge_class in classes
    ]
    for area in cut:
        hatch = hatches.get(area.of, ALONE)
        items.append(
            Hatched(
                outline=_scaled(area.outline, factor),
                holes=tuple(_scaled(hole, factor) for hole in area.holes),
                angle_deg=hatch.angle_deg,
                spacing_mm=hatch.spacing_mm,
            )
        )
    for path in break_paths(breaks, factor, view.low[1] * factor, view.high[1] * factor):
        items += [stroke(a, b, LineClass.BREAK) for a, b in pairwise(path)]
    core = Box2(
        left=view.low[0] * factor,
        bottom=view.low[1] * factor,
        right=view.high[0] * factor,
        top=view.high[1] * factor,
    )
    return Block(
        frame=view.frame,
        factor=factor,
        at=(0.0, 0.0),
        core=core,
        box=items_box(items),
        items=tuple(items),
        breaks=breaks,
    )


def _scaled(points: tuple[Point2, ...], factor: float) -> tuple[Point2, ...]:
    return tuple((x * factor, y * factor) for x, y in points)


def centre_cross(centre: Point2, half: float, style: SheetStyle) -> list[Item]:
    """A pair of centre lines, past a round thing of this half size [mm]."""
    x, y = centre
    reach = half + style.extension_past_mm
    return [
        stroke((x - reach, y), (x + reach, y), LineClass.CENTRE),
        stroke((x, y - reach), (x, y + reach), LineClass.CENTRE),
    ]


def heading(text: str, centre: float, below: float, style: SheetStyle) -> Lettering:
    """A view's heading, centred under it.

    Args:
        text: the words.
        centre: x of its middle [mm].
        below: the lowest thing above it [mm].
        style: gives its height.
    """
    return _under(text, centre, below, style.heading_height_mm)


def caption(text: str, centre: float, below: float, style: SheetStyle) -> Lettering:
    """A line in small letters, such as under a heading or a small picture.

    Args:
        text: the words.
        centre: x of its middle [mm].
        below: the lowest thing above it [mm].
        style: gives its height.
    """
    return _under(text, centre, below, style.text_height_mm)


def _under(text: str, centre: float, below: float, height: float) -> Lettering:
    return Lettering(
        text=text, at=(centre, below - 2.0 - height), height=height, anchor=Anchor.CENTRE
    )


def picture_of(view: View, factor: float) -> Block:
    """A picture with its origin at 0, 0, all of it in one narrow pen: wide ones would run together,
    and in a small one so would those.

    Args:
        view: at 1:1.
        factor: paper length of one mm of the thing.
    """
    line_class = LineClass.FINE_PICTURE if factor <= _SMALL else LineClass.PICTURE
    classes = dict.fromkeys(_OF_PICTURE, line_class)
    return view_block(view, factor, classes=_OF_PICTURE, line_classes=classes)
