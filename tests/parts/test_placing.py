"""Placement by meaning: where parts come to stand, by hand, and every muddle said in words."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.errors import Problem
from furniture.parts.blank import Blank
from furniture.parts.faces import Face
from furniture.parts.placement import Box, box_of
from furniture.parts.placing import (
    Against,
    At,
    CentredOn,
    FlushWith,
    Mark,
    Wanted,
    place,
    stated_distances,
)
from furniture.parts.turning import Way, turned
from furniture.parts.vectors import Vector, cross
from furniture.units import Reader
from tests.fresh import law
from tests.joints.pairs import mm


def wanted(
    name: str,
    *relations: object,
    size: tuple[float, float, float] = (200.0, 80.0, 12.0),
    face_side: Way = Way.UP,
    grain: Way = Way.RIGHT,
) -> Wanted:
    blank = Blank(length_mm=size[0], width_mm=size[1], thickness_mm=size[2])
    return Wanted(instance=name, blank=blank, face_side=face_side, grain=grain, relations=relations)


def upright() -> Wanted:
    """A board 400 high, 120 deep and 18 thick: x 0 to 18, y 0 to 120, z 0 to 400.

    Grain up and face side to the right, so y = z cross x: right cross up is to the front.
    """
    return wanted("upright", size=(400.0, 120.0, 18.0), face_side=Way.RIGHT, grain=Way.UP)


def boxes(*parts: Wanted) -> dict[str, Box]:
    """The box round every part; fails when anything is refused."""
    reader = Reader()
    found = place(reader, parts)
    assert not reader.problems, reader.problems
    return {part.instance: box_of(part.blank, found[part.instance]) for part in parts}


def problems(*parts: Wanted) -> tuple[Problem, ...]:
    reader = Reader()
    place(reader, parts)
    return reader.problems


def approx(box: Box) -> object:
    return tuple(pytest.approx(corner) for corner in box)


LEVEL = (
    FlushWith(of="upright", side=Way.FRONT),
    At(distance="100 mm", of="upright", side=Way.DOWN),
)


def test_the_first_part_stands_in_the_corner() -> None:
    assert boxes(upright())["upright"] == approx(((0.0, 0.0, 0.0), (18.0, 120.0, 400.0)))


def test_a_shelf_let_in_at_a_height_flush_in_front() -> None:
    """Let in 6: it begins at 18 - 6 = 12; its underside is at 100; 80 deep from the front."""
    shelf = wanted("shelf", Against(of="upright", side=Way.RIGHT, let_in="6 mm"), *LEVEL)
    assert boxes(upright(), shelf)["shelf"] == approx(((12.0, 0.0, 100.0), (212.0, 80.0, 112.0)))


def test_order_does_not_matter() -> None:
    shelf = wanted("shelf", Against(of="upright", side=Way.RIGHT), *LEVEL)
    on_it = wanted(
        "block",
        Against(of="shelf", side=Way.UP),
        CentredOn(of="shelf", along=Way.RIGHT),
        CentredOn(of="shelf", along=Way.BACK),
        size=(20.0, 10.0, 5.0),
    )
    assert boxes(on_it, shelf, upright()) == boxes(upright(), shelf, on_it)


@pytest.mark.parametrize(
    ("relation", "low_y"),
    [
        (FlushWith(of="upright", side=Way.FRONT, proud="5 mm"), -5.0),
        (FlushWith(of="upright", side=Way.FRONT, shy="5 mm"), 5.0),
        (FlushWith(of="upright", side=Way.BACK), 40.0),
        (FlushWith(of="upright", side=Way.BACK, proud="5 mm"), 45.0),
        (FlushWith(of="upright", side=Way.BACK, shy="5 mm"), 35.0),
        (CentredOn(of="upright", along=Way.BACK), 20.0),
        (CentredOn(of="upright", along=Way.FRONT), 20.0),
        (Against(of="upright", side=Way.BACK, gap="2 mm"), 122.0),
        (Against(of="upright", side=Way.FRONT, let_in="3 mm"), -77.0),
        (At(distance="10 mm", of="upright", side=Way.FRONT), 10.0),
        (At(distance="10 mm", of="upright", side=Way.BACK), 30.0),
        (At(distance="50 mm", of="upright", side=Way.FRONT, to=Mark.CENTRE), 10.0),
        (At(distance="50 mm", of="upright", side=Way.BACK, to=Mark.CENTRE), 30.0),
        (At(distance="10 mm", of="upright", side=Face.FACE_EDGE), 30.0),
        (At(distance="10 mm", of="upright", side=Face.BACK_EDGE), 10.0),
    ],
)
def test_each_relation_front_to_back(relation: object, low_y: float) -> None:
    """The upright is 120 deep and the shelf 80; the upright's face edge looks to the back."""
    shelf = wanted("shelf", relation, LEVEL[1], CentredOn(of="upright", along=Way.LEFT))
    low, high = boxes(upright(), shelf)["shelf"]
    assert low[1] == pytest.approx(low_y)
    assert high[1] - low[1] == pytest.approx(80.0)


