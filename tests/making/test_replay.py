"""Settings alone make the parts: shown on work written down by hand, whole and with faults."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from furniture.making.settings import Setting
from furniture.parts.faces import Face
from tests.making.hand_made import KERF, SKIM, STRIP, THICK, HandMade, post, rails
from tests.making.replay import CannotBeMade, replay
from tests.making.targets import SAME_MM3, Target, apart_mm3, target_of
from tests.models import piece_of


@pytest.fixture(scope="module")
def target() -> Target:
    return target_of(piece_of("herb_stand"))


def worst(making: HandMade, target: Target) -> float:
    """How far the part that came out worst is from what it should be [mm3]."""
    parts = replay(making).parts
    return max(apart_mm3(solid, target.parts[name]) for name, solid in parts.items())


@pytest.mark.parametrize("making", [rails(), post()], ids=["rails", "post"])
def test_parts_come_out_of_settings_alone(making: HandMade, target: Target) -> None:
    done = replay(making)
    assert set(done.parts) == {name for each in making.workpieces for name in each.instances}
    assert worst(making, target) < 0.01
    assert done.untrue == ()
    assert done.by_hand == ()


def test_what_is_left_over_is_as_worked_by_hand() -> None:
    # The strip as worked by hand. Between two rails of the middle falls a wedge, of a triangle
    # that begins (k sqrt 2 - s) / 2 below the outside and is twice as wide as it is deep: 312.84
    # mm2 where it is whole, and less where a rabbet has taken the inner 10 mm.
    assert pytest.approx(970.10, abs=0.01) == STRIP
    begins = (KERF * math.sqrt(2) - SKIM) / 2
    assert (THICK - begins) ** 2 == pytest.approx(312.84, abs=0.01)
    rabbets = 6.4 + 13.9
    wedge = (THICK - begins) ** 2 * (84 - rabbets) + (THICK - 10 - begins) ** 2 * rabbets
    found = sorted(each.solid.volume() for each in replay(rails()).left_over)
    end = (1000 - 8 - STRIP - KERF) * 84 * THICK
    assert found == pytest.approx([wedge, end, 1000 * 6.8 * THICK])


def _setting(making: HandMade, key: str) -> Any:
    return next(each.setting for each in making.operations if each.key == key)


@pytest.mark.some(few=5)
@pytest.mark.parametrize(
    ("making", "key", "change", "least_mm3"),
    [
        (post(), "post: dado c", {"near_mm": 370.2}, 153.0),
        (post(), "post: dado c", {"depth_mm": 7.1}, 148.0),
        (post(), "post: dado c", {"width_mm": 13.63}, 76.0),
        (post(), "post: dado c", {"off": Face.FAR_END}, 1e4),
        (post(), "post: dado c", {"face": Face.BACK_SIDE}, 1e4),
        (post(), "post: dowel a in the face edge", {"at_mm": (18.5, THICK / 2)}, 10.0),
        (post(), "post: dowel a in the face edge", {"off": (Face.FAR_END, Face.FACE_SIDE)}, 460.0),
        (post(), "post: trim the top", {"at_mm": 707.6}, 200.0),
        (post(), "post: square the foot", {"takes_mm": 4.9}, 200.0),
        (post(), "B: plane", {"at_mm": THICK - 0.1}, 7000.0),
        (rails(), "front rail: trim", {"takes_mm": SKIM - 0.1}, 100.0),
        (rails(), "left stub: part", {"at_mm": 105.1}, 100.0),
        (rails(), "left side rail: part", {"long_face": Face.BACK_SIDE}, 1e4),
        (rails(), "left side rail: part", {"kerf_mm": KERF + 0.5}, 100.0),
        (rails(), "left stub: part", {"lean_deg": 44.9}, 46.0),
        (rails(), "strip: rabbet at the back edge", {"off": Face.FACE_EDGE}, 1e4),
        (rails(), "strip: to length", {"at_mm": STRIP + 0.1}, 100.0),
    ],
    ids=lambda value: value if isinstance(value, str) else None,
)  # fmt: skip
def test_a_setting_that_is_a_little_out_is_found(
    making: HandMade, key: str, change: dict[str, Any], least_mm3: float, target: Target
) -> None:
    """A tenth of a millimetre, a reference turned, a face or a lean the wrong way."""
    setting: Setting = replace(_setting(making, key), **change)
    assert worst(making.changed(key, setting), target) > max(SAME_MM3, least_mm3)


@pytest.mark.some(few=3)
@pytest.mark.parametrize(
    ("making", "key"),
    [
        (rails(), "left side rail: trim"),
        (rails(), "strip: rabbet at the face edge"),
        (rails(), "left stub: dowel b"),
        (rails(), "strip: square the named end"),
        (post(), "post: dado e"),
        (post(), "post: trim the top"),
        (post(), "B: joint the edge"),
    ],
)
def test_a_pass_that_is_left_out_is_found(making: HandMade, key: str, target: Target) -> None:
    assert worst(making.without(key), target) > SAME_MM3


def test_work_on_wood_that_is_not_in_hand_is_refused() -> None:
    with pytest.raises(CannotBeMade, match="strip is not in hand"):
        replay(rails().swapped("A: rip", "strip: to length"))
    slit = replace(_setting(post(), "post: dado c"), depth_mm=25.0)
    with pytest.raises(CannotBeMade, match="pieces of wood"):
        replay(post().changed("post: dado c", slit))


def test_a_workpiece_that_says_another_size_than_its_wood_has_is_found() -> None:
    making = post()
    first, part, rest = making.workpieces
    longer = replace(part, high=(735.2, *part.high[1:]))
    (told,) = replay(HandMade((first, longer, rest), making.operations)).untrue
    assert "735.2" in told
