"""A gap says between which faces it is measured: solids find wood there, and none before it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from exporters.faces import FaceNames
from exporters.job import write_template
from exporters.work.fitted import gaps_in_words
from furniture.job.figures import AXES, asked_for, play_of_gaps
from furniture.job.gaps import GapEnd, gap_ends
from furniture.parts.faces import Face
from furniture.parts.placement import box_of
from furniture.pieces import Piece
from furniture.pieces.piece import placed_named
from tests.everywhere.designs import drawn
from tests.exporters.rebuild import rebuilt_piece
from tests.making.glue_checker import _summary
from tests.models import NAMES, piece_of

HAIR_MM, SPECK_MM3 = 0.05, 0.02
Ends = Mapping[tuple[str, int], tuple[GapEnd, GapEnd]]


def faults_of(piece: Piece, ends: Ends) -> Iterator[str]:
    """What goes between meets the named parts when it is pushed by its play, and not before.

    A named face is where it meets them; what is sunk lies below that face.
    """
    solids, plays = rebuilt_piece(_summary(piece)), play_of_gaps(piece)
    for (name, axis), both in ends.items():
        frame = placed_named(piece, name).placement
        way = np.array((frame.x_axis, frame.y_axis)[axis])
        low, high = box_of(placed_named(piece, name).part.blank, frame)
        for sign, end in zip((-1.0, 1.0), both, strict=True):
            out, told = way * sign, f"{name}.{AXES[axis]} at {end.instance}"
            other = placed_named(piece, end.instance)
            met = solids[name].translate(out * (plays[name, axis] + HAIR_MM)) ^ solids[end.instance]
            if met.volume() < SPECK_MM3:
                yield f"{told}: it does not meet it"
            looks = np.array(other.placement.direction_to_piece(end.face.normal))
            if looks @ out > -0.99:
                yield f"{told}: that face does not look towards it"
            reach = max(float(np.dot(low, out)), float(np.dot(high, out)))
            box = box_of(other.part.blank, other.placement)
            begins = min(float(np.dot(each, out)) for each in box)
            if (reach - begins > HAIR_MM) is not (end.sunk_in is not None):
                yield f"{told}: it ends {reach - begins:.2f} mm beyond that face"


@pytest.mark.some_models
@pytest.mark.parametrize("name", NAMES)
def test_the_gaps_of_a_model_are_between_the_faces_that_are_named(name: str) -> None:
    assert list(faults_of(piece_of(name), gap_ends(piece_of(name)))) == []


@pytest.mark.seeds(few=4, full=150)
def test_the_gaps_of_any_design_are_between_the_faces_that_are_named(seed: int) -> None:
    piece = drawn(seed).piece
    assert list(faults_of(piece, gap_ends(piece))) == []


@pytest.mark.parametrize(
    "planted", [{"face": Face.BACK_SIDE}, {"sunk_in": "dado"}, {"instance": "front rail"}]
)
def test_another_face_or_part_is_found(planted: dict[str, Face | str]) -> None:
    piece = piece_of("herb_stand")
    low, high = gap_ends(piece)["post", 1]
    wrong = replace(low, **planted)  # type: ignore[arg-type]
    assert list(faults_of(piece, {("post", 1): (wrong, high)}))


def test_the_job_file_to_fill_in_names_both_faces(tmp_path: Path) -> None:
    """A stub ends at the post; a tier lies in dados, from floor to floor."""
    for name, said in {
        "herb_stand": "between the post end of right stub and the post end of left stub",
        "yarn_steps": "between the floor of the stopped dado in left upright and the floor of the "
        "stopped dado in right upright",
        "button_box": "between the floor of the groove in front rail and the floor of the groove "
        "in back rail",
    }.items():
        path = tmp_path / f"{name}.toml"
        write_template(path, piece_of(name), (), tmp_path)
        gaps = [each for each in path.read_text(encoding="utf-8").splitlines() if " gap" in each]
        assert gaps
        assert any(said in each for each in gaps), gaps
        assert all("  # between the " in each for each in gaps)


def test_on_paper_a_gap_says_how_much_less_is_cut() -> None:
    """The sliding lid has 1.4 mm to spare between its grooves' floors, a hair under 1/16 in; a
    tier reaches both floors of its dados."""

    def told(model: str, instance: str) -> str:
        piece = piece_of(model)
        figures = asked_for(piece, ((instance, 0), (instance, 1)))
        return gaps_in_words(piece, FaceNames(piece=piece), figures)

    assert play_of_gaps(piece_of("button_box"))["lid", 1] == pytest.approx(1.4)
    assert told("button_box", "lid").endswith("in back rail: cut 1/16 (-) less")
    assert "between the floor" in told("yarn_steps", "tier 1")
    assert "less" not in told("yarn_steps", "tier 1")
