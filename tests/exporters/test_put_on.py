"""Ballast stands on the sheet of the part that carries it, placed from its datums."""

from __future__ import annotations

from dataclasses import replace

import pytest

from exporters.faces import faces_of
from exporters.sheets.annotate import bench_for
from exporters.sheets.put_on import annotated_put_on, put_on
from furniture.parts.placement import box_of
from furniture.pieces.piece import FixedBody, distinct_parts, placed_named
from tests import models


def test_ballast_is_placed_from_the_datums_of_what_it_lies_on() -> None:
    """An edge of it on either axis, nearer to the datum, with its size and its outline."""
    piece = models.piece_of("tea_box")
    bottom = placed_named(piece, "bottom")
    low, high = box_of(bottom.part.blank, bottom.placement)
    centre = (low[0] + 90.0, low[1] + 50.0, high[2] + 5.0)
    lead = FixedBody(
        name="lead", on="bottom", mass_kg=1.0, centre_mm=centre, size_mm=(60.0, 40.0, 10.0)
    )
    piece = replace(piece, fixed=(lead,))
    each = next(each for each in distinct_parts(piece) if "bottom" in each.instances)
    faces = faces_of(piece, each)
    bench = bench_for(each.part, piece.shown, faces)
    notes = annotated_put_on(put_on(piece, each), each.part, bench)
    (note,) = [note for note in notes if note.noun == "lead"]
    values = {position.axis: position.value_mm for position in note.positions}
    assert values == pytest.approx({0: 60.0, 1: 30.0})
    wide = {round(point[0], 6) for point in note.outline}
    assert max(wide) - min(wide) == pytest.approx(60.0)
