"""Openings and gaps that were measured: they stand, what is not made follows, the play is true."""

from __future__ import annotations

import pytest

from exporters.job import measured_lines
from furniture import DesignError, SteppedStand
from furniture.checks.of_piece import Setting
from furniture.checks.of_piece.seasons import Hold, movements_of
from furniture.job import Say
from furniture.job.figures import Figure, Of, asked_for, measurables_of, plays_of
from furniture.job.going_on import gone_on_with
from furniture.job.job import Job
from furniture.job.template import job_template
from furniture.pieces import Piece
from furniture.solids.proof import interferences, untrue_contacts
from tests.builders.bench import a_stand
from tests.job.scenes import done, measured, size
from tests.models import piece_of

STUBS = ("left stub", "right stub")


@pytest.fixture(scope="module")
def stand() -> SteppedStand:
    return a_stand()


@pytest.fixture(scope="module")
def was(stand: SteppedStand) -> Piece:
    return stand.build()


def _refused(*asked: object) -> str:
    with pytest.raises(DesignError) as error:
        measured(*asked)  # type: ignore[arg-type]
    return str(error.value)


def _frame(piece: Piece) -> tuple[str, ...]:
    return (*(each.instance for each in piece.placed if "rail" in each.instance), *STUBS, "post")


def _opening(piece: Piece, name: str) -> tuple[float, float]:
    along, across = next(
        each.designed_mm for each in measurables_of(piece) if each.key == f"{name} opening"
    )
    return along, across


def _rooms_of_lid(piece: Piece) -> list[float]:
    """What the check of the seasons takes as the lid's gaps."""
    return [
        each.meeting.room_mm
        for each in movements_of(piece, Setting())
        if each.meeting.hold is Hold.LOOSE and "lid" in each.finding.subject
    ]


def test_the_template_has_openings_and_the_gap_of_the_post() -> None:
    text = job_template("Herb stand", {"": piece_of("herb_stand")}, "out/herb")
    assert '# "post.width gap" = "110 mm"' in text
    assert '# "lid opening" = ["' in text
    assert '# "bottom opening" = ["' in text
    assert "tier 1.length gap" not in text, "it lies in one dado, between nothing"


def test_what_goes_between_two_others_is_measured_in_its_gap(was: Piece) -> None:
    assert [each.key for each in asked_for(was, [("post", 1), ("post", 0)])] == [
        "post.width gap",
        "post.length",
    ]


def test_a_measured_gap_is_what_the_post_is_cut_to(stand: SteppedStand, was: Piece) -> None:
    wide = size(was, "post")[1] + 0.3
    now = measured(stand, {"post.width gap": wide}, STUBS)
    assert size(now.piece, "post")[1] == pytest.approx(wide, abs=1e-6)
    assert [size(now.piece, name) for name in STUBS] == [size(was, name) for name in STUBS]
    assert size(now.piece, "front rail")[0] == pytest.approx(size(was, "front rail")[0] + 0.3)
    assert not interferences(now.piece)
    assert not untrue_contacts(now.piece)


def test_a_made_frame_whose_gap_is_tenths_off_is_drawn_as_it_stands(
    stand: SteppedStand, was: Piece
) -> None:
    """No trim, no refusal: the post is cut to the gap, and nothing that is made is asked again."""
    wide, stub = size(was, "post")[1] + 0.3, size(was, "left stub")[0]
    parts = (*STUBS, "front rail")
    now = measured(stand, {"post.width gap": wide}, parts)
    assert size(now.piece, "post")[1] == pytest.approx(wide, abs=1e-6)
    assert size(now.piece, "front rail") == size(was, "front rail")
    assert now.as_they_stand == {
        (name, 0): (pytest.approx(stub), pytest.approx(stub - 0.15)) for name in STUBS
    }
    assert not interferences(now.piece)
    assert not untrue_contacts(now.piece)
    at = Figure(instance="post", axis=1, of=Of.GAP)
    going = gone_on_with(stand, Job(done=done(was, parts), measured={at: wide}))
    assert {each.instance: each.say for each in going.verdicts} == dict.fromkeys(parts, Say.AS_IS)
    told = " ".join(measured_lines(going))
    assert "length of left stub and right stub drawn as 99.85 mm (made 100 mm)" in told
    stated = measured(
        stand, {"post.width gap": wide, **{f"{name}.length": stub - 0.15 for name in STUBS}}, parts
    )
    assert stated.as_they_stand == {}, "told how it stands, nothing is taken to be so"
    assert stated.piece.placed == now.piece.placed


def test_a_gap_that_is_farther_off_than_a_frame_comes_out_asks_how_it_stands(
    stand: SteppedStand, was: Piece
) -> None:
    told = _refused(stand, {"post.width gap": size(was, "post")[1] + 4.0}, (*STUBS, "front rail"))
    for each in ("post.width gap", "left stub.length", "right stub.length", "front rail.length"):
        assert f"'{each}'" in told
    assert "4 mm too much" in told
    assert "as they stand" in told
    assert "take" not in told


