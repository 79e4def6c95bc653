"""What an earlier packet tells of its work: its operations by number, and its boards cut up."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from furniture.job.done import DoneOf
from furniture.job.figures import AXES
from furniture.parts.part import Part

Rect = tuple[float, float, float, float]
"""x, y, length and width on the board as it was [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutMade:
    """A pass of the saw in a plan: across or along the piece in hand, its kerf's near side [mm]."""

    number: int
    is_rip: bool
    at_mm: float
    kerf_mm: float
    in_hand: Rect


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """A packet's work.

    Args:
        operations: keys by the number on the work sheet.
        cuts: by operation, the instances and places of cuts that it finishes.
        sizes: by operation, the instances and axes that it brings to size.
        board_cuts: of every board, in their order.
        cut_from: of every instance, its board and rectangle (x, y, length, width) [mm].
    """

    operations: Mapping[int, str] = field(default_factory=dict)
    cuts: Mapping[str, tuple[tuple[str, int], ...]] = field(default_factory=dict)
    sizes: Mapping[str, tuple[tuple[str, int], ...]] = field(default_factory=dict)
    board_cuts: Mapping[str, tuple[CutMade, ...]] = field(default_factory=dict)
    cut_from: Mapping[str, tuple[str, Rect]] = field(default_factory=dict)

    @property
    def together(self) -> Mapping[str, frozenset[str]]:
        """What lies with each instance on one blank, itself too."""
        laid: dict[object, set[str]] = {}
        for name, place in self.cut_from.items():
            laid.setdefault(place, set()).add(name)
        return {name: frozenset(laid[place]) for name, place in self.cut_from.items()}


def worked_in(record: Mapping[str, Any]) -> Worked:
    """The work that a piece.json tells of.

    Args:
        record: as it was written.

    Raises:
        KeyError: it is not of ours.
    """
    rows = (record.get("work") or {}).get("operations", [])
    boards = (record.get("cutting_plan") or {}).get("boards", [])
    return Worked(
        operations={row["n"]: row["key"] for row in rows},
        cuts={
            row["key"]: tuple((cut["instance"], cut["index"]) for cut in row["cuts"])
            for row in rows
        },
        sizes={
            row["key"]: tuple((size["instance"], AXES.index(size["axis"])) for size in row["sizes"])
            for row in rows
        },
        board_cuts={
            board["name"]: tuple(
                CutMade(
                    number=cut["number"],
                    is_rip=cut["kind"] == "rip",
                    at_mm=cut["at_mm"],
                    kerf_mm=cut["kerf_mm"],
                    in_hand=_place(cut["workpiece"]),
                )
                for cut in board["cuts"]
            )
            for board in boards
        },
        cut_from={
            each["instance"]: (board["name"], _place(laid))
            for board in boards
            for laid in board["placements"]
            for each in laid["instances"]
        },
    )


def _place(row: Mapping[str, Any]) -> Rect:
    return row["x_mm"], row["y_mm"], row["length_mm"], row["width_mm"]


def done_by(keys: Sequence[str], worked: Worked, parts: Mapping[str, Part]) -> dict[str, DoneOf]:
    """What of the parts is done when these operations are.

    Args:
        keys: of the operations that are done.
        worked: the packet that they are of.
        parts: of the piece, by instance.
    """
    axes = _gathered(worked.sizes, keys)
    cuts = _gathered(worked.cuts, keys)
    found = {}
    for name in (each for each in parts if axes.get(each) or cuts.get(each)):
        mine, sizes = cuts.get(name, set()), axes.get(name, set())
        # A cut that the part has no longer was struck out of the design, and asks for nothing.
        own = frozenset(index for index in mine if index < len(parts[name].cuts))
        found[name] = DoneOf(
            axes=frozenset(sizes),
            cuts=own,
            is_whole=len(sizes) == len(AXES) and len(own) == len(parts[name].cuts),
        )
    return found


def _gathered(
    of: Mapping[str, Iterable[tuple[str, int]]], keys: Sequence[str]
) -> dict[str, set[int]]:
    found: dict[str, set[int]] = {}
    for key in keys:
        for name, index in of.get(key, ()):
            found.setdefault(name, set()).add(index)
    return found
