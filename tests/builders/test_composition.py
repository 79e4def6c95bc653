"""A maker's own piece: what comes of it, and every mistake told by the name as it was written."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from furniture import (
    SLIP,
    Against,
    At,
    Bore,
    ButtJoint,
    CentredOn,
    Composition,
    DadoJoint,
    DesignError,
    EdgeProfile,
    Face,
    FlatMitreJoint,
    FlushWith,
    GrooveJoint,
    Key,
    Load,
    Notch,
    PlacedPart,
    Spline,
    Stock,
    TrialCut,
    Way,
    cut,
    join,
)
from furniture.joints import HoldBy
from furniture.parts.cuts import Channel, shapes_of
from furniture.parts.placement import box_of
from furniture.pieces import Piece, Stance, bought_parts, placed_named
from furniture.solids.proof import interferences, untrue_contacts
from models.key_rack import rack
from tests.joints.proofs import prove, volume_of

OAK = Stock(name="oak", species="white oak", thickness="18 mm", moisture="9 %")
UPRIGHT = PlacedPart(
    name="upright", stock=OAK, length="400 mm", width="120 mm", face_side=Way.RIGHT, grain=Way.UP
)
SHELF = PlacedPart(
    name="shelf",
    stock=OAK,
    length="300 mm",
    width="120 mm",
    places=[
        Against(of="upright", side=Way.RIGHT, let_in="6 mm"),
        FlushWith(of="upright", side=Way.FRONT),
        At(distance="100 mm", of="upright", side=Way.DOWN),
    ],
)


def changed(value: Any, **given: Any) -> Any:
    """The same parameters with some changed, as a maker would edit the script."""
    kept = {name: getattr(value, name) for name in value.__dataclass_fields__}
    return type(value)(**{**kept, **given})


def piece_of(*parts: PlacedPart, **given: Any) -> Piece:
    return Composition(name="try", parts=parts, **given).build()


def test_a_shelf_in_an_upright() -> None:
    """The dado is 120 x (18 + 0.3) x 6 = 13 176 mm3 of 864 000, with a clearance of 0.3 mm."""
    piece = piece_of(
        UPRIGHT, SHELF, joints=[join(DadoJoint, "shelf", into="upright", fit="0.3 mm")]
    )
    prove(piece)
    assert volume_of(piece, "upright") == pytest.approx(864000 - 13176)


@pytest.mark.parametrize(("length", "depth"), [("121 mm", 6.0), ("60 mm", 10.0), ("1 mm", 10.0)])
def test_a_housing_is_as_deep_as_what_notches_leave_of_the_part(length: str, depth: float) -> None:
    """Let in by 10 and notched by 4 over the whole upright of 120, or over some of it."""
    notch = cut(Notch, edge=Face.NAMED_END, start="0 mm", length=length, depth="4 mm")
    let_in = Against(of="upright", side=Way.RIGHT, let_in="10 mm")
    shelf = changed(SHELF, width="160 mm", places=[let_in, *SHELF.places[1:]], cuts=[notch])
    upright = changed(UPRIGHT, stock=changed(OAK, name="thick oak", thickness="24 mm"))
    piece = piece_of(upright, shelf, joints=[join(DadoJoint, "shelf", into="upright")])
    assert untrue_contacts(piece) == interferences(piece) == ()
    made = placed_named(piece, "upright").part
    (dado,) = shapes_of(made.cuts, made.blank, Channel)
    assert dado.depth_mm(made.blank) == pytest.approx(depth)


def test_a_fit_by_name_by_trial_and_by_text_all_reach_the_joint() -> None:
    """Slip on 18 mm is 0.1 + 0.045 = 0.145, to 0.01; the trial is 0.2 wider."""
    for fit, clearances in (
        (SLIP, (0.14, 0.15)),
        (TrialCut(housing="12.2 mm", stock="12 mm"), (0.2,)),
        ("0.05 mm", (0.05,)),
    ):
        joints = [join(DadoJoint, "shelf", into="upright", fit=fit)]
        found = piece_of(UPRIGHT, SHELF, joints=joints).joinings[0].clearance_mm
        assert any(math.isclose(found, each) for each in clearances)


def test_the_whole_stands_with_its_left_front_lower_corner_at_the_origin() -> None:
    hung = changed(
        SHELF,
        places=[
            Against(of="upright", side=Way.LEFT),
            FlushWith(of="upright", side=Way.FRONT, proud="30 mm"),
            FlushWith(of="upright", side=Way.DOWN, proud="5 mm"),
        ],
    )
    piece = piece_of(UPRIGHT, hung)
    assert placed_named(piece, "shelf").placement.origin == pytest.approx((0.0, 0.0, 0.0))


def test_a_level_board_carries_loads_where_nothing_stands_over_it() -> None:
    """The shelf is let in 6: its clear top runs from the upright's face at 18 to 312."""
    load = Load(on="shelf", mass="1 kg", footprint=("50 mm", "50 mm"), centre_height="40 mm")
    piece = piece_of(
        UPRIGHT, SHELF, joints=[join(DadoJoint, "shelf", into="upright")], loads=[load]
    )
    (surface,) = piece.surfaces
    assert (surface.low[0], surface.high[0]) == pytest.approx((18.0, 312.0))
    assert surface.top_mm == pytest.approx(118.0)


