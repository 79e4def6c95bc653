"""Bad boards and wishes: every problem at once, by the name or the line that the maker wrote."""

from __future__ import annotations

from dataclasses import replace

import pytest

from exporters.command import run
from exporters.cutting import boards_answer
from furniture import (
    MUST,
    Against,
    BoardZone,
    CentredOn,
    Composition,
    CuttingWishes,
    DesignError,
    Match,
    MatchRule,
    MeasuredBoard,
    OddOne,
    PartWish,
    PlacedPart,
    SawSetUp,
    SteppedStand,
    TierRule,
    Way,
    ZoneKind,
)
from furniture.shop.boards.job import cutting_job
from furniture.shop.boards.outcome import outcome_of
from tests.models import piece_of
from tests.shop.boards.bench import THICK, THIN, board, stand, thin_board


def _problems(boards, wishes=None, saw=None):
    with pytest.raises(DesignError) as caught:
        cutting_job(stand(), boards, wishes, saw)
    return {problem.parameter: problem for problem in caught.value.problems}


def _zone(**changes):
    usual = {"x": "100 mm", "y": "20 mm", "length": "30 mm", "width": "20 mm"}
    return BoardZone(kind=ZoneKind.KNOT, **{**usual, **changes})


def test_figures_that_cannot_be_read_are_all_named():
    boards = [
        board(name="", length=1500, widths="wide", thickness=None, stock="elm burr", price="dear"),
        board(name="B", widths=[("0 mm", "190 mm"), "160 mm"], zones=[_zone(y="deep")]),
        board(name="C", lenght="1 m"),
        "a plank",
    ]
    found = _problems(boards)
    for parameter in (
        "board 1 name", "board 1 length", "board 1 widths", "board 1 thickness",
        "board 1 stock", "board 1 price", "board 2 (B) width 2", "board 2 (B) zone 1 y",
        "board 3 (C) lenght", "board 4",
    ):  # fmt: skip
        assert parameter in found
    assert "'1500 mm'" in found["board 1 length"].remedy
    assert found["board 3 (C) lenght"].remedy == "leave it out"  # its length is given too


def test_thin_boards_zones_off_the_board_and_crossing_widths_are_named_together():
    """The bad input that a maker makes with a tape: by hand, 18 < 19.7 and 19.5 < 19.7 - 0.1."""
    boards = [
        board(thickness="18 mm"),
        board(name="B", thickness="19.5 mm"),
        board(name="C", zones=[_zone(x="1490 mm"), _zone(y="190 mm", name="edge knot")]),
        board(
            name="D",
            widths=[("0 mm", "190 mm"), ("700 mm", "180 mm"), ("700 mm", "160 mm")],
        ),
        board(name="C"),
        thin_board(),
    ]
    found = _problems([*boards[:2], thin_board()])
    assert found["board 1 (A) thickness"].remedy.startswith("take a board at least 19.7 mm thick")
    assert "planed" in found["board 2 (B) thickness"].why
    with pytest.raises(DesignError) as caught:
        cutting_job(stand(), [*boards[2:5], thin_board()])
    named = " ".join(problem.parameter for problem in caught.value.problems)
    assert "board 3 (C) zones" not in named  # the second C is the one told apart by its name
    assert "widths" in named
    assert "edge knot" in named
    assert "(1490" not in named
    text = str(caught.value)
    assert "1520" in text
    assert "each name once" in text


def test_impossible_matches_and_unknown_names_are_named():
    wishes = CuttingWishes(
        parts=[PartWish(on="drawers")],
        matches=[
            Match(rule=MatchRule.IN_SEQUENCE, on=["front rail", "tier 1"], price=MUST, name="odd"),
            Match(rule=MatchRule.CENTRED_ON_FIGURE, on="lid", price=MUST, zone="fleck", name="fig"),
        ],
    )
    assert "wishes: part wish 1 (drawers) on" in _problems([board(), thin_board()], wishes)
    found = _problems([board(), thin_board()], CuttingWishes(matches=wishes.matches))
    assert set(found) == {"wishes: match 1 (odd)", "wishes: match 2 (fig)"}


