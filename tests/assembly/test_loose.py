"""Held, captured or free: one verdict for every part, by statics and solids together."""

from __future__ import annotations

from typing import Any

import pytest

from furniture import Ballast, BottomFixing, Cleats, LidFixing, TierRule, Uprights
from furniture.assembly import AssemblyPlan, assembly_of
from furniture.assembly.ways_out import ways_out_of
from furniture.checks.finding import Finding, Verdict
from furniture.checks.of_piece import findings_of
from furniture.checks.rows.structure import HELD, LOOSE_PARTS
from furniture.joints.joint import GrainRelation
from furniture.parts.vectors import DOWN, FRONT, LEFT, RIGHT, UP
from furniture.pieces import FixedBody, Piece
from furniture.solids.measure import weigh
from furniture.structure import Hold, Holding, masses_by_cuts, statics_of
from models.key_rack import rack
from tests.assembly.bench import board, hollow, replay
from tests.assembly.test_two_legs import keyhole
from tests.builders.bench import THIN, a_box, a_stand
from tests.everywhere.designs import drawn
from tests.structure.bench import face, joining

LONG = GrainRelation.LONG_TO_LONG


def kept(piece: Piece) -> dict[str, Holding]:
    """What keeps each part, the solids looked at."""
    statics = statics_of(piece, masses_by_cuts(piece), ways_out_of(piece))
    assert [each.instance for each in statics.holdings] == [each.instance for each in piece.placed]
    return {each.instance: each for each in statics.holdings}


def told(piece: Piece) -> dict[str, list[Finding]]:
    """What the packet says of what is held and what is loose."""
    found = findings_of(piece, weigh(piece), None, ways_out_of(piece))
    return {row.name: [each for each in found if each.check == row] for row in (HELD, LOOSE_PARTS)}


def loose(piece: Piece) -> dict[str, Finding]:
    return {each.subject: each for each in told(piece)[LOOSE_PARTS.name]}


def glued(placed: list[Any], *pairs: tuple[str, str], fixed: Any = ()) -> Piece:
    """Parts in their places, some pairs glued by a face that is stated and nothing else."""
    faces = [face((10.0, 30.0, 20.0), UP, RIGHT, 40.0, 40.0, LONG)]
    return Piece(
        name="planted",
        placed=tuple(placed),
        joinings=tuple(joining(into, incoming, faces) for into, incoming in pairs),
        fixed=fixed,
    )


def chamber(play: float = 1.0, roof: bool = True) -> list[Any]:
    """A slug in a blind hole of a block, `play` from its walls, a glued cover closing the hole."""
    hole = hollow(low=(20.0, 20.0, 10.0), high=(60.0, 40.0, 42.0))
    block = board("block", (100.0, 60.0, 40.0), (0.0, 0.0, 0.0), cuts=(hole,))
    cover = board("cover", (100.0, 60.0, 10.0), (0.0, 0.0, 40.0))
    slug = board(
        "slug", (40.0 - 2 * play, 20.0 - 2 * play, 30.0 - play), (20.0 + play, 20.0 + play, 10.0)
    )
    return [block, cover, slug] if roof else [block, slug]


