"""Slots for keys and grooves for splines: their places stand on the part's sheet and nowhere else,
and the work is set to them."""

from __future__ import annotations

import random
import re
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from exporters.sheets import PartsOn, SheetSettings
from exporters.sheets.numbering import numbered
from exporters.sheets.sheets import sheets_of_parts
from exporters.work.work_of import work_of
from furniture import Keys, MitredBox, Splines, Stock
from furniture.assembly import assembly_of
from furniture.making.settings import CornerSlot, MitreGroove
from furniture.parts.cuts import Cut, KeySlot, Mitre, SplineGroove
from furniture.parts.faces import ENDS, Face
from furniture.parts.part import Part, misfits_of
from furniture.pieces.piece import Piece, distinct_parts
from furniture.solids.make import solid_of
from furniture.units import Shown, inches, millimetres
from tests.exporters.collisions import collisions_in
from tests.exporters.documents import documents_of, write_documents
from tests.exporters.sheet_reader import read_parts
from tests.exporters.sheet_rebuild import rebuilt
from tests.exporters.sheet_samples import part, piece_of
from tests.exporters.sheet_values import figure_mm
from tests.exporters.sheet_wood import FIGURE
from tests.models import piece_of as model_of

MM, IN = millimetres(0.1), inches(64)


def _rail(dice: random.Random, shown: Shown) -> Part:
    """A rail mitred at one end or both, with keys or a spline in each mitre."""

    def size(low: float, high: float) -> float:
        step = shown.step_mm
        return round(dice.uniform(low, high) / step) * step

    blank = (size(120.0, 400.0), size(60.0, 140.0), size(14.0, 24.0))
    ends = dice.sample(ENDS, dice.randint(1, 2))
    cuts: list[Cut] = [Mitre(end=end, blade_tilt_deg=45.0, long_point_face=Face.FACE_SIDE)
                       for end in ends]  # fmt: skip
    if dice.random() < 0.5:
        wide, deep = size(2.5, 4.0), size(6.0, 0.8 * blank[2])
        starts = [size(share * blank[1], (share + 0.15) * blank[1])
                  for share in (0.1, 0.4, 0.7)[: dice.randint(1, 3)]]  # fmt: skip
        cuts += [
            KeySlot(end=end, long_point=Face.FACE_SIDE, mitre_angle_deg=45.0, start_mm=at,
                    width_mm=wide, depth_mm=deep)
            for end in ends for at in starts
        ]  # fmt: skip
    else:
        start = size(0.1 * blank[1], 0.3 * blank[1]) if dice.random() < 0.7 else 0.0
        run = size(0.3 * blank[1], 0.6 * blank[1])
        down, wide, deep = size(9.0, 12.0), size(3.0, 4.5), size(3.0, 6.0)
        cuts += [
            SplineGroove(end=end, long_point=Face.FACE_SIDE, mitre_angle_deg=45.0,
                         from_long_point_mm=down, down_slope_mm=wide, start_mm=start, run_mm=run,
                         depth_mm=deep)
            for end in ends
        ]  # fmt: skip
    made = part("rail", blank, *cuts)
    assert not misfits_of(made)
    return made


@pytest.mark.seeds(few=4, full=80)
def test_keys_and_splines_are_rebuilt_from_their_sheets_alone(seed: int) -> None:
    """To a hundredth of what they take: a slot that lay 1 mm off would be seen."""
    dice = random.Random(seed)
    shown = dice.choice((MM, IN))
    rail = _rail(dice, shown)
    piece = piece_of(rail, shown=shown)
    alone = SheetSettings(parts_on=PartsOn.THEIR_OWN)
    documents = documents_of(sheets_of_parts(piece, alone, distinct_parts(piece), 1))
    for named in documents:
        assert collisions_in(named.document) == ()
    with TemporaryDirectory() as folder:
        read = read_parts(write_documents(documents, Path(folder)))[1]
    model, bare = solid_of(rail), solid_of(part("bare", rail.blank.size, *_mitres(rail)))
    taken = bare.Volume() - model.Volume()
    made = rebuilt(*read)
    apart = model.Volume() + made.Volume() - 2 * model.intersect(made).Volume()
    # of two sides and a depth, each said to half a step or to the dial
    assert apart < 0.05 * taken, (apart, taken)
    moved = solid_of(replace(rail, cuts=tuple(_further_up(cut) for cut in rail.cuts)))
    assert moved.Volume() + made.Volume() - 2 * moved.intersect(made).Volume() > 2 * apart


