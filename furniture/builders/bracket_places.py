"""Where brackets and cleats stand: before a post, or against the inner faces of two uprights."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from furniture.parts.vectors import FRONT, LEFT, RIGHT, Vector
from furniture.rules import Rules
from furniture.rules.building import (
    LEAST_BRACKET_BETWEEN,
    MOST_BRACKET_BETWEEN,
    USUAL_BRACKET,
    USUAL_BRACKET_BETWEEN,
)
from furniture.rules.design import LEAST_BRACKET, MOST_BRACKET


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """A board of a post, from its left edge to its right one [mm]."""

    instance: str
    left: float
    right: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketPlace:
    """Where a bracket stands [mm].

    It is `called` so beside its tier. The middle of its back is `at` in plan, against a face of
    `instance`, and it stands out from there towards `out`. `wide` of that face is its own. A screw
    from behind passes `behind`; None where its head would show.
    """

    called: str
    instance: str
    at: tuple[float, float]
    out: Vector
    wide: float
    behind: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketReach:
    """How far a bracket may reach, why, and how far it does where nothing is said [mm]."""

    least: float
    usual: float
    most: float
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Ledge:
    """The inner faces of two uprights under a tier [mm].

    `names` are the left and the right upright, `inside` their inner faces from the left, and
    `along` from where to where the tier lies before them, from the front. They are `thickness`
    thick.
    """

    names: tuple[str, str]
    inside: tuple[float, float]
    along: tuple[float, float]
    thickness: float

    @property
    def span(self) -> float:
        """From one to the other."""
        return self.inside[1] - self.inside[0]

    @property
    def deep(self) -> float:
        """From front to back."""
        return self.along[1] - self.along[0]


def before_post(
    boards: Sequence[Board], front: float, thickness: float, count: int
) -> tuple[BracketPlace, ...]:
    """The places before a post; none in the middle where two strips meet.

    Args:
        boards: the post, or its strips, from the left.
        front: of the post, from the base's front [mm].
        thickness: of the post [mm].
        count: one in the middle, or two side by side.
    """
    first, last = boards[0], boards[-1]
    wide = first.right - first.left
    if count == 2:
        is_whole = len(boards) == 1
        off = wide / 4 if is_whole else wide / 2
        own = wide / 2 if is_whole else wide
        found = [
            ("left bracket", first, first.left + off),
            ("right bracket", last, last.right - off),
        ]
    elif len(boards) % 2 == 0:
        return ()
    else:
        middle, own = boards[len(boards) // 2], wide
        found = [("bracket", middle, (middle.left + middle.right) / 2)]
    return tuple(
        BracketPlace(
            called=called, instance=board.instance, at=(x, front), out=FRONT, wide=own,
            behind=thickness,
        )
        for called, board, x in found
    )  # fmt: skip


def before_post_reach(depth: float, rules: Rules) -> BracketReach:
    """Under a tier that stands out so far from a post [mm]."""
    return BracketReach(
        least=rules[LEAST_BRACKET] * depth,
        usual=rules[USUAL_BRACKET] * depth,
        most=rules[MOST_BRACKET] * depth,
        why="a shorter one wedges its tier up, and a longer one shows under it",
    )


def between_uprights(ledge: Ledge, count: int) -> tuple[BracketPlace, ...]:
    """The places at both ends of a tier, against the uprights.

    Args:
        ledge: where there is room.
        count: at each end: one in the middle, or two, near the front and near the back.
    """
    front, wide = ledge.along[0], ledge.deep / count
    rows = ("",) if count == 1 else ("front ", "back ")
    return tuple(
        BracketPlace(
            called=f"{side} {row}bracket", instance=name, at=(x, front + wide * (index + 0.5)),
            out=out, wide=wide, behind=None,
        )
        for side, name, x, out in zip(
            ("left", "right"), ledge.names, ledge.inside, (RIGHT, LEFT), strict=True
        )
        for index, row in enumerate(rows)
    )  # fmt: skip


def between_uprights_reach(span: float, rules: Rules) -> BracketReach:
    """Under a tier that spans so far between two uprights [mm]."""
    return BracketReach(
        least=rules[LEAST_BRACKET_BETWEEN] * span,
        usual=rules[USUAL_BRACKET_BETWEEN] * span,
        most=rules[MOST_BRACKET_BETWEEN] * span,
        why="a shorter one hardly shortens the span, and longer ones leave little of it free",
    )


def bracket_calls(count: object, has_uprights: bool) -> tuple[str, ...]:
    """What so many brackets are called beside their tier.

    Args:
        count: as the script has it.
        has_uprights: whether the tier lies between uprights.
    """
    places: tuple[BracketPlace, ...]
    many = 2 if count == 2 else 1
    if has_uprights:
        nowhere = Ledge(names=("", ""), inside=(0.0, 0.0), along=(0.0, 0.0), thickness=0.0)
        places = between_uprights(nowhere, many)
    else:
        places = before_post([Board(instance="", left=0.0, right=0.0)], 0.0, 0.0, many)
    return tuple(each.called for each in places)
