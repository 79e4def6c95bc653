"""Short words for boards, joints and loads, so that a design fits on a few lines.

A board is given as the block that it fills: its low corner, its size and the way of its grain, in
millimetres, x to the right, y to the back, z up.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from furniture import (
    ButtJoint,
    Composition,
    DadoJoint,
    DowelledButtJoint,
    FlushWith,
    GrooveJoint,
    HalfLapJoint,
    Key,
    Load,
    LoadKind,
    MitreJoint,
    PlacedPart,
    RabbetJoint,
    Sawn,
    Screw,
    Spline,
    Stance,
    Stock,
    StoppedDadoJoint,
    Way,
    cut,
    join,
    row_of,
)
from furniture.builders.composition import JointWritten
from furniture.builders.own_parts import CutWritten, RowWritten
from furniture.joints.joint import HoldBy
from furniture.parts.cuts import Bore
from furniture.parts.faces import Face
from tests.hazards.fastened import FastenedButt

Triple = tuple[float, float, float]
X, Y, Z = Way.RIGHT, Way.BACK, Way.UP
PLY = "birch plywood 18 mm"
"""Sheet of any thickness: the table has two, and their figures a millimetre are much the same."""
PINE, OAK, RED_OAK = "white pine", "white oak", "red oak"
_LOW = (Way.LEFT, Way.FRONT, Way.DOWN)
_WAYS = (Way.RIGHT, Way.FRONT, Way.UP)


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """A board in its block [mm]; its thickness is the least side across its grain, or as named."""

    name: str
    wood: str
    at: Triple
    size: Triple
    grain: Way
    thin: Way | None
    cuts: Sequence[CutWritten | RowWritten]
    moisture: str
    sawn: Sawn

    def part(self, first: Board | None) -> PlacedPart:
        """As a maker's part, flush with the first board or so much beside it."""
        across = [axis for axis in range(3) if axis != self.grain.axis]
        thin = min(across, key=lambda axis: self.size[axis])
        if self.thin is not None:
            thin = self.thin.axis
        (wide,) = (axis for axis in across if axis != thin)
        thickness = self.size[thin]
        return PlacedPart(
            name=self.name,
            stock=Stock(
                name=f"{self.wood}, {thickness:g}, {self.moisture}",
                species=self.wood,
                thickness=f"{thickness} mm",
                moisture=self.moisture,
                sawn=self.sawn,
            ),
            length=f"{self.size[self.grain.axis]} mm",
            width=f"{self.size[wide]} mm",
            grain=self.grain,
            face_side=Way.LEFT if thin == 0 and self.grain is Z else _WAYS[thin],
            places=[] if first is None else [self._beside(first, axis) for axis in range(3)],
            cuts=self.cuts,
        )

    def _beside(self, first: Board, axis: int) -> FlushWith:
        off = self.at[axis] - first.at[axis]
        if off >= 0.0:
            return FlushWith(of=first.name, side=_LOW[axis], shy=f"{off} mm")
        return FlushWith(of=first.name, side=_LOW[axis], proud=f"{-off} mm")


def board(
    name: str,
    wood: str,
    at: Triple,
    size: Triple,
    grain: Way = X,
    *,
    thin: Way | None = None,
    cuts: Sequence[CutWritten | RowWritten] = (),
    moisture: str = "9 %",
    sawn: Sawn = Sawn.UNKNOWN,
) -> Board:
    """A board in the block from `at`, of that size [mm]."""
    return Board(
        name=name,
        wood=wood,
        at=at,
        size=size,
        grain=grain,
        thin=thin,
        cuts=cuts,
        moisture=moisture,
        sawn=sawn,
    )


def piece(
    boards: Sequence[Board],
    joints: Sequence[JointWritten],
    *loads: Load,
    stance: Stance = Stance.FLOOR,
    corner_parts: Sequence[Spline | Key] = (),
) -> Composition:
    """A design of boards; the first one starts the chain."""
    first = boards[0]
    parts = [each.part(None if each is first else first) for each in boards]
    return Composition(
        name="piece",
        parts=parts,
        joints=joints,
        loads=loads,
        stance=stance,
        corner_parts=corner_parts,
    )


