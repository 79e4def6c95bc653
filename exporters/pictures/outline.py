"""The piece as outlines from the front and from the side, with the line that its edges step in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from exporters.pdf.fonts import drawable
from exporters.render.camera import level
from exporters.scene.scene import Scene, Sort, scene_of
from furniture.pieces.piece import Piece, Stance
from furniture.units import figure_with_unit

_BELOW_TOP_MM = 1.5
"""How far below a surface's top its edge is read off the outline [mm]: below any eased arris."""
_HAIR_MM = 0.1
_SEEN_MM = 0.5
"""A step out of line that no eye sees. Own rule."""
INK, FILL, STEP = "#2b2723", "#d9d2c8", "#9c3b12"
_HIGH_IN, _DOTS_PER_INCH = 7.0, 140.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """What is seen square on: its outline, and points where its levels end, to left and right.

    Args:
        title: from where it is seen.
        shape: across and up [mm].
        left: the ends of its levels on the left, lowest first [mm].
        right: the same on the right.
    """

    title: str
    shape: Any
    left: tuple[tuple[float, float], ...]
    right: tuple[tuple[float, float], ...]


def outlines_of(piece: Piece) -> tuple[Outline, Outline]:
    """The piece from the front and from its right side, where the front is on the left.

    Args:
        piece: what is shown.

    Raises:
        SolidError: a part cannot be made.
        ValueError: the piece has no parts.
    """
    scene = scene_of(piece, with_loads=False)
    tops = sorted({each.top_mm for each in piece.surfaces})
    return (
        _outline("from the front", scene, 0.0, tops),
        _outline("from the right side", scene, 90.0, tops),
    )


def _outline(title: str, scene: Scene, turn_deg: float, tops: list[float]) -> Outline:
    axes = level(turn_deg).axes
    faces = []
    for body in scene.of(Sort.PART):
        flat = body.points @ axes[:2].T
        corners = flat[body.mesh.triangles]
        areas = _doubled_areas(corners)
        faces.append(shapely.union_all(shapely.polygons(corners[areas > 1e-6])))
    # Closed by a hair and opened again, so that no sliver between triangles is left.
    shape = shapely.buffer(
        shapely.buffer(shapely.union_all(faces), _HAIR_MM, join_style="mitre"),
        -_HAIR_MM, join_style="mitre",
    )  # fmt: skip
    left, right = [], []
    low_x, _, high_x, _ = shape.bounds
    for top in tops:
        height = top - _BELOW_TOP_MM
        run = shapely.intersection(
            shape, shapely.LineString([(low_x - 1, height), (high_x + 1, height)])
        )
        if not run.is_empty:
            left.append((float(run.bounds[0]), top))
            right.append((float(run.bounds[2]), top))
    return Outline(title=title, shape=shape, left=tuple(left), right=tuple(right))


def _doubled_areas(corners: NDArray[np.float64]) -> NDArray[np.float64]:
    a, b = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    found: NDArray[np.float64] = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Stepping:
    """How the ends of the levels lie to the straight line through those above the lowest [mm].

    Args:
        foot: where that line comes to the lowest level, across and up.
        head: its upper end.
        astray_mm: how far the level above the lowest that strays most is off it.
        lowest_mm: how far the lowest level reaches to the right of the line's foot.
    """

    foot: tuple[float, float]
    head: tuple[float, float]
    astray_mm: float
    lowest_mm: float


def stepping_of(ends: tuple[tuple[float, float], ...]) -> Stepping | None:
    """How levels step; None for fewer than three, or where they stand plumb.

    Args:
        ends: across and up, lowest first [mm].
    """
    if len(ends) < 3 or max(x for x, _ in ends) - min(x for x, _ in ends) < 1.0:
        return None
    (x0, y0), (x1, y1) = ends[1], ends[-1]
    slope = (x1 - x0) / (y1 - y0)
    low = (x0 + slope * (ends[0][1] - y0), ends[0][1])
    return Stepping(
        foot=low,
        head=ends[-1],
        astray_mm=max(abs(x - x0 - slope * (y - y0)) for x, y in ends[1:]),
        lowest_mm=ends[0][0] - low[0],
    )


