"""Splines and keys of a maker's own piece: loose parts across a mitred corner and their joints."""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from furniture.builders.all_corners import AllCorners, Corner
from furniture.builders.corner_figures import Clear, SplineRoom, usual_spline
from furniture.builders.corners import all_corners, corner_between
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
    read_fit,
    spline_across,
)
from furniture.joints.relation import CannotMeet, box_in
from furniture.parts.part import Placed, kin_written
from furniture.pieces.naming import own_name_problem
from furniture.rules import Rules
from furniture.rules.building import CORNER_PART_CLEAR, GREATEST_CORNER_PART, LEAST_SPLINE_WIDTH
from furniture.rules.joinery import LEAST_KEY, LEAST_SPLINE_INTO
from furniture.timber.stock import Stock, Timber, read_stock
from furniture.units import (
    REQUIRED,
    Given,
    counted,
    figure_with_unit,
    parameters,
    range_as_text,
    said,
)

_OUT_OF_RABBETS = ", out of rabbets and grooves in which another part lies"
_IN_A_RABBET = "a rabbet or a groove of another part takes the wood there, and that part lies in it"


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
        start: from the face edge of the first board, or from its face side where it lies flat
            (default: where the rabbets and grooves of other parts end).
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
    start: Given | None = None
    fit: Fit | TrialCut | Given = SLIP
    gap: Given = "0.5 mm"

    def made(
        self, read: Read, corner: Corner | None, timber: Timber | None, fit: Fit
    ) -> tuple[Placed, list[Joint]] | None:
        deep, down, start, width, gap = read.spline(self)
        if corner is None or timber is None or math.isnan(deep + width + down + start + gap):
            return None
        mitred, end, names = corner.mitred, corner.end, corner.names
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
        return replace(spline, kin=kin_written(self.name)), [
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
        mitred, end, names = corner.mitred, corner.end, corner.names
        key = key_across(
            mitred, timber, instance=self.name, end=end, depth_mm=depth, start_mm=start
        )
        return replace(key, kin=kin_written(self.name)), [
            KeyJoint(into=name, incoming=self.name, fit=fit) for name in names
        ]


def corner_parts(
    reader: DesignReader, wanted: object, placed: Sequence[Placed], joints: Sequence[Joint]
) -> tuple[list[Placed], list[Joint]]:
    """The splines and keys in their places, and the joints that let them in.

    Args:
        reader: keeps the problems.
        wanted: several `Spline` and `Key`, or `Splines` and `Keys` for all corners.
        placed: the boards in their places.
        joints: between them; the mitres among these are where splines and keys go.
    """
    parts: list[Placed] = []
    lets_in: list[Joint] = []
    said_at: dict[str, str] = {}
    taken = [each.instance for each in placed]
    kinds = (CornerPart, AllCorners)
    entries = reader.several("corner_parts", wanted, kinds, reader.example("Keys"))
    for index, each in enumerate(entries):
        where = counted("corner part", index, getattr(each, "name", None))
        if not isinstance(each, kinds):
            reader.refuse(where, said(each), "Splines, Keys, a Spline or a Key",
                          "it strengthens a corner", f"write {reader.example('Keys')}")  # fmt: skip
            continue
        reader.names(f"{where} ", each)
        if isinstance(each, AllCorners):
            corners = all_corners(placed, joints)
            for made in each.made(reader, where, corners, taken):
                parts.append(made[0])
                lets_in.extend(made[1])
                said_at[made[0].instance] = where
            taken += [part.instance for part in parts]
            continue
        problem = own_name_problem(f"{where} name", each.name, taken, each.noun)
        if problem is not None:
            reader.take([problem])
            continue
        if not reader.is_name(f"{where} name", each.name):
            continue
        taken.append(each.name)
        corner = corner_between(reader, f"{where} between", each.between, placed, joints)
        one = _placed(reader, where, each, corner)
        if one is not None:
            parts.append(one[0])
            lets_in.extend(one[1])
            said_at[each.name] = where
    _refuse_shared_wood(reader, parts, said_at)
    return parts, lets_in


def _refuse_shared_wood(
    reader: DesignReader, parts: Sequence[Placed], said_at: Mapping[str, str]
) -> None:
    """Note every spline or key that would stand where one before it stands.

    All that cross one corner have the same axes, so the box of one in the frame of another is its
    very outline; those of other corners are far off.
    """
    for number, part in enumerate(parts):
        for before in parts[:number]:
            try:
                low, high = box_in(part, before)
            except CannotMeet:
                continue  # not square to one another: they cross other corners
            size = part.part.blank.size
            if all(low[axis] < size[axis] - 1e-6 and high[axis] > 1e-6 for axis in range(3)):
                reader.refuse(
                    f"{said_at[part.instance]} start", f"{part.instance} where {before.instance} "
                    "stands", "each in wood of its own", "two slots cannot take the same wood",
                    f"move it along the corner, clear of {before.instance} (start), or leave it "
                    "out",
                )  # fmt: skip
                break


def _placed(
    reader: DesignReader,
    where: str,
    each: CornerPart,
    corner: Corner | None,
) -> tuple[Placed, list[Joint]] | None:
    timber = read_stock(reader, f"{where} stock", each.stock)
    fit = read_fit(reader, f"{where} fit", each.fit, reader.rules)
    thickness = math.nan if timber is None else timber.thickness_mm
    read = Read(reader=reader, where=where, thickness=thickness, corner=corner)
    return each.made(read, corner, timber, fit)


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """Reads a spline's or key's figures by the mitre that it crosses, where that is known."""

    reader: DesignReader
    where: str
    thickness: float
    corner: Corner | None

    @property
    def plane(self) -> MitrePlane | None:
        """The mitre, where it is known."""
        return None if self.corner is None else self.corner.plane

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
        usual = self._usual(thickness, room)
        farthest = self._slope - (narrowest if is_flat else thickness) - clear
        down = self._length(
            "from_long_point", each.from_long_point, self._nearest(each, room, farthest), farthest,
            "the whole spline lies on the mitre, with wood between its groove and the outer face",
            None if usual is None else usual.from_long_point,
        )  # fmt: skip
        start = self._clear_mm(usual)
        wide = self.reader.peek(each.width)
        if not is_flat and wide + start > self._run >= wide:
            start = self._run - wide  # a width that is stated goes before a start that is not
        clear_at = self._clear_at(each, down + thickness, room)
        if each.start is not None:
            start = self._length(
                "start", each.start, clear_at.low,
                clear_at.high - (thickness if is_flat else narrowest),
                "the whole spline lies on the corner" + _OUT_OF_RABBETS * bool(clear_at.taken),
            )  # fmt: skip
            start = self.reader.limit(
                f"{self.where} start", start, at_least=clear_at.beyond(start), why=_IN_A_RABBET,
                given=each.start,
            )  # fmt: skip
        left = self._slope - at_least_known(down) - self.rules[CORNER_PART_CLEAR] if is_flat else (
            clear_at.end_from(at_least_known(start)) - at_least_known(start)
        )  # fmt: skip
        width = self._length(
            "width",
            each.width,
            self.rules[LEAST_SPLINE_WIDTH],
            left,
            "a spline is no wider than its mitre leaves" + _OUT_OF_RABBETS * bool(clear_at.taken),
            None if usual is None else usual.width,
        )
        deepest = math.inf
        if self.plane is not None:
            known = farthest if math.isnan(down) else down
            if math.isnan(down) and usual is not None and each.from_long_point is None:
                known = usual.from_long_point
            deepest = deepest_spline_mm(self.plane, known, room, self.rules)
        deep = self._length(
            "into_each", each.into_each, self.rules[LEAST_SPLINE_INTO], deepest,
            "wood stays between the groove and the outer face; nearer to the inner corner it may "
            "go deeper",
            None if usual is None else usual.into_each,
        )  # fmt: skip
        return deep, down, start, width, gap

    def _clear_at(self, each: Spline, down: float, gap: float) -> Clear:
        """Where a spline of a stated start is clear of what lies in rabbets so far down."""
        if each.start is None or self.corner is None:
            return Clear(taken=(), gap=gap, run=self._run)
        taken = tuple(one for one in self.corner.taken if one.from_down < down)
        return Clear(taken=taken, gap=gap, run=self._run)

    def _usual(self, thickness: float, gap: float) -> SplineRoom | None:
        """The figures to propose, which go together; none where the corner is not known."""
        if self.corner is None or thickness <= 0.0:
            return None
        corner, shown = self.corner, self.reader.shown
        return usual_spline(corner.plane, corner.band, thickness, gap, shown, self.rules)

    def _clear_mm(self, usual: SplineRoom | None) -> float:
        """Where a spline starts that is given no start [mm]: clear of what else is cut there."""
        if self.corner is None or usual is None or self.corner.plane.third_axis == 2:
            return 0.0
        return usual.start if self.corner.band.low > 0.0 else 0.0

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

    def _length(
        self,
        name: str,
        given: object,
        least: float,
        most: float,
        why: str,
        usual: float | None = None,
    ) -> float:
        """A length [mm]; where nothing has room, only what the joint itself says of it is told.

        One that was left out is told the usual one, where that has room.
        """
        if given is None and usual is not None and least <= usual <= most:
            shown = self.reader.shown
            self.reader.refuse(
                f"{self.where} {name}", "nothing", range_as_text(least, most, shown),
                f"it must be given: {why}", f"write '{figure_with_unit(usual, shown)}'",
            )  # fmt: skip
            return math.nan
        most = min(most, self.rules[GREATEST_CORNER_PART])
        if most < least:
            least, most = 0.0, self.rules[GREATEST_CORNER_PART]
        return self.reader.length(
            f"{self.where} {name}", given, at_least=least, at_most=most, why=why
        )