@law(few=40, full=400)
@given(st.sampled_from(Way), st.sampled_from(Way), mm(20, 200), mm(20, 200), mm(5, 30), mm(0, 15))
def test_a_part_against_a_side_touches_it_whichever_way_it_is_turned(
    face_side: Way, grain: Way, length: float, width: float, thickness: float, gap: float
) -> None:
    """Turned any way and set against any side, the gap is the distance of the two faces."""
    if face_side.axis == grain.axis:
        return
    for side in Way:
        others = [way for way in (Way.RIGHT, Way.BACK, Way.UP) if way.axis != side.axis]
        part = wanted(
            "part",
            Against(of="upright", side=side, gap=f"{gap} mm"),
            *(CentredOn(of="upright", along=way) for way in others),
            size=(length, width, thickness),
            face_side=face_side,
            grain=grain,
        )
        found = boxes(upright(), part)
        still, moved = found["upright"], found["part"]
        first, second = (still[1], moved[0]) if side.sign > 0 else (moved[1], still[0])
        assert second[side.axis] - first[side.axis] == pytest.approx(gap)
        for way in others:
            middles = [(box[0][way.axis] + box[1][way.axis]) / 2 for box in (still, moved)]
            assert middles[0] == pytest.approx(middles[1])


def test_stated_distances_can_be_drawn() -> None:
    """The shelf's underside is 100 above the upright's lower end, and 5 behind its front."""
    shelf = wanted("shelf", AGAINST, FlushWith(of="upright", side=Way.FRONT, shy="5 mm"), LEVEL[1])
    parts = [upright(), shelf]
    found = stated_distances(parts, place(Reader(), parts))
    assert [each.what for each in found] == [
        "shelf behind front of upright",
        "shelf from down side of upright",
    ]
    spans = [(each.start[axis], each.end[axis]) for each, axis in zip(found, (1, 2), strict=True)]
    assert spans == [(0.0, 5.0), (0.0, 100.0)]


def test_the_frame_is_right_handed_and_looks_where_it_is_told() -> None:
    for face_side in Way:
        for grain in Way:
            if face_side.axis == grain.axis:
                continue
            found = place(Reader(), [wanted("part", face_side=face_side, grain=grain)])["part"]
            assert found.z_axis == pytest.approx(face_side.vector)
            assert found.x_axis == pytest.approx(grain.vector)


