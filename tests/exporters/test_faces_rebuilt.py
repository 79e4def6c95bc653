"""What joints and anchors say of the wood holds in the piece that another kernel rebuilds."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from manifold3d import Manifold

from exporters.summary import summary_of, write_summary
from furniture.pieces import Piece
from tests.exporters.rebuild import load, rebuilt_piece
from tests.exporters.whole_pieces import random_piece
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models

SLAB_MM = 0.05
"""How deep under a face its wood is looked for: less than any play that a fit leaves."""
CURVE_SHARE = 2e-5
"""How far flattening a circle into 720 sides may move an area, as a share of it."""


def _summary(piece: Piece, folder: Any) -> dict[str, Any]:
    return load(write_summary(summary_of(piece, None, (), ()), folder / "piece.json"))


def _under(face: dict[str, Any], outwards: int) -> Manifold:
    """The slab over a face's rectangle, out of the incoming part (1) or into it (-1)."""
    along, normal = np.array(face["along"]), np.array(face["normal"])
    across = np.cross(normal, along)
    low = min(outwards, 0) * SLAB_MM
    slab = Manifold.cube((face["run_mm"], face["deep_mm"], SLAB_MM)).translate(
        (-face["run_mm"] / 2, -face["deep_mm"] / 2, low)
    )
    return slab.transform(np.column_stack([along, across, normal, face["centre_mm"]]))


def _areas(face: dict[str, Any], incoming: Manifold, into: Manifold) -> tuple[float, float, float]:
    """Wood under the face in the incoming part, in the other, and where both have it [mm2]."""
    ends, begins = incoming ^ _under(face, -1), into ^ _under(face, 1)
    pushed = ends.translate((np.array(face["normal"]) * SLAB_MM).tolist())
    return tuple(each.volume() / SLAB_MM for each in (ends, begins, pushed ^ begins))


def _faults(summary: dict[str, Any]) -> tuple[int, list[str]]:
    """How many faces touch, and those whose wood is not as stated.

    A face's sides may slope by up to 45 degrees, so that each part's slab is half its depth
    narrower or wider there: the slab's whole depth for both, all round.
    """
    placed = rebuilt_piece(summary)
    count, faults = 0, []
    for joint in summary["joints"]:
        for face in joint["faces"]:
            if face["play_mm"] > 0.0:
                continue
            count += 1
            run, deep = face["run_mm"], face["deep_mm"]
            stated = run * deep - face["taken_mm2"]
            slack = SLAB_MM * 2 * (run + deep) + CURVE_SHARE * stated
            ends, begins, both = _areas(face, placed[joint["from"]], placed[joint["into"]])
            if min(ends, begins) < stated - slack or abs(both - stated) > slack:
                faults.append(
                    f"{joint['kind']} of {joint['from']} in {joint['into']}, {face['what']}: "
                    f"{stated:.2f} stated, {ends:.2f}, {begins:.2f}, {both:.2f} of both"
                )
    return count, faults


@pytest.mark.parametrize("name", NAMES)
def test_faces_of_the_models_touch_where_and_as_far_as_stated(name, tmp_path):
    count, faults = _faults(_summary(piece_of(name), tmp_path))
    assert count
    assert faults == []


@pytest.mark.seeds(few=2, full=30)
def test_faces_of_random_pieces_touch_where_and_as_far_as_stated(seed, tmp_path):
    count, faults = _faults(_summary(random_piece(seed), tmp_path))
    assert count
    assert faults == []


@pytest.mark.parametrize("off_mm", [-SLAB_MM, SLAB_MM])
def test_a_face_stated_a_slab_too_high_or_too_low_is_found(off_mm, tmp_path):
    summary = _summary(piece_of(NAMES[0]), tmp_path)
    touching = [f for j in summary["joints"] for f in j["faces"] if f["play_mm"] == 0.0]
    for face in touching:
        face["centre_mm"] = (
            np.array(face["centre_mm"]) + off_mm * np.array(face["normal"])
        ).tolist()
    count, faults = _faults(summary)
    assert len(faults) == count == len(touching)


def test_anchors_pass_their_part_into_the_wall(tmp_path):
    """The shank finds its hole, with wood round it, and leaves the part where the wall begins."""
    summary = _summary(piece_of("key_rack"), tmp_path)
    placed = rebuilt_piece(summary)
    assert summary["anchors"]
    for anchor in summary["anchors"]:
        wood = placed[anchor["instance"]]
        assert anchor["fasteners"]
        for screw in anchor["fasteners"]:
            at, axis = np.array(screw["at_mm"]), np.array(screw["axis"])
            inside = screw["length_mm"] - screw["into_mm"]
            assert inside > 0.0
            radius = screw["diameter_mm"] / 2
            assert _round_bar(at, -axis, inside, radius, wood) == pytest.approx(0.0, abs=0.01)
            assert _round_bar(at, -axis, inside, 2 * radius, wood) > 0.0
            for solid in placed.values():
                assert _round_bar(at, axis, screw["into_mm"], 2 * radius, solid) < 0.01


def _round_bar(at: Any, way: Any, long: float, radius: float, wood: Manifold) -> float:
    """The wood in a round bar from a point along a way [mm3]."""
    other = np.eye(3)[int(np.argmin(np.abs(way)))]
    x = np.cross(other, way)
    x /= np.linalg.norm(x)
    bar = Manifold.cylinder(long, radius, radius, 180)
    return (bar.transform(np.column_stack([x, np.cross(way, x), way, at])) ^ wood).volume()
