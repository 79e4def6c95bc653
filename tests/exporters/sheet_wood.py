"""The blank as read off a part's sheet, and what the words of all callouts have in common."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

import cadquery as cq

from tests.exporters.sheet_values import ReadFigure, ReadSheet, ReadView, figure_mm

FIGURE = r"(\d[\d./]*(?: \d+/\d+)?(?: [+-](?= ))?(?: \([\d.]+\))?)"
OVER_MM = 5.0


@dataclass
class Wood:
    """The blank as read [mm]."""

    length: float
    width: float
    thickness: float

    @property
    def size(self) -> tuple[float, float, float]:
        """Length, width, thickness [mm]."""
        return (self.length, self.width, self.thickness)


def upright_scale(view: ReadView, size: float) -> float:
    """Drawn length of one mm, taken across the part: a view may be broken along it."""
    return (view.box[3] - view.box[1]) / size


def near(figures: list[ReadFigure], axis: int, at: float) -> ReadFigure:
    """The running figure whose extension line ends nearest to a drawn place [mm]."""
    return min(figures, key=lambda figure: abs(figure.end[axis] - at))


def mm_of(text: str, sheet: ReadSheet) -> float:
    return figure_mm(text, sheet.unit)


def box_between(low: list[float], high: list[float]) -> Any:
    size = [b - a for a, b in zip(low, high, strict=True)]
    return cq.Workplane().box(*size, centered=False).translate(tuple(low))


def slab(wood: Wood, axis: int, is_far: bool, deep: float) -> tuple[list[float], list[float]]:
    """A layer of the blank under one of its faces, reaching past everything else."""
    low, high = [-OVER_MM] * 3, [size + OVER_MM for size in wood.size]
    if is_far:
        low[axis] = wood.size[axis] - deep
    else:
        high[axis] = deep
    return low, high


FACES = {
    "named end": (0, False), "far end": (0, True), "face edge": (1, False),
    "back edge": (1, True), "back side": (2, False), "face side": (2, True),
}  # fmt: skip
BOTH = {"both ends": ("named end", "far end"), "both edges": ("face edge", "back edge")}


def count_of(words: str) -> int:
    found = re.match(r"(\d+) ", words)
    return int(found[1]) if found else 1


def stop_of(words: str, where: str, sheet: ReadSheet) -> float:
    found = re.search(rf"stopped {FIGURE} from {where}", words)
    return mm_of(found[1], sheet) if found else 0.0


def radius_of(words: str, sheet: ReadSheet) -> float:
    found = re.search(rf"corners R{FIGURE}", words)
    return mm_of(found[1], sheet) if found else 0.0


def places_of(words: str) -> list[str]:
    """The places of a shared callout, one by one."""
    places = []
    for place in words.split(": ", 1)[1].split("; "):
        if "both ends" in place:
            places += [place.replace("both ends", end) for end in ("named end", "far end")]
        elif "both edges" in place:
            places += [place.replace("both edges", edge) for edge in ("face edge", "back edge")]
        else:
            places.append(place)
    return places
