"""Random stands and boxes: what holds for every valid one, and that invalid neighbours are refused.

The laws are the solids' own: volume is the blank less at most its cuts, parts share no wood, and
each part is one closed solid. Sizes are drawn from what the builders say they take.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture import (
    BackRail,
    BottomFixing,
    DadoEnds,
    DesignError,
    EdgeProfile,
    Feet,
    FingerHold,
    LidFixing,
    Lip,
    MitredBox,
    PostStrips,
    Problem,
    SteppedStand,
    TierRule,
    Uprights,
    Vent,
)
from furniture.builders.edges import ALL_ARRISES
from furniture.parts.cuts import Dado
from furniture.pieces import Piece, distinct_parts
from furniture.rules.building import BETWEEN_DADOS
from furniture.solids.make import solid_of
from tests.builders.bench import (
    a_box,
    a_stand,
    oak,
    overlapping,
    parameters_named,
    part,
    problems_of,
)
from tests.fresh import law

FEW = law(few=10, full=200)
LIFTED_BY = (FingerHold.NOTCH, FingerHold.BORE, FingerHold.NONE)


def mm(value: float) -> str:
    """A length as a maker writes it."""
    return f"{value:.2f} mm"


def lengths(low: float, high: float) -> st.SearchStrategy[float]:
    """Lengths to a tenth of a millimetre [mm]."""
    return st.integers(round(low * 10), round(high * 10)).map(lambda tenths: tenths / 10)


@st.composite
def stands(draw: Any) -> SteppedStand:
    """A valid stand on a post, its figures drawn one inside what the ones before leave."""
    thick, thin = draw(lengths(14, 28)), draw(lengths(6, 14))
    has_back_rail = draw(st.booleans())
    stub = max(40.0, thick + 20)
    strips = draw(st.sampled_from([1, 1, 2, 3]))
    width = draw(lengths(2 * stub + 100, 600))
    post = draw(lengths(max(60.0, 20.0 * strips), min(width - 2 * stub, 100.0 * strips)))
    depth = draw(lengths(thick * (3 if has_back_rail else 2) + 60, 320))
    count = draw(st.integers(1, 5))
    first = draw(lengths(post, width))
    return SteppedStand(
        thick=oak(mm(thick)),
        thin=oak(mm(thin)),
        bottom=draw(st.sampled_from([None, oak(mm(thin))])),
        base_width=mm(width),
        base_depth=mm(depth),
        base_height=mm(draw(lengths(2 * thin + 30, 140))),
        post_width=mm(post),
        back_rail=BackRail() if has_back_rail else None,
        post_strips=PostStrips(count=strips) if strips > 1 else None,
        post_proud=mm(draw(st.sampled_from([0.0, 18.0, 40.0]))),
        dado_depth=mm(thick / 2),
        lid_gap_across=mm(draw(lengths(0.3, 1.2))),
        tiers=TierRule(
            count=count,
            width=mm(first),
            depth=mm(draw(lengths(80, 180))),
            rise=mm(draw(lengths(thin + 40, 160))),
            step_back_width=mm((first - post) / count * draw(st.sampled_from([0.0, 0.5, 0.9]))),
            step_back_depth=mm(draw(lengths(0, 15))),
        ),
        lips=[Lip(on="tier 1")] if draw(st.booleans()) else [],
        feet=Feet(stock=oak("8 mm"), length="20 mm", width="18 mm", inset="2 mm")
        if draw(st.booleans())
        else None,
        lid_fixing=draw(st.sampled_from(list(LidFixing)[:2])),
    )


@st.composite
def upright_stands(draw: Any) -> SteppedStand:
    """A valid stand on two uprights."""
    thick, thin = draw(lengths(14, 26)), draw(lengths(8, 14))
    upright = draw(lengths(70, 140))
    depth = upright + draw(lengths(max(40.0, thick + 20), 160))
    ends = draw(st.sampled_from(list(DadoEnds)))
    count = draw(st.integers(1, 4))
    shallow = upright if ends is DadoEnds.THROUGH else upright * 0.6
    first = draw(lengths(shallow + 0.1, 2 * upright))
    return SteppedStand(
        thick=oak(mm(thick)),
        thin=oak(mm(thin)),
        base_width=mm(draw(lengths(200, 500))),
        base_depth=mm(depth),
        base_height=mm(draw(lengths(thin + 30, 140))),
        post_proud=mm(draw(st.sampled_from([0.0, 25.0]))),
        uprights=Uprights(
            depth=mm(upright),
            dado_ends=ends,
            stop=mm(draw(lengths(8, 20))),
            bit_radius=mm(draw(st.sampled_from([0.0, 3.0]))),
        ),
        tiers=TierRule(
            count=count,
            depth=mm(first),
            rise=mm(draw(lengths(thin + 40, 160))),
            step_back_depth=mm(max(0.0, (first - shallow) / count - 0.01)),
        ),
    )


@st.composite
def boxes(draw: Any) -> MitredBox:
    """A valid box."""
    rail, panel = draw(lengths(9, 24)), draw(lengths(4, 12))
    side = max(80.0, 2 * rail + 60)
    bottom = draw(st.sampled_from([None, oak(mm(panel))]))
    fixing = draw(st.sampled_from(list(LidFixing)[:2]))
    held = draw(st.sampled_from(list(BottomFixing))) if bottom else BottomFixing.LOOSE
    is_lifted = fixing is LidFixing.LOOSE
    return MitredBox(
        rails=oak(mm(rail)),
        lid=oak(mm(panel)),
        bottom=bottom,
        bottom_fixing=held,
        lid_fixing=fixing,
        feet=Feet(stock=oak("6 mm"), length="16 mm", width="15 mm", inset="0.5 mm")
        if draw(st.booleans())
        else None,
        vents=draw(st.sampled_from([[], [Vent(on="back rail", count=2, size="5 mm")]])),
        width=mm(draw(lengths(side, 500))),
        # a solid bottom moves with its depth, and the rabbet of thin rails has little room for that
        depth=mm(draw(lengths(side, 400 if bottom is None else min(400.0, 22 * rail)))),
        height=mm(draw(lengths(2 * panel + 20, 150))),
        lid_gap_across=mm(draw(lengths(0.3, 1.0))),
        finger_hold=draw(st.sampled_from(LIFTED_BY)) if is_lifted else None,
        finger_size="18 mm",
    )


def assert_sound(piece: Piece) -> None:
    """One closed solid for each part, no more taken than the cuts can take, no wood shared."""
    for each in distinct_parts(piece):
        solid = solid_of(each.part)
        assert solid.isValid()
        taken = each.part.blank.volume_mm3 - solid.Volume()
        alone = [cut.removed_alone_mm3(each.part.blank) for cut in each.part.cuts]
        assert max(alone, default=0.0) - 1e-3 <= taken <= sum(alone) + 1e-3
    assert sum(each.quantity for each in distinct_parts(piece)) == len(piece.placed)
    assert not overlapping(piece)


@FEW
@given(stands())
def test_every_valid_stand_is_sound(stand: SteppedStand) -> None:
    """Parts counted from the parameters: box and post, lid, tiers, and what was chosen."""
    piece = stand.build()
    assert_sound(piece)
    rule = stand.tiers
    assert isinstance(rule, TierRule)
    strips = 1 if stand.post_strips is None else stand.post_strips.count
    expected = (4 + 1 if stand.back_rail else 5) + strips + 1 + rule.count
    expected += (stand.bottom is not None) + len(stand.lips) + 5 * (stand.feet is not None)
    assert len(piece.placed) == expected


@FEW
@given(upright_stands())
def test_every_valid_stand_on_uprights_is_sound(stand: SteppedStand) -> None:
    """Front, two sides, back, two uprights, lid, and the tiers."""
    piece = stand.build()
    assert_sound(piece)
    assert isinstance(stand.tiers, TierRule)
    assert len(piece.placed) == 7 + stand.tiers.count


@FEW
@given(boxes())
def test_every_valid_box_is_sound(box: MitredBox) -> None:
    """Four rails, a lid, and a bottom if wanted."""
    piece = box.build()
    assert_sound(piece)
    assert len(piece.placed) == 5 + (box.bottom is not None) + 4 * (box.feet is not None)


@FEW
@given(stands())
def test_clearance_and_wood_between_dados(stand: SteppedStand) -> None:
    """Each dado is its tier's thickness and the clearance; wood stays between any two."""
    piece = stand.build()
    for each in piece.placed:
        if not each.instance.startswith("post") or each.instance == "post foot":
            continue
        dados = sorted(
            (cut for cut in each.part.cuts if isinstance(cut, Dado)),
            key=lambda cut: cut.lower_shoulder_mm,
        )
        thickness = part(piece, "tier 1").blank.thickness_mm
        for dado in dados:
            clearance = dado.width_mm - thickness
            assert clearance == pytest.approx(0.1 + thickness / 400, abs=0.0051)
        for below, above in pairwise(dados):
            between = above.lower_shoulder_mm - below.upper_shoulder_mm
            assert between >= BETWEEN_DADOS.value - 1e-6


