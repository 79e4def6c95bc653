"""From the maker's boards to every part by settings alone, and what is left over is as planned."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from furniture.assembly import assembly_of, scene_of
from furniture.making.from_scrap import with_scrap
from furniture.making.glue_ups import GlueBench, GlueUps, stages_of
from furniture.making.making import making_of
from furniture.making.workpieces import Wood
from furniture.pieces import Piece
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import Rectangle
from furniture.shop.tools import Shop
from furniture.shop.tools.reading import read_shop
from furniture.units import Reader
from tests.making.laws import broken_laws
from tests.making.made import Amiss, Made, amiss
from tests.making.replay import LIGHT, Replayed
from tests.making.set_twice import set_twice
from tests.making.solids import placed_of
from tests.making.targets import target_of
from tests.models import NAMES, piece_of
from tests.shop.boards.bench import outcome_of_model

pytestmark = pytest.mark.some_models

WHOLE = GlueBench(seconds_per_face=15.0, open_seconds=300.0)
SAME_MM = 1e-3


@cache
def from_boards(name: str) -> tuple[Made, CuttingOutcome]:
    """A model from its boards to the piece that is glued and finished."""
    outcome = outcome_of_model(name)
    return made_from(piece_of(name), outcome), outcome


def made_from(piece: Piece, outcome: CuttingOutcome) -> Made:
    """A piece from its boards to the last coat."""
    scene = scene_of(piece)
    glue_ups = stages_of(piece, assembly_of(piece, scene), bench=WHOLE, scene=scene)
    assert isinstance(glue_ups, GlueUps)
    shop = replace(read_shop(Reader(piece.shown), Shop()), saw=outcome.job.request.saw)
    target = target_of(piece, LIGHT)
    making = making_of(piece, outcome.job.common_blanks, shop, glue_ups, outcome)
    return Made(
        piece=piece,
        shop=shop,
        making=with_scrap(making, glue_ups, piece.rules),
        target=target,
        placed=placed_of(piece, target),
    )


@cache
def found(name: str) -> Amiss:
    """What is amiss in it."""
    return amiss(from_boards(name)[0])


@pytest.mark.parametrize("name", NAMES)
def test_every_law_holds_from_the_boards_to_the_piece(name: str) -> None:
    made, _ = from_boards(name)
    assert broken_laws(made.making, made.piece) == []
    assert set_twice(made.making) == []


@pytest.mark.parametrize("name", NAMES)
def test_every_part_comes_off_its_board_as_it_should(name: str) -> None:
    assert found(name).parts == {}
    assert found(name).done.untrue == ()
    assert found(name).done.by_hand == ()


@pytest.mark.parametrize("name", NAMES)
def test_the_order_from_the_boards_serves(name: str) -> None:
    assert sorted(map(str, found(name).faults)) == []


def as_planned(outcome: CuttingOutcome) -> list[tuple[str, Rectangle]]:
    """What the plan says is left of every board."""
    return [(plan.board, each.place) for plan in outcome.used for each in plan.offcuts]


@pytest.mark.parametrize("name", NAMES)
def test_what_is_left_over_is_what_the_plan_says(name: str) -> None:
    """Each offcut of the plan is a piece that is left over, and no other piece is worth keeping.

    The plan tells what is sure of a board: of one that tapers the width that it has all along,
    and nothing of a rough end, so that a piece may reach further.
    """
    made, outcome = from_boards(name)
    assert left_but_planned(made, outcome, found(name).done) == []


def left_but_planned(made: Made, outcome: CuttingOutcome, done: Replayed) -> list[str]:
    """Offcuts that the plan has and the work has not, and wood worth keeping that it has not."""
    saw = made.shop.saw
    no_part = {each.id for each in made.making.workpieces if each.what in (Wood.BOARD, Wood.OFFCUT)}
    left = [
        (each.board, each.solid.bounding_box()) for each in done.left_over if each.wood in no_part
    ]
    wrong = []
    for name, place in as_planned(outcome):
        here = [each for each in left if each[0] == f"board {name}" and _holds(each[1], place)]
        if len(here) != 1:
            wrong.append(f"{len(here)} pieces of board {name} are as {place}")
        left = [each for each in left if each not in here]
    return wrong + [
        f"a piece of {name} is left: {box}"
        for name, box in left
        if box[3] - box[0] >= saw.usable_length_mm and box[4] - box[1] >= saw.usable_width_mm
    ]


def _holds(box: tuple[float, ...], place: Rectangle) -> bool:
    reach = (
        place.x_mm - box[0],
        place.y_mm - box[1],
        box[3] - place.x_end_mm,
        box[4] - place.y_end_mm,
    )
    return min(reach) > -SAME_MM