def test_a_cut_by_name_is_a_cut_in_the_wood() -> None:
    """A bore of 10 right through 18: 450 pi mm3."""
    bored = changed(
        SHELF, cuts=[cut(Bore, face=Face.FACE_SIDE, x="50 mm", y="2 1/2 in", diameter="10 mm")]
    )
    piece = piece_of(UPRIGHT, bored, joints=[join(DadoJoint, "shelf", into="upright")])
    assert volume_of(piece, "shelf") == pytest.approx(300 * 120 * 18 - math.pi * 25 * 18)


def frame(**given: Any) -> Piece:
    """Two rails of a frame, 300 and 200 long, 40 wide and 18 thick, mitred at the corner."""
    bottom = PlacedPart(name="bottom", stock=OAK, length="300 mm", width="40 mm")
    stile = PlacedPart(
        name="stile",
        stock=OAK,
        length="200 mm",
        width="40 mm",
        grain=Way.BACK,
        places=[FlushWith(of="bottom", side=side) for side in (Way.RIGHT, Way.FRONT, Way.UP)],
    )
    mitre = join(FlatMitreJoint, "stile", into="bottom")
    return piece_of(bottom, stile, joints=[mitre], **given)


SPLINES = Stock(name="splines", species="white oak", thickness="4 mm", moisture="9 %")
SPLINE = Spline(
    stock=SPLINES,
    between=("bottom", "stile"),
    into_each="8 mm",
    from_long_point="16 mm",
    width="28 mm",
    start="7 mm",
)


def test_a_spline_and_a_key_across_a_mitred_corner() -> None:
    """Spline groove (28 + 1) x 4.11 x 8.5 = 1 013.115, key slot 12 x 12 / 2 x 4.11 = 295.92."""
    key = Key(stock=SPLINES, between=("stile", "bottom"), depth="12 mm", start="7 mm")
    piece = frame(corner_parts=[SPLINE, key])
    prove(piece)
    left = 216000 - 14400 - 1013.115 - 295.92
    assert volume_of(piece, "bottom") == pytest.approx(left)
    assert len(piece.joinings) == 5


@pytest.mark.parametrize(
    ("corner_part", "parameter"),
    [
        (changed(SPLINE, between=("bottom", "top")), "corner part 1 (spline) between"),
        (changed(SPLINE, between="bottom"), "corner part 1 (spline) between"),
        (changed(SPLINE, into_each=8), "corner part 1 (spline) into_each"),
        (changed(SPLINE, into_each="20 mm"), "corner part 1 (spline) into_each"),
        (changed(SPLINE, name="stile"), "corner part 1 (stile) name"),
        (changed(SPLINE, stock="oak"), "corner part 1 (spline) stock"),
        (
            Key(stock=SPLINES, between=("bottom", "stile"), depth="9 mm"),
            "corner part 1 (key) start",
        ),
        ("a spline", "corner_parts"),
    ],
)
def test_a_corner_part_that_cannot_be_is_named(corner_part: Any, parameter: str) -> None:
    with pytest.raises(DesignError) as caught:
        frame(corner_parts=[corner_part] if corner_part != "a spline" else corner_part)
    assert caught.value.problems[0].parameter == parameter


