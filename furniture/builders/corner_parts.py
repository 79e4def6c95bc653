"""Splines and keys of a maker's own piece: loose parts across a mitred corner and their joints."""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from furniture.builders.rules import DesignReader, at_least_known
from furniture.joints import (
    SLIP,
    Fit,
    Joint,
    KeyJoint,
    MitrePlane,
    SplineJoint,
    TrialCut,
    deepest_key_mm,
    deepest_spline_mm,
    key_across,
    nearest_spline_mm,
    planes_on,
    read_fit,
    spline_across,
)
from furniture.parts.cuts import Slope, shapes_of
from furniture.parts.faces import ENDS, Face
from furniture.parts.part import Placed
from furniture.pieces.naming import own_name_problem
from furniture.rules import Rules
from furniture.rules.building import CORNER_PART_CLEAR, GREATEST_CORNER_PART, LEAST_SPLINE_WIDTH
from furniture.rules.joinery import LEAST_KEY, LEAST_SPLINE_INTO
from furniture.timber.stock import Stock, Timber, read_stock
from furniture.units import REQUIRED, Given, parameters, said

Corner = tuple[Placed, Face, tuple[str, str]]
"""The first board with its mitre cut, the mitred end, and the names of both boards."""


class CornerPart(ABC):
    """A loose part that strengthens a mitred corner."""

    noun: ClassVar[str]

    name: str
    stock: Stock
    between: tuple[str, str]
    fit: Fit | TrialCut | Given

    @abstractmethod
    def made(
        self, read: Read, corner: Corner | None, timber: Timber | None, fit: Fit
    ) -> tuple[Placed, list[Joint]] | None:
        """The part in its place and its joints; every figure is read even where nothing is made."""


@parameters
class Spline(CornerPart):
    """A spline across a mitred corner of two boards, half of it in each.

    Args:
        name: its own name in the piece.
        stock: what it is cut from; its measured thickness is the spline's.
        between: the two boards; figures are struck from the first.
        into_each: how far it goes into each board.
        from_long_point: from the mitre's long point down to the spline.
        width: along the mitre's sharp line, or down the mitre where the boards lie flat.
        start: from the face edge of the first board, or from its face side where it lies flat.
        fit: how it goes into its grooves.
        gap: below it, and at its ends where the groove is stopped.
    """

    noun = "spline"

    name: str = "spline"
    stock: Stock = REQUIRED
    between: tuple[str, str] = REQUIRED
    into_each: Given = REQUIRED
    from_long_point: Given = REQUIRED
    width: Given = REQUIRED
    start: Given = "0 mm"
    fit: Fit | TrialCut | Given = SLIP
    gap: Given = "0.5 mm"

    def made(
        self, read: Read, corner: Corner | None, timber: Timber | None, fit: Fit
    ) -> tuple[Placed, list[Joint]] | None:
        deep, down, start, width, gap = read.spline(self)
        if corner is None or timber is None or math.isnan(deep + width + down + start + gap):
            return None
        mitred, end, names = corner
        spline = spline_across(
            mitred,
            timber,
            instance=self.name,
            end=end,
            into_each_mm=deep,
            from_long_point_mm=down,
            start_mm=start,
            width_mm=width,
        )
        return spline, [
            SplineJoint(into=name, incoming=self.name, fit=fit, gap_mm=gap) for name in names
        ]


@parameters
class Key(CornerPart):
    """A key let into a slot across the outside of a mitred corner, and trimmed flush.

    Args:
        name: its own name in the piece.
        stock: what it is cut from; its measured thickness is the key's.
        between: the two boards; figures are struck from the first.
        depth: of the slot, in from the outside corner.
        start: from the face edge of the first board, or from its face side where it lies flat.
        fit: how it goes into its slot.
    """

    noun = "key"

    name: str = "key"
    stock: Stock = REQUIRED
    between: tuple[str, str] = REQUIRED
    depth: Given = REQUIRED
    start: Given = REQUIRED
    fit: Fit | TrialCut | Given = SLIP

    def made(
        self, read: Read, corner: Corner | None, timber: Timber | None, fit: Fit
    ) -> tuple[Placed, list[Joint]] | None:
        depth, start = read.key(self)
        if corner is None or timber is None or math.isnan(depth + start):
            return None
        mitred, end, names = corner
        key = key_across(
            mitred, timber, instance=self.name, end=end, depth_mm=depth, start_mm=start
        )
        return key, [KeyJoint(into=name, incoming=self.name, fit=fit) for name in names]


