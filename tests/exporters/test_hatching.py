"""The strokes of a hatched area on paper: inside it, all of it, wherever it lies."""

from __future__ import annotations

import math
import random
from itertools import pairwise

import ezdxf
import pytest
import shapely

from exporters.pdf.hatching import strokes_of

STEP = 18.0


@pytest.mark.parametrize("angle", [0.0, 30.0, 45.0, 90.0, 135.0])
def test_strokes_fill_a_post_with_its_dado_and_nothing_else(angle: float) -> None:
    """Upright grain runs along the dado's own sides: lines that count them ran into the tier."""
    space = ezdxf.new().modelspace()
    turn = math.radians(angle)
    definition = [
        [angle, (0.0, 0.0), (-math.sin(turn) * STEP, math.cos(turn) * STEP), list[float]()]
    ]
    for seed in range(12):
        dice = random.Random(seed)
        x, y = dice.uniform(0, 2000), dice.uniform(0, 2000)
        outline = [(x, y), (x, y + 100), (x + 60, y + 100), (x + 60, y + 200), (x, y + 200),
                   (x, y + 300), (x + 200, y + 300), (x + 200, y)]  # fmt: skip
        hole = [(x + 90, y + 30), (x + 150, y + 30), (x + 150, y + 70), (x + 90, y + 70)]
        hatch = space.add_hatch()
        hatch.set_pattern_fill("wood", definition=definition, scale=1.0)
        hatch.paths.add_polyline_path(outline, is_closed=True)
        hatch.paths.add_polyline_path(hole, is_closed=True, flags=16)
        wood = shapely.Polygon(outline, [hole])
        ends = [[(one.x, one.y), (other.x, other.y)] for one, other in strokes_of(hatch)]
        lines = [shapely.LineString(each) for each in ends]
        assert all(wood.buffer(1e-3).contains(each) for each in lines)
        assert math.fsum(each.length for each in lines) * STEP == pytest.approx(wood.area, rel=0.12)
        beside = sorted({round(each.distance(shapely.LineString([
            (x - 9e3 * math.cos(turn), y - 9e3 * math.sin(turn)),
            (x + 9e3 * math.cos(turn), y + 9e3 * math.sin(turn)),
        ])), 6) for each in lines})  # fmt: skip
        assert max(second - first for first, second in pairwise(beside)) < STEP + 1e-3
