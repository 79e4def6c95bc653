"""How each kind of zone is hatched, and the legend that says so. Angles and spacings: own rule."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from exporters.sheets.lettering import text_width
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.values import Hatched, Item, Lettering, Stroke
from exporters.views.values import Polyline
from furniture.parts.vectors import Point2
from furniture.shop.cutting.values import ZoneKind


@dataclass(frozen=True, slots=True)
class Pattern:
    """Lines at these angles [deg] and this distance [mm on paper]."""

    angles_deg: tuple[float, ...]
    spacing_mm: float


PATTERNS: dict[ZoneKind, Pattern] = {
    ZoneKind.KNOT: Pattern((45.0, 135.0), 0.9),
    ZoneKind.CHECK: Pattern((90.0,), 0.6),
    ZoneKind.SAPWOOD: Pattern((30.0,), 2.0),
    ZoneKind.WANE: Pattern((120.0,), 1.2),
    ZoneKind.STAIN: Pattern((150.0,), 1.5),
    ZoneKind.PITH: Pattern((0.0,), 0.6),
    ZoneKind.HOLE: Pattern((0.0, 90.0), 0.9),
    ZoneKind.FIGURE: Pattern((75.0,), 4.0),
    ZoneKind.EVEN_GRAIN: Pattern((0.0,), 4.0),
}

_SWATCH_MM = (9.0, 4.0)


def closed(corners: Sequence[Point2], line_class: LineClass) -> Stroke:
    """The outline round these corners."""
    return Stroke(shape=Polyline(points=(*corners, corners[0])), line_class=line_class)


def hatched(corners: Sequence[Point2], kind: ZoneKind, clear: Sequence[Box2]) -> list[Item]:
    """The hatching of a zone, kept off the boxes where text stands.

    Args:
        corners: of the zone on paper [mm].
        clear: boxes of texts [mm].
    """
    from shapely.geometry import MultiPolygon, Polygon, box

    area = Polygon(corners).buffer(0)
    for each in clear:
        area = area.difference(box(each.left, each.bottom, each.right, each.top))
    shapes = list(area.geoms) if isinstance(area, MultiPolygon) else [area]
    pattern = PATTERNS[kind]
    items: list[Item] = []
    for shape in shapes:
        if shape.is_empty or shape.area < 0.05:
            continue
        for angle in pattern.angles_deg:
            items.append(
                Hatched(
                    outline=_ring(shape.exterior.coords),
                    holes=tuple(_ring(hole.coords) for hole in shape.interiors),
                    angle_deg=angle,
                    spacing_mm=pattern.spacing_mm,
                )
            )
    return items


def _ring(coordinates: Sequence[Sequence[float]]) -> tuple[Point2, ...]:
    return tuple((float(x), float(y)) for x, y in list(coordinates)[:-1])


def legend(
    kinds: Sequence[ZoneKind], left: float, width: float, style: SheetStyle
) -> tuple[list[Item], float]:
    """A swatch and a word for each kind of zone in rows below 0, and the legend's lower side [mm].

    Args:
        left: of the legend [mm].
        width: it may take [mm].
    """
    items: list[Item] = []
    wide, high = _SWATCH_MM
    x, y = left, -high
    for kind in kinds:
        text = kind.value
        need = wide + 1.5 + text_width(text, style.text_height_mm) + 5.0
        if x > left and x + need > left + width:
            x, y = left, y - high - 2.0
        corners = ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))
        items += hatched(corners, kind, ())
        items.append(closed(corners, LineClass.ZONE))
        at = (x + wide + 1.5, y + (high - style.text_height_mm) / 2)
        items.append(Lettering(text=text, at=at, height=style.text_height_mm))
        x += need
    return items, y