def corner_parts(
    reader: DesignReader, wanted: object, placed: Sequence[Placed], joints: Sequence[Joint]
) -> tuple[list[Placed], list[Joint]]:
    """The splines and keys in their places, and the joints that let them in.

    Args:
        reader: keeps the problems.
        wanted: several `Spline` and `Key`.
        placed: the boards in their places.
        joints: between them; the mitres among these are where splines and keys go.
    """
    parts: list[Placed] = []
    lets_in: list[Joint] = []
    taken = [each.instance for each in placed]
    entries = reader.several("corner_parts", wanted, (Spline, Key), "Spline(...)")
    for index, each in enumerate(entries):
        where = f"corner_parts[{index}]"
        if not isinstance(each, CornerPart):
            reader.refuse(where, said(each), "a Spline or a Key", "it strengthens a corner",
                          "write Spline(...) or Key(...)")  # fmt: skip
            continue
        reader.names(f"{where}.", each)
        problem = own_name_problem(f"{where}.name", each.name, taken, each.noun)
        if problem is not None:
            reader.take([problem])
            continue
        if not reader.is_name(f"{where}.name", each.name):
            continue
        taken.append(each.name)
        corner = _corner(reader, f"{where}.between", each.between, placed, joints)
        made = _placed(reader, where, each, corner)
        if made is not None:
            parts.append(made[0])
            lets_in.extend(made[1])
    return parts, lets_in


def _corner(
    reader: DesignReader,
    parameter: str,
    between: object,
    placed: Sequence[Placed],
    joints: Sequence[Joint],
) -> Corner | None:
    """The corner that is meant; what is none is noted."""
    mitres = [joint for joint in joints if joint.mitres_ends]
    pairs = [(joint.into, joint.incoming) for joint in mitres]
    given = between if isinstance(between, (tuple, list)) else ()
    names = tuple(each for each in given if isinstance(each, str))
    by_name = {each.instance: each for each in placed}
    for joint in mitres:
        if (
            set(names) == {joint.into, joint.incoming}
            and len(names) == 2
            and set(names) <= set(by_name)
        ):
            worked = joint.work(by_name[joint.into], by_name[joint.incoming])
            first = by_name[names[0]]
            cuts = worked.into_cuts if names[0] == joint.into else worked.incoming_cuts
            slopes = shapes_of(cuts, first.part.blank, Slope)
            ends = [slope.face for slope in slopes if slope.face in ENDS]
            if not ends:
                return None  # the mitre's own problems are told when the piece is composed
            cut_board = replace(first, part=replace(first.part, cuts=(*first.part.cuts, *cuts)))
            return cut_board, ends[0], (names[0], names[1])
    reader.refuse(
        parameter, said(between), ", ".join(map(str, pairs)) or "two boards joined by a mitre",
        "a spline or a key crosses a mitre", f"write {pairs[0]}" if pairs else "join them first",
    )  # fmt: skip
    return None


def _placed(
    reader: DesignReader,
    where: str,
    each: CornerPart,
    corner: Corner | None,
) -> tuple[Placed, list[Joint]] | None:
    timber = read_stock(reader, f"{where}.stock", each.stock)
    fit = read_fit(reader, f"{where}.fit", each.fit, reader.rules)
    thickness = math.nan if timber is None else timber.thickness_mm
    read = Read(reader=reader, where=where, thickness=thickness, plane=_plane(corner))
    return each.made(read, corner, timber, fit)


