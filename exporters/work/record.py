"""The making as plain data, from which another program can follow every operation."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import fields
from enum import Enum
from typing import Any

from exporters.work.cautions import cautions_for, hazards_of
from exporters.work.glue_record import (
    edge_glue_ups_record,
    finish_record,
    glue_ups_record,
)
from exporters.work.steps import steps_of
from exporters.work.words import WorkWords
from exporters.work.work_mark import work_mark
from furniture.making.bench.laying_out import Matters
from furniture.making.laid_out import LaidOut, laid_out
from furniture.making.making import Making
from furniture.making.operations import CutOf, Operation
from furniture.making.set_ups import Dial, SetUp
from furniture.making.settings import Setting, Skim, Slice, Surface
from furniture.making.workpieces import Wood, Workpiece
from furniture.parts.faces import Arris
from furniture.parts.vectors import Vector
from furniture.pieces.piece import Piece

_WOOD = {Wood.COMMON_BLANK: "strip"}
"""What the record calls wood otherwise than we do."""


def work_record(piece: Piece, making: Making) -> dict[str, Any]:
    """Set-ups, workpieces and operations of a making, under names that stay.

    Args:
        piece: that is made.
        making: of it.
    """
    words = WorkWords(piece, making)
    rows = {key: row for row in laid_out(making, piece.rules) for key in row.operations}
    numbers = {each.key: n for n, each in enumerate(making.operations, start=1)}
    steps = {one.key: each.number for each in steps_of(making) for one in each.operations}
    ids = {
        key: f"s{index}"
        for index, each in enumerate(making.set_ups, start=1)
        for key in each.operations
    }
    return {
        "mark": work_mark(making),
        "setups": [
            _set_up(f"s{index}", each, numbers)
            for index, each in enumerate(making.set_ups, start=1)
        ],
        "workpieces": [_workpiece(each) for each in making.workpieces],
        "operations": [
            _operation(each, numbers, steps[each.key], ids.get(each.key), words)
            | {"laid_out": _laid_out(rows.get(each.key))}
            | {"caution": "; ".join(cautions_for(hazards_of((each,), making), piece)) or None}
            for each in making.operations
        ],
        "edge_glue_ups": edge_glue_ups_record(making),
        "glue_ups": glue_ups_record(making),
        "finish": finish_record(making.finishing),
    }


def _laid_out(row: LaidOut | None) -> dict[str, Any] | None:
    """How the row of a cut is laid out, and what is to be expected of its places and rises."""
    if row is None:
        return None
    return {
        "way": row.expected.way.value,
        "from": row.off.value,
        "matters": row.matters.value,
        "place_off_mm": _tidy(row.expected.off_mm(Matters.PLACES)),
        "rise_off_mm": _tidy(row.expected.off_mm(Matters.RISES)),
    }


def _set_up(name: str, each: SetUp, numbers: Mapping[str, int]) -> dict[str, Any]:
    setting: dict[str, Any] = {
        f"{dial.value.replace(' ', '_')}_mm": _tidy(mm)
        for dial, mm in each.figures
        if dial is not Dial.WHOLE
    }
    whole = [_tidy(mm) for dial, mm in each.figures if dial is Dial.WHOLE]
    if whole:
        setting["left_whole_mm"] = whole
    if each.times:
        setting["spacer_times"] = each.times
    return {
        "id": name,
        "rig": dict(each.rig.told),
        "setting": setting,
        "operations": [numbers[key] for key in each.operations],
    }


def _workpiece(each: Workpiece) -> dict[str, Any]:
    return {
        "id": each.id,
        "what": _WOOD.get(each.what, each.what.value),
        "instances": list(each.instances),
        "size_mm": [_tidy(b - a) for a, b in zip(each.low, each.high, strict=True)],
        "low_mm": _point(each.low),
        "high_mm": _point(each.high),
        "from": each.source,
        "at_mm": _point(each.at_mm),
        "axes": [_point(axis) for axis in each.axes],
        "glued_of": [{"id": one.id, "at_mm": _point(one.at_mm)} for one in each.glued_of],
    }


def _operation(
    each: Operation,
    numbers: Mapping[str, int],
    step: int,
    set_up: str | None,
    words: WorkWords,
) -> dict[str, Any]:
    sawn = each.setting if isinstance(each.setting, Slice | Skim) else None
    return {
        "n": numbers[each.key],
        "step": step,
        "key": each.key,
        "stage": each.stage.value,
        "kind": each.kind.value,
        "setup": set_up,
        "takes": list(each.takes),
        "gives": list(each.gives),
        "cuts": _cuts(each.cuts),
        "begins": _cuts(each.begins),
        "sizes": [{"instance": one.instance, "axis": one.axis.value} for one in each.sizes],
        "by_mm": _by(each.setting),
        "kerf_mm": None if sawn is None else _tidy(sawn.kerf_mm),
        "reference": {
            "down": None if each.hold.down is None else each.hold.down.value,
            "against": None if each.hold.against is None else each.hold.against.value,
            "stop_end": None if each.hold.stop is None else each.hold.stop.value,
            "stop_block": None if each.stop_block is None else each.stop_block.value,
        },
        "depths_mm": [_tidy(mm) for mm in each.depths_mm],
        "scrap": None if each.scrap is None else dict(each.scrap.told),
        "support": None if each.support is None else each.support.value,
        "kept": _kept(each.setting),
        "lean": None if sawn is None else _tidy(sawn.lean_deg) or None,
        "pass": setting_record(each.setting),
        "after": [numbers[one.key] for one in each.after],
        "why": [one.why.value for one in each.after],
        "fit_to": [
            {"figure": one.figure.value, "n": numbers.get(one.key), "key": one.key}
            for one in each.fit_to
        ],
        "text": words.line_of(each),
    }


def _kept(setting: Setting | None) -> str | None:
    """Which side of the blade is kept: left is the lesser along the axis of the part's frame."""
    if isinstance(setting, Slice):
        return "right" if setting.off.is_far else "left"
    if isinstance(setting, Skim):
        return "left" if setting.face.is_far else "right"
    return None


def _by(setting: Setting | None) -> float | None:
    """How much comes off all over a face or an end [mm]."""
    return _tidy(setting.takes_mm) if isinstance(setting, Surface | Skim) else None


def setting_record(setting: Setting | None) -> dict[str, Any] | None:
    """Every figure of a pass, under its own name; faces by the names that the cuts have.

    Args:
        setting: of an operation.
    """
    if setting is None:
        return None
    record: dict[str, Any] = {"what": type(setting).__name__.lower()}
    for each in fields(setting):
        record[each.name] = _plain(getattr(setting, each.name))
    return record


def _plain(value: object) -> Any:
    match value:
        case Enum():
            return value.value
        case Arris():
            return value.name
        case float():
            return _tidy(value)
        case tuple():
            return [_plain(each) for each in value]
        case _:
            return value


def _cuts(cuts: Sequence[CutOf]) -> list[dict[str, Any]]:
    return [{"instance": each.instance, "index": each.index} for each in cuts]


def _point(point: Vector) -> list[float]:
    return [_tidy(value) for value in point]


def _tidy(value: float) -> float:
    """Free of rounding dust, and never minus nothing."""
    return round(value, 9) + 0.0