def test_what_is_measured_besides_an_opening_is_not_taken_to_stand_off(
    stand: SteppedStand, was: Piece
) -> None:
    """The wide post is no matter of the frame: the base gives for it, not the glued stubs."""
    along, across = _opening(was, "lid")
    wide = size(was, "post")[1] + 0.8
    now = measured(
        stand, {"lid opening": (along + 0.8, across + 0.4), "post.width": wide}, (*STUBS, "post")
    )
    assert [size(now.piece, name) for name in STUBS] == [size(was, name) for name in STUBS]
    assert size(now.piece, "front rail")[0] == pytest.approx(size(was, "front rail")[0] + 0.8)


def test_a_done_post_stays_in_a_wider_gap_and_is_not_glued_there(
    stand: SteppedStand, was: Piece
) -> None:
    wide = size(was, "post")[1]
    now = measured(stand, {"post.width gap": wide + 0.4}, (*STUBS, "post"))
    assert size(now.piece, "post") == size(was, "post")
    plays = [
        face.play_mm
        for each in now.piece.joinings
        if each.incoming in STUBS and each.into == "post"
        for face in each.faces
    ]
    assert plays == pytest.approx([0.2] * len(plays))
    assert plays
    assert not untrue_contacts(now.piece), "what the drawing is off is stated"
    told = _refused(stand, {"post.width gap": wide - 0.4}, (*STUBS, "post"))
    assert "post is 0.4 mm too large for it" in told


def test_a_lid_cut_to_its_opening_keeps_its_play_and_the_checks_know_it(
    stand: SteppedStand, was: Piece
) -> None:
    along, across = _opening(was, "lid")
    now = measured(stand, {"lid opening": (along - 0.5, across)}, _frame(was)).piece
    assert size(now, "lid")[0] == pytest.approx(size(was, "lid")[0] - 0.5, abs=1e-6)
    assert plays_of(now) == pytest.approx(plays_of(was))
    assert _rooms_of_lid(now) == pytest.approx(_rooms_of_lid(was))
    assert not untrue_contacts(now)
    assert _opening(now, "lid") == pytest.approx((along - 0.5, across)), "drawn as it was measured"
    assert not [f for each in now.joinings for f in each.faces if f.drawn_off_mm]


@pytest.mark.parametrize("off", [-0.6, 0.8])
def test_a_done_lid_has_the_play_that_its_opening_leaves(
    stand: SteppedStand, was: Piece, off: float
) -> None:
    along, across = _opening(was, "lid")
    now = measured(stand, {"lid opening": (along, across + off)}, (*_frame(was), "lid")).piece
    assert size(now, "lid") == pytest.approx(size(was, "lid"))
    assert _opening(now, "lid") == pytest.approx((along, across + off))
    assert plays_of(now)["lid", 1] == pytest.approx(plays_of(was)["lid", 1] + off)
    assert _rooms_of_lid(now) != pytest.approx(_rooms_of_lid(was))
    assert not untrue_contacts(now)


def test_lid_and_opening_both_measured(stand: SteppedStand, was: Piece) -> None:
    (along, across), long = _opening(was, "lid"), size(was, "lid")[0]
    opening = {"lid opening": (along - 0.5, across)}
    now = measured(stand, {**opening, "lid.length": long - 0.8}, _frame(was)).piece
    assert size(now, "lid")[0] == pytest.approx(long - 0.8, abs=1e-6)
    assert plays_of(now)["lid", 0] == pytest.approx(plays_of(was)["lid", 0] + 0.3)
    told = _refused(stand, {**opening, "lid.length": along}, _frame(was))
    assert "measured 'lid opening along' and 'lid.length'" in told
    assert "lid is 0.5 mm too large for it" in told


def test_what_a_done_frame_forbids_is_refused_and_told(stand: SteppedStand, was: Piece) -> None:
    """Nothing in the script moves the bottom alone, and a lid's notch is done with it."""
    herb = piece_of("herb_stand")
    assert ("bottom", 0) in plays_of(herb)
    short = size(was, "lid")[0] - 0.5
    told = _refused(stand, {"lid.length": short}, (*_frame(was), "lid"))
    assert "too little" in told or "is done, and would need otherwise" in told


def test_the_screen_tells_the_play_of_what_stays(stand: SteppedStand, was: Piece) -> None:
    along, across = _opening(was, "lid")
    figures = [Figure(instance="lid", axis=axis, of=Of.OPENING) for axis in (0, 1)]
    job = Job(
        done=done(was, (*_frame(was), "lid")),
        measured=dict(zip(figures, (along, across - 0.6), strict=True)),
    )
    told = " ".join(measured_lines(gone_on_with(stand, job)))
    assert "lid has 1.4 mm of play there in all (designed 2 mm)" in told
    assert told.count("of play there") == 1