def _plane(corner: Corner | None) -> MitrePlane | None:
    if corner is None:
        return None
    return next((each for each in planes_on(corner[0]) if each.end is corner[1]), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """Reads a spline's or key's figures by the mitre that it crosses, where that is known."""

    reader: DesignReader
    where: str
    thickness: float
    plane: MitrePlane | None

    def key(self, each: Key) -> tuple[float, float]:
        """Its depth and start [mm]."""
        clear = self.rules[CORNER_PART_CLEAR]
        deepest = math.inf if self.plane is None else deepest_key_mm(self.plane, self.rules)
        depth = self._length(
            "depth", each.depth, self.rules[LEAST_KEY], deepest,
            "the slot must not come through the inner corner",
        )  # fmt: skip
        start = self._length(
            "start", each.start, clear, self._run - at_least_known(self.thickness) - clear,
            "the whole key lies on the corner, with wood on both sides of it",
        )  # fmt: skip
        return depth, start

    def spline(self, each: Spline) -> tuple[float, float, float, float, float]:
        """How far into each board, from the long point, its start, width and gap [mm]."""
        is_flat = self.plane is not None and self.plane.third_axis == 2
        thickness = at_least_known(self.thickness)
        clear, narrowest = self.rules[CORNER_PART_CLEAR], self.rules[LEAST_SPLINE_WIDTH]
        gap = self._length("gap", each.gap, 0.0, 3.0, "room for glue")
        room = at_least_known(gap)
        farthest = self._slope - (narrowest if is_flat else thickness) - clear
        down = self._length(
            "from_long_point", each.from_long_point, self._nearest(each, room, farthest), farthest,
            "the whole spline lies on the mitre, with wood between its groove and the outer face",
        )  # fmt: skip
        start = self._length(
            "start", each.start, 0.0, self._run - (thickness if is_flat else narrowest),
            "the whole spline lies on the corner",
        )  # fmt: skip
        left = self._slope - at_least_known(down) - self.rules[CORNER_PART_CLEAR] if is_flat else (
            self._run - at_least_known(start)
        )  # fmt: skip
        width = self._length(
            "width",
            each.width,
            self.rules[LEAST_SPLINE_WIDTH],
            left,
            "a spline is no wider than its mitre leaves",
        )
        deepest = math.inf
        if self.plane is not None and not math.isnan(down):
            deepest = deepest_spline_mm(self.plane, down, room, self.rules)
        deep = self._length(
            "into_each", each.into_each, self.rules[LEAST_SPLINE_INTO], deepest,
            "wood stays between the groove and the outer face; nearer to the inner corner it may "
            "go deeper",
        )  # fmt: skip
        return deep, down, start, width, gap

    def _nearest(self, each: Spline, gap: float, farthest: float) -> float:
        """The least distance from the long point [mm]; one that is too small is told a distance
        that serves the depth too, where there is one.
        """
        if self.plane is None:
            return self.rules[CORNER_PART_CLEAR]
        any_depth = nearest_spline_mm(self.plane, gap, self.rules)
        its_own = nearest_spline_mm(self.plane, gap, self.rules, self.reader.peek(each.into_each))
        is_short = self.reader.peek(each.from_long_point) < any_depth
        return its_own if is_short and any_depth <= its_own <= farthest else any_depth

    @property
    def rules(self) -> Rules:
        """The shop's own limits."""
        return self.reader.rules

    @property
    def _run(self) -> float:
        return math.inf if self.plane is None else self.plane.run_mm

    @property
    def _slope(self) -> float:
        return math.inf if self.plane is None else self.plane.slope_mm

    def _length(self, name: str, given: object, least: float, most: float, why: str) -> float:
        """A length [mm]; where nothing has room, only what the joint itself says of it is told."""
        most = min(most, self.rules[GREATEST_CORNER_PART])
        if most < least:
            least, most = 0.0, self.rules[GREATEST_CORNER_PART]
        return self.reader.length(
            f"{self.where}.{name}", given, at_least=least, at_most=most, why=why
        )
