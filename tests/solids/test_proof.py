"""Proof of fit: what overlaps, what does not touch, what a cut takes, which joints fight."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.errors import DesignError
from furniture.joints import DadoJoint
from furniture.parts.cuts import Bore, Dado, Groove, KeySlot, Mitre, Profile, ProfileKind, Rabbet
from furniture.parts.faces import Arris, Face
from furniture.parts.vectors import BACK, DOWN, FRONT, RIGHT, UP, scaled
from furniture.pieces import placed_named
from furniture.solids import proof_wood
from furniture.solids.apart import way_apart
from furniture.solids.make import placed_solid
from furniture.solids.proof import (
    ContactFault,
    CutFault,
    clashing_joints,
    common_volume,
    interferences,
    untrue_contacts,
    wasted_cuts,
)
from models.herb_stand import stand
from models.tea_box import box
from tests.assembly.bench import board, piece_of
from tests.fresh import law

PROOFS = (interferences, untrue_contacts, wasted_cuts, clashing_joints)


@pytest.fixture(scope="module", params=[stand, box], ids=["herb stand", "tea box"])
def model(request):
    return request.param.build()


@pytest.mark.parametrize("proof", PROOFS)
def test_the_models_pass_every_proof(model, proof):
    assert proof(model) == ()


def moved(piece, instance, by):
    """The piece with one instance pushed aside, as a slip of the hand would."""
    placed = []
    for each in piece.placed:
        if each.instance == instance:
            origin = tuple(a + b for a, b in zip(each.placement.origin, by, strict=True))
            each = replace(each, placement=replace(each.placement, origin=origin))
        placed.append(each)
    return replace(piece, placed=tuple(placed))


def shelf_in_post():
    """A shelf let 6 mm into a post's dado; it is free but for the post."""
    post = board("post", (400.0, 80.0, 20.0), (80.0, 20.0, 0.0), UP, (-1.0, 0.0, 0.0))
    shelf = board("shelf", (80.0, 106.0, 12.0), (0.0, -100.0, 200.0))
    return piece_of([post, shelf], [DadoJoint(into="post", incoming="shelf")])


class TestWaysApart:
    @pytest.mark.parametrize(
        ("by", "way", "by_mm"),
        [
            ((0.0, 1.0, 0.0), FRONT, 1.0),
            ((0.0, 0.0, 0.7), DOWN, 0.7),
            ((0.0, 1.0, -0.4), UP, 0.4),
        ],
    )
    def test_the_shortest_way_is_the_one_the_part_came(self, by, way, by_mm):
        """Too far in, too high by more than its play, or both: the shorter way is not enough."""
        piece = moved(shelf_in_post(), "shelf", by)
        (overlap,) = interferences(piece)
        found = way_apart(piece, overlap)
        part, goes = found.moves
        assert interferences(moved(piece, part, scaled(goes, found.by_mm + 0.02))) == ()
        if by.count(0.0) == 2:
            play = shelf_in_post().joinings[0].clearance_mm if way != FRONT else 0.0
            assert found.by_mm == pytest.approx(by_mm - play, abs=0.011)
            assert goes == scaled(way, 1.0 if part == "shelf" else -1.0)

    def test_a_part_that_would_run_into_another_is_not_moved(self):
        """Between two walls: the block is 4 mm too long, and either wall may give."""
        block = board("block", (104.0, 40.0, 20.0), (0.0, 0.0, 0.0))
        left = board("left", (40.0, 20.0, 20.0), (0.0, 0.0, 0.0), BACK, (-1.0, 0.0, 0.0))
        stop = board("stop", (40.0, 60.0, 20.0), (-20.0, 0.0, 0.0), BACK, (-1.0, 0.0, 0.0))
        right = board("right", (40.0, 20.0, 20.0), (124.0, 0.0, 0.0), BACK, (-1.0, 0.0, 0.0))
        block = replace(block, placement=replace(block.placement, origin=(-4.0, 0.0, 0.0)))
        right = replace(right, placement=replace(right.placement, origin=(120.0, 0.0, 0.0)))
        piece = piece_of([block, left, stop, right], [])
        overlap = next(each for each in interferences(piece) if "left" in (each.first, each.second))
        found = way_apart(piece, overlap)
        assert found.by_mm == pytest.approx(4.0, abs=0.011)
        assert found.moves is None