class TestPlanted:
    """Parts that no joint names, with faults planted."""

    @pytest.mark.parametrize("play", [0.2, 1.0, 5.0])
    def test_what_only_its_neighbours_trap_is_captured(self, play: float) -> None:
        """No face is stated for the slug: the solids alone keep it in."""
        piece = glued(chamber(play), ("block", "cover"))
        found = kept(piece)
        assert found["slug"].hold is Hold.CAPTURED
        assert set(found["slug"].stopped_by) == {"block", "cover"}
        assert {found["block"].hold, found["cover"].hold} == {Hold.GLUE}
        words = told(piece)
        assert [each.verdict for each in words[HELD.name]] == [Verdict.NOTE]
        assert words[HELD.name][0].subject == "slug"
        assert "captured: block and cover hold it" in loose(piece)["slug"].basis

    def test_without_the_solids_it_is_not_held(self) -> None:
        """The faces alone know of nothing that keeps it; both say so."""
        piece = glued(chamber(), ("block", "cover"))
        statics = statics_of(piece, masses_by_cuts(piece))
        slug = statics.holdings[2]
        assert slug.hold is Hold.FREE
        assert slug.comes_out is not None

    def test_a_hole_in_the_cover_lets_it_out_in_one_leg(self) -> None:
        block, cover, slug = chamber()
        window = hollow(low=(20.5, 20.5, -1.0), high=(59.5, 39.5, 11.0))
        cover = board("cover", (100.0, 60.0, 10.0), (0.0, 0.0, 40.0), cuts=(window,))
        piece = glued([block, cover, slug], ("block", "cover"))
        found = kept(piece)["slug"]
        assert found.hold is Hold.FREE
        assert [each.way for each in found.ways] == [UP]
        assert found.comes_out is None  # it lies on the bottom of the hole, which no joint states
        words = told(piece)
        assert [each.verdict for each in words[HELD.name]] == [Verdict.OK]
        assert "loose, only lying there: slug" in words[HELD.name][0].basis
        told_of_it = loose(piece)["slug"]
        assert told_of_it.verdict is Verdict.CAUTION
        assert told_of_it.basis.startswith("not checked: no joint says where it lies")

    def test_a_hole_below_lets_it_drop(self) -> None:
        hole = hollow(low=(20.0, 20.0, -1.0), high=(60.0, 40.0, 42.0))
        block = board("block", (100.0, 60.0, 40.0), (0.0, 0.0, 0.0), cuts=(hole,))
        _, cover, slug = chamber()
        piece = glued([block, cover, slug], ("block", "cover"))
        found = kept(piece)["slug"]
        assert found.hold is Hold.FREE
        assert [each.way for each in found.ways] == [DOWN]
        assert found.comes_out is not None
        words = told(piece)
        assert [each.verdict for each in words[HELD.name]] == [Verdict.FAIL]
        assert loose(piece)["slug"].verdict is Verdict.CAUTION

    def test_a_slug_under_a_roof_goes_left_and_then_up(self) -> None:
        """The keyhole, its block glued on a base: its right side at 61 goes clear of 40."""
        parts = list(keyhole(roof=8.0).placed)
        base = board("base", (100.0, 60.0, 10.0), (0.0, 0.0, -10.0))
        piece = glued([*parts, base], ("base", "block"))
        found = kept(piece)["slug"]
        assert found.hold is Hold.FREE
        (out,) = found.ways
        assert out.before is not None
        assert (out.before.way, out.before.far_mm) == (LEFT, pytest.approx(21.0))
        assert out.way == UP

    def test_a_hook_lets_go_downward_and_then_sideways(self) -> None:
        """A T in a slot that is open to the right, let into a pocket by 4: down 4, then right."""
        slot = (
            hollow(low=(20.0, -1.0, 10.0), high=(60.0, 61.0, 30.0)),
            hollow(low=(50.0, -1.0, 10.0), high=(101.0, 61.0, 25.9)),
        )
        block = board("block", (100.0, 60.0, 40.0), (0.0, 0.0, 0.0), cuts=slot)
        ends = [
            board(f"{name} end", (100.0, 10.0, 40.0), (0.0, y, 0.0))
            for name, y in (("front", -10.0), ("back", 60.0))
        ]
        hooked = board("hook", (29.0, 59.0, 15.8), (20.5, 0.5, 14.0))
        piece = glued([block, *ends, hooked], ("block", "front end"), ("block", "back end"))
        found = kept(piece)["hook"]
        assert found.hold is Hold.FREE
        assert found.ways[0].before is not None
        assert found.ways[0].before.way == DOWN
        assert found.ways[0].way == RIGHT

    def test_what_falls_far_is_not_held_by_what_it_would_land_on(self) -> None:
        """A slug that hovers 12 above the floor of its hole, open above: nothing keeps it there."""
        block, cover, _ = chamber()
        window = hollow(low=(20.5, 20.5, -1.0), high=(59.5, 39.5, 11.0))
        cover = board("cover", (100.0, 60.0, 10.0), (0.0, 0.0, 40.0), cuts=(window,))
        hovering = board("slug", (38.0, 18.0, 17.0), (21.0, 21.0, 22.0))
        piece = glued([block, cover, hovering], ("block", "cover"))
        assert kept(piece)["slug"].comes_out is not None
        assert [each.verdict for each in told(piece)[HELD.name]] == [Verdict.FAIL]

    def test_two_that_trap_each_other_leave_together(self) -> None:
        """A tray and a bottom in its grooves slide out forward as one; the bottom has no way."""
        tray = board(
            "tray", (60.0, 50.0, 20.0), (20.0, -5.0, 12.0),
            cuts=(
                hollow(low=(5.0, 5.0, 8.0), high=(55.0, 45.0, 21.0)),
                hollow(low=(2.0, 2.0, 4.0), high=(58.0, 48.0, 8.0)),
            ),
        )  # fmt: skip
        bottom = board("bottom", (55.0, 45.0, 3.0), (22.5, -2.5, 16.5))
        hole = hollow(low=(19.0, -1.0, 12.0), high=(81.0, 50.0, 34.0))
        case = board("case", (100.0, 60.0, 40.0), (0.0, 0.0, 0.0), cuts=(hole,))
        top = board("top", (100.0, 60.0, 10.0), (0.0, 0.0, 40.0))
        found = kept(glued([case, top, tray, bottom], ("case", "top")))
        assert found["bottom"].hold is Hold.CAPTURED
        assert found["tray"].hold is Hold.FREE
        assert [(each.way, each.along) for each in found["tray"].ways] == [(FRONT, ("bottom",))]


