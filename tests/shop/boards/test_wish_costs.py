"""What a wish costs is said where it costs something, and nothing where it costs nothing."""

from __future__ import annotations

import pytest

from exporters.cutting.record import cutting_record
from exporters.cutting.report import boards_answer
from furniture import MUST, BoardZone, CuttingWishes, Match, MatchRule, MeasuredBoard, ZoneKind
from furniture.shop.boards.job import cutting_job
from furniture.shop.boards.outcome import CuttingOutcome, outcome_of
from furniture.shop.boards.wish_costs import KEPT_OFF
from tests.shop.boards.bench import board, box, thin_board

ROUND = ("front rail", "right side rail", "back rail", "left side rail")
LID = thin_board(name="T", length="600 mm", price="10 EUR")


def planned(
    boards: tuple[MeasuredBoard, ...], *matches: Match, seconds: float = 60
) -> CuttingOutcome:
    return outcome_of(cutting_job(box(), boards, CuttingWishes(matches=matches, seconds=seconds)))


def costs(outcome: CuttingOutcome) -> dict[str, tuple[bool, int, float, bool]]:
    return {
        each.wish: (each.is_met, each.boards, each.price, each.is_certain)
        for each in outcome.wishes.costs
    }


def said(outcome: CuttingOutcome) -> str:
    return "\n".join(boards_answer(outcome))


def rails(*prices: int) -> tuple[MeasuredBoard, ...]:
    """One board for all four rails in order, and two that take two of them each, 255 and 175 mm."""
    return tuple(
        board(name=name, length=length, widths="84 mm", price=f"{price} EUR")
        for name, length, price in zip("ABC", ("900 mm", "460 mm", "460 mm"), prices, strict=True)
    )


ROUND_BOX = Match(rule=MatchRule.IN_SEQUENCE, on=ROUND, price=MUST, name="round")


def test_a_run_on_costs_the_dearer_board() -> None:
    """By hand: 40 for one board instead of 15 and 15 for two, so one board fewer."""
    outcome = planned((*rails(40, 15, 15), LID), ROUND_BOX)
    assert costs(outcome) == {"round": (True, -1, pytest.approx(10.0), True)}
    assert "Wish that costs something: round, 10 EUR more than without it." in said(outcome)
    (row,) = cutting_record(outcome)["wishes"]["costs"]
    assert (row["name"], row["price"], row["boards"], row["is_met"]) == ("round", 10.0, -1, True)


def test_where_the_long_board_is_no_dearer_the_wish_costs_nothing() -> None:
    outcome = planned((*rails(30, 15, 15), LID), ROUND_BOX)
    assert (costs(outcome), outcome.wishes.is_nothing_certain) == ({}, True)
    assert "No cheaper choice of these boards exists, with the wishes or without." in said(outcome)


def test_of_a_wish_that_is_not_met_it_is_said_what_it_would_take() -> None:
    """By hand: the same boards; 4 EUR are not worth 10 more."""
    cheap = Match(rule=MatchRule.SAME_BOARD, on=ROUND, price="4 EUR", name="alike")
    outcome = planned((*rails(40, 15, 15), LID), cheap)
    assert costs(outcome) == {"alike": (False, -1, pytest.approx(10.0), True)}
    assert "Wish not met: alike (worth 4 EUR; keeping it takes 10 EUR more)." in said(outcome)


@pytest.mark.parametrize(("pale", "price"), [("400 mm", 9.0), ("20 mm", None)])
def test_to_keep_off_a_pale_edge_costs_the_clear_board(pale: str, price: float | None) -> None:
    """The cheap board is pale over its whole length, or only at its end."""
    band = BoardZone(kind=ZoneKind.SAPWOOD, x="0 mm", y="60 mm", length=pale, width="140 mm")
    boards = (
        board(price="40 EUR"),
        thin_board(name="T", length="400 mm", price="10 EUR", zones=[band]),
        thin_board(name="V", length="600 mm", price="19 EUR"),
    )
    found = costs(planned(boards)).get(KEPT_OFF)
    assert (found and found[2]) == (price and pytest.approx(price))


def test_without_prices_nothing_is_said_for_certain() -> None:
    outcome = planned((*(board(name=n, widths="84 mm") for n in "AB"), thin_board()), ROUND_BOX)
    assert (costs(outcome), outcome.wishes.is_nothing_certain) == ({}, False)
    assert "without the wishes none was found either" in said(outcome)


def test_with_no_time_left_it_is_said_that_nothing_was_found_out() -> None:
    outcome = planned((*rails(40, 15, 15), LID), ROUND_BOX, seconds=0.02)
    assert not outcome.wishes.is_whole
    assert "there was no time to find out what the wishes cost" in said(outcome)