def test_a_sequence_that_is_a_must_and_too_long_says_what_board_would_do():
    """By hand: 2 x 105 + 2 x 195 + 275 and 4 kerfs of 3.2 are 887.8 mm."""
    rails = ["left stub", "left side rail", "front rail", "right side rail", "right stub"]
    match = Match(rule=MatchRule.IN_SEQUENCE, on=rails, price=MUST, name="round")
    found = _problems([board(length="800 mm"), thin_board()], CuttingWishes(matches=[match]))
    (problem,) = found.values()
    assert "887.8" in problem.given
    assert problem.remedy.endswith("or give the match a price (what keeping it is worth to you) "
                                   "instead of MUST")  # fmt: skip
    cutting_job(
        stand(),
        [board(length="800 mm"), board(name="B"), thin_board()],
        CuttingWishes(matches=[replace(match, price="25 EUR")]),
    )


def test_wishes_that_cannot_be_kept_apart():
    twice = ["front rail", "left side rail"]
    wishes = CuttingWishes(
        matches=[
            Match(rule=MatchRule.IN_SEQUENCE, on=twice, price="a lot", name="one"),
            Match(rule=MatchRule.IN_SEQUENCE, on="lid", odd_one=OddOne.SMALLEST, name="two"),
            Match(rule=MatchRule.SAME_BOARD, on="tiers", price="5 EUR"),
        ],
        seconds=0,
        seed=1.5,
    )
    saw = SawSetUp(kerf="12 mm", end_trim=10)
    found = _problems([board(price="30 USD"), thin_board()], wishes, saw)
    for parameter in (
        "wishes: match 1 (one) price", "wishes: match 2 (two) on",
        "wishes: match 2 (two) odd_one", "wishes: match 3 price", "shop.saw.kerf",
        "shop.saw.end_trim", "wishes.seconds", "wishes.seed",
    ):  # fmt: skip
        assert parameter in found


def test_lines_of_a_file_are_named_by_their_numbers(tmp_path):
    path = tmp_path / "planks.csv"
    path.write_text(
        "what,board,x,y,length,width,thickness,stock\n"
        "board,A,,,1500 mm,190,19.7 mm,thick\n"
        "\n"
        "knot,B,1 mm,1 mm,5 mm,5 mm,,\n"
        "burr,A,1 mm,1 mm,5 mm,5 mm,,\n"
        "knot,A,1499 mm,1 mm,5 mm,5 mm,,\n"
        "board,A,,,1500 mm,190 mm,19.7 mm,thick\n",
        encoding="utf-8",
    )
    found = _problems(path)
    named = sorted(found)
    assert any(name.startswith("planks.csv line 2") and name.endswith("widths") for name in named)
    assert "planks.csv line 4 board" in found
    assert "planks.csv line 5 what" in found
    assert "planks.csv line 7" in found
    path.write_text(path.read_text().replace(",190,", ",190 mm,"), encoding="utf-8")
    assert any(name.startswith("planks.csv line 6") for name in _problems(path))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (None, "there is no file planks.csv"),
        ("", "no lines"),
        ("what,board,length,width,thicknes,stock\n", "thicknes"),
        ("what,board,length\n", "missing"),
    ],
)
def test_a_file_that_holds_no_boards_says_so(tmp_path, text, said):
    path = tmp_path / "planks.csv"
    if text is not None:
        path.write_text(text, encoding="utf-8")
    with pytest.raises(DesignError, match=said):
        cutting_job(stand(), path)


def test_a_bad_board_and_a_bad_design_are_refused_together(tmp_path, capsys):
    from dataclasses import replace

    from furniture import SteppedStand
    from tests.exporters.test_command import STAND

    assert isinstance(STAND, SteppedStand)
    bad = replace(STAND, base_width="20 cows")
    target = tmp_path / "out"
    code = run(bad, ["--out", str(target)], boards=[board(length=1500)])
    text = capsys.readouterr().err
    assert code == 1
    assert "base_width" in text
    assert "board 1 (A) length" in text
    assert "Traceback" not in text
    assert not target.exists()


def test_an_empty_cell_is_answered_with_a_figure_of_its_kind(tmp_path):
    """Not with the length of a rail: the stock's own thickness, in the piece's unit."""
    path = tmp_path / "boards.csv"
    path.write_text(
        "what,board,length,width,thickness,stock\nboard,A,1500 mm,,,thick\n", encoding="utf-8"
    )
    found = _problems(path)
    thickness = found["boards.csv line 2 (board 'A') thickness"]
    assert thickness.given == "nothing"
    assert "'19.7 mm'" in thickness.remedy
    assert "'150 mm'" in found["boards.csv line 2 (board 'A') widths"].remedy