class TestInterferences:
    def test_a_shelf_pushed_a_millimetre_too_far_into_its_dado(self):
        """By hand: the shelf's whole end, 1 mm of it: 80 wide by 12 thick."""
        post = board("post", (400.0, 80.0, 20.0), (80.0, 20.0, 0.0), UP, (-1.0, 0.0, 0.0))
        shelf = board("shelf", (80.0, 106.0, 12.0), (0.0, -100.0, 200.0))
        piece = piece_of([post, shelf], [DadoJoint(into="post", incoming="shelf")])
        assert interferences(piece) == ()
        (found,) = interferences(moved(piece, "shelf", (0.0, 1.0, 0.0)))
        assert {found.first, found.second} == {"post", "shelf"}
        assert found.volume_mm3 == pytest.approx(1.0 * 80.0 * 12.0, rel=1e-6)
        assert "post and shelf overlap by 960.00 mm3" in found.in_words

    def test_clearance_is_really_there(self):
        """A shelf lifted by its clearance still fits; lifted by twice that it does not."""
        post = board("post", (400.0, 80.0, 20.0), (80.0, 20.0, 0.0), UP, (-1.0, 0.0, 0.0))
        shelf = board("shelf", (80.0, 106.0, 12.0), (0.0, -100.0, 200.0))
        piece = piece_of([post, shelf], [DadoJoint(into="post", incoming="shelf")])
        clearance = piece.joinings[0].clearance_mm
        assert clearance > 0.0
        assert interferences(moved(piece, "shelf", (0.0, 0.0, clearance))) == ()
        (found,) = interferences(moved(piece, "shelf", (0.0, 0.0, 2 * clearance)))
        assert found.volume_mm3 == pytest.approx(clearance * 6.0 * 80.0, rel=1e-6)

    def test_two_square_plates_at_45_degrees_share_an_octagon(self):
        """Closed form: a square of side a and the same turned by 45 degrees about its middle share
        a regular octagon of area 2 (sqrt 2 - 1) a2."""
        a, half = 60.0, math.sqrt(0.5)
        flat = board("flat", (a, a, 10.0), (-a / 2, -a / 2, 0.0))
        corner = (-a / 2 * half + a / 2 * half, -a / 2 * half - a / 2 * half, 0.0)
        turned = board("turned", (a, a, 10.0), corner, (half, half, 0.0), (-half, half, 0.0))
        area = 2 * (math.sqrt(2) - 1) * a * a
        assert common_volume(flat, turned) == pytest.approx(area * 10.0, rel=1e-9)
        assert common_volume(turned, flat) == pytest.approx(area * 10.0, rel=1e-9)

    def test_equal_blocks_in_equal_relation_are_worked_out_once(self):
        post = board("post", (900.0, 80.0, 20.0), (80.0, 20.0, 0.0), UP, (-1.0, 0.0, 0.0))
        shelves = [
            board(f"shelf {n}", (80.0, 107.0, 12.0), (0.0, -100.0, 40.0 + 80.0 * n))
            for n in range(10)
        ]
        joints = [DadoJoint(into="post", incoming=each.instance) for each in shelves]
        piece = piece_of([post, *shelves], joints)
        for each in shelves:
            piece = moved(piece, each.instance, (0.0, 0.5, 0.0))
        before = proof_wood._left.cache_info()
        found = interferences(piece)
        after = proof_wood._left.cache_info()
        assert [each.volume_mm3 for each in found] == pytest.approx([0.5 * 80 * 12] * 10)
        assert after.misses - before.misses <= 1

    @law(few=6, full=100)
    @given(by=st.tuples(*[st.floats(min_value=-9.0, max_value=9.0)] * 3))
    def test_the_short_way_gives_what_the_whole_solids_give(self, by):
        """Two mitred and rabbeted rails pushed into each other any way: the kernel's own answer."""
        piece = moved(BOX, "left side rail", by)
        first, second = (placed_named(piece, name) for name in ("front rail", "left side rail"))
        solids = [placed_solid(each.part, each.placement) for each in (first, second)]
        common = solids[0].intersect(solids[1])
        expected = sum(solid.Volume() for solid in common.Solids())
        assert common_volume(first, second) == pytest.approx(expected, rel=1e-6, abs=1e-4)

    @pytest.mark.parametrize("slip", [1e-8, 1e-6, -1e-6, 2e-6])
    def test_planes_a_millionth_of_a_millimetre_apart_do_not_upset_the_kernel(self, slip):
        """A mitre of some 90 by 18 mm pushed so little can share a few thousandths of a mm3."""
        piece = moved(BOX, "left side rail", (0.0, slip, 0.0))
        rails = (placed_named(piece, name) for name in ("front rail", "left side rail"))
        assert common_volume(*rails) < 0.01


