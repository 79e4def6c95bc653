"""A checker of glue-ups that shares nothing with how they are found: solids of another kernel.

It goes through the stages as a maker would: what stands together is tracked from the moves alone,
every move is drawn back along its way, every plane and every clamp head is laid on as a box.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import Any

import numpy as np
from manifold3d import CrossSection, Manifold

from furniture.assembly import Step
from furniture.joints.joint import Joining, Role
from furniture.making.glue_ups import Caul, ClampLine, GlueUps, Levelling, Pad, Stage, When
from furniture.parts.cuts import record_of
from furniture.pieces import Piece
from tests.exporters.rebuild import rebuilt_piece
from tests.making.plane_room import swept_by_a_plane

COMMON_MM3 = 1.0
"""Common volume that counts as none: facets of bores and dowels, and a hair of a slip fit."""
STRIDES = (0.3, 1.0, 2.0, 4.0, 7.0, 11.0, 16.0, 24.0, 36.0, 54.0, 80.0, 120.0, 180.0, 270.0, 400.0,
           600.0, 900.0)  # fmt: skip
HEAD_ROOM_MM = 30.0
"""So deep a head is swept."""
HEAD_MM = 30.0
"""Across a head."""
BAR_MM, BAR_HAIR_MM, NEARER_MM = 10.0, 1.5, 12.0
"""Across a clamp's bar; what turning it by two degrees may miss; what is nearer beyond doubt."""
HEAD_MEETS_MM3 = 15.0
"""A head gives way to so little: a hair of a rim that is still to be planed."""
PUSHED_MM = 1.0
"""So far a part is pushed on to see what it meets: a slip fit, a film of glue, a hair of a seat."""
ROD_MM, ROD_LONG_MM, SPECK_MM3 = 0.2, 4000.0, 1e-4
"""A rod along a line of force, and what of a part on it is too little to count."""

Lot = frozenset[str]


def faults_of(piece: Piece, found: GlueUps) -> list[str]:
    """Everything wrong with some glue-ups; none when they are right."""
    return [
        *_glue(piece, found),
        *_Bench(piece).work(found),
        *_in_the_air(piece, found),
        *_askew(piece, found),
    ]


def _glue(piece: Piece, found: GlueUps) -> Iterator[str]:
    """Every joint that takes glue is glued once, every other one closed dry once at most."""

    def key(joining: Any) -> tuple[object, ...]:
        at = joining.faces[0].centre if joining.faces else ()
        return (joining.kind, joining.into, joining.incoming, at)

    wanted = Counter(
        key(each)
        for each in piece.joinings
        if any(face.glue is not None for face in each.faces)
        or any(fastener.is_glued for fastener in each.fasteners)
    )
    done = Counter(key(each) for stage in found.stages for each in stage.glued)
    yield from (f"{each} is never glued" for each in wanted - done)
    yield from (f"{each} is glued twice, or wants none" for each in done - wanted)
    for stage in found.stages:
        faces = sum(face.glue is not None for each in stage.glued for face in each.faces)
        if len(stage.spread) != faces:
            yield f"stage {stage.number} spreads {len(stage.spread)} faces of {faces}"


def _in_the_air(piece: Piece, found: GlueUps) -> Iterator[str]:
    """What meets end to side in plain glue swings about that line until something else holds it.

    Where a third part is glued to both, they are on it when that glue sets, or together with it. A
    rail between two parts that others hold apart has both its ends held, and swings about neither.
    """
    glued = [{each.into, each.incoming} for each in piece.joinings if each.glued_faces]
    lots = [frozenset({each.instance}) for each in piece.placed]
    for stage in found.stages:
        for step in stage.moves:
            both = frozenset({*step.moving, *step.onto})
            lots = [each for each in lots if not each & both] + [both]
        for each in (one for one in stage.glued if _swings(piece, one)):
            first, second = each.into, each.incoming
            lot = next(one for one in lots if first in one) | {*stage.held_true_by}
            carriers = {
                placed.instance
                for placed in piece.placed
                if {placed.instance, first} in glued and {placed.instance, second} in glued
            }
            if carriers and not carriers & lot and not _is_between(each, glued, lot):
                yield f"stage {stage.number} glues {second} to {first} in the air"


