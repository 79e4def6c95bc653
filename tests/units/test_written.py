"""Values written as text by name: units come off the names, and what cannot be read is named."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

import pytest

from furniture.units import Reader
from furniture.units.written import read_value, written_name


class Colour(Enum):
    RED = "red"
    BLUE = "blue"


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    width_mm: float
    tilt_deg: float = 45.0
    depth_mm: float | None = None
    share: float = 0.5
    count: int = 2
    is_glued: bool = False
    colour: Colour = Colour.RED
    name: str = ""


def read(**given: object) -> tuple[Thing | None, list[str]]:
    reader = Reader()
    found = read_value(reader, "thing ", Thing, given)
    return found, [each.parameter for each in reader.problems]


def test_lengths_and_angles_are_text_and_the_rest_is_itself() -> None:
    """1/2 in is 12.7 mm by definition of the inch."""
    found, problems = read(width="1/2 in", tilt="30 deg", count=3, is_glued=True, colour="blue")
    assert not problems
    assert found == Thing(width_mm=12.7, tilt_deg=30.0, count=3, is_glued=True, colour=Colour.BLUE)


def test_nothing_is_taken_where_nothing_is_allowed() -> None:
    assert read(width="5 mm", depth=None) == (Thing(width_mm=5.0), [])


@pytest.mark.parametrize(
    ("given", "named"),
    [
        ({}, "thing width"),
        ({"width": 5}, "thing width"),
        ({"width": "5"}, "thing width"),
        ({"width": None}, "thing width"),
        ({"width": "5 mm", "widht": "6 mm"}, "thing widht"),
        ({"width": "5 mm", "width_mm": 5.0}, "thing width_mm"),
        ({"width": "5 mm", "tilt": 30}, "thing tilt"),
        ({"width": "5 mm", "count": 2.5}, "thing count"),
        ({"width": "5 mm", "count": True}, "thing count"),
        ({"width": "5 mm", "share": float("nan")}, "thing share"),
        ({"width": "5 mm", "is_glued": 1}, "thing is_glued"),
        ({"width": "5 mm", "colour": "green"}, "thing colour"),
        ({"width": "5 mm", "name": 7}, "thing name"),
    ],
)
def test_what_cannot_be_read_is_named(given: dict[str, object], named: str) -> None:
    found, problems = read(**given)
    assert found is None
    assert problems == [named]


def test_every_problem_is_told_at_once() -> None:
    assert len(read(tilt="up", count="two", colour="green")[1]) == 4


def test_units_come_off_the_names() -> None:
    names = ("stop_from_face_edge_mm", "blade_tilt_deg", "count")
    assert [written_name(name) for name in names] == ["stop_from_face_edge", "blade_tilt", "count"]
