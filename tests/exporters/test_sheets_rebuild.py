"""From the sheet alone the part can be rebuilt, and each figure stands on it once."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from exporters.sheets import SheetSettings, write_sheets
from furniture.parts.part import Part
from furniture.solids.make import solid_of
from furniture.units import Shown, inches, millimetres
from tests.exporters.sheet_reader import read_sheet
from tests.exporters.sheet_rebuild import rebuilt
from tests.exporters.sheet_samples import INCH_SAMPLES, SAMPLES, piece_of, random_part


def _check(part: Part, shown: Shown, folder: Path, share: float) -> None:
    path = write_sheets(piece_of(part, shown=shown), SheetSettings(), folder)[-1]
    solid = rebuilt(read_sheet(path))
    model = solid_of(part)
    assert solid.Volume() == pytest.approx(model.Volume(), rel=share)
    box, other = solid.BoundingBox(), model.BoundingBox()
    for ours, theirs in ((box.xlen, other.xlen), (box.ylen, other.ylen), (box.zlen, other.zlen)):
        assert ours == pytest.approx(theirs, abs=shown.step_mm)
    apart = solid.Center() - model.Center()
    assert apart.Length < 0.05 + shown.step_mm


@pytest.mark.parametrize("part", SAMPLES, ids=lambda part: part.slug)
def test_metric_parts_are_rebuilt_from_their_sheets(part: Part, tmp_path: Path) -> None:
    """To 0.02 % of volume: figures are printed to 0.1 mm and these parts are whole tenths."""
    _check(part, millimetres(0.1), tmp_path, 2e-4)


@pytest.mark.parametrize("part", INCH_SAMPLES, ids=lambda part: part.slug)
def test_inch_parts_are_rebuilt_from_their_sheets(part: Part, tmp_path: Path) -> None:
    """To 0.1 % of volume: these parts are whole 64ths but for a dado set by a dial."""
    _check(part, inches(64), tmp_path, 1e-3)


@pytest.mark.parametrize("seed", range(12))
def test_random_parts_are_rebuilt_from_their_sheets(seed: int, tmp_path: Path) -> None:
    """The same for parts with cuts of any kind."""
    _check(random_part(seed + 1000), millimetres(0.1), tmp_path, 2e-4)


@pytest.mark.parametrize("part", SAMPLES, ids=lambda part: part.slug)
def test_no_dimension_is_given_twice(part: Part, tmp_path: Path) -> None:
    """No figure stands twice in one row of one view, and each size of the blank stands once."""
    sheet = read_sheet(write_sheets(piece_of(part), SheetSettings(), tmp_path)[-1])
    plain = [f for view in sheet.views.values() for f in view.figures if not f.is_running]
    assert len(plain) == 3
    for view in sheet.views.values():
        rows = Counter((f.is_level, f.text) for f in view.figures if f.is_running)
        assert all(count == 1 for count in rows.values()), view.heading
