"""piece.json: the whole piece as plain data, from which another program can rebuild it."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from furniture.checks.finding import Finding
from furniture.checks.of_piece.setting import Setting, setting_record
from furniture.joints.joint import Fastener, InSlot, JointFace
from furniture.parts.cuts import record_of
from furniture.parts.vectors import Vector
from furniture.pieces import Piece, bought_parts, distinct_parts, extents_of, timbers_of
from furniture.pieces.weighed import Weighed
from furniture.rules import Rules, rules_record
from furniture.timber.doubt import doubts_of
from furniture.units import as_given

SCHEMA = "knifewall.piece/1"
BATCH_SCHEMA = "knifewall.batch/1"


def summary_of(
    piece: Piece,
    weighed: Weighed | None,
    findings: Sequence[Finding],
    files: Sequence[str],
    assembly: list[dict[str, Any]] | dict[str, Any] | None = None,
    cutting: Mapping[str, Any] | None = None,
    setting: Setting | None = None,
    digests: Mapping[str, str] | None = None,
    work: Mapping[str, Any] | None = None,
    job: Mapping[str, Any] | None = None,
) -> dict[str, Any]:
    """The summary as plain data; what needs the solids is null when they were not made.

    Args:
        piece: the piece.
        weighed: its mass and extents, if weighed.
        findings: of the checks.
        files: relative paths that stand in the packet.
        assembly: the proof of assembly as plain data, when it was made.
        cutting: the cutting plan as plain data, when it was made.
        setting: where the piece stands; the usual place when left out.
        digests: SHA-256 of each file beside this one, so that a changed one is known as such.
        work: every operation from rough wood to the finished piece, when it was worked out.
        job: what is done and measured of it already, where a job file tells.
    """
    low, high = extents_of(piece) if weighed is None else weighed.extents
    return {
        "schema": SCHEMA,
        "name": piece.name,
        "slug": piece.slug,
        "copy_of": piece.copy_of or None,
        "shown_in": piece.shown.unit.symbol,
        "parameters": as_given(piece.parameters),
        "stocks": [_stock(timber, piece.rules) for timber in timbers_of(piece)],
        "loads": [
            {
                "on": load.on,
                "name": load.name,
                "kind": load.kind.value,
                "mass_kg": load.mass_kg,
                "footprint_mm": list(load.footprint_mm),
                "centre_height_mm": load.centre_height_mm,
            }
            for load in piece.loads
        ],
        "fixed": [
            {
                "name": body.name,
                "mass_kg": body.mass_kg,
                "centre_mm": list(body.centre_mm),
                "size_mm": list(body.size_mm),
            }
            for body in piece.fixed
        ],
        "mass_kg": None if weighed is None else weighed.whole.mass_kg,
        "centre_of_mass_mm": None if weighed is None else list(weighed.whole.centre_mm),
        "extents_mm": [_tidy(high[axis] - low[axis]) for axis in range(3)],
        "parts": _parts(piece, weighed),
        "bought": [
            {
                "name": each.name,
                "quantity": each.quantity,
                "diameter_mm": None if each.diameter_mm is None else _tidy(each.diameter_mm),
                "length_mm": None if each.length_mm is None else _tidy(each.length_mm),
                "where": list(each.where),
                "note": each.note,
            }
            for each in bought_parts(piece)
        ],
        "placements": _placements(piece),
        "joints": [
            {
                "kind": joining.kind,
                "role": joining.role.value,
                "into": joining.into,
                "from": joining.incoming,
                "fit": None if joining.fit is None else joining.fit.name,
                "clearance_mm": _tidy(joining.clearance_mm),
                "glue_area_mm2": round(joining.glue_area_mm2, 3),
                "glue": [
                    {"area_mm2": round(face.area_mm2, 3), "grain": face.glue.value}
                    for face in joining.faces
                    if face.glue is not None
                ],
                "faces": [_face(face) for face in joining.faces],
                "fasteners": [_fastener(each) for each in joining.fasteners],
                "unstated": joining.unstated,
                "advice": joining.advice,
            }
            for joining in piece.joinings
        ],
        "anchors": [
            {
                "instance": anchor.instance,
                "fasteners": [_fastener(each) for each in anchor.fasteners],
            }
            for anchor in piece.anchors
        ],
        "notes": [each.text for each in piece.notes],
        "checks": [
            {
                "check": each.check.name,
                "kind": each.check.kind.value,
                "subject": each.subject,
                "value": each.value,
                "limit": each.limit,
                "sense": None if each.sense is None else each.sense.value,
                "unit": each.unit,
                "verdict": each.verdict.value,
                "basis": each.basis,
                "advice": each.advice,
                "parameters": list(each.parameters),
            }
            for each in findings
        ],
        "assembly": assembly,
        "cutting_plan": None if cutting is None else dict(cutting),
        "work": None if work is None else dict(work),
        "job": None if job is None else dict(job),
        "place": setting_record(setting or Setting()),
        "rules": rules_record((setting or Setting()).rules),
        "files": list(files),
        "sha256": dict(digests or {}),
    }


def write_summary(summary: dict[str, Any], path: Path) -> Path:
    """The file written.

    Raises:
        ValueError: a number in it is not finite.
    """
    text = json.dumps(summary, indent=1, ensure_ascii=False, allow_nan=False)
    path.write_text(text + "\n", encoding="utf-8")
    return path


def _stock(timber: Any, rules: Rules) -> dict[str, Any]:
    return {
        "name": timber.name,
        "species": timber.species.name,
        "thickness_mm": timber.thickness_mm,
        "moisture_pct": timber.moisture_pct,
        "moisture_is_assumed": timber.moisture_is_assumed,
        "sawn": timber.sawn.value,
        "density_kg_m3": round(timber.density_kg_m3, 3),
        "botanical": timber.species.botanical or None,
        "species_sources": list(dict.fromkeys(each.source for each in timber.species.citations)),
        "doubtful": [each.quantity for each in doubts_of(timber.species, rules)],
        "price": timber.price,
    }


def _parts(piece: Piece, weighed: Weighed | None) -> list[dict[str, Any]]:
    rows = []
    for distinct in distinct_parts(piece):
        part = distinct.part
        mass = None if weighed is None else weighed.parts[part.id]
        rows.append(
            {
                "id": part.id,
                "name": part.name,
                "quantity": distinct.quantity,
                "species": part.timber.species.name,
                "stock": part.timber.name,
                "moisture_pct": part.timber.moisture_pct,
                "length_mm": _tidy(part.blank.length_mm),
                "width_mm": _tidy(part.blank.width_mm),
                "thickness_mm": _tidy(part.blank.thickness_mm),
                "rough_length_mm": _tidy(part.blank.length_mm + part.rough.length_mm),
                "rough_width_mm": _tidy(part.blank.width_mm + part.rough.width_mm),
                "volume_mm3": None if mass is None else mass.volume_mm3,
                "mass_kg": None if mass is None else mass.mass_kg,
                "cuts": [record_of(cut) for cut in part.cuts],
            }
        )
    return rows


def _placements(piece: Piece) -> list[dict[str, Any]]:
    return [
        {
            "instance": each.instance,
            "part": each.part.id,
            "origin_mm": [_tidy(value) for value in each.placement.origin],
            "x_axis": [_tidy(value) for value in each.placement.x_axis],
            "y_axis": [_tidy(value) for value in each.placement.y_axis],
            "z_axis": [_tidy(value) for value in each.placement.z_axis],
        }
        for each in piece.placed
    ]


def _tidy(value: float) -> float:
    """Free of rounding dust, and never minus nothing."""
    if not math.isfinite(value):
        raise ValueError(f"{value} is not a number to write")
    return round(value, 9) + 0.0


def _face(face: JointFace) -> dict[str, Any]:
    return {
        "what": face.what,
        "centre_mm": _point(face.centre),
        "normal": _point(face.normal),
        "along": _point(face.along),
        "run_mm": _tidy(face.run_mm),
        "deep_mm": _tidy(face.deep_mm),
        "taken_mm2": round(face.taken_mm2, 3),
        "play_mm": _tidy(face.play_mm),
        **({"drawn_off_mm": _tidy(face.drawn_off_mm)} if face.drawn_off_mm else {}),
        "glue": None if face.glue is None else face.glue.value,
    }


def _fastener(fastener: Fastener) -> dict[str, Any]:
    return {
        "by": fastener.by.value,
        "name": fastener.name,
        "at_mm": _point(fastener.at),
        "axis": _point(fastener.axis),
        "diameter_mm": _tidy(fastener.diameter_mm),
        "length_mm": _tidy(fastener.length_mm),
        "into_mm": _tidy(fastener.into_mm),
        "is_glued": fastener.is_glued,
        "pull_n": None if fastener.pull_n is None else round(fastener.pull_n, 3),
        "side_n": None if fastener.side_n is None else round(fastener.side_n, 3),
        "slot": None if fastener.slot is None else _slot(fastener.slot),
        "source": fastener.source,
    }


def _slot(slot: InSlot) -> dict[str, Any]:
    across = slot.across_n
    return {
        "along": _point(slot.along),
        "across_n": None if across is None else round(across, 3),
    }


def _point(point: Vector) -> list[float]:
    return [_tidy(value) for value in point]
