"""What an earlier packet tells of its work: its operations by number, and its boards cut up."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from furniture.job.before import NOTHING_BEFORE, Before, before_in, together
from furniture.job.done import Done, DoneOf
from furniture.job.figures import AXES
from furniture.making.operations import Kind, Stage
from furniture.making.settings import Recorded
from furniture.making.strips_in_hand import StripsInHand, StripWood, strips_in
from furniture.making.strips_in_hand import of_copy as strips_of_copy
from furniture.making.workpieces import board_id
from furniture.parts.part import Part
from furniture.pieces import Piece

Rect = tuple[float, float, float, float]
"""x, y, length and width on the board as it was [mm]."""
Laid = tuple[str, Rect]
"""A board, and where on it."""


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
        operations: keys by their number in work.csv.
        steps: keys by the number on the work sheets, where like work stands under one.
        cuts: by operation, the instances and places of cuts that it finishes.
        sizes: by operation, the instances and axes that it brings to size.
        had: by operation, the instances that are in hand.
        of_scrap: of every operation that takes no part, what is tried or sawn by it.
        looks: operations that measure a thickness.
        planed: of operations that plane a whole board, its name and how thick it is then [mm].
        board_cuts: of every board, in their order.
        cut_from: of every instance, its board and rectangle (x, y, length, width) [mm]; several
            where it is glued up from strips.
        thick_mm: of every instance, how thick the board is that it was cut from.
        in_strips: what it glues up from strips.
        before: what the packet was written after.
        mark: that its work sheets carry, or without work those of its boards, so that its numbers
            are not taken for another's.
    """

    operations: Mapping[int, str] = field(default_factory=dict)
    steps: Mapping[int, tuple[str, ...]] = field(default_factory=dict)
    cuts: Mapping[str, tuple[tuple[str, int], ...]] = field(default_factory=dict)
    sizes: Mapping[str, tuple[tuple[str, int], ...]] = field(default_factory=dict)
    had: Mapping[str, frozenset[str]] = field(default_factory=dict)
    of_scrap: Mapping[str, Recorded] = field(default_factory=dict)
    looks: frozenset[str] = frozenset()
    planed: Mapping[str, tuple[str, float]] = field(default_factory=dict)
    board_cuts: Mapping[str, tuple[CutMade, ...]] = field(default_factory=dict)
    cut_from: Mapping[str, tuple[Laid, ...]] = field(default_factory=dict)
    thick_mm: Mapping[str, float] = field(default_factory=dict)
    in_strips: tuple[StripsInHand, ...] = ()
    before: Before = NOTHING_BEFORE
    mark: str = ""

    @property
    def together(self) -> Mapping[str, frozenset[str]]:
        """What lies with each instance on one blank, itself too."""
        laid: dict[object, set[str]] = {each: {*each} for each in self.before.lengths}
        for name, places in self.cut_from.items():
            for place in places:
                laid.setdefault(place, set()).add(name)
        found: dict[str, frozenset[str]] = {}
        for names in laid.values():
            found |= {name: found.get(name, frozenset()) | names for name in names}
        return found

    @property
    def done_before(self) -> frozenset[str]:
        """Operations that were done before the packet was written, and that it does not ask again:
        the same work on other wood goes by the same key."""
        return frozenset({*self.before.had, *self.before.of_scrap} - {*self.operations.values()})

    def made_for(self, names: Collection[str]) -> Iterator[str]:
        """The operations that made these parts; one over a length made what lies beside them too.

        Args:
            names: instances on which nothing is left to be done.
        """
        for key in self.had:
            made = (*self.cuts.get(key, ()), *self.sizes.get(key, ()))
            if any(name in names for name, _ in made):
                yield key


UNREAD = Worked()
"""Of a packet that is refused: what hangs on it is not refused besides."""


def in_batch(mark: str, name: str) -> str:
    """What a part of one copy in a batch is called among all; by itself where there is no mark."""
    return f"{mark}: {name}" if mark else name


def of_copy(worked: Worked, plan: Worked, mark: str) -> Worked:
    """A piece's work with the boards of its batch, and of what lies there only what is this copy's.

    Args:
        worked: of the piece alone.
        plan: of the batch, where every part goes by its name among all.
        mark: of the copy.
    """
    own = in_batch(mark, "")
    mine = {each: each.removeprefix(own) for each in plan.cut_from if each.startswith(own)}
    return replace(
        worked,
        board_cuts=plan.board_cuts,
        in_strips=worked.in_strips or strips_of_copy(plan.in_strips, mark),
        cut_from={name: plan.cut_from[each] for each, name in mine.items()},
        thick_mm={**worked.thick_mm}
        | {name: plan.thick_mm[each] for each, name in mine.items() if each in plan.thick_mm},
    )