AGAINST = Against(of="upright", side=Way.RIGHT)
MUDDLES: list[tuple[Sequence[Wanted], str, str]] = [
    ([wanted("a", face_side=Way.UP, grain=Way.DOWN)], "a: grain", "Way.LEFT"),
    ([upright(), wanted("a", AGAINST, LEVEL[0])], "a: places", "nothing down to up"),
    ([upright(), wanted("a", AGAINST, AGAINST, *LEVEL)], "a: place 2", "a second place"),
    ([upright(), wanted("a")], "a: places", "only one part may start"),
    ([upright(), wanted("a", Against(of="post", side=Way.UP))], "a: place 1 of", "'post'"),
    ([upright(), wanted("a", Against(of="a", side=Way.UP))], "a: place 1 of", "'a'"),
    ([upright(), wanted("a", Against(of="upright"), *LEVEL)], "a: place 1 side", "nothing"),
    ([upright(), wanted("a", "on the shelf", *LEVEL)], "a: place 1", "Against"),
    ([upright(), wanted("a", Against(of="upright", syde=Way.UP))], "a: place 1 syde", "side"),
    (
        [upright(), wanted("a", Against(of="upright", side=Way.RIGHT, gap=3), *LEVEL)],
        "a: place 1 gap",
        "3",
    ),
    (
        [upright(), wanted("a", Against(of="upright", side=Way.RIGHT, gap="-3 mm"), *LEVEL)],
        "a: place 1 gap",
        "use let_in",
    ),
    (
        [upright(), wanted("a", Against(of="upright", side=Way.RIGHT, let_in="19 mm"), *LEVEL)],
        "a: place 1 let_in",
        "18 mm",
    ),
    (
        [
            upright(),
            wanted("a", Against(of="b", side=Way.UP)),
            wanted("b", Against(of="c", side=Way.UP)),
            wanted("c", Against(of="a", side=Way.UP)),
        ],
        "places of a, b, c",
        "by each other",
    ),
]


@pytest.mark.parametrize(("parts", "parameter", "words"), MUDDLES)
def test_a_muddle_is_named(parts: Sequence[Wanted], parameter: str, words: str) -> None:
    found = problems(*parts)
    assert parameter in [each.parameter for each in found], found
    named = next(each for each in found if each.parameter == parameter)
    assert words in str(named)


def test_who_waits_for_a_refused_part_is_not_blamed() -> None:
    """Only `a` is at fault: `b` stands on it, and `c` on `b`."""
    on = tuple(CentredOn(of="a", along=way) for way in (Way.RIGHT, Way.BACK))
    found = problems(
        upright(),
        wanted("a", AGAINST, LEVEL[0]),
        wanted("b", Against(of="a", side=Way.UP), *on),
        wanted("c", Against(of="b", side=Way.UP), *on),
    )
    assert [each.parameter for each in found] == ["a: places"]


def test_all_muddles_of_a_piece_are_told_at_once() -> None:
    found = problems(
        upright(),
        wanted("a", AGAINST, LEVEL[0]),
        wanted("b", Against(of="nothing", side=Way.UP)),
        wanted("c", face_side=Way.LEFT, grain=Way.RIGHT),
    )
    assert {each.parameter.split(":")[0] for each in found} == {"a", "b", "c"}


def test_a_stated_face_edge_turns_the_part_or_is_told_where_it_does_not_agree() -> None:
    """Seen from above with the datum end on the left the face edge is below: to the front.

    Every face side with every face edge square to it gives one grain, and that grain the same
    edge; every other way of the grain is refused with both ways out.
    """
    for side in Way:
        for edge in Way:
            if edge.axis == side.axis:
                continue
            x, y = _axes(side, edge, None)
            assert y == tuple(-each for each in edge.vector)
            assert cross(x, y) == side.vector
            grain = next(way for way in Way if way.vector == x)
            assert _axes(side, edge, grain) == _axes(side, None, grain) == (x, y)
    assert _axes(Way.UP, Way.FRONT, None) == (Way.RIGHT.vector, Way.BACK.vector)
    reader = Reader()
    assert turned(reader, "shelf", Way.UP, Way.FRONT, Way.LEFT) is None
    (problem,) = reader.problems
    assert problem.parameter == "shelf: face_edge"
    assert problem.allowed == "Way.BACK"
    assert problem.remedy == "write face_edge=Way.BACK, or grain=Way.RIGHT"
    for edge, grain in ((Way.DOWN, None), (None, Way.UP), ("front", None)):
        reader = Reader()
        assert turned(reader, "shelf", Way.UP, edge, grain) is None  # type: ignore[arg-type]
        assert len(reader.problems) == 1


def _axes(side: Way, edge: Way | None, grain: Way | None) -> tuple[Vector, Vector]:
    found = turned(Reader(), "part", side, edge, grain)
    assert found is not None
    return found
