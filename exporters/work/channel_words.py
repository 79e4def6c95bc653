"""Rabbets, grooves and dados in a maker's words: how they run, where they stop, in which passes."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from exporters.work.lines import PlacementWords, Told
from furniture.making.operations import Operation
from furniture.making.settings import Guide, Machine, Trench
from furniture.parts.faces import EDGES, Face
from furniture.units import Shown, decimal_figure, dialled, listed, plural

_SHIM_MM = 1.5
"""A cutter moved on by less is moved by a shim: no scale is read so finely. Own rule."""


def straight_edge_in_words(
    operation: Operation, name: Callable[[Face], str], shown: Shown
) -> Iterator[str]:
    """Where the edge lies that a router's base runs along.

    Args:
        operation: the pass.
        name: what a face of the wood is called.
        shown: how lengths are shown.
    """
    edge = operation.straight_edge
    if edge is None:
        return
    wall = "near" if edge.towards is edge.off else "far"
    margin = dialled(edge.margin_mm, shown)
    on = "" if edge.at_mm >= 0.0 or wall == "far" else ", beyond the wood on packing as thick"
    yield (
        f"straight edge clamped {margin} beside the {wall} wall, towards the "
        f"{name(edge.towards)}{on} (half base less half bit)"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class ChannelWords:
    """Tells one pass that sinks a channel.

    Args:
        operation: the pass.
        setting: of it.
        name: what a face of the wood is called.
        shown: how lengths are shown.
        lie: how the wood lies.
    """

    operation: Operation
    setting: Trench
    name: Callable[[Face], str]
    shown: Shown
    placement: PlacementWords

    def told(self) -> Told:
        """What a machine or a hand cuts from one end of its run to the other."""
        setting, kind = self.setting, self.operation.kind.value
        where = "" if setting.near_mm else f" along the {self.name(setting.off)}"
        if self._is_by_hand():
            size = f" {self._dial(setting.width_mm)} wide, {self._dial(setting.depth_mm)} deep"
            off = f", {self._dial(setting.near_mm)} off the {self.name(setting.off)}"
            face = f" in the {self.name(setting.face)}"
            where = f"{where}{face}{off if setting.near_mm else ''},{size}"
        rest = "".join(f", {each}" for each in (*self._stops(), *self._passes()))
        return Told(
            what=f"{kind}{where}{rest}",
            placement=self._fed(),
            several=f"{{n}} {plural(kind)}{where}{rest}",
        )

    def chopped(self, begun: Operation) -> Told:
        """What the chisel cuts where a round cutter has begun.

        Args:
            begun: the pass of that cutter.
        """
        left = begun.setting
        assert isinstance(left, Trench), "only a channel is begun"
        ends = [self.name(face) for face, whole in self._ends() if whole > 0.0]
        kind = begun.kind.value
        if left.run_out_mm:
            rest = f"the last {self._dial(left.run_out_mm)} to full depth, up to the mark"
        else:
            rest = f"the bit leaves R{self._dial(left.corner_mm)} in its corners"
        where = f" towards the {listed(ends)}: {rest}"
        return Told(
            what=f"chop the {kind} square{where}",
            several=f"chop {{n}} {plural(kind)} square{where}",
        )

    def _ends(self) -> tuple[tuple[Face, float], ...]:
        """The faces at which the run ends, and how far from each it stops on the surface [mm]."""
        low, high = (Face.NAMED_END, Face.FAR_END) if self.setting.along == 0 else EDGES
        return tuple(zip((low, high), self.setting.marks_mm, strict=True))

    def _stops(self) -> Iterator[str]:
        for face, whole in self._ends():
            if whole > 0.0:
                yield f"stopped {self._dial(whole)} short of the {self.name(face)}"
                yield from self._base_stopped(whole)
        beyond, corner = self.setting.run_out_mm, self.setting.corner_mm
        if beyond:
            yield f"on the surface: full depth ends {self._dial(beyond)} before that"
        elif corner and not self.operation.begins:
            yield f"its corners left round, R{self._dial(corner)}"

    def _base_stopped(self, whole_mm: float) -> Iterator[str]:
        """Where a block stops a router's base, that the bit stops where it must."""
        edge = self.operation.straight_edge
        if edge is not None:
            past = edge.margin_mm - whole_mm
            side = "beyond" if past > 0.0 else "short of"
            yield f"a block {self._dial(abs(past))} {side} it stops the base"

    def _fed(self) -> PlacementWords:
        """How the wood lies; along a fence which end goes in first, where the other is stopped."""
        rig = self.operation.rig
        lies = (*self.placement, *straight_edge_in_words(self.operation, self.name, self.shown))
        first = [self.name(face) for face, whole in self._ends() if whole == 0.0]
        is_led = rig is not None and rig.guide is Guide.FENCE and len(first) == 1
        return (*lies, f"{first[0]} first") if is_led else lies

    def _passes(self) -> Iterator[str]:
        """Passes beside one another; of a rabbet, how much of the cutter is at work in each."""
        places = self.operation.near_mm
        if not places:
            return
        count = len(places)
        if self.setting.near_mm == 0.0:
            shows = listed([str(self._dial(each)) for each in places])
            yield f"in {count} passes, the far side of the cutter {shows} inwards"
            return
        moved = [each for each in places if each > 0.0]
        if count == 2 and moved[0] < _SHIM_MM:
            thick = decimal_figure(moved[0], self.shown)
            yield f"in 2 passes, the second with a shim of {thick} at the guide"
        else:
            on = listed([str(self._dial(each)) for each in moved])
            yield f"in {count} passes, the cutter moved on by {on}"

    def _is_by_hand(self) -> bool:
        rig = self.operation.rig
        return rig is not None and rig.machine is Machine.BENCH

    def _dial(self, mm: float) -> str:
        return str(dialled(mm, self.shown))
