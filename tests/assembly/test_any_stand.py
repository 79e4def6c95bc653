"""Stands and boxes of any figures: nothing overlaps, contacts are true, and they go together."""

from __future__ import annotations

from hypothesis import given, reject
from hypothesis import strategies as st

from furniture import (
    EASY,
    PRESS,
    SLIP,
    BackRail,
    DesignError,
    Feet,
    MitredBox,
    SteppedStand,
    Stock,
    TierRule,
    Vent,
)
from furniture.assembly import AssemblyPlan, assembly_of
from furniture.pieces import Piece
from furniture.solids.proof import (
    clashing_joints,
    interferences,
    untrue_contacts,
    wasted_cuts,
)
from tests.assembly.bench import replay
from tests.fresh import law

WHOLE = law(few=5, full=100)


def tenths(low: float, high: float) -> st.SearchStrategy[str]:
    """A length in tenths of a millimetre, as a maker writes it."""
    return st.integers(int(low * 10), int(high * 10)).map(lambda value: f"{value / 10} mm")


def oak(thickness: str) -> Stock:
    return Stock(name=f"oak {thickness}", species="white oak", thickness=thickness, moisture="9 %")


@st.composite
def stands(draw: st.DrawFn) -> Piece:
    """A stand that its builder accepts; its lid may want a notch or a tongue at the post."""
    count = draw(st.integers(1, 5))
    try:
        return SteppedStand(
            name="any stand",
            thick=oak(draw(tenths(17.0, 24.0))),
            thin=oak(draw(tenths(8.0, 14.0))),
            base_width=draw(tenths(300.0, 420.0)),
            base_depth=draw(tenths(180.0, 260.0)),
            base_height=draw(tenths(70.0, 110.0)),
            post_width=draw(tenths(70.0, 130.0)),
            back_rail=draw(st.sampled_from([None, BackRail(), BackRail(let_in="3 mm")])),
            post_proud=draw(st.sampled_from(["0 mm", "25 mm"])),
            rabbet_width=draw(tenths(8.0, 11.0)),
            lid_gap_across="1.2 mm",
            fit=draw(st.sampled_from([PRESS, SLIP, EASY])),
            tiers=TierRule(
                count=count,
                width=draw(tenths(200.0, 290.0)),
                depth=draw(tenths(90.0, 160.0)),
                rise=draw(tenths(80.0, 160.0)),
                step_back_width="10 mm",
                step_back_depth="10 mm",
            ),
        ).build()
    except DesignError:
        reject()


@st.composite
def boxes(draw: st.DrawFn) -> Piece:
    """A box that its builder accepts, with a bottom or without."""
    panel = oak(draw(tenths(5.0, 9.0)))
    feet = Feet(stock=oak("6 mm"), length="20 mm", width="18 mm", inset="1 mm")
    try:
        return MitredBox(
            name="any box",
            rails=oak(draw(tenths(11.0, 20.0))),
            lid=panel,
            bottom=draw(st.sampled_from([None, panel])),
            feet=draw(st.sampled_from([None, feet])),
            vents=draw(st.sampled_from([[], [Vent(on="front rail", count=3)]])),
            width=draw(tenths(150.0, 300.0)),
            depth=draw(tenths(120.0, 220.0)),
            height=draw(tenths(60.0, 110.0)),
        ).build()
    except DesignError:
        reject()


def prove(piece: Piece) -> AssemblyPlan:
    """The piece's plan, every proof passed on the way."""
    assert interferences(piece) == ()
    assert untrue_contacts(piece) == ()
    assert wasted_cuts(piece) == ()
    assert clashing_joints(piece) == ()
    plan = assembly_of(piece)
    assert isinstance(plan, AssemblyPlan)
    assert len(plan.steps) == len(piece.placed) - 1
    return plan


@WHOLE
@given(piece=stands())
def test_any_stand_passes_every_proof_and_goes_together(piece: Piece) -> None:
    plan = prove(piece)
    lid = next(number for number, step in enumerate(plan.steps) if "lid" in step.moving)
    front = next(number for number, step in enumerate(plan.steps) if "front rail" in step.moving)
    assert lid < front


@WHOLE
@given(piece=boxes())
def test_any_box_passes_every_proof_and_the_lid_goes_in_last(piece: Piece) -> None:
    assert prove(piece).steps[-1].moving == ("lid",)


@law(few=1, full=20)
@given(piece=stands())
def test_any_stands_plan_is_replayed_by_the_kernel(piece: Piece) -> None:
    assert replay(piece, prove(piece), fine_mm=2.0) == []
