"""Parts that no cut locates have their places on a sheet, measured from edges, each figure once."""

from __future__ import annotations

import random
from dataclasses import replace
from pathlib import Path
from typing import Any

import ezdxf
import pytest

from exporters.sheets import SheetSettings
from exporters.sheets.dxf import document_of, save
from exporters.sheets.positions import glued_on, without_positions
from exporters.sheets.sheets import sheets_of
from exporters.sheets.values import Shows
from exporters.views.frames import StandardView
from furniture import Feet, LidFixing, Lip, SteppedStand, Stock, Tier
from furniture.assembly import AssemblyPlan, Step
from furniture.joints.joint import GrainRelation, Role
from furniture.parts.placement import box_of
from furniture.pieces.piece import Piece
from furniture.units import figure, millimetres
from tests.exporters.collisions import collisions_in
from tests.exporters.test_views import placed_at
from tests.exporters.test_views_explode import joining
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models

BACK = (0.0, 1.0, 0.0)
ORDINATE, ALONG_X = 6, 64
SIDEWAYS = ((1.0, 0.0, 0.0), (0.0, 0.0, 1.0))


def dimensions_inside(piece: Piece, plan: AssemblyPlan, folder: Path) -> list[Any]:
    """The DIMENSION entities of sheets that show sections, joints and places, as written."""
    found: list[Any] = []
    for sheet in sheets_of(piece, SheetSettings(), order=plan):
        path = save(document_of(sheet), folder / f"{sheet.name}.dxf")
        document = ezdxf.readfile(path)
        assert collisions_in(document) == (), sheet.name
        if Shows.INSIDE in sheet.shows:
            found += document.modelspace().query("DIMENSION")
    return found


def board_with(seed: int) -> tuple[Piece, AssemblyPlan]:
    """A board with blocks glued to its front at random places that do not overlap."""
    draw = random.Random(seed)
    placed = [placed_at("board", (600.0, 20.0, 300.0), (0.0, 100.0, 0.0))]
    joined, steps = [], []
    for number in range(draw.randint(1, 4)):
        wide, high = draw.uniform(40.0, 110.0), draw.uniform(40.0, 200.0)
        at = (150.0 * number + draw.uniform(0.0, 150.0 - wide), 85.0, draw.uniform(0.0, 300 - high))
        name = f"block {number}"
        placed.append(placed_at(name, (wide, 15.0, high), at))
        point = (at[0] + wide / 2, 100.0, at[2] + high / 2)
        glued_on_ = joining("board", name, point, BACK, *SIDEWAYS)
        face = replace(glued_on_.faces[0], glue=GrainRelation.LONG_TO_LONG)
        joined.append(replace(glued_on_, faces=(face,)))
        onto = tuple(each.instance for each in placed[:-1])
        steps.append(Step(moving=(name,), onto=onto, direction=BACK, joints=(("board", name),)))
    piece = Piece(
        name="board", placed=tuple(placed), joinings=tuple(joined), shown=millimetres(0.1)
    )
    return piece, AssemblyPlan(steps=tuple(steps))


def is_level(entity: Any) -> bool:
    """Whether a DIMENSION measures along the sheet: its angle says it, or its flag for an x."""
    if entity.dimtype == ORDINATE:
        return bool(entity.dxf.dimtype & ALONG_X)
    return abs(entity.dxf.angle) < 1


@pytest.mark.seeds(few=3, full=60)
def test_a_block_can_be_set_out_from_its_two_figures(seed: int, tmp_path: Path) -> None:
    """Level and upright, the nearer edge of each block is found from an edge of the board."""
    check_set_out(seed, tmp_path)


@pytest.mark.parametrize(
    "seed",
    [
        pytest.param(9494, id="words of a short figure in the way of longer ones"),
        pytest.param(25, id="three short ones down from one edge"),
    ],
)
def test_short_figures_stand_in_no_others_way(seed: int, tmp_path: Path) -> None:
    check_set_out(seed, tmp_path)


def check_set_out(seed: int, tmp_path: Path) -> None:
    piece, plan = board_with(seed)
    figures = [
        each
        for each in dimensions_inside(piece, plan, tmp_path)
        if not each.dxf.text.startswith("(")
    ]
    said = {(is_level(each), round(float(each.dxf.text), 1)) for each in figures}
    for entity in figures:
        measured = float(entity.dxf.actual_measurement)
        assert float(entity.dxf.text) == pytest.approx(measured, abs=0.05 + 1e-6)
    for placed in piece.placed[1:]:
        low, high = box_of(placed.part.blank, placed.placement)
        for along, gaps in (
            (True, (low[0], 600.0 - high[0])),
            (False, (low[2], 300.0 - high[2])),
        ):
            nearest = float(figure(min(gaps), piece.shown))
            assert nearest == 0.0 or (along, nearest) in said, placed.instance


