"""Work written down by hand for some of the herb stand's parts, as a maker would do it.

Five rails come off one strip, sawn from the ends inwards; the post is housed while it is long.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from furniture.making.operations import Axis, CutOf, Kind, Operation, SizeOf, Stage
from furniture.making.settings import (
    Bored,
    Hold,
    Parallel,
    Setting,
    Skim,
    Slice,
    Surface,
    Trench,
)
from furniture.making.workpieces import Wood, Workpiece
from furniture.parts.faces import Face

KERF, SKIM = 3.2, 0.5
GAP = KERF * math.sqrt(2) + SKIM
LENGTHS = {
    "left stub": 105.0, "left side rail": 210.0, "front rail": 320.0, "right side rail": 210.0,
    "right stub": 105.0,
}  # fmt: skip
STRIP = sum(LENGTHS.values()) + 4 * GAP
WIDTH, THICK = 84.0, 19.7
SHOULDERS = (70.1, 220.1, 370.1, 520.1, 670.1)
DOWELS = (18.4, 58.1)


@dataclass(frozen=True, slots=True)
class HandMade:
    """Workpieces and operations."""

    workpieces: tuple[Workpiece, ...]
    operations: tuple[Operation, ...]

    def changed(self, key: str, setting: Setting) -> HandMade:
        """The same work with another setting."""
        found = [
            replace(each, setting=setting) if each.key == key else each for each in self.operations
        ]
        assert any(each.key == key for each in self.operations), key
        return HandMade(self.workpieces, tuple(found))

    def without(self, key: str) -> HandMade:
        """The same work with one operation left out."""
        return HandMade(self.workpieces, tuple(each for each in self.operations if each.key != key))

    def swapped(self, first: str, second: str) -> HandMade:
        """The same work with the second done just before the first."""
        found = list(self.operations)
        late = next(each for each in found if each.key == second)
        found.remove(late)
        found.insert(next(i for i, each in enumerate(found) if each.key == first), late)
        return HandMade(self.workpieces, tuple(found))


def _places() -> dict[str, float]:
    places, at = {}, 0.0
    for name, length in LENGTHS.items():
        places[name] = at
        at += length + GAP
    return places


def _op(
    key: str, kind: Kind, stage: Stage, wood: str, setting: Setting, *,
    gives: tuple[str, ...] = (), hold: tuple[Face | None, Face | None, Face | None] = (None,) * 3,
    cuts: tuple[CutOf, ...] = (), sizes: tuple[SizeOf, ...] = (),
) -> Operation:  # fmt: skip
    down, against, stop = hold
    return Operation(
        key=key, kind=kind, stage=stage, takes=(wood,), gives=gives or (wood,),
        hold=Hold(down=down, against=against, stop=stop), setting=setting, cuts=cuts, sizes=sizes,
    )  # fmt: skip


def _sizes(axis: Axis, *instances: str) -> tuple[SizeOf, ...]:
    return tuple(SizeOf(name, axis) for name in instances)


def _board(name: str, length: float, width: float, thick: float, of: tuple[str, ...]) -> Workpiece:
    return Workpiece(
        id=name, what=Wood.BOARD, instances=of, low=(0.0, 0.0, 0.0), high=(length, width, thick)
    )


def _part(name: str, source: str, at: float, length: float, *, high: float = 0.0) -> Workpiece:
    return Workpiece(
        id=name, what=Wood.PART, instances=(name,), low=(0.0, 0.0, 0.0),
        high=(high or length, WIDTH, THICK), source=source, at_mm=(at, 0.0, 0.0),
    )  # fmt: skip


def _milled(
    board: str, gives: tuple[str, str], width: float, of: tuple[str, ...]
) -> list[Operation]:
    """A board jointed, planed and ripped to width: 0.6 mm off its back, 1 mm off its edge."""
    down, edge = Face.BACK_SIDE, Face.FACE_EDGE
    mill = Stage.MILL
    return [
        _op(f"{board}: joint the face", Kind.JOINT_FACE, mill, board,
            Surface(face=down, takes_mm=0.6), hold=(down, None, None)),
        _op(f"{board}: joint the edge", Kind.JOINT_EDGE, mill, board,
            Surface(face=edge, takes_mm=1.0), hold=(edge, down, None)),
        _op(f"{board}: plane", Kind.PLANE, mill, board, Parallel(off=down, at_mm=THICK),
            hold=(down, None, None), sizes=_sizes(Axis.THICKNESS, *of)),
        _op(f"{board}: rip", Kind.RIP, mill, board, Slice(off=edge, at_mm=width, kerf_mm=KERF),
            gives=gives, hold=(down, edge, None), sizes=_sizes(Axis.WIDTH, *of)),
    ]  # fmt: skip


def rails() -> HandMade:
    """The five rails of the herb stand's base, from a board of 1000 x 95 x 21."""
    places, names = _places(), tuple(LENGTHS)
    strip = Workpiece(
        id="strip", what=Wood.COMMON_BLANK, instances=names, low=(-8.0, 0.0, 0.0),
        high=(992.0, WIDTH, THICK), source="A", at_mm=(8.0, 1.0, 0.6),
    )  # fmt: skip
    rest = Workpiece(
        id="rest of A", what=Wood.OFFCUT, instances=(), low=(0.0, 0.0, 0.0),
        high=(1000.0, 95.0 - 1.0 - WIDTH - KERF, THICK), source="A",
        at_mm=(0.0, 1.0 + WIDTH + KERF, 0.6),
    )  # fmt: skip
    parts = [_part(name, "strip", places[name], LENGTHS[name]) for name in names]
    return HandMade(
        (_board("A", 1000.0, 95.0, 21.0, names), strip, rest, *parts),
        (
            *_milled("A", ("strip", "rest of A"), WIDTH, names),
            *_squared(), *_long_cuts(names), *_dowelled(), *_mitred(),
        ),
    )  # fmt: skip


