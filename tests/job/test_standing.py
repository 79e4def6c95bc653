"""Measured stands over designed: what gives, what stays, and what cannot be together."""

from __future__ import annotations

import random
import runpy
from dataclasses import replace
from typing import Any

import pytest

from furniture import DesignError, SteppedStand, Tier, TierRule
from furniture.job import Say, as_measured, old_of, verdicts_of
from furniture.job.figures import designed_mm, measurables_of, plays_of, sizes_of
from furniture.job.levers import levers_of, with_lever
from furniture.job.measured_old import as_they_stand
from furniture.pieces.piece import placed_named
from furniture.rules.bench import FRAME_OFF
from furniture.solids.proof import interferences, untrue_contacts
from furniture.units import parameters
from tests.builders.bench import a_stand, by_uprights
from tests.everywhere.designs import drawn
from tests.job.scenes import done, measured, size
from tests.models import ROOT

STUBS = ("left stub", "right stub")


@pytest.fixture(scope="module")
def stand() -> SteppedStand:
    return a_stand()


def _refused(design: Any, *asked: Any) -> str:
    with pytest.raises(DesignError) as error:
        measured(design, *asked)
    return str(error.value)


def test_a_wide_post_takes_it_from_the_stubs(stand: SteppedStand) -> None:
    was = stand.build()
    wide = size(was, "post")[1] + 1.2
    now = measured(stand, {"post.width": wide})
    assert size(now.piece, "post")[1] == pytest.approx(wide, abs=1e-6)
    for name in STUBS:
        assert size(now.piece, name)[0] == pytest.approx(size(was, name)[0] - 0.6, abs=1e-6)
    assert size(now.piece, "front rail") == size(was, "front rail")
    (gave,) = now.gave
    assert gave.choice is not None
    assert gave.choice.lever.name == "post_width"
    assert "lid" in gave.choice.changed, "its notch follows"


def test_with_the_stubs_done_the_base_gives(stand: SteppedStand) -> None:
    was = stand.build()
    wide = size(was, "post")[1] + 1.2
    now = measured(stand, {"post.width": wide}, STUBS)
    assert [size(now.piece, name) for name in STUBS] == [size(was, name) for name in STUBS]
    assert size(now.piece, "front rail")[0] == pytest.approx(size(was, "front rail")[0] + 1.2)
    first, second = (each.choice for each in now.gave)
    assert first is not None
    assert second is not None
    assert (first.lever.name, second.lever.name) == ("post_width", "base_width")
    assert set(first.broken) == {*STUBS}
    assert second.broken == ()
    told = verdicts_of(as_measured(old_of(was), "post", 1, wide), now.piece)
    says = {each.instance: each.say for each in told}
    assert {says[name] for name in (*STUBS, "left side rail", "tier 1")} == {Say.AS_IS}
    assert not interferences(now.piece)
    assert not untrue_contacts(now.piece)


def test_stubs_post_and_front_rail_that_do_not_add_up_are_all_named(stand: SteppedStand) -> None:
    was = stand.build()
    wide, base = size(was, "post")[1] + 1.2, size(was, "front rail")[0]
    told = _refused(stand, {"post.width": wide}, (*STUBS, "front rail"))
    for each in ("post.width", "left stub.length", "right stub.length", "front rail.length"):
        assert f"'{each}'" in told
    assert f"add up to {base + 1.2:g} mm across front rail of {base:g} mm" in told
    assert "take 1.2 mm off the width: post" in told
    assert "0.6 mm off the length of each: left stub and right stub" in told


def test_one_short_stub_is_matched_by_what_the_maker_lets_give(stand: SteppedStand) -> None:
    was = stand.build()
    short = size(was, "left stub")[0] - 2.0
    for free, other in (("base_width", "post_width"), ("post_width", "base_width")):
        lets = {"left stub.length": free}
        now = measured(stand, {"left stub.length": short}, ["left stub"], lets)
        assert size(now.piece, "left stub")[0] == pytest.approx(short, abs=1e-6)
        (gave,) = now.gave
        assert gave.choice is not None
        assert gave.choice.lever.name == free
        assert gave.choice.to_mm == pytest.approx(gave.choice.lever.value_mm + (
            -4.0 if free == "base_width" else 4.0))  # fmt: skip
        freely = measured(stand, {"left stub.length": short}, ["left stub"]).gave[0]
        assert freely.choice is not None
        offered = {freely.choice.lever.name, *(each.lever.name for each in freely.others)}
        assert {free, other} <= offered


