"""The strokes of a hatch pattern, the same on every run."""

from __future__ import annotations

from collections.abc import Iterator

from ezdxf.entities import Hatch
from ezdxf.math import Vec2
from ezdxf.render import hatching

_NUDGE = Vec2(0.00047, 0.00061)
"""By what share of its spacing a pattern is moved, so that no stroke runs through a corner.

The library does this with random numbers, which would make no two files equal. Own rule.
"""


def strokes_of(hatch: Hatch) -> Iterator[tuple[Vec2, Vec2]]:
    """Both ends of every stroke of a hatch that is filled with a pattern of lines.

    Args:
        hatch: in the plane of the sheet.
    """
    if hatch.pattern is None:
        return
    outlines = hatching.hatch_boundary_paths(hatch)
    for line in hatch.pattern.lines:
        spacing = line.offset.magnitude
        base = hatching.HatchBaseLine(
            origin=Vec2(line.base_point) + _NUDGE * spacing,
            direction=Vec2.from_deg_angle(line.angle),
            offset=line.offset,
            line_pattern=line.dash_length_items,
        )
        for run in hatching.hatch_paths(base, outlines):
            yield from base.pattern_renderer(run.distance).render(run.start, run.end)