def _is_between(each: Joining, glued: list[set[str]], lot: frozenset[str]) -> bool:
    """Whether one of the two meets, besides, what others in the lot hold to the other of them."""
    for rail, held in ((each.into, each.incoming), (each.incoming, each.into)):
        here = [pair for pair in glued if pair <= lot]
        beyond = {name for pair in here if rail in pair for name in pair} - {rail, held}
        reached, more = {held}, True
        while more:
            met = {name for pair in here if rail not in pair and pair & reached for name in pair}
            reached, more = reached | met, not met <= reached
        if beyond & reached:
            return True
    return False


def _askew(piece: Piece, found: GlueUps) -> Iterator[str]:
    """A rail stuck on by a plain face stays where it set: its mitres must be closed by then.

    Or what they close on is there, with glue or dry. A mitre that closes no ring with that face
    goes wherever the rail has it.
    """
    glued = [each for stage in found.stages for each in stage.glued]
    for at, stage in enumerate(found.stages):
        later = [each for one in found.stages[at + 1 :] for each in one.glued]
        for each in stage.glued:
            if each.role is not Role.CORNER or each.fasteners or _skew(piece, each):
                continue
            if len({tuple(np.round(face.normal, 3)) for face in each.faces}) != 1:
                continue
            for rail, post in ((each.incoming, each.into), (each.into, each.incoming)):
                for mitre in later:
                    if rail not in (mitre.into, mitre.incoming) or not _skew(piece, mitre):
                        continue
                    mate = mitre.into if mitre.incoming == rail else mitre.incoming
                    is_there = mate in stage.held_true_by
                    if not is_there and _hang_together(mate, post, rail, glued):
                        yield f"stage {stage.number} glues {rail} to {post}, its mitre still open"


def _skew(piece: Piece, each: Joining) -> bool:
    """Whether two parts meet on a face that is square to no face of either."""
    parts = [one.placement for one in piece.placed if one.instance in (each.into, each.incoming)]
    axes = [axis for place in parts for axis in (place.x_axis, place.y_axis, place.z_axis)]
    return bool(each.faces) and each.role is Role.CORNER and all(
        abs(float(np.array(face.normal) @ np.array(axis))) < 0.99
        for face in each.faces for axis in axes
    )  # fmt: skip


def _hang_together(one: str, other: str, without: str, glued: Sequence[Joining]) -> bool:
    """Whether glue leads from one part to another by some way that leaves a third part out."""
    lots: list[set[str]] = [{one}, {other}]
    for pair in ({each.into, each.incoming} for each in glued):
        if without not in pair:
            met = [lot for lot in lots if lot & pair]
            lots = [lot for lot in lots if lot not in met] + [pair.union(*met)]
    return any({one, other} <= lot for lot in lots)


def _swings(piece: Piece, each: Joining) -> bool:
    """Whether a joint is one plain face on end grain, with no fastener through it."""
    if each.role is not Role.CORNER or each.fasteners or len(each.faces) != 1:
        return False
    normal = np.array(each.faces[0].normal)
    frames = [one.placement for one in piece.placed if one.instance in (each.into, each.incoming)]
    return any(abs(float(normal @ np.array(frame.x_axis))) > 0.99 for frame in frames)


