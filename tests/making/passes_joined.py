"""What several passes of a cutter take away together, told from their settings alone."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from furniture.making.operations import Operation
from furniture.making.settings import Bored, MitreGroove, Setting, StraightEdge, Trench
from furniture.rules.tools import STACK_ERROR


class CannotBeMade(Exception):  # noqa: N818 - says what is amiss
    """An operation that no wood in hand allows."""

    def __init__(self, operation: Operation, why: str) -> None:
        super().__init__(f"{operation.key}: {why}")
        self.key, self.why = operation.key, why


def settings_of(operation: Operation) -> Sequence[Setting]:
    """The setting, or where a cutter takes several passes, what they cut away together.

    A dado's passes are told by how far the cutter's near side is shifted from that of the setting,
    those of a rabbet by how much of the cutter is at work beyond the fence. Passes that overlap
    leave one channel; what stands between two that do not stays.
    """
    setting = operation.setting
    assert setting is not None
    if operation.straight_edge is not None:
        return _along_the_edge(operation, operation.straight_edge)
    if not operation.near_mm or not isinstance(setting, Trench | MitreGroove):
        return (setting,)
    assert operation.rig is not None
    wide = operation.rig.cutter.size_mm
    if wide is None:
        raise CannotBeMade(operation, "several passes of a cutter without a width")
    if setting.near_mm == 0.0 and isinstance(setting, Trench):
        spans = [(max(0.0, shows - wide), shows) for shows in operation.near_mm]
    else:
        starts = [setting.near_mm + shift for shift in operation.near_mm]
        spans = [(start, start + wide) for start in starts]
    return [replace(setting, near_mm=low, width_mm=high - low) for low, high in _joined(spans)]


def _along_the_edge(operation: Operation, edge: StraightEdge) -> Sequence[Setting]:
    """What a router cuts whose base runs along an edge: its place is told by that edge alone.

    A bit as near to the width as the shop allows leaves that width, as a dado head does.
    """
    setting, rig = operation.setting, operation.rig
    assert rig is not None
    assert rig.cutter.size_mm is not None
    shims = [each - min(operation.near_mm) for each in operation.near_mm] or [0.0]
    spans = [(at, at + rig.cutter.size_mm) for at in edge.near_mm(rig.cutter.size_mm, shims)]
    if isinstance(setting, Bored):
        middle, beside = (spans[0][0] + spans[0][1]) / 2.0, setting.beside
        assert setting.off[beside] is edge.off
        assert setting.to_mm is not None
        moved = [(*at[:beside], middle, *at[beside + 1 :]) for at in (setting.at_mm, setting.to_mm)]
        return (replace(setting, at_mm=moved[0], to_mm=moved[1]),)
    assert isinstance(setting, Trench)
    channels = [(low, high - low) for low, high in _joined(spans)]
    if len(channels) == 1 and abs(channels[0][1] - setting.width_mm) <= STACK_ERROR.value:
        channels = [(channels[0][0], setting.width_mm)]
    return [replace(setting, off=edge.off, near_mm=near, width_mm=wide) for near, wide in channels]


def _joined(spans: Iterable[tuple[float, float]]) -> list[tuple[float, float]]:
    """Passes that overlap leave one channel."""
    found: list[tuple[float, float]] = []
    for low, high in sorted(spans):
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return found