def test_a_short_stub_beside_one_that_is_done_is_refused_with_the_trim(stand: SteppedStand) -> None:
    short = size(stand.build(), "left stub")[0] - 2.0
    told = _refused(stand, {"left stub.length": short}, STUBS)
    assert "take 2 mm off the length: right stub" in told


def test_fat_tiers_widen_their_dados_and_only_theirs(stand: SteppedStand) -> None:
    was = stand.build()
    tiers = [each.instance for each in was.placed if each.instance.startswith("tier")]
    fat = size(was, tiers[0])[2] + 0.3
    now = measured(stand, {f"{name}.thickness": fat for name in tiers})
    assert {size(now.piece, name)[2] for name in tiers} == {fat}
    assert size(now.piece, "lid") == size(was, "lid"), "of the same stock, and not measured"

    def widths(piece: Any) -> list[float]:
        cuts = placed_named(piece, "post").part.cuts
        return sorted(cut.width_mm for cut in cuts if cut.kind == "dado")

    before, after = widths(was), widths(now.piece)
    assert [round(b - a, 6) for a, b in zip(before, after, strict=True)].count(0.3) == len(tiers)
    assert not interferences(now.piece)
    for name in tiers:
        tops = [
            placed_named(piece, name).placement.to_piece((0.0, 0.0, size(piece, name)[2]))[2]
            for piece in (was, now.piece)
        ]
        assert tops[0] == pytest.approx(tops[1]), "the top stays, so the heights do"


def test_fat_tiers_in_dados_that_are_cut_are_planed_or_the_dados_widened(
    stand: SteppedStand,
) -> None:
    fat = size(stand.build(), "tier 1")[2] + 0.3
    told = _refused(stand, {"tier 1.thickness": fat}, ["post"])
    assert "take 0.3 mm off 'tier 1.thickness'" in told
    assert "post is done" in told
    assert "width" in told


def test_a_thin_tier_in_a_dado_that_is_cut_may_go_in_looser(stand: SteppedStand) -> None:
    thin = size(stand.build(), "tier 1")[2] - 0.3
    told = _refused(stand, {"tier 1.thickness": thin}, ["post"])
    assert "leave 'tier 1.thickness' out" in told
    assert "0.3 mm more play" in told


def test_a_thickness_of_all_parts_of_a_stock_is_the_stocks(stand: SteppedStand) -> None:
    was = stand.build()
    stock = placed_named(was, "tier 1").part.timber.name
    names = [each.instance for each in was.placed if each.part.timber.name == stock]
    now = measured(stand, {f"{name}.thickness": size(was, "tier 1")[2] + 0.3 for name in names})
    assert now.thicknesses == {}
    assert {each.choice.lever.name for each in now.gave if each.choice} == {
        f"thin ({stock}) thickness"
    }


def test_a_builder_that_takes_no_thickness_of_one_part_says_so(stand: SteppedStand) -> None:
    class Own:
        def build(self, rules: Any = None) -> Any:
            return stand.build(rules)

    told = _refused(Own(), {"tier 1.thickness": size(stand.build(), "tier 1")[2] + 0.3})
    assert "this design's builder takes no thickness of one part alone" in told


def test_a_panel_is_cut_to_its_measured_opening(stand: SteppedStand) -> None:
    was = stand.build()
    key, along, across = next(
        (each.key, *each.designed_mm) for each in measurables_of(was) if each.key == "lid opening"
    )
    rails = [each.instance for each in was.placed if "rail" in each.instance]
    now = measured(stand, {key: (along - 0.5, across)}, [*rails, *STUBS, "post"])
    length, width, _ = size(was, "lid")
    assert size(now.piece, "lid")[:2] == pytest.approx((length - 0.5, width), abs=1e-6)
    changed = [
        each.instance for each in was.placed
        if placed_named(now.piece, each.instance).part.blank != each.part.blank
    ]  # fmt: skip
    stand_off = {name for name, _ in now.as_they_stand}
    assert stand_off == {"front rail", *STUBS}, "drawn as the frame must stand"
    assert {*changed} - stand_off == {"lid"}


