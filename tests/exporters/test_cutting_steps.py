"""The settings at the saw, followed blindly: they alone must give every part at its rough size."""

from __future__ import annotations

import json

import pytest
from shapely.geometry import Polygon, box

from exporters.cutting import cutting_record
from exporters.cutting.tables import CUTTING_HEADER, cutting_rows
from tests.exporters.board_samples import random_outcome
from tests.shop.boards.bench import MODELS, outcome_of_model

FAR = 1e5


def _bounds(shape):
    x, y, x_end, y_end = shape.bounds
    return x, y, x_end, y_end


def _sawn(shape, cut, kerf):
    """The piece on the near side of the blade and the one on the far side, after one cut."""
    x, y, x_end, y_end = _bounds(shape)
    is_rip = cut["kind"] == "rip"
    low, high = (y, y_end) if is_rip else (x, x_end)
    set_to = cut["setting_mm"]
    if cut["guide"] == "plane":
        first, last = low, low + set_to
    elif cut["is_from_far"]:
        first, last = high - set_to - kerf, high - set_to
    else:
        first, last = low + set_to, low + set_to + kerf
    if is_rip:
        near, far = box(-FAR, -FAR, FAR, first), box(-FAR, last, FAR, FAR)
    else:
        near, far = box(-FAR, -FAR, first, FAR), box(last, -FAR, FAR, FAR)
    return shape.intersection(near), shape.intersection(far)


def _follow(board, kerf):
    """Every piece that is left, by name, when the cuts of a board are made by their settings."""
    outline = Polygon(
        [(0, 0), (board["length_mm"], 0)]
        + [(w["at_mm"], w["width_mm"]) for w in reversed(board["widths"])]
    )
    hand = {board["name"]: outline}
    for cut in board["cuts"]:
        shape = hand.pop(cut["piece"])
        x, y, x_end, y_end = _bounds(shape)
        work = cut["workpiece"]
        assert x_end - x == pytest.approx(work["length_mm"], abs=1e-3)
        assert y_end - y <= work["width_mm"] + 1e-3
        sides = [side for side in _sawn(shape, cut, kerf) if not _is_dust(side)]
        named = [held for held in (cut["comes_off"], cut["stays"]) if held is not None]
        assert len(sides) == len(named), cut
        ways = [sides, sides[::-1]]
        fitting = [way for way in ways if all(map(_is_of_size, way, named))]
        assert fitting, (cut, [_bounds(side) for side in sides])
        for side, held in zip(fitting[0], named, strict=True):
            if held["kind"] != "waste":
                assert held["name"] not in hand, held
                hand[held["name"]] = side
    return hand


def _is_dust(side):
    if side.is_empty:
        return True
    x, y, x_end, y_end = _bounds(side)
    return min(x_end - x, y_end - y) <= 0.05


def _is_of_size(side, held):
    x, y, x_end, y_end = _bounds(side)
    return abs(x_end - x - held["length_mm"]) < 1e-3 and abs(y_end - y - held["width_mm"]) < 1e-3


def _check(outcome):
    record = json.loads(json.dumps(cutting_record(outcome), allow_nan=False))
    kerf, parts = record["saw"]["kerf_mm"], 0
    for board in record["boards"]:
        if not board["is_begun"]:
            continue
        hand = _follow(board, kerf)
        plan = next(each for each in outcome.used if each.board == board["name"])
        for placement, written in zip(plan.placements, board["placements"], strict=True):
            x, y, x_end, y_end = _bounds(hand.pop(outcome.name_of(placement)))
            assert x_end - x == pytest.approx(written["length_mm"], abs=1e-3)
            assert y_end - y == pytest.approx(written["width_mm"], abs=1e-3)
            assert x == pytest.approx(written["x_mm"], abs=1e-3)
            assert y == pytest.approx(written["y_mm"], abs=1e-3)
            parts += 1
        assert all(name.startswith("offcut ") for name in hand), hand.keys()
        kept = sum(1 for each in board["offcuts"] if each["is_usable"])
        assert len(hand) == kept
    return parts


@pytest.mark.parametrize("name", MODELS)
def test_the_settings_alone_give_every_part_of_a_model(name):
    outcome = outcome_of_model(name)
    assert _check(outcome) == len(outcome.blanks) > 2


@pytest.mark.seeds(few=3, full=60)
def test_the_settings_alone_give_every_part_of_random_jobs(seed):
    _check(random_outcome(seed))


def test_what_is_against_fence_or_stop_was_made_straight_before():
    """By the words: a rough end is only marked; what is named by a cut was made by an earlier one
    of the same kind."""
    for seed in range(12):
        for board in cutting_record(random_outcome(seed))["boards"]:
            kinds = {}
            for cut in board["cuts"]:
                words = cut["against"].split()
                if words[-2] == "cut":
                    assert kinds[int(words[-1])] == cut["kind"]
                else:
                    assert cut["against"] == (
                        "jointed edge" if cut["kind"] == "rip" else "tape end"
                    )
                if cut["against"] == "tape end":
                    assert cut["guide"] in ("mark", "plane")
                if cut["guide"] == "fence":
                    assert cut["kind"] == "rip"
                    assert cut["setting_mm"] >= 5.0
                kinds[cut["number"]] = cut["kind"]


def test_the_table_gives_setting_and_place_on_the_board_in_columns_of_their_own():
    """Board C by hand: the first crosscut squares the end 10 mm in, less a kerf of 3.2."""
    outcome = outcome_of_model("herb_stand")
    rows = [dict(zip(CUTTING_HEADER, row, strict=True)) for row in cutting_rows(outcome)]
    first = next(row for row in rows if row["board"] == "C" and row["what"] == "crosscut")
    assert (first["set"], first["setting"], first["from its"]) == ("mark", "6.8", "tape end")
    assert first["on board at"] == "6.8"
    later = [row for row in rows if row["what"] == "crosscut" and row["set"] == "stop"]
    assert any(row["setting"] != row["on board at"] for row in later)