def _further_up(cut: Cut) -> Cut:
    is_struck = isinstance(cut, (KeySlot, SplineGroove))
    return replace(cut, start_mm=cut.start_mm + 1.0) if is_struck else cut


def _mitres(rail: Part) -> list[Cut]:
    return [cut for cut in rail.cuts if isinstance(cut, Mitre)]


def _boxes(seed: int) -> Piece:
    """A lopsided box with keys or splines in its corners."""
    dice = random.Random(seed)
    is_inch = seed % 3 == 0
    stock = {
        thick: Stock(name=f"oak {thick}", species="white oak", thickness=f"{thick} mm")
        for thick in (3.2, 6.0, 11.5, 16.4)
    }  # fmt: skip
    thin = stock[3.2]
    corners = dice.choice((Keys(stock=thin, count=dice.randint(1, 3)), Splines(stock=thin)))
    return MitredBox(
        name="trial box",
        rails=stock[16.4],
        lid=stock[11.5],
        bottom=stock[6.0],
        width=f"{dice.randint(180, 420)} mm",
        depth=f"{dice.randint(110, 260)} mm",
        height=f"{dice.randint(75, 130)} mm",
        corner_parts=corners,
        shown=inches(64) if is_inch else millimetres(0.1),
    ).build()


@pytest.mark.seeds(few=1, full=15)
def test_the_work_is_set_to_what_the_sheets_of_the_rails_say(seed: int) -> None:
    """Each slot's near wall and its depth, and each groove's: the same figures on both."""
    _agrees(_boxes(seed))


def test_the_button_boxs_keys_are_sawn_where_its_sheets_say() -> None:
    _agrees(model_of("button_box"))


def _agrees(piece: Piece) -> None:
    parts = distinct_parts(piece)
    work = work_of(piece, order=assembly_of(piece))
    documents = documents_of(numbered(list(sheets_of_parts(piece, SheetSettings(), parts, 1))))
    with TemporaryDirectory() as folder:
        read = read_parts(write_documents(documents, Path(folder)))
    cuts = [cut for each in parts for cut in each.part.cuts for _ in each.instances]
    slots = [one.cuts for one in work.making.operations if isinstance(one.setting, CornerSlot)]
    assert sum(map(len, slots)) == sum(isinstance(cut, KeySlot) for cut in cuts)
    for operation in work.making.operations:
        setting = operation.setting
        if not operation.cuts or not isinstance(setting, (CornerSlot, MitreGroove)):
            continue
        made = operation.cuts[0].instance
        of = next(item for item, each in enumerate(parts, 1) if made in each.instances)
        said = [each.words for sheet in read[of] for each in sheet.callouts]
        unit = read[of][0].unit
        if isinstance(setting, CornerSlot):
            figures = [f for sheet in read[of] for f in sheet.views["face side"].running(False)]
            off = min(abs(f.said_mm - setting.near_mm) for f in figures)
            (words,) = {each for each in said if "key slot" in each}
        else:
            (words,) = {each for each in said if "spline groove" in each}
            down = re.search(rf"{FIGURE} down the mitre", words)
            assert down, words
            off = abs(figure_mm(down[1], unit) - setting.near_mm)
        assert off < 0.51 * piece.shown.step_mm
        sizes = re.search(rf"{FIGURE} wide x {FIGURE} deep", words)
        assert sizes, words
        assert figure_mm(sizes[1], unit) == pytest.approx(setting.width_mm, abs=0.02)
        assert figure_mm(sizes[2], unit) == pytest.approx(setting.depth_mm, abs=0.02)