def test_the_depth_of_one_tier_is_its_own(stand: SteppedStand) -> None:
    tiers = [Tier(width="200 mm", depth=f"{depth} mm", rise="150 mm") for depth in (150, 130, 110)]
    own = replace(stand, tiers=tiers, loads=[])
    was = own.build()
    now = measured(own, {"tier 3.width": size(was, "tier 3")[1] - 38.0}, ["tier 3", "post"])
    (gave,) = now.gave
    assert gave.choice is not None
    assert gave.choice.lever.name == "tier 3 depth"
    assert gave.choice.changed == ("tier 3",)


def test_one_tier_of_a_rule_gives_alone(stand: SteppedStand) -> None:
    """The rule stays for the others; that tier is then stated by itself."""
    own = replace(stand, tiers=TierRule(count=3, width="200 mm", depth="150 mm", rise="150 mm",
                                        step_back_depth="15 mm"), loads=[])  # fmt: skip
    was = own.build()
    wide = size(was, "tier 3")[1] - 38.0
    now = measured(own, {"tier 3.width": wide}, ["tier 3", "post"])
    (gave,) = now.gave
    assert gave.choice is not None
    assert gave.choice.lever.name == "tier 3 depth"
    assert gave.choice.changed == ("tier 3",)
    assert size(now.piece, "tier 3")[1] == pytest.approx(wide, abs=1e-6)
    assert now.design.build().placed == now.piece.placed
    both = measured(own, {"tier 3.width": wide, "tier 1.width": size(was, "tier 1")[1] - 5.0})
    assert size(both.piece, "tier 2") == size(was, "tier 2")


@parameters
class _Lengths:
    """Boards: the first length gives for two of them, the second for one of these and two more."""

    first: str = "100 mm"
    second: str = "50 mm"

    def build(self, rules: Any = None) -> Any:
        first, second = (float(each.removesuffix(" mm")) for each in (self.first, self.second))
        piece = a_stand().build(rules)
        one, two, three, four, *rest = piece.placed

        def long(placed: Any, length: float) -> Any:
            blank = replace(placed.part.blank, length_mm=length)
            return replace(placed, part=replace(placed.part, blank=blank, cuts=()))

        return replace(piece, placed=(
            long(one, first + second), long(two, first), long(three, 200.0 - second),
            long(four, 300.0 - second), *rest,
        ))  # fmt: skip


def test_what_leads_to_a_contradiction_is_passed_over_and_told() -> None:
    """The first length would give for the one that is measured; the other then forbids it."""
    design = _Lengths()
    one, two, *_ = (each.instance for each in design.build().placed)
    alone = measured(design, {f"{one}.length": 152.0})
    assert alone.gave[0].choice is not None
    lengths = {alone.gave[0].choice.lever.name, *(o.lever.name for o in alone.gave[0].others)}
    assert lengths == {"first", "second"}
    both = measured(design, {f"{one}.length": 152.0, f"{two}.length": 100.0})
    gave = both.gave[0]
    assert gave.choice is not None
    assert gave.choice.lever.name == "second"
    assert [each.choice.lever.name for each in gave.passed_over] == ["first"]
    told = _refused(
        design, {f"{one}.length": 152.0, f"{two}.length": 101.0}, (), {f"{one}.length": "first"}
    )
    assert "152" in told


def test_a_free_parameter_that_moves_nothing_there_is_refused(stand: SteppedStand) -> None:
    told = _refused(stand, {"post.width": 112.0}, (), {"post.width": "base_depth"})
    assert "it does not move this figure" in told
    assert "write 'post_width'" in told


def test_what_nothing_moves_is_refused() -> None:
    class Fixed:
        def build(self, rules: Any = None) -> Any:
            return a_stand().build(rules)

    told = _refused(Fixed(), {"post.width": size(a_stand().build(), "post")[1] + 1.0})
    assert "no length in the script moves this figure" in told
    assert "take 1 mm off 'post.width'" in told