BOX = box.build()


class TestContacts:
    @pytest.mark.parametrize("wrong", [0.01, -0.01, 0.5])
    def test_a_stand_off_that_is_not_there_is_reported_with_the_true_one(self, wrong):
        piece = stand.build()
        for index, joining in enumerate(piece.joinings):
            face = joining.faces[-1]
            stated = face.play_mm + wrong
            if stated < 0.0:
                continue
            told = replace(joining, faces=(*joining.faces[:-1], replace(face, play_mm=stated)))
            joinings = (*piece.joinings[:index], told, *piece.joinings[index + 1 :])
            (found,) = untrue_contacts(replace(piece, joinings=joinings))
            assert (found.into, found.incoming) == (joining.into, joining.incoming)
            assert found.fault is ContactFault.WRONG_STAND_OFF
            assert found.found_mm == pytest.approx(face.play_mm, abs=1e-6)
            assert found.what in found.in_words

    def test_a_part_that_stands_elsewhere_touches_nothing_as_stated(self):
        """Lifted by 0.05 mm, a tier leaves its lower shoulder; its own face is no longer there."""
        piece = moved(stand.build(), "tier 2", (0.0, 0.0, 0.05))
        found = untrue_contacts(piece)
        assert {each.incoming for each in found} == {"tier 2"}
        assert "lower shoulder" in {each.what for each in found}
        assert {each.fault for each in found} == {ContactFault.INCOMING_IS_ELSEWHERE}

    def test_a_post_that_stands_elsewhere_is_told_from_the_shelf(self):
        piece = stand.build()
        lifted = untrue_contacts(moved(piece, "post", (0.0, 0.0, 0.05)))
        shoulders = [each for each in lifted if each.what == "lower shoulder"]
        assert {each.incoming for each in shoulders} == {
            "lid",
            "tier 1",
            "tier 2",
            "tier 3",
            "tier 4",
        }
        for each in shoulders:
            assert each.fault is ContactFault.WRONG_STAND_OFF
            assert each.found_mm == pytest.approx(-0.05, abs=1e-6)

    def test_wood_that_a_joint_does_not_know_to_be_gone(self):
        """A bore of 4 mm through the shelf where it rests, made when the joint is already stated:
        pi x 4 of 80 x 6 mm2 are missing, more than a knife's line round the face."""
        post = board("post", (400.0, 80.0, 20.0), (80.0, 20.0, 0.0), UP, (-1.0, 0.0, 0.0))
        shelf = board("shelf", (80.0, 106.0, 12.0), (0.0, -100.0, 200.0))
        piece = piece_of([post, shelf], [DadoJoint(into="post", incoming="shelf")])
        hole = Bore(face=Face.FACE_SIDE, x_mm=40.0, y_mm=103.0, diameter_mm=4.0)
        bored = tuple(
            replace(each, part=replace(each.part, cuts=(hole,)))
            if each.instance == "shelf"
            else each
            for each in piece.placed
        )
        found = untrue_contacts(replace(piece, placed=bored))
        assert {each.what for each in found} == {"lower shoulder", "upper shoulder"}
        for each in found:
            assert each.fault is ContactFault.OTHER_AREA
            assert each.stated_mm2 - each.found_mm2 == pytest.approx(math.pi * 4.0, rel=3e-3)

    def test_a_face_with_another_area_than_stated(self):
        """Half a dado's lower shoulder: it says 80 x 3, and 80 x 6 meets round about."""
        post = board("post", (400.0, 80.0, 20.0), (80.0, 20.0, 0.0), UP, (-1.0, 0.0, 0.0))
        shelf = board("shelf", (80.0, 106.0, 12.0), (0.0, -100.0, 200.0))
        piece = piece_of([post, shelf], [DadoJoint(into="post", incoming="shelf")])
        (joining,) = piece.joinings
        lower, *others = joining.faces
        for taken, deep in ((100.0, 6.0), (0.0, 9.0)):
            told = replace(lower, taken_mm2=taken, deep_mm=deep)
            piece = replace(piece, joinings=(replace(joining, faces=(told, *others)),))
            (found,) = untrue_contacts(piece)
            assert found.what == "lower shoulder"
            assert found.stated_mm2 == pytest.approx(80.0 * deep - taken)
            assert found.fault is ContactFault.OTHER_AREA

    def test_nothing_there_at_all(self):
        piece = moved(stand.build(), "post", (9000.0, 0.0, 0.0))
        faults = {each.fault for each in untrue_contacts(piece) if each.into == "post"}
        assert faults <= {ContactFault.NOTHING_FACES_IT, ContactFault.WRONG_STAND_OFF}
        assert ContactFault.NOTHING_FACES_IT in faults