def test_a_board_that_measures_its_stock_is_taken_as_it_is():
    """The remedy for a thin board, applied."""
    found = _problems([board(thickness="18 mm"), thin_board()])
    assert "at least 19.7 mm" in found["board 1 (A) thickness"].remedy
    for measured in ("19.6 mm", "19.7 mm", "20.5 mm", "21.7 mm", "27 mm"):
        outcome = outcome_of(cutting_job(stand(), [board(thickness=measured), thin_board()]))
        assert outcome.plan.unplaced == ()
        assert outcome.job.left_aside == ()


def test_a_board_a_little_thicker_is_planed_and_must_be_flat():
    """By hand: 20.5 - 19.7 is 0.8 mm, less than the 2 mm that a rough board loses."""
    outcome = outcome_of(cutting_job(stand(), [board(thickness="20.5 mm"), thin_board()]))
    (line,) = [line for line in boards_answer(outcome) if "Plane from" in line]
    assert "Plane from 20.5 to 19.7 mm" in line
    assert "A rough board loses 2 mm: this one must be flat." in line
    for measured in ("20.2 mm", "21.7 mm"):
        outcome = outcome_of(cutting_job(stand(), [board(thickness=measured), thin_board()]))
        assert "must be flat" not in "".join(boards_answer(outcome))


def test_an_inch_piece_is_answered_in_inches():
    piece = piece_of("tea_box")
    far = BoardZone(kind=ZoneKind.KNOT, x="60 in", y="1 in", length="1 in", width="1 in", name="k")
    stocks = list(dict.fromkeys(each.part.timber for each in piece.placed))
    boards = [
        MeasuredBoard(
            name=str(number), stock=timber.name, length="40 in", widths="8 in",
            thickness=f"{timber.thickness_mm} mm", zones=[far],
        )
        for number, timber in enumerate(stocks)
    ]  # fmt: skip
    with pytest.raises(DesignError) as caught:
        cutting_job(piece, boards)
    for problem in caught.value.problems:
        text = f"{problem.given} {problem.allowed} {problem.remedy}"
        assert " mm" not in text
        assert "60 in" in text
        assert "40 in" in text


def test_a_board_too_thin_is_left_aside_with_a_word_while_another_will_do():
    """By hand, for a stock of 19.7 mm: 18 mm and 19.5 mm are too thin."""
    boards = [
        board(name="A", thickness="18 mm"), board(name="B", thickness="19.5 mm"),
        board(name="C"), thin_board(),
    ]  # fmt: skip
    job = cutting_job(stand(), boards)
    assert [each.name for each in job.left_aside] == ["A", "B"]
    assert job.left_aside[0].why == "it measures 18 mm; at least 19.7 mm for 'thick'"
    outcome = outcome_of(job)
    assert {used.board for used in outcome.used} <= {"C", "T"}
    said = boards_answer(outcome)
    assert [line for line in said if "is not used" in line] == [
        f"Board {each.name} is not used: {each.why}." for each in job.left_aside
    ]


@pytest.mark.parametrize("measured", ["18.7 mm", "19.5 mm"])
def test_a_stock_unlike_all_its_boards_may_be_changed_instead(measured):
    """The remedy taken at its word: the stock is changed, and the boards are taken."""
    found = _problems([board(thickness=measured), thin_board()])
    remedy = found["board 1 (A) thickness"].remedy
    assert f"or write {measured} for 'thick' in Stock(thickness=...)" in remedy
    changed = SteppedStand(
        name="Small stand", thick=replace(THICK, thickness=measured), thin=THIN,
        base_width="260 mm", base_depth="180 mm", base_height="70 mm", post_width="80 mm",
        post_proud="24 mm",
        tiers=TierRule(
            count=2, width="220 mm", depth="110 mm", rise="120 mm", step_back_width="20 mm"
        ),
    ).build()  # fmt: skip
    cutting_job(changed, [board(thickness=measured), thin_board()])


def test_a_board_is_not_called_as_a_part_is():
    """Work sheets say `board 2`, and nobody could tell which of the two is meant."""
    parts = [
        PlacedPart(name=name, stock=THICK, length="200 mm", width="60 mm", places=places)
        for name, places in (
            ("board 1", []),
            ("board 2", [Against(side=Way.UP), CentredOn(), CentredOn(along=Way.FRONT)]),
        )
    ]
    piece = Composition(parts=parts).build()
    with pytest.raises(DesignError) as caught:
        cutting_job(piece, [board(name="2"), board(name="2a"), board(name="3")])
    (problem,) = caught.value.problems
    assert problem.parameter == "board 1 (2) name"
    assert problem.remedy == "call it '2b'"
    assert cutting_job(piece, [board(name="2b"), board(name="2a"), board(name="3")])