MISTAKES: list[tuple[dict[str, Any], str]] = [
    ({"parts": []}, "parts"),
    ({"parts": [UPRIGHT, "shelf"]}, "part 2"),
    ({"parts": [UPRIGHT, UPRIGHT]}, "part 2 (upright) name"),
    ({"parts": [UPRIGHT, changed(SHELF, name="")]}, "part 2 name"),
    ({"parts": [UPRIGHT, PlacedPart(name="a", stok=OAK)]}, "part 2 (a) stok"),
    ({"parts": [UPRIGHT, changed(SHELF, length=300)]}, "shelf: length"),
    ({"parts": [UPRIGHT, changed(SHELF, width="-5 mm")]}, "shelf: width"),
    ({"parts": [UPRIGHT, changed(SHELF, stock=None)]}, "shelf: stock"),
    ({"parts": [UPRIGHT, changed(SHELF, grain=Way.UP)]}, "shelf: grain"),
    ({"parts": [UPRIGHT, changed(SHELF, grain="right")]}, "shelf: grain"),
    ({"parts": [UPRIGHT, changed(SHELF, places=SHELF.places[:2])]}, "shelf: places"),
    ({"parts": [UPRIGHT, changed(SHELF, cuts=[Bore])]}, "shelf: cut 1"),
    (
        {"parts": [UPRIGHT, changed(SHELF, cuts=[cut(Bore, face=Face.FACE_SIDE)])]},
        "shelf: cut 1 (bore) diameter",
    ),
    ({"joints": [DadoJoint]}, "joint 1"),
    ({"joints": [join(DadoJoint, "shelf", into="post")]}, "joint 1 (dado of shelf in post)"),
    (
        {"joints": [join(DadoJoint, "shelf", into="upright", bottom_gap=1)]},
        "joint 1 (dado of shelf in upright) bottom_gap",
    ),
    (
        {"joints": [join(DadoJoint, "shelf", into="upright", botom_gap="1 mm")]},
        "joint 1 (dado of shelf in upright) botom_gap",
    ),
    (
        {"joints": [join(DadoJoint, "shelf", into="upright", fit="tight")]},
        "joint 1 (dado of shelf in upright) fit",
    ),
    ({"joints": [join(GrooveJoint, "shelf", into="upright")]}, "groove of shelf in upright"),
    ({"profiles": [EdgeProfile(on="self")]}, "profile 1 (self) on"),
    ({"loads": [Load(on="upright", mass="1 kg")]}, "load 1 on"),
    ({"stance": "floating"}, "stance"),
    ({"shown_in": "mm"}, "shown_in"),
    ({"name": ""}, "name"),
]


@pytest.mark.parametrize(("given", "parameter"), MISTAKES)
def test_a_mistake_is_named_as_it_was_written(given: dict[str, Any], parameter: str) -> None:
    with pytest.raises(DesignError) as caught:
        Composition(**{"name": "try", "parts": [UPRIGHT, SHELF], **given}).build()
    named = [each.parameter for each in caught.value.problems]
    assert any(each.startswith(parameter) for each in named), named


def test_all_mistakes_are_told_at_once() -> None:
    with pytest.raises(DesignError) as caught:
        piece_of(
            changed(UPRIGHT, length="long"),
            changed(SHELF, width=120),
            joints=[join(DadoJoint, "shelf", into="upright", bottom_gap=1)],
            loads=[Load(on="nothing")],
        )
    named = " ".join(each.parameter for each in caught.value.problems)
    for parameter in ("upright: length", "shelf: width", "bottom_gap", "load 1 on"):
        assert parameter in named


def test_the_key_rack_fits_and_hangs() -> None:
    piece = rack.build()
    prove(piece)
    assert piece.stance is Stance.WALL
    assert [each.kind for each in piece.joinings] == ["groove", *["butt"] * 3, "hanging cleat"]


def test_parameters_are_kept_as_written() -> None:
    """Kinds by name, lengths as typed: what piece.json shows."""
    kept = rack.build().parameters["joints"][0]
    assert kept["kind"] == "GrooveJoint"
    assert kept["given"]["stop"] == "15 mm"


def test_the_key_racks_shelf_follows_its_measured_thickness() -> None:
    """A shelf planed to 11.2 gets a groove 11.2 + 0.1 + 0.0025 x 11.2 = 11.33 wide."""
    thinner = Stock(name="thin", species="black walnut", thickness="11.2 mm", moisture="8 %")
    parts = [
        changed(each, stock=thinner) if each.name in ("shelf", "peg rail") else each
        for each in rack.parts
    ]
    piece = changed(rack, parts=parts).build()
    prove(piece)
    groove = placed_named(piece, "back").part.cuts[0]
    assert replace(groove).width_mm == pytest.approx(11.33)  # type: ignore[attr-defined]