class TestBottoms:
    """What only lies on a bottom never holds it."""

    def test_ballast_holds_nothing(self) -> None:
        for ballast in (None, Ballast(mass="2 kg", size=("135 mm", "66 mm", "20 mm"))):
            piece = a_box(bottom=THIN, bottom_fixing=BottomFixing.LOOSE, ballast=ballast).build()
            found = kept(piece)["bottom"]
            assert found.hold is Hold.FREE
            assert found.comes_out is not None
            assert [each.verdict for each in told(piece)[HELD.name]] == [Verdict.FAIL]
            assert loose(piece)["bottom"].verdict is Verdict.CAUTION

    def test_a_pad_that_is_glued_on_it_alone_holds_nothing(self) -> None:
        """Both come out down as one; before, the glue of the pad counted as the bottom's."""
        hole = hollow(low=(20.0, 20.0, -1.0), high=(80.0, 40.0, 42.0))
        block = board("block", (100.0, 60.0, 40.0), (0.0, 0.0, 0.0), cuts=(hole,))
        cover = board("cover", (100.0, 60.0, 10.0), (0.0, 0.0, 40.0))
        bottom = board("bottom", (58.0, 18.0, 5.0), (21.0, 21.0, 10.0))
        pad = board("pad", (20.0, 10.0, 3.0), (40.0, 25.0, 7.0))
        weight = FixedBody(
            name="ballast", on="bottom", mass_kg=1.0, centre_mm=(50.0, 30.0, 20.0),
            size_mm=(10.0, 10.0, 10.0),
        )  # fmt: skip
        piece = glued(
            [block, cover, bottom, pad], ("block", "cover"), ("bottom", "pad"), fixed=(weight,)
        )
        found = kept(piece)
        for name in ("bottom", "pad"):
            assert found[name].hold is Hold.FREE
            assert found[name].group == ("bottom", "pad")
            assert DOWN in [each.way for each in found[name].ways]
        assert loose(piece)["bottom and pad"].verdict is Verdict.CAUTION

    def test_a_bottom_that_nothing_holds_can_drop_out(self) -> None:
        said = loose(a_box(bottom=THIN, bottom_fixing=BottomFixing.LOOSE).build())
        assert said["lid"].verdict is Verdict.OK
        assert said["bottom"].verdict is Verdict.CAUTION
        assert "down" in said["bottom"].basis
        assert said["bottom"].advice


