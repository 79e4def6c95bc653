"""work.csv: one row for each operation, in order."""

from __future__ import annotations

from exporters.work.steps import steps_of
from exporters.work.words import WorkWords
from furniture.making.making import Making
from furniture.making.operations import Operation
from furniture.making.settings import Rig
from furniture.parts.part import Part
from furniture.pieces.piece import Piece
from furniture.units import dialled

WORK_HEADER = (
    "n", "step", "stage", "set-up", "machine", "cutter", "cutter size", "tilt deg", "setting",
    "unit", "wood", "work", "makes", "after", "why", "laid out",
)  # fmt: skip


def work_rows(piece: Piece, making: Making) -> list[tuple[str, ...]]:
    """One row for each operation, lengths in the shown unit.

    Args:
        piece: that is made.
        making: of it.
    """
    words = WorkWords(piece, making)
    numbers = {each.key: n for n, each in enumerate(making.operations, start=1)}
    steps = {one.key: each.number for each in steps_of(making) for one in each.operations}
    of = {key: n for n, each in enumerate(making.set_ups, start=1) for key in each.operations}
    parts = {each.instance: each.part for each in piece.placed}
    rows: list[tuple[str, ...]] = []
    for each in making.operations:
        line = words.bare_line_of(each)
        rows.append(
            (
                str(numbers[each.key]),
                str(steps[each.key]),
                each.stage.value,
                str(of.get(each.key, "")),
                *_machine(each.rig, piece),
                words.set_for(each),
                piece.shown.unit.symbol,
                line.wood,
                "; ".join(filter(None, (line.what, line.placement_in_words))),
                _makes(each, parts),
                " ".join(str(numbers[one.key]) for one in each.after),
                "; ".join(dict.fromkeys(one.why.value for one in each.after)),
                words.laid_out(each),
            )
        )
    return rows


def _machine(rig: Rig | None, piece: Piece) -> tuple[str, str, str, str]:
    if rig is None:
        return ("", "", "", "")
    size = rig.cutter.size_mm
    return (
        rig.machine.value,
        rig.cutter.kind.value,
        "" if size is None else str(dialled(size, piece.shown)),
        f"{rig.tilt_deg:g}" if rig.tilt_deg else "",
    )


def _makes(operation: Operation, parts: dict[str, Part]) -> str:
    """The sizes reached and the cuts finished, such as `left stub: mitre, length`."""
    made: dict[str, list[str]] = {}
    for cut in operation.cuts:
        made.setdefault(cut.instance, []).append(parts[cut.instance].cuts[cut.index].name)
    for size in operation.sizes:
        made.setdefault(size.instance, []).append(size.axis.value)
    return "; ".join(f"{name}: {', '.join(what)}" for name, what in made.items())
