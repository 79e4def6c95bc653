"""A part of a maker's own piece that turns on bought hinges, and the stay that stops it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from furniture.builders.common import Names
from furniture.builders.lid_stay import (
    Stay,
    read_opens,
    read_stay_screw,
    stay_bears_n,
    stay_note,
    stays_bought,
)
from furniture.builders.measured_hinge import (
    Hinge,
    WoodFor,
    hung_note,
    pilot_mm,
    read_hinge,
    screws_bought,
)
from furniture.builders.rules import DesignReader, at_least_known, at_most_known
from furniture.joints import HingeJoint, Leaf, barrel_side
from furniture.joints.relation import CannotMeet, over_edge
from furniture.parts.cuts import Bore
from furniture.parts.faces import WIDE_FACES, Face
from furniture.parts.part import Placed
from furniture.parts.placement import box_of
from furniture.parts.vectors import Vector, add, cross, dot, length, scaled, subtract
from furniture.pieces import Bought, Note, TurnsOpen
from furniture.rules.hinges import (
    BETWEEN_HINGES,
    GREATEST_HINGE_GAP,
    HINGE_IN,
    LEAST_HINGE_GAP,
    STAY_BELOW,
    STAY_BESIDE,
    STAY_REACH,
)
from furniture.units import (
    REQUIRED,
    Given,
    Shown,
    counted,
    figure_with_unit,
    parameters,
    said,
    word_remedy,
)


@parameters
class Hung:
    """A part of one's own piece that turns on hinges, placed as it lies closed: a gap off an edge
    of what it hangs on, flush with it where the barrels stand.

    Args:
        part: that turns.
        on: what it hangs on.
        hinge: as it was measured; all are alike.
        count: two hinges, or three.
        inset: from the end of what it hangs on to the outer end of a hinge (default: as long as
            the hinge is).
        stay: what stops it when it is open; it has one for each part that one is screwed to.
        stays_on: the parts at its sides that a stay is screwed to, one or two.
    """

    part: str = REQUIRED
    on: str = REQUIRED
    hinge: Hinge = REQUIRED
    count: int = 2
    inset: Given | None = None
    stay: Stay = field(default_factory=Stay)
    stays_on: Sequence[str] = REQUIRED


@dataclass(frozen=True, slots=True, kw_only=True)
class _Frame:
    """How the two lie closed: out to the barrels, up from the one to the other."""

    into: Placed
    turning: Placed
    out: Vector
    up: Vector
    arris: Vector
    gap: float

    @property
    def along(self) -> Vector:
        """The way along the pin about which it opens, right-handed."""
        return cross(self.up, self.out)

    @property
    def _lies_over(self) -> bool:
        """Whether it lies over what it hangs on, as a lid over a rail, and not beside it."""
        return self.turning.placement.face_towards(scaled(self.up, -1.0)) in WIDE_FACES

    @property
    def reach(self) -> Vector:
        """The way from the pin to its free edge."""
        return scaled(self.out, -1.0) if self._lies_over else self.up

    @property
    def rise(self) -> Vector:
        """The way that its free edge goes at first."""
        return self.up if self._lies_over else self.out

    @property
    def under(self) -> float:
        """Where its underside lies on its way up [mm]."""
        return self.extent(self.turning, self.rise)[0]

    def pin(self, leaf: Leaf) -> Vector:
        """The middle of the pin [mm]."""
        half = add(scaled(self.out, leaf.barrel_mm / 2), scaled(self.up, self.gap / 2))
        return add(self.arris, half)

    def extent(self, placed: Placed, way: Vector) -> tuple[float, float]:
        """From where to where a part reaches along a way [mm]."""
        low, high = box_of(placed.part.blank, placed.placement)
        first, last = dot(low, way), dot(high, way)
        return min(first, last), max(first, last)


def _frame_of(into: Placed, turning: Placed) -> _Frame | None:
    """None where they do not lie as hinges ask, which their joint tells."""
    try:
        side, over = barrel_side(into, turning), over_edge(into, turning)
    except CannotMeet:
        return None
    if side is None:
        return None
    blank, place = into.part.blank, into.placement
    point = [blank.length_mm / 2, 0.0, 0.0]
    for face in (over.edge, side):
        point[face.axis] = blank.across(face) if face.is_far else 0.0
    return _Frame(
        into=into,
        turning=turning,
        out=place.direction_to_piece(side.normal),
        up=place.direction_to_piece(over.edge.normal),
        arris=place.to_piece((point[0], point[1], point[2])),
        gap=over.off_mm,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class HungFigures:
    """A part on its hinges [mm]; `reach` and `below` place the stays' ends, `beside` on the part.

    `pilots` are the bores for the hinges' screws in what it hangs on and in it, `stay_pilots` those
    for the stays' in it and beside it.
    """

    given: Hung
    leaf: Leaf
    starts: tuple[float, ...]
    gap: float
    pilots: tuple[float, float]
    opens_deg: float
    screw: tuple[float, float]
    stay_pilots: tuple[float, float]
    bears_n: float | None
    name: str
    reach: float
    below: float
    beside: float

    @property
    def joint(self) -> HingeJoint:
        """Its hinges."""
        return HingeJoint(
            into=self.given.on, incoming=self.given.part, leaf=self.leaf, starts_mm=self.starts,
            gap_mm=self.gap, pilots_mm=self.pilots,
        )  # fmt: skip

    def _frame(self, placed: Mapping[str, Placed]) -> _Frame:
        frame = _frame_of(placed[self.given.on], placed[self.given.part])
        assert frame is not None, "it was read from these parts"
        return frame

    def _ends(self, placed: Mapping[str, Placed]) -> list[tuple[Vector, Vector]]:
        """Of each stay its end on the closed part, and the one beside it."""
        frame = self._frame(placed)
        away = dot(frame.pin(self.leaf), frame.reach) + self.reach
        ways = (frame.along, frame.reach, frame.rise)
        ends = []
        for each in self.given.stays_on:
            inner, way = _inner(frame, placed[each])
            top = min(frame.under, frame.extent(placed[each], frame.rise)[1])
            on_part = _at(ways, (inner + way * self.beside, away, frame.under))
            ends.append((on_part, _at(ways, (inner, away, top - self.below))))
        return ends

    def bored(self, placed: Sequence[Placed]) -> list[Placed]:
        """The parts with the bores for the stays' screws.

        Args:
            placed: all parts.
        """
        by_name = {each.instance: each for each in placed}
        frame, ends = self._frame(by_name), self._ends(by_name)
        down = scaled(frame.rise, -1.0)
        found = dict(by_name)
        for name, (on_part, beside) in zip(self.given.stays_on, ends, strict=True):
            _, way = _inner(frame, by_name[name])
            towards = scaled(frame.along, way)
            for instance, at, out, pilot in (
                (self.given.part, on_part, down, self.stay_pilots[0]),
                (name, beside, towards, self.stay_pilots[1]),
            ):
                found[instance] = _with_bore(found[instance], at, out, pilot, self.screw[1])
        return [found[each.instance] for each in placed]

    def opens(self, placed: Sequence[Placed]) -> TurnsOpen:
        """How it turns, and what stops it.

        Args:
            placed: all parts, where they stand in the end.
        """
        by_name = {each.instance: each for each in placed}
        frame = self._frame(by_name)
        pin = frame.pin(self.leaf)
        front = _at(
            (frame.along, frame.reach, frame.rise),
            (
                dot(pin, frame.along),
                frame.extent(frame.turning, frame.reach)[1],
                sum(frame.extent(frame.turning, frame.rise)) / 2,
            ),
        )
        turns = TurnsOpen(
            instance=self.given.part,
            hinged_to=self.given.on,
            pin=pin,
            axis=frame.along,
            opens_deg=self.opens_deg,
            stays=tuple(self._ends(by_name)),
            stay_bears_n=self.bears_n,
            front=front,
            over_mm=_stands_over(frame, placed),
        )
        return replace(turns, stay=self._bought(turns))

    def _bought(self, turns: TurnsOpen) -> Bought:
        (on_part, beside), *_ = turns.stays
        long = length(subtract(turns.opened(on_part), beside))
        return Bought(
            name=self.name,
            quantity=len(turns.stays),
            length_mm=math.floor(long),
            where=(self.given.part, *self.given.stays_on),
            note="between its screws",
        )

    def fixings(self, turns: TurnsOpen) -> list[Bought]:
        """Screws and stays; the hinges are counted off their joint.

        Args:
            turns: how it turns.
        """
        where = (self.given.part, self.given.on)
        assert turns.stay is not None, "it was made with one"
        return [
            screws_bought(self.leaf, len(self.starts), where),
            *stays_bought(turns.stay, self.screw),
        ]

    def notes(self, turns: TurnsOpen, shown: Shown) -> list[Note]:
        """How it is hung, and how its stay is fixed.

        Args:
            turns: how it turns.
            shown: the piece's unit.
        """
        where = (self.given.part, self.given.on)
        assert turns.stay is not None, "it was made with one"
        return [
            hung_note(self.leaf, self.gap, where, shown),
            stay_note(turns.stay, self.given.part, self.opens_deg, shown),
        ]


def _at(axes: tuple[Vector, Vector, Vector], place: tuple[float, float, float]) -> Vector:
    """The point so far along each of three square ways [mm]."""
    (a, b, c), (x, y, z) = axes, place
    return add(add(scaled(a, x), scaled(b, y)), scaled(c, z))


def _inner(frame: _Frame, beside: Placed) -> tuple[float, float]:
    """Where the face of a part at the side lies that looks inwards, and which way that is."""
    low, high = frame.extent(beside, frame.along)
    middle = sum(frame.extent(frame.turning, frame.along)) / 2
    return (high, 1.0) if (low + high) / 2 < middle else (low, -1.0)


def _with_bore(placed: Placed, at: Vector, out: Vector, pilot: float, deep: float) -> Placed:
    own = placed.placement.to_part(at)
    face: Face = placed.placement.face_towards(out)
    xyz = [None if axis == face.axis else round(own[axis], 9) for axis in range(3)]
    bore = Bore(
        face=face, x_mm=xyz[0], y_mm=xyz[1], z_mm=xyz[2], diameter_mm=pilot, depth_mm=deep
    )  # fmt: skip
    return replace(placed, part=replace(placed.part, cuts=(*placed.part.cuts, bore)))


def _stands_over(frame: _Frame, placed: Iterable[Placed]) -> float:
    """How far its front stands out over what it closes on [mm]; less than nothing within."""
    front = frame.extent(frame.turning, frame.reach)[1]
    reaches = [
        frame.extent(each, frame.reach)[1]
        for each in placed
        if each.instance != frame.turning.instance
        and abs(frame.extent(each, frame.rise)[1] - frame.under) < 2.0 * max(frame.gap, 0.5)
    ]
    return front - max(reaches, default=front)


def read_hung(
    reader: DesignReader, given: object, standing: Sequence[Placed], names: Names
) -> list[HungFigures]:
    """All parts that turn; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        given: `Hung` values.
        standing: the parts where they stand, as far as they could be read.
        names: of all parts.
    """
    placed = {each.instance: each for each in standing}
    found = []
    for index, each in enumerate(reader.several("hung", given, Hung, reader.example("Hung"))):
        where = counted("hung", index)
        if not isinstance(each, Hung):
            reader.refuse(
                where, said(each), "Hung(...)", "it says what turns on which hinges",
                f"write {reader.example('Hung')}",
            )  # fmt: skip
            continue
        reader.names(f"{where} ", each)
        one = _read(reader, where, each, placed, names)
        if one is not None:
            found.append(one)
    return found


def _is_known(reader: DesignReader, where: str, name: object, names: Names) -> bool:
    if isinstance(name, str) and name in names.instances:
        return True
    reader.refuse(
        where, said(name), ", ".join(names.instances), "it names one of the parts",
        word_remedy(name, names.instances),
    )  # fmt: skip
    return False


def _read(
    reader: DesignReader, where: str, given: Hung, placed: Mapping[str, Placed], names: Names
) -> HungFigures | None:
    sides = [
        str(each)
        for each in reader.several(f"{where} stays_on", given.stays_on, str, '["left side"]')
    ]
    known = [
        _is_known(reader, f"{where} {what}", each, names)
        for what, each in (
            ("part", given.part), ("on", given.on), *(("stays_on", each) for each in sides)
        )
    ]  # fmt: skip
    if not sides or len(sides) > 2:
        reader.refuse(
            f"{where} stays_on", counted_sides(len(sides)), "one part or two",
            "nothing else stops it: it would tear out its hinges as it falls back",
            "name a part at its side",
        )  # fmt: skip
        return None
    if not isinstance(given.stay, Stay):
        reader.refuse(
            f"{where} stay", said(given.stay), "Stay(...)", "it stops what turns", "leave it out"
        )
        return None
    if not all(known) or any(each not in placed for each in (given.part, given.on, *sides)):
        return None
    into, turning = placed[given.on], placed[given.part]
    frame = _frame_of(into, turning)
    if frame is None:
        reader.refuse(
            f"{where}", f"{given.part} and {given.on} as they are placed",
            f"{given.part} over an edge of {given.on}, flush with it where the barrels stand, and "
            "the grain of both along them",
            "a hinge's leaves lie in both, and its barrel before both",
            f"place {given.part} so",
        )  # fmt: skip
        return None
    gap = _read_gap(reader, where, given, frame)
    blank = turning.part.blank
    down, out = scaled(frame.up, -1.0), frame.out
    met, open_at = turning.placement.face_towards(down), turning.placement.face_towards(out)
    woods = (
        WoodFor(what=given.on, timber=into.part.timber, deep=into.part.blank.width_mm,
                wide=into.part.blank.thickness_mm),
        WoodFor(what=given.part, timber=turning.part.timber, deep=blank.across(met),
                wide=blank.across(open_at)),
    )  # fmt: skip
    leaf = read_hinge(reader, given.hinge, woods, gap, f"{where} ")
    stay = f"{where} stay."
    reader.names(stay, given.stay)
    opens = read_opens(reader, stay, given.stay)
    side = placed[sides[0]].part
    screw = read_stay_screw(reader, stay, given.stay.screw, (turning.part.timber, side.timber))
    count = reader.whole(f"{where} count", given.count, 2, 3, 2, "two hinges hold it straight")
    starts = None if leaf is None else _read_starts(reader, where, given, frame, leaf, count or 2)
    reach = math.nan
    if leaf is not None:
        reach = _read_reach(reader, where, given, frame, [placed[each] for each in sides], leaf)
    if leaf is None or starts is None or screw is None or math.isnan(opens + reach + gap):
        return None
    return HungFigures(
        given=replace(given, stays_on=tuple(sides)),
        leaf=leaf,
        starts=starts,
        gap=gap,
        pilots=(
            pilot_mm(reader, leaf.screw_mm, into.part.timber),
            pilot_mm(reader, leaf.screw_mm, turning.part.timber),
        ),
        opens_deg=opens,
        screw=screw,
        stay_pilots=(
            pilot_mm(reader, screw[0], turning.part.timber),
            pilot_mm(reader, screw[0], side.timber),
        ),
        bears_n=stay_bears_n(screw, turning.part.timber, side.timber),
        name=reader.text(f"{stay}name", given.stay.name) or "lid chain",
        reach=reach,
        below=reader.rules[STAY_BELOW],
        beside=reader.rules[STAY_BESIDE],
    )


def counted_sides(count: int) -> str:
    """How many parts are named."""
    return "nothing" if count == 0 else f"{count} parts"


def _read_gap(reader: DesignReader, where: str, given: Hung, frame: _Frame) -> float:
    """How far off it is placed [mm]; not-a-number where that is refused."""
    low, high = reader.rules[LEAST_HINGE_GAP], reader.rules[GREATEST_HINGE_GAP]
    if low - 1e-9 <= frame.gap <= high + 1e-9:
        return frame.gap
    nearest = low if frame.gap < low else high
    reader.refuse(
        where,
        f"{given.part} {figure_with_unit(max(0.0, frame.gap), reader.shown)} off {given.on}",
        f"{reader.least(low)} to {figure_with_unit(high, reader.shown)}",
        "without a gap it binds at its hinges before it closes, and a wide one shows",
        f"place {given.part} {reader.least(nearest)} off",
    )  # fmt: skip
    return math.nan


def _read_starts(
    reader: DesignReader, where: str, given: Hung, frame: _Frame, leaf: Leaf, count: int
) -> tuple[float, ...] | None:
    """Where the hinges begin along what it hangs on, the outer ones as far in at either end."""
    along = frame.into.placement.x_axis
    own, other = frame.extent(frame.into, along), frame.extent(frame.turning, along)
    low, high = max(own[0], other[0]) - own[0], min(own[1], other[1]) - own[0]
    least, between = reader.rules[HINGE_IN], reader.rules[BETWEEN_HINGES]
    most = (high - low - count * leaf.length_mm - (count - 1) * between) / 2
    why = "a leaf is let in clear of the ends, and the hinges stand apart"
    if most < least:
        room = (high - low - 2 * least - (count - 1) * between) / count
        reader.refuse(
            f"{where} hinge.leaf_length", figure_with_unit(leaf.length_mm, reader.shown),
            f"at most {reader.safe_figure(max(0.0, math.floor(room)), 0.0)}", why,
            "use shorter hinges, or make both longer",
        )  # fmt: skip
        return None
    inset = min(max(leaf.length_mm, least), most)
    if given.inset is not None:
        inset = reader.length(
            f"{where} inset", given.inset, at_least=at_least_known(least),
            at_most=at_most_known(most), why=why,
        )  # fmt: skip
    first, last = low + inset, high - inset - leaf.length_mm
    return (first, last) if count == 2 else (first, (first + last) / 2, last)


def _read_reach(
    reader: DesignReader,
    where: str,
    given: Hung,
    frame: _Frame,
    sides: Sequence[Placed],
    leaf: Leaf,
) -> float:
    """From the pin to the stays' ends [mm]: within all that they are screwed to."""
    pin = dot(frame.pin(leaf), frame.reach)
    below = reader.rules[STAY_BELOW]
    near, far = below, math.inf
    for side in (*sides, frame.turning):
        low, high = frame.extent(side, frame.reach)
        near, far = max(near, low - pin + below), min(far, high - pin - below)
    for side in sides:
        low, high = frame.extent(side, frame.rise)
        deep = min(high, frame.under) - low
        inner, way = _inner(frame, side)
        reaches = frame.extent(frame.turning, frame.along)
        is_under = reaches[0] < inner + way * reader.rules[STAY_BESIDE] < reaches[1]
        if deep < 2 * below or not is_under or far < near:
            reader.refuse(
                f"{where} stays_on", side.instance,
                f"a part at the side of {given.part}, under it and {reader.least(2 * below)} high",
                "the stay's screws stand in it and in what turns, with wood all round",
                "name another part",
            )  # fmt: skip
            return math.nan
    usual = near + reader.rules[STAY_REACH] * (far - near)
    if given.stay.reach is None:
        return usual
    return reader.length(
        f"{where} stay.reach", given.stay.reach, at_least=at_least_known(near),
        at_most=at_most_known(far), why="its screws stand clear of the ends of what they hold in",
    )  # fmt: skip
