"""Whatever is driven has its way: solids of another kernel are laid round every pin and screw.

It stays inside the wood of the two parts that it holds together, clear of every other fastener, of
every bore that is not its own and of all other parts, splines and feet among them. A driver stands
straight behind the head of a pin or screw, among what is there by then.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, reduce
from itertools import combinations

import numpy as np
from manifold3d import Manifold

from furniture.assembly import assembly_of, scene_of
from furniture.joints.joint import Fastener, HoldBy
from furniture.making.glue_ups import GlueUps, stages_of
from furniture.making.operations import CutOf
from furniture.parts.cuts import Hole
from furniture.pieces import Piece
from tests.making.glue_checker import _boxes_meet, _round
from tests.making.replay import LIGHT
from tests.making.targets import target_of

DRIVER_MM, DRIVER_WIDE_MM = 60.0, 6.0
"""How much of a driver stands behind the head, and how wide it is."""
HEAD_MM = 0.5
"""A head stands out by less."""
SPECK_MM3 = 0.5
AXIS_MM = 0.2
"""As much of a fastener about its axis lies in its own bore, wherever the bore is round."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A fastener where it stands, and the parts that it is meant for: of an anchor one alone."""

    told: str
    fastener: Fastener
    parts: tuple[str, ...]
    body: Manifold

    @property
    def head(self) -> np.ndarray:
        """Where its head lies, piece frame [mm]."""
        return _head(self.fastener)