def test_the_key_rack_says_where_cleat_peg_rail_and_spacer_go(tmp_path: Path) -> None:
    piece = piece_of("key_rack")
    front, back = glued_on(piece)
    assert (front.look, front.parts) == (StandardView.FRONT, ("peg rail",))
    assert (back.look, set(back.parts)) == (StandardView.BACK, {"cleat", "spacer"})
    places = {
        (each.instance, each.axis): each.length_mm
        for group in (front, back)
        for each in group.positions
    }
    assert places == {
        ("peg rail", 2): pytest.approx(25.0),
        ("peg rail", 0): pytest.approx(15.0),
        ("cleat", 2): pytest.approx(15.0),
        ("cleat", 0): pytest.approx(40.0),
        ("spacer", 2): pytest.approx(10.0),
        ("spacer", 0): pytest.approx(40.0),
    }
    kept = without_positions(piece.references, (front, back))
    assert [each.what for each in kept] == ["shelf from down side of back"]


def test_the_feet_stand_in_from_the_edges_of_the_base() -> None:
    (below,) = glued_on(piece_of("herb_stand"))
    assert below.look is StandardView.BOTTOM
    assert len(below.parts) == 5
    insets = sorted(round(each.length_mm, 6) for each in below.positions)
    assert insets == [2.0] * 9 + [142.0]  # the post's foot stands in the middle of 320 mm


@pytest.mark.parametrize("name", NAMES)
def test_what_a_cut_or_a_dowel_locates_is_not_set_out_again(name: str) -> None:
    piece = piece_of(name)
    set_out = {part for group in glued_on(piece) for part in group.parts}
    for joining_ in piece.joinings:
        if joining_.role is Role.HOUSING and joining_.glue_area_mm2 > 0.0:
            assert joining_.incoming not in set_out
        if joining_.fasteners:
            assert joining_.incoming not in set_out


def test_a_lip_is_measured_from_its_own_tier_and_feet_from_the_whole_base() -> None:
    """A lip on a shorter tier was set out 22 from the left of the longest one."""
    thick, thin = (Stock(name=name, species="hard maple", thickness=thickness)
                   for name, thickness in (("thick", "21 mm"), ("thin", "12 mm")))  # fmt: skip
    stand = SteppedStand(
        name="Spool terrace", thick=thick, thin=thin, base_width="340 mm", base_depth="230 mm",
        base_height="77 mm", post_width="110 mm", feet=Feet(stock=thin, inset="3 mm"),
        tiers=[Tier(width="281 mm", depth="133 mm", rise="142 mm"),
               Tier(width="237 mm", depth="101 mm", rise="110 mm")],
        lips=[Lip(on="tiers", height="14 mm")],
    ).build()  # fmt: skip
    groups = {group.look: group for group in glued_on(stand)}
    lips, feet = groups[StandardView.TOP], groups[StandardView.BOTTOM]
    assert {(each.instance, each.carrier) for each in lips.positions} == {
        (f"tier {n} front lip", f"tier {n}") for n in (1, 2)
    }
    assert {each.length_mm for each in lips.positions} == {0.0}
    assert max(each.length_mm for each in feet.positions) == pytest.approx(170 - 20)


def test_cleats_under_a_lid_are_measured_from_the_edge_that_is_not_planed() -> None:
    """By hand: rails of 77, planed to 76.5 before the cleats go in; the lid of 12 lies flush with
    that, and cleats of 12 under it end 52.5 above the bottom edge."""
    thick, thin = (Stock(name=name, species="hard maple", thickness=thickness)
                   for name, thickness in (("thick", "21 mm"), ("thin", "12 mm")))  # fmt: skip
    stand = SteppedStand(
        name="Spool terrace", thick=thick, thin=thin, base_width="340 mm", base_depth="230 mm",
        base_height="77 mm", post_width="110 mm", lid_fixing=LidFixing.CLEATS,
        tiers=[Tier(width="281 mm", depth="133 mm", rise="142 mm")],
    ).build()  # fmt: skip
    heights = [each for group in glued_on(stand) for each in group.positions
               if "cleat" in each.instance and each.axis == 2]  # fmt: skip
    assert len(heights) == 2
    for each in heights:
        assert not each.is_from_high
        assert each.length_mm == pytest.approx(76.5 - 12 - 12)
