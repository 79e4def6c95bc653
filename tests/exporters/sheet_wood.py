"""The blank as read off a part's sheet, and what the words of all callouts have in common."""

from __future__ import annotations

import math
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


VIEW_AXES = {  # the part axis and its sense that lies level and upright in each view
    "face side": ((0, False), (1, False)), "back side": ((0, False), (1, True)),
    "face edge": ((0, False), (2, False)), "back edge": ((0, False), (2, True)),
    "named end": ((2, False), (1, False)), "far end": ((2, True), (1, False)),
}  # fmt: skip


def stops_in(
    words: str,
    seen: str,
    run: int,
    band: tuple[int, tuple[float, float]],
    sheet: ReadSheet,
    wood: Wood,
) -> tuple[float | None, float | None]:
    """Where a trench that words call stopped begins and ends, by running figures [mm].

    Args:
        words: of its callout.
        seen: the view that shows its stops.
        run: the part axis that it runs along.
        band: another axis, and from where to where on it the trench lies [mm].
        sheet: as read.
        wood: the blank.
    """
    found = re.search(r"stopped short of (\w+ \w+)(?: and (\w+ \w+))?", words)
    if found is None:
        return None, None
    seen = sheet.drawn_for(seen)
    view, axes = sheet.views[seen], VIEW_AXES[seen]
    at = next(i for i, (axis, _) in enumerate(axes) if axis == run)
    is_back, across_back = axes[at][1], axes[1 - at][1]
    across, (first, last) = band
    size = wood.size[across]
    box = (view.box[1 - at], view.box[3 - at])

    def is_own(figure: ReadFigure) -> bool:
        share = (figure.end[1 - at] - box[0]) / (box[1] - box[0])
        place = (1.0 - share if across_back else share) * size
        return first - 0.01 * size < place < last + 0.01 * size

    holes = [at for each in sheet.callouts if "hole" in each.words for at in each.targets]
    told = view.running(at == 0)
    figures = [
        each for each in told if not any(math.dist(each.end, hole) < 1e-3 for hole in holes)
    ] or told
    own = [f for f in figures if is_own(f)] or figures  # another feature may stand for it
    places = [figure.low_mm(wood.size[run], 0.0, is_back) for figure in own]
    ends = [None if name is None else FACES[name][1] for name in (found[1], found[2])]
    return min(places) if False in ends else None, max(places) if True in ends else None


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