def load(on: str, kg: float, size: tuple[float, float], high: float = 50.0) -> Load:
    """What stands in the middle of a board: its footprint and the height of its centre [mm]."""
    return Load(
        on=on,
        name="load",
        mass=f"{kg} kg",
        footprint=(f"{size[0]} mm", f"{size[1]} mm"),
        centre_height=f"{high} mm",
    )


def sitting(on: str, kg: float, size: tuple[float, float] = (250, 200)) -> Load:
    """A person who sits on a board."""
    return _person(on, kg, size, LoadKind.PERSON_SITTING)


def standing(on: str, kg: float, size: tuple[float, float] = (100, 100)) -> Load:
    """A person who stands on a board."""
    return _person(on, kg, size, LoadKind.PERSON_STANDING)


def _person(on: str, kg: float, size: tuple[float, float], kind: LoadKind) -> Load:
    return Load(
        on=on,
        name="person",
        mass=f"{kg} kg",
        footprint=(f"{size[0]} mm", f"{size[1]} mm"),
        centre_height="250 mm" if kind is LoadKind.PERSON_SITTING else "900 mm",
        kind=kind,
    )


def dado(what: str, *into: str, glued: bool = True) -> list[JointWritten]:
    """A board's ends or edges in dados across the grain of others."""
    return [join(DadoJoint, what, into=each, is_glued=glued) for each in into]


def stopped(what: str, *into: str, stop: float = 10.0) -> list[JointWritten]:
    """The same, stopped short of the front edge."""
    return [
        join(StoppedDadoJoint, what, into=each, stop_from_face_edge=f"{stop} mm") for each in into
    ]


def housed(what: str, *into: str, front: float, back: float) -> list[JointWritten]:
    """A board in dados that stop so far from the front and the back edges of what it enters."""
    return [
        join(
            StoppedDadoJoint,
            what,
            into=each,
            stop_from_face_edge=f"{front} mm",
            stop_from_back_edge=f"{back} mm",
        )
        for each in into
    ]


def groove(what: str, *into: str, gap: float = 0.0, glued: bool = False) -> list[JointWritten]:
    """A panel in grooves along the grain of others."""
    return [join(GrooveJoint, what, into=each, gap=f"{gap} mm", is_glued=glued) for each in into]


def rabbet(what: str, *into: str, gap: float = 0.0, glued: bool = False) -> list[JointWritten]:
    """A panel in rabbets along others."""
    return [join(RabbetJoint, what, into=each, gap=f"{gap} mm", is_glued=glued) for each in into]


def lap(what: str, *into: str, face: Face = Face.FACE_SIDE) -> list[JointWritten]:
    """A half lap, glued."""
    return [join(HalfLapJoint, what, into=each, face=face) for each in into]


def butt(what: str, *into: str, glued: bool = True) -> list[JointWritten]:
    """Glued face to face, or merely laid there."""
    return [join(ButtJoint, what, into=each, is_glued=glued) for each in into]


def dowels(
    what: str,
    *into: str,
    size: float = 8.0,
    count: int = 2,
    length: float | None = None,
    deep: float | None = None,
    first: float | None = None,
) -> list[JointWritten]:
    """A glued butt with a row of dowels; half their length in either, or so deep in the other.

    `first` is how far the outer ones stand from the ends of the row's face.
    """
    given = {"length": length, "into_depth": deep, "first": first, "last": first}
    more = {name: f"{value} mm" for name, value in given.items() if value is not None}
    return [
        join(DowelledButtJoint, what, into=each, count=count, diameter=f"{size} mm", **more)
        for each in into
    ]


def _driven(by: HoldBy) -> Callable[..., list[JointWritten]]:
    def driven(
        what: str,
        *into: str,
        size: float,
        through: float,
        bite: float,
        count: int = 2,
        glued: bool = False,
        edge: float = 20.0,
        across: float = 0.0,
    ) -> list[JointWritten]:
        return [
            join(
                FastenedButt,
                what,
                into=each,
                by=by,
                count=count,
                diameter=f"{size} mm",
                through=f"{through} mm",
                bite=f"{bite} mm",
                is_glued=glued,
                edge=f"{edge} mm",
                across=f"{across} mm",
            )
            for each in into
        ]

    return driven