class _Bench:
    """The parts as another kernel makes them, and what stands together so far."""

    def __init__(self, piece: Piece) -> None:
        self.piece = piece
        self.placed = {each.instance: each for each in piece.placed}
        self.solids = rebuilt_piece(_summary(piece))
        self.moving = dict(self.solids)
        for each in piece.joinings:
            for dowel in each.fasteners:
                if dowel.is_glued:
                    self.moving[each.incoming] += _dowel(dowel)
        self.lots: set[Lot] = {frozenset({name}) for name in self.solids}
        self.held: Lot = frozenset()

    def work(self, found: GlueUps) -> Iterator[str]:
        for stage in found.stages:
            yield from self.stage(stage)
        for step in found.laid_in:
            yield from self.move(step)
        if len(self.lots) > 1:
            yield f"in the end it is in {len(self.lots)} lots"

    def stage(self, stage: Stage) -> Iterator[str]:
        for body in stage.bodies:
            if frozenset(body) not in self.lots:
                yield f"stage {stage.number}: {body} is not one yet"
        for each in stage.levelled:
            if each.when is When.BEFORE and frozenset({each.instance}) not in self.lots:
                yield f"{each.instance} is no longer by itself when a plane is asked for"
        for step in stage.moves:
            yield from self.move(step)
        for pair in ((each.into, each.incoming) for each in stage.glued):
            if pair[1] not in self.lot_of(pair[0]):
                yield f"stage {stage.number} does not bring {pair} together"
        for name in stage.dry:
            if not self.lot_of(name) - {name}:
                yield f"stage {stage.number} leaves {name} by itself"
        for each in stage.levelled:
            yield from self.plane(each)
        self.held = frozenset(stage.held_true_by)  # it is on while the clamps press
        for line in stage.clamps:
            for pad in line.pads:
                yield from self.head(pad)
            yield from self.bar(line)
            yield from self.force(line)

    def lot_of(self, name: str) -> Lot:
        return next(lot for lot in self.lots if name in lot)

    def under_clamps(self, name: str) -> Lot:
        """All that stands there with a part, what is put on dry too."""
        if name in self.held:
            return self.held.union(*(lot for lot in self.lots if len(lot) > 1))
        return self.lot_of(name) | self.held

    def move(self, step: Step) -> Iterator[str]:
        moving, onto = frozenset(step.moving), frozenset(step.onto)
        for side in (moving, onto):
            if side not in self.lots:
                yield f"{sorted(side)} were not together yet"
        self.lots = {lot for lot in self.lots if not lot & (moving | onto)} | {moving | onto}
        way = np.array(step.direction)
        last = np.inf if step.before is None else step.before.left_mm
        shifts = [-way * far for far in STRIDES if far <= last]
        if step.before is not None:
            shifts.append(-way * last)
            shifts += [-way * last - np.array(step.before.way) * far for far in STRIDES]
        for shift in shifts:
            yield from self.meets(moving, onto, shift)

    def meets(self, moving: Lot, onto: Lot, shift: np.ndarray) -> Iterator[str]:
        for a in moving:
            gone = self.moving[a].translate(shift)
            for b in onto:
                if not _boxes_meet(gone, self.moving[b]):
                    continue
                common = (gone ^ self.moving[b]).volume()
                if common > COMMON_MM3 and not self.overlap(a, b):
                    yield f"{a} meets {b} by {common:.2f} mm3, {np.linalg.norm(shift):.1f} mm away"

    def overlap(self, a: str, b: str) -> bool:
        """Whether two parts overlap as designed, which other checks tell: no move mends that."""
        return bool((self.solids[a] ^ self.solids[b]).volume() > COMMON_MM3)

    def plane(self, each: Levelling) -> Iterator[str]:
        """A plane laid on the face among what stands there: free, or in the way as told."""
        room = swept_by_a_plane(*self._box(each.instance), each.side)
        met = {
            name
            for name in self.lot_of(each.instance) - {each.instance}
            if _boxes_meet(room, self.solids[name])
            and (room ^ self.solids[name]).volume() > COMMON_MM3
        }
        if each.when is When.AFTER and met:
            yield f"a plane on {each.instance} meets {sorted(met)}"
        if each.when is When.BEFORE and not met:
            yield f"a plane has room on {each.instance} once it is in"

    def head(self, pad: Pad) -> Iterator[str]:
        """A clamp's head bears on its part, and nothing stands where it must go."""
        at, push = np.array(pad.at), np.array(pad.push)
        if not self._wood_in([pad.instance], at + 0.4 * push):
            yield f"a clamp bears on nothing at {pad.instance}"
        lot = self.under_clamps(pad.instance)
        block = _round(at, -push, 0.3, pad.rise_mm, min(pad.free_mm, HEAD_MM) / 2.0)
        head = _round(at, -push, pad.rise_mm + 0.3, HEAD_ROOM_MM, HEAD_MM / 2.0)
        for what, swept in (("block", block), ("head", head)):
            if pad.caul is not Caul.BLOCK and what == "block":
                continue
            beside = lot - {pad.instance} if pad.caul is Caul.MITRE_CUT else lot  # cut to its slope
            for name in beside:
                if _boxes_meet(swept, self.solids[name]):
                    common = (swept ^ self.solids[name]).volume()
                    if common > HEAD_MEETS_MM3:
                        yield f"a clamp {what} on {pad.instance} meets {name}: {common:.0f} mm3"

    def bar(self, line: ClampLine) -> Iterator[str]:
        """A bar beside the line, as far off as its heads are told to reach, passes all wood."""
        near, far = (np.array(pad.at) - np.array(pad.push) * pad.rise_mm for pad in line.pads)
        way = (far - near) / np.linalg.norm(far - near)
        helper = np.array([1.0, 0.0, 0.0]) if abs(way[0]) < 0.9 else np.array([0.0, 1.0, 0.0])
        u = np.cross(way, helper) / np.linalg.norm(np.cross(way, helper))
        turn = np.array([u, np.cross(way, u), way])
        shadow = CrossSection()
        for name in self.under_clamps(line.pads[0].instance).union(
            self.under_clamps(line.pads[1].instance)
        ):
            stood = self.solids[name].transform(np.column_stack([turn, -turn @ near]))
            high = float(np.linalg.norm(far - near)) - BAR_HAIR_MM
            between = stood.trim_by_plane((0, 0, 1), BAR_HAIR_MM).trim_by_plane((0, 0, -1), -high)
            shadow += between.project()

        def is_free(off_mm: float) -> bool:
            bar = CrossSection.circle(BAR_MM / 2.0, 24)
            turns = np.linspace(0.0, 2.0 * np.pi, 120, endpoint=False)
            places = ((off_mm * np.cos(each), off_mm * np.sin(each)) for each in turns)
            return any((bar.translate(each) ^ shadow).area() < 1.0 for each in places)

        pads = " and ".join(pad.instance for pad in line.pads)
        if not is_free(line.throat_mm + BAR_MM / 2.0 + BAR_HAIR_MM):
            yield f"a clamp's bar on {pads} has no way {line.throat_mm:.1f} mm beside its heads"
        if line.throat_mm > NEARER_MM and is_free(line.throat_mm + BAR_MM / 2.0 - NEARER_MM):
            yield f"a clamp's bar on {pads} has a way nearer than {line.throat_mm:.1f} mm"

    def force(self, line: ClampLine) -> Iterator[str]:
        """From either head to what it presses each part on the line pushes the next one.

        A rod is run from the head to the nearest of the two parts of a joint; where it comes out of
        one part and into another across a gap, the first, pushed on by a little, must meet it.
        """
        for pair in dict.fromkeys(pair for pair, _ in line.pressed):
            for pad in line.pads:
                runs = self._runs(pad, self.under_clamps(pad.instance))
                reached = next((at for at, run in enumerate(runs) if run[2] in pair), None)
                if reached is None:
                    yield f"a clamp on {pad.instance} passes {pair}"
                    continue
                for (_, end, one), (start, _, other) in pairwise(runs[: reached + 1]):
                    if one == other or start - end < PUSHED_MM:
                        continue
                    gone = self.solids[one].translate(np.array(pad.push) * PUSHED_MM)
                    if (gone ^ self.solids[other]).volume() < COMMON_MM3:
                        yield (
                            f"a clamp on {pad.instance} for {pair} presses on {one}, "
                            f"{start - end:.1f} mm off {other}"
                        )

    def _runs(self, pad: Pad, lot: Lot) -> list[tuple[float, float, str]]:
        """Where a rod from a pad on goes into the parts and out of them again, in its order."""
        way = np.array(pad.push)
        helper = np.array([1.0, 0.0, 0.0]) if abs(way[0]) < 0.9 else np.array([0.0, 1.0, 0.0])
        u = np.cross(way, helper) / np.linalg.norm(np.cross(way, helper))
        turn = np.array([u, np.cross(way, u), way])
        rod = Manifold.cube((ROD_MM, ROD_MM, ROD_LONG_MM)).translate((-ROD_MM / 2, -ROD_MM / 2, -1))
        found = []
        for name in lot:
            stood = self.solids[name].transform(np.column_stack([turn, -turn @ np.array(pad.at)]))
            if not _boxes_meet(rod, stood):
                continue
            for piece in (rod ^ stood).decompose():
                if piece.volume() > SPECK_MM3:
                    box = piece.bounding_box()
                    found.append((box[2], box[5], name))
        return sorted(found)

    def _wood_in(self, names: Iterable[str], at: np.ndarray) -> bool:
        speck = Manifold.cube((0.2, 0.2, 0.2), True).translate(at)
        return any(
            _boxes_meet(speck, self.solids[name]) and (speck ^ self.solids[name]).volume() > 1e-5
            for name in names
        )

    def _box(self, name: str) -> tuple[np.ndarray, np.ndarray]:
        """The box round the squared part before its cuts."""
        placed = self.placed[name]
        place, blank = placed.placement, placed.part.blank
        axes = np.column_stack([place.x_axis, place.y_axis, place.z_axis])
        far = np.array(place.origin) + axes @ np.array(blank.size)
        return np.minimum(place.origin, far), np.maximum(place.origin, far)


