"""Every distinct part has one name and one identifier, and every output keeps to them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

import pytest

from exporters.summary import summary_of
from exporters.tables import parts_rows
from furniture import (
    TOP_FRONT,
    Against,
    CentredOn,
    Composition,
    DesignError,
    EdgeProfile,
    Key,
    Opening,
    PlacedPart,
    Stock,
    Vent,
    Way,
)
from furniture.pieces import Piece, distinct_parts
from furniture.shop.boards import cutting_job
from furniture.shop.boards.names import instances_meant, names_of
from furniture.solids.measure import mass_of_part, weigh
from tests.builders.bench import THICK, a_box, a_stand, oak

WALNUT = Stock(name="walnut", species="black walnut", thickness="20 mm", moisture="8 %")
KEYS = [
    Key(
        name=f"key {number}",
        stock=oak("3 mm"),
        between=("front rail", f"{side} side rail"),
        depth="9 mm",
        start=start,
    )
    for number, (side, start) in enumerate([("left", "20 mm"), ("right", "30 mm")], start=1)
]
LEFT, RIGHT = "left side rail", "right side rail"
LOPSIDED: Mapping[str, dict[str, Any]] = {
    "a cable hole": {"openings": [Opening(on=LEFT, size="20 mm", from_edge="30 mm")]},
    "vents": {"vents": [Vent(on=RIGHT, count=3, from_edge="30 mm")]},
    "a stock of its own": {"own_stock": {LEFT: WALNUT}},
}
BOX_ALONE: Mapping[str, dict[str, Any]] = {
    "one key": {"corner_parts": KEYS[:1]},
    "two unlike keys": {"corner_parts": KEYS},
    "a profile": {"profiles": [EdgeProfile(on=LEFT, edges=[TOP_FRONT])]},
}
PIECES = {
    **{f"box, {what}": (a_box, given) for what, given in {**LOPSIDED, **BOX_ALONE}.items()},
    **{f"stand, {what}": (a_stand, given) for what, given in LOPSIDED.items()},
}


@pytest.fixture(params=PIECES)
def piece(request: pytest.FixtureRequest) -> Piece:
    make, given = PIECES[request.param]
    return make(**given).build()


def test_unlike_side_rails_go_by_their_own_names(piece: Piece) -> None:
    names = [each.part.name for each in distinct_parts(piece)]
    assert {LEFT, RIGHT} <= set(names)
    assert len({each.part.id for each in distinct_parts(piece)}) == len(names)


def test_each_row_of_the_tables_is_of_its_own_part(piece: Piece) -> None:
    weighed = weigh(piece)
    rows = {row[1]: row for row in parts_rows(piece, weighed.parts)}
    record = {row["id"]: row for row in summary_of(piece, weighed, (), ())["parts"]}
    assert len(record) == len(distinct_parts(piece))
    for each in distinct_parts(piece):
        own = mass_of_part(each.part)
        assert rows[each.part.name][14] == f"{own.volume_mm3:.0f}"
        assert record[each.part.id]["volume_mm3"] == own.volume_mm3
        assert record[each.part.id]["mass_kg"] == own.mass_kg
    whole = sum(row["mass_kg"] * row["quantity"] for row in record.values())
    assert whole == pytest.approx(weighed.whole.mass_kg, rel=1e-12)


def test_every_placement_is_of_the_part_that_stands_there(piece: Piece) -> None:
    record = summary_of(piece, None, (), ())
    cuts = {row["id"]: row["cuts"] for row in record["parts"]}
    assert [len(cuts[row["part"]]) for row in record["placements"]] == [
        len(each.part.cuts) for each in piece.placed
    ]


def test_the_cutting_job_has_every_instance_once(piece: Piece) -> None:
    job = cutting_job(piece)
    asked = [name for part in job.request.parts for name in job.instances(part.name)]
    assert sorted(asked) == sorted(each.instance for each in piece.placed)
    ids = {each.instance: each.part.id for each in piece.placed}
    for part in job.request.parts:
        assert {ids[name] for name in job.instances(part.name)} == {*job.part_ids(part.name)}


def test_equal_side_rails_are_one_part() -> None:
    rails = {each.part.name: each.quantity for each in distinct_parts(a_box().build())}
    assert rails == {"front rail, back rail": 2, "side rail": 2, "lid": 1}


def test_a_plural_means_the_unlike_ones_too() -> None:
    piece = a_box(**LOPSIDED["vents"]).build()
    assert instances_meant(names_of(piece), "side rails") == (LEFT, RIGHT)


def _legs(*names: str, lengths: tuple[int, ...] = (200, 300, 100)) -> Composition:
    parts = [
        PlacedPart(
            name=name,
            stock=THICK,
            length=f"{length} mm",
            width="40 mm",
            places=[
                Against(of=names[index - 1], side=Way.BACK, gap="50 mm"),
                CentredOn(along=Way.LEFT),
                CentredOn(along=Way.UP),
            ]
            if index
            else (),
        )
        for index, (name, length) in enumerate(zip(names, lengths, strict=False))
    ]
    return Composition(name="legs", parts=parts)


@pytest.mark.parametrize(
    ("names", "both"),
    [
        (("leg a", "leg-a"), ("'leg-a'", "'leg a'")),
        (("leg a", "leg A"), ("'leg A'", "'leg a'")),
        (("leg a", "leg a"), ("'leg a'", "'leg a'")),
        (("caf\u00e9", "cafe\u0301"), ("'cafe\u0301'", "'caf\u00e9'")),
        (("long " * 15 + "a", "long " * 15 + "b"), ("a'", "b'")),
    ],
)
def test_own_names_that_files_cannot_tell_apart_are_refused(
    names: tuple[str, str], both: tuple[str, str]
) -> None:
    with pytest.raises(DesignError) as caught:
        _legs(*names).build()
    (problem,) = [each for each in caught.value.problems if each.parameter.startswith("part 2 ")]
    assert all(name in problem.given for name in both)
    told = re.fullmatch(r"call it '(.+)'", problem.remedy)
    assert told is not None
    assert _legs(names[0], told[1]).build().placed


def test_a_name_without_a_letter_or_figure_is_refused() -> None:
    with pytest.raises(DesignError, match=r"part 1 \(!!\) name: given '!!'"):
        _legs("!!").build()


@pytest.mark.parametrize("third", ["leg 1, 2", "Leg 1 2"])
def test_a_name_that_alike_parts_have_together_is_refused(third: str) -> None:
    alike = _legs("leg 1", "leg 2", third, lengths=(200, 200, 100))
    with pytest.raises(DesignError) as caught:
        alike.build()
    (problem,) = caught.value.problems
    assert problem.given == f"{third!r}, and 'leg 1, 2' for 'leg 1' and 'leg 2', which are alike"
    _legs("leg 1", "leg 2", "short leg", lengths=(200, 200, 100)).build()


def test_many_alike_parts_have_a_short_name() -> None:
    names = tuple(f"slat {n}" for n in range(1, 41))
    (only,) = distinct_parts(_legs(*names, lengths=(200,) * 40).build())
    assert only.part.name == "slat 1 and 39 alike"
    assert len(only.part.id) < 60


@pytest.mark.parametrize("name", ["con", "NUL", "lpt1"])
def test_a_piece_is_not_called_as_a_device_is(name: str) -> None:
    with pytest.raises(DesignError, match="device"):
        a_box(name=name).build()


def test_what_was_given_cannot_be_changed() -> None:
    piece = a_box(**LOPSIDED["a cable hole"]).build()
    with pytest.raises(TypeError):
        piece.parameters["width"] = "999 mm"  # type: ignore[index]
    with pytest.raises(TypeError):
        piece.parameters["openings"][0]["size"] = "1 mm"
    given = summary_of(piece, None, (), ())["parameters"]
    assert given["openings"][0]["size"] == "20 mm"
