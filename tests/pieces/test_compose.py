"""Composition: joints put cuts on both parts, equal work is one part, every problem is told."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

import pytest

from furniture.errors import DesignError
from furniture.joints import DadoJoint, Joint, MitreJoint
from furniture.parts.blank import Blank
from furniture.parts.cuts import Dado, Mitre, Profile, ProfileKind
from furniture.parts.faces import Arris, Face
from furniture.parts.part import Part, Placed
from furniture.parts.placement import Placement
from furniture.parts.vectors import BACK, FRONT, LEFT, RIGHT, UP
from furniture.pieces import compose, distinct_parts, extents_of, placed_named
from furniture.solids.make import placed_solid
from furniture.timber.stock import Stock, read_stock
from furniture.units import Reader

TIMBER = read_stock(
    Reader(), "stock", Stock(name="oak", species="white oak", thickness="20 mm", moisture="9 %")
)


def _part(name, length, width, thickness=20.0, cuts=()):
    blank = Blank(length_mm=length, width_mm=width, thickness_mm=thickness)
    return Part(name=name, blank=blank, timber=TIMBER, cuts=cuts)


POST = Placed(
    instance="post",
    part=_part("post", 400.0, 90.0),
    placement=Placement(origin=(90.0, 20.0, 0.0), x_axis=UP, y_axis=LEFT),
)


def _shelf(number, height, width=200.0, cuts=()):
    return Placed(
        instance=f"shelf {number}",
        part=_part(f"shelf {number}", width, 80.0, 12.0, cuts),
        placement=Placement(origin=(45.0 - width / 2, -73.0, height), x_axis=RIGHT, y_axis=BACK),
    )


def _stand(*shelves):
    joints = [DadoJoint(into="post", incoming=each.instance) for each in shelves]
    return compose(name="try", placed=[POST, *shelves], joints=joints)


def test_the_dado_is_the_measured_shelf_plus_the_fit():
    piece = _stand(_shelf(1, 100.0))
    (dado,) = placed_named(piece, "post").part.cuts
    # the shelf's underside is 100 above the floor; 12 mm + slip (0.1 + 0.0025 * 12 = 0.13)
    assert dado == Dado(face=Face.FACE_SIDE, lower_shoulder_mm=100.0, width_mm=12.13, depth_mm=7.0)


def test_equal_shelves_are_one_part_with_their_quantity():
    piece = _stand(_shelf(1, 100.0), _shelf(2, 200.0), _shelf(3, 300.0, width=180.0))
    rows = {each.part.name: each.instances for each in distinct_parts(piece)}
    assert rows == {
        "post": ("post",),
        "shelf 1, 2": ("shelf 1", "shelf 2"),
        "shelf 3": ("shelf 3",),
    }


def test_parts_equal_after_half_a_turn_share_one_frame_and_stand_where_they_stood():
    chamfer = {
        face: Profile(
            edge=Arris(Face.FACE_SIDE, face), profile_kind=ProfileKind.CHAMFER, radius_mm=3
        )
        for face in (Face.NAMED_END, Face.FAR_END)
    }
    left = _shelf(1, 100.0, cuts=(chamfer[Face.NAMED_END],))
    right = _shelf(2, 200.0, cuts=(chamfer[Face.FAR_END],))
    piece = compose(name="try", placed=[left, right], joints=[])
    assert [each.quantity for each in distinct_parts(piece)] == [2]
    for before in (left, right):
        after = placed_named(piece, before.instance)
        old = placed_solid(before.part, before.placement)
        new = placed_solid(after.part, after.placement)
        assert new.Center().toTuple() == pytest.approx(old.Center().toTuple(), abs=1e-6)
        assert new.intersect(old).Volume() == pytest.approx(old.Volume(), rel=1e-9)


def test_mirror_images_stay_two_parts():
    def rail(name, end):
        mitre = Mitre(end=end, blade_tilt_deg=45.0, long_point_face=Face.FACE_SIDE)
        notch = Dado(
            face=Face.BACK_SIDE,
            lower_shoulder_mm=40.0 if end is Face.FAR_END else 150.0,
            width_mm=10.0,
            depth_mm=5.0,
            stop_from_back_edge_mm=20.0,
        )
        return Placed(
            instance=name,
            part=_part(name, 200.0, 60.0, cuts=(mitre, notch)),
            placement=Placement(origin=(0.0, 0.0, 0.0), x_axis=RIGHT, y_axis=UP),
        )

    rails = [rail("left", Face.FAR_END), rail("right", Face.NAMED_END)]
    assert len(distinct_parts(compose(name="try", placed=rails, joints=[]))) == 2


def test_a_mitred_corner_cuts_both_rails_by_half_the_turn():
    front = Placed(
        instance="front",
        part=_part("front", 300.0, 60.0),
        placement=Placement(origin=(0.0, 20.0, 0.0), x_axis=RIGHT, y_axis=UP),
    )
    side = Placed(
        instance="side",
        part=_part("side", 200.0, 60.0),
        placement=Placement(origin=(20.0, 200.0, 0.0), x_axis=FRONT, y_axis=UP),
    )
    piece = compose(
        name="try", placed=[front, side], joints=[MitreJoint(into="front", incoming="side")]
    )
    ends = {each.instance: each.part.cuts[0] for each in piece.placed}
    assert (ends["front"].end, ends["front"].blade_tilt_deg) == (Face.NAMED_END, 45.0)
    assert (ends["side"].end, ends["side"].blade_tilt_deg) == (Face.FAR_END, 45.0)
    assert extents_of(piece) == ((0.0, 0.0, 0.0), (300.0, 200.0, 60.0))


def test_names_that_clash_or_are_unknown_are_told_together():
    twin = replace(_shelf(1, 200.0), instance="shelf 1")
    with pytest.raises(DesignError) as caught:
        compose(
            name="try",
            placed=[POST, _shelf(1, 100.0), twin],
            joints=[DadoJoint(into="pots", incoming="shelf 1")],
        )
    told = [problem.given for problem in caught.value.problems]
    assert told == ["two parts called 'shelf 1'", "'pots'"]


def test_a_piece_without_parts_is_refused():
    with pytest.raises(DesignError, match="at least one"):
        compose(name="try", placed=[], joints=[])


def test_a_shelf_that_does_not_reach_its_post_is_told_by_name():
    far = replace(
        _shelf(1, 100.0),
        placement=Placement(origin=(-55.0, -90.0, 100.0), x_axis=RIGHT, y_axis=BACK),
    )
    with pytest.raises(DesignError, match="shelf 1"):
        _stand(far)


def test_a_profile_inside_a_joint_is_refused():
    back = Profile(
        edge=Arris(Face.FACE_SIDE, Face.BACK_EDGE), profile_kind=ProfileKind.ROUND_OVER, radius_mm=3
    )
    with pytest.raises(DesignError, match="inside a joint"):
        _stand(_shelf(1, 100.0, cuts=(back,)))


def test_profiles_are_run_after_all_joints():
    front = Profile(
        edge=Arris(Face.FACE_SIDE, Face.FACE_EDGE), profile_kind=ProfileKind.ROUND_OVER, radius_mm=3
    )
    post = replace(POST, part=replace(POST.part, cuts=(replace(front, radius_mm=2),)))
    shelf = _shelf(1, 100.0)
    piece = compose(
        name="try", placed=[post, shelf], joints=[DadoJoint(into="post", incoming="shelf 1")]
    )
    assert [cut.kind for cut in placed_named(piece, "post").part.cuts] == ["dado", "profile"]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Mistaken(Joint):
    """A joint whose author made a mistake."""

    kind: ClassVar[str] = "mistaken"

    def work(self, into, incoming):
        return min([])


def test_a_mistake_in_a_joint_is_its_authors_and_not_told_to_the_maker_as_one_of_theirs():
    with pytest.raises(ValueError, match="empty") as caught:
        compose(
            name="try",
            placed=[POST, _shelf(1, 100.0)],
            joints=[_Mistaken(into="post", incoming="shelf 1")],
        )
    assert not isinstance(caught.value, DesignError)
    assert any("mistaken of shelf 1 in post" in note for note in caught.value.__notes__)


def test_a_cut_that_breaks_when_turned_is_a_mistake_of_its_author_too():
    @dataclass(frozen=True, slots=True, kw_only=True)
    class Broken(Dado):
        def turned_about(self, axis, blank):
            raise ValueError("a slip of its author")

    cut = Broken(face=Face.FACE_SIDE, lower_shoulder_mm=20.0, width_mm=12.0, depth_mm=7.0)
    with pytest.raises(ValueError, match="a slip of its author"):
        compose(name="try", placed=[_shelf(1, 100.0, cuts=(cut,))], joints=[])
