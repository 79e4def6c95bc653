"""Splines and keys: their cuts come out of settings in every shop, and faults are found."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache

import pytest

from furniture import Keys, MitredBox, Spline, Stock
from furniture.assembly import assembly_of, scene_of
from furniture.making.corners import keyed_of
from furniture.making.glue_ups import GlueUps, stages_of
from furniture.making.guides import guides_of
from furniture.making.making import Making
from furniture.making.operations import Kind, Operation
from furniture.making.rigs import HAND_SAWN
from furniture.making.set_ups import Dial, standing_of
from furniture.making.settings import CornerSlot, Flush, Guide, Machine, MitreGroove
from furniture.making.why import Why
from furniture.parts.faces import Face
from furniture.pieces import Piece
from furniture.shop.tools.on_hand import Would
from furniture.shop.tools.reading import usual_or
from furniture.shop.tools.values import ShopRead, TooMuch
from tests.making.hand_made import HandMade
from tests.making.laws import broken_laws
from tests.making.made import Amiss, Made, amiss, is_found, made
from tests.making.plant import pairs_of, too_early

OAK = Stock(name="oak", species="white oak", thickness="19 mm")
THIN = Stock(name="thin oak", species="white oak", thickness="10 mm")
WALNUT = Stock(name="walnut", species="walnut", thickness="3 mm")


def tongue(
    cls: type, name: str, between: tuple[str, str], thickness: str, **figures: str
) -> object:
    """A key or a spline of walnut on one corner."""
    stock = Stock(name=f"walnut {thickness}", species="walnut", thickness=thickness)
    return cls(name=name, stock=stock, between=between, **figures)


@cache
def box(*parts: object) -> Piece:
    """A mitred box whose lid lies on the inner side of what stands in its corners."""
    return MitredBox(
        name="Box", rails=OAK, lid=THIN, width="320 mm", depth="240 mm", height="90 mm",
        rabbet_width="7.5 mm", corner_parts=list(parts),
    ).build()  # fmt: skip


@cache
def splined(thickness: str = "3 mm") -> Piece:
    """A box with one spline that runs out at both edges."""
    return box(
        tongue(
            Spline, "spline", ("front rail", "left side rail"), thickness, into_each="5 mm",
            from_long_point="13 mm", width="90 mm", start="0 mm",
        )
    )  # fmt: skip


@cache
def keyed(thickness: str = "3 mm") -> Piece:
    """A box with two keys on every corner, of a stock so thick."""
    stock = Stock(name=f"walnut {thickness}", species="walnut", thickness=thickness)
    return MitredBox(
        name="Box", rails=OAK, lid=THIN, width="320 mm", depth="240 mm", height="90 mm",
        corner_parts=Keys(stock=stock, count=2),
    ).build()  # fmt: skip


def shop_with(**changes: object) -> ShopRead:
    """The usual shop, some of it changed."""
    return replace(usual_or(None, keyed().shown), **changes)


def of_kind(making: Making, kind: Kind) -> list[Operation]:
    """The operations of a kind, in order."""
    return [each for each in making.operations if each.kind is kind]


def is_right(whole: Made) -> None:
    """Every cut once, the parts as drawn, the order sound."""
    assert broken_laws(whole.making, whole.piece) == []
    found = amiss(whole)
    assert (found.parts, sorted(map(str, found.faults)), found.done.by_hand) == ({}, [], ())


def test_a_groove_that_runs_through_is_sawn_with_the_blade_at_the_mitres_tilt() -> None:
    whole = made(splined())
    is_right(whole)
    grooves = of_kind(whole.making, Kind.SPLINE_GROOVE)
    assert {each.rig.machine for each in grooves if each.rig} == {Machine.TABLE_SAW}
    assert {each.rig.tilt_deg for each in grooves if each.rig} == {45.0}
    (front,) = [each for each in grooves if each.takes == ("front rail",)]
    standing = standing_of(front)
    assert standing is not None
    # By hand, at 45 degrees: the groove's far wall is 16.1 mm down the slope, 16.1 sqrt 2 - 19 mm
    # inside the long point at the table; its highest corner lies at 19 - 13 / sqrt 2 + d / sqrt 2.
    assert isinstance(front.setting, MitreGroove)
    far = front.setting.near_mm + front.setting.width_mm
    root = 2.0**0.5
    assert dict(standing.figures) == pytest.approx(
        {
            Dial.STOP: 320.0 - (far * root - 19.0),
            Dial.HEIGHT: 19.0 - 13.0 / root + front.setting.depth_mm / root,
        }
    )


def test_a_blade_set_a_tenth_off_in_a_mitre_is_found() -> None:
    whole, known = made(splined()), amiss(made(splined()))
    for field in ("near_mm", "width_mm", "depth_mm", "lean_deg"):
        assert is_found(whole, _a_tenth_off(whole, Kind.SPLINE_GROOVE, field), known), field


def test_what_the_dials_cut_is_what_the_setting_says(monkeypatch: pytest.MonkeyPatch) -> None:
    """The blade is swept from stop, height and tilt alone: a wrong sum is seen."""
    whole = made(splined())
    right = MitreGroove.on_the_sled_mm
    for stop, height in ((0.3, 0.0), (0.0, 0.3)):
        monkeypatch.setattr(
            MitreGroove, "on_the_sled_mm",
            lambda *given, a=stop, b=height: (right(*given)[0] + a, right(*given)[1] + b),
        )  # fmt: skip
        assert any("what is dialled" in str(each) for each in amiss(whole).faults)


@pytest.mark.parametrize("kind", [Kind.KEY_SLOT, Kind.FLUSH])
def test_keys_are_let_in_when_the_ring_is_one_and_made_flush_after(kind: Kind) -> None:
    whole = made(keyed())
    is_right(whole)
    order = [each.key for each in whole.making.operations]
    kinds = [each.kind for each in whole.making.operations]
    ring = order.index("glue-up 1")
    assert len(of_kind(whole.making, kind)) == 8
    first, last = kinds.index(Kind.KEY_SLOT), kinds.index(Kind.FLUSH)
    assert ring < first < order.index("glue-up 2") < last
    assert all(each.rig and each.rig.guide is Guide.CRADLE
               for each in of_kind(whole.making, Kind.KEY_SLOT))  # fmt: skip


def test_four_corners_share_a_stop_and_equal_rises_a_spacer() -> None:
    making = made(keyed()).making
    (test,) = [each for each in of_kind(making, Kind.TEST_CUT)
               if each.rig and each.rig.guide is Guide.CRADLE]  # fmt: skip
    slots = {each.key for each in of_kind(making, Kind.KEY_SLOT)}
    ups = [each for each in making.set_ups if slots & set(each.operations)]
    assert [len(slots & set(each.operations)) for each in ups] == [4, 4]
    assert test.rig == ups[0].rig


def _a_tenth_off(whole: Made, kind: Kind, field: str) -> HandMade:
    each = of_kind(whole.making, kind)[0]
    assert each.setting is not None
    off = 1.0 if field == "lean_deg" else 0.1
    wrong = replace(each.setting, **{field: getattr(each.setting, field) + off})
    return _with(whole.making, replace(each, setting=wrong))


def _with(making: Making, *changed: Operation) -> HandMade:
    given = {each.key: each for each in changed}
    return HandMade(
        making.workpieces, tuple(given.get(each.key, each) for each in making.operations)
    )


@cache
def known_keys() -> tuple[Made, Amiss]:
    """The box with keys, and what is amiss in it: nothing."""
    whole = made(keyed())
    return whole, amiss(whole)


@pytest.mark.parametrize("field", ["near_mm", "width_mm", "depth_mm", "lean_deg"])
def test_a_slot_set_a_tenth_off_is_found(field: str) -> None:
    whole, known = known_keys()
    assert is_found(whole, _a_tenth_off(whole, Kind.KEY_SLOT, field), known)


@pytest.mark.parametrize("field", ["off", "end", "long_face"])
def test_a_slot_measured_from_another_face_is_found(field: str) -> None:
    whole, known = known_keys()
    each = of_kind(whole.making, Kind.KEY_SLOT)[0]
    assert isinstance(each.setting, CornerSlot)
    face: Face = getattr(each.setting, field)
    wrong = replace(each.setting, **{field: face.opposite})
    assert is_found(whole, _with(whole.making, replace(each, setting=wrong)), known)


def test_a_key_that_is_made_flush_with_the_wrong_faces_is_found() -> None:
    whole, known = known_keys()
    each = of_kind(whole.making, Kind.FLUSH)[0]
    assert isinstance(each.setting, Flush)
    for faces in (each.setting.with_faces[:1], _turned(each.setting.with_faces)):
        wrong = replace(each, setting=Flush(with_faces=faces))
        assert is_found(whole, _with(whole.making, wrong), known)


def _turned(faces: Sequence[tuple[str, Face]]) -> tuple[tuple[str, Face], ...]:
    return tuple((name, face.opposite) for name, face in faces)


@pytest.mark.parametrize("why", [Why.CLOSED_FIRST, Why.FITTED_TO, Why.FLUSH_AFTER])
def test_every_order_of_keys_that_is_broken_is_found(why: Why) -> None:
    whole, known = known_keys()
    pairs = [each for each in pairs_of(whole.making) if each[2] is why]
    assert len(pairs) >= 8
    for pair in pairs[:4]:
        faulty = too_early(whole.making, *pair)
        assert is_found(whole, faulty, known), faulty.what


def test_a_spline_is_planed_to_its_grooves_before_it_is_tried() -> None:
    whole, known = made(splined()), amiss(made(splined()))
    pairs = [each for each in pairs_of(whole.making) if each[2] in (Why.FITTED_TO, Why.SLOPE_FIRST)]
    assert {each[2] for each in pairs} == {Why.FITTED_TO, Why.SLOPE_FIRST}
    for pair in pairs:
        assert is_found(whole, too_early(whole.making, *pair), known), pair


def test_a_kerf_that_fits_saws_once_a_thicker_key_takes_a_head_or_several_passes() -> None:
    """Of 3 mm one pass of a kerf of 3.2; of 8 mm a head; without a head several passes."""
    plain = of_kind(made(keyed()).making, Kind.KEY_SLOT)[0]
    assert plain.near_mm == ()
    assert plain.rig is not None
    assert plain.rig.cutter.size_mm == pytest.approx(3.2)
    headed = made(keyed("8 mm"))
    is_right(headed)
    assert {each.rig.cutter.kind.value for each in of_kind(headed.making, Kind.KEY_SLOT)
            if each.rig} == {"dado head"}  # fmt: skip
    several = made(keyed("8 mm"), shop=shop_with(head=None))
    is_right(several)
    assert all(len(each.near_mm) > 2 for each in of_kind(several.making, Kind.KEY_SLOT))


def test_what_no_kerf_fits_goes_to_the_router_table_or_by_hand_with_the_tool_named() -> None:
    """A key of 3 mm under a kerf of 3.6: a bit of 3 would do, and none is on hand."""
    usual = shop_with()
    assert usual.bits is not None
    coarse = replace(usual.saw, kerf_mm=3.6)
    none = replace(usual.bits, straight_mm=(6.0,))
    fine = replace(usual.bits, straight_mm=(3.0, 6.0))
    thick = made(keyed(), shop=shop_with(saw=coarse, bits=none))
    is_right(thick)
    (wanting,) = {each.wanting for each in of_kind(thick.making, Kind.KEY_SLOT)}
    assert wanting is not None
    assert wanting.would is Would.KERF
    routed = made(keyed(), shop=shop_with(saw=coarse, bits=fine))
    is_right(routed)
    assert {each.rig.machine for each in of_kind(routed.making, Kind.KEY_SLOT) if each.rig} == {
        Machine.ROUTER_TABLE
    }
    loose = made(splined(), shop=shop_with(saw=coarse, bits=replace(fine, has_table=False)))
    is_right(loose)
    assert {each.wanting.would for each in of_kind(loose.making, Kind.SPLINE_GROOVE)
            if each.wanting} == {Would.ROUTER_TABLE}  # fmt: skip


def test_a_frame_with_something_standing_out_is_slotted_by_hand_and_says_why() -> None:
    """A lid that reaches past the front; one that lies above the rim only turns it over."""
    piece, shop = keyed(), shop_with()
    scene = scene_of(piece)
    found = stages_of(piece, assembly_of(piece, scene), scene=scene)
    assert isinstance(found, GlueUps)
    ring, keys, *rest = found.stages
    whole = tuple(name for body in ring.bodies for name in body)
    late = replace(keys, bodies=((*whole, "lid"), *keys.bodies[1:]))
    planned = replace(found, stages=(ring, late, *rest))
    for (x, y, z), refused in (((0.0, -19.0, 0.0), {"front rail"}), ((0.0, 0.0, 4.0), set())):
        moved = replace(
            piece,
            placed=tuple(
                replace(each, placement=replace(each.placement, origin=(
                    each.placement.origin[0] + x, each.placement.origin[1] + y,
                    each.placement.origin[2] + z)))
                if each.instance == "lid" else each
                for each in piece.placed
            ),
        )  # fmt: skip
        slots = [each.slot for each in keyed_of(moved, planned, shop, guides_of(piece))]
        assert len(slots) == 8
        at_front = [each for each in slots if {cut.instance for cut in each.cuts} & refused]
        assert len(at_front) == (4 if refused else 0)
        for each in slots:
            is_refused = each in at_front
            assert (each.refused is not None) == is_refused
            if is_refused:
                assert each.refused is not None
                assert each.refused.why == (TooMuch.STANDS_OUT,)
                assert each.rig == HAND_SAWN


def test_a_frame_that_does_not_lie_in_its_cradle_is_found() -> None:
    """Planted: a slot sawn in a cradle although a part stands out past the corner is found."""
    whole, known = known_keys()
    each = of_kind(whole.making, Kind.KEY_SLOT)[-1]
    flush = of_kind(whole.making, Kind.FLUSH)[0]
    order = [one for one in whole.making.operations if one is not each]
    at = order.index(flush)  # a key that is glued in and not flush yet stands out of its corner
    slot = replace(each, takes=flush.takes, gives=flush.takes)
    faulty = HandMade(whole.making.workpieces, (*order[:at], slot, *order[at:]))
    assert is_found(whole, faulty, known)
