"""Verdicts carried out by another kernel, from the records alone: what comes out is the new part.

The old part is rebuilt from its record, laid as the verdict says, sawn off where it says, and only
the cuts that it lists are made. Nothing of the package under test works here but its values.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import lru_cache
from itertools import product
from typing import Any

import numpy as np
from manifold3d import Manifold

from exporters.summary import summary_of
from furniture.job import Say, Verdict
from furniture.job.old import OldPart
from furniture.job.values import Place, Turn
from furniture.parts.cuts import record_of
from furniture.pieces import Piece
from tests.exporters.rebuild import _TOOLS, FACES, rebuilt_parts

SHAVING_MM3 = 1.0
FLOAT_MM3 = 0.5
"""What the rebuilding of two parts with other overshoots comes to."""


def solids_of(piece: Piece) -> tuple[dict[str, Manifold], dict[str, dict[str, Any]]]:
    """Every instance's solid in its part frame, and the record of its part."""
    summary = summary_of(piece, None, (), ())
    rows = {row["id"]: row for row in summary["parts"]}
    of = {row["instance"]: rows[row["part"]] for row in summary["placements"]}
    return {name: _solid(_figures(row)) for name, row in of.items()}, of


def _figures(row: Mapping[str, Any]) -> str:
    """What a part's solid is built from, out of its record."""
    return json.dumps({key: row[key] for key in ("length_mm", "width_mm", "thickness_mm", "cuts")})


@lru_cache(maxsize=512)
def _solid(figures: str) -> Manifold:
    """A part's solid from its record: most parts of two designs are the same."""
    return rebuilt_parts({"parts": [{"id": "it", **json.loads(figures)}]})["it"]


def old_solid(old: OldPart) -> Manifold:
    """An old part from its own figures."""
    return _solid(_figures(_row(old)))


def _row(old: OldPart) -> dict[str, Any]:
    return {
        "length_mm": old.blank.length_mm,
        "width_mm": old.blank.width_mm,
        "thickness_mm": old.blank.thickness_mm,
        "cuts": [record_of(cut) for cut in old.cuts],
    }


def laid(solid: Manifold, old: OldPart, place: Place) -> Manifold:
    """An old solid in the frame of the new part, as the place says."""
    signs = {
        Turn.NONE: (1, 1, 1),
        Turn.OVER_ALONG: (1, -1, -1),
        Turn.END_FOR_END_AND_OVER: (-1, 1, -1),
        Turn.END_FOR_END: (-1, -1, 1),
    }[place.turn]
    matrix = np.zeros((3, 4))
    for axis, (sign, size, off) in enumerate(
        zip(signs, old.blank.size, place.off_low, strict=True)
    ):
        matrix[axis, axis] = sign
        matrix[axis, 3] = (0.0 if sign > 0 else size) - off
    assert np.isclose(np.linalg.det(matrix[:, :3]), 1.0)
    return solid.transform(matrix)


def carried_out(verdict: Verdict, row: Mapping[str, Any]) -> Manifold:
    """The part that comes of a verdict: trimmed as told, and only the cuts made that it lists."""
    assert verdict.old is not None
    assert verdict.place is not None
    solid = laid(old_solid(verdict.old), verdict.old, verdict.place)
    size = (row["length_mm"], row["width_mm"], row["thickness_mm"])
    sizes = dict(enumerate(verdict.old.blank.size))
    for each in verdict.off:
        axis, far = FACES[each.face.value]
        assert np.isclose(each.before_mm, sizes[axis])
        assert np.isclose(each.after_mm, size[axis])
        normal = np.zeros(3)
        normal[axis] = -1.0 if far else 1.0
        solid = solid.trim_by_plane(normal.tolist(), -size[axis] if far else 0.0)
    for made in verdict.cuts:
        cut = row["cuts"][made.index]
        solid = solid - _TOOLS[cut["kind"]](cut, size)
    return solid


@lru_cache(maxsize=1024)
def _wrong_mm3(verdict: Verdict, figures: str) -> float:
    """How much wood is too much or too little when a verdict is carried out [mm3]."""
    made, wanted = carried_out(verdict, json.loads(figures)), _solid(figures)
    return (made.volume() - (both := (made ^ wanted).volume())) + (wanted.volume() - both)


def faults_of(verdicts: tuple[Verdict, ...], new: Piece) -> list[str]:
    """What is wrong with verdicts: parts left out or told twice, wood used twice, untrue ones."""
    solids, rows = solids_of(new)
    now = [each for each in verdicts if each.say is not Say.NOT_NEEDED]
    faults = [] if [each.instance for each in now] == list(solids) else ["not every part is told"]
    taken = [each.old.name for each in now if each.old is not None]
    if len(taken) != len(set(taken)):
        faults.append("an old part serves twice")
    for each in now:
        if each.say is Say.MAKE_NEW:
            if each.old is not None or not each.why:
                faults.append(f"{each.instance}: new without a reason")
            continue
        wrong = _wrong_mm3(each, _figures(rows[each.instance]))
        if wrong > SHAVING_MM3 + FLOAT_MM3:
            faults.append(f"{each.instance}: {each.say.value} leaves {wrong:.1f} mm3 wrong")
        if each.say is Say.AS_IS and (each.off or each.cuts):
            faults.append(f"{each.instance}: as it is, and yet something to do")
        if each.say is not Say.AS_IS and not (each.off or each.cuts):
            faults.append(f"{each.instance}: nothing to do, and yet not as it is")
    return faults


def holds_somewhere(old: OldPart, wanted: Manifold, size: tuple[float, float, float],
                    tries: np.ndarray) -> bool:  # fmt: skip
    """Whether an old part holds a new solid at one of many places: ends, and shares of the play.

    Args:
        old: the wood.
        wanted: the new part's solid in its frame.
        size: of its blank [mm].
        tries: shares of what there is to move on an axis.
    """
    spare = [had - needed for had, needed in zip(old.blank.size, size, strict=True)]
    if min(spare) < -1e-6:
        return False
    solid = old_solid(old)
    offsets = [[0.0] if each < 1e-6 else [each * share for share in tries] for each in spare]
    for turn, low in product(Turn, product(*offsets)):
        high = tuple(each - at for each, at in zip(spare, low, strict=True))
        place = Place(turn=turn, off_low=low, off_high=high)
        if (wanted - laid(solid, old, place)).volume() < SHAVING_MM3 / 2:
            return True
    return False
