"""What pieces of wood are called among others: as their builder says, never as their names look."""

from __future__ import annotations

from functools import cache

import pytest

from exporters.faces import faces_of
from exporters.sheets.part_notes import standing_words, stands_of
from exporters.work import WorkWords, steps_of, work_of
from exporters.work.names import counted_woods
from furniture import (
    Against,
    At,
    ButtJoint,
    CentredOn,
    Composition,
    Mitre,
    PlacedPart,
    Way,
    cut,
    join,
)
from furniture.blanks import common_blanks, numbered_sets
from furniture.checks.of_piece.reading import told_with
from furniture.parts.faces import Face
from furniture.parts.part import Kin, kin_written
from furniture.pieces import Piece, distinct_parts
from furniture.pieces.in_rows import WoodName, named_in, woods_in_words
from furniture.shop.tools.reading import usual_or
from tests.builders.bench import THICK
from tests.models import piece_of


@cache
def row(*names: str) -> Piece:
    """Small equal blocks side by side, by these names."""
    return Composition(
        parts=[
            PlacedPart(
                name=name, stock=THICK, length="60 mm", width="40 mm",
                places=[At(distance=f"{index * 90} mm", side=Way.LEFT), CentredOn(along=Way.UP),
                        CentredOn(along=Way.FRONT)] if index else [],
            )
            for index, name in enumerate(names)
        ],
    ).build()  # fmt: skip


def test_numbered_wood_is_named_as_a_run() -> None:
    numbered = [WoodName.numbered("tier", number) for number in (1, 2, 3, 5)]
    assert woods_in_words([WoodName("lid"), *numbered]) == "lid, tiers 1 to 3 and tier 5"
    assert woods_in_words(numbered[:2]) == "tiers 1 and 2"
    whole = [WoodName("tiers 1 to 3"), WoodName("tiers 1 to 4")]
    assert woods_in_words(whole) == "tiers 1 to 3 and tiers 1 to 4"


@pytest.mark.parametrize(
    ("name", "kin"),
    [
        ("tier 3", Kin("tier", 3)),
        ("side shelf 12", Kin("side shelf", 12)),
        ("leg 01", None),
        ("leg ²", None),
        ("leg ٣", None),
        ("shelf 0", None),
        ("3", None),
        ("leg", None),
    ],
)
def test_a_makers_name_says_a_number_where_it_ends_in_one(name: str, kin: Kin | None) -> None:
    assert kin_written(name) == kin


def test_builders_say_what_their_parts_are_among_others() -> None:
    nouns = {each.instance: each.noun for each in piece_of("herb_stand").placed}
    rails = {name for name, noun in nouns.items() if noun == "rail"}
    assert rails == {"front rail", "left side rail", "right side rail"}
    assert nouns["post foot"] == nouns["back left foot"] == "foot"
    assert set(numbered_sets(piece_of("herb_stand"))) == {"tier"}


def test_own_parts_are_not_of_a_kind_because_their_names_end_alike() -> None:
    piece = row("leg of ash", "rail of ash", "seat of ash")
    names = [each.instance for each in piece.placed]
    assert counted_woods(piece, names) == "leg of ash, rail of ash and seat of ash"
    (blank,) = common_blanks(piece, (), 3.0)
    assert blank.name == "leg of ash strip"


def test_numbers_that_nobody_counts_by_are_part_of_a_name() -> None:
    piece = row("leg ²", "leg 01", "leg 02")
    names = [each.instance for each in piece.placed]
    assert woods_in_words(named_in(piece, names)) == "leg ², leg 01 and leg 02"
    assert numbered_sets(piece) == {}


def test_a_part_without_a_number_beside_numbered_ones_goes_by_its_name() -> None:
    numbered = [WoodName.numbered("leg", number) for number in (2, 3, 4)]
    assert woods_in_words([WoodName("leg"), numbered[0]]) == "leg and leg 2"
    assert woods_in_words([WoodName("leg"), *numbered]) == "leg and legs 2 to 4"


def test_subjects_that_differ_in_a_number_alone_share_their_words() -> None:
    """By their letters, whatever they are of: what is not a number is never told without a word."""
    assert told_with("tier 4", ["tier 1", "tier 3"]) == "tier 4 (also 1 and 3)"
    told = told_with("tier 2, its front", ["tier 1, its front", "tier 3, its front"])
    assert told == "tier 2, its front (also 1 and 3)"
    assert told_with("tier 2", ["tier 1", "lid"]) == "tier 2 (also tier 1 and lid)"
    assert told_with("left stub", ["left rail"]) == "left stub (also left rail)"
    assert told_with("2", ["3"]) == "2 (also 3)"


def test_a_strip_is_not_called_as_a_part_is() -> None:
    piece = row("leg 1", "leg 2", "leg strip")
    (blank,) = common_blanks(piece, (), 3.0, alone=["leg strip"])
    assert blank.name not in {each.instance for each in piece.placed}


def test_an_end_is_named_after_the_very_part_that_it_meets() -> None:
    """Not without a word of its name, and with the way that it looks, which no name tells."""
    mate = "right angle to wall"
    piece = Composition(
        parts=[
            PlacedPart(name=mate, stock=THICK, length="200 mm", width="60 mm", grain=Way.UP,
                       face_side=Way.RIGHT),
            PlacedPart(
                name="stretcher", stock=THICK, length="150 mm", width="40 mm", grain=Way.RIGHT,
                face_side=Way.UP,
                places=[Against(side=Way.RIGHT), CentredOn(along=Way.UP),
                        CentredOn(along=Way.FRONT)],
                cuts=[cut(Mitre, end=Face.FAR_END, blade_tilt="45 deg",
                          long_point_face=Face.FACE_SIDE)],
            ),
        ],
        joints=[join(ButtJoint, "stretcher", into=mate)],
    ).build()  # fmt: skip
    stretcher = next(each for each in distinct_parts(piece) if each.part.name == "stretcher")
    faces = faces_of(piece, stretcher)
    assert faces.called(Face.NAMED_END) == f"{mate} end"
    note = standing_words(stands_of(piece, stretcher, faces))
    assert f"{faces.called(faces.datums.end)} to the" in note


def test_a_blank_that_all_parts_come_off_is_not_the_whole_piece() -> None:
    """It said `the whole piece: square the left end`, of a strip."""
    piece = row("leg 1", "leg 2", "leg 3")
    making = work_of(piece, usual_or(None, piece.shown)).making
    told = {line.wood for step in steps_of(making)
            for line in WorkWords(piece, making).lines_of(step)}  # fmt: skip
    assert "leg strip" in told
    assert "the whole piece" not in told


def test_notches_that_differ_in_length_alone_are_told_in_one_line() -> None:
    """Five tiers of the yarn steps took fifteen lines; a lone notch has its length where it was."""
    piece = piece_of("yarn_steps")
    making = work_of(piece, usual_or(None, piece.shown)).making
    words = WorkWords(piece, making)
    told = [line for step in steps_of(making) for line in words.lines_of(step)]
    (tiers,) = [each for each in told if "notch" in each.what and "tier" in each.wood]
    assert tiers.wood.startswith("tier 1 (4 1/64")
    assert tiers.wood.endswith("tier 5 (1 1/64 + (1.020))")
    assert "so long and 1/4 deep" in tiers.what
    (lid,) = [each for each in told if "notch" in each.what and each.wood == "lid"]
    assert "3/8 long" in lid.what