def worked_in(record: Mapping[str, Any]) -> Worked:
    """The work that a piece.json tells of.

    Args:
        record: as it was written.

    Raises:
        KeyError: it is not of ours.
    """
    work = record.get("work") or {}
    rows = work.get("operations", [])
    inside = {row["id"]: row["instances"] for row in work.get("workpieces", [])}
    rigs = {row["id"]: row["rig"] for row in work.get("setups", [])}
    plan, job = record.get("cutting_plan") or {}, record.get("job") or {}
    boards = plan.get("boards", [])
    names = {board_id(board["name"]): board["name"] for board in boards}
    before = before_in(record)
    return Worked(
        operations={row["n"]: row["key"] for row in rows},
        steps=_steps(rows),
        cuts={
            row["key"]: tuple((cut["instance"], cut["index"]) for cut in row["cuts"])
            for row in rows
        },
        sizes={
            row["key"]: tuple((size["instance"], AXES.index(size["axis"])) for size in row["sizes"])
            for row in rows
        },
        had={**before.had}
        | {
            row["key"]: frozenset(
                name for wood in row["takes"] for name in inside.get(wood, (wood,))
            )
            for row in rows
        },
        of_scrap={**before.of_scrap}
        | {
            row["key"]: told
            for row in rows
            if not row["takes"] and (told := row.get("scrap") or rigs.get(row["setup"]))
        },
        looks=frozenset(
            row["key"]
            for row in rows
            if row.get("kind") == Kind.MEASURE.value and row.get("stage") == Stage.MILL.value
        ),
        planed={
            row["key"]: (names[row["takes"][0]], row["pass"]["at_mm"])
            for row in rows
            if row.get("kind") == Kind.PLANE.value and row["takes"][0] in names
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
        cut_from=_cut_from(boards),
        thick_mm={**before.thick_mm}
        | {
            each["instance"]: board["thickness_mm"]
            for board in boards
            if "thickness_mm" in board  # not told in older packets
            for laid in board["placements"]
            for each in laid["instances"]
        },
        in_strips=tuple(_in_strips(work.get("workpieces", [])))
        or (*strips_in(plan.get("strips", [])), *strips_in(job.get("in_strips", []))),
        before=before,
        mark=work.get("mark") or plan.get("mark", ""),
    )


def _steps(rows: Sequence[Mapping[str, Any]]) -> dict[int, tuple[str, ...]]:
    """None where the packet was written before its record told of steps."""
    found: dict[int, tuple[str, ...]] = {}
    for row in rows:
        if "step" in row:
            found[row["step"]] = (*found.get(row["step"], ()), row["key"])
    return found


def _cut_from(boards: Sequence[Mapping[str, Any]]) -> dict[str, tuple[Laid, ...]]:
    found: dict[str, tuple[Laid, ...]] = {}
    for board in boards:
        for laid in board["placements"]:
            for each in laid["instances"]:
                name = each["instance"]
                found[name] = (*found.get(name, ()), (board["name"], _place(laid)))
    return found


def _in_strips(rows: Sequence[Mapping[str, Any]]) -> Iterator[StripsInHand]:
    """None where the packet was written before its record told of strips."""
    by_id = {row["id"]: row for row in rows}
    for row in rows:
        if row.get("glued_of"):
            yield StripsInHand(
                instances=tuple(row["instances"]),
                thickness_mm=row["high_mm"][2] - row["low_mm"][2],
                strips=tuple(
                    StripWood(
                        low=tuple(by_id[each["id"]]["low_mm"]),
                        high=tuple(by_id[each["id"]]["high_mm"]),
                        across_mm=each["at_mm"][1],
                    )
                    for each in row["glued_of"]
                ),
            )


def _place(row: Mapping[str, Any]) -> Rect:
    return row["x_mm"], row["y_mm"], row["length_mm"], row["width_mm"]


def in_strips(piece: Piece, worked: Worked) -> tuple[StripsInHand, ...]:
    """What keeps its wood and has it in strips, or is glued up of them and not yet all made.

    Args:
        piece: that knows which parts are done, and whose wood is in hand.
        worked: the packet that was worked by.
    """
    there = piece.done | piece.in_hand
    return tuple(
        each
        for each in worked.in_strips
        if there.issuperset(each.instances) and not piece.done.issuperset(each.instances)
    )


def done_by(keys: Sequence[str], worked: Worked, parts: Mapping[str, Part]) -> Done:
    """What of the parts is done when these operations are, and what was done before the packet.

    Args:
        keys: of the operations that are done.
        worked: the packet that they are of.
        parts: of the piece, by instance.
    """
    axes = _gathered(worked.sizes, keys)
    cuts = _gathered(worked.cuts, keys)
    found = {name: of for name, of in worked.before.done.items() if name in parts}
    for name in (each for each in parts if axes.get(each) or cuts.get(each)):
        mine, sizes = cuts.get(name, set()), axes.get(name, set())
        # A cut that the part has no longer was struck out of the design, and asks for nothing.
        own = frozenset(index for index in mine if index < len(parts[name].cuts))
        of = DoneOf(axes=frozenset(sizes), cuts=own, is_whole=False)
        found[name] = together(of, found.get(name), len(parts[name].cuts))
    return found


def _gathered(
    of: Mapping[str, Iterable[tuple[str, int]]], keys: Sequence[str]
) -> dict[str, set[int]]:
    found: dict[str, set[int]] = {}
    for key in keys:
        for name, index in of.get(key, ()):
            found.setdefault(name, set()).add(index)
    return found
