"""Splines or keys on every mitred corner of a piece, their figures following from the wood."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from furniture.builders.corner_figures import Band, Taken, most_keys, usual_keys, usual_spline
from furniture.builders.rules import DesignReader
from furniture.joints import (
    SLIP,
    Fit,
    Joint,
    KeyJoint,
    MitrePlane,
    SplineJoint,
    TrialCut,
    key_across,
    read_fit,
    spline_across,
)
from furniture.parts.faces import Face
from furniture.parts.part import Kin, Placed
from furniture.rules.building import LEAST_OPENING_WOOD
from furniture.rules.joinery import MOST_SPLINE
from furniture.timber.stock import Stock, Timber, read_stock
from furniture.units import REQUIRED, Given, parameters, said

USUAL_GAP_MM = 0.5
"""Room for glue below a spline, as a single one has it by default [mm]."""
MOST_KEYS = 8

Made = tuple[Placed, list[Joint]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """The first board with its mitre cut, the mitred end, both names, and what of it is free."""

    mitred: Placed
    end: Face
    names: tuple[str, str]
    plane: MitrePlane
    band: Band
    taken: tuple[Taken, ...] = ()

    @property
    def in_words(self) -> str:
        """Such as `front rail and left side rail`."""
        return " and ".join(self.names)


class AllCorners(ABC):
    """The same loose parts across every mitred corner."""

    stock: Stock
    fit: Fit | TrialCut | Given

    def made(
        self, reader: DesignReader, where: str, corners: Sequence[Corner], taken: Sequence[str]
    ) -> Iterator[Made]:
        """The parts in their places with their joints; problems are noted with the reader.

        Args:
            reader: keeps the problems.
            where: the parameter.
            corners: of the piece.
            taken: names of other instances.
        """
        timber = read_stock(reader, f"{where} stock", self.stock)
        fit = read_fit(reader, f"{where} fit", self.fit, reader.rules)
        count = self._read_count(reader, where)
        if not corners:
            reader.refuse(
                where, "all corners", "a piece with mitres", "a spline or a key crosses a mitre",
                "leave it out, or join boards by a MitreJoint",
            )  # fmt: skip
        if timber is None or count is None:
            return
        number = 1
        for corner in corners:
            before = reader.noted
            placed = list(self._at(reader, where, corner, timber, count))
            if reader.noted > before:
                return  # one corner stands for all of them
            for one in placed:
                while f"{self.noun} {number}" in taken:
                    number += 1
                part = replace(one, instance=f"{self.noun} {number}", kin=Kin(self.noun, number))
                number += 1
                yield part, [self._joint(name, part.instance, fit) for name in corner.names]

    @property
    @abstractmethod
    def noun(self) -> str:
        """What each is called."""

    @abstractmethod
    def _read_count(self, reader: DesignReader, where: str) -> int | None:
        """How many stand on each corner; none where that is wrong."""

    @abstractmethod
    def _at(
        self, reader: DesignReader, where: str, corner: Corner, timber: Timber, count: int
    ) -> Iterator[Placed]:
        """Those of one corner."""

    @abstractmethod
    def _joint(self, into: str, incoming: str, fit: Fit) -> Joint:
        """The joint of one of them with one of the two boards."""


@parameters
class Splines(AllCorners):
    """A spline across every mitred corner, as deep and as wide as the wood beside it allows.

    Args:
        stock: what they are cut from; its measured thickness is theirs.
        fit: how they go into their grooves.
    """

    stock: Stock = REQUIRED
    fit: Fit | TrialCut | Given = SLIP

    @property
    def noun(self) -> str:
        """What each is called."""
        return "spline"

    def _read_count(self, reader: DesignReader, where: str) -> int | None:
        return 1

    def _at(
        self, reader: DesignReader, where: str, corner: Corner, timber: Timber, count: int
    ) -> Iterator[Placed]:
        thickness, plane = timber.thickness_mm, corner.plane
        most = reader.rules[MOST_SPLINE] * corner.mitred.part.blank.thickness_mm
        reader.limit(
            f"{where} stock thickness", thickness, at_most=most,
            why="a spline is no thicker than a third of the part (common practice)",
        )  # fmt: skip
        if thickness > most + 1e-6:
            return
        room = usual_spline(plane, corner.band, thickness, USUAL_GAP_MM, reader.shown, reader.rules)
        if room is None:
            reader.refuse(
                where, "splines", "Keys, or thicker boards",
                f"no spline has room between {corner.in_words} with wood all round it",
                "write Keys(stock=...), or leave it out",
            )  # fmt: skip
            return
        yield spline_across(
            corner.mitred, timber, instance=self.noun, end=corner.end,
            into_each_mm=room.into_each, from_long_point_mm=room.from_long_point,
            start_mm=room.start, width_mm=room.width,
        )  # fmt: skip

    def _joint(self, into: str, incoming: str, fit: Fit) -> Joint:
        return SplineJoint(into=into, incoming=incoming, fit=fit, gap_mm=USUAL_GAP_MM)


@parameters
class Keys(AllCorners):
    """Keys across the outside of every mitred corner, spread evenly and trimmed flush.

    Args:
        stock: what they are cut from; its measured thickness is theirs.
        count: on each corner.
        fit: how they go into their slots.
    """

    stock: Stock = REQUIRED
    count: int = 2
    fit: Fit | TrialCut | Given = SLIP

    @property
    def noun(self) -> str:
        """What each is called."""
        return "key"

    def _read_count(self, reader: DesignReader, where: str) -> int | None:
        return reader.whole(
            f"{where} count", self.count, 1, MOST_KEYS, 2, "a corner has so many keys"
        )

    def _at(
        self, reader: DesignReader, where: str, corner: Corner, timber: Timber, count: int
    ) -> Iterator[Placed]:
        thickness = timber.thickness_mm
        room = usual_keys(corner.plane, corner.band, thickness, count, reader.shown, reader.rules)
        if room is None:
            self._refuse(reader, where, corner, thickness)
            return
        for start in room.starts:
            yield key_across(
                corner.mitred, timber, instance=self.noun, end=corner.end, depth_mm=room.depth,
                start_mm=start,
            )  # fmt: skip

    def _refuse(self, reader: DesignReader, where: str, corner: Corner, thickness: float) -> None:
        wood = reader.rules[LEAST_OPENING_WOOD]
        most = min(most_keys(corner.band, thickness, reader.rules), MOST_KEYS)
        why = (
            f"between {corner.in_words} {reader.least(corner.band.length)} of the corner are free, "
            f"and {reader.least(wood)} of wood stay beside each key"
        )
        if 1 <= most < self.count:
            reader.refuse(
                f"{where} count", said(self.count), f"1 to {most}", why, f"make it {most}"
            )
            return
        thinnest = corner.band.length - 2 * wood
        if 0.0 < thinnest < thickness:
            reader.limit(f"{where} stock thickness", thickness, at_most=thinnest, why=why)
            return
        reader.refuse(where, "keys", "none there", why, "leave it out")

    def _joint(self, into: str, incoming: str, fit: Fit) -> Joint:
        return KeyJoint(into=into, incoming=incoming, fit=fit)