def write_outlines(piece: Piece, png: Path, svg: Path) -> tuple[Path, Path]:
    """The paths of both files written: front and side at one scale.

    Args:
        piece: what is shown.
        png: of the picture.
        svg: of the drawing.

    Raises:
        SolidError: a part cannot be made.
        OSError: a file cannot be written.
    """
    from matplotlib import rc_context
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    views = outlines_of(piece)
    bounds = [each.shape.bounds for each in views]
    low = min(each[1] for each in bounds)
    high = max(each[3] for each in bounds)
    reaches = [_reach(each) for each in views]
    widths = [right - left for left, right in reaches]
    gap, edge = 0.22 * max(max(widths), 0.6 * (high - low)), 0.10 * max(high - low, max(widths))
    wide = sum(widths) + gap + 2 * edge
    tall = high - low + 3.2 * edge
    scale = min(_HIGH_IN / tall, 11.0 / wide)
    with rc_context({"svg.hashsalt": "knifewall", "svg.fonttype": "path"}):
        figure = Figure(figsize=(wide * scale, tall * scale), dpi=_DOTS_PER_INCH, facecolor="white")
        FigureCanvasAgg(figure)
        axes = figure.add_axes((0.0, 0.0, 1.0, 1.0))
        axes.set_axis_off()
        axes.set_xlim(0.0, wide)
        axes.set_ylim(low - 1.9 * edge, low - 1.9 * edge + tall)
        at = edge
        for view, (left, right) in zip(views, reaches, strict=True):
            _draw(axes, view, at - left, low, edge, piece)
            at += right - left + gap
        figure.savefig(png, dpi=_DOTS_PER_INCH, metadata={"Software": None})
        figure.savefig(svg, metadata={"Date": None, "Creator": None})
    return png, svg


def _reach(view: Outline) -> tuple[float, float]:
    """How far a view and the lines that it steps in go to left and right [mm]."""
    left, _, right, _ = view.shape.bounds
    lines = [line for ends in (view.left, view.right) if (line := stepping_of(ends))]
    ends = [x for line in lines for x in (line.foot[0], line.head[0])]
    return min((left, *ends)), max((right, *ends))


def patches_of(shape: Any, shift: tuple[float, float], scale: float = 1.0) -> Iterator[Any]:
    """An outline as filled shapes for a matplotlib picture.

    Args:
        shape: across and up, of one piece or several [mm].
        shift: what is added to across and up, in the picture's own measure.
        scale: of the picture's measure to a millimetre.
    """
    from matplotlib.patches import PathPatch
    from matplotlib.path import Path as Outlined

    moved = np.array(shift)
    for each in getattr(shape, "geoms", [shape]):
        rings = [each.exterior, *each.interiors]
        path = Outlined.make_compound_path(
            *(Outlined(np.array(ring.coords) * scale + moved, closed=True) for ring in rings)
        )
        yield PathPatch(path, facecolor=FILL, edgecolor=INK, linewidth=1.1)


def _draw(axes: Any, view: Outline, shift: float, low: float, edge: float, piece: Piece) -> None:
    for patch in patches_of(view.shape, (shift, 0.0)):
        axes.add_patch(patch)
    left, _, right, _ = view.shape.bounds
    if piece.stance is Stance.FLOOR:
        ground = (left + shift - 0.5 * edge, right + shift + 0.5 * edge)
        axes.plot(ground, (low, low), color=INK, linewidth=0.8)
    strays = {}
    for side, ends in {"left": view.left, "right": view.right}.items():
        found = stepping_of(ends)
        if found is None:
            continue
        strays[side] = found
        axes.plot(
            (found.foot[0] + shift, found.head[0] + shift), (found.foot[1], found.head[1]),
            color=STEP, linewidth=1.3, linestyle=(0, (5, 3)), zorder=5,
        )  # fmt: skip
        axes.plot(
            [x + shift for x, _ in ends], [y for _, y in ends], color=STEP, linestyle="none",
            marker="o", markersize=4.5, markerfacecolor="white", zorder=6,
        )  # fmt: skip
    words = [f"{piece.name}, {view.title}", _told(strays, piece)]
    middle = (left + right) / 2 + shift
    axes.text(middle, low - 0.75 * edge, drawable(words[0]), ha="center", va="center", size=9,
              color=INK, parse_math=False)  # fmt: skip
    axes.text(middle, low - 1.4 * edge, drawable(words[1]), ha="center", va="center", size=7.5,
              color=STEP, parse_math=False)  # fmt: skip


def _told(found: dict[str, Stepping], piece: Piece) -> str:
    """Whether its levels step in a line, in words."""
    if not found:
        return ""
    astray = max(each.astray_mm for each in found.values())
    lowest = max(found.values(), key=lambda each: abs(each.lowest_mm)).lowest_mm
    line = (
        "the edges step in a line"
        if astray < _SEEN_MM
        else f"the edges stray up to {figure_with_unit(astray, piece.shown)} from a line"
    )
    if abs(lowest) < _SEEN_MM:
        return f"{line},\nthe lowest too"
    return f"{line};\nthe lowest is {figure_with_unit(abs(lowest), piece.shown)} off it"