class DrivenRoom:
    """Looks round every fastener of a piece: parts and bores are made once, glue-ups sought once.

    Args:
        piece: with its joints and anchors.
        more: solids that stand there besides, by name: only to plant faults.
    """

    def __init__(self, piece: Piece, more: dict[str, Manifold] | None = None) -> None:
        self.piece, target = piece, target_of(piece, LIGHT)
        frames = {
            each.instance: np.column_stack([
                each.placement.x_axis, each.placement.y_axis, each.placement.z_axis,
                each.placement.origin,
            ])
            for each in piece.placed
        }  # fmt: skip
        self.solids = {name: part.transform(frames[name]) for name, part in target.parts.items()}
        self.solids |= more or {}
        self.bores: dict[str, list[Manifold]] = {each.instance: [] for each in piece.placed}
        for each in piece.placed:
            for index, cut in enumerate(each.part.cuts):
                if isinstance(cut.shape(each.part.blank), Hole):
                    tool = target.tool(CutOf(each.instance, index))
                    self.bores[each.instance].append(tool.transform(frames[each.instance]))

    def faults(self) -> Iterator[str]:
        """What is in the way of a pin, a screw, a dowel or its driver, or is not round it."""
        standing = self._standing()
        for each in standing:
            yield from self._run_through(each)
            yield from self._bores_met(each)
            yield from self._out_of_the_wood(each)
            yield from self._behind_the_head(each)
        for first, second in combinations(standing, 2):
            if _meet(first.body, second.body):
                yield f"{first.told} meets {second.told}"

    def _standing(self) -> Sequence[Standing]:
        """All but what slides, or turns: its room is its own slot or knuckle."""
        found = [
            (f"of {joining.incoming} in {joining.into}", each, (joining.into, joining.incoming))
            for joining in self.piece.joinings
            for each in joining.fasteners
        ]
        found += [
            (f"through {anchor.instance}", each, (anchor.instance,))
            for anchor in self.piece.anchors
            for each in anchor.fasteners
        ]
        return [
            Standing(
                told=f"{each.by.value} {number} {where}", fastener=each, parts=parts,
                body=_body(each),
            )
            for number, (where, each, parts) in enumerate(found, start=1)
            if each.slot is None and not each.bears_too
        ]  # fmt: skip

    def _run_through(self, each: Standing) -> Iterator[str]:
        for name, solid in self.solids.items():
            if name not in each.parts and _meet(each.body, solid):
                yield f"{each.told} runs through {name}"

    def _own_bores(self, each: Standing) -> list[Manifold]:
        """The bores that it stands in: all of it about its axis, as far as they go together."""
        way, length = np.array(each.fastener.axis), each.fastener.length_mm
        core = _round(each.head, way, 0.0, length, AXIS_MM)
        inside = [bore for name in each.parts for bore in self.bores[name]]
        return [bore for bore in inside if _is_round_it(bore, core, each)]

    def _bores_met(self, each: Standing) -> Iterator[str]:
        own = self._own_bores(each)
        for name in each.parts:
            for bore in self.bores[name]:
                if bore not in own and _meet(each.body, bore):
                    yield f"{each.told} meets another bore in {name}"

    def _out_of_the_wood(self, each: Standing) -> Iterator[str]:
        """What of it lies neither in the wood of its parts nor in a bore that was made for it."""
        around = [self.solids[name] for name in each.parts] + self._own_bores(each)
        body = each.body
        if len(each.parts) == 1:  # an anchor goes on into the wall
            length = each.fastener.incoming_mm
            body = _round(each.head, np.array(each.fastener.axis), 0.0, length, _radius(each))
        bare = reduce(lambda left, solid: left - solid, around, body).volume()
        if bare > max(SPECK_MM3, 0.02 * body.volume()):
            yield f"{each.told} stands out of its wood by {bare:.1f} mm3"

    def _behind_the_head(self, each: Standing) -> Iterator[str]:
        if each.fastener.by not in (HoldBy.SCREW, HoldBy.PIN):
            return
        back = -np.array(each.fastener.axis)
        driver = _round(each.head, back, HEAD_MM, DRIVER_MM, DRIVER_WIDE_MM / 2)
        own = self._own_bores(each)
        met = {
            name
            for name, solid in self.solids.items()
            if _meet(driver, reduce(lambda left, bore: left - bore, own, solid))
        }
        if met:
            for name in sorted(met - self._later(each)):
                yield f"{name} stands behind the head of {each.told}"

    def _later(self, each: Standing) -> set[str]:
        """What comes to its parts in a later glue-up than the one that closes them.

        What an anchor holds goes to the wall as it is when all is glued, by itself if nothing is.
        """
        every = {one.instance for one in self.piece.placed}
        lots_then = self._lots if len(each.parts) > 1 else self._lots[-1:]
        for lots in lots_then:
            for lot in lots:
                if set(each.parts) <= lot:
                    return every - lot
        return set()

    @cached_property
    def _lots(self) -> list[list[frozenset[str]]]:
        """What is one after each glue-up."""
        scene = scene_of(self.piece)
        found = stages_of(self.piece, assembly_of(self.piece, scene), scene=scene)
        lots, after = [frozenset({each.instance}) for each in self.piece.placed], []
        for stage in found.stages if isinstance(found, GlueUps) else ():
            for step in stage.moves:
                both = frozenset({*step.moving, *step.onto})
                lots = [each for each in lots if not each & both] + [both]
            after.append(list(lots))
        return after


def _is_round_it(bore: Manifold, core: Manifold, each: Standing) -> bool:
    """Whether the axis of a fastener runs in a bore, and no thinner than the fastener leaves it."""
    common = (bore ^ core).volume()
    if common <= 0.2 * AXIS_MM**2:
        return False
    beside = bore ^ each.body
    length = common / (core.volume() / each.fastener.length_mm)
    share = beside.volume() / (each.body.volume() / each.fastener.length_mm * length)
    return bool(share > 0.3)


def _body(each: Fastener) -> Manifold:
    return _round(_head(each), np.array(each.axis), 0.0, each.length_mm, each.diameter_mm / 2)


def _radius(each: Standing) -> float:
    return each.fastener.diameter_mm / 2


def _head(each: Fastener) -> np.ndarray:
    return np.array(each.at) - np.array(each.axis) * each.incoming_mm


def _meet(one: Manifold, other: Manifold) -> bool:
    return bool(_boxes_meet(one, other) and (one ^ other).volume() > SPECK_MM3)