def _squared() -> list[Operation]:
    hold = (Face.BACK_SIDE, Face.FACE_EDGE)
    return [
        _op("strip: square the named end", Kind.SQUARE_END, Stage.MILL, "strip",
            Skim(face=Face.NAMED_END, takes_mm=8.0, kerf_mm=KERF), hold=(*hold, None)),
        _op("strip: to length", Kind.CROSSCUT, Stage.MILL, "strip",
            Slice(off=Face.NAMED_END, at_mm=STRIP, kerf_mm=KERF), hold=(*hold, Face.NAMED_END)),
    ]  # fmt: skip


def _long_cuts(names: tuple[str, ...]) -> list[Operation]:
    found = []
    for index, (edge, down) in enumerate(((Face.FACE_EDGE, 6.4), (Face.BACK_EDGE, 13.9))):
        setting = Trench(
            face=Face.BACK_SIDE, along=0, off=edge, near_mm=0.0, width_mm=down, depth_mm=10.0
        )
        found.append(
            _op(f"strip: rabbet at the {edge.value}", Kind.RABBET, Stage.JOIN, "strip", setting,
                hold=(Face.BACK_SIDE, edge, None),
                cuts=tuple(CutOf(name, index) for name in names))
        )  # fmt: skip
    return found


def _dowelled() -> list[Operation]:
    found = []
    for name, end in (("left stub", Face.NAMED_END), ("right stub", Face.FAR_END)):
        for index, up in enumerate(DOWELS):
            setting = Bored(
                face=end, off=(Face.FACE_EDGE, Face.FACE_SIDE), at_mm=(up, THICK / 2),
                diameter_mm=6.0, depth_mm=16.5,
            )  # fmt: skip
            found.append(
                _op(f"{name}: dowel {'ab'[index]}", Kind.END_BORE, Stage.JOIN, "strip", setting,
                    hold=(Face.FACE_SIDE, Face.FACE_EDGE, end), cuts=(CutOf(name, 3 + index),))
            )  # fmt: skip
    return found


def _mitred() -> list[Operation]:
    """From the ends inwards, the outside up: part from both ends, trim both, the middle last."""
    near, far = Face.NAMED_END, Face.FAR_END
    return [
        _parted("left stub", near, 2), _parted("right stub", far, 2),
        _trimmed("left side rail", near, 3), _trimmed("right side rail", far, 2),
        _parted("left side rail", near, 2), _parted("right side rail", far, 3),
        _trimmed("front rail", near, 2), _parted("front rail", near, 3, rest=False),
    ]  # fmt: skip


