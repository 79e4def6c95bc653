"""Variants as one page: a column each, outlines at one scale on one floor, figures below them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape
from typing import Any

from exporters.compare.values import Variant
from exporters.pictures.outline import FILL, INK, STEP, Outline, stepping_of
from furniture.pieces.piece import Stance

_WIDE_PX, _HIGH_PX = 1060.0, 400.0
"""What all of them may take beside one another, and each upwards. Own rule."""
_LEAST_SHARE = 0.4
"""Of that scale at least: beyond it the page scrolls sideways. Own rule."""
_BETWEEN, _EDGE_PX, _DOT_PX = 0.18, 12.0, 3.2


def page_of(variants: Sequence[Variant]) -> str:
    """The page as text; it fetches nothing.

    Args:
        variants: in their order; at least one.
    """
    fits = (_WIDE_PX - 40.0 * len(variants)) / sum(_wide_mm(each) for each in variants)
    up = _HIGH_PX / max(_tall_mm(each) for each in variants)
    scale = max(min(fits, up), _LEAST_SHARE * up)
    names = list(dict.fromkeys(name for each in variants for name in each.figures))
    head = "".join(f'<th scope="col">{escape(each.name)}</th>' for each in variants)
    drawn = "".join(f"<td>{_svg(each, scale)}</td>" for each in variants)
    rows = "".join(
        f'<tr><th scope="row">{escape(name)}</th>'
        + "".join(f"<td>{escape(each.figures.get(name, ''))}</td>" for each in variants)
        + "</tr>"
        for name in names
    )
    return f"""<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Variants side by side</title>
<link rel="icon" href="data:,">
<style>
body {{ font: 16px/1.4 system-ui, sans-serif; color: {INK}; margin: 1em auto; max-width: 78em;
  padding: 0 1em; }}
.wide {{ overflow-x: auto; }}
table {{ border-collapse: collapse; }}
th, td {{ text-align: left; padding: 0.35em 1em 0.35em 0; border-bottom: 1px solid #c9c2b8;
  vertical-align: baseline; }}
tbody th, thead td {{ position: sticky; left: 0; background: #fff; font-weight: 400; }}
.drawn td, .drawn th {{ vertical-align: bottom; padding-bottom: 0.8em; }}
svg {{ display: block; }}
@media print {{ .wide {{ overflow: visible; }} }}
</style></head><body>
<main><h1>Variants side by side</h1>
<p>From the front and from the right side, all at one scale; the dashes run through the edges of the
tiers above the lowest.</p>
<div class="wide" tabindex="0" role="region" aria-label="all variants">
<table><thead><tr><td></td>{head}</tr></thead>
<tbody><tr class="drawn"><th scope="row">outlines</th>{drawn}</tr>
{rows}</tbody></table></div></main>
</body></html>
"""


def _svg(variant: Variant, scale: float) -> str:
    """Front and side on one floor; a number of the picture is a dot of the page."""
    wide = _wide_mm(variant) * scale + 2 * _EDGE_PX
    tall = _tall_mm(variant) * scale + 2 * _EDGE_PX
    floor, left = tall - _EDGE_PX, _EDGE_PX
    parts: list[str] = []
    for view in variant.views:
        low_x, low_y, high_x, _ = view.shape.bounds
        parts += _view(view, scale, left - low_x * scale, floor + low_y * scale)
        left += (high_x - low_x) * (1 + _BETWEEN) * scale
    if variant.stance is Stance.FLOOR:
        parts.append(f'<path d="M0 {floor:.2f}H{wide:.2f}" stroke="{INK}" fill="none"/>')
    says = escape(f"{variant.name}: outlines from the front and from the right side", quote=True)
    return (
        f'<svg role="img" aria-label="{says}" width="{wide:.2f}" height="{tall:.2f}" '
        f'viewBox="0 0 {wide:.2f} {tall:.2f}">{"".join(parts)}</svg>'
    )


def _view(view: Outline, scale: float, across: float, up: float) -> Iterator[str]:
    def at(point: Sequence[float]) -> str:
        return f"{across + point[0] * scale:.2f} {up - point[1] * scale:.2f}"

    rings = "".join(
        f"M{'L'.join(at(each) for each in ring.coords[:-1])}Z" for ring in _rings(view.shape)
    )
    yield f'<path class="outline" d="{rings}" fill="{FILL}" fill-rule="evenodd" stroke="{INK}"/>'
    for ends in (view.left, view.right):
        found = stepping_of(ends)
        if found is None:
            continue
        line = f"M{at(found.foot)}L{at(found.head)}"
        yield f'<path d="{line}" stroke="{STEP}" stroke-width="1.5" stroke-dasharray="6 4"/>'
        for end in ends:
            x, y = at(end).split()
            yield f'<circle cx="{x}" cy="{y}" r="{_DOT_PX}" fill="#fff" stroke="{STEP}"/>'


def _rings(shape: Any) -> Iterator[Any]:
    for each in getattr(shape, "geoms", [shape]):
        yield each.exterior
        yield from each.interiors


def _wide_mm(variant: Variant) -> float:
    front, side = (_across(view) for view in variant.views)
    return front * (1 + _BETWEEN) + side


def _across(view: Outline) -> float:
    low, _, high, _ = view.shape.bounds
    return float(high - low)


def _tall_mm(variant: Variant) -> float:
    return max(float(view.shape.bounds[3] - view.shape.bounds[1]) for view in variant.views)
