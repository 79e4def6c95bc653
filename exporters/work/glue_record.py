"""Glue-ups and finish as plain data: faces and areas, glue, clamps with their pads, hours."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from furniture.making.amounts import Finishing, Gluing, Pressing
from furniture.making.glue_ups.values import ClampLine, Pad, Stage
from furniture.making.making import Making
from furniture.making.operations import Kind


def glue_ups_record(making: Making) -> list[dict[str, Any]]:
    """Every glue-up in order, under names that stay.

    Args:
        making: of a piece.
    """
    gluing = {each.number: each for each in making.gluing}
    return [_glue_up(each, gluing.get(each.number)) for each in _stages(making)]


def edge_glue_ups_record(making: Making) -> list[dict[str, Any]]:
    """Every part that is glued up from strips, under names that stay.

    Args:
        making: of a piece.
    """
    left = {
        name for each in making.operations if each.kind is Kind.EDGE_GLUE for name in each.gives
    }
    return [
        {
            "wood": each.wood,
            "lines": each.lines,
            "glue_g": _tidy(each.grams),
            "spread_min": _tidy(each.spread_minutes),
            "closed_min": None if each.closed_minutes is None else _tidy(each.closed_minutes),
            "force_n": None if each.force_n is None else _tidy(each.force_n),
            "clamps": each.clamps.count,
            "clamps_wanting": each.wanting,
            "clamps_apart_mm": _tidy(each.apart_mm),
            "opening_mm": _tidy(each.opening_mm),
            "caul_pairs": each.cauls,
        }
        for each in making.edge_gluing
        if each.wood in left
    ]


def finish_record(finishing: Finishing | None) -> dict[str, Any] | None:
    """What the finish takes; None where there is none.

    Args:
        finishing: of a piece.
    """
    if finishing is None:
        return None
    return {
        "family": finishing.facts.family.value,
        "coats": finishing.coats,
        "grits": list(finishing.grits),
        "area_mm2": _tidy(finishing.area_mm2),
        "litres": _tidy(finishing.litres),
        "dry_hours": _tidy(finishing.time.dry_hours),
        "work_days": finishing.time.work_days,
        "cured_days": _tidy(finishing.time.cured_days),
    }


def _stages(making: Making) -> Iterator[Stage]:
    """The glue-ups that are left to do, each once."""
    seen: set[int] = set()
    for each in making.operations:
        if each.glue_up is not None and each.glue_up.number not in seen:
            seen.add(each.glue_up.number)
            yield each.glue_up


def _glue_up(stage: Stage, takes: Gluing | None) -> dict[str, Any]:
    return {
        "number": stage.number,
        "bodies": [list(body) for body in stage.bodies],
        "dry": list(stage.dry),
        "at_once": [{"on": one.carrier, "parts": list(one.parts)} for one in stage.at_once],
        "glued": [[each.into, each.incoming] for each in stage.glued],
        "areas": [
            {"grain": each.grain.value, "area_mm2": _tidy(each.area_mm2)} for each in stage.areas
        ],
        "glue_g": None if takes is None else _tidy(takes.grams),
        "spread_s": _tidy(stage.spread_seconds),
        "over_open_s": _tidy(stage.over_open_seconds),
        "clamps": [
            _line(line, None if takes is None else takes.pressing[at])
            for at, line in enumerate(stage.clamps)
        ],
        "bands": [{"round": list(each.round), "axis": _point(each.axis)} for each in stage.bands],
        "unpressed": [list(pair) for pair in stage.unpressed],
    }


def _line(line: ClampLine, pressing: Pressing | None) -> dict[str, Any]:
    force_n = None if pressing is None else pressing.force_n
    return {
        "direction": _point(line.direction),
        "force_n": None if force_n is None else _tidy(force_n),
        "pressed": [list(pair) for pair in dict.fromkeys(pair for pair, _ in line.pressed)],
        "throat_mm": _tidy(line.throat_mm),
        "reach": None if pressing is None else pressing.reach.value,
        "pads": [_pad(each) for each in line.pads],
    }


def _pad(pad: Pad) -> dict[str, Any]:
    return {
        "on": pad.instance,
        "at_mm": _point(pad.at),
        "push": _point(pad.push),
        "bears": _tidy(pad.share),
        "caul": pad.caul.value,
        "rise_mm": _tidy(pad.rise_mm),
        "free_mm": _tidy(pad.free_mm),
    }


def _point(point: tuple[float, float, float]) -> list[float]:
    return [_tidy(value) for value in point]


def _tidy(value: float) -> float:
    """Free of rounding dust, and never minus nothing."""
    return round(value, 6) + 0.0