screws, nails = _driven(HoldBy.SCREW), _driven(HoldBy.PIN)
"""Driven through the first board named into each of the others, in a row of `count`."""


def wall_screw(x: float, y: float, size: float = 4.0) -> CutWritten:
    """A screw through a board's face side into the wall, struck from named end and face edge."""
    return cut(
        Bore,
        face=Face.FACE_SIDE,
        diameter=f"{size + 0.5} mm",
        x=f"{x} mm",
        y=f"{y} mm",
        holds=Screw(diameter=f"{size} mm", length="50 mm", note="with a plug that suits the wall"),
    )


Built = tuple[list[Board], list[JointWritten]]


def case(
    wood: str,
    width: float,
    depth: float,
    height: float,
    thick: float,
    shelves: Sequence[float],
    how: Callable[..., list[JointWritten]] = dado,
    let_in: float = 6.0,
    span_thick: float | None = None,
) -> Built:
    """Two sides on the floor and level boards between them, their undersides so high [mm].

    The boards are `shelf 1` from below; `how` joins each into both sides, let in so deep.
    """
    sides = [
        board("left side", wood, (0, 0, 0), (thick, depth, height), Z),
        board("right side", wood, (width - thick, 0, 0), (thick, depth, height), Z),
    ]
    level = [
        board(
            f"shelf {index}",
            wood,
            (thick - let_in, 0, z),
            (width - 2 * (thick - let_in), depth, span_thick or thick),
        )
        for index, z in enumerate(shelves, 1)
    ]
    joints = [joint for each in level for joint in how(each.name, "left side", "right side")]
    return sides + level, joints


def box(
    wood: str, width: float, depth: float, height: float, thick: float, low: float = 0.0
) -> Built:
    """Four sides on edge, front and back between the ends and nailed through them, two a corner."""
    boards = [
        board("left end", wood, (0, 0, low), (thick, depth, height), Y),
        board("right end", wood, (width - thick, 0, low), (thick, depth, height), Y),
        board("front", wood, (thick, 0, low), (width - 2 * thick, thick, height)),
        board("back", wood, (thick, depth - thick, low), (width - 2 * thick, thick, height)),
    ]
    joints = [
        joint
        for end in ("left end", "right end")
        for joint in nails(
            end, "front", "back", size=1.6, through=thick, bite=25, edge=height / 5, glued=True
        )
    ]
    return boards, joints


def row_of_bores(diameter: float, *, y: float, count: int, spacing: float) -> RowWritten:
    """Bores right through a board's face, in a row in its middle, so far from its face edge."""
    one = cut(Bore, face=Face.FACE_SIDE, y=f"{y} mm", diameter=f"{diameter} mm")
    return row_of(one, count=count, spacing=f"{spacing} mm")


def mitred(
    wood: str, width: float, depth: float, height: float, thick: float, low: float = 0.0
) -> Built:
    """Four sides on edge, mitred and glued."""
    boards = [
        board("front", wood, (0, 0, low), (width, thick, height)),
        board("left end", wood, (0, 0, low), (thick, depth, height), Y),
        board("back", wood, (0, depth - thick, low), (width, thick, height)),
        board("right end", wood, (width - thick, 0, low), (thick, depth, height), Y),
    ]
    joints = [
        join(MitreJoint, end, into=side)
        for side in ("front", "back")
        for end in ("left end", "right end")
    ]
    return boards, joints


def panel(
    name: str,
    wood: str,
    outside: tuple[float, float],
    thick: float,
    reach: float,
    low: float,
    sheet: float,
    gaps: tuple[float, float] = (0.3, 0.3),
) -> Built:
    """A panel in grooves of the four sides of a box, with gaps along and across its grain."""
    (width, depth), (along, across) = outside, gaps
    inset = thick - reach
    made = board(
        name,
        wood,
        (inset + along, inset + across, low),
        (width - 2 * (inset + along), depth - 2 * (inset + across), sheet),
    )
    joints = groove(name, "left end", "right end", gap=along)
    return [made], joints + groove(name, "front", "back", gap=across)