def rail(*cuts):
    """One rail 300 x 60 x 20 with these cuts."""
    return piece_of([board("rail", (300.0, 60.0, 20.0), (0.0, 0.0, 0.0), cuts=cuts)])


def dado(at, width=20.0, depth=8.0, face=Face.FACE_SIDE, **more):
    return Dado(face=face, lower_shoulder_mm=at, width_mm=width, depth_mm=depth, **more)


def bore(x, y, diameter=8.0, depth=None, face=Face.FACE_SIDE):
    return Bore(face=face, x_mm=x, y_mm=y, diameter_mm=diameter, depth_mm=depth)


class TestWastedCuts:
    def test_a_dado_inside_a_deeper_one_takes_nothing(self):
        (found,) = wasted_cuts(rail(dado(100.0, 20.0, 8.0), dado(105.0, 10.0, 6.0)))
        assert found.fault is CutFault.TAKES_NOTHING
        assert (found.number, found.cut) == (2, "dado")
        assert found.stated_mm3 == pytest.approx(10.0 * 6.0 * 60.0)
        assert found.found_mm3 == pytest.approx(0.0, abs=1e-6)

    def test_in_the_other_order_both_take_something(self):
        assert wasted_cuts(rail(dado(105.0, 10.0, 6.0), dado(100.0, 20.0, 8.0))) == ()

    def test_a_bore_half_off_the_wood_takes_half_of_what_its_figures_say(self):
        """Refused by its own limits, so it is put there behind the composition's back."""
        piece = rail()
        placed = piece.placed[0]
        part = replace(placed.part, cuts=(bore(150.0, 0.0, 10.0),))
        piece = replace(piece, placed=(replace(placed, part=part),))
        (found,) = wasted_cuts(piece)
        assert found.fault is CutFault.MORE_THAN_THERE_IS
        assert found.stated_mm3 == pytest.approx(math.pi * 25.0 * 20.0)
        assert found.found_mm3 == pytest.approx(math.pi * 25.0 * 20.0 / 2, rel=1e-6)
        assert "rail" in found.in_words

    def test_equal_parts_are_reported_once(self):
        cuts = (dado(100.0, 20.0, 8.0), dado(105.0, 10.0, 6.0))
        rails = [
            board(f"rail {n}", (300.0, 60.0, 20.0), (0.0, 100.0 * n, 0.0), cuts=cuts)
            for n in range(3)
        ]
        assert len(wasted_cuts(piece_of(rails))) == 1