def _against(end: Face) -> Face:
    """Turned end for end with the outside up, the other edge comes to the fence."""
    return Face.BACK_EDGE if end is Face.NAMED_END else Face.FACE_EDGE


def _parted(name: str, off: Face, cut: int, *, rest: bool = True) -> Operation:
    setting = Slice(
        off=off, at_mm=LENGTHS[name], kerf_mm=KERF, lean_deg=45.0, long_face=Face.FACE_SIDE
    )
    return _op(
        f"{name}: part", Kind.MITRE, Stage.PART, "strip", setting,
        gives=(name, "strip") if rest else (name,),
        hold=(Face.BACK_SIDE, _against(off.opposite), off), cuts=(CutOf(name, cut),),
        sizes=_sizes(Axis.LENGTH, name),
    )  # fmt: skip


def _trimmed(name: str, end: Face, cut: int) -> Operation:
    setting = Skim(face=end, takes_mm=SKIM, kerf_mm=KERF, lean_deg=45.0, long_face=Face.FACE_SIDE)
    return _op(
        f"{name}: trim", Kind.MITRE, Stage.PART, "strip", setting,
        hold=(Face.BACK_SIDE, _against(end), None), cuts=(CutOf(name, cut),),
    )  # fmt: skip


def post() -> HandMade:
    """The herb stand's post, from a board of 740 x 118 x 20.5; its top is trimmed last."""
    width, down, edge = 110.0, Face.BACK_SIDE, Face.FACE_EDGE
    part = Workpiece(
        id="post", what=Wood.PART, instances=("post",), low=(-5.0, 0.0, 0.0),
        high=(735.0, width, THICK), source="B", at_mm=(5.0, 1.0, 0.6),
    )  # fmt: skip
    rest = Workpiece(
        id="rest of B", what=Wood.OFFCUT, instances=(), low=(0.0, 0.0, 0.0),
        high=(740.0, 118.0 - 1.0 - width - KERF, THICK), source="B",
        at_mm=(0.0, 1.0 + width + KERF, 0.6),
    )  # fmt: skip
    square = _op(
        "post: square the foot", Kind.SQUARE_END, Stage.MILL, "post",
        Skim(face=Face.NAMED_END, takes_mm=5.0, kerf_mm=KERF), hold=(down, edge, None),
    )  # fmt: skip
    dados = [
        _op(f"post: dado {'abcde'[i]}", Kind.DADO, Stage.JOIN, "post",
            Trench(face=Face.FACE_SIDE, along=1, off=Face.NAMED_END, near_mm=at, width_mm=13.53,
                   depth_mm=7.0),
            hold=(Face.FACE_SIDE, edge, Face.NAMED_END), cuts=(CutOf("post", i),))
        for i, at in enumerate(SHOULDERS)
    ]  # fmt: skip
    bores = [
        _op(f"post: dowel {'ab'[j]} in the {face.value}", Kind.END_BORE, Stage.JOIN, "post",
            Bored(face=face, off=(Face.NAMED_END, Face.FACE_SIDE), at_mm=(at, THICK / 2),
                  diameter_mm=6.0, depth_mm=16.5),
            hold=(Face.FACE_SIDE, face, Face.NAMED_END), cuts=(CutOf("post", 5 + 2 * i + j),))
        for i, face in enumerate((Face.BACK_EDGE, Face.FACE_EDGE))
        for j, at in enumerate(DOWELS)
    ]  # fmt: skip
    trim = _op(
        "post: trim the top", Kind.TRIM, Stage.TRIM, "post",
        Slice(off=Face.NAMED_END, at_mm=707.5, kerf_mm=KERF),
        hold=(down, edge, Face.NAMED_END), sizes=_sizes(Axis.LENGTH, "post"),
    )  # fmt: skip
    return HandMade(
        (_board("B", 740.0, 118.0, 20.5, ("post",)), part, rest),
        (*_milled("B", ("post", "rest of B"), width, ("post",)), square, *dados, *bores, trim),
    )