def test_a_butt_that_does_not_touch_is_refused_by_name() -> None:
    apart = changed(
        SHELF,
        places=[
            Against(of="upright", side=Way.RIGHT, gap="1 mm"),
            FlushWith(of="upright", side=Way.FRONT),
            CentredOn(of="upright", along=Way.UP),
        ],
    )
    with pytest.raises(DesignError) as caught:
        piece_of(UPRIGHT, apart, joints=[join(ButtJoint, "shelf", into="upright")])
    assert caught.value.problems[0].parameter == "butt of shelf in upright"


def test_a_relation_that_names_no_part_is_to_the_first() -> None:
    """The shelf's places with `of` left out are where they were with it."""
    plain = changed(
        SHELF,
        places=[
            Against(side=Way.RIGHT, let_in="6 mm"),
            FlushWith(side=Way.FRONT),
            At(distance="100 mm", side=Way.DOWN),
        ],
    )
    joints = [join(DadoJoint, "shelf", into="upright")]
    said, unsaid = piece_of(UPRIGHT, SHELF, joints=joints), piece_of(UPRIGHT, plain, joints=joints)
    assert said.placed == unsaid.placed
    assert said.references == unsaid.references


def test_the_first_part_cannot_stand_by_itself() -> None:
    with pytest.raises(DesignError) as caught:
        piece_of(changed(UPRIGHT, places=[CentredOn()]), SHELF)
    assert "upright: place 1 of" in [each.parameter for each in caught.value.problems]


def test_on_a_wall_a_part_faces_the_room_unless_it_says_otherwise() -> None:
    plain = PlacedPart(name="board", stock=OAK, length="300 mm", width="120 mm")
    hung = piece_of(plain, stance=Stance.WALL).placed[0].placement
    lying = piece_of(plain).placed[0].placement
    assert (hung.z_axis, hung.x_axis) == ((0.0, -1.0, 0.0), (1.0, 0.0, 0.0))
    assert lying.z_axis == (0.0, 0.0, 1.0)


def test_the_key_racks_pegs_and_screws_are_bought() -> None:
    """Six pegs and two screws, as the script says; the rows are centred on their parts."""
    assert [(each.name, each.quantity, each.where) for each in bought_parts(rack.build())] == [
        ("walnut peg", 6, ("peg rail",)),
        ("countersunk wood screw", 2, ("wall cleat",)),
    ]
    bores = [c.x_mm for c in placed_named(rack.build(), "wall cleat").part.cuts if c.kind == "bore"]
    assert bores == pytest.approx([40.0, 300.0])


def test_a_groove_stopped_by_one_figure_at_both_ends() -> None:
    """The same groove as with a figure for each end, and that figure refused by its own name."""
    both = join(GrooveJoint, "shelf", into="back", stop="14 mm", is_glued=True)
    each = join(
        GrooveJoint,
        "shelf",
        into="back",
        stop_from_named_end="14 mm",
        stop_from_far_end="14 mm",
        is_glued=True,
    )
    first, second = (
        changed(rack, joints=[joint, *rack.joints[1:]]).build() for joint in (both, each)
    )
    assert first.placed == second.placed
    with pytest.raises(DesignError) as caught:
        changed(rack, joints=[join(GrooveJoint, "shelf", into="back", stop="16 mm")]).build()
    assert {p.parameter for p in caught.value.problems} == {"groove of shelf in back: stop"}


def test_the_wall_cleat_is_anchored_by_its_two_screws() -> None:
    """Right through it into the wall behind; what the wall bears is not known."""
    piece = rack.build()
    (anchor,) = piece.anchors
    cleat = placed_named(piece, "wall cleat")
    back = box_of(cleat.part.blank, cleat.placement)[1][1]
    assert anchor.instance == "wall cleat"
    for screw in anchor.fasteners:
        assert screw.axis == pytest.approx((0.0, 1.0, 0.0))
        assert screw.at[1] == pytest.approx(back)
        assert screw.incoming_mm == pytest.approx(cleat.part.blank.thickness_mm)
        assert (screw.by, screw.pull_n, screw.side_n) == (HoldBy.SCREW, None, None)
    assert len({round(screw.at[0], 3) for screw in anchor.fasteners}) == 2
