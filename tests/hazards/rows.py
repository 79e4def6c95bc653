"""A design as a row: what it is, who says so, and what a fair checker says of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

from furniture.checks.check import Check, Verdict
from furniture.checks.of_piece import Setting
from furniture.pieces import Piece


class Design(Protocol):
    """What a maker's script makes."""

    def build(self) -> Piece:
        """The piece; DesignError where it cannot be made."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Danger:
    """A piece that hurts, breaks or fails, with the mildest verdict that is honest.

    `subjects` are the checks of which one must say it. `refused_over` is a word of the parameter
    that the design may be refused over instead; without it, it has to be built. `remark` tells what
    stands in for a feature that cannot be modelled.
    """

    id: str
    name: str
    build: Callable[[], Design]
    source: str
    least: Verdict
    subjects: tuple[Check, ...]
    setting: Setting
    refused_over: str = ""
    remark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sound:
    """A piece that is in order: the worst that may fairly be said, and how many cautions at most.

    A caution more than is fair is no fault yet, up to `cautions`: each is for its maker to weigh.
    """

    id: str
    name: str
    build: Callable[[], Design]
    source: str
    setting: Setting
    fair: Verdict = Verdict.OK
    cautions: int = 1
    remark: str = ""


def danger(
    id: str,
    name: str,
    least: Verdict,
    subjects: tuple[Check, ...],
    source: str,
    refused_over: str = "",
    setting: Setting | None = None,
    remark: str = "",
) -> Callable[[Callable[[], Design]], Danger]:
    """Makes a row of the function that it stands over."""

    def row(build: Callable[[], Design]) -> Danger:
        return Danger(
            id=id,
            name=name,
            build=build,
            source=source,
            least=least,
            subjects=subjects,
            refused_over=refused_over,
            setting=setting or Setting(),
            remark=remark,
        )

    return row


def sound(
    id: str,
    name: str,
    source: str,
    fair: Verdict = Verdict.OK,
    cautions: int = 1,
    setting: Setting | None = None,
    remark: str = "",
) -> Callable[[Callable[[], Design]], Sound]:
    """Makes a row of the function that it stands over."""

    def row(build: Callable[[], Design]) -> Sound:
        return Sound(
            id=id,
            name=name,
            build=build,
            source=source,
            fair=fair,
            cautions=cautions,
            setting=setting or Setting(),
            remark=remark,
        )

    return row
