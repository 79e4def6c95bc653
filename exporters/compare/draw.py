"""Variants drawn side by side at one scale, with their figures under each."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from exporters.compare.page import page_of
from exporters.compare.values import Variant
from exporters.pdf.fonts import drawable
from exporters.pictures.outline import INK, Outline, patches_of
from furniture.pieces.piece import Stance

KINDS = (".png", ".svg", ".html")
"""How the name of the file may end."""
_A_ROW = 4
"""Variants beside one another; more go below. Own rule: more are too small to tell apart."""
_WIDE_IN, _HIGH_IN = 12.0, 4.6
_LEAST_IN = 2.3
"""What a variant takes at least, so that its figures have room."""
_GAP_IN, _EDGE_IN, _LINE_IN = 0.35, 0.35, 0.2
_DOTS_PER_INCH = 120.0


def write_comparison(variants: Sequence[Variant], path: Path) -> Path:
    """The path written.

    Args:
        variants: in their order; at least one.
        path: its name ends in one of `KINDS`.

    Raises:
        OSError: the file cannot be written.
    """
    from matplotlib import rc_context

    path.parent.mkdir(parents=True, exist_ok=True)
    if path.suffix == ".html":
        path.write_text(page_of(variants), encoding="utf-8")
        return path
    with rc_context({"svg.hashsalt": "knifewall", "svg.fonttype": "path"}):
        figure = _figure(variants)
        if path.suffix == ".png":
            figure.savefig(path, dpi=_DOTS_PER_INCH, metadata={"Software": None})
            return path
        figure.savefig(path, metadata={"Date": None, "Creator": None})
    return path


def _figure(variants: Sequence[Variant]) -> Any:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    rows = [variants[at : at + _A_ROW] for at in range(0, len(variants), _A_ROW)]
    scale = _scale(variants, max(len(row) for row in rows))
    widths = [[max(_wide_mm(each) * scale, _LEAST_IN) for each in row] for row in rows]
    wide = max(sum(row) + _GAP_IN * (len(row) - 1) for row in widths) + 2 * _EDGE_IN
    lines = max(len(each.figures) for each in variants) + 2
    tall = max(_tall_mm(each) for each in variants) * scale
    row_high = tall + _LINE_IN * lines + _GAP_IN
    high = row_high * len(rows) + _EDGE_IN
    figure = Figure(figsize=(wide, high), dpi=_DOTS_PER_INCH, facecolor="white")
    FigureCanvasAgg(figure)
    axes = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    axes.set_axis_off()
    axes.set_xlim(0.0, wide)
    axes.set_ylim(0.0, high)
    for number, (row, places) in enumerate(zip(rows, widths, strict=True)):
        floor, left = high - _EDGE_IN - number * row_high - tall, _EDGE_IN
        for variant, place in zip(row, places, strict=True):
            _draw(axes, variant, (left + place / 2, floor), scale)
            left += place + _GAP_IN
    return figure


def _scale(variants: Sequence[Variant], beside: int) -> float:
    """Inches of picture for a millimetre of piece, the same for all."""
    room = (_WIDE_IN - 2 * _EDGE_IN - _GAP_IN * (beside - 1)) / beside
    widest = max(_wide_mm(each) for each in variants)
    return min(room / widest, _HIGH_IN / max(_tall_mm(each) for each in variants))


def _between_mm(variant: Variant) -> float:
    """Between the view from the front and the one from the side."""
    return 0.18 * max(_across(view) for view in variant.views)


def _wide_mm(variant: Variant) -> float:
    return sum(_across(view) for view in variant.views) + _between_mm(variant)


def _across(view: Outline) -> float:
    low, _, high, _ = view.shape.bounds
    return float(high - low)


def _tall_mm(variant: Variant) -> float:
    return max(float(view.shape.bounds[3] - view.shape.bounds[1]) for view in variant.views)


def _draw(axes: Any, variant: Variant, foot: tuple[float, float], scale: float) -> None:
    middle, floor = foot
    wide = _wide_mm(variant) * scale
    left = middle - wide / 2
    for view in variant.views:
        low, under, _, _ = view.shape.bounds
        for patch in patches_of(view.shape, (left - low * scale, floor - under * scale), scale):
            axes.add_patch(patch)
        left += (_across(view) + _between_mm(variant)) * scale
    if variant.stance is Stance.FLOOR:
        ends = (middle - wide / 2 - 0.1, middle + wide / 2 + 0.1)
        axes.plot(ends, (floor, floor), color=INK, linewidth=0.8)
    style = {"ha": "center", "va": "center", "color": INK, "parse_math": False}
    at = floor - 0.8 * _LINE_IN
    axes.text(middle, at, drawable(variant.name), size=10, weight="bold", **style)
    for name, told in variant.figures.items():
        at -= _LINE_IN
        axes.text(middle, at, drawable(f"{name}: {told}"), size=8.5, **style)