@FEW
@given(stands(), st.sampled_from(["post_width", "dado_depth", "base_height", "tiers.width"]))
def test_invalid_neighbours_are_refused(stand: SteppedStand, parameter: str) -> None:
    """Push one figure over its limit and that one is named, not another."""
    values = {name: getattr(stand, name) for name in type(stand).__dataclass_fields__}
    if parameter == "tiers.width":
        rule = stand.tiers
        assert isinstance(rule, TierRule)
        given_rule = {name: getattr(rule, name) for name in type(rule).__dataclass_fields__}
        values["tiers"] = TierRule(**{**given_rule, "width": "10 mm", "step_back_width": "0 mm"})
    else:
        over = {"post_width": "900 mm", "dado_depth": "41 mm", "base_height": "5 mm"}
        values[parameter] = over[parameter]
    assert parameter in parameters_named(type(stand)(**values))


@FEW
@given(
    stands(),
    st.dictionaries(
        st.sampled_from(["base_width", "base_depth", "post_width", "dado_depth", "rabbet_width"]),
        st.one_of(
            lengths(-50, 900).map(mm),
            st.sampled_from(["", "nan mm", "1e9 mm", "3 kg", "??", "0 mm"]),
            st.floats(allow_nan=True, allow_infinity=True),
            st.none(),
        ),
        min_size=1,
    ),
)
def test_anything_written_is_built_or_refused_in_full(
    stand: SteppedStand, changes: dict[str, Any]
) -> None:
    """Whatever is written, the answer is a piece or a design error, never another exception."""
    values = {name: getattr(stand, name) for name in type(stand).__dataclass_fields__}
    built = built_or_problems(type(stand)(**{**values, **changes}))
    if isinstance(built, Piece):
        assert_sound(built)
    else:
        assert all(p.given and p.allowed and p.why and p.remedy for p in built)