LID_RABBET = Rabbet(
    edge=Face.BACK_EDGE, face=Face.BACK_SIDE, down_from_edge_mm=10.0, into_thickness_mm=10.0
)


MITRE = Mitre(end=Face.FAR_END, blade_tilt_deg=45.0, long_point_face=Face.FACE_SIDE)


class TestClashes:
    def test_a_bore_through_a_dados_wall(self):
        """Closed form: half the bore's circle lies beyond the wall, 8 mm deep in the dado."""
        (found,) = clashing_joints(rail(dado(100.0), bore(120.0, 30.0, 10.0)))
        assert found.volume_mm3 == pytest.approx(math.pi * 25.0 / 2 * 8.0, rel=1e-6)
        assert (found.first.kind, found.second.kind) == ("dado", "bore")
        assert "rail: the dado (cut 1) and the bore (cut 2) fight over" in found.in_words

    def test_how_far_two_cuts_must_go_from_each_other(self):
        """By hand: the bore's near side is 5 mm inside the dado, and 5 mm further none is left."""
        at = {"along": bore(120.0, 30.0, 10.0), "apart": bore(125.0, 30.0, 10.0)}
        (found,) = clashing_joints(rail(dado(100.0), at["along"]))
        assert (found.apart.axis, found.apart.by_mm) == (0, pytest.approx(5.0))
        assert clashing_joints(rail(dado(100.0), at["apart"])) == ()

    def test_two_dowel_bores_that_meet_at_right_angles(self):
        """Published: two equal cylinders whose axes cross square share 16 r3 / 3, which Archimedes
        and Tsu Ch'ung-Chih knew; so in any handbook of solids (from memory)."""
        from_side = bore(150.0, 30.0, 8.0)
        from_edge = Bore(face=Face.FACE_EDGE, x_mm=150.0, z_mm=10.0, diameter_mm=8.0, depth_mm=50.0)
        (found,) = clashing_joints(rail(from_side, from_edge))
        assert found.volume_mm3 == pytest.approx(16.0 * 4.0**3 / 3.0, rel=1e-6)

    def test_a_dowel_that_meets_a_spline(self):
        """By hand: a bore of 8 along the rail's length crosses a 4 mm trench across its end: the
        middle 4 mm of the circle, as deep along the bore as the trench is wide."""
        spline = dado(10.0, width=4.0, depth=12.0)
        dowel = Bore(face=Face.NAMED_END, y_mm=30.0, z_mm=10.0, diameter_mm=8.0, depth_mm=30.0)
        (found,) = clashing_joints(rail(spline, dowel))
        r, low = 4.0, -2.0  # the trench's bottom lies at z = 8, 2 mm below the bore's axis
        segment = r * r * math.acos(low / r) - low * math.sqrt(r * r - low * low)
        assert found.volume_mm3 == pytest.approx(segment * 4.0, rel=1e-6)

    def test_dados_from_both_sides_that_break_through(self):
        """By hand: 12 + 12 deep in 20 share 4, over 15 of their widths and the rail's 60.

        Composing refuses them, so they are put on the part afterwards.
        """
        cuts = (dado(100.0, depth=12.0), dado(105.0, depth=12.0, face=Face.BACK_SIDE))
        with pytest.raises(DesignError, match="dado 1 and dado 2"):
            rail(*cuts)
        piece = rail()
        (placed,) = piece.placed
        through = replace(placed, part=replace(placed.part, cuts=cuts))
        (found,) = clashing_joints(replace(piece, placed=(through,)))
        assert found.volume_mm3 == pytest.approx(4.0 * 15.0 * 60.0, rel=1e-9)

    def test_a_key_that_comes_through_into_the_lids_rabbet(self):
        """By hand, at 45 degrees: a slot d deep from the outside corner reaches d / sqrt 2 below
        the outer face. What reaches below 10 is a triangle of half-width and height d / sqrt 2 -
        10, all of it in the rabbet; what the tool cuts beyond the mitre is no wood."""
        slot = KeySlot(
            end=Face.FAR_END, long_point=Face.FACE_SIDE, mitre_angle_deg=45.0,
            start_mm=52.0, width_mm=4.0, depth_mm=20.0,
        )  # fmt: skip
        (found,) = clashing_joints(rail(LID_RABBET, MITRE, slot))
        assert {found.first.kind, found.second.kind} == {"rabbet", "key slot"}
        assert found.volume_mm3 == pytest.approx((20.0 / math.sqrt(2) - 10.0) ** 2 * 4.0, rel=1e-6)
        below = replace(slot, start_mm=20.0)
        assert clashing_joints(rail(LID_RABBET, MITRE, below)) == ()

    def test_the_parts_that_the_joints_are_for_are_named(self):
        post = board("post", (400.0, 80.0, 20.0), (80.0, 20.0, 0.0), UP, (-1.0, 0.0, 0.0))
        post = replace(post, part=replace(post.part, cuts=(bore(212.0, 40.0, 10.0, 12.0),)))
        shelf = board("shelf", (80.0, 106.0, 12.0), (0.0, -100.0, 200.0))
        piece = piece_of([post, shelf], [DadoJoint(into="post", incoming="shelf")])
        (found,) = clashing_joints(piece)
        assert found.part == "post"
        assert "dado for shelf" in found.in_words

    @pytest.mark.parametrize(
        "cuts",
        [
            pytest.param((LID_RABBET, MITRE), id="a rabbet runs into a mitre"),
            pytest.param(
                (LID_RABBET, replace(LID_RABBET, edge=Face.FAR_END)),
                id="two rabbets meet at a corner",
            ),
            pytest.param((dado(100.0), bore(110.0, 30.0, 6.0)), id="a screw in a dado's middle"),
            pytest.param(
                (
                    bore(110.0, 30.0, 12.0, 6.0),
                    bore(110.0, 30.0, 6.0),
                ),
                id="a counterbore",
            ),
            pytest.param(
                (
                    dado(100.0),
                    Groove(face=Face.FACE_SIDE, offset_mm=40.0, width_mm=6.0, depth_mm=6.0),
                ),
                id="a groove crosses a dado",
            ),
            pytest.param(
                (
                    dado(100.0),
                    Profile(
                        edge=Arris(Face.FACE_SIDE, Face.FACE_EDGE),
                        profile_kind=ProfileKind.CHAMFER,
                        radius_mm=3.0,
                    ),
                ),
                id="a chamfer runs past a dado",
            ),
            pytest.param((dado(100.0), dado(120.0)), id="two dados touch"),
        ],
    )
    def test_what_joinery_means_to_meet_is_no_clash(self, cuts):
        assert clashing_joints(rail(*cuts)) == ()


def uprights_and(count):
    """Two uprights and many shelves of one size."""
    pitch, high = 40.0, 40.0 * count + 40.0
    left = board("left upright", (high, 200.0, 18.0), (0.0, 200.0, 0.0), UP, FRONT)
    right = board("right upright", (high, 200.0, 18.0), (400.0, 0.0, 0.0), UP, BACK)
    shelves = [
        board(f"shelf {n}", (376.0, 200.0, 12.0), (12.0, 0.0, 20.0 + pitch * n), RIGHT, BACK)
        for n in range(count)
    ]
    joints = [
        DadoJoint(into=upright.instance, incoming=shelf.instance)
        for shelf in shelves
        for upright in (left, right)
    ]
    return piece_of([left, right, *shelves], joints)


@pytest.mark.parametrize("proof", PROOFS)
def test_a_hundred_shelves_pass(proof):
    assert proof(uprights_and(100)) == ()
