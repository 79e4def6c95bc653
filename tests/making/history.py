"""What has become of each face of the wood, pass by pass: made true, sloped, eased, stepped.

A face keeps its name for as long as it is the same surface: what a saw or a plane leaves is a new
one. Told from the replay's steps; what an operation says of its order (`after`) is not read.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np

from furniture.making.operations import Operation
from furniture.making.settings import (
    Bored,
    ByHand,
    Easing,
    Machine,
    MitreGroove,
    Notched,
    Parallel,
    Skim,
    Slice,
    Surface,
    Trench,
)
from furniture.making.workpieces import Wood, Workpiece
from furniture.parts.faces import EDGES, Arris, Face, face_on
from tests.making.passes import end_of
from tests.making.replay import Making, Replayed, Step

_MOVED_MM = 1e-6


@dataclass(eq=False, slots=True)
class Surface_:  # noqa: N801 - a setting has the plain name
    """One surface of the wood; when the wood is sawn apart each piece has its own part of it.

    Args:
        slope: the face where the wood is longest there; None is square.
        eased: arrises of it that are no longer sharp.
        moved_by: the operation that took it away, if any did.
        parts: what became of it when the wood was sawn apart.
    """

    slope: Face | None = None
    eased: list[Arris] = field(default_factory=list)
    moved_by: int | None = None
    parts: list[Surface_] = field(default_factory=list)

    def share(self) -> Surface_:
        """The part of it that one of two pieces has."""
        mine = Surface_(slope=self.slope, eased=list(self.eased))
        self.parts.append(mine)
        return mine

    def goes_after(self, at: int) -> bool:
        """Whether it, or a part of it, is taken away later."""
        gone = self.moved_by is not None and self.moved_by > at
        return gone or any(each.goes_after(at) for each in self.parts)


Surfaces = dict[Face, Surface_]


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """A pass, and the surfaces of its wood just before it.

    Args:
        at: its place in the order.
        step: what it does.
        surfaces: of the wood in hand, and what had become of them.
        instances: that are in the wood in hand.
        borne_on: faces that the wood lies on, is guided by or stopped at.
        measured_from: faces that the setting is told from, or that bound the cut.
    """

    at: int
    step: Step
    surfaces: Surfaces
    slopes: dict[Face, Face]
    eased: tuple[Arris, ...]
    instances: tuple[str, ...]
    borne_on: frozenset[Face]
    measured_from: frozenset[Face]

    @property
    def operation(self) -> Operation:
        """What is done."""
        return self.step.operation


def moments_of(making: Making, done: Replayed) -> tuple[Moment, ...]:
    """Every pass with what had become of its wood."""
    known = {each.id: each for each in making.workpieces}
    order = {id(each): at for at, each in enumerate(making.operations)}
    surfaces: dict[str, Surfaces] = {
        each.id: {face: Surface_() for face in Face}
        for each in making.workpieces
        if each.source is None
    }
    inside = _insides(making, done)
    found = []
    for step, names in zip(done.steps, inside, strict=True):
        at, wood = order[id(step.operation)], step.wood
        before = surfaces[wood]
        found.append(_moment(at, step, before, names))
        kept, beyond = _after(at, step, before)
        gives = step.operation.gives
        if isinstance(step.operation.setting, Slice):
            given = list(zip(gives, (kept, beyond), strict=False))
        else:
            given = [(gives[step.operation.takes.index(wood)], kept)]
        for name, faces in given:
            surfaces[name] = faces if name == wood else _seen_from(known[name], faces)
    return tuple(found)


def _insides(making: Making, done: Replayed) -> list[tuple[str, ...]]:
    """The instances that come of the wood of each pass, read from the last pass to the first."""
    inside = {
        each.id: set(each.instances) if each.what in (Wood.PART, Wood.GLUED_STRIP) else set()
        for each in making.workpieces
    }
    found: list[tuple[str, ...]] = []
    for step in reversed(done.steps):
        gives = step.operation.gives
        if not isinstance(step.operation.setting, Slice):
            gives = (gives[step.operation.takes.index(step.wood)],)
        names = set().union(*(inside[name] for name in gives))
        for name in gives:
            inside[name] = set()
        inside[step.wood] = names
        found.append(tuple(sorted(names)))
    return found[::-1]


def _moment(at: int, step: Step, before: Surfaces, inside: tuple[str, ...]) -> Moment:
    return Moment(
        at=at,
        step=step,
        surfaces=dict(before),
        slopes={face: each.slope for face, each in before.items() if each.slope is not None},
        eased=tuple({arris for each in before.values() for arris in each.eased}),
        instances=inside,
        borne_on=frozenset(_supported_on(step.operation)),
        measured_from=frozenset(_measured_from(step.operation)),
    )


def _seen_from(piece: Workpiece, faces: Surfaces) -> Surfaces:
    """The same surfaces by the names that they have in a workpiece's own frame."""
    found = {}
    for face in Face:
        way = np.array(piece.axes[face.axis]) * (1 if face.is_far else -1)
        axis = int(np.argmax(np.abs(way)))
        found[face] = faces[face_on(axis, bool(way[axis] > 0))]
    return found