class TestLids:
    """Lids that lift, that are captured, and that are fixed."""

    def test_a_lid_in_a_post_s_dado_is_captured(self) -> None:
        piece = a_stand().build()
        lid = kept(piece)["lid"]
        assert (lid.hold, lid.ways) == (Hold.CAPTURED, ())
        rabbeted = {"front rail", "left side rail", "right side rail", "left stub", "right stub"}
        assert set(lid.stopped_by) == {"post", *rabbeted}
        (finding,) = loose(piece).values()
        assert finding.subject == "lid"
        assert finding.verdict is Verdict.OK
        assert "captured" in finding.basis
        assert "post" in finding.basis

    def test_a_box_s_lid_lifts_out(self) -> None:
        piece = a_box().build()
        lid = kept(piece)["lid"]
        assert (lid.hold, lid.comes_out) == (Hold.FREE, None)
        (finding,) = loose(piece).values()
        assert finding.verdict is Verdict.OK
        assert finding.basis == "it is loose, and comes out up when the piece is together"
        (held,) = told(piece)[HELD.name]
        assert held.verdict is Verdict.OK
        assert held.basis.endswith("; loose, only lying there: lid")

    def test_faces_alone_say_the_same_of_it(self) -> None:
        """Screening looks at no solid and knows that the lid lifts, and only that it does."""
        piece = a_box().build()
        statics = statics_of(piece, masses_by_cuts(piece))
        found = {each.instance: each for each in statics.holdings}
        assert [each.way for each in found["lid"].ways] == [UP]
        assert {each.hold for name, each in found.items() if name != "lid"} == {Hold.GLUE}

    def test_a_lid_between_uprights_goes_up_and_then_forward(self) -> None:
        """As the stand's own note says: it lifts off forward, between the uprights; its top lies
        0.5 mm below the rails, so it is lifted by its thickness and that: 10.5 mm."""
        tiers = TierRule(count=2, depth="140 mm", rise="120 mm")
        piece = a_stand(
            uprights=Uprights(depth="120 mm"), post_width=None, tiers=tiers
        ).build()  # fmt: skip
        lid = kept(piece)["lid"]
        (out,) = lid.ways
        assert out.before is not None
        assert out.before.way == pytest.approx((0.0, 0.0, 1.0))
        assert out.before.far_mm == pytest.approx(10.5)
        assert out.way == pytest.approx((0.0, -1.0, 0.0))
        assert "up by 10.5 mm and then forward" in loose(piece)["lid"].basis

    @pytest.mark.parametrize(
        "options",
        [
            {"lid_fixing": LidFixing.GLUED},
            {"lid_fixing": LidFixing.CLEATS},
            {"lid_fixing": LidFixing.CLEATS, "cleats": Cleats(width="25 mm")},
        ],
    )
    def test_a_lid_that_is_fixed_is_not_loose(self, options: dict[str, Any]) -> None:
        piece = a_stand(**options).build()
        assert ways_out_of(piece) == ()
        assert kept(piece)["lid"].hold in (Hold.GLUE, Hold.FASTENERS)

    def test_the_wall_cleat_is_screwed_and_not_loose(self) -> None:
        assert ways_out_of(rack.build()) == ()
        assert kept(rack.build())["wall cleat"].hold is Hold.FASTENERS


@pytest.mark.seeds(few=4, full=100)
def test_both_verdicts_agree_with_the_order_of_assembly(seed: int) -> None:
    """What the last move brings and nothing fixes is free; what is captured never comes alone.

    The plan is replayed by the kernel, which knows no verdict.
    """
    piece = drawn(seed).piece
    plan = assembly_of(piece)
    assert isinstance(plan, AssemblyPlan)
    found = kept(piece)
    last = plan.steps[-1] if plan.steps else None
    if last is not None and any(found[each].is_loose for each in last.moving):
        assert not replay(piece, plan)
        for name in last.moving:
            if found[name].is_loose and set(found[name].group) == set(last.moving):
                assert found[name].hold is Hold.FREE, name
    words = told(piece)
    lost = {name for name, each in found.items() if each.comes_out is not None}
    assert bool(lost) is (words[HELD.name][0].verdict is Verdict.FAIL)
    for finding in words[LOOSE_PARTS.name]:
        assert "captured" not in finding.basis or not lost & {finding.subject}
