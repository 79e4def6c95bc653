"""What a post and two uprights are read for alike: their tiers, height, and dados."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Protocol

from furniture.builders.base_box import BoxFigures
from furniture.builders.overall import Allowed, Overall, read_overall
from furniture.builders.rules import DesignReader, at_least_known, at_most_known, is_room
from furniture.builders.tiers import TierFigures, TierRoom, read_tiers
from furniture.builders.uprights import Uprights
from furniture.joints import Fit, read_fit
from furniture.rules.building import (
    BETWEEN_DADOS,
    GREATEST_BOX_SIDE,
    LEAST_DADO_SHARE,
    LEAST_HOUSED,
    USUAL_DADO_SHARE,
)
from furniture.rules.design import DADO_SHARE
from furniture.units import Given, said


class TiersGiven(Protocol):
    """The parameters of a stand that say where its tiers are, and how they are housed."""

    @property
    def base_depth(self) -> Given | None: ...
    @property
    def overall_height(self) -> Given | None: ...
    @property
    def overall_depth(self) -> Given | None: ...
    @property
    def post_proud(self) -> Given: ...
    @property
    def tiers(self) -> object: ...
    @property
    def dado_depth(self) -> Given | None: ...
    @property
    def fit(self) -> Fit: ...
    @property
    def fit_clearance(self) -> Given | None: ...


def read_tier_fit(reader: DesignReader, given: TiersGiven) -> Fit:
    """How the tiers go into their dados; problems are noted with the reader."""
    fit = read_fit(reader, "fit", given.fit, reader.rules)
    if given.fit_clearance is None:
        return fit
    return read_fit(reader, "fit_clearance", given.fit_clearance, reader.rules)


def base_depth_of(given: TiersGiven) -> tuple[str, Given | None]:
    """The parameter that says how deep the base is, and what it says."""
    if given.base_depth is None and given.overall_depth is not None:
        return ("overall_depth", given.overall_depth)
    return ("base_depth", given.base_depth)


def deepest_base(reader: DesignReader, given: TiersGiven) -> float | None:
    """How deep the base may become [mm]: None where its depth follows from the overall one."""
    if given.base_depth is None:
        return None
    most = reader.rules[GREATEST_BOX_SIDE]
    return most if given.overall_depth is None else min(most, reader.peek(given.overall_depth))


def stated_uprights(reader: DesignReader, given: object) -> Uprights:
    """What was written of uprights; some that are usual, noted, where it is something else."""
    if isinstance(given, Uprights):
        return given
    reader.refuse(
        "uprights", said(given), "Uprights(...)", "it says what the uprights are",
        f"write {reader.example('Uprights')}",
    )  # fmt: skip
    return Uprights(depth="120 mm")


class Carried:
    """The figures of tiers and of what carries them, whatever that is."""

    def __init__(
        self,
        *,
        reader: DesignReader,
        given: TiersGiven,
        box: BoxFigures,
        fit: Fit,
        thickness: list[float],
        clearance: list[float],
        feet: float,
    ) -> None:
        self.reader, self.given, self.box, self.fit = reader, given, box, fit
        self.thickness, self.clearance = thickness, clearance
        self.proud = self._read_proud()
        self.height = read_overall(
            reader, "overall_height", given.overall_height, feet + box.lid_top + self.proud,
            "the tiers share what base and post leave of the height",
        )  # fmt: skip

    def reach(self, behind: float) -> Overall | None:
        """The overall depth, with what lies behind the face that tiers stand out from [mm]."""
        is_told = self.given.base_depth is None and math.isnan(self.box.depth)
        reach = read_overall(
            self.reader, "overall_depth", self.given.overall_depth, behind,
            "a tier that is given no depth reaches as far forward as the stand",
        )  # fmt: skip
        return replace(reach, mm=math.nan) if reach is not None and is_told else reach

    def steps(self, room: TierRoom) -> tuple[TierFigures, ...]:
        """The tiers' figures; what they and the base come to is the overall depth, if given."""
        steps = read_tiers(self.reader, self.given.tiers, room, self.thickness, self.clearance)
        if room.reach is not None and steps:
            to_front = room.reach.rest + max(step.depth for step in steps)
            is_base = self.box.depth >= to_front
            remedy = f"leave out {'base_depth' if is_base else 'the depth of that tier'}"
            if not any(math.isnan(each) for each in (to_front, self.box.depth)):
                total = max(self.box.depth, to_front)
                room.reach.agrees(self.reader, total, f"{remedy}, which then follows")
        return steps

    def between_uprights(
        self, depths: Allowed, rises_from: float, face: float, behind: float
    ) -> tuple[TierFigures, ...]:
        """The figures of tiers that two uprights give their width.

        Args:
            depths: that they may have.
            rises_from: how high what the lowest stands over is [mm].
            face: from the base's front to the uprights' back edges [mm].
            behind: what lies behind those [mm].
        """
        room = TierRoom(
            width=None,
            depth=depths,
            lid_top=rises_from,
            base_width=self.box.width,
            face=face,
            below=0.0,
            height=self.height,
            reach=self.reach(behind),
        )
        return self.steps(room)

    def _read_proud(self) -> float:
        """How far the support stands above the top tier [mm]."""
        proud = self.reader.length(
            "post_proud",
            self.given.post_proud,
            at_least=0.0,
            at_most=600.0,
            why="the post is trimmed flush with the top tier or stands above it",
        )
        least = (self.clearance[-1] if self.clearance else 0.0) + self.reader.rules[BETWEEN_DADOS]
        if proud > 0:
            self.reader.limit(
                "post_proud",
                proud,
                at_least=at_least_known(least),
                why="less wood above the top dado is short grain; or trim flush with 0",
            )
        return proud

    def length(self, steps: tuple[TierFigures, ...]) -> float:
        """From the base's underside to the top of what carries them [mm]."""
        return (steps[-1].top if steps else math.nan) + self.proud

    def dado_depth(self, thickness: float, given_as: str, bearing: float) -> float:
        """The depth given, or a third of the thickness and what the lid's edge needs."""
        seat = at_least_known(bearing, self.reader.rules[LEAST_HOUSED])
        least = at_least_known(self.reader.rules[LEAST_DADO_SHARE] * thickness, seat)
        most = self.reader.rules[DADO_SHARE] * thickness
        why = (
            "half the thickness stays behind a dado (common practice), and what goes in is seated "
            f"{self.reader.least(self.reader.rules[LEAST_HOUSED])} deep, gaps and all"
        )
        if not is_room(
            self.reader, f"{given_as} thickness", thickness, 2 * least, why,
            lambda text: f"make it {text}, or close the lid's gap across the grain",
        ):  # fmt: skip
            least, most = self.reader.rules[LEAST_HOUSED], math.nan
        if self.given.dado_depth is not None:
            return self.reader.length(
                "dado_depth",
                self.given.dado_depth,
                at_least=least,
                at_most=at_most_known(most),
                why=why,
            )
        if math.isnan(most):
            return math.nan
        return min(most, max(least, round(thickness * self.reader.rules[USUAL_DADO_SHARE] * 2) / 2))