def _after(at: int, step: Step, before: Surfaces) -> tuple[Surfaces, Surfaces]:
    """The surfaces of what is kept and of what lies beyond the kerf."""
    kept, beyond = dict(before), dict(before)
    setting = step.operation.setting
    match setting:
        case Slice(off=off):
            slope = setting.long_face if setting.lean_deg else None
            back = slope.opposite if slope is not None else None
            if len(step.operation.gives) == 1:
                before[off.opposite].moved_by = at
            else:
                kept = {face: each.share() for face, each in before.items()}
                beyond = {face: each.share() for face, each in before.items()}
            kept[off.opposite], beyond[off] = Surface_(slope=slope), Surface_(slope=back)
        case Skim(face=face):
            slope = setting.long_face if setting.lean_deg else None
            kept[face] = Surface_(slope=slope)
            _note(at, step, before, face, setting.long_face)
        case Surface(face=face):
            kept[face] = Surface_()
            _note(at, step, before, face, None)
        case Parallel(off=off):
            kept[off.opposite] = Surface_()
            _note(at, step, before, off.opposite, None)
        case Easing(arris=arris):
            before[arris.first].eased.append(arris)
            before[arris.second].eased.append(arris)
    return kept, beyond


def _note(at: int, step: Step, before: Surfaces, face: Face, on: Face | None) -> None:
    """The surface is gone, if what is left there ends elsewhere."""
    ends = [end_of(solid, face, on) for solid in (step.before, step.kept)]
    if abs(ends[0] - ends[1]) > _MOVED_MM:
        before[face].moved_by = at


def _supported_on(operation: Operation) -> Iterator[Face]:
    """A jig is clamped to the faces that it measures from; what is sawn to a line bears on none."""
    if operation.is_rough:
        return
    hold, setting = operation.hold, operation.setting
    made = {Surface: "face", Skim: "face"}.get(type(setting))
    own = getattr(setting, made) if made else None
    is_jig = operation.rig is not None and operation.rig.machine is Machine.DOWEL_JIG
    for face in (None if is_jig else hold.down, hold.against, hold.stop):
        if face is not None and face is not own:
            yield face


def _measured_from(operation: Operation) -> Iterator[Face]:
    setting = None if operation.is_rough else operation.setting
    match setting:
        case Slice(off=off) | Parallel(off=off):
            yield off
        case Trench():
            yield from (setting.off, setting.face)
            ends = (face_on(setting.along, False), face_on(setting.along, True))
            stopped = (setting.whole_low_mm > 0.0, setting.whole_high_mm > 0.0)
            for end, is_stopped in zip(ends, stopped, strict=True):
                if is_stopped or end in EDGES:
                    yield end
        case Bored():
            yield from (*setting.off, setting.face)
        case Notched():
            yield from (setting.off, setting.edge)
        case Easing():
            yield from (setting.arris.first, setting.arris.second)
        case _:
            assert setting is None or isinstance(setting, Surface | Skim | ByHand | MitreGroove)


def later(moments: Sequence[Moment], moment: Moment) -> Iterator[Moment]:
    """The passes after one on the same wood or on what came of it."""
    mine = set(moment.instances)
    for each in moments:
        if each.at > moment.at and mine & set(each.instances):
            yield each