def built_or_problems(design: SteppedStand) -> Piece | tuple[Problem, ...]:
    """The piece, or what the refusal says."""
    try:
        return design.build()
    except DesignError as error:
        return error.problems


@pytest.mark.parametrize(
    "design",
    [
        lambda **more: a_stand(bottom=oak("10 mm"), **more),
        lambda **more: a_stand(post_proud="0 mm", **more),
        lambda **more: a_stand(
            post_width=None,
            uprights=Uprights(depth="120 mm"),
            tiers=TierRule(count=3, depth="160 mm", rise="120 mm", step_back_depth="30 mm"),
            **more,
        ),
        lambda **more: a_box(bottom=oak("10 mm"), **more),
    ],
    ids=["post", "flush post", "uprights", "box"],
)
def test_every_edge_is_shaped_or_refused_by_its_parameter(design: Any) -> None:
    """No arris of any part gets as far as the joints before it is refused."""
    instances = [each.instance for each in design().build().placed]
    shaped = 0
    for instance in instances:
        for edge in sorted(ALL_ARRISES, key=lambda arris: arris.name):
            shape = design(profiles=[EdgeProfile(on=instance, edges=[edge], radius="2 mm")])
            try:
                shape.build()
                shaped += 1
            except DesignError:
                named = {problem.parameter for problem in problems_of(shape)}
                assert named == {f"profile 1 ({instance}) edges"}, (instance, edge.name)
    assert shaped > len(instances)