def _summary(piece: Piece) -> dict[str, Any]:
    """What the rebuilding reads of a piece's record."""
    parts = {id(each.part): each.part for each in piece.placed}
    return {
        "parts": [
            {
                "id": number, "length_mm": part.blank.length_mm, "width_mm": part.blank.width_mm,
                "thickness_mm": part.blank.thickness_mm,
                "cuts": [record_of(cut) for cut in part.cuts],
            }
            for number, part in parts.items()
        ],
        "placements": [
            {
                "instance": each.instance, "part": id(each.part),
                "x_axis": each.placement.x_axis, "y_axis": each.placement.y_axis,
                "z_axis": each.placement.z_axis, "origin_mm": each.placement.origin,
            }
            for each in piece.placed
        ],
    }  # fmt: skip


def _dowel(dowel: Any) -> Manifold:
    """A dowel a hair thinner than its bore, which both kernels facet."""
    axis = np.array(dowel.axis)
    helper = np.array([1.0, 0.0, 0.0]) if abs(axis[0]) < 0.9 else np.array([0.0, 1.0, 0.0])
    u = np.cross(axis, helper)
    u /= np.linalg.norm(u)
    radius = dowel.diameter_mm / 2 - 0.05
    pin = Manifold.cylinder(dowel.length_mm, radius, radius, 48)
    start = np.array(dowel.at) - dowel.incoming_mm * axis
    return pin.transform(np.column_stack([u, np.cross(axis, u), axis, start]))


def _round(at: np.ndarray, way: np.ndarray, start: float, deep: float, radius: float) -> Manifold:
    """A round body on a point, drawn from a distance along a way."""
    helper = np.array([1.0, 0.0, 0.0]) if abs(way[0]) < 0.9 else np.array([0.0, 1.0, 0.0])
    u = np.cross(way, helper)
    u /= np.linalg.norm(u)
    body = Manifold.cylinder(max(deep, 0.1), max(radius, 0.1), max(radius, 0.1), 32)
    return body.transform(np.column_stack([u, np.cross(way, u), way, at + start * way]))


def _boxes_meet(first: Manifold, second: Manifold) -> bool:
    a, b = np.array(first.bounding_box()), np.array(second.bounding_box())
    return bool((a[:3] < b[3:] - 1e-9).all() and (b[:3] < a[3:] - 1e-9).all())