def test_a_length_that_serves_twice_is_moved_in_both_places() -> None:
    design = by_uprights()
    both = replace(design, bottom=design.thin)
    thickness = next(each for each in levers_of(both) if each.in_script == "thin.thickness")
    assert len(thickness.paths) == 2
    piece = with_lever(both, thickness, thickness.value_mm + 1.0).build()
    assert size(piece, "bottom")[2] == size(piece, "tier 1")[2] == thickness.value_mm + 1.0


@pytest.mark.seeds(few=3, full=200)
def test_any_design_has_the_measured_figures_and_its_done_parts(seed: int) -> None:
    """What is solved has the measured figures, and done parts as they were; or it is refused."""
    design, dice = drawn(seed), random.Random(seed)
    made, was = design.make(**design.figures), design.piece
    known = [each for each in measurables_of(was) if len(each.figures) == 1]
    chosen = dice.sample(known, dice.randint(1, 2))
    given = {each.key: each.designed_mm[0] + dice.uniform(-1.5, 1.5) for each in chosen}
    rest = [each.instance for each in was.placed if each.instance not in {c.of for c in chosen}]
    parts = dice.sample(rest, min(len(rest), dice.randint(0, 2)))
    try:
        now = measured(made, given, parts)
    except DesignError:
        return  # what is asked at random may be impossible
    sizes, plays = sizes_of(now.piece), plays_of(now.piece)
    for each in chosen:
        found = designed_mm(each.figures[0], sizes, plays)
        assert found == pytest.approx(given[each.key], abs=2e-5)
    old = old_of(was)
    old = replace(old, parts=tuple(each for each in old.parts if each.name in parts))
    old = as_they_stand(old, now)
    off = [abs(drawn - made) for made, drawn in now.as_they_stand.values()]
    assert max(off, default=0.0) <= FRAME_OFF.value
    assert not off or any(each.figures[0].is_room for each in chosen), "for a room's sake alone"
    says = {each.instance: each.say for each in verdicts_of(old, now.piece)}
    assert {says[name] for name in parts} <= {Say.AS_IS}
    assert done(was, parts).keys() == {*parts}


def test_a_piece_of_ones_own_gives_too() -> None:
    """Lengths in parts, placements and joints are found whatever holds them."""
    rack = runpy.run_path(str(ROOT / "models" / "key_rack.py"))["rack"]
    names = [each.name for each in levers_of(rack)]
    assert any(name.startswith("shelf: ") for name in names)
    assert any(name.startswith("joint 1 (") for name in names)


def test_a_dado_that_is_cut_stays_as_deep_though_its_room_came_out_shorter() -> None:
    """A room of 0.6 mm less was met by a shorter shelf and a shallower dado in a post that is cut:
    how deep a channel is does not hang on how a frame comes out."""
    design = drawn(677939)
    made, key = design.make(**design.figures), "shelf 1.length gap"
    (room,) = [each for each in measurables_of(design.piece) if each.key == key]
    shorter = {key: room.designed_mm[0] - 0.6}
    assert measured(made, shorter).gave, "with nothing done a shelf gives"
    with pytest.raises(DesignError, match="post b is done, and would need otherwise: dado"):
        measured(made, shorter, ("post b",))


def test_what_came_out_thin_is_told_beside_what_came_out_thick() -> None:
    """Taking the one off did not reconcile the other, though it was told to be enough."""
    made = a_stand()
    was = {each.key: each.designed_mm[0] for each in measurables_of(made.build())}
    thin, thick = was["tier 1.thickness"] - 1.2, was["tier 2.thickness"] + 0.8
    with pytest.raises(DesignError) as told:
        measured(made, {"tier 1.thickness": thin, "tier 2.thickness": thick}, ("post",))
    (problem,) = told.value.problems
    assert "take 0.8 mm off 'tier 2.thickness'" in problem.remedy
    assert "1.2 mm more play for 'tier 1.thickness'" in problem.remedy
    assert "more play for 'tier 2.thickness'" not in problem.remedy
